"""Waterings of a season: stages, law, rain, accounts."""

import itertools
from dataclasses import replace
from datetime import date, time, timedelta
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import water_cases as cases
from planning import climate_at
from told import all_told, told
from turfplan.calendar_days import WEEKDAYS, recurring_days
from turfplan.message import Days, Listed
from turfplan.records.brief import Span
from turfplan.records.plan_task import Series, Task, TaskWindow
from turfplan.work.watering.balance import soil_of
from turfplan.work.watering.hours import Law
from turfplan.work.watering.intake import intake_of
from turfplan.work.watering.season import (
    KnownSeries,
    WateringPlan,
    WaterRun,
    WeatherDay,
    known_series,
    season_watering,
    watering_verdict,
)
from turfplan.work.watering.sprinklers import zones

BOOK, COOL, SOUTH = cases.book(), cases.cool_climate(), cases.south_climate()
SOWN = date(2027, 8, 28)
SATURDAYS = (date(2027, 4, 10), date(2027, 4, 17))
AWAY_ON = ((3, 6), (9, 4), (9, 18), (10, 16))
quick = settings(max_examples=40, deadline=None)


def runs_of(plan: WateringPlan, stage: str) -> list[WaterRun]:
    return [run for run in plan.series if run.stage == stage]


def minutes_of(plan: WateringPlan) -> int:
    return sum(run.minutes * len(run.days()) for run in plan.series)


def test_seed_is_watered_daily_then_less_often_and_deeper() -> None:
    """Germination several times a day, seedlings daily, weaning on two or three a week, deeper."""
    plan = season_watering(cases.request(BOOK, COOL, seeded_on=SOWN))
    names = [stage.name for stage in plan.stages]
    assert names == ["soak", "germination", "establishment", "weaning"]
    first = runs_of(plan, "germination")
    assert first[0].start == SOWN + timedelta(1)
    assert len({run.session for run in first}) >= 2
    assert all(run.weekdays == () for run in first)
    weaning = runs_of(plan, "weaning")
    assert all(2 <= len(run.days()) <= 3 for run in weaning if (run.end - run.start).days >= 4)
    assert min(run.depth_mm for run in weaning) > max(run.depth_mm for run in first)


def test_every_recurrence_ends_within_a_week_and_ids_are_unique() -> None:
    """Ids say stage, week and session and are never repeated; a season stays readable."""
    plan = season_watering(
        cases.request(BOOK, COOL, seeded_on=SOWN, passes=(date(2027, 4, 10), date(2027, 5, 22)))
    )
    assert all(0 <= (run.end - run.start).days < 7 for run in plan.series)
    ids = [run.id for run in plan.series]
    assert len(set(ids)) == len(ids) <= 60
    assert "water.germination.w1.morning" in ids
    assert all(f"{run.minutes} min" in told(run.title) for run in plan.series)


def test_a_pass_without_seed_is_settled_then_watered_for_two_weeks() -> None:
    """0.2 to 0.3 in that evening, then every three to four days, less usual rain, for two weeks."""
    day = date(2027, 4, 10)
    plan = season_watering(cases.request(BOOK, COOL, passes=(day,)))
    settle, *recover = plan.series
    assert settle.stage == "settle" and settle.days() == (day,) and settle.start_time >= time(17)
    assert 5.0 <= settle.depth_mm <= 7.7
    days = sorted(d for run in recover for d in run.days())
    assert all(run.stage == "recover" and run.depth_mm <= 12.7 + 1e-9 for run in recover)
    assert day + timedelta(3) <= days[0] and days[-1] <= day + timedelta(14)
    assert all(2 <= (b - a).days <= 5 for a, b in itertools.pairwise(days))


@pytest.mark.full
@given(
    st.none() | st.sets(st.sampled_from(WEEKDAYS)),
    st.sampled_from([None, "odd", "even"]),
    st.lists(
        st.tuples(st.dates(date(2027, 1, 1), date(2027, 12, 31)), st.integers(0, 40)), max_size=2
    ),
    st.dates(date(2026, 12, 1), date(2027, 12, 31)),
    st.integers(0, 90),
)
def test_the_days_of_a_law_are_those_that_it_opens_one_by_one(
    weekdays: set[str] | None,
    parity: str | None,
    bans: list[tuple[date, int]],
    first: date,
    count: int,
) -> None:
    """The list that the account of a season reads says of each day what the law says of it."""
    banned = tuple(Span.model_validate({"from": a, "to": a + timedelta(n)}) for a, n in bans)
    law = Law(None if weekdays is None else tuple(weekdays), parity, banned, ((0, 1440),), False)
    assert law.days_open(first, count) == [law.open(first + timedelta(n)) for n in range(count)]


def test_settling_waits_for_a_lawful_day_and_recovery_for_the_settling() -> None:
    """A pass on Sunday: settled on Wednesday, which is open, watered from Saturday on."""
    sunday = date(2027, 5, 30)
    given = cases.brief(water={"application_rate": "0.5 in/h", "allowed_weekdays": ["wed", "sat"]})
    plan = season_watering(cases.request(BOOK, COOL, given, passes=(sunday,)))
    (settle,) = runs_of(plan, "settle")
    assert settle.days() == (date(2027, 6, 2),)
    assert min(d for run in runs_of(plan, "recover") for d in run.days()) == date(2027, 6, 5)
    assert any("Wed" in caution for caution in all_told(plan.cautions))


def test_a_layer_is_never_settled_before_it_is_spread() -> None:
    """Where only mornings are lawful, the settling waits for the next one, and the plan says so."""
    day = date(2027, 4, 10)
    given = cases.brief(water={"application_rate": "0.5 in/h", "allowed_hours": ["06:00-09:00"]})
    plan = season_watering(cases.request(BOOK, COOL, given, passes=(day,)))
    (settle,) = runs_of(plan, "settle")
    assert settle.days() == (day + timedelta(1),) and settle.start_time < time(9)
    assert any("after the work" in caution for caution in all_told(plan.cautions))


