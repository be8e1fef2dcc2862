"""Writes a new brief, after looking that it can be planned from."""

import tomllib
from pathlib import Path

from turfplan.app.inputs import in_book_names
from turfplan.errors import TurfplanError
from turfplan.files.reading.book import load_book
from turfplan.files.reading.brief import brief_from
from turfplan.files.reading.towns import with_town
from turfplan.files.system_faults import unwritable
from turfplan.files.whole_files import write_whole
from turfplan.planning import check_brief


def write_brief(file: Path, text: str) -> None:
    """Write the TOML text of a brief.

    Raises TurfplanError, and writes nothing, when it would be no brief.
    """
    brief = in_book_names(with_town(brief_from(tomllib.loads(text))))
    if problems := check_brief(brief, load_book()):
        raise TurfplanError(problems)
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        write_whole({file: text.encode()})
    except OSError as error:
        raise TurfplanError(unwritable(file, error)) from None
