"""Messages of `messages/en/order_sheet.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Amounted, Listed, Message, Number


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


def ask_before() -> Message:
    """Ask before you order"""
    return Message("order_sheet.ask_before")


def nothing() -> Message:
    """Nothing has to be bought."""
    return Message("order_sheet.nothing")


def delivery_card() -> Message:
    """Gate card"""
    return Message("order_sheet.delivery_card")


def delivery_on(*, day: str) -> Message:
    """Delivery on {day}"""
    return Message("order_sheet.delivery_on", (("day", day),))


def accept_only_if() -> Message:
    """Accept only if:"""
    return Message("order_sheet.accept_only_if")


def check_before() -> Message:
    """Check before you say yes"""
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


def bags_where() -> Message:
    """Dry and off the ground, under a roof or a tarp. Draw where the bags lie:"""
    return Message("order_sheet.bags_where")


def plants_where() -> Message:
    """In the shade, near the lawn, with water in reach. Draw where the truck stands and where the
    plants go:
    """
    return Message("order_sheet.plants_where")


def counted(*, number: Amounted, what: str) -> Message:
    """{number} {what}"""
    return Message("order_sheet.counted", (("number", number), ("what", what)))


def amount_of(*, amount: Amounted, what: str) -> Message:
    """{amount} of {what}"""
    return Message("order_sheet.amount_of", (("amount", amount), ("what", what)))


def by_days(*, amount: Amounted, days: Listed) -> Message:
    """in parts: about {amount} on each of {days}"""
    return Message("order_sheet.by_days", (("amount", amount), ("days", days)))


def in_bags(*, what: str) -> Message:
    """{what}, in bags"""
    return Message("order_sheet.in_bags", (("what", what),))


def bags_for(*, amount: Amounted, what: str) -> Message:
    """{amount} in bags for {what}"""
    return Message("order_sheet.bags_for", (("amount", amount), ("what", what)))


def not_yet() -> Message:
    """not yet"""
    return Message("order_sheet.not_yet")


def cost() -> Message:
    """Cost"""
    return Message("order_sheet.cost")


def total() -> Message:
    """Total"""
    return Message("order_sheet.total")


def total_part() -> Message:
    """Total of what has a price"""
    return Message("order_sheet.total_part")


def why_so_much() -> Message:
    """Why so much"""
    return Message("order_sheet.why_so_much")


def call_sheet() -> Message:
    """Call sheet"""
    return Message("order_sheet.call_sheet")


def spoke_on() -> Message:
    """Spoke on"""
    return Message("order_sheet.spoke_on")


def to_supplier() -> Message:
    """To the supplier"""
    return Message("order_sheet.to_supplier")


def estimate() -> Message:
    """An estimate, not to be ordered yet: it asks for the price alone."""
    return Message("order_sheet.estimate")


def street() -> Message:
    """Street"""
    return Message("order_sheet.street")


def deliver_to() -> Message:
    """Deliver to"""
    return Message("order_sheet.deliver_to")


def day() -> Message:
    """On"""
    return Message("order_sheet.day")


def load_head() -> Message:
    """Loads"""
    return Message("order_sheet.load_head")


def made_of_head() -> Message:
    """Made of"""
    return Message("order_sheet.made_of_head")


def checked_at_gate() -> Message:
    """Checked at the gate: what fails goes back"""
    return Message("order_sheet.checked_at_gate")


def offer() -> Message:
    """Your offer"""
    return Message("order_sheet.offer")


def price_each() -> Message:
    """Price of each"""
    return Message("order_sheet.price_each")


def price_delivery() -> Message:
    """Delivery"""
    return Message("order_sheet.price_delivery")


def valid_until() -> Message:
    """Valid until"""
    return Message("order_sheet.valid_until")


def signature() -> Message:
    """Signature"""
    return Message("order_sheet.signature")


def lot() -> Message:
    """Lot"""
    return Message("order_sheet.lot")


def purity() -> Message:
    """Purity, %"""
    return Message("order_sheet.purity")


def germination() -> Message:
    """Germination, %"""
    return Message("order_sheet.germination")


def tested() -> Message:
    """Tested in"""
    return Message("order_sheet.tested")


def weed_seed() -> Message:
    """Weed seed, %"""
    return Message("order_sheet.weed_seed")


def from_() -> Message:
    """Your customer"""
    return Message("order_sheet.from")


def fetch_on(*, day: str) -> Message:
    """Fetch on {day}"""
    return Message("order_sheet.fetch_on", (("day", day),))


def wanted(*, total: str, what: str) -> Message:
    """Wanted: {total} of {what}"""
    return Message("order_sheet.wanted", (("total", total), ("what", what)))


def money(*, amount: str, currency: str) -> Message:
    """{amount} {currency}"""
    return Message("order_sheet.money", (("amount", amount), ("currency", currency)))


def money_as_given(*, amount: str) -> Message:
    """{amount}, in the money of your prices"""
    return Message("order_sheet.money_as_given", (("amount", amount),))
