"""Lawns that are neither filled nor sown: each season's care, told without a word of work that is
not done."""

import re
import tomllib
from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from functools import cache
from typing import Any

import pytest

from broken_plans import CARE, cared_for
from frozen_cases import RANDOM_BRIEFS, TODAY, random_brief
from planning import plan_brief, plan_of
from tiers import full
from turfplan.audit.care import NOT_CARE
from turfplan.calendar_days import DAYS
from turfplan.export.sheets.season_book import book_html
from turfplan.messages import words_for
from turfplan.records.brief import parse_brief
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task
from turfplan.units import System

# Words of work that a plan of care alone has none of; these are said in it all the same.
WORK = re.compile(
    r"\b(seeds?|sown?|seedlings?|fill(ed)?|pass(es)?|level(l?ed)?|mix|hollows?(?!-tin)|top-?dress\w*)\b",
    re.I,
)
SAID = (
    "Neither fill nor seed was asked for",
    "Two passes, across each other, hollow tines",
    "nothing is to be sown within the label's interval",
    "days until seed",
    "Sweep soil, seed and granules",
    "mix them in a clean bucket",
    "phosphorus and potassium follow",
)
NEEDED = ("soil_test", "begin_mowing")
FAST = (9, 14)  # bluegrass with thatch, and bermudagrass in the south


def random_care(number: int) -> dict[str, Any]:
    """A random lawn without its fill and its seed; what was bare has thin grass."""
    brief = tomllib.loads(random_brief(number))
    lawn = {**brief["lawn"], "condition": brief["lawn"]["condition"].replace("bare", "thin")}
    asked = {name: table for name, table in brief.items() if name not in ("leveling", "seeding")}
    return {**asked, "lawn": lawn}


@cache
def random_plan(number: int) -> Plan:
    """Its plan, which the judge has accepted."""
    return plan_brief(parse_brief(random_care(number)), now=at(TODAY))


def at(day: date) -> datetime:
    """Noon of a day."""
    return datetime(day.year, day.month, day.day, 12, tzinfo=UTC)


def sentences_of(plan: Plan) -> Iterator[str]:
    """All that the plan says of this season to whoever reads it, but what its windows are."""
    yield from (str(text) for text in (*plan.campaign_reason, *plan.cautions, *plan.assumptions))
    yield from (str(text) for text in (*plan.holds, *plan.disagreements))
    for task in plan.tasks:
        yield from (str(text) for text in (task.title, task.why, *task.how, task.go))
        yield from (str(text) for text in (task.fallback, *task.cautions))
    for line in plan.order:
        yield from (str(text) for text in (line.name, line.reason))
    for ledger in plan.ledgers:
        yield from (str(note) for note in ledger.notes)


def false_words(plan: Plan) -> list[str]:
    """What is said of work that is not done."""
    return [
        text
        for text in sentences_of(plan)
        if WORK.search(re.sub("|".join(map(re.escape, SAID)), "", text))
    ]


def is_sound_care(plan: Plan) -> None:
    """A year of care and nothing else, in its own seasons, explained without a false word."""
    assert plan.care_alone and plan.conflict is None
    assert not [task.id for task in plan.tasks if task.plays(*NOT_CARE)]
    assert {"soil_test"} <= {task.operation for task in plan.tasks}
    assert (plan.horizon.end - plan.horizon.start).days <= DAYS
    assert false_words(plan) == []
    for task in plan.tasks:
        assert plan.horizon.start <= task.start <= task.end <= plan.horizon.end
        assert task.why and str(task.title) and task.best is not None
    combed = [task for task in plan.tasks if task.plays("thatching")]
    for opened in combed:
        cuts = [t for t in plan.tasks if t.plays("low_cut") and t.start <= opened.start]
        marks = [t for t in plan.tasks if t.plays("marking") and t.end <= opened.start]
        assert cuts and marks


@pytest.mark.parametrize("number", FAST)
def test_lawns_are_cared_for_in_either_hemisphere(number: int) -> None:
    """Cool grass with thatch in the north, warm grass in the south."""
    is_sound_care(random_plan(number))


@full
@pytest.mark.parametrize("number", range(RANDOM_BRIEFS))
def test_random_lawns_without_fill_and_seed_are_cared_for(number: int) -> None:
    """Any grass, soil, thatch, place and day to begin on, in both systems of units."""
    is_sound_care(random_plan(number))


