"""A new lawn from the page: a question a screen, kept as they are answered, planned at the end."""

import json
import re
import tomllib
from collections.abc import Iterator, Sequence
from datetime import date
from html import unescape
from pathlib import Path
from typing import Any

import pytest

pytest.importorskip("starlette", reason="the extra web is not installed")
pytest.importorskip("uvicorn", reason="the extra web is not installed")

from command import run
from machine import free_port
from screens import DESK, NARROW, PHONE, SMALL, barriers, opened, press, text_of
from served import ServedHome, serving  # after the skips
from test_export_screen import axe, browser  # noqa: F401 — fixtures
from tiers import full
from turfplan.app.brief_questions import SCREENS, brief_text
from turfplan.files.index import opened as opened_index
from turfplan.files.reading.plan import read_plan
from turfplan.serve.ways_out import NotPlanned, WayOut


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
        assert "1/9" in text_of(page)
        answer(page, "Nowhere at all")
        assert "1/9" in text_of(page) and page.locator("[role=alert]").count() == 1
        answer(page, "Lancaster, Pennsylvania")
        told = text_of(page)
        assert "Lancaster" in told and "last frost about" in told
        answer(page, "3 parsecs")
        assert page.locator("#answer").input_value() == "3 parsecs"
        answer(page, "4200 ft2")
        again = page.context.new_page()
        again.goto(f"{home.base}/new")
        assert "3/9" in text_of(again)
        again.close()
        page.get_by_text("Look at it").click()
        if scripts:
            assert page.evaluate(SMALL) == [] and barriers(page, axe) == []
        page.get_by_label("I don't know: Kentucky bluegrass").check()
        page.get_by_label("Patchy").check()
        press(page, "Go on")
        assert not page.get_by_label("Only in hollows").is_visible()
        page.locator("#answer").fill("1 in")
        page.get_by_label("Only in hollows").check()
        page.get_by_label("How much lies in hollows").select_option("0.2")
        page.get_by_label("Why?").select_option("moles")
        if scripts:
            assert page.evaluate(SMALL) == [] and barriers(page, axe) == []
        press(page, "Go on")
        press(page, "I don't know")
        page.get_by_label("Sprinklers in the ground").check()
        page.get_by_label("Rotor: one jet that turns").check()
        press(page, "Go on")
        page.get_by_label("On leaves of weeds").check()
        page.get_by_label("When, last?").select_option("2026-09")
        page.get_by_label("Active ingredient").fill("2,4-D")
        if scripts:
            assert page.evaluate("document.documentElement.scrollWidth") == NARROW
            assert page.evaluate(SMALL) == [] and barriers(page, axe) == []
        press(page, "Go on")
        for day in ("Wed", "Sat", "Sun"):
            page.get_by_label(day, exact=True).check()
        page.get_by_label("2", exact=True).check()
        press(page, "Go on")
        page.get_by_label("Seed over the whole lawn").check()
        if scripts:
            assert page.evaluate("document.documentElement.scrollWidth") == NARROW
            assert page.evaluate(SMALL) == []
            assert barriers(page, axe) == []
        press(page, "See my answers")
        page.get_by_text("More", exact=True).click()
        page.get_by_role("link", name="Lawn", exact=True).click()
        answer(page, "Behind the shed")
        if scripts:
            assert page.evaluate(SMALL) == [] and barriers(page, axe) == []
        told = text_of(page)
        assert "Is this right?" in told and "Only in hollows, 20" in told
        assert "4200 ft2" in told and "2,4-D" in told and "Rotor" in told
        press(page, "Make the plan")
        assert page.url == f"{home.base}/mine/1/made" and "The plan is made" in text_of(page)
        if scripts:
            assert page.evaluate(SMALL) == [] and barriers(page, axe) == []
        page.get_by_role("link", name="See the plan").click()
        assert page.url == f"{home.base}/mine/1" and "Behind the shed" in text_of(page)
        page.goto(f"{home.base}/new")
        assert "1/9" in text_of(page)
    (folder,) = (home.root / "lawns").iterdir()
    plan = read_plan(folder)
    assert plan is not None and plan.lawn.name == "Behind the shed"
    assert plan.lawn.id == plan.lawn_id == folder.name
    brief = tomllib.loads((folder / "brief.toml").read_text("utf-8"))
    assert brief["calendar"]["weekdays"] == ["wed", "sat", "sun"] and brief["work"]["people"] == 2
    assert brief["water"] == {"possible": True, "timer": True, "head": "rotor"}
    assert brief["site"] == {"bump_cause": "moles", "sprinklers": True}
    assert brief["lawn"]["condition"] == "patchy"
    (use,) = brief["history"]["herbicides"]
    assert use == {"active_ingredient": "2,4-D", "on": date(2026, 9, 30)}


