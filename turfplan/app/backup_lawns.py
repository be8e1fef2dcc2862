"""Copies all that lawns need into one archive: what cannot be made again from something else."""

import os
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from turfplan import __version__
from turfplan.errors import Problem, TurfplanError, problem_message
from turfplan.files.archive import ArchivedLawn, FileToKeep, Role, write_archive
from turfplan.files.data_folder import INDEX, LAWNS, brief_lawn_id, known_lawn_id, root_of
from turfplan.files.index_copies import IndexRows, rows_of_index
from turfplan.files.journal import read_journal
from turfplan.files.lawn_files import LawnPlace, business_file, distinct, lawns_at
from turfplan.files.named_copies import is_below, names_of
from turfplan.files.publish_record import RECORD
from turfplan.files.reading.brief import read_brief
from turfplan.files.reading.plan import read_plan
from turfplan.files.system_faults import unreadable
from turfplan.message import Message
from turfplan.phrases import backups as phrases
from turfplan.phrases import errors

OUTSIDE = "turfplan-outside"
INDEX_ROWS = "turfplan.index.json"


@dataclass(frozen=True, slots=True)
class Backup:
    """An archive that was written: the lawns and files in it, how many addresses, and what must be
    told."""

    path: Path
    lawns: tuple[ArchivedLawn, ...]
    files: tuple[str, ...]
    addresses: int
    notes: tuple[Message, ...]


def backup_lawns(to: Path, what: Sequence[Path], index: Path | None) -> Backup:
    """Write one archive of all that the named lawns need: briefs, the files that these name,
    journals, plans, clients, the business, names of published feeds, and the rows of the index.

    `what` are briefs, lawns' folders and data folders; without any, all that the index knows and
    all that lies beside it. Without `index` it is the one of the data folder, or of the working
    directory, where there is one. Raises TurfplanError where nothing is found, or a file cannot be
    read, and for an archive that cannot be written.
    """
    rows, index = _rows(index, what)
    places = list(what) or [index.parent if index is not None else Path()]
    lawns = [lawn for path in places for lawn in _found(path)]
    if not what and rows is not None:
        known = (
            LawnPlace(Path(row.folder), Path(row.brief) if row.brief else None) for row in rows.lawn
        )
        lawns += [lawn for lawn in known if lawn.plan is not None]
    lawns = list(distinct(lawns))
    if not lawns and (what or rows is None):
        where = ", ".join(map(str, places))
        raise TurfplanError(Problem(where, phrases.nothing_here(), hint=phrases.name_lawns()))
    gathered = _Gathering()
    for lawn in lawns:
        gathered.add_lawn(lawn)
    for path in dict.fromkeys([*places, *(root_of(lawn.folder) for lawn in lawns)]):
        if (business := business_file(path)) is not None:
            gathered.add(business, "record")
    if rows is not None and what:
        rows = rows.of({lawn.folder.resolve() for lawn in lawns})
    named = [path.resolve() for path in places if path.is_dir()]
    return gathered.written(to, lawns, rows, named)


def _rows(index: Path | None, what: Sequence[Path]) -> tuple[IndexRows | None, Path | None]:
    """The rows of the index, and where it lies; one that was named has to be there."""
    if index is not None:
        return rows_of_index(index), index.absolute()
    above = [path.absolute() for path in what]
    looked = [path / INDEX for path in above] + [root_of(path) / INDEX for path in above]
    for path in (*looked, Path(INDEX).absolute()):
        if path.is_file():
            return rows_of_index(path), path
    return None, None


def _found(path: Path) -> tuple[LawnPlace, ...]:
    """The lawns of a place; raises TurfplanError for one that is not there."""
    if not path.exists():
        raise TurfplanError(Problem(str(path), errors.no_such_file()))
    return lawns_at(path)


