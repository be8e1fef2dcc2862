"""Keeps what the server answers from at hand: the open index, and the last good bytes of each feed
with its forms.
"""

import math
import sqlite3
import threading
import time
from collections.abc import Mapping
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

from turfplan.app.house_files import house_calendar, readable_house
from turfplan.app.outputs import words_of
from turfplan.errors import TurfplanError
from turfplan.export.calendar.season_ics import season_ics
from turfplan.files import index
from turfplan.files.data_folder import LAWNS, PLAN, known_lawn_id
from turfplan.files.index import ServedLawn
from turfplan.files.reading.plan import read_plan
from turfplan.records.plan_calendar import FILES, CalendarPart
from turfplan.serve import house_tokens, owners, tokens
from turfplan.serve.feed import etag_of
from turfplan.serve.held_index import (
    MOST_AT_HAND,
    FeedAtHand,
    FilesSeen,
    HeldConnection,
    ServedFeed,
    all_seen,
)
from turfplan.serve.opened import keep_opened_to_phones, opened_to_phones
from turfplan.serve.tokens import WHOLE, FeedView

_HEAD, _END = b"BEGIN:VCALENDAR\r\n", b"END:VCALENDAR\r\n"
# Seconds for which a look at the index and at a file holds for the next requests: what other
# programs write is seen within it, what this one does at once.
GLANCE = 0.001


_KeptFeed = tuple[tuple[str, ...], FilesSeen, ServedFeed]
"""The files from which a feed is made, as they were seen, and the feed."""


