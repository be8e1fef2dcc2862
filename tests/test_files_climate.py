"""Climate files as people have them, whole and broken, and a weather server on loopback.

The station normals of NCEI come from `../shared/data/climate` (Lebanon, New Hampshire); everything
else is made up here.
"""

import gzip
import json
import shutil
import threading
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path
from typing import Any

import pytest

from planning import LAWN_ID, SHARED, TODAY, brief_of, climate_at
from told import all_told, told
from turfplan.app.inputs import input_of
from turfplan.climate.daily_series import DailySeries
from turfplan.climate.evapotranspiration import (
    DayWeather,
    et0_mm,
    extraterrestrial_mj_m2,
    hargreaves_mm,
    saturation_kpa,
    wind_at_2m_m_s,
)
from turfplan.climate.record import Climate
from turfplan.errors import TurfplanError
from turfplan.files.reading.climate_files import read_climate_file, read_series
from turfplan.files.reading.place import load_models, located
from turfplan.files.reading.weather import read_weather
from turfplan.planning import KnownPlace, make_plan
from turfplan.records.brief import parse_brief

NCEI = SHARED / "data" / "climate"
station_files = pytest.mark.skipif(
    not NCEI.is_dir(), reason="the station normals are not beside the checkout"
)
PLACE = (41.4, -97.7)
MODELS = load_models()


def days_of(years: int, first: int = 2001) -> list[date]:
    start = date(first, 1, 1)
    return [start + timedelta(days=k) for k in range((date(first + years, 1, 1) - start).days)]


def low_high(day: date) -> tuple[float, float]:
    """A made-up continental year."""
    from math import cos, pi

    mean = 10 - 14 * cos(2 * pi * (day.timetuple().tm_yday - 18) / 365)
    return round(mean - 6, 1), round(mean + 6, 1)


def wide(
    days: list[date],
    *,
    flagged: frozenset[date] = frozenset(),
    latitude: float = 41.4,
    scale: float = 10,
) -> str:
    """GHCN-Daily, one station, a row a day, tenths; the quality flag is the second of the
    attributes.
    """
    rows = [
        '"STATION","DATE","LATITUDE","LONGITUDE","NAME","TMIN","TMIN_ATTRIBUTES","TMAX",'
        '"TMAX_ATTRIBUTES","PRCP","PRCP_ATTRIBUTES"'
    ]
    for day in days:
        low, high = low_high(day)
        flag = ",I,7" if day in flagged else ",,7"
        rows.append(
            f'"USX00000001","{day}","{latitude}","-97.7","MADE UP",{low * scale:.0f},"{flag}",'
            f'{high * scale:.0f},"{flag}",20,",,7"'
        )
    return "\n".join(rows) + "\n"


def dly(days: list[date]) -> str:
    """GHCN-Daily in fixed columns: a line a month and element."""
    months: dict[tuple[int, int], list[date]] = {}
    for day in days:
        months.setdefault((day.year, day.month), []).append(day)
    lines = []
    for (year, month), its in months.items():
        for element in ("TMAX", "TMIN", "PRCP", "SNOW"):
            cells = []
            for number in range(1, 32):
                day = next((d for d in its if d.day == number), None)
                if day is None:
                    cells.append("-9999   ")
                    continue
                low, high = low_high(day)
                value = {"TMAX": high * 10, "TMIN": low * 10, "PRCP": 20, "SNOW": 0}[element]
                cells.append(f"{value:5.0f}  7")
            lines.append(f"USX00000001{year}{month:02}{element}" + "".join(cells))
    return "\n".join(lines) + "\n"


def elements(days: list[date]) -> str:
    """GHCN-Daily by year: a row for each station, day and element."""
    rows = []
    for day in days:
        low, high = low_high(day)
        for element, value in (("TMIN", low * 10), ("TMAX", high * 10), ("PRCP", 20)):
            rows.append(f"USX00000001,{day:%Y%m%d},{element},{value:.0f},,,7,")
    return "\n".join(rows) + "\n"


