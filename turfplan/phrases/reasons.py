"""Messages of `messages/en/reasons.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Listed, Message


def nearest_day() -> Message:
    """It is the working day nearest to its best one."""
    return Message("reasons.nearest_day")


def first_day() -> Message:
    """It is the first day on which it can be done."""
    return Message("reasons.first_day")


def last_day() -> Message:
    """It is the last day on which it can be done."""
    return Message("reasons.last_day")


def on_best_day(*, task: Message) -> Message:
    """“{task}” is on its best day."""
    return Message("reasons.on_best_day", (("task", task),))


def hangs_on(*, reason: Message, task: Message) -> Message:
    """{reason} (It hangs on “{task}”.)"""
    return Message("reasons.hangs_on", (("reason", reason), ("task", task)))


def before_is_done() -> Message:
    """What it hangs on is done."""
    return Message("reasons.before_is_done")


def plan_starts() -> Message:
    """The plan starts then."""
    return Message("reasons.plan_starts")


def plan_ends() -> Message:
    """The plan ends then."""
    return Message("reasons.plan_ends")


def earlier_in_time_for(*, task: Message) -> Message:
    """Earlier brings nothing: this day is in good time for “{task}”."""
    return Message("reasons.earlier.in_time_for", (("task", task),))


def earlier_distance_from(*, task: Message) -> Message:
    """Earlier brings nothing: this day is at the right distance from “{task}”."""
    return Message("reasons.earlier.distance_from", (("task", task),))


def earlier_with(*, task: Message) -> Message:
    """Earlier brings nothing: this day is with “{task}”."""
    return Message("reasons.earlier.with", (("task", task),))


def earlier_best() -> Message:
    """It is the best day of its window; earlier is possible but not better."""
    return Message("reasons.earlier.best")


def later_too_little(*, task: Message) -> Message:
    """Later would leave too little time before “{task}”."""
    return Message("reasons.later.too_little", (("task", task),))


def later_keeps_step(*, task: Message) -> Message:
    """Later is possible; this day keeps step with “{task}”."""
    return Message("reasons.later.keeps_step", (("task", task),))


def later_less_time() -> Message:
    """Later is possible inside its window, but leaves less time after it."""
    return Message("reasons.later.less_time")


def conflict(*, tasks: Listed, reason: Message) -> Message:
    """{tasks}: {reason}"""
    return Message("reasons.conflict", (("tasks", tasks), ("reason", reason)))


def too_few_days() -> Message:
    """The days of the plan are too few for the work."""
    return Message("reasons.too_few_days")


def breaks_practice() -> Message:
    """It would break a rule of good practice."""
    return Message("reasons.breaks_practice")


def promise_kept(*, day: Day, promised: Day, n: int) -> Message:
    """Planned anew from today it would come first, and end on {day}. What was promised ends on
    {promised}, and is kept: else {n} days of work would move.
    """
    return Message("reasons.promise_kept", (("day", day), ("promised", promised), ("n", n)))


def fill_kept(*, day: Day, promised: Day) -> Message:
    """Planned anew from today it would come first, and end on {day}, without the rest of the fill.
    That fill was promised by {promised}, and is kept.
    """
    return Message("reasons.fill_kept", (("day", day), ("promised", promised)))


def against_advice() -> Message:
    """It would go against advice."""
    return Message("reasons.against_advice")


def run_out(*, day: Day, reason: Message) -> Message:
    """It comes later than it should after what was done on {day}; where that has run out, have it
    done again first. {reason}
    """
    return Message("reasons.run_out", (("day", day), ("reason", reason)))


def old_heap(*, day: Day, reason: Message) -> Message:
    """The mix has lain since {day}, longer than it should before this: look at it again shortly
    before, and dry what is damp. {reason}
    """
    return Message("reasons.old_heap", (("day", day), ("reason", reason)))


def late_after(*, day: Day, reason: Message) -> Message:
    """It comes later than it should after what was done on {day}; where that has run out, have it
    done again first. {reason}
    """
    return Message("reasons.late_after", (("day", day), ("reason", reason)))


def late_for_rest(*, day: Day, reason: Message) -> Message:
    """It comes later than it should after what was done on {day}: on the part that is still to be
    sown open the crust and pull the weeds by hand just before, and leave what has come up as it is.
    {reason}
    """
    return Message("reasons.late_for_rest", (("day", day), ("reason", reason)))


def run_out_untold(*, day: Day, reason: Message) -> Message:
    """It comes later than it should after what was planned for {day}; where that has run out, or
    was never done, have it done first. {reason}
    """
    return Message("reasons.run_out.untold", (("day", day), ("reason", reason)))


def follows(*, task: Message) -> Message:
    """It follows “{task}”."""
    return Message("reasons.follows", (("task", task),))


def begins_with_plan() -> Message:
    """It begins with the plan."""
    return Message("reasons.begins_with_plan")
