"""Sulfur and iron keep clear of seed: the days around it are passed over whole."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from planning import brief_of
from test_work_campaigns import setting_of
from turfplan.work.campaigns import campaigns
from turfplan.work.feeding.amendments import amendments

TEST: dict[str, Any] = {"soil_test": {"on": date(2026, 10, 1), "ph": 8.1, "free_lime": False}}


@pytest.mark.parametrize("begins", [-10, 0, 29, 45, 70])
def test_what_is_sharp_waits_until_seedlings_are_past_it(begins: int) -> None:
    """A part that may slip into the four weeks before seed or the sixty days after it moves behind
    them, as far as it may slip.
    """
    setting = setting_of(brief_of(TEST))
    campaign = next(c for c in campaigns(setting)[0] if c.sow_window is not None)
    assert campaign.sow_window is not None
    slip = setting.days("high_ph.sulfur_gap") // 4
    start = date.fromordinal(setting.first_day) + timedelta(begins)
    sow = replace(campaign.sow_window, start=start, end=start + timedelta(5), best=start)
    drafts = amendments(setting, replace(campaign, sow_window=sow))
    drafts = [draft for draft in drafts if draft.id.startswith("amend.sulfur")]
    assert "amend.sulfur.1" in {draft.id for draft in drafts}
    quiet = start.toordinal() - 28, start.toordinal() + 5 + 60
    for draft in drafts:
        assert draft.window is not None and draft.ideal is not None
        first, last = draft.window
        assert (draft.ideal - first, last - draft.ideal) == (slip, slip)
        assert last < quiet[0] or first > quiet[1], draft.id
    behind = quiet[1] + slip + 1
    assert drafts[0].ideal == behind, "as soon as it may, in a season of growth"


def test_parts_lie_a_gap_apart() -> None:
    """Where nothing is sown the first goes on as soon as it may slip back to the first day."""
    setting = setting_of(brief_of(TEST, {"seeding": {"intent": "none"}}))
    gap = setting.days("high_ph.sulfur_gap")
    days = [d.ideal for d in amendments(setting, campaigns(setting)[0][0]) if "sulfur" in d.id]
    assert len(days) == 2 and days[0] is not None and days[1] is not None
    assert days[0] >= setting.first_day + gap // 4 and days[1] - days[0] >= gap
