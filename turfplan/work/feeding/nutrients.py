"""What a soil test asks for beside nitrogen: lime, potassium, phosphorus where law allows."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from math import ceil
from typing import Literal

from turfplan.book.bag_analysis import parse_analysis
from turfplan.book.entries import Book
from turfplan.book.words import grass_name
from turfplan.calendar_days import DAYS_IN_MONTH
from turfplan.message import Message, Number, Quantity, sentences
from turfplan.phrases import feeding as phrases
from turfplan.phrases import items
from turfplan.phrases import lime as lime_phrases
from turfplan.records.book_names import FactName, of_family, option_of_family
from turfplan.records.brief import Brief
from turfplan.work.feeding.blackouts import state_of
from turfplan.work.feeding.lime_need import (
    LimeNeed,
    given_before_g_m2,
    lime_need,
)
from turfplan.work.feeding.soil_levels import level_of, yellowing

NutrientItem = Literal["potash", "phosphate"]
NUTRIENTS: Mapping[NutrientItem, Message] = {
    "potash": items.potash(),
    "phosphate": items.phosphate(),
}


@dataclass(frozen=True, slots=True)
class LimePlan:
    """Lime of a soil test: pure lime and product per area, and the parts it is given in.

    `gap_days` (least, most) lie between two parts. On `fresh_ground` there is one part, worked in
    before it is sown.
    """

    pure_g_m2: float
    product_g_m2: float
    parts_g_m2: tuple[float, ...]
    gap_days: tuple[int, int]
    reason: Message
    facts: tuple[FactName, ...]
    fresh_ground: bool = False

    @property
    def gap_months(self) -> tuple[int, int]:
        """The gap in whole months."""
        least, most = (round(days / DAYS_IN_MONTH) for days in self.gap_days)
        return least, most


@dataclass(frozen=True, slots=True)
class Nutrient:
    """Phosphate (P2O5) or potash (K2O) to give, g/m2 a year, with the reason, also for none.

    `short` where test and law leave room for it, though compost may bring it all.
    """

    item: NutrientItem
    rate_g_m2: float
    reason: Message
    facts: tuple[FactName, ...]
    short: bool = False


def split_lime(product_g_m2: float, most_g_m2: float) -> tuple[float, ...]:
    """Equal parts of lime, none more than the surface takes at once."""
    count = max(1, ceil(product_g_m2 / most_g_m2 - 1e-9))
    return (product_g_m2 / count,) * count


def lime_product_g_m2(pure_g_m2: float, cce_percent: float) -> float:
    """Product for an amount of pure lime: amount x 100 / calcium carbonate equivalent."""
    return pure_g_m2 * 100 / cce_percent


def lime_plan(
    brief: Brief, book: Book, species_id: str, *, fresh_ground: bool = False
) -> LimePlan | None:
    """Lime by soil test, or None where no test asks for it; on `fresh_ground` all at once.

    Less what the brief's history has given since.
    """
    need = lime_need(brief, book, species_id, fresh_ground=fresh_ground)
    if need is None or need.rate_g_m2 <= 0:
        return None
    product, of_bag = _product_g_m2(brief, book, need)
    given = given_before_g_m2(brief, book)
    product -= given
    if product <= 0:
        return None
    state = state_of(brief)
    most: FactName = (
        book.known(option_of_family("lime.{state}_single_max", state)) or "lime.single_max"
    )
    gap_name: FactName = (
        book.known(option_of_family("lime.{state}_split_gap", state)) or "lime.split_gap"
    )
    parts = (product,) if fresh_ground else split_lime(product, book.si(most))
    gap = book.fact(gap_name)
    reason = _lime_reason(need.measured, of_bag, parts=0 if fresh_ground else len(parts))
    if given > 0:
        reason = sentences(reason, lime_phrases.less_given(rate=Quantity(given, "rate")))
    facts: tuple[FactName, ...] = (*need.facts, most, gap_name)
    pure = product if need.as_written else product * _cce_percent(brief, book) / 100
    return LimePlan(
        pure, product, parts, (round(gap.low_si), round(gap.high_si)), reason, facts, fresh_ground
    )


def _cce_percent(brief: Brief, book: Book) -> float:
    return brief.feeding.lime_cce_percent or book.si("lime.cce_assumed") * 100


def _product_g_m2(brief: Brief, book: Book, need: LimeNeed) -> tuple[float, Message]:
    """The product that a need comes to, and what is said of its strength.

    A laboratory's own rate is corrected only for a bag that was read.
    """
    told = brief.feeding.lime_cce_percent
    if need.as_written and told is None:
        return need.rate_g_m2, lime_phrases.product_as_rated()
    cce = _cce_percent(brief, book)
    of_bag = lime_phrases.product_told if told else lime_phrases.product_assumed
    return lime_product_g_m2(need.rate_g_m2, cce), of_bag(percent=Number(cce, "plain"))


def _lime_reason(measured: Message, product: Message, *, parts: int) -> Message:
    """Why so much lime, in so many `parts`; none for what is worked into fresh ground at once."""
    if parts > 1:
        return lime_phrases.reason_parts(n=parts, measured=measured, product=product)
    reason = lime_phrases.reason_once if parts else lime_phrases.reason_fresh_ground
    return reason(measured=measured, product=product)


def potassium_plan(brief: Brief, book: Book) -> Nutrient | None:
    """Potash of a year by the level the laboratory found; None without a test."""
    found = level_of(brief, book, "potassium")
    if found is None:
        return None
    name = of_family("feeding.potash_{level}", found.level)
    rate, facts = book.si(name), (name, *found.facts)
    if rate <= 0:
        return Nutrient("potash", 0.0, phrases.potash_enough(), facts)
    parts = potash_parts_of(book, rate)
    if parts == 1:
        return Nutrient("potash", rate, phrases.potash_once(level=found.told), facts)
    return Nutrient("potash", rate, phrases.potash_parts(level=found.told, parts=parts), facts)


def potash_parts_of(book: Book, rate_g_m2: float) -> int:
    """The parts of a year's potash, none of which is more than the grass takes at once."""
    return max(1, ceil(rate_g_m2 / book.si("feeding.potash_once") - 1e-9))


