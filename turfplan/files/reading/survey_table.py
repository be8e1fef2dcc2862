"""Reads the table of a survey: heights, depths, rod readings or hollows, each with its unit."""

import csv
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from turfplan.errors import Problem, TurfplanError, did_you_mean
from turfplan.files.reading.named_files import named_bytes, utf8_text
from turfplan.message import Message, Worded, listed, said
from turfplan.phrases import errors
from turfplan.phrases import survey as phrases
from turfplan.site.survey.records import FEATURES, HEIGHTLESS, Feature, LowSpot, Survey, SurveyPoint
from turfplan.site.survey.rod_readings import Reading, level_run
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
COLUMNS = phrases.fault_columns(
    heights="x_m, y_m, height_mm",
    depths="x_ft, y_ft, depth_in",
    readings="point, back_ft, fore_ft, x_ft, y_ft",
    hollows="length_ft, width_ft, depth_in",
)
KINDS_OF_HEIGHT = phrases.fault_no_survey_hint(
    x="x", y="y", height="height", depth="depth", back="back", fore="fore"
)
_GRID = re.compile(r"^(height|depth)_(\w+) by x_(\w+) and y_(\w+)$")


@dataclass(frozen=True, slots=True)
class SurveyRow:
    """One line of the table: its number in the file, its texts, and its lengths in mm."""

    line: int
    texts: Mapping[str, str]
    mm: Mapping[str, float]
    called: Message | None = None

    @property
    def name(self) -> Worded:
        """The point's own name, else its place in the table."""
        return self.texts.get("point") or self.called or phrases.name_line(line=self.line)


def read_survey(path: Path) -> Survey:
    """The survey in a CSV file; raises TurfplanError with every fault.

    Columns are parted by comma, semicolon or tab; lines with # are remarks.
    """
    return survey_of_text(table_text(path))


def survey_of_text(text: str) -> Survey:
    """The survey in the text of a table; raises TurfplanError with every fault."""
    cells = cells_of_text(text)
    if len(cells) < 2:
        raise TurfplanError(
            Problem(
                "",
                phrases.fault_empty(),
                None,
                phrases.fault_table(columns=COLUMNS),
            )
        )
    if head := _GRID.match(cells[0][1][0]):
        return _of_grid(cells, head)
    columns = _columns(cells[0][1])
    rows = _rows(cells[1:], columns)
    return _survey({name for name, _ in columns}, rows)


def cells_of_text(text: str) -> list[tuple[int, list[str]]]:
    """The lines of a table that are no remarks, each with its number and its cells; empty where it
    holds nothing."""
    lines = [
        (n, line)
        for n, line in enumerate(text.splitlines(), 1)
        if line.strip() and not line.lstrip().startswith("#")
    ]
    if not lines:
        return []
    mark = max(",;\t", key=lambda sign: lines[0][1].count(sign))
    cells = [
        (n, [cell.strip() for cell in next(csv.reader([line], delimiter=mark))])
        for n, line in lines
    ]
    # Where semicolons part the columns a comma is a decimal sign.
    if mark == ";":
        cells = [(n, [re.sub(r"(?<=\d),(?=\d)", ".", cell) for cell in row]) for n, row in cells]
    return cells


def is_grid(head: Sequence[str]) -> bool:
    """Whether the first row of a table is that of a grid of heights or depths."""
    return bool(head) and _GRID.match(head[0]) is not None


def table_text(path: Path) -> str:
    """The text of the table of a survey.

    Raises TurfplanError for a file that is not there, too large, or no text.
    """
    raw = named_bytes(path, "leveling.survey")
    if len(raw) > LARGEST_BYTES or b"\x00" in raw:
        raise TurfplanError(Problem("", errors.not_text()))
    return utf8_text(raw)


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
        faults.append(Problem(phrases.name_column(name=name), phrases.fault_twice()))
    if faults:
        raise TurfplanError(faults)
    return columns


def _bad_column(title: str, name: str, unit: str) -> Problem:
    where = phrases.name_column(name=title) if title else phrases.name_empty_column()
    if title in LENGTHS:
        units = f"{title}_m, {title}_ft, {title}_mm, {title}_in, …"
        return Problem(where, phrases.fault_no_unit(), title, units)
    if name in LENGTHS:
        known = dimension_of(unit)
        fault = (
            phrases.fault_other_unit(unit=repr(unit), dimension=Message(f"units.dimension.{known}"))
            if known
            else phrases.fault_unknown_unit(unit=repr(unit))
        )
        return Problem(where, fault, title, ", ".join(UNITS))
    hint = did_you_mean(name or title, (*LENGTHS, *WORDS))
    return Problem(where, phrases.fault_unknown_column(), title, COLUMNS, hint)