@pytest.mark.parametrize("work", ["seeded_on", "planted_on"])
def test_the_ground_stays_dry_until_the_seed_or_the_plants_are_in(work: str) -> None:
    """They are watered in after the work, and several times a day from the next day on."""
    plan = season_watering(cases.request(BOOK, COOL, **{work: SOWN}))
    (soak,) = [run for run in plan.series if SOWN in run.days()]
    assert soak.start_time >= time(16) and soak.depth_mm >= 6.3
    assert any(run.start_time < time(9) and run.start == SOWN + timedelta(1) for run in plan.series)


def test_seedlings_of_autumn_rest_with_the_grass_and_go_on_in_spring() -> None:
    """No run while it is too cold to grow: the stage pauses, says from when to when, and resumes
    in time for the first cut."""
    mown = date(2028, 5, 6)
    plan = season_watering(
        cases.request(
            BOOK, COOL, seeded_on=date(2027, 9, 25), first_mow_on=mown, end=date(2028, 6, 30)
        )
    )
    days = [day for run in runs_of(plan, "establishment") for day in run.days()]
    cold = [d for d in days if COOL.growth_potential(d, "cool") < 0.07]
    assert not cold and min(days).year == 2027 and max(days) == mown
    longest = max(((b - a).days, a, b) for a, b in itertools.pairwise(sorted(set(days))))
    assert longest[0] > 120
    (said,) = [c for c in all_told(plan.cautions) if "too cold" in c]
    assert "seedlings" in said and "2027" not in said


def test_seedlings_that_rain_keeps_wet_are_not_watered() -> None:
    """Where half of the usual rain outdoes what a sunny week takes, the weeks are told as one
    stretch and have no run; the water on the sowing stays, and that until the seed is up."""
    wet = replace(COOL, rain_mm=(13.0,) * 365)
    plan = season_watering(cases.request(BOOK, wet, seeded_on=SOWN))
    assert {run.stage for run in plan.series} <= {"soak", "germination", "weaning"}
    assert runs_of(plan, "soak") and runs_of(plan, "germination")
    rained = [c for c in all_told(plan.cautions) if "rain usually does it" in c]
    assert sum("seedlings" in c for c in rained) == 1


@pytest.mark.parametrize(
    ("work", "wetting", "keeping"),
    [("relaid", "soak_relaid", "relaid"), ("planted", "soak_plants", "rooting")],
)
def test_what_is_laid_today_is_watered_today(work: str, wetting: str, keeping: str) -> None:
    """Turf or plants that go in on two Saturdays are wetted on both evenings, half by half, and
    the first half is kept moist while the second waits."""
    changes = {f"{work}_on": SATURDAYS[1], f"{work}_strips": SATURDAYS, "relaid_share": 0.2}
    plan = season_watering(cases.request(BOOK, COOL, **changes))
    share = 0.2 if work == "relaid" else 1.0
    soaked = runs_of(plan, wetting)
    assert [day for run in soaked for day in run.days()] == list(SATURDAYS)
    assert all(run.area_m2 == pytest.approx(371.6 * share / 2, rel=1e-3) for run in soaked)
    kept = runs_of(plan, keeping)
    assert min(day for run in kept for day in run.days()) == SATURDAYS[0] + timedelta(1)
    assert kept[0].area_m2 == soaked[0].area_m2 and kept[-1].area_m2 == 2 * soaked[0].area_m2


def test_each_day_of_a_lift_is_soaked_that_evening() -> None:
    """A lift of bare ground that goes on over a week is settled strip by strip."""
    plan = season_watering(
        cases.request(
            BOOK, COOL, passes=SATURDAYS[1:], strips={SATURDAYS[1]: SATURDAYS}, open_ground=True
        )
    )
    soaked = [day for run in runs_of(plan, "settle_fill") for day in run.days()]
    assert sorted(set(soaked)) == list(SATURDAYS)


def test_only_seed_on_mix_speaks_of_mix() -> None:
    """The mix that must be dry is told where a pass was spread with the seed, and nowhere else."""
    for passes, expected in (((SOWN,), True), ((), False), ((date(2027, 4, 10),), False)):
        plan = season_watering(cases.request(BOOK, COOL, passes=passes, seeded_on=SOWN))
        (soak,) = runs_of(plan, "soak")
        assert ("mix" in told(soak.why)) is expected


def test_a_seeded_pass_is_not_settled_apart() -> None:
    """The seed's own watering settles the last layer."""
    plan = season_watering(cases.request(BOOK, COOL, passes=(SOWN,), seeded_on=SOWN))
    assert not runs_of(plan, "settle") and not runs_of(plan, "recover")


def test_watering_stops_in_time_for_a_dry_surface_before_the_next_pass() -> None:
    """No watering on the day before a pass nor on the day itself, until its own evening."""
    first, second = date(2027, 4, 10), date(2027, 4, 20)
    plan = season_watering(cases.request(BOOK, COOL, passes=(first, second)))
    days = {d for run in plan.series for d in run.days() if run.id.startswith("water.recover.1")}
    assert days and max(days) < second - timedelta(1)


def test_germination_that_is_seen_ends_the_seed_stage() -> None:
    """The stage follows growth: seen early, all after it moves up; seen late, it lasts longer."""
    usual = season_watering(cases.request(BOOK, COOL, seeded_on=SOWN))
    early = season_watering(
        cases.request(BOOK, COOL, seeded_on=SOWN, germinated_on=SOWN + timedelta(9))
    )
    late = season_watering(
        cases.request(BOOK, COOL, seeded_on=SOWN, germinated_on=SOWN + timedelta(27))
    )
    ends = [
        next(s.end for s in plan.stages if s.name == "germination") for plan in (early, usual, late)
    ]
    assert (
        ends == sorted(ends) and ends[0] == SOWN + timedelta(9) and ends[2] == SOWN + timedelta(27)
    )
    assert early.stages[2].start == SOWN + timedelta(10)