def answer(days: list[date], *, fahrenheit: bool = False, **changes: Any) -> str:
    """An answer of a weather server."""

    def degrees(value: float) -> float:
        return round(value * 1.8 + 32, 2) if fahrenheit else value

    pairs = [low_high(day) for day in days]
    data = {
        "latitude": 41.4,
        "longitude": -97.7,
        "utc_offset_seconds": 0,
        "daily_units": {
            "time": "iso8601",
            "temperature_2m_min": "°F" if fahrenheit else "°C",
            "temperature_2m_max": "°F" if fahrenheit else "°C",
            "precipitation_sum": "inch" if fahrenheit else "mm",
        },
        "daily": {
            "time": [str(day) for day in days],
            "temperature_2m_min": [degrees(low) for low, _ in pairs],
            "temperature_2m_max": [degrees(high) for _, high in pairs],
            "precipitation_sum": [2 / 25.4 if fahrenheit else 2.0 for _ in days],
        },
    }
    return json.dumps(data | changes)


def epw(*, more: bool = False, blank: int | None = None) -> str:
    """A typical year of hours; with `more`, dew point, radiation and wind too, one of these columns
    left out in one month.
    """
    head = ["LOCATION,Made up,NE,USA,TMY,000000,41.4,-97.7,-6.0,500.0"] + ["x"] * 7
    rows = []
    for day in days_of(1):
        low, high = low_high(day)
        for hour in range(24):
            value = low if hour < 12 else high
            cells = [
                str(day.year),
                str(day.month),
                str(day.day),
                str(hour + 1),
                "60",
                "?9",
                f"{value:.1f}",
            ] + ["0"] * 28
            if more:
                cells[7], cells[13], cells[21] = (
                    f"{low - 2:.1f}",
                    "500" if 8 <= hour < 18 else "0",
                    "3.0",
                )
            if blank is not None and day.month == 7:
                cells[blank] = {7: "99.9", 13: "9999", 21: "999"}[blank]
            rows.append(",".join(cells))
    return "\n".join(head + rows) + "\n"


FORMATS: dict[str, tuple[str, Callable[[list[date]], str]]] = {
    "wide": ("station.csv", wide),
    "dly": ("station.dly", dly),
    "elements": ("year.csv", elements),
    "answer": ("archive.json", answer),
    "answer in US units": ("archive.json", lambda days: answer(days, fahrenheit=True)),
}


@pytest.mark.parametrize("name", FORMATS)
def test_every_format_gives_the_same_days(tmp_path: Path, name: str) -> None:
    """Whatever the format, the same days come out, in degrees C and mm."""
    file, write = FORMATS[name]
    path = tmp_path / file
    days = days_of(1)
    path.write_text(write(days), encoding="utf-8")
    series = read_series(path, MODELS, PLACE)
    assert series.dates == tuple(days)
    for k in range(0, 365, 31):
        low, high = low_high(days[k])
        assert series.tmin_c[k] == pytest.approx(low, abs=0.06) and series.tmax_c[
            k
        ] == pytest.approx(high, abs=0.06)
        assert series.rain_mm[k] == pytest.approx(2, abs=0.01)


@pytest.mark.parametrize("name", FORMATS)
def test_ten_years_give_normals(tmp_path: Path, name: str) -> None:
    """A series of ten years gives normals, frosts of its own and its years; nine years are refused
    with a hint.
    """
    file, write = FORMATS[name]
    path = tmp_path / file
    path.write_text(write(days_of(10)), encoding="utf-8")
    found = read_climate_file(path, MODELS, PLACE)
    assert found.series is not None and "10 whole years, 2001 to 2010" in told(found.source)
    for index, day in ((14, date(2001, 1, 15)), (195, date(2001, 7, 15))):
        assert found.normals.mean_c[index] == pytest.approx(sum(low_high(day)) / 2, abs=0.3)
    assert found.normals.frost_known and found.normals.last_frost is not None
    path.write_text(write(days_of(9)), encoding="utf-8")
    with pytest.raises(TurfplanError, match="too short for normals") as raised:
        read_climate_file(path, MODELS, PLACE)
    assert raised.value.problems[0].hint is not None


