"""Reads the table of a survey: heights, depths, rod readings or hollows, with the unit in each column's name."""

import csv
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from turfplan.errors import Problem, TurfplanError, nearest
from turfplan.site.levelling import Reading, level_run
from turfplan.site.records import FEATURES, HEIGHTLESS, Feature, LowSpot, Survey, SurveyPoint
from turfplan.units import dimension_of, parse_quantity, units_of

LARGEST_BYTES = 20_000_000
WORDS = ("point", "what", "zone", "note")
LENGTHS = (
    "x",
    "y",
    "height",
    "depth",
    "back",
    "fore",
    "between",
    "known",
    "length",
    "width",
    "mean_depth",
    "deepest",
    "error",
)
UNITS = tuple(units_of("length"))
_GRID = re.compile(r"^(height|depth)_(\w+) by x_(\w+) and y_(\w+)$")
EXAMPLE = "x_m, y_m, height_mm, or x_ft, y_ft, depth_in, or point, back_ft, fore_ft, x_ft, y_ft, or length_ft, width_ft, depth_in"


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the table: its number in the file, its words, and its lengths in mm."""

    line: int
    words: Mapping[str, str]
    mm: Mapping[str, float]

    @property
    def name(self) -> str:
        """The point's own name, else its line."""
        return self.words.get("point") or f"line {self.line}"


def read_survey(path: Path) -> Survey:
    """The survey in a CSV file (comma, semicolon or tab; lines with # are remarks); raises TurfplanError with every fault."""
    return survey_of_text(_text(path))


def survey_of_text(text: str) -> Survey:
    """The survey in the text of a table."""
    lines = [
        (n, line) for n, line in enumerate(text.splitlines(), 1) if line.strip() and not line.lstrip().startswith("#")
    ]
    if len(lines) < 2:
        raise TurfplanError(
            Problem(
                "", "holds no measurements", None, f"a line of column names ({EXAMPLE}), then a line for each point"
            )
        )
    mark = max(",;\t", key=lambda sign: lines[0][1].count(sign))
    cells = [(n, [cell.strip() for cell in next(csv.reader([line], delimiter=mark))]) for n, line in lines]
    # Where semicolons part the columns a comma is a decimal sign.
    if mark == ";":
        cells = [(n, [re.sub(r"(?<=\d),(?=\d)", ".", cell) for cell in row]) for n, row in cells]
    if found := _GRID.match(cells[0][1][0]):
        return _of_grid(cells, found)
    columns = _columns(cells[0][1])
    rows = _rows(cells[1:], columns)
    return _survey({name for name, _ in columns}, rows)


def _text(path: Path) -> str:
    try:
        raw = path.read_bytes()
    except FileNotFoundError:
        raise TurfplanError(
            Problem("", "no such file", str(path), None, "leveling.survey is found from the brief's folder")
        ) from None
    except OSError as error:
        raise TurfplanError(Problem("", f"cannot be read ({error.strerror})")) from None
    if len(raw) > LARGEST_BYTES or b"\x00" in raw:
        raise TurfplanError(Problem("", "is not a text file"))
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise TurfplanError(Problem("", f"is not UTF-8 text (byte {error.start})")) from None


def _columns(header: Sequence[str]) -> list[tuple[str, str]]:
    """The columns as (name, unit); words have no unit."""
    columns, faults = [], []
    for title in header:
        name, _, unit = title.lower().rpartition("_")
        if title.lower() in WORDS:
            columns.append((title.lower(), ""))
        elif name in LENGTHS and unit in UNITS:
            columns.append((name, unit))
        else:
            columns.append(("", ""))
            faults.append(_bad_column(title.lower(), name, unit))
    names = [name for name, _ in columns if name]
    for name in sorted({n for n in names if names.count(n) > 1}):
        faults.append(Problem(f"column {name}", "is there twice"))
    if faults:
        raise TurfplanError(faults)
    return columns


def _bad_column(title: str, name: str, unit: str) -> Problem:
    where = f"column {title or '(empty)'}"
    if title in LENGTHS:
        return Problem(where, "has no unit in its name", title, f"{title}_m, {title}_ft, {title}_mm, {title}_in, …")
    if name in LENGTHS:
        known = dimension_of(unit)
        message = (
            f"{unit!r} is a unit of {known.replace('_', ' ')}, not of length" if known else f"unknown unit {unit!r}"
        )
        return Problem(where, message, title, ", ".join(UNITS))
    near = nearest(name or title, (*LENGTHS, *WORDS))
    return Problem(where, "unknown column", title, EXAMPLE, f"did you mean {near!r}?" if near else None)


