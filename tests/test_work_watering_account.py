"""The books of water: its days, and how they are cut into weeks and months."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

import water_cases as cases
from turfplan.work.watering.account import (
    YOUNG,
    DayBooks,
    _months_of,
    account,
    ledger_of,
    weeks_of,
)
from turfplan.work.watering.request import ground_of
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
