"""Calendar programs follow three versions of a feed: the same events, moved dates arrive, cancelled
ones are shown as such.

Radicale (a CalDAV server), vdirsyncer with khal (a reader that subscribes), ical.js (a reader of
browsers) and calcurse (a reader of terminals) know nothing of this project. Each is skipped where
it is not installed.
"""

import json
import os
import shutil
import socket
import subprocess
import sys
import threading
import time
import urllib.request
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest
from icalendar import Calendar

from machine import free_port
from printed import season_ics
from test_seasons import Season, begun, done_until
from tiers import full
from turfplan.files import index as store
from turfplan.files.plan_folder import write_outputs
from turfplan.serve import tokens

HERE = Path(sys.executable).parent


def program(name: str) -> str | None:
    """A program beside this Python, or on the path."""
    beside = HERE / name
    return str(beside) if beside.is_file() else shutil.which(name)


@dataclass(frozen=True)
class Shown:
    """What a reader must show of an event: the local begin as `2027-09-05` or `2027-09-05T06:00`,
    of a series its first.
    """

    start: str
    summary: str
    cancelled: bool


def entries(content: bytes) -> dict[str, tuple[Shown, bytes]]:
    """The events of a calendar by UID, with their bytes."""
    found = {}
    for event in Calendar.from_ical(content).walk("VEVENT"):
        start = event["dtstart"].dt
        begin = f"{start:%Y-%m-%dT%H:%M}" if isinstance(start, datetime) else start.isoformat()
        one = Shown(begin, str(event["summary"]), event.get("status") == "CANCELLED")
        found[str(event["uid"])] = one, event.to_ical()
    return found


def shown(content: bytes) -> dict[str, Shown]:
    """What a reader must show of the events of a calendar, by UID."""
    return {uid: event for uid, (event, _) in entries(content).items()}


@pytest.fixture(scope="module")
def versions() -> tuple[bytes, ...]:
    """A season as it was planned; after rain on the day of the first pass; and after its owner gave
    up the seed.
    """
    season: Season = begun()
    first = season.day("topdress.1")
    done_until(season, first)
    plans = [season.make(first, hour=6)]
    season.log("rained_off", on=first)
    plans.append(season.make(first, hour=20))
    season.log("skipped", task="overseed", on=first + timedelta(days=1))
    plans.append(season.make(first + timedelta(days=1)))
    made = tuple(season_ics(plan) for plan in plans)
    before, moved, after = (shown(content) for content in made)
    assert sum(moved[uid].start != event.start for uid, event in before.items()) > 5
    # A pass that rain took comes back with its low cut and its holes.
    assert set(before) < set(moved) <= set(after)
    seed = season.plan.task("overseed").uid  # type: ignore[union-attr]
    assert after[seed].cancelled and not moved[seed].cancelled
    return made


def wait_for(port: int) -> None:
    """Until something listens, at most fifteen seconds."""
    end = time.monotonic() + 15
    while time.monotonic() < end:
        with socket.socket() as one:
            if one.connect_ex(("127.0.0.1", port)) == 0:
                return
        time.sleep(0.05)
    raise AssertionError(f"nothing listens on {port}")


@contextmanager
def running(words: list[str], port: int, env: Mapping[str, str] | None = None) -> Iterator[None]:
    """A server of its own process, until the end of the block."""
    server = subprocess.Popen(
        words,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        env=env and {**os.environ, **env},
    )
    try:
        wait_for(port)
        yield
    finally:
        server.terminate()
        server.wait(10)


