"""What the watering of a season depends on: its days, its supply, its roots and weather."""

from dataclasses import replace
from datetime import date, time, timedelta
from typing import Any

import pytest

import water_cases as cases
from turfplan.climate.evapotranspiration import extraterrestrial_mj_m2, hargreaves_mm
from turfplan.message import as_written
from turfplan.work.watering.balance import crop_coefficients
from turfplan.work.watering.request import (
    KnownSeries,
    WeatherDay,
    ground_of,
    roots_of,
    weather_day,
)
from turfplan.work.watering.run_times import Hose, WateringZone

BOOK, COOL = cases.book(), cases.cool_climate()
START = date(2027, 3, 1)


def after(days: int) -> date:
    """So many days after the first of March."""
    return START + timedelta(days)


def asked(**changes: Any) -> Any:
    """A request from the first of March on."""
    return cases.request(BOOK, COOL, **changes)


def test_a_day_of_weather_has_evapotranspiration_where_both_extremes_are_known() -> None:
    """By Hargreaves, of its day of the year."""
    day = date(2027, 7, 5)
    whole = weather_day(day, 40.0, rain_mm=3.0, min_c=12.0, max_c=28.0)
    wanted = hargreaves_mm(12.0, 28.0, extraterrestrial_mj_m2(40.0, 186))
    assert whole == WeatherDay(3.0, wanted) and wanted > 3
    assert weather_day(day, 40.0, rain_mm=3.0, min_c=12.0) == WeatherDay(3.0)
    assert weather_day(day, 40.0, max_c=28.0) == WeatherDay()


def test_a_series_of_an_older_calendar_runs_once_in_one_place() -> None:
    """Where it says nothing else."""
    old = KnownSeries(START, START, time(6), 10, (), ())
    assert (old.settings, old.cycles, old.soak_min) == (1, 1, 0)


def test_the_account_begins_with_the_first_work_before_its_start() -> None:
    """Seed, plants, turf laid back, passes, and each of their strips."""
    assert asked().first_day == START
    assert asked(seeded_on=after(5)).first_day == START
    for name in ("seeded_on", "planted_on", "relaid_on"):
        assert asked(**{name: after(-5)}).first_day == after(-5)
    assert asked(passes=(after(3), after(-4))).first_day == after(-4)
    assert asked(strips={after(3): (after(-6), after(3))}).first_day == after(-6)
    for name in ("sown_strips", "planted_strips", "relaid_strips"):
        assert asked(**{name: (after(-7), after(2))}).first_day == after(-7)


def test_work_has_its_strips_and_seed_wakes_all_at_once() -> None:
    """One day where none are told."""
    strips = (after(1), after(2))
    request = asked(strips={after(2): strips}, sown_strips=strips)
    assert (request.days_of(after(2)), request.days_of(after(3))) == (strips, (after(3),))
    assert request.sown_days(after(2)) == strips
    assert asked().sown_days(after(2)) == (after(2),)
    assert asked(sown_strips=strips, wakes_on=after(9)).sown_days(after(9)) == (after(9),)
    assert request.sown_share == 1.0 and request.slope_percent == 0.0


def test_seed_is_moist_from_its_sowing_or_its_waking_and_up_by_the_late_end() -> None:
    """The day of sowing is the first of its days; as seen, where it was."""
    assert asked().moist_from is None and asked(wakes_on=after(9)).moist_from is None
    assert asked(seeded_on=START).moist_from == START
    assert asked(seeded_on=START, wakes_on=after(9)).moist_from == after(9)
    assert asked(germination_days=21).up_on(START) == after(20)
    assert asked(germinated_on=after(8)).up_on(START) == after(8)


def test_days_away_are_closed_to_water_that_somebody_turns_on() -> None:
    """A timer waters them; what the brief bans is banned besides."""
    away = ((after(2), after(4)),)
    ban = [{"from": after(9), "to": after(9)}]

    def open_days(**water: Any) -> list[int]:
        given = cases.brief(water={"possible": True, "banned": ban, **water})
        law = cases.request(BOOK, COOL, given, away=away).law
        return [n for n in range(11) if not law.open(after(n))]

    assert open_days(timer=False) == [2, 3, 4, 9]
    assert open_days(timer=True) == [9]
    assert [n for n in range(11) if not asked().law.open(after(n))] == []


