"""A changed wish changes the plan in the direction that an expert expects, each by a stated
rule.
"""

from collections.abc import Callable, Mapping
from datetime import date, timedelta
from typing import Any

import pytest

from planning import amount, depth_total, first, kind, plan_of
from tiers import sampled
from turfplan.records.plan import Plan
from turfplan.units import convert

MEADOW = {"latitude": 41.6, "longitude": -93.6}


@pytest.mark.full
def test_deeper_fill_needs_more() -> None:
    """More depth: more material, more passes or sessions, never a pass over its cap."""
    shallow, deep = (
        plan_of({"leveling": {"depth": "0.25 in"}}),
        plan_of({"leveling": {"depth": "1 in"}}),
    )
    assert len(kind(deep, "topdress")) > len(kind(shallow, "topdress"))
    assert sum(o.value for o in deep.order if o.item == "mix") > 3.5 * sum(
        o.value for o in shallow.order if o.item == "mix"
    )
    assert depth_total(deep) == pytest.approx(25.4) and depth_total(shallow) == pytest.approx(6.35)


@pytest.mark.full
def test_larger_area_needs_more_of_everything() -> None:
    """Twice the area takes twice the seed and twice the loose volume, but for the step of
    0.05 yd³ up to which more than ten are rounded."""
    small, large = plan_of(), plan_of({"lawn": {"area": "10000 ft2"}})
    assert amount(first(large, "overseed"), "seed") == pytest.approx(
        2 * amount(first(small, "overseed"), "seed")
    )
    volume = [sum(amount(t, "volume") for t in kind(p, "topdress")) for p in (small, large)]
    assert volume[1] == pytest.approx(2 * volume[0], abs=convert(0.05, "yd3", "volume"))


@pytest.mark.full
def test_further_north_seeds_earlier() -> None:
    """Autumn seeding comes earlier in the north: winter is nearer."""
    days = [
        first(
            plan_of({"place": {"postal_code": code}, "leveling": {"depth": "0.25 in"}}), "overseed"
        ).start
        for code in ("55406", "17601", "37205")
    ]
    assert days == sorted(days) and (days[2] - days[0]).days >= 14


@pytest.mark.full
def test_southern_hemisphere_is_half_a_year_away() -> None:
    """The same grass in the south is seeded half a year apart."""
    north = first(plan_of({"leveling": {"depth": "0.25 in"}}), "overseed").start
    south = plan_of(
        {
            "place": {"postal_code": None, "country": "AU", "latitude": -37.8, "longitude": 145.0},
            "leveling": {"depth": "0.25 in"},
            "season": {"from": date(2027, 2, 1)},
        }
    )
    assert abs((first(south, "overseed").start - north).days) in range(120, 245)


@pytest.mark.full
def test_warm_grass_is_levelled_in_summer_and_cool_in_spring_and_autumn() -> None:
    """Passes go on when the grass grows hard: zoysia in summer, tall fescue not."""
    place = {
        "place": {"postal_code": "30606"},
        "seeding": {"intent": "none"},
        "leveling": {"depth": "0.25 in"},
    }
    warm = plan_of(place, {"lawn": {"grass": "zoysia"}})
    cool = plan_of(place, {"lawn": {"grass": "tall_fescue"}})
    assert all(t.start.month in (5, 6, 7, 8) for t in kind(warm, "topdress"))
    assert all(t.start.month in (2, 3, 4, 5, 9, 10, 11) for t in kind(cool, "topdress"))


@pytest.mark.full
def test_mix_follows_seed_depth_soil_and_grass() -> None:
    """Compost blend with seed; straight sand only thin and where it suits; topsoil and sand
    otherwise.
    """
    mixes = {
        "seed": plan_of().lawn.mix,
        "clay": plan_of({"seeding": {"intent": "none"}}).lawn.mix,
        "sandy": plan_of({"seeding": {"intent": "none"}, "lawn": {"soil": "sandy loam"}}).lawn.mix,
        "sandy and deep": plan_of(
            {
                "seeding": {"intent": "none"},
                "lawn": {"soil": "sandy loam"},
                "leveling": {"depth": "1 in"},
            }
        ).lawn.mix,
    }
    assert mixes["seed"] and "compost" in str(mixes["seed"])
    assert str(mixes["clay"]) == str(mixes["sandy and deep"]) == "topsoil and sand, half and half"
    assert str(mixes["sandy"]) == "straight fine sand"


