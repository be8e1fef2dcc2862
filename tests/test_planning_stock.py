"""What is still to be ordered follows what was ordered, delivered and used."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from test_seasons import Season, begun, done_until
from told import told
from turfplan.message import as_written
from turfplan.planning.stock import (
    Stock,
    is_under_way,
    needed_m3,
    skipped_passes,
    stock_of,
    wanted_loads,
)
from turfplan.records.past import TaskHistory
from turfplan.records.plan import OrderLine
from turfplan.records.plan_task import Amount, WhatHappened
from turfplan.work.drafts import Draft, Load
from turfplan.work.season import FillVolumes

DEEP = {"leveling": {"depth": "0.75 in"}}


def mixes(season: Season) -> list[OrderLine]:
    """The lines of mix that are still to be bought."""
    return [line for line in season.plan.order if line.item == "mix"]


@pytest.fixture
def season() -> Season:
    """Two sessions of passes, each with an order of its own; everything before the first delivery
    is done.
    """
    season = begun(DEEP)
    assert len(mixes(season)) == 2
    done_until(season, season.day("delivery.1"))
    return season


def load(number: int, m3: float, *, passes: tuple[int, ...] = (), order: int | None = None) -> Load:
    """A load of the first session."""
    return Load(number, 1, passes or (number,), m3, None, order or number)


def past(**done: float | None) -> TaskHistory:
    """What is done, with its volume; of a name the last `_` stands for a dot."""
    names = {".".join(name.rsplit("_", 1)): m3 for name, m3 in done.items()}
    day = date(2027, 5, 1)
    actual = {
        name: WhatHappened(
            start=day, end=day, amounts=(Amount.of("used", m3, "m3", as_written("")),)
        )
        for name, m3 in names.items()
        if m3 is not None
    }
    return TaskHistory(done=dict.fromkeys(names, day.toordinal()), actual=actual)


def test_the_last_load_is_for_the_touch_up_too() -> None:
    """None where there is none."""
    volumes = FillVolumes({1: 1.0, 2: 2.0}, 0.0, 0.5)
    assert needed_m3([load(1, 1.0), load(2, 2.0)], volumes) == {1: 1.0, 2: 2.5}
    assert needed_m3([], volumes) == {}


def test_skipped_passes_are_those_of_either_kind() -> None:
    """Lifts on bare ground and passes over turf."""
    history = TaskHistory(skipped=frozenset({"topdress.1", "fill.3", "mow.2"}))
    volumes = FillVolumes({1: 1.0, 2: 1.0, 3: 1.0}, 0.0, 0.0)
    assert skipped_passes(volumes, history) == {1, 3}


def test_what_skipped_passes_take_is_not_wanted_unless_it_was_ordered() -> None:
    """By the share of their volume; what is under way comes whole."""
    volumes = FillVolumes({1: 1.0, 2: 3.0}, 0.0, 0.0)
    both = load(1, 8.0, passes=(1, 2))
    assert [one.loose_m3 for one in wanted_loads([both], volumes, past(), {1})] == [6.0]
    assert wanted_loads([both], volumes, past(), {1, 2})[0].loose_m3 == 0
    for done in ("order_material_1", "delivery_1"):
        assert wanted_loads([both], volumes, past(**{done: None}), {1}) == (both,)
    empty = FillVolumes({1: 0.0}, 0.0, 0.0)
    assert wanted_loads([load(1, 8.0)], empty, past(), {1})[0].loose_m3 == 8.0
    shared = load(2, 8.0, order=1)
    assert is_under_way(shared, past(order_material_1=None))
    assert not is_under_way(shared, past(order_material_2=None))


NEEDED, ORDERED = {1: 2.9, 2: 1.9}, {1: 3.0, 2: 2.0}


def left_to_order(*drafts: Draft, loads: Any = (), **done: float | None) -> Any:
    """More by load, and what is short."""
    found = stock_of(NEEDED, ORDERED, drafts, past(**done), loads)
    return {n: round(m, 6) for n, m in found.more.items()}, round(found.short_m3, 6)


def test_what_came_as_ordered_changes_nothing() -> None:
    """To a litre."""
    assert left_to_order() == ({}, 0)
    assert left_to_order(delivery_1=None) == left_to_order(delivery_1=3.0) == ({}, 0)
    assert left_to_order(delivery_1=3.0009) == ({}, 0)
    assert left_to_order(order_material_1=3.0) == ({}, 0)


def test_what_came_beyond_makes_the_next_order_smaller() -> None:
    """By no more than that needs."""
    assert left_to_order(delivery_1=3.5) == ({1: 0.6, 2: -0.5}, 0)
    assert left_to_order(delivery_1=9.0) == ({1: 6.1, 2: -1.9}, 0)
    assert left_to_order(delivery_1=3.5, delivery_2=2.0) == ({1: 0.6}, 0)


def test_what_is_short_beyond_the_rounding_is_fetched() -> None:
    """A tenth was rounded up; no later order grows for it."""
    assert left_to_order(delivery_1=2.9) == ({1: 0.0}, 0)
    assert left_to_order(delivery_1=2.5) == ({1: -0.4}, 0.4)
    assert left_to_order(delivery_1=2.5, delivery_2=2.0) == ({1: -0.4}, 0.3)


def test_what_a_pass_took_beyond_its_plan_is_missing() -> None:
    """By the part of it that was done; without a volume nothing is known."""
    spread = Draft("topdress.1", "topdress", "level", as_written(""), 1, loose_m3=1.0)
    assert left_to_order(spread, delivery_1=None, topdress_1=1.5) == ({}, 0.4)
    assert left_to_order(spread, delivery_1=None, topdress_1=0.5) == ({2: -0.5}, 0)
    assert left_to_order(spread, delivery_1=None, topdress_1=None) == ({}, 0)
    unplanned = replace(spread, loose_m3=0.0)
    assert left_to_order(unplanned, delivery_1=None, topdress_1=1.5) == ({}, 0)
    day = date(2027, 5, 1)
    half = WhatHappened(
        start=day, end=day, share=0.5, amounts=(Amount.of("used", 1.0, "m3", as_written("")),)
    )
    history = replace(past(delivery_1=None), actual={"topdress.1": half})
    found = stock_of(NEEDED, ORDERED, [spread], history)
    assert found.more == {} and found.short_m3 == pytest.approx(0.4)


def test_loads_of_one_order_share_what_was_logged_of_it() -> None:
    """By what each was to bring."""
    both = [load(1, 3.0), load(2, 2.0, order=1)]
    found = left_to_order(loads=both, order_material_1=10.0)
    assert found == ({1: 3.1, 2: 2.1}, 0)
    assert left_to_order(loads=both, order_material_1=5.0) == ({}, 0)
    assert left_to_order(loads=both, order_material_1=5.0, delivery_1=3.5)[0] == {1: 0.6}


@pytest.mark.full
def test_what_has_come_is_not_ordered_again(season: Season) -> None:
    """A delivered line leaves the order; the other stays as it was to the last digit."""
    _, second = mixes(season)
    day = season.day("delivery.1")
    season.log("delivered", task="delivery.1", on=day)
    season.make(day)
    (left,) = mixes(season)
    assert (left.value, left.reason) == (
        second.value,
        second.reason,
    ) and left.deliver_by == second.deliver_by


@pytest.mark.full
def test_more_came(season: Season) -> None:
    """What came beyond the first order is left out of the second; task, title and change say so."""
    first, second = mixes(season)
    day = season.day("delivery.1")
    season.log("delivered", task="delivery.1", on=day, amount=first.value + 1.5, unit="m3")
    season.make(day)
    (left,) = mixes(season)
    assert second.value - left.value == pytest.approx(1.5, abs=0.35)
    assert "less" in told(left.reason)
    order = season.plan.task("order_material.2")
    assert (
        order is not None
        and next(a for a in order.amounts if a.item == "volume").value == left.value
    )
    assert (
        order.published is not None
        and order.change is not None
        and told(order.change).startswith("was ")
    )
    assert any(c.task == "order_material.2" and c.kind == "amount" for c in season.plan.changes)
    assert sum(part.value for part in left.parts) == pytest.approx(left.value)


@pytest.mark.full
def test_what_is_here_already_is_not_ordered(season: Season) -> None:
    """When the first load holds all that is needed, the second is neither ordered nor received:
    both leave the feed, with a reason.
    """
    first, second = mixes(season)
    day = season.day("delivery.1")
    season.log(
        "delivered", task="delivery.1", on=day, amount=first.value + second.value + 0.5, unit="m3"
    )
    season.make(day)
    assert not mixes(season)
    for name in ("order_material.2", "delivery.2"):
        task = season.plan.task(name)
        assert task is not None and task.status == "CANCELLED" and task.closed == "dropped"
        assert any(
            c.task == name and c.kind == "dropped" and c.because for c in season.plan.changes
        )
    left = [t for t in season.plan.tasks if t.status != "CANCELLED"]
    assert not any(" 0 " in told(t.title) for t in left)
    assert not any("delivery.2" in t.depends_on for t in left)
    spread = season.plan.task("topdress.2")
    assert spread is not None and spread.status == "NEEDS-ACTION"


@pytest.mark.full
@pytest.mark.parametrize("factor", [1.4, 0.6])
def test_a_pass_takes_more_or_less(season: Season, factor: float) -> None:
    """What lies there beyond the plan of a pass the next one needs no more, and what is left of a
    load is not ordered again; also where it was logged in two parts.
    """
    _, second = mixes(season)
    day = season.day("topdress.1")
    done_until(season, day)
    season.make(day)
    task = season.plan.task("topdress.1")
    assert task is not None
    planned = next(a.value for a in task.amounts if a.item == "volume")
    for part in (0.4, 0.6):
        season.log(
            "done", task="topdress.1", on=day, share=part, amount=planned * factor * part, unit="m3"
        )
    season.make(day + timedelta(days=1))
    (left,) = mixes(season)
    assert second.value - left.value == pytest.approx(0.4 * planned, abs=0.35)


@pytest.mark.full
def test_short_with_no_order_left(season: Season) -> None:
    """When the last load is short, what is missing is a line of its own, fetched before the next
    open pass.
    """
    for number in (1, 2):
        day = season.day(f"delivery.{number}")
        done_until(season, day)
        line = mixes(season)[0]
        season.log(
            "delivered",
            task=f"delivery.{number}",
            on=day,
            amount=line.value - (2.0 if number == 2 else 0),
            unit="m3",
        )
        season.make(day + timedelta(days=1))
    (left,) = mixes(season)
    assert 1.2 <= left.value <= 2.4 and "less came" in told(left.reason)
    assert left.tasks == ("collect.mix",) and left.deliver_by <= min(
        t.start for t in season.plan.tasks if t.operation == "topdress" and t.closed is None
    )


@pytest.mark.full
@pytest.mark.parametrize(("short_m3", "more"), [(0.002, False), (0.1, True)])
def test_rounding_up_covers_a_little(season: Season, short_m3: float, more: bool) -> None:
    """What is short by less than the rounding is not fetched; the next order stays as it was."""
    first, second = mixes(season)
    day = season.day("delivery.1")
    need = sum(
        a.value
        for t in season.plan.tasks
        if t.operation == "topdress"
        for a in t.amounts
        if a.item == "volume" and t.start < second.order_by
    )
    assert need <= first.value
    season.log("delivered", task="delivery.1", on=day, amount=need - short_m3, unit="m3")
    season.make(day)
    left = {line.tasks[0]: line.value for line in mixes(season)}
    assert left["order_material.2"] == second.value and ("collect.mix" in left) is more


@pytest.mark.full
@pytest.mark.parametrize(("missing_mm", "sign"), [(6.0, 1), (0.0, -1)])
def test_depth_still_missing_sets_the_touch_up(missing_mm: float, sign: int) -> None:
    """Measured after the last pass, what is still missing is the depth of the touch-up; nothing
    missing cancels it.
    """
    season = begun()
    day = season.day("settle_check")
    done_until(season, day)
    season.make(day)
    before = season.plan.task("touch_up")
    assert before is not None
    season.log("done", task="settle_check", on=day)
    season.log("measured", quantity="depth_missing", value=missing_mm, unit="mm", on=day)
    season.make(day + timedelta(days=1))
    after = season.plan.task("touch_up")
    assert after is not None
    if sign < 0:
        assert after.status == "CANCELLED" and after.closed == "dropped"
        return
    depths = [next(a.value for a in t.amounts if a.item == "depth") for t in (before, after)]
    assert (
        depths[1] == missing_mm > depths[0]
        and after.change is not None
        and "was" in told(after.change)
    )


# What follows reckons stock_of by itself, on figures made up for it.
TWO = {1: 2.0, 2: 3.0}
SOLD = {1: 2.1, 2: 3.2}


def history(*skipped: str, **logged: tuple[float | None, float]) -> TaskHistory:
    """Tasks that are done, by name with `_` for its dot: the m3 that were logged of each, and the
    share that was done.
    """
    names = {key.rpartition("_")[::2]: value for key, value in logged.items()}
    actual, done = {}, {}
    for (operation, number), (volume, share) in names.items():
        task = f"{operation}.{number}"
        amounts = (
            ()
            if volume is None
            else (Amount.of("used", volume, "m3", ""), Amount.of("used", 99.0, "kg", ""))
        )
        actual[task] = WhatHappened(
            start=date(2027, 4, 1), end=date(2027, 4, 1), amounts=amounts, share=share
        )
        if share == 1.0:
            done[task] = date(2027, 4, 1).toordinal()
    return TaskHistory(done=done, actual=actual, skipped=frozenset(skipped))


def spread(number: int, loose_m3: float) -> Draft:
    """A pass that was planned with so much."""
    return Draft(f"topdress.{number}", "topdress", "level", "", 1, loose_m3=loose_m3)


def test_needed_is_the_passes_and_at_last_the_touch_up() -> None:
    """3 m3 in the first load; 4 in the second, which also takes 0.5 for the touch-up."""
    loads = (Load(1, 1, (1, 2), 3.0), Load(2, 2, (3,), 4.0))
    volumes = FillVolumes({1: 1.0, 2: 2.0, 3: 4.0}, 9.0, 0.5)
    assert needed_m3(loads, volumes) == {1: 3.0, 2: 4.5}
    assert needed_m3((), FillVolumes({}, 0.0, 0.5)) == {}


@pytest.mark.parametrize(
    ("came", "more", "short"),
    [
        (
            2.6,
            {1: 0.6, 2: -0.5},
            0.0,
        ),  # half a cubic metre beyond the order is left out of the next
        (1.6, {1: -0.4}, 0.4),  # half less came; a tenth of it rounding up had covered
        (2.05, {1: 0.05}, 0.0),  # short by less than the rounding
        (2.1, {}, 0.0),  # as ordered
        (None, {}, 0.0),  # no amount logged: as ordered
        (6.1, {1: 4.1, 2: -3.0}, 0.0),  # more than all: the next order is nothing, and never less
    ],
)
def test_what_came_changes_the_next_order(
    came: float | None, more: dict[int, float], short: float
) -> None:
    """Beyond the order makes the next one smaller, less makes it larger."""
    found = stock_of(TWO, SOLD, [], history(delivery_1=(came, 1.0)))
    assert found.more == pytest.approx(more) and found.short_m3 == pytest.approx(short)
    assert found.settled == {"delivery.1"}


def test_what_was_received_counts_before_what_was_ordered() -> None:
    """2.5 m3 ordered: half is over; when 2.1 come of it nothing is."""
    assert stock_of(TWO, SOLD, [], history(order_material_1=(2.6, 1.0))).more == pytest.approx(
        {1: 0.6, 2: -0.5}
    )
    both = history(order_material_1=(2.6, 1.0), delivery_1=(2.1, 1.0))
    assert stock_of(TWO, SOLD, [], both).more == {}


@pytest.mark.parametrize(
    ("used", "share", "next_order"),
    [(1.4, 1.0, 0.4), (0.6, 1.0, -0.4), (0.7, 0.5, 0.2), (0.5, 0.5, None), (None, 1.0, None)],
)
def test_what_a_pass_took_changes_the_next_order(
    used: float | None, share: float, next_order: float | None
) -> None:
    """A pass planned with 1 m3: what it took beyond its share is ordered more, what it left is
    ordered less.
    """
    found = stock_of(TWO, SOLD, [spread(1, 1.0), spread(2, 1.0)], history(topdress_1=(used, share)))
    assert found.more == ({} if next_order is None else pytest.approx({1: next_order}))
    assert found.short_m3 == 0.0


def test_a_pass_without_a_volume_of_its_own_takes_nothing() -> None:
    """What is logged of it is not measured against nothing."""
    assert stock_of(TWO, SOLD, [spread(1, 0.0)], history(topdress_1=(1.0, 1.0))).more == {}


@pytest.mark.parametrize(
    ("came", "used", "short"),
    [
        (1.5, 1.0, 0.5),
        (2.05, 1.0, 0.0),
        (2.1, 1.3, 0.2),
        (2.1, 1.1, 0.0),
        (2.6, 1.0, 0.0),
        (1.9, 0.8, 0.0),
    ],
)
def test_short_with_no_order_left_is_told(came: float, used: float, short: float) -> None:
    """Needed 2, sold 2.1: what neither the rounding nor a thinner pass covers is short."""
    found = stock_of(
        {1: 2.0},
        {1: 2.1},
        [spread(1, 1.0)],
        history(delivery_1=(came, 1.0), topdress_1=(used, 1.0)),
    )
    assert found.short_m3 == pytest.approx(short)


def test_what_is_over_runs_through_the_orders_in_turn() -> None:
    """4 m3 over: the second order of 3 is not made, the third is 1 smaller."""
    found = stock_of({**TWO, 3: 4.0}, {**SOLD, 3: 4.0}, [], history(delivery_1=(6.1, 1.0)))
    assert found.more == pytest.approx({1: 4.1, 2: -3.0, 3: -1.0})


def test_done_and_skipped_need_nothing_more() -> None:
    """Goods that are here, and goods that are not wanted any more."""
    assert stock_of(TWO, SOLD, [], history("overseed", delivery_1=(None, 1.0))).settled == {
        "overseed",
        "delivery.1",
    }


def test_what_was_ordered_together_is_shared_by_its_loads() -> None:
    """An order of two loads that was logged a tenth larger brings a tenth more with each; one that
    has come counts as it came.
    """
    loads = [Load(number, 1, (number,), volume, order=1) for number, volume in TWO.items()]
    whole = sum(SOLD.values())
    found = stock_of(TWO, SOLD, [], history(order_material_1=(1.1 * whole, 1.0)), loads)
    assert found.more == pytest.approx({n: 1.1 * SOLD[n] - TWO[n] for n in TWO})
    both = history(order_material_1=(1.1 * whole, 1.0), delivery_1=(SOLD[1], 1.0))
    assert set(stock_of(TWO, SOLD, [], both, loads).more) == {2}


def status(season: Season, name: str) -> str | None:
    """How a task of the newest plan is closed; None while it is open."""
    task = season.plan.task(name)
    assert task is not None, name
    return task.closed


@pytest.mark.full
@pytest.mark.parametrize("number", [1, 2])
def test_an_order_that_was_skipped_stands_on_no_list(number: int) -> None:
    """No line asks for a day of ordering that no task has; the delivery says that what comes is
    from elsewhere.
    """
    season = begun(DEEP)
    season.log("skipped", task=f"order_material.{number}", on=date(2027, 2, 2))
    season.make(date(2027, 2, 3))
    (left,) = mixes(season)
    other = season.plan.task(f"order_material.{3 - number}")
    assert other is not None and left.order_by == other.start
    came = season.plan.task(f"delivery.{number}")
    assert came is not None and came.closed is None
    assert any("order was skipped" in told(caution) for caution in came.cautions)
    kept = season.plan.task(f"delivery.{3 - number}")
    assert kept is not None and not any("order was skipped" in told(c) for c in kept.cautions)


@pytest.mark.full
def test_what_is_not_spread_is_not_ordered() -> None:
    """Where the only pass is skipped before its material is ordered, order, delivery, heap, drag
    and touch-up go with it; the seed goes on.
    """
    season = begun({"leveling": {"depth": "0.25 in"}})
    season.log("skipped", task="topdress.1", on=date(2027, 8, 1))
    season.make(date(2027, 8, 2))
    assert not mixes(season)
    for name in (
        "order_material.1",
        "delivery.1",
        "dry_material.1",
        "incorporate.1",
        "settle_check",
        "touch_up",
    ):
        assert status(season, name) == "dropped", name
    assert status(season, "overseed") is None


@pytest.mark.full
def test_a_load_for_several_passes_is_smaller_by_the_one_that_is_skipped() -> None:
    """The other pass is still ordered, dragged and looked at."""
    season = begun({"leveling": {"depth": "1 in"}})
    whole = sum(line.value for line in mixes(season))
    season.log("skipped", task="topdress.1", on=date(2027, 3, 1))
    season.make(date(2027, 3, 2))
    left = sum(line.value for line in mixes(season))
    assert 0 < left < whole and status(season, "incorporate.1") == "dropped"
    assert status(season, "incorporate.2") is None and status(season, "settle_check") is None


@pytest.mark.full
def test_what_is_ordered_comes_though_its_pass_is_skipped(season: Season) -> None:
    """The truck is on its way: the line stays as it was ordered."""
    first, _ = mixes(season)
    season.log("skipped", task="topdress.1", on=season.day("delivery.1"))
    season.make(season.day("delivery.1"))
    assert status(season, "delivery.1") is None
    assert next(line.value for line in mixes(season)) == first.value


@pytest.mark.full
@pytest.mark.parametrize(("came", "told_of"), [(0.75, True), (1.0, False), (1.3, False)])
def test_a_pass_says_that_less_came_than_it_takes(
    season: Season, came: float, *, told_of: bool
) -> None:
    """With how much is missing, until it is done; a load that holds all of it says nothing."""
    first, _ = mixes(season)
    day = season.day("delivery.1")
    season.log("delivered", task="delivery.1", on=day, amount=first.value * came, unit="m3")
    season.make(day)
    told_there = [told(line) for line in season.plan.task("topdress.1").cautions]
    later = [told(line) for line in season.plan.task("topdress.2").cautions]
    assert any("Less came than was ordered" in line for line in told_there) is told_of
    assert not any("Less came" in line for line in later)


def test_what_a_load_lacks_is_said_of_one_that_came() -> None:
    """Not of one that is still to come, or whose order was skipped."""
    came = frozenset({"delivery.1"})
    assert Stock(lacks={1: 0.2}, settled=came).missing_m3(1) == 0.2
    assert Stock(settled=came).missing_m3(1) == 0.0
    assert Stock(lacks={1: 0.2}).missing_m3(1) == 0.0
    assert Stock(lacks={1: 0.2}, settled=came, unasked=came).missing_m3(1) == 0.0


@pytest.mark.full
@pytest.mark.parametrize(("until", "old"), [(date(2027, 4, 5), False), (date(2027, 8, 20), True)])
def test_a_heap_that_has_lain_for_months_is_replaced(until: date, *, old: bool) -> None:
    """A pass that waits for another year has a fresh load, which says what becomes of the first;
    one that waits for days has the mix that came for it."""
    season = begun({"seeding": {"intent": "none"}})
    day = season.day("delivery.1")
    done_until(season, day)
    season.log("done", task="delivery.1", on=day)
    season.make(until, assume_not_done=True)
    first, came = season.plan.task("topdress.1"), season.plan.task("delivery.1")
    load = season.plan.task("delivery.1.again2" if old else "delivery.1")
    assert first is not None and load is not None and came is not None
    assert (came.closed, came.start) == ("done", day)
    assert load.is_open is old is any("a fresh one comes" in told(c) for c in load.cautions)
    assert 0 <= (first.start - load.start).days <= 14
    assert not any("a heap keeps" in told(c) for c in first.cautions)
