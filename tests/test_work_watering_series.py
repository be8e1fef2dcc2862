"""Stages as calendar series: whole weeks, few sessions a day, zones that share a series."""

import itertools
from dataclasses import replace
from datetime import date, time, timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import water_cases as cases
from told import told
from turfplan.message import as_written
from turfplan.phrases import watering as phrases
from turfplan.work.watering.bounds import Watered, fewer_runs, no_run_fits, part_fits
from turfplan.work.watering.hours import law_of
from turfplan.work.watering.intake import Intake
from turfplan.work.watering.request import WateredGround, ground_of
from turfplan.work.watering.run_times import Hose, RunTime, WateringZone, applied_mm
from turfplan.work.watering.series import season_runs
from turfplan.work.watering.stages import Stage, StageName
from turfplan.work.watering.water_run import WaterRun

BOOK, COOL = cases.book(), cases.cool_climate()
START = date(2027, 6, 9)


def ground(**changes: Any) -> WateredGround:
    """A loam lawn of 2027 with one zone of 30 mm/h, or others."""
    lawn = WateringZone(None, as_written("lawn"), 100.0, 30.0)
    return ground_of(cases.request(BOOK, COOL, **{"zones": (lawn,), **changes}))


@pytest.mark.parametrize("name", ["germination", "recover", "weaning"])
def test_a_stage_is_cut_into_weeks_from_its_first_day(name: StageName) -> None:
    """Two weeks and three days are three series one after the other, the last of three days."""
    end = START + timedelta(16)
    runs, _ = season_runs(ground(), [Stage(name, START, end)])
    weeks = {run.id.split(".")[2]: run for run in runs}
    assert list(weeks) == ["w1", "w2", "w3"]
    for number, run in enumerate(weeks.values()):
        first = START + timedelta(7 * number)
        assert run.start == first, "the first day of a week is watered"
        assert run.days()[0] == first and run.end == run.days()[-1]
        assert run.end <= min(end, first + timedelta(6))
    if name == "germination":
        assert [run.end for run in weeks.values()] == [
            START + timedelta(6),
            START + timedelta(13),
            end,
        ]


def test_a_winter_is_cut_into_four_weeks_at_a_time() -> None:
    """Its weeks are alike: one series keeps the weekdays of the first until the fourth is over."""
    wet = ground(season="warm", sown_season="cool", climate=cases.warm_climate())
    dry = replace(wet, usable_rain_mm=(0.0,) * len(wet.rain_mm))
    runs, _ = season_runs(dry, [Stage("winter", date(2027, 10, 4), date(2027, 11, 28))])
    assert [run.start for run in runs] == [date(2027, 10, 4), date(2027, 11, 1)]
    for run in runs:
        assert run.start + timedelta(21) <= run.end <= run.start + timedelta(27)
        assert len({day.weekday() for day in run.days()}) == len(run.weekdays)


# Ground that lets 1.5 mm stand and takes in nothing to speak of: a session of 60 mm/h runs for one
# minute.
SEALED = Intake((), 0.6, 1.5, 30.0, 1)


@pytest.mark.parametrize(("name", "most"), [("recover", 2), ("weaning", 2), ("germination", 4)])
def test_rooted_grass_is_watered_twice_a_day_at_most(name: StageName, most: int) -> None:
    """Where that does not put the water on without runoff, a part is left out and told; what must
    not dry out is watered up to four times.
    """
    sealed = replace(
        ground(zones=(WateringZone(None, as_written("lawn"), 100.0, 60.0),)), intake=SEALED
    )
    dry = replace(sealed, usable_rain_mm=(0.0,) * len(sealed.rain_mm))
    stage = Stage(name, START, START + timedelta(6))
    runs, cautions = season_runs(dry, [stage])
    assert len({run.start_time for run in runs}) == most
    assert {run.minutes for run in runs} == {1}
    what: Watered = "young" if name == "germination" else "grass"
    told = {part_fits("ground", stage.title, part / 10, what) for part in range(1, 10)}
    assert told & set(cautions)


