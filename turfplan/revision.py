"""Numbers and stamps a plan against the one before: identities kept, history untouched, changes told."""

import hashlib
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field, fields
from datetime import UTC, date, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from turfplan.errors import Problem, TurfplanError
from turfplan.numbering import feed_id, in_feed_words, in_order_of_date
from turfplan.plan import Actual, Change, Plan, Published, Retired, Series, Task
from turfplan.recurring import in_week_order, recurring_days
from turfplan.wording import amounts_text, cancelled_summary, day_text, days_text, description, runs_text, summary

# How long a cancelled entry stays in the feed before its number is retired. Not agronomy but a custom of feeds: slow
# clients poll once a day, and somebody back from a holiday should still see what has gone.
GRACE = timedelta(days=30)
NEW = "It is new in the plan."
BACK = "It is back in the plan."
NOT_NEEDED = "The plan no longer needs it."
SKIPPED = "It was skipped."
FOLLOWS = "What comes before it has moved."
OTHER_NEED = "The amounts follow the brief or what was used."
OTHER_WATER = "Watering follows the work and the weather."


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

    def named(self, retired: Collection[str]) -> "Past":
        """The same with the ids of a feed that has retired some."""
        if not retired:
            return self
        renamed = {
            field.name: {feed_id(name, retired): value for name, value in getattr(self, field.name).items()}
            for field in fields(self)
            if field.name != "skipped"
        }
        return Past(**renamed, skipped=frozenset(feed_id(name, retired) for name in self.skipped))

    @property
    def told(self) -> frozenset[str]:
        """The tasks of which something is written down: they keep their numbers."""
        return self.skipped.union(self.done, self.actual, self.part_done, self.overdue, self.held, self.because)


@dataclass(frozen=True, slots=True)
class _Run:
    """One revision under way: the draft, the plan before, what has happened, and the lawn's today."""

    draft: Plan
    previous: Plan | None
    past: Past
    today: date

    def reason(self, task_id: str, otherwise: str) -> str:
        """Why a task has changed: what the journal says, else the given words."""
        return self.past.because.get(task_id) or otherwise

    def is_over(self, task: Task) -> bool:
        """Whether the feed shows a task on days that have gone by."""
        return task.published is not None and task.published.end < self.today


@dataclass(frozen=True, slots=True)
class _Step:
    """A task beside what it was in the plan before (None: it is new), with what is told of the difference.

    `update` is what stamping sets besides, so that each task is copied once.
    """

    task: Task
    before: Task | None
    news: Change | None = None
    update: Mapping[str, Any] = field(default_factory=dict)

    @property
    def shown(self) -> Published | None:
        """What the feed shows of the task."""
        shown: Published | None = self.update.get("published", self.task.published)
        return shown

    @property
    def shows_the_same(self) -> bool:
        """Whether a subscriber sees no difference."""
        return self.before is not None and self.before.published == self.shown


def uid(lawn_id: str, task_id: str) -> str:
    """The calendar identity of a task: the same for ever, whatever its date, title or place in the order."""
    return hashlib.sha256(f"turfplan/1\n{lawn_id}\n{task_id}".encode()).hexdigest()[:32] + "@turfplan"


