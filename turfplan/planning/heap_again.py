"""Looks at heaps again before a pass: nobody says that they are dry, or they lie longer than a heap
keeps; one that lies for months is left, and a fresh load comes."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace
from typing import TypeVar

from turfplan.planning.past_binds import SPREADING, plays
from turfplan.planning.schedule import Dated
from turfplan.records.past import TaskHistory
from turfplan.records.plan_task import Role
from turfplan.work.drafts import Draft, SeasonDraft
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.state_of_lawn import heap_keeps

HeapKnown = TypeVar("HeapKnown")
BROUGHT: tuple[Role, ...] = ("delivery",)


def looks_at_heap(setting: ResolvedLawn, draft: Draft) -> bool:
    """Whether a task looks at a load that is here, and dries it."""
    return draft.load is not None and not plays(setting.book, draft.id, BROUGHT)


def untold_heaps(
    setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory
) -> frozenset[str]:
    """The looks at heaps that are over without a word before a pass that is still to come: nobody
    knows that the mix is dry. What has not come is not looked at."""
    return frozenset(
        d.id
        for d in season.drafts
        if d.id in history.untold and looks_at_heap(setting, d) and d.load is not None
        if heap_keeps(setting, season.drafts, d.load, history) is not None
        and open_pass(setting, season, d, history) is not None
    )


def old_heaps(setting: ResolvedLawn, dated: Dated, history: TaskHistory) -> frozenset[str]:
    """The looks that are over, at heaps that lie longer by their next pass than they keep."""
    season = dated.season
    over = history.done.keys() | history.overdue.keys()
    found: set[str] = set()
    for draft in season.drafts:
        if draft.load is None or draft.id not in over or not looks_at_heap(setting, draft):
            continue
        spread = open_pass(setting, season, draft, history)
        keeps = heap_keeps(setting, season.drafts, draft.load, history)
        if spread is not None and keeps is not None and dated.day(spread.start_node) > keeps[1]:
            found.add(draft.id)
    return frozenset(found)


def heap_lasts(
    setting: ResolvedLawn, season: SeasonDraft, look: Draft, history: TaskHistory
) -> bool:
    """Whether a heap that was looked at keeps until the published day of its next pass."""
    spread = open_pass(setting, season, look, history)
    if look.load is None or look.id not in history.done or spread is None:
        return False
    keeps = heap_keeps(setting, season.drafts, look.load, history)
    day = history.published.get(spread.id)
    return keeps is not None and day is not None and day <= keeps[1]


def open_pass(
    setting: ResolvedLawn, season: SeasonDraft, look: Draft, history: TaskHistory
) -> Draft | None:
    """The first pass that is still to come, or was moved by hand, of those that a load serves."""
    over = history.done.keys() | history.overdue.keys()
    passes = (
        d
        for d in season.drafts
        if look.load in d.loads and d.id not in over and plays(setting.book, d.id, SPREADING)
    )
    return min(passes, key=lambda d: d.position, default=None)


def spoiled_loads(setting: ResolvedLawn, dated: Dated, history: TaskHistory) -> Mapping[int, int]:
    """The loads that came months before the next pass that they serve, by number with the day (an
    ordinal) on which they came: what lies in closed bags, or on ground without grass, keeps."""
    if setting.on_open_ground:
        return {}
    most = setting.days("order.storage_most")
    return {
        load: came for load, came, day in _waiting(setting, dated, history) if day - came > most
    }


def _waiting(
    setting: ResolvedLawn, dated: Dated, history: TaskHistory
) -> Iterator[tuple[int, int, int]]:
    """The number of each heap, the day on which it came, and that of its next pass."""
    season = dated.season
    for load in season.loads:
        keeps = heap_keeps(setting, season.drafts, load.number, history)
        look = next((d for d in season.drafts if d.load == load.number), None)
        if load.bags or keeps is None or look is None:
            continue
        spread = open_pass(setting, season, look, history)
        if spread is not None and spread.id not in history.part_done:
            yield load.number, keeps[0], dated.day(spread.start_node)


def as_if_open(history: TaskHistory, names: Collection[str]) -> TaskHistory:
    """History in which some tasks were not done."""
    return replace(
        history,
        done=_less(history.done, names),
        part_done=_less(history.part_done, names),
        actual=_less(history.actual, names),
        overdue=_less(history.overdue, names),
        because=_less(history.because, names),
    )


def _less(known: Mapping[str, HeapKnown], names: Collection[str]) -> dict[str, HeapKnown]:
    return {name: value for name, value in known.items() if name not in names}
