"""Messages of `messages/en/lateness.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Message


def late(*, work: Message, day: Day, n: int) -> Message:
    """{work}: late in its season. The last safe day is {day}, and the climate may be {n} days
    off.
    """
    return Message("lateness.late", (("work", work), ("day", day), ("n", n)))


def last(*, work: Message, day: Day, n: int) -> Message:
    """{work}: last chance. The last safe day was {day}, and only the {n} days by which the climate
    may be off are left. Where the season ends on time a part of the cover may fail; to leave it
    means to wait for months.
    """
    return Message("lateness.last", (("work", work), ("day", day), ("n", n)))
