"""Random problems, and the slow, plain way to solve them, for the tests of the network."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace
from random import Random

from turfplan.network.net import Net, build
from turfplan.network.propagation import Front, start
from turfplan.records.constraints import (
    Allowed,
    Constraint,
    DaySet,
    DayStep,
    Lag,
    NetworkProblem,
    Node,
    Reason,
    Strength,
    TableStep,
)

BECAUSE = Reason("test", "because")


def allowed(
    node: str, *ranges: tuple[int, int], id: str = "", strength: Strength = Strength.HARD
) -> Allowed:
    return Allowed(id or f"{node} allowed", node, DaySet.of(ranges), strength, BECAUSE)


def lag(
    before: str,
    after: str,
    least: DayStep | TableStep | int | None,
    most: DayStep | TableStep | int | None = None,
    id: str = "",
    strength: Strength = Strength.HARD,
) -> Lag:
    minimum = DayStep(least) if isinstance(least, int) else least
    maximum = DayStep(most) if isinstance(most, int) else most
    return Lag(id or f"{before} to {after}", before, after, strength, BECAUSE, minimum, maximum)


def problem(
    nodes: list[Node], constraints: list[Constraint], first_day: int = 0, last_day: int = 100
) -> NetworkProblem:
    return NetworkProblem(tuple(nodes), tuple(constraints), first_day, last_day)


def random_table(random: Random, first: int, last: int) -> TableStep:
    """A never decreasing table around the identity, with flats and jumps."""
    origin = first + random.randint(-2, 2)
    reach = random.randint(-3, 5)
    noisy = [
        day + reach + random.choice([-3, 0, 0, 1, 4])
        for day in range(origin, last - random.randint(-2, 3))
    ]
    targets: list[int] = []
    for value in noisy or [origin + reach]:
        targets.append(max([value, *targets[-1:]]))
    return TableStep(origin, tuple(targets))


def random_step(random: Random, first: int, last: int, low: int, high: int) -> DayStep | TableStep:
    if random.random() < 0.3:
        return random_table(random, first, last)
    return DayStep(random.randint(low, high))


def random_problem(random: Random, nodes: int, days: int, soft: bool = False) -> NetworkProblem:
    """Any allowed days, any lags in any direction, cycles and lags from a node to itself
    included.
    """
    first = random.randint(0, 3)
    last = first + days - 1
    names = [f"n{number}" for number in range(nodes)]
    strengths = list(Strength) if soft else [Strength.HARD]
    made: list[Constraint] = []
    for name in names:
        for copy in range(random.choice([0, 1, 1, 2])):
            inside = [
                day
                for day in range(first - 1, last + 2)
                if random.random() < random.choice([0.4, 0.8])
            ]
            days_set = DaySet.from_days(inside)
            made.append(
                Allowed(f"a{copy} {name}", name, days_set, random.choice(strengths), BECAUSE)
            )
    for number in range(random.randint(0, 2 * nodes)):
        before, after = random.choice(names), random.choice(names)
        least = random_step(random, first, last, -4, 4) if random.random() < 0.7 else None
        most = (
            random_step(random, first, last, -2, 7)
            if least is None or random.random() < 0.4
            else None
        )
        made.append(
            Lag(f"l{number}", before, after, random.choice(strengths), BECAUSE, least, most)
        )
    random.shuffle(made)
    places = [
        Node(name, random.randint(0, 2), random.choice([None, random.randint(first - 1, last + 1)]))
        for name in names
    ]
    return NetworkProblem(tuple(places), tuple(made), first, last)


def random_fixed(random: Random, case: NetworkProblem) -> dict[str, int]:
    """Some done nodes, on any day."""
    if random.random() < 0.4:
        return {}
    return {
        node.id: random.randint(case.first_day - 2, case.last_day + 1)
        for node in case.nodes
        if random.random() < 0.25
    }


def holds(constraint: Constraint, days: Mapping[str, int], fixed: Mapping[str, int]) -> bool:
    """Whether one constraint holds, by its definition; constraints among done nodes always do."""
    if isinstance(constraint, Allowed):
        return constraint.node in fixed or days[constraint.node] in constraint.days.days()
    if constraint.before in fixed and constraint.after in fixed:
        return True
    before, after = days[constraint.before], days[constraint.after]
    if constraint.minimum is not None and after < constraint.minimum(before):
        return False
    return constraint.maximum is None or after <= constraint.maximum(before)


def solutions(
    case: NetworkProblem,
    fixed: Mapping[str, int],
    constraints: tuple[Constraint, ...] | None = None,
) -> list[dict[str, int]]:
    """Every solution, by trying node after node and every day."""
    chosen = case.constraints if constraints is None else constraints
    names = [node.id for node in case.nodes]

    def extend(days: dict[str, int]) -> Iterator[dict[str, int]]:
        if len(days) == len(names):
            yield dict(days)
            return
        name = names[len(days)]
        for day in [fixed[name]] if name in fixed else range(case.first_day, case.last_day + 1):
            days[name] = day
            if all(holds(c, days, fixed) for c in chosen if _ripe(c, days, name)):
                yield from extend(days)
            del days[name]

    return list(extend({}))


def _ripe(constraint: Constraint, days: Mapping[str, int], name: str) -> bool:
    """Whether `name` is the last of the constraint's nodes to get a day."""
    ends = (
        (constraint.node,)
        if isinstance(constraint, Allowed)
        else (constraint.before, constraint.after)
    )
    return name in ends and all(end in days for end in ends)


