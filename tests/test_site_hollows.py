"""Fill from a list of hollows, with the standard library alone."""

import math
import subprocess
import sys

import pytest

from turfplan.site.hollows import fill_from_lows
from turfplan.site.records import LowSpot, SurveySettings

SETTINGS = SurveySettings(10.0, 50.8, instrument_error_mm=3.0, settle_share=0.1, settle_high=0.2)


def test_length_by_width_by_mean_depth() -> None:
    """As a tape and a ruler give it."""
    found = fill_from_lows([LowSpot("a", 3.0, 2.0, 20.0), LowSpot("b", 1.0, 1.0, 5.0)], 200.0, SETTINGS)
    assert found.volume_m3 == pytest.approx(3 * 2 * 0.020 + 0.005)
    assert found.mean_fill_mm == pytest.approx(found.volume_m3 / 200 * 1000)
    assert found.deepest_mm == 20.0


def test_the_deepest_gap_makes_a_bowl() -> None:
    """Half of the oval's area times the depth."""
    found = fill_from_lows([LowSpot("a", 4.0, 2.0, None, 40.0)], 200.0, SETTINGS)
    assert found.volume_m3 == pytest.approx(math.pi / 4 * 8 * 0.040 / 2)


def test_passes_and_lifting() -> None:
    """25 mm take three passes of a cap of 10; 60 mm are lifted."""
    found = fill_from_lows([LowSpot("flat", 3.0, 2.0, 25.0), LowSpot("pit", 1.0, 1.0, 60.0)], 200.0, SETTINGS)
    assert [p.depth_mm for p in found.passes] == pytest.approx([25 / 3] * 3)
    assert sum(p.volume_m3 for p in found.passes) == pytest.approx(6 * 0.025)
    assert (found.zones[0].lift_m2, found.zones[0].lift_m3) == pytest.approx((1.0, 0.060))
    assert any("pit is deeper than 51 mm" in c for c in found.cautions)
    assert sum(c.area_m2 for c in found.classes) == pytest.approx(200.0)


def test_the_band_widens_with_the_ruler() -> None:
    """A coarser reading leaves more in doubt."""
    lows = [LowSpot("a", 3.0, 2.0, 20.0)]
    fine, coarse = (
        fill_from_lows(lows, 200.0, SurveySettings(10.0, 50.8, instrument_error_mm=error)) for error in (1.0, 8.0)
    )
    assert coarse.high_m3 - coarse.low_m3 > fine.high_m3 - fine.low_m3 > 0


def test_no_numpy_is_needed() -> None:
    """A list of hollows works without the extra."""
    code = (
        "import sys\n"
        "for name in ('numpy', 'scipy'): sys.modules[name] = None\n"
        "from turfplan.site.hollows import fill_from_lows\n"
        "from turfplan.site.records import LowSpot, SurveySettings\n"
        "print(fill_from_lows([LowSpot('a', 3.0, 2.0, 20.0)], 200.0, SurveySettings(10.0, 50.0)).volume_m3)\n"
    )
    assert (
        subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.strip()
        == "0.12"
    )
