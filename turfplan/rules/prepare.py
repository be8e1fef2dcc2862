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
    drafts: list[Draft] = []
    book = setting.book
    sows = setting.sowing is not None
    first = _first_work(campaign)
    cause = setting.brief.site.bump_cause
    if cause is not None and cause != "traffic" and setting.bands:
        drafts.append(
            make(
                setting,
                "diagnose",
                why=_LIVE_CAUSES[cause],
                priority=PREPARE,
                anchor=first,
                offset=-setting.days("wish.diagnose"),
            )
        )
    test = setting.brief.soil_test.on
    limit = book.si("feeding.soil_test_age")
    if test is None or (setting.today - test).days > limit:
        drafts.append(
            make(
                setting, "soil_test", why="Lime, phosphorus and potassium are given by test alone, and the laboratory needs weeks.",
                priority=PREPARE, anchor=first, offset=-setting.days("wish.soil_test"),
            )
        )  # fmt: skip
    if aerates:
        for session in campaign.sessions or (None,):
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
    if sows and (
        setting.intent == "renovate"
        or (setting.brief.site.weeds_percent or 0) >= book.si("seeding.weeds_worth_treating") * 100
    ):
        drafts.append(
            make(
                setting, "weed_control", why="Weeds that stand now would have the prepared soil before the seed.",
                priority=PREPARE, anchor="sowing", offset=-setting.days("wish.weed_control"),
            )
        )  # fmt: skip
    for session in campaign.sessions:
        drafts.append(
            make(
                setting, "order_material", str(session.number),
                why="Dry, screened, machine-blended material is not in every yard: ask and order in time.",
                priority=PREPARE, session=session.number, position=session.number,
                anchor=f"delivery.{session.number}", offset=-(setting.lead_days + setting.days("wish.order_ahead")),
            )
        )  # fmt: skip
    return drafts


def _first_work(campaign: Campaign) -> str:
    return "mow_low.1" if campaign.sessions else "sowing"
