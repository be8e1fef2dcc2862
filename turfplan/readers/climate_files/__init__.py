"""Reads the climate files that people have; the format is told by what the file says of itself."""

from dataclasses import dataclass
from pathlib import Path

from turfplan.climate.building import Normals
from turfplan.climate.models import Models
from turfplan.climate.series import DailySeries
from turfplan.climate.years import normals_of
from turfplan.errors import Problem, TurfplanError
from turfplan.readers.climate_files import epw, ghcn, ncei, open_meteo
from turfplan.readers.climate_files.cells import Lines, read_text

FORMATS = "NCEI normals CSV (monthly or daily), GHCN-Daily CSV or .dly, EPW, Open-Meteo JSON"
Coordinates = tuple[float, float]


@dataclass(frozen=True, slots=True)
class ClimateFile:
    """What a climate file holds: normals, where they come from in words, where they were measured, the days if it has them."""

    normals: Normals
    source: str
    station: Coordinates | None
    series: DailySeries | None


def read_climate_file(path: Path, models: Models, place: Coordinates | None, *, rough: bool = False) -> ClimateFile:
    """The climate in a file; a series of days gives normals where it has years enough.

    `place` is where the lawn lies, None where only the file knows; a `rough` one stands for a whole zone. Raises
    TurfplanError, with line and column, for what is broken, in another unit, too short, or of another place.
    """
    lines = read_text(path)
    kind = _kind(lines)
    if kind == "ncei":
        days = round(models.number("bands", "normals_days"))
        normals, words, station, said = ncei.read_normals(lines, path.parent, days)
        found = ClimateFile(normals, "; ".join((words, *said)), station, None)
    else:
        series, where, words = _series(lines, kind)
        try:
            normals = normals_of(models, series, typical_year=kind == "epw")
        except TurfplanError as error:
            raise error.located(path.name) from None
        found = ClimateFile(
            normals, "; ".join((f"{words} ({path.name})", *_said(models, series, normals, kind))), where, series
        )
    if place is not None and not rough:
        _check_place(models, path.name, found.station, place)
    return found


def read_series(path: Path, models: Models, place: Coordinates | None) -> DailySeries:
    """The days of weather in a file, however few; raises TurfplanError as `read_climate_file` does."""
    lines = read_text(path)
    kind = _kind(lines)
    if kind == "ncei":
        raise TurfplanError(Problem(path.name, "holds normals, not days of weather"))
    if kind == "epw":
        raise TurfplanError(Problem(path.name, "holds a typical year, not days of weather"))
    series, where, _ = _series(lines, kind)
    if place is not None:
        _check_place(models, path.name, where, place)
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
        hint = "give the monthly or daily normals; the annual file is read where it lies beside them"
        raise TurfplanError(
            Problem(lines.name, "holds annual values and dates of frost, not normals by month or day", hint=hint)
        )
    if ghcn.ELEMENTS.match(first) or "ELEMENT" in names:
        return "elements"
    if "STATION" in names and "DATE" in names:
        return "wide"
    if ghcn.DLY_LINE.match(first) and "," not in first[:21]:
        return "dly"
    raise TurfplanError(Problem(lines.name, "is not a climate file that is known", repr(first[:60]), FORMATS))


def _series(lines: Lines, kind: str) -> tuple[DailySeries, Coordinates | None, str]:
    if kind == "open-meteo":
        return *open_meteo.read_open_meteo(lines), "answer of a weather server"
    if kind == "epw":
        return *epw.read_epw(lines), "typical year of an EPW file"
    reader = {"dly": ghcn.read_dly, "elements": ghcn.read_elements, "wide": ghcn.read_wide}[kind]
    return *reader(lines), ghcn.WORDS


def _said(models: Models, series: DailySeries, normals: Normals, kind: str) -> tuple[str, ...]:
    """What the source line adds: the years, the gaps, and whose rain it is."""
    said = []
    years = series.whole_years(models.number("files", "whole_year_share"))
    if kind != "epw":
        said.append(f"{len(years)} whole years, {years[0]} to {years[-1]}")
    missing, longest = series.gaps()
    if missing:
        said.append(f"{missing} of {len(series.dates)} days without a temperature, {longest} of them in a row")
    if normals.rain_mm is None:
        said.append("it has no rain; rain is the world grid's")
    return tuple(said)


def _check_place(models: Models, name: str, station: Coordinates | None, place: Coordinates) -> None:
    if station is None:
        return
    farthest = models.number("files", "farthest_degrees")
    east = abs((station[1] - place[1] + 180) % 360 - 180)
    if abs(station[0] - place[0]) > farthest or east > farthest:
        raise TurfplanError(
            Problem(
                name, "is of another place", f"{station[0]:.2f}, {station[1]:.2f}",
                f"within {farthest:g} degrees of {place[0]:.2f}, {place[1]:.2f}",
            )
        )  # fmt: skip
