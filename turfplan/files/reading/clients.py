"""Reads a file of clients: one row a lawn, the columns named like the keys of a brief."""

import csv
import re
from collections import Counter
from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Any

from turfplan.errors import Problem, TurfplanError, library_words, within
from turfplan.files.reading.brief import brief_from
from turfplan.files.system_faults import unreadable
from turfplan.message import Worded
from turfplan.phrases import errors
from turfplan.phrases import files as phrases
from turfplan.records.brief import Brief

_ID = re.compile(r"^[a-z0-9-]{1,40}$")
_LISTS = frozenset(
    {
        "calendar.weekdays",
        "water.allowed_weekdays",
        "water.allowed_hours",
        "water.catch_cans",
        "delivery.allowed_weekdays",
        "work.machines",
    }
)
_DATES = frozenset({"season.from", "season.until", "soil_test.on"})


@dataclass(frozen=True, slots=True)
class ClientRow:
    """One row: its line in the file, the client's id, and its brief, also as tables of values, or
    what is wrong with it."""

    line: int
    id: str
    brief: Brief | None
    problem: TurfplanError | None
    tables: dict[str, Any] = field(default_factory=dict)


def read_clients(path: Path) -> tuple[ClientRow, ...]:
    """Every row of a clients file; a bad row carries its error.

    Raises TurfplanError for a file that cannot be read, or that has no `id` column.
    """
    try:
        text = path.read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        raise TurfplanError(Problem(str(path), errors.no_such_file())) from None
    except UnicodeDecodeError as error:
        raise TurfplanError(Problem(str(path), errors.not_utf8(byte=error.start))) from None
    except OSError as error:
        raise TurfplanError(unreadable(path, error)) from None
    reader = csv.DictReader(text.splitlines())
    columns = reader.fieldnames or []
    if "id" not in columns:
        got = ", ".join(columns) or errors.nothing()
        raise TurfplanError(Problem(str(path), phrases.no_id_column(), got, phrases.id_columns()))
    try:
        rows = list(_numbered(reader))
    except csv.Error as error:
        reason = library_words(str(error))
        raise TurfplanError(Problem(str(path), errors.unreadable(reason=reason))) from None
    counted = Counter(_client(row) for _, row in rows)
    return tuple(_row(path, number, row, counted) for number, row in rows)


def _numbered(reader: "csv.DictReader[str]") -> Iterator[tuple[int, dict[str, Any]]]:
    for row in reader:
        yield reader.line_num, row


def _client(row: dict[str, Any]) -> str:
    """The id that a row says."""
    return (row.get("id") or "").strip()


def _row(path: Path, line: int, row: dict[str, Any], counted: Mapping[str, int]) -> ClientRow:
    where = within(str(path), errors.line(number=str(line)))
    client = _client(row)
    problem = _id_problem(within(where, "id"), client, counted)
    if problem is None and None in row:
        problem = Problem(where, phrases.surplus_cells())
    if problem is not None:
        return ClientRow(line, client, None, TurfplanError(problem))
    try:
        tables = nested(row)
        return ClientRow(line, client, brief_from(tables), None, tables)
    except TurfplanError as error:
        return ClientRow(line, client, None, error.located(where))


def _id_problem(where: Worded, client: str, counted: Mapping[str, int]) -> Problem | None:
    """What is wrong with the id of a client, if anything is: of rows that share one, nobody knows
    which is meant."""
    if not _ID.match(client):
        return Problem(where, phrases.not_client_id(), repr(client), phrases.client_id())
    if counted[client] > 1:
        return Problem(where, errors.used_twice(), repr(client))
    return None


def nested(row: dict[str, Any]) -> dict[str, Any]:
    """The cells of a row as the tables of a brief.

    Columns are dotted, lists joined by `;`; dates and numbers are read. Raises TurfplanError for a
    column that is a value and a table at once.
    """
    data: dict[str, Any] = {}
    for column, cell in row.items():
        text = (cell or "").strip()
        if column == "id" or not text:
            continue
        table = data
        *path, key = column.split(".")
        for step in path:
            table = table.setdefault(step, {})
            if not isinstance(table, dict):
                raise TurfplanError(Problem(column, phrases.value_and_table()))
        if isinstance(table.get(key), dict):
            raise TurfplanError(Problem(column, phrases.value_and_table()))
        table[key] = _value(column, text)
    return data


def _value(column: str, text: str) -> Any:
    if column in _DATES:
        with suppress(ValueError):
            return date.fromisoformat(text)
    if column in _LISTS:
        return [part.strip() for part in text.split(";") if part.strip()]
    if text.lower() in ("true", "false"):
        return text.lower() == "true"
    if column in ("place.latitude", "place.longitude") or column.endswith(
        (
            "_percent",
            "_share",
            "people",
            "hours_per_day",
            "lead_days",
            "_minutes",
            "shade_hours",
            ".ph",
        )
    ):
        try:
            return float(text) if "." in text or "e" in text.lower() else int(text)
        except ValueError:
            return text
    return text
