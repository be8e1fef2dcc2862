"""Messages of `messages/en/season_book.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Amounted, Day, Listed, Message, Number


def title(*, lawn: str) -> Message:
    """{lawn}: season book"""
    return Message("season_book.title", (("lawn", lawn),))


def description(*, lawn: str) -> Message:
    """The season of the lawn {lawn}: what it takes, why on these days, charts, words, sources, and
    what was done.
    """
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


def assumed() -> Message:
    """What was assumed"""
    return Message("season_book.assumed")


def fill() -> Message:
    """The fill map"""
    return Message("season_book.fill")


def ledgers() -> Message:
    """Water and nitrogen"""
    return Message("season_book.ledgers")


def reasons() -> Message:
    """Why these days"""
    return Message("season_book.reasons")


def words() -> Message:
    """The words used here"""
    return Message("season_book.words")


def work() -> Message:
    """Work"""
    return Message("season_book.work")


def days() -> Message:
    """Days"""
    return Message("season_book.days")


def read_first() -> Message:
    """Local codes, product labels, the marks of the utilities and licensed practice come before
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


def stakes() -> Message:
    """Stakes"""
    return Message("season_book.stakes")


def not_chosen() -> Message:
    """Considered and not chosen"""
    return Message("season_book.not_chosen")


def disagree() -> Message:
    """Where good sources disagree"""
    return Message("season_book.disagree")


def judgement() -> Message:
    """Our judgement: no publication was found"""
    return Message("season_book.judgement")


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


def strip_title() -> Message:
    """The season"""
    return Message("season_book.strip_title")


def strip_words() -> Message:
    """The season as a strip of months: the days that matter by their numbers below, and the weeks
    of watering.
    """
    return Message("season_book.strip_words")


def strip_water() -> Message:
    """weeks of watering"""
    return Message("season_book.strip_water")


def of_work() -> Message:
    """of work"""
    return Message("season_book.of_work")


def of_water() -> Message:
    """of water"""
    return Message("season_book.of_water")


def the_season() -> Message:
    """The season"""
    return Message("season_book.the_season")


def rank_stop() -> Message:
    """What stops work"""
    return Message("season_book.rank.stop")


def rank_law() -> Message:
    """Law and permission"""
    return Message("season_book.rank.law")


def rank_safety() -> Message:
    """Keep safe"""
    return Message("season_book.rank.safety")


def rank_damage() -> Message:
    """Keep whole what is there"""
    return Message("season_book.rank.damage")


def rank_advice() -> Message:
    """Better so"""
    return Message("season_book.rank.advice")


def rank_information() -> Message:
    """Good to know"""
    return Message("season_book.rank.information")


def no_work_possible() -> Message:
    """On the days around it no work is possible."""
    return Message("season_book.no_work_possible")


def rejected(*, campaign: str, reason: str) -> Message:
    """{campaign}: {reason}"""
    return Message("season_book.rejected", (("campaign", campaign), ("reason", reason)))


def rooted() -> Message:
    """Grass that has rooted, beside the usual rain; none after real rain"""
    return Message("season_book.rooted")


def water_a_week() -> Message:
    """Water a week"""
    return Message("season_book.water_a_week")


def at_a_time() -> Message:
    """At a time"""
    return Message("season_book.at_a_time")


def how_often() -> Message:
    """How often"""
    return Message("season_book.how_often")


def at_once_head() -> Message:
    """Not more at once in one place"""
    return Message("season_book.at_once_head")


def minutes_at_a_time(*, minutes: int) -> Message:
    """{minutes} min"""
    return Message("season_book.minutes_at_a_time", (("minutes", minutes),))


def hours_in_parts(*, hours: Number) -> Message:
    """{hours} h, in parts"""
    return Message("season_book.hours_in_parts", (("hours", hours),))


def minutes_in_settings(*, minutes: int, settings: int) -> Message:
    """{minutes} min in each of {settings} settings"""
    return Message(
        "season_book.minutes_in_settings", (("minutes", minutes), ("settings", settings))
    )


def at_once(*, minutes: int, pause: int) -> Message:
    """{minutes} min, then {pause} min to soak in"""
    return Message("season_book.at_once", (("minutes", minutes), ("pause", pause)))


def every_days(*, n: int) -> Message:
    """every {n} days"""
    return Message("season_book.every_days", (("n", n),))


def sources() -> Message:
    """Where the numbers come from"""
    return Message("season_book.sources")


