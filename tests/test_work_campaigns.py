"""Campaigns: what is ruled out by counting is what the network cannot date."""

from dataclasses import replace
from datetime import date, timedelta
from functools import lru_cache
from typing import Any

import pytest

from planning import brief_of, example_brief, first, plan_brief, plan_of
from resolved_lawns import setting_of
from turfplan.message import Day, as_written
from turfplan.network import Conflict
from turfplan.planning.candidates import draft_campaign
from turfplan.planning.feeding import feeder_for
from turfplan.planning.schedule import date_season
from turfplan.records.constraints import DaySet, Strength
from turfplan.work.campaigns import (
    _campaign,
    _cool_kind,
    _cost,
    _first_day,
    _in_reach,
    _kind,
    _name,
    _pass_days,
    _sow_choices,
    _stretches,
    campaigns,
    crowded,
    following_autumn,
    room,
)
from turfplan.work.drafts import Band, OpenDays
from turfplan.work.lawn import ResolvedLawn

LAWNS: dict[str, dict[str, Any]] = {
    "week-ends": {"leveling": {"depth": "1.5 in"}},
    "Sundays alone": {"leveling": {"depth": "1 in"}, "calendar": {"weekdays": ["sun"]}},
    "bare": {
        "leveling": {"depth": "2 in"},
        "lawn": {"condition": "bare"},
        "seeding": {"intent": "renovate"},
    },
    "north": {
        "place": {"postal_code": "55401"},
        "lawn": {"grass": "kentucky_bluegrass"},
        "leveling": {"depth": "1 in"},
    },
    "warm": {
        "place": {"postal_code": "30301"},
        "lawn": {"grass": "bermuda_common"},
        "leveling": {"depth": "1.5 in"},
        "seeding": {"intent": "none"},
    },
}


def dated(setting: ResolvedLawn) -> list[tuple[bool, bool]]:
    """For each campaign: whether counting rules it out, and whether the network can date it by all
    strong rules.
    """
    found = []
    for campaign in campaigns(setting)[0]:
        drafted = draft_campaign(setting, campaign, feeder_for(setting), permit=False)
        result = date_season(setting, drafted.season, keep=Strength.STRONG)
        found.append((crowded(setting, campaign) is not None, not isinstance(result, Conflict)))
    return found


@lru_cache(1)
def plain() -> ResolvedLawn:
    """The plain lawn: thin tall fescue, half an inch, overseeded; from 1 March 2027."""
    return setting_of(brief_of())


def days_of(
    operation: str, first: date, last: date, best: date | None = None, **more: Any
) -> OpenDays:
    """Open days of an operation, best on the first of them unless another is named."""
    name: Any = operation
    season = more.pop("season", "autumn")
    return OpenDays(
        name, season, first, last, best or first, as_written("why"), as_written(""), **more
    )


def spring_of(year: int, operation: str = "topdress") -> OpenDays:
    """April and May, best on 20 April."""
    dates = date(year, 4, 1), date(year, 5, 31), date(year, 4, 20)
    return days_of(operation, *dates, season="spring")


def autumn_of(year: int, operation: str = "topdress") -> OpenDays:
    """15 August to September, best on 1 September."""
    return days_of(operation, date(year, 8, 15), date(year, 9, 30), date(year, 9, 1))


def opened(*windows: OpenDays, missed: tuple[OpenDays, ...] = (), **changes: Any) -> ResolvedLawn:
    """The plain lawn with these windows alone."""
    setting = plain()
    openings = replace(setting.openings, windows=windows, missed=missed)
    return replace(setting, openings=openings, **changes)


@pytest.mark.parametrize(
    ("sessions", "sowing", "kind"),
    [
        ([], "autumn", "autumn"),
        ([], "spring", "spring"),
        ([], None, "autumn"),
        (["spring"], "autumn", "autumn"),
        (["autumn"], "spring", "spring"),
        (["spring"], None, "spring"),
        (["spring", "autumn"], "autumn", "spring_then_autumn"),
        (["autumn", "spring"], "spring", "autumn_then_spring"),
        (["autumn", "autumn"], "autumn", "two_years"),
        (["spring", "spring"], None, "two_years"),
        (["spring", "autumn", "spring"], None, "two_years"),
    ],
)
def test_a_cool_campaign_is_called_by_its_halves(
    sessions: list[Any], sowing: Any, kind: str
) -> None:
    """Of its sessions and its seeding."""
    assert _cool_kind(sessions, sowing) == kind


