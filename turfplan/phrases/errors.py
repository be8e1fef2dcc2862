"""Messages of `messages/en/errors.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message, Number


def at(*, where: str, what: Message) -> Message:
    """{where}: {what}"""
    return Message("errors.at", (("where", where), ("what", what)))


def got(*, what: Message, got: str) -> Message:
    """{what}; got {got}"""
    return Message("errors.got", (("what", what), ("got", got)))


def allowed(*, what: Message, allowed: Listed) -> Message:
    """{what}; allowed: {allowed}"""
    return Message("errors.allowed", (("what", what), ("allowed", allowed)))


def line(*, number: str) -> Message:
    """line {number}"""
    return Message("errors.line", (("number", number),))


def cell(*, line: str, column: str) -> Message:
    """line {line}, column {column}"""
    return Message("errors.cell", (("line", line), ("column", column)))


def within(*, outer: Message, inner: Message) -> Message:
    """{outer}: {inner}"""
    return Message("errors.within", (("outer", outer), ("inner", inner)))


def error(*, what: Message) -> Message:
    """error: {what}"""
    return Message("errors.error", (("what", what),))


def hint(*, hint: Message) -> Message:
    """hint: {hint}"""
    return Message("errors.hint", (("hint", hint),))


def did_you_mean(*, word: str) -> Message:
    """did you mean {word}?"""
    return Message("errors.did_you_mean", (("word", word),))


def no_such_file() -> Message:
    """no such file"""
    return Message("errors.no_such_file")


def is_empty() -> Message:
    """is empty"""
    return Message("errors.is_empty")


def not_text() -> Message:
    """is not a text file"""
    return Message("errors.not_text")


def not_utf8(*, byte: int) -> Message:
    """is not UTF-8 text (byte {byte})"""
    return Message("errors.not_utf8", (("byte", byte),))


def not_toml(*, reason: Message) -> Message:
    """is not TOML: {reason}"""
    return Message("errors.not_toml", (("reason", reason),))


def unreadable(*, reason: Message) -> Message:
    """cannot be read ({reason})"""
    return Message("errors.unreadable", (("reason", reason),))


def unwritable(*, reason: Message) -> Message:
    """cannot be written ({reason})"""
    return Message("errors.unwritable", (("reason", reason),))


def in_use() -> Message:
    """is in use by another run of turfplan"""
    return Message("errors.in_use")


def wait() -> Message:
    """wait for it to end"""
    return Message("errors.wait")


def other_folder() -> Message:
    """choose another folder with -o"""
    return Message("errors.other_folder")


def damaged(*, reason: Message) -> Message:
    """is damaged ({reason})"""
    return Message("errors.damaged", (("reason", reason),))


def unknown_key() -> Message:
    """unknown key"""
    return Message("errors.unknown_key")


def required() -> Message:
    """is required"""
    return Message("errors.required")


def missing_from_book() -> Message:
    """is missing from the book"""
    return Message("errors.missing_from_book")


def used_twice() -> Message:
    """is used twice"""
    return Message("errors.used_twice")


def look_at_unit() -> Message:
    """look at the unit"""
    return Message("errors.look_at_unit")


def make_plan_first(*, command: str) -> Message:
    """first `{command}`"""
    return Message("errors.make_plan_first", (("command", command),))


def nothing() -> Message:
    """nothing"""
    return Message("errors.nothing")


def none() -> Message:
    """none"""
    return Message("errors.none")


def number_range(*, low: Number, high: Number) -> Message:
    """{low} to {high}"""
    return Message("errors.number_range", (("low", low), ("high", high)))


def unit_range(*, low: Number, high: Number, unit: str) -> Message:
    """{low} to {high} {unit}"""
    return Message("errors.unit_range", (("low", low), ("high", high), ("unit", unit)))


def to_most(*, most: Number) -> Message:
    """up to {most}"""
    return Message("errors.to_most", (("most", most),))


def date_range(*, first: str, last: str) -> Message:
    """{first} to {last}"""
    return Message("errors.date_range", (("first", first), ("last", last)))


def system_access() -> Message:
    """Permission denied"""
    return Message("errors.system.access")


def system_not_permitted() -> Message:
    """Operation not permitted"""
    return Message("errors.system.not_permitted")


def system_absent() -> Message:
    """No such file or directory"""
    return Message("errors.system.absent")


def system_folder() -> Message:
    """Is a directory"""
    return Message("errors.system.folder")


def system_not_folder() -> Message:
    """Not a directory"""
    return Message("errors.system.not_folder")


def system_exists() -> Message:
    """File exists"""
    return Message("errors.system.exists")


def system_full() -> Message:
    """No space left on device"""
    return Message("errors.system.full")


def system_quota() -> Message:
    """Disk quota exceeded"""
    return Message("errors.system.quota")


def system_read_only() -> Message:
    """Read-only file system"""
    return Message("errors.system.read_only")


def system_too_large() -> Message:
    """File too large"""
    return Message("errors.system.too_large")


def system_long_name() -> Message:
    """File name too long"""
    return Message("errors.system.long_name")


def system_many_open() -> Message:
    """Too many open files"""
    return Message("errors.system.many_open")


def system_input_output() -> Message:
    """Input/output error"""
    return Message("errors.system.input_output")


def system_address_taken() -> Message:
    """Address already in use"""
    return Message("errors.system.address_taken")


def system_address_absent() -> Message:
    """Cannot assign requested address"""
    return Message("errors.system.address_absent")


def system_refused() -> Message:
    """Connection refused"""
    return Message("errors.system.refused")


def system_reset() -> Message:
    """Connection reset by peer"""
    return Message("errors.system.reset")


def system_unreachable() -> Message:
    """Network is unreachable"""
    return Message("errors.system.unreachable")


def system_no_route() -> Message:
    """No route to host"""
    return Message("errors.system.no_route")


def system_timed_out() -> Message:
    """Connection timed out"""
    return Message("errors.system.timed_out")


def system_no_host() -> Message:
    """Name or service not known"""
    return Message("errors.system.no_host")


def no_catalog() -> Message:
    """there is no complete catalog of this language"""
    return Message("errors.no_catalog")


def beside_brief(*, key: str) -> Message:
    """{key} is found from the brief's folder"""
    return Message("errors.beside_brief", (("key", key),))
