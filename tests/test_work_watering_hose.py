"""One hose: the minutes of its day, and how much of a lawn it keeps wet."""

from dataclasses import replace

import pytest

import water_cases as cases
from told import told as told_in_words
from turfplan.message import as_written
from turfplan.records.brief import Water
from turfplan.work.watering.hose import SeedbedDay, hours_assumed, kept_wet_share
from turfplan.work.watering.intake import Intake
from turfplan.work.watering.run_times import Hose, WateringZone

BOOK = cases.book()
# 20 L a minute on settings of 100 m2 are 12 mm/h: 3 mm take 15 minutes in each place, and one more
# to move. The ground takes all of it.
HOSE = Hose(flow_l_min=20.0, cover_m2=100.0, least_m2=50.0, move_min=1.0, most_min=None)
LAWN = WateringZone(None, as_written("lawn"), 1000.0, 12.0, hose=HOSE)
DAY = SeedbedDay(6.0, 2, Intake((), 60.0, 3.0, 30.0, 9))


def test_a_day_of_a_hose_is_all_its_runs_in_all_its_places() -> None:
    """Two runs of 3 mm in ten places: 2 x 10 x 15 minutes, and 2 x 10 moves where somebody turns
    the water on.
    """
    assert DAY.minutes(LAWN) == 2 * 10 * 15
    by_hand = replace(LAWN, hose=replace(HOSE, most_min=600.0))
    assert DAY.minutes(by_hand) == 2 * 10 * (15 + 1)
    assert SeedbedDay(6.0, 1, DAY.intake).minutes(LAWN) == 10 * 30
    assert SeedbedDay(6.0, 3, DAY.intake).minutes(LAWN) == 3 * 10 * 10


@pytest.mark.parametrize(
    ("hours_min", "share"),
    [(None, 1.0), (400, 1.0), (320, 1.0), (319, 0.95), (160, 0.5), (64, 0.2), (59, 0.0)],
)
def test_the_part_kept_wet_is_what_the_hours_at_home_hold(
    hours_min: float | None, share: float
) -> None:
    """Each place takes 32 minutes a day: all ten in 320, five in 160. A twentieth less makes the
    places smaller, wet a minute sooner. Less than a fifth is not worth sowing; a timer waters all.
    """
    zone = replace(LAWN, hose=replace(HOSE, most_min=hours_min))
    assert kept_wet_share(zone, BOOK, DAY) == share


def test_sprinklers_keep_all_of_a_lawn_wet() -> None:
    """Where nothing is moved nobody's hours count."""
    assert kept_wet_share(replace(LAWN, hose=None), BOOK, DAY) == 1.0


@pytest.mark.parametrize(
    "told",
    [
        {"hours_per_day": 3},
        {"possible": False},
        {"timer": True},
        {"head": "spray"},
        {"application_rate": "12 mm/h"},
    ],
)
def test_hours_at_the_hose_are_assumed_where_a_hose_is_moved_and_nobody_told(
    told: dict[str, object],
) -> None:
    """Said with the hours taken; not where they are told, nobody waters, or nothing is moved."""
    assumed = hours_assumed(Water(), BOOK)
    assert assumed is not None and "4 hours" in told_in_words(assumed)
    assert hours_assumed(Water.model_validate(told), BOOK) is None