def test_a_lawn_without_anything_to_do_is_told_and_nothing_is_left(
    browser: Any,  # noqa: F811
    home: ServedHome,
) -> None:
    """A lawn that cannot be planned is told at
    its last screen, and no folder stays.
    """
    with opened(browser, scripts=False) as page:
        page.goto(home.base + home.once())
        press(page, "This is my browser")
        page.goto(f"{home.base}/new")
        for text in ("17601", "400 m2", "tall fescue", "0 in", "loam"):
            answer(page, text)
        assert "6/9" in text_of(page), text_of(page)
        press(page, "I don't know")
        press(page, "I don't know")
        page.get_by_label("I don't know").check()
        press(page, "Go on")
        page.get_by_label("Seed over the whole lawn").check()
        press(page, "See my answers")
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


def test_who_does_not_know_is_told_what_is_taken(tmp_path: Path) -> None:
    """At every question that can go without an answer the button says what is then assumed, and
    that is what is kept; a place and a size cannot be assumed."""
    home = ServedHome(tmp_path)
    with opened_index(home.index):
        pass
    owner = home.client()
    owner.post(home.once(), data={"label": "x"})
    owner.post("/new/place", data={"answer": "17601"})
    said = {
        "grass": ("Kentucky bluegrass, perennial ryegrass or tall fescue", "unknown"),
        "depth": ("fill nothing", "0 in"),
        "soil": ("loam", "unknown"),
        "water": ("hose", "unknown"),
        "sprayed": ("none", "unknown"),
        "weekdays": ("Sat, Sun", "sat,sun"),
        "intent": ("sow nothing", "none"),
    }
    further = {
        "grass": ("thin",),
        "depth": ("everywhere", "look if deep"),
        "water": ("0.4 in/h, until measured",),
        "sprayed": ("today",),
        "weekdays": ("1",),
    }
    for name in SCREENS:
        shown = unescape(owner.get(f"/new/{name}").text)
        assert ("I don't know" in shown) == (name in said), name
        for told in further.get(name, ()):
            assert f"Don't know: {told}</" in shown, told
        if name in said:
            assert f"I don't know: {said[name][0]}</" in shown, name
            assert owner.post(f"/new/{name}", data={"unknown": "yes"}).status_code == 303
    kept = draft_of(home)
    assert {name: kept[name] for name in said} == {n: v for n, (_, v) in said.items()}
    assert "seed waits 16 weeks" in unescape(owner.get("/new/sprayed").text)
    assert owner.post("/new/area", data={"answer": "400 m2"}).status_code == 303
    checked = unescape(owner.get("/new/check").text)
    for name, (taken, _) in said.items():
        assert taken in checked or name in ("depth", "intent", "weekdays"), name
    # Of what nobody knows the brief says nothing.
    assert tomllib.loads(brief_text(kept, "lawn")).keys() == {
        *("lawn", "place", "leveling", "seeding", "calendar")
    }


