"""Broad hollows are filled, and the lawn's own fall is kept."""

from dataclasses import replace
from itertools import product

import numpy as np
import pytest

from lawn_surveys import (
    BOOK_LIKE,
    FORMS,
    BroadLawn,
    Height,
    added,
    bowl,
    bowl_m3,
    broad_lawn,
    cone_m3,
    grid,
    random_broad_lawn,
    rectangle,
    slope,
)
from tiers import full, sampled, sampled_pairs
from told import all_told
from turfplan.site.survey.records import SurveyPoint
from turfplan.site.survey.surveyed_fill import fill_from_survey
from turfplan.units import System

pytest.importorskip("scipy")
TENTH = 0.1
# Length and width of lawns, m.
SIZES = ((20.0, 20.0), (12.0, 9.0), (26.0, 16.0), (60.0, 12.0), (60.0, 40.0))
# Radius as a share of the width; where it lies: shares of the length and of the width, the second
# one of what lies between the hollow and the edge where it is small.
WIDTHS = (0.15, 0.25)
PLACES = ((0.5, 0.5), (0.3, 0.45), (0.6, 0.27))
# A third of all: each size, width, place and form is met. The campaign of surveys draws others.
GRID = list(product(range(len(SIZES)), WIDTHS, PLACES, FORMS))[::3]


def found_share(lawn: BroadLawn) -> float:
    """The fill that the hollow adds, as a share of its volume: what errors add by themselves is
    taken off by the same survey of even ground.
    """
    settings = lawn.settings()
    with_hollow, even = (
        fill_from_survey(points, settings).volume_m3 for points in (lawn.points, lawn.even)
    )
    return (with_hollow - even) / lawn.truth_m3


def bands_held(first: int, count: int) -> tuple[int, np.ndarray, np.ndarray]:
    """How many bands hold the truth on random lawns, their widths and errors as shares of it."""
    held, widths, errors = 0, [], []
    for seed in range(first, first + count):
        lawn = random_broad_lawn(seed)
        found = fill_from_survey(lawn.points, lawn.settings())
        held += found.low_m3 <= lawn.truth_m3 <= found.high_m3
        widths.append((found.high_m3 - found.low_m3) / lawn.truth_m3)
        errors.append(found.volume_m3 / lawn.truth_m3 - 1)
    return held, np.array(widths), np.array(errors)


@pytest.mark.parametrize("spacing_m", sampled([1.0, 2.0], 2.0))
def test_a_cone_half_as_wide_as_its_lawn(spacing_m: float) -> None:
    """Of 5 m radius and 30 mm in a lawn of 20 m: within a tenth, and inside the band."""
    lawn = broad_lawn((20, 20), (10, 10, 5, 30), "plane", spacing_m, 1.0, conical=True)
    found = fill_from_survey(lawn.points, lawn.settings())
    assert lawn.truth_m3 == pytest.approx(cone_m3(5, 30))
    assert found.volume_m3 == pytest.approx(lawn.truth_m3, rel=TENTH)
    assert found.low_m3 <= lawn.truth_m3 <= found.high_m3


@pytest.mark.full
@pytest.mark.parametrize(
    ("size", "share", "place", "form"),
    sampled_pairs(GRID, *GRID[2::8]),
)
def test_hollows_up_to_a_quarter_of_the_width(
    size: int, share: float, place: tuple[float, float], form: str
) -> None:
    """Within a tenth on lawns of many sizes, wherever it lies and however the lawn falls."""
    length, width = SIZES[size]
    radius = share * width
    hollow = (place[0] * length, max(place[1] * width, radius + 0.3), radius, 40.0)
    lawn = broad_lawn((length, width), hollow, form, max(radius / 4, width / 20), 1.0, seed=size)
    assert found_share(lawn) == pytest.approx(1.0, abs=TENTH)


@pytest.mark.full
def test_the_band_holds_broad_hollows_in_a_sample() -> None:
    """Six lawns drawn at random: at most one band misses."""
    assert bands_held(7000, 6)[0] >= 5


