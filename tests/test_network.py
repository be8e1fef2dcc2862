"""The network against definitions, brute force on small problems, and hand-made cases."""

from dataclasses import replace
from itertools import pairwise
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import network_problems as make
from turfplan.network import (
    Bounds,
    Chain,
    Conflict,
    Link,
    Schedule,
    bounds,
    conflict,
    solve,
    solve_softly,
)
from turfplan.records.constraints import (
    Allowed,
    Constraint,
    Lag,
    NetworkProblem,
    Node,
    Strength,
    TableStep,
)

seeds = st.integers(0, 10**9)
patient = settings(deadline=None, max_examples=150)


@pytest.mark.full
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


@pytest.mark.full
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


@pytest.mark.full
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


@pytest.mark.full
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


@pytest.mark.full
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


def _implied(link: Link, value: int, case: NetworkProblem) -> int | None:
    """The best bound that a link's binding step alone gives its node, from the bound of the node it
    names (or its own).
    """
    up = link.bound == "not_before"
    days = range(case.first_day - 60, case.last_day + 60)
    limit = link.constraint
    if isinstance(limit, Allowed):
        inside = [day for day in limit.days.days() if (day >= value if up else day <= value)]
    else:
        assert isinstance(limit, Lag)
        alone = (
            replace(limit, maximum=None) if link.step == "minimum" else replace(limit, minimum=None)
        )
        reach = range(value, days[-1]) if up else range(days[0], value + 1)
        inside = [
            day
            for day in days
            if any(
                make.holds(alone, {link.node: day, link.other or "": other}, {}) for other in reach
            )
        ]
    return (min(inside) if up else max(inside)) if inside else None


def _follows(chain: Chain, node: str, day: int, case: NetworkProblem) -> None:
    """Each link's day comes from the next one's, the first is the node's own, the last needs no
    other.
    """
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


@pytest.mark.full
@patient
@given(seeds)
def test_chains_derive_each_day_from_the_next(seed: int) -> None:
    """Following a chain from its end with the constraints' own definitions gives the bounds and the
    chosen days.
    """
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


def test_seed_after_a_working_day_table_and_chain() -> None:
    """The chain walks from the node over lags and allowed days to where the bound comes from."""
    workdays = TableStep(0, (1, 2, 3, 4, 7, 7, 7, 8, 9, 10, 11, 14, 14, 14))
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
    """Nothing binds a node at its ideal, what follows it is bound by it, and the bounds still tell
    its limits.
    """
    case = make.problem(
        [Node("seed", 1, 40), Node("feed", 2), Node("dress", 2, 50)],
        [
            make.allowed("seed", (30, 60)),
            make.lag("seed", "feed", 7),
            make.lag("seed", "dress", -3, 0),
        ],
    )
    got = solve(case)
    assert isinstance(got, Schedule)
    assert dict(got.days) == {"seed": 40, "feed": 47, "dress": 40}
    assert [(link.kind, link.day) for link in got.not_earlier("seed")] == [("wish", 40)]
    assert [(link.kind, link.node) for link in got.not_earlier("feed")] == [
        ("lag", "feed"),
        ("wish", "seed"),
    ]
    assert [(link.kind, link.node) for link in got.not_later("dress")] == [
        ("lag", "dress"),
        ("wish", "seed"),
    ]
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
    assert [(link.constraint.id, link.day) for link in got.not_earlier("a") if link.constraint] == [
        ("long", 9)
    ]


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
    case = make.problem(
        [Node("a", 1), Node("b", 1)], [make.lag("a", "b", 1), make.lag("b", "a", 1)], last_day=500
    )
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


def test_the_weakest_constraint_gives_way_whatever_its_time() -> None:
    """Strength comes before time."""
    for weak in ("seed allowed", "seed to feed", "feed allowed"):
        parts = [
            make.allowed("seed", (50, 50)),
            make.lag("seed", "feed", 20),
            make.allowed("feed", (0, 60)),
        ]
        strengths = {
            "seed allowed": Strength.STRONG,
            "seed to feed": Strength.STRONG,
            "feed allowed": Strength.STRONG,
        }
        strengths[weak] = Strength.ADVICE
        case = make.problem(
            [Node("seed", 1, 50), Node("feed", 2, 60)],
            [replace(c, strength=strengths[c.id]) for c in parts],
        )
        got = solve_softly(case)
        assert isinstance(got, Schedule)
        assert [c.id for c in got.dropped] == [weak]


def test_unknown_and_repeated_names_are_errors() -> None:
    """Names that mean nothing or two things are refused."""
    good = [Node("a", 1)]
    for case, fixed in [
        (make.problem(good, [make.lag("a", "b", 1)]), {}),
        (make.problem(good * 2, []), {}),
        (make.problem(good, []), {"b": 3}),
        (make.problem(good, [make.allowed("a", (0, 3)), make.allowed("a", (2, 3))]), {}),
    ]:
        with pytest.raises(ValueError, match=r"repeated|no such"):
            bounds(case, fixed)


def test_no_usable_day_is_a_conflict_with_the_horizon() -> None:
    """Allowed days outside the horizon, or none at all, conflict by themselves."""
    for days in [(), ((200, 210),)]:
        got = conflict(make.problem([Node("a", 1)], [make.allowed("a", *days)]))
        assert got is not None
        assert [type(c) for c in got.constraints] == [Allowed]
