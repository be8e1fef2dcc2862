"""Copies all that lawns need into one archive: what cannot be made again from something else."""

import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from turfplan import __version__
from turfplan.app.handed_over import (
    days_of_owner,
    plan_handed_over,
    text_of_brief,
    without_days,
)
from turfplan.errors import Problem, TurfplanError, problem_message
from turfplan.files.archive import ArchivedIndex, ArchivedLawn, FileRole, FileToKeep, write_archive
from turfplan.files.data_folder import (
    BUSINESS_KEY,
    INDEX,
    LAWNS,
    OPERATORS,
    brief_lawn_id,
    known_lawn_id,
    root_of,
)
from turfplan.files.index_copies import IndexRows, rows_of_index
from turfplan.files.journal import read_journal, without_words
from turfplan.files.lawn_files import LawnPlace, business_files, distinct, lawns_at
from turfplan.files.named_copies import is_below, names_of
from turfplan.files.publish_record import RECORD
from turfplan.files.reading.brief import read_brief
from turfplan.files.reading.plan import read_plan
from turfplan.files.system_faults import unreadable
from turfplan.message import Message
from turfplan.phrases import backups as phrases
from turfplan.phrases import errors

# For the eyes of whoever keeps them alone.
_PRIVATE = (RECORD, BUSINESS_KEY, OPERATORS)
OUTSIDE = "turfplan-outside"
INDEX_ROWS = "turfplan-index"


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
    journals, plans, clients, the business, names of published feeds, and the rows of each index
    that serves them.

    `what` are briefs, lawns' folders and data folders; without any, all that the index knows and
    all that lies beside it: `index`, else that of the working directory. Indexes of data folders
    are found. Raises TurfplanError where nothing is found, or a file cannot be read, and for an
    archive that cannot be written.
    """
    served = _served(index)
    places = list(what) or [(index or Path(INDEX)).absolute().parent]
    lawns = [lawn for path in places for lawn in _found(path)]
    if not what:
        rows = [row for found in served.values() for row in found.lawn]
        known = (
            LawnPlace(Path(row.folder), Path(row.brief) if row.brief else None) for row in rows
        )
        lawns += [lawn for lawn in known if lawn.plan is not None]
    lawns = list(distinct(lawns))
    if not lawns and (what or not served):
        where = ", ".join(map(str, places))
        raise TurfplanError(Problem(where, phrases.nothing_here(), hint=phrases.name_lawns()))
    gathered = _Gathering()
    for lawn in lawns:
        gathered.add_lawn(lawn)
    folders = dict.fromkeys([*places, *(root_of(lawn.folder) for lawn in lawns)])
    for path in folders:
        for business in business_files(path):
            gathered.add(business, "record")
    beside = [folder.resolve() / INDEX for folder in folders if (folder / INDEX).is_file()]
    served |= {path: rows_of_index(path) for path in beside if path not in served}
    if what:
        own = {lawn.folder for lawn in lawns}
        served = {path: found.of(own) for path, found in served.items() if found.of(own).lawn}
    named = [path.resolve() for path in places if path.is_dir()]
    return gathered.written(to, lawns, served, named)


def lawn_archive(to: Path, folder: Path, today: date) -> tuple[Message, ...]:
    """Write one archive of a lawn alone, for whoever has it next: its brief and the files that this
    names, its journals without anybody's own words, and its plan; nothing of client and business,
    and nothing of the days on which its owner was not at home. What must be told of it.

    Raises TurfplanError as `backup_lawns` does, and for a journal of which a line cannot be read.
    """
    gathered = _Gathering()
    (lawn,) = lawns_at(folder)
    gathered.add_lawn(lawn, whole=False)
    for path in lawn.journals:
        gathered.instead(path, without_words(path))
    if lawn.brief is not None and days_of_owner(text_of_brief(folder)):
        text = without_days(text_of_brief(folder))
        gathered.instead(lawn.brief, text.encode())
        if lawn.plan is not None:
            gathered.instead(lawn.plan, plan_handed_over(folder, text, today))
    return gathered.written(to, (lawn,), {}, ()).notes


def _served(index: Path | None) -> dict[Path, IndexRows]:
    """The rows of the index that was named, which has to be there, else of the one at hand."""
    path = Path(INDEX) if index is None else index
    if index is None and not path.is_file():
        return {}
    return {path.resolve(): rows_of_index(path)}


def _found(path: Path) -> tuple[LawnPlace, ...]:
    """The lawns of a place; raises TurfplanError for one that is not there."""
    if not path.exists():
        raise TurfplanError(Problem(str(path), errors.no_such_file()))
    return lawns_at(path)


class _Gathering:
    """The files of an archive while they are gathered, by their places on this machine."""

    def __init__(self) -> None:
        """Nothing yet."""
        self.files: dict[Path, tuple[FileRole, bytes]] = {}
        self.outside: dict[str, Path] = {}
        self.notes: list[Message] = []

    def add(self, path: Path, role: FileRole) -> None:
        """One file; raises TurfplanError where it cannot be read."""
        path = Path(os.path.abspath(path))
        try:
            self.files.setdefault(path, (role, path.read_bytes()))
        except OSError as error:
            raise TurfplanError(unreadable(path, error)) from None

    def instead(self, path: Path, content: bytes | None) -> None:
        """Other contents of a file that was gathered; None leaves it out."""
        path = Path(os.path.abspath(path))
        role, _ = self.files.pop(path)
        if content is not None:
            self.files[path] = (role, content)

    def add_lawn(self, lawn: LawnPlace, *, whole: bool = True) -> None:
        """All that a lawn needs, not `whole` without the records of client and business.

        The plan goes first: a journal may know more than the plan that is copied with it, never
        less.
        """
        if lawn.plan is not None:
            self.add(lawn.plan, "plan")
        for path in lawn.journals:
            self.add(path, "journal")
        for path in lawn.records if whole else ():
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
        served: Mapping[Path, IndexRows],
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
            FileToKeep(paths[path], role, content, private=path.name in _PRIVATE)
            for path, (role, content) in self.files.items()
        ]
        indexes = []
        for number, (path, rows) in enumerate(sorted(served.items()), 1):
            content = rows.placed(lambda place: _from(base, place)).model_dump_json(indent=1)
            name = f"{INDEX_ROWS}/{number}.json"
            kept.append(FileToKeep(name, "index", content.encode(), private=True))
            place = path.relative_to(base).as_posix() if path.is_relative_to(base) else None
            indexes.append(ArchivedIndex(rows=name, place=place))
        archived = tuple(self._archived(lawn, base, paths) for lawn in lawns)
        manifest = write_archive(
            to,
            kept,
            f"turfplan {__version__}",
            lawns=archived,
            outside={name: paths[path] for name, path in sorted(self.outside.items())},
            indexes=tuple(indexes),
        )
        addresses = sum(rows.addresses for rows in served.values())
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
