"""Resolves a lawn from its brief, with each missing answer assumed and said."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Protocol

from turfplan.book.entries import Book, Species
from turfplan.book.words import grass_name
from turfplan.calendar_days import DAYS
from turfplan.climate.record import Climate
from turfplan.message import Message, Number, Quantity, length_mm, said
from turfplan.phrases import lawn as phrases
from turfplan.phrases import parts as part_phrases
from turfplan.records.brief import Brief, Intent
from turfplan.site.outlines.shapes import LawnZone
from turfplan.work.days_off import HolidaysBetween, no_holidays, told_of_days, work_days
from turfplan.work.drafts import Band
from turfplan.work.lawn import (
    Labour,
    Levelling,
    Plot,
    ResolvedLawn,
    Sowing,
    Turf,
    country_of,
    in_its_state,
    units_of,
)
from turfplan.work.light import light_of
from turfplan.work.parts import PlotPart, bands_beside, bands_without, parts_of, said_of
from turfplan.work.planted import plants
from turfplan.work.seed_mix import main_grass
from turfplan.work.sown import Ground, SeedChoice, choose_seed
from turfplan.work.stand import OPEN_GROUND, stage_worked
from turfplan.work.thatch import stripped_mm
from turfplan.work.unnamed_grass import is_unnamed, with_named_grass
from turfplan.work.watering.hose import hours_assumed
from turfplan.work.wheeling import told_of_wheeling

# Shares are given to a hundredth of a per cent: less than that is nothing left.
LEAST_SHARE = 1e-4


class MeasuredGround(Protocol):
    """What shapes or a survey say of a lawn, where there are any."""

    @property
    def area_m2(self) -> float:
        """The area, m2."""

    @property
    def bands(self) -> tuple[Band, ...] | None:
        """The parts of the lawn by depth of fill; None where only its outline was measured."""

    @property
    def zones(self) -> tuple[LawnZone, ...]:
        """The zones."""


def resolve(
    brief: Brief,
    book: Book,
    climate: Climate,
    today: date,
    *,
    kept: tuple[date, date] | None = None,
    ground: MeasuredGround | None = None,
    holidays: HolidaysBetween = no_holidays,
) -> ResolvedLawn:
    """The brief with every missing answer assumed, in the state that its postal code lies in.

    What was measured of the ground wins over what the brief says of it. `kept` are the first and
    the last day of a plan made before. `holidays` lists the public holidays between two days.
    """
    unnamed = is_unnamed(brief)
    bands = _bands(brief, ground)
    alone = not (bands or _open_ground(brief)) and brief.seeding.intent == "none"
    brief, assumed = with_named_grass(in_its_state(brief, climate), book, climate, alone=alone)
    first, last, kept_end = _horizon(brief, book, today, kept, alone=alone)
    if brief.units is None and country_of(brief) is None:
        assumed.append(phrases.metric_units())
    zones = ground.zones if ground else ()
    area_m2 = ground.area_m2 if ground else brief.lawn.area_m2 or 0.0
    parts = parts_of(brief, book, area_m2)
    here = book.species[brief.dominant.species]
    light = light_of(brief, book, climate, here.season)
    calendar = work_days(brief, book, first, last, holidays)
    assumed += told_of_days(brief, book, calendar.public)
    labour = _labour(brief, book, assumed, alone=alone)
    filled_all_over = sum(band.share for band in bands) > 1.0 - LEAST_SHARE
    seed = choose_seed(brief, book, Ground(light, zones, parts), unnamed=unnamed)
    sown = main_grass(seed.areas) if seed.areas else None
    asked = book.species[sown or brief.seeding.species or here.id]
    species = asked if _sown_anew(brief) else here
    assumed += _of_zones(zones, species, book.species[sown] if sown else None, book)
    assumed += seed.notes
    if _open_ground(brief) and seed.areas:
        parts, bands = _made_anew(parts, bands, seed.unsown)
    bands = _beside_parts(brief, book, ground, bands, parts, area_m2, assumed)
    bands = _over_stripped(bands, stripped_mm(brief, book), assumed, all_over=filled_all_over)
    assumed += _thin_share(brief, book, area_m2)
    assumed += _hose_hours(brief, book)
    stand, soil = _stand(brief, zones, book, assumed), _soil(brief, assumed)
    return ResolvedLawn(
        brief,
        book,
        climate,
        today,
        first,
        last,
        units_of(brief),
        country_of(brief),
        Plot(area_m2, soil, tuple(zones), parts, light),
        Turf(species, stand, _thatch(brief, book, assumed), _condition(brief, assumed)),
        _of_seed(brief, asked, species.season, seed, planted=plants(brief, book)),
        Levelling(bands, 0.0, 0.0, _settle(brief, book, bands, assumed)),
        calendar,
        labour,
        tuple(assumed),
        kept_end=kept_end,
    )


def _of_seed(
    brief: Brief, grass: Species, season: str, seed: SeedChoice, *, planted: bool
) -> Sowing:
    """The sowing of what was chosen; `season` is that of the grass whose windows count, `planted`
    that plants go in."""
    intent = brief.seeding.intent
    operation = "plant" if planted else _sowing(intent, season, brief.lawn.condition)
    areas, cautions = tuple(seed.areas), tuple(seed.cautions)
    return Sowing(grass, intent, operation, areas, cautions, seed.refused, tuple(seed.unsown))


def _assume(value: str, why: Message, assumed: list[Message]) -> str:
    assumed.append(why)
    return value


def _horizon(
    brief: Brief, book: Book, today: date, kept: tuple[date, date] | None, *, alone: bool = False
) -> tuple[int, int, int | None]:
    """The first and the last day, and the least last day where the owner gave none.

    A plan that was made before keeps its first day, and an assumed end is only put off. Care
    `alone` takes a year: each of its seasons comes once.
    """
    asked = brief.season.start
    first = kept[0] if kept else max(asked or today, today)
    if brief.season.until is not None:
        return first.toordinal(), brief.season.until.toordinal(), None
    least = (asked or (first if kept else today)).toordinal()
    span = DAYS - 1 if alone else round(book.si("setting.horizon_days"))
    ends = [least + span] if asked or not kept else []
    kept_end = max([*ends, kept[1].toordinal()] if kept else ends)
    longest = max(first, asked or first).toordinal() + round(book.si("setting.horizon_most"))
    return first.toordinal(), max(longest, kept_end), kept_end


def _made_anew(
    parts: Sequence[PlotPart], bands: Sequence[Band], unsown: Sequence[Message]
) -> tuple[tuple[PlotPart, ...], tuple[Band, ...]]:
    """Parts and bands where the ground is made anew: what is not sown is left as it is, unfilled
    too, since soil that nothing holds washes away."""
    kept = tuple(replace(p, most_mm=0.0) if p.name in unsown else p for p in parts)
    return kept, tuple(band for band in bands if band.zone is None or band.zone not in unsown)


def _beside_parts(
    brief: Brief,
    book: Book,
    ground: MeasuredGround | None,
    bands: tuple[Band, ...],
    parts: Sequence[PlotPart],
    area_m2: float,
    assumed: list[Message],
) -> tuple[Band, ...]:
    """The bands with less fill where parts bear less, and what is done about each part.

    A survey measures what thinner parts are to get, not where nothing is spread.
    """
    surveyed = brief.leveling.survey is not None
    drawn = ground is not None and ground.bands is not None
    typed_mm = brief.leveling.depth_mm or 0.0
    depth_mm = max((band.depth_mm for band in bands), default=0.0) if drawn else typed_mm
    shares = {said(zone.name): zone.share for zone in (ground.zones if ground else ())}
    for part in parts:
        measured = surveyed and part.filled
        deepest_mm = 0.0 if measured else depth_mm
        assumed += said_of(part, book, area_m2, deepest_mm, sows=brief.seeding.intent != "none")
        if measured and part.most_mm is not None:
            assumed.append(part_phrases.of_survey(part=part.name))
        elif drawn and part.zone is None and part.most_mm is not None:
            assumed += _lies_somewhere(part, bands, surveyed=surveyed)
    if not drawn:
        return bands_beside(bands, parts) if typed_mm else bands
    taken = [part for part in parts if not (surveyed and part.filled)]
    return bands_without(bands, taken, shares)


def _lies_somewhere(part: PlotPart, bands: Sequence[Band], *, surveyed: bool) -> list[Message]:
    """What is said of a part of which nobody says in which zone, or where in a survey, it lies."""
    less = {band.zone for band in bands if band.depth_mm > (part.most_mm or 0.0)}
    if less and surveyed:
        return [part_phrases.of_survey_alike(part=part.name)]
    return [part_phrases.in_any_zone(part=part.name)] if len(less) > 1 else []


def _sowing(intent: Intent, season: str, condition: str | None) -> str | None:
    """The operation that an intent to sow asks for.

    Warm-season grass is seeded with its own kind by `seed`, bare ground with what it is to bear.
    """
    if intent in ("none",):
        return None
    if intent == "dormant":
        return "dormant_seed"
    if intent == "winter_overseed":
        return "overseed"
    over = season == "cool" and intent in ("overseed", "patch") and condition != "bare"
    return "overseed" if over else "seed"


def _stand(
    brief: Brief, zones: Sequence[LawnZone], book: Book, assumed: list[Message]
) -> tuple[str, ...]:
    if _sown_anew(brief) and brief.seeding.species is not None:
        return (brief.seeding.species,)
    least = book.si("setting.counted_share")
    counted = tuple(g.species for g in brief.lawn.grass if g.share >= least) or (
        brief.dominant.species,
    )
    if len(brief.lawn.grass) > 1:
        assumed.append(phrases.mixed_stand())
    return tuple(
        dict.fromkeys((*counted, *(z.grass for z in zones if z.grass and z.share >= least)))
    )


def _of_zones(
    zones: Sequence[LawnZone], species: Species, sown: Species | None, book: Book
) -> list[Message]:
    """What is done about zones with a depth, grass or sun of their own."""
    assumed: list[Message] = []
    for zone in zones:
        if zone.depth_mm is not None:
            assumed.append(
                phrases.zone_filled(
                    zone=said(zone.name),
                    area=Quantity(zone.area_m2, "area"),
                    share=Number(zone.share, "percent"),
                    depth=length_mm(zone.depth_mm),
                )
            )
        if zone.grass and zone.grass != species.id:
            assumed += _of_another_grass(zone, grass_name(book, zone.grass), sown, book)
        if zone.sun == "shade":
            assumed.append(phrases.zone_shade(zone=said(zone.name)))
        elif zone.sun == "part":
            assumed.append(phrases.zone_part_sun(zone=said(zone.name)))
    return assumed


def _of_another_grass(
    zone: LawnZone, grass: Message, sown: Species | None, book: Book
) -> list[Message]:
    """What follows from a zone in which another grass grows than in the rest of the lawn."""
    counted = zone.share >= book.si("setting.counted_share")
    days = phrases.zone_days_suit_both if counted else phrases.zone_days_of_larger
    assumed = [days(zone=said(zone.name), grass=grass)]
    apart = zone.grass is not None and book.species[zone.grass].seedable
    if sown is not None and sown.id != zone.grass and not apart:
        seed = grass_name(book, sown.id)
        assumed.append(phrases.zone_seed(sown=seed, zone=said(zone.name), grass=grass))
    return assumed


def _soil(brief: Brief, assumed: list[Message]) -> str:
    soil = (brief.lawn.soil or "").strip().lower().replace(" ", "_").replace("-", "_")
    if soil == "unknown":
        return _assume("loam", phrases.unknown_soil(), assumed)
    return soil or _assume("loam", phrases.loam(), assumed)


def _condition(brief: Brief, assumed: list[Message]) -> str:
    return brief.lawn.condition or _assume("thin", phrases.thin(), assumed)


def _thin_share(brief: Brief, book: Book, area_m2: float) -> list[Message]:
    """What is said of the share of the lawn that is thin or dead: assumed where it counts and was
    not told, told where it does not count."""
    told, intent = brief.lawn.thin_share, brief.seeding.intent
    if brief.lawn.condition == "bare" or intent == "none":
        return []
    if intent not in ("patch", "plant"):
        return [phrases.thin_share_unused(share=Number(told, "percent"))] if told else []
    share = book.si("planting.thin_share" if intent == "plant" else "seeding.patch_share")
    if told is not None:
        return []
    return [
        phrases.thin_share(share=Number(share, "percent"), area=Quantity(area_m2 * share, "area"))
    ]


def _hose_hours(brief: Brief, book: Book) -> list[Message]:
    """The hours at a hose that are taken where what is sown or planted lives on it."""
    told = None if brief.seeding.intent in ("none", "dormant") else hours_assumed(brief.water, book)
    return [told] if told is not None else []


def _thatch(brief: Brief, book: Book, assumed: list[Message]) -> float:
    if brief.lawn.thatch_mm is not None:
        return brief.lawn.thatch_mm
    if brief.lawn.condition == "bare":
        return 0.0
    thatch = book.si("setting.thatch_assumed")
    assumed.append(phrases.thatch(depth=length_mm(thatch)))
    return thatch


def _settle(brief: Brief, book: Book, bands: Sequence[Band], assumed: list[Message]) -> float:
    """The share by which loose fill settles: deep fill on open ground by more than a thin layer."""
    if brief.leveling.settle_percent is not None:
        return brief.leveling.settle_percent / 100
    deepest = max((band.depth_mm for band in bands), default=0.0)
    lifts = _open_ground(brief) and deepest > book.si("open_ground.settles_fast") + 1e-6
    share = book.si("topdress.settle_deep" if lifts else "topdress.settle_allowance")
    if bands:
        assumed.append(phrases.settles(share=Number(share, "percent")))
    return share


def _bands(brief: Brief, ground: MeasuredGround | None) -> tuple[Band, ...]:
    """Every part of the lawn that is filled, deepest first: hollows, and the fill of the rest."""
    lows = [band for band in _lows(brief, ground) if band.depth_mm > 0]
    left, depth = 1.0 - sum(band.share for band in lows), brief.leveling.depth_mm
    measured = ground is not None and ground.bands is not None
    if depth and not measured and left > LEAST_SHARE:
        lows.append(Band(depth, left))
    return tuple(sorted(lows, key=lambda band: -band.depth_mm))


def _over_stripped(
    bands: tuple[Band, ...], thatch_mm: float, assumed: list[Message], *, all_over: bool
) -> tuple[Band, ...]:
    """A fill that goes `all_over` the lawn also replaces the thatch that was stripped, mm.

    Fill of hollows alone does not: they are stripped like the ground around them, and would stand
    proud of it by as much.
    """
    if not thatch_mm:
        return bands
    if not all_over:
        told = phrases.stripped_hollows if bands else phrases.stripped_lower
        assumed.append(told(depth=length_mm(thatch_mm)))
        return bands
    assumed.append(phrases.stripped(depth=length_mm(thatch_mm)))
    return tuple(replace(band, depth_mm=band.depth_mm + thatch_mm) for band in bands)


def _sown_anew(brief: Brief) -> bool:
    """Whether another grass than that of the brief becomes the lawn.

    What is sown on ground without grass is the lawn: its seasons, heights and food count.
    """
    kept = brief.seeding.intent in ("none", "winter_overseed")
    return _open_ground(brief) and brief.seeding.species is not None and not kept


def _open_ground(brief: Brief) -> bool:
    """Whether the fill goes on ground without living grass: hollows are filled in lifts there."""
    return stage_worked(brief.lawn.condition or "thin", brief.seeding.intent) in OPEN_GROUND


def _lows(brief: Brief, ground: MeasuredGround | None) -> Sequence[Band]:
    """The parts of the lawn by depth of fill: as measured, else as the brief lists them."""
    if ground is not None and ground.bands is not None:
        return ground.bands
    return [Band(low.depth_mm, low.share) for low in brief.leveling.lows]


def _labour(brief: Brief, book: Book, assumed: list[Message], *, alone: bool = False) -> Labour:
    work, lead = brief.work, brief.delivery.lead_days
    people = work.people or round(book.si("setting.people_assumed"))
    # Times are held in minutes inside.
    hours = work.hours_per_day or book.si("setting.hours_per_day_assumed") / 60
    way = work.haul_distance_mm
    haul_mm = way if way is not None else book.si("setting.haul_distance_assumed")
    unsaid, reckoned = work.people is None or work.hours_per_day is None, Number(hours, "plain")
    if alone and unsaid:
        assumed.append(phrases.work_of_care(n=people, hours=reckoned))
    elif not alone and (unsaid or way is None):
        assumed.append(phrases.work(n=people, hours=reckoned, way=Quantity(haul_mm, "distance")))
    assumed += told_of_wheeling(brief, book)
    if lead is None:
        lead = round(book.si("setting.lead_days_assumed"))
        assumed += [] if alone else [phrases.lead_days(n=lead)]
    return Labour(people, hours, haul_mm / 1000, lead)
