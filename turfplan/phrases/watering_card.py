"""Messages of `messages/en/watering_card.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message, Month


def title(*, lawn: str) -> Message:
    """{lawn}: watering card"""
    return Message("watering_card.title", (("lawn", lawn),))


def description(*, lawn: str) -> Message:
    """The watering of the lawn {lawn}, month by month: the minutes of each day, and when to
    skip.
    """
    return Message("watering_card.description", (("lawn", lawn),))


def skip_to() -> Message:
    """Skip to the months"""
    return Message("watering_card.skip_to")


def card() -> Message:
    """Watering card"""
    return Message("watering_card.card")


def heading() -> Message:
    """Minutes of water, day by day"""
    return Message("watering_card.heading")


def how_to_read() -> Message:
    """Tick each run. The figure behind the time is its minutes, the letter says below which
    watering it is.
    """
    return Message("watering_card.how_to_read")


def nothing() -> Message:
    """Nothing is watered from this month on."""
    return Message("watering_card.nothing")


def never() -> Message:
    """This plan waters nothing: there is nothing to tick."""
    return Message("watering_card.never")


def month(*, month: Month, year: str) -> Message:
    """{month} {year}"""
    return Message("watering_card.month", (("month", month), ("year", year)))


def skip_if() -> Message:
    """Water only if:"""
    return Message("watering_card.skip_if")
