"""What goes beyond the end that an owner gave is handed over, with the day or the sign of each."""

from dataclasses import replace
from datetime import date, timedelta
from types import SimpleNamespace
from typing import Any

import pytest

from planning import first, kind, plan_of
from sample_plan import sample_plan
from test_work_campaigns import autumn_of, days_of, opened, plain, spring_of
from told import told
from turfplan.message import Days, Number, as_written, cut_height, length_mm, listed, sentences
from turfplan.phrases import handover as phrases
from turfplan.planning.handover import (
    _next_heights,
    _rest_of_fill,
    _sign_of_cut,
    _water,
    undone,
)
from turfplan.planning.handover import told as list_of
from turfplan.records.plan import Handover, Option, Plan
from turfplan.records.plan_task import NOTHING, Task, WateringStage
from turfplan.work import horizon
from turfplan.work.campaigns import Campaign, Session
from turfplan.work.drafts import Band
from turfplan.work.lawn import Levelling, ResolvedLawn
from turfplan.work.phases.first_cuts import heights_after

WICHITA: dict[str, Any] = {"place": {"postal_code": "67203", "country": "US"}}
LEEDS: dict[str, Any] = {
    "lawn": {"grass": "perennial_ryegrass", "area": "300 m2", "condition": "bare"},
    "place": {"postal_code": None, "latitude": 53.8, "longitude": -1.55, "country": "GB"},
    "leveling": {"depth": "0 mm"},
    "seeding": {"intent": "renovate"},
}
SOD: dict[str, Any] = {
    "lawn": {"grass": "bermuda_hybrid", "condition": "bare"},
    "place": {"postal_code": "30303", "country": "US"},
    "leveling": {"depth": "0 in"},
    "seeding": {"intent": "plant", "form": "sod"},
}


def ended(changes: dict[str, Any], begin: date, until: date) -> tuple[Plan, Plan]:
    """A plan that its owner ends, and the same without an end."""
    return (
        plan_of(changes, {"season": {"from": begin, "until": until}}, options=False),
        plan_of(changes, {"season": {"from": begin}}, options=False),
    )


def later(plan: Plan, operation: str) -> list[Handover]:
    """What of one operation is handed over."""
    return [item for item in plan.handover if item.operation == operation]


@pytest.mark.full
def test_feedings_water_heights_and_looks_are_handed_over() -> None:
    """Ended in mid October, the plan leaves what the same lawn without an end still does, on its
    days: feedings, the water of seedlings, both first cuts' heights, looks."""
    until = date(2027, 10, 15)
    plan, whole = ended(WICHITA, date(2027, 8, 1), until)
    assert [t.start for t in kind(plan, "overseed")] == [t.start for t in kind(whole, "overseed")]
    fed = {task.start for task in kind(whole, "feed_nitrogen") if task.start > until}
    assert fed and fed == {item.start for item in later(plan, "feed_nitrogen")}
    water = max(task.end for task in kind(whole, "water"))
    assert water > until and water == max(item.end for item in later(plan, "water"))
    (cut,), (height,) = later(plan, "first_mow"), later(plan, "mow")
    assert cut.start == first(whole, "first_mow").start and told(cut.sign)
    assert height.start > cut.start and told(height.sign)
    looks = [task.start for task in kind(whole, "inspect") if task.start > until]
    assert looks == [item.start for item in later(plan, "inspect")]


@pytest.mark.full
@pytest.mark.parametrize(
    ("changes", "begin", "until"),
    [
        (LEEDS, date(2027, 8, 1), date(2027, 9, 12)),
        (SOD, date(2027, 4, 1), date(2027, 6, 1)),
        ({}, date(2027, 8, 1), date(2027, 9, 30)),
    ],
    ids=["leeds", "sod", "pennsylvania"],
)
def test_every_item_has_its_days_and_is_told(
    changes: dict[str, Any], begin: date, until: date
) -> None:
    """Seed or sod that the end leaves young has its water, food and heights on the list, after that
    end, and the list is told with the plan."""
    plan, _ = ended(changes, begin, until)
    assert plan.conflict is None
    for operation in ("feed_nitrogen", "water", "mow"):
        assert later(plan, operation), operation
    assert all(until < item.end and item.start <= item.end for item in plan.handover)
    shown = " ".join(told(line) for line in plan.cautions)
    assert all(told(item.title) in shown for item in plan.handover)
    mine = {(task.operation, task.start) for task in plan.tasks}
    assert not mine & {(item.operation, item.start) for item in plan.handover}


@pytest.mark.full
def test_a_plan_without_an_end_hands_nothing_over() -> None:
    """It runs until the last of its follow-ups."""
    assert plan_of(WICHITA).handover == ()


SAMPLE = sample_plan()
LAST = date(2027, 9, 14)


def lawn() -> ResolvedLawn:
    """The plain lawn: tall fescue, cut to three inches at first."""
    return plain()


def way(sow: Any = None, *sessions: date) -> Campaign:
    """A campaign of sessions that end on some days."""
    made = tuple(
        Session(n, days_of("topdress", day, day), (), False) for n, day in enumerate(sessions, 1)
    )
    return Campaign("autumn", as_written(""), (), made, sow, 0.0)


