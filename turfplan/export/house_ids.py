"""Names of tasks where several lawns stand on one sheet: whose a task is stands before its own."""

import hashlib
import re

_BETWEEN = "--"


def lawn_key(folder: str, lawn_id: str) -> str:
    """The name of a lawn on a sheet of the house: readable, the same for ever, no other lawn's."""
    readable = re.sub(r"[^a-z0-9]+", "-", folder.casefold()).strip("-")
    return f"{readable or 'lawn'}-{hashlib.sha256(lawn_id.encode()).hexdigest()[:6]}"


def of_house(key: str, task_id: str) -> str:
    """The name of a lawn's task on a sheet of the house."""
    return f"{key}{_BETWEEN}{task_id}"


def lawn_of_task(task_id: str) -> str:
    """Whose a task of a sheet is; nothing on a sheet of one lawn."""
    return task_id.rpartition(_BETWEEN)[0]


def name_of(key: str) -> str:
    """Under which name a plan of the house keeps what a lawn is called."""
    return f"lawns.{key}"
