"""Finds the largest set of nodes none of which is related to another."""

from collections.abc import Mapping


def largest_antichain(relation: Mapping[int, frozenset[int]]) -> frozenset[int]:
    """The largest antichain of a strict partial order, given as everything each element is below.

    By Dilworth's theorem it has as many members as chains are needed to cover the order, which a
    maximum matching of elements with greater ones finds; König's theorem turns the matching into
    the antichain.
    """
    partner: dict[int, int] = {}
    for element in relation:
        _augment(relation, partner, element, set())
    matched = set(partner.values())
    lower = {element for element in relation if element not in matched}
    upper: set[int] = set()
    frontier = list(lower)
    while frontier:
        for greater in relation[frontier.pop()]:
            if greater not in upper:
                upper.add(greater)
                if partner[greater] not in lower:
                    lower.add(partner[greater])
                    frontier.append(partner[greater])
    return frozenset(element for element in relation if element in lower and element not in upper)


def _augment(
    relation: Mapping[int, frozenset[int]], partner: dict[int, int], element: int, tried: set[int]
) -> bool:
    """Match `element` with a greater one, moving other matches if need be."""
    for greater in sorted(relation[element]):
        if greater in tried:
            continue
        tried.add(greater)
        if greater not in partner or _augment(relation, partner, partner[greater], tried):
            partner[greater] = element
            return True
    return False
