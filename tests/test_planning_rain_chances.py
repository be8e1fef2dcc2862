"""How often rain lets a plan through: by generated years, marked as such, or by real ones."""

from dataclasses import replace

import pytest

from planning import TODAY, brief_of, climate_at, made_plan, plan_of
from test_work_real_years import climate_of, series_of, years_of
from turfplan.climate.weather_generator import YEARS
from turfplan.files.reading.book import load_book
from turfplan.records.plan import Plan

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


def test_the_same_plan_has_the_same_counts() -> None:
    """The lots belong to the place: another run, and a pin a few metres off, count alike."""
    here, there = (plan_of(place(40.04, east)) for east in (-76.3, -76.3001))
    again = plan_of(place(40.04, -76.3))
    assert here.generated_years == again.generated_years
    assert here.season_years == again.season_years
    counts = [[one.worked for one in plan.generated_years] for plan in (here, there)]
    assert counts[0] == counts[1]


def test_wetter_places_let_fewer_seasons_through() -> None:
    """Dry days are rarer on Norway's coast than in Arizona."""

    def dry(plan: Plan) -> float:
        return min(one.worked / one.years for one in plan.generated_years)

    assert dry(plan_of(place(33.4, -112.0), {"seeding": {"intent": "none"}})) > dry(plan_of(place(60.4, 5.4))) + 0.3


def test_work_on_other_days_counts_weeks() -> None:
    """Who works in the week is told of weeks."""
    plan = plan_of({"calendar": {"weekdays": ["wed", "thu"]}})
    assert all("Of the weeks in its window " in str(one.reason) for one in plan.generated_years)


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


def test_nothing_is_counted_where_rain_decides_nothing() -> None:
    """Without a pass, and with water for the seed, there is no season to ask about."""
    plan = plan_of({"leveling": {"depth": "0 in"}})
    assert any(task.plays("sowing") for task in plan.tasks)
    assert plan.season_years is None
    assert not plan.generated_years


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
        if plan.conflict is None:
            assert plan.season_years is not None
            assert plan.season_years.worked <= plan.season_years.years
