"""Numbers and stamps a plan against the one before: identities kept, history untouched, changes told."""

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from turfplan.journal import JournalEntry
from turfplan.plan import Actual, Change, Plan, Published, Retired, Series, Task
from turfplan.wording import day_text, description, summary

# How long a cancelled entry stays in the feed, so that every subscriber sees it go: slow clients poll once a day.
GRACE = timedelta(days=30)


@dataclass(frozen=True, slots=True)
class Past:
    """What has happened to tasks, by id; days are ordinals."""

    done: Mapping[str, int] = field(default_factory=dict)
    actual: Mapping[str, Actual] = field(default_factory=dict)
    part_done: Mapping[str, float] = field(default_factory=dict)
    skipped: frozenset[str] = frozenset()
    overdue: Mapping[str, int] = field(default_factory=dict)
    held: Mapping[str, int] = field(default_factory=dict)
    because: Mapping[str, str] = field(default_factory=dict)


def uid(lawn_id: str, task_id: str) -> str:
    """The calendar identity of a task: the same for ever, whatever its date, title or place in the order."""
    return hashlib.sha256(f"turfplan/1\n{lawn_id}\n{task_id}".encode()).hexdigest()[:32] + "@turfplan"


def revise(
    draft: Plan,
    previous: Plan | None,
    now: datetime,
    *,
    history: Past | None = None,
    journal: Sequence[JournalEntry] = (),
) -> Plan:
    """The draft with identities, states, stamps and changes.

    `revision` rises only when something that the feed shows has changed; then the stamp is the later of now and a second
    after the previous stamp. Running again with nothing new gives the same published content and the same stamps.
    """
    past = history or Past()
    today = now.astimezone(ZoneInfo(draft.timezone)).date()
    old = {task.id: task for task in previous.tasks} if previous is not None else {}
    moment = now.astimezone(UTC).replace(microsecond=0)
    stamp = moment if previous is None else max(moment, previous.stamp + timedelta(seconds=1))
    told = [_now(draft, task, old.get(task.id), past, today) for task in draft.tasks]
    known = {task.id for task in told}
    kept, retired = _gone(draft, [t for t in old.values() if t.id not in known], past, moment)
    pairs = [(task, old.get(task.id)) for task in (*told, *kept)]
    changed = (
        previous is None
        or any(b is None or _shown(draft, a) != _shown(previous, b) for a, b in pairs)
        or _head(draft) != _head(previous)
    )
    changed = changed or (previous is not None and len(retired) > 0)
    tasks = tuple(_stamped(draft, previous, task, before, stamp) for task, before in pairs)
    news = _changes(draft, pairs, past) if previous is not None else ()
    return draft.model_copy(
        update={
            "tasks": tuple(sorted(tasks, key=lambda t: (t.start, t.id))),
            "revision": 1 if previous is None else previous.revision + changed,
            "stamp": stamp if changed or previous is None else previous.stamp,
            "changes": news if changed or previous is None else previous.changes,
            "retired": (*(previous.retired if previous is not None else ()), *retired),
        }
    )


def _head(plan: Plan | None) -> tuple[str, ...]:
    return () if plan is None else (plan.lawn.name, plan.campaign_name, plan.climate.source, plan.timezone)


def _shown(plan: Plan, task: Task) -> tuple[object, ...]:
    """What the feed shows of a task."""
    cancelled = task.status == "CANCELLED"
    rings = None if cancelled or not task.alarm or task.series is not None else plan.alarm
    return (task.published, cancelled, None if cancelled else task.series, rings, task.phase)


def _frozen(before: Task, after: Task, today: date) -> bool:
    """Whether an entry is history: closed, or over with the same dates as now."""
    if before.published is None:
        return False
    if before.closed is not None:
        return before.closed == after.closed
    over = before.published.end < today
    return (
        over
        and (before.start, before.end, before.series) == (after.start, after.end, after.series)
        and after.closed is None
    )


