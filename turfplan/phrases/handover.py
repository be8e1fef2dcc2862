"""Messages of `messages/en/handover.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Days, Listed, Message, Quantity


def rest_of_fill(*, depth: Quantity) -> Message:
    """Level what is left of the fill, up to {depth}"""
    return Message("handover.rest_of_fill", (("depth", depth),))


def item(*, title: Message, days: Days) -> Message:
    """{title} ({days})"""
    return Message("handover.item", (("title", title), ("days", days)))


def after_the_plan(*, items: Listed) -> Message:
    """This plan leaves to whoever looks after the lawn then: {items}."""
    return Message("handover.after_the_plan", (("items", items),))
