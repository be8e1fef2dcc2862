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
from turfplan.export.sheets.measuring_sheet import BLANK_LINES, measuring_html
from turfplan.files.reading.book import load_book
from turfplan.site.survey.methods import METHODS, Accuracy, spacings_for
from turfplan.units import System

TABLE = (Accuracy(1.0, 330, 0.4), Accuracy(2.0, 96, 0.9))


def sheet(system: System, table: tuple[Accuracy, ...] = TABLE) -> str:
    """The sheet of a lawn of 300 m2."""
    book = load_book()
    return measuring_html(
        words_of(system), {m.error: book.si(m.error) for m in METHODS}, table, 300.0, "letter"
    )


@pytest.mark.parametrize(
    ("system", "words"),
    [
        (System.US, ("point,x_ft,y_ft,back_ft,fore_ft,what", "0.12 in", "3.3 ft", "3,230 ft²")),
        (System.METRIC, ("point,x_m,y_m,back_mm,fore_mm,what", "3 mm", "1 m", "300 m²")),
    ],
)
def test_columns_errors_and_spacings_are_in_the_readers_units(
    system: System, words: tuple[str, ...]
) -> None:
    """US or metric."""
    text = unset(unescape(sheet(system)))
    assert all(word in text for word in words)
    assert "40%" in text and "330" in text


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


def test_the_page_is_well_formed_and_has_lines_to_write_on() -> None:
    """Every cell of the blank table, under headed columns."""
    body = sheet(System.US).split("</head>")[1].replace("</html>", "").replace("&#160;", " ")
    tables = ET.fromstring(body).findall(".//table")
    assert len(tables) == 2
    assert len(tables[1].findall(".//td")) == BLANK_LINES * len(tables[1].findall(".//th"))


def test_without_a_table_of_accuracy_the_rest_stands() -> None:
    """Where the extra is absent."""
    assert "How many points" not in sheet(System.US, ())


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
        assert "on 308 m² with ordinary hollows" in page and "size: a4" in page
        assert page.count('<th scope="row">') == len(spacings_for(308.0))
        assert [p.name for p in (tmp_path / "out").iterdir()] == ["measure.html"]

    @full
    def test_a_us_lawn_gets_letter_and_large_print(self, tmp_path: Path) -> None:
        """As asked."""
        done = self.run(
            str(ROOT / "examples" / "surveyed-us.toml"), "measure", "--large", "-o", str(tmp_path)
        )
        assert done.exit_code == 0, done.output
        page = (tmp_path / "measure-large.html").read_text()
        assert "size: letter" in page and 'class="sheet large"' in page

    def test_a_week_says_nothing(self, tmp_path: Path) -> None:
        """It is refused, and nothing is written."""
        brief, out = str(ROOT / "examples" / "surveyed-us.toml"), str(tmp_path / "o")
        done = run("print", brief, "measure", "--week", "this", "-o", out)
        assert done.returncode == 3 and not (tmp_path / "o").exists()


@pytest.mark.parametrize(
    ("area", "fewest"), [(50.0, 0.75), (900.0, 1.0), (5000.0, 2.5), (60_000.0, 4.0)]
)
def test_spacings_can_be_walked(area: float, fewest: float) -> None:
    """No more points than a day holds; on the largest lawns the widest spacing at least."""
    assert spacings_for(area)[0] == fewest


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
