"""Fills of several depths: each part capped by what it gets, lifted, in part, or not now."""

from dataclasses import replace
from datetime import UTC, date, datetime
from itertools import product
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planning import amount, brief_of, first, kind, plan_of
from resolved_lawns import lawn, setting_of
from tiers import sampled
from turfplan.book.words import english_of
from turfplan.export.sheets.checklist import checklist_html
from turfplan.export.sheets.order_sheet import order_html
from turfplan.files.reading.book import load_book
from turfplan.message import as_written
from turfplan.messages import words_for
from turfplan.records.plan import Plan
from turfplan.units import INCH_MM, System
from turfplan.work.drafts import Band, Pass
from turfplan.work.filling import (
    _can_be_lifted,
    _lifted,
    _thinner,
    _told,
    _undressed,
    cost_of_filling,
    cost_of_way,
    leaves_all,
    left_share,
    lift_refused,
    lift_settle,
    ways_of_filling,
)
from turfplan.work.labour import person_hours, working_days
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.layers import divided, passes_needed
from turfplan.work.passes import band_caps

YARD_M3 = 0.764554857984
FOOT_M2 = 0.09290304
HAIR_M3 = 1e-4
BOOK = load_book()
GUELPH: dict[str, Any] = {
    "place": {"postal_code": None, "country": "CA", "latitude": 43.55, "longitude": -80.25},
    "lawn": {"grass": "kentucky_bluegrass", "area": "400 m2"},
    "season": {"from": date(2027, 7, 1)},
}
BERMUDA: dict[str, Any] = {
    "lawn": {"grass": "bermuda_common"},
    "place": {"postal_code": "30606"},
    "seeding": {"intent": "none"},
}


def hollows(depth: str | None, *lows: tuple[str, float]) -> dict[str, Any]:
    """A fill: hollows by depth and share, and what the rest gets."""
    spots = [{"depth": deep, "share": share} for deep, share in lows]
    return {"leveling": {"depth": depth, "lows": spots}}


def settled_m3(plan: Plan) -> float:
    """The settled volume of passes and lifted hollows, from the loose ones."""
    allowance = BOOK.si("topdress.settle_allowance"), BOOK.si("topdress.settle_deep")
    passes = sum(amount(t, "volume") for t in kind(plan, "topdress")) / (1 + allowance[0])
    return passes + sum(amount(t, "volume") for t in kind(plan, "lift_and_fill")) / (
        1 + allowance[1]
    )


def rounded_up_m3(plan: Plan) -> float:
    """The most that passes and lifted hollows, each rounded up once to a hundredth of a yd3 or m3
    of loose material, add to the fill that was asked for."""
    tasks = [*kind(plan, "topdress"), *kind(plan, "lift_and_fill")]
    return len(tasks) * 0.01 * (YARD_M3 if plan.lawn.units is System.US else 1)


def banded(*bands: Band, base: ResolvedLawn | None = None, **more: Any) -> ResolvedLawn:
    """The lawn with these bands, and more of its levelling."""
    setting = base or lawn()
    return replace(setting, levelling=replace(setting.levelling, bands=bands, **more))


def test_the_share_that_is_left_is_by_volume() -> None:
    """Of passes, of lifted hollows and of what is left itself."""
    setting = banded(Band(10.0, 0.5), lift_share=0.1, lift_depth_mm=50.0, left=(Band(30.0, 0.5),))
    assert left_share(setting.levelling) == pytest.approx(15 / (5 + 5 + 15))
    assert left_share(banded(Band(10.0, 0.5)).levelling) == 0.0
    assert leaves_all(banded(left=(Band(30.0, 0.5),)).levelling)
    assert not leaves_all(setting.levelling) and not leaves_all(banded().levelling)