def test_dormant_seed_is_kept_moist_from_its_waking_on() -> None:
    """Nothing is watered in the cold; from the day on which it wakes the seed is kept moist."""
    sown, wakes = date(2027, 12, 1), date(2028, 4, 20)
    plan = season_watering(
        cases.request(BOOK, COOL, seeded_on=sown, wakes_on=wakes, end=date(2028, 8, 1))
    )
    assert [stage.name for stage in plan.stages] == ["germination", "establishment", "weaning"]
    assert plan.stages[0].start in (wakes, wakes + timedelta(1))
    assert not [day for run in plan.series for day in run.days() if day < wakes]
    assert any("Dormant" in note for note in all_told(plan.notes))


def test_without_water_there_are_no_runs() -> None:
    """`possible = false` leaves rain alone, in the account too."""
    given = cases.brief(water={"possible": False})
    plan = season_watering(cases.request(BOOK, COOL, given, seeded_on=SOWN))
    assert plan.series == ()
    assert all(
        week.entries["watering"] == week.entries["rooted"] == 0 for week in plan.ledger.weeks
    )


def test_twice_the_rate_takes_half_the_minutes() -> None:
    """To whole minutes of each run."""
    slow = season_watering(
        cases.request(
            BOOK, COOL, cases.brief(water={"application_rate": "0.5 in/h"}), seeded_on=SOWN
        )
    )
    fast = season_watering(
        cases.request(BOOK, COOL, cases.brief(water={"application_rate": "1 in/h"}), seeded_on=SOWN)
    )
    assert [r.id for r in slow.series] == [r.id for r in fast.series]
    for one, two in zip(slow.series, fast.series, strict=True):
        assert two.minutes == pytest.approx(one.minutes / 2, abs=0.76 + two.cycles / 2)


def test_clay_gets_more_and_shorter_cycles_than_sand() -> None:
    """The same half inch runs in one go on sand and in several cycles on clay."""
    given = cases.brief(water={"application_rate": "1.5 in/h"})
    passes = (date(2027, 4, 10),)
    clay = season_watering(cases.request(BOOK, COOL, given, passes=passes, soil="clay")).series
    sand = season_watering(cases.request(BOOK, COOL, given, passes=passes, soil="sand")).series
    assert abs(clay[0].minutes - sand[0].minutes) <= clay[0].cycles / 2
    assert clay[0].cycles > sand[0].cycles == 1
    assert any("cycles" in line for line in all_told(clay[0].how))


def test_a_slope_asks_for_more_cycles() -> None:
    """Steep ground holds less before water runs off."""
    given = cases.brief(water={"application_rate": "1.5 in/h"})
    flat = season_watering(cases.request(BOOK, COOL, given, passes=(date(2027, 4, 10),)))
    steep = season_watering(
        cases.request(BOOK, COOL, given, passes=(date(2027, 4, 10),), slope_percent=15)
    )
    assert steep.series[0].cycles > flat.series[0].cycles


@pytest.mark.full
@quick
@given(
    st.sets(st.sampled_from(WEEKDAYS), min_size=1),
    st.sampled_from([None, "odd", "even"]),
    st.booleans(),
    st.booleans(),
)
def test_no_run_breaks_the_law(
    weekdays: set[str], parity: str | None, banned: bool, permit: bool
) -> None:
    """Weekdays, odd and even dates, hours and bans are kept to.

    A permit frees days for new seed, never a ban or an hour.
    """
    water = {
        "application_rate": "1 in/h",
        "allowed_weekdays": sorted(weekdays),
        "allowed_hours": ["05:00-09:30", "18:00-21:00"],
        "permit": permit,
        **({"parity": parity} if parity else {}),
        **({"banned": [{"from": date(2027, 9, 3), "to": date(2027, 9, 9)}]} if banned else {}),
    }
    plan = season_watering(
        cases.request(
            BOOK, COOL, cases.brief(water=water), seeded_on=SOWN, passes=(date(2027, 4, 10),)
        )
    )
    for run in plan.series:
        ends = (
            run.start_time.hour * 60
            + run.start_time.minute
            + run.minutes
            + (run.cycles - 1) * run.when.wait_min
        )
        starts = run.start_time.hour * 60 + run.start_time.minute
        assert (starts >= 300 and ends <= 570) or (starts >= 1080 and ends <= 1260)
        for day in run.days():
            assert not (banned and date(2027, 9, 3) <= day <= date(2027, 9, 9))
            free = permit and run.stage in ("soak", "germination", "establishment", "weaning")
            assert free or WEEKDAYS[day.weekday()] in weekdays
            assert free or parity is None or day.day % 2 == (1 if parity == "odd" else 0)


def test_zones_follow_each_other_and_carry_their_name() -> None:
    """Each zone has its own minutes and id, and starts when the one before has ended."""
    zones = [
        {"name": "Front", "area": "1500 ft2", "head": "spray"},
        {"name": "Back", "area": "2500 ft2", "head": "rotor", "sun": "shade"},
    ]
    plan = season_watering(
        cases.request(BOOK, COOL, cases.brief(water={"zones": zones}), seeded_on=SOWN)
    )
    front = next(r for r in plan.series if r.id == "water.germination.w1.morning.front")
    back = next(r for r in plan.series if r.id == "water.germination.w1.morning.back")
    assert back.minutes > front.minutes
    assert back.depth_mm < front.depth_mm
    gap = (
        (back.start_time.hour - front.start_time.hour) * 60
        + back.start_time.minute
        - front.start_time.minute
    )
    assert gap == front.minutes
    assert "Front" in told(front.title) and "Back" in told(back.title)


def test_many_zones_share_a_series_and_a_readable_calendar() -> None:
    """Six valves do not make two hundred events: each session is one event that lists the zones."""
    zones = [{"name": f"Zone {n}", "area": "600 ft2", "head": "spray"} for n in range(1, 7)]
    plan = season_watering(
        cases.request(
            BOOK,
            COOL,
            cases.brief(water={"zones": zones}),
            seeded_on=SOWN,
            passes=(date(2027, 4, 10),),
        )
    )
    assert 0 < len(plan.series) <= 60
    assert all(run.zone is None for run in plan.series)
    assert sum("Zone" in line for line in all_told(plan.series[0].how)) >= 6


