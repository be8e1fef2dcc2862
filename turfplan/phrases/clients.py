"""Messages of `messages/en/clients.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Listed, Message, Number


def rows(*, n: int) -> Message:
    """{n} rows:"""
    return Message("clients.rows", (("n", n),))


def new(*, n: int) -> Message:
    """{n} new"""
    return Message("clients.new", (("n", n),))


def changed(*, n: int) -> Message:
    """{n} changed"""
    return Message("clients.changed", (("n", n),))


def unchanged(*, n: int) -> Message:
    """{n} as before"""
    return Message("clients.unchanged", (("n", n),))


def back(*, n: int) -> Message:
    """{n} back from the archive"""
    return Message("clients.back", (("n", n),))


def left(*, n: int) -> Message:
    """{n} stay in the archive: their clients have left"""
    return Message("clients.left", (("n", n),))


def bad(*, n: int) -> Message:
    """{n} held back"""
    return Message("clients.bad", (("n", n),))


def counted(*, rows: Message, states: Listed) -> Message:
    """{rows} {states}"""
    return Message("clients.counted", (("rows", rows), ("states", states)))


def of_state(*, state: Message, clients: Listed) -> Message:
    """{state}: {clients}"""
    return Message("clients.of_state", (("state", state), ("clients", clients)))


def nothing_written() -> Message:
    """Nothing was written."""
    return Message("clients.nothing_written")


def take_good() -> Message:
    """Nothing was written: mend these rows, or bring in the others with --only-good."""
    return Message("clients.take_good")


def gone(*, n: int) -> Message:
    """{n} lawns are no longer in the file"""
    return Message("clients.gone", (("n", n),))


def archived(*, n: int) -> Message:
    """{n} lawns archived; their addresses have ended"""
    return Message("clients.archived", (("n", n),))


def exported(*, n: int, file: str) -> Message:
    """{n} clients written to {file}"""
    return Message("clients.exported", (("n", n), ("file", file)))


def and_more(*, n: int) -> Message:
    """{n} more"""
    return Message("clients.and_more", (("n", n),))


def fault(*, what: str) -> Message:
    """a fault of this program: {what}"""
    return Message("clients.fault", (("what", what),))


def process_ended() -> Message:
    """the process that planned it was ended twice, by the system or by hand; the others went on"""
    return Message("clients.process_ended")


def moved(*, title: str, before: str, after: str) -> Message:
    """{title}: {before}, now {after}"""
    return Message("clients.moved", (("title", title), ("before", before), ("after", after)))


def other_change(*, title: str, kind: str) -> Message:
    """{title} ({kind})"""
    return Message("clients.other_change", (("title", title), ("kind", kind)))


def plans_stand() -> Message:
    """All plans stand as they were made; close the file or make room, and run the command again."""
    return Message("clients.plans_stand")


def changes_of(*, client: str, changes: Listed) -> Message:
    """changed: {client}: {changes}"""
    return Message("clients.changes_of", (("client", client), ("changes", changes)))


def fault_of(*, client: str, fault: str) -> Message:
    """error: {client}: {fault}"""
    return Message("clients.fault_of", (("client", client), ("fault", fault)))


def overdue(*, n: int, jobs: int, command: str) -> Message:
    """Overdue at {n} lawns; jobs: {jobs}. {command}"""
    return Message("clients.overdue", (("n", n), ("jobs", jobs), ("command", command)))


def near_last(*, n: int, days: int, command: str) -> Message:
    """{n} lawns have a job whose last safe day is within {days} days. {command}"""
    return Message("clients.near_last", (("n", n), ("days", days), ("command", command)))


def stopped(*, n: int) -> Message:
    """Stopped: {n} plans stand as they were made. The same command goes on from there."""
    return Message("clients.stopped", (("n", n),))


def is_paused() -> Message:
    """paused"""
    return Message("clients.is_paused")


def has_left() -> Message:
    """left"""
    return Message("clients.has_left")


def is_fault() -> Message:
    """fault"""
    return Message("clients.is_fault")


def output_needed() -> Message:
    """say with -o DIR into which data folder a file is brought"""
    return Message("clients.output_needed")


def without_plan(*, n: int) -> Message:
    """{n} lawns have no plan and are not in the list."""
    return Message("clients.without_plan", (("n", n),))


def hours_of_day(*, day: Day, needed: Number, there: Number) -> Message:
    """{day}: {needed} hours of work, {there} there"""
    return Message("clients.hours_of_day", (("day", day), ("needed", needed), ("there", there)))


def hours_over(*, day: Day, needed: Number, there: Number, over: Number) -> Message:
    """{day}: {needed} hours of work, {there} there: {over} too many"""
    return Message(
        "clients.hours_over", (("day", day), ("needed", needed), ("there", there), ("over", over))
    )


def hours_needed(*, day: Day, needed: Number) -> Message:
    """{day}: {needed} hours of work; no [[crew]] in business.toml says how many are there"""
    return Message("clients.hours_needed", (("day", day), ("needed", needed)))


def no_jobs() -> Message:
    """No lawn has such work."""
    return Message("clients.no_jobs")


def head_lawn() -> Message:
    """lawn"""
    return Message("clients.head_lawn")


def head_name() -> Message:
    """client"""
    return Message("clients.head_name")


def head_days() -> Message:
    """days"""
    return Message("clients.head_days")


def head_job() -> Message:
    """job"""
    return Message("clients.head_job")


def head_hours() -> Message:
    """hours"""
    return Message("clients.head_hours")


def head_alone() -> Message:
    """alone until"""
    return Message("clients.head_alone")


def head_last() -> Message:
    """last safe day"""
    return Message("clients.head_last")


def one_list() -> Message:
    """ask for one list: --on, --week, --overdue, --last-days or --quotes"""
    return Message("clients.one_list")


def not_a_day() -> Message:
    """is not a day"""
    return Message("clients.not_a_day")


def such_a_day() -> Message:
    """a date such as 2027-09-06, or this"""
    return Message("clients.such_a_day")


def crew_title(*, title: str) -> Message:
    """Work of {title}"""
    return Message("clients.crew.title", (("title", title),))


def crew_description(*, title: str) -> Message:
    """The lawns that are due, with their jobs, amounts and access: {title}"""
    return Message("clients.crew.description", (("title", title),))


def crew_how_title() -> Message:
    """How each job is done"""
    return Message("clients.crew.how_title")


def crew_how_of(*, letter: str) -> Message:
    """steps {letter}, above"""
    return Message("clients.crew.how_of", (("letter", letter),))


def crew_hours() -> Message:
    """Hours"""
    return Message("clients.crew.hours")


def crew_day() -> Message:
    """Day"""
    return Message("clients.crew.day")


def crew_needed() -> Message:
    """Needed"""
    return Message("clients.crew.needed")


def crew_there() -> Message:
    """There"""
    return Message("clients.crew.there")


def crew_over() -> Message:
    """Too many"""
    return Message("clients.crew.over")


def crew_access() -> Message:
    """Access"""
    return Message("clients.crew.access")


def crew_telephone() -> Message:
    """Telephone"""
    return Message("clients.crew.telephone")


def crew_job_hours(*, hours: str) -> Message:
    """{hours} hours in all"""
    return Message("clients.crew.job_hours", (("hours", hours),))


def crew_last(*, day: str) -> Message:
    """can begin until {day}"""
    return Message("clients.crew.last", (("day", day),))


def crew_nothing() -> Message:
    """No lawn is due."""
    return Message("clients.crew.nothing")


def crew_private() -> Message:
    """Holds addresses and ways in: for this crew alone, and back to the office at night."""
    return Message("clients.crew.private")


def crew_made(*, made: str) -> Message:
    """Made {made} from the plans as they stood; hours are estimates."""
    return Message("clients.crew.made", (("made", made),))


def crew_everywhere() -> Message:
    """At most of these lawns"""
    return Message("clients.crew.everywhere")


def no_column(*, column: str) -> Message:
    """has no column {column}"""
    return Message("clients.no_column", (("column", column),))


def no_lawn() -> Message:
    """is no lawn of this data folder"""
    return Message("clients.no_lawn")


def no_kind() -> Message:
    """is nothing that a file can say of a task"""
    return Message("clients.no_kind")


def not_hours() -> Message:
    """is no number of hours"""
    return Message("clients.not_hours")


def no_job_of_day() -> Message:
    """is no job of that day, and no lawn that has one"""
    return Message("clients.no_job_of_day")


def not_planned() -> Message:
    """has no plan yet"""
    return Message("clients.not_planned")


def no_task() -> Message:
    """is no task of its plan"""
    return Message("clients.no_task")


def no_batch() -> Message:
    """no entry of such a name stands"""
    return Message("clients.no_batch")


def goes_on(*, client: str, task: str) -> Message:
    """{client}: {task} goes on after that day and was not taken as done"""
    return Message("clients.goes_on", (("client", client), ("task", task)))


def logged(*, n: int, lawns: int) -> Message:
    """{n} entries written; lawns: {lawns}"""
    return Message("clients.logged", (("n", n), ("lawns", lawns)))


def stood(*, n: int) -> Message:
    """{n} entries stood already"""
    return Message("clients.stood", (("n", n),))


def taken_back(*, n: int, lawns: int) -> Message:
    """{n} entries taken back; lawns: {lawns}"""
    return Message("clients.taken_back", (("n", n), ("lawns", lawns)))


def take_back(*, command: str) -> Message:
    """Taken back in one line: {command}"""
    return Message("clients.take_back", (("command", command),))


def plan_again(*, command: str) -> Message:
    """Plan again what has news: {command}"""
    return Message("clients.plan_again", (("command", command),))


def one_log() -> Message:
    """say either a FILE.csv, or --on DAY with --all, or --undo NAME"""
    return Message("clients.one_log")


def recorded(*, n: int, unnamed: int, file: str) -> Message:
    """{n} entries in {file}; without a product: {unnamed}"""
    return Message("clients.recorded", (("n", n), ("unnamed", unnamed), ("file", file)))
