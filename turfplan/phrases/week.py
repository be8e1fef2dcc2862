"""Messages of `messages/en/week.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Clock, Day, Days, Listed, Message, Number, Quantity


def title(*, lawn: str) -> Message:
    """{lawn}: week by week"""
    return Message("week.title", (("lawn", lawn),))


def description(*, lawn: str) -> Message:
    """What to do each week on the lawn {lawn}: day, amount, weather rule, cautions."""
    return Message("week.description", (("lawn", lawn),))


def skip_to() -> Message:
    """Skip to the weeks"""
    return Message("week.skip_to")


def checklist_for(*, lawn: str) -> Message:
    """Weekly checklist for {lawn}"""
    return Message("week.checklist_for", (("lawn", lawn),))


def rank_stop() -> Message:
    """Stop:"""
    return Message("week.rank.stop")


def put_off() -> Message:
    """Lost season:"""
    return Message("week.put_off")


def way_out() -> Message:
    """Instead:"""
    return Message("week.way_out")


def way_out_line(*, title: str, reason: str, change: str) -> Message:
    """{title}. {reason}⟦ In the brief: {change}⟧"""
    return Message("week.way_out_line", (("title", title), ("reason", reason), ("change", change)))


def rank_advice() -> Message:
    """Know this first:"""
    return Message("week.rank.advice")


def rank_law() -> Message:
    """Law and permission:"""
    return Message("week.rank.law")


def weeks() -> Message:
    """Weeks"""
    return Message("week.weeks")


def week() -> Message:
    """Week"""
    return Message("week.week")


def map() -> Message:
    """Map"""
    return Message("week.map")


def fill_and_stakes() -> Message:
    """The fill and its stakes"""
    return Message("week.fill_and_stakes")


def stakes_caption() -> Message:
    """Stakes to set out before the first pass; depths are settled"""
    return Message("week.stakes_caption")


def pass_stakes_caption() -> Message:
    """Stakes of this pass; spread a little more than the settled depth, for it sinks"""
    return Message("week.pass_stakes_caption")


def overdue() -> Message:
    """Past their day, without an answer"""
    return Message("week.overdue")


def overdue_say() -> Message:
    """Say for each whether it was done; until then the rest is planned as if it had been."""
    return Message("week.overdue_say")


def no_work_planned() -> Message:
    """No work is planned"""
    return Message("week.no_work_planned")


def on_hold() -> Message:
    """on hold"""
    return Message("week.on_hold")


def no_answer() -> Message:
    """no answer yet"""
    return Message("week.no_answer")


def done_on() -> Message:
    """done on"""
    return Message("week.done_on")


def hours() -> Message:
    """hours"""
    return Message("week.hours")


def map_link() -> Message:
    """Where, and how deep at each stake"""
    return Message("week.map_link")


def see_map(*, link: str) -> Message:
    """{link}: the map of this pass is a page of its own."""
    return Message("week.see_map", (("link", link),))


def why_now() -> Message:
    """Why now:"""
    return Message("week.why_now")


def water() -> Message:
    """water"""
    return Message("week.water")


def run_at(*, clock: Clock) -> Message:
    """at {clock}"""
    return Message("week.run_at", (("clock", clock),))


def daily(*, days: Days) -> Message:
    """daily {days}"""
    return Message("week.daily", (("days", days),))


def nothing_more() -> Message:
    """Nothing more is planned."""
    return Message("week.nothing_more")


def weather() -> Message:
    """Weather"""
    return Message("week.weather")


def working_days(*, days: Days, n: int) -> Message:
    """{days} ({n} working days)"""
    return Message("week.working_days", (("days", days), ("n", n)))


def skipped() -> Message:
    """Skipped."""
    return Message("week.skipped")


def done(*, days: Days) -> Message:
    """Done {days}."""
    return Message("week.done", (("days", days),))


def done_used(*, days: Days, used: Listed) -> Message:
    """Done {days}: {used}."""
    return Message("week.done_used", (("days", days), ("used", used)))


def done_share(*, days: Days, share: Number) -> Message:
    """Done {days}, {share} of it."""
    return Message("week.done_share", (("days", days), ("share", share)))


def done_share_used(*, days: Days, share: Number, used: Listed) -> Message:
    """Done {days}, {share} of it: {used}."""
    return Message("week.done_share_used", (("days", days), ("share", share), ("used", used)))


def jobs(*, n: int) -> Message:
    """{n} jobs"""
    return Message("week.jobs", (("n", n),))


def jobs_hours(*, n: int, hours: Message) -> Message:
    """{n} jobs, about {hours}"""
    return Message("week.jobs_hours", (("n", n), ("hours", hours)))


def waterings(*, n: int, minutes: Number) -> Message:
    """{n} waterings, {minutes} minutes in all"""
    return Message("week.waterings", (("n", n), ("minutes", minutes)))


def no_work() -> Message:
    """No work this week"""
    return Message("week.no_work")


def nitrogen(*, amount: Quantity) -> Message:
    """nitrogen {amount}"""
    return Message("week.nitrogen", (("amount", amount),))


def after() -> Message:
    """After this week"""
    return Message("week.after")


def next(*, days: Days) -> Message:
    """Next week, {days}"""
    return Message("week.next", (("days", days),))


def next_free() -> Message:
    """Next week is free. Then comes"""
    return Message("week.next_free")


def runs(*, n: int) -> Message:
    """{n} waterings"""
    return Message("week.runs", (("n", n),))


def first_of_runs(*, n: int, last: Day) -> Message:
    """First of {n} waterings, the last {last}"""
    return Message("week.first_of_runs", (("n", n), ("last", last)))


def heaps_apart() -> Message:
    """Half-barrow heaps apart"""
    return Message("week.heaps_apart")


def loads_apart(*, volume: Quantity) -> Message:
    """Heaps of {volume} apart"""
    return Message("week.loads_apart", (("volume", volume),))


def settled(*, of: str) -> Message:
    """{of}, settled"""
    return Message("week.settled", (("of", of),))


def settled_loose(*, of: str, loose: Quantity) -> Message:
    """{of}, settled ({loose} loose)"""
    return Message("week.settled_loose", (("of", of), ("loose", loose)))


def deepest(*, of: str) -> Message:
    """{of}, at most"""
    return Message("week.deepest", (("of", of),))


def figure_cover() -> Message:
    """Rake in, at most"""
    return Message("week.figure.cover")


def figure_height() -> Message:
    """Height of cut"""
    return Message("week.figure.height")


def minutes(*, n: Number) -> Message:
    """{n} min"""
    return Message("week.minutes", (("n", n),))


def go_if() -> Message:
    """Go if"""
    return Message("week.go_if")


def go_each() -> Message:
    """Go, job by job"""
    return Message("week.go_each")


def go_alone(*, jobs: str, n: int) -> Message:
    """Jobs {jobs} have conditions of their own, at their first tick."""
    return Message("week.go_alone", (("jobs", jobs), ("n", n)))


def each_day() -> Message:
    """each day anew"""
    return Message("week.each_day")


def go_free() -> Message:
    """Nothing stops this day."""
    return Message("week.go_free")


def wait() -> Message:
    """Wait"""
    return Message("week.wait")


def wait_for(*, day: str) -> Message:
    """for {day};"""
    return Message("week.wait_for", (("day", day),))


def wait_none() -> Message:
    """no later workday;"""
    return Message("week.wait_none")


def wait_whose(*, job: str) -> Message:
    """job {job}:"""
    return Message("week.wait_whose", (("job", job),))


def moves_too(*, task: str) -> Message:
    """Then {task} moves too."""
    return Message("week.moves_too", (("task", task),))


def moves_after(*, day: Day, task: str) -> Message:
    """After {day} {task} moves."""
    return Message("week.moves_after", (("day", day), ("task", task)))


def asked_before(*, known: str, day: Day) -> Message:
    """{known}, as asked on {day}"""
    return Message("week.asked_before", (("known", known), ("day", day)))


def wait_last(*, day: str) -> Message:
    """last good day {day}"""
    return Message("week.wait_last", (("day", day),))


def first_only_if() -> Message:
    """Only if"""
    return Message("week.first_only_if")


def for_jobs(*, jobs: str, n: int) -> Message:
    """Jobs {jobs}:"""
    return Message("week.for_jobs", (("jobs", jobs), ("n", n)))


def done_when() -> Message:
    """Done when"""
    return Message("week.done_when")


def wrong() -> Message:
    """If it goes wrong now"""
    return Message("week.wrong")


def looks() -> Message:
    """How it should look"""
    return Message("week.looks")


def mind() -> Message:
    """Mind"""
    return Message("week.mind")


def also() -> Message:
    """Also"""
    return Message("week.also")


def used_of(*, what: str) -> Message:
    """{what} used"""
    return Message("week.used_of", (("what", what),))


def protect() -> Message:
    """Protect yourself"""
    return Message("week.protect")


def goes_on(*, week: str) -> Message:
    """{week}, goes on."""
    return Message("week.goes_on", (("week", week),))


def signs_before() -> Message:
    """Go or wait: as said before."""
    return Message("week.signs_before")


def go_on_with(*, jobs: str, n: int) -> Message:
    """Go on with jobs {jobs}."""
    return Message("week.go_on_with", (("jobs", jobs), ("n", n)))


def begun_before() -> Message:
    """Begun before: its tick and steps stand at its first day."""
    return Message("week.begun_before")


def strip_of(*, week: str) -> Message:
    """The days of the week, {week}"""
    return Message("week.strip_of", (("week", week),))


def strip_jobs(*, n: int) -> Message:
    """Jobs"""
    return Message("week.strip_jobs", (("n", n),))


def strip_from_to(*, first: str, last: str) -> Message:
    """{first}–{last}"""
    return Message("week.strip_from_to", (("first", first), ("last", last)))


def newer() -> Message:
    """If the calendar shows another day, the calendar is newer: print again."""
    return Message("week.newer")


def made(*, day: str, revision: int) -> Message:
    """Made {day}, revision {revision}. Local rules, product labels and licensed practice come
    first.
    """
    return Message("week.made", (("day", day), ("revision", revision)))


def card_title(*, first: Day, last: Day) -> Message:
    """Watering card, {first} to {last}"""
    return Message("week.card_title", (("first", first), ("last", last)))


def card_week(*, week: str) -> Message:
    """Week, {week}"""
    return Message("week.card_week", (("week", week),))


def all_weeks() -> Message:
    """All weeks"""
    return Message("week.all_weeks")


def this_device() -> Message:
    """Ticks are kept on this device only"""
    return Message("week.this_device")


def go_today() -> Message:
    """Next day of work"""
    return Message("week.go_today")


def earlier() -> Message:
    """Show earlier weeks"""
    return Message("week.earlier")


def tick() -> Message:
    """tick"""
    return Message("week.tick")
