"""Says what a day asks of a lawn: what was due, what is due, what comes next, what was written."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

from turfplan.export.sheets.look import in_order_of_work, series_days
from turfplan.files.reading.book import load_book
from turfplan.records.journal import EntryKind, JournalEntry, says_more, standing
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task

COMING_DAYS = 14
# A share of all but what adding up leaves.
ALL = 1.0 - 1e-9
_PUT_OFF: tuple[EntryKind, ...] = ("rained_off", "refused", "not_done", "moved", "booked")


@dataclass(frozen=True, slots=True)
class WateredToday:
    """A watering of the day: its task, and the entry that took the day off (None: it runs)."""

    task: Task
    rained: JournalEntry | None


@dataclass(frozen=True, slots=True)
class LawnDay:
    """What a day asks of a lawn, as plan and journal say it.

    `overdue` is over without an entry, `due` has its days now, `coming` begins within two weeks,
    `following` is the next job after these. `waterings` run today. `entries` are those that stand,
    the last first. A plan is `behind` that does not know all entries yet.
    """

    today: date
    overdue: tuple[Task, ...]
    due: tuple[Task, ...]
    coming: tuple[Task, ...]
    following: Task | None
    waterings: tuple[WateredToday, ...]
    entries: tuple[JournalEntry, ...]
    behind: bool


def lawn_day(plan: Plan, entries: Sequence[JournalEntry], today: date) -> LawnDay:
    """What `today`, a day of the lawn's zone, asks; `entries` are all of its journal.

    What is written but not planned with yet counts: a job that was ticked is not asked again.
    """
    stands = standing(entries)
    jobs = open_jobs(plan, entries)
    ahead = [t for t in jobs if t.start > today]
    until = today + timedelta(days=COMING_DAYS)
    coming = tuple(t for t in ahead if t.start <= until)
    return LawnDay(
        today=today,
        overdue=tuple(t for t in jobs if t.end < today),
        due=tuple(t for t in jobs if t.start <= today <= t.end),
        coming=coming,
        following=next((t for t in ahead if t.start > until), None),
        waterings=tuple(_waterings(plan, stands, today)),
        entries=tuple(reversed(stands)),
        behind=says_more(entries, plan.journal_entries),
    )


def today_here() -> date:
    """The date of this machine, for the office that asks."""
    return datetime.now(UTC).astimezone().date()


def open_jobs(plan: Plan, entries: Sequence[JournalEntry]) -> tuple[Task, ...]:
    """The jobs, in the order of their work, of which neither plan nor journal say that they are
    over; what was put off by an entry that the plan does not know yet has no day."""
    stands = standing(entries)
    answered = _closed(stands) | _put_off(plan, entries, stands)
    jobs = [t for t in plan.tasks if t.series is None and t.is_open and t.id not in answered]
    return in_order_of_work(jobs)


def _closed(stands: Sequence[JournalEntry]) -> set[str]:
    """The tasks that the journal says are done or left out."""
    share: dict[str, float] = {}
    over = set()
    for entry in stands:
        if entry.task is None:
            continue
        if entry.kind in ("done", "delivered"):
            share[entry.task] = share.get(entry.task, 0.0) + entry.share
        if entry.kind == "skipped" or share.get(entry.task, 0.0) >= ALL:
            over.add(entry.task)
    return over


def _put_off(
    plan: Plan, entries: Sequence[JournalEntry], stands: Sequence[JournalEntry]
) -> set[str]:
    """The tasks that were put off by entries of which the plan does not know yet."""
    known = {entry.number for entry in entries[: plan.journal_entries]}
    return {
        entry.task
        for entry in stands
        if entry.kind in _PUT_OFF and entry.task is not None and entry.number not in known
    }


def _waterings(plan: Plan, stands: Sequence[JournalEntry], today: date) -> list[WateredToday]:
    """The runs of a day, by their time; one that rain took is told as long as the day lasts."""
    rained = {e.task: e for e in stands if e.kind == "rained_off" and e.on == today and e.task}
    found = [
        WateredToday(task, rained.get(task.id))
        for task in plan.tasks
        if task.series is not None
        and task.is_open
        and (today in series_days(task.series) or task.id in rained)
    ]
    return sorted(
        found, key=lambda run: (run.task.series and run.task.series.start_time, run.task.id)
    )


def tick_key(entries: Sequence[JournalEntry], task: str) -> str:
    """The key of the next tick of a task: the same on every page until something is written of it,
    so that a job that two people tick counts once.
    """
    own = {entry.number for entry in entries if entry.task == task}
    last = max((e.number for e in entries if e.number in own or e.undoes in own), default=0)
    return f"page:{task}:{last}"


def rain_hinders(plan: Plan, task: Task) -> bool:
    """Whether rain can take the day from a task, as the book has it."""
    operation = load_book(plan.place.region).operations.get(task.operation)
    return operation is None or not operation.in_rain
