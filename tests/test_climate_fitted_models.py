"""What daily ranges, soil and dates of frost are estimated from, north and south."""

import math
from itertools import pairwise
from math import cos, log, pi, sin
from statistics import NormalDist

import pytest

from turfplan.calendar_days import MONTH_LENGTHS, MONTH_STARTS
from turfplan.climate import fitted_models as climate_models
from turfplan.climate.evapotranspiration import extraterrestrial_mj_m2
from turfplan.climate.fitted_models import _risk, frost_signals, range_signals, soil_from_air
from turfplan.climate.record import Curve
from turfplan.files.reading.place import load_models

MEANS = [-4.0, -3.0, 2.0, 9.0, 15.0, 20.0, 23.0, 22.0, 17.5, 11.0, 5.5, -0.5]
RAIN = [float(10 * month) for month in range(1, 13)]


@pytest.mark.parametrize("latitude", [40.0, -40.0])
def test_a_month_is_told_by_its_season_its_sun_and_its_height(latitude: float) -> None:
    """In the order of the coefficients: the year's swing is 27 K, the mean rain 65 mm; the south
    has its months half a year on; 1500 m count by the swing over 20 K.
    """
    found = range_signals(MEANS, RAIN, latitude, 1500.0)
    assert len(found) == 12
    for month, signals in enumerate(found):
        angle = 2 * pi * (month + 0.5) / 12 + (pi if latitude < 0 else 0)
        middle = MONTH_STARTS[month] + MONTH_LENGTHS[month] // 2 + 1
        wanted = (
            1.0,
            27.0,
            log(RAIN[month] + 5),
            log(65.0 + 5),
            cos(angle),
            sin(angle),
            extraterrestrial_mj_m2(latitude, middle),
            1.5 * 27.0 / 20,
        )
        assert signals == pytest.approx(wanted)


@pytest.mark.parametrize(("latitude", "months"), [(40.0, (3, 4)), (-40.0, (9, 10))])
def test_frost_is_told_by_the_rain_of_its_spring(latitude: float, months: tuple[int, int]) -> None:
    """April and May in the north, October and November in the south."""
    found = frost_signals(110.0, tuple(MEANS), RAIN, latitude)
    spring = sum(RAIN[month] for month in months)
    assert found == pytest.approx((1.0, 110.0, 27.0, log(spring + 5)))


@pytest.mark.parametrize("table", ["frost_spring", "frost_autumn"])
def test_the_risk_of_frost_is_that_of_a_normal_spread(table: str) -> None:
    """Half on a day whose mean low is freezing; the spread grows from summer's to both together on
    the coldest day, by the year's swing.
    """
    models = load_models()
    low, mean = (-2.0, 0.0, 3.0, 12.0), (2.0, 4.0, 9.0, 20.0)
    summer, more = (models.number(table, f"spread_{part}_c") for part in ("summer", "winter"))
    for risk, night, day in zip(_risk(models, table, low, mean), low, mean, strict=True):
        spread = summer + more * (20.0 - day) / 18.0
        assert risk == pytest.approx(NormalDist(0, spread).cdf(-night))
    assert _risk(models, table, low, mean)[1] == 0.5


def test_risks_add_up_to_a_day_and_a_part_of_it() -> None:
    """A quarter a day adds up to 1 within the fourth, to 1.1 four tenths into the fifth; away from
    the hottest, both ways.
    """
    risk = [0.25] * 365
    assert climate_models._where(risk, 200, 1, 1.0) == pytest.approx(203.0)
    assert climate_models._where(risk, 200, -1, 1.0) == pytest.approx(197.0)
    assert climate_models._where(risk, 200, 1, 1.1) == pytest.approx(203.4)
    assert climate_models._where([0.0] * 365, 200, 1, 1.0) is None
    once = [1.0 if day == 210 else 0.0 for day in range(365)]
    assert climate_models._where(once, 200, 1, 0.5) == 209.5
    assert climate_models._where(once, 200, -1, 0.5) == 200 - 354.5
    assert climate_models._where(once, 210, 1, 1.0) == 210


def test_risk_of_frost_is_that_of_a_normal_spread() -> None:
    """Half where the minimum is freezing; 15.87 % and 84.13 % one spread above and below, which is
    the wider the colder it is.
    """
    found = load_models()
    summer, winter = (
        found.number("frost_spring", f"spread_{name}_c") for name in ("summer", "winter")
    )
    lows, means = [0.0, summer, summer + winter, -summer - winter / 2], [20.0, 20.0, 0.0, 10.0]
    risk = climate_models._risk(found, "frost_spring", lows, means)
    assert risk == pytest.approx([0.5, 0.158655, 0.158655, 0.841345], abs=1e-6)


