"""The network against definitions, brute force on small problems, and hand-made cases."""

from dataclasses import replace
from itertools import pairwise
from random import Random
from unittest import mock

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from turfplan.constraints import Allowed, Constraint, Days, DaySet, Lag, Node, Problem, Step, Strength, Table
from turfplan.network import (
    Bounds,
    Chain,
    Conflict,
    Link,
    MinimalNetwork,
    Repair,
    Schedule,
    bounds,
    conflict,
    minimal_network,
    options,
    repair,
    repairing,
    solve,
    solve_softly,
)

import network_problems as make

seeds = st.integers(0, 10**9)
patient = settings(deadline=None, max_examples=150)


@patient
@given(seeds)
def test_bounds_are_those_of_every_solution(seed: int) -> None:
    """Feasibility, earliest and latest days equal those found by trying everything."""
    random = Random(seed)
    case = make.random_problem(random, random.randint(1, 4), random.randint(1, 12))
    fixed = make.random_fixed(random, case)
    found = make.solutions(case, fixed)
    got = bounds(case, fixed)
    if not found:
        assert isinstance(got, Conflict)
        return
    assert isinstance(got, Bounds)
    for node in case.nodes:
        assert got.earliest[node.id] == min(days[node.id] for days in found)
        assert got.latest[node.id] == max(days[node.id] for days in found)
    assert dict(got.earliest) in found
    assert dict(got.latest) in found


@patient
@given(seeds)
def test_minimum_and_maximum_of_two_solutions_are_solutions(seed: int) -> None:
    """The vocabulary of constraints is monotone, which everything else rests on."""
    random = Random(seed)
    case = make.random_problem(random, 3, 8)
    fixed = make.random_fixed(random, case)
    found = make.solutions(case, fixed)
    if not found:
        return
    one, two = random.choice(found), random.choice(found)
    for pick in (min, max):
        mixed = {name: pick(one[name], two[name]) for name in one}
        assert all(make.holds(c, mixed, fixed) for c in case.constraints)


@patient
@given(seeds)
def test_solve_takes_the_nearest_feasible_day_node_by_node(seed: int) -> None:
    """The chosen days are the lexicographic optimum found by trying everything."""
    random = Random(seed)
    case = make.random_problem(random, random.randint(1, 4), random.randint(1, 12))
    fixed = make.random_fixed(random, case)
    found = make.solutions(case, fixed)
    got = solve(case, fixed)
    if not found:
        assert isinstance(got, Conflict)
        return
    assert isinstance(got, Schedule)
    assert [dict(got.days)] == make.nearest(case, found, {node.id for node in case.nodes})


@patient
@given(seeds)
def test_conflicts_are_irreducible(seed: int) -> None:
    """A conflict has no solution; without any one of its constraints it has."""
    random = Random(seed)
    case = make.random_problem(random, random.randint(1, 4), random.randint(1, 10), soft=True)
    fixed = make.random_fixed(random, case)
    got = conflict(case, fixed)
    if got is None:
        assert make.solutions(case, fixed)
        return
    assert not make.solutions(case, fixed, got.constraints)
    for left_out in got.constraints:
        assert make.solutions(case, fixed, tuple(c for c in got.constraints if c is not left_out))


@patient
@given(seeds)
def test_no_dropped_constraint_can_be_put_back(seed: int) -> None:
    """A soft solution keeps what it does not drop, drops nothing HARD, and nothing in vain."""
    random = Random(seed)
    case = make.random_problem(random, random.randint(1, 4), random.randint(1, 9), soft=True)
    fixed = make.random_fixed(random, case)
    got = solve_softly(case, fixed)
    hard = tuple(c for c in case.constraints if c.strength == Strength.HARD)
    if not make.solutions(case, fixed, hard):
        assert isinstance(got, Conflict)
        assert {c.strength for c in got.constraints} <= {Strength.HARD}
        return
    assert isinstance(got, Schedule)
    kept = tuple(c for c in case.constraints if c not in got.dropped)
    assert all(make.holds(c, got.days, fixed) for c in kept)
    assert all(c.strength < Strength.HARD for c in got.dropped)
    for dropped in got.dropped:
        assert not make.solutions(case, fixed, (*kept, dropped))


