"""A lawn that is served as it is in earnest, for tests that open its pages: own folder, own clock,
and planning again in this process.
"""

import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from pathlib import Path

import uvicorn
from starlette.testclient import TestClient

from machine import free_port
from planning import EXAMPLES, example
from printed import outputs
from turfplan.app.plan_lawn import replan_lawn
from turfplan.errors import TurfplanError
from turfplan.files import index as store
from turfplan.files.index import ServedLawn
from turfplan.files.journal import read_journal
from turfplan.files.plan_folder import write_outputs
from turfplan.files.reading.plan import read_plan
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import Plan
from turfplan.serve import owners, tokens
from turfplan.serve.app import create_app
from turfplan.serve.visit import ServerSettings

NAME = "cool-overseed"
# Where the example lies it is still the day before at this hour of UTC: no page may call it the
# next day.
NIGHT = 2


@dataclass
class ServedHome:
    """A folder with lawns, their index, and the day that it is there."""

    root: Path
    day: date = date(2027, 2, 1)
    hour: int = 15
    port: int = 0
    hosts: tuple[str, ...] = ("127.0.0.1", "testserver")
    planned: list[int] = field(default_factory=list)
    refusals: tuple[str, ...] = ()

    @property
    def index(self) -> Path:
        """The index."""
        return self.root / "turfplan.index"

    @property
    def base(self) -> str:
        """The address of the server."""
        return f"http://127.0.0.1:{self.port}"

    def now(self) -> datetime:
        """The moment that it is at the server."""
        return datetime(self.day.year, self.day.month, self.day.day, self.hour, tzinfo=UTC)

    def lawn(self, name: str = NAME) -> ServedLawn:
        """A lawn of an example, planned and put into the index."""
        brief, folder = self.root / f"{name}.toml", self.root / name
        if not folder.exists():
            brief.write_bytes((EXAMPLES / brief.name).read_bytes())
            folder.mkdir()
            write_outputs(folder, outputs(example(name)))
        with store.opened(self.index) as connection:
            return store.add_lawn(connection, folder, brief)

    def token(
        self,
        kind: tokens.TokenKind,
        label: str = "",
        ends: date | None = None,
        name: str = NAME,
        day: date | None = None,
    ) -> str:
        """A new token of a lawn."""
        lawn = self.lawn(name)
        with store.opened(self.index) as connection:
            view = tokens.FeedView(days=(day, day)) if day is not None else tokens.WHOLE
            return tokens.issue(connection, lawn, kind, label, ends, view)

    def once(self) -> str:
        """A one-time address of the owner's, from the host on."""
        with store.opened(self.index) as connection:
            return f"/own/{owners.invite(connection, self.now())}"

    def plan(self, name: str = NAME) -> Plan:
        """The plan as it stands."""
        plan = read_plan(self.root / name)
        assert plan is not None
        return plan

    def entries(self, name: str = NAME) -> tuple[JournalEntry, ...]:
        """All of the journal."""
        return read_journal(self.root / f"{name}.journal.jsonl").entries

    def replan(self, lawn: ServedLawn) -> tuple[str, ...]:
        """Plans again as of the day that it is there."""
        if self.refusals:
            return self.refusals
        self.planned.append(lawn.id)
        assert lawn.brief is not None
        try:
            replan_lawn(lawn.brief, lawn.folder, tell=lambda _: None, today=self.day)
        except TurfplanError as error:
            return tuple(str(problem.message) for problem in error.problems)
        return ()

    def client(self, base: str = "http://testserver", **more: object) -> TestClient:
        """Asks a server of its own, in this process, under an address."""
        app = create_app(self.settings(**more))
        return TestClient(app, base_url=base, follow_redirects=False)

    def settings(self, **more: object) -> ServerSettings:
        """How it is served."""
        given: dict[str, object] = {
            "index": self.index,
            "hosts": self.hosts,
            "per_minute": 100_000,
            "replan": self.replan,
            "clock": self.now,
        }
        return ServerSettings(**(given | more))  # type: ignore[arg-type]


@contextmanager
def serving(home: ServedHome, port: int = 0, **more: object) -> Iterator[ServedHome]:
    """The home served on a port of this machine until the block ends; behind a proxy where it has
    a `base_url`."""
    home.port = port or free_port()
    app = create_app(home.settings(**more))
    config = uvicorn.Config(
        app,
        port=home.port,
        log_level="error",
        access_log=False,
        proxy_headers="base_url" in more,
        forwarded_allow_ips=["127.0.0.1"],
    )
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    end = time.monotonic() + 20
    while not server.started:
        assert time.monotonic() < end, "the server did not start"
        time.sleep(0.01)
    try:
        yield home
    finally:
        server.should_exit = True
        thread.join(20)
