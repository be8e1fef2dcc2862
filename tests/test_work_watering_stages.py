"""What a pass asks for after it, and the water that goes on right after the work."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

import water_cases as cases
from turfplan.records.book_names import FactName
from turfplan.work.watering.balance import SoilWater
from turfplan.work.watering.hours import law_of
from turfplan.work.watering.request import ground_of
from turfplan.work.watering.stages import (
    FIRST_WATER,
    Need,
    Stage,
    StageName,
    need_of,
    settling_day,
    stages,
)

BOOK, COOL = cases.book(), cases.cool_climate()
PASS = date(2027, 4, 10)


def recovery(**changes: Any) -> list[tuple[str, int, int]]:
    """The stages of passes with their first and last days, counted from the pass of 10 April."""
    found = stages(cases.request(BOOK, COOL, **changes))
    return [
        (s.key, (s.start - PASS).days, (s.end - PASS).days)
        for s in found
        if s.name in ("settle", "recover")
    ]


def test_recovery_lasts_two_weeks_or_until_the_surface_must_be_dry() -> None:
    """From three days after the settling: fourteen days, or to two days before what follows; where
    seed follows within two days its own water settles the layer.
    """
    assert recovery(passes=(PASS,)) == [("settle.1", 0, 0), ("recover.1", 3, 14)]
    followed = recovery(passes=(PASS, PASS + timedelta(10)))
    assert followed[:2] == [("settle.1", 0, 0), ("recover.1", 3, 8)]
    assert followed[2:] == [("settle.2", 10, 10), ("recover.2", 13, 24)]
    assert recovery(passes=(PASS,), seeded_on=PASS + timedelta(9))[1] == ("recover.1", 3, 7)
    assert recovery(passes=(PASS,), planted_on=PASS + timedelta(5)) == [
        ("settle.1", 0, 0),
        ("recover.1", 3, 3),
    ]
    assert recovery(passes=(PASS,), seeded_on=PASS + timedelta(3)) == [("settle.1", 0, 0)]
    assert recovery(passes=(PASS,), seeded_on=PASS + timedelta(2)) == []
    assert recovery(passes=(PASS,), seeded_on=PASS) == []


def test_seed_of_before_does_not_end_the_recovery_of_a_later_pass() -> None:
    """What lies behind a pass has no part in it."""
    assert recovery(passes=(PASS,), seeded_on=PASS - timedelta(5)) == [
        ("settle.1", 0, 0),
        ("recover.1", 3, 14),
    ]


@pytest.mark.parametrize(
    ("water", "permitted", "after"),
    [
        ({}, False, 0),
        ({"allowed_hours": ["06:00-09:00"]}, False, 1),
        ({"allowed_hours": ["06:00-16:00"]}, False, 1),
        ({"allowed_hours": ["06:00-16:30"]}, False, 0),
        ({"allowed_weekdays": ["tue"]}, False, 3),
        ({"allowed_weekdays": ["fri"]}, False, 6),
        ({"allowed_weekdays": ["sat"], "allowed_hours": ["06:00-09:00"]}, False, None),
        ({"allowed_weekdays": ["tue"], "permit": True}, True, 0),
        ({"allowed_weekdays": ["tue"], "permit": True}, False, 3),
    ],
)
def test_work_is_watered_in_on_its_evening_or_the_next_open_day(
    water: dict[str, Any], *, permitted: bool, after: int | None
) -> None:
    """Work of a Saturday: that evening where hours after four are open, else the next open day
    within the week; a permit opens days, no hours.
    """
    law = law_of(cases.brief(water={"possible": True, **water}).water)
    wanted = None if after is None else PASS + timedelta(after)
    assert settling_day(BOOK, law, PASS, permitted=permitted) == wanted


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
    assert (need.runs, need.days) == (1, -(-7 // gap))


def day_of(month: int, number: int) -> date:
    """A day of 2027."""
    return date(2027, month, number)


def spans(**changes: Any) -> list[tuple[str, date, date]]:
    """The stages of a request by key, first and last day."""
    return [(s.key, s.start, s.end) for s in stages(cases.request(BOOK, COOL, **changes))]


SEEDED = [
    ("soak", PASS, PASS),
    ("germination", day_of(4, 11), day_of(4, 30)),
    ("establishment", day_of(5, 1), day_of(5, 20)),
    ("weaning", day_of(5, 21), day_of(6, 10)),
]


def test_seed_is_soaked_kept_moist_until_it_is_up_and_weaned_after_its_first_cut() -> None:
    """Up on the 21st day, counting that of sowing; three weeks of weaning after the cut."""
    assert round(BOOK.si("water.weaning_days")) == 21
    assert spans(seeded_on=PASS, first_mow_on=day_of(5, 20)) == SEEDED


def test_seed_that_was_seen_to_be_up_is_cut_no_earlier_than_the_day_after() -> None:
    """As seen, not as usual; a cut before that counts from the day after."""
    found = spans(seeded_on=PASS, first_mow_on=day_of(4, 12), germinated_on=day_of(4, 20))
    assert found[1:3] == [
        ("germination", day_of(4, 11), day_of(4, 20)),
        ("establishment", day_of(4, 21), day_of(4, 21)),
    ]


def test_seedlings_grow_for_a_usual_time_where_no_cut_is_known() -> None:
    """From the day they are up."""
    growth = timedelta(round(BOOK.si("setting.seedling_growth_days")))
    (_, _, young, weaned) = spans(seeded_on=PASS)
    assert young == ("establishment", day_of(5, 1), day_of(4, 30) + growth)
    assert weaned[2] - young[2] == timedelta(21)


def test_seed_that_woke_is_not_soaked_again() -> None:
    """It counts from the day it wakes."""
    found = spans(seeded_on=date(2027, 1, 5), wakes_on=PASS, first_mow_on=day_of(5, 20))
    assert found == SEEDED[1:]


def test_a_second_grass_is_watered_over_winter_until_its_lawn_is_green() -> None:
    """From the end of its weaning, where that comes before."""
    asked = {"seeded_on": PASS, "first_mow_on": day_of(5, 20), "sown_season": "cool"}
    winter = ("winter", day_of(6, 11), day_of(7, 4))
    assert spans(**asked, second_until=day_of(7, 4)) == [*SEEDED, winter]
    last = ("winter", day_of(6, 11), day_of(6, 11))
    assert spans(**asked, second_until=day_of(6, 11))[-1] == last
    assert spans(**asked, second_until=day_of(6, 10)) == SEEDED


EARLY = cases.brief(water={"possible": True, "allowed_hours": ["06:00-09:00"]})


def test_moist_days_begin_the_day_after_the_soaking() -> None:
    """Which is a day later where evenings are closed; never after the seed is up."""
    found = spans(the_brief=EARLY, seeded_on=PASS, first_mow_on=day_of(5, 20))
    assert found[:2] == [SEEDED[0], ("germination", day_of(4, 12), day_of(4, 30))]
    up = spans(the_brief=EARLY, seeded_on=PASS, germinated_on=day_of(4, 11))
    assert up[1] == ("germination", day_of(4, 11), day_of(4, 11))


def test_plants_root_for_two_weeks_and_are_weaned_for_three() -> None:
    """The day of planting is the first of the fourteen; turf laid back is not weaned."""
    planted = [
        ("soak", PASS, PASS),
        ("rooting", day_of(4, 11), day_of(4, 23)),
        ("weaning", day_of(4, 24), day_of(5, 14)),
    ]
    assert spans(planted_on=PASS) == planted
    assert spans(planted_on=PASS, the_brief=EARLY)[1][1] == day_of(4, 12)
    relaid = [("soak_relaid", PASS, PASS), ("relaid", day_of(4, 11), day_of(4, 23))]
    assert spans(relaid_on=PASS) == relaid
    assert spans(relaid_on=PASS, the_brief=EARLY)[1][1] == day_of(4, 12)


def test_strips_are_soaked_from_the_first_and_shares_go_with_their_stages() -> None:
    """Work of three days: soaked and kept moist from the first, by the last day of all."""
    strips = tuple(PASS - timedelta(n) for n in (2, 1, 0))
    asked = {"relaid_on": PASS, "relaid_strips": strips, "relaid_share": 0.25}
    found = stages(cases.request(BOOK, COOL, **asked))
    assert [(s.start, s.end, s.strips, s.share) for s in found] == [
        (day_of(4, 8), PASS, strips, 0.25),
        (day_of(4, 9), day_of(4, 23), strips, 0.25),
    ]
    sown = stages(cases.request(BOOK, COOL, seeded_on=PASS, sown_strips=strips, sown_share=0.5))
    assert [(s.start, s.strips, s.share) for s in sown] == [
        (day_of(4, 8), strips, 0.5),
        (day_of(4, 9), strips, 0.5),
        (day_of(5, 1), (), 0.5),
        (sown[3].start, (), 0.5),
    ]
    plants = stages(
        cases.request(BOOK, COOL, planted_on=PASS, planted_strips=strips, sown_share=0.75)
    )
    assert [(s.start, s.share) for s in plants[:2]] == [(day_of(4, 8), 0.75), (day_of(4, 9), 0.75)]


def test_stages_end_with_the_account_and_none_begins_after_it() -> None:
    """The last is cut short; that of the last day alone stays."""
    cut = spans(seeded_on=PASS, first_mow_on=day_of(5, 20), end=day_of(5, 1))
    assert cut == [*SEEDED[:2], ("establishment", day_of(5, 1), day_of(5, 1))]
    assert spans(seeded_on=PASS, end=day_of(4, 30)) == SEEDED[:2]


def test_lifts_on_open_ground_settle_and_nothing_recovers() -> None:
    """Each by its own days, numbered in order of time."""
    strips = {day_of(4, 14): (day_of(4, 13), day_of(4, 14))}
    asked = {"passes": (day_of(4, 14), PASS), "strips": strips, "open_ground": True}
    found = stages(cases.request(BOOK, COOL, **asked))
    assert [(s.name, s.key, s.start, s.end) for s in found] == [
        ("settle_fill", "settle.1", PASS, PASS),
        ("settle_fill", "settle.2", day_of(4, 13), day_of(4, 14)),
    ]
    assert found[1].strips == strips[day_of(4, 14)]


def test_a_part_of_a_lawn_done_in_strips_is_watered_as_it_is_done() -> None:
    """Half a lawn in four strips: first water each by itself, then what was done before that day,
    one strip at the least.
    """
    days = tuple(PASS + timedelta(n) for n in range(4))
    moist = Stage("germination", PASS, PASS + timedelta(20), strips=days, share=0.5)
    shares = [moist.watered_share(PASS + timedelta(n)) for n in (0, 1, 2, 3, 4, 9)]
    assert shares == [0.125, 0.125, 0.25, 0.375, 0.5, 0.5]
    soak = Stage("soak", PASS, PASS + timedelta(3), strips=days, share=0.5)
    assert soak.watered_share(PASS + timedelta(3)) == 0.125
    pair = Stage("soak", PASS, PASS, strips=days[:2], share=0.5)
    assert pair.watered_share(PASS) == 0.25
    alone = Stage("germination", PASS, PASS, strips=days[:1], share=0.5)
    assert (alone.watered_share(PASS), Stage("winter", PASS, PASS).watered_share(PASS)) == (0.5, 1)


def test_a_pass_before_seed_waters_until_it_recovers_and_no_longer_than_the_surface_may() -> None:
    """Recovery begins three days after the day on which the pass is watered in."""
    assert recovery(passes=(PASS,), the_brief=EARLY) == [("settle.1", 0, 0), ("recover.1", 4, 14)]
    assert recovery(passes=(PASS,), seeded_on=PASS + timedelta(4)) == [("settle.1", 0, 0)]


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


def test_water_of_a_pass_goes_where_the_pass_lies() -> None:
    """Settling and recovery of a pass in hollows are of its part of the lawn; one over all of it
    has none, and neither has a lift on open ground.
    """
    second = PASS + timedelta(30)
    request = cases.request(BOOK, COOL, passes=(PASS, second), pass_shares={second: 0.15})
    shares = {s.key: s.share for s in stages(request)}
    assert shares == {"settle.1": 1.0, "recover.1": 1.0, "settle.2": 0.15, "recover.2": 0.15}
    lift = cases.request(BOOK, COOL, passes=(PASS,), pass_shares={PASS: 0.4}, open_ground=True)
    assert [(s.key, s.share) for s in stages(lift)] == [("settle.1", 0.4)]
