"""The frozen record of what is wanted: a lawn, its place, and what its owner asks for.

Every quantity is written as a text with a unit and held in the inside unit that its field name ends
in. `None` means "not said": the planner then assumes a value and says so. Names of grasses, soils,
mixes and regions are checked against the book by `planning.check_brief`; this module checks form
alone. It is longer than others: one table of records.
"""

import math
import re
from collections.abc import Mapping, Sequence
from copy import deepcopy
from datetime import date, time
from typing import Annotated, Any, Literal, Self, get_args

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    ValidationError,
    WithJsonSchema,
    field_validator,
    model_validator,
)
from pydantic_core import ErrorDetails

from turfplan.calendar_days import Weekday
from turfplan.errors import FormError, Problem, TurfplanError, did_you_mean, one_of
from turfplan.message import Message, Number, listed
from turfplan.phrases import brief as phrases
from turfplan.phrases import errors, form
from turfplan.records.book_names import MachineName, ThinCause
from turfplan.records.form_faults import choices, own_fault, thing_wanted, wanted
from turfplan.units import System, inside_unit, parse_quantity, units_of, us_twin

Intent = Literal["none", "patch", "overseed", "renovate", "dormant", "plant", "winter_overseed"]
StandCondition = Literal["dense", "thin", "patchy", "bare"]
Level = Literal["low", "medium", "high"]
PhosphorusRule = Literal["free", "test", "banned"]
BufferMethod = Literal[
    "sikora",
    "mehlich",
    "smp",
    "adams_evans",
    "moore_sikora",
    "woodruff",
    "unknown",
]
Extraction = Literal[
    "mehlich_3", "mehlich_1", "bray_1", "olsen", "morgan", "modified_morgan", "ammonium_acetate"
]
GroundTrouble = Literal["salty", "sodic"]
BumpCause = Literal[
    "unknown",
    "settling",
    "stump",
    "trench",
    "worms",
    "moles",
    "frost",
    "thatch",
    "construction",
    "traffic",
]
PartKind = Literal["septic_field", "dog_run", "shade", "tree_roots", "steep"]
LeafWidth = Literal["fine", "medium", "broad"]


# Bounds of form, not of agronomy: outside them a typing slip is likelier than a lawn.
SMALLEST_AREA_M2, LARGEST_AREA_M2 = 1.0, 200_000.0
DEEPEST_MM = 300.0
# So often entries are taken out of a faulty brief until the rest of it is sound.
SOUND_ROUNDS = 4


def _quantity(
    dimension: str, low: float | None = None, high: float | None = None, *, positive: bool = True
) -> Any:
    """A validator of a written quantity, with its bounds in inside units."""

    def read(value: object) -> float:
        try:
            number = parse_quantity(value, dimension)
        except TurfplanError as error:
            problem = error.problems[0]
            raise FormError(problem.message, problem.allowed, problem.hint) from None
        if positive and number < 0:
            raise FormError(phrases.not_negative(), phrases.zero_or_more())
        if (low is not None and number < low) or (high is not None and number > high):
            allowed = _allowed(dimension, low or 0.0, high)
            raise FormError(phrases.senseless(), allowed, errors.look_at_unit())
        return number

    return BeforeValidator(read)


def _allowed(dimension: str, low: float, high: float | None) -> Message:
    """Bounds in the inside unit and, where people in the US measure in another, in that too."""
    unit = inside_unit(dimension)
    us_low, us_unit = us_twin(low, unit)
    bounds = _bounds(low, high, unit)
    if us_unit == unit:
        return bounds
    us_high = None if high is None else us_twin(high, unit)[0]
    return phrases.twice(first=bounds, second=_bounds(us_low, us_high, us_unit))


def _bounds(low: float, high: float | None, unit: str) -> Message:
    least = Number(low, "short")
    if high is None:
        return phrases.or_more(low=least, unit=unit)
    return errors.unit_range(low=least, high=Number(high, "short"), unit=unit)


def _text_schema(example: str) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "examples": [example]})


Depth = Annotated[float, _quantity("length", 0, DEEPEST_MM), _text_schema("1 in")]


def _price(dimension: str) -> Any:
    """A validator of a price for so much: "48 per yd3", held by the inside unit."""

    def read(value: object) -> float:
        amount, _, unit = str(value).partition(" per ")
        try:
            price = float(amount) if isinstance(value, str) else math.nan
            size = parse_quantity(f"1 {unit.strip()}", dimension)
        except (TurfplanError, ValueError):
            raise FormError(phrases.price_like(), one_of(units_of(dimension))) from None
        if not 0 <= price < math.inf:
            raise FormError(phrases.price_like(), one_of(units_of(dimension)))
        return price / size

    return BeforeValidator(read)


