"""What a thread has found in the index, and the feeds that it has at hand, as long as nothing of it
is new.
"""

import gzip
import math
import os
import sqlite3
from collections import OrderedDict
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import datetime
from functools import cached_property
from pathlib import Path
from typing import TypeVar

from turfplan.files import index
from turfplan.serve import house_tokens, tokens
from turfplan.serve.feed import etag_of
from turfplan.serve.guard import Prepared

FileSeen = tuple[int, int, int]
FilesSeen = tuple[FileSeen | None, ...]
Conditions = tuple[str, str, bytes | None, bytes | None]
"""A method, what the file is called, If-None-Match and Accept-Encoding as they were sent."""
_Opened = TypeVar("_Opened", tokens.Token, house_tokens.HouseToken)
# Tokens that are kept at hand: beyond these the first are looked up again.
MOST_AT_HAND = 10_000


@dataclass(frozen=True)
class ServedFeed:
    """The last good bytes of a lawn's feed with what answers need of them, worked out once a
    version; `answers` are those that are ready.
    """

    published: index.PublishedFeed
    answers: dict[Conditions, Prepared] = field(default_factory=dict, compare=False)

    @cached_property
    def etag(self) -> str:
        """The strong validator of the plain bytes."""
        return etag_of(self.published.content)

    @cached_property
    def zipped(self) -> bytes:
        """The bytes in gzip, the same each time."""
        return gzip.compress(self.published.content, 6, mtime=0)


@dataclass(slots=True)
class FeedAtHand:
    """The feed of an address while nothing of it is new: the files that it is made from as they
    were seen, and the hour for which it is noted that the address was read, outside of which it is
    looked at again. `looked` is when the files were last looked at."""

    file: str
    feed: ServedFeed
    sources: tuple[str, ...]
    state: FilesSeen
    since: datetime
    until: datetime
    looked: float = -math.inf

    def lasts(self, now: datetime, moment: float, at_latest: float) -> bool:
        """Whether it is still that hour, and those files as far as they were looked at before or
        are now."""
        if not self.since <= now < self.until:
            return False
        if self.looked < at_latest:
            self.looked = moment
            return all_seen(self.sources) == self.state
        return True


class HeldConnection:
    """A connection that is closed when its thread, or the shelf, is gone, and what was found by it
    since others last wrote."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self.connection = connection
        self.version = -1
        self.looked = -math.inf
        self.tokens: OrderedDict[str, tokens.Token] = OrderedDict()
        self.houses: OrderedDict[str, house_tokens.HouseToken] = OrderedDict()
        self.feeds: dict[str, FeedAtHand] = {}

    def look(self) -> None:
        """Forgets what was found where something was written into the index since, by whichever
        connection or process."""
        version: int = self.connection.execute("PRAGMA data_version").fetchone()[0]
        if version != self.version:
            self.tokens.clear()
            self.houses.clear()
            self.feeds.clear()
            self.version = version

    def known(self, text: str) -> tokens.Token | None:
        """What a token opens, or None; looked up once for as long as nothing is written into the
        index."""
        self.look()
        return _kept(self.tokens, text, lambda: tokens.find(self.connection, text))

    def known_house(self, text: str) -> house_tokens.HouseToken | None:
        """What an address of a house opens, or None; looked up as rarely."""
        self.look()
        return _kept(self.houses, text, lambda: house_tokens.find(self.connection, text))

    def __del__(self) -> None:
        self.connection.close()


def _kept(
    at_hand: OrderedDict[str, _Opened], text: str, find: Callable[[], _Opened | None]
) -> _Opened | None:
    """What is at hand of a token, else what is found, which is kept; guesses are not."""
    key = tokens.hash_of(text)
    found = at_hand.get(key)
    if found is None and (found := find()) is not None:
        at_hand[key] = found
        if len(at_hand) > MOST_AT_HAND:
            at_hand.popitem(last=False)
    return found


def all_seen(paths: Iterable[Path | str]) -> FilesSeen:
    """What changes whenever one of several files is written anew."""
    return tuple(map(seen, paths))


def seen(path: Path | str) -> FileSeen | None:
    """What changes whenever a file is written anew."""
    try:
        stat = os.stat(path)
    except OSError:
        return None
    return stat.st_mtime_ns, stat.st_ino, stat.st_size
