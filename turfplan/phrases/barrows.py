"""Messages of `messages/en/barrows.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Amounted, Message, Quantity


def covers(*, barrow: Amounted, area: Quantity, side: Quantity, loose: Quantity, n: int) -> Message:
    """One barrow ({barrow}) covers {area}, a patch {side} square, {loose} loose; {n} barrows in
    all.
    """
    return Message(
        "barrows.covers",
        (("barrow", barrow), ("area", area), ("side", side), ("loose", loose), ("n", n)),
    )


def covers_deepest(
    *, barrow: Amounted, area: Quantity, side: Quantity, loose: Quantity, n: int
) -> Message:
    """Where it is deepest, one barrow ({barrow}) covers {area}, a patch {side} square, {loose}
    loose; {n} barrows in all.
    """
    return Message(
        "barrows.covers_deepest",
        (("barrow", barrow), ("area", area), ("side", side), ("loose", loose), ("n", n)),
    )


def heaps(*, apart: Quantity) -> Message:
    """Set half-barrow heaps {apart} apart both ways, and rake out."""
    return Message("barrows.heaps", (("apart", apart),))


def heaps_thin(*, apart: Quantity) -> Message:
    """Where it is thinnest, {apart} apart."""
    return Message("barrows.heaps_thin", (("apart", apart),))


def by_machine() -> Message:
    """The spreading machine does it, without heaps: try it on such a patch with one barrow, and set
    it by what is left.
    """
    return Message("barrows.by_machine")


def loader(*, volume: Quantity, area: Quantity, side: Quantity, loose: Quantity) -> Message:
    """By the loader: {volume} covers {area}, {loose} loose. Set heaps of {volume} {side} apart both
    ways, and rake out.
    """
    return Message(
        "barrows.loader", (("volume", volume), ("area", area), ("side", side), ("loose", loose))
    )


def for_cores() -> Message:
    """That is more than the depth alone: the holes of the cores are filled too."""
    return Message("barrows.for_cores")
