"""Preparing: what is found out, asked for and ordered before the first machine runs."""

from turfplan.rules.build import PREPARE, make
from turfplan.rules.campaign import Campaign
from turfplan.rules.draft import Draft
from turfplan.rules.setting import Setting

_LIVE_CAUSES = {
    "moles": "Moles are still at work: what is filled is lifted again.",
    "trench": "The dip follows a trench or pipe: it settles again until the cause is mended.",
    "stump": "A rotting stump goes on sinking: dig it out or fill again every year.",
    "worms": "Worm casts make the bumps: they come back; brush dry casts in rather than rolling.",
    "settling": "Builder's fill is still settling.",
    "frost": "Frost heave comes back where water stands: look at the drainage first.",
    "thatch": "The sponge is thatch: a layer over it does not make it firm.",
    "construction": "Builder's rubble or fill lies below: see what is there first.",
    "unknown": "Nobody knows yet why the ground is uneven.",
}


def prepare(setting: Setting, campaign: Campaign, *, permit: bool, aerates: bool) -> list[Draft]:
    """Diagnosis, soil test, marks, water check, permit, weeds and the order of the material of each session."""
    return [
        *_found_out(setting, campaign),
        *_marks(setting, campaign, aerates=aerates),
        *_before_seed(setting, campaign, permit=permit),
        *(_order(setting, session.number) for session in campaign.sessions),
    ]


def _found_out(setting: Setting, campaign: Campaign) -> list[Draft]:
    """Why the ground is uneven, and what the soil holds."""
    drafts: list[Draft] = []
    first, cause, test = _first_work(campaign), setting.brief.site.bump_cause, setting.brief.soil_test.on
    if cause is not None and cause != "traffic" and setting.bands:
        ahead = setting.days("wish.diagnose")
        drafts.append(make(setting, "diagnose", why=_LIVE_CAUSES[cause], priority=PREPARE, anchor=first, offset=-ahead))
    if test is None or (setting.today - test).days > setting.book.si("feeding.soil_test_age"):
        drafts.append(
            make(
                setting, "soil_test", why="Lime, phosphorus and potassium are given by test alone, and the laboratory needs weeks.",
                priority=PREPARE, anchor=first, offset=-setting.days("wish.soil_test"),
            )
        )  # fmt: skip
    return drafts


def _marks(setting: Setting, campaign: Campaign, *, aerates: bool) -> list[Draft]:
    """The marks of buried lines before tines and spade."""
    drafts: list[Draft] = []
    for session in (campaign.sessions or (None,)) if aerates else ():
        number = session.number if session else 0
        drafts.append(
            make(
                setting, "locate_utilities", str(number) if len(campaign.sessions) > 1 else None,
                why="Tines and blades meet what is buried; each job needs its own request.",
                priority=PREPARE, session=number, position=max(number, 1),
                anchor=f"core_aerate.{number or 1}", offset=-setting.days("wish.marks"),
            )
        )  # fmt: skip
    if setting.lift_share:
        drafts.append(
            make(
                setting, "locate_utilities", "lifting", why="The spade meets what is buried; each job needs its own request.",
                priority=PREPARE, session=1 if campaign.sessions else 0, anchor="lift_and_fill", offset=-setting.days("wish.marks"),
                title="Ask for marks where turf is lifted",
            )
        )  # fmt: skip
    return drafts


def _before_seed(setting: Setting, campaign: Campaign, *, permit: bool) -> list[Draft]:
    """Measured water, the permit to water, and weeds."""
    drafts: list[Draft] = []
    sows = setting.sowing is not None
    dormant = campaign.sow_window is not None and campaign.sow_window.operation == "dormant_seed"
    if sows and not dormant and setting.brief.water.possible is not False:
        drafts.append(
            make(
                setting, "irrigation_check", why="The new seed lives on measured water: find leaks and the minutes before it is sown.",
                priority=PREPARE, anchor="sowing", offset=-setting.days("wish.irrigation_check"),
            )
        )  # fmt: skip
    if permit:
        drafts.append(
            make(
                setting, "permit", why="The allowed watering days are fewer than germination needs.",
                priority=PREPARE, anchor="sowing", offset=-setting.days("wish.permit"),
            )
        )  # fmt: skip
    weeds = (setting.brief.site.weeds_percent or 0) / 100
    if sows and (setting.intent == "renovate" or weeds >= setting.book.si("seeding.weeds_worth_treating")):
        drafts.append(
            make(
                setting, "weed_control", why="Weeds that stand now would have the prepared soil before the seed.",
                priority=PREPARE, anchor="sowing", offset=-setting.days("wish.weed_control"),
            )
        )  # fmt: skip
    return drafts


def _order(setting: Setting, session: int) -> Draft:
    """The order of one session's material."""
    return make(
        setting, "order_material", str(session),
        why="Dry, screened, machine-blended material is not in every yard: ask and order in time.",
        priority=PREPARE, session=session, position=session,
        anchor=f"delivery.{session}", offset=-(setting.lead_days + setting.days("wish.order_ahead")),
    )  # fmt: skip


def _first_work(campaign: Campaign) -> str:
    return "mow_low.1" if campaign.sessions else "sowing"