def _implied(link: Link, value: int, case: Problem) -> int | None:
    """The best bound that a link's binding step alone gives its node, from the bound of the node it names (or its own)."""
    up = link.bound == "not_before"
    days = range(case.first_day - 60, case.last_day + 60)
    limit = link.constraint
    if isinstance(limit, Allowed):
        inside = [day for day in limit.days.days() if (day >= value if up else day <= value)]
    else:
        assert isinstance(limit, Lag)
        alone = replace(limit, maximum=None) if link.step == "minimum" else replace(limit, minimum=None)
        reach = range(value, days[-1]) if up else range(days[0], value + 1)
        inside = [
            day
            for day in days
            if any(make.holds(alone, {link.node: day, link.other or "": other}, {}) for other in reach)
        ]
    return (min(inside) if up else max(inside)) if inside else None


def _follows(chain: Chain, node: str, day: int, case: Problem) -> None:
    """Each link's day comes from the next one's, the first is the node's own, the last needs no other."""
    assert (chain[0].node, chain[0].day) == (node, day)
    for link, cause in pairwise(chain):
        assert link.kind in ("allowed", "lag")
        assert cause.node == (link.other or link.node)
        assert link.day == _implied(link, cause.day, case)
    if chain[-1].kind == "allowed":
        edge = case.first_day if chain[-1].bound == "not_before" else case.last_day
        assert chain[-1].day == _implied(chain[-1], edge, case)
    else:
        assert chain[-1].kind in ("fixed", "horizon", "wish")


@patient
@given(seeds)
def test_chains_derive_each_day_from_the_next(seed: int) -> None:
    """Following a chain from its end with the constraints' own definitions gives the bounds and the chosen days."""
    random = Random(seed)
    case = make.random_problem(random, random.randint(1, 4), random.randint(4, 12))
    case = replace(case, constraints=tuple(c for c in case.constraints if nodes_differ(c)))
    fixed = make.random_fixed(random, case)
    got = solve(case, fixed)
    if isinstance(got, Conflict):
        return
    for node in case.nodes:
        _follows(got.bounds.not_earlier(node.id), node.id, got.earliest[node.id], case)
        _follows(got.bounds.not_later(node.id), node.id, got.latest[node.id], case)
        _follows(got.not_earlier(node.id), node.id, got.days[node.id], case)
        _follows(got.not_later(node.id), node.id, got.days[node.id], case)


def nodes_differ(constraint: Constraint) -> bool:
    return isinstance(constraint, Allowed) or constraint.before != constraint.after


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


def test_seed_after_a_working_day_table_and_chain() -> None:
    """The chain walks from the node over lags and allowed days to where the bound comes from."""
    workdays = Table(0, (1, 2, 3, 4, 7, 7, 7, 8, 9, 10, 11, 14, 14, 14))
    case = make.problem(
        [Node("rake", 2), Node("seed", 1), Node("roll", 3)],
        [
            make.allowed("rake", (3, 30)),
            make.lag("rake", "seed", workdays),
            make.allowed("seed", (0, 1), (6, 30)),
            make.lag("seed", "roll", 2),
        ],
    )
    got = solve(case)
    assert isinstance(got, Schedule)
    assert dict(got.days) == {"rake": 3, "seed": 6, "roll": 8}
    story = [(link.node, link.day, link.kind, link.other) for link in got.not_earlier("roll")]
    assert story == [
        ("roll", 8, "lag", "seed"),
        ("seed", 6, "allowed", None),
        ("seed", 4, "lag", "rake"),
        ("rake", 3, "allowed", None),
    ]


def test_a_node_at_its_ideal_is_held_by_its_wish_alone() -> None:
    """Nothing binds a node at its ideal, what follows it is bound by it, and the bounds still tell its limits."""
    case = make.problem(
        [Node("seed", 1, 40), Node("feed", 2), Node("dress", 2, 50)],
        [make.allowed("seed", (30, 60)), make.lag("seed", "feed", 7), make.lag("seed", "dress", -3, 0)],
    )
    got = solve(case)
    assert isinstance(got, Schedule)
    assert dict(got.days) == {"seed": 40, "feed": 47, "dress": 40}
    assert [(link.kind, link.day) for link in got.not_earlier("seed")] == [("wish", 40)]
    assert [(link.kind, link.node) for link in got.not_earlier("feed")] == [("lag", "feed"), ("wish", "seed")]
    assert [(link.kind, link.node) for link in got.not_later("dress")] == [("lag", "dress"), ("wish", "seed")]
    assert [(link.kind, link.day) for link in got.bounds.not_earlier("seed")] == [("allowed", 30)]
    assert [(link.kind, link.day) for link in got.bounds.not_later("seed")] == [("allowed", 60)]


