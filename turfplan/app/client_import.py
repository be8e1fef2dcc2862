"""Brings a row of a clients file into its lawn's folder: a brief, the files that it names, and the
client."""

import hashlib
import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal

from turfplan.app.inputs import PlanInputs, faults_of_names, input_of, read_input
from turfplan.app.lawn_identity import drawn_lawn_id
from turfplan.errors import Problem, TurfplanError
from turfplan.files.brief_text import brief_text
from turfplan.files.data_folder import BRIEF, CLIENT, brief_lawn_id, known_lawn_id
from turfplan.files.house_folder import BROUGHT_IN
from turfplan.files.journal import BYTE_ORDER_MARK
from turfplan.files.named_copies import named_copies, names_of
from turfplan.files.plan_folder import folder_lock
from turfplan.files.reading.brief import brief_from, read_brief
from turfplan.files.reading.clients import ClientRow
from turfplan.files.whole_files import sweep, write_into_folders
from turfplan.phrases import errors
from turfplan.phrases import files as phrases

_TEMPORARY = ".turfplan-import-"
# The first line of a file that was brought in: the file it came from, and the sums of what came.
_SOURCE = re.compile(re.escape(BROUGHT_IN) + rb"(?:plan|import) [^\n]*?((?: [0-9a-f]{16})+)\r?\n")
# That of a client that was sold since: the sum of what came, and that of what was written then.
_SOLD = re.compile(rb"# turfplan clients sold ([0-9a-f]{16}) ([0-9a-f]{16})\r?\n")
RowNews = Literal["new", "changed", "unchanged"]


@dataclass(frozen=True, slots=True)
class _Brought:
    """What a row brings into a folder: the text of a file and the files that it names."""

    name: str
    text: bytes
    files: Mapping[str, bytes]

    @property
    def sums(self) -> tuple[str, ...]:
        """The sums of its text and of its files, by their names."""
        return (_sum(self.text), *(_sum(self.files[name]) for name in sorted(self.files)))

    def lines(self, source: str) -> bytes:
        """The text below the line that says where it came from."""
        line = f"plan {source} {' '.join(self.sums)}\n"
        return BROUGHT_IN + line.encode() + self.text


def _sum(content: bytes) -> str:
    """The first sixteen digits of the digest of what a file says: neither line ends of the other
    kind nor a byte-order mark are a change."""
    said = content.removeprefix(BYTE_ORDER_MARK).replace(b"\r\n", b"\n")
    return hashlib.sha256(said).hexdigest()[:16]


def faults_of_row(row: ClientRow, base: Path) -> tuple[Problem, ...]:
    """What names, place and files of a row are at fault besides its form, by the keys of its brief;
    file names start from `base`."""
    if row.brief is None:
        return ()
    problems = list(faults_of_names(row.brief, base))
    if row.problem is None:
        try:
            named_copies(row.brief, base)
            if names_of(row.brief) and not problems:
                input_of(row.brief, base, of_client=True)
        except TurfplanError as error:
            problems += error.problems
    return tuple(problems)


def import_row(row: ClientRow, file: Path, folder: Path) -> PlanInputs:
    """Bring a row into its lawn's folder; returns what planning the lawn reads.

    Raises TurfplanError and OSError as `bring_row` does, and for what cannot be planned.
    """
    bring_row(row, file, folder)
    return read_input(folder / BRIEF, of_client=True)


def bring_row(row: ClientRow, file: Path, folder: Path) -> RowNews:
    """Write the brief of a row, the files that it names and its client into its lawn's folder.

    The lawn keeps the identity that its folder has; else one is drawn, for the row's id is none.
    What was changed by hand stands while its row stays as it was. Raises TurfplanError for a row
    that cannot be used, a folder of another lawn, and where both file and row have changed; OSError
    where the folder cannot be written to.
    """
    if row.problem is not None:
        raise row.problem
    faults = faults_of_row(row, file.parent)
    if faults:
        raise TurfplanError(faults)
    brought = _all_brought(row, file.parent, folder)
    with folder_lock(folder):
        fresh = not (folder / BRIEF).exists()
        new = [one for one in brought if not _stands(folder / one.name, one)]
        targets = {folder / name: content for one in new for name, content in one.files.items()}
        targets |= {folder / one.name: one.lines(file.name) for one in new}
        if targets:
            sweep((target.parent for target in targets), _TEMPORARY)
            write_into_folders(targets, _TEMPORARY)
    return "new" if fresh else "changed" if new else "unchanged"


