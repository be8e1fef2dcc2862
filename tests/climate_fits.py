"""Fits the climate models on measured normals: `PYTHONPATH=tests python tests/climate_fits.py`
prints what models.toml states.

Reads `../shared/data/climate` beside the checkout. Stations are placed at the middle of the postal
places of their city, so their coordinates are some kilometres off; their heights are not known.
"""

import csv
import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from pathlib import Path
from statistics import median

import numpy as np
from scipy.optimize import minimize

from turfplan.climate.daily_curves import crossing, daily_curve
from turfplan.climate.fitted_models import (
    Models,
    daily_range_c,
    frost_day,
    frost_signals,
    range_signals,
)
from turfplan.climate.world_grid import Months, months_at
from turfplan.files.reading.place import load_grid, load_models

DATA = Path(__file__).parents[2] / "shared" / "data" / "climate"
MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"]
# Names of the list that no postal place has.
ALIASES = {
    "MINNEAPOLIS-ST.PAUL": "Minneapolis",
    "GREENSBORO-WNSTN-SALM-HGHPT": "Greensboro",
    "MIDLAND-ODESSA": "Midland",
    "ST. LOUIS": "Saint Louis",
    "WASHINGTON NAT'L": "Washington",
    "CAPE HATTERAS": "Hatteras",
}
# Heights of more than this between the cells around a place: mountains.
MOUNTAIN_RELIEF_M = 200.0


@dataclass(frozen=True, slots=True)
class Station:
    """A station's normals (C) with the months that the grid gives at its city."""

    city: str
    state: str
    latitude: float
    months: Months
    low_c: tuple[float, ...]
    high_c: tuple[float, ...]

    @property
    def middle_c(self) -> np.ndarray:
        """Means of minimum and maximum."""
        return (np.array(self.low_c) + np.array(self.high_c)) / 2


@dataclass(frozen=True, slots=True)
class FrostDate:
    """A printed median date of frost with what the grid says of the place; autumn dates may lie
    past the year's end.
    """

    place: str
    season: str
    day: int
    latitude: float
    months: Months


def rms(errors: Iterable[float]) -> float:
    """Root mean square."""
    return math.sqrt(float(np.mean(np.square(list(errors)))))


@lru_cache(maxsize=1)
def _postal_places() -> dict[tuple[str, str], list[tuple[float, float]]]:
    import zipcodes

    found: dict[tuple[str, str], list[tuple[float, float]]] = {}
    for entry in zipcodes.list_all():
        if entry["lat"] and entry["long"]:
            key = (entry["city"].upper(), entry["state"])
            found.setdefault(key, []).append((float(entry["lat"]), float(entry["long"])))
    return found


def city_place(city: str, state: str) -> tuple[float, float] | None:
    """The middle of the postal places of a US city, or None where the list has no such city."""
    places = _postal_places().get((ALIASES.get(city, city).upper(), state))
    return None if not places else (median(p[0] for p in places), median(p[1] for p in places))


@lru_cache(maxsize=1)
def stations() -> tuple[tuple[Station, ...], tuple[str, ...]]:
    """The stations of the list, each once, and the names of those that could not be placed."""
    found: dict[str, Station] = {}
    lost: list[str] = []
    with (DATA / "noaa_station_normals.csv").open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            if row["station_id"] in found:
                continue
            place = city_place(row["station_city"], row["station_state"])
            if place is None:
                lost.append(f"{row['station_city']} {row['station_state']}")
                continue
            high, low = (
                tuple((float(row[f"{word}_f_{month}"]) - 32) / 1.8 for month in MONTHS)
                for word in ("tmax", "tmin")
            )
            months = months_at(load_grid(), *place)
            found[row["station_id"]] = Station(
                row["station_city"], row["station_state"], place[0], months, low, high
            )
    return tuple(found.values()), tuple(lost)


