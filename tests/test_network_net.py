"""A problem becomes arcs and usable days."""

from random import Random

import pytest

import network_problems as make
from turfplan.network.chains import contradiction
from turfplan.network.net import (
    FAR,
    Side,
    _shared,
    build,
    check_names,
    first_reaching,
    last_within,
    nodes_of,
    without,
)
from turfplan.network.propagation import start_up
from turfplan.records.constraints import (
    Constraint,
    DaySet,
    DayStep,
    NetworkProblem,
    Node,
    TableStep,
)

USABLE = (((3, 10), (5, 12)),)
TABLE = TableStep(100, (104, 104, 107))


def days_reached(up: bool, days: list[int]) -> list[int]:
    """What days lead to, where the 3rd to the 5th and the 10th to the 12th may be used."""
    side = Side(up, ([],), USABLE)
    return [side.reach(0, day) for day in days]


def test_up_leads_to_the_first_usable_day_from_a_day_on() -> None:
    """Both ends of a range belong to it; beyond the last there is none."""
    assert days_reached(True, [2, 3, 4, 5, 6, 9, 10, 12, 13]) == [3, 3, 4, 5, 10, 10, 10, 12, FAR]


def test_down_leads_to_the_last_usable_day_up_to_a_day() -> None:
    """Days are negated; before the first there is none."""
    found = days_reached(False, [-14, -13, -12, -11, -9, -6, -5, -4, -3, -2])
    assert found == [-12, -12, -12, -11, -5, -5, -5, -4, -3, FAR]


def test_the_first_day_whose_step_reaches_a_day() -> None:
    """Three days on, and by a table: every day of it reaches its first target, none more than its
    last.
    """
    assert first_reaching(DayStep(3), 10) == 7
    found = [first_reaching(TABLE, day) for day in (103, 104, 105, 106, 107, 108)]
    assert found == [-FAR, -FAR, 102, 102, 102, FAR]


def test_the_last_day_whose_step_stays_within_a_day() -> None:
    """Three days on, and by a table: none stays below its first target, all within its last."""
    assert last_within(DayStep(3), 10) == 7
    found = [last_within(TABLE, day) for day in (103, 104, 106, 107, 108)]
    assert found == [-FAR, 101, 101, FAR, FAR]


def test_a_constraint_speaks_of_its_nodes() -> None:
    """One, or both of a lag, the earlier first."""
    assert nodes_of(make.allowed("a", (1, 2))) == ("a",)
    assert nodes_of(make.lag("b", "c", 1)) == ("b", "c")


@pytest.mark.parametrize(
    ("nodes", "constraints", "fixed", "words"),
    [
        ("abcca", [], {}, r"repeated nodes: \['a', 'c'\]"),
        ("a", [("a", "x"), ("a", "y"), ("a", "x")], {}, r"repeated constraints: \['x'\]"),
        ("a", [("b", "x"), ("a", "y")], {"c": 1, "a": 2}, r"no such nodes: \['b', 'c'\]"),
    ],
)
def test_each_name_that_is_repeated_or_unknown_is_told(
    nodes: str, constraints: list[tuple[str, str]], fixed: dict[str, int], words: str
) -> None:
    """And no other."""
    limits: list[Constraint] = [make.allowed(node, (1, 2), id=name) for node, name in constraints]
    case = make.problem([Node(name, 1) for name in nodes], limits)
    with pytest.raises(ValueError, match=words):
        check_names(case, fixed)


def test_names_that_are_known_and_told_once_pass() -> None:
    """Two nodes, a constraint of each, one of them done."""
    case = make.problem(
        [Node("a", 1), Node("b", 1)], [make.allowed("a", (1, 2)), make.lag("a", "b", 1)]
    )
    check_names(case, {"b": 3})


def lagged(*constraints: Constraint) -> NetworkProblem:
    """Two nodes under some constraints, from day 0 to 100."""
    return make.problem([Node("a", 1), Node("b", 1)], list(constraints))


def test_a_lag_of_days_pushes_both_its_nodes_in_both_directions() -> None:
    """3 to 9 days: the later is 3 after the earlier, the earlier 9 before the later, and back."""
    net = build(lagged(make.lag("a", "b", 3, 9)), {})
    assert net.up.arcs == ([(1, 3, None, 0)], [(0, -9, None, 0)])
    assert net.down.arcs == ([(1, -9, None, 0)], [(0, 3, None, 0)])
    assert (net.up.up, net.down.up) == (True, False)


def test_a_lag_without_a_step_pushes_nothing_that_way() -> None:
    """Least days alone move the later up and the earlier down; most days alone the others."""
    least = build(lagged(make.lag("a", "b", 3)), {})
    most = build(lagged(make.lag("a", "b", None, 9)), {})
    assert (least.up.arcs, least.down.arcs) == (([(1, 3, None, 0)], []), ([], [(0, 3, None, 0)]))
    assert (most.up.arcs, most.down.arcs) == (([], [(0, -9, None, 0)]), ([(1, -9, None, 0)], []))