def test_sand_on_clay_is_warned_of() -> None:
    """Asked for sand on clay, the plan obeys and warns, and tells that experts disagree."""
    plan = plan_of(
        {"leveling": {"material": "sand", "depth": "1 in"}, "seeding": {"intent": "none"}}
    )
    assert str(plan.lawn.mix) == "straight fine sand"
    assert any("Sand over a clay" in c for c in map(str, plan.cautions)) and any(
        "only up to" in c for c in map(str, plan.cautions)
    )
    assert any("disagree" in d for d in map(str, plan.disagreements))


@pytest.mark.full
def test_starter_without_compost_only() -> None:
    """Seed without compost gets a starter with the seed; with compost none, and the plan says
    why.
    """
    bare = plan_of({"leveling": {"depth": "0 in"}})
    assert kind(bare, "starter_feed")
    dressed = plan_of()
    assert not kind(dressed, "starter_feed") and any(
        "no starter" in line for line in map(str, dressed.campaign_reason)
    )


@pytest.mark.full
def test_intent_none_has_no_seed_and_no_germination_watering() -> None:
    """Levelling without seed: no seed, no permit, no look for seedlings, and the layer is settled
    with water.
    """
    plan = plan_of({"seeding": {"intent": "none"}})
    assert not [t for t in plan.tasks if t.phase == "seed" and t.operation != "water"]
    assert not [
        t
        for t in plan.tasks
        if t.id.startswith(("water.germination", "inspect.germination", "first_mow"))
    ]
    assert [t for t in plan.tasks if t.id.startswith("water.settle")]


@pytest.mark.full
def test_later_start_never_plans_earlier() -> None:
    """A later first day moves the whole season to a later window, or the next year."""
    early, late = plan_of(), plan_of({"season": {"from": date(2027, 10, 20)}})
    assert min(t.start for t in late.tasks) >= date(2027, 10, 20)
    assert first(late, "topdress").start > first(early, "topdress").start


@pytest.mark.full
def test_herbicide_holds_the_seed() -> None:
    """Prodiamine in June keeps seed off until sixteen weeks are over; the reason names it."""
    held = plan_of(
        {
            "history": {
                "herbicides": [{"active_ingredient": "prodiamine", "on": date(2027, 6, 1)}]
            },
            "leveling": {"depth": "0.25 in"},
        }
    )
    sowing = next(t for t in held.tasks if t.operation in ("overseed", "dormant_seed"))
    assert sowing.start >= date(2027, 6, 1) + timedelta(weeks=16)
    assert first(plan_of({"leveling": {"depth": "0.25 in"}}), "overseed").start < date(
        2027, 6, 1
    ) + timedelta(weeks=16)


@pytest.mark.full
def test_nobody_to_water_moves_the_seed() -> None:
    """Away in September: seed goes before or after, never where nobody waters its first three
    weeks.
    """
    away = plan_of(
        {
            "calendar": {"away": [{"from": date(2027, 9, 5), "to": date(2027, 9, 20)}]},
            "leveling": {"depth": "0.25 in"},
        }
    )
    sowing = next(t for t in away.tasks if t.operation in ("overseed", "seed", "dormant_seed"))
    assert not date(2027, 8, 15) <= sowing.start <= date(2027, 9, 20)


