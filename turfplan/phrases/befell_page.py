"""Messages of `messages/en/befell_page.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Message, Number


def head() -> Message:
    """Something else happened"""
    return Message("befell_page.head")


def what() -> Message:
    """What"""
    return Message("befell_page.what")


def seed_head() -> Message:
    """Seed that was sown"""
    return Message("befell_page.seed_head")


def seed_washed() -> Message:
    """Rain washed it away"""
    return Message("befell_page.seed_washed")


def animals() -> Message:
    """Birds or other animals took it"""
    return Message("befell_page.animals")


def germination() -> Message:
    """It has come up"""
    return Message("befell_page.germination")


def part() -> Message:
    """How much of it"""
    return Message("befell_page.part")


def all() -> Message:
    """All"""
    return Message("befell_page.all")


def none() -> Message:
    """None"""
    return Message("befell_page.none")


def lawn_head() -> Message:
    """The lawn is not well, or work must wait"""
    return Message("befell_page.lawn_head")


def tips_buried() -> Message:
    """Tips of the grass are still buried under the mix"""
    return Message("befell_page.tips_buried")


def burned() -> Message:
    """Fertilizer has burned the grass"""
    return Message("befell_page.burned")


def heat_stress() -> Message:
    """Heat or drought: the grass suffers"""
    return Message("befell_page.heat_stress")


def sickness() -> Message:
    """The grass looks sick"""
    return Message("befell_page.sickness")


def weed_killer() -> Message:
    """Weed killer got on ground that is to be sown"""
    return Message("befell_page.weed_killer")


def green_up() -> Message:
    """After winter the grass is not green yet"""
    return Message("befell_page.green_up")


def heap_wet() -> Message:
    """The heap of mix is wet"""
    return Message("befell_page.heap_wet")


def live_cause() -> Message:
    """Grubs, insects, disease or moss were found alive"""
    return Message("befell_page.live_cause")


def cause_left() -> Message:
    """What makes the grass thin is not put right yet"""
    return Message("befell_page.cause_left")


def so() -> Message:
    """Is it so"""
    return Message("befell_page.so")


def yes() -> Message:
    """Yes"""
    return Message("befell_page.yes")


def over() -> Message:
    """No more: it is over"""
    return Message("befell_page.over")


def ban_head() -> Message:
    """Watering is banned"""
    return Message("befell_page.ban_head")


def days() -> Message:
    """For how many days, 0 where it is allowed again"""
    return Message("befell_page.days")


def ban_from() -> Message:
    """From"""
    return Message("befell_page.ban_from")


def measured_head() -> Message:
    """Something was measured"""
    return Message("befell_page.measured_head")


def value(*, example: str) -> Message:
    """With its unit, for example {example}"""
    return Message("befell_page.value", (("example", example),))


def on() -> Message:
    """Day"""
    return Message("befell_page.on")


def soil_temperature() -> Message:
    """Temperature of the soil"""
    return Message("befell_page.soil_temperature")


def rain() -> Message:
    """Rain that fell"""
    return Message("befell_page.rain")


def grass_height() -> Message:
    """Height of the grass"""
    return Message("befell_page.grass_height")


def depth_missing() -> Message:
    """Depth that is still missing"""
    return Message("befell_page.depth_missing")


def grubs() -> Message:
    """Grubs on an area"""
    return Message("befell_page.grubs")


def choose() -> Message:
    """Choose what it was."""
    return Message("befell_page.choose")


def whole_days() -> Message:
    """Write the days as a whole number, for example 14."""
    return Message("befell_page.whole_days")


def wrote_so(*, what: Message, on: Day) -> Message:
    """{on}: {what}."""
    return Message("befell_page.wrote_so", (("what", what), ("on", on)))


def wrote_over(*, what: Message, on: Day) -> Message:
    """{on}: no more of this: {what}."""
    return Message("befell_page.wrote_over", (("what", what), ("on", on)))


def wrote_seed(*, what: Message, share: Number, on: Day) -> Message:
    """{on}, seed that was sown: {what}, {share} of it."""
    return Message("befell_page.wrote_seed", (("what", what), ("share", share), ("on", on)))


def wrote_ban(*, on: Day, n: int) -> Message:
    """Watering is banned for {n} days from {on} on."""
    return Message("befell_page.wrote_ban", (("on", on), ("n", n)))


def wrote_ban_over(*, on: Day) -> Message:
    """Watering is allowed again from {on} on."""
    return Message("befell_page.wrote_ban_over", (("on", on),))


def missed_head() -> Message:
    """Not done on its day, and still wanted"""
    return Message("befell_page.missed_head")


def missed_on() -> Message:
    """The day without time, helper or machine"""
    return Message("befell_page.missed_on")


def missed() -> Message:
    """Not done that day"""
    return Message("befell_page.missed")
