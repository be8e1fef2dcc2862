"""Reads climate files that people have: NCEI normals, GHCN-Daily, EPW, saved Open-Meteo answers; the format is detected."""

import csv
import io
import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path

from turfplan.climate.building import Normals
from turfplan.climate.curves import LENGTHS
from turfplan.climate.record import DAYS, Frost, day_index
from turfplan.climate.series import DailySeries
from turfplan.errors import Problem, TurfplanError
from turfplan.units import INCH_MM, convert

# NCEI marks what is missing, too little to print, or not computed with such numbers (1991-2020 documentation).
SPECIAL_BELOW = -999.0
FARTHEST_DEGREES = 1.5
LEAST_YEARS = 10
SMOOTHED_DAYS = 15
FILE_ERROR_C = 0.7


@dataclass(frozen=True, slots=True)
class ClimateFile:
    """What a climate file holds: normals, its words, the error of a daily mean, the daily series, and what was left out."""

    normals: Normals
    source: str
    air_error_c: float
    series: DailySeries | None
    warnings: tuple[str, ...]


def read_climate_file(path: Path, latitude: float, longitude: float) -> ClimateFile:
    """The climate in a file. A daily series of ten or more years gives normals too; fewer are refused.

    Raises TurfplanError with line and column for what is broken, in another unit, or of another place.
    """
    text = _text(path)
    kind = _kind(path, text)
    if kind in ("ncei-monthly", "ncei-daily"):
        return _ncei(path, text, kind, (latitude, longitude))
    series, words = _SERIES[kind](path, text, (latitude, longitude))
    return ClimateFile(_normals_of(path, series), f"{words} ({path.name})", FILE_ERROR_C, series, _gaps(path, series))


def read_series(path: Path, latitude: float, longitude: float) -> DailySeries:
    """The daily series in a file, however short."""
    text = _text(path)
    kind = _kind(path, text)
    if kind not in _SERIES:
        raise TurfplanError(Problem(path.name, "holds normals, not days of weather"))
    return _SERIES[kind](path, text, (latitude, longitude))[0]


