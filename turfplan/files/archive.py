"""The archive of a backup: one zip file of checked files, the same bytes for the same contents.

`turfplan-backup.json` lists every file with its size and SHA-256; its own digest is the comment of
the zip file. An archive is looked through as a whole before anything of it is used: it comes from
elsewhere.
"""

import hashlib
import json
import re
import stat
import zipfile
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from turfplan.errors import Problem, TurfplanError
from turfplan.files.system_faults import unreadable, unwritable
from turfplan.files.whole_files import replacing, sweep
from turfplan.message import Message
from turfplan.phrases import backups as phrases
from turfplan.phrases import errors

SCHEMA = 1
MANIFEST, CONTENTS = "turfplan-backup.json", "files/"
# Ends beyond which an archive is not looked at: those of thousands of lawns.
MOST_FILES, LARGEST_FILE, LARGEST_SUM = 100_000, 200_000_000, 2_000_000_000
LARGEST_MANIFEST = 50_000_000
LONGEST_PATH, LONGEST_PART = 1000, 255
# The earliest moment that a zip file can hold: when it was made is no part of what it says.
_MOMENT = (1980, 1, 1, 0, 0, 0)
_ODD = re.compile(r'[\x00-\x1f\x7f\\:*?"<>|]')
FileRole = Literal["brief", "journal", "plan", "named", "record", "index"]


class ArchivedFile(BaseModel):
    """A file of an archive: where it lies in it, what it is, its size and its digest."""

    model_config = ConfigDict(extra="ignore", frozen=True)
    path: str
    role: FileRole
    bytes: int = Field(ge=0, le=LARGEST_FILE)
    sha256: str = Field(pattern=r"^[0-9a-f]{64}$")
    private: bool = False


class ArchivedLawn(BaseModel):
    """A lawn of an archive: its folder, its brief and its journal by their paths, its identity,
    and how many entries and which revision it has."""

    model_config = ConfigDict(extra="ignore", frozen=True)
    folder: str
    brief: str | None = None
    journal: str | None = None
    lawn_id: str | None = None
    entries: int = 0
    revision: int = 0


class ArchivedIndex(BaseModel):
    """An index of an archive: the file that holds its rows, and where it lay among the others."""

    model_config = ConfigDict(extra="ignore", frozen=True)
    rows: str
    place: str | None = None


class Manifest(BaseModel):
    """What an archive says that it holds; `outside` are files that briefs name by a place of the
    machine, and where they lie in the archive."""

    model_config = ConfigDict(extra="ignore", frozen=True, populate_by_name=True)
    form: int = Field(SCHEMA, alias="schema")
    program: str
    files: tuple[ArchivedFile, ...]
    lawns: tuple[ArchivedLawn, ...] = ()
    outside: Mapping[str, str] = Field(default_factory=dict)
    indexes: tuple[ArchivedIndex, ...] = ()


@dataclass(frozen=True, slots=True)
class FileToKeep:
    """What goes into an archive: a path in it and its bytes; `private` for its owner's eyes."""

    path: str
    role: FileRole
    content: bytes = field(repr=False)
    private: bool = False


def is_good_path(path: str) -> bool:
    """Whether a path may stand in an archive: relative, in plain parts, of letters that every
    system takes."""
    parts = path.split("/")
    return (
        len(path) <= LONGEST_PATH
        and not PurePosixPath(path).is_absolute()
        and not _ODD.search(path)
        and all(
            part not in ("", ".", "..") and len(part.encode(errors="replace")) <= LONGEST_PART
            for part in parts
        )
    )


