"""The served feed: what a subscriber gets, and what nobody else learns."""

import gzip
import re
import shutil
import socket
import threading
import time
from datetime import UTC, date, datetime, timedelta
from email.utils import format_datetime
from functools import cache
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import quote

import pytest
import recurring_ical_events
from hypothesis import example as always
from hypothesis import given, settings
from hypothesis import strategies as st
from icalendar import Calendar

from planning import EXAMPLES, example
from printed import changes_html, outputs, season_ics
from tiers import full
from turfplan.errors import TurfplanError
from turfplan.export.templates import render
from turfplan.files import index as store
from turfplan.files.index_copies import bring_rows, rows_of_index
from turfplan.files.index_forms import MIGRATIONS
from turfplan.files.plan_folder import write_outputs
from turfplan.files.reading.plan import read_plan
from turfplan.message import as_written
from turfplan.messages import words_for
from turfplan.records.plan import Change, Plan
from turfplan.revision.feed_entries import shown_anew
from turfplan.serve import tokens
from turfplan.serve.feed import etag_of, feed_answer
from turfplan.serve.tokens import WHOLE, FeedView

pytest.importorskip("starlette", reason="the extra web is not installed")
from starlette.testclient import TestClient  # after the skip

from turfplan.export.season_view import SeasonFigure
from turfplan.serve.app import ServerSettings, create_app
from turfplan.serve.befell import befell_view
from turfplan.serve.guard import SECURITY
from turfplan.serve.ticks import replan_apart
from turfplan.serve.today import DayView, JobView, WateringView
from turfplan.units import System

CONTENT = b"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nEND:VCALENDAR\r\n"
AT = datetime(2027, 3, 1, 12, tzinfo=UTC)


def test_answer_carries_its_validators() -> None:
    """200: the type, exact length, a strong validator, the day of publishing, private caching,
    inline.
    """
    answer = feed_answer(CONTENT, AT, {})
    assert answer.status == 200 and answer.body == CONTENT
    assert answer.headers["Content-Type"] == "text/calendar; charset=utf-8"
    assert answer.headers["Content-Length"] == str(len(CONTENT)) and answer.headers[
        "ETag"
    ] == etag_of(CONTENT)
    assert answer.headers["Last-Modified"] == "Mon, 01 Mar 2027 12:00:00 GMT"
    assert answer.headers["Cache-Control"] == "private, max-age=3600, must-revalidate"
    assert answer.headers["Content-Disposition"].startswith("inline")


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({"if-none-match": etag_of(CONTENT)}, 304),
        ({"if-none-match": f'"other", W/{etag_of(CONTENT)}'}, 304),
        ({"if-none-match": "*"}, 304),
        ({"if-none-match": '"other"'}, 200),
        (
            {
                "if-none-match": '"other"',
                "if-modified-since": format_datetime(AT + timedelta(days=1), usegmt=True),
            },
            200,
        ),
        ({"if-modified-since": "Sun, 01 Mar 2026 12:00:00 GMT"}, 200),
        ({"if-modified-since": "not a date"}, 200),
        ({"if-modified-since": "Mon, 01 Jan 99999999999 00:00:00 GMT"}, 200),
        ({"if-modified-since": "Fri, 31 Dec 9999 23:59:59 GMT"}, 200),
    ],
)
def test_conditions(headers: dict[str, str], status: int) -> None:
    """If-None-Match (lists, star, weak) goes before dates, and dates are really compared."""
    assert feed_answer(CONTENT, AT, headers).status == status


def test_date_of_publishing_is_enough() -> None:
    """A reader with only the date of publishing is told that nothing changed."""
    past = datetime(2026, 3, 1, tzinfo=UTC)
    assert (
        feed_answer(CONTENT, past, {"if-modified-since": format_datetime(past, usegmt=True)}).status
        == 304
    )


def test_compression_only_where_asked() -> None:
    """Gzip only for those who ask and while it is on; its validator differs, and both are
    honoured.
    """
    zipped = feed_answer(CONTENT, AT, {"accept-encoding": "br, gzip;q=0.5"})
    assert gzip.decompress(zipped.body) == CONTENT and zipped.headers["ETag"] != etag_of(CONTENT)
    assert feed_answer(CONTENT, AT, {"accept-encoding": "gzip;q=0"}).body == CONTENT
    assert feed_answer(CONTENT, AT, {"accept-encoding": "gzip"}, compress=False).body == CONTENT
    assert (
        feed_answer(
            CONTENT, AT, {"accept-encoding": "gzip", "if-none-match": zipped.headers["ETag"]}
        ).status
        == 304
    )


