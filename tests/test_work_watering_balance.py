"""The daily account of water: conservation, equations, a season against another library."""

from datetime import date
from importlib.util import find_spec
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import water_cases as cases
from tiers import sampled_pairs
from turfplan.work.watering.balance import (
    RootZoneWater,
    SoilWater,
    crop_coefficients,
    day_flow,
    depletion_share,
    effective_rain_share,
    effective_rain_year,
    reroot,
    soil_of,
    stress,
)

LOAM = SoilWater("loam", 130.0, 0.40, 15.0)
depths = st.floats(0, 60, allow_nan=False)


def test_a_soil_holds_by_its_depth_and_gives_by_the_day() -> None:
    """130 mm in a metre: 26 mm in 200 mm, of which 0.4 are given freely at 5 mm a day."""
    assert LOAM.total_mm(200.0) == pytest.approx(26)
    assert LOAM.ready_mm(200.0) == pytest.approx(10.4)
    assert LOAM.ready_mm(200.0, 7.5) == pytest.approx(7.8)


def test_the_soil_of_the_book_is_its_capacity_and_the_share_of_grass_and_texture() -> None:
    """Clay loam under either grass."""
    book = cases.book()
    soil = soil_of(book, "clay_loam", "warm")
    assert soil.capacity_mm_m == book.si("water.capacity_clay_loam")
    texture = book.si("water.depletion_texture_clay_loam")
    assert soil.depletion_share == pytest.approx(book.si("water.depletion_warm") * texture)
    assert texture != 1 and soil.name == "clay_loam" and len(soil.facts) == 3


def test_allowable_depletion_is_bounded_at_a_tenth_and_eight_tenths() -> None:
    """Just inside both bounds it still follows the equation."""
    assert depletion_share(0.40, 12.4) == pytest.approx(0.104)
    assert depletion_share(0.40, 12.6) == 0.1
    assert depletion_share(0.75, 4.0) == pytest.approx(0.79)
    assert depletion_share(0.75, 3.0) == 0.8


def test_stress_begins_beyond_what_is_readily_available() -> None:
    """At it there is none; beyond the whole store no less than nothing; a soil that gives all of
    its water freely stops at once.
    """
    assert stress(16, 40, 16) == 1
    assert stress(22, 40, 16) == pytest.approx(0.75)
    assert stress(45, 40, 16) == 0
    assert stress(41, 40, 40) == 0
    assert stress(41, 40, 50) == 1


def test_roots_that_deepen_take_over_what_is_missing_where_they_reach() -> None:
    """From 50 to 100 of 200 mm they reach a third of what lies below; half of 100 mm is left to
    what lies below when they are cut back.
    """
    store = RootZoneWater(50.0, 4.0, 9.0)
    assert store.missing_mm == 13
    assert reroot(store, 100.0, 200.0) == RootZoneWater(100.0, 7.0, 6.0)
    assert reroot(store, 200.0, 200.0) == RootZoneWater(200.0, 13.0, 0.0)
    assert reroot(store, 50.0, 200.0) is store
    assert reroot(RootZoneWater(100.0, 8.0, 1.0), 25.0, 200.0) == RootZoneWater(25.0, 2.0, 7.0)


@pytest.mark.parametrize(
    ("before", "came", "out", "after"),
    [
        ((5.0, 2.0), (4.0, 1.0, 0.5), (4.0, 0.0), (7.5, 2.0)),
        ((16.0, 0.0), (4.0, 0.0, 0.0), (4.0, 0.0), (20.0, 0.0)),  # all that is readily available
        ((28.0, 0.0), (4.0, 0.0, 0.0), (2.0, 0.0), (30.0, 0.0)),  # half stressed
        ((15.0, 3.0), (30.0, 0.0, 0.0), (25.0, 0.0), (40.0, 3.0)),  # no more than the zone holds
        ((15.0, 0.0), (25.0, 0.0, 0.0), (25.0, 0.0), (40.0, 0.0)),
        ((5.0, 2.0), (4.0, 6.0, 3.0), (4.0, 0.0), (0.0, 2.0)),  # full to the drop
        ((5.0, 2.0), (4.0, 7.0, 3.0), (4.0, 0.0), (0.0, 1.0)),  # what drains fills what lies below
        ((5.0, 2.0), (4.0, 10.0, 3.0), (4.0, 2.0), (0.0, 0.0)),  # and the rest is lost
    ],
)
def test_a_day_takes_what_grass_uses_and_fills_from_the_top(
    before: tuple[float, float],
    came: tuple[float, float, float],
    out: tuple[float, float],
    after: tuple[float, float],
) -> None:
    """A root zone of 100 mm that holds 40 mm, 16 of them readily, and the soil below it; what grass
    would use, rain and watering; what it uses, and what is lost. Equation 85.
    """
    found = day_flow(RootZoneWater(100.0, *before), 40.0, 16.0, *came)
    assert found == (*out, RootZoneWater(100.0, *after))


