"""The frozen record of what is wanted: a lawn, its place, and what its owner asks for.

Every quantity is written as a text with a unit and held in the inside unit that its field name ends in. `None` means
"not said": the planner then assumes a value and says so. Names of grasses, soils, mixes and regions are checked
against the book by `planner.check_brief`; this module checks form alone. It is longer than others: one table of records.
"""

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
from pydantic_core import PydanticCustomError

from turfplan.errors import Problem, TurfplanError, nearest
from turfplan.units import System, format_number, inside_unit, parse_quantity, us_twin

Weekday = Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
Intent = Literal["none", "patch", "overseed", "renovate", "dormant", "plant", "winter_overseed"]
Condition = Literal["dense", "thin", "patchy", "bare"]
Level = Literal["low", "medium", "high"]
PhosphorusRule = Literal["free", "test", "banned"]
BumpCause = Literal[
    "unknown", "settling", "stump", "trench", "worms", "moles", "frost", "thatch", "construction", "traffic"
]

WEEKDAYS: tuple[Weekday, ...] = get_args(Weekday)
# Bounds of form, not of agronomy: outside them a typing slip is likelier than a lawn.
SMALLEST_AREA_M2, LARGEST_AREA_M2 = 1.0, 200_000.0
DEEPEST_MM = 300.0


def _quantity(dimension: str, low: float | None = None, high: float | None = None, *, positive: bool = True) -> Any:
    """A validator of a written quantity, with its bounds in inside units."""

    def read(value: object) -> float:
        try:
            number = parse_quantity(value, dimension)
        except TurfplanError as error:
            problem = error.problems[0]
            raise PydanticCustomError(
                "quantity", "{message}", {"message": problem.message, "allowed": problem.allowed, "hint": problem.hint}
            ) from None
        if positive and number < 0:
            raise PydanticCustomError("quantity", "must not be negative", {"allowed": "0 or more"})
        if (low is not None and number < low) or (high is not None and number > high):
            raise PydanticCustomError(
                "quantity",
                "is out of any sensible range",
                {"allowed": _range_text(dimension, low or 0.0, high), "hint": "look at the unit"},
            )
        return number

    return BeforeValidator(read)


def _range_text(dimension: str, low: float, high: float | None) -> str:
    """Bounds in the inside unit and, where people in the US measure in another, in that too."""
    unit = inside_unit(dimension)
    us_unit = us_twin(low, unit)[1]

    def words(least: float, most: float | None, name: str) -> str:
        first = format_number(least)
        return f"{first} {name} or more" if most is None else f"{first} to {format_number(most)} {name}"

    said = words(low, high, unit)
    if us_unit == unit:
        return said
    return f"{said} ({words(us_twin(low, unit)[0], None if high is None else us_twin(high, unit)[0], us_unit)})"


def _text_schema(example: str) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "examples": [example]})


Depth = Annotated[float, _quantity("length", 0, DEEPEST_MM), _text_schema("1 in")]
Length = Annotated[float, _quantity("length", 0, 2e6), _text_schema("60 ft")]
Coordinate = Annotated[float, _quantity("length", -2e6, 2e6, positive=False), _text_schema("12 ft")]
Area = Annotated[float, _quantity("area", SMALLEST_AREA_M2, LARGEST_AREA_M2), _text_schema("4200 ft2")]
Volume = Annotated[float, _quantity("volume", 0.01, 1e5), _text_schema("6 yd3")]
WaterRate = Annotated[float, _quantity("water_rate", 1.0, 125.0), _text_schema("1.3 in/h")]
Flow = Annotated[float, _quantity("flow", 0.5, 5000), _text_schema("9 gpm")]
Spacing = Annotated[float, _quantity("length", 500, 40_000), _text_schema("15 ft")]
Rate = Annotated[float, _quantity("areal_mass", 0, 200), _text_schema("1 lb/1000ft2")]
Elevation = Annotated[float, _quantity("length", -500_000, 6_000_000, positive=False), _text_schema("1200 ft")]
Percent = Annotated[float, Field(ge=0, le=100)]
Share = Annotated[float, Field(gt=0, le=1)]
MonthDay = Annotated[str, Field(pattern=r"^(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$", examples=["05-10"])]
Identity = Annotated[str, Field(pattern=r"^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$")]
TimeSpan = Annotated[str, Field(pattern=r"^([01]\d|2[0-3]):[0-5]\d-([01]\d|2[0-4]):[0-5]\d$", examples=["06:00-09:00"])]


class Part(BaseModel):
    """Base of every record of the brief: frozen, with unknown keys forbidden."""

    model_config = ConfigDict(frozen=True, extra="forbid", populate_by_name=True)


