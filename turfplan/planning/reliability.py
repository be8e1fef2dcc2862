"""Asks real years about the dates of a plan.

Which of near-equal days to wish for, and how often each would have worked.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date

from turfplan.message import Day, Message, listed, sentences
from turfplan.network import Conflict
from turfplan.phrases import real_years as phrases
from turfplan.planning.rain_chances import dry_weeks
from turfplan.planning.schedule import Dated
from turfplan.records.plan_task import Role, Task
from turfplan.records.plan_years import YearsWorked
from turfplan.work.drafts import Draft, OpenDays, SeasonDraft
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.real_years import RealYears, Tally

MAIN: tuple[Role, ...] = ("coring", "spreading", "sowing", "planting")


def sturdier(
    setting: ResolvedLawn,
    season: SeasonDraft,
    dated: Dated,
    again: Callable[[SeasonDraft], Dated | Conflict],
) -> tuple[SeasonDraft, Dated]:
    """The season some days earlier or later where it would have gone well in clearly more years.

    Every shift of the wished days within `real_years.near_days` is tried, the smallest first; a
    dating that gives up more rules is none.
    """
    record = setting.openings.record
    if record is None:
        return season, dated
    near, margin = (
        round(setting.book.si("real_years.near_days")),
        setting.book.si("real_years.margin"),
    )
    best, best_share = (season, dated), _share(setting, record, dated) + margin
    for shift in sorted((s for s in range(-near, near + 1) if s), key=lambda s: (abs(s), s)):
        moved = replace(
            season, drafts=tuple(_shifted(setting, draft, shift) for draft in season.drafts)
        )
        answer = again(moved)
        if isinstance(answer, Conflict) or len(answer.dropped) > len(dated.dropped):
            continue
        share = _share(setting, record, answer)
        if share > best_share + 1e-9 or (best[0] is season and share > best_share - 1e-9):
            best, best_share = (moved, answer), share
    return best


def _shifted(setting: ResolvedLawn, draft: Draft, days: int) -> Draft:
    if draft.ideal is None or not _is_main(setting, draft):
        return draft
    return replace(draft, ideal=draft.ideal + days)


def _is_main(setting: ResolvedLawn, draft: Draft) -> bool:
    return setting.book.operations[draft.operation].plays(*MAIN)


def _share(setting: ResolvedLawn, record: RealYears, dated: Dated) -> float:
    """The mean share of years in which the main work would have gone well on its days."""
    shares = []
    for draft in dated.season.drafts:
        if _is_main(setting, draft):
            first, last = (
                date.fromordinal(dated.day(node)) for node in (draft.start_node, draft.end_node)
            )
            window = window_of(setting, draft.operation, first)
            shares.append(
                record.tally(draft.operation, window.rule if window else "", first, last).share
            )
    return sum(shares) / len(shares) if shares else 0.0


def window_of(setting: ResolvedLawn, operation: str, day: date) -> OpenDays | None:
    """The window of an operation that a day lies in."""
    return next((w for w in setting.open(operation) if w.start <= day <= w.end), None)


def judged(setting: ResolvedLawn, tasks: Sequence[Task]) -> tuple[YearsWorked, ...]:
    """For every open task with conditions that years can tell.

    In how many the day would have worked, and why not in the others.
    """
    record = setting.openings.record
    if record is None:
        return ()
    judgements = []
    for task in tasks:
        window = window_of(setting, task.operation, task.start)
        rule = window.rule if window is not None else ""
        past = task.closed is not None or task.status == "CANCELLED"
        if past or task.series is not None or not (rule or record.asks(task.operation)):
            continue
        tally = record.tally(task.operation, rule, task.start, task.end)
        judgements.append(
            YearsWorked(
                task=task.id,
                years=tally.years,
                worked=tally.worked,
                reason=_reason(setting, record, tally, task),
            )
        )
    return tuple(judgements)


def _reason(setting: ResolvedLawn, record: RealYears, tally: Tally, task: Task) -> Message:
    """How often each condition held, when the window opened in eight years of ten, and how many of
    its weeks were dry enough for a pass."""
    window = window_of(setting, task.operation, task.start)
    told = _counted(record, tally, "" if window is None else window.rule, task)
    weeks = dry_weeks(setting, record, task)
    return told if weeks is None else sentences(told, weeks)


def _counted(record: RealYears, tally: Tally, rule: str, task: Task) -> Message:
    spread = record.spread(rule, task.start.year) if rule else None
    if spread is None or spread.start is None or spread.end is None:
        return phrases.told(years=record.labels, tally=tally.message)
    return phrases.told_with_window(
        years=record.labels,
        tally=tally.message,
        opened=listed(Day(day) for day in spread.start),
        closed=listed(Day(day) for day in spread.end),
    )
