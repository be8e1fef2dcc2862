"""The last mow comes after the work, when what was sown can be mown."""

from dataclasses import replace
from datetime import date, timedelta
from types import SimpleNamespace
from typing import Any

import pytest

from planning import brief_of, kind, plan_of
from planning import first as first_of
from resolved_lawns import lawn, setting_of
from told import told
from turfplan.message import Message, Quantity, as_written
from turfplan.phrases import care as phrases
from turfplan.phrases import feeding as of_feeding
from turfplan.planning.candidates import draft_campaign
from turfplan.planning.feeding import feeder_for
from turfplan.records.constraints import DaySet
from turfplan.work.campaigns import Campaign, Session, campaigns
from turfplan.work.drafts import Draft, OpenDays
from turfplan.work.emergence import emergence, undressed_days
from turfplan.work.feeding.feedings import NitrogenFeeding
from turfplan.work.feeding.soil_nutrients import NutrientPart
from turfplan.work.feeding.stages import PLANTED
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.mix_choice import choose_mix
from turfplan.work.past_of_lawn import barrier_told, barriers_torn
from turfplan.work.phases.care import (
    _barrier_holds,
    _before_seed,
    _far_from_seed,
    _last_mow,
    _preventer,
    _rests,
    _seed_hold,
    _starter,
    _transition,
    feed_days,
    feed_drafts,
)
from turfplan.work.season_stand import stand_of

LATE: dict[str, Any] = {"season": {"from": date(2027, 10, 10)}}


def window(operation: Any, first: date, last: date, best: date | None = None) -> OpenDays:
    """Open days of an operation, best on the first unless another is named."""
    return OpenDays(operation, "spring", first, last, best or first, as_written(""), as_written(""))


def opened(*windows: OpenDays, base: ResolvedLawn | None = None) -> ResolvedLawn:
    """A lawn with these windows alone."""
    setting = base or lawn()
    return replace(setting, openings=replace(setting.openings, windows=windows))


def way(sow: OpenDays | None = None, *sessions: OpenDays, on_pass: bool = False) -> Campaign:
    """A campaign with seed and sessions in these windows."""
    made = tuple(
        Session(n, one, (), on_pass and n == len(sessions)) for n, one in enumerate(sessions, 1)
    )
    return Campaign("autumn", as_written(""), (), made, sow, 0.0)


SEED = window("overseed", date(2027, 8, 20), date(2027, 9, 20), date(2027, 9, 5))


def test_the_last_mow_is_in_the_first_window_that_the_work_and_its_seed_leave() -> None:
    """One that ends before either is over is not; its best day lies within the plan."""
    best = date(2027, 11, 1)

    def mown(end: date, grown: int | None = None, of: OpenDays | None = SEED) -> bool:
        setting = opened(window("last_mow", best - timedelta(20), end, best))
        up: Any = None if grown is None else SimpleNamespace(mow_best=grown)
        campaign = way(of)
        return _last_mow(setting, campaign, stand_of(setting, campaign), up) is not None

    assert mown(date(2027, 11, 9)) and mown(SEED.best + timedelta(60), 60)
    assert not mown(SEED.best + timedelta(59), 60)
    late = replace(SEED, start=date(2027, 11, 9), end=date(2027, 12, 1), best=date(2027, 11, 9))
    assert mown(date(2027, 11, 9), of=late) and not mown(date(2027, 11, 8), of=late)
    setting = opened(window("last_mow", best, best))
    stand = stand_of(setting, way())
    day = best.toordinal()
    for first, last, found in (
        (day, day, True),
        (day + 1, day + 9, False),
        (day - 9, day - 1, False),
    ):
        inside = replace(setting, first_day=first, last_day=last)
        assert (_last_mow(inside, way(), stand, None) is not None) is found
    mow = _last_mow(setting, way(), stand, None)
    assert mow is not None and mow.ideal == day


def test_a_preventer_lies_far_from_seed_before_it_or_after() -> None:
    """As long as an unknown product holds, or until what was sown is past it."""
    setting = lawn()
    hold = round(setting.book.fact("herbicides.unknown.hold").high_si)
    campaign = way(SEED)
    after = undressed_days(setting, campaign)

    def far(first: date, last: date) -> bool:
        return _far_from_seed(setting, campaign, window("preemergent", first, last))

    before = SEED.start - timedelta(hold)
    assert far(before - timedelta(9), before)
    assert not far(before - timedelta(9), before + timedelta(1))
    later = SEED.end + timedelta(after)
    assert far(later, later + timedelta(9))
    assert not far(later - timedelta(1), later + timedelta(9))
    assert _far_from_seed(setting, way(), window("preemergent", SEED.start, SEED.end))
    planted = replace(setting, sowing=replace(setting.sowing, operation="plant"))
    assert _far_from_seed(planted, campaign, window("preemergent", SEED.start, SEED.end))


