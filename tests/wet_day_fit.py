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
from turfplan.climate.world_grid import months_at
from turfplan.files.reading.place import load_grid

STATIONS = Path(__file__).parent / "published" / "wet_day_stations.csv"
# Months with fewer wet days than this say too little of one.
LEAST_DAYS = 0.5


@dataclass(frozen=True, slots=True)
class WetStation:
    """Rain and days with at least 1 mm of it of each month, and the grid's temperatures."""

    name: str
    rain_mm: tuple[float, ...]
    wet_days: tuple[float, ...]
    mean_c: tuple[float, ...]

    @property
    def swing_c(self) -> float:
        """How far the warmest month lies above the coldest."""
        return max(self.mean_c) - min(self.mean_c)

    @property
    def warmth_c(self) -> float:
        """Mean temperature, each month by its rain."""
        pairs = zip(self.rain_mm, self.mean_c, strict=True)
        return sum(rain * mean for rain, mean in pairs) / sum(self.rain_mm)

    def signals(self, month: int) -> list[float]:
        """What the rain of a wet day is estimated from, in the order of the coefficients."""
        return [1.0, math.log(self.rain_mm[month] + 1), self.swing_c, self.warmth_c]


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
        months = months_at(load_grid(), float(row["latitude"]), float(row["longitude"]))
        found.append(WetStation(row["name"], tuple(rain), tuple(days), months.mean_c))
    return found


def fitted(of: Sequence[WetStation]) -> np.ndarray:
    """Coefficients by least squares on the logarithm of the rain of a wet day."""
    signals, found, weights = [], [], []
    for station in of:
        for month, days in enumerate(station.wet_days):
            if days >= LEAST_DAYS:
                signals.append(station.signals(month))
                found.append(math.log(station.rain_mm[month] / days))
                weights.append(days**0.25)
    weight = np.array(weights)
    return np.linalg.lstsq(
        np.array(signals) * weight[:, None], np.array(found) * weight, rcond=None
    )[0]


def year_of(station: WetStation, line: np.ndarray) -> float:
    """Wet days of a year by a line of coefficients."""
    return sum(
        min(station.rain_mm[m] / math.exp(float(line @ station.signals(m))), 0.9 * MONTH_LENGTHS[m])
        for m in range(12)
    )


def left_out() -> dict[str, float]:
    """By station, how far its wet days of a year are off where it took no part in the fit."""
    every = stations()
    return {
        one.name: year_of(one, fitted([s for s in every if s is not one])) / sum(one.wet_days) - 1
        for one in every
    }


if __name__ == "__main__":
    print("coefficients", [round(float(value), 4) for value in fitted(stations())])
    errors = left_out()
    print(f"root mean square {math.sqrt(sum(e * e for e in errors.values()) / len(errors)):.3f}")
    for name, error in errors.items():
        print(f"  {name}: {error:+.0%}")
