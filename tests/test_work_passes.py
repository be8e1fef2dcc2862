"""Passes: none too deep, none too thin but the last, together the fill; and an order that covers
them, over random lawns.
"""

from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from planning import EXAMPLES, TODAY, amount, brief_of, first, kind, made_plan, plan_of
from resolved_lawns import setting_of
from told import told
from turfplan.app.inputs import input_of
from turfplan.files.reading.book import load_book
from turfplan.message import as_written
from turfplan.records.plan import Plan
from turfplan.units import INCH_MM
from turfplan.work.drafts import Band
from turfplan.work.lag_steps import growth_step
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.mix_choice import blend
from turfplan.work.passes import (
    _height_cap,
    _slow,
    band_caps,
    beyond_custom,
    low_floor,
    next_dressing,
    pass_cap,
    plan_passes,
    sessions_needed,
)

BOOK = load_book()
FOOT_M2 = 0.09290304
YARD_M3 = 0.764554857984
# A place where each grass is at home, by postal code.
HOMES = {
    "kentucky_bluegrass": "55406",
    "perennial_ryegrass": "97202",
    "tall_fescue": "37205",
    "fine_fescue": "04101",
    "creeping_bentgrass": "17601",
    "bermuda_common": "30606",
    "bermuda_hybrid": "30606",
    "zoysia": "30606",
    "st_augustine": "32607",
    "centipede": "29201",
    "bahia": "32607",
    "buffalo": "67401",
}


@st.composite
def lawns(draw: st.DrawFn) -> dict[str, Any]:
    """A lawn with a fill: any grass at home, any soil, state and intent that the grass has, 20 to
    5,000 m2, 1/8 to 2 in.
    """
    grass = draw(st.sampled_from(sorted(HOMES)))
    species = BOOK.species[grass]
    intents = [
        "none",
        *(["overseed", "renovate"] if species.seedable else []),
        *(["plant"] if species.plantable else []),
    ]
    eighths = draw(st.integers(1, 16))
    return {
        "lawn": {
            "grass": grass,
            "area": f"{draw(st.integers(20, 5000))} m2",
            "soil": draw(st.sampled_from(sorted(BOOK.soils))).replace("_", " "),
            "condition": draw(st.sampled_from(["dense", "thin", "patchy", "bare"])),
            "thatch": draw(st.sampled_from(["0.1 in", "0.6 in"])),
        },
        "place": {"postal_code": HOMES[grass]},
        "leveling": {"depth": f"{eighths / 8} in"},
        "seeding": {"intent": draw(st.sampled_from(intents))},
        "work": {"people": draw(st.integers(1, 12))},
        "calendar": {
            "weekdays": draw(
                st.sampled_from(
                    [["sat", "sun"], ["mon", "tue", "wed", "thu", "fri"], ["wed", "sat"]]
                )
            )
        },
    }


def passes_of(plan: Plan, operation: str = "topdress") -> list[float]:
    """The settled depths of the passes, or of the lifts, in mm, in order."""
    return [amount(task, "depth") for task in kind(plan, operation)]


PLAIN = setting_of(brief_of())


def with_bands(*bands: Band, **changes: Any) -> ResolvedLawn:
    """The plain lawn, 464.5 m2 of thin tall fescue, with parts of some depth and share."""
    setting = replace(PLAIN, **changes)
    return replace(setting, levelling=replace(setting.levelling, bands=bands))


@pytest.mark.parametrize(
    ("depth", "sessions"),
    [(0.0, 0), (0.1, 1), (0.5, 1), (0.51, 2), (1.5, 2), (1.51, 3), (2.25, 3), (2.26, 4)],
)
def test_sessions_are_as_many_as_the_mean_fill_asks_for(depth: float, sessions: int) -> None:
    """Half an inch in one, an inch and a half in two, three quarters in each of more."""
    assert sessions_needed(with_bands(Band(depth * INCH_MM, 1.0))) == sessions
    assert sessions_needed(with_bands(Band(2 * depth * INCH_MM, 0.5))) == sessions


