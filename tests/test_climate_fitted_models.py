"""The climate of a place against measured normals: the errors that models.toml states are the
errors there are.

NOAA's Comparative Climatic Data, printed median dates of frost and the US Climate Reference
Network's soil at Manhattan, Kansas, lie in `../shared/data/climate`; `climate_fits.py` reads them.
"""

import math
import subprocess
import sys
from datetime import date
from statistics import median

import pytest

from planning import ROOT, SHARED, climate_at
from tiers import full
from told import told
from turfplan.climate import fitted_models as climate_models
from turfplan.climate.daily_curves import crossing, daily_curve
from turfplan.climate.fitted_models import soil_from_air
from turfplan.climate.record import Climate, Curve
from turfplan.errors import TurfplanError
from turfplan.files.reading.place import load_models, located
from turfplan.records.brief import parse_brief

pytest.importorskip("scipy", reason="the fits need numpy and scipy")
pytest.importorskip(
    "zipcodes", reason="stations are placed by the postal places of the package zipcodes"
)

import climate_fits as fits

measured = pytest.mark.skipif(
    not (SHARED / "data" / "climate").is_dir(),
    reason="measured normals are not beside the checkout",
)
MODELS = load_models()


@measured
def test_stations_are_found_by_city_and_state() -> None:
    """164 of 171 stations lie in a city with postal places; the seven others have names that are no
    cities.
    """
    found, lost = fits.stations()
    assert (len(found), len(lost)) == (164, 7)


@full
@measured
def test_mean_temperature_at_low_stations() -> None:
    """Where the ground is not mountainous (118 stations) the grid's monthly means are right to 1.0
    C, as stated in models.toml.
    """
    errors = fits.mean_errors()
    assert errors["flat_count"] >= 40
    assert errors["flat"] <= 1.0
    assert errors["flat"] == pytest.approx(MODELS.number("mean", "error_c"), abs=0.02)


@full
@measured
def test_daily_range_in_states_left_out() -> None:
    """Mean daily minimum and maximum are right to 1.8 C at stations of a state that the fit has not
    seen.
    """
    errors = fits.diurnal_errors()
    assert errors["low"] <= 1.8 and errors["high"] <= 1.8
    assert errors["low"] == pytest.approx(MODELS.number("diurnal", "error_min_c"), abs=0.06)
    assert errors["high"] == pytest.approx(MODELS.number("diurnal", "error_max_c"), abs=0.06)
    assert list(fits.fit_diurnal(fits.stations()[0])) == pytest.approx(
        MODELS.line("diurnal", "coefficients"), abs=1e-3
    )


@measured
@pytest.mark.parametrize("season", ["spring", "autumn"])
def test_median_frost(season: str) -> None:
    """Median dates of frost are right to 12 days at places of a state left out, and the printed
    band holds nine of ten of them.
    """
    line, errors = fits.fit_frost(season)
    assert len(errors) >= 40
    assert fits.rms(errors) <= 12
    band = MODELS.number(f"frost_{season}", "error_days")
    assert sum(abs(e) <= band for e in errors) >= 0.9 * len(errors)
    assert line == pytest.approx(MODELS.line(f"frost_{season}", "line"), abs=1e-3)


@measured
@pytest.mark.parametrize("depth_cm", [5, 10])
def test_soil_follows_its_air(depth_cm: int) -> None:
    """Driven by the station's own air, soil of the judged years is right to 1.5 C, in every season
    to 1.6 C.
    """
    series = fits.soil_series()
    errors = fits.soil_errors(
        depth_cm, fits.np.array(soil_from_air(MODELS, list(series.air_c), depth_cm))
    )
    assert errors["all"] <= 1.5
    assert all(error <= 1.6 for error in errors.values())
    assert errors["all"] == pytest.approx(MODELS.number(f"soil_{depth_cm}cm", "error_c"), abs=0.03)


