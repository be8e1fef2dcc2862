"""What was spread says which campaign goes on, and that the turf was ready for it."""

from datetime import date, timedelta

import pytest

from campaigns.walks import Walk, begun
from planning import example_brief

PREPARING = ("low_cut", "coring")


def opened(season: Walk) -> dict[str, date]:
    """The cuts and cores that are still to come, and the work that they are for, by day."""
    roles = (*PREPARING, "spreading", "sowing")
    tasks = (t for t in season.plan.tasks if t.closed is None and t.plays(*roles))
    return {t.id: t.start for t in tasks if t.status != "CANCELLED" and not t.overdue}


@pytest.mark.full
def test_a_campaign_goes_on_in_the_sessions_that_were_done() -> None:
    """Of two that end alike, the one whose seasons were worked in: the next pass keeps its cuts and
    cores."""
    season = begun(example_brief("deep-two-inches"))
    day = season.day("topdress.4") - timedelta(days=14)
    coming = {name: on for name, on in opened(season).items() if on >= day}
    assert {"core_aerate.3", "mow_low.5", "topdress.4"} <= coming.keys()
    season.done_until(day)
    season.go(day)
    assert opened(season) == coming


@pytest.mark.parametrize("late", [0, pytest.param(21, marks=pytest.mark.full)])
def test_a_pass_that_was_spread_had_its_preparation(late: int) -> None:
    """Nobody logged the cuts, the cores and the look at the heap: they count as done with it, are
    not asked for, not done again, and cost the work to come no day."""
    first = begun(example_brief("cool-overseed"))
    on = first.day("topdress.1") + timedelta(days=late)
    told = {t.id for t in first.plan.tasks if t.plays(*PREPARING)} | {"dry_material.1"}
    before = {n for n in told if first.day(n) <= first.day("topdress.1")}
    ways = []
    for left_out in (frozenset[str](), before):
        season = Walk(first.given, first.plan)
        season.done_until(first.day("topdress.1"), *left_out)
        season.log("done", task="topdress.1", on=on)
        season.go(on + timedelta(days=1))
        ways.append(opened(season))
        closed = {n: season.plan.task(n) for n in before}
        assert all(t is not None and t.closed == "done" for t in closed.values()), late
    assert ways[0] == ways[1]
    assert not [name for name in ways[0] if name.endswith(".again")]
