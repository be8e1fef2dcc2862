"""The windows: every rule opens where it should, both halves of the earth, and nothing crashes at
the ends of it.
"""

import tomllib
from dataclasses import replace
from datetime import date, timedelta
from functools import lru_cache
from typing import Any

import pytest

from planning import ROOT, SHARED, climate_at
from tiers import sampled
from told import told
from turfplan.book.window_rules import WindowRule
from turfplan.climate.record import Climate
from turfplan.files.reading.book import load_book
from turfplan.work.windows import (
    WindowPolicy,
    WindowsOfYear,
    _policy,
    operation_windows,
    windows_of_years,
)

CASES: dict[str, dict[str, Any]] = tomllib.loads(
    (ROOT / "tests" / "cases" / "windows.toml").read_text(encoding="utf-8")
)
CONDITIONS: dict[str, dict[str, Any]] = tomllib.loads(
    (ROOT / "tests" / "cases" / "openings.toml").read_text(encoding="utf-8")
)
EVERY_POLICY = WindowPolicy(late_nitrogen=True, spring_aeration=True)


@lru_cache(maxsize=32)
def climate(latitude: float, longitude: float) -> Climate:
    """The climate of coordinates, read once."""
    return climate_at(latitude, longitude)


def openings(
    latitude: float,
    longitude: float,
    grass: str,
    year: int = 2027,
    settings: WindowPolicy = EVERY_POLICY,
) -> WindowsOfYear:
    """The windows of a grass at a place."""
    return operation_windows(climate(latitude, longitude), load_book(), (grass,), year, settings)


def test_every_rule_has_a_case() -> None:
    """No rule of windows.toml is without a case."""
    assert set(CASES) == {rule.id for rule in load_book().windows}


@pytest.mark.full
@pytest.mark.parametrize("rule", CASES)
def test_rule_opens_where_it_should(rule: str) -> None:
    """The rule's window at the case's place has its best day between the dates an agronomist would
    accept.
    """
    case = CASES[rule]
    found = [
        w
        for w in openings(case["latitude"], case["longitude"], case["grass"]).windows
        if w.rule == rule
    ]
    assert len(found) == 1 and found[0].operation == case["operation"]
    assert case["best_from"] <= found[0].best <= case["best_to"], found[0]
    assert found[0].start <= found[0].best <= found[0].end
    reason, source = told(found[0].reason), told(found[0].source)
    assert reason and source and "{" not in reason + source


def conditions_of(rule: WindowRule) -> list[tuple[str, str]]:
    """The conditions of a rule as (side, kind)."""
    return [("opens", c.kind) for c in rule.opens] + [("closes", c.kind) for c in rule.closes]


def test_every_condition_has_a_case() -> None:
    """No condition of windows.toml is without a place where it decides, and no case without a
    condition.
    """
    named = [
        f"{rule.id}.{side}.{kind}"
        for rule in load_book().windows
        for side, kind in conditions_of(rule)
    ]
    assert len(named) == len(set(named)) and set(CONDITIONS) == set(named)


@pytest.mark.full
@pytest.mark.parametrize("condition", sampled(CONDITIONS, *[*CONDITIONS][::4]))
def test_a_condition_taken_out_is_missed(condition: str) -> None:
    """The window opens, or closes, between the dates of the case; by a book without the condition
    it does not.
    """
    case, (name, side, kind) = CONDITIONS[condition], condition.split(".")
    book = load_book()
    whole = next(rule for rule in book.windows if rule.id == name)
    poorer = whole.model_copy(
        update={side: tuple(c for c in getattr(whole, side) if c.kind != kind)}
    )

    def edge(rule: WindowRule) -> date | None:
        place = climate(case["latitude"], case["longitude"])
        found = operation_windows(
            place, replace(book, windows=(rule,)), case["grass"], 2027, EVERY_POLICY
        ).windows
        assert len(found) <= 1
        return None if not found else found[0].start if side == "opens" else found[0].end

    with_it, without = edge(whole), edge(poorer)
    assert with_it is not None and case["from"] <= with_it <= case["to"], (case["promise"], with_it)
    assert without is None or not case["from"] <= without <= case["to"], (case["promise"], without)


@pytest.mark.full
@pytest.mark.parametrize(
    ("latitude", "longitude"),
    [
        (1.35, 103.8),
        (64.1, -21.9),
        (71.3, -156.8),
        (-54.8, -68.3),
        (25.8, -80.3),
        (-3.1, -60.0),
        (35.7, 51.4),
        (47.9, 106.9),
        (15.5, 32.5),
    ],
)
@pytest.mark.parametrize("grass", ["tall_fescue", "bermuda_common", "st_augustine"])
def test_ends_of_the_earth(latitude: float, longitude: float, grass: str) -> None:
    """Tropics, deserts, Arctic and far south: windows or a reason for none, never a crash, never an
    empty window.
    """
    found = openings(latitude, longitude, grass)
    assert all(w.start <= w.best <= w.end and w.start.year == 2027 for w in found.windows)
    assert all(told(c.reason) for c in found.closed)
    assert found.windows or found.closed


