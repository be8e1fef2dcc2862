"""Messages of `messages/en/slopes.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message, Number


def no_lawn(*, slope: Number, most: Number) -> Message:
    """A slope of {slope} is too steep for a lawn ({most} is the limit): build terraces or walls, or
    plant ground cover.
    """
    return Message("slopes.no_lawn", (("slope", slope), ("most", most)))


def no_mower(*, slope: Number, most: Number) -> Message:
    """On a slope of {slope} a mower slides or tips ({most} is the limit of its makers): a
    contractor with machines for slopes does it, or terraces or ground cover take the place of the
    lawn.
    """
    return Message("slopes.no_mower", (("slope", slope), ("most", most)))


def no_heavy_machines(*, slope: Number, most: Number) -> Message:
    """On a slope of {slope} no aerator, dethatcher or roller is used ({most} is the limit): the
    turf is opened with a hand rake, and a contractor with machines for slopes can core it.
    """
    return Message("slopes.no_heavy_machines", (("slope", slope), ("most", most)))


def pegged_mat() -> Message:
    """Unroll a mat of straw or jute down the slope over the seed, dig its upper end in, overlap the
    rolls by a hand and peg them every {3 ft|1 m}; the grass grows through it.
    """
    return Message("slopes.pegged_mat")


def spread_across() -> Message:
    """Work across the slope from the top, on dry ground; spread thinner and oftener than on the
    level, and drag uphill.
    """
    return Message("slopes.spread_across")
