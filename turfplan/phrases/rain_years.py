"""Messages of `messages/en/rain_years.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Listed, Message, Number


def about(*, tenths: int) -> Message:
    """about {tenths} of 10"""
    return Message("rain_years.about", (("tenths", tenths),))


def nearly_all() -> Message:
    """nearly all"""
    return Message("rain_years.nearly_all")


def hardly_any() -> Message:
    """hardly any"""
    return Message("rain_years.hardly_any")


def generated(*, tally: Message) -> Message:
    """Made from monthly normals, not measured: {tally}."""
    return Message("rain_years.generated", (("tally", tally),))


def weekends(*, share: Message) -> Message:
    """Of the week-ends in its window {share} bring a day dry enough to spread."""
    return Message("rain_years.weekends", (("share", share),))


def weeks(*, share: Message) -> Message:
    """Of the weeks in its window {share} bring a day of work dry enough to spread."""
    return Message("rain_years.weeks", (("share", share),))


def pass_done(*, n: int) -> Message:
    """dry days of work for each of the {n} passes before its window closes"""
    return Message("rain_years.pass_done", (("n", n),))


def seed_moist(*, day: Day, n: int) -> Message:
    """rain enough in the {n} days after sowing on {day}"""
    return Message("rain_years.seed_moist", (("day", day), ("n", n)))


def plants_moist(*, day: Day, n: int) -> Message:
    """rain enough in the {n} days after planting on {day}"""
    return Message("rain_years.plants_moist", (("day", day), ("n", n)))


def season_generated(*, share: Message, tally: Message) -> Message:
    """In {share} years of generated weather (made from monthly normals, not measured) rain lets
    this season through: {tally}.
    """
    return Message("rain_years.season_generated", (("share", share), ("tally", tally)))


def season_measured(*, years: Listed, share: Message, tally: Message) -> Message:
    """Of the real years {years}, {share} had rain that lets this season through: {tally}."""
    return Message(
        "rain_years.season_measured", (("years", years), ("share", share), ("tally", tally))
    )


def seed_on_rain(*, share: Message, day: Day) -> Message:
    """Nobody waters here. In {share} years of generated weather (made from monthly normals, not
    measured), as much rain falls after the sowing on {day} as wet ground loses until the grass
    needs it no more.
    """
    return Message("rain_years.seed_on_rain", (("share", share), ("day", day)))


def plants_on_rain(*, share: Message, day: Day) -> Message:
    """Nobody waters here. In {share} years of generated weather (made from monthly normals, not
    measured), as much rain falls after the planting on {day} as wet ground loses until the grass
    needs it no more.
    """
    return Message("rain_years.plants_on_rain", (("share", share), ("day", day)))


def seed_on_real_rain(*, years: Listed, share: Message, day: Day) -> Message:
    """Nobody waters here. Of the real years {years}, {share} had as much rain after the sowing on
    {day} as wet ground loses until the grass needs it no more.
    """
    return Message(
        "rain_years.seed_on_real_rain", (("years", years), ("share", share), ("day", day))
    )


def plants_on_real_rain(*, years: Listed, share: Message, day: Day) -> Message:
    """Nobody waters here. Of the real years {years}, {share} had as much rain after the planting on
    {day} as wet ground loses until the grass needs it no more.
    """
    return Message(
        "rain_years.plants_on_real_rain", (("years", years), ("share", share), ("day", day))
    )


def dry_both_ends() -> Message:
    """dry on its first and its last day"""
    return Message("rain_years.dry_both_ends")


def how_generated(*, years: int, percent: Number) -> Message:
    """No ten years of daily weather of this place are at hand, so {years} years of daily rain were
    made up from its monthly normals: chance decides on each day, by how often it rains in that
    month. How often that is, is an estimate, off by about {percent}% at stations that were left out
    of it; and where every month has rain, dry spells of two weeks and more come too seldom. With
    daily weather of ten years or more as the place's normals, real years are counted instead.
    """
    return Message("rain_years.how_generated", (("years", years), ("percent", percent)))