def test_zones_share_a_series_where_each_of_its_own_would_crowd_the_calendar() -> None:
    """One run after the other: the minutes add up, the depth is the mean by area, and each zone
    has its line.
    """
    areas, rates = (100.0, 50.0, 150.0), (30.0, 20.0, 40.0)
    zones = tuple(
        WateringZone(f"z{n}", as_written(f"zone {n}"), area, rate)
        for n, (area, rate) in enumerate(zip(areas, rates, strict=True), 1)
    )
    week = [Stage("germination", START, START + timedelta(6))]
    apart, _ = season_runs(ground(zones=zones), week)
    assert {run.zone for run in apart} == {"z1", "z2", "z3"}
    season = [Stage("germination", START, START + timedelta(7 * 12 - 1))]
    shared, _ = season_runs(ground(zones=zones), season)
    first, singles = shared[0], [run for run in apart if run.session == apart[0].session]
    assert {run.zone for run in shared} == {None}
    assert first.minutes == sum(run.minutes for run in singles)
    assert (first.when.cycles, first.when.soak_min, first.when.settings) == (1, 0, 1)
    assert first.area_m2 == 300
    assert first.depth_mm == pytest.approx(singles[0].depth_mm)
    down = sum(
        applied_mm(run.minutes, rate) * area
        for run, rate, area in zip(singles, rates, areas, strict=True)
    )
    assert first.applied_mm == pytest.approx(down / 300)
    assert len(first.steps) == 3


MONDAY = date(2027, 6, 7)
WEEKLY = Stage("weaning", MONDAY, MONDAY + timedelta(6))
LAWN = WateringZone(None, as_written("lawn"), 100.0, 30.0)


def even(et0_mm: float = 4.0, **changes: Any) -> WateredGround:
    """One zone of 100 m2 at 30 mm/h, or others, on ground that takes in all of it; no rain."""
    ground = cases.even_ground(et0_mm, **{"zones": (LAWN,), **changes})
    return replace(ground, intake=replace(ground.intake, rate_mm_h=500.0))


def only(ground: WateredGround, stage: Stage) -> list[WaterRun]:
    """The runs of a stage, of which nothing is to be warned."""
    runs, cautions = season_runs(ground, [stage])
    assert cautions == ()
    return list(runs)


def test_a_week_of_weaning_is_one_series_on_days_evenly_apart() -> None:
    """28 mm on two days: 14 mm each are 28 minutes at 30 mm/h, from six in the morning."""
    (run,) = only(even(), WEEKLY)
    assert run.id == "water.weaning.w1.morning"
    assert (run.start, run.end, run.start_time) == (MONDAY, MONDAY + timedelta(4), time(6))
    assert (run.weekdays, run.skip, run.minutes) == (("mon", "fri"), (), 28)
    assert (run.depth_mm, run.applied_mm, run.area_m2) == (
        pytest.approx(14),
        pytest.approx(14),
        100,
    )
    assert (run.zone, run.zone_name, run.rate_mm_h, run.hose) == (None, None, 30.0, False)
    amount, each = run.amounts
    assert (each.item, each.value) == ("water each time", 1400.0)
    assert (amount.item, amount.value) == ("water", 2800.0)
    words = dict(amount.reason.values)
    assert (words["n"], words["depth"].value, words["area"].value) == (2, pytest.approx(14), 100)
    assert (words["depth"].us_step, words["depth"].metric_step) == (0.01, 0.1)


def test_a_part_of_a_week_has_its_part_of_the_days() -> None:
    """Of two a week one in three days, and two from four on; each as deep as in a whole week."""

    def days(length: int) -> tuple[int, float]:
        stage = Stage("weaning", MONDAY, MONDAY + timedelta(length - 1))
        (run,) = only(even(), stage)
        return len(run.days()), run.depth_mm

    assert [days(n) for n in (1, 3, 4, 7)] == [(n, pytest.approx(14)) for n in (1, 1, 2, 2)]


