"""Messages of `messages/en/ground_sheet.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message, Quantity


def figures(*, depth: str, volume: str, reach: str) -> Message:
    """On average {depth} is missing: {volume} in all, between {reach} with the error of the
    survey.
    """
    return Message("ground_sheet.figures", (("depth", depth), ("volume", volume), ("reach", reach)))


def reach(*, low: Quantity, high: Quantity) -> Message:
    """{low} and {high}"""
    return Message("ground_sheet.reach", (("low", low), ("high", high)))


def stakes_of(*, map: str) -> Message:
    """Stakes of {map}"""
    return Message("ground_sheet.stakes_of", (("map", map),))


def stake() -> Message:
    """Stake"""
    return Message("ground_sheet.stake")


def where() -> Message:
    """Where"""
    return Message("ground_sheet.where")


def fill() -> Message:
    """Fill"""
    return Message("ground_sheet.fill")


def fill_in_all() -> Message:
    """Fill in all"""
    return Message("ground_sheet.fill_in_all")


def pass_(*, number: int) -> Message:
    """Pass {number}"""
    return Message("ground_sheet.pass", (("number", number),))


def work() -> Message:
    """Work"""
    return Message("ground_sheet.work")


def this_pass() -> Message:
    """This pass, settled"""
    return Message("ground_sheet.this_pass")


def so_far() -> Message:
    """All so far, settled"""
    return Message("ground_sheet.so_far")


def lift() -> Message:
    """lift and fill"""
    return Message("ground_sheet.lift")


def map_of(*, title: str) -> Message:
    """Map: {title}"""
    return Message("ground_sheet.map_of", (("title", title),))
