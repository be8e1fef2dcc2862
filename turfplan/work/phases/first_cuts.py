"""The first cuts after seed or plants: of the old grass over the seed, and of what is new."""

from dataclasses import dataclass
from datetime import date

from turfplan.book.words import book_message, book_messages, grass_name
from turfplan.message import Message, Quantity, cut_height, length_mm
from turfplan.phrases import first_cuts as phrases
from turfplan.records.book_names import of_species
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import Draft
from turfplan.work.emergence import Emergence, emergence
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.mowing import due_height_mm, mowing_interval_days, young_height_mm
from turfplan.work.old_grass import OldCut, old_cut
from turfplan.work.operations import CARE, Timing, Wording, make
from turfplan.work.places import sown_place
from turfplan.work.season_stand import second_grass_days
from turfplan.work.slopes import straw_area_m2


@dataclass(frozen=True, slots=True)
class CutHeights:
    """The heights of the cuts after the first, mm: to what the grass is cut and when it is due,
    then from `usual_least` to `usual_most`."""

    kept: float
    due: float
    usual_least: float
    usual_most: float


def heights_after(setting: ResolvedLawn, campaign: Campaign) -> CutHeights:
    """At which heights the lawn is mown after the first cut of what is sown or planted."""
    old = old_cut(setting, campaign)
    return _heights(setting, _low_mm(setting) if old is None else old.kept_mm)


def _heights(setting: ResolvedLawn, kept_mm: float) -> CutHeights:
    usual = setting.book.fact(of_species(setting.sowing.grass.id, "mow_height"))
    due_mm = kept_mm * setting.book.si("mowing.first_mow_factor")
    return CutHeights(kept_mm, due_mm, usual.low_si, usual.high_si)


def first_cuts(setting: ResolvedLawn, campaign: Campaign) -> list[Draft]:
    """The first cuts of a campaign that sows or plants; none of any other."""
    if setting.sowing.operation is None or campaign.sow_window is None:
        return []
    up, old = emergence(setting, campaign), old_cut(setting, campaign)
    if up is None:
        return [_of_plants(setting)]
    if old is None:
        return [_of_new_grass(setting, campaign, up, _low_mm(setting))]
    return [_of_old_grass(setting, old), _of_new_grass(setting, campaign, up, old.kept_mm)]


def _low_mm(setting: ResolvedLawn) -> float:
    """The lowest height of what is sown or planted, as long as it is young."""
    return young_height_mm(setting.book, setting.sowing.grass.id)


def _due(setting: ResolvedLawn, kept_mm: float) -> Quantity:
    """The height at which new grass has its first cut, so that it is left at one in mm."""
    return cut_height(_heights(setting, kept_mm).due)


def _of_old_grass(setting: ResolvedLawn, cut: OldCut) -> Draft:
    lower = cut.cut_mm > cut.kept_mm
    again = (phrases.old_grass_lower if lower else phrases.old_grass_again)(
        due=cut_height(due_height_mm(cut.kept_mm)),
        height=cut_height(cut.kept_mm),
        n=cut.every_days,
    )
    dry = () if setting.brief.water.possible is False else (phrases.old_grass_dry(),)
    straw = (phrases.old_grass_straw(),) if straw_area_m2(setting) > 0 else ()
    return make(
        setting,
        "mow_old",
        timing=Timing(CARE, anchor="sowing", offset=cut.due),
        wording=Wording(
            phrases.old_grass(),
            {"height": cut_height(cut.cut_mm)},
            how=(*book_messages(setting.book, "operations.mow_old.how"), *straw, *dry, again),
            go=phrases.old_grass_go(due=cut_height(due_height_mm(cut.cut_mm))),
        ),
        extent=sown_place(setting).extent(setting),
        facts=("order.mow_after_pass", "mowing.full_growth"),
    )


def _of_new_grass(
    setting: ResolvedLawn, campaign: Campaign, up: Emergence, kept_mm: float
) -> Draft:
    open_ground = setting.on_open_ground
    gently, even_so = book_messages(setting.book, "operations.first_mow.how")
    covered = second_grass_days(setting, campaign)
    then = _then(setting, kept_mm) if covered is None else _all_winter(setting, kept_mm, covered)
    return make(
        setting,
        "first_mow",
        timing=Timing(CARE, anchor="sowing", offset=up.mow_best),
        wording=Wording(
            phrases.new_grass_alone() if open_ground else phrases.new_grass(),
            {"height": _due(setting, kept_mm)},
            how=(gently, *(() if open_ground else (even_so,)), then),
        ),
        extent=sown_place(setting).extent(setting),
        facts=(
            of_species(setting.sowing.grass.id, "mow_height"),
            "mowing.first_mow_factor",
            "seeding.third_mowing",
        ),
    )


def _of_plants(setting: ResolvedLawn) -> Draft:
    called, kept_mm = phrases.plants_title(), _low_mm(setting)
    height = _due(setting, kept_mm)
    return make(
        setting,
        "first_mow",
        timing=Timing(
            CARE, anchor="plant", offset=round(setting.book.low_si("order.plant_mow_most"))
        ),
        wording=Wording(
            phrases.plants(),
            {"height": height},
            name=called,
            title=called,
            how=(
                book_message(setting.book, "operations.first_mow.how.1"),
                _then(setting, kept_mm),
            ),
            go=phrases.plants_go(height=height),
        ),
        extent=sown_place(setting).extent(setting),
        facts=(
            of_species(setting.sowing.grass.id, "mow_height"),
            "mowing.first_mow_factor",
            "seeding.third_mowing",
        ),
    )


def _all_winter(setting: ResolvedLawn, kept_mm: float, days: tuple[int, int]) -> Message:
    """At which height and how often a winter's ryegrass is mown on its days (ordinals)."""
    heights, season = _heights(setting, kept_mm), setting.sowing.grass.season
    growth = [
        setting.climate.growth_potential(date.fromordinal(day), season)
        for day in range(days[0], days[1] + 1)
    ]
    middle = (heights.usual_least + heights.usual_most) / 2
    return phrases.all_winter(
        height=cut_height(heights.kept),
        due=cut_height(heights.due),
        least=length_mm(heights.usual_least, kind="height"),
        most=length_mm(heights.usual_most, kind="height"),
        n=mowing_interval_days(setting.book, middle, sum(growth) / len(growth)),
        grass=grass_name(setting.book, setting.turf.species.id),
    )


def _then(setting: ResolvedLawn, kept_mm: float) -> Message:
    """At which height the next cuts are, and when the lawn goes back to its usual ones."""
    heights = _heights(setting, kept_mm)
    return phrases.then(
        height=cut_height(heights.kept),
        due=cut_height(heights.due),
        n=setting.days("seeding.third_mowing"),
        least=length_mm(heights.usual_least, kind="height"),
        most=length_mm(heights.usual_most, kind="height"),
    )
