"""What a notebook or another program may ask for: plan a lawn, plan it again, windows, facts.

Everything here reads files and writes none, and is reached as `turfplan.NAME`. Lengths, volumes and
masses are SI (mm, m3, kg, m2, g/m2), temperatures degrees Celsius, days `datetime.date` and
inclusive; amounts carry their unit and its US twin. Wrong input raises `TurfplanError`, whose
`problems` say where, what was got, what is allowed, and a hint.
"""

import tomllib
from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Any

from turfplan.app.book_facts import FactRow
from turfplan.app.book_facts import book_facts as facts_of
from turfplan.app.inputs import PlanInputs, input_of, read_input
from turfplan.app.open_windows import WindowsHere
from turfplan.app.open_windows import open_windows as windows_of
from turfplan.app.plan_lawn import planned
from turfplan.errors import Problem, TurfplanError
from turfplan.files.data_folder import brief_at
from turfplan.files.reading.brief import brief_from
from turfplan.files.reading.toml_faults import not_toml
from turfplan.phrases import brief as phrases
from turfplan.phrases import files
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import Plan

BriefSource = Path | str | Mapping[str, Any]


def plan_lawn(
    brief: BriefSource,
    *,
    today: date | None = None,
    folder: Path | None = None,
    lawn_id: str | None = None,
) -> Plan:
    """The season of a lawn.

    `brief` is the path of a TOML file or of a lawn's folder, TOML text (a str of several lines), or
    its tables as a mapping; keys and units are those of the brief (`turfplan facts
    --brief-schema`). File names in text or mapping start from `folder`, else from the working
    directory. `today` plans as if it were that day in the lawn's zone; without it, now. `lawn_id`
    is the identity of a lawn whose brief gives none; without it one is drawn at random.

    A season that cannot be done as asked comes back with `conflict` and `options` and without
    tasks. Raises TurfplanError for a brief that cannot be planned from.
    """
    return planned(_read(brief, folder), today=today, lawn_id=lawn_id)


def replan_lawn(
    plan: Plan,
    brief: BriefSource,
    entries: Sequence[JournalEntry],
    *,
    today: date | None = None,
    folder: Path | None = None,
) -> Plan:
    """The season planned again, with as few moved tasks as can be, after what has happened.

    `plan` is the plan before, `entries` the whole journal, numbered from 1; other arguments as
    `plan_lawn` has them. What differs stands in `changes`. Raises TurfplanError for a brief that
    cannot be planned from, and for one of another lawn.
    """
    given = _read(brief, folder)
    if given.brief.lawn.id not in (None, plan.lawn_id):
        raise TurfplanError(
            Problem("lawn.id", files.not_the_plans(), given.brief.lawn.id, plan.lawn_id)
        )
    return planned(given, entries, plan, today=today)


def open_windows(
    grass: str,
    *,
    year: int | None = None,
    latitude: float | None = None,
    longitude: float | None = None,
    postal_code: str | None = None,
    climate_zone: str | None = None,
    normals: Path | None = None,
) -> WindowsHere:
    """When each operation is open at a place for a grass.

    The windows are those that start in `year`, else in this one.

    The place is latitude and longitude (degrees, north and east positive), a US postal code, or a
    climate zone (hardiness zone, Köppen class or turf zone); `normals` is a climate file of a
    station near it. Raises TurfplanError for a grass that the book does not know, and a place that
    is not found.
    """
    place = {
        "latitude": latitude,
        "longitude": longitude,
        "postal_code": postal_code,
        "climate_zone": climate_zone,
        "normals": str(normals.resolve()) if normals else None,
    }
    return windows_of(grass, place, Path.cwd(), year)


def book_facts(name: str = "", *, region: str | None = None) -> tuple[FactRow, ...]:
    """The numbers in force whose names begin with `name`.

    Each has its unit, its source and its place in the source.

    `region` lays that overlay over the book. Raises TurfplanError for a name or region that the
    book does not know.
    """
    return facts_of(name, region)


def _read(brief: BriefSource, folder: Path | None) -> PlanInputs:
    """All that planning a brief reads, whichever way the brief is given."""
    if isinstance(brief, str) and "\n" not in brief:
        brief = Path(brief)
    if isinstance(brief, Path):
        return read_input(brief_at(brief))
    if isinstance(brief, str):
        try:
            brief = tomllib.loads(brief)
        except tomllib.TOMLDecodeError as error:
            raise TurfplanError(not_toml("brief", error, phrases.quoted())) from None
    return input_of(brief_from(brief), folder or Path.cwd())
