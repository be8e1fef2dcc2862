"""The page of a season: its figures, days and reasons; what if, and what is kept of it."""

import ast
import re
import stat
import tomllib
from collections.abc import Iterator
from datetime import date, timedelta
from html import unescape
from pathlib import Path
from typing import Any

import pytest

pytest.importorskip("starlette", reason="the extra web is not installed")
pytest.importorskip("uvicorn", reason="the extra web is not installed")

from planning import EXAMPLES, POSSIBLE, example, example_brief
from screens import NARROW, SMALL, barriers, opened, press, text_of
from served import NAME, ServedHome, serving  # after the skips
from test_export_screen import axe, browser  # noqa: F401 — fixtures
from tiers import full
from turfplan.app.outputs import words_of
from turfplan.app.what_if import changed_text, plan_if, said_now
from turfplan.errors import TurfplanError
from turfplan.export.season_view import figures, season_view
from turfplan.export.season_waterings import ToldStage, watering_stages
from turfplan.files.brief_text import with_value
from turfplan.files.failure_log import failure_log_of
from turfplan.message import Clock
from turfplan.planning import season_plan
from turfplan.planning.changed_briefs import TABLE_OF_KEY
from turfplan.records.plan import Option
from turfplan.serve import pages, season_pages

TODAY = date(2027, 2, 1)


def brief(home: ServedHome) -> Path:
    """The brief of the lawn that is served."""
    found = home.lawn().brief
    assert found is not None
    return found


@pytest.fixture
def home(tmp_path: Path) -> ServedHome:
    """A lawn that is served."""
    made = ServedHome(tmp_path, TODAY)
    made.lawn()
    return made


def test_the_figures_are_those_of_the_plan() -> None:
    """Hours of all jobs, mix of all orders, water of all runs; the main work and the end."""
    plan = example(NAME)
    told = {name: figure.value for name, figure in figures(plan, words_of(plan))}
    jobs = [task for task in plan.tasks if task.series is None]
    assert told["hours"] == str(round(sum(task.person_hours for task in jobs)))
    mix = sum(line.value_us for line in plan.order if line.item == "mix")
    assert told["mix"] == f"{mix:g} yd³"
    litres = sum(a.value for t in plan.tasks for a in t.amounts if a.item == "water")
    gallons = float(re.sub("[^0-9.]", "", told["water"]))
    assert gallons == pytest.approx(litres / 3.785411784, abs=60)
    headlines = [t for t in jobs if t.plays("headline") and not t.plays("ordering")]
    assert f"{min(t.start for t in headlines):%b}" in told["begins"]
    assert f"{max(t.end for t in plan.tasks if t.series is None):%b}" in told["over"]


def test_each_job_says_why_and_one_stop_at_most_stands_on_top() -> None:
    """Its chain of reasons in full, each amount with its own; every bar lies on the strip."""
    plan = example(NAME)
    view = season_view(plan, TODAY, words_of(plan))
    titles = {str(task.title) for task in plan.tasks if task.series is None}
    assert {job.title for job in view.jobs} == titles
    spread = next(job for job in view.jobs if job.anchor == "job-topdress-1")
    task = plan.task("topdress.1")
    assert task is not None
    window = next(w for w in plan.windows if w.operation == "topdress" and w.start <= task.start)
    assert spread.not_earlier[0].startswith(str(window.reason).rstrip(".") + ". Here that is ")
    assert set(spread.not_later) <= set(map(str, task.not_later)) and spread.not_later
    assert {one.reason for one in spread.amounts} >= {
        str(a.reason) for a in task.amounts if a.item == "depth"
    }
    assert len(view.figures) == 3 and view.strip is not None
    assert all(
        bar.x >= 0 and bar.x + bar.width <= view.strip.width + 0.2
        for lane in view.strip.lanes
        for bar in lane.bars
    )
    anchors = {job.anchor for job in view.jobs}
    assert view.days and {day.anchor for day in view.days} <= anchors


@pytest.mark.parametrize("name", [name for name in POSSIBLE if name != "late-start"])
def test_the_reasons_of_days_name_a_cause(name: str) -> None:
    """No job is told that work is possible on working days alone, nor twice the same rule; what
    keeps it from being later repeats nothing unless nothing else does."""
    plan = example(name)
    view, little = season_view(plan, TODAY, words_of(plan)), words_of(plan).say
    days_off = little("day_limits.work_days")
    for job in view.jobs:
        told = (job.not_earlier, job.not_later)
        for reasons in told:
            assert reasons and len(set(reasons)) == len(reasons)
            assert days_off not in reasons
        assert not set(told[0]) & set(told[1]) or set(told[1]) <= set(told[0])