def mean_errors() -> dict[str, float]:
    """Errors of the grid's mean temperature at the stations (C), all and by the relief around
    them.
    """
    pairs = [
        (s.months.relief_m, rms(np.array(s.months.mean_c) - s.middle_c)) for s in stations()[0]
    ]
    flat = [e for relief, e in pairs if relief < MOUNTAIN_RELIEF_M]
    steep = [(relief, e) for relief, e in pairs if relief >= MOUNTAIN_RELIEF_M]
    base = rms(flat)
    slope = math.sqrt(max(0.0, sum(e**2 - base**2 for _, e in steep) / sum(r**2 for r, _ in steep)))
    return {
        "all": rms(e for _, e in pairs),
        "flat": base,
        "flat_count": len(flat),
        "steep": rms(e for _, e in steep),
        "per_relief": slope,
    }


def _signals(station: Station) -> np.ndarray:
    months = station.months
    return np.array(
        range_signals(months.mean_c, months.rain_mm, station.latitude, months.elevation_m)
    )


def fit_diurnal(kept: Sequence[Station]) -> np.ndarray:
    """Coefficients of the daily range by least squares over all months of the stations."""
    signals = np.vstack([_signals(s) for s in kept])
    ranges = np.concatenate([np.array(s.high_c) - np.array(s.low_c) for s in kept])
    found: np.ndarray = np.linalg.lstsq(signals, ranges, rcond=None)[0]
    return found


def with_diurnal(models: Models, coefficients: Sequence[float]) -> Models:
    """The models with other coefficients of the daily range."""
    return Models(
        {
            **models.tables,
            "diurnal": {**models.tables["diurnal"], "coefficients": list(coefficients)},
        }
    )


def diurnal_errors() -> dict[str, float]:
    """Errors of mean daily minimum, maximum and range (C) at stations of states left out of the
    fit.
    """
    errors: dict[str, list[float]] = {"low": [], "high": [], "range": []}
    all_stations = stations()[0]
    for state in sorted({s.state for s in all_stations}):
        models = with_diurnal(
            load_models(), list(fit_diurnal([s for s in all_stations if s.state != state]))
        )
        for s in all_stations:
            if s.state == state:
                spans = np.array(
                    daily_range_c(
                        models, s.months.mean_c, s.months.rain_mm, s.latitude, s.months.elevation_m
                    )
                )
                mean = np.array(s.months.mean_c)
                errors["low"] += list(mean - spans / 2 - np.array(s.low_c))
                errors["high"] += list(mean + spans / 2 - np.array(s.high_c))
                errors["range"] += list(spans - (np.array(s.high_c) - np.array(s.low_c)))
    return {name: rms(values) for name, values in errors.items()}


@lru_cache(maxsize=1)
def frost_dates() -> tuple[FrostDate, ...]:
    """Printed median dates of 32 F at single places."""
    found = []
    with (DATA / "frost_and_soil_checks.csv").open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            city, _, state = row["place"].rpartition(" ")
            if (
                "frost_median" not in row["variable"]
                or ".." in row["date_or_value"]
                or len(state) != 2
            ):
                continue
            place = city_place(city, state)
            if place is None or "district" in city:
                continue
            day = date.fromisoformat(f"2027-{row['date_or_value']}").timetuple().tm_yday - 1
            season = "spring" if "spring" in row["variable"] else "autumn"
            day += 365 if season == "autumn" and day < 100 else 0
            found.append(
                FrostDate(row["place"], season, day, place[0], months_at(load_grid(), *place))
            )
    return tuple(found)


def _curves(models: Models, found: FrostDate) -> tuple[tuple[float, ...], tuple[float, ...]]:
    months = found.months
    mean = daily_curve(months.mean_c)
    spans = daily_curve(
        daily_range_c(models, months.mean_c, months.rain_mm, found.latitude, months.elevation_m)
    )
    return tuple(m - s / 2 for m, s in zip(mean, spans, strict=True)), mean


def fit_frost(season: str) -> tuple[list[float], list[float]]:
    """The line through `frost_signals` at the printed dates, and errors (days) of places of states
    left out of the line.
    """
    models = load_models()
    rows = []
    for found in frost_dates():
        low, mean = _curves(models, found)
        day = frost_day(models, season, low, mean) if found.season == season else None
        if day is not None:
            rows.append((found, frost_signals(day, mean, found.months.rain_mm, found.latitude)))
    errors = []
    for found, signals in rows:
        held = _line([row for row in rows if row[0].place.split()[-1] != found.place.split()[-1]])
        errors.append(float(np.dot(held, signals)) - found.day)
    return _line(rows), errors


