"""What has befallen a lawn, or was measured there: how the page of a day asks for it, what a form
says of it, and how an entry of it is told."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import Final

from starlette.datastructures import FormData

from turfplan.app.log_entry import Happening
from turfplan.app.typed_amounts import measure_of
from turfplan.errors import TurfplanError
from turfplan.files.reading.book import load_book
from turfplan.message import Day, Message, Number, said
from turfplan.messages import Words
from turfplan.phrases import befell_page as phrases
from turfplan.phrases import page as page_phrases
from turfplan.planning.befallen import why_none_lost
from turfplan.records.journal import JournalEntry, MeasuredQuantity
from turfplan.records.plan import Plan
from turfplan.units import System

NamedChoice = Mapping[MeasuredQuantity, Callable[[], Message]]
SEED: NamedChoice = MappingProxyType(
    {
        "seed_washed": phrases.seed_washed,
        "animals": phrases.animals,
        "germination": phrases.germination,
    }
)
LAWN: NamedChoice = MappingProxyType(
    {
        "burned": phrases.burned,
        "heat_stress": phrases.heat_stress,
        "sickness": phrases.sickness,
        "tips_buried": phrases.tips_buried,
        "green_up": phrases.green_up,
        "weed_killer": phrases.weed_killer,
        "heap_wet": phrases.heap_wet,
        "live_cause": phrases.live_cause,
        "cause_left": phrases.cause_left,
    }
)
MEASURED: NamedChoice = MappingProxyType(
    {
        "soil_temperature": phrases.soil_temperature,
        "rain": phrases.rain,
        "grass_height": phrases.grass_height,
        "depth_missing": phrases.depth_missing,
        "grubs": phrases.grubs,
    }
)
BAN: Final[MeasuredQuantity] = "water_ban"
# Of this the page asks whether it is not so yet, the journal whether it is so.
_NOT_YET: Final[MeasuredQuantity] = "green_up"
_SO: Final[Mapping[str, float]] = {"yes": 1.0, "over": 0.0}
SHARES: Final = ("0", "0.25", "0.5", "0.75", "1")
# How each kind of value is typed, by the units of the reader.
EXAMPLES: Final[Mapping[System, str]] = {
    System.US: "58 F, 0.5 in, 5 per ft2",
    System.METRIC: "14 C, 12 mm, 50 per m2",
}


@dataclass(frozen=True, slots=True)
class BefellView:
    """What the page asks with: the names of each kind with their words, the parts of seed, and
    examples of what is typed; `key` is that of what is sent next."""

    key: str
    seed: tuple[tuple[str, str], ...]
    lawn: tuple[tuple[str, str], ...]
    measured: tuple[tuple[str, str], ...]
    shares: tuple[tuple[str, str], ...]
    example: str


def befell_view(entries: tuple[JournalEntry, ...], units: System, words: Words) -> BefellView:
    """What is asked in the words of the reader; `entries` are all of the journal."""
    ends = {"0": phrases.none, "0.25": page_phrases.share_some, "0.5": page_phrases.share_half}
    ends |= {"0.75": page_phrases.share_most, "1": phrases.all}
    return BefellView(
        key=_key(entries),
        seed=_named(SEED, words),
        lawn=_named(LAWN, words),
        measured=_named(MEASURED, words),
        shares=tuple((share, words.text(ends[share]())) for share in SHARES),
        example=EXAMPLES[units],
    )


def befell_name(what: str) -> Message | None:
    """What the page calls a thing that was sent; None for none that it asks about."""
    named = {**SEED, **LAWN, **MEASURED, BAN: phrases.ban_head}.items()
    return next((told() for name, told in named if name == what), None)


def _key(entries: tuple[JournalEntry, ...]) -> str:
    """What is sent twice from one page counts once, and so does what two people send who saw the
    same."""
    return f"page:befell:{max((entry.number for entry in entries), default=0)}"


def _named(named: NamedChoice, words: Words) -> tuple[tuple[str, str], ...]:
    return tuple((name, words.text(told())) for name, told in named.items())


@dataclass(frozen=True, slots=True)
class Befell:
    """Reads a form about the lawn itself; of each field that cannot be read it says what is wrong
    in `errors`."""

    form: FormData
    today: date
    entries: tuple[JournalEntry, ...]
    errors: dict[str, Message]

    def happenings(self) -> Iterator[Happening]:
        """What the form says, nothing where a field cannot be read."""
        quantity, on = self._quantity(), self._day()
        given = None if quantity is None else self._given(quantity)
        if quantity is None or given is None:
            self.errors["what"] = phrases.choose()
            return
        try:
            known, value, unit = measure_of(quantity, given)
        except TurfplanError as error:
            problem = error.problems[0]
            self.errors["value"] = said(problem.hint or problem.message)
            return
        if quantity == BAN and value != round(value):
            self.errors["days"] = phrases.whole_days()
            return
        if on is None:
            return
        key = f"{self._text('key:befell')[:100] or _key(self.entries)}:{quantity}"
        yield Happening(
            "measured", on=on, quantity=known, value=value, unit=unit, key=key, given=given
        )

    def _quantity(self) -> MeasuredQuantity | None:
        name = self._text("what")
        known = (*SEED, *LAWN, *MEASURED, BAN)
        return next((quantity for quantity in known if quantity == name), None)

    def _given(self, quantity: MeasuredQuantity) -> str | None:
        """The value as it would be typed after `log measured`; None where none was chosen."""
        if quantity in LAWN:
            so = _SO.get(self._text("so"))
            if so is None:
                return None
            return f"{1 - so if quantity == _NOT_YET else so:g}"
        if quantity in SEED:
            return self._text("share")
        if quantity == BAN:
            days = self._text("days")
            return f"{days} days" if days.isdecimal() else days
        return self._text("value")

    def _day(self) -> date | None:
        try:
            return date.fromisoformat(self._text("on"))
        except ValueError:
            self.errors["on"] = page_phrases.write_day(example=self.today.isoformat())
            return None

    def _text(self, name: str) -> str:
        value = self.form.get(name)
        return value.strip() if isinstance(value, str) else ""


def befell_sentence(entry: JournalEntry, on: Day) -> Message | None:
    """What an entry says of the lawn; None for what was measured in units of its own."""
    quantity, value = entry.quantity, entry.value or 0.0
    if quantity is None:
        return None
    if quantity in SEED:
        share = Number(value, "percent")
        return phrases.wrote_seed(what=SEED[quantity](), share=share, on=on)
    if quantity in LAWN:
        so = (value == 0) if quantity == _NOT_YET else value > 0
        told = phrases.wrote_so if so else phrases.wrote_over
        return told(what=LAWN[quantity](), on=on)
    if quantity == BAN:
        days = round(value)
        return phrases.wrote_ban(n=days, on=on) if days else phrases.wrote_ban_over(on=on)
    return None


def unheeded(plan: Plan, entry: JournalEntry, entries: tuple[JournalEntry, ...]) -> Message | None:
    """Why what an entry says of seed changes nothing, beside the plan and the journal of before it;
    None where it does."""
    return why_none_lost(load_book(plan.place.region), entry, plan, entries)
