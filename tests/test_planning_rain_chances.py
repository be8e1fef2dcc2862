"""How often rain lets a plan through: by generated years, marked as such, or by real ones."""

from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Any

import pytest

from planning import TODAY, brief_of, climate_at, made_plan, plan_of
from sample_plan import sample_plan
from test_work_campaigns import plain as setting_plain
from test_work_real_years import climate_of, series_of, years_of
from turfplan.climate.weather_generator import YEARS
from turfplan.files.reading.book import load_book
from turfplan.message import Day, Number, sentences
from turfplan.phrases import rain_years as phrases
from turfplan.planning.rain_chances import (
    _cautions,
    _each,
    _is_dry_pass,
    _is_open,
    _jobs,
    _on_rain,
    _season,
    dry_weeks,
)
from turfplan.records.constraints import DaySet
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task, TaskWindow
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.rain_years import DryJob, of_ten
from turfplan.work.real_years import Tally

WEATHER_WORDS = "generated weather (made from monthly normals, not measured)"
RAIN_ALONE = {"water": {"possible": False, "application_rate": None}}


def place(latitude: float, longitude: float) -> dict[str, object]:
    """A place by its coordinates alone."""
    return {
        "place": {
            "postal_code": None,
            "country": None,
            "latitude": latitude,
            "longitude": longitude,
        }
    }


@pytest.mark.full
def test_a_plan_without_daily_years_says_so() -> None:
    """Every count bears its mark, and no real year is claimed."""
    plan = plan_of()
    season = plan.season_years
    assert not plan.real_years
    assert season is not None
    assert season.weather == "generated"
    assert season.years == YEARS >= 30
    assert 0 < season.worked <= season.years
    assert WEATHER_WORDS in str(season.reason)
    assert "made up from its monthly normals" in str(season.method)
    passes = [t.id for t in plan.tasks if t.plays("spreading")]
    assert [one.task for one in plan.generated_years] == passes
    for one in plan.generated_years:
        assert str(one.reason).startswith("Made from monthly normals, not measured: dry ")
        assert "Of the week-ends in its window " in str(one.reason)


@pytest.mark.full
def test_the_same_plan_has_the_same_counts() -> None:
    """The lots belong to the place: another run, and a pin a few metres off, count alike."""
    here, there = (plan_of(place(40.04, east)) for east in (-76.3, -76.3001))
    again = plan_of(place(40.04, -76.3))
    assert here.generated_years == again.generated_years
    assert here.season_years == again.season_years
    counts = [[one.worked for one in plan.generated_years] for plan in (here, there)]
    assert counts[0] == counts[1]


@pytest.mark.full
def test_wetter_places_let_fewer_seasons_through() -> None:
    """Dry days are rarer on Norway's coast than in Arizona."""

    def dry(plan: Plan) -> float:
        return min(one.worked / one.years for one in plan.generated_years)

    assert (
        dry(plan_of(place(33.4, -112.0), {"seeding": {"intent": "none"}}))
        > dry(plan_of(place(60.4, 5.4))) + 0.3
    )


@pytest.mark.full
def test_work_on_other_days_counts_weeks() -> None:
    """Who works in the week is told of weeks."""
    plan = plan_of({"calendar": {"weekdays": ["wed", "thu"]}})
    assert all("Of the weeks in its window " in str(one.reason) for one in plan.generated_years)


@pytest.mark.full
def test_seed_on_rain_alone_says_how_often_that_is_enough() -> None:
    """Where nobody waters the count is told as a caution against damage, and in the season."""
    plan = plan_of(place(53.3, -6.3), RAIN_ALONE)
    sown = next(task for task in plan.tasks if task.plays("sowing"))
    counted = next(one for one in plan.generated_years if one.task == sown.id)
    assert 0 < counted.worked < counted.years
    note = next(n for n in plan.ranked if "as wet ground loses" in str(n.text))
    assert note.rank == "damage"
    assert WEATHER_WORDS in str(note.text)
    season = plan.season_years
    assert season is not None
    assert season.worked <= counted.worked
    assert "days after sowing on " in str(season.reason)


