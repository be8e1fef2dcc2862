"""Pages on a screen: no barrier that a checker finds, nothing cut off on a narrow one, valid
HTML.
"""

import os
import re
import shutil
import subprocess
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from page_plan import page_plan
from planning import NAMES, example
from printed import book_html, changes_html, checklist_html, order_html, water_html
from tiers import full, sampled, sampled_pairs
from told import words_of
from turfplan.export.sheets.look import look_of
from turfplan.export.sheets.measuring_sheet import LawnToMeasure, measuring_html
from turfplan.export.templates import stylesheet
from turfplan.files.reading.book import load_book
from turfplan.site.survey.methods import METHODS, Accuracy

WRITERS = {
    "checklist": checklist_html,
    "order": order_html,
    "book": book_html,
    "changes": changes_html,
    "water": water_html,
}
MODES = (("light", "screen"), ("dark", "screen"), ("light", "print"))
# The example with a survey shows every kind of table, chart, map and caution that there is.
FULLEST = "surveyed-us"
CHROMIUM = "/usr/bin/chromium"
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


@pytest.fixture(scope="module")
def page_file(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], Path]:
    """Every kind of page as a file, each written when it is first asked for."""
    folder = tmp_path_factory.mktemp("pages")

    @cache
    def written(name: str) -> Path:
        fullest, kind = name.startswith(FULLEST), name.removeprefix(f"{FULLEST}-")
        path = folder / f"{name}.html"
        text = WRITERS[kind](example(FULLEST) if fullest else page_plan())
        path.write_text(text, encoding="utf-8")
        return path

    return written


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    """A browser without a window."""
    api = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
    if not Path(CHROMIUM).exists():
        pytest.skip(f"{CHROMIUM} is not installed")
    with api.sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield opened
        opened.close()


@pytest.fixture(scope="module")
def axe() -> str:
    """The accessibility checker's script: the npm registry's where it is installed, which is newer,
    else Python's.
    """
    for folder in os.environ.get("NODE_PATH", "").split(os.pathsep):
        script = Path(folder) / "axe-core" / "axe.min.js"
        if folder and script.is_file():
            return script.read_text(encoding="utf-8")
    resources = pytest.importorskip("axe_core_python", reason="axe-core-python is not installed")
    return (Path(resources.__file__).parent / "axe.min.js").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", sampled(WRITERS, "checklist"))
@pytest.mark.parametrize(("scheme", "medium"), sampled_pairs(MODES, *MODES[:1]))
def test_the_checker_finds_no_barrier(
    browser: Any, axe: str, page_file: Callable[[str], Path], name: str, scheme: str, medium: str
) -> None:
    """Contrast, names, order and roles hold in light, dark and print."""
    page = browser.new_page()
    page.emulate_media(media=medium, color_scheme=scheme)
    page.goto(page_file(name).as_uri())
    page.evaluate(axe)
    found = page.evaluate("axe.run(document)")
    page.close()
    assert [(v["id"], v["nodes"][0]["html"]) for v in found["violations"]] == []
    assert len(found["passes"]) > 10


SHEETS = ("checklist", "book", "order", "measure")
# One measuring sheet in US units and one in metric: of the others only the area is another.
MEASURED = ("cool-overseed", "british-metric")
# Sheets of one kind share their template: each example shows one of the three, the fullest all.
SHEETS_OF_EXAMPLES = [
    (name, sheet)
    for number, name in enumerate(NAMES)
    for sheet in SHEETS
    if (name in MEASURED if sheet == "measure" else name == FULLEST or sheet == SHEETS[number % 3])
]


@pytest.mark.parametrize(
    ("name", "sheet"),
    sampled_pairs(SHEETS_OF_EXAMPLES, (FULLEST, "order"), ("cool-overseed", "measure")),
)
def test_the_checker_finds_no_barrier_in_any_example(
    browser: Any, axe: str, tmp_path: Path, name: str, sheet: str
) -> None:
    """A sheet of every example, on screen, in the dark and as printed in turn.

    Contrast is a matter of the style sheet, which all examples share: it is left to the test before
    and to those of the colours.
    """
    scheme, medium = MODES[(NAMES.index(name) + SHEETS.index(sheet)) % len(MODES)]
    path = tmp_path / "sheet.html"
    path.write_text(
        measure_page(name) if sheet == "measure" else WRITERS[sheet](example(name)),
        encoding="utf-8",
    )
    page = browser.new_page()
    page.emulate_media(media=medium, color_scheme=scheme)
    page.goto(path.as_uri())
    page.evaluate(axe)
    found = page.evaluate("axe.run({rules: {'color-contrast': {enabled: false}}})")
    page.close()
    assert [(v["id"], v["nodes"][0]["html"]) for v in found["violations"]] == []
    assert len(found["passes"]) > 10


def measure_page(name: str) -> str:
    """The measuring sheet of an example's lawn, without its slow table of accuracy."""
    plan, book = example(name), load_book()
    errors = {method.error: book.si(method.error) for method in METHODS}
    return measuring_html(
        words_of(plan.lawn.units),
        errors,
        (Accuracy(1.0, 330, 0.4),),
        (1.0, 2.0, 4.0),
        LawnToMeasure(plan.lawn.area_m2),
        look_of(plan).paper,
    )