@pytest.mark.parametrize(
    ("name", "begins", "says"),
    [
        ("transition-fescue", "spring only 2027: ", "loses part of its stand to weeds and to its"),
        ("british-metric", "spring only 2027: ", "loses part of its stand to weeds"),
        ("surveyed-us", "spring only 2027: From", "would need 3 passes, and there is time for 2"),
        ("bermuda-sand", "Hybrid bermudagrass closes over", "Here that is May 18 to Aug 21, 2027."),
        ("southern-hemisphere", "Couch ", "Here that is "),
    ],
)
def test_one_sentence_says_why_the_main_work_is_not_sooner(
    name: str, begins: str, says: str
) -> None:
    """What speaks against the season before, else the rule of the first main job; nothing once the
    work has begun, or where it is over."""
    plan = example(name)
    told = season_view(plan, TODAY, words_of(plan)).sooner
    assert told.startswith(begins) and says in told
    assert season_view(plan, date(2029, 1, 1), words_of(plan)).sooner == ""


def test_south_of_the_equator_autumn_comes_before_spring() -> None:
    """The season that is passed over lies before the chosen one by the place's own year."""
    plan = example("transition-fescue")
    south = plan.model_copy(update={"place": plan.place.model_copy(update={"latitude": -35.0})})
    day = date(2026, 1, 1)
    assert "spring only 2027" in season_view(plan, day, words_of(plan)).sooner
    assert "spring only 2027" not in season_view(south, day, words_of(south)).sooner


@pytest.mark.parametrize(
    ("text", "value", "wanted"),
    [
        ("[lawn]\narea = 1\n", 3, "[lawn]\narea = 1\n\n[work]\npeople = 3\n"),
        ("[work] # who\na = 1\n", 3, "[work] # who\npeople = 3\na = 1\n"),
        ("[work]\npeople = 2\n[x]\npeople = 9\n", 3, "[work]\npeople = 3\n[x]\npeople = 9\n"),
        ("[work]\r\npeople = 2\r\n", 3, "[work]\r\npeople = 3\r\n"),
    ],
)
def test_a_value_of_a_brief_is_changed_and_nothing_else(text: str, value: int, wanted: str) -> None:
    """In its line, else below its table, else in a table at the end; line ends stay."""
    assert with_value(text, "work", "people", value) == wanted


@pytest.mark.parametrize(
    "text",
    [
        "work = { people = 2 }\n",
        "[work]\npeople = [\n1\n]\n",
        '[work]\na = """\n[x]\n"""\npeople=1\n',
    ],
)
def test_a_value_that_is_no_line_is_left_alone(text: str) -> None:
    """What one line does not hold is told, never half-written."""
    with pytest.raises(ValueError, match="not one line"):
        with_value(text, "work", "people", 3)


def test_wishes_are_held_against_the_brief(home: ServedHome) -> None:
    """What it says now is offered, faults are told all at once, nothing is written."""
    path = brief(home)
    before = path.read_bytes()
    assert said_now(path) == {
        "depth": "1 in",
        "intent": "overseed",
        "start": "2027-03-01",
        "grass": "tall_fescue",
        "people": "2",
    }
    changed = tomllib.loads(changed_text(path, {"depth": "0.5 in", "start": "2027-04-01"}))
    assert changed["leveling"]["depth"] == "0.5 in"
    assert changed["season"]["from"] == date(2027, 4, 1)
    with pytest.raises(TurfplanError) as told:
        changed_text(path, {"people": "many", "start": "soon"})
    assert len(told.value.problems) == 2
    with pytest.raises(TurfplanError):
        plan_if(path, home.lawn().folder, {"depth": "very deep"}, TODAY)
    assert path.read_bytes() == before
    surveyed = home.root / "surveyed.toml"
    surveyed.write_bytes((EXAMPLES / "surveyed-us.toml").read_bytes())
    assert "depth" not in said_now(surveyed)


