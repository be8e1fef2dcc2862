"""What the system answers is said by key where it is usual, in the system's own English."""

import errno
import os

import pytest

from told import told
from turfplan.files.system_faults import _KNOWN, reason_of, unreadable, unwritable
from turfplan.message import as_written


@pytest.mark.parametrize("number", sorted(_KNOWN))
def test_a_usual_reason_is_said_as_the_system_says_it(number: int) -> None:
    """The key of an error number has the words that the system has for it."""
    error = OSError(number, os.strerror(number))
    assert reason_of(error) == _KNOWN[number]() and told(reason_of(error)) == os.strerror(number)


def test_another_reason_stands_as_it_was_said() -> None:
    """An unusual number, other words for a usual one, and a fault without any number."""
    assert reason_of(OSError(errno.EBUSY, "busy")) == as_written("busy")
    assert reason_of(OSError(errno.ENOSPC, "the share is full")) == as_written("the share is full")
    assert reason_of(OSError("odd")) == as_written("odd")


def test_reading_and_writing_are_told_apart() -> None:
    """Each with the file and the reason."""
    error = OSError(errno.EACCES, os.strerror(errno.EACCES))
    assert str(unreadable("a", error)) == "a: cannot be read (Permission denied)"
    assert str(unwritable("a", error)) == "a: cannot be written (Permission denied)"