class GrassShare(Part):
    """One grass of a mixed stand and its share of the cover, 0 to 1."""

    species: str
    share: Share = 1.0


class Shape(Part):
    """One shape of the lawn, or a hole in it: a rectangle, circle, triangle or polygon.

    `at` places it where a survey or other shapes share its coordinates: a corner, or the middle of a circle. A shape with
    a `depth`, `grass` or `sun` of its own is a zone; zones without a depth take that of `leveling.depth`.
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
        ways = {
            "rectangle": (("length", "width"),),
            "circle": (("radius",), ("diameter",)),
            "triangle": (("base", "height"), ("a", "b", "c")),
            "polygon": (("points",),),
        }
        given = {
            name for way in (w for kind in ways.values() for w in kind) for name in way if getattr(self, f"{name}_mm")
        }
        known = ways[self.kind]
        complete = [way for way in known if given.issuperset(way)]
        if not complete:
            words = ", or ".join(" and ".join(way) for way in known)
            raise ValueError(f"a {self.kind} needs {words}")
        if surplus := sorted(given.difference(complete[0])):
            raise ValueError(f"a {self.kind} given by {' and '.join(complete[0])} takes no {' or '.join(surplus)}")
        if self.kind == "polygon" and len(self.points_mm) < 3:
            raise ValueError("a polygon needs three points or more")
        if self.hole and (self.depth_mm or self.grass or self.sun):
            raise ValueError("a hole has no depth, grass or sun")
        return self


class Lawn(Part):
    """The lawn: its area (typed, drawn or from a map), grass, soil, thatch and how it looks."""

    id: Identity | None = None
    name: Annotated[str, Field(min_length=1, max_length=300)] = "Lawn"
    area_m2: Area | None = Field(None, alias="area")
    shape: tuple[Shape, ...] = ()
    geojson: str | None = None
    grass: tuple[GrassShare, ...]
    soil: str | None = None
    thatch_mm: Depth | None = Field(None, alias="thatch")
    condition: Condition | None = None

    @field_validator("grass", mode="before")
    @classmethod
    def _one_or_many(cls, value: object) -> object:
        if isinstance(value, str):
            return ({"species": value, "share": 1.0},)
        return value

    @model_validator(mode="after")
    def _has_an_area(self) -> Self:
        given = [n for n, v in (("area", self.area_m2), ("shape", self.shape), ("geojson", self.geojson)) if v]
        if len(given) != 1:
            raise ValueError(
                "give the area once: area, [[lawn.shape]] or geojson" + (f"; got {', '.join(given)}" if given else "")
            )
        if not self.grass:
            raise ValueError("at least one grass is needed")
        total = sum(g.share for g in self.grass)
        if not 0.98 <= total <= 1.02:
            raise ValueError(f"the shares of the grasses add up to {total:g}, not 1")
        return self


class Place(Part):
    """Where the lawn lies, as exactly as its owner can say."""

    postal_code: str | None = None
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
            raise ValueError("latitude and longitude go together")
        if self.postal_code is None and self.latitude is None and self.climate_zone is None and self.normals is None:
            raise ValueError("give postal_code (US), latitude and longitude, or climate_zone")
        return self


class Low(Part):
    """Hollows: how deep, over which share of the lawn."""

    depth_mm: Depth = Field(alias="depth")
    share: Share


class Leveling(Part):
    """How much is to be filled and with what; `depth` is the mean settled fill over the whole area.

    `target` is the surface a survey is leveled to: the lawn's own fall (the default), one plane, or a straightedge's.
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
            raise ValueError("survey already gives the depth: leave out depth and lows")
        if self.target and not self.survey:
            raise ValueError("target says how a survey is leveled: it needs survey")
        if self.lows and sum(low.share for low in self.lows) > 1:
            raise ValueError("the shares of lows add up to more than 1")
        if self.parts is not None and abs(sum(self.parts.values()) - 1) > 0.01:
            raise ValueError("the parts of the mix must add up to 1")
        return self


class Seeding(Part):
    """Whether and how the lawn is seeded or planted."""

    intent: Intent = "none"
    species: str | None = None
    rate_g_m2: Rate | None = Field(None, alias="rate")
    purity_percent: Annotated[float, Field(gt=0, le=100)] | None = None
    germination_percent: Annotated[float, Field(gt=0, le=100)] | None = None
    form: Literal["sod", "plugs", "sprigs"] | None = None
    spacing_mm: Annotated[float, _quantity("length", 50, 1000), _text_schema("12 in")] | None = Field(
        None, alias="spacing"
    )


class WaterZone(Part):
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


