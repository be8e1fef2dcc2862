"""Opens the days that somebody wishes for, and binds what is booked to its day as far as the rules
let it."""

from dataclasses import replace

from turfplan.phrases import history as phrases
from turfplan.records.constraints import Allowed, DaySet, Reason, Strength
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan
from turfplan.work.days_off import with_days
from turfplan.work.drafts import SeasonDraft
from turfplan.work.lawn import ResolvedLawn


def with_wished_days(
    setting: ResolvedLawn, history: TaskHistory, previous: Plan | None
) -> ResolvedLawn:
    """The lawn with the days that somebody wishes for among its days of work: which weekdays those
    are is a preference, and what goes with the task is done on its days too.

    A job of several days that is to begin on a day off goes on until it is done.
    """
    wished, tasks = {**history.booked, **history.held}, previous.tasks if previous else ()
    lasts = {task.id: task.duration_days for task in tasks if task.id in wished}
    work = setting.calendar.work
    days = DaySet.of(
        (day, day + lasts.get(name, 1) - 1) for name, day in wished.items() if day not in work
    )
    return replace(setting, calendar=with_days(setting, days)) if days.ranges else setting


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
