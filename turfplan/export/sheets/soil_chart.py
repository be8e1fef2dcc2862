"""Lays out soil temperature through the season with the days on which work is open, for the
templates to draw.

Coordinates are those of the SVG viewBox: x to the right, y downward.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil, floor

from turfplan.calendar_days import DAYS, MID_MONTHS
from turfplan.export.sheets.look import shown, today_of
from turfplan.export.sheets.names import operation_name
from turfplan.export.sheets.season_charts import (
    Axis,
    MonthMark,
    Tick,
    months_of,
    season_axis,
    width_of,
)
from turfplan.message import Message, Month, Number
from turfplan.messages import Words
from turfplan.phrases import charts as phrases
from turfplan.records.plan import OperationWindow, Plan
from turfplan.units import System, from_inside

SOIL_TOP, SOIL_BOTTOM, BAND_GAP = 38.0, 188.0, 16.0
# A best day in the very middle of its window is none: nothing but the ends says where it lies.
MIDDLE_DAYS = 1


@dataclass(frozen=True, slots=True)
class WindowBand:
    """One kind of work's open days below the curve, with its best day."""

    name: str
    y: float
    bars: tuple[tuple[float, float], ...]
    best: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class SoilChart:
    """Soil temperature through the season, how far off it may be, the air above it, and the windows
    of work.

    These stand `apart` in large print, in a drawing that may go to the next page.
    """

    uid: str
    title: str
    depth: str
    words: str
    width: float
    height: float
    axis: Axis
    months: tuple[MonthMark, ...]
    ticks: tuple[Tick, ...]
    unit: str
    soil: str
    band: str
    air: str
    plot_top: float
    plot_bottom: float
    frosts: tuple[tuple[float, str], ...]
    bands: tuple[WindowBand, ...]
    months_named: tuple[str, ...]
    table: tuple[tuple[str, ...], ...]
    error: str
    apart: bool


def soil_chart(
    plan: Plan, words: Words, uid: str = "soil", *, large: bool = False
) -> SoilChart | None:
    """Soil temperature with its error band, air temperature and windows; None without a curve."""
    climate = plan.climate
    if not climate.soil_10cm_c:
        return None
    width = width_of(large=large)
    axis = season_axis(shown(plan.tasks), today_of(plan), DAYS, width)
    days = [axis.first + timedelta(days=n) for n in range(0, (axis.last - axis.first).days + 1, 5)]
    soil = [_at(climate.day_of_year, climate.soil_10cm_c, day) for day in days]
    air = climate.air_mean_c and [_at(climate.day_of_year, climate.air_mean_c, d) for d in days]
    error = climate.soil_error_c
    scale = _scale([*soil, *air], error, "F" if words.system is System.US else "C")
    bands = _window_bands(plan, axis, SOIL_BOTTOM + 12, words)
    reach = scale.difference(error, words)
    warmest = max(range(len(days)), key=lambda n: soil[n])
    return SoilChart(
        uid=uid,
        title=words.text(_finding(days[warmest], soil, scale, words)),
        depth=words.text(phrases.soil_depth()),
        words=words.text(_in_words(soil, reach, scale, words)),
        width=width,
        height=SOIL_BOTTOM + 12 + len(bands) * BAND_GAP + 6,
        axis=axis,
        months=months_of(axis, words),
        ticks=scale.ticks(words),
        unit=f"°{scale.unit}",
        soil=scale.line(axis, days, soil),
        band=scale.band(axis, days, soil, error),
        air=scale.line(axis, days, air) if air else "",
        plot_top=SOIL_TOP,
        plot_bottom=SOIL_BOTTOM,
        frosts=_frost_marks(plan, axis, words),
        bands=bands,
        months_named=tuple(words.value(Month(n, short=True)) for n in range(1, 13)),
        table=_year_table(plan, scale.unit, words),
        error=reach,
        apart=large,
    )


def _finding(
    warmest: date, soil_c: Sequence[float], scale: "_TemperatureAxis", words: Words
) -> Message:
    """When the soil is warmest, and how cold it gets: what the days of work hang on."""
    return phrases.soil_finding(
        month=Month(warmest.month),
        high=scale.temperature(max(soil_c), words),
        low=scale.temperature(min(soil_c), words),
    )


def _in_words(
    soil_c: Sequence[float], reach: str, scale: "_TemperatureAxis", words: Words
) -> Message:
    """The chart in a sentence, for those who do not see it."""
    return phrases.soil_in_words(
        depth=phrases.soil_depth(),
        low=scale.temperature(min(soil_c), words),
        high=scale.temperature(max(soil_c), words),
        reach=reach,
    )


def _frost_marks(plan: Plan, axis: Axis, words: Words) -> tuple[tuple[float, str], ...]:
    """Where the median frosts lie on the axis; the plan writes them as month and day."""
    marks = []
    for frost, text in (
        (phrases.last_frost(), plan.climate.last_frost),
        (phrases.first_frost(), plan.climate.first_frost),
    ):
        if text is None:
            continue
        month, day = (int(part) for part in text.split("-"))
        for year in range(axis.first.year, axis.last.year + 1):
            # A frost on 29 February is drawn on the day before in other years.
            on = date(year, month, min(day, 28) if month == 2 else day)
            if axis.first <= on <= axis.last:
                marks.append((axis.x(on), words.text(frost)))
    return tuple(sorted(marks))