@pytest.mark.full
def test_radicale_takes_every_version(versions: tuple[bytes, ...], tmp_path: Path) -> None:
    """Put whole, each version comes back with the same events, days, titles and states."""
    pytest.importorskip("radicale", reason="radicale is not installed")
    port = free_port()
    words = [
        sys.executable,
        "-m",
        "radicale",
        "--storage-filesystem-folder",
        str(tmp_path / "store"),
        "--auth-type",
        "none",
        "--server-hosts",
        f"127.0.0.1:{port}",
        "--rights-type",
        "authenticated",
        "--config",
        "",
    ]
    with running(words, port):
        for content in versions:
            address = f"http://127.0.0.1:{port}/owner/lawn/"
            headers = {
                "Content-Type": "text/calendar; charset=utf-8",
                "Authorization": "Basic b3duZXI6eA==",
            }
            put = urllib.request.Request(address, content, headers, method="PUT")
            with urllib.request.urlopen(put, timeout=20) as answer:
                assert answer.status == 201
            with urllib.request.urlopen(
                urllib.request.Request(address, headers=headers), timeout=20
            ) as answer:
                assert shown(answer.read()) == shown(content)


@contextmanager
def served(folder: Path, index: Path) -> Iterator[str]:
    """The project's own server on loopback; the address of a feed of the folder's."""
    pytest.importorskip("starlette", reason="the extra web is not installed")
    uvicorn = pytest.importorskip("uvicorn", reason="the extra web is not installed")
    from turfplan.serve.app import ServerSettings, create_app

    with store.opened(index) as connection:
        token = tokens.issue(connection, store.add_lawn(connection, folder), "feed")
    port = free_port()
    config = uvicorn.Config(
        create_app(ServerSettings(index=index, per_minute=10_000)),
        host="127.0.0.1",
        port=port,
        log_level="error",
        lifespan="off",
    )
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    wait_for(port)
    try:
        yield f"http://127.0.0.1:{port}/feed/{token}.ics"
    finally:
        server.should_exit = True
        thread.join(10)


VDIRSYNCER = """[general]
status_path = "{home}/status"
[pair lawn]
a = "feed"
b = "files"
collections = null
conflict_resolution = "a wins"
[storage feed]
type = "http"
url = "{url}"
[storage files]
type = "filesystem"
path = "{home}/events"
fileext = ".ics"
"""
KHAL = """[calendars]
[[lawn]]
path = {home}/events
readonly = True
[locale]
local_timezone = America/New_York
timeformat = %H:%M
dateformat = %Y-%m-%d
longdateformat = %Y-%m-%d
datetimeformat = %Y-%m-%d %H:%M
longdatetimeformat = %Y-%m-%d %H:%M
[sqlite]
path = {home}/khal.db
"""


@full
def test_vdirsyncer_and_khal_follow(versions: tuple[bytes, ...], tmp_path: Path) -> None:
    """A subscriber who syncs after each version sees each event once, on its new day, cancelled
    ones as cancelled.

    vdirsyncer names an event that it fetched by a hash of its words and days, so what has not
    changed must keep its file, and cancelled waterings of one day that say the same are one to it.
    """
    sync, khal = program("vdirsyncer"), program("khal")
    if sync is None or khal is None:
        pytest.skip("vdirsyncer or khal is not installed")
    folder, home = tmp_path / "lawn", tmp_path / "home"
    folder.mkdir()
    (home / "events").mkdir(parents=True)
    (folder / "plan.json").write_text('{"lawn_id": "test-lawn"}')
    write_outputs(folder, {"season.ics": versions[0]})
    with served(folder, tmp_path / "index") as url:
        (home / "vdirsyncer.conf").write_text(VDIRSYNCER.format(home=home, url=url))
        (home / "khal.conf").write_text(KHAL.format(home=home))
        env = {**os.environ, "HOME": str(home), "VDIRSYNCER_CONFIG": str(home / "vdirsyncer.conf")}
        said(env, sync, "discover", answers="y\n" * 5)
        names: dict[Shown, str] = {}
        before: dict[str, tuple[Shown, bytes]] = {}
        for content in versions:
            write_outputs(folder, {"season.ics": content})
            said(env, sync, "sync", "--force-delete")
            files = {path.name: path.read_bytes() for path in (home / "events").glob("*.ics")}
            kept = {event: name for name, raw in files.items() for event in shown(raw).values()}
            assert len(files) == len(kept) and set(kept) == set(shown(content).values())
            same = {
                event
                for uid, (event, raw) in entries(content).items()
                if before.get(uid) == (event, raw)
            }
            assert all(kept[event] == names[event] for event in same) and (same or not names)
            names, before = kept, entries(content)
            assert khal_lists(env, khal, home) == {
                (event.start, event.summary, event.cancelled) for event in shown(content).values()
            }


