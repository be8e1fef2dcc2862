"""Who asks for which lawn, by which right, and under which address."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Literal
from zoneinfo import ZoneInfo

from anyio import CapacityLimiter
from starlette.requests import Request

from turfplan.files.index import ServedLawn
from turfplan.records.plan import Plan
from turfplan.serve import tokens
from turfplan.serve.feed_cache import FeedCache
from turfplan.serve.office_desk import OfficeDesk
from turfplan.serve.phones import PhoneListener
from turfplan.serve.printed_sheets import PrintedSheets
from turfplan.serve.reach import reach_of

Right = Literal["see", "tick", "own", "crew"]
SLOW = 4
Replan = Callable[[ServedLawn], Sequence[str]]
"""Plans a lawn again, and says why where it cannot."""


def utc_now() -> datetime:
    """This moment."""
    return datetime.now(UTC)


@dataclass(frozen=True, slots=True)
class ServerSettings:
    """How it is served: index file, public address for links (None: that of each request), allowed
    hosts, compression, requests a minute, what plans again, and the clock.

    `home_url` is the address in the home network of a server that listens there, `phones` what
    opens one that listens at its own machine alone, `office` the data folder of a business whose
    office page is served.
    """

    index: Path
    base_url: str | None = None
    hosts: tuple[str, ...] = ("127.0.0.1", "localhost")
    compress: bool = True
    per_minute: int = 240
    replan: Replan | None = None
    clock: Callable[[], datetime] = utc_now
    home_url: str | None = None
    office: Path | None = None
    phones: PhoneListener | None = None


@dataclass(frozen=True, slots=True)
class Server:
    """What every answer is made from: the settings, the index with its feeds, and of each lawn why
    it could not be planned when that was last tried.
    """

    settings: ServerSettings
    shelf: FeedCache
    failures: dict[int, tuple[str, ...]] = field(default_factory=dict)
    printed: PrintedSheets = field(default_factory=PrintedSheets)
    # Of what takes seconds only so much waits at a time: feeds have their threads for themselves.
    slow: CapacityLimiter = field(default_factory=lambda: CapacityLimiter(SLOW))
    office: OfficeDesk | None = None

    @property
    def today(self) -> date:
        """The date of the machine that serves."""
        return self.settings.clock().astimezone().date()

    def base_url(self, request: Request) -> str:
        """The address under which this server is known to who asks."""
        known = self.settings.base_url
        return (known or f"{request.url.scheme}://{request.headers['host']}").rstrip("/")

    def handed_url(self, request: Request) -> str:
        """The address to hand on: who asks at the machine itself hands on that of the home
        network, where there is one."""
        own, home, phones = self.base_url(request), self.settings.home_url, self.settings.phones
        home = home or (phones.url if phones is not None else None)
        return home.rstrip("/") if home is not None and reach_of(own) == "machine" else own


@dataclass(frozen=True, slots=True)
class Visit:
    """A request for a lawn's pages.

    `home` is the path that they begin with, `token` what opened them (None: the owner's browser),
    `secret` its text, `holder` who that is, as far as somebody said. `house` is the page of all
    lawns, where who asks may see it. `client` is the page of its client, for an office; `operator`
    is somebody of the office who is not the owner. `way` is how a crew gets there, `name` whose
    lawn it is, to those who know it. `browser` is the number of the owner's browser that asks.
    """

    server: Server
    request: Request
    lawn: ServedLawn
    right: Right
    home: str
    holder: str = ""
    token: tokens.Token | None = None
    secret: str = ""
    house: str = ""
    client: str = ""
    operator: bool = False
    way: tuple[str, ...] = ()
    name: str = ""
    browser: int | None = None

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
