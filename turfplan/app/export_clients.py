"""Writes the clients of a data folder as the file in which they came."""

import csv
import io
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from turfplan.app.data_folders import clients_in
from turfplan.business.business_record import Business
from turfplan.business.client_columns import ClientColumn, columns_of, safe_cell, said_cell
from turfplan.business.column_cells import cell_of, leaves, value_of
from turfplan.business.column_forms import CLIENT as CLIENT_TABLE
from turfplan.business.column_forms import ID
from turfplan.business.groups import ClientGroup, in_group
from turfplan.errors import FormError, TurfplanError
from turfplan.files.client_form import ClientFileForm, read_form
from turfplan.files.data_folder import BRIEF, CLIENT
from turfplan.files.reading.business import read_business
from turfplan.files.reading.toml_faults import not_toml
from turfplan.files.system_faults import unreadable
from turfplan.message import Message
from turfplan.phrases import business as phrases

_DRAWN = "lawn.id"
# What every encoding holds.
_WHOLE = "utf-8-sig"


@dataclass(frozen=True, slots=True)
class ClientTable:
    """The file of clients as bytes, how many they are, and what must be told of it."""

    content: bytes
    clients: int
    notes: tuple[Message, ...] = ()


@dataclass(frozen=True, slots=True)
class _ExportedLawn:
    """What a lawn says: its id, its brief and its client as tables, values by dotted keys; and what
    its business says of every lawn."""

    id: str
    brief: Mapping[str, Any]
    client: Mapping[str, Any]
    own: Mapping[str, str]
    defaults: Mapping[str, Any]


def export_clients(output: Path, group: ClientGroup | None = None) -> ClientTable:
    """The clients of a data folder, of a group alone where one is given, in the form in which their
    file last came: separator, encoding, columns, order. What briefs say beyond its columns has
    columns of its own after them.

    Cells are safe in a spreadsheet. Raises TurfplanError for a folder without lawns, and for a
    brief or a client that cannot be read.
    """
    clients = clients_in(output)
    form, business = read_form(output), read_business(output)
    wanted = in_group(clients, group)
    place = {name: number for number, name in enumerate(form.ids)}
    folders = sorted(wanted, key=lambda folder: (place.get(folder.name, len(place)), folder.name))
    defaults = dict(leaves("", business.brief)) if business is not None else {}
    lawns = [_lawn(folder, defaults) for folder in folders]
    columns = _columns(form, business, lawns)
    out = io.StringIO(newline="")
    writer = csv.writer(out, delimiter=form.separator, lineterminator=form.line_end)
    writer.writerow([safe_cell(column.head) for column in columns])
    for lawn in lawns:
        written = form.cells.get(lawn.id, {})
        writer.writerow([_cell(lawn, column, written) for column in columns])
    try:
        return ClientTable(out.getvalue().encode(form.encoding), len(lawns))
    except UnicodeEncodeError:
        note = phrases.other_encoding(encoding=form.encoding)
        return ClientTable(out.getvalue().encode(_WHOLE), len(lawns), (note,))


def _lawn(folder: Path, defaults: Mapping[str, Any]) -> _ExportedLawn:
    client = dict(_tables(folder / CLIENT))
    own = client.pop("own", {})
    return _ExportedLawn(
        folder.name,
        dict(leaves("", _tables(folder / BRIEF))),
        dict(leaves(f"{CLIENT_TABLE}.", client)),
        own,
        defaults,
    )


def _tables(path: Path) -> Mapping[str, Any]:
    """A file of TOML as it is written; nothing where there is none."""
    try:
        return tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except FileNotFoundError:
        return {}
    except OSError as error:
        raise TurfplanError(unreadable(path, error)) from None
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise TurfplanError(not_toml(str(path), error)) from None


def _columns(
    form: ClientFileForm, business: Business | None, lawns: Sequence[_ExportedLawn]
) -> tuple[ClientColumn, ...]:
    """The columns as they came, then what briefs and clients say beside them."""
    named = business.columns if business is not None else {}
    heads = form.heads or (ID,)
    columns, _ = columns_of(heads, named)
    known = {(column.kind, column.key) for column in columns}
    more: dict[tuple[str, str], ClientColumn] = {}
    for lawn in lawns:
        for key, value in lawn.brief.items():
            if key != _DRAWN and lawn.defaults.get(key) != value and not _is_held(key, columns):
                more.setdefault(("brief", key), ClientColumn(key, "brief", key))
        for name in lawn.client:
            key = name.removeprefix(f"{CLIENT_TABLE}.")
            if ("client", key) not in known:
                more.setdefault(("client", key), ClientColumn(name, "client", key))
        for head in lawn.own:
            if ("own", head) not in known:
                more.setdefault(("own", head), ClientColumn(head, "own", head))
    return (*columns, *more.values())


def _is_held(key: str, columns: Sequence[ClientColumn]) -> bool:
    """Whether a key of the brief has its column, or one for each of its parts."""
    return any(
        column.kind == "brief" and (column.key == key or column.key.startswith(f"{key}."))
        for column in columns
    )


def _cell(lawn: _ExportedLawn, column: ClientColumn, written: Mapping[str, str]) -> str:
    """The cell of a lawn; as it was written where it still says what the lawn does."""
    if column.kind == "id":
        return lawn.id
    if column.kind == "own":
        return safe_cell(lawn.own.get(column.key, ""))
    held = lawn.brief if column.kind == "brief" else lawn.client
    key = column.key if column.kind == "brief" else f"{CLIENT_TABLE}.{column.key}"
    value = held.get(key)
    if value is None:
        above, _, last = key.rpartition(".")
        parts = held.get(above)
        value = parts.get(last) if isinstance(parts, Mapping) else None
    if value is None:
        return ""
    before = written.get(column.head)
    if (
        before is not None
        and (lawn.defaults.get(key) if not before else _said(key, before)) == value
    ):
        return safe_cell(said_cell(before))
    return safe_cell(cell_of(key, value))


def _said(key: str, cell: str) -> Any:
    """What a cell says; nothing where it cannot be read any more."""
    try:
        return value_of(key, said_cell(cell.strip()))
    except FormError:
        return None