def test_no_autumn_seed_in_the_tropics() -> None:
    """Where it is always hot a cool-season grass has no time for seed, and the answer says why."""
    found = openings(1.35, 103.8, "tall_fescue")
    assert not [w for w in found.windows if w.operation == "overseed"]
    assert [c for c in found.closed if c.operation == "overseed"]


def test_hemispheres_mirror() -> None:
    """Melbourne seeds in March and April, six months from a like climate in the north."""
    found = [
        w
        for w in openings(-37.8, 145.0, "tall_fescue").windows
        if w.operation == "overseed" and w.season in ("autumn", "summer")
    ]
    assert found and found[0].best.month in (2, 3, 4)


def test_windows_of_a_year_start_in_it() -> None:
    """Windows belong to the year they start in, also those that run over New Year, and each year
    has as many.
    """
    years = [openings(-33.9, 151.1, "bermuda_common", year) for year in (2026, 2027, 2028)]
    assert len({len(y.windows) for y in years}) == 1
    for year, found in zip((2026, 2027, 2028), years, strict=True):
        assert all(w.start.year == year for w in found.windows)


def test_deadline_comes_earlier_where_winter_does() -> None:
    """The last safe day of autumn seed moves earlier going north."""
    ends = [
        max(
            w.end
            for w in openings(lat, lon, "tall_fescue").windows
            if w.operation == "overseed" and w.season in ("summer", "autumn")
        )
        for lat, lon in ((36.1, -86.8), (40.0, -76.3), (45.0, -93.3))
    ]
    assert ends == sorted(ends, reverse=True)


def test_policy_closes_with_its_reason() -> None:
    """A window that policy leaves out is told as closed by policy."""
    rules = [r for r in load_book().windows if r.setting]
    for rule in rules:
        found = openings(
            40.04, -76.3, "tall_fescue", settings=WindowPolicy(**{rule.setting: False})
        )  # type: ignore[misc]
        assert any(c.rule == rule.id and "policy" in told(c.reason) for c in found.closed)


def test_mixed_stand_takes_what_suits_both() -> None:
    """The window of a mixed stand lies inside the first grass's."""
    book = load_book()
    alone = operation_windows(climate(47.7, -122.3), book, ("perennial_ryegrass",), 2027)
    mixed = operation_windows(
        climate(47.7, -122.3), book, ("perennial_ryegrass", "fine_fescue"), 2027
    )
    for one, both in zip(alone.windows, mixed.windows, strict=True):
        assert one.start <= both.start <= both.end <= one.end