def test_days_in_a_row_need_no_weekdays() -> None:
    """Every day of a week, or the only one; days with a gap are named."""
    (daily,) = only(even(), Stage("establishment", MONDAY, MONDAY + timedelta(6)))
    assert (daily.weekdays, daily.start, daily.end) == ((), MONDAY, MONDAY + timedelta(6))
    (single,) = only(even(), Stage("weaning", MONDAY, MONDAY))
    assert single.weekdays == ()


def test_sessions_of_a_day_are_spread_from_six_to_four_and_differ_in_their_clock_alone() -> None:
    """Four a day over seed on a hot day: every three hours and twenty minutes."""
    stage = Stage("germination", MONDAY, MONDAY + timedelta(6))
    runs = only(even(8.0, seeded_on=MONDAY), stage)
    assert [run.start_time for run in runs] == [time(6), time(9, 20), time(12, 40), time(16)]
    names = ["morning", "forenoon", "midday", "late-afternoon"]
    assert [run.session for run in runs] == names
    assert [run.id for run in runs] == [f"water.germination.w1.{name}" for name in names]
    assert len({replace(run, id="", session="", start_time=time(0)) for run in runs}) == 1
    assert {run.minutes for run in runs} == {5}, "2.5 mm at 30 mm/h"
    pair = only(even(2.032, seeded_on=None), stage)
    assert [run.start_time for run in pair] == [time(6)]


def test_work_is_watered_in_that_evening_and_on_a_later_day_in_the_morning() -> None:
    """At six in the evening of the day of the work; a strip of several says whose it is."""
    days = (MONDAY, MONDAY + timedelta(1))
    soak = Stage("soak", MONDAY, days[1], strips=days)
    (run,) = only(even(), soak)
    assert (run.start_time, run.start, run.end) == (time(18), *days)
    assert phrases.how_strip_of_day() in run.steps
    assert run.area_m2 == 50.0, "half of the lawn each day"
    (alone,) = only(even(), Stage("settle", MONDAY, MONDAY))
    assert alone.start_time == time(18) and phrases.how_strip_of_day() not in alone.steps
    early = cases.brief(water={"possible": True, "allowed_hours": ["05:00-09:00"]})
    runs, cautions = season_runs(even(the_brief=early), [Stage("settle", MONDAY, MONDAY)])
    assert [(r.start, r.start_time) for r in runs] == [(MONDAY + timedelta(1), time(6))]
    assert len(cautions) == 1


def hours(*spans: str, **water: Any) -> Any:
    """A brief with allowed hours, and more that it says of water."""
    return cases.brief(water={"possible": True, "allowed_hours": list(spans), **water})


def test_fewer_and_longer_runs_where_the_hours_hold_no_more() -> None:
    """Two hours hold one run of two, which puts down the water of both, and it is told."""
    stage = Stage("germination", MONDAY, MONDAY + timedelta(6))
    ground = even(4.064, the_brief=hours("06:00-08:00"))
    runs, cautions = season_runs(ground, [stage])
    assert [run.depth_mm for run in runs] == [pytest.approx(5.08)]
    assert cautions == (fewer_runs("law", stage.title, 1, 2),)


def test_more_days_where_a_day_does_not_hold_its_water() -> None:
    """14 mm are 28 minutes; in twenty minutes fit the 28 mm of two days on three, and nothing is
    missing.
    """
    runs, cautions = season_runs(even(the_brief=hours("06:00-06:20")), [WEEKLY])
    (run,) = runs
    assert (len(run.days()), run.depth_mm) == (3, pytest.approx(28 / 3))
    assert cautions == ()


