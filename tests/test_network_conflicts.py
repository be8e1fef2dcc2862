"""Which constraints conflict, and which of them go."""

from dataclasses import replace

import network_problems as make
from turfplan.network import Conflict, conflict
from turfplan.network.conflicts import choose_constraints, feasible
from turfplan.records.constraints import Constraint, NetworkProblem, Node, Strength

SOFT = Strength.ADVICE


def names(constraints: tuple[Constraint, ...]) -> list[str]:
    """Their ids."""
    return [constraint.id for constraint in constraints]


def chosen(case: NetworkProblem, **wishes: int) -> tuple[list[str], list[str]]:
    """The ids that are kept, and those that go."""
    found = choose_constraints(case, {}, wishes)
    assert not isinstance(found, Conflict)
    return names(found[0]), names(found[1])


def test_a_conflict_holds_nothing_that_it_can_do_without() -> None:
    """A window of the same node that plays no part, and a node beside, are left out."""
    case = make.problem(
        [Node("a", 1), Node("b", 1), Node("c", 1)],
        [
            make.allowed("a", (20, 30)),
            make.allowed("c", (5, 9)),
            make.lag("a", "b", 5),
            make.allowed("b", (0, 90), id="wide"),
            make.allowed("b", (0, 24)),
            make.lag("b", "c", -90),
        ],
    )
    found = conflict(case)
    assert found is not None
    assert names(found.constraints) == ["a allowed", "a to b", "b allowed"]
    assert not feasible(case, {}, case.constraints)
    rest = [c for c in case.constraints if c.id != "b allowed"]
    assert feasible(case, {}, rest)


def test_what_began_a_circle_is_no_part_of_its_conflict() -> None:
    """Two that wait for each other, moved first by a third: the two lags alone."""
    case = make.problem(
        [Node("a", 1), Node("b", 1), Node("c", 1)],
        [
            make.allowed("c", (9, 90)),
            make.lag("c", "a", 0),
            make.lag("a", "b", 1, strength=Strength.STRONG),
            make.lag("b", "a", 1, strength=SOFT),
        ],
    )
    found = conflict(case)
    assert found is not None
    assert sorted(names(found.constraints)) == ["a to b", "b to a"]
    assert chosen(case) == (["c allowed", "c to a", "a to b"], ["b to a"])


def test_all_that_can_hold_is_kept() -> None:
    """As it was named, and nothing goes."""
    case = make.problem([Node("a", 1)], [make.allowed("a", (3, 9), strength=SOFT)])
    assert conflict(case) is None
    assert chosen(case) == (["a allowed"], [])


def test_hard_constraints_that_conflict_are_told_and_not_given_up() -> None:
    """Two windows that do not meet."""
    windows: list[Constraint] = [
        make.allowed("a", (3, 9), id="w"),
        make.allowed("a", (12, 20), id="x"),
    ]
    case = make.problem([Node("a", 1)], windows)
    found = choose_constraints(case, {}, {})
    assert isinstance(found, Conflict) and set(names(found.constraints)) == {"w", "x"}


def two_windows(first: Strength, second: Strength) -> NetworkProblem:
    """Two windows a day too near each other for the lag between them."""
    return make.problem(
        [Node("a", 1), Node("b", 1)],
        [
            make.allowed("a", (50, 50), strength=first),
            make.lag("a", "b", 20),
            make.allowed("b", (0, 69), strength=second),
        ],
    )


def test_the_weaker_goes_then_the_later_by_wishes() -> None:
    """Strength comes before time; a wish before the earliest day."""
    assert chosen(two_windows(Strength.STRONG, SOFT))[1] == ["b allowed"]
    assert chosen(two_windows(SOFT, Strength.STRONG))[1] == ["a allowed"]
    assert chosen(two_windows(SOFT, SOFT), a=50, b=60)[1] == ["b allowed"]
    assert chosen(two_windows(SOFT, SOFT), a=60, b=50)[1] == ["a allowed"]


def test_without_wishes_the_earliest_day_under_hard_constraints_tells_which_is_later() -> None:
    """The second waits for the first; where both may begin at once, the one that is named later."""
    assert chosen(two_windows(SOFT, SOFT))[1] == ["b allowed"]
    back = make.problem([Node("b", 1), Node("a", 1)], list(two_windows(SOFT, SOFT).constraints))
    assert chosen(back)[1] == ["b allowed"]
    most: list[Constraint] = [
        make.allowed("a", (0, 10), strength=SOFT),
        make.allowed("b", (20, 30), strength=SOFT),
        make.lag("a", "b", None, 5),
    ]
    assert chosen(make.problem([Node("a", 1), Node("b", 1)], most))[1] == ["b allowed"]
    assert chosen(make.problem([Node("b", 1), Node("a", 1)], most))[1] == ["a allowed"]


def test_what_was_given_up_in_vain_comes_back() -> None:
    """The weakest window goes first, then a stronger one must go: with that gone it fits again."""
    case = make.problem(
        [Node("a", 1), Node("b", 1)],
        [
            make.allowed("a", (50, 50), strength=Strength.STRONG),
            make.lag("a", "b", 20),
            make.allowed("b", (0, 69), id="weak", strength=Strength.PREFERENCE),
            make.allowed("b", (0, 60), id="advice", strength=SOFT),
            make.allowed("b", (0, 20), id="hard"),
        ],
    )
    kept, gone = chosen(case)
    assert gone == ["a allowed"]
    assert kept == ["a to b", "weak", "advice", "hard"]


def test_a_done_day_decides_which_node_is_later() -> None:
    """Done on day 80, the first is the later of both, whatever was wished."""
    case = make.problem(
        [Node("a", 1), Node("b", 1), Node("c", 1)],
        [
            make.allowed("b", (0, 84), strength=SOFT),
            make.lag("a", "b", 5, strength=SOFT),
        ],
    )
    found = choose_constraints(case, {"a": 80}, {"a": 10, "b": 40})
    assert not isinstance(found, Conflict)
    assert names(found[1]) == ["a to b"]


def test_what_comes_back_first_is_the_strongest() -> None:
    """Two windows that leave no day together, both in the way of a third that must go in the end:
    the weaker of the two stays away.
    """
    case = make.problem(
        [Node("a", 1), Node("b", 1)],
        [
            make.allowed("a", (50, 50), strength=Strength.STRONG),
            make.lag("a", "b", 0),
            make.allowed("b", (8, 15), id="advice", strength=SOFT),
            make.allowed("b", (0, 5), id="weak", strength=Strength.PREFERENCE),
            make.allowed("b", (0, 20), id="hard"),
        ],
    )
    assert chosen(case) == (["a to b", "advice", "hard"], ["weak", "a allowed"])


def test_of_two_as_strong_what_yields_is_given_up_first() -> None:
    """Whichever of them comes later."""
    for yielding in ("a allowed", "a to b"):
        rules: list[Constraint] = [
            make.allowed("a", (5, 9), strength=Strength.STRONG),
            make.lag("a", "b", 5, strength=Strength.STRONG),
        ]
        rules = [replace(c, yields=c.id == yielding) for c in rules]
        case = make.problem([Node("a", 1), Node("b", 1)], [*rules, make.allowed("b", (1, 9))])
        assert chosen(case)[1] == [yielding]
