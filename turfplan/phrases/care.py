"""Messages of `messages/en/care.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message, Quantity


def potash() -> Message:
    """With it goes the potash that the soil test asks for, as far as the bag does not hold it
    already: sulfate of potash (0-0-50) is half potash.
    """
    return Message("care.potash")


def phosphate() -> Message:
    """With it goes the phosphate that the soil test asks for, as far as the bag does not hold it
    already: triple superphosphate (0-46-0) is not quite half phosphate.
    """
    return Message("care.phosphate")


def phosphate_of_starter(*, phosphate: Quantity, nitrogen: Quantity) -> Message:
    """{phosphate} of phosphate go with {nitrogen} of nitrogen: a starter whose middle and first
    number stand so to each other brings both, else triple superphosphate (0-46-0) is spread beside
    it.
    """
    return Message("care.phosphate_of_starter", (("phosphate", phosphate), ("nitrogen", nitrogen)))


def planted_go() -> Message:
    """Plants stay in the ground at a gentle pull; grass growing and dry, no heavy rain in the
    forecast.
    """
    return Message("care.planted.go")


def planted_fallback() -> Message:
    """While plants still come out, wait; leave it out once summer is over."""
    return Message("care.planted.fallback")


def planted_fallback_even() -> Message:
    """While plants still come out, wait; leave it out where they do so for months."""
    return Message("care.planted.fallback_even")


def preemergent() -> Message:
    """Crabgrass comes up in the open places; a barrier laid now stops it, where no seed is in the
    way.
    """
    return Message("care.preemergent")


def spring_transition(*, grass: Message) -> Message:
    """Ryegrass left long shades {grass} in the weeks in which it wakes, and thins it for good."""
    return Message("care.spring_transition", (("grass", grass),))


def last_mow() -> Message:
    """Grass that goes into its rest at its usual height, free of leaves, comes out of it best."""
    return Message("care.last_mow")


def fed_watered_in() -> Message:
    """Water in lightly."""
    return Message("care.fed_watered_in")


def fed_watered_in_law() -> Message:
    """Water in lightly on the first day that is open to watering; a light rain before it does the
    same.
    """
    return Message("care.fed_watered_in_law")


def fed_watered_in_rain() -> Message:
    """Nobody waters here: spread it before a light rain, which washes it in, never before a
    storm.
    """
    return Message("care.fed_watered_in_rain")


def preventer_watered_in() -> Message:
    """Water in as the label says."""
    return Message("care.preventer_watered_in")


def preventer_watered_in_law() -> Message:
    """Spread it on a day that is open to watering, or on its eve, and water in as the label
    says.
    """
    return Message("care.preventer_watered_in_law")


def preventer_watered_in_rain() -> Message:
    """Nobody waters here: spread it before the rain that the label asks for."""
    return Message("care.preventer_watered_in_rain")


def starter_wakes_how() -> Message:
    """Spread evenly in two directions over the seed that lies in the ground, sweep granules off
    paving back onto the lawn.
    """
    return Message("care.starter_wakes_how")


def preemergent_alone() -> Message:
    """Crabgrass comes up in the open places; a barrier laid now stops it."""
    return Message("care.preemergent_alone")


def preemergent_alone_how() -> Message:
    """Spread it evenly in two directions, at the rate on the label, and only where nothing is to be
    sown within the label's interval.
    """
    return Message("care.preemergent_alone_how")


def last_mow_alone_how() -> Message:
    """Mow at the usual height until growth stops; clear the leaves: rake, mulch or vacuum."""
    return Message("care.last_mow_alone_how")
