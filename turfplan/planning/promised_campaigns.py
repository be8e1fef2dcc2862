"""Campaigns that were not chosen promise the whole fill only where asking for them keeps that."""

from dataclasses import replace

from turfplan.message import Message
from turfplan.phrases import campaign_choice as phrases
from turfplan.planning.candidates import Comparison
from turfplan.planning.changed_briefs import with_part
from turfplan.planning.ways_out import Tried, work_of
from turfplan.records.book_names import CampaignName
from turfplan.records.brief import Brief


def with_kept_promises(comparison: Comparison, brief: Brief, tried: Tried) -> Comparison:
    """A comparison whose rejected campaigns say that they would do the whole fill only where a
    brief that asks for one of them does.

    What was compared leaves nothing out, but need not have a day: asked for by itself, such a
    campaign may take another way, which leaves a part of the fill, or none.
    """
    said = {reason for _, reason in comparison.rejected}
    empty = {
        campaign
        for campaign in comparison.whole
        if _promise(campaign) in said and not _keeps(campaign, brief, tried)
    }
    untrue = {_promise(campaign) for campaign in empty}
    return replace(
        comparison,
        rejected=tuple(
            (name, phrases.not_whole_either() if reason in untrue else reason)
            for name, reason in comparison.rejected
        ),
        whole=tuple(campaign for campaign in comparison.whole if campaign not in empty),
    )


def _promise(campaign: str) -> Message:
    return phrases.whole_later(campaign=campaign)


def _keeps(campaign: CampaignName, brief: Brief, tried: Tried) -> bool:
    """Whether a brief that asks for a campaign gets all of its fill."""
    work = work_of(tried, with_part(brief, "season", campaign=campaign))
    return work is not None and work.first is not None and not work.undone
