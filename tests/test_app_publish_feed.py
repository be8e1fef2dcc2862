"""A published feed keeps its name, which belongs to the lawn and follows no folder by itself."""

import hashlib
import re
import shutil
import stat
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from html import unescape
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
from dateutil.rrule import rrulestr
from icalendar import Calendar

from command import run
from planning import example
from printed import outputs
from turfplan.app.outputs import words_of
from turfplan.app.publish_feed import publish_feed, withdraw_feed
from turfplan.errors import TurfplanError
from turfplan.export.published_page import published_page
from turfplan.export.templates import digest_of
from turfplan.files.plan_folder import write_outputs
from turfplan.files.publish_record import RECORD
from turfplan.files.reading.plan import read_plan
from turfplan.message import as_written
from turfplan.records.plan import Option, RankedNote

DAY = timedelta(days=1)


@pytest.fixture
def lawn(tmp_path: Path) -> Path:
    """A folder with a plan."""
    folder = tmp_path / "lawn"
    folder.mkdir()
    write_outputs(folder, outputs(example("bermuda-sand")))
    return folder


def test_a_name_is_drawn_once_and_no_host_has_a_key(lawn: Path, tmp_path: Path) -> None:
    """The same on every host, unlike that of another lawn; nothing lies beside it at the host from
    which names follow; only its owner reads the record."""
    first = publish_feed(lawn, tmp_path / "web").path
    assert publish_feed(lawn, tmp_path / "web").path == first
    assert publish_feed(lawn, tmp_path / "other").path.name == first.name
    published = {first.name, first.with_suffix(".html").name, "index.html"}
    assert {path.name for path in (tmp_path / "web").iterdir()} == published
    assert stat.S_IMODE((lawn / RECORD).stat().st_mode) == 0o600
    twin = Path(shutil.copytree(lawn, tmp_path / "twin"))
    (twin / RECORD).unlink()
    assert publish_feed(twin, tmp_path / "web").path.name != first.name


def test_parts_are_published_under_names_of_their_own(lawn: Path, tmp_path: Path) -> None:
    """Each part has a name that stays, is written anew whichever is asked for, and goes along."""
    web = tmp_path / "web"
    whole = publish_feed(lawn, web).path
    water = publish_feed(lawn, web, part="water").path
    assert whole != water and water.read_bytes() == (lawn / "water.ics").read_bytes()
    old = lawn / "water.ics"
    old.write_bytes(old.read_bytes() + b" ")
    assert publish_feed(lawn, web).path == whole and water.read_bytes() == old.read_bytes()
    assert {path.name for path in web.glob("*.ics")} == {whole.name, water.name}
    moved = tmp_path / "moved"
    lawn.rename(moved)
    assert publish_feed(moved, web, keep_address=True, part="water").path == water
    assert publish_feed(moved, web).path == whole


def test_an_address_of_an_older_version_goes_on(lawn: Path, tmp_path: Path) -> None:
    """Version 0.1 kept a key at the host; what it published there keeps its name, and only there is
    the key asked."""
    web = tmp_path / "web"
    web.mkdir()
    (web / ".turfplan-names").write_text("key\n", encoding="utf-8")
    name = hashlib.sha256(f"key\n{lawn.resolve()}".encode()).hexdigest()[:44] + ".ics"
    (web / name).write_text("old", encoding="utf-8")
    assert publish_feed(lawn, web).path.name == name
    (web / ".turfplan-names").unlink()
    assert publish_feed(lawn, web).path.name == name
    assert (web / name).read_bytes() == (lawn / "season.ics").read_bytes()


def test_a_copy_is_published_under_a_name_of_its_own(lawn: Path, tmp_path: Path) -> None:
    """The address goes on with the first folder; that the copy has another one is told, and while
    the first holds the lawn, the copy cannot be asked to keep its address."""
    feed = publish_feed(lawn, tmp_path / "web").path
    copy = Path(shutil.copytree(lawn, tmp_path / "copy"))
    (copy / "season.ics").write_text("other", encoding="utf-8")
    with pytest.raises(TurfplanError, match="has the identity") as told:
        publish_feed(copy, tmp_path / "web", keep_address=True)
    assert str(lawn) in str(told.value) and str(copy) in str(told.value)
    done = publish_feed(copy, tmp_path / "web")
    assert done.path != feed and len(done.notes) == 1
    assert feed.read_bytes() == (lawn / "season.ics").read_bytes()
    assert publish_feed(copy, tmp_path / "web") == replace(done, notes=())


