"""From where an address can be asked, and which addresses nobody has asked for of late."""

from collections.abc import Iterable
from datetime import datetime, timedelta
from ipaddress import ip_address
from typing import Literal
from urllib.parse import urlsplit

from turfplan.serve.tokens import Token

ReachOfAddress = Literal["machine", "home", "everywhere"]
# Calendars that subscribe look at least once a day: after three days without a look something is
# wrong on the way.
SILENT = timedelta(days=3)


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


def silent(tokens: Iterable[Token], now: datetime) -> tuple[Token, ...]:
    """The calendars that have not looked for three days, of those that look at all: a feed that was
    given by itself since it was given, that of a page since it was first read."""
    return tuple(
        token
        for token in tokens
        if token.kind == "feed"
        and not token.is_gone
        and not token.ended(now)
        and (since := token.read or (token.created if token.page is None else None)) is not None
        and now - datetime.fromisoformat(since) >= SILENT
    )
