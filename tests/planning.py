"""Plans made in tests: examples from disk and small briefs written here, always on a fixed day."""

from collections.abc import Mapping, Sequence
from copy import deepcopy
from datetime import UTC, date, datetime
from functools import lru_cache
from pathlib import Path
from typing import Any

from turfplan.app.inputs import input_of
from turfplan.book.entries import Book
from turfplan.book.words import english_of
from turfplan.climate.record import Climate
from turfplan.files.reading.brief import read_brief
from turfplan.files.reading.place import located
from turfplan.messages import words_for
from turfplan.planning import KnownPlace, SoFar, make_plan
from turfplan.planning.lawn_ids import given_lawn_id
from turfplan.publishing import sound_plan
from turfplan.records.brief import Brief, Place, parse_brief
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task

ROOT = Path(__file__).parents[1]
EXAMPLES = ROOT / "examples"
SHARED = ROOT.parent / "shared"
TODAY = datetime(2027, 2, 1, 12, tzinfo=UTC)
NAMES = tuple(sorted(p.stem for p in EXAMPLES.glob("*.toml")))
POSSIBLE = tuple(name for name in NAMES if name != "late-start")

# Of lawns whose brief gives none.
LAWN_ID = "lawn-of-tests"

PLAIN: dict[str, Any] = {
    "lawn": {
        "id": "test-lawn",
        "name": "Test lawn",
        "area": "5000 ft2",
        "grass": "tall_fescue",
        "soil": "clay loam",
        "thatch": "0.2 in",
        "condition": "thin",
    },
    "place": {"postal_code": "17601", "country": "US"},
    "leveling": {"depth": "0.5 in"},
    "seeding": {"intent": "overseed"},
    "water": {"possible": True, "application_rate": "1.2 in/h"},
    "calendar": {"weekdays": ["sat", "sun"]},
    "season": {"from": date(2027, 3, 1)},
    "work": {"people": 2, "hours_per_day": 6},
}


def climate_at(latitude: float, longitude: float, *, elevation_m: float | None = None) -> Climate:
    """The climate of coordinates from the packed grid."""
    elevation_mm = None if elevation_m is None else elevation_m * 1000
    place = Place(latitude=latitude, longitude=longitude).model_copy(
        update={"elevation_mm": elevation_mm}
    )
    return located(place, Path()).climate


def merged(*changes: Mapping[str, Any]) -> dict[str, Any]:
    """The plain brief with tables of changes laid over it; None takes a key away."""
    data = deepcopy(PLAIN)
    for change in changes:
        for table, values in change.items():
            if values is None:
                data.pop(table, None)
                continue
            here = data.setdefault(table, {})
            for key, value in values.items():
                if value is None:
                    here.pop(key, None)
                else:
                    here[key] = value
    return data


def brief_of(*changes: Mapping[str, Any]) -> Brief:
    """The plain brief with changes."""
    return parse_brief(merged(*changes))


def plan_of(
    *changes: Mapping[str, Any],
    now: datetime = TODAY,
    journal: tuple[JournalEntry, ...] = (),
    previous: Plan | None = None,
    **options: Any,
) -> Plan:
    """The plan of the plain brief with changes."""
    return plan_brief(brief_of(*changes), now=now, journal=journal, previous=previous, **options)


def drafted_plan(
    brief: Brief,
    book: Book,
    climate: Climate,
    journal: Sequence[JournalEntry] = (),
    previous: Plan | None = None,
    *,
    now: datetime,
    **more: Any,
) -> Plan:
    """A draft, neither told in words nor judged.

    `more` are ground, weather and real years, `assume_not_done`, `brief_sha256`, `lawn_id` and
    `options`.
    """
    so_far = SoFar(
        journal,
        previous,
        more.pop("assume_not_done", False),
        brief_sha256=more.pop("brief_sha256", ""),
    )
    lawn_id = given_lawn_id(brief, previous) or LAWN_ID
    asked = {"lawn_id": lawn_id} | {n: more.pop(n) for n in ("lawn_id", "options") if n in more}
    return make_plan(brief, book, KnownPlace(climate, **more), so_far, now=now, **asked)


def made_plan(
    brief: Brief,
    book: Book,
    climate: Climate,
    journal: Sequence[JournalEntry] = (),
    previous: Plan | None = None,
    *,
    now: datetime,
    language: str = "en",
    **more: Any,
) -> Plan:
    """A plan as it is published after the plan before, and judged; `more` goes to its draft."""
    draft = drafted_plan(brief, book, climate, journal, previous, now=now, **more)
    words = words_for(language, draft.lawn.units, english_of(book))
    return sound_plan(draft, previous, now, words, brief, book)


def plan_brief(
    brief: Brief,
    now: datetime = TODAY,
    journal: tuple[JournalEntry, ...] = (),
    previous: Plan | None = None,
    **options: Any,
) -> Plan:
    """The plan of a brief."""
    given = input_of(brief, EXAMPLES)
    options.setdefault("brief_sha256", str(hash(brief.model_dump_json())))
    return made_plan(
        brief, given.book, given.climate, journal, previous, now=now, ground=given.ground, **options
    )


@lru_cache(maxsize=32)
def example(name: str) -> Plan:
    """The plan of an example."""
    return plan_brief(example_brief(name))


@lru_cache(maxsize=32)
def example_brief(name: str) -> Brief:
    """The brief of an example."""
    return read_brief(EXAMPLES / f"{name}.toml").brief


def kind(plan: Plan, operation: str) -> list[Task]:
    """The tasks of one operation, by date."""
    return sorted(
        (t for t in plan.tasks if t.operation == operation and t.status != "CANCELLED"),
        key=lambda t: t.start,
    )


def first(plan: Plan, operation: str) -> Task:
    """The first task of an operation; fails when there is none."""
    found = kind(plan, operation)
    assert found, f"no {operation} in {[t.id for t in plan.tasks]}"
    return found[0]


def amount(task: Task, item: str) -> float:
    """The SI value of one amount of a task."""
    return next(a.value for a in task.amounts if a.item == item)


def depth_total(plan: Plan) -> float:
    """The settled depth of all passes and lifts, mm."""
    return sum(amount(t, "depth") for t in plan.tasks if t.plays("spreading"))
