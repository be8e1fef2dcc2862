"""On which day a condition that opens or closes a window is met."""

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

import water_cases as cases
from turfplan.climate.record import Frost
from turfplan.records.book_names import NamedFact
from turfplan.work.growing_year import GrowingYear
from turfplan.work.window_conditions import (
    _degree_days_left,
    _event,
    _frost_day,
    _frost_ends,
    met_on,
)
from turfplan.work.window_reasons import turned

BOOK, COOL = cases.book(), cases.cool_climate()
COLDEST, HOTTEST = 10, 192


def year(**changes: Any) -> GrowingYear:
    """A growing year of the cool place, with other curves."""
    return GrowingYear(replace(COOL, **changes), BOOK, "tall_fescue", COLDEST, HOTTEST)


def frost(median: int) -> Frost:
    """A frost by its place in the year."""
    return Frost(median, median - 10, median + 10, 7)


def test_frost_days_are_counted_from_the_median_of_their_half_of_the_year() -> None:
    """So many after the last or the first one, or before the first; none where none comes."""
    of = year(last_frost=frost(120), first_frost=frost(290))
    found = [
        _frost_day(of, kind, 14) for kind in ("last_frost", "first_frost", "before_first_frost")
    ]
    assert found == [134, 304, 276]
    wrapped = year(last_frost=frost(5), first_frost=frost(20))
    assert _frost_day(wrapped, "last_frost", 0) == 370
    assert _frost_day(wrapped, "first_frost", 0) == 385
    none = year(last_frost=None, first_frost=frost(290))
    assert _frost_day(none, "last_frost", 14) is None
    assert _frost_day(of, "first_frost", -14) == 276


def test_degree_days_are_left_until_the_frost_or_the_next_winter() -> None:
    """The last day on which so many are still to come; none where there never are."""
    of = year(air_mean_c=(15.0,) * 365, first_frost=frost(290))
    assert _degree_days_left(of, 50.0, 10.0, 290) == 280
    assert _degree_days_left(of, 50.1, 10.0, 290) == 279
    assert _degree_days_left(of, 5.0 * (290 - COLDEST - 1), 10.0, 290) == COLDEST + 1
    assert _degree_days_left(of, 5.0 * (290 - COLDEST), 10.0, 290) is None
    assert _degree_days_left(of, 1.0, 15.0, 290) is None


@pytest.mark.parametrize(
    ("fall_c", "first", "killing", "ends"),
    [
        (0.1, frost(290), None, 290),
        # 28 F lies 2.2 C below freezing: so far the nights have still to fall.
        (0.1, frost(290), NamedFact("windows.killing_frost"), 290 + 23),
        (0.05, frost(290), NamedFact("windows.killing_frost"), 290 + 45),
        # Over the turn of the year.
        (0.1, frost(20), NamedFact("windows.killing_frost"), max(COLDEST + 365, 20 + 365)),
        (0.0, frost(290), NamedFact("windows.killing_frost"), COLDEST + 365),
        (0.1, None, NamedFact("windows.killing_frost"), COLDEST + 365),
        (0.1, None, None, COLDEST + 365),
    ],
)
def test_degree_days_end_with_the_first_frost_or_the_one_that_kills(
    fall_c: float, first: Frost | None, killing: NamedFact | None, ends: int
) -> None:
    """Nights that fall slowly kill later; where they never do the depth of winter ends all."""
    nights = tuple(30.0 - fall_c * day for day in range(365))
    of = year(air_min_c=nights, first_frost=first)
    condition: Any = SimpleNamespace(killing=killing)
    assert _frost_ends(of, condition) == ends


# The soil is warmest up to a fortnight after the air: it falls well after that.
STEP = (0.0,) * 100 + (30.0,) * 150 + (0.0,) * 115


def rules(kind: str) -> list[tuple[Any, Any]]:
    """The rules and conditions of the book of one kind."""
    return [
        (rule, condition)
        for rule in BOOK.windows
        for condition in (*rule.opens, *rule.closes)
        if condition.kind == kind
    ]


