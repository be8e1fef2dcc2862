"""What stands before every answer: headers, known hosts, the rate of requests, the form of
requests.
"""

import re
import time
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from urllib.parse import urlsplit

from starlette.datastructures import Headers
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from turfplan.app.outputs import words_of_user
from turfplan.message import Message as Told
from turfplan.phrases import page as phrases

SECURITY = {
    "Content-Security-Policy": (
        "default-src 'self'; img-src 'self' data:; style-src 'self'; script-src 'self'; "
        "object-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'self'"
    ),
    # A form of a page without referrer is sent with the origin `null`, which proves nothing: the
    # page's own address goes to this host, and nowhere else.
    "Referrer-Policy": "same-origin",
    "X-Content-Type-Options": "nosniff",
    "X-Robots-Tag": "noindex, nofollow",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
}
LARGEST_FORM = 20_000
# Hosts that are kept as known or not; whoever names others is asked again.
MOST_HOSTS = 256
# Addresses of which the requests of a minute are counted: beyond these the first are forgotten.
MOST_ADDRESSES = 10_000
Prepared = tuple[Message, ...]
"""An answer that is ready: its messages as they are sent."""


@dataclass(slots=True)
class RequestRate:
    """Counts the requests of a minute by address; the minutes before are forgotten."""

    per_minute: int
    minute: float = -1.0
    seen: dict[str, int] = field(default_factory=dict)

    def allows(self, address: str, now: float) -> bool:
        """Whether one more request of this address is within the minute's number."""
        minute, seen = now // 60, self.seen
        if minute != self.minute:
            self.minute = minute
            seen.clear()
        count = seen[address] = seen.get(address, 0) + 1
        if len(seen) > MOST_ADDRESSES:
            del seen[next(iter(seen))]
        return count <= self.per_minute


class Guard:
    """Adds the security headers to every answer, those of failures too, and turns away too many
    requests and those to another host, which starlette's own guard of hosts would do in English.
    """

    def __init__(
        self,
        app: ASGIApp,
        per_minute: int,
        hosts: Collection[str],
        at_hand: Callable[[Scope], Prepared | None] = lambda _: None,
    ) -> None:
        """`at_hand` gives the answers that are ready, to which nothing is added here."""
        self.app = app
        self.rate = RequestRate(per_minute)
        self.hosts = frozenset(map(_host_name, hosts))
        self.at_hand = at_hand
        self.knows = lru_cache(MOST_HOSTS)(self._knows)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """One request."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        refusal = self._refusal(scope)
        if refusal is None and (ready := self.at_hand(scope)) is not None:
            for message in ready:
                await send(message)
            return

        async def guarded(message: Message) -> None:
            if message["type"] == "http.response.start":
                known = {name.lower() for name, _ in message["headers"]}
                message["headers"] = [
                    *message["headers"],
                    *(pair for pair in GUARDING if pair[0] not in known),
                ]
            await send(message)

        await (self.app if refusal is None else refusal)(scope, receive, guarded)

    def _refusal(self, scope: Scope) -> Response | None:
        """The answer to a request that is not even looked at."""
        address = (scope.get("client") or ("?", 0))[0]
        if not self.rate.allows(address, time.monotonic()):
            return plain(phrases.too_many(), 429, {"Retry-After": "60"})
        host = b""
        for name, value in scope["headers"]:
            if name == b"host":
                host = value
                break
        if not self.knows(host):
            return plain(phrases.other_host(), 400)
        if not scope["query_string"].isascii():
            return plain(phrases.bad_form(), 400)
        return _unread_form(Headers(scope=scope)) if scope["method"] == "POST" else None

    def _knows(self, host: bytes) -> bool:
        """Whether requests may go to this host, named with or without a port."""
        name = re.sub(r":\d+$", "", host.decode("latin-1"))
        return not {"*", _host_name(name)}.isdisjoint(self.hosts)


GUARDING = [(name.lower().encode(), value.encode()) for name, value in SECURITY.items()]


def _host_name(text: str) -> str:
    """A host as it is compared: an IPv6 address stands in brackets before a port."""
    return text.strip("[]").lower()


def _unread_form(headers: Headers) -> Response | None:
    """The answer to a form that is not read: one that does not say how long it is, or is too
    long."""
    length = headers.get("content-length")
    if length is None:
        return plain(phrases.no_length(), 411)
    if not (length.isascii() and length.isdigit()):
        return plain(phrases.bad_form(), 400)
    return plain(phrases.too_large(), 413) if int(length) > LARGEST_FORM else None


def plain(message: Told, status: int, headers: Mapping[str, str] | None = None) -> Response:
    """An answer to somebody of whose lawn nothing may be said: in the language of who serves."""
    kept = {"Cache-Control": "no-store"}
    return PlainTextResponse(words_of_user().text(message), status, {**kept, **(headers or {})})


def from_here(request: Request) -> bool:
    """Whether a form was sent by a page of this host.

    Browsers say so themselves (`Sec-Fetch-Site`), or name the page's origin; who says neither is no
    browser, and carries no cookies of one.
    """
    origin = request.headers.get("origin")
    site = request.headers.get("sec-fetch-site", "same-origin")
    try:
        named = None if origin is None else urlsplit(origin).netloc
    except ValueError:
        return False  # an origin that no browser sends
    return site in ("same-origin", "none") and named in (None, request.headers.get("host"))
