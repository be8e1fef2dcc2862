"""Writes a plan's feed and page as files for any web host, ends what was published there, and
looks for a plan to serve."""

from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import get_args

from turfplan.app.outputs import words_of
from turfplan.errors import Problem, TurfplanError
from turfplan.export.calendar.ended_ics import ended_ics
from turfplan.export.published_page import index_page, published_page, withdrawn_page
from turfplan.files.data_folder import PLAN, known_lawn_id
from turfplan.files.plan_folder import folder_lock, write_beside
from turfplan.files.publish_record import OLD_KEY, RECORD, name_at, read_record
from turfplan.files.reading.plan import read_plan
from turfplan.files.system_faults import unreadable
from turfplan.message import Message
from turfplan.phrases import errors, identity
from turfplan.phrases import files as phrases
from turfplan.phrases import published as told
from turfplan.records.plan import Plan
from turfplan.records.plan_calendar import FILES, CalendarPart

PARTS: tuple[CalendarPart, ...] = get_args(CalendarPart)
# Shown by a host in the place of a list of the files beside it.
INDEX = "index.html"


@dataclass(frozen=True, slots=True)
class PublishedFile:
    """Where a feed was published, the page beside it (None: of a part there is none), and what must
    be told of its address."""

    path: Path
    notes: tuple[Message, ...] = ()
    page: Path | None = None


def planned_folder(folder: Path) -> Path:
    """The folder, which holds a plan; raises TurfplanError for one that holds none."""
    if not (folder / PLAN).is_file():
        hint = errors.make_plan_first(command="turfplan plan BRIEF -o DIR")
        raise TurfplanError(Problem(str(folder), phrases.no_plan(), hint=hint))
    return folder


def publish_feed(
    folder: Path, to: Path, *, keep_address: bool = False, part: CalendarPart = "all"
) -> PublishedFile:
    """Write the feed of a plan folder, or a part of it, into `to`, beside the whole one a page, and
    an index where there is none; what is published there of its other parts is written anew too.

    Each name cannot be guessed and stays; the plan's folder keeps it. A folder that was copied or
    has moved is published under names of its own, which is told; one that has moved goes on under
    the old ones where that is asked for. Raises TurfplanError.
    """
    plan = _plan_of(folder)
    notes: tuple[Message, ...] = ()
    with _both_held(folder, to):
        known = record = read_record(folder)
        other = known.elsewhere(folder)
        if other is not None and keep_address:
            _refuse_copy(folder, other)
            record = known.moved_to(folder)
        elif other is not None and not any(known.of(folder, each) for each in PARTS):
            command = f"turfplan publish {folder} --to {to} --keep-address"
            notes = (identity.new_address(folder=str(other), command=command),)
        written: dict[Path, bytes] = {}
        for each in PARTS:
            if each == part or str(to.resolve()) in record.of(folder, each):
                name = name_at(record, folder, to, each)
                record = record.with_name(folder, to, name, each)
                written[to / name] = _content(folder, each)
                if each == "all":
                    written[_page_of(to / name)] = published_page(plan, words_of(plan), name)
        if not (to / INDEX).exists():
            written[to / INDEX] = index_page(words_of(plan))
        kept = {} if record == known else {folder / RECORD: record.content}
        write_beside({**kept, **written}, private=tuple(kept))
        if (to / OLD_KEY).exists():
            notes = (*notes, told.old_key(file=str(to / OLD_KEY)))
    path = to / record.of(folder, part)[str(to.resolve())]
    return PublishedFile(path, notes, _page_of(path) if part == "all" else None)


def withdraw_feed(
    folder: Path, to: Path, *, part: CalendarPart = "all", now: datetime | None = None
) -> PublishedFile:
    """Put an ended calendar in the place of a feed, or of a part of it, and a page that says so in
    the place of its page; what is published next has another name.

    Raises TurfplanError where nothing is published there.
    """
    plan = _plan_of(folder)
    with _both_held(folder, to):
        record = read_record(folder)
        name = record.of(folder, part).get(str(to.resolve()))
        if name is None:
            fault = told.not_published()
            raise TurfplanError(Problem(str(to), fault, hint=told.name_folder()))
        path = to / name
        page = _page_of(path) if part == "all" else None
        written = {path: _ended(path, plan, _content(folder, part), now or datetime.now(UTC))}
        if page is not None:
            written[page] = withdrawn_page(words_of(plan))
        kept = folder / RECORD
        # Last: where it is not written the same command does all of it again.
        content = record.without_name(folder, to, part).content
        write_beside({**written, kept: content}, private=(kept,))
    return PublishedFile(path, (), page)


def _ended(path: Path, plan: Plan, planned: bytes, now: datetime) -> bytes:
    """The calendar that ends a published one: what readers hold is what lies there, and where that
    is lost or damaged, what the plan has of it."""
    words = words_of(plan)
    try:
        return ended_ics(path.read_bytes(), plan.timezone, words, now)
    except (FileNotFoundError, ValueError):
        return ended_ics(planned, plan.timezone, words, now)
    except OSError as error:
        raise TurfplanError(unreadable(path, error)) from None


def _plan_of(folder: Path) -> Plan:
    """The plan that a folder holds; raises TurfplanError for one that holds none."""
    plan = read_plan(planned_folder(folder))
    assert plan is not None  # its file is there
    return plan


@contextmanager
def _both_held(folder: Path, to: Path) -> Iterator[None]:
    """Holds the plan's folder and the host's, where nothing of ours stays that is not published.

    Raises TurfplanError where the host would show the plan's folder.
    """
    here, there = folder.resolve(), to.resolve()
    if there == here or there in here.parents:
        hint = told.own_folder(example=str(folder.parent / "public"))
        raise TurfplanError(Problem(str(to), told.shows_all(), hint=hint))
    with ExitStack() as locks:
        locks.enter_context(folder_lock(there, traceless=True))
        locks.enter_context(folder_lock(here))
        yield


def _page_of(feed: Path) -> Path:
    """The page beside a feed: who has the whole calendar may read it, so they share a name."""
    return feed.with_suffix(".html")


def _content(folder: Path, part: CalendarPart) -> bytes:
    """The bytes of a part of a plan's calendar; raises TurfplanError where they cannot be read."""
    path = folder / FILES[part]
    try:
        return path.read_bytes()
    except OSError as error:
        raise TurfplanError(unreadable(path, error)) from None


def _refuse_copy(folder: Path, other: Path) -> None:
    """Raises TurfplanError where the folder that a lawn was published from still holds it."""
    lawn_id = known_lawn_id(folder)
    if known_lawn_id(other) == lawn_id:
        hint = identity.new_copy(command="turfplan new FILE --from BRIEF")
        fault = identity.known_elsewhere(folder=str(other))
        raise TurfplanError(Problem(str(folder), fault, lawn_id, None, hint))