@full
def test_the_band_holds_broad_hollows_in_nine_surveys_of_ten() -> None:
    """At spacings and errors drawn at random; the volume is right in the middle."""
    held, widths, errors = bands_held(2000, 40)
    assert held >= 36
    assert np.median(widths) < 3.0
    assert abs(float(np.median(errors))) < 0.15


@pytest.mark.full
def test_noise_on_a_large_lawn_does_not_lift_the_band_off_the_truth() -> None:
    """A small hollow and hundreds of readings each with its error: the low end takes them off."""
    lawn = broad_lawn((60, 10), (20, 5, 2.5, 30), "sloping", 1.0, 3.0, conical=True)
    found = fill_from_survey(lawn.points, lawn.settings())
    assert found.low_m3 <= lawn.truth_m3 <= found.high_m3


def bank(x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """Level, then a bank of one in four at one side."""
    return -250.0 * np.clip(x - 22, 0, None)


def open_valley(x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """A valley that begins inside the lawn and falls out of it."""
    return -8.0 * np.clip(x - 9, 0, None) * np.clip(1 - np.abs(y - 9) / 4, 0, None)


def valley(x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """A valley from end to end."""
    return -80.0 * np.clip(1 - np.abs(y - 9) / 4, 0, None)


def roof(x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """Two slopes that meet in a ridge."""
    return -15.0 * np.abs(y - 9)


def open_corner(x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """A corner that falls away."""
    return -40.0 * np.clip(8 - np.hypot(x - 26, y - 18), 0, None)


@pytest.mark.full
@pytest.mark.parametrize(
    ("ground", "most_m3"),
    sampled_pairs(
        [(bank, 0.1), (open_valley, 2.5), (valley, 2.5), (roof, 0.1), (open_corner, 0.6)],
        (bank, 0.1),
        (valley, 2.5),
    ),
)
def test_ground_that_falls_away_is_not_filled(ground: Height, most_m3: float) -> None:
    """A bank, a corner or a valley keeps its fall.

    A valley's bottom alone is rounded, as far as the local fall rounds it: by an eighth at most.
    """
    found = fill_from_survey(
        grid(26, 18, 27, 19, ground), replace(BOOK_LIKE, instrument_error_mm=1.0)
    )
    assert found.volume_m3 <= most_m3


def test_a_bed_in_a_hollow_is_no_way_out() -> None:
    """Water does not leave the lawn there."""
    points = grid(20, 20, 21, 21, added(slope(-1), bowl(10, 10, 5, 40)))
    bed = rectangle(1.5, 1.5)
    hole = tuple((x + 9.25, y + 9.25) for x, y in bed)
    found = fill_from_survey(
        points, replace(BOOK_LIKE, instrument_error_mm=1.0, holes=(hole,), deep_limit_mm=1e6)
    )
    missing = bowl_m3(5, 40) - 1.5 * 1.5 * 0.039
    assert found.volume_m3 == pytest.approx(missing, rel=TENTH)


@pytest.mark.full
def test_other_targets_are_told_beside_the_default() -> None:
    """One even plane would fill the sides of a crown, the straightedge stays below a broad hollow;
    a plan for another target does not compare.
    """
    lawn = broad_lawn((20, 20), (10, 10, 5, 30), "crowned", 1.0, 1.0)
    told = {
        target: [
            note
            for note in all_told(
                fill_from_survey(lawn.points, replace(lawn.settings(), target=target)).notes,
                System.METRIC,
            )
            if "Other targets" in note
        ]
        for target in ("own_fall", "plane")
    }
    plane, straight = (
        fill_from_survey(lawn.points, replace(lawn.settings(), target=target)).volume_m3
        for target in ("plane", "fill_only")
    )
    assert told["plane"] == []
    (note,) = told["own_fall"]
    assert f"one even plane {round(plane * 20) / 20:g} m³" in note
    assert f"straightedge of 3 m {round(straight * 20) / 20:g} m³" in note


def test_two_rows_of_points_bear_no_form_across() -> None:
    """The local fall alone is read, however high the datum."""
    points = tuple(
        SurveyPoint(float(x), float(y), 1e5 - 10.0 * x, f"{x}-{y}")
        for x in range(0, 48, 8)
        for y in (0, 12)
    )
    assert fill_from_survey(points, BOOK_LIKE).volume_m3 == 0.0
