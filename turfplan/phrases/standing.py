"""Messages of `messages/en/standing.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Days, Listed, Message, Number


def no_lawn() -> Message:
    """is no lawn of this data folder"""
    return Message("standing.no_lawn")


def name_lawns() -> Message:
    """name lawns, or a group with --group COLUMN=VALUE"""
    return Message("standing.name_lawns")


def one_thing() -> Message:
    """say one thing: what is new, --over, or --undo NAME"""
    return Message("standing.one_thing")


def paused_open(*, client: str, start: Day) -> Message:
    """{client}: paused from {start} until you say --over"""
    return Message("standing.paused_open", (("client", client), ("start", start)))


def paused(*, client: str, days: Days) -> Message:
    """{client}: paused {days}"""
    return Message("standing.paused", (("client", client), ("days", days)))


def is_paused(*, client: str, day: Day) -> Message:
    """Paused until {day}: {client}"""
    return Message("standing.is_paused", (("client", client), ("day", day)))


def is_paused_open(*, client: str) -> Message:
    """Paused until you say --over: {client}"""
    return Message("standing.is_paused_open", (("client", client),))


def state_paused(*, day: Day) -> Message:
    """paused until {day}"""
    return Message("standing.state_paused", (("day", day),))


def state_paused_open() -> Message:
    """paused"""
    return Message("standing.state_paused_open")


def already_paused(*, day: str) -> Message:
    """is paused already, until {day}"""
    return Message("standing.already_paused", (("day", day),))


def no_end() -> Message:
    """further notice"""
    return Message("standing.no_end")


def not_paused() -> Message:
    """is not paused"""
    return Message("standing.not_paused")


def ends_first(*, start: str, end: str) -> Message:
    """ends on {end}, before it begins on {start}"""
    return Message("standing.ends_first", (("start", start), ("end", end)))


def pause_is_over(*, end: str) -> Message:
    """is over since {end}"""
    return Message("standing.pause_is_over", (("end", end),))


def pause_is_far(*, start: str) -> Message:
    """begins on {start}, more than a year from now"""
    return Message("standing.pause_is_far", (("start", start),))


def keep() -> Message:
    """--yes writes it all the same"""
    return Message("standing.keep")


def pauses_written(*, n: int) -> Message:
    """{n} lawns: no plan, no jobs, no material and no messages meanwhile."""
    return Message("standing.pauses_written", (("n", n),))


def pauses_over(*, n: int, command: str) -> Message:
    """{n} pauses are over: {command}"""
    return Message("standing.pauses_over", (("n", n), ("command", command)))


def would_be(*, n: int) -> Message:
    """Nothing was written: it would be {n} lawns."""
    return Message("standing.would_be", (("n", n),))


def taken_back(*, n: int) -> Message:
    """Taken back at {n} lawns."""
    return Message("standing.taken_back", (("n", n),))


def no_such_call() -> Message:
    """no such call stands; its name is told when it is written"""
    return Message("standing.no_such_call")


def one_rule() -> Message:
    """say --ban FROM..TO, --permit yes or --permit no, or --undo NAME"""
    return Message("standing.one_rule")


def one_place() -> Message:
    """say --group or --place, not both"""
    return Message("standing.one_place")


def not_a_ban() -> Message:
    """is no span of days"""
    return Message("standing.not_a_ban")


def such_a_ban() -> Message:
    """two dates such as 2027-06-15..2027-08-31"""
    return Message("standing.such_a_ban")


def not_a_place() -> Message:
    """is no part of a place"""
    return Message("standing.not_a_place")


def such_a_place(*, keys: str) -> Message:
    """KEY=VALUE with one of {keys}, such as postal_code=17601"""
    return Message("standing.such_a_place", (("keys", keys),))


def nobody_there() -> Message:
    """no lawn's brief says so"""
    return Message("standing.nobody_there")


def known_rule() -> Message:
    """holds already"""
    return Message("standing.known_rule")


