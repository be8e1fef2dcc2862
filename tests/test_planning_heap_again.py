"""Heaps before a pass: looked at again, or replaced by a fresh load."""

from datetime import timedelta

from campaigns.walks import Walk, begun, same_again
from planning import brief_of, kind
from turfplan.records.plan_task import Task

DAY = timedelta(1)
LOOK, PASS, LOAD = "dry_material.1", "topdress.1", "delivery.1"


def before_the_pass(*left_out: str) -> tuple[Walk, Task]:
    """A lawn on the day of its first pass, everything done but for some tasks."""
    season = begun(brief_of({"leveling": {"depth": "6 mm"}}))
    spread = kind(season.plan, "topdress")[0]
    season.done_until(spread.start, *left_out)
    return season, spread


def test_a_heap_of_which_nobody_says_that_it_is_dry_is_looked_at_before_the_pass() -> None:
    """Until somebody says so."""
    season, spread = before_the_pass(LOOK)
    season.log("rained_off", on=spread.start)
    plan = season.go(spread.start + DAY)
    look, later = plan.task(f"{LOOK}.again"), plan.task(PASS)
    assert look is not None and later is not None
    assert spread.start < look.start <= later.start and look.why.text.startswith("The heap")
    known = plan.task(LOOK)
    assert known is not None
    season.log("done", task=LOOK, on=known.end)
    told = season.go(spread.start + DAY).task(f"{LOOK}.again")
    assert told is None or not told.is_open


def test_a_heap_that_lies_too_long_is_looked_at_again_before_a_pass_that_was_moved() -> None:
    """Within two weeks of its coming it is not."""
    season, spread = before_the_pass()
    came = season.plan.task(LOAD)
    assert came is not None
    for days, again in ((14, False), (21, True)):
        season.log("moved", task=PASS, to=came.end + timedelta(days))
        plan = season.go(spread.start)
        look = plan.task(f"{LOOK}.again")
        assert (look is not None and look.is_open) is again, days
        if look is not None and again:
            later = plan.task(PASS)
            assert later is not None and (later.start - came.end).days > 14
            assert 0 <= (later.start - look.start).days <= 14
            assert not any(c.key == "order.old_heap" for c in later.cautions)
    (heap,) = season.plan.state.of_kind("heap") if season.plan.state else ()
    assert heap.until == came.end + timedelta(14)


def test_a_pass_that_is_put_off_by_months_has_a_fresh_load() -> None:
    """Ordered and brought in time for it, once; the old heap is told of."""
    season, spread = before_the_pass()
    came = season.plan.task(LOAD)
    assert came is not None
    later = spread.start + timedelta(120)
    season.log("not_done", task=PASS, on=later)
    plan = season.go(later + DAY)
    fresh = (f"{LOAD}.again2", "order_material.1.again2")
    again, load, order = (plan.task(name) for name in (PASS, *fresh))
    old = plan.task(LOAD)
    assert old is not None and (old.closed, old.start) == ("done", came.start)
    assert again is not None and load is not None and order is not None
    assert again.start > later and load.closed is None and order.closed is None
    assert later < order.start < load.start <= again.start
    assert (again.start - load.start).days <= 14
    assert load.cautions[0].key == "order.spoiled"
    same_again(season, later + DAY)
    (line,) = (o for o in plan.order if o.item == "mix")
    assert line.value >= 0.8 * sum(a.value for a in came.amounts if a.item == "volume")
    season.log("done", task=fresh[1], on=order.start)
    season.log("delivered", task=fresh[0], on=load.start)
    plan = season.go(load.start + DAY)
    done = [plan.task(name) for name in fresh]
    assert [t is not None and t.closed for t in done] == ["done", "done"]
    assert not any(o.item == "mix" for o in plan.order)