def test_a_campaign_without_cool_grass_sessions_or_seed_has_a_kind_of_its_own() -> None:
    """Warm grass in one summer or several, a cover, bare ground, hollows, seed that waits."""
    setting = plain()

    def kind(*stretch: OpenDays, sow: OpenDays | None = None, lawn: Any = setting) -> str:
        return _kind(lawn, stretch, sow)

    assert kind() == "hollows" and kind(sow=autumn_of(2027)) == "autumn"
    assert kind(sow=days_of("dormant_seed", date(2027, 12, 1), date(2027, 12, 9))) == "dormant"
    warm = replace(setting, turf=replace(setting.turf, species=setting.book.species["zoysia"]))
    assert kind(autumn_of(2027), lawn=warm) == "summer"
    assert kind(spring_of(2027), autumn_of(2027), lawn=warm) == "summer"
    assert kind(autumn_of(2027), autumn_of(2028), lawn=warm) == "two_years"
    bare = replace(setting, turf=replace(setting.turf, condition="bare"))
    assert kind(spring_of(2027), lawn=bare) == "bare_ground"
    assert kind(sow=autumn_of(2027), lawn=bare) == "autumn"
    cover = replace(setting, sowing=replace(setting.sowing, intent="winter_overseed"))
    assert kind(sow=autumn_of(2027), lawn=cover) == "winter_cover"


def named(*stretch: OpenDays, sow: OpenDays | None = None, first: date | None = None) -> Any:
    """The key and the years of a campaign's name."""
    setting = plain()
    if first is not None:
        setting = replace(setting, first_day=first.toordinal())
    found = _name(setting, stretch, sow)
    values = dict(found.values)
    return found.key.rpartition(".")[2], *(values.get(n) for n in ("year", "first", "last"))


def test_a_name_has_the_year_in_which_its_last_window_begins_within_the_plan() -> None:
    """One that has begun counts from the plan's first day."""
    assert named(spring_of(2027)) == ("in_year", "2027", None, None)
    assert named(spring_of(2027), sow=autumn_of(2028)) == ("in_year", "2028", None, None)
    turn = days_of("overseed", date(2026, 12, 1), date(2027, 3, 1))
    assert named(sow=turn) == ("in_year", "2027", None, None)
    before = date(2026, 11, 1)
    assert named(sow=turn, first=before) == ("in_year", "2026", None, None)
    over = days_of("overseed", date(2026, 9, 1), date(2026, 10, 1))
    assert named(sow=over) == ("in_year", "2026", None, None)
    assert named()[0] != "in_year"


def test_a_campaign_of_several_years_has_its_first_and_its_last() -> None:
    """More than two are counted; a session that has begun counts from the plan's first day."""
    assert named(autumn_of(2027), autumn_of(2028)) == ("in_years", None, "2027", "2028")
    long = _name(plain(), (autumn_of(2027), autumn_of(2028), autumn_of(2029)), None)
    inner = dict(long.values)["name"]
    assert dict(inner.values)["n"] == 3 and dict(long.values)["last"] == "2029"  # type: ignore[union-attr]
    two = dict(_name(plain(), (autumn_of(2027), autumn_of(2028)), None).values)["name"]
    assert "n" not in dict(two.values)  # type: ignore[union-attr]
    early = autumn_of(2026), autumn_of(2027), autumn_of(2028)
    assert named(*early) == ("in_years", None, "2027", "2028")


SESSIONS = [spring_of(2027), autumn_of(2027), spring_of(2028), autumn_of(2028)]


def stretches(depth_in: float, sow: OpenDays | None, sessions: Any = None) -> list[list[int]]:
    """The runs of sessions, by number, that could carry a fill of so many inches."""
    setting = plain()
    bands = (Band(25.4 * depth_in, 1.0),) if depth_in else ()
    lawn = replace(setting, levelling=replace(setting.levelling, bands=bands))
    known = SESSIONS if sessions is None else sessions
    return [
        [SESSIONS.index(w) for w in stretch] + ([-1] if why else [])
        for stretch, why in _stretches(lawn, known, sow)
    ]


