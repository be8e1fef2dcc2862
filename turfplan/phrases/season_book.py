"""Messages of `messages/en/season_book.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Message, Number


def title(*, lawn: str) -> Message:
    """{lawn}: season book"""
    return Message("season_book.title", (("lawn", lawn),))


def description(*, lawn: str) -> Message:
    """The whole season of the lawn {lawn}: days, weeks, orders, charts, reasons and sources."""
    return Message("season_book.description", (("lawn", lawn),))


def skip_to() -> Message:
    """Skip to the book"""
    return Message("season_book.skip_to")


def season_book() -> Message:
    """Season book"""
    return Message("season_book.season_book")


def the_lawn() -> Message:
    """The lawn"""
    return Message("season_book.the_lawn")


def days_that_matter() -> Message:
    """The days that matter"""
    return Message("season_book.days_that_matter")


def no_work() -> Message:
    """No work is planned."""
    return Message("season_book.no_work")


def in_this_book() -> Message:
    """In this book"""
    return Message("season_book.in_this_book")


def assumed() -> Message:
    """What was assumed"""
    return Message("season_book.assumed")


def glance() -> Message:
    """The season at a glance"""
    return Message("season_book.glance")


def cautions() -> Message:
    """Cautions"""
    return Message("season_book.cautions")


def climate() -> Message:
    """Climate and open days"""
    return Message("season_book.climate")


def weeks() -> Message:
    """Week by week"""
    return Message("season_book.weeks")


def order() -> Message:
    """What to buy"""
    return Message("season_book.order")


def fill() -> Message:
    """The fill map"""
    return Message("season_book.fill")


def ledgers() -> Message:
    """Water and nitrogen"""
    return Message("season_book.ledgers")


def runs() -> Message:
    """All waterings"""
    return Message("season_book.runs")


def reasons() -> Message:
    """Reasons"""
    return Message("season_book.reasons")


def words() -> Message:
    """Words"""
    return Message("season_book.words")


def notes() -> Message:
    """Notes"""
    return Message("season_book.notes")


def same_in_words() -> Message:
    """The same in words"""
    return Message("season_book.same_in_words")


def work() -> Message:
    """Work"""
    return Message("season_book.work")


def kind() -> Message:
    """Kind"""
    return Message("season_book.kind")


def days() -> Message:
    """Days"""
    return Message("season_book.days")


def read_first() -> Message:
    """Read these first. The weeks and the delivery card name them again where they are needed.
    Local codes, product labels, the marks of the utilities and licensed practice come before
    anything printed here.
    """
    return Message("season_book.read_first")


def may_be_off(*, days: int) -> Message:
    """Dates that hang on the weather may be off by about {days} days either way."""
    return Message("season_book.may_be_off", (("days", days),))


def frost(*, what: str, day: str) -> Message:
    """{what}: {day} in a middling year."""
    return Message("season_book.frost", (("what", what), ("day", day)))


def last_frost() -> Message:
    """Last frost of spring"""
    return Message("season_book.last_frost")


def first_frost() -> Message:
    """First frost of autumn"""
    return Message("season_book.first_frost")


def usual_year() -> Message:
    """Temperatures of a usual year"""
    return Message("season_book.usual_year")


def mid_month(*, unit: str) -> Message:
    """Temperature in the middle of each month, in {unit}"""
    return Message("season_book.mid_month", (("unit", unit),))


def of() -> Message:
    """Of"""
    return Message("season_book.of")


def open_days() -> Message:
    """Open days, and why"""
    return Message("season_book.open_days")


def open() -> Message:
    """Open"""
    return Message("season_book.open")


def best() -> Message:
    """Best"""
    return Message("season_book.best")


def why() -> Message:
    """Why"""
    return Message("season_book.why")


def real_years() -> Message:
    """In real years"""
    return Message("season_book.real_years")


def generated_years() -> Message:
    """In generated weather"""
    return Message("season_book.generated_years")


def season_years() -> Message:
    """How often the season gets through"""
    return Message("season_book.season_years")


def worked(*, title: str, reason: str, worked: int, years: int) -> Message:
    """{title}: {reason} ({worked} of {years} years)"""
    return Message(
        "season_book.worked",
        (("title", title), ("reason", reason), ("worked", worked), ("years", years)),
    )


def to_tick_off() -> Message:
    """What, when, how much and how. To tick off, print the weekly checklist."""
    return Message("season_book.to_tick_off")


def begun_before(*, job: str) -> Message:
    """{job}, as begun the week before."""
    return Message("season_book.begun_before", (("job", job),))


def steps_as_on(*, day: str) -> Message:
    """Steps and rule as on {day}."""
    return Message("season_book.steps_as_on", (("day", day),))


def run_at(*, title: str, clocks: str, days: str) -> Message:
    """{title} at {clocks}: {days}."""
    return Message("season_book.run_at", (("title", title), ("clocks", clocks), ("days", days)))


def stakes() -> Message:
    """Stakes"""
    return Message("season_book.stakes")


def table(*, title: str) -> Message:
    """Table: {title}"""
    return Message("season_book.table", (("title", title),))


def by_month(*, unit: str) -> Message:
    """By month, {unit}; a week counts to the month it ends in"""
    return Message("season_book.by_month", (("unit", unit),))


def all_runs() -> Message:
    """All waterings, with the water of each time"""
    return Message("season_book.all_runs")


def what() -> Message:
    """What"""
    return Message("season_book.what")


def at() -> Message:
    """At"""
    return Message("season_book.at")


def water_each() -> Message:
    """Water at each time, all days"""
    return Message("season_book.water_each")


def why_each() -> Message:
    """Why each job is there, why on these days, and why this much. The notes at the end name the
    sources.
    """
    return Message("season_book.why_each")


def not_earlier() -> Message:
    """Not earlier:"""
    return Message("season_book.not_earlier")


def not_later() -> Message:
    """Not later:"""
    return Message("season_book.not_later")


def watering_of(*, stage: str) -> Message:
    """{stage}: watering"""
    return Message("season_book.watering_of", (("stage", stage),))


def not_chosen() -> Message:
    """Considered and not chosen"""
    return Message("season_book.not_chosen")


def disagree() -> Message:
    """Where good sources disagree"""
    return Message("season_book.disagree")


def judgement() -> Message:
    """Sources marked as judgement are ours: no publication was found; they are meant to be
    corrected by your own notes.
    """
    return Message("season_book.judgement")


def note(*, numbers: str, n: int) -> Message:
    """notes {numbers}"""
    return Message("season_book.note", (("numbers", numbers), ("n", n)))


def when(*, when: str) -> Message:
    """{when}."""
    return Message("season_book.when", (("when", when),))


def each_year(*, first: Day, last: Day) -> Message:
    """{first} to {last}, each year"""
    return Message("season_book.each_year", (("first", first), ("last", last)))


def fact_area() -> Message:
    """Area"""
    return Message("season_book.fact.area")


def fact_grass() -> Message:
    """Grass"""
    return Message("season_book.fact.grass")


def fact_soil() -> Message:
    """Soil"""
    return Message("season_book.fact.soil")


def fact_stand() -> Message:
    """Stand"""
    return Message("season_book.fact.stand")


def fact_thatch() -> Message:
    """Thatch"""
    return Message("season_book.fact.thatch")


def fact_fill() -> Message:
    """Fill, settled"""
    return Message("season_book.fact.fill")


def fact_mix() -> Message:
    """Mix"""
    return Message("season_book.fact.mix")


def fact_seeding() -> Message:
    """Seeding"""
    return Message("season_book.fact.seeding")


def fact_place() -> Message:
    """Place"""
    return Message("season_book.fact.place")


def none() -> Message:
    """none"""
    return Message("season_book.none")


def grass_share(*, grass: str, share: Number) -> Message:
    """{grass} {share}"""
    return Message("season_book.grass_share", (("grass", grass), ("share", share)))


def stand_dense() -> Message:
    """dense"""
    return Message("season_book.stand.dense")


def stand_thin() -> Message:
    """thin"""
    return Message("season_book.stand.thin")


def stand_patchy() -> Message:
    """patchy"""
    return Message("season_book.stand.patchy")


def stand_bare() -> Message:
    """bare"""
    return Message("season_book.stand.bare")


def seeding_none() -> Message:
    """none"""
    return Message("season_book.seeding.none")


def seeding_patch() -> Message:
    """patch"""
    return Message("season_book.seeding.patch")


def seeding_overseed() -> Message:
    """overseed"""
    return Message("season_book.seeding.overseed")


def seeding_renovate() -> Message:
    """renovate"""
    return Message("season_book.seeding.renovate")


def seeding_dormant() -> Message:
    """dormant"""
    return Message("season_book.seeding.dormant")


def seeding_plant() -> Message:
    """plant"""
    return Message("season_book.seeding.plant")


def seeding_winter_overseed() -> Message:
    """winter overseed"""
    return Message("season_book.seeding.winter_overseed")
