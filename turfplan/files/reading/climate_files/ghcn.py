"""Reads station records of GHCN-Daily: .dly, CSV of a station, of elements, of a daily summary.

Values that failed a quality check (a quality flag is set) are left out. Records in tenths of a
degree C and of a mm are the station files of the archive; daily summaries are ordered in degrees F
and inches or in degrees C and mm, which is told from the values of a year.
"""

import re
from collections.abc import Iterator, Sequence
from datetime import date

from turfplan.climate.daily_series import DailySeries
from turfplan.files.reading.climate_files.cells import (
    RAIN,
    RAIN_MM,
    TEMPERATURE_C,
    TMAX,
    TMEAN,
    TMIN,
    DayValues,
    Lines,
    plain_rows,
    table,
)
from turfplan.phrases import weather as phrases
from turfplan.units import INCH_MM, convert

SLOTS = {"TMIN": TMIN, "TMAX": TMAX, "TAVG": TMEAN, "PRCP": RAIN}
MISSING = (-9999.0, 9999.0)
WIDE, ELEMENTS, DLY_LINE = (
    269,
    re.compile(r"[A-Z0-9_-]{11},\d{8},[A-Z0-9]{4},"),
    re.compile(r".{11}\d{6}[A-Z]{4}"),
)
# Above this no place of the world is in degrees C, and every place has a day above it in degrees F
# within a year.
_HOTTEST_C = 57.0
_YEAR_DAYS = 300


def read_dly(lines: Lines) -> tuple[DailySeries, None]:
    """Fixed width: station, year, month, element, then 31 times value and three flags.

    The flags are of measurement, quality and source. Raises TurfplanError, with line and column.
    """
    days = DayValues(lines)
    stations: dict[str, int] = {}
    for number, line in enumerate(lines.text.splitlines(), 1):
        if len(line.rstrip()) < WIDE - 8 * 31 + 5 or (
            len(line) < WIDE and len(line.rstrip("\r\n")) < WIDE - 3
        ):
            got = phrases.characters(n=len(line))
            raise lines.fault(number, None, phrases.cut_off(), got, str(WIDE))
        stations.setdefault(line[:11], number)
        slot = SLOTS.get(line[17:21])
        if slot is None:
            continue
        year, month = (
            int(lines.number(number, "year", line[11:15])),
            int(lines.number(number, "month", line[15:17])),
        )
        for day in range(1, 32):
            cell = line[13 + day * 8 : 21 + day * 8].ljust(8)
            value = lines.number(number, f"day {day}", cell[:5])
            if value in MISSING:
                continue
            try:
                when = date(year, month, day)
            except ValueError:
                raise lines.fault(
                    number, f"day {day}", phrases.not_date(), f"{year}-{month}-{day}"
                ) from None
            kept = None if cell[6].strip() else _tenths(lines, number, f"day {day}", value, slot)
            days.put(number, f"day {day}", when, slot, kept)
    _one_station(lines, stations)
    return days.series(), None


def read_elements(lines: Lines) -> tuple[DailySeries, None]:
    """Rows of station, date, element, value, measurement, quality and source flag, time.

    Raises TurfplanError, with line and column.
    """
    days = DayValues(lines)
    stations: dict[str, int] = {}
    for number, row in plain_rows(lines):
        if number == 1 and row[0].upper() in ("ID", "STATION"):
            continue
        if len(row) < 7:
            got = phrases.cells(n=len(row))
            raise lines.fault(number, None, phrases.cut_off(), got, phrases.seven_or_eight())
        stations.setdefault(row[0], number)
        slot = SLOTS.get(row[2].strip())
        if slot is None:
            continue
        value = lines.number(number, "value", row[3])
        flagged = bool(row[5].strip()) or value in MISSING
        kept = None if flagged else _tenths(lines, number, "value", value, slot)
        days.put(number, row[2], lines.day(number, "date", row[1]), slot, kept)
    _one_station(lines, stations)
    return days.series(), None


