"""Reads a file of clients: one row a lawn, whose columns are keys of the brief, of the client, or
the business's own.
"""

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from turfplan.business.business_record import Business
from turfplan.business.client_columns import ClientColumn, columns_of, safe_cell, said_cell
from turfplan.business.client_record import Client
from turfplan.business.column_cells import cell_of, leaves, value_of
from turfplan.business.column_forms import ID
from turfplan.errors import FormError, Problem, TurfplanError
from turfplan.files.reading.brief import brief_from
from turfplan.files.reading.business import record_from
from turfplan.files.reading.client_tables import TableForm, read_table
from turfplan.message import Worded
from turfplan.phrases import business as business_phrases
from turfplan.phrases import errors
from turfplan.phrases import files as phrases
from turfplan.records.brief import Brief, sound_part

_ID = re.compile(r"^[a-z0-9-]{1,40}$")


@dataclass(frozen=True, slots=True)
class ClientRow:
    """One row: its line in the file, the lawn's id, its brief and its client, each also as tables
    of values, or what is wrong with it, by the heads of its columns. `written` are the cells, by
    their heads, that say a value otherwise than turfplan writes it.

    Of a faulty row `brief` is what is left without its faults, so that more can be found in it.
    """

    line: int
    id: str
    brief: Brief | None
    problem: TurfplanError | None
    tables: dict[str, Any] = field(default_factory=dict)
    client: dict[str, Any] = field(default_factory=dict)
    written: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class ClientFile:
    """A file of clients: how it is written, its columns, and its rows in their order."""

    path: Path
    form: TableForm
    columns: tuple[ClientColumn, ...]
    rows: tuple[ClientRow, ...]


def read_clients(path: Path) -> tuple[ClientRow, ...]:
    """The rows of a file of clients that knows no business; raises TurfplanError as
    `read_client_file` does."""
    return read_client_file(path).rows


def read_client_file(path: Path, business: Business | None = None) -> ClientFile:
    """Every row of a file of clients; a bad row carries its faults, one after the other.

    `business` names columns, and says what is true of every lawn. Raises TurfplanError for a file
    that cannot be read, that has no column `id`, or whose heads are at fault.
    """
    named = business.columns if business is not None else {}
    ids = {ID, *(head.casefold() for head, key in named.items() if key.casefold() == ID)}

    def holds_id(heads: Sequence[str]) -> bool:
        return any(head.casefold() in ids for head in heads)

    table = read_table(path, holds_id)
    if not holds_id(table.heads):
        got = ", ".join(table.heads)
        hint = business_phrases.name_columns()
        fault = Problem(str(path), phrases.no_id_column(), got, phrases.id_columns(), hint)
        raise TurfplanError(fault)
    columns, faults = columns_of(table.heads, named)
    if faults:
        raise TurfplanError(faults).located(str(path))
    own = columns_in(columns)
    defaults = business.brief if business is not None else {}
    counted = Counter(_cell(row, own["id"]) for _, row in table.rows)
    rows = tuple(_row(line, row, columns, counted, defaults) for line, row in table.rows)
    return ClientFile(path, table.form, columns, rows)


def columns_in(columns: Sequence[ClientColumn]) -> dict[str, int]:
    """The places of columns by their keys; of the business's own by none."""
    return {column.key: k for k, column in enumerate(columns) if column.kind in ("id", "brief")}


def _cell(row: Sequence[str], place: int) -> str:
    return row[place].strip() if place < len(row) else ""


def _row(
    line: int,
    row: Sequence[str],
    columns: Sequence[ClientColumn],
    counted: Mapping[str, int],
    defaults: Mapping[str, Any],
) -> ClientRow:
    lawn = _cell(row, columns_in(columns)["id"])
    problems = _id_problems(lawn, counted)
    if len(row) > len(columns):
        problems.append(Problem("", phrases.surplus_cells()))
    said = _values(row, columns, dict(leaves("", defaults)))
    client = said.client
    problems += said.problems
    tables = _laid_over(defaults, said.tables)
    brief: Brief | None = None
    heads = {column.key: column.head for column in columns if column.kind == "brief"}
    try:
        brief = brief_from(tables)
    except TurfplanError as error:
        problems += [at_column(problem, heads) for problem in error.problems]
        brief = sound_part(tables)
    heads = {column.key: column.head for column in columns if column.kind == "client"}
    try:
        record_from(client, Client)
    except TurfplanError as error:
        problems += [at_column(problem, heads) for problem in error.problems]
    problem = TurfplanError(problems) if problems else None
    return ClientRow(line, lawn, brief, problem, tables, client, said.written)


@dataclass(slots=True)
class _SaidCell:
    """What the cells of a row say: tables of a brief, keys of a client, cells that are no values,
    and those that are written in another way."""

    tables: dict[str, Any] = field(default_factory=dict)
    client: dict[str, Any] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)
    written: dict[str, str] = field(default_factory=dict)


def _values(
    row: Sequence[str], columns: Sequence[ClientColumn], defaults: Mapping[str, Any]
) -> _SaidCell:
    """The cells of a row; `defaults` are the keys that a business says where a cell is empty."""
    found = _SaidCell()
    own: dict[str, str] = {}
    for column, cell in zip(columns, row, strict=False):
        said = said_cell(cell.strip())
        if not said and column.kind == "brief" and column.key in defaults:
            found.written[column.head] = ""
        if not said or column.kind == "id":
            continue
        if column.kind == "own":
            own[column.key] = said_cell(cell)
            continue
        key = column.key if column.kind == "brief" else f"client.{column.key}"
        try:
            value = value_of(key, said)
        except FormError as error:
            fault = Problem(column.head, error.message, None, error.allowed, error.hint)
            found.problems.append(fault)
            continue
        if safe_cell(cell_of(key, value)) != cell:
            found.written[column.head] = cell
        _put(found.tables if column.kind == "brief" else found.client, column.key, value)
    if own:
        found.client["own"] = own
    return found


def _put(tables: dict[str, Any], key: str, value: Any) -> None:
    *path, last = key.split(".")
    for step in path:
        tables = tables.setdefault(step, {})
    tables[last] = value


def _laid_over(under: Mapping[str, Any], over: Mapping[str, Any]) -> dict[str, Any]:
    """Tables with the values of others laid over them."""
    found = dict(over)
    for key, value in under.items():
        if isinstance(value, Mapping):
            found[key] = _laid_over(value, over.get(key, {}))
        else:
            found.setdefault(key, value)
    return found


def at_column(problem: Problem, heads: Mapping[str, str]) -> Problem:
    """A fault of a key at the head of the column that holds it."""
    where = problem.where
    if not isinstance(where, str):
        return problem
    key = where
    while key and key not in heads:
        key = key.rpartition(".")[0]
    place: Worded = heads.get(key, where)
    return Problem(place, problem.message, problem.got, problem.allowed, problem.hint)


def _id_problems(lawn: str, counted: Mapping[str, int]) -> list[Problem]:
    """What is wrong with the id of a row, if anything is: of rows that share one, nobody knows
    which is meant."""
    if not _ID.match(lawn):
        return [Problem(ID, phrases.not_client_id(), repr(lawn), phrases.client_id())]
    if counted[lawn] > 1:
        return [Problem(ID, errors.used_twice(), repr(lawn))]
    return []