def said(env: Mapping[str, str], *words: str, answers: str = "") -> str:
    """What a program prints; it must end well."""
    run = subprocess.run(
        words, input=answers, env=env, text=True, capture_output=True, timeout=120, check=False
    )
    assert run.returncode == 0, (words, run.stderr)
    return run.stdout


def khal_lists(env: Mapping[str, str], khal: str, home: Path) -> set[tuple[str, str, bool]]:
    """The begin, title and state of everything that khal shows in two years; of a series its
    first.
    """
    form = "{uid}\t{start-date}T{start-time}\t{title}\t{status}"
    listing = ("list", "--notstarted", "--format", form, "--day-format", "", "2027-01-01", "800d")
    found: dict[str, tuple[str, str, bool]] = {}
    for line in said(env, khal, "-c", str(home / "khal.conf"), *listing).splitlines():
        if line.count("\t") == 3:
            uid, day, title, status = line.split("\t")
            found.setdefault(uid, (day.removesuffix("T"), title, "CANCELLED" in status))
    return set(found.values())


@full
def test_browsers_follow(versions: tuple[bytes, ...], tmp_path: Path) -> None:
    """ical.js reads every version with the same UIDs, days and states."""
    node = shutil.which("node")
    code = (
        "const I=require('ical.js').default||require('ical.js');"
        "const c=new I.Component(I.parse(require('fs')"
        ".readFileSync(process.argv[1],'utf8')));const o={};"
        "for(const v of c.getAllSubcomponents('vevent')){"
        "const e=new I.Event(v);o[e.uid]=[e.startDate.toString().slice(0,16),e.summary,"
        "v.getFirstPropertyValue('status')"
        "==='CANCELLED'];}console.log(JSON.stringify(o))"
    )
    path = tmp_path / "season.ics"
    path.write_bytes(versions[0])
    if (
        node is None
        or subprocess.run(
            [node, "-e", "require('ical.js')"], capture_output=True, check=False
        ).returncode
    ):
        pytest.skip("node with ical.js is not here (NODE_PATH says where it is)")
    for content in versions:
        path.write_bytes(content)
        run = subprocess.run(
            [node, "-e", code, str(path)], capture_output=True, text=True, check=True
        )
        read = {
            uid: Shown(day, title, gone)
            for uid, (day, title, gone) in json.loads(run.stdout).items()
        }
        assert read == shown(content)


@full
def test_calcurse_reads_every_version(versions: tuple[bytes, ...], tmp_path: Path) -> None:
    """calcurse imports every version whole: nothing skipped, each single job on its day."""
    calcurse = shutil.which("calcurse")
    if calcurse is None:
        pytest.skip("calcurse is not installed")
    for number, content in enumerate(versions):
        path, home = tmp_path / f"{number}.ics", tmp_path / f"home{number}"
        path.write_bytes(content)
        home.mkdir()
        base = [calcurse, "-D", str(home), "-C", str(home)]
        done = subprocess.run(
            [*base, "-q", "-i", str(path)], capture_output=True, text=True, timeout=60, check=False
        )
        assert done.returncode == 0 and "skipped" not in done.stderr, done.stderr
        jobs = [e for e in shown(content).values() if not e.summary.startswith("Water")]
        for event in jobs:
            words = [
                *base,
                "-Q",
                "--from",
                f"{date.fromisoformat(event.start[:10]):%m/%d/%Y}",
                "--days",
                "1",
            ]
            said = subprocess.run(
                words, capture_output=True, text=True, timeout=60, check=True
            ).stdout
            assert event.summary in said, (event, said)
