"""Messages of `messages/en/charts.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Days, Message, Month, Number


def chart(*, title: str) -> Message:
    """Chart: {title}"""
    return Message("charts.chart", (("title", title),))


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


def air_mean() -> Message:
    """air, mean of day"""
    return Message("charts.air_mean")


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


def finding_passes(*, n: int, days: Days) -> Message:
    """{n} passes, {days}"""
    return Message("charts.finding_passes", (("n", n), ("days", days)))


def finding_lifts(*, n: int, days: Days) -> Message:
    """{n} lifts, {days}"""
    return Message("charts.finding_lifts", (("n", n), ("days", days)))


def finding_seed(*, days: Days) -> Message:
    """seed on {days}"""
    return Message("charts.finding_seed", (("days", days),))


def finding_plants(*, days: Days) -> Message:
    """planting on {days}"""
    return Message("charts.finding_plants", (("days", days),))


def finding_both(*, first: Message, second: Message) -> Message:
    """{first}; {second}"""
    return Message("charts.finding_both", (("first", first), ("second", second)))


def when_work() -> Message:
    """■ work"""
    return Message("charts.when_work")


def when_water() -> Message:
    """≡ watering"""
    return Message("charts.when_water")


def when_open() -> Message:
    """pale: days on which it may be done"""
    return Message("charts.when_open")


def when_done() -> Message:
    """✓ done"""
    return Message("charts.when_done")


def soil_finding(*, month: Month, high: str, low: str) -> Message:
    """The soil is warmest in {month}, at {high}, and falls to {low}"""
    return Message("charts.soil_finding", (("month", month), ("high", high), ("low", low)))


def open_and_best() -> Message:
    """Shaded: days on which each work is open. A triangle: its best day, where there is one."""
    return Message("charts.open_and_best")


def water_finding(*, n: int, minutes: Number, day: Day) -> Message:
    """You water in {n} weeks, most in that of {day}: {minutes} minutes"""
    return Message("charts.water_finding", (("n", n), ("minutes", minutes), ("day", day)))


def water_for_top() -> Message:
    """Where usual rain covers all, watering is for the top: seed, plants and new layers dry out
    there between two rains.
    """
    return Message("charts.water_for_top")


def water_in_words() -> Message:
    """Bars: the minutes of watering of each week. Below them: how much of what grass and air take
    rain usually brings, from none to all.
    """
    return Message("charts.water_in_words")


def minutes_a_week() -> Message:
    """minutes a week"""
    return Message("charts.minutes_a_week")


def rain_covers() -> Message:
    """what rain usually covers"""
    return Message("charts.rain_covers")


def none() -> Message:
    """none"""
    return Message("charts.none")


def month_head() -> Message:
    """Month"""
    return Message("charts.month_head")


def minutes_head() -> Message:
    """Minutes"""
    return Message("charts.minutes_head")


def rain_head() -> Message:
    """Rain covers"""
    return Message("charts.rain_head")


def nitrogen_finding(*, need: str, compost: str, given: str, unit: str) -> Message:
    """The grass takes {need} {unit} of nitrogen: compost brings {compost}, you give {given}"""
    return Message(
        "charts.nitrogen_finding",
        (("need", need), ("compost", compost), ("given", given), ("unit", unit)),
    )


def nitrogen_finding_given(*, need: str, given: str, unit: str) -> Message:
    """The grass takes {need} {unit} of nitrogen, you give {given}"""
    return Message(
        "charts.nitrogen_finding_given", (("need", need), ("given", given), ("unit", unit))
    )


def nitrogen_in_words(*, first: Message, last: Message) -> Message:
    """Nitrogen from {first} to {last}."""
    return Message("charts.nitrogen_in_words", (("first", first), ("last", last)))


def nitrogen_need() -> Message:
    """the grass takes"""
    return Message("charts.nitrogen.need")


def nitrogen_compost() -> Message:
    """from compost"""
    return Message("charts.nitrogen.compost")


def nitrogen_given() -> Message:
    """you give"""
    return Message("charts.nitrogen.given")


def soil_at(*, depth: str) -> Message:
    """soil, {depth} down"""
    return Message("charts.soil_at", (("depth", depth),))


def within(*, reach: str) -> Message:
    """within {reach}"""
    return Message("charts.within", (("reach", reach),))