def rgb(text: str) -> tuple[float, float, float]:
    """A colour of the stylesheet, each part 0 to 1."""
    red, green, blue = (int(text[n : n + 2], 16) / 255 for n in (1, 3, 5))
    return red, green, blue


def luminance(colour: tuple[float, float, float]) -> float:
    """Relative luminance as the accessibility guidelines define it."""
    linear = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in colour)
    return sum(weight * part for weight, part in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def as_grey(text: str) -> tuple[float, float, float]:
    """A colour as a grey printer sees it: the luma of television, on the values as they are
    stored.
    """
    grey = sum(weight * part for weight, part in zip((0.299, 0.587, 0.114), rgb(text), strict=True))
    return grey, grey, grey


def ratio(ink: str, paper: str) -> float:
    """The contrast of two colours once both are grey."""
    light, dark = sorted((luminance(as_grey(ink)), luminance(as_grey(paper))), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_colours_of_text_stand_out_in_grey() -> None:
    """Printed in grey, every colour that text is set in keeps 4.5 to 1 against paper and tint."""
    root = stylesheet().split("@media")[0]
    colours = dict(re.findall(r"--([a-z]+): (#[0-9a-f]{6});", root))
    for name in ("ink", "quiet", "clay", "moss", "water"):
        for ground in ("paper", "tint"):
            assert ratio(colours[name], colours[ground]) >= 4.5, (name, ground)
    assert ratio("#9aa09c", colours["paper"]) < 4.5


@pytest.mark.parametrize("name", sampled(NAMES, "cool-overseed"))
def test_a_browser_prints_every_example_as_the_tool_does(
    browser: Any, tmp_path: Path, name: str
) -> None:
    """A leaf a page and a map a page, from the browser too; a long day has two."""
    if shutil.which("pdfinfo") is None:
        pytest.skip("pdfinfo is not installed")
    plan = example(name)
    html = checklist_html(plan)
    path = tmp_path / "checklist.html"
    path.write_text(html, encoding="utf-8")
    page = browser.new_page()
    page.goto(path.as_uri())
    page.pdf(path=str(tmp_path / "printed.pdf"), prefer_css_page_size=True)
    page.close()
    info = subprocess.run(
        ["pdfinfo", str(tmp_path / "printed.pdf")], check=True, capture_output=True, text=True
    ).stdout
    two = html.count('<section class="leaf long')
    pages = len(re.findall('<section class="(?:leaf|page)', html))
    assert pages <= int(info.split("Pages:")[1].split()[0]) <= pages + two


@pytest.mark.parametrize(
    "name", sampled([*WRITERS, *(f"{FULLEST}-{name}" for name in WRITERS)], "checklist", "book")
)
def test_a_narrow_screen_needs_no_sideways_scrolling(
    browser: Any, page_file: Callable[[str], Path], name: str
) -> None:
    """At 320 px the page is as wide as the screen; only tables and charts scroll, inside a frame
    that takes the keyboard.
    """
    page = browser.new_page(viewport={"width": 320, "height": 700})
    page.goto(page_file(name).as_uri())
    assert page.evaluate("document.documentElement.scrollWidth") == 320
    wide = page.evaluate(
        "[...document.querySelectorAll('table, svg.chart')]"
        ".filter(e => e.getBoundingClientRect().right > 321)"
        ".filter(e => !e.closest('.scroll[tabindex=\"0\"][aria-label]')).length"
    )
    page.close()
    assert wide == 0


def test_pages_work_without_scripts_and_ask_for_nothing(
    browser: Any, page_file: Callable[[str], Path]
) -> None:
    """With JavaScript off the same text is there, and no request leaves the file."""
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(page_file("book").as_uri())
    assert "Why these days" in page.inner_text("body")
    context.close()
    assert [url for url in asked if not url.startswith(("file:", "data:"))] == []


def test_the_keyboard_reaches_the_skip_link_first(
    browser: Any, page_file: Callable[[str], Path]
) -> None:
    """The first stop of the Tab key jumps over the navigation and can be seen."""
    page = browser.new_page()
    page.goto(page_file("checklist").as_uri())
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == "Skip to the weeks"
    assert page.evaluate("document.activeElement.getBoundingClientRect().left") >= 0
    page.keyboard.press("Enter")
    assert page.evaluate("location.hash") == "#main"
    page.close()


def test_a_browser_prints_one_page_for_a_leaf(
    browser: Any, page_file: Callable[[str], Path], tmp_path: Path
) -> None:
    """Printed from the browser the checklist has the pages that the PDF has, whatever it has hidden
    on the screen."""
    if shutil.which("pdfinfo") is None:
        pytest.skip("pdfinfo is not installed")
    page = browser.new_page()
    page.goto(page_file("checklist").as_uri())
    page.pdf(path=str(tmp_path / "printed.pdf"), prefer_css_page_size=True)
    page.close()
    info = subprocess.run(
        ["pdfinfo", str(tmp_path / "printed.pdf")], check=True, capture_output=True, text=True
    ).stdout
    leaves = checklist_html(page_plan()).count('<section class="leaf')
    assert "612 x 792 pts (letter)" in info
    assert int(info.split("Pages:")[1].split()[0]) == leaves


def test_boxes_tick_in_the_file_where_the_device_keeps_them(
    browser: Any, page_file: Callable[[str], Path]
) -> None:
    """A tick is there again when the page is opened again, is 48 px wide, and is said to be on this
    device only; without scripts boxes are drawn, and nothing is said."""
    context = browser.new_context(viewport={"width": 320, "height": 700})
    page = context.new_page()
    for ticked in ("false", "true"):
        page.goto(page_file("checklist").as_uri())
        box = page.locator(".job h3 .box").last
        assert box.get_attribute("aria-checked") == ticked
        assert page.evaluate(
            "[...document.querySelectorAll('.box[role=checkbox]')].every(b => "
            "parseFloat(getComputedStyle(b, '::before').width) >= 48)"
        )
        box.dispatch_event("click")
    assert "on this device only" in page.inner_text("nav")
    context.close()
    drawn = browser.new_context(java_script_enabled=False)
    page = drawn.new_page()
    page.goto(page_file("checklist").as_uri())
    assert page.locator("[role=checkbox]").count() == 0
    assert "on this device only" not in page.inner_text("body")
    drawn.close()


@full
def test_the_validator_finds_nothing(tmp_path: Path) -> None:
    """html-validate's recommended rules hold on every page of every example, in large print too."""
    tool = shutil.which("html-validate")
    if tool is None:
        pytest.skip("html-validate is not installed")
    for plan_name in NAMES:
        plan = example(plan_name)
        for name, write in WRITERS.items():
            (tmp_path / f"{plan_name}-{name}.html").write_text(write(plan), encoding="utf-8")
        (tmp_path / f"{plan_name}-large.html").write_text(
            checklist_html(plan, large=True), encoding="utf-8"
        )
    files = [str(path) for path in sorted(tmp_path.iterdir())]
    checked = subprocess.run([tool, *files], capture_output=True, text=True)
    assert checked.returncode == 0, checked.stdout


def test_no_word_of_a_table_head_is_broken_on_a_telephone(
    browser: Any, page_file: Callable[[str], Path]
) -> None:
    """At 375 px each word above a column, as Mon or Watering, stands whole and inside its cell."""
    page = browser.new_page(viewport={"width": 375, "height": 800})
    broken = []
    for name in ("book", "checklist"):
        page.goto(page_file(name).as_uri())
        broken += page.evaluate(
            """[...document.querySelectorAll('thead:not(.unseen) th')].filter(cell => {
              const range = document.createRange()
              const walker = document.createTreeWalker(cell, NodeFilter.SHOW_TEXT)
              for (let node; (node = walker.nextNode());)
                for (const found of node.data.matchAll(/\\S+/g)) {
                  range.setStart(node, found.index)
                  range.setEnd(node, found.index + found[0].length)
                  const lines = new Set([...range.getClientRects()].map(r => Math.round(r.top)))
                  const [inner, outer] = [range, cell].map(e => e.getBoundingClientRect().right)
                  if (lines.size > 1 || inner > outer + 1)
                    return true
                }
              return false
            }).map(cell => cell.textContent)"""
        )
    page.close()
    assert broken == []


BOXED = re.compile(r'<word xMin="([\d.-]+)" yMin="[\d.-]+" xMax="([\d.-]+)"')


@full
@pytest.mark.parametrize(("name", "mm"), [("cool-overseed", 6.0), ("british-metric", 19.0)])
def test_a_page_prints_whole_within_the_margins_of_a_telephone(
    browser: Any, tmp_path: Path, name: str, mm: float
) -> None:
    """A browser that gives a page margins of its own, narrow or wide: each word lies within them,
    on few pages more, on both papers."""
    if shutil.which("pdftotext") is None:
        pytest.skip("pdftotext is not installed")
    html = checklist_html(example(name))
    given = re.sub(r"(@page[^{]*\{) *margin: [^;]*;", rf"\1 margin: {mm}mm;", html)
    page = browser.new_page()
    page.set_content(given)
    page.pdf(path=tmp_path / "printed.pdf", prefer_css_page_size=True)
    page.close()
    call = ["pdftotext", "-bbox", str(tmp_path / "printed.pdf"), "-"]
    told = subprocess.run(call, capture_output=True, text=True, check=True).stdout
    sheets = re.findall(r'<page width="([\d.]+)"[^>]*>(.*?)</page>', told, re.DOTALL)
    leaves = html.count('<section class="leaf')
    assert leaves <= len(sheets) <= leaves * 1.3
    margin = mm / 25.4 * 72 - 3
    for width, words in sheets:
        ends = [(float(start), float(end)) for start, end in BOXED.findall(words)]
        assert ends and min(start for start, _ in ends) >= margin
        assert max(end for _, end in ends) <= float(width) - margin
