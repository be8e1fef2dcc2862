"""Messages of `messages/en/brief.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message, Number


def not_negative() -> Message:
    """must not be negative"""
    return Message("brief.not_negative")


def zero_or_more() -> Message:
    """0 or more"""
    return Message("brief.zero_or_more")


def senseless() -> Message:
    """is out of any sensible range"""
    return Message("brief.senseless")


def twice(*, first: Message, second: Message) -> Message:
    """{first} ({second})"""
    return Message("brief.twice", (("first", first), ("second", second)))


def or_more(*, low: Number, unit: str) -> Message:
    """{low} {unit} or more"""
    return Message("brief.or_more", (("low", low), ("unit", unit)))


def shape_needs(*, shape: str, way: Listed) -> Message:
    """a {shape} needs {way}"""
    return Message("brief.shape_needs", (("shape", shape), ("way", way)))


def shape_needs_either(*, shape: str, first: Listed, second: Listed) -> Message:
    """a {shape} needs {first}, or {second}"""
    return Message(
        "brief.shape_needs_either", (("shape", shape), ("first", first), ("second", second))
    )


def shape_takes_no(*, shape: str, way: Listed, surplus: Listed) -> Message:
    """a {shape} given by {way} takes no {surplus}"""
    return Message("brief.shape_takes_no", (("shape", shape), ("way", way), ("surplus", surplus)))


def three_points() -> Message:
    """a polygon needs three points or more"""
    return Message("brief.three_points")


def bare_hole() -> Message:
    """a hole has no depth, grass or sun"""
    return Message("brief.bare_hole")


def area_once() -> Message:
    """give the area once: area, [[lawn.shape]] or geojson"""
    return Message("brief.area_once")


def area_once_got(*, given: Listed) -> Message:
    """give the area once: area, [[lawn.shape]] or geojson; got {given}"""
    return Message("brief.area_once_got", (("given", given),))


def no_grass() -> Message:
    """at least one grass is needed"""
    return Message("brief.no_grass")


def grass_shares(*, total: Number) -> Message:
    """the shares of the grasses add up to {total}, not 1"""
    return Message("brief.grass_shares", (("total", total),))


def coordinates_together() -> Message:
    """latitude and longitude go together"""
    return Message("brief.coordinates_together")


def nowhere() -> Message:
    """give town, postal_code (US), latitude and longitude, or climate_zone"""
    return Message("brief.nowhere")


def town_once() -> Message:
    """a town stands instead of a postal code and of coordinates"""
    return Message("brief.town_once")


def survey_gives_depth() -> Message:
    """survey already gives the depth: leave out depth and lows"""
    return Message("brief.survey_gives_depth")


def target_needs_survey() -> Message:
    """target says how a survey is leveled: it needs survey"""
    return Message("brief.target_needs_survey")


def low_shares() -> Message:
    """the shares of lows add up to more than 1"""
    return Message("brief.low_shares")


def mix_parts() -> Message:
    """the parts of the mix must add up to 1"""
    return Message("brief.mix_parts")


def ends_first(*, end: str, start: str) -> Message:
    """ends ({end}) before it starts ({start})"""
    return Message("brief.ends_first", (("end", end), ("start", start)))


def until_first(*, until: str, start: str) -> Message:
    """until ({until}) is not after from ({start})"""
    return Message("brief.until_first", (("until", until), ("start", start)))


def cans_need_minutes() -> Message:
    """catch_cans needs catch_minutes, the time they stood out"""
    return Message("brief.cans_need_minutes")


def no_weekdays() -> Message:
    """allowed_weekdays is empty: leave it out, or say possible = false"""
    return Message("brief.no_weekdays")


def days_like(*, example: str) -> Message:
    """write the days as {example}, several with a comma between"""
    return Message("brief.days_like", (("example", example),))


def clock_like() -> Message:
    """write a clock time like 19:00"""
    return Message("brief.clock_like")


def alarm_hours() -> Message:
    """an alarm rings between 05:00 and 22:00"""
    return Message("brief.alarm_hours")


def not_a_word() -> Message:
    """is not one of the allowed words"""
    return Message("brief.not_a_word")


def add_it() -> Message:
    """add it to the brief"""
    return Message("brief.add_it")


def write_one(*, command: str) -> Message:
    """`{command}` writes a brief"""
    return Message("brief.write_one", (("command", command),))


def no_plain_id() -> Message:
    """says its lawn's id in a way that a copy cannot change"""
    return Message("brief.no_plain_id")


def plain_id() -> Message:
    """write it as a line `id = \"…\"` under [lawn]"""
    return Message("brief.plain_id")


def folder() -> Message:
    """is a folder, not a brief"""
    return Message("brief.folder")


def quoted() -> Message:
    """texts and quantities are quoted: area = \"4200 ft2\""""
    return Message("brief.quoted")


def analysis_no_nitrogen() -> Message:
    """holds no nitrogen"""
    return Message("brief.analysis.no_nitrogen")


def analysis_first_above_0() -> Message:
    """a first number above 0"""
    return Message("brief.analysis.first_above_0")


def analysis_none() -> Message:
    """not an analysis"""
    return Message("brief.analysis.none")


def analysis_such_as() -> Message:
    """three numbers such as 16-4-8"""
    return Message("brief.analysis.such_as")


def analysis_too_much() -> Message:
    """the three shares add up to more than the bag"""
    return Message("brief.analysis.too_much")


def analysis_hundred() -> Message:
    """a sum of 100 or less"""
    return Message("brief.analysis.hundred")


def analysis_read_again() -> Message:
    """read the bag again"""
    return Message("brief.analysis.read_again")


def light_once() -> Message:
    """the light is said twice: give sun_hours or shade_hours"""
    return Message("brief.light_once")


def part_size() -> Message:
    """a part of the lawn needs its share or its area, one of them"""
    return Message("brief.part_size")


def part_shares() -> Message:
    """the parts take the whole lawn: their shares must add up to less than 1"""
    return Message("brief.part_shares")


def hold_once() -> Message:
    """the label's interval is said twice: give seed_after or hold_days"""
    return Message("brief.hold_once")


def buffer_needs_ph() -> Message:
    """buffer_method names the buffer of buffer_ph: give the reading too"""
    return Message("brief.buffer_needs_ph")


def level_or_value() -> Message:
    """give a level (low, medium, high), or a value with its extraction"""
    return Message("brief.level_or_value")


def price_like() -> Message:
    """a price is a text such as \"48 per yd3\", and never negative"""
    return Message("brief.price_like")