def test_a_zone_beyond_the_supply_is_watered_in_parts() -> None:
    """30 mm/h on 100 m2 take 50 L/min: two parts of 25, three of 24.9; a hose is one."""
    zone = WateringZone(None, as_written("lawn"), 100.0, 30.0)

    def parts(flow: str) -> int:
        given = cases.brief(water={"flow": flow, "application_rate": "30 mm/h"})
        return int(cases.request(BOOK, COOL, given).parts_of(zone))

    found = [parts(f"{n} L/min") for n in (25, 24.9, 50, 49.9, 100)]
    assert found == [2, 3, 1, 2, 1]
    assert asked().supply_l_min == BOOK.fact("water.tap_flow").high_si
    by_hose = replace(zone, hose=Hose(20.0, 10.0, 5.0, 1.0, None))
    assert asked().parts_of(by_hose) == 1


def numbered(**changes: Any) -> Any:
    """A ground whose evapotranspiration, usable and whole rain count the days."""
    ground = ground_of(asked(**changes))
    days = [float(n) for n in range(len(ground.et0_mm))]
    return replace(
        ground,
        et0_mm=tuple(days),
        usable_rain_mm=tuple(2 * n for n in days),
        rain_mm=tuple(3 * n for n in days),
    )


def test_means_are_those_of_the_days_from_first_to_last() -> None:
    """Days 3 to 6 are 4.5 in the mean; one day is itself."""
    ground = numbered()
    assert ground.at(after(3)) == 3
    span = after(3), after(6)
    means = ground.mean_et0_mm(*span), ground.mean_rain_mm(*span), ground.mean_whole_rain_mm(*span)
    assert means == (4.5, 9.0, 13.5)
    assert ground.mean_et0_mm(after(5), after(5)) == 5


def test_grass_uses_water_by_its_month_its_youth_or_its_wet_surface() -> None:
    """A wet surface goes before a young stand."""
    ground = replace(numbered(), kc=tuple(n / 10 for n in range(1, 13)), kc_wet=1.2, kc_young=1.1)
    day = after(40)  # in April
    assert ground.crop_et_mm(day, seedling=False, wet=False) == pytest.approx(0.4 * 40)
    assert ground.crop_et_mm(day, seedling=True, wet=False) == pytest.approx(1.1 * 40)
    assert ground.crop_et_mm(day, seedling=True, wet=True) == pytest.approx(1.2 * 40)
    assert ground.crop_et_mm(day, seedling=False, wet=True) == pytest.approx(1.2 * 40)


def test_ground_is_frozen_from_nothing_down() -> None:
    """By the soil at 5 cm."""

    def all_of(climate: Any) -> bool:
        return bool(ground_of(cases.request(BOOK, climate)).frozen(START))

    assert [all_of(replace(COOL, soil_5cm_c=(t,) * 365)) for t in (-1.0, 0.0, 0.1, 0.9)] == [
        True,
        True,
        False,
        False,
    ]


def roots(day: int, **changes: Any) -> float:
    """How deep roots are watered for; seed is up on the third day, and they grow 3 mm a day."""
    ground = ground_of(asked(**{"germination_days": 3, **changes}))
    assert (ground.seed_root_mm, ground.root_growth_mm_day, ground.root_mm) == (25.4, 3.0, 203.2)
    return float(ground.root_depth_mm(after(day)))


def test_roots_of_seed_deepen_from_the_day_it_is_up() -> None:
    """Before it is sown they are those of the lawn; with strips from the first of them."""
    found = [roots(n, seeded_on=after(10)) for n in (9, 10, 12, 13, 14, 400)]
    assert found == pytest.approx([203.2, 25.4, 25.4, 28.4, 31.4, 203.2])
    strips = (after(8), after(10))
    assert [roots(n, seeded_on=after(10), sown_strips=strips) for n in (7, 8)] == [203.2, 25.4]
    assert roots(5) == 203.2
    # 59 days are 177 mm: the last of the 177.8 mm come with the sixtieth.
    assert roots(12 + 59, seeded_on=after(10)) == pytest.approx(202.4)
    assert roots(12 + 60, seeded_on=after(10)) == 203.2


