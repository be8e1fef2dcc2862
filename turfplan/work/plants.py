"""What is planted: on which area, how many pieces, and how long that takes."""

from typing import Final

from turfplan.records.book_names import FactName, PlantForm, option_of_species
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.seed_amounts import plugs_needed

# The hours of one piece that is set by hand.
_EACH: Final[dict[PlantForm, FactName]] = {"plugs": "labour.plug", "sprigs": "labour.sprig"}


def planted_area_m2(setting: ResolvedLawn, sown_share: float) -> float:
    """The area that is planted: what is bare among living grass; bare ground, or a lawn made anew,
    all over. `sown_share` is what can be kept wet of the lawn.
    """
    return setting.plot.area_m2 * min(setting.sowing.share * setting.mended_share, sown_share)


def spacing_of(setting: ResolvedLawn) -> tuple[float, FactName]:
    """How far apart plugs or sprigs are set, mm, and the fact that says so of this grass."""
    named = setting.book.known(option_of_species(setting.sowing.grass.id, "plug_spacing"))
    fact: FactName = named or "planting.plug_spacing"
    return setting.brief.seeding.spacing_mm or setting.book.si(fact), fact


def pieces_needed(setting: ResolvedLawn, area_m2: float) -> int:
    """The plugs or sprigs of an area."""
    return plugs_needed(area_m2, spacing_of(setting)[0])


def planting_hours(setting: ResolvedLawn, form: PlantForm, area_m2: float) -> float:
    """Person-hours of planting: sod by its area, plugs and sprigs one by one."""
    each = _EACH.get(form)
    if each is None:
        return setting.book.si("labour.sod") * area_m2
    return setting.book.si(each) * pieces_needed(setting, area_m2)
