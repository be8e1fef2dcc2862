"""Reads weather that is known: a saved forecast or daily file, or a forecast server that was asked for."""

import hashlib
import json
import os
import time
import urllib.error
import urllib.parse
import urllib.request
from pathlib import Path

from turfplan.climate.record import Climate
from turfplan.climate.series import DailySeries
from turfplan.errors import Problem, TurfplanError
from turfplan.planner import Weather
from turfplan.readers.climate_files import read_series
from turfplan.readers.place import load_models
from turfplan.rules.watering_request import weather_day

TIMEOUT_S = 10.0
TRIES = 3
KEPT_S = 3 * 3600.0
VARIABLES = "temperature_2m_max,temperature_2m_min,temperature_2m_mean,precipitation_sum"
KEYLESS = (
    "Forecasts without a key are for non-commercial users only; a business needs its own arrangement with the server."
)


def read_weather(climate: Climate, file: Path | None, url: str | None) -> tuple[Weather | None, tuple[str, ...]]:
    """Weather by day with what the user must know about it; None when nothing was given."""
    place = (climate.latitude, climate.longitude)
    if url is not None:
        return _weather(climate, _answered(climate, url)), (KEYLESS,)
    if file is not None:
        return _weather(climate, read_series(file, load_models(), place)), ()
    return None, ()


def _answered(climate: Climate, url: str) -> DailySeries:
    """The days of the server's answer; one that is none is told as the server's and not kept."""
    path = _fetched(climate, url)
    try:
        return read_series(path, load_models(), (climate.latitude, climate.longitude))
    except TurfplanError as error:
        path.unlink(missing_ok=True)
        said = "; ".join(str(problem).removeprefix(f"{path.name}: ") for problem in error.problems)
        raise _refused(url, f"gave an answer that cannot be used ({said})") from None


def _refused(url: str, said: str) -> TurfplanError:
    host = urllib.parse.urlsplit(url).netloc
    hint = "plan without it, or give a saved file with --weather"
    return TurfplanError(Problem("--weather-url", f"{host} {said}", None, None, hint))


def _weather(climate: Climate, series: DailySeries) -> Weather:
    columns = zip(series.dates, series.rain_mm, series.tmin_c, series.tmax_c, strict=True)
    return Weather(
        {
            day: weather_day(day, climate.latitude, rain_mm=rain, min_c=low, max_c=high)
            for day, rain, low, high in columns
        }
    )


def _fetched(climate: Climate, url: str) -> Path:
    """The server's answer as a file in the user's cache; one of the last three hours is not asked for again."""
    parts = urllib.parse.urlsplit(url)
    if parts.scheme not in ("http", "https") or not parts.netloc:
        raise TurfplanError(Problem("--weather-url", "is not an http address", repr(url)))
    query = {
        "latitude": f"{climate.latitude:.4f}", "longitude": f"{climate.longitude:.4f}", "daily": VARIABLES, "timezone": climate.timezone,
        "forecast_days": "14",
    }  # fmt: skip
    address = urllib.parse.urlunsplit(
        parts._replace(query=urllib.parse.urlencode(query | dict(urllib.parse.parse_qsl(parts.query))))
    )
    folder = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "turfplan"
    kept = folder / f"{hashlib.sha256(address.encode()).hexdigest()[:24]}.json"
    if kept.is_file() and time.time() - kept.stat().st_mtime < KEPT_S:
        return kept
    content = _asked(address)
    folder.mkdir(parents=True, exist_ok=True)
    temporary = kept.with_suffix(".new")
    temporary.write_bytes(content)
    temporary.replace(kept)
    return kept


def _asked(address: str) -> bytes:
    said = ""
    for attempt in range(TRIES):
        try:
            with urllib.request.urlopen(address, timeout=TIMEOUT_S) as answer:  # the scheme was looked at
                content: bytes = answer.read(5_000_000)
            json.loads(content)
            return content
        except urllib.error.HTTPError as error:
            said = f"answered {error.code}"
            if error.code < 500:
                break
        except (urllib.error.URLError, TimeoutError, ConnectionError) as error:
            said = f"could not be reached ({getattr(error, 'reason', error)})"
        except ValueError:
            said = "did not answer with JSON"
            break
        time.sleep(0.2 * attempt)
    raise _refused(address, said)
