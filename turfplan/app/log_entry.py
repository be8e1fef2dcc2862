"""Writes into a lawn's journal what happened, and takes entries back."""

from collections.abc import Callable
from dataclasses import asdict, dataclass
from datetime import UTC, date, datetime
from pathlib import Path

from turfplan.app.inputs import checked_file
from turfplan.errors import Problem, TurfplanError, did_you_mean, one_of
from turfplan.files.journal import JournalFile, append_entry
from turfplan.files.reading.plan import read_plan
from turfplan.phrases import errors
from turfplan.phrases import journal as phrases
from turfplan.records.journal import EntryKind, JournalEntry, MeasuredQuantity, standing
from turfplan.records.plan import Plan
from turfplan.units import dimension_of, inside_unit, parse_quantity

MEASURED: dict[MeasuredQuantity, str] = {
    "soil_temperature": "temperature",
    "rain": "length",
    "grass_height": "length",
    "depth_missing": "length",
    "germination": "share",
    "live_cause": "share",
    "cause_left": "share",
    "grubs": "per_area",
}


@dataclass(frozen=True, slots=True)
class Happening:
    """What is to be written into a journal: an entry without its number and its moment."""

    kind: EntryKind
    task: str | None = None
    on: date | None = None
    to: date | None = None
    share: float = 1.0
    amount: float | None = None
    unit: str | None = None
    quantity: MeasuredQuantity | None = None
    value: float | None = None
    text: str | None = None


def log_entry(brief: Path, folder: Path, happening: Happening) -> JournalEntry:
    """Write what happened into the journal beside the brief.

    To a task of the plan in `folder`, or to the lawn. Raises TurfplanError for a brief that cannot
    be used, a task that the plan does not hold, or a journal that cannot be written; nothing is
    written then.
    """
    file = checked_file(brief)
    plan = read_plan(folder)
    if happening.task is not None:
        _check_task(happening.task, plan, brief)
    return add_entry(file.journal, happening)


def undo_entry(brief: Path, folder: Path, number: int | None) -> JournalEntry:
    """Take back an entry of the journal beside the brief, by another entry.

    It is the one of that number, or the last that stands. Raises TurfplanError when no such entry
    stands; nothing is written then.
    """
    file = checked_file(brief)
    read_plan(folder)  # a plan that cannot be read is told before the journal grows
    return append_entry(
        file.journal,
        _numbered(lambda journal: {"kind": "undo", "undoes": _to_undo(number, journal)}),
    )


def add_entry(journal: Path, happening: Happening) -> JournalEntry:
    """Add to a journal what happened, under the next number.

    Raises TurfplanError when it cannot be written.
    """
    return append_entry(journal, _numbered(lambda _: asdict(happening)))


def _numbered(
    fields: Callable[[JournalFile], dict[str, object]],
) -> Callable[[JournalFile], JournalEntry]:
    """What makes an entry from the journal: the fields, the next number, and this moment."""

    def make(journal: JournalFile) -> JournalEntry:
        number = max((entry.number for entry in journal.entries), default=0) + 1
        at = datetime.now(UTC).replace(microsecond=0)
        return JournalEntry.model_validate({**fields(journal), "number": number, "at": at})

    return make


def _check_task(task: str, plan: Plan | None, brief: Path) -> None:
    if plan is None:
        raise TurfplanError(
            Problem(
                "TASK",
                phrases.no_plan(),
                task,
                None,
                errors.make_plan_first(command=f"turfplan plan {brief}"),
            )
        )
    names = [t.id for t in plan.tasks]
    if task not in names:
        jobs = one_of(t.id for t in plan.tasks if t.series is None and t.closed is None)
        hint = did_you_mean(task, names)
        raise TurfplanError(Problem("TASK", phrases.no_task(), task, jobs, hint))


def _to_undo(number: int | None, journal: JournalFile) -> int:
    counting = {e.number for e in standing(journal.entries)} | {
        e.number for e in journal.entries if e.kind == "undo"
    }
    if number is None:
        last = max((e.number for e in standing(journal.entries)), default=None)
        if last is None:
            raise TurfplanError(Problem("undo", phrases.nothing_to_undo()))
        return last
    if number not in counting:
        allowed = one_of(map(str, sorted(counting))) if counting else errors.none()
        raise TurfplanError(Problem("N", phrases.not_standing(), str(number), allowed))
    return number


def amount_of(text: str | None) -> tuple[float | None, str | None]:
    """An amount as typed, in SI with its unit: volume in m3, mass in kg or area in m2.

    Raises TurfplanError.
    """
    if text is None:
        return None, None
    unit = text.strip().lstrip("0123456789./ ")
    dimension = dimension_of(unit)
    if dimension not in ("volume", "mass", "area"):
        raise TurfplanError(
            Problem("--amount", phrases.not_an_amount(), repr(text), phrases.for_example())
        )
    return parse_quantity(text, dimension), inside_unit(dimension)


def measure_of(quantity: str, text: str) -> tuple[MeasuredQuantity, float, str]:
    """A measured quantity as typed, with its value in the inside unit and that unit.

    Raises TurfplanError.
    """
    known = next((name for name in MEASURED if name == quantity), None)
    if known is None:
        hint = did_you_mean(quantity, MEASURED)
        raise TurfplanError(
            Problem("QUANTITY", phrases.not_known(), quantity, one_of(MEASURED), hint)
        )
    try:
        return known, parse_quantity(text, MEASURED[known]), inside_unit(MEASURED[known])
    except TurfplanError as error:
        raise error.located("VALUE") from None
