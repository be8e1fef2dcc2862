"""What protects reaches the person: the screen, the first sheet, the task and its calendar."""

from datetime import date
from pathlib import Path
from typing import Any

import pytest

from command import run
from planning import kind, plan_of
from printed import checklist_html, order_html, season_ics, week_sheets
from turfplan.message import Days, Message, Quantity, listed
from turfplan.messages import catalog
from turfplan.phrases import watering as phrases
from turfplan.planning.ranked_notes import PLACES, place_of
from turfplan.records.plan import RANKS, Plan

WEEDY: dict[str, Any] = {
    "site": {"weeds_percent": 60, "pets": True},
    "water": {"banned": [{"from": date(2027, 6, 1), "to": date(2027, 7, 15)}]},
}
BRIEF = """
[lawn]
area = "3000 ft2"
grass = "tall_fescue"
[place]
postal_code = "17601"
[seeding]
intent = "overseed"
[site]
weeds_percent = {weeds}
"""


@pytest.fixture(scope="module")
def weedy() -> Plan:
    """A lawn of weeds with a ban on watering ahead."""
    return plan_of(WEEDY)


def texts(plan: Plan, rank: str) -> list[str]:
    """The cautions of one rank."""
    return [str(n.text) for n in plan.ranked if n.rank == rank and n.kind == "caution"]


@pytest.mark.full
def test_everything_said_is_ranked_once(weedy: Plan) -> None:
    """Every caution, assumption and disagreement has one rank, and the gravest come first."""
    ranks = [RANKS.index(note.rank) for note in weedy.ranked]
    assert ranks == sorted(ranks)
    said = [note.text for note in weedy.ranked]
    assert len(said) == len(set(said))
    jobs = {caution for task in weedy.tasks for caution in task.cautions}
    assert set(said) == {*weedy.cautions, *weedy.assumptions, *weedy.disagreements, *jobs}
    silica = next(note for note in weedy.ranked if "silica" in str(note.text))
    assert silica.rank == "safety" and "delivery.1" in silica.tasks
    assert weedy.ranked[0].rank == "stop" and str(weedy.cautions[0]) == str(weedy.ranked[0].text)
    assert any("Watering is banned" in text for text in texts(weedy, "law"))
    assert any("dogs" in text for text in texts(weedy, "damage"))


@pytest.mark.full
def test_stops_and_bans_stand_on_the_first_sheet_the_task_and_its_entry(weedy: Plan) -> None:
    """A stop and a ban stand on the first sheet, at the sowing and in its calendar entry."""
    first, *others = week_sheets(weedy)
    (sowing,) = kind(weedy, "overseed")
    assert sowing.published is not None
    calendar = season_ics(weedy).decode().replace("\r\n ", "")
    for words in ("More than half of this is weeds", "Watering is banned from"):
        assert any(text.startswith(words) for _, text in first.notes), words
        assert any(str(caution).startswith(words) for caution in sowing.cautions), words
        assert words in sowing.published.description and words in calendar
    assert not any(sheet.notes for sheet in others)
    assert "Stop:</strong> More than half" in checklist_html(weedy)


@pytest.mark.full
def test_the_screen_shows_what_stops_and_what_is_new(tmp_path: Path) -> None:
    """The summary has every stop, law and safety note and counts the rest; planned again, it says
    what is new."""
    brief = tmp_path / "weeds.toml"
    brief.write_text(BRIEF.format(weeds=0), encoding="utf-8")
    done = run("plan", str(brief), "--today", "2027-02-01", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "! law and permission: Local codes" in done.stdout
    assert "Nobody said whether the lawn can be watered" not in done.stdout
    assert "more notes, on single jobs, what may do damage" in done.stdout
    brief.write_text(BRIEF.format(weeds=70), encoding="utf-8")
    again = run("plan", str(brief), "--today", "2027-02-02", cwd=tmp_path)
    assert "! new, stop: More than half of this is weeds" in again.stdout
    assert "! law and permission: Local codes" in again.stdout


@pytest.mark.full
def test_a_torn_journal_is_told_once_and_ranked(tmp_path: Path) -> None:
    """A cut-off line of the journal is told once on the screen, and stands ranked in the plan."""
    brief = tmp_path / "torn.toml"
    brief.write_text(BRIEF.format(weeds=0), encoding="utf-8")
    (tmp_path / "torn.journal.jsonl").write_text('{"sum":"12', encoding="utf-8")
    done = run("plan", str(brief), "--today", "2027-02-01", cwd=tmp_path)
    assert (done.stdout + done.stderr).count("torn.journal.jsonl") == 1
    plan = (tmp_path / "torn" / "plan.json").read_text(encoding="utf-8")
    assert '"kind": "input"' in plan


def test_places_are_those_of_messages() -> None:
    """Every place is that of a message that there is; cautions of a whole plan all have one or are
    advice on purpose."""
    known = catalog._keys(catalog.place_of("en"))
    for place in PLACES:
        if not place.startswith("book."):
            assert any(key == place or key.startswith(f"{place}.") for key in known), place
    advice = {"plan_cautions.spring_seed"}
    unsaid = {"watering.verdict.rain_nowhere", "watering.verdict.rain_keeps_up"}
    # Told as what a plan goes by, or as why there is none.
    unsaid |= {"watering.verdict.gap_relaid"}
    for key in known:
        if key.startswith(("plan_cautions.", "watering.verdict.", "salt_holds.")):
            assert key in advice | unsaid or place_of(Message(key)) is not None, key


def test_too_little_topsoil_over_rubble_stands_first_on_order_and_checklist() -> None:
    """It is a stop, told at the order and the sod, with the depth to write."""
    plan = plan_of(
        {
            "lawn": {"condition": "bare", "soil": "rubble", "thatch": None},
            "seeding": {"intent": "renovate", "form": "sod"},
            "leveling": {"depth": "2 in"},
        }
    )
    (note,) = [note for note in plan.ranked if "Do not order yet" in note.text.text]
    assert note.rank == "stop" and note.told_first
    assert "a depth of 4 in" in note.text.text
    about = [t for t in plan.tasks if t.id in note.tasks]
    assert {"ordering", "planting"} <= {role for task in about for role in task.roles}
    assert "Do not order yet" in order_html(plan) and "Do not order yet" in checklist_html(plan)


def test_what_water_does_not_hold_is_printed() -> None:
    """Hours of the night alone, and a week far short of its need, are a matter of the allowed hours
    and days: on the screen and the first sheet."""
    dark = place_of(phrases.verdict_dark_hours())
    assert dark is not None and (dark.rank, set(dark.roles)) == ("law", {"sowing", "planting"})
    days = Days(date(2027, 6, 1), date(2027, 6, 7))
    water = Quantity(1.0, "rain")
    short = phrases.week_short(
        stage=phrases.stage_weaning(), weeks=listed((days,)), given=water, need=water
    )
    place = place_of(short)
    assert place is not None and place.rank == "law"