def test_watering_ban_moves_the_seed() -> None:
    """A ban in late summer moves the seed out of its way, with the reason."""
    banned = plan_of(
        {
            "water": {"banned": [{"from": date(2027, 8, 1), "to": date(2027, 9, 20)}]},
            "leveling": {"depth": "0.25 in"},
        }
    )
    sowing = next(t for t in banned.tasks if t.operation in ("overseed", "seed", "dormant_seed"))
    assert not date(2027, 7, 1) <= sowing.start <= date(2027, 9, 20)
    assert any("banned" in c for c in map(str, banned.cautions))


@pytest.mark.full
def test_a_permit_that_nobody_spoke_of_is_asked_for() -> None:
    """Two legal days a week, no word of a permit: a task with a day and a way back, and said."""
    plan = plan_of({"water": {"allowed_weekdays": ["tue", "sat"]}}, options=False)
    asked = first(plan, "permit")
    assert plan.conflict is None and asked.start < first(plan, "overseed").start
    assert asked.fallback_day is not None and "tell the plan that there is none" in str(
        asked.fallback
    )
    assert any("Nobody said whether a watering permit" in str(a) for a in plan.assumptions)
    free = plan_of({"water": {"allowed_weekdays": None}}, options=False)
    assert not kind(free, "permit")


@pytest.mark.full
def test_two_watering_days_without_permit_stop_the_seed() -> None:
    """Two legal days a week and no permit: no seed; a permit, dormant seed or no seed are the ways
    out.
    """
    plan = plan_of({"water": {"allowed_weekdays": ["tue", "sat"], "permit": False}})
    assert plan.conflict is not None and any(
        "days between waterings" in r for r in map(str, plan.conflict.reasons)
    )
    assert {str(o.title) for o in plan.options} & {
        "Get a permit to water new seed",
        "Sow dormant: seed that waits for spring",
    }
    assert kind(plan_of({"water": {"allowed_weekdays": ["tue", "sat"], "permit": True}}), "permit")


@pytest.mark.full
def test_thatch_is_removed_only_where_it_must_and_may() -> None:
    """Thatch over half an inch is taken off tall fescue; never by machine off St. Augustine."""
    assert not kind(plan_of(), "dethatch")
    assert kind(plan_of({"lawn": {"thatch": "0.6 in"}}), "dethatch")
    stolons = {
        "lawn": {"grass": "st_augustine", "thatch": "0.6 in"},
        "place": {"postal_code": "32607"},
        "seeding": {"intent": "none"},
    }
    assert not kind(plan_of(stolons, {"leveling": {"depth": "0.25 in"}}), "dethatch")


@pytest.mark.full
def test_deep_hollows_are_lifted() -> None:
    """Hollows over two inches are lifted and filled with soil like the soil below; the rest is
    dressed.
    """
    lows = {
        "leveling": {
            "depth": None,
            "lows": [{"depth": "3 in", "share": 0.05}, {"depth": "0.5 in", "share": 0.3}],
        }
    }
    plan = plan_of(lows)
    assert kind(plan, "lift_and_fill") and any(line.item == "topsoil" for line in plan.order)
    assert depth_total(plan) == pytest.approx(12.7)


@pytest.mark.full
def test_bumps_that_come_back_are_diagnosed_first() -> None:
    """A cause that is still at work is looked for before money is spent."""
    plan = plan_of({"site": {"bump_cause": "moles"}})
    assert first(plan, "diagnose").start < first(plan, "order_material").start


@pytest.mark.full
def test_fewer_hands_take_longer() -> None:
    """One person takes more days over a pass than four; the person-hours stay the same."""
    one, four = (
        plan_of(
            {
                "work": {"people": 1},
                "calendar": {"weekdays": ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]},
            }
        ),
        plan_of({"work": {"people": 4}}),
    )
    assert first(one, "topdress").duration_days > first(four, "topdress").duration_days
    hours = [
        t.person_hours / amount(t, "volume")
        for t in (first(one, "topdress"), first(four, "topdress"))
    ]
    assert hours[0] == pytest.approx(hours[1], rel=0.15)


