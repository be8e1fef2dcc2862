"""How to measure, and how many points give which accuracy."""

from dataclasses import replace
from itertools import pairwise
from typing import cast

import pytest

from lawn_surveys import BOOK_LIKE
from turfplan.readers.book import load_book
from turfplan.readers.survey_table import survey_of_text
from turfplan.site.measuring import METHODS, accuracies, reference_points, spacing_for

pytest.importorskip("scipy")


def test_every_method_names_columns_that_are_read_and_an_error_of_the_book() -> None:
    """What the sheet tells people to write is what the reader understands."""
    book = load_book()
    for method in METHODS:
        assert book.si(method.error) > 0
        for columns in (method.columns_us, method.columns_metric):
            names = [name.strip() for name in columns.split(",")]
            first = {"point": "BM", "what": "ground"}
            row = ",".join(first.get(name, "5") for name in names)
            last = ",".join(
                {"point": "g1", "what": "ground"}.get(name, "" if name.startswith("back") else "5") for name in names
            )
            survey = survey_of_text("\n".join([",".join(names), row, last]))
            assert survey.points or survey.lows


def test_closer_points_give_a_narrower_band() -> None:
    """The table falls from the finest spacing to the widest, and more points stand on each row above."""
    found = accuracies(800.0, BOOK_LIKE, (0.75, 1.5, 2.5))
    assert found[0].points > found[1].points > found[2].points
    assert found[0].share < found[1].share < found[2].share


def test_luck_does_not_order_the_table() -> None:
    """Where the grid happens to fall is averaged out: no row promises a tenth more than a closer spacing above it."""
    found = accuracies(300.0, BOOK_LIKE, (1.0, 1.5, 2.0, 2.5, 3.0))
    assert all(wider.share > 0.9 * closer.share for closer, wider in pairwise(found))


def test_a_better_instrument_gives_a_narrower_band() -> None:
    """At one spacing."""
    fine, coarse = (accuracies(400.0, replace(BOOK_LIKE, instrument_error_mm=e), (1.0,))[0] for e in (1.0, 5.0))
    assert fine.share < coarse.share


def test_the_widest_spacing_that_is_good_enough_is_chosen() -> None:
    """And none where none is."""
    found = accuracies(800.0, replace(BOOK_LIKE, instrument_error_mm=1.0), (0.75, 1.5, 2.5))
    chosen = spacing_for(found[1].share, found)
    assert chosen is not None and chosen.spacing_m == 1.5
    assert spacing_for(0.0001, found) is None


def test_the_reference_ground_repeats_over_large_lawns() -> None:
    """A lawn four times as large has about four times the hollows."""
    small, large = (reference_points(side, side, 0.5) for side in (14.0, 28.0))

    def missing(points: object) -> float:
        found = cast("tuple[object, ...]", points)
        return sum(-20.0 * p.x_m - (p.height_mm or 0.0) for p in found)  # type: ignore[attr-defined]

    assert missing(large) == pytest.approx(4 * missing(small), rel=0.1)