def test_a_part_of_the_water_where_all_days_hold_no_more() -> None:
    """6 mm in 12 minutes a day are needed on seven days of 8: nine tenths fit in seven minutes,
    and of less than a tenth nothing does.
    """
    ground = even(the_brief=hours("06:00-06:07"))
    runs, cautions = season_runs(ground, [WEEKLY])
    (run,) = runs
    assert (len(run.days()), run.depth_mm) == (7, pytest.approx(0.9 * 28 / 7))
    assert cautions == (part_fits("law", WEEKLY.title, 0.9, "grass"),)
    less, said = season_runs(even(the_brief=hours("06:00-06:06")), [WEEKLY])
    assert (less[0].depth_mm, said[0]) == (
        pytest.approx(0.8 * 4),
        part_fits("law", WEEKLY.title, 0.8, "grass"),
    )
    (whole,) = only(even(the_brief=hours("06:00-06:08")), WEEKLY)
    assert (len(whole.days()), whole.depth_mm) == (7, pytest.approx(4))
    short, told = season_runs(even(40.0, the_brief=hours("06:00-06:01")), [WEEKLY])
    assert short == () and told == (no_run_fits("law", WEEKLY.title),)


def test_twice_a_day_where_the_ground_takes_in_no_more_at_once() -> None:
    """Four minutes a go: all of the water in two on each day, and nothing is missing."""
    takes_2_mm = replace(even(), intake=Intake((), 0.6, 2.0, 30.0, 1))
    runs = only(takes_2_mm, WEEKLY)
    assert [(run.start_time, len(run.days())) for run in runs] == [(time(6), 7), (time(16), 7)]
    assert [run.depth_mm for run in runs] == pytest.approx([2, 2])


def test_hours_of_a_day_are_no_law_and_those_at_home_are_kept_to() -> None:
    """A zone of ten hours; a hose of five places, each of an hour, that is moved."""
    slow = replace(LAWN, rate_mm_h=1.0)
    runs, cautions = season_runs(even(zones=(slow,)), [WEEKLY])
    assert len(runs[0].days()) == 2 and runs[0].minutes == 840
    long = replace(LAWN, rate_mm_h=0.1)
    _, cautions = season_runs(even(zones=(long,)), [WEEKLY])
    assert next(c.key for c in cautions) == part_fits("day", WEEKLY.title, 0.5).key

    def by_hose(most_min: float) -> tuple[int, tuple[str, ...]]:
        # 28 minutes in each of two places, and one to move: 58 for the water of a day.
        hose = Hose(25.0, 50.0, 10.0, 1.0, most_min)
        runs, cautions = season_runs(even(zones=(replace(LAWN, hose=hose),)), [WEEKLY])
        return len(runs[0].days()), tuple(c.key for c in cautions)

    assert by_hose(57.0) == (2, ()) and by_hose(56.9)[0] == 3
    assert by_hose(16.0)[1] == (part_fits("home", WEEKLY.title, 0.9).key,)


def test_recovery_goes_on_more_days_where_the_hours_of_few_hold_too_little() -> None:
    """What two days a week would get, each of more minutes than somebody is there, goes on as many
    days as hold it; nothing is told short. With time enough it keeps its gap."""
    stage = Stage("recover", MONDAY, MONDAY + timedelta(6))
    dry = even(5.0, the_brief=hours("06:00-22:00"))
    (gapped,) = only(dry, stage)
    given = gapped.depth_mm * len(gapped.days())
    at_once = gapped.minutes
    end = f"06:{at_once - 2:02d}"
    runs, cautions = season_runs(even(5.0, the_brief=hours(f"06:00-{end}")), [stage])
    (often,) = runs
    assert len(often.days()) > len(gapped.days())
    assert often.depth_mm * len(often.days()) == pytest.approx(given)
    assert not [c for c in cautions if c.key.startswith("watering.week")]


def test_parts_that_run_one_after_the_other_end_within_the_hours() -> None:
    """A supply of a third of what the lawn takes at once waters three parts in three times the
    minutes of one: the run is that long, and longer than an hour it leaves a day of two hours."""
    stage = Stage("germination", MONDAY, MONDAY + timedelta(6))
    zone = WateringZone(None, as_written("lawn"), 300.0, 20.0)
    flow = cases.brief(water={"flow": "35 L/min", "timer": False, "hours_per_day": 2})
    ground = even(4.0, water=flow.water, zones=(zone,))
    assert ground.request.parts_of(zone) == 3
    for run in only(ground, stage):
        assert run.elapsed_min == 3 * run.minutes
    weaned = only(ground, WEEKLY)
    assert weaned and all(run.elapsed_min <= 121 for run in weaned)
    plenty = even(4.0, water=flow.water.model_copy(update={"flow_l_min": 200.0}), zones=(zone,))
    assert all(run.elapsed_min == run.minutes for run in only(plenty, stage))