@pytest.mark.full
def test_pure_live_seed_raises_the_rate() -> None:
    """A bag of 95 % purity and 85 % germination takes 1 / 0.8075 as much seed."""
    plain = amount(first(plan_of(), "overseed"), "seed")
    tested = amount(
        first(plan_of({"seeding": {"purity_percent": 95, "germination_percent": 85}}), "overseed"),
        "seed",
    )
    assert tested == pytest.approx(plain / 0.8075, rel=1e-4)


@pytest.mark.full
def test_truck_limit_splits_loads() -> None:
    """No load is over the truck's limit, and together they are the order."""
    plan = plan_of({"delivery": {"truck_limit": "2 yd3"}})
    for line in plan.order:
        if line.item == "mix":
            assert max(line.loads) <= 2 * 0.764555 + 1e-6 and sum(line.loads) == pytest.approx(
                line.value, abs=1e-4
            )


@pytest.mark.full
def test_quoted_load_is_told_as_a_depth() -> None:
    """Ten yards quoted for 600 square feet: the plan says how deep that would lie."""
    plan = plan_of({"lawn": {"area": "600 ft2"}, "delivery": {"quoted": "10 yd3"}})
    assert any("quoted load" in c and "4 7/8 in" in c for c in map(str, plan.cautions)), (
        plan.cautions[:3]
    )


@pytest.mark.full
def test_coarse_zone_widens_the_error() -> None:
    """A hardiness zone instead of a place gives a plan with a wider error that says so."""
    zone = plan_of({"place": {"postal_code": None, "climate_zone": "6b"}})
    assert zone.climate.error_days > plan_of().climate.error_days and "hardiness zone 6" in str(
        zone.climate.source
    )


@pytest.mark.full
@pytest.mark.parametrize(
    ("grass", "code"),
    [
        ("kentucky_bluegrass", "55406"),
        ("perennial_ryegrass", "98115"),
        ("tall_fescue", "37205"),
        ("fine_fescue", "04101"),
        ("creeping_bentgrass", "17601"),
        ("bermuda_common", "30606"),
        ("bermuda_hybrid", "30606"),
        ("zoysia", "37205"),
        ("st_augustine", "32607"),
        ("centipede", "29201"),
        ("bahia", "32607"),
        ("buffalo", "67401"),
        ("browntop", "98115"),
        ("kikuyu", "92101"),
        ("carpetgrass", "70112"),
        ("seashore_paspalum", "33139"),
    ],
)
def test_every_species_has_a_plan(grass: str, code: str) -> None:
    """Each grass, where it grows, gets a sound plan for a quarter inch without seed."""
    plan = plan_of(
        {
            "lawn": {"grass": grass},
            "place": {"postal_code": code},
            "seeding": {"intent": "none"},
            "leveling": {"depth": "0.25 in"},
        }
    )
    assert plan.conflict is None, plan.conflict
    assert depth_total(plan) == pytest.approx(6.35)


def windows_of(plan: Plan) -> dict[str, tuple[date, date]]:
    """The windows of seeding and of passes in the plan's first year, by operation and season."""
    return {
        f"{w.operation} {w.season}": (w.start, w.end)
        for w in plan.windows
        if w.operation in ("overseed", "seed", "topdress") and w.start.year == 2027
    }


def passes_of(plan: Plan) -> list[float]:
    """Settled depths of the passes in mm."""
    return [amount(t, "depth") for t in kind(plan, "topdress")]


def days_of(plan: Plan) -> list[date]:
    """The days of the passes."""
    return [t.start for t in kind(plan, "topdress")]


def water_of(plan: Plan) -> list[tuple[str, int]]:
    """The waterings with their minutes."""
    return sorted((t.id, t.series.minutes) for t in plan.tasks if t.series)


def mix_of(plan: Plan) -> str | None:
    """The mix of the plan."""
    return plan.lawn.mix


def seed_of(plan: Plan) -> float:
    """The seed in kg."""
    return amount(next(t for t in plan.tasks if t.plays("sowing")), "seed")


