"""Reads the text, rows and numbers of climate files, and says where a fault lies."""

import csv
import gzip
import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path

from turfplan.climate.daily_series import Column, DailySeries
from turfplan.climate.evapotranspiration import (
    DayWeather,
    et0_mm,
    vapour_from_dew_point_kpa,
    vapour_from_mean_humidity_kpa,
    wind_at_2m_m_s,
)
from turfplan.errors import Problem, TurfplanError, library_words, within
from turfplan.files.system_faults import refusal_of
from turfplan.message import Listed, Message, Number, Worded
from turfplan.phrases import errors
from turfplan.phrases import weather as phrases

Slots = list[float | None]
# Slots of a day: radiation in MJ/m2 a day, wind in m/s at 10 m, dew point in degrees C, relative
# humidity as a share.
TMIN, TMAX, TMEAN, RAIN, ET0, SOLAR, WIND, DEW, HUMIDITY = range(9)
SLOTS = 9
TEMPERATURE_C, RAIN_MM, WIND_M_S = (-90.0, 60.0), (0.0, 2000.0), (0.0, 60.0)
WIND_HEIGHT_M = 10.0


@dataclass(frozen=True, slots=True)
class Lines:
    """A text file's name and text."""

    name: str
    text: str

    def fault(
        self,
        line: int,
        column: str | None,
        message: Message,
        got: object = None,
        allowed: Listed | Worded | None = None,
        hint: Message | None = None,
    ) -> TurfplanError:
        """The error that names file, line and column."""
        place = (
            errors.cell(line=str(line), column=column) if column else errors.line(number=str(line))
        )
        given = got if got is None or isinstance(got, Message) else str(got)
        return TurfplanError(Problem(within(self.name, place), message, given, allowed, hint))

    def number(self, line: int, column: str, text: str | None) -> float:
        """A number, blanks around it allowed; raises TurfplanError for what is none."""
        try:
            return float((text or "").strip())
        except ValueError:
            raise self.fault(line, column, phrases.not_number(), repr(text)) from None

    def within(
        self, line: int, column: str, value: float, bounds: tuple[float, float], what: Message
    ) -> float:
        """The value where it lies within bounds; else TurfplanError, with what it is read as."""
        if not bounds[0] <= value <= bounds[1]:
            raise self.fault(
                line,
                column,
                phrases.out_of_bounds(what=what),
                f"{value:g}",
                between(*bounds),
                errors.look_at_unit(),
            )
        return value

    def day(self, line: int, column: str, text: str) -> date:
        """A date, 2027-04-30 or 20270430; raises TurfplanError for what is none."""
        try:
            return date.fromisoformat(text.strip())
        except ValueError:
            raise self.fault(line, column, phrases.not_date(), repr(text)) from None


def between(low: float, high: float) -> Message:
    """The bounds of a number."""
    return errors.number_range(low=Number(low, "plain"), high=Number(high, "plain"))


def read_text(path: Path, called: str | None = None) -> Lines:
    """A file as text, unpacked where it is gzipped; raises TurfplanError for what is none.

    `called` is what the user knows it by, the name of the file where it is not said.
    """
    name = path.name if called is None else called
    try:
        content = path.read_bytes()
        if content[:2] == b"\x1f\x8b":
            content = gzip.decompress(content)
        return Lines(name, content.decode("utf-8-sig"))
    except FileNotFoundError:
        raise TurfplanError(Problem(str(path), errors.no_such_file())) from None
    except UnicodeDecodeError:
        raise TurfplanError(Problem(name, errors.not_text())) from None
    except (OSError, EOFError) as error:
        reason = refusal_of(error)
        raise TurfplanError(Problem(name, errors.unreadable(reason=reason))) from None