Length = Annotated[float, _quantity("length", 0, 2e6), _text_schema("60 ft")]
Coordinate = Annotated[float, _quantity("length", -2e6, 2e6, positive=False), _text_schema("12 ft")]
Area = Annotated[
    float, _quantity("area", SMALLEST_AREA_M2, LARGEST_AREA_M2), _text_schema("4200 ft2")
]
Volume = Annotated[float, _quantity("volume", 0.01, 1e5), _text_schema("6 yd3")]
VolumePrice = Annotated[float, _price("volume"), _text_schema("48 per yd3")]
MassPrice = Annotated[float, _price("mass"), _text_schema("4.50 per lb")]
AreaPrice = Annotated[float, _price("area"), _text_schema("0.80 per ft2")]
Money = Annotated[float, Field(ge=0, lt=1e7)]
WaterRate = Annotated[float, _quantity("water_rate", 1.0, 125.0), _text_schema("1.3 in/h")]
Flow = Annotated[float, _quantity("flow", 0.5, 5000), _text_schema("9 gpm")]
Spacing = Annotated[float, _quantity("length", 500, 40_000), _text_schema("15 ft")]
Rate = Annotated[float, _quantity("areal_mass", 0, 200), _text_schema("1 lb/1000ft2")]
SoilRate = Annotated[float, _quantity("areal_mass", 0, 6000), _text_schema("50 lb/1000ft2")]
Salts = Annotated[float, _quantity("conductivity", 0, 60), _text_schema("4.2 dS/m")]
Elevation = Annotated[
    float, _quantity("length", -500_000, 6_000_000, positive=False), _text_schema("1200 ft")
]
Percent = Annotated[float, Field(ge=0, le=100)]
HoursADay = Annotated[float, Field(ge=0, le=24)]
Share = Annotated[float, Field(gt=0, le=1)]
MonthDay = Annotated[
    str, Field(pattern=r"^(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$", examples=["05-10"])
]
Identity = Annotated[str, Field(pattern=r"^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$")]
LanguageCode = Annotated[str, Field(pattern=r"^[a-z]{2,3}(_[A-Z]{2})?$")]
TimeSpan = Annotated[
    str,
    Field(pattern=r"^([01]\d|2[0-3]):[0-5]\d-([01]\d|2[0-4]):[0-5]\d$", examples=["06:00-09:00"]),
]


class BriefTable(BaseModel):
    """Base of every record of the brief: frozen, with unknown keys forbidden."""

    model_config = ConfigDict(frozen=True, extra="forbid", populate_by_name=True, defer_build=True)


class GrassShare(BriefTable):
    """One grass of a mixed stand and its share of the cover, 0 to 1."""

    species: str
    share: Share = 1.0


# The sets of sides that make each kind of shape.
_WAYS: Mapping[str, tuple[tuple[str, ...], ...]] = {
    "rectangle": (("length", "width"),),
    "circle": (("radius",), ("diameter",)),
    "triangle": (("base", "height"), ("a", "b", "c")),
    "polygon": (("points",),),
}
_SIDES = frozenset(side for ways in _WAYS.values() for way in ways for side in way)


