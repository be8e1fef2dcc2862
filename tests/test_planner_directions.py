"""A changed wish changes the plan in the direction that an expert expects, each by a stated rule."""

from datetime import date, timedelta

import pytest

from planning import amount, depth_total, first, kind, plan_of

MEADOW = {"latitude": 41.6, "longitude": -93.6}


def test_deeper_fill_needs_more() -> None:
    """More depth: more material, more passes or sessions, never a pass over its cap."""
    shallow, deep = plan_of({"leveling": {"depth": "0.25 in"}}), plan_of({"leveling": {"depth": "1 in"}})
    assert len(kind(deep, "topdress")) > len(kind(shallow, "topdress"))
    assert sum(o.value for o in deep.order if o.item == "mix") > 3.5 * sum(
        o.value for o in shallow.order if o.item == "mix"
    )
    assert depth_total(deep) == pytest.approx(25.4) and depth_total(shallow) == pytest.approx(6.35)


def test_larger_area_needs_more_of_everything() -> None:
    """Twice the area takes twice the loose volume and twice the seed."""
    small, large = plan_of(), plan_of({"lawn": {"area": "10000 ft2"}})
    assert amount(first(large, "overseed"), "seed") == pytest.approx(2 * amount(first(small, "overseed"), "seed"))
    volume = [sum(amount(t, "volume") for t in kind(p, "topdress")) for p in (small, large)]
    assert volume[1] == pytest.approx(2 * volume[0])


def test_further_north_seeds_earlier() -> None:
    """Autumn seeding comes earlier in the north: winter is nearer."""
    days = [
        first(plan_of({"place": {"postal_code": code}, "leveling": {"depth": "0.25 in"}}), "overseed").start
        for code in ("55406", "17601", "37205")
    ]
    assert days == sorted(days) and (days[2] - days[0]).days >= 14


def test_southern_hemisphere_is_half_a_year_away() -> None:
    """The same grass in the south is seeded half a year apart."""
    north = first(plan_of({"leveling": {"depth": "0.25 in"}}), "overseed").start
    south = plan_of(
        {"place": {"postal_code": None, "country": "AU", "latitude": -37.8, "longitude": 145.0}, "leveling": {"depth": "0.25 in"},
         "season": {"from": date(2027, 2, 1)}}
    )  # fmt: skip
    assert abs((first(south, "overseed").start - north).days) in range(120, 245)


def test_warm_grass_is_levelled_in_summer_and_cool_in_spring_and_autumn() -> None:
    """Passes go on when the grass grows hard: zoysia in summer, tall fescue not."""
    place = {"place": {"postal_code": "30606"}, "seeding": {"intent": "none"}, "leveling": {"depth": "0.25 in"}}
    warm = plan_of(place, {"lawn": {"grass": "zoysia"}})
    cool = plan_of(place, {"lawn": {"grass": "tall_fescue"}})
    assert all(t.start.month in (5, 6, 7, 8) for t in kind(warm, "topdress"))
    assert all(t.start.month in (2, 3, 4, 5, 9, 10, 11) for t in kind(cool, "topdress"))


def test_mix_follows_seed_depth_soil_and_grass() -> None:
    """Compost blend with seed; straight sand only thin and where it suits; topsoil and sand otherwise."""
    mixes = {
        "seed": plan_of().lawn.mix,
        "clay": plan_of({"seeding": {"intent": "none"}}).lawn.mix,
        "sandy": plan_of({"seeding": {"intent": "none"}, "lawn": {"soil": "sandy loam"}}).lawn.mix,
        "sandy and deep": plan_of(
            {"seeding": {"intent": "none"}, "lawn": {"soil": "sandy loam"}, "leveling": {"depth": "1 in"}}
        ).lawn.mix,
    }
    assert mixes["seed"] and "compost" in mixes["seed"]
    assert mixes["clay"] == mixes["sandy and deep"] == "topsoil and sand, half and half"
    assert mixes["sandy"] == "straight fine sand"