def test_strong_grass_bears_an_inch_a_session_and_bare_ground_all_at_once() -> None:
    """Where there is anything to fill."""
    strong = BOOK.campaigns["summer"].strong[0]
    turf = replace(PLAIN.turf, species=BOOK.species[strong])
    found = [sessions_needed(with_bands(Band(d * INCH_MM, 1.0), turf=turf)) for d in (1, 1.01, 2.1)]
    assert found == [1, 2, 3]
    bare = replace(PLAIN.turf, condition="bare")
    assert sessions_needed(with_bands(Band(200.0, 1.0), turf=bare)) == 1
    assert sessions_needed(with_bands(turf=bare)) == 0


def test_passes_carry_their_depths_volumes_shares_and_zones() -> None:
    """Half an inch on a half and a quarter on the other: what is full takes nothing more."""
    front = as_written("front")
    bands = Band(12.7, 0.5, front), Band(6.35, 0.25)
    setting = with_bands(*bands)
    passes = plan_passes(setting, [2], False)
    assert sum(p.depth_mm for p in passes) == pytest.approx(12.7)
    area = setting.plot.area_m2
    whole = (12.7 * 0.5 + 6.35 * 0.25) * area / 1000
    assert sum(p.settled_m3 for p in passes) == pytest.approx(whole)
    assert [dict(p.zones)[front] for p in passes] == pytest.approx(
        [p.depth_mm * 0.5 * area / 1000 for p in passes]
    )
    first, last = passes[0], passes[-1]
    assert (first.share, first.session, first.number) == (0.75, 1, 1)
    assert last.share in (0.5, 0.75)
    assert plan_passes(with_bands(), [2], False) == () and plan_passes(setting, [], False) == ()


def test_a_pass_tells_its_thinnest_layer_where_it_is_uneven() -> None:
    """None where it is even."""
    even = plan_passes(with_bands(Band(6.35, 1.0)), [1], False)
    assert [p.rest_mm for p in even] == [None]
    uneven = plan_passes(with_bands(Band(6.35, 0.5), Band(2.0, 0.5)), [1], False)
    assert [p.rest_mm for p in uneven] == [2.0]


def test_a_hollow_bears_more_the_smaller_it_is() -> None:
    """Up to a share all of what a hollow bears, from another on no more than the lawn, between
    them in proportion.
    """
    dense = replace(PLAIN, turf=replace(PLAIN.turf, condition="dense", thatch_mm=0.0))
    share = BOOK.fact("passes.hollow_share")
    small, rest = (pass_cap(dense, False, one).depth_mm for one in (share.low_si, share.high_si))
    assert small > rest == pass_cap(dense, False).depth_mm
    assert pass_cap(dense, False, share.low_si / 2).depth_mm == small
    middle = pass_cap(dense, False, (share.low_si + share.high_si) / 2).depth_mm
    assert middle == pytest.approx((small + rest) / 2)
    quarter = pass_cap(dense, False, share.low_si + (share.high_si - share.low_si) / 4).depth_mm
    assert quarter == pytest.approx(rest + 0.75 * (small - rest))
    bare = replace(PLAIN, turf=replace(PLAIN.turf, condition="bare"))
    assert pass_cap(bare, False, 0.01).depth_mm == BOOK.si("open_ground.lift_depth")


def test_hollows_of_a_band_reach_as_far_as_all_deeper_ones() -> None:
    """Two of a half of the least share each: the second is no smaller than both; a zone that was
    drawn is filled all over.
    """
    dense = replace(PLAIN, turf=replace(PLAIN.turf, condition="dense", thatch_mm=0.0))
    low = BOOK.low_si("passes.hollow_share")
    lawn = replace(
        dense,
        levelling=replace(
            dense.levelling,
            bands=(
                Band(20.0, low),
                Band(10.0, low),
                Band(5.0, 0.5),
                Band(4.0, 0.01, as_written("z")),
            ),
        ),
    )
    caps = [cap.plain.depth_mm for cap in band_caps(lawn, seeded_last=False)]
    wanted = [pass_cap(dense, False, share).depth_mm for share in (low, 2 * low, 0.5 + 2 * low, 1)]
    assert caps == wanted and caps[0] > caps[2]