@given(
    st.dictionaries(
        st.sampled_from(["if-none-match", "if-modified-since", "accept-encoding"]),
        st.text(max_size=200),
    )
)
@settings(max_examples=60, deadline=None)
def test_any_header_is_answered(headers: dict[str, str]) -> None:
    """Whatever a reader sends, it gets 200 or 304."""
    assert feed_answer(CONTENT, AT, headers).status in (200, 304)


@pytest.fixture
def lawn(tmp_path: Path) -> tuple[Path, Path]:
    """A plan folder and an index."""
    folder = tmp_path / "bermuda"
    folder.mkdir()
    write_outputs(folder, outputs(example("bermuda-sand")))
    return folder, tmp_path / "lawns.index"


def served(index: Path, **options: object) -> TestClient:
    """A client of the application."""
    app = create_app(
        ServerSettings(index=index, hosts=("testserver",), per_minute=100_000, **options)
    )  # type: ignore[arg-type]
    return TestClient(app, follow_redirects=False)


def issued(index: Path, folder: Path, kind: str, brief: Path | None = None) -> str:
    """A token of a kind."""
    with store.opened(index) as connection:
        lawn = store.add_lawn(connection, folder, brief)
        return tokens.issue(connection, lawn, kind)  # type: ignore[arg-type]


def test_an_address_shows_its_part_and_nothing_else(lawn: tuple[Path, Path]) -> None:
    """Work, waterings, and the waterings of a neighbor's days have addresses of their own, which go
    on showing what they showed: in a folder of before there were parts, and after a copy too."""
    folder, index = lawn
    days = date(2027, 6, 9), date(2027, 6, 13)
    views = [FeedView("work"), FeedView("water"), FeedView("water", days), WHOLE]
    with store.opened(index) as connection:
        place = store.add_lawn(connection, folder)
        texts = [tokens.issue(connection, place, "feed", view=view) for view in views]
        assert [t.view for t in tokens.listed(connection)] == views
    client = served(index)
    work, water, stand_in, whole = (client.get(f"/feed/{text}.ics") for text in texts)
    assert whole.content == (folder / "season.ics").read_bytes()
    assert work.content == (folder / "work.ics").read_bytes()
    assert water.content == (folder / "water.ics").read_bytes()
    assert 'filename="water.ics"' in water.headers["Content-Disposition"]
    shown = recurring_ical_events.of(Calendar.from_ical(stand_in.content))
    asked = recurring_ical_events.of(Calendar.from_ical(water.content)).between(
        days[0], days[1] + timedelta(days=1)
    )
    every = shown.between(date(2026, 1, 1), date(2030, 1, 1))
    assert [(e["uid"], e.start) for e in every] == [(e["uid"], e.start) for e in asked] and every
    tags = {"If-None-Match": stand_in.headers["ETag"]}
    assert client.get(f"/feed/{texts[2]}.ics", headers=tags).status_code == 304
    for name in ("work.ics", "water.ics"):
        (folder / name).unlink()
    again = served(index)
    assert again.get(f"/feed/{texts[0]}.ics").content == work.content
    rows = rows_of_index(index)
    with store.opened(index.with_name("copy")) as connection, store.changing(connection):
        bring_rows(connection, rows, with_addresses=True)
    with store.opened(index.with_name("copy")) as connection:
        assert [t.view for t in tokens.listed(connection)] == views


