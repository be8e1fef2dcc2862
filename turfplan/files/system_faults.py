"""Says what the system answers when a file cannot be read or written."""

import errno
import os
from collections.abc import Callable
from pathlib import Path

from turfplan.errors import Problem, library_words
from turfplan.message import Message
from turfplan.phrases import errors as phrases

_KNOWN: dict[int, Callable[[], Message]] = {
    errno.EACCES: phrases.system_access,
    errno.EPERM: phrases.system_not_permitted,
    errno.ENOENT: phrases.system_absent,
    errno.EISDIR: phrases.system_folder,
    errno.ENOTDIR: phrases.system_not_folder,
    errno.EEXIST: phrases.system_exists,
    errno.ENOSPC: phrases.system_full,
    errno.EDQUOT: phrases.system_quota,
    errno.EROFS: phrases.system_read_only,
    errno.EFBIG: phrases.system_too_large,
    errno.ENAMETOOLONG: phrases.system_long_name,
    errno.EMFILE: phrases.system_many_open,
    errno.EIO: phrases.system_input_output,
    errno.EADDRINUSE: phrases.system_address_taken,
    errno.EADDRNOTAVAIL: phrases.system_address_absent,
    errno.ECONNREFUSED: phrases.system_refused,
    errno.ECONNRESET: phrases.system_reset,
    errno.ENETUNREACH: phrases.system_unreachable,
    errno.EHOSTUNREACH: phrases.system_no_route,
    errno.ETIMEDOUT: phrases.system_timed_out,
}


def reason_of(error: OSError) -> Message:
    """Why the system refused: by key where it is a usual reason, else in its own words."""
    # Nothing but a fault needs to know what speaks to hosts.
    from socket import gaierror

    if isinstance(error, gaierror):
        return phrases.system_no_host()
    if isinstance(error, TimeoutError):
        return phrases.system_timed_out()
    known = _KNOWN.get(error.errno or 0)
    if known is not None and error.strerror == os.strerror(error.errno or 0):
        return known()
    return library_words(error.strerror or str(error))


def refusal_of(error: Exception) -> Message:
    """Why the system, or a library that spoke to it, refused: as `reason_of` where it was the
    system.
    """
    return reason_of(error) if isinstance(error, OSError) else library_words(str(error))


def unreadable(path: Path | str, error: OSError) -> Problem:
    """The problem of a file that cannot be read."""
    return Problem(str(path), phrases.unreadable(reason=reason_of(error)))


def unwritable(path: Path | str, error: OSError) -> Problem:
    """The problem of a file that cannot be written."""
    return Problem(str(path), phrases.unwritable(reason=reason_of(error)))
