"""What of a lawn is cut low, cored and mown for a session of passes: all of it, or the hollows."""

from turfplan.book.words import book_message
from turfplan.message import Message, Quantity
from turfplan.phrases import dressed as phrases
from turfplan.records.book_names import OperationName
from turfplan.work.campaigns import Campaign
from turfplan.work.lawn import ResolvedLawn


def dressed_share(setting: ResolvedLawn, campaign: Campaign, number: int) -> float:
    """The share of the area that is prepared for a session by its number, 0 to 1.

    Of a few hollows it is theirs, with what is sown on the last pass; the standing grass around
    them stays as it is. A share that makes them the lawn itself is all of it, as is seed alone.
    """
    session = next((each for each in campaign.sessions if each.number == number), None)
    if session is None:
        return 1.0
    share = max(layer.share for layer in session.passes)
    if session.sows:
        share = max(share, setting.mended_share)
    return share if share <= setting.book.low_si("passes.hollow_share") + 1e-9 else 1.0


def titled(setting: ResolvedLawn, operation: OperationName) -> Message:
    """The title of a job that keeps to these parts, in the words of the country."""
    return phrases.title(title=book_message(setting.book, f"operations.{operation}.title"))


def dressed_alone(setting: ResolvedLawn, share: float) -> Message:
    """That a job keeps to the parts that are dressed, with about how much that is."""
    return phrases.only_there(area=Quantity(setting.plot.area_m2 * share, "area"))
