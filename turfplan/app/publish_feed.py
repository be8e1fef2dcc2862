"""Writes a plan's feed as a file for any web host, and looks for a plan to serve."""

from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path

from turfplan.errors import Problem, TurfplanError
from turfplan.files.data_folder import PLAN, known_lawn_id
from turfplan.files.plan_folder import folder_lock, write_beside
from turfplan.files.publish_record import RECORD, name_at, read_record
from turfplan.files.system_faults import unreadable
from turfplan.message import Message
from turfplan.phrases import errors, identity
from turfplan.phrases import files as phrases


@dataclass(frozen=True, slots=True)
class PublishedFile:
    """Where a feed was published, and what must be told of its address."""

    path: Path
    notes: tuple[Message, ...] = ()


def planned_folder(folder: Path) -> Path:
    """The folder, which holds a plan; raises TurfplanError for one that holds none."""
    if not (folder / PLAN).is_file():
        hint = errors.make_plan_first(command="turfplan plan BRIEF -o DIR")
        raise TurfplanError(Problem(str(folder), phrases.no_plan(), hint=hint))
    return folder


def publish_feed(folder: Path, to: Path, *, keep_address: bool = False) -> PublishedFile:
    """Write the feed of a plan folder into `to`.

    Its name cannot be guessed and stays; the plan's folder keeps it. A folder that was copied or
    has moved is published under a name of its own, which is told; one that has moved goes on under
    the old one where that is asked for. Raises TurfplanError.
    """
    try:
        content = (planned_folder(folder) / "season.ics").read_bytes()
    except OSError as error:
        raise TurfplanError(unreadable(folder / "season.ics", error)) from None
    notes: tuple[Message, ...] = ()
    with ExitStack() as locks:
        for place in dict.fromkeys((to.resolve(), folder.resolve())):
            locks.enter_context(folder_lock(place))
        known = record = read_record(folder)
        other = known.elsewhere(folder)
        if other is not None and keep_address:
            _refuse_copy(folder, other)
            record = known.moved_to(folder)
        elif other is not None and not known.of(folder):
            command = f"turfplan publish {folder} --to {to} --keep-address"
            notes = (identity.new_address(folder=str(other), command=command),)
        name = name_at(record, folder, to)
        record = record.with_name(folder, to, name)
        kept = {} if record == known else {folder / RECORD: record.content}
        write_beside({**kept, to / name: content}, private=tuple(kept))
    return PublishedFile(to / name, notes)


def _refuse_copy(folder: Path, other: Path) -> None:
    """Raises TurfplanError where the folder that a lawn was published from still holds it."""
    lawn_id = known_lawn_id(folder)
    if known_lawn_id(other) == lawn_id:
        hint = identity.new_copy(command="turfplan new FILE --from BRIEF")
        fault = identity.known_elsewhere(folder=str(other))
        raise TurfplanError(Problem(str(folder), fault, lawn_id, None, hint))