def test_a_question_without_an_answer_does_not_look_answered(tmp_path: Path) -> None:
    """Nothing is filled in, chosen or ticked for anybody where the button says what is taken
    without an answer; who goes on all the same is asked again, and what was answered is there."""
    home = ServedHome(tmp_path)
    with opened_index(home.index):
        pass
    owner = home.client()
    owner.post(home.once(), data={"label": "x"})
    answered = {
        "soil": "clay",
        "depth": "1 in",
        "water": "hose",
        "sprayed": "none",
        "intent": "overseed",
        "weekdays": "tue",
    }
    empty = r'id="answer" name="answer" value=""'
    for name in ("place", "area", "grass", *answered):
        shown = owner.get(f"/new/{name}").text
        # What is chosen for nobody who says nothing is that it is not known.
        shown = re.sub(r'value="unknown" checked', "", shown)
        assert " checked" not in shown and " selected" not in shown, name
        assert 'id="answer"' not in shown or empty in shown, name
        again = owner.post(f"/new/{name}", data={"answer": ""})
        assert again.status_code == 422 and 'role="alert"' in again.text, name
        assert ("say “I don" in unescape(again.text)) == (name not in ("place", "area")), name
    # Only in hollows, without saying how much of the lawn.
    low = {"answer": "1 in", "everywhere": "hollows", "share": ""}
    hollows = owner.post("/new/depth", data=low)
    assert hollows.status_code == 422 and 'id="wrong-everywhere"' in hollows.text
    for name, given in answered.items():
        assert owner.post(f"/new/{name}", data={"answer": given}).status_code == 303
        shown = owner.get(f"/new/{name}").text
        assert " checked" in shown or f'value="{given}"' in shown, name
    assert 'value="Lawn"' in owner.get("/new/name").text


def test_a_grass_without_a_name_is_told_by_its_looks(tmp_path: Path) -> None:
    """Three looks at most, each with a drawing; they go into the brief as far as somebody looked,
    and a name takes their place."""
    home = ServedHome(tmp_path)
    with opened_index(home.index):
        pass
    owner = home.client()
    owner.post(home.once(), data={"label": "x"})
    shown = owner.get("/new/grass").text
    assert shown.count('<svg class="look"') == 7 and shown.count('type="radio"') == 12
    seen = {
        "answer": "",
        "runners": "false",
        "leaf": "fine",
        "green_in_winter": "?",
    }
    assert owner.post("/new/grass", data=seen).status_code == 303
    assert "By its looks" in owner.get("/new/check").text
    answers = draft_of(home)
    looked = {"grass": "unknown", "runners": "false", "leaf": "fine"}
    assert answers == looked | {"condition": "unknown"}
    lawn = tomllib.loads(brief_text(answers, "lawn"))["lawn"]
    assert lawn["leaf"] == "fine" and lawn["runners"] is False and lawn["grass"] == "unknown"
    owner.post("/new/grass", data={"answer": "tall fescue", "leaf": "broad"})
    assert draft_of(home) == {"grass": "tall fescue", "condition": "unknown"}


def test_a_soil_without_a_name_is_told_by_hand_or_by_jar(tmp_path: Path) -> None:
    """The class that follows is the answer; a jar that cannot be read is asked again as it stood,
    and doubts in words are those of the button."""
    home = ServedHome(tmp_path)
    with opened_index(home.index):
        pass
    owner = home.client()
    owner.post(home.once(), data={"label": "x"})
    shown = unescape(owner.get("/new/soil").text)
    assert "Shorter than 1 in" in shown and "48 hours (clay)" in shown
    for form, soil in (
        ({"feel": "yes", "ribbon": "long", "rubbed": "smooth"}, "silty clay"),
        ({"feel": "yes"}, "unknown"),
        ({"jar": "yes", "sand": "40", "silt": "40", "clay": "20"}, "loam"),
        ({"answer": "I don't know"}, "unknown"),
    ):
        assert owner.post("/new/soil", data=form).status_code == 303
        assert draft_of(home)["soil"] == soil
    wrong = owner.post("/new/soil", data={"jar": "yes", "sand": "40", "silt": "some"})
    assert wrong.status_code == 422 and 'value="some"' in wrong.text
    assert "same ruler" in wrong.text and draft_of(home)["soil"] == "unknown"
    unknown = owner.post("/new/area", data={"answer": "no idea"})
    assert unknown.status_code == 422 and "paced off" in unknown.text
    several = owner.post("/new/grass", data={"answer": "bermuda"})
    assert (
        several.status_code == 422 and "common bermudagrass or hybrid bermudagrass" in several.text
    )
    owner.post("/new/place", data={"answer": "Berlin, Germany"})
    assert "Shorter than 25 mm" in unescape(owner.get("/new/soil").text)


