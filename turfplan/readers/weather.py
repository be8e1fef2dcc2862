"""Reads weather that is known: a saved forecast or daily file, or a forecast server that was asked for."""

from pathlib import Path

from turfplan.climate.record import Climate
from turfplan.planner import Weather


def read_weather(climate: Climate, file: Path | None, url: str | None) -> tuple[Weather | None, tuple[str, ...]]:
    """Weather by day with what the user must know about it; None when nothing was given."""
    if file is None and url is None:
        return None, ()
    from turfplan.readers.climate_files import fetch_forecast, read_daily_weather

    if url is not None:
        return fetch_forecast(url, climate)
    assert file is not None
    return read_daily_weather(file, climate)