class Shape(BriefTable):
    """One shape of the lawn, or a hole in it: a rectangle, circle, triangle or polygon.

    `at` places it where a survey or other shapes share its coordinates: a corner, or the middle of
    a circle. A shape with a `depth`, `grass` or `sun` of its own is a zone; zones without a depth
    take that of `leveling.depth`.
    """

    kind: Literal["rectangle", "circle", "triangle", "polygon"]
    name: Annotated[str, Field(min_length=1, max_length=80)] | None = None
    hole: bool = False
    length_mm: Length | None = Field(None, alias="length")
    width_mm: Length | None = Field(None, alias="width")
    radius_mm: Length | None = Field(None, alias="radius")
    diameter_mm: Length | None = Field(None, alias="diameter")
    base_mm: Length | None = Field(None, alias="base")
    height_mm: Length | None = Field(None, alias="height")
    a_mm: Length | None = Field(None, alias="a")
    b_mm: Length | None = Field(None, alias="b")
    c_mm: Length | None = Field(None, alias="c")
    points_mm: tuple[tuple[Coordinate, Coordinate], ...] = Field((), alias="points")
    at_mm: tuple[Coordinate, Coordinate] | None = Field(None, alias="at")
    depth_mm: Depth | None = Field(None, alias="depth")
    grass: str | None = None
    sun: Literal["full", "part", "shade"] | None = None

    @model_validator(mode="after")
    def _has_its_sides(self) -> Self:
        given = {name for name in _SIDES if getattr(self, f"{name}_mm")}
        known = _WAYS[self.kind]
        complete = [way for way in known if given.issuperset(way)]
        if not complete:
            raise FormError(_shape_needs(self.kind, known))
        if surplus := sorted(given.difference(complete[0])):
            way = listed(complete[0], "every_and")
            raise FormError(
                phrases.shape_takes_no(shape=self.kind, way=way, surplus=listed(surplus, "or"))
            )
        if self.kind == "polygon" and len(self.points_mm) < 3:
            raise FormError(phrases.three_points())
        return self

    @model_validator(mode="after")
    def _is_no_zone_and_hole(self) -> Self:
        if self.hole and (self.depth_mm or self.grass or self.sun):
            raise FormError(phrases.bare_hole())
        return self


def _shape_needs(shape: str, ways: tuple[tuple[str, ...], ...]) -> Message:
    """What is said of a shape that has none of the sets of sides (one or two) that make it."""
    each = [listed(way, "every_and") for way in ways]
    if len(each) == 1:
        return phrases.shape_needs(shape=shape, way=each[0])
    return phrases.shape_needs_either(shape=shape, first=each[0], second=each[1])


class LawnPart(BriefTable):
    """A part of the lawn that is treated by itself: what it is, and its share or area.

    `grass` grows there alone; `sun_hours` are hours of direct sun a day in the growing season.
    `zone` is the shape of the lawn that it lies in, by its name.
    """

    kind: PartKind
    name: Annotated[str, Field(min_length=1, max_length=80)] | None = None
    share: Annotated[float, Field(gt=0, lt=1)] | None = None
    area_m2: Area | None = Field(None, alias="area")
    grass: str | None = None
    sun_hours: HoursADay | None = None
    zone: Annotated[str, Field(min_length=1, max_length=80)] | None = None

    @model_validator(mode="after")
    def _has_a_size(self) -> Self:
        if (self.share is None) == (self.area_m2 is None):
            raise FormError(phrases.part_size())
        return self


class Lawn(BriefTable):
    """The lawn: its area (typed, drawn or from a map), grass, soil, thatch and how it looks.

    `thin_share` is the part of it that is thin, dead or bare.
    `green_in_winter`, `runners` and `leaf` are three looks that name a grass nobody knows.
    """

    id: Identity | None = None
    name: Annotated[str, Field(min_length=1, max_length=300)] = "Lawn"
    area_m2: Area | None = Field(None, alias="area")
    shape: tuple[Shape, ...] = ()
    geojson: str | None = None
    grass: tuple[GrassShare, ...]
    soil: str | None = None
    thatch_mm: Depth | None = Field(None, alias="thatch")
    condition: StandCondition | None = None
    thin_share: Share | None = None
    part: tuple[LawnPart, ...] = ()
    green_in_winter: bool | None = None
    runners: bool | None = None
    leaf: LeafWidth | None = None

    @field_validator("grass", mode="before")
    @classmethod
    def _one_or_many(cls, value: object) -> object:
        if isinstance(value, str):
            return ({"species": value, "share": 1.0},)
        return value

    @model_validator(mode="after")
    def _has_an_area(self) -> Self:
        given = [
            n
            for n, v in (("area", self.area_m2), ("shape", self.shape), ("geojson", self.geojson))
            if v
        ]
        if len(given) != 1:
            raise FormError(
                phrases.area_once_got(given=listed(given, "comma"))
                if given
                else phrases.area_once()
            )
        if not self.grass:
            raise FormError(phrases.no_grass())
        total = sum(g.share for g in self.grass)
        if not 0.98 <= total <= 1.02:
            raise FormError(phrases.grass_shares(total=Number(total, "plain")))
        if sum(part.share or 0.0 for part in self.part) >= 1:
            raise FormError(phrases.part_shares())
        return self


