"""A plan stands until there is news, whichever program made it."""

from dataclasses import replace
from datetime import timedelta
from functools import lru_cache
from hashlib import sha256
from pathlib import Path

import pytest

from campaigns.walks import BEGIN, Walk, walked
from planning import EXAMPLES, POSSIBLE, TODAY, brief_of
from tiers import sampled
from turfplan.app.inputs import PlanInputs, input_of, read_input
from turfplan.app.outputs import words_of
from turfplan.app.plan_lawn import planned
from turfplan.export.calendar.season_ics import season_ics
from turfplan.export.tables.plan_json import plan_to_json
from turfplan.files.reading.brief import read_brief
from turfplan.planning import KnownPlace, SoFar, Weather
from turfplan.planning.standing import _is_drafted, standing_plan
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import Plan

OLDER = "turfplan 0.0.1"
LATER = TODAY + timedelta(days=1)
NOTE = JournalEntry(number=1, at=TODAY, kind="note", text="Looked at it.")


@lru_cache(maxsize=1)
def begun() -> tuple[PlanInputs, Plan]:
    """A lawn with its plan, as another program would have left it: without one of its tasks."""
    given = input_of(brief_of(), Path())
    made = planned(given, today=TODAY.date())
    tasks = tuple(task for task in made.tasks if task.operation != "first_mow")
    assert len(tasks) < len(made.tasks)
    kept = {task.id for task in tasks}
    entries = tuple(entry for entry in made.calendar_entries if kept.issuperset(entry.tasks))
    update = {"program": OLDER, "tasks": tasks, "calendar_entries": entries}
    return given, made.model_copy(update=update)


def entry_of(plan: Plan) -> JournalEntry:
    """Word that the first task was done."""
    task = plan.tasks[0]
    return JournalEntry(number=1, at=TODAY, kind="done", task=task.id, on=TODAY.date())


@pytest.mark.full
def test_a_plan_of_another_program_stands() -> None:
    """Days, tasks and program stay, run after run, and in another language too; what is over is
    told."""
    given, before = begun()
    kept = {task.id: (task.uid, task.start, task.end, task.sequence) for task in before.tasks}
    again = planned(given, (), before, today=LATER.date())
    for plan in (again, planned(given, (), again, today=before.tasks[0].end + timedelta(days=1))):
        assert {t.id: (t.uid, t.start, t.end, t.sequence) for t in plan.tasks} == kept
        assert (plan.program, plan.data_version) == (OLDER, before.data_version)
    assert not again.tasks[0].overdue and plan.tasks[0].overdue
    assert again.revision == before.revision and again.now > before.now


@pytest.mark.full
def test_news_plans_anew_by_the_rules_of_today() -> None:
    """With an entry of the journal the plan is this program's again, with what it asks for."""
    given, before = begun()
    plan = planned(given, (entry_of(before),), before, today=LATER.date())
    assert plan.program != OLDER and plan.conflict is None
    assert any(task.operation == "first_mow" for task in plan.tasks)


@pytest.mark.full
@pytest.mark.parametrize(
    "news", ["none", "book", "brief", "files", "entry", "note", "weather", "not_done", "ours"]
)
def test_a_plan_stands_until_there_is_news(news: str) -> None:
    """Each kind of news alone has the lawn planned again; another book, or none, has not."""
    given, before = begun()
    ours = planned(given, today=TODAY.date())
    previous = {
        "ours": ours,
        "book": ours.model_copy(update={"data_version": "older"}),
        "files": ours.model_copy(update={"files_sha256": "of another survey"}),
    }.get(news, before)
    so_far = SoFar((), previous, assume_not_done=news == "not_done")
    if news == "entry":
        so_far = replace(so_far, journal=(entry_of(before),))
    if news == "note":
        so_far = replace(so_far, journal=(NOTE,))
    place = KnownPlace(given.climate, weather=Weather() if news == "weather" else None)
    digest = "another" if news == "brief" else given.sha256
    found = standing_plan(given.book, place, so_far, now=LATER, brief_sha256=digest)
    assert (found is not None) == (news in ("none", "book", "note", "ours"))


