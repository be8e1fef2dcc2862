"""A campaign repaired without the days that were published, where those stand against it."""

from dataclasses import replace

from turfplan.message import Message
from turfplan.planning.candidates import Candidate
from turfplan.planning.repair import Repairing, refed
from turfplan.work.campaigns import Campaign
from turfplan.work.lawn import ResolvedLawn


def refed_freely(
    setting: ResolvedLawn, campaign: Campaign, given: Repairing
) -> Candidate | tuple[Message, ...]:
    """A campaign repaired and fed; where the days that were published stand against it, without
    them: what was promised weighs against a way to go on, and does not shut it."""
    result = refed(setting, campaign, given)
    if isinstance(result, Candidate) or not given.history.promised:
        return result
    free = refed(setting, campaign, replace(given, history=given.history.unpromised))
    if not isinstance(free, Candidate) or free.dated.history is None:
        return result
    again = replace(free.dated.history, published=given.history.published, promised=True)
    return replace(free, dated=replace(free.dated, history=again))
