"""Messages of `messages/en/dressed.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message, Quantity


def only_there(*, area: Quantity) -> Message:
    """Only where mix or seed goes on and a mower's width around, about {area} in all: mark these
    parts before; the rest is mown as usual.
    """
    return Message("dressed.only_there", (("area", area),))
