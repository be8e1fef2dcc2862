"""Messages of `messages/en/entry.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Amounted, Day, Days, Listed, Message, Quantity


def changed(*, change: Message) -> Message:
    """Changed: {change}"""
    return Message("entry.changed", (("change", change),))


def how_much(*, amounts: Message) -> Message:
    """How much: {amounts}."""
    return Message("entry.how_much", (("amounts", amounts),))


def how_much_in_all(*, amounts: Message) -> Message:
    """How much in all: {amounts}."""
    return Message("entry.how_much_in_all", (("amounts", amounts),))


def working_days(*, days: Days, n: int) -> Message:
    """It takes {n} working days, {days}."""
    return Message("entry.working_days", (("days", days), ("n", n)))


def by_bag() -> Message:
    """Weigh out: the nitrogen in all, times 100, divided by the first number on the bag."""
    return Message("entry.by_bag")


def step(*, step: Message) -> Message:
    """- {step}"""
    return Message("entry.step", (("step", step),))


def only_if(*, test: Message) -> Message:
    """Only if: {test}"""
    return Message("entry.only_if", (("test", test),))


def check(*, test: Message) -> Message:
    """Check: {test}"""
    return Message("entry.check", (("test", test),))


def watered(*, test: Message) -> Message:
    """{test}"""
    return Message("entry.watered", (("test", test),))


def before_you_start(*, cautions: Listed) -> Message:
    """Before you start: {cautions}"""
    return Message("entry.before_you_start", (("cautions", cautions),))


def if_not(*, what: Message) -> Message:
    """If not: {what}"""
    return Message("entry.if_not", (("what", what),))


def if_not_next(*, what: Message, day: Day) -> Message:
    """If not: {what} Next day for it: {day}."""
    return Message("entry.if_not_next", (("what", what), ("day", day)))


def in_time_for(*, task: Message) -> Message:
    """In good time for “{task}”."""
    return Message("entry.in_time_for", (("task", task),))


def not_earlier(*, reason: Message) -> Message:
    """Not earlier: {reason}"""
    return Message("entry.not_earlier", (("reason", reason),))


def not_later(*, reason: Message) -> Message:
    """Not later: {reason}"""
    return Message("entry.not_later", (("reason", reason),))


def take_care(*, cautions: Listed) -> Message:
    """Take care: {cautions}"""
    return Message("entry.take_care", (("cautions", cautions),))


def else_on(*, day: Day) -> Message:
    """If not: wait for {day}."""
    return Message("entry.else_on", (("day", day),))


def more_on_sheet() -> Message:
    """More of it stands on the week's sheet."""
    return Message("entry.more_on_sheet")


def short_keep_off_seed(*, mown: Day, first: Day, last: Day) -> Message:
    """Keep people and pets off until it has been mown three times, not before {mown}, but for this
    work; ball games and parties wait until it has filled in, between {first} and {last}.
    """
    return Message("entry.short_keep_off_seed", (("mown", mown), ("first", first), ("last", last)))


def short_keep_off_plugs(*, first: Day, last: Day) -> Message:
    """Keep people and pets off until the plants have grown together, between {first} and {last},
    but for this work; full use may take a year.
    """
    return Message("entry.short_keep_off_plugs", (("first", first), ("last", last)))


def short_keep_off_sod(*, first: Day, running: Day) -> Message:
    """Keep people off until {first} but for this work, and running children and dogs until
    {running}: turf that is shifted before it has rooted dies at its joints.
    """
    return Message("entry.short_keep_off_sod", (("first", first), ("running", running)))


def short_wet_at_once_behind(*, area: Quantity, minutes: int, volume: Quantity) -> Message:
    """Water behind the planting: every stretch of about {area} ({minutes} minutes of work) gets
    about {volume} by hose or can before the next is begun; the run after the work soaks the whole.
    """
    return Message(
        "entry.short_wet_at_once_behind", (("area", area), ("minutes", minutes), ("volume", volume))
    )


def short_book_cautions_silica_text() -> Message:
    """Fine silica dust: respirator on, outdoors, upwind; damp the air and not the mix, never sweep
    dry.
    """
    return Message("entry.short_book_cautions_silica_text")


def short_book_cautions_machines_text() -> Message:
    """Guards on, stones picked up, closed shoes, eyes and ears protected; never refuel hot; nobody
    in front of the chute.
    """
    return Message("entry.short_book_cautions_machines_text")


def short_book_cautions_storm_drain_text() -> Message:
    """Sweep what lies on paving back onto the lawn; nothing into a storm drain."""
    return Message("entry.short_book_cautions_storm_drain_text")


def short_book_cautions_lifting_any_text() -> Message:
    """Heavy loads: carry half, change hands, drink, rest in the shade."""
    return Message("entry.short_book_cautions_lifting_any_text")


def short_book_cautions_lifting_text() -> Message:
    """Heavy loads: fill barrows half, change hands, drink, rest in the shade."""
    return Message("entry.short_book_cautions_lifting_text")


def short_prepare_waits(*, causes: Listed) -> Message:
    """Held until it is answered: {causes} as the cause of thin grass. Until somebody has looked,
    nothing is ordered, spread, sown or planted.
    """
    return Message("entry.short_prepare_waits", (("causes", causes),))


