"""Reads saved JSON answers of Open-Meteo-compatible servers.

Archive or forecast, days or hours, with the units they state.
"""

import json
from collections.abc import Mapping, Sequence
from datetime import UTC, date, datetime, timedelta, timezone
from typing import Any

from turfplan.climate.daily_series import DailySeries
from turfplan.errors import Problem, TurfplanError, library_words, one_of, within
from turfplan.files.reading.climate_files.cells import (
    DEW,
    ET0,
    HUMIDITY,
    RAIN,
    RAIN_MM,
    SOLAR,
    TEMPERATURE_C,
    TMAX,
    TMEAN,
    TMIN,
    WIND,
    WIND_M_S,
    DayValues,
    Lines,
    between,
)
from turfplan.message import Listed, Message, Number, Worded
from turfplan.phrases import errors
from turfplan.phrases import weather as phrases
from turfplan.units import convert, inside_unit, units_of

DAILY = {
    "temperature_2m_min": TMIN,
    "temperature_2m_max": TMAX,
    "temperature_2m_mean": TMEAN,
    "precipitation_sum": RAIN,
    "et0_fao_evapotranspiration": ET0,
    "shortwave_radiation_sum": SOLAR,
    "wind_speed_10m_mean": WIND,
    "dew_point_2m_mean": DEW,
    "relative_humidity_2m_mean": HUMIDITY,
}
# Hourly names with what a day takes of them: least, most and mean, or the sum.
HOURLY = {
    "temperature_2m": (TMIN, TMAX, TMEAN),
    "precipitation": (RAIN,),
    "et0_fao_evapotranspiration": (ET0,),
    "shortwave_radiation": (SOLAR,),
    "wind_speed_10m": (WIND,),
    "dew_point_2m": (DEW,),
    "relative_humidity_2m": (HUMIDITY,),
}
SUMS = (RAIN, ET0)
UNITS = {
    "°C": "C",
    "°F": "F",
    "mm": "mm",
    "inch": "in",
    "cm": "cm",
    "MJ/m²": "MJ/m2/day",
    "W/m²": "W/m2",
    "m/s": "m/s",
    "km/h": "km/h",
    "mp/h": "mph",
    "kn": "kn",
    "%": "%",
}
# Dimension and bounds (in the unit used inside) of what has others than a temperature.
KINDS = {
    RAIN: ("length", RAIN_MM),
    ET0: ("length", RAIN_MM),
    SOLAR: ("radiation", (0.0, 150.0)),
    WIND: ("speed", WIND_M_S),
    HUMIDITY: ("share", (0.0, 1.0)),
}
HOURS = 24


def read_open_meteo(lines: Lines) -> tuple[DailySeries, tuple[float, float]]:
    """The days of an answer, and the coordinates that it was given for; raises TurfplanError."""
    data = _answer(lines)
    place = (_coordinate(lines, data, "latitude", 90), _coordinate(lines, data, "longitude", 180))
    offset = timedelta(seconds=float(data.get("utc_offset_seconds", 0)))
    days = DayValues(lines)
    if isinstance(data.get("daily"), dict):
        _daily(lines, data["daily"], data.get("daily_units"), offset, days)
    elif isinstance(data.get("hourly"), dict):
        _hourly(lines, data["hourly"], data.get("hourly_units"), offset, days)
    else:
        raise _fault(lines, "", phrases.neither())
    height = data.get("elevation")
    return days.series(place[0], float(height) if isinstance(height, int | float) else None), place


def _fault(
    lines: Lines,
    where: str,
    message: Message,
    got: object = None,
    allowed: Listed | Worded | None = None,
) -> TurfplanError:
    place = within(lines.name, where)
    return TurfplanError(Problem(place, message, None if got is None else str(got), allowed))


def _answer(lines: Lines) -> Mapping[str, Any]:
    try:
        data = json.loads(lines.text)
    except json.JSONDecodeError as error:
        raise lines.fault(
            error.lineno,
            str(error.colno),
            phrases.not_whole_json(reason=library_words(error.msg.lower())),
        ) from None
    if not isinstance(data, dict):
        raise _fault(lines, "", phrases.not_answer(), type(data).__name__)
    if data.get("error"):
        raise _fault(lines, "", phrases.reports_error(), data.get("reason"))
    return data


def _coordinate(lines: Lines, data: Mapping[str, Any], name: str, most: float) -> float:
    value = data.get(name)
    if isinstance(value, bool) or not isinstance(value, int | float) or abs(value) > most:
        raise _fault(lines, name, phrases.not_coordinate(), repr(value), between(-most, most))
    return float(value)