def test_feed_is_served_and_revoked(lawn: tuple[Path, Path]) -> None:
    """The feed's bytes are the folder's; HEAD has no body; a revoked address is gone; an unknown
    one is not there.
    """
    folder, index = lawn
    token = issued(index, folder, "feed")
    client = served(index)
    got = client.get(f"/feed/{token}.ics", headers={"accept-encoding": "identity"})
    assert got.status_code == 200 and got.content == (folder / "season.ics").read_bytes()
    head = client.head(f"/feed/{token}.ics", headers={"accept-encoding": "identity"})
    assert (
        head.status_code == 200
        and head.content == b""
        and head.headers["content-length"] == str(len(got.content))
    )
    assert (
        client.get(f"/feed/{token}.ics", headers={"if-none-match": got.headers["etag"]}).status_code
        == 304
    )
    with store.opened(index) as connection:
        assert tokens.revoke(connection, 1)
    assert client.get(f"/feed/{token}.ics").status_code == 410
    assert client.get("/feed/" + "x" * 43 + ".ics").status_code == 404


def test_last_good_bytes_are_served(lawn: tuple[Path, Path]) -> None:
    """While the folder is broken the last good feed goes on, with its old date."""
    folder, index = lawn
    token = issued(index, folder, "feed")
    client = served(index)
    good = client.get(f"/feed/{token}.ics", headers={"accept-encoding": "identity"})
    for broken in (b"", b"BEGIN:VCALENDAR\r\nhalf"):
        (folder / "season.ics").write_bytes(broken)
        again = client.get(f"/feed/{token}.ics", headers={"accept-encoding": "identity"})
        assert (
            again.content == good.content
            and again.headers["last-modified"] == good.headers["last-modified"]
        )


def test_kinds_do_not_open_each_other(lawn: tuple[Path, Path]) -> None:
    """A feed token opens no page, a page token no feed, a read token writes nothing; none is told
    apart from unknown.
    """
    folder, index = lawn
    brief = EXAMPLES / "bermuda-sand.toml"
    feed, read = issued(index, folder, "feed"), issued(index, folder, "read", brief)
    client = served(index)
    assert (
        client.get(f"/lawn/{feed}").status_code
        == client.get(f"/feed/{read}.ics").status_code
        == 404
    )
    assert client.get(f"/lawn/{read}").status_code == 200
    assert (
        client.post(f"/lawn/{read}", data={"task": "soil_test", "on": "2027-04-01"}).status_code
        == 403
    )


def test_tokens_are_kept_hashed(lawn: tuple[Path, Path]) -> None:
    """The index never holds a token, only its hash."""
    folder, index = lawn
    token = issued(index, folder, "feed")
    with store.opened(index) as connection:
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    assert token.encode() not in index.read_bytes() and len(token) >= 22


def test_tick_writes_the_journal(lawn: tuple[Path, Path], tmp_path: Path) -> None:
    """A tick with an edit token writes one entry and comes back to the page; a bad form is answered
    with 422 and its words.
    """
    folder, index = lawn
    brief = tmp_path / "lawn.toml"
    brief.write_bytes((EXAMPLES / "bermuda-sand.toml").read_bytes())
    planned: list[int] = []
    token = issued(index, folder, "edit", brief)
    client = served(index, replan=lambda lawn: planned.append(lawn.id) or ())
    form = {"do": "other", "how": "done", "job": "soil_test", "on": "2026-11-20", "keep": "yes"}
    done = client.post(f"/lawn/{token}", data=form)
    assert done.status_code == 303 and planned == [1], done.text
    assert '"kind":"done"' in (tmp_path / "lawn.journal.jsonl").read_text(encoding="utf-8")
    bad = client.post(f"/lawn/{token}", data=form | {"job": "soil_tset", "on": "tomorrow"})
    assert bad.status_code == 422 and "Choose one of the jobs" in bad.text
    bad = client.post(f"/lawn/{token}", data=form | {"on": "tomorrow"})
    assert (
        bad.status_code == 422 and "year-month-day" in bad.text and 'value="tomorrow"' in bad.text
    )
    for headers in ({"origin": "https://elsewhere.example"}, {"sec-fetch-site": "cross-site"}):
        assert client.post(f"/lawn/{token}", data=form, headers=headers).status_code == 403
    assert len((tmp_path / "lawn.journal.jsonl").read_text(encoding="utf-8").splitlines()) == 1


