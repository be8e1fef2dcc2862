"""The last mow comes after the work, when what was sown can be mown."""

from datetime import date, timedelta
from typing import Any

import pytest

from planning import brief_of
from test_work_campaigns import setting_of
from turfplan.planning.candidates import draft_campaign
from turfplan.planning.feeding import feeder_for
from turfplan.work.campaigns import campaigns
from turfplan.work.emergence import emergence

LATE: dict[str, Any] = {"season": {"from": date(2027, 10, 10)}}


@pytest.mark.parametrize(
    "changes",
    [{}, LATE, {**LATE, "seeding": {"intent": "none"}}],
    ids=["spring", "late", "late without seed"],
)
def test_the_last_mow_follows_the_work_of_its_campaign(changes: dict[str, Any]) -> None:
    """Of the first season that does not end before it: seed that is not up yet is not mown, and
    work of next year has next year's.
    """
    setting = setting_of(brief_of(changes))
    last_mows = 0
    for campaign in campaigns(setting)[0][:2]:
        found = draft_campaign(setting, campaign, feeder_for(setting), permit=False)
        mow = next((d for d in found.season.drafts if d.operation == "last_mow"), None)
        work = campaign.sow_window or campaign.sessions[-1].window
        up = emergence(setting, campaign)
        ready = work.best + timedelta(up.mow_best if up is not None else 0)
        open_then = [
            w
            for w in setting.open("last_mow")
            if w.end >= max(work.start, ready)
            and setting.first_day <= w.best.toordinal() <= setting.last_day
        ]
        if mow is not None:
            last_mows += 1
            assert mow.ideal == open_then[0].best.toordinal()
    assert last_mows
