"""Chains say link by link why a bound holds."""

import pytest

import network_problems as make
from network_problems import net_of, opened
from turfplan.network.chains import Link, _end, _jumps, chain, contradiction
from turfplan.network.net import FAR, Net
from turfplan.network.propagation import Front, advance, push, start_up
from turfplan.records.constraints import Allowed, TableStep

Told = tuple[str, int, str, str]


def brief(links: tuple[Link, ...] | list[Link]) -> list[Told]:
    """Node, day, bound and kind of each."""
    return [(link.node, link.day, link.bound, link.kind) for link in links]


def story(net: Net, front: Front, node: int) -> list[Told]:
    """Why the bound of a node is where it is."""
    return brief(chain(net, front, front.cause[node], {}))


@pytest.mark.parametrize(
    ("node", "bound", "step"),
    [
        ("b", "not_before", "minimum"),
        ("b", "not_after", "maximum"),
        ("a", "not_after", "minimum"),
        ("a", "not_before", "maximum"),
    ],
)
def test_the_step_of_a_lag_that_binds(node: str, bound: str, step: str) -> None:
    """The later is held up by the least, held back by the most; the earlier the other way round."""
    between = make.lag("a", "b", 3, 9)
    assert Link(node, 5, bound, "lag", between, "a").step == step  # type: ignore[arg-type]
    window = make.allowed("a", (1, 2))
    assert Link(node, 5, bound, "allowed", window).step is None  # type: ignore[arg-type]


def test_chains_of_both_sides_end_at_the_horizon_or_at_allowed_days() -> None:
    """Nothing but the horizon holds the first; its days the second; a lag what follows."""
    net = net_of("abc", make.allowed("b", (5, 20)), make.lag("b", "c", 3, 7))
    up, down = opened(net)
    assert story(net, up, 0) == [("a", 2, "not_before", "horizon")]
    assert story(net, down, 0) == [("a", 30, "not_after", "horizon")]
    assert story(net, up, 2) == [("c", 8, "not_before", "lag"), ("b", 5, "not_before", "allowed")]
    assert story(net, down, 2) == [("c", 27, "not_after", "lag"), ("b", 20, "not_after", "allowed")]
    (held, _) = chain(net, up, up.cause[2], {})
    assert (held.constraint, held.other) == (net.constraints[1], "b")


def test_chains_end_at_done_days_and_at_wishes() -> None:
    """A done day holds what follows, a chosen one too."""
    net = net_of("abc", make.lag("a", "b", 3), make.lag("b", "c", 4), fixed={"a": 6})
    up, down = opened(net)
    assert story(net, up, 1) == [("b", 9, "not_before", "lag"), ("a", 6, "not_before", "fixed")]
    assert story(net, down, 0) == [("a", 6, "not_after", "fixed")]
    push(up, down.level, [(1, 12)])
    assert story(net, up, 2) == [("c", 16, "not_before", "lag"), ("b", 12, "not_before", "wish")]
    push(down, up.level, [(2, -20)])
    assert story(net, down, 1) == [("b", 16, "not_after", "lag"), ("c", 20, "not_after", "wish")]


def test_what_was_told_of_an_event_is_told_again_of_the_same_side_alone() -> None:
    """Both sides count their events from nought."""
    net = net_of("ab", make.lag("a", "b", 3))
    up, down = opened(net)
    told: dict[tuple[bool, int], tuple[list[Link], int]] = {}
    assert brief(chain(net, up, 0, told)) == [("a", 2, "not_before", "horizon")]
    assert brief(chain(net, down, 0, told)) == [("a", 30, "not_after", "horizon")]
    assert set(told) == {(True, 0), (False, 0)}
    assert chain(net, up, 0, told)[0] is told[True, 0][0][0]


def test_allowed_days_carry_a_bound_by_the_widest_jump_each_time() -> None:
    """The first limit leads from 3 to 5, the second from 5 over 9; upward and downward."""
    odd = make.allowed("a", (5, 7), (12, 30), id="odd")
    even = make.allowed("a", (2, 4), (9, 14), (20, 25), id="even")
    net = net_of("a", odd, even)
    up, down = opened(net)
    assert (up.level, down.level) == ([12], [-25])
    links = _jumps(net, up, 0, 5, 12)
    assert [(link.day, link.constraint) for link in links] == [(9, even), (12, odd)]
    back = _jumps(net, down, 0, -19, -14)
    assert [(link.day, link.constraint, link.bound) for link in back] == [(14, even, "not_after")]
    assert _jumps(net, up, 0, 12, 12) == []
    assert {link.kind for link in (*links, *back)} == {"allowed"}


