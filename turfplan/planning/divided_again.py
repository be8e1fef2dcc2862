"""How the passes of a campaign lie in its sessions once days have been lost: as the plan before had
them as long as that keeps the rules, else otherwise."""

from collections import Counter
from itertools import chain
from typing import Final

from turfplan.message import Message
from turfplan.planning.candidates import Candidate
from turfplan.planning.free_repair import refed_freely
from turfplan.planning.repair import Repairing
from turfplan.planning.worth import worth_of
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan
from turfplan.work.campaigns import Campaign
from turfplan.work.divisions import divided_by_windows, redivided
from turfplan.work.horizon import within
from turfplan.work.lawn import ResolvedLawn

Reasons = tuple[Message, ...]
# What stands against so many divisions of a campaign alike hangs on none of them.
ALIKE: Final = 3


def datable(
    left: ResolvedLawn,
    way: tuple[ResolvedLawn, Campaign],
    given: Repairing,
    own: bool,
    shut: set[Reasons],
) -> list[Candidate]:
    """A campaign on its days with its `own` division of the passes; where that has none, or bends a
    rule of good practice, with the first other division that does not.

    What is `shut` stands against a campaign however its passes are divided, and no other division
    is tried; what is found to do so is added.
    """
    lawn, campaign = way
    begun = given.history.done.keys() | given.history.part_done.keys()
    found = []
    alike: Counter[Reasons] = Counter()
    divisions = (campaign,) if own else ()
    for each in chain(divisions, redivided(left, campaign, begun)):
        result = refed_freely(within(lawn, each), each, given)
        if isinstance(result, tuple):
            alike[result] += 1
            shut.update(reasons for reasons, n in alike.items() if n >= ALIKE)
            if result in shut:
                break
        elif not strained(left, result, given.history):
            return [result]
        elif each is campaign:
            found.append(result)
    return found


def strained(left: ResolvedLawn, candidate: Candidate, history: TaskHistory) -> bool:
    """Whether a candidate keeps its days only against a rule of good practice."""
    worth = worth_of(left, candidate, history, None)
    return worth.season >= left.book.si("campaign.cost_strong_rule")


def divided_as_before(campaign: Campaign, previous: Plan) -> Campaign:
    """A campaign with its passes in the sessions in which the plan before had them."""
    passes = [t for t in previous.tasks if t.operation == "topdress" and t.status != "CANCELLED"]
    return divided_by_windows(campaign, [task.start.toordinal() for task in passes])
