"""Reads NCEI's U.S. Climate Normals 1991-2020 by station: monthly or daily, with the dates of frost
of the annual file.

Cells are quoted and padded; degrees F and inches. Numbers of -4444 and less are marks: -9999
missing, -8888 no such date, -7777 not zero but rounds to it, -6666 undefined (too few frosts),
-4444 frost at any time of the year.
"""

from collections.abc import Sequence
from datetime import date
from pathlib import Path

from turfplan.calendar_days import DAYS, MONTH_LENGTHS, PLAIN_YEAR, date_of, day_index
from turfplan.climate.from_normals import Normals
from turfplan.climate.record import Frost
from turfplan.files.reading.climate_files.cells import Lines, read_text, table
from turfplan.message import Message
from turfplan.phrases import climate as phrases
from turfplan.phrases import errors, weather
from turfplan.units import INCH_MM, convert

MARK = -4000.0
ROUNDS_TO_ZERO = -7777.0
TOO_FEW_FROSTS, ALWAYS_FROST = "-6666", "-4444"
TEMPERATURE_F = (-80.0, 130.0)
FREQUENT = "ANN-TMIN-PRBLST-T32FP50"
NumberedRow = tuple[int, dict[str, str]]


def is_annual(lines: Lines) -> bool:
    """True for the annual file, which holds the dates of frost."""
    return FREQUENT in lines.text.split("\n", 1)[0]


def read_normals(
    lines: Lines, folder: Path, error_days: int
) -> tuple[Normals, tuple[Message, ...], tuple[float, float]]:
    """Normals, where they come from with what the user must know of them, and the coordinates of
    the station.
    """
    monthly = "MLY-TAVG-NORMAL" in lines.text.split("\n", 1)[0]
    prefix = "MLY" if monthly else "DLY"
    columns = [f"{prefix}-{name}-NORMAL" for name in ("TAVG", "TMIN", "TMAX")]
    rows = _in_order(
        lines, table(lines, ["STATION", "LATITUDE", "LONGITUDE", "DATE", *columns]), monthly=monthly
    )
    line, head = rows[0]
    station = _station(lines, line, head)
    curves = [
        tuple(_temperature_c(lines, number, column, row) for number, row in rows)
        for column in columns
    ]
    rain, dry = _rain(lines, rows, monthly=monthly)
    height = (
        lines.number(line, "ELEVATION", head["ELEVATION"])
        if head.get("ELEVATION", "").strip()
        else None
    )
    known, last, first, frosts = _frost_beside(
        folder, lines.name, head["STATION"].strip(), error_days
    )
    normals = Normals(
        curves[0], rain, curves[1], curves[2], last, first, frost_known=known, elevation_m=height
    )
    name = head.get("NAME", head["STATION"]).strip()
    origin = phrases.file_ncei(station=name, file=lines.name)
    return normals, (origin, *dry, *frosts), station


def _station(lines: Lines, line: int, head: dict[str, str]) -> tuple[float, float]:
    """Latitude and longitude (degrees) of the station."""

    def degrees(name: str, most: float, what: Message) -> float:
        value = lines.number(line, name, head[name])
        return lines.within(line, name, value, (-most, most), what)

    return (
        degrees("LATITUDE", 90, weather.a_latitude()),
        degrees("LONGITUDE", 180, weather.a_longitude()),
    )


def _in_order(lines: Lines, rows: list[NumberedRow], *, monthly: bool) -> list[NumberedRow]:
    """The rows by date without 29 February; one for each month or day of one station, or an
    error.
    """
    stations = sorted({row["STATION"].strip() for _, row in rows})
    if len(stations) > 1:
        got = ", ".join(stations[:5])
        raise lines.fault(rows[0][0], "STATION", weather.several_stations(), got)
    by_date: dict[str, NumberedRow] = {}
    for number, row in rows:
        day = row["DATE"].strip()
        if day in by_date:
            raise lines.fault(number, "DATE", weather.twice(), repr(day))
        by_date[day] = (number, row)
    by_date.pop("02-29", None)
    if monthly:
        wanted = [f"{month:02}" for month in range(1, 13)]
    else:
        wanted = [f"{date_of(k, PLAIN_YEAR):%m-%d}" for k in range(DAYS)]
    strange = next((day for day in by_date if day not in wanted), None)
    missing = [day for day in wanted if day not in by_date]
    if strange is not None:
        allowed = errors.date_range(first=wanted[0], last=wanted[-1])
        line = by_date[strange][0]
        raise lines.fault(line, "DATE", weather.not_of_normals(), repr(strange), allowed)
    if missing:
        there = weather.rows(n=len(by_date))
        all_of_them = weather.rows_missing(n=len(wanted), first=missing[0])
        raise lines.fault(rows[-1][0], "DATE", weather.not_last_row(), there, all_of_them)
    return [by_date[day] for day in wanted]


