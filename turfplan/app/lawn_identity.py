"""Draws the identity of a lawn, and refuses one that another folder has already."""

import secrets
from collections.abc import Iterable, Sequence
from pathlib import Path

from turfplan.errors import Problem, TurfplanError, problem_message
from turfplan.files.data_folder import BRIEF, INDEX, known_lawn_id, lawn_folders, root_of
from turfplan.message import Message
from turfplan.phrases import identity as phrases


def drawn_lawn_id() -> str:
    """An identity that no lawn has yet: 48 bits, drawn at random."""
    return f"lawn-{secrets.token_hex(6)}"


def refuse_known_elsewhere(
    lawn_id: str, folder: Path, *, beside: bool | None = None, but: Sequence[Path] = ()
) -> tuple[Message, ...]:
    """Look whether another folder has the identity of the lawn in `folder`: one beside it in the
    data folder, or one that an index of the data folder or of the working directory serves.
    `beside`: whether other lawns lie beside it; they do where its folder holds its brief. The
    indexes `but` are not asked.

    What comes back must be told: a place that the lawn has left, whose addresses stay there, and an
    index that cannot be asked. Raises TurfplanError, with both folders, where another one has it.
    """
    here = folder.resolve()
    others = (
        lawn_folders(here.parent) if beside or (beside is None and (here / BRIEF).is_file()) else ()
    )
    _refuse(lawn_id, here, (other for other in others if known_lawn_id(other) == lawn_id))
    notes: list[Message] = []
    for index in dict.fromkeys((root_of(here) / INDEX, Path(INDEX).resolve())):
        if not index.is_file() or index in {other.resolve() for other in but}:
            continue
        from turfplan.files.index import folders_of_lawn

        try:
            served = folders_of_lawn(index, lawn_id)
        except TurfplanError as error:
            fault = problem_message(error.problems[0])
            notes.append(phrases.not_asked(index=str(index), fault=fault))
            continue
        _refuse(lawn_id, here, (other for other in served if known_lawn_id(other) == lawn_id))
        if served and here not in served:
            left = ", ".join(map(str, served))
            command = f"turfplan tokens move {folder} --index {index}"
            notes.append(phrases.addresses_stay(index=str(index), folder=left, command=command))
    return tuple(notes)


def _refuse(lawn_id: str, here: Path, others: Iterable[Path]) -> None:
    """Raises TurfplanError for the first other folder."""
    for other in others:
        if other != here:
            raise TurfplanError(shared_identity(here, other, lawn_id))


def shared_identity(here: Path, other: Path, lawn_id: str) -> Problem:
    """What is said of a folder whose lawn has the identity of the one in another folder."""
    hint = phrases.new_copy(command="turfplan new FILE --from BRIEF")
    return Problem(str(here), phrases.known_elsewhere(folder=str(other)), lawn_id, None, hint)