@pytest.mark.parametrize(
    ("condition", "thatch", "slow"),
    [("dense", 0.0, False), ("thin", 0.0, True), ("patchy", 0.0, True), ("dense", 0.1, True)],
)
def test_thin_thatchy_or_shaded_turf_grows_through_slowly(
    condition: str, thatch: float, *, slow: bool
) -> None:
    """Thatch above the limit, not at it; a seeded pass has a cap of its own."""
    limit = BOOK.si("dethatch.limit")
    turf = replace(PLAIN.turf, condition=condition, thatch_mm=limit + thatch)
    lawn = replace(PLAIN, turf=turf)
    assert (_slow(lawn) is not None) is slow
    thin = BOOK.si("passes.thin_cap")
    assert (pass_cap(lawn, False).depth_mm == thin) is slow


def test_grass_that_grows_out_of_deep_cover_has_no_cap_by_its_height() -> None:
    """Any other leaves a third of it above the layer."""
    floor, _ = low_floor(PLAIN, False)
    (cap,) = _height_cap(PLAIN, False)
    assert cap.depth_mm == pytest.approx(floor * BOOK.si("passes.height_share"))
    names = BOOK.campaigns["summer"].strong
    strong = replace(PLAIN, turf=replace(PLAIN.turf, species=BOOK.species[names[0]], stand=()))
    assert list(_height_cap(strong, False)) == []
    mixed = replace(strong, turf=replace(strong.turf, stand=("tall_fescue",)))
    assert len(list(_height_cap(mixed, False))) == 1


def test_the_next_dressing_is_the_first_whose_best_day_is_not_past() -> None:
    """On that day it still is."""
    windows = PLAIN.open("topdress")
    best = windows[0].best
    assert next_dressing(PLAIN, best) == windows[0]
    assert next_dressing(PLAIN, best + timedelta(1)) == windows[1]
    assert next_dressing(PLAIN, date(2099, 1, 1)) is None


@pytest.mark.full
@settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(lawns())
def test_passes_and_order_of_any_lawn(lawn: dict[str, Any]) -> None:
    """Each pass at most half an inch, none under half of the usual one but the last, together the
    fill that was asked for; the mix ordered covers area x depth x allowance and no less than
    geometry, and so do the loose volumes of the passes.
    """
    plan = plan_of(lawn)
    if plan.conflict is not None:
        # Too deep for the days of the plan: nothing is promised, and the reason is told.
        assert plan.conflict.reasons and not plan.tasks
        return
    spread = "fill" if kind(plan, "fill") else "topdress"
    depths = passes_of(plan, spread)
    most = BOOK.si("open_ground.lift_depth") if spread == "fill" else INCH_MM / 2
    assert depths and max(depths) <= most + 0.01
    usual = max(depths[:-1], default=depths[-1])
    assert all(depth >= usual / 2 - 0.01 for depth in depths[:-1])
    assert sum(depths) == pytest.approx(plan.lawn.depth_mm, abs=0.05)
    settled = plan.lawn.area_m2 * plan.lawn.depth_mm / 1000
    allowance = 1 + BOOK.si("topdress.settle_allowance")
    loose = sum(amount(task, "volume") for task in kind(plan, spread))
    ordered = sum(line.value for line in plan.order if line.item == "mix")
    # Volumes of single passes are kept to the millionth of a cubic metre.
    rounding = 1e-6 * len(depths)
    assert loose >= settled * allowance - rounding
    assert ordered >= settled * allowance and ordered >= loose - rounding


@pytest.mark.full
@pytest.mark.parametrize(
    ("eighths", "cubic_yards"),
    [(1, 0.386), (2, 0.772), (3, 1.157), (4, 1.543), (6, 2.315), (8, 3.086)],
)
def test_order_is_no_less_than_geometry(eighths: int, cubic_yards: float) -> None:
    """Volumes by geometry on 1,000 ft2, yd3 as printed in the table of the agronomy notes
    (computed, not from a source).
    """
    plan = plan_of(
        {
            "lawn": {"area": "1000 ft2"},
            "leveling": {"depth": f"{eighths / 8} in", "settle_percent": 0},
        }
    )
    ordered = sum(line.value for line in plan.order if line.item == "mix") / YARD_M3
    assert 1000 * FOOT_M2 * eighths / 8 * INCH_MM / 1000 / YARD_M3 == pytest.approx(
        cubic_yards, abs=0.0006
    )
    assert ordered >= cubic_yards - 0.0006


