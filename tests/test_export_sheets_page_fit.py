"""A week is set as closely as its page needs, and no closer."""

import shutil
import subprocess

import pytest

from page_plan import on, page_plan
from planning import POSSIBLE, example
from printed import checklist_html, unset, week_sheets
from turfplan.export.pdf import to_pdf
from turfplan.export.sheets.look import look_of
from turfplan.export.sheets.page_fit import (
    LARGE_SETTINGS,
    READABLE,
    Paper,
    WeekText,
    fit_of,
)

PAPERS: tuple[Paper, ...] = ("letter", "a4")
EMPTY = WeekText(jobs=(), water_labels=(), water_rule=0, water_cautions=(), ahead=())
CLOSENESS = [setting.fit for setting in READABLE]


def test_an_empty_week_is_roomy_with_lines_to_write_on() -> None:
    """Nothing to say leaves the page to notes."""
    found = fit_of(EMPTY, "a4", large=False)
    assert found.fit == "roomy" and found.note_lines > 15


@pytest.mark.parametrize("paper", PAPERS)
def test_more_to_say_is_never_set_roomier(paper: Paper) -> None:
    """Each further watering row sets the page as close as before or closer, and leaves at least one
    line for notes.
    """
    fits = []
    for rows in range(0, 60, 4):
        text = WeekText(
            jobs=(), water_labels=(50,) * rows, water_rule=60, water_cautions=(), ahead=(40,)
        )
        found = fit_of(text, paper, large=False)
        assert found.note_lines >= 1
        if found.fit == "spread":
            break
        fits.append(CLOSENESS.index(found.fit))
    assert fits == sorted(fits) and fits[-1] > 0


def test_large_print_stays_large() -> None:
    """A week too full for a page of large print goes on over the next, never in small print."""
    assert all(setting.size > 0.9 for setting in LARGE_SETTINGS)
    text = WeekText(jobs=(), water_labels=(50,) * 40, water_rule=60, water_cautions=(), ahead=())
    assert fit_of(text, "letter", large=True).fit == "spread"


@pytest.mark.parametrize("name", POSSIBLE)
def test_a_week_of_the_examples_is_one_page_but_for_the_fullest(name: str) -> None:
    """On Letter and on A4 each week has a setting that fits it; one in which a lawn is done strip
    by strip may take two pages, and none needs text smaller than 9 points.
    """
    plan = example(name)
    for paper in PAPERS:
        fits = [sheet.fit for sheet in week_sheets(plan, None, look_of(plan, paper))]
        assert set(fits) <= {"spread", *(setting.fit for setting in READABLE)}
        assert fits.count("spread") <= 5
        assert sum(fit in ("roomy", "close") for fit in fits) > 0.6 * len(fits)


def test_jobs_in_columns_stand_in_order_and_about_even() -> None:
    """The first column takes the first jobs, the second the rest; none is left out."""
    plan = example("british-metric")
    halved = [s for s in week_sheets(plan, None, look_of(plan, "letter")) if len(s.halves) == 2]
    assert halved
    for sheet in halved:
        assert sheet.halves[0] + sheet.halves[1] == sheet.jobs
        assert abs(len(sheet.halves[0]) - len(sheet.halves[1])) <= 1


@pytest.mark.parametrize("name", ["british-metric", "surveyed-us"])
def test_the_fullest_week_prints_on_one_page(name: str) -> None:
    """The page that is set closest holds its notes too, where the text is set in a sans-serif of
    usual width.
    """
    pytest.importorskip("weasyprint", reason="the extra pdf is not installed", exc_type=ImportError)
    for tool in ("pdfinfo", "fc-match"):
        if shutil.which(tool) is None:
            pytest.skip(f"{tool} is not installed")
    if "DejaVu" in subprocess.run(["fc-match", "Helvetica"], capture_output=True, text=True).stdout:
        pytest.skip("no sans-serif of usual width is installed")
    plan = example(name)
    fullest = max(
        (s for s in week_sheets(plan, None, look_of(plan, "letter")) if s.fit in CLOSENESS),
        key=lambda s: (CLOSENESS.index(s.fit), len(s.jobs)),
    )
    assert len(fullest.jobs) >= 4
    pdf = to_pdf(checklist_html(plan, fullest.first, paper="letter"), plan)
    weeks_pages = subprocess.run(
        ["pdfinfo", "-"], input=pdf, check=True, capture_output=True
    ).stdout.decode()
    maps = len(fullest.maps)
    assert int(weeks_pages.split("Pages:")[1].split()[0]) == 1 + maps


def test_a_full_week_keeps_its_cautions_and_steps_in_the_page() -> None:
    """What gives way on paper is hidden by the print style alone: the page still holds every
    word.
    """
    plan = page_plan()
    html = unset(checklist_html(plan, on(8, 14)))
    for task in plan.tasks:
        if task.id in ("core_aerate.1", "seed"):
            assert all(str(text) in html for text in (*task.how, *task.cautions, task.why))