def news_of_row(row: ClientRow, file: Path, folder: Path) -> RowNews:
    """What bringing a row in would be; nothing is written. Raises TurfplanError as `bring_row`
    does."""
    if not (folder / BRIEF).exists():
        _identity(row, folder)
        return "new"
    brought = _all_brought(row, file.parent, folder)
    return "unchanged" if all(_stands(folder / one.name, one) for one in brought) else "changed"


def _all_brought(row: ClientRow, base: Path, folder: Path) -> tuple[_Brought, ...]:
    """The files that a row brings; of a client nothing where the row says nothing of one, unless
    its folder holds one."""
    tables = row.tables
    tables = {**tables, "lawn": {**tables["lawn"], "id": _identity(row, folder)}}
    brief = brief_from(tables)
    brought = [_Brought(BRIEF, brief_text(tables).encode(), named_copies(brief, base))]
    if row.client or _came_from_row(folder / CLIENT):
        brought.append(_Brought(CLIENT, _client_text(row.client), {}))
    return tuple(brought)


def _client_text(client: Mapping[str, Any]) -> bytes:
    return brief_text(client).encode() if client else b""


def _came_from_row(path: Path) -> bool:
    """Whether a file was brought in by a row once, and not written by hand from the start."""
    try:
        raw = path.read_bytes().removeprefix(BYTE_ORDER_MARK)
    except OSError:
        return False
    return (_SOURCE.match(raw) or _SOLD.match(raw)) is not None


def sold_text(before: bytes, text: bytes) -> bytes:
    """The text of a new owner, with what tells a row that came before the sale from a later one."""
    raw = before.removeprefix(BYTE_ORDER_MARK)
    if sold := _SOLD.match(raw):
        row = sold[1].decode()
    elif brought := _SOURCE.match(raw):
        row = brought[1].decode().split()[0]
    else:
        return text
    return f"# turfplan clients sold {row} {_sum(text)}\n".encode() + text


def _identity(row: ClientRow, folder: Path) -> str:
    """The identity of a row's lawn; raises TurfplanError where its folder has another one than the
    row says."""
    wanted, known = row.tables.get("lawn", {}).get("id"), known_lawn_id(folder)
    if wanted and known and wanted != known:
        hint = errors.other_folder()
        raise TurfplanError(Problem(str(folder), phrases.another_lawn(), known, wanted, hint))
    return wanted or known or brief_lawn_id(folder / BRIEF) or drawn_lawn_id()


def is_brought(folder: Path) -> bool:
    """Whether the lawn of a folder came from a clients file."""
    return _came_from_row(folder / BRIEF)


def _stands(path: Path, new: _Brought) -> bool:
    """Whether the file that lies in a folder stays: the row brings nothing new.

    Raises TurfplanError where both have changed since the row was last brought in.
    """
    if not path.exists():
        return False
    raw = path.read_bytes().removeprefix(BYTE_ORDER_MARK)
    if sold := _SOLD.match(raw):
        # The row of the owner before stays out; the first one that says something else is taken.
        if (sold[1].decode(),) == new.sums:
            return True
        if _sum(raw[sold.end() :]) == sold[2].decode():
            return False
    found = _SOURCE.match(raw)
    last = tuple(found[1].decode().split()) if found else ()
    if last == new.sums:
        return True
    if found is None or not _is_as_brought(path, raw[found.end() :], last, new):
        hint = phrases.settle_row(brief=str(path))
        raise TurfplanError(Problem(str(path), phrases.both_changed(), None, None, hint))
    return False


def _is_as_brought(path: Path, text: bytes, last: tuple[str, ...], new: _Brought) -> bool:
    """Whether nobody has changed a file or those that it names since they were brought in. A file
    that is the row's already, which a killed run has left, is as good."""
    named = sorted(names_of(read_brief(path).brief).values()) if path.name == BRIEF else []
    if _sum(text) != last[0] or len(last) != 1 + len(named):
        return False
    for name, was in zip(named, last[1:], strict=True):
        try:
            lies = (path.parent / name).read_bytes()
        except FileNotFoundError:
            continue
        if _sum(lies) != was and lies != new.files.get(name):
            return False
    return True
