"""Messages of `messages/en/wet_at_once.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message, Number, Quantity


def behind(*, area: Quantity, minutes: int, volume: Quantity, in_all: Number) -> Message:
    """Water behind the planting: every stretch of about {area}, the work of {minutes} minutes, gets
    about {volume} by hose or can before the next is begun. That takes somebody about {in_all}
    minutes in all, counted here; the run after the work soaks the whole.
    """
    return Message(
        "wet_at_once.behind",
        (("area", area), ("minutes", minutes), ("volume", volume), ("in_all", in_all)),
    )


def in_hours(*, hours: Listed, needed: Number, held: Number) -> Message:
    """Water is allowed at {hours} alone, and a plant does not wait for it: get the ground ready
    before, and plant in these hours. By daylight they hold {held} hours; a day's planting takes
    {needed}.
    """
    return Message("wet_at_once.in_hours", (("hours", hours), ("needed", needed), ("held", held)))


def hours_short(*, hours: Listed, needed: Number, held: Number, people: int) -> Message:
    """Water is allowed at {hours} alone, and a plant does not wait for it: by daylight these hours
    hold {held} hours, a day's planting takes {needed}. Before the plants are bought get leave to
    water by hand behind the planting at other hours, or plant in these hours with {people} at work.
    """
    return Message(
        "wet_at_once.hours_short",
        (("hours", hours), ("needed", needed), ("held", held), ("people", people)),
    )


def no_hours(*, hours: Listed) -> Message:
    """Water is allowed at {hours} alone, when nobody plants, and a plant does not wait for it:
    before the plants are bought get leave to water by hand behind the planting. Without it buy
    none.
    """
    return Message("wet_at_once.no_hours", (("hours", hours),))


def closed_days() -> Message:
    """On a day that is closed to watering nothing is planted before the permit, or leave to water
    by hand, is in hand.
    """
    return Message("wet_at_once.closed_days")
