"""The frozen record of what is planned: tasks with dates, reasons and amounts, and the order.

Field names are those of `plan.json`. Every date is inclusive; every value is in SI with its customary US twin beside it.
"""

from datetime import date, datetime, time
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, PlainSerializer

from turfplan.units import System, us_twin

Status = Literal["NEEDS-ACTION", "IN-PROCESS", "COMPLETED", "CANCELLED"]
Phase = Literal["prepare", "surface", "level", "seed", "care", "finish"]
# The parts that tasks play in a renovation; `headline` marks what a reader looks for first.
Role = Literal[
    "marking", "low_cut", "thatching", "coring", "ordering", "delivery", "spreading", "sowing", "dormant", "planting",
    "first_cut", "feeding", "starter", "headline",
]  # fmt: skip
Closed = Literal["done", "skipped", "dropped"]
Stamp = Annotated[
    datetime, PlainSerializer(lambda d: d.isoformat().replace("+00:00", "Z"), return_type=str, when_used="json")
]
Clock = Annotated[time, PlainSerializer(lambda t: t.strftime("%H:%M"), return_type=str, when_used="json")]


class Record(BaseModel):
    """Base of every record of the plan: frozen, unknown keys forbidden."""

    model_config = ConfigDict(frozen=True, extra="forbid", populate_by_name=True)


class Window(Record):
    """The days on which a task may be done, both included."""

    start: date
    end: date


class Amount(Record):
    """How much of something: SI value and unit, US value and unit, and why this much."""

    item: str
    value: float
    unit: str
    value_us: float
    unit_us: str
    reason: str
    facts: tuple[str, ...] = ()

    @classmethod
    def of(cls, item: str, value: float, unit: str, reason: str, facts: tuple[str, ...] = ()) -> "Amount":
        """An amount from its SI value, with the US twin worked out; at most six decimals are kept."""
        value_us, unit_us = us_twin(value, unit)
        return cls(
            item=item,
            value=round(value, 6),
            unit=unit,
            value_us=round(value_us, 6),
            unit_us=unit_us,
            reason=reason,
            facts=facts,
        )


class Series(Record):
    """A repeated timed job: every day, or on some weekdays, from one day to another, less the days to skip."""

    start: date = Field(alias="from")
    end: date = Field(alias="to")
    start_time: Clock
    minutes: int
    weekdays: tuple[str, ...] = ()
    skip: tuple[date, ...] = ()


class Actual(Record):
    """What really happened."""

    start: date
    end: date
    amounts: tuple[Amount, ...] = ()
    share: float = 1.0


class Published(Record):
    """All that the feed last showed of a task: words, days, runs, reminder; the calendar is written from this alone.

    History is re-emitted from here, never made anew. `series` holds what repeats, at clock times of `timezone`; `alarm`
    is days before and clock time.
    """

    summary: str
    description: str
    start: date
    end: date
    category: Phase
    cancelled: bool = False
    series: Series | None = None
    timezone: str | None = None
    alarm: tuple[int, Clock] | None = None


class Task(Record):
    """One thing to do, with its dates, reasons and amounts; the book says which roles its operation plays."""

    id: str
    uid: str
    operation: str
    phase: Phase
    roles: tuple[Role, ...] = ()
    title: str
    why: str = ""
    start: date
    end: date
    best: date
    duration_days: int = 1
    person_hours: float = 0.0
    status: Status = "NEEDS-ACTION"
    window: Window
    not_earlier: tuple[str, ...] = ()
    not_later: tuple[str, ...] = ()
    amounts: tuple[Amount, ...] = ()
    how: tuple[str, ...] = ()
    go: str | None = None
    fallback: str | None = None
    fallback_day: date | None = None
    cautions: tuple[str, ...] = ()
    depends_on: tuple[str, ...] = ()
    facts: tuple[str, ...] = ()
    strength: Literal["hard", "strong", "advice", "preference"] = "strong"
    overdue: bool = False
    closed: Closed | None = None
    held: bool = False
    actual: Actual | None = None
    series: Series | None = None
    sequence: int = 0
    created: Stamp | None = None
    last_modified: Stamp | None = None
    change: str | None = None
    published: Published | None = None
    alarm: bool = False

    def plays(self, *roles: Role) -> bool:
        """Whether the task plays one of these roles, as the book gives them to its operation."""
        # Asked of every task by every check: a plain loop is several times as quick as any() over a generator.
        for role in roles:  # noqa: SIM110
            if role in self.roles:
                return True
        return False


class Part(Record):
    """One component of what is bought."""

    item: str
    value: float
    unit: str
    value_us: float
    unit_us: str
    share: float | None = None


class OrderLine(Record):
    """One thing to buy, rounded up to how it is sold."""

    item: str
    name: str = ""
    value: float
    unit: str
    value_us: float
    unit_us: str
    parts: tuple[Part, ...] = ()
    loads: tuple[float, ...] = ()
    order_by: date
    deliver_by: date
    reason: str
    questions: tuple[str, ...] = ()
    acceptance: tuple[str, ...] = ()
    text: str = ""
    facts: tuple[str, ...] = ()


class Rejected(Record):
    """A campaign that was considered and not chosen."""

    campaign: str
    reason: str


class Option(Record):
    """A verified way out of a plan that cannot be done as asked."""

    title: str
    reason: str
    change: str = ""


class Conflict(Record):
    """Rules that cannot all hold, in words."""

    reasons: tuple[str, ...]
    tasks: tuple[str, ...] = ()


