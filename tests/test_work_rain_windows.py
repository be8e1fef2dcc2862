"""Where nobody waters the rains decide when turf is worked, fed, sown and planted; where months are
alike no turn of the year does."""

from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise
from typing import Any

import pytest

from planning import brief_of, first, kind, plan_of
from resolved_lawns import setting_of
from told import told
from turfplan.calendar_days import day_index
from turfplan.climate.growth import growth_potential
from turfplan.records.plan import Plan
from turfplan.work.drafts import OpenDays
from turfplan.work.filling import ways_of_filling
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.rain_windows import (
    OPENED_OR_COVERED,
    climate_of_lawn,
    on_rain,
    turf_grows_over,
    unfed_days,
)

# Beside the lake, on ground whose rain the grid knows.
KISUMU = {"latitude": -0.1, "longitude": 34.75}
NANYUKI = {"latitude": 0.01, "longitude": 37.07, "elevation": "1950 m"}
KOZHIKODE = {"latitude": 11.25, "longitude": 75.78}
KUNMING = {"latitude": 25.04, "longitude": 102.72, "elevation": "1890 m"}
RODRIGUES = {"latitude": -19.68, "longitude": 63.42}
CHIANG_MAI = {"latitude": 18.79, "longitude": 98.98}
DARWIN = {"latitude": -12.46, "longitude": 130.84}
OUAGADOUGOU = {"latitude": 12.37, "longitude": -1.52}
GUADALAJARA = {"latitude": 20.67, "longitude": -103.35}
SYDNEY = {"latitude": -33.87, "longitude": 151.2}
IQUITOS = {"latitude": -3.75, "longitude": -73.25}
PERTH = {"latitude": -31.95, "longitude": 115.86}


def changes(where: dict[str, Any], grass: str, **more: Any) -> dict[str, Any]:
    """A thin lawn of a grass somewhere that nobody waters, levelled by 10 mm and not sown."""
    place = {"postal_code": None, "country": None, **where}
    plain: dict[str, Any] = {
        "lawn": {"grass": grass, "area": "300 m2", "soil": "loam"},
        "place": place,
        "leveling": {"depth": "10 mm"},
        "seeding": {"intent": "none"},
        "water": {"possible": False, "application_rate": None},
        "season": {"from": date(2027, 2, 1)},
    }
    for table, values in more.items():
        plain[table] = {**plain.get(table, {}), **values}
    return plain


def dry_lawn(where: dict[str, Any], grass: str, **more: Any) -> ResolvedLawn:
    """That lawn, resolved."""
    return setting_of(brief_of(changes(where, grass, **more)))


def months(windows: tuple[OpenDays, ...]) -> list[tuple[str, str]]:
    """First and last day of windows, as month and day."""
    return [(f"{w.start:%m-%d}", f"{w.end:%m-%d}") for w in windows]


@pytest.mark.parametrize(
    ("where", "grass", "opens", "closes"),
    [
        (NANYUKI, "kikuyu", (2, 20), (12, 20)),
        (KOZHIKODE, "carpetgrass", (4, 1), (11, 20)),
        (RODRIGUES, "st_augustine", (12, 20), (5, 20)),
        (CHIANG_MAI, "bermuda_common", (4, 25), (10, 25)),
        (DARWIN, "bermuda_common", (10, 25), (4, 15)),
        (OUAGADOUGOU, "bermuda_common", (6, 25), (9, 15)),
        (GUADALAJARA, "kikuyu", (5, 25), (9, 25)),
        (KUNMING, "tall_fescue", (4, 25), (10, 25)),
    ],
)
def test_turf_is_worked_in_the_rains_alone(
    where: dict[str, Any], grass: str, opens: tuple[int, int], closes: tuple[int, int]
) -> None:
    """By the rains of the place: none of the work on turf is open outside them."""
    setting = dry_lawn(where, grass)
    begin, end = (day_index(date(2027, *day)) for day in (opens, closes))

    def in_the_rains(day: date) -> bool:
        place = day_index(day)
        return begin <= place <= end if begin <= end else place >= begin or place <= end

    worked = [
        w
        for w in setting.openings.windows
        if not OPENED_OR_COVERED.isdisjoint(setting.book.operations[w.operation].roles)
        or w.operation == "feed_nitrogen"
    ]
    assert {w.operation for w in worked} >= {"topdress", "core_aerate", "feed_nitrogen"}
    outside = [
        (w.operation, w.start, w.end)
        for w in worked
        for day in (w.start, w.best, w.end)
        if not in_the_rains(day)
    ]
    assert not outside
    assert all(a.end < b.start for a, b in pairwise(setting.open("topdress")))


