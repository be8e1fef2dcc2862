"""Killed at random moments, publishing and serving leave whole feeds, a whole journal and an index that opens.

The same for planning is in `test_store_folder`, for the journal in `test_readers_journal`.
"""

import http.client
import os
import random
import signal
import socket
import subprocess
import sys
import threading
import time
import urllib.error
import urllib.parse
import urllib.request
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from planning import EXAMPLES, ROOT, example
from turfplan.cli.running import outputs
from turfplan.readers.journal import read_journal
from turfplan.readers.plan_file import read_plan
from turfplan.store import index as store
from turfplan.store import tokens
from turfplan.store.folder import folder_lock, write_outputs

KILLS = int(os.environ.get("TURFPLAN_KILLS", "12"))
ROUNDS = max(3, KILLS // 4)
WHOLE = b"BEGIN:VCALENDAR\r\n", b"END:VCALENDAR\r\n"


@pytest.fixture(scope="module")
def versions() -> list[Mapping[str, bytes]]:
    """The folder of a plan in two versions."""
    plan = example("bermuda-sand")
    other = plan.model_copy(update={"lawn": plan.lawn.model_copy(update={"name": "Another name"})})
    return [outputs(plan), outputs(other)]


PUBLISHING = """
import sys
from pathlib import Path
from typer.testing import CliRunner
from turfplan.cli import app
from turfplan.store.folder import write_outputs
folder, web, feeds = Path(sys.argv[1]), sys.argv[2], [Path(name).read_bytes() for name in sys.argv[3:]]
turn = 0
while True:
    turn += 1
    write_outputs(folder, {"season.ics": feeds[turn % 2]})
    print(CliRunner().invoke(app, ["publish", str(folder), "--to", web]).exit_code, flush=True)
"""


def test_killed_while_publishing(tmp_path: Path, versions: list[Mapping[str, bytes]]) -> None:
    """The web folder holds one whole feed under one name for ever; what was half-written goes with the next run."""
    folder, web = tmp_path / "lawn", tmp_path / "web"
    folder.mkdir()
    write_outputs(folder, versions[0])
    feeds = [tmp_path / f"{n}.ics" for n in range(2)]
    for path, version in zip(feeds, versions, strict=True):
        path.write_bytes(version["season.ics"])
    wanted = {path.read_bytes() for path in feeds}
    chance, names = random.Random(5), set()
    for _ in range(ROUNDS):
        words = [sys.executable, "-c", PUBLISHING, str(folder), str(web), *map(str, feeds)]
        run = subprocess.Popen(words, stdout=subprocess.PIPE, text=True, cwd=ROOT)
        assert run.stdout is not None
        assert run.stdout.readline().strip() == "0"
        time.sleep(chance.uniform(0, 0.15))
        run.send_signal(signal.SIGKILL)
        run.stdout.close()
        run.wait()
        shown = list(web.glob("*.ics"))
        names |= {path.name for path in shown}
        assert len(shown) == 1 and shown[0].read_bytes() in wanted
        with folder_lock(web):
            assert {p.name for p in web.iterdir()} <= {shown[0].name, ".turfplan-names", ".lock"}
    assert len(names) == 1


def free_port() -> int:
    """A port of this machine that nobody listens on."""
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return int(one.getsockname()[1])


def wait_until_heard(port: int, server: subprocess.Popen[bytes]) -> None:
    """Until the server listens, at most a minute."""
    end = time.monotonic() + 60
    while time.monotonic() < end:
        assert server.poll() is None, "the server has ended"
        with socket.socket() as one:
            if one.connect_ex(("127.0.0.1", port)) == 0:
                return
        time.sleep(0.01)
    raise AssertionError("the server does not listen")


class _Stay(urllib.request.HTTPRedirectHandler):
    def redirect_request(self, *_: object) -> None:  # type: ignore[override]
        """Not followed: the answer itself is what is looked at."""


def asked(url: str, form: Mapping[str, str] | None = None) -> tuple[int, bytes] | None:
    """Status and body of an answer; None when the server went away under the request."""
    data = urllib.parse.urlencode(form).encode() if form is not None else None
    try:
        with urllib.request.build_opener(_Stay).open(urllib.request.Request(url, data), timeout=30) as answer:
            body = answer.read()
            return answer.status, body
    except urllib.error.HTTPError as error:
        with error:
            return error.code, error.read()
    except (OSError, http.client.HTTPException):
        return None


def until(stop: threading.Event, work: Callable[[], None]) -> threading.Thread:
    """A thread that does a thing over and over."""

    def run() -> None:
        while not stop.is_set():
            work()

    thread = threading.Thread(target=run)
    thread.start()
    return thread


def test_killed_while_serving(tmp_path: Path, versions: list[Mapping[str, bytes]]) -> None:
    """Readers, ticks and re-planning under way: afterwards the index opens, tokens work, journal and feeds are whole."""
    pytest.importorskip("uvicorn", reason="the extra web is not installed")
    fed, ticked, brief, index = (
        tmp_path / "fed",
        tmp_path / "ticked",
        tmp_path / "ticked.toml",
        tmp_path / "lawns.index",
    )
    for folder in (fed, ticked):
        folder.mkdir()
        write_outputs(folder, versions[0])
    brief.write_bytes((EXAMPLES / "bermuda-sand.toml").read_bytes())
    with store.opened(index) as connection:
        feed = tokens.issue(connection, store.add_lawn(connection, fed), "feed")
        edit = tokens.issue(connection, store.add_lawn(connection, ticked, brief), "edit")
    wanted = {version["season.ics"] for version in versions}
    jobs = [task.id for task in example("bermuda-sand").tasks if task.series is None]
    chance, acknowledged, faults = random.Random(3), [], []
    for turn in range(ROUNDS):
        port, stop = free_port(), threading.Event()
        words = [sys.executable, "-m", "turfplan", "serve", "--index", str(index), "--port", str(port)]
        server = subprocess.Popen(words, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, cwd=ROOT)
        wait_until_heard(port, server)

        def read(port: int = port) -> None:
            got = asked(f"http://127.0.0.1:{port}/feed/{feed}.ics")
            if got is not None and not (got[0] == 429 or (got[0] == 200 and got[1] in wanted)):
                faults.append(got)

        def write() -> None:
            write_outputs(fed, {"season.ics": versions[chance.randrange(2)]["season.ics"]})

        def tick(port: int = port, turn: int = turn) -> None:
            form = {"task": jobs[turn % len(jobs)], "on": "2027-05-01"}
            got = asked(f"http://127.0.0.1:{port}/lawn/{edit}", form)
            if got is not None and got[0] == 303:
                acknowledged.append(turn)

        threads = [until(stop, work) for work in (read, read, write, tick)]
        time.sleep(chance.uniform(0, 1.0))
        server.send_signal(signal.SIGKILL)
        server.wait()
        stop.set()
        for thread in threads:
            thread.join()
        assert not faults
        with store.opened(index) as connection:
            assert connection.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
            lawns = [tokens.find(connection, token) for token in (feed, edit, tokens.feed_of_page(edit))]
            assert all(found is not None and found.revoked is None for found in lawns)
            last = store.published(connection, store.lawns(connection)[0])
            assert last is None or last.content in wanted
        journal = read_journal(brief.with_suffix(".journal.jsonl"))
        assert [e.number for e in journal.entries] == list(range(1, len(journal.entries) + 1))
        assert len(journal.entries) >= len(acknowledged)
        assert all(e.kind == "done" and e.task in jobs for e in journal.entries)
        with folder_lock(ticked):  # what the killed server had begun to plan ends by itself
            plan, shown = read_plan(ticked), (ticked / "season.ics").read_bytes()
        assert plan is not None and shown.startswith(WHOLE[0]) and shown.endswith(WHOLE[1])
    with store.opened(index) as connection:
        assert store.published(connection, store.lawns(connection)[0]) is not None
    assert read_journal(brief.with_suffix(".journal.jsonl")).entries