def revise(draft: Plan, previous: Plan | None, now: datetime, *, history: Past | None = None) -> Plan:
    """The draft with identities, states, stamps and changes.

    The draft and its `history` use the ids of the rules (`numbering`); the plan before has those of the feed. `now` is
    aware. `revision` rises only when something that the feed shows has changed; then the stamp is the later of
    now and a second after the previous stamp. Running again with nothing new gives the same published content and the
    same stamps, however much later. Raises TurfplanError when the plan before is another lawn's.
    """
    if previous is not None and previous.lawn_id != draft.lawn_id:
        raise TurfplanError(
            Problem("lawn.id", "is not the lawn of the plan before", repr(draft.lawn_id), repr(previous.lawn_id))
        )
    past, retired_before = history or Past(), frozenset(r.id for r in previous.retired) if previous else frozenset()
    drafted = in_feed_words(in_order_of_date(draft.tasks, past.told), retired_before)
    run = _Run(draft, previous, past.named(retired_before), now.astimezone(ZoneInfo(draft.timezone)).date())
    moment = now.astimezone(UTC).replace(microsecond=0)
    stamp = moment if previous is None else max(moment, previous.stamp + timedelta(seconds=1))
    old = {task.id: task for task in previous.tasks} if previous is not None else {}
    steps = [_step(run, task, old.pop(task.id, None)) for task in drafted]
    steps += [_missing(run, task) for task in old.values()]
    if previous is None:
        return _numbered(draft, steps, stamp, {"revision": 1, "stamp": stamp})
    if _head(draft) == _head(previous) and all(step.shows_the_same for step in steps):
        same = ("revision", "stamp", "changes", "retired")
        return _numbered(draft, steps, stamp, {name: getattr(previous, name) for name in same})
    # Numbers retire only together with another change: on a later day alone the bytes must stay.
    gone = [step.task.id for step in steps if step.task.id in old and _out_of_grace(old[step.task.id], moment)]
    steps = [step for step in steps if step.task.id not in gone]
    changed = {
        "revision": previous.revision + 1,
        "stamp": stamp,
        "changes": tuple(step.news for step in steps if step.news),
        "retired": (*previous.retired, *(Retired(id=name, on=run.today) for name in sorted(gone))),
    }
    return _numbered(draft, steps, stamp, changed)


def _numbered(draft: Plan, steps: Iterable[_Step], stamp: datetime, update: dict[str, Any]) -> Plan:
    """The draft with its tasks stamped, in order of date."""
    tasks = sorted((_stamped(step, stamp) for step in steps), key=lambda t: (t.start, t.id))
    return draft.model_copy(update={"tasks": tuple(tasks), **update})


def rule_days(series: Series) -> tuple[date, ...]:
    """The days on which a series runs, before any is left out."""
    return recurring_days(series.start, series.end, series.weekdays)


def publish(plan: Plan, task: Task) -> Task:
    """The task with what the feed shows of it, made anew from what it is."""
    return task.model_copy(update={"published": _shown(plan, task)})


def _shown(plan: Plan, task: Task) -> Published:
    """What the feed shows of a task: its words, its days or runs, its reminder."""
    start, end, series, timezone = task.start, task.end, None, None
    if task.series is not None:
        series, timezone = _plain(task.series), plan.timezone
        start, end = series.start, next((d for d in reversed(rule_days(series)) if d not in series.skip), series.end)
    return Published(
        summary=summary(task), description=description(task, plan.lawn.units), start=start, end=end, category=task.phase,
        series=series, timezone=timezone, alarm=plan.alarm if task.alarm and task.series is None else None,
    )  # fmt: skip


def _plain(series: Series) -> Series:
    """The one way of writing a series down: from its first to its last day, and only days that it would run on left out."""
    days = rule_days(series)
    update = {
        "start": days[0],
        "end": days[-1],
        "weekdays": in_week_order(series.weekdays),
        "skip": tuple(sorted(set(series.skip) & set(days))) if series.skip else (),
    }
    # Most are plain as they come: a record of its own is needed where one is not.
    same = all(getattr(series, name) == value for name, value in update.items())
    return series if same else series.model_copy(update=update)


def _head(plan: Plan) -> tuple[str, ...]:
    """What the feed shows beside the tasks."""
    return plan.lawn.name, plan.timezone


def _step(run: _Run, task: Task, before: Task | None) -> _Step:
    """A task of the draft with its identity, its state, and what is published of it."""
    state = _state(run, task, before)
    if before is None:
        if run.previous is not None:
            task = task.model_copy(update={"change": run.reason(task.id, NEW)})
        return _Step(task, None, _addition(run, task), {**state, "published": _shown(run.draft, task)})
    task = task.model_copy(update=state)
    if _is_history(run, task, before):
        kept = {name: getattr(task, name) for name in ("uid", "status", "closed", "overdue", "held", "actual")}
        return _Step(before.model_copy(update=kept), before, _closing(run, task, before))
    if task.closed == "done":
        task = task.model_copy(update=_done_days(task, before))
    news = _news(run, task, before)
    sentence = _sentence(run, task, before)
    return _Step(publish(run.draft, task.model_copy(update={"change": sentence})), before, news)


def _addition(run: _Run, task: Task) -> Change | None:
    """The news that a task is new in the plan; in a first plan nothing is news."""
    if run.previous is None:
        return None
    after = days_text(task.start, task.end, run.draft.lawn.units)
    return Change(task=task.id, kind="added", after=after, because=task.change or NEW)