class Place(BriefTable):
    """Where the lawn lies, as exactly as its owner can say."""

    postal_code: str | None = None
    town: Annotated[str, Field(min_length=2, max_length=120)] | None = None
    latitude: Annotated[float, Field(ge=-90, le=90)] | None = None
    longitude: Annotated[float, Field(ge=-180, le=180)] | None = None
    country: Annotated[str, Field(pattern=r"^[A-Z]{2}$")] | None = None
    state: str | None = None
    region: str | None = None
    elevation_mm: Elevation | None = Field(None, alias="elevation")
    timezone: str | None = None
    normals: str | None = None
    last_frost: MonthDay | None = None
    first_frost: MonthDay | None = None
    climate_zone: str | None = None

    @field_validator("last_frost", "first_frost", mode="before")
    @classmethod
    def _date_without_year(cls, value: object) -> object:
        return f"{value:%m-%d}" if isinstance(value, date) else value

    @model_validator(mode="after")
    def _is_somewhere(self) -> Self:
        if (self.latitude is None) != (self.longitude is None):
            raise FormError(phrases.coordinates_together())
        if self.town is not None and (self.latitude is not None or self.postal_code is not None):
            raise FormError(phrases.town_once())
        if (
            self.postal_code is None
            and self.town is None
            and self.latitude is None
            and self.climate_zone is None
            and self.normals is None
        ):
            raise FormError(phrases.nowhere())
        return self


class Low(BriefTable):
    """Hollows: how deep, over which share of the lawn."""

    depth_mm: Depth = Field(alias="depth")
    share: Share


class Leveling(BriefTable):
    """How much is to be filled and with what; `depth` is the mean settled fill, beside
    `lows` that of everything else.

    `target` is the surface a survey is leveled to: the lawn's own fall (the default), one plane, or
    a straightedge's.
    """

    depth_mm: Depth | None = Field(None, alias="depth")
    lows: tuple[Low, ...] = ()
    survey: str | None = None
    target: Literal["own_fall", "plane", "fill_only"] | None = None
    material: str = "auto"
    parts: Mapping[str, Share] | None = None
    settle_percent: Annotated[float, Field(ge=0, le=20)] | None = None

    @model_validator(mode="after")
    def _agrees(self) -> Self:
        if self.survey and (self.depth_mm or self.lows):
            raise FormError(phrases.survey_gives_depth())
        if self.target and not self.survey:
            raise FormError(phrases.target_needs_survey())
        if self.lows and sum(low.share for low in self.lows) > 1:
            raise FormError(phrases.low_shares())
        if self.parts is not None and abs(sum(self.parts.values()) - 1) > 0.01:
            raise FormError(phrases.mix_parts())
        return self


class Seeding(BriefTable):
    """Whether and how the lawn is seeded or planted.

    A lawn that is made anew (`renovate`) is planted where its grass gives no seed, or where `form`
    says in which form it is bought.
    """

    intent: Intent = "none"
    species: str | None = None
    rate_g_m2: Rate | None = Field(None, alias="rate")
    purity_percent: Annotated[float, Field(gt=0, le=100)] | None = None
    germination_percent: Annotated[float, Field(gt=0, le=100)] | None = None
    form: Literal["sod", "plugs", "sprigs"] | None = None
    spacing_mm: Annotated[float, _quantity("length", 50, 1000), _text_schema("12 in")] | None = (
        Field(None, alias="spacing")
    )


class WaterZone(BriefTable):
    """One valve of an irrigation system."""

    name: Annotated[str, Field(min_length=1, max_length=80)]
    area_m2: Area | None = Field(None, alias="area")
    application_rate_mm_h: WaterRate | None = Field(None, alias="application_rate")
    head: Literal["spray", "rotor", "rotary_nozzle", "impact", "oscillating", "drip"] | None = None
    catch_cans_mm: tuple[Depth, ...] = Field((), alias="catch_cans")
    catch_minutes: Annotated[float, Field(gt=0, le=240)] | None = None
    sun: Literal["full", "part", "shade"] | None = None
    head_flow_l_min: Flow | None = Field(None, alias="head_flow")
    head_spacing_mm: Spacing | None = Field(None, alias="head_spacing")
    row_spacing_mm: Spacing | None = Field(None, alias="row_spacing")


class Span(BriefTable):
    """Days from `from` to `to`, both included."""

    start: date = Field(alias="from")
    end: date = Field(alias="to")

    @model_validator(mode="after")
    def _runs_forward(self) -> Self:
        if self.end < self.start:
            raise FormError(phrases.ends_first(end=str(self.end), start=str(self.start)))
        return self


