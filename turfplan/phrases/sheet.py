"""Messages of `messages/en/sheet.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def unnamed() -> Message:
    """Lawn"""
    return Message("sheet.unnamed")


def skip_to_sheet() -> Message:
    """Skip to the sheet"""
    return Message("sheet.skip_to_sheet")


def made_from(*, day: str, revision: int) -> Message:
    """Made {day} from revision {revision} of the plan. If the calendar shows another day, the
    calendar is newer: print again. Local rules, product labels and licensed practice come first.
    """
    return Message("sheet.made_from", (("day", day), ("revision", revision)))


def impossible() -> Message:
    """This plan cannot be done as asked."""
    return Message("sheet.impossible")


def what_would_work() -> Message:
    """What would work"""
    return Message("sheet.what_would_work")


def what_would_spare_it() -> Message:
    """What would spare the wait"""
    return Message("sheet.what_would_spare_it")


def used() -> Message:
    """used"""
    return Message("sheet.used")


def caution() -> Message:
    """Caution"""
    return Message("sheet.caution")


def only_if() -> Message:
    """Only if:"""
    return Message("sheet.only_if")


def if_not() -> Message:
    """If not:"""
    return Message("sheet.if_not")


def next_day() -> Message:
    """Next day for it:"""
    return Message("sheet.next_day")


def about(*, hours: str) -> Message:
    """about {hours}"""
    return Message("sheet.about", (("hours", hours),))


def phase_prepare_name() -> Message:
    """Prepare"""
    return Message("sheet.phase.prepare.name")


def phase_prepare_letter() -> Message:
    """P"""
    return Message("sheet.phase.prepare.letter")


def phase_surface_name() -> Message:
    """Open the turf"""
    return Message("sheet.phase.surface.name")


def phase_surface_letter() -> Message:
    """O"""
    return Message("sheet.phase.surface.letter")


def phase_level_name() -> Message:
    """Level"""
    return Message("sheet.phase.level.name")


def phase_level_letter() -> Message:
    """L"""
    return Message("sheet.phase.level.letter")


def phase_seed_name() -> Message:
    """Seed"""
    return Message("sheet.phase.seed.name")


def phase_seed_letter() -> Message:
    """S"""
    return Message("sheet.phase.seed.letter")


def phase_care_name() -> Message:
    """Care"""
    return Message("sheet.phase.care.name")


def phase_care_letter() -> Message:
    """C"""
    return Message("sheet.phase.care.letter")


def phase_finish_name() -> Message:
    """Finish"""
    return Message("sheet.phase.finish.name")


def phase_finish_letter() -> Message:
    """F"""
    return Message("sheet.phase.finish.letter")


def hours_minutes() -> Message:
    """10 minutes"""
    return Message("sheet.hours.minutes")


def hours_quarter() -> Message:
    """a quarter of an hour"""
    return Message("sheet.hours.quarter")


def hours_half() -> Message:
    """half an hour"""
    return Message("sheet.hours.half")


def hours_whole(*, n: int) -> Message:
    """{n} hours"""
    return Message("sheet.hours.whole", (("n", n),))


def hours_and_half(*, n: int) -> Message:
    """{n} 1/2 hours"""
    return Message("sheet.hours.and_half", (("n", n),))


def hours_for_people(*, hours: Message, n: int) -> Message:
    """{hours} for {n} people"""
    return Message("sheet.hours.for_people", (("hours", hours), ("n", n)))


def hours_of_work(*, hours: Message) -> Message:
    """{hours} of work"""
    return Message("sheet.hours.of_work", (("hours", hours),))


def printed_revision(*, number: int) -> Message:
    """Revision {number} of the plan."""
    return Message("sheet.printed_revision", (("number", number),))
