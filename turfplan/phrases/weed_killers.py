"""Messages of `messages/en/weed_killers.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Message


def holds(*, ingredient: str, day: Day, n: int) -> Message:
    """{ingredient} of {day} keeps seed from growing for about {n} weeks; the label decides if it
    says longer.
    """
    return Message("weed_killers.holds", (("ingredient", ingredient), ("day", day), ("n", n)))


def unknown(*, ingredient: str, day: Day, n: int) -> Message:
    """{ingredient} of {day} is not in the book: {n} weeks are kept free of seed, and the label may
    ask for more. Read there when seed may follow and write it into the brief (seed_after or
    hold_days).
    """
    return Message("weed_killers.unknown", (("ingredient", ingredient), ("day", day), ("n", n)))


def weed_and_feed(*, day: Day, n: int) -> Message:
    """A weed-and-feed of {day} holds a weed killer whose name is on the bag: until you write it
    into the brief, {n} weeks are kept free of seed.
    """
    return Message("weed_killers.weed_and_feed", (("day", day), ("n", n)))


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
    soil. Write that day into the brief as seed_after.
    """
    return Message("weed_killers.stops", (("ingredient", ingredient), ("day", day), ("n", n)))


def by_label(*, ingredient: str, day: Day, after: Day) -> Message:
    """{ingredient} of {day}: seed may follow from {after}, as the brief says."""
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
