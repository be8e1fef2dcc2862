"""Speed of a whole plan, as a ratio to a plain loop: the target is 20 ms on the machine it is developed on."""

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from bench.clock import best_time, plain_loop
from planning import EXAMPLES, NAMES, TODAY, example_brief
from turfplan.cli.running import input_of
from turfplan.planner import make_plan


@pytest.mark.parametrize("name", NAMES)
def test_a_plan_costs_a_few_plain_loops(benchmark: BenchmarkFixture, name: str) -> None:
    """Campaigns compared, tasks dated and explained, water and nitrogen accounted for, every check passed."""
    brief = example_brief(name)
    given = input_of(brief, EXAMPLES)

    def plan() -> object:
        return make_plan(brief, given.book, given.climate, now=TODAY, ground=given.ground)

    plan()
    benchmark(plan)
    assert benchmark.stats.stats.min < 8 * best_time(plain_loop)