def cut_on(start: date, end: date) -> Task:
    """A first cut on some days."""
    found = SAMPLE.task("first_mow")
    assert found is not None
    return found.model_copy(update={"start": start, "end": end})


def heights(last: date, *tasks: Task) -> list[Handover]:
    """The heights that are handed over after a last day."""
    return list(_next_heights(lawn(), way(days_of("overseed", LAST, LAST)), tasks, last))


def test_heights_go_on_for_two_weeks_after_the_first_cut() -> None:
    """Beyond the last day: from the day after it, or after the cut where that is later."""
    cut = cut_on(date(2027, 10, 16), date(2027, 10, 17))
    until = date(2027, 10, 31)
    (before,) = heights(date(2027, 10, 10), cut)
    assert (before.start, before.end) == (date(2027, 10, 18), until)
    (after,) = heights(date(2027, 10, 20), cut)
    assert (after.start, after.end) == (date(2027, 10, 21), until)
    assert len(heights(date(2027, 10, 30), cut)) == 1 and heights(until, cut) == []
    assert heights(LAST, *(t for t in SAMPLE.tasks if not t.plays("first_cut"))) == []
    due = heights_after(lawn(), way(days_of("overseed", LAST, LAST)))
    assert before.sign == phrases.sign_height(due=cut_height(due.due))
    assert before.operation == "mow" and before.reason == cut.why
    assert before.title == phrases.heights(
        height=cut_height(due.kept),
        least=length_mm(due.usual_least, kind="height"),
        most=length_mm(due.usual_most, kind="height"),
    )


def test_a_first_cut_is_due_by_its_height_and_other_tasks_by_their_day() -> None:
    """Nothing is said of these."""
    campaign = way(days_of("overseed", LAST, LAST))
    due = cut_height(heights_after(lawn(), campaign).due)
    assert _sign_of_cut(lawn(), campaign, cut_on(LAST, LAST)) == phrases.sign_first_mow(due=due)
    seed = SAMPLE.task("overseed")
    assert seed is not None and _sign_of_cut(lawn(), campaign, seed) == NOTHING


def run(stage: str, start: date, end: date, rate: float = 10.0) -> Task:
    """A watering of a stage."""
    found = next(t for t in SAMPLE.tasks if t.stage is not None)
    made = WateringStage(id=stage, name=as_written(stage), rate_mm_h=rate)
    return found.model_copy(update={"stage": made, "start": start, "end": end})


def test_stages_of_water_beyond_the_last_day_are_told_once_each() -> None:
    """From the day after it or from their own first; weeks of one stage are one, whatever their
    times; seed that is up ends its first stage, and a plain stage ends by its day."""
    day = timedelta(1)
    runs = [
        run("germination", LAST - 5 * day, LAST + day),
        run("germination", LAST + 2 * day, LAST + 8 * day, 20.0),
        run("settle", LAST + 3 * day, LAST + 4 * day),
        run("establishment", LAST - 9 * day, LAST),
        run("rooting", LAST + day, LAST + day),
    ]
    dry = SAMPLE.task("overseed")
    assert dry is not None
    found = list(_water([*runs, dry.model_copy(update={"end": LAST + day})], LAST))
    assert [(h.title, h.start, h.end) for h in found] == [
        (as_written("germination"), LAST + day, LAST + 8 * day),
        (as_written("settle"), LAST + 3 * day, LAST + 4 * day),
        (as_written("rooting"), LAST + day, LAST + day),
    ]
    assert [h.sign for h in found] == [
        phrases.sign_germination(),
        NOTHING,
        phrases.sign_rooting(),
    ]
    assert found[0].reason == runs[0].why and found[0].operation == "water"
    (grown,) = _water([run("establishment", LAST + day, LAST + day)], LAST)
    assert grown.sign == phrases.sign_establishment()


def rest(
    campaign: Campaign, *bands: Band, worked: date = LAST, sown: date | None = None
) -> list[Handover]:
    """The rest of the fill, with windows in April and August of each year."""
    setting = opened(
        *(w for year in (2027, 2028, 2029) for w in (spring_of(year), autumn_of(year)))
    )
    left = replace(setting, levelling=replace(setting.levelling, left=bands))
    days = {"a": 700000, "b": worked.toordinal()}
    drafts: tuple[Any, ...] = ()
    if sown is not None:
        days["overseed"] = sown.toordinal()
        drafts = (SimpleNamespace(id="overseed", operation="overseed", end_node="overseed.end"),)
    dated = SimpleNamespace(schedule=SimpleNamespace(days=days))
    tasks = SimpleNamespace(drafts=drafts)
    best: Any = SimpleNamespace(setting=left, campaign=campaign, dated=dated, season=tasks)
    return list(_rest_of_fill(setting, best))