def test_packed_files_and_marks_of_encoding_are_read(tmp_path: Path) -> None:
    """A gzipped file and one with a byte order mark are read like the plain one."""
    days = days_of(1)
    packed, marked = tmp_path / "a.csv.gz", tmp_path / "b.csv"
    packed.write_bytes(gzip.compress(wide(days).encode()))
    marked.write_text(wide(days), encoding="utf-8-sig")
    assert read_series(packed, MODELS, PLACE) == read_series(marked, MODELS, PLACE)


def test_flagged_values_are_left_out_and_told(tmp_path: Path) -> None:
    """Values that failed a quality check are no values; the gap is told with the source."""
    days = days_of(12)
    bad = frozenset(days[100:130])
    path = tmp_path / "station.csv"
    path.write_text(wide(days, flagged=bad), encoding="utf-8")
    found = read_climate_file(path, MODELS, PLACE)
    assert found.series is not None
    assert (
        all(found.series.tmin_c[k] is None for k in range(100, 130))
        and found.series.tmin_c[99] is not None
    )
    assert "30 of 4383 days without a temperature, 30 of them in a row" in told(found.source)


def test_a_typical_year_counts_as_many(tmp_path: Path) -> None:
    """An EPW file gives normals without frosts or real years; its empty rain column is no rain, not
    a desert.
    """
    path = tmp_path / "typical.epw"
    path.write_text(epw(), encoding="utf-8")
    found = read_climate_file(path, MODELS, PLACE)
    assert found.normals.rain_mm is None and not found.normals.frost_known
    assert found.normals.mean_c[195] == pytest.approx(24, abs=0.6)
    climate = located(
        place_of({"latitude": 41.4, "longitude": -97.7, "normals": "typical.epw"}), tmp_path
    ).climate
    assert sum(climate.rain_mm) == pytest.approx(sum(climate_at(41.4, -97.7).rain_mm), rel=0.01)


def place_of(place: dict[str, Any]):  # type: ignore[no-untyped-def]
    return parse_brief({"lawn": {"area": "100 m2", "grass": "tall_fescue"}, "place": place}).place


def _cut(text: str, line: int, width: int) -> str:
    lines = text.splitlines()
    lines[line - 1] = lines[line - 1][:width]
    return "\n".join(lines[:line]) + "\n"


BROKEN = {
    "word for a number": (
        "a.csv",
        wide(days_of(1)).replace(
            '"USX00000001","2001-03-05","41.4","-97.7","MADE UP",',
            '"USX00000001","2001-03-05","41.4","-97.7","MADE UP",x',
            1,
        ),
        ("line 65", "column TMIN", "not a number"),
    ),
    "row cut off": ("a.csv", _cut(wide(days_of(1)), 40, 30), ("line 40", "cut off")),
    "no such date": (
        "a.csv",
        wide(days_of(1)).replace("2001-02-10", "2001-02-31"),
        ("line 42", "column DATE", "not a date"),
    ),
    "wrong unit": (
        "a.csv",
        wide(days_of(1), scale=180),
        ("line 2", "column TMIN", "look at the unit"),
    ),
    "day twice": (
        "a.csv",
        wide(days_of(1)) + wide(days_of(1)).splitlines()[5] + "\n",
        ("line 367", "twice"),
    ),
    "dly cut off": ("a.dly", _cut(dly(days_of(1)), 9, 60), ("line 9", "cut off")),
    "two stations": (
        "a.csv",
        elements(days_of(1)).replace("USX00000001,20010601", "USX00000002,20010601"),
        ("several stations",),
    ),
    "json cut off": ("a.json", answer(days_of(1))[:900], ("line 1", "not whole JSON")),
    "columns differ": (
        "a.json",
        answer(days_of(1)).replace(", 2.0]", "]"),
        ("precipitation_sum", "as long as its times"),
    ),
    "a refusal": (
        "a.json",
        json.dumps({"error": True, "reason": "too many"}),
        ("reports an error", "too many"),
    ),
    "epw cut off": ("a.epw", "\n".join(epw().splitlines()[:4000]), ("line 4000", "not whole")),
    "another place": ("a.csv", wide(days_of(11), latitude=48.0), ("another place", "48.00")),
    "not a climate file": ("a.csv", "a,b\n1,2\n", ("not a climate file",)),
    "empty": ("a.csv", "", ("not a climate file",)),
}


