"""What of a lawn is its owner's own, and goes with the owner: on which days nobody is at home. The
plan that is handed over knows nothing of it."""

import tomllib
from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Any

from turfplan.app.inputs import brief_of_client, input_of
from turfplan.app.lawn_journal import entries_of_lawn
from turfplan.app.plan_lawn import planned
from turfplan.errors import Problem, TurfplanError
from turfplan.export.tables.plan_json import plan_to_json
from turfplan.files.brief_text import brief_text, with_value
from turfplan.files.data_folder import BRIEF
from turfplan.files.reading.brief import brief_from
from turfplan.files.reading.plan import read_plan
from turfplan.files.system_faults import unreadable

TABLE = "calendar"
# The keys of that table which say when somebody is not at home.
OWN_DAYS = ("away", "unavailable")


def text_of_brief(folder: Path) -> str:
    """The brief of a lawn; raises TurfplanError where it cannot be read."""
    path = folder / BRIEF
    try:
        return path.read_bytes().decode("utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        fault = error if isinstance(error, OSError) else OSError(str(error))
        raise TurfplanError(unreadable(path, fault)) from None


def days_of_owner(text: str) -> dict[str, Any]:
    """What a brief says of the days on which nobody is at home, by key."""
    table = _tables(text).get(TABLE, {})
    return {key: table[key] for key in OWN_DAYS if table.get(key)}


def without_days(text: str) -> str:
    """A brief without these days, all else of it as it was written."""
    return with_days(text, {key: [] for key in days_of_owner(text)})


def with_days(text: str, days: Mapping[str, Any]) -> str:
    """A brief with such days in the place of those that it says."""
    for key, value in days.items():
        try:
            text = with_value(text, TABLE, key, value)
        except ValueError:
            # Written over several lines: the whole brief is written anew.
            tables = _tables(text)
            text = brief_text({**tables, TABLE: {**tables.get(TABLE, {}), key: value}})
    return text


def plan_handed_over(folder: Path, text: str, today: date) -> bytes | None:
    """The plan of a lawn made again by a brief without its owner's days, so that it names none of
    them; None where there is none, or it cannot be made so.

    Raises TurfplanError for files that cannot be read.
    """
    before = read_plan(folder)
    if before is None:
        return None
    brief = brief_of_client(brief_from(_tables(text)), folder)
    entries = entries_of_lawn(folder)
    made = planned(input_of(brief, folder), entries, before, today=today)
    if made.conflict is not None:
        return None
    # What differs from the plan before is told by days that only its owner knew.
    return plan_to_json(made.model_copy(update={"changes": ()}))


def _tables(text: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise TurfplanError(Problem(BRIEF, str(error))) from None
