"""Run times of one zone: depth, rate, evenness, cycles."""

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turfplan.message import as_written
from turfplan.work.watering.run_times import (
    Hose,
    RunTime,
    WateringZone,
    applied_mm,
    litres,
    minutes_before_runoff,
    rate_of_setting_mm_h,
    run_minutes,
    run_time,
    settings_of,
    water_amount,
)

rates = st.floats(2, 60)
nets = st.floats(1, 30)


@pytest.mark.full
@given(nets, rates, st.floats(0.4, 1))
def test_twice_the_rate_needs_half_the_minutes(depth: float, rate: float, evenness: float) -> None:
    """Minutes are inverse to the rate, and put down the depth where least falls."""
    minutes = run_minutes(depth, rate, evenness)
    assert run_minutes(depth, 2 * rate, evenness) == pytest.approx(minutes / 2)
    assert applied_mm(minutes, rate) * evenness == pytest.approx(depth)


@pytest.mark.full
@given(st.floats(5, 30), st.floats(15, 60), st.floats(1, 60))
def test_slow_soil_gets_more_and_shorter_cycles(depth: float, rate: float, intake: float) -> None:
    """The same water in at least as many cycles on slower soil, none longer than runoff allows."""
    zone = WateringZone(None, as_written("lawn"), 100, rate)
    fast = run_time(depth, zone, intake_mm_h=intake, storage_mm=3, soak_min=40)
    slow = run_time(depth, zone, intake_mm_h=intake / 2, storage_mm=3, soak_min=40)
    for run in (slow, fast):
        assert abs(run.minutes - run_minutes(depth, rate)) <= run.cycles / 2 + 1
    assert slow.cycles >= fast.cycles and slow.cycle_min <= fast.cycle_min
    assert slow.elapsed_min >= slow.minutes
    longest = minutes_before_runoff(rate, intake / 2, 3)
    assert slow.cycle_min <= max(1.0, longest) + 1e-9


def test_clay_under_a_spray_is_cycled_and_sand_is_not() -> None:
    """13 mm at 33 mm/h: one go on sand, several on clay, with pauses."""
    zone = WateringZone(None, as_written("lawn"), 100, 33.0)
    assert run_time(13, zone, intake_mm_h=40, storage_mm=3, soak_min=40) == RunTime(24, 1, 0)
    clay = run_time(13, zone, intake_mm_h=2, storage_mm=3, soak_min=40)
    assert clay.cycles == 5 and clay.cycle_min == 5
    assert clay.soak_min == 78, "what stands after 5 min at 33 mm/h goes in at 2 mm/h"
    assert clay.elapsed_min == 25 + 4 * 78


def test_a_litre_on_a_square_metre_is_a_millimetre() -> None:
    """25.4 mm on 92.903 m2 (1 in on 1,000 ft2) are 623.4 gal, by geometry."""
    assert litres(25.4, 92.90304) == pytest.approx(2359.7, abs=0.1)
    amount = water_amount(25.4, 92.90304, as_written("an inch"))
    assert amount.value_us == pytest.approx(623.4, abs=0.1)


@pytest.mark.full
@given(st.floats(0.5, 20), rates, st.floats(1, 30), st.floats(1, 5))
def test_no_more_cycles_than_the_minutes_need(
    depth: float, rate: float, intake: float, storage: float
) -> None:
    """Nobody comes twice for what the ground takes in at once: 2 min are not parted into 1 and 1
    where 2 run in without runoff."""
    zone = WateringZone(None, as_written("lawn"), 100, rate)
    run = run_time(depth, zone, intake_mm_h=intake, storage_mm=storage, soak_min=40)
    at_once = max(1, int(min(1e6, minutes_before_runoff(rate, intake, storage))))
    assert run.cycles == 1 or run.minutes > (run.cycles - 1) * at_once
    assert run.minutes == run.cycles * run.cycle_min


def hose(**changes: Any) -> Hose:
    """20 L a minute on settings of 40 m2, 10 m2 at the least; four minutes to move, six hours."""
    return replace(Hose(20.0, 40.0, 10.0, 4.0, 360.0), **changes)


def test_settings_cover_an_area_and_share_its_flow() -> None:
    """Three places for 100 m2 of 40 m2 each; each of them takes all of the tap."""
    areas = (100.0, 80.0, 80.1, 40.0, 1.0)
    assert [settings_of(area, hose()) for area in areas] == [3, 2, 3, 1, 1]
    assert settings_of(0.0, hose()) == 1
    # 20 L/min are 1200 L an hour on 100 / 3 m2, on 40 m2, and on no less than 10 m2.
    rates = [rate_of_setting_mm_h(area, hose()) for area in (100.0, 80.0, 6.0)]
    assert rates == pytest.approx([36.0, 30.0, 120.0])


def test_a_zone_tells_its_settings_its_flow_and_whether_hands_turn_it_on() -> None:
    """30 mm/h on 100 m2 are 50 L a minute."""
    valve = WateringZone(None, as_written("lawn"), 100.0, 30.0)
    assert (valve.settings, valve.flow_l_min, valve.by_hand) == (1, pytest.approx(50), False)
    assert (valve.uniformity, valve.exposure) == (1.0, 1.0)
    by_hand = replace(valve, hose=hose())
    assert (by_hand.settings, by_hand.by_hand) == (3, True)
    assert not replace(valve, hose=hose(most_min=None)).by_hand