def _text(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        raise TurfplanError(Problem(str(path), "no such file")) from None
    except (OSError, UnicodeDecodeError) as error:
        raise TurfplanError(Problem(str(path), f"cannot be read ({error})")) from None


def _kind(path: Path, text: str) -> str:
    """The format, by what the file says of itself."""
    head = text.lstrip()[:20_000]
    first = head.split("\n", 1)[0]
    if head.startswith("{"):
        return "open-meteo"
    if first.upper().startswith("LOCATION,"):
        return "epw"
    if "MLY-TAVG-NORMAL" in first:
        return "ncei-monthly"
    if "DLY-TAVG-NORMAL" in first:
        return "ncei-daily"
    if "ANN-TMIN-PRBLST" in first:
        raise TurfplanError(
            Problem(
                path.name,
                "holds frost dates alone",
                None,
                None,
                "give the monthly or daily normals; the annual file is read beside them",
            )
        )
    if len(first) >= 269 - 8 and first[17:21] in ("TMAX", "TMIN", "PRCP", "SNOW", "SNWD", "TAVG"):
        return "dly"
    if "STATION" in first and "DATE" in first and ("TMAX" in first or "ELEMENT" in first):
        return "ghcn"
    raise TurfplanError(
        Problem(
            path.name,
            "is not a climate file that is known",
            first[:60],
            "NCEI normals CSV, GHCN-Daily CSV or .dly, EPW, Open-Meteo JSON",
        )
    )


def _near(path: Path, line: int, place: tuple[float, float], latitude: float, longitude: float) -> None:
    if abs(place[0] - latitude) > FARTHEST_DEGREES or abs(place[1] - longitude) > FARTHEST_DEGREES:
        raise TurfplanError(
            Problem(
                f"{path.name}: line {line}", "is of another place", f"{latitude:.2f}, {longitude:.2f}",
                f"within {FARTHEST_DEGREES} degrees of {place[0]:.2f}, {place[1]:.2f}",
            )
        )  # fmt: skip


def _number(path: Path, line: int, column: str, text: str | None) -> float:
    try:
        return float((text or "").strip())
    except ValueError:
        raise TurfplanError(
            Problem(f"{path.name}: line {line}, column {column}", "is not a number", repr(text))
        ) from None


def _rows(path: Path, text: str, needed: Sequence[str]) -> list[tuple[int, dict[str, str]]]:
    reader = csv.DictReader(io.StringIO(text))
    missing = [name for name in needed if name not in (reader.fieldnames or [])]
    if missing:
        raise TurfplanError(Problem(f"{path.name}: line 1", "lacks a column", ", ".join(missing)))
    rows = []
    for row in reader:
        if None in row.values() or None in row:
            raise TurfplanError(
                Problem(
                    f"{path.name}: line {reader.line_num}",
                    "is cut off or too long",
                    None,
                    f"{len(reader.fieldnames or [])} cells",
                )
            )
        rows.append((reader.line_num, row))
    return rows


def _ncei(path: Path, text: str, kind: str, place: tuple[float, float]) -> ClimateFile:
    """NCEI 1991-2020 by-station normals: degrees F and inches, quoted and padded."""
    prefix = "MLY" if kind == "ncei-monthly" else "DLY"
    rain = "MLY-PRCP-NORMAL" if kind == "ncei-monthly" else "MTD-PRCP-NORMAL"
    columns = [f"{prefix}-{name}-NORMAL" for name in ("TAVG", "TMIN", "TMAX")]
    rows = _rows(path, text, ["STATION", "LATITUDE", "LONGITUDE", "DATE", *columns])
    wanted = 12 if kind == "ncei-monthly" else (DAYS, DAYS + 1)
    if len(rows) != wanted and (isinstance(wanted, int) or len(rows) not in wanted):
        raise TurfplanError(Problem(path.name, "is not whole", f"{len(rows)} rows", str(wanted)))
    line, head = rows[0]
    _near(
        path,
        line,
        place,
        _number(path, line, "LATITUDE", head["LATITUDE"]),
        _number(path, line, "LONGITUDE", head["LONGITUDE"]),
    )
    if kind == "ncei-daily":
        rows = [(n, row) for n, row in rows if row["DATE"].strip() != "02-29"]
    curves: list[tuple[float, ...]] = []
    for column in columns:
        values = []
        for number, row in rows:
            value = _number(path, number, column, row[column])
            if value <= SPECIAL_BELOW or not -80 <= value <= 130:
                raise TurfplanError(
                    Problem(
                        f"{path.name}: line {number}, column {column}",
                        "is not a temperature in degrees F",
                        f"{value:g}",
                    )
                )
            values.append(convert(value, "F", "temperature"))
        curves.append(tuple(values))
    rain_mm, warnings = _ncei_rain(path, rows, kind, rain)
    last, first, frost_warning = _ncei_frost(path, head["STATION"].strip())
    normals = Normals(curves[0], rain_mm, curves[1], curves[2], last, first, frost_known=last is not None)
    words = f"NOAA NCEI normals 1991-2020, {head.get('NAME', head['STATION']).strip()} ({path.name})"
    return ClimateFile(normals, words, FILE_ERROR_C, None, (*warnings, *frost_warning))


def _ncei_rain(
    path: Path, rows: Sequence[tuple[int, dict[str, str]]], kind: str, column: str
) -> tuple[tuple[float, ...], tuple[str, ...]]:
    """Rain of each month, or of each day out of the month-to-date sums; inches."""
    if column not in rows[0][1]:
        raise TurfplanError(Problem(f"{path.name}: line 1", "lacks a column", column))
    values = []
    for number, row in rows:
        value = _number(path, number, column, row[column])
        if value <= SPECIAL_BELOW:
            raise TurfplanError(Problem(f"{path.name}: line {number}, column {column}", "is missing", f"{value:g}"))
        values.append(value * INCH_MM)
    if kind == "ncei-monthly":
        return tuple(values), ()
    daily, before, day = [], 0.0, 0
    for length in LENGTHS:
        before = 0.0
        for _ in range(length):
            daily.append(max(0.0, values[day] - before))
            before = values[day]
            day += 1
    return tuple(daily), ()


def _ncei_frost(path: Path, station: str) -> tuple[Frost | None, Frost | None, tuple[str, ...]]:
    """Frost dates of the same station from an annual file beside the given one; the estimate stands in where there is none."""
    for other in sorted(path.parent.glob("*.csv")):
        if other == path:
            continue
        text = _text(other)
        if "ANN-TMIN-PRBLST-T32FP50" not in text.split("\n", 1)[0]:
            continue
        for line, row in _rows(other, text, ["STATION", "ANN-TMIN-PRBLST-T32FP50", "ANN-TMIN-PRBFST-T32FP50"]):
            if row["STATION"].strip() == station:
                return _frost(other, line, row, "PRBLST"), _frost(other, line, row, "PRBFST"), ()
    return None, None, (f"no annual file of station {station} lies beside {path.name}: frost dates are estimated",)


def _frost(path: Path, line: int, row: dict[str, str], word: str) -> Frost | None:
    def day(percent: str) -> int:
        column = f"ANN-TMIN-{word}-T32FP{percent}"
        text = row.get(column, "").strip()
        try:
            return day_index(date.fromisoformat(f"2027-{text}"))
        except ValueError:
            raise TurfplanError(
                Problem(f"{path.name}: line {line}, column {column}", "is not a month-day", repr(text))
            ) from None

    middle = day("50")
    safe = day("10")
    other = 2 * middle - safe
    return Frost(middle, min(safe, other), max(safe, other), f"NOAA NCEI frost dates 1991-2020 ({path.name})", 7)


def _series_from(path: Path, days: dict[date, list[float | None]]) -> DailySeries:
    """A series without holes in its dates, from minimum, maximum, mean and rain by day."""
    if not days:
        raise TurfplanError(Problem(path.name, "holds no days"))
    first, last = min(days), max(days)
    dates = tuple(first + timedelta(days=k) for k in range((last - first).days + 1))
    empty: list[float | None] = [None, None, None, None]
    columns = list(zip(*(days.get(day, empty) for day in dates), strict=True))
    means = tuple(
        mean if mean is not None else (low + high) / 2 if low is not None and high is not None else None
        for low, high, mean in zip(columns[0], columns[1], columns[2], strict=True)
    )
    return DailySeries(dates, tuple(columns[0]), tuple(columns[1]), means, tuple(columns[3]))


def _checked(path: Path, where: str, value: float, low: float, high: float, what: str) -> float:
    if not low <= value <= high:
        raise TurfplanError(
            Problem(f"{path.name}: {where}", f"is not {what}", f"{value:g}", f"{low:g} to {high:g}", "look at the unit")
        )
    return value


def _ghcn(path: Path, text: str, place: tuple[float, float]) -> tuple[DailySeries, str]:
    """GHCN-Daily as CSV, wide (TMAX, TMIN, PRCP columns with attributes) in tenths; flagged values are dropped."""
    days: dict[date, list[float | None]] = {}
    rows = _rows(path, text, ["STATION", "DATE"])
    for number, row in rows:
        if number == rows[0][0] and row.get("LATITUDE") and row.get("LONGITUDE"):
            _near(
                path,
                number,
                place,
                _number(path, number, "LATITUDE", row["LATITUDE"]),
                _number(path, number, "LONGITUDE", row["LONGITUDE"]),
            )
        try:
            day = date.fromisoformat(row["DATE"].strip())
        except ValueError:
            raise TurfplanError(
                Problem(f"{path.name}: line {number}, column DATE", "is not a date", repr(row["DATE"]))
            ) from None
        kept = days.setdefault(day, [None, None, None, None])
        for slot, element in ((0, "TMIN"), (1, "TMAX"), (2, "TAVG"), (3, "PRCP")):
            flags = (row.get(f"{element}_ATTRIBUTES") or "").split(",")
            raw = (row.get(element) or "").strip()
            if not raw or (len(flags) > 1 and flags[1].strip()):
                continue
            value = _number(path, number, element, raw) / 10
            low, high = (0, 2000) if element == "PRCP" else (-90, 60)
            kept[slot] = _checked(
                path, f"line {number}, column {element}", value, low, high, "tenths of a degree C or mm"
            )
    return _series_from(path, days), "GHCN-Daily station record"


def _dly(path: Path, text: str, place: tuple[float, float]) -> tuple[DailySeries, str]:
    """GHCN-Daily fixed width: station, year, month, element, then 31 times value, MFLAG, QFLAG, SFLAG; tenths."""
    days: dict[date, list[float | None]] = {}
    slots = {"TMIN": 0, "TMAX": 1, "TAVG": 2, "PRCP": 3}
    for number, line in enumerate(text.splitlines(), 1):
        if len(line) < 269:
            raise TurfplanError(Problem(f"{path.name}: line {number}", "is cut off", f"{len(line)} characters", "269"))
        slot = slots.get(line[17:21])
        if slot is None:
            continue
        year, month = int(_number(path, number, "year", line[11:15])), int(_number(path, number, "month", line[15:17]))
        for day in range(31):
            cell = line[21 + day * 8 : 29 + day * 8]
            value = _number(path, number, f"day {day + 1}", cell[:5])
            if value == -9999 or cell[6].strip():
                continue
            try:
                when = date(year, month, day + 1)
            except ValueError:
                raise TurfplanError(
                    Problem(f"{path.name}: line {number}, day {day + 1}", "is not a date", f"{year}-{month}-{day + 1}")
                ) from None
            low, high = (0, 2000) if slot == 3 else (-90, 60)
            days.setdefault(when, [None, None, None, None])[slot] = _checked(
                path, f"line {number}, day {day + 1}", value / 10, low, high, "tenths of a degree C or mm"
            )
    return _series_from(path, days), "GHCN-Daily station record"


def _open_meteo(path: Path, text: str, place: tuple[float, float]) -> tuple[DailySeries, str]:
    """A saved answer of an Open-Meteo-compatible server: `daily` with its units."""
    try:
        data = json.loads(text)
        daily, units = data["daily"], data["daily_units"]
        dates = [date.fromisoformat(day) for day in daily["time"]]
        latitude, longitude = float(data["latitude"]), float(data["longitude"])
    except (ValueError, KeyError, TypeError) as error:
        raise TurfplanError(Problem(path.name, f"is not a whole answer with daily values ({error!r})")) from None
    _near(path, 1, place, latitude, longitude)
    days: dict[date, list[float | None]] = {day: [None, None, None, None] for day in dates}
    names = ("temperature_2m_min", "temperature_2m_max", "temperature_2m_mean", "precipitation_sum")
    for slot, name in enumerate(names):
        if name not in daily:
            if slot != 2:
                raise TurfplanError(Problem(f"{path.name}: daily", "lacks a variable", name))
            continue
        unit = str(units.get(name, "")).replace("°", "")
        if len(daily[name]) != len(dates):
            raise TurfplanError(
                Problem(
                    f"{path.name}: daily.{name}", "is not as long as its dates", str(len(daily[name])), str(len(dates))
                )
            )
        for number, (day, value) in enumerate(zip(dates, daily[name], strict=True)):
            if value is None:
                continue
            if not isinstance(value, int | float):
                raise TurfplanError(Problem(f"{path.name}: daily.{name}.{number}", "is not a number", repr(value)))
            days[day][slot] = convert(
                float(value), "in" if unit == "inch" else unit, "length" if slot == 3 else "temperature"
            )
    return _series_from(path, days), "Open-Meteo answer"


def _epw(path: Path, text: str, place: tuple[float, float]) -> tuple[DailySeries, str]:
    """An EnergyPlus weather file: a typical year of hours after eight lines of head; dry bulb in degrees C, rain in mm."""
    lines = text.splitlines()
    head = lines[0].split(",")
    if len(head) < 10 or len(lines) < 8 + DAYS * 24:
        raise TurfplanError(
            Problem(path.name, "is not a whole EPW file", f"{len(lines)} lines", f"{8 + DAYS * 24} or more")
        )
    _near(path, 1, place, _number(path, 1, "latitude", head[6]), _number(path, 1, "longitude", head[7]))
    hours: dict[date, list[float]] = {}
    rain: dict[date, float] = {}
    for number, line in enumerate(lines[8:], 9):
        cells = line.split(",")
        if len(cells) < 7:
            raise TurfplanError(Problem(f"{path.name}: line {number}", "is cut off", f"{len(cells)} cells"))
        # The months come from different years: they are laid into one.
        day = date(2001, int(_number(path, number, "month", cells[1])), int(_number(path, number, "day", cells[2])))
        value = _checked(
            path, f"line {number}, column dry bulb", _number(path, number, "dry bulb", cells[6]), -90, 60, "degrees C"
        )
        hours.setdefault(day, []).append(value)
        if len(cells) > 33 and cells[33].strip() not in ("", "999", "999.0"):
            rain[day] = rain.get(day, 0.0) + _number(path, number, "rain", cells[33])
    days: dict[date, list[float | None]] = {
        day: [min(values), max(values), sum(values) / len(values), rain.get(day)] for day, values in hours.items()
    }
    return _series_from(path, days), "EPW typical year"


_SERIES: dict[str, Callable[[Path, str, tuple[float, float]], tuple[DailySeries, str]]] = {
    "ghcn": _ghcn, "dly": _dly, "open-meteo": _open_meteo, "epw": _epw,
}  # fmt: skip


def _normals_of(path: Path, series: DailySeries) -> Normals:
    """Normals of a series by place in the year, each smoothed over a fortnight; a typical year counts as many."""
    years = series.whole_years()
    typical = len(series.dates) == DAYS and series.dates[0].year == 2001
    if years < LEAST_YEARS and not typical:
        raise TurfplanError(
            Problem(path.name, "is too short for normals", f"{years} whole years", f"{LEAST_YEARS} or more")
        )
    curves = [_by_day(path, series, values) for values in (series.mean_c, series.min_c, series.max_c, series.rain_mm)]
    return Normals(curves[0], curves[3], curves[1], curves[2])


def _by_day(path: Path, series: DailySeries, values: Sequence[float | None]) -> tuple[float, ...]:
    sums, counts = [0.0] * DAYS, [0] * DAYS
    for day, value in zip(series.dates, values, strict=True):
        if value is not None:
            sums[day_index(day)] += value
            counts[day_index(day)] += 1
    if min(counts) == 0 and values is not series.rain_mm:
        raise TurfplanError(
            Problem(path.name, "has a day of the year without any value", f"day {counts.index(0) + 1} of 365")
        )
    means = [total / count if count else 0.0 for total, count in zip(sums, counts, strict=True)]
    half = SMOOTHED_DAYS // 2
    return tuple(sum(means[(day + k) % DAYS] for k in range(-half, half + 1)) / SMOOTHED_DAYS for day in range(DAYS))


def _gaps(path: Path, series: DailySeries) -> tuple[str, ...]:
    missing = sum(value is None for value in series.mean_c)
    return (f"{path.name}: {missing} of {len(series.dates)} days have no temperature",) if missing else ()
