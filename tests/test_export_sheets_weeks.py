"""The page of a week: what its feedings come to, and how far its jobs can slip."""

from datetime import timedelta

import pytest

from planning import POSSIBLE, example
from printed import week_sheets
from tiers import sampled


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
