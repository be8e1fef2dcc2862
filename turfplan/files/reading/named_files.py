"""Files that a brief names: a survey, a map."""

from pathlib import Path

from turfplan.errors import Problem, TurfplanError
from turfplan.files.system_faults import reason_of
from turfplan.phrases import errors as phrases


def named_bytes(path: Path, key: str) -> bytes:
    """What the file holds that the brief names under `key`.

    Raises TurfplanError for one that is absent or cannot be read; its place is left to the caller,
    who knows what the file is called there.
    """
    try:
        return path.read_bytes()
    except FileNotFoundError:
        hint = phrases.beside_brief(key=key)
        absent = Problem("", phrases.no_such_file(), str(path), None, hint)
        raise TurfplanError(absent) from None
    except OSError as error:
        fault = phrases.unreadable(reason=reason_of(error))
        raise TurfplanError(Problem("", fault)) from None


def utf8_text(raw: bytes) -> str:
    """The bytes of a file as text, without the mark that some programs put before it.

    Raises TurfplanError with the first byte that is not UTF-8.
    """
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise TurfplanError(Problem("", phrases.not_utf8(byte=error.start))) from None