def _median_crossing(fahrenheit: int, depth_cm: int, season: str) -> float | None:
    """The median day of the year on which 7-day means of measured soil cross a threshold, over the
    years that do.
    """
    series, found = fits.soil_series(), []
    for year in range(2009, 2018):
        days = fits.np.array([d.year == year for d in series.dates])
        soil = series.soil_c[depth_cm][days]
        if len(soil) < 365 or fits.np.isnan(soil).any():
            soil = fits.np.interp(
                range(len(soil)),
                fits.np.flatnonzero(~fits.np.isnan(soil)),
                soil[~fits.np.isnan(soil)],
            )
        if len(soil) < 330:
            continue
        smooth = list(fits.np.convolve(soil, fits.np.ones(7) / 7, "same"))
        start, length = (30, 190) if season == "spring" else (220, 110)
        day = crossing(
            smooth, (fahrenheit - 32) / 1.8, rising=season == "spring", start=start, length=length
        )
        if day is not None:
            found.append(day)
    return median(found) if len(found) >= 5 else None


@measured
@pytest.mark.parametrize("season", ["spring", "autumn"])
@pytest.mark.parametrize("fahrenheit", [50, 55, 60, 65, 70])
@pytest.mark.parametrize("depth_cm", [5, 10])
def test_soil_thresholds_from_normals(depth_cm: int, fahrenheit: int, season: str) -> None:
    """Planned from the grid alone, the measured median crossing lies inside the printed band of
    soil dates.
    """
    climate = climate_at(39.1, -96.61)
    curve = climate.soil_5cm_c if depth_cm == 5 else climate.soil_10cm_c
    start = 30 if season == "spring" else 220
    planned = crossing(
        curve, (fahrenheit - 32) / 1.8, rising=season == "spring", start=start, length=190
    )
    true = _median_crossing(fahrenheit, depth_cm, season)
    assert planned is not None and true is not None
    assert abs(planned - true) <= climate.soil_error_days


def test_daily_curves_keep_the_months() -> None:
    """The mean of a month's days is the month's mean, and New Year is no step."""
    months = (-3.0, -1.5, 4.0, 10.5, 16.0, 21.0, 23.9, 23.0, 19.0, 12.5, 6.0, 0.0)
    days = daily_curve(months)
    lengths = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
    starts = [sum(lengths[:k]) for k in range(12)]
    for start, length, wanted in zip(starts, lengths, months, strict=True):
        assert sum(days[start : start + length]) / length == pytest.approx(wanted, abs=0.01)
    assert abs(days[0] - days[-1]) < 0.3


def test_south_and_north_are_half_a_year_apart() -> None:
    """Canberra's July is winter; its frosts are in the local spring and autumn."""
    climate = climate_at(-35.3, 149.1)
    assert climate.southern and climate.air_c(date(2027, 7, 15)) < 9 < 18 < climate.air_c(
        date(2027, 1, 15)
    )
    assert climate.last_frost is not None and climate.first_frost is not None
    assert 200 < climate.last_frost.median < 340 and 60 < climate.first_frost.median < 200


def test_elevation_cools_by_the_lapse_rate() -> None:
    """The same coordinates 300 m higher are colder by 1.95 C (6.5 K per km), and their seasons
    shift.
    """
    low, high = (climate_at(40.0, -105.3, elevation_m=height) for height in (1600.0, 1900.0))
    for a, b in zip(low.air_mean_c, high.air_mean_c, strict=True):
        assert a - b == pytest.approx(1.95, abs=0.01)
    assert low.last_frost is not None and high.last_frost is not None
    assert high.last_frost.median > low.last_frost.median


def test_steep_ground_widens_the_band() -> None:
    """In the mountains the printed error is wider than on the plain, and narrower again once the
    elevation is known.
    """
    plain, steep, known = (
        climate_at(41.0, -98.0),
        climate_at(39.2, -106.8),
        climate_at(39.2, -106.8, elevation_m=2400),
    )
    assert steep.air_error_c > known.air_error_c >= plain.air_error_c
    assert steep.error_days > known.error_days
    assert "give the elevation" in told(steep.source)
    assert "give the elevation" not in told(known.source)


@pytest.mark.parametrize(
    ("latitude", "longitude", "words"),
    [
        (30.0, -40.0, "no land near"),
        (89.5, 0.0, "outside the climate grid"),
        (-75.0, 30.0, "outside the climate grid"),
        (0.0, -150.0, "no land near"),
    ],
)
def test_sea_and_poles_are_no_places(latitude: float, longitude: float, words: str) -> None:
    """Nothing is guessed for the open sea, the poles or what lies off the grid."""
    with pytest.raises(TurfplanError, match=words):
        climate_at(latitude, longitude)


