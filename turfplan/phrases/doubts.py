"""Messages of `messages/en/doubts.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message, Quantity


def depth() -> Message:
    """The order rests on one depth for the whole lawn: a depth read in the worst dip buys far too
    much.
    """
    return Message("doubts.depth")


def depth_title() -> Message:
    """Measure how deep the fill is before it is ordered"""
    return Message("doubts.depth_title")


def depth_string() -> Message:
    """Stretch a string between places that stay as they are, or lay a straightedge down, and
    measure the gap at many places, dips and rises alike, spread evenly over the lawn; take the
    mean.
    """
    return Message("doubts.depth_string")


def depth_tell() -> Message:
    """Give the plan the mean⟦ (`depth` under `[leveling]`)⟧, the hollows with their shares, or
    heights of a grid. Is the mean what the plan has, this is done.
    """
    return Message("doubts.depth_tell")


def soil() -> Message:
    """The soil was assumed, and the mix is chosen beside it."""
    return Message("doubts.soil")


def soil_title() -> Message:
    """Find out which soil the lawn stands on before anything is ordered"""
    return Message("doubts.soil_title")


def soil_feel(*, short: Quantity, long: Quantity) -> Message:
    """Wet a handful, knead it, and press it out flat between thumb and finger. No ribbon is sand,
    one shorter than {short} a loam, up to {long} a clay loam, a longer one clay; gritty is sandy,
    as smooth as flour is silty, black and light is peat.
    """
    return Message("doubts.soil_feel", (("short", short), ("long", long)))


def soil_tell() -> Message:
    """Tell the plan⟦ (`soil` under `[lawn]`)⟧. Is it a loam, this is done."""
    return Message("doubts.soil_tell")


def grass() -> Message:
    """Nobody has named the grass, and the seed is chosen beside it."""
    return Message("doubts.grass")


def grass_title() -> Message:
    """Find out which grass it is before seed is bought"""
    return Message("doubts.grass_title")


def grass_look() -> Message:
    """Look at its color in midwinter, green or brown as straw. Lift a piece at the edge: does it
    creep by runners, or stand in tufts? Lay a matchstick on a blade: is the blade narrower, about
    as broad, or broader?
    """
    return Message("doubts.grass_look")


def grass_ask() -> Message:
    """Who sells seed, or an extension office, names a piece with its roots."""
    return Message("doubts.grass_ask")


def grass_tell() -> Message:
    """Tell the plan its name, or what you saw⟦ (`grass`, or `green_in_winter`, `runners` and
    `leaf`, under `[lawn]`)⟧. Is it what the plan takes it for, this is done.
    """
    return Message("doubts.grass_tell")


def any_day() -> Message:
    """Nothing is ordered yet."""
    return Message("doubts.any_day")


def later() -> Message:
    """If it cannot be found out in time, order later rather than wrong."""
    return Message("doubts.later")


def first() -> Message:
    """what is bought waits for what is found out"""
    return Message("doubts.first")
