"""Reads a survey from a table and says what it means for the fill."""

import math
from collections.abc import Sequence
from pathlib import Path

from turfplan.agronomy import Book
from turfplan.brief import Brief, Shape
from turfplan.errors import TurfplanError
from turfplan.plan import Fill, FillMap
from turfplan.planner import Ground
from turfplan.readers.survey_table import read_survey
from turfplan.rules.draft import Band
from turfplan.rules.setting import units_of
from turfplan.site.hollows import fill_from_lows
from turfplan.site.polygons import Ring
from turfplan.site.records import FillResult, Survey, SurveyPoint, SurveySettings, ZoneOutline
from turfplan.site.shapes import Zone, holds, ring_of_m
from turfplan.site.survey import fill_from_survey
from turfplan.units import System, read_as

# Depths closer than this are one band of the plan.
BAND_MM = 3.0


def ground_of_survey(brief: Brief, path: Path, book: Book, area_m2: float | None) -> Ground:
    """The ground of a lawn from its survey file; raises TurfplanError naming the file and every fault.

    `area_m2` is the lawn's area by the brief: shares of the surveyed area are taken over to it.
    """
    try:
        result, settings = survey_result(brief, path, book, area_m2)
    except TurfplanError as error:
        raise error.located(path.name) from None
    area = area_m2 if area_m2 is not None else result.area_m2
    notes = (*_fits(result, area_m2, settings.system), *_zone_notes(result, settings.system), *result.cautions)
    return Ground(area, bands_of(result), fill_of(result, settings), notes, _zones(result, area))


def _zones(result: FillResult, area_m2: float) -> tuple[Zone, ...]:
    """The zones of the survey with their grass and sun, none where the lawn is one."""
    if len(result.zones) < 2:
        return ()
    return tuple(Zone(z.name, z.share * area_m2, z.share, None, z.grass, z.sun) for z in result.zones)


def _zone_notes(result: FillResult, system: System) -> list[str]:
    """What each zone needs, where there are several."""
    if len(result.zones) < 2:
        return []
    return [
        f"{z.name} ({read_as(z.area_m2, 'area', system).text}): {read_as(z.volume_m3, 'volume', system, step=0.05).text} is missing, settled; "
        f"{read_as(z.mean_mm, 'depth', system).text} on average, {read_as(z.deepest_mm, 'depth', system).text} at the deepest."
        for z in result.zones
    ]


def survey_result(brief: Brief, path: Path, book: Book, area_m2: float | None) -> tuple[FillResult, SurveySettings]:
    """What the survey file of a brief says, with the limits of the book that it was read by."""
    survey = read_survey(path)
    settings = settings_of(brief, book, survey)
    if survey.lows:
        return fill_from_lows(survey.lows, area_m2 or 0.0, settings), settings
    return fill_from_survey(survey.points, settings, survey.leveled), settings


def settings_of(brief: Brief, book: Book, survey: Survey) -> SurveySettings:
    """How the survey is read: limits and errors of the book, units and target of the brief."""
    error = (
        "survey.error_string"
        if survey.below_line
        else "survey.error_straightedge"
        if survey.lows
        else "survey.error_level"
    )
    outline, holes, zones = _outlines(brief.lawn.shape, survey)
    grasses = dict.fromkeys((brief.dominant.species, *(shape.grass for shape in brief.lawn.shape if shape.grass)))
    settle = book.fact("topdress.settle_allowance")
    share = settle.si if brief.leveling.settle_percent is None else brief.leveling.settle_percent / 100
    return SurveySettings(
        cap_mm=min(book.si(name) for name in ("passes.hard_cap", *(f"species.{grass}.pass_cap" for grass in grasses))),
        deep_limit_mm=book.si("site.deep_limit"),
        system=units_of(brief),
        target="line" if survey.below_line else brief.leveling.target or "own_fall",
        outline=outline, holes=holes, zones=zones,
        least_mm=book.si("survey.least_fill"), span_m=_metres(book, "survey.span"), straightedge_m=_metres(book, "survey.straightedge"),
        instrument_error_mm=survey.error_mm or book.si(error), setup_error_mm=book.si("survey.error_setup"), unseen_mm=book.si("survey.unseen_hollow"),
        settle_low=min(share, settle.low_si), settle_share=share, settle_high=max(share, settle.high_si),
        touch_up_share=book.si("topdress.touch_up_share"), touch_up_mm=book.si("topdress.touch_up_depth"),
        fall_from_building=book.si("site.fall_from_building"), fall_distance_m=_metres(book, "site.fall_distance"),
        fall_to_swale=book.si("site.fall_to_swale"), below_paving_mm=book.si("survey.below_paving"),
        paving_taper_m=_metres(book, "survey.paving_taper"), trunk_clear_m=_metres(book, "survey.trunk_clear"),
        root_zone_m=_metres(book, "survey.root_zone"), root_fill_mm=book.si("survey.root_fill"),
    )  # fmt: skip


def _metres(book: Book, name: str) -> float:
    return book.si(name) / 1000


