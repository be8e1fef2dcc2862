"""Messages of `messages/en/absences.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Listed, Message


def water_waits(*, away: Listed, what: Message, day: Day, until: Day, n: int, days: int) -> Message:
    """Nobody is there to water from {away}: {what}, which could be down by {day}, waits until
    {until}, {n} weeks later, since somebody must water on each of the first {days} days.
    """
    return Message(
        "absences.water_waits",
        (("away", away), ("what", what), ("day", day), ("until", until), ("n", n), ("days", days)),
    )


def both_wait(*, away: Listed, what: Message, day: Day, until: Day, n: int, days: int) -> Message:
    """Nobody is there to work or to water from {away}: {what}, which could be down by {day}, waits
    until {until}, {n} weeks later; somebody must also water on each of the first {days} days.
    """
    return Message(
        "absences.both_wait",
        (("away", away), ("what", what), ("day", day), ("until", until), ("n", n), ("days", days)),
    )


def work_waits(*, away: Listed, what: Message, day: Day, until: Day, n: int) -> Message:
    """Nobody is there to work from {away}: {what}, which could be down by {day}, waits until
    {until}, {n} weeks later.
    """
    return Message(
        "absences.work_waits",
        (("away", away), ("what", what), ("day", day), ("until", until), ("n", n)),
    )


def fill() -> Message:
    """the fill"""
    return Message("absences.fill")


def seed(*, grass: Message) -> Message:
    """seed of {grass}"""
    return Message("absences.seed", (("grass", grass),))


def plants(*, grass: Message) -> Message:
    """planting {grass}"""
    return Message("absences.plants", (("grass", grass),))


def fill_and_seed(*, grass: Message) -> Message:
    """the fill with its seed of {grass}"""
    return Message("absences.fill_and_seed", (("grass", grass),))


def fill_and_plants(*, grass: Message) -> Message:
    """the fill with {grass} planted on it"""
    return Message("absences.fill_and_plants", (("grass", grass),))


def neighbour() -> Message:
    """Somebody else waters every day while you are away"""
    return Message("absences.neighbour")


def contractor() -> Message:
    """A contractor does the work while you are away"""
    return Message("absences.contractor")


def contractor_and_timer() -> Message:
    """A contractor does the work, and a timer waters"""
    return Message("absences.contractor_and_timer")


def go_later(*, days: Listed) -> Message:
    """Be away later, from {days}"""
    return Message("absences.go_later", (("days", days),))


def back_by(*, day: Day) -> Message:
    """Be away no longer than to {day}"""
    return Message("absences.back_by", (("day", day),))


def sod() -> Message:
    """Lay sod, which may go down in another season"""
    return Message("absences.sod")


def in_spring() -> Message:
    """Sow in spring: second best, with more weeds and a first summer to live through"""
    return Message("absences.in_spring")
