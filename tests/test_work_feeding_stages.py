"""When new grass is first fed, and from when to when nothing is."""

from datetime import date, timedelta
from typing import Any

import pytest

from planning import brief_of, plan_of
from resolved_lawns import setting_of
from turfplan.phrases import feeding as phrases
from turfplan.work.campaigns import campaigns
from turfplan.work.emergence import emergence
from turfplan.work.feeding.stages import Quiet, Stages, WorkedDays, stages_of
from turfplan.work.lawn import ResolvedLawn

SOWN = date(2027, 8, 28)
BARE: dict[str, Any] = {"lawn": {"condition": "bare"}, "seeding": {"intent": "renovate"}}
PLUGS: dict[str, Any] = {
    "lawn": {"grass": "zoysia"},
    "place": {"postal_code": "30606"},
    "seeding": {"intent": "plant"},
}


def stand(*changes: dict[str, Any], **worked: date) -> tuple[ResolvedLawn, Stages]:
    """The lawn, and the stages of its stand by the days of the work, without compost."""
    setting = setting_of(brief_of(*changes))
    campaign = campaigns(setting)[0][0]
    return setting, stages_of(setting, campaign, WorkedDays(**worked), compost_feeds=False)


@pytest.mark.full
@pytest.mark.parametrize("changes", [{}, {"lawn": {"grass": "perennial_ryegrass"}}])
def test_seedlings_are_fed_weeks_after_they_are_up_and_mown(changes: dict[str, Any]) -> None:
    """Two weeks after the first of them, or at the first mow where that is later; best three
    weeks after the last of them, and five at most.
    """
    setting, stages = stand(changes, sown=SOWN)
    up = emergence(setting, campaigns(setting)[0][0])
    assert up is not None
    (feeding,) = stages.feedings
    first = SOWN + timedelta(max(up.first + 14, up.mow_least))
    assert feeding.first == first
    assert feeding.best == SOWN + timedelta(up.last + 21)
    assert feeding.last == SOWN + timedelta(up.last + 35)
    opens = SOWN - timedelta(28)
    assert stages.quiet == (
        Quiet(SOWN, first - timedelta(1), phrases.quiet_seed()),
        Quiet(opens, SOWN - timedelta(1), phrases.quiet_seed()),
    )


def test_a_late_first_mow_is_waited_for() -> None:
    """Nothing is fed before the day on which it is mown."""
    mown = SOWN + timedelta(50)
    _, stages = stand(sown=SOWN, mown=mown)
    assert stages.feedings[0].first == mown
    assert stages.quiet[0].last == mown - timedelta(1)


def test_plants_are_fed_once_they_have_rooted() -> None:
    """Two weeks after planting, best after three; nothing for four weeks before, and until then."""
    planted = date(2027, 6, 12)
    setting, stages = stand(PLUGS, planted=planted)
    (feeding,) = stages.feedings
    assert feeding.first == planted + timedelta(14)
    assert feeding.best == planted + timedelta(21)
    assert feeding.last == planted + timedelta(setting.days("order.plant_feed_most"))
    assert stages.quiet == (
        Quiet(planted, planted + timedelta(13), phrases.quiet_plants()),
        Quiet(planted - timedelta(28), planted - timedelta(1), phrases.quiet_plants()),
    )


def test_ground_without_grass_is_not_fed_from_the_first_day() -> None:
    """Bare ground, and turf that is killed, take none before the seed."""
    for changes, why in (
        (BARE, phrases.quiet_bare()),
        ({"seeding": {"intent": "renovate"}}, phrases.quiet_killed()),
    ):
        setting, stages = stand(changes, sown=SOWN)
        begin = date.fromordinal(setting.first_day)
        assert stages.quiet[1] == Quiet(begin, SOWN - timedelta(1), why)


@pytest.mark.parametrize(
    ("changes", "key", "before"),
    [
        ({}, "seedlings", ["overseed", "first_mow"]),
        (
            {"place": {"postal_code": "94112"}},
            "seedlings",
            ["overseed", "first_mow", "inspect.colour"],
        ),
        ({"lawn": {"condition": "bare"}}, "seedlings", ["seed", "first_mow"]),
        (PLUGS | {"lawn": {"grass": "zoysia", "condition": "bare"}}, "planted", ["plant"]),
        (
            {
                "lawn": {"grass": "bermuda_common"},
                "place": {"postal_code": "30303"},
                "seeding": {"intent": "winter_overseed"},
                "leveling": {"depth": "0 in"},
            },
            "rye",
            ["overseed", "first_mow"],
        ),
    ],
)
def test_what_is_fed_by_its_stage_hangs_on_the_work_that_made_it(
    changes: dict[str, Any], key: str, before: list[str]
) -> None:
    """Who moves the seed sees that its food moves too; the feedings of a season hang on none of
    it."""
    tasks = {task.id: task for task in plan_of(changes).tasks}
    fed = tasks[f"feed_nitrogen.{key}"]
    assert set(before) <= set(fed.depends_on)
    assert all(tasks[name].end <= fed.start for name in fed.depends_on)
    others = [
        t for t in tasks.values() if t.plays("feeding") and t.id.startswith("feed_nitrogen.s")
    ]
    assert all("first_mow" not in t.depends_on for t in others if t.id != fed.id)


def test_nothing_is_fed_shortly_before_tearing_or_on_turf_that_is_relaid() -> None:
    """Two weeks before dethatching, and from relaying until roots hold."""
    torn, relaid = date(2027, 4, 24), (date(2027, 5, 1), date(2027, 5, 3))
    setting = setting_of(brief_of())
    campaign = campaigns(setting)[0][0]
    worked = WorkedDays(torn=(torn,), relaid=(relaid,))
    quiet = stages_of(setting, campaign, worked, compost_feeds=False).quiet
    rooted = timedelta(setting.days("order.plant_rooting") - 1)
    assert quiet == (
        Quiet(torn - timedelta(14), torn - timedelta(1), phrases.quiet_torn()),
        Quiet(relaid[0], relaid[1] + rooted, phrases.quiet_relaid()),
    )


def test_seed_of_several_days_is_fed_by_its_youngest() -> None:
    """Strips sown two weeks apart: the look and the food wait for the last of them."""
    setting = setting_of(brief_of({"place": {"postal_code": "94112"}}))
    campaign = campaigns(setting)[0][0]
    late = SOWN + timedelta(14)
    once, strips = (
        stages_of(setting, campaign, WorkedDays(sown=SOWN, sown_last=last), compost_feeds=True)
        for last in (SOWN, late)
    )
    assert once.feedings[0].if_pale and once.instead is not None
    assert strips.feedings[0].first - once.feedings[0].first == timedelta(14)
    assert not once.instead.feedings[0].if_pale


def test_nothing_is_fed_before_a_first_mow_that_comes_after_the_plan() -> None:
    """An end between the seed and its first cut leaves the feeding to who looks after it then."""
    changes = {"season": {"from": date(2027, 7, 1), "until": date(2027, 9, 20)}}
    plan = plan_of(changes)
    (sowing,) = (task for task in plan.tasks if task.plays("sowing"))
    mown = next(item.start for item in plan.handover if item.operation == "first_mow")
    fed = [task.start for task in plan.tasks if task.plays("feeding")]
    assert sowing.end < date(2027, 9, 20) < mown
    assert not [day for day in fed if sowing.end <= day < mown]
    assert any(i.operation == "feed_nitrogen" and i.start >= mown for i in plan.handover)