def test_a_barrier_holds_within_the_plan_and_clear_of_passes() -> None:
    """By the first and the last day of each."""
    setting = replace(lawn({"seeding": {"intent": "none"}}))
    first, last = date(2027, 4, 1), date(2027, 4, 20)
    spring = window("preemergent", first, last)

    def holds(begin: date, end: date, *sessions: OpenDays) -> bool:
        inside = replace(setting, first_day=begin.toordinal(), last_day=end.toordinal())
        return _barrier_holds(inside, way(None, *sessions), spring)

    year = date(2027, 3, 1), date(2028, 3, 1)
    one = timedelta(1)
    assert holds(*year) and holds(last, year[1]) and not holds(last + one, year[1])
    assert holds(year[0], first) and not holds(year[0], first - one)
    assert not holds(*year, window("topdress", last, last + one))
    assert holds(*year, window("topdress", last + one, last + one))
    assert not holds(*year, window("topdress", first - one, first))
    assert holds(*year, window("topdress", first - one, first - one))


def test_a_preventer_goes_down_in_a_spring_that_suits_crabgrass() -> None:
    """Of cool-season grass, from the mark on; apart from work that comes after it."""
    spring = window("preemergent", date(2028, 4, 1), date(2028, 4, 20), date(2028, 4, 10))
    setting = opened(spring, base=lawn({"season": {"until": date(2028, 12, 1)}}))
    mark = setting.book.si("seeding.crabgrass_summer")

    def put_down(hottest: float, campaign: Campaign, **changes: Any) -> Draft | None:
        air = (10.0,) * 364 + (hottest,)
        climate = replace(setting.climate, air_mean_c=air)
        other = replace(setting, climate=climate, **changes)
        return _preventer(other, campaign, stand_of(other, campaign))

    after = way(SEED)
    found = put_down(mark, after)
    assert found is not None and found.session == 0
    assert found.ideal == spring.best.toordinal()
    assert found.window == (spring.start.toordinal(), spring.end.toordinal())
    assert put_down(mark - 0.1, after) is None
    late = way(window("overseed", date(2028, 9, 1), date(2028, 9, 20)))
    before = put_down(mark, late)
    assert before is not None and before.session == -1
    warm = replace(setting.turf, species=setting.book.species["zoysia"])
    assert put_down(mark, after, turf=warm) is None
    begun = put_down(mark, after, first_day=spring.best.toordinal() + 3)
    assert begun is not None and begun.ideal == spring.best.toordinal() + 3


@pytest.mark.parametrize(
    ("ingredient", "ahead", "guarded"),
    [
        ("pendimethalin", 0, True),
        ("pendimethalin", 30, True),
        ("pendimethalin", 100, False),
        ("prodiamine", 100, True),
        ("unknown", 30, True),
        ("weed-and-feed", 30, True),
        ("2,4-D", 3, False),
        ("glyphosate", 3, False),
        ("pendimethalin", -21, False),
    ],
)
def test_one_preventer_guards_a_spring(ingredient: str, ahead: int, *, guarded: bool) -> None:
    """What still keeps weeds down as the window opens, or was given in it, takes the place of
    another, and the plan says so."""
    spring = window("preemergent", date(2028, 4, 1), date(2028, 4, 20), date(2028, 4, 10))
    use = {"active_ingredient": ingredient, "on": spring.start - timedelta(ahead)}
    base = lawn({"season": {"until": date(2028, 12, 1)}}, {"history": {"herbicides": [use]}})
    setting = opened(spring, base=base)
    hot = (10.0,) * 364 + (setting.book.si("seeding.crabgrass_summer"),)
    setting = replace(setting, climate=replace(setting.climate, air_mean_c=hot))
    found = _preventer(setting, way(SEED), stand_of(setting, way(SEED)))
    assert (found is None) is guarded
    assert bool(barrier_told(setting)) is guarded


def test_blades_break_a_barrier_that_still_works() -> None:
    """Until its weeks are over; a weed killer that is no preventer is no barrier."""
    day = date(2027, 4, 10)
    uses = [{"active_ingredient": name, "on": day} for name in ("prodiamine", "2,4-D")]
    setting = lawn({"history": {"herbicides": uses}})
    over = day.toordinal() + round(setting.book.fact("herbicides.prodiamine.hold").high_si)
    assert [len(barriers_torn(setting, on)) for on in (over, over + 1)] == [1, 0]


