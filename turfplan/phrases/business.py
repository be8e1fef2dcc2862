"""Messages of `messages/en/business.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def coordinates_together() -> Message:
    """latitude and longitude go together: give both or neither"""
    return Message("business.coordinates_together")


def named_twice(*, name: str) -> Message:
    """two have the same name: {name}"""
    return Message("business.named_twice", (("name", name),))


def no_such_machine(*, crew: str, machine: str) -> Message:
    """{crew} has the machine {machine}, which stands in no [[machine]]"""
    return Message("business.no_such_machine", (("crew", crew), ("machine", machine)))


def all_barred() -> Message:
    """no weekday is left on which the lawn may be worked"""
    return Message("business.all_barred")


def whole_number() -> Message:
    """a whole number"""
    return Message("business.whole_number")


def no_group(*, column: str) -> Message:
    """no client has the column {column}"""
    return Message("business.no_group", (("column", column),))


def not_a_group() -> Message:
    """is not COLUMN=VALUE"""
    return Message("business.not_a_group")


def such_a_group() -> Message:
    """such as route=north"""
    return Message("business.such_a_group")


def no_client_of_group(*, value: str) -> Message:
    """no client has {value} there"""
    return Message("business.no_client_of_group", (("value", value),))


def no_lawns() -> Message:
    """holds no lawns"""
    return Message("business.no_lawns")


def bring_lawns(*, command: str) -> Message:
    """bring them in first: {command}"""
    return Message("business.bring_lawns", (("command", command),))


def column_number(*, number: int) -> Message:
    """column {number}"""
    return Message("business.column_number", (("number", number),))


def no_head() -> Message:
    """has cells, and no head"""
    return Message("business.no_head")


def value_and_table() -> Message:
    """is a column of its own, and other columns begin with it"""
    return Message("business.value_and_table")


def not_a_span(*, got: str) -> Message:
    """{got} is no first and last day"""
    return Message("business.not_a_span", (("got", got),))


def such_a_span() -> Message:
    """such as 2027-08-20..2027-08-29; 2027-10-01..2027-10-03"""
    return Message("business.such_a_span")


def not_an_entry(*, got: str) -> Message:
    """{got} is not key=value"""
    return Message("business.not_an_entry", (("got", got),))


def such_an_entry() -> Message:
    """such as name=front, area=120 m2; name=back, area=90 m2"""
    return Message("business.such_an_entry")


def not_named(*, got: str) -> Message:
    """{got} is not name@number"""
    return Message("business.not_named", (("got", got),))


def such_named() -> Message:
    """such as sand@0.5; topsoil@0.5"""
    return Message("business.such_named")


def unknown_encoding(*, byte: int) -> Message:
    """holds bytes that are no letters, at byte {byte}"""
    return Message("business.unknown_encoding", (("byte", byte),))


def encodings() -> Message:
    """UTF-8, UTF-16 or Windows-1252"""
    return Message("business.encodings")


def save_as_utf8() -> Message:
    """save the table again as CSV in UTF-8"""
    return Message("business.save_as_utf8")


def name_columns() -> Message:
    """where a column is called otherwise, say which key it holds in business.toml: [columns]
    \"Number\" = \"id\"
    """
    return Message("business.name_columns")


def line_of(*, line: int, client: str) -> Message:
    """line {line}, {client}"""
    return Message("business.line_of", (("line", line), ("client", client)))


def not_archived() -> Message:
    """Nothing was archived: a row without an id that can be read may be that of a lawn that seems
    gone.
    """
    return Message("business.not_archived")


def still_published(*, client: str) -> Message:
    """{client} was published at a static host: take its files away there."""
    return Message("business.still_published", (("client", client),))


def other_encoding(*, encoding: str) -> Message:
    """The file is written in UTF-8: {encoding} does not hold all of its letters."""
    return Message("business.other_encoding", (("encoding", encoding),))