@pytest.mark.full
@quick
@given(
    st.sampled_from(["sand", "loam", "clay"]), st.floats(0, 6), st.booleans(), st.integers(0, 300)
)
def test_the_water_account_closes_every_week(
    soil: str, rain: float, dry: bool, offset: int
) -> None:
    """Balance before plus the week's entries is the balance after, to 0.1 mm, whatever the rain."""
    weather = {
        date(2027, 3, 1) + timedelta(offset + n): WeatherDay(rain_mm=0.0 if dry else 4 * rain)
        for n in range(0, 40, 3)
    }
    sown = date(2027, 3, 20) + timedelta(offset)
    plan = season_watering(
        cases.request(BOOK, COOL, soil=soil, weather=weather, seeded_on=sown, end=date(2028, 8, 1))
    )
    balance = plan.ledger.opening
    for week in plan.ledger.weeks:
        assert week.balance == pytest.approx(balance + sum(week.entries.values()), abs=0.1)
        balance = week.balance
    assert plan.ledger.weeks[0].start == date(2027, 3, 1) and plan.ledger.weeks[-1].end == date(
        2028, 8, 1
    )


def test_a_rainy_week_cancels_runs() -> None:
    """Fifteen millimetres a day turn off the whole week, and no day outside it."""
    dry = season_watering(cases.request(BOOK, COOL, seeded_on=SOWN))
    week = {SOWN + timedelta(7 + n): WeatherDay(rain_mm=15.0) for n in range(7)}
    wet = season_watering(cases.request(BOOK, COOL, seeded_on=SOWN, weather=week))
    turned_off = {d for r in dry.series for d in r.days()} - {
        d for r in wet.series for d in r.days()
    }
    assert set(week) <= turned_off
    assert all(day <= max(week) + timedelta(2) for day in turned_off)
    assert minutes_of(wet) < minutes_of(dry)


def test_a_drizzle_cancels_nothing() -> None:
    """Less than the day takes does not turn a watering off."""
    weather = {SOWN + timedelta(n): WeatherDay(rain_mm=0.5) for n in range(21)}
    wet = season_watering(cases.request(BOOK, COOL, seeded_on=SOWN, weather=weather))
    dry = season_watering(cases.request(BOOK, COOL, seeded_on=SOWN))
    assert [r.days() for r in runs_of(wet, "germination")] == [
        r.days() for r in runs_of(dry, "germination")
    ]


def known(plan: WateringPlan) -> dict[str, KnownSeries]:
    return {
        r.id: KnownSeries(r.start, r.end, r.start_time, r.minutes, r.weekdays, r.skip)
        for r in plan.series
    }


def test_a_finished_week_is_never_touched_and_the_running_one_only_gains_days_off() -> None:
    """Rain in week 2, heat after it: week 1 is as it was, 2 loses days, 3 may change minutes."""
    before = season_watering(cases.request(BOOK, COOL, seeded_on=SOWN))
    today = SOWN + timedelta(10)
    weather = {SOWN + timedelta(n): WeatherDay(rain_mm=20.0) for n in range(9, 12)}
    weather |= {SOWN + timedelta(n): WeatherDay(et0_mm=8.0) for n in range(14, 21)}
    after = season_watering(
        cases.request(
            BOOK, COOL, seeded_on=SOWN, weather=weather, previous=known(before), today=today
        )
    )
    old, new = known(before), known(after)
    for name, series in new.items():
        if name in old and old[name].end < today:
            assert series == old[name]
        elif name in old and old[name].start <= today:
            assert set(old[name].skip) <= set(series.skip)
            assert (
                series.start,
                series.end,
                series.minutes,
                series.weekdays,
                series.start_time,
            ) == (
                old[name].start,
                old[name].end,
                old[name].minutes,
                old[name].weekdays,
                old[name].start_time,
            )
    assert any(new[n].skip != old[n].skip for n in new if ".w2." in n and n in old)
    assert any(new[n].minutes > old[n].minutes for n in new if n.startswith("water.germination.w3"))


def test_a_run_that_keeps_its_minutes_says_those_and_no_depth_of_others() -> None:
    """A calendar with a tenth fewer minutes keeps them: the title says so, no depth is told."""
    fresh = season_watering(cases.request(BOOK, COOL, seeded_on=SOWN))
    calendar = {
        name: replace(series, minutes=round(series.minutes * 0.9))
        for name, series in known(fresh).items()
    }
    kept = season_watering(
        cases.request(BOOK, COOL, seeded_on=SOWN, previous=calendar, today=SOWN + timedelta(40))
    )
    changed = [
        (one, two)
        for one, two in zip(fresh.series, kept.series, strict=True)
        if one.minutes != two.minutes
    ]
    assert changed
    for one, two in changed:
        assert two.minutes == calendar[two.id].minutes
        assert told(two.title) == told(one.title).replace(
            f"{one.minutes} min", f"{two.minutes} min"
        )
        assert one.puts_down is not None and two.puts_down is None and two.how == one.steps
    same = [run for run in kept.series if run.minutes == calendar[run.id].minutes]
    assert len(same) == len(kept.series)


def test_grass_seen_early_turns_off_the_rest_of_the_running_seed_week() -> None:
    """The running week keeps its dates and loses those after emergence; the coming one is gone."""
    before = season_watering(cases.request(BOOK, COOL, seeded_on=SOWN))
    up, today = SOWN + timedelta(9), SOWN + timedelta(10)
    after = season_watering(
        cases.request(
            BOOK, COOL, seeded_on=SOWN, germinated_on=up, previous=known(before), today=today
        )
    )
    week = next(run for run in after.series if run.id == "water.germination.w2.morning")
    assert week.end == known(before)[week.id].end
    assert max(week.days()) == up
    assert not any(run.id.startswith("water.germination.w3") for run in after.series)
    assert min(d for r in runs_of(after, "establishment") for d in r.days()) == today


