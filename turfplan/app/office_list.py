"""Looks at all lawns of a business for its office: whose they are, and what of each must be decided
on a day. A lawn whose files lie as they lay is not read again.
"""

import csv
import io
import os
import re
import threading
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from functools import lru_cache
from pathlib import Path
from zoneinfo import ZoneInfo

from turfplan.app.client_messages import KeptTold
from turfplan.app.client_season import HEADS, SUMMARY, season_of
from turfplan.app.lawn_glimpse import glimpse_of
from turfplan.app.lawn_journal import entries_of_lawn
from turfplan.app.office_needs import OfficeNeed, needs_of
from turfplan.app.worked_glance import of_crews, sold_glance, unpaused, worked_glance
from turfplan.business.business_record import Business
from turfplan.business.client_record import Client
from turfplan.business.crew_hours import CREW_COLUMN
from turfplan.business.lawn_glance import GlancedJob, LawnGlance
from turfplan.business.lawn_pauses import Pause, pause_on
from turfplan.business.promised_days import PromisedDays
from turfplan.business.quote_record import Quote
from turfplan.business.unanswered import Unanswered, last_offer, unanswered
from turfplan.errors import Problem, TurfplanError, problem_message, within
from turfplan.files.data_folder import (
    BRIEF,
    BUSINESS,
    CALLBACKS,
    PAUSES,
    PLAN,
    QUOTES,
    TOLD_DAYS,
    lawns_in,
)
from turfplan.files.glance_index import KnownLawn, glance_index, inputs_in
from turfplan.files.kept_record import read_kept
from turfplan.files.lawn_standing import read_callbacks, read_pauses, read_quotes
from turfplan.files.reading.brief import journal_beside
from turfplan.files.reading.business import read_business, read_client
from turfplan.files.reading.plan import read_plan
from turfplan.message import Message, Worded, as_written
from turfplan.phrases import office as phrases
from turfplan.records.book_names import BY_HOUSEHOLD

_FileStates = tuple[tuple[int, int, int] | None, ...]
# What a lawn is known by; its brief comes first.
_NAMES = (*inputs_in(Path()), QUOTES, TOLD_DAYS, PAUSES, CALLBACKS)
_JOURNAL = journal_beside(Path(BRIEF)).name
_FAILED = ("not possible", "bad row", "not written", "fault")


@dataclass(frozen=True, slots=True)
class OfficeLawn:
    """A lawn as the office knows it; `fault` is why it has no plan that holds, `told` the days that
    its client was last told (None: nobody has told any). The jobs of `glance` are sold, `unsold`
    are those that wait for an answer or were declined."""

    folder: Path
    client: Client
    glance: LawnGlance | None
    fault: Message | None
    quotes: tuple[Quote, ...]
    told: Mapping[str, PromisedDays] | None
    by_client: tuple[str, ...]
    pauses: tuple[Pause, ...] = ()
    unsold: tuple[GlancedJob, ...] = ()

    @property
    def id(self) -> str:
        """The name of its folder."""
        return self.folder.name

    @property
    def name(self) -> str:
        """Whose lawn it is, as far as that is known, else what it is called."""
        named = self.client.name or (self.glance.name if self.glance is not None else "")
        return named or self.id

    @property
    def crew(self) -> str:
        """The crew that its client's record names."""
        own = self.client.own.items()
        return next((v.strip() for head, v in own if head.casefold() == CREW_COLUMN), "")

    def today(self, now: datetime) -> date:
        """The day it is where the lawn lies."""
        zone = ZoneInfo(self.glance.zone) if self.glance is not None else None
        return now.astimezone(zone).date() if zone is not None else now.date()

    def jobs_of(self, today: date) -> tuple[GlancedJob, ...]:
        """Its jobs of a day that crews do; none while it is paused."""
        return self.jobs_within(today, today)

    def jobs_within(self, first: date, last: date) -> tuple[GlancedJob, ...]:
        """Its jobs that crews do and that lie on some of these days; none of a time when it is
        paused."""
        jobs = self.glance.jobs if self.glance is not None else ()
        within = tuple(job for job in jobs if job.start <= last and job.end >= first)
        return unpaused(of_crews(within, self.by_client), self.pauses, first)

    def pause(self, today: date) -> Pause | None:
        """The pause of a day, None where it is not paused."""
        return pause_on(self.pauses, today)

    def waits(self, today: date) -> Unanswered | None:
        """What waits for the answer to a quote on a day; None where nothing does."""
        offer = last_offer(self.quotes)
        if offer is None or not self.unsold:
            return None
        waits = unanswered(offer, self.unsold, today)
        return waits if waits.is_open else None

    def was_written_by(self, name: str, now: datetime) -> bool:
        """Whether somebody wrote into its journal on the day it is there."""
        last = _wrote(self.folder, _state(f"{self.folder}/{_JOURNAL}")).get(name)
        today = self.today(now)
        return last is not None and today in (last[0], self.today(last[1]))

    @property
    def searched(self) -> str:
        """All words by which it is found: id, names, address, town, every column of one's own."""
        own = self.client.own.values()
        parts = (self.id, self.client.name, self.client.address, self.client.telephone, *own)
        glance = self.glance
        places = (glance.name, glance.place) if glance is not None else ()
        return "\n".join(filter(None, (*parts, *places))).casefold()