def test_weaning_is_called_by_how_often_it_waters() -> None:
    """Three days a week are less often; where the hours ask for six it is not called so, and says
    why."""
    (run,) = only(even(), WEEKLY)
    assert run.title.key.startswith("watering.title") and "less often" in told(run.title)
    assert run.how[-1] == phrases.how_tug_first()
    (often,) = season_runs(even(the_brief=hours("06:00-06:08")), [WEEKLY])[0]
    assert len(often.days()) > 3
    assert "less often" not in told(often.title)
    assert often.why.key == "watering.why.weaning_often"


def test_shaded_zones_get_their_share_and_follow_each_other() -> None:
    """28 minutes in the sun from six, then three quarters of them; even sprinklers put down what
    the driest quarter gets, uneven ones more.
    """
    sun = WateringZone("sun", as_written("sun"), 100.0, 30.0, uniformity=0.7)
    shade = WateringZone("shade", as_written("shade"), 50.0, 30.0, exposure=0.75)
    runs = only(even(zones=(sun, shade)), WEEKLY)
    assert [(r.zone, r.start_time, r.minutes) for r in runs] == [
        ("sun", time(6), 40),
        ("shade", time(6, 40), 21),
    ]
    assert [r.depth_mm for r in runs] == pytest.approx([14, 10.5])
    assert [r.applied_mm for r in runs] == pytest.approx([20, 10.5])
    assert [r.amounts[0].value for r in runs] == [4000.0, 1050.0]
    assert [r.zone_name for r in runs] == [sun.name, shade.name]
    assert runs[0].id == "water.weaning.w1.morning.sun"


def evergreen(*zones: WateringZone, **changes: Any) -> WateredGround:
    """Zones of a place that is warm all year: in no week does grass rest."""
    ground = even(zones=zones, **changes)
    warm = (20.0,) * 365
    climate = replace(ground.request.climate, air_mean_c=warm, air_min_c=warm, air_max_c=warm)
    return replace(ground, request=replace(ground.request, climate=climate))


def crowded(*zones: WateringZone, **changes: Any) -> WaterRun:
    """The first of a season that is too long for a series for each zone."""
    season = Stage("weaning", MONDAY, MONDAY + timedelta(7 * 31 - 1))
    return season_runs(evergreen(*zones, **changes), [season])[0][0]


def test_a_shared_series_counts_its_zones_together_and_what_they_wait() -> None:
    """The minutes of both, and depths by area; what closed hours part runs by itself."""
    sun = WateringZone("sun", as_written("sun"), 100.0, 30.0, uniformity=0.7)
    shade = WateringZone("shade", as_written("shade"), 50.0, 30.0, exposure=0.75)
    run = crowded(sun, shade)
    assert (run.zone, run.zone_name, run.minutes) == (None, phrases.zone_every(), 61)
    assert (run.when, run.start_time) == (RunTime(61, 1, 0, idle_min=0), time(6))
    three = crowded(sun, shade, replace(sun, key="more", uniformity=1.0))
    assert three.when == RunTime(89, 1, 0, idle_min=0), "28 minutes of the third"
    assert (run.rate_mm_h, run.hose, run.puts_down) == (None, False, None)
    assert run.depth_mm == pytest.approx((14 * 100 + 10.5 * 50) / 150)
    assert run.applied_mm == pytest.approx((20 * 100 + 10.5 * 50) / 150)
    assert run.area_m2 == 150
    apart = crowded(sun, shade, the_brief=hours("06:00-06:45", "07:00-08:00"))
    assert (apart.zone, apart.minutes, apart.elapsed_min) == ("sun", 40, 40)


