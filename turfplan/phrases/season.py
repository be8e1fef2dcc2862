"""Messages of `messages/en/season.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Listed, Message, Number


def left_out(*, operation: Message) -> Message:
    """{operation}: no day of work lies in its window, so it is left out."""
    return Message("season.left_out", (("operation", operation),))


def falls(*, operation: Message) -> Message:
    """{operation}: no day fits, and the work can do without it, so it is left out."""
    return Message("season.falls", (("operation", operation),))


def day_full() -> Message:
    """The day before is full: the hours of the people at hand are used up."""
    return Message("season.day_full")


def other_days_full() -> Message:
    """The days beside it hold as much work as the people at hand have hours."""
    return Message("season.other_days_full")


def overfull(*, day: Day, hours: Number, there: Number, people: int) -> Message:
    """On {day} the work comes to {hours} hours, and {there} are at hand: have {people} people
    there, or move one of its jobs before anything is ordered for it.
    """
    return Message(
        "season.overfull", (("day", day), ("hours", hours), ("there", there), ("people", people))
    )


def overfull_days(*, days: Listed, hours: Number, there: Number, people: int) -> Message:
    """On {days} the work comes to up to {hours} hours a day, and {there} are at hand: have {people}
    people there, or move some of it before anything is ordered for it.
    """
    return Message(
        "season.overfull_days",
        (("days", days), ("hours", hours), ("there", there), ("people", people)),
    )


def overfull_elsewhere(
    *, day: Day, hours: Number, taken: Number, there: Number, people: int
) -> Message:
    """On {day} the work here comes to {hours} hours and that on another lawn of the house to
    {taken}, and {there} are at hand: have {people} people there, or put one of the jobs on another
    of its days before anything is ordered for it.
    """
    return Message(
        "season.overfull_elsewhere",
        (("day", day), ("hours", hours), ("taken", taken), ("there", there), ("people", people)),
    )


def hours_elsewhere() -> Message:
    """On the days beside it the same hands have promised their hours to another lawn of the
    house.
    """
    return Message("season.hours_elsewhere")


def same_day() -> Message:
    """What is spread is worked in the same day, so that the leaf tips show by evening."""
    return Message("season.same_day")


def rolled_same_day() -> Message:
    """Seed is pressed in on the day it is sown, before its first water: wet seed sticks to the
    roller.
    """
    return Message("season.rolled_same_day")


def covered_same_day() -> Message:
    """Bare seed on a slope is pressed in and covered the day it is sown, before any rain can wash
    it: where the seed goes, its cover goes with it.
    """
    return Message("season.covered_same_day")


def idle_machines(*, machines: Listed) -> Message:
    """Of the machines at hand, no work of this plan is quicker with: {machines}."""
    return Message("season.idle_machines", (("machines", machines),))