def test_cool_grass_is_opened_in_autumn_and_rests_between() -> None:
    """Thatch comes down before cores are taken, days apart, in the season of growth ahead; on a
    preventer of spring nothing is torn."""
    plan = cared_for().plan
    days = {task.id: task.start for task in plan.tasks}
    assert date(2027, 8, 25) < days["dethatch"] < days["core_aerate.1"] < date(2027, 10, 20)
    assert days["core_aerate.1"] - days["dethatch"] >= timedelta(10)
    assert days["preemergent"] < date(2027, 5, 10) < days["last_mow"]
    assert set(NEEDED) <= days.keys()
    assert not {"delivery.1", "order_material.1", "irrigation_check"} & days.keys()
    assert {line.item for line in plan.order} == {"fertilizer", "preventer", "machine"}


def test_nothing_is_opened_that_does_not_ask_for_it() -> None:
    """Little thatch on sand: no blades, no tines, no marks. Packed soil asks for tines."""
    sand: dict[str, Any] = {**CARE, "lawn": {"thatch": "0.2 in", "soil": "sand"}}
    roles = {role for task in plan_of(sand).tasks for role in task.roles}
    assert roles.isdisjoint({"thatching", "coring", "marking", "low_cut"})
    packed = plan_of(sand, {"site": {"thin_cause": ["packed"]}})
    assert any(task.plays("coring") for task in packed.tasks)
    assert any("packed soil" in str(text) for text in packed.cautions)


def test_thatch_that_no_dethatcher_takes_down_is_told() -> None:
    """Too thick for one dethatching, or on a grass that bears no blades: said, with cores."""
    for lawn in ({"thatch": "1.2 in"}, {"grass": "st_augustine", "thatch": "0.7 in"}):
        warm = {"place": {"postal_code": "32605"}} if "grass" in lawn else {}
        plan = plan_of({**CARE, "lawn": lawn}, warm)
        assert not any(task.plays("thatching") for task in plan.tasks)
        assert any("hatch" in str(text) for text in plan.cautions), lawn
        assert any(task.plays("coring") for task in plan.tasks)


def test_an_unknown_grass_and_an_owners_end() -> None:
    """What lies beyond the end is handed over; a stand of two seasons has no first cut of both."""
    unknown: dict[str, Any] = {**CARE, "lawn": {"grass": "unknown"}}
    british = {"place": {"postal_code": None, "country": "GB", "latitude": 53.5, "longitude": -2.0}}
    plan = plan_of(unknown, british, {"season": {"until": date(2027, 9, 20)}})
    assert plan.care_alone and false_words(plan) == []
    assert plan.lawn.units == System.METRIC
    assert "last_mow" in {item.operation for item in plan.handover}


def test_what_is_said_later_moves_the_plan() -> None:
    """Dethatching that is rained off takes its cut along; what is done stays, and the judge still
    accepts it."""
    first = cared_for().plan
    day = task_of(first, "dethatch").start
    entries = (
        entry(1, "done", "soil_test", task_of(first, "soil_test").start),
        entry(2, "rained_off", None, day),
        entry(3, "skipped", "core_aerate.1", day),
    )
    again = plan_of(CARE, now=at(day), journal=entries, previous=first)
    assert task_of(again, "dethatch").start > day
    assert task_of(again, "mow_low.1").start <= task_of(again, "dethatch").start
    assert task_of(again, "core_aerate.1").closed == "skipped"
    assert task_of(again, "soil_test").closed == "done"


def test_a_lawn_may_be_filled_after_all() -> None:
    """A brief that asks for work later has it, and one that gives it up is cared for."""
    care, work = cared_for().plan, plan_of()
    april = datetime(2027, 4, 20, 12, tzinfo=UTC)
    filled = plan_of(now=april, previous=care)
    assert filled.campaign == "autumn" and any(t.plays("spreading") for t in filled.tasks)
    given_up = plan_of(CARE, now=april, previous=work)
    assert given_up.care_alone
    assert not [t.id for t in given_up.tasks if t.plays(*NOT_CARE) and t.closed is None]


def test_the_book_of_care_tells_no_fill_and_measures_no_gap() -> None:
    """Its days that matter are those of care; the screen alone says how to ask for more."""
    plan = cared_for().plan
    page = book_html(plan, words_for("en", System.US))
    assert "No work is planned" not in page and "straight board" not in page
    assert "Fill, settled" not in page and "Dethatch, rake up and remove" in page
    assert "rooted grass outside it" not in page
    reason = plan.campaign_reason[0]
    assert "[leveling]" not in str(reason)
    assert "[leveling]" in words_for("en", System.US).on_terminal().text(reason)


def task_of(plan: Plan, name: str) -> Task:
    """The task of that id; it must be there."""
    found = plan.task(name)
    assert found is not None, name
    return found


def entry(number: int, kind: str, task: str | None, day: date) -> JournalEntry:
    """An entry of the journal."""
    return JournalEntry.model_validate(
        {"number": number, "at": at(day), "kind": kind, "task": task, "on": day}
    )
