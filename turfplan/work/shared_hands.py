"""Keeps work off the days whose hours the same hands have promised to other lawns."""

from collections.abc import Iterator, Sequence
from typing import Final

from turfplan.phrases import season as phrases
from turfplan.records.constraints import Allowed, DaySet, Reason, Strength
from turfplan.work.days_off import days_of
from turfplan.work.drafts import Draft, on_a_pass
from turfplan.work.lawn import ResolvedLawn, without

# Hours are told in halves: less than a quarter of one is no reason to move a task.
HAIR_H: Final = 0.25
ELSEWHERE: Final = "elsewhere"


def is_counted(setting: ResolvedLawn, operation: str) -> bool:
    """Whether an operation takes hours of those at work: a household keeps its own for what a
    contractor leaves to it.
    """
    entry = setting.book.operations.get(operation)
    return setting.brief.work.by != "contractor" or (entry is not None and entry.hired)


def hours_kept(setting: ResolvedLawn, drafts: Sequence[Draft]) -> Iterator[Allowed]:
    """The days that leave each job the hours that it takes.

    A job that leads others through their day needs the hours of all of them. How people divide
    their days gives way to what the grass needs, and then the plan says that the day is too full.
    """
    if not setting.labour.elsewhere.hours:
        return
    for draft in drafts:
        need = _need_h(setting, draft, drafts)
        if need <= HAIR_H:
            continue
        full = {
            day
            for day, _ in setting.labour.elsewhere.hours
            if need > setting.labour.hours_left(day) + HAIR_H
        }
        if not full:
            continue
        reason = Reason("work.hours_elsewhere", phrases.hours_elsewhere())
        for node, closed in _nodes(setting, draft, full):
            spans = [(day, day) for day in closed]
            free = without(DaySet.of([(setting.first_day, setting.last_day)]), spans)
            yield Allowed(f"{ELSEWHERE}:{node}", node, free, Strength.ADVICE, reason)


def _need_h(setting: ResolvedLawn, draft: Draft, drafts: Sequence[Draft]) -> float:
    """The hours that a job needs on each of its days, with what shares them; never more than a
    whole day, which fits on one without other work."""
    if not is_counted(setting, draft.operation) or (draft.beside and not on_a_pass(draft)):
        return 0.0
    with_it = [
        other
        for other in drafts
        if other.id != draft.id
        and is_counted(setting, other.operation)
        and (
            other.beside == draft.id
            or (
                draft.operation == "topdress"
                and other.operation in ("incorporate", "mow")
                and other.position == draft.position
                and other.session == draft.session
            )
        )
    ]
    hours = sum(job.person_hours / max(1, job.duration_days) for job in (draft, *with_it))
    return min(hours, setting.labour.day_hours)


def _nodes(setting: ResolvedLawn, draft: Draft, full: set[int]) -> Iterator[tuple[str, set[int]]]:
    """The first and the last day of a job, each with the days that it may not take so that none of
    its working days is full."""
    if draft.duration_days <= 1:
        yield draft.start_node, full
        return
    days = days_of(setting, draft).days()
    places = {day: place for place, day in enumerate(days)}
    more, last = draft.duration_days - 1, len(days) - 1
    hit = sorted(places[day] for day in full if day in places)
    begins = {at for place in hit for at in range(max(0, place - more), place + 1)}
    ends = {at for place in hit for at in range(place, min(last, place + more) + 1)}
    yield draft.start_node, {days[at] for at in begins}
    yield draft.end_node, {days[at] for at in ends}