@pytest.mark.full
def test_nothing_is_counted_where_rain_decides_nothing() -> None:
    """Without a pass, and with water for the seed, there is no season to ask about."""
    plan = plan_of({"leveling": {"depth": "0 in"}})
    assert any(task.plays("sowing") for task in plan.tasks)
    assert plan.season_years is None
    assert not plan.generated_years


@pytest.mark.full
def test_real_years_count_before_generated_ones() -> None:
    """With a daily series the season is counted on it, and says from when to when."""
    series = series_of()
    climate, book = climate_of(series), load_book()
    plan = made_plan(brief_of(), book, climate, now=TODAY, real_years=years_of(series))
    season = plan.season_years
    assert not plan.generated_years
    assert season is not None
    assert season.weather == "measured"
    assert season.worked == season.years == len(years_of(series))
    assert str(season.reason).startswith("Of the real years 2001 to 2020, nearly all had rain")
    assert not str(season.method)
    spread = next(t.id for t in plan.tasks if t.plays("spreading"))
    told = next(one for one in plan.real_years if one.task == spread)
    assert "Of the week-ends in its window nearly all bring a day dry" in str(told.reason)


@pytest.mark.full
def test_real_years_tell_of_seed_on_rain_alone() -> None:
    """Real years in which no drop falls keep no seed moist; the plan is made by the normals."""
    climate, book = climate_at(53.3, -6.3), load_book()
    brief = brief_of(place(53.3, -6.3), RAIN_ALONE)
    plan = made_plan(brief, book, climate, now=TODAY, real_years=years_of(series_of()))
    note = next(n for n in plan.ranked if "as wet ground loses" in str(n.text))
    assert str(note.text).startswith("Nobody waters here. Of the real years 2001 to 2020, hardly")
    assert plan.season_years is not None
    assert plan.season_years.worked == 0


def test_a_climate_without_wet_days_says_nothing() -> None:
    """What was not estimated is not told."""
    climate = replace(climate_at(40.04, -76.3), wet_days=())
    plan = made_plan(brief_of(), load_book(), climate, now=TODAY)
    assert plan.season_years is None
    assert not plan.generated_years


WORLD = (
    (30.0, 31.2),
    (24.1, 32.9),
    (-23.6, -70.3),
    (19.1, 73.0),
    (23.8, 90.4),
    (1.35, 103.8),
    (-3.1, -60.0),
    (-1.3, 36.8),
    (6.6, 3.5),
    (-31.9, 116.0),
    (-36.9, 174.8),
    (-45.8, 170.4),
    (-33.4, -70.6),
    (-34.6, -58.5),
    (-33.9, 18.6),
    (-29.8, 30.9),
    (-17.8, 31.0),
    (24.7, 46.7),
    (24.9, 67.1),
    (28.6, 77.2),
    (35.7, 139.6),
    (39.9, 116.4),
    (37.5, 127.0),
    (55.0, 82.9),
    (55.7, 37.6),
    (59.9, 10.8),
    (64.1, -21.8),
    (60.4, 5.4),
    (53.3, -6.3),
    (40.4, -3.7),
    (41.9, 12.5),
    (38.0, 23.7),
    (47.6, -122.2),
    (33.5, -112.0),
    (25.8, -80.3),
    (39.7, -105.0),
    (42.4, -71.1),
    (19.4, -99.1),
    (64.8, -147.7),
    (27.7, 85.3),
)


