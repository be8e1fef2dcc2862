"""Ground without living grass: how it is opened, filled and graded, and when a lift is wished."""

from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise
from typing import Any

import pytest

from planning import brief_of
from resolved_lawns import setting_of
from test_work_campaigns import days_of
from test_work_season import drafted
from turfplan.book.words import book_messages
from turfplan.message import Quantity, as_written, length_mm
from turfplan.phrases import ground_fill as phrases
from turfplan.phrases import open_turf as of_turf
from turfplan.work.campaigns import Campaign, Session
from turfplan.work.drafts import Band, Draft, OpenDays, Pass
from turfplan.work.ground_fill import kill_lead, settling, waits_a_season
from turfplan.work.labour import hours_of_trucks, person_hours
from turfplan.work.lawn import Labour, ResolvedLawn
from turfplan.work.operations import LAST_PASS, PASS
from turfplan.work.phases import new_ground as module
from turfplan.work.phases.new_ground import _tilled, _wished, new_ground

BARE: dict[str, Any] = {
    "lawn": {"condition": "bare"},
    "seeding": {"intent": "renovate"},
    "leveling": {"depth": "4 in"},
}
UNSOWN: dict[str, Any] = {**BARE, "seeding": {"intent": "none"}}
LEVEL: dict[str, Any] = {**BARE, "leveling": {"depth": "0 in"}}
ANEW: dict[str, Any] = {"seeding": {"intent": "renovate"}, "leveling": {"depth": "0 in"}}
FILLED: dict[str, Any] = {**ANEW, "leveling": {"depth": "1 in"}}
SOUR: dict[str, Any] = {**ANEW, "soil_test": {"ph": 5.2, "lime_rate": "50 lb/1000ft2"}}
OPENING = {"kill_stand", "clear_stand", "till", "slit", "grade"}


@pytest.mark.full
@pytest.mark.parametrize(
    ("lawn", "opened_by"),
    [
        (BARE, {"till", "grade"}),
        (LEVEL, {"till", "grade"}),
        (UNSOWN, {"till"}),
        (ANEW, {"kill_stand", "clear_stand", "slit"}),
        (FILLED, {"kill_stand", "clear_stand", "till", "grade"}),
        (SOUR, {"kill_stand", "clear_stand", "till", "grade"}),
        ({}, set()),
    ],
    ids=["bare", "bare and level", "unsown", "anew", "anew and filled", "limed", "turf"],
)
def test_ground_is_opened_by_what_it_is_and_what_goes_on_it(
    lawn: dict[str, Any], opened_by: set[str]
) -> None:
    """Bare ground is tilled, and graded where it is sown; a stand is killed and slit, or tilled
    where soil or lime goes on it; living turf is left alone.
    """
    _, _, drafts = drafted(lawn)
    assert {draft.operation for draft in drafts.values()} & OPENING == opened_by
    if "clear_stand" in opened_by:
        assert drafts["clear_stand"].anchor == ("till" if "till" in opened_by else "slit")
        assert {"kill_stand", "inspect.regrowth", "kill_stand.again"} <= set(drafts)


def test_the_last_lift_settles_before_the_seed() -> None:
    """Lifts are wished one after the other, the last so far ahead of the seed as it settles, as
    far as their own days allow.
    """
    setting, campaign, drafts = drafted(BARE)
    lifts = [draft for draft in drafts.values() if draft.operation == "fill"]
    days = [draft.ideal for draft in lifts]
    assert len(days) >= 2 and all(day is not None for day in days)
    assert campaign.sow_window is not None
    window = campaign.sessions[0].window
    first, last = window.start.toordinal(), window.end.toordinal()
    settled = campaign.sow_window.best.toordinal() - setting.days(settling(setting))
    behind = lifts[-1].duration_days
    assert days[-1] == min(max(settled - behind, first), last)
    for before, after in pairwise(d for d in days if d is not None):
        assert after - before >= setting.pass_interval_days or before == first


def test_lifts_that_nothing_is_sown_on_follow_each_other_at_once() -> None:
    """The first on the best day, each as soon as the one before has settled."""
    setting, campaign, drafts = drafted(UNSOWN)
    best = campaign.sessions[0].window.best.toordinal()
    days = [draft.ideal for draft in drafts.values() if draft.operation == "fill"]
    assert len(days) >= 2
    assert days == [best + n * setting.pass_interval_days for n in range(len(days))]


