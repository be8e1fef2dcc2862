"""Reads EnergyPlus weather files: a typical year of hours after eight lines of head.

Dry bulb and dew point are in degrees C (99.9 missing), global horizontal radiation in Wh/m2 of the
hour (9999 missing), wind in m/s (999 missing), liquid precipitation in mm of the hour (999
missing), which many files leave empty.
"""

from dataclasses import dataclass
from datetime import date

from turfplan.calendar_days import DAYS
from turfplan.climate.daily_series import DailySeries
from turfplan.files.reading.climate_files.cells import (
    DEW,
    RAIN,
    SOLAR,
    TEMPERATURE_C,
    TMAX,
    TMEAN,
    TMIN,
    WIND,
    WIND_M_S,
    DayValues,
    Lines,
)
from turfplan.phrases import weather as phrases
from turfplan.units import convert

HEAD_LINES = 8
DRY_BULB, RAIN_DEPTH = 6, 33
MISSING_C, MISSING_MM = 99.9, 999.0
# What evapotranspiration takes besides: column, name, what marks a missing value, bounds, and what
# it is.
MORE = {
    DEW: (7, "dew point", 99.9, TEMPERATURE_C, phrases.a_celsius()),
    SOLAR: (13, "global horizontal radiation", 9999.0, (0.0, 1500.0), phrases.a_radiation()),
    WIND: (21, "wind speed", 999.0, WIND_M_S, phrases.a_wind()),
}
HOURS = 24
# The months of a typical year come from different years: they are laid into one without a 29
# February.
YEAR = 2001


@dataclass(frozen=True, slots=True)
class _Hours:
    """What the hours of a file say, by day: dry bulb (C), rain (mm), and what `MORE` takes."""

    dry_bulb: dict[date, list[float]]
    rain: dict[date, float]
    more: dict[int, dict[date, list[float]]]


def read_epw(lines: Lines) -> tuple[DailySeries, tuple[float, float]]:
    """The days of the typical year, and where it was made for.

    Raises TurfplanError, with line and column, for what is broken, in another unit or not whole.
    """
    rows = lines.text.splitlines()
    place, elevation_m = _head(lines, rows[0].split(","))
    hours = _Hours({}, {}, {slot: {} for slot in MORE})
    for number, row in enumerate(rows[HEAD_LINES:], HEAD_LINES + 1):
        _add_hour(lines, number, row.split(","), hours)
    if len(hours.dry_bulb) < DAYS:
        got, allowed = phrases.days(n=len(hours.dry_bulb)), phrases.days(n=DAYS)
        raise lines.fault(len(rows), None, phrases.year_not_whole(), got, allowed)
    return _by_day(lines, hours).series(place[0], elevation_m), place


def _head(lines: Lines, head: list[str]) -> tuple[tuple[float, float], float | None]:
    """Latitude and longitude (degrees) and elevation (m) in the first line of a file."""
    if len(head) < 10:
        got, allowed = phrases.cells(n=len(head)), phrases.cells(n=10)
        raise lines.fault(1, None, phrases.cut_off(), got, allowed)
    latitude, longitude = (
        lines.number(1, name, head[k]) for name, k in (("latitude", 6), ("longitude", 7))
    )
    lines.within(1, "latitude", latitude, (-90, 90), phrases.a_latitude())
    lines.within(1, "longitude", longitude, (-180, 180), phrases.a_longitude())
    elevation_m = lines.number(1, "elevation", head[9]) if head[9].strip() else None
    return (latitude, longitude), elevation_m


def _add_hour(lines: Lines, number: int, cells: list[str], hours: _Hours) -> None:
    """Lays one line of a file beside the others of its day."""
    if len(cells) <= DRY_BULB:
        got, allowed = phrases.cells(n=len(cells)), phrases.or_more(least=DRY_BULB + 1)
        raise lines.fault(number, None, phrases.cut_off(), got, allowed)
    day = _day(lines, number, cells)
    if day is None:
        return
    found = hours.dry_bulb.setdefault(day, [])
    value = lines.number(number, "dry bulb", cells[DRY_BULB])
    if value != MISSING_C:
        what = phrases.a_celsius()
        found.append(lines.within(number, "dry bulb", value, TEMPERATURE_C, what))
    if len(cells) > RAIN_DEPTH and cells[RAIN_DEPTH].strip():
        fallen = lines.number(number, "liquid precipitation depth", cells[RAIN_DEPTH])
        if fallen < MISSING_MM:
            hours.rain[day] = hours.rain.get(day, 0.0) + max(0.0, fallen)
    for slot in MORE:
        hours.more[slot].setdefault(day, []).extend(_more(lines, number, cells, slot))


def _by_day(lines: Lines, hours: _Hours) -> DayValues:
    """The values of each day; of one that lacks more than two hours only the rain."""
    # A year without a drop is a file without rain, not a desert.
    wet = sum(hours.rain.values()) > 0
    days = DayValues(lines)
    for day, values in hours.dry_bulb.items():
        if len(values) >= HOURS - 2:
            mean = sum(values) / len(values)
            for slot, value in ((TMIN, min(values)), (TMAX, max(values)), (TMEAN, mean)):
                days.put(0, "dry bulb", day, slot, value)
        days.put(0, "rain", day, RAIN, hours.rain.get(day) if wet else None)
    if any(any(values) for values in hours.more[SOLAR].values()):
        _put_more(days, hours.more)
    return days


def _more(lines: Lines, number: int, cells: list[str], slot: int) -> tuple[float, ...]:
    """What a cell says, or nothing."""
    column, name, missing, bounds, what = MORE[slot]
    if len(cells) <= column or not cells[column].strip():
        return ()
    value = lines.number(number, name, cells[column])
    return () if value >= missing else (lines.within(number, name, value, bounds, what),)


def _put_more(days: DayValues, more: dict[int, dict[date, list[float]]]) -> None:
    """The daily values of what evapotranspiration takes.

    A year without sunshine is a file without radiation.
    """
    for slot, by_day in more.items():
        for day, values in by_day.items():
            mean = sum(values) / len(values) if len(values) >= HOURS - 2 else None
            # A mean of Wh/m2 in an hour is in W/m2.
            value = (
                convert(mean, "W/m2", "radiation") if slot == SOLAR and mean is not None else mean
            )
            days.put(0, MORE[slot][1], day, slot, value)


def _day(lines: Lines, number: int, cells: list[str]) -> date | None:
    month, day = (
        int(lines.number(number, name, cells[k])) for name, k in (("month", 1), ("day", 2))
    )
    if (month, day) == (2, 29):
        return None
    try:
        return date(YEAR, month, day)
    except ValueError:
        raise lines.fault(number, "day", phrases.not_date(), f"{month}-{day}") from None
