"""Opens the addresses of lawns to the home network, and closes them again, while the server listens
at its own machine alone: a second listener that knows addresses with a token and nothing else.
"""

import asyncio
import socket
import threading
from collections.abc import AsyncIterator, Callable, Iterator
from contextlib import asynccontextmanager, contextmanager
from dataclasses import dataclass, field

import uvicorn
from starlette.types import ASGIApp, Receive, Scope, Send

from turfplan.files.system_faults import reason_of
from turfplan.message import Message
from turfplan.phrases import page as phrases
from turfplan.serve.guard import plain
from turfplan.serve.own_names import address_at_home, own_names

# What an address with a token opens, and what its pages are made of. The owner's pages, new lawns,
# one-time addresses and an office are not among it, whoever asks.
OPENED = ("/feed/", "/lawn/", "/house/", "/static/")
OPENED_FILES = ("/worker.js", "/robots.txt")
# Seconds until a listener has come up, or has closed.
PATIENCE = 10.0


class _SecondServer(uvicorn.Server):
    """A server whose end is that of the first: signals go to that one alone."""

    @contextmanager
    def capture_signals(self) -> Iterator[None]:
        """None are."""
        yield


@dataclass(slots=True)
class PhoneListener:
    """The second listener, on the port of the first and the address of this machine in its network.

    `seen` is whether anybody asked by that address who is not this machine.
    """

    port: int
    own: Callable[[], str | None] = address_at_home
    names: Callable[[], tuple[str, ...]] = own_names
    host: str = ""
    seen: bool = False
    fault: Message | None = None
    app: Callable[[tuple[str, ...]], ASGIApp] | None = None
    loop: asyncio.AbstractEventLoop | None = None
    _server: _SecondServer | None = None
    _task: asyncio.Task[None] | None = None
    _lock: threading.Lock = field(default_factory=threading.Lock)

    @property
    def url(self) -> str | None:
        """The address in the home network; None while it is closed."""
        return f"http://{self.host}:{self.port}" if self._server is not None else None

    def open(self) -> Message | None:
        """Listens in the home network; why it cannot, in words, where it cannot."""
        with self._lock:
            if self._server is not None or self.loop is None:
                return None
            self.fault = self._opened(self.loop)
            return self.fault

    def close(self) -> None:
        """Listens in the home network no more."""
        with self._lock:
            self.fault, server, loop = None, self._server, self.loop
            self._server = None
            if server is not None and loop is not None:
                asyncio.run_coroutine_threadsafe(self._ended(server), loop).result(PATIENCE)

    def _opened(self, loop: asyncio.AbstractEventLoop) -> Message | None:
        host = self.own()
        if host is None:
            return phrases.no_network()
        one = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        try:
            one.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            one.bind((host, self.port))
        except OSError as error:
            one.close()
            return phrases.phones_refused(address=f"{host}:{self.port}", reason=reason_of(error))
        self.host, self.seen = host, False
        asyncio.run_coroutine_threadsafe(self._begun(one), loop).result(PATIENCE)
        return None

    async def _begun(self, one: socket.socket) -> None:
        assert self.app is not None
        config = uvicorn.Config(
            self._counted(self.app((self.host, *self.names()))),
            access_log=False,
            log_level="warning",
            server_header=False,
            proxy_headers=False,
            lifespan="off",
        )
        self._server = server = _SecondServer(config)
        self._task = asyncio.create_task(server.serve(sockets=[one]))
        while not server.started and not self._task.done():
            await asyncio.sleep(0.01)

    async def _ended(self, server: _SecondServer) -> None:
        server.should_exit = True
        if self._task is not None:
            await self._task

    def _counted(self, app: ASGIApp) -> ASGIApp:
        """Notes that somebody else of the network has asked."""

        async def counted(scope: Scope, receive: Receive, send: Send) -> None:
            asking = (scope.get("client") or ("", 0))[0]
            self.seen = self.seen or asking != self.host
            await app(scope, receive, send)

        return counted

    @asynccontextmanager
    async def living(self, kept: Callable[[], bool]) -> AsyncIterator[None]:
        """While the server lives: open from the start where it was open before, closed in the
        end."""
        self.loop = asyncio.get_running_loop()
        if await asyncio.to_thread(kept):
            await asyncio.to_thread(self.open)
        try:
            yield
        finally:
            server, self._server, self.loop = self._server, None, None
            if server is not None:
                await self._ended(server)


def of_addresses(app: ASGIApp) -> ASGIApp:
    """Of an application what an address with a token opens; nothing else is there."""

    async def narrowed(scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            return
        path: str = scope["path"]
        known = path.startswith(OPENED) or path in OPENED_FILES
        await (app if known else plain(phrases.unknown(), 404))(scope, receive, send)

    return narrowed
