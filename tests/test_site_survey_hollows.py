"""Fill from a list of hollows, with the standard library alone."""

import math
import subprocess
import sys
from dataclasses import replace

import pytest

from told import all_told
from told_errors import refused
from turfplan.site.survey.hollows import fill_from_lows
from turfplan.site.survey.records import FillClass, LowSpot, SurveySettings
from turfplan.units import System

SETTINGS = SurveySettings(10.0, 50.8, instrument_error_mm=3.0, settle_share=0.1, settle_high=0.2)


def test_length_by_width_by_mean_depth() -> None:
    """As a tape and a ruler give it."""
    found = fill_from_lows(
        [LowSpot("a", 3.0, 2.0, 20.0), LowSpot("b", 1.0, 1.0, 5.0)], 200.0, SETTINGS
    )
    assert found.volume_m3 == pytest.approx(3 * 2 * 0.020 + 0.005)
    assert found.mean_fill_mm == pytest.approx(found.volume_m3 / 200 * 1000)
    assert found.deepest_mm == 20.0


def test_the_deepest_gap_makes_a_bowl() -> None:
    """Half of the oval's area times the depth."""
    found = fill_from_lows([LowSpot("a", 4.0, 2.0, None, 40.0)], 200.0, SETTINGS)
    assert found.volume_m3 == pytest.approx(math.pi / 4 * 8 * 0.040 / 2)
    assert found.classes[1].area_m2 == pytest.approx(math.pi / 4 * 8)


def test_passes_and_lifting() -> None:
    """25 mm take three passes of a cap of 10; 60 mm are lifted."""
    found = fill_from_lows(
        [LowSpot("flat", 3.0, 2.0, 25.0), LowSpot("pit", 1.0, 1.0, 60.0)], 200.0, SETTINGS
    )
    assert [p.depth_mm for p in found.passes] == pytest.approx([25 / 3] * 3)
    assert sum(p.volume_m3 for p in found.passes) == pytest.approx(6 * 0.025)
    assert (found.zones[0].lift_m2, found.zones[0].lift_m3) == pytest.approx((1.0, 0.060))
    assert any("pit is deeper than 51 mm" in c for c in all_told(found.cautions, System.METRIC))
    assert [(c.letter, c.area_m2) for c in found.classes] == [("·", 193.0), ("3", 6.0), ("L", 1.0)]


def test_the_band_widens_with_the_ruler() -> None:
    """A coarser reading leaves more in doubt."""
    lows = [LowSpot("a", 3.0, 2.0, 20.0)]
    fine, coarse = (
        fill_from_lows(lows, 200.0, SurveySettings(10.0, 50.8, instrument_error_mm=error))
        for error in (1.0, 8.0)
    )
    assert coarse.high_m3 - coarse.low_m3 > fine.high_m3 - fine.low_m3 > 0
    # Length and width are read to a tenth each; of the depth's error, that of a ruler, comes as
    # much as it is of the depth.
    for found, error in ((fine, 1.0), (coarse, 8.0)):
        half = 1.645 * 0.120 * math.sqrt((error / 20) ** 2 + 0.1**2 + 0.1**2)
        assert found.high_m3 - found.volume_m3 == pytest.approx(half, rel=1e-3)
        assert found.volume_m3 - found.low_m3 == pytest.approx(half, rel=1e-3)
        assert found.doubt.readings_m3 == pytest.approx(half, rel=1e-3)
        assert (found.doubt.gaps_m3, found.doubt.noise_m3) == (0.0, 0.0)


def test_the_order_is_loose_and_has_a_reserve() -> None:
    """As much more as settles, and a layer on a share of the lawn for touching up."""
    settings = replace(SETTINGS, touch_up_share=0.1, touch_up_mm=3.0)
    found = fill_from_lows([LowSpot("a", 3.0, 2.0, 20.0)], 200.0, settings)
    reserve = 200 * 0.1 * 0.003 * 1.1
    assert found.order.touch_up_m3 == pytest.approx(reserve)
    assert found.order.best_m3 == pytest.approx(0.120 * 1.1 + reserve)
    assert found.order.high_m3 == pytest.approx(found.high_m3 * 1.2 + reserve)