def _state(run: _Run, task: Task, before: Task | None) -> dict[str, Any]:
    """Identity and state, which history takes on too."""
    past, name = run.past, task.id
    done = name in past.done
    status = "COMPLETED" if done else "IN-PROCESS" if name in past.part_done else "NEEDS-ACTION"
    over = before is not None and run.is_over(before) and not _reopened(run, task)
    last = before.end if over and before is not None else task.end
    if task.series is not None and last < run.today:
        status = "COMPLETED"
    return {
        "uid": uid(run.draft.lawn_id, name), "status": status, "closed": "done" if done else None,
        "overdue": name in past.overdue, "held": name in past.held, "actual": past.actual.get(name),
    }  # fmt: skip


def _reopened(run: _Run, task: Task) -> bool:
    """Whether an open task lies on a day still to come, and so leaves the past if it was there."""
    return task.closed is None and task.id not in run.past.done and task.end >= run.today


def _is_history(run: _Run, task: Task, before: Task) -> bool:
    """Whether the feed's entry stays as it is: closed as before, or over and not planned again."""
    if before.published is None:
        return False
    if before.closed is not None and before.closed == task.closed:
        return True
    return run.is_over(before) and not _reopened(run, task)


def _done_days(task: Task, before: Task) -> dict[str, date]:
    """The days of a task done before its days in the feed were over: those on which it was done, if they are others."""
    if task.actual is None or before.start <= task.actual.start <= task.actual.end <= before.end:
        return {"start": before.start, "end": before.end}
    return {"start": task.actual.start, "end": task.actual.end}


def _missing(run: _Run, before: Task) -> _Step:
    """A task that the draft no longer has: history stays, a running series ends early, an open task is cancelled."""
    done, skipped = before.id in run.past.done, before.id in run.past.skipped
    if before.published is None or (before.closed is not None and not (done and before.closed != "done")):
        return _Step(before, before)
    finished = before.series is not None and run.is_over(before)
    closed = "done" if done else "skipped" if skipped else None if finished else "dropped"
    state: dict[str, Any] = {
        "closed": closed,
        "status": "COMPLETED" if done or finished else "CANCELLED",
        "overdue": False,
        "held": False,
        "actual": run.past.actual.get(before.id),
    }
    task = before.model_copy(update=state)
    news = _closing(run, task, before)
    if run.is_over(before):
        return _Step(task, before, news)
    if done:
        task = task.model_copy(update=_done_days(task, before))
        task = task.model_copy(update={"change": _sentence(run, task, before)})
        return _Step(publish(run.draft, task), before, news)
    because = run.reason(before.id, SKIPPED if skipped else NOT_NEEDED)
    return _Step(_cut_short(run, task, because) or _cancelled(run, task, because), before, news)


def _cut_short(run: _Run, task: Task, because: str) -> Task | None:
    """A running series without its days from today on; None for anything else: the days that went by stay in the feed."""
    if task.series is None:
        return None
    left_out = tuple(day for day in rule_days(task.series) if day >= run.today)
    ran = [day for day in rule_days(task.series) if day < run.today and day not in task.series.skip]
    if not ran:
        return None
    series = task.series.model_copy(update={"skip": tuple(sorted({*task.series.skip, *left_out}))})
    update = {"series": series, "end": ran[-1], "status": "COMPLETED", "change": f"It ended early. {because}"}
    return publish(run.draft, task.model_copy(update=update))


def _cancelled(run: _Run, task: Task, because: str) -> Task:
    """A task that will not be done: still in the feed on its days, named cancelled, without reminder; a series on its first run."""
    task = publish(run.draft, task.model_copy(update={"change": because, "alarm": False}))
    assert task.published is not None  # publish has just made it
    update: dict[str, Any] = {"summary": cancelled_summary(task), "cancelled": True, "alarm": None}
    if (series := task.published.series) is not None:
        day = next((d for d in rule_days(series) if d not in series.skip), series.start)
        once = series.model_copy(update={"start": day, "end": day, "weekdays": (), "skip": ()})
        update |= {"series": once, "start": day, "end": day}
    return task.model_copy(update={"published": task.published.model_copy(update=update)})