def test_sixty_series_are_not_too_many() -> None:
    """One more is, and then zones share them."""
    assert BOOK.si("water.most_tasks") == 60
    zones = tuple(replace(LAWN, key=key) for key in ("a", "b"))

    def shared(weeks: int) -> bool:
        stage = Stage("recover", MONDAY, MONDAY + timedelta(7 * weeks - 1))
        runs, _ = season_runs(evergreen(*zones), [stage])
        assert len(runs) == (weeks if runs[0].zone is None else 2 * weeks)
        return runs[0].zone is None

    assert [shared(weeks) for weeks in (30, 31)] == [False, True]


def test_cycles_of_a_slow_ground_cite_its_facts() -> None:
    """A zone in one go cites none of them."""
    slow = replace(even(), intake=replace(even().intake, rate_mm_h=15.0, facts=("water.soak_gap",)))
    (cut,) = only(slow, WEEKLY)
    (whole,) = only(even(), WEEKLY)
    assert cut.cycles > 1 and "water.soak_gap" in cut.facts
    assert whole.cycles == 1 and "water.soak_gap" not in whole.facts


def test_a_winter_keeps_its_weekdays_and_skips_the_days_that_are_closed() -> None:
    """Four weeks of Mondays, of which one lies in a ban: three runs of water."""
    ban = {"from": MONDAY + timedelta(14), "to": MONDAY + timedelta(14)}
    given = cases.brief(water={"possible": True, "banned": [ban]})
    ground = even(2.0, the_brief=given)
    (run,) = only(ground, Stage("winter", MONDAY, MONDAY + timedelta(27)))
    mondays = [MONDAY + timedelta(n) for n in (0, 7, 14, 21)]
    assert (run.start, run.end, run.weekdays) == (MONDAY, mondays[-1], ("mon",))
    assert run.skip == (mondays[2],) and len(run.days()) == 3
    assert run.amounts[0].value == pytest.approx(3 * run.applied_mm * 100, abs=0.1)


@pytest.mark.parametrize("allowed", [None, ["mon", "wed", "fri"], ["wed", "fri"], ["sat", "sun"]])
@pytest.mark.parametrize("first", [START + timedelta(n) for n in range(7)])
def test_days_of_recovery_keep_their_gap_across_weeks(first: date, allowed: Any) -> None:
    """Three days at least between any two, the last of a short week too; four at most where the law
    closes none."""
    given = cases.brief(water={"possible": True, "allowed_weekdays": allowed} if allowed else {})
    lawn = ground(the_brief=given)
    dry = replace(lawn, usable_rain_mm=(0.0,) * len(lawn.rain_mm))
    runs, _ = season_runs(dry, [Stage("recover", first, first + timedelta(11))])
    days = sorted({day for run in runs for day in run.days()})
    gaps = [(later - day).days for day, later in itertools.pairwise(days)]
    assert days and min(gaps, default=3) >= 3
    assert allowed or max(gaps) <= 4


def test_recovery_gives_no_more_than_the_grass_uses() -> None:
    """In its three or four days, rain that is counted on included; half an inch at the most."""
    gap = BOOK.si("water.recover_gap")
    for month in range(4, 11):
        lawn = ground()
        start = date(2027, month, 2)
        runs, _ = season_runs(lawn, [Stage("recover", start, start + timedelta(6))])
        use = lawn.kc[month - 1] * lawn.mean_et0_mm(start, start + timedelta(6))
        rain = BOOK.si("water.counted_rain_share") * lawn.mean_rain_mm(start, start + timedelta(6))
        for run in runs:
            assert run.depth_mm + gap * rain <= max(gap * use, gap * rain) + 1e-9
            assert run.depth_mm <= BOOK.si("water.recover_depth")


OF_THE_DAY = st.sampled_from(
    [
        ("18:00-24:00", "00:00-10:00"),
        ("22:00-05:00",),
        ("00:01-08:00", "18:00-23:59"),
        ("05:30-06:15", "20:00-20:40"),
        ("06:00-07:00",),
        ("19:00-00:00",),
    ]
)
RATES = st.lists(st.sampled_from([8.0, 11.0, 43.0, 90.0]), min_size=1, max_size=4)
SLOPES, SOILS = st.sampled_from([0, 6, 15]), st.sampled_from(["loam", "clay loam", "clay"])