def test_a_folder_that_has_moved_keeps_its_address_when_asked(lawn: Path, tmp_path: Path) -> None:
    """Not by itself: who moved it is told, and says so, at once or later."""
    feed = publish_feed(lawn, tmp_path / "web").path
    moved = lawn.rename(tmp_path / "moved")
    words = ("publish", str(moved), "--to", str(tmp_path / "web"))
    done = run(*words)
    assert done.returncode == 0 and "--keep-address" in done.stderr and str(lawn) in done.stderr
    assert done.stdout.strip() != str(feed) and run(*words).stdout == done.stdout
    assert run(*words, "--keep-address").stdout.strip() == str(feed)
    again = run(*words)
    assert again.stdout.strip() == str(feed) and "--keep-address" not in again.stderr


@pytest.mark.parametrize(
    "text",
    [
        "{",
        "[]",
        '{"names": {}}',
        '{"names": {"a": 1}}',
        '{"names": {"a": {"w": "../x.ics"}}}',
        '{"names": {"a": {"w": "/etc/x.ics"}}}',
        '{"names": {"a": {"w": "passwd"}}}',
    ],
)
def test_a_damaged_record_is_refused(text: str, lawn: Path, tmp_path: Path) -> None:
    """No new address is drawn in its stead, and no name leads out of the host's folder."""
    (lawn / RECORD).write_text(text, encoding="utf-8")
    with pytest.raises(TurfplanError, match="does not say"):
        publish_feed(lawn, tmp_path / "web")
    assert not (tmp_path / "web").exists()


def test_without_a_feed_it_is_told(lawn: Path, tmp_path: Path) -> None:
    """A plan whose calendar is not there is no bug: it is told."""
    (lawn / "season.ics").unlink()
    with pytest.raises(TurfplanError, match="cannot be read"):
        publish_feed(lawn, tmp_path / "web")


def test_a_host_never_shows_the_plans_folder(lawn: Path) -> None:
    """Neither it nor one above it: in it lie the exact place and the key of all names."""
    before = {path.name for path in lawn.iterdir()}
    for web in (lawn, lawn.parent, lawn / ".." / lawn.name):
        with pytest.raises(TurfplanError, match="the whole plan"):
            publish_feed(lawn, web)
    assert {path.name for path in lawn.iterdir()} == before
    assert publish_feed(lawn, lawn / "web").path.is_file()


def test_the_page_stands_alone(lawn: Path, tmp_path: Path) -> None:
    """No script, no form, no request to anywhere, nothing that a search engine may keep; each job
    with its days and amounts, and the calendar beside it. An index of somebody's own stays."""
    web = tmp_path / "web"
    done = publish_feed(lawn, web)
    assert done.page is not None
    html, plan = done.page.read_text(encoding="utf-8"), read_plan(lawn)
    assert plan is not None
    for page in (html, (web / "index.html").read_text(encoding="utf-8")):
        assert '<meta name="robots" content="noindex, nofollow">' in page
        assert not re.search(r"<(form|script|input|button|link|img|iframe)\b|https?:|src=", page)
        style = re.search("<style>(.*?)</style>", page, re.DOTALL)
        assert style is not None and digest_of(style[1]) in unescape(page)
        assert WellFormed().faults(page) == []
    assert f'href="{done.path.name}"' in html
    told = unescape(html)
    assert all(str(t.title) in told for t in plan.tasks if t.series is None and t.how)
    assert done.path.name not in (web / "index.html").read_text(encoding="utf-8")
    (web / "index.html").write_text("mine", encoding="utf-8")
    publish_feed(lawn, web, part="water")
    assert (web / "index.html").read_text(encoding="utf-8") == "mine"
    assert publish_feed(lawn, tmp_path / "other", part="work").page is None


def test_a_page_says_nothing_of_when_nobody_is_there() -> None:
    """Neither the reasons of days nor what is put off, not even where it stops all or stands at a
    job; nor ways out, nor the place."""
    plan, away = example("bermuda-sand"), as_written("Nobody is there from Aug 3")
    task = next(task for task in plan.tasks if task.series is None)
    told = task.model_copy(
        update={
            "not_earlier": (away,),
            "not_later": (away,),
            "cautions": (away, as_written("Mind the edge")),
        }
    )
    changed = plan.model_copy(
        update={
            "tasks": tuple(told if one is task else one for one in plan.tasks),
            "put_off": (away,),
            "ranked": (RankedNote(rank="stop", kind="caution", text=away),),
            "options": (Option(title=as_written("Be away later, from Aug 3"), reason=away),),
        }
    )
    html = published_page(changed, words_of(plan), "x.ics").decode()
    assert "Aug 3" not in html and "Mind the edge" in html
    assert plan.place.name is not None and str(plan.place.name).split(",")[0] not in html


