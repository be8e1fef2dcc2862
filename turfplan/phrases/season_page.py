"""Messages of `messages/en/season_page.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Days, Listed, Message


def title(*, lawn: str) -> Message:
    """{lawn}: season"""
    return Message("season_page.title", (("lawn", lawn),))


def tab() -> Message:
    """Season"""
    return Message("season_page.tab")


def head() -> Message:
    """The season"""
    return Message("season_page.head")


def begins() -> Message:
    """Main work begins"""
    return Message("season_page.begins")


def over() -> Message:
    """All done by"""
    return Message("season_page.over")


def days() -> Message:
    """Days with work"""
    return Message("season_page.days")


def hours() -> Message:
    """Hours of work in all"""
    return Message("season_page.hours")


def mix() -> Message:
    """Mix to order"""
    return Message("season_page.mix")


def water() -> Message:
    """Water in all"""
    return Message("season_page.water")


def stop() -> Message:
    """Before anything is ordered"""
    return Message("season_page.stop")


def why_not_sooner() -> Message:
    """Why not sooner?"""
    return Message("season_page.why_not_sooner")


def season_before(*, campaign: Message, reason: Message) -> Message:
    """{campaign}: {reason}"""
    return Message("season_page.season_before", (("campaign", campaign), ("reason", reason)))


def open_here(*, days: Days) -> Message:
    """Here that is {days}."""
    return Message("season_page.open_here", (("days", days),))


def nearest_day(*, best: str) -> Message:
    """The best day for it is {best}; this is the working day nearest to it."""
    return Message("season_page.nearest_day", (("best", best),))


def matter() -> Message:
    """The days that matter"""
    return Message("season_page.matter")


def strip() -> Message:
    """From the first day to the last"""
    return Message("season_page.strip")


def lane(*, name: str, days: str) -> Message:
    """{name}: {days}."""
    return Message("season_page.lane", (("name", name), ("days", days)))


def today() -> Message:
    """Today"""
    return Message("season_page.today")


def jobs() -> Message:
    """Every job, and why"""
    return Message("season_page.jobs")


def whole_lawn(*, amount: str) -> Message:
    """{amount} of nitrogen on the whole lawn"""
    return Message("season_page.whole_lawn", (("amount", amount),))


def how() -> Message:
    """How"""
    return Message("season_page.how")


def waterings() -> Message:
    """Every watering"""
    return Message("season_page.waterings")


def runs_alike(*, times: Listed, n: int) -> Message:
    """At {times}, {n} minutes each."""
    return Message("season_page.runs_alike", (("times", times), ("n", n)))


def runs_at(*, times: Listed, least: int, most: int) -> Message:
    """At {times}, {least} to {most} minutes each, as each week says."""
    return Message("season_page.runs_at", (("times", times), ("least", least), ("most", most)))


def runs_on(*, days: Listed) -> Message:
    """On {days}."""
    return Message("season_page.runs_on", (("days", days),))


def be_there() -> Message:
    """Somebody, or a timer, has to be there at each of these times, every day."""
    return Message("season_page.be_there")


def done() -> Message:
    """Done."""
    return Message("season_page.done")


def skipped() -> Message:
    """Left out."""
    return Message("season_page.skipped")


def dropped() -> Message:
    """No longer in the plan."""
    return Message("season_page.dropped")


def not_earlier() -> Message:
    """Why not earlier"""
    return Message("season_page.not_earlier")


def not_later() -> Message:
    """Why not later"""
    return Message("season_page.not_later")


def why_amount() -> Message:
    """Why this much"""
    return Message("season_page.why_amount")


def what_if() -> Message:
    """What if?"""
    return Message("season_page.what_if")


def what_if_say() -> Message:
    """Change one thing or several, and see what it does to the season. Nothing is changed before
    you keep it.
    """
    return Message("season_page.what_if_say")


def if_depth() -> Message:
    """How low it is on average"""
    return Message("season_page.if_depth")


def if_intent() -> Message:
    """What about the grass"""
    return Message("season_page.if_intent")


def if_start() -> Message:
    """Not before"""
    return Message("season_page.if_start")


def if_grass() -> Message:
    """The grass"""
    return Message("season_page.if_grass")


def if_people() -> Message:
    """How many people work"""
    return Message("season_page.if_people")


def show() -> Message:
    """Show what changes"""
    return Message("season_page.show")


def title_if(*, lawn: str) -> Message:
    """{lawn}: what if"""
    return Message("season_page.title_if", (("lawn", lawn),))


def now() -> Message:
    """Now"""
    return Message("season_page.now")


def then() -> Message:
    """Then"""
    return Message("season_page.then")


def none_changes() -> Message:
    """None of these six figures changes; days and jobs between them may."""
    return Message("season_page.none_changes")


def same() -> Message:
    """No change"""
    return Message("season_page.same")


def none() -> Message:
    """None"""
    return Message("season_page.none")


def keep() -> Message:
    """Change the plan to this"""
    return Message("season_page.keep")


def leave() -> Message:
    """Leave it as it is"""
    return Message("season_page.leave")


def no_plan() -> Message:
    """The season cannot be planned so"""
    return Message("season_page.no_plan")


def kept() -> Message:
    """It is kept, and the season planned with it."""
    return Message("season_page.kept")


def written_by_hand() -> Message:
    """The text of this lawn says this in a way that this page cannot change. Change the text
    itself.
    """
    return Message("season_page.written_by_hand")


def whole_number() -> Message:
    """Write how many people as a number from 1 to 50."""
    return Message("season_page.whole_number")


def ways_out() -> Message:
    """What else could be done"""
    return Message("season_page.ways_out")


def open() -> Message:
    """Still open, and it changes what is bought or sown"""
    return Message("season_page.open")


def answer_by(*, day: str, away: str) -> Message:
    """Answer by {day}, {away}"""
    return Message("season_page.answer_by", (("day", day), ("away", away)))


def it_changes(*, things: str) -> Message:
    """It changes: {things}."""
    return Message("season_page.it_changes", (("things", things),))


def ask_depth() -> Message:
    """How deep is the fill, on the mean of many places?"""
    return Message("season_page.ask_depth")


def ask_soil() -> Message:
    """Which soil does the lawn stand on?"""
    return Message("season_page.ask_soil")


def ask_grass() -> Message:
    """Which grass is it?"""
    return Message("season_page.ask_grass")


def ask_test() -> Message:
    """What does the soil test say?"""
    return Message("season_page.ask_test")


def ask_look() -> Message:
    """What does the look at the lawn show?"""
    return Message("season_page.ask_look")


def ask_order() -> Message:
    """May this be ordered as it stands?"""
    return Message("season_page.ask_order")


def answer() -> Message:
    """Write the answer into the lawn's text"""
    return Message("season_page.answer")


def see_way() -> Message:
    """See what changes"""
    return Message("season_page.see_way")


def way() -> Message:
    """The lawn's text then says"""
    return Message("season_page.way")
