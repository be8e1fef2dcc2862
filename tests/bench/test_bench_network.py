"""Speed of the network on seasons of 70 nodes with windows of up to 200 days, as ratios to its own bounds."""

from random import Random

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

import network_problems as make
from bench.clock import best_time
from turfplan.constraints import Problem
from turfplan.network import Schedule, bounds, conflict, repair, solve, solve_softly

NODES, SPAN = 70, 200


@pytest.fixture(scope="module")
def published() -> tuple[Problem, Schedule]:
    """A season with everything kept that can be, and its schedule."""
    case = make.season(Random(7), NODES, SPAN)
    got = solve_softly(case)
    assert isinstance(got, Schedule)
    kept = tuple(c for c in case.constraints if c not in got.dropped)
    return make.problem(list(case.nodes), list(kept), case.first_day, case.last_day), got


def test_solve_costs_a_few_bounds(benchmark: BenchmarkFixture, published: tuple[Problem, Schedule]) -> None:
    """Placing every node propagates little more than the bounds did."""
    case, _ = published
    one = best_time(lambda: bounds(case))
    benchmark(solve, case)
    assert benchmark.stats.stats.min < 8 * one


def test_conflict_costs_a_few_bounds(benchmark: BenchmarkFixture, published: tuple[Problem, Schedule]) -> None:
    """The deletion filter works on the few constraints of one chain."""
    case, got = published
    one = best_time(lambda: bounds(case))
    last = max(got.days, key=lambda name: got.days[name])
    broken = make.problem(
        list(case.nodes),
        [*case.constraints, make.allowed(last, (0, got.earliest[last] - 1), id="too early")],
        case.first_day,
        case.last_day,
    )
    assert benchmark(conflict, broken) is not None
    assert benchmark.stats.stats.min < 8 * one


@pytest.mark.parametrize("kind", ["late", "rain", "slower"])
def test_repair_costs_some_bounds(benchmark: BenchmarkFixture, published: tuple[Problem, Schedule], kind: str) -> None:
    """An exact repair, the constraints to give up included, costs tens of bounds, not hundreds."""
    case, got = published
    one = best_time(lambda: bounds(case))
    slipped, fixed = make.slip(Random(3), case, got.days, kind)
    benchmark.pedantic(repair, args=(slipped, got.days, fixed), rounds=5)
    assert benchmark.stats.stats.min < 60 * one
