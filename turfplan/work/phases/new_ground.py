"""Ground without living grass: the kill, loosening, lifts of fill, their cover, the final grade."""

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType

from turfplan.book.words import book_messages
from turfplan.message import Message, Quantity, Value, length_mm
from turfplan.phrases import ground_fill as phrases
from turfplan.phrases import open_turf as of_turf
from turfplan.records.book_names import OperationName
from turfplan.work.barrows import laid_out
from turfplan.work.campaigns import Campaign, Session
from turfplan.work.days_off import somebody_there
from turfplan.work.drafts import Draft
from turfplan.work.feeding.lime_need import tested_soil_goes_under, wants_lime
from turfplan.work.ground_fill import (
    MM_PER_M,
    covered,
    had_runners,
    kill_lead,
    nurse_grass_may_cover,
    regrowth_look,
    settling,
    waits_a_season,
)
from turfplan.work.labour import hours_of_trucks
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.operations import (
    CARE,
    LAST_PASS,
    PASS,
    SURFACE,
    Extent,
    Timing,
    Wording,
    make,
)
from turfplan.work.phases.level import long_pass, said_of_pass, site_cautions
from turfplan.work.places import renewed_place
from turfplan.work.slopes import is_pegged, on_a_bank, washes
from turfplan.work.thatch import strip_limit_here, stripped_mm


def new_ground(
    setting: ResolvedLawn, campaign: Campaign, loose_m3: Mapping[int, float]
) -> list[Draft]:
    """Everything that is done to ground without living grass before it is sown or planted.

    `loose_m3` gives the loose volume of each lift.
    """
    if not setting.on_open_ground:
        return []
    drafts = _killing(setting) if setting.worked == "killed" else []
    drafts += [_till(setting, campaign)] if tills(setting) else [_slit(setting)]
    for session in campaign.sessions:
        drafts.append(_receive(setting, session, sum(loose_m3[p.number] for p in session.passes)))
        drafts += [
            _lift(setting, campaign, session, index, loose_m3[layer.number])
            for index, layer in enumerate(session.passes)
        ]
    if covered(setting):
        drafts.append(_cover(setting, campaign))
        if washes(setting):
            drafts += _covers_between(setting, campaign)
    if setting.sowing.operation is not None and tills(setting):
        drafts.append(_grade(setting))
    return drafts


def tills(setting: ResolvedLawn) -> bool:
    """Whether the ground is loosened: bare ground, and a killed stand that is filled or limed.

    Else slits through the dead mulch do, and keep weeds asleep.
    """
    limed = wants_lime(setting.brief, setting.book, setting.turf.species.id)
    return setting.on_open_ground and (
        setting.worked == "bare" or bool(setting.levelling.bands) or limed
    )


def _killing(setting: ResolvedLawn) -> list[Draft]:
    """The treatment of the old stand, the look at what comes again, the second one, clearing."""
    lead, look = kill_lead(setting), setting.days(regrowth_look(setting))
    ground = _renewed(setting)
    days = round(setting.book.fact("renovate.days_to_seed").high_si)
    cut = had_runners(setting) and tills(setting)
    later = (phrases.runners_later(days=days),) if cut else ()
    return [
        make(
            setting,
            "kill_stand",
            timing=Timing(SURFACE, anchor="sowing", offset=-lead),
            wording=Wording(phrases.kill(), {"what": phrases.kill_title()}),
            extent=ground,
            facts=("renovate.days_to_seed",),
        ),
        make(
            setting,
            "inspect",
            "regrowth",
            timing=Timing(CARE, anchor="kill_stand", offset=look),
            wording=Wording(
                phrases.look(),
                title=phrases.look_title(),
                how=(phrases.look_how(),),
                go=phrases.look_go(),
            ),
            extent=ground,
            facts=(regrowth_look(setting),),
        ),
        make(
            setting,
            "kill_stand",
            "again",
            timing=Timing(SURFACE, position=2, anchor="inspect.regrowth", offset=0),
            wording=Wording(
                phrases.kill_again(),
                {"what": phrases.kill_again_title()},
                name=phrases.kill_again_name(),
                how=(phrases.kill_again_rest(), phrases.kill_again_none(), *later),
            ),
            extent=ground,
            facts=("renovate.days_to_seed", "renovate.days_to_clear"),
        ),
        _clearing(setting),
    ]


