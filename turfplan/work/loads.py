"""How the mix is divided into loads, so that none is older than a heap may be when it is spread.

A load serves the passes that follow each other within its storage limit. Where a single pass takes
longer than that, it has several loads, each for some of its strips. One order asks for the loads of
a session, each on its own day; what is too little for a truck is fetched in bags.
"""

import itertools
from collections import defaultdict
from collections.abc import Mapping, Sequence
from statistics import median_high

from turfplan.allotment import allotted
from turfplan.phrases import strips as phrases
from turfplan.reckoned_once import reckoned_once
from turfplan.records.constraints import DaySet, DayStep, Lag, Reason, Strength, TableStep
from turfplan.units import told_step_m3
from turfplan.work.bags import bagged
from turfplan.work.campaigns import Campaign, Session
from turfplan.work.days_off import days_for
from turfplan.work.drafts import Draft, Load
from turfplan.work.heap import heap_room_m3
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.ordered_loads import with_orders_kept

WEEK = 7


def loads_of(
    setting: ResolvedLawn,
    campaign: Campaign,
    loose_m3: Mapping[int, float],
    drafts: Sequence[Draft],
    spacing_days: Mapping[int, int],
) -> tuple[Load, ...]:
    """The loads of a campaign in order of use.

    `loose_m3` is what each pass takes, `spacing_days` the wished distance of passes by session.
    """
    days = defaultdict(
        lambda: 1, {d.position: d.duration_days for d in drafts if d.operation == "topdress"}
    )
    found: list[Load] = []
    for session in campaign.sessions:
        order, own = len(found) + 1, list[Load]()
        together = _together(setting, session, days, spacing_days[session.number], loose_m3)
        for passes in together:
            parts = [(1, days[passes[0]])]
            if len(passes) == 1 and days[passes[0]] > 1:
                parts = _parts(setting, session, days[passes[0]], loose_m3[passes[0]])
            whole = sum(loose_m3[p] for p in passes)
            strips = [whole * (last - first + 1) / days[passes[0]] for first, last in parts]
            volumes = (
                allotted(strips, told_step_m3(setting.system), whole)
                if len(parts) > 1
                else (whole,)
            )
            for (first, last), volume in zip(parts, volumes, strict=True):
                part = (first, last) if len(parts) > 1 else None
                number = order + len(own)
                own.append(Load(number, session.number, passes, volume, part, order))
        found += bagged(setting, own)
    return with_orders_kept(found, setting.ordered, setting.book.si("order.call_least"))


def _together(
    setting: ResolvedLawn,
    session: Session,
    days: Mapping[int, int],
    spacing: int,
    loose_m3: Mapping[int, float],
) -> list[tuple[int, ...]]:
    """The passes of a session in groups that one load can serve: within its storage limit, and
    where there is room for it."""
    if setting.on_open_ground:
        # Soil for lifts is not kept dry, and lies until it is used.
        return [tuple(layer.number for layer in session.passes)]
    room = setting.days("order.storage_days") - setting.days("order.dry_reserve") - WEEK
    most_m3 = heap_room_m3(setting)
    groups: list[tuple[int, ...]] = []
    for layer in session.passes:
        one_day = all(days[n] == 1 for n in (*(groups[-1] if groups else ()), layer.number))
        in_all = sum(loose_m3[n] for n in (*(groups[-1] if groups else ()), layer.number))
        fits = most_m3 is None or in_all <= most_m3
        if groups and one_day and fits and spacing * len(groups[-1]) <= room:
            groups[-1] = (*groups[-1], layer.number)
        else:
            groups.append((layer.number,))
    return groups