def _rows(cells: Sequence[tuple[int, Sequence[str]]], columns: Sequence[tuple[str, str]]) -> list[Row]:
    rows, faults = [], []
    for line, row in cells:
        if len(row) > len(columns) and any(row[len(columns) :]):
            faults.append(
                Problem(f"line {line}", "has more values than there are columns", str(len(row)), str(len(columns)))
            )
            continue
        words, mm = {}, {}
        for (name, unit), cell in zip(columns, row, strict=False):
            if not cell:
                continue
            if not unit:
                words[name] = cell
                continue
            try:
                mm[name] = parse_quantity(f"{cell.replace('−', '-')} {unit}", "length")
            except TurfplanError:
                faults.append(
                    Problem(f"line {line}: {name}_{unit}", "is not a number", repr(cell), "a number like 12.5 or 3 1/4")
                )
        rows.append(Row(line, words, mm))
    if faults:
        raise TurfplanError(faults)
    return rows


def _survey(names: set[str], rows: Sequence[Row]) -> Survey:
    """The kind of survey that the columns speak of."""
    error = _error(rows)
    if {"length", "width"} <= names:
        return Survey(lows=_lows(rows), error_mm=error)
    given = [name for name in ("height", "depth", "back") if name in names]
    if not {"x", "y"} <= names or len(given) != 1:
        raise TurfplanError(
            Problem(
                "columns",
                "do not make a survey",
                ", ".join(sorted(names)),
                EXAMPLE,
                "give x and y, and one of height, depth, or back and fore",
            )
        )
    if given == ["back"]:
        return _leveled(rows, error)
    points = _points(rows, [row.mm.get(given[0]) for row in rows], [1] * len(rows), -1.0 if given == ["depth"] else 1.0)
    return Survey(points, below_line=given == ["depth"], error_mm=error)


def _error(rows: Sequence[Row]) -> float | None:
    """The error of a reading where the table states it: the root of the mean square."""
    found = [row.mm["error"] for row in rows if "error" in row.mm]
    return (sum(v * v for v in found) / len(found)) ** 0.5 if found else None


def _leveled(rows: Sequence[Row], error: float | None) -> Survey:
    readings = [
        Reading(row.name, row.mm.get("back"), row.mm.get("fore", row.mm.get("between")), row.mm.get("known"))
        for row in rows
    ]
    leveled = level_run(readings)
    kept = [
        (r, h, s)
        for r, h, s in zip(rows, leveled.heights_mm, leveled.setups, strict=True)
        if "x" in r.mm or "y" in r.mm
    ]
    points = _points([r for r, _, _ in kept], [h for _, h, _ in kept], [s for _, _, s in kept], 1.0)
    return Survey(points, leveled=leveled, error_mm=error)


def _points(
    rows: Sequence[Row], heights: Sequence[float | None], setups: Sequence[int], sign: float
) -> tuple[SurveyPoint, ...]:
    points, faults = [], []
    for row, height, setup in zip(rows, heights, setups, strict=True):
        feature = row.words.get("what", "ground").lower()
        if feature not in FEATURES:
            near = nearest(feature, FEATURES)
            faults.append(
                Problem(
                    f"{row.name}: what",
                    "is not one of the allowed words",
                    repr(feature),
                    ", ".join(FEATURES),
                    near and f"did you mean {near!r}?",
                )
            )
            continue
        missing = [name for name in ("x", "y") if name not in row.mm]
        if height is None and feature not in HEIGHTLESS:
            missing.append("depth" if sign < 0 else "height")
        if missing:
            faults.append(Problem(row.name, f"has no {' and no '.join(missing)}"))
            continue
        points.append(
            SurveyPoint(
                row.mm["x"] / 1000, row.mm["y"] / 1000, None if height is None else sign * height, row.name,
                _feature(feature), setup, row.words.get("zone"),
            )
        )  # fmt: skip
    if faults:
        raise TurfplanError(faults)
    return tuple(points)


def _feature(word: str) -> Feature:
    return next(feature for feature in FEATURES if feature == word)


def _lows(rows: Sequence[Row]) -> tuple[LowSpot, ...]:
    return tuple(
        LowSpot(
            row.name if row.words.get("point") else f"the hollow of line {row.line}",
            row.mm.get("length", 0.0) / 1000, row.mm.get("width", 0.0) / 1000,
            row.mm.get("mean_depth", row.mm.get("depth")), row.mm.get("deepest"),
        )
        for row in rows
    )  # fmt: skip


def _of_grid(cells: Sequence[tuple[int, Sequence[str]]], found: re.Match[str]) -> Survey:
    """A table with x along its first line and y down its first column."""
    what, unit, x_unit, y_unit = found.groups()
    rows = []
    for line, row in cells[1:]:
        for x, cell in zip(cells[0][1][1:], row[1:], strict=False):
            if cell:
                rows.append((line, [x, row[0], cell]))
    columns = _columns([f"x_{x_unit}", f"y_{y_unit}", f"{what}_{unit}"])
    read = _rows(rows, columns)
    named = [
        Row(r.line, {"point": f"line {r.line}, x {values[0]}"}, r.mm) for (_, values), r in zip(rows, read, strict=True)
    ]
    points = _points(named, [r.mm.get(what) for r in named], [1] * len(named), -1.0 if what == "depth" else 1.0)
    return Survey(points, below_line=what == "depth")
