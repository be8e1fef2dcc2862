"""Old grass over new seed is cut again before it shades the seedlings, and kept low until they are
mown."""

from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest

from planning import brief_of, first, kind, plan_of
from resolved_lawns import setting_of
from test_work_phases_seedbed import DORMANT
from turfplan.message import Quantity
from turfplan.records.plan import Plan
from turfplan.work import old_grass as module
from turfplan.work.campaigns import campaigns
from turfplan.work.emergence import emergence
from turfplan.work.mowing import ONE_THIRD, young_height_mm
from turfplan.work.old_grass import old_cut

THIN = {"leveling": {"depth": "0.25 in"}}
FARGO: dict[str, Any] = {
    "lawn": {
        "grass": [
            {"species": "tall_fescue", "share": 0.6},
            {"species": "kentucky_bluegrass", "share": 0.4},
        ],
    },
    "place": {"postal_code": None, "latitude": 46.88, "longitude": -96.79, "country": "US"},
    **THIN,
}
LAWNS: dict[str, dict[str, Any]] = {
    "fargo": FARGO,
    "minneapolis": {
        "lawn": {"grass": "kentucky_bluegrass"},
        "place": {"postal_code": "55406"},
        "leveling": {"depth": "0 in"},
    },
    "leeds": {
        "lawn": {"grass": "perennial_ryegrass", "area": "300 m2"},
        "place": {"postal_code": None, "latitude": 53.8, "longitude": -1.55, "country": "GB"},
        "leveling": {"depth": "6 mm"},
    },
    "christchurch": {
        "lawn": {"grass": "fine_fescue", "area": "300 m2"},
        "place": {"postal_code": None, "latitude": -43.5, "longitude": 172.6, "country": "NZ"},
        "leveling": {"depth": "6 mm"},
    },
}
STRIPS = {"work": {"people": 1, "hours_per_day": 4}, "lawn": {"area": "9000 ft2"}}


def height_mm(plan: Plan, operation: str) -> float:
    """The height that the title of a task names, mm."""
    title = first(plan, operation).title
    assert not isinstance(title, str)
    height = dict(title.values)["height"]
    assert isinstance(height, Quantity)
    return height.value


@pytest.mark.full
@pytest.mark.parametrize("place", LAWNS)
def test_old_grass_is_cut_weeks_before_the_new(place: str) -> None:
    """No old grass goes uncut from the seed to the first mow of the seedlings."""
    plan = plan_of(LAWNS[place])
    sown, old, new = (first(plan, name) for name in ("overseed", "mow_old", "first_mow"))
    assert timedelta(7) <= old.start - sown.start <= timedelta(21)
    assert old.end < new.start
    assert height_mm(plan, "first_mow") >= height_mm(plan, "mow_old")


@pytest.mark.full
@pytest.mark.parametrize("place", LAWNS)
def test_a_cut_of_old_grass_takes_a_third_at_most(place: str) -> None:
    """It is cut when it stands half as high again as it is cut to, and no later than it must be."""
    setting = setting_of(brief_of(LAWNS[place]))
    campaign = campaigns(setting)[0][0]
    cut, sow, book = old_cut(setting, campaign), campaign.sow_window, setting.book
    assert cut is not None and sow is not None
    last_low_cut = [t for t in plan_of(LAWNS[place]).tasks if t.plays("low_cut")][-1]
    assert not isinstance(last_low_cut.title, str)
    stands = dict(last_low_cut.title.values)["height"]
    assert isinstance(stands, Quantity)
    grown = book.si("mowing.full_growth") * sum(
        setting.climate.growth_potential(sow.best + timedelta(day), "cool")
        for day in range(cut.due)
    )
    assert cut.due >= cut.least == 7
    assert cut.cut_mm >= cut.kept_mm
    # A mowing falls on a whole day: a day's growth may come on top.
    day_mm = book.si("mowing.full_growth")
    assert cut.cut_mm >= (stands.value + grown - day_mm) * (1 - ONE_THIRD)
    assert cut.due == cut.least or stands.value + grown - day_mm < 1.5 * cut.cut_mm


