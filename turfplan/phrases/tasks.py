"""Messages of `messages/en/tasks.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message, Number, Quantity


def bales(*, n: int, number: Number) -> Message:
    """{number} bales"""
    return Message("tasks.bales", (("n", n), ("number", number)))


def nitrogen(*, rate: Quantity) -> Message:
    """{rate} N"""
    return Message("tasks.nitrogen", (("rate", rate),))
