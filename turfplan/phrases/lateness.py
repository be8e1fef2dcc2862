"""Messages of `messages/en/lateness.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Message


def late(*, day: Day, n: int) -> Message:
    """Late: the last safe day is {day}, and the climate may be {n} days off. Lost is time to grow
    in; kept is this season.
    """
    return Message("lateness.late", (("day", day), ("n", n)))


def last(*, day: Day, n: int) -> Message:
    """Last chance: the last safe day was {day}, and only the {n} days by which the climate may be
    off are left. Lost is part of the cover where the season ends on time; kept is this season, else
    it is months away.
    """
    return Message("lateness.last", (("day", day), ("n", n)))
