"""Keeps when a served lawn could not be planned again, for who runs the server.

The log says which lawn of the index, when, and in how many sentences its page says why; no address,
no place and nothing that somebody wrote stands in it.
"""

import logging
from datetime import datetime
from logging.handlers import RotatingFileHandler
from pathlib import Path

from turfplan.errors import TurfplanError
from turfplan.files.system_faults import unwritable

# Beside the index, whose name it bears.
SUFFIX = ".failures.log"
MOST_BYTES = 200_000


def failure_log_of(index: Path) -> Path:
    """The log beside an index."""
    return index.with_name(index.name + SUFFIX)


def log_failure(index: Path, lawn: int, reasons: int, at: datetime) -> None:
    """Add a line for a lawn that could not be planned, for so many reasons; the file is for its
    owner alone, and of its older half one more is kept.

    Raises TurfplanError for a file that cannot be written.
    """
    path = failure_log_of(index)
    told = (at.isoformat("T", "seconds"), lawn, reasons)
    record = logging.LogRecord("turfplan", logging.WARNING, "", 0, _LINE, told, None)
    try:
        path.touch(mode=0o600)
        handler = RotatingFileHandler(path, maxBytes=MOST_BYTES, backupCount=1, encoding="utf-8")
    except OSError as error:
        raise TurfplanError(unwritable(path, error)) from None
    try:
        handler.emit(record)
    finally:
        handler.close()


# Keys and numbers, for programs: no sentence of any language.
_LINE = "%s not_planned lawn=%d reasons=%d"
