"""Messages of `messages/en/strips.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message, Quantity


def strip_by_strip(*, n: int, area: Quantity, volume: Quantity) -> Message:
    """Divide the lawn into {n} strips of about {area}, each with {volume} of mix; finish one a
    working day, with all its jobs and its watering in the evening, before you cut or core the next.
    """
    return Message("strips.strip_by_strip", (("n", n), ("area", area), ("volume", volume)))


def strip_by_strip_on_rain(*, n: int, area: Quantity, volume: Quantity) -> Message:
    """Divide the lawn into {n} strips of about {area}, each with {volume} of mix; finish one a
    working day, with all its jobs, before you cut or core the next.
    """
    return Message("strips.strip_by_strip_on_rain", (("n", n), ("area", area), ("volume", volume)))


def more_hands(*, needed: int, most: int) -> Message:
    """With {needed} at work it takes {most} days."""
    return Message("strips.more_hands", (("needed", needed), ("most", most)))


def keeps_step(*, n: int, area: Quantity) -> Message:
    """Only on the strip of the day, about {area}: {n} strips, one a working day, never ahead of the
    mix. What still waits is mown as usual.
    """
    return Message("strips.keeps_step", (("n", n), ("area", area)))


def in_their_turn(*, n: int) -> Message:
    """Strip by strip in the order in which they were sown, one a day on {n} days of work: each has
    its own days from its own seed.
    """
    return Message("strips.in_their_turn", (("n", n),))


def slope_strips(*, n: int, area: Quantity) -> Message:
    """A slope does not lie open overnight: do it in {n} strips of about {area}, one a working day,
    and cover each the evening it is worked; begin none with a storm ahead.
    """
    return Message("strips.slope_strips", (("n", n), ("area", area)))


def slope_at_once() -> Message:
    """Rain carries loose soil off a slope: what is loosened, filled, graded or sown is covered the
    same day.
    """
    return Message("strips.slope_at_once")


def side_by_side() -> Message:
    """The lawn is done strip by strip: each strip is cut, cored, dressed, seeded and watered on its
    own day.
    """
    return Message("strips.side_by_side")


def load_for_strips() -> Message:
    """Each load comes with days in hand for its first strip, and is no older than a heap may be on
    its last.
    """
    return Message("strips.load_for_strips")