def _now(plan: Plan, task: Task, before: Task | None, past: Past, today: date) -> Task:
    """A task of the draft with its identity, its state, and the words that are published of it."""
    done = task.id in past.done
    actual = past.actual.get(task.id)
    state = {
        "uid": uid(plan.lawn_id, task.id),
        "status": "COMPLETED" if done else "IN-PROCESS" if task.id in past.part_done else "NEEDS-ACTION",
        "closed": "done" if done else None,
        "overdue": task.id in past.overdue,
        "held": task.id in past.held,
        "actual": actual,
    }
    if task.series is not None and task.end < today:
        state["status"] = "COMPLETED"
    task = task.model_copy(update=state)
    if before is not None and done and actual is not None:
        task = _done_on(task, before, actual, today)
    if before is not None and _frozen(before, task, today):
        return task.model_copy(
            update={
                "published": before.published, "change": before.change, "status": before.status, "series": before.series,
                "title": before.title, "alarm": before.alarm,
            }
        )  # fmt: skip
    moved = before is not None and (before.start, before.end) != (task.start, task.end)
    change = before.change if before is not None else None
    if moved and before is not None and task.series is None:
        because = past.because.get(task.id) or "What comes before it has moved."
        change = f"was {day_text(before.start, plan.lawn.units)}. {because}"
    task = task.model_copy(update={"change": change})
    words = Published(
        summary=summary(task), description=description(task, plan.lawn.units), start=task.start, end=task.end
    )
    return task.model_copy(update={"published": words})


def _done_on(task: Task, before: Task, actual: Actual, today: date) -> Task:
    """Done on another day: an entry that is not over yet moves to that day, one that is over stays where it was."""
    if before.end < today and before.closed is None:
        return task.model_copy(update={"start": before.start, "end": before.end})
    if before.closed is not None:
        return task.model_copy(update={"start": before.start, "end": before.end})
    return task.model_copy(update={"start": actual.start, "end": actual.end})


def _gone(plan: Plan, missing: Sequence[Task], past: Past, moment: datetime) -> tuple[list[Task], list[Retired]]:
    """Tasks the draft no longer has: history stays, open ones are cancelled, and leave the feed after their grace."""
    kept: list[Task] = []
    retired: list[Retired] = []
    for task in missing:
        if task.closed is not None or task.status == "COMPLETED":
            away = task.status == "CANCELLED" and task.last_modified is not None and moment - task.last_modified > GRACE
            if away and task.closed == "dropped":
                retired.append(Retired(id=task.id, on=moment.date()))
            else:
                kept.append(task)
            continue
        closed = "skipped" if task.id in past.skipped else "dropped"
        words = task.published
        if words is not None:
            words = words.model_copy(
                update={"summary": summary(task.model_copy(update={"title": f"Cancelled: {task.title}"}))}
            )
        kept.append(
            task.model_copy(
                update={"status": "CANCELLED", "closed": closed, "published": words, "overdue": False, "alarm": False}
            )
        )
    return kept, retired


def _stamped(plan: Plan, previous: Plan | None, task: Task, before: Task | None, stamp: datetime) -> Task:
    """Sequence and stamps: the sequence rises with dates, repetition or state, the stamp with anything that is shown."""
    if before is None or previous is None:
        return task.model_copy(update={"sequence": 0, "created": stamp, "last_modified": stamp})
    same = _shown(plan, task) == _shown(previous, before)
    timing = _timing(task) != _timing(before)
    return task.model_copy(
        update={
            "sequence": before.sequence + timing,
            "created": before.created or stamp,
            "last_modified": before.last_modified if same else stamp,
        }
    )


def _timing(task: Task) -> tuple[object, ...]:
    """What the sequence number watches: dates, repetition, and whether it is cancelled."""
    words = task.published
    series: Series | None = task.series
    repetition = None if series is None or task.status == "CANCELLED" else series
    return (words and (words.start, words.end), repetition, task.status == "CANCELLED")


def _changes(plan: Plan, pairs: Sequence[tuple[Task, Task | None]], past: Past) -> tuple[Change, ...]:
    """What differs from the plan before, told for people."""
    found: list[Change] = []
    units = plan.lawn.units
    for after, before in pairs:
        because = past.because.get(after.id, "")
        if before is None:
            found.append(
                Change(
                    task=after.id,
                    kind="added",
                    after=day_text(after.start, units),
                    because=because or "It is new in the plan.",
                )
            )
        elif after.closed != before.closed and after.closed is not None:
            kind = {"done": "done", "skipped": "skipped", "dropped": "dropped"}[after.closed]
            found.append(
                Change(
                    task=after.id,
                    kind=kind,
                    before=day_text(before.start, units),
                    because=because or "The plan no longer needs it.",
                )
            )
        elif (before.start, before.end, before.series) != (
            after.start,
            after.end,
            after.series,
        ) and after.closed is None:
            found.append(
                Change(
                    task=after.id, kind="moved", before=day_text(before.start, units), after=day_text(after.start, units),
                    because=because or "What comes before it has moved.",
                )
            )  # fmt: skip
        elif [(a.item, a.value) for a in before.amounts] != [
            (a.item, a.value) for a in after.amounts
        ] and after.closed is None:
            found.append(Change(task=after.id, kind="amount", because="The amounts follow the brief or what was used."))
    return tuple(found)
