"""Speed of a whole plan, as a ratio to a plain loop: the target is 20 ms on the machine it is developed on."""

from math import exp
from time import perf_counter

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from planning import EXAMPLES, POSSIBLE, TODAY, example_brief
from turfplan.cli.running import input_of
from turfplan.planner import make_plan

DAYS = 10_957


def plain_loop() -> float:
    """Ten exponentials for each day of thirty years: about 10 ms."""
    return sum(exp(-0.001 * (day % 365) * part) for day in range(DAYS) for part in range(10))


@pytest.mark.parametrize("name", POSSIBLE)
def test_a_plan_costs_a_few_plain_loops(benchmark: BenchmarkFixture, name: str) -> None:
    """Campaigns compared, tasks dated and explained, water and nitrogen accounted for, every check passed."""
    brief = example_brief(name)
    given = input_of(brief, EXAMPLES)

    def plan() -> object:
        return make_plan(brief, given.book, given.climate, now=TODAY, ground=given.ground)

    plan()
    times = []
    for _ in range(7):
        begin = perf_counter()
        plain_loop()
        times.append(perf_counter() - begin)
    benchmark(plan)
    assert benchmark.stats.stats.min < 8 * min(times)