def test_series_are_read_from_the_tasks_of_a_plan() -> None:
    """Open watering tasks with a series are known by id; others are not."""
    series = Series(
        start=SOWN, end=SOWN + timedelta(6), start_time=time(6), minutes=12, skip=(SOWN,)
    )
    basis = {
        "uid": "u",
        "phase": "seed",
        "title": "Water",
        "start": SOWN,
        "end": SOWN,
        "best": SOWN,
        "window": TaskWindow(start=SOWN, end=SOWN),
    }
    tasks = [
        Task(id="water.germination.w1.morning", operation="water", series=series, **basis),
        Task(
            id="water.germination.w2.morning",
            operation="water",
            series=series,
            status="CANCELLED",
            **basis,
        ),
        Task(id="seed", operation="seed", **basis),
    ]
    assert known_series(tasks) == {
        "water.germination.w1.morning": KnownSeries(
            SOWN, SOWN + timedelta(6), time(6), 12, (), (SOWN,)
        )
    }


def test_planning_again_changes_nothing() -> None:
    """A request with its own result as the calendar, on any later day, gives the same series."""
    weather = {SOWN + timedelta(9): WeatherDay(rain_mm=20.0)}
    first = season_watering(cases.request(BOOK, COOL, seeded_on=SOWN, weather=weather))
    for later in (0, 8, 10, 30, 90):
        again = season_watering(
            cases.request(
                BOOK,
                COOL,
                seeded_on=SOWN,
                weather=weather,
                previous=known(first),
                today=SOWN + timedelta(later),
            )
        )
        assert again.series == first.series


def test_work_before_the_start_of_the_account_keeps_its_watering() -> None:
    """A plan made anew in mid-season still has the series of the seed that was sown before."""
    whole = season_watering(cases.request(BOOK, COOL, seeded_on=SOWN))
    late = season_watering(cases.request(BOOK, COOL, seeded_on=SOWN, start=SOWN + timedelta(10)))
    assert late.series == whole.series
    assert late.ledger.weeks[0].start == SOWN


def test_hours_too_short_for_the_water_are_said() -> None:
    """A slow sprinkler: nothing is squeezed into twenty minutes; two hours hold a part."""
    for until, runs in (("06:20", False), ("08:00", True)):
        water = {"flow": "5 gpm", "allowed_hours": [f"06:00-{until}"]}
        plan = season_watering(
            cases.request(
                BOOK, COOL, cases.brief(water=water, lawn={"area": "6000 ft2"}), seeded_on=SOWN
            )
        )
        assert bool(runs_of(plan, "germination")) is runs
        assert all(run.minutes <= 120 for run in plan.series)
        assert any("too short" in caution for caution in all_told(plan.cautions))


def test_deep_runs_that_do_not_fit_are_spread_over_more_days() -> None:
    """Two long runs a week become several shorter ones with the same water in short hours."""
    long = cases.brief(water={"application_rate": "0.25 in/h"})
    short = cases.brief(water={"application_rate": "0.25 in/h", "allowed_hours": ["05:00-06:00"]})
    plans = [season_watering(cases.request(BOOK, COOL, b, seeded_on=SOWN)) for b in (long, short)]
    weeks = [[r for r in runs_of(plan, "weaning") if ".w1." in r.id] for plan in plans]
    days = [sum(len(r.days()) for r in week) for week in weeks]
    water = [sum(r.depth_mm * len(r.days()) for r in week) for week in weeks]
    assert days[1] > days[0]
    assert water[1] == pytest.approx(water[0], rel=0.05)


def test_an_uneven_zone_is_named_with_what_to_mend() -> None:
    """The advice of a catch-can test stands among the cautions of the season."""
    water = {
        "catch_cans": ["1 mm", "2 mm", "12 mm", "12 mm", "15 mm", "15 mm", "16 mm", "16 mm"],
        "catch_minutes": 20,
    }
    plan = season_watering(cases.request(BOOK, COOL, cases.brief(water=water), seeded_on=SOWN))
    assert any("nozzle" in caution for caution in all_told(plan.cautions))


def test_a_lawn_beyond_its_supply_is_watered_in_parts() -> None:
    """Where rate times area is more than the supply gives, parts are told with minutes of each, and
    zones or flow are asked for; where it gives enough, nothing is."""
    rate = {"application_rate": "0.5 in/h", "possible": True}
    for flow, parts in (({"flow": "5 gpm"}, 5), ({"flow": "13 gpm"}, 2), ({"flow": "25 gpm"}, 1)):
        given = cases.brief(water={**rate, **flow})
        plan = season_watering(cases.request(BOOK, COOL, given, seeded_on=SOWN))
        asked = [c for c in plan.cautions if c.key == "watering.season.too_much_at_once"]
        assert [dict(c.values)["parts"] for c in asked] == ([parts] if parts > 1 else [])
        for run in plan.series:
            steps = [s for s in run.how if s.key == "watering.how.in_parts"]
            assert bool(steps) is (parts > 1)
            assert all(dict(s.values)["minutes"] == run.minutes for s in steps)
    untold = season_watering(cases.request(BOOK, COOL, cases.brief(water=rate), seeded_on=SOWN))
    assert any(c.key == "watering.season.beyond_one_tap" for c in untold.cautions)
    assert all(any(s.key == "watering.how.each_part" for s in run.how) for run in untold.series)


def test_cost_and_volume_follow_depth_area_and_price() -> None:
    """Litres are millimetres times square metres; the cost is the user's price."""
    given = cases.brief(water={"application_rate": "0.5 in/h", "price_per_m3": 2.5})
    plan = season_watering(cases.request(BOOK, COOL, given, seeded_on=SOWN))
    area = given.lawn.area_m2 or 0.0
    assert plan.totals.volume_l == pytest.approx(
        (plan.totals.stages_mm + plan.totals.mature_mm) * area
    )
    assert plan.totals.cost == pytest.approx(plan.totals.volume_l / 1000 * 2.5)
    runs = sum(a.value for run in plan.series for a in run.amounts if a.item == "water")
    assert runs == pytest.approx(plan.totals.stages_mm * area, rel=0.001)