def test_a_withdrawn_name_cancels_what_is_to_come(lawn: Path, tmp_path: Path) -> None:
    """In the place of the calendar lies one that has ended; what is over stays as it was, what
    repeats ends, the page says nothing more, and the name is never taken again."""
    web, now = tmp_path / "web", datetime(2027, 6, 15, 12, tzinfo=UTC)
    first, water = publish_feed(lawn, web), publish_feed(lawn, web, part="water")
    assert first.page is not None
    before = {str(e["uid"]): e for e in _calendar(first.path).events}
    assert withdraw_feed(lawn, web, now=now).path == first.path
    ended = _calendar(first.path)
    over = cancelled = 0
    for event in ended.events:
        old = before.pop(str(event["uid"]))
        if str(old["status"]) == "CANCELLED" or _last_day(old) < date(2027, 6, 15):
            over += 1
            assert event.to_ical() == old.to_ical()
        elif str(event["status"]) == "CANCELLED":
            cancelled += 1
            assert "description" not in event and not event.subcomponents
            assert event["sequence"] == old["sequence"] + 1
            assert event.decoded("last-modified") > old.decoded("last-modified")
        else:
            assert _last_day(event) < date(2027, 6, 15) and event["sequence"] > old["sequence"]
    assert over and cancelled and not before
    assert str(ended["name"]).endswith("(ended)")
    page = first.page.read_text(encoding="utf-8")
    assert "withdrawn" in page and "<details" not in page
    assert water.path.read_bytes() == (lawn / "water.ics").read_bytes()
    with pytest.raises(TurfplanError, match="nothing of this lawn"):
        withdraw_feed(lawn, web)
    again = publish_feed(lawn, web)
    assert again.path != first.path and "(ended)" in first.path.read_text(encoding="utf-8")
    assert stat.S_IMODE((lawn / RECORD).stat().st_mode) == 0o600


def test_a_damaged_or_lost_calendar_is_ended_too(lawn: Path, tmp_path: Path) -> None:
    """Then what the plan holds of it is ended; the command says what is to be done first."""
    web = tmp_path / "web"
    first = publish_feed(lawn, web)
    assert first.page is not None
    first.path.write_bytes(b"torn")
    first.page.unlink()
    done = run("publish", str(lawn), "--to", str(web), "--withdraw")
    assert done.returncode == 0 and done.stdout.strip() == str(first.path)
    assert "to the host first" in done.stderr
    assert "(ended)" in first.path.read_text(encoding="utf-8") and first.page.is_file()


def _calendar(path: Path) -> Any:
    """A calendar as a reader takes it."""
    return Calendar.from_ical(path.read_bytes())


def _last_day(event: Any) -> date:
    """The last day on which an entry has a turn."""
    start, end = event.decoded("dtstart"), event.decoded("dtend")
    if "rrule" not in event:
        last = end - timedelta(microseconds=1) if isinstance(end, datetime) else end - DAY
        day: date = last.date() if isinstance(last, datetime) else last
        return day
    rule = rrulestr(event["rrule"].to_ical().decode(), dtstart=_at(start))
    turn: datetime = list(rule)[-1]
    return turn.date()


def _at(start: date) -> datetime:
    """A day or a moment as a moment without a zone, which a rule is laid out in."""
    if isinstance(start, datetime):
        return start.replace(tzinfo=None)
    return datetime.combine(start, time())


class WellFormed(HTMLParser):
    """Finds elements that are not closed in their turn."""

    def faults(self, html: str) -> list[str]:
        """What is open or closed where it should not be."""
        self.open: list[str] = []
        self.found: list[str] = []
        self.feed(html)
        return self.found + self.open

    def handle_starttag(self, tag: str, attrs: object) -> None:
        """Opens one, unless it has no end."""
        if tag not in ("meta", "br", "img", "input", "link"):
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: object) -> None:
        """Such are of drawings alone."""

    def handle_endtag(self, tag: str) -> None:
        """Closes the one that was opened last."""
        if not self.open or self.open.pop() != tag:
            self.found.append(tag)