def _clearing(setting: ResolvedLawn) -> Draft:
    """The dead grass raked off, or the whole turf stripped where its thatch is a sponge."""
    timing, ground = Timing(SURFACE, anchor=_opening(setting), offset=0), _renewed(setting)
    thatch_mm = stripped_mm(setting.brief, setting.book)
    if not thatch_mm:
        left = phrases.clear_all() if tills(setting) else phrases.clear_mulch()
        how = book_messages(setting.book, "operations.clear_stand.how", {"how": left})
        cleared = make(
            setting,
            "clear_stand",
            timing=timing,
            wording=Wording(phrases.clear(), how=how),
            extent=ground,
        )
        return replace(cleared, by_hand=True)
    volume_m3 = thatch_mm / MM_PER_M * (ground.area_m2 or 0.0)
    return make(
        setting,
        "clear_stand",
        timing=timing,
        wording=Wording(
            phrases.strip(thatch=length_mm(thatch_mm)),
            name=phrases.strip_name(),
            title=phrases.strip_title(volume=Quantity(volume_m3, "volume", "up")),
            how=(phrases.strip_how(), phrases.strip_away()),
        ),
        extent=replace(ground, more_hours=volume_m3 * setting.book.si("labour.load_wheel_spread")),
        facts=(strip_limit_here(setting.brief, setting.book),),
    )


def _opening(setting: ResolvedLawn) -> str:
    return "till" if tills(setting) else "slit"


def _slit(setting: ResolvedLawn) -> Draft:
    return make(
        setting,
        "slit",
        timing=Timing(SURFACE, anchor="sowing", offset=-1),
        wording=Wording(phrases.slit()),
        extent=_renewed(setting),
    )


def _renewed(setting: ResolvedLawn) -> Extent:
    """The ground that is made anew: what keeps its grass is neither killed nor loosened."""
    return renewed_place(setting).extent(setting)


def _till(setting: ResolvedLawn, campaign: Campaign) -> Draft:
    """Loosening, right before the first lift, else before the final grade."""
    session = campaign.sessions[0].number if campaign.sessions else 0
    site, cautions = setting.brief.site, []
    if site.septic_field:
        cautions.append(of_turf.septic_field())
    if setting.near_trees:
        cautions.append(of_turf.tree_roots())
    anchor, ahead = (
        ("fill.1", 1) if campaign.sessions else ("grade", setting.days("open_ground.settle_least"))
    )
    return make(
        setting,
        "till",
        timing=Timing(SURFACE, session=session, anchor=anchor, offset=-ahead),
        wording=Wording(
            phrases.till(),
            how=_tilled(setting),
            cautions=tuple(cautions),
        ),
        extent=_renewed(setting),
        facts=("open_ground.till_depth",),
    )


def _tilled(setting: ResolvedLawn) -> tuple[Message, ...] | None:
    """The steps of loosening; nothing is worked into ground that topsoil buries."""
    own: tuple[Message, ...] | None = None
    if washes(setting):
        # What is loosened is not left to settle: it is filled, or sown, and covered by evening.
        last = phrases.till_slope_filled() if setting.levelling.bands else phrases.till_slope_firm()
        own = (*book_messages(setting.book, "operations.till.how")[:-1], last)
    if not tested_soil_goes_under(setting):
        return own
    stones, _, *rest = own or book_messages(setting.book, "operations.till.how")
    return (stones, *rest)


def _on_the_bank(
    setting: ResolvedLawn,
    operation: OperationName,
    water: Message,
    words: Mapping[str, Value] = MappingProxyType({}),
) -> tuple[Message, ...] | None:
    """The steps of an operation with other words for its last, the water, where a soaking would run
    off; None where the book's own hold."""
    if not on_a_bank(setting):
        return None
    return (*book_messages(setting.book, f"operations.{operation}.how", words)[:-1], water)


def _receive(setting: ResolvedLawn, session: Session, loose_m3: float) -> Draft:
    """The soil of all lifts: moist enough to be firmed, unlike the mix of a pass."""
    number = session.number
    return make(
        setting,
        "delivery",
        str(number),
        timing=Timing(
            SURFACE,
            session=number,
            position=number,
            anchor=f"fill.{session.passes[0].number}",
            offset=-1,
        ),
        wording=Wording(
            phrases.delivery(),
            how=(phrases.delivery_look(), phrases.delivery_tip()),
            go=phrases.delivery_go(),
            fallback=phrases.delivery_fallback(),
            cautions=somebody_there(setting),
        ),
        extent=Extent(loose_m3=loose_m3, more_hours=hours_of_trucks(setting, loose_m3)),
    )


