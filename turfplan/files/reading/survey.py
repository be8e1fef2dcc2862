"""Reads a survey from a table and says what it means for the fill."""

import math
from collections.abc import Sequence
from pathlib import Path
from typing import TypedDict

from turfplan.book.entries import Book
from turfplan.errors import TurfplanError
from turfplan.files.reading.survey_table import read_survey
from turfplan.message import Message, Quantity, SurveySpot, said
from turfplan.phrases import survey as phrases
from turfplan.planning import LawnGround
from turfplan.records.book_names import FactName, of_species
from turfplan.records.brief import Brief, Shape
from turfplan.records.plan import Fill, FillMap, StakeLine
from turfplan.site.outlines.polygons import Ring
from turfplan.site.outlines.shapes import LawnZone, holds, is_placed, ring_of_m
from turfplan.site.survey.findings import volume_value
from turfplan.site.survey.hollows import fill_from_lows
from turfplan.site.survey.records import (
    FillResult,
    Stake,
    Survey,
    SurveyPoint,
    SurveySettings,
    ZoneOutline,
)
from turfplan.site.survey.surveyed_fill import fill_from_survey
from turfplan.work.drafts import Band

# Depths closer than this are one band of the plan.
BAND_MM = 3.0
# Areas that differ by less than this share are one.
SAME_AREA = 0.05
# Outlines may lie this far off the points of one frame of coordinates.
FRAME_SLACK_M = 0.5


def ground_of_survey(brief: Brief, path: Path, book: Book, area_m2: float | None) -> LawnGround:
    """The ground of a lawn from its survey file.

    Raises TurfplanError naming the file and every fault. `area_m2` is the lawn's area by the
    brief: shares of the surveyed area are taken over to it.
    """
    try:
        result, settings = survey_result(brief, path, book, area_m2)
    except TurfplanError as error:
        raise error.located(path.name) from None
    area = area_m2 if area_m2 is not None else result.area_m2
    notes = (
        *_fits(result, area_m2),
        *_zone_notes(result),
        *result.cautions,
    )
    return LawnGround(
        area, bands_of(result), fill_of(result, settings), notes, _zones(result, area)
    )


def _zones(result: FillResult, area_m2: float) -> tuple[LawnZone, ...]:
    """The zones of the survey with their grass and sun, none where the lawn is one."""
    if len(result.zones) < 2:
        return ()
    return tuple(
        LawnZone(said(z.name), z.share * area_m2, z.share, None, z.grass, z.sun)
        for z in result.zones
    )


def _zone_notes(result: FillResult) -> tuple[Message, ...]:
    """What each zone needs, where there are several."""
    if len(result.zones) < 2:
        return ()
    return tuple(
        phrases.volume_zone(
            zone=said(zone.name),
            area=Quantity(zone.area_m2, "area"),
            volume=volume_value(zone.volume_m3),
            mean=Quantity(zone.mean_mm, "depth"),
            deepest=Quantity(zone.deepest_mm, "depth"),
        )
        for zone in result.zones
    )


def survey_result(
    brief: Brief, path: Path, book: Book, area_m2: float | None
) -> tuple[FillResult, SurveySettings]:
    """What the survey file of a brief says, with the limits of the book that it was read by."""
    return result_of(brief, read_survey(path), book, area_m2)


def result_of(
    brief: Brief, survey: Survey, book: Book, area_m2: float | None
) -> tuple[FillResult, SurveySettings]:
    """What a survey says of the lawn of a brief, with the limits of the book that it is read by.

    Raises TurfplanError for one that no fill can be made of.
    """
    settings = settings_of(brief, book, survey)
    if survey.lows:
        return fill_from_lows(survey.lows, area_m2 or 0.0, settings), settings
    return fill_from_survey(survey.points, settings, survey.leveled), settings


