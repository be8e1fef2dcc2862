"""Numbers of the book that were derived, recomputed from what they were derived from."""

import csv
from collections import defaultdict
from collections.abc import Callable
from datetime import date, timedelta
from functools import cache
from importlib.util import find_spec
from itertools import pairwise
from math import pi
from pathlib import Path
from statistics import NormalDist, fmean, median, quantiles, stdev

import pytest

import water_cases as cases
from planning import climate_at
from turfplan.calendar_days import DAYS
from turfplan.climate.growth import air_of_growth, growth_potential
from turfplan.climate.record import Climate
from turfplan.records.book_names import NamedFact
from turfplan.units import INCH_MM
from turfplan.work.growing_year import growing_year
from turfplan.work.windows import operation_windows

CALENDARS = Path(__file__).parents[3] / "shared" / "data" / "calendars" / "windows.csv"
BOOK = cases.book()
SPECIES = tuple(BOOK.species)
YEAR = [date(2027, 1, 1) + timedelta(days) for days in range(365)]


def inches(name: str) -> float:
    return BOOK.facts[name].si / INCH_MM


def middle(name: str) -> float:
    fact = BOOK.facts[name]
    return (fact.low_si + fact.high_si) / 2


@pytest.mark.parametrize(
    ("grass", "mown_in"), [("tall_fescue", 3.0), ("creeping_bentgrass", 0.75), ("zoysia", 1.5)]
)
def test_the_lowest_cut_takes_a_third_at_once(grass: str, mown_in: float) -> None:
    """University of California: no more than a third of the height at once."""
    mown = BOOK.facts[f"species.{grass}.mow_height"]
    assert mown_in in (mown.low, mown.value)
    assert inches(f"species.{grass}.low_cut_floor") == pytest.approx(mown_in * 2 / 3)


def test_the_lowest_cut_before_overseeding() -> None:
    """Kansas: 1 to 1 1/2 in."""
    for grass in ("kentucky_bluegrass", "perennial_ryegrass", "fine_fescue"):
        assert inches(f"species.{grass}.low_cut_floor") == pytest.approx(1.5)


def test_passes_are_weeks_apart() -> None:
    """Iowa State: every few weeks, read as two to four."""
    for grass in SPECIES:
        assert 13 <= BOOK.si(f"species.{grass}.pass_interval_min") <= 28
        cool = BOOK.species[grass].season == "cool"
        assert BOOK.si(f"species.{grass}.last_pass_before_frost") == 28 or not cool


def test_overseeding_takes_half_of_the_new_rate() -> None:
    """Nebraska: half of the rate for a new lawn; rates of their own publications excepted."""
    for grass in SPECIES:
        fact = BOOK.get(f"species.{grass}.seed_rate_overseed")
        if fact is not None and fact.source == "S40":
            new = BOOK.facts[f"species.{grass}.seed_rate_new"]
            assert new.low_si / 2 <= fact.si <= new.high_si / 2


def test_warm_grass_is_dressed_to_the_end_of_september() -> None:
    """Louisiana: April to September; eight weeks lie within what is left before the first frost."""
    left = []
    for latitude, longitude in ((32.5, -93.75), (31.3, -92.45), (30.45, -91.19), (29.95, -90.07)):
        frost = climate_at(latitude, longitude).first_frost
        assert frost is not None
        left.append(frost.median - date(2027, 9, 30).timetuple().tm_yday)
    for grass in ("bermuda_common", "bermuda_hybrid", "centipede", "bahia", "buffalo"):
        days = BOOK.si(f"species.{grass}.last_pass_before_frost")
        assert min(left) <= days <= max(left)


def test_water_of_ground_that_no_table_has() -> None:
    """As the soils they are likened to."""
    for soil, like in {
        "peat": "loam",
        "chalk": "silt_loam",
        "subsoil": "clay_loam",
        "rubble": "sandy_loam",
    }.items():
        assert BOOK.si(f"water.depletion_texture_{soil}") == BOOK.si(
            f"water.depletion_texture_{like}"
        )
    assert BOOK.si("water.capacity_rubble") == BOOK.si("water.capacity_sandy_loam") / 2


