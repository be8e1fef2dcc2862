"""What weed killers, sowings and moss treatments of the past mean for seed and passes."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta

from turfplan.book.citations import who_says
from turfplan.book.entries import Book, Herbicide
from turfplan.book.words import grass_name
from turfplan.message import Day, Message
from turfplan.phrases import weed_killers as phrases
from turfplan.records.book_names import FactName, of_herbicide
from turfplan.records.brief import HerbicideUse

# A bag that feeds and kills weeds at once says on its label what it kills them with.
FEEDS_TOO = ("weed_and_feed", "weed_&_feed", "feed_and_weed", "weed_feed")


@dataclass(frozen=True, slots=True)
class Hold:
    """What a treatment keeps free of seed: until which day (ordinal; None: until its label or a
    pot test says so), why, and the facts behind it.

    `known` is what the book has of it; `by_label` where the brief says what the label says.
    """

    number: int
    key: str
    until: int | None
    why: Message
    facts: tuple[FactName, ...]
    known: Herbicide | None
    by_label: bool = False

    @property
    def unnamed(self) -> bool:
        """Whether nobody said what it was: only its name, or its label, tells when seed may
        follow."""
        return self.known is None and self.until is not None and not self.by_label

    @property
    def asks(self) -> bool:
        """Whether the owner has something to find out: the book, or the label, lacks an answer."""
        return self.known is None or self.until is None


def holds_of(book: Book, uses: tuple[HerbicideUse, ...], sown: tuple[str, ...]) -> tuple[Hold, ...]:
    """What each treatment keeps free of seed of the grasses `sown`, in the order of the brief."""
    return tuple(_hold(book, number, use, sown) for number, use in enumerate(uses, 1))


def _hold(book: Book, number: int, use: HerbicideUse, sown: tuple[str, ...]) -> Hold:
    key = key_of(use.active_ingredient)
    known, name, on = book.herbicides.get(key), use.active_ingredient, Day(use.on)
    if key == "unknown":
        known = None
    if use.seed_after is not None or use.hold_days is not None:
        day = use.seed_after or use.on + timedelta(days=use.hold_days or 0)
        label = phrases.by_label(ingredient=name, day=on, after=Day(day))
        return Hold(number, key, day.toordinal(), label, (), known, by_label=True)
    if known is not None and known.stops:
        fact = of_herbicide(known.id, "hold")
        months = round(book.fact(fact).si / _MONTH)
        why = phrases.stops(ingredient=name, day=on, n=months)
        return Hold(number, key, None, why, (fact,), known)
    harm = next(
        ((h.grass, h.source) for h in known.harms if h.grass in sown) if known else iter(()), None
    )
    fact = of_herbicide("unknown" if known is None or harm else known.id, "hold")
    days = round(book.fact(fact).high_si)
    until, weeks = use.on.toordinal() + days, days // 7
    if key in FEEDS_TOO:
        why = phrases.weed_and_feed(day=on, n=weeks)
    elif known is None:
        why = phrases.unknown(ingredient=name, day=on, n=weeks)
    elif harm is not None:
        source, grass = who_says(book, harm[1]), grass_name(book, harm[0])
        why = phrases.harms(ingredient=name, day=on, grass=grass, source=source, n=weeks)
    else:
        why = phrases.holds(ingredient=name, day=on, n=weeks)
    return Hold(number, key, until, why, (fact,), known)


# Days of a mean month, for telling.
_MONTH = 365.25 / 12


def key_of(ingredient: str) -> str:
    """An ingredient as the book calls it: small letters, joined by underscores."""
    return "_".join(ingredient.strip().lower().replace("-", " ").split())


def carried_on(holds: tuple[Hold, ...], book: Book, *, compost: bool) -> Iterator[Message]:
    """What is said of killers that live on in clippings and compost."""
    named = [hold for hold in holds if hold.known is not None and hold.known.carried is not None]
    for hold in named:
        assert hold.known is not None and hold.known.carried is not None
        source = who_says(book, hold.known.carried)
        yield phrases.clippings(ingredient=hold.known.name, source=source)
    if compost and named:
        yield phrases.own_compost()