def test_a_lawn_that_is_watered_keeps_its_windows() -> None:
    """The same place and grass, whether nobody said or somebody waters: by warmth alone."""
    known = [
        dry_lawn(GUADALAJARA, "kikuyu", water={"possible": possible}).openings.windows
        for possible in (True, None)
    ]
    assert known[0] == known[1] and all(w.after is None for w in known[0])
    dry = dry_lawn(GUADALAJARA, "kikuyu").openings.windows
    assert {w.operation for w in known[0]} >= {w.operation for w in dry}
    assert months(tuple(w for w in known[0] if w.operation == "topdress")) != months(
        tuple(w for w in dry if w.operation == "topdress")
    )
    watered = dry_lawn(GUADALAJARA, "kikuyu", water={"possible": True})
    assert watered.climate.water_share is None and unfed_days(watered) == ()


def test_plants_of_two_rains_wait_for_the_second_in_the_same_year() -> None:
    """Near Mount Kenya: the last safe day lies in May, and after it come the rains of October."""
    setting = dry_lawn(NANYUKI, "kikuyu", seeding={"intent": "plant", "form": "sprigs"})
    long, short = setting.open("plant")[:2]
    assert date(2027, 3, 1) <= long.start and date(2027, 5, 1) <= long.end <= date(2027, 6, 10)
    assert date(2027, 9, 5) <= short.start <= date(2027, 10, 15) and short.end.year == 2027
    assert long.after is not None and (long.after.start, long.after.end) == (short.start, short.end)
    assert short.after is not None and short.after.start.year == 2028


@pytest.mark.full
def test_a_late_planting_is_told_of_the_next_rains() -> None:
    """With their days, and not of another year."""
    made = plan_of(changes(KISUMU, "kikuyu", seeding={"intent": "plant", "form": "sprigs"}))
    said = told(first(made, "plant").fallback)
    assert "next rains" in said and "next year" not in said and "2027" in said


@pytest.mark.parametrize("grass", ["zoysia", "bermuda_common", "carpetgrass"])
def test_without_seasons_no_day_of_the_year_closes_the_seed(grass: str) -> None:
    """In the rain forest of Peru, with water: a year from the first day of the plan on."""
    setting = dry_lawn(IQUITOS, grass, water={"possible": True}, seeding={"intent": "renovate"})
    seed = setting.open("seed")
    assert seed[0].start.toordinal() == seed[0].best.toordinal() == setting.first_day
    assert (seed[0].end - seed[0].start).days == 364
    assert all(b.start == a.end + timedelta(1) for a, b in pairwise(seed))


def test_seed_on_rain_without_seasons_is_open_until_the_rain_fails() -> None:
    """There too, on rain: zoysia and carpetgrass go in until July, when it falls short."""
    for grass in ("zoysia", "carpetgrass"):
        seed = dry_lawn(IQUITOS, grass, seeding={"intent": "renovate"}).open("seed")
        assert seed[0].start <= date(2027, 2, 1) and seed[0].end.month in (7, 8)
        assert seed[1].start.year == 2027 and seed[1].start.month in (8, 9)


def test_turf_that_is_lifted_waits_for_the_rains() -> None:
    """In Kerala from April on; at Sydney, where no rain equals a wet seedbed then, February; on the
    sand of Perth nothing roots, and nothing is lifted."""
    hollow = {"depth": "0 mm", "lows": [{"depth": "40 mm", "share": 0.1}]}
    kerala = dry_lawn(KOZHIKODE, "carpetgrass", leveling=hollow).open("lift_and_fill")
    assert (kerala[0].start.month, kerala[0].start.day) >= (4, 1) and kerala[0].end.month <= 11
    sydney = dry_lawn(SYDNEY, "kikuyu", leveling=hollow).open("lift_and_fill")
    assert {w.start.month for w in sydney} == {2}
    assert not dry_lawn(PERTH, "kikuyu", leveling=hollow, lawn={"soil": "sand"}).open(
        "lift_and_fill"
    )


@pytest.mark.full
def test_where_rain_never_lets_turf_grow_over_a_pass_water_is_a_way_out() -> None:
    """Warm-season grass on sand that gets its rain in winter: refused with the reason, and planned
    with water."""
    made = plan_of(changes(PERTH, "bermuda_common", lawn={"soil": "sand"}))
    assert made.conflict is not None and not made.tasks
    assert "Nobody waters" in " ".join(told(why) for why in made.conflict.reasons)
    assert told(made.options[0].change) == "possible = true"


