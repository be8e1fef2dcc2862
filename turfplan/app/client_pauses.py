"""Pauses the lawns of clients for some days, ends pauses, and takes them back."""

import hashlib
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path

from turfplan.app.data_folders import clients_in
from turfplan.business.client_record import Client
from turfplan.business.groups import ClientGroup, in_group
from turfplan.business.lawn_pauses import Pause, over_on, pause_on
from turfplan.errors import Problem, TurfplanError, did_you_mean
from turfplan.files.lawn_standing import read_pauses, write_pauses
from turfplan.files.plan_folder import folder_lock
from turfplan.message import Day, Message
from turfplan.phrases import standing as phrases

# A pause that begins later than so looks like a slip.
FAR_DAYS = 365


@dataclass(frozen=True, slots=True)
class PausedLawns:
    """Which pauses came of a call at which lawns, and by which name they are taken back."""

    name: str
    pauses: Mapping[str, Pause]


@dataclass(frozen=True, slots=True)
class AskedPause:
    """The days of a pause, without an `end` until it is over; by whom, and why."""

    start: date
    end: date | None = None
    by: str = ""
    note: str = ""


def lawns_meant(
    output: Path, names: Collection[str], group: ClientGroup | None
) -> Mapping[Path, Client]:
    """The lawns that are named, or those of a group.

    Raises TurfplanError with every name that no lawn has, and where neither is said.
    """
    clients = clients_in(output)
    if not names:
        if group is None:
            raise TurfplanError(Problem("LAWN", phrases.name_lawns()))
        return {folder: clients[folder] for folder in in_group(clients, group)}
    known = {folder.name: folder for folder in clients}
    if unknown := [name for name in names if name not in known]:
        raise TurfplanError(
            Problem(name, phrases.no_lawn(), hint=did_you_mean(name, known)) for name in unknown
        )
    wanted = {known[name] for name in names}
    if group is not None:
        members: tuple[Path, ...] = in_group(clients, group)
        wanted &= set(members)
    return {folder: client for folder, client in clients.items() if folder in wanted}


def pause_clients(
    output: Path,
    lawns: Iterable[Path],
    asked: AskedPause,
    today: date,
    *,
    sure: bool = False,
    dry: bool = False,
) -> PausedLawns:
    """Pause lawns; nothing is written while one of them is faulty or the days look like a slip of
    which nobody is `sure`, nor with `dry`. The same pause again is one.

    Raises TurfplanError with all that is wrong.
    """
    problems = _faults_of_days(asked, today, sure=sure)
    folders = tuple(lawns)
    said = f"{asked.start} {asked.end} {' '.join(sorted(folder.name for folder in folders))}"
    name = hashlib.sha256(said.encode()).hexdigest()[:12]
    new = Pause(name=name, start=asked.start, end=asked.end, by=asked.by, note=asked.note)
    with folder_lock(output):
        known = {folder: read_pauses(folder) for folder in folders}
        for folder, pauses in known.items():
            problems += [
                Problem(folder.name, phrases.already_paused(day=_end_of(other)))
                for other in pauses
                if _overlap(other, new) and (other.start, other.end) != (new.start, new.end)
            ]
        if problems:
            raise TurfplanError(problems)
        for folder, pauses in known.items():
            if not dry and not any((p.start, p.end) == (new.start, new.end) for p in pauses):
                write_pauses(folder, (*pauses, new))
    return PausedLawns(name, {folder.name: new for folder in folders})


def end_pauses(output: Path, lawns: Iterable[Path], today: date, *, dry: bool = False) -> int:
    """End the pauses of lawns, so that `today` is a day of work again; how many there were.

    Raises TurfplanError with every lawn that is not paused and will not be.
    """
    with folder_lock(output):
        known = {folder: read_pauses(folder) for folder in lawns}
        last = today - timedelta(days=1)
        ended = {folder: over_on(pauses, last) for folder, pauses in known.items()}
        if idle := [folder.name for folder in known if ended[folder] == known[folder]]:
            raise TurfplanError(Problem(name, phrases.not_paused()) for name in idle)
        for folder, pauses in ended.items():
            if not dry:
                write_pauses(folder, pauses)
    return len(known)


def undo_pauses(output: Path, name: str) -> int:
    """Take back all pauses of one call; how many lawns it paused.

    Raises TurfplanError where none of it stands.
    """
    with folder_lock(output):
        known = {folder: read_pauses(folder) for folder in clients_in(output)}
        found = [folder for folder, pauses in known.items() if any(p.name == name for p in pauses)]
        if not found:
            raise TurfplanError(Problem("--undo", phrases.no_such_call(), name))
        for folder in found:
            write_pauses(folder, tuple(p for p in known[folder] if p.name != name))
    return len(found)


def working(folders: Iterable[Path], day: date) -> tuple[tuple[Path, ...], tuple[Message, ...]]:
    """The lawns that are not paused on a day, and what must be told of the others.

    Raises TurfplanError for records that cannot be read.
    """
    found, notes = list[Path](), list[Message]()
    for folder in folders:
        pause = pause_on(read_pauses(folder), day)
        if pause is None:
            found.append(folder)
        else:
            notes.append(paused_message(folder.name, pause))
    return tuple(found), tuple(notes)


def paused_message(client: str, pause: Pause) -> Message:
    """What is told of a lawn that is paused."""
    if pause.end is None:
        return phrases.is_paused_open(client=client)
    return phrases.is_paused(client=client, day=Day(pause.end, weekday=True))


def _end_of(pause: Pause) -> str:
    return pause.end.isoformat() if pause.end is not None else "–"


def _overlap(one: Pause, other: Pause) -> bool:
    ends = (one.end or date.max, other.end or date.max)
    return one.start <= ends[1] and other.start <= ends[0]


def _faults_of_days(asked: AskedPause, today: date, *, sure: bool) -> list[Problem]:
    start, end = asked.start, asked.end
    if end is not None and end < start:
        fault = phrases.ends_first(start=start.isoformat(), end=end.isoformat())
        return [Problem("--until", fault)]
    slips = []
    if end is not None and end < today:
        slips.append(Problem("--until", phrases.pause_is_over(end=end.isoformat())))
    if (start - today).days > FAR_DAYS:
        slips.append(Problem("--from", phrases.pause_is_far(start=start.isoformat())))
    if sure or not slips:
        return []
    return [
        Problem(slip.where, slip.message, hint=phrases.keep() if slip is slips[-1] else None)
        for slip in slips
    ]