def _out_of_grace(task: Task, moment: datetime) -> bool:
    """Whether a dropped task has been shown as cancelled for long enough."""
    shown = task.published is not None and task.published.cancelled and task.closed == "dropped"
    return shown and task.last_modified is not None and moment - task.last_modified > GRACE


def _stamped(step: _Step, stamp: datetime) -> Task:
    """Sequence and stamps: the sequence rises with days, repetition or cancelling, the stamp with anything that is shown."""
    before, shown = step.before, step.shown
    update = {**step.update, "sequence": 0, "created": stamp, "last_modified": stamp}
    if before is not None:
        update["sequence"] = before.sequence + (_timing(shown) != _timing(before.published))
        update["created"] = before.created or stamp
        update["last_modified"] = before.last_modified if step.shows_the_same else stamp
    return step.task.model_copy(update=update)


def _timing(shown: Published | None) -> tuple[object, ...]:
    """What the sequence number watches: DTSTART, DTEND, RRULE, EXDATE and STATUS."""
    if shown is None:
        return ()
    return shown.cancelled, shown.timezone, shown.series or (shown.start, shown.end)


def _moved(task: Task, before: Task) -> bool:
    if task.series is not None and before.series is not None:
        return _plain(task.series) != _plain(before.series)
    return (task.start, task.end) != (before.start, before.end)


def _when(run: _Run, task: Task) -> str:
    """A task's days, or its runs, in words."""
    if task.series is not None:
        return runs_text(task.series, run.draft.lawn.units)
    return days_text(task.start, task.end, run.draft.lawn.units)


def _sentence(run: _Run, task: Task, before: Task) -> str | None:
    """What has changed of a task, for its text in the feed; what was told before stands until something new is."""
    if before.status == "CANCELLED" and task.closed is None:
        return run.reason(task.id, BACK)
    if _moved(task, before):
        return _moved_words(run, task, before)
    units = run.draft.lawn.units
    if amounts_text(task, units) != amounts_text(before, units) and before.amounts:
        return f"was {amounts_text(before, units)}. {run.reason(task.id, OTHER_NEED)}"
    return before.change


def _moved_words(run: _Run, task: Task, before: Task) -> str:
    """What a task's days were, or which runs of a series are left out now."""
    units, because = run.draft.lawn.units, run.reason(task.id, FOLLOWS)
    if task.series is None or before.series is None:
        return f"was {_when(run, before)}. {because}"
    now, was = _plain(task.series), _plain(before.series)
    fewer = sorted(set(now.skip) - set(was.skip))
    if fewer and now.model_copy(update={"skip": was.skip}) == was:
        days = " and ".join(day_text(day, units) for day in fewer)
        return f"no run on {days}. {run.reason(task.id, OTHER_WATER)}"
    return f"was {runs_text(was, units)}. {run.reason(task.id, OTHER_WATER)}"


def _closing(run: _Run, task: Task, before: Task) -> Change | None:
    """The news that a task is done, skipped or no longer needed."""
    if task.closed is None or task.closed == before.closed:
        return None
    otherwise = {"done": "It is logged as done.", "skipped": SKIPPED, "dropped": NOT_NEEDED}[task.closed]
    return Change(
        task=task.id, kind=task.closed, before=_when(run, before), because=run.reason(task.id, otherwise)
    )  # fmt: skip


def _news(run: _Run, task: Task, before: Task) -> Change | None:
    """What differs from the plan before, told for people: how it ended, its days, its amounts, what to do."""
    units = run.draft.lawn.units
    if closing := _closing(run, task, before):
        return closing
    if before.status == "CANCELLED":
        return Change(task=task.id, kind="added", after=_when(run, task), because=run.reason(task.id, BACK))
    if _moved(task, before):
        return Change(
            task=task.id, kind="moved", before=_when(run, before), after=_when(run, task), because=run.reason(task.id, OTHER_WATER if task.series else FOLLOWS),
        )  # fmt: skip
    was, now = amounts_text(before, units), amounts_text(task, units)
    if was != now:
        return Change(
            task=task.id,
            kind="amount",
            before=was or None,
            after=now or None,
            because=run.reason(task.id, OTHER_NEED),
        )
    done_alike = ("title", "how", "go", "fallback", "cautions")
    if any(getattr(task, name) != getattr(before, name) for name in done_alike):
        return Change(task=task.id, kind="reworded", because="How it is done follows the brief or the book.")
    return None
