"""What the rules emit: tasks without dates in sessions of work, with what binds them."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date

from turfplan.message import Days, Message, Value
from turfplan.records.book_names import FactName, HiredMachine, OperationName, PlantForm
from turfplan.records.constraints import Allowed, Constraint
from turfplan.records.plan_task import Amount, Phase

_END = "@end"


def on_a_pass(draft: "Draft") -> bool:
    """Whether a task shares the strips of a pass over grass."""
    return any(name.startswith("topdress.") for name in draft.strips)


def task_of_node(node: str) -> str:
    """The task whose first or last day a node of the network is."""
    return node.removesuffix(_END)


@dataclass(frozen=True, slots=True)
class Draft:
    """A task before it has a day.

    `key` tells it from others of its operation. `session` is the session of levelling work it
    belongs to (0: bound to all of them, -1: to none). `position` counts equal operations in order
    of time, from 1. `window` narrows the open days of the operation to one stretch. The wished day
    is `ideal`, or `offset` days after the task `anchor`. `words` fill the title and the
    instructions of the operation. `form` is what is planted. `strips` are the jobs that share its
    days strip by strip, in order of work, itself among them; `heard` where a machine of theirs is.
    `load` is the number of the load that it receives or keeps dry, `loads` are those that it
    orders, or spreads from, whole or with other passes; what comes in `bags` keeps longer than a
    heap. `sown_share` is the part of the lawn that it sows. A request for marks `serves` the tasks
    of these ids. `by_strip` where it goes over strips in the order in which they were sown.
    `by_hand` where the machine that its operation hires is not needed.
    `buys_for` are the tasks whose goods it orders, calls for, brings or fetches, `bought_by` those
    that do so for it, `hired` the machines that it reserves; an `estimate` says what may still
    change what is bought.
    `beside` is the task whose days it shares, whatever moves that one. `why_late` stands in place
    of `why` on a day that is late in its season. A look `shows` something on some days alone;
    None where it does on any. `where` is the part of the lawn that it is for, with
    the step that says so first; None for all of it. `area_m2` is the ground that it is done on.
    `left` is the share of a sowing that is still to be sown. `urgent` is a call that what happened
    asks for: it is made on any day on which somebody answers, whatever the household's own days.
    """

    id: str
    operation: OperationName
    phase: Phase
    why: Message
    priority: int
    session: int = 0
    position: int = 1
    ideal: int | None = None
    anchor: str | None = None
    offset: int = 0
    duration_days: int = 1
    person_hours: float = 0.0
    words: Mapping[str, Value] = field(default_factory=dict)
    name: Message | None = None
    title: Message | None = None
    how: tuple[Message, ...] | None = None
    go: Message | None = None
    fallback: Message | None = None
    amounts: tuple[Amount, ...] = ()
    cautions: tuple[Message, ...] = ()
    facts: tuple[FactName, ...] = ()
    alarm: bool | None = None
    depth_mm: float = 0.0
    loose_m3: float = 0.0
    window: tuple[int, int] | None = None
    key: str | None = None
    form: PlantForm | None = None
    serves: tuple[str, ...] = ()
    strips: tuple[str, ...] = ()
    heard: bool = False
    load: int | None = None
    loads: tuple[int, ...] = ()
    bags: bool = False
    sown_share: float = 1.0
    by_strip: bool = False
    beside: str | None = None
    why_late: Message | None = None
    shows: Allowed | None = None
    where: Message | None = None
    where_step: Message | None = None
    by_hand: bool = False
    buys_for: tuple[str, ...] = ()
    bought_by: tuple[str, ...] = ()
    hired: tuple[HiredMachine, ...] = ()
    estimate: Message | None = None
    area_m2: float = 0.0
    left: float = 1.0
    urgent: bool = False

    @property
    def start_node(self) -> str:
        """The network node of its first day."""
        return self.id

    @property
    def end_node(self) -> str:
        """The network node of its last day: the first day's where one day is enough."""
        return self.id if self.duration_days == 1 else f"{self.id}{_END}"

    def with_amounts(self, *amounts: Amount) -> "Draft":
        """The same draft with more amounts."""
        return replace(self, amounts=(*self.amounts, *amounts))


@dataclass(frozen=True, slots=True)
class Load:
    """One delivery: its number, its session, its passes, and the loose m3 that it is for.

    `strips` are the first and the last strip, from 1, of the one pass that it serves in part.
    `order` is the number of the first load of the order that asks for it. A load in `bags` is
    fetched from a shop.
    """

    number: int
    session: int
    passes: tuple[int, ...]
    loose_m3: float
    strips: tuple[int, int] | None = None
    order: int = 1
    bags: bool = False


@dataclass(frozen=True, slots=True)
class SeasonDraft:
    """Every task of one campaign with its constraints and what the plan must say about it.

    `in_time` holds the days on which what has a season is still good, then those on which it is
    safe: a preference falls before a day beyond them.
    """

    drafts: tuple[Draft, ...]
    constraints: tuple[Constraint, ...]
    notes: tuple[Message, ...] = ()
    cautions: tuple[Message, ...] = ()
    disagreements: tuple[Message, ...] = ()
    loads: tuple[Load, ...] = ()
    in_time: tuple[Allowed, ...] = ()


@dataclass(frozen=True, slots=True)
class Band:
    """A part of the lawn with one settled depth of fill: its share of the area, and its zone."""

    depth_mm: float
    share: float
    zone: Message | None = None


@dataclass(frozen=True, slots=True)
class Pass:
    """One top-dressing pass: settled depth where the fill is deepest, settled volume over the area.

    `zones` says what each named zone takes of it, settled m3; `share` is the share of the area that
    it covers, and `where` what that part is called, None for the whole lawn. `rest_mm` is the layer
    where the fill is thinnest, None where it is even.
    """

    number: int
    session: int
    depth_mm: float
    settled_m3: float
    seeded: bool
    cap_mm: float
    cap_reason: Message
    facts: tuple[FactName, ...] = ()
    zones: tuple[tuple[Message, float], ...] = ()
    share: float = 1.0
    rest_mm: float | None = None
    where: Message | None = None

    @property
    def drawn(self) -> tuple[Message, ...]:
        """The zones that it covers, where it covers nothing else."""
        named_m3 = sum(volume for _, volume in self.zones)
        return tuple(name for name, _ in self.zones) if named_m3 > self.settled_m3 - 1e-6 else ()


@dataclass(frozen=True, slots=True)
class OpenDays:
    """One window of an operation: first, last and best day, both ends included, with the season of
    its best day.

    `rule` is the rule of the book that opens it, `facts` what that rests on. `safe_end` is the last
    safe day of one that is held open beyond it. `after` are the days on which its operation is open
    again, where rain sets them.
    """

    operation: OperationName
    season: str
    start: date
    end: date
    best: date
    reason: Message
    source: Message
    rule: str = ""
    facts: tuple[FactName, ...] = ()
    safe_end: date | None = None
    after: Days | None = None
