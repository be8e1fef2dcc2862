"""The books of water: its days, and how they are cut into weeks and months."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

import water_cases as cases
from told import told
from turfplan.message import Month, Quantity
from turfplan.phrases import watering as phrases
from turfplan.work.watering.account import (
    YOUNG,
    DayBooks,
    _months_of,
    _track,
    _waits,
    account,
    ledger_of,
    mature_notes,
    weeks_of,
)
from turfplan.work.watering.balance import SoilWater
from turfplan.work.watering.request import WateredGround, WeatherDay, ground_of
from turfplan.work.watering.run_times import Hose, run_time
from turfplan.work.watering.stages import Stage

BOOK, COOL = cases.book(), cases.cool_climate()
FIRST = date(2027, 3, 1)
SPANS = [(FIRST + timedelta(begin), days) for begin in range(8) for days in (1, 6, 7, 8, 27, 75)]


@pytest.mark.parametrize(("first", "days"), SPANS)
def test_weeks_begin_on_monday_and_months_on_their_first(first: date, days: int) -> None:
    """Each day of the account lies in one week and one month; a part begins where the day before
    lies in another one, by the calendar.
    """
    each = [first + timedelta(n) for n in range(days)]
    weeks = weeks_of(first, days)
    assert [n for start, stop in weeks for n in range(start, stop)] == list(range(days))
    assert [start for start, _ in weeks] == [
        n for n, day in enumerate(each) if n == 0 or day.weekday() == 0
    ]
    months = _months_of(first, days)
    assert [n for _, start, stop in months for n in range(start, stop)] == list(range(days))
    assert [(month, start) for month, start, _ in months] == [
        (day.replace(day=1), n) for n, day in enumerate(each) if n == 0 or day.day == 1
    ]


def test_a_week_of_the_ledger_sums_its_own_days() -> None:
    """Ten days from a Wednesday: five to Sunday, and five of the week after; what leaves is
    negative, the balance is what was missing on the last night.
    """
    first, numbers = date(2027, 3, 3), [float(n) for n in range(10)]
    books = DayBooks(
        first, numbers, [1.0] * 10, [0.0] * 10, [2.0] * 10, [0.5] * 10, numbers, [True] * 10
    )
    weeks = ledger_of(books, ()).weeks
    assert [(week.start, week.end) for week in weeks] == [
        (date(2027, 3, 3), date(2027, 3, 7)),
        (date(2027, 3, 8), date(2027, 3, 12)),
    ]
    assert [dict(week.entries) for week in weeks] == [
        {"rain": 10, "watering": 5, "rooted": 0, "evapotranspiration": -10, "lost": -2.5},
        {"rain": 35, "watering": 5, "rooted": 0, "evapotranspiration": -10, "lost": -2.5},
    ]
    assert [week.balance for week in weeks] == [-4, -9]


def test_rooted_grass_gets_more_where_sprinklers_are_uneven() -> None:
    """The same dry day comes, and is watered by what was missing, over the evenness of the zones by
    their area.
    """
    request = cases.request(BOOK, COOL)
    (zone,) = request.zones

    def first_water(*zones: tuple[float, float]) -> tuple[int, float]:
        parts = tuple(
            replace(zone, uniformity=evenness, area_m2=zone.area_m2 * share)
            for evenness, share in zones
        )
        books = account(ground_of(replace(request, zones=parts)), (), {})
        return next((n, mm) for n, mm in enumerate(books.rooted_mm) if mm > 0)

    day, even_mm = first_water((1.0, 1.0))
    assert even_mm > 1
    assert first_water((0.5, 1.0)) == (day, pytest.approx(2 * even_mm))
    assert first_water((0.8, 0.25), (0.4, 0.75)) == (day, pytest.approx(2 * even_mm))


@pytest.mark.parametrize("name", YOUNG)
def test_a_young_stand_uses_water_by_its_own_coefficient(name: str) -> None:
    """With all the water it could want: that of a wet surface while it is kept moist, then that of
    a young stand; the day before and after are those of rooted grass.
    """
    ground = ground_of(cases.request(BOOK, COOL))
    start, end = date(2027, 6, 10), date(2027, 6, 20)
    stage = Stage(name, start, end)  # type: ignore[arg-type]
    wet = {start + timedelta(n): 20.0 for n in range(-2, 14)}
    books = account(ground, [stage], wet)
    wet_surface = name in ("soak", "soak_plants", "germination")
    young = BOOK.si("water.kc_wet_surface" if wet_surface else "water.kc_cool_initial")
    for day in (start, date(2027, 6, 15), end):
        number = ground.at(day)
        assert books.et_mm[number] == pytest.approx(young * ground.et0_mm[number])
        assert not books.mature[number]
    for day in (start - timedelta(1), end + timedelta(1)):
        number = ground.at(day)
        assert books.et_mm[number] == pytest.approx(ground.kc[5] * ground.et0_mm[number])
        assert books.mature[number]


def test_grass_over_winter_uses_water_as_rye_and_relaid_turf_as_the_lawn() -> None:
    """A second grass has a coefficient of its own; a lifted part of a lawn changes nothing."""
    ground = ground_of(cases.request(BOOK, COOL))
    start, end = date(2027, 6, 10), date(2027, 6, 20)
    wet = {start + timedelta(n): 20.0 for n in range(-2, 14)}
    number = ground.at(start)
    winter = account(ground, [Stage("winter", start, end)], wet)
    assert winter.et_mm[number] == pytest.approx(BOOK.si("water.rye_kc") * ground.et0_mm[number])
    assert account(ground, [Stage("relaid", start, end)], wet) == account(ground, [], wet)


JUNE, LAST = date(2027, 6, 1), date(2027, 6, 30)


def june(et0_mm: float = 5.0, rain_mm: float = 0.0, **changes: Any) -> WateredGround:
    """June alone, on ground that holds 25 mm and gives 10 of them at 5 mm a day, under sprinklers
    that wet it evenly.
    """
    request = cases.request(BOOK, COOL)
    zones = tuple(replace(zone, uniformity=1.0) for zone in request.zones)
    given = {"start": JUNE, "end": LAST, "zones": zones, **changes}
    ground = cases.even_ground(et0_mm, rain_mm, **given)
    return replace(ground, soil=SoilWater("loam", 125.0, 0.4), root_mm=200.0)


def watered(ground: WateredGround, *plan: Stage) -> dict[int, float]:
    """What rooted grass gets, by number of the day."""
    books = account(ground, plan, {})
    return {n: mm for n, mm in enumerate(books.rooted_mm) if mm}


def test_rooted_grass_is_watered_when_the_next_day_would_pass_what_it_can_use() -> None:
    """5 mm a day of 10 mm: what was used in two days comes on the third, and so on.

    The books begin with full ground.
    """
    books = account(june(), (), {})
    assert len(books.rooted_mm) == 30
    assert list(books.rooted_mm[:7]) == [0, 0, 10, 0, 10, 0, 10]
    assert list(books.missing_mm[:7]) == [5, 10, 5, 10, 5, 10, 5]
    assert list(books.et_mm) == [5.0] * 30
    assert books.mature_watering_mm() == 140
    assert set(books.lost_mm) == set(books.rain_mm) == set(books.watering_mm) == {0.0}
    # Rain leaves three of the five to be watered: 9 mm and the three to come are more than ten.
    assert watered(june(5.0, 2.0)) == dict.fromkeys(range(3, 30, 3), 9)


@pytest.mark.parametrize("evenness", [0.5, 0.7, 1.0])
def test_where_least_falls_rooted_grass_gets_what_it_uses(evenness: float) -> None:
    """What an uneven sprinkler puts down beyond the driest quarter's share is lost, and pays no
    use: by the month the grass is given its use over the evenness.
    """
    even = june()
    zones = tuple(replace(zone, uniformity=evenness) for zone in even.request.zones)
    uneven = replace(even, request=replace(even.request, zones=zones))
    books, alike = account(uneven, (), {}), account(even, (), {})
    assert list(books.rooted_mm) == pytest.approx([mm / evenness for mm in alike.rooted_mm])
    assert list(books.missing_mm) == pytest.approx(list(alike.missing_mm))
    spilt = [mm * (1 - evenness) for mm in books.rooted_mm]
    assert list(books.lost_mm) == pytest.approx(spilt)


def test_less_than_the_least_run_is_not_watered() -> None:
    """On ground that gives 1.1 mm: not for 1.27 mm, which is the least, but for any more."""
    least = BOOK.si("water.least_run")
    thin = replace(june(least), soil=SoilWater("sand", 10.0, 0.4))
    assert min(watered(thin)) == 2


def test_grass_that_may_be_watered_once_a_week_is_watered_for_the_whole_of_it() -> None:
    """On Mondays, of which the first is the seventh day, when 6 mm and the week's 7 are more than
    the ground gives; else on the next.
    """
    mondays = cases.brief(water={"possible": True, "allowed_weekdays": ["mon"]})
    ground = june(1.0, the_brief=mondays)
    # At 1 mm a day 0.56 of what it holds is given.
    assert watered(replace(ground, soil=SoilWater("loam", 5 * 12.9 / 0.56, 0.4))) == {
        6: 6,
        13: 7,
        20: 7,
        27: 7,
    }
    assert watered(replace(ground, soil=SoilWater("loam", 5 * 13.1 / 0.56, 0.4))) == {
        13: 13,
        20: 7,
        27: 7,
    }


def test_ground_without_grass_dries_by_what_wets_it_alone() -> None:
    """From the day it is open to the day before it is sown or planted: nothing draws on the soil.

    It is no rooted grass; nor is what grows there later, where that is a stage.
    """
    ground = june(5.0, 1.0, open_from=date(2027, 6, 3), planted_on=date(2027, 6, 7))
    books = account(ground, (), {date(2027, 6, 4): 3.0, date(2027, 6, 5): 9.0})
    assert list(books.et_mm[:6]) == [5, 5, 1, 4, 5, 1]
    assert list(books.mature[:8]) == [True, True, False, False, False, False, True, True]
    late = account(june(open_from=date(2027, 5, 20)), (), {})
    assert not any(late.mature) and set(late.et_mm) == {0.0}
    assert all(account(june(open_from=date(2027, 7, 1)), (), {}).mature)
    before = june(open_from=date(2027, 6, 2), seeded_on=date(2027, 6, 3))
    assert [n for n, old in enumerate(account(before, (), {}).mature) if not old] == [1]


def test_water_of_stages_counts_on_its_days_alone() -> None:
    """From the first day of the account to the last."""
    days = {JUNE - timedelta(1): 1.0, JUNE: 2.0, LAST: 3.0, LAST + timedelta(1): 4.0}
    books = account(june(), (), days)
    given = {n: mm for n, mm in enumerate(books.watering_mm) if mm}
    assert given == {0: 2.0, 29: 3.0}
    assert books.lost_mm[0] == 0 and books.missing_mm[0] == 3


def test_rain_that_grass_cannot_use_is_lost_and_counted() -> None:
    """Of 3 mm of normal rain 1 mm reaches the roots."""
    ground = june(5.0, 1.0)
    books = account(replace(ground, rain_mm=(3.0,) * len(ground.rain_mm)), (), {})
    assert set(books.rain_mm) == {3.0} and set(books.lost_mm) == {2.0}
    assert books.missing_mm[0] == 4
    more = account(replace(ground, rain_mm=(0.5,) * len(ground.rain_mm)), (), {})
    assert set(more.lost_mm) == {0.0}


def test_known_rain_stands_for_the_usual_and_a_light_one_dries_on_the_leaves() -> None:
    """A fifth of the day's evapotranspiration is light; days outside the account are none of it."""
    assert BOOK.si("water.light_rain_share") == 0.2
    known = {
        JUNE - timedelta(1): WeatherDay(rain_mm=50.0),
        JUNE: WeatherDay(rain_mm=1.0),
        date(2027, 6, 2): WeatherDay(rain_mm=1.5),
        date(2027, 6, 3): WeatherDay(et0_mm=5.0),
        LAST: WeatherDay(rain_mm=40.0),
        LAST + timedelta(1): WeatherDay(rain_mm=60.0),
    }
    books = account(june(5.0, 2.0, weather=known), (), {})
    assert [*books.rain_mm[:4], books.rain_mm[-1]] == [1.0, 1.5, 2.0, 2.0, 40.0]
    assert list(books.lost_mm[:4]) == [1.0, 0, 0, 0]
    assert list(books.missing_mm[:3]) == [5.0, 8.5, 11.5 - books.rooted_mm[2]]


