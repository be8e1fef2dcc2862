"""Reads the text, rows and numbers of climate files, and says where a fault lies."""

import csv
import gzip
import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path

from turfplan.climate.series import Column, DailySeries
from turfplan.errors import Problem, TurfplanError

Slots = list[float | None]
TMIN, TMAX, TMEAN, RAIN, ET0, SOIL = range(6)
TEMPERATURE_C, RAIN_MM = (-90.0, 60.0), (0.0, 2000.0)


@dataclass(frozen=True, slots=True)
class Lines:
    """A text file's name and text."""

    name: str
    text: str

    def fault(self, line: int, column: str | None, message: str, got: object = None, allowed: str | None = None,
              hint: str | None = None) -> TurfplanError:  # fmt: skip
        """The error that names file, line and column."""
        where = f"{self.name}: line {line}" + (f", column {column}" if column else "")
        return TurfplanError(Problem(where, message, None if got is None else str(got), allowed, hint))

    def number(self, line: int, column: str, text: str | None) -> float:
        """A number, blanks around it allowed."""
        try:
            return float((text or "").strip())
        except ValueError:
            raise self.fault(line, column, "is not a number", repr(text)) from None

    def within(self, line: int, column: str, value: float, bounds: tuple[float, float], what: str) -> float:
        """The value where it lies within bounds; what it is read as goes into the error."""
        if not bounds[0] <= value <= bounds[1]:
            raise self.fault(
                line, column, f"is not {what}", f"{value:g}", f"{bounds[0]:g} to {bounds[1]:g}", "look at the unit"
            )
        return value

    def day(self, line: int, column: str, text: str) -> date:
        """A date, 2027-04-30 or 20270430."""
        try:
            return date.fromisoformat(text.strip())
        except ValueError:
            raise self.fault(line, column, "is not a date", repr(text)) from None


def read_text(path: Path) -> Lines:
    """A file as text, unpacked where it is gzipped."""
    try:
        content = path.read_bytes()
        if content[:2] == b"\x1f\x8b":
            content = gzip.decompress(content)
        return Lines(path.name, content.decode("utf-8-sig"))
    except FileNotFoundError:
        raise TurfplanError(Problem(str(path), "no such file")) from None
    except UnicodeDecodeError:
        raise TurfplanError(Problem(path.name, "is not a text file")) from None
    except (OSError, EOFError) as error:
        raise TurfplanError(Problem(path.name, f"cannot be read ({error})")) from None


def table(lines: Lines, needed: Sequence[str]) -> list[tuple[int, dict[str, str]]]:
    """The rows of a CSV with head as column to cell, with their line numbers; cut-off rows and missing columns are errors."""
    reader = csv.DictReader(io.StringIO(lines.text), strict=True)
    missing = [name for name in needed if name not in (reader.fieldnames or [])]
    if missing:
        raise lines.fault(1, None, "lacks a column", ", ".join(missing))
    rows = []
    try:
        for row in reader:
            if None in row.values() or None in row:
                raise lines.fault(
                    reader.line_num, None, "is cut off or too long", None, f"{len(reader.fieldnames or [])} cells"
                )
            rows.append((reader.line_num, row))
    except csv.Error as error:
        raise lines.fault(reader.reader.line_num, None, f"is cut off or not CSV ({error})") from None
    if not rows:
        raise lines.fault(2, None, "is missing: the file ends after its head")
    return rows


def plain_rows(lines: Lines) -> Iterator[tuple[int, list[str]]]:
    """The rows of a CSV without head, with their line numbers."""
    reader = csv.reader(io.StringIO(lines.text))
    for row in reader:
        if row:
            yield reader.line_num, row


class Days:
    """Collects values by day; a value given twice is an error."""

    def __init__(self, lines: Lines) -> None:
        """For the days of one file."""
        self.lines = lines
        self._found: dict[date, Slots] = {}
        self._columns: set[int] = set()

    def put(self, line: int, column: str, day: date, slot: int, value: float | None) -> None:
        """Keep a value, or that it is missing."""
        self._columns.add(slot)
        slots = self._found.setdefault(day, [None] * 6)
        if value is not None and slots[slot] is not None:
            raise self.lines.fault(line, column, "is there twice", f"{day}")
        slots[slot] = value if slots[slot] is None else slots[slot]

    def series(self) -> DailySeries:
        """The days without a break from the first to the last; means from the extremes where only these are known."""
        if not self._found:
            raise TurfplanError(Problem(self.lines.name, "holds no days"))
        first, last = min(self._found), max(self._found)
        dates = tuple(first + timedelta(days=k) for k in range((last - first).days + 1))
        empty: Slots = [None] * 6
        columns: list[Column] = [tuple(c) for c in zip(*(self._found.get(day, empty) for day in dates), strict=True)]
        lows, highs = columns[TMIN], columns[TMAX]
        means = tuple(
            mean if mean is not None else (low + high) / 2 if low is not None and high is not None else None
            for low, high, mean in zip(lows, highs, columns[TMEAN], strict=True)
        )
        return DailySeries(
            dates, lows, highs, means, columns[RAIN],
            columns[ET0] if ET0 in self._columns else None, columns[SOIL] if SOIL in self._columns else None,
        )  # fmt: skip