def test_effective_rain_is_the_published_equation_in_inches() -> None:
    """3 in of rain, 5 in of use and 2 in of store: by its terms one by one."""
    storage = 0.531747 + 0.295164 * 2 - 0.057697 * 4 + 0.003804 * 8
    inches = storage * (0.70917 * 3**0.82416 - 0.11556) * 10 ** (0.02426 * 5)
    assert effective_rain_share(3 * 25.4, 5 * 25.4, 2 * 25.4) == pytest.approx(inches / 3)
    assert 0.6 < inches / 3 < 0.8


def test_effective_rain_is_bounded_by_rain_use_and_the_ends_of_its_table() -> None:
    """Of no rain nothing, of a drop nothing below nothing; a month that uses little uses no more;
    stores beyond 0.75 to 7 in are those.
    """
    assert effective_rain_share(0.0, 100.0, 50.0) == 0.0
    assert effective_rain_share(0.9, 100.0, 50.0) == 0.0
    assert effective_rain_share(100.0, 10.0, 50.0) == pytest.approx(0.1)
    assert effective_rain_share(12.0, 500.0, 170.0) == 1.0

    def of_store(inches: float) -> float:
        return effective_rain_share(80.0, 120.0, 25.4 * inches)

    assert of_store(0.5) == of_store(0.75) < of_store(0.8)
    assert of_store(8.0) == of_store(7.0) > of_store(6.8)


def test_coefficients_are_those_of_the_year_or_of_each_month() -> None:
    """January first; the same twelve times where months are not asked for."""
    book = cases.book()
    assert crop_coefficients(book, "warm", monthly=False) == (book.si("water.kc_warm"),) * 12
    months = crop_coefficients(book, "cool", monthly=True)
    assert len(months) == 12
    assert (months[0], months[3], months[11]) == (
        book.si("water.kc_cool_month_1"),
        book.si("water.kc_cool_month_4"),
        book.si("water.kc_cool_month_12"),
    )


def test_usable_rain_of_a_day_is_its_rain_by_the_share_of_its_month() -> None:
    """By that month's coefficient: of 31 days of January and 28 of February."""
    climate = cases.cool_climate()
    kc = tuple(0.5 + n / 20 for n in range(12))
    year = effective_rain_year(climate, kc, 60.0)
    assert len(year) == 365
    for first, length, coefficient in ((0, 31, 0.5), (31, 28, 0.55), (334, 31, 1.05)):
        days = slice(first, first + length)
        use = coefficient * sum(climate.et0_mm[days])
        share = effective_rain_share(sum(climate.rain_mm[days]), use, 60.0)
        assert year[days] == pytest.approx([rain * share for rain in climate.rain_mm[days]])


@pytest.mark.full
@given(
    st.lists(
        st.tuples(st.floats(0, 9), depths, depths, st.floats(25, 200)), min_size=1, max_size=60
    )
)
def test_water_is_never_made_or_lost(days: list[tuple[float, float, float, float]]) -> None:
    """What comes in less what goes out is the change of the store, whatever the roots do."""
    store = RootZoneWater(200.0, 5.0, 0.0)
    for crop, rain, water, root in days:
        before = store.missing_mm
        store = reroot(store, root, 200.0)
        assert store.missing_mm == pytest.approx(before, abs=1e-9)
        total = LOAM.total_mm(root)
        et, lost, store = day_flow(store, total, 0.4 * total, crop, rain, water)
        assert store.missing_mm - before == pytest.approx(et + lost - rain - water, abs=1e-6)
        assert -1e-9 <= store.depletion_mm <= LOAM.total_mm(root) + 1e-9
        assert store.below_mm >= -1e-9 and lost >= 0 and et <= crop + 1e-9


def test_dry_soil_slows_grass_and_empty_soil_stops_it() -> None:
    """Stress is 1 while water is readily available, falls evenly, and is 0 at the wilting point.

    Equation 84.
    """
    assert stress(10, 40, 16) == 1
    assert stress(28, 40, 16) == pytest.approx(0.5)
    assert stress(40, 40, 16) == 0


def test_thirsty_days_leave_less_before_stress() -> None:
    """The allowable depletion falls by 0.04 for each mm/day above 5, between 0.1 and 0.8.

    Page 162.
    """
    assert depletion_share(0.40, 5) == pytest.approx(0.40)
    assert depletion_share(0.40, 7.5) == pytest.approx(0.30)
    assert depletion_share(0.40, 20) == pytest.approx(0.1)
    assert depletion_share(0.75, 0) == pytest.approx(0.8)


def test_effective_rain_of_a_month() -> None:
    """Of 4 in of rain in a month that uses 4 in, about 2.7 in are effective at a 3 in storage.

    From memory of TR-21's table.
    """
    share = effective_rain_share(101.6, 101.6, 76.2)
    assert share * 4 == pytest.approx(2.7, abs=0.2)


