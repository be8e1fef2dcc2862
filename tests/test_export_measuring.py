"""The sheet to measure by."""

import xml.etree.ElementTree as ET
from html import unescape

import pytest

from turfplan.export.measuring import BLANK_LINES, measuring_html
from turfplan.readers.book import load_book
from turfplan.site.measuring import METHODS, Accuracy
from turfplan.units import System

TABLE = (Accuracy(1.0, 330, 0.4), Accuracy(2.0, 96, 0.9))


def sheet(system: System, table: tuple[Accuracy, ...] = TABLE) -> str:
    """The sheet of a lawn of 300 m2."""
    book = load_book()
    return measuring_html(system, {m.error: book.si(m.error) for m in METHODS}, table, 300.0, "letter")


@pytest.mark.parametrize(
    ("system", "words"),
    [
        (System.US, ("point,x_ft,y_ft,back_ft,fore_ft,what", "0.12 in", "3.3 ft", "3,230 ft²")),
        (System.METRIC, ("point,x_m,y_m,back_mm,fore_mm,what", "3 mm", "1 m", "300 m²")),
    ],
)
def test_columns_errors_and_spacings_are_in_the_readers_units(system: System, words: tuple[str, ...]) -> None:
    """US or metric."""
    text = unescape(sheet(system))
    assert all(word in text for word in words)
    assert "40%" in text and "330" in text


def test_every_method_is_there_with_its_steps() -> None:
    """Straightedge, string line, rotating level, water level."""
    text = unescape(sheet(System.US))
    for method in METHODS:
        assert method.name in text and all(step in text for step in method.steps)


def test_the_page_is_well_formed_and_has_lines_to_write_on() -> None:
    """Every cell of the blank table, under headed columns."""
    body = sheet(System.US).split("</head>")[1].replace("</html>", "").replace("&#160;", " ")
    tables = ET.fromstring(body).findall(".//table")
    assert len(tables) == 2
    assert len(tables[1].findall(".//td")) == BLANK_LINES * len(tables[1].findall(".//th"))


def test_without_a_table_of_accuracy_the_rest_stands() -> None:
    """Where the extra is absent."""
    assert "How many points" not in sheet(System.US, ())
