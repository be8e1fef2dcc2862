"""Messages of `messages/en/charts.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Days, Message, Month


def chart(*, title: str) -> Message:
    """Chart: {title}"""
    return Message("charts.chart", (("title", title),))


def pattern_of(*, name: str) -> Message:
    """pattern of {name}"""
    return Message("charts.pattern_of", (("name", name),))


def band_of_days() -> Message:
    """band of days"""
    return Message("charts.band_of_days")


def may_be_done() -> Message:
    """days on which it may be done"""
    return Message("charts.may_be_done")


def tick() -> Message:
    """tick"""
    return Message("charts.tick")


def done() -> Message:
    """done"""
    return Message("charts.done")


def line() -> Message:
    """line"""
    return Message("charts.line")


def today(*, day: str) -> Message:
    """today, {day}"""
    return Message("charts.today", (("day", day),))


def season_of(*, lawn: str) -> Message:
    """The season of {lawn}"""
    return Message("charts.season_of", (("lawn", lawn),))


def row_in_words(*, name: str, days: str) -> Message:
    """{name}: {days}."""
    return Message("charts.row_in_words", (("name", name), ("days", days)))


def bar(*, title: str, days: Days) -> Message:
    """{title}, {days}"""
    return Message("charts.bar", (("title", title), ("days", days)))


def bar_done(*, title: str, days: Days) -> Message:
    """{title}, {days}, done"""
    return Message("charts.bar_done", (("title", title), ("days", days)))


def bar_skipped(*, title: str, days: Days) -> Message:
    """{title}, {days}, skipped"""
    return Message("charts.bar_skipped", (("title", title), ("days", days)))


def bar_held(*, title: str, days: Days) -> Message:
    """{title}, {days}, held"""
    return Message("charts.bar_held", (("title", title), ("days", days)))


def soil_title() -> Message:
    """Soil temperature and the days that are open"""
    return Message("charts.soil_title")


def soil_depth() -> Message:
    """{4 in|10 cm}"""
    return Message("charts.soil_depth")


def soil_in_words(*, depth: Message, low: str, high: str, reach: str) -> Message:
    """Soil temperature {depth} down, from {low} to {high}, with a band of {reach} up and down;
    below it the days on which each kind of work is open.
    """
    return Message(
        "charts.soil_in_words", (("depth", depth), ("low", low), ("high", high), ("reach", reach))
    )


def soil_at(*, depth: str) -> Message:
    """soil, {depth}"""
    return Message("charts.soil_at", (("depth", depth),))


def up_or_down(*, reach: str) -> Message:
    """{reach} up or down"""
    return Message("charts.up_or_down", (("reach", reach),))


def air_mean() -> Message:
    """air, mean of the day"""
    return Message("charts.air_mean")


def open_days() -> Message:
    """open days"""
    return Message("charts.open_days")


def best_day() -> Message:
    """best day"""
    return Message("charts.best_day")


def last_frost() -> Message:
    """last frost"""
    return Message("charts.last_frost")


def first_frost() -> Message:
    """first frost"""
    return Message("charts.first_frost")


def soil() -> Message:
    """Soil"""
    return Message("charts.soil")


def air() -> Message:
    """Air"""
    return Message("charts.air")


def month(*, month: Month, year: str) -> Message:
    """{month} {year}"""
    return Message("charts.month", (("month", month), ("year", year)))


def entry_rain_name() -> Message:
    """rain"""
    return Message("charts.entry.rain.name")


def entry_rain_letter() -> Message:
    """R"""
    return Message("charts.entry.rain.letter")


def entry_watering_name() -> Message:
    """watering"""
    return Message("charts.entry.watering.name")


def entry_rooted_name() -> Message:
    """rooted grass, where it stays dry"""
    return Message("charts.entry.rooted.name")


def entry_rooted_letter() -> Message:
    """G"""
    return Message("charts.entry.rooted.letter")


def entry_watering_letter() -> Message:
    """W"""
    return Message("charts.entry.watering.letter")


def entry_evapotranspiration_name() -> Message:
    """used by grass and air"""
    return Message("charts.entry.evapotranspiration.name")


def entry_evapotranspiration_letter() -> Message:
    """U"""
    return Message("charts.entry.evapotranspiration.letter")


def entry_lost_name() -> Message:
    """drained or run off"""
    return Message("charts.entry.lost.name")


def entry_lost_letter() -> Message:
    """D"""
    return Message("charts.entry.lost.letter")


def entry_feed_name() -> Message:
    """feeding"""
    return Message("charts.entry.feed.name")


def entry_feed_letter() -> Message:
    """F"""
    return Message("charts.entry.feed.letter")


def entry_compost_name() -> Message:
    """from compost"""
    return Message("charts.entry.compost.name")


def entry_compost_letter() -> Message:
    """C"""
    return Message("charts.entry.compost.letter")


def entry_growth_name() -> Message:
    """taken by growth"""
    return Message("charts.entry.growth.name")


def entry_growth_letter() -> Message:
    """T"""
    return Message("charts.entry.growth.letter")


def water() -> Message:
    """Water"""
    return Message("charts.water")


def nitrogen() -> Message:
    """Nitrogen"""
    return Message("charts.nitrogen")


def water_weekly() -> Message:
    """Water, week by week"""
    return Message("charts.water_weekly")


def nitrogen_weekly() -> Message:
    """Nitrogen, week by week"""
    return Message("charts.nitrogen_weekly")


def water_left() -> Message:
    """water in the root zone, 0 when full"""
    return Message("charts.water_left")


def nitrogen_left() -> Message:
    """what is left over"""
    return Message("charts.nitrogen_left")


def month_head() -> Message:
    """Month"""
    return Message("charts.month_head")


def at_the_end() -> Message:
    """At the end"""
    return Message("charts.at_the_end")


def account_in_words(*, first: Message, last: Message, came: str, went: str, unit: str) -> Message:
    """{first} to {last}: {came} {unit} comes in and {went} {unit} goes out; bars by week, a line
    for what is left.
    """
    return Message(
        "charts.account_in_words",
        (("first", first), ("last", last), ("came", came), ("went", went), ("unit", unit)),
    )
