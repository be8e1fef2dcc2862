"""A served folder under a mixed load for twenty minutes: calendars that look, people who read
pages, ticks, what befell, undoing and PDFs, all at once. No answer is wrong, memory is flat, and no
calendar waits for what takes seconds.

It stops by itself: each reader at its hour, the server with the campaign.
"""

import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path
from random import Random
from statistics import median

import httpx2 as httpx

from campaigns.records import Campaign, Figures
from machine import free_port
from served import ServedHome
from test_reader_programs import wait_for

SIZE = 1200  # seconds
# A small part of the campaign is a look in passing; memory is judged after half of it.
PASSING, HALF = 20, SIZE // 2
LAWNS = ("cool-overseed", "bermuda-sand", "transition-fescue")
# Seconds between two requests of each reader.
FEEDS, PAGES, TICKS, PDFS, SAMPLES = 0.1, 0.7, 12.0, 9.0, 5.0
READ = ("", "/did", "/season", "/calendar", "/print/day", "/print/week", "/season.ics")
# How much the memory of the second half may lie above that of the first once all has been asked
# for, in megabytes: what is read once stays.
GROWTH_MB = 12.0
MB = 1024.0


def serve(index: Path, port: int) -> None:
    """Serves as `turfplan serve` does, to more requests a minute."""
    import uvicorn

    from turfplan.serve.app import create_app
    from turfplan.serve.ticks import replan_apart
    from turfplan.serve.visit import ServerSettings

    app = create_app(ServerSettings(index=index, per_minute=10**9, replan=replan_apart))
    uvicorn.run(app, host="127.0.0.1", port=port, access_log=False, log_level="error")


@dataclass
class Load:
    """What the readers know of each other, and what they found."""

    base: str
    end: float
    seed: int
    faults: list[str] = field(default_factory=list)
    feeds: list[tuple[float, float, int]] = field(default_factory=list)
    pdfs: list[tuple[float, float]] = field(default_factory=list)
    counts: dict[str, int] = field(default_factory=dict)
    rss: list[float] = field(default_factory=list)

    def turns(self, pause: float) -> Iterator[None]:
        """One turn after the other, with a pause, until the hour of the campaign."""
        while time.monotonic() < self.end:
            yield
            time.sleep(min(pause, max(0.0, self.end - time.monotonic())))

    def client(self) -> httpx.Client:
        """Somebody who asks."""
        return httpx.Client(base_url=self.base, timeout=60, follow_redirects=False)

    def check(self, what: str, got: httpx.Response, *wanted: int) -> bool:
        """Counts an answer, and keeps what is wrong with it."""
        self.counts[what] = self.counts.get(what, 0) + 1
        if got.status_code not in wanted:
            self.faults.append(f"{what}: {got.status_code} {got.text[:80]!r}")
        return got.status_code in wanted


def run(count: int, seed: int, folder: Path) -> Figures:
    """So many seconds of load; fails where an answer is wrong, memory grows, or a calendar waits
    for a PDF."""
    seconds = count if count >= HALF else min(count, PASSING)
    home = ServedHome(folder)
    ticking = {name: f"/lawn/{home.token('edit', 'Ana', name=name)}" for name in LAWNS}
    feeds = [home.token("feed", name=name) for name in LAWNS for _ in range(3)]
    with _server(home.index) as (port, pid):
        load = Load(f"http://127.0.0.1:{port}", time.monotonic() + seconds, seed)
        works: list[Callable[[], None]] = [
            lambda: _feeds(load, feeds, 1),
            lambda: _feeds(load, feeds, 2),
            lambda: _pages(load, list(ticking.values())),
            lambda: _ticks(load, list(ticking.values())),
            lambda: _pdfs(load, list(ticking.values())),
            lambda: _samples(load, pid),
        ]
        threads = [threading.Thread(target=_told(load, work), daemon=True) for work in works]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join(seconds + 120)
        if any(thread.is_alive() for thread in threads):
            load.faults.append("a reader did not come to an end")
    return _judged(load, seconds)


def _told(load: Load, work: Callable[[], None]) -> Callable[[], None]:
    """A reader whose own failure is a fault of the campaign."""

    def told() -> None:
        try:
            work()
        except Exception as error:  # told with the other faults
            load.faults.append(f"{type(error).__name__}: {error}")

    return told