def test_the_notes_say_how_much_water_and_at_which_price() -> None:
    """Volume in the user's units and the cost where a price was given."""
    given = cases.brief(water={"application_rate": "0.5 in/h", "price_per_m3": 2.5})
    plan = season_watering(cases.request(BOOK, COOL, given, seeded_on=SOWN))
    note = next(n for n in all_told(plan.notes) if "takes about" in n)
    assert "gal" in note and f"{plan.totals.cost:,.0f}" in note


@pytest.mark.parametrize("season", ["cool", "warm"])
def test_every_soil_has_its_water_numbers(season: str) -> None:
    """The book knows what each texture class holds and takes in, in plausible bounds."""
    mineral = [soil_of(BOOK, n, season) for n in BOOK.soils if n != "peat"]
    assert len(mineral) == len(BOOK.soils) - 1
    assert all(50 <= soil.capacity_mm_m <= 250 for soil in mineral)
    # Organic soil is mostly pores: it holds more than any mineral soil, and never half its depth.
    peat = soil_of(BOOK, "peat", season).capacity_mm_m
    assert max(soil.capacity_mm_m for soil in mineral) < peat < 500
    for name in BOOK.soils:
        soil = soil_of(BOOK, name, season)
        assert 0.3 <= soil.depletion_share <= 0.6
        assert 1 <= intake_of(BOOK, soil.name, 0.0).rate_mm_h <= 60
    assert intake_of(BOOK, "clay", 0.0).rate_mm_h < intake_of(BOOK, "loam", 0.0).rate_mm_h


def test_warm_season_grass_uses_less_water() -> None:
    """The same summer takes less from warm-season grass (FAO-56 Table 12)."""
    cool = season_watering(cases.request(BOOK, COOL, season="cool"))
    warm = season_watering(cases.request(BOOK, COOL, season="warm"))
    used = [
        sum(week.entries["evapotranspiration"] for week in p.ledger.weeks) for p in (cool, warm)
    ]
    assert abs(used[1]) < abs(used[0])


def test_california_uses_its_own_monthly_coefficients() -> None:
    """There the year's use follows the University of California's table, elsewhere FAO-56's."""
    here, there = (
        season_watering(cases.request(BOOK, climate))
        for climate in (replace(COOL, state="CA"), replace(COOL, state="PA"))
    )
    used = [
        sum(week.entries["evapotranspiration"] for week in p.ledger.weeks) for p in (here, there)
    ]
    assert used[0] != used[1]
    assert season_watering(cases.request(BOOK, COOL, monthly_kc=True)).ledger == here.ledger


def test_southern_summer_is_watered_in_january() -> None:
    """Mature grass in the south needs its water around the turn of the year."""
    plan = season_watering(
        cases.request(BOOK, SOUTH, start=date(2027, 6, 1), end=date(2028, 5, 31))
    )
    month = {
        m: sum(w.entries["rooted"] for w in plan.ledger.weeks if w.start.month == m) for m in (1, 7)
    }
    assert month[1] > month[7]


def test_verdict_without_water_names_the_reason() -> None:
    """No water where it never rains enough, no seed; where it does, seed on rain, and its risk."""
    brief = cases.brief(water={"possible": False})
    dry = watering_verdict(brief, BOOK, climate_at(39.7, -105.0), "tall_fescue")
    assert not dry.ok and "dries out" in told(dry.reasons[0])
    wet = watering_verdict(brief, BOOK, climate_at(53.35, -6.26), "tall_fescue")
    assert wet.ok and "rain alone" in told(wet.cautions[0])


def test_verdict_asks_for_a_permit_on_few_days() -> None:
    """Two days a week: no seed without a permit; with one, sow and mind its end."""
    few = {"allowed_weekdays": ["tue", "sat"]}
    refused = watering_verdict(
        cases.brief(water={**few, "permit": False}), BOOK, COOL, "kentucky_bluegrass"
    )
    assert not refused.ok and refused.needs_permit
    assert "permit" in told(refused.reasons[0]) and "season" in told(refused.reasons[0])
    # Seed that waits for spring is offered where it can be dated, not by a sentence anywhere.
    assert "dormant" not in told(refused.reasons[0])
    granted = watering_verdict(
        cases.brief(water={**few, "permit": True}), BOOK, COOL, "kentucky_bluegrass"
    )
    assert granted.ok and granted.needs_permit


@pytest.mark.parametrize(
    "work",
    [
        {"seeded_on": SOWN, "first_mow_on": date(2027, 10, 20)},
        {"relaid_on": SATURDAYS[1], "relaid_strips": SATURDAYS, "relaid_share": 0.2},
    ],
)
def test_the_permit_covers_every_run_that_needs_it(work: dict[str, Any]) -> None:
    """The days told are those from the first run of young grass to the last, weaning too; relaid
    turf is watered daily by it. Without a permit nothing is said of one."""
    few: dict[str, Any] = {"application_rate": "0.5 in/h", "allowed_weekdays": ["wed"]}
    granted = cases.brief(water={**few, "permit": True})
    plan = season_watering(cases.request(BOOK, COOL, granted, **work))
    young = [
        day
        for stage in ("soak", "germination", "establishment", "weaning", "soak_relaid", "relaid")
        for run in runs_of(plan, stage)
        for day in run.days()
    ]
    (said,) = [c for c in plan.cautions if c.key == "watering.season.permit"]
    assert dict(said.values)["days"] == Listed(
        (Days(min(young), max(young), weekday=False),), "and"
    )
    if "relaid_on" in work:
        assert {d.weekday() for run in runs_of(plan, "relaid") for d in run.days()} == set(range(7))
    else:
        weaned = [run.weekdays for run in runs_of(plan, "weaning") if len(run.days()) > 1]
        assert weaned and {len(days) for days in weaned} <= {2, 3}
    none = cases.brief(water={**few, "permit": False})
    refused = season_watering(cases.request(BOOK, COOL, none, **work))
    assert all(d.weekday() == 2 for run in refused.series for d in run.days())
    assert not any(c.key == "watering.season.permit" for c in refused.cautions)


