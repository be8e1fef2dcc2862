"""What a survey says: the volume, its doubt, readings to look at again, what is out of reach."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from turfplan.message import Message, Number, Quantity, RodReading, said
from turfplan.phrases import survey as phrases
from turfplan.site.survey.records import FillResult, SurveySettings
from turfplan.site.survey.rod_readings import Leveled, allowed_misclosure_mm

TARGETS = {
    "own_fall": phrases.target_own_fall(),
    "plane": phrases.target_plane(),
    "fill_only": phrases.target_fill_only(),
    "line": phrases.target_line(),
}
FEW_POINTS = 12
# Hollows of lawns are seldom wider: points further apart than this miss some of them altogether.
WIDEST_M = 2.5
MOST_OUTLIERS = 8
# High spots that together are smaller than this are not worth a word.
LEAST_PROUD_M2 = 0.5
# A share of the lawn, or of the volume, below which a doubt of it is not worth a word.
LEAST_BEYOND, LEAST_NOISE, LEAST_GAPS = 0.02, 0.05, 0.15
# Volumes are told more finely than they are ordered, in cubic yards or metres.
VOLUME_STEP = 0.05


@dataclass(frozen=True, slots=True)
class LevelFindings:
    """What the reckoning noticed.

    Ground outside of the points, high spots, how limits changed the target, and what other targets
    would need.
    """

    beyond_share: float
    proud_mm: float
    proud_m2: float
    bounded: tuple[Message, ...]
    plane_m3: float | None = None
    straightedge_m3: float | None = None


def with_findings(
    result: FillResult,
    settings: SurveySettings,
    joined: tuple[Message, ...],
    leveled: Leveled | None,
    seen: LevelFindings,
) -> FillResult:
    """The result with its notes and cautions."""
    notes = (
        TARGETS[settings.target],
        _volume(result),
        *_doubt(result, settings),
        *_other_targets(seen, settings),
        *seen.bounded,
        *joined,
        *_high_spots(seen),
    )
    cautions = (
        *_readings(result, settings, leveled),
        *_coverage(result, settings, seen),
        *result.cautions,
        *result.drainage,
        *_lifted(result, settings),
    )
    return replace(result, notes=notes, cautions=tuple(dict.fromkeys(cautions)))


def volume_value(m3: float, rounding: str = "nearest") -> Quantity:
    """A volume in m3 as finely as a survey tells it."""
    return Quantity(m3, "volume", rounding, VOLUME_STEP, VOLUME_STEP)


def _high_spots(seen: LevelFindings) -> Iterator[Message]:
    if seen.proud_m2 > LEAST_PROUD_M2:
        yield phrases.ground_high_spots(
            height=Quantity(seen.proud_mm, "depth"), area=Quantity(seen.proud_m2, "area")
        )


def _lifted(result: FillResult, settings: SurveySettings) -> Iterator[Message]:
    if deep := next((c for c in result.classes if c.passes is None), None):
        yield phrases.ground_lifted(
            area=Quantity(deep.area_m2, "area"),
            share=Number(deep.share, "percent"),
            limit=Quantity(settings.deep_limit_mm, "depth"),
        )


def _volume(result: FillResult) -> Message:
    if result.volume_m3 <= 0 and result.points < FEW_POINTS:
        return phrases.volume_one_plane(points=result.points)
    if result.volume_m3 <= 0:
        return phrases.volume_none(points=result.points)
    return phrases.volume_missing(
        points=result.points,
        each=Quantity(result.spacing_m**2, "area", us_step=1.0, metric_step=1.0),
        volume=volume_value(result.volume_m3),
        low=volume_value(result.low_m3, "down"),
        high=volume_value(result.high_m3, "up"),
    )


def _other_targets(seen: LevelFindings, settings: SurveySettings) -> Iterator[Message]:
    if seen.plane_m3 is not None and seen.straightedge_m3 is not None:
        yield phrases.volume_other_targets(
            plane=volume_value(seen.plane_m3),
            straightedge=volume_value(seen.straightedge_m3),
            length=Quantity(settings.straightedge_m * 1000, "distance"),
        )


def _doubt(result: FillResult, settings: SurveySettings) -> Iterator[Message]:
    doubt, volume = result.doubt, result.volume_m3
    if volume <= 0:
        return
    if doubt.noise_m3 > LEAST_NOISE * volume and settings.least_mm < settings.instrument_error_mm:
        yield phrases.doubt_readings(volume=volume_value(doubt.noise_m3))
    if doubt.gaps_m3 > max(LEAST_GAPS * volume, doubt.readings_m3):
        yield phrases.doubt_gaps(volume=volume_value(doubt.gaps_m3))


def _readings(
    result: FillResult, settings: SurveySettings, leveled: Leveled | None
) -> Iterator[Message]:
    for outlier in result.outliers[:MOST_OUTLIERS]:
        apart = outlier.height_mm - outlier.expected_mm
        way = phrases.outlier_above if apart > 0 else phrases.outlier_below
        yield way(point=said(outlier.name), height=Quantity(abs(apart), "depth"))
    if len(result.outliers) > MOST_OUTLIERS:
        yield phrases.outlier_more(n=len(result.outliers) - MOST_OUTLIERS)
    if leveled is not None:
        yield _closing(leveled, settings)


def _closing(leveled: Leveled, settings: SurveySettings) -> Message:
    if leveled.misclosure_mm is None:
        return phrases.level_open()
    off, setups = abs(leveled.misclosure_mm), leveled.instrument_setups
    allowed = allowed_misclosure_mm(
        max(settings.setup_error_mm, settings.instrument_error_mm), setups
    )
    if off > allowed:
        return phrases.level_slip(off=RodReading(off), n=setups, allowed=RodReading(allowed))
    return phrases.level_closes(off=RodReading(off), n=setups)


def _coverage(
    result: FillResult, settings: SurveySettings, seen: LevelFindings
) -> Iterator[Message]:
    if seen.beyond_share > LEAST_BEYOND:
        yield phrases.doubt_beyond(share=Number(seen.beyond_share, "percent"))
    if settings.target == "line":
        return
    if result.spacing_m > WIDEST_M:
        yield phrases.doubt_far_apart(
            distance=Quantity(result.spacing_m * 1000, "distance"),
            volume=volume_value(result.doubt.unseen_m3),
        )
    if result.points < FEW_POINTS:
        yield phrases.doubt_few_points(points=result.points)