def test_a_fill_is_carried_by_as_few_sessions_as_it_needs_or_some_more() -> None:
    """Those right before the seed; without seed any in a row."""
    more = round(plain().book.si("campaign.extra_sessions"))
    assert more == 2
    assert stretches(0, autumn_of(2028)) == [[]]
    assert stretches(0.5, autumn_of(2028)) == [[3], [2, 3], [1, 2, 3]]
    assert stretches(1.0, autumn_of(2027)) == [[0, 1]]
    assert stretches(0.5, None) == [
        *([n] for n in range(4)),
        *([n, n + 1] for n in range(3)),
        *([n, n + 1, n + 2] for n in range(2)),
    ]
    # The sessions that begin after the seed's last day come too late.
    assert stretches(0.5, days_of("overseed", date(2027, 8, 1), date(2027, 8, 15))) == [[1], [0, 1]]
    assert stretches(0.5, days_of("overseed", date(2027, 8, 1), date(2027, 8, 14))) == [[0]]


def test_too_few_sessions_rule_a_campaign_out() -> None:
    """With those that there are, if any."""
    assert stretches(1.0, spring_of(2027)) == [[0, -1]]
    assert stretches(0.5, None, []) == [[-1]]


def test_windows_within_reach_end_no_earlier_than_the_plan_begins() -> None:
    """And begin no later than it ends."""
    setting = replace(
        plain(), first_day=date(2027, 5, 31).toordinal(), last_day=date(2028, 4, 1).toordinal()
    )
    assert _in_reach(setting, SESSIONS) == SESSIONS[:3]
    later = replace(
        plain(), first_day=date(2027, 6, 1).toordinal(), last_day=date(2028, 3, 31).toordinal()
    )
    assert _in_reach(later, SESSIONS) == SESSIONS[1:2]


def test_spring_seed_is_followed_by_the_next_autumn_of_its_operation() -> None:
    """A year after the last that is known; of warm grass, and of seed in autumn, by none."""
    spring, autumn = spring_of(2028, "overseed"), autumn_of(2028, "overseed")
    known = opened(spring, autumn, autumn_of(2029, "overseed"), autumn_of(2028))
    assert following_autumn(known, spring) == autumn.end
    assert following_autumn(known, autumn) is None
    assert following_autumn(known, replace(spring, operation="plant")) is None
    past = autumn_of(2027, "overseed")
    missed = opened(spring, missed=(past,))
    assert following_autumn(missed, spring) == past.end + timedelta(365)
    assert following_autumn(opened(spring, autumn_of(2028)), spring) is None
    warm = replace(known, turf=replace(known.turf, species=known.book.species["zoysia"]))
    assert following_autumn(warm, spring) is None


def test_passes_follow_each_other_by_their_least_interval_where_nothing_grows() -> None:
    """On bare ground a layer settles; each as much later as there is slack, on open days."""
    setting = plain()
    bare = replace(setting, turf=replace(setting.turf, condition="bare"))
    least, first = bare.pass_interval_days, date(2027, 5, 1)
    every = DaySet.of([(bare.first_day, bare.last_day)])

    def held(days: int, slack: int = 0, open_days: DaySet = every, lawn: Any = bare) -> int:
        window = days_of("topdress", first, first + timedelta(days))
        return _pass_days(lawn, window, open_days, slack)

    assert [held(n) for n in (0, least - 1, least, 2 * least - 1, 2 * least)] == [1, 1, 2, 2, 3]
    assert [held(n, 2) for n in (least + 1, least + 2)] == [1, 2]
    odd = DaySet.from_days([first.toordinal() + n for n in (1, least, least + 1, least + 2)])
    assert [held(n, open_days=odd) for n in (0, 1, least, least + 1)] == [0, 1, 1, 2]
    late = replace(bare, first_day=first.toordinal() + least)
    assert held(least, lawn=late) == 1
    # Living grass grows through the last first: that takes no less time.
    assert held(60, lawn=setting) <= held(60)
    assert room(bare, days_of("topdress", first, first)) == 1
    slack = round(bare.book.si("passes.slack_days"))
    three = room(bare, days_of("topdress", first, first + timedelta(2 * (least + slack))))
    assert three == 3


