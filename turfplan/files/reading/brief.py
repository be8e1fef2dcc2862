"""Reads a brief file and says where everything that belongs to it lies."""

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from turfplan.errors import Problem, TurfplanError
from turfplan.files.reading.toml_faults import not_toml
from turfplan.files.reading.towns import country_code
from turfplan.files.reading.value_digests import digest_of_brief, earlier_digests
from turfplan.files.system_faults import unreadable
from turfplan.phrases import brief as phrases
from turfplan.phrases import errors
from turfplan.records.brief import Brief, parse_brief, sound_part

LARGEST_BRIEF_BYTES = 1_000_000


class FaultyBriefError(TurfplanError):
    """Faults of form in a brief.

    `rest` is what is left of it without them, so that its names can be checked in one go.
    """

    def __init__(self, problems: Iterable[Problem] | Problem, rest: Brief | None = None) -> None:
        super().__init__(problems)
        self.rest = rest


@dataclass(frozen=True, slots=True)
class BriefFile:
    """A brief with the file it came from, and the digests that older plans hold of it."""

    brief: Brief
    path: Path
    earlier_sha256: frozenset[str]

    @property
    def sha256(self) -> str:
        """The digest of the values of the brief."""
        return digest_of_brief(self.brief)

    @property
    def folder(self) -> Path:
        """The folder that relative file names of the brief start from."""
        return self.path.parent

    @property
    def journal(self) -> Path:
        """The journal beside the brief."""
        return journal_beside(self.path)


def journal_beside(brief: Path) -> Path:
    """The journal of a brief's file: beside it, under its name."""
    return brief.with_suffix(".journal.jsonl")


def read_brief(path: Path) -> BriefFile:
    """The brief in a TOML file; raises TurfplanError naming the file and every fault in it."""
    raw = _bytes(path)
    try:
        data = tomllib.loads(raw.decode("utf-8-sig"))
    except UnicodeDecodeError as error:
        raise TurfplanError(Problem(str(path), errors.not_utf8(byte=error.start))) from None
    except tomllib.TOMLDecodeError as error:
        raise TurfplanError(not_toml(str(path), error, phrases.quoted())) from None
    given, _ = _country_by_code(data)
    try:
        brief = brief_from(data)
    except TurfplanError as error:
        raise FaultyBriefError(error.located(str(path)).problems, sound_part(given)) from None
    return BriefFile(brief, path, earlier_digests(brief, raw))


def brief_from(data: Mapping[str, Any]) -> Brief:
    """The brief in tables as people write them: a country by its two letters or by its name.

    Raises TurfplanError with every fault of form.
    """
    given, unknown = _country_by_code(data)
    try:
        brief = parse_brief(given)
    except TurfplanError as error:
        raise TurfplanError([*unknown, *error.problems]) from None
    if unknown:
        raise TurfplanError(unknown)
    return brief


def _country_by_code(data: Mapping[str, Any]) -> tuple[dict[str, Any], list[Problem]]:
    """The tables with the two letters of the country; one that is not known is left out, and is the
    fault that comes with them."""
    given, place = dict(data), data.get("place")
    if not isinstance(place, Mapping) or not isinstance(place.get("country"), str):
        return given, []
    kept = {key: value for key, value in place.items() if key != "country"}
    try:
        return {**given, "place": {**kept, "country": country_code(place["country"])}}, []
    except TurfplanError as error:
        return {**given, "place": kept}, [*error.problems]


def _bytes(path: Path) -> bytes:
    """The bytes of a brief's file; raises TurfplanError for what is no text or cannot be read."""
    write_one = phrases.write_one(command="turfplan new FILE")
    try:
        raw = path.read_bytes()
    except FileNotFoundError:
        raise TurfplanError(Problem(str(path), errors.no_such_file(), hint=write_one)) from None
    except IsADirectoryError:
        raise TurfplanError(Problem(str(path), phrases.folder())) from None
    except OSError as error:
        raise TurfplanError(unreadable(path, error)) from None
    if not raw.strip():
        raise TurfplanError(Problem(str(path), errors.is_empty(), hint=write_one))
    if len(raw) > LARGEST_BRIEF_BYTES or b"\x00" in raw:
        raise TurfplanError(Problem(str(path), errors.not_text()))
    return raw
