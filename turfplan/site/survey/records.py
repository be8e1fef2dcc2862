"""The records of a survey: points, how they are to be read, and what they say of the fill."""

from dataclasses import dataclass, field
from typing import Literal

from turfplan.message import Message, Worded
from turfplan.site.outlines.polygons import Ring
from turfplan.site.survey.rod_readings import Leveled

Feature = Literal["ground", "wall", "paving", "trunk", "edge", "swale", "north"]
Target = Literal["own_fall", "plane", "fill_only", "line"]
FEATURES: tuple[Feature, ...] = ("ground", "wall", "paving", "trunk", "edge", "swale", "north")
HEIGHTLESS: tuple[Feature, ...] = ("trunk", "edge", "north")


@dataclass(frozen=True, slots=True)
class SurveyPoint:
    """One measured place: x and y in m, height in mm above a datum of its own, what it stands on.

    `name` is what it was called, else where it stands in its table. `wall` is ground at a building,
    `paving` the top of a path's edge, `trunk` a tree, `edge` the outline of the lawn in order,
    `swale` the bottom of a ditch or drain that takes the water, `north` any spot due north of the
    origin. A depth below a string line is a negative height with the target `line`. `setup` is the
    number of the instrument's setup it was read from. Trunks, edges and north need no height.
    """

    x_m: float
    y_m: float
    height_mm: float | None
    name: Worded = ""
    feature: Feature = "ground"
    setup: int = 1
    zone: str | None = None


@dataclass(frozen=True, slots=True)
class ZoneOutline:
    """A named part of the lawn with its outline in m, its grass and sun where they differ."""

    name: str
    ring: Ring
    grass: str | None = None
    sun: str | None = None


@dataclass(frozen=True, slots=True)
class SurveySettings:
    """How a survey is to be read. Depths in mm, distances in m, falls as shares (0.05 is 5 %).

    `cap_mm` is the deepest pass the turf bears, `deep_limit_mm` the depth from which turf is
    lifted instead; fills under `least_mm` are left alone. `span_m` is how far around a place the
    lawn's own fall is read, `broad_window` over how many of the lawn's widths its broad form is,
    `broad_closed` the share of a broad hollow's depth that must hold water for it to be one,
    `straightedge_m` the length of the straightedge that `fill_only`
    follows. `instrument_error_mm` is the standard error of one reading, `setup_error_mm` that of
    moving the instrument, `unseen_mm` the depth at which a point in an ordinary hollow stands.
    `None` for a fall, a distance or a limit leaves that rule out.
    """

    cap_mm: float
    deep_limit_mm: float
    target: Target = "own_fall"
    outline: tuple[Ring, ...] = ()
    holes: tuple[Ring, ...] = ()
    zones: tuple[ZoneOutline, ...] = ()
    least_mm: float = 0.0
    span_m: float = 5.0
    broad_window: float = 1.6
    broad_closed: float = 0.5
    straightedge_m: float = 3.0
    allow_cut: bool = False
    instrument_error_mm: float = 3.0
    setup_error_mm: float = 0.0
    unseen_mm: float = 0.0
    settle_low: float = 0.0
    settle_share: float = 0.0
    settle_high: float = 0.0
    touch_up_share: float = 0.0
    touch_up_mm: float = 0.0
    fall_from_building: float | None = None
    fall_distance_m: float | None = None
    fall_to_swale: float | None = None
    below_paving_mm: float = 0.0
    paving_taper_m: float = 1.0
    trunk_clear_m: float | None = None
    root_zone_m: float | None = None
    root_fill_mm: float | None = None
    stake_spacing_m: float = 3.0
    cells_wanted: int = 3000


@dataclass(frozen=True, slots=True)
class LowSpot:
    """One hollow of a list: length and width in m, and its mean or its deepest depth in mm."""

    name: Worded
    length_m: float
    width_m: float
    mean_mm: float | None = None
    deepest_mm: float | None = None