@dataclass(slots=True)
class OfficeShelf:
    """All lawns of a data folder, as they were when their files were last looked at."""

    root: Path
    lock: threading.Lock = field(default_factory=threading.Lock)
    kept: dict[str, tuple[_FileStates, OfficeLawn]] = field(default_factory=dict)
    of_business: _FileStates = ()
    decided: dict[str, tuple[OfficeLawn, date, tuple[OfficeNeed, ...]]] = field(
        default_factory=dict
    )

    def lawns(self) -> tuple[OfficeLawn, ...]:
        """Every lawn, by the name of its folder. Raises TurfplanError for a `business.toml` that
        cannot be read."""
        with self.lock:
            return tuple(self._looked_at())

    def lawn(self, name: str) -> OfficeLawn | None:
        """The lawn of a folder's name, None where there is none; only its own files are looked at.
        Raises TurfplanError as `lawns` does."""
        folder = lawns_in(self.root) / name
        if folder.name != name or name.startswith("."):
            return None
        with self.lock:
            return next(self._of_folders((folder,)), None)

    def needs(self, lawn: OfficeLawn, today: date) -> tuple[OfficeNeed, ...]:
        """What must be decided of a lawn on a day; the same lawn on the same day is not asked
        twice."""
        known = self.decided.get(lawn.id)
        if known is not None and known[0] is lawn and known[1] == today:
            return known[2]
        found = needs_of(lawn, today)
        self.decided[lawn.id] = (lawn, today, found)
        return found

    def _looked_at(self) -> Iterator[OfficeLawn]:
        lawns = lawns_in(self.root)
        folders = [lawns / name for name in sorted(os.listdir(lawns))] if lawns.is_dir() else []
        yield from self._of_folders(folders)
        for name in self.kept.keys() - {folder.name for folder in folders}:
            del self.kept[name]
            self.decided.pop(name, None)

    def _of_folders(self, folders: Sequence[Path]) -> Iterator[OfficeLawn]:
        business = read_business(self.root)
        of_business = _stamp(self.root, (BUSINESS, SUMMARY))
        if of_business != self.of_business:
            self.kept, self.of_business = {}, of_business
        stamps = {folder: _stamp(folder, _NAMES) for folder in folders}
        # A folder without a brief is no lawn.
        stamps = {folder: stamp for folder, stamp in stamps.items() if stamp[0] is not None}
        fresh = any(self._known(folder, stamp) is None for folder, stamp in stamps.items())
        glances: dict[str, KnownLawn] = {}
        failed: Mapping[str, str] = {}
        if fresh:
            with glance_index(self.root) as index:
                glances = index.known()
            failed = _failures(self.root)
        for folder, stamp in stamps.items():
            found = self._known(folder, stamp)
            if found is None:
                said = _LastRun(glances.get(folder.name), failed.get(folder.name))
                found = _read(folder, said, business, self.root)
                self.kept[folder.name] = (stamp, found)
            yield found

    def _known(self, folder: Path, stamp: _FileStates) -> OfficeLawn | None:
        kept = self.kept.get(folder.name)
        return kept[1] if kept is not None and kept[0] == stamp else None


@dataclass(frozen=True, slots=True)
class _LastRun:
    """What the last run over all lawns said of one."""

    known: KnownLawn | None
    failed: str | None


def _stamp(folder: Path, names: Sequence[str]) -> _FileStates:
    """Files of a folder as they lie there now. Thousands are asked at once: paths are plain text
    here."""
    place = str(folder)
    return tuple(_state(f"{place}/{name}") for name in names)


