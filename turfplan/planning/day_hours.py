"""Sees to it that no day holds more work than its hours, or says so where nothing can be moved."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from math import ceil
from typing import Final

from turfplan.message import Day, Message, Number, listed
from turfplan.network import Conflict
from turfplan.phrases import season as phrases
from turfplan.planning.schedule import Dated
from turfplan.records.constraints import Allowed, DaySet, Reason, Strength
from turfplan.records.plan_hands import HoursElsewhere
from turfplan.records.plan_task import Role, Task
from turfplan.work.days_off import days_for
from turfplan.work.drafts import Draft, SeasonDraft
from turfplan.work.feeding.stages import WorkedDays, worked_days
from turfplan.work.lawn import ResolvedLawn, without
from turfplan.work.shared_hands import HAIR_H, is_counted

# What other work hangs on, and what is fed in step with it, keeps its day.
STAYS: Final[frozenset[Role]] = frozenset({"spreading", "sowing", "planting", "feeding", "starter"})
FULL: Final = "full"

Again = Callable[[SeasonDraft], Dated | Conflict | None]


def unloaded(setting: ResolvedLawn, dated: Dated, again: Again) -> Dated:
    """A season in which what can wait leaves the days that hold more work than their hours.

    One task after the other is kept off the days that it does not fit into; it stays where that
    gives up a rule, moves main work, or leaves as many hours over as before.
    """
    tried: set[str] = set()
    while waiting := [d for d in _on_full_days(setting, dated) if d.id not in tried]:
        draft = waiting[0]
        tried.add(draft.id)
        ways = (
            found
            for season in _kept_off_full_days(setting, dated, draft)
            for found in _and_what_follows(setting, dated, again(season), draft, again)
        )
        for found in ways:
            if _is_better(setting, dated, found):
                dated = found
                # What found no other day may find one now; each round leaves fewer hours over.
                tried.clear()
                break
    return dated


def _and_what_follows(
    setting: ResolvedLawn,
    before: Dated,
    other: Dated | Conflict | None,
    moved: Draft,
    again: Again,
) -> Iterator[Dated]:
    """A season after a move, and after a second one of what the first has drawn along."""
    if not isinstance(other, Dated):
        return
    yield other
    drawn = [d for d in _on_full_days(setting, other) if d.id != moved.id]
    for second in drawn:
        if before.day(second.id) != other.day(second.id):
            for season in _kept_off_full_days(setting, other, second):
                last = again(season)
                if isinstance(last, Dated):
                    yield last


def _on_full_days(setting: ResolvedLawn, dated: Dated) -> list[Draft]:
    """The tasks that may leave days with more work than hours: first what has no place in the
    order of heavy work, the longest first.
    """
    over = _over_h(setting, _hours(setting, dated))
    movable = [d for d in _movable(setting, dated) if over.keys() & set(_span(dated, d))]
    return sorted(
        movable,
        key=lambda d: (d.duration_days > 1, _turn(setting, d), -d.person_hours, d.id),
    )


def _span(dated: Dated, draft: Draft) -> range:
    """The days from the first to the last of a job (ordinals)."""
    return range(dated.day(draft.start_node), dated.day(draft.end_node) + 1)


def _is_better(setting: ResolvedLawn, before: Dated, after: Dated) -> bool:
    """Whether fewer hours are over, at no other cost."""
    fewer = _sum_over_h(setting, after) < _sum_over_h(setting, before) - HAIR_H
    kept = len(after.dropped) <= len(before.dropped)
    same = {d.id for d in before.season.drafts} == {d.id for d in after.season.drafts}
    return fewer and kept and same and _main_days(setting, before) == _main_days(setting, after)


def _main_days(setting: ResolvedLawn, dated: Dated) -> tuple[dict[str, int], WorkedDays]:
    """The days of main work, and those that feeding goes by."""
    drafts = dated.season.drafts
    days = {d.id: dated.day(d.id) for d in drafts if _stays(setting, d)}
    return days, worked_days(drafts, dated.day)


def _stays(setting: ResolvedLawn, draft: Draft) -> bool:
    return setting.book.operations[draft.operation].plays(*STAYS)


def _movable(setting: ResolvedLawn, dated: Dated) -> list[Draft]:
    """The tasks that may leave their days; what keeps step with another may not."""
    return [
        d
        for d in dated.season.drafts
        if (d.duration_days == 1 or not (d.strips or d.beside or d.by_strip))
        and d.person_hours > HAIR_H
        and is_counted(setting, d.operation)
        and not _stays(setting, d)
    ]


def _turn(setting: ResolvedLawn, draft: Draft) -> int:
    """What has no place in the order of heavy work goes first, then what comes early in it."""
    turn = setting.book.operations[draft.operation].turn
    return -1 if turn is None else turn


def _hours(setting: ResolvedLawn, dated: Dated) -> dict[int, float]:
    """The person-hours of each day."""
    hours: dict[int, float] = defaultdict(float)
    for draft in dated.season.drafts:
        if is_counted(setting, draft.operation):
            span = dated.day(draft.start_node), dated.day(draft.end_node)
            for day, had in _by_day(setting, draft.operation, span, draft.person_hours):
                hours[day] += had
    return hours


def _by_day(
    setting: ResolvedLawn, operation: str, span: tuple[int, int], hours: float
) -> Iterator[tuple[int, float]]:
    """The hours of a job on each of its working days, from the first to the last (ordinals)."""
    first, last = span
    if first == last:
        yield first, hours
        return
    own = days_for(setting, operation)
    if first not in own or last not in own:
        # An errand to a shop on the household's days alone.
        own = setting.calendar.errands
    days = own.intersect(DaySet.of([span])).days()
    yield from ((day, hours / len(days)) for day in days)


def _over_h(setting: ResolvedLawn, hours: Mapping[int, float]) -> dict[int, float]:
    """The days with more hours of work than people have, with how many they are over."""
    left = {day: setting.labour.hours_left(day) for day in hours}
    return {day: had - left[day] for day, had in hours.items() if had > left[day] + HAIR_H}


def _sum_over_h(setting: ResolvedLawn, dated: Dated) -> float:
    return sum(_over_h(setting, _hours(setting, dated)).values())


def _kept_off_full_days(setting: ResolvedLawn, dated: Dated, draft: Draft) -> Iterator[SeasonDraft]:
    """The season with a task kept off the days whose hours it would go beyond.

    A job of several days ends before the first of its days that is too full, else it begins after
    the last of them.
    """
    hours, own = _hours(setting, dated), dated.day(draft.id)
    if draft.duration_days > 1:
        over = _over_h(setting, hours).keys() & set(_span(dated, draft))
        until = max(setting.first_day, min(over) - 1)
        since = min(setting.last_day, max(over) + 1)
        yield _bound(dated, draft, DaySet.of([(setting.first_day, until)]), draft.end_node)
        yield _bound(dated, draft, DaySet.of([(since, setting.last_day)]), draft.start_node)
        return
    hours[own] -= draft.person_hours
    taken = (day for day, _ in setting.labour.elsewhere.hours)
    full = [
        (day, day)
        for day in {*hours, *taken}
        if hours[day] + draft.person_hours > setting.labour.hours_left(day) + HAIR_H
    ]
    days = without(DaySet.of([(setting.first_day, setting.last_day)]), full)
    yield _bound(dated, draft, days, draft.start_node)


def _bound(dated: Dated, draft: Draft, days: DaySet, node: str) -> SeasonDraft:
    """The season with the first or the last day of a task kept to some days."""
    reason = Reason("work.day_full", phrases.other_days_full())
    name = f"{FULL}:{draft.id}"
    bound = Allowed(name, node, days, Strength.ADVICE, reason)
    others = tuple(c for c in dated.season.constraints if c.id != name)
    return replace(dated.season, constraints=(*others, bound))


def told_overfull(
    setting: ResolvedLawn, tasks: Iterable[Task]
) -> tuple[Mapping[str, tuple[Message, ...]], tuple[Message, ...]]:
    """What is said of open days that hold more work than the people at hand have hours: to each of
    the tasks that are done on them, of all its days at once, and of each day."""
    hours: dict[int, float] = defaultdict(float)
    jobs: dict[int, list[str]] = defaultdict(list)
    for task, day, had in _hours_ahead(setting, tasks):
        hours[day] += had
        if had > HAIR_H:
            jobs[day].append(task.id)
    # Nobody comes to help on a day that is over.
    full = [d for d in sorted(_over_h(setting, hours)) if d >= setting.today.toordinal()]
    days_of: dict[str, list[int]] = defaultdict(list)
    for day in full:
        for name in jobs[day]:
            days_of[name].append(day)
    by_task = {name: _overfull_days(setting, days, hours) for name, days in days_of.items()}
    said = tuple(_overfull(setting, day, hours[day]) for day in full if jobs[day])
    return by_task, said


def with_overfull_told(
    setting: ResolvedLawn, tasks: Sequence[Task]
) -> tuple[tuple[Task, ...], tuple[Message, ...]]:
    """The tasks, each told of its days that hold more work than there are hours, and all that is
    told of them."""
    told, said = told_overfull(setting, tasks)
    warned = tuple(
        t.model_copy(update={"cautions": (*told[t.id], *t.cautions)}) if t.id in told else t
        for t in tasks
    )
    return warned, said


def hours_shared(setting: ResolvedLawn, tasks: Iterable[Task]) -> tuple[HoursElsewhere, ...]:
    """The hours that are taken elsewhere on the days of open work: the plan was made knowing
    them."""
    worked = {day for _, day, had in _hours_ahead(setting, tasks) if had > HAIR_H}
    return tuple(
        HoursElsewhere(day=date.fromordinal(day), hours=round(hours, 2))
        for day, hours in setting.labour.elsewhere.hours
        if day in worked
    )


def _hours_ahead(setting: ResolvedLawn, tasks: Iterable[Task]) -> Iterator[tuple[Task, int, float]]:
    """The hours that open tasks take of those at work, by task and day (an ordinal)."""
    for task in tasks:
        ahead = task.series is None and task.closed is None and not task.overdue
        if ahead and is_counted(setting, task.operation):
            span = task.start.toordinal(), task.end.toordinal()
            for day, had in _by_day(setting, task.operation, span, task.person_hours):
                yield task, day, had


def _overfull_days(
    setting: ResolvedLawn, days: Sequence[int], hours: Mapping[int, float]
) -> tuple[Message, ...]:
    """The same of several days (ordinals) of a task: those on which another lawn takes of the
    hours each for itself, the others together, by the fullest of them."""
    shared = [day for day in days if setting.labour.elsewhere.taken(day) > HAIR_H]
    alone = [day for day in days if day not in shared]
    if len(alone) < 2:
        return tuple(_overfull(setting, day, hours[day]) for day in days)
    there, each = setting.labour.day_hours, setting.labour.day_hours / setting.labour.people
    most = max(hours[day] for day in alone)
    together = phrases.overfull_days(
        days=listed(Day(date.fromordinal(day), year=False) for day in alone),
        hours=Number(most, "tenth"),
        there=Number(there, "trimmed"),
        people=ceil(most / each - HAIR_H / each),
    )
    return (together, *(_overfull(setting, day, hours[day]) for day in shared))


def _overfull(setting: ResolvedLawn, day: int, hours: float) -> Message:
    """That a day (an ordinal) holds more work than hours, and how many people it takes."""
    there, each = setting.labour.day_hours, setting.labour.day_hours / setting.labour.people
    taken = setting.labour.elsewhere.taken(day)
    if taken > HAIR_H:
        return phrases.overfull_elsewhere(
            day=Day(date.fromordinal(day)),
            hours=Number(hours, "tenth"),
            taken=Number(taken, "tenth"),
            there=Number(there, "trimmed"),
            people=ceil((hours + taken) / each - HAIR_H / each),
        )
    return phrases.overfull(
        day=Day(date.fromordinal(day)),
        hours=Number(hours, "tenth"),
        there=Number(there, "trimmed"),
        people=ceil(hours / each - HAIR_H / each),
    )
