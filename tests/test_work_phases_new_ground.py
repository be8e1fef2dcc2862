"""Ground without living grass: how it is opened, filled and graded, and when a lift is wished."""

from itertools import pairwise
from typing import Any

import pytest

from test_work_season import drafted
from turfplan.work.ground_fill import settling

BARE: dict[str, Any] = {
    "lawn": {"condition": "bare"},
    "seeding": {"intent": "renovate"},
    "leveling": {"depth": "4 in"},
}
UNSOWN: dict[str, Any] = {**BARE, "seeding": {"intent": "none"}}
LEVEL: dict[str, Any] = {**BARE, "leveling": {"depth": "0 in"}}
ANEW: dict[str, Any] = {"seeding": {"intent": "renovate"}, "leveling": {"depth": "0 in"}}
FILLED: dict[str, Any] = {**ANEW, "leveling": {"depth": "1 in"}}
SOUR: dict[str, Any] = {**ANEW, "soil_test": {"ph": 5.2, "lime_rate": "50 lb/1000ft2"}}
OPENING = {"kill_stand", "clear_stand", "till", "slit", "grade"}


@pytest.mark.parametrize(
    ("lawn", "opened_by"),
    [
        (BARE, {"till", "grade"}),
        (LEVEL, {"till", "grade"}),
        (UNSOWN, {"till"}),
        (ANEW, {"kill_stand", "clear_stand", "slit"}),
        (FILLED, {"kill_stand", "clear_stand", "till", "grade"}),
        (SOUR, {"kill_stand", "clear_stand", "till", "grade"}),
        ({}, set()),
    ],
    ids=["bare", "bare and level", "unsown", "anew", "anew and filled", "limed", "turf"],
)
def test_ground_is_opened_by_what_it_is_and_what_goes_on_it(
    lawn: dict[str, Any], opened_by: set[str]
) -> None:
    """Bare ground is tilled, and graded where it is sown; a stand is killed and slit, or tilled
    where soil or lime goes on it; living turf is left alone.
    """
    _, _, drafts = drafted(lawn)
    assert {draft.operation for draft in drafts.values()} & OPENING == opened_by
    if "clear_stand" in opened_by:
        assert drafts["clear_stand"].anchor == ("till" if "till" in opened_by else "slit")
        assert {"kill_stand", "inspect.regrowth", "kill_stand.again"} <= set(drafts)


def test_the_last_lift_settles_before_the_seed() -> None:
    """Lifts are wished one after the other, the last so far ahead of the seed as it settles, as
    far as their own days allow.
    """
    setting, campaign, drafts = drafted(BARE)
    lifts = [draft for draft in drafts.values() if draft.operation == "fill"]
    days = [draft.ideal for draft in lifts]
    assert len(days) >= 2 and all(day is not None for day in days)
    assert campaign.sow_window is not None
    window = campaign.sessions[0].window
    first, last = window.start.toordinal(), window.end.toordinal()
    settled = campaign.sow_window.best.toordinal() - setting.days(settling(setting))
    behind = lifts[-1].duration_days
    assert days[-1] == min(max(settled - behind, first), last)
    for before, after in pairwise(d for d in days if d is not None):
        assert after - before >= setting.pass_interval_days or before == first


def test_lifts_that_nothing_is_sown_on_follow_each_other_at_once() -> None:
    """The first on the best day, each as soon as the one before has settled."""
    setting, campaign, drafts = drafted(UNSOWN)
    best = campaign.sessions[0].window.best.toordinal()
    days = [draft.ideal for draft in drafts.values() if draft.operation == "fill"]
    assert len(days) >= 2
    assert days == [best + n * setting.pass_interval_days for n in range(len(days))]
