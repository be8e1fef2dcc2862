"""What is bought has a task: plants, machines, later loads, and one trip for what goes together."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from planning import first, kind, plan_of
from told import told
from turfplan.records.plan import OrderLine, Plan
from turfplan.records.plan_task import Task

SEED_ONLY: dict[str, Any] = {"leveling": None}
SOD: dict[str, Any] = {
    "lawn": {"grass": "bermuda_hybrid", "condition": "bare"},
    "place": {"postal_code": "30301"},
    "leveling": None,
    "seeding": {"intent": "plant", "form": "sod"},
}
RENOVATED: dict[str, Any] = {
    "lawn": {"grass": "kentucky_bluegrass"},
    "leveling": {"depth": "0.4 in"},
    "seeding": {"intent": "renovate"},
    "soil_test": {"on": date(2026, 10, 1), "ph": 5.5, "lime_rate": "50 lb/1000ft2"},
}


def task(plan: Plan, name: str) -> Task:
    """A task of the plan; it must be there."""
    found = plan.task(name)
    assert found is not None, [t.id for t in plan.tasks if t.series is None]
    return found


def lines(plan: Plan, item: str) -> list[OrderLine]:
    """The lines of one item."""
    return [line for line in plan.order if line.item == item]


def test_every_line_of_the_order_has_its_tasks() -> None:
    """What comes by lorry is ordered and received, bags are fetched, machines reserved."""
    plan = plan_of()
    of = {line.item: line.tasks for line in plan.order}
    assert of["mix"] == ("order_material.1", "delivery.1")
    assert of["seed"] == ("collect.seed",)
    assert of["fertilizer"] == ("collect.fertilizer",)
    assert of["machine"] == ("call.machines.1",)
    for line in plan.order:
        days = [task(plan, name).start for name in line.tasks]
        assert days == sorted(days) and line.order_by == days[0]


def test_a_trip_comes_two_weeks_before_its_use_on_a_shopping_day() -> None:
    """On the household's days but Sundays, and never later than the job."""
    plan = plan_of()
    trip, sown = task(plan, "collect.seed"), first(plan, "overseed")
    assert trip.end <= sown.start and (sown.start - trip.start).days in range(8, 22)
    assert trip.start.weekday() == 5 and trip.id in sown.depends_on


def test_bags_of_one_job_are_fetched_on_one_trip() -> None:
    """Seed with its starter, lime by itself, the nitrogen of the year on another."""
    plan = plan_of(RENOVATED)
    by_trip = {line.tasks: line.item for line in plan.order}
    seed_trip = {line.item for line in plan.order if line.tasks == ("collect.seed",)}
    assert {"seed", "fertilizer"} <= seed_trip
    assert by_trip["collect.soil",] in ("lime", "potash", "phosphate")
    assert by_trip["collect.weed_killer",] == "weed killer"
    assert len(kind(plan, "collect")) == len({t for t in by_trip if t[0].startswith("collect")})
    assert told(task(plan, "collect.seed").title) == "Fetch seed and starter"
    how = [told(step) for step in task(plan, "collect.seed").how]
    assert any(step.startswith("Kentucky bluegrass seed: ") for step in how)


def test_sod_is_ordered_a_week_ahead_and_comes_fresh() -> None:
    """The grower has days of its own; what is cut does not lie."""
    plan = plan_of(SOD)
    ordered, came = task(plan, "order_material.sod"), task(plan, "delivery.sod")
    laid = first(plan, "plant")
    assert (came.start - ordered.end).days >= 7
    assert 0 <= (laid.start - came.end).days <= 1
    (line,) = lines(plan, "sod")
    assert line.tasks == (ordered.id, came.id)
    assert (line.order_by, line.deliver_by) == (ordered.start, came.start)
    assert "digging" not in (*ordered.roles, *came.roles)


def test_one_call_reserves_the_machines_of_a_session() -> None:
    """None for a machine of one's own, nor where a contractor comes."""
    plan = plan_of({"lawn": {"thatch": "0.6 in"}, "leveling": {"depth": "0.25 in"}})
    (call,) = kind(plan, "call")
    assert "dethatcher" in told(call.title) and "core aerator" in told(call.title)
    for job in (*kind(plan, "dethatch"), *kind(plan, "core_aerate")):
        assert call.end <= job.start and call.id in job.depends_on
    owned = plan_of({"work": {"machines": ["aerator", "roller"]}})
    assert not kind(owned, "call") and not lines(owned, "machine")
    assert not kind(plan_of({"work": {"by": "contractor"}}), "call")


