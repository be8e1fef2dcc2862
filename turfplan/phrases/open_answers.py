"""Messages of `messages/en/open_answers.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def look_say() -> Message:
    """Walk the lawn after rain and dig into two or three bumps and hollows with a spade: look for
    tunnels, casts, rotten wood, rubble, loose fill, wheel marks, and lines of a pipe or a trench.
    Then choose what lies behind it.
    """
    return Message("open_answers.look_say")


def look_field() -> Message:
    """What lies behind the bumps and hollows"""
    return Message("open_answers.look_field")


def test_say() -> Message:
    """From the laboratory's sheet; what does not stand there stays empty. For example pH 6.4,
    phosphorus low, potassium medium.
    """
    return Message("open_answers.test_say")


def ph() -> Message:
    """pH"""
    return Message("open_answers.ph")


def sampled() -> Message:
    """The day of the sample"""
    return Message("open_answers.sampled")


def phosphorus() -> Message:
    """Phosphorus (P)"""
    return Message("open_answers.phosphorus")


def potassium() -> Message:
    """Potassium (K)"""
    return Message("open_answers.potassium")


def depth_say(*, example: str) -> Message:
    """Lay a straight board over the lawn at ten places or more, measure the gap under it at each,
    and write the mean, for example {example}.
    """
    return Message("open_answers.depth_say", (("example", example),))


def soil_say() -> Message:
    """Wet a handful, knead it, and press it out flat between thumb and finger: a long ribbon is
    clay, none is sand, smooth as flour is silt.
    """
    return Message("open_answers.soil_say")


def grass_say() -> Message:
    """Pull a few plants from several places and look at blade, base and runners; write the name as
    you call it, for example perennial ryegrass.
    """
    return Message("open_answers.grass_say")


def not_said() -> Message:
    """Not yet known"""
    return Message("open_answers.not_said")


def settled() -> Message:
    """Ground that settled after building, and no longer moves"""
    return Message("open_answers.settled")


def built() -> Message:
    """Rubble or fill of a builder below, which was dug out"""
    return Message("open_answers.built")


def settling() -> Message:
    """Filled ground that still settles"""
    return Message("open_answers.settling")


def trench() -> Message:
    """A trench or a pipe below"""
    return Message("open_answers.trench")


def stump() -> Message:
    """A rotting stump or root"""
    return Message("open_answers.stump")


def moles() -> Message:
    """Tunnels and heaps of moles or other diggers"""
    return Message("open_answers.moles")


def worms() -> Message:
    """Casts of worms"""
    return Message("open_answers.worms")


def frost() -> Message:
    """Frost that lifts the ground"""
    return Message("open_answers.frost")


def traffic() -> Message:
    """Feet, wheels or animals that press it down"""
    return Message("open_answers.traffic")


def clay() -> Message:
    """Clay"""
    return Message("open_answers.clay")


def silt() -> Message:
    """Silt"""
    return Message("open_answers.silt")


def loam() -> Message:
    """Loam"""
    return Message("open_answers.loam")


def sandy() -> Message:
    """Sandy loam"""
    return Message("open_answers.sandy")


def sand() -> Message:
    """Sand"""
    return Message("open_answers.sand")


def low() -> Message:
    """Low"""
    return Message("open_answers.low")


def medium() -> Message:
    """Medium"""
    return Message("open_answers.medium")


def high() -> Message:
    """High"""
    return Message("open_answers.high")