# How days are written in a brief.
DAYS_WRITTEN = "[{ from = 2026-12-19, to = 2027-01-09 }]"


def _days_listed(value: object) -> object:
    """Spans as a list of tables; a text, which nobody can take for days, is answered with one."""
    if not isinstance(value, list | tuple) or any(isinstance(one, str | date) for one in value):
        raise FormError(phrases.days_like(example=DAYS_WRITTEN))
    return value


DaysListed = Annotated[tuple[Span, ...], BeforeValidator(_days_listed)]


class Water(BriefTable):
    """How the lawn can be watered, and what the law there allows.

    `permit` says whether watering beyond the allowed days is permitted; unsaid, a plan that needs
    it asks for it.
    """

    possible: bool | None = None
    application_rate_mm_h: WaterRate | None = Field(None, alias="application_rate")
    catch_cans_mm: tuple[Depth, ...] = Field((), alias="catch_cans")
    catch_minutes: Annotated[float, Field(gt=0, le=240)] | None = None
    head: Literal["spray", "rotor", "rotary_nozzle", "impact", "oscillating", "drip"] | None = None
    flow_l_min: Flow | None = Field(None, alias="flow")
    head_flow_l_min: Flow | None = Field(None, alias="head_flow")
    head_spacing_mm: Spacing | None = Field(None, alias="head_spacing")
    row_spacing_mm: Spacing | None = Field(None, alias="row_spacing")
    zones: tuple[WaterZone, ...] = ()
    allowed_weekdays: tuple[Weekday, ...] | None = None
    allowed_hours: tuple[TimeSpan, ...] = ()
    parity: Literal["odd", "even"] | None = None
    permit: bool | None = None
    banned: DaysListed = ()
    price_per_m3: Annotated[float, Field(ge=0)] | None = None
    timer: bool | None = None
    hours_per_day: Annotated[float, Field(gt=0, le=24)] | None = None

    @model_validator(mode="after")
    def _cans_have_minutes(self) -> Self:
        if self.catch_cans_mm and self.catch_minutes is None:
            raise FormError(phrases.cans_need_minutes())
        if self.allowed_weekdays is not None and not self.allowed_weekdays:
            raise FormError(phrases.no_weekdays())
        return self


class SoilReading(BriefTable):
    """A nutrient in the soil: the laboratory's level, or a number with its extraction.

    Without the extraction a number says nothing, and is asked about.
    """

    level: Level | None = None
    value_mg_kg: (
        Annotated[float, _quantity("concentration", 0, 5000), _text_schema("21 ppm")] | None
    ) = Field(None, alias="value")
    method: Extraction | None = None

    @model_validator(mode="after")
    def _says_one_thing(self) -> Self:
        if (self.level is None) == (self.value_mg_kg is None):
            raise FormError(phrases.level_or_value())
        return self


def _level_or_value(value: object) -> object:
    """`low` as a level, and `21 ppm mehlich_3` as a number with its unit and its extraction."""
    if isinstance(value, dict | SoilReading):
        return value
    if not isinstance(value, str):
        return {"value": value}
    words = value.split()
    if not value[:1].isdigit():
        return {"level": value}
    method = "_".join(words[2:]).lower().replace("-", "_")
    return {"value": " ".join(words[:2])} | ({"method": method} if method else {})


Nutrition = Annotated[SoilReading, BeforeValidator(_level_or_value)]


class SoilTest(BriefTable):
    """What the laboratory found, and when: of the lawn's own soil or of topsoil brought in.

    Its own rates of lime and gypsum are taken as they are; `buffer_ph` says nothing without the
    name of the buffer. `free_lime` is whether the soil holds lime (it fizzes with vinegar), `sar`
    the sodium adsorption ratio of a saturated paste.
    """

    on: date | None = None
    of: Literal["lawn", "topsoil"] | None = None
    ph: Annotated[float, Field(ge=3, le=10)] | None = None
    acidity_cmol_kg: Annotated[float, Field(ge=0, le=40)] | None = None
    lime_rate_g_m2: SoilRate | None = Field(None, alias="lime_rate")
    buffer_ph: Annotated[float, Field(ge=4, le=8)] | None = None
    buffer_method: BufferMethod | None = None
    phosphorus: Nutrition | None = None
    potassium: Nutrition | None = None
    free_lime: bool | None = None
    salts_ds_m: Salts | None = Field(None, alias="salts")
    sar: Annotated[float, Field(ge=0, le=100)] | None = None
    gypsum_rate_g_m2: SoilRate | None = Field(None, alias="gypsum_rate")

    @model_validator(mode="after")
    def _buffer_is_read(self) -> Self:
        if self.buffer_method is not None and self.buffer_ph is None:
            raise FormError(phrases.buffer_needs_ph())
        return self


