"""The windows of the book against the calendars that institutions publish for their own regions.

The rows come from `../shared/data/calendars/windows.csv`, where each names its institution and
title; without that file the board is skipped. Nothing of the rows enters the windows: they follow
from climate and species. Run with `-s` to see the board by operation and season.
"""

import csv
from collections import defaultdict
from collections.abc import Iterator, Mapping
from datetime import date
from functools import cache
from pathlib import Path
from statistics import median
from typing import NamedTuple

import pytest

from planning import climate_at
from turfplan.climate.record import Climate
from turfplan.files.reading.book import load_book
from turfplan.work.drafts import OpenDays
from turfplan.work.windows import WindowPolicy, operation_windows

CALENDARS = Path(__file__).parents[2] / "shared" / "data" / "calendars"
ROWS, WORLD = CALENDARS / "windows.csv", CALENDARS / "windows_world.csv"
YEAR = 2027
# What the rows call a grass, as the book's species; the first word found decides.
GRASSES = {
    "TF": "tall_fescue",
    "KBG": "kentucky_bluegrass",
    "fine fescue": "fine_fescue",
    "PRG": "perennial_ryegrass",
    "ryegrass": "perennial_ryegrass",
    "bermuda": "bermuda_common",
    "couch": "bermuda_common",
    "zoysia": "zoysia",
    "centipede": "centipede",
    "bahia": "bahia",
    "buffalo": "buffalo",
    "St. Augustine": "st_augustine",
    "StA": "st_augustine",
}
# What the rows call a job: the book's operation, and the seasons in which its window may stand
# (none: any).
JOBS: dict[str, tuple[str, frozenset[str]]] = {
    "seed_autumn": ("seed", frozenset({"autumn", "summer"})),
    "seed_spring": ("seed", frozenset({"spring"})),
    "seed_summer": ("seed", frozenset({"spring", "summer"})),
    "overseed": ("overseed", frozenset()),
    "sod/plugs": ("plant", frozenset()),
    "dethatch": ("dethatch", frozenset()),
    "core_aerate": ("core_aerate", frozenset()),
    "topdress/level": ("topdress", frozenset()),
    "fertilise_N": ("feed_nitrogen", frozenset()),
    "preemergent_crabgrass": ("preemergent", frozenset()),
    "first_mow_year": ("first_mow", frozenset()),
    "dormant_seed": ("dormant_seed", frozenset()),
    "last_mow": ("last_mow", frozenset()),
}
FEW = 5
"""Operations with fewer rows are shown, not judged."""


class Score(NamedTuple):
    """One published row beside our window that meets it best; errors in days."""

    overlap: float
    hit: bool
    start: int
    end: int


NOTHING = Score(0.0, False, 99, 99)


def days(start: date, end: date) -> frozenset[int]:
    """The places in the year from start to end, over New Year where it must be."""
    first = start.timetuple().tm_yday
    length = (end.timetuple().tm_yday - first) % 365 + 1
    return frozenset((first + n) % 365 for n in range(length))


def apart(a: date, b: date) -> int:
    """Days between two places in the year, the short way round."""
    return abs((a.timetuple().tm_yday - b.timetuple().tm_yday + 182) % 365 - 182)


def grass_of(row: Mapping[str, str]) -> str:
    """The species a row speaks of; a warm-season row never means a cool-season grass."""
    cool = ("tall_fescue", "kentucky_bluegrass", "fine_fescue", "perennial_ryegrass")
    warm = row["season_type"] == "warm"
    named = [
        name
        for word, name in GRASSES.items()
        if word in row["grass"] and not (warm and name in cool)
    ]
    return named[0] if named else "bermuda_common" if warm else "tall_fescue"


@cache
def place(latitude: float, longitude: float) -> Climate:
    """The packed climate of a row's place."""
    return climate_at(latitude, longitude)


@cache
def windows(latitude: float, longitude: float, species: str) -> tuple[OpenDays, ...]:
    """Our windows there."""
    return tuple(
        operation_windows(
            place(latitude, longitude), load_book(), (species,), YEAR, WindowPolicy()
        ).windows
    )