def test_roots_of_plants_deepen_from_the_day_of_planting() -> None:
    """Of seed and plants the later ones count, plants where both go in on one day."""
    assert [roots(n, planted_on=after(10)) for n in (9, 10, 11)] == pytest.approx(
        [203.2, 25.4, 28.4]
    )
    both = {"seeded_on": after(10), "planted_on": after(10)}
    assert roots(11, **both) == pytest.approx(28.4)
    earlier = {"seeded_on": after(10), "planted_on": after(2)}
    assert roots(12, **earlier) == 25.4 and roots(13, **earlier) == pytest.approx(28.4)
    later = {"seeded_on": after(2), "planted_on": after(10)}
    assert roots(9, **later) == pytest.approx(25.4 + 15) and roots(10, **later) == 25.4


def test_roots_end_at_rock() -> None:
    """Or where the book says."""
    assert roots_of(BOOK, None) == roots_of(BOOK, 500.0) == BOOK.si("water.root_depth")
    assert roots_of(BOOK, 120.0) == 120.0
    assert ground_of(asked(rock_depth_mm=120.0)).root_mm == 120.0


def test_grass_grows_from_a_share_of_its_best_and_a_second_one_by_itself() -> None:
    """At it, too."""
    ground = ground_of(asked(season="warm"))
    day = date(2027, 4, 25)
    warm, cool = (COOL.growth_potential(day, season) for season in ("warm", "cool"))
    assert warm < cool
    assert ground.growing(day, warm) and not ground.growing(day, warm + 1e-6)
    rye = ground_of(asked(season="warm", sown_season="cool"))
    assert rye.growing(day, cool) and not rye.growing(day, cool + 1e-6)


def test_known_weather_stands_in_place_of_the_usual() -> None:
    """On the days of the account, which goes on for a week after its end."""
    known = {after(n): WeatherDay(et0_mm=99.0) for n in (-1, 0, 9, 16, 17)}
    known[after(4)] = WeatherDay(rain_mm=9.0)
    ground = ground_of(asked(weather=known, end=after(9)))
    assert len(ground.et0_mm) == len(ground.rain_mm) == len(ground.usable_rain_mm) == 17
    assert [n for n, et0 in enumerate(ground.et0_mm) if et0 == 99.0] == [0, 9, 16]
    assert ground.rain_mm[4] == COOL.rain_mm[63]
    assert ground.et0_mm[4] == COOL.et0_mm[63]


def test_coefficients_are_monthly_where_they_are_asked_for_and_in_california() -> None:
    """Else one for the year."""
    monthly, whole = (crop_coefficients(BOOK, "cool", monthly=each) for each in (True, False))
    assert ground_of(asked()).kc == whole
    assert ground_of(asked(monthly_kc=True)).kc == monthly
    assert ground_of(asked(climate=replace(COOL, state="CA"))).kc == monthly
    assert ground_of(asked(climate=replace(COOL, state="PA"))).kc == whole


@pytest.mark.parametrize(
    ("water", "spans"),
    [
        ({"timer": False}, ((300, 1320),)),
        (
            {"timer": False, "allowed_hours": ["18:00-24:00", "00:00-06:00"]},
            ((300, 360), (1080, 1320)),
        ),
        ({"timer": False, "allowed_hours": ["22:30-04:00"]}, ((0, 240), (1350, 1440))),
        ({"timer": True, "allowed_hours": ["22:30-04:00"]}, ((0, 240), (1350, 1440))),
        ({"timer": True}, ((0, 1440),)),
    ],
)
def test_nobody_gets_up_at_night_for_a_tap(
    water: dict[str, Any], spans: tuple[tuple[int, int], ...]
) -> None:
    """By hand water runs from five to ten in the evening; the law's night where it leaves no other
    hours, and any hour by a timer."""
    the_brief = cases.brief(water={"possible": True, **water})
    assert asked(the_brief=the_brief).law.spans == spans