@given(st.floats(0, 400), st.floats(0, 300), st.floats(1, 150))
def test_effective_rain_is_a_share_and_not_more_than_the_use(
    rain: float, et: float, storage: float
) -> None:
    """Never above the rain nor above what the month uses."""
    share = effective_rain_share(rain, et, storage)
    assert 0 <= share <= 1
    assert share * rain <= et + 1e-6


def _weather(name: str, year: int) -> list[tuple[date, float, float]]:
    """Day, rain and reference evapotranspiration of a year of the package aquacrop's weather."""
    spec = find_spec("aquacrop")
    if spec is None or spec.origin is None:
        pytest.skip("the package aquacrop, which carries daily weather, is not installed")
    lines = (Path(spec.origin).parent / "data" / name).read_text().splitlines()[1:]
    rows = [line.split() for line in lines if line.strip()]
    return [
        (date(int(r[2]), int(r[1]), int(r[0])), float(r[5]), float(r[6]))
        for r in rows
        if int(r[2]) == year
    ]


def _pyfao56_parameters(fao, roots: tuple[float, float]):  # type: ignore[no-untyped-def]
    """The crop with one coefficient, and its soil; `roots` are their first and last depth in m."""
    return fao.Parameters(
        Kcbini=0.90,
        Kcbmid=0.95,
        Kcbend=0.95,
        Kcmini=0.90,
        Kcmmid=0.95,
        Kcmend=0.95,
        Lini=100,
        Ldev=60,
        Lmid=150,
        Lend=60,
        hini=0.05,
        hmax=0.10,
        thetaFC=0.25,
        thetaWP=0.12,
        theta0=0.25,
        Zrini=roots[0],
        Zrmax=roots[1],
        pbase=0.40,
        Ze=0.00001,
        REW=8.0,
    )


def _pyfao56_year(
    weather: list[tuple[date, float, float]], watering: dict[date, float], *, deepening: bool
):  # type: ignore[no-untyped-def]
    """A year of the library pyfao56 without its evaporation layer, with one crop coefficient."""
    fao = pytest.importorskip("pyfao56")
    pandas = pytest.importorskip("pandas")
    first, last = weather[0][0], weather[-1][0]
    par = _pyfao56_parameters(fao, (0.05, 0.20) if deepening else (0.1999, 0.20))
    wth = fao.Weather()
    wth.z, wth.lat, wth.wndht = 300.0, 40.0, 2.0
    nan = float("nan")
    rows = [[nan, nan, nan, nan, nan, nan, 45.0, 2.0, rain, et0, "M"] for _, rain, et0 in weather]
    wth.wdata = pandas.DataFrame(
        rows, columns=wth.cnames, index=[d.strftime("%Y-%j") for d, _, _ in weather]
    )
    irr = fao.Irrigation()
    for day, depth in watering.items():
        irr.addevent(day.year, int(day.strftime("%j")), depth, 1.0)
    soil = None
    if deepening:
        soil = fao.SoilProfile()
        soil.sdata = pandas.DataFrame(
            {"thetaFC": [0.25], "thetaWP": [0.12], "theta0": [0.25]}, index=[20]
        )
    model = fao.Model(first.strftime("%Y-%j"), last.strftime("%Y-%j"), par, wth, irr=irr, sol=soil)
    model.run()
    return model.odata


@pytest.mark.full
@pytest.mark.filterwarnings("ignore::FutureWarning", "ignore::DeprecationWarning")
@pytest.mark.parametrize(
    ("name", "year", "deepening"),
    sampled_pairs(
        [
            ("champion_climate.txt", 1988, False),
            ("champion_climate.txt", 1993, True),
            ("tunis_climate.txt", 1985, True),
        ],
        ("champion_climate.txt", 1993, True),
    ),
)
def test_a_season_of_real_weather_agrees_with_pyfao56(
    name: str, year: int, deepening: bool
) -> None:
    """Depletion of every day of a year within 2 per cent of the soil's water.

    In dry and wet places, with roots fixed and deepening.
    """
    weather = _weather(name, year)
    watering = {day: 12.0 for n, (day, _, et0) in enumerate(weather) if n % 5 == 0 and et0 > 4}
    theirs = _pyfao56_year(weather, watering, deepening=deepening)
    profile = 200.0
    store = RootZoneWater(float(theirs["Zr"].iloc[0]) * 1000, 0.0, 0.0)
    worst = 0.0
    for number, (day, rain, et0) in enumerate(weather):
        row = theirs.iloc[number]
        store = reroot(store, min(profile, float(row["Zr"]) * 1000), profile)
        crop = float(row["Kcb"]) * et0
        total = LOAM.total_mm(store.root_mm)
        ready = depletion_share(0.40, crop) * total
        _, _, store = day_flow(store, total, ready, crop, rain, watering.get(day, 0.0))
        worst = max(worst, abs(store.depletion_mm - float(row["Dr"])))
    assert worst <= 0.02 * LOAM.total_mm(profile)
    assert sum(1 for day in range(len(weather)) if float(theirs.iloc[day]["Dr"]) > 1) > 100