@pytest.mark.full
@pytest.mark.skipif(
    not (SHARED / "data" / "calendars" / "windows.csv").is_file(),
    reason="the published calendars are not beside this checkout",
)
def test_scoreboard() -> None:
    """Against the published calendars of cool autumn seeding: overlap and both ends as good as they
    were, most best days hit.
    """
    import csv

    book = load_book()
    with (SHARED / "data" / "calendars" / "windows.csv").open(encoding="utf-8") as source:
        rows = [
            r
            for r in csv.DictReader(source)
            if r["operation"] in ("seed_autumn", "overseed")
            and r["season_type"] == "cool"
            and r["window_start"]
            and r["window_end"]
            and r["date_basis"] in ("dates_or_month_words", "holiday_words")
            and r["source_kind"] != "secondary"
        ]
    overlaps, hits = [], 0
    for row in rows:
        start, end = (date.fromisoformat(f"2027-{row[k]}") for k in ("window_start", "window_end"))
        published = {start + timedelta(days=k) for k in range((end - start).days + 1)}
        found = operation_windows(
            climate(float(row["lat"]), float(row["lon"])), book, ("tall_fescue",), 2027
        ).windows
        ours = next(
            w for w in found if w.operation == "overseed" and w.season in ("summer", "autumn")
        )
        days = {ours.start + timedelta(days=k) for k in range((ours.end - ours.start).days + 1)}
        overlaps.append(len(days & published) / len(days | published))
        hits += ours.best in published
    assert sorted(overlaps)[len(overlaps) // 2] >= 0.6 and hits / len(rows) >= 0.85


LANCASTER = (40.04, -76.31)


@pytest.mark.parametrize(
    ("grasses", "operation"),
    [
        (("bermuda_common", "zoysia"), "seed"),
        (("zoysia", "bermuda_common"), "seed"),
    ],
)
def test_a_mixed_stand_has_the_days_that_suit_each_of_its_grasses(
    grasses: tuple[str, str], operation: str
) -> None:
    """From the later first day to the earlier last one, with the best day inside."""
    book, georgia = load_book(), climate(33.9, -83.4)

    def window(stand: tuple[str, ...]) -> Any:
        found = windows_of_years(georgia, book, stand, (2027,)).windows
        (one,) = (w for w in found if w.operation == operation)
        return one

    first, second = (window((grass,)) for grass in grasses)
    assert (first.start, first.end) != (second.start, second.end)
    both = window(grasses)
    assert both.start == max(first.start, second.start)
    assert both.end == min(first.end, second.end)
    assert both.best == min(max(first.best, both.start), both.end)


def test_a_mixed_stand_shares_each_window_by_its_own_rule() -> None:
    """Two feedings of one autumn overlap: each is shared with its like, not with the other."""
    book, minnesota = load_book(), climate(44.98, -93.27)

    def feedings(*stand: str) -> dict[str, tuple[date, date]]:
        found = windows_of_years(minnesota, book, stand, (2027,)).windows
        return {w.rule: (w.start, w.end) for w in found if w.operation == "feed_nitrogen"}

    blue, rye = feedings("kentucky_bluegrass"), feedings("perennial_ryegrass")
    both = feedings("kentucky_bluegrass", "perennial_ryegrass")
    assert blue and set(both) == set(blue)
    for rule, (start, end) in both.items():
        assert (start, end) == (max(start, rye[rule][0]), min(blue[rule][1], rye[rule][1]))


def test_where_nothing_is_shared_the_first_grass_decides() -> None:
    """Fescue is overseeded in spring, whatever zoysia in its stand would like."""
    book, georgia = load_book(), climate(33.9, -83.4)

    def spring(*stand: str) -> list[Any]:
        found = windows_of_years(georgia, book, stand, (2027,)).windows
        return [w for w in found if (w.operation, w.season) == ("overseed", "spring")]

    assert spring("tall_fescue") and not spring("zoysia")
    assert spring("tall_fescue", "zoysia") == spring("tall_fescue")


@pytest.mark.parametrize("grass", ["tall_fescue", "bermuda_common"])
def test_a_rule_is_for_its_own_grasses(grass: str) -> None:
    """Rules of the other season, and of species that this is not, open nothing."""
    book = load_book()
    season = book.species[grass].season
    rules = {rule.id: rule for rule in book.windows}
    opened = {w.rule for w in openings(*LANCASTER, grass).windows}
    assert opened
    for name in opened:
        assert rules[name].grass in ("any", season)
        assert not rules[name].species or grass in rules[name].species
    other = {n for n, r in rules.items() if r.species and grass not in r.species}
    assert other and not other & opened


@pytest.mark.parametrize(
    ("asked", "region", "given"),
    [
        (True, None, True),
        (False, None, False),
        (None, None, False),
        (None, "arid_west", True),
        (False, "arid_west", False),
        (None, "southeast", False),
        (True, "southeast", True),
    ],
)
def test_who_says_nothing_has_the_habit_of_the_region(
    asked: bool | None, region: str | None, *, given: bool
) -> None:
    """The brief decides where it speaks, else the region's overlay, else it is a no."""
    policy = WindowPolicy(late_nitrogen=asked)
    assert _policy(load_book(region), policy, "late_nitrogen", unsaid=False) is given


def test_work_on_warm_season_grass_is_best_soon_after_its_season_opens() -> None:
    """Where summer is long, too: in Multan in April, not in May at 34 °C; in Georgia in June."""
    best = {
        (w.operation, place): w.best - w.start
        for place, at in {"Multan": (30.2, 71.48), "Atlanta": (33.75, -84.39)}.items()
        for w in openings(*at, "bermuda_common").windows
        if w.operation in ("topdress", "dethatch")
    }
    weeks = round(load_book().si("windows.season_best_within"))
    assert len(best) == 4 and all(0 < after.days <= weeks for after in best.values()), best


def test_the_first_cut_comes_soon_after_grass_begins_to_grow() -> None:
    """Where spring is long and summer cool, too: in Yorkshire in April, in Tasmania before spring;
    where spring is short it stays in the middle of its days."""
    places = {"Halifax": (53.72, -1.86), "Launceston": (-41.4, 147.1), "Minneapolis": (44.9, -93.3)}
    first = {
        place: next(
            w for w in openings(*at, "perennial_ryegrass").windows if w.operation == "first_mow"
        )
        for place, at in places.items()
    }
    most = round(load_book().si("windows.first_mow_within"))
    assert all(0 < (w.best - w.start).days <= most for w in first.values()), first
    assert first["Halifax"].best.month == 4
    short = first["Minneapolis"]
    assert abs((short.end - short.best) - (short.best - short.start)).days <= 1
