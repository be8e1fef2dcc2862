"""How far a task can slip, held against the network: all other nodes fixed on their days."""

from dataclasses import replace
from datetime import date

import pytest

from planning import EXAMPLES, POSSIBLE, TODAY, example
from tiers import sampled
from turfplan.app.inputs import input_of
from turfplan.app.plan_lawn import known_place
from turfplan.files.reading.brief import read_brief
from turfplan.network import Conflict, bounds
from turfplan.planning import SoFar
from turfplan.planning.candidates import Candidate
from turfplan.planning.season_plan import dated_season
from turfplan.planning.slack import LEAST, slacks_of
from turfplan.records.brief import Brief
from turfplan.records.constraints import Allowed, Constraint
from turfplan.work.drafts import Draft


def dated(brief: Brief) -> Candidate:
    """A brief with its days."""
    given = input_of(brief, EXAMPLES)
    found, _ = dated_season(given.brief, given.book, known_place(given), SoFar(), now=TODAY)
    assert found is not None
    return found


def binds(constraint: Constraint, days: dict[str, int]) -> bool:
    """Whether a constraint is kept on the chosen days, and is more than a preference."""
    if isinstance(constraint, Allowed):
        return days[constraint.node] in constraint.days
    before, after = days[constraint.before], days[constraint.after]
    least = constraint.minimum(before) if constraint.minimum is not None else after
    most = constraint.maximum(before) if constraint.maximum is not None else after
    return constraint.strength >= LEAST and least <= after <= most


def with_it(candidate: Candidate, draft: Draft) -> set[str]:
    """The nodes that go with a task: its own, and what may come no later than its day and is on
    it."""
    days = candidate.dated.schedule.days
    group = {draft.start_node, draft.end_node}
    lags = [c for c in candidate.dated.problem.constraints if not isinstance(c, Allowed)]
    ties = [
        {lag.before, lag.after}
        for lag in lags
        if lag.strength >= LEAST
        and lag.maximum is not None
        and days[lag.before] == days[lag.after] == lag.maximum(days[lag.before])
    ]
    ends = [{d.start_node, d.end_node} for d in candidate.season.drafts]
    for _ in range(len(days)):
        more = {node for pair in (*ties, *ends) if pair & group for node in pair}
        if more <= group:
            break
        group |= more
    return group


@pytest.mark.parametrize("name", sampled(POSSIBLE, "cool-overseed", "southern-hemisphere"))
def test_the_slack_is_what_the_network_says(name: str) -> None:
    """The latest day of each task with the others fixed on theirs."""
    candidate = dated(read_brief(EXAMPLES / f"{name}.toml").brief)
    found = slacks_of(candidate.dated, candidate.season.drafts)
    days, gone = dict(candidate.dated.schedule.days), {c.id for c in candidate.dated.dropped}
    kept = tuple(
        c for c in candidate.dated.problem.constraints if c.id not in gone and binds(c, days)
    )
    problem = replace(candidate.dated.problem, constraints=kept)
    for draft in candidate.season.drafts:
        free = with_it(candidate, draft)
        limits = bounds(problem, {node: day for node, day in days.items() if node not in free})
        assert not isinstance(limits, Conflict)
        assert found[draft.id].end == date.fromordinal(limits.latest[draft.start_node]), draft.id


def test_a_task_that_ends_by_itself_moves_nothing() -> None:
    """The last feeding of a plan can wait until its window closes; ordering moves what comes."""
    plan = example("cool-overseed")
    last = max((t for t in plan.tasks if t.plays("feeding")), key=lambda t: t.start)
    assert last.slack is not None and last.slack.moves == ()
    order = plan.task("order_material.1")
    assert order is not None and order.slack is not None
    assert order.slack.moves == ("delivery.1",) and order.start < order.slack.end < order.window.end


def test_the_slack_of_every_task_lies_at_its_day_or_beyond() -> None:
    """Never before the chosen day, and what moves is a task of the plan."""
    for name in POSSIBLE:
        plan = example(name)
        ids = {task.id for task in plan.tasks}
        for task in plan.tasks:
            if task.series is None:
                assert task.slack is not None and task.slack.end >= task.start
                assert ids.issuperset(task.slack.moves) and task.id not in task.slack.moves
