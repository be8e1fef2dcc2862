"""How fast a feed and a page are served, as a ratio to the same server with bytes that never
change, over loopback in one run.
"""

import http.client
import socket
import threading
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from statistics import median

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from planning import example
from printed import outputs, season_ics
from turfplan.files import index as store
from turfplan.files.plan_folder import write_outputs
from turfplan.serve import house_tokens, tokens

pytest.importorskip("uvicorn", reason="the extra web is not installed")
import uvicorn  # after the skip
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from turfplan.serve.app import ServerSettings, create_app

REQUESTS, ROUNDS, BYTES = 20, 101, 60_000
BUFFER = 1 << 17
# What a second of feeds holds beside a second of constant bytes, by the status of the answer.
LEAST = {200: 0.75, 304: 0.8}


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
    """A request that is made over and over, and the status and the size of its answer."""

    port: int
    path: str
    headers: Mapping[str, str]
    status: int
    size: int

    def run(self) -> float:
        """Seconds of the processor for all requests of a round, of who asks too: one request after
        the other, so that it is what sets their rate. Who asks reads as little as it can."""
        told = "".join(f"{name}: {value}\r\n" for name, value in self.headers.items())
        asked = f"GET {self.path} HTTP/1.1\r\nHost: 127.0.0.1\r\n{told}\r\n".encode()
        begins = f"HTTP/1.1 {self.status} ".encode()
        with socket.create_connection(("127.0.0.1", self.port), timeout=30) as sent:
            sent.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
            begin = time.process_time()
            for _ in range(REQUESTS):
                sent.sendall(asked)
                answer = sent.recv(BUFFER)
                while (head := answer.find(b"\r\n\r\n")) < 0 or len(answer) < head + 4 + self.size:
                    answer += sent.recv(BUFFER)
                assert answer.startswith(begins) and len(answer) == head + 4 + self.size
            return time.process_time() - begin


def constant(size: int, status: int) -> Starlette:
    """A server of the same kind that returns constant bytes."""
    content = b"x" * size

    async def answer(request: Request) -> Response:
        return Response(content, status, {"content-type": "text/calendar"})

    return Starlette(routes=[Route("/{place:path}", answer, methods=["GET"])])


def of_one_lawn(root: Path, content: bytes) -> str:
    """The address of a lawn's feed that holds some bytes."""
    folder = root / "lawn"
    folder.mkdir()
    write_outputs(folder, {"plan.json": b'{"lawn_id": "test-lawn"}', "season.ics": content})
    with store.opened(root / "index") as connection:
        return tokens.issue(connection, store.add_lawn(connection, folder), "feed")


def of_a_house(root: Path, content: bytes) -> str:
    """The address of the calendar of a house with two lawns, which holds some bytes."""
    house = root / "house"
    for name in ("back", "front"):
        folder = house / "lawns" / name
        folder.mkdir(parents=True)
        (folder / "brief.toml").write_bytes(b"")
        write_outputs(folder, {"plan.json": b'{"lawn_id": "test-lawn"}'})
    with store.opened(root / "index") as connection:
        # Plans that cannot be read leave what was published last.
        house_tokens.publish(connection, house, content, "kept", "all")
        return house_tokens.issue(connection, house, "feed", "Ana")


@pytest.mark.parametrize("shared", [of_one_lawn, of_a_house])
@pytest.mark.parametrize("status", [200, 304])
def test_a_feed_is_served_at_nearly_the_rate_of_constant_bytes(
    status: int,
    shared: Callable[[Path, bytes], str],
    benchmark: BenchmarkFixture,
    tmp_path: Path,
) -> None:
    """200 answers of a 60 KB feed, of a lawn or of a house, and 304 answers: each at least as large
    a share of the same server's constant bytes as is promised."""
    feed = season_ics(example("transition-fescue"))
    head, _, end = feed.rpartition(b"END:VCALENDAR\r\n")
    content = (
        head + b"X-FILL:" + b"x" * max(0, BYTES - len(feed)) + b"\r\n" + b"END:VCALENDAR\r\n" + end
    )
    path = f"/feed/{shared(tmp_path, content)}.ics"
    settings = ServerSettings(index=tmp_path / "index", per_minute=10**9)
    size = len(content) if status == 200 else 0
    with listening(create_app(settings)) as ours, listening(constant(size, status)) as theirs:
        ours.request("GET", path)
        first = ours.getresponse()
        assert first.read() == content
        headers = {"If-None-Match": first.headers["ETag"]} if status == 304 else {}
        mine, plain = (
            Asked(ours.port, path, headers, status, size),
            Asked(theirs.port, path, headers, status, size),
        )
        ratio = compared(mine, plain)
        benchmark.extra_info["rate as a share of constant bytes"] = round(ratio, 2)
        benchmark.pedantic(mine.run, rounds=1)
    print(f"{status}: {ratio:.2f} of the rate of constant bytes")
    assert ratio >= LEAST[status]


def compared(mine: Asked, plain: Asked) -> float:
    """The rate of an answer as a share of that of another: they take turns, now the one first and
    now the other, so that both meet the same machine; the middle turn counts."""
    mine.run(), plain.run()
    shares = []
    for turn in range(ROUNDS):
        if turn % 2:
            constant_time, own_time = plain.run(), mine.run()
        else:
            own_time, constant_time = mine.run(), plain.run()
        shares.append(constant_time / own_time)
    return median(shares)


@pytest.mark.parametrize("page", ["", "/did", "/season"])
def test_a_page_takes_at_most_six_times_as_long_as_constant_bytes(
    page: str, benchmark: BenchmarkFixture, tmp_path: Path
) -> None:
    """A page of a lawn, looked at again and again while nothing of it changes, beside the same
    number of constant bytes."""
    folder = tmp_path / "lawn"
    folder.mkdir()
    write_outputs(folder, outputs(example("transition-fescue")))
    with store.opened(tmp_path / "index") as connection:
        token = tokens.issue(connection, store.add_lawn(connection, folder), "edit")
    settings = ServerSettings(index=tmp_path / "index", per_minute=10**9)
    path = f"/lawn/{token}{page}"
    with listening(create_app(settings)) as ours:
        for _ in range(2):  # the first look is noted, and what is kept after it is new
            ours.request("GET", path)
            size = len(ours.getresponse().read())
        with listening(constant(size, 200)) as theirs:
            mine = Asked(ours.port, path, {}, 200, size)
            share = compared(mine, Asked(theirs.port, path, {}, 200, size))
            benchmark.extra_info["time as a multiple of constant bytes"] = round(1 / share, 2)
            benchmark.pedantic(mine.run, rounds=1)
    print(f"page{page}: {1 / share:.2f} times as long as constant bytes")
    assert 1 / share <= 6
