"""What has changed of a task, told as keys: for its own text, and for the list of changes."""

from dataclasses import dataclass, replace
from datetime import date
from math import isclose

from turfplan.calendar_days import WEEKDAYS
from turfplan.message import AS_WRITTEN, Clock, Day, Days, Message, NamedWeekday, listed
from turfplan.messages import Words
from turfplan.messages.entry import amounts_listed, amounts_text
from turfplan.phrases import changes as phrases
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Change, Plan
from turfplan.records.plan_task import Amount, Series, Task
from turfplan.revision.feed_entries import plain_series
from turfplan.units import CUBIC_YARD_M3

# The larger step in which material is sold in either system: a quarter of a cubic yard.
SOLD_STEPS = {"m3": CUBIC_YARD_M3 / 4}


@dataclass(frozen=True, slots=True)
class RevisionRun:
    """One revision under way: the reader's words, both plans, what has happened, today."""

    words: Words
    draft: Plan
    previous: Plan | None
    past: TaskHistory
    today: date
    # The stages and weeks of watering whose runs have no entries of their own.
    hidden: frozenset[str] = frozenset()

    def reason(self, task_id: str, otherwise: Message) -> Message:
        """Why a task has changed: what the journal says, else what is given."""
        return self.past.because.get(task_id) or otherwise

    @property
    def other_reader(self) -> bool:
        """Whether the plan speaks to another reader than before.

        That is one change for all, of which no task has news.
        """
        return self.previous is not None and _reader(self.previous) != _reader(self.draft)

    def is_over(self, task: Task) -> bool:
        """Whether the feed shows a task on days that have gone by."""
        return task.published is not None and task.published.end < self.today


def addition(run: RevisionRun, task: Task) -> Change | None:
    """The news that a task is new in the plan; in a first plan nothing is news."""
    if run.previous is None:
        return None
    after = phrases.days(days=Days(task.start, task.end))
    return Change(
        task=task.id, kind="added", after=after, because=task.change or phrases.because_new()
    )


def closing(run: RevisionRun, task: Task, before: Task) -> Change | None:
    """The news that a task is done, skipped or no longer needed."""
    if task.closed is None or task.closed == before.closed:
        return None
    otherwise = {
        "done": phrases.because_done,
        "skipped": phrases.because_skipped,
        "dropped": phrases.because_not_needed,
    }[task.closed]()
    return Change(
        task=task.id, kind=task.closed, before=_when(before), because=run.reason(task.id, otherwise)
    )


def news_of(run: RevisionRun, task: Task, before: Task) -> Change | None:
    """What differs from the plan before: how it ended, its days, its amounts, what to do."""
    if ended := closing(run, task, before):
        return ended
    if before.status == "CANCELLED":
        because = run.reason(task.id, phrases.because_back())
        return Change(task=task.id, kind="added", after=_when(task), because=because)
    if moved(task, before):
        because = run.reason(
            task.id, phrases.because_other_water() if task.series else phrases.because_follows()
        )
        return Change(
            task=task.id, kind="moved", before=_when(before), after=_when(task), because=because
        )
    if _other_amounts(run, task, before):
        was, now = (_amounts(t) if t.amounts else None for t in (before, task))
        because = run.reason(task.id, _otherwise(task))
        return Change(task=task.id, kind="amount", before=was, after=now, because=because)
    done_alike = ("title", "how", "go", "fallback", "cautions")
    differs = (_texts(getattr(task, name)) != _texts(getattr(before, name)) for name in done_alike)
    if not run.other_reader and any(differs):
        return Change(task=task.id, kind="reworded", because=phrases.because_reworded())
    return None


def news_of_reader(run: RevisionRun) -> tuple[Change, ...]:
    """The one change that another language, other units or another country are."""
    if not run.other_reader:
        return ()
    return (Change(task="", kind="reworded", because=phrases.because_other_reader()),)


def _reader(plan: Plan) -> tuple[object, ...]:
    """Whom a plan speaks to."""
    return plan.language, plan.lawn.units, plan.place.country


