"""The frozen record of what is planned: tasks with dates, reasons and amounts, and the order.

Field names are those of `plan.json`. Every date is inclusive; every value is in SI with its
customary US twin beside it.
"""

from collections.abc import Iterable
from datetime import date
from operator import not_
from typing import Any, Literal, get_args

from pydantic import (
    Field,
)

from turfplan.records.book_names import CARE
from turfplan.records.items import NamedOrder
from turfplan.records.lawn_state import LawnState
from turfplan.records.plan_calendar import CalendarEntry, CalendarForm, DaysBefore, PartStamps
from turfplan.records.plan_hands import HoursElsewhere
from turfplan.records.plan_task import (
    NOTHING,
    ClockTime,
    PlanRecord,
    Said,
    Stamp,
    Task,
    TaskWindow,
    WhatHappened,
)
from turfplan.records.plan_years import SeasonYears, YearsWorked
from turfplan.units import System


class OrderPart(PlanRecord):
    """One component of what is bought; `bags` says how many of which size are fetched of it."""

    item: str
    value: float
    unit: str
    value_us: float
    unit_us: str
    share: float | None = None
    bags: Said = Field(default=NOTHING, exclude_if=lambda said: said == NOTHING)


class OrderLine(PlanRecord):
    """One thing to buy, rounded up to how it is sold.

    `tasks` are those that see to it, in their order: what orders it, calls for it, brings or
    fetches it. `estimate` says what may still change it: it is not to be ordered yet.
    """

    item: NamedOrder
    name: Said = NOTHING
    value: float
    unit: str
    value_us: float
    unit_us: str
    parts: tuple[OrderPart, ...] = ()
    loads: tuple[float, ...] = ()
    order_by: date
    deliver_by: date
    reason: Said
    questions: tuple[Said, ...] = ()
    acceptance: tuple[Said, ...] = ()
    text: Said = NOTHING
    facts: tuple[str, ...] = ()
    # Left out where they say nothing: they came later.
    tasks: tuple[str, ...] = Field(default=(), exclude_if=not_)
    estimate: Said | None = Field(default=None, exclude_if=lambda said: said is None)
    # What it costs at the price that the brief gives, in its money; None where it gives none.
    cost: float | None = Field(default=None, exclude_if=lambda cost: cost is None)


class Rejected(PlanRecord):
    """A campaign that was considered and not chosen."""

    campaign: Said
    reason: Said


class Option(PlanRecord):
    """A verified way out of a plan that cannot be done as asked, or that puts its work off."""

    title: Said
    reason: Said
    change: Said = NOTHING


class Handover(PlanRecord):
    """What follows after the last day of a plan: what, when, by which sign, and why."""

    operation: str
    title: Said
    start: date
    end: date
    reason: Said = NOTHING
    sign: Said = NOTHING


class PlanConflict(PlanRecord):
    """Rules that cannot all hold, in words."""

    reasons: tuple[Said, ...]
    tasks: tuple[str, ...] = ()


class GrassPart(PlanRecord):
    """A grass of the stand with its share."""

    species: str
    name: Said
    share: float


class LawnFacts(PlanRecord):
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
    mix: Said | None = None
    # How many work at once; None in plans of before it was kept.
    people: int | None = Field(default=None, exclude_if=lambda people: people is None)


class PublicHolidays(PlanRecord):
    """The public holidays that a plan kept, by which library and for which country and part of it.

    They stay those of the plan once it is made: another list moves no day that was published.
    """

    library: str
    region: str
    start: date
    end: date
    days: tuple[date, ...] = ()


class PlaceFacts(PlanRecord):
    """The place as found."""

    latitude: float
    longitude: float
    country: str | None
    state: str | None = None
    region: str | None = None
    region_name: Said | None = None
    elevation_m: float | None = None
    koppen: str | None = None
    name: Said | None = None


class ClimateFacts(PlanRecord):
    """Where the dates come from, how far off they may be, and the curves that charts draw (every
    fifth day).
    """

    source: Said
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


class OperationWindow(PlanRecord):
    """When an operation is open, for charts and the book."""

    operation: str
    season: str
    start: date
    end: date
    best: date
    reason: Said
    source: Said


class LedgerWeek(PlanRecord):
    """One week of an account: what came in, what went out, what is left; in mm of water or g/m2 of
    nitrogen.
    """

    start: date
    end: date
    entries: dict[str, float]
    balance: float


class Ledger(PlanRecord):
    """A weekly account of water (mm) or nitrogen (g/m2) with the words of its columns."""

    item: Literal["water", "nitrogen"]
    unit: str
    opening: float
    weeks: tuple[LedgerWeek, ...]
    notes: tuple[Said, ...] = ()


class Change(PlanRecord):
    """One thing that differs from the plan before."""

    task: str
    kind: Literal["moved", "added", "dropped", "amount", "done", "skipped", "reworded"]
    before: Said | None = None
    after: Said | None = None
    because: Said = NOTHING


# What a note protects, the gravest first: what stops work or seed; what the law or a permission
# asks; people; the lawn, the ground and what is built; then what is better, and good to know.
Rank = Literal["stop", "law", "safety", "damage", "advice", "information"]
RANKS: tuple[Rank, ...] = get_args(Rank)
# `caution` is of the whole plan, `job` of single tasks; `input` is what was torn or refused.
NoteKind = Literal["caution", "job", "input", "disagreement", "assumption"]


class RankedNote(PlanRecord):
    """What the plan says beside the steps of its tasks, with its rank, and the tasks at which it
    stands.

    `told_first` where it stands on the screen and the first sheet whatever its rank: what was asked
    for and is not done, or is late, or rests on rain that is doubtful.
    """

    rank: Rank
    kind: NoteKind
    text: Said
    tasks: tuple[str, ...] = ()
    told_first: bool = False


