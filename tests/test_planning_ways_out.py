"""Ways out: each is told once, and leads to the plan that it promises."""

import tomllib
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from planning import brief_of, example_brief, first, plan_brief, plan_of
from resolved_lawns import setting_of
from told import told
from turfplan.message import Message, as_written
from turfplan.planning import season_plan
from turfplan.planning.rejected_campaigns import rest_never_dressed
from turfplan.planning.ways_anew import all_anew, on_bare_ground
from turfplan.planning.ways_out import (
    MainWork,
    _one_after_the_other,
    _with_a_later_end,
    _with_less_work,
    _with_more_choice,
    _with_more_days,
    _with_more_hands,
    _with_sod,
    _with_water,
    leads_to,
    ways_out,
    whole_fill,
)
from turfplan.records.brief import Brief
from turfplan.work import horizon
from turfplan.work.campaigns import campaigns
from turfplan.work.lawn import ResolvedLawn

TIGHT: dict[str, dict[str, Any]] = {
    "two watering days": {"water": {"allowed_weekdays": ["tue", "sat"], "permit": False}},
    "a sponge of thatch": {"lawn": {"thatch": "1.5 in"}},
    "away all autumn": {
        "calendar": {"away": [{"from": "2027-05-01", "to": "2028-12-31"}]},
        "season": {"from": "2027-08-01", "until": "2027-12-01"},
    },
}


def ways_of(brief: Brief, monkeypatch: pytest.MonkeyPatch) -> list[tuple[Brief, MainWork]]:
    """The changed briefs that the planner offers as ways out of a plan, each with where it says
    that it leads.
    """
    offered: list[tuple[Brief, MainWork]] = []

    def watching(asked: Brief, setting: ResolvedLawn, tried: Any) -> Any:
        def seen(other: Brief) -> MainWork | None:
            work: MainWork | None = tried(other)
            if work is not None:
                offered.append((other, work))
            return work

        return ways_out(asked, setting, seen)

    monkeypatch.setattr(season_plan, "ways_out", watching)
    plan = plan_brief(brief)
    assert plan.conflict is not None and plan.options
    assert len({option.reason for option in plan.options}) == len(plan.options)
    return offered


def work(first: date | None, *, undone: bool = False, name: str = "autumn") -> MainWork:
    """Main work of a day."""
    return MainWork(as_written(name), first, first, undone=undone)


DAY = date(2027, 9, 5)


def lines_of(
    *changes: dict[str, Any], only: Any = lambda brief: True, distinct: bool = True
) -> list[str]:
    """The changes that are offered where each leads somewhere of its own, or all to one end."""
    brief = brief_of(*changes)
    seen: list[Brief] = []

    def tried(other: Brief) -> MainWork | None:
        if not only(other):
            return None
        seen.append(other)
        return work(DAY, name=str(len(seen)) if distinct else "same")

    setting = setting_of(brief)
    return [str(option.change) for option in ways_out(brief, setting, tried)]


def offers(rule: Any, *changes: dict[str, Any], **of_lawn: Any) -> list[str]:
    """The lines of what one rule offers for a brief."""
    brief = brief_of(*changes)
    setting = replace(setting_of(brief), **of_lawn)
    needs = rule.__code__.co_argcount
    found = rule(brief) if needs == 1 else rule(brief, setting)
    return [
        str(one.lines) if one.lines.key == "as_written" else one.lines.key.rpartition(".")[2]
        for one in found
    ]


def test_five_ways_at_the_most_are_offered_each_to_an_end_of_its_own() -> None:
    """One that cannot be dated, or leads where another does, is none."""
    assert len(lines_of()) == 5
    assert len(lines_of(distinct=False)) == 1
    assert lines_of(only=lambda _: False) == []


def test_two_changes_are_tried_together_where_no_single_one_is_enough() -> None:
    """Thatch that is a sponge and water that the law holds back: what to do with the thatch, each
    with the permit; printed so that a brief takes it."""
    sponge = {"lawn": {"thatch": "1.5 in"}, **TIGHT["two watering days"]}

    def both(brief: Brief) -> bool:
        return brief.water.permit is True and (brief.lawn.thatch_mm or 0) < 30

    def permit_alone(brief: Brief) -> bool:
        return brief.water.permit is True

    lines = lines_of(sponge, only=both)
    assert lines and all("permit = true" in line for line in lines)
    assert any(
        line == 'intent = "renovate", permit = true'
        for line in lines_of(
            sponge, only=lambda b: b.water.permit is True and b.seeding.intent == "renovate"
        )
    )
    assert all(typed(line)["water"] == {"permit": True} for line in lines)
    assert lines_of(sponge, only=permit_alone) == ["permit = true"]