class Feeding(BriefTable):
    """The fertilizer at hand, by its analysis alone, and what becomes of the clippings."""

    analysis: (
        Annotated[str, Field(pattern=r"^\d{1,2}(\.\d+)?-\d{1,2}(\.\d+)?-\d{1,2}(\.\d+)?$")] | None
    ) = None
    slow_release_percent: Percent | None = None
    clippings: Literal["returned", "removed"] | None = None
    compost_nitrogen_percent: Annotated[float, Field(gt=0, le=6)] | None = None
    lime_cce_percent: Annotated[float, Field(gt=0, le=180)] | None = None


class Alarm(BriefTable):
    """When a reminder rings: days before, at a clock time."""

    days_before: Annotated[int, Field(ge=0, le=7)] = 1
    at: time = time(19, 0)

    @field_validator("at", mode="before")
    @classmethod
    def _clock_text(cls, value: object) -> object:
        if isinstance(value, str) and not re.fullmatch(r"([01]\d|2[0-3]):[0-5]\d", value):
            raise FormError(phrases.clock_like())
        return value

    @model_validator(mode="after")
    def _by_day(self) -> Self:
        if not time(5) <= self.at <= time(22):
            raise FormError(phrases.alarm_hours())
        return self


class Calendar(BriefTable):
    """On which days work is possible, and what a calendar shows of it.

    On `unavailable` days nothing is worked, and water goes on; on `away` days nobody is there.
    `watering` is each run, one entry a day, or none; `prepare` an entry on the evening before what
    has to be made ready, with "week" also one entry a week with its list.
    """

    weekdays: Annotated[tuple[Weekday, ...], Field(min_length=1)] | None = None
    unavailable: DaysListed = ()
    away: DaysListed = ()
    holidays: Literal["rest", "work"] | None = None
    alarm: Alarm | Literal[False] = Alarm.model_construct()
    watering: Literal["each", "day", "none"] | None = None
    prepare: bool | Literal["week"] | None = None


class Season(BriefTable):
    """The days the plan may use, and a campaign when one is asked for by name."""

    start: date | None = Field(None, alias="from")
    until: date | None = None
    campaign: str = "auto"

    @model_validator(mode="after")
    def _runs_forward(self) -> Self:
        if self.start and self.until and self.until <= self.start:
            raise FormError(phrases.until_first(until=str(self.until), start=str(self.start)))
        return self


class HerbicideUse(BriefTable):
    """A weed killer that was used: its active ingredient and the day.

    `seed_after` is the first day that the label, or a pot test, allows seed; `hold_days` the days
    that the label asks for.
    """

    active_ingredient: Annotated[str, Field(min_length=2, max_length=60)]
    on: date
    seed_after: date | None = None
    hold_days: Annotated[int, Field(ge=0, le=1500)] | None = None

    @model_validator(mode="after")
    def _says_it_once(self) -> Self:
        if self.seed_after is not None and self.hold_days is not None:
            raise FormError(phrases.hold_once())
        return self


class NitrogenUse(BriefTable):
    """Nitrogen that was given: rate of N and the day."""

    rate_g_m2: Rate = Field(alias="rate")
    on: date


class EarlierSowing(BriefTable):
    """Seed that was sown before the plan begins: the day, and the grass where it is known."""

    on: date
    species: str | None = None


class MossTreatment(BriefTable):
    """What was put on moss before the plan begins, and the day."""

    on: date
    active_ingredient: Annotated[str, Field(min_length=2, max_length=60)] | None = None


class LimeUse(BriefTable):
    """Lime that was given: rate of the product and the day."""

    rate_g_m2: SoilRate = Field(alias="rate")
    on: date


class History(BriefTable):
    """What was put on the lawn before the plan begins."""

    herbicides: tuple[HerbicideUse, ...] = ()
    nitrogen: tuple[NitrogenUse, ...] = ()
    sowings: tuple[EarlierSowing, ...] = ()
    moss: tuple[MossTreatment, ...] = ()
    lime: tuple[LimeUse, ...] = ()


