"""Repairs, options of a conflict and minimal networks against brute force and hand-made cases."""

from dataclasses import replace
from random import Random
from unittest import mock

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import network_problems as make
from turfplan.constraints import Allowed, Constraint, Days, DaySet, Node, Step, Table
from turfplan.network import (
    Conflict,
    MinimalNetwork,
    Repair,
    conflict,
    minimal_network,
    options,
    repair,
    repairing,
    solve_softly,
)

seeds = st.integers(0, 10**9)
patient = settings(deadline=None, max_examples=150)


@patient
@given(seeds)
def test_repair_is_the_least_change(seed: int) -> None:
    """Fewest moves, then fewest days, then the earliest days, then new nodes where solve would put them."""
    random = Random(seed)
    case = make.random_problem(random, random.randint(1, 4), random.randint(1, 12), soft=random.random() < 0.5)
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


@patient
@given(seeds)
def test_options_are_the_smallest_that_help(seed: int) -> None:
    """Each option lets a solution exist, a day less does not, and parts left out could not help."""
    random = Random(seed)
    case = make.random_problem(random, random.randint(1, 3), random.randint(1, 8))
    fixed = make.random_fixed(random, case)
    found = conflict(case, fixed)
    if found is None:
        return
    for option in options(case, fixed, found):
        given = option.constraint
        among = case.constraints if option.remaining is None else found.constraints
        rest = tuple(c for c in among if c != given)
        assert bool(make.solutions(case, fixed, tuple(c for c in case.constraints if c != given))) == (
            option.remaining is None
        )
        if option.relaxed is None or option.days is None:
            assert option.part == "drop"
            assert make.solutions(case, fixed, rest)
            continue
        assert make.solutions(case, fixed, (*rest, option.relaxed))
        less = _relaxed(given, option.part, option.days - 1)
        assert not make.solutions(case, fixed, (*rest, less))
        assert _relaxed(given, option.part, option.days) == option.relaxed
    assert {option.constraint.id for option in options(case, fixed, found)} == {c.id for c in found.constraints}


def _relaxed(given: Constraint, part: str, days: int) -> Constraint:
    """The constraint with one part wider by some days."""
    if isinstance(given, Allowed):
        before, after = (days, 0) if part == "earlier" else (0, days)
        return replace(given, days=DaySet.of([(a - before, b + after) for a, b in given.days.ranges]))
    return replace(given, **{part: _moved(getattr(given, part), -days if part == "minimum" else days)})


def _moved(step: Step, days: int) -> Step:
    if isinstance(step, Days):
        return Days(step.count + days)
    return Table(step.origin, tuple(day + days for day in step.targets), step.words)


def test_options_offer_a_later_end_a_shorter_wait_or_an_earlier_start() -> None:
    """A late seeding can be saved by four days on any side, or by leaving a constraint out."""
    case = make.problem(
        [Node("core", 1), Node("seed", 1)],
        [make.allowed("seed", (10, 15)), make.lag("core", "seed", 7), make.allowed("core", (12, 40))],
    )
    found = conflict(case)
    assert found is not None
    assert [(option.constraint.id, option.part, option.days) for option in options(case, {}, found)] == [
        ("core allowed", "earlier", 4),
        ("core allowed", "drop", None),
        ("core to seed", "minimum", 4),
        ("core to seed", "drop", None),
        ("seed allowed", "later", 4),
        ("seed allowed", "drop", None),
    ]


def test_options_find_every_number_of_days() -> None:
    """The search for the smallest number of days skips none."""
    for late in range(1, 50):
        case = make.problem([Node("a", 1)], [make.allowed("a", (0, 20)), make.allowed("a", (20 + late, 90), id="b")])
        found = conflict(case)
        assert found is not None
        days = {(option.constraint.id, option.part): option.days for option in options(case, {}, found)}
        assert days["a allowed", "later"] == late
        assert days["b", "earlier"] == late


def test_options_say_what_conflict_remains() -> None:
    """Where two things are wrong, mending one says what is still wrong."""
    case = make.problem(
        [Node("core", 1), Node("seed", 1)],
        [
            make.allowed("seed", (10, 15)),
            make.allowed("seed", (17, 20), id="seed crew"),
            make.allowed("core", (10, 15)),
            make.allowed("core", (30, 40), id="core crew"),
        ],
    )
    found = conflict(case)
    assert found is not None
    for option in options(case, {}, found):
        assert option.remaining is not None
        assert not set(option.remaining.constraints) & set(found.constraints)


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
    """A moved node is explained by the node it must follow, also where the moved one is placed first."""
    case = make.problem(
        [Node("seed", 1, 47), Node("core", 2, 40)], [make.lag("core", "seed", 14), make.allowed("core", (38, 90))]
    )
    pushed = repair(case, {"core": 40, "seed": 47})
    assert isinstance(pushed, Repair)
    assert [(move.node, move.now) for move in pushed.moved] == [("seed", 54)]
    assert [(link.kind, link.node) for link in pushed.schedule.not_earlier("seed")] == [
        ("lag", "seed"),
        ("wish", "core"),
    ]


def test_repair_weighs_a_jump_either_way_with_all_it_takes_along() -> None:
    """A node that must leave its day goes the way that moves fewer others, and takes those all the way."""
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


@patient
@given(seeds)
def test_minimal_network_is_that_of_every_solution(seed: int) -> None:
    """Days and differences are the extremes found by trying everything."""
    random = Random(seed)
    names = ["a", "b", "c"]
    made: list[Constraint] = []
    for number in range(random.randint(0, 5)):
        before, after = random.sample(names, 2)
        made.append(make.lag(before, after, random.randint(-4, 4), random.randint(-1, 6), id=f"l{number}"))
    made.append(make.allowed("a", (random.randint(-1, 3), random.randint(3, 12))))
    case = make.problem([Node(name, 1) for name in names], made, 0, 9)
    found = make.solutions(case, {})
    got = minimal_network(case)
    if not found:
        assert isinstance(got, Conflict)
        return
    assert isinstance(got, MinimalNetwork)
    for one in names:
        assert got.days[one] == (min(days[one] for days in found), max(days[one] for days in found))
        for two in set(names) - {one}:
            gaps = [days[two] - days[one] for days in found]
            assert got.differences[one, two] == (min(gaps), max(gaps))


def test_minimal_network_refuses_gaps_and_tables() -> None:
    """Shortest paths know neither gaps among allowed days nor step tables."""
    nodes = [Node("a", 1), Node("b", 1)]
    for limit in (make.allowed("a", (0, 1), (5, 6)), make.lag("a", "b", Table(0, (1, 2)))):
        with pytest.raises(ValueError, match="minimal network needs"):
            minimal_network(make.problem(nodes, [limit]))