SMALL = climate_models.Models(
    {
        "soil_5cm": {"lag": 0.5, "frozen_share": 0.25, "offset_c": 1.0, "slope": 2.0},
        "soil_10cm": {"lag": 0.25, "frozen_share": 0.5, "offset_c": 3.0, "slope": 1.0},
        "diurnal": {"coefficients": [9.0, 0, 0, 0, 0, 0, 0, 0], "least_c": 3.0, "most_c": 20.0},
        "coldest_night": {"line": [-7.0, 1.2, -0.1]},
        "frost": {
            "one_in_ten_days": 13,
            "free_above_c": 1.5,
            "free_per_amplitude": 0.5,
            "doubt_c_times_amplitude": 64.0,
        },
        "frost_spring": {
            "spread_summer_c": 3.0,
            "spread_winter_c": 2.0,
            "count": 0.8,
            "line": [4.0, 1.0, 0.0, 0.0],
            "error_days": 18,
        },
        "frost_autumn": {
            "spread_summer_c": 5.0,
            "spread_winter_c": 1.0,
            "count": 1.3,
            "line": [-6.0, 1.0, 0.0, 0.0],
            "error_days": 16,
        },
    }
)


def test_soil_follows_what_drives_it_by_its_lag() -> None:
    """By hand: air of 2, 4, -4 and 0 C drives the soil at 5 cm to 5, 9, 0 and 1, halfway each day;
    at 10 cm to 5, 7, 1 and 3, a quarter of the way.
    """
    air = (2.0, 4.0, -4.0, 0.0)
    assert soil_from_air(SMALL, air, 5) == pytest.approx((5.0, 7.0, 3.5, 2.25))
    assert soil_from_air(SMALL, air, 10) == pytest.approx((5.0, 5.5, 4.375, 4.03125))


def test_a_periodic_curve_begins_as_it_ends() -> None:
    """The second round goes on from the first: from 2.25."""
    found = soil_from_air(SMALL, (2.0, 4.0, -4.0, 0.0), 5, periodic=True)
    assert found == pytest.approx((3.625, 6.3125, 3.15625, 2.078125))


@pytest.mark.parametrize(("first", "span"), [(9.0, 9.0), (2.0, 3.0), (25.0, 20.0)])
def test_daily_ranges_lie_between_the_least_and_the_most(first: float, span: float) -> None:
    """Of coefficients that give each month the same."""
    diurnal = {"coefficients": [first] + [0.0] * 7, "least_c": 3.0, "most_c": 20.0}
    models = climate_models.Models({"diurnal": diurnal})
    rain, mean = [50.0] * 12, [float(m) for m in range(12)]
    assert climate_models.daily_range_c(models, mean, rain, 40.0, 0.0) == (span,) * 12
    third = climate_models.Models({"diurnal": {**diurnal, "coefficients": [1.0, 0.5, *[0.0] * 6]}})
    assert climate_models.daily_range_c(third, mean, rain, 40.0, 0.0) == (6.5,) * 12


def test_the_coldest_night_follows_from_the_coldest_month_and_the_swing() -> None:
    """-7 + 1.2 (-5) - 0.1 (20)."""
    assert climate_models.coldest_night_c(SMALL, -5.0, 20.0) == pytest.approx(-15.0)


def swinging(warmest: int, low_c: float = -8.0) -> tuple[Curve, Curve]:
    """Minima and means of a year that is warmest on a day, 25 C, and 5 C half a year on."""
    wave = [math.cos(2 * math.pi * (day - warmest) / 365) for day in range(365)]
    mean = tuple(15.0 + 10.0 * w for w in wave)
    return tuple(m + low_c for m in mean), mean


@pytest.mark.parametrize(("season", "way", "count"), [("spring", -1, 0.8), ("autumn", 1, 1.3)])
def test_the_day_of_frost_is_where_risks_from_the_hottest_day_add_up(
    season: str, way: int, count: float
) -> None:
    """Backward in spring and forward in autumn; the whole days before it stay below the count."""
    low, mean = swinging(200)
    day = climate_models.frost_day(SMALL, season, low, mean)
    assert day is not None
    risk = climate_models._risk(SMALL, f"frost_{season}", low, mean)
    hottest = mean.index(max(mean))
    assert hottest == 200
    whole = int((day - hottest) * way)
    added = sum(risk[(hottest + way * step) % 365] for step in range(whole + 1))
    part = (day - hottest) * way - whole
    assert added + part * risk[(hottest + way * (whole + 1)) % 365] == pytest.approx(count)
    warm, _ = swinging(200, 60.0)
    assert climate_models.frost_day(SMALL, season, warm, mean) is None


