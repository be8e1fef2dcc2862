"""Messages of `messages/en/soil_layers.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message, Number, Quantity


def like_own(*, soil: Message) -> Message:
    """As a soil the mix is {soil} like your own: no foreign layer."""
    return Message("soil_layers.like_own", (("soil", soil),))


def like_own_if(*, soil: Message, topsoil: Message) -> Message:
    """As a soil the mix is {soil} like your own, if its topsoil is {topsoil}: no foreign layer."""
    return Message("soil_layers.like_own_if", (("soil", soil), ("topsoil", topsoil)))


def other(*, soil: Message, sand: Number, own: Message, own_sand: Number) -> Message:
    """As a soil the mix is {soil}: about {sand} sand, where your {own} has about {own_sand}."""
    return Message(
        "soil_layers.other", (("soil", soil), ("sand", sand), ("own", own), ("own_sand", own_sand))
    )


def other_if(
    *, soil: Message, topsoil: Message, sand: Number, own: Message, own_sand: Number
) -> Message:
    """As a soil the mix is {soil}, if its topsoil is {topsoil}: about {sand} sand, where your {own}
    has about {own_sand}.
    """
    return Message(
        "soil_layers.other_if",
        (
            ("soil", soil),
            ("topsoil", topsoil),
            ("sand", sand),
            ("own", own),
            ("own_sand", own_sand),
        ),
    )


def ask_for_sand() -> Message:
    """Ask for a sandier one: water stands in a heavy layer on a light soil."""
    return Message("soil_layers.ask_for_sand")


def lighter() -> Message:
    """A lighter layer dries out first; the cores tie it to the soil below."""
    return Message("soil_layers.lighter")


def lighter_raked() -> Message:
    """A lighter layer dries out first: rake the first lift into the loosened ground, and take the
    topsoil that is nearest to your own soil.
    """
    return Message("soil_layers.lighter_raked")


def lighter_topsoil() -> Message:
    """A lighter layer dries out first; the cores tie it to the soil below, and the best topsoil for
    it is the one nearest to your own soil.
    """
    return Message("soil_layers.lighter_topsoil")


def does_not_loosen(*, depth: Quantity, soil: Message) -> Message:
    """It levels and does not loosen: worked into the top {depth}, that would still be {soil}."""
    return Message("soil_layers.does_not_loosen", (("depth", depth), ("soil", soil)))


def on_peat() -> Message:
    """A mineral mix makes the surface of peat firmer; peat sinks under weight, so keep each layer
    thin and look again after a year.
    """
    return Message("soil_layers.on_peat")


def on_chalk() -> Message:
    """Ask for topsoil that is no limier than your own: chalk has lime enough."""
    return Message("soil_layers.on_chalk")


def on_subsoil() -> Message:
    """Over subsoil or rubble the mix is the only soil that grass has: the topsoil in it should be
    good, and free of stones.
    """
    return Message("soil_layers.on_subsoil")
