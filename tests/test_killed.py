"""Killed at random moments, publishing and serving leave whole feeds, a whole journal and an index
that opens.

The same for planning is in `test_files_plan_folder`, for the journal in `test_files_journal`.
"""

import http.client
import random
import signal
import socket
import subprocess
import sys
import threading
import time
import urllib.parse
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

import pytest

from machine import free_port
from planning import EXAMPLES, ROOT, example
from printed import outputs
from tiers import full
from turfplan.files import index as store
from turfplan.files.journal import read_journal
from turfplan.files.plan_folder import folder_lock, write_outputs
from turfplan.files.reading.plan import read_plan
from turfplan.serve import tokens

KILLS = 3
WHOLE = b"BEGIN:VCALENDAR\r\n", b"END:VCALENDAR\r\n"


Versions = list[Mapping[str, bytes]]


def two_versions() -> Versions:
    """The folder of a plan in two versions."""
    plan = example("bermuda-sand")
    other = plan.model_copy(update={"lawn": plan.lawn.model_copy(update={"name": "Another name"})})
    return [outputs(plan), outputs(other)]


@pytest.fixture(scope="module")
def versions() -> Versions:
    """The two versions, made once."""
    return two_versions()


PUBLISHING = """
import sys
from pathlib import Path
from typer.testing import CliRunner
from turfplan.cli import app
from turfplan.files.plan_folder import write_outputs
folder, web = Path(sys.argv[1]), sys.argv[2]
feeds = [Path(name).read_bytes() for name in sys.argv[3:]]
turn = 0
while True:
    turn += 1
    write_outputs(folder, {"season.ics": feeds[turn % 2]})
    print(CliRunner().invoke(app, ["publish", str(folder), "--to", web]).exit_code, flush=True)
"""


def killed_while_publishing(home: Path, versions: Versions, kills: int, seed: int) -> int:
    """A process that publishes over and over, killed so many times; how many names the feed has
    had.

    Fails where the web folder does not hold one whole feed after a kill, or litter after the next
    run.
    """
    folder, web = home / "lawn", home / "web"
    folder.mkdir()
    write_outputs(folder, versions[0])
    feeds = [home / f"{n}.ics" for n in range(2)]
    for path, version in zip(feeds, versions, strict=True):
        path.write_bytes(version["season.ics"])
    wanted = {path.read_bytes() for path in feeds}
    chance, names = random.Random(seed), set()
    for _ in range(kills):
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
            page = shown[0].with_suffix(".html").name
            assert {p.name for p in web.iterdir()} <= {shown[0].name, page, "index.html", ".lock"}
    return len(names)


@full
def test_killed_while_publishing(tmp_path: Path, versions: Versions) -> None:
    """The web folder holds one whole feed under one name for ever; what was half-written goes with
    the next run.
    """
    assert killed_while_publishing(tmp_path, versions, KILLS, 5) == 1


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


def asked(
    url: str, form: Mapping[str, str] | None = None, source: str = "127.0.0.1"
) -> tuple[int, bytes] | None:
    """Status and body of an answer, asked for from one of this machine's own addresses; None when
    the server went away under the request.
    """
    place = urllib.parse.urlsplit(url)
    data = urllib.parse.urlencode(form) if form is not None else None
    kind = {"Content-Type": "application/x-www-form-urlencoded"} if form is not None else {}
    connection = http.client.HTTPConnection(
        place.hostname or "", place.port, timeout=30, source_address=(source, 0)
    )
    try:
        connection.request("GET" if form is None else "POST", place.path or "/", data, kind)
        answer = connection.getresponse()
        return answer.status, answer.read()
    except (OSError, http.client.HTTPException):
        return None
    finally:
        connection.close()


@pytest.mark.parametrize("status", ["200 OK", "429 Too Many Requests"])
def test_a_server_that_dies_while_it_answers_has_gone_away(status: str) -> None:
    """Half an answer, a refusal too, is no answer and no fault."""
    with socket.create_server(("127.0.0.1", 0)) as listener:

        def answer_half() -> None:
            connection, _ = listener.accept()
            with connection:
                connection.recv(4096)
                connection.sendall(f"HTTP/1.1 {status}\r\nContent-Length: 100\r\n\r\nhalf".encode())

        thread = threading.Thread(target=answer_half)
        thread.start()
        assert asked(f"http://127.0.0.1:{listener.getsockname()[1]}/") is None
        thread.join()


def until(stop: threading.Event, work: Callable[[], None]) -> threading.Thread:
    """A thread that does a thing over and over."""

    def run() -> None:
        while not stop.is_set():
            work()

    thread = threading.Thread(target=run)
    thread.start()
    return thread


@dataclass(frozen=True)
class ServedLawns:
    """A lawn that is read and one that is ticked, in an index with a token for each."""

    home: Path
    versions: Versions
    feed: str
    edit: str
    jobs: tuple[str, ...]

    @property
    def index(self) -> Path:
        """The index of both."""
        return self.home / "lawns.index"

    @property
    def journal(self) -> Path:
        """The journal that ticks go into."""
        return self.home / "ticked.journal.jsonl"

    @property
    def wanted(self) -> set[bytes]:
        """The feeds that a reader may see."""
        return {version["season.ics"] for version in self.versions}


