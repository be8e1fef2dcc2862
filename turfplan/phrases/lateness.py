"""Messages of `messages/en/lateness.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Message


def late(*, work: Message, day: Day, n: int) -> Message:
    """{work}: late in its season. The last safe day is {day}, and the climate may be {n} days off.
    Lost is time to grow in; kept is this season.
    """
    return Message("lateness.late", (("work", work), ("day", day), ("n", n)))


def last(*, work: Message, day: Day, n: int) -> Message:
    """{work}: last chance. The last safe day was {day}, and only the {n} days by which the climate
    may be off are left. Lost is part of the cover where the season ends on time; kept is this
    season, else it is months away.
    """
    return Message("lateness.last", (("work", work), ("day", day), ("n", n)))
