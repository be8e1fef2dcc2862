"""The one exception that tells a person what is wrong with what they gave us."""

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Problem:
    """One fault of the input: where it is, what was got, what is allowed, and a hint.

    `where` is `file: path.to.key` or the part of it that is known; `message` is lowercase and has no full stop.
    """

    where: str
    message: str
    got: str | None = None
    allowed: str | None = None
    hint: str | None = None

    def __str__(self) -> str:
        text = f"{self.where}: {self.message}" if self.where else self.message
        if self.got is not None:
            text += f"; got {self.got}"
        if self.allowed is not None:
            text += f"; allowed: {self.allowed}"
        return text


class TurfplanError(Exception):
    """Input that cannot be used, with every problem found in it (at least one)."""

    exit_code = 3

    def __init__(self, problems: Iterable[Problem] | Problem) -> None:
        self.problems: tuple[Problem, ...] = (problems,) if isinstance(problems, Problem) else tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))

    def __reduce__(self) -> tuple[type["TurfplanError"], tuple[tuple[Problem, ...]]]:
        """Travels between processes with its problems, not with their words."""
        return type(self), (self.problems,)

    def located(self, where: str) -> "TurfplanError":
        """The same problems with `where` put before each place, for example the name of the file."""
        return type(self)(
            Problem(
                f"{where}: {problem.where}" if problem.where else where,
                problem.message,
                problem.got,
                problem.allowed,
                problem.hint,
            )
            for problem in self.problems
        )


class MissingToolError(TurfplanError):
    """Something the machine lacks (a library, an optional package); the hint says how to get it."""

    exit_code = 5


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word most like `word`, or None when nothing is close."""
    from difflib import get_close_matches

    matches = get_close_matches(word, list(known), n=1, cutoff=0.6)
    return matches[0] if matches else None