def write_archive(to: Path, files: Sequence[FileToKeep], program: str, **more: Any) -> Manifest:
    """Write an archive, whole or not at all, for its owner's eyes; `more` are further fields of its
    manifest.

    Raises TurfplanError for a path that an archive cannot hold, one that is there already, and
    where it cannot be written.
    """
    if to.exists():
        raise TurfplanError(Problem(str(to), phrases.exists(), hint=phrases.another_name()))
    files = sorted(files, key=lambda file: file.path)
    if bad := [file.path for file in files if not is_good_path(file.path)]:
        raise TurfplanError(
            Problem(path, phrases.bad_path(), hint=phrases.rename()) for path in bad
        )
    listed = tuple(
        ArchivedFile(
            path=file.path,
            role=file.role,
            bytes=len(file.content),
            sha256=hashlib.sha256(file.content).hexdigest(),
            private=file.private,
        )
        for file in files
    )
    manifest = Manifest(program=program, files=listed, **more)
    said = manifest.model_dump(mode="json", by_alias=True, exclude_none=True)
    raw = json.dumps(said, ensure_ascii=False, indent=1).encode() + b"\n"
    part = f".{to.name[:100]}.turfplan-part-"
    try:
        sweep([to.parent], part)
        with (
            replacing(to, prefix=part, mode=0o600) as (temporary,),
            zipfile.ZipFile(temporary, "w", zipfile.ZIP_DEFLATED) as archive,
        ):
            archive.comment = hashlib.sha256(raw).hexdigest().encode()
            archive.writestr(_member(MANIFEST), raw)
            for file in files:
                archive.writestr(_member(CONTENTS + file.path), file.content)
    except OSError as error:
        raise TurfplanError(unwritable(to, error)) from None
    return manifest


def _member(name: str) -> zipfile.ZipInfo:
    """A member of the zip file, the same on every system and in every year."""
    info = zipfile.ZipInfo(name, _MOMENT)
    info.compress_type = zipfile.ZIP_DEFLATED
    info.create_system = 3
    info.external_attr = (stat.S_IFREG | 0o600) << 16
    return info


@dataclass(frozen=True, slots=True)
class Archive:
    """An archive that was looked through."""

    path: Path
    manifest: Manifest
    zip: zipfile.ZipFile

    def content(self, listed: ArchivedFile) -> bytes:
        """What stands in one of its files, checked again; raises TurfplanError where it has changed
        meanwhile."""
        return _checked(self.path, self.zip, listed)


@contextmanager
def open_archive(path: Path) -> Iterator[Archive]:
    """An archive, every byte of which was held against its list.

    Raises TurfplanError for what is none, one of a newer program, and one with paths that lead
    elsewhere, links, files that are too large, missing, not listed or damaged.
    """
    archive = _opened(path)
    with archive.zip:
        yield archive


def _opened(path: Path) -> Archive:
    """An archive that was looked through, with its file open."""
    try:
        archive = zipfile.ZipFile(path)
        try:
            manifest = _manifest(path, archive)
            _look_at_members(path, archive, manifest)
            for listed in manifest.files:
                _checked(path, archive, listed)
        except BaseException:
            archive.close()
            raise
        return Archive(path, manifest, archive)
    except FileNotFoundError:
        raise TurfplanError(Problem(str(path), errors.no_such_file())) from None
    except (zipfile.BadZipFile, NotImplementedError, EOFError, ValueError):
        raise TurfplanError(_damaged(path, phrases.no_archive())) from None
    except OSError as error:
        raise TurfplanError(unreadable(path, error)) from None


def _manifest(path: Path, archive: zipfile.ZipFile) -> Manifest:
    """The list of an archive; raises TurfplanError for one that is damaged or newer."""
    members = archive.infolist()
    if len(members) > MOST_FILES:
        raise TurfplanError(_damaged(path, phrases.too_large()))
    if sum(member.filename == MANIFEST for member in members) != 1:
        raise TurfplanError(_damaged(path, phrases.no_list()))
    raw = _read(path, archive, archive.getinfo(MANIFEST), LARGEST_MANIFEST)
    if hashlib.sha256(raw).hexdigest().encode() != archive.comment:
        raise TurfplanError(_damaged(path, phrases.list_damaged()))
    try:
        data = json.loads(raw)
        newer = isinstance(data, dict) and data.get("schema", 0) > SCHEMA
        if newer:
            raise TurfplanError(Problem(str(path), phrases.newer(), hint=phrases.upgrade()))
        return Manifest.model_validate(data)
    except (ValidationError, ValueError, TypeError, RecursionError):
        raise TurfplanError(_damaged(path, phrases.list_damaged())) from None