def _lift(
    setting: ResolvedLawn, campaign: Campaign, session: Session, index: int, loose_m3: float
) -> Draft:
    """One lift of a session by its place in it."""
    layer, after = session.passes[index], len(session.passes) - 1 - index
    area = setting.plot.area_m2 * layer.share
    words = {
        **said_of_pass(setting, campaign, layer, loose_m3),
        "heaps": laid_out(setting, layer, loose_m3),
    }
    lift = make(
        setting,
        "fill",
        str(layer.number),
        timing=Timing(PASS if after else LAST_PASS, session=session.number, position=layer.number),
        wording=Wording(
            _why(setting, len(campaign.passes)),
            words,
            how=_on_the_bank(setting, "fill", phrases.fill_bank_water(), words),
            cautions=site_cautions(setting),
        ),
        extent=Extent(area, loose_m3, layer.depth_mm, where=layer.where),
        facts=(*layer.facts, "open_ground.footprint"),
    )
    # The lifts after it follow as they settle; the last one settles before the final grade.
    behind = after * max(setting.pass_interval_days, lift.duration_days) + lift.duration_days
    return replace(
        lift,
        ideal=_wished(setting, campaign, session, index, behind),
        cautions=(*lift.cautions, *long_pass(setting, lift)),
    )


def _wished(
    setting: ResolvedLawn, campaign: Campaign, session: Session, index: int, behind: int
) -> int:
    """The wished day of a lift: back from the sowing by what settles, else as soon as may be."""
    window = session.window
    if campaign.sow_window is None:
        return window.best.toordinal() + index * setting.pass_interval_days
    settled = campaign.sow_window.best.toordinal() - setting.days(settling(setting))
    return min(max(settled - behind, window.start.toordinal()), window.end.toordinal())


def _why(setting: ResolvedLawn, lifts: int) -> Message:
    if lifts == 1:
        return phrases.one_lift()
    return phrases.lifts(depth=length_mm(setting.levelling.depth_mm), n=lifts)


def _cover(setting: ResolvedLawn, campaign: Campaign) -> Draft:
    session = campaign.sessions[-1]
    straw = phrases.nurse_cover_straw(), phrases.nurse_cover_straw_off()
    how: tuple[Message, ...] | None = None if nurse_grass_may_cover(setting) else straw
    if washes(setting):
        how = _bank_cover(setting, phrases.nurse_cover_straw_off())
    if setting.sowing.operation is None:
        why = phrases.nurse_cover_unsown()
    elif waits_a_season(setting):
        why = phrases.nurse_cover_season()
    else:
        why = phrases.nurse_cover_bank() if washes(setting) else phrases.nurse_cover_weeks()
    return make(
        setting,
        "nurse_cover",
        timing=Timing(
            CARE,
            session=session.number,
            position=session.passes[-1].number,
            anchor=f"fill.{session.passes[-1].number}",
            offset=0 if washes(setting) else 1,
        ),
        wording=Wording(why, how=how),
        extent=_renewed(setting),
        facts=("open_ground.settle_season",),
    )


def _bank_cover(setting: ResolvedLawn, off: Message) -> tuple[Message, ...]:
    """How the fill of a slope is covered: with the mat of the seed where straw would slide."""
    if is_pegged(setting):
        return (phrases.nurse_cover_mat(), phrases.nurse_cover_mat_off())
    return (phrases.nurse_cover_straw(), off)


def _covers_between(setting: ResolvedLawn, campaign: Campaign) -> list[Draft]:
    """The covers of lifts that settle on a slope until the next one comes."""
    lifts = [(session, layer) for session in campaign.sessions for layer in session.passes]
    return [
        make(
            setting,
            "nurse_cover",
            f"lift.{layer.number}",
            timing=Timing(
                CARE,
                session=session.number,
                position=layer.number,
                anchor=f"fill.{layer.number}",
            ),
            wording=Wording(
                phrases.nurse_cover_bank(),
                title=phrases.nurse_cover_lift(number=layer.number),
                how=_bank_cover(setting, phrases.nurse_cover_straw_off_lift()),
            ),
            # What was loosened beside the lift lies as open as what it covers.
            extent=_renewed(setting),
            facts=("site.slope_cover",),
        )
        for session, layer in lifts[:-1]
    ]


def _grade(setting: ResolvedLawn) -> Draft:
    runners = setting.worked == "killed" and had_runners(setting)
    usual = book_messages(setting.book, "operations.grade.how")
    return make(
        setting,
        "grade",
        timing=Timing(SURFACE, anchor="sowing", offset=-1),
        wording=Wording(phrases.grade(), how=(*usual, phrases.runners_dug()) if runners else None),
        extent=_renewed(setting),
        facts=("open_ground.footprint", settling(setting)),
    )