@pytest.mark.full
@pytest.mark.parametrize(
    ("grass", "interval"),
    [("tall_fescue", 21), ("fine_fescue", 28), ("zoysia", 28), ("bermuda_common", 14)],
)
def test_passes_wait_for_the_grass(grass: str, interval: int) -> None:
    """On living turf a pass waits until the last one has grown through: longer where growth is
    slow, never under the least.
    """
    plan = plan_of(
        {
            "lawn": {"grass": grass, "condition": "dense"},
            "place": {"postal_code": HOMES[grass]},
            "seeding": {"intent": "none"},
            "leveling": {"depth": "1 in"},
        }
    )
    days = [task.start for task in kind(plan, "topdress")]
    assert len(days) > 1 and all((b - a).days >= interval for a, b in pairwise(days))


def test_slow_growth_spreads_the_passes() -> None:
    """The days that a cool-season grass needs to grow through a pass lengthen from early to late
    autumn: no fixed week.
    """
    climate = input_of(brief_of(), EXAMPLES).climate
    start, end = date(2027, 8, 1).toordinal(), date(2028, 7, 31).toordinal()
    step = growth_step(climate, "cool", start, end, BOOK.si("passes.growth_cool"))
    waits = [
        step(day.toordinal()) - day.toordinal()
        for day in (date(2027, 9, 5), date(2027, 9, 25), date(2027, 10, 10))
    ]
    assert waits == sorted(waits) and waits[0] >= 18 and waits[2] >= waits[0] + 10


@pytest.mark.full
def test_bare_ground_is_filled_in_lifts() -> None:
    """Without grass to grow through, four inches go on in two lifts, in the weeks before seed."""
    bare = plan_of(
        {
            "lawn": {"condition": "bare"},
            "seeding": {"intent": "renovate"},
            "leveling": {"depth": "4 in"},
        }
    )
    first, second = kind(bare, "fill")
    assert bare.campaign == "autumn" and passes_of(bare, "fill") == pytest.approx([50.8, 50.8])
    assert 3 <= (second.start - first.end).days <= 14
    assert (kind(bare, "seed")[0].start - second.end).days <= 28
    assert not kind(bare, "mow") and not kind(bare, "mow_low") and not kind(bare, "topdress")
    turf = plan_of({"leveling": {"depth": "1 in"}})
    assert turf.campaign == "spring_then_autumn" and len(passes_of(turf)) > 2


@pytest.mark.full
def test_sentences_take_their_numbers_from_the_book() -> None:
    """The parts of a mix, the watering after a pass and the depth below a siding are said as the
    book has them, not as texts of their own.
    """
    changed = {
        "mixes.topsoil_sand_compost.topsoil": 0.6,
        "mixes.topsoil_sand_compost.sand": 0.15,
        "water.recover_days": 10.0,
        "site.below_siding": 8.0,
    }
    facts = {
        name: BOOK.facts[name].model_copy(update={"value": value})
        for name, value in changed.items()
    }
    book = replace(BOOK, facts={**BOOK.facts, **facts}, _cache={})
    brief = brief_of({"seeding": {"intent": "none"}, "site": {"building": True}})
    made = made_plan(brief, book, input_of(brief, EXAMPLES).climate, now=TODAY)
    drag, spread = first(made, "incorporate"), first(made, "topdress")
    assert "for 10 days" in " ".join(step.text for step in drag.how)
    assert "keep 8 in below the siding" in " ".join(caution.text for caution in spread.cautions)
    assert told(blend(book, "topsoil_sand_compost")).startswith(
        "60% of it dry pulverized topsoil, 15% of it dry fine sand, a quarter of it mature"
    )


