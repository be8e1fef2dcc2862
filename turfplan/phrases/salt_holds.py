"""Messages of `messages/en/salt_holds.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message, Number, Quantity


def too_salty_seed(*, salts: Number, most: Number, grass: Message) -> Message:
    """Salts of {salts} dS/m kill seedlings of {grass}, the hardiest of which bear {most}: wash the
    salt out and test again, or take a grass that bears it.
    """
    return Message(
        "salt_holds.too_salty_seed", (("salts", salts), ("most", most), ("grass", grass))
    )


def too_salty_cover(*, salts: Number, most: Number, grass: Message) -> Message:
    """Salts of {salts} dS/m kill seedlings of {grass}, the hardiest of which bear {most}: wash the
    salt out and test again, or leave the lawn to its winter sleep.
    """
    return Message(
        "salt_holds.too_salty_cover", (("salts", salts), ("most", most), ("grass", grass))
    )


def too_salty_plants(*, salts: Number, most: Number, grass: Message) -> Message:
    """Salts of {salts} dS/m are more than the {most} that {grass} bears: wash the salt out and test
    again, or take a grass that bears it.
    """
    return Message(
        "salt_holds.too_salty_plants", (("salts", salts), ("most", most), ("grass", grass))
    )


def gypsum_first(*, rate: Quantity) -> Message:
    """The ground is sodic too: the {rate} of gypsum that the laboratory asks for go on before the
    water that washes salt and sodium out.
    """
    return Message("salt_holds.gypsum_first", (("rate", rate),))


def gypsum_asked() -> Message:
    """The ground is sodic too: ask the laboratory for its gypsum rate; gypsum goes on before the
    water that washes salt and sodium out.
    """
    return Message("salt_holds.gypsum_asked")


def sodic_untold(*, sar: Number) -> Message:
    """The ground is sodic (adsorption ratio {sar}), and the laboratory has not said how much gypsum
    it takes: its answer comes before seed and plants.
    """
    return Message("salt_holds.sodic_untold", (("sar", sar),))


def sodic(*, n: int) -> Message:
    """Sodic ground seals under seed and plants: the gypsum of all {n} parts goes on and is washed
    down first, half a year for each.
    """
    return Message("salt_holds.sodic", (("n", n),))


def untested() -> Message:
    """The ground is said to be salty, and nobody has measured how much: the salt test comes back
    first.
    """
    return Message("salt_holds.untested")