def test_sand_on_clay_is_warned_of() -> None:
    """Asked for sand on clay, the plan obeys and warns, and tells that experts disagree."""
    plan = plan_of({"leveling": {"material": "sand", "depth": "1 in"}, "seeding": {"intent": "none"}})
    assert plan.lawn.mix == "straight fine sand"
    assert any("Sand over a clay" in c for c in plan.cautions) and any("only up to" in c for c in plan.cautions)
    assert any("disagree" in d for d in plan.disagreements)


def test_starter_without_compost_only() -> None:
    """Seed without compost gets a starter with the seed; with compost none, and the plan says why."""
    bare = plan_of({"leveling": {"depth": "0 in"}})
    assert kind(bare, "starter_feed")
    dressed = plan_of()
    assert not kind(dressed, "starter_feed") and any("no starter" in line for line in dressed.campaign_reason)


def test_intent_none_has_no_seed_and_no_germination_watering() -> None:
    """Levelling without seed: no seed, no permit, no look for seedlings, and the layer is settled with water."""
    plan = plan_of({"seeding": {"intent": "none"}})
    assert not [t for t in plan.tasks if t.phase == "seed" and t.operation != "water"]
    assert not [t for t in plan.tasks if t.id.startswith(("water.germination", "inspect.germination", "first_mow"))]
    assert [t for t in plan.tasks if t.id.startswith("water.settle")]


def test_later_start_never_plans_earlier() -> None:
    """A later first day moves the whole season to a later window, or the next year."""
    early, late = plan_of(), plan_of({"season": {"from": date(2027, 10, 20)}})
    assert min(t.start for t in late.tasks) >= date(2027, 10, 20)
    assert first(late, "topdress").start > first(early, "topdress").start


def test_herbicide_holds_the_seed() -> None:
    """Prodiamine in June keeps seed off until sixteen weeks are over; the reason names it."""
    held = plan_of(
        {
            "history": {"herbicides": [{"active_ingredient": "prodiamine", "on": date(2027, 6, 1)}]},
            "leveling": {"depth": "0.25 in"},
        }
    )
    sowing = next(t for t in held.tasks if t.operation in ("overseed", "dormant_seed"))
    assert sowing.start >= date(2027, 6, 1) + timedelta(weeks=16)
    assert first(plan_of({"leveling": {"depth": "0.25 in"}}), "overseed").start < date(2027, 6, 1) + timedelta(weeks=16)


def test_nobody_to_water_moves_the_seed() -> None:
    """Away in September: seed goes before or after, never where nobody waters its first three weeks."""
    away = plan_of(
        {"calendar": {"away": [{"from": date(2027, 9, 5), "to": date(2027, 9, 20)}]}, "leveling": {"depth": "0.25 in"}}
    )
    sowing = next(t for t in away.tasks if t.operation in ("overseed", "seed", "dormant_seed"))
    assert not date(2027, 8, 15) <= sowing.start <= date(2027, 9, 20)


def test_watering_ban_moves_the_seed() -> None:
    """A ban in late summer moves the seed out of its way, with the reason."""
    banned = plan_of(
        {"water": {"banned": [{"from": date(2027, 8, 1), "to": date(2027, 9, 20)}]}, "leveling": {"depth": "0.25 in"}}
    )
    sowing = next(t for t in banned.tasks if t.operation in ("overseed", "seed", "dormant_seed"))
    assert not date(2027, 7, 1) <= sowing.start <= date(2027, 9, 20)
    assert any("banned" in c for c in banned.cautions)


def test_two_watering_days_without_permit_stop_the_seed() -> None:
    """Two legal days a week and no permit: no seed; a permit, dormant seed or no seed are the ways out."""
    plan = plan_of({"water": {"allowed_weekdays": ["tue", "sat"]}})
    assert plan.conflict is not None and any("days between waterings" in r for r in plan.conflict.reasons)
    assert {o.title for o in plan.options} & {
        "Get a permit to water new seed",
        "Sow dormant: seed that waits for spring",
    }
    assert kind(plan_of({"water": {"allowed_weekdays": ["tue", "sat"], "permit": True}}), "permit")


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


def test_deep_hollows_are_lifted() -> None:
    """Hollows over two inches are lifted and filled with soil like the soil below; the rest is dressed."""
    lows = {"leveling": {"depth": None, "lows": [{"depth": "3 in", "share": 0.05}, {"depth": "0.5 in", "share": 0.3}]}}
    plan = plan_of(lows)
    assert kind(plan, "lift_and_fill") and any(line.item == "topsoil" for line in plan.order)
    assert depth_total(plan) == pytest.approx(12.7)