@pytest.mark.parametrize("case", BROKEN)
def test_a_broken_file_says_where(tmp_path: Path, case: str) -> None:
    """Broken, cut off, in another unit or of another place: the error names file, line and
    column.
    """
    name, text, words = BROKEN[case]
    path = tmp_path / name
    path.write_text(text, encoding="utf-8")
    with pytest.raises(TurfplanError) as raised:
        read_climate_file(path, MODELS, PLACE)
    said = "; ".join(f"{problem} {told(problem.hint)}" for problem in raised.value.problems)
    assert name in said
    for word in words:
        assert word in said, said


def test_binary_and_absent_files(tmp_path: Path) -> None:
    """A picture is no text file, and a file that is not there is not guessed at."""
    (tmp_path / "a.csv").write_bytes(b"\x89PNG\xff\xfe\x00")
    for name, words in (("a.csv", "not a text file"), ("b.csv", "no such file")):
        with pytest.raises(TurfplanError, match=words):
            read_climate_file(tmp_path / name, MODELS, PLACE)


def test_falling_back_only_when_told_to(tmp_path: Path) -> None:
    """A file that cannot be used is an error; only the option brings the grid, and says so."""
    (tmp_path / "a.csv").write_text("a,b\n1,2\n", encoding="utf-8")
    place = place_of({"latitude": 41.4, "longitude": -97.7, "normals": "a.csv"})
    with pytest.raises(TurfplanError):
        located(place, tmp_path)
    found = located(place, tmp_path, fall_back=True)
    assert found.climate.air_mean_c == climate_at(41.4, -97.7).air_mean_c
    note = told(found.notes[0])
    assert "was left out" in note and "as asked" in note
    with pytest.raises(TurfplanError):
        located(place_of({"normals": "a.csv"}), tmp_path, fall_back=True)


@station_files
@pytest.mark.parametrize("kind", ["monthly", "daily"])
def test_station_normals_of_ncei(kind: str) -> None:
    """Lebanon NH: January, July and yearly rain as the files print them; frosts from the annual
    file beside them.
    """
    path = NCEI / f"NCEI_{kind}_USW00094765.csv"
    found = read_climate_file(path, MODELS, (43.63, -72.30))
    months = found.normals.months_c()
    printed = [
        row.split('","') for row in (NCEI / "NCEI_monthly_USW00094765.csv").read_text().splitlines()
    ]
    column = printed[0].index("MLY-TAVG-NORMAL")
    for month in (0, 6):
        wanted = (float(printed[1 + month][column].strip(' "')) - 32) / 1.8
        assert months[month] == pytest.approx(wanted, abs=0.35)
    assert found.normals.frost_known and found.normals.last_frost is not None
    annual = (NCEI / "NCEI_annual_USW00094765.csv").read_text().splitlines()
    names = [name.strip('" ') for name in annual[0].split(",")]
    text = annual[1].split('","')[names.index("ANN-TMIN-PRBLST-T32FP50")].strip(' "')
    month, day = (int(part) for part in text.replace("-", "/").split("/"))
    assert found.normals.last_frost.median == date(2027, month, day).timetuple().tm_yday - 1
    assert sum(found.normals.months_mm()) == pytest.approx(1000, abs=150)


