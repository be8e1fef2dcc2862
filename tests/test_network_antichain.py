"""The largest set of nodes none of which is related to another."""

from itertools import combinations
from random import Random

from turfplan.network.antichain import largest_antichain

Order = dict[int, frozenset[int]]


def random_order(random: Random, count: int) -> Order:
    """Some of the numbers above each, with all that are above those."""
    above: Order = {}
    for number in reversed(range(count)):
        near = {other for other in range(number + 1, count) if random.random() < 0.3}
        above[number] = frozenset(near.union(*(above[other] for other in near)))
    return above


def apart(order: Order, members: tuple[int, ...]) -> bool:
    """Whether no member is below another."""
    return not any(order[member] & set(members) for member in members)


def test_no_two_of_a_chain_and_all_that_lie_apart() -> None:
    """One of a row of three; both of two rows; the three over one."""
    row = {0: frozenset({1, 2}), 1: frozenset({2}), 2: frozenset[int]()}
    assert len(largest_antichain(row)) == 1
    assert largest_antichain({0: frozenset(), 1: frozenset()}) == {0, 1}
    fan = {0: frozenset({1, 2, 3}), 1: frozenset(), 2: frozenset(), 3: frozenset()}
    assert largest_antichain(fan) == {1, 2, 3}
    roof = {0: frozenset({3}), 1: frozenset({3}), 2: frozenset({3}), 3: frozenset()}
    assert largest_antichain(roof) == {0, 1, 2}
    assert largest_antichain({}) == frozenset()


def test_it_is_as_large_as_any_found_by_trying_all() -> None:
    """Sixty orders of up to seven."""
    random = Random(3)
    for _ in range(60):
        order = random_order(random, random.randint(1, 7))
        found = largest_antichain(order)
        assert apart(order, tuple(found))
        larger = combinations(order, len(found) + 1)
        assert not any(apart(order, members) for members in larger)