def _outlines(
    shapes: Sequence[Shape], survey: Survey
) -> tuple[tuple[Ring, ...], tuple[Ring, ...], tuple[ZoneOutline, ...]]:
    """The brief's shapes as outlines of the survey, where they hold its points; else the survey's own edge or reach."""
    lawns = [shape for shape in shapes if not shape.hole]
    rings = [ring_of_m(shape) for shape in lawns]
    if not rings or not survey.points or any(p.feature == "edge" for p in survey.points):
        return (), (), ()
    placed = len(lawns) == 1 or all(shape.kind == "polygon" or shape.at_mm is not None for shape in lawns)
    if not placed or not _around(rings, survey):
        return (), (), ()
    holes = tuple(
        ring
        for shape in shapes
        if shape.hole and (shape.kind == "polygon" or shape.at_mm is not None)
        if any(holds(outer, ring := ring_of_m(shape)) for outer in rings)
    )
    zones = tuple(
        ZoneOutline(shape.name, ring, shape.grass, shape.sun)
        for shape, ring in zip(lawns, rings, strict=True)
        if shape.name
    )
    return tuple(rings), holes, zones


def _around(rings: Sequence[Ring], survey: Survey) -> bool:
    """True where the outlines reach as far as the points of the ground do, within half a metre: one frame of coordinates."""
    points = [(p.x_m, p.y_m) for p in survey.points if p.feature in ("ground", "edge")]
    xs, ys = [x for ring in rings for x, _ in ring], [y for ring in rings for _, y in ring]
    slack = 0.5
    return all(min(xs) - slack <= x <= max(xs) + slack and min(ys) - slack <= y <= max(ys) + slack for x, y in points)


def bands_of(result: FillResult) -> tuple[Band, ...]:
    """The fill as bands of nearly one depth, each with its share of the lawn."""
    if result.grid is None:
        return tuple(Band(c.mean_mm, c.share) for c in result.classes if c.mean_mm > 0)
    names = [zone.name for zone in result.zones] if len(result.zones) > 1 else [None]
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
        mean_depth_mm=round(result.mean_fill_mm, 3), volume_m3=round(result.volume_m3, 4),
        volume_low_m3=round(result.low_m3, 4), volume_high_m3=round(result.high_m3, 4), notes=result.notes,
        stakes=tuple(
            {"stake": s.sign, "place": s.words.split(": ")[1], "fill_mm": round(s.depth_mm, 1),
             "work": "lift and fill" if s.passes is None else f"{s.passes} pass{'es' if s.passes != 1 else ''}"}
            for s in result.stakes
        ),
        map=_map_of(result, settings),
    )  # fmt: skip


def _map_of(result: FillResult, settings: SurveySettings) -> FillMap | None:
    """The grid and what is drawn on it, rounded to what a picture shows."""
    grid = result.grid
    if grid is None:
        return None
    north = next((p for p in result.features if p.feature == "north"), None)
    return FillMap(
        x_m=round(grid.x_m, 4), y_m=round(grid.y_m, 4), angle=round(grid.angle, 6), width_m=round(grid.width_m, 5),
        depth_m=round(grid.depth_m, 5), columns=grid.columns, rows=grid.rows,
        ground_mm=_rounded(grid.ground_mm), fill_mm=_rounded(grid.fill_mm),
        outline=_short(result.outline), holes=_short(result.holes), features=_lines(result.features),
        stakes=tuple((s.sign, round(s.x_m, 2), round(s.y_m, 2), round(s.depth_mm, 1)) for s in result.stakes),
        least_mm=settings.least_mm, deep_limit_mm=settings.deep_limit_mm,
        north=math.degrees(math.atan2(north.y_m, north.x_m)) if north else None,
    )  # fmt: skip


def _rounded(values: Sequence[float | None]) -> tuple[float | None, ...]:
    return tuple(None if v is None else round(v, 1) for v in values)


def _short(rings: Sequence[Ring]) -> tuple[Ring, ...]:
    return tuple(tuple((round(x, 3), round(y, 3)) for x, y in ring) for ring in rings)


def _lines(points: Sequence[SurveyPoint]) -> tuple[tuple[str, Ring], ...]:
    """Walls, paving and swales as lines, each trunk by itself; points that follow each other belong together."""
    lines: list[tuple[str, list[tuple[float, float]]]] = []
    for point in points:
        if point.feature in ("edge", "north"):
            continue
        if not lines or lines[-1][0] != point.feature or point.feature == "trunk":
            lines.append((point.feature, []))
        lines[-1][1].append((round(point.x_m, 3), round(point.y_m, 3)))
    return tuple((feature, tuple(line)) for feature, line in lines)


def _fits(result: FillResult, area_m2: float | None, system: System) -> tuple[str, ...]:
    if area_m2 is None or abs(result.area_m2 / area_m2 - 1) < 0.05:
        return ()
    seen, said = (read_as(area, "area", system).text for area in (result.area_m2, area_m2))
    return (
        f"The survey covers {seen}, the brief says {said}: the depths found are taken to hold for the whole lawn in the same shares.",
    )
