"""How fast a feed is served, as a ratio to the same server with bytes that never change, over
loopback in one run.
"""

import http.client
import socket
import threading
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from planning import example
from printed import season_ics
from turfplan.files import index as store
from turfplan.files.plan_folder import write_outputs
from turfplan.serve import tokens

pytest.importorskip("uvicorn", reason="the extra web is not installed")
import uvicorn  # after the skip
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from turfplan.serve.app import ServerSettings, create_app

REQUESTS, ROUNDS, BYTES = 300, 7, 60_000


@contextmanager
def listening(app: Starlette) -> Iterator[http.client.HTTPConnection]:
    """A connection to a server of the application, run as `turfplan serve` runs it."""
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        port = one.getsockname()[1]
    config = uvicorn.Config(
        app,
        host="127.0.0.1",
        port=port,
        access_log=False,
        log_level="error",
        server_header=False,
        lifespan="off",
    )
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.01)
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=30)
    connection.connect()
    connection.sock.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
    try:
        yield connection
    finally:
        connection.close()
        server.should_exit = True
        thread.join(10)


@dataclass(frozen=True)
class Asked:
    """A request that is made over and over, and the status that answers it."""

    connection: http.client.HTTPConnection
    path: str
    headers: Mapping[str, str]
    status: int
    size: int

    def run(self) -> float:
        """Seconds for all requests of a round."""
        begin = time.perf_counter()
        for _ in range(REQUESTS):
            self.connection.request("GET", self.path, headers=dict(self.headers))
            answer = self.connection.getresponse()
            body = answer.read()
            assert answer.status == self.status and len(body) == self.size
        return time.perf_counter() - begin


def constant(size: int, status: int) -> Starlette:
    """A server of the same kind that returns constant bytes."""
    content = b"x" * size

    async def answer(request: Request) -> Response:
        return Response(content, status, {"content-type": "text/calendar"})

    return Starlette(routes=[Route("/feed/{token}.ics", answer, methods=["GET"])])


@pytest.mark.parametrize("status", [200, 304])
def test_a_feed_is_served_at_half_the_rate_of_constant_bytes(
    status: int, benchmark: BenchmarkFixture, tmp_path: Path
) -> None:
    """200 answers of a 60 KB feed and 304 answers: each at least half as many a second as the same
    server's constant bytes.
    """
    feed = season_ics(example("transition-fescue"))
    head, _, end = feed.rpartition(b"END:VCALENDAR\r\n")
    content = (
        head + b"X-FILL:" + b"x" * max(0, BYTES - len(feed)) + b"\r\n" + b"END:VCALENDAR\r\n" + end
    )
    folder = tmp_path / "lawn"
    folder.mkdir()
    write_outputs(folder, {"plan.json": b'{"lawn_id": "test-lawn"}', "season.ics": content})
    with store.opened(tmp_path / "index") as connection:
        token = tokens.issue(connection, store.add_lawn(connection, folder), "feed")
    settings = ServerSettings(index=tmp_path / "index", per_minute=10**9)
    path = f"/feed/{token}.ics"
    size = len(content) if status == 200 else 0
    with listening(create_app(settings)) as ours, listening(constant(size, status)) as theirs:
        ours.request("GET", path)
        first = ours.getresponse()
        assert first.read() == content
        headers = {"If-None-Match": first.headers["ETag"]} if status == 304 else {}
        mine, plain = (
            Asked(ours, path, headers, status, size),
            Asked(theirs, path, headers, status, size),
        )
        mine.run(), plain.run()
        times = [(mine.run(), plain.run()) for _ in range(ROUNDS)]
        ratio = min(p for _, p in times) / min(m for m, _ in times)
        benchmark.extra_info["rate as a share of constant bytes"] = round(ratio, 2)
        benchmark.pedantic(mine.run, rounds=1)
    print(f"{status}: {ratio:.2f} of the rate of constant bytes")
    assert ratio >= 0.5
