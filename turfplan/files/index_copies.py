"""The rows of an index as they are copied, and brought into an index again.

A copy is rows, never a file of the database: nothing of its form comes along. Version 0.1 copied
the file; its rows are read, and nothing else of it.
"""

import base64
import re
import sqlite3
from collections.abc import Callable, Collection, Mapping
from contextlib import closing
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import Field, ValidationError

from turfplan.errors import Problem, TurfplanError
from turfplan.files.copied_rows import CopiedRow, IsoDay, Moment, Text, free_number
from turfplan.files.data_folder import known_lawn_id
from turfplan.files.house_copies import (
    CopiedHouseToken,
    PublishedHouse,
    are_sound,
    bring_house_rows,
    house_rows,
    is_whole,
)
from turfplan.files.index import another_there, elsewhere, now_text, opened
from turfplan.files.index_forms import MIGRATIONS
from turfplan.phrases import backups as phrases
from turfplan.phrases import errors

SQLITE = b"SQLite format 3\x00"
TABLES = ("lawn", "token", "published")


class LawnRow(CopiedRow):
    """A lawn of an index; a folder below the place of the copy is named from there."""

    id: int
    folder: Text
    brief: Text | None = None
    lawn_id: Text
    added: Moment


class CopiedToken(CopiedRow):
    """A token of an index, by its hash."""

    id: int
    lawn: int
    page: int | None = None
    kind: Literal["feed", "read", "edit"]
    hash: Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")]
    label: Text
    created: Moment
    revoked: Moment | None = None
    closed: Moment | None = None
    ends: IsoDay | None = None
    # What an address shows is a right: it comes along, so that none shows more than it did.
    part: Literal["all", "work", "water"] = "all"
    first_day: IsoDay | None = None
    last_day: IsoDay | None = None


class PublishedRow(CopiedRow):
    """The last good bytes of a lawn's feed or of a part of it, in base 64."""

    lawn: int
    part: Annotated[str, Field(pattern=r"^[a-z0-9 -]{1,40}$")] = "all"
    stamp: Text
    bytes: Annotated[str, Field(pattern=r"^[A-Za-z0-9+/=]*$")]
    at: Moment


class IndexRows(CopiedRow):
    """All that an index holds."""

    form: int
    lawn: tuple[LawnRow, ...] = ()
    token: tuple[CopiedToken, ...] = ()
    published: tuple[PublishedRow, ...] = ()
    house_token: tuple[CopiedHouseToken, ...] = ()
    house_published: tuple[PublishedHouse, ...] = ()

    def of(self, folders: Collection[Path]) -> "IndexRows":
        """The rows of the lawns in some folders (absolute ones), and those of the houses all of
        whose lawns are among them."""
        lawns = [row for row in self.lawn if Path(row.folder) in folders]
        ids = {row.id for row in lawns}
        return IndexRows(
            form=self.form,
            lawn=tuple(lawns),
            token=tuple(row for row in self.token if row.lawn in ids),
            published=tuple(row for row in self.published if row.lawn in ids),
        ).with_houses(self, lambda house: is_whole(house, folders))

    def with_houses(self, given: "IndexRows", kept: Callable[[Path], bool]) -> "IndexRows":
        """The rows with those of the houses of others that are to be kept."""
        return self.model_copy(
            update={
                "house_token": tuple(r for r in given.house_token if kept(Path(r.house))),
                "house_published": tuple(r for r in given.house_published if kept(Path(r.house))),
            }
        )

    @property
    def addresses(self) -> int:
        """How many addresses there are, those of pages' feeds among them."""
        return len(self.token) + len(self.house_token)

    def placed(self, place: Callable[[str], str]) -> "IndexRows":
        """The rows with their folders and briefs named in another way."""
        lawns = [
            row.model_copy(
                update={"folder": place(row.folder), "brief": row.brief and place(row.brief)}
            )
            for row in self.lawn
        ]
        houses = {
            name: tuple(row.model_copy(update={"house": place(row.house)}) for row in rows)
            for name, rows in (
                ("house_token", self.house_token),
                ("house_published", self.house_published),
            )
        }
        return self.model_copy(update={"lawn": tuple(lawns), **houses})


def rows_of_index(path: Path) -> IndexRows:
    """The rows of an index, also while it is in use; raises TurfplanError where it cannot be
    used."""
    with opened(path, create=False) as connection:
        connection.execute("BEGIN")
        rows = _rows(connection, len(MIGRATIONS))
        connection.execute("ROLLBACK")
    return rows


