"""Under which names a lawn's feed is published on static hosts, as its own folder keeps it."""

import hashlib
import json
import secrets
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from turfplan.errors import Problem, TurfplanError
from turfplan.files.system_faults import unreadable
from turfplan.phrases import identity as phrases
from turfplan.records.plan_calendar import CalendarPart

RECORD = "published.json"
# Where version 0.1 kept a key in the folder of the host; names followed from it.
OLD_KEY = ".turfplan-names"


@dataclass(frozen=True, slots=True)
class PublishRecord:
    """For each folder that a lawn was published from, the latest last: its feed's name in the
    folder of each host; `parts` has those of its work and its waterings, by part; `withdrawn` those
    at each host that were withdrawn, which are never taken again."""

    names: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    parts: Mapping[str, Mapping[str, Mapping[str, str]]] = field(default_factory=dict)
    withdrawn: Mapping[str, Sequence[str]] = field(default_factory=dict)

    @property
    def content(self) -> bytes:
        """The file's bytes."""
        told: dict[str, object] = {"schema": 1, "names": self.names}
        if self.parts:
            told["parts"] = self.parts
        if self.withdrawn:
            told["withdrawn"] = self.withdrawn
        return json.dumps(told, ensure_ascii=False, indent=1).encode() + b"\n"

    def of(self, folder: Path, part: CalendarPart = "all") -> Mapping[str, str]:
        """The names under which the lawn, or a part of its calendar, is published from a folder."""
        here = str(folder.resolve())
        return self.names.get(here, {}) if part == "all" else self.parts.get(part, {}).get(here, {})

    def elsewhere(self, folder: Path) -> Path | None:
        """The other folder that the lawn was published from last."""
        known = (*self.names, *(place for of in self.parts.values() for place in of))
        others = [place for place in known if place != str(folder.resolve())]
        return Path(others[-1]) if others else None

    def moved_to(self, folder: Path) -> "PublishRecord":
        """The record of the lawn that goes on in a folder under the names that it had in the other
        one; as it is where there is no other."""
        here, other = str(folder.resolve()), self.elsewhere(folder)
        if other is None:
            return self
        parts = {part: _moved(of, str(other), here) for part, of in self.parts.items()}
        return replace(self, names=_moved(self.names, str(other), here), parts=parts)

    def with_name(
        self, folder: Path, to: Path, name: str, part: CalendarPart = "all"
    ) -> "PublishRecord":
        """The record with the name that the lawn, or a part of its calendar, has at a host."""
        return self._naming(folder, part, {**self.of(folder, part), str(to.resolve()): name})

    def without_name(self, folder: Path, to: Path, part: CalendarPart = "all") -> "PublishRecord":
        """The record of the lawn, or a part of its calendar, whose name at a host is withdrawn."""
        at = str(to.resolve())
        known = dict(self.of(folder, part))
        gone = (*self.withdrawn.get(at, ()), known.pop(at))
        return replace(self._naming(folder, part, known), withdrawn={**self.withdrawn, at: gone})

    def _naming(
        self, folder: Path, part: CalendarPart, named: Mapping[str, str]
    ) -> "PublishRecord":
        """The record with the names that the lawn, or a part of its calendar, has from a folder."""
        here = str(folder.resolve())
        if part == "all":
            return replace(self, names=_last(self.names, here, named))
        of_part = _last(self.parts.get(part, {}), here, named)
        return replace(self, parts={**self.parts, part: of_part})


_OfFolders = Mapping[str, Mapping[str, str]]


def _last(names: _OfFolders, here: str, named: Mapping[str, str]) -> _OfFolders:
    """Names of folders with those of one, which comes last."""
    kept = {place: known for place, known in names.items() if place != here}
    return {**kept, here: named}


def _moved(names: _OfFolders, old: str, here: str) -> _OfFolders:
    """Names of folders with those of one for another in its place."""
    if old not in names:
        return names
    kept = {place: known for place, known in names.items() if place not in (here, old)}
    return {**kept, here: names[old]}


def read_record(folder: Path) -> PublishRecord:
    """What a lawn's folder says; nothing before it was published.

    Raises TurfplanError for what cannot be read.
    """
    path = folder / RECORD
    try:
        return record_of(path.read_bytes(), str(path))
    except FileNotFoundError:
        return PublishRecord()
    except OSError as error:
        raise TurfplanError(unreadable(path, error)) from None


def record_of(raw: bytes, where: str) -> PublishRecord:
    """The record in some bytes; raises TurfplanError for any that hold none."""
    try:
        told = json.loads(raw)
        names, parts = told["names"], told.get("parts", {})
        kept = [of for every in (names, *parts.values()) for of in every.values()]
        gone = {host: tuple(every) for host, every in told.get("withdrawn", {}).items()}
        every = [name for of in kept for name in of.values()] + [
            n for of in gone.values() for n in of
        ]
        if not kept or not all(map(_is_name, every)):
            raise ValueError
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        raise TurfplanError(
            Problem(where, phrases.no_record(), hint=phrases.mend_record())
        ) from None
    return PublishRecord(names, parts, gone)


def _is_name(name: object) -> bool:
    """Whether a name is one of a file, in no other folder."""
    return isinstance(name, str) and Path(name).name == name and name.endswith(".ics")


def name_at(record: PublishRecord, folder: Path, to: Path, part: CalendarPart = "all") -> str:
    """The name that a lawn's feed, or a part of it, has at a host: the one it has there, the one
    that version 0.1 gave it there, the one it has elsewhere, or a new one that cannot be
    guessed. None that was withdrawn there."""
    known, at = record.of(folder, part), str(to.resolve())
    old = _old_name(folder, to) if part == "all" and at not in known else None
    gone = record.withdrawn.get(at, ())
    names = (known.get(at), old, *known.values())
    fresh = f"{secrets.token_hex(22)}.ics"
    return next((name for name in names if name is not None and name not in gone), fresh)


def _old_name(folder: Path, to: Path) -> str | None:
    """The name that version 0.1 gave the feed of a folder, where it has published it."""
    try:
        key = (to / OLD_KEY).read_text(encoding="utf-8").strip()
    except FileNotFoundError:
        return None
    except UnicodeDecodeError:
        # No key of ours: it has named nothing here.
        return None
    except OSError as error:
        raise TurfplanError(unreadable(to / OLD_KEY, error)) from None
    name = hashlib.sha256(f"{key}\n{folder.resolve()}".encode()).hexdigest()[:44] + ".ics"
    return name if (to / name).is_file() else None