class Span(Part):
    """Days from `from` to `to`, both included."""

    start: date = Field(alias="from")
    end: date = Field(alias="to")

    @model_validator(mode="after")
    def _runs_forward(self) -> Self:
        if self.end < self.start:
            raise ValueError(f"ends ({self.end}) before it starts ({self.start})")
        return self


class Water(Part):
    """How the lawn can be watered, and what the law there allows."""

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
    permit: bool = False
    banned: tuple[Span, ...] = ()
    price_per_m3: Annotated[float, Field(ge=0)] | None = None

    @model_validator(mode="after")
    def _cans_have_minutes(self) -> Self:
        if self.catch_cans_mm and self.catch_minutes is None:
            raise ValueError("catch_cans needs catch_minutes, the time they stood out")
        if self.allowed_weekdays is not None and not self.allowed_weekdays:
            raise ValueError("allowed_weekdays is empty: leave it out, or say possible = false")
        return self


class SoilTest(Part):
    """What the laboratory found, and when."""

    on: date | None = None
    ph: Annotated[float, Field(ge=3, le=10)] | None = None
    acidity_cmol_kg: Annotated[float, Field(ge=0, le=40)] | None = None
    phosphorus: Level | None = None
    potassium: Level | None = None


class Feeding(Part):
    """The fertilizer at hand, by its analysis alone, and what becomes of the clippings."""

    analysis: Annotated[str, Field(pattern=r"^\d{1,2}(\.\d+)?-\d{1,2}(\.\d+)?-\d{1,2}(\.\d+)?$")] | None = None
    slow_release_percent: Percent | None = None
    clippings: Literal["returned", "removed"] | None = None
    compost_nitrogen_percent: Annotated[float, Field(gt=0, le=6)] | None = None
    lime_cce_percent: Annotated[float, Field(gt=0, le=180)] | None = None


class Alarm(Part):
    """When a reminder rings: days before, at a clock time."""

    days_before: Annotated[int, Field(ge=0, le=7)] = 1
    at: time = time(19, 0)

    @field_validator("at", mode="before")
    @classmethod
    def _clock_text(cls, value: object) -> object:
        if isinstance(value, str) and not re.fullmatch(r"([01]\d|2[0-3]):[0-5]\d", value):
            raise ValueError("write a clock time like 19:00")
        return value

    @model_validator(mode="after")
    def _by_day(self) -> Self:
        if not time(5) <= self.at <= time(22):
            raise ValueError("an alarm rings between 05:00 and 22:00")
        return self


class Calendar(Part):
    """On which days work is possible."""

    weekdays: Annotated[tuple[Weekday, ...], Field(min_length=1)] | None = None
    unavailable: tuple[Span, ...] = ()
    away: tuple[Span, ...] = ()
    alarm: Alarm | Literal[False] = Alarm()


class Season(Part):
    """The days the plan may use, and a campaign when one is asked for by name."""

    start: date | None = Field(None, alias="from")
    until: date | None = None
    campaign: str = "auto"

    @model_validator(mode="after")
    def _runs_forward(self) -> Self:
        if self.start and self.until and self.until <= self.start:
            raise ValueError(f"until ({self.until}) is not after from ({self.start})")
        return self


class HerbicideUse(Part):
    """A weed killer that was used: its active ingredient and the day."""

    active_ingredient: Annotated[str, Field(min_length=2, max_length=60)]
    on: date


class NitrogenUse(Part):
    """Nitrogen that was given: rate of N and the day."""

    rate_g_m2: Rate = Field(alias="rate")
    on: date


class History(Part):
    """What was put on the lawn before the plan begins."""

    herbicides: tuple[HerbicideUse, ...] = ()
    nitrogen: tuple[NitrogenUse, ...] = ()


class Site(Part):
    """What limits or endangers the work on this ground."""

    slope_percent: Annotated[float, Field(ge=0, le=60)] | None = None
    shade_hours: Annotated[float, Field(ge=0, le=24)] | None = None
    trees: bool = False
    septic_field: bool = False
    water_body: bool = False
    building: bool = False
    sprinklers: bool | None = None
    pets: bool = False
    bump_cause: BumpCause | None = None
    weeds_percent: Percent | None = None


class Work(Part):
    """Who does the work, for how long a day, and with which machines."""

    people: Annotated[int, Field(ge=1, le=50)] | None = None
    hours_per_day: Annotated[float, Field(gt=0, le=14)] | None = None
    haul_distance_mm: Length | None = Field(None, alias="haul_distance")
    machines: tuple[Literal["aerator", "dethatcher", "topdresser", "loader", "roller"], ...] = ()


class Delivery(Part):
    """How material reaches the lawn."""

    truck_limit_m3: Volume | None = Field(None, alias="truck_limit")
    lead_days: Annotated[int, Field(ge=0, le=180)] | None = None
    allowed_weekdays: Annotated[tuple[Weekday, ...], Field(min_length=1)] | None = None
    quoted_m3: Volume | None = Field(None, alias="quoted")


