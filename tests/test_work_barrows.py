"""How a pass is laid out by barrow."""

from dataclasses import replace
from math import isclose

import pytest

from resolved_lawns import brief_of, setting_of
from turfplan.message import as_written
from turfplan.messages import words_for
from turfplan.units import FOOT_M, INCH_MM, SQUARE_FOOT_M2, System
from turfplan.work.barrows import heaps_apart_m, laid_out, patch_m2
from turfplan.work.drafts import Pass
from turfplan.work.lawn import ResolvedLawn

BARROW_M3 = 3 * FOOT_M**3


@pytest.mark.parametrize(
    ("inches", "patch_ft2", "apart_ft"),
    [(0.25, 130.9, 8.09), (0.375, 87.3, 6.61), (0.5, 65.5, 5.72)],
)
def test_the_thicker_a_layer_the_closer_its_heaps(
    inches: float, patch_ft2: float, apart_ft: float
) -> None:
    """3 ft3 over a quarter inch that is a tenth more when loose cover 131 ft2; half of it lies in
    the middle of a square of 8.1 ft. Geometry alone."""
    loose_mm = inches * INCH_MM * 1.1
    assert patch_m2(BARROW_M3, loose_mm) / SQUARE_FOOT_M2 == pytest.approx(patch_ft2, abs=0.1)
    assert heaps_apart_m(BARROW_M3 / 2, loose_mm) / FOOT_M == pytest.approx(apart_ft, abs=0.01)


def layer(inches: float, rest_mm: float | None = None) -> Pass:
    """A pass over the whole lawn."""
    mm = inches * INCH_MM
    return Pass(1, 1, mm, 0.0, False, mm, as_written(""), rest_mm=rest_mm)


def told(setting: ResolvedLawn, of: Pass, system: System = System.US) -> str:
    """What a pass of its depth over 5,000 ft2 is told as."""
    loose = setting.plot.area_m2 * of.depth_mm / 1000 * 1.1
    return words_for("en", system).text(laid_out(setting, of, loose))


def test_heaps_are_told_as_far_apart_as_the_pass_asks_for() -> None:
    """A quarter inch over 5,000 ft2 is 114.6 ft3: 39 barrows, as the amounts count them."""
    lawn = setting_of(brief_of())
    assert told(lawn, layer(0.25)) == (
        "One barrow (3 ft³) covers 130 ft², a patch 11 1/2 ft square, 1/4 in loose; 39"
        " barrows in all. Set half-barrow heaps 8 ft apart both ways, and rake out."
    )
    assert "5 1/2 ft apart" in told(lawn, layer(0.5))
    metric = told(lawn, layer(0.25), System.METRIC)
    assert "One barrow (85 L) covers 12 m², a patch 3.5 m square" in metric
    assert "2.5 m apart" in metric


def test_where_a_pass_is_thin_its_heaps_lie_wider() -> None:
    """Deepest and thinnest are told; where nothing lies nothing is set."""
    lawn = setting_of(brief_of())
    both = told(lawn, layer(0.5, rest_mm=0.25 * INCH_MM))
    assert "Where it is deepest" in both and both.endswith("thinnest, 8 ft apart.")
    assert "thinnest" not in told(lawn, layer(0.5, rest_mm=0.0))


def test_machines_have_a_measure_of_their_own() -> None:
    """A loader by the yard, a spreader by a trial of one barrow."""
    lawn = setting_of(brief_of())

    def owning(*names: str) -> ResolvedLawn:
        work = lawn.brief.work.model_copy(update={"machines": names})
        return replace(lawn, brief=lawn.brief.model_copy(update={"work": work}))

    assert "1 yd³ covers 1,180 ft²" in told(owning("loader"), layer(0.25))
    assert "Set heaps of 1 yd³ 34 1/2 ft apart" in told(owning("loader"), layer(0.25))
    # 28.6 ft3 are little more than one yard: heaps of half of one.
    assert "0.5 yd³ covers 2,355 ft²" in told(owning("loader"), layer(0.0625))
    assert "Set heaps" not in told(owning("topdresser"), layer(0.25))
    assert "39 barrows" in told(owning("topdresser"), layer(0.25))


def test_what_is_told_lays_the_depth() -> None:
    """From a sixteenth of an inch to an inch, heaps set by the printed distance lay the pass within
    a quarter of its depth."""
    lawn = setting_of(brief_of())
    for sixteenths in range(1, 17):
        of = layer(sixteenths / 16)
        loose_mm = of.depth_mm * 1.1
        apart = round(heaps_apart_m(BARROW_M3 / 2, loose_mm) / FOOT_M * 2) / 2 * FOOT_M
        laid_mm = BARROW_M3 / 2 / apart**2 * 1000
        assert isclose(laid_mm, loose_mm, rel_tol=0.25), sixteenths
        printed = f"{apart / FOOT_M:g}".replace(".5", " 1/2")
        assert f"{printed} ft apart" in told(lawn, of)