def test_only_the_owner_asks_what_if(home: ServedHome, monkeypatch: pytest.MonkeyPatch) -> None:
    """Others see the season alone; the owner is shown what changes beside what stays, and what is
    kept is written and planned; where it cannot be planned the brief stays as it was.
    """
    monkeypatch.setattr(season_pages, "apart", lambda work, *given: work(*given))
    wish = {"do": "what_if", "depth": "0.5 in", "people": "2"}
    guest, page = home.client(), f"/lawn/{home.token('edit')}"
    assert "Every job, and why" in guest.get(f"{page}/season").text
    assert "What if?" not in guest.get(f"{page}/season").text
    assert guest.post(f"{page}/season", data=wish).status_code == 403
    owner, mine = home.client(), f"/mine/{home.lawn().id}/season"
    owner.post(home.once(), data={"label": "x"})
    assert "What if?" in owner.get(mine).text
    before, plan = brief(home).read_bytes(), home.plan()
    shown = owner.post(mine, data=wish)
    told = " ".join(unescape(re.sub("<[^>]*>", " ", shown.text)).split())
    assert shown.status_code == 200 and "Mix to order Now 15 yd³ Then 7.5 yd³" in told, told
    assert brief(home).read_bytes() == before and home.plan() == plan
    for fault in ({"people": "many"}, {"depth": "deep"}, {"grass": "parsley"}):
        got = owner.post(mine, data={"do": "keep_if", **fault})
        assert got.status_code == 422 and "cannot be planned so" in got.text
    assert owner.post(mine, data={"do": "what_if"}).status_code == 303
    home.refusals = ("no day is left",)
    refused = owner.post(mine, data=wish | {"do": "keep_if"})
    assert refused.status_code == 422 and "No day is left." in refused.text
    assert brief(home).read_bytes() == before
    home.refusals = ()
    kept = owner.post(mine, data=wish | {"do": "keep_if"})
    assert kept.headers["location"] == f"{mine}?kept=1"
    assert tomllib.loads(brief(home).read_text())["leveling"]["depth"] == "0.5 in"
    assert home.plan().lawn.depth_mm == pytest.approx(12.7)


