"""Messages of `messages/en/entry.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Amounted, Day, Listed, Message


def changed(*, change: Message) -> Message:
    """Changed: {change}"""
    return Message("entry.changed", (("change", change),))


def how_much(*, amounts: Message) -> Message:
    """How much: {amounts}."""
    return Message("entry.how_much", (("amounts", amounts),))


def step(*, step: Message) -> Message:
    """- {step}"""
    return Message("entry.step", (("step", step),))


def only_if(*, test: Message) -> Message:
    """Only if: {test}"""
    return Message("entry.only_if", (("test", test),))


def if_not(*, what: Message) -> Message:
    """If not: {what}"""
    return Message("entry.if_not", (("what", what),))


def if_not_next(*, what: Message, day: Day) -> Message:
    """If not: {what} The next such day: {day}."""
    return Message("entry.if_not_next", (("what", what), ("day", day)))


def not_earlier(*, reason: Message) -> Message:
    """Not earlier: {reason}"""
    return Message("entry.not_earlier", (("reason", reason),))


def not_later(*, reason: Message) -> Message:
    """Not later: {reason}"""
    return Message("entry.not_later", (("reason", reason),))


def take_care(*, cautions: Listed) -> Message:
    """Take care: {cautions}"""
    return Message("entry.take_care", (("cautions", cautions),))


def amount(*, item: Message, amount: Amounted) -> Message:
    """{item} {amount}"""
    return Message("entry.amount", (("item", item), ("amount", amount)))


def category_prepare() -> Message:
    """prepare"""
    return Message("entry.category.prepare")


def category_surface() -> Message:
    """surface"""
    return Message("entry.category.surface")


def category_level() -> Message:
    """level"""
    return Message("entry.category.level")


def category_seed() -> Message:
    """seed"""
    return Message("entry.category.seed")


def category_care() -> Message:
    """care"""
    return Message("entry.category.care")


def category_finish() -> Message:
    """finish"""
    return Message("entry.category.finish")
