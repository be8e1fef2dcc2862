"""The printed band holds the truth in nine surveys of ten."""

import math
from dataclasses import replace

import numpy as np
import pytest

from lawn_surveys import BOOK_LIKE, EXACT, added, bowl, bowl_m3, grid, points_at, rectangle, slope
from tiers import full, sampled
from turfplan.site.survey.doubt import Reach, _piece, errors_of_reading, halves, reach_of
from turfplan.site.survey.ground import SurveyedGround
from turfplan.site.survey.records import SurveyPoint
from turfplan.site.survey.surveyed_fill import fill_from_survey

pytest.importorskip("scipy")
# A campaign asks thousands.
SURVEYS = 80
FEW = 20


def reach(
    volume: float = 2.0,
    whole: float = 2.2,
    trials: tuple[float, ...] = (),
    halves_m3: tuple[float, ...] = (2.2, 2.2),
    pieces: tuple[float, ...] = (),
    ground: tuple[float, ...] = (4.0, 4.0),
    unseen: float = 0.0,
) -> Reach:
    """The band of made-up volumes."""
    arrays = (np.array(values) for values in (trials, pieces, ground))
    trials_m3, pieces_m3, pieces_m2 = arrays
    return reach_of(volume, whole, trials_m3, halves_m3, pieces_m3, pieces_m2, unseen)


def test_readings_and_gaps_add_up_as_squares() -> None:
    """Trials that spread by a tenth, halves that are off by 0.3 and 0.1, counted pieces of less."""
    found = reach(trials=(2.1, 2.2, 2.3), halves_m3=(1.9, 2.3), pieces=(0.1, 0.1))
    gaps = math.sqrt((0.3**2 + 0.1**2) / 2)
    band = math.hypot(1.6449 * 0.1, gaps)
    assert found.doubt.readings_m3 == pytest.approx(0.16449)
    assert found.doubt.gaps_m3 == pytest.approx(gaps)
    assert found.doubt.noise_m3 == pytest.approx(0.0, abs=1e-12)
    assert (found.low_m3, found.high_m3) == pytest.approx((2.2 - band, 2.2 + band))


def test_counted_pieces_leave_gaps_where_halves_agree() -> None:
    """The root of the sum of their squares; without halves anything up to the whole."""
    assert reach(pieces=(0.3, 0.4)).doubt.gaps_m3 == pytest.approx(0.5)
    none = reach(halves_m3=(), pieces=(0.3, 0.4))
    assert none.doubt.gaps_m3 == 2.2 and none.low_m3 == 0.0
    assert none.high_m3 == pytest.approx(4.4)


def test_what_noise_adds_is_taken_off_the_low_end_alone() -> None:
    """Trials that all hold 0.1 more: 2.414 times as much."""
    found = reach(trials=(2.3, 2.3), pieces=(0.0,))
    assert found.doubt.noise_m3 == pytest.approx(0.1)
    assert found.low_m3 == pytest.approx(2.2 - 0.1 / (math.sqrt(2) - 1))
    assert found.high_m3 == pytest.approx(2.2)
    assert reach(trials=(2.0, 2.0)).doubt.noise_m3 == 0.0
    assert reach(trials=(2.5,)).doubt.readings_m3 == 0.0


def test_hollows_that_no_point_met_widen_the_high_end() -> None:
    """By the score interval of a count; wide pieces count by their width."""
    assert _piece(np.array([1.0, 3.0]), 20.0) == pytest.approx((1 + 9) / 4 * 0.020)
    unseen = 1.6449**2 / 2 * 2.5 * 0.020
    found = reach(pieces=(0.3,), ground=(1.0, 3.0), unseen=20.0)
    assert found.doubt.unseen_m3 == pytest.approx(2 * unseen)
    assert found.high_m3 == pytest.approx(2.2 + unseen + math.hypot(0.3, unseen))
    assert found.low_m3 == pytest.approx(1.9)


def test_the_printed_volume_lies_in_the_band() -> None:
    """Also where it is less or more than the whole."""
    assert reach(volume=2.0).low_m3 == 2.0
    assert reach(volume=2.5).high_m3 == 2.5
    assert reach(volume=0.1, whole=0.2, pieces=(0.5,)).low_m3 == 0.0


def surveyed(setups: tuple[int, ...]) -> SurveyedGround:
    """As many points, each of its setup."""
    count = len(setups)
    names = tuple(f"P{n}" for n in range(count))
    return SurveyedGround(np.zeros((count, 2)), np.zeros(count), np.array(setups), names, ())


