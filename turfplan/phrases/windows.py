"""Messages of `messages/en/windows.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Days, Listed, Message, Number, Quantity


def air_rising(*, degrees: Quantity) -> Message:
    """air rising through a daily mean of {degrees}"""
    return Message("windows.air_rising", (("degrees", degrees),))


def air_falling(*, degrees: Quantity) -> Message:
    """air falling through a daily mean of {degrees}"""
    return Message("windows.air_falling", (("degrees", degrees),))


def soil_drying() -> Message:
    """soil no longer wet from the rains of the cold season"""
    return Message("windows.soil_drying")


def soil_warming(*, degrees: Quantity) -> Message:
    """soil warming through {degrees}"""
    return Message("windows.soil_warming", (("degrees", degrees),))


def soil_cooling(*, degrees: Quantity) -> Message:
    """soil cooling through {degrees}"""
    return Message("windows.soil_cooling", (("degrees", degrees),))


def nights_cooling(*, degrees: Quantity) -> Message:
    """nights cooling through {degrees}"""
    return Message("windows.nights_cooling", (("degrees", degrees),))


def growth_rising(*, share: Number) -> Message:
    """growth picking up through {share} of its best"""
    return Message("windows.growth_rising", (("share", share),))


def growth_of_summer(*, share: Number) -> Message:
    """growth picking up through {share} of what summer brings"""
    return Message("windows.growth_of_summer", (("share", share),))


def growth_to_come(*, coming: int, share: Number) -> Message:
    """growth of the coming {coming} days falling below {share} of its best"""
    return Message("windows.growth_to_come", (("coming", coming), ("share", share)))


def summer_to_come(*, coming: int, share: Number) -> Message:
    """growth of the coming {coming} days falling below {share} of what summer brings"""
    return Message("windows.summer_to_come", (("coming", coming), ("share", share)))


def last_frost() -> Message:
    """the usual last frost"""
    return Message("windows.last_frost")


def first_frost() -> Message:
    """the usual first frost"""
    return Message("windows.first_frost")


def hottest_day() -> Message:
    """the hottest day of the year"""
    return Message("windows.hottest_day")


def coldest_day() -> Message:
    """the coldest day of the year"""
    return Message("windows.coldest_day")


def frost_too_near() -> Message:
    """too little warmth left before the first frost"""
    return Message("windows.frost_too_near")


def winter_too_near() -> Message:
    """too little warmth left for seedlings to establish before winter"""
    return Message("windows.winter_too_near")


def days_after(*, n: int, event: Message) -> Message:
    """{n} days after {event}"""
    return Message("windows.days_after", (("n", n), ("event", event)))


def days_before(*, n: int, event: Message) -> Message:
    """{n} days before {event}"""
    return Message("windows.days_before", (("n", n), ("event", event)))


def never(*, event: Message) -> Message:
    """{event} does not happen here."""
    return Message("windows.never", (("event", event),))


def no_season() -> Message:
    """Nothing here opens it, or nothing closes it: the year has no such season."""
    return Message("windows.no_season")


def even_year(*, grass: Message) -> Message:
    """The months are much alike here, and {grass} grows in all of them: rain and water decide, not
    the season.
    """
    return Message("windows.even_year", (("grass", grass),))


def cut_to_wet() -> Message:
    """Nobody waters: of that time only those days are open after which usual rain keeps it wet."""
    return Message("windows.cut_to_wet")


def cut_to_grown() -> Message:
    """Nobody waters: of that time only those days are open on which usual rain lets the grass grow
    over it.
    """
    return Message("windows.cut_to_grown")


def never_wet() -> Message:
    """Nobody waters, and on none of the days of its season does usual rain keep it wet for long
    enough.
    """
    return Message("windows.never_wet")


def never_grown() -> Message:
    """Nobody waters, and on none of the days of its season does usual rain let the grass grow
    enough.
    """
    return Message("windows.never_grown")


def unfed_dry() -> Message:
    """Nobody waters, and in the dry weeks usual rain lets the grass grow too little to take it
    up.
    """
    return Message("windows.unfed_dry")


def unfed_banned() -> Message:
    """Watering is banned then, and in dry weeks usual rain lets the grass grow too little to take
    it up.
    """
    return Message("windows.unfed_banned")


def unfed_washed() -> Message:
    """In the wettest weeks usual rain would wash it out below the roots."""
    return Message("windows.unfed_washed")


def even_closed() -> Message:
    """The months are much alike here: the year has no season for it."""
    return Message("windows.even_closed")


def too_short(*, opens: Message, closes: Message) -> Message:
    """It would open after it closes: {opens} comes too late before {closes}."""
    return Message("windows.too_short", (("opens", opens), ("closes", closes)))


def left_out_late_nitrogen() -> Message:
    """Left out by policy (late nitrogen); advice differs."""
    return Message("windows.left_out.late_nitrogen")


def left_out_spring_aeration() -> Message:
    """Left out by policy (spring aeration); advice differs."""
    return Message("windows.left_out.spring_aeration")


def closed(*, operation: str, reason: Message) -> Message:
    """{operation}: {reason}"""
    return Message("windows.closed", (("operation", operation), ("reason", reason)))


def soil_warmer(*, degrees: Quantity, day: Day) -> Message:
    """The soil was measured {degrees} warmer than usual on {day}."""
    return Message("windows.soil_warmer", (("degrees", degrees), ("day", day)))


def soil_colder(*, degrees: Quantity, day: Day) -> Message:
    """The soil was measured {degrees} colder than usual on {day}."""
    return Message("windows.soil_colder", (("degrees", degrees), ("day", day)))


def print_heading(
    *,
    grass: Message,
    latitude: Number,
    longitude: Number,
    year: str,
    source: Message,
    air: int,
    soil: int,
) -> Message:
    """{grass:capital} at {latitude}, {longitude} in {year}; {source}, about {air} days either way,
    {soil} where soil temperature decides
    """
    return Message(
        "windows.print.heading",
        (
            ("grass", grass),
            ("latitude", latitude),
            ("longitude", longitude),
            ("year", year),
            ("source", source),
            ("air", air),
            ("soil", soil),
        ),
    )


def print_open(*, days: Days, best: Day, reason: Message) -> Message:
    """{days}, best {best}  {reason}"""
    return Message("windows.print.open", (("days", days), ("best", best), ("reason", reason)))


def print_closed(*, reason: Message) -> Message:
    """closed  {reason}"""
    return Message("windows.print.closed", (("reason", reason),))


def print_never_opened(*, years: int) -> Message:
    """real years: it opened in none of {years}"""
    return Message("windows.print.never_opened", (("years", years),))


def print_real_years(
    *, opened: Listed, closed: Listed, worked: int, years: int, tally: Message
) -> Message:
    """real years: opened between {opened}, closed between {closed} in eight of ten; the best day
    worked in {worked} of {years} ({tally})
    """
    return Message(
        "windows.print.real_years",
        (
            ("opened", opened),
            ("closed", closed),
            ("worked", worked),
            ("years", years),
            ("tally", tally),
        ),
    )
