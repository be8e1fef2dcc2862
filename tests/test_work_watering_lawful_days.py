"""Days that a law leaves to a stage, and what is said where it leaves too few."""

from datetime import date, timedelta
from typing import Any

import pytest

import water_cases as cases
from turfplan.message import Days, Message, listed
from turfplan.phrases import watering as phrases
from turfplan.work.watering.lawful_days import ClosedDays, lawful_days
from turfplan.work.watering.request import ground_of
from turfplan.work.watering.stages import Stage, StageName
from turfplan.work.watering.told_law import told_closed

MONDAY = date(2027, 6, 7)
SUNDAY = MONDAY + timedelta(6)


def asked(name: StageName, **water: Any) -> tuple[list[int], list[Message], Stage]:
    """The numbers of the open days of a week, the cautions, and the stage."""
    given = cases.brief(water={"application_rate": "0.5 in/h", **water})
    ground = ground_of(cases.request(cases.book(), cases.cool_climate(), given))
    lacks: list[ClosedDays] = []
    stage = Stage(name, MONDAY, SUNDAY)
    days = lawful_days(ground, stage, MONDAY, SUNDAY, lacks)
    return [(day - MONDAY).days for day in days], told_closed(lacks), stage


@pytest.mark.parametrize("name", ["germination", "establishment", "rooting", "relaid"])
def test_what_must_not_dry_out_is_warned_of_each_closed_day(name: StageName) -> None:
    """Every day open: nothing to say. Some closed: how many of how many, from which day."""
    assert asked(name)[:2] == ([0, 1, 2, 3, 4, 5, 6], [])
    days, cautions, stage = asked(name, allowed_weekdays=["mon", "wed", "sat"])
    assert days == [0, 2, 5]
    weeks = listed((Days(MONDAY, SUNDAY, weekday=False, year=False),))
    assert cautions == [phrases.week_days_closed(stage=stage.title, closed=4, days=7, weeks=weeks)]


@pytest.mark.parametrize("name", ["recover", "weaning", "winter"])
def test_grass_that_bears_a_dry_day_is_warned_where_all_are_closed(name: StageName) -> None:
    """A few open days are enough; a whole week closed by law is told."""
    assert asked(name, allowed_weekdays=["mon", "wed", "sat"])[:2] == ([0, 2, 5], [])
    ban = [{"from": MONDAY - timedelta(3), "to": SUNDAY}]
    days, cautions, stage = asked(name, banned=ban)
    weeks = listed((Days(MONDAY, SUNDAY, weekday=False, year=False),))
    assert days == [] and cautions == [phrases.week_all_closed(stage=stage.title, weeks=weeks)]


def test_a_permit_opens_the_days_of_seed_alone() -> None:
    """With it in hand seed, turf that was laid back, and young grass that is weaned may be watered
    daily; rooted grass keeps to the law."""
    law: dict[str, Any] = {"allowed_weekdays": ["mon"], "permit": True}
    assert asked("germination", **law)[:2] == ([0, 1, 2, 3, 4, 5, 6], [])
    assert asked("relaid", **law)[0] == [0, 1, 2, 3, 4, 5, 6]
    assert asked("weaning", **law)[0] == [0, 1, 2, 3, 4, 5, 6]
    assert asked("recover", **law)[0] == [0]
