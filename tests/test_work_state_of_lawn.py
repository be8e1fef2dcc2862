"""The state of a lawn: what was done, and how long it lasts."""

from datetime import date, timedelta

import pytest

from campaigns.walks import Walk, begun
from planning import amount, brief_of, kind
from turfplan.export.tables.plan_json import plan_to_json
from turfplan.files.reading.plan import plan_from_json
from turfplan.records.lawn_state import LawnState, StateFact, StateKind
from turfplan.records.numbering import state_in_feed_words
from turfplan.records.plan import Plan


def state(plan: Plan) -> LawnState:
    """The state that a plan keeps."""
    assert plan.state is not None
    return plan.state


def fact(plan: Plan, kind: StateKind, task: str | None = None) -> StateFact:
    """The one fact of a kind, of a task where one is named."""
    (found,) = (f for f in state(plan).of_kind(kind) if task in (None, f.task))
    return found


def spread() -> tuple[Walk, date]:
    """A season in which all was done until the pass, and half of that."""
    season = begun(brief_of())
    day = season.day("topdress.1")
    season.done_until(day)
    season.log("done", task="topdress.1", on=day, share=0.5)
    return season, day


def test_a_first_plan_knows_what_its_brief_tells() -> None:
    """The stand, and what was put on it, with how long that holds."""
    used = {
        "herbicides": [{"active_ingredient": "2,4-D", "on": date(2027, 2, 20)}],
        "nitrogen": [{"rate": "1 lb/1000ft2", "on": date(2027, 1, 20)}],
        "sowings": [{"on": date(2026, 9, 1)}],
        "lime": [{"rate": "20 lb/1000ft2", "on": date(2026, 10, 1)}],
    }
    plan = begun(brief_of({"history": used})).plan
    assert [f.kind for f in state(plan).facts] == ["sown", "limed", "fed", "treated", "stand"]
    assert fact(plan, "stand").of == "thin_turf"
    treated, fed = fact(plan, "treated"), fact(plan, "fed")
    assert treated.of == "2,4-D" and treated.until is not None and treated.until > treated.since
    assert fed.until == date(2027, 1, 20) + timedelta(days=35)
    assert not begun(brief_of({"seeding": {"intent": "none"}})).plan.state.of_kind("sown")  # type: ignore[union-attr]


def test_what_was_done_lasts_as_long_as_the_rules_say() -> None:
    """Marks, cuts and cores until the work that they are for may no longer follow them; a heap with
    what is left of it; a pass as far as it was spread."""
    season, day = spread()
    plan = season.go(day + timedelta(days=1))
    assert state(plan).on == day + timedelta(days=1)
    marks, cores = fact(plan, "marked"), fact(plan, "open", "core_aerate.1")
    assert (marks.until - marks.since).days == 28  # type: ignore[operator]
    assert (cores.until - cores.since).days == 7  # type: ignore[operator]
    last_cut = max(state(plan).of_kind("cut"), key=lambda f: f.since)
    assert last_cut.until is not None and last_cut.holds(day) and not last_cut.holds(date.max)
    filled, covered = fact(plan, "filled"), fact(plan, "covered")
    whole = kind(plan, "topdress")[0]
    assert (filled.share, filled.value, filled.unit) == (0.5, amount(whole, "depth"), "mm")
    assert covered.until is not None and covered.until > day and filled.until is None
    heap = fact(plan, "heap")
    came_m3 = amount(whole, "volume")
    assert heap.value == pytest.approx(came_m3 / 2, rel=0.05)
    assert heap.until == heap.since + timedelta(days=14)
    assert {f.kind for f in state(plan).now("marked", "cut", "filled", "heap")} >= {
        "marked",
        "heap",
    }


def test_what_nobody_told_of_is_no_part_of_the_state() -> None:
    """Nor what is still to come."""
    season = begun(brief_of())
    day = season.day("topdress.1")
    season.done_until(day, "locate_utilities", "core_aerate.1")
    plan = season.go(day)
    assert not state(plan).of_kind("marked", "open", "filled", "sown")
    assert state(plan).of_kind("cut", "heap", "dry")


def test_what_was_measured_chosen_or_has_come_up_is_known() -> None:
    """With its day and its value."""
    season, day = spread()
    season.log("measured", quantity="rain", value=12.5, on=day)
    season.log("measured", quantity="soil_temperature", value=18.0, on=day)
    season.log("moved", task="settle_check", to=day + timedelta(days=200))
    season.log("done", task="topdress.1", on=day + timedelta(days=1), share=0.5)
    season.log("done", task="overseed", on=day + timedelta(days=1))
    season.log("measured", quantity="germination", value=1.0, on=day + timedelta(days=12))
    plan = season.go(day + timedelta(days=13))
    rain, soil = fact(plan, "rain"), fact(plan, "soil")
    assert (rain.value, rain.unit, rain.until) == (12.5, "mm", day)
    assert (soil.value, soil.unit) == (18.0, "C")
    assert fact(plan, "up").since == day + timedelta(days=12)
    assert fact(plan, "chosen").task == "settle_check"
    sown = fact(plan, "sown")
    assert sown.until is not None and sown.of == "overseed" and sown.until > day + timedelta(40)
    assert not state(plan).of_kind("heap")


def test_a_plan_of_its_file_has_its_state_and_older_ones_have_none() -> None:
    """It stays while the plan stands."""
    season, day = spread()
    plan = season.go(day + timedelta(days=1))
    read = plan_from_json(plan_to_json(plan))
    assert read.state == plan.state
    assert season.go(day + timedelta(days=3)).state == plan.state
    older = plan.model_copy(update={"state": None})
    assert plan_from_json(plan_to_json(older)).state is None


@pytest.mark.parametrize(("retired", "name"), [((), "mow.1"), (("mow.1",), "mow.1.again2")])
def test_the_state_calls_tasks_as_the_feed_does(retired: tuple[str, ...], name: str) -> None:
    """A number that is retired is another task."""
    day = date(2027, 9, 1)
    known = LawnState(on=day, facts=(StateFact(kind="cut", since=day, task="mow.1"),))
    found = state_in_feed_words(known, retired)
    assert found is not None and found.facts[0].task == name
    assert state_in_feed_words(None, retired) is None