def test_a_lag_by_tables_pushes_by_them_and_by_their_inverses() -> None:
    """Least by 104, 104, 107 from day 100, most by 110, 115, 120."""
    most = TableStep(100, (110, 115, 120))
    net = build(lagged(make.lag("a", "b", TABLE, most)), {})

    def stepped(arcs: list[tuple[int, int, object, int]], day: int) -> tuple[int, int, int]:
        ((target, shift, step, _),) = arcs
        assert callable(step)
        return target, shift, step(day)

    assert [stepped(net.up.arcs[0], day) for day in (101, 102)] == [(1, 0, 104), (1, 0, 107)]
    assert [stepped(net.down.arcs[1], -day) for day in (106, 105)] == [(0, 0, -101), (0, 0, -101)]
    assert [stepped(net.up.arcs[1], day) for day in (111, 116)] == [(0, 0, 101), (0, 0, 102)]
    assert [stepped(net.down.arcs[0], -day) for day in (100, 101)] == [(1, 0, -110), (1, 0, -115)]


def test_constraints_of_done_nodes_alone_fall_away() -> None:
    """The done one has its day for its usable one; a lag to an open one stays."""
    window, between = make.allowed("a", (20, 30)), make.lag("a", "b", 3)
    net = build(lagged(window, between), {"a": 7})
    assert net.constraints == (between,) and net.up.arcs[0] == [(1, 3, None, 0)]
    assert (net.fixed, net.allowed) == ((7, None), ([], []))
    assert net.up.usable == net.down.usable == (((7,), (7,)), ((0,), (100,)))
    assert build(lagged(window, between), {"a": 7, "b": 9}).constraints == ()


def test_some_constraints_may_be_chosen_even_none() -> None:
    """All where none are named."""
    window, between = make.allowed("b", (20, 30)), make.lag("a", "b", 3)
    case = lagged(window, between)
    assert build(case, {}).constraints == (window, between)
    assert build(case, {}, [between]).constraints == (between,)
    assert build(case, {}, []).constraints == ()
    assert build(case, {}).allowed == ([], [0])


@pytest.mark.parametrize(
    ("ranges", "left"),
    [
        (((-5, 0), (3, 4), (100, 120)), ((0, 3, 100), (0, 4, 100))),
        (((-5, -1), (3, 4), (101, 120)), ((3,), (4,))),
        (((0, 1), (99, 100)), ((0, 99), (1, 100))),
        (((-1, 101),), ((0,), (100,))),
        (((101, 120),), ((), ())),
        ((), ((), ())),
    ],
)
def test_usable_days_lie_within_the_horizon(
    ranges: tuple[tuple[int, int], ...], left: tuple[tuple[int, ...], tuple[int, ...]]
) -> None:
    """From day 0 to 100, both included."""
    assert _shared(0, 100, DaySet.of(ranges)) == left


def test_usable_days_are_in_all_sets() -> None:
    """Of three; without any the whole horizon, of one day too; a horizon that ends before it begins
    has none.
    """
    sets = [DaySet.of([(0, 50)]), DaySet.of([(10, 20), (40, 60)]), DaySet.of([(15, 45)])]
    assert _shared(0, 100, *sets) == ((15, 40), (20, 45))
    assert _shared(3, 3) == ((3,), (3,))
    assert _shared(4, 3) == ((), ())


def test_the_usable_days_of_a_node_between_two_days() -> None:
    """Cut at both, which may be used themselves."""
    net = build(lagged(make.allowed("b", (3, 5), (10, 12))), {})
    assert net.usable(1, 4, 11) == [4, 5, 10, 11]
    assert net.usable(1, 5, 10) == [5, 10]
    assert net.usable(1, 6, 9) == []
    assert net.usable(1, 0, 100) == [3, 4, 5, 10, 11, 12]


@pytest.mark.parametrize("seed", range(60))
def test_a_network_without_some_constraints_is_that_of_the_others(seed: int) -> None:
    """It pushes days as one does that is built without them, and tells the same chain where there
    are none; the one that it was taken from stays whole."""
    random = Random(seed)
    case = make.random_problem(random, random.randint(2, 9), random.randint(5, 40), soft=True)
    fixed = make.random_fixed(random, case) if seed % 2 else {}
    whole = build(case, fixed)
    edges = [start_up(whole)[0].level]
    gone = {c.id for c in case.constraints if random.random() < 0.4}
    less = without(whole, gone)
    again = build(case, fixed, [c for c in case.constraints if c.id not in gone])
    (front, failed), (other, lost) = start_up(less), start_up(again)
    assert front.level == other.level and (failed is None) is (lost is None)
    if failed is not None and lost is not None:
        assert contradiction(less, front, failed) == contradiction(again, other, lost)
    assert [start_up(whole)[0].level] == edges
    assert without(whole, set()) is whole