def in_turn(notes: Iterable[RankedNote]) -> list[RankedNote]:
    """Notes as a reader is told them: what stops work, what is told first, then by rank."""
    return sorted(notes, key=lambda note: (note.rank != "stop", not note.told_first))


class Retired(PlanRecord):
    """A task number that the rules give no more: it has left the feed for good, or `stays` there as
    what was done (`actual`, where somebody said so), since that is of no use any more."""

    id: str
    on: date
    stays: bool = Field(default=False, exclude_if=not_)
    actual: WhatHappened | None = Field(default=None, exclude_if=lambda actual: actual is None)


class FillMap(PlanRecord):
    """A surveyed lawn as a grid of cells, row by row from below: bare ground and settled fill in
    mm, None outside the lawn.

    The middle of the first cell lies at (`x_m`, `y_m`) of the survey; a row runs in the direction
    `angle` (radians against the clock from the x axis); cells are `width_m` by `depth_m`. Rings,
    features and stakes are in m of the survey; `north` is the bearing of north in degrees against
    the clock from the x axis.
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


class StakeLine(PlanRecord):
    """A stake of the stake-out list: its sign, where it stands, the fill there, and what is done
    there.
    """

    stake: str
    place: Said = NOTHING
    fill_mm: float = 0.0
    work: Said = NOTHING


class Fill(PlanRecord):
    """The map of a surveyed lawn as the sheets show it: the cells that pictures are drawn from, and
    the stakes.
    """

    mean_depth_mm: float
    volume_m3: float
    volume_low_m3: float
    volume_high_m3: float
    notes: tuple[Said, ...] = ()
    pictures: tuple[tuple[str, str], ...] = ()
    map: FillMap | None = None
    stakes: tuple[StakeLine, ...] = ()


class Plan(PlanRecord):
    """The whole season for one lawn: the state that the next planning run reads."""

    schema_version: Literal[1] = Field(1, alias="schema")
    program: str
    data_version: str
    revision: int = 0
    stamp: Stamp
    now: Stamp
    lawn_id: str
    brief_sha256: str
    files_sha256: str | None = None
    journal_entries: int = 0
    timezone: str
    language: str = "en"
    tzdata: str = ""
    horizon: TaskWindow
    lawn: LawnFacts
    place: PlaceFacts
    climate: ClimateFacts
    campaign: str
    campaign_name: Said = NOTHING
    campaign_reason: tuple[Said, ...] = ()
    tasks: tuple[Task, ...] = ()
    handover: tuple[Handover, ...] = ()
    order: tuple[OrderLine, ...] = ()
    # The money of the prices that were given; nothing where none has a name.
    currency: str = Field(default="", exclude_if=not_)
    cautions: tuple[Said, ...] = ()
    holds: tuple[Said, ...] = ()  # the cautions that keep seed or fill waiting for an answer
    warnings: tuple[Said, ...] = ()  # the cautions against a day that somebody chose by hand
    put_off: tuple[Said, ...] = ()  # the cautions of what waits because nobody is there
    ranked: tuple[RankedNote, ...] = ()
    assumptions: tuple[Said, ...] = ()
    disagreements: tuple[Said, ...] = ()
    rejected: tuple[Rejected, ...] = ()
    conflict: PlanConflict | None = None
    options: tuple[Option, ...] = ()
    windows: tuple[OperationWindow, ...] = ()
    ledgers: tuple[Ledger, ...] = ()
    changes: tuple[Change, ...] = ()
    real_years: tuple[YearsWorked, ...] = ()
    generated_years: tuple[YearsWorked, ...] = ()
    season_years: SeasonYears | None = None
    fill: Fill | None = None
    sources: dict[str, str] = Field(default_factory=dict)
    citations: dict[str, Said] = Field(default_factory=dict)
    # Where the sources of these can be read, by their names in `sources`.
    addresses: dict[str, str] = Field(default_factory=dict, exclude_if=not_)
    # What the book calls the things that the plan names by their id: `operations.topdress`,
    # `soils.loam`.
    names: dict[str, Said] = Field(default_factory=dict)
    # The book's words that its sheets print, by their keys: `operations.topdress.done_when`.
    on_sheets: dict[str, Said] = Field(default_factory=dict)
    alarm: tuple[int, ClockTime] | None = None
    holidays: PublicHolidays | None = None
    state: LawnState | None = None
    retired: tuple[Retired, ...] = ()
    calendar: CalendarForm = CalendarForm()
    calendar_entries: tuple[CalendarEntry, ...] = ()
    # The place that each operation has in this lawn's order of work, as titles of entries show it.
    places: dict[str, str] = Field(default_factory=dict)
    # When what each part of the calendar shows last changed.
    part_stamps: PartStamps = PartStamps()
    # Where open tasks stood in plans before, the newest last.
    days_before: tuple[DaysBefore, ...] = Field(default=(), exclude_if=not_)
    # What the texts of the plan say: key and values of each, by its text.
    said: dict[str, dict[str, Any]] = Field(default_factory=dict)
    # What the draft has read of the journal, for the stamping; it is in no file.
    past: Any = Field(default=None, exclude=True)
    # The hours that other lawns of the house had taken on the days of work of this one.
    elsewhere: tuple[HoursElsewhere, ...] = Field(default=(), exclude_if=not_)

    @property
    def care_alone(self) -> bool:
        """True where nothing is filled, sown or planted: what grows is cared for."""
        return self.campaign == CARE

    def task(self, task_id: str) -> Task | None:
        """The task of that id, or None."""
        return next((task for task in self.tasks if task.id == task_id), None)
