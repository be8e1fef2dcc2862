"""Days that known rain turns off."""

from datetime import date, timedelta

import pytest

import water_cases as cases
from turfplan.message import as_written
from turfplan.work.watering.replan import skip_for_rain
from turfplan.work.watering.request import WeatherDay, ground_of
from turfplan.work.watering.run_times import WateringZone
from turfplan.work.watering.series import season_runs
from turfplan.work.watering.stages import Stage

START = date(2027, 6, 9)
ZONE = WateringZone(None, as_written("lawn"), 100.0, 30.0)


def kept(rain: dict[int, float], days: int) -> list[int]:
    """The days of recovery from the start that are still watered, with rain on days from it."""
    weather = {START + timedelta(n): WeatherDay(rain_mm=mm) for n, mm in rain.items()}
    request = cases.request(
        cases.book(), cases.cool_climate(), zones=(ZONE,), area_m2=100.0, weather=weather
    )
    ground = ground_of(request)
    runs, _ = season_runs(ground, [Stage("recover", START, START + timedelta(days - 1))])
    return [
        (day - START).days
        for run in skip_for_rain(ground, runs)
        for day in run.days()
        if day not in run.skip
    ]


@pytest.mark.parametrize("days", [1, 7])
def test_a_soaking_rain_turns_off_the_day_on_which_it_falls(days: int) -> None:
    """The first day of all too, and one that is alone."""
    every = kept({}, days)
    assert every[0] == 0 and len(every) == (1 if days == 1 else 2)
    assert kept({0: 40.0}, days) == every[1:]


def test_no_day_is_turned_off_before_the_rain_nor_for_a_drizzle() -> None:
    """Rain of the second watered day leaves the first as it was."""
    first, second = kept({}, 7)
    assert kept({second: 40.0}, 7) == [first]
    assert kept({first: 0.2}, 7) == [first, second]
