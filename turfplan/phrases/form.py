"""Messages of `messages/en/form.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message, Number


def should_be(*, what: Message) -> Message:
    """should be {what}"""
    return Message("form.should_be", (("what", what),))


def input_should_be(*, what: Message) -> Message:
    """input should be {what}"""
    return Message("form.input_should_be", (("what", what),))


def text() -> Message:
    """a valid string"""
    return Message("form.text")


def number() -> Message:
    """a valid number"""
    return Message("form.number")


def number_parsed() -> Message:
    """a valid number, unable to parse string as a number"""
    return Message("form.number_parsed")


def finite() -> Message:
    """a finite number"""
    return Message("form.finite")


def whole() -> Message:
    """a valid integer"""
    return Message("form.whole")


def whole_parsed() -> Message:
    """a valid integer, unable to parse string as an integer"""
    return Message("form.whole_parsed")


def whole_size() -> Message:
    """unable to parse input string as an integer, exceeded maximum size"""
    return Message("form.whole_size")


def fraction() -> Message:
    """a valid integer, got a number with a fractional part"""
    return Message("form.fraction")


def yes_or_no() -> Message:
    """a valid boolean"""
    return Message("form.yes_or_no")


def yes_or_no_parsed() -> Message:
    """a valid boolean, unable to interpret input"""
    return Message("form.yes_or_no_parsed")


def above(*, number: Number) -> Message:
    """greater than {number}"""
    return Message("form.above", (("number", number),))


def at_least(*, number: Number) -> Message:
    """greater than or equal to {number}"""
    return Message("form.at_least", (("number", number),))


def below(*, number: Number) -> Message:
    """less than {number}"""
    return Message("form.below", (("number", number),))


def at_most(*, number: Number) -> Message:
    """less than or equal to {number}"""
    return Message("form.at_most", (("number", number),))


def pattern(*, pattern: str) -> Message:
    """string should match pattern '{pattern}'"""
    return Message("form.pattern", (("pattern", pattern),))


def text_too_short(*, n: int, least: int) -> Message:
    """string should have at least {least} characters"""
    return Message("form.text_too_short", (("n", n), ("least", least)))


def text_too_long(*, n: int, most: int) -> Message:
    """string should have at most {most} characters"""
    return Message("form.text_too_long", (("n", n), ("most", most)))


def too_short(*, n: int, kind: Message, least: int, got: str) -> Message:
    """{kind} should have at least {least} items after validation, not {got}"""
    return Message("form.too_short", (("n", n), ("kind", kind), ("least", least), ("got", got)))


def too_long(*, n: int, kind: Message, most: int, got: str) -> Message:
    """{kind} should have at most {most} items after validation, not {got}"""
    return Message("form.too_long", (("n", n), ("kind", kind), ("most", most), ("got", got)))


def kind_tuple() -> Message:
    """tuple"""
    return Message("form.kind.tuple")


def kind_list() -> Message:
    """list"""
    return Message("form.kind.list")


def kind_dictionary() -> Message:
    """dictionary"""
    return Message("form.kind.dictionary")


def kind_set() -> Message:
    """set"""
    return Message("form.kind.set")


def list() -> Message:
    """a valid list"""
    return Message("form.list")


def tuple() -> Message:
    """a valid tuple"""
    return Message("form.tuple")


def mapping() -> Message:
    """a valid mapping"""
    return Message("form.mapping")


def dictionary() -> Message:
    """a valid dictionary"""
    return Message("form.dictionary")


def array() -> Message:
    """a valid array"""
    return Message("form.array")


def object() -> Message:
    """an object"""
    return Message("form.object")


def table(*, record: str) -> Message:
    """a valid dictionary or instance of {record}"""
    return Message("form.table", (("record", record),))


def date() -> Message:
    """a valid date"""
    return Message("form.date")


def date_parsed(*, reason: Message) -> Message:
    """a valid date or datetime, {reason}"""
    return Message("form.date_parsed", (("reason", reason),))


def date_written(*, reason: Message) -> Message:
    """a valid date in the format YYYY-MM-DD, {reason}"""
    return Message("form.date_written", (("reason", reason),))


def date_with_clock() -> Message:
    """datetimes provided to dates should have zero time - e.g. be exact dates"""
    return Message("form.date_with_clock")


def moment() -> Message:
    """a valid datetime"""
    return Message("form.moment")


def moment_parsed(*, reason: Message) -> Message:
    """a valid datetime, {reason}"""
    return Message("form.moment_parsed", (("reason", reason),))


def moment_of_date(*, reason: Message) -> Message:
    """a valid datetime or date, {reason}"""
    return Message("form.moment_of_date", (("reason", reason),))


def clock() -> Message:
    """a valid time"""
    return Message("form.clock")


def clock_parsed(*, reason: Message) -> Message:
    """in a valid time format, {reason}"""
    return Message("form.clock_parsed", (("reason", reason),))


def zone() -> Message:
    """input should have timezone info"""
    return Message("form.zone")


def missing() -> Message:
    """field required"""
    return Message("form.missing")


def extra() -> Message:
    """extra inputs are not permitted"""
    return Message("form.extra")


def one_of(*, choices: Listed) -> Message:
    """{choices}"""
    return Message("form.one_of", (("choices", choices),))


def nothing() -> Message:
    """None"""
    return Message("form.nothing")


def not_text() -> Message:
    """is not a text"""
    return Message("form.not_text")


def other(*, name: str) -> Message:
    """of another form ({name})"""
    return Message("form.other", (("name", name),))