class Site(BriefTable):
    """What limits or endangers the work on this ground.

    `sun_hours` are hours of direct sun a day in the growing season, `shade_hours` what is missing
    of its daylight. `thin_cause` says why the grass is thin; `cleared` are the causes, of bumps
    too, that were looked for and are over.
    """

    slope_percent: Annotated[float, Field(ge=0, le=60)] | None = None
    sun_hours: HoursADay | None = None
    shade_hours: HoursADay | None = None
    trees: bool = False
    septic_field: bool = False
    water_body: bool = False
    building: bool = False
    sprinklers: bool | None = None
    pets: bool = False
    bump_cause: BumpCause | None = None
    thin_cause: tuple[ThinCause, ...] = ()
    cleared: tuple[BumpCause | ThinCause, ...] = ()
    weeds_percent: Percent | None = None
    ground: tuple[GroundTrouble, ...] = ()
    rock_depth_mm: Annotated[float, _quantity("length", 20, 3000), _text_schema("10 in")] | None = (
        Field(None, alias="rock_depth")
    )

    @field_validator("thin_cause", "cleared", mode="before")
    @classmethod
    def _one_or_many(cls, value: object) -> object:
        return (value,) if isinstance(value, str) else value

    @model_validator(mode="after")
    def _says_light_once(self) -> Self:
        if self.sun_hours is not None and self.shade_hours is not None:
            raise FormError(phrases.light_once())
        return self


class Work(BriefTable):
    """Who does the work, for how long a day, and with which machines."""

    by: Literal["household", "contractor"] | None = None
    people: Annotated[int, Field(ge=1, le=50)] | None = None
    hours_per_day: Annotated[float, Field(gt=0, le=14)] | None = None
    haul_distance_mm: Length | None = Field(None, alias="haul_distance")
    machines: tuple[MachineName, ...] = ()


class Delivery(BriefTable):
    """How material reaches the lawn."""

    truck_limit_m3: Volume | None = Field(None, alias="truck_limit")
    lead_days: Annotated[int, Field(ge=0, le=180)] | None = None
    allowed_weekdays: Annotated[tuple[Weekday, ...], Field(min_length=1)] | None = None
    quoted_m3: Volume | None = Field(None, alias="quoted")
    least_load_m3: Volume | None = Field(None, alias="least_load")
    form: Literal["bulk", "bags"] | None = None
    heap_area_m2: Area | None = Field(None, alias="heap_area")


class YearlySpan(BriefTable):
    """Days of every year, from month-day to month-day, both included; may run over New Year."""

    start: MonthDay = Field(alias="from")
    end: MonthDay = Field(alias="to")


class Local(BriefTable):
    """Local law and policy that the owner has looked up."""

    phosphorus: PhosphorusRule | None = None
    nitrogen_blackouts: tuple[YearlySpan, ...] | None = None
    fertilizer_setback_mm: Length | None = Field(None, alias="fertilizer_setback")
    late_nitrogen: bool | None = None
    spring_aeration: bool | None = None
    quiet_days: tuple[Weekday | Literal["holidays"], ...] | None = None
    machine_hours: Annotated[tuple[TimeSpan, ...], Field(min_length=1)] | None = None


class Prices(BriefTable):
    """What things cost here, in one money: what is measured by its measure, the rest by the piece;
    `load` is what a load costs to bring.
    """

    currency: Annotated[str, Field(min_length=1, max_length=8, pattern=r"^\S+$")] | None = None
    mix_per_m3: VolumePrice | None = Field(None, alias="mix")
    topsoil_per_m3: VolumePrice | None = Field(None, alias="topsoil")
    sprigs_per_m3: VolumePrice | None = Field(None, alias="sprigs")
    seed_per_kg: MassPrice | None = Field(None, alias="seed")
    lime_per_kg: MassPrice | None = Field(None, alias="lime")
    sod_per_m2: AreaPrice | None = Field(None, alias="sod")
    plug: Money | None = None
    bale: Money | None = None
    hire: Money | None = None
    load: Money | None = None


