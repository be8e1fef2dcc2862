"""Numbers and stamps a plan against the one before: identities kept, history untouched."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Any, get_args
from zoneinfo import ZoneInfo

from turfplan.errors import Problem, TurfplanError
from turfplan.message import Message
from turfplan.messages import Words
from turfplan.messages.entry import summary
from turfplan.phrases import changes as phrases
from turfplan.records.days_before import days_before
from turfplan.records.numbering import (
    in_feed_words,
    in_order_of_date,
    past_in_feed_words,
    state_in_feed_words,
)
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Change, Plan, Retired
from turfplan.records.plan_calendar import CalendarPart, PartStamps
from turfplan.records.plan_task import PublishedEntry, Task
from turfplan.revision.calendar_entries import (
    EntryRevision,
    out_of_grace,
    revised_entries,
    stamped_entry,
)
from turfplan.revision.feed_entries import (
    feed_head,
    rule_days,
    shown_anew,
    shown_in,
    timing,
    uid,
)
from turfplan.revision.news import (
    RevisionRun,
    addition,
    change_of,
    closing,
    news_of,
    news_of_reader,
)
from turfplan.revision.order_of_work import places_of
from turfplan.revision.watering_days import common_id, hidden_groups

# How long a cancelled entry stays in the feed before its number is retired. Not agronomy but a
# custom of feeds: slow clients poll once a day, and who is back from a holiday should still see it.
GRACE = timedelta(days=30)


@dataclass(frozen=True, slots=True)
class _TaskRevision:
    """A task beside what it was in the plan before (None: it is new), with what has changed of it.

    `update` is what stamping sets besides, so that each task is copied once.
    """

    task: Task
    before: Task | None
    news: Change | None = None
    update: Mapping[str, Any] = field(default_factory=dict)

    @property
    def shown(self) -> PublishedEntry | None:
        """What the feed shows of the task."""
        shown: PublishedEntry | None = self.update.get("published", self.task.published)
        return shown

    @property
    def shows_the_same(self) -> bool:
        """Whether a subscriber sees no difference."""
        return self.before is not None and self.before.published == self.shown


def revise(
    draft: Plan,
    previous: Plan | None,
    now: datetime,
    words: Words,
    *,
    history: TaskHistory | None = None,
) -> Plan:
    """The draft with identities, states, stamps and changes; a calendar shows it in `words`.

    The draft and its `history` use the ids of the rules (`numbering`); the plan before has those of
    the feed. `now` is aware. `revision` rises only when something that the feed shows has changed;
    then the stamp is the later of now and a second after the previous stamp. Running again with
    nothing new gives the same published content and the same stamps, however much later. Raises
    TurfplanError when the plan before is another lawn's.
    """
    moment = now.astimezone(UTC).replace(microsecond=0)
    run, drafted = _begun(draft, previous, now, words, history or TaskHistory())
    draft = run.draft
    retired = _retired(draft, previous)
    draft = draft.model_copy(update={"state": state_in_feed_words(draft.state, retired)})
    old = {task.id: task for task in previous.tasks} if previous is not None else {}
    steps = [_step(run, task, old.pop(task.id, None)) for task in drafted]
    steps += [_missing(run, task) for task in old.values()]
    shown = [(step.task, entry, step.before) for step in steps if (entry := step.shown) is not None]
    entries = revised_entries(run, shown, retired)
    if previous is None:
        return _numbered(draft, steps, entries, moment, {"revision": 1, "stamp": moment})
    stamp = max(moment, previous.stamp + timedelta(seconds=1))
    same_tasks = all(step.shows_the_same for step in steps)
    same_entries = all(entry.shows_the_same for entry in entries)
    if feed_head(draft) == feed_head(previous) and same_tasks and same_entries:
        same = ("revision", "stamp", "changes", "retired", "part_stamps", "days_before")
        update = {name: getattr(previous, name) for name in same}
        return _numbered(draft, steps, entries, stamp, update)
    # Numbers retire only together with another change: on a later day alone the bytes must stay.
    gone = {name for name, task in old.items() if _out_of_grace(task, moment)}
    steps = [step for step in steps if step.task.id not in gone]
    left = {e.name for e in entries if out_of_grace(e, moment, GRACE)}
    gone |= {e.name for e in entries if e.name in left and e.kind != "left"}
    entries = tuple(e for e in entries if e.name not in left)
    plan = _numbered(draft, steps, entries, stamp, _changed(run, previous, steps, gone, stamp))
    return plan.model_copy(update={"part_stamps": _part_stamps(plan, previous, stamp)})


def _begun(
    draft: Plan, previous: Plan | None, now: datetime, words: Words, past: TaskHistory
) -> tuple[RevisionRun, Sequence[Task]]:
    """The revision, and the tasks of the draft with the ids that they have in the feed."""
    if previous is not None and previous.lawn_id != draft.lawn_id:
        ours, theirs = repr(draft.lawn_id), repr(previous.lawn_id)
        raise TurfplanError(Problem("lawn.id", phrases.other_lawn(), ours, theirs))
    retired = _retired(draft, previous)
    today = now.astimezone(ZoneInfo(draft.timezone)).date()
    drafted = in_feed_words(in_order_of_date(draft.tasks, past.recorded), retired)
    places = places_of(draft, drafted, previous.places if previous is not None else {})
    draft = _ordered_in_feed_words(draft, drafted).model_copy(update={"places": places})
    hidden = hidden_groups(draft, drafted, previous, today)
    past = past_in_feed_words(past, retired, draft.retired)
    run = RevisionRun(words, draft, previous, past, today, frozenset(hidden))
    return run, drafted


def _retired(draft: Plan, previous: Plan | None) -> frozenset[str]:
    """The numbers that the rules give no more, the first time for this draft or before."""
    before = previous.retired if previous is not None else ()
    return frozenset(r.id for r in (*before, *draft.retired))


def _ordered_in_feed_words(draft: Plan, drafted: Sequence[Task]) -> Plan:
    """The draft whose order names its tasks as the feed does."""
    names = {ours.id: theirs.id for ours, theirs in zip(draft.tasks, drafted, strict=True)}
    lines = (
        line.model_copy(update={"tasks": tuple(names.get(name, name) for name in line.tasks)})
        for line in draft.order
    )
    return draft.model_copy(update={"order": tuple(lines)})


def _changed(
    run: RevisionRun,
    previous: Plan,
    steps: Iterable[_TaskRevision],
    gone: Collection[str],
    stamp: datetime,
) -> dict[str, Any]:
    """What a revision says of itself once something that the feed shows has changed."""
    known = {r.id for r in previous.retired}
    retired = [r for r in run.draft.retired if r.id not in known]
    retired += (Retired(id=name, on=run.today) for name in sorted(gone))
    return {
        "revision": previous.revision + 1,
        "stamp": stamp,
        "changes": (*news_of_reader(run), *(step.news for step in steps if step.news)),
        "retired": (*previous.retired, *retired),
        "days_before": days_before(previous, run.draft.journal_entries),
    }


def _numbered(
    draft: Plan,
    steps: Iterable[_TaskRevision],
    entries: Iterable[EntryRevision],
    stamp: datetime,
    update: dict[str, Any],
) -> Plan:
    """The draft with its tasks and entries stamped, tasks in order of date, entries of id."""
    tasks = sorted((_stamped(step, stamp) for step in steps), key=lambda t: (t.start, t.id))
    stamped = tuple(stamped_entry(draft.lawn_id, entry, stamp) for entry in entries)
    return draft.model_copy(update={"tasks": tuple(tasks), "calendar_entries": stamped, **update})


def _part_stamps(plan: Plan, previous: Plan, stamp: datetime) -> PartStamps:
    """When what each part of the calendar shows last changed."""
    same_head = feed_head(plan) == feed_head(previous)
    stamps = {}
    for part in get_args(CalendarPart):
        now, was = (
            [(of.id, entry) for of, entry in shown_in(one, part)] for one in (plan, previous)
        )
        same = same_head and now == was
        stamps[part] = previous.part_stamps.of(part, previous.stamp) if same else stamp
    return PartStamps(**stamps)


def _step(run: RevisionRun, task: Task, before: Task | None) -> _TaskRevision:
    """A task of the draft with its identity, its state, and what is published of it."""
    state = _state(run, task, before)
    if before is None:
        if run.previous is not None:
            task = task.model_copy(update={"change": run.reason(task.id, phrases.because_new())})
        return _TaskRevision(
            task,
            None,
            addition(run, task),
            {**state, "published": _shown_anew(run, task).published},
        )
    task = task.model_copy(update=state)
    if _is_history(run, task, before):
        kept = {
            name: getattr(task, name)
            for name in ("uid", "status", "closed", "overdue", "held", "booked", "actual")
        }
        if task.closed is None and before.status == "CANCELLED":
            # What was cancelled and is over has not come back.
            kept |= {"status": before.status, "closed": before.closed}
        return _TaskRevision(before.model_copy(update=kept), before, closing(run, task, before))
    if task.closed == "done":
        task = task.model_copy(update=_done_days(task, before))
    news = news_of(run, task, before)
    sentence = change_of(run, task, before)
    return _TaskRevision(
        _shown_anew(run, task.model_copy(update={"change": sentence})), before, news
    )


def _shown_anew(run: RevisionRun, task: Task) -> Task:
    """The task with what the feed shows of it, or would show where another entry tells of it."""
    hidden = task.series is not None and common_id(task.id) in run.hidden
    return shown_anew(run.words, run.draft, task, hidden=hidden)


def _told_off(run: RevisionRun, task: Task) -> Task:
    """The same of a task that the draft no longer has: no calendar shows the end of what it did not
    show before."""
    was = task.published
    told = _shown_anew(run, task)
    if was is None or not was.hidden or told.published is None or told.published.hidden:
        return told
    hidden = told.published.model_copy(update={"hidden": True})
    return told.model_copy(update={"published": hidden})


def _state(run: RevisionRun, task: Task, before: Task | None) -> dict[str, Any]:
    """Identity and state, which history takes on too."""
    past, name = run.past, task.id
    done = name in past.done
    status = "COMPLETED" if done else "IN-PROCESS" if name in past.part_done else "NEEDS-ACTION"
    over = before is not None and run.is_over(before) and not _reopened(run, task)
    shown = before if over and before is not None else task
    if task.series is not None and shown.end < run.today:
        status = "COMPLETED"
    return {
        "uid": uid(run.draft.lawn_id, name),
        "status": status,
        "closed": "done" if done else None,
        "overdue": name in past.overdue,
        "held": name in past.held,
        "booked": past.booked.get(name) == shown.start.toordinal(),
        # What is sown again is on its new days, whatever is left of what was sown before.
        "actual": None
        if past.lost is not None and past.lost.task == name
        else past.actual.get(name),
    }


def _reopened(run: RevisionRun, task: Task) -> bool:
    """Whether an open task lies on a day still to come, and so leaves the past if it was there."""
    return task.closed is None and task.id not in run.past.done and task.end >= run.today


def _is_history(run: RevisionRun, task: Task, before: Task) -> bool:
    """Whether the feed's entry stays as it is: closed as before, or over and not planned again."""
    if before.published is None:
        return False
    if before.closed is not None and before.closed == task.closed:
        return True
    return run.is_over(before) and not _reopened(run, task)


