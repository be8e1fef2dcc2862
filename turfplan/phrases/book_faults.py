"""Messages of `messages/en/book_faults.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message, Number


def unknown_region() -> Message:
    """unknown region"""
    return Message("book_faults.unknown_region")


def twice() -> Message:
    """is in the book twice"""
    return Message("book_faults.twice")


def not_fact() -> Message:
    """is not a fact"""
    return Message("book_faults.not_fact")


def unknown_fact() -> Message:
    """is a fact that the schema does not know"""
    return Message("book_faults.unknown_fact")


def unknown_word() -> Message:
    """unknown word"""
    return Message("book_faults.unknown_word")


def id_twice() -> Message:
    """the id is used twice"""
    return Message("book_faults.id_twice")


def changes_unknown() -> Message:
    """changes a fact that the book does not have"""
    return Message("book_faults.changes_unknown")


def unread() -> Message:
    """is read by nothing"""
    return Message("book_faults.unread")


def one_winter_cover() -> Message:
    """one grass, and only one, is the winter cover"""
    return Message("book_faults.one_winter_cover")


def names_no_fact() -> Message:
    """names a fact that the book does not have"""
    return Message("book_faults.names_no_fact")


def names_other_dimension(*, dimension: str) -> Message:
    """names a fact in a unit of {dimension}"""
    return Message("book_faults.names_other_dimension", (("dimension", dimension),))


def fact_of(*, dimensions: Listed) -> Message:
    """a fact of {dimensions}"""
    return Message("book_faults.fact_of", (("dimensions", dimensions),))


def names_caution() -> Message:
    """names an unknown caution"""
    return Message("book_faults.names.caution")


def names_grass() -> Message:
    """names an unknown grass"""
    return Message("book_faults.names.grass")


def names_mix() -> Message:
    """names an unknown mix"""
    return Message("book_faults.names.mix")


def names_soil() -> Message:
    """names an unknown soil"""
    return Message("book_faults.names.soil")


def names_material() -> Message:
    """names an unknown material"""
    return Message("book_faults.names.material")


def names_texture() -> Message:
    """names an unknown texture"""
    return Message("book_faults.names.texture")


def names_operation() -> Message:
    """names an unknown operation"""
    return Message("book_faults.names.operation")


def names_part(*, operation: str) -> Message:
    """names an unknown part of {operation}"""
    return Message("book_faults.names.part", (("operation", operation),))


def names_country() -> Message:
    """names an unknown country"""
    return Message("book_faults.names.country")


def names_state() -> Message:
    """names an unknown state"""
    return Message("book_faults.names.state")


def names_source() -> Message:
    """names an unknown source"""
    return Message("book_faults.names.source")


def last_choice() -> Message:
    """the last choice, and it alone, hangs on nothing"""
    return Message("book_faults.last_choice")


def parts_not_whole() -> Message:
    """has parts that are not the whole"""
    return Message("book_faults.parts_not_whole")


def local_word() -> Message:
    """has a local word for what stands in no name or title"""
    return Message("book_faults.local_word")


def unfillable(*, reason: str) -> Message:
    """has braces that cannot be filled: {reason}"""
    return Message("book_faults.unfillable", (("reason", reason),))


def unfilled() -> Message:
    """has a word in braces that nothing fills"""
    return Message("book_faults.unfilled")


def not_two_units() -> Message:
    """has an amount that is not one in two units"""
    return Message("book_faults.not_two_units")


def two_amounts() -> Message:
    """has an amount that is not the same in both units"""
    return Message("book_faults.two_amounts")


def fact_unnamed() -> Message:
    """is read by nothing: no entry of the book names it"""
    return Message("book_faults.fact_unnamed")


def source_unread() -> Message:
    """nothing rests on this source"""
    return Message("book_faults.source_unread")


def no_dimension() -> Message:
    """is in a dimension that there is not"""
    return Message("book_faults.no_dimension")


def least_above_most() -> Message:
    """has its least above its most"""
    return Message("book_faults.least_above_most")


def unlisted_words() -> Message:
    """stands for words that are not listed"""
    return Message("book_faults.unlisted_words")


def not_plain() -> Message:
    """is a plain number without a unit"""
    return Message("book_faults.not_plain")


def other_unit(*, got: str, wanted: str) -> Message:
    """is in a unit of {got}, not of {wanted}"""
    return Message("book_faults.other_unit", (("got", got), ("wanted", wanted)))


def out_of_bounds() -> Message:
    """lies beyond what it can be"""
    return Message("book_faults.out_of_bounds")


def stands_alone() -> Message:
    """stands alone: the book lacks what it goes with"""
    return Message("book_faults.stands_alone")


def needs_value() -> Message:
    """needs a value, or both low and high"""
    return Message("book_faults.needs_value")


def low_above_high(*, low: Number, high: Number) -> Message:
    """low {low} is above high {high}"""
    return Message("book_faults.low_above_high", (("low", low), ("high", high)))


def value_outside() -> Message:
    """value lies outside low to high"""
    return Message("book_faults.value_outside")


def judgement_note() -> Message:
    """a judgement needs a note that says why"""
    return Message("book_faults.judgement_note")


def judges_no_judgement() -> Message:
    """judges says what a judgement judges; this fact has a source"""
    return Message("book_faults.judges_no_judgement")


def unknown_unit(*, unit: str) -> Message:
    """unknown unit {unit}"""
    return Message("book_faults.unknown_unit", (("unit", unit),))
