"""Ends of clients: one leaves, and the lawn goes into the archive; a lawn is sold, and its history
stays with it. Either is handed over as one archive, and can be taken back."""

from collections.abc import Collection, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from turfplan.app.backup_lawns import lawn_archive
from turfplan.app.client_import import sold_text
from turfplan.app.data_folders import clients_in
from turfplan.app.handed_over import TABLE as OF_DAYS
from turfplan.app.handed_over import days_of_owner, text_of_brief, with_days, without_days
from turfplan.business.client_record import Client
from turfplan.business.column_cells import form_of, value_of
from turfplan.business.column_forms import CLIENT as CLIENT_TABLE
from turfplan.business.crew_hours import CREW_COLUMN
from turfplan.errors import FormError, Problem, TurfplanError, did_you_mean
from turfplan.files.archived_lawns import archive_lawn, end_lawn_addresses
from turfplan.files.brief_text import brief_text
from turfplan.files.data_folder import (
    ARCHIVE,
    BRIEF,
    CLIENT,
    LEFT,
    OWNERS,
    QUOTES,
    TOLD_DAYS,
    lawns_in,
)
from turfplan.files.kept_record import read_kept, write_kept
from turfplan.files.lawn_standing import (
    FormerOwner,
    KeptLeft,
    KeptOwners,
    KeptQuotes,
    read_left,
    read_owners,
)
from turfplan.files.plan_folder import folder_lock
from turfplan.files.publish_record import RECORD
from turfplan.files.reading.business import read_client, record_from
from turfplan.files.system_faults import unreadable, unwritable
from turfplan.files.whole_files import write_into_folders
from turfplan.message import Message
from turfplan.phrases import business as of_business
from turfplan.phrases import standing as phrases

# So an archive that is handed over is called.
HANDED_OVER = "{lawn}.copy"


@dataclass(frozen=True, slots=True)
class EndedClient:
    """What came of it: whose lawn it is or was, the archive that is handed over, and what must be
    told."""

    lawn: str
    name: str
    archive: Path
    notes: tuple[Message, ...] = ()


@dataclass(frozen=True, slots=True)
class NewOwner:
    """Who has a lawn now, by keys of a client and columns of the business's own as they are
    written; `keep` are own columns whose values stay (that of the crew always does)."""

    name: str
    said: Mapping[str, str]
    keep: Collection[str] = ()


def leave(
    output: Path,
    lawn: str,
    today: date,
    to: Path | None,
    *,
    by: str = "",
    note: str = "",
    dry: bool = False,
) -> EndedClient:
    """Hand a lawn over as one archive, put it into the archive of the data folder, and end its
    addresses; with `dry` nothing of it.

    Raises TurfplanError for a lawn that there is not, and files that cannot be read or written; the
    archive that is handed over is written first.
    """
    folder, client = _lawn(output, lawn)
    archive = to or output / HANDED_OVER.format(lawn=lawn)
    ended = EndedClient(lawn, client.name or lawn, archive, tuple(_published(folder)))
    if dry:
        return ended
    with folder_lock(output):
        begun = read_left(folder) is not None
        write_kept(folder / LEFT, KeptLeft(lawn=lawn, on=today, by=by, note=note))
        # A run that was stopped has written the archive whole, or not at all.
        notes = () if begun and archive.exists() else lawn_archive(archive, folder, today)
        archive_lawn(output, folder)
    return EndedClient(ended.lawn, ended.name, archive, (*ended.notes, *notes))


def come_back(output: Path, lawn: str) -> str:
    """Bring a lawn back whose client had left; its addresses stay ended. Returns its folder's name.

    Raises TurfplanError where none has left, or another lawn bears its name by now.
    """
    with folder_lock(output):
        found = left_lawns(output)
        if lawn not in found:
            hint = did_you_mean(lawn, found)
            raise TurfplanError(Problem(lawn, phrases.never_left(), hint=hint))
        folder = lawns_in(output) / lawn
        if folder.exists():
            raise TurfplanError(Problem(lawn, phrases.place_taken()))
        try:
            found[lawn].rename(folder)
            (folder / LEFT).unlink(missing_ok=True)
        except OSError as error:
            raise TurfplanError(unwritable(folder, error)) from None
    return lawn


def left_lawns(output: Path) -> Mapping[str, Path]:
    """The lawns in the archive whose clients have left, by what their folders were called; of one
    that left twice the last."""
    archive = output / ARCHIVE
    folders = sorted(archive.iterdir()) if archive.is_dir() else []
    found: dict[str, tuple[date, Path]] = {}
    for folder in folders:
        left = read_left(folder) if folder.is_dir() else None
        if left is not None and (left.lawn not in found or found[left.lawn][0] <= left.on):
            found[left.lawn] = left.on, folder
    return {name: folder for name, (_, folder) in found.items()}


def left_clients(output: Path) -> Mapping[str, date]:
    """The clients that have left, by what their lawns' folders were called, with the day: their
    rows bring nothing back. A lawn that bears such a name by now is another one."""
    lawns = lawns_in(output)
    return {
        name: left.on
        for name, folder in left_lawns(output).items()
        if not (lawns / name).exists() and (left := read_left(folder)) is not None
    }


