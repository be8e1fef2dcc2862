"""The sheet to measure by."""

import re
import xml.etree.ElementTree as ET
from html import unescape
from pathlib import Path

import pytest
from click.testing import Result
from typer.testing import CliRunner

from command import run
from planning import ROOT
from printed import unset
from tiers import full
from told import told, words_of
from turfplan.cli import app
from turfplan.export.sheets.measuring_sheet import BLANK_LINES, LawnToMeasure, measuring_html
from turfplan.files.reading.book import load_book
from turfplan.site.survey.methods import METHODS, MOST_POINTS, Accuracy, spacings_for
from turfplan.units import System

CLOSE, WIDE = 0.1, 0.6


def sheet(system: System, *shares: float) -> str:
    """The sheet of a lawn of 300 m2, whose points, from the closest, tell its volume to such
    shares; without any the sheet of any lawn.
    """
    book = load_book()
    spacings = spacings_for(300.0, us=system is System.US)
    table = [
        Accuracy(spacing, round(300 / spacing**2), share)
        for spacing, share in zip(spacings, shares, strict=False)
    ]
    errors = {m.error: book.si(m.error) for m in METHODS}
    lawn = LawnToMeasure(300.0, "7, Ash & <Sons>, 7 Lane") if shares else None
    return measuring_html(words_of(system), errors, table, spacings, lawn, "letter")


@pytest.mark.parametrize(
    ("system", "words"),
    [
        (System.US, ("point,x_ft,y_ft,back_ft,fore_ft,what", "0.12 in", "Every 6 ft", "3,230 ft²")),
        (System.METRIC, ("point,x_m,y_m,back_mm,fore_mm,what", "3 mm", "Every 2 m", "300 m²")),
    ],
)
def test_columns_errors_and_spacings_are_in_the_readers_units(
    system: System, words: tuple[str, ...]
) -> None:
    """US or metric."""
    text = unset(unescape(sheet(system, CLOSE, WIDE, WIDE)))
    assert [word for word in words if word not in text] == []


def test_a_sheet_says_whose_lawn_it_is() -> None:
    """Where many are measured; that of any lawn says nothing."""
    assert "7, Ash &amp; &lt;Sons&gt;, 7 Lane" in sheet(System.US, CLOSE, WIDE, WIDE)
    assert "masthead" not in sheet(System.US).partition("<main")[2]


def test_three_choices_are_told_in_words() -> None:
    """A wider one is never told to be better than a closer one, and no share is printed."""

    def said(*shares: float) -> list[str]:
        found = re.findall(r"<p><strong>Every .*?</p>", sheet(System.METRIC, *shares), re.DOTALL)
        return [re.sub(r"<.*?>", "", line).rpartition(": ")[2] for line in found]

    good, bad = said(CLOSE, WIDE, 2.0), said(WIDE, CLOSE, CLOSE)
    assert len(set(good)) == 3 and "a map of each pass" in good[-1] and "buy nothing" in good[0]
    assert len(set(bad)) == 1
    assert "%" not in sheet(System.METRIC, CLOSE).split("<main")[1].split("<h2")[1]
    assert len(said()) == 3


@pytest.mark.parametrize("system", System)
def test_every_method_is_there_with_its_steps(system: System) -> None:
    """Straightedge, string line, rotating level, water level; lengths in the reader's units
    alone.
    """
    text = unset(unescape(sheet(system)))
    for method in METHODS:
        assert all(told(said, system) in text for said in (method.name, *method.steps))
    assert not re.search(
        r"\d ft (?:\(|wide)" if system is System.METRIC else r"\d c?m\b", text.split("<main")[1]
    )


def test_each_method_has_its_table_and_its_grid() -> None:
    """Every cell to write in stands under a headed column, in words."""
    body = sheet(System.US).split("</head>")[1].replace("</html>", "").replace("&#160;", " ")
    page = ET.fromstring(body)
    tables = page.findall(".//table")
    assert len(tables) == len(page.findall(".//svg")) == len(METHODS)
    for table in tables:
        heads = ["".join(head.itertext()) for head in table.findall(".//th")]
        rows = len(table.findall(".//tbody/tr"))
        assert rows >= BLANK_LINES and len(table.findall(".//td")) == rows * len(heads)
        assert not any("_" in head for head in heads)


class TestCommand:
    """`turfplan print BRIEF measure`."""

    def run(self, *words: str) -> Result:
        """The command with its output."""
        return CliRunner().invoke(app, ["print", *words])

    def test_it_needs_neither_plan_nor_survey(self, tmp_path: Path) -> None:
        """The sheet is wanted before anything was measured: the survey named in the brief is not
        there yet.
        """
        brief = tmp_path / "lawn.toml"
        brief.write_text((ROOT / "examples" / "surveyed-metric.toml").read_text())
        done = self.run(str(brief), "measure", "-o", str(tmp_path / "out"))
        assert done.exit_code == 0, done.output
        page = unset(unescape((tmp_path / "out" / "measure.html").read_text()))
        assert "points on 308 m²" in page and "size: a4" in page
        assert page.count("<strong>Every") == len(spacings_for(308.0, us=False))
        assert [p.name for p in (tmp_path / "out").iterdir()] == ["measure.html"]

    @full
    def test_a_us_lawn_gets_letter_and_large_print(self, tmp_path: Path) -> None:
        """As asked."""
        done = self.run(
            str(ROOT / "examples" / "surveyed-us.toml"), "measure", "--large", "-o", str(tmp_path)
        )
        assert done.exit_code == 0, done.output
        page = (tmp_path / "measure-large.html").read_text()
        assert "size: letter" in page and 'class="printed large"' in page

    def test_it_needs_no_brief(self, tmp_path: Path) -> None:
        """A lawn is measured before anybody writes about it."""
        done = self.run("measure", "--paper", "letter", "-o", str(tmp_path))
        assert done.exit_code == 0, done.output
        page = (tmp_path / "measure.html").read_text()
        assert "Every 12" in page and "points on" not in page

    def test_a_week_says_nothing(self, tmp_path: Path) -> None:
        """It is refused, and nothing is written."""
        brief, out = str(ROOT / "examples" / "surveyed-us.toml"), str(tmp_path / "o")
        done = run("print", brief, "measure", "--week", "this", "-o", out)
        assert done.returncode == 3 and not (tmp_path / "o").exists()


@pytest.mark.parametrize(
    ("area", "count"), [(50.0, 3), (800.0, 3), (3000.0, 2), (60_000.0, 1), (None, 3)]
)
def test_spacings_can_be_walked(area: float | None, count: int) -> None:
    """No more points than a day holds; on the largest lawns the widest spacing at least."""
    for us in (True, False):
        spacings = spacings_for(area, us=us)
        assert len(spacings) == count
        assert area is None or count == 1 or area / spacings[0] ** 2 <= MOST_POINTS


def test_a_fault_of_print_is_told_in_words(tmp_path: Path) -> None:
    """A sheet of a plan that was never made: exit 3, the way out, and no trace of the program's
    inside.
    """
    words = [
        "print",
        str(ROOT / "examples" / "surveyed-us.toml"),
        "week",
        "-o",
        str(tmp_path / "none"),
    ]
    done = run(*words)
    assert done.returncode == 3 and done.stdout == ""
    assert (
        done.stderr.startswith("error: ")
        and "holds no plan yet" in done.stderr
        and "hint: first" in done.stderr
    )
