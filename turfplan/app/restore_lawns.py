"""Brings lawns back from an archive, or addresses from a copy that version 0.1 made."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path

from filelock import FileLock, Timeout

from turfplan.app.lawn_identity import refuse_known_elsewhere
from turfplan.app.outputs import outputs, words_of
from turfplan.errors import Problem, TurfplanError, problem_message
from turfplan.files.archive import Archive, ArchivedLawn, is_good_path, open_archive
from turfplan.files.data_folder import BRIEF, INDEX, PLAN, known_lawn_id, plan_lawn_id
from turfplan.files.index import changing, kept_on_success, opened
from turfplan.files.index_copies import (
    SQLITE,
    BroughtTokens,
    IndexRows,
    bring_rows,
    rows_of_copy,
    rows_of_json,
)
from turfplan.files.journal import LOCK_SECONDS
from turfplan.files.plan_folder import folder_lock, write_outputs
from turfplan.files.publish_record import RECORD, record_of
from turfplan.files.reading.plan import read_plan
from turfplan.files.system_faults import unreadable, unwritable
from turfplan.files.whole_files import sweep, write_into_folders
from turfplan.message import Message
from turfplan.phrases import backups as phrases
from turfplan.phrases import errors, files

TokensOf = Callable[[IndexRows, bool], BroughtTokens]
_TEMPORARY = ".turfplan-restore-"


@dataclass(frozen=True, slots=True)
class Restored:
    """What was brought back: lawns, files by their places, what became of addresses in each index,
    and what must be told."""

    lawns: tuple[ArchivedLawn, ...]
    files: tuple[Path, ...]
    tokens: Mapping[Path, BroughtTokens]
    notes: tuple[Message, ...]


def restore_lawns(
    copy: Path,
    to: Path,
    index: Path | None = None,
    *,
    force: bool = False,
    with_addresses: bool = False,
) -> Restored:
    """Bring everything of a copy into the folder `to`, and its addresses into `index`, else into
    indexes that lie there as they lay.

    The copy is looked through as a whole first. A file that is there and differs is refused, or,
    with `force`, kept under another name beside what is brought. What the index knows of addresses
    stands; those that it does not know come back closed unless they are to come `with_addresses`.
    Raises TurfplanError for a copy that is damaged or leads elsewhere, a lawn that is known
    elsewhere, and what cannot be written; nothing has changed then.
    """
    if _starts_as_database(copy):
        rows = rows_of_copy(copy)
        place = index or to / INDEX
        with _index(place) as tokens_of:
            tokens = tokens_of(rows, with_addresses)
        return Restored((), (), {place: tokens}, ())
    with open_archive(copy) as archive:
        return _restored(archive, to, index, force=force, with_addresses=with_addresses)


def _starts_as_database(copy: Path) -> bool:
    try:
        with copy.open("rb") as file:
            return file.read(len(SQLITE)) == SQLITE
    except FileNotFoundError:
        raise TurfplanError(Problem(str(copy), errors.no_such_file())) from None
    except OSError as error:
        raise TurfplanError(unreadable(copy, error)) from None


def _restored(
    archive: Archive, to: Path, index: Path | None, *, force: bool, with_addresses: bool
) -> Restored:
    manifest, root = archive.manifest, to.resolve()
    places = {file: root / file.path for file in manifest.files if file.role != "index"}
    rows: dict[Path, list[IndexRows]] = {}
    for found in manifest.indexes:
        place = index or to / (found.place or INDEX)
        rows.setdefault(place, []).append(_rows(archive, found.rows, root))
    _refuse_leading_out([*places.values(), *(() if index else (p.absolute() for p in rows))], root)
    _refuse_false_names(archive)
    notes = list(_refuse_other_lawns(manifest.lawns, root, list(rows)))
    with _locked(manifest.lawns, root):
        sweep((path.parent for path in places.values()), _TEMPORARY)
        copied = {path: archive.content(file) for file, path in places.items()}
        contents = _placed_records(copied) if with_addresses else copied
        kept = _kept_aside(contents, copied, force=force)
        changed = {path: raw for path, raw in contents.items() if not _same(path, raw)}
        private = {path for file, path in places.items() if file.private}
        aside = {to_: path.read_bytes() for path, to_ in kept.items()}
        tokens: dict[Path, BroughtTokens] = {}
        with ExitStack() as opened_indexes:
            for place, each in rows.items():
                tokens_of = opened_indexes.enter_context(_index(place))
                brought = [tokens_of(found, with_addresses) for found in each]
                tokens[place] = BroughtTokens(
                    tuple(row for one in brought for row in one.opened),
                    tuple(row for one in brought for row in one.closed),
                    sum(one.withdrawn for one in brought),
                )
            _write({**aside, **changed}, private, root)
    notes += [phrases.kept(file=str(path), kept=str(other)) for path, other in kept.items()]
    notes += [
        phrases.outside(name=name, path=str(root / path)) for name, path in manifest.outside.items()
    ]
    notes += _rendered(manifest.lawns, root)
    return Restored(manifest.lawns, tuple(changed), tokens, tuple(notes))


def _rows(archive: Archive, name: str, root: Path) -> IndexRows:
    """The rows of an index in an archive, with folders as they lie below `root`."""
    listed = next(file for file in archive.manifest.files if file.path == name)
    rows = rows_of_json(archive.content(listed), f"{archive.path}: {name}")

    def placed(place: str) -> str:
        if Path(place).is_absolute() or place.startswith("/"):
            return place
        if place != "." and not is_good_path(place):
            fault, hint = phrases.bad_path(), phrases.nothing_restored()
            raise TurfplanError(Problem(f"{archive.path}: {name}", fault, place, None, hint))
        return str(root / place)

    found = rows.placed(placed)
    # A page writes beside its brief: an archive opens no other place of this machine for that.
    lawns = [
        row
        if row.brief is None or Path(row.brief).is_relative_to(root)
        else row.model_copy(update={"brief": None})
        for row in found.lawn
    ]
    # Nor does an address of a house that it brings open what lies elsewhere.
    below = found.with_houses(found, lambda house: house.is_relative_to(root))
    return below.model_copy(update={"lawn": tuple(lawns)})


def _refuse_leading_out(places: Iterable[Path], root: Path) -> None:
    """Raises TurfplanError for a place that a link in the folder leads out of it, or where a folder
    lies."""
    faults = []
    for path in places:
        if not path.parent.resolve().is_relative_to(root):
            faults.append(Problem(str(path), phrases.leads_out()))
        elif path.is_dir():
            faults.append(Problem(str(path), phrases.file_and_folder()))
    if faults:
        raise TurfplanError(faults)


def _refuse_false_names(archive: Archive) -> None:
    """Raises TurfplanError where a plan is that of another lawn than the list of the archive says,
    or of none that it names: what follows looks at the list alone."""
    named = {
        PLAN if lawn.folder == "." else f"{lawn.folder}/{PLAN}": lawn.lawn_id
        for lawn in archive.manifest.lawns
    }
    faults = [
        Problem(
            f"{archive.path}: {file.path}", phrases.false_name(), hint=phrases.nothing_restored()
        )
        for file in archive.manifest.files
        if (file.role == "plan" or Path(file.path).name == PLAN)
        and (
            file.path not in named
            or plan_lawn_id(archive.content(file)) not in (None, named[file.path])
        )
    ]
    if faults:
        raise TurfplanError(faults)


def _refuse_other_lawns(
    lawns: tuple[ArchivedLawn, ...], root: Path, indexes: Sequence[Path]
) -> Iterator[Message]:
    """What must be told of the places of lawns; raises TurfplanError where a folder holds another
    lawn, or another folder one of these."""
    for lawn in lawns:
        folder = root / lawn.folder
        known = known_lawn_id(folder)
        if lawn.lawn_id is None:
            continue
        if known not in (None, lawn.lawn_id):
            raise TurfplanError(Problem(str(folder), files.another_lawn(), known, lawn.lawn_id))
        in_it = lawn.brief is not None and Path(lawn.brief).name == BRIEF
        yield from refuse_known_elsewhere(lawn.lawn_id, folder, beside=in_it, but=indexes)


@contextmanager
def _locked(lawns: tuple[ArchivedLawn, ...], root: Path) -> Iterator[None]:
    """Holds the folder to restore into, and the folders and the journals of all lawns."""
    with ExitStack() as locks:
        for folder in sorted({root, *(root / lawn.folder for lawn in lawns)}):
            locks.enter_context(folder_lock(folder))
        for journal in sorted({root / lawn.journal for lawn in lawns if lawn.journal}):
            if not journal.exists():
                continue
            try:
                locks.enter_context(FileLock(f"{journal}.lock", timeout=LOCK_SECONDS))
            except Timeout:
                raise TurfplanError(
                    Problem(str(journal), errors.in_use(), hint=errors.wait())
                ) from None
            except OSError as error:
                raise TurfplanError(unwritable(journal, error)) from None
        yield


def _placed_records(copied: Mapping[Path, bytes]) -> dict[Path, bytes]:
    """What is brought to each place with its addresses: a lawn is published from its new folder
    under its old names; else it is so only from the folder that it was in."""
    return {
        path: record_of(raw, str(path)).moved_to(path.parent).content
        if path.name == RECORD
        else raw
        for path, raw in copied.items()
    }


def _same(path: Path, content: bytes) -> bool:
    try:
        return path.read_bytes() == content
    except OSError:
        return False


def _kept_aside(
    contents: Mapping[Path, bytes], copied: Mapping[Path, bytes], *, force: bool
) -> dict[Path, Path]:
    """Where each file is kept that is written over, unless it is as it was copied; raises
    TurfplanError for all of them where none may be."""
    differing = [
        path
        for path, raw in contents.items()
        if path.exists() and not (_same(path, raw) or _same(path, copied[path]))
    ]
    if differing and not force:
        hint = phrases.to_or_force()
        raise TurfplanError(
            Problem(str(path), phrases.differs(), hint=hint if path == differing[-1] else None)
            for path in differing
        )
    return {path: _free_name(path) for path in differing}


def _free_name(path: Path) -> Path:
    """A name beside a file that nothing has."""
    number = 1
    while (found := path.with_name(f"{path.name}.before-{number}")).exists():
        number += 1
    return found


def _write(files: Mapping[Path, bytes], private: set[Path], root: Path) -> None:
    """Write all files whole or none."""
    try:
        write_into_folders(files, _TEMPORARY, private)
    except OSError as error:
        raise TurfplanError(unwritable(root, error)) from None


@contextmanager
def _index(path: Path) -> Iterator[TokensOf]:
    """What brings rows into an index; what it did stands once the block ends well, else an index
    that was made for it goes again."""
    with kept_on_success(path), opened(path) as connection, changing(connection):
        yield lambda rows, with_addresses: bring_rows(
            connection, rows, with_addresses=with_addresses
        )


def _rendered(lawns: tuple[ArchivedLawn, ...], root: Path) -> list[Message]:
    """Make the other outputs of each plan that was brought; what cannot be read is told."""
    notes: list[Message] = []
    for folder in dict.fromkeys(root / lawn.folder for lawn in lawns):
        try:
            with folder_lock(folder):
                plan = read_plan(folder)
                if plan is not None:
                    write_outputs(folder, outputs(plan, words_of(plan)))
        except TurfplanError as error:
            notes.append(phrases.not_rendered(fault=problem_message(error.problems[0])))
    return notes
