"""Messages of `messages/en/changes.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Clock, Day, Days, Listed, Message, Number


def because_new() -> Message:
    """It is new in the plan."""
    return Message("changes.because.new")


def because_back() -> Message:
    """It is back in the plan."""
    return Message("changes.because.back")


def because_not_needed() -> Message:
    """The plan no longer needs it."""
    return Message("changes.because.not_needed")


def because_skipped() -> Message:
    """It was skipped."""
    return Message("changes.because.skipped")


def because_done() -> Message:
    """It is done."""
    return Message("changes.because.done")


def because_part_done(*, share: Number) -> Message:
    """{share} of it is done."""
    return Message("changes.because.part_done", (("share", share),))


def because_by_hand() -> Message:
    """It was moved by hand."""
    return Message("changes.because.by_hand")


def because_booked() -> Message:
    """It was booked for this day."""
    return Message("changes.because.booked")


def because_rained_off() -> Message:
    """It was rained off."""
    return Message("changes.because.rained_off")


def because_refused() -> Message:
    """The load was refused."""
    return Message("changes.because.refused")


def because_fresh_plants() -> Message:
    """Cut plants keep for a day or two: what is left is ordered and brought fresh."""
    return Message("changes.because.fresh_plants")


def because_rest_of_fill() -> Message:
    """What was spread so far leaves it more, or less, than was planned for it."""
    return Message("changes.because.rest_of_fill")


def because_taken_back() -> Message:
    """What was written of it was taken back."""
    return Message("changes.because.taken_back")


def because_not_done() -> Message:
    """It was not done on its day."""
    return Message("changes.because.not_done")


def because_no_day_left(*, reason: Message) -> Message:
    """After what has happened no day is left for it. {reason}"""
    return Message("changes.because.no_day_left", (("reason", reason),))


def because_forecast(*, day: Day) -> Message:
    """Rain is forecast: {day} will be too wet."""
    return Message("changes.because.forecast", (("day", day),))


def because_follows() -> Message:
    """Other work has moved, and this goes with it."""
    return Message("changes.because.follows")


def because_shared_anew() -> Message:
    """The feedings share the year's nitrogen: one of them, or the work between them, has another
    day, or another amount.
    """
    return Message("changes.because.shared_anew")


def because_other_amounts() -> Message:
    """The amounts follow what was asked for or what was used."""
    return Message("changes.because.other_amounts")


def because_other_water() -> Message:
    """Watering follows the work and the weather."""
    return Message("changes.because.other_water")


def because_other_reader() -> Message:
    """The language, the units or the country have changed; no day has."""
    return Message("changes.because.other_reader")


def because_reworded() -> Message:
    """It is told in other words."""
    return Message("changes.because.reworded")


def ended_early(*, because: Message) -> Message:
    """It ended early. {because}"""
    return Message("changes.ended_early", (("because", because),))


def was(*, before: Message, because: Message) -> Message:
    """was {before}. {because}"""
    return Message("changes.was", (("before", before), ("because", because)))


def no_run(*, days: Listed, because: Message) -> Message:
    """no run on {days}. {because}"""
    return Message("changes.no_run", (("days", days), ("because", because)))


def days(*, days: Days) -> Message:
    """{days}"""
    return Message("changes.days", (("days", days),))


def amounts(*, amounts: Listed) -> Message:
    """{amounts}"""
    return Message("changes.amounts", (("amounts", amounts),))


def cancelled(*, title: Message) -> Message:
    """Cancelled: {title}"""
    return Message("changes.cancelled", (("title", title),))


def runs_daily(*, minutes: int, clock: Clock, days: Days) -> Message:
    """{minutes} min at {clock}, {days}"""
    return Message("changes.runs.daily", (("minutes", minutes), ("clock", clock), ("days", days)))


def runs_weekdays(*, minutes: int, clock: Clock, weekdays: Listed, days: Days) -> Message:
    """{minutes} min at {clock} on {weekdays}, {days}"""
    return Message(
        "changes.runs.weekdays",
        (("minutes", minutes), ("clock", clock), ("weekdays", weekdays), ("days", days)),
    )


def runs_daily_but(*, minutes: int, clock: Clock, days: Days, skipped: Listed) -> Message:
    """{minutes} min at {clock}, {days}, not on {skipped}"""
    return Message(
        "changes.runs.daily_but",
        (("minutes", minutes), ("clock", clock), ("days", days), ("skipped", skipped)),
    )


def runs_weekdays_but(
    *, minutes: int, clock: Clock, weekdays: Listed, days: Days, skipped: Listed
) -> Message:
    """{minutes} min at {clock} on {weekdays}, {days}, not on {skipped}"""
    return Message(
        "changes.runs.weekdays_but",
        (
            ("minutes", minutes),
            ("clock", clock),
            ("weekdays", weekdays),
            ("days", days),
            ("skipped", skipped),
        ),
    )


def kind_moved() -> Message:
    """Moved to other days"""
    return Message("changes.kind.moved")


def kind_added() -> Message:
    """New"""
    return Message("changes.kind.added")


def kind_dropped() -> Message:
    """No longer needed"""
    return Message("changes.kind.dropped")


def kind_amount() -> Message:
    """Other amounts"""
    return Message("changes.kind.amount")


def kind_done() -> Message:
    """Done"""
    return Message("changes.kind.done")


def kind_skipped() -> Message:
    """Skipped"""
    return Message("changes.kind.skipped")


def kind_reworded() -> Message:
    """Said differently"""
    return Message("changes.kind.reworded")


def whole_plan() -> Message:
    """The whole plan"""
    return Message("changes.whole_plan")


def other_lawn() -> Message:
    """is not the lawn of the plan before"""
    return Message("changes.other_lawn")
