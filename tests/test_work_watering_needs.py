"""What the days of a stage of watering ask for."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

import water_cases as cases
from turfplan.records.book_names import FactName
from turfplan.work.watering.balance import SoilWater
from turfplan.work.watering.needs import Need, need_of
from turfplan.work.watering.request import ground_of
from turfplan.work.watering.stages import FIRST_WATER, Stage, StageName

BOOK, COOL = cases.book(), cases.cool_climate()
PASS = date(2027, 4, 10)


FIRST: dict[StageName, FactName] = {
    "settle": "water.settle_depth",
    "settle_fill": "water.settle_fill",
    "soak": "water.settle_depth",
    "soak_plants": "water.soak_plants",
    "soak_relaid": "water.soak_plants",
}


@pytest.mark.parametrize("name", FIRST)
def test_the_water_right_after_the_work_is_one_run_of_its_own_depth(name: StageName) -> None:
    """Once, by the number of the book that its reason goes by."""
    ground = ground_of(cases.request(BOOK, COOL))
    fact = FIRST[name]
    assert need_of(ground, Stage(name, PASS, PASS), PASS, PASS) == Need(
        1, BOOK.si(fact), 1, FIRST_WATER[name][1], (fact,)
    )


def test_recovery_asks_for_half_an_inch_less_rain_every_few_days() -> None:
    """No more runs a week than its gap allows, and none of the rain is counted that is not
    usable.
    """
    ground = ground_of(cases.request(BOOK, COOL))
    end = PASS + timedelta(6)
    need = need_of(ground, Stage("recover", PASS, end), PASS, end)
    gap = BOOK.si("water.recover_gap")
    rain = gap * BOOK.si("water.counted_rain_share") * ground.mean_rain_mm(PASS, end)
    use = gap * ground.kc[PASS.month - 1] * ground.mean_et0_mm(PASS, end)
    assert need.depth_mm == pytest.approx(min(BOOK.si("water.recover_depth"), use) - rain)
    assert use < BOOK.si("water.recover_depth"), "in April grass uses less than half an inch"
    thirsty = replace(ground, kc=tuple(2 * kc for kc in ground.kc))
    most = need_of(thirsty, Stage("recover", PASS, end), PASS, end)
    assert most.depth_mm == pytest.approx(BOOK.si("water.recover_depth") - rain)
    assert [n.why.key for n in (need, most)] == [
        "watering.why.recover",
        "watering.why.recover_capped",
    ]
    assert (need.runs, need.days) == (1, -(-7 // gap))


def day_of(month: int, number: int) -> date:
    """A day of 2027."""
    return date(2027, month, number)


@pytest.mark.parametrize(
    ("et0_mm", "rain_mm", "days", "depth_mm"),
    [
        (4.0, 2.0, 2, 10.5),  # 21 mm a week of 0.44 x 26.4 = 11.6 mm: 1.8, twice at the least
        (4.4, 0.0, 3, 30.8 / 3),  # 30.8 mm of 0.424 x 26.4 = 11.2 mm: 2.75
        (4.0, 0.0, 2, 14.0),  # 28 mm of 11.6 mm: 2.4
        (7.0, 0.0, 3, 49 / 3),  # 49 mm of 8.5 mm: 5.8, three times at the most
    ],
)
def test_weaning_asks_for_the_use_less_half_the_rain_as_often_as_roots_run_dry(
    et0_mm: float, rain_mm: float, days: int, depth_mm: float
) -> None:
    """By the month in which the week begins, two or three times."""
    start, end = day_of(6, 28), day_of(7, 4)
    need = need_of(cases.even_ground(et0_mm, rain_mm), Stage("weaning", start, end), start, end)
    assert (need.runs, need.days) == (1, days)
    assert need.depth_mm == pytest.approx(depth_mm)
    told = (7 * et0_mm, 7 * rain_mm, 0.5)
    assert as_told(need.why, "use", "rain", "share") == pytest.approx(told)


def as_told(why: Any, *names: str) -> tuple[float, ...]:
    """Values that a reason tells, SI."""
    values = dict(why.values)
    return tuple(getattr(values[name], "value", values[name]) for name in names)


def test_ground_without_store_is_watered_as_often_as_weaning_may() -> None:
    """And one whose rain does all of it is told so, with no water below nothing."""
    start = day_of(6, 1)
    bare = replace(cases.even_ground(4.0), soil=SoilWater("loam", 0.0, 0.4))
    assert need_of(bare, Stage("weaning", start, start), start, start).days == 3
    wet = need_of(cases.even_ground(4.0, 9.0), Stage("weaning", start, start), start, start)
    assert (wet.depth_mm, wet.rain_does_it) == (0.0, True)


def test_rain_does_it_where_a_run_would_be_below_the_least() -> None:
    """1.27 mm is a run; a tenth less is none."""
    least, start = BOOK.si("water.least_run"), day_of(6, 1)
    stage = Stage("weaning", start, start)
    at = need_of(cases.even_ground(least * 2 / 7), stage, start, start)
    assert (at.depth_mm, at.rain_does_it) == (least, False)
    assert need_of(cases.even_ground(0.9 * least * 2 / 7), stage, start, start).rain_does_it


@pytest.mark.parametrize(
    ("et0_mm", "rain_mm", "days", "depth_mm"),
    [
        (4.0, 2.0, 2, 7.0),  # 14 mm of 0.48 x 26.4 = 12.7 mm
        (2.0, 0.0, 1, 10.5),  # 10.5 mm of 0.54 x 26.4 = 14.3 mm
        (1.0, 9.0, 1, 0.0),
    ],
)
def test_winter_grass_is_watered_once_a_week_or_as_often_as_its_roots_run_dry(
    et0_mm: float, rain_mm: float, days: int, depth_mm: float
) -> None:
    """Three quarters of the evapotranspiration less half the rain."""
    assert BOOK.si("water.rye_kc") == 0.75
    start, end = day_of(6, 1), day_of(6, 7)
    need = need_of(cases.even_ground(et0_mm, rain_mm), Stage("winter", start, end), start, end)
    assert (need.runs, need.days, need.depth_mm) == (1, days, pytest.approx(depth_mm))
    assert as_told(need.why, "use", "rain", "share") == pytest.approx(
        (7 * 0.75 * et0_mm, 7 * rain_mm, 0.5)
    )


def test_winter_grass_on_thin_ground_is_watered_daily_and_no_more_often() -> None:
    """4.5 mm a day of 2 mm that the ground gives."""
    start = day_of(6, 1)
    thin = replace(cases.even_ground(6.0), soil=SoilWater("loam", 20.0, 0.4))
    need = need_of(thin, Stage("winter", start, start), start, start)
    assert (need.days, need.depth_mm) == (7, pytest.approx(4.5))


def test_recovery_counts_half_the_rain_of_its_gap_and_never_below_nothing() -> None:
    """Half of 3.5 days' 2 mm off half an inch, twice a week."""
    start, end = day_of(6, 1), day_of(6, 7)
    stage = Stage("recover", start, end)
    need = need_of(cases.even_ground(4.0, 2.0), stage, start, end)
    assert (need.days, need.depth_mm) == (2, pytest.approx(12.7 - 3.5))
    assert not need.rain_does_it
    wet = need_of(cases.even_ground(4.0, 20.0), stage, start, end)
    assert (wet.depth_mm, wet.rain_does_it) == (0.0, True)


