"""Says why a task of a plan has its dates and amounts."""

from dataclasses import dataclass
from pathlib import Path

from turfplan.app.inputs import checked_file
from turfplan.app.lawn_journal import journal_of_lawn
from turfplan.app.outputs import plan_in
from turfplan.book.citations import fact_line
from turfplan.book.words import english_of
from turfplan.errors import Problem, TurfplanError, did_you_mean, one_of
from turfplan.files.reading.book import load_book
from turfplan.messages import words_for
from turfplan.phrases import journal as phrases
from turfplan.records.journal import says_more
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task
from turfplan.records.plan_years import YearsWorked


@dataclass(frozen=True, slots=True)
class Explanation:
    """A task of a plan, the facts it rests on in one line each, and what real years say of it,
    or generated ones.

    `changed_since`: brief or journal have changed since the plan was made.
    """

    plan: Plan
    task: Task
    facts: tuple[str, ...]
    real_years: YearsWorked | None
    generated_years: YearsWorked | None
    changed_since: bool


def explain_task(brief: Path, folder: Path, task: str) -> Explanation:
    """The reasons for a task of the plan in `folder`.

    Raises TurfplanError for a brief that cannot be used, a folder without a plan, or a task that it
    does not hold.
    """
    file = checked_file(brief)
    plan = plan_in(folder, brief)
    found = _task(plan, task)
    book = load_book(plan.place.region)
    entries = journal_of_lawn(file.journal, folder).entries
    stale = plan.brief_sha256 not in {file.sha256, *file.earlier_sha256} or says_more(
        entries, plan.journal_entries
    )
    words = words_for(
        plan.language,
        plan.lawn.units,
        english_of(book),
        country=plan.place.country,
        terminal=True,
    )
    facts = tuple(words.text(fact_line(book, name)) for name in found.facts if name in book.facts)
    real, made = (
        next((r for r in years if r.task == found.id), None)
        for years in (plan.real_years, plan.generated_years)
    )
    return Explanation(plan, found, facts, real, made, stale)


def _task(plan: Plan, name: str) -> Task:
    """The task of that name; a misspelt one is answered with the nearest."""
    found = plan.task(name)
    if found is None:
        names = [t.id for t in plan.tasks]
        hint = did_you_mean(name, names)
        raise TurfplanError(Problem("TASK", phrases.no_task(), name, one_of(names), hint))
    return found
