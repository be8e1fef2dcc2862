"""Seasons and halves of the year are those of the place, north and south of the equator."""

from datetime import date

import pytest

from turfplan.files.reading.book import load_book
from turfplan.message import as_written
from turfplan.work.drafts import OpenDays
from turfplan.work.year_seasons import half_of, half_of_window, next_growing_year, season_of

BOOK = load_book()


@pytest.mark.parametrize(
    ("day", "north", "south"),
    [
        ((2027, 3, 1), "spring", "autumn"),
        ((2027, 12, 31), "winter", "summer"),
        ((2027, 8, 31), "summer", "winter"),
        ((2027, 9, 1), "autumn", "spring"),
        ((2027, 2, 28), "winter", "summer"),
    ],
)
def test_seasons_are_meteorological(day: tuple[int, int, int], north: str, south: str) -> None:
    """March is spring in the north and autumn in the south."""
    assert season_of(BOOK, date(*day), southern=False) == north
    assert season_of(BOOK, date(*day), southern=True) == south


@pytest.mark.parametrize(
    ("day", "north", "south"),
    [
        ((2027, 1, 1), "spring", "autumn"),
        ((2027, 6, 30), "spring", "autumn"),
        ((2027, 7, 1), "autumn", "spring"),
        ((2027, 12, 31), "autumn", "spring"),
    ],
)
def test_a_year_has_two_halves(day: tuple[int, int, int], north: str, south: str) -> None:
    """To the end of June a northern day lies in the half in which growth comes back, from July on
    in the other.
    """
    assert half_of(BOOK, date(*day), southern=False) == north
    assert half_of(BOOK, date(*day), southern=True) == south


def test_the_growing_year_begins_in_spring() -> None:
    """The next one begins in March in the north, in September in the south, in the calendar year
    that follows.
    """
    assert next_growing_year(BOOK, date(2027, 10, 5), southern=False) == date(2028, 3, 1)
    assert next_growing_year(BOOK, date(2027, 1, 5), southern=True) == date(2027, 9, 1)
    assert next_growing_year(BOOK, date(2027, 8, 5), southern=True) == date(2028, 9, 1)


def window(rule: str, best: date) -> OpenDays:
    """A week to overseed that a rule opened, best on its last day."""
    said = as_written("")
    return OpenDays("overseed", "summer", best, best, best, said, said, rule=rule)


@pytest.mark.parametrize(
    ("rule", "best", "southern", "half"),
    [
        ("cool_overseed_spring", date(2027, 7, 17), False, "spring"),
        ("cool_overseed_spring", date(2028, 1, 17), True, "spring"),
        ("cool_overseed_autumn", date(2027, 6, 28), False, "autumn"),
        ("warm_seed", date(2027, 7, 2), False, "autumn"),
        ("", date(2027, 7, 2), False, "autumn"),
    ],
)
def test_a_window_of_cool_season_grass_lies_in_the_half_of_its_rule(
    rule: str, best: date, *, southern: bool, half: str
) -> None:
    """Where summer comes late spring is open into July: what is sown then is sown in spring."""
    assert half_of_window(BOOK, window(rule, best), southern=southern) == half
