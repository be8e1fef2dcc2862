"""The page of a week: what its feedings come to, and how far its jobs can slip."""

import re
from datetime import timedelta

import pytest

from planning import POSSIBLE, example
from printed import checklist_html, unset, week_sheets
from tiers import sampled
from turfplan.export.typography import NO_BREAK


def test_a_week_tells_its_feedings_and_no_account() -> None:
    """Nitrogen in the weeks that are fed; what the water account holds is for the season book."""
    plan = example("cool-overseed")
    sheets = week_sheets(plan)
    fed = [task for task in plan.tasks if task.plays("feeding")]
    assert fed and all(
        any(
            "nitrogen" in s.summary
            for s in sheets
            if s.first <= task.start <= s.first + timedelta(days=6)
        )
        for task in fed
    )
    assert not any("account" in sheet.summary for sheet in sheets)


@pytest.mark.parametrize("name", sampled(POSSIBLE, "cool-overseed", "southern-hemisphere"))
def test_a_job_says_how_far_it_can_slip(name: str) -> None:
    """The last day with all others where they are, with its year where that is not the job's, and
    what would move beyond."""
    plan = example(name)
    jobs = [job for sheet in week_sheets(plan) for job in sheet.jobs]
    told = 0
    for job in jobs:
        slack = job.task.slack
        assert slack is not None and "would do" not in job.slip
        if slack.end > job.task.start:
            assert f" {slack.end.day}" in job.slip
            assert (str(slack.end.year) in job.slip) == (slack.end.year != job.task.start.year)
        for moved in slack.moves[:1]:
            other = plan.task(moved)
            assert other is not None
            told += f"“{other.title}”" in job.slip
    assert told > len(jobs) / 4


@pytest.mark.parametrize("name", sampled(POSSIBLE, "cool-overseed", "surveyed-metric"))
def test_a_day_waits_for_its_main_job_and_names_none_of_its_own(name: str) -> None:
    """Whose days they are is told where the week has several jobs; what is spread, sown or planted
    comes before what goes with it; what moves is never done on the same day."""
    sheets = week_sheets(example(name))
    told = 0
    for sheet in sheets:
        for day in (day for day in sheet.days if day.wait is not None and day.wait.last_day):
            assert day.wait is not None
            here = [job for job in sheet.jobs if job.days[0].isoformat() == day.iso]
            assert bool(day.wait.whose) == (len(sheet.jobs) > 1)
            assert not any(f"“{job.task.title}”" in day.wait.moves for job in here)
            whole = [job for job in here if job.task.id not in day.for_themselves]
            main = [job for job in whole if job.task.plays("spreading", "sowing", "planting")]
            if main and day.wait.whose:
                assert day.wait.whose == f"job {main[0].number}:"
            told += 1
    assert told


@pytest.mark.parametrize("name", sampled(POSSIBLE, "cool-overseed", "surveyed-metric"))
def test_large_figures_stand_in_one_order(name: str) -> None:
    """Depth, barrows, how far apart, volume; of seed its rate and its cover, and never
    what is held back."""
    order = ("Depth", "Barrow loads", "Seed rate", "Half-barrow", "Rake in", "Volume", "Seed")
    for job in (job for sheet in week_sheets(example(name)) for job in sheet.jobs):
        if job.task.plays("spreading", "sowing"):
            names = [figure.of for figure in job.figures.large]
            places = [next(n for n, o in enumerate(order) if of.startswith(o)) for of in names]
            assert places == sorted(places) and "Seed held back" not in names
        if job.task.plays("spreading"):
            assert "settled" in job.figures.large[0].of


@pytest.mark.parametrize(
    ("name", "begun"),
    [("arid-bluegrass", "Sun, Aug 29, goes on."), ("british-metric", "Sun 29 Aug, goes on.")],
)
def test_a_day_that_goes_on_is_called_as_its_reader_writes_days(name: str, begun: str) -> None:
    """And the jobs begun before it by their number: one job, several jobs."""
    plan = example(name)
    sheets = week_sheets(plan)
    days = [day for sheet in sheets for day in sheet.days]
    assert {day.name for day in days if day.iso == "2027-08-29"} == {begun.split(", goes")[0]}
    assert {day.goes_on for day in days} == {"", "Go on with jobs 1 and 2."}
    told = unset(checklist_html(plan))
    gone_on = re.findall(r'class="goes-on">((?:Mon|Fri|Sat|Sun)[^.]*goes on\.)', told)
    assert gone_on or name != "arid-bluegrass"
    assert all(("," in on.split(" goes")[0][:4]) == ("," in begun[:4]) for on in gone_on)


def test_jobs_of_a_day_that_follow_each_other_are_told_by_the_first_and_the_last() -> None:
    """One is a job, two are jobs; from three on only the first and the last are told, so that they
    stay on the line of their day."""
    seen = {
        (day.called, day.marks)
        for name in ("arid-bluegrass", "cool-overseed", "deep-two-inches", "british-metric")
        for sheet in week_sheets(example(name))
        for day in sheet.strip
        if day.marks
    }
    assert ("Job", "1") in seen and ("Jobs", "1, 2") in seen and ("Jobs", "3–6") in seen
    assert all((called == "Job") == marks.isdecimal() for called, marks in seen)
    assert not any(marks.count(",") > 1 for _, marks in seen)


@pytest.mark.parametrize("name", sampled(POSSIBLE, "cool-overseed", "british-metric"))
def test_what_then_is_said_of_another_job_is_said_as_its_own(name: str) -> None:
    """Rain that puts off a feeding does not put off the mowing of the same day: each text that the
    job by which the day is known does not share bears the number of its job."""
    told = 0
    for sheet in week_sheets(example(name)):
        for day in (day for day in sheet.days if day.wait is not None):
            assert day.wait is not None and len(day.wait.of) == len(day.wait.then)
            here = [job for job in sheet.jobs if job.days[0].isoformat() == day.iso]
            for of, text in day.wait.told:
                those = [job.number for job in here if text in job.wait.then]
                named = [int(number) for number in re.findall(r"\d+", of)]
                assert set(named) <= set(those)
                told += bool(of)
            assert not day.wait.of or day.wait.of[0] == ""
    assert told


def test_the_blanks_of_a_job_stay_in_one_line() -> None:
    """The day it was done and its hours are written one after the other."""
    assert ".record .pair { display: inline-block; }" in checklist_html(example("cool-overseed"))


def test_jobs_are_spoken_of_in_the_plural_and_days_as_the_country_writes_them() -> None:
    """In the strip, before what holds for several, where a day goes on, and where one goes on."""
    html = checklist_html(example("pacific-northwest"))
    text = re.sub(r"<[^>]+>", "", html).replace(NO_BREAK, " ")
    assert not re.findall(r"\b[Jj]ob \d+, \d+", text)
    assert "Jobs 4 and 6:" in text
    days = re.findall(r"(\w+,? \w+,? \w+), goes on\.", text)
    assert days and all(re.fullmatch(r"\w+, \w+ \d+|\w+ \d+, \d{4}", day) for day in days)
    long = re.sub(r"<[^>]+>", "", checklist_html(example("southern-hemisphere")))
    assert "Go on with jobs 1, 2" in long and "Go on with job 1, 2" not in long


def test_a_job_begun_before_tells_its_days_once() -> None:
    """They stand right above: what points back does not say them again."""
    for text in re.findall(
        r'<p class="closed">(.*?)</p>', checklist_html(example("southern-hemisphere"))
    ):
        assert "(" not in text and not re.search(r"\d", text), text