def _line(rows: Sequence[tuple[FrostDate, Sequence[float]]]) -> list[float]:
    signals = np.array([s for _, s in rows])
    return [
        float(v)
        for v in np.linalg.lstsq(signals, np.array([f.day for f, _ in rows], float), rcond=None)[0]
    ]


@dataclass(frozen=True, slots=True)
class SoilSeries:
    """Daily air and soil temperature of the reference station at Manhattan, Kansas (C; NaN where
    missing).
    """

    dates: tuple[date, ...]
    air_c: np.ndarray
    soil_c: dict[int, np.ndarray]

    def years(self, first: int, last: int) -> np.ndarray:
        """Which days lie in these years."""
        return np.array([first <= d.year <= last for d in self.dates])


@lru_cache(maxsize=1)
def soil_series() -> SoilSeries:
    """The station's days; gaps of air temperature are bridged by straight lines."""

    def number(text: str) -> float:
        return math.nan if float(text) <= -99 else float(text)

    with (DATA / "uscrn_manhattan_ks_daily.csv").open(encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    dates = tuple(
        date.fromisoformat(f"{r['LST_DATE'][:4]}-{r['LST_DATE'][4:6]}-{r['LST_DATE'][6:]}")
        for r in rows
    )
    air = np.array([number(r["T_DAILY_MEAN"]) for r in rows])
    days, known = np.arange(len(air)), ~np.isnan(air)
    air = np.interp(days, days[known], air[known])
    soil = {
        depth: np.array([number(r[f"SOIL_TEMP_{depth}_DAILY"]) for r in rows]) for depth in (5, 10)
    }
    return SoilSeries(dates, air, soil)


def lagged(drive: np.ndarray, share: float) -> np.ndarray:
    """An exponential lag: each day goes the share of the way to its drive."""
    found, soil = np.empty(len(drive)), drive[0]
    for i, value in enumerate(drive):
        soil += share * (value - soil)
        found[i] = soil
    return found


def lag_model(air_c: np.ndarray, p: Sequence[float]) -> np.ndarray:
    """Lag, share of air below freezing that counts, offset, slope."""
    return lagged(p[2] + np.where(air_c > 0, air_c * p[3], air_c * p[1]), p[0])


def two_lags(air_c: np.ndarray, p: Sequence[float]) -> np.ndarray:
    """As `lag_model`, with a share p[4] that follows by a second, slower lag p[5]."""
    drive = p[2] + np.where(air_c > 0, air_c * p[3], air_c * p[1])
    return (1 - p[4]) * lagged(drive, p[0]) + p[4] * lagged(drive, p[5])


def katterer_andren(air_c: np.ndarray, depth_cm: float, leaf_area: float = 2.0) -> np.ndarray:
    """Kätterer & Andrén (2009), Acta Agriculturae Scandinavica B 59, 77-86; equations and
    coefficients from memory.
    """
    surface = np.where(
        air_c < 0, 0.20 * air_c, air_c * (0.95 + 0.05 * math.exp(-0.4 * (leaf_area - 3)))
    )
    return lagged(surface, 0.24 * math.exp(-0.017 * depth_cm) * math.exp(-0.15 * leaf_area))


def swat(air_c: np.ndarray, depth_cm: float, damping_mm: float = 2000.0) -> np.ndarray:
    """SWAT's theory (2009), equations 1:1.3.2 and 1:1.3.3, from EPIC: lag 0.8, surface taken as the
    air; from memory.
    """
    ratio = depth_cm * 10 / damping_mm
    factor = ratio / (ratio + math.exp(-0.867 - 2.078 * ratio))
    drive = factor * (float(np.mean(air_c)) - air_c) + air_c
    return lagged(drive, 0.2)


def fit_soil(
    depth_cm: int, model: Callable[..., np.ndarray], start: Sequence[float]
) -> list[float]:
    """Parameters of a soil model on 2009 to 2013."""
    series = soil_series()
    soil = series.soil_c[depth_cm]
    days = series.years(2009, 2013) & ~np.isnan(soil)
    best = minimize(
        lambda p: float(np.mean((model(series.air_c, p)[days] - soil[days]) ** 2)),
        start,
        method="Nelder-Mead",
        options={"maxiter": 1500, "xatol": 1e-3, "fatol": 1e-4},
    )
    return [round(float(v), 3) for v in best.x]


def soil_errors(depth_cm: int, modelled: np.ndarray) -> dict[str, float]:
    """Errors on 2014 to 2017 (C): all days and by season."""
    series = soil_series()
    soil = series.soil_c[depth_cm]
    days = series.years(2014, 2017) & ~np.isnan(soil)
    errors, months = (modelled - soil)[days], np.array([d.month for d in series.dates])[days]
    seasons = {
        "winter": (12, 1, 2),
        "spring": (3, 4, 5),
        "summer": (6, 7, 8),
        "autumn": (9, 10, 11),
    }
    return {"all": rms(errors)} | {
        name: rms(errors[np.isin(months, m)]) for name, m in seasons.items()
    }


def soil_crossings(depth_cm: int, modelled: np.ndarray) -> dict[str, list[int]]:
    """Days by which 7-day means cross 50 to 70 F too late (or, negative, too early), 2014 to 2017,
    by season.
    """
    series = soil_series()
    found: dict[str, list[int]] = {"spring": [], "autumn": []}
    for year in range(2014, 2018):
        days = np.array([d.year == year for d in series.dates])
        pair = [
            np.convolve(values[days], np.ones(7) / 7, "same")
            for values in (modelled, series.soil_c[depth_cm])
        ]
        for fahrenheit in (50, 55, 60, 65, 70):
            for season, start, length in (("spring", 30, 190), ("autumn", 220, 110)):
                if len(pair[0]) < start + length:
                    continue
                at = [
                    crossing(
                        list(v),
                        (fahrenheit - 32) / 1.8,
                        rising=season == "spring",
                        start=start,
                        length=length,
                    )
                    for v in pair
                ]
                if at[0] is not None and at[1] is not None:
                    found[season].append(at[0] - at[1])
    return found


def main() -> None:
    """Print every coefficient and error."""
    kept, lost = stations()
    print(f"stations placed {len(kept)}, not {len(lost)}: {', '.join(lost)}")
    print("mean", {k: round(v, 4) for k, v in mean_errors().items()})
    print(
        "diurnal",
        [round(float(v), 4) for v in fit_diurnal(kept)],
        {k: round(v, 2) for k, v in diurnal_errors().items()},
    )
    for season in ("spring", "autumn"):
        line, errors = fit_frost(season)
        print(
            "frost",
            season,
            [round(v, 5) for v in line],
            "n",
            len(errors),
            "rms",
            round(rms(errors), 1),
            "90 %",
            round(float(np.percentile(np.abs(errors), 90)), 1),
        )
    for depth in (5, 10):
        print_soil(depth)


def print_soil(depth: int) -> None:
    """Print the errors and crossings of every model of the soil at a depth in cm."""
    air = soil_series().air_c
    one = fit_soil(depth, lag_model, [0.3, 0.3, 0.5, 1.0])
    two = fit_soil(depth, two_lags, [0.3, 0.3, 0.5, 1.0, 0.2, 0.03])
    for name, modelled in (
        ("air", air),
        (f"lag {one}", lag_model(air, one)),
        (f"two lags {two}", two_lags(air, two)),
        ("Kätterer & Andrén", katterer_andren(air, depth)),
        ("SWAT", swat(air, depth)),
    ):
        at = {
            k: (round(rms(v), 1), round(float(np.mean(v)), 1))
            for k, v in soil_crossings(depth, modelled).items()
        }
        print(
            "soil",
            depth,
            name,
            {k: round(v, 2) for k, v in soil_errors(depth, modelled).items()},
            "crossings",
            at,
        )


if __name__ == "__main__":
    main()
