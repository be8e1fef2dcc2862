"""What thatch asks for, by how a grass grows: comb it out, level weeks later, or strip it."""

from turfplan.book.entries import Species
from turfplan.records.book_names import FactName
from turfplan.work.lawn import ResolvedLawn


def strip_limit(species: Species) -> FactName:
    """From how much thatch on nothing is levelled or sown on a grass.

    Strong creepers are cut back to the soil and grow together again in one summer.
    """
    if species.creeps:
        return "dethatch.strip_limit_creeper"
    return "dethatch.strip_limit" if species.season == "cool" else "dethatch.strip_limit_warm"


def dethatches(setting: ResolvedLawn) -> bool:
    """Thatch over the limit is taken off under what is spread or sown, where this grass bears it.

    Over the strip limit it is not levelled on at all.
    """
    book, turf = setting.book, setting.turf
    under = bool(setting.levelling.bands) or setting.sowing.operation in ("seed", "overseed")
    return (
        under
        and turf.thatch_mm > book.si("dethatch.limit")
        and turf.thatch_mm < book.si(strip_limit(turf.species))
        and turf.species.dethatch != "never"
        # Ground without grass has no turf to comb.
        and not setting.on_open_ground
    )


def grows_together_first(setting: ResolvedLawn) -> bool:
    """Whether a strong creeper is dethatched weeks before it is levelled, in the same summer."""
    creeps = setting.turf.species.creeps and not setting.on_open_ground
    return creeps and bool(setting.levelling.bands) and dethatches(setting)
