"""Nodes in turn take the feasible day nearest their wish."""

import pytest

import network_problems as make
from turfplan.network import Bounds, Conflict, Schedule, bounds, place_again, solve, solve_softly
from turfplan.records.constraints import Constraint, Node, Strength


def solved(nodes: list[Node], constraints: list[Constraint]) -> Schedule:
    """The schedule of a problem that has one, from day 0 to 100."""
    found = solve(make.problem(nodes, constraints))
    assert isinstance(found, Schedule)
    return found


@pytest.mark.parametrize(
    ("wish", "day"),
    [
        (None, 10),
        (9, 10),
        (10, 10),
        (11, 11),
        (20, 20),
        (21, 20),
        (24, 20),
        (25, 20),
        (26, 30),
        (39, 39),
        (40, 40),
        (41, 40),
    ],
)
def test_a_node_takes_the_day_nearest_its_wish(wish: int | None, day: int) -> None:
    """From day 10 to 20 and 30 to 40: of two as near the earlier; the first where nothing is
    wished; the ends beyond them.
    """
    found = solved([Node("a", 1, wish)], [make.allowed("a", (10, 20), (30, 40))])
    assert dict(found.days) == {"a": day}


def test_low_priorities_come_first_then_names() -> None:
    """Two that want the same day, ten apart: who is placed first has it."""
    lag = make.lag("b", "a", 10)
    assert dict(solved([Node("a", 2, 50), Node("b", 1, 50)], [lag]).days) == {"b": 50, "a": 60}
    assert dict(solved([Node("b", 2, 50), Node("a", 1, 50)], [lag]).days) == {"b": 40, "a": 50}
    assert dict(solved([Node("b", 1, 50), Node("a", 1, 50)], [lag]).days) == {"b": 40, "a": 50}


def test_a_day_takes_along_what_depends_on_it_whichever_side_is_nearer() -> None:
    """Placed before its gap, what leads to it is held back; after it, what follows is pushed on."""
    gap = make.allowed("m", (0, 20), (30, 100))
    rest = [make.lag("f", "m", 5), make.lag("m", "z", 5)]
    nodes = [Node("f", 2, 90), Node("z", 3)]
    before = solved([Node("m", 1, 24), *nodes], [gap, *rest])
    after = solved([Node("m", 1, 27), *nodes], [gap, *rest])
    assert dict(before.days) == {"m": 20, "f": 15, "z": 25}
    assert dict(after.days) == {"m": 30, "f": 25, "z": 35}
    assert [link.kind for link in before.not_earlier("m")] == ["wish"]
    assert [link.day for link in after.not_later("f")] == [25, 30]


def test_bounds_are_told_before_and_after_days_are_chosen() -> None:
    """The earliest and latest days of both, and why each cannot be passed."""
    case = make.problem(
        [Node("a", 1, 50), Node("b", 2)], [make.allowed("a", (10, 60)), make.lag("a", "b", 7, 9)]
    )
    limits, found = bounds(case), solve(case)
    assert isinstance(limits, Bounds) and isinstance(found, Schedule)
    assert (dict(limits.earliest), dict(limits.latest)) == ({"a": 10, "b": 17}, {"a": 60, "b": 69})
    assert (found.earliest, found.latest) == (limits.earliest, limits.latest)
    assert dict(found.days) == {"a": 50, "b": 57}
    assert [link.day for link in limits.not_earlier("b")] == [17, 10]
    assert [link.day for link in limits.not_later("b")] == [69, 60]
    assert [link.day for link in found.not_earlier("b")] == [57, 50]
    assert [link.day for link in found.not_later("a")] == [50]


def test_other_wishes_are_placed_within_the_same_bounds() -> None:
    """As if they had been there at first; the first schedule stays as it was."""
    lag = make.lag("a", "b", 10)
    first = solved([Node("a", 1, 20), Node("b", 2, 70)], [lag])
    again = [Node("a", 2, 66), Node("b", 1, 70)]
    second = place_again(first, again)
    assert dict(second.days) == {"a": 60, "b": 70} == dict(solved(again, [lag]).days)
    assert dict(first.days) == {"a": 20, "b": 70}
    assert second.bounds is first.bounds and second.dropped == ()


TIGHT = make.problem(
    [Node("a", 1, 50), Node("b", 2, 60)],
    [
        make.allowed("a", (50, 50), strength=Strength.STRONG),
        make.lag("a", "b", 20),
        make.allowed("b", (0, 60), strength=Strength.ADVICE),
    ],
)


def test_what_is_to_be_kept_is_not_given_up() -> None:
    """The advice goes where all but HARD may go; not where advice is to be kept; it may where what
    is stronger is.
    """
    for keep in (Strength.HARD, Strength.STRONG):
        found = solve_softly(TIGHT, keep=keep)
        assert isinstance(found, Schedule)
        assert [c.id for c in found.dropped] == ["b allowed"]
        assert dict(found.days) == {"a": 50, "b": 70}
    kept = solve_softly(TIGHT, keep=Strength.ADVICE)
    assert isinstance(kept, Conflict)
    assert [c.id for c in kept.constraints] == ["a allowed", "a to b", "b allowed"]
    plain = solve(TIGHT)
    assert isinstance(plain, Conflict) and len(plain.constraints) == 3
    assert isinstance(bounds(TIGHT), Conflict)


def test_what_can_be_kept_is_kept_without_dropping() -> None:
    """With a done day as well, which stands."""
    case = make.problem([Node("a", 1, 50), Node("b", 2, 60)], [make.lag("a", "b", 20)])
    found = solve_softly(case)
    assert isinstance(found, Schedule)
    assert (dict(found.days), found.dropped) == ({"a": 50, "b": 70}, ())
    for by in (solve, solve_softly):
        done = by(case, {"a": 45})
        assert isinstance(done, Schedule) and dict(done.days) == {"a": 45, "b": 65}
