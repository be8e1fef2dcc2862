"""Real years, each a climate of its own, from series made for the purpose."""

from dataclasses import replace
from datetime import date, timedelta
from math import e

import pytest

from planning import climate_at
from turfplan.calendar_days import day_index
from turfplan.climate.daily_series import DailySeries
from turfplan.climate.real_years import RealYear, _smoothed, real_years
from turfplan.climate.record import Excess
from turfplan.files.reading.place import load_models

PLACE = climate_at(40.0, -76.0)
FIRST, LAST = date(2001, 1, 1), date(2004, 12, 31)
DATES = tuple(FIRST + timedelta(k) for k in range((LAST - FIRST).days + 1))


def years_of(
    nights_c: dict[date, float], unknown: range = range(0), south: bool = False
) -> tuple[RealYear, ...]:
    """The years of a series that is as usual, with some nights put in and some means left out."""
    place = climate_at(-37.0, 145.0) if south else PLACE
    means = [None if k in unknown else place.air_c(day) for k, day in enumerate(DATES)]
    lows = [nights_c.get(day, 5.0) for day in DATES]
    series = DailySeries(DATES, tuple(lows), tuple(lows), tuple(means), (0.0,) * len(DATES))
    return real_years(series, place, load_models())


def test_a_year_that_lacks_many_days_is_none() -> None:
    """Whole years alone are judged; a few days without a mean do not matter."""
    second = DATES.index(date(2002, 1, 1))
    assert [y.label for y in years_of({})] == [2001, 2002, 2003, 2004]
    assert [y.label for y in years_of({}, range(second, second + 200))] == [2001, 2003, 2004]
    assert len(years_of({}, range(second + 100, second + 105))) == 4


def test_a_southern_year_begins_with_july() -> None:
    """So that its summer is whole; of four calendar years there are three."""
    assert [y.label for y in years_of({}, south=True)] == [2001, 2002, 2003]


def test_a_night_at_the_freezing_point_is_a_frost() -> None:
    """The last before and the first after the hottest day; no frost where no night of that half
    froze.
    """
    days = (date(2001, 3, 3), date(2001, 4, 20), date(2001, 10, 12), date(2001, 11, 1))
    first, second, *_ = years_of(dict.fromkeys(days, 0.0))
    assert first.climate.last_frost is not None and first.climate.first_frost is not None
    assert first.climate.last_frost.median == day_index(days[1])
    assert first.climate.first_frost.median == day_index(days[2])
    assert (second.climate.last_frost, second.climate.first_frost) == (None, None)


def test_what_was_measured_fades_to_both_sides() -> None:
    """To 1/e of it within its memory, on days as in the curves of the year."""
    day = date(2027, 5, 1)
    warm = replace(PLACE, excess=Excess(day, 3.0, 20.0))
    whole = warm.year_measured()
    for away, share in ((0, 1.0), (20, 1 / e), (-20, 1 / e), (40, 1 / e**2), (-150, e**-7.5)):
        then = day + timedelta(away)
        assert warm.soil_c(then) - PLACE.soil_c(then) == pytest.approx(3 * share)
        over = whole.soil_10cm_c[day_index(then)] - PLACE.soil_10cm_c[day_index(then)]
        assert over == pytest.approx(3 * share)


def test_a_smoothed_day_is_the_mean_of_those_around_it() -> None:
    """As many to either side, over New Year too; an even count has one day less on the later
    side.
    """
    values = [float((7 * day) % 31) for day in range(365)]
    for days, half in ((1, 0), (5, 2), (15, 7), (14, 7)):
        found = _smoothed(values, days)
        for day in (0, 3, 200, 364):
            around = [values[(day + k) % 365] for k in range(-half, half + 1)]
            assert found[day] == pytest.approx(sum(around) / len(around))
