"""Messages of `messages/en/weed_killers.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Listed, Message


def no_wait(*, ingredient: str, day: Day) -> Message:
    """After {ingredient} of {day} seed needs no wait by the book; the label decides if it says
    otherwise.
    """
    return Message("weed_killers.no_wait", (("ingredient", ingredient), ("day", day)))


def holds(*, ingredient: str, day: Day, n: int) -> Message:
    """{ingredient} of {day} keeps seed from growing for about {n} weeks; the label decides if it
    says longer.
    """
    return Message("weed_killers.holds", (("ingredient", ingredient), ("day", day), ("n", n)))


def not_in_book(*, ingredient: str, day: Day, n: int) -> Message:
    """{ingredient} of {day} is not in the book: {n} weeks are kept free of seed, and the label may
    ask for more. Read there when seed may follow, and tell the plan⟦ (`seed_after` or
    `hold_days`)⟧.
    """
    return Message("weed_killers.not_in_book", (("ingredient", ingredient), ("day", day), ("n", n)))


def unknown(*, day: Day, n: int) -> Message:
    """Nobody knows what killed weeds on {day}: {n} weeks are kept free of seed, and the label may
    ask for more. Find its name, or read on its label when seed may follow, and tell the plan.
    """
    return Message("weed_killers.unknown", (("day", day), ("n", n)))


def spares(*, ingredient: str, day: Day, grass: Listed, source: Message) -> Message:
    """{ingredient} of {day} holds nothing back: {grass} bears it while it comes up or takes root
    ({source}); the label decides if it says otherwise.
    """
    return Message(
        "weed_killers.spares",
        (("ingredient", ingredient), ("day", day), ("grass", grass), ("source", source)),
    )


def weed_and_feed(*, day: Day, n: int) -> Message:
    """A weed-and-feed of {day} holds a weed killer whose name is on the bag: until you tell the
    plan, {n} weeks are kept free of seed.
    """
    return Message("weed_killers.weed_and_feed", (("day", day), ("n", n)))


def ask_name(*, on: Day) -> Message:
    """What killed weeds on {on} decides when seed may follow: read the active ingredients on its
    bag or ask where it was bought, and tell the plan.
    """
    return Message("weed_killers.ask_name", (("on", on),))


def answer(*, names: Listed, day: Day) -> Message:
    """With {names}: sown or planted by {day}."""
    return Message("weed_killers.answer", (("names", names), ("day", day)))


def no_answer(*, day: Day) -> Message:
    """Without a name, or with one that holds longer: {day}, as planned now."""
    return Message("weed_killers.no_answer", (("day", day),))


def read_bag() -> Message:
    """The name of the weed killer decides when seed may follow; a guess can cost a year."""
    return Message("weed_killers.read_bag")


def read_bag_title() -> Message:
    """Find the name of the weed killer on its bag"""
    return Message("weed_killers.read_bag_title")


def read_bag_how() -> Message:
    """Read the active ingredients in small print on the front of the bag and when its label lets
    seed follow; without the bag ask the shop, or find its label by the product's number.
    """
    return Message("weed_killers.read_bag_how")


def read_bag_write() -> Message:
    """Tell the plan each name⟦ (`active_ingredient` in the history of weed killers)⟧, or the
    label's day⟦ (`seed_after`)⟧: the dates of the seed follow.
    """
    return Message("weed_killers.read_bag_write")


def read_label() -> Message:
    """Only its label says when seed or plants may follow; until then the plan keeps the longest
    interval that it knows.
    """
    return Message("weed_killers.read_label")


def read_label_title(*, ingredient: str) -> Message:
    """Read on the label of {ingredient} when seed may follow"""
    return Message("weed_killers.read_label_title", (("ingredient", ingredient),))


def read_label_how() -> Message:
    """Look for the days or weeks to seeding, sodding or sprigging; without the label find it by the
    product's number, or ask the shop.
    """
    return Message("weed_killers.read_label_how")


def read_label_write() -> Message:
    """Tell the plan that day⟦ (`seed_after`, with what was given, or the days as `hold_days`)⟧: the
    dates of the seed follow.
    """
    return Message("weed_killers.read_label_write")


def read_bag_go() -> Message:
    """You are there, on any day: the sooner, the more is left to choose."""
    return Message("weed_killers.read_bag_go")


def harms(*, ingredient: str, day: Day, grass: Message, source: Message, n: int) -> Message:
    """{ingredient} of {day} harms young {grass} ({source}), and no interval is published for it:
    {n} weeks are kept free of it, the longest of any preventer; the label decides if it says
    longer, or never.
    """
    return Message(
        "weed_killers.harms",
        (("ingredient", ingredient), ("day", day), ("grass", grass), ("source", source), ("n", n)),
    )


def stops(*, ingredient: str, day: Day, n: int) -> Message:
    """{ingredient} of {day} kills all growth and lasts in the soil, about {n} months and often
    longer: nothing is sown or planted until its label allows it, or seed has grown in a pot of that
    soil. Tell the plan that day⟦ (`seed_after`)⟧.
    """
    return Message("weed_killers.stops", (("ingredient", ingredient), ("day", day), ("n", n)))


def by_label(*, ingredient: str, day: Day, after: Day) -> Message:
    """{ingredient} of {day}: seed may follow from {after}, as you said."""
    return Message(
        "weed_killers.by_label", (("ingredient", ingredient), ("day", day), ("after", after))
    )


def clippings(*, ingredient: str, source: Message) -> Message:
    """{ingredient} stays active in clippings and in compost made of them ({source}): leave
    clippings on this lawn, give none away, and use none as mulch.
    """
    return Message("weed_killers.clippings", (("ingredient", ingredient), ("source", source)))


def own_compost() -> Message:
    """Take no compost made of clippings or hay from treated ground for this lawn or its beds: grow
    beans in a pot of it first, for three to four weeks.
    """
    return Message("weed_killers.own_compost")


def pot_passed() -> Message:
    """Sow grass in a pot of that soil; if it still grows well after four weeks, write the day
    down
    """
    return Message("weed_killers.pot_passed")