def test_intake_lies_between_that_of_the_neighbours() -> None:
    """FAO gives sandy loam, loam, clay loam and clay: the others fall in order between their
    middles.
    """
    order = (
        ("sand", "loamy_sand", "sandy_loam"),
        ("loam", "silt_loam", "clay_loam"),
        ("loam", "silt", "clay_loam"),
        ("loam", "sandy_clay_loam", "clay_loam"),
        ("clay_loam", "silty_clay_loam", "clay"),
        ("clay_loam", "sandy_clay", "clay"),
    )
    for names in order:
        for more, less in pairwise(BOOK.facts[f"water.intake_{soil}"].si for soil in names):
            assert more >= less
    clay = BOOK.facts["water.intake_clay"]
    assert BOOK.si("water.intake_sand") == BOOK.facts["water.intake_sandy_loam"].high_si
    assert BOOK.si("water.intake_rubble") == BOOK.facts["water.intake_sandy_loam"].low_si
    assert BOOK.si("water.intake_silty_clay") == middle("water.intake_clay")
    assert middle("water.intake_clay") <= BOOK.si("water.intake_subsoil") <= clay.high_si


def test_storage_falls_evenly_to_the_steep_slope() -> None:
    """From level ground down to what steep turf holds."""
    fall = BOOK.si("water.surface_storage") - BOOK.si("water.surface_storage_least")
    steep_percent = 100 * BOOK.si("site.slope_steep")
    assert BOOK.si("water.storage_loss_per_percent") == pytest.approx(fall / steep_percent)


def test_slopes_and_bare_ground_take_in_less() -> None:
    """U.S. Department of Agriculture, in/h: sandy loam, silt loam, clay; 0 to 5 %, 8 to 12 %."""
    level, bare, steep = (1.75, 1.0, 0.2), (1.0, 0.5, 0.15), (1.0, 0.6, 0.12)
    on_slope = fmean(s / whole for s, whole in zip(steep, level, strict=True))
    flat = 100 * BOOK.si("water.slope_intake_level")
    assert flat == (0 + 5) / 2
    loss = (1 - on_slope) / ((8 + 12) / 2 - flat)
    assert BOOK.si("water.slope_intake_loss") == pytest.approx(loss, abs=0.002)
    uncovered = fmean(b / whole for b, whole in zip(bare, level, strict=True))
    assert BOOK.si("water.bare_intake") == round(uncovered, 1)


def test_roots_reach_their_depth_in_two_months() -> None:
    """University of California: seed takes up to two months."""
    a_day = BOOK.si("water.root_depth") / 60
    assert BOOK.si("water.root_growth") == int(a_day)


def test_uniformity_of_the_low_quarter() -> None:
    """Christiansen's coefficient of 80 %, for cans scattered normally, as the mean of the low
    quarter over the mean of all.
    """
    normal = NormalDist()
    mean_deviation = (2 / pi) ** 0.5
    low_quarter = normal.pdf(normal.inv_cdf(0.25)) / 0.25
    uniformity = 1 - (1 - 0.8) / mean_deviation * low_quarter
    assert uniformity == pytest.approx(0.68, abs=0.005)
    for name in ("water.uniformity_good", "water.uniformity_assumed"):
        assert BOOK.facts[name].si == round(uniformity, 1)


def test_water_that_wets_loose_ground() -> None:
    """Plants: loam to 4 in; a lift of 3 in, with a quarter more."""
    loam_mm_per_mm = BOOK.si("water.capacity_loam") / 1000
    assert BOOK.si("water.soak_plants") == pytest.approx(loam_mm_per_mm * 4 * INCH_MM, rel=0.06)
    lift_mm = loam_mm_per_mm * BOOK.si("open_ground.lift_depth")
    assert BOOK.facts["water.settle_fill"].low_si == pytest.approx(lift_mm, rel=0.06)
    assert BOOK.si("water.settle_fill") == pytest.approx(1.25 * lift_mm, rel=0.06)


def test_half_an_inch_twice_a_week() -> None:
    """An inch a week, in two halves."""
    assert inches("water.recover_depth") * 7 / BOOK.si("water.recover_gap") == pytest.approx(1)


def test_what_cores_leave_to_be_filled() -> None:
    """20 to 40 holes of 1/2 in in a square foot, 2 in deep."""
    fewest, most = (holes * pi / 4 * 0.5**2 * 2 / 144 for holes in (20, 40))
    assert fewest <= inches("aerate.core_volume_depth") <= most


def test_nitrogen_of_compost_in_its_first_year() -> None:
    """Nebraska: 37 % over three years."""
    assert 0 < 0.37 / 3 - BOOK.si("compost.first_year_share") < 0.03