def test_bumps_that_come_back_are_diagnosed_first() -> None:
    """A cause that is still at work is looked for before money is spent."""
    plan = plan_of({"site": {"bump_cause": "moles"}})
    assert first(plan, "diagnose").start < first(plan, "order_material").start


def test_fewer_hands_take_longer() -> None:
    """One person takes more days over a pass than four; the person-hours stay the same."""
    one, four = (
        plan_of({"work": {"people": 1}, "calendar": {"weekdays": ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]}}),
        plan_of({"work": {"people": 4}}),
    )
    assert first(one, "topdress").duration_days > first(four, "topdress").duration_days
    hours = [t.person_hours / amount(t, "volume") for t in (first(one, "topdress"), first(four, "topdress"))]
    assert hours[0] == pytest.approx(hours[1], rel=0.15)


def test_pure_live_seed_raises_the_rate() -> None:
    """A bag of 95 % purity and 85 % germination takes 1 / 0.8075 as much seed."""
    plain = amount(first(plan_of(), "overseed"), "seed")
    tested = amount(first(plan_of({"seeding": {"purity_percent": 95, "germination_percent": 85}}), "overseed"), "seed")
    assert tested == pytest.approx(plain / 0.8075, rel=1e-4)


def test_truck_limit_splits_loads() -> None:
    """No load is over the truck's limit, and together they are the order."""
    plan = plan_of({"delivery": {"truck_limit": "2 yd3"}})
    for line in plan.order:
        if line.item == "mix":
            assert max(line.loads) <= 2 * 0.764555 + 1e-6 and sum(line.loads) == pytest.approx(line.value, abs=1e-4)


def test_quoted_load_is_told_as_a_depth() -> None:
    """Ten yards quoted for 600 square feet: the plan says how deep that would lie."""
    plan = plan_of({"lawn": {"area": "600 ft2"}, "delivery": {"quoted": "10 yd3"}})
    assert any("quoted load" in c and "4 7/8 in" in c for c in plan.cautions), plan.cautions[:3]


def test_coarse_zone_widens_the_error() -> None:
    """A hardiness zone instead of a place gives a plan with a wider error that says so."""
    zone = plan_of({"place": {"postal_code": None, "climate_zone": "6b"}})
    assert zone.climate.error_days > plan_of().climate.error_days and "hardiness zone 6" in zone.climate.source


@pytest.mark.parametrize(
    ("grass", "code"),
    [
        ("kentucky_bluegrass", "55406"), ("perennial_ryegrass", "98115"), ("tall_fescue", "37205"), ("fine_fescue", "04101"),
        ("creeping_bentgrass", "17601"), ("bermuda_common", "30606"), ("bermuda_hybrid", "30606"), ("zoysia", "37205"),
        ("st_augustine", "32607"), ("centipede", "29201"), ("bahia", "32607"), ("buffalo", "67401"),
    ],
)  # fmt: skip
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


def test_swapping_species_soil_or_place_changes_windows_passes_mix_and_water() -> None:
    """Not a toy: each swap changes what it should."""
    base = plan_of({"leveling": {"depth": "1 in"}})
    blue = plan_of({"leveling": {"depth": "1 in"}, "lawn": {"grass": "kentucky_bluegrass"}})
    sand = plan_of({"leveling": {"depth": "1 in"}, "lawn": {"soil": "sand"}})
    north = plan_of({"leveling": {"depth": "1 in"}, "place": {"postal_code": "55406"}})
    assert amount(first(base, "overseed"), "seed") > 2 * amount(first(blue, "overseed"), "seed")
    assert (
        first(base, "first_mow").start - first(base, "overseed").start
        < first(blue, "first_mow").start - first(blue, "overseed").start
    )
    water = [sorted((t.id, t.series.minutes) for t in p.tasks if t.series) for p in (base, sand, north, blue)]
    assert water[0] != water[1] and water[0] != water[2] and water[0] != water[3]
    assert [t.start for t in kind(base, "topdress")] != [t.start for t in kind(north, "topdress")]
