"""The nitrogen that compost gives in its first year."""

import pytest

from planning import brief_of
from turfplan.files.reading.book import load_book
from turfplan.records.book_names import of_material
from turfplan.work.feeding.compost import compost_credit

BOOK = load_book()


def test_the_analysis_in_the_brief_takes_the_place_of_the_usual_range() -> None:
    """Ten millimetres of dry matter, 1.5 % of it nitrogen, of which a share comes in the first
    year.
    """
    brief = brief_of({"feeding": {"compost_nitrogen_percent": 1.5}})
    density, moisture = (BOOK.fact(of_material("compost", n)) for n in ("density", "moisture"))
    share = BOOK.fact("compost.first_year_share")
    dry = density.si * 10 * (1 - moisture.si)
    found = compost_credit(brief, BOOK, 10.0)
    assert found.g_m2 == pytest.approx(dry * 0.015 * share.si)
    assert found.low_g_m2 == pytest.approx(dry * 0.015 * share.low_si)
    usual = compost_credit(brief_of(), BOOK, 10.0)
    assert usual.low_g_m2 < usual.g_m2 < usual.high_g_m2
