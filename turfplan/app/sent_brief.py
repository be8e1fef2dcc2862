"""A brief whose text was sent to the page: held to what a brief from elsewhere may say, then
written."""

import stat
import tomllib
from pathlib import Path

from turfplan.app.inputs import in_book_names
from turfplan.errors import Problem, TurfplanError
from turfplan.files.named_copies import is_below, names_of
from turfplan.files.reading.book import load_book
from turfplan.files.reading.brief import brief_from
from turfplan.files.reading.toml_faults import not_toml
from turfplan.files.reading.towns import with_town
from turfplan.phrases import lawn_page as phrases
from turfplan.planning import check_brief
from turfplan.records.brief import Brief

# Of a file that a brief names; a survey of a large lawn has some hundred thousand bytes.
LARGEST_NAMED = 5_000_000


def checked_brief_text(text: str, folder: Path, lawn_id: str) -> None:
    """Nothing for a text that is a brief of a lawn, whose files lie below `folder`.

    Raises TurfplanError with every fault: no TOML, no brief, another lawn's identity, and a file
    that leads out of the folder, is a link or a device, or is not there. No fault shows what a file
    holds.
    """
    try:
        tables = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise TurfplanError(not_toml("", error)) from None
    brief = brief_from(tables)
    problems = list(_named_faults(brief, folder))
    if brief.lawn.id not in (None, lawn_id):
        problems.append(Problem("lawn.id", phrases.id_stays(), brief.lawn.id, lawn_id))
    if problems:
        raise TurfplanError(problems)
    if faults := check_brief(in_book_names(with_town(brief)), load_book()):
        raise TurfplanError(faults)


def _named_faults(brief: Brief, folder: Path) -> list[Problem]:
    """What is wrong with the files that a brief names."""
    return [
        Problem(key, phrases.only_below(), name)
        for key, name in names_of(brief).items()
        if not is_below(name) or not _is_plain(folder, Path(name))
    ]


def _is_plain(folder: Path, name: Path) -> bool:
    """Whether a name is that of an ordinary file below a folder, by no link on the way."""
    place = folder
    try:
        for part in name.parts:
            place = place / part
            found = place.lstat()
            if stat.S_ISLNK(found.st_mode):
                return False
    except (OSError, ValueError):
        return False
    return stat.S_ISREG(found.st_mode) and found.st_size <= LARGEST_NAMED
