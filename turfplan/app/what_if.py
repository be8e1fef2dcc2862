"""What a lawn's season would be if its brief said something else: planned and not written, and kept
where it is wanted."""

import tomllib
from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Literal

from turfplan.app.inputs import input_of
from turfplan.app.lawn_journal import journal_of_lawn
from turfplan.app.plan_lawn import plan_before, planned
from turfplan.errors import Problem, TurfplanError
from turfplan.files.brief_text import with_value
from turfplan.files.reading.brief import brief_from, journal_beside
from turfplan.files.system_faults import unreadable, unwritable
from turfplan.files.whole_files import write_into_folders
from turfplan.message import Message, Worded
from turfplan.phrases import page
from turfplan.phrases import season_page as phrases
from turfplan.planning.changed_briefs import TABLE_OF_KEY
from turfplan.records.plan import Plan

WhatIfWish = Literal["depth", "intent", "start", "grass", "people"]
# Where the brief says each of them.
PLACES: Mapping[WhatIfWish, tuple[str, str]] = {
    "depth": ("leveling", "depth"),
    "intent": ("seeding", "intent"),
    "start": ("season", "from"),
    "grass": ("lawn", "grass"),
    "people": ("work", "people"),
}
Wishes = Mapping[WhatIfWish, str]
# How a day is written, where one was written otherwise.
DAY_WRITTEN = "2027-03-01"


def said_now(brief: Path) -> dict[WhatIfWish, str]:
    """What a brief says of each that can be wished for, as it is typed, nothing where it says
    nothing; without those that it says in more than one value.

    Raises TurfplanError for a file that cannot be read.
    """
    tables = tomllib.loads(text_of(brief))
    leveling = tables.get("leveling", {})
    said: dict[WhatIfWish, str] = {}
    for wish, (table, key) in PLACES.items():
        value = tables.get(table, {}).get(key, "")
        if wish == "depth" and ("lows" in leveling or "survey" in leveling):
            continue  # they say how deep, each for a part
        if isinstance(value, str | int | date):
            said[wish] = str(value)
    return said


def plan_if(
    brief: Path, folder: Path, wishes: Wishes, today: date, ways: Sequence[str] = ()
) -> Plan:
    """The plan of a lawn, on a day, with a brief that says what is wished for, and what ways out
    say; nothing is written.

    It may come with a conflict. Raises TurfplanError for wishes that no brief takes.
    """
    given = brief_from(tomllib.loads(changed_text(brief, wishes, ways)))
    entries = journal_of_lawn(journal_beside(brief), folder).entries
    before = plan_before(folder, given.lawn.id)
    return planned(input_of(given, brief.parent), entries, before, today=today)


def way_of(change: Worded) -> str:
    """The lines of a way out as a button can take them; nothing where they are not values alone."""
    lines = str(change)
    return lines if _said_by(lines) else ""


def _said_by(lines: str) -> dict[str, object]:
    """The values that lines of a way out give to keys of a brief; none for anything else."""
    try:
        values: dict[str, object] = tomllib.loads(f"way = {{ {lines} }}")["way"]
    except (tomllib.TOMLDecodeError, KeyError):
        return {}
    return values if values.keys() <= TABLE_OF_KEY.keys() else {}


def changed_text(brief: Path, wishes: Wishes, ways: Sequence[str] = ()) -> str:
    """The text of a brief that says what is wished for, and what ways out say, all else as it was
    written.

    Raises TurfplanError for a wish that is none, and where the text says it in a way of its own.
    """
    text, problems = text_of(brief), []
    wanted_values: list[tuple[str, str, object]] = []
    for wish, wanted in wishes.items():
        table, key = PLACES[wish]
        try:
            wanted_values.append((table, key, _value(wish, wanted)))
        except ValueError:
            problems.append(Problem(f"{table}.{key}", _fault(wish), wanted))
    for lines in ways:
        said = _said_by(lines)
        wanted_values += [(TABLE_OF_KEY[key], key, value) for key, value in said.items()]
    for table, key, value in wanted_values:
        try:
            text = with_value(text, table, key, value)
        except ValueError:
            problems.append(Problem(f"{table}.{key}", phrases.written_by_hand()))
    if problems:
        raise TurfplanError(problems)
    return text


def keep_text(brief: Path, text: str) -> None:
    """Write the text of a brief in its place; raises TurfplanError where that cannot be."""
    try:
        write_into_folders({brief: text.encode()})
    except OSError as error:
        raise TurfplanError(unwritable(brief, error)) from None


def text_of(brief: Path) -> str:
    """The text of a brief; raises TurfplanError for a file that cannot be read."""
    try:
        return brief.read_bytes().decode("utf-8-sig")
    except OSError as error:
        raise TurfplanError(unreadable(brief, error)) from None


def _value(wish: WhatIfWish, wanted: str) -> str | int | date:
    if wish == "start":
        return date.fromisoformat(wanted)
    if wish == "people":
        return int(wanted)
    return wanted


def _fault(wish: WhatIfWish) -> Message:
    if wish == "people":
        return phrases.whole_number()
    return page.write_day(example=DAY_WRITTEN)
