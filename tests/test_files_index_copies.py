"""Rows of an index in a copy: what is withdrawn stays so, what nobody knows comes back closed, and
nothing but rows is taken.
"""

import json
import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from turfplan.errors import TurfplanError
from turfplan.files import index as store
from turfplan.files.index_copies import (
    IndexRows,
    bring_rows,
    rows_of_copy,
    rows_of_index,
    rows_of_json,
)
from turfplan.serve import tokens

OLD_COPY = Path(__file__).parent / "folders" / "0.1" / "lawns.copy"


def lawn(folder: Path, lawn_id: str = "one") -> Path:
    """A folder with a plan, as far as an index looks at it."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "plan.json").write_text(f'{{"schema": 1, "lawn_id": "{lawn_id}"}}', "utf-8")
    return folder


def issued(index: Path, folder: Path, kind: tokens.TokenKind = "feed") -> str:
    """A new token of a lawn."""
    with store.opened(index) as connection:
        return tokens.issue(connection, store.add_lawn(connection, folder), kind)


def brought(index: Path, rows: IndexRows, *, with_addresses: bool = False) -> None:
    """The rows of a copy, brought into an index."""
    with store.opened(index) as connection, store.changing(connection):
        bring_rows(connection, rows, with_addresses=with_addresses)


def state(index: Path, token: str) -> str:
    """What an index says of a token."""
    with store.opened(index) as connection:
        found = tokens.find(connection, token)
    if found is None:
        return "unknown"
    return "revoked" if found.revoked else "closed" if found.closed else "open"


def revoked(index: Path, number: int) -> None:
    """The index with a token taken back."""
    with store.opened(index) as connection:
        assert tokens.revoke(connection, number)


@pytest.fixture
def served(tmp_path: Path) -> tuple[Path, list[str]]:
    """An index with two lawns, a feed each, and a page; the last feed is taken back."""
    index = tmp_path / "lawns.index"
    one, two = lawn(tmp_path / "a", "one"), lawn(tmp_path / "b", "two")
    given = [issued(index, one), issued(index, one, "edit"), issued(index, two)]
    revoked(index, 4)
    return index, given


def test_a_withdrawal_that_the_index_knows_stands(served: tuple[Path, list[str]]) -> None:
    """What was taken back after the copy stays so, with and without its addresses; what the index
    holds open stays open."""
    index, (feed, page, gone) = served
    rows = rows_of_index(index)
    revoked(index, 1)
    for with_addresses in (False, True):
        brought(index, rows, with_addresses=with_addresses)
        assert [state(index, each) for each in (feed, page, gone)] == ["revoked", "open", "revoked"]


def test_the_last_day_of_an_address_comes_along(
    served: tuple[Path, list[str]], tmp_path: Path
) -> None:
    """An address that was given until a day does not outlive it by a copy."""
    index, _ = served
    day = date(2027, 4, 1)
    with store.opened(index) as connection:
        (one, *_) = store.lawns(connection)
        tokens.issue(connection, one, "read", ends=day)
    new = tmp_path / "new.index"
    brought(new, rows_of_index(index), with_addresses=True)
    with store.opened(new) as connection:
        ends = [token.ends for token in tokens.listed(connection)]
    assert ends == [None, None, None, None, str(day), str(day)]


def test_without_the_index_addresses_come_back_closed(
    served: tuple[Path, list[str]], tmp_path: Path
) -> None:
    """An index that does not know a token closes it, and what was taken back before stays so; with
    its addresses what was closed is open, also afterwards."""
    index, given = served
    rows, new = rows_of_index(index), tmp_path / "new.index"
    brought(new, rows)
    assert [state(new, each) for each in given] == ["closed", "closed", "revoked"]
    assert state(new, tokens.feed_of_page(given[1])) == "closed"
    brought(new, rows)
    assert [state(new, each) for each in given] == ["closed", "closed", "revoked"]
    brought(new, rows, with_addresses=True)
    assert [state(new, each) for each in given] == ["open", "open", "revoked"]
    assert state(new, tokens.feed_of_page(given[1])) == "open"


def test_what_was_withdrawn_in_the_copy_is_withdrawn(served: tuple[Path, list[str]]) -> None:
    """An index older than the copy learns what was taken back."""
    index, (feed, *_) = served
    older = index.with_name("older.index")
    shutil.copy(index, older)
    revoked(index, 1)
    brought(older, rows_of_index(index), with_addresses=True)
    assert state(older, feed) == "revoked"


def test_a_page_keeps_its_feed_and_numbers_stay(
    served: tuple[Path, list[str]], tmp_path: Path
) -> None:
    """In an empty index tokens have their numbers; elsewhere a page taken back takes its own feed
    along, whatever numbers both have now."""
    index, (_, page, _) = served
    new, other = tmp_path / "new.index", tmp_path / "other.index"
    issued(other, lawn(tmp_path / "c", "three"))
    for path in (new, other):
        brought(path, rows_of_index(index), with_addresses=True)
    with store.opened(new) as connection:
        assert [token.id for token in tokens.listed(connection)] == [1, 2, 3, 4]
    with store.opened(other) as connection:
        found = tokens.find(connection, page)
        assert found is not None and tokens.revoke(connection, found.id)
    assert state(other, tokens.feed_of_page(page)) == "revoked"


def test_a_lawn_that_lies_elsewhere_is_refused(
    served: tuple[Path, list[str]], tmp_path: Path
) -> None:
    """Where the index knows a lawn in a folder that still holds it, the rows of a copy for another
    folder are refused, both named; where it has gone from there, they are its place."""
    index, (feed, *_) = served
    rows = rows_of_index(index).placed(lambda place: f"{tmp_path}/new/{Path(place).name}")
    with pytest.raises(TurfplanError, match="has the identity") as told:
        brought(index, rows)
    assert str(tmp_path / "a") in str(told.value) and str(tmp_path / "new" / "a") in str(told.value)
    for name in "ab":
        (tmp_path / name / "plan.json").unlink()
    brought(index, rows)
    with store.opened(index) as connection:
        found = tokens.find(connection, feed)
    assert found is not None and found.lawn.folder == tmp_path / "new" / "a"


def test_another_lawn_in_the_folder_is_refused(
    served: tuple[Path, list[str]], tmp_path: Path
) -> None:
    """An address never comes to open another lawn, because that lies where its own did."""
    index, _ = served
    other = tmp_path / "other.index"
    shutil.copytree(tmp_path / "a", tmp_path / "kept")
    lawn(tmp_path / "a", "three")
    issued(other, tmp_path / "a")
    with pytest.raises(TurfplanError, match="folder of another lawn"):
        brought(other, rows_of_index(index))


def test_published_bytes_come_along(served: tuple[Path, list[str]], tmp_path: Path) -> None:
    """The last good bytes of a feed come with the moment of their publishing; an index with later
    ones keeps these."""
    index, _ = served
    with store.opened(index) as connection:
        first, _ = store.lawns(connection)
        kept = store.publish(connection, first, b"older", "s")
    rows = rows_of_index(index)
    with store.opened(index) as connection:
        later = store.publish(connection, first, b"later", "s")
    brought(index, rows)
    new = tmp_path / "new.index"
    brought(new, rows)
    for path, wanted in ((index, later), (new, kept)):
        with store.opened(path) as connection:
            assert store.published(connection, store.lawns(connection)[0]) == wanted


def test_copies_of_older_versions_are_taken(tmp_path: Path) -> None:
    """The rows of a copy that version 0.1 made, token by token."""
    rows, index = rows_of_copy(OLD_COPY), tmp_path / "lawns.index"
    brought(index, rows, with_addresses=True)
    again = rows_of_index(index)
    assert [row.hash for row in again.token] == [row.hash for row in rows.token]
    assert [row.lawn_id for row in again.lawn] == [row.lawn_id for row in rows.lawn]
    assert again.published == rows.published and again.published
    assert [row.revoked for row in again.token] == [row.revoked for row in rows.token]


@pytest.mark.parametrize(
    "statement",
    [
        "CREATE TRIGGER t AFTER INSERT ON token BEGIN DELETE FROM token; END",
        "CREATE VIEW v AS SELECT 1",
        "CREATE TABLE more (a)",
        "ALTER TABLE token ADD COLUMN more TEXT",
        "DROP INDEX token_by_lawn",
        "PRAGMA user_version = 99",
        "PRAGMA user_version = 0",
        "UPDATE token SET hash = 'x' WHERE id = 1",
        "UPDATE lawn SET added = 'yesterday'",
    ],
)
def test_a_copy_with_anything_else_is_refused(statement: str, tmp_path: Path) -> None:
    """Triggers, views, further tables and columns, and rows that no index has."""
    copy = Path(shutil.copy(OLD_COPY, tmp_path / "copy"))
    with closing(sqlite3.connect(copy)) as connection:
        connection.execute(statement)
        connection.commit()
    with pytest.raises(TurfplanError, match="no copy of an index"):
        rows_of_copy(copy)


def test_a_torn_copy_is_refused(tmp_path: Path) -> None:
    """A copy that was cut off is refused in words."""
    raw = OLD_COPY.read_bytes()
    for size in (20, 5000, len(raw) // 2):
        (tmp_path / "copy").write_bytes(raw[:size])
        with pytest.raises(TurfplanError, match="no copy of an index"):
            rows_of_copy(tmp_path / "copy")


Change = Callable[[dict[str, Any]], None]


def _set(table: str, key: str, value: object) -> Change:
    return lambda rows: rows[table][0].update({key: value})


BAD_ROWS: dict[str, Change] = {
    "a number that is none": _set("token", "id", "1"),
    "a lawn that is not there": _set("token", "lawn", 99),
    "a page that is not there": _set("token", "page", 99),
    "a hash that is none": _set("token", "hash", "abc"),
    "a kind that is none": _set("token", "kind", "admin"),
    "bytes of no lawn": lambda rows: rows["published"].append(
        {"lawn": 99, "stamp": "s", "bytes": "", "at": "2027-01-01T00:00:00+00:00"}
    ),
    "a day that is none": _set("lawn", "added", "2027"),
    "two tokens of one hash": lambda rows: rows["token"].append(rows["token"][0] | {"id": 99}),
    "two lawns of one folder": lambda rows: rows["lawn"].append(rows["lawn"][0] | {"id": 99}),
    "a newer form": lambda rows: rows.update(form=99),
}


@pytest.mark.parametrize("change", BAD_ROWS.values(), ids=BAD_ROWS)
def test_rows_that_no_index_has_are_refused(change: Change, served: tuple[Path, list[str]]) -> None:
    """Each is told with its table, and none of them reaches an index."""
    rows = json.loads(rows_of_index(served[0]).model_dump_json())
    change(rows)
    with pytest.raises(TurfplanError):
        rows_of_json(json.dumps(rows).encode(), "copy")
