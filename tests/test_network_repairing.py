"""Before the cut a repair is narrowed to where a best one can lie."""

import pytest

import network_problems as make
from turfplan.network.conflicts import Conflict
from turfplan.network.placing import open_fronts
from turfplan.network.repairing import _narrow
from turfplan.records.constraints import Node


@pytest.mark.parametrize(
    ("free", "guess", "left"),
    [
        ((), (20, 10), {"a": (20, 20), "b": (10, 10)}),
        ((), (22, 10), {"a": (20, 22), "b": (8, 12)}),
        ((), (20, 13), {"a": (20, 23), "b": (7, 13)}),
        ((0,), (20, 10), {"a": (20, 20), "b": (0, 25)}),
    ],
)
def test_what_a_guess_moves_beyond_the_least_is_as_far_as_any_one_may_go(
    free: tuple[int, ...], guess: tuple[int, int], left: dict[str, tuple[int, int]]
) -> None:
    """One stood on day 5 and may go to 20 at least, one on day 10 may stay: a guess that moves the
    first by its fifteen leaves the other no day more. One that is `free` counts as one that could
    stay.
    """
    case = make.problem(
        [Node("a", 1), Node("b", 1)],
        [make.allowed("a", (20, 40)), make.allowed("b", (0, 40)), make.lag("a", "b", -40, 40)],
    )
    opened = open_fronts(case, {}, case.constraints)
    assert not isinstance(opened, Conflict)
    net, *fronts = opened
    old = {net.index["a"]: 5, net.index["b"]: 10}
    up, down = _narrow(net, (fronts[0], fronts[1]), old, guess, free)
    found = {name: (up.level[n], -down.level[n]) for name, n in net.index.items()}
    assert found == left