def served_lawns(home: Path, versions: Versions) -> ServedLawns:
    """Both lawns as they are before the first kill."""
    fed, ticked, brief = home / "fed", home / "ticked", home / "ticked.toml"
    for folder, name in ((fed, b"fed-"), (ticked, b"")):
        folder.mkdir()
        # Two lawns of one index have identities of their own.
        own = versions[0]["plan.json"].replace(b'"lawn_id": "', b'"lawn_id": "' + name)
        write_outputs(folder, {**versions[0], "plan.json": own})
    brief.write_bytes((EXAMPLES / "bermuda-sand.toml").read_bytes())
    with store.opened(home / "lawns.index") as connection:
        feed = tokens.issue(connection, store.add_lawn(connection, fed), "feed")
        edit = tokens.issue(connection, store.add_lawn(connection, ticked, brief), "edit")
    jobs = tuple(task.id for task in example("bermuda-sand").tasks if task.series is None)
    return ServedLawns(home, versions, feed, edit, jobs)


def killed_while_serving(home: Path, versions: Versions, kills: int, seed: int) -> int:
    """A server under readers, ticks and re-planning, killed so many times; how many ticks were
    acknowledged.

    Fails where after a kill the index does not open, a token is lost, or journal or feeds are not
    whole.
    """
    lawns, chance, acknowledged = served_lawns(home, versions), random.Random(seed), 0
    for turn in range(kills):
        acknowledged += kill_a_server(lawns, turn, chance)
        check_what_is_left(lawns, acknowledged)
    with store.opened(lawns.index) as connection:
        assert store.published(connection, store.lawns(connection)[0]) is not None
    assert read_journal(lawns.journal).entries
    return acknowledged


def kill_a_server(lawns: ServedLawns, turn: int, chance: random.Random) -> int:
    """Start a server, use it and kill it within a second; how many ticks it acknowledged.

    Every other one, the first among them, is killed after an answer to a reader and to a tick, so
    that something can be lost; the others at any moment.
    """
    port, stop, faults, acknowledged = free_port(), threading.Event(), [], []
    fed = threading.Event()
    words = ["-m", "turfplan", "serve", "--index", str(lawns.index), "--port", str(port)]
    server = subprocess.Popen(
        [sys.executable, *words], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, cwd=ROOT
    )
    wait_until_heard(port, server)

    # Requests are counted by address: readers that ask without a pause have one of their own, and
    # leave the ticks theirs.
    def read() -> None:
        time.sleep(0.02)
        got = asked(f"http://127.0.0.1:{port}/feed/{lawns.feed}.ics", source="127.0.0.2")
        if got is not None and not (got[0] == 429 or (got[0] == 200 and got[1] in lawns.wanted)):
            faults.append(got)
        elif got is not None and got[0] == 200:
            fed.set()

    def write() -> None:
        content = lawns.versions[chance.randrange(2)]["season.ics"]
        write_outputs(lawns.home / "fed", {"season.ics": content})

    def tick() -> None:
        job = {"job": chance.choice(lawns.jobs), "on": "2027-05-01"}
        # What looks like a slip is kept: whatever is ticked is written and planned with.
        form = {"do": "other", "how": "done", "keep": "yes"} | job
        got = asked(f"http://127.0.0.1:{port}/lawn/{lawns.edit}", form)
        if got is not None and got[0] == 303:
            acknowledged.append(turn)

    threads = [until(stop, work) for work in (read, read, write, tick)]
    latest = time.monotonic() + 60
    while turn % 2 == 0 and not (fed.is_set() and acknowledged) and time.monotonic() < latest:
        time.sleep(0.01)
    time.sleep(chance.uniform(0, 1.0))
    server.send_signal(signal.SIGKILL)
    server.wait()
    stop.set()
    for thread in threads:
        thread.join()
    assert not faults
    return len(acknowledged)


def check_what_is_left(lawns: ServedLawns, acknowledged: int) -> None:
    """The index opens, every token works, and journal and feeds are whole."""
    with store.opened(lawns.index) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
        held = (lawns.feed, lawns.edit, tokens.feed_of_page(lawns.edit))
        found = [tokens.find(connection, token) for token in held]
        assert all(token is not None and token.revoked is None for token in found)
        last = store.published(connection, store.lawns(connection)[0])
        assert last is None or last.content in lawns.wanted
    entries = read_journal(lawns.journal).entries
    assert [e.number for e in entries] == list(range(1, len(entries) + 1))
    assert len(entries) >= acknowledged
    kinds = {e.kind for e in entries}
    assert kinds <= {"done", "delivered"} and {e.task for e in entries} <= set(lawns.jobs)
    ticked = lawns.home / "ticked"
    with folder_lock(ticked):  # what the killed server had begun to plan ends by itself
        plan, shown = read_plan(ticked), (ticked / "season.ics").read_bytes()
    assert plan is not None and shown.startswith(WHOLE[0]) and shown.endswith(WHOLE[1])


@full
def test_killed_while_serving(tmp_path: Path, versions: Versions) -> None:
    """Readers, ticks and re-planning under way: afterwards the index opens, tokens work, journal
    and feeds are whole.
    """
    pytest.importorskip("uvicorn", reason="the extra web is not installed")
    killed_while_serving(tmp_path, versions, KILLS, 3)
