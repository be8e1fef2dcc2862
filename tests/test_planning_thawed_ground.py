"""Frozen ground is spoken of on days on which the ground can be frozen, and on no others."""

from collections.abc import Iterable
from datetime import date

import pytest

from planning import climate_at, example
from tiers import sampled
from turfplan.calendar_days import DAYS, day_index
from turfplan.records.plan import Plan

MONTHS = range(1, 13)


def spoken_of(plan: Plan) -> dict[str, date]:
    """The first days of the tasks whose test of the day, or what to do where it fails, speaks of
    frozen ground."""
    said = {task: (task.go, task.fallback) for task in plan.tasks}
    return {
        task.id: task.start
        for task, texts in said.items()
        if any("frozen" in text.text.lower() for text in texts if text is not None)
    }


@pytest.mark.parametrize(
    "name", sampled(["cool-overseed", "british-metric", "bermuda-sand"], "cool-overseed")
)
def test_no_frozen_ground_in_the_warm_half_of_a_year(name: str) -> None:
    """Feeding in June and August asks for none; the soil test of March and the last mow do."""
    plan = example(name)
    fed = [task for task in plan.tasks if task.operation == "feed_nitrogen"]
    assert fed and not [day for day in spoken_of(plan).values() if 5 < day.month < 10]
    if name == "cool-overseed":
        assert {"soil_test", "last_mow"} <= spoken_of(plan).keys()


def test_south_of_the_equator_june_is_winter() -> None:
    """What is fed in November there is fed on ground that cannot be frozen."""
    plan = example("southern-hemisphere")
    assert [task for task in plan.tasks if task.operation == "feed_nitrogen"]
    assert not [day for day in spoken_of(plan).values() if not 3 < day.month < 10]


@pytest.mark.parametrize(
    ("latitude", "longitude", "thawed"),
    [
        (40.0, -76.3, (6, 7, 8)),
        (52.0, 0.0, (6, 7, 8)),
        (-43.5, 172.5, (12, 1, 2)),
        (11.2, 75.8, MONTHS),
    ],
)
def test_months_in_which_the_ground_is_never_frozen(
    latitude: float, longitude: float, thawed: Iterable[int]
) -> None:
    """From place to place; in January of the north, and July of the south, it may be."""
    climate = climate_at(latitude, longitude)
    found = [m for m in MONTHS if climate.thawed(date(2027, m, 1), date(2027, m, 28))]
    assert set(thawed) <= set(found)
    if not climate.frostless:
        cold = 7 if climate.southern else 1
        assert cold not in found


def test_days_from_warm_weeks_into_frost_may_be_frozen() -> None:
    """Both ends lie between the frosts of one year, not of two."""
    climate = climate_at(40.0, -76.3)
    assert climate.thawed(date(2027, 7, 1), date(2027, 9, 1))
    assert not climate.thawed(date(2027, 7, 1), date(2028, 7, 1))
    assert not climate.thawed(date(2027, 7, 1), date(2027, 12, 1))
    assert not climate.thawed(date(2027, 3, 1), date(2027, 7, 1))
    frost = climate.last_frost
    assert frost is not None and day_index(date(2027, 7, 1)) - frost.late_10 < DAYS / 2
