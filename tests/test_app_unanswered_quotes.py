"""Work of which no quote is accepted: in no day, week, material, letter or message, but apart from
them, with the day by which the answer must come."""

import json
from datetime import date, timedelta
from pathlib import Path

import pytest

from command import run as command
from planned_business import DAY, plan_again
from turfplan.app.client_letters import lawns_to_write_to
from turfplan.app.client_lists import AskedList, JobList, list_jobs
from turfplan.app.client_material import list_material
from turfplan.app.client_messages import client_messages
from turfplan.app.client_quotes import accept_quote, decline_quote, offer_quote, undo_quote
from turfplan.app.client_sheets import crew_sheet
from turfplan.app.log_clients import DayLog, log_day
from turfplan.app.office_list import OfficeShelf
from turfplan.app.office_needs import needs_of
from turfplan.business.lawn_glance import GlancedJob
from turfplan.business.quote_record import Quote, QuoteChoice, QuotedJob, Rates
from turfplan.business.unanswered import parted, unsold_tasks
from turfplan.files.lawn_standing import read_quotes
from turfplan.files.reading.brief import read_brief
from turfplan.files.reading.plan import read_plan

THIN = "thin layer: leveling.depth = 0.25 in"


def first_pass(data: Path, name: str = "ash") -> date:
    """The day of the first pass of a lawn."""
    plan = read_plan(data / "lawns" / name)
    assert plan is not None
    return min(task.start for task in plan.tasks if task.plays("spreading") and task.is_open)


def week(data: Path, day: date) -> JobList:
    """The jobs of a week."""
    return list_jobs(data, AskedList("week", day))


def listed(data: Path, day: date) -> set[str]:
    """The lawns that have jobs in the week of a day."""
    return {lawn.id for lawn in week(data, day).lawns}


def buyers(data: Path) -> set[str]:
    """The lawns for which material is to be ordered."""
    return {share.lawn for load in list_material(data, today=DAY).loads for share in load.shares}


def test_a_lawn_without_an_accepted_quote_waits(data: Path) -> None:
    """In every state but accepted, and without any quote, as with a business that offers none: in
    lists, hours, material, letters, messages, the sheet of a crew and at the office."""
    day = first_pass(data)
    both = week(data, day)
    assert {lawn.id for lawn in both.lawns} == {"ash", "elm"} == buyers(data)
    assert not both.waiting
    offer_quote(data, "ash", DAY)
    found = week(data, day)
    assert {lawn.id for lawn in found.lawns} == {"elm"} == buyers(data)
    assert sum(one.needed for one in found.hours) == pytest.approx(
        sum(one.needed for one in both.hours) / 2, rel=0.05
    )
    (waiting,) = found.waiting
    assert waiting.id == "ash" and waiting.name == "Ash (invented)"
    waits = waiting.waits
    assert waits.begins is not None and waits.by is not None and waits.begins <= waits.by
    bought = list_material(data, today=DAY)
    assert [one.id for one in bought.waiting] == ["ash"] and bought.waiting[0].waits.by == waits.by
    assert [lawn.name for lawn in lawns_to_write_to(data, None, None, DAY)[0]] == ["elm"]
    assert [one.folder.name for one in client_messages(data, DAY)[0]] == ["elm"]
    html, _, notes = crew_sheet(data, AskedList("week", day), None)
    assert "Elm (invented)" in html and "Ash (invented)" not in html
    assert any(note.key == "quotes.left_out" for note in notes)
    decline_quote(data, "ash", DAY)
    assert listed(data, day) == {"elm"} and not week(data, day).waiting
    undo_quote(data, "ash", DAY)
    assert [one.waits.state for one in week(data, day).waiting] == ["run_out"]
    accept_quote(data, "ash", DAY)
    assert listed(data, day) == {"ash", "elm"} == buyers(data)
    undo_quote(data, "ash", DAY)
    assert listed(data, day) == {"elm"} == buyers(data)
    undo_quote(data, "ash", DAY)
    assert listed(data, day) == {"ash", "elm"}, "an offer that was taken back is none"


def test_the_answer_comes_in_time_for_order_and_window(data: Path) -> None:
    """No later than the last safe day of any job that leads to seed or fill, the order among them;
    planned on that day with the answer, the same season is kept."""
    offer_quote(data, "ash", DAY)
    (one,) = list_jobs(data, AskedList("waiting", DAY)).waiting
    assert one.waits.by is not None
    leading = [job for job in one.waits.jobs if job.leads]
    assert {job.operation for job in leading} >= {"order_material", "topdress", "overseed"}
    assert not {job.operation for job in leading} & {"feed_nitrogen", "soil_test"}
    assert one.waits.by == min(job.last for job in leading)
    assert one.waits.first_lost in {job.title for job in leading}
    season = first_pass(data).year
    plan_again(data, one.waits.by)
    accept_quote(data, "ash", one.waits.by, late=True)
    plan_again(data, one.waits.by)
    assert first_pass(data).year == season and first_pass(data) >= one.waits.by


