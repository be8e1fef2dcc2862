"""Messages of `messages/en/mowing.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message, Quantity


def height(*, due: Quantity, kept: Quantity) -> Message:
    """Mow when the grass stands at {due}, down to {kept}: never more than a third off. The height
    decides, not the day.
    """
    return Message("mowing.height", (("due", due), ("kept", kept)))


def often(*, often: Listed) -> Message:
    """By the usual warmth it gets there in about {often}; a flush after spring rain or a feeding
    asks for it sooner.
    """
    return Message("mowing.often", (("often", often),))


def often_on_rain(*, often: Listed) -> Message:
    """By the usual warmth and rain it gets there in about {often}; a feeding or a wet spell asks
    for it sooner.
    """
    return Message("mowing.often_on_rain", (("often", often),))


def days_in(*, n: int, months: Listed) -> Message:
    """{n} days in {months}"""
    return Message("mowing.days_in", (("n", n), ("months", months)))
