"""Repairs against brute force and hand-made cases."""

from random import Random
from unittest import mock

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import network_problems as make
from turfplan.network import Conflict, Repair, repair, repairing, solve_softly
from turfplan.records.constraints import Node

seeds = st.integers(0, 10**9)
patient = settings(deadline=None, max_examples=150)


@pytest.mark.full
@patient
@given(seeds)
def test_repair_is_the_least_change(seed: int) -> None:
    """Fewest moves, then fewest days, then the earliest days, then new nodes where solve would put
    them.
    """
    random = Random(seed)
    case = make.random_problem(
        random, random.randint(1, 4), random.randint(1, 12), soft=random.random() < 0.5
    )
    fixed = make.random_fixed(random, case)
    published = make.random_published(random, case)
    old = make.counted(case, published, fixed)
    got = repair(case, published, fixed)
    if isinstance(got, Conflict):
        assert isinstance(solve_softly(case, fixed), Conflict)
        return
    kept = tuple(c for c in case.constraints if c not in got.dropped)
    found = make.solutions(case, fixed, kept)
    least = min(make.change(days, old) for days in found)
    best = [days for days in found if make.change(days, old) == least]
    earliest = {name: min(days[name] for days in best) for name in old}
    left = [days for days in best if all(days[name] == day for name, day in earliest.items())]
    names = {node.id for node in case.nodes} - set(old)
    assert [dict(got.days)] == make.nearest(case, left, names)
    assert {(move.node, move.was, move.now) for move in got.moved} == {
        (name, day, got.days[name]) for name, day in old.items() if got.days[name] != day
    }


@pytest.mark.full
@patient
@given(seeds)
def test_what_precedes_the_cut_changes_nothing_but_the_speed(seed: int) -> None:
    """The cut over every day of every node gives the repair that the small cut gives."""
    random = Random(seed)
    case = make.season(random, random.randint(3, 9), 30)
    error = random.choice([2, 12])
    published = {node.id: (node.ideal or 0) + random.randint(-error, error) for node in case.nodes}
    published = {name: day for name, day in published.items() if random.random() < 0.9}
    got = repair(case, published)
    with (
        mock.patch.object(repairing, "_pushes", lambda *_: {}),
        mock.patch.object(repairing, "_narrow", lambda net, fronts, *_: fronts),
    ):
        assert repair(case, published) == got


def test_repair_keeps_a_schedule_that_still_holds() -> None:
    """A published schedule that holds is returned unchanged, even where ideals lie elsewhere."""
    case = make.problem([Node("a", 1, 10), Node("b", 1, 12)], [make.lag("a", "b", 2, 9)])
    got = repair(case, {"a": 30, "b": 37})
    assert isinstance(got, Repair)
    assert dict(got.days) == {"a": 30, "b": 37}
    assert got.moved == ()
    assert [link.kind for link in got.schedule.not_earlier("b")] == ["wish"]


def test_repair_moves_the_one_rather_than_the_many() -> None:
    """A longer wait is met by moving the single node before it, not the three after it."""
    case = make.problem(
        [Node("a", 1), Node("b", 1), Node("c", 1), Node("d", 1)],
        [make.lag("a", "b", 14), make.lag("b", "c", 7), make.lag("c", "d", 7)],
    )
    got = repair(case, {"a": 40, "b": 47, "c": 54, "d": 61})
    assert isinstance(got, Repair)
    assert [(move.node, move.was, move.now) for move in got.moved] == [("a", 40, 33)]


def test_what_stays_explains_what_moves() -> None:
    """A moved node is explained by the node it must follow, also where the moved one is placed
    first.
    """
    case = make.problem(
        [Node("seed", 1, 47), Node("core", 2, 40)],
        [make.lag("core", "seed", 14), make.allowed("core", (38, 90))],
    )
    pushed = repair(case, {"core": 40, "seed": 47})
    assert isinstance(pushed, Repair)
    assert [(move.node, move.now) for move in pushed.moved] == [("seed", 54)]
    assert [(link.kind, link.node) for link in pushed.schedule.not_earlier("seed")] == [
        ("lag", "seed"),
        ("wish", "core"),
    ]


def test_repair_weighs_a_jump_either_way_with_all_it_takes_along() -> None:
    """A node that must leave its day goes the way that moves fewer others, and takes those all the
    way.
    """
    names = ["s", "t", "u", "w"]
    case = make.problem(
        [Node(name, 1) for name in names],
        [
            make.allowed("s", (5, 5), (20, 20)),
            make.lag("s", "t", 0),
            make.lag("u", "s", 0),
            make.lag("w", "s", 0),
        ],
    )
    got = repair(case, dict.fromkeys(names, 14))
    assert isinstance(got, Repair)
    assert dict(got.days) == {"s": 20, "t": 20, "u": 14, "w": 14}


def test_repair_pushes_on_what_a_late_task_holds_up() -> None:
    """A task done late moves what must wait for it, and the chain says so."""
    case = make.problem(
        [Node("a", 1), Node("b", 1), Node("c", 1), Node("d", 1)],
        [make.lag("a", "b", 7), make.lag("b", "c", 7), make.lag("a", "d", 7)],
    )
    got = repair(case, {"a": 40, "b": 47, "c": 57, "d": 60}, {"a": 45})
    assert isinstance(got, Repair)
    assert [(move.node, move.was, move.now) for move in got.moved] == [("b", 47, 52), ("c", 57, 59)]
    story = [(link.kind, link.node, link.day) for link in got.schedule.not_earlier("c")]
    assert story == [("lag", "c", 59), ("lag", "b", 52), ("fixed", "a", 45)]
