"""One hose: the minutes of its day, and how much of a lawn it keeps wet."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

import water_cases as cases
from told import told as told_in_words
from turfplan.message import as_written
from turfplan.records.brief import Water
from turfplan.work.watering.hose import (
    SeedbedDay,
    by_hand,
    hours_assumed,
    kept_wet_share,
    part_of,
    seedbed_day,
    with_hose,
)
from turfplan.work.watering.intake import Intake
from turfplan.work.watering.run_times import Hose, WateringZone

BOOK = cases.book()
# 20 L a minute on settings of 100 m2 are 12 mm/h: 3 mm take 15 minutes in each place, and one more
# to move. The ground takes all of it.
HOSE = Hose(flow_l_min=20.0, cover_m2=100.0, least_m2=50.0, move_min=1.0, most_min=None)
LAWN = WateringZone(None, as_written("lawn"), 1000.0, 12.0, hose=HOSE)
DAY = SeedbedDay(6.0, 2, Intake((), 60.0, 3.0, 30.0, 9))


def test_a_day_of_a_hose_is_all_its_runs_in_all_its_places() -> None:
    """Two runs of 3 mm in ten places: 2 x 10 x 15 minutes, and 2 x 10 moves where somebody turns
    the water on.
    """
    assert DAY.minutes(LAWN) == 2 * 10 * 15
    by_hand = replace(LAWN, hose=replace(HOSE, most_min=600.0))
    assert DAY.minutes(by_hand) == 2 * 10 * (15 + 1)
    assert SeedbedDay(6.0, 1, DAY.intake).minutes(LAWN) == 10 * 30
    assert SeedbedDay(6.0, 3, DAY.intake).minutes(LAWN) == 3 * 10 * 10


@pytest.mark.parametrize(
    ("hours_min", "share"),
    [(None, 1.0), (400, 1.0), (320, 1.0), (319, 0.95), (160, 0.5), (64, 0.2), (59, 0.0)],
)
def test_the_part_kept_wet_is_what_the_hours_at_home_hold(
    hours_min: float | None, share: float
) -> None:
    """Each place takes 32 minutes a day: all ten in 320, five in 160. A twentieth less makes the
    places smaller, wet a minute sooner. Less than a fifth is not worth sowing; a timer waters all.
    """
    zone = replace(LAWN, hose=replace(HOSE, most_min=hours_min))
    assert kept_wet_share(zone, BOOK, DAY) == share


def test_sprinklers_keep_all_of_a_lawn_wet() -> None:
    """Where nothing is moved nobody's hours count."""
    assert kept_wet_share(replace(LAWN, hose=None), BOOK, DAY) == 1.0


@pytest.mark.parametrize(
    ("water", "hands"),
    [
        ({}, True),
        ({"timer": True}, False),
        ({"timer": False}, True),
        ({"zones": [{"name": "a"}]}, False),
        ({"timer": False, "zones": [{"name": "a"}]}, True),
    ],
)
def test_somebody_opens_the_water_where_no_timer_nor_valves_do(
    water: dict[str, Any], *, hands: bool
) -> None:
    """Valves have a timer unless the brief says that they have none."""
    assert by_hand(cases.brief(water=water).water) is hands


HOSED = WateringZone(None, as_written("lawn"), 300.0, 99.0, facts=("water.tap_flow",))


@pytest.mark.parametrize(
    ("water", "hosed"),
    [
        ({}, True),
        ({"head": "oscillating"}, True),
        ({"head": "impact"}, True),
        *(({"head": head}, False) for head in ("spray", "rotor", "drip", "rotary_nozzle")),
        ({"zones": [{"name": "a"}]}, False),
        ({"catch_cans": ["9 mm"] * 8, "catch_minutes": 9}, False),
        ({"application_rate": "9 mm/h"}, False),
        ({"head_flow": "2 gpm", "head_spacing": "9 m"}, False),
    ],
)
def test_a_lawn_is_watered_by_hose_where_nothing_else_is_told_of(
    water: dict[str, Any], *, hosed: bool
) -> None:
    """Valves, heads on a grid and measured rates are none."""
    assert (with_hose(HOSED, cases.brief(water=water).water, BOOK) is not HOSED) is hosed


