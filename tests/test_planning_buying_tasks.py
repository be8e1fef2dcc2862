"""What the journal says of buying: nothing twice, nothing lost, and what is left out stays out."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from test_seasons import Season, begun, done_until
from told import told
from turfplan.message import as_written
from turfplan.planning.buying_tasks import bought_by, is_seen_to, without_use
from turfplan.planning.purchases import Bought
from turfplan.planning.stock import Stock
from turfplan.records.past import TaskHistory
from turfplan.records.plan import OrderLine
from turfplan.records.plan_task import Task
from turfplan.work.drafts import Draft

SAID = as_written("")


@pytest.fixture
def season() -> Season:
    """A season with two passes and its seed, planned in February."""
    return begun()


def line(season: Season, item: str) -> OrderLine | None:
    """The first line of an item that is still on the order."""
    return next((line for line in season.plan.order if line.item == item), None)


def task(season: Season, name: str) -> Task:
    """A task of the newest plan."""
    found = season.plan.task(name)
    assert found is not None, name
    return found


def after(season: Season, kind: str, name: str, days: int = 1) -> date:
    """Log a kind of entry for a task on its day and plan again some days later."""
    day = season.day(name)
    done_until(season, day)
    season.log(kind, task=name, on=day)
    season.make(day + timedelta(days))
    return day


@pytest.mark.parametrize("kind", ["done", "delivered"])
def test_what_was_fetched_is_at_hand(season: Season, kind: str) -> None:
    """It is off the order, its trip is closed, and no later plan buys it again."""
    day = after(season, kind, "collect.seed")
    assert line(season, "seed") is None and task(season, "collect.seed").closed == "done"
    season.make(day + timedelta(9))
    assert line(season, "seed") is None
    trips = [t.id for t in season.plan.tasks if t.plays("collecting") and t.closed is None]
    assert "collect.seed" not in trips and not any("seed" in name for name in trips)


def test_what_was_refused_is_fetched_on_a_later_day(season: Season) -> None:
    """By the same task, before the seed goes in; the line has the new day."""
    day = after(season, "refused", "collect.seed")
    again, seed = task(season, "collect.seed"), line(season, "seed")
    assert again.closed is None and again.start > day and seed is not None
    assert seed.order_by == seed.deliver_by == again.start <= season.day("overseed")


def test_what_was_skipped_stands_on_no_list(season: Season) -> None:
    """The seed is still sown: it comes from elsewhere."""
    after(season, "skipped", "collect.seed")
    assert line(season, "seed") is None and task(season, "overseed").closed is None
    season.log("skipped", task="collect.fertilizer", on=season.day("collect.fertilizer"))
    season.make(season.plan.now.date() + timedelta(1))
    assert line(season, "fertilizer") is None


def test_a_trip_closes_with_the_work_it_was_for(season: Season) -> None:
    """Seed that is in the ground was fetched, and machines that ran were reserved."""
    sown = season.day("overseed")
    for each in sorted(season.plan.tasks, key=lambda t: t.start):
        buying = each.plays("collecting", "calling", "ordering")
        if each.series is None and each.end <= sown and not buying:
            season.log("done", task=each.id, on=each.end)
    season.make(sown + timedelta(1))
    for name in ("collect.seed", "order_material.1"):
        assert task(season, name).closed == "done"
    calls = [t for t in season.plan.tasks if t.plays("calling") and t.end <= sown]
    assert calls and all(t.closed == "done" for t in calls)
    assert line(season, "seed") is None and line(season, "mix") is None
    season.make(sown + timedelta(2))
    assert task(season, "collect.seed").closed == "done"


def test_nothing_is_bought_for_work_that_is_skipped(season: Season) -> None:
    """The trip for seed that is not sown leaves the plan, the others stay."""
    season.log("skipped", task="overseed", on=date(2027, 3, 2))
    season.make(date(2027, 3, 2))
    gone = task(season, "collect.seed")
    assert gone.status == "CANCELLED" and line(season, "seed") is None
    assert line(season, "mix") is not None


def test_a_replan_keeps_every_task_of_buying(season: Season) -> None:
    """With news that does not concern them, no task of buying moves or changes its name."""
    before = {
        t.id: (t.uid, t.start)
        for t in season.plan.tasks
        if t.plays("ordering", "calling", "collecting")
    }
    season.log("done", task="soil_test", on=season.day("soil_test"))
    season.make(season.day("soil_test") + timedelta(1))
    now = {t.id: (t.uid, t.start) for t in season.plan.tasks if t.id in before}
    assert now == before and len(before) >= 4


def test_a_line_of_a_day_that_is_over_is_asked_for_today(season: Season) -> None:
    """The order that nobody logged is not printed for a past day once there is news."""
    today = season.day("order_material.1") + timedelta(2)
    season.log("done", task="soil_test", on=season.day("soil_test"))
    season.make(today)
    mix = line(season, "mix")
    assert mix is not None and mix.order_by >= today
    assert task(season, "order_material.1").overdue


def draft(name: str, **more: object) -> Draft:
    """A task by its name."""
    made = Draft(name, "collect", "prepare", SAID, 1)
    return replace(made, **more)  # type: ignore[arg-type]


def bought(*steps: Draft, item: str = "seed") -> Bought:
    """A line that some tasks see to."""
    given = (item, SAID, 1.0, "kg", (), (), SAID, SAID, None, "overseed")
    return replace(Bought(*given), steps=steps)  # type: ignore[arg-type]


def test_a_line_is_seen_to_once_its_last_task_is() -> None:
    """An order that is made is still to come; a call that is left out takes its line away."""
    order, trip = draft("order_material.sod"), draft("delivery.sod")
    made = bought(order, trip)
    assert not is_seen_to(made, {}, Stock(settled=frozenset({order.id})))
    assert is_seen_to(made, {}, Stock(settled=frozenset({trip.id})))
    assert is_seen_to(made, {}, Stock(unasked=frozenset({order.id})))
    user = {"overseed": draft("overseed", bought_by=("collect.seed",))}
    left_out = Stock(unasked=frozenset({"collect.seed"}))
    assert is_seen_to(bought(), user, left_out) and not is_seen_to(bought(), user, Stock())
    assert not is_seen_to(bought(trip, item="machine"), {}, Stock(settled=frozenset({trip.id})))


def test_a_task_without_a_line_goes_unless_something_is_written_of_it() -> None:
    """What buys nothing is no task; one that is done or held stays in the plan."""
    trip, other = draft("collect.seed", buys_for=("overseed",)), draft("overseed")
    lines = bought_by([bought(trip)])
    assert without_use([trip, other], lines, None) == frozenset()
    assert without_use([trip, other], {}, None) == {"collect.seed"}
    fetched = TaskHistory(done={"collect.seed": 1}, planned={"collect.seed": 1})
    assert without_use([trip], {}, fetched) == frozenset()
    # No plan had it: that the work was done tells of no trip.
    assert without_use([trip], {}, replace(fetched, planned={})) == {"collect.seed"}


def test_the_change_of_a_refused_trip_is_told(season: Season) -> None:
    """Its entry says why it has moved."""
    after(season, "refused", "collect.seed")
    change = task(season, "collect.seed").change
    assert change is not None and "refused" in told(change)


def test_nothing_is_ordered_for_what_is_over_already() -> None:
    """The hollows are filled, and nobody logged their soil: no line asks for it again."""
    lows = [{"depth": "3 in", "share": 0.15}, {"depth": "0.5 in", "share": 0.3}]
    season = begun({"leveling": {"depth": None, "lows": lows}})
    assert line(season, "topsoil") is not None
    lifted = season.day("lift_and_fill")
    season.log("done", task="lift_and_fill", on=lifted)
    season.make(lifted + timedelta(1))
    assert line(season, "topsoil") is None