@pytest.mark.parametrize(
    ("kind", "day"),
    [("air_rising", 100), ("air_falling", 250), ("soil_rising", 100), ("soil_falling", 250)],
)
def test_a_curve_that_jumps_passes_its_mark_on_that_day(kind: str, day: int) -> None:
    """With the shift of the condition; a year on for what opened in autumn. Nights that cool
    sooner do as well."""
    cold = (-20.0,) * 365
    of = year(air_mean_c=STEP, soil_10cm_c=STEP, air_min_c=STEP)
    checked = 0
    for rule, condition in rules(kind):
        if not 2 < of.number(condition.threshold, getattr(condition, "cool_threshold", None)) < 28:
            continue
        met = met_on(of, rule, condition)
        shift = 0 if condition.shift is None else round(BOOK.si(condition.shift))
        late = 365 if kind.endswith("rising") and rule.half == "falling" else 0
        assert met is not None and met.day == day + shift + late, rule.id
        checked += 1
        if getattr(condition, "sooner_nights", None) is not None:
            nights = met_on(year(soil_10cm_c=STEP, air_min_c=cold), rule, condition)
            assert nights is not None and nights.day == HOTTEST
    assert checked


@pytest.mark.parametrize("kind", ["air_rising", "air_falling", "soil_rising", "soil_falling"])
def test_a_mark_that_is_never_passed_is_told_as_the_turn_of_the_year(kind: str) -> None:
    """Always above it, or never: the first of the one is the last of the other."""
    (rule, condition), *_ = rules(kind)
    days = []
    for level, cold in ((99.0, True), (-99.0, False)):
        even = (level,) * 365
        met = met_on(year(air_mean_c=even, soil_10cm_c=even, air_min_c=even), rule, condition)
        assert met is not None and met.told == turned(cold=cold)
        days.append(met.day)
    rising = kind.endswith("rising")
    assert (days[0] < days[1]) is rising


@pytest.mark.parametrize(
    ("wet_mm", "dry_from", "day"),
    [
        # Where rain ends on a day, the weeks to come are so far dry that many days before it.
        (8.0, 100, 100 - 45 * 6 / 13),
        (4.0, 90, 90 - 45 * 6 / 9),
        (9.0, COLDEST, COLDEST),
        (9.0, 365, (COLDEST + HOTTEST) // 2),
    ],
)
def test_soil_dries_once_the_rain_of_the_coming_weeks_dries_up(
    wet_mm: float, dry_from: int, day: float
) -> None:
    """From winter on: the depth of winter where it is never wet, mid-spring where it is still wet
    then; what rains in summer says nothing of it."""
    rain = tuple(5 + wet_mm if index < dry_from else 0.0 for index in range(365))
    of = year(rain_mm=rain, et0_mm=(5.0,) * 365)
    for rule, condition in rules("drying"):
        met = met_on(of, rule, condition)
        assert met is not None and met.day == pytest.approx(day, abs=1), rule.id
    assert rules("drying")


def test_days_from_the_hottest_and_the_coldest_are_counted() -> None:
    """In a year with all its seasons as the book has them."""
    of = year()
    assert of.seasons == 1
    for kind, turn in (("hottest", HOTTEST), ("coldest", COLDEST)):
        for rule, condition in rules(kind):
            met = met_on(of, rule, condition)
            cool = getattr(condition, "cool_days", None)
            shift = 0 if condition.shift is None else round(BOOK.si(condition.shift))
            days = of.number(condition.days, cool)
            assert met is not None and met.day == round(turn + days) + shift, rule.id
    assert rules("hottest") and NamedFact("windows.years_apart") in BOOK.facts


@pytest.mark.parametrize(("even", "day"), [(None, 42), ("winter", 21)])
def test_days_from_the_coldest_shrink_with_the_seasons_where_a_rule_says_so(
    even: str | None, day: int
) -> None:
    """In a year of half a season, of which the coldest day is that of the new year."""
    half: Any = SimpleNamespace(coldest=0, number=lambda value: value)
    half.evened = lambda day, turn: turn + 0.5 * (day - turn)
    condition: Any = SimpleNamespace(kind="coldest", days=42, even=even)
    assert _event(half, condition) == day