def test_ryegrass_is_given_up_in_the_first_spring_that_lies_within_the_plan() -> None:
    """After its sowing; where none was sown there is nothing to give up."""
    spring = window("spring_transition", date(2028, 4, 10), date(2028, 5, 20), date(2028, 5, 1))
    setting = opened(spring)
    cover = replace(setting, sowing=replace(setting.sowing, intent="winter_overseed"))

    def given(
        base: ResolvedLawn = cover, sow: OpenDays | None = SEED, last: date = spring.end
    ) -> bool:
        inside = replace(base, last_day=last.toordinal())
        return _transition(inside, way(sow)) is not None

    assert given() and not given(last=spring.end - timedelta(1))
    assert not given(setting) and not given(sow=None)
    meeting = window("overseed", date(2028, 4, 1), spring.start)
    assert not given(sow=meeting)
    assert given(sow=replace(meeting, end=spring.start - timedelta(1)))
    draft = _transition(replace(cover, last_day=spring.end.toordinal()), way(SEED))
    assert draft is not None and draft.ideal == spring.best.toordinal()


def test_feedings_keep_to_their_days_and_say_what_goes_on_with_them() -> None:
    """Potash, plants that have rooted, seedlings that are pale."""
    setting = lawn()
    day = date(2027, 5, 10)
    plain = NitrogenFeeding(
        "spring", "spring", 2.0, day, day + timedelta(6), day + timedelta(3), as_written("why")
    )
    feeds = (plain, replace(plain, key=PLANTED), replace(plain, key="pale", if_pale=True))
    base = feeder_for(setting)(setting, way(SEED), choose_mix(setting))
    part = NutrientPart(1, 3.0, day, day, "spring")
    plan = replace(base, feeds=feeds, potassium=None, potash=(part,))
    first, planted, pale = feed_drafts(setting, way(SEED), plan)
    ordinal = day.toordinal()
    assert (first.ideal, first.position, first.window) == (
        ordinal + 3,
        ordinal + 3,
        (ordinal, ordinal + 6),
    )
    assert first.how is not None and planted.how is not None
    assert len(first.how) == len(planted.how) + 1
    assert (first.go, planted.go) == (None, phrases.planted_go())
    assert pale.go == of_feeding.seedlings_pale_go()
    limits = feed_days(setting, plan, [first, pale])
    assert [limit.node for limit in limits] == ["feed_nitrogen.spring", "feed_nitrogen.pale"]
    assert limits[0].days == DaySet.of([(ordinal, ordinal + 6)])


def test_a_starter_goes_on_with_the_seed_or_when_it_wakes() -> None:
    """In the last session, where the seed goes on its pass."""
    setting = lawn()
    feed = NitrogenFeeding("starter", "s", 4.0, SEED.best, SEED.best, SEED.best, as_written("why"))
    up: Any = SimpleNamespace(wakes=120)
    passes = window("topdress", SEED.start, SEED.end)
    base = feeder_for(setting)(setting, way(SEED), choose_mix(setting))

    def starter(campaign: Campaign, of: Any = None) -> tuple[int, str | None, int]:
        feeding = replace(base, starter=feed, phosphate=())
        draft = _starter(setting, campaign, feeding, feed, of)
        return draft.session, draft.anchor, draft.offset

    assert starter(way(SEED, passes, passes, on_pass=True)) == (2, "sowing", 0)
    assert starter(way(SEED, passes), up) == (0, "sowing", 120)


def test_a_starter_says_what_brings_the_phosphate_with_it() -> None:
    """A starter of both where none is at hand, else what goes on beside it; nothing where none is
    asked for."""
    feed = NitrogenFeeding("starter", "s", 4.0, SEED.best, SEED.best, SEED.best, as_written("why"))
    part = NutrientPart(1, 5.0, SEED.best, SEED.best, "starter")

    def told(setting: ResolvedLawn, *parts: NutrientPart) -> tuple[Message, ...]:
        base = feeder_for(setting)(setting, way(SEED), choose_mix(setting))
        feeding = replace(base, starter=feed, phosphate=parts)
        how = _starter(setting, way(SEED), feeding, feed, None).how
        assert how is not None
        return how[1:]

    both = phrases.phosphate_of_starter(
        phosphate=Quantity(5.0, "rate"), nitrogen=Quantity(4.0, "rate")
    )
    assert told(lawn(), part) == (both,) and told(lawn()) == ()
    assert told(lawn({"feeding": {"analysis": "20-0-5"}}), part) == (phrases.phosphate(),)