def table(lines: Lines, needed: Sequence[str]) -> list[tuple[int, dict[str, str]]]:
    """The rows of a CSV with head as column to cell, with their line numbers.

    Raises TurfplanError for rows that are cut off and columns that are missing.
    """
    reader = csv.DictReader(io.StringIO(lines.text), strict=True)
    missing = [name for name in needed if name not in (reader.fieldnames or [])]
    if missing:
        raise lines.fault(1, None, phrases.lacks_column(), ", ".join(missing))
    rows = []
    try:
        for row in reader:
            if None in row.values() or None in row:
                allowed = phrases.cells(n=len(reader.fieldnames or []))
                raise lines.fault(reader.line_num, None, phrases.cut_off_or_long(), None, allowed)
            rows.append((reader.line_num, row))
    except csv.Error as error:
        not_csv = phrases.not_csv(reason=library_words(str(error)))
        raise lines.fault(reader.reader.line_num, None, not_csv) from None
    if not rows:
        raise lines.fault(2, None, phrases.ends_after_head())
    return rows


def plain_rows(lines: Lines) -> Iterator[tuple[int, list[str]]]:
    """The rows of a CSV without head, with their line numbers."""
    reader = csv.reader(io.StringIO(lines.text))
    for row in reader:
        if row:
            yield reader.line_num, row


class DayValues:
    """Collects values by day; a value given twice is an error."""

    def __init__(self, lines: Lines) -> None:
        """For the days of one file."""
        self.lines = lines
        self._found: dict[date, Slots] = {}
        self._columns: set[int] = set()

    def put(self, line: int, column: str, day: date, slot: int, value: float | None) -> None:
        """Keep a value, or that it is missing; raises TurfplanError for a second one."""
        self._columns.add(slot)
        slots = self._found.setdefault(day, [None] * SLOTS)
        if value is not None and slots[slot] is not None:
            raise self.lines.fault(line, column, phrases.twice(), f"{day}")
        slots[slot] = value if slots[slot] is None else slots[slot]

    def series(
        self, latitude: float | None = None, elevation_m: float | None = None
    ) -> DailySeries:
        """The days without a break from the first to the last; TurfplanError where there are none.

        Means come from the extremes where only these are known. Evapotranspiration that the file
        does not state is worked out by Penman-Monteith where it has all that this takes and its
        latitude (degrees) and elevation are known; it is None on days that lack a part.
        """
        if not self._found:
            raise TurfplanError(Problem(self.lines.name, phrases.no_days()))
        first, last = min(self._found), max(self._found)
        dates = tuple(first + timedelta(days=k) for k in range((last - first).days + 1))
        empty: Slots = [None] * SLOTS
        columns: list[Column] = [
            tuple(c) for c in zip(*(self._found.get(day, empty) for day in dates), strict=True)
        ]
        lows, highs = columns[TMIN], columns[TMAX]
        means = tuple(map(_mean, lows, highs, columns[TMEAN]))
        et0: Column | None = columns[ET0] if ET0 in self._columns else None
        if (
            et0 is None
            and SOLAR in self._columns
            and latitude is not None
            and elevation_m is not None
        ):
            place = latitude, elevation_m
            et0 = tuple(_penman_monteith(place, day, self._found.get(day, empty)) for day in dates)
        return DailySeries(dates, lows, highs, means, columns[RAIN], et0)


def _mean(low: float | None, high: float | None, mean: float | None) -> float | None:
    """The mean of a day as it was measured, else between its extremes, else None."""
    if mean is None and low is not None and high is not None:
        return (low + high) / 2
    return mean


def _penman_monteith(place: tuple[float, float], day: date, slots: Slots) -> float | None:
    """Reference evapotranspiration of a day (mm), or None where a part is missing.

    `place` is latitude (degrees) and elevation (m). The dew point says more than the humidity.
    """
    low, high, solar, wind = (slots[k] for k in (TMIN, TMAX, SOLAR, WIND))
    dew, humidity = slots[DEW], slots[HUMIDITY]
    if low is None or high is None or solar is None or wind is None:
        return None
    if dew is not None:
        vapour = vapour_from_dew_point_kpa(dew)
    elif humidity is not None:
        vapour = vapour_from_mean_humidity_kpa(low, high, 100 * humidity)
    else:
        return None
    calm = wind_at_2m_m_s(wind, WIND_HEIGHT_M)
    weather = DayWeather(day.timetuple().tm_yday, low, high, solar, vapour, calm)
    return et0_mm(weather, *place)