def test_absences_are_told_where_something_young_must_be_watered() -> None:
    """One sentence names the absences between sowing and first cut, and none before or after;
    with a timer, that it waters alone."""
    away = tuple((date(2027, month, day), date(2027, month, day + 2)) for month, day in AWAY_ON)
    request = cases.request(BOOK, COOL, seeded_on=SOWN, first_mow_on=date(2027, 9, 30), away=away)
    (said,) = [
        c for c in season_watering(request).cautions if c.key == "watering.season.nobody_there"
    ]
    assert dict(said.values)["days"] == Listed(
        tuple(Days(first, last, weekday=False) for first, last in away[1:3]), "and"
    )
    timed = replace(request, water=request.water.model_copy(update={"timer": True}))
    told = {c.key: dict(c.values) for c in season_watering(timed).cautions}
    assert "watering.season.nobody_there" not in told
    assert told["watering.season.timer_alone"] == dict(said.values)


def test_who_stands_in_waters_what_must_not_dry_out_while_nobody_is_there() -> None:
    """Seedlings are watered on each day of an absence, in runs of their own that cost the household
    no work; with a timer the runs go on as they are, and what is weaned waits."""
    away = (date(2027, 9, 20), date(2027, 9, 26))
    request = cases.request(
        BOOK, COOL, seeded_on=SOWN, first_mow_on=date(2027, 10, 9), away=(away,)
    )
    runs = [
        r for r in season_watering(request).series if r.stage in ("germination", "establishment")
    ]
    absent = set(recurring_days(*away))
    by_other = {day for run in runs if run.stand_in for day in run.days()}
    own = {day for run in runs if not run.stand_in for day in run.days()}
    assert by_other == absent and not own & absent
    for run in runs:
        assert run.stand_in is (".stand-in." in run.id)
        assert (run.title.key == "watering.title.stand_in") is run.stand_in
        assert (run.how[0].key == "watering.how.stand_in") is run.stand_in
        assert not run.stand_in or run.work_min == 0
    timed = replace(request, water=request.water.model_copy(update={"timer": True}))
    assert not any(run.stand_in for run in season_watering(timed).series)
    weaned = replace(request, first_mow_on=date(2027, 9, 15))
    assert not any(r.stand_in for r in runs_of(season_watering(weaned), "weaning"))


def test_relaid_turf_has_a_word_of_its_own_for_an_absence() -> None:
    """Told before turf is lifted; of seed nothing is said where none is."""
    away = ((SOWN + timedelta(5), SOWN + timedelta(8)),)
    plan = season_watering(cases.request(BOOK, COOL, relaid_on=SOWN, relaid_share=0.1, away=away))
    told = {c.key for c in plan.cautions}
    assert "watering.season.nobody_there_relaid" in told
    assert "watering.season.nobody_there" not in told
    assert any(run.stand_in for run in runs_of(plan, "relaid"))


def test_verdict_on_odd_days_is_that_of_few_days() -> None:
    """Every other day is not every day."""
    assert not watering_verdict(
        cases.brief(water={"parity": "odd", "permit": False}), BOOK, COOL, "tall_fescue"
    ).ok
    assert watering_verdict(cases.brief(water={"possible": True}), BOOK, COOL, "tall_fescue").ok


def test_a_grass_without_seed_is_judged_by_its_plants() -> None:
    """Plugs and sod need water until they root: planted grass needs it for fewer days than sown."""
    few = {"allowed_weekdays": ["tue", "sat"], "permit": False}
    verdict = watering_verdict(cases.brief(water=few), BOOK, COOL, "st_augustine")
    assert not verdict.ok and "new plants" in told(verdict.reasons[0])
    open_water = {"banned": [{"from": date(2027, 9, 1), "to": date(2027, 9, 30)}]}
    sown = watering_verdict(cases.brief(water=open_water), BOOK, COOL, "zoysia")
    planted = watering_verdict(
        cases.brief(water=open_water, seeding={"intent": "plant"}), BOOK, COOL, "zoysia"
    )
    assert sown.closed[0][0] < planted.closed[0][0]


def test_hours_too_short_for_seed_are_said_with_the_share_that_fits() -> None:
    """5 gpm on 6,000 ft2 in three lawful hours: sow a part at a time."""
    given = cases.brief(
        lawn={"area": "6000 ft2"}, water={"flow": "5 gpm", "allowed_hours": ["06:00-09:00"]}
    )
    found = zones(given.water, BOOK, given.lawn.area_m2 or 0.0)
    assert any(
        "of the lawn at a time" in c
        for c in all_told(watering_verdict(given, BOOK, COOL, "tall_fescue", found).cautions)
    )
    assert not any(
        "of the lawn at a time" in c
        for c in all_told(watering_verdict(given, BOOK, COOL, "tall_fescue").cautions)
    )


def test_steep_clay_is_watered_more_often_rather_than_in_many_cycles() -> None:
    """Never more cycles than are sensible: the same water goes on more days."""
    given = cases.brief(water={"application_rate": "1.5 in/h"})
    flat = season_watering(
        cases.request(BOOK, COOL, given, passes=(date(2027, 4, 10),), soil="clay")
    )
    steep = season_watering(
        cases.request(BOOK, COOL, given, passes=(date(2027, 4, 10),), soil="clay", slope_percent=20)
    )
    most = BOOK.si("water.cycles_most")
    assert all(run.cycles <= most for plan in (flat, steep) for run in plan.series)
    days = [sum(len(run.days()) for run in runs_of(plan, "recover")) for plan in (flat, steep)]
    assert days[1] > days[0]


def test_resting_grass_is_not_weaned_with_water() -> None:
    """Sown late, the deep runs would fall into winter: they are left out, with the reason."""
    plan = season_watering(cases.request(BOOK, COOL, seeded_on=date(2027, 10, 10)))
    assert not any(
        day >= date(2027, 12, 1) for run in runs_of(plan, "weaning") for day in run.days()
    )
    assert any("too cold" in caution for caution in all_told(plan.cautions))