class GrassPart(Record):
    """A grass of the stand with its share."""

    species: str
    name: str
    share: float


class LawnFacts(Record):
    """The lawn as planned for."""

    id: str
    name: str
    area_m2: float
    grass: tuple[GrassPart, ...]
    soil: str
    thatch_mm: float
    condition: str
    units: System
    depth_mm: float = 0.0
    intent: str = "none"
    mix: str | None = None


class PlaceFacts(Record):
    """The place as found."""

    latitude: float
    longitude: float
    country: str | None
    state: str | None = None
    region: str | None = None
    region_name: str | None = None
    elevation_m: float | None = None
    koppen: str | None = None
    name: str | None = None


class ClimateFacts(Record):
    """Where the dates come from, how far off they may be, and the curves that charts draw (every fifth day)."""

    source: str
    error_days: int
    attribution: str = ""
    last_frost: str | None = None
    first_frost: str | None = None
    day_of_year: tuple[int, ...] = ()
    air_mean_c: tuple[float, ...] = ()
    soil_10cm_c: tuple[float, ...] = ()
    soil_error_c: float = 0.0
    soil_error_days: int = 0
    rain_mm: tuple[float, ...] = ()
    et0_mm: tuple[float, ...] = ()


class OperationWindow(Record):
    """When an operation is open, for charts and the book."""

    operation: str
    season: str
    start: date
    end: date
    best: date
    reason: str
    source: str


class LedgerWeek(Record):
    """One week of an account: what came in, what went out, what is left; in mm of water or g/m2 of nitrogen."""

    start: date
    end: date
    entries: dict[str, float]
    balance: float


class Ledger(Record):
    """A weekly account of water (mm) or nitrogen (g/m2) with the words of its columns."""

    item: Literal["water", "nitrogen"]
    unit: str
    opening: float
    weeks: tuple[LedgerWeek, ...]
    notes: tuple[str, ...] = ()


class Change(Record):
    """One thing that differs from the plan before."""

    task: str
    kind: Literal["moved", "added", "dropped", "amount", "done", "skipped", "reworded"]
    before: str | None = None
    after: str | None = None
    because: str = ""


class Retired(Record):
    """A task number that has left the feed for good."""

    id: str
    on: date


class Real(Record):
    """How often a planned date would have worked in real years."""

    task: str
    years: int
    worked: int
    reason: str


class FillMap(Record):
    """A surveyed lawn as a grid of cells, row by row from below: bare ground and settled fill in mm, None outside the lawn.

    The middle of the first cell lies at (`x_m`, `y_m`) of the survey; a row runs in the direction `angle` (radians against
    the clock from the x axis); cells are `width_m` by `depth_m`. Rings, features and stakes are in m of the survey; `north`
    is the bearing of north in degrees against the clock from the x axis.
    """

    x_m: float
    y_m: float
    angle: float
    width_m: float
    depth_m: float
    columns: int
    rows: int
    ground_mm: tuple[float | None, ...]
    fill_mm: tuple[float | None, ...]
    outline: tuple[tuple[tuple[float, float], ...], ...]
    holes: tuple[tuple[tuple[float, float], ...], ...] = ()
    features: tuple[tuple[str, tuple[tuple[float, float], ...]], ...] = ()
    stakes: tuple[tuple[str, float, float, float], ...] = ()
    least_mm: float = 0.0
    deep_limit_mm: float | None = None
    north: float | None = None


class Fill(Record):
    """The map of a surveyed lawn as the sheets show it: the cells that pictures are drawn from, and the stakes."""

    mean_depth_mm: float
    volume_m3: float
    volume_low_m3: float
    volume_high_m3: float
    notes: tuple[str, ...] = ()
    pictures: tuple[tuple[str, str], ...] = ()
    map: FillMap | None = None
    stakes: tuple[dict[str, Any], ...] = ()


class Plan(Record):
    """The whole season for one lawn: the state that the next planning run reads."""

    schema_version: Literal[1] = Field(1, alias="schema")
    program: str
    data_version: str
    revision: int = 0
    stamp: Stamp
    now: Stamp
    lawn_id: str
    brief_sha256: str
    journal_entries: int = 0
    timezone: str
    tzdata: str = ""
    horizon: Window
    lawn: LawnFacts
    place: PlaceFacts
    climate: ClimateFacts
    campaign: str
    campaign_name: str = ""
    campaign_reason: tuple[str, ...] = ()
    tasks: tuple[Task, ...] = ()
    order: tuple[OrderLine, ...] = ()
    cautions: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()  # the cautions against a day that somebody chose by hand
    assumptions: tuple[str, ...] = ()
    disagreements: tuple[str, ...] = ()
    rejected: tuple[Rejected, ...] = ()
    conflict: Conflict | None = None
    options: tuple[Option, ...] = ()
    windows: tuple[OperationWindow, ...] = ()
    ledgers: tuple[Ledger, ...] = ()
    changes: tuple[Change, ...] = ()
    real_years: tuple[Real, ...] = ()
    fill: Fill | None = None
    sources: dict[str, str] = Field(default_factory=dict)
    citations: dict[str, str] = Field(default_factory=dict)
    alarm: tuple[int, Clock] | None = None
    retired: tuple[Retired, ...] = ()

    def task(self, task_id: str) -> Task | None:
        """The task of that id, or None."""
        return next((task for task in self.tasks if task.id == task_id), None)
