"""Reads a table that a spreadsheet has written, whatever its encoding and its separator."""

import csv
import io
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from turfplan.errors import Problem, TurfplanError, library_words, within
from turfplan.files.system_faults import unreadable
from turfplan.phrases import business as phrases
from turfplan.phrases import errors

SEPARATORS = (",", ";", "\t", "|")
_MARKS = (
    (b"\xef\xbb\xbf", "utf-8-sig"),
    (b"\xff\xfe", "utf-16"),
    (b"\xfe\xff", "utf-16"),
)
# What spreadsheets of western Europe and America write where they do not write UTF-8.
_OLDER = "cp1252"


@dataclass(frozen=True, slots=True)
class TableForm:
    """How a table is written: its separator, its encoding by the name that Python has for it, and
    the end of its lines."""

    separator: str = ","
    encoding: str = "utf-8"
    line_end: str = "\r\n"


@dataclass(frozen=True, slots=True)
class WrittenTable:
    """The heads of a table and its rows, each with the line in which it begins, from 1."""

    form: TableForm
    heads: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]


def read_table(path: Path, wanted: Callable[[Sequence[str]], bool]) -> WrittenTable:
    """The table in a file; `wanted` tells heads that are cut at the right separator.

    Raises TurfplanError for a file that cannot be read, is no text or no table; its heads are of no
    meaning here.
    """
    try:
        raw = path.read_bytes()
    except FileNotFoundError:
        raise TurfplanError(Problem(str(path), errors.no_such_file())) from None
    except OSError as error:
        raise TurfplanError(unreadable(path, error)) from None
    text, encoding = _decoded(path, raw)
    separator = _separator(text, wanted)
    try:
        records = _records(text, separator)
    except csv.Error as error:
        reason = library_words(str(error))
        raise TurfplanError(Problem(str(path), errors.unreadable(reason=reason))) from None
    filled = [(line, row) for line, row in records if any(cell.strip() for cell in row)]
    if not filled:
        raise TurfplanError(Problem(str(path), errors.is_empty()))
    (_, heads), *rows = filled
    # A spreadsheet ends lines with the separators of columns that hold nothing.
    width = max((k for k, head in enumerate(heads, 1) if head.strip()), default=0)
    cut = tuple((line, _cut(row, width)) for line, row in rows)
    width = max((width, *(min(len(row), len(heads)) for _, row in cut)))
    named = tuple(head.strip() for head in heads[:width])
    end = "\r\n" if "\r\n" in text else "\n"
    return WrittenTable(TableForm(separator, encoding, end), named, cut)


def _cut(row: Sequence[str], width: int) -> tuple[str, ...]:
    """A row without the empty cells beyond the heads."""
    last = max((k for k, cell in enumerate(row, 1) if cell.strip()), default=0)
    return tuple(row[: max(width, last)])


def _decoded(path: Path, raw: bytes) -> tuple[str, str]:
    """The bytes as text, and the encoding that they are in."""
    encoding = next((name for mark, name in _MARKS if raw.startswith(mark)), "utf-8")
    if encoding == "utf-8":
        half = len(raw) // 2
        # Every other byte of a text in UTF-16 without its mark is nought, as far as it is Latin.
        if raw[1::2].count(0) > half / 2:
            encoding = "utf-16-le"
        elif raw[::2].count(0) > half / 2:
            encoding = "utf-16-be"
    for known in (encoding, *((_OLDER,) if encoding == "utf-8" else ())):
        try:
            text = raw.decode(known)
        except UnicodeDecodeError as error:
            place = error.start
            continue
        if "\x00" not in text:
            return text, known
        place = text.index("\x00")
    line = str(raw[:place].count(b"\n") + 1)
    where = within(str(path), errors.line(number=line))
    fault = phrases.unknown_encoding(byte=place)
    raise TurfplanError(Problem(where, fault, None, phrases.encodings(), phrases.save_as_utf8()))


def _separator(text: str, wanted: Callable[[Sequence[str]], bool]) -> str:
    """The separator that cuts the heads as they are wanted, into the most columns."""
    first = next((line for line in text.splitlines() if line.strip()), "")
    cuts = {sign: next(csv.reader([first], delimiter=sign), []) for sign in SEPARATORS}
    return max(
        SEPARATORS, key=lambda sign: (wanted([*map(str.strip, cuts[sign])]), len(cuts[sign]))
    )


def _records(text: str, separator: str) -> list[tuple[int, list[str]]]:
    """The records of a table, each with the line in which it begins: cells may hold breaks."""
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator)
    found, line = [], 1
    for row in reader:
        found.append((line, row))
        line = reader.line_num + 1
    return found