def lawn(changes: dict[str, Any]) -> ResolvedLawn:
    """The plain lawn with changes."""
    return setting_of(brief_of(changes))


BARE_LAWN, ANEW_LAWN = lawn(BARE), lawn(ANEW)
FIRST, BEST, LAST = date(2027, 7, 1), date(2027, 7, 10), date(2027, 8, 1)


def campaign(*depths: float, sow: date | None = date(2027, 9, 1)) -> Campaign:
    """A session of lifts in July, sown on a day."""
    passes = tuple(
        Pass(n, 1, depth, 1.0, False, 50.0, as_written("")) for n, depth in enumerate(depths, 1)
    )
    window = OpenDays("fill", "summer", FIRST, LAST, BEST, as_written(""), as_written(""))
    seed = None if sow is None else days_of("seed", sow, sow + timedelta(20))
    sessions = (Session(1, window, passes, False),) if passes else ()
    return Campaign("autumn", as_written(""), (), sessions, seed, 0.0)


def work(setting: ResolvedLawn, way: Campaign, volume: float = 3.0) -> dict[str, Draft]:
    """What is done to the ground, each lift of a volume."""
    lifts = {layer.number: volume * layer.number for layer in way.passes}
    return {draft.id: draft for draft in new_ground(setting, way, lifts)}


def ordinal(day: date, more: int = 0) -> int:
    """So many days after a day."""
    return day.toordinal() + more


def test_a_lift_is_wished_back_from_the_seed_within_its_window() -> None:
    """One of a day and no other behind it is a day ahead of what settles; each behind it three."""
    setting = BARE_LAWN
    settled = setting.days(settling(setting))
    way = campaign(20.0, 20.0, sow=date(2027, 7, 20) + timedelta(settled))
    session = way.sessions[0]
    wished = date(2027, 7, 20)
    assert _wished(setting, way, session, 0, 4) == ordinal(wished, -4)
    assert _wished(setting, way, session, 1, 19) == ordinal(FIRST)
    assert _wished(setting, way, session, 1, 20) == ordinal(FIRST), "not before its window"
    assert _wished(setting, way, session, 1, -13) == ordinal(LAST), "nor after it"
    unsown = replace(way, sow_window=None)
    apart = setting.pass_interval_days
    assert _wished(setting, unsown, session, 0, 4) == ordinal(BEST)
    assert _wished(setting, unsown, session, 2, 4) == ordinal(BEST, 2 * apart)


def test_lifts_follow_as_they_settle() -> None:
    """With three lifts of a day the first is wished two intervals and a day ahead of the last."""
    setting = replace(BARE_LAWN, labour=Labour(9, 12.0, 15.0, 7))
    settled = setting.days(settling(setting))
    way = campaign(20.0, 20.0, 20.0, sow=date(2027, 7, 31) + timedelta(settled))
    lifts = [d for d in work(setting, way).values() if d.operation == "fill"]
    assert [d.duration_days for d in lifts] == [1, 1, 1] and setting.pass_interval_days == 3
    end = ordinal(date(2027, 7, 31))
    assert [d.ideal for d in lifts] == [end - 7, end - 4, end - 1]
    assert [d.priority for d in lifts] == [PASS, PASS, LAST_PASS]
    assert [(d.loose_m3, d.depth_mm, d.position) for d in lifts] == [
        (3.0, 20.0, 1),
        (6.0, 20.0, 2),
        (9.0, 20.0, 3),
    ]
    lifts_of = phrases.lifts(depth=length_mm(setting.levelling.depth_mm), n=3)
    assert lifts[0].why == lifts_of
    assert work(setting, campaign(20.0))["fill.1"].why == phrases.one_lift()


def test_lifts_that_take_days_lie_as_far_apart_as_they_take() -> None:
    """One of more days than a layer settles pushes the one before it that far ahead."""
    setting = replace(BARE_LAWN, labour=Labour(1, 1.0, 15.0, 7))
    settled = setting.days(settling(setting))
    way = campaign(20.0, 20.0, sow=LAST + timedelta(settled))
    first, last = (d for d in work(setting, way, 1.0).values() if d.operation == "fill")
    assert first.duration_days > 3 and first.ideal is not None
    behind = 2 * first.duration_days
    assert first.ideal == max(ordinal(LAST, -behind), ordinal(FIRST))
    assert last.ideal == ordinal(LAST, -last.duration_days)


