"""Content lines of iCalendar as bytes (RFC 5545, 3.1 and 3.3.11): escaped, folded, ended.

Lines are the same, byte for byte, as those that the library makes, of which the tests hold them
against each other; they are made here because a business has thousands of them.
"""

from collections.abc import Iterable
from datetime import UTC, date, datetime

# A line has fewer octets than this without its end; the rest goes on in the next, after a blank.
FOLD_AT = 75
_END, _FOLD = b"\r\n", b"\r\n "
# Signs that belong to the one after them: no line ends with one.
_BOUND = b"\\^"
# The bits of an octet that goes on with a sign begun before it (UTF-8).
_GOES_ON, _GOES_ON_BITS = 0x80, 0xC0


def escaped(text: str) -> str:
    """A text as the value of a property."""
    return (
        text.replace(r"\N", "\n")
        .replace("\\", "\\\\")
        .replace(";", r"\;")
        .replace(",", r"\,")
        .replace("\r\n", r"\n")
        .replace("\n", r"\n")
        .replace("\r", r"\n")
    )


def instant(moment: datetime) -> str:
    """A moment (aware) in universal time."""
    return moment.astimezone(UTC).strftime("%Y%m%dT%H%M%SZ")


def on_day(value: date) -> str:
    """A day."""
    return value.strftime("%Y%m%d")


def folded(line: str) -> bytes:
    """A line of octets, folded where it is long; no sign is parted, nor an escape."""
    raw = line.encode()
    if len(raw) < FOLD_AT:
        return raw
    parts, start, most = list[bytes](), 0, FOLD_AT - 1
    while len(raw) - start > most:
        end = start + most
        while raw[end] & _GOES_ON_BITS == _GOES_ON:
            end -= 1
        if end - start > 1 and raw[end - 1] in _BOUND:
            end -= 1
        parts.append(raw[start:end])
        start = end
    return _FOLD.join((*parts, raw[start:]))


def written(lines: Iterable[str]) -> bytes:
    """Lines, each with its end."""
    return b"".join(folded(line) + _END for line in lines)
