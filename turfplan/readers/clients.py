"""Reads a file of clients: one row a lawn, the columns named like the keys of a brief."""

import csv
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from turfplan.brief import Brief, parse_brief
from turfplan.errors import Problem, TurfplanError

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
    """Every row of a clients file. A bad row carries its error; a file without an `id` column is refused whole."""
    try:
        text = path.read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        raise TurfplanError(Problem(str(path), "no such file")) from None
    except UnicodeDecodeError as error:
        raise TurfplanError(Problem(str(path), f"is not UTF-8 text (byte {error.start})")) from None
    except OSError as error:
        raise TurfplanError(Problem(str(path), f"cannot be read ({error.strerror})")) from None
    reader = csv.DictReader(text.splitlines())
    columns = reader.fieldnames or []
    if "id" not in columns:
        raise TurfplanError(
            Problem(
                str(path),
                "has no column `id`",
                ", ".join(columns) or "nothing",
                "id, lawn.area, lawn.grass, place.postal_code, …",
            )
        )
    seen: set[str] = set()
    return tuple(_row(path, number, row, seen) for number, row in _numbered(reader))


def _numbered(reader: "csv.DictReader[str]") -> Iterator[tuple[int, dict[str, Any]]]:
    for row in reader:
        yield reader.line_num, row


def _row(path: Path, line: int, row: dict[str, Any], seen: set[str]) -> ClientRow:
    where = f"{path}: line {line}"
    client = (row.get("id") or "").strip()
    if not _ID.match(client):
        return ClientRow(
            line,
            client,
            None,
            TurfplanError(Problem(f"{where}: id", "is not a client id", repr(client), "1 to 40 of a-z, 0-9 and -")),
        )
    if client in seen:
        return ClientRow(line, client, None, TurfplanError(Problem(f"{where}: id", "is used twice", repr(client))))
    seen.add(client)
    if None in row:
        return ClientRow(line, client, None, TurfplanError(Problem(where, "has more cells than columns")))
    try:
        return ClientRow(line, client, parse_brief(nested(row)), None)
    except TurfplanError as error:
        return ClientRow(line, client, None, error.located(where))


def nested(row: dict[str, Any]) -> dict[str, Any]:
    """The cells of a row as the tables of a brief: dotted columns, lists joined by `;`, dates and numbers read."""
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
        ("_percent", "_share", "people", "hours_per_day", "lead_days", "_minutes", "shade_hours", ".ph")
    ):
        try:
            return float(text) if "." in text or "e" in text.lower() else int(text)
        except ValueError:
            return text
    return text
