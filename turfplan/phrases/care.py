"""Messages of `messages/en/care.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def potash() -> Message:
    """With it goes the potash that the soil test asks for, as far as the bag does not hold it
    already.
    """
    return Message("care.potash")


def planted_go() -> Message:
    """Plants stay in the ground at a gentle pull; grass growing and dry, no heavy rain in the
    forecast.
    """
    return Message("care.planted.go")


def planted_fallback() -> Message:
    """While plants still come out, wait; leave it out once summer is over."""
    return Message("care.planted.fallback")


def preemergent() -> Message:
    """Crabgrass comes up in the open places; a barrier laid now stops it, where no seed is in the
    way.
    """
    return Message("care.preemergent")


def spring_transition(*, grass: Message) -> Message:
    """Ryegrass left long shades {grass} in the weeks in which it wakes, and thins it for good."""
    return Message("care.spring_transition", (("grass", grass),))


def last_mow() -> Message:
    """Grass that goes into winter at its usual height, free of leaves, comes out of it best."""
    return Message("care.last_mow")
