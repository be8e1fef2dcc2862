"""Messages of `messages/en/history.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Days, Listed, Message, Number, Quantity


def still_to_do() -> Message:
    """It is still to be done, and the days before today are over."""
    return Message("history.still_to_do")


def rain_forecast() -> Message:
    """Rain is forecast: the mix must be dry, and stay dry until it is worked in."""
    return Message("history.rain_forecast")


def as_logged() -> Message:
    """As logged."""
    return Message("history.as_logged")


def move_given_up(*, day: Day, reason: Message) -> Message:
    """It cannot stay on {day}, to which it was moved by hand. {reason}"""
    return Message("history.move_given_up", (("day", day), ("reason", reason)))


def no_day_left(*, tasks: Listed, reason: Message) -> Message:
    """After what has happened no day is left in this plan for: {tasks}. {reason}"""
    return Message("history.no_day_left", (("tasks", tasks), ("reason", reason)))


def no_day_for_rest(*, tasks: Listed, reason: Message) -> Message:
    """After what has happened no day is left in this plan for the rest of: {tasks}. What has come
    up is kept and looked after; the rest is for the next season, by a plan of its own. {reason}
    """
    return Message("history.no_day_for_rest", (("tasks", tasks), ("reason", reason)))


def seed_lies_there() -> Message:
    """What is sown or planted is in the ground already: nothing is tilled, filled or killed over
    it.
    """
    return Message("history.seed_lies_there")


def way_on(*, title: Message, change: Message, reason: Message) -> Message:
    """It can still be done in another way: {title}⟦ (`{change}`)⟧. {reason}"""
    return Message("history.way_on", (("title", title), ("change", change), ("reason", reason)))


def booked() -> Message:
    """It is booked for this day."""
    return Message("history.booked")


def outside_plan(*, days: Days) -> Message:
    """The season of the plan is {days}."""
    return Message("history.outside_plan", (("days", days),))


def rest_of_job(*, share: Number) -> Message:
    """{share} of it is still to do, on the part that has not had it yet; amounts are those of the
    whole job.
    """
    return Message("history.rest_of_job", (("share", share),))


def rest_of_pass(*, share: Number, volume: Quantity) -> Message:
    """{share} of this pass is still to do, about {volume} of the mix, on the part that has none
    yet; amounts are those of the whole pass.
    """
    return Message("history.rest_of_pass", (("share", share), ("volume", volume)))


def unspread_part() -> Message:
    """the part that has no mix yet"""
    return Message("history.unspread_part")


def prepare_unspread() -> Message:
    """Only on the part that has no mix yet: what is spread stays as it is."""
    return Message("history.prepare_unspread")
