"""The office page as people use it: in a real browser, on a telephone and at a desk, with and
without scripts."""

from collections.abc import Iterator
from datetime import date
from typing import Any

import pytest

pytest.importorskip("starlette", reason="the extra web is not installed")
pytest.importorskip("uvicorn", reason="the extra web is not installed")

from office_business import CREW, OFFICE, OfficeHome, two_crews  # after the skips
from screens import DESK, NARROW, PHONE, SMALL, barriers, opened, press, text_of
from served import serving
from test_export_screen import axe, browser  # noqa: F401 — fixtures
from tiers import full
from turfplan.app import password_hash as hashing
from turfplan.app.client_callbacks import AskedCallback, add_callback
from turfplan.app.client_pauses import AskedPause, pause_clients
from turfplan.app.client_quotes import offer_quote

SOIL_TEST = date(2027, 3, 1)
OF_OFFICE = ("/office", "/office?show=today", "/office?q=ash", "/office?q=qqq", "/office/lawns/ash",
             "/office?show=all", "/office/lawns/elm", "/password", "/mine/1",
             "/mine/1/calendar")  # fmt: skip
OF_CREW = ("/crew", "/crew/lawns/ash", "/crew/lawns/ash/did", "/crew/lawns/elm", "/office")
# Each page in light and dark, of three widths, once without scripts.
LOOKS = ((NARROW, "light", True), (PHONE, "dark", False), (DESK, "dark", True))


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    """An office that is served on the day of a soil test."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(hashing, "COST_LOG2", 4)
        made = OfficeHome(two_crews(tmp_path_factory.mktemp("pages")), SOIL_TEST)
        offer_quote(made.data, "ash", date(2027, 2, 5))
        asked = AskedCallback("bare spot (invented)", SOIL_TEST, 0.5)
        add_callback(made.data, "ash", asked, SOIL_TEST)
        pause_clients(made.data, (made.data / "lawns" / "elm",), AskedPause(SOIL_TEST), SOIL_TEST)
        with serving(made):  # type: ignore[arg-type]
            yield made


def enter(page: Any, home: Any, who: tuple[str, str]) -> None:
    """Signs in as a person does."""
    page.goto(f"{home.base}/sign-in")
    page.get_by_label("Name").fill(who[0])
    page.get_by_label("Password").fill(who[1])
    press(page, "Sign in")


@full
@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize(("who", "places"), [(OFFICE, OF_OFFICE), (CREW, OF_CREW)])
def test_every_page_opens_without_barriers(
    browser: Any,  # noqa: F811
    axe: str,  # noqa: F811
    home: Any,
    who: tuple[str, str],
    places: tuple[str, ...],
    look: tuple[int, str, bool],
) -> None:
    """No barrier that a checker finds, nothing cut off sideways, nothing too small for a thumb, no
    fault of a script, no request to another host."""
    width, scheme, scripts = look
    with opened(browser, width=width, scheme=scheme, scripts=scripts) as page:
        asked: list[str] = []
        faults: list[str] = []
        page.on("request", lambda request: asked.append(request.url))
        page.on("pageerror", lambda error: faults.append(str(error)))
        enter(page, home, who)
        for place in places:
            page.goto(home.base + place)
            for part in page.locator("summary").all():
                part.click()
            assert page.evaluate("document.documentElement.scrollWidth") == width, place
            assert page.evaluate(SMALL) == [], place
            if scripts:
                assert barriers(page, axe) == [], place
        assert faults == []
        assert [url for url in asked if not url.startswith((home.base, "data:"))] == []


def test_a_morning_at_the_office_and_on_a_telephone(browser: Any, home: Any) -> None:  # noqa: F811
    """The office finds a lawn and sees what there is to decide; the crew opens its lawn with the
    way in, ticks, and signs out, after which nothing opens."""
    with opened(browser, width=DESK) as page:
        enter(page, home, OFFICE)
        assert "Mon, Mar 1, 2027" in text_of(page)
        page.get_by_label("Find a lawn").fill("marked lane")
        press(page, "Find")
        assert "1 lawn with" in text_of(page)
        page.get_by_role("link", name="Ash (invented)").click()
        told = text_of(page)
        assert "is unanswered and holds until" in told and "gate code 4711" in told
    with opened(browser, scripts=False) as page:
        enter(page, home, CREW)
        assert "gate code 4711" in text_of(page) and "9911" not in text_of(page)
        page.get_by_role("link", name="Jobs and ticks").click()
        press(page, "Done as planned")
        assert "Written by Bo." in text_of(page)
        page.get_by_role("link", name="Today’s lawns").click()
        press(page, "Sign out")
        page.goto(f"{home.base}/crew/lawns/ash")
        assert page.url.endswith("/sign-in?next=%2Fcrew%2Flawns%2Fash")
        assert "4711" not in text_of(page)
