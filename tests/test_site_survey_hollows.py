"""Fill from a list of hollows, with the standard library alone."""

import math
import subprocess
import sys
from dataclasses import replace

import pytest

from told import all_told
from turfplan.site.survey.hollows import fill_from_lows
from turfplan.site.survey.records import LowSpot, SurveySettings
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