@pytest.mark.full
@pytest.mark.parametrize(
    "changes",
    [{}, LATE, {**LATE, "seeding": {"intent": "none"}}],
    ids=["spring", "late", "late without seed"],
)
def test_the_last_mow_follows_the_work_of_its_campaign(changes: dict[str, Any]) -> None:
    """Of the first season that does not end before it: seed that is not up yet is not mown, and
    work of next year has next year's.
    """
    setting = setting_of(brief_of(changes))
    last_mows = 0
    for campaign in campaigns(setting)[0][:2]:
        found = draft_campaign(setting, campaign, feeder_for(setting), permit=False)
        mow = next((d for d in found.season.drafts if d.operation == "last_mow"), None)
        work = campaign.sow_window or campaign.sessions[-1].window
        up = emergence(setting, campaign)
        ready = work.best + timedelta(up.mow_best if up is not None else 0)
        open_then = [
            w
            for w in setting.open("last_mow")
            if w.end >= max(work.start, ready)
            and setting.first_day <= w.best.toordinal() <= setting.last_day
        ]
        if mow is not None:
            last_mows += 1
            assert mow.ideal == open_then[0].best.toordinal()
    assert last_mows


WINTER_GREEN: dict[str, Any] = {
    "lawn": {"grass": "bermuda_hybrid", "soil": "loamy sand", "thatch": "0.6 in"},
    "place": {"postal_code": "89014"},
    "leveling": {"depth": "0.25 in"},
    "seeding": {"intent": "winter_overseed"},
    "water": {"permit": True},
    "season": {"from": date(2027, 4, 1)},
}


def test_winter_ryegrass_has_no_last_mow_while_it_grows() -> None:
    """It is mown all winter at its own height, and its first cut says how often; in the autumn
    after it was given back the lawn's own grass has its last mow again."""
    plan = plan_of(WINTER_GREEN)
    sown, back = first_of(plan, "overseed").end, first_of(plan, "spring_transition").start
    assert not [task for task in kind(plan, "last_mow") if task.start > sown]
    cut = " ".join(told(line) for line in first_of(plan, "first_mow").how)
    assert "all winter" in cut and "usual" not in cut and "no last mow" in cut
    assert "last cut of the year" not in cut
    longer = plan_of(WINTER_GREEN, {"season": {"until": date(2028, 12, 31)}})
    assert all(task.start > back for task in kind(longer, "last_mow"))
    assert kind(longer, "last_mow")


@pytest.mark.parametrize(
    ("code", "year"), [("68102", 2027), ("60601", 2027), ("17601", 2027), ("55401", None)]
)
def test_a_preventer_guards_the_summer_before_the_seed_or_the_one_after(
    code: str, year: int | None
) -> None:
    """The days of its window that are early enough for the seed will do, where they hold a week;
    what could only come years after the work is no part of its plan."""
    plan = plan_of({"place": {"postal_code": code}})
    laid = kind(plan, "preemergent")
    assert [task.start.year for task in laid] == ([] if year is None else [year])
    setting = setting_of(brief_of({"place": {"postal_code": code}}))
    hold = timedelta(_seed_hold(setting))
    (sown,) = [w for w in setting.open("overseed") if w.start.year == 2027 and w.start.month > 6]
    assert all(task.window.end + hold <= sown.start for task in laid)


def test_the_preventers_window_is_cut_where_a_week_of_it_is_left() -> None:
    """Not where less is, where nothing is sown, nor after the seed."""
    setting = opened()
    hold = _seed_hold(setting)
    campaign = way(SEED)
    for left, cut in ((6, False), (7, True)):
        last = SEED.start - timedelta(hold)
        given = window("preemergent", last - timedelta(left - 1), last + timedelta(10))
        got = _before_seed(setting, campaign, given)
        assert (got.end == last) is cut and (got == given) is not cut
        assert _before_seed(setting, way(), given) == given
    after = window("preemergent", SEED.start, SEED.end)
    assert _before_seed(setting, campaign, after) == after


@pytest.mark.parametrize(
    ("place", "grass", "rests"),
    [
        ((51.5, -0.4), "perennial_ryegrass", True),
        ((35.5, 24.0), "tall_fescue", False),
        ((9.0, 38.7), "kikuyu", False),
        ((33.5, -84.4), "bermuda_common", True),
    ],
)
def test_grass_that_grows_through_the_winter_has_no_last_mow(
    place: tuple[float, float], grass: str, rests: bool
) -> None:
    """London and Atlanta have one; Crete and the highlands of Ethiopia mow on."""
    where = {"latitude": place[0], "longitude": place[1], "postal_code": None, "state": None}
    assert _rests(lawn({"place": where, "lawn": {"grass": grass}})) is rests