def dry_days_of(made: Plan, setting: ResolvedLawn, *operations: str) -> list[tuple[str, date]]:
    """The tasks of operations that lie on days on which turf does not grow over work."""
    grows = turf_grows_over(setting)
    return [
        (task.id, task.start)
        for operation in operations
        for task in kind(made, operation)
        if not grows[day_index(task.start)]
    ]


@pytest.mark.full
@pytest.mark.parametrize(
    ("where", "grass"),
    [(NANYUKI, "kikuyu"), (RODRIGUES, "st_augustine"), (CHIANG_MAI, "bermuda_common")],
)
def test_nothing_is_done_to_turf_in_the_dry_season(where: dict[str, Any], grass: str) -> None:
    """No low cut, core, pass, touch-up or feeding of a whole plan."""
    made, setting = plan_of(changes(where, grass)), dry_lawn(where, grass)
    work = ("mow_low", "core_aerate", "topdress", "touch_up", "feed_nitrogen")
    assert {task.operation for task in made.tasks} >= {"topdress", "feed_nitrogen", "mow_low"}
    assert dry_days_of(made, setting, *work) == []


@pytest.mark.full
def test_feedings_keep_clear_of_the_height_of_the_monsoon() -> None:
    """In Kerala two thirds of a metre of rain fall in June: nitrogen goes on before and after, and
    potash waits for the rains."""
    test = {"on": date(2027, 1, 20), "ph": 5.8, "potassium": "low"}
    given = changes(KOZHIKODE, "carpetgrass", soil_test=test)
    made, setting = plan_of(given), dry_lawn(KOZHIKODE, "carpetgrass")
    fed = [task.start for task in made.tasks if task.plays("feeding")]
    assert fed and not {day.month for day in fed} & {6, 7, 12, 1, 2, 3}
    potash = [task for task in made.tasks if task.id.startswith("amend.potash")]
    grows = turf_grows_over(setting)
    assert all(grows[day_index(task.start)] for task in potash)


def test_growth_of_a_lawn_is_by_water_too() -> None:
    """The product of what warmth and what rain allow; watered, warmth alone."""
    setting = dry_lawn(KOZHIKODE, "carpetgrass")
    climate, february = setting.climate, day_index(date(2027, 2, 15))
    assert climate.water_share is not None and climate.water_share[february] < 0.2
    warmth, growth = climate.warmth_curve("warm"), climate.growth_curve("warm")
    assert growth[february] == pytest.approx(warmth[february] * climate.water_share[february])
    assert climate.growth_potential(date(2027, 2, 15), "warm") == growth[february]
    july = day_index(date(2027, 7, 15))
    assert growth[july] == warmth[july]


def test_kikuyu_grows_near_its_best_in_the_highlands_of_its_home() -> None:
    """At 16 to 19 C most of its best where bermuda hardly grows, and it still rests in a cold
    winter."""
    setting = dry_lawn(NANYUKI, "kikuyu", water={"possible": True})
    climate, bell = setting.climate, setting.climate.warm_bell
    assert bell is not None and bell.best_c == pytest.approx(21)
    assert min(climate.growth_curve("warm")) > 0.6
    other = dry_lawn(NANYUKI, "bermuda_common", water={"possible": True}).climate
    assert other.warm_bell is None and max(other.growth_curve("warm")) < 0.3
    assert climate.warmth_curve("warm") == other.warmth_curve("warm"), (
        "windows are told by one curve"
    )
    by_air = [growth_potential(air / 2, "warm", bell) for air in range(80)]
    assert by_air == sorted(by_air) and by_air[16] < 0.15 and by_air[-1] == 1.0
    assert max(b - a for a, b in pairwise(by_air)) < 0.06


def test_a_window_that_rain_cuts_says_so_and_a_whole_one_does_not() -> None:
    """With the facts that cut it."""
    setting = dry_lawn(CHIANG_MAI, "bermuda_common")
    (window, *_) = setting.open("topdress")
    assert "Nobody waters" in told(window.reason)
    assert {"water.grows_over", "water.grows_over_days"} <= set(window.facts)
    whole = replace(window, start=date(2027, 7, 1), end=date(2027, 7, 31), best=date(2027, 7, 10))
    (kept,), closed = on_rain(setting, [whole])
    assert replace(kept, after=None) == replace(whole, after=None) and closed == []
    dry = replace(window, start=date(2028, 1, 1), end=date(2028, 1, 31), best=date(2028, 1, 10))
    none, (said,) = on_rain(setting, [dry])
    assert none == [] and said.operation == "topdress" and "Nobody waters" in told(said.reason)


