"""Every printed page of every example is laid out without a fault, on both papers."""

import multiprocessing
import re
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor

import pytest

from page_faults import Judged, judged, lines_of, sheets_of
from page_plan import on, page_plan
from planning import NAMES, example
from printed import book_html, checklist_html, order_html
from tiers import sampled, sampled_pairs
from told import words_of
from turfplan.export.sheets.leaves import SIZE_MM
from turfplan.export.sheets.look import Paper
from turfplan.export.sheets.measuring_sheet import LawnToMeasure, measuring_html
from turfplan.files.reading.book import load_book
from turfplan.site.survey.methods import METHODS, Accuracy, spacings_for
from turfplan.units import System

pytest.importorskip("weasyprint", reason="the extra pdf is not installed", exc_type=ImportError)

PAPERS: tuple[Paper, ...] = tuple(SIZE_MM)
KINDS = ("book", "checklist")
"""The book holds the order sheet and the delivery cards as they are printed alone."""
MOST_PAGES = 10
LEAST_POINTS = {"book": 8.5, "checklist": 8.5}
LEAST_BODY = 10.5
# The weeks of the first example, cards included; how many times as many pages large print takes,
# and how far each of them is filled but the last before another sheet.
MOST_OF_WEEKS, LARGE_TIMES, LEAST_OF_LARGE = 20, 1.8, 0.6
# So many letters a line of a book has at most.
MOST_LETTERS = 75


# Examples whose books and weeks in large print are laid out, beside those of random lawns in the
# campaign of sheets.
LARGE = (("book", "southern-hemisphere"), ("book", "surveyed-us"), ("checklist", "arid-bluegrass"))


def gaps_of(found: Judged) -> list[int]:
    """The pages that are left too empty in large print, but the last of a section."""
    return [
        page
        for page, fill in enumerate(found.fills, 1)
        if fill < LEAST_OF_LARGE and page not in found.lasts
    ]


WHOLE = ("british-metric", "cool-overseed")
"""The examples whose checklists are laid out whole; of the others every second leaf is."""
LEAF = '<section class="leaf'


def page_of(name: str, kind: str, paper: Paper) -> str:
    """One document of an example."""
    if kind == "book":
        return book_html(example(name), paper)
    html = checklist_html(example(name), paper=paper)
    if name in WHOLE:
        return html
    # The last one holds what follows the leaves: it is kept.
    head, *leaves = html.split(LEAF)
    return head + "".join(LEAF + leaf for leaf in (*leaves[:-1:2], leaves[-1]))


# One plan in US units on Letter, and one in metric on A4, stand for all in the quick tier.
QUICK = (("st-augustine-plugs", "letter"), ("southern-hemisphere", "a4"))
# Every third example on both papers, the others on one of them in turn.
ON_PAPER = [
    (name, paper)
    for number, name in enumerate(NAMES)
    for turn, paper in enumerate(PAPERS)
    if number % 3 == 0 or number % 2 == turn or (name, paper) in QUICK
]
# So few documents are laid out sooner than other processes have begun.
FEW = len(QUICK) * len(KINDS)
of_examples = pytest.mark.parametrize(("name", "paper"), sampled_pairs(ON_PAPER, *QUICK))


@pytest.fixture(scope="module")
def found(request: pytest.FixtureRequest) -> Iterator[dict[tuple[str, str, str], Judged]]:
    """The documents of the examples that this run asks for, laid out by as many processes as there
    are cores.
    """
    calls = [
        item.callspec.params
        for item in request.session.items
        if item.path == request.path and hasattr(item, "callspec")
    ]
    wanted = {(call["name"], call["paper"]) for call in calls if {"name", "paper"} <= call.keys()}
    asked = [
        (name, kind, paper) for name, paper in ON_PAPER for kind in KINDS if (name, paper) in wanted
    ]
    pages = [page_of(name, kind, paper) for name, kind, paper in asked]
    if len(asked) <= FEW:
        yield dict(zip(asked, map(judged, pages), strict=True))
        return
    with ProcessPoolExecutor(mp_context=multiprocessing.get_context("spawn")) as pool:
        yield dict(zip(asked, pool.map(judged, pages, chunksize=3), strict=True))


@pytest.mark.parametrize("kind", KINDS)
@of_examples
def test_no_page_of_an_example_has_a_fault(
    found: dict[tuple[str, str, str], Judged], name: str, kind: str, paper: Paper
) -> None:
    """No heading left behind, no row split or alone, nothing beyond the page or on other text, no
    page next to empty.
    """
    faults = found[name, kind, paper].faults
    assert faults == ()


