"""How a pass is laid out by barrow: the patch that one covers, and how far apart heaps are set."""

from math import sqrt

from turfplan.message import Message, Quantity, Sold, length_mm, sentences
from turfplan.phrases import barrows as phrases
from turfplan.units import CUBIC_YARD_M3, System, from_inside
from turfplan.work.drafts import Pass
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.material_amounts import counted, loose_volume_m3
from turfplan.work.phases.open_turf import removes_cores
from turfplan.work.plants import LITRES_IN_M3

MM_IN_M = 1000.0
# In what steps the patch of a barrow is told, square feet and square metres: a tape finds no finer.
PATCH_STEPS = (5.0, 0.5)
# In what steps a loose depth is told, mm; in inches no finer than a ruler in the garden shows.
LOOSE_STEP_MM = 0.5
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
    that differs is told where it is deepest, and where it is thinnest. A patch is told with the
    depth of what lies on it before it settles, so that it is the volume over the area.
    """
    settle = setting.levelling.settle_share
    area_m2 = setting.plot.area_m2 * layer.share
    loose_mm = loose_volume_m3(layer.depth_mm, settle)
    if layer.rest_mm is None:
        loose_mm = max(loose_mm, loose_m3 / area_m2 * MM_IN_M)
    machines = setting.brief.work.machines
    loose = loose_depth(loose_mm)
    cores = phrases.for_cores() if _fills_cores(setting, layer, loose_mm) else None
    if "loader" in machines:
        one_m3 = _heap_m3(_unit_sold_m3(setting), loose_m3)
        area, side = _patch(one_m3, loose_mm)
        volume = Quantity(one_m3, "loose")
        return sentences(phrases.loader(volume=volume, area=area, side=side, loose=loose), cores)
    barrow_m3 = setting.book.si("labour.barrow")
    area, side = _patch(barrow_m3, loose_mm)
    covers = phrases.covers if layer.rest_mm is None else phrases.covers_deepest
    count = counted(loose_m3, barrow_m3)
    told = covers(barrow=in_litres(barrow_m3), area=area, side=side, loose=loose, n=count)
    told = sentences(told, cores)
    # No such machine drives over loosened ground.
    if "topdresser" in machines and not setting.on_open_ground:
        return sentences(told, phrases.by_machine())
    heaps = phrases.heaps(apart=_apart(barrow_m3, loose_mm))
    if not layer.rest_mm:
        return sentences(told, heaps)
    thin_mm = loose_volume_m3(layer.rest_mm, settle)
    return sentences(told, heaps, phrases.heaps_thin(apart=_apart(barrow_m3, thin_mm)))


def _heap_m3(unit_m3: float, loose_m3: float) -> float:
    """The unit that is sold, or its half or quarter where a pass takes less than two of them."""
    parts = next((n for n in (1, 2) if n * loose_m3 >= 2 * unit_m3), 4)
    return unit_m3 / parts


def loose_depth(loose_mm: float) -> Quantity:
    """A depth before it settles: in metric units finer than depths that are asked for, for it
    differs from those by little."""
    return Quantity(loose_mm, "depth", metric_step=LOOSE_STEP_MM)


def _fills_cores(setting: ResolvedLawn, layer: Pass, loose_mm: float) -> bool:
    """Whether what an even pass takes beyond its depth goes into the holes of cores; what is less
    than half of these is how the volume was rounded."""
    if layer.rest_mm is not None or not removes_cores(setting):
        return False
    even_mm = loose_volume_m3(layer.depth_mm, setting.levelling.settle_share)
    return loose_mm - even_mm > setting.book.si("aerate.core_volume_depth") * HALF


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