def test_soil_comes_a_day_ahead_of_its_first_lift() -> None:
    """All of a session at once."""
    drafts = work(BARE_LAWN, campaign(20.0, 20.0))
    received = drafts["delivery.1"]
    assert (received.anchor, received.offset, received.position) == ("fill.1", -1, 1)
    assert received.loose_m3 == 9.0 and received.session == 1
    by_hand = person_hours(
        BARE_LAWN, BARE_LAWN.book.operations["delivery"], BARE_LAWN.plot.area_m2, 9.0
    )
    trucks = hours_of_trucks(BARE_LAWN, 9.0)
    assert received.person_hours == pytest.approx(by_hand + trucks, abs=0.006)


def test_ground_is_loosened_right_before_the_first_lift_else_before_the_grade() -> None:
    """With cautions for a septic field and for trees."""
    till = work(BARE_LAWN, campaign(20.0))["till"]
    assert (till.anchor, till.offset, till.session) == ("fill.1", -1, 1)
    flat = work(BARE_LAWN, campaign())["till"]
    least = BARE_LAWN.days("open_ground.settle_least")
    assert (flat.anchor, flat.offset, flat.session) == ("grade", -least, 0)
    site = BARE_LAWN.brief.site.model_copy(update={"septic_field": True, "trees": False})
    septic = replace(BARE_LAWN, brief=BARE_LAWN.brief.model_copy(update={"site": site}))
    site = site.model_copy(update={"septic_field": False, "trees": True})
    trees = replace(BARE_LAWN, brief=BARE_LAWN.brief.model_copy(update={"site": site}))
    said = [work(each, campaign(20.0))["till"].cautions for each in (BARE_LAWN, septic, trees)]
    fields, roots = of_turf.septic_field(), of_turf.tree_roots()
    assert [(fields in c, roots in c) for c in said] == [
        (False, False),
        (True, False),
        (False, True),
    ]


@pytest.mark.parametrize(
    ("old", "filled", "told"),
    [
        ("tall_fescue", True, (False, False)),
        ("bermuda_common", True, (True, True)),
        ("bermuda_common", False, (False, False)),
        ("kikuyu", True, (True, True)),
    ],
)
def test_runners_that_loosening_cuts_are_told_of(
    old: str, filled: bool, told: tuple[bool, bool]
) -> None:
    """With the second treatment, for a look before the seed, and with the final grade; not where
    nothing is loosened, nor of grass without runners."""
    grass = {"lawn": {**ANEW.get("lawn", {}), "grass": old}, "seeding": {"species": "tall_fescue"}}
    base = FILLED if filled else ANEW
    seeding = {**base.get("seeding", {}), **grass["seeding"]}
    setting = lawn({**base, **grass, "seeding": seeding})
    drafts = work(setting, campaign(25.0) if filled else campaign())
    keys = {step.key for step in drafts["kill_stand.again"].how or ()}
    last = {step.key for step in (drafts["grade"].how if "grade" in drafts else None) or ()}
    assert ("ground_fill.runners_later" in keys, "ground_fill.runners_dug" in last) == told


def test_a_stand_is_killed_ahead_of_the_seed_and_looked_at_in_between() -> None:
    """What comes again is treated on the day of the look."""
    setting = ANEW_LAWN
    drafts = work(setting, campaign())
    kill, look, again = (drafts[k] for k in ("kill_stand", "inspect.regrowth", "kill_stand.again"))
    assert (kill.anchor, kill.offset) == ("sowing", -kill_lead(setting))
    days = setting.days("renovate.regrowth_look")
    assert (look.anchor, look.offset, look.facts) == (
        "kill_stand",
        days,
        ("renovate.regrowth_look",),
    )
    assert (again.anchor, again.offset, again.position) == ("inspect.regrowth", 0, 2)
    clear, slit = drafts["clear_stand"], drafts["slit"]
    assert (clear.anchor, clear.offset, clear.why) == ("slit", 0, phrases.clear())
    assert (slit.anchor, slit.offset) == ("sowing", -1)
    mulch = phrases.clear_mulch()
    assert clear.how == book_messages(setting.book, "operations.clear_stand.how", {"how": mulch})
    filled = work(lawn(FILLED), campaign(25.0))["clear_stand"]
    raked = phrases.clear_all()
    assert filled.how == book_messages(setting.book, "operations.clear_stand.how", {"how": raked})