def steps_of(plan: Plan) -> list[str]:
    """The operations in order of time, each once."""
    return list(
        dict.fromkeys(
            t.operation
            for t in sorted(plan.tasks, key=lambda t: (t.start, t.id))
            if t.series is None
        )
    )


ATHENS = {
    "place": {"postal_code": "30606"},
    "seeding": {"intent": "none"},
    "leveling": {"depth": "0.5 in"},
}
GRASS = {
    name: {"lawn": {"grass": name}}
    for name in (
        "tall_fescue",
        "kentucky_bluegrass",
        "fine_fescue",
        "zoysia",
        "bermuda_hybrid",
        "st_augustine",
    )
}
# What is swapped, what it changes, and by which rule of the book. Each line: brief, its other self,
# view of the plan, rule.
SWAPS: dict[str, tuple[Mapping[str, Any], Mapping[str, Any], Callable[[Plan], Any], str]] = {
    "fescue or zoysia, windows": (
        {**ATHENS, **GRASS["tall_fescue"]},
        {**ATHENS, **GRASS["zoysia"]},
        windows_of,
        "cool-season grass is dressed in spring and autumn, warm-season in summer (windows.toml)",
    ),
    "fescue or fine fescue, passes": (
        GRASS["tall_fescue"],
        GRASS["fine_fescue"],
        passes_of,
        "fine fescue takes a quarter inch even with seed (species.fine_fescue.pass_cap)",
    ),
    "bluegrass or zoysia, days": (
        {**ATHENS, **GRASS["kentucky_bluegrass"]},
        {**ATHENS, **GRASS["zoysia"]},
        days_of,
        "passes follow growth (order.toml: pass_spacing)",
    ),
    "bermuda or St. Augustine, passes": (
        {
            **ATHENS,
            "lawn": {"grass": "bermuda_hybrid", "condition": "dense"},
            "leveling": {"depth": "1 in"},
        },
        {
            **ATHENS,
            "lawn": {"grass": "st_augustine", "condition": "dense"},
            "leveling": {"depth": "1 in"},
            "season": {"until": date(2029, 12, 1)},
        },
        days_of,
        "bermuda takes an inch in one summer, St. Augustine half (campaign.fill_strong_summer)",
    ),
    "fescue or bluegrass, seed": (
        GRASS["tall_fescue"],
        GRASS["kentucky_bluegrass"],
        seed_of,
        "rates by grass (species.*.seed_rate_overseed)",
    ),
    "fescue or zoysia, mix": (
        {
            **ATHENS,
            "leveling": {"depth": "0.25 in"},
            "lawn": {"grass": "tall_fescue", "soil": "loam"},
        },
        {**ATHENS, "leveling": {"depth": "0.25 in"}, "lawn": {"grass": "zoysia", "soil": "loam"}},
        mix_of,
        "a grass that creeps up through it takes thin straight sand, where no clay lies below "
        "(mixes.sand.species)",
    ),
    "zoysia or St. Augustine, order": (
        {**ATHENS, "lawn": {"grass": "zoysia", "thatch": "0.6 in"}},
        {**ATHENS, "lawn": {"grass": "st_augustine", "thatch": "0.6 in"}},
        steps_of,
        "no machine takes thatch off St. Augustine (species.st_augustine.dethatch)",
    ),
    "fescue or bluegrass, water": (
        GRASS["tall_fescue"],
        GRASS["kentucky_bluegrass"],
        water_of,
        "seed that comes up later is kept moist for longer (species.*.germination_days)",
    ),
    "clay or sand, mix": (
        {"seeding": {"intent": "none"}},
        {"seeding": {"intent": "none"}, "lawn": {"soil": "sand"}},
        mix_of,
        "straight sand over sandy soil alone (mixes.sand.soils)",
    ),
    "clay or sand, order": (
        {},
        {"lawn": {"soil": "sand"}},
        steps_of,
        "seed is rolled in on light soil, never on clay (rules: sow)",
    ),
    "clay or sand, water": (
        {},
        {"lawn": {"soil": "sand"}},
        water_of,
        "sand holds less and takes water in faster (water.toml)",
    ),
    "south or north, windows": (
        {"place": {"postal_code": "37205"}},
        {"place": {"postal_code": "55406"}},
        windows_of,
        "heat ends and winter comes earlier in the north (windows.toml)",
    ),
    "south or north, days": (
        {"place": {"postal_code": "37205"}},
        {"place": {"postal_code": "55406"}},
        days_of,
        "passes follow the windows",
    ),
    "south or north, water": (
        {"place": {"postal_code": "37205"}},
        {"place": {"postal_code": "55406"}},
        water_of,
        "evapotranspiration differs",
    ),
    "mild or short autumn, passes": (
        {
            "place": {"postal_code": "94112"},
            "leveling": {"depth": "1 in"},
            "lawn": {"condition": "dense"},
        },
        {
            "place": {"postal_code": "55406"},
            "leveling": {"depth": "1 in"},
            "lawn": {"condition": "dense"},
        },
        days_of,
        "a season holds as many passes as growth leaves room for (passes.growth_cool)",
    ),
}


