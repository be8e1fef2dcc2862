"""Opening the surface: low cuts, thatch, cores, fittings, and the deep hollows."""

from turfplan.rules.build import SURFACE, make
from turfplan.rules.campaign import Campaign
from turfplan.rules.draft import Draft
from turfplan.rules.passes import SEEDED, low_floor
from turfplan.rules.setting import Setting


def surface(setting: Setting, campaign: Campaign, low_cuts: tuple[float, ...], loose_lift_m3: float) -> list[Draft]:
    """The tasks that open the turf before each session; `low_cuts` are the heights in mm of the steps down."""
    drafts: list[Draft] = []
    numbers = [s.number for s in campaign.sessions] or [1]
    position = 0
    for number in numbers:
        target = f"topdress.{_first_pass(campaign, number)}" if campaign.sessions else "sowing"
        session = number if campaign.sessions else 0
        thatched = number == numbers[0] and dethatches(setting)
        lead = -setting.days("wish.dethatch") if thatched else -1
        for step, height in enumerate(low_cuts, 1):
            position += 1
            drafts.append(
                make(
                    setting, "mow_low", str(position), why=_why_low(setting, campaign), priority=SURFACE, session=session,
                    position=step, anchor=target, offset=lead if step < len(low_cuts) else -1,
                    words={"height": setting.cut(height)},
                    facts=low_floor(setting, _sows(setting, campaign, number))[1],
                )
            )  # fmt: skip
        if thatched:
            drafts.append(_dethatch(setting, campaign, target, session))
        if aerates(setting):
            drafts.append(_aerate(setting, campaign, number, session, target))
    return drafts + _deep_fill(setting, campaign, loose_lift_m3)


def _deep_fill(setting: Setting, campaign: Campaign, loose_lift_m3: float) -> list[Draft]:
    """What much fill asks for before the passes: fittings raised out of its way, and the deep hollows lifted and filled."""
    drafts: list[Draft] = []
    session = 1 if campaign.sessions else 0
    whole_fill_mm = setting.mean_fill_mm + setting.lift_depth_mm * setting.lift_share
    if whole_fill_mm >= setting.book.si("site.raise_fittings_from") and setting.brief.site.sprinklers is not False:
        drafts.append(
            make(
                setting, "raise_fittings", why="The fill is deep enough to bury heads, boxes and covers.", priority=SURFACE,
                session=session, anchor="topdress.1", offset=-setting.days("wish.raise_fittings"), facts=("site.raise_fittings_from",),
            )
        )  # fmt: skip
    if setting.lift_share:
        drafts.append(
            make(
                setting, "lift_and_fill", why="These hollows are deeper than grass can grow through.", priority=SURFACE,
                session=session, anchor="topdress.1" if campaign.sessions else None, offset=-setting.days("wish.lift_and_fill"),
                area_m2=setting.area_m2 * setting.lift_share, loose_m3=loose_lift_m3, depth_mm=setting.lift_depth_mm,
                facts=("site.deep_limit",),
            )
        )  # fmt: skip
    return drafts


def aerates(setting: Setting) -> bool:
    """Cores are taken where something is spread, or sown to come up at once."""
    return bool(setting.bands) or (setting.sowing in SEEDED and setting.intent not in ("winter_overseed", "dormant"))


def dethatches(setting: Setting) -> bool:
    """Thatch over the limit is taken off under what is spread or sown, where this grass bears it; over the strip limit it is
    not levelled on at all."""
    book = setting.book
    under = bool(setting.bands) or setting.sowing in ("seed", "overseed")
    return (
        under
        and setting.thatch_mm > book.si("dethatch.limit")
        and setting.thatch_mm < book.si("dethatch.strip_limit")
        and setting.species.dethatch != "never"
        # Bare ground has no turf to comb.
        and setting.condition != "bare"
    )


def too_thick(setting: Setting) -> str | None:
    """Why nothing may be spread or sown on living turf over this much thatch, or None where something may.

    Plugs are set through it, and one winter's ryegrass needs no better ground; turf that goes is not asked to bear it.
    """
    book = setting.book
    sown = setting.sowing in SEEDED and setting.intent != "winter_overseed"
    limit = book.si("dethatch.strip_limit")
    if not setting.living or not (setting.bands or sown) or setting.thatch_mm < limit - 1e-6:
        return None
    source = book.said_by(book.fact("dethatch.strip_limit").source)
    work = " or ".join(word for word, holds in (("levelled", setting.bands), ("sown", sown)) if holds)
    return (
        f"Thatch of {setting.length(setting.thatch_mm)} is a sponge: from {setting.length(limit)} on nothing is {work} on it ({source}). "
        "The mix would sink and the lawn stay soft; roots would stay in the thatch."
    )


def _first_pass(campaign: Campaign, session: int) -> int:
    return campaign.sessions[session - 1].passes[0].number


def _sows(setting: Setting, campaign: Campaign, session: int) -> bool:
    return campaign.sessions[session - 1].sows if campaign.sessions else setting.sowing in SEEDED


def _why_low(setting: Setting, campaign: Campaign) -> str:
    if campaign.sessions:
        return "Low grass shows the bumps and lets the mix be dragged down to the soil."
    return "Low grass lets light reach the seedlings."


def _dethatch(setting: Setting, campaign: Campaign, target: str, session: int) -> Draft:
    light = setting.species.dethatch == "light"
    spring = campaign.sessions[0].window.season == "spring" if campaign.sessions else False
    return make(
        setting, "dethatch",
        why=f"Thatch of {setting.length(setting.thatch_mm)} keeps the mix and the seed from the soil.",
        priority=SURFACE, session=session, anchor=target, offset=-setting.days("wish.dethatch"),
        how=("Use a rake or a light setting only: this grass does not bear a power rake.", "Rake up and remove everything that comes out.")
        if light else None,
        cautions=(setting.book.cautions["spring_scarifying"].text,) if spring and setting.cool else (), facts=("dethatch.limit",),
    )  # fmt: skip


def _aerate(setting: Setting, campaign: Campaign, number: int, session: int, target: str) -> Draft:
    removes = removes_cores(setting)
    cores = (
        "Rake up and remove the plugs: they are clay, and sand or a lighter mix goes into the holes."
        if removes
        else "Let the plugs dry, break them up with a rake or the mower and leave them: they are your own soil."
    )
    cautions = []
    if setting.brief.site.septic_field:
        cautions.append("Septic field: hand tools only over it; no machine, no deep tines.")
    if setting.brief.site.trees:
        cautions.append("Keep tines off surface roots; within the root zone go shallow or not at all.")
    return make(
        setting, "core_aerate", str(number),
        why="The holes let the mix, water and roots down; once before the first pass of a session.",
        priority=SURFACE, session=session, position=number, anchor=target, offset=-1, words={"cores": cores},
        cautions=tuple(cautions),
    )  # fmt: skip


def removes_cores(setting: Setting) -> bool:
    """Plugs of clay are taken away where straight sand goes over them."""
    return bool(setting.bands) and setting.book.soils[setting.soil].fine and setting.brief.leveling.material == "sand"