def _temperature_c(lines: Lines, number: int, column: str, row: dict[str, str]) -> float:
    value = lines.number(number, column, row[column])
    if value <= MARK:
        raise lines.fault(number, column, weather.is_missing(), f"{value:g}")
    lines.within(number, column, value, TEMPERATURE_F, weather.a_fahrenheit())
    return convert(value, "F", "temperature")


def _rain(
    lines: Lines, rows: Sequence[NumberedRow], *, monthly: bool
) -> tuple[tuple[float, ...] | None, tuple[Message, ...]]:
    """Rain of each month, or of each day out of the month-to-date sums; None, and why, where the
    station has none.
    """
    column = "MLY-PRCP-NORMAL" if monthly else "MTD-PRCP-NORMAL"
    absent = (phrases.file_without_rain(file=lines.name),)
    if column not in rows[0][1]:
        return None, absent
    values = []
    for number, row in rows:
        value = lines.number(number, column, row[column])
        if value == ROUNDS_TO_ZERO:
            value = 0.0
        if value <= MARK:
            return None, absent
        values.append(
            lines.within(number, column, value, (0, 100), weather.a_rain_inches()) * INCH_MM
        )
    if monthly:
        return tuple(values), ()
    daily, day = [], 0
    for length in MONTH_LENGTHS:
        before = 0.0
        for _ in range(length):
            daily.append(max(0.0, values[day] - before))
            before = values[day]
            day += 1
    return tuple(daily), ()


def _frost_beside(
    folder: Path, name: str, station: str, error_days: int
) -> tuple[bool, Frost | None, Frost | None, tuple[Message, ...]]:
    """Whether dates of frost are known, and they, from the annual file of the same station beside
    the given one.
    """
    for path in sorted(folder.glob("*.csv")):
        if path.name == name or b"ANN-TMIN-PRBLST" not in _first_bytes(path):
            continue
        other = read_text(path)
        if not is_annual(other):
            continue
        for line, row in table(other, ["STATION", FREQUENT, "ANN-TMIN-PRBFST-T32FP50"]):
            if row["STATION"].strip() == station:
                last, first = (
                    _frost(other, line, row, word, error_days) for word in ("PRBLST", "PRBFST")
                )
                if last == ALWAYS_FROST or first == ALWAYS_FROST:
                    return False, None, None, (phrases.file_frost_always(file=path.name),)
                if last == "missing" or first == "missing":
                    return False, None, None, (phrases.file_frost_missing(file=path.name),)
                assert not isinstance(last, str) and not isinstance(first, str)
                return True, last, first, ()
    return False, None, None, (phrases.file_no_annual(station=station, file=name),)


def _first_bytes(path: Path) -> bytes:
    with path.open("rb") as file:
        return file.read(60_000)


def _frost(
    lines: Lines, line: int, row: dict[str, str], word: str, error_days: int
) -> Frost | str | None:
    """A frost, None where most years have none, or why there is no date.

    P10 is the late spring and the early autumn date.
    """

    def day(percent: int) -> int | str:
        column = f"ANN-TMIN-{word}-T32FP{percent}"
        text = row.get(column, "").strip()
        mark = text.split(".")[0]
        if mark in (TOO_FEW_FROSTS, ALWAYS_FROST):
            return mark
        if not text or mark in ("-9999", "-8888", "-5555"):
            return "missing"
        try:
            return day_index(date.fromisoformat(f"{PLAIN_YEAR}-{text.replace('/', '-')}"))
        except ValueError:
            raise lines.fault(
                line, column, weather.not_month_day(), repr(text), weather.such_a_month_day()
            ) from None

    middle, safe, other = day(50), day(10), day(90)
    if isinstance(middle, str):
        return None if middle == TOO_FEW_FROSTS else middle
    # Around New Year a date lies less than half a year from the median, and may leave 0 to 364.
    near = [
        middle + (v - middle + DAYS // 2) % DAYS - DAYS // 2
        for v in (safe, other)
        if not isinstance(v, str)
    ]
    if not near:
        return "missing"
    if len(near) == 1:
        near.append(2 * middle - near[0])
    return Frost(middle, min(near), max(near), error_days)
