"""Who is signed in at the office page, and how often somebody tried: in memory alone, so that a
server that starts anew knows nobody.

A session is a secret of 256 bits, drawn at each sign-in, of which the hash is kept. It ends after a
day of work, when its operator is changed, withdrawn or over, and when its holder signs out.
"""

import secrets
import threading
from collections import OrderedDict
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from ipaddress import IPv6Address, ip_address

from turfplan.app.operators import Operator
from turfplan.serve.tokens import LONGEST, SHORTEST, TOKEN_BYTES, hash_of

# A day of work, from the first look at seven in the morning to the last tick.
SESSION = timedelta(hours=14)
# So many may be signed in, and so many who try are remembered.
MOST_SESSIONS, MOST_TRIED = 2_000, 10_000
WINDOW = timedelta(minutes=15)
# How often a password may be wrong in a window: of one name from one place, and from one place of
# all names. A name alone is never locked, or whoever knows it could lock it.
MOST_OF_NAME, MOST_OF_PLACE = 5, 40
# An IPv6 network is handed out as a whole: its addresses are one place.
_NETWORK_BITS = 64


@dataclass(frozen=True, slots=True)
class OfficeSession:
    """Whose session it is, by which state of that operator, and until when."""

    name: str
    stamp: str
    ends: datetime


@dataclass(slots=True)
class OfficeSessions:
    """All sessions, by the hashes of their secrets."""

    kept: "OrderedDict[str, OfficeSession]" = field(default_factory=OrderedDict)
    lock: threading.Lock = field(default_factory=threading.Lock)

    def begin(self, operator: Operator, now: datetime, before: str = "") -> str:
        """A new session: its secret, which nobody had before; that which the browser had ends."""
        secret = secrets.token_urlsafe(TOKEN_BYTES)
        self.end(before)
        with self.lock:
            self.kept[hash_of(secret)] = OfficeSession(operator.name, operator.stamp, now + SESSION)
            while len(self.kept) > MOST_SESSIONS:
                self.kept.popitem(last=False)
        return secret

    def find(self, secret: str, now: datetime) -> OfficeSession | None:
        """The session of a secret, unless it is over."""
        if not SHORTEST <= len(secret) <= LONGEST:
            return None
        with self.lock:
            found = self.kept.get(hash_of(secret))
            if found is not None and found.ends <= now:
                del self.kept[hash_of(secret)]
                return None
        return found

    def end(self, secret: str) -> None:
        """Ends a session, if there is one."""
        with self.lock:
            self.kept.pop(hash_of(secret), None)


def place_of(address: str) -> str:
    """From where somebody tries: an address, of IPv6 its network."""
    try:
        number = ip_address(address)
    except ValueError:
        return address
    if isinstance(number, IPv6Address):
        return str(IPv6Address(int(number) >> _NETWORK_BITS << _NETWORK_BITS))
    return str(number)


@dataclass(slots=True)
class SignInRate:
    """Counts wrong passwords by name and place, and by place; old ones are forgotten."""

    tried: "OrderedDict[tuple[str, str], list[datetime]]" = field(default_factory=OrderedDict)
    lock: threading.Lock = field(default_factory=threading.Lock)

    def wait(self, name: str, place: str, now: datetime) -> timedelta | None:
        """How long until a name may be tried from a place; None where it may be now, which counts
        as a try until it is taken back."""
        with self.lock:
            keys = ((name, place), ("", place))
            counts = (MOST_OF_NAME, MOST_OF_PLACE)
            waits = [self._left(key, most, now) for key, most in zip(keys, counts, strict=True)]
            longest = max(waits)
            if longest > timedelta(0):
                return longest
            for key in keys:
                self.tried.setdefault(key, []).append(now)
                self.tried.move_to_end(key)
            while len(self.tried) > MOST_TRIED:
                self.tried.popitem(last=False)
        return None

    def was_right(self, name: str, place: str) -> None:
        """Takes back what a right password has counted."""
        with self.lock:
            self.tried.pop((name, place), None)
            of_place = self.tried.get(("", place))
            if of_place:
                of_place.pop()

    def _left(self, key: tuple[str, str], most: int, now: datetime) -> timedelta:
        """How long a key must wait, nothing where it need not."""
        tried = [one for one in self.tried.get(key, ()) if now - one < WINDOW]
        if tried:
            self.tried[key] = tried
        else:
            self.tried.pop(key, None)
        return tried[-most] + WINDOW - now if len(tried) >= most else timedelta(0)