def test_a_way_costs_its_lift_its_wound_and_what_it_leaves() -> None:
    """All of it, or a part; nothing where all is done by passes."""
    costs = {
        n: BOOK.si(f"campaign.cost_{n}")
        for n in ("lift", "advice_rule", "undressed", "part", "left")
    }
    whole, left = Band(10.0, 0.5), (Band(10.0, 0.5),)
    assert cost_of_way(banded(whole)) == 0
    assert cost_of_way(banded(whole, lift_share=0.1)) == costs["lift"]
    borne = banded(whole, lift_share=0.1, lift_borne=0.1)
    assert cost_of_way(borne) == costs["lift"] + costs["advice_rule"]
    assert cost_of_way(banded(left=left)) == costs["undressed"]
    part = costs["part"] + costs["left"] / 2
    assert cost_of_way(banded(whole, left=left)) == pytest.approx(part)


def test_passes_for_hollows_alone_cost_more_the_deeper_they_are() -> None:
    """Up to the share of a hollow; from the depth on that is put over grass."""
    small = BOOK.low_si("passes.hollow_share")
    limit = BOOK.fact("site.deep_limit").high_si
    each, deep = (BOOK.si(f"campaign.cost_{name}") for name in ("hollow_pass", "deep_hollow"))

    def cost(depth_mm: float, *shares: float) -> float:
        passes = [
            Pass(n, 1, 6.0, 1.0, False, 6.0, as_written(""), share=share)
            for n, share in enumerate(shares, 1)
        ]
        return cost_of_filling(banded(Band(depth_mm, 0.5)), passes)

    assert cost(limit, 1.0, small + 0.01) == 0
    assert cost(limit, small, 1.0) == pytest.approx(each)
    assert cost(limit / 2, small, small / 2) == pytest.approx(2 * each)
    assert cost(1.5 * limit, small) == pytest.approx(each + deep / 2)


def test_hollows_are_lifted_that_are_deep_small_and_few_enough() -> None:
    """Beyond each limit in turn; their depth is the mean by share."""
    known = BOOK.fact("site.deep_limit")
    deep, shallow = known.high_si + 20.0, 5.0
    ways = list(_lifted(banded(Band(deep, 0.02), Band(deep - 10, 0.02), Band(shallow, 0.9))))
    assert ways
    first = ways[0]
    assert first.lift_share == pytest.approx(0.04)
    assert first.lift_depth_mm == pytest.approx(deep - 5)
    assert [band.depth_mm for band in first.bands] == [shallow]
    large = BOOK.si("site.lift_share_most")
    assert _can_be_lifted(lawn({"work": {"people": 9}}), [Band(deep, 0.02)])
    assert not _can_be_lifted(lawn({"work": {"people": 9}}), [Band(deep, large + 0.01)])
    assert list(_lifted(banded(Band(known.low_si, 0.02)))) == []
    assert lift_settle(lawn()) == BOOK.si("topdress.settle_deep")
    assert lift_settle(banded(settle_share=0.9)) == 0.9


def test_hollows_are_lifted_as_far_as_the_people_at_hand_can_in_the_days_of_the_book() -> None:
    """By the hours of their area and of the loose fill that settles in them."""
    setting = lawn({"work": {"people": 1}})
    operation, most = setting.book.operations["lift_and_fill"], BOOK.si("site.lift_days_most")
    share, found = 0.05, []
    area = setting.plot.area_m2 * share
    for depth in range(20, 1000, 40):
        loose = area * depth / 1000 * (1 + lift_settle(setting))
        days = working_days(setting, person_hours(setting, operation, area, loose))
        found.append(days <= most)
        assert _can_be_lifted(setting, [Band(float(depth), share)]) is found[-1]
    assert set(found) == {True, False}


def test_only_what_a_few_passes_take_is_done_where_at_most_half_is_left() -> None:
    """Two passes, then one; the rest is kept for later."""
    setting = lawn({"seeding": {"intent": "none"}})
    (cap,) = band_caps(banded(Band(10.0, 1.0), base=setting), seeded_last=False)
    each = cap.plain.depth_mm
    most = BOOK.si("campaign.left_most")
    assert most == 0.5

    def ways(depth: float) -> list[tuple[float, float]]:
        found = _thinner(banded(Band(depth, 1.0), base=setting))
        return [(w.bands[0].depth_mm, w.left[0].depth_mm) for w in found]

    assert ways(each) == []
    assert ways(1.5 * each) == [(pytest.approx(each), pytest.approx(each / 2))]
    assert ways(3 * each) == [(pytest.approx(2 * each), pytest.approx(each))]
    assert ways(4.1 * each) == []


