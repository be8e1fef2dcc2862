"""Absences: what waits because nobody is there is told first, with ways out that were planned."""

import html
import json
import re
from datetime import UTC, date, datetime, timedelta
from functools import lru_cache
from pathlib import Path
from typing import Any

import pytest

from command import run
from planning import brief_of, kind, plan_of
from resolved_lawns import setting_of
from turfplan.message import Day, as_written
from turfplan.phrases import absences as phrases
from turfplan.planning.absences import (
    PutOff,
    _hired,
    _later,
    _Lost,
    _other_work,
    _somebody_waters,
    _sooner,
    _spared,
    _what,
    put_off,
)
from turfplan.planning.changed_briefs import with_part
from turfplan.planning.ways_out import MainWork
from turfplan.records.brief import Brief, Span
from turfplan.records.plan import Plan
from turfplan.work.lawn import ResolvedLawn

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


NOBODY = Span(**{"from": date(2027, 9, 10), "to": date(2027, 9, 20)})


@lru_cache(1)
def lawn() -> ResolvedLawn:
    """The plain lawn: thin tall fescue, half an inch, watered by a hose."""
    return setting_of(hose())


def hose(**calendar: Any) -> Brief:
    """Its brief, with nobody there from 10 to 20 September, or other days."""
    days = calendar or {"away": [{"from": NOBODY.start, "to": NOBODY.end}]}
    return brief_of({"water": {"application_rate": None}, "calendar": days})


def work(last: date | None, *, season: bool = True) -> MainWork:
    """The main work of a plan, whose season of seed is 15 August to 25 September."""
    ends = (date(2027, 8, 15), date(2027, 9, 25)) if season else None
    return MainWork(as_written("autumn"), last, last, ends)


def asked(
    now: date | None, there: date | None = date(2027, 9, 5), **calendar: Any
) -> PutOff | None:
    """What an absence puts off, by the day of the work with it and without."""

    def tried(brief: Brief) -> MainWork | None:
        at_home = not (brief.calendar.away or brief.calendar.unavailable)
        return work(there if at_home else now)

    return put_off(hose(**calendar), lawn(), tried, options=False)


def span(first: date, last: date) -> dict[str, list[dict[str, date]]]:
    """Days away."""
    return {"away": [{"from": first, "to": last}]}


def test_work_is_put_off_where_its_day_is_beyond_the_season() -> None:
    """By a day, not on the last of it; work without a day, or without a season, is not."""
    ends = date(2027, 9, 25)
    assert asked(ends) is None
    found = asked(ends + timedelta(1))
    assert found is not None and found.spans == (NOBODY,) and found.options == ()
    assert asked(None) is None and asked(ends + timedelta(1), None) is None
    assert put_off(brief_of(), lawn(), lambda _: work(ends), options=False) is None
    other = put_off(hose(), lawn(), lambda _: work(date(2028, 9, 1), season=False), options=False)
    assert other is None


def test_an_absence_counts_from_the_weeks_in_which_seed_is_watered_to_the_season() -> None:
    """It begins no more than that after the season's last day, and ends no earlier than its
    first.
    """
    weeks = timedelta(lawn().days("seeding.watering_commitment"))
    begins, ends, late = date(2027, 8, 15), date(2027, 9, 25), date(2028, 9, 3)
    first = ends + weeks
    assert asked(late, **span(first, first + timedelta(9))) is not None
    assert asked(late, **span(first + timedelta(1), first + timedelta(9))) is None
    assert asked(late, **span(begins - timedelta(9), begins)) is not None
    assert asked(late, **span(begins - timedelta(9), begins - timedelta(1))) is None
    unavailable = {"unavailable": [{"from": NOBODY.start, "to": NOBODY.end}]}
    assert asked(late, **unavailable) is not None


def test_what_waits_is_told_with_its_days_and_weeks() -> None:
    """364 days are 52 weeks; seed under a hose waits for water too."""
    found = asked(date(2028, 9, 3))
    assert found is not None
    values = dict(found.told.values)
    assert (values["day"], values["until"], values["n"]) == (
        Day(date(2027, 9, 5)),
        Day(date(2028, 9, 3)),
        52,
    )
    assert values["days"] == lawn().days("seeding.watering_commitment")
    assert found.told.key == phrases.both_wait(**values).key  # type: ignore[arg-type]
    timer = brief_of(
        {"water": {"application_rate": None, "timer": True}, "calendar": SHORT["calendar"]}
    )

    def tried(brief: Brief) -> MainWork | None:
        return work(date(2027, 9, 5) if not brief.calendar.away else date(2028, 9, 3))

    alone = put_off(timer, setting_of(timer), tried, options=False)
    assert alone is not None and alone.told.key == "absences.work_waits"


