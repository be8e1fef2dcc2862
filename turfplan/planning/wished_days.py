"""Opens the days that somebody wishes for, and binds what is booked to its day as far as the rules
let it."""

from collections.abc import Mapping
from dataclasses import replace

from turfplan.phrases import history as phrases
from turfplan.records.constraints import Allowed, DaySet, Reason, Strength
from turfplan.records.past import TaskHistory
from turfplan.records.plan_task import Task
from turfplan.work.days_off import with_days
from turfplan.work.drafts import SeasonDraft
from turfplan.work.lawn import ResolvedLawn


def last_days(wished: Mapping[str, int], tasks: Mapping[str, Task]) -> dict[str, int]:
    """The last day of each task that somebody wishes for another first day: it is moved whole, as
    long as it was planned."""
    known = {name: tasks[name] for name in wished if name in tasks}
    return {name: wished[name] + (task.end - task.start).days for name, task in known.items()}


def with_wished_days(setting: ResolvedLawn, history: TaskHistory) -> ResolvedLawn:
    """The lawn with the days that somebody wishes for among its days of work: which weekdays those
    are is a preference, and what goes with the task is done on its days too."""
    wished = {**history.booked, **history.held}
    if not wished:
        return setting
    days = DaySet.of((day, history.wished_until.get(name, day)) for name, day in wished.items())
    return replace(setting, calendar=with_days(setting, days))


def with_booked(season: SeasonDraft, history: TaskHistory) -> SeasonDraft:
    """A season in which what is booked has its day, unless a rule of the work or its season is
    against it.

    That is softer than a day that its owner chose: it goes before such a rule does.
    """
    booked = {d.id: day for d in season.drafts if (day := history.booked.get(d.id)) is not None}
    if not booked:
        return season
    asked = tuple(
        Allowed(
            f"booked:{name}",
            name,
            DaySet.of([(day, day)]),
            Strength.ADVICE,
            Reason("history.booked", phrases.booked()),
        )
        for name, day in booked.items()
    )
    return replace(season, constraints=(*season.constraints, *asked))
