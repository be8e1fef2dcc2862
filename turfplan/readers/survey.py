"""Reads a survey from a table and says what it means for the fill."""

from collections.abc import Sequence
from pathlib import Path

from turfplan.agronomy import Book
from turfplan.brief import Brief, Shape
from turfplan.errors import TurfplanError
from turfplan.plan import Fill
from turfplan.planner import Ground
from turfplan.readers.survey_table import read_survey
from turfplan.rules.draft import Band
from turfplan.site.hollows import fill_from_lows
from turfplan.site.polygons import Ring
from turfplan.site.records import FillResult, Survey, SurveySettings, ZoneOutline
from turfplan.site.shapes import holds, ring_of_m
from turfplan.site.survey import fill_from_survey
from turfplan.units import System, read_as

# Depths closer than this are one band of the plan.
BAND_MM = 3.0


def ground_of_survey(brief: Brief, path: Path, book: Book, area_m2: float | None) -> Ground:
    """The ground of a lawn from its survey file; raises TurfplanError naming the file and every fault.

    `area_m2` is the lawn's area by the brief: shares of the surveyed area are taken over to it.
    """
    try:
        result, notes = survey_result(brief, path, book, area_m2)
    except TurfplanError as error:
        raise error.located(path.name) from None
    area = area_m2 if area_m2 is not None else result.area_m2
    return Ground(area, bands_of(result), fill_of(result), (*notes, *result.cautions))


def survey_result(brief: Brief, path: Path, book: Book, area_m2: float | None) -> tuple[FillResult, tuple[str, ...]]:
    """The survey's result with the book's limits, and notes on how it fits the brief."""
    survey = read_survey(path)
    settings = settings_of(brief, book, survey)
    if survey.lows:
        return fill_from_lows(survey.lows, area_m2 or 0.0, settings), ()
    result = fill_from_survey(survey.points, settings, survey.leveled)
    return result, _fits(result, area_m2, settings.system)


def settings_of(brief: Brief, book: Book, survey: Survey) -> SurveySettings:
    """How the survey is read: limits and errors of the book, units and target of the brief."""
    country = brief.place.country or ("US" if brief.place.postal_code else None)
    error = (
        "survey.error_string"
        if survey.below_line
        else "survey.error_straightedge"
        if survey.lows
        else "survey.error_level"
    )
    outline, holes, zones = _outlines(brief.lawn.shape, survey)
    settle = book.fact("topdress.settle_allowance")
    share = settle.si if brief.leveling.settle_percent is None else brief.leveling.settle_percent / 100
    return SurveySettings(
        cap_mm=min(book.si("passes.hard_cap"), book.si(f"species.{brief.dominant.species}.pass_cap")),
        deep_limit_mm=book.si("site.deep_limit"),
        system=brief.units or (System.US if country == "US" else System.METRIC),
        target="line" if survey.below_line else brief.leveling.target or "own_fall",
        outline=outline, holes=holes, zones=zones,
        least_mm=book.si("survey.least_fill"), span_m=_metres(book, "survey.span"), straightedge_m=_metres(book, "survey.straightedge"),
        instrument_error_mm=survey.error_mm or book.si(error), setup_error_mm=book.si("survey.error_setup"),
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
    sums: dict[int, tuple[float, float]] = {}
    for depth, share in zip(result.grid.fill_mm, result.grid.share, strict=True):
        if depth:
            volume, area = sums.get(int(depth / BAND_MM), (0.0, 0.0))
            sums[int(depth / BAND_MM)] = (volume + depth * share, area + share)
    total = sum(result.grid.share)
    return tuple(Band(volume / area, area / total) for _, (volume, area) in sorted(sums.items()) if area / total > 1e-4)


def fill_of(result: FillResult) -> Fill:
    """The result as the plan keeps it."""
    return Fill(
        mean_depth_mm=round(result.mean_fill_mm, 3), volume_m3=round(result.volume_m3, 4),
        volume_low_m3=round(result.low_m3, 4), volume_high_m3=round(result.high_m3, 4), notes=result.notes,
        stakes=tuple(
            {"stake": s.sign, "place": s.words.split(": ")[1], "depth_mm": round(s.depth_mm, 1),
             "work": "lift and fill" if s.passes is None else f"{s.passes} pass{'es' if s.passes != 1 else ''}"}
            for s in result.stakes
        ),
    )  # fmt: skip


def _fits(result: FillResult, area_m2: float | None, system: System) -> tuple[str, ...]:
    if area_m2 is None or abs(result.area_m2 / area_m2 - 1) < 0.05:
        return ()
    seen, said = (read_as(area, "area", system).text for area in (result.area_m2, area_m2))
    return (
        f"The survey covers {seen}, the brief says {said}: the depths found are taken to hold for the whole lawn in the same shares.",
    )