@pytest.mark.full
@pytest.mark.parametrize(
    "changes",
    [
        {"lawn": {"condition": "bare"}, "seeding": {"intent": "renovate"}},
        {"seeding": {"intent": "renovate"}},
        {
            "lawn": {"grass": "bermuda_common"},
            "place": {"postal_code": "31401"},
            "seeding": {"intent": "winter_overseed"},
        },
    ],
    ids=["bare", "killed", "winter ryegrass"],
)
def test_no_old_grass_no_cut_of_it(changes: dict[str, Any]) -> None:
    """Bare and killed ground has none, and bermuda below winter ryegrass goes to rest."""
    plan = plan_of(THIN, changes)
    assert kind(plan, "first_mow") and not kind(plan, "mow_old")


@pytest.mark.full
def test_each_strip_has_its_first_cuts_from_its_own_seed() -> None:
    """What was sown on several days is cut on as many, the first strip from its own day on."""
    plan = plan_of(FARGO, STRIPS)
    sown, old, new = (first(plan, name) for name in ("overseed", "mow_old", "first_mow"))
    assert sown.duration_days > 2 and sown.start < sown.end
    for cut, least in ((old, 7), (new, 17)):
        assert cut.duration_days == sown.duration_days
        assert cut.start - sown.start >= timedelta(least)
        assert cut.end - sown.end >= timedelta(least)
    # The first strip does not wait for the last one's seedlings.
    assert old.start - sown.end < timedelta(7)


@pytest.mark.full
def test_seed_that_waits_for_spring_is_cut_free_then() -> None:
    """The old grass wakes with the seed: it is cut in spring, not in the weeks after sowing."""
    plan = plan_of(DORMANT)
    sown, old, new = (first(plan, name) for name in ("dormant_seed", "mow_old", "first_mow"))
    assert sown.end + timedelta(60) < old.start < new.start


@pytest.mark.full
def test_the_heights_that_follow_are_told() -> None:
    """How to go on is said at both cuts: how low, how often, and when the usual height is back."""
    for changes in (FARGO, {**FARGO, "seeding": {"intent": "renovate"}}):
        plan = plan_of(changes)
        lines = {str(getattr(line, "key", "")) for line in first(plan, "first_mow").how}
        assert "first_cuts.then" in lines
    lines = {str(getattr(line, "key", "")) for line in first(plan_of(FARGO), "mow_old").how}
    assert "first_cuts.old_grass_again" in lines


def test_old_grass_is_cut_where_a_mowing_of_it_is_due_before_the_new(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Its own interval ahead; a day later both are mown together."""
    setting = setting_of(brief_of(LAWNS["leeds"]))
    campaign = campaigns(setting)[0][0]
    cut, up = old_cut(setting, campaign), emergence(setting, campaign)
    assert cut is not None and up is not None
    latest = cut.due + cut.every_days
    for best, is_cut in ((latest, True), (latest - 1, False)):
        soon = replace(up, mow_best=best)
        monkeypatch.setattr(module, "emergence", lambda *_, soon=soon: soon)
        found = old_cut(replace(setting), campaign)
        assert (found is not None) is is_cut


BROWNTOP: dict[str, Any] = {
    "lawn": {"grass": "browntop", "area": "340 m2", "thatch": "12 mm"},
    "place": {"postal_code": None, "latitude": -45.87, "longitude": 170.5, "country": "NZ"},
    "leveling": {"depth": "2 mm"},
}


@pytest.mark.parametrize("slope", [None, 12], ids=["level", "under straw"])
def test_grass_over_seed_is_cut_as_a_home_mower_can(slope: int | None) -> None:
    """Browntop is kept at half an inch on firm ground; over seedlings it is an inch, once a week
    at most, and not before straw has sunk.
    """
    setting = setting_of(brief_of(BROWNTOP, {"site": {"slope_percent": slope}} if slope else {}))
    book = setting.book
    for campaign in campaigns(setting)[0]:
        cut, up = old_cut(setting, campaign), emergence(setting, campaign)
        if cut is None or up is None:
            continue
        assert cut.kept_mm >= book.si("mowing.young_least") > 15
        assert cut.every_days >= book.si("mowing.young_interval") == 7
        rested = setting.days("order.straw_sinks" if slope else "order.mow_after_pass")
        assert cut.least == up.wakes + rested
        break
    else:
        pytest.fail("no campaign cuts the old grass")


def test_the_first_cut_of_young_grass_is_not_that_of_a_green() -> None:
    """Bentgrass stays at half an inch or lower when it is old, not at its first cuts."""
    book = setting_of(brief_of(BROWNTOP)).book
    assert young_height_mm(book, "browntop") == book.si("mowing.young_least")
    assert young_height_mm(book, "tall_fescue") == book.low_si("species.tall_fescue.mow_height")