@pytest.mark.full
@pytest.mark.parametrize("swap", sampled(SWAPS, *[*SWAPS][::4]))
def test_a_swap_changes_what_its_rule_says(swap: str) -> None:
    """Not a toy: two grasses, two soils or two latitudes give other windows, passes, mix, order or
    water, by a stated rule.
    """
    one, other, view, rule = SWAPS[swap]
    first_plan, second_plan = plan_of(one), plan_of(other)
    assert first_plan.conflict is None and second_plan.conflict is None
    assert view(first_plan) != view(second_plan), rule


@pytest.mark.full
@pytest.mark.parametrize(
    ("intent", "does", "leaves"),
    [
        (
            "none",
            {"topdress"},
            {"overseed", "seed", "plant", "dormant_seed", "first_mow", "irrigation_check"},
        ),
        ("overseed", {"topdress", "overseed", "first_mow"}, {"seed", "plant", "dormant_seed"}),
        ("patch", {"topdress", "overseed", "first_mow"}, {"seed", "plant", "dormant_seed"}),
        (
            "renovate",
            {"kill_stand", "clear_stand", "till", "fill", "grade", "seed"},
            {"overseed", "plant", "dormant_seed", "mow", "topdress", "mow_low", "core_aerate"},
        ),
        ("plant", {"topdress", "plant", "first_mow"}, {"overseed", "seed", "roll", "dormant_seed"}),
        ("dormant", {"topdress", "dormant_seed"}, {"overseed", "seed", "plant", "roll"}),
    ],
)
def test_intent_decides_what_is_done(intent: str, does: set[str], leaves: set[str]) -> None:
    """Each intent brings its own operations and leaves the others' away."""
    operations = {t.operation for t in plan_of({"seeding": {"intent": intent}}).tasks}
    assert does <= operations and not leaves & operations


@pytest.mark.full
def test_patch_buys_less_seed_than_overseeding_and_renovation_more() -> None:
    """Patching takes a share of the seed of a lawn made anew, whose rate its bare spots take; that
    is about twice an overseeding's."""
    patch, over, new = (
        seed_of(plan_of({"seeding": {"intent": i}})) for i in ("patch", "overseed", "renovate")
    )
    assert patch == pytest.approx(new / 4) and patch < over and new > 1.5 * over


@pytest.mark.full
def test_a_dense_lawn_takes_deeper_passes_than_a_thin_one() -> None:
    """Thin turf takes a quarter inch before the seeded pass, dense fescue three eighths: fewer
    passes.
    """
    changes = {"leveling": {"depth": "1 in"}, "seeding": {"intent": "none"}}
    thin, dense = plan_of(changes), plan_of(changes, {"lawn": {"condition": "dense"}})
    assert max(passes_of(thin)) == pytest.approx(6.35) and max(passes_of(dense)) <= 9.53
    assert len(passes_of(dense)) < len(passes_of(thin))


