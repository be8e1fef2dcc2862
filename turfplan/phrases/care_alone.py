"""Messages of `messages/en/care_alone.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message, Quantity


def mow_before_blades() -> Message:
    """Blades reach the thatch through short grass; no more than a third comes off."""
    return Message("care_alone.mow_before_blades")


def mow_once() -> Message:
    """Mow once at this height, the day before or on the day of the dethatcher."""
    return Message("care_alone.mow_once")


def clippings() -> Message:
    """Bag the clippings: they clog the blades that follow."""
    return Message("care_alone.clippings")


def mow_dry() -> Message:
    """Grass dry and growing."""
    return Message("care_alone.mow_dry")


def mow_wet() -> Message:
    """Wet: the next dry day; dethatching moves with it."""
    return Message("care_alone.mow_wet")


def dethatch(*, thatch: Quantity, limit: Quantity) -> Message:
    """Thatch of {thatch} is more than {limit}: it holds water and fertilizer back from the soil,
    and roots grow into it instead of the ground.
    """
    return Message("care_alone.dethatch", (("thatch", thatch), ("limit", limit)))


def blades() -> Message:
    """Set the blades to touch the soil surface lightly; go over it once, in one direction."""
    return Message("care_alone.blades")


def by_rake() -> Message:
    """Use a rake or a light setting only: this grass does not bear a power rake."""
    return Message("care_alone.by_rake")


def clear() -> Message:
    """Rake up and remove everything that comes out."""
    return Message("care_alone.clear")


def rests(*, n: int) -> Message:
    """The turf looks torn, and rests for {n} days: water it when it wilts, on the days that are
    open to watering, and keep play and machines but the mower off it.
    """
    return Message("care_alone.rests", (("n", n),))


def rests_on_rain(*, n: int) -> Message:
    """The turf looks torn, and rests for {n} days: nobody waters here, so choose a day with rain to
    follow, and keep play and machines but the mower off it.
    """
    return Message("care_alone.rests_on_rain", (("n", n),))


def cores_of_soil() -> Message:
    """The soil packs under feet and wheels: the holes let water, air and roots down."""
    return Message("care_alone.cores_of_soil")


def cores_of_thatch() -> Message:
    """The holes let water and air through the thatch, and the soil of the plugs helps it to rot."""
    return Message("care_alone.cores_of_thatch")


def cores_fallback() -> Message:
    """Too hard or too wet: the next free day in the window."""
    return Message("care_alone.cores_fallback")


def first_cut() -> Message:
    """Grass that is mown from its first growth on, always within its heights, stays dense and keeps
    weeds down.
    """
    return Message("care_alone.first_cut")


def first_cut_season() -> Message:
    """In these weeks the grass wakes and begins to grow."""
    return Message("care_alone.first_cut_season")


def first_cut_title(*, least: Quantity, most: Quantity) -> Message:
    """Begin mowing: keep it at {least} to {most}"""
    return Message("care_alone.first_cut_title", (("least", least), ("most", most)))


def thick() -> Message:
    """The thatch is too thick for one dethatching: it comes down over a year or more, with cores
    each season, or the turf is stripped and the lawn made anew.
    """
    return Message("care_alone.thick")


def mostly_weeds() -> Message:
    """More than half of this is weeds: care alone does not turn it into a lawn; making it anew
    does.
    """
    return Message("care_alone.mostly_weeds")


def causes(*, causes: Listed) -> Message:
    """Put right what thins the grass first ({causes}): feeding and mowing alone do not mend it."""
    return Message("care_alone.causes", (("causes", causes),))


def not_combed(*, thatch: Quantity, limit: Quantity, grass: Listed) -> Message:
    """Thatch of {thatch} is more than the {limit} from which most grass is combed out, and is not
    combed here: {grass} would be torn out with it. Cores and no more nitrogen than planned hold it
    down.
    """
    return Message(
        "care_alone.not_combed", (("thatch", thatch), ("limit", limit), ("grass", grass))
    )
