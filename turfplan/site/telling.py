"""What a survey says, in sentences: the volume and its doubt, readings to look at again, and what leveling cannot do."""

from dataclasses import dataclass, replace

from turfplan.site.levelling import Leveled, allowed_misclosure_mm
from turfplan.site.records import FillResult, SurveySettings
from turfplan.units import System, from_inside, read_as

TARGETS = {
    "own_fall": "The target keeps the lawn's own fall: hollows are filled to the ground around them, and slopes stay as they are.",
    "plane": "The target is one even plane, the one that fits the ground best.",
    "fill_only": "The target is what a long straightedge leaves: every gap under it is filled, and nothing is cut.",
    "line": "The target is the string line: each depth is what is missing below it.",
}


FEW_POINTS = 12
# Hollows of lawns are seldom wider: points further apart than this miss some of them altogether.
WIDEST_M = 2.5


@dataclass(frozen=True, slots=True)
class Seen:
    """What the reckoning noticed: ground outside of the points, high spots, and how limits changed the target."""

    beyond_share: float
    proud_mm: float
    proud_m2: float
    bounded: tuple[str, ...]


def told(
    result: FillResult, settings: SurveySettings, joined: tuple[str, ...], leveled: Leveled | None, seen: Seen
) -> FillResult:
    """The result with its notes and cautions."""
    notes = [TARGETS[settings.target], _volume(result, settings), *_doubt(result, settings), *seen.bounded, *joined]
    cautions = [
        *_readings(result, settings, leveled),
        *_coverage(result, settings, seen),
        *result.cautions,
        *result.drainage,
    ]
    if seen.proud_m2 > 0.5:
        high, area = _depth(seen.proud_mm, settings), read_as(seen.proud_m2, "area", settings.system).text
        notes.append(
            f"High spots stay: up to {high} above the target, {area} in all. Filling around them hides them; else lift the turf and take soil out."
        )
    if deep := next((c for c in result.classes if c.passes is None), None):
        cautions.append(
            f"{read_as(deep.area_m2, 'area', settings.system).text} ({deep.share:.0%}) is deeper than {_depth(settings.deep_limit_mm, settings)}: "
            "there the turf is lifted, the hollow filled with soil like the soil below, and the turf laid again."
        )
    return replace(result, notes=tuple(notes), cautions=tuple(dict.fromkeys(cautions)))


def _depth(mm: float, settings: SurveySettings) -> str:
    return read_as(mm, "depth", settings.system).text


def _volume_text(m3: float, settings: SurveySettings, rounding: str = "nearest") -> str:
    return read_as(m3, "volume", settings.system, rounding, step=0.05).text


def _volume(result: FillResult, settings: SurveySettings) -> str:
    if result.volume_m3 <= 0 and result.points < FEW_POINTS:
        return f"{result.points} points lie in one plane: nothing is seen to be missing, and so few points see little."
    if result.volume_m3 <= 0:
        return f"From {result.points} points: nothing is missing; no material is needed."
    return (
        f"From {result.points} points, one for about {read_as(result.spacing_m**2, 'area', settings.system, step=1).text}: "
        f"{_volume_text(result.volume_m3, settings)} is missing, settled; "
        f"nine surveys of ten like this one hold the truth between {_volume_text(result.low_m3, settings, 'down')} and {_volume_text(result.high_m3, settings, 'up')}."
    )


def _doubt(result: FillResult, settings: SurveySettings) -> list[str]:
    doubt = result.doubt
    found: list[str] = []
    if result.volume_m3 <= 0:
        return found
    if doubt.noise_m3 > 0.05 * result.volume_m3 and settings.least_mm < settings.instrument_error_mm:
        found.append(
            f"Errors of reading only ever add fill: {_volume_text(doubt.noise_m3, settings)} of it may be such error. Reading more finely, or each point twice, lessens it."
        )
    if doubt.gaps_m3 > max(0.15 * result.volume_m3, doubt.readings_m3):
        found.append(
            f"Most of the doubt, {_volume_text(doubt.gaps_m3, settings)}, is ground between the points: twice as many points would about halve it."
        )
    return found


def _readings(result: FillResult, settings: SurveySettings, leveled: Leveled | None) -> list[str]:
    said = []
    for outlier in result.outliers[:8]:
        apart = outlier.height_mm - outlier.expected_mm
        said.append(
            f"{outlier.name} stands {_depth(abs(apart), settings)} {'above' if apart > 0 else 'below'} the ground around it: a stone, a hole or a slip? It was kept; read it again."
        )
    if len(result.outliers) > 8:
        said.append(f"{len(result.outliers) - 8} more readings stand apart like this.")
    if leveled is not None:
        said.append(_closing(leveled, settings))
    return said


def _closing(leveled: Leveled, settings: SurveySettings) -> str:
    if leveled.misclosure_mm is None:
        return "The run of levels does not return to a known point, so a slip in it cannot be seen: end on the point it began with."
    off = _fine(abs(leveled.misclosure_mm), settings)
    allowed = allowed_misclosure_mm(
        max(settings.setup_error_mm, settings.instrument_error_mm), leveled.instrument_setups
    )
    words = f"The run of levels closes within {off} over {leveled.instrument_setups} setup{'s' if leveled.instrument_setups != 1 else ''}"
    if abs(leveled.misclosure_mm) > allowed:
        return f"{words}: more than the {_fine(allowed, settings)} that reading explains. There is a slip in it; level it again before material is ordered."
    return f"{words}; the difference was shared out over the setups."


def _fine(mm: float, settings: SurveySettings) -> str:
    """A height as finely as a rod is read: hundredths of an inch or whole millimetres."""
    unit, digits = ("in", 2) if settings.system is System.US else ("mm", 0)
    least, value = 10.0**-digits, from_inside(mm, unit, "length")
    return f"less than {least:g} {unit}" if value < least / 2 else f"{value:.{digits}f} {unit}"


def _coverage(result: FillResult, settings: SurveySettings, seen: Seen) -> list[str]:
    said = []
    if seen.beyond_share > 0.02:
        said.append(
            f"{seen.beyond_share:.0%} of the lawn lies outside of the points and takes the height of the nearest ones: measure its edge and corners too."
        )
    if result.spacing_m > WIDEST_M and settings.target != "line":
        far = read_as(result.spacing_m * 1000, "distance", settings.system).text
        said.append(
            f"The points stand about {far} apart: hollows narrower than that may lie between them unseen. The upper figure allows {_volume_text(result.doubt.unseen_m3, settings)} for ordinary ones."
        )
    if result.points < FEW_POINTS and settings.target != "line":
        said.append(
            f"{result.points} points show how the lawn lies, not its hollows: the volume may be anything up to twice what is printed."
        )
    return said
