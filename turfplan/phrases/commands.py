"""Messages of `messages/en/commands.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def exists() -> Message:
    """exists already"""
    return Message("commands.exists")


def other_name_or_force() -> Message:
    """choose another name, or --force to write over it"""
    return Message("commands.other_name_or_force")


def needed() -> Message:
    """is needed"""
    return Message("commands.needed")


def asked_as(*, question: str) -> Message:
    """asked as: {question}"""
    return Message("commands.asked_as", (("question", question),))


def not_known() -> Message:
    """is not known"""
    return Message("commands.not_known")


def before_first() -> Message:
    """lies before the first day"""
    return Message("commands.before_first")


def part_of_feed() -> Message:
    """shows the whole lawn; a part and days are of a calendar alone"""
    return Message("commands.part_of_feed")


def needs_web(*, module: str) -> Message:
    """needs the extra web ({module} is missing)"""
    return Message("commands.needs_web", (("module", module),))


def unlistenable(*, reason: Message) -> Message:
    """cannot be listened on ({reason})"""
    return Message("commands.unlistenable", (("reason", reason),))


def other_port() -> Message:
    """choose another --port"""
    return Message("commands.other_port")


def no_token() -> Message:
    """is not the number of a token"""
    return Message("commands.no_token")


def no_closed_token() -> Message:
    """is not the number of a token that a restore has closed"""
    return Message("commands.no_closed_token")


def list_shows(*, command: str) -> Message:
    """`{command}` shows them"""
    return Message("commands.list_shows", (("command", command),))


def unloggable(*, word: str, known: str) -> Message:
    """{word} is not something to log. Known: {known}."""
    return Message("commands.unloggable", (("word", word), ("known", known)))


def nothing_to_log(*, known: str) -> Message:
    """What happened is missing after the brief. Known: {known}."""
    return Message("commands.nothing_to_log", (("known", known),))


def no_command(*, name: str) -> Message:
    """There is no command {name}."""
    return Message("commands.no_command", (("name", name),))


def with_hint(*, fault: Message, hint: Message) -> Message:
    """{fault} {hint:capital}"""
    return Message("commands.with_hint", (("fault", fault), ("hint", hint)))