def test_ways_without_a_fill_are_for_seed_that_can_be_dressed_later() -> None:
    """Not for a cover of one winter, nor where passes have no season."""
    found = list(_undressed(lawn()))
    assert [way.bands for way in found] == [()] and found[0].left == lawn().levelling.bands
    assert list(_undressed(lawn({"seeding": {"intent": "none"}}))) == []
    cover = replace(lawn(), sowing=replace(lawn().sowing, intent="winter_overseed"))
    assert list(_undressed(cover)) == []
    never: Any = (("topdress", as_written("why")),)
    closed = replace(lawn(), openings=replace(lawn().openings, never=never))
    assert list(_undressed(closed)) == []
    assert ways_of_filling(banded()) == (banded(),)
    bare = lawn({"lawn": {"condition": "bare"}, "seeding": {"intent": "renovate"}})
    assert ways_of_filling(bare) == (bare,)


def test_hollows_are_lifted_where_what_lies_beside_them_has_to_wait() -> None:
    """Turf that is lifted has nothing to grow through: its ways are tried with the rest left out,
    and are no way that leaves all."""
    base = lawn({"work": {"people": 9}})
    deep = Band(BOOK.fact("site.deep_limit").high_si + 20.0, 0.02)
    beside = Band(5.0, 0.98)
    ways = [way.levelling for way in ways_of_filling(banded(deep, beside, base=base))]
    waiting = [way for way in ways if way.lift_share and not way.bands]
    assert [way.left for way in waiting] == [(beside,)] and not leaves_all(waiting[0])


def test_lifted_hollows_are_told_with_how_they_settle() -> None:
    """In place of how a thin layer does, where there is none."""
    setting = lawn()
    way = replace(setting.levelling, lift_share=0.1, lift_depth_mm=50.0)

    def told(of: Any) -> list[str]:
        return [m.key.rpartition(".")[2] for m in _told(setting, of).assumptions]

    assert "settles" in told(setting.levelling) and "hollows" not in told(setting.levelling)
    assert {"settles", "hollows", "settles_hollows"} <= set(told(way))
    alone = told(replace(way, bands=()))
    assert "settles" not in alone and "settles_hollows" in alone


@pytest.mark.full
def test_depth_beside_shallow_hollows_is_the_fill_of_the_rest() -> None:
    """A tenth of 5,000 ft2 an inch deep and half an inch elsewhere are 8.5 yd3, not 1.5."""
    plan = plan_of(hollows("0.5 in", ("1 in", 0.1)))
    asked = 5000 * FOOT_M2 * (0.1 * 1 + 0.9 * 0.5) * INCH_MM / 1000
    assert -HAIR_M3 <= settled_m3(plan) - asked <= rounded_up_m3(plan)
    ordered = sum(line.value for line in plan.order if line.item in ("mix", "topsoil"))
    assert ordered >= asked * 1.1 and ordered / YARD_M3 > 8.5


@pytest.mark.full
@pytest.mark.parametrize("depth_mm", sampled([24, 26, 49, 50, 51, 64], 26, 51))
@pytest.mark.parametrize("share", sampled([0.07, 0.08, 0.1], 0.08))
def test_no_millimetre_and_no_percent_turns_a_plan_into_none(depth_mm: int, share: float) -> None:
    """Hollows and a thin layer everywhere are done in the same autumn, lifted or passed."""
    plan = plan_of(GUELPH, hollows("6 mm", (f"{depth_mm} mm", share)), options=False)
    assert plan.conflict is None
    assert first(plan, "overseed").start.year == 2027
    asked = 0.4 * (share * depth_mm + (1 - share) * 6)
    left = any(note.told_first and "fill asked for" in str(note.text) for note in plan.ranked)
    done = settled_m3(plan)
    whole = -HAIR_M3 <= done - asked <= rounded_up_m3(plan)
    assert whole or (left and 0.8 * asked < done < asked)