def _at(days: Sequence[int], values: Sequence[float], day: date) -> float:
    """The curve on a day of any year, straight between its points, around the turn of the year."""
    # Not `day_index`: after a leap day the curve runs a day ahead, about the width of its line.
    n = min(day.timetuple().tm_yday, DAYS) - 1
    after = next((i for i, d in enumerate(days) if d > n), 0)
    before = after - 1
    gap = (days[after] - days[before]) % DAYS or 1
    share = ((n - days[before]) % DAYS) / gap
    return values[before] + (values[after] - values[before]) * share


@dataclass(frozen=True, slots=True)
class _TemperatureAxis:
    """A temperature axis with round ends, in the unit of the reader."""

    low: float
    high: float
    step: float
    unit: str

    def place(self, value: float) -> float:
        """The y of a temperature in the axis's own unit."""
        return round(
            SOIL_BOTTOM - (value - self.low) / (self.high - self.low) * (SOIL_BOTTOM - SOIL_TOP), 1
        )

    def y(self, celsius: float) -> float:
        """The y of a temperature."""
        return self.place(from_inside(celsius, self.unit, "temperature"))

    def line(self, axis: Axis, days: Sequence[date], celsius: Sequence[float]) -> str:
        """The points of a curve, one for each of the days."""
        return " ".join(
            f"{axis.x(day):g},{self.y(value):g}" for day, value in zip(days, celsius, strict=True)
        )

    def band(
        self, axis: Axis, days: Sequence[date], celsius: Sequence[float], reach_c: float
    ) -> str:
        """The corners of a band about a curve: along its upper edge, back along its lower one."""
        upper = self.line(axis, days, [value + reach_c for value in celsius])
        lower = self.line(axis, days, [value - reach_c for value in celsius])
        return " ".join((upper, *reversed(lower.split())))

    def temperature(self, celsius: float, words: Words) -> str:
        """A temperature in whole degrees."""
        degrees = from_inside(celsius, self.unit, "temperature")
        return f"{words.value(Number(degrees))} °{self.unit}"

    def difference(self, celsius: float, words: Words) -> str:
        """A difference of temperatures to the tenth of a degree: as exact as it is drawn."""
        degrees = from_inside(celsius, f"deg{self.unit}", "temperature_difference")
        return f"{words.value(Number(degrees, 'tenth'))} °{self.unit}"

    def ticks(self, words: Words) -> tuple[Tick, ...]:
        """A mark at each step, from the lowest up."""
        values = (
            self.low + n * self.step for n in range(round((self.high - self.low) / self.step) + 1)
        )
        return tuple(
            Tick(self.place(value), words.value(Number(value, "plain"))) for value in values
        )


def _scale(curve_c: Sequence[float], error_c: float, unit: str) -> _TemperatureAxis:
    """The axis that holds a curve and its error band."""
    ends = (min(curve_c) - error_c, max(curve_c) + error_c)
    low, high = (from_inside(value, unit, "temperature") for value in ends)
    step = 10.0 if unit == "F" else 5.0
    return _TemperatureAxis(floor(low / step) * step, ceil(high / step) * step, step, unit)


def _window_bands(plan: Plan, axis: Axis, top: float, words: Words) -> tuple[WindowBand, ...]:
    """The windows of the operations that the plan uses, in the order of its tasks."""
    used = list(dict.fromkeys(task.operation for task in shown(plan.tasks)))
    bands: list[WindowBand] = []
    for operation in used:
        windows = [
            w
            for w in plan.windows
            if w.operation == operation and w.start <= axis.last and w.end >= axis.first
        ]
        if not windows:
            continue
        bands.append(
            WindowBand(
                name=operation_name(plan, operation, words),
                y=top + len(bands) * BAND_GAP,
                bars=tuple(
                    axis.bar(max(w.start, axis.first), min(w.end, axis.last)) for w in windows
                ),
                best=tuple(axis.x(w.best) for w in windows if _has_best(w, axis)),
            )
        )
    return tuple(bands)


def _has_best(window: OperationWindow, axis: Axis) -> bool:
    """Whether a window has a best day of its own, and it lies on the axis."""
    middle = window.start + (window.end - window.start) / 2
    own = abs((window.best - middle).days) > MIDDLE_DAYS
    return own and axis.first <= window.best <= axis.last


def _year_table(plan: Plan, unit: str, words: Words) -> tuple[tuple[str, ...], ...]:
    """Soil and air in the middle of each month of a usual year, for the table below the chart."""
    curves = (
        (phrases.soil(), plan.climate.soil_10cm_c),
        (phrases.air(), plan.climate.air_mean_c),
    )
    days = plan.climate.day_of_year
    return tuple(
        (
            words.text(name),
            *(
                words.value(Number(from_inside(_at(days, curve, middle), unit, "temperature")))
                for middle in MID_MONTHS
            ),
        )
        for name, curve in curves
        if curve
    )