class FeedCache:
    """The index for one process: a connection a thread, and each feed read again only when its file
    has changed.
    """

    def __init__(self, path: Path) -> None:
        """For an index file; raises TurfplanError when it cannot be used."""
        self.path = path
        self._threads = threading.local()
        self._feeds: dict[tuple[int, str], _KeptFeed] = {}
        self._houses: dict[tuple[str, str], _KeptFeed] = {}
        self._changed = -math.inf
        self._connection()

    def look_again(self) -> None:
        """Lets nothing pass that was looked at before: something was changed in this process."""
        self._changed = time.monotonic()

    def _held(self) -> HeldConnection:
        held: HeldConnection | None = getattr(self._threads, "held", None)
        if held is None:
            # Whichever thread lets go of it last closes it.
            held = self._threads.held = HeldConnection(index.connect(self.path, any_thread=True))
        return held

    def _connection(self) -> sqlite3.Connection:
        return self._held().connection

    def token_at_hand(self, token: str) -> tuple[tokens.Token | None, int]:
        """What a token opens, or None, found in the thread that takes requests, and the version of
        the index there."""
        held = self._held()
        return held.known(token), held.version

    def at_hand(self, token: str, now: datetime) -> tuple[str, ServedFeed] | None:
        """The feed that a token opens with what its file is called, where that is the same as at
        the last look: nothing is planned, written or read for it, so that it is found without
        leaving the thread that takes requests. None for all else, which `find` and `feed` answer.

        That thread writes nothing into the index: what others write, it sees.
        """
        held, moment = self._held(), time.monotonic()
        # What was looked at before this moment is looked at again.
        at_latest = max(moment - GLANCE, self._changed)
        if held.looked < at_latest:
            held.looked = moment
            held.look()
        key = tokens.hash_of(token)
        ready = held.feeds.get(key)
        if ready is not None and ready.lasts(now, moment, at_latest):
            return ready.file, ready.feed
        ready = self._ready(held, token, now)
        if ready is None:
            return None
        held.feeds[key] = ready
        if len(held.feeds) > MOST_AT_HAND:
            del held.feeds[next(iter(held.feeds))]
        return ready.file, ready.feed

    def _ready(self, held: HeldConnection, token: str, now: datetime) -> FeedAtHand | None:
        """The feed of an address, of a lawn or of a house, that was read in this hour, and has not
        changed since it was."""
        found = self._of_lawn(held, token, now) or self._of_house(held, token, now)
        if found is None:
            return None
        file, (sources, state, feed) = found
        since = now.astimezone(UTC).replace(minute=0, second=0, microsecond=0)
        until = since + timedelta(hours=1)
        ready = FeedAtHand(file, feed, sources, state, since, until)
        return ready if ready.lasts(now, time.monotonic(), math.inf) else None

    def _of_lawn(
        self, held: HeldConnection, token: str, now: datetime
    ) -> tuple[str, _KeptFeed] | None:
        found = held.known(token)
        if found is None or found.kind != "feed" or found.is_gone or found.ended(now):
            return None
        known = self._feeds.get((found.lawn.id, found.view.key))
        return (found.view.file, known) if known and tokens.is_noted(found, now) else None

    def _of_house(
        self, held: HeldConnection, token: str, now: datetime
    ) -> tuple[str, _KeptFeed] | None:
        found = held.known_house(token)
        if found is None or found.kind != "feed" or found.is_gone:
            return None
        known = self._houses.get((str(found.house), found.part))
        return (FILES[found.part], known) if known and house_tokens.is_noted(found, now) else None

    def find(self, token: str) -> tokens.Token | None:
        """What a token opens, or None."""
        return tokens.find(self._connection(), token)

    def revoke(self, token: tokens.Token) -> None:
        """Takes a token of a page back for good, with its feed."""
        tokens.revoke(self._connection(), token.id, token.lawn)
        self.look_again()

    def was_read(self, token: tokens.Token, now: datetime) -> None:
        """Notes that something was read by a token."""
        tokens.was_read(self._connection(), token, now)

    def addresses(self, lawn: ServedLawn) -> tuple[tokens.Token, ...]:
        """Every address of a lawn that was given, by number."""
        return tokens.listed(self._connection(), lawn)

    def issue(
        self,
        lawn: ServedLawn,
        kind: tokens.TokenKind,
        label: str,
        ends: date | None,
        view: FeedView = WHOLE,
        now: datetime | None = None,
    ) -> str:
        """A new address of a lawn, shown this once."""
        return tokens.issue(self._connection(), lawn, kind, label, ends, view, now)

    def withdraw(self, number: int, lawn: ServedLawn) -> bool:
        """Takes an address of a lawn back; False where it has none of that number."""
        done = tokens.revoke(self._connection(), number, lawn)
        self.look_again()
        return done

    def lawns(self) -> tuple[ServedLawn, ...]:
        """Every lawn that is served."""
        return index.lawns(self._connection())

    def lawn(self, number: int) -> ServedLawn | None:
        """The lawn of a number, or None."""
        return next((lawn for lawn in self.lawns() if lawn.id == number), None)

    def owner(self, secret: str, now: datetime) -> owners.Owner | None:
        """The owner's browser that keeps a secret, or None."""
        return owners.find(self._connection(), secret, now)

    def browsers(self, now: datetime) -> tuple[owners.Owner, ...]:
        """Every browser that is the owner's."""
        return owners.owners(self._connection(), now)

    def may_claim(self, once: str, now: datetime) -> bool:
        """Whether a one-time address can still be used."""
        return owners.is_open(self._connection(), once, now)

    def claim(self, once: str, label: str, now: datetime) -> str | None:
        """Uses a one-time address: what the owner's browser keeps, or None."""
        return owners.claim(self._connection(), once, label, now)

    def withdraw_owner(self, number: int, now: datetime) -> bool:
        """Takes the owner's right from a browser."""
        return owners.withdraw(self._connection(), number, now)

    def phones_kept_open(self) -> bool:
        """Whether the owner has opened addresses to the home network."""
        return opened_to_phones(self._connection())

    def keep_phones_open(self, now: datetime | None) -> None:
        """Keeps that they are open since a moment, or that they are not."""
        keep_opened_to_phones(self._connection(), now)

    def draft(self, owner: owners.Owner) -> dict[str, str]:
        """What the owner has answered so far about a new lawn."""
        return owners.draft(self._connection(), owner)

    def keep_draft(self, owner: owners.Owner, answers: Mapping[str, str]) -> None:
        """Keeps what the owner has answered about a new lawn."""
        owners.keep_draft(self._connection(), owner, answers)

    def add_lawn(self, folder: Path, brief: Path) -> ServedLawn:
        """The lawn of a folder, served from now on."""
        return index.add_lawn(self._connection(), folder, brief)

    def remove_lawn(self, lawn: ServedLawn) -> None:
        """Takes a lawn out of what is served, with all its addresses."""
        index.remove_lawn(self._connection(), lawn)
        self.look_again()
        self._feeds = {key: kept for key, kept in self._feeds.items() if key[0] != lawn.id}

    def find_house(self, token: str) -> house_tokens.HouseToken | None:
        """What an address of a house opens, or None."""
        return house_tokens.find(self._connection(), token)

    def house_was_read(self, token: house_tokens.HouseToken, now: datetime) -> None:
        """Notes that something was read by an address of a house."""
        house_tokens.was_read(self._connection(), token, now)

    def house_addresses(self, house: Path) -> tuple[house_tokens.HouseToken, ...]:
        """Every address of a house that was given, by number."""
        return house_tokens.listed(self._connection(), house)

    def issue_house(
        self,
        house: Path,
        kind: tokens.TokenKind,
        label: str,
        part: CalendarPart,
        now: datetime,
    ) -> str:
        """A new address of a house, shown this once."""
        return house_tokens.issue(self._connection(), house, kind, label, part, now)

    def withdraw_house(self, number: int, house: Path) -> bool:
        """Takes an address of a house back; False where it has none of that number."""
        return house_tokens.revoke(self._connection(), number, house)

    def house_feed(self, house: Path, part: CalendarPart) -> ServedFeed | None:
        """What an address shows of a house's calendar: what its plans say while all of them can be
        read, else the last good bytes; None before the first."""
        key = (str(house), part)
        sources = _sources_of_house(house)
        state = all_seen(sources)
        known = self._houses.get(key)
        if known is not None and known[:2] == (sources, state):
            return known[2]
        connection = self._connection()
        content = _house_content(house, part)
        published = (
            house_tokens.published(connection, house, part)
            if content is None
            else house_tokens.publish(connection, house, content, etag_of(content), part)
        )
        if published is None:
            return None
        # What was written without another word of the calendar leaves its answers at hand.
        feed = (
            ServedFeed(published) if known is None or known[2].published != published else known[2]
        )
        self._houses[key] = (sources, state, feed)
        return feed

    def feed(self, lawn: ServedLawn, view: FeedView = WHOLE) -> ServedFeed | None:
        """What an address shows of a lawn's feed: the folder's bytes when they are whole, else the
        last good ones; None before the first.
        """
        sources = (str(_source(lawn, view)),)
        key, state = (lawn.id, view.key), all_seen(sources)
        known = self._feeds.get(key)
        if known is not None and known[:2] == (sources, state):
            return known[2]
        published = self._read(lawn, view)
        if published is None:
            return None
        self._feeds[key] = (sources, state, _same_or_new(known, published))
        return self._feeds[key][2]

    def _read(self, lawn: ServedLawn, view: FeedView) -> index.PublishedFeed | None:
        connection = self._connection()
        content = _content(lawn, view)
        if known_lawn_id(lawn.folder) != lawn.lawn_id:
            # Another lawn has come into the folder, or its plan has gone: an address opens none but
            # the lawn that it was given for.
            content = b""
        if content.startswith(_HEAD) and content.endswith(_END):
            return index.publish(connection, lawn, content, etag_of(content), view.key)
        return index.published(connection, lawn, view.key)


