"""Before the cut a repair is narrowed to where a best one can lie."""

from dataclasses import replace
from itertools import pairwise
from random import Random

import pytest

import network_problems as make
from turfplan.network import Move, Repair, repair
from turfplan.network.conflicts import Conflict
from turfplan.network.net import Net
from turfplan.network.placing import open_fronts
from turfplan.network.propagation import Front
from turfplan.network.repairing import _cut, _groups, _narrow, _pin, _pushes
from turfplan.records.constraints import Constraint, Node, Strength, TableStep


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


def opened(
    names: str, *constraints: Constraint, fixed: dict[str, int] | None = None
) -> tuple[Net, Front, Front]:
    """Nodes of one letter, each with its place in the net, from day 0 to 40."""
    case = make.problem([Node(name, 1) for name in names], list(constraints), 0, 40)
    found = open_fronts(case, fixed or {}, case.constraints)
    assert not isinstance(found, Conflict)
    return found


def test_a_node_pushes_those_whose_published_day_its_own_passes() -> None:
    """Of four in a row each 5 apart, of which the second stands a day too early and the third a day
    too late; one that cannot stay pushes nothing and is pushed by none.
    """
    lags = [make.lag(a, b, 5) for a, b in pairwise("abcd")]
    _, up, down = opened("abcd", *lags)
    count = len(up.events)
    assert _pushes(up, down, {0: 10, 1: 14, 2: 20, 3: 25}) == {
        0: {1},
        1: frozenset(),
        2: frozenset(),
        3: frozenset(),
    }
    assert _pushes(up, down, {0: 10, 1: 15, 2: 19, 3: 24}) == {
        0: {2, 3},
        1: {2, 3},
        2: set(),
        3: set(),
    }
    assert _pushes(up, down, {0: 10, 1: 4, 3: 24}) == {0: {3}, 3: set()}
    assert len(up.events) == count


def test_nodes_are_pinned_together_or_not_at_all() -> None:
    """Both bounds close around them; the fronts that were given stay."""
    _, up, down = opened("ab", make.lag("a", "b", 5, 9))
    pinned = _pin((up, down), {0: 10})
    assert pinned is not None
    assert (pinned[0].level, pinned[1].level) == ([10, 15], [-10, -19])
    assert (up.level, down.level) == ([0, 5], [-35, -40])
    assert _pin((up, down), {0: 10, 1: 19}) is not None
    assert _pin((up, down), {0: 10, 1: 14}) is None
    assert _pin((up, down), {0: 10, 1: 20}) is None
    assert _pin((up, down), {0: 36}) is None


def test_groups_are_what_lags_connect_among_nodes_that_may_still_move() -> None:
    """A decided one stands between two groups; one without a published day belongs to a group, and
    makes none.
    """
    net, up, down = opened(
        "abcdefg",
        make.lag("a", "b", 1),
        make.lag("b", "c", 1),
        make.lag("e", "d", None, 3),
        make.lag("f", "g", 1),
        fixed={"b": 20},
    )
    assert _groups(net, (up, down), {0: 9, 2: 25, 3: 30}) == [[0], [2], [3, 4]]
    assert _groups(net, (up, down), {4: 9, 1: 20}) == [[4, 3]]


def cut(constraints: list[Constraint], old: dict[int, int], names: str = "ab") -> dict[int, int]:
    """The best days by the cut alone, over all days."""
    net, up, down = opened(names, *constraints)
    return dict(_cut(net, (up, down), old, range(len(names))))


def test_the_cut_moves_the_fewest_then_the_least_then_the_earliest() -> None:
    """One published day may stay; of two moves the shorter; of two as short the earlier."""
    wait = make.lag("a", "b", 5)
    assert cut([wait], {0: 10, 1: 15}) == {0: 10, 1: 15}
    assert cut([wait, make.allowed("b", (0, 13), (17, 40))], {0: 10, 1: 15}) == {0: 10, 1: 17}
    assert cut([make.allowed("a", (0, 12), (17, 40))], {0: 14}, "a") == {0: 12}
    assert cut([make.allowed("a", (0, 12), (16, 40))], {0: 14}, "a") == {0: 12}
    assert cut([make.allowed("a", (0, 12), (16, 40))], {0: 15}, "a") == {0: 16}
    assert cut([wait], {0: 10, 1: 12}) == {0: 7, 1: 12}


def test_the_cut_keeps_lags_of_both_kinds_and_by_tables() -> None:
    """The later no more than 4 after the earlier; a table that leads from day 10 to 22."""
    assert cut([make.lag("a", "b", 1, 4), make.allowed("a", (0, 9))], {0: 9, 1: 20}) == {
        0: 9,
        1: 13,
    }
    assert cut([make.lag("a", "b", 1, 4), make.allowed("b", (30, 40))], {0: 9, 1: 30}) == {
        0: 26,
        1: 30,
    }
    steps = TableStep(0, (*range(2, 12), *range(22, 52)))
    window = make.allowed("a", (10, 12))
    assert cut([make.lag("a", "b", steps), window], {0: 12, 1: 20}) == {0: 12, 1: 24}


