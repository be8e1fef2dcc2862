"""The one exception that tells a person what is wrong with what they gave us."""

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from turfplan.message import AS_WRITTEN, Listed, Message, Value, Worded, as_written, listed, said
from turfplan.phrases import errors as phrases
from turfplan.phrases import libraries

WITHIN = "within"


@dataclass(frozen=True, slots=True)
class Problem:
    """One fault of the input: where it is, what was got, what is allowed, and a hint.

    `where` is `file: path.to.key` or the part of it that is known; `message` is lowercase and has
    no full stop. `got` is what was given, as it was written; `allowed` are keys and values as they
    are written (a list of them, or one text), or words. A place or value that only words can say
    is a message too.
    """

    where: Worded
    message: Worded
    got: Worded | None = None
    allowed: Listed | Worded | None = None
    hint: Worded | None = None

    def __str__(self) -> str:
        """In English, for logs and tests; `messages.problems` tells it to a reader."""
        return teller(self)


def _printed(value: Worded) -> str:
    """What was told; of what was not, its key and values, which a developer can read."""
    if isinstance(value, str) or value.text or value.key == AS_WRITTEN:
        return str(value)
    values = ", ".join(
        f"{name}={_printed(part) if isinstance(part, Message) else part}"
        for name, part in value.values
    )
    return f"{value.key}({values})"


def _within(outer: str, inner: Worded) -> Worded:
    """A place inside another one: the key of a file, the line of a table."""
    if not inner:
        return outer
    if isinstance(inner, str):
        return f"{outer}: {inner}"
    return Message(WITHIN, (("outer", outer), ("inner", inner)))


class TurfplanError(Exception):
    """Input that cannot be used, with every problem found in it (at least one)."""

    exit_code = 3

    def __init__(self, problems: Iterable[Problem] | Problem) -> None:
        self.problems: tuple[Problem, ...] = (
            (problems,) if isinstance(problems, Problem) else tuple(problems)
        )
        super().__init__(self.problems)

    def __str__(self) -> str:
        return "\n".join(str(problem) for problem in self.problems)

    def located(self, where: Worded) -> "TurfplanError":
        """The same problems with `where` put before each place, for example the file's name."""
        return type(self)(
            replace(problem, where=within(where, problem.where)) for problem in self.problems
        )


class MissingToolError(TurfplanError):
    """Something the machine lacks (a library, an optional package); its hint says how to get it."""

    exit_code = 5


class FormError(ValueError):
    """What a validator of a record finds wrong: pydantic carries it to where it becomes a problem.

    It has the parts of a problem but for the place, which pydantic knows.
    """

    def __init__(
        self,
        message: Worded,
        allowed: Listed | Worded | None = None,
        hint: Worded | None = None,
    ) -> None:
        super().__init__(message)
        self.message = message
        self.allowed = allowed
        self.hint = hint

    def __str__(self) -> str:
        return str(Problem("", self.message, None, self.allowed, self.hint))


def within(outer: Worded, inner: Worded) -> Worded:
    """A place inside another one: the key of a file, the line of a table."""
    if not inner:
        return outer
    if not outer:
        return inner
    if isinstance(outer, str) and isinstance(inner, str):
        return f"{outer}: {inner}"
    return Message("errors.within", (("outer", outer), ("inner", inner)))


# Words of one length that share three letters of five are not alike: "roots" is not "frost".
LIKE_ENOUGH = 0.61


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word most like `word`, or None when nothing is close."""
    from difflib import get_close_matches

    matches = get_close_matches(word, list(known), n=1, cutoff=LIKE_ENOUGH)
    return matches[0] if matches else None


def did_you_mean(word: str, known: Iterable[str]) -> Message | None:
    """The hint at the known word most like `word`, or None when nothing is close."""
    near = nearest(word, known)
    return None if near is None else phrases.did_you_mean(word=repr(near))


def one_of(known: Iterable[str]) -> Listed:
    """The keys or values that are allowed, as they are written."""
    return listed(known, "comma")


def library_words(text: str) -> Message:
    """What a library says, in English: by key where a catalog has it, else as it stands."""
    make = getattr(libraries, re.sub(r"\W+", "_", text.lower()).strip("_"), None)
    # Another sentence of the same words is not the one that the catalog has.
    if make is None or make.__doc__ != text:
        return as_written(text)
    found: Message = make()
    return found


def problem_message(problem: Problem) -> Message:
    """A problem without its hint: place, what is wrong, what was got and what is allowed."""
    # A text has no key yet, or is what somebody wrote: it stands where a message would.
    found: Worded = problem.message
    if problem.where:
        found = Message("errors.at", (("where", problem.where), ("what", found)))
    if problem.got is not None:
        found = Message("errors.got", (("what", found), ("got", problem.got)))
    if problem.allowed is not None:
        found = Message("errors.allowed", (("what", found), ("allowed", problem.allowed)))
    return said(found)


def by_key(problem: Problem) -> str:
    """A problem by the keys of its messages, where there are no catalogs to tell them from."""
    parts = [_plain(problem.message)]
    if problem.got is not None:
        parts.append(f"got {_plain(problem.got)}")
    if problem.allowed is not None:
        parts.append(f"allowed: {_plain(problem.allowed)}")
    return (f"{_plain(problem.where)}: " if problem.where else "") + "; ".join(parts)


def _plain(value: Value) -> str:
    if isinstance(value, Listed):
        return ", ".join(map(_plain, value.items))
    if isinstance(value, Message):
        inside = ", ".join(f"{name}={_plain(part)}" for name, part in value.values)
        return f"{value.key}({inside})" if inside else value.key
    return str(value)


# How a problem is told in English: catalogs lie above this module, and set it when they are loaded.
teller: Callable[[Problem], str] = by_key
