"""Reads a brief file and says where everything that belongs to it lies."""

import hashlib
import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from turfplan.brief import Brief, parse_brief, sound_part
from turfplan.errors import Problem, TurfplanError

LARGEST_BRIEF_BYTES = 1_000_000


class FaultyBriefError(TurfplanError):
    """Faults of form in a brief, with what is left of it without them, so that its names can be checked in one go."""

    def __init__(self, problems: Iterable[Problem] | Problem, rest: Brief | None = None) -> None:
        super().__init__(problems)
        self.rest = rest


@dataclass(frozen=True, slots=True)
class BriefFile:
    """A brief with the file it came from and the hash of that file's bytes."""

    brief: Brief
    path: Path
    sha256: str

    @property
    def folder(self) -> Path:
        """The folder that relative file names of the brief start from."""
        return self.path.parent

    @property
    def default_output(self) -> Path:
        """Where outputs go when nothing is said: beside the brief, under its name."""
        return self.path.with_suffix("")

    @property
    def journal(self) -> Path:
        """The journal beside the brief."""
        return self.path.with_suffix(".journal.jsonl")


def read_brief(path: Path) -> BriefFile:
    """The brief in a TOML file; raises TurfplanError naming the file and every fault in it."""
    try:
        raw = path.read_bytes()
    except FileNotFoundError:
        raise TurfplanError(Problem(str(path), "no such file", hint="`turfplan new FILE` writes a brief")) from None
    except IsADirectoryError:
        raise TurfplanError(Problem(str(path), "is a folder, not a brief")) from None
    except OSError as error:
        raise TurfplanError(Problem(str(path), f"cannot be read ({error.strerror})")) from None
    if not raw.strip():
        raise TurfplanError(Problem(str(path), "is empty", hint="`turfplan new FILE` writes a brief"))
    if len(raw) > LARGEST_BRIEF_BYTES or b"\x00" in raw:
        raise TurfplanError(Problem(str(path), "is not a text file"))
    try:
        data = tomllib.loads(raw.decode("utf-8-sig"))
    except UnicodeDecodeError as error:
        raise TurfplanError(Problem(str(path), f"is not UTF-8 text (byte {error.start})")) from None
    except tomllib.TOMLDecodeError as error:
        raise TurfplanError(
            Problem(str(path), f"is not TOML: {error}", hint='texts and quantities are quoted: area = "4200 ft2"')
        ) from None
    try:
        brief = parse_brief(data)
    except TurfplanError as error:
        raise FaultyBriefError(error.located(str(path)).problems, sound_part(data)) from None
    return BriefFile(brief, path, hashlib.sha256(raw).hexdigest())
