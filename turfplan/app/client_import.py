"""Brings a row of a clients file into its lawn's folder as a brief."""

import hashlib
import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from turfplan.app.inputs import PlanInputs, input_of
from turfplan.app.lawn_identity import drawn_lawn_id
from turfplan.errors import Problem, TurfplanError
from turfplan.files.brief_text import brief_text
from turfplan.files.data_folder import BRIEF, brief_lawn_id, known_lawn_id
from turfplan.files.journal import BYTE_ORDER_MARK
from turfplan.files.named_copies import named_copies, names_of
from turfplan.files.plan_folder import folder_lock
from turfplan.files.reading.brief import brief_from, read_brief
from turfplan.files.reading.clients import ClientRow
from turfplan.files.whole_files import sweep, write_into_folders
from turfplan.phrases import errors
from turfplan.phrases import files as phrases

_TEMPORARY = ".turfplan-import-"
# The first line of a brief that was brought in: the file it came from, and the sums of what came.
_SOURCE = re.compile(rb"# turfplan clients plan [^\n]*?((?: [0-9a-f]{16})+)\r?\n")


@dataclass(frozen=True, slots=True)
class _Brought:
    """What a row brings into a folder: the text of its brief and the files that it names."""

    text: bytes
    files: Mapping[str, bytes]

    @property
    def sums(self) -> tuple[str, ...]:
        """The sums of its text and of its files, by their names."""
        return (_sum(self.text), *(_sum(self.files[name]) for name in sorted(self.files)))


def _sum(content: bytes) -> str:
    """The first sixteen digits of the digest of what a file says: neither line ends of the other
    kind nor a byte-order mark are a change."""
    said = content.removeprefix(BYTE_ORDER_MARK).replace(b"\r\n", b"\n")
    return hashlib.sha256(said).hexdigest()[:16]


def import_row(row: ClientRow, file: Path, folder: Path) -> PlanInputs:
    """Write the brief of a row, and the files that it names, into its lawn's folder; returns what
    planning it reads.

    The lawn keeps the identity that its folder has; else one is drawn, for the row's id is none. A
    brief that was changed by hand stands while its row stays as it was. Raises TurfplanError for a
    row that is no brief, a folder of another lawn, and where both brief and row have changed;
    OSError where the folder cannot be written to.
    """
    assert row.brief is not None  # the caller tells rows without one
    lawn_id = _identity(row, folder)
    lawn = {**row.tables["lawn"], "id": lawn_id}
    tables = {**row.tables, "lawn": lawn}
    brief = brief_from(tables)
    base = file.parent
    new = _Brought(brief_text(tables).encode(), named_copies(brief, base))
    given = input_of(brief, base)
    with folder_lock(folder):
        if _stands(folder / BRIEF, new):
            edited = read_brief(folder / BRIEF)
            return input_of(edited.brief, folder)
        head = f"# turfplan clients plan {file.name} {' '.join(new.sums)}\n".encode()
        targets = {folder / name: content for name, content in new.files.items()}
        sweep((target.parent for target in targets), _TEMPORARY)
        write_into_folders({**targets, folder / BRIEF: head + new.text}, _TEMPORARY)
    return given


def _identity(row: ClientRow, folder: Path) -> str:
    """The identity of a row's lawn; raises TurfplanError where its folder has another one than the
    row says."""
    assert row.brief is not None
    wanted, known = row.brief.lawn.id, known_lawn_id(folder)
    if wanted and known and wanted != known:
        hint = errors.other_folder()
        raise TurfplanError(Problem(str(folder), phrases.another_lawn(), known, wanted, hint))
    return wanted or known or brief_lawn_id(folder / BRIEF) or drawn_lawn_id()


def _stands(path: Path, new: _Brought) -> bool:
    """Whether the brief that lies in a folder stays: the row brings nothing new.

    Raises TurfplanError where both have changed since the row was last brought in.
    """
    if not path.exists():
        return False
    raw = path.read_bytes().removeprefix(BYTE_ORDER_MARK)
    found = _SOURCE.match(raw)
    last = tuple(found[1].decode().split()) if found else ()
    if last == new.sums:
        return True
    if found is None or not _is_as_brought(path, raw[found.end() :], last, new):
        hint = phrases.settle_row(brief=str(path))
        raise TurfplanError(Problem(str(path), phrases.both_changed(), None, None, hint))
    return False


def _is_as_brought(path: Path, text: bytes, last: tuple[str, ...], new: _Brought) -> bool:
    """Whether nobody has changed a brief or its files since they were brought in. A file that is
    the row's already, which a killed run has left, is as good."""
    named = sorted(names_of(read_brief(path).brief).values())
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