class _Gathering:
    """The files of an archive while they are gathered, by their places on this machine."""

    def __init__(self) -> None:
        """Nothing yet."""
        self.files: dict[Path, tuple[Role, bytes]] = {}
        self.outside: dict[str, Path] = {}
        self.notes: list[Message] = []

    def add(self, path: Path, role: Role) -> None:
        """One file; raises TurfplanError where it cannot be read."""
        path = Path(os.path.abspath(path))
        try:
            self.files.setdefault(path, (role, path.read_bytes()))
        except OSError as error:
            raise TurfplanError(unreadable(path, error)) from None

    def add_lawn(self, lawn: LawnPlace) -> None:
        """All that a lawn needs. The plan goes first: a journal may know more than the plan that
        is copied with it, never less."""
        if lawn.plan is not None:
            self.add(lawn.plan, "plan")
        for path in lawn.journals:
            self.add(path, "journal")
        for path in lawn.records:
            self.add(path, "record")
        if lawn.brief is not None and lawn.brief.is_file():
            self.add(lawn.brief, "brief")
            self._add_named(lawn.brief)

    def _add_named(self, brief: Path) -> None:
        """The files that a brief names; of a brief that cannot be read none is known."""
        try:
            named = names_of(read_brief(brief).brief)
        except TurfplanError:
            self.notes.append(phrases.unread_brief(brief=str(brief)))
            return
        for name in named.values():
            path = brief.parent / name
            if not path.is_file():
                self.notes.append(phrases.named_missing(brief=str(brief), file=name))
                continue
            self.add(path, "named")
            if not is_below(name) and Path(name).is_absolute():
                self.outside[name] = Path(os.path.abspath(path))

    def written(
        self,
        to: Path,
        lawns: Sequence[LawnPlace],
        rows: IndexRows | None,
        named: Sequence[Path],
    ) -> Backup:
        """The archive, with paths from the folder that holds all of it: the one that was named, and
        the data folder of lawns that lie in one."""
        outside = set(self.outside.values())
        held = [
            *(path.parent for path in self.files if path not in outside),
            *(lawn.folder for lawn in lawns),
            *(root_of(lawn.folder) for lawn in lawns if lawn.folder.parent.name == LAWNS),
        ]
        held += [place for place in named if any(path.is_relative_to(place) for path in held)]
        base = Path(os.path.commonpath(held)) if held else Path().absolute()
        paths = {
            path: f"{OUTSIDE}/{number}/{path.name}"
            if path in outside
            else path.relative_to(base).as_posix()
            for number, path in enumerate(self.files)
        }
        kept = [
            FileToKeep(paths[path], role, content, private=path.name == RECORD)
            for path, (role, content) in self.files.items()
        ]
        if rows is not None:
            placed = rows.placed(lambda place: _from(base, place))
            content = placed.model_dump_json(indent=1).encode()
            kept.append(FileToKeep(INDEX_ROWS, "index", content, private=True))
        archived = tuple(self._archived(lawn, base, paths) for lawn in lawns)
        manifest = write_archive(
            to,
            kept,
            f"turfplan {__version__}",
            lawns=archived,
            outside={name: paths[path] for name, path in sorted(self.outside.items())},
            index=INDEX_ROWS if rows is not None else None,
        )
        addresses = 0 if rows is None else len(rows.token)
        files = tuple(file.path for file in manifest.files)
        return Backup(to, archived, files, addresses, tuple(self.notes))

    def _archived(self, lawn: LawnPlace, base: Path, paths: dict[Path, str]) -> ArchivedLawn:
        """What the list of an archive says of a lawn; a plan or a journal that cannot be read is
        copied as it is, and told."""
        entries = revision = 0
        try:
            if lawn.journal is not None:
                entries = len(read_journal(lawn.journal).entries)
            plan = read_plan(lawn.folder)
            revision = plan.revision if plan is not None else 0
        except TurfplanError as error:
            self.notes.append(phrases.copied_damaged(fault=problem_message(error.problems[0])))
        return ArchivedLawn(
            folder=lawn.folder.relative_to(base).as_posix(),
            brief=paths.get(lawn.brief) if lawn.brief is not None else None,
            journal=paths.get(lawn.journal) if lawn.journal is not None else None,
            lawn_id=known_lawn_id(lawn.folder)
            or (lawn.brief and brief_lawn_id(lawn.brief))
            or None,
            entries=entries,
            revision=revision,
        )


def _from(base: Path, place: str) -> str:
    """A place as an archive says it: from the base where it lies below it."""
    path = Path(place)
    return path.relative_to(base).as_posix() if path.is_relative_to(base) else place
