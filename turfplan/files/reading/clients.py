"""Reads a file of clients: one row a lawn, the columns named like the keys of a brief."""

import csv
import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from turfplan.errors import Problem, TurfplanError, within
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
    """One row: its line in the file, the client's id, and its brief or what is wrong with it."""

    line: int
    id: str
    brief: Brief | None
    problem: TurfplanError | None


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
    seen: set[str] = set()
    return tuple(_row(path, number, row, seen) for number, row in _numbered(reader))


def _numbered(reader: "csv.DictReader[str]") -> Iterator[tuple[int, dict[str, Any]]]:
    for row in reader:
        yield reader.line_num, row


def _row(path: Path, line: int, row: dict[str, Any], seen: set[str]) -> ClientRow:
    where = within(str(path), errors.line(number=str(line)))
    client = (row.get("id") or "").strip()
    problem = _id_problem(within(where, "id"), client, seen)
    seen.add(client)
    if problem is None and None in row:
        problem = Problem(where, phrases.surplus_cells())
    if problem is not None:
        return ClientRow(line, client, None, TurfplanError(problem))
    try:
        return ClientRow(line, client, brief_from(nested(row)), None)
    except TurfplanError as error:
        return ClientRow(line, client, None, error.located(where))


def _id_problem(where: Worded, client: str, seen: Collection[str]) -> Problem | None:
    """What is wrong with the id of a client, if anything is."""
    if not _ID.match(client):
        return Problem(where, phrases.not_client_id(), repr(client), phrases.client_id())
    if client in seen:
        return Problem(where, errors.used_twice(), repr(client))
    return None


def nested(row: dict[str, Any]) -> dict[str, Any]:
    """The cells of a row as the tables of a brief.

    Columns are dotted, lists joined by `;`; dates and numbers are read.
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
        table[key] = _value(column, text)
    data.setdefault("lawn", {}).setdefault("id", row["id"].strip())
    return data


def _value(column: str, text: str) -> Any:
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