def published() -> Message:
    """Published"""
    return Message("season_book.published")


def practice() -> Message:
    """Practice of the trade"""
    return Message("season_book.practice")


def what_i_did() -> Message:
    """What I did"""
    return Message("season_book.what_i_did")


def used_head() -> Message:
    """Used"""
    return Message("season_book.used_head")


def used(*, amount: Amounted, item: Message) -> Message:
    """{amount} {item}"""
    return Message("season_book.used", (("amount", amount), ("item", item)))


def share_done(*, share: Number) -> Message:
    """{share} of it done"""
    return Message("season_book.share_done", (("share", share),))


def gap() -> Message:
    """The gap under a straightedge"""
    return Message("season_book.gap")


def gap_how() -> Message:
    """Lay a straight board of {6 to 10 ft|2 to 3 m} over the worst place and measure the largest
    gap below it.
    """
    return Message("season_book.gap_how")


def before() -> Message:
    """Before"""
    return Message("season_book.before")


def after() -> Message:
    """After"""
    return Message("season_book.after")


def next_first(*, day: Day, what: Message) -> Message:
    """The next first day: {day}: {what}."""
    return Message("season_book.next_first", (("day", day), ("what", what)))


def next_unknown() -> Message:
    """The next first day: make the plan anew in the new year."""
    return Message("season_book.next_unknown")


def frame_before() -> Message:
    """Before the work"""
    return Message("season_book.frame_before")


def frame_after() -> Message:
    """After the last mowing"""
    return Message("season_book.frame_after")


def frame_gap() -> Message:
    """The straightedge over the worst place"""
    return Message("season_book.frame_gap")


def frame_year() -> Message:
    """A year later"""
    return Message("season_book.frame_year")


def topic_windows() -> Message:
    """when work is open"""
    return Message("season_book.topic.windows")


def customary(*, topics: Listed) -> Message:
    """Other figures as they are customary: {topics}."""
    return Message("season_book.customary", (("topics", topics),))


def topic_water() -> Message:
    """watering"""
    return Message("season_book.topic.water")


def topic_feeding() -> Message:
    """feeding"""
    return Message("season_book.topic.feeding")


def topic_species() -> Message:
    """the grass"""
    return Message("season_book.topic.species")


def topic_materials() -> Message:
    """materials"""
    return Message("season_book.topic.materials")


def topic_mixes() -> Message:
    """the mix"""
    return Message("season_book.topic.mixes")


def topic_mowing() -> Message:
    """mowing"""
    return Message("season_book.topic.mowing")


def topic_order() -> Message:
    """the order of work"""
    return Message("season_book.topic.order")


def topic_delivery() -> Message:
    """delivery"""
    return Message("season_book.topic.delivery")


def topic_labour() -> Message:
    """hours of work"""
    return Message("season_book.topic.labour")


def topic_topdress() -> Message:
    """top-dressing"""
    return Message("season_book.topic.topdress")


def topic_passes() -> Message:
    """passes"""
    return Message("season_book.topic.passes")


def topic_seeding() -> Message:
    """seeding"""
    return Message("season_book.topic.seeding")


def topic_aerate() -> Message:
    """coring"""
    return Message("season_book.topic.aerate")


def topic_dethatch() -> Message:
    """dethatching"""
    return Message("season_book.topic.dethatch")


def topic_site() -> Message:
    """the ground"""
    return Message("season_book.topic.site")


def topic_starter() -> Message:
    """starter feed"""
    return Message("season_book.topic.starter")


def topic_herbicides() -> Message:
    """weed killers"""
    return Message("season_book.topic.herbicides")


def topic_planting() -> Message:
    """planting"""
    return Message("season_book.topic.planting")


def topic_law() -> Message:
    """law"""
    return Message("season_book.topic.law")


def topic_other() -> Message:
    """other numbers"""
    return Message("season_book.topic.other")


def why_this_way() -> Message:
    """Why this way"""
    return Message("season_book.why_this_way")


def of_cost() -> Message:
    """at your prices"""
    return Message("season_book.of_cost")


def notes() -> Message:
    """Read these first"""
    return Message("season_book.notes")


def as_said() -> Message:
    """As said above."""
    return Message("season_book.as_said")


def shared_out() -> Message:
    """The nitrogen of the season is shared out by how strongly the grass grows then."""
    return Message("season_book.shared_out")