def test_a_hose_has_the_flow_and_hours_that_are_told_or_usual() -> None:
    """All of its flow falls on one of its settings: 300 m2 in four of 75."""
    usual = with_hose(HOSED, cases.brief().water, BOOK)
    cover = BOOK.fact("water.hose_cover")
    flow, hours = BOOK.si("water.tap_flow"), BOOK.si("water.hose_hours")
    wanted = Hose(flow, cover.si, cover.low_si, BOOK.si("water.move_time"), hours)
    assert usual.hose == wanted and hours == 240
    assert usual.rate_mm_h == pytest.approx(20 * 60 / 75) and usual.settings == 4
    assert usual.rate_reason.key == "watering.rate.hose_assumed"
    assert usual.facts == ("water.tap_flow", "water.hose_cover", "water.move_time")
    given = cases.brief(water={"flow": "30 L/min", "hours_per_day": 2}).water
    told = with_hose(HOSED, given, BOOK)
    assert told.hose == replace(wanted, flow_l_min=pytest.approx(30), most_min=120)
    assert told.rate_reason.key == "watering.rate.hose"
    timed = with_hose(HOSED, cases.brief(water={"timer": True}).water, BOOK)
    assert timed.hose == replace(wanted, most_min=None)


def test_a_part_of_a_lawn_has_its_part_of_the_places() -> None:
    """Sprinklers keep their rate; all of it is the zone itself."""
    assert part_of(LAWN, 1.0) is LAWN
    part = part_of(LAWN, 0.25)
    assert (part.area_m2, part.settings) == (250.0, 3)
    assert part.rate_mm_h == pytest.approx(20 * 60 / (250 / 3))
    fixed = part_of(replace(LAWN, hose=None), 0.25)
    assert (fixed.area_m2, fixed.rate_mm_h) == (250.0, 12.0)


def days_of_seed(et0_mm: tuple[float, ...], days: int, best: date) -> SeedbedDay:
    """What a day asks for from the best day of sowing on, under a year of evapotranspiration."""
    climate = replace(cases.cool_climate(), et0_mm=et0_mm)
    return seedbed_day(BOOK, climate, DAY.intake, best, days)


def test_seed_is_kept_wet_by_the_days_after_it_is_sown() -> None:
    """A margin over what a wet surface loses in them, in light waterings as many as a day holds."""
    best = date(2027, 9, 1)
    share = BOOK.si("water.seed_margin") * BOOK.si("water.kc_wet_surface")
    flat = days_of_seed((4.064,) * 365, 20, best)
    assert (flat.depth_mm, flat.runs) == (pytest.approx(share * 4.064), 2)
    assert share == 1.25 and flat.depth_mm == pytest.approx(2 * 2.54)
    assert days_of_seed((4.1,) * 365, 20, best).runs == 3
    assert days_of_seed((0.1,) * 365, 20, best).runs == 1
    assert days_of_seed((20.0,) * 365, 20, best).runs == 4
    rising = days_of_seed(tuple(float(n) for n in range(365)), 4, best)
    assert rising.depth_mm == pytest.approx(share * 245), "the day of sowing is the 243rd"
    assert days_of_seed((4.0,) * 365, 0, best).depth_mm == pytest.approx(share * 4)


@pytest.mark.parametrize(
    "told",
    [
        {"hours_per_day": 3},
        {"possible": False},
        {"timer": True},
        {"head": "spray"},
        {"application_rate": "12 mm/h"},
    ],
)
def test_hours_at_the_hose_are_assumed_where_a_hose_is_moved_and_nobody_told(
    told: dict[str, object],
) -> None:
    """Said with the hours taken; not where they are told, nobody waters, or nothing is moved."""
    assumed = hours_assumed(Water(), BOOK)
    assert assumed is not None and "4 hours" in told_in_words(assumed)
    assert hours_assumed(Water.model_validate(told), BOOK) is None