@pytest.mark.full
def test_no_feeding_beside_seedlings_that_compost_feeds() -> None:
    """From four weeks before the seed to the look at its colour, or to its own feeding where the
    year gets too little without, nothing is fed where the mix holds compost, anywhere.
    """
    for place in ({"postal_code": "37205"}, {"postal_code": "94112"}, {"postal_code": "60601"}):
        plan = plan_of({"place": place, "leveling": {"depth": "0.25 in"}})
        sown, look = (
            first(plan, "overseed").start,
            next(
                t for t in plan.tasks if t.id in ("inspect.colour", "feed_nitrogen.seedlings")
            ).start,
        )
        near = [
            t
            for t in kind(plan, "feed_nitrogen")
            if sown - timedelta(21) <= t.start < look - timedelta(14)
        ]
        assert not near, (place, near)


@pytest.mark.full
def test_dormant_seed_is_looked_for_when_the_soil_wakes_it() -> None:
    """In Minneapolis dormant bluegrass is up in May, not in June: it has taken up its water over
    winter.
    """
    plan = plan_of(
        {
            "place": {"postal_code": "55406"},
            "lawn": {"grass": "kentucky_bluegrass"},
            "seeding": {"intent": "dormant"},
            "leveling": {"depth": "0.25 in"},
        }
    )
    look = next(t for t in plan.tasks if t.id == "inspect.germination")
    assert date(2028, 5, 1) <= look.start <= date(2028, 5, 31)


@pytest.mark.full
def test_no_crabgrass_preventer_where_it_is_no_weed() -> None:
    """Cold coasts and the British Isles have no crabgrass in lawns; Pennsylvania has."""
    leeds = {
        "place": {"postal_code": None, "country": "GB", "latitude": 53.8, "longitude": -1.5},
        "leveling": {"depth": "0 in"},
    }
    assert not kind(plan_of(leeds), "preemergent")
    assert kind(plan_of({"leveling": {"depth": "0 in"}}), "preemergent")


@pytest.mark.full
def test_a_pass_too_long_for_its_people_says_how_many_it_needs() -> None:
    """One person on half an inch over 7,800 square feet: the plan keeps the seed on its day and
    says whom to ask.
    """
    plan = plan_of({"lawn": {"area": "7800 ft2"}, "work": {"people": 1}})
    layer = first(plan, "topdress")
    assert layer.duration_days > 2 and any(
        "at work it takes 2 days" in c for c in map(str, layer.cautions)
    )
    assert not any(
        "at work it takes" in c
        for c in map(str, first(plan_of({"work": {"people": 8}}), "topdress").cautions)
    )


@pytest.mark.full
def test_living_grass_is_planted_where_it_is_bare() -> None:
    """Plugs among living St. Augustine over half the lawn; sod all over bare ground."""
    florida = {
        "place": {"postal_code": "32607"},
        "seeding": {"intent": "plant"},
        "leveling": {"depth": "0.25 in"},
    }
    living = first(plan_of(florida, {"lawn": {"grass": "st_augustine"}}), "plant")
    bare = first(
        plan_of(florida, {"lawn": {"grass": "st_augustine", "condition": "bare"}}), "plant"
    )
    assert {a.item for a in living.amounts} == {"plugs"} and {a.item for a in bare.amounts} == {
        "sod"
    }
    assert amount(living, "plugs") == pytest.approx(2500, rel=0.01)


@pytest.mark.full
def test_thatch_and_cores_may_come_as_soon_as_the_pass_they_serve() -> None:
    """In Nashville thatch comes off early in September, so that the pass and its seed stay in the
    best weeks of autumn.
    """
    plan = plan_of(
        {
            "place": {"postal_code": "37205"},
            "lawn": {"thatch": "0.6 in"},
            "leveling": {"depth": "0.375 in"},
        }
    )
    assert plan.campaign == "autumn"
    assert (
        first(plan, "dethatch").start + timedelta(10)
        <= first(plan, "topdress").start
        <= date(2027, 9, 29)
    )