def test_of_two_equal_jumps_the_first_limit_is_told() -> None:
    """Two limits that both open on day 9."""
    first, second = make.allowed("a", (9, 20), id="first"), make.allowed("a", (9, 30), id="second")
    net = net_of("a", first, second)
    (link,) = _jumps(net, opened(net)[0], 0, 2, 9)
    assert link.constraint is first


def test_where_no_day_is_left_the_end_of_what_ends_is_told() -> None:
    """The last allowed day on the way up, the first on the way down, and the other bound."""
    limit = make.allowed("a", (5, 7), (12, 20))
    net = net_of("a", limit)
    up, down = opened(net)
    assert brief(_jumps(net, up, 0, 21, FAR)) == [("a", 20, "not_after", "allowed")]
    assert brief(_jumps(net, down, 0, -4, FAR)) == [("a", 5, "not_before", "allowed")]
    (link,) = _jumps(net, up, 0, 21, FAR)
    assert link.constraint is limit


@pytest.mark.parametrize(("up", "bound"), [(True, "not_after"), (False, "not_before")])
def test_an_end_is_that_of_allowed_days_of_a_done_day_or_of_the_horizon(
    up: bool, bound: str
) -> None:
    """Allowed days that are none end where the horizon does."""
    net = net_of("ab", fixed={"b": 9})
    edge = 30 if up else 2
    none, some = make.allowed("a"), make.allowed("a", (5, 7), (12, 20))
    found = [_end(net, *asked) for asked in ((0, up, None), (0, up, none), (0, up, some))]
    assert brief(found) == [
        ("a", edge, bound, "horizon"),
        ("a", edge, bound, "allowed"),
        ("a", 20 if up else 5, bound, "allowed"),
    ]
    assert brief([_end(net, 1, up, None)]) == [("b", 9, bound, "fixed")]
    assert [link.constraint for link in found] == [None, none, some]


def test_a_lag_that_no_day_can_meet_gives_a_day_past_the_horizon() -> None:
    """The other may come no later than day 4 by its table, and comes on day 6: a day after the
    last; downward a day before the first.
    """
    most = make.lag("a", "b", None, TableStep(0, (4,)))
    net = net_of("ab", make.allowed("b", (6, 20)), most)
    front, failed = start_up(net)
    assert failed is not None
    assert brief(contradiction(net, front, failed)) == [
        ("a", 31, "not_before", "lag"),
        ("b", 6, "not_before", "allowed"),
    ]
    late = net_of("ab", make.lag("a", "b", TableStep(0, (25,))), make.allowed("b", (6, 20)))
    front = Front(late.down, [-30, -20], [0, 1], [(0, -30, -1, -1, -30), (1, -20, -1, -1, -30)])
    failed = advance(front, [2, 6], [1])
    assert failed is not None
    assert brief(contradiction(late, front, failed)) == [
        ("a", 1, "not_after", "lag"),
        ("b", 20, "not_after", "allowed"),
    ]


def test_a_contradiction_is_told_from_the_limit_to_the_cause() -> None:
    """A day too few between two windows."""
    net = net_of("ab", make.allowed("a", (8, 9)), make.lag("a", "b", 5), make.allowed("b", (3, 12)))
    front, failed = start_up(net)
    assert failed is not None
    links = contradiction(net, front, failed)
    assert brief(links) == [
        ("b", 12, "not_after", "allowed"),
        ("b", 13, "not_before", "lag"),
        ("a", 8, "not_before", "allowed"),
    ]
    limits = [link.constraint for link in links]
    assert isinstance(limits[0], Allowed) and limits == [net.constraints[n] for n in (2, 1, 0)]


def test_a_circle_of_lags_is_told_once_round() -> None:
    """Two that wait for each other, and a third that begins it."""
    net = net_of(
        "abc", make.allowed("c", (9, 30)), make.lag("c", "a", 0), make.lag("a", "b", 1),
        make.lag("b", "a", 1),
    )  # fmt: skip
    front, failed = start_up(net)
    assert failed is not None
    links = contradiction(net, front, failed)
    lags = [link.constraint.id for link in links if link.kind == "lag" and link.constraint]
    assert sorted(lags) == ["a to b", "b to a", "c to a"]
    assert [link.kind for link in links].count("horizon") == 1