def test_water_alone_waits_where_a_timer_saves_the_season() -> None:
    """To its last day; a day later it does not."""

    def key(with_timer: date) -> str:
        def tried(brief: Brief) -> MainWork | None:
            if not brief.calendar.away:
                return work(date(2027, 9, 5))
            return work(with_timer if brief.water.timer else date(2028, 9, 3))

        found = put_off(hose(), lawn(), tried, options=False)
        assert found is not None
        return found.told.key

    ends = date(2027, 9, 25)
    assert key(ends) == "absences.water_waits"
    assert key(ends + timedelta(1)) == "absences.both_wait"


@pytest.mark.full
@pytest.mark.parametrize(
    ("changes", "name"),
    [
        ({}, "fill_and_seed"),
        ({"leveling": {"depth": "0 in"}}, "seed"),
        ({"seeding": {"intent": "none"}}, "fill"),
    ],
)
def test_what_waits_is_fill_seed_or_both(changes: dict[str, Any], name: str) -> None:
    """In the words of the lawn."""
    assert _what(setting_of(brief_of(changes))).key.rpartition(".")[2] == name


def lost(brief: Brief | None = None, *spans: Span, setting: ResolvedLawn | None = None) -> _Lost:
    """Work of 5 September in its season to the 25th, with nobody there."""
    brief = brief or hose()
    spans = spans or brief.calendar.away
    days = date(2027, 9, 5), date(2027, 8, 15), date(2027, 9, 25)
    return _Lost(brief, setting or lawn(), spans, *days)


def calendars(ways: Any) -> list[tuple[list[tuple[date, date]], list[tuple[date, date]]]]:
    """The days away and without work of each way."""
    return [
        (
            [(s.start, s.end) for s in way.brief.calendar.away],
            [(s.start, s.end) for s in way.brief.calendar.unavailable],
        )
        for way in ways
    ]


def test_absences_are_put_off_until_the_seed_needs_nobody_and_a_week_more() -> None:
    """They keep their length; without seed to be watered they begin the day after the work."""
    weeks = lawn().days("seeding.watering_commitment")
    start = date(2027, 9, 6) + timedelta(weeks)
    length = NOBODY.end - NOBODY.start
    assert calendars(_later(lost())) == [
        ([(first, first + length)], []) for first in (start, start + timedelta(7))
    ]
    timer = with_part(hose(), "water", timer=True)
    first = date(2027, 9, 13)  # the sixth is before the tenth: that is not later
    assert calendars(_later(lost(timer))) == [([(first, first + length)], [])]


def test_absences_end_sooner_week_by_week_before_the_last_of_them_or_the_season() -> None:
    """Five times at the most; what begins after that is given up, others stay."""
    ways = calendars(_sooner(lost()))
    assert ways == [([(NOBODY.start, date(2027, 9, 13))], [])]
    long = Span(**{"from": date(2027, 7, 1), "to": date(2027, 12, 1)})
    other = Span(**{"from": date(2028, 1, 1), "to": date(2028, 1, 9)})
    brief = with_part(hose(), "calendar", away=(long, other), unavailable=(NOBODY,))
    found = calendars(_sooner(lost(brief, long, NOBODY)))
    ends = [date(2027, 9, 25) - timedelta(7 * n) for n in range(1, 6)]
    kept = (other.start, other.end)
    assert found == [
        (
            [(long.start, end), kept],
            [(NOBODY.start, min(NOBODY.end, end))] if NOBODY.start <= end else [],
        )
        for end in ends
    ]


def test_somebody_else_waters_or_a_timer_does() -> None:
    """Days away become days without work; where nothing dries out nobody is asked."""
    timer, neighbour = _somebody_waters(lost())
    assert timer.brief.water.timer and timer.brief.calendar == hose().calendar
    assert calendars([neighbour]) == [([], [(NOBODY.start, NOBODY.end)])]
    written = f"[{{ from = {NOBODY.start}, to = {NOBODY.end} }}]"
    assert str(neighbour.lines) == f"away = [], unavailable = {written}"
    closed = hose(unavailable=[{"from": NOBODY.start, "to": NOBODY.end}])
    assert len(list(_somebody_waters(lost(closed, NOBODY)))) == 1
    assert list(_somebody_waters(lost(with_part(hose(), "water", timer=True)))) == []


def test_a_contractor_is_hired_once_and_with_a_timer_where_seed_dries_out() -> None:
    """Not where one works already."""
    (both,) = _hired(lost())
    assert both.brief.work.by == "contractor" and both.brief.water.timer
    (alone,) = _hired(lost(with_part(hose(), "water", timer=True)))
    assert str(alone.lines) == 'by = "contractor"'
    assert list(_hired(lost(with_part(hose(), "work", by="contractor")))) == []