def _rows(
    cells: Sequence[tuple[int, Sequence[str]]], columns: Sequence[tuple[str, str]]
) -> list[SurveyRow]:
    rows, faults = [], []
    for line, row in cells:
        if len(row) > len(columns) and any(row[len(columns) :]):
            faults.append(
                Problem(
                    phrases.name_line(line=line),
                    phrases.fault_more_values(),
                    str(len(row)),
                    str(len(columns)),
                )
            )
            continue
        texts, mm = {}, {}
        for (name, unit), cell in zip(columns, row, strict=False):
            if not cell:
                continue
            if not unit:
                texts[name] = cell
                continue
            try:
                mm[name] = parse_quantity(f"{cell.replace('−', '-')} {unit}", "length")
            except TurfplanError:
                faults.append(
                    Problem(
                        phrases.name_cell(line=line, column=f"{name}_{unit}"),
                        phrases.fault_no_number(),
                        repr(cell),
                        phrases.fault_number(),
                    )
                )
        rows.append(SurveyRow(line, texts, mm))
    if faults:
        raise TurfplanError(faults)
    return rows


def _survey(names: set[str], rows: Sequence[SurveyRow]) -> Survey:
    """The kind of survey that the columns speak of."""
    error = _error(rows)
    if {"length", "width"} <= names:
        return Survey(lows=_lows(rows), error_mm=error)
    given = [name for name in ("height", "depth", "back") if name in names]
    if not {"x", "y"} <= names or len(given) != 1:
        raise TurfplanError(
            Problem(
                phrases.name_columns(),
                phrases.fault_no_survey(),
                ", ".join(sorted(names)),
                COLUMNS,
                KINDS_OF_HEIGHT,
            )
        )
    if given == ["back"]:
        return _leveled(rows, error)
    points = _points(
        rows,
        [row.mm.get(given[0]) for row in rows],
        [1] * len(rows),
        -1.0 if given == ["depth"] else 1.0,
    )
    return Survey(points, below_line=given == ["depth"], error_mm=error)


def _error(rows: Sequence[SurveyRow]) -> float | None:
    """The error of a reading where the table states it: the root of the mean square."""
    stated = [row.mm["error"] for row in rows if "error" in row.mm]
    return (sum(v * v for v in stated) / len(stated)) ** 0.5 if stated else None


def _leveled(rows: Sequence[SurveyRow], error: float | None) -> Survey:
    readings = [
        Reading(
            row.name,
            row.mm.get("back"),
            row.mm.get("fore", row.mm.get("between")),
            row.mm.get("known"),
        )
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
    rows: Sequence[SurveyRow], heights: Sequence[float | None], setups: Sequence[int], sign: float
) -> tuple[SurveyPoint, ...]:
    points, faults = [], []
    for row, height, setup in zip(rows, heights, setups, strict=True):
        feature = row.texts.get("what", "ground").lower()
        if feature not in FEATURES:
            faults.append(
                Problem(
                    phrases.name_what(point=said(row.name)),
                    phrases.fault_what(),
                    repr(feature),
                    ", ".join(FEATURES),
                    did_you_mean(feature, FEATURES),
                )
            )
            continue
        missing = [name for name in ("x", "y") if name not in row.mm]
        if height is None and feature not in HEIGHTLESS:
            missing.append("depth" if sign < 0 else "height")
        if missing:
            lacking = listed((phrases.fault_no_column(column=c) for c in missing), "every_and")
            faults.append(Problem(row.name, phrases.fault_lacks(columns=lacking)))
            continue
        points.append(
            SurveyPoint(
                row.mm["x"] / 1000,
                row.mm["y"] / 1000,
                None if height is None else sign * height,
                row.name,
                _feature(feature),
                setup,
                row.texts.get("zone"),
            )
        )
    if faults:
        raise TurfplanError(faults)
    return tuple(points)


def _feature(word: str) -> Feature:
    return next(feature for feature in FEATURES if feature == word)


def _lows(rows: Sequence[SurveyRow]) -> tuple[LowSpot, ...]:
    return tuple(
        LowSpot(
            row.texts.get("point") or phrases.name_hollow(line=row.line),
            row.mm.get("length", 0.0) / 1000,
            row.mm.get("width", 0.0) / 1000,
            row.mm.get("mean_depth", row.mm.get("depth")),
            row.mm.get("deepest"),
        )
        for row in rows
    )


def _of_grid(cells: Sequence[tuple[int, Sequence[str]]], head: re.Match[str]) -> Survey:
    """A table with x along its first line and y down its first column."""
    what, unit, x_unit, y_unit = head.groups()
    rows = []
    for line, row in cells[1:]:
        for x, cell in zip(cells[0][1][1:], row[1:], strict=False):
            if cell:
                rows.append((line, [x, row[0], cell]))
    columns = _columns([f"x_{x_unit}", f"y_{y_unit}", f"{what}_{unit}"])
    read = _rows(rows, columns)
    named = [
        SurveyRow(r.line, {}, r.mm, phrases.name_grid_cell(line=r.line, across=values[0]))
        for (_, values), r in zip(rows, read, strict=True)
    ]
    points = _points(
        named, [r.mm.get(what) for r in named], [1] * len(named), -1.0 if what == "depth" else 1.0
    )
    return Survey(points, below_line=what == "depth")
