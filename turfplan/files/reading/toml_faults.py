"""Says what is wrong with a text that is no TOML."""

import re
from tomllib import TOMLDecodeError

from turfplan.errors import Problem, library_words
from turfplan.message import Message
from turfplan.phrases import errors, libraries

_PLACED = re.compile(r"(.*) \(at (?:line (\d+), column (\d+)|end of document)\)", re.DOTALL)


def not_toml(
    where: str, error: TOMLDecodeError | UnicodeDecodeError, hint: Message | None = None
) -> Problem:
    """The problem of a text that tomllib cannot read, or that is no text."""
    return Problem(where, errors.not_toml(reason=_reason(str(error))), hint=hint)


def _reason(text: str) -> Message:
    """What tomllib says, whose errors have no fields before Python 3.14, with its place."""
    placed = _PLACED.fullmatch(text)
    if placed is None:
        return library_words(text)
    what, line, column = library_words(placed[1]), placed[2], placed[3]
    if line is None:
        return libraries.at_end(what=what)
    return libraries.at(what=what, line=line, column=column)