def settings_of(brief: Brief, book: Book, survey: Survey) -> SurveySettings:
    """How the survey is read: limits and errors of the book, target of the brief."""
    outline, holes, zones = _outlines(brief.lawn.shape, survey)
    return SurveySettings(
        cap_mm=_cap_mm(brief, book),
        deep_limit_mm=book.si("site.deep_limit"),
        target="line" if survey.below_line else brief.leveling.target or "own_fall",
        outline=outline,
        holes=holes,
        zones=zones,
        least_mm=book.si("survey.least_fill"),
        span_m=_metres(book, "survey.span"),
        broad_window=book.si("survey.broad_window"),
        broad_closed=book.si("survey.broad_closed"),
        straightedge_m=_metres(book, "survey.straightedge"),
        instrument_error_mm=survey.error_mm or book.si(_error_name(survey)),
        setup_error_mm=book.si("survey.error_setup"),
        unseen_mm=book.si("survey.unseen_hollow"),
        **_settling(brief, book),
        touch_up_share=book.si("topdress.touch_up_share"),
        touch_up_mm=book.si("topdress.touch_up_depth"),
        fall_from_building=book.si("site.fall_from_building"),
        fall_distance_m=_metres(book, "site.fall_distance"),
        fall_to_swale=book.si("site.fall_to_swale"),
        below_paving_mm=book.si("survey.below_paving"),
        paving_taper_m=_metres(book, "survey.paving_taper"),
        trunk_clear_m=_metres(book, "survey.trunk_clear"),
        root_zone_m=_metres(book, "survey.root_zone"),
        root_fill_mm=book.si("survey.root_fill"),
    )


class _Settling(TypedDict):
    """How much loose material settles, as shares."""

    settle_low: float
    settle_share: float
    settle_high: float


def _settling(brief: Brief, book: Book) -> _Settling:
    """The share of the brief where it says one, inside the range of the book."""
    settle, percent = book.fact("topdress.settle_allowance"), brief.leveling.settle_percent
    share = settle.si if percent is None else percent / 100
    return {
        "settle_low": min(share, settle.low_si),
        "settle_share": share,
        "settle_high": max(share, settle.high_si),
    }


def _cap_mm(brief: Brief, book: Book) -> float:
    """The deepest pass that every grass of the lawn bears."""
    grasses = {brief.dominant.species, *(s.grass for s in brief.lawn.shape if s.grass)}
    known = [grass for grass in grasses if grass in book.species]
    caps = (book.si(of_species(grass, "pass_cap")) for grass in known or book.species)
    return min(book.si("passes.hard_cap"), *caps)


def _error_name(survey: Survey) -> FactName:
    """The fact of the error of one reading, by how the survey was made."""
    if survey.below_line:
        return "survey.error_string"
    return "survey.error_straightedge" if survey.lows else "survey.error_level"


def _metres(book: Book, name: FactName) -> float:
    return book.si(name) / 1000


def _outlines(
    shapes: Sequence[Shape], survey: Survey
) -> tuple[tuple[Ring, ...], tuple[Ring, ...], tuple[ZoneOutline, ...]]:
    """The brief's shapes as outlines of the survey, where they hold its points.

    Else there are none, and the survey's own edge or reach is taken.
    """
    lawns = [(shape, ring_of_m(shape)) for shape in shapes if not shape.hole]
    rings = tuple(ring for _, ring in lawns)
    if not rings or not survey.points or any(p.feature == "edge" for p in survey.points):
        return (), (), ()
    placed = len(lawns) == 1 or all(is_placed(shape) for shape, _ in lawns)
    if not placed or not _around(rings, survey):
        return (), (), ()
    drawn = (ring_of_m(shape) for shape in shapes if shape.hole and is_placed(shape))
    holes = tuple(hole for hole in drawn if any(holds(ring, hole) for ring in rings))
    zones = tuple(
        ZoneOutline(shape.name, ring, shape.grass, shape.sun) for shape, ring in lawns if shape.name
    )
    return rings, holes, zones


def _around(rings: Sequence[Ring], survey: Survey) -> bool:
    """True where outlines and points lie in one frame of coordinates: they reach equally far."""
    points = [(p.x_m, p.y_m) for p in survey.points if p.feature in ("ground", "edge")]
    xs, ys = [x for ring in rings for x, _ in ring], [y for ring in rings for _, y in ring]
    slack = FRAME_SLACK_M
    return all(
        min(xs) - slack <= x <= max(xs) + slack and min(ys) - slack <= y <= max(ys) + slack
        for x, y in points
    )


