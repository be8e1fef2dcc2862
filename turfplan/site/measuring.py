"""How to measure a lawn by hand, and how many points give which accuracy."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from turfplan.site.records import SurveyPoint, SurveySettings
from turfplan.site.survey import fill_from_survey


@dataclass(frozen=True, slots=True)
class Method:
    """One way to measure: what it is good for, what it takes, its steps, the columns to write, and the fact of its error."""

    id: str
    name: str
    good_for: str
    tools: tuple[str, ...]
    steps: tuple[str, ...]
    columns_us: str
    columns_metric: str
    error: str


@dataclass(frozen=True, slots=True)
class Accuracy:
    """What a spacing of points costs and gives: the number of points, and the half width of the band as a share of the fill."""

    spacing_m: float
    points: int
    share: float


METHODS: tuple[Method, ...] = (
    Method(
        "straightedge", "Straightedge", "a few hollows on ground that is even between them",
        ("a straight board or pipe, as long as one person can carry (about 10 ft (3 m))", "a ruler or tape", "flags"),
        (
            "Walk the lawn after rain or with the sun low, and flag every hollow.",
            "Lay the straightedge across the hollow, on sound ground at both ends; turn it until the gap under it is widest.",
            "Push the ruler through the grass to the soil, not to the thatch; read the deepest gap.",
            "Pace or tape the hollow's length and width where the gap begins.",
            "Write length, width and deepest; if you measured several gaps, write their mean as mean_depth instead.",
        ),
        "point, length_ft, width_ft, deepest_in", "point, length_m, width_m, deepest_mm", "survey.error_straightedge",
    ),
    Method(
        "string_line", "String line", "a lawn up to about 30 ft (10 m) wide, or a strip along paving",
        ("stakes", "mason's line", "a line level or a tape", "a tape or folding rule"),
        (
            "Drive a stake at each end of the strip and stretch the line tight; tie it where the finished lawn shall be, plus a round height to clear the grass.",
            "Keep the fall you want: lower one end by the fall times the length (2 % of 20 ft (6 m) is about 5 in (12 cm)).",
            "Every 3 to 6 ft (1 to 2 m), and at the bottom of each hollow, measure from the line down to the soil with the tape upright.",
            "Take the round height off again and write the depth below the line; above it write a minus.",
            "Move both stakes a step aside and repeat, until the lawn is covered. A line over 30 ft (10 m) sags: put a stake in the middle.",
        ),
        "x_ft, y_ft, depth_in", "x_m, y_m, depth_mm", "survey.error_string",
    ),
    Method(
        "rotating_level", "Rotating or builder's level", "a whole lawn, any size",
        ("a rotating laser or a builder's level on a tripod (hired)", "a rod or a batten with a tape on it", "two long tapes", "a helper"),
        (
            "Choose one corner as 0, 0 and lay a tape along a straight side: that is x. Measure y away from it. Note a spot due north of the corner.",
            "Set the level up off the lawn, on firm ground, where it sees everything; let it level itself. Laser: eyes off the beam, and away from windows.",
            "First read the rod on something that never moves (a doorstep): that is the back reading, and this point is the bench mark.",
            "Walk the grid with the rod upright and its foot on the soil, and read it at every crossing, in every hollow, and on every rise. These are fore readings.",
            "Out of sight? Read the rod on a stone (fore), move the level, read the same stone again (back), and go on.",
            "End on the bench mark you began with: what does not come back to nought is the misclosure, and it is reckoned for you.",
            "Write what stands at the edge: wall, paving, swale, trunk, edge.",
        ),
        "point, x_ft, y_ft, back_ft, fore_ft, what", "point, x_m, y_m, back_mm, fore_mm, what", "survey.error_level",
    ),
    Method(
        "water_level", "Water level", "corners out of sight of each other, without an instrument",
        ("clear tube, 3/8 in (10 mm) wide and longer than the lawn", "water with a drop of colour", "two battens with tapes"),
        (
            "Fill the tube from one end until no bubble is left; both ends open and side by side must stand level.",
            "One batten stays at the bench mark, the other walks the grid. Wait until the water rests, and read both at once.",
            "The point's height above the bench mark is the reading there taken from the reading at the bench mark. Write it as height; below it write a minus.",
            "Top up nothing between readings, and keep the tube out of the sun: warm water stands higher.",
        ),
        "x_ft, y_ft, height_in", "x_m, y_m, height_mm", "survey.error_water_level",
    ),
)  # fmt: skip
GENERAL = (
    "Measure to the soil under the thatch, on mown grass.",
    "Put a point in the bottom of every hollow and on top of every rise besides the grid: a hollow no point falls into does not exist for the map.",
    "Before a stake goes in deeper than a finger, have buried lines marked: in the US call 811, elsewhere ask the local "
    "service. Sprinklers, lights and dog fence are yours to mark.",
    "Local codes come first: ask before you change how water runs off towards a drain, a ditch, a tree or a neighbour.",
)

# The ground the accuracy table is reckoned on: shallow bowls as lawns have them, over about a fifth of the area.
BOWLS = (
    (0.21, 0.30, 1.6, 30.0),
    (0.71, 0.24, 1.3, 22.0),
    (0.45, 0.66, 1.8, 26.0),
    (0.83, 0.76, 1.5, 35.0),
    (0.14, 0.78, 1.4, 18.0),
)
BOWLS_FOR_M2 = 200.0
SPACINGS_M = (0.75, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0)
# Where the grid begins on the invented ground, in spacings: whether a point falls into a hollow is luck.
SHIFTS = ((0.0, 0.0), (0.5, 0.0), (0.25, 0.5), (0.75, 0.25))
# Two readings a minute for a day.
MOST_POINTS = 1000


def accuracies(
    area_m2: float, settings: SurveySettings, spacings_m: Sequence[float] = SPACINGS_M
) -> tuple[Accuracy, ...]:
    """For each spacing of a square grid the points it takes, and the band around the volume of ordinary hollows.

    Reckoned by the same model that judges a real survey, on invented ground: hollows of 2.6 to 3.6 m across and 18 to 35 mm
    deep on a plane with a fall of 2 %, read with the settings' error; the grid falls on them in several ways, whose mean is
    told. Raises MissingToolError without the extra `survey`.
    """
    length, width = math.sqrt(area_m2 * 1.5), math.sqrt(area_m2 / 1.5)
    ring = ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))
    plain = replace(settings, outline=(ring,), holes=(), zones=(), target="own_fall", cells_wanted=800)
    found = []
    for spacing in spacings_m:
        results = [fill_from_survey(reference_points(length, width, spacing, shift), plain) for shift in SHIFTS]
        half = sum(result.high_m3 - result.low_m3 for result in results) / 2
        volume = sum(result.volume_m3 for result in results)
        found.append(Accuracy(spacing, results[0].points, half / volume if volume else math.inf))
    return tuple(found)


def spacings_for(area_m2: float) -> tuple[float, ...]:
    """The spacings that a person can walk on a lawn of that size: no more points than a long day holds, the widest at least."""
    kept = tuple(spacing for spacing in SPACINGS_M if area_m2 / spacing**2 <= MOST_POINTS)
    return kept or SPACINGS_M[-1:]


def spacing_for(share: float, found: Sequence[Accuracy]) -> Accuracy | None:
    """The widest spacing whose band is no wider than plus or minus `share` of the fill, or None where none is."""
    return max((a for a in found if a.share <= share), key=lambda a: a.spacing_m, default=None)


def reference_points(
    length_m: float, width_m: float, spacing_m: float, shift: tuple[float, float] = (0.0, 0.0)
) -> tuple[SurveyPoint, ...]:
    """A square grid over the invented ground, which lies `shift` of a spacing further along and across."""
    across, up = max(2, round(length_m / spacing_m) + 1), max(2, round(width_m / spacing_m) + 1)
    repeat = max(1, round(math.sqrt(length_m * width_m / BOWLS_FOR_M2)))
    points = []
    for row in range(up):
        for column in range(across):
            x, y = column * length_m / (across - 1), row * width_m / (up - 1)
            here, there = x + shift[0] * spacing_m, y + shift[1] * spacing_m
            points.append(SurveyPoint(x, y, _height_mm(here, there, length_m / repeat, width_m / repeat)))
    return tuple(points)


def _height_mm(x: float, y: float, length: float, width: float) -> float:
    """The invented ground: bowls of paraboloid shape in a tile that repeats, on a fall of 2 %."""
    here_x, here_y = x % length, y % width
    low = sum(
        max(0.0, depth * (1 - ((here_x - across * length) ** 2 + (here_y - up * width) ** 2) / radius**2))
        for across, up, radius, depth in BOWLS
    )
    return -20.0 * x - low