def test_the_rest_of_the_fill_waits_for_the_next_season_that_has_room() -> None:
    """By the grass of the last pass, by the seed where one was sown; its deepest part is told."""
    bands = (Band(4.0, 0.5), Band(9.0, 0.1), Band(6.0, 0.2))
    (found,) = rest(way(), *bands)
    assert (found.start, found.end) == (date(2028, 4, 1), date(2028, 5, 31))
    assert found.operation == "topdress" and found.reason == as_written("why")
    assert found.title == phrases.rest_of_fill(depth=length_mm(9.0))
    assert rest(way()) == []
    # Autumn is best on 1 September: 21 days after 11 August it is, after 12 August it is not.
    (near,) = rest(way(None, date(2027, 4, 1), date(2027, 8, 11)), *bands)
    assert near.start == date(2027, 8, 15)
    (far,) = rest(way(None, date(2027, 8, 12)), *bands)
    assert far.start == date(2028, 4, 1)
    (early,) = rest(way(), *bands, worked=date(2027, 9, 1))
    assert early.start == date(2027, 8, 15)
    assert rest(way(), *bands, worked=date(2029, 12, 1)) == []


def test_a_rest_that_one_season_does_not_hold_is_begun_in_it() -> None:
    """With its passes, and how many of them that season takes: nobody is told to do in one what was
    ruled out there."""
    (found,) = rest(way(), Band(90.0, 0.6))
    assert found.title.key == "handover.rest_in_seasons"
    told = dict(found.title.values)
    assert told["depth"] == length_mm(90.0) and 0 < told["n"] < told["passes"]
    levelling = Levelling((), 0.0, 0.0, 0.1, left=(Band(90.0, 0.6),))
    part = phrases.undone_next_part(days=Days(found.start, found.end))
    said = undone(levelling, (found,), ())
    assert said == phrases.undone_all(depth=length_mm(90.0), rest=sentences(part))


def test_seed_has_to_be_mown_before_the_rest_of_the_fill(monkeypatch: pytest.MonkeyPatch) -> None:
    """So many days after the end of its window, whatever the passes before."""
    monkeypatch.setattr(horizon, "undressed_days", lambda lawn, campaign: 90)
    sow = days_of("overseed", date(2027, 5, 1), date(2027, 6, 3))
    (found,) = rest(way(sow, date(2027, 12, 1)), Band(4.0, 0.5))
    assert found.start == date(2027, 8, 15)
    later = replace(sow, end=date(2027, 6, 4))
    assert rest(way(later), Band(4.0, 0.5))[0].start == date(2028, 4, 1)
    # A season that lasts all year holds the rest up no longer than the seed that went in early.
    (soon,) = rest(way(later), Band(4.0, 0.5), sown=date(2027, 5, 1))
    assert soon.start == date(2027, 8, 15)


def test_what_is_left_of_the_fill_is_told_with_its_season_and_a_way() -> None:
    """The first of each; all of it, or the part with its share and what is done."""
    kept, left = Band(12.0, 1.0), (Band(4.0, 0.25), Band(9.0, 0.125))
    part = Levelling((kept,), 0.0, 0.0, 0.1, left=left)
    days = date(2028, 4, 1), date(2028, 5, 31)
    items = tuple(
        Handover(operation=o, title=as_written("t"), start=days[0], end=days[1])
        for o in ("water", "topdress", "topdress")
    )
    ways = tuple(
        Option(title=as_written(t), reason=as_written("r"), change=as_written("c"))
        for t in ("one", "two")
    )
    next_time = phrases.undone_next(days=Days(*days))
    way_out = phrases.undone_way(
        title=as_written("one"), change=as_written("c"), reason=as_written("r")
    )
    nine = length_mm(9.0)
    assert undone(part, items, ways) == phrases.undone_part(
        depth=length_mm(12.0),
        left=nine,
        share=Number(0.375, "percent"),
        rest=sentences(next_time, way_out),
    )
    whole = replace(part, bands=())
    assert undone(whole, items[:1], ()) == phrases.undone_all(depth=nine, rest=sentences())
    assert undone(whole, items, ()) == phrases.undone_all(depth=nine, rest=sentences(next_time))


def test_the_list_is_one_caution_or_none() -> None:
    """An item by its sign where it has one."""
    assert list_of(()) is None
    plain_item = Handover(operation="mow", title=as_written("a"), start=LAST, end=LAST)
    signed = plain_item.model_copy(update={"sign": as_written("s")})
    days = Days(LAST, LAST, weekday=False)
    lines = (
        phrases.item(title=as_written("a"), days=days),
        phrases.item_by_sign(title=as_written("a"), days=days, sign=as_written("s")),
    )
    assert list_of((plain_item, signed)) == phrases.after_the_plan(items=listed(lines, "comma"))


def test_beside_lifted_hollows_what_is_left_is_told_alone() -> None:
    """What is lifted is not said to be left out; without it nothing of the fill is spread."""
    left = (Band(12.7, 0.15),)
    lifted = Levelling((), 0.06, 31.75, 0.1, left=left)
    said = undone(lifted, (), ())
    assert said.key == "handover.undone.beside_lifted"
    assert dict(said.values)["share"] == Number(0.15, "percent")
    assert undone(replace(lifted, lift_share=0.0), (), ()).key == "handover.undone.all"
    spread = replace(lifted, bands=(Band(6.0, 0.1),))
    assert undone(spread, (), ()).key == "handover.undone.part"
