"""`turfplan windows`: when each operation is open."""

import json
from pathlib import Path
from typing import TYPE_CHECKING

import typer

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from turfplan.app.open_windows import WindowAtPlace, WindowsHere
    from turfplan.message import Message
    from turfplan.messages import Words
    from turfplan.work.real_years import Spread, Tally


def windows(
    latitude: float | None = typer.Option(
        None, "--latitude", min=-90, max=90, help="Degrees, north positive."
    ),
    longitude: float | None = typer.Option(
        None, "--longitude", min=-180, max=180, help="Degrees, east positive."
    ),
    postal_code: str | None = typer.Option(None, "--postal-code", help="US postal code."),
    town: str | None = typer.Option(None, "--town", help='A town, for example "Lancaster, PA".'),
    country: str | None = typer.Option(None, "--country", help="A name, or ISO 3166: US."),
    climate_zone: str | None = typer.Option(
        None, "--climate-zone", help="Hardiness zone, Köppen class or turf zone."
    ),
    grass: str = typer.Option(..., "--grass", metavar="SPECIES", help="For example tall_fescue."),
    year: int | None = typer.Option(
        None, "--year", min=1900, max=2200, help="Windows that start in this year."
    ),
    normals: Path | None = typer.Option(
        None, "--normals", metavar="FILE", help="Your own normals or daily series."
    ),
    as_json: bool = typer.Option(False, "--json", help="Print one JSON object."),
) -> None:
    """When each operation is open at a place for a grass.

    Example: turfplan windows --postal-code 17601 --grass tall_fescue
    """
    from turfplan.app.open_windows import open_windows

    place = {
        "latitude": latitude,
        "longitude": longitude,
        "postal_code": postal_code,
        "town": town,
        "country": country,
        "climate_zone": climate_zone,
        "normals": str(normals.resolve()) if normals else None,
    }
    here = open_windows(grass, place, Path.cwd(), year)
    if as_json:
        print(json.dumps(_object(here), ensure_ascii=False))
    else:
        print("\n".join(_lines(here)))


def _object(here: "WindowsHere") -> dict[str, object]:
    """The windows as one JSON object."""
    climate, words = here.climate, here.words
    return {
        "schema": 1,
        "year": here.year,
        "source": words.text(climate.source),
        "error_days": climate.error_days,
        "soil_error_days": climate.soil_error_days,
        "limits": [words.text(limit) for limit in here.limits],
        "windows": [_row(window, words) for window in here.windows],
        "closed": [
            {"operation": shut.operation, "reason": words.text(shut.reason)} for shut in here.closed
        ],
    }


def _row(here: "WindowAtPlace", words: "Words") -> dict[str, object]:
    """A window as a row of the JSON object, with what real years say of it where there are any."""
    window = here.window
    return {
        "operation": window.operation,
        "season": window.season,
        "start": window.start.isoformat(),
        "end": window.end.isoformat(),
        "best": window.best.isoformat(),
        "reason": words.text(window.reason),
        "source": words.text(window.source),
        **(_real(here.spread, here.best, words) if here.spread and here.best else {}),
    }


def _real(spread: "Spread", best: "Tally", words: "Words") -> dict[str, object]:
    """What real years say of a window.

    When it opened and closed in eight years of ten, and how often its best day would do.
    """

    def days(span: "tuple[date, date] | None") -> list[str] | None:
        return None if span is None else [day.isoformat() for day in span]

    return {
        "years": spread.years,
        "opened": spread.opened,
        "start_spread": days(spread.start),
        "end_spread": days(spread.end),
        "best_worked": best.worked,
        "best_told": words.text(best.message),
    }


def _lines(here: "WindowsHere") -> "Iterator[str]":
    """The windows as lines: which grass, where and when.

    Each window, and under it what real years say; what is closed.
    """
    from turfplan.message import Day, Days, Number
    from turfplan.phrases import screen
    from turfplan.phrases import windows as phrases
    from turfplan.planning.task_names import MARKS

    climate, words = here.climate, here.words
    heading = phrases.print_heading(
        grass=here.grass,
        latitude=Number(climate.latitude, "hundredth"),
        longitude=Number(climate.longitude, "hundredth"),
        year=str(here.year),
        source=climate.source,
        air=climate.error_days,
        soil=climate.soil_error_days,
    )
    yield words.text(heading)
    if climate.found is not None:
        yield words.text(screen.place(place=words.text(climate.found)))
    for limit in here.limits:
        yield f"  ! {words.text(limit)}"
    for shown in here.windows:
        w = shown.window
        line = phrases.print_open(days=Days(w.start, w.end), best=Day(w.best), reason=w.reason)
        yield f"  {w.operation:14} {words.text(MARKS[w.season]):7} {words.text(line)}"
        if shown.spread and shown.best:
            yield f"{'':26}{words.text(_real_years(shown.spread, shown.best))}"
    for shut in here.closed:
        yield f"  {shut.operation:14} {words.text(phrases.print_closed(reason=shut.reason))}"


def _real_years(spread: "Spread", best: "Tally") -> "Message":
    """What real years say of a window, under its line."""
    from turfplan.message import Day, listed
    from turfplan.phrases import windows as phrases

    if spread.start is None or spread.end is None:
        return phrases.print_never_opened(years=spread.years)
    return phrases.print_real_years(
        opened=listed(Day(day) for day in spread.start),
        closed=listed(Day(day) for day in spread.end),
        worked=best.worked,
        years=spread.years,
        tally=best.message,
    )