def _parts(
    setting: ResolvedLawn, session: Session, strips: int, loose_m3: float
) -> list[tuple[int, int]]:
    """The strips of one pass by load, first and last of each: no load is older than a heap may be,
    nor larger than there is room for."""
    each = max(1, _strips_of_a_load(setting, session))
    if most_m3 := heap_room_m3(setting):
        each = max(1, min(each, int(most_m3 * strips / loose_m3)))
    count = -(-strips // each)
    ends = [round(strips * k / count) for k in range(count + 1)]
    return [(a + 1, b) for a, b in itertools.pairwise(ends)]


def _strips_of_a_load(setting: ResolvedLawn, session: Session) -> int:
    """How many working days one heap lasts before it is too old, on half of the days of the season
    or more: the pass then begins on one of those.
    """
    return _days_of_a_heap(
        setting.calendar.machines,
        setting.calendar.deliveries,
        max(session.window.start.toordinal(), setting.first_day),
        session.window.end.toordinal(),
        setting.days("order.dry_reserve"),
        setting.days("order.storage_days"),
    )


@reckoned_once
def _days_of_a_heap(
    work: DaySet, brought: DaySet, first: int, end: int, reserve: int, most: int
) -> int:
    """The same of a season from its `first` day to its `end`: of a heap that is brought `reserve`
    days ahead and is `most` days old at the end.
    """
    counts = []
    for day in range(first, end + 1):
        came = brought.previous(day - reserve) if day in work else None
        if came is not None:
            counts.append(sum(1 for later in range(day, came + most + 1) if later in work))
    return median_high(counts) if counts else 1


def load_lags(setting: ResolvedLawn, drafts: Sequence[Draft], loads: Sequence[Load]) -> list[Lag]:
    """A load that serves some strips of a pass comes before the first, fresh for the last."""
    by_id = {draft.id: draft for draft in drafts}
    lags: list[Lag] = []
    for load in loads:
        spread, came = (
            by_id.get(f"topdress.{load.passes[0]}"),
            by_id.get(f"delivery.{load.number}"),
        )
        if load.strips is None or spread is None or came is None:
            continue
        days = setting.calendar.machines if spread.heard else days_for(setting, "topdress")
        least, most = _steps(setting, days, *load.strips)
        reason = Reason(
            "load_for_strips",
            phrases.load_for_strips(),
            ("order.dry_reserve", "order.storage_days"),
        )
        kept = by_id.get(f"dry_material.{load.number}")
        if kept is not None:
            soon, name = DayStep(1), f"kept_dry_at_once:{kept.id}"
            ends = came.end_node, kept.start_node
            lags.append(Lag(name, *ends, Strength.ADVICE, reason, maximum=soon))
        lags.append(
            Lag(
                f"load_for_strips:{came.id}",
                came.end_node,
                spread.start_node,
                Strength.HARD,
                reason,
                least,
                most,
                alongside=load.strips[0] > 1,
            )
        )
    return lags


def _steps(
    setting: ResolvedLawn, days: DaySet, first: int, last: int
) -> tuple[TableStep, TableStep]:
    """From the day of a delivery to the first and the last day on which its pass may begin."""
    kept = setting.days("order.dry_reserve"), setting.days("order.storage_days")
    return _steps_between(days, setting.first_day, setting.last_day, *kept, first, last)


@reckoned_once
def _steps_between(
    days: DaySet, first_day: int, last_day: int, reserve: int, most: int, first: int, last: int
) -> tuple[TableStep, TableStep]:
    """The same for deliveries between two days, of a heap that comes `reserve` days ahead and keeps
    for `most`: every way to fill the lawn has these in common."""
    members = days.days()
    # Days of work may reach beyond the plan on either side: the tables go on as they do.
    before = min(first_day, members[0] if members else first_day) - 1
    after = max(last_day, members[-1] if members else last_day) + 1
    earliest: list[int] = []
    latest: list[int] = []
    low = high = 0
    for day in range(first_day, last_day + 1):
        while low + first - 1 < len(members) and members[low + first - 1] < day + reserve:
            low += 1
        while high + last - 1 < len(members) and members[high + last - 1] <= day + most:
            high += 1
        beyond = low + first - 1 >= len(members)
        earliest.append(after if beyond else members[low])
        latest.append(members[high - 1] if high else before)
    return TableStep(first_day, tuple(earliest)), TableStep(first_day, tuple(latest))
