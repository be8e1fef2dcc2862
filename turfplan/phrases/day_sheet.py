"""Messages of `messages/en/day_sheet.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def title(*, lawn: str, day: str) -> Message:
    """{lawn}: {day}"""
    return Message("day_sheet.title", (("lawn", lawn), ("day", day)))


def day() -> Message:
    """Day"""
    return Message("day_sheet.day")


def jobs() -> Message:
    """Jobs"""
    return Message("day_sheet.jobs")


def water() -> Message:
    """Water"""
    return Message("day_sheet.water")


def nothing() -> Message:
    """Nothing is planned for this day."""
    return Message("day_sheet.nothing")
