"""The judge: it finds nothing in sound plans, and each of its faults in a plan that this fault
alone catches.
"""

from dataclasses import replace
from datetime import timedelta
from typing import get_args

import pytest
from hypothesis import HealthCheck, given, settings

from broken_plans import BROKEN, made
from planning import EXAMPLES, POSSIBLE, TODAY, brief_of, plan_brief
from test_planning_random import briefs
from tiers import sampled
from told import told
from turfplan import publishing
from turfplan.app.inputs import input_of
from turfplan.audit import INVARIANTS, Fault, FaultKind, audit_plan
from turfplan.audit.words import AREA, as_message
from turfplan.messages import building
from turfplan.planning.bought_for_tasks import with_amounts
from turfplan.planning.candidates import compare
from turfplan.planning.feeding import feeder_for
from turfplan.planning.tasks import tasks_of
from turfplan.planning.window_dates import with_windows
from turfplan.records.brief import Brief
from turfplan.work.assumptions import resolve

KINDS: tuple[FaultKind, ...] = get_args(FaultKind)
# The values that the sentence of each fault declares, with their types.
SENTENCES = {
    entry.key.removeprefix(AREA): {name: building.KINDS[kind] for name, kind in entry.kinds}
    for entry in building.read_entries(building.HERE / "en" / "faults.po", [])
}


@pytest.mark.parametrize("name", sampled(POSSIBLE, *POSSIBLE[::4]))
def test_an_example_is_sound(name: str) -> None:
    """No invariant finds fault with the plan of an example."""
    sound = made(name)
    assert audit_plan(sound.plan, sound.brief, sound.book) == ()


@settings(
    max_examples=10, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow]
)
@given(brief=briefs())
def test_any_plan_is_sound(brief: Brief) -> None:
    """The plan of any brief stands before the judge, asked here once more beside the planner."""
    plan = plan_brief(brief, options=False)
    assert audit_plan(plan, brief, input_of(brief, EXAMPLES).book) == ()


@pytest.mark.parametrize("kind", KINDS)
def test_a_fault_is_found(kind: FaultKind) -> None:
    """Each kind has a broken plan that it alone catches, and says so with every value filled in."""
    broken = BROKEN[kind]()
    faults = audit_plan(broken.plan, broken.brief, broken.book)
    assert {fault.kind for fault in faults} == {kind}, [told(as_message(fault)) for fault in faults]
    for fault in faults:
        values = as_message(Fault(kind, (), fault.values)).values
        assert {name: type(value).__name__ for name, value in values} == SENTENCES[kind]
        known = {task.id for task in broken.plan.tasks}
        assert known.issuperset(fault.tasks)
        said = told(as_message(fault))
        assert all(task in said for task in fault.tasks) and "{" not in said


def test_a_watering_may_begin_before_the_days_of_the_plan() -> None:
    """What is left of a season may be laid out anew while grass is watered, and an owner may sow
    before the days that were given; what else begins before them, or is over, is outside.
    """
    sound = made("cool-overseed")
    run = next(t for t in sound.plan.tasks if t.series is not None and t.end > t.start)
    for later, under_way in ((1, True), ((run.end - run.start).days + 1, False)):
        start = run.start + timedelta(days=later)
        horizon = sound.plan.horizon.model_copy(update={"start": start})
        plan = sound.plan.model_copy(update={"horizon": horizon})
        faults = audit_plan(plan, sound.brief, sound.book)
        outside = {name for f in faults if f.kind == "outside_horizon" for name in f.tasks}
        assert outside and (run.id not in outside) is under_way
        followed = tuple(
            task.model_copy(update={"closed": "done"}) if task.id in run.depends_on else task
            for task in plan.tasks
        )
        plan = plan.model_copy(update={"tasks": followed})
        faults = audit_plan(plan, sound.brief, sound.book)
        assert not [f for f in faults if f.kind == "outside_horizon" and run.id in f.tasks]


def test_a_pass_that_its_owner_leaves_out_is_no_missing_fill() -> None:
    """Without a word of the owner the other passes would hold too little."""
    sound = made("cool-overseed")
    last = [task for task in sound.plan.tasks if task.plays("spreading")][-1]
    for closed, missing in (("skipped", False), (None, True)):
        left_out = last.model_copy(update={"closed": closed, "status": "CANCELLED"})
        tasks = tuple(left_out if task.id == last.id else task for task in sound.plan.tasks)
        plan = sound.plan.model_copy(update={"tasks": tasks})
        kinds = {fault.kind for fault in audit_plan(plan, sound.brief, sound.book)}
        assert ("fill_not_covered" in kinds) is missing


def test_every_kind_has_its_sentence_and_its_broken_plan() -> None:
    """The closed list of kinds, the sentences and the broken plans name the same faults."""
    assert set(KINDS) == set(SENTENCES) - {"of_tasks"} == set(BROKEN)


def test_every_invariant_is_seen_to_fail() -> None:
    """Each function finds fault with at least one broken plan: none is a check that cannot fail."""
    from turfplan.audit.case import case_of

    cases = [
        case_of(broken.plan, broken.brief, broken.book)
        for broken in (make() for make in BROKEN.values())
    ]
    silent = [
        rule.__name__ for rule in INVARIANTS if not any(True for case in cases for _ in rule(case))
    ]
    assert not silent
    assert len(INVARIANTS) == len(set(INVARIANTS))


def test_a_rule_that_gave_way_binds_no_task() -> None:
    """What a dropped rule would have put first is not named as coming first: a soil sample here."""
    brief = brief_of()
    inputs = input_of(brief, EXAMPLES)
    lawn = with_windows(resolve(brief, inputs.book, inputs.climate, TODAY.date()))
    best = compare(lawn, feeder_for(lawn), permit=False).best
    assert best is not None
    drafts, _ = with_amounts(best.setting, best)
    name = "soil_test_before_seed:soil_test>overseed"
    rule = next(c for c in best.season.constraints if c.id == name)
    schedule = replace(best.dated.schedule, dropped=(rule,))
    gave_way = replace(best, dated=replace(best.dated, schedule=schedule))
    for candidate, names in ((best, True), (gave_way, False)):
        tasks = {task.id: task for task in tasks_of(best.setting, candidate, drafts)}
        assert ("soil_test" in tasks["overseed"].depends_on) is names


def test_what_is_closed_is_history() -> None:
    """A task that is done, cancelled or past is not judged."""
    broken = BROKEN["why_missing"]()
    for past in (
        {"closed": "done", "status": "COMPLETED"},
        {"status": "CANCELLED"},
        {"overdue": True},
    ):
        task = broken.to("soil_test", **past)
        assert audit_plan(task.plan, task.brief, task.book) == ()


def test_what_an_owner_moved_is_theirs() -> None:
    """A fault of a task that is held where its owner moved it does not refuse the plan."""
    broken = BROKEN["first_cut_too_early"]()
    held = broken.to("first_mow", held=True)
    assert audit_plan(broken.plan, broken.brief, broken.book)
    assert audit_plan(held.plan, held.brief, held.book) == ()


def test_an_unsound_plan_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    """The planner hands out no plan with a fault: it says which, as records and in words."""
    broken = BROKEN["dressed_over_seed"]()
    faults = audit_plan(broken.plan, broken.brief, broken.book)
    monkeypatch.setattr(publishing, "audit_plan", lambda *_: faults)
    with pytest.raises(publishing.UnsoundPlanError, match="over the seed") as raised:
        plan_brief(broken.brief, options=False)
    assert raised.value.faults == faults