@pytest.mark.full
def test_all_written_as_hollows_is_the_same_lawn() -> None:
    """8 % at 50 mm with 92 % at 6 mm, and the same with the rest as depth, are one plan."""
    as_lows = plan_of(GUELPH, hollows(None, ("50 mm", 0.08), ("6 mm", 0.92)), options=False)
    as_rest = plan_of(GUELPH, hollows("6 mm", ("50 mm", 0.08)), options=False)
    assert [(t.id, t.start) for t in as_lows.tasks] == [(t.id, t.start) for t in as_rest.tasks]


@pytest.mark.full
def test_lifting_keeps_to_the_season_of_sod_and_to_hollows() -> None:
    """Not in the heat of July, and never for two fifths of a lawn."""
    plan = plan_of(GUELPH, hollows("6 mm", ("50 mm", 0.08)), options=False)
    assert first(plan, "lift_and_fill").start >= date(2027, 8, 10)
    wide = plan_of(GUELPH, hollows("6 mm", ("50 mm", 0.4)), options=False)
    assert wide.conflict is None and not kind(wide, "lift_and_fill")


@pytest.mark.full
def test_where_the_rest_has_its_fill_only_hollows_go_on() -> None:
    """Dense bermuda takes an inch in a small hollow; the second pass covers the hollows alone."""
    plan = plan_of(
        BERMUDA, {"lawn": {"condition": "dense"}}, hollows("0.25 in", ("2 in", 0.1)), options=False
    )
    passes = kind(plan, "topdress")
    assert [amount(t, "depth") for t in passes] == pytest.approx([INCH_MM, INCH_MM])
    assert amount(passes[1], "volume") < amount(passes[0], "volume") / 3
    assert passes[1].person_hours < passes[0].person_hours
    assert "thinnest" in str(passes[0].how[0])
    assert "Leave the rest of the lawn as it is" in str(passes[1].how[0])


@pytest.mark.full
def test_thin_turf_and_other_grasses_take_half_an_inch_in_a_hollow() -> None:
    """An inch at once is for dense creepers."""
    thin = plan_of(BERMUDA, hollows("0.25 in", ("1 in", 0.1)), options=False)
    assert max(amount(t, "depth") for t in kind(thin, "topdress")) <= INCH_MM / 2 + 1e-6


@pytest.mark.full
def test_over_two_inches_creepers_are_lifted_too() -> None:
    """Two inches over grass are the very most (Louisiana)."""
    plan = plan_of(
        BERMUDA, {"lawn": {"condition": "dense"}}, hollows("0.25 in", ("3 in", 0.05)), options=False
    )
    assert kind(plan, "lift_and_fill")


@pytest.mark.full
@settings(max_examples=80, deadline=None)
@given(
    fills=st.lists(st.floats(1, 80), min_size=1, max_size=5),
    caps=st.lists(st.floats(3, 13), min_size=5, max_size=5),
    seeded=st.floats(0, 6),
    least=st.integers(1, 4),
)
def test_every_part_is_full_and_within_its_cap(
    fills: list[float], caps: list[float], seeded: float, least: int
) -> None:
    """Layers add up to each fill, none exceeds its cap, and a part costs one pass too many."""
    fills, caps = sorted(fills, reverse=True), sorted(caps, reverse=True)
    limits = [(cap, cap + seeded) for cap in caps[: len(fills)]]
    depths, layers = divided(fills, limits, least, 1.0)
    for part, fill in enumerate(fills):
        assert sum(layer[part] for layer in layers) == pytest.approx(fill)
        for number, layer in enumerate(layers, 1):
            assert layer[part] <= limits[part][number == len(layers)] + 1e-5
    assert [layer[0] for layer in layers] == pytest.approx(depths)
    needed = max(passes_needed(f, *cap, least) for f, cap in zip(fills, limits, strict=True))
    assert len(depths) <= needed + len(fills)


def late(day: date, *changes: dict[str, Any]) -> Plan:
    """The plan of a lawn that is told of on a day, with work on any day of the week."""
    week = {"calendar": {"weekdays": ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]}}
    now = datetime(day.year, day.month, day.day, 12, tzinfo=UTC)
    return plan_of({"season": {"from": day}}, week, *changes, now=now, options=False)