def test_a_ban_closes_the_days_before_it_to_sowing() -> None:
    """Seed sown shortly before a ban would dry: those days are closed, with the reason."""
    ban = {"banned": [{"from": date(2027, 9, 1), "to": date(2027, 9, 30)}]}
    verdict = watering_verdict(cases.brief(water=ban), BOOK, COOL, "tall_fescue")
    (closed,) = verdict.closed
    assert closed[1] == date(2027, 9, 30)
    assert closed[0] <= date(2027, 8, 10)
    assert any("banned" in caution for caution in all_told(verdict.cautions))


def test_advice_for_rooted_grass_is_told_once_for_each_month() -> None:
    """Eighteen months tell each calendar month once, and none in which grass is hardly watered."""
    plan = season_watering(cases.request(BOOK, COOL, end=date(2028, 8, 31)))
    notes = [note for note in all_told(plan.notes) if "grass that has rooted" in note]
    months = [note.split(":")[0] for note in notes]
    assert "July" in months and len(set(months)) == len(months)
    every = [int(note.split("every ")[1].split(" ")[0]) for note in notes]
    assert max(every) <= BOOK.si("water.rare_watering")


def test_all_of_a_tap_goes_to_one_setting() -> None:
    """20 L/min on 300 m2: four places of 75 m2, each at 16 mm/h, not all at 4 mm/h."""
    given = cases.brief(lawn={"area": "300 m2"}, water={"flow": "20 L/min", "timer": True})
    (lawn,) = zones(given.water, BOOK, 300.0)
    assert lawn.settings == 4 and lawn.rate_mm_h == pytest.approx(20 * 60 / 75)
    plan = season_watering(cases.request(BOOK, COOL, given, zones=(lawn,), seeded_on=SOWN))
    for run in plan.series:
        litres = run.applied_mm * run.area_m2
        assert litres == pytest.approx(20 * run.minutes), "every litre comes out of the tap"
        assert run.minutes == run.when.settings * run.cycles * run.when.cycle_min
        assert "4 settings" in told(run.title)


@pytest.mark.full
@pytest.mark.parametrize("slope", [0.0, 6.0, 12.0, 20.0])
@pytest.mark.parametrize("soil", ["clay", "clay_loam", "silt_loam", "sand"])
@pytest.mark.parametrize("rate", ["0.4 in/h", "1.7 in/h", None])
def test_no_cycle_puts_down_more_than_the_ground_takes_in(
    slope: float, soil: str, rate: str | None
) -> None:
    """Each cycle fits what the slope takes in and holds, and soaks in before the next."""
    water = {"application_rate": rate} if rate else {"flow": "20 L/min"}
    given = cases.brief(water={**water, "possible": True, "hours_per_day": 12})
    request = cases.request(
        BOOK, COOL, given, soil=soil, slope_percent=slope, seeded_on=SOWN, passes=(SOWN,)
    )
    intake = intake_of(BOOK, soil, slope)
    for run in season_watering(request).series:
        assert run.rate_mm_h is not None
        cycle_mm = run.rate_mm_h * run.when.cycle_min / 60
        taken_mm = intake.rate_mm_h * run.when.cycle_min / 60
        assert cycle_mm <= intake.storage_mm + taken_mm + 0.01
        if run.cycles > 1:
            round_min = run.when.cycle_min + run.when.soak_min
            assert cycle_mm <= intake.rate_mm_h * round_min / 60 + 0.01


def test_steep_and_bare_ground_takes_in_less() -> None:
    """U.S. Department of Agriculture: on 8 to 12 % about six tenths, bare too; no cliff between."""
    level = intake_of(BOOK, "silt_loam", 0.0).rate_mm_h
    assert intake_of(BOOK, "silt_loam", 10.0).rate_mm_h == pytest.approx(0.6 * level, rel=0.02)
    assert intake_of(BOOK, "silt_loam", 0.0, bare=True).rate_mm_h == pytest.approx(0.6 * level)
    steps = [intake_of(BOOK, "silt_loam", percent / 2).rate_mm_h for percent in range(60)]
    assert all(0 <= more - less < 0.05 * level for more, less in pairwise(steps))


def test_what_bounds_the_water_is_what_is_said() -> None:
    """Hours at home, lawful hours, a day of one tap, ground: each by its own name."""

    def cautions(**water: object) -> str:
        soil, slope = water.pop("soil", "loam"), water.pop("slope", 0.0)
        given = cases.brief(lawn={"area": water.pop("area", "4000 ft2")}, water=water)
        request = cases.request(BOOK, COOL, given, soil=soil, slope_percent=slope, seeded_on=SOWN)
        return " ".join(all_told(season_watering(request).cautions))

    home = cautions(flow="5 gpm", hours_per_day=1)
    assert "hours at home" in home and "lawful hours" not in home
    law = cautions(application_rate="0.3 in/h", allowed_hours=["06:00-06:30"])
    assert "lawful hours" in law and "hours at home" not in law
    day = cautions(area="60000 ft2", flow="3 gpm", timer=True)
    assert "within a day" in day or "in a day" in day
    assert "lawful" not in day and "at home" not in day
    ground = cautions(application_rate="3 in/h", soil="clay", slope=25.0)
    assert "this ground" in ground and "lawful" not in ground


def test_no_days_lie_between_the_stages_of_young_grass() -> None:
    """With a permit the first day of weaning follows the last of establishment or rooting."""
    few: dict[str, Any] = {"application_rate": "0.5 in/h", "allowed_weekdays": ["wed"]}
    granted = cases.brief(water={**few, "permit": True})
    for work in (
        {"seeded_on": SOWN, "first_mow_on": date(2027, 10, 1)},
        {"planted_on": date(2027, 6, 1)},
    ):
        plan = season_watering(cases.request(BOOK, COOL, granted, **work))
        before = runs_of(plan, "rooting" if "planted_on" in work else "establishment")
        ended = max(day for run in before for day in run.days())
        begun = min(day for run in runs_of(plan, "weaning") for day in run.days())
        assert begun - ended == timedelta(1)