@of_examples
def test_nothing_to_read_is_smaller_than_the_least_size(
    found: dict[tuple[str, str, str], Judged], name: str, paper: Paper
) -> None:
    """Not in the fullest week either, but the line that says when a page was made; notes of the
    book are smaller.
    """
    for kind in KINDS:
        assert found[name, kind, paper].points >= LEAST_POINTS[kind] - 0.01, kind


@of_examples
def test_a_book_has_ten_pages_at_most_beside_its_maps(
    found: dict[tuple[str, str, str], Judged], name: str, paper: Paper
) -> None:
    """On the paper of the place and on the other."""
    maps = len(re.findall('<figure class="picture">', page_of(name, "book", paper)))
    assert found[name, "book", paper].pages <= MOST_PAGES + maps


@of_examples
def test_a_leaf_is_a_page(
    found: dict[tuple[str, str, str], Judged], name: str, paper: Paper
) -> None:
    """Each leaf and each map is a page of its own; a day that is longer than a page has two."""
    html = page_of(name, "checklist", paper)
    maps = html.count('class="page map-page"')
    leaves, long = html.count(LEAF), html.count('<section class="leaf long')
    pages = found[name, "checklist", paper].pages
    assert leaves + maps <= pages <= leaves + maps + long


@of_examples
def test_what_is_read_in_the_garden_is_never_set_small(
    found: dict[tuple[str, str, str], Judged], name: str, paper: Paper
) -> None:
    """Steps, conditions, stops and what the law says: a full week takes more pages."""
    assert found[name, "checklist", paper].body >= LEAST_BODY - 0.01


@pytest.mark.full
@pytest.mark.parametrize("paper", PAPERS)
def test_the_weeks_of_the_first_example_and_their_large_print(paper: Paper) -> None:
    """Few pages, of large print not many more, and hardly one of these half empty."""
    plan = example("cool-overseed")
    plain = judged(checklist_html(plan, paper=paper))
    large = judged(checklist_html(plan, paper=paper, large=True))
    assert plain.pages <= MOST_OF_WEEKS and large.pages <= LARGE_TIMES * plain.pages
    assert gaps_of(large) == [] and large.body >= 1.6 * LEAST_BODY - 0.01


@pytest.mark.parametrize(("kind", "name"), sampled_pairs(LARGE))
def test_large_print_takes_few_more_pages_and_leaves_none_half_empty(kind: str, name: str) -> None:
    """Of books and of weeks: no more than 1.8 times as many, the last by what stands on it, and no
    gap but before another section; the lines of a book are as short in it."""
    write = book_html if kind == "book" else checklist_html
    plain, large = (judged(write(example(name), large=large)) for large in (False, True))
    assert large.faults == ()
    assert large.pages - 1 + large.fills[-1] <= LARGE_TIMES * plain.pages
    assert gaps_of(large) == []
    assert kind != "book" or len(large.longest) <= MOST_LETTERS


@of_examples
def test_lines_of_a_book_are_short(
    found: dict[tuple[str, str, str], Judged], name: str, paper: Paper
) -> None:
    """In each paragraph, entry and cell, on the paper of the place and on the other."""
    longest = found[name, "book", paper].longest
    assert len(longest) <= MOST_LETTERS, longest


@pytest.mark.parametrize(
    ("style", "least", "most"), [("width: 40em", 55, 100), ("columns: 2", 25, 45)]
)
def test_lines_are_measured_within_their_column(style: str, least: int, most: int) -> None:
    """A line of one column is the longer, and two columns side by side are no line."""
    text = "word <b>another</b> " * 80
    page = (
        f"<style>@page {{ size: 160mm 200mm }}</style><p style='font-size: 8pt; {style}'>{text}</p>"
    )
    lines = [line.strip() for line in lines_of(sheets_of(page))]
    assert " ".join(lines).split() == text.replace("<b>", "").replace("</b>", "").split()
    assert least < max(map(len, lines)) < most


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("system", System)
def test_the_measuring_sheet_is_without_a_fault(system: System, paper: Paper) -> None:
    """How close and which way on the first page, then a page or two for each method."""
    book, spacings = load_book(), spacings_for(300.0, us=system is System.US)
    table = tuple(Accuracy(spacing, 300, 0.4) for spacing in spacings)
    errors = {m.error: book.si(m.error) for m in METHODS}
    seen = judged(
        measuring_html(words_of(system), errors, table, spacings, LawnToMeasure(300.0), paper)
    )
    assert seen.faults == () and len(METHODS) + 1 <= seen.pages <= len(METHODS) + 2


