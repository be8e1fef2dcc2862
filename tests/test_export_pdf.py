"""PDFs are tagged, in reading order, of a steady number of pages, and the same every time."""

import builtins
import os
import re
import shutil
import subprocess
import time
from pathlib import Path
from typing import Any

import pytest

from page_plan import on, page_plan
from printed import book_html, checklist_html, order_html
from tiers import full
from told import told
from turfplan.cli import printing as print_command
from turfplan.cli.printing import PaperSize, Sheet, print_sheet
from turfplan.errors import MissingToolError, TurfplanError
from turfplan.export.pdf import to_pdf
from turfplan.export.tables.plan_json import plan_to_json
from turfplan.units import System

pytest.importorskip("weasyprint", reason="the extra pdf is not installed", exc_type=ImportError)


def run(tool: str, *arguments: str) -> str:
    """What a PDF tool prints; the test is skipped where the tool is absent."""
    if shutil.which(tool) is None:
        pytest.skip(f"{tool} is not installed")
    return subprocess.run([tool, *arguments], check=True, capture_output=True, text=True).stdout


@pytest.fixture(scope="module")
def week_pdf(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The fullest week of the invented plan."""
    path = tmp_path_factory.mktemp("pdf") / "week.pdf"
    plan = page_plan()
    path.write_bytes(to_pdf(checklist_html(plan, on(8, 14)), plan))
    return path


@pytest.fixture(scope="module")
def book_pdf(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The season book of the invented plan."""
    path = tmp_path_factory.mktemp("pdf") / "book.pdf"
    plan = page_plan()
    path.write_bytes(to_pdf(book_html(plan), plan))
    return path


def test_the_pdf_is_sound_and_tagged(book_pdf: Path) -> None:
    """qpdf finds nothing, and headings, tables and figures are tagged."""
    assert "No syntax or stream encoding errors found" in run("qpdf", "--check", str(book_pdf))
    tags = run("pdfinfo", "-struct", str(book_pdf))
    assert all(tag in tags for tag in ("H1", "H2", "H3", "Table", "TH", "Figure"))
    assert "Tagged:          yes" in run("pdfinfo", str(book_pdf))


def test_the_pdf_carries_title_author_and_the_day_of_the_plan(book_pdf: Path) -> None:
    """Its metadata come from the plan, not from the clock."""
    info = run("pdfinfo", "-isodates", str(book_pdf))
    assert "Back lawn: season book" in info
    assert "turfplan" in info
    assert "2027-08-03T16:00:00" in info


def test_every_picture_says_what_it_shows(book_pdf: Path) -> None:
    """Each figure of the PDF has a text in its stead, charts and maps alike."""
    if shutil.which("qpdf") is None:
        pytest.skip("qpdf is not installed")
    plain = subprocess.run(
        ["qpdf", "--qdf", "--object-streams=disable", str(book_pdf), "-"],
        check=True,
        capture_output=True,
    ).stdout
    assert plain.count(b"/S /Figure") == plain.count(b"/Alt (") + plain.count(b"/Alt <") > 5


def test_chapters_are_bookmarks(book_pdf: Path) -> None:
    """The outline of the book leads to its chapters."""
    raw = run("qpdf", "--json", "--json-key=outlines", str(book_pdf))
    assert all(
        title in raw
        for title in ("The season", "Why these days", "The words used here", "What I did")
    )


def test_text_is_in_reading_order(week_pdf: Path) -> None:
    """Title, day, rule, steps, caution and look-ahead come one after the other."""
    text = " ".join(run("pdfinfo", "-struct-text", str(week_pdf)).replace('"', " ").split())
    plan = page_plan()
    seed = plan.task("seed")
    assert seed is not None
    places = [
        text.index(words)
        for words in (
            "Aug 9 to Aug 15",
            "Receive 7 yd³",
            "Core-aerate in two",
            str(seed.title),
            "Next week",
        )
    ]
    assert places == sorted(places)


@pytest.mark.full
def test_each_leaf_is_one_page() -> None:
    """On Letter and on A4, the fullest too."""
    for system in (System.US, System.METRIC):
        plan = page_plan(system)
        html = checklist_html(plan)
        assert pages_of(to_pdf(html, plan)) == html.count('<section class="leaf')


def pages_of(pdf: bytes) -> int:
    """The number of pages of a PDF."""
    if shutil.which("pdfinfo") is None:
        pytest.skip("pdfinfo is not installed")
    text = subprocess.run(
        ["pdfinfo", "-"], input=pdf, check=True, capture_output=True
    ).stdout.decode()
    found = re.search(r"Pages:\s+(\d+)", text)
    assert found
    return int(found[1])


def test_paper_is_letter_or_a4() -> None:
    """The page has the size that was asked for."""
    plan = page_plan()
    for paper, size in (("letter", "612 x 792"), ("a4", "595.276 x 841.89")):
        pdf = to_pdf(order_html(plan, paper), plan)
        if shutil.which("pdfinfo") is None:
            pytest.skip("pdfinfo is not installed")
        text = subprocess.run(
            ["pdfinfo", "-"], input=pdf, check=True, capture_output=True
        ).stdout.decode()
        assert size in text


def test_the_same_plan_gives_the_same_bytes(monkeypatch: pytest.MonkeyPatch) -> None:
    """No clock and no chance in the file: a day later its bytes are the same."""
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    plan = page_plan()
    html = order_html(plan)
    first, later = to_pdf(html, plan), time.time() + 86400
    monkeypatch.setattr(time, "time", lambda: later)
    assert to_pdf(html, plan) == first
    assert "SOURCE_DATE_EPOCH" not in os.environ


def test_a_hostile_name_prints(tmp_path: Path) -> None:
    """Markup, emoji, right-to-left and 300 characters end up as text on one sound page."""
    path = tmp_path / "hostile.pdf"
    plan = page_plan(name="<b>حديقة</b> 🌱 " + "x" * 280)
    path.write_bytes(to_pdf(checklist_html(plan, on(9, 18)), plan))
    assert "No syntax" in run("qpdf", "--check", str(path))
    assert "<b>" in run("pdftotext", str(path), "-")
    assert pages_of(path.read_bytes()) == 1


HOSTILE = ["x" * 300, "a long name of a lawn " * 14, "<b>حديقة\u202e</b> 🌱 " + "y" * 280]


@full
@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_name_moves_nothing_in_the_book(
    tmp_path: Path, book_pdf: Path, name: str
) -> None:
    """The book keeps its pages, and its running foot the short name on one line."""
    path = tmp_path / "hostile.pdf"
    plan = page_plan(name=name)
    path.write_bytes(to_pdf(book_html(plan), plan))
    assert "No syntax" in run("qpdf", "--check", str(path))
    assert pages_of(path.read_bytes()) == pages_of(book_pdf.read_bytes())
    cover = run("pdftotext", "-layout", "-l", "1", str(path), "-")
    foot = [line for line in cover.splitlines() if "Season book ·" in line]
    assert len(foot) == 1 and cover.rstrip().endswith(foot[0].rstrip())


def without_weasyprint(monkeypatch: pytest.MonkeyPatch, error: Exception) -> None:
    """Make the import of WeasyPrint fail as it does where something is missing."""
    plain = builtins.__import__

    def refuse(name: str, *arguments: Any, **more: Any) -> Any:
        if name.split(".")[0] == "weasyprint":
            raise error
        return plain(name, *arguments, **more)

    monkeypatch.setattr(builtins, "__import__", refuse)


@pytest.mark.parametrize(
    "error", [ImportError("No module named 'weasyprint'"), OSError("cannot load library 'pango'")]
)
def test_a_missing_tool_is_named_with_what_to_install(
    monkeypatch: pytest.MonkeyPatch, error: Exception
) -> None:
    """Without WeasyPrint or Pango there is one error, exit code 5, and one line of what to
    install.
    """
    without_weasyprint(monkeypatch, error)
    with pytest.raises(MissingToolError) as caught:
        to_pdf("<p>x</p>", page_plan())
    (problem,) = caught.value.problems
    assert caught.value.exit_code == 5
    hint = told(problem.hint)
    assert "turfplan[pdf]" in hint and "\n" not in hint


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder whose plan is the invented one."""
    monkeypatch.setattr(
        print_command, "_plan", lambda brief, output, sheet: (page_plan(), tmp_path)
    )
    return tmp_path


def test_print_writes_the_page_even_when_the_pdf_cannot_be_made(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A browser can print the HTML that is there."""
    without_weasyprint(monkeypatch, ImportError("No module named 'weasyprint'"))
    with pytest.raises(MissingToolError):
        print_sheet(Path("brief.toml"), Sheet.ORDER, pdf=True)
    assert (folder / "order.html").is_file() and not (folder / "order.pdf").exists()


def test_print_writes_page_and_pdf_under_the_name_of_the_sheet(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The files are named on standard output."""
    print_sheet(Path("brief.toml"), Sheet.WEEK, week="2027-08-14", large=True, pdf=True)
    names = [Path(line).name for line in capsys.readouterr().out.splitlines()]
    assert names == ["week-2027-08-09-large.html", "week-2027-08-09-large.pdf"]
    assert all((folder / name).stat().st_size > 1000 for name in names)
    assert not list(folder.glob(".*"))


def test_print_writes_to_the_file_that_is_named(folder: Path) -> None:
    """A name that ends in .pdf asks for a PDF; the page lies beside it."""
    print_sheet(Path("brief.toml"), Sheet.ORDER, output=folder / "mine.pdf")
    assert (folder / "mine.pdf").read_bytes().startswith(b"%PDF") and (
        folder / "mine.html"
    ).is_file()


def test_print_reads_the_plan_of_the_folder(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The plan.json in the folder is what is printed; a folder without one is an error that says
    what to do first.
    """
    with pytest.raises(TurfplanError, match="holds no plan yet"):
        print_sheet(Path("brief.toml"), Sheet.ORDER, output=tmp_path)
    (tmp_path / "plan.json").write_bytes(plan_to_json(page_plan(name="Read from the folder")))
    print_sheet(Path("brief.toml"), Sheet.ORDER, paper=PaperSize.A4, output=tmp_path)
    html = (tmp_path / "order.html").read_text(encoding="utf-8")
    assert "Read from the folder" in html and "size: a4" in html
    assert capsys.readouterr().out == f"{tmp_path / 'order.html'}\n"


@pytest.mark.parametrize(("week", "sheet"), [("14 August", Sheet.WEEK), ("2027-08-14", Sheet.BOOK)])
def test_a_week_that_is_no_day_or_has_no_use_is_an_error(
    folder: Path, week: str, sheet: Sheet
) -> None:
    """The message names --week."""
    with pytest.raises(TurfplanError, match="--week"):
        print_sheet(Path("brief.toml"), sheet, week=week)


def test_this_week_is_the_lawn_s_week(folder: Path) -> None:
    """`this` prints the week of the present day, work or not."""
    print_sheet(Path("brief.toml"), Sheet.WEEK, week="this")
    assert len(list(folder.glob("week-*.html"))) == 1
