"""How to measure a lawn by hand, and how many points give which accuracy."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from turfplan.message import Message, listed
from turfplan.phrases import measuring as phrases
from turfplan.records.fact_names import GroupFact
from turfplan.site.survey.records import SurveyPoint, SurveySettings
from turfplan.site.survey.surveyed_fill import fill_from_survey


@dataclass(frozen=True, slots=True)
class Method:
    """One way to measure.

    What it is good for and takes, its steps, columns, the fact of its error.
    """

    id: str
    name: Message
    good_for: Message
    tools: tuple[Message, ...]
    steps: tuple[Message, ...]
    columns_us: str
    columns_metric: str
    error: GroupFact


@dataclass(frozen=True, slots=True)
class Accuracy:
    """What a spacing of points costs and gives.

    The number of points, and the half width of the band as a share of the fill.
    """

    spacing_m: float
    points: int
    share: float


METHODS: tuple[Method, ...] = (
    Method(
        "straightedge",
        phrases.straightedge_name(),
        phrases.straightedge_good_for(),
        (
            phrases.straightedge_tool_board(),
            phrases.straightedge_tool_ruler(),
            phrases.straightedge_tool_flags(),
        ),
        (
            phrases.straightedge_step_flag(),
            phrases.straightedge_step_lay(),
            phrases.straightedge_step_read(),
            phrases.straightedge_step_size(),
            phrases.straightedge_step_write(
                columns=listed(("length", "width", "deepest")), mean="mean_depth"
            ),
        ),
        "point, length_ft, width_ft, deepest_in",
        "point, length_m, width_m, deepest_mm",
        "survey.error_straightedge",
    ),
    Method(
        "string_line",
        phrases.string_line_name(),
        phrases.string_line_good_for(),
        (
            phrases.string_line_tool_stakes(),
            phrases.string_line_tool_line(),
            phrases.string_line_tool_level(),
            phrases.string_line_tool_rule(),
        ),
        (
            phrases.string_line_step_stretch(),
            phrases.string_line_step_fall(),
            phrases.string_line_step_measure(),
            phrases.string_line_step_write(),
            phrases.string_line_step_move(),
        ),
        "x_ft, y_ft, depth_in",
        "x_m, y_m, depth_mm",
        "survey.error_string",
    ),
    Method(
        "rotating_level",
        phrases.rotating_level_name(),
        phrases.rotating_level_good_for(),
        (
            phrases.rotating_level_tool_level(),
            phrases.rotating_level_tool_rod(),
            phrases.rotating_level_tool_tapes(),
            phrases.rotating_level_tool_helper(),
        ),
        (
            phrases.rotating_level_step_axes(),
            phrases.rotating_level_step_set_up(),
            phrases.rotating_level_step_back(),
            phrases.rotating_level_step_fore(),
            phrases.rotating_level_step_turn(),
            phrases.rotating_level_step_close(),
            phrases.rotating_level_step_what(
                features=listed(("wall", "paving", "swale", "trunk", "edge"), "comma")
            ),
        ),
        "point, x_ft, y_ft, back_ft, fore_ft, what",
        "point, x_m, y_m, back_mm, fore_mm, what",
        "survey.error_level",
    ),
    Method(
        "water_level",
        phrases.water_level_name(),
        phrases.water_level_good_for(),
        (
            phrases.water_level_tool_tube(),
            phrases.water_level_tool_water(),
            phrases.water_level_tool_battens(),
        ),
        (
            phrases.water_level_step_fill(),
            phrases.water_level_step_read(),
            phrases.water_level_step_height(column="height"),
            phrases.water_level_step_leave(),
        ),
        "x_ft, y_ft, height_in",
        "x_m, y_m, height_mm",
        "survey.error_water_level",
    ),
)
# The words of the last column, as they are written into the table.
FEATURE_WORDS = listed(("ground", "wall", "paving", "trunk", "edge", "swale", "north"), "or")
GENERAL = (
    phrases.general_soil(),
    phrases.general_hollows(),
    phrases.general_lines(),
    phrases.general_codes(),
)

# The ground the accuracy table is reckoned on: shallow bowls as lawns have them, over about a
# fifth of the area.
BOWLS = (
    (0.21, 0.30, 1.6, 30.0),
    (0.71, 0.24, 1.3, 22.0),
    (0.45, 0.66, 1.8, 26.0),
    (0.83, 0.76, 1.5, 35.0),
    (0.14, 0.78, 1.4, 18.0),
)
BOWLS_FOR_M2 = 200.0
# Three choices of how close, as people pace them: rough, good and fine.
SPACINGS_M = (1.0, 2.0, 4.0)
SPACINGS_US_M = (3 * 0.3048, 6 * 0.3048, 12 * 0.3048)
# Where the grid begins on the invented ground, in spacings: whether a point falls into a hollow is
# luck.
SHIFTS = ((0.0, 0.0), (0.5, 0.0), (0.25, 0.5), (0.75, 0.25))
# Two readings a minute for a day.
MOST_POINTS = 1000


def accuracies(
    area_m2: float, settings: SurveySettings, spacings_m: Sequence[float] = SPACINGS_M
) -> tuple[Accuracy, ...]:
    """For each spacing of a square grid the points it takes, and the band around the volume.

    Reckoned by the same model that judges a real survey, on invented ground: hollows of 2.6 to 3.6
    m across and 18 to 35 mm deep on a plane with a fall of 2 %, read with the settings' error; the
    grid falls on them in several ways, whose mean is told. Raises MissingToolError without the
    extra `survey`.
    """
    length, width = math.sqrt(area_m2 * 1.5), math.sqrt(area_m2 / 1.5)
    ring = ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))
    plain = replace(
        settings, outline=(ring,), holes=(), zones=(), target="own_fall", cells_wanted=800
    )
    table = []
    for spacing in spacings_m:
        results = [
            fill_from_survey(reference_points(length, width, spacing, shift), plain)
            for shift in SHIFTS
        ]
        half = sum(result.high_m3 - result.low_m3 for result in results) / 2
        volume = sum(result.volume_m3 for result in results)
        table.append(Accuracy(spacing, results[0].points, half / volume if volume else math.inf))
    return tuple(table)


def spacings_for(area_m2: float | None, *, us: bool) -> tuple[float, ...]:
    """The spacings, in m, that a person can walk on a lawn of that size, the widest at least.

    No more points than a long day holds; all of them where no size is known.
    """
    spacings = SPACINGS_US_M if us else SPACINGS_M
    if area_m2 is None:
        return spacings
    kept = tuple(spacing for spacing in spacings if area_m2 / spacing**2 <= MOST_POINTS)
    return kept or spacings[-1:]


def reference_points(
    length_m: float, width_m: float, spacing_m: float, shift: tuple[float, float] = (0.0, 0.0)
) -> tuple[SurveyPoint, ...]:
    """A square grid over the invented ground, which lies `shift` of a spacing further off."""
    across, up = max(2, round(length_m / spacing_m) + 1), max(2, round(width_m / spacing_m) + 1)
    repeat = max(1, round(math.sqrt(length_m * width_m / BOWLS_FOR_M2)))
    points = []
    for row in range(up):
        for column in range(across):
            x, y = column * length_m / (across - 1), row * width_m / (up - 1)
            here, there = x + shift[0] * spacing_m, y + shift[1] * spacing_m
            points.append(
                SurveyPoint(x, y, _height_mm(here, there, length_m / repeat, width_m / repeat))
            )
    return tuple(points)


def _height_mm(x: float, y: float, length: float, width: float) -> float:
    """The invented ground: bowls of paraboloid shape in a tile that repeats, on a fall of 2 %."""
    here_x, here_y = x % length, y % width
    low = sum(
        max(
            0.0,
            depth
            * (1 - ((here_x - across * length) ** 2 + (here_y - up * width) ** 2) / radius**2),
        )
        for across, up, radius, depth in BOWLS
    )
    return -20.0 * x - low
