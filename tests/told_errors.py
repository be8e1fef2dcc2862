"""What a reader would read of an error whose problems are messages, for tests of what is
refused.
"""

import re
from collections.abc import Iterator
from contextlib import contextmanager

import pytest

from told import words_of
from turfplan.errors import Problem, TurfplanError
from turfplan.messages import told_error, told_problem
from turfplan.units import System


def error_text(error: TurfplanError) -> str:
    """Every problem of an error as an English reader reads it."""
    return str(told_error(error, words_of(System.METRIC)))


def problem_text(problem: Problem) -> str:
    """One problem as an English reader reads it, with its hint."""
    told = told_problem(problem, words_of(System.METRIC))
    return f"{told}; {told.hint}" if told.hint else str(told)


@contextmanager
def refused(
    match: str, kind: type[TurfplanError] = TurfplanError
) -> Iterator[pytest.ExceptionInfo[TurfplanError]]:
    """What happens inside raises an error of this kind whose English words hold the pattern."""
    with pytest.raises(kind) as caught:
        yield caught
    assert re.search(match, error_text(caught.value)), error_text(caught.value)