def test_what_nobody_bought_was_not_done(data: Path) -> None:
    """Days that go by before the answer are lost, and no work of them counts as done; the day's log
    writes nothing of it."""
    offer_quote(data, "ash", DAY)
    plan = read_plan(data / "lawns" / "ash")
    assert plan is not None
    (test,) = [task for task in plan.tasks if task.id == "soil_test"]
    written = log_day(data, DayLog(test.start, "done"), test.start)
    assert {path.name for path in written.at} == {"elm"}
    late = test.end + timedelta(3)
    accept_quote(data, "ash", late, late=True)
    plan_again(data, late)
    again = read_plan(data / "lawns" / "ash")
    assert again is not None
    moved = again.task("soil_test")
    assert moved is not None and moved.is_open and not moved.overdue and moved.start >= late


def test_undo_gives_the_brief_back(data: Path) -> None:
    """What the choice taken changed in the brief is as it was; a withdrawn number is not given
    again; nothing is left to undo then."""
    brief = data / "lawns" / "ash" / "brief.toml"
    before = brief.read_text(encoding="utf-8")
    offer_quote(data, "ash", DAY, [THIN, "watered: water.application_rate = 1 in/h"])
    for choice in (2, 3):
        accept_quote(data, "ash", DAY, choice=choice)
        assert brief.read_text(encoding="utf-8") != before
        undo_quote(data, "ash", DAY)
        assert brief.read_text(encoding="utf-8") == before
    assert read_brief(brief).brief.leveling.depth_mm == 12.7
    assert undo_quote(data, "ash", DAY).quote.said == "withdrawn"
    assert offer_quote(data, "ash", DAY).quote.number == "2027-0002"
    assert [one.said for one in read_quotes(data / "lawns" / "ash")] == ["withdrawn", "offered"]


def test_lists_tell_it_apart(data: Path) -> None:
    """The commands' tables and objects; `--waiting` alone; nothing where all is answered."""
    day = first_pass(data)
    offer_quote(data, "ash", DAY)
    said = command("clients", "list", "data", "--week", str(day), cwd=data.parent)
    table, apart = said.stdout.split("Waiting for an answer")
    assert "elm" in table and "ash" not in table and "ash" in apart and "2027-0001" in apart
    asked = ("clients", "list", "data", "--waiting", "--today", str(DAY))
    told = json.loads(command(*asked, "--json", cwd=data.parent).stdout)
    assert [one["id"] for one in told["waiting"]] == ["ash"] and not told["lawns"]
    assert told["waiting"][0]["answer_by"] in command(*asked, cwd=data.parent).stdout
    bought = command("clients", "material", "data", "--today", str(DAY), cwd=data.parent).stdout
    assert "Waiting for an answer" in bought
    accept_quote(data, "ash", DAY)
    after = command(*asked, cwd=data.parent)
    assert "No quote waits" in after.stderr and "ash" not in after.stdout


def test_the_office_has_no_job_and_no_message_of_it(data: Path) -> None:
    """Nothing is overdue at such a lawn; near the day of the answer it is asked for."""
    offer_quote(data, "ash", DAY)
    lawn = OfficeShelf(data).lawn("ash")
    assert lawn is not None
    day = first_pass(data)
    assert not lawn.jobs_of(day) and lawn.waits(DAY) is not None
    waits = lawn.waits(DAY)
    assert waits is not None and waits.by is not None
    near = waits.by - timedelta(3)
    needs = {need.kind: need.by for need in needs_of(lawn, near)}
    assert needs["quote"] == waits.by and not needs.keys() & {"overdue", "last_day", "message"}
    accept_quote(data, "ash", DAY)
    sold = OfficeShelf(data).lawn("ash")
    assert sold is not None and sold.jobs_of(day) and sold.waits(DAY) is None


def _quote(number: int, said: str, *tasks: str) -> Quote:
    jobs = tuple(QuotedJob(task=t, title=t, start=DAY, end=DAY, hours=1) for t in tasks)
    choice = QuoteChoice(name="", jobs=jobs, lines=(), net=0, tax=0, total=0)
    rates = Rates(currency="USD", minor_digits=2)
    given = {"said": said, "said_on": DAY, "accepted": 0 if said == "accepted" else None}
    return Quote(number=str(number), on=DAY, rates=rates, choices=(choice,)).model_copy(
        update=given
    )


@pytest.mark.parametrize(
    ("quotes", "unsold"),
    [
        ((), ""),
        ((("offered", "a"),), "abc"),
        ((("declined", "a"),), "abc"),
        ((("withdrawn", "a"),), ""),
        ((("accepted", "a"),), ""),
        ((("offered", "a"), ("accepted", "a")), ""),
        ((("accepted", "a"), ("withdrawn", "b")), ""),
        # More is offered while what was accepted goes on: that alone waits.
        ((("accepted", "a"), ("offered", "ab")), "b"),
        # What was accepted is over: all that is left is a new season's.
        ((("accepted", "z"), ("offered", "a")), "abc"),
    ],
)
def test_which_quote_decides(quotes: tuple[tuple[str, str], ...], unsold: str) -> None:
    """The last one, beside what was accepted and goes on; a callback is always owed."""
    made = [_quote(number, said, *tasks) for number, (said, tasks) in enumerate(quotes)]
    assert unsold_tasks(made, [*"abc", "callback.1"]) == set(unsold)
    jobs = [
        GlancedJob(task=task, title=task, start=DAY, end=DAY, hours=1, last=DAY)
        for task in (*"abc", "callback.1")
    ]
    sold, waits = parted(jobs, made, DAY)
    assert {job.task for job in sold} == {*"abc", "callback.1"} - set(unsold)
    assert {job.task for job in (waits.jobs if waits is not None else ())} == set(unsold)