class YearlySpan(Part):
    """Days of every year, from month-day to month-day, both included; may run over New Year."""

    start: MonthDay = Field(alias="from")
    end: MonthDay = Field(alias="to")


class Local(Part):
    """Local law and policy that the owner has looked up."""

    phosphorus: PhosphorusRule | None = None
    nitrogen_blackouts: tuple[YearlySpan, ...] | None = None
    fertilizer_setback_mm: Length | None = Field(None, alias="fertilizer_setback")
    late_nitrogen: bool | None = None
    spring_aeration: bool | None = None


class Brief(Part):
    """What is wanted, checked for form."""

    units: System | None = None
    lawn: Lawn
    place: Place
    leveling: Leveling = Leveling()
    seeding: Seeding = Seeding()
    water: Water = Water()
    soil_test: SoilTest = SoilTest()
    feeding: Feeding = Feeding()
    calendar: Calendar = Calendar()
    season: Season = Season()
    history: History = History()
    site: Site = Site()
    work: Work = Work()
    delivery: Delivery = Delivery()
    local: Local = Local()

    @property
    def dominant(self) -> GrassShare:
        """The grass with the largest share (the first of equals)."""
        return max(self.lawn.grass, key=lambda g: g.share)


def parse_brief(data: Mapping[str, Any]) -> Brief:
    """A mapping of texts, numbers and dates as a Brief; raises TurfplanError with every fault found."""
    try:
        return Brief.model_validate(data)
    except ValidationError as error:
        raise TurfplanError(_problem(dict(fault)) for fault in error.errors(include_url=False)) from None


def sound_part(data: Mapping[str, Any]) -> Brief | None:
    """What is left of a faulty brief without its faulty entries, to check its names too; None where too little is left.

    A lawn left without an area gets one that no answer is taken from.
    """
    rest = deepcopy(dict(data))
    try:
        return Brief.model_validate(rest)
    except ValidationError as error:
        for fault in error.errors(include_url=False):
            _take_out(rest, fault["loc"])
    lawn = rest.get("lawn")
    if isinstance(lawn, dict) and not lawn.keys() & {"area", "shape", "geojson"}:
        lawn["area"] = "100 m2"
    try:
        return Brief.model_validate(rest)
    except ValidationError:
        return None


def _take_out(data: Any, steps: Sequence[int | str]) -> None:
    """Removes the deepest entry that the steps of a fault lead to; steps that are no entries are passed over."""
    owner, key = None, None
    for step in steps:
        inside = (isinstance(data, dict) and step in data) or (
            isinstance(data, list) and isinstance(step, int) and step < len(data)
        )
        if inside:
            owner, key, data = data, step, data[step]
    if isinstance(owner, dict) and key is not None:
        owner.pop(key, None)


def _problem(fault: dict[str, Any]) -> Problem:
    where = ".".join(str(step) for step in fault["loc"] if not str(step).startswith(("Alarm", "literal[", "function-")))
    context = fault.get("ctx") or {}
    got = fault.get("input")
    shown = repr(got) if isinstance(got, str | int | float | bool | date) else None
    if fault["type"] == "extra_forbidden":
        known = _known_keys(fault["loc"])
        near = nearest(str(fault["loc"][-1]), known)
        return Problem(
            where, "unknown key", str(fault["loc"][-1]), ", ".join(known), near and f"did you mean {near!r}?"
        )
    if fault["type"] == "missing":
        return Problem(where, "is required", None, None, "add it to the brief")
    message = str(fault["msg"]).removeprefix("Value error, ").removeprefix("Input should be ")
    if fault["type"] in ("literal_error", "enum"):
        allowed = context.get("expected", "")
        choices = re.findall(r"'([^']+)'", allowed)
        near = nearest(str(got), choices)
        return Problem(
            where, "is not one of the allowed words", shown, ", ".join(choices), near and f"did you mean {near!r}?"
        )
    message = message[:1].lower() + message[1:]
    if not message.startswith(
        ("must", "is ", "a ", "an ", "not ", "give ", "the ", "an", "ends", "until", "unknown", "'")
    ):
        message = f"should be {message}" if fault["type"] not in ("value_error", "quantity") else message
    return Problem(where, message, shown, context.get("allowed"), context.get("hint"))


def _known_keys(location: Sequence[int | str]) -> tuple[str, ...]:
    """The keys that are known at a place of the brief, for the hint about a misspelt one."""
    model: type[BaseModel] = Brief
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
    return next((found for a in get_args(annotation) if (found := _inner_model(a)) is not None), None)
