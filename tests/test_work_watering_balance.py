"""The daily account of water: conservation, equations, a season against another library."""

from datetime import date
from importlib.util import find_spec
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tiers import sampled_pairs
from turfplan.work.watering.balance import (
    RootZoneWater,
    SoilWater,
    day_flow,
    depletion_share,
    effective_rain_share,
    reroot,
    stress,
)

LOAM = SoilWater("loam", 130.0, 0.40, 15.0)
depths = st.floats(0, 60, allow_nan=False)


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