def bands_of(result: FillResult) -> tuple[Band, ...]:
    """The fill as bands of nearly one depth, each with its share of the lawn."""
    if result.grid is None:
        return tuple(Band(c.mean_mm, c.share) for c in result.classes if c.mean_mm > 0)
    names = [said(zone.name) for zone in result.zones] if len(result.zones) > 1 else [None]
    grid = result.grid
    sums: dict[tuple[int, int], tuple[float, float]] = {}
    for depth, share, zone in zip(grid.fill_mm, grid.share, grid.zone, strict=True):
        if depth:
            key = (int(depth / BAND_MM), zone if len(names) > 1 else 0)
            volume, area = sums.get(key, (0.0, 0.0))
            sums[key] = (volume + depth * share, area + share)
    total = sum(grid.share)
    return tuple(
        Band(volume / area, area / total, names[zone])
        for (_, zone), (volume, area) in sorted(sums.items())
        if area / total > 1e-4
    )


def fill_of(result: FillResult, settings: SurveySettings) -> Fill:
    """The result as the plan keeps it."""
    return Fill(
        mean_depth_mm=round(result.mean_fill_mm, 3),
        volume_m3=round(result.volume_m3, 4),
        volume_low_m3=round(result.low_m3, 4),
        volume_high_m3=round(result.high_m3, 4),
        notes=result.notes,
        stakes=tuple(_stake_line(stake) for stake in result.stakes),
        map=_map_of(result, settings),
    )


def _stake_line(stake: Stake) -> StakeLine:
    work = phrases.work_lift() if stake.passes is None else phrases.work_passes(n=stake.passes)
    return StakeLine(
        stake=stake.sign,
        place=phrases.name_spot(place=SurveySpot(stake.x_m, stake.y_m)),
        fill_mm=round(stake.depth_mm, 1),
        work=work,
    )


def _map_of(result: FillResult, settings: SurveySettings) -> FillMap | None:
    """The grid and what is drawn on it, rounded to what a picture shows."""
    grid = result.grid
    if grid is None:
        return None
    north = next((p for p in result.features if p.feature == "north"), None)
    return FillMap(
        x_m=round(grid.x_m, 4),
        y_m=round(grid.y_m, 4),
        angle=round(grid.angle, 6),
        width_m=round(grid.width_m, 5),
        depth_m=round(grid.depth_m, 5),
        columns=grid.columns,
        rows=grid.rows,
        ground_mm=_rounded(grid.ground_mm),
        fill_mm=_rounded(grid.fill_mm),
        outline=_short(result.outline),
        holes=_short(result.holes),
        features=_lines(result.features),
        stakes=tuple(
            (s.sign, round(s.x_m, 2), round(s.y_m, 2), round(s.depth_mm, 1)) for s in result.stakes
        ),
        least_mm=settings.least_mm,
        deep_limit_mm=settings.deep_limit_mm,
        north=math.degrees(math.atan2(north.y_m, north.x_m)) if north else None,
    )


def _rounded(values: Sequence[float | None]) -> tuple[float | None, ...]:
    return tuple(None if v is None else round(v, 1) for v in values)


def _short(rings: Sequence[Ring]) -> tuple[Ring, ...]:
    return tuple(tuple((round(x, 3), round(y, 3)) for x, y in ring) for ring in rings)


def _lines(points: Sequence[SurveyPoint]) -> tuple[tuple[str, Ring], ...]:
    """Walls, paving and swales as lines, each trunk by itself.

    Points that follow each other belong together.
    """
    lines: list[tuple[str, list[tuple[float, float]]]] = []
    for point in points:
        if point.feature in ("edge", "north"):
            continue
        if not lines or lines[-1][0] != point.feature or point.feature == "trunk":
            lines.append((point.feature, []))
        lines[-1][1].append((round(point.x_m, 3), round(point.y_m, 3)))
    return tuple((feature, tuple(line)) for feature, line in lines)


def _fits(result: FillResult, area_m2: float | None) -> tuple[Message, ...]:
    if area_m2 is None or abs(result.area_m2 / area_m2 - 1) < SAME_AREA:
        return ()
    seen, given = Quantity(result.area_m2, "area"), Quantity(area_m2, "area")
    return (phrases.volume_other_area(seen=seen, given=given),)