@pytest.mark.full
@pytest.mark.parametrize(("latitude", "longitude"), WORLD)
@pytest.mark.parametrize("grass", ["tall_fescue", "bermuda_common"])
def test_every_place_of_the_world_is_counted(latitude: float, longitude: float, grass: str) -> None:
    """Monsoon, desert, tropics, both hemispheres: with water and without, as far as there is a
    plan."""
    for water in ({}, RAIN_ALONE):
        asked = {"lawn": {"grass": grass}, "seeding": {"intent": "none"}}
        plan = plan_of(place(latitude, longitude), asked, water)
        for one in plan.generated_years:
            assert 0 <= one.worked <= one.years == YEARS
        # What the grid says of rain in mountains is not counted on.
        doubtful = any(c.key.startswith("climate.rain_doubtful") for c in plan.cautions)
        if plan.conflict is None:
            assert (plan.season_years is None) == doubtful
        if plan.season_years is not None:
            assert plan.season_years.worked <= plan.season_years.years


SAMPLE = sample_plan()
SETTING = setting_plain()


def one(task: str, **changes: Any) -> Task:
    """A task of the sample plan, changed."""
    found = SAMPLE.task(task)
    assert found is not None
    return found.model_copy(update=changes)


def test_open_tasks_are_neither_past_nor_overdue_nor_repeated() -> None:
    """Each of these alone takes a task out."""
    assert _is_open(one("topdress.1"))
    assert not _is_open(one("topdress.1", status="CANCELLED"))
    assert not _is_open(one("topdress.1", closed="done"))
    assert not _is_open(one("topdress.1", overdue=True))
    watering = next(t for t in SAMPLE.tasks if t.series is not None)
    assert not _is_open(watering)


def test_a_dry_pass_spreads_in_dry_weather() -> None:
    """Not a delivery, which is no spreading, nor a fill of bare ground, whose ground is dry."""
    assert _is_dry_pass(SETTING, one("topdress.1"))
    assert not _is_dry_pass(SETTING, one("delivery.1"))
    assert not _is_dry_pass(SETTING, one("topdress.1", operation="fill"))
    assert not _is_dry_pass(SETTING, one("overseed"))


@dataclass
class Made:
    """Four made-up years: a day after 10 September is dry in all but the first, moist in two."""

    on_rain: tuple[int, int] | None = (14, 35)

    def of_day(self, index: int) -> tuple[float, ...]:
        """Rain on every day of the first year."""
        return (50.0, 0.0, 0.0, 0.0)

    def moist(self, day: date) -> list[bool]:
        """For every year."""
        return [True, True, False, True]

    def tally(self, operation: str, first: date, last: date) -> Tally:
        """In three of four."""
        return Tally(4, 3, ())


MADE: Any = Made()


def test_what_lives_on_rain_is_sown_or_planted_now() -> None:
    """Nothing where it is watered, nor seed that rests over winter."""
    seed, spread = one("overseed"), one("topdress.1")
    resting = one("overseed", roles=("sowing", "dormant", "headline"))
    plants = one("overseed", roles=("planting",))
    assert _on_rain(MADE, [seed, spread, resting, plants]) == [seed, plants]
    watered: Any = Made(None)
    assert _on_rain(watered, [seed]) == []


def working(*days: date) -> ResolvedLawn:
    """The plain lawn on which one works on these days."""
    every = DaySet.from_days([day.toordinal() for day in days])
    calendar = replace(SETTING.calendar, work=every, machines=every, household=every)
    return replace(SETTING, calendar=calendar)


def window(first: date, last: date) -> TaskWindow:
    """Days in which a task can be done."""
    return TaskWindow(start=first, end=last)


SAT = date(2027, 9, 4)
WEEK = timedelta(7)


def test_week_ends_are_told_where_one_works_on_no_other_day() -> None:
    """One Monday makes weeks of them; a window without days of work says nothing."""
    task = one("topdress.1", window=window(SAT, SAT + 2 * WEEK))
    share = of_ten(0.75)
    weekends = working(SAT, SAT + timedelta(1), SAT + WEEK)
    assert dry_weeks(weekends, MADE, task) == phrases.weekends(share=share)
    weeks = working(SAT, SAT + timedelta(2))
    assert dry_weeks(weeks, MADE, task) == phrases.weeks(share=share)
    assert dry_weeks(working(SAT + 3 * WEEK), MADE, task) is None
    assert dry_weeks(weekends, MADE, one("overseed", window=task.window)) is None


