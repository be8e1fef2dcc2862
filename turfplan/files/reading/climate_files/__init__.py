"""Reads the climate files that people have; the format is told by what the file says of itself."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from turfplan.climate.daily_series import DailySeries
from turfplan.climate.fitted_models import Models
from turfplan.climate.from_normals import Normals
from turfplan.climate.normals_of_years import normals_of
from turfplan.errors import Problem, TurfplanError
from turfplan.files.reading.climate_files import epw, ghcn, ncei, open_meteo
from turfplan.files.reading.climate_files.cells import Lines, read_text
from turfplan.message import Message, Number, listed
from turfplan.phrases import climate as phrases
from turfplan.phrases import weather

Coordinates = tuple[float, float]


@dataclass(frozen=True, slots=True)
class ClimateFile:
    """What a climate file holds: normals, where they come from, where they were measured, the days
    if it has them.
    """

    normals: Normals
    source: Message
    station: Coordinates | None
    series: DailySeries | None


def read_climate_file(
    path: Path, models: Models, place: Coordinates | None, *, rough: bool = False
) -> ClimateFile:
    """The climate in a file; a series of days gives normals where it has years enough.

    `place` is where the lawn lies, None where only the file knows; a `rough` one stands for a whole
    zone. Raises TurfplanError, with line and column, for what is broken, in another unit, too
    short, or of another place.
    """
    lines = read_text(path)
    kind = _kind(lines)
    if kind == "ncei":
        days = round(models.number("bands", "normals_days"))
        normals, source, station = ncei.read_normals(lines, path.parent, days)
        found = ClimateFile(normals, _source(source), station, None)
    else:
        series, where = _series(lines, kind)
        try:
            normals = normals_of(models, series, typical_year=kind == "epw")
        except TurfplanError as error:
            raise error.located(path.name) from None
        source = (_origin(kind, path.name), *_known(models, series, normals, kind))
        found = ClimateFile(normals, _source(source), where, series)
    if place is not None and not rough:
        _check_place(models, path.name, found.station, place)
    return found


def read_series(
    path: Path, models: Models, place: Coordinates | None, called: str | None = None
) -> DailySeries:
    """The days of weather in a file, however few; `called` is what the user knows it by.

    Raises TurfplanError as `read_climate_file` does.
    """
    lines = read_text(path, called)
    kind = _kind(lines)
    if kind == "ncei":
        raise TurfplanError(Problem(lines.name, weather.normals()))
    if kind == "epw":
        raise TurfplanError(Problem(lines.name, weather.typical_year()))
    series, where = _series(lines, kind)
    if place is not None:
        _check_place(models, lines.name, where, place)
    return series


def _kind(lines: Lines) -> str:
    text = lines.text.lstrip()
    first = text[:200_000].split("\n", 1)[0].rstrip("\r")
    names = [name.strip().strip('"').upper() for name in first.split(",")]
    if text[:1] in ("{", "["):
        return "open-meteo"
    if first.upper().startswith("LOCATION,"):
        return "epw"
    if "MLY-TAVG-NORMAL" in names or "DLY-TAVG-NORMAL" in names:
        return "ncei"
    if ncei.is_annual(lines):
        raise TurfplanError(Problem(lines.name, weather.annual(), hint=weather.give_normals()))
    if ghcn.ELEMENTS.match(first) or "ELEMENT" in names:
        return "elements"
    if "STATION" in names and "DATE" in names:
        return "wide"
    if ghcn.DLY_LINE.match(first) and "," not in first[:21]:
        return "dly"
    raise TurfplanError(
        Problem(lines.name, weather.unknown_file(), repr(first[:60]), weather.formats())
    )


def _series(lines: Lines, kind: str) -> tuple[DailySeries, Coordinates | None]:
    if kind == "open-meteo":
        return open_meteo.read_open_meteo(lines)
    if kind == "epw":
        return epw.read_epw(lines)
    reader = {"dly": ghcn.read_dly, "elements": ghcn.read_elements, "wide": ghcn.read_wide}[kind]
    return reader(lines)


def _source(parts: Sequence[Message]) -> Message:
    """Where a climate comes from, and what must be known of it."""
    return phrases.file_source(parts=listed(parts, "semicolon"))


def _origin(kind: str, name: str) -> Message:
    """What kind of file a series of days was read from."""
    if kind == "open-meteo":
        return phrases.file_weather_server(file=name)
    return phrases.file_epw(file=name) if kind == "epw" else phrases.file_ghcn(file=name)


def _known(models: Models, series: DailySeries, normals: Normals, kind: str) -> Iterator[Message]:
    """What the source adds: the years, the gaps, whose rain it is, and what its water use rests
    on.
    """
    years = series.whole_years(models.number("files", "whole_year_share"))
    if kind != "epw":
        yield phrases.file_years(n=len(years), first=str(years[0]), last=str(years[-1]))
    missing, longest = series.gaps()
    if missing:
        yield phrases.file_gaps(missing=missing, days=len(series.dates), longest=longest)
    if normals.rain_mm is None:
        yield phrases.file_no_rain()
    if normals.et0_mm is not None:
        yield phrases.file_penman()


def _check_place(
    models: Models, name: str, station: Coordinates | None, place: Coordinates
) -> None:
    if station is None:
        return
    farthest = models.number("files", "farthest_degrees")
    east = abs((station[1] - place[1] + 180) % 360 - 180)
    if abs(station[0] - place[0]) > farthest or east > farthest:
        allowed = weather.within_degrees(
            degrees=Number(farthest, "plain"),
            latitude=Number(place[0], "hundredth"),
            longitude=Number(place[1], "hundredth"),
        )
        got = f"{station[0]:.2f}, {station[1]:.2f}"
        raise TurfplanError(Problem(name, weather.another_place(), got, allowed))