def score(row: Mapping[str, str]) -> Score:
    """Our best-matching window against the row."""
    published = [date.fromisoformat(f"{YEAR}-{row[key]}") for key in ("window_start", "window_end")]
    theirs = days(*published)
    operation, seasons = JOBS[row["operation"]]
    found = [NOTHING]
    for window in windows(float(row["lat"]), float(row["lon"]), grass_of(row)):
        if window.operation == operation and (not seasons or window.season in seasons):
            ours = days(window.start, window.end)
            found.append(
                Score(
                    len(ours & theirs) / len(ours | theirs),
                    window.best.timetuple().tm_yday % 365 in theirs,
                    apart(window.start, published[0]),
                    apart(window.end, published[1]),
                )
            )
    return max(found, key=lambda s: (s.overlap, s.hit))


def rows() -> Iterator[dict[str, str]]:
    """The first-hand rows with dates of their own; season words and second-hand tables are left
    out.
    """
    with ROWS.open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            dated = (
                row["window_start"]
                and row["window_end"]
                and row["date_basis"] in ("dates_or_month_words", "holiday_words")
            )
            if (
                dated
                and row["source_kind"] != "secondary"
                and not row["grass"].startswith("kikuyu")
            ):
                yield row


@pytest.fixture(scope="module")
def board() -> dict[tuple[str, str], list[Score]]:
    """The scores by season type and operation, printed as a table."""
    if not ROWS.is_file():
        pytest.skip("no published calendars beside this checkout")
    found: dict[tuple[str, str], list[Score]] = defaultdict(list)
    for row in rows():
        found[row["season_type"], row["operation"]].append(score(row))
    for (season, operation), scores in sorted(found.items()):
        print(f"{season:5} {operation:22} {told(scores)}")
    return found


def told(scores: list[Score]) -> str:
    """A line of the board."""
    share = 100 * sum(s.hit for s in scores) / len(scores)
    return (
        f"n={len(scores):3} hits {share:5.1f} % overlap {median(s.overlap for s in scores):.2f} "
        f"start {median(s.start for s in scores):.0f} d end {median(s.end for s in scores):.0f} d"
    )


def test_cool_grass_is_sown_when_institutions_say(
    board: dict[tuple[str, str], list[Score]],
) -> None:
    """Cool-season seeding and overseeding in autumn: nine of ten best days inside, and the edges
    near.
    """
    scores = board["cool", "seed_autumn"] + board["cool", "overseed"]
    print("cool autumn seeding", told(scores))
    assert sum(s.hit for s in scores) >= 0.92 * len(scores)
    assert median(s.overlap for s in scores) >= 0.65
    assert median(s.start for s in scores) <= 8
    assert median(s.end for s in scores) <= 9


def test_all_work_falls_into_the_published_seasons(
    board: dict[tuple[str, str], list[Score]],
) -> None:
    """Over every operation: four of five best days inside, and half of the days shared."""
    scores = [s for part in board.values() for s in part]
    print("all", told(scores))
    assert sum(s.hit for s in scores) >= 0.82 * len(scores)
    assert median(s.overlap for s in scores) >= 0.52


def test_every_operation_that_calendars_speak_of_has_a_window(
    board: dict[tuple[str, str], list[Score]],
) -> None:
    """No operation goes without any window, and of those with five rows or more none misses every
    one.
    """
    for key, scores in board.items():
        assert any(s != NOTHING for s in scores), key
        assert len(scores) < FEW or any(s.hit for s in scores), key


# Rows of the world that do not speak of what is planned, and why.
SPEAKS_OF_ELSE = {
    "Y007": "an autumn formula of potash, counted as nitrogen",
    "Y032": "an autumn formula of potash, counted as nitrogen",
    "Y028": "a rugby pitch at the end of its season",
    "Y029": "a rugby pitch at the end of its season",
    "Y023": "one week of a columnist",
    "Y025": "one week of a columnist",
}


def test_the_world_has_its_seasons_too() -> None:
    """Calendars from elsewhere: three of four best days inside, near half of the days shared."""
    if not WORLD.is_file():
        pytest.skip("no published calendars of the world beside this checkout")
    with WORLD.open(encoding="utf-8") as file:
        rows = [
            row
            for row in csv.DictReader(file)
            if row["id"] not in SPEAKS_OF_ELSE
            and row["window_start"]
            and row["window_end"]
            and row["date_basis"] in ("dates_or_month_words", "holiday_words", "season_words")
            and not row["grass"].startswith("kikuyu")
        ]
    scores = [score(row) for row in rows]
    print("world", told(scores))
    assert sum(s.hit for s in scores) >= 0.75 * len(scores)
    assert median(s.overlap for s in scores) >= 0.45
