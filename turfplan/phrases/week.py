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


def caution_letter(*, letter: str) -> Message:
    """Caution {letter}"""
    return Message("week.caution_letter", (("letter", letter),))


def caution_above(*, caution: str) -> Message:
    """{caution} above holds here too."""
    return Message("week.caution_above", (("caution", caution),))


def map_link() -> Message:
    """Where, and how deep at each stake"""
    return Message("week.map_link")


def see_map(*, link: str) -> Message:
    """{link}: the map of this pass follows this week."""
    return Message("week.see_map", (("link", link),))


def why_now() -> Message:
    """Why now:"""
    return Message("week.why_now")


def days_of_week(*, week: str) -> Message:
    """Days of the week, {week}"""
    return Message("week.days_of_week", (("week", week),))


def by_day(*, week: str) -> Message:
    """Jobs and watering by day, {week}"""
    return Message("week.by_day", (("week", week),))


def what() -> Message:
    """What"""
    return Message("week.what")


def job_number() -> Message:
    """Job number"""
    return Message("week.job_number")


def water() -> Message:
    """water"""
    return Message("week.water")


def run_at(*, clock: Clock) -> Message:
    """at {clock}"""
    return Message("week.run_at", (("clock", clock),))


def daily(*, days: Days) -> Message:
    """daily {days}"""
    return Message("week.daily", (("days", days),))


def watering_only_if() -> Message:
    """Watering, only if:"""
    return Message("week.watering_only_if")


def nothing_more() -> Message:
    """Nothing more is planned."""
    return Message("week.nothing_more")


def notes() -> Message:
    """Notes"""
    return Message("week.notes")


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