def rows_of_copy(path: Path) -> IndexRows:
    """The rows of a copy as version 0.1 made it, a file of the database.

    Raises TurfplanError for one that is damaged, newer, or holds anything that no index has.
    """
    bad = Problem(str(path), phrases.no_table(), hint=phrases.nothing_restored())
    try:
        with closing(sqlite3.connect(f"{path.resolve().as_uri()}?mode=ro", uri=True)) as copy:
            form = int(copy.execute("PRAGMA user_version").fetchone()[0])
            if (
                copy.execute("PRAGMA integrity_check").fetchone()[0] != "ok"
                or not 0 < form <= len(MIGRATIONS)
                or _schema(copy) != _schema_of(form)
            ):
                raise TurfplanError(bad)
            return _rows(copy, form)
    except FileNotFoundError:
        raise TurfplanError(Problem(str(path), errors.no_such_file())) from None
    except (sqlite3.Error, ValidationError, ValueError, TypeError):
        raise TurfplanError(bad) from None


def rows_of_json(raw: bytes, where: str) -> IndexRows:
    """The rows of an index in an archive; raises TurfplanError for rows that no index has."""
    try:
        rows = IndexRows.model_validate_json(raw)
    except ValidationError as error:
        what = ".".join(map(str, error.errors(include_url=False)[0]["loc"]))
        raise TurfplanError(_bad_row(where, what)) from None
    if rows.form > len(MIGRATIONS):
        raise TurfplanError(Problem(where, phrases.newer(), hint=phrases.upgrade()))
    lawns, tokens = {row.id for row in rows.lawn}, {row.id for row in rows.token}
    sound = {
        "lawn": len(lawns) == len(rows.lawn) == len({row.folder for row in rows.lawn}),
        "token": len(tokens) == len(rows.token) == len({row.hash for row in rows.token})
        and all(row.lawn in lawns and row.page in {None, *tokens} for row in rows.token),
        "published": all(row.lawn in lawns for row in rows.published),
        "house_token": are_sound(rows.house_token),
    }
    if bad := [table for table, good in sound.items() if not good]:
        raise TurfplanError(_bad_row(where, table) for table in bad)
    return rows


def _bad_row(where: str, what: str) -> Problem:
    return Problem(where, phrases.bad_row(what=what), hint=phrases.nothing_restored())


def _schema(connection: sqlite3.Connection) -> set[tuple[str, str, str | None]]:
    """Everything that a database defines; how its statements are spaced does not matter."""
    rows = connection.execute("SELECT type, name, sql FROM sqlite_master")
    return {(kind, name, sql and re.sub(r"\s+", " ", sql)) for kind, name, sql in rows}


def _schema_of(form: int) -> set[tuple[str, str, str | None]]:
    """What an index of a form defines."""
    with closing(sqlite3.connect(":memory:")) as made:
        for statements in MIGRATIONS[:form]:
            for statement in statements:
                made.execute(statement)
        return _schema(made)


# Since which form a column is there, and what stands for it in older ones.
_LATER = {
    "closed": (3, "NULL"),
    "ends": (4, "NULL"),
    "part": (5, "'all'"),
    "first_day": (5, "NULL"),
    "last_day": (5, "NULL"),
}


def _rows(connection: sqlite3.Connection, form: int) -> IndexRows:
    """The rows of an open index of a form."""
    columns = {
        "lawn": ("id", "folder", "brief", "lawn_id", "added"),
        "token": ("id", "lawn", "page", "kind", "hash", "label", "created", "revoked", *_LATER),
        "published": ("lawn", "part", "stamp", "bytes", "at"),
    }
    found: dict[str, list[dict[str, Any]]] = {}
    for table, names in columns.items():
        read = (_column(name, form) for name in names)
        rows = connection.execute(f"SELECT {', '.join(read)} FROM {table} ORDER BY 1, 2")
        found[table] = [dict(zip(names, row, strict=True)) for row in rows]
    for row in found["published"]:
        row["bytes"] = base64.b64encode(bytes(row["bytes"])).decode()
    return IndexRows(
        form=form,
        lawn=tuple(LawnRow.model_validate(row) for row in found["lawn"]),
        token=tuple(CopiedToken.model_validate(row) for row in found["token"]),
        published=tuple(PublishedRow.model_validate(row) for row in found["published"]),
        **house_rows(connection, form),
    )


def _column(name: str, form: int) -> str:
    """A column of a form; one that came later is read as what it stands for."""
    since, stand_in = _LATER.get(name, (0, ""))
    return name if form >= since else f"{stand_in} AS {name}"


@dataclass(frozen=True, slots=True)
class BroughtTokens:
    """What became of the tokens of a copy, of houses too: those that are open, those that came back
    closed, by their numbers in the index, and how many stay withdrawn."""

    opened: tuple[CopiedToken | CopiedHouseToken, ...]
    closed: tuple[CopiedToken | CopiedHouseToken, ...]
    withdrawn: int