def change_of(run: RevisionRun, task: Task, before: Task) -> Message | None:
    """What has changed of a task, for its text in the feed.

    What was told before stands until something new is.
    """
    if before.status == "CANCELLED" and task.closed is None:
        return run.reason(task.id, phrases.because_back())
    if moved(task, before):
        return _moved_words(run, task, before)
    if before.amounts and _other_amounts(run, task, before):
        return phrases.was(before=_amounts(before), because=run.reason(task.id, _otherwise(task)))
    if before.change is None or before.change.key == AS_WRITTEN:
        return before.change
    # Told anew, in the words of today's reader.
    return replace(before.change, text="")


def _moved_words(run: RevisionRun, task: Task, before: Task) -> Message:
    """What a task's days were, or which runs of a series are left out now."""
    if task.series is None or before.series is None:
        return phrases.was(
            before=_when(before), because=run.reason(task.id, phrases.because_follows())
        )
    now, was = plain_series(task.series), plain_series(before.series)
    fewer = sorted(set(now.skip) - set(was.skip))
    because = run.reason(task.id, phrases.because_other_water())
    if fewer and now.model_copy(update={"skip": was.skip}) == was:
        return phrases.no_run(
            days=listed((Day(day) for day in fewer), "every_and"), because=because
        )
    return phrases.was(before=_runs(was), because=because)


def moved(task: Task, before: Task) -> bool:
    """Whether the days of a task, or the runs of a series, are others than before."""
    if task.series is not None and before.series is not None:
        return plain_series(task.series) != plain_series(before.series)
    return (task.start, task.end) != (before.start, before.end)


def _when(task: Task) -> Message:
    """A task's days, or its runs."""
    return (
        _runs(task.series)
        if task.series is not None
        else phrases.days(days=Days(task.start, task.end))
    )


def _runs(series: Series) -> Message:
    """When a series runs: minutes, time of day, weekdays, first and last day, days left out."""
    weekdays = listed((NamedWeekday(WEEKDAYS.index(day)) for day in series.weekdays), "every_and")
    skipped = listed((Day(day, year=False) for day in series.skip), "every_and")
    minutes, clock, days = series.minutes, Clock(series.start_time), Days(series.start, series.end)
    if series.weekdays and series.skip:
        return phrases.runs_weekdays_but(
            minutes=minutes, clock=clock, weekdays=weekdays, days=days, skipped=skipped
        )
    if series.weekdays:
        return phrases.runs_weekdays(minutes=minutes, clock=clock, weekdays=weekdays, days=days)
    if series.skip:
        return phrases.runs_daily_but(minutes=minutes, clock=clock, days=days, skipped=skipped)
    return phrases.runs_daily(minutes=minutes, clock=clock, days=days)


def _other_amounts(run: RevisionRun, task: Task, before: Task) -> bool:
    """Whether a reader sees other amounts.

    To another reader, of what was told to the one before too, beyond what each rounds to the steps
    in which material is sold to him.
    """
    if run.other_reader:
        task, before = _alike(task, before), _alike(before, task)
        if len(task.amounts) == len(before.amounts) and all(
            now.item == was.item and _sold_alike(now, was)
            for now, was in zip(task.amounts, before.amounts, strict=True)
        ):
            return False
    return amounts_text(run.words, task) != amounts_text(run.words, before)


def _otherwise(task: Task) -> Message:
    """Why an amount differs of which no entry speaks."""
    fed = task.plays("feeding") and any(a.item == "nitrogen_total" for a in task.amounts)
    return phrases.because_shared_anew() if fed else phrases.because_other_amounts()


def _sold_alike(now: Amount, was: Amount) -> bool:
    """Whether two amounts are one, rounded to the steps of two systems of units."""
    room = SOLD_STEPS.get(now.unit, 0.0)
    return now.unit == was.unit and isclose(now.value, was.value, rel_tol=0.01, abs_tol=room)


def _alike(task: Task, other: Task) -> Task:
    """The task with the amounts of what the other has an amount of.

    Some are told in one system of units alone.
    """
    items = {amount.item for amount in other.amounts}
    return task.model_copy(
        update={"amounts": tuple(amount for amount in task.amounts if amount.item in items)}
    )


def _amounts(task: Task) -> Message:
    return phrases.amounts(amounts=amounts_listed(task))


def _texts(what: Message | tuple[Message, ...] | None) -> tuple[str, ...]:
    """What a reader sees of one message or of some.

    A plan of an older program has texts without keys.
    """
    if what is None:
        return ()
    return (what.text,) if isinstance(what, Message) else tuple(message.text for message in what)