def test_no_numpy_is_needed() -> None:
    """A list of hollows works without the extra."""
    code = (
        "import sys\n"
        "for name in ('numpy', 'scipy'): sys.modules[name] = None\n"
        "from turfplan.site.survey.hollows import fill_from_lows\n"
        "from turfplan.site.survey.records import LowSpot, SurveySettings\n"
        "print(fill_from_lows([LowSpot('a', 3.0, 2.0, 20.0)], 200.0, "
        "SurveySettings(10.0, 50.0)).volume_m3)\n"
    )
    assert (
        subprocess.run(
            [sys.executable, "-c", code], capture_output=True, text=True, check=True
        ).stdout.strip()
        == "0.12"
    )


def test_later_layers_lie_on_the_hollows_that_still_need_them() -> None:
    """25 mm and 8 mm in three layers: the second lies on the deep one alone."""
    found = fill_from_lows(
        [LowSpot("deep", 3.0, 2.0, 25.0), LowSpot("shallow", 5.0, 2.0, 8.0)], 200.0, SETTINGS
    )
    layer = 25 / 3
    assert [p.number for p in found.passes] == [1, 2, 3]
    assert [p.area_m2 for p in found.passes] == pytest.approx([16.0, 6.0, 6.0])
    volumes = [(6 * layer + 10 * 8.0) / 1000, 6 * layer / 1000, 6 * layer / 1000]
    assert [p.volume_m3 for p in found.passes] == pytest.approx(volumes)
    assert [(c.letter, c.passes, c.area_m2) for c in found.classes] == [
        ("·", 0, 184.0),
        ("1", 1, 10.0),
        ("3", 3, 6.0),
    ]
    assert found.mean_fill_mm == pytest.approx((6 * 25 + 10 * 8) / 200)


def test_every_figure_of_two_hollows() -> None:
    """Six square metres 20 mm deep on a lawn of 200, one of them a square metre of 60 to be lifted:
    by hand.
    """
    found = fill_from_lows(
        [LowSpot("flat", 3.0, 2.0, 20.0), LowSpot("pit", 2.0, 0.5, 60.0)], 200.0, SETTINGS
    )
    (zone,) = found.zones
    assert (found.area_m2, found.volume_m3, found.deepest_mm) == pytest.approx((200.0, 0.18, 60.0))
    assert (found.mean_fill_mm, found.cut_m3, found.points) == (pytest.approx(0.9), 0.0, 2)
    assert found.spacing_m == pytest.approx(10.0)
    assert (zone.area_m2, zone.share, zone.mean_mm) == (200.0, 1.0, pytest.approx(0.9))
    assert (zone.deepest_mm, zone.volume_m3) == pytest.approx((60.0, 0.18))
    assert zone.passes == found.passes and len(zone.passes) == 2
    assert (found.doubt.gaps_m3, found.doubt.noise_m3, found.doubt.unseen_m3) == (0.0, 0.0, 0.0)
    rest, flat, pit = found.classes
    assert rest == FillClass("·", 0, 0.0, 0.0, 193.0, 193 / 200, 0.0, 0.0)
    assert (flat.low_mm, flat.high_mm, flat.mean_mm) == pytest.approx((20.0, 20.0, 20.0))
    assert (flat.share, flat.volume_m3) == pytest.approx((0.03, 0.12))
    assert (pit.passes, pit.area_m2, pit.share, pit.volume_m3) == (None, 1.0, 0.005, 0.06)