@pytest.mark.full
def test_seed_goes_in_without_dressing_where_that_is_over() -> None:
    """Pennsylvania, 20 September: dressing closes on the 22nd; the seed goes in all the same."""
    plan = late(date(2027, 9, 20), {"leveling": {"depth": "1 in"}})
    assert first(plan, "overseed").start.year == 2027 and not kind(plan, "topdress")
    told = next(str(note.text) for note in plan.ranked if note.told_first)
    assert told.startswith("Nothing of the 1 in of fill")
    assert [item.operation for item in plan.handover] == ["topdress"]
    assert plan.handover[0].start.year == 2028


@pytest.mark.full
@pytest.mark.parametrize("day", [8, 12, 16, 20])
def test_ten_days_do_not_lose_the_season(day: int) -> None:
    """Whoever starts in September sows in that autumn, and is told how late it is."""
    plan = late(date(2027, 9, day))
    sown = first(plan, "overseed")
    assert sown.start < date(2027, 10, 10) and sown.grade in ("good", "late", "last")
    if sown.grade != "good":
        lateness = "late in its season" if sown.grade == "late" else "last chance"
        assert lateness in str(sown.cautions[0]) and "last safe day" in str(sown.cautions[0])


@pytest.mark.full
def test_a_good_day_says_nothing_of_being_late() -> None:
    """Grades stand at passes, seed and plants alone."""
    plan = plan_of(options=False)
    assert {t.grade for t in plan.tasks if t.plays("spreading", "sowing")} == {"good"}
    assert all(t.grade is None for t in plan.tasks if not t.plays("spreading", "sowing"))


IQALUIT: dict[str, Any] = {
    "lawn": {"grass": "fine_fescue", "area": "300 m2", "thatch": "5 mm"},
    "place": {"postal_code": None, "country": "CA", "latitude": 63.75, "longitude": -68.52},
    "leveling": {"depth": "10 mm"},
    "season": None,
}


@pytest.mark.full
@pytest.mark.parametrize("intent", ["overseed", "dormant", "none"])
def test_where_no_season_takes_a_pass_the_fill_is_refused_with_ways_out(intent: str) -> None:
    """Grass of the far north grows through no pass: nothing is put off to a season that never
    comes, and the ways out are planned without a fault."""
    plan = plan_of(IQALUIT, {"seeding": {"intent": intent}})
    assert plan.conflict and "no season" in str(plan.conflict.reasons[0]) and plan.options
    assert any('intent = "renovate"' in str(option.change) for option in plan.options)
    anew = plan_of(IQALUIT, {"seeding": {"intent": "renovate"}})
    assert anew.conflict is None and kind(anew, "fill")


@pytest.mark.full
def test_seed_alone_is_fed_within_the_year_where_summer_is_short() -> None:
    """A feeding of one August and one of the next lie less than twelve months apart."""
    dormant = {"leveling": None, "seeding": {"intent": "dormant"}}
    assert plan_of(IQALUIT, dormant).conflict is None


@pytest.mark.full
def test_the_settling_that_is_told_is_the_one_that_is_reckoned_with() -> None:
    """Lifted hollows alone are filled for a fifth of settling, and nothing is told of a tenth."""
    lifted = plan_of(GUELPH, hollows(None, ("60 mm", 0.08)), options=False)
    told = " ".join(map(str, lifted.assumptions))
    assert kind(lifted, "lift_and_fill") and not kind(lifted, "topdress")
    assert "settle by 20%" in told and "settle by 10%" not in told
    both = plan_of(GUELPH, hollows("6 mm", ("60 mm", 0.08)), options=False)
    told = " ".join(map(str, both.assumptions))
    assert "settle by 20%" in told and "settle by 10%" in told


BUFFALO: dict[str, Any] = {
    "lawn": {"grass": "buffalo", "area": "8000 ft2", "soil": "clay", "thatch": "0.3 in"},
    "place": {"postal_code": "79109"},
    "leveling": {"depth": "1 in"},
    "seeding": {"intent": "none"},
    "season": None,
}


