"""The page of a week tells what the accounts of water and nitrogen hold for it."""

from datetime import timedelta

from planning import example
from printed import week_sheets
from turfplan.units import read_as


def test_each_week_tells_its_account() -> None:
    """Rain, watering, what rooted grass is advised and use of the ledger's own week, and nitrogen
    where it is fed."""
    plan = example("cool-overseed")
    weeks = {week.end: week.entries for week in plan.ledgers[0].weeks}
    sheets = week_sheets(plan)
    assert sheets
    for sheet in sheets:
        entries = weeks[sheet.first + timedelta(days=6)]
        rain, watering, rooted, use = (
            read_as(abs(entries[name]), "rain", plan.lawn.units).text
            for name in ("rain", "watering", "rooted", "evapotranspiration")
        )
        beside = (
            f"rooted grass {rooted} beside it where it stays dry, " if entries["rooted"] else ""
        )
        told = f"water account: rain {rain}, watering {watering}, {beside}use {use}"
        assert told in sheet.summary
    fed = [task for task in plan.tasks if task.plays("feeding")]
    assert fed and all(
        any(
            "nitrogen" in s.summary
            for s in sheets
            if s.first <= task.start <= s.first + timedelta(days=6)
        )
        for task in fed
    )


def test_days_of_another_year_are_told_with_it() -> None:
    """Days that would also do are told without their year where all of them lie in the task's."""
    plan = example("southern-hemisphere")
    jobs = {job.task.id: job for sheet in week_sheets(plan) for job in sheet.jobs}
    far = 0
    for job in jobs.values():
        window = job.task.window
        if not job.window:
            continue
        years = {window.start.year, window.end.year}
        told = [str(year) in job.window for year in sorted(years)]
        assert all(told) if years != {job.task.start.year} else not any(told)
        far += years != {job.task.start.year}
    assert 0 < far < len(jobs)
