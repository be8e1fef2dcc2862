"""Who asks for which lawn, by which right, and under which address."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from ipaddress import ip_address
from pathlib import Path
from typing import Literal
from urllib.parse import urlsplit
from zoneinfo import ZoneInfo

from starlette.requests import Request

from turfplan.files.index import ServedLawn
from turfplan.records.plan import Plan
from turfplan.serve import tokens
from turfplan.serve.feed_cache import FeedCache

Right = Literal["see", "tick", "own"]
ReachOfAddress = Literal["machine", "home", "everywhere"]
Replan = Callable[[ServedLawn], Sequence[str]]
"""Plans a lawn again, and says why where it cannot."""


def utc_now() -> datetime:
    """This moment."""
    return datetime.now(UTC)


@dataclass(frozen=True, slots=True)
class ServerSettings:
    """How it is served: index file, public address for links (None: that of each request), allowed
    hosts, compression, requests a minute, what plans again, and the clock.
    """

    index: Path
    base_url: str | None = None
    hosts: tuple[str, ...] = ("127.0.0.1", "localhost")
    compress: bool = True
    per_minute: int = 240
    replan: Replan | None = None
    clock: Callable[[], datetime] = utc_now


@dataclass(frozen=True, slots=True)
class Server:
    """What every answer is made from: the settings, the index with its feeds, and of each lawn why
    it could not be planned when that was last tried.
    """

    settings: ServerSettings
    shelf: FeedCache
    failures: dict[int, tuple[str, ...]] = field(default_factory=dict)

    def base_url(self, request: Request) -> str:
        """The address under which this server is known to who asks."""
        known = self.settings.base_url
        return (known or f"{request.url.scheme}://{request.headers['host']}").rstrip("/")


@dataclass(frozen=True, slots=True)
class Visit:
    """A request for a lawn's pages.

    `home` is the path that they begin with, `token` what opened them (None: the owner's browser),
    `secret` its text, `holder` who that is, as far as somebody said.
    """

    server: Server
    request: Request
    lawn: ServedLawn
    right: Right
    home: str
    holder: str = ""
    token: tokens.Token | None = None
    secret: str = ""

    @property
    def now(self) -> datetime:
        """This moment, by the server's clock."""
        return self.server.settings.clock()

    @property
    def may_tick(self) -> bool:
        """Whether something may be written: who may, and there is a journal to write into."""
        return self.right != "see" and self.lawn.brief is not None

    @property
    def base_url(self) -> str:
        """The address under which the server is known to who asks."""
        return self.server.base_url(self.request)

    def today(self, plan: Plan) -> date:
        """The day it is where the lawn lies."""
        return self.now.astimezone(ZoneInfo(plan.timezone)).date()


def number_of(text: object) -> int | None:
    """A number as an address or a form has it, from 0 to nine digits; None for what is none."""
    found = str(text)
    return int(found) if found.isascii() and found.isdecimal() and len(found) <= 9 else None


def reach_of(address: str) -> ReachOfAddress:
    """From where an address can be asked: this machine alone, the home network, or everywhere."""
    host = (urlsplit(address).hostname or "").lower()
    if host == "localhost" or host.endswith(".localhost"):
        return "machine"
    try:
        number = ip_address(host)
    except ValueError:
        # A name without a dot, or of a network that answers for itself, is known at home alone.
        at_home = "." not in host or host.endswith((".local", ".lan", ".home.arpa", ".internal"))
        return "home" if at_home else "everywhere"
    if number.is_loopback:
        return "machine"
    return "everywhere" if number.is_global else "home"


def calendar_links(base_url: str, feed: str) -> tuple[str, str]:
    """A feed's address, and the same as calendar programs take it from a link."""
    address = f"{base_url}/feed/{feed}.ics"
    return address, "webcal://" + address.split("://", 1)[1]