def sell(
    output: Path,
    lawn: str,
    today: date,
    owner: NewOwner,
    to: Path | None,
    *,
    by: str = "",
    dry: bool = False,
) -> EndedClient:
    """Give a lawn to a new owner: a client of its own, addresses end, the history stays, what was
    offered and told to the owner before is put aside, and the lawn is handed over as one archive.

    Nothing of it with `dry`. Raises TurfplanError for keys that a client has not, values of another
    form, and as `leave` does.
    """
    folder, client = _lawn(output, lawn)
    tables = _tables_of(owner, client)
    record_from(tables, Client)
    archive = to or output / HANDED_OVER.format(lawn=f"{lawn}-{today.isoformat()}")
    ended = EndedClient(lawn, owner.name, archive, tuple(_published(folder)))
    if dry:
        return ended
    with folder_lock(output):
        text, owners = _text(folder / CLIENT), read_owners(folder)
        # A run that was stopped goes on: whose client this is was put aside already.
        begun = bool(owners) and (owners[-1].sold_on, owners[-1].text) == (today, text)
        notes = () if begun and archive.exists() else lawn_archive(archive, folder, today)
        if not begun:
            quotes = read_kept(folder / QUOTES, KeptQuotes)
            former = FormerOwner(
                sold_on=today,
                name=client.name or folder.name,
                text=text,
                quotes=quotes.quotes if quotes is not None else (),
                told=_text(folder / TOLD_DAYS),
                days=_days_text(folder),
                by=by,
            )
            write_kept(folder / OWNERS, KeptOwners(owners=(*owners, former)))
        end_lawn_addresses(output, folder)
        with _told_of_disk(folder):
            for name in (QUOTES, TOLD_DAYS):
                (folder / name).unlink(missing_ok=True)
            # Written last: until then the owner before is the client.
            new = sold_text(text.encode(), brief_text(tables).encode())
            files, brief = {folder / CLIENT: new}, text_of_brief(folder)
            if days_of_owner(brief):
                files[folder / BRIEF] = without_days(brief).encode()
            write_into_folders(files)
    return EndedClient(lawn, owner.name, archive, (*ended.notes, *notes))


def unsell(output: Path, lawn: str) -> EndedClient:
    """Take a sale back: the owner before is the client again, with what was offered and told.

    Raises TurfplanError for a lawn that was not sold.
    """
    folder, _ = _lawn(output, lawn)
    with folder_lock(output):
        owners = read_owners(folder)
        if not owners:
            raise TurfplanError(Problem(lawn, phrases.never_sold()))
        *before, last = owners
        end_lawn_addresses(output, folder)
        with _told_of_disk(folder):
            quotes = read_kept(folder / QUOTES, KeptQuotes)
            mine = quotes.quotes if quotes is not None else ()
            known = {quote.number for quote in last.quotes}
            all_quotes = (*last.quotes, *(one for one in mine if one.number not in known))
            files = {folder / CLIENT: last.text.encode()}
            if last.days:
                days = days_of_owner(last.days)
                files[folder / BRIEF] = with_days(text_of_brief(folder), days).encode()
            if last.told:
                files[folder / TOLD_DAYS] = last.told.encode()
            if all_quotes:
                write_kept(folder / QUOTES, KeptQuotes(quotes=all_quotes))
            write_into_folders(files)
            if before:
                write_kept(folder / OWNERS, KeptOwners(owners=tuple(before)))
            else:
                (folder / OWNERS).unlink(missing_ok=True)
    return EndedClient(lawn, last.name, folder)


def _days_text(folder: Path) -> str:
    """What the brief of a lawn says of days on which its owner is not at home, as it is put back;
    nothing where it says none."""
    days = days_of_owner(text_of_brief(folder))
    return brief_text({OF_DAYS: days}) if days else ""


def _tables_of(owner: NewOwner, client: Client) -> dict[str, Any]:
    """The new client: the place stays the lawn's, all else is what is said; raises TurfplanError
    with every key that is none."""
    columns = {name.casefold(): name for name in client.own}
    problems, own = list[Problem](), dict[str, str]()
    for name in (*owner.keep, CREW_COLUMN):
        head = columns.get(name.casefold())
        if head is not None:
            own[head] = client.own[head]
        elif name != CREW_COLUMN:
            hint = did_you_mean(name, columns.values())
            problems.append(Problem("--keep", phrases.no_such_column(), name, None, hint))
    tables: dict[str, Any] = {"name": owner.name}
    place = ("address", "latitude", "longitude")
    tables |= {key: getattr(client, key) for key in place if getattr(client, key) is not None}
    for key, text in owner.said.items():
        full = f"{CLIENT_TABLE}.{key}"
        if key.casefold() in columns:
            own[columns[key.casefold()]] = text
        elif form_of(full) is None:
            hint = did_you_mean(key, columns.values())
            problems.append(Problem("--set", phrases.no_such_column(), key, None, hint))
        else:
            try:
                tables[key] = value_of(full, text)
            except FormError as error:
                problems.append(Problem(f"--set {key}", error.message, repr(text), hint=error.hint))
    if problems:
        raise TurfplanError(problems)
    return {**tables, "own": own} if own else tables


def _lawn(output: Path, lawn: str) -> tuple[Path, Client]:
    clients = {folder.name: folder for folder in clients_in(output)}
    if lawn not in clients:
        hint = did_you_mean(lawn, clients)
        raise TurfplanError(Problem(lawn, phrases.no_lawn(), hint=hint))
    return clients[lawn], read_client(clients[lawn])


def _published(folder: Path) -> Iterator[Message]:
    if (folder / RECORD).is_file():
        yield of_business.still_published(client=folder.name)


def _text(path: Path) -> str:
    try:
        return path.read_bytes().decode("utf-8-sig")
    except FileNotFoundError:
        return ""
    except OSError as error:
        raise TurfplanError(unreadable(path, error)) from None


@contextmanager
def _told_of_disk(folder: Path) -> Iterator[None]:
    try:
        yield
    except OSError as error:
        raise TurfplanError(unwritable(folder, error)) from None
