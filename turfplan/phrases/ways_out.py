"""Messages of `messages/en/ways_out.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Days, Listed, Message, Number, Quantity


def campaign_alone(*, campaign: Message) -> Message:
    """Then it is {campaign}."""
    return Message("ways_out.campaign_alone", (("campaign", campaign),))


def campaign_dated(*, campaign: Message, days: Days) -> Message:
    """Checked: {campaign}, main work from {days}."""
    return Message("ways_out.campaign_dated", (("campaign", campaign), ("days", days)))


def water_it() -> Message:
    """Water the new grass, by hose or sprinkler"""
    return Message("ways_out.water_it")


def water_the_lawn() -> Message:
    """Water the lawn, by hose or sprinkler"""
    return Message("ways_out.water_the_lawn")


def any_campaign() -> Message:
    """Let the planner choose the campaign"""
    return Message("ways_out.any_campaign")


def whole_fill() -> Message:
    """Give the fill the seasons that it asks for"""
    return Message("ways_out.whole_fill")


def more_time() -> Message:
    """Give it one more year"""
    return Message("ways_out.more_time")


def sow_dormant() -> Message:
    """Sow dormant: seed that waits for spring"""
    return Message("ways_out.sow_dormant")


def own_grass_sown() -> Message:
    """Sow the lawn's own grass in its season; ryegrass can green it the winter after"""
    return Message("ways_out.own_grass_sown")


def own_grass_planted() -> Message:
    """Plant the lawn's own grass in its season; ryegrass can green it the winter after"""
    return Message("ways_out.own_grass_planted")


def quarter_as_deep() -> Message:
    """Fill a quarter as deep now, the rest in other years"""
    return Message("ways_out.quarter_as_deep")


def sow_in_season() -> Message:
    """Sow in a season in which seed comes up at once"""
    return Message("ways_out.sow_in_season")


def half_as_deep() -> Message:
    """Fill half as deep now, the rest another year"""
    return Message("ways_out.half_as_deep")


def any_weekday() -> Message:
    """Work on any day of the week"""
    return Message("ways_out.any_weekday")


def stay_at_home() -> Message:
    """Be there, or have somebody water, while you are away"""
    return Message("ways_out.stay_at_home")


def water_permit() -> Message:
    """Get a permit to water new seed"""
    return Message("ways_out.water_permit")


def level_now() -> Message:
    """Level now, sow another season"""
    return Message("ways_out.level_now")


def level_until_watered() -> Message:
    """Level now, and let seed or plants wait until they can be watered"""
    return Message("ways_out.level_until_watered")


def sow_now() -> Message:
    """Sow now, level another season"""
    return Message("ways_out.sow_now")


def level_before_planting() -> Message:
    """Level now, plant another season"""
    return Message("ways_out.level_before_planting")


def plant_now() -> Message:
    """Plant now, level another season"""
    return Message("ways_out.plant_now")


def plant_alone() -> Message:
    """Plant, and leave the ground as it lies"""
    return Message("ways_out.plant_alone")


def sow_alone() -> Message:
    """Sow, and leave the ground as it lies"""
    return Message("ways_out.sow_alone")


def and_leave_out(*, change: Message, table: str) -> Message:
    """{change}; leave out {table}"""
    return Message("ways_out.and_leave_out", (("change", change), ("table", table)))


def leave_out(*, table: str) -> Message:
    """leave out {table}"""
    return Message("ways_out.leave_out", (("table", table),))


def next_year() -> Message:
    """Start a growing year later"""
    return Message("ways_out.next_year")


def wash_out(*, most: Number, half: Quantity, water: Quantity, depth: Quantity) -> Message:
    """Wash the salt out where the ground drains ({half} of good water through the soil take about
    half of it from the upper {depth}, {water} about four fifths), test again, and sow once the test
    shows {most} dS/m
    """
    return Message(
        "ways_out.wash_out", (("most", most), ("half", half), ("water", water), ("depth", depth))
    )


def salt_grass(*, grass: Message) -> Message:
    """Take {grass} instead, which bears this salt"""
    return Message("ways_out.salt_grass", (("grass", grass),))


def salt_plants(*, grass: Message) -> Message:
    """Plant {grass} instead, whose roots bear this salt"""
    return Message("ways_out.salt_plants", (("grass", grass),))


def strip_turf() -> Message:
    """Strip the old turf with its thatch, and start anew on bare ground"""
    return Message("ways_out.strip_turf")


def start_anew() -> Message:
    """Kill the old stand, fill the bare ground and start a new one: no grass has to grow through
    the fill
    """
    return Message("ways_out.start_anew")


def thatch_first(*, days: Listed) -> Message:
    """Dethatch hard ({days}), measure again, and go on after that"""
    return Message("ways_out.thatch_first", (("days", days),))


def thatch_first_next() -> Message:
    """Dethatch hard in the next season of growth, measure again, and go on after it"""
    return Message("ways_out.thatch_first_next")


def thatch_cut(*, spacing: Quantity, days: Listed) -> Message:
    """Thin the thatch by vertical mowing with blades {spacing} apart, in one direction alone, while
    the grass grows strongly ({days}), rake it off, measure again, and go on after that
    """
    return Message("ways_out.thatch_cut", (("spacing", spacing), ("days", days)))


def thatch_cut_next(*, spacing: Quantity) -> Message:
    """Thin the thatch by vertical mowing with blades {spacing} apart, in one direction alone, in
    the next season of strong growth, rake it off, measure again, and go on after it
    """
    return Message("ways_out.thatch_cut_next", (("spacing", spacing),))


def together(*, first: Message, second: Message) -> Message:
    """{first}. And: {second}"""
    return Message("ways_out.together", (("first", first), ("second", second)))


def together_left_out(*, first: Message, second: Message) -> Message:
    """{first}; {second}"""
    return Message("ways_out.together_left_out", (("first", first), ("second", second)))


def hollows_only() -> Message:
    """Fill the hollows alone"""
    return Message("ways_out.hollows_only")


def sod_instead() -> Message:
    """Lay sod: it roots in the days that seed does not have"""
    return Message("ways_out.sod_instead")


def no_own_grass() -> Message:
    """Sow the part whose own grass does not live here with that of the rest"""
    return Message("ways_out.no_own_grass")


def living_grass(*, grass: Message) -> Message:
    """Take {grass} instead, which lives here"""
    return Message("ways_out.living_grass", (("grass", grass),))


def other_grass(*, grass: Message) -> Message:
    """Take {grass} instead, which lives in this light"""
    return Message("ways_out.other_grass", (("grass", grass),))


def more_sun(*, hours: Number) -> Message:
    """Thin or lift the trees, or move what throws the shade, until {hours} hours of sun reach the
    grass
    """
    return Message("ways_out.more_sun", (("hours", hours),))


def more_people(*, n: int) -> Message:
    """{n} people at work"""
    return Message("ways_out.more_people", (("n", n),))


def machines_that_spread() -> Message:
    """A machine that spreads and a small loader"""
    return Message("ways_out.machines_that_spread")


def a_contractor() -> Message:
    """A contractor does the heavy work"""
    return Message("ways_out.a_contractor")


def a_timer() -> Message:
    """A timer that waters while nobody is there"""
    return Message("ways_out.a_timer")