def _state(path: str) -> tuple[int, int, int] | None:
    try:
        found = os.stat(path)
    except (OSError, ValueError):
        # Not there, or no name that a file can have.
        return None
    return found.st_mtime_ns, found.st_size, found.st_ino


@lru_cache(maxsize=4096)
def _wrote(
    folder: Path, journal: tuple[int, int, int] | None
) -> Mapping[str, tuple[date | None, datetime]]:
    """Of which day the last entry is of each who wrote into the journal of a lawn, and when it was
    written; nothing where the journal cannot be read, which the lawn's own page tells."""
    try:
        entries = entries_of_lawn(folder) if journal is not None else ()
    except TurfplanError:
        return {}
    return {one.by: (one.on, one.at) for one in entries}


def _failures(root: Path) -> dict[str, str]:
    """Why lawns could not be planned when all were last planned, by the names of their folders."""
    try:
        text = (root / SUMMARY).read_text(encoding="utf-8")
    except (OSError, ValueError):
        return {}
    name, state, reason = HEADS[:3]
    rows = csv.DictReader(io.StringIO(text))
    return {
        row[name]: row.get(reason) or ""
        for row in rows
        if row.get(name) and row.get(state) in _FAILED
    }


def _read(folder: Path, said: _LastRun, business: Business | None, root: Path) -> OfficeLawn:
    """A lawn as its files say it; what cannot be read is told as its fault."""
    client, glance, quotes, told = Client(), None, tuple[Quote, ...](), None
    fault: Message | None = None
    pauses: tuple[Pause, ...] = ()
    unsold: tuple[GlancedJob, ...] = ()
    rates = business.times if business is not None else {}
    try:
        client = read_client(folder)
        pauses = read_pauses(folder)
        glance, fault = _planned(folder, said, root)
        quotes = read_quotes(folder)
        if glance is not None:
            every = worked_glance(glance, read_callbacks(folder), rates)
            glance, waits = sold_glance(every, quotes, date.min)
            unsold = waits.jobs if waits is not None else ()
        days = read_kept(folder / TOLD_DAYS, KeptTold)
        if days is not None:
            told = {n: PromisedDays(d.title, d.start, d.end) for n, d in days.days.items()}
    except TurfplanError as error:
        fault = problem_message(_placeless(error.problems[0], folder))
    by_client = business.client_does if business is not None else BY_HOUSEHOLD
    theirs = tuple(by_client)
    return OfficeLawn(folder, client, glance, fault, quotes, told, theirs, pauses, unsold)


def _planned(folder: Path, said: _LastRun, root: Path) -> tuple[LawnGlance | None, Message | None]:
    """A lawn at one look, and why its plan does not hold, if it does not."""
    known = said.known
    if known is not None and known.still_holds(folder):
        season = season_of(known.said)
        if season is not None and season.glance is not None:
            return season.glance, None
        if season is not None and season.state == "not possible":
            return _of_plan(folder), _reason(season.campaign, folder)
    glance = _of_plan(folder)
    if said.failed is not None and _older(folder / PLAN, root / SUMMARY):
        return glance, _reason(said.failed, folder)
    return glance, phrases.never_planned() if glance is None else None


def _reason(text: str, folder: Path) -> Message:
    """Why a lawn could not be planned, without the places of its files, which are the machine's."""
    place = rf"\S*{re.escape(folder.name)}/(?:{re.escape(BRIEF)}: )?(?=\S)"
    return as_written(re.sub(place, "", text))


def _placeless(problem: Problem, folder: Path) -> Problem:
    """A fault with the place in its file, and not that of the file on the machine."""

    def bare(place: Worded) -> Worded:
        if isinstance(place, str):
            return place.replace(f"{folder}/", "")
        parts = dict(place.values)
        outer, inner = parts.get("outer"), parts.get("inner")
        if not isinstance(outer, str) or not isinstance(inner, str | Message):
            return place
        return within(str(bare(outer)), inner)

    return replace(problem, where=bare(problem.where))


def _of_plan(folder: Path) -> LawnGlance | None:
    plan = read_plan(folder)
    return glimpse_of(plan, entries_of_lawn(folder)) if plan is not None else None


def _older(one: Path, other: Path) -> bool:
    """Whether a file was written before another, or is not there."""
    try:
        return one.stat().st_mtime_ns <= other.stat().st_mtime_ns
    except OSError:
        return True