def cost(kind: Any, stretch: tuple[OpenDays, ...], sow: OpenDays | None, **changes: Any) -> float:
    """What a campaign costs beside its kind."""
    setting = replace(plain(), **changes)
    book = setting.book
    return _cost(setting, kind, stretch, sow) - book.si(book.campaigns[kind].cost)


def test_a_campaign_costs_its_sessions_and_the_waiting_for_its_end() -> None:
    """Beyond some days of grace, by the year; longer for bare ground."""
    book, begin = plain().book, date.fromordinal(plain().first_day)
    grace = book.si("campaign.waiting_grace")
    session, year = (book.si(f"campaign.cost_{n}") for n in ("session", "year_of_waiting"))
    at = days_of("overseed", begin + timedelta(round(grace)), date(2028, 9, 1))
    assert cost("autumn", (), None) == 0 and cost("autumn", (), at) == pytest.approx(0)
    year_on = days_of("overseed", begin + timedelta(round(grace) + 73), date(2028, 9, 1))
    assert cost("autumn", (), year_on) == pytest.approx(year / 5)
    assert cost("autumn", (at, at), year_on) == pytest.approx(year / 5 + 2 * session)
    assert cost("autumn", (at, year_on), None) == pytest.approx(year / 5 + 2 * session)
    bare = replace(plain().turf, condition="bare")
    waited = cost("autumn", (), year_on, turf=bare)
    assert waited == pytest.approx(book.si("campaign.cost_year_bare") / 5)
    soon = days_of("overseed", begin, date(2028, 9, 1))
    assert cost("autumn", (), soon) == 0


def test_seed_in_spring_after_two_years_costs_as_spring_does() -> None:
    """Of cool-season grass alone."""
    spring, autumn = (of(2029, "overseed") for of in (spring_of, autumn_of))
    more = plain().book.si("campaign.cost_spring")

    def waiting(sow: OpenDays) -> float:
        return cost("spring", (), sow)

    assert cost("two_years", (), spring) - waiting(spring) == pytest.approx(more)
    assert cost("two_years", (), autumn) == pytest.approx(waiting(autumn))
    warm = replace(plain().turf, species=plain().book.species["zoysia"])
    assert cost("two_years", (), spring, turf=warm) == pytest.approx(waiting(spring))


def test_a_campaign_is_late_where_a_window_is_held_open() -> None:
    """A session's, or that of the seed; it begins with the first of them."""
    found = next(c for c in campaigns(plain())[0] if c.sessions and c.sow_window)
    assert not found.late
    held = replace(found.sessions[0].window, safe_end=date(2027, 5, 1))
    assert replace(found, sessions=(replace(found.sessions[0], window=held),)).late
    assert found.sow_window is not None
    late = replace(found.sow_window, safe_end=date(2027, 5, 1))
    assert replace(found, sow_window=late).late
    assert replace(found, sessions=(), sow_window=late).late
    early = replace(found.sow_window, start=date(2020, 1, 1))
    assert _first_day(replace(found, sow_window=early)) == date(2020, 1, 1)
    starts = [session.window.start for session in found.sessions]
    assert _first_day(replace(found, sow_window=None)) == min(starts)
    assert _first_day(replace(found, sessions=(), sow_window=None)) == date.max


def test_seed_goes_on_a_pass_of_living_turf_alone() -> None:
    """The last session's; not where it waits for spring, or no pass goes before it."""
    setting, autumn = plain(), autumn_of(2027, "overseed")
    both = _campaign(setting, (spring_of(2027), autumn_of(2027)), autumn)
    assert [s.sows for s in both.sessions] == [False, True] and both.sow_on_pass
    assert [s.number for s in both.sessions] == [1, 2]
    assert [p.number for p in both.passes] == list(range(1, len(both.passes) + 1))
    assert all(p.session == s.number for s in both.sessions for p in s.passes)
    unsown = _campaign(setting, (autumn_of(2027),), None)
    assert not unsown.sow_on_pass
    waits = days_of("dormant_seed", date(2027, 12, 1), date(2027, 12, 9))
    assert not _campaign(setting, (autumn_of(2027),), waits).sow_on_pass
    assert not _campaign(setting, (), autumn).sow_on_pass
    held = replace(autumn, safe_end=autumn.end)
    late = _campaign(setting, (autumn_of(2027),), held).cost
    on_time = _campaign(setting, (autumn_of(2027),), autumn).cost
    assert late - on_time == pytest.approx(setting.book.si("campaign.cost_late"))


