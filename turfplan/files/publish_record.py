"""Under which names a lawn's feed is published on static hosts, as its own folder keeps it."""

import hashlib
import json
import secrets
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from turfplan.errors import Problem, TurfplanError
from turfplan.files.system_faults import unreadable
from turfplan.phrases import identity as phrases

RECORD = "published.json"
# Where version 0.1 kept a key in the folder of the host; names followed from it.
OLD_KEY = ".turfplan-names"


@dataclass(frozen=True, slots=True)
class PublishRecord:
    """For each folder that a lawn was published from, the latest last: its feed's name in the
    folder of each host."""

    names: Mapping[str, Mapping[str, str]] = field(default_factory=dict)

    @property
    def content(self) -> bytes:
        """The file's bytes."""
        told = {"schema": 1, "names": self.names}
        return json.dumps(told, ensure_ascii=False, indent=1).encode() + b"\n"

    def of(self, folder: Path) -> Mapping[str, str]:
        """The names under which the lawn is published from a folder."""
        return self.names.get(str(folder.resolve()), {})

    def elsewhere(self, folder: Path) -> Path | None:
        """The other folder that the lawn was published from last."""
        others = [place for place in self.names if place != str(folder.resolve())]
        return Path(others[-1]) if others else None

    def moved_to(self, folder: Path) -> "PublishRecord":
        """The record of the lawn that goes on in a folder under the names that it had in the other
        one; as it is where there is no other."""
        here, other = str(folder.resolve()), self.elsewhere(folder)
        if other is None:
            return self
        kept = {p: names for p, names in self.names.items() if p not in (here, str(other))}
        return PublishRecord({**kept, here: self.names[str(other)]})

    def with_name(self, folder: Path, to: Path, name: str) -> "PublishRecord":
        """The record with the name that the lawn has at a host."""
        here = str(folder.resolve())
        kept = {place: names for place, names in self.names.items() if place != here}
        return PublishRecord({**kept, here: {**self.of(folder), str(to.resolve()): name}})


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
        names = json.loads(raw)["names"]
        if not names or not all(map(_is_name, (n for of in names.values() for n in of.values()))):
            raise ValueError
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        raise TurfplanError(
            Problem(where, phrases.no_record(), hint=phrases.mend_record())
        ) from None
    return PublishRecord(names)


def _is_name(name: object) -> bool:
    """Whether a name is one of a file, in no other folder."""
    return isinstance(name, str) and Path(name).name == name and name.endswith(".ics")


def name_at(record: PublishRecord, folder: Path, to: Path) -> str:
    """The name that a lawn's feed has at a host: the one it has there, the one that version 0.1
    gave it there, the one it has elsewhere, or a new one that cannot be guessed."""
    known = record.of(folder)
    return (
        known.get(str(to.resolve()))
        or _old_name(folder, to)
        or next(iter(known.values()), f"{secrets.token_hex(22)}.ics")
    )


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
