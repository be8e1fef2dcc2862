"""What a bag brings that the lawn should not have."""

from told import all_told
from turfplan.files.reading.book import load_book
from turfplan.message import Quantity
from turfplan.phrases import feeding as phrases
from turfplan.work.feeding.bag import product_cautions

BOOK = load_book()
MOST = BOOK.si("feeding.single_max")


def cautions(rate_g_m2: float, analysis: str = "20-0-5", **given: float) -> int:
    """How many there are of a bag that is slow enough."""
    found = product_cautions(rate_g_m2, analysis, BOOK, slow_release_percent=100.0, **given)
    assert len(all_told(found)) == len(found)
    return len(found)


def test_what_is_just_allowed_is_not_warned_of() -> None:
    """The most of one feeding is allowed, a hundredth more is not; it is so with what the law
    lets be quick.
    """
    assert (cautions(MOST), cautions(MOST * 1.01)) == (0, 1)
    quick = product_cautions(2.0, "20-0-5", BOOK, slow_release_percent=50.0, soluble_cap_g_m2=1.0)
    more = product_cautions(2.1, "20-0-5", BOOK, slow_release_percent=50.0, soluble_cap_g_m2=1.0)
    assert len(more) == len(quick) + 1


def test_phosphorus_without_need_is_told() -> None:
    """Not where it is wanted."""
    assert cautions(MOST, "20-5-5") == 1
    assert cautions(MOST, "20-5-5", phosphorus_short=True) == 0


def test_nitrogen_of_which_nobody_knows_counts_as_quick() -> None:
    """A bag that names no slow release is held to the law with all that it brings."""
    told = phrases.bag_quick(rate=Quantity(2.0, "rate"))
    for unknown in (None, 0.0):
        found = product_cautions(
            2.0, "20-0-5", BOOK, slow_release_percent=unknown, soluble_cap_g_m2=1.99
        )
        assert told in found
        assert told not in product_cautions(
            2.0, "20-0-5", BOOK, slow_release_percent=unknown, soluble_cap_g_m2=2.0
        )