CREEPER: dict[str, Any] = {
    "lawn": {"grass": "bermuda_common", "condition": "dense"},
    "place": {"postal_code": HOMES["bermuda_common"]},
    "seeding": {"intent": "none"},
    "leveling": {"depth": "0.25 in", "lows": [{"depth": "2 in", "share": 0.1}]},
}


def test_hollows_take_the_most_only_where_there_is_no_time_for_more_passes() -> None:
    """As many passes as the days hold keep the depth that is planned; one day less, and creepers
    take in hollows the most that they ever do.
    """
    setting = setting_of(brief_of(CREEPER))
    usual = plan_passes(setting, [9], False)
    assert len(usual) > 1
    assert plan_passes(setting, [len(usual)], False) == usual
    pressed = plan_passes(setting, [len(usual) - 1], False)
    assert len(pressed) < len(usual) and pressed[0].depth_mm > usual[0].depth_mm


def test_seed_goes_on_the_last_pass_alone() -> None:
    """With the cap of a seeded layer; the passes before it have their own."""
    setting = setting_of(brief_of({"leveling": {"depth": "1 in"}}))
    seeded, plain = plan_passes(setting, [9], True), plan_passes(setting, [9], False)
    assert [layer.seeded for layer in seeded] == [False] * (len(seeded) - 1) + [True]
    assert not any(layer.seeded for layer in plain)
    assert len({layer.cap_mm for layer in plain}) == 1
    assert {layer.cap_mm for layer in seeded[:-1]} == {plain[0].cap_mm}
    assert [layer.number for layer in seeded] == list(range(1, len(seeded) + 1))


@pytest.mark.full
@pytest.mark.parametrize(("share", "deepest_mm"), [(0.4, 0.25 * INCH_MM), (0.1, 0.375 * INCH_MM)])
def test_every_grass_that_counts_binds_the_passes(share: float, deepest_mm: float) -> None:
    """Two fifths of fine fescue in ryegrass bear 1/4 in, as fescue does; a tenth moves nothing."""
    grass = [
        {"species": "perennial_ryegrass", "share": 1 - share},
        {"species": "fine_fescue", "share": share},
    ]
    plan = plan_of(
        {"lawn": {"grass": grass, "condition": "dense"}, "seeding": {"intent": "none"}},
        {"place": {"postal_code": "97202"}},
    )
    depths = [amount(task, "depth") for task in kind(plan, "topdress")]
    assert depths and max(depths) <= deepest_mm + 0.01
    assert max(depths) > 0.25 * INCH_MM - 0.01 and sum(depths) == pytest.approx(0.5 * INCH_MM)


@pytest.mark.parametrize(
    ("place", "grass", "depth", "deeper"),
    [
        (
            {"latitude": 52.2, "longitude": 0.12, "country": "GB"},
            "perennial_ryegrass",
            "6 mm",
            True,
        ),
        (
            {"latitude": 52.2, "longitude": 0.12, "country": "GB"},
            "perennial_ryegrass",
            "2 mm",
            False,
        ),
        ({"latitude": -33.9, "longitude": 151.0, "country": "AU"}, "kikuyu", "12 mm", False),
        (
            {"latitude": 48.1, "longitude": 11.6, "country": "DE"},
            "perennial_ryegrass",
            "6 mm",
            False,
        ),
    ],
    ids=["deep in England", "thin in England", "at the custom of Sydney", "none known in Munich"],
)
def test_a_pass_deeper_than_the_custom_of_its_country_is_told(
    place: dict[str, Any], grass: str, depth: str, deeper: bool
) -> None:
    lawn = setting_of(
        brief_of(
            {"place": {**place, "postal_code": None}},
            {"lawn": {"grass": grass, "area": "200 m2"}, "leveling": {"depth": depth}},
            {"seeding": {"intent": "none"}},
        )
    )
    passes = plan_passes(lawn, [4], seeded_last=False)
    custom = beyond_custom(lawn, passes)
    assert (custom is not None) == deeper
    assert custom is None or "In the British Isles" in told(custom)