def _source(lawn: ServedLawn, view: FeedView) -> Path:
    """The file that an address shows, or that what it shows is made from."""
    file = lawn.folder / view.file
    made = view.days is not None or (view.part != "all" and not file.is_file())
    return lawn.folder / PLAN if made else file


def _same_or_new(known: _KeptFeed | None, published: index.PublishedFeed) -> ServedFeed:
    """The feed at hand while its bytes and their moment are the same, else a new one."""
    same = known is not None and known[2].published == published
    return known[2] if known is not None and same else ServedFeed(published)


def _sources_of_house(house: Path) -> tuple[str, ...]:
    """What a house's calendar is made from: its folders, where a lawn may come or go, and the plan
    in each."""
    folders = [path for path in (house / LAWNS).glob("*") if path.is_dir()]
    plans = [path / PLAN for path in folders]
    return tuple(map(str, (house, house / LAWNS, *sorted(folders), *sorted(plans))))


def _content(lawn: ServedLawn, view: FeedView) -> bytes:
    """What an address shows as the folder has it; nothing where it cannot be read.

    Some days, and the parts of a folder that an older program wrote, are made from its plan.
    """
    source = _source(lawn, view)
    try:
        if source.name != PLAN:
            return source.read_bytes()
        plan = read_plan(lawn.folder)
    except (OSError, TurfplanError):
        return b""
    if plan is None:
        return b""
    return season_ics(plan, words_of(plan), part=view.part, days=view.days)


def _house_content(house: Path, part: CalendarPart) -> bytes | None:
    """The calendar of a house as its plans say it; None where one of them cannot be read, since
    what it published would vanish."""
    lawns = readable_house(house)
    return None if lawns is None else house_calendar(lawns, part)
