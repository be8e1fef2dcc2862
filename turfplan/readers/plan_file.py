"""Reads the plan of a folder."""

from pathlib import Path

from turfplan.errors import Problem, TurfplanError
from turfplan.plan import Plan


def read_plan(folder: Path) -> Plan | None:
    """The plan in a folder's plan.json, or None when there is none; raises TurfplanError for one that cannot be read."""
    from turfplan.export.plan_json import plan_from_json

    path = folder / "plan.json"
    try:
        raw = path.read_bytes()
    except FileNotFoundError:
        return None
    except NotADirectoryError:
        raise TurfplanError(Problem(str(folder), "is a file, not a folder", hint="choose a folder with -o")) from None
    except OSError as error:
        raise TurfplanError(Problem(str(path), f"cannot be read ({error.strerror})")) from None
    try:
        return plan_from_json(raw)
    except TurfplanError as error:
        raise error.located(str(path)) from None