def test_turf_that_is_a_sponge_is_stripped_by_its_volume() -> None:
    """50 mm of 464.5 m2 are 23.2 m3, and the hours to wheel them away."""
    setting = lawn({**ANEW, "lawn": {"thatch": "50 mm"}})
    strip = work(setting, campaign())["clear_stand"]
    volume = 0.050 * setting.plot.area_m2
    assert strip.why == phrases.strip(thatch=length_mm(50.0))
    assert strip.title == phrases.strip_title(
        volume=Quantity(pytest.approx(volume), "volume", "up")  # type: ignore[arg-type]
    )
    raked = work(ANEW_LAWN, campaign())["clear_stand"].person_hours
    wheeled = volume * setting.book.si("labour.load_wheel_spread")
    assert strip.person_hours == pytest.approx(raked + wheeled, abs=0.011)


def test_the_grade_is_the_day_before_the_seed_and_none_where_nothing_is_sown() -> None:
    """A cover follows the last lift by a day where nothing is sown."""
    drafts = work(BARE_LAWN, campaign(20.0))
    grade = drafts["grade"]
    assert (grade.anchor, grade.offset) == ("sowing", -1)
    assert grade.facts == ("open_ground.footprint", settling(BARE_LAWN))
    unsown = work(lawn(UNSOWN), campaign(20.0, 20.0, sow=None))
    assert "grade" not in unsown
    cover = unsown["nurse_cover"]
    assert (cover.anchor, cover.offset, cover.why) == ("fill.2", 1, phrases.nurse_cover_unsown())
    assert new_ground(lawn({}), campaign(20.0), {1: 1.0}) == []


def test_a_cover_says_whether_it_stands_for_weeks_or_a_season() -> None:
    """Straw for weeks; a fill that settles for a season has a cover that grows."""
    fill = replace(BARE_LAWN.levelling, bands=(Band(200.0, 1.0),))
    slow = replace(BARE_LAWN, labour=Labour(1, 1.0, 15.0, 7), levelling=fill)
    deep = work(slow, campaign(20.0))["nurse_cover"]
    assert waits_a_season(slow) and deep.why == phrases.nurse_cover_season() and deep.how is None
    shallow = replace(lawn({**BARE, "leveling": {"depth": "1 in"}}), labour=slow.labour)
    weeks = work(shallow, campaign(20.0))["nurse_cover"]
    assert weeks.why == phrases.nurse_cover_weeks()
    assert weeks.how == (phrases.nurse_cover_straw(), phrases.nurse_cover_straw_off())


def test_on_a_bank_water_is_told_in_other_words() -> None:
    """Of loosening and of each lift: the last step alone is another."""
    site = BARE_LAWN.brief.site.model_copy(update={"slope_percent": 40.0})
    bank = replace(BARE_LAWN, brief=BARE_LAWN.brief.model_copy(update={"site": site}))
    drafts, book = work(bank, campaign(20.0)), bank.book
    till, fill = drafts["till"].how, drafts["fill.1"].how
    assert till is not None and till[-1] == phrases.till_slope_filled()
    assert fill is not None
    heaps = next(dict(step.values)["heaps"] for step in fill if "heaps" in dict(step.values))
    usual = book_messages(book, "operations.fill.how", {"heaps": heaps})
    assert fill == (*usual[:-1], phrases.fill_bank_water())
    assert work(BARE_LAWN, campaign(20.0))["fill.1"].how is None


def test_nothing_is_worked_into_ground_that_topsoil_buries(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The step of lime and feed is left out; elsewhere the book's own steps hold."""
    monkeypatch.setattr(module, "tested_soil_goes_under", lambda setting: False)
    assert _tilled(BARE_LAWN) is None
    monkeypatch.setattr(module, "tested_soil_goes_under", lambda setting: True)
    stones, _, *rest = book_messages(BARE_LAWN.book, "operations.till.how")
    assert _tilled(BARE_LAWN) == (stones, *rest)
