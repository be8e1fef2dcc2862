"""What must be said of nitrogen: given before, near water, by a bag, on a day chosen by hand."""

from collections.abc import Sequence
from datetime import date

from turfplan.book.citations import who_says
from turfplan.book.entries import Book
from turfplan.book.words import grass_name
from turfplan.calendar_days import DAYS
from turfplan.climate.record import Climate
from turfplan.message import Day, Message, Quantity
from turfplan.phrases import feeding as phrases
from turfplan.records.book_names import of_species
from turfplan.records.brief import Brief
from turfplan.work.feeding.bag import product_cautions
from turfplan.work.feeding.blackouts import Blackout, blackouts_of, in_us
from turfplan.work.feeding.feedings import NitrogenFeeding
from turfplan.work.feeding.limits import limits_of
from turfplan.work.feeding.nutrients import Nutrient
from turfplan.work.feeding.slots import FeedingSeason, in_heat


def day_faults(
    brief: Brief, book: Book, climate: Climate, species_id: str, day: date
) -> tuple[Message, ...]:
    """What speaks against feeding on a day that somebody chose by hand, each with its source.

    That is a blackout, heat, or grass at rest.
    """
    blackouts, _ = blackouts_of(brief, book)
    season = FeedingSeason(brief, book, climate, species_id, blackouts)
    against = [
        phrases.against_blackout(blackout=b.what, source=b.source)
        for b in blackouts
        if b.holds(day)
    ]
    if (mark := in_heat(season, day)) is not None:
        against.append(
            phrases.against_heat(
                air=Quantity(climate.air_c(day), "temperature"),
                source=who_says(book, book.fact(mark).source),
            )
        )
    rest = book.fact("water.dormant_growth")
    if climate.growth_potential(day, season.kind) < rest.si:
        against.append(phrases.against_rest(source=who_says(book, rest.source)))
    return tuple(against)


def history_cautions(
    brief: Brief, book: Book, species_id: str, blackouts: Sequence[Blackout]
) -> list[Message]:
    """What is said of nitrogen that was given: too much at once, or in a blackout."""
    most = book.fact("feeding.single_max")
    cautions: list[Message] = []
    for use in brief.history.nitrogen:
        if use.rate_g_m2 > most.high_si + book.si("feeding.told_rounding"):
            source = who_says(book, most.source)
            cautions.append(phrases.history_too_much(day=Day(use.on), source=source))
        cautions += [
            phrases.history_blackout(day=Day(use.on), blackout=b.what)
            for b in blackouts
            if b.holds(use.on) and not b.assumed
        ]
    cautions += _near_water(brief, book)
    high, given = book.fact(of_species(species_id, "nitrogen_year")), brief.history.nitrogen
    years = [sum(n.rate_g_m2 for n in given if 0 <= (use.on - n.on).days < DAYS) for use in given]
    if years and max(years) > high.high_si + book.si("feeding.told_rounding"):
        cautions.append(
            phrases.history_too_much_in_year(
                grass=grass_name(book, species_id), source=who_says(book, high.source)
            )
        )
    return cautions


def _near_water(brief: Brief, book: Book) -> list[Message]:
    """How far from open water fertilizer stays: as the brief says, else what is usual."""
    own = brief.local.fertilizer_setback_mm
    if own is not None:
        return [phrases.water_own(distance=Quantity(own, "distance"))]
    if not brief.site.water_body:
        return []
    usual = book.fact("feeding.water_setback")
    distance = Quantity(usual.si, "distance")
    if not in_us(brief):
        return [phrases.water_elsewhere(distance=distance)]
    return [phrases.water_usual(distance=distance, source=who_says(book, usual.source))]


def bag_cautions(
    season: FeedingSeason, given: Sequence[NitrogenFeeding], phosphorus: Nutrient | None
) -> tuple[Message, ...]:
    """What the bag in the brief brings along, judged at the largest feeding; nothing without one.

    Raises TurfplanError for an impossible bag.
    """
    bag = season.brief.feeding
    if bag.analysis is None:
        return ()
    quick = limits_of(season.brief, season.book).quick
    return product_cautions(
        max((feed.rate_g_m2 for feed in given), default=0.0),
        bag.analysis,
        season.book,
        phosphorus_short=phosphorus is not None and phosphorus.short,
        slow_release_percent=bag.slow_release_percent,
        soluble_cap_g_m2=None if quick is None else quick.si,
    )