def test_the_widest_allowed_days_explain_a_jump() -> None:
    """Where several limits keep a node away, the chain names those that carry it farthest."""
    case = make.problem(
        [Node("a", 1)],
        [make.allowed("a", (5, 90), id="short"), make.allowed("a", (9, 20), (30, 90), id="long")],
    )
    got = bounds(case)
    assert isinstance(got, Bounds)
    assert [(link.constraint.id, link.day) for link in got.not_earlier("a") if link.constraint] == [("long", 9)]


def test_done_nodes_stand_off_their_days_and_push_what_follows() -> None:
    """A done node keeps its actual day, even before the horizon, and binds the open ones."""
    case = make.problem(
        [Node("mow", 1), Node("core", 2), Node("seed", 3)],
        [
            make.allowed("mow", (20, 30)),
            make.lag("mow", "core", 3),
            make.lag("core", "seed", 5, 9),
            make.lag("mow", "seed", 0, 4),
        ],
        first_day=10,
    )
    got = solve(case, {"mow": 2, "seed": 16})
    assert isinstance(got, Schedule)
    assert dict(got.days) == {"mow": 2, "core": 10, "seed": 16}
    assert [link.kind for link in got.bounds.not_later("core")] == ["lag", "fixed"]


def test_a_lag_that_cannot_end_is_a_conflict_of_its_cycle() -> None:
    """Two nodes each after the other conflict, and the story goes round once."""
    case = make.problem([Node("a", 1), Node("b", 1)], [make.lag("a", "b", 1), make.lag("b", "a", 1)], last_day=500)
    got = conflict(case)
    assert got is not None
    assert {c.id for c in got.constraints} == {"a to b", "b to a"}
    assert len(got.chain) <= 4


def test_a_conflict_reads_from_cause_to_limit() -> None:
    """Constraints come cause first; the chain starts with the limit that cannot be kept."""
    case = make.problem(
        [Node("core", 1), Node("seed", 1)],
        [
            make.allowed("seed", (10, 15)),
            make.lag("core", "seed", 7),
            make.allowed("core", (12, 40)),
        ],
    )
    got = bounds(case)
    assert isinstance(got, Conflict)
    assert [c.id for c in got.constraints] == ["core allowed", "core to seed", "seed allowed"]
    assert [(link.node, link.bound, link.day) for link in got.chain] == [
        ("seed", "not_after", 15),
        ("seed", "not_before", 19),
        ("core", "not_before", 12),
    ]


def test_the_weakest_constraint_of_the_latest_node_goes_first() -> None:
    """Ties of strength give up the later task."""
    case = make.problem(
        [Node("seed", 1, 50), Node("feed", 2, 60)],
        [
            make.allowed("seed", (50, 50), strength=Strength.ADVICE),
            make.lag("seed", "feed", 20),
            make.allowed("feed", (0, 60), strength=Strength.ADVICE),
        ],
    )
    got = solve_softly(case)
    assert isinstance(got, Schedule)
    assert [c.id for c in got.dropped] == ["feed allowed"]
    assert dict(got.days) == {"seed": 50, "feed": 70}


def test_unknown_and_repeated_names_are_errors() -> None:
    """Names that mean nothing or two things are refused."""
    good = [Node("a", 1)]
    for case, fixed in [
        (make.problem(good, [make.lag("a", "b", 1)]), {}),
        (make.problem(good * 2, []), {}),
        (make.problem(good, []), {"b": 3}),
        (make.problem(good, [make.allowed("a", (0, 3)), make.allowed("a", (2, 3))]), {}),
    ]:
        with pytest.raises(ValueError, match=r"ids|no such"):
            bounds(case, fixed)


def test_no_usable_day_is_a_conflict_with_the_horizon() -> None:
    """Allowed days outside the horizon, or none at all, conflict by themselves."""
    for days in [(), ((200, 210),)]:
        got = conflict(make.problem([Node("a", 1)], [make.allowed("a", *days)]))
        assert got is not None
        assert [type(c) for c in got.constraints] == [Allowed]