@pytest.mark.parametrize("kind", sampled(["book", "checklist", "order"], "order"))
def test_large_print_has_no_fault_either(kind: str) -> None:
    """Its weeks and entries may go on over the page; nothing is left behind or alone there."""
    plan = example("cool-overseed")
    write = {"book": book_html, "order": order_html}.get(kind)
    html = checklist_html(plan, large=True) if write is None else write(plan, large=True)
    seen = judged(html)
    assert seen.faults == () and seen.points >= 11


MUTATIONS = {
    "a heading that lets its text go": (".leaf .job .top { break-after: page; }", "left behind"),
    "a table wider than the page": (".strip { width: 140%; }", "beyond the page"),
    "a heading on the words of its job": (".leaf .job .beside { margin-top: -2em; }", "' on '"),
    "a last line on a page of its own": (".leaf .colophon { break-before: page; }", "filled to"),
}


@pytest.mark.parametrize("mutation", sampled(MUTATIONS, *[*MUTATIONS][::3]))
def test_a_worse_stylesheet_is_found_out(mutation: str) -> None:
    """The week is without a fault, and has the one that a change of its style brings."""
    rule, words = MUTATIONS[mutation]
    html = checklist_html(page_plan(), on(8, 14))
    assert judged(html).faults == ()
    assert any(
        words in fault for fault in judged(html.replace("</style>", f"{rule}</style>", 1)).faults
    )


TABLE = (
    "<style>@page {{ size: 100mm 60mm; margin: 10mm }} "
    "body {{ margin: 0; font: 10pt/5mm sans-serif }} {style}</style>\n"
    '<h1 style="margin: 0; font-size: 10pt">Table</h1>'
    "<table><thead><tr><th>A</th><th>B</th></tr></thead><tbody>{rows}</tbody></table>"
)


@pytest.mark.parametrize(
    ("count", "lines", "style", "words"),
    [
        (4, 1, "", None),
        (5, 1, "", "one row of a table alone"),
        (5, 1, "tbody tr:nth-last-child(-n + 3):not(:last-child) { break-after: avoid }", None),
        (3, 3, "", "a table row goes on over the page"),
        (4, 2, "tr { break-inside: avoid }", None),
    ],
)
def test_rows_alone_and_rows_in_two_are_found(
    count: int, lines: int, style: str, words: str | None
) -> None:
    """A table of small rows on a small page, with and without the rules that keep its rows."""
    row = "<tr><td>" + "word<br>" * (lines - 1) + "word</td><td>x</td></tr>"
    faults = judged(TABLE.format(style=style, rows=row * count)).faults
    assert faults == () if words is None else any(words in fault for fault in faults)


def test_smaller_text_is_found() -> None:
    """A week whose cautions are set at three quarters."""
    html = checklist_html(page_plan(), on(8, 14))
    assert judged(html).points >= LEAST_POINTS["checklist"] - 0.01
    assert (
        judged(html.replace("</style>", ".law { font-size: 0.5em !important; }</style>", 1)).points
        < 8
    )


@pytest.mark.parametrize(("filler", "left"), [("20mm", False), ("42mm", True)])
def test_rows_to_write_in_are_what_follows_a_heading(filler: str, left: bool) -> None:
    """They hold no word: a heading over them is left behind where they begin on the next page, and
    a page is as full as they reach down."""
    row = '<tr class="to-write"><th>&#160;</th><td></td></tr>'
    page = (
        "<style>@page { size: 100mm 60mm; margin: 5mm } table { border-spacing: 0 }"
        " body { margin: 0; font: 10pt/5mm sans-serif } tr { break-inside: avoid }"
        " h2 { margin: 0; font: inherit; break-after: auto }"
        " th, td { padding: 0; height: 5mm }</style>"
        f'<p style="margin: 0; height: {filler}">Before</p><h2>What I did</h2>'
        '<table class="record-table"><thead><tr><th>Days</th><th>Work</th></tr></thead>'
        f"<tbody>{row * 3}</tbody></table>"
    )
    seen = judged(page)
    assert any("left behind" in fault for fault in seen.faults) == left
    assert len(seen.fills) == 1 + left
    down_mm = 4 * 5 if left else 20 + 5 + 4 * 5
    assert seen.fills[-1] == pytest.approx(down_mm / 50, abs=0.05)
