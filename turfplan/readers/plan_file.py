"""Reads the plan of a folder."""

import json
from pathlib import Path

from pydantic import ValidationError

from turfplan.errors import Problem, TurfplanError
from turfplan.plan import Plan


def read_plan(folder: Path) -> Plan | None:
    """The plan in a folder's plan.json, or None when there is none; raises TurfplanError for one that cannot be read."""
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


def plan_from_json(raw: bytes) -> Plan:
    """The plan in JSON bytes; raises TurfplanError for damaged bytes or another schema."""
    try:
        data = json.loads(raw)
    except (ValueError, UnicodeDecodeError) as error:
        raise TurfplanError(
            Problem("", f"is damaged ({error})", hint="move it away and plan anew; identities start afresh then")
        ) from None
    if not isinstance(data, dict) or data.get("schema") != 1:
        got = data.get("schema") if isinstance(data, dict) else type(data).__name__
        raise TurfplanError(
            Problem("schema", "is not one this version reads", repr(got), "1", "install the turfplan that wrote it")
        )
    try:
        return Plan.model_validate_json(raw)
    except ValidationError as error:
        raise TurfplanError(
            Problem(".".join(str(s) for s in e["loc"]), str(e["msg"]).lower()) for e in error.errors(include_url=False)
        ) from None
