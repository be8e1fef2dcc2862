"""Messages of `messages/en/watering_card.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message, Month, Number


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
    """How long to water, day by day"""
    return Message("watering_card.heading")


def nothing() -> Message:
    """Nothing is watered from this month on."""
    return Message("watering_card.nothing")


def month(*, month: Month, year: str) -> Message:
    """{month} {year}"""
    return Message("watering_card.month", (("month", month), ("year", year)))


def minutes(*, minutes: Number) -> Message:
    """{minutes} min"""
    return Message("watering_card.minutes", (("minutes", minutes),))


def skip_if() -> Message:
    """Water only if:"""
    return Message("watering_card.skip_if")
