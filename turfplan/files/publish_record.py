"""Under which names a lawn's feed is published on static hosts, as its own folder keeps it."""

import hashlib
import json
import secrets
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from turfplan.errors import Problem, TurfplanError
from turfplan.files.system_faults import unreadable
from turfplan.phrases import identity as phrases

RECORD = "published.json"
# Where version 0.1 kept a key in the folder of the host; names followed from it.
OLD_KEY = ".turfplan-names"


@dataclass(frozen=True, slots=True)
class PublishRecord:
    """The folder that a lawn was published from, and its feed's name in the folder of each host."""

    folder: str
    places: Mapping[str, str] = field(default_factory=dict)

    @property
    def content(self) -> bytes:
        """The file's bytes."""
        told = {"schema": 1, "folder": self.folder, "places": dict(sorted(self.places.items()))}
        return json.dumps(told, ensure_ascii=False, indent=1).encode() + b"\n"

    def moved_to(self, folder: Path) -> "PublishRecord":
        """The record of the lawn where it lies now."""
        return replace(self, folder=str(folder.resolve()))


def read_record(folder: Path) -> PublishRecord | None:
    """What a lawn's folder says; None before it was published.

    Raises TurfplanError for what cannot be read.
    """
    path = folder / RECORD
    try:
        return record_of(path.read_bytes(), str(path))
    except FileNotFoundError:
        return None
    except OSError as error:
        raise TurfplanError(unreadable(path, error)) from None


def record_of(raw: bytes, where: str) -> PublishRecord:
    """The record in some bytes; raises TurfplanError for any that hold none."""
    try:
        said = json.loads(raw)
        folder, places = said["folder"], said["places"]
        sound = isinstance(folder, str) and isinstance(places, dict)
        if not sound or not all(map(_is_name, places.values())):
            raise ValueError
    except (ValueError, KeyError, TypeError, RecursionError):
        raise TurfplanError(
            Problem(where, phrases.no_record(), hint=phrases.mend_record())
        ) from None
    return PublishRecord(folder, places)


def _is_name(name: object) -> bool:
    """Whether a name is one of a file, in no other folder."""
    return isinstance(name, str) and Path(name).name == name and name.endswith(".ics")


def name_in(record: PublishRecord, to: Path) -> str:
    """The name that a lawn's feed has in a host's folder: the one it has there, the one that
    version 0.1 gave it there, the one it has elsewhere, or a new one that cannot be guessed."""
    known = record.places.get(str(to.resolve()))
    if known is not None:
        return known
    old = _old_name(record, to)
    if old is not None:
        return old
    return next(iter(record.places.values()), f"{secrets.token_hex(22)}.ics")


def _old_name(record: PublishRecord, to: Path) -> str | None:
    """The name that version 0.1 gave the feed of a folder, where it has published it."""
    try:
        key = (to / OLD_KEY).read_text(encoding="utf-8").strip()
    except FileNotFoundError:
        return None
    except (OSError, UnicodeDecodeError) as error:
        fault = error if isinstance(error, OSError) else OSError(str(error))
        raise TurfplanError(unreadable(to / OLD_KEY, fault)) from None
    name = hashlib.sha256(f"{key}\n{record.folder}".encode()).hexdigest()[:44] + ".ics"
    return name if (to / name).is_file() else None
