"""Real years, each a climate of its own, from series made for the purpose."""

import math
from datetime import date, timedelta

import pytest

from planning import climate_at
from turfplan.calendar_days import day_index
from turfplan.climate.daily_series import DailySeries
from turfplan.climate.fitted_models import soil_from_air
from turfplan.climate.real_years import RealYear, _frost, _smoothed, real_years
from turfplan.climate.record import Frost
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


@pytest.mark.full
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


def test_a_year_is_named_and_holds_its_days_as_they_were() -> None:
    """By place in the year: 29 February falls away; the south has its year named by both."""
    first = date(2004, 2, 28)
    lows = {first: -1.0, date(2004, 2, 29): -2.0, date(2004, 3, 1): -3.0, date(2004, 12, 31): -4.0}
    leap = years_of(lows)[3]
    assert (leap.min_c[58], leap.min_c[59], leap.min_c[364], leap.min_c[0]) == (-1, -3, -4, 5.0)
    assert len(leap.min_c) == len(leap.rain_mm) == 365 and leap.rain_mm[7] == 0.0
    assert dict(leap.climate.source.values)["year"] == "2004"
    north, south = (
        years_of({})[0],
        years_of(
            {date(2002, 1, 9): -1.0, date(2001, 7, 1): -2.0, date(2002, 6, 30): -3.0}, south=True
        )[0],
    )
    assert dict(north.climate.source.values)["year"] == "2001"
    assert dict(south.climate.source.values)["year"] == "2001/02"
    assert (south.min_c[8], south.min_c[181], south.min_c[180]) == (-1.0, -2.0, -3.0)


def test_a_year_lasts_to_the_day_before_the_next() -> None:
    """One that lacks its last day, or its first, is none."""
    place = load_models(), PLACE
    for days, labels in ((DATES[:-1], [2001, 2002, 2003]), (DATES[1:], [2002, 2003, 2004])):
        column = tuple(PLACE.air_c(day) for day in days)
        series = DailySeries(days, column, column, column, (0.0,) * len(days))
        assert [y.label for y in real_years(series, place[1], place[0])] == labels


def test_a_year_needs_so_many_days_and_no_more() -> None:
    """Nine tenths by the settings: 329 are enough, 328 are not."""
    share = load_models().number("files", "whole_year_share")
    most = math.floor(365 * (1 - share))
    second = DATES.index(date(2002, 1, 1))
    assert 2002 in [y.label for y in years_of({}, range(second, second + most))]
    assert 2002 not in [y.label for y in years_of({}, range(second, second + most + 1))]


def test_the_curves_of_a_year_are_smoothed_and_follow_its_own_air() -> None:
    """A week ten degrees warmer in May of the second year warms its air by the share of the week in
    a fortnight, and its soil after it; holes are as usual.
    """
    may = DATES.index(date(2002, 5, 10))
    means = [PLACE.air_c(day) for day in DATES]
    warm: list[float | None] = [m + 10.0 * (may - 3 <= k <= may + 3) for k, m in enumerate(means)]
    warm[5] = None
    lows = (5.0,) * len(DATES)
    series = DailySeries(DATES, lows, lows, tuple(warm), lows)
    models = load_models()
    first, second, *_ = real_years(series, PLACE, models)
    day = day_index(date(2002, 5, 10))
    around = round(models.number("files", "smoothed_days")) // 2 * 2 + 1
    rise = second.climate.air_mean_c[day] - first.climate.air_mean_c[day]
    assert rise == pytest.approx(10 * 7 / around)
    for depth in ("soil_5cm_c", "soil_10cm_c"):
        curve, usual = (getattr(y.climate, depth) for y in (second, first))
        over = [a - b for a, b in zip(curve, usual, strict=True)]
        assert over.index(max(over)) > day + 1 and 2 < max(over) < 10
        assert abs(over[day - 30]) < 0.01
    shallow, deep = (
        soil_from_air(
            models, [m if m is not None else n for m, n in zip(warm, means, strict=True)], d
        )
        for d in (5, 10)
    )
    half = around // 2
    for curve, soil in ((second.climate.soil_5cm_c, shallow), (second.climate.soil_10cm_c, deep)):
        wanted = sum(soil[may - half : may + half + 1]) / around
        assert curve[day] == pytest.approx(wanted)


def test_frosts_are_looked_for_from_the_hottest_day() -> None:
    """That day itself counts for both; 181 days away counts and 182 does not; just above nought is
    none, and so is what is not known.
    """
    curve = tuple(20.0 if day == 190 else 10.0 for day in range(365))

    def lows(*frosty: int) -> list[float | None]:
        return [0.0 if day in frosty else 0.1 for day in range(365)]

    assert _frost(lows(190), curve, spring=True) == Frost(190, 190, 190, 0)
    assert _frost(lows(190), curve, spring=False) == Frost(190, 190, 190, 0)
    assert _frost(lows(189, 191), curve, spring=True) == Frost(189, 189, 189, 0)
    assert _frost(lows(189, 191), curve, spring=False) == Frost(191, 191, 191, 0)
    assert _frost(lows(9, 6), curve, spring=True) == Frost(9, 9, 9, 0)
    assert _frost(lows(8), curve, spring=True) is None
    assert _frost(lows(6), curve, spring=False) == Frost(6, 6, 6, 0)
    assert _frost(lows(7), curve, spring=False) is None
    assert _frost([None] * 365, curve, spring=True) is None
