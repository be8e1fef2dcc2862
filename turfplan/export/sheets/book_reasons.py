"""Says of each job why it is on its days: the one reason that binds it there."""

from collections.abc import Sequence
from dataclasses import dataclass

from turfplan.export.sheets.names import operation_name
from turfplan.export.sheets.said_once import SaidOnce
from turfplan.export.sheets.told_parts import parts_of
from turfplan.export.templates import sentence
from turfplan.message import AS_WRITTEN, Days, Message, listed
from turfplan.messages import Words
from turfplan.messages.binding_reasons import HANGS_ON, says_little
from turfplan.phrases import reasons as phrases
from turfplan.phrases import season_book
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task

BEST = phrases.earlier_best().key
# Reasons by which the planner chose among days; they name no cause.
CHOSEN = ("reasons.earlier.", "reasons.later.", "reasons.nearest_day", "reasons.on_best_day")
WINDOW = "book.windows."


@dataclass(frozen=True, slots=True)
class DatedJobs:
    """Jobs of one kind with their days, in words."""

    name: str
    days: str


@dataclass(frozen=True, slots=True)
class Why:
    """One reason, and the jobs that it keeps on their days."""

    jobs: tuple[DatedJobs, ...]
    text: str


def whys(plan: Plan, tasks: Sequence[Task], words: Words, said: SaidOnce) -> tuple[Why, ...]:
    """One sentence for each job, those of one reason together, in order of their days."""
    groups: dict[str, dict[str, list[Task]]] = {}
    for task in tasks:
        name = operation_name(plan, task.operation, words)
        groups.setdefault(_binding(plan, task, words), {}).setdefault(name, []).append(task)
    first_year = tasks[0].days[0].year if tasks else 0
    return tuple(
        Why(
            tuple(
                DatedJobs(name, _days(of_kind, first_year, words))
                for name, of_kind in named.items()
            ),
            said.new_of(sentence(text)) or words.text(season_book.as_said()),
        )
        for text, named in groups.items()
    )


def _days(tasks: Sequence[Task], first_year: int, words: Words) -> str:
    """Days without the year that most of them share."""
    days = (
        Days(start, end, weekday=False, year=end.year != first_year)
        for start, end in (task.days for task in tasks)
    )
    return words.value(listed(dict.fromkeys(days), "semicolon"))


def _binding(plan: Plan, task: Task, words: Words) -> str:
    """The reason that binds a job to its days.

    On the best day of its window that of the window, else what has to come after it or before it,
    else another one that is its own, else why the job is done at all.
    """
    reasons = (*task.not_later, *task.not_earlier)
    if any(reason.key == BEST for reason in task.not_earlier):
        windows = [r.text for r in reasons if r.key.startswith(WINDOW)]
        windows += [
            window.reason.text
            for window in plan.windows
            if window.operation == task.operation and window.start <= task.start <= window.end
        ]
        if windows:
            return windows[0]
    own = [reason for reason in reasons if not says_little(reason)]
    tied = [bare for reason in own if (bare := _tie(reason, words))]
    if tied:
        return tied[0]
    others = [
        reason.text
        for reason in own
        if reason.key not in (HANGS_ON, AS_WRITTEN) and not reason.key.startswith(CHOSEN)
    ]
    if others and others[0] != task.why.text:
        return others[0]
    if task.plays("feeding"):
        # How much it is each time stands in its week.
        return words.text(season_book.shared_out())
    return task.why.text or words.text(season_book.no_work_possible())


def _tie(reason: Message, words: Words) -> str:
    """A rule between two jobs, without the name of the other one; nothing for another reason."""
    if reason.key != HANGS_ON:
        return ""
    return parts_of(reason.text, HANGS_ON, words).get("reason", reason.text)
