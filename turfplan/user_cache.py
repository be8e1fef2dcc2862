"""Keeps in the user's cache what can be made again at any time and takes long to make.

Nothing rests on it: what is missing, was made from something else, is damaged, or lies where others
may write is made again, and where nothing can be written every run makes its own.
"""

import hashlib
import os
import stat
from contextlib import suppress
from pathlib import Path
from tempfile import NamedTemporaryFile

_DIGEST = hashlib.sha256
_DIGEST_BYTES = 32


def cache_folder() -> Path:
    """The folder of turfplan in the user's cache; it may not be there yet.

    The cache is `XDG_CACHE_HOME`, else `~/.cache`. Raises RuntimeError where the user has no home.
    """
    return Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "turfplan"


def kept(name: str, made_from: bytes) -> bytes | None:
    """What was kept under `name`, whole and made from `made_from`.

    None where there is no such thing.
    """
    try:
        folder = cache_folder()
        if not _only_ours(folder):
            return None
        content = (folder / name).read_bytes()
    except (OSError, RuntimeError):
        return None
    payload = content[_DIGEST_BYTES:]
    return payload if content[:_DIGEST_BYTES] == _seal(made_from, payload) else None


def keep(name: str, made_from: bytes, payload: bytes) -> None:
    """Keep `payload` under `name` in the place of what was there.

    Where that cannot be, nothing is kept.
    """
    # A full disk, a home that cannot be written or none at all costs the next run time and nothing
    # else.
    with suppress(OSError, RuntimeError):
        folder = cache_folder()
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        if _only_ours(folder):
            _put(folder, name, _seal(made_from, payload) + payload)


def _put(folder: Path, name: str, content: bytes) -> None:
    """The file whole or not at all, for two runs may write it at the same time."""
    with NamedTemporaryFile(dir=folder, prefix=name, suffix=".new", delete=False) as temporary:
        try:
            temporary.write(content)
            temporary.close()
            os.replace(temporary.name, folder / name)
        except OSError:
            os.unlink(temporary.name)
            raise


def _seal(made_from: bytes, payload: bytes) -> bytes:
    return _DIGEST(_DIGEST(made_from).digest() + payload).digest()


def _only_ours(folder: Path) -> bool:
    """Whether no other user can put a file there: compiled templates are run."""
    if not hasattr(
        os, "getuid"
    ):  # on Windows the home is guarded by its access list, which stat does not show
        return True
    facts = folder.stat()
    return facts.st_uid == os.getuid() and not facts.st_mode & (stat.S_IWGRP | stat.S_IWOTH)
