"""The planned waterings, made from normals, held against thirty-six real seasons of one place.

The daily weather of Champion, Nebraska (1982 to 2018) comes with the package aquacrop.
"""

from dataclasses import replace
from datetime import date, timedelta
from functools import lru_cache
from importlib.util import find_spec
from pathlib import Path

import pytest

import water_cases as cases
from turfplan.calendar_days import day_index
from turfplan.climate.record import Climate
from turfplan.work.watering.request import ground_of
from turfplan.work.watering.season import WateringRequest, WeatherDay, season_watering, weather_day

Weather = dict[date, tuple[float, float, float, float]]
YEARS = range(1983, 2018)


@lru_cache(1)
def champion() -> Weather:
    """Lowest and highest temperature, rain and reference evapotranspiration by day."""
    spec = find_spec("aquacrop")
    if spec is None or spec.origin is None:
        pytest.skip("the package aquacrop, which carries daily weather, is not installed")
    lines = (
        (Path(spec.origin).parent / "data" / "champion_climate.txt").read_text().splitlines()[1:]
    )
    rows = [line.split() for line in lines if line.strip()]
    return {
        date(int(r[2]), int(r[1]), int(r[0])): (float(r[3]), float(r[4]), float(r[5]), float(r[6]))
        for r in rows
    }


def normals(of: tuple[int, ...]) -> tuple[float, ...]:
    """Means of the columns by day of the year, smoothed over three weeks."""
    sums, counts = [0.0] * 365, [0] * 365
    for day, values in champion().items():
        sums[day_index(day)] += sum(values[i] for i in of) / len(of)
        counts[day_index(day)] += 1
    means = [total / count for total, count in zip(sums, counts, strict=True)]
    return tuple(sum(means[(day + n) % 365] for n in range(-10, 11)) / 21 for day in range(365))


@lru_cache(1)
def place() -> Climate:
    return replace(
        cases.cool_climate(),
        latitude=41.4,
        air_mean_c=normals((0, 1)),
        rain_mm=normals((2,)),
        et0_mm=normals((3,)),
    )


def season(year: int, soil: str, *, rain: bool) -> WateringRequest:
    weather = (
        {d: WeatherDay(rain_mm=v[2]) for d, v in champion().items() if d.year == year}
        if rain
        else {}
    )
    return cases.request(
        cases.book(),
        place(),
        soil=soil,
        start=date(year, 3, 1),
        end=date(year, 12, 31),
        seeded_on=date(year, 8, 25),
        passes=(date(year, 4, 20),),
        germination_days=21,
        weather=weather,
    )


def dry_seed_days(year: int, soil: str) -> int:
    """Days of germination on which the seed's layer is empty at night in real weather."""
    request = season(year, soil, rain=True)
    plan, ground = season_watering(request), ground_of(request)
    given: dict[date, float] = {}
    for run in plan.series:
        for day in run.days():
            given[day] = given.get(day, 0.0) + run.depth_mm
    sown, up = (
        next(s.start for s in plan.stages if s.name == "soak"),
        next(s.end for s in plan.stages if s.name == "germination"),
    )
    total, missing, dry = ground.soil.total_mm(ground.seed_root_mm), 0.0, 0
    for number in range((up - sown).days + 1):
        day = sown + timedelta(number)
        _, _, rain, et0 = champion()[day]
        missing = max(0.0, missing - rain - given.get(day, 0.0) + ground.kc_wet * et0)
        dry += missing > total
        missing = min(missing, total)
    return dry


@pytest.mark.full
@pytest.mark.parametrize("soil", ["sand", "loam", "clay"])
def test_seed_stays_moist_in_nearly_every_season(soil: str) -> None:
    """With runs sized from normals and skipped for real rain, seed dries on few days."""
    dry = [dry_seed_days(year, soil) for year in YEARS]
    assert sum(dry) / len(dry) < 2.1
    assert sum(1 for days in dry if days == 0) > len(dry) / 2


@pytest.mark.full
def test_real_rain_saves_runs_in_most_years() -> None:
    """Rain in the journal turns days off, more in wet seasons than in dry, and never adds one."""
    saved: list[tuple[float, int]] = []
    for year in YEARS:
        usual = season_watering(season(year, "loam", rain=False))
        real = season_watering(season(year, "loam", rain=True))
        runs = [sum(len(run.days()) for run in plan.series) for plan in (usual, real)]
        watered = {d for run in usual.series for d in run.days()}
        saved.append((sum(champion()[d][2] for d in watered), runs[0] - runs[1]))
    assert all(number >= 0 for _, number in saved)
    assert sum(1 for _, number in saved if number > 0) > 0.8 * len(saved)
    ranked = sorted(saved)
    third = len(ranked) // 3
    assert sum(n for _, n in ranked[-third:]) > sum(n for _, n in ranked[:third])


def test_a_hot_forecast_lengthens_the_runs_to_come() -> None:
    """Extremes of 22 and 40 C in a coming week give more minutes than usual, cool ones less."""
    year, week = 2012, date(2012, 9, 1)
    minutes = []
    for low, high in ((22.0, 40.0), (15.0, 17.0)):
        forecast = {
            week + timedelta(n): weather_day(week + timedelta(n), 41.4, min_c=low, max_c=high)
            for n in range(7)
        }
        plan = season_watering(replace(season(year, "loam", rain=False), weather=forecast))
        minutes.append(
            sum(r.minutes for r in plan.series if r.id.startswith("water.germination.w2"))
        )
    usual = sum(
        r.minutes
        for r in season_watering(season(year, "loam", rain=False)).series
        if r.id.startswith("water.germination.w2")
    )
    assert minutes[1] < usual < minutes[0]
