"""Speed of a whole plan, as a ratio to a plain loop: the target is 20 ms on the machine it is
developed on.
"""

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from bench.clock import plain_loop, ratio
from planning import EXAMPLES, LAWN_ID, NAMES, TODAY, example_brief
from turfplan.app.inputs import input_of
from turfplan.planning import KnownPlace, make_plan


@pytest.mark.parametrize("name", NAMES)
def test_a_plan_costs_a_few_plain_loops(benchmark: BenchmarkFixture, name: str) -> None:
    """Campaigns compared, tasks dated and explained, water and nitrogen accounted for, every check
    passed.
    """
    brief = example_brief(name)
    given = input_of(brief, EXAMPLES)

    def plan() -> object:
        return make_plan(
            brief, given.book, KnownPlace(given.climate, given.ground), now=TODAY, lawn_id=LAWN_ID
        )

    assert ratio(plan, plain_loop) < 8
    benchmark(plan)