def test_where_seed_could_go_follows_from_what_is_asked_for() -> None:
    """Dormant seed is a plan B of cool-season grass; a cover goes in in autumn or winter; without
    seed there is one way.
    """
    autumn, spring = autumn_of(2027, "overseed"), spring_of(2028, "overseed")
    dormant = days_of("dormant_seed", date(2027, 12, 1), date(2027, 12, 20), season="winter")
    known = opened(autumn, spring, dormant, autumn_of(2027))
    assert _sow_choices(known) == [autumn, spring, dormant]
    unsown = replace(known, sowing=replace(known.sowing, operation=None))
    assert _sow_choices(unsown) == [None]
    planted = opened(autumn_of(2027, "plant"), dormant)
    planted = replace(planted, sowing=replace(planted.sowing, operation="plant"))
    assert _sow_choices(planted) == [autumn_of(2027, "plant")]
    warm = replace(known, turf=replace(known.turf, species=known.book.species["zoysia"]))
    assert _sow_choices(warm) == [autumn, spring]
    cover = replace(known, sowing=replace(known.sowing, intent="winter_overseed"))
    assert _sow_choices(cover) == [autumn]


def test_a_missed_sowing_is_told_and_what_is_not_sown_is_not_missed() -> None:
    """With the day on which it ended."""
    missed = autumn_of(2026, "overseed"), autumn_of(2026, "seed")
    _, ruled_out = campaigns(opened(autumn_of(2027), autumn_of(2027, "overseed"), missed=missed))
    told = [why for _, why in ruled_out if why.key == "campaigns.missed"]
    # Nothing was asked for by name: nothing is ruled out for that.
    assert not [why for _, why in ruled_out if why.key == "campaigns.not_asked"]
    assert [dict(why.values)["day"] for why in told] == [Day(date(2026, 9, 30))]


@pytest.mark.full
@pytest.mark.parametrize(
    "name", ["surveyed-metric", "surveyed-us", "british-metric", "deep-two-inches", *LAWNS]
)
def test_a_campaign_ruled_out_by_counting_cannot_be_dated(name: str) -> None:
    """Counting the passes that the days of a session hold never rules out what the network could
    have dated.
    """
    setting = setting_of(brief_of(LAWNS[name]) if name in LAWNS else example_brief(name))
    answers = dated(setting)
    assert answers
    assert not any(crowded and possible for crowded, possible in answers)


@pytest.mark.full
def test_counting_sees_most_of_what_cannot_be_dated() -> None:
    """Counting is worth its while: in the surveyed lawn it finds every campaign that cannot be
    dated.
    """
    answers = dated(setting_of(example_brief("surveyed-metric")))
    undatable = [crowded for crowded, possible in answers if not possible]
    assert len(undatable) >= 4 and all(undatable)


def test_one_pass_more_than_the_days_hold_is_too_many() -> None:
    """As many passes as the days hold are not too many; one more is, and both numbers are told."""
    setting = setting_of(brief_of(LAWNS["week-ends"]))
    campaign = next(c for c in campaigns(setting)[0] if c.sessions)
    session, fit = campaign.sessions[0], 0
    while True:
        filled = replace(session, passes=session.passes[:1] * (fit + 1))
        if short := crowded(setting, replace(campaign, sessions=(filled,))):
            break
        fit += 1
    assert fit >= 1
    assert short == (filled, fit)


def test_a_crowded_campaign_that_the_brief_insists_on_is_done_in_part() -> None:
    """Asked for one autumn that has not the days for the fill, the plan does what fits, and says
    what it leaves and when that follows.
    """
    brief = example_brief("british-metric")
    brief = brief.model_copy(
        update={
            "season": brief.season.model_copy(update={"campaign": "autumn"}),
            "leveling": brief.leveling.model_copy(update={"depth_mm": 12.0}),
        }
    )
    plan = plan_brief(brief, options=False)
    assert plan.conflict is None and plan.campaign == "autumn"
    assert any("is left out" in str(n.text) for n in plan.ranked if n.told_first)
    assert [item.operation for item in plan.handover] == ["topdress"]