def test_other_work_is_sod_or_another_season_as_the_grass_bears() -> None:
    """Sod where it is sold as such; spring and dormant seed of cool-season grass; none of what is
    not sown.
    """
    found = [str(way.lines) for way in _other_work(lost())]
    sod = ['intent = "plant", form = "sod"'] if "sod" in lawn().sowing.grass.plantable else []
    assert found == [*sod, 'campaign = "spring"', 'intent = "dormant"']
    unsown = setting_of(brief_of({"seeding": {"intent": "none"}}))
    assert list(_other_work(lost(setting=unsown))) == []


def ways(days: dict[str, date]) -> list[str]:
    """The changes offered where each kind of change leads to a day."""

    def tried(brief: Brief) -> MainWork | None:
        calendar, seeding = brief.calendar, brief.seeding
        if brief.work.by == "contractor":
            kind = "hired"
        elif brief.water.timer:
            kind = "timer"
        elif seeding.intent != "overseed":
            kind = str(seeding.intent)
        elif brief.season.campaign == "spring":
            kind = "spring"
        elif calendar.unavailable:
            kind = "neighbour"
        elif calendar.away and calendar.away[0].start > NOBODY.start:
            kind = "later"
        else:
            kind = "sooner"
        return work(days[kind]) if kind in days else None

    return [str(option.change) for option in _spared(lost(), tried, date(2028, 9, 3))]


def test_of_the_ways_those_are_offered_that_lead_to_an_earlier_day() -> None:
    """A contractor only where no timer saves the season; new dates where they save it."""
    ends, beyond, as_late = date(2027, 9, 25), date(2027, 9, 26), date(2028, 9, 3)
    assert ways({}) == []
    assert ways({"timer": ends, "hired": ends}) == ["timer = true"]
    assert ways({"timer": beyond, "hired": ends}) == [
        "timer = true",
        'by = "contractor", timer = true',
    ]
    assert ways({"spring": as_late}) == [] and ways({"spring": as_late - timedelta(1)}) != []
    assert len(ways({"later": ends})) == 1 and ways({"later": beyond}) == []
    assert len(ways({"sooner": ends})) == 1 and ways({"sooner": beyond}) == []
    every = ("timer", "neighbour", "later", "sooner", "plant", "spring", "dormant")
    assert len(ways(dict.fromkeys(every, ends))) == 5


@pytest.mark.full
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


@pytest.mark.full
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


@pytest.mark.full
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


@pytest.mark.full
def test_a_timer_is_no_way_out_where_nobody_is_there_to_sow() -> None:
    """In the south of the world too: with a timer a contractor is offered, and autumn is March."""
    nobody = away("2027-02-01", "2027-05-10")
    now = datetime(2027, 1, 5, 12, tzinfo=UTC)
    plan = plan_of(LATE_SUMMER_NZ, {"water": {"timer": True}}, nobody, now=now)
    (told,) = plan.put_off
    assert "1 Feb to 10 May 2027" in told.text and "28 Feb 2027" in told.text
    assert 'by = "contractor"' in changes(plan) and "timer = true" not in changes(plan)


@pytest.mark.full
def test_an_absence_that_moves_nothing_out_of_its_season_is_no_loss() -> None:
    """Seed that still goes in in the same season, and seed watered by a timer, wait for nothing."""
    for change in ({"water": {"timer": True}}, away("2027-06-10", "2027-06-20")):
        plan = plan_of(SHORT, change, now=SPRING)
        assert main_year(plan) == 2027 and not plan.put_off and not plan.options
    spared = plan_of(
        LATE_SUMMER_NZ,
        away("2027-02-10", "2027-04-01"),
        now=datetime(2027, 1, 5, 12, tzinfo=UTC),
    )
    assert not spared.put_off


@pytest.mark.full
def test_the_loss_is_told_again_until_it_is_history() -> None:
    """A plan made again says it as long as the season can still be had, not once it is over."""
    before = plan_of(SHORT, now=SPRING)
    summer = plan_of(
        SHORT, now=datetime(2027, 7, 1, 12, tzinfo=UTC), previous=before, options=False
    )
    assert [told.text for told in summer.put_off] == [told.text for told in before.put_off]
    winter = plan_of(SHORT, now=datetime(2027, 12, 1, 12, tzinfo=UTC), previous=before)
    assert kind(winter, "overseed")[0].start.year == 2028 and not winter.put_off


@pytest.mark.full
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
        # Words of the glossary stand in tags of their own.
        shown = re.sub(r"<(style|script).*?</\1>|<[^>]*>", "", sheet.read_text(), flags=re.DOTALL)
        text = " ".join(html.unescape(shown).split())
        assert told in text and all(way in text for way in ways), sheet.name