def random_published(random: Random, case: NetworkProblem) -> dict[str, int]:
    """Published days of most nodes, sensible or not, sometimes with one of a node that is gone."""
    days = {
        node.id: random.randint(case.first_day - 2, case.last_day + 2)
        for node in case.nodes
        if random.random() < 0.85
    }
    return days | ({"gone": 4} if random.random() < 0.3 else {})


def counted(
    case: NetworkProblem, published: Mapping[str, int], fixed: Mapping[str, int]
) -> dict[str, int]:
    """The published days a repair is measured by: of nodes that exist and are not done."""
    names = {node.id for node in case.nodes} - set(fixed)
    return {name: day for name, day in published.items() if name in names}


def change(days: Mapping[str, int], old: Mapping[str, int]) -> tuple[int, int]:
    """How many nodes moved, and by how many days in total."""
    return sum(days[name] != day for name, day in old.items()), sum(
        abs(days[name] - day) for name, day in old.items()
    )


def nearest(
    case: NetworkProblem, left: list[dict[str, int]], names: Collection[str]
) -> list[dict[str, int]]:
    """Of some solutions those that place the named nodes in turn, each nearest its ideal."""
    for node in sorted(case.nodes, key=lambda node: (node.priority, node.id)):
        if node.id in names and left:
            wish = case.first_day - 99 if node.ideal is None else node.ideal
            best = min((abs(days[node.id] - wish), days[node.id]) for days in left)[1]
            left = [days for days in left if days[node.id] == best]
    return left


def _lag(random: Random, earlier: int, later: int, wait: int, last: int) -> Lag:
    """One node behind another, with room around a wait in days; up to `last` by a table."""
    least = DayStep(wait - random.randint(0, 6))
    most = DayStep(wait + random.randint(0, 9)) if random.random() < 0.5 else None
    least_step: DayStep | TableStep = least
    if random.random() < 0.2:
        slow = random.randint(0, 3)
        targets = tuple(day + least.count - slow + (day % 7 == 0) for day in range(last + 1))
        least_step = TableStep(0, targets)
    strength = random.choice(list(Strength))
    name = f"lag {earlier:02} {later:02}"
    return Lag(name, f"n{earlier:02}", f"n{later:02}", strength, BECAUSE, least_step, most)


def season(random: Random, nodes: int, span: int) -> NetworkProblem:
    """A season: nodes in time order, each after one or two earlier ones, within a window with gaps.

    Windows and lags leave room around the ideals, so that most seasons have a solution with
    everything kept.
    """
    ideals = sorted(random.randint(20, 20 + span) for _ in range(nodes))
    last = span + 60
    made: list[Constraint] = []
    gaps = random.choice([0.1, 0.3, 0.6])
    for number, ideal in enumerate(ideals):
        window = range(
            ideal - random.randint(5, span // 2), ideal + random.randint(5, span // 2) + 1
        )
        inside = DaySet.from_days(day for day in window if day == ideal or random.random() > gaps)
        made.append(
            Allowed(
                f"window {number:02}",
                f"n{number:02}",
                inside,
                random.choice(list(Strength)),
                BECAUSE,
            )
        )
        for earlier in {
            random.randrange(max(0, number - 5), number)
            for _ in range(random.choice([1, 1, 2]) if number else 0)
        }:
            made.append(_lag(random, earlier, number, ideal - ideals[earlier], last))
    random.shuffle(made)
    places = [
        Node(f"n{number:02}", random.randint(1, 4), ideal) for number, ideal in enumerate(ideals)
    ]
    return NetworkProblem(tuple(places), tuple(made), 0, last)


def slip(
    random: Random, case: NetworkProblem, days: Mapping[str, int], kind: str
) -> tuple[NetworkProblem, dict[str, int]]:
    """What may happen to a published season: the problem after it, and the done nodes.

    `late`: the first tasks are done, the last of them late; `rain`: no work for some days;
    `slower`: some waits grow; `none`: nothing.
    """
    if kind == "none":
        return case, {}
    if kind == "late":
        done = sorted(days, key=lambda name: (days[name], name))[
            : random.randint(1, 1 + len(days) // 4)
        ]
        fixed = {name: days[name] + random.randint(-2, 3) for name in done}
        fixed[done[-1]] = days[done[-1]] + random.randint(1, 15)
        return case, fixed
    if kind == "rain":
        start = random.randint(20, case.last_day - 40)
        dry = DaySet.of([(case.first_day, start), (start + random.randint(2, 15), case.last_day)])
        limits = [
            Allowed(f"rain {node.id}", node.id, dry, Strength.STRONG, BECAUSE)
            for node in case.nodes
        ]
        return replace(case, constraints=(*case.constraints, *limits)), {}
    grown = [
        replace(c, minimum=DayStep(c.minimum.count + random.randint(0, 7)))
        if isinstance(c, Lag) and isinstance(c.minimum, DayStep) and random.random() < 0.3
        else c
        for c in case.constraints
    ]
    return replace(case, constraints=tuple(grown)), {}


def net_of(names: str, *constraints: Constraint, fixed: dict[str, int] | None = None) -> Net:
    """Nodes of one letter under some constraints, from day 2 to 30."""
    case = problem([Node(name, 1) for name in names], list(constraints), 2, 30)
    return build(case, fixed or {})


def opened(net: Net) -> tuple[Front, Front]:
    """Both sides of a problem that has a solution."""
    fronts = start(net)
    assert fronts is not None
    return fronts
