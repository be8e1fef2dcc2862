"""Reads EnergyPlus weather files: a typical year of hours after eight lines of head.

Dry bulb is in degrees C (99.9 missing), liquid precipitation in mm of the hour (999 missing), which many files leave empty.
"""

from datetime import date

from turfplan.climate.series import DailySeries
from turfplan.readers.climate_files.cells import RAIN, TEMPERATURE_C, TMAX, TMEAN, TMIN, Days, Lines

HEAD_LINES = 8
DRY_BULB, RAIN_DEPTH = 6, 33
MISSING_C, MISSING_MM = 99.9, 999.0
HOURS = 24
# The months of a typical year come from different years: they are laid into one without a 29 February.
YEAR = 2001


def read_epw(lines: Lines) -> tuple[DailySeries, tuple[float, float]]:
    """The days of the typical year, and where it was made for."""
    rows = lines.text.splitlines()
    head = rows[0].split(",")
    if len(head) < 10:
        raise lines.fault(1, None, "is cut off", f"{len(head)} cells", "10 cells")
    latitude, longitude = (lines.number(1, name, head[k]) for name, k in (("latitude", 6), ("longitude", 7)))
    lines.within(1, "latitude", latitude, (-90, 90), "a latitude")
    lines.within(1, "longitude", longitude, (-180, 180), "a longitude")
    hours: dict[date, list[float]] = {}
    rain: dict[date, float] = {}
    for number, row in enumerate(rows[HEAD_LINES:], HEAD_LINES + 1):
        cells = row.split(",")
        if len(cells) <= DRY_BULB:
            raise lines.fault(number, None, "is cut off", f"{len(cells)} cells", f"{DRY_BULB + 1} or more")
        day = _day(lines, number, cells)
        if day is None:
            continue
        found = hours.setdefault(day, [])
        value = lines.number(number, "dry bulb", cells[DRY_BULB])
        if value != MISSING_C:
            found.append(lines.within(number, "dry bulb", value, TEMPERATURE_C, "a temperature in degrees C"))
        if len(cells) > RAIN_DEPTH and cells[RAIN_DEPTH].strip():
            fallen = lines.number(number, "liquid precipitation depth", cells[RAIN_DEPTH])
            if fallen < MISSING_MM:
                rain[day] = rain.get(day, 0.0) + max(0.0, fallen)
    if len(hours) < 365:
        raise lines.fault(len(rows), None, "is the last line: the year is not whole", f"{len(hours)} days", "365 days")
    # A year without a drop is a file without rain, not a desert.
    wet = sum(rain.values()) > 0
    days = Days(lines)
    for day, values in hours.items():
        whole = len(values) >= HOURS - 2
        for slot, value in (
            ((TMIN, min(values)), (TMAX, max(values)), (TMEAN, sum(values) / len(values))) if whole else ()
        ):
            days.put(0, "dry bulb", day, slot, value)
        days.put(0, "rain", day, RAIN, rain.get(day) if wet else None)
    return days.series(), (latitude, longitude)


def _day(lines: Lines, number: int, cells: list[str]) -> date | None:
    month, day = (int(lines.number(number, name, cells[k])) for name, k in (("month", 1), ("day", 2)))
    if (month, day) == (2, 29):
        return None
    try:
        return date(YEAR, month, day)
    except ValueError:
        raise lines.fault(number, "day", "is not a date", f"{month}-{day}") from None
