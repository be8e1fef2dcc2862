"""Messages of `messages/en/care.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message, Quantity


def first_mow() -> Message:
    """The first cut makes young grass tiller, and keeps the old grass from shading it."""
    return Message("care.first_mow")


def first_mow_alone() -> Message:
    """The first cut makes young grass tiller and close the ground."""
    return Message("care.first_mow.alone")


def first_mow_planted() -> Message:
    """Cutting makes planted grass spread sideways; too early it pulls the plants out."""
    return Message("care.first_mow.planted")


def first_mow_planted_title() -> Message:
    """First mow after planting"""
    return Message("care.first_mow.planted_title")


def first_mow_planted_go(*, height: Quantity) -> Message:
    """No plant comes out at a gentle pull, and the grass stands {height} high."""
    return Message("care.first_mow.planted_go", (("height", height),))


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
