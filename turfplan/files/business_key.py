"""The key of a business, for its owner alone, from which the addresses of its clients follow."""

import secrets
from pathlib import Path

from turfplan.errors import Problem, TurfplanError
from turfplan.files.data_folder import BUSINESS_KEY
from turfplan.files.system_faults import unreadable, unwritable
from turfplan.files.whole_files import write_whole
from turfplan.phrases import files as phrases

KEY_BYTES = 32


def business_key(output: Path) -> bytes:
    """The key in a data folder, drawn where there is none; for who holds the folder's lock.

    Raises TurfplanError for one that is damaged, that cannot be read, or cannot be written.
    """
    path = output / BUSINESS_KEY
    try:
        key = bytes.fromhex(path.read_text(encoding="ascii"))
    except FileNotFoundError:
        key = secrets.token_bytes(KEY_BYTES)
        try:
            write_whole({path: key.hex().encode() + b"\n"}, private={path})
        except OSError as error:
            raise TurfplanError(unwritable(path, error)) from error
        return key
    except ValueError:
        key = b""
    except OSError as error:
        raise TurfplanError(unreadable(path, error)) from None
    if len(key) != KEY_BYTES:
        hint = phrases.kept_from_backup()
        raise TurfplanError(Problem(str(path), phrases.kept_damaged(), hint=hint))
    return key