@pytest.mark.full
def test_errors_of_reading_come_in_pairs_of_the_stated_size() -> None:
    """Two hundred points, two hundred trials: 3 mm, and none on average."""
    settings = replace(EXACT, instrument_error_mm=3.0)
    found = errors_of_reading(surveyed((1,) * 200), settings, 200)
    assert found.shape == (200, 200)
    assert found[:, :100] == pytest.approx(-found[:, 100:])
    assert found[:, :100].std() == pytest.approx(3.0, rel=0.02)
    assert abs(np.corrcoef(found[:, :100])[np.triu_indices(200, 1)].mean()) < 0.01
    assert errors_of_reading(surveyed((1, 1)), settings).shape == (2, 60)


def test_each_setup_is_off_from_the_one_before() -> None:
    """None at the first; 4 mm at the second, and as much again at the third."""
    settings = replace(EXACT, instrument_error_mm=0.0, setup_error_mm=4.0)
    found = errors_of_reading(surveyed((1, 2, 2, 3)), settings, 4000)
    assert not found[0].any()
    assert (found[1] == found[2]).all()
    assert found[1].std() == pytest.approx(4.0, rel=0.05)
    assert (found[3] - found[2]).std() == pytest.approx(4.0, rel=0.05)
    assert not errors_of_reading(surveyed((1, 2)), replace(settings, setup_error_mm=0.0), 4).any()


def test_two_halves_share_out_the_points() -> None:
    """Each in its order, none twice."""
    seen: list[list[int]] = []

    def volume_of(kept: np.ndarray) -> float:
        seen.append(kept.tolist())
        return float(len(seen))

    volumes = halves(surveyed((1,) * 9), volume_of)
    assert volumes == (1.0, 2.0)
    assert sorted(seen[0] + seen[1]) == list(range(9))
    assert [len(half) for half in seen] == [5, 4] and all(half == sorted(half) for half in seen)


def simulated(
    seed: int, spacing_m: float | None = None
) -> tuple[tuple[SurveyPoint, ...], float, float, tuple[tuple[float, float], ...]]:
    """A lawn with a few hollows of known volume on a slope, surveyed with simulated errors: points,
    truth, error, outline.

    Sizes, hollows, the error of a reading (1 to 5 mm), and whether the grid is walked exactly or
    roughly are drawn at random; so is the spacing (0.75 to 2.5 m) where none is given.
    """
    random = np.random.default_rng(seed)
    length, width = random.uniform(12, 30), random.uniform(10, 20)
    hollows: list[tuple[float, float, float, float]] = []
    for _ in range(60):
        radius = random.uniform(1.0, 2.0)
        x, y = random.uniform(radius, length - radius), random.uniform(radius, width - radius)
        if len(hollows) < 8 and all(
            math.hypot(x - a, y - b) > radius + r for a, b, r, _ in hollows
        ):
            hollows.append((x, y, radius, random.uniform(15, 50)))
    error, drawn = (
        float(random.choice([1.0, 2.0, 3.0, 5.0])),
        float(random.choice([0.75, 1.0, 1.5, 2.0, 2.5])),
    )
    step = spacing_m or drawn
    across, up = round(length / step) + 1, round(width / step) + 1
    xs, ys = (
        a.ravel() for a in np.meshgrid(np.linspace(0, length, across), np.linspace(0, width, up))
    )
    if random.random() < 0.5:
        inner = (xs > 0) & (xs < length) & (ys > 0) & (ys < width)
        xs, ys = (
            v + np.where(inner, random.uniform(-0.4, 0.4, v.shape) * step, 0) for v in (xs, ys)
        )
    ground = added(
        slope(random.uniform(-4, 4), random.uniform(-2, 2)), *(bowl(*hollow) for hollow in hollows)
    )
    heights = ground(xs, ys) + random.normal(0, error, xs.shape)
    truth = sum(bowl_m3(radius, depth) for _, _, radius, depth in hollows)
    return points_at(xs, ys, heights), truth, error, rectangle(length, width)


def surveys(
    spacing_m: float | None, least_mm: float, first: int = 0, count: int = SURVEYS
) -> tuple[int, np.ndarray, np.ndarray]:
    """How many of the bands hold the truth, their widths as shares of it, and the errors of the
    volumes themselves.
    """
    held, widths, errors = 0, [], []
    for seed in range(first, first + count):
        points, truth, error, ring = simulated(seed, spacing_m)
        settings = replace(
            BOOK_LIKE,
            instrument_error_mm=error,
            outline=(ring,),
            cells_wanted=400,
            least_mm=least_mm,
            deep_limit_mm=1e6,
        )
        found = fill_from_survey(points, settings)
        held += found.low_m3 <= truth <= found.high_m3
        widths.append((found.high_m3 - found.low_m3) / truth)
        errors.append(found.volume_m3 / truth - 1)
    return held, np.array(widths), np.array(errors)


