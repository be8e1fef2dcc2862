"""Puts lawns into the archive of their data folder; their addresses end."""

from pathlib import Path

from turfplan.errors import TurfplanError
from turfplan.files.data_folder import ARCHIVE, INDEX
from turfplan.files.plan_folder import folder_lock
from turfplan.files.system_faults import unwritable


def archive_lawn(output: Path, folder: Path) -> Path:
    """Put a lawn's folder into the archive of the data folder, under a number where its name is
    taken there, and end its addresses; where it lies now.

    Raises TurfplanError where that cannot be done.
    """
    to = output / ARCHIVE / folder.name
    try:
        with folder_lock(folder):
            end_lawn_addresses(output, folder)
            to.parent.mkdir(exist_ok=True)
            number = 1
            while to.exists():
                number += 1
                to = to.with_name(f"{folder.name}-{number}")
            folder.rename(to)
    except OSError as error:
        raise TurfplanError(unwritable(to, error)) from None
    return to


def end_lawn_addresses(output: Path, folder: Path) -> None:
    """End the addresses of a lawn, where an index serves it."""
    index = output / INDEX
    if not index.is_file():
        return
    # Only who serves lawns needs what speaks to the index.
    from turfplan.files.index import end_addresses, opened

    with opened(index, create=False) as connection:
        end_addresses(connection, folder)