def rule_ban(*, days: Days) -> Message:
    """no watering {days}"""
    return Message("standing.rule_ban", (("days", days),))


def rule_permit() -> Message:
    """a watering permit can be had"""
    return Message("standing.rule_permit")


def rule_no_permit() -> Message:
    """no watering permit can be had"""
    return Message("standing.rule_no_permit")


def rule_for_all() -> Message:
    """all lawns"""
    return Message("standing.rule_for_all")


def rule_line(*, name: str, who: str, rule: Listed) -> Message:
    """{name}  {who}: {rule}"""
    return Message("standing.rule_line", (("name", name), ("who", who), ("rule", rule)))


def rule_written(*, n: int, who: str, rule: Listed) -> Message:
    """{who}, {n} lawns now: {rule}"""
    return Message("standing.rule_written", (("n", n), ("who", who), ("rule", rule)))


def no_rules() -> Message:
    """No rule is written."""
    return Message("standing.no_rules")


def rule_ended() -> Message:
    """The rule holds no more."""
    return Message("standing.rule_ended")


def left(*, client: str, file: str) -> Message:
    """{client} has left: in the archive, its addresses have ended, its lawn is in {file}"""
    return Message("standing.left", (("client", client), ("file", file)))


def would_leave(*, client: str) -> Message:
    """Nothing was written: {client} would go into the archive, its addresses would end."""
    return Message("standing.would_leave", (("client", client),))


def is_back(*, client: str) -> Message:
    """{client} is back; a new letter gives its client a new address."""
    return Message("standing.is_back", (("client", client),))


def never_left() -> Message:
    """is not in the archive as one whose client has left"""
    return Message("standing.never_left")


def place_taken() -> Message:
    """another lawn of that name is here by now"""
    return Message("standing.place_taken")


def state_left(*, day: Day) -> Message:
    """its client left on {day}"""
    return Message("standing.state_left", (("day", day),))


def sold(*, lawn: str, name: str, file: str) -> Message:
    """{lawn} now belongs to {name}: addresses have ended, the lawn's history stays, handed over in
    {file}
    """
    return Message("standing.sold", (("lawn", lawn), ("name", name), ("file", file)))


def would_sell(*, lawn: str, name: str) -> Message:
    """Nothing was written: {lawn} would belong to {name}, its addresses would end."""
    return Message("standing.would_sell", (("lawn", lawn), ("name", name)))


def unsold(*, lawn: str, name: str) -> Message:
    """{lawn} belongs to {name} again; a new letter gives a new address."""
    return Message("standing.unsold", (("lawn", lawn), ("name", name)))


def new_name() -> Message:
    """say with --name who has the lawn now"""
    return Message("standing.new_name")


def never_sold() -> Message:
    """was not sold"""
    return Message("standing.never_sold")


def no_such_column() -> Message:
    """is no column of this client"""
    return Message("standing.no_such_column")


def callback_text() -> Message:
    """say what the client called back for"""
    return Message("standing.callback_text")


def callback_day() -> Message:
    """say with --on on which day somebody goes there"""
    return Message("standing.callback_day")


def callback_added(*, lawn: str, number: int, text: str, day: Day) -> Message:
    """{lawn}: callback {number} on {day}: {text}"""
    return Message(
        "standing.callback_added",
        (("lawn", lawn), ("number", number), ("text", text), ("day", day)),
    )


def callback_done(*, lawn: str, number: int, day: Day) -> Message:
    """{lawn}: callback {number} was done on {day}"""
    return Message("standing.callback_done", (("lawn", lawn), ("number", number), ("day", day)))


def callback_dropped(*, lawn: str, number: int) -> Message:
    """{lawn}: callback {number} falls away"""
    return Message("standing.callback_dropped", (("lawn", lawn), ("number", number)))


def callback_moved(*, lawn: str, number: int, day: Day) -> Message:
    """{lawn}: callback {number} is on {day}"""
    return Message("standing.callback_moved", (("lawn", lawn), ("number", number), ("day", day)))


