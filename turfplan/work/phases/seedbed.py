"""The ground of seed that goes on no pass: marks, low cuts, and a light opening of the surface."""

from dataclasses import replace
from datetime import timedelta

from turfplan.message import cut_height
from turfplan.phrases import open_turf as of_turf
from turfplan.phrases import seedbed as phrases
from turfplan.records.book_names import of_species
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import Draft
from turfplan.work.emergence import waits_for_spring
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.mowing import low_cut_steps
from turfplan.work.operations import SURFACE, Timing, Wording, make
from turfplan.work.passes import SEEDED, low_floor
from turfplan.work.phases.dead_turf import has_moss

LAST_CUT = "mow_low.seedbed"


def sown_apart(setting: ResolvedLawn, campaign: Campaign) -> bool:
    """Whether seed goes into living turf on a day of its own, so that no pass prepares it.

    It is so of what waits for spring, of a second grass, and of seed after passes.
    """
    second = setting.sowing.intent == "winter_overseed"
    return (
        campaign.sow_window is not None
        and setting.sowing.operation in SEEDED
        and not setting.on_open_ground
        and not campaign.sow_on_pass
        and (second or waits_for_spring(campaign) or bool(campaign.sessions))
    )


def seedbed(setting: ResolvedLawn, campaign: Campaign) -> list[Draft]:
    """The preparation of seed that is sown apart from the passes; none for any other."""
    if not sown_apart(setting, campaign):
        return []
    # A session of its own: no rule of the passes binds it.
    session = len(campaign.sessions) + 1
    return [
        *_low_cuts(setting, campaign, session),
        replace(
            make(
                setting,
                "slit",
                timing=Timing(SURFACE, session=session, anchor="sowing", offset=-1),
                wording=_opening(setting, campaign),
            ),
            by_hand=not _by_blades(setting, campaign),
        ),
    ]


def _heights(setting: ResolvedLawn) -> tuple[float, ...]:
    """The heights of the cuts, mm; a second grass over turf that bears no scalping goes into the
    lowest of its usual heights.
    """
    usual = setting.book.fact(of_species(setting.turf.species.id, "mow_height"))
    floor, _ = low_floor(setting, True)
    if setting.sowing.intent == "winter_overseed" and not setting.bears_winter_cover:
        floor = usual.low_si
    sliver = setting.book.si("mowing.low_cut_sliver")
    return low_cut_steps(usual.high_si, floor, sliver) or (floor,)


def _low_cuts(setting: ResolvedLawn, campaign: Campaign, session: int) -> list[Draft]:
    """The cuts down to the seed's height: right before it, or with the last growth of autumn."""
    heights = _heights(setting)
    ideal = _end_of_growth(setting, campaign)
    step_days = setting.days("mowing.low_cut_step_days")
    cuts = []
    for number, height in enumerate(heights, 1):
        ahead = step_days * (len(heights) - number)
        last = number == len(heights)
        cuts.append(
            make(
                setting,
                "mow_low",
                "seedbed" if last else f"before_seedbed.{number}",
                timing=Timing(
                    SURFACE,
                    session=session,
                    position=number,
                    ideal=None if ideal is None else ideal - ahead,
                    anchor="sowing" if ideal is None else None,
                    offset=-1 - ahead,
                ),
                wording=Wording(
                    phrases.low_cut(),
                    {"height": cut_height(height), "clippings": of_turf.clippings_seed()},
                ),
                facts=low_floor(setting, True)[1],
            )
        )
    return cuts


def _end_of_growth(setting: ResolvedLawn, campaign: Campaign) -> int | None:
    """The day of the last mow before seed that waits for spring; None where the seed comes up."""
    sow = campaign.sow_window
    if sow is None or not waits_for_spring(campaign):
        return None
    before = [
        min(w.best, sow.best - timedelta(1)).toordinal()
        for w in setting.open("last_mow")
        if w.start < sow.best and w.best.year >= sow.best.year - 1
    ]
    return max((day for day in before if day >= setting.first_day), default=None)


def _by_blades(setting: ResolvedLawn, campaign: Campaign) -> bool:
    """Whether blades open the surface, not a rake."""
    return not waits_for_spring(campaign) and setting.turf.species.dethatch == "ok"


def _opening(setting: ResolvedLawn, campaign: Campaign) -> Wording:
    """How the surface is opened: raked for seed that waits or on turf that bears no blades, else
    cut lightly two ways.
    """
    if _by_blades(setting, campaign):
        return Wording(
            phrases.vertical(),
            name=phrases.vertical_name(),
            title=phrases.vertical_title(),
            how=(phrases.vertical_depth(), phrases.vertical_twice()),
            go=phrases.opening_go(),
        )
    dormant = waits_for_spring(campaign)
    return Wording(
        phrases.raking_dormant() if dormant else phrases.raking(),
        name=phrases.raking_name(),
        title=phrases.raking_title(),
        how=(
            *((of_turf.moss_off(),) if has_moss(setting) else ()),
            phrases.raking_leaves(),
            phrases.raking_dormant_how() if dormant else phrases.raking_how(),
        ),
        go=phrases.opening_go(),
    )
