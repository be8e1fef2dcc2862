"""Messages of `messages/en/journal.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message


def needs_zone() -> Message:
    """the time of an entry needs a zone"""
    return Message("journal.needs_zone")


def needs_task(*, kind: str) -> Message:
    """{kind} needs a task"""
    return Message("journal.needs_task", (("kind", kind),))


def needs_day(*, kind: str) -> Message:
    """{kind} needs the day it happened on"""
    return Message("journal.needs_day", (("kind", kind),))


def moved_needs_day() -> Message:
    """moved needs the day it moves to"""
    return Message("journal.moved_needs_day")


def booked_needs_day() -> Message:
    """booked needs the day it is booked for"""
    return Message("journal.booked_needs_day")


def measured_needs_value() -> Message:
    """measured needs a quantity and its value"""
    return Message("journal.measured_needs_value")


def note_needs_words() -> Message:
    """a note needs words"""
    return Message("journal.note_needs_words")


def undo_needs_number() -> Message:
    """undo needs the number of the entry it undoes"""
    return Message("journal.undo_needs_number")


def breaks(*, reasons: Listed) -> Message:
    """it cannot be on that day. {reasons}"""
    return Message("journal.breaks", (("reasons", reasons),))


def days_that_work(*, days: Listed) -> Message:
    """days that work: {days}"""
    return Message("journal.days_that_work", (("days", days),))


def no_day_works() -> Message:
    """no day near it was found that works, as the plan stands"""
    return Message("journal.no_day_works")


def day_is_over() -> Message:
    """lies before today, and a wish is for a day to come"""
    return Message("journal.day_is_over")


def not_movable() -> Message:
    """has no day of its own that could be wished otherwise"""
    return Message("journal.not_movable")


def closed() -> Message:
    """is done or left out already"""
    return Message("journal.closed")


def held_by(*, number: int) -> Message:
    """is held on its day by entry {number}, which goes before a booking"""
    return Message("journal.held_by", (("number", number),))


def undo_first() -> Message:
    """take that entry back first, with undo"""
    return Message("journal.undo_first")


def elsewhere() -> Message:
    """The rest of the plan puts it on another day."""
    return Message("journal.elsewhere")


def effect_unknown(*, reasons: Message) -> Message:
    """It is written; what it changes could not be worked out: {reasons}"""
    return Message("journal.effect_unknown", (("reasons", reasons),))


def damaged() -> Message:
    """is damaged"""
    return Message("journal.damaged")


def adopted(*, file: str, journal: str) -> Message:
    """The journal of an older version, {file}, is taken over into {journal}, and not read again."""
    return Message("journal.adopted", (("file", file), ("journal", journal)))


def not_adopted(*, file: str) -> Message:
    """{file} holds entries that the journal of this lawn does not, or cannot be read; it is not
    read any more.
    """
    return Message("journal.not_adopted", (("file", file),))


def fewer(*, n: int) -> Message:
    """holds {n} entries, fewer than the plan knows"""
    return Message("journal.fewer", (("n", n),))


def bring_back(*, folder: str) -> Message:
    """bring the journal back (`turfplan restore`), or make the plan in {folder} without what is
    missing by `turfplan plan --forget`
    """
    return Message("journal.bring_back", (("folder", folder),))


def mend_line() -> Message:
    """put the line right from a backup, or take it out"""
    return Message("journal.mend_line")


def newer() -> Message:
    """is whole, but not an entry that this version reads"""
    return Message("journal.newer")


def upgrade() -> Message:
    """upgrade turfplan: a newer one wrote it"""
    return Message("journal.upgrade")


def torn(*, file: str) -> Message:
    """{file}: the last line was cut off while it was written and is passed over"""
    return Message("journal.torn", (("file", file),))


def by_hand(*, file: str) -> Message:
    """{file}: the last line has no end and no valid checksum, as if it was written by hand: it is
    passed over; what happened is written with turfplan log
    """
    return Message("journal.by_hand", (("file", file),))


def put_aside(*, file: str, aside: str) -> Message:
    """{file}: its last line, which did not count, was kept in {aside}"""
    return Message("journal.put_aside", (("file", file), ("aside", aside)))


def one_number() -> Message:
    """holds two entries of one number"""
    return Message("journal.one_number")


def mend_file() -> Message:
    """put the file right from a backup"""
    return Message("journal.mend_file")


def no_plan() -> Message:
    """there is no plan yet to log against"""
    return Message("journal.no_plan")


def no_task() -> Message:
    """no such task"""
    return Message("journal.no_task")


def nothing_to_undo() -> Message:
    """there is nothing to undo"""
    return Message("journal.nothing_to_undo")


def not_standing() -> Message:
    """is not an entry that stands"""
    return Message("journal.not_standing")


def not_an_amount() -> Message:
    """is not a volume, mass or area"""
    return Message("journal.not_an_amount")


def for_example() -> Message:
    """for example \"3 yd3\", \"2 m3\", \"40 lb\""""
    return Message("journal.for_example")


def not_known() -> Message:
    """is not known"""
    return Message("journal.not_known")
