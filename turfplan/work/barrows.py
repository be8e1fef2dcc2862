"""How a pass is laid out by barrow: the patch that one covers, and how far apart heaps are set."""

from math import sqrt

from turfplan.message import Message, Quantity, Sold, length_mm, sentences
from turfplan.phrases import barrows as phrases
from turfplan.units import CUBIC_YARD_M3, System, from_inside
from turfplan.work.drafts import Pass
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.material_amounts import counted, loose_volume_m3
from turfplan.work.plants import LITRES_IN_M3

MM_IN_M = 1000.0
# In what steps the patch of a barrow is told, square feet and square metres: a tape finds no finer.
PATCH_STEPS = (5.0, 0.5)
HALF = 0.5


def in_litres(volume_m3: float) -> Sold:
    """What a barrow or a bag holds, in whole litres or quarters of a cubic foot."""
    litres, cubic_feet = volume_m3 * LITRES_IN_M3, from_inside(volume_m3, "ft3", "volume")
    return Sold(round(litres), "L", round(cubic_feet * 4) / 4, "ft³")


def patch_m2(volume_m3: float, loose_mm: float) -> float:
    """The area that so much loose material covers at a loose depth in mm, m2."""
    return volume_m3 * MM_IN_M / loose_mm


def heaps_apart_m(volume_m3: float, loose_mm: float) -> float:
    """How far apart, both ways, heaps of `volume_m3` lie that are raked out to a loose depth, m."""
    return sqrt(patch_m2(volume_m3, loose_mm))


def laid_out(setting: ResolvedLawn, layer: Pass, loose_m3: float) -> Message:
    """How one pass is laid out: by barrow with heaps of half a load, by the machine that spreads,
    or by the unit in which a loader's material is sold.

    `loose_m3` is all that the pass takes. An even pass is as thick as all of it over its area; one
    that differs is told where it is deepest, and where it is thinnest.
    """
    settle = setting.levelling.settle_share
    area_m2 = setting.plot.area_m2 * layer.share
    loose_mm = loose_volume_m3(layer.depth_mm, settle)
    if layer.rest_mm is None:
        loose_mm = max(loose_mm, loose_m3 / area_m2 * MM_IN_M)
    machines = setting.brief.work.machines
    if "loader" in machines:
        one_m3 = _unit_sold_m3(setting)
        area, side = _patch(one_m3, loose_mm)
        return phrases.loader(volume=Quantity(one_m3, "loose"), area=area, side=side)
    barrow_m3 = setting.book.si("labour.barrow")
    area, side = _patch(barrow_m3, loose_mm)
    covers = phrases.covers if layer.rest_mm is None else phrases.covers_deepest
    told = covers(barrow=in_litres(barrow_m3), area=area, side=side, n=counted(loose_m3, barrow_m3))
    if "topdresser" in machines:
        return sentences(told, phrases.by_machine())
    heaps = phrases.heaps(apart=_apart(barrow_m3, loose_mm))
    if not layer.rest_mm:
        return sentences(told, heaps)
    thin_mm = loose_volume_m3(layer.rest_mm, settle)
    return sentences(told, heaps, phrases.heaps_thin(apart=_apart(barrow_m3, thin_mm)))


def _apart(barrow_m3: float, loose_mm: float) -> Quantity:
    """How far apart heaps of half a barrow lie, as it is paced or taped."""
    return length_mm(heaps_apart_m(barrow_m3 * HALF, loose_mm) * MM_IN_M, kind="pace")


def _patch(volume_m3: float, loose_mm: float) -> tuple[Quantity, Quantity]:
    """The area that so much covers, and the side of a square of it."""
    us_step, metric_step = PATCH_STEPS
    area_m2 = patch_m2(volume_m3, loose_mm)
    area = Quantity(area_m2, "area", us_step=us_step, metric_step=metric_step)
    return area, length_mm(sqrt(area_m2) * MM_IN_M, kind="pace")


def _unit_sold_m3(setting: ResolvedLawn) -> float:
    """The cubic yard or the cubic metre, in m3."""
    return CUBIC_YARD_M3 if setting.system is System.US else 1.0
