"""When the old grass over new seed is cut again, and at which heights it is kept low."""

from dataclasses import dataclass
from datetime import date

from turfplan.reckoned_once import reckoned_once
from turfplan.records.book_names import of_species
from turfplan.work.campaigns import Campaign
from turfplan.work.emergence import emergence
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.mowing import (
    due_height_mm,
    mowing_interval_days,
    mown_height_mm,
    young_height_mm,
)
from turfplan.work.passes import SEEDED, low_floor
from turfplan.work.slopes import straw_area_m2


@dataclass(frozen=True, slots=True)
class OldCut:
    """The first cut of old grass after seed went into it.

    `least` and `due` are days from sowing: when mix and seed lie firm, and when the grass stands
    too tall over them. It is cut to `cut_mm`, and then every `every_days` days to `kept_mm`, until
    the new grass has its first cut at that height. Where straw lies, it has sunk by `least`.
    """

    least: int
    due: int
    cut_mm: float
    kept_mm: float
    every_days: int


@reckoned_once
def old_cut(setting: ResolvedLawn, campaign: Campaign) -> OldCut | None:
    """The first cut of the old grass; None without old grass or seed, or where the first cut of the
    new grass comes as soon."""
    up = emergence(setting, campaign)
    if up is None or not over_old_grass(setting):
        return None
    book, stands = setting.book, _heights_mm(setting, campaign, up.mow_best)
    straw = setting.days("order.straw_sinks") if straw_area_m2(setting) > 0 else 0
    least = up.wakes + max(setting.days("order.mow_after_pass"), straw)
    usual = book.fact(of_species(setting.turf.species.id, "mow_height"))
    cut = max(stands[0], low_floor(setting, False)[0], book.si("mowing.young_least"))
    due = next((day for day, mm in enumerate(stands) if mm >= due_height_mm(cut)), up.mow_best)
    if due < least < up.mow_best:
        # The ground bears no wheels before: a third off then leaves the grass somewhat taller.
        due, cut = least, max(cut, min(mown_height_mm(stands[least]), usual.high_si))
    kept = min(cut, young_height_mm(book, setting.turf.species.id))
    # Wheels press seedlings: what grows faster is kept a third off, not mown every few days.
    own = mowing_interval_days(book, kept, _growth(setting, campaign, due))
    every = max(own, setting.days("mowing.young_interval"))
    if not least <= due <= up.mow_best - every:
        return None
    return OldCut(least, due, cut, kept, every)


def over_old_grass(setting: ResolvedLawn) -> bool:
    """Whether seed goes into grass that grows on above it; one that goes to rest below a winter's
    ryegrass does not.
    """
    return (
        setting.sowing.operation in SEEDED
        and setting.sowing.intent != "winter_overseed"
        and not setting.on_open_ground
    )


def _heights_mm(setting: ResolvedLawn, campaign: Campaign, days: int) -> list[float]:
    """How high the old grass stands on each day from sowing on, if nobody mows it.

    It is sown at the height of the last low cut, or of the mowing before a later pass.
    """
    book, sessions = setting.book, campaign.sessions
    rests, full = book.si("water.dormant_growth"), book.si("mowing.full_growth")
    if campaign.sow_on_pass and len(sessions[-1].passes) > 1:
        heights = [book.low_si(of_species(setting.turf.species.id, "mow_height"))]
    else:
        heights = [low_floor(setting, not (campaign.sow_on_pass and len(sessions) > 1))[0]]
    for day in range(days):
        growth = _growth(setting, campaign, day)
        heights.append(heights[-1] + (full * growth if growth >= rests else 0.0))
    return heights


def _growth(setting: ResolvedLawn, campaign: Campaign, day: int) -> float:
    """The growth potential of the old grass so many days after its best day of sowing."""
    sow = campaign.sow_window
    assert sow is not None
    return setting.climate.growth_potential(
        date.fromordinal(sow.best.toordinal() + day), setting.turf.species.season
    )