def test_growth_decides_when_passes_open() -> None:
    """The growth potential at what calendars print for spring work."""

    def potential(fahrenheit: float) -> float:
        return growth_potential((fahrenheit - 32) / 1.8, "cool")

    opens = BOOK.si("windows.cool_pass_spring_opens")
    assert potential(47.2) < opens < potential(52.0)
    assert potential(44.3) == pytest.approx(0.06, abs=0.005)


def test_november_in_indiana() -> None:
    """Purdue: the late feeding falls into the first weeks of November."""
    there = climate_at(40.42, -86.9)
    first, later = (there.air_c(date(2027, 11, day)) for day in (1, 15))
    assert later < BOOK.si("windows.cool_feed_late_opens") < first


def test_august_in_louisiana() -> None:
    """The last feeding early to mid August, counted from the height of summer."""
    summer = growing_year(climate_at(30.45, -91.19), BOOK, "bermuda_common").hottest
    last = date(2027, 1, 1) + timedelta(summer + BOOK.si("windows.warm_feed_late_opens"))
    assert date(2027, 8, 10) <= last <= date(2027, 8, 20)


# Thermal time to half of the germination, degC day, as the abstract prints it.
GERMINATES = {"perennial_ryegrass": 63.9, "fine_fescue": 43.8, "kentucky_bluegrass": 115.6}


def test_warmth_before_frost_is_that_of_germination_and_two_weeks_of_growth() -> None:
    """At 14 degC; what is not in the trial lies between its grasses as its days to germinate do."""
    base, week = BOOK.si("windows.cool_germination_base"), 7
    growth = 2 * week * (14 - base)
    assert BOOK.si("setting.seedling_growth_days") == 2 * week

    def days(grass: str) -> float:
        return BOOK.si(NamedFact(f"species.{grass}.germination_days"))

    quick, slow = "perennial_ryegrass", "kentucky_bluegrass"
    for grass in SPECIES:
        if BOOK.species[grass].season != "cool":
            continue
        share = (days(grass) - days(quick)) / (days(slow) - days(quick))
        between = GERMINATES[quick] + share * (GERMINATES[slow] - GERMINATES[quick])
        needed = GERMINATES.get(grass, between) + growth
        assert BOOK.si(NamedFact(f"species.{grass}.warmth_before_frost")) == pytest.approx(
            needed, abs=2
        ), grass


def test_seed_that_frost_presses_has_the_time_of_short_seasons() -> None:
    """Between the shortest and the shorter quartile of the published autumn seasons of seed."""
    if not CALENDARS.is_file():
        pytest.skip("no published calendars beside this checkout")
    with CALENDARS.open(encoding="utf-8") as file:
        lengths = [
            (date.fromisoformat(f"2027-{row[E]}") - date.fromisoformat(f"2027-{row[S]}")).days + 1
            for row in csv.DictReader(file)
            if row["operation"] in ("seed_autumn", "overseed")
            and row["season_type"] == "cool"
            and row["source_kind"] != "secondary"
            and row["date_basis"] in ("dates_or_month_words", "holiday_words")
            and row[S]
            and row[E]
        ]
    fact = BOOK.facts["windows.seed_autumn_least"]
    low, high = min(lengths), quantiles(lengths, n=4)[0]
    assert (fact.low_si, fact.high_si) == pytest.approx((low, high), abs=1)


def test_from_first_growth_to_soil_in_which_all_seed_comes_up() -> None:
    """In the maritime north the air takes so long from 6 to 10 degC."""
    first = BOOK.si("windows.cool_growth_begins")
    found: list[int] = []
    for latitude, longitude in ((51.5, -0.1), (50.6, 3.1), (53.3, -6.3), (52.4, 4.9)):
        air = climate_at(latitude, longitude).air_mean_c[31:182]
        found.append(sum(first <= value < 10 for value in air))
    assert BOOK.si("windows.cool_spring_within_cool") == pytest.approx(median(found), abs=5)


# Windows of published calendars: season, operation, half of the year, end, and what is told of it.
Key = tuple[str, str, str, str, str]


def mean_growth(there: Climate, day: date, season: str) -> float:
    """Growth potential at the mean air of the month from a day on."""
    month = BOOK.si("windows.cool_work_days_left")
    air = fmean(there.air_c(day + timedelta(days)) for days in range(round(month)))
    return growth_potential(air, season)


