"""Messages of `messages/en/handover.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Days, Listed, Message, Number, Quantity


def rest_of_fill(*, depth: Quantity) -> Message:
    """Level what is left of the fill, up to {depth}"""
    return Message("handover.rest_of_fill", (("depth", depth),))


def undone_part(*, depth: Quantity, left: Quantity, share: Number, rest: Message) -> Message:
    """This plan spreads {depth} of the fill asked for; up to {left} on {share} of the lawn is left
    out. {rest}
    """
    return Message(
        "handover.undone.part", (("depth", depth), ("left", left), ("share", share), ("rest", rest))
    )


def undone_all(*, depth: Quantity, rest: Message) -> Message:
    """Nothing of the {depth} of fill asked for is spread in this plan: leveling has too few days
    left this season, and what is sown or planted now is not spread over before it is mown three
    times. {rest}
    """
    return Message("handover.undone.all", (("depth", depth), ("rest", rest)))


def undone_next(*, days: Days) -> Message:
    """The next season for the rest: {days}; plan it by itself then."""
    return Message("handover.undone.next", (("days", days),))


def undone_way(*, title: Message, change: Message, reason: Message) -> Message:
    """All of it: {title} ({change}). {reason}"""
    return Message(
        "handover.undone.way", (("title", title), ("change", change), ("reason", reason))
    )


def item(*, title: Message, days: Days) -> Message:
    """{title} ({days})"""
    return Message("handover.item", (("title", title), ("days", days)))


def after_the_plan(*, items: Listed) -> Message:
    """This plan leaves to whoever looks after the lawn then: {items}."""
    return Message("handover.after_the_plan", (("items", items),))
