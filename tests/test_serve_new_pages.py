"""A new lawn from the page: a question a screen, kept as they are answered, planned at the end."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

pytest.importorskip("starlette", reason="the extra web is not installed")
pytest.importorskip("uvicorn", reason="the extra web is not installed")

from served import ServedHome, serving  # after the skips
from test_export_screen import axe, browser  # noqa: F401 — fixtures
from test_serve_pages import NARROW, SMALL, opened, press, text_of
from turfplan.files.index import opened as opened_index
from turfplan.files.reading.plan import read_plan


@pytest.fixture
def home(tmp_path: Path) -> Iterator[ServedHome]:
    """A server without any lawn."""
    made = ServedHome(tmp_path)
    with opened_index(made.index):
        pass
    with serving(made):
        yield made


def answer(page: Any, text: str) -> None:
    """Answers the question that is on the page with a text."""
    page.locator("#answer").fill(text)
    press(page, "Go on")


@pytest.mark.parametrize("scripts", [True, False])
def test_a_lawn_is_planned_from_nothing(
    browser: Any,  # noqa: F811
    axe: str,  # noqa: F811
    home: ServedHome,
    scripts: bool,
) -> None:
    """Nine questions at most, the place said back, what is not known left so; what was answered is
    there again after the browser was closed, and wrong answers are asked again.
    """
    with opened(browser, width=NARROW, scripts=scripts) as page:
        page.goto(home.base + home.once())
        press(page, "This is my browser")
        page.get_by_role("link", name="A new lawn").click()
        assert "Question 1 of 9" in text_of(page)
        answer(page, "Nowhere at all")
        assert "Question 1 of 9" in text_of(page) and page.locator("[role=alert]").count() == 1
        answer(page, "Lancaster, Pennsylvania")
        told = text_of(page)
        assert "Lancaster" in told and "the last frost there falls about" in told
        answer(page, "3 parsecs")
        assert page.locator("#answer").input_value() == "3 parsecs"
        answer(page, "4200 ft2")
        again = page.context.new_page()
        again.goto(f"{home.base}/new")
        assert "Question 3 of 9" in text_of(again)
        again.close()
        press(page, "I don't know")
        press(page, "I don't know")
        answer(page, "1 in")
        assert "only in hollows" in text_of(page)
        press(page, "Go on")
        page.get_by_label("Seed over the whole lawn").check()
        if scripts:
            assert page.evaluate("document.documentElement.scrollWidth") == NARROW
            assert page.evaluate(SMALL) == []
            page.evaluate(axe)
            found = page.evaluate("axe.run(document)")
            assert [v["id"] for v in found["violations"]] == []
        press(page, "Go on")
        page.get_by_label("Wed").check()
        press(page, "Go on")
        answer(page, "Behind the shed")
        told = text_of(page)
        assert "Is this right?" in told and "Everywhere" in told and "4200 ft2" in told
        press(page, "Make the plan")
        assert page.url == f"{home.base}/mine/1" and "Behind the shed" in text_of(page)
        page.goto(f"{home.base}/new")
        assert "Question 1 of 9" in text_of(page)
    (folder,) = (home.root / "lawns").iterdir()
    plan = read_plan(folder)
    assert plan is not None and plan.lawn.name == "Behind the shed"
    assert plan.lawn.id == plan.lawn_id == folder.name
    assert 'weekdays = ["wed", "sat", "sun"]' in (folder / "brief.toml").read_text("utf-8")


def test_a_lawn_without_anything_to_do_is_told_and_nothing_is_left(
    browser: Any,  # noqa: F811
    home: ServedHome,
) -> None:
    """Where nothing is filled hollows are not asked for; a lawn that cannot be planned is told at
    its last screen, and no folder stays.
    """
    with opened(browser, scripts=False) as page:
        page.goto(home.base + home.once())
        press(page, "This is my browser")
        page.goto(f"{home.base}/new")
        for text in ("17601", "400 m2", "tall fescue", "loam", "0 in"):
            answer(page, text)
        assert "Question 6 of 8" in text_of(page), text_of(page)
        press(page, "Go on")
        assert page.locator("[role=alert]").count() == 1
        page.get_by_label("Seed over the whole lawn").check()
        press(page, "Go on")
        press(page, "Go on")
        press(page, "Go on")
        home.refusals = ("no season is long enough",)
        press(page, "Make the plan")
        assert "No season is long enough." in text_of(page) and "tall fescue" in text_of(page)
        assert not list((home.root / "lawns").iterdir())


def test_only_the_owner_is_asked(browser: Any, home: ServedHome) -> None:  # noqa: F811
    """Others learn nothing of the questions; a question that is none is not there."""
    with opened(browser) as page:
        for path in ("/new", "/new/place", "/new/check"):
            assert page.goto(home.base + path).status == 403
        answered = page.request.post(f"{home.base}/new/place", form={"answer": "17601"})
        assert answered.status == 403
        page.goto(home.base + home.once())
        press(page, "This is my browser")
        assert page.goto(f"{home.base}/new/colour").status == 404
        assert page.goto(f"{home.base}/new/name").status == 200
        unsent = page.request.post(
            f"{home.base}/new/name", form={"answer": "x"}, headers={"origin": "https://x.example"}
        )
        assert unsent.status == 403
    assert not (home.root / "lawns").exists()
