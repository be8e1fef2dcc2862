"""`turfplan windows`: when each operation is open."""

import json
from collections.abc import Mapping, Sequence
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import typer

if TYPE_CHECKING:
    from turfplan.agronomy import Book
    from turfplan.brief import Brief
    from turfplan.climate.record import Climate
    from turfplan.rules.real_years import Record
    from turfplan.rules.windows import Window
    from turfplan.units import System


def windows(
    latitude: float | None = typer.Option(None, "--latitude", min=-90, max=90, help="Degrees, north positive."),
    longitude: float | None = typer.Option(None, "--longitude", min=-180, max=180, help="Degrees, east positive."),
    postal_code: str | None = typer.Option(None, "--postal-code", help="US postal code."),
    climate_zone: str | None = typer.Option(None, "--climate-zone", help="Hardiness zone, Köppen class or turf zone."),
    grass: str = typer.Option(..., "--grass", metavar="SPECIES", help="For example tall_fescue."),
    year: int | None = typer.Option(None, "--year", min=1900, max=2200, help="Windows that start in this year."),
    normals: Path | None = typer.Option(None, "--normals", metavar="FILE", help="Your own normals or daily series."),
    as_json: bool = typer.Option(False, "--json", help="Print one JSON object."),
) -> None:
    """When each operation is open at a place for a grass.

    Example: turfplan windows --postal-code 17601 --grass tall_fescue
    """
    from turfplan.readers.book import load_book
    from turfplan.readers.place import located
    from turfplan.readers.region import region_of
    from turfplan.rules.real_years import record_of
    from turfplan.rules.setting import units_of
    from turfplan.rules.windows import Settings, operation_windows
    from turfplan.wording import capital, in_units

    place = {"latitude": latitude, "longitude": longitude, "postal_code": postal_code, "climate_zone": climate_zone,
             "normals": str(normals.resolve()) if normals else None}  # fmt: skip
    brief = _brief(grass, place)
    _known_grass(grass, load_book())
    place_found = located(brief.place, Path.cwd())
    climate = place_found.climate
    book = load_book(region_of(brief, climate))
    asked = year or datetime.now(UTC).year
    result = operation_windows(climate, book, (grass,), asked, Settings())
    record = record_of(place_found.years, book, (grass,))
    units = units_of(brief)
    rows = [_row(window, record, units) for window in result.windows]
    closed = [{"operation": c.operation, "reason": in_units(c.reason, units)} for c in result.closed]
    if as_json:
        print(json.dumps({"schema": 1, "year": asked, "source": climate.source, "error_days": climate.error_days, "soil_error_days": climate.soil_error_days, "windows": rows,
                          "closed": closed}, ensure_ascii=False))  # fmt: skip
        return
    print(_heading(capital(book.species[grass].name), climate, asked))
    _print_rows(result.windows, rows, units)
    for shut in closed:
        print(f"  {shut['operation']:14} closed  {shut['reason']}")


def _brief(grass: str, place: Mapping[str, object]) -> "Brief":
    """A brief of a lawn of that grass at the place as it was told; the area plays no part in windows."""
    from turfplan.brief import parse_brief

    told = {key: value for key, value in place.items() if value is not None}
    return parse_brief({"lawn": {"area": "100 m2", "grass": grass}, "place": told})


def _known_grass(grass: str, book: "Book") -> None:
    """Refuses a grass that the book does not know, and names the nearest."""
    from turfplan.errors import Problem, TurfplanError, nearest

    if grass not in book.species:
        near = nearest(grass, book.species)
        raise TurfplanError(
            Problem(
                "--grass", "unknown grass", repr(grass), ", ".join(book.species), near and f"did you mean {near!r}?"
            )
        )


def _row(window: "Window", record: "Record | None", units: "System") -> dict[str, object]:
    """A window as a row of the JSON object, with what real years say of it where there are any."""
    from turfplan.wording import in_units

    return {
        "operation": window.operation, "season": window.season, "start": window.start.isoformat(), "end": window.end.isoformat(),
        "best": window.best.isoformat(), "reason": in_units(window.reason, units), "source": window.source,
        **(_real(record, window) if record else {}),
    }  # fmt: skip


def _heading(grass: str, climate: "Climate", year: int) -> str:
    """Which grass, where and when, and how far the dates can be trusted."""
    return (
        f"{grass} at {climate.latitude:.2f}, {climate.longitude:.2f} in {year}; {climate.source}, about "
        f"{climate.error_days} days either way, {climate.soil_error_days} where soil temperature decides"
    )


def _print_rows(windows: "Sequence[Window]", rows: Sequence[dict[str, object]], units: "System") -> None:
    """A line for each window, and under it what real years say where its row holds that."""
    from turfplan.wording import day_text, days_text

    for w, row in zip(windows, rows, strict=True):
        print(
            f"  {w.operation:14} {w.season:7} {days_text(w.start, w.end, units)}, best {day_text(w.best, units)}  {row['reason']}"
        )
        if "start_spread" in row:
            print(f"{'':26}{_real_words(row, units)}")


def _real(record: "Record", window: "Window") -> dict[str, object]:
    """What real years say of a window: when it opened and closed in eight years of ten, and how often its best day would do."""
    spread = record.spread(window.rule, window.start.year)
    tally = record.tally(window.operation, window.rule, window.best)

    def days(span: "tuple[date, date] | None") -> list[str] | None:
        return None if span is None else [day.isoformat() for day in span]

    return {
        "years": spread.years, "opened": spread.opened, "start_spread": days(spread.start), "end_spread": days(spread.end),
        "best_worked": tally.worked, "best_told": tally.sentence(),
    }  # fmt: skip


def _real_words(row: "dict[str, Any]", units: "System") -> str:
    if row["start_spread"] is None or row["end_spread"] is None:
        return f"real years: it opened in none of {row['years']}"
    from turfplan.wording import day_text

    opened, closed = (
        " and ".join(day_text(date.fromisoformat(day), units) for day in row[key])
        for key in ("start_spread", "end_spread")
    )
    return (
        f"real years: opened between {opened}, closed between {closed} in eight of ten; the best day worked in "
        f"{row['best_worked']} of {row['years']} ({row['best_told']})"
    )