def _zone(zone: str, country: str | None = None) -> Climate:
    place = {"climate_zone": zone} | ({"country": country} if country else {})
    lawn = {"area": "100 m2", "grass": "tall_fescue"}
    return located(parse_brief({"lawn": lawn, "place": place}).place, ROOT).climate


def test_a_typed_zone_stands_for_its_land() -> None:
    """A colder hardiness zone is colder; the band of dates is wider than a place's; a Köppen class
    works abroad.
    """
    cold, warm = _zone("4"), _zone("8")
    assert min(cold.air_mean_c) < min(warm.air_mean_c) - 8
    assert cold.error_days > climate_at(41.0, -98.0).error_days
    assert _zone("Cfb", "GB").latitude > 49
    for zone, country in (("99", None), ("Cfb", "ZZ"), ("Af", "GB")):
        with pytest.raises(TurfplanError):
            _zone(zone, country)


@pytest.mark.parametrize("code", ["1760", "176011", "abcde", "00000", "١٧٦٠١", "17601-12"])
def test_postal_codes_that_are_none(code: str) -> None:
    """A malformed or unknown postal code is an error with a hint."""
    with pytest.raises(TurfplanError, match="postal_code"):
        located(
            parse_brief(
                {"lawn": {"area": "100 m2", "grass": "tall_fescue"}, "place": {"postal_code": code}}
            ).place,
            ROOT,
        )


def test_a_place_is_read_without_heavy_libraries() -> None:
    """Neither numpy nor pandas, netCDF4, xarray or the postal package is imported to read a
    climate.
    """
    code = (
        "import sys\n"
        "from turfplan.records.brief import Place\n"
        "from pathlib import Path\n"
        "from turfplan.files.reading.place import located\n"
        "located(Place(postal_code='17601'), Path())\n"
        "print(sorted({'numpy', 'pandas', 'netCDF4', 'xarray', 'zipcodes', 'scipy', 'h5py'} "
        "& set(sys.modules)))\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_risks_add_up_to_a_day_and_a_part_of_it() -> None:
    """A quarter a day adds up to 1 within the fourth, to 1.1 four tenths into the fifth; away from
    the hottest, both ways.
    """
    risk = [0.25] * 365
    assert climate_models._where(risk, 200, 1, 1.0) == pytest.approx(203.0)
    assert climate_models._where(risk, 200, -1, 1.0) == pytest.approx(197.0)
    assert climate_models._where(risk, 200, 1, 1.1) == pytest.approx(203.4)
    assert climate_models._where([0.0] * 365, 200, 1, 1.0) is None


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


def test_one_year_in_ten_lies_as_far_on_both_sides() -> None:
    """Of dates that are estimated; the days are those that are printed."""
    found = _zone("cool_humid")
    for frost in (found.last_frost, found.first_frost):
        assert frost is not None
        assert frost.median - frost.early_10 == frost.late_10 - frost.median > 0


SMALL = climate_models.Models(
    {
        "soil_5cm": {"lag": 0.5, "frozen_share": 0.25, "offset_c": 1.0, "slope": 2.0},
        "soil_10cm": {"lag": 0.25, "frozen_share": 0.5, "offset_c": 3.0, "slope": 1.0},
        "diurnal": {"coefficients": [9.0, 0, 0, 0, 0, 0, 0, 0], "least_c": 3.0, "most_c": 20.0},
        "coldest_night": {"line": [-7.0, 1.2, -0.1]},
        "frost": {"one_in_ten_days": 13, "free_above_c": 1.5, "free_per_amplitude": 0.5},
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


def test_rain_is_spread_over_the_days_of_its_month() -> None:
    """62 mm of January are 2 a day."""
    days = climate_models.monthly_to_daily_rain([62.0, 28.0] + [0.0] * 9 + [31.0])
    assert (days[0], days[30], days[31], days[58], days[59], days[-1]) == (2, 2, 1, 1, 0, 1)
    assert len(days) == 365