@pytest.mark.full
@pytest.mark.parametrize(
    ("closed", "status", "drafted"),
    [
        (None, "CONFIRMED", True),
        ("done", "CONFIRMED", True),
        ("skipped", "CONFIRMED", False),
        (None, "CANCELLED", False),
        ("done", "CANCELLED", False),
    ],
)
def test_what_was_dropped_or_skipped_is_no_task_of_the_rules(
    closed: str | None, status: str, *, drafted: bool
) -> None:
    """It is history of the feed alone; what is done still is one."""
    task = begun()[1].tasks[0]
    assert _is_drafted(task.model_copy(update={"closed": closed, "status": status})) is drafted


def calendar(plan: Plan) -> bytes:
    """The calendar of a plan."""
    return season_ics(plan, words_of(plan))


@pytest.mark.parametrize("name", sampled(POSSIBLE, "cool-overseed"))
def test_neither_a_day_nor_a_remark_changes_a_byte_of_a_calendar(name: str, tmp_path: Path) -> None:
    """Day after day through the season, with the brief written in another way: nobody's calendar
    changes. A value of it that is another does change what is planned from."""
    text = (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")
    file = read_brief(EXAMPLES / f"{name}.toml")
    given = input_of(file.brief, EXAMPLES)
    season = Walk(given, planned(given, today=BEGIN))
    shown = calendar(season.plan)
    work = sorted({task.end for task in season.plan.tasks if task.series is None})
    (tmp_path / "lawn.toml").write_bytes(b"# ours\r\n" + text.replace("\n", "\r\n").encode())
    season.given = input_of(read_brief(tmp_path / "lawn.toml").brief, EXAMPLES)
    for day in (BEGIN, BEGIN + timedelta(days=1), work[0], work[len(work) // 2], work[-1]):
        season.go(day + timedelta(days=1))
        assert calendar(season.plan) == shown, day
        assert season.plan.brief_sha256 == given.sha256
    assert any(task.overdue for task in season.plan.tasks)


@pytest.mark.parametrize("number", sampled(range(12), 0))
def test_what_has_happened_is_told_once(number: int) -> None:
    """After a walk through the journal as after a first plan: days go by, the calendar stays."""
    season = walked(number)
    if isinstance(season, str):
        return
    shown, today = calendar(season.plan), season.plan.now.date()
    for days in (1, 8, 60, 400):
        season.go(today + timedelta(days=days))
        assert calendar(season.plan) == shown, days


@pytest.mark.full
def test_a_plan_that_was_known_by_bytes_stands() -> None:
    """What an earlier program wrote of a brief and its files is known, and is no news."""
    path = EXAMPLES / "cool-overseed.toml"
    given = read_input(path)
    season = Walk(given, planned(given, today=BEGIN))
    of_bytes = sha256(path.read_bytes()).hexdigest()
    assert of_bytes != season.plan.brief_sha256
    season.plan = season.plan.model_copy(update={"brief_sha256": of_bytes, "program": OLDER})
    shown = calendar(season.plan)
    again = season.go(BEGIN + timedelta(days=9))
    assert (again.program, again.brief_sha256) == (OLDER, given.sha256)
    assert calendar(again) == shown


def test_what_was_taken_as_done_stays_so() -> None:
    """Seed that was sown had been fetched: no word of the trip is needed, on a later day either."""
    given, before = begun()
    sown = next(task for task in before.tasks if task.plays("sowing"))
    entry = JournalEntry(number=1, at=TODAY, kind="done", task=sown.id, on=sown.end)
    made = planned(given, (entry,), before, today=sown.end + timedelta(days=1))
    again = planned(given, (entry,), made, today=sown.end + timedelta(days=5))
    for plan in (made, again):
        trip = plan.task("collect.seed")
        assert trip is not None and trip.closed == "done" and not trip.overdue


def test_a_note_changes_nothing_but_that_it_is_known() -> None:
    """Work that was closed stays closed, no day moves; planned once more no byte differs. An entry
    that says something of the work is news."""
    given, before = begun()
    noted = planned(given, (NOTE,), before, today=LATER.date())
    assert (noted.program, noted.revision, noted.journal_entries) == (OLDER, before.revision, 1)
    assert calendar(noted) == calendar(before)
    again = planned(given, (NOTE,), noted, today=LATER.date())
    assert plan_to_json(again) == plan_to_json(noted)
    told = NOTE.model_copy(update={"number": 2, "text": None})
    told = told.model_copy(update={"kind": "skipped", "task": "soil_test", "on": TODAY.date()})
    assert planned(given, (NOTE, told), noted, today=LATER.date()).program != OLDER