def test_a_later_load_of_an_order_is_called_off() -> None:
    """After its order, before it comes; the first load was ordered for its day."""
    plan = plan_of({"leveling": {"depth": "1 in"}})
    called = [t for t in kind(plan, "call") if not t.id.startswith("call.machines")]
    assert [t.id for t in called] == ["call.2"]
    assert task(plan, "order_material.1").end <= called[0].start < task(plan, "delivery.2").start


@pytest.mark.parametrize(
    ("changes", "items", "words"),
    [
        ({"lawn": {"soil": None}}, ["mix", "fertilizer"], "soil was assumed"),
        ({"lawn": {"soil": "unknown"}}, ["mix", "fertilizer"], "soil was assumed"),
        ({"leveling": {"depth": "1.25 in"}}, ["mix", "fertilizer"], "one depth for the whole lawn"),
        ({}, ["fertilizer"], "soil test is still out"),
    ],
)
def test_what_may_still_change_is_an_estimate(
    changes: dict[str, Any], items: list[str], words: str
) -> None:
    """The line says so, and so do its tasks."""
    plan = plan_of(changes)
    told_so = {line.item for line in plan.order if line.estimate is not None}
    assert told_so == set(items)
    said = [line for line in plan.order if line.estimate and words in told(line.estimate)]
    assert said
    for line in said:
        ordering = task(plan, line.tasks[0])
        assert any(words in told(caution) for caution in ordering.cautions)


def test_what_the_test_may_change_waits_for_its_answer() -> None:
    """Three weeks after the sample where there is time; a test that is there settles it."""
    plan = plan_of()
    sample, trip = first(plan, "soil_test"), task(plan, "collect.fertilizer")
    assert (trip.start - sample.end).days >= 21 and sample.id in trip.depends_on
    tested = plan_of({"soil_test": {"on": date(2026, 11, 1), "ph": 6.5}})
    assert all(line.estimate is None for line in lines(tested, "fertilizer"))


def test_what_is_late_is_bought_on_the_first_day_and_moves_what_needs_it() -> None:
    """Planned in the midst of the season: no trip on a day that is over, and none after its use."""
    now = datetime(2027, 9, 9, 12, tzinfo=UTC)
    plan = plan_of(SEED_ONLY, {"season": None}, now=now)
    trip, sown = task(plan, "collect.seed"), first(plan, "overseed")
    assert date(2027, 9, 9) <= trip.start <= sown.start <= trip.start + timedelta(14)
    assert all(line.order_by >= date(2027, 9, 9) for line in plan.order)


def test_fill_waits_for_the_suppliers_days() -> None:
    """From today on: the pass cannot come sooner than its load."""
    now = datetime(2027, 9, 2, 12, tzinfo=UTC)
    plan = plan_of({"season": None, "delivery": {"lead_days": 9}}, now=now)
    ordered, came = task(plan, "order_material.1"), task(plan, "delivery.1")
    assert ordered.start >= date(2027, 9, 2) and (came.start - ordered.start).days >= 9
    assert first(plan, "topdress").start > came.end


def test_soil_of_hollows_has_order_and_delivery_of_its_own() -> None:
    """The second material as the first: its line names both."""
    hollow = {"depth": "3 in", "share": 0.15}
    lows = [hollow, {"depth": "0.5 in", "share": 0.3}]
    plan = plan_of({"leveling": {"depth": None, "lows": lows}})
    (line,) = lines(plan, "topsoil")
    assert line.tasks == ("order_material.lifting", "delivery.lifting")
    assert line.acceptance and line.questions


def test_a_sod_cutter_is_reserved_where_turf_is_stripped() -> None:
    """Not where dead grass is mown and raked off."""
    stripped = plan_of(RENOVATED, {"lawn": {"thatch": "0.8 in"}})
    assert any("sod cutter" in told(call.title) for call in kind(stripped, "call"))
    cleared = plan_of(RENOVATED, {"lawn": {"thatch": "0.2 in"}})
    assert kind(cleared, "clear_stand") and kind(cleared, "call")
    assert not any("sod cutter" in told(call.title) for call in kind(cleared, "call"))


def test_a_cover_that_lies_a_season_without_water_is_fetched() -> None:
    """On level ground too: no grass can be grown over a lot that nobody waters."""
    plan = plan_of(
        {"lawn": {"condition": "bare"}, "leveling": {"depth": "2 in"}},
        {"seeding": {"intent": "none"}, "water": {"possible": False}},
    )
    (line,) = (line for line in plan.order if line.item == "straw")
    assert line.tasks == ("collect.covers",)
    assert plan.task("collect.covers") is not None
