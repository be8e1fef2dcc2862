"""Writes a new brief that can be planned from, or a copy of one as another lawn."""

import tomllib
from collections.abc import Mapping
from pathlib import Path

from turfplan.app.brief_questions import SURVEY, SURVEY_FILE
from turfplan.app.inputs import in_book_names
from turfplan.app.lawn_identity import drawn_lawn_id
from turfplan.errors import Problem, TurfplanError
from turfplan.files.brief_text import with_lawn_id
from turfplan.files.data_folder import BRIEF, LAWNS
from turfplan.files.named_copies import named_copies
from turfplan.files.reading.book import load_book
from turfplan.files.reading.brief import brief_from, read_brief
from turfplan.files.reading.towns import with_town
from turfplan.files.system_faults import unwritable
from turfplan.files.whole_files import write_into_folders
from turfplan.phrases import brief as phrases
from turfplan.phrases import commands
from turfplan.planning import check_brief


def brief_to_write(file: Path) -> Path:
    """Where a new brief goes: the file that was named, or `brief.toml` in a folder, as one within
    `lawns` is meant to be."""
    in_lawns = file.absolute().parent.name == LAWNS and file.suffix != ".toml"
    return file / BRIEF if file.is_dir() or in_lawns else file


def write_brief(file: Path, text: str) -> None:
    """Write the TOML text of a brief.

    Raises TurfplanError, and writes nothing, when it would be no brief.
    """
    brief = in_book_names(with_town(brief_from(tomllib.loads(text))))
    if problems := check_brief(brief, load_book()):
        raise TurfplanError(problems)
    _write({file: text.encode()})


def write_survey(folder: Path, answers: Mapping[str, str]) -> None:
    """Write the table of a survey among the answers, where there is one, beside the brief that will
    name it."""
    if text := answers.get(SURVEY):
        _write({folder / SURVEY_FILE: text.encode()})


def copy_brief(source: Path, file: Path) -> None:
    """Write a copy of a brief as another lawn: all that it says, under an identity of its own, with
    the files that it names.

    Raises TurfplanError, and writes nothing, for a brief that cannot be used, one whose identity
    cannot be told from its text, and where another file lies in the place of one that it names.
    """
    read, lawn_id = read_brief(source), drawn_lawn_id()
    text = with_lawn_id(source.read_bytes().decode("utf-8-sig"), lawn_id)
    wanted = read.brief.lawn.model_copy(update={"id": lawn_id})
    if brief_from(tomllib.loads(text)) != read.brief.model_copy(update={"lawn": wanted}):
        raise TurfplanError(Problem(str(source), phrases.no_plain_id(), hint=phrases.plain_id()))
    targets = {file: text.encode()}
    if file.absolute().parent != source.absolute().parent:
        try:
            named = named_copies(read.brief, source.parent)
        except TurfplanError as error:
            raise error.located(str(source)) from None
        targets = {**{file.parent / name: raw for name, raw in named.items()}, **targets}
    others = [
        Problem(str(path), commands.exists(), hint=commands.other_name_or_force())
        for path, content in targets.items()
        if path != file and path.exists() and path.read_bytes() != content
    ]
    if others:
        raise TurfplanError(others)
    _write(targets)


def _write(targets: dict[Path, bytes]) -> None:
    """Write files whole, into folders that are made where they are missing."""
    file = next(reversed(targets))
    try:
        write_into_folders(targets)
    except OSError as error:
        raise TurfplanError(unwritable(file, error)) from None