@dataclass(frozen=True, slots=True)
class Survey:
    """What a survey file holds: points or a list of hollows, and the run of levels.

    `below_line` says that heights are depths below a string line; `error_mm` is the error of a
    reading where the file states it.
    """

    points: tuple[SurveyPoint, ...] = ()
    lows: tuple[LowSpot, ...] = ()
    below_line: bool = False
    leveled: Leveled | None = None
    error_mm: float | None = None


@dataclass(frozen=True, slots=True)
class FillClass:
    """A part of the lawn that is treated alike.

    `letter` marks it on the map, `passes` is None where turf is lifted.
    """

    letter: str
    passes: int | None
    low_mm: float
    high_mm: float
    area_m2: float
    share: float
    mean_mm: float
    volume_m3: float


@dataclass(frozen=True, slots=True)
class PassFill:
    """One pass: its thickest layer, the area it covers and the settled volume it takes."""

    number: int
    depth_mm: float
    area_m2: float
    volume_m3: float


@dataclass(frozen=True, slots=True)
class ZoneFill:
    """What one zone needs.

    Mean and deepest fill, settled volume, passes, what is lifted instead.
    """

    name: Worded
    area_m2: float
    share: float
    mean_mm: float
    deepest_mm: float
    volume_m3: float
    passes: tuple[PassFill, ...]
    lift_m2: float = 0.0
    lift_m3: float = 0.0
    grass: str | None = None
    sun: str | None = None


@dataclass(frozen=True, slots=True)
class Stake:
    """A stake to set out: its sign on the map, its place in m, the fill there in mm, its passes.

    `passes` is None where turf is lifted.
    """

    sign: str
    x_m: float
    y_m: float
    depth_mm: float
    passes: int | None


@dataclass(frozen=True, slots=True)
class Outlier:
    """A reading that stands apart from its neighbours: it is named, and kept."""

    name: Worded
    height_mm: float
    expected_mm: float


@dataclass(frozen=True, slots=True)
class LooseOrder:
    """Loose material to order in m3, and a reserve.

    The least and the most are what the survey's error and settling allow.
    """

    low_m3: float
    best_m3: float
    high_m3: float
    touch_up_m3: float


@dataclass(frozen=True, slots=True)
class Doubt:
    """Where the error of the volume comes from, in m3.

    Readings (90 %), gaps between points, what noise adds by itself, and what hollows may hold that
    no point fell into.
    """

    readings_m3: float
    gaps_m3: float
    noise_m3: float
    unseen_m3: float = 0.0


@dataclass(frozen=True, slots=True)
class FillGrid:
    """The lawn as cells, row by row from below: None outside the lawn.

    The middle of the first cell lies at (`x_m`, `y_m`); a row runs in the direction `angle`
    (radians against the clock from the x axis); cells are `width_m` by `depth_m`. `zone` is the
    number of each cell's zone in the result's zones.
    """

    x_m: float
    y_m: float
    angle: float
    width_m: float
    depth_m: float
    columns: int
    rows: int
    ground_mm: tuple[float | None, ...]
    target_mm: tuple[float | None, ...]
    fill_mm: tuple[float | None, ...]
    share: tuple[float, ...]
    zone: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class FillResult:
    """What a survey says: area, fill with its error, classes, zones, passes, cells, stakes, notes.

    Volumes are settled. `low_m3` to `high_m3` holds the true volume in nine surveys of ten.
    `drainage` says where leveling alone will not do.
    """

    area_m2: float
    mean_fill_mm: float
    deepest_mm: float
    volume_m3: float
    low_m3: float
    high_m3: float
    cut_m3: float
    doubt: Doubt
    classes: tuple[FillClass, ...]
    zones: tuple[ZoneFill, ...]
    passes: tuple[PassFill, ...]
    order: LooseOrder
    points: int
    spacing_m: float
    grid: FillGrid | None = None
    outline: tuple[Ring, ...] = ()
    holes: tuple[Ring, ...] = ()
    features: tuple[SurveyPoint, ...] = ()
    stakes: tuple[Stake, ...] = ()
    outliers: tuple[Outlier, ...] = ()
    cautions: tuple[Message, ...] = ()
    notes: tuple[Message, ...] = ()
    misclosure_mm: float | None = None
    drainage: tuple[Message, ...] = field(default=())
