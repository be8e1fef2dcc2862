"""Run times of one zone: depth, rate, evenness, cycles."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turfplan.message import as_written
from turfplan.work.watering.run_times import (
    RunTime,
    WateringZone,
    applied_mm,
    litres,
    minutes_before_runoff,
    run_minutes,
    run_time,
    water_amount,
)

rates = st.floats(2, 60)
nets = st.floats(1, 30)


@given(nets, rates, st.floats(0.4, 1))
def test_twice_the_rate_needs_half_the_minutes(depth: float, rate: float, evenness: float) -> None:
    """Minutes are inverse to the rate, and put down the depth where least falls."""
    minutes = run_minutes(depth, rate, evenness)
    assert run_minutes(depth, 2 * rate, evenness) == pytest.approx(minutes / 2)
    assert applied_mm(minutes, rate) * evenness == pytest.approx(depth)


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
