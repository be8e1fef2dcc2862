"""Bounds are pushed to where they hold, and know what pushed them."""

import network_problems as make
from network_problems import net_of, opened
from turfplan.network.net import FAR
from turfplan.network.propagation import BASE, CHOSEN, push, start, start_up

PAIR = net_of("ab", make.allowed("a", (5, 20)), make.lag("a", "b", 3, 7))


def test_both_sides_begin_at_the_horizon_and_end_where_all_holds() -> None:
    """One from day 5 to 20, the other 3 to 7 days after it; each event says what caused it."""
    up, down = opened(PAIR)
    assert (up.level, down.level) == ([5, 8], [-20, -27])
    assert up.events == [(0, 5, BASE, -1, 2), (1, 2, BASE, -1, 2), (1, 8, 1, 0, 8)]
    assert down.events == [(0, -20, BASE, -1, -30), (1, -30, BASE, -1, -30), (1, -27, 1, 0, -27)]
    assert (up.cause, down.cause) == ([0, 2], [0, 2])


def test_a_push_goes_on_through_nodes_that_it_moves() -> None:
    """Along a row of three, to the end; a push back to the first as well."""
    net = net_of("abc", make.lag("b", "c", 4), make.lag("a", "b", 3), make.lag("c", "a", -9))
    up, down = opened(net)
    assert (up.level, down.level) == ([2, 5, 9], [-23, -26, -30])
    assert push(up, down.level, [(2, 20)]) is None
    assert up.level == [11, 14, 20]


def test_bounds_skip_days_that_may_not_be_used() -> None:
    """The raw bound is kept beside the day that is reached."""
    net = net_of("ab", make.lag("a", "b", 3), make.allowed("b", (2, 4), (9, 12)))
    up, down = opened(net)
    assert up.events[-1] == (1, 9, 0, 0, 5) and down.level == [-9, -12]


def test_bounds_that_meet_are_a_solution_and_bounds_that_pass_are_none() -> None:
    """Exactly three days apart, and a day less."""
    first, lag = make.allowed("a", (5, 5)), make.lag("a", "b", 3)
    up, down = opened(net_of("ab", first, lag, make.allowed("b", (4, 8))))
    assert up.level == [5, 8] and down.level == [-5, -8]
    short = net_of("ab", first, lag, make.allowed("b", (4, 7)))
    front, failed = start_up(short)
    assert start(short) is None
    assert failed == 2 and front.events[2] == (1, FAR, 1, 0, 8)


def test_a_node_without_any_day_fails_at_once() -> None:
    """The first of two is told."""
    none = [make.allowed(name) for name in "bc"]
    front, failed = start_up(net_of("abc", *none))
    assert failed == 1 and front.events[1] == (1, FAR, BASE, -1, 2)


def test_a_done_node_stands_on_its_day_on_both_sides() -> None:
    """Outside of the horizon too; what follows it begins in the horizon."""
    up, down = opened(net_of("ab", make.lag("a", "b", -3, 4), fixed={"a": 1}))
    assert (up.level, down.level) == ([1, 2], [-1, -5])
    assert up.events[0] == (0, 1, BASE, -1, 1) and down.events[0] == (0, -1, BASE, -1, -1)


def test_a_node_is_pushed_to_a_chosen_day_with_what_follows() -> None:
    """What lies there already, or beyond, is left, and says nothing."""
    up, down = opened(PAIR)
    before = len(up.events)
    assert push(up, down.level, [(0, 5), (1, 7)]) is None and len(up.events) == before
    assert push(up, down.level, [(0, 6)]) is None
    assert up.events[before:] == [(0, 6, CHOSEN, -1, 6), (1, 9, 1, before, 9)]
    assert (up.level, up.cause) == ([6, 9], [before, before + 1])


def test_a_push_may_reach_the_other_side_and_not_pass_it() -> None:
    """The last day of the one that is pushed, and of one that it pushes; a day more fails with the
    event that passes.
    """
    up, down = opened(PAIR)
    assert push(up.copy(), down.level, [(0, 20)]) is None
    assert push(up.copy(), down.level, [(1, 27)]) is None
    high = up.copy()
    assert push(high, down.level, [(1, 28)]) == high.cause[1] == len(high.events) - 1
    up, down = opened(net_of("ab", make.lag("a", "b", 3), make.allowed("b", (5, 12))))
    down.level[0] = -20
    failed = push(up, down.level, [(0, 10)])
    assert failed is not None and up.events[failed][:3] == (1, FAR, 0)


def test_a_copy_moves_alone() -> None:
    """Its bounds are its own; the story is shared."""
    up, down = opened(PAIR)
    other = up.copy()
    push(other, down.level, [(0, 9)])
    assert (up.level, other.level) == ([5, 8], [9, 12])
    assert other.events is up.events


def test_what_stands_in_the_place_of_a_constraint_is_no_number_of_one() -> None:
    """Numbers begin with nought."""
    assert BASE < 0 and CHOSEN < 0 and BASE != CHOSEN