@pytest.mark.full
def test_what_is_left_of_the_fill_is_told_first_with_the_way_that_does_it_all() -> None:
    """Half of an inch is left out: the screen, the first sheet and the order say so, and when and
    by which wish all of it is done; the wish keeps its promise."""
    plan = plan_of(BUFFALO)
    told = next(note for note in plan.ranked if note.told_first)
    assert "1/2 in of the fill asked for; up to 1/2 in on 100%" in str(told.text)
    assert "over two years, 2027 to 2028" in str(told.text)
    words = words_for("en", plan.lawn.units, english_of(BOOK))
    assert 'campaign = "two_years"' in words.on_terminal().text(told.text)
    for page in (order_html(plan, words), checklist_html(plan, words)):
        assert "of the fill asked for" in page
    reasons = {str(r.campaign): str(r.reason) for r in plan.rejected}
    assert "whole fill" in reasons["over two years, 2027 to 2028"]
    whole = plan_of(BUFFALO, {"season": {"campaign": "two_years"}})
    assert not whole.handover and sum(amount(t, "depth") for t in kind(whole, "topdress")) == (
        pytest.approx(INCH_MM)
    )


@pytest.mark.full
def test_each_depth_is_decided_by_what_its_grass_bears() -> None:
    """Creeping grass takes 25 mm in two passes: only the hollow of 60 mm is lifted, and the reason
    tells by how many passes it is too deep."""
    durban = {
        "lawn": {"grass": "bermuda_common", "area": "600 m2", "condition": "dense"},
        "place": {"postal_code": None, "country": "ZA", "latitude": -29.83, "longitude": 30.98},
        "seeding": {"intent": "none"},
        "season": None,
    }
    plan = plan_of(durban, hollows(None, ("60 mm", 0.04), ("25 mm", 0.15)), options=False)
    lifted = first(plan, "lift_and_fill")
    assert 0 <= amount(lifted, "volume") - 0.04 * 600 * 0.060 * 1.2 < 0.01
    assert "2 passes of" in str(lifted.why)
    assert sum(amount(t, "depth") for t in kind(plan, "topdress")) == pytest.approx(25)


@pytest.mark.full
def test_a_part_of_the_fill_is_two_passes_or_one() -> None:
    """What two passes take, and what one takes, as far as half of the fill is no more than left;
    with seed the last pass takes less where its cap is less.
    """
    for intent, depth in product(("overseed", "none", "dormant"), ("0.6 in", "0.75 in", "1 in")):
        brief = brief_of({"leveling": {"depth": depth}, "seeding": {"intent": intent}})
        setting = setting_of(brief)
        (cap,) = band_caps(setting, intent == "overseed")
        whole = setting.levelling.depth_mm
        taken = [cap.plain.depth_mm + cap.last.depth_mm, cap.last.depth_mm]
        wanted = [mm for mm in taken if whole / 2 <= mm < whole]
        ways = ways_of_filling(setting)[1:]
        thinner = [way.levelling for way in ways if way.levelling.bands and way.levelling.left]
        assert [way.depth_mm for way in thinner] == pytest.approx(wanted)
        for way in thinner:
            assert way.left[0].depth_mm == pytest.approx(whole - way.depth_mm)


def test_a_fill_that_is_done_whole_costs_nothing_more() -> None:
    """Lifting costs, a part that is left costs by its share, and all of it left has its own."""
    setting = setting_of(brief_of({"leveling": {"depth": "1 in"}}))
    cost, whole = setting.book.si, setting.levelling

    def of(**changes: Any) -> float:
        return cost_of_way(replace(setting, levelling=replace(whole, **changes)))

    left, kept = (Band(6.0, 1.0),), (Band(18.0, 1.0),)
    part = cost("campaign.cost_part") + cost("campaign.cost_left") * 6 / 24
    assert of() == 0
    assert of(lift_share=0.1, lift_depth_mm=50.0) == cost("campaign.cost_lift")
    assert of(bands=kept, left=left) == pytest.approx(part)
    assert of(bands=(), left=left) == cost("campaign.cost_undressed")
    lifted = {"lift_share": 0.1, "lift_depth_mm": 60.0}
    share = cost("campaign.cost_left") * 6 / 30
    assert of(bands=kept, left=left, **lifted) == pytest.approx(
        cost("campaign.cost_lift") + cost("campaign.cost_part") + share
    )
    assert of(bands=(), left=left, **lifted) == pytest.approx(
        cost("campaign.cost_lift") + cost("campaign.cost_undressed")
    )


