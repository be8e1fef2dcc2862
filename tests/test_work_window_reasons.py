"""The number of a condition between cool and hot summers."""

import pytest

from turfplan.files.reading.book import load_book
from turfplan.work.window_reasons import blended

BOOK = load_book()


@pytest.mark.parametrize("summer", [0.0, 0.25, 0.5, 1.0])
def test_a_condition_lies_between_its_ends_as_the_summer_does(summer: float) -> None:
    """Cool summers have the number of cool ones, hot ones their own, a quarter of the way is a
    quarter of the way; a condition without a cool number is the same everywhere.
    """
    cool, hot = "windows.cool_summer", "feeding.least_soil"
    ends = BOOK.si("windows.cool_summer"), BOOK.si("feeding.least_soil")
    assert ends[0] != ends[1]
    found = blended(BOOK, "tall_fescue", hot, cool, summer)  # type: ignore[arg-type]
    assert found == pytest.approx(ends[0] * (1 - summer) + ends[1] * summer)
    assert blended(BOOK, "tall_fescue", hot, None, summer) == ends[1]  # type: ignore[arg-type]