@pytest.mark.parametrize(("latitude", "warmest"), [(40.0, 200), (-40.0, 17), (-40.0, 360)])
def test_dates_of_frost_are_counted_in_the_northern_year(latitude: float, warmest: int) -> None:
    """Four days after the day of spring's, six before autumn's, with thirteen days to each side,
    wherever the summer lies.
    """
    low, mean = swinging(warmest)
    last, first = climate_models.estimate_frost(SMALL, low, mean, [50.0] * 12, latitude)
    assert last is not None and first is not None
    days = [climate_models.frost_day(SMALL, s, low, mean) for s in ("spring", "autumn")]
    assert days[0] is not None and days[1] is not None
    assert (last.median, first.median) == (
        round(days[0] + 4) % 365,
        round(days[1] - 6) % 365,
    )
    for frost, error in ((last, 18), (first, 16)):
        assert (frost.early_10, frost.late_10) == (frost.median - 13, frost.median + 13)
        assert frost.error_days == error


def test_the_line_of_a_frost_reads_the_day_in_the_northern_year() -> None:
    """Half of the day in the northern year: in the south it is half a year on, and back; where
    that would lead past the end of the year it is half a year before.
    """
    halved = {
        name: {**SMALL.tables[name], "line": [0.0, 0.5, 0.0, 0.0]}
        for name in ("frost_spring", "frost_autumn")
    }
    models = climate_models.Models({**SMALL.tables, **halved})
    for latitude, warmest, half in ((40.0, 200, 0), (-40.0, 17, 182), (-40.0, 360, -183)):
        low, mean = swinging(warmest)
        last, _ = climate_models.estimate_frost(models, low, mean, [50.0] * 12, latitude)
        day = climate_models.frost_day(models, "spring", low, mean)
        assert last is not None and day is not None
        assert last.median == round((day + half) * 0.5 - half) % 365


@pytest.mark.parametrize(("lowest", "frost"), [(11.4, True), (11.6, False)])
def test_a_place_with_mild_nights_has_no_frost(lowest: float, *, frost: bool) -> None:
    """Above 1.5 C and half of a swing of 20 C, whatever the risks say."""
    mild = {"spread_summer_c": 30.0, "spread_winter_c": 30.0}
    tables = {
        **SMALL.tables,
        "frost_spring": {**SMALL.tables["frost_spring"], **mild},
        "frost_autumn": {**SMALL.tables["frost_autumn"], **mild},
    }
    low, mean = swinging(200, lowest - 5.0)
    assert min(low) == pytest.approx(lowest, abs=0.01)
    found = climate_models.estimate_frost(
        climate_models.Models(tables), low, mean, [50.0] * 12, 40.0
    )
    assert all((one is not None) == frost for one in found)


def test_a_frost_that_misses_years_comes_in_the_depth_of_winter() -> None:
    """Where one year in two has none; and from there its date moves without a leap."""
    wide = {
        name: {**SMALL.tables[name], "spread_winter_c": 9.0}
        for name in ("frost_spring", "frost_autumn")
    }
    models = climate_models.Models({**SMALL.tables, **wide})
    firsts = []
    for tenth in range(114, 50, -1):
        low, mean = swinging(200, tenth / 10 - 5.0)
        _, first = climate_models.estimate_frost(models, low, mean, [50.0] * 12, 40.0)
        if first is not None:
            away = (first.median - low.index(min(low)) + 182) % 365 - 182
            firsts.append((climate_models.frost_sure(models, low, mean), away))
    assert firsts[0][0] == pytest.approx(0.03, abs=0.03) and abs(firsts[0][1]) <= 5
    assert firsts[-1][0] == 1 and firsts[-1][1] < -30
    assert all(0 <= one - other <= 7 for (_, one), (_, other) in pairwise(firsts))


def test_rain_is_spread_over_the_days_of_its_month() -> None:
    """62 mm of January are 2 a day."""
    days = climate_models.monthly_to_daily_rain([62.0, 28.0] + [0.0] * 9 + [31.0])
    assert (days[0], days[30], days[31], days[58], days[59], days[-1]) == (2, 2, 1, 1, 0, 1)
    assert len(days) == 365