@cache
def ends() -> dict[Key, list[float]]:
    """Ends of the dated windows of northern places, as normal air (degF), days after the hottest
    day, and days after the median first frost.
    """
    if not CALENDARS.is_file():
        pytest.skip("no published calendars beside this checkout")
    found: dict[Key, list[float]] = {}
    with CALENDARS.open(encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    for row in rows:
        if row["date_basis"] not in ("dates_or_month_words", "holiday_words", "one_sided"):
            continue
        if float(row["lat"]) < 0:
            continue
        there = climate_at(float(row["lat"]), float(row["lon"]))
        hottest = max(YEAR, key=there.air_c)
        for end in ("window_start", "window_end"):
            if not row[end]:
                continue
            day = date.fromisoformat(f"2027-{row[end]}")
            half = "spring" if day < hottest else "autumn"
            told = {
                "air": there.air_c(day) * 1.8 + 32,
                "celsius": there.air_c(day),
                "to come": mean_growth(there, day, "cool"),
                "hottest": float((day - hottest).days),
            }
            if there.first_frost is not None:
                told["frost"] = float(day.timetuple().tm_yday - there.first_frost.median)
            for what, number in told.items():
                key = (row["season_type"], row["operation"], half, end, what)
                found.setdefault(key, []).append(number)
    return found


def quartiles(numbers: list[float]) -> tuple[float, float]:
    low, _, high = quantiles(numbers, n=4)
    return low, high


def span(numbers: list[float]) -> tuple[float, float]:
    return min(numbers), max(numbers)


S, E = "window_start", "window_end"
DRAWN: tuple[tuple[str, str, Key, Callable[[list[float]], tuple[float, float]]], ...] = (
    ("cool_seed_summer_over", "", ("cool", "seed_autumn", "autumn", S, "hottest"), quartiles),
    ("cool_spring_work_opens", "F", ("cool", "seed_spring", "spring", S, "air"), quartiles),
    ("cool_spring_work_closes", "F", ("cool", "core_aerate", "spring", E, "air"), span),
    ("cool_pass_heat", "F", ("cool", "core_aerate", "autumn", S, "air"), quartiles),
    ("first_mow_opens", "F", ("cool", "first_mow_year", "spring", S, "air"), quartiles),
    ("first_mow_closes", "F", ("cool", "first_mow_year", "spring", E, "air"), span),
    ("last_mow_closes", "F", ("cool", "last_mow", "autumn", E, "air"), span),
    ("cool_feed_spring_opens", "F", ("cool", "fertilise_N", "spring", S, "air"), quartiles),
    ("cool_feed_spring_closes", "F", ("cool", "fertilise_N", "spring", E, "air"), quartiles),
    ("cool_feed_autumn_opens", "F", ("cool", "fertilise_N", "autumn", S, "air"), span),
    ("cool_feed_autumn_closes", "F", ("cool", "fertilise_N", "autumn", S, "air"), quartiles),
    ("cool_feed_autumn_days", "", ("cool", "fertilise_N", "autumn", S, "hottest"), span),
    ("cool_feed_autumn_last_cool", "", ("cool", "fertilise_N", "autumn", E, "hottest"), quartiles),
    ("cool_spring_work_opens_cool", "C", ("cool", "core_aerate", "spring", S, "celsius"), span),
    ("cool_feed_autumn_last", "", ("cool", "fertilise_N", "autumn", E, "hottest"), quartiles),
    ("cool_feed_late_closes", "F", ("cool", "fertilise_N", "autumn", E, "air"), span),
    ("warm_first_mow_closes", "F", ("warm", "first_mow_year", "spring", E, "air"), span),
    ("warm_last_mow_closes", "F", ("warm", "last_mow", "autumn", E, "air"), span),
)


@pytest.mark.parametrize(
    ("name", "unit", "key", "ends_of"), DRAWN, ids=[drawn[0] for drawn in DRAWN]
)
def test_thresholds_lie_where_calendars_end(
    name: str, unit: str, key: Key, ends_of: Callable[[list[float]], tuple[float, float]]
) -> None:
    """Within the quartiles of the published ends, or between the ends where they are few; to a
    degree or a day.
    """
    fact = BOOK.facts[f"windows.{name}"]
    assert fact.unit.endswith(unit) and fact.source == "CALENDARS" and fact.value is not None
    low, high = ends_of(ends()[key])
    assert low - 1 <= fact.value <= high + 1


def test_growth_that_autumn_work_leaves() -> None:
    """The month after the close of coring, dethatching and dressing: a quarter of the best."""
    found = [
        growth
        for operation in ("core_aerate", "dethatch", "topdress/level")
        for growth in ends().get(("cool", operation, "autumn", E, "to come"), [])
    ]
    assert BOOK.si("windows.cool_work_growth_left") == pytest.approx(median(found), abs=0.03)


HOT = [
    climate_at(latitude, longitude)
    for latitude, longitude in ((33.95, -83.4), (35.78, -78.64), (36.16, -86.78), (37.69, -97.34))
]
"""Athens, Raleigh, Nashville and Wichita: where calendars speak of warm-season grass."""


def opened_at(there: Climate, share: str) -> float:
    """The air (degF) at which growth has a share of what summer brings."""
    best = max(there.growth_curve("warm"))
    return air_of_growth(BOOK.si(NamedFact(f"windows.{share}")) * best, "warm") * 1.8 + 32


@pytest.mark.parametrize(
    ("share", "low", "high"),
    [("warm_work_opens", 69, 80), ("warm_feed_turn", 69, 75), ("warm_feed_opens", 63, 67)],
)
def test_shares_of_summer_are_the_marks_of_calendars(share: str, low: float, high: float) -> None:
    """Hard work opens at 71 to 80 degF, spring feeding ends at 69 to 75 and begins near 65."""
    assert all(low <= opened_at(there, share) <= high for there in HOT)


def test_summer_work_and_seed_end_between_calendars() -> None:
    """Dethatching a week after the hottest day, aeration two months after; seed about it."""
    late = {"warm_core_aerate": (7, 66), "warm_seed": (-56, 21)}
    for there in HOT:
        hottest = max(YEAR, key=there.air_c)
        windows = operation_windows(there, BOOK, "bermuda_common", 2027).windows
        for rule, (least, most) in late.items():
            found = next(w for w in windows if w.rule == rule)
            assert least <= (found.end - hottest).days <= most


def test_growth_begins_with_the_soil_at_six_degrees() -> None:
    """The growth potential of that air, as the share at which passes open in cool springs."""
    six = growth_potential(BOOK.si("windows.cool_growth_begins"), "cool")
    assert BOOK.si("windows.cool_pass_spring_cool") == pytest.approx(six, abs=0.002)


def test_warmth_that_seedlings_need_over_five_degrees() -> None:
    """At Fargo: what the printed sums over freezing leave over 5 degC."""
    there = climate_at(46.88, -96.79)
    coldest = there.air_mean_c.index(min(there.air_mean_c)) + DAYS

    def left(base: float, day: int) -> float:
        return sum(max(0.0, there.air_mean_c[d % DAYS] - base) for d in range(day, coldest))

    fact = BOOK.facts["windows.cool_seed_warmth"]
    for over_freezing, over_five in ((480, fact.low_si), (580, fact.high_si)):
        day = max(d for d in range(coldest) if left(0.0, d) >= over_freezing)
        assert left(5.0, day) == pytest.approx(over_five, abs=8)


def test_how_far_years_lie_apart() -> None:
    """Monthly means of long daily series deviate as an even spread of 2 degC to each side does."""
    spec = find_spec("aquacrop")
    if spec is None or spec.origin is None:
        pytest.skip("the package aquacrop, which carries daily weather, is not installed")
    found: list[float] = []
    for place in ("champion", "brussels", "cordoba", "tunis", "suffolk"):
        days = Path(spec.origin).parent / "data" / f"{place}_climate.txt"
        months: dict[tuple[int, int], list[float]] = defaultdict(list)
        for line in days.read_text(encoding="utf-8").splitlines()[2:]:
            _, month, year, low, high, *_ = line.split()
            months[int(month), int(year)].append((float(low) + float(high)) / 2)
        for month in range(1, 13):
            means = [fmean(days) for (m, _), days in months.items() if m == month]
            found.append(stdev(means))
    assert BOOK.si("windows.years_apart") / 3**0.5 == pytest.approx(median(found), abs=0.25)


def test_november_in_oklahoma() -> None:
    """The soil on the day from which germination is hindered."""
    there = climate_at(35.47, -97.52)
    closes = BOOK.si("windows.warm_overseed_closes")
    assert there.soil_c(date(2027, 11, 1)) == pytest.approx(closes, abs=1.5)


def test_published_windows_are_a_week_and_longer() -> None:
    """One alone is shorter."""
    ends()
    with CALENDARS.open(encoding="utf-8") as file:
        lengths = [
            (date.fromisoformat(f"2027-{row[E]}") - date.fromisoformat(f"2027-{row[S]}")).days % 365
            + 1
            for row in csv.DictReader(file)
            if row[S] and row[E] and row["date_basis"] == "dates_or_month_words"
        ]
    assert sum(days < BOOK.si("windows.least_days") for days in lengths) <= 1
    assert len(lengths) > 100
