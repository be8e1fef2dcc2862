"""Brings a file of clients into a data folder, or says what bringing it would change."""

from collections.abc import Collection
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from turfplan.app.client_ends import left_clients
from turfplan.app.client_import import bring_row, is_brought, news_of_row
from turfplan.app.client_rows import checked_rows
from turfplan.business.groups import ClientGroup, in_group
from turfplan.errors import Problem, TurfplanError
from turfplan.files.archived_lawns import archive_lawn
from turfplan.files.client_form import keep_form
from turfplan.files.data_folder import ARCHIVE, lawn_folders, lawns_for_import
from turfplan.files.publish_record import RECORD
from turfplan.files.reading.business import read_business, read_client
from turfplan.files.reading.clients import ClientRow, read_client_file
from turfplan.files.system_faults import unwritable
from turfplan.message import Message
from turfplan.phrases import business as phrases

ImportState = Literal["new", "changed", "unchanged", "back", "left", "bad row", "not written"]


@dataclass(frozen=True, slots=True)
class ImportedRow:
    """What became, or would become, of a row, with every fault of one that is held back."""

    line: int
    client: str
    state: ImportState
    problems: tuple[Problem, ...] = ()


@dataclass(frozen=True, slots=True)
class ImportRun:
    """How a file is brought in: not at all (`dry`), without its bad rows (`only_good`), with the
    lawns archived that it no longer holds (`archive`), of a group alone."""

    dry: bool = False
    only_good: bool = False
    archive: bool = False
    group: ClientGroup | None = None


@dataclass(frozen=True, slots=True)
class ClientImport:
    """What came of a file: its rows, whether they were written, the lawns that it no longer holds,
    those of them that were archived, and what must be told."""

    rows: tuple[ImportedRow, ...]
    written: bool
    gone: tuple[str, ...]
    archived: tuple[str, ...] = ()
    notes: tuple[Message, ...] = ()

    def counted(self, *states: ImportState) -> int:
        """How many rows are in one of these states."""
        return sum(row.state in states for row in self.rows)


def import_clients(file: Path, output: Path, run: ImportRun = ImportRun()) -> ClientImport:
    """Bring every row of a file into the data folder `output`.

    Nothing is written while a row is bad, unless `run` takes the good ones alone; each row is
    written whole. Raises TurfplanError for a file or a `business.toml` that cannot be used.
    """
    read = read_client_file(file, read_business(output))
    lawns = lawns_for_import(output)
    rows = checked_rows(read, lawns)
    left = left_clients(output)
    told = tuple(
        ImportedRow(row.line, row.id, "left")
        if row.id in left
        else _would_be(row, file, lawns, output)
        for row in rows
    )
    gone = _gone(lawns, {row.id for row in rows}, run.group)
    bad = [row for row in told if row.problems]
    if run.dry or (bad and not run.only_good):
        return ClientImport(told, False, gone)
    done = tuple(
        _brought(row, was, file, lawns, output) if not was.problems else was
        for row, was in zip(rows, told, strict=True)
    )
    keep_form(output, read)
    archived, notes = _archived(gone, lawns, output, told) if run.archive else ((), ())
    return ClientImport(done, True, gone, archived, notes)


def _would_be(row: ClientRow, file: Path, lawns: Path, output: Path) -> ImportedRow:
    """What a row would be if it was brought in."""
    if row.problem is not None:
        return ImportedRow(row.line, row.id, "bad row", row.problem.problems)
    folder = lawns / row.id
    if not folder.exists() and (output / ARCHIVE / row.id).is_dir():
        folder, back = output / ARCHIVE / row.id, True
    else:
        back = False
    try:
        news = news_of_row(row, file, folder)
    except TurfplanError as error:
        return ImportedRow(row.line, row.id, "bad row", error.problems)
    return ImportedRow(row.line, row.id, "back" if back else news)


def _brought(
    row: ClientRow, was: ImportedRow, file: Path, lawns: Path, output: Path
) -> ImportedRow:
    """A row, brought in; what the disk refuses is told of it alone."""
    folder = lawns / row.id
    if was.state in ("unchanged", "left"):
        return was
    try:
        if was.state == "back":
            lawns.mkdir(parents=True, exist_ok=True)
            (output / ARCHIVE / row.id).rename(folder)
        news = bring_row(row, file, folder)
    except TurfplanError as error:
        return ImportedRow(row.line, row.id, "not written", error.problems)
    except OSError as error:
        return ImportedRow(row.line, row.id, "not written", (unwritable(folder, error),))
    return ImportedRow(row.line, row.id, "back" if was.state == "back" else news)


def _gone(lawns: Path, ids: Collection[str], group: ClientGroup | None) -> tuple[str, ...]:
    """The lawns that came from a file and are no longer in this one; of a group alone where one is
    given, since another file may hold the others."""
    folders = [
        folder for folder in lawn_folders(lawns) if folder.name not in ids and is_brought(folder)
    ]
    if group is None or not folders:
        return tuple(folder.name for folder in folders)
    clients = {folder.name: read_client(folder) for folder in lawn_folders(lawns)}
    wanted = set(in_group(clients, group))
    return tuple(folder.name for folder in folders if folder.name in wanted)


def _archived(
    gone: tuple[str, ...], lawns: Path, output: Path, rows: tuple[ImportedRow, ...]
) -> tuple[tuple[str, ...], tuple[Message, ...]]:
    """Lawns put into the archive of the data folder, and what must be told; their addresses end.

    None while a row has no id that can be read: it may be the one of a lawn that seems gone.
    """
    if any(problem.where == "id" for row in rows for problem in row.problems):
        return (), (phrases.not_archived(),)
    archived, notes = [], []
    for name in gone:
        folder = lawns / name
        if (folder / RECORD).is_file():
            notes.append(phrases.still_published(client=name))
        archive_lawn(output, folder)
        archived.append(name)
    return tuple(archived), tuple(notes)