def _done_days(task: Task, before: Task) -> dict[str, Any]:
    """The days of a task done before those in the feed were over: when it was done, if on
    others."""
    if task.actual is None or before.start <= task.actual.start <= task.actual.end <= before.end:
        return {"start": before.start, "end": before.end, "worked_on": before.worked_on}
    return {"start": task.actual.start, "end": task.actual.end, "worked_on": ()}


def _missing(run: RevisionRun, before: Task) -> _TaskRevision:
    """A task that the draft no longer has.

    History stays, a running series ends early, an open task is cancelled.
    """
    done, skipped = before.id in run.past.done, before.id in run.past.skipped
    # What is done since, or was done and is so no longer, is told.
    known = before.closed is not None and done == (before.closed == "done")
    if before.published is None or known:
        actual = run.past.actual.get(before.id, before.actual)
        return _TaskRevision(before.model_copy(update={"actual": actual}), before)
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
    news = closing(run, task, before)
    if run.is_over(before):
        return _TaskRevision(task, before, news)
    if done:
        task = task.model_copy(update=_done_days(task, before))
        task = task.model_copy(update={"change": change_of(run, task, before)})
        return _TaskRevision(_told_off(run, task), before, news)
    because = run.reason(
        before.id, phrases.because_skipped() if skipped else phrases.because_not_needed()
    )
    return _TaskRevision(
        _cut_short(run, task, because) or _cancelled(run, task, because), before, news
    )


