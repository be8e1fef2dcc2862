"""Loads that have spoiled: they are written off, and the season is planned as if they had never
come, so that a fresh one is asked for under numbers of its own."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date

from turfplan.message import Day
from turfplan.phrases import order as phrases
from turfplan.planning.candidates import Candidate
from turfplan.planning.heap_again import BROUGHT, spoiled_loads
from turfplan.planning.ordered_before import DELIVERY, ORDER, numbers_of
from turfplan.planning.past_binds import SPREADING, plays
from turfplan.planning.plan_sources import SoFar
from turfplan.records.days_before import days_given_back
from turfplan.records.numbering import feed_id, rules_id
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan, Retired
from turfplan.work.drafts import Draft, SeasonDraft
from turfplan.work.lawn import ResolvedLawn


def with_spoiled_written_off(
    so_far: SoFar, candidate: Candidate, history: TaskHistory, today: date
) -> SoFar | None:
    """What is known without the loads that will have spoiled by their next pass, as a way on has
    it; None where none has.

    Their tasks stay in the feed as they were done, and the rules know them no more.
    """
    previous = so_far.previous
    spoiled = spoiled_loads(candidate.setting, candidate.dated, history)
    if previous is None or not spoiled:
        return None
    retired = {r.id for r in previous.retired}
    off = written_off(candidate.season, history, spoiled)
    names = {feed_id(name, retired): history.actual.get(name) for name in off}
    # What was taken as done a moment ago, and nobody said so, is simply still to do.
    known = {t.id for t in previous.tasks if t.closed == "done"}
    done = [n for n, actual in names.items() if n in known or actual is not None]
    if not done:
        return None
    new = (Retired(id=n, on=today, stays=True, actual=names[n]) for n in sorted(done))
    before = previous.model_copy(update={"retired": (*previous.retired, *new)})
    return replace(so_far, previous=before)


def written_off(
    season: SeasonDraft, history: TaskHistory, spoiled: Mapping[int, int]
) -> frozenset[str]:
    """What was done for loads that have spoiled, and has been for nothing: bringing and looking at
    them and, where nothing else came of their order, asking for them. `spoiled` has by load
    the day (an ordinal) on which it came."""
    names = {d.id for d in season.drafts if d.load in spoiled}
    for order in season.drafts:
        asked = history.done.get(order.id)
        if asked is None or not order.id.startswith(ORDER) or not order.loads:
            continue
        # An order that brought anything that is of use stays: what comes anew has its own.
        if all(asked <= spoiled.get(number, asked - 1) for number in order.loads):
            names.add(order.id)
    return frozenset(names & history.done.keys())


def spoiled_before(previous: Plan | None) -> dict[int, int]:
    """The loads that a plan has written off, by number with the day (an ordinal) on which the last
    one of that number came."""
    if previous is None:
        return {}
    stay = {r.id for r in previous.retired if r.stays}
    found: dict[int, int] = {}
    for task in previous.tasks:
        # Whatever the feed called it when it came.
        named = rules_id(task.id, ()) or "" if task.id in stay else ""
        came = task.actual.end if task.actual is not None else task.end
        for number in numbers_of(named, DELIVERY):
            found[number] = max(found.get(number, 0), came.toordinal())
    return found


def with_plans_before(history: TaskHistory, so_far: SoFar) -> TaskHistory:
    """History with the loads that the plan before has written off and, where an entry was taken
    back, with the days that it had moved as they were promised before it."""
    history = replace(history, spoiled=spoiled_before(so_far.previous))
    days = days_given_back(so_far.previous, so_far.journal)
    if days is None:
        return history
    retired = {r.id for r in so_far.retired}
    promised = ((rules_id(name, retired), day.toordinal()) for name, day in days.items())
    published = {n: day for n, day in promised if n is not None and n in history.published}
    return replace(history, published={**published, **history.booked})


def with_spoiled_told(
    setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory
) -> SeasonDraft:
    """A season in which a fresh load says what becomes of the one that came before, and is ordered
    in time for its own day."""
    spoiled = history.spoiled
    if not spoiled:
        return season
    brought = {d.load: d for d in season.drafts if plays(setting.book, d.id, BROUGHT)}
    fresh = spoiled.keys() & brought.keys()

    def told(draft: Draft) -> Draft:
        if draft.id in history.fixed or plays(setting.book, draft.id, SPREADING):
            return draft
        if draft.load is not None:
            if draft.load not in fresh or brought[draft.load] is not draft:
                return draft
            on = Day(date.fromordinal(spoiled[draft.load]))
            return replace(draft, cautions=(phrases.spoiled(on=on), *draft.cautions))
        asked = min(fresh & set(draft.loads), default=None)
        return draft if asked is None else replace(draft, anchor=brought[asked].id, ideal=None)

    return replace(season, drafts=tuple(map(told, season.drafts)))
