"""Fits how much a wet day brings on stations of six continents: `PYTHONPATH=tests python
tests/wet_day_fit.py` prints what `[wet_days]` of models.toml states.

The stations are in `published/wet_day_stations.csv`; their temperatures are the grid's at their
place. None of them is among the daily series that the generator is judged by.
"""

import csv
import math
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from turfplan.calendar_days import MONTH_LENGTHS
from turfplan.climate.fitted_models import wet_day_signals
from turfplan.climate.world_grid import months_at
from turfplan.files.reading.place import load_grid

STATIONS = Path(__file__).parent / "published" / "wet_day_stations.csv"
# Months with fewer wet days than this say too little of one.
LEAST_DAYS = 0.5


@dataclass(frozen=True, slots=True)
class WetStation:
    """Rain and days with at least 1 mm of it of each month, and the grid's temperatures."""

    name: str
    latitude: float
    rain_mm: tuple[float, ...]
    wet_days: tuple[float, ...]
    mean_c: tuple[float, ...]

    @property
    def signals(self) -> tuple[tuple[float, ...], ...]:
        """What the rain of a wet day is estimated from, month by month."""
        return wet_day_signals(self.mean_c, self.rain_mm, self.latitude)


def with_a_millimetre(days: float, rain_mm: float) -> float:
    """How many of the days with any rain have 1 mm, by the distribution of Selker & Haith."""
    if days <= 0 or rain_mm <= 0:
        return 0.0
    return days * math.exp(-((math.gamma(1 + 1 / 0.75) * days / rain_mm) ** 0.75))


def stations() -> list[WetStation]:
    """The stations of the file."""
    lines = STATIONS.read_text(encoding="utf-8").splitlines()
    found = []
    for row in csv.DictReader(line for line in lines if not line.startswith("#")):
        rain, days = (
            [float(row[f"{what}_{month}"]) for month in range(1, 13)] for what in ("rain", "days")
        )
        if float(row["least"]) == 0:
            days = [with_a_millimetre(n, mm) for n, mm in zip(days, rain, strict=True)]
        north, east = float(row["latitude"]), float(row["longitude"])
        mean_c = months_at(load_grid(), north, east).mean_c
        found.append(WetStation(row["name"], north, tuple(rain), tuple(days), mean_c))
    return found


def fitted(of: Sequence[WetStation]) -> np.ndarray:
    """Coefficients by least squares on the logarithm of the rain of a wet day."""
    signals, found, weights = [], [], []
    for station in of:
        for month, days in enumerate(station.wet_days):
            if days >= LEAST_DAYS:
                signals.append(station.signals[month])
                found.append(math.log(station.rain_mm[month] / days))
                weights.append(days**0.25)
    weight = np.array(weights)
    return np.linalg.lstsq(
        np.array(signals) * weight[:, None], np.array(found) * weight, rcond=None
    )[0]


def months_of(station: WetStation, line: np.ndarray) -> list[float]:
    """Wet days of each month by a line of coefficients, at most nine of ten days."""
    days = [
        mm / math.exp(float(line @ np.array(signals)))
        for mm, signals in zip(station.rain_mm, station.signals, strict=True)
    ]
    return [min(n, 0.9 * length) for n, length in zip(days, MONTH_LENGTHS, strict=True)]


def left_out() -> dict[str, tuple[float, list[float]]]:
    """By station, how far its wet days are off where it took no part in the fit: those of a year as
    a share, those of each month in days."""
    every, found = stations(), {}
    for one in every:
        months = months_of(one, fitted([s for s in every if s is not one]))
        off = [made - known for made, known in zip(months, one.wet_days, strict=True)]
        found[one.name] = (sum(off) / sum(one.wet_days), off)
    return found


def root_mean_square(errors: Sequence[float]) -> float:
    """The size of errors that may lie on both sides."""
    return math.sqrt(sum(error * error for error in errors) / len(errors))


if __name__ == "__main__":
    print("coefficients", [round(float(value), 4) for value in fitted(stations())])
    errors = left_out()
    print(f"year, root mean square {root_mean_square([year for year, _ in errors.values()]):.3f}")
    print(f"month {root_mean_square([day for _, off in errors.values() for day in off]):.2f} days")
    for name, (error, _) in errors.items():
        print(f"  {name}: {error:+.0%}")