def test_a_what_if_that_changes_no_figure_says_so(
    home: ServedHome, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Before what stays the same is listed; not where one figure of six is another."""
    plan = home.plan()
    same = {name: figure.value for name, figure in figures(plan, words_of(plan))}
    owner = home.client()
    owner.post(home.once(), data={"label": "x"})
    for then, told in ((same, True), (same | {"hours": "1"}, False)):
        outcome = season_pages.WhatIfOutcome(tuple(then.items()))
        monkeypatch.setattr(season_pages, "apart", lambda *given, found=outcome: found)
        wish = {"do": "what_if", "people": "3"}
        page = owner.post(f"/mine/{home.lawn().id}/season", data=wish).text
        assert ("None of these six figures changes" in page) is told
        assert page.count('class="changed"') == (0 if told else 1)


def test_ways_out_are_buttons_that_show_what_changes(
    home: ServedHome, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each sends the lines that it is printed with; they are shown first, and kept on one press
    more; what names other keys, or no values, is none."""
    monkeypatch.setattr(season_pages, "apart", lambda work, *given: work(*given))
    lines = "people = 4"
    ways = (
        Option(title="More hands", reason="Then", change=lines),
        Option(title="No fill", reason="Then", change="leave out `[leveling]`"),
    )
    plan = home.plan().model_copy(update={"options": ways})
    monkeypatch.setattr(pages, "read_plan", lambda folder: plan)
    owner, mine = home.client(), f"/mine/{home.lawn().id}/season"
    owner.post(home.once(), data={"label": "x"})
    shown = owner.get(mine).text
    assert shown.count('name="way"') == 1 and f'value="{lines}"' in shown
    assert "More hands" not in home.client().get(f"/lawn/{home.token('edit')}/season").text
    before = brief(home).read_bytes()
    what_if = owner.post(mine, data={"do": "what_if", "way": lines})
    assert what_if.status_code == 200 and f"<code>{lines}</code>" in what_if.text
    assert f'name="way[]" value="{lines}"' in what_if.text and brief(home).read_bytes() == before
    for none in (
        "id = 1",
        'survey = "/etc/passwd"',
        "people = 4 }\n[x]\na = { b = 1",
        "people",
        "",
    ):
        assert owner.post(mine, data={"do": "keep_if", "way": none}).status_code == 303
    assert brief(home).read_bytes() == before
    assert owner.post(mine, data={"do": "keep_if", "way": lines}).status_code == 303
    assert tomllib.loads(brief(home).read_text())["work"]["people"] == 4


def test_a_button_knows_every_key_that_a_way_out_names() -> None:
    """All lines that ways out are printed with name keys whose table is known, which a brief has;
    a day of a weed killer stands in a list, and is written by hand; `to` is the end of an
    absence."""
    keys: set[str] = set()
    written = example_brief(NAME)
    for path in Path(season_plan.__file__).parent.glob("*.py"):
        if path.stem.startswith(("ways_", "absences")):
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(node, ast.Constant) and isinstance(node.value, str):
                    keys |= set(re.findall("(?:^|, )([a-z_]+) = ", node.value))
    keys -= {"seed_after", "to"}
    assert keys and keys <= TABLE_OF_KEY.keys()
    for key, table in TABLE_OF_KEY.items():
        fields = type(getattr(written, table)).model_fields
        assert key in {field.alias or name for name, field in fields.items()}, (table, key)


def test_open_questions_stand_with_their_day(home: ServedHome) -> None:
    """What may still change the order, and what it changes; the owner is led to the answer."""
    owner, mine = home.client(), f"/mine/{home.lawn().id}/season"
    owner.post(home.once(), data={"label": "x"})
    told = " ".join(unescape(re.sub("<[^>]*>", " ", owner.get(mine).text)).split())
    assert "Answer by Fri, Mar 19, in 7 weeks How deep is the fill" in told, told
    assert "Write the answer into the lawn's text" in told
    guest = home.client().get(f"/lawn/{home.token('read')}/season").text
    assert "What does the soil test say?" in guest and "Write the answer" not in guest


def test_a_plan_that_failed_is_kept_in_a_log_without_secrets(home: ServedHome) -> None:
    """When and which lawn, for its owner's eyes alone; the page says why."""
    token = home.token("edit", "Ana")
    home.refusals = ("no day is left at 12 Elm Street",)
    assert home.client().post(f"/lawn/{token}", data={"do": "replan"}).status_code == 303
    log = failure_log_of(home.index)
    assert re.fullmatch(
        rf"2027-02-01T\S+ not_planned lawn={home.lawn().id} reasons=1\n", log.read_text()
    )
    assert stat.S_IMODE(log.stat().st_mode) == 0o600
    home.refusals = ()


@pytest.fixture
def running(home: ServedHome) -> Iterator[ServedHome]:
    """The home at a port."""
    with serving(home):
        yield home


@full
def test_what_if_is_asked_and_kept_in_a_browser(
    browser: Any,  # noqa: F811
    axe: str,  # noqa: F811
    running: ServedHome,
) -> None:
    """On a narrow phone, planned in a process of its own: rows of the same six figures, then the
    season with what was kept.
    """
    with opened(browser, width=NARROW) as page:
        page.goto(running.base + running.once())
        press(page, "This is my browser")
        page.get_by_role("link", name="Season").click()
        page.get_by_text("What if?").click()
        page.get_by_label("How low it is on average").fill("0.5 in")
        press(page, "Show what changes")
        assert page.locator(".compared > div").count() == 6
        assert page.locator(".compared .changed").count() >= 3
        assert page.evaluate("document.documentElement.scrollWidth") == NARROW
        assert page.evaluate(SMALL) == []
        assert barriers(page, axe) == []
        press(page, "Change the plan to this")
        assert "It is kept" in text_of(page)
    assert running.plan().lawn.depth_mm == pytest.approx(12.7)


@pytest.mark.parametrize(
    ("name", "asked", "form", "said"),
    [
        (
            "deep-two-inches",
            "What does the look at the lawn show?",
            {"way": 'bump_cause = "settling", cleared = ["settling"]'},
            {"site": {"bump_cause": "settling", "cleared": ["settling"]}},
        ),
        (
            "deep-two-inches",
            "What does the soil test say?",
            {"ph": "6,4", "phosphorus": "low", "potassium": "medium", "sampled": "2027-01-20"},
            {"soil_test": {"ph": 6.4, "phosphorus": "low", "on": date(2027, 1, 20)}},
        ),
    ],
)
def test_an_open_question_is_answered_where_it_stands(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    name: str,
    asked: str,
    form: dict[str, str],
    said: dict[str, dict[str, object]],
) -> None:
    """With what to look at beside it; what it changes is shown, it is kept on one press more, and
    then it is asked no more."""
    monkeypatch.setattr(season_pages, "apart", lambda work, *given: work(*given))
    made = ServedHome(tmp_path, TODAY)
    lawn = made.lawn(name)
    owner, mine = made.client(), f"/mine/{lawn.id}/season"
    owner.post(made.once(), data={"label": "x"})
    shown = owner.get(mine).text
    assert asked in shown
    assert all(f'name="{field}"' in shown for field in form)
    seen = owner.post(mine, data={"do": "what_if", **form})
    assert seen.status_code == 200, seen.text
    sent = re.findall(r'name="(way[^"]*)" value="([^"]*)"', seen.text)
    kept = {key: unescape(value) for key, value in sent}
    assert owner.post(mine, data={"do": "keep_if", **kept}).status_code == 303
    assert lawn.brief is not None
    tables = tomllib.loads(lawn.brief.read_text())
    for table, values in said.items():
        assert {key: tables[table][key] for key in values} == values
    assert asked not in owner.get(mine).text


@pytest.mark.parametrize(
    ("ph", "day"), [("sour", ""), ("64", ""), ("6.4 or so", ""), ("6.4", "2027-13-01")]
)
def test_what_no_test_says_is_told(
    home: ServedHome, monkeypatch: pytest.MonkeyPatch, ph: str, day: str
) -> None:
    """With its place; the brief stays as it is."""
    monkeypatch.setattr(season_pages, "apart", lambda work, *given: work(*given))
    owner, mine = home.client(), f"/mine/{home.lawn().id}/season"
    owner.post(home.once(), data={"label": "x"})
    before = brief(home).read_bytes()
    told = owner.post(mine, data={"do": "keep_if", "ph": ph, "sampled": day})
    assert told.status_code == 422 and brief(home).read_bytes() == before
    assert 'role="alert"' in told.text


@pytest.mark.parametrize("name", [NAME, "southern-hemisphere", "bermuda-sand", "deep-two-inches"])
def test_each_stage_of_watering_is_a_line_with_its_times(name: str) -> None:
    """Every run lies in the days of one; where it runs day after day somebody has to be there."""
    plan = example(name)
    words, view = words_of(plan), season_view(plan, TODAY, words_of(plan))
    runs = [task for task in plan.tasks if task.series is not None]
    stages = watering_stages(plan.tasks)
    assert len(view.waterings) == len(stages) and 0 < len(stages) <= len(runs)
    for run in runs:
        assert run.series is not None
        told = [
            " ".join(line.told)
            for stage, line in zip(stages, view.waterings, strict=True)
            if stage.start <= run.start and run.end <= stage.end
        ]
        assert any(words.value(Clock(run.series.start_time)) in text for text in told)
    for stage in stages:
        days = [stage.start + timedelta(days=n) for n in range((stage.end - stage.start).days + 1)]
        wet = [day for day in days if any(run.start <= day <= run.end for run in runs)]
        assert len(wet) >= len(days) / 3, stage
    daily = [
        stage for stage in stages if (stage.end - stage.start).days > 5 and not has_days(stage)
    ]
    assert all("every day" in words.text(stage.told[-1]) for stage in daily)


def has_days(stage: ToldStage) -> bool:
    """Whether a stage has days of the week."""
    return stage.task.series is not None and bool(stage.task.series.weekdays)


def test_a_feed_says_what_the_whole_lawn_gets_and_a_job_how_it_is_done(home: ServedHome) -> None:
    """Beside the rate of each feed, in the units of the reader; the steps open with the job."""
    plan = home.plan()
    view = season_view(plan, TODAY, words_of(plan))
    feeds = [t for t in plan.tasks if any(a.item == "nitrogen_total" for a in t.amounts)]
    whole = {job.anchor: job.whole for job in view.jobs}
    assert feeds and all("whole lawn" in whole["job-" + t.id.replace(".", "-")] for t in feeds)
    assert sum(bool(text) for text in whole.values()) == len(feeds)
    owner = home.client()
    owner.post(home.once(), data={"label": "x"})
    shown = owner.get(f"/mine/{home.lawn().id}/season").text
    assert all(text in shown for text in whole.values())
    assert shown.count("<h3>How</h3>") == sum(bool(job.how) for job in view.jobs if not job.state)
