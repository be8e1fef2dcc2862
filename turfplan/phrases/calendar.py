"""Messages of `messages/en/calendar.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def unnamed() -> Message:
    """Lawn"""
    return Message("calendar.unnamed")


def description() -> Message:
    """The jobs of a lawn's season: the days, how much of what, and why. A printed sheet may be
    older than this.
    """
    return Message("calendar.description")
