"""The form of the packed tables that come with turfplan: a header line of JSON, then a blob.

Its whole numbers are little-endian.
"""

# Not SQLite: it answers a first look-up in 5 ms of the processor and the packs in 10, but codes and
# cells take 5.3 MB in it and 1.2 MB packed, the time zones of 259,200 squares 13 KB packed, and the
# core, which reads the grid, opens no files.

import json
import sys
from array import array
from collections.abc import Mapping
from typing import Any, Literal

NumberKind = Literal["H", "h"]
"""Two bytes, without or with a sign."""


def pack(head: Mapping[str, Any], blob: bytes) -> bytes:
    """A header and what follows it as one file."""
    return json.dumps(head, separators=(",", ":")).encode() + b"\n" + blob


def unpack(packed: bytes) -> tuple[Any, bytes]:
    """The header and the blob of a pack; raises ValueError where the header is no JSON."""
    line, _, blob = packed.partition(b"\n")
    return json.loads(line), blob


def numbers(kind: NumberKind, raw: bytes) -> "array[int]":
    """Whole numbers from the bytes of a pack."""
    return _swapped(array(kind, raw))


def number_bytes(kind: NumberKind, values: "list[int]") -> bytes:
    """Whole numbers as the bytes of a pack."""
    return _swapped(array(kind, values)).tobytes()


def _swapped(values: "array[int]") -> "array[int]":
    """The same numbers between the order of the pack and that of the machine."""
    if sys.byteorder == "big":
        values.byteswap()
    return values