def _look_at_members(path: Path, archive: zipfile.ZipFile, manifest: Manifest) -> None:
    """Hold the members of the zip file against the list; raises TurfplanError with every fault."""
    members = {member.filename: member for member in archive.infolist()}
    listed = Counter(file.path for file in manifest.files)
    folders = {str(above) for name in listed for above in PurePosixPath(name).parents}
    faults = [
        *((name, phrases.bad_path()) for name in listed if not is_good_path(name)),
        *((name, phrases.twice()) for name, count in listed.items() if count > 1),
        *((name, phrases.file_and_folder()) for name in listed if name in folders),
        *((name, phrases.missing()) for name in listed if CONTENTS + name not in members),
        *(
            (name, phrases.unlisted())
            for name in members
            if name != MANIFEST and name.removeprefix(CONTENTS) not in listed
        ),
        *((name, phrases.no_file()) for name, member in members.items() if not _is_plain(member)),
    ]
    names = [*manifest.outside.values(), *(index.rows for index in manifest.indexes)]
    places = [lawn.folder for lawn in manifest.lawns if lawn.folder != "."]
    places += [index.place for index in manifest.indexes if index.place is not None]
    for lawn in manifest.lawns:
        names += [name for name in (lawn.brief, lawn.journal) if name]
    faults += [(place, phrases.bad_path()) for place in places if not is_good_path(place)]
    faults += [(name, phrases.missing()) for name in names if name not in listed]
    if len(archive.infolist()) != len(members):
        faults.append((str(path), phrases.twice()))
    if sum(file.bytes for file in manifest.files) > LARGEST_SUM:
        faults.append((str(path), phrases.too_large()))
    if faults:
        raise TurfplanError(_damaged(path, fault, name) for name, fault in faults)


def _is_plain(member: zipfile.ZipInfo) -> bool:
    """Whether a member is a file: no link, folder or device, and not encrypted."""
    kind = stat.S_IFMT(member.external_attr >> 16)
    return kind in (0, stat.S_IFREG) and not member.is_dir() and not member.flag_bits & 1


def _checked(path: Path, archive: zipfile.ZipFile, listed: ArchivedFile) -> bytes:
    """The bytes of a file, which are as many and the same as listed; raises TurfplanError."""
    member = archive.getinfo(CONTENTS + listed.path)
    raw = _read(path, archive, member, listed.bytes, listed.path)
    if len(raw) != listed.bytes or hashlib.sha256(raw).hexdigest() != listed.sha256:
        raise TurfplanError(_damaged(path, phrases.sum_differs(), listed.path))
    return raw


def _read(
    path: Path, archive: zipfile.ZipFile, member: zipfile.ZipInfo, most: int, name: str = ""
) -> bytes:
    """What stands in a member, as long as it is no longer than it may be."""
    import zlib

    if member.file_size > most:
        raise TurfplanError(_damaged(path, phrases.too_large(), name))
    try:
        with archive.open(member) as file:
            raw = file.read(most + 1)
    except (zlib.error, zipfile.BadZipFile, EOFError, RuntimeError):
        fault = phrases.no_archive()
        raise TurfplanError(_damaged(path, fault, name)) from None
    if len(raw) > most:
        raise TurfplanError(_damaged(path, phrases.too_large(), name))
    return raw


def _damaged(path: Path, fault: Message, name: str = "") -> Problem:
    """What is said of an archive, or of a file in it."""
    where = f"{path}: {name}" if name else str(path)
    return Problem(where, fault, hint=phrases.nothing_restored())
