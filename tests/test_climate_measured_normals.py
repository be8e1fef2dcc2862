"""The climate of a place against measured normals: the errors that models.toml states are the
errors there are.

NOAA's Comparative Climatic Data, printed median dates of frost and the US Climate Reference
Network's soil at Manhattan, Kansas, lie in `../shared/data/climate`; `climate_fits.py` reads them.
"""

import subprocess
import sys
from datetime import date
from statistics import median

import pytest

from planning import ROOT, SHARED, climate_at
from tiers import full
from told import told
from turfplan.climate.daily_curves import crossing, daily_curve
from turfplan.climate.fitted_models import soil_from_air
from turfplan.climate.record import Climate
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


@pytest.mark.full
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


@pytest.mark.full
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


@pytest.mark.full
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


@pytest.mark.full
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


@pytest.mark.full
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


def test_one_year_in_ten_lies_as_far_on_both_sides() -> None:
    """Of dates that are estimated; the days are those that are printed."""
    found = _zone("cool_humid")
    for frost in (found.last_frost, found.first_frost):
        assert frost is not None
        assert frost.median - frost.early_10 == frost.late_10 - frost.median > 0
