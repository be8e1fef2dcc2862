"""Every printed page of every example is laid out without a fault, on both papers."""

import multiprocessing
import re
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor

import pytest

from page_faults import Judged, judged
from page_plan import on, page_plan
from planning import NAMES, example
from printed import book_html, checklist_html, order_html, week_sheets
from tiers import sampled, sampled_pairs
from told import words_of
from turfplan.export.sheets.look import look_of
from turfplan.export.sheets.measuring_sheet import measuring_html
from turfplan.export.sheets.page_fit import SIZE_MM, Paper
from turfplan.files.reading.book import load_book
from turfplan.site.survey.methods import METHODS, Accuracy
from turfplan.units import System

pytest.importorskip("weasyprint", reason="the extra pdf is not installed", exc_type=ImportError)

PAPERS: tuple[Paper, ...] = tuple(SIZE_MM)
KINDS = ("book", "checklist")
"""The book holds the order sheet and the delivery cards as they are printed alone."""
LEAST_POINTS = 9.0


WHOLE = ("british-metric", "cool-overseed")
"""The examples whose checklists are laid out with every week; of the others those that are set
closer than usual.
"""
ROOMY_WEEK = re.compile(
    r'<section class="week fit-roomy".*?</section>\s*(?=<section class="(?:week|page)|</main>)',
    re.DOTALL,
)


def page_of(name: str, kind: str, paper: Paper) -> str:
    """One document of an example."""
    if kind == "book":
        return book_html(example(name), paper)
    html = checklist_html(example(name), paper=paper)
    return html if name in WHOLE else ROOMY_WEEK.sub("", html)


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
    wanted = {(call["name"], call["paper"]) for call in calls if "name" in call}
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
def test_nothing_to_read_is_smaller_than_nine_points(
    found: dict[tuple[str, str, str], Judged], name: str, paper: Paper
) -> None:
    """Not in the fullest week either; only the line that says when a page was made."""
    for kind in KINDS:
        assert found[name, kind, paper].points >= LEAST_POINTS - 0.01, kind


@of_examples
def test_a_checklist_has_a_page_for_each_week_and_each_map(
    found: dict[tuple[str, str, str], Judged], name: str, paper: Paper
) -> None:
    """One page a week, on the paper of the place and on the other.

    A week that no setting is sure to hold on one page may have two.
    """
    plan = example(name)
    weeks = [
        w
        for w in week_sheets(plan, None, look_of(plan, paper))
        if name in WHOLE or w.fit != "roomy"
    ]
    maps = len(re.findall('class="page map-page"', page_of(name, "checklist", paper)))
    full = sum(week.fit == "spread" for week in weeks)
    pages = found[name, "checklist", paper].pages
    assert max(1, len(weeks) + maps) <= pages <= max(1, len(weeks) + full + maps)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("system", System)
def test_the_measuring_sheet_is_two_pages_without_a_fault(system: System, paper: Paper) -> None:
    """How to measure on the first, the readings on the second."""
    book = load_book()
    table = tuple(Accuracy(spacing, 300, 0.4) for spacing in (0.75, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0))
    seen = judged(
        measuring_html(
            words_of(system), {m.error: book.si(m.error) for m in METHODS}, table, 300.0, paper
        )
    )
    assert seen.faults == () and seen.pages == 2


@pytest.mark.parametrize("kind", sampled(["book", "checklist", "order"], "order"))
def test_large_print_has_no_fault_either(kind: str) -> None:
    """Its weeks and entries may go on over the page; nothing is left behind or alone there."""
    plan = example("cool-overseed")
    write = {"book": book_html, "order": order_html}.get(kind)
    html = checklist_html(plan, large=True) if write is None else write(plan, large=True)
    seen = judged(html)
    assert seen.faults == () and seen.points >= 11


MUTATIONS = {
    "a heading that lets its text go": (".job h3 { break-after: page; }", "left behind"),
    "a table wider than the page": (".days { width: 140%; }", "beyond the page"),
    "a heading on the words of its job": (".facts { margin-top: -1.4em; }", "' on '"),
    "a last line on a page of its own": (".colophon { break-before: page; }", "filled to"),
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
    assert judged(html).points >= LEAST_POINTS - 0.01
    assert (
        judged(
            html.replace("</style>", ".caution { font-size: 0.75em !important; }</style>", 1)
        ).points
        < 8
    )