def test_a_class_reaches_from_its_shallowest_to_its_deepest() -> None:
    """Its mean is that of its ground."""
    found = fill_from_lows(
        [LowSpot("a", 3.0, 2.0, 12.0), LowSpot("b", 1.0, 2.0, 19.0)], 100.0, SETTINGS
    )
    two = found.classes[1]
    assert two.letter == "2" and (two.low_mm, two.high_mm) == pytest.approx((12.0, 19.0))
    assert two.mean_mm == pytest.approx((6 * 12 + 2 * 19) / 8)


def test_each_hollow_is_in_doubt_by_itself() -> None:
    """Their errors add up as squares: of a deep one by its deepest depth, of a mean one by that."""
    lows = [LowSpot("a", 3.0, 2.0, 20.0), LowSpot("b", 4.0, 2.0, None, 40.0)]
    found = fill_from_lows(lows, 200.0, SETTINGS)
    bowl = math.pi / 4 * 8 * 0.040 / 2
    first = 0.12 * math.sqrt((3 / 20) ** 2 + 2 * 0.1**2)
    second = bowl * math.sqrt((3 / 40) ** 2 + 2 * 0.1**2)
    half = 1.6449 * math.hypot(first, second)
    assert found.doubt.readings_m3 == pytest.approx(half)
    assert found.low_m3 == pytest.approx(0.12 + bowl - half)
    rough = fill_from_lows(lows[:1], 200.0, replace(SETTINGS, instrument_error_mm=30.0))
    assert rough.low_m3 == 0.0 and rough.high_m3 > 2 * 0.12


@pytest.mark.parametrize(
    ("lows", "words"),
    [
        ([], "hollow"),
        ([LowSpot("a", 3.0, 2.0, 0.0)], "a: "),
        ([LowSpot("a", 0.0, 2.0, 5.0)], "a: "),
        ([LowSpot("a", 3.0, 0.0, 5.0)], "a: "),
        ([LowSpot("a", 3.0, 2.0)], "a: "),
        ([LowSpot("a", 3.0, 2.0, None, -4.0)], "a: "),
        ([LowSpot("a", 10.0, 6.0, 5.0), LowSpot("b", 10.0, 4.1, 5.0)], "101.0 m2"),
    ],
)
def test_hollows_without_size_or_too_large_are_refused(lows: list[LowSpot], words: str) -> None:
    """On a lawn of a hundred square metres."""
    with refused(words):
        fill_from_lows(lows, 100.0, SETTINGS)


def test_hollows_may_take_the_whole_lawn() -> None:
    """A tenth of a metre long is long enough."""
    lows = [LowSpot("a", 10.0, 6.0, 5.0), LowSpot("b", 10.0, 4.0, 5.0)]
    assert fill_from_lows(lows, 100.0, SETTINGS).classes[0].area_m2 == 0.0
    assert fill_from_lows([LowSpot("a", 0.1, 0.1, 0.5)], 100.0, SETTINGS).points == 1


@pytest.mark.parametrize(
    ("depth", "passes", "lifted"),
    [
        (4.0, 0, False),
        (4.1, 1, False),
        (10.0, 1, False),
        (10.1, 2, False),
        (50.8, 6, False),
        (50.9, 0, True),
    ],
)
def test_passes_begin_above_the_least_and_end_at_the_limit(
    depth: float, passes: int, *, lifted: bool
) -> None:
    """At most ten millimetres each."""
    settings = replace(SETTINGS, least_mm=4.0)
    found = fill_from_lows([LowSpot("a", 3.0, 2.0, depth)], 200.0, settings)
    assert len(found.passes) == passes
    assert (found.zones[0].lift_m2 > 0) == lifted == bool(found.cautions)


def test_the_least_of_an_order_allows_for_the_least_settling() -> None:
    """By its own share."""
    settings = replace(SETTINGS, settle_low=0.05, touch_up_share=0.2, touch_up_mm=2.0)
    found = fill_from_lows([LowSpot("a", 3.0, 2.0, 20.0)], 200.0, settings)
    assert found.order.low_m3 == pytest.approx(found.low_m3 * 1.05 + 200 * 0.2 * 0.002 * 1.1)
