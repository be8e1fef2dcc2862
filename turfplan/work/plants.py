"""What is planted: on which area, how many pieces, and how long that takes."""

from turfplan.records.book_names import FactName, PlantForm, option_of_species
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.seed_amounts import plugs_needed

LITRES_IN_M3 = 1000.0


def planted_area_m2(setting: ResolvedLawn, sown_share: float) -> float:
    """The area that is planted: what is bare among living grass; bare ground, or a lawn made anew,
    all over. `sown_share` is what can be kept wet of the lawn.
    """
    return setting.plot.area_m2 * min(setting.sowing.share * setting.mended_share, sown_share)


def spacing_of(setting: ResolvedLawn) -> tuple[float, FactName]:
    """How far apart plugs are set both ways, mm, and the fact that says so of this grass."""
    named = setting.book.known(option_of_species(setting.sowing.grass.id, "plug_spacing"))
    fact: FactName = named or "planting.plug_spacing"
    return setting.brief.seeding.spacing_mm or setting.book.si(fact), fact


def pieces_needed(setting: ResolvedLawn, area_m2: float) -> int:
    """The plugs of an area."""
    return plugs_needed(area_m2, spacing_of(setting)[0])


def sprig_rows_mm(setting: ResolvedLawn) -> float:
    """How far apart the furrows are in which sprigs lie end to end, mm."""
    return setting.brief.seeding.spacing_mm or setting.book.si("planting.sprig_rows")


def sprig_rate(setting: ResolvedLawn) -> tuple[float, FactName]:
    """The loose volume of sprigs by area, L/m2, and the fact that says so of this grass.

    Rows that are set closer or wider than the usual ones take more or less of them.
    """
    named = setting.book.known(option_of_species(setting.sowing.grass.id, "sprig_rate"))
    fact: FactName = named or "planting.sprig_rate"
    closer = setting.book.si("planting.sprig_rows") / sprig_rows_mm(setting)
    return setting.book.si(fact) * closer, fact


def sprigs_m3(setting: ResolvedLawn, area_m2: float) -> float:
    """The loose volume of the sprigs of an area, m3."""
    return sprig_rate(setting)[0] * area_m2 / LITRES_IN_M3


def planting_hours(setting: ResolvedLawn, form: PlantForm, area_m2: float) -> float:
    """Person-hours of planting: sod by its area, plugs one by one, sprigs by their furrows."""
    if form == "plugs":
        return setting.book.si("labour.plug") * pieces_needed(setting, area_m2)
    if form == "sod":
        return setting.book.si("labour.sod") * area_m2
    rows = setting.book.si("planting.sprig_rows") / sprig_rows_mm(setting)
    return setting.book.si("labour.sprig") * area_m2 * rows
