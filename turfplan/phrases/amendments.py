"""Messages of `messages/en/amendments.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message, Number, Quantity


def iron() -> Message:
    """Iron for color"""
    return Message("amendments.iron")


def sulfur() -> Message:
    """Sulfur"""
    return Message("amendments.sulfur")


def lime() -> Message:
    """Lime"""
    return Message("amendments.lime")


def gypsum() -> Message:
    """Gypsum"""
    return Message("amendments.gypsum")


def potash() -> Message:
    """Potash (K₂O)"""
    return Message("amendments.potash")


def potash_how() -> Message:
    """Sulfate of potash is half potash, so that twice this weight of it goes on; it burns less than
    muriate of potash.
    """
    return Message("amendments.potash_how")


def phosphate() -> Message:
    """Phosphate (P₂O₅)"""
    return Message("amendments.phosphate")


def phosphate_how() -> Message:
    """Triple superphosphate (0-46-0) is not quite half phosphate, so that a little more than twice
    this weight of it goes on.
    """
    return Message("amendments.phosphate_how")


def potash_water() -> Message:
    """Water it in at once; never on wilting grass, in heat, or on frozen ground."""
    return Message("amendments.potash_water")


def potash_water_law() -> Message:
    """Few days are open to watering: spread it on the first of them from its day on, and water it
    in at once; never on wilting grass, in heat, or on frozen ground.
    """
    return Message("amendments.potash_water_law")


def washed_in() -> Message:
    """Nobody waters here: spread it before a steady rain that washes it in; never on wilting grass,
    in heat, or before a storm.
    """
    return Message("amendments.washed_in")


def iron_why(*, ph: Number, high: Number) -> Message:
    """The soil's pH of {ph} is above {high}: iron is locked up there, and a spray on the leaves
    greens what is pale. Where the grass is green, leave it out.
    """
    return Message("amendments.iron_why", (("ph", ph), ("high", high)))


def iron_how() -> Message:
    """Dissolve it in enough water to wet the leaves and spray it early on a dry day, before the
    leaves are warm; do not water it in, on this soil it works through the leaves alone.
    """
    return Message("amendments.iron_how")


def iron_apart() -> Message:
    """Iron works through the leaves: what is watered in on the same day would wash it off."""
    return Message("amendments.iron_apart")


def iron_stains() -> Message:
    """It stains paving and walls rust-brown: keep off them, and rinse at once what was hit."""
    return Message("amendments.iron_stains")


def sulfur_why(*, ph: Number, high: Number) -> Message:
    """The soil's pH of {ph} is above {high} and it holds no free lime: sulfur lowers it slowly, a
    little at a time; test again after a year.
    """
    return Message("amendments.sulfur_why", (("ph", ph), ("high", high)))


def sulfur_how() -> Message:
    """Water it in at once, or it burns the leaves; never on wilting grass or in heat."""
    return Message("amendments.sulfur_how")


def sulfur_how_law() -> Message:
    """Few days are open to watering: spread it on the first of them from its day on and water it in
    at once, or it burns the leaves; never on wilting grass or in heat.
    """
    return Message("amendments.sulfur_how_law")


def gypsum_why(*, rate: Quantity) -> Message:
    """The soil is sodic, and the laboratory asks for {rate} of gypsum: its calcium takes the place
    of sodium, and water carries that down.
    """
    return Message("amendments.gypsum_why", (("rate", rate),))


def gypsum_how(*, water: Quantity) -> Message:
    """In the weeks after it send {water} of water through the soil beyond what the grass uses, as
    much at a time as sinks in without running off: what was set free must leave the roots, so the
    ground has to drain. The waterings of this plan do not hold it.
    """
    return Message("amendments.gypsum_how", (("water", water),))


def left_for_later(*, what: Message, rate: Quantity, whole: Quantity) -> Message:
    """{what}: {rate} of the {whole} that the soil test asks for lie beyond the last day of this
    plan: give them in the same parts the year after, or test again first.
    """
    return Message("amendments.left_for_later", (("what", what), ("rate", rate), ("whole", whole)))


def gypsum_how_law() -> Message:
    """Water deeply on the days that are open to watering, more than once: what was set free must
    leave the roots, so the ground has to drain.
    """
    return Message("amendments.gypsum_how_law")


def spread_how() -> Message:
    """Spread half one way and half across it, on dry grass; sweep it off paving."""
    return Message("amendments.spread_how")


def weeks_of_growth() -> Message:
    """It goes on while the grass grows, and parts lie months apart."""
    return Message("amendments.weeks_of_growth")