def read_wide(lines: Lines) -> tuple[DailySeries, tuple[float, float] | None]:
    """Rows of a day with a column for each element; `X_ATTRIBUTES` holds its flags.

    The second flag is that of quality. Raises TurfplanError, with line and column.
    """
    rows = table(lines, ["STATION", "DATE"])
    columns = [name for name in SLOTS if name in rows[0][1]]
    if not columns or ("TMIN" not in columns and "TAVG" not in columns and "PRCP" not in columns):
        raise lines.fault(1, None, phrases.lacks_column(), None, phrases.tmin_or_prcp())
    values = [value for number, row in rows for value in _of_row(lines, number, row, columns)]
    stations: dict[str, int] = {}
    for number, row in rows:
        stations.setdefault(row["STATION"].strip(), number)
    _one_station(lines, stations)
    in_tenths = list(rows[0][1])[1].upper() == "DATE"
    unit = "tenths" if in_tenths else _summary_unit(lines, values)
    days = DayValues(lines)
    for number, name, day, value in values:
        slot = SLOTS[name]
        if value is not None:
            value = (
                _tenths(lines, number, name, value, slot)
                if unit == "tenths"
                else _plain(lines, number, name, value, unit)
            )
        days.put(number, name, day, slot, value)
    return days.series(), _coordinates(lines, *rows[0])


def _of_row(
    lines: Lines, number: int, row: dict[str, str], columns: Sequence[str]
) -> Iterator[tuple[int, str, date, float | None]]:
    """The values of a day with their line and column; None for one that is missing or flagged."""
    day = lines.day(number, "DATE", row["DATE"])
    for name in columns:
        flags = (row.get(f"{name}_ATTRIBUTES") or "").split(",")
        text = row[name].strip()
        flagged = len(flags) > 1 and bool(flags[1].strip())
        value = None if not text or flagged else lines.number(number, name, text)
        yield number, name, day, None if value in MISSING else value


def _coordinates(lines: Lines, number: int, row: dict[str, str]) -> tuple[float, float] | None:
    if not row.get("LATITUDE", "").strip() or not row.get("LONGITUDE", "").strip():
        return None
    latitude, longitude = (
        lines.number(number, name, row[name]) for name in ("LATITUDE", "LONGITUDE")
    )
    return (
        lines.within(number, "LATITUDE", latitude, (-90, 90), phrases.a_latitude()),
        lines.within(number, "LONGITUDE", longitude, (-180, 180), phrases.a_longitude()),
    )


def _one_station(lines: Lines, stations: dict[str, int]) -> None:
    if len(stations) > 1:
        names = list(stations)
        raise lines.fault(
            stations[names[1]],
            "station",
            phrases.several_stations(),
            ", ".join(names[:5]),
            phrases.one_station(),
        )


def _tenths(lines: Lines, number: int, column: str, value: float, slot: int) -> float:
    bounds = RAIN_MM if slot == RAIN else TEMPERATURE_C
    return lines.within(number, column, value / 10, bounds, phrases.a_tenths())


def _summary_unit(lines: Lines, values: list[tuple[int, str, date, float | None]]) -> str:
    """`us` or `metric`, from the hottest day of a year or more.

    An error where the days are too few to tell.
    """
    highs = [
        (value, number, name)
        for number, name, _, value in values
        if value is not None and name in ("TMAX", "TAVG")
    ]
    if not highs:
        raise lines.fault(1, None, phrases.lacks_column(), None, phrases.tmax_or_tavg())
    hottest, number, name = max(highs)
    if hottest > _HOTTEST_C:
        lines.within(number, name, hottest, (-130, 140), phrases.a_fahrenheit())
        return "us"
    days = {day for _, _, day, _ in values}
    if len(days) < _YEAR_DAYS:
        raise lines.fault(
            number,
            name,
            phrases.unit_untold(),
            phrases.days(n=len(days)),
            phrases.days_or_more(days=_YEAR_DAYS),
            phrases.archive_file(),
        )
    return "metric"


def _plain(lines: Lines, number: int, column: str, value: float, unit: str) -> float:
    if column == "PRCP":
        mm = value * INCH_MM if unit == "us" else value
        what = phrases.a_rain_inches() if unit == "us" else phrases.a_rain_mm()
        return lines.within(number, column, mm, RAIN_MM, what)
    celsius = convert(value, "F", "temperature") if unit == "us" else value
    what = phrases.a_fahrenheit() if unit == "us" else phrases.a_celsius()
    return lines.within(number, column, celsius, TEMPERATURE_C, what)
