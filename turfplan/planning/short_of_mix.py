"""What the loads that are here or ordered lack of the mix, and which pass is short of it: it is
fetched for that pass, once, and no later load grows for it."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Final

from turfplan.records.past import TaskHistory
from turfplan.work.drafts import Draft, Load

# Less than a handful is no difference.
LEAST_M3 = 0.001
# The trip on which more mix is fetched; later ones are numbered from 2.
MORE_MIX: Final = "collect.mix"


def is_more(task: str) -> bool:
    """Whether a trip fetches what is short of the mix."""
    return f"{task}.".startswith(f"{MORE_MIX}.")


def logged_m3(task: str, history: TaskHistory) -> float | None:
    """The volume that was logged of a task; None where none is."""
    if task not in history.actual:
        return None
    volumes = [amount.value for amount in history.actual[task].amounts if amount.unit == "m3"]
    return sum(volumes) if volumes else None


def shared_out(
    balance: Mapping[int, float], here: Collection[int]
) -> tuple[dict[int, float], dict[int, float]]:
    """What each load lacks, and what each has over, once loads that are `here`, or come earlier,
    have given what they have over to those that lack it."""
    over = {n: m3 for n, m3 in balance.items() if m3 > 0}
    lacks: dict[int, float] = {}
    for number in sorted(n for n, m3 in balance.items() if m3 < 0):
        missing = -balance[number]
        for giver in sorted(n for n in over if n < number or n in here):
            given = min(over[giver], missing)
            over[giver] -= given
            missing -= given
        if missing > LEAST_M3:
            lacks[number] = missing
    return lacks, over


def still_lacking(
    lacks: Mapping[int, float],
    drafts: Sequence[Draft],
    loads: Sequence[Load],
    history: TaskHistory,
) -> dict[int, float]:
    """What loads lack that have a pass to come: what was spread without them came from elsewhere. A
    trip of which nothing says how much it fetched brought all that they lacked on its day."""
    left = dict(lacks)
    for trip, day in sorted(_trips(history), key=lambda one: (one[1], one[0])):
        if _fetched_m3(trip, history) is not None:
            continue
        for number in sorted(left):
            if not _was_short(number, day, drafts, loads, history):
                continue
            left[number] = 0.0
    wanted = {n for n in left if _unknown(n, loads) or open_passes(n, drafts, loads, history)}
    return {n: m3 for n, m3 in left.items() if m3 > LEAST_M3 and n in wanted}


def open_passes(
    number: int, drafts: Sequence[Draft], loads: Sequence[Load], history: TaskHistory
) -> list[Draft]:
    """The passes of a load that are still to come, in their order."""
    over = history.fixed.keys() - history.held.keys() | history.done.keys() | history.left_out
    served = {n for load in loads if load.number == number for n in load.passes}
    found = (d for d in drafts if d.position in served and d.id not in over)
    return sorted(found, key=lambda d: d.position)


def short_passes(
    lacks: Mapping[int, float],
    drafts: Sequence[Draft],
    loads: Sequence[Load],
    history: TaskHistory,
) -> dict[int, list[Draft]]:
    """The passes of each load that lacks mix for which its heap does not last, in their order."""
    found = {}
    for number, missing in lacks.items():
        coming = open_passes(number, drafts, loads, history)
        first, tail = len(coming), 0.0
        while first > 0 and tail < missing - LEAST_M3:
            first -= 1
            tail += coming[first].loose_m3
        found[number] = coming[first:]
    return found


def _trips(history: TaskHistory) -> Iterator[tuple[str, int]]:
    """The trips for more mix that were made, each with its day."""
    return ((name, day) for name, day in history.done.items() if is_more(name))


def fetched_by_load(
    more: Mapping[int, float],
    drafts: Sequence[Draft],
    loads: Sequence[Load],
    history: TaskHistory,
) -> dict[int, float]:
    """What trips brought for the loads that were known to be short on their day: each what it
    lacked (`more` below zero), the last of them what is left."""
    found: dict[int, float] = {}
    for trip, day in sorted(_trips(history), key=lambda one: (one[1], one[0])):
        fetched = _fetched_m3(trip, history) or 0.0
        short = [n for n in sorted(more) if _was_short(n, day, drafts, loads, history)]
        short = [n for n in short if more[n] < 0] or short or sorted(more)[-1:]
        for number in short:
            lacking = max(0.0, -more[number] - found.get(number, 0.0))
            given = fetched if number == short[-1] else min(lacking, fetched)
            found[number] = found.get(number, 0.0) + given
            fetched -= given
    return found


def _fetched_m3(trip: str, history: TaskHistory) -> float | None:
    """What a trip fetched, as logged, else as it was planned."""
    logged = logged_m3(trip, history)
    return history.planned_m3.get(trip) if logged is None else logged


def _unknown(number: int, loads: Sequence[Load]) -> bool:
    return all(load.number != number for load in loads)


def _was_short(
    number: int,
    day: int,
    drafts: Sequence[Draft],
    loads: Sequence[Load],
    history: TaskHistory,
) -> bool:
    """Whether a load was here or ordered on a day, with a pass that was not spread before it."""
    orders = {load.number: load.order for load in loads}
    names = (f"delivery.{number}", f"order_material.{orders.get(number, number)}")
    known = min((history.done[name] for name in names if name in history.done), default=day)
    if known > day or _unknown(number, loads):
        return known <= day
    come = history.done.get(f"delivery.{number}", known)
    served = {n for load in loads if load.number == number for n in load.passes}
    passes = [d for d in drafts if d.position in served]
    return come <= day and any(history.done.get(d.id, day) >= day for d in passes)