def _cut_short(run: RevisionRun, task: Task, because: Message) -> Task | None:
    """A running series without its days from today on; None for anything else.

    The days that went by stay in the feed.
    """
    if task.series is None:
        return None
    left_out = tuple(day for day in rule_days(task.series) if day >= run.today)
    ran = [day for day in rule_days(task.series) if day < run.today and day not in task.series.skip]
    if not ran:
        return None
    series = task.series.model_copy(update={"skip": tuple(sorted({*task.series.skip, *left_out}))})
    change = phrases.ended_early(because=because)
    update = {"series": series, "end": ran[-1], "status": "COMPLETED", "change": change}
    return _told_off(run, task.model_copy(update=update))


def _cancelled(run: RevisionRun, task: Task, because: Message) -> Task:
    """A task that will not be done: in the feed on its days, named cancelled, without reminder.

    A series stands there on its first run.
    """
    task = _told_off(run, task.model_copy(update={"change": because, "alarm": False}))
    assert task.published is not None  # it has just been made
    update: dict[str, Any] = {
        "summary": summary(run.words, task, cancelled=True),
        "cancelled": True,
        "alarm": None,
    }
    if (series := task.published.series) is not None:
        day = next((d for d in rule_days(series) if d not in series.skip), series.start)
        once = series.model_copy(update={"start": day, "end": day, "weekdays": (), "skip": ()})
        update |= {"series": once, "start": day, "end": day}
    return task.model_copy(update={"published": task.published.model_copy(update=update)})


def _out_of_grace(task: Task, moment: datetime) -> bool:
    """Whether a dropped task has been shown as cancelled for long enough."""
    shown = task.published is not None and task.published.cancelled and task.closed == "dropped"
    return shown and task.last_modified is not None and moment - task.last_modified > GRACE


def _stamped(step: _TaskRevision, stamp: datetime) -> Task:
    """Sequence and stamps.

    The sequence rises with days, repetition or cancelling, the stamp with anything that is shown.
    """
    before, shown = step.before, step.shown
    update = {**step.update, "sequence": 0, "created": stamp, "last_modified": stamp}
    if before is not None:
        update["sequence"] = before.sequence + (timing(shown) != timing(before.published))
        update["created"] = before.created or stamp
        if (was := before.published) is not None and was.hidden and shown is not None:
            # What no calendar shows has no versions; what one shows for the first time is new.
            never = before.sequence == 0
            update["sequence"] = before.sequence + (not shown.hidden and not never)
            update["created"] = stamp if never and not shown.hidden else before.created
        update["last_modified"] = before.last_modified if step.shows_the_same else stamp
    return step.task.model_copy(update=update)