def _judged(load: Load, seconds: int) -> Figures:
    assert not load.faults, (len(load.faults), load.faults[:4], load.counts, load.rss[::12])
    beside = [took for at, took, _ in load.feeds if any(a <= at <= b for a, b in load.pdfs)]
    alone = [took for at, took, _ in load.feeds if not any(a <= at <= b for a, b in load.pdfs)]
    assert load.feeds and load.pdfs and beside, (len(load.feeds), len(load.pdfs))
    # Whoever had to wait for a PDF would wait as long as it takes.
    shortest = min(b - a for a, b in load.pdfs)
    assert median(beside) < max(shortest / 4, 0.05), (median(beside), shortest)
    # The first quarter is for what is read once.
    quarter = max(1, len(load.rss) // 4)
    early, late = median(load.rss[quarter : 2 * quarter] or load.rss), median(load.rss[-quarter:])
    if seconds >= HALF:
        assert late - early < GROWTH_MB, load.rss
    every = max(1, len(load.rss) // 12)
    return {
        **{f"asked_{name}": n for name, n in sorted(load.counts.items())},
        "not_modified": sum(status == 304 for *_, status in load.feeds),
        "faults": len(load.faults),
        "megabytes": " ".join(f"{mb:.0f}" for mb in load.rss[::every]),
        "growth_megabytes": round(late - early, 1),
        "feed_ms": _milliseconds(alone or beside),
        "feed_ms_beside_a_pdf": _milliseconds(beside),
    }


def _milliseconds(times: list[float]) -> str:
    """The middle, the slowest twentieth, the slowest."""
    ordered = sorted(times)
    found = (median(ordered), ordered[int(len(ordered) * 0.95)], ordered[-1])
    return " / ".join(f"{1000 * took:.1f}" for took in found)


@contextmanager
def _server(index: Path) -> Iterator[tuple[int, int]]:
    """A server in a process of its own, which ends with the block: its port and its number."""
    port = free_port()
    code = "import sys; from pathlib import Path; from campaigns.mixed import serve; "
    code += "serve(Path(sys.argv[1]), int(sys.argv[2]))"
    process = subprocess.Popen([sys.executable, "-c", code, str(index), str(port)])
    try:
        wait_for(port)
        yield port, process.pid
    finally:
        process.terminate()
        try:
            process.wait(20)
        except subprocess.TimeoutExpired:
            process.kill()


def _feeds(load: Load, feeds: list[str], number: int) -> None:
    """A calendar that looks at many feeds, most often with the validator that it has."""
    chance, seen = Random(load.seed + number), dict[str, str]()
    with load.client() as client:
        for _ in load.turns(FEEDS):
            feed = chance.choice(feeds)
            known = {"If-None-Match": seen[feed]} if feed in seen and chance.random() < 0.8 else {}
            at = time.monotonic()
            got = client.get(f"/feed/{feed}.ics", headers=known)
            load.feeds.append((at, time.monotonic() - at, got.status_code))
            load.check("feed", got, 200, 304)
            if got.status_code == 200:
                seen[feed] = got.headers["ETag"]
                if not got.content.startswith(b"BEGIN:VCALENDAR"):
                    load.faults.append("a feed is no calendar")


def _pages(load: Load, lawns: list[str]) -> None:
    """Somebody who reads one page after the other."""
    chance = Random(load.seed + 3)
    with load.client() as client:
        for _ in load.turns(PAGES):
            load.check("page", client.get(chance.choice(lawns) + chance.choice(READ)), 200)


def _ticks(load: Load, lawns: list[str]) -> None:
    """Somebody who tells what befell, and takes half of it back."""
    chance, today = Random(load.seed + 4), datetime.now(UTC).date().isoformat()
    with load.client() as client:
        for turn, _ in enumerate(load.turns(TICKS)):
            lawn = chance.choice(lawns)
            form = {"do": "befell", "what": "rain", "value": f"{turn % 9 + 1} mm", "on": today}
            form["keep"] = "yes"  # rain twice a day is asked about
            if load.check("tick", got := client.post(lawn, data=form), 303):
                number = httpx.URL(got.headers["location"]).params.get("told")
                undo = {"do": "undo", "number": number or ""}
                if number and turn % 2:
                    load.check("undo", client.post(lawn, data=undo), 303)


def _pdfs(load: Load, lawns: list[str]) -> None:
    """Somebody who prints."""
    chance = Random(load.seed + 5)
    with load.client() as client:
        for _ in load.turns(PDFS):
            at = time.monotonic()
            got = client.get(f"{chance.choice(lawns)}/{chance.choice(('day', 'week'))}.pdf")
            took = (at, time.monotonic())
            # What was printed before is at hand.
            if load.check("pdf", got, 200) and took[1] - at > 0.3:
                load.pdfs.append(took)
            if got.status_code == 200 and not got.content.startswith(b"%PDF"):
                load.faults.append("a PDF is none")


def _samples(load: Load, pid: int) -> None:
    """The memory of the server over time."""
    status = Path(f"/proc/{pid}/status")
    for _ in load.turns(SAMPLES):
        if status.exists():
            lines = status.read_text().splitlines()
            kilobytes = next(line.split()[1] for line in lines if line.startswith("VmRSS"))
            load.rss.append(int(kilobytes) / MB)


CAMPAIGN = Campaign("mixed", size=SIZE, seed=9, unit="seconds of load", run=run)