class Brief(BriefTable):
    """What is wanted, checked for form."""

    units: System | None = None
    language: LanguageCode | None = None
    lawn: Lawn
    place: Place
    leveling: Leveling = Leveling.model_construct()
    seeding: Seeding = Seeding.model_construct()
    water: Water = Water.model_construct()
    soil_test: SoilTest = SoilTest.model_construct()
    feeding: Feeding = Feeding.model_construct()
    calendar: Calendar = Calendar.model_construct()
    season: Season = Season.model_construct()
    history: History = History.model_construct()
    site: Site = Site.model_construct()
    work: Work = Work.model_construct()
    delivery: Delivery = Delivery.model_construct()
    local: Local = Local.model_construct()
    prices: Prices = Prices.model_construct()

    @property
    def dominant(self) -> GrassShare:
        """The grass with the largest share (the first of equals)."""
        return max(self.lawn.grass, key=lambda g: g.share)


def _validated(data: Mapping[str, Any]) -> Brief:
    """A brief by the names of its keys alone: what code calls their values is no key."""
    return Brief.model_validate(data, by_alias=True, by_name=False)


def parse_brief(data: Mapping[str, Any]) -> Brief:
    """A mapping of texts, numbers and dates as a Brief.

    Raises TurfplanError with every fault found.
    """
    try:
        return _validated(data)
    except ValidationError as error:
        raise TurfplanError(form_problems(error)) from None


def form_problems(error: ValidationError, record: type[BaseModel] = Brief) -> list[Problem]:
    """Every fault of form that was found in a table of such a record."""
    return [_problem(fault, record) for fault in error.errors(include_url=False)]


def sound_part(data: Mapping[str, Any]) -> Brief | None:
    """What is left of a faulty brief without its faulty entries, to check its names too.

    None where too little is left. A lawn left without an area gets one that no answer is taken
    from.
    """
    rest = deepcopy(dict(data))
    # What is left of an entry may be a fault of its own: it lacks what was taken out.
    for _ in range(SOUND_ROUNDS):
        try:
            return _validated(rest)
        except ValidationError as error:
            for fault in reversed(error.errors(include_url=False)):
                _take_out(rest, fault["loc"])
        lawn = rest.get("lawn")
        if isinstance(lawn, dict) and not lawn.keys() & {"area", "shape", "geojson"}:
            lawn["area"] = "100 m2"
    return None


def _take_out(data: Any, steps: Sequence[int | str]) -> None:
    """Removes the deepest entry that the steps of a fault lead to.

    Steps that are no entries are passed over.
    """
    owner, key = None, None
    for step in steps:
        inside = (isinstance(data, dict) and step in data) or (
            isinstance(data, list) and isinstance(step, int) and step < len(data)
        )
        if inside:
            owner, key, data = data, step, data[step]
    if isinstance(owner, dict) and key is not None:
        owner.pop(key, None)
    elif isinstance(owner, list) and isinstance(key, int):
        del owner[key]


def _problem(fault: ErrorDetails, record: type[BaseModel]) -> Problem:
    """A fault of form with its place in the record, what was got, what is allowed, and a hint."""
    where = ".".join(
        str(step)
        for step in fault["loc"]
        if not str(step).startswith(("Alarm", "literal[", "function-"))
    )
    got = fault["input"]
    shown = repr(got) if isinstance(got, str | int | float | bool | date) else None
    match fault["type"]:
        case "extra_forbidden":
            key, known = str(fault["loc"][-1]), _known_keys(fault["loc"], record)
            near = did_you_mean(key, known)
            return Problem(where, errors.unknown_key(), key, one_of(known), near)
        case "missing":
            return Problem(where, errors.required(), hint=phrases.add_it())
        case "literal_error" | "enum":
            allowed = choices(fault["ctx"])
            near = did_you_mean(str(got), allowed)
            return Problem(where, phrases.not_a_word(), shown, one_of(allowed), near)
    if (own := own_fault(fault)) is not None:
        return Problem(where, own.message, shown, own.allowed, own.hint)
    message = thing_wanted(fault) or form.should_be(what=wanted(fault))
    return Problem(where, message, shown)


def _known_keys(location: Sequence[int | str], model: type[BaseModel]) -> tuple[str, ...]:
    """The keys that are known at a place of a record, for the hint about a misspelt one."""
    for step in location[:-1]:
        field = next(
            (f for name, f in model.model_fields.items() if step in (name, f.alias))
            if isinstance(step, str)
            else iter(()),
            None,
        )
        if field is not None and (inner := _inner_model(field.annotation)) is not None:
            model = inner
    return tuple(field.alias or name for name, field in model.model_fields.items())


def _inner_model(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next(
        (found for a in get_args(annotation) if (found := _inner_model(a)) is not None), None
    )
