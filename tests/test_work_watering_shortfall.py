"""Weeks in which few days are open say how far what they give is from what is needed."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

import water_cases as cases
from turfplan.message import Message, Quantity, as_written
from turfplan.work.watering.hose import with_hose
from turfplan.work.watering.request import WateredGround
from turfplan.work.watering.run_times import WateringZone
from turfplan.work.watering.series import season_runs
from turfplan.work.watering.stages import Stage

MONDAY = date(2027, 6, 7)
LAWN = WateringZone(None, as_written("lawn"), 100.0, 30.0)


def ground(days: list[str], **changes: Any) -> WateredGround:
    """Dry ground under 4 mm a day that takes in all water, watered on these days."""
    allowed = cases.brief(water={"allowed_weekdays": days}).water
    found = cases.even_ground(4.0, **{"zones": (LAWN,), "water": allowed, **changes})
    return replace(found, intake=replace(found.intake, rate_mm_h=500.0))


def said(ground: WateredGround, days: int = 7) -> list[Message]:
    """The cautions of shortfall of some days of weaning."""
    stage = Stage("weaning", MONDAY, MONDAY + timedelta(days - 1))
    _, cautions = season_runs(ground, [stage])
    return [caution for caution in cautions if caution.key == "watering.week.short"]


def test_a_week_with_one_of_two_runs_says_what_it_gives_and_needs() -> None:
    """Of 28 mm a week 14; two of two are enough, and a part of a week says nothing."""
    (short,) = said(ground(["wed"]))
    values = dict(short.values)
    assert (values["given"], values["need"]) == (Quantity(14.0, "rain"), Quantity(28.0, "rain"))
    assert said(ground(["mon", "thu"])) == [] and said(ground(["wed"]), 6) == []


def test_a_stage_says_it_once() -> None:
    """For its worst week."""
    assert len(said(ground(["wed"]), 21)) == 1


@pytest.mark.parametrize("exposure", [1.0, 0.75])
def test_shaded_zones_need_less(exposure: float) -> None:
    """What they get is weighed by what they need."""
    zones = (replace(LAWN, key="a"), replace(LAWN, key="b", exposure=exposure))
    assert len(said(ground(["wed"], zones=zones))) == 1
    assert said(ground(["mon", "thu"], zones=zones)) == []


def test_hours_at_hand_that_are_short_are_no_law() -> None:
    """Every day is open, a hose holds too little of the week: that is said of the hours."""
    water = cases.brief(water={"possible": True, "timer": False, "hours_per_day": 1}).water
    hose = with_hose(replace(LAWN, area_m2=900.0), water, cases.book())
    found = cases.even_ground(5.0, zones=(hose,), water=water)
    _, cautions = season_runs(found, [Stage("recover", MONDAY, MONDAY + timedelta(6))])
    keys = [caution.key for caution in cautions]
    assert "watering.week.short_of_hours" in keys and "watering.week.short" not in keys
