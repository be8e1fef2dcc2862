"""Work under the id of a dropped task counts as that of its kind, and is asked back before."""

from datetime import UTC, date, datetime, timedelta

from campaigns.walks import Walk, begun
from planning import EXAMPLES, example_brief
from turfplan.app.inputs import input_of
from turfplan.files.reading.book import load_book
from turfplan.planning.slips import slips_of
from turfplan.records.dropped_tasks import counted_as
from turfplan.records.journal import JournalEntry


def entry(number: int, task: str, on: date, kind: str = "done") -> JournalEntry:
    """Work on a task."""
    at = datetime(2027, 1, 1, tzinfo=UTC) + timedelta(minutes=number)
    return JournalEntry.model_validate(
        {"number": number, "at": at, "kind": kind, "task": task, "on": on}
    )


def thinner() -> Walk:
    """A lawn whose fill is thinner than it was at first: its third pass was dropped."""
    season = begun(example_brief("cool-overseed"))
    leveling = season.given.brief.leveling.model_copy(update={"depth_mm": 14.0})
    brief = season.given.brief.model_copy(update={"leveling": leveling})
    season.given = input_of(brief, EXAMPLES)
    season.go(season.plan.now.date() + timedelta(days=1))
    dropped = season.plan.task("topdress.3")
    assert dropped is not None and dropped.closed == "dropped"
    return season


def test_work_counts_whatever_its_task_was_called() -> None:
    """As the open task of its kind with the nearest days, in every plan to come; its own id is
    asked back first, and what is written twice takes no second task."""
    season = thinner()
    day = season.day("topdress.1")
    written = entry(1, "topdress.3", day)
    book = load_book(season.plan.place.region)
    asked = slips_of(written, (), season.plan, book, today=day)
    assert [slip.what.key for slip in asked if slip.field == "task"] == ["slips.counts_as"]
    looked = slips_of(
        entry(1, "order_material.3", day, "skipped"), (), season.plan, book, today=day
    )
    assert [slip.what.key for slip in looked] == ["slips.was_dropped"]
    own = entry(2, "topdress.1", day)
    assert [e.task for e in counted_as(season.plan, (written, own))] == ["topdress.2", "topdress.1"]
    half = entry(2, "topdress.3", day + timedelta(days=1))
    assert [e.task for e in counted_as(season.plan, (written, half))] == ["topdress.1"] * 2
    undone = JournalEntry.model_validate({**half.model_dump(), "kind": "undo", "undoes": 1})
    assert counted_as(season.plan, (written, undone))[0].task == "topdress.3"
    season.journal.append(written)
    for later in (1, 30):
        season.go(day + timedelta(days=later))
        spread = season.plan.task("topdress.1")
        assert spread is not None and spread.closed == "done" and spread.actual is not None
        assert spread.actual.start == day
        assert season.day("topdress.2") > day
