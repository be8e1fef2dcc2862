"""Reads weather that is known: a saved forecast or daily file, or the answer of a server."""

import hashlib
import json
import time
from pathlib import Path
from urllib.parse import parse_qsl, urlencode, urlsplit, urlunsplit

from turfplan.climate.daily_series import DailySeries
from turfplan.climate.record import Climate
from turfplan.errors import Problem, TurfplanError, library_words, problem_message
from turfplan.files.reading.place import load_models
from turfplan.files.system_faults import refusal_of
from turfplan.files.whole_files import write_whole
from turfplan.message import Message, listed
from turfplan.phrases import weather as phrases
from turfplan.planning import Weather
from turfplan.user_cache import cache_folder
from turfplan.work.watering.request import weather_day

TIMEOUT_S = 10.0
TRIES = 3
KEPT_S = 3 * 3600.0
VARIABLES = "temperature_2m_max,temperature_2m_min,temperature_2m_mean,precipitation_sum"


def read_weather(
    climate: Climate, file: Path | None, url: str | None
) -> tuple[Weather | None, tuple[Message, ...]]:
    """Weather by day with what the user must know about it; None when nothing was given.

    Raises TurfplanError for a file or an answer that cannot be used, or a server that gives none.
    """
    place = (climate.latitude, climate.longitude)
    if url is not None:
        return _weather(climate, _answered(climate, url)), (phrases.keyless(),)
    if file is not None:
        from turfplan.files.reading.climate_files import read_series

        return _weather(climate, read_series(file, load_models(), place)), ()
    return None, ()


def _answered(climate: Climate, url: str) -> DailySeries:
    """The days of the server's answer; one that is none is told as the server's and not kept."""
    from turfplan.files.reading.climate_files import read_series

    path = _fetched(climate, url)
    try:
        # The user never sees the file of an answer: its faults are told without the name.
        return read_series(path, load_models(), (climate.latitude, climate.longitude), called="")
    except TurfplanError as error:
        path.unlink(missing_ok=True)
        faults = listed(map(problem_message, error.problems), "semicolon")
        message = phrases.unusable_answer(host=urlsplit(url).netloc, faults=faults)
        raise _refused(message) from None


def _refused(message: Message) -> TurfplanError:
    return TurfplanError(Problem("--weather-url", message, None, None, phrases.plan_without()))


def _weather(climate: Climate, series: DailySeries) -> Weather:
    columns = zip(series.dates, series.rain_mm, series.tmin_c, series.tmax_c, strict=True)
    return Weather(
        {
            day: weather_day(day, climate.latitude, rain_mm=rain, min_c=low, max_c=high)
            for day, rain, low, high in columns
        }
    )


def _fetched(climate: Climate, url: str) -> Path:
    """The server's answer as a file in the user's cache.

    One of the last three hours is not asked for again.
    """
    parts = urlsplit(url)
    if parts.scheme not in ("http", "https") or not parts.netloc:
        raise TurfplanError(Problem("--weather-url", phrases.not_http(), repr(url)))
    query = {
        "latitude": f"{climate.latitude:.4f}",
        "longitude": f"{climate.longitude:.4f}",
        "daily": VARIABLES,
        "timezone": climate.timezone,
        "forecast_days": "14",
    }
    address = urlunsplit(parts._replace(query=urlencode(query | dict(parse_qsl(parts.query)))))
    folder = cache_folder()
    kept = folder / f"{hashlib.sha256(address.encode()).hexdigest()[:24]}.json"
    if kept.is_file() and time.time() - kept.stat().st_mtime < KEPT_S:
        return kept
    content = _asked(address)
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    write_whole({kept: content})
    return kept


def _asked(address: str) -> bytes:
    # Only who asks a server needs what speaks to one.
    import urllib.error
    import urllib.request

    host = urlsplit(address).netloc
    refusal = phrases.not_json(host=host)
    for attempt in range(TRIES):
        try:
            # The scheme was looked at.
            with urllib.request.urlopen(address, timeout=TIMEOUT_S) as answer:
                content: bytes = answer.read(5_000_000)
            json.loads(content)
            return content
        except urllib.error.HTTPError as error:
            refusal = phrases.answered(host=host, code=str(error.code))
            if error.code < 500:
                break
        except (urllib.error.URLError, TimeoutError, ConnectionError) as error:
            reason = getattr(error, "reason", error)
            told = refusal_of(reason) if isinstance(reason, Exception) else library_words(reason)
            refusal = phrases.unreached(host=host, reason=told)
        except ValueError:
            refusal = phrases.not_json(host=host)
            break
        time.sleep(0.2 * attempt)
    raise _refused(refusal)