@pytest.mark.full
def test_no_compost_beside_open_water() -> None:
    """Seed beside a pond goes with topsoil and sand, since compost washes its phosphorus off; then
    a starter is thought of.
    """
    plan = plan_of({"site": {"water_body": True}})
    assert str(plan.lawn.mix) == "topsoil and sand, half and half" and any(
        "open water" in line for line in map(str, plan.campaign_reason)
    )
    assert not any("compost feeds" in line for line in map(str, plan.campaign_reason))


@pytest.mark.full
def test_hollows_alone_are_lifted_and_measured_again() -> None:
    """Where only deep hollows are filled the plan speaks of them alone, and has them measured after
    two months.
    """
    plan = plan_of(
        {
            "seeding": {"intent": "none"},
            "leveling": {"depth": None, "lows": [{"depth": "3 in", "share": 0.03}]},
        }
    )
    assert plan.campaign == "hollows" and not kind(plan, "topdress")
    assert first(plan, "settle_check").start >= first(plan, "lift_and_fill").end + timedelta(60)


@pytest.mark.full
def test_the_thinner_pass_comes_last() -> None:
    """Three eighths on thin turf without seed: a quarter inch, then an eighth."""
    plan = plan_of({"leveling": {"depth": "0.375 in"}, "seeding": {"intent": "none"}})
    assert passes_of(plan) == pytest.approx([6.35, 3.175])


@pytest.mark.full
def test_the_longest_way_still_sows_in_autumn() -> None:
    """Two inches over two years: the seed at their end goes down in autumn, not in the spring
    before.
    """
    plan = plan_of(
        {
            "lawn": {"grass": "kentucky_bluegrass", "condition": "dense"},
            "place": {"postal_code": "50010"},
            "leveling": {"depth": "2 in"},
            "season": {"until": date(2029, 6, 30)},
        }
    )
    assert plan.campaign == "two_years" and first(plan, "overseed").start.month in (8, 9)


@pytest.mark.full
@pytest.mark.parametrize("depth", ["0.25 in", "1 in"])
def test_days_off_alone_are_never_the_reason(depth: str) -> None:
    """Why not earlier, why not later: every task names more than that work is possible on working
    days only.
    """
    for task in plan_of({"leveling": {"depth": depth}}).tasks:
        for why in (task.not_earlier, task.not_later):
            assert set(why) - {"Work is possible on your working days only."}, (task.id, why)


@pytest.mark.full
def test_thatch_is_left_where_nothing_is_spread_or_sown_on_it() -> None:
    """Lifting hollows, or planting beside them, asks for no dethatching; nor does bare ground."""
    hollow = {
        "leveling": {"depth": None, "lows": [{"depth": "3 in", "share": 0.04}]},
        "lawn": {"thatch": "0.6 in"},
    }
    for changes in (
        {"seeding": {"intent": "none"}},
        {"seeding": {"intent": "plant"}},
        {"seeding": {"intent": "dormant"}},
    ):
        assert not kind(plan_of(hollow, changes), "dethatch")
    assert not kind(
        plan_of(
            {"lawn": {"thatch": "0.6 in", "condition": "bare"}, "seeding": {"intent": "renovate"}}
        ),
        "dethatch",
    )


@pytest.mark.full
def test_seed_of_the_last_year_is_watered_until_it_is_up() -> None:
    """A plan of three years waters the seed at its end as long as one of a single year does."""
    plan = plan_of({"leveling": {"depth": "2 in"}, "season": {"until": date(2030, 12, 1)}})
    sown = first(plan, "overseed").end
    assert sown > date(2028, 8, 1)
    runs = [t for t in kind(plan, "water") if t.start >= sown]
    assert max(t.end for t in runs) - sown >= timedelta(28)
