"""Messages of `messages/en/finish.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def nothing_low() -> Message:
    """Measured: nothing is low any more, so there is nothing to touch up."""
    return Message("finish.nothing_low")


def next_season() -> Message:
    """The settle check and the touch-up fall after the last day of the plan: look again in the next
    season of growth.
    """
    return Message("finish.next_season")


def settle_check_hollows() -> Message:
    """Deep fill settles most: measure before you add."""
    return Message("finish.settle_check.hollows")


def settle_check_passes() -> Message:
    """Loose fill settles over a winter or a wet season: measure before you add."""
    return Message("finish.settle_check.passes")


def touch_up() -> Message:
    """A little is always missing somewhere; thin spots are touched up once, with the same mix."""
    return Message("finish.touch_up")
