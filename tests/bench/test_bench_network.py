"""Speed of the network on seasons of 70 nodes with windows of up to 200 days, as ratios to its own
bounds.
"""

from random import Random

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

import network_problems as make
from bench.clock import ratio
from turfplan.network import Schedule, bounds, conflict, repair, solve, solve_softly
from turfplan.records.constraints import NetworkProblem

NODES, SPAN = 70, 200


@pytest.fixture(scope="module")
def published() -> tuple[NetworkProblem, Schedule]:
    """A season with everything kept that can be, and its schedule."""
    case = make.season(Random(7), NODES, SPAN)
    got = solve_softly(case)
    assert isinstance(got, Schedule)
    kept = tuple(c for c in case.constraints if c not in got.dropped)
    return make.problem(list(case.nodes), list(kept), case.first_day, case.last_day), got


def test_solve_costs_a_few_bounds(
    benchmark: BenchmarkFixture, published: tuple[NetworkProblem, Schedule]
) -> None:
    """Placing every node propagates little more than the bounds did."""
    case, _ = published
    assert ratio(lambda: solve(case), lambda: bounds(case)) < 8
    benchmark(solve, case)


def test_conflict_costs_a_few_bounds(
    benchmark: BenchmarkFixture, published: tuple[NetworkProblem, Schedule]
) -> None:
    """The deletion filter works on the few constraints of one chain."""
    case, got = published
    last = max(got.days, key=lambda name: got.days[name])
    broken = make.problem(
        list(case.nodes),
        [*case.constraints, make.allowed(last, (0, got.earliest[last] - 1), id="too early")],
        case.first_day,
        case.last_day,
    )
    assert ratio(lambda: conflict(broken), lambda: bounds(case)) < 8
    assert benchmark(conflict, broken) is not None


@pytest.mark.parametrize("kind", ["late", "rain", "slower"])
def test_repair_costs_some_bounds(
    benchmark: BenchmarkFixture, published: tuple[NetworkProblem, Schedule], kind: str
) -> None:
    """An exact repair, the constraints to give up included, costs tens of bounds, not hundreds."""
    case, got = published
    slipped, fixed = make.slip(Random(3), case, got.days, kind)
    assert ratio(lambda: repair(slipped, got.days, fixed), lambda: bounds(case)) < 60
    benchmark.pedantic(repair, args=(slipped, got.days, fixed), rounds=5)
