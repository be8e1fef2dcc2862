"""Says at the head of a day whether it goes or waits: what must hold, the next day, the last."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import zip_longest

from turfplan.export.sheets.look import beside
from turfplan.export.sheets.slips import later_text
from turfplan.message import Day, Message, within
from turfplan.messages import Words
from turfplan.phrases import week as phrases
from turfplan.records.plan import Plan, Rank
from turfplan.records.plan_task import Role, Task

# Where one condition of a day ends and the next begins.
_ENDS = re.compile(r";\s+")
# What these jobs do not wait for is what they are there to bring.
BRINGS_MARKS: Role = "marking"
# What a plan says of these jobs is read before the money is spent.
# The work that a day is for, before what goes with it.
MAIN: tuple[Role, ...] = ("spreading", "sowing", "planting")
# What is done without where its day will not do.
LEFT_OUT: Role = "leave_out"
# Where a job says the last day of its season: the keys of those cautions, and the value's name.
LATE, SAFE_DAY = "lateness.", "last_safe"
BUYING: tuple[Role, ...] = ("ordering", "calling", "collecting")


@dataclass(frozen=True, slots=True)
class Wait:
    """When a job is done if not on its day: the next day, the last good one, and what then.

    `moves` says what moves with it; `whose` days they are, where a week has several jobs, and `of`
    the job of each text of `then` that is another's, empty for the others. Both days are empty for
    a job that is left out where its day will not do.
    """

    next_day: str
    last_day: str
    then: tuple[str, ...]
    moves: str = ""
    whose: str = ""
    of: tuple[str, ...] = ()

    @property
    def told(self) -> tuple[tuple[str, str], ...]:
        """The job of each text, empty for its own, and the text."""
        return tuple(zip_longest(self.of, self.then, fillvalue=""))


@dataclass(frozen=True, slots=True)
class Rules:
    """What a job asks before it begins: what has to be `known`, conditions to tick, what stops it,
    what the law says, what else to mind, and the cautions that protect whoever does it."""

    known: tuple[str, ...]
    conditions: tuple[str, ...]
    stops: tuple[str, ...]
    law: tuple[str, ...]
    mind: tuple[str, ...]
    protect: tuple[str, ...]


def rules_of(plan: Plan, task: Task, words: Words) -> Rules:
    """The cautions and the go condition of a job, each in its place, by the ranks of the plan's
    notes.

    A caution that nobody ranked stands above the work, as what the law says does.
    """
    ranks: Mapping[str, Rank] = {note.text.text: note.rank for note in plan.ranked}
    known, first, stops, law, mind, protect = [], [], [], [], [], []
    for place, caution in enumerate(task.cautions, start=1):
        condition = _of_caution(caution, "condition", plan.on_sheets)
        rank = ranks.get(caution.text, "law")
        if condition and not task.plays(BRINGS_MARKS):
            first.append(condition.rstrip("."))
        elif answer := _to_be_known(plan, task, place, words):
            known.append(answer)
        elif rank == "stop":
            stops.append(caution.text)
        elif rank == "safety" and not condition:
            protect.append(_of_caution(caution, "short", plan.on_sheets) or caution.text)
        elif rank in ("law", "safety") or task.plays(*BUYING):
            law.append(caution.text)
        else:
            mind.append(caution.text)
    go = conditions_in(task.go.text) if task.go else ()
    return Rules(tuple(known), (*first, *go), tuple(stops), tuple(law), tuple(mind), tuple(protect))


def _to_be_known(plan: Plan, task: Task, place: int, words: Words) -> str:
    """What has to be known before a job by the caution at this place, from 1, with the day on which
    it was asked before an earlier job of its kind; empty where the caution asks for no answer."""
    known, caution = told_by(plan.on_sheets, f"{task.id}.known.{place}"), task.cautions[place - 1]
    if not known:
        return ""
    asked = [
        other.start
        for other in plan.tasks
        if other.operation == task.operation
        and other.start < task.start
        and any(held.text == caution.text for held in other.cautions)
    ]
    if not asked:
        return known
    return words.text(phrases.asked_before(known=known, day=Day(min(asked), year=False)))


def conditions_in(go: str) -> tuple[str, ...]:
    """The conditions in the text of one, each for itself."""
    parts = (part.strip().rstrip(".;") for part in _ENDS.split(go))
    return tuple(part[:1].upper() + part[1:] for part in parts if part)


def _of_caution(caution: Message, field: str, on_sheets: Mapping[str, Message]) -> str:
    """What the book says of a caution in another field than its text; empty where it has none."""
    name = caution.key.removeprefix("book.").removesuffix(".text")
    return told_by(on_sheets, f"{name}.{field}")


def told_by(on_sheets: Mapping[str, Message], key: str) -> str:
    """Words of the book that a plan keeps; empty where it keeps none."""
    return on_sheets[key].text if key in on_sheets else ""


def wait_of(plan: Plan, task: Task, words: Words) -> Wait:
    """When a job is done if not on its day."""
    then = (task.fallback.text,) if task.fallback and task.fallback.text else ()
    if task.plays(LEFT_OUT) and then:
        return Wait("", "", then)
    last = _last_with_what_leads(plan, task)
    return Wait(
        next_day=beside(task.start, task.fallback_day, words) or "",
        last_day=beside(task.start, last, words) or "",
        then=then,
        moves=later_text(plan, task, last, words),
    )


def _last_with_what_leads(plan: Plan, task: Task) -> date:
    """The last day on which a job may begin; it goes along with what it follows on its day, as late
    as its own season lets it."""
    own = last_good_day(task)
    leading = (t for t in plan.tasks if t.id in task.depends_on and t.end == task.start)
    return max([own, *(min(last_good_day(leader), task.window.end) for leader in leading)])


def last_good_day(task: Task) -> date:
    """The last day on which a job may begin.

    As long as it can slip alone, that is the last on which no other moves; else, and where its own
    words name the last safe day, the last of its own season.
    """
    slack, day = task.slack, task.fallback_day
    if _names_last_safe(task):
        return max(task.window.end, task.start)
    if slack is not None and slack.end > task.start and (day is None or day <= slack.end):
        return min(slack.end, task.window.end)
    return max(task.window.end, task.start)


def _names_last_safe(task: Task) -> bool:
    """Whether a caution of a job, or what is done if its day will not do, names the last day of its
    season."""
    told = (*task.cautions, *([task.fallback] if task.fallback else []))
    return any(
        message.key.startswith(LATE) or SAFE_DAY in dict(message.values)
        for text in told
        for message in within(text)
        if isinstance(message, Message)
    )


def stopping(tasks: Sequence[Task]) -> tuple[Task, ...]:
    """The jobs of one day of which none can wait without the whole day waiting: each other job
    follows from them or is only made ready for them. All else stops for itself alone."""
    after = {task.id: _reached(task.id, {t.id: t.depends_on for t in tasks}) for task in tasks}
    everything = set(after)

    def holds_all(task: Task) -> bool:
        following = {name for name, before in after.items() if task.id in before}
        return after[task.id] | following | {task.id} == everything

    return tuple(task for task in tasks if holds_all(task))


def leading(tasks: Sequence[Task]) -> Task:
    """The job by which a day is known, among those that stop it: what is spread, sown or planted,
    else the headline of the plan, else the first."""
    return min(tasks, key=lambda task: (not task.plays(*MAIN), not task.plays("headline")))


def _reached(name: str, links: Mapping[str, Sequence[str]]) -> set[str]:
    """The jobs of the day that one waits for, through others of it too."""
    found: set[str] = set()
    waiting = [other for other in links[name] if other in links]
    while waiting:
        other = waiting.pop()
        if other not in found:
            found.add(other)
            waiting += [further for further in links[other] if further in links]
    return found - {name}
