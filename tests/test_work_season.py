"""The tasks of a season as they are drafted, and which of them share a day."""

from dataclasses import replace
from typing import Any

import pytest

from planning import brief_of
from test_work_campaigns import setting_of
from turfplan.message import as_written
from turfplan.planning.candidates import draft_campaign
from turfplan.planning.feeding import feeder_for
from turfplan.records.book_names import OperationName
from turfplan.work.campaigns import Campaign, campaigns
from turfplan.work.drafts import Draft
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.operations import SURFACE, Timing, Wording, make
from turfplan.work.season import _full_days


def drafted(
    *changes: dict[str, Any], campaign: str | None = None, permit: bool = False
) -> tuple[ResolvedLawn, Campaign, dict[str, Draft]]:
    """A lawn, the first of its campaigns (or the one of that id), and its tasks by id."""
    setting = setting_of(brief_of(*changes))
    chosen = next(c for c in campaigns(setting)[0] if campaign in (None, c.id))
    found = draft_campaign(setting, chosen, feeder_for(setting), permit=permit)
    return setting, chosen, {draft.id: draft for draft in found.season.drafts}


def job(setting: ResolvedLawn, operation: OperationName, share: float) -> Draft:
    """A job of the first session that takes a share of a working day."""
    timing = Timing(SURFACE, session=1)
    draft = make(setting, operation, "1", timing=timing, wording=Wording(as_written("to test")))
    hours = share * setting.labour.people * setting.labour.hours_per_day
    return replace(draft, person_hours=hours, duration_days=max(1, -int(-share // 1)))


@pytest.mark.parametrize(
    ("shares", "next_days"),
    [
        ((0.3, 0.3, 0.3), []),
        ((0.4, 0.4, 0.4), [("core_aerate.1", "topdress.1")]),
        ((0.5, 0.5, 0.5), [("core_aerate.1", "topdress.1")]),
        ((0.6, 0.5, 0.5), [("mow_low.1", "core_aerate.1")]),
        ((1.0, 0.1, 0.1), [("mow_low.1", "core_aerate.1")]),
        ((0.2, 0.2, 1.5), [("core_aerate.1", "topdress.1")]),
        ((1.5, 0.4, 0.2), [("core_aerate.1", "topdress.1")]),
        ((0.7, 0.7, 0.7), [("mow_low.1", "core_aerate.1"), ("core_aerate.1", "topdress.1")]),
    ],
)
def test_jobs_share_a_day_while_its_hours_last(
    shares: tuple[float, float, float], next_days: list[tuple[str, str]]
) -> None:
    """The low cut, the cores and the pass, each with its share of a day: what no longer fits waits
    for the next working day, a job of several days begins its own and shares its last.
    """
    setting = setting_of(brief_of())
    names: tuple[OperationName, ...] = ("mow_low", "core_aerate", "topdress")
    jobs = [job(setting, name, share) for name, share in zip(names, shares, strict=True)]
    lags = _full_days(setting, jobs)
    assert [tuple(lag.id.removeprefix("day_full:").split(">")) for lag in lags] == next_days
    for lag in lags:
        assert lag.minimum is not None
        day = setting.first_day + 30
        assert lag.minimum(day) == min(d for d in setting.calendar.work.days() if d > day)