FEW_DAYS = {"allowed_weekdays": ["wed", "sat"]}


@pytest.mark.parametrize(
    ("water", "lifted"),
    [
        ({**FEW_DAYS, "permit": False}, False),
        ({"allowed_weekdays": ["mon"], "permit": False, "timer": False}, False),
        ({"parity": "odd", "permit": False}, False),
        ({**FEW_DAYS, "permit": True}, True),
        (FEW_DAYS, True),
        ({"permit": False}, True),
    ],
)
def test_no_turf_is_lifted_that_the_law_would_let_dry_out(
    water: dict[str, Any], lifted: bool
) -> None:
    """As sod it wants water every day; what is lifted already is laid back whatever the law says,
    and the plan says why nothing is lifted."""
    base = lawn({"water": {"possible": True, **water}, "work": {"people": 9}})
    setting = banded(Band(BOOK.fact("site.deep_limit").high_si + 20.0, 0.02), base=base)
    ways, begun = ways_of_filling(setting), ways_of_filling(setting, begun=True)
    assert any(way.levelling.lift_share for way in ways) is lifted
    assert any(way.levelling.lift_share for way in begun)
    told = {said.key for way in ways for said in way.assumptions}
    assert ("watering.verdict.gap_relaid" in told) is not lifted
    assert (lift_refused(setting) is None) is lifted


def test_turf_that_nobody_waters_is_lifted_by_the_rain_whatever_the_law_says() -> None:
    """No permit is missed where no water is put on."""
    base = lawn({"water": {"possible": False, "application_rate": None, **FEW_DAYS}})
    base = replace(
        base,
        brief=base.brief.model_copy(
            update={"water": base.brief.water.model_copy(update={"permit": False})}
        ),
    )
    setting = banded(Band(BOOK.fact("site.deep_limit").high_si + 20.0, 0.02), base=base)
    assert lift_refused(setting) is None


ST_AUGUSTINE: dict[str, Any] = {
    "lawn": {"grass": "st_augustine", "soil": "clay", "area": "3400 ft2", "thatch": "0.5 in"},
    "place": {"postal_code": "77057"},
    "leveling": {"depth": None, "lows": [{"depth": "3 in", "share": 0.06}]},
    "season": {"from": date(2028, 3, 1)},
}
KIKUYU: dict[str, Any] = {
    "lawn": {"grass": "kikuyu", "area": "300 m2"},
    "place": {"postal_code": None, "country": "AU", "latitude": -37.67, "longitude": 145.16},
    "leveling": {"depth": None, "lows": [{"depth": "80 mm", "share": 0.05}]},
}
COOL: dict[str, Any] = {
    **GUELPH,
    "leveling": {"depth": None, "lows": [{"depth": "60 mm", "share": 0.05}]},
}


@pytest.mark.full
@pytest.mark.parametrize("place", [ST_AUGUSTINE, KIKUYU, COOL])
@pytest.mark.parametrize("days", [["wed", "sat"], ["mon"]])
def test_a_lawn_to_be_levelled_alone_is_never_lifted_into_dry_days(
    place: dict[str, Any], days: list[str]
) -> None:
    """With the season of either half of the world and of cool and warm grass: passes, or a refusal
    that says why; with the permit turf may be lifted."""
    alone = {"seeding": {"intent": "none"}}
    water = {"allowed_weekdays": days, "permit": False}
    plan = plan_of(place, alone, {"water": water}, options=False)
    assert not kind(plan, "lift_and_fill")
    said = [*plan.assumptions, *(plan.conflict.reasons if plan.conflict else ())]
    free = plan_of(place, alone, {"water": {**water, "permit": True}}, options=False)
    told = any("laid back is watered at once" in str(s) for s in said)
    assert told or not kind(free, "lift_and_fill")