def test_young_roots_have_less_of_the_ground_until_they_reach_its_end() -> None:
    """An inch of loam under seed; what was missing deeper stays missing there."""
    ground = june(5.0, planted_on=JUNE, end=date(2027, 8, 31))
    track = _track(ground, ())
    growth = BOOK.si("water.root_growth")
    assert track.root_mm[:2] == pytest.approx([25.4, 25.4 + growth])
    grown = -(-(200.0 - 25.4) // growth)
    assert track.root_mm.index(200.0) == grown and set(track.root_mm[int(grown) :]) == {200.0}
    assert set(_track(june(), ()).root_mm) == {200.0}
    late = _track(june(planted_on=date(2027, 6, 11)), ()).root_mm
    assert (late[9], late[10]) == (200.0, 25.4)
    seeded = june(seeded_on=JUNE, germination_days=3)
    first = [25.4] * 3 + [25.4 + growth]
    assert _track(seeded, ()).root_mm[:4] == pytest.approx(first)
    # 0.4 of an inch's 3.2 mm are given freely; the fifth is all it holds, and less is used.
    dry = account(june(5.0, the_brief=DRY, planted_on=JUNE), (), {})
    assert dry.et_mm[0] == pytest.approx(3.175) and dry.missing_mm[0] == pytest.approx(3.175)


DRY = cases.brief(water={"possible": False})


def test_rooted_grass_waits_for_the_next_lawful_day_where_it_grows_and_is_rooted() -> None:
    """From each day to the next one that is open, fifteen days at the most; 0 where it is not
    watered at all.
    """

    def waits(first: int, last: int, *, mature: Any = (True,) * 30) -> list[int]:
        ban = {"from": JUNE + timedelta(first - 1), "to": JUNE + timedelta(last - 1)}
        closed = cases.brief(water={"possible": True, "banned": [ban]})
        return _waits(june(the_brief=closed), mature)

    assert waits(3, 5) == [1, 4, 0, 0, 0, *[1] * 25]
    assert waits(6, 18)[:6] == [1, 1, 1, 1, 14, 0]
    assert waits(6, 19)[4] == waits(6, 20)[4] == waits(6, 25)[4] == 15
    assert waits(31, 40)[28:] == [1, 11]
    young = [n != 7 for n in range(30)]
    assert waits(3, 5, mature=young)[6:9] == [1, 0, 1]
    assert _waits(june(the_brief=DRY), (True,) * 30) == [0] * 30


def test_grass_that_rests_is_not_watered_but_a_second_one_that_grows_is() -> None:
    """Cool grass of a cold December rests; warm grass of a mild place does, and rye in it grows."""
    winter = {"start": date(2027, 12, 10), "end": date(2027, 12, 14)}
    assert _waits(june(**winter), (True,) * 5) == [0] * 5
    mild = ground_of(cases.request(BOOK, cases.warm_climate(), season="warm", **winter))
    rye = replace(mild, request=replace(mild.request, sown_season="cool"))
    assert (_waits(mild, (True,) * 5), _waits(rye, (True,) * 5)) == ([0] * 5, [1] * 5)


def test_each_column_of_the_ledger_is_summed_by_itself() -> None:
    """Three days of one week, to thousandths; nothing that left is a plain 0."""
    columns = ([1.0004] * 3, [2.0] * 3, [4.0] * 3, [8.0] * 3, [0.0] * 3, [0.0, 0.0, 16.0])
    (week,) = ledger_of(DayBooks(date(2027, 6, 7), *columns, [True] * 3), ()).weeks
    assert dict(week.entries) == {
        "rain": 3.001,
        "watering": 6,
        "rooted": 12,
        "evapotranspiration": -24,
        "lost": 0,
    }
    assert (week.balance, week.end) == (-16, date(2027, 6, 9))


def advice(
    runs: dict[int, float], ground: WateredGround | None = None, *, days: int = 30, old: int = 99
) -> list[tuple[str, dict[str, Any]]]:
    """What is said of days from the first of June, of which some are watered and `old` are those
    of rooted grass; under two zones that come to 15 mm/h.
    """
    zone = cases.request(BOOK, COOL).zones[0]
    zones = (
        replace(zone, area_m2=100.0, rate_mm_h=30.0),
        replace(zone, area_m2=300.0, rate_mm_h=10.0),
    )
    ground = ground or june(zones=zones)
    rooted = [runs.get(n, 0.0) for n in range(days)]
    none = [0.0] * days
    mature = [n < old for n in range(days)]
    books = DayBooks(JUNE, none, none, rooted, none, none, none, mature)
    return [(note.key, dict(note.values)) for note in mature_notes(ground, books)]


def test_a_month_is_told_how_much_a_week_how_often_and_how_long() -> None:
    """10 mm every third day: 23.3 mm a week, 40 minutes at the zones' mean of 15 mm/h."""
    ((key, values),) = advice(dict.fromkeys(range(0, 30, 3), 10.0))
    weekly = values.pop("weekly")
    assert key == phrases.rooted_minutes(month=Month(6), weekly=weekly, minutes=40, n=3).key
    assert (values, weekly.value) == (
        {"month": Month(6), "minutes": 40, "n": 3},
        pytest.approx(100 / 30 * 7),
    )
    ((_, daily),) = advice(dict.fromkeys(range(30), 1.0))
    assert (daily["n"], daily["minutes"]) == (1, 4)


def test_runs_of_more_than_three_hours_are_told_in_hours() -> None:
    """45 mm at 15 mm/h are three; a quarter of a millimetre more is a minute more."""
    ((_, values),) = advice({3: 45.0, 23: 45.0})
    assert values["minutes"] == 180
    ((key, values),) = advice({3: 45.25, 23: 45.25})
    assert key == "watering.rooted.hours" and values["hours"].value == pytest.approx(181 / 60)


def test_a_month_with_hardly_a_week_or_a_run_of_rooted_grass_says_nothing() -> None:
    """Seven days are enough; one run in three weeks is, in a day more it is not; days outside it
    do not count.
    """
    assert len(advice({2: 10.0}, old=7)) == 1 and advice({2: 10.0}, old=6) == []
    assert len(advice({2: 10.0}, old=21)) == 1 and advice({2: 10.0}, old=22) == []
    assert advice({25: 10.0}, old=21) == [] and advice({}) == []


def test_each_month_is_told_once() -> None:
    """A year on, June is as it was; July follows it."""
    every = dict.fromkeys(range(0, 400, 4), 10.0)
    months = [values["month"].number for _, values in advice(every, days=400, old=400)]
    assert months == [6, 7, 8, 9, 10, 11, 12, 1, 2, 3, 4, 5]


def test_a_slow_ground_is_told_its_cycles_and_a_hose_its_places() -> None:
    """10 mm at 30 mm/h on ground that takes 6 mm/h: twenty minutes in cycles of six."""
    zone = replace(cases.request(BOOK, COOL).zones[0], area_m2=100.0, rate_mm_h=30.0)
    slow = june(zones=(zone,))
    slow = replace(slow, intake=replace(slow.intake, rate_mm_h=6.0, storage_mm=2.5, most_cycles=1))
    ((key, values),) = advice(dict.fromkeys(range(0, 30, 3), 10.0), slow)
    _, parted = values["items"].items if "items" in values else next(iter(values.values())).items
    run = run_time(
        10.0, replace(zone, uniformity=1.0), intake_mm_h=6.0, storage_mm=2.5, soak_min=40
    )
    assert run.cycles == 4 and dict(parted.values) == {
        "minutes": run.cycle_min,
        "pause": run.soak_min,
    }
    moved = replace(zone, hose=Hose(20.0, 40.0, 10.0, 4.0, None))
    ((key, values),) = advice(dict.fromkeys(range(0, 30, 3), 5.0), june(zones=(zone, moved)))
    assert key == "watering.rooted.settings" and values["settings"] == 3


def test_water_of_every_day_is_told_so() -> None:
    """Never \"every 1 days\"."""
    weekly = Quantity(30.0, "rain")
    told_daily = told(phrases.rooted_minutes(month=Month(6), weekly=weekly, minutes=18, n=1))
    assert "every day" in told_daily and "1 day" not in told_daily
    assert "every 3 days" in told(
        phrases.rooted_minutes(month=Month(6), weekly=weekly, minutes=18, n=3)
    )
