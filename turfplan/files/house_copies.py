"""The rows of the addresses of houses as they are copied, and brought into an index again."""

import base64
import sqlite3
from collections.abc import Collection, Iterator, Sequence
from datetime import datetime
from pathlib import Path
from typing import Any, Literal

from turfplan.files.copied_rows import Base64, CopiedRow, Moment, Sha256, Text, free_number
from turfplan.files.house_folder import lawns_of_house

# The form of the index since which there are addresses of houses, and since which they can come
# back closed.
_SINCE, _CLOSED_SINCE = 6, 7
Part = Literal["all", "work", "water"]


class CopiedHouseToken(CopiedRow):
    """A token of a house, by its hash; a folder below the place of the copy is named from there."""

    id: int
    house: Text
    page: int | None = None
    kind: Literal["feed", "read", "edit"]
    hash: Sha256
    label: Text
    created: Moment
    revoked: Moment | None = None
    closed: Moment | None = None
    part: Part = "all"


class PublishedHouse(CopiedRow):
    """The last good bytes of a house's calendar or of a part of it, in base 64."""

    house: Text
    part: Part = "all"
    stamp: Text
    bytes: Base64
    at: Moment


def is_whole(house: Path, folders: Collection[Path]) -> bool:
    """Whether all lawns of a house are among some folders: its addresses open all of them."""
    lawns = lawns_of_house(house)
    return bool(lawns) and all(lawn in folders for lawn in lawns)


def are_sound(rows: Sequence[CopiedHouseToken]) -> bool:
    """Whether rows are such as an index holds."""
    numbers = {row.id for row in rows}
    return len(numbers) == len(rows) == len({row.hash for row in rows}) and all(
        row.page in {None, *numbers} for row in rows
    )


def house_rows(connection: sqlite3.Connection, form: int) -> dict[str, Any]:
    """The rows of an open index of a form, by the names of their tables."""
    if form < _SINCE:
        return {}
    closed = "closed" if form >= _CLOSED_SINCE else "NULL AS closed"
    names = ("id", "house", "page", "kind", "hash", "label", "created", "revoked", "closed", "part")
    read = ", ".join(name if name != "closed" else closed for name in names)
    tokens = connection.execute(f"SELECT {read} FROM house_token ORDER BY id")
    shown = connection.execute(
        "SELECT house, part, stamp, bytes, at FROM house_published ORDER BY 1, 2"
    )
    return {
        "house_token": tuple(
            CopiedHouseToken.model_validate(dict(zip(names, row, strict=True))) for row in tokens
        ),
        "house_published": tuple(
            PublishedHouse(
                house=house,
                part=part,
                stamp=stamp,
                bytes=base64.b64encode(bytes(content)).decode(),
                at=at,
            )
            for house, part, stamp, content, at in shown
        ),
    }


def bring_house_rows(
    connection: sqlite3.Connection,
    tokens: Sequence[CopiedHouseToken],
    shown: Sequence[PublishedHouse],
    now: str,
    *,
    with_addresses: bool,
) -> Iterator[tuple[CopiedHouseToken, bool | None]]:
    """Bring the rows of a copy into an index, as those of lawns are brought; folders absolute.

    Gives each token by its number in the index, and whether it is open; None where it was
    withdrawn in either.
    """
    numbers: dict[int, int] = {}
    for row in sorted(tokens, key=lambda token: (token.page is not None, token.id)):
        known = connection.execute(
            "SELECT id, revoked, closed FROM house_token WHERE hash = ?", (row.hash,)
        ).fetchone()
        if known is None:
            gone = row.revoked
            shut = None if gone or with_addresses else row.closed or now
            numbers[row.id] = _inserted(connection, row, numbers, shut)
        else:
            numbers[row.id], gone = known[0], known[1] or row.revoked
            shut = None if with_addresses else known[2]
            connection.execute(
                "UPDATE house_token SET revoked = ?, closed = ? WHERE id = ?",
                (gone, shut, known[0]),
            )
        yield (
            row.model_copy(update={"id": numbers[row.id]}),
            None if gone is not None else shut is None,
        )
    for one in shown:
        known = connection.execute(
            "SELECT at FROM house_published WHERE house = ? AND part = ?", (one.house, one.part)
        ).fetchone()
        if known is None or datetime.fromisoformat(known[0]) < datetime.fromisoformat(one.at):
            connection.execute(
                "INSERT OR REPLACE INTO house_published (house, part, stamp, bytes, at) "
                "VALUES (?, ?, ?, ?, ?)",
                (one.house, one.part, one.stamp, base64.b64decode(one.bytes), one.at),
            )


def _inserted(
    connection: sqlite3.Connection,
    row: CopiedHouseToken,
    numbers: dict[int, int],
    shut: str | None,
) -> int:
    """The number of a token that the index did not know: the one it had, where nobody has it."""
    kept = connection.execute(
        "INSERT INTO house_token (id, house, page, kind, hash, label, created, revoked, closed, "
        "part) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        (
            free_number(connection, "house_token", row.id),
            row.house,
            numbers.get(row.page) if row.page is not None else None,
            row.kind,
            row.hash,
            row.label,
            row.created,
            row.revoked,
            shut,
            row.part,
        ),
    )
    return int(kept.lastrowid or 0)
