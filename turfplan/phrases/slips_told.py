"""Messages of `messages/en/slips_told.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Message


def can_wait(*, day: Day) -> Message:
    """Can wait until {day}, its last day."""
    return Message("slips_told.can_wait", (("day", day),))


def can_wait_moves(*, day: Day, task: str) -> Message:
    """Can wait until {day}; later moves {task}."""
    return Message("slips_told.can_wait_moves", (("day", day), ("task", task)))


def can_wait_after(*, day: Day, task: str) -> Message:
    """Can wait until {day}; later is too long after {task}."""
    return Message("slips_told.can_wait_after", (("day", day), ("task", task)))


def moves(*, task: str) -> Message:
    """Later moves {task}."""
    return Message("slips_told.moves", (("task", task),))


def too_long(*, task: str) -> Message:
    """Later is too long after {task}."""
    return Message("slips_told.too_long", (("task", task),))
