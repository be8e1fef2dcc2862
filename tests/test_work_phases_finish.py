"""The touch-up comes when the last pass has settled, in growth with time for both."""

import pytest

from planning import brief_of
from test_work_campaigns import setting_of
from turfplan.planning.candidates import draft_campaign
from turfplan.planning.feeding import feeder_for
from turfplan.work.campaigns import campaigns


@pytest.mark.parametrize("depth", ["0.5 in", "2 in"])
def test_the_touch_up_waits_for_the_last_session(depth: str) -> None:
    """Weeks after the wished day of the last pass of all, however many sessions there are."""
    setting = setting_of(brief_of({"leveling": {"depth": depth}}))
    seen = set()
    for campaign in campaigns(setting)[0][:2]:
        found = draft_campaign(setting, campaign, feeder_for(setting), permit=False)
        touched = next((d for d in found.season.drafts if d.operation == "touch_up"), None)
        if touched is None or not campaign.sessions:
            continue
        seen.add(len(campaign.sessions))
        last = max(session.window.best for session in campaign.sessions).toordinal()
        settled = setting.days("order.settle_check_least") + setting.days("order.touch_up_lead")
        assert touched.ideal is not None and touched.ideal >= last + settled
        opens = setting.open("touch_up") or setting.open("topdress")
        assert any(w.start.toordinal() <= touched.ideal <= w.end.toordinal() for w in opens)
    assert seen
