"""Messages of `messages/en/order_sheet.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Amounted, Message, Number


def title(*, lawn: str) -> Message:
    """{lawn}: order sheet"""
    return Message("order_sheet.title", (("lawn", lawn),))


def description(*, lawn: str) -> Message:
    """What to buy for the lawn {lawn}, when, what to ask the supplier, and how to check the
    load.
    """
    return Message("order_sheet.description", (("lawn", lawn),))


def sheet_for(*, lawn: str) -> Message:
    """Order sheet for {lawn}"""
    return Message("order_sheet.sheet_for", (("lawn", lawn),))


def why_not() -> Message:
    """Why not"""
    return Message("order_sheet.why_not")


def order_sheet() -> Message:
    """Order sheet"""
    return Message("order_sheet.order_sheet")


def what_to_buy() -> Message:
    """What to buy"""
    return Message("order_sheet.what_to_buy")


def orders_and_dates() -> Message:
    """Orders and their dates"""
    return Message("order_sheet.orders_and_dates")


def what() -> Message:
    """What"""
    return Message("order_sheet.what")


def how_much() -> Message:
    """How much"""
    return Message("order_sheet.how_much")


def order_by() -> Message:
    """Order by"""
    return Message("order_sheet.order_by")


def deliver_by() -> Message:
    """Deliver by"""
    return Message("order_sheet.deliver_by")


def supplier() -> Message:
    """Supplier"""
    return Message("order_sheet.supplier")


def telephone() -> Message:
    """Telephone"""
    return Message("order_sheet.telephone")


def ordered_on() -> Message:
    """Ordered on"""
    return Message("order_sheet.ordered_on")


def made_of() -> Message:
    """Made of:"""
    return Message("order_sheet.made_of")


def part(*, item: Message, amount: Amounted) -> Message:
    """{item:small} {amount}"""
    return Message("order_sheet.part", (("item", item), ("amount", amount)))


def part_share(*, item: Message, amount: Amounted, share: Number) -> Message:
    """{item:small} {amount} ({share})"""
    return Message("order_sheet.part_share", (("item", item), ("amount", amount), ("share", share)))


def loads() -> Message:
    """Loads:"""
    return Message("order_sheet.loads")


def ask() -> Message:
    """Ask"""
    return Message("order_sheet.ask")


def ask_the_same(*, ask: str, other: str) -> Message:
    """{ask} the same as for {other}."""
    return Message("order_sheet.ask_the_same", (("ask", ask), ("other", other)))


def ask_before() -> Message:
    """Ask before you order"""
    return Message("order_sheet.ask_before")


def yes() -> Message:
    """yes"""
    return Message("order_sheet.yes")


def no() -> Message:
    """no"""
    return Message("order_sheet.no")


def nothing() -> Message:
    """Nothing has to be bought."""
    return Message("order_sheet.nothing")


def delivery_card() -> Message:
    """Delivery card"""
    return Message("order_sheet.delivery_card")


def delivery_on(*, day: str) -> Message:
    """Delivery on {day}"""
    return Message("order_sheet.delivery_on", (("day", day),))


def give_card() -> Message:
    """Give this card to whoever receives the load."""
    return Message("order_sheet.give_card")


def accept_only_if() -> Message:
    """Accept only if:"""
    return Message("order_sheet.accept_only_if")


def check_before() -> Message:
    """Check before it is tipped"""
    return Message("order_sheet.check_before")


def loads_of(*, what: str) -> Message:
    """Loads of {what}"""
    return Message("order_sheet.loads_of", (("what", what),))


def load() -> Message:
    """Load"""
    return Message("order_sheet.load")


def verdict() -> Message:
    """Verdict"""
    return Message("order_sheet.verdict")


def came_at() -> Message:
    """Came at"""
    return Message("order_sheet.came_at")


def accepted() -> Message:
    """accepted"""
    return Message("order_sheet.accepted")


def refused() -> Message:
    """refused"""
    return Message("order_sheet.refused")


def drop_spot() -> Message:
    """Drop spot"""
    return Message("order_sheet.drop_spot")


def drop_where() -> Message:
    """Hard ground off the lawn, a tarp beneath and a tarp on top. Draw where the truck stands and
    where the heap goes:
    """
    return Message("order_sheet.drop_where")


def counted(*, number: Amounted, what: str) -> Message:
    """{number} {what}"""
    return Message("order_sheet.counted", (("number", number), ("what", what)))


def amount_of(*, amount: Amounted, what: str) -> Message:
    """{amount} of {what}"""
    return Message("order_sheet.amount_of", (("amount", amount), ("what", what)))


def not_yet() -> Message:
    """not yet: an estimate"""
    return Message("order_sheet.not_yet")