@station_files
def test_station_normals_without_their_frosts(tmp_path: Path) -> None:
    """Alone, the monthly file has no frosts: they are estimated, and the source says so.

    A year that is not whole is an error.
    """
    path = tmp_path / "monthly.csv"
    shutil.copyfile(NCEI / "NCEI_monthly_USW00094765.csv", path)
    path.chmod(0o644)
    found = read_climate_file(path, MODELS, (43.63, -72.30))
    assert not found.normals.frost_known and "estimated" in told(found.source)
    path.write_text("\n".join(path.read_text().splitlines()[:9]) + "\n")
    with pytest.raises(TurfplanError, match="not whole"):
        read_climate_file(path, MODELS, (43.63, -72.30))
    annual = tmp_path / "annual.csv"
    shutil.copyfile(NCEI / "NCEI_annual_USW00094765.csv", annual)
    with pytest.raises(TurfplanError, match="annual values"):
        read_climate_file(annual, MODELS, (43.63, -72.30))


class Server:
    """A weather server on loopback that answers from a list: a status with a body each time."""

    def __init__(self, *answers: tuple[int, bytes]) -> None:
        self.asked: list[str] = []
        self.answers = list(answers)
        outer = self

        class Handler(BaseHTTPRequestHandler):
            def do_GET(self) -> None:
                outer.asked.append(self.path)
                status, body = outer.answers[min(len(outer.asked), len(outer.answers)) - 1]
                self.send_response(status)
                self.send_header("Content-Length", str(len(body)))
                self.end_headers()
                self.wfile.write(body)

            def log_message(self, format: str, *args: object) -> None:
                """Say nothing."""

        self.server = HTTPServer(("127.0.0.1", 0), Handler)
        self.url = f"http://127.0.0.1:{self.server.server_port}/v1/forecast"
        threading.Thread(target=self.server.serve_forever, daemon=True).start()

    def close(self) -> None:
        self.server.shutdown()
        self.server.server_close()


