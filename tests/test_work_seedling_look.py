"""Seedlings are looked at while bare spots can still be sown again, or the look says when they
can."""

from datetime import date
from typing import Any

import pytest

from planning import brief_of, first, plan_of
from resolved_lawns import setting_of
from test_work_old_grass import LAWNS
from test_work_phases_seedbed import DORMANT
from told import told
from turfplan.records.plan import Plan
from turfplan.work.campaigns import campaigns
from turfplan.work.emergence import emergence
from turfplan.work.phases.seedling_look import look_days

LATE = {"season": {"from": date(2027, 9, 1)}, "leveling": {"depth": "0.25 in"}}
MELBOURNE = {
    "lawn": {"grass": "tall_fescue", "area": "300 m2"},
    "place": {"postal_code": None, "latitude": -37.8, "longitude": 144.96, "country": "AU"},
    "leveling": {"depth": "6 mm"},
}
SAVANNAH = {
    "lawn": {"grass": "bermuda_common", "condition": "bare"},
    "place": {"postal_code": "31401"},
    "leveling": {"depth": "0 in"},
    "seeding": {"intent": "renovate"},
}
HALIFAX: dict[str, Any] = {
    "place": {"postal_code": None, "latitude": 44.65, "longitude": -63.57, "country": "CA"},
}
IN_TIME: dict[str, dict[str, Any]] = {
    "pennsylvania": {},
    "leeds": LAWNS["leeds"],
    "christchurch": LAWNS["christchurch"],
    "melbourne": MELBOURNE,
    "savannah": SAVANNAH,
    "dormant": DORMANT,
    "fargo": LAWNS["fargo"],
    "minneapolis": LAWNS["minneapolis"],
    "pennsylvania, late": LATE,
    "halifax": HALIFAX,
    "halifax, bluegrass": {**HALIFAX, "lawn": {"grass": "kentucky_bluegrass"}},
    "halifax, late": {**HALIFAX, "season": {"from": date(2027, 9, 1)}},
}
TOO_LATE: dict[str, dict[str, Any]] = {
    "halifax, bluegrass, late": {
        **HALIFAX,
        "lawn": {"grass": "kentucky_bluegrass"},
        "season": {"from": date(2027, 9, 1)},
    },
}


def about_bare_spots(plan: Plan) -> tuple[str, date, dict[str, Any]]:
    """What the look says of bare spots, by key and values, and its day."""
    look = next(task for task in plan.tasks if task.id == "inspect.germination")
    assert not isinstance(look.how[0], str)
    return look.how[0].key, look.start, dict(look.how[0].values)


@pytest.mark.full
@pytest.mark.parametrize("lawn", IN_TIME)
def test_a_look_leaves_time_to_sow_bare_spots(lawn: str) -> None:
    """Where the season allows, it lies on or before the last safe day, which it names."""
    key, on, values = about_bare_spots(plan_of(IN_TIME[lawn], options=False))
    assert key == "looks.seedlings.bare_spots"
    assert on <= values["last_safe"].day


@pytest.mark.full
@pytest.mark.parametrize("lawn", TOO_LATE)
def test_a_look_that_comes_too_late_names_the_next_season(lawn: str) -> None:
    """Where it does not, nobody is sent to sow: the reserve is kept until the days it names."""
    plan = plan_of(TOO_LATE[lawn], options=False)
    key, _, values = about_bare_spots(plan)
    assert key == "looks.seedlings.too_late"
    spring = first(plan, "overseed").start.year + 1
    assert values["days"].start.year == spring and values["days"].start.month in (3, 4)
    look = next(task for task in plan.tasks if task.id == "inspect.germination")
    assert "10%" in told(look.how[0]) and "at once" not in told(look.how[0])


@pytest.mark.full
@pytest.mark.parametrize(
    ("code", "grass"),
    [("60601", "tall_fescue"), ("55406", "tall_fescue")],
)
def test_a_look_is_brought_forward_but_not_before_the_first_is_up(code: str, grass: str) -> None:
    """Seed that leaves a few days is looked at on the last day of work on which it can be sown, and
    not before the first of it comes up."""
    changes = {
        "place": {"postal_code": code},
        "lawn": {"grass": grass},
        "leveling": {"depth": "0 in"},
    }
    setting = setting_of(brief_of(changes))
    campaign = campaigns(setting)[0][0]
    days, up = look_days(setting, campaign), emergence(setting, campaign)
    assert days is not None and up is not None
    assert up.first == days.least <= days.wished < up.last
    plan = plan_of(changes, options=False)
    key, on, values = about_bare_spots(plan)
    assert key == "looks.seedlings.bare_spots" and on <= values["last_safe"].day
    assert days.least <= (on - first(plan, "overseed").end).days < up.last


@pytest.mark.full
def test_the_reserve_stays_in_the_order() -> None:
    """What is held back for bare spots is bought and held back, whichever day they are sown on."""
    for changes in (IN_TIME["pennsylvania"], TOO_LATE["halifax, bluegrass, late"]):
        held = {a.item: a.value for a in first(plan_of(changes, options=False), "overseed").amounts}
        assert held["seed held back"] == pytest.approx(held["seed"] / 10, rel=0.06)
