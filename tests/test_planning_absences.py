"""Absences: what waits because nobody is there is told first, with ways out that were planned."""

import json
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import pytest

from command import run
from planning import kind, plan_of
from turfplan.records.plan import Plan

SPRING = datetime(2027, 3, 1, 12, tzinfo=UTC)
# A fortnight in the middle of the weeks in which autumn seed has to be watered.
SHORT: dict[str, Any] = {"calendar": {"away": [{"from": "2027-09-10", "to": "2027-09-20"}]}}
LATE_SUMMER_NZ: dict[str, Any] = {
    "lawn": {"area": "300 m2", "grass": "perennial_ryegrass", "soil": "silt loam"},
    "place": {"postal_code": None, "latitude": -43.5, "longitude": 172.6, "country": "NZ"},
    "leveling": {"depth": "0 mm"},
    "water": {"possible": True, "application_rate": "12 mm/h"},
    "season": {"from": date(2027, 1, 5)},
}
BERMUDA: dict[str, Any] = {
    "lawn": {"grass": "bermuda_hybrid", "soil": "sandy loam", "condition": "dense"},
    "place": {"postal_code": "30303"},
    "leveling": {"depth": "0.25 in"},
    "seeding": {"intent": "none"},
}
GRANNY_FLAT = """
[lawn]
id = "granny-flat"
name = "Granny flat"
area = "4000 ft2"
grass = "tall_fescue"
condition = "thin"
[place]
postal_code = "17601"
country = "US"
[seeding]
intent = "overseed"
[calendar]
away = [{ from = 2027-09-10, to = 2027-10-15 }]
"""


def away(first: str, last: str, table: str = "away") -> dict[str, Any]:
    """Nobody is there from one day to another."""
    return {"calendar": {table: [{"from": first, "to": last}]}}


def main_year(plan: Plan) -> int:
    """The year in which the last of the main work is done."""
    return max(t.start.year for t in plan.tasks if t.plays("sowing", "planting", "spreading"))


def changes(plan: Plan) -> list[str]:
    """The lines of the brief that the ways out change."""
    return [option.change.text for option in plan.options]


def test_a_year_lost_to_an_absence_is_told_with_numbers() -> None:
    """The note says which absence, what waits, from which day until which, and how long; it is
    ranked as damage, and the lesser note on the same absence is left out.
    """
    plan = plan_of(SHORT, now=SPRING)
    (told,) = plan.put_off
    for part in ("Sep 10 to Sep 20, 2027", "tall fescue", "Sep 5, 2027", "Sep 3, 2028", "52 weeks"):
        assert part in told.text
    assert "21 days" in told.text, "why it waits"
    assert [n.rank for n in plan.ranked if n.text == told] == ["damage"]
    assert not [c for c in plan.cautions if c.key.startswith("watering.verdict.away")]


def test_the_ways_out_of_an_absence_lead_where_they_say() -> None:
    """A timer, somebody else who waters, later dates and shorter ones: planned in full, each gives
    the season back.
    """
    plan = plan_of(SHORT, now=SPRING)
    assert main_year(plan) == 2028
    later = {"from": "2027-09-27", "to": "2027-10-07"}
    sooner = {"from": "2027-09-10", "to": "2027-09-13"}
    for line, change in (
        ("timer = true", {"water": {"timer": True}}),
        (
            "away = [], unavailable = [{ from = 2027-09-10, to = 2027-09-20 }]",
            {"calendar": {"away": [], "unavailable": SHORT["calendar"]["away"]}},
        ),
        ("away = [{ from = 2027-09-27, to = 2027-10-07 }]", {"calendar": {"away": [later]}}),
        ("away = [{ from = 2027-09-10, to = 2027-09-13 }]", {"calendar": {"away": [sooner]}}),
    ):
        assert line in changes(plan)
        changed = plan_of(SHORT, change, now=SPRING)
        assert main_year(changed) == 2027 and not changed.put_off and not changed.options


@pytest.mark.parametrize("table", ["away", "unavailable"])
def test_fill_that_nobody_is_there_to_spread_is_told(table: str) -> None:
    """Where no seed is sown nobody speaks of water: the fill waits for people to spread it."""
    plan = plan_of(BERMUDA, away("2027-04-20", "2027-09-10", table), now=SPRING)
    (told,) = plan.put_off
    assert "to work" in told.text and "water" not in told.text and "the fill" in told.text
    hired = 'by = "contractor"'
    assert main_year(plan) == 2028
    # A contractor comes while nobody is at home, and not on days that are ruled out for all work.
    assert (hired in changes(plan)) == (table == "away")
    assert all(line.startswith(table) for line in changes(plan) if line != hired)


def test_a_timer_is_no_way_out_where_nobody_is_there_to_sow() -> None:
    """In the south of the world too: with a timer a contractor is offered, and autumn is March."""
    nobody = away("2027-02-01", "2027-05-10")
    now = datetime(2027, 1, 5, 12, tzinfo=UTC)
    plan = plan_of(LATE_SUMMER_NZ, {"water": {"timer": True}}, nobody, now=now)
    (told,) = plan.put_off
    assert "1 Feb to 10 May 2027" in told.text and "28 Feb 2027" in told.text
    assert 'by = "contractor"' in changes(plan) and "timer = true" not in changes(plan)


def test_an_absence_that_moves_nothing_out_of_its_season_is_no_loss() -> None:
    """Seed that still goes in in the same season, and seed watered by a timer, wait for nothing."""
    for change in ({"water": {"timer": True}}, away("2027-06-10", "2027-06-20")):
        plan = plan_of(SHORT, change, now=SPRING)
        assert main_year(plan) == 2027 and not plan.put_off and not plan.options
    spared = plan_of(
        LATE_SUMMER_NZ,
        away("2027-02-10", "2027-04-20"),
        now=datetime(2027, 1, 5, 12, tzinfo=UTC),
    )
    assert not spared.put_off


def test_the_loss_is_told_again_until_it_is_history() -> None:
    """A plan made again says it as long as the season can still be had, not once it is over."""
    before = plan_of(SHORT, now=SPRING)
    summer = plan_of(
        SHORT, now=datetime(2027, 7, 1, 12, tzinfo=UTC), previous=before, options=False
    )
    assert [told.text for told in summer.put_off] == [told.text for told in before.put_off]
    winter = plan_of(SHORT, now=datetime(2027, 12, 1, 12, tzinfo=UTC), previous=before)
    assert kind(winter, "overseed")[0].start.year == 2028 and not winter.put_off


def test_the_wait_stands_on_the_screen_the_first_sheet_and_in_the_plan(tmp_path: Path) -> None:
    """It is read before the first job, with every way out; the book's first page has it too."""
    brief, out = tmp_path / "flat.toml", tmp_path / "out"
    brief.write_text(GRANNY_FLAT)
    done = run("plan", str(brief), "-o", str(out), "--today", "2027-03-01")
    plan = json.loads((out / "plan.json").read_text())
    (told,), ways = plan["put_off"], [option["title"] for option in plan["options"]]
    first_job = done.stdout.index("Take a soil sample")
    assert done.stdout.count(told) == 1 and done.stdout.index(told) < first_job
    assert len(ways) > 2 and all(done.stdout.index(way) < first_job for way in ways)
    printed = run("print", str(brief), "book", "-o", str(out))
    assert printed.returncode == 0
    book = next(out.glob("*book*.html"))
    for sheet in (out / "checklist.html", book):
        text = sheet.read_text()
        assert told in text and all(way in text for way in ways), sheet.name