@pytest.mark.full
def test_spring_seed_that_only_the_end_of_the_plan_forces_is_said() -> None:
    """Away all autumn, seed goes in in spring where the plan ends before the next one: it says
    until when that would be in reach. Where summers are cool spring seed loses nothing, and nothing
    is said."""
    lawn: dict[str, Any] = {
        "calendar": {"unavailable": [{"from": date(2027, 8, 1), "to": date(2027, 10, 31)}]},
    }
    plan = plan_of(
        lawn, {"season": {"from": date(2027, 7, 1), "until": date(2028, 8, 10)}}, options=False
    )
    forced = "plan_cautions.spring_seed"
    (said,) = (c for c in plan.cautions if c.key == forced)
    until = date.fromisoformat(str(dict(said.values)["until"]))
    assert f"With an end on {until} or later" in said.text
    assert first(plan, "overseed").start.month in (4, 5)
    longer = plan_of(lawn, {"season": {"from": date(2027, 7, 1), "until": until}}, options=False)
    assert first(longer, "overseed").start.month in (8, 9) and not any(
        c.key == forced for c in longer.cautions
    )
    assert not any(c.key == forced for c in plan_of(options=False).cautions)
    cool: dict[str, Any] = {
        "place": {"postal_code": None, "latitude": 52.5, "longitude": -1.5, "country": "GB"},
        "leveling": {"depth": "1.5 in"},
        "lawn": {"grass": "perennial_ryegrass"},
    }
    spring = plan_of(cool, {"season": {"until": date(2028, 8, 10)}}, options=False)
    assert first(spring, "overseed").start.month in (5, 6)
    assert not any(c.key == forced for c in spring.cautions)


@pytest.mark.parametrize("name", LAWNS)
def test_a_campaign_is_called_by_its_years(name: str) -> None:
    """One season by the year in which it ends; one of several years by the first and the last."""
    setting = setting_of(brief_of(LAWNS[name]))
    begin = date.fromordinal(setting.first_day)
    found = campaigns(setting)[0]
    for campaign in found:
        windows = [session.window for session in campaign.sessions]
        windows += [campaign.sow_window] if campaign.sow_window is not None else []
        years = [max(window.start, begin).year for window in (windows[0], windows[-1])]
        told = dict(campaign.name.values)
        if campaign.id == "two_years" and years[0] != years[1]:
            assert campaign.name.key == "campaigns.in_years"
            assert [told["first"], told["last"]] == [str(year) for year in years]
        else:
            assert campaign.name.key == "campaigns.in_year"
            assert told["year"] == str(years[1])
    assert any(c.id == "two_years" for c in found) or name in ("bare", "north")


def test_a_campaign_that_is_asked_for_rules_the_others_out() -> None:
    """All are compared unless one is named; then the others are told as not asked for."""
    setting = setting_of(brief_of(LAWNS["north"]))
    ids = {c.id for c in campaigns(setting)[0]}
    assert len(ids) > 1
    for wanted in ids:
        asked = setting_of(brief_of(LAWNS["north"], {"season": {"campaign": wanted}}))
        found, ruled_out = campaigns(asked)
        assert {c.id for c in found} == {wanted}
        assert any(why.key == "campaigns.not_asked" for _, why in ruled_out)
    assert not any(why.key == "campaigns.not_asked" for _, why in campaigns(setting)[1])


def test_winter_cover_is_sown_in_autumn_or_winter() -> None:
    """Of all windows in which seed could go in, and in one of them at least."""
    desert = {
        "lawn": {"grass": "bermuda_common", "condition": "dense"},
        "place": {"postal_code": "85001"},
        "leveling": {"depth": "0 in"},
        "seeding": {"intent": "winter_overseed"},
    }
    found = campaigns(setting_of(brief_of(desert)))[0]
    assert found and {c.id for c in found} == {"winter_cover"}
    windows = [c.sow_window for c in found if c.sow_window is not None]
    assert windows and all(w.season in ("autumn", "winter") for w in windows)