def callback_reopened(*, lawn: str, number: int) -> Message:
    """{lawn}: callback {number} is open again"""
    return Message("standing.callback_reopened", (("lawn", lawn), ("number", number)))


def callback_title(*, text: str) -> Message:
    """Callback: {text}"""
    return Message("standing.callback_title", (("text", text),))


def callback_number() -> Message:
    """say the number of the callback"""
    return Message("standing.callback_number")


def no_callback() -> Message:
    """is no callback of this lawn"""
    return Message("standing.no_callback")


def callback_open() -> Message:
    """is still open"""
    return Message("standing.callback_open")


def callback_over() -> Message:
    """is over already"""
    return Message("standing.callback_over")


def day_over() -> Message:
    """is a day that is over"""
    return Message("standing.day_over")


def day_to_come() -> Message:
    """is a day to come"""
    return Message("standing.day_to_come")


def no_callbacks() -> Message:
    """Nobody waits for a callback."""
    return Message("standing.no_callbacks")


def is_paused_then() -> Message:
    """the lawn is paused on that day"""
    return Message("standing.is_paused_then")


def head_job() -> Message:
    """job"""
    return Message("standing.head_job")


def head_jobs() -> Message:
    """jobs"""
    return Message("standing.head_jobs")


def head_quoted() -> Message:
    """quoted h"""
    return Message("standing.head_quoted")


def head_used() -> Message:
    """used h"""
    return Message("standing.head_used")


def head_times() -> Message:
    """times"""
    return Message("standing.head_times")


def head_spread() -> Message:
    """least to most"""
    return Message("standing.head_spread")


def hours_missing(*, n: int) -> Message:
    """{n} jobs are done and nobody wrote their hours down."""
    return Message("standing.hours_missing", (("n", n),))


def no_hours() -> Message:
    """Nobody has written hours down: `clients log` takes a column `hours`."""
    return Message("standing.no_hours")


def rates_follow(*, least: int) -> Message:
    """For business.toml, by {least} jobs and more each:"""
    return Message("standing.rates_follow", (("least", least),))


def too_few_hours(*, least: int) -> Message:
    """No rate is proposed: that takes hours of {least} jobs of a kind."""
    return Message("standing.too_few_hours", (("least", least),))


def rate_note(*, factor: Number, n: int) -> Message:
    """{n} jobs; {factor} until now"""
    return Message("standing.rate_note", (("factor", factor), ("n", n)))


def record_title(*, title: str) -> Message:
    """What was spread and sprayed: {title}"""
    return Message("standing.record.title", (("title", title),))


def record_description() -> Message:
    """Each time that something was spread or sprayed on a lawn: product, amount, area, day, wind,
    who
    """
    return Message("standing.record.description")


def record_day() -> Message:
    """Day"""
    return Message("standing.record.day")


def record_lawn() -> Message:
    """Client and lawn"""
    return Message("standing.record.lawn")


def record_product() -> Message:
    """Work and product"""
    return Message("standing.record.product")


def record_amount() -> Message:
    """Amount"""
    return Message("standing.record.amount")


def record_area() -> Message:
    """Area"""
    return Message("standing.record.area")


def record_who() -> Message:
    """Who, license"""
    return Message("standing.record.who")


def record_wind() -> Message:
    """Wind, note"""
    return Message("standing.record.wind")


def record_not_said() -> Message:
    """not said"""
    return Message("standing.record.not_said")


def record_nothing() -> Message:
    """Nothing was spread."""
    return Message("standing.record.nothing")


def record_counted(*, n: int, unnamed: int) -> Message:
    """{n} times; without a product: {unnamed}."""
    return Message("standing.record.counted", (("n", n), ("unnamed", unnamed)))


def record_made(*, day: str) -> Message:
    """Made on {day}."""
    return Message("standing.record.made", (("day", day),))
