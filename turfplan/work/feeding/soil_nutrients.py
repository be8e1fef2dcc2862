"""When potash and phosphate of a soil test go on: as soon as the grass grows, with a feeding where
one is due then, else by themselves; phosphate with the starter where seed gets one."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from types import MappingProxyType

from turfplan.message import Message, nutrient_mass
from turfplan.phrases import amendments as phrases
from turfplan.phrases import amounts as phrases_of
from turfplan.records.book_names import FactName
from turfplan.records.constraints import DaySet
from turfplan.records.items import AmountItem
from turfplan.records.past import KnownFeeding
from turfplan.records.plan_task import Amount
from turfplan.work.drafts import Draft
from turfplan.work.feeding.blackouts import free_days
from turfplan.work.feeding.feedings import NitrogenFeeding
from turfplan.work.feeding.nitrogen_windows import OpenWindow
from turfplan.work.feeding.nutrients import Nutrient, NutrientItem, potash_parts_of
from turfplan.work.feeding.product_amounts import G_IN_KG, mass_amount, rate_amount
from turfplan.work.feeding.slots import FeedingSeason
from turfplan.work.feeding.stages import Quiet
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.operations import CARE, Timing, Wording, make
from turfplan.work.places import WorkPlace
from turfplan.work.watering.water_in import as_water_allows

FACTS: tuple[FactName, ...] = ("feeding.potash_once", "feeding.potash_gap", "feeding.potash_rest")


# What amounts of a nutrient to add are called, by rate and in all.
_ITEMS: Mapping[NutrientItem, tuple[AmountItem, AmountItem]] = MappingProxyType(
    {
        "potash": ("potash to add", "potash to add in all"),
        "phosphate": ("phosphate to add", "phosphate to add in all"),
    }
)


@dataclass(frozen=True, slots=True)
class NutrientPart:
    """One part of a year's potash (K2O) or phosphate (P2O5): its rate, and the days that suit it,
    the first the best.

    `feed` is the key of the feeding that it goes on with; None where it goes on by itself.
    """

    number: int
    rate_g_m2: float
    first: date
    last: date
    feed: str | None = None


@dataclass(frozen=True, slots=True)
class NutrientDays:
    """The days of a plan, from `first` to `last`, those of work, those without grass for it, and
    those in which grass is fed."""

    first: date
    last: date
    quiet: Sequence[Quiet] = ()
    work: DaySet | None = None
    fed: Sequence[OpenWindow] = ()


def potash_parts(
    season: FeedingSeason,
    nutrient: Nutrient | None,
    feeds: Sequence[NitrogenFeeding],
    on: NutrientDays,
) -> tuple[NutrientPart, ...]:
    """The parts that a year's potash goes on in, from the first chance on, none larger than the
    book gives at once; what has no day before the end of the plan is left out.

    None hangs on food that only pale seedlings get.
    """
    if nutrient is None or nutrient.rate_g_m2 <= 0:
        return ()
    book = season.book
    count = potash_parts_of(book, nutrient.rate_g_m2)
    gap = book.fact("feeding.potash_gap")
    found: list[NutrientPart] = []
    free, day = _sure(feeds), on.first
    for number in range(1, count + 1):
        opens = next(_growing(season, on, day), None)
        wait = timedelta(round(gap.high_si))
        # A feeding that is due soon, or comes before there is another chance, takes it along.
        until = day + wait if opens is None else opens + wait
        feed = next((f for f in free if day <= f.best and (opens is None or f.best <= until)), None)
        if feed is not None:
            free = free[free.index(feed) + 1 :]
            part = NutrientPart(number, 0.0, feed.start, feed.end, feed.key)
            day = feed.best + timedelta(round(gap.si))
        elif opens is not None:
            part = NutrientPart(number, 0.0, opens, opens + timedelta(round(gap.low_si)))
            day = opens + timedelta(round(gap.si))
        else:
            break
        found.append(replace(part, rate_g_m2=nutrient.rate_g_m2 / count))
    return tuple(found)


def phosphate_parts(
    season: FeedingSeason,
    nutrient: Nutrient | None,
    starter: NitrogenFeeding | None,
    feeds: Sequence[NitrogenFeeding],
    on: NutrientDays,
) -> tuple[NutrientPart, ...]:
    """When the phosphate of a soil test goes on: with the starter where seed gets one, else as
    potash does, though on no day that is closed to nitrogen: such rules name both as a rule."""
    if nutrient is None or nutrient.rate_g_m2 <= 0:
        return ()
    if starter is not None:
        rate = nutrient.rate_g_m2
        return (NutrientPart(1, rate, starter.start, starter.end, starter.key),)
    free = free_days(on.first, on.last, season.blackouts)
    open_days = DaySet.of((first.toordinal(), last.toordinal()) for first, last in free)
    work = open_days if on.work is None else on.work.intersect(open_days)
    return potash_parts(season, nutrient, feeds, replace(on, work=work))


def _sure(feeds: Sequence[NitrogenFeeding]) -> list[NitrogenFeeding]:
    """The feedings that are given whatever the colour of the grass, in order."""
    return sorted((feed for feed in feeds if not feed.if_pale), key=lambda feed: feed.best)


def _growing(season: FeedingSeason, on: NutrientDays, day: date) -> Iterator[date]:
    """The days from `day` on at which grass stands that grows, and will for weeks."""
    book, growth = season.book, season.climate.growth_potential
    least = book.si("water.dormant_growth")
    # Warm-season grass is brown when it begins to grow: it waits until it is green.
    green = least if season.kind == "cool" else book.si("feeding.late_growth")
    rest = timedelta(round(book.si("feeding.potash_rest")))
    while day <= on.last:
        awake = growth(day, season.kind) >= green or any(w.start <= day <= w.end for w in on.fed)
        grows = awake and growth(day + rest, season.kind) >= least
        works = on.work is None or day.toordinal() in on.work
        if grows and works and not any(q.first <= day <= q.last for q in on.quiet):
            yield day
        day += timedelta(1)


def carried_g_m2(
    parts: Sequence[NutrientPart], feeds: Sequence[NitrogenFeeding], key: str
) -> float:
    """The potash, or the phosphate, that goes on with a feeding.

    A part whose feeding has no day of its own goes on with the next.
    """
    left = _sure(feeds)
    taken: dict[str, float] = {}
    for part in parts:
        own = [feed for feed in left if feed.key == part.feed]
        later = [feed for feed in left if part.feed is not None and feed.best >= part.first]
        if bearer := next(iter((*own, *later)), None):
            taken[bearer.key] = part.rate_g_m2
            left.remove(bearer)
    return taken.get(key, 0.0)


def without_bearer(item: NutrientItem, known: Sequence[KnownFeeding] | None) -> frozenset[str]:
    """The feedings, by key, that are over without this nutrient: they were left out, or came before
    anybody asked for it."""
    return frozenset(k.key for k in known or () if k.over and item not in k.gave)


def still_to_come(
    parts: Sequence[NutrientPart],
    item: NutrientItem,
    known: Sequence[KnownFeeding] | None,
    today: date,
) -> tuple[NutrientPart, ...]:
    """The parts of which one that was to go on by itself goes with the next feeding, where its days
    had gone by before a plan knew of it."""
    keys = {k.key for k in known or ()}
    return tuple(
        replace(part, feed=own)
        if known is not None and part.feed is None and part.last < today and own not in keys
        else part
        for part in parts
        for own in (f"amend.{item}.{part.number}",)
    )


def nutrient_drafts(
    setting: ResolvedLawn,
    nutrient: Nutrient | None,
    parts: Sequence[NutrientPart],
    place: WorkPlace,
) -> list[Draft]:
    """The parts that go on by themselves, as tasks for the place where grass grows."""
    if nutrient is None:
        return []
    alone = (part for part in parts if part.feed is None)
    return [_draft(setting, nutrient, part, len(parts), place) for part in alone]


def _draft(
    setting: ResolvedLawn, nutrient: Nutrient, part: NutrientPart, count: int, place: WorkPlace
) -> Draft:
    area_m2 = setting.plot.area_m2 * place.share
    more = FACTS if nutrient.item == "potash" else FACTS[1:]
    nutrient = replace(nutrient, facts=(*nutrient.facts, *more))
    kg = part.rate_g_m2 * area_m2 / G_IN_KG
    day = part.first.toordinal()
    watered = as_water_allows(
        setting.brief.water,
        freely=phrases.potash_water(),
        by_law=phrases.potash_water_law(),
        on_rain=phrases.washed_in(),
    )
    potash = nutrient.item == "potash"
    what, how = (
        (phrases.potash(), phrases.potash_how())
        if potash
        else (phrases.phosphate(), phrases.phosphate_how())
    )
    draft = make(
        setting,
        "amend",
        f"{nutrient.item}.{part.number}",
        timing=Timing(CARE, ideal=day, position=day, window=(day, part.last.toordinal())),
        wording=Wording(
            nutrient.reason,
            {"what": what, "amount": nutrient_mass(kg)},
            how=(phrases.spread_how(), how, watered),
        ),
        extent=place.extent(setting),
        facts=nutrient.facts,
    )
    why = amount_told(nutrient.item, count)
    by_rate, in_all = nutrient_amounts(nutrient, part.rate_g_m2, area_m2, why)
    return draft.with_amounts(in_all, by_rate)


def nutrient_amounts(
    nutrient: Nutrient, rate_g_m2: float, area_m2: float, why: Message
) -> tuple[Amount, Amount]:
    """What is to add of a nutrient by rate and in all, with its reason."""
    by_rate, in_all = _ITEMS[nutrient.item]
    return (
        rate_amount(by_rate, rate_g_m2, why, nutrient.facts),
        mass_amount(in_all, rate_g_m2, area_m2, why, nutrient.facts),
    )


def amount_told(item: NutrientItem, count: int, bag: str | None = None) -> Message:
    """What an amount is: all that the test asks for, or one of `count` parts; beyond what a bag
    brings."""
    if item == "phosphate":
        return phrases_of.phosphate_beyond(bag=bag) if bag else phrases_of.phosphate_whole()
    if count == 1:
        return phrases_of.potash_whole_beyond(bag=bag) if bag else phrases_of.potash_whole()
    if bag:
        return phrases_of.potash_part_beyond(bag=bag, parts=count)
    return phrases_of.potash_part(parts=count)