def phosphorus_plan(
    brief: Brief, book: Book, *, seeded: bool, compost: bool, today: date
) -> Nutrient:
    """Phosphate by law first, then by soil test; without either none is given, with the reason."""
    law = brief.local.phosphorus
    if law == "banned":
        return Nutrient("phosphate", 0.0, phrases.phosphate_banned(), ())
    by_state = (
        book.known(option_of_family("law.{state}_phosphorus_test_age", state_of(brief)))
        if law is None
        else None
    )
    oldest: FactName = by_state or "feeding.soil_test_age"
    why_none = _no_phosphate(brief, book, book.si(oldest), today=today)
    if why_none is not None:
        return Nutrient("phosphate", 0.0, why_none, (oldest,))
    if compost:
        return Nutrient("phosphate", 0.0, _of_compost(brief), (oldest,), short=True)
    name: FactName = "feeding.phosphate_low" if seeded else "feeding.phosphate_low_established"
    if by_state is not None:
        reason = phrases.phosphate_state_test()
    else:
        reason = phrases.phosphate_law_test() if law == "test" else phrases.phosphate_ask()
    return Nutrient("phosphate", book.si(name), reason, (oldest, name), short=True)


def _of_compost(brief: Brief) -> Message:
    """Why compost leaves none to add, and what of a bag at hand that brings some."""
    bag = brief.feeding.analysis
    if bag is None or parse_analysis(bag).phosphate_percent <= 0:
        return phrases.phosphate_compost()
    return phrases.phosphate_compost_bag(bag=bag)


def _no_phosphate(brief: Brief, book: Book, oldest_days: float, *, today: date) -> Message | None:
    """Why a soil test asks for no phosphate; None where it does."""
    test = brief.soil_test
    if test.phosphorus is None:
        tested = test.model_dump(exclude_none=True, exclude={"on"})
        return phrases.phosphate_not_tested() if tested else phrases.phosphate_no_test()
    found = level_of(brief, book, "phosphorus")
    if found is None:
        return phrases.phosphate_unread()
    if (grass := yellowing(brief, book)) is not None:
        return phrases.phosphate_yellows(grass=grass_name(book, grass))
    if test.on is None:
        return phrases.phosphate_no_date()
    if (today - test.on).days > oldest_days:
        return phrases.phosphate_too_old(day=str(test.on))
    return None if found.level == "low" else phrases.phosphate_enough(level=found.told)


def soil_test_notes(
    lime: LimePlan | None, nutrients: Sequence[Nutrient | None]
) -> tuple[Message, ...]:
    """What the soil test asks for: lime with its parts, each nutrient or why there is none."""
    notes: list[Message] = []
    if lime is not None:
        notes.append(_lime_note(lime))
    for nutrient in nutrients:
        if nutrient is None:
            continue
        item, rate = NUTRIENTS[nutrient.item], nutrient.rate_g_m2
        notes.append(
            phrases.test_given(nutrient=item, rate=Quantity(rate, "rate"), reason=nutrient.reason)
            if rate > 0
            else phrases.test_none(nutrient=item, reason=nutrient.reason)
        )
    return tuple(notes)


def _lime_note(lime: LimePlan) -> Message:
    part = Quantity(lime.parts_g_m2[0], "rate", "up")
    if len(lime.parts_g_m2) == 1:
        return lime_phrases.note_once(rate=part, reason=lime.reason)
    least, most = lime.gap_months
    return lime_phrases.note_parts(
        parts=len(lime.parts_g_m2), rate=part, least=least, most=most, reason=lime.reason
    )
