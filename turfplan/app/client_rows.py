"""Tells which rows of a clients file can be used, with every fault of those that cannot."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from turfplan.app.client_import import faults_of_row
from turfplan.app.lawn_identity import shared_identity
from turfplan.errors import Problem, TurfplanError, within
from turfplan.files.data_folder import known_lawn_id, lawn_folders
from turfplan.files.reading.clients import ClientFile, ClientRow, at_column
from turfplan.phrases import business as phrases
from turfplan.phrases import errors


def checked_rows(
    read: ClientFile, lawns: Path, *, known: Callable[[ClientRow], bool] = lambda _: False
) -> tuple[ClientRow, ...]:
    """The rows, a bad one with all that is wrong with it: form, names, place, files, and an
    identity that another lawn has, of a row or of a folder in `lawns`. What is `known` was looked
    at before."""
    heads = {column.key: column.head for column in read.columns if column.kind == "brief"}
    rows = tuple(row if known(row) else _checked(row, read.path.parent, heads) for row in read.rows)
    return _told_apart(rows, lawns)


def _checked(row: ClientRow, base: Path, heads: Mapping[str, str]) -> ClientRow:
    faults = [at_column(problem, heads) for problem in faults_of_row(row, base)]
    known = row.problem.problems if row.problem is not None else ()
    told = {problem.where for problem in known}
    more = [problem for problem in faults if problem.where not in told]
    return replace(row, problem=TurfplanError([*known, *more])) if more else row


def at_line(problem: Problem, line: int, client: str) -> Problem:
    """A fault of a row with its line, and its id as far as it has one, before its column."""
    place = phrases.line_of(line=line, client=client) if client else errors.line(number=str(line))
    return replace(problem, where=within(place, problem.where))


def _told_apart(rows: Sequence[ClientRow], lawns: Path) -> tuple[ClientRow, ...]:
    """The rows; one whose lawn has the identity of another, of a row or of a folder beside it, is a
    bad one."""
    folders = {folder: known_lawn_id(folder) for folder in lawn_folders(lawns)}
    for row in rows:
        if row.problem is not None:
            continue
        wanted = _wanted(row)
        if wanted or lawns / row.id not in folders:
            folders[lawns / row.id] = wanted or known_lawn_id(lawns / row.id)
    of_id: dict[str | None, list[Path]] = {}
    for folder, lawn_id in folders.items():
        of_id.setdefault(lawn_id, []).append(folder)
    return tuple(_apart(row, folders, of_id, lawns / row.id) for row in rows)


def _wanted(row: ClientRow) -> str | None:
    found = row.tables.get("lawn", {}).get("id")
    return found if isinstance(found, str) else None


def _apart(
    row: ClientRow,
    folders: Mapping[Path, str | None],
    of_id: Mapping[str | None, Sequence[Path]],
    folder: Path,
) -> ClientRow:
    """A row, with its problem where its lawn's identity is that of another folder too."""
    lawn_id = folders.get(folder) if row.problem is None else None
    if lawn_id is None:
        return row
    others = [other for other in of_id[lawn_id] if other != folder]
    if not others:
        return row
    return replace(row, problem=TurfplanError(shared_identity(folder, others[0], lawn_id)))