@pytest.fixture
def serve(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Callable[..., Server]]:
    """Servers that are closed at the end; the cache lies in the test's own folder."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    running: list[Server] = []

    def start(*answers: tuple[int, bytes]) -> Server:
        running.append(Server(*answers))
        return running[-1]

    yield start
    for server in running:
        server.close()


@pytest.fixture(scope="module")
def climate() -> Climate:
    return climate_at(*PLACE)


KEYLESS = (
    "Forecasts without a key are for non-commercial users only; a business needs its own "
    "arrangement with the server."
)
FORECAST = answer([date(2027, 9, 1) + timedelta(days=k) for k in range(14)]).encode()


def test_a_forecast_is_asked_for_once(serve: Callable[..., Server], climate: Climate) -> None:
    """The first plan asks with place and variables, the next one within hours reads the cache; the
    terms are told each time.
    """
    server = serve((200, FORECAST))
    for _ in range(2):
        weather, notes = read_weather(climate, None, server.url)
        assert weather is not None and len(weather.days) == 14 and all_told(notes) == (KEYLESS,)
        assert weather.days[date(2027, 9, 3)].rain_mm == 2.0
    assert len(server.asked) == 1
    assert "latitude=41.4000" in server.asked[0] and "precipitation_sum" in server.asked[0]


def test_a_failing_server_is_asked_again(serve: Callable[..., Server], climate: Climate) -> None:
    """A fault of the server's is tried again; a third one is an error that names the host and
    another way.
    """
    server = serve((503, b"later"), (200, FORECAST))
    assert read_weather(climate, None, server.url)[0] is not None
    assert len(server.asked) == 2
    down = serve((500, b""))
    with pytest.raises(TurfplanError, match="answered 500") as raised:
        read_weather(climate, None, down.url)
    assert len(down.asked) == 3 and "--weather" in told(raised.value.problems[0].hint)


@pytest.mark.parametrize(
    ("status", "body", "words"),
    [
        (404, b"", "answered 404"),
        (200, b"<html>", "JSON"),
        (200, b"{}", "gave an answer that cannot be used"),
    ],
)
def test_answers_that_are_none(
    serve: Callable[..., Server], climate: Climate, status: int, body: bytes, words: str
) -> None:
    """A refusal, a web page and an empty answer are errors, are not asked for again and are not
    kept.
    """
    server = serve((status, body), (200, FORECAST))
    with pytest.raises(TurfplanError, match=words):
        read_weather(climate, None, server.url)
    assert len(server.asked) == 1
    assert read_weather(climate, None, server.url)[0] is not None


@pytest.mark.parametrize(
    "url", ["ftp://example.org/x", "file:///etc/passwd", "nonsense", "http://"]
)
def test_only_http_is_asked(climate: Climate, url: str) -> None:
    """Nothing but http and https is opened."""
    with pytest.raises(TurfplanError, match="http"):
        read_weather(climate, None, url)


def test_nobody_is_asked_unasked(climate: Climate) -> None:
    """Without a file or an address there is no weather, and no note."""
    assert read_weather(climate, None, None) == (None, ())


def test_a_closed_port_is_told(serve: Callable[..., Server], climate: Climate) -> None:
    """A server that cannot be reached is an error with its name."""
    server = serve((200, FORECAST))
    url = server.url
    server.close()
    server.close = lambda: None  # type: ignore[method-assign]  # it is closed
    with pytest.raises(TurfplanError, match="could not be reached"):
        read_weather(climate, None, url)


def test_gaps_between_days_are_holes(tmp_path: Path) -> None:
    """Days that a file skips are there, with nothing known of them."""
    days = [day for day in days_of(1) if day.month != 6]
    path = tmp_path / "a.csv"
    path.write_text(wide(days), encoding="utf-8")
    series: DailySeries = read_series(path, MODELS, PLACE)
    assert len(series.dates) == 365 and series.gaps() == (30, 30)


def penman_monteith(elevation_m: float) -> list[float]:
    """Day by day for the weather of `epw(more=True)`: 5000 Wh/m2 of sun, 3 m/s at 10 m, dew point 2
    C below the night.
    """
    found = []
    for day in days_of(1):
        low, high = low_high(day)
        weather = DayWeather(
            day.timetuple().tm_yday,
            low,
            high,
            5000 * 0.0036,
            saturation_kpa(low - 2),
            wind_at_2m_m_s(3.0, 10),
        )
        found.append(et0_mm(weather, PLACE[0], elevation_m))
    return found


def mean_of_fortnight(values: list[float], day: int) -> float:
    """The mean of the 15 days around a day."""
    return sum(values[day - 7 : day + 8]) / 15


def with_more(days: list[date], height: float | None = 500.0, **changes: Any) -> str:
    """An answer of a weather server with the same radiation, wind and dew point as
    `epw(more=True)`.
    """
    data = json.loads(answer(days))
    data["elevation"] = height
    data["daily_units"] |= {
        "shortwave_radiation_sum": "MJ/m²",
        "wind_speed_10m_mean": "km/h",
        "dew_point_2m_mean": "°C",
    }
    data["daily"] |= {
        "shortwave_radiation_sum": [18.0 for _ in days],
        "wind_speed_10m_mean": [10.8 for _ in days],
        "dew_point_2m_mean": [low_high(day)[0] - 2 for day in days],
    }
    data["daily"] |= changes
    return json.dumps(data)


HERE = {"latitude": PLACE[0], "longitude": PLACE[1]}
PENMAN = "evapotranspiration by Penman-Monteith from its radiation, humidity and wind"


@pytest.mark.parametrize(
    ("name", "text"),
    [("typical.epw", epw(more=True)), ("archive.json", with_more(days_of(12)))],
    ids=["epw", "answer"],
)
def test_water_use_is_penman_monteith_s_where_a_file_has_all_it_takes(
    tmp_path: Path, name: str, text: str
) -> None:
    """Radiation, humidity and wind in the file: equation 6 day by day, a mean over about a
    fortnight, and the source says so.
    """
    (tmp_path / name).write_text(text, encoding="utf-8")
    climate = located(place_of({"normals": name, **HERE}), tmp_path).climate
    expected = penman_monteith(500)
    for day in (20, 100, 200, 300):
        assert climate.et0_mm[day] == pytest.approx(mean_of_fortnight(expected, day), rel=5e-3)
    assert PENMAN in told(climate.source)


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("typical.epw", epw()),
        *((f"without-{column}.epw", epw(more=True, blank=column)) for column in (7, 13, 21)),
        ("low.json", with_more(days_of(12), height=None)),
        ("windless.json", with_more(days_of(12), wind_speed_10m_mean=[None for _ in days_of(12)])),
        ("plain.json", answer(days_of(12))),
    ],
    ids=lambda value: value if len(value) < 30 else "",
)
def test_water_use_is_hargreaves_where_a_part_is_missing(
    tmp_path: Path, name: str, text: str
) -> None:
    """Without dew point, radiation or wind over a month, or without the height of the ground,
    temperatures alone decide.
    """
    (tmp_path / name).write_text(text, encoding="utf-8")
    climate = located(place_of({"normals": name, **HERE}), tmp_path).climate
    low, high = climate.air_min_c[190], climate.air_max_c[190]
    assert climate.et0_mm[190] == hargreaves_mm(
        low, high, extraterrestrial_mj_m2(climate.latitude, 191)
    )
    assert "Penman" not in told(climate.source)


def test_a_humid_server_s_hours_and_its_own_evapotranspiration(tmp_path: Path) -> None:
    """Hours of watts, knots and per cents give the days; a column of reference evapotranspiration
    is taken as it stands.
    """
    days = days_of(1)
    hours = [f"{day}T{hour:02}:00" for day in days for hour in range(24)]
    columns = {
        "temperature_2m": ("°C", [low_high(day)[hour >= 12] for day in days for hour in range(24)]),
        "shortwave_radiation": (
            "W/m²",
            [500.0 if 8 <= hour < 18 else 0.0 for _ in days for hour in range(24)],
        ),
        "wind_speed_10m": ("kn", [3 * 3600 / 1852 for _ in hours]),
        "relative_humidity_2m": ("%", [60.0 for _ in hours]),
    }
    data = {
        "latitude": 41.4,
        "longitude": -97.7,
        "elevation": 500.0,
        "hourly_units": {name: unit for name, (unit, _) in columns.items()},
        "hourly": {"time": hours, **{name: values for name, (_, values) in columns.items()}},
    }
    path = tmp_path / "hours.json"
    path.write_text(json.dumps(data), encoding="utf-8")
    series = read_series(path, MODELS, PLACE)
    assert series.et0_mm is not None
    low, high = low_high(days[180])
    vapour = 0.6 * (saturation_kpa(low) + saturation_kpa(high)) / 2
    weather = DayWeather(181, low, high, 18.0, vapour, wind_at_2m_m_s(3.0, 10))
    assert series.et0_mm[180] == pytest.approx(et0_mm(weather, 41.4, 500.0), rel=1e-6)
    data["hourly_units"]["et0_fao_evapotranspiration"] = "mm"
    data["hourly"]["et0_fao_evapotranspiration"] = [0.125 for _ in hours]
    path.write_text(json.dumps(data), encoding="utf-8")
    assert read_series(path, MODELS, PLACE).et0_mm == (3.0,) * 365


def test_a_plan_waters_by_its_file_s_penman_monteith(tmp_path: Path) -> None:
    """A whole plan from a brief with such a file: its curve is the file's, its source says so, and
    its waterings differ.
    """
    plans = {}
    for name, text in (("typical.epw", epw(more=True)), ("plain.epw", epw())):
        (tmp_path / name).write_text(text, encoding="utf-8")
        brief = brief_of({"place": {"postal_code": None, "normals": name, **HERE}})
        given = input_of(brief, tmp_path)
        plans[name] = make_plan(
            brief, given.book, KnownPlace(given.climate), now=TODAY, lawn_id=LAWN_ID
        )
    climate = plans["typical.epw"].climate
    assert PENMAN in told(climate.source)
    expected = penman_monteith(500)
    for day, mm in zip(climate.day_of_year, climate.et0_mm, strict=True):
        if 7 <= day <= 350:
            assert mm == pytest.approx(mean_of_fortnight(expected, day), abs=0.006)
    waterings = [
        [task.series for task in plan.tasks if task.series is not None] for plan in plans.values()
    ]
    assert waterings[0] and waterings[0] != waterings[1]