def draft_of(home: ServedHome) -> dict[str, str]:
    """What the only owner has answered."""
    with opened_index(home.index) as connection:
        (kept,) = connection.execute("SELECT answers FROM draft").fetchone()
    answers: dict[str, str] = json.loads(kept)
    return answers


def test_serving_begins_in_a_folder_that_is_empty(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """`turfplan serve` of a folder for lawns that are still to come keeps its index there and
    prints the owner's address; one with anything else, or none, is refused and left as it was."""
    import uvicorn

    served: list[object] = []
    monkeypatch.setattr(uvicorn, "run", lambda app, **_: served.append(app))
    monkeypatch.chdir(tmp_path)
    data = tmp_path / "data"
    port = str(free_port())
    (data / "lawns").mkdir(parents=True)
    for _ in range(2):
        done = run("serve", str(data), "--port", port, cwd=tmp_path)
        assert done.returncode == 0, done.stderr
        assert "/own/" in done.stdout + done.stderr
    assert (data / "turfplan.index").is_file() and len(served) == 2
    other = tmp_path / "other"
    other.mkdir()
    (other / "photo.jpg").write_bytes(b"x")
    for folder in (other, tmp_path / "typo"):
        done = run("serve", str(folder), "--port", port, cwd=tmp_path)
        assert done.returncode != 0 and "plan" in done.stderr, folder
    assert len(served) == 2
    assert sorted(path.name for path in tmp_path.iterdir()) == ["data", "other"]
    assert [path.name for path in other.iterdir()] == ["photo.jpg"]


def test_what_cannot_be_read_is_helped_with_in_the_units_of_the_place(tmp_path: Path) -> None:
    """An example and a way on stand beside the fault: of feet where feet are used, else of metres,
    never of both; words are spelled as they are there."""
    home = ServedHome(tmp_path)
    with opened_index(home.index):
        pass
    owner = home.client()
    owner.post(home.once(), data={"label": "x"})
    for place, area, depth, colour in (
        ("Knoxville, TN", "60 x 70 ft", "1 in", "color"),
        ("Heikendorf", "18 x 21 m", "2 cm", "colour"),
        ("Hamilton, NZ", "18 x 21 m", "2 cm", "colour"),
    ):
        assert owner.post("/new/place", data={"answer": place}).status_code == 303
        assert area in owner.get("/new/area").text
        for name, answer, told in (
            ("area", "18 by 12 cars", area),
            ("area", "18 x 12", area),
            ("depth", "two thumbs", depth),
            ("grass", "mostly moss", "look at it below"),
            ("soil", "red dirt", "feel it below"),
        ):
            again = owner.post(f"/new/{name}", data={"answer": answer})
            text = unescape(again.text)
            assert again.status_code == 422 and told in text, (place, name)
            assert f'value="{answer}"' in text
            assert ("4200 ft2" in text, "0.5 in" in text) == (False, False)
        assert f"What {colour} is it" in owner.get("/new/grass").text
        read = {"area": "18 x 12 m", "soil": "sticky", "depth": "a couple of inches"}
        for name, answer in read.items():
            assert owner.post(f"/new/{name}", data={"answer": answer}).status_code == 303


def test_what_cannot_be_planned_is_offered_as_it_can(tmp_path: Path) -> None:
    """Each way out that was tried is one press, which plans it so; why the answers themselves do
    not go stands below, no lines of the brief; what is no way out is not taken."""
    home = ServedHome(tmp_path)
    with opened_index(home.index):
        pass
    ways = (
        WayOut("2 people at work", "Checked", "people = 2"),
        WayOut("Fill half as deep now", "Checked", 'depth = "0.5 in"'),
        WayOut("Sow first", "Checked", ""),
    )
    briefs: list[str] = []

    def replan(lawn: Any) -> Sequence[str]:
        briefs.append(lawn.brief.read_text("utf-8"))
        if 'depth = "1 in"' in briefs[-1]:
            return NotPlanned(("the fill needs two springs",), ways)
        return home.replan(lawn)

    owner = home.client(replan=replan)
    owner.post(home.once(), data={"label": "x"})
    answers = {"place": "17601", "area": "60 x 70 ft", "grass": "tall fescue", "soil": "loam"}
    answers |= {"depth": "1 in", "water": "hose", "sprayed": "none", "weekdays": "sat,sun"}
    for name, answer in {**answers, "intent": "overseed"}.items():
        given = answer.split(",") if name == "weekdays" else answer
        assert owner.post(f"/new/{name}", data={"answer": given}).status_code == 303, name
    refused = owner.post("/new/check")
    shown = unescape(refused.text)
    assert refused.status_code == 422 and shown.count("Plan it so</button>") == 2
    assert "Fill half as deep now" in shown and "The fill needs two springs." in shown
    assert "Sow first" not in shown and "people = 2</" not in shown
    for none in ("", "id = 1", "people", 'survey = "/etc/passwd"'):
        assert owner.post("/new/check", data={"way": none}).status_code == 422, none
        assert 'depth = "1 in"' in briefs[-1] and "people" not in briefs[-1]
    assert owner.post("/new/check", data={"way": ways[0].way}).status_code == 422
    assert "people = 2" in briefs[-1] and not list((home.root / "lawns").iterdir())
    made = owner.post("/new/check", data={"way": ways[1].way})
    assert made.headers["location"] == "/mine/1/made"
    (folder,) = (home.root / "lawns").iterdir()
    assert 'depth = "0.5 in"' in (folder / "brief.toml").read_text("utf-8")


@full
@pytest.mark.parametrize(
    ("width", "scheme"), [(NARROW, "light"), (PHONE, "dark"), (DESK, "light"), (DESK, "dark")]
)
def test_questions_and_ways_out_have_no_barrier(
    browser: Any,  # noqa: F811
    axe: str,  # noqa: F811
    home: ServedHome,
    width: int,
    scheme: str,
) -> None:
    """Asked, asked again with help, and offered as it can be planned: nothing cut off, nothing too
    small, no barrier that a checker finds, with every part opened."""
    way = WayOut("Fill half as deep now, the rest another year", "Checked", 'depth = "0.5 in"')
    home.refusals = NotPlanned(("the fill needs two springs",), (way, way))  # type: ignore[assignment]
    with opened(browser, width=width, scheme=scheme) as page:

        def looked() -> None:
            for part in page.locator("summary").all():
                part.click()
            assert page.evaluate("document.documentElement.scrollWidth") == width
            assert page.evaluate(SMALL) == []
            assert barriers(page, axe) == []

        page.goto(home.base + home.once())
        press(page, "This is my browser")
        answer(page, "17601")
        answer(page, "18 by 12 cars")
        assert "Length by width will do" in text_of(page)
        looked()
        answer(page, "60 x 70 ft")
        for unread in ("mostly moss", "two thumbs"):
            answer(page, unread)
            assert page.locator("[role=alert]").count() == 1
            looked()
            page.get_by_label("I don't know").check()
            press(page, "Go on")
        page.goto(f"{home.base}/new/depth")
        page.locator("#answer").fill("1 in")
        page.get_by_label("Only in hollows").check()
        looked()
        press(page, "Go on")
        assert "Answer here" in text_of(page)
        looked()
        page.get_by_label("Everywhere", exact=True).check()
        press(page, "Go on")
        answer(page, "red dirt")
        looked()
        press(page, "I don't know")
        page.get_by_label("Sprinklers in the ground").check()
        looked()
        press(page, "Go on")
        page.get_by_label("Weed-and-feed").check()
        page.get_by_label("Active ingredient").fill("x")
        looked()
        press(page, "Go on")
        assert page.locator("[role=alert]").count() == 1
        looked()
        page.get_by_label("Active ingredient").fill("")
        press(page, "Go on")
        page.get_by_label("I don't know").check()
        page.get_by_label("When are you away").fill("over Christmas")
        press(page, "Go on")
        looked()
        page.get_by_label("When are you away").fill("")
        press(page, "Go on")
        looked()
        press(page, "I don't know")
        looked()
        press(page, "Make the plan")
        assert page.get_by_role("button", name="Plan it so").count() == 2
        looked()


def test_days_away_are_asked_with_the_days_of_work(tmp_path: Path) -> None:
    """In plain dates, on the same screen; they stand in the check and in the brief, and what is no
    date is asked again with what was typed."""
    home = ServedHome(tmp_path)
    with opened_index(home.index):
        pass
    owner = home.client()
    owner.post(home.once(), data={"label": "x"})
    owner.post("/new/place", data={"answer": "Halswell, Christchurch"})
    assert "When are you away?" in owner.get("/new/weekdays").text
    form = {"answer": ["sat", "sun"], "away": "over Christmas"}
    again = owner.post("/new/weekdays", data=form)
    assert again.status_code == 422 and 'value="over Christmas"' in again.text
    assert "19 Dec to 9 Jan" in again.text and "weekdays" not in draft_of(home)
    form["away"] = "19 Dec 2029 to 9 Jan 2030, 2 to 5 April 2030"
    assert owner.post("/new/weekdays", data=form).status_code == 303
    told = "19 Dec 2029 to 9 Jan 2030, 2 Apr 2030 to 5 Apr 2030"
    assert f"away {told}" in owner.get("/new/check").text
    calendar = tomllib.loads(brief_text(draft_of(home), "lawn"))["calendar"]
    assert [str(span["to"]) for span in calendar["away"]] == ["2030-01-09", "2030-04-05"]
    assert owner.post("/new/weekdays", data={"unknown": "yes", "away": ""}).status_code == 303
    calendar = tomllib.loads(brief_text(draft_of(home), "lawn"))["calendar"]
    assert calendar == {"weekdays": ["sat", "sun"]}


@pytest.mark.parametrize("scripts", [True, False])
def test_of_several_towns_one_is_tapped(
    browser: Any,  # noqa: F811
    axe: str,  # noqa: F811
    home: ServedHome,
    scripts: bool,
) -> None:
    """A name that towns share is no fault: which of them it is takes one tap."""
    with opened(browser, width=NARROW, scripts=scripts) as page:
        page.goto(home.base + home.once())
        press(page, "This is my browser")
        answer(page, "Ashford")
        assert "There are 2 towns of this name. Which is yours?" in text_of(page)
        if scripts:
            assert page.evaluate("document.documentElement.scrollWidth") == NARROW
            assert page.evaluate(SMALL) == [] and barriers(page, axe) == []
        press(page, "Ashford, Kent")
        assert "2/9" in text_of(page) and "Ashford, Kent" in text_of(page)
        page.goto(f"{home.base}/new/place")
        assert page.locator("#answer").input_value() == "Ashford, Kent"