@pytest.mark.parametrize(
    ("name", "seeded", "et0_mm", "runs", "depth_mm"),
    [
        # 1.25 x 4 = 5 mm; an inch of loam gives 0.4 x 3.3 = 1.32 mm: four runs, none below the
        # least.
        ("germination", True, 4.0, 4, 1.27),
        ("germination", True, 8.0, 4, 2.5),  # 10 mm, four runs at the most
        ("germination", False, 4.064, 2, 2.54),  # 5.08 mm in light waterings of 2.54 mm
        ("germination", False, 4.1, 3, 5.125 / 3),
        ("germination", False, 0.1, 1, 1.27),
        # 1.25 x 0.9 x 4 = 4.5 mm: two runs at the most once it is up.
        ("establishment", True, 4.0, 2, 2.25),
        ("establishment", False, 4.0, 1, 4.5),
        ("rooting", False, 4.0, 1, 4.5),
        # Turf laid back is watered for its upper inch, whatever its lawn's roots are.
        ("relaid", False, 4.0, 2, 2.25),
    ],
)
def test_what_must_not_dry_out_is_watered_daily_in_as_many_runs_as_its_layer_needs(
    name: StageName, *, seeded: bool, et0_mm: float, runs: int, depth_mm: float
) -> None:
    """A margin over what a wet surface, or a young stand, uses."""
    start = day_of(6, 1)
    ground = cases.even_ground(et0_mm, seeded_on=start if seeded else None)
    need = need_of(ground, Stage(name, start, start + timedelta(6)), start, start + timedelta(6))
    assert (need.runs, need.days) == (runs, None)
    assert need.depth_mm == pytest.approx(depth_mm)
    assert as_told(need.why, "n") == (runs,)


def test_rain_leaves_seed_moist_where_half_of_it_is_what_the_seed_needs() -> None:
    """Whole rain, not only what rooted grass can use: 10 mm against a need of 5 mm."""
    start = day_of(6, 1)
    stage = Stage("germination", start, start)

    def does(rain_mm: float) -> bool:
        ground = cases.even_ground(4.0, rain_mm)
        dry = replace(ground, usable_rain_mm=(0.0,) * len(ground.rain_mm))
        return need_of(dry, stage, start, start).rain_does_it

    assert (does(10.0), does(9.9), does(11.0)) == (True, False, True)


def test_a_lift_on_a_bank_is_settled_with_care() -> None:
    """Steeper than where water runs off, no less; level grass above it is told as before."""
    steep = 100 * BOOK.si("site.slope_steep")

    def why(name: StageName, percent: float) -> str:
        ground = cases.even_ground(4.0, slope_percent=percent)
        return need_of(ground, Stage(name, PASS, PASS), PASS, PASS).why.key

    bank, level = why("settle_fill", steep + 0.1), FIRST_WATER["settle_fill"][1].key
    assert bank != level == why("settle_fill", steep)
    assert why("settle", steep + 0.1) == FIRST_WATER["settle"][1].key


def test_seed_on_a_layer_of_mix_is_soaked_through_it() -> None:
    """Where a pass went before it by no more than two days, or goes on while it is soaked."""

    def on_mix(after: int, *, open_ground: bool = False) -> bool:
        ground = cases.even_ground(4.0, passes=(PASS,), open_ground=open_ground)
        start = PASS + timedelta(after)
        stage = Stage("soak", start, start + timedelta(1))
        return need_of(ground, stage, start, start).why != FIRST_WATER["soak"][1]

    assert [on_mix(n) for n in (-2, -1, 0, 2, 3)] == [False, True, True, True, False]
    assert not on_mix(0, open_ground=True)
    settled = Stage("settle", PASS, PASS)
    told = need_of(cases.even_ground(4.0, passes=(PASS,)), settled, PASS, PASS).why
    assert told == FIRST_WATER["settle"][1]
