"""Opens the days that somebody wishes for, and binds what is booked to its day as far as the rules
let it."""

from collections.abc import Callable, Collection
from dataclasses import replace

from turfplan.phrases import history as phrases
from turfplan.planning.candidates import Candidate, Comparison
from turfplan.records.constraints import Allowed, DaySet, Reason, Strength
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan
from turfplan.work.days_off import with_days
from turfplan.work.drafts import SeasonDraft
from turfplan.work.lawn import ResolvedLawn


def compare_wished(
    setting: ResolvedLawn,
    history: TaskHistory,
    previous: Plan,
    compare: Callable[[ResolvedLawn, TaskHistory], Comparison],
) -> Comparison:
    """The campaigns compared with the days that somebody wishes for among the days of work: which
    weekdays those are is a preference, and what goes with the task is done on its days too.

    A wish that does not get its day opens none: what nobody works on then stays a day off.
    """
    unmet: frozenset[str] = frozenset()
    while True:
        found = compare(_opened(setting, history, previous, unmet), history)
        lost = _unmet(history, found.best) - unmet
        history, before = _given_up(history, found.best), history
        if not lost and history is before:
            return found
        unmet |= lost
        history = _less(history, lost, previous)


def _given_up(history: TaskHistory, best: Candidate | None) -> TaskHistory:
    """History without the days chosen by hand that a campaign had to give up, each with why."""
    taken = None if best is None else best.dated.history
    if taken is None or taken.moves_given_up.keys() == history.moves_given_up.keys():
        return history
    because = {**history.because, **taken.moves_given_up}
    return replace(history, held=taken.held, because=because, moves_given_up=taken.moves_given_up)


def _opened(
    setting: ResolvedLawn, history: TaskHistory, previous: Plan, unmet: Collection[str]
) -> ResolvedLawn:
    """The lawn with the wished days, but for wishes that are not met, among its days of work.

    A job of several days that is to begin on a day off goes on until it is done.
    """
    wished = {**history.booked, **history.held}
    lasts = {task.id: task.duration_days for task in previous.tasks if task.id in wished}
    work = setting.calendar.work
    days = DaySet.of(
        (day, day + lasts.get(name, 1) - 1)
        for name, day in wished.items()
        if day not in work and name not in unmet
    )
    return replace(setting, calendar=with_days(setting, days)) if days.ranges else setting


def _unmet(history: TaskHistory, best: Candidate | None) -> set[str]:
    """The bookings to which a campaign gives another day, and the wishes for what it has not."""
    if best is None:
        return set()
    ids = {draft.id for draft in best.dated.season.drafts}
    other = {n for n, day in history.booked.items() if n in ids and best.dated.day(n) != day}
    return other | ({*history.booked, *history.held} - ids)


def _less(history: TaskHistory, names: Collection[str], previous: Plan) -> TaskHistory:
    """History without some bookings, whose tasks are on their published days again."""
    gone = history.booked.keys() & set(names)
    if not gone:
        return history
    days = {task.id: task.start.toordinal() for task in previous.tasks if task.id in gone}
    return replace(
        history,
        booked={name: day for name, day in history.booked.items() if name not in gone},
        published={**history.published, **days},
        because={name: why for name, why in history.because.items() if name not in gone},
    )


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