@full
@pytest.mark.parametrize(("spacing_m", "widest"), [(1.0, 0.8), (2.0, 1.2), (3.0, 1.7), (4.0, 2.2)])
def test_the_band_holds_the_truth_in_nine_surveys_of_ten(spacing_m: float, widest: float) -> None:
    """Random lawns at each spacing; the band is wide where points are few, and no wider than it
    must be in the middle.
    """
    held, widths, errors = surveys(spacing_m, least_mm=3.0, first=1000)
    assert held >= 0.9 * SURVEYS
    assert np.median(widths) < widest
    # With the shallow noise left out the volume itself is right on average where points are close,
    # and short where they are not.
    assert -0.05 - 0.06 * spacing_m < errors.mean() < 0.1


@full
def test_the_band_holds_the_truth_with_the_noise_left_in() -> None:
    """At spacings drawn at random, with fills of any depth counted."""
    held, widths, _ = surveys(None, least_mm=0.0)
    assert held >= 0.9 * SURVEYS
    assert np.median(widths) < 1.0


@pytest.mark.full
def test_the_band_holds_the_truth_in_a_sample() -> None:
    """Twenty lawns at spacings drawn at random: at most four bands miss, and the volume is right on
    average.
    """
    held, widths, errors = surveys(None, least_mm=3.0, first=5000, count=FEW)
    assert held >= 0.8 * FEW
    assert np.median(widths) < 1.2
    assert abs(errors.mean()) < 0.15


@pytest.mark.full
def test_hollows_that_no_point_met_are_allowed_for() -> None:
    """Sixteen points on even ground, 4 m apart: nothing is seen, and a few ordinary hollows may be
    there all the same.
    """
    wide = fill_from_survey(
        grid(12, 12, 4, 4, slope(-2)), replace(BOOK_LIKE, instrument_error_mm=1.0)
    )
    close = fill_from_survey(
        grid(12, 12, 25, 25, slope(-2)), replace(BOOK_LIKE, instrument_error_mm=1.0)
    )
    assert wide.volume_m3 == 0 and wide.low_m3 == 0 and wide.high_m3 > bowl_m3(1.5, 30)
    assert close.high_m3 < 0.1 * wide.high_m3


@pytest.mark.full
@pytest.mark.parametrize("seed", sampled(range(12), 0, 1, 2))
def test_the_volume_lies_in_its_own_band(seed: int) -> None:
    """Whatever is left out."""
    points, _, error, ring = simulated(seed)
    for least in (0.0, 3.0, 8.0):
        found = fill_from_survey(
            points, replace(BOOK_LIKE, instrument_error_mm=error, outline=(ring,), least_mm=least)
        )
        assert 0 <= found.low_m3 <= found.volume_m3 <= found.high_m3


@pytest.mark.full
def test_more_points_and_finer_readings_narrow_the_band() -> None:
    """Of the same ground."""

    def width(across: int, up: int, error: float) -> float:
        ground = added(slope(-2), bowl(6, 5, 1.9, 34), bowl(14, 9, 2.0, 30))
        random = np.random.default_rng(3)
        points = grid(
            20, 14, across, up, lambda x, y: ground(x, y) + random.normal(0, error, x.shape)
        )
        found = fill_from_survey(points, replace(BOOK_LIKE, instrument_error_mm=error))
        return found.high_m3 - found.low_m3

    assert width(41, 29, 2.0) < width(21, 15, 2.0) < width(11, 8, 2.0)
    assert width(21, 15, 1.0) < width(21, 15, 6.0)


@pytest.mark.full
def test_a_setup_that_was_off_is_part_of_the_doubt() -> None:
    """Two setups with an error between them: more doubt than one."""
    points = grid(20, 14, 21, 15, added(slope(-2), bowl(9, 7, 2, 40)))
    two = tuple(replace(p, setup=2 if p.x_m > 9 else 1) for p in points)
    alone = fill_from_survey(two, replace(EXACT, instrument_error_mm=1.0))
    joined = fill_from_survey(two, replace(EXACT, instrument_error_mm=1.0, setup_error_mm=8.0))
    assert joined.doubt.readings_m3 > 1.5 * alone.doubt.readings_m3


def test_few_points_leave_everything_in_doubt() -> None:
    """Five points, one of them low: anything from nothing to twice as much."""
    found = fill_from_survey(
        points_at([0, 10, 0, 10, 5], [0, 0, 10, 10, 5], [0, 0, 0, 0, -30]), BOOK_LIKE
    )
    assert found.low_m3 == 0.0
    assert found.high_m3 >= 2 * found.volume_m3