def test_a_run_of_several_places_counts_moves_pauses_and_waits() -> None:
    """Three places in two cycles, 60 minutes: ten each time, moved six times for four minutes."""
    run = RunTime(60, 2, 40, settings=3, move_min=4.0, idle_min=7)
    assert (run.cycle_min, run.setting_min, run.moving_min) == (10, 20, 24.0)
    assert run.wait_min == 12, "two others take 28 minutes of the 40 that one place soaks"
    assert run.elapsed_min == 60 + 24 + 12 + 7
    assert replace(run, soak_min=20).wait_min == 0
    assert RunTime(61, 2, 40, settings=3).cycle_min == 11
    assert replace(run, move_min=4.2).elapsed_min == 60 + 26 + 12 + 7
    plain = RunTime(25, 3, 40)
    assert (plain.settings, plain.move_min, plain.idle_min, plain.runs_off) == (1, 0.0, 0, False)
    assert (plain.wait_min, plain.elapsed_min) == (40, 25 + 2 * 40)


def test_minutes_until_water_runs_off() -> None:
    """3 mm stand after six minutes of 40 mm/h on ground that takes 10."""
    assert minutes_before_runoff(40.0, 10.0, 3.0) == pytest.approx(6)
    assert minutes_before_runoff(10.0, 10.0, 3.0) == float("inf")
    assert minutes_before_runoff(9.0, 10.0, 3.0) == float("inf")


def timed(depth_mm: float, zone: WateringZone, **changes: Any) -> RunTime:
    """A run on ground that takes 10 mm/h and lets 3 mm stand, with half an hour to soak."""
    ground = {"intake_mm_h": 10.0, "storage_mm": 3.0, "soak_min": 30.0, **changes}
    return run_time(depth_mm, zone, **ground)


def test_a_depth_is_cut_into_cycles_that_do_not_run_off() -> None:
    """10 mm at 40 mm/h are 15 minutes in three cycles of five; six would still soak in."""
    zone = WateringZone(None, as_written("lawn"), 100.0, 40.0)
    assert timed(10.0, zone) == RunTime(15, 3, 30)
    assert timed(4.0, zone) == RunTime(6, 1, 0)
    assert timed(14 / 3, zone) == RunTime(8, 2, 30), "seven minutes are two cycles of four"
    # What stands after five minutes, 2.5 mm, needs half an hour at 5 mm/h more than at 10.
    assert timed(10.0, zone, soak_min=10.0).soak_min == 15
    uneven = replace(zone, uniformity=0.5)
    assert timed(5.0, uneven) == RunTime(15, 3, 30)


def test_no_more_cycles_than_allowed_and_then_it_runs_off() -> None:
    """15 minutes in two cycles of eight, where six are the most that soaks in."""
    zone = WateringZone(None, as_written("lawn"), 100.0, 40.0)
    run = timed(10.0, zone, most_cycles=2)
    assert (run.cycles, run.cycle_min, run.runs_off) == (2, 8, True)
    assert run.soak_min == 30, "3 mm stand at the most, and go in within 18 minutes"
    assert timed(10.0, zone, most_cycles=2, soak_min=1.0).soak_min == 18
    assert not timed(10.0, zone, most_cycles=3).runs_off
    at_once = timed(4.0, zone, storage_mm=2.9)
    assert (at_once.cycles, at_once.runs_off) == (2, False)


def test_a_run_lasts_as_long_as_the_least_and_a_minute_at_least() -> None:
    """0.1 mm at 40 mm/h; ground that lets less stand than falls in a minute runs off."""
    zone = WateringZone(None, as_written("lawn"), 100.0, 40.0)
    assert timed(0.1, zone).minutes == 1
    assert timed(0.1, zone, least_min=3).minutes == 3
    assert timed(0.1, zone, storage_mm=0.4).runs_off
    assert timed(10.0, zone, intake_mm_h=40.0) == RunTime(15, 1, 0)


def test_a_hose_runs_in_each_of_its_places() -> None:
    """Its minutes are those of all places; only hands need time to move it."""
    zone = WateringZone(None, as_written("lawn"), 100.0, 36.0, hose=hose())
    run = timed(3.0, zone)
    assert (run.minutes, run.settings, run.move_min) == (15, 3, 4.0)
    timer = replace(zone, hose=hose(most_min=None))
    assert timed(3.0, timer).move_min == 0.0


def test_an_amount_of_water_is_rounded_to_tenths_of_both_units() -> None:
    """3.33 mm on 10.1 m2."""
    amount = water_amount(3.33, 10.1, as_written("so much"))
    assert (amount.value, amount.unit) == (33.6, "L")
    assert (amount.value_us, amount.unit_us, amount.item) == (8.9, "gal", "water")
    assert (litres(3.0, 20.0), applied_mm(20.0, 30.0)) == (60.0, 10.0)
    assert run_minutes(10.0, 30.0) == 20.0
