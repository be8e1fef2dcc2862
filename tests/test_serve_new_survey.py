"""A table of heights where it is asked how uneven the ground is, pasted or sent as a file."""

from pathlib import Path
from typing import Any

import pytest

pytest.importorskip("starlette", reason="the extra web is not installed")
pytest.importorskip("uvicorn", reason="the extra web is not installed")

from screens import PHONE, SMALL, barriers, opened, press, text_of
from served import ServedHome  # after the skips
from test_app_sent_survey import GRID
from test_export_screen import axe, browser  # noqa: F401 — fixtures
from test_serve_new_pages import home  # noqa: F401 — a fixture
from turfplan.files.reading.plan import read_plan


@pytest.mark.parametrize("sent", ["pasted", "file"])
def test_a_survey_answers_how_uneven_it_is(
    browser: Any,  # noqa: F811
    axe: str,  # noqa: F811
    home: ServedHome,  # noqa: F811
    tmp_path: Path,
    sent: str,
) -> None:
    """Its faults are told at once by their lines, what it comes to is said back, it is there again,
    and the plan is filled by it; a depth beside it is asked back; without scripts too."""
    table = tmp_path / "heights.csv"
    table.write_text(GRID, encoding="utf-8")
    with opened(browser, scripts=sent == "pasted") as page:
        page.goto(home.base + home.once())
        press(page, "This is my browser")
        for text in ("Reading, GB", "100 m2", "tall fescue"):
            page.locator("#answer").fill(text)
            press(page, "Go on")
        page.get_by_text("Surveyed heights").click()
        if sent == "pasted":
            page.locator("#survey").fill(GRID.replace("5,5,-40", "5,five,deep"))
            press(page, "Go on")
            told = text_of(page)
            assert "4/9" in told and told.count("Line 6") == 2 and "is not a number" in told
            assert page.evaluate(SMALL) == [] and barriers(page, axe) == []
            assert page.evaluate("document.documentElement.scrollWidth") == PHONE
            page.locator("#answer").fill("2 cm")
            page.locator("#survey").fill(GRID)
            press(page, "Go on")
            assert "Give a depth or a table" in text_of(page)
            page.locator("#answer").fill("")
        else:
            page.locator("#survey_file").set_input_files(table)
        press(page, "Go on")
        assert "5/9" in text_of(page)
        page.goto(f"{home.base}/new/check")
        assert "9 points over 100 m²" in " ".join(text_of(page).split())
        page.goto(f"{home.base}/new/depth")
        assert page.locator("#survey").input_value() == GRID
        press(page, "Go on")
        page.locator("#answer").fill("loam")
        press(page, "Go on")
        for _ in range(2):
            press(page, "I don't know")
        page.get_by_label("Sat", exact=True).check()
        press(page, "Go on")
        page.locator("#answer-none").check()
        press(page, "Make the plan")
        assert "The plan is made" in text_of(page), text_of(page)
    (folder,) = (home.root / "lawns").iterdir()
    plan = read_plan(folder)
    assert plan is not None and plan.fill is not None
    assert (folder / "survey.csv").read_text(encoding="utf-8") == GRID