def short_prepare_waits_bare(*, causes: Listed) -> Message:
    """Held until it is answered: {causes} as the reason why no grass stands there. Until somebody
    has looked, nothing is ordered, spread, sown or planted.
    """
    return Message("entry.short_prepare_waits_bare", (("causes", causes),))


def short_watering_season_permit(*, days: Listed) -> Message:
    """Begin only with the permit in hand, for every day from {days}."""
    return Message("entry.short_watering_season_permit", (("days", days),))


def short_feeding_blackout_ask() -> Message:
    """Rules for fertilizer are local: ask on which dates none may be given and how far from water
    to stay.
    """
    return Message("entry.short_feeding_blackout_ask")


def short_feeding_blackout_ask_elsewhere() -> Message:
    """Rules for fertilizer are local: ask on which dates none may be given and how far from water
    to stay.
    """
    return Message("entry.short_feeding_blackout_ask_elsewhere")


def short_feeding_blackout_confirm(*, blackout: Message) -> Message:
    """The state's rule as we read it: {blackout}. Confirm it where you live."""
    return Message("entry.short_feeding_blackout_confirm", (("blackout", blackout),))


def amount(*, item: Message, amount: Amounted) -> Message:
    """{item} {amount}"""
    return Message("entry.amount", (("item", item), ("amount", amount)))


def placed(*, place: str, title: Message) -> Message:
    """{place} {title}"""
    return Message("entry.placed", (("place", place), ("title", title)))


def run_at(*, clocks: Listed, title: Message) -> Message:
    """At {clocks}: {title}."""
    return Message("entry.run_at", (("clocks", clocks), ("title", title)))


def run_at_on(*, clocks: Listed, days: Listed, title: Message) -> Message:
    """At {clocks} on {days}: {title}."""
    return Message("entry.run_at_on", (("clocks", clocks), ("days", days), ("title", title)))


def times(*, title: Message, times: int) -> Message:
    """{title}, {times} times"""
    return Message("entry.times", (("title", title), ("times", times)))


def times_at_most(*, title: Message, times: int) -> Message:
    """{title}, up to {times} times"""
    return Message("entry.times_at_most", (("title", title), ("times", times)))


def for_minutes(*, stage: Message, minutes: int) -> Message:
    """{stage}: {minutes} min"""
    return Message("entry.for_minutes", (("stage", stage), ("minutes", minutes)))


def for_minutes_to(*, stage: Message, least: int, most: int) -> Message:
    """{stage}: {least} to {most} min"""
    return Message("entry.for_minutes_to", (("stage", stage), ("least", least), ("most", most)))


def and_more(*, title: Message) -> Message:
    """{title}, and more"""
    return Message("entry.and_more", (("title", title),))


def tomorrow(*, title: Message) -> Message:
    """Tomorrow: {title}"""
    return Message("entry.tomorrow", (("title", title),))


def this_week() -> Message:
    """This week on the lawn"""
    return Message("entry.this_week")


def on_day(*, day: Day, title: Message) -> Message:
    """- {day}: {title}"""
    return Message("entry.on_day", (("day", day), ("title", title)))


def now_by_day(*, title: Message) -> Message:
    """Now in one entry a day: {title}"""
    return Message("entry.now_by_day", (("title", title),))


def why_by_day() -> Message:
    """All waterings of a day now stand in one entry, with their times."""
    return Message("entry.why_by_day")


def now_by_run(*, title: Message) -> Message:
    """Now in entries of their own: {title}"""
    return Message("entry.now_by_run", (("title", title),))


def why_by_run() -> Message:
    """Each watering of the day now has an entry of its own, at its time."""
    return Message("entry.why_by_run")


def moved_out(*, title: Message) -> Message:
    """Moved out of this calendar: {title}"""
    return Message("entry.moved_out", (("title", title),))


def why_moved_out() -> Message:
    """The lawn is watered as before; this calendar no longer shows it. The times stand on the
    watering card.
    """
    return Message("entry.why_moved_out")


def why_no_reminder() -> Message:
    """The work stands as it was; this calendar no longer reminds of it ahead."""
    return Message("entry.why_no_reminder")


def reminder_moved(*, title: Message) -> Message:
    """Now in another reminder: {title}"""
    return Message("entry.reminder_moved", (("title", title),))


def why_reminder_moved() -> Message:
    """The work stands as its own entry says; another reminder tells of it on the evening before its
    day.
    """
    return Message("entry.why_reminder_moved")


def calendar_work(*, lawn: str) -> Message:
    """{lawn}: work"""
    return Message("entry.calendar.work", (("lawn", lawn),))


def calendar_water(*, lawn: str) -> Message:
    """{lawn}: watering"""
    return Message("entry.calendar.water", (("lawn", lawn),))


def category_prepare() -> Message:
    """prepare"""
    return Message("entry.category.prepare")


def category_surface() -> Message:
    """surface"""
    return Message("entry.category.surface")


def category_level() -> Message:
    """level"""
    return Message("entry.category.level")


def category_seed() -> Message:
    """seed"""
    return Message("entry.category.seed")


def category_care() -> Message:
    """care"""
    return Message("entry.category.care")


def category_finish() -> Message:
    """finish"""
    return Message("entry.category.finish")
