"""Messages of `messages/en/history.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Days, Message


def still_to_do() -> Message:
    """It is still to be done, and the days before today are over."""
    return Message("history.still_to_do")


def rain_forecast() -> Message:
    """Rain is forecast: the mix must be dry, and stay dry until it is worked in."""
    return Message("history.rain_forecast")


def as_logged() -> Message:
    """As logged."""
    return Message("history.as_logged")


def booked() -> Message:
    """It is booked for this day."""
    return Message("history.booked")


def outside_plan(*, days: Days) -> Message:
    """The season of the plan is {days}."""
    return Message("history.outside_plan", (("days", days),))
