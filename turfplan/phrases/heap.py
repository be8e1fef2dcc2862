"""Messages of `messages/en/heap.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message, Quantity


def ask_for_room(*, load: Quantity, area: Quantity) -> Message:
    """Nobody said how much room there is for a heap: the largest delivery, {load}, takes about
    {area} of hard ground off the lawn. Tell the plan what there is⟦ (`heap_area` under
    `[delivery]`)⟧.
    """
    return Message("heap.ask_for_room", (("load", load), ("area", area)))


def too_large(*, load: Quantity, needed: Quantity, area: Quantity, room: Quantity) -> Message:
    """This load of {load} takes about {needed} of hard ground, and the {area} there are hold about
    {room} at once: find more room, or have the rest in big bags along the drive.
    """
    return Message(
        "heap.too_large", (("load", load), ("needed", needed), ("area", area), ("room", room))
    )
