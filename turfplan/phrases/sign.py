"""Messages of `messages/en/sign.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def title(*, lawn: str) -> Message:
    """{lawn}: keep off the new grass"""
    return Message("sign.title", (("lawn", lawn),))


def title_alone(*, lawn: str) -> Message:
    """{lawn}: keep off the lawn"""
    return Message("sign.title_alone", (("lawn", lawn),))


def new_grass() -> Message:
    """New grass"""
    return Message("sign.new_grass")


def keep_off() -> Message:
    """Please keep off until"""
    return Message("sign.keep_off")


def lawn() -> Message:
    """The lawn"""
    return Message("sign.lawn")


def thanks_alone() -> Message:
    """People, dogs and bicycles. Thank you."""
    return Message("sign.thanks_alone")


def thanks() -> Message:
    """People, dogs and bicycles: it is still young. Thank you."""
    return Message("sign.thanks")