def test_passes_wait_for_dry_days_until_their_window_closes() -> None:
    """As far apart as they are planned, or as grass needs where that is less; from their day on."""
    days = [SAT + n * WEEK for n in range(8)]
    first = one("topdress.1", start=SAT, end=SAT, window=window(SAT - WEEK, SAT + WEEK))
    near = one(
        "topdress.2",
        start=SAT + 2 * WEEK,
        end=SAT + 2 * WEEK + timedelta(1),
        window=window(SAT, SAT + 4 * WEEK),
    )
    jobs = _jobs(working(*days), [near, first])
    assert jobs == [
        DryJob((SAT.toordinal(), (SAT + WEEK).toordinal()), 0, 0),
        DryJob(tuple((SAT + n * WEEK).toordinal() for n in (2, 3, 4)), 1, 14),
    ]
    far = near.model_copy(update={"start": SAT + 5 * WEEK, "end": SAT + 5 * WEEK})
    assert SETTING.pass_interval_days == 21
    assert _jobs(working(*days), [first, far])[1] == DryJob(((SAT + 5 * WEEK).toordinal(),), 0, 21)
    assert _jobs(working(), [first])[0].days == (SAT.toordinal(),)


def test_a_season_gets_through_where_all_of_it_does() -> None:
    """Dry for its pass in three years of four, moist for its seed in three: in both in two."""
    spread = one("topdress.1", start=SAT, end=SAT, window=window(SAT, SAT))
    seed = one("overseed", start=SAT, end=SAT)
    lawn = working(SAT)
    both = _season(lawn, MADE, [spread], [seed])
    assert both is not None and (both.years, both.worked, both.weather) == (4, 2, "generated")
    moist = phrases.seed_moist(day=Day(SAT), n=35)
    tally = Tally(4, 2, ((phrases.pass_done(n=1), 3), (moist, 3)))
    assert both.reason == phrases.season_generated(share=of_ten(0.5), tally=tally.message)
    percent = Number(SETTING.climate.wet_days_error * 100)
    assert both.method == phrases.how_generated(years=YEARS, percent=percent)
    alone = _season(lawn, MADE, [spread], [])
    assert alone is not None and alone.worked == 3
    assert _season(lawn, MADE, [], []) is None
    plants = one("overseed", start=SAT, end=SAT, roles=("planting",))
    planted = _season(lawn, MADE, [], [plants])
    said = phrases.plants_moist(day=Day(SAT), n=35)
    assert planted is not None and planted.reason == phrases.season_generated(
        share=of_ten(0.75), tally=Tally(4, 3, ((said, 3),)).message
    )


def test_rain_alone_is_told_of_seed_and_of_plants() -> None:
    """In three years of four."""
    share, day = of_ten(0.75), Day(SAT)
    seed = one("overseed", start=SAT)
    plants = one("overseed", start=SAT, roles=("planting",))
    assert _cautions(MADE, [seed, plants]) == (
        phrases.seed_on_rain(share=share, day=day),
        phrases.plants_on_rain(share=share, day=day),
    )


def test_each_task_is_told_in_order_of_its_day() -> None:
    """With its weeks where it is a dry pass."""
    spread = one("topdress.1", start=SAT + WEEK, window=window(SAT, SAT + WEEK))
    seed = one("overseed", start=SAT)
    found = _each(working(SAT), MADE, [spread, seed])
    assert [(f.task, f.years, f.worked) for f in found] == [
        ("overseed", 4, 3),
        ("topdress.1", 4, 3),
    ]
    told = phrases.generated(tally=Tally(4, 3, ()).message)
    assert found[0].reason == told
    assert found[1].reason == sentences(told, phrases.weekends(share=of_ten(0.75)))