def _block(
    lines: Lines, name: str, block: Mapping[str, Any], known: Mapping[str, Any]
) -> dict[str, Sequence[Any]]:
    """The columns of a block that are known, each as long as its times."""
    times = block.get("time")
    if not isinstance(times, list) or not times:
        raise _fault(lines, f"{name}.time", phrases.no_times())
    found: dict[str, Sequence[Any]] = {"time": times}
    for column in known:
        if column not in block:
            continue
        values = block[column]
        if not isinstance(values, list) or len(values) != len(times):
            length = len(values) if isinstance(values, list) else type(values).__name__
            raise _fault(lines, f"{name}.{column}", phrases.other_length(), length, str(len(times)))
        found[column] = values
    if len(found) == 1:
        raise _fault(lines, name, phrases.lacks_variable(), None, one_of(known))
    return found


def _unit(lines: Lines, name: str, units: Any, column: str) -> str:
    stated = units.get(column) if isinstance(units, dict) else None
    if stated not in UNITS:
        raise _fault(
            lines,
            f"{name}_units.{column}",
            phrases.unknown_unit(),
            repr(stated),
            one_of(UNITS),
        )
    return UNITS[stated]


def _value(lines: Lines, where: str, value: Any, unit: str, slot: int) -> float | None:
    if value is None:
        return None
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise _fault(lines, where, phrases.not_number(), repr(value))
    dimension, (low, high) = KINDS.get(slot, ("temperature", TEMPERATURE_C))
    if unit not in units_of(dimension):
        raise _fault(lines, where, phrases.unfit_unit(unit=unit))
    inside = convert(float(value), unit, dimension)
    if not low <= inside <= high:
        raise _fault(lines, where, phrases.beyond(), value, _bounds(low, high, dimension))
    return inside


def _bounds(low: float, high: float, dimension: str) -> Message:
    """The bounds of a value in the inside unit, where it has one."""
    unit = inside_unit(dimension)
    if not unit:
        return between(low, high)
    least, most = Number(low, "plain"), Number(high, "plain")
    return errors.unit_range(low=least, high=most, unit=unit)


def _when(lines: Lines, where: str, value: Any, offset: timedelta) -> date:
    """The local day of a time: ISO text as it stands, or seconds since 1970."""
    try:
        if isinstance(value, str):
            return date.fromisoformat(value[:10])
        if isinstance(value, int) and not isinstance(value, bool):
            return datetime.fromtimestamp(value, UTC).astimezone(timezone(offset)).date()
    except (ValueError, OverflowError, OSError):
        pass
    raise _fault(lines, where, phrases.not_time(), repr(value))


def _daily(
    lines: Lines, block: Mapping[str, Any], units: Any, offset: timedelta, days: DayValues
) -> None:
    columns = _block(lines, "daily", block, DAILY)
    dates = [
        _when(lines, f"daily.time.{k}", value, offset)
        for k, value in enumerate(columns.pop("time"))
    ]
    for column, values in columns.items():
        unit = _unit(lines, "daily", units, column)
        for k, (day, value) in enumerate(zip(dates, values, strict=True)):
            slot = DAILY[column]
            days.put(
                0,
                f"daily.{column}.{k}",
                day,
                slot,
                _value(lines, f"daily.{column}.{k}", value, unit, slot),
            )


def _hourly(
    lines: Lines, block: Mapping[str, Any], units: Any, offset: timedelta, days: DayValues
) -> None:
    """Days of hours; a day that lacks an hour lacks the value."""
    columns = _block(lines, "hourly", block, HOURLY)
    dates = [
        _when(lines, f"hourly.time.{k}", value, offset)
        for k, value in enumerate(columns.pop("time"))
    ]
    for column, values in columns.items():
        unit = _unit(lines, "hourly", units, column)
        slots = HOURLY[column]
        by_day: dict[date, list[float]] = {}
        for k, (day, value) in enumerate(zip(dates, values, strict=True)):
            found = _value(lines, f"hourly.{column}.{k}", value, unit, slots[0])
            by_day.setdefault(day, []).extend(() if found is None else (found,))
        for day, hours in by_day.items():
            for slot in slots:
                days.put(
                    0, column, day, slot, _of_day(hours, slot) if len(hours) >= HOURS - 1 else None
                )


def _of_day(hours: Sequence[float], slot: int) -> float:
    if slot in SUMS:
        return sum(hours)
    return min(hours) if slot == TMIN else max(hours) if slot == TMAX else sum(hours) / len(hours)