def test_a_way_is_told_with_its_days_where_it_has_any() -> None:
    """Else by its campaign alone."""
    assert leads_to(work(DAY)).key == "ways_out.campaign_dated"
    assert leads_to(work(None)).key == "ways_out.campaign_alone"


def test_hands_machines_a_contractor_and_a_timer_are_offered_where_they_are_missing() -> None:
    """Twice the people; none of it where there is nothing to spread or to water."""
    people = "people = 4"
    hose = {"water": {"application_rate": None}}
    machines = 'machines = ["topdresser", "loader"]'
    hired = 'by = "contractor"'
    assert offers(_with_more_hands) == [people, machines, hired, "timer = true"]
    assert offers(_with_more_hands, hose) == [people, machines, hired, "timer = true"]
    flat = {"leveling": {"depth": "0 in"}}
    assert offers(_with_more_hands, flat) == [hired, "timer = true"]
    owned = {"work": {"machines": ["loader", "aerator"]}}
    assert offers(_with_more_hands, owned)[1] == 'machines = ["loader", "aerator", "topdresser"]'
    both = {"work": {"machines": ["loader", "topdresser"], "by": "contractor"}}
    assert offers(_with_more_hands, both) == [people, "timer = true"]
    assert offers(_with_more_hands, {"water": {"timer": True}}) == [people, machines, hired]
    assert offers(_with_more_hands, {"seeding": {"intent": "none"}}) == [people, machines, hired]


@pytest.mark.full
def test_less_work_is_dormant_seed_the_hollows_or_half_of_the_fill() -> None:
    """As the grass and the brief have them."""
    dormant, half, quarter = 'intent = "dormant"', 'depth = "0.25 in"', 'depth = "0.125 in"'
    assert offers(_with_less_work) == [dormant, half, quarter]
    lows = {"leveling": {"lows": [{"depth": "1 in", "share": 0.1}]}}
    assert offers(_with_less_work, lows) == [dormant, "leave_out", half, quarter]
    assert offers(_with_less_work, {"seeding": {"intent": "none"}}) == [half, quarter]
    assert offers(_with_less_work, {"leveling": {"depth": "0.1 in"}}) == [dormant]
    assert offers(_with_less_work, {"leveling": {"depth": "0 in"}}) == [dormant]
    warm = {"lawn": {"grass": "bermuda_common"}, "place": {"postal_code": "30606"}}
    assert offers(_with_less_work, warm) == [half, quarter]


def test_more_days_are_those_that_the_brief_rules_out() -> None:
    """Of work, of absence and of watering."""
    every = 'weekdays = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]'
    assert offers(_with_more_days) == [every]
    week = {"calendar": {"weekdays": ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]}}
    assert offers(_with_more_days, week) == []
    gone = [{"from": DAY, "to": DAY}]
    for table in ("away", "unavailable"):
        assert offers(_with_more_days, week, {"calendar": {table: gone}}) == ["away = []"]
    law = {"water": {"allowed_weekdays": ["tue"], "permit": False}}
    assert offers(_with_more_days, week, law) == ["permit = true"]
    assert offers(_with_more_days, week, {"water": {"allowed_weekdays": ["tue"]}}) == []
    assert offers(_with_more_days, week, {"water": {"permit": False}}) == []


@pytest.mark.full
def test_water_choice_and_a_later_end_are_offered_where_they_are_ruled_out() -> None:
    """A year and a day after the end that was given, where that is still to come."""
    dry = {"water": {"possible": False, "application_rate": None}}
    both = ["possible = true", "possible = true, timer = true"]
    assert offers(_with_water, dry) == both and offers(_with_water) == []
    assert offers(_with_water, dry, {"seeding": {"intent": "none"}}) == ["possible = true"]
    assert offers(_with_water, dry, {"seeding": {"intent": "dormant"}}) == []
    assert offers(_with_more_choice, {"season": {"campaign": "spring"}}) == ['campaign = "auto"']
    assert offers(_with_more_choice) == []
    until = {"season": {"until": date(2027, 12, 1)}}
    assert offers(_with_a_later_end, until) == ["until = 2028-12-01"]
    assert offers(_with_a_later_end) == []
    today = date(2028, 12, 1)
    assert offers(_with_a_later_end, until, today=today) == []
    assert offers(_with_a_later_end, until, today=today - timedelta(1)) != []


