"""Dry days for work and rain for seed, counted over years whose answers are known beforehand."""

from dataclasses import dataclass
from datetime import date

import pytest

from told import told
from turfplan.climate.weather_generator import GeneratedRain
from turfplan.files.reading.book import load_book
from turfplan.work.generated_years import GeneratedYears
from turfplan.work.rain_years import (
    DryJob,
    dry_week_share,
    dry_years,
    moist_years,
    of_ten,
    years_done,
)

# Monday, 6 September 2027.
MONDAY = date(2027, 9, 6).toordinal()


@dataclass(frozen=True)
class Told:
    """Years as lists of rain from the first place in the year on; beyond them it is dry."""

    years: tuple[tuple[float, ...], ...]

    def of_day(self, index: int) -> list[float]:
        return [year[index] if 0 <= index < len(year) else 0.0 for year in self.years]


def test_a_day_is_dry_without_rain_and_without_a_soaking_before() -> None:
    """By the book: up to 1 mm on the day, up to 10 mm on the day before."""
    rain = Told(((0.0, 1.0, 1.1, 10.0, 0.0, 10.1, 0.0),))
    held = [dry_years(load_book(), rain, day)[0] for day in range(7)]
    assert held == [True, True, False, False, True, False, False]


def test_jobs_wait_for_dry_days_in_turn() -> None:
    """Two jobs a week apart at least: rain on the first day of the first puts both off."""
    saturdays = tuple(MONDAY + 5 + 7 * week for week in range(3))
    jobs = [DryJob(saturdays), DryJob(saturdays[1:], gap=7)]
    wet = [0.0] * 15
    every_first, late = wet.copy(), wet.copy()
    every_first[0] = 5.0
    late[0] = late[7] = 5.0
    rain = Told((tuple(wet), tuple(every_first), tuple(late)))
    # Dry throughout; put off by a week, and still in time; only the last Saturday is dry.
    assert years_done(load_book(), rain, jobs, 0) == [True, True, False]


def test_a_job_of_several_days_is_dry_at_both_ends() -> None:
    """Saturday is dry, the Sunday on which it ends is not."""
    job = DryJob((MONDAY + 5,), span=1)
    rain = Told(((0.0, 4.0), (0.0, 0.0)))
    assert years_done(load_book(), rain, [job], 0) == [False, True]


def test_weeks_count_with_one_dry_day_of_work() -> None:
    """Of two week-ends in each of two years, three have a dry day."""
    days = (MONDAY + 5, MONDAY + 6, MONDAY + 12, MONDAY + 13)
    wet = (3.0, 3.0)
    rain = Told(((0.0, 3.0, *([0.0] * 5), *wet), (3.0, 0.0, *([0.0] * 5), 0.0, 0.0)))
    assert dry_week_share(load_book(), rain, days, 0) == pytest.approx(3 / 4)
    assert dry_week_share(load_book(), rain, (), 0) is None


def test_rain_keeps_seed_moist_over_both_spans() -> None:
    """It must make up the losses until seed is up and for as long as it must not dry out."""
    losses = [2.0] * 365
    rain = Told(
        (
            (4.0, 0.0, 0.0, 4.0),  # 4 of 4 mm in two days, 8 of 8 in four
            (0.0, 0.0, 4.0, 4.0),  # too late
            (4.0, 0.0, 0.0, 0.0),  # too little afterwards
        )
    )
    assert moist_years(rain, losses, (2, 4), 0) == [True, False, False]


@pytest.mark.parametrize(
    ("share", "words"),
    [
        (0.0, "hardly any"),
        (0.04, "hardly any"),
        (0.05, "about 1 of 10"),
        (0.68, "about 7 of 10"),
        (0.94, "about 9 of 10"),
        (0.96, "nearly all"),
        (1.0, "nearly all"),
    ],
)
def test_a_share_is_told_in_tenths(share: float, words: str) -> None:
    """No more is claimed than made-up years can tell."""
    assert told(of_ten(share)) == words


def test_generated_years_judge_by_rain_alone() -> None:
    """A pass asks for dry ends; what is sown asks for rain only where nobody waters; no window, no
    frost and no growth is asked for."""
    book = load_book()
    desert = GeneratedRain("desert", [0.0] * 12, [0.0] * 12)
    years = GeneratedYears(desert, book, (3.0,) * 365)
    assert years.asks("topdress")
    assert not years.asks("overseed")
    assert not years.asks("mow_low")
    tally = years.tally("topdress", date(2027, 9, 4), date(2027, 9, 5))
    assert tally.worked == tally.years
    assert told(tally.message).startswith("dry on its first and its last day in ")
    alone = GeneratedYears(desert, book, (3.0,) * 365, on_rain=(14, 35))
    assert alone.asks("overseed")
    assert not alone.asks("dormant_seed")
    sown = alone.tally("overseed", date(2027, 9, 4), date(2027, 9, 4))
    assert sown.worked == 0
    assert told(sown.message).startswith("rain enough in the 35 days after in 0 of ")
