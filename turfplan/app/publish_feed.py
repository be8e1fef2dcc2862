"""Writes a plan's feed as a file for any web host, and looks for a plan to serve."""

from contextlib import ExitStack
from dataclasses import replace
from pathlib import Path

from turfplan.errors import Problem, TurfplanError
from turfplan.files.data_folder import known_lawn_id
from turfplan.files.plan_folder import folder_lock, write_beside
from turfplan.files.publish_record import RECORD, PublishRecord, name_in, read_record
from turfplan.files.system_faults import unreadable
from turfplan.phrases import errors, identity
from turfplan.phrases import files as phrases


def planned_folder(folder: Path) -> Path:
    """The folder, which holds a plan; raises TurfplanError for one that holds none."""
    if not (folder / "plan.json").is_file():
        hint = errors.make_plan_first(command="turfplan plan BRIEF -o DIR")
        raise TurfplanError(Problem(str(folder), phrases.no_plan(), hint=hint))
    return folder


def publish_feed(folder: Path, to: Path, *, keep_address: bool = False) -> Path:
    """Write the feed of a plan folder into `to`; returns its path.

    Its name cannot be guessed and stays; the plan's folder keeps it. A folder that has moved goes
    on under its name only where that is asked for. Raises TurfplanError.
    """
    try:
        content = (planned_folder(folder) / "season.ics").read_bytes()
    except OSError as error:
        raise TurfplanError(unreadable(folder / "season.ics", error)) from None
    with ExitStack() as locks:
        for place in dict.fromkeys((to.resolve(), folder.resolve())):
            locks.enter_context(folder_lock(place))
        known = read_record(folder)
        record = _own(known, folder, to, keep_address=keep_address)
        name = name_in(record, to)
        record = replace(record, places={**record.places, str(to.resolve()): name})
        kept = {} if record == known else {folder / RECORD: record.content}
        write_beside({**kept, to / name: content}, private=tuple(kept))
    return to / name


def _own(
    known: PublishRecord | None, folder: Path, to: Path, *, keep_address: bool
) -> PublishRecord:
    """The record of the lawn in this folder; raises TurfplanError for a copy of another one, and
    for one that has moved and is not asked to keep its address."""
    here = folder.resolve()
    if known is None or known.folder == str(here):
        return known or PublishRecord(str(here))
    other, lawn_id = Path(known.folder), known_lawn_id(folder)
    if known_lawn_id(other) == lawn_id:
        hint = identity.new_copy(command="turfplan new FILE --from BRIEF")
        fault = identity.known_elsewhere(folder=str(other))
        raise TurfplanError(Problem(str(folder), fault, lawn_id, None, hint))
    if not keep_address:
        command = f"turfplan publish {folder} --to {to} --keep-address"
        fault, hint = (
            identity.was_published(folder=str(other)),
            identity.take_along(command=command),
        )
        raise TurfplanError(Problem(str(folder), fault, lawn_id, None, hint))
    return known.moved_to(folder)
