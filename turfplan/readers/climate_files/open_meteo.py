"""Reads saved JSON answers of Open-Meteo-compatible servers: archive or forecast, days or hours, with the units they state."""

import json
from collections.abc import Mapping, Sequence
from datetime import UTC, date, datetime, timedelta, timezone
from typing import Any

from turfplan.climate.series import DailySeries
from turfplan.errors import Problem, TurfplanError
from turfplan.readers.climate_files.cells import (
    ET0,
    RAIN,
    RAIN_MM,
    SOIL,
    TEMPERATURE_C,
    TMAX,
    TMEAN,
    TMIN,
    Days,
    Lines,
)  # fmt: skip
from turfplan.units import convert

DAILY = {
    "temperature_2m_min": TMIN, "temperature_2m_max": TMAX, "temperature_2m_mean": TMEAN, "precipitation_sum": RAIN,
    "et0_fao_evapotranspiration": ET0, "soil_temperature_0_to_7cm_mean": SOIL, "soil_temperature_0_to_10cm_mean": SOIL,
}  # fmt: skip
# Hourly names with what a day takes of them: least, most and mean, or the sum.
HOURLY = {
    "temperature_2m": (TMIN, TMAX, TMEAN), "precipitation": (RAIN,), "et0_fao_evapotranspiration": (ET0,),
    "soil_temperature_0_to_7cm": (SOIL,), "soil_temperature_0_to_10cm": (SOIL,), "soil_temperature_6cm": (SOIL,),
}  # fmt: skip
SUMS = (RAIN, ET0)
UNITS = {"°C": "C", "°F": "F", "mm": "mm", "inch": "in", "cm": "cm"}
HOURS = 24


def read_open_meteo(lines: Lines) -> tuple[DailySeries, tuple[float, float]]:
    """The days of an answer, and the coordinates that it was given for."""
    data = _answer(lines)
    place = (_coordinate(lines, data, "latitude", 90), _coordinate(lines, data, "longitude", 180))
    offset = timedelta(seconds=float(data.get("utc_offset_seconds", 0)))
    days = Days(lines)
    if isinstance(data.get("daily"), dict):
        _daily(lines, data["daily"], data.get("daily_units"), offset, days)
    elif isinstance(data.get("hourly"), dict):
        _hourly(lines, data["hourly"], data.get("hourly_units"), offset, days)
    else:
        raise _fault(lines, "", "holds neither daily nor hourly values")
    return days.series(), place


def _fault(lines: Lines, where: str, message: str, got: object = None, allowed: str | None = None) -> TurfplanError:
    name = f"{lines.name}: {where}" if where else lines.name
    return TurfplanError(Problem(name, message, None if got is None else str(got), allowed))


def _answer(lines: Lines) -> Mapping[str, Any]:
    try:
        data = json.loads(lines.text)
    except json.JSONDecodeError as error:
        raise lines.fault(error.lineno, str(error.colno), f"is not whole JSON ({error.msg.lower()})") from None
    if not isinstance(data, dict):
        raise _fault(lines, "", "is not one answer of a weather server", type(data).__name__)
    if data.get("error"):
        raise _fault(lines, "", "is an answer that reports an error", data.get("reason"))
    return data


def _coordinate(lines: Lines, data: Mapping[str, Any], name: str, most: float) -> float:
    value = data.get(name)
    if isinstance(value, bool) or not isinstance(value, int | float) or abs(value) > most:
        raise _fault(lines, name, "is not a coordinate in degrees", repr(value), f"{-most:g} to {most:g}")
    return float(value)


def _block(lines: Lines, name: str, block: Mapping[str, Any], known: Mapping[str, Any]) -> dict[str, Sequence[Any]]:
    """The columns of a block that are known, each as long as its times."""
    times = block.get("time")
    if not isinstance(times, list) or not times:
        raise _fault(lines, f"{name}.time", "holds no times")
    found: dict[str, Sequence[Any]] = {"time": times}
    for column in known:
        if column not in block:
            continue
        values = block[column]
        if not isinstance(values, list) or len(values) != len(times):
            length = len(values) if isinstance(values, list) else type(values).__name__
            raise _fault(lines, f"{name}.{column}", "is not as long as its times", length, str(len(times)))
        found[column] = values
    if len(found) == 1:
        raise _fault(lines, name, "lacks a variable", None, ", ".join(known))
    return found


def _unit(lines: Lines, name: str, units: Any, column: str) -> str:
    stated = units.get(column) if isinstance(units, dict) else None
    if stated not in UNITS:
        raise _fault(lines, f"{name}_units.{column}", "is not a unit that is known", repr(stated), ", ".join(UNITS))
    return UNITS[stated]


def _value(lines: Lines, where: str, value: Any, unit: str, slot: int) -> float | None:
    if value is None:
        return None
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise _fault(lines, where, "is not a number", repr(value))
    length = slot in SUMS
    if length != (unit in ("mm", "in", "cm")):
        raise _fault(lines, where, f"is in {unit}, which does not fit")
    inside = convert(float(value), unit, "length" if length else "temperature")
    low, high = RAIN_MM if length else TEMPERATURE_C
    if not low <= inside <= high:
        raise _fault(lines, where, "is out of bounds", value, f"{low:g} to {high:g} {'mm' if length else 'C'}")
    return inside


def _when(lines: Lines, where: str, value: Any, offset: timedelta) -> date:
    """The local day of a time: ISO text as it stands, or seconds since 1970."""
    try:
        if isinstance(value, str):
            return date.fromisoformat(value[:10])
        if isinstance(value, int) and not isinstance(value, bool):
            return datetime.fromtimestamp(value, UTC).astimezone(timezone(offset)).date()
    except (ValueError, OverflowError, OSError):
        pass
    raise _fault(lines, where, "is not a time", repr(value))


def _daily(lines: Lines, block: Mapping[str, Any], units: Any, offset: timedelta, days: Days) -> None:
    columns = _block(lines, "daily", block, DAILY)
    dates = [_when(lines, f"daily.time.{k}", value, offset) for k, value in enumerate(columns.pop("time"))]
    for column, values in columns.items():
        unit = _unit(lines, "daily", units, column)
        for k, (day, value) in enumerate(zip(dates, values, strict=True)):
            slot = DAILY[column]
            days.put(0, f"daily.{column}.{k}", day, slot, _value(lines, f"daily.{column}.{k}", value, unit, slot))


def _hourly(lines: Lines, block: Mapping[str, Any], units: Any, offset: timedelta, days: Days) -> None:
    """Days of hours; a day that lacks an hour lacks the value."""
    columns = _block(lines, "hourly", block, HOURLY)
    dates = [_when(lines, f"hourly.time.{k}", value, offset) for k, value in enumerate(columns.pop("time"))]
    for column, values in columns.items():
        unit = _unit(lines, "hourly", units, column)
        slots = HOURLY[column]
        by_day: dict[date, list[float]] = {}
        for k, (day, value) in enumerate(zip(dates, values, strict=True)):
            found = _value(lines, f"hourly.{column}.{k}", value, unit, slots[0])
            by_day.setdefault(day, []).extend(() if found is None else (found,))
        for day, hours in by_day.items():
            for slot in slots:
                days.put(0, column, day, slot, _of_day(hours, slot) if len(hours) >= HOURS - 1 else None)


def _of_day(hours: Sequence[float], slot: int) -> float:
    if slot in SUMS:
        return sum(hours)
    return min(hours) if slot == TMIN else max(hours) if slot == TMAX else sum(hours) / len(hours)