def test_answers_below_a_host_are_for_known_ones(lawn: tuple[Path, Path]) -> None:
    """With or without a port, in capitals, an IPv6 address in brackets; another name, a part of one
    or none is turned away.
    """
    _, index = lawn
    app = create_app(ServerSettings(index=index, hosts=("lawns.example", "::1")))
    client = TestClient(app)
    for host in ("lawns.example", "lawns.example:80", "LAWNS.example", "[::1]:8765", "[::1]"):
        assert client.get("/robots.txt", headers={"host": host}).status_code == 200, host
    for host in ("lawns.example.org", "example", "", "[", ":80", "lawns.example:x"):
        assert client.get("/robots.txt", headers={"host": host}).status_code == 400, host


def test_headers_guard_every_answer(lawn: tuple[Path, Path]) -> None:
    """Policy, no referrer, no index on every answer, unknown paths too; another host name is turned
    away.
    """
    folder, index = lawn
    client = served(index)
    for path in ("/", "/lawn/abc", f"/feed/{issued(index, folder, 'feed')}.ics", "/static/web.css"):
        headers = client.get(path).headers
        assert (
            "default-src 'self'" in headers["content-security-policy"]
            and headers["referrer-policy"] == "same-origin"
        )
        assert "noindex" in headers["x-robots-tag"]
    assert client.get("/", headers={"host": "elsewhere.example"}).status_code == 400
    assert client.get("/robots.txt").text.count("feed") == 0


