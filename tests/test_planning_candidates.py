"""A campaign without days says whether a pass that is long stood in its way."""

from dataclasses import replace

import pytest

from planning import brief_of
from test_work_campaigns import setting_of
from turfplan.message import as_written
from turfplan.planning.candidates import Candidate, _dated, draft_campaign
from turfplan.planning.feeding import feeder_for
from turfplan.records.constraints import Allowed, DaySet, Reason, Strength
from turfplan.work.campaigns import campaigns

NEVER = Allowed(
    "never", "topdress.1", DaySet(()), Strength.HARD, Reason("test", as_written("Never."))
)


@pytest.mark.parametrize(
    ("days", "strips", "is_long"),
    [(2, (), True), (3, (), True), (3, ("topdress.1",), False)],
)
def test_only_a_pass_of_days_that_is_not_in_strips_is_too_long(
    days: int, strips: tuple[str, ...], *, is_long: bool
) -> None:
    """Then it is tried strip by strip; one that is in strips already has no other way."""
    setting = setting_of(brief_of())
    campaign = campaigns(setting)[0][0]
    drafted = draft_campaign(setting, campaign, feeder_for(setting), permit=False)
    drafts = tuple(
        replace(d, duration_days=days, strips=strips) if d.operation == "topdress" else d
        for d in drafted.season.drafts
    )
    season = replace(
        drafted.season, drafts=drafts, constraints=(*drafted.season.constraints, NEVER)
    )
    found = _dated(setting, replace(drafted, season=season))
    assert not isinstance(found, Candidate)
    assert found.long_pass is is_long and found.conflict