@settings(max_examples=150, deadline=None)
@given(OF_THE_DAY, RATES, SLOPES, SOILS, st.sampled_from([None, 12.0]))
def test_no_series_leaves_the_allowed_hours(
    hours: tuple[str, ...],
    rates: list[float],
    slope: float,
    soil: str,
    flow: float | None,
) -> None:
    """Zones of unlike rates in cycles that soak in, by valves or by a tap, each for itself or all
    in one series: from the first drop to the last every run is lawful, and none overlap; where no
    run fits it is said."""
    water: dict[str, Any] = {"allowed_hours": list(hours), "timer": True}
    if flow is not None:
        water["flow"] = f"{flow} L/min"
    of_brief = cases.brief(water=water)
    zones = tuple(
        WateringZone(f"z{n}", as_written(f"zone {n}"), 50.0 * n, rate, uniformity=0.6 + 0.1 * n)
        for n, rate in enumerate(rates, 1)
    )
    lawn = cases.even_ground(
        6.0, zones=zones, slope_percent=slope, soil=soil.replace(" ", "_"), water=of_brief.water
    )
    law = law_of(of_brief.water)
    stage = Stage("germination", MONDAY, MONDAY + timedelta(7 * 13))
    plan = [stage, Stage("weaning", MONDAY + timedelta(7 * 13 + 1), MONDAY + timedelta(7 * 16))]
    runs, cautions = season_runs(lawn, plan)
    assert runs or cautions
    of_day: dict[date, list[tuple[int, int]]] = {}
    for run in runs:
        begun = run.start_time.hour * 60 + run.start_time.minute
        assert law.holds(begun, run.elapsed_min), (run.id, run.start_time, run.elapsed_min)
        for day in run.days():
            of_day.setdefault(day, []).append((begun, begun + run.elapsed_min))
    for spans in of_day.values():
        for (_, over), (begun, _) in itertools.pairwise(sorted(spans)):
            assert begun >= over


@pytest.mark.parametrize(
    ("allowed", "starts"),
    [
        (("18:00-24:00", "00:00-06:00"), ["05", "18"]),
        (("18:00-24:00", "00:00-10:00"), ["06", "09", "18"]),
        (("00:00-06:00",), ["05"]),
        (("19:00-24:00",), ["19"]),
    ],
)
@pytest.mark.parametrize("timer", [True, False])
def test_nothing_runs_twice_in_a_night_on_ground_that_is_full(
    allowed: tuple[str, ...], starts: list[str], timer: bool
) -> None:
    """Seed that asks for four runs a day: one before dawn, one from dusk on, the others by day."""
    the_brief = cases.brief(water={"allowed_hours": list(allowed), "timer": timer})
    stage = Stage("germination", MONDAY, MONDAY + timedelta(6))
    runs, cautions = season_runs(even(9.0, the_brief=the_brief), [stage])
    assert sorted(f"{run.start_time:%H}" for run in runs) == starts
    assert any(caution.key == "watering.week.fewer_runs" for caution in cautions)


def test_what_a_hand_at_the_tap_does_not_hold_is_not_laid_to_the_law() -> None:
    """Of fewer runs the plan says what keeps a day from one more: nobody is up at night who turns
    three parts on, though the law holds it."""
    night: dict[str, Any] = {"allowed_hours": ["18:00-24:00", "00:00-06:00"], "timer": False}
    stage = Stage("germination", MONDAY, MONDAY + timedelta(6))

    def told(flow: str) -> list[str]:
        the_brief = cases.brief(water={**night, "flow": flow}, lawn={"area": "650 m2"})
        _, cautions = season_runs(even(9.0, the_brief=the_brief), [stage])
        return [caution.key for caution in cautions]

    assert told("8 L/min") == ["watering.week.fewer_runs_home"]
    assert told("35 L/min") == ["watering.week.fewer_runs"]