def test_a_failure_and_every_refusal_is_guarded_too(
    lawn: tuple[Path, Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A fault of the program, a form without or beyond its length, another method, another host and
    too many requests carry the same headers; another method is told what is taken.
    """
    folder, index = lawn
    app = create_app(ServerSettings(index=index, hosts=("testserver",), per_minute=9))
    client = TestClient(app, raise_server_exceptions=False)
    page = f"/lawn/{issued(index, folder, 'read')}"
    monkeypatch.setattr("turfplan.serve.pages.read_plan", lambda _: 1 / 0)
    answers = {
        500: client.get(page),
        411: client.post(page, content=iter([b"do=", b"revoke"])),
        413: client.post(page, content=b"q" * 30_000),
        405: client.put(page),
        400: client.get(page, headers={"host": "elsewhere.example"}),
        403: client.get("/"),
        404: client.get("/nothing"),
    }
    feed_put = client.put("/feed/x.ics")
    flood = (client.get("/") for _ in range(40))
    answers[429] = next(answer for answer in flood if answer.status_code != 403)
    assert [answer.status_code for answer in answers.values()] == list(answers)
    for answer in answers.values():
        headers = answer.headers.multi_items()
        assert answer.headers["cache-control"] in ("no-store", "private, no-store")
        for name, value in SECURITY.items():
            assert headers.count((name.lower(), value)) == 1, (answer.status_code, name)
    assert set(answers[405].headers["allow"].split(", ")) == {"GET", "HEAD", "POST"}
    assert set(feed_put.headers["allow"].split(", ")) == {"GET", "HEAD"}
    assert answers[429].headers["retry-after"] == "60"


@pytest.fixture(scope="module")
def empty(tmp_path_factory: pytest.TempPathFactory) -> TestClient:
    """A server without any lawn."""
    return served(tmp_path_factory.mktemp("guess") / "guess.index")


@given(guess=st.text(max_size=60))
@settings(max_examples=40, deadline=None)
def test_guesses_learn_nothing(empty: TestClient, guess: str) -> None:
    """Traversal, markup, line ends, other alphabets: each guess is answered alike, with no file and
    no header of its own.
    """
    for path in (f"/feed/{quote(guess, safe='')}.ics", f"/lawn/{quote(guess, safe='')}"):
        got = empty.get(path)
        assert got.status_code == 404
        known = re.sub("<[^>]*>", " ", got.text.partition("<body>")[2] or got.text).split()
        assert " ".join(known) in ("Not found.", "Not found. Look whether the address is whole.")
        assert not {"set-cookie", "location", "server"} & set(got.headers)


def test_too_many_requests_are_turned_away(lawn: tuple[Path, Path]) -> None:
    """A flood from one address is answered with 429 and when to come again."""
    _, index = lawn
    client = TestClient(
        create_app(ServerSettings(index=index, hosts=("testserver",), per_minute=5))
    )
    answers = [client.get("/nothing").status_code for _ in range(8)]
    assert answers[:5] == [404] * 5 and answers[5:] == [429] * 3


def test_hostile_names_are_only_text(lawn: tuple[Path, Path]) -> None:
    """A lawn named with markup, direction marks and line ends shows as text."""
    folder, index = lawn
    plan = example("bermuda-sand")
    name = "<script>alert(1)</script>\u202e\r\nX-Evil: 1 \U0001f33f"
    plan = plan.model_copy(update={"lawn": plan.lawn.model_copy(update={"name": name})})
    write_outputs(folder, outputs(plan))
    text = served(index).get(f"/lawn/{issued(index, folder, 'read')}").text
    assert "<script>" not in text and "&lt;script&gt;" in text


def test_many_readers_while_planning_again(lawn: tuple[Path, Path]) -> None:
    """Sixteen readers while the folder is written over and over: never an error, never half a
    feed.
    """
    folder, index = lawn
    token = issued(index, folder, "feed")
    client = served(index)
    versions = [outputs(example(name)) for name in ("bermuda-sand", "cool-overseed")]
    whole = {v["season.ics"] for v in versions}
    stop, faults = threading.Event(), []

    def read() -> None:
        while not stop.is_set():
            got = client.get(f"/feed/{token}.ics", headers={"accept-encoding": "identity"})
            if got.status_code != 200 or got.content not in whole:
                faults.append((got.status_code, len(got.content)))

    readers = [threading.Thread(target=read) for _ in range(16)]
    for reader in readers:
        reader.start()
    end = time.monotonic() + 0.5
    turn = 0
    while time.monotonic() < end or turn < 5:
        write_outputs(folder, versions[turn % 2])
        turn += 1
    stop.set()
    for reader in readers:
        reader.join()
    assert not faults[:3] and turn > 3


def test_what_came_back_closed_is_opened_by_its_number(lawn: tuple[Path, Path]) -> None:
    """An address that a restore has closed answers that it is gone, with its feed, until somebody
    opens it; one that was revoked is never opened.
    """
    folder, index = lawn
    page, other = issued(index, folder, "read"), issued(index, folder, "feed")
    feed = tokens.feed_of_page(page)
    with store.opened(index) as connection:
        connection.execute("UPDATE token SET closed = '2027-01-01T00:00:00+00:00'")
        assert tokens.revoke(connection, 3)
    client = served(index)
    for address in (f"/lawn/{page}", f"/feed/{feed}.ics", f"/feed/{other}.ics"):
        assert client.get(address).status_code == 410
    with store.opened(index) as connection:
        assert tokens.reopen(connection, 1)
        assert not tokens.reopen(connection, 1) and not tokens.reopen(connection, 3)
    assert client.get(f"/lawn/{page}").status_code == 200
    assert client.get(f"/feed/{feed}.ics").status_code == 200
    assert client.get(f"/feed/{other}.ics").status_code == 410


def test_publish_is_stable_and_whole(lawn: tuple[Path, Path], tmp_path: Path) -> None:
    """`publish` writes the same name each time, a name that cannot be guessed, with the feed's
    bytes.
    """
    from typer.testing import CliRunner

    from turfplan.cli import app

    folder, _ = lawn
    names = set()
    for _ in range(2):
        done = CliRunner().invoke(app, ["publish", str(folder), "--to", str(tmp_path / "web")])
        assert done.exit_code == 0, done.output
        names.add(next(line for line in done.stdout.splitlines() if line.endswith(".ics")))
    assert len(names) == 1
    path = Path(names.pop())
    assert len(path.stem) == 44 and path.read_bytes() == (folder / "season.ics").read_bytes()


def test_page_shows_its_own_feed(lawn: tuple[Path, Path]) -> None:
    """The page of a token links a feed of its own, by https and webcal and as a QR code; that feed
    is the lawn's.
    """
    folder, index = lawn
    token = issued(index, folder, "read")
    client = served(index, base_url="https://lawns.example")
    text = client.get(f"/lawn/{token}/calendar").text
    feed = tokens.feed_of_page(token)
    assert (
        f'href="https://lawns.example/feed/{feed}.ics"' in text
        and f'href="webcal://lawns.example/feed/{feed}.ics"' in text
    )
    assert "data:image/svg+xml;base64," in text
    got = client.get(f"/feed/{feed}.ics", headers={"accept-encoding": "identity"})
    assert got.status_code == 200 and got.content == (folder / "season.ics").read_bytes()


def test_page_of_a_surveyed_lawn_shows_the_fill_and_its_stakes(tmp_path: Path) -> None:
    """The map as a picture of its own, and every stake; a lawn without a survey has neither."""
    pytest.importorskip("scipy")
    for name, shown in (("surveyed-metric", True), ("bermuda-sand", False)):
        folder, plan = tmp_path / name, example(name)
        folder.mkdir()
        write_outputs(folder, outputs(plan))
        page = served(tmp_path / "i").get(f"/lawn/{issued(tmp_path / 'i', folder, 'read')}").text
        assert ('<img class="map" src="data:image/svg+xml' in page) is shown
        assert plan.fill is None or all(str(stake.place) in page for stake in plan.fill.stakes)


@pytest.mark.full
def test_a_tick_plans_again_in_a_process_of_its_own(
    lawn: tuple[Path, Path], tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    """A tick is in the journal and in the plan when the page answers; a brief that broke leaves the
    plan, and is told.
    """
    (folder, index), brief = lawn, tmp_path / "bermuda.toml"
    brief.write_bytes((EXAMPLES / "bermuda-sand.toml").read_bytes())
    client = served(index, replan=replan_apart)
    address = f"/lawn/{issued(index, folder, 'edit', brief)}"
    form = {"do": "other", "how": "done", "job": "soil_test", "on": "2027-02-01", "keep": "yes"}
    assert client.post(address, data=form).status_code == 303
    plan = read_plan(folder)
    assert plan is not None and plan.journal_entries == 1
    soil_test = plan.task("soil_test")
    assert soil_test is not None and soil_test.closed == "done"
    brief.write_text("[lawn\n", encoding="utf-8")
    assert client.post(address, data=form | {"job": "order_material.1"}).status_code == 303
    assert read_plan(folder) == plan and "is not TOML" in capfd.readouterr().err
    assert "is not TOML" in client.get(address).text.replace("Is", "is")


def test_a_tick_on_a_plan_of_a_newer_turfplan_writes_nothing(
    lawn: tuple[Path, Path], tmp_path: Path
) -> None:
    """A plan that cannot be read takes no tick: it is answered, and no journal is begun."""
    (folder, index), brief = lawn, tmp_path / "bermuda.toml"
    client, address = served(index), f"/lawn/{issued(index, folder, 'edit', brief)}"
    (folder / "plan.json").write_text('{"schema": 2}', encoding="utf-8")
    assert client.post(address, data={"task": "soil_test", "on": "2027-02-01"}).status_code == 404
    assert not brief.with_suffix(".journal.jsonl").exists()


def test_page_takes_its_own_address_back(lawn: tuple[Path, Path]) -> None:
    """With the box ticked the page and its feed are gone for good, other addresses stay; without it
    nothing happens.
    """
    folder, index = lawn
    token, other = issued(index, folder, "read"), issued(index, folder, "feed")
    client = served(index)
    feed = tokens.feed_of_page(token)
    assert client.post(f"/lawn/{token}", data={"do": "revoke"}).status_code == 422
    assert (
        client.get(f"/lawn/{token}").status_code
        == client.get(f"/feed/{feed}.ics").status_code
        == 200
    )
    assert client.post(f"/lawn/{token}", data={"do": "revoke", "sure": "yes"}).status_code == 410
    assert (
        client.get(f"/lawn/{token}").status_code
        == client.get(f"/feed/{feed}.ics").status_code
        == 410
    )
    assert client.get(f"/feed/{other}.ics").status_code == 200
    elsewhere = client.post(
        f"/lawn/{issued(index, folder, 'read')}",
        data={"do": "revoke", "sure": "yes"},
        headers={"origin": "https://x.example"},
    )
    assert elsewhere.status_code == 403


def named(index: Path, folder: Path) -> store.ServedLawn:
    """A plan folder put into an index."""
    with store.opened(index) as connection:
        return store.add_lawn(connection, folder, None)


def test_index_is_made_again_from_the_folders(lawn: tuple[Path, Path], tmp_path: Path) -> None:
    """Without its index a lawn is served again under its identity once its folder is named; the
    tokens of a moved folder go along when that is asked for, and not before.
    """
    folder, index = lawn
    token = issued(index, folder, "feed")
    assert served(index).get(f"/feed/{token}.ics").status_code == 200
    moved = folder.rename(tmp_path / "elsewhere")
    with pytest.raises(TurfplanError, match="holds it no more") as told:
        named(index, moved)
    assert str(folder) in str(told.value)
    assert "tokens move" in dict(told.value.problems[0].hint.values)["command"]
    with store.opened(index) as connection:
        old, found = store.move_lawn(connection, moved)
    assert (old, found.folder) == (folder.resolve(), moved.resolve())
    assert served(index).get(f"/feed/{token}.ics").status_code == 200
    again = named(tmp_path / "new.index", moved)
    assert again.lawn_id == found.lawn_id
    assert served(tmp_path / "new.index").get(f"/feed/{token}.ics").status_code == 404


def test_an_address_opens_no_other_lawn(lawn: tuple[Path, Path], tmp_path: Path) -> None:
    """Whatever comes into a lawn's folder, its addresses go on with its own last good bytes, its
    page is not there, and neither a new address nor a move opens the other lawn by them.
    """
    folder, index = lawn
    token, page = issued(index, folder, "feed"), issued(index, folder, "read")
    before = served(index).get(f"/feed/{token}.ics").content
    folder.rename(tmp_path / "away")
    write_outputs_of_other(folder)
    assert served(index).get(f"/feed/{token}.ics").content == before
    assert served(index).get(f"/lawn/{page}").status_code == 404
    with pytest.raises(TurfplanError, match="folder of another lawn"):
        named(index, folder)
    with store.opened(index) as connection, pytest.raises(TurfplanError, match="does not know"):
        store.move_lawn(connection, folder)


def write_outputs_of_other(folder: Path) -> None:
    """A folder with the plan of another lawn."""
    folder.mkdir()
    plan = example("bermuda-sand")
    other = plan.model_copy(update={"lawn_id": "another"})
    write_outputs(folder, outputs(other))


def test_two_folders_of_one_lawn_are_told(lawn: tuple[Path, Path], tmp_path: Path) -> None:
    """A copy of a folder gets no address where the index knows the lawn: both folders are named."""
    folder, index = lawn
    issued(index, folder, "feed")
    copy = shutil.copytree(folder, tmp_path / "copy")
    with pytest.raises(TurfplanError, match="has the identity") as told:
        named(index, copy)
    assert str(folder) in str(told.value) and str(copy) in str(told.value)
    with store.opened(index) as connection, pytest.raises(TurfplanError, match="has the identity"):
        store.move_lawn(connection, copy)


def test_older_indexes_are_brought_up_to_date(tmp_path: Path) -> None:
    """Each numbered migration runs once and in order; an index of a newer program is refused,
    untouched.
    """
    import sqlite3
    from contextlib import closing

    path = tmp_path / "old.index"
    with closing(sqlite3.connect(path)) as old:
        for statement in MIGRATIONS[0]:
            old.execute(statement)
        old.execute("PRAGMA user_version = 1")
        old.commit()
    with store.opened(path) as connection:
        assert connection.execute("PRAGMA user_version").fetchone()[0] == len(MIGRATIONS)
        assert (
            connection.execute(
                "SELECT count(*) FROM sqlite_master WHERE name = 'token_by_lawn'"
            ).fetchone()[0]
            == 1
        )
        connection.execute(f"PRAGMA user_version = {len(MIGRATIONS) + 1}")
    with pytest.raises(TurfplanError, match="newer turfplan"), store.opened(path):
        pass


def test_a_taken_port_is_told(tmp_path: Path) -> None:
    """A port that somebody listens on already ends with code 3, the address and a hint, before an
    index is made.
    """
    from turfplan.cli.serve import serve
    from turfplan.errors import TurfplanError

    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        with pytest.raises(TurfplanError, match="in use") as told:
            serve(
                [],
                index=tmp_path / "x.index",
                host="127.0.0.1",
                port=port,
                allow_host=[],
                base_url=None,
                gzip=True,
            )
    assert (
        told.value.exit_code == 3
        and str(port) in str(told.value)
        and not (tmp_path / "x.index").exists()
    )


ODD = "\r\n\t;:,\\\"'<>&{}%=\0\u202e\u2066\u2028\u0085\u05d0\u0627\u200d\U0001f33f\U0001f33e"
HOSTILE = st.text(alphabet=st.one_of(st.sampled_from(ODD), st.characters()), max_size=60)
MARKS = (
    "\r\nEND:VEVENT\r\nBEGIN:VEVENT\r\nUID:evil\r\n",
    "<script>alert(1)</script>",
    "\nX-EVIL:1",
    "{{7*7}}",
    "\u202e\u2066",
)


def elements(html: str) -> set[tuple[str, ...]]:
    """Every kind of element of a page, with the names of its attributes."""
    found: set[tuple[str, ...]] = set()

    class Reader(HTMLParser):
        def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
            found.add((tag, *sorted(name for name, _ in attrs)))

    Reader().feed(html)
    return found


def names_of_lines(feed: bytes) -> set[str]:
    """The names of the properties of a calendar."""
    return {
        re.split("[:;]", line)[0]
        for line in feed.decode().split("\r\n")
        if line[:1] not in ("", " ")
    }


def worded(name: str, text: str) -> tuple[Plan, str, str]:
    """A plan with words of the user's in all places that can hold some, its page and its page of
    changes.
    """
    plain = example("bermuda-sand")
    task = next(t for t in plain.tasks if t.series is None)
    typed = as_written(text)
    update = {"title": typed, "why": typed, "change": typed}
    words = words_for("en", plain.lawn.units)
    task = shown_anew(words, plain, task.model_copy(update=update))
    change = Change(task=task.id, kind="moved", before=typed, after=typed, because=typed)
    lawn, tasks = (
        plain.lawn.model_copy(update={"name": name}),
        tuple(task if t.id == task.id else t for t in plain.tasks),
    )
    plan = plain.model_copy(update={"lawn": lawn, "tasks": tasks, "changes": (change,)})
    figures = (SeasonFigure(text, text),)
    job = JobView(
        *(task.id, text, text, text, figures, text, text, (text,), (text,), text, text),
        rain=True,
        load=True,
    )
    line = {"number": 1, "text": text}
    page = render(
        "web/today.html.jinja",
        words,
        view=DayView((job,), (job, job), (WateringView(task.id, text, text, text, False),), ()),
        lawn=name,
        home=text,
        holder=text,
        right="tick",
        zone=text,
        prints=True,
        silent=[{"holder": text, "since": text, "read": text}],
        edits=True,
        today=text,
        day=text,
        errors=[text],
        written=[line],
        before=[line],
        told=True,
        failed=True,
        behind=True,
        reasons=[text],
        changes=[text],
        fill=None,
        campaign=text,
        source=text,
        error_days=1,
        client=text,
        house=text,
        way=[text],
        befell=befell_view((), System.US, words),
        idle=[text],
    )
    return plan, page, changes_html(plan)


def uids_of(feed: bytes) -> list[str]:
    """The identities of the events of a calendar, in order."""
    return [str(event["uid"]) for event in Calendar.from_ical(feed).walk("VEVENT")]


@cache
def plain_shape() -> tuple[set[str], list[str], list[set[tuple[str, ...]]]]:
    """Lines, events and elements of the same with words that nobody minds, made once."""
    plan, *pages = worded("Lawn", "words")
    feed = season_ics(plan)
    return names_of_lines(feed), uids_of(feed), [elements(page) for page in pages]


@full
@always(name="", text="``", mark="")
@given(name=HOSTILE, text=HOSTILE, mark=st.sampled_from(MARKS))
@settings(max_examples=60, deadline=None)
def test_words_of_the_user_break_nothing(name: str, text: str, mark: str) -> None:
    """Whatever a lawn is called and whatever texts say, the feed has the same events and no line of
    its own, and the pages no element or attribute of their own.
    """
    plan, *pages = worded(name + mark, text + mark)
    lines, uids, usual = plain_shape()
    feed = season_ics(plan)
    assert all(len(line) <= 75 and not set(line) & set(b"\n\r\0") for line in feed.split(b"\r\n"))
    assert names_of_lines(feed) <= lines
    assert uids_of(feed) == uids
    for html, known in zip(pages, usual, strict=True):
        assert elements(html) <= known
    assert not set("\u202e\u2066") & set(feed.decode())