def test_a_node_without_a_published_day_costs_nothing_and_passes_on() -> None:
    """Between two of which one must move: the later by what both waits ask."""
    row = [make.lag("a", "b", 5), make.lag("b", "c", 6), make.allowed("a", (10, 10))]
    assert cut(row, {0: 10, 2: 19}, "abc") == {0: 10, 2: 21}


def repaired(
    nodes: list[Node],
    constraints: list[Constraint],
    published: dict[str, int],
    fixed: dict[str, int] | None = None,
) -> Repair:
    """The repair of a schedule, from day 0 to 100."""
    found = repair(make.problem(nodes, constraints), published, fixed)
    assert isinstance(found, Repair)
    return found


def test_moves_are_told_by_their_new_day() -> None:
    """Then by name; what stays is not told, nor what is new, done or gone."""
    found = repaired(
        [Node(name, 1) for name in "abcde"],
        [make.allowed("a", (30, 90)), make.allowed("b", (25, 90)), make.allowed("c", (25, 90))],
        {"a": 20, "b": 21, "c": 22, "d": 40, "gone": 3},
    )
    moved = [Move("b", 21, 25), Move("c", 22, 25), Move("a", 20, 30)]
    assert list(found.moved) == moved
    assert dict(found.days) == {"a": 30, "b": 25, "c": 25, "d": 40, "e": 0}
    assert found.days == found.schedule.days and found.dropped == ()


def test_new_nodes_take_the_day_nearest_their_ideal_beside_what_stands() -> None:
    """They move nothing that was published; without an ideal they come as early as they can."""
    found = repaired(
        [Node("a", 3), Node("b", 1, 80), Node("c", 2)],
        [make.lag("b", "a", 5), make.lag("a", "c", 7)],
        {"a": 50},
    )
    assert dict(found.days) == {"a": 50, "b": 45, "c": 57}
    assert found.moved == ()


def test_a_done_node_is_not_moved_back_to_its_published_day() -> None:
    """What follows moves with it, and nothing that need not."""
    found = repaired(
        [Node("a", 1), Node("b", 1)], [make.lag("a", "b", 5)], {"a": 10, "b": 15}, {"a": 14}
    )
    assert list(found.moved) == [Move("b", 15, 19)] and dict(found.days) == {"a": 14, "b": 19}


def test_what_cannot_be_kept_is_given_up_or_told() -> None:
    """Advice of the later published one goes; without advice it is a conflict."""
    nodes = [Node("a", 1), Node("b", 1)]
    soft: list[Constraint] = [
        make.allowed("a", (10, 20), strength=Strength.ADVICE),
        make.lag("a", "b", 30),
        make.allowed("b", (0, 35), strength=Strength.ADVICE),
    ]
    found = repaired(nodes, soft, {"a": 15, "b": 35})
    assert [c.id for c in found.dropped] == ["b allowed"]
    assert dict(found.days) == {"a": 15, "b": 45}
    late = repaired(nodes, soft, {"a": 35, "b": 30})
    assert [c.id for c in late.dropped] == ["a allowed"]
    hard = make.problem(nodes, [replace(c, strength=Strength.HARD) for c in soft])
    assert isinstance(repair(hard, {"a": 15, "b": 35}), Conflict)


def test_what_may_move_either_way_is_narrowed_on_both_sides() -> None:
    """From day 13, which is closed, to 10 at least; a guess on 20 leaves it four days more than
    that each way.
    """
    net, up, down = opened("a", make.allowed("a", (0, 10), (20, 40)))
    narrowed = _narrow(net, (up, down), {0: 13}, (20,), ())
    assert (narrowed[0].level, narrowed[1].level) == ([6], [-20])
    low, high = _narrow(net, (up, down), {0: 18}, (10,), ())
    assert (low.level, high.level) == ([10], [-26])


@pytest.mark.full
def test_the_cut_of_many_problems_is_the_least_change_found_by_trying_all() -> None:
    """Sixty of two or three nodes with lags of every kind: fewest moves, fewest days, earliest."""
    random, asked = Random(17), 0
    while asked < 60:
        case = make.random_problem(random, random.randint(2, 3), random.randint(3, 8))
        found = open_fronts(case, {}, case.constraints)
        if isinstance(found, Conflict):
            continue
        net, up, down = found
        old = {
            n: random.randint(case.first_day - 2, case.last_day + 2) for n in range(len(net.ids))
        }
        named = {net.ids[n]: day for n, day in old.items()}
        solutions = make.solutions(case, {})
        least = min(make.change(days, named) for days in solutions)
        best = [days for days in solutions if make.change(days, named) == least]
        wanted = {n: min(days[net.ids[n]] for days in best) for n in old}
        assert _cut(net, (up, down), old, range(len(net.ids))) == wanted, case
        asked += 1


def test_what_stands_apart_stays_where_two_are_too_near_each_other() -> None:
    """Of two that must be ten days apart one moves by the five they lack, the earlier way; a third
    has nothing to do with them.
    """
    nodes = [Node(name, 1) for name in "abc"]
    found = repaired(nodes, [make.lag("a", "b", 10)], {"a": 10, "b": 15, "c": 30})
    assert dict(found.days) == {"a": 5, "b": 15, "c": 30}
    assert list(found.moved) == [Move("a", 10, 5)]
