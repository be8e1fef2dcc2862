"""Messages of `messages/en/slips_told.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Listed, Message


def can_wait(*, day: Day) -> Message:
    """It can wait until {day}, the last day for it."""
    return Message("slips_told.can_wait", (("day", day),))


def can_wait_moves(*, day: Day, tasks: Listed) -> Message:
    """It can wait until {day}; a later day moves {tasks}."""
    return Message("slips_told.can_wait_moves", (("day", day), ("tasks", tasks)))


def can_wait_after(*, day: Day, tasks: Listed) -> Message:
    """It can wait until {day}; later is too long after {tasks}."""
    return Message("slips_told.can_wait_after", (("day", day), ("tasks", tasks)))


def moves(*, tasks: Listed) -> Message:
    """A later day moves {tasks}."""
    return Message("slips_told.moves", (("tasks", tasks),))