def bring_rows(
    connection: sqlite3.Connection, rows: IndexRows, *, with_addresses: bool
) -> BroughtTokens:
    """Bring the rows of a copy into an index, within the caller's transaction; folders absolute.

    What the index holds stands: a token that it knows is not opened again, and one that was
    withdrawn in either is. A token that it does not know comes back closed, since nobody can tell
    whether it was withdrawn meanwhile, unless it is to come `with_addresses`. Raises TurfplanError
    where the index knows a lawn elsewhere, or another one in its folder.
    """
    lawns: dict[int, int] = {}
    for lawn in rows.lawn:
        lawns[lawn.id] = _brought_lawn(connection, lawn, lawns.values())
    numbers: dict[int, int] = {}
    now, withdrawn = now_text(), 0
    open_again: list[CopiedToken | CopiedHouseToken] = []
    closed: list[CopiedToken | CopiedHouseToken] = []
    for row in sorted(rows.token, key=lambda token: (token.page is not None, token.id)):
        known = connection.execute(
            "SELECT id, revoked, closed FROM token WHERE hash = ?", (row.hash,)
        ).fetchone()
        if known is None:
            shut = None if row.revoked or with_addresses else row.closed or now
            page = numbers.get(row.page) if row.page is not None else None
            kept = connection.execute(
                "INSERT INTO token (id, lawn, page, kind, hash, label, created, revoked, closed, "
                "ends, part, first_day, last_day) "
                "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
                (
                    free_number(connection, "token", row.id),
                    lawns[row.lawn],
                    page,
                    row.kind,
                    row.hash,
                    row.label,
                    row.created,
                    row.revoked,
                    shut,
                    row.ends,
                    row.part,
                    row.first_day,
                    row.last_day,
                ),
            )
            numbers[row.id] = int(kept.lastrowid or 0)
            gone = row.revoked
        else:
            numbers[row.id], gone = known[0], known[1] or row.revoked
            shut = None if with_addresses else known[2]
            connection.execute(
                "UPDATE token SET revoked = ?, closed = ? WHERE id = ?", (gone, shut, known[0])
            )
        withdrawn += gone is not None
        if gone is None:
            numbered = row.model_copy(update={"id": numbers[row.id]})
            (closed if shut else open_again).append(numbered)
    _bring_published(connection, rows.published, lawns)
    for house, is_open in bring_house_rows(
        connection, rows.house_token, rows.house_published, now, with_addresses=with_addresses
    ):
        withdrawn += is_open is None
        if is_open is not None:
            (open_again if is_open else closed).append(house)
    return BroughtTokens(tuple(open_again), tuple(closed), withdrawn)


def _brought_lawn(connection: sqlite3.Connection, row: LawnRow, brought: Collection[int]) -> int:
    """The number that a lawn of a copy has in the index, where it lies in the row's folder now."""
    here = connection.execute(
        "SELECT id, lawn_id FROM lawn WHERE folder = ?", (row.folder,)
    ).fetchone()
    if here is not None:
        if here[1] != row.lawn_id:
            raise TurfplanError(another_there(Path(row.folder), here[1], row.lawn_id))
        return int(here[0])
    there = next(
        (
            found
            for found in connection.execute(
                "SELECT id, folder FROM lawn WHERE lawn_id = ? ORDER BY id", (row.lawn_id,)
            )
            # Two lawns of one identity in one copy, as version 0.1 allowed, are as they were.
            if found[0] not in brought
        ),
        None,
    )
    if there is not None:
        if known_lawn_id(Path(there[1])) == row.lawn_id:
            raise TurfplanError(elsewhere(Path(row.folder), Path(there[1]), row.lawn_id))
        connection.execute(
            "UPDATE lawn SET folder = ?, brief = ? WHERE id = ?", (row.folder, row.brief, there[0])
        )
        return int(there[0])
    kept = connection.execute(
        "INSERT INTO lawn (folder, brief, lawn_id, added) VALUES (?, ?, ?, ?)",
        (row.folder, row.brief, row.lawn_id, row.added),
    )
    return int(kept.lastrowid or 0)


def _bring_published(
    connection: sqlite3.Connection, rows: Collection[PublishedRow], lawns: Mapping[int, int]
) -> None:
    """Keep the last good bytes of feeds that the index has none of, or older ones."""
    for row in rows:
        known = connection.execute(
            "SELECT at FROM published WHERE lawn = ? AND part = ?", (lawns[row.lawn], row.part)
        ).fetchone()
        if known is None or datetime.fromisoformat(known[0]) < datetime.fromisoformat(row.at):
            connection.execute(
                "INSERT OR REPLACE INTO published (lawn, part, stamp, bytes, at) "
                "VALUES (?, ?, ?, ?, ?)",
                (lawns[row.lawn], row.part, row.stamp, base64.b64decode(row.bytes), row.at),
            )