def test_the_best_day_stays_in_the_rains() -> None:
    """Where it was, else the first day of rains that come later, the middle of those gone by."""
    setting = dry_lawn(CHIANG_MAI, "bermuda_common")
    (window, *_) = setting.open("topdress")
    (rains,), _ = on_rain(setting, [replace(window, start=date(2027, 3, 1), best=date(2027, 3, 9))])
    assert rains.best == rains.start == window.start
    late = replace(window, start=date(2027, 9, 1), end=date(2027, 12, 20), best=date(2027, 12, 1))
    (early,), _ = on_rain(setting, [late])
    assert early.start == date(2027, 9, 1) < early.best < early.end == window.end


def test_the_climate_of_a_lawn_is_as_it_is_where_it_has_water_and_no_curve_of_its_own() -> None:
    """Nothing is changed for most lawns."""
    setting = dry_lawn(SYDNEY, "bermuda_common", water={"possible": True})
    assert climate_of_lawn(setting) is setting.climate


@pytest.mark.full
def test_where_nobody_waters_no_step_asks_for_water() -> None:
    """Of sprigs, sod, lifted turf, its look and the look at the tips; with water they all do."""
    sprigs = {"seeding": {"intent": "plant", "form": "sprigs"}}
    sod = {"seeding": {"intent": "plant", "form": "sod"}, "leveling": {"depth": "0 mm"}}
    hollow = {"leveling": {"depth": "8 mm", "lows": [{"depth": "60 mm", "share": 0.05}]}}
    asks = ("water until", "water at once", "water lightly", "Water each", "water it", "watered on")
    for grass, more in (("carpetgrass", sprigs), ("bermuda_common", sod), ("carpetgrass", hollow)):
        dry = plan_of(changes(KOZHIKODE, grass, **more))
        assert dry.tasks
        steps = [told(line) for task in dry.tasks for line in task.how]
        assert not [step for step in steps for words in asks if words in step]
        wet = plan_of(changes(KOZHIKODE, grass, **more, water={"possible": True}))
        steps = [told(line) for task in wet.tasks for line in task.how]
        assert [step for step in steps for words in asks if words in step]


@pytest.mark.full
def test_where_no_frost_comes_none_is_spoken_of() -> None:
    """In no test of a day, nor in what the climate rests on; where it freezes both speak of it."""
    warm = plan_of(changes(KOZHIKODE, "carpetgrass"))
    assert setting_of(brief_of(changes(KOZHIKODE, "carpetgrass"))).climate.frostless
    said = [told(m) for task in warm.tasks for m in (task.go, task.fallback) if m is not None]
    assert said and not [text for text in said if "froz" in text.lower()]
    assert "freeze" not in told(warm.climate.source)
    cold = plan_of({"place": {"postal_code": "80302", "country": "US"}})
    said = [told(m) for task in cold.tasks for m in (task.go, task.fallback) if m is not None]
    assert [text for text in said if "froz" in text.lower()]


@pytest.mark.parametrize(
    ("town", "country", "height", "freezes"),
    [
        ("Kozhikode", "IN", "which a map gives", False),
        ("Queenstown", "NZ", "which a map gives", True),
        ("Cali", "CO", "the lowest ground that a map shows", False),
        ("Innsbruck", "AT", "the lowest ground that a map shows", True),
    ],
)
def test_valleys_freeze_only_where_frost_comes(
    town: str, country: str, height: str, freezes: bool
) -> None:
    """Towns in hills and among steep slopes, with and without frost; no first frost is asked for
    where none comes."""
    place = {"postal_code": None, "town": town, "country": country}
    source = told(setting_of(brief_of({"place": place})).climate.source)
    assert height in source and ("valley floors freeze" in source) == freezes
    assert ("place.first_frost" in source) == freezes


@pytest.mark.full
def test_plants_that_do_not_root_wait_for_no_summer_where_there_is_none() -> None:
    """Their feeding is left out by how long they take, not by a season."""
    made = plan_of(changes(KISUMU, "kikuyu", seeding={"intent": "plant", "form": "sprigs"}))
    (fed,) = [task for task in made.tasks if task.id == "feed_nitrogen.planted"]
    assert fed.fallback is not None and "summer" not in told(fed.fallback)


def test_hollows_that_no_rain_roots_are_not_lifted() -> None:
    """At Perth on sand; with water they are."""
    hollow = {"depth": "0 mm", "lows": [{"depth": "60 mm", "share": 0.05}]}
    for possible, lifted in ((False, False), (True, True)):
        setting = dry_lawn(
            PERTH, "kikuyu", leveling=hollow, lawn={"soil": "sand"}, water={"possible": possible}
        )
        ways = ways_of_filling(setting)
        assert any(way.levelling.lift_share > 0 for way in ways) == lifted