def test_sod_takes_the_place_of_seed_before_an_end() -> None:
    """Of a grass that is sold as such."""
    until = {"season": {"until": date(2027, 12, 1)}}
    sod = ['intent = "plant", form = "sod"']
    sold = "sod" in setting_of(brief_of()).sowing.grass.plantable
    assert sold and offers(_with_sod, until) == sod and offers(_with_sod) == []
    assert offers(_with_sod, until, {"seeding": {"intent": "none"}}) == []
    assert offers(_with_sod, until, {"seeding": {"intent": "plant"}}) == []


def test_level_and_sow_one_after_the_other_where_both_are_asked_for() -> None:
    """Depth or hollows; on bare ground, or where passes have a season, seed is told of alone."""
    both = ['intent = "none"', "leave_out"]
    assert offers(_one_after_the_other) == both
    lows = {"leveling": {"depth": None, "lows": [{"depth": "1 in", "share": 0.1}]}}
    assert offers(_one_after_the_other, lows) == both
    assert offers(_one_after_the_other, {"seeding": {"intent": "none"}}) == []
    assert offers(_one_after_the_other, {"leveling": {"depth": "0 in"}}) == []
    brief, setting = brief_of(), setting_of(brief_of())
    never: Any = (("topdress", as_written("why")),)
    closed = replace(setting, openings=replace(setting.openings, never=never))
    level = next(_one_after_the_other(brief, setting)).title
    unwatered = brief_of({"water": {"possible": False}, "place": {"postal_code": "85719"}})
    dry = next(_one_after_the_other(unwatered, setting_of(unwatered))).title
    assert (level.key, dry.key) == ("ways_out.level_now", "ways_out.level_until_watered")
    titles = [list(_one_after_the_other(brief, s))[1].title.key for s in (setting, closed)]
    assert titles[0] != titles[1]
    plants = brief_of({"seeding": {"intent": "plant"}})
    told = [way.title.key for way in _one_after_the_other(plants, setting)]
    assert told == ["ways_out.level_before_planting", "ways_out.plant_now"]
    assert list(_one_after_the_other(plants, closed))[1].title.key == "ways_out.plant_alone"
    bare = replace(closed, turf=replace(closed.turf, condition="bare"))
    assert list(_one_after_the_other(brief, bare))[1].title.key == titles[0]
    assert len(list(on_bare_ground(brief, closed))) == 1
    assert list(on_bare_ground(brief, setting)) == list(on_bare_ground(brief, bare)) == []
    flat = brief_of({"leveling": {"depth": "0 in"}})
    assert list(on_bare_ground(flat, closed)) == []


def test_all_of_a_fill_is_done_by_the_first_change_that_leaves_nothing_of_it() -> None:
    """Another campaign, leveling alone, next year, or a lawn made anew."""
    setting = setting_of(brief_of())
    names: Any = ("spring", "two_years")

    def whole(good: Any, brief: Brief | None = None, base: ResolvedLawn = setting) -> str | None:
        def tried(other: Brief) -> MainWork | None:
            return work(DAY, undone=not good(other))

        found = whole_fill(brief or brief_of(), base, names, tried)
        return None if found is None else str(found.change)

    assert whole(lambda b: b.season.campaign == "two_years") == 'campaign = "two_years"'
    assert whole(lambda b: b.seeding.intent == "none") == 'intent = "none"'
    assert whole(lambda b: b.seeding.intent == "renovate") == 'intent = "renovate"'
    assert whole(lambda b: False) is None
    asked = brief_of({"season": {"campaign": "autumn"}})
    assert whole(lambda b: b.season.campaign == "two_years", asked) is None
    unsown = brief_of({"seeding": {"intent": "none"}})
    assert (whole(lambda b: b.season.campaign == "auto", unsown) or "").startswith("from = ")
    bare = replace(setting, turf=replace(setting.turf, condition="bare"))
    assert whole(lambda b: b.seeding.intent == "renovate", base=bare) is None
    none = whole_fill(brief_of(), setting, names, lambda _: work(None))
    assert none is None


