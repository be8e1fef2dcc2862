"""Whether seed or plants can be kept moist here, asked before any day is chosen."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from turfplan.book.entries import Book
from turfplan.book.words import grass_name
from turfplan.calendar_days import PLAIN_YEAR, day_index, month_totals
from turfplan.climate.record import Climate
from turfplan.message import Days, Message, Month, Number, listed, sentences
from turfplan.phrases import watering as phrases
from turfplan.records.book_names import FactName, of_species
from turfplan.records.brief import Brief
from turfplan.work.planted import plants
from turfplan.work.watering.hours import law_of
from turfplan.work.watering.rain_fed import kept_wet, rain_share
from turfplan.work.watering.run_times import MINUTES_IN_HOUR, WateringZone, run_minutes


@dataclass(frozen=True, slots=True)
class Verdict:
    """Whether seed or plants can be kept moist here.

    It `needs_permit` for days that are closed, or to ask for hours by day where none is allowed.
    `closed` are the first and last days of stretches in which sowing would meet a watering ban.
    """

    ok: bool
    reasons: tuple[Message, ...]
    needs_permit: bool
    cautions: tuple[Message, ...]
    closed: tuple[tuple[date, date], ...] = ()
    facts: tuple[FactName, ...] = ()


@dataclass(frozen=True, slots=True)
class _Young:
    """Seed, or plants (`planted`), that have to be kept moist.

    `days` go by until it is up or rooted, `tender_days` are those of daily water in all.
    """

    grass: Message
    planted: bool
    days: int
    tender_days: int
    facts: tuple[FactName, ...]


def watering_verdict(
    brief: Brief, book: Book, climate: Climate, species_id: str, zones: Sequence[WateringZone] = ()
) -> Verdict:
    """Can seed (or plants) of this species be kept moist under the brief's water and law?

    With `zones` the verdict also says when the lawful hours of a day are too short for the whole
    lawn.
    """
    young = _young(brief, book, species_id)
    law, water = law_of(brief.water), brief.water
    gap, short = law.longest_gap_days(), too_few_days(brief, book)
    reasons: list[Message] = []
    rain_fed: list[Message] = []
    wet = water.possible is False and any(days_kept_wet(brief, book, climate, species_id))
    if water.possible is False and brief.seeding.intent == "dormant":
        # It was asked for: what is doubtful of its rain is told, and not that nothing is sown.
        if climate.rain_doubt is not None:
            rain_fed = [phrases.verdict_dormant_doubtful(grass=young.grass)]
        elif not wet:
            wakes = phrases.verdict_dormant_dry(grass=young.grass)
            rain_fed = [sentences(wakes, _usual_rain(climate, book))]
    elif water.possible is False and climate.rain_doubt is not None:
        reasons.append(
            sentences(phrases.verdict_rain_doubtful(grass=young.grass), climate.rain_doubt)
        )
    elif water.possible is False:
        if wet:
            alone = phrases.verdict_rain_plants if young.planted else phrases.verdict_rain_seed
            rain_fed = [sentences(alone(grass=young.grass), _usual_rain(climate, book))]
        else:
            dry = (
                phrases.verdict_no_water_plants if young.planted else phrases.verdict_no_water_seed
            )
            reasons.append(sentences(dry(grass=young.grass), _usual_rain(climate, book)))
    if short and water.permit is False:
        gaping = phrases.verdict_gap_plants if young.planted else phrases.verdict_gap_seed
        waits = gaping(gap=gap, grass=young.grass, days=young.days)
        reasons.append(sentences(waits, _usual_rain(climate, book)))
    dark = water.possible is not False and only_dark_hours(brief, book)
    cautions = [
        *rain_fed,
        *([phrases.verdict_dark_hours()] if dark else []),
        *_unsaid(brief, young),
        *_short_hours(brief, book, climate, zones, planted=young.planted),
    ]
    closed = tuple((span.start - timedelta(young.tender_days), span.end) for span in water.banned)
    for (first, last), span in zip(closed, water.banned, strict=True):
        cautions.append(
            phrases.verdict_banned(
                banned=Days(span.start, span.end, weekday=False),
                closed=Days(first, last, weekday=False),
                days=young.tender_days,
            )
        )
    return Verdict(
        not reasons,
        tuple(reasons),
        short or (dark and water.permit is None),
        tuple(cautions),
        closed,
        ("water.germination_gap", *young.facts),
    )


def tender_days(brief: Brief, book: Book, species_id: str) -> tuple[int, int]:
    """The days until seed is up or plants have rooted, and those in which they must not dry out."""
    young = _young(brief, book, species_id)
    return young.days, young.tender_days


def days_kept_wet(brief: Brief, book: Book, climate: Climate, species_id: str) -> tuple[bool, ...]:
    """On which days of the year (365 places) seed or plants of a species can be put in on rain
    alone: usual rain then keeps them wet until they need it no more."""
    share = rain_share(book, climate, *tender_days(brief, book, species_id))
    return kept_wet(book, climate, book.species[species_id].season, share)


def told_of_water(brief: Brief) -> bool:
    """Whether the brief says that the lawn can be watered, or how: by a rate, by days, by a permit.

    What water costs says nothing of it.
    """
    water = brief.water
    return water.possible is not None or bool(water.model_fields_set - {"possible", "price_per_m3"})


def too_few_days(brief: Brief, book: Book) -> bool:
    """Whether the allowed days of watering lie farther apart than seed or new plants bear."""
    law = law_of(brief.water)
    return law.restricts_days and law.longest_gap_days() > round(book.si("water.germination_gap"))


def too_dry_to_relay(brief: Brief, book: Book) -> bool:
    """Whether turf that is lifted and laid back could lawfully not be kept moist until it roots.

    It is watered as sod is: at once, and then day by day. Where nobody waters, rain decides.
    """
    water = brief.water
    return water.possible is not False and water.permit is False and too_few_days(brief, book)


def relaid_gap(brief: Brief, book: Book) -> Message:
    """Why no turf is lifted where the lawful days are too few and there is no permit."""
    days = round(book.fact("water.rooting_days").high_si)
    return phrases.verdict_gap_relaid(gap=law_of(brief.water).longest_gap_days(), days=days)


def only_dark_hours(brief: Brief, book: Book) -> bool:
    """Whether no hour between dawn and dusk is allowed for watering."""
    dawn, dusk = book.si("water.start_morning"), book.si("water.start_evening")
    return law_of(brief.water).only_dark(dawn, dusk)


def _young(brief: Brief, book: Book, species_id: str) -> _Young:
    grass, up = grass_name(book, species_id), of_species(species_id, "germination_days")
    if plants(brief, book) or up not in book.facts:
        days = round(book.fact("water.rooting_days").high_si)
        return _Young(grass, True, days, days, ("water.rooting_days",))
    grown: FactName = "setting.seedling_growth_days"
    days = round(book.fact(up).high_si)
    return _Young(grass, False, days, days + round(book.si(grown)), (up, grown))


def _unsaid(brief: Brief, young: _Young) -> list[Message]:
    """That nobody told of any water."""
    if told_of_water(brief):
        return []
    unsaid = phrases.verdict_unsaid_plants if young.planted else phrases.verdict_unsaid_seed
    return [unsaid(days=young.tender_days, grass=young.grass)]


def _usual_rain(climate: Climate, book: Book) -> Message:
    """The months in which usual rain outdoes what a wet surface loses while grass is not frozen."""
    wet, least = book.si("water.kc_wet_surface"), book.si("water.dormant_growth")
    rains, losses = month_totals(climate.rain_mm), month_totals(climate.et0_mm)
    growth = [
        max(climate.warmth_curve("cool")[day_index(date(PLAIN_YEAR, m, d))] for d in (1, 15, 28))
        for m in range(1, 13)
    ]
    months = [
        Month(number)
        for number, (rain, et0, grows) in enumerate(zip(rains, losses, growth, strict=True), 1)
        if rain >= wet * et0 and grows >= least
    ]
    if not months:
        return phrases.verdict_rain_nowhere()
    return phrases.verdict_rain_keeps_up(months=listed(months, "comma"))


def _short_hours(
    brief: Brief, book: Book, climate: Climate, zones: Sequence[WateringZone], *, planted: bool
) -> list[Message]:
    """A caution when a day of watering seed or plants does not fit into the lawful hours.

    It tells the share of the lawn that fits.
    """
    law = law_of(brief.water)
    need = book.si("water.kc_wet_surface") * max(climate.et0_mm)
    minutes = sum(
        zone.settings * run_minutes(zone.exposure * need, zone.rate_mm_h, zone.uniformity)
        for zone in zones
    )
    if not zones or minutes <= law.open_min:
        return []
    if law.restricts_hours:
        tell = phrases.verdict_short_hours_plants if planted else phrases.verdict_short_hours
    else:
        tell = phrases.verdict_short_day_plants if planted else phrases.verdict_short_day
    return [
        tell(
            hours=Number(minutes / MINUTES_IN_HOUR, "tenth"),
            allowed=Number(law.open_min / MINUTES_IN_HOUR, "tenth"),
            share=Number(law.open_min / minutes, "percent"),
        )
    ]


def asking_for_permit(brief: Brief, book: Book) -> Brief:
    """The brief with a permit where what is young would need one and nobody said there is none.

    The plan asks for it before the seed is bought, or turf is lifted. Seed that rests over winter
    is woken by rain.
    """
    rests, water = brief.seeding.intent == "dormant", brief.water
    answered = water.permit is not None or water.possible is False
    if answered or rests or not too_few_days(brief, book):
        return brief
    return brief.model_copy(update={"water": water.model_copy(update={"permit": True})})
