"""What is answered at once: feeds and pages of which nothing has changed, and never one of which
something has.
"""

import threading
from datetime import date, timedelta
from pathlib import Path

import pytest

pytest.importorskip("starlette", reason="the extra web is not installed")
pytest.importorskip("uvicorn", reason="the extra web is not installed")

from served import NAME, ServedHome  # after the skips
from turfplan.app.log_entry import Happening, log_entry
from turfplan.files import index as store
from turfplan.serve import app, feed_cache, held_index, tokens
from turfplan.serve.feed_cache import FeedCache
from turfplan.serve.guard import SECURITY

SOIL_TEST = date(2027, 3, 6)


@pytest.fixture
def home(tmp_path: Path) -> ServedHome:
    """A lawn that is served."""
    made = ServedHome(tmp_path, SOIL_TEST)
    made.lawn()
    return made


def test_a_feed_that_has_not_changed_is_read_and_written_for_by_nobody(
    home: ServedHome, monkeypatch: pytest.MonkeyPatch
) -> None:
    """With all that an answer carries, packed or not; what is new, withdrawn, over or of another
    hour is looked at again."""
    token, client = home.token("feed", ends=SOIL_TEST + timedelta(days=1)), home.client()
    plain, packed = {"accept-encoding": "identity"}, {"accept-encoding": "gzip"}
    path = f"/feed/{token}.ics"
    first = {form["accept-encoding"]: client.get(path, headers=form) for form in (plain, packed)}
    looked: list[str] = []

    def feed(self: FeedCache, *given: object) -> object:
        looked.append("feed")
        return kept(self, *given)  # type: ignore[arg-type]

    kept = FeedCache.feed
    monkeypatch.setattr(FeedCache, "feed", feed)
    for form in (plain, packed):
        again, before = client.get(path, headers=form), first[form["accept-encoding"]]
        assert again.content == before.content and again.status_code == 200
        sent = sorted(again.headers.multi_items())
        assert sent == sorted(before.headers.multi_items())
        assert all(sent.count((name.lower(), told)) == 1 for name, told in SECURITY.items())
        tag = {**form, "if-none-match": before.headers["etag"]}
        same = client.get(path, headers=tag)
        assert (same.status_code, same.content) == (304, b"")
        assert all(same.headers[name] == told for name, told in SECURITY.items())
        assert same.headers["etag"] == before.headers["etag"]
        assert client.get(path, headers={**form, "if-none-match": '"x"'}).status_code == 200
    assert looked == []
    feed_file = home.root / NAME / "season.ics"
    feed_file.write_bytes(
        feed_file.read_bytes().replace(b"END:VCALENDAR", b"X-A:B\r\nEND:VCALENDAR")
    )
    assert b"X-A:B" in client.get(path).content and looked == ["feed"]
    home.hour += 1
    assert client.get(path).status_code == 200 and looked == ["feed", "feed"]
    with store.opened(home.index) as connection:
        (found,) = tokens.listed(connection)
        assert found.read == home.now().isoformat()
    home.day += timedelta(days=2)
    assert client.get(path).status_code == 410
    home.day = SOIL_TEST
    assert client.get(path).status_code == 200
    with store.opened(home.index) as connection:
        assert tokens.revoke(connection, found.id)
    assert client.get(path).status_code == 410


def test_what_this_server_takes_back_opens_nothing_at_once(
    home: ServedHome, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A look holds for the requests that follow it at once, and never beyond an address that is
    taken back here, nor beyond its own time."""
    monkeypatch.setattr(feed_cache, "GLANCE", 3600.0)
    text, other = home.token("feed", "Ana"), home.token("feed", "Bo")
    shelf, now = FeedCache(home.index), home.now()
    first, second = shelf.find(text), shelf.find(other)
    assert first is not None and second is not None
    for token in (first, second):
        shelf.was_read(token, now)
        assert shelf.feed(token.lawn) is not None
    assert shelf.at_hand(text, now) is not None and shelf.at_hand(other, now) is not None
    thread = threading.Thread(target=lambda: shelf.withdraw(first.id, first.lawn))
    thread.start()
    thread.join()
    assert shelf.at_hand(text, now) is None and shelf.at_hand(other, now) is not None
    with store.opened(home.index) as connection:
        assert tokens.revoke(connection, second.id)
    monkeypatch.setattr(feed_cache, "GLANCE", 0.0)
    assert shelf.at_hand(other, now) is None


def test_only_so_many_addresses_are_kept_at_hand(
    home: ServedHome, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Beyond them the first are looked up again; guesses are not kept at all."""
    monkeypatch.setattr(held_index, "MOST_AT_HAND", 2)
    shelf = FeedCache(home.index)
    given = [home.token("feed", str(n)) for n in range(4)]
    found = [shelf.token_at_hand(token)[0] for token in (*given, "x" * 43)]
    assert [token is not None for token in found] == [True] * 4 + [False]
    assert len(shelf._held().tokens) == 2


def test_a_page_is_made_once_and_again_when_anything_of_it_changes(
    home: ServedHome, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A tick, a word of the command line, another plan, another day, a failure, an address that is
    withdrawn; pages with answers to forms are made each time."""
    made: list[str] = []
    for name in ("", "season"):
        page = app.PAGES[name]

        def counted(*given: object, page: object = page, name: str = name) -> object:
            made.append(name)
            return page(*given)  # type: ignore[operator]

        monkeypatch.setitem(app.PAGES, name, counted)
    client, token = home.client(), home.token("edit", "Ana")
    path, brief = f"/lawn/{token}", home.lawn().brief
    assert brief is not None

    def looked(address: str = path) -> str:
        """The page, asked for until it is kept: the first look of an hour is noted."""
        client.get(address), client.get(address)
        made.clear()
        answer = client.get(address)
        assert answer.status_code == 200 and made == []
        assert answer.headers["cache-control"] == "private, no-store"
        assert all(answer.headers[name] == told for name, told in SECURITY.items())
        return answer.text

    first, season = looked(), looked(f"{path}/season")
    assert "Done as planned" in first and first != season
    assert client.head(path).status_code == 200 and made == [""]
    log_entry(brief, home.lawn().folder, Happening("note", text="a"), with_effect=False)
    made.clear()
    client.get(path)
    assert made == [""]
    told = client.post(path, data={"do": "done", "job": "soil_test"}).headers["location"]
    assert "Written down" in client.get(told).text and "Written down" in client.get(told).text
    ticked = looked()
    assert ticked != first and "Done as planned" not in ticked
    home.day += timedelta(days=1)
    assert looked() != ticked
    home.refusals = ("no day is left",)
    left_out = Happening("skipped", "inspect.depth", on=home.day)
    log_entry(brief, home.lawn().folder, left_out, with_effect=False)
    assert "Try again" in looked() and "No day is left" not in looked()
    client.post(path, data={"do": "replan"})
    assert "No day is left" in looked()
    with store.opened(home.index) as connection:
        assert tokens.revoke(connection, 1)
    assert client.get(path).status_code == 410