@pytest.mark.full
@pytest.mark.parametrize("name", ["late-start", *TIGHT])
def test_a_way_out_leads_where_it_says(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Planned in full, each way out gives a sound plan of that campaign with its main work on those
    days.
    """
    brief = example_brief(name) if name == "late-start" else brief_of(TIGHT[name])
    for other, work in ways_of(brief, monkeypatch):
        plan = plan_brief(other)
        assert plan.conflict is None and plan.campaign_name == work.campaign
        days = [
            day
            for t in plan.tasks
            if t.plays("spreading", "sowing", "planting")
            for day in (t.start, t.end)
        ]
        assert (min(days, default=None), max(days, default=None)) == (work.first, work.last)


# In which table of a brief each key stands that a way out prints.
TABLES = {
    "lawn": ("condition", "thatch"),
    "leveling": ("depth",),
    "seeding": ("intent", "form", "species"),
    "season": ("from", "until", "campaign"),
    "work": ("people", "machines", "by"),
    "water": ("timer", "permit", "possible"),
    "calendar": ("weekdays", "away"),
    "site": ("sun_hours",),
    "soil_test": ("salts",),
}
METRIC = {"postal_code": None, "latitude": 59.86, "longitude": 17.64, "country": "SE"}
REFUSED: dict[str, dict[str, Any]] = {
    "a sponge, metric, with an end": {
        "lawn": {"grass": "kentucky_bluegrass", "thatch": "20 mm"},
        "place": METRIC,
        "leveling": {"depth": "10 mm"},
        "season": {"from": None, "until": date(2027, 9, 10)},
    },
    "a sponge of a grass that is not sown": {
        "lawn": {"grass": "st_augustine", "thatch": "1.5 in"},
        "place": {"postal_code": "32607"},
        "seeding": {"intent": "none"},
    },
    "no season for a pass": {
        "lawn": {"grass": "fine_fescue"},
        "place": {**METRIC, "latitude": 63.75, "longitude": -68.52, "country": "CA"},
        "leveling": {"depth": "10 mm"},
    },
    "no season for a pass, and no water": {
        "lawn": {"grass": "fine_fescue"},
        "place": {**METRIC, "latitude": 63.75, "longitude": -68.52, "country": "CA"},
        "leveling": {"depth": "10 mm"},
        "seeding": {"intent": "none"},
        "water": {"possible": False, "application_rate": None},
    },
    "few days and an end": {
        "calendar": {"weekdays": ["sun"]},
        "season": {"from": date(2027, 10, 20), "until": date(2027, 12, 1)},
        "leveling": {"depth": "1 in"},
    },
    "one person on two acres": {
        "lawn": {"area": "80000 ft2"},
        "work": {"people": 1},
        "season": {"from": date(2027, 9, 10), "until": date(2027, 10, 30)},
    },
    "salt and sodium": {
        "lawn": {"grass": "kentucky_bluegrass"},
        "place": {"postal_code": "84116"},
        "leveling": {"depth": "0.25 in"},
        "soil_test": {
            "on": date(2027, 1, 10),
            "ph": 8.4,
            "free_lime": True,
            "salts": "6.2 dS/m",
            "sar": 16,
            "gypsum_rate": "100 lb/1000ft2",
        },
        "site": {"ground": ["salty", "sodic"]},
    },
    "a sponge of runners and two watering days": {
        "lawn": {"grass": "st_augustine", "condition": "patchy", "thatch": "1.125 in"},
        "place": {"postal_code": "77057", "state": "TX"},
        "leveling": {"depth": None, "lows": [{"depth": "3 in", "share": 0.06}]},
        "seeding": {"intent": "plant", "form": "sod"},
        "site": {"cleared": ["unknown"]},
        **TIGHT["two watering days"],
    },
    **{name: TIGHT[name] for name in ("two watering days", "a sponge of thatch")},
    "away all autumn": {
        "calendar": {"away": [{"from": date(2027, 5, 1), "to": date(2028, 12, 31)}]},
        "season": {"from": date(2027, 8, 1), "until": date(2027, 12, 1)},
    },
}


def typed(change: str) -> dict[str, Any]:
    """What a way out prints, as tables of a brief; what is left out is None."""
    lines, _, left_out = change.partition("; leave out ")
    if lines.startswith("leave out "):
        lines, left_out = "", lines.removeprefix("leave out ")
    found: dict[str, Any] = {}
    for key, value in tomllib.loads(f"all = {{ {lines} }}")["all"].items():
        table = next(name for name, keys in TABLES.items() if key in keys)
        found.setdefault(table, {})[key] = value
    if left_out.startswith("["):
        found[left_out.strip("[]")] = None
    elif left_out:
        key = left_out.rpartition(".")[2]
        table = next(name for name, keys in TABLES.items() if key in keys)
        found.setdefault(table, {})[key] = None
    return found


@pytest.mark.full
@pytest.mark.parametrize("name", REFUSED)
def test_a_way_out_plans_as_it_is_printed(name: str) -> None:
    """Typed into the brief as it is printed, each way out gives a sound plan of the campaign that
    it names, and at least one does so."""
    refused = plan_of(REFUSED[name])
    assert refused.conflict is not None and refused.options
    for option in refused.options:
        plan = plan_of(REFUSED[name], typed(str(option.change)), options=False)
        assert plan.conflict is None, option.change
        assert str(plan.campaign_name) in str(option.reason), option.change


@pytest.mark.full
def test_a_salty_lawn_is_told_once_and_has_ways_to_be_sown() -> None:
    """The salt is named once, the sodium with its gypsum; washing out and a grass that bears it
    are ways out, beside leveling alone."""
    refused = plan_of(REFUSED["salt and sodium"])
    assert refused.conflict is not None
    told = [str(reason) for reason in refused.conflict.reasons]
    assert sum("6.2 dS/m" in line for line in told) == 1 and not refused.rejected
    assert any("gypsum" in line for line in told)
    changes = [str(option.change) for option in refused.options]
    assert 'salts = "3 dS/m"' in changes and 'species = "tall_fescue"' in changes
    assert 'intent = "none"' in changes


COLD_SEAS: dict[str, dict[str, Any]] = {
    "Ushuaia": {"latitude": -54.80, "longitude": -68.30, "country": "AR"},
    "Stanley": {"latitude": -51.70, "longitude": -57.85, "country": "FK"},
}


@pytest.mark.parametrize("name", COLD_SEAS)
@pytest.mark.parametrize("intent", ["overseed", "dormant"])
@pytest.mark.parametrize("depth", ["12 mm", "40 mm"])
def test_beside_a_cold_sea_that_nobody_waters_there_is_a_plan_or_a_way(
    name: str, intent: str, depth: str
) -> None:
    """Grass hardly grows there: what was asked for is planned whole or handed over with its season,
    or refused with reasons and ways out; nothing is sown over which the fill could never go."""
    asked: dict[str, Any] = {
        "lawn": {"area": "300 m2"},
        "place": {"postal_code": None, **COLD_SEAS[name]},
        "leveling": {"depth": depth},
        "seeding": {"intent": intent},
        "water": {"possible": False, "application_rate": None},
        "season": None,
    }
    plan = plan_of(asked)
    if plan.conflict is not None:
        assert plan.conflict.reasons and plan.options
    else:
        spread = any(task.plays("spreading") for task in plan.tasks)
        assert spread or any(item.operation == "topdress" for item in plan.handover)


@pytest.mark.parametrize(("days", "never"), [(60, False), (2000, True)])
def test_a_fill_is_not_left_for_a_season_that_never_comes(
    monkeypatch: pytest.MonkeyPatch, days: int, *, never: bool
) -> None:
    """Seed that is not mown within the years of the plan bears no layer in them; where nothing is
    left of the fill, nothing waits for a season."""
    monkeypatch.setattr(horizon, "undressed_days", lambda setting, campaign: days)
    setting = setting_of(brief_of())
    campaign = campaigns(setting)[0][0]
    bands = setting.levelling.bands
    left = replace(setting, levelling=replace(setting.levelling, bands=(), left=bands))
    assert (rest_never_dressed(left, campaign) is not None) is never
    assert rest_never_dressed(setting, campaign) is None
    assert rest_never_dressed(replace(left, kept_end=None), campaign) is None


def test_where_winter_is_no_rest_seed_that_comes_up_is_offered() -> None:
    """With water, where nobody waters."""
    dormant: dict[str, Any] = {"seeding": {"intent": "dormant"}}
    dry: dict[str, Any] = {"water": {"possible": False, "application_rate": None}}
    assert 'intent = "overseed"' in offers(_with_less_work, dormant)
    assert 'intent = "overseed", possible = true' in offers(_with_less_work, {**dormant, **dry})


@pytest.mark.parametrize("doubt", [None, as_written("doubt")])
def test_dormant_seed_is_no_way_out_of_rain_that_is_doubtful(doubt: Message | None) -> None:
    """Where nobody waters; where somebody does, its waking is kept moist."""
    dry = brief_of({"water": {"possible": False}})
    setting = setting_of(dry)
    setting = replace(setting, climate=replace(setting.climate, rain_doubt=doubt))
    lines = [str(change.lines) for change in _with_less_work(dry, setting)]
    assert ('intent = "dormant"' in lines) is (doubt is None)
    assert 'intent = "dormant"' in offers(_with_less_work)


def test_no_stand_is_killed_that_is_not_sown_again() -> None:
    """One hose keeps a part of a large lawn wet: making all of it anew is refused with the timer as
    a way out, which sows all of it; a small lawn is made anew by hose."""
    hose = {"water": {"application_rate": None}, "seeding": {"intent": "renovate"}}
    large = plan_of(hose, {"lawn": {"area": "9000 ft2"}})
    assert large.conflict is not None and not large.tasks
    assert any("timer = true" in told(option.change) for option in large.options)
    timed = plan_of(hose, {"lawn": {"area": "9000 ft2"}, "water": {"timer": True}})
    seed = next(task for task in timed.tasks if task.plays("sowing"))
    assert not any(amount.item == "sown area" for amount in seed.amounts)
    small = plan_of(hose, {"lawn": {"area": "2000 ft2"}})
    assert small.conflict is None and small.tasks


def test_all_anew_is_offered_where_nothing_smaller_leads_anywhere() -> None:
    """Of a lawn that is filled and has grass to give up."""
    setting = setting_of(brief_of())
    assert [c.lines for c in all_anew(setting.brief, setting)] == [
        as_written('intent = "renovate"')
    ]
    by_hose = setting_of(brief_of({"water": {"possible": False, "application_rate": None}}))
    lines = [str(c.lines) for c in all_anew(by_hose.brief, by_hose)]
    assert ["timer = true" in line for line in lines] == [False, True]
    assert all("possible = true" in line for line in lines)
    flat = setting_of(brief_of({"leveling": {"depth": "0 in"}}))
    bare = setting_of(brief_of({"lawn": {"condition": "bare"}}))
    assert not [*all_anew(flat.brief, flat), *all_anew(bare.brief, bare)]


@pytest.mark.parametrize(
    ("grass", "ways"),
    [
        ("bermuda_common", ['intent = "overseed"', 'intent = "plant", form = "sod"']),
        ("bermuda_hybrid", ['intent = "plant", form = "sod"']),
    ],
)
@pytest.mark.parametrize("depth", ["0 in", "0.5 in"])
def test_winter_ryegrass_waits_for_a_lawn(grass: str, ways: list[str], depth: str) -> None:
    """On bare ground nothing sleeps under it: refused with the reason, and its own grass offered,
    by seed where it has any."""
    plan = plan_of(
        {
            "lawn": {"grass": grass, "condition": "bare"},
            "place": {"postal_code": "30303"},
            "seeding": {"intent": "winter_overseed"},
            "leveling": {"depth": depth},
        }
    )
    assert plan.conflict is not None and not plan.tasks
    (why,) = plan.conflict.reasons
    assert isinstance(why, Message)
    reason = dict(why.values)["reason"]
    assert isinstance(reason, Message) and reason.key == "campaigns.nothing_to_cover"
    offered = [getattr(option.change, "text", option.change) for option in plan.options]
    assert [line for line in offered if line in ways] == ways


HIGHVELD: dict[str, Any] = {
    "lawn": {"area": "300 m2"},
    "place": {"postal_code": None, "latitude": -26.2, "longitude": 28.05, "country": "ZA"},
    "seeding": {"intent": "winter_overseed"},
    "season": None,
}


@pytest.mark.parametrize("grass", ["kikuyu", "bermuda_common"])
@pytest.mark.parametrize("depth", ["0 mm", "6 mm"])
def test_where_soil_is_never_hot_ryegrass_waits_for_autumn(grass: str, depth: str) -> None:
    """Johannesburg's soil falls through the mark in the middle of summer: what grows then crowds
    the ryegrass out, so it goes in from March on."""
    plan = plan_of(HIGHVELD, {"lawn": {"grass": grass}, "leveling": {"depth": depth}})
    assert plan.conflict is None
    assert first(plan, "overseed").start.month in (3, 4)
    assert first(plan, "spring_transition").start > first(plan, "overseed").start


def test_what_has_no_season_says_so() -> None:
    """A refusal names its reason also where no window is closed and none is missed."""
    setting = setting_of(brief_of(HIGHVELD, {"lawn": {"grass": "kikuyu"}}))
    ends = replace(setting, last_day=setting.first_day + 10)
    possible, ruled_out = campaigns(ends)
    assert possible == () and [why.key for _, why in ruled_out] == ["campaigns.no_season"]
