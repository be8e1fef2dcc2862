"""What the passes that were spread already leave of the campaigns: which of them go on, and which
divide the fill otherwise than it was done."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

from turfplan.planning.ways_still_open import HAIR_MM
from turfplan.records.book_names import COLLECTIVES
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan
from turfplan.work.campaigns import Campaign, cost_from_now
from turfplan.work.drafts import Pass
from turfplan.work.lawn import ResolvedLawn

# A pass so far outside its season was spread in another one.
STRAYED_DAYS = 60


def going_on(
    left: ResolvedLawn, known: Sequence[tuple[ResolvedLawn, Campaign]], history: TaskHistory
) -> list[tuple[ResolvedLawn, Campaign]]:
    """The campaigns that were begun before today and go on in a season to come, or in the one that
    is still open: each pass of a session that is over is done, and of the one that is open some
    are, so that what is left of its days is not asked to take them. They cost what is still to come
    of them."""
    found, spread = [], _spread(history)
    for lawn, campaign in known:
        over = [s for s in campaign.sessions if s.window.end.toordinal() < left.first_day]
        running = [
            session
            for session in campaign.sessions
            if session not in over and session.window.start.toordinal() < left.first_day
        ]
        begun = any(_is_over(p, spread) for s in running for p in s.passes)
        if days_outside(campaign, history.done) > STRAYED_DAYS:
            continue
        if (over or begun) and all(_is_over(p, spread) for s in over for p in s.passes):
            cost = cost_from_now(replace(lawn, first_day=left.first_day), campaign)
            found.append((lawn, replace(campaign, cost=cost)))
    return sorted(found, key=lambda way: way[1].cost)


def days_outside(campaign: Campaign, days: Mapping[str, int]) -> int:
    """How far the passes of a campaign that have days (ordinals, by task) lie outside the windows
    of their sessions, the farthest of them: which sessions were done tells campaigns apart."""
    outside = [0]
    for session in campaign.sessions:
        first, last = session.window.start.toordinal(), session.window.end.toordinal()
        names = (f"{op}.{p.number}" for p in session.passes for op in COLLECTIVES["spreading"])
        outside += [max(first - day, day - last) for n in names if (day := days.get(n)) is not None]
    return max(outside)


def _spread(history: TaskHistory) -> frozenset[str]:
    """What is done, or over without a word: a pass of which nobody says otherwise was spread."""
    return frozenset(history.done.keys() | history.overdue.keys())


def _is_over(layer: Pass, spread: Collection[str]) -> bool:
    """Whether a pass, or a lift of ground without grass, is among what was spread."""
    return any(f"{operation}.{layer.number}" in spread for operation in COLLECTIVES["spreading"])


def all_spread(campaign: Campaign, history: TaskHistory) -> bool:
    """Whether no pass of a campaign is still to come."""
    spread = _spread(history)
    return all(_is_over(layer, spread) for layer in campaign.passes)


def divides_as_done(campaign: Campaign, previous: Plan, history: TaskHistory) -> bool:
    """Whether the passes that are done or begun are as deep in a campaign as they were planned; one
    without passes leaves them as they are."""
    if not campaign.passes:
        return True
    depths = {f"topdress.{layer.number}": layer.depth_mm for layer in campaign.passes}
    begun = _spread(history) | history.part_done.keys()
    return all(
        abs(amount.value - depths.get(task.id, 0.0)) < HAIR_MM
        for task in previous.tasks
        if task.id in begun and task.operation == "topdress"
        for amount in task.amounts
        if amount.item == "depth"
    )
