"""Tells problems to a reader: where each is, what is wrong, what was got and what is allowed."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import TypeVar

from turfplan.errors import Problem, TurfplanError, by_key, problem_message
from turfplan.message import Listed, Worded
from turfplan.messages.catalog import SOURCE
from turfplan.messages.telling import Words, words_for
from turfplan.phrases import errors as phrases
from turfplan.units import System

Error = TypeVar("Error", bound=TurfplanError)


def problem_text(problem: Problem, words: Words) -> str:
    """A problem in one line without its hint: place, what is wrong, what was got and is allowed."""
    return words.text(problem_message(problem))


def error_text(error: TurfplanError, words: Words, between: str = "\n") -> str:
    """Every problem of an error, one after the other."""
    return between.join(problem_text(problem, words) for problem in error.problems)


def problem_lines(problem: Problem, words: Words) -> tuple[str, ...]:
    """A problem as a command prints it: `error:` with all that is known of it, and `hint:`."""
    error = words.text(phrases.error(what=problem_message(problem)))
    if not problem.hint:
        return (error,)
    return error, words.say("errors.hint", hint=problem.hint)


def told_problem(problem: Problem, words: Words) -> Problem:
    """The problem with all that it says as texts in these words."""

    def told(part: Worded | Listed | None) -> str | None:
        return None if part is None else words.value(part)

    return replace(
        problem,
        where=words.text(problem.where),
        message=words.text(problem.message),
        got=told(problem.got),
        allowed=told(problem.allowed),
        hint=told(problem.hint),
    )


def told_error(error: Error, words: Words) -> Error:
    """The error, of its own kind, with every problem told in these words."""
    return type(error)([told_problem(problem, words) for problem in error.problems])


def words_for_errors(language: str = SOURCE) -> Words:
    """The words that errors are told in; amounts are written as in the metric world.

    Raises TurfplanError for an unknown language.
    """
    return words_for(language, System.METRIC, book_words(), terminal=True)


def english_text(problem: Problem) -> str:
    """A problem in English; by its keys where it speaks in words of a book that is not loaded."""
    try:
        return problem_text(problem, words_for_errors())
    except KeyError:
        return by_key(problem)


def _no_words() -> Mapping[str, str]:
    return {}


# The English of the book lies above this module: whoever loads the book says where its words are.
book_words: Callable[[], Mapping[str, str]] = _no_words
