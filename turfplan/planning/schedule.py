"""Turns the drafts of a campaign into a network and its days back into dates."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from turfplan.network import Conflict, Repair, Schedule, feasible, place_again, repair, solve_softly
from turfplan.records.constraints import Constraint, NetworkProblem, Node, Strength
from turfplan.records.past import TaskHistory
from turfplan.work.buying_lags import wished_ahead
from turfplan.work.drafts import Draft, SeasonDraft
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.shared_visits import wished_with_others, with_followers


@dataclass(frozen=True, slots=True)
class Dated:
    """A season with its days: the drafts, the problem that was solved, the schedule, and what a
    repair moved; `history` is what has happened as the repair takes it, with what gave way."""

    season: SeasonDraft
    problem: NetworkProblem
    schedule: Schedule
    repaired: Repair | None = None
    history: TaskHistory | None = None

    def day(self, node: str) -> int:
        """The chosen day of a node."""
        return self.schedule.days[node]

    @property
    def dropped(self) -> tuple[Constraint, ...]:
        """The constraints that had to be given up."""
        return self.schedule.dropped


def problem_of(
    setting: ResolvedLawn,
    season: SeasonDraft,
    wishes: Mapping[str, int] | None = None,
    constraints: tuple[Constraint, ...] | None = None,
) -> NetworkProblem:
    """The network of a season; `wishes` override the drafts' own ideal days, `constraints` those of
    the season."""
    nodes: list[Node] = []
    for draft in season.drafts:
        wish = (wishes or {}).get(draft.id, draft.ideal)
        nodes.append(Node(draft.start_node, draft.priority, wish))
        if draft.duration_days > 1:
            nodes.append(Node(draft.end_node, draft.priority, None))
    held = season.constraints if constraints is None else constraints
    return NetworkProblem(tuple(nodes), held, setting.first_day, setting.last_day)


def date_season(
    setting: ResolvedLawn,
    season: SeasonDraft,
    fixed: Mapping[str, int] | None = None,
    *,
    keep: Strength = Strength.HARD,
) -> Dated | Conflict:
    """Dates a season afresh: the main tasks first, then what is wished some days before or after
    them, last what is bought for it.

    Constraints of the strength `keep` or more are never given up: where they cannot all hold, that
    is a conflict.
    """
    rough = solve_softly(problem_of(setting, season), fixed, keep=keep)
    if isinstance(rough, Conflict):
        return rough
    rough = _in_time(setting, season, rough, fixed)
    wishes = anchored_wishes(season.drafts, rough.days)
    # What had to be given up is known by now; the second round starts from what is left.
    gone = {constraint.id for constraint in rough.dropped}
    left = tuple(c for c in season.constraints if c.id not in gone)
    problem = problem_of(setting, season, wishes, left)
    placed = place_again(rough, problem.nodes)
    bought = wished_ahead(setting, season.drafts, placed.days)
    if bought:
        problem = problem_of(setting, season, {**wishes, **bought}, left)
        placed = place_again(rough, problem.nodes)
    shared = wished_with_others(setting, season.drafts, placed.days)
    while shared:
        together = with_followers(season.drafts, placed.days, shared)
        asked = problem_of(setting, season, {**wishes, **bought, **together}, left)
        found = place_again(rough, asked.nodes)
        kept = {name: day for name, day in shared.items() if found.days[name] == day}
        if kept == shared:
            return Dated(season, asked, found)
        # What cannot come on that day comes on its own.
        shared = kept
    return Dated(season, problem, placed)


def _in_time(
    setting: ResolvedLawn, season: SeasonDraft, rough: Schedule, fixed: Mapping[str, int] | None
) -> Schedule:
    """The schedule, less the preferences that alone hold work off the good or safe days of its
    season."""
    problem = problem_of(setting, season)
    for wished in season.in_time:
        day = rough.days.get(wished.node)
        if day is None or wished.days.next(day) == day:
            continue
        kept = tuple(c for c in problem.constraints if c.strength > Strength.PREFERENCE)
        sooner = replace(problem, constraints=(*problem.constraints, wished))
        if not feasible(sooner, fixed or {}, (*kept, wished)):
            continue
        found = solve_softly(sooner, fixed, keep=wished.strength)
        if isinstance(found, Schedule):
            rough, problem = found, sooner
    return rough


def anchored_wishes(drafts: Sequence[Draft], days: Mapping[str, int]) -> dict[str, int]:
    """The wished day of every draft: its own, or so many days from the day of its anchor, anchors
    first."""
    by_id = {d.id: d for d in drafts}
    wishes: dict[str, int] = {}

    def wish(draft: Draft) -> int:
        if draft.id not in wishes:
            anchor = by_id.get(draft.anchor) if draft.anchor else None
            if draft.ideal is not None:
                wishes[draft.id] = draft.ideal
            elif anchor is None:
                wishes[draft.id] = days[draft.id]
            else:
                # The main tasks stand where the first round put them; the rest hangs on wishes.
                base = (
                    days[anchor.end_node if draft.offset > 0 and not draft.by_strip else anchor.id]
                    if anchor.priority <= 2
                    else wish(anchor)
                )
                wishes[draft.id] = base + draft.offset
        return wishes[draft.id]

    for draft in drafts:
        wish(draft)
    return wishes


def repair_season(
    setting: ResolvedLawn,
    season: SeasonDraft,
    published: Mapping[str, int],
    fixed: Mapping[str, int],
) -> Dated | Conflict:
    """Dates a season again with the fewest moved tasks and days."""
    known = {d.id for d in season.drafts} | {d.end_node for d in season.drafts}
    rough = {**{d.id: d.ideal for d in season.drafts if d.ideal is not None}, **published, **fixed}
    wishes = {
        d.id: rough[d.anchor] + d.offset
        for d in season.drafts
        if d.id not in rough and d.anchor in rough and rough[d.anchor] is not None
    }
    problem = problem_of(setting, season, wishes)
    result = repair(
        problem,
        {n: day for n, day in published.items() if n in known},
        {n: day for n, day in fixed.items() if n in known},
    )
    if isinstance(result, Conflict):
        return result
    schedule = _beside_what_moved(setting, season, rough, result.schedule)
    return Dated(season, problem, schedule, result)


def _beside_what_moved(
    setting: ResolvedLawn,
    season: SeasonDraft,
    rough: Mapping[str, int | None],
    schedule: Schedule,
) -> Schedule:
    """The schedule with new tasks beside those that they are wished some days from, where these
    have moved; `rough` are the days that were known before."""
    days = schedule.days
    new = [d for d in season.drafts if d.id not in rough and d.anchor in days]
    if all(d.anchor is None or rough.get(d.anchor) in (None, days[d.anchor]) for d in new):
        return schedule
    wishes = {
        **days,
        **{d.id: days[d.anchor] + d.offset for d in new if d.anchor is not None},
    }
    return place_again(schedule, problem_of(setting, season, wishes).nodes)
