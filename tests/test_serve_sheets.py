"""Today and this week on paper from the page: as PDF in one tap, or as a page that prints whole."""

import re
import shutil
import subprocess
import threading
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from datetime import date
from pathlib import Path
from typing import Any

import httpx2 as httpx
import pytest

pytest.importorskip("starlette", reason="the extra web is not installed")
pytest.importorskip("uvicorn", reason="the extra web is not installed")

from starlette.responses import Response  # after the skips

from screens import NARROW, opened
from served import ServedHome, serving  # after the skips
from test_export_screen import browser  # noqa: F401 — a fixture
from tiers import full
from turfplan.serve import app, printed_sheets, sheet_pages
from turfplan.serve.printed_sheets import MOST_KEPT, PrintedSheets

SPREADING, WATERING = date(2027, 4, 11), date(2027, 9, 15)


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Iterator[ServedHome]:
    """A lawn that is served on a day of work."""
    made = ServedHome(tmp_path_factory.mktemp("sheets"), SPREADING)
    made.lawn()
    with serving(made):
        yield made


def test_a_pdf_is_made_once_a_sheet_and_the_oldest_goes(monkeypatch: pytest.MonkeyPatch) -> None:
    """What says the same is not made again; what nothing can print is not kept."""
    made: list[str] = []

    def make(_: object, html: str) -> bytes:
        made.append(html)
        return b"" if html == "none" else b"%PDF" + html.encode()

    monkeypatch.setattr(printed_sheets, "apart", make)
    sheets = PrintedSheets()
    assert sheets.pdf("a") == sheets.pdf("a") == b"%PDFa" and made == ["a"]
    assert sheets.pdf("none") == sheets.pdf("none") == b"" and made == ["a", "none", "none"]
    for n in range(MOST_KEPT):
        sheets.pdf(str(n))
    assert len(sheets.kept) == MOST_KEPT
    sheets.pdf("a")
    assert made[-1] == "a"


def test_without_the_extra_the_page_that_prints_is_offered(
    home: ServedHome, monkeypatch: pytest.MonkeyPatch
) -> None:
    """On the page, and to who has the address of a PDF still."""
    monkeypatch.setattr("turfplan.serve.pages.can_print", lambda: False)
    monkeypatch.setattr(sheet_pages, "can_print", lambda: False)
    client, page = home.client(), f"/lawn/{home.token('read')}"
    assert "Print today" in client.get(page).text and ".pdf" not in client.get(page).text
    got = client.get(f"{page}/week.pdf")
    assert (got.status_code, got.headers["location"]) == (303, f"{page}/print/week")


def test_the_sheet_of_a_day_holds_that_day(home: ServedHome) -> None:
    """Its jobs with their cautions, its waterings, and no other day's."""
    client, page = home.client(), f"/lawn/{home.token('read')}"
    told = client.get(f"{page}/print/day").text
    assert "Top-dress pass 1" in told and "Dethatch" not in told
    assert "Go if" in told and "Protect yourself" in told
    home.day = WATERING
    watered = client.get(f"{page}/print/day").text
    home.day = SPREADING
    assert "Water" in watered and "Top-dress pass 1" not in watered
    assert client.get(f"/lawn/{home.token('edit')}/print/nothing").status_code == 404


@full
@pytest.mark.parametrize("of", ["day", "week"])
def test_the_page_that_prints_stands_on_its_own_and_prints_whole(
    browser: Any,  # noqa: F811
    home: ServedHome,
    tmp_path: Path,
    of: str,
) -> None:
    """Its own styles are let through, nothing breaks the policy; on small paper with the wide
    margins that phones leave all of it is printed.
    """
    if shutil.which("pdftotext") is None:
        pytest.skip("pdftotext is not installed")
    with opened(browser, width=NARROW) as page:
        faults: list[str] = []
        page.on("console", lambda message: faults.append(message.text))
        page.goto(f"{home.base}/lawn/{home.token('read')}/print/{of}")
        assert (
            page.evaluate("getComputedStyle(document.querySelector('.title')).fontWeight") == "700"
        )
        assert page.evaluate("document.documentElement.scrollWidth") == NARROW
        assert [fault for fault in faults if "Security Policy" in fault] == []
        page.emulate_media(media="print")
        shown = set(re.findall(r"[A-Za-z]{4,}", page.locator("main").inner_text()))
        margins = dict.fromkeys(("top", "bottom", "left", "right"), "25mm")
        raw = page.pdf(format="A5", margin=margins, prefer_css_page_size=False)
    path = tmp_path / "sheet.pdf"
    path.write_bytes(raw)
    read = subprocess.run(["pdftotext", path, "-"], capture_output=True, text=True, check=True)
    whole = re.sub(r"[^A-Za-z]", "", read.stdout)
    missing = [word for word in shown if word not in whole]
    assert len(shown) > 80 and len(missing) < len(shown) / 50, missing


@full
def test_a_pdf_comes_from_a_worker_while_feeds_are_answered(home: ServedHome) -> None:
    """The bytes of a tagged PDF with today's job, the same when asked again, as fast as from the
    shelf.
    """
    pytest.importorskip("weasyprint", reason="the extra pdf is not installed")
    client, page = home.client(), f"/lawn/{home.token('read')}"
    got = client.get(f"{page}/day.pdf")
    assert got.headers["content-type"] == "application/pdf" and got.content.startswith(b"%PDF-")
    assert got.headers["content-disposition"] == 'inline; filename="day-2027-04-11.pdf"'
    assert client.get(f"{page}/day.pdf").content == got.content


@pytest.mark.parametrize("path", ["day.pdf", "season"])
def test_a_feed_is_answered_while_a_pdf_or_a_page_is_being_made(
    home: ServedHome, monkeypatch: pytest.MonkeyPatch, path: str
) -> None:
    """It ends only once feeds were answered, new ones, unchanged ones and looks at their heads:
    whoever had to wait for it would wait for good."""
    begun, fed = threading.Event(), threading.Event()

    def waits(*_: object) -> Any:
        begun.set()
        assert fed.wait(60), "no feed was answered meanwhile"
        return Response(b"made")

    monkeypatch.setitem(app.PAGES, path, waits)
    page = f"/lawn/{home.token('read', path)}"
    paths = [f"/feed/{home.token('feed', str(n))}.ics" for n in range(3)]
    with serving(ServedHome(home.root, home.day)) as served, ThreadPoolExecutor(6) as pool:

        def got(path: str, method: str = "GET", **headers: str) -> httpx.Response:
            return httpx.request(method, f"{served.base}{path}", headers=headers, timeout=90)

        # As many as are made at once, and more: they hold no thread that a feed is found in.
        made = [pool.submit(got, f"{page}/{path}") for _ in range(6)]
        assert begun.wait(60)
        first = [got(path) for path in paths]
        again = [
            got(path, **{"If-None-Match": one.headers["etag"]})
            for path, one in zip(paths, first, strict=True)
        ]
        heads = [got(path, "HEAD") for path in paths]
        assert not any(one.done() for one in made)
        fed.set()
        assert [one.result().content for one in made] == [b"made"] * 6
    assert all(one.content.startswith(b"BEGIN:VCALENDAR") for one in first)
    assert [one.status_code for one in (*again, *heads)] == [304] * 3 + [200] * 3
    assert not any(one.content for one in (*again, *heads))
