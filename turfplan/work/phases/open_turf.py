"""Opening the surface: low cuts, thatch, cores, fittings, and the deep hollows."""

from collections.abc import Iterator
from dataclasses import replace

from turfplan.book.citations import who_says
from turfplan.book.words import book_message, grass_name
from turfplan.message import Message, Value, cut_height, length_mm, listed, sentences
from turfplan.phrases import looks
from turfplan.phrases import open_turf as phrases
from turfplan.phrases import parts as part_phrases
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import Draft
from turfplan.work.dressed import surface_place
from turfplan.work.filling import FEW_PASSES
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.mix_choice import is_straight_sand, mix_parts
from turfplan.work.operations import CARE, SURFACE, WHOLE_LAWN, Extent, Timing, Wording, make
from turfplan.work.parts import UNCORED, cored_share
from turfplan.work.passes import SEEDED, low_floor, pass_cap
from turfplan.work.past_of_lawn import barriers_torn
from turfplan.work.phases.low_cuts import combed_place, cut_before_lifting, low_cuts_before
from turfplan.work.phases.seedbed import seedbed, sown_apart
from turfplan.work.thatch import dethatches, grows_together_first, season_ahead, strip_limit_here
from turfplan.work.watering.water_in import as_water_allows
from turfplan.work.year_seasons import half_of_window

# Thatch that is taken down in a season of its own.
AHEAD = "dethatch.ahead"
SPRING_SCARIFYING = "book.cautions.spring_scarifying.text"


def surface(
    setting: ResolvedLawn, campaign: Campaign, low_cuts: tuple[float, ...], loose_lift_m3: float
) -> list[Draft]:
    """The tasks that open the turf before each session; `low_cuts` are heights in mm. Care alone
    has seasons of its own for them."""
    if setting.care_alone:
        return []
    if setting.on_open_ground:
        return _deep_fill(setting, campaign, loose_lift_m3)
    apart = setting.dethatched_ahead and dethatches(setting)
    drafts = [*_dethatched_ahead(setting, campaign, low_cuts)] if apart else []
    ahead = bool(drafts)
    bed = seedbed(setting, campaign)
    drafts += bed
    if bed and not campaign.sessions:
        return drafts + _deep_fill(setting, campaign, loose_lift_m3)
    numbers = [s.number for s in campaign.sessions] or [1]
    for number in numbers:
        target = f"topdress.{_first_pass(campaign, number)}" if campaign.sessions else "sowing"
        session = number if campaign.sessions else 0
        thatched = number == numbers[0] and dethatches(setting) and not ahead
        cuts = low_cuts_before(
            setting,
            campaign,
            number,
            low_cuts,
            target=target,
            lead_days=_lead_of_dethatching(setting) if thatched else None,
            before=sum(d.operation == "mow_low" and (d.key or "").isdigit() for d in drafts),
        )
        drafts += cuts
        if thatched:
            combed = combed_place(setting).extent(setting)
            drafts.append(_dethatch(setting, campaign, target, session, combed))
        if cores(setting, campaign) and not closed_to_tines(setting, campaign, number):
            drafts.append(_aerate(setting, campaign, number, session, target))
    return drafts + _deep_fill(setting, campaign, loose_lift_m3)


def _lead_of_dethatching(setting: ResolvedLawn) -> int:
    """The days by which dethatching is wished before what follows."""
    creeps = grows_together_first(setting)
    return setting.days("wish.dethatch_creeper" if creeps else "wish.dethatch")


def _deep_fill(setting: ResolvedLawn, campaign: Campaign, loose_lift_m3: float) -> list[Draft]:
    """What much fill asks for first: fittings raised, deep hollows lifted and filled."""
    drafts: list[Draft] = []
    session = 1 if campaign.sessions else 0
    first = "fill.1" if setting.on_open_ground else "topdress.1"
    lifted = bool(setting.levelling.lift_share)
    if _buries_fittings(setting):
        ahead = setting.days("wish.raise_fittings")
        drafts.append(
            make(
                setting,
                "raise_fittings",
                timing=Timing(
                    SURFACE,
                    session=session,
                    anchor=first if campaign.sessions or not lifted else "lift_and_fill",
                    offset=-ahead,
                ),
                wording=Wording(phrases.raise_fittings()),
                facts=("site.raise_fittings_from",),
            )
        )
    if lifted:
        drafts.append(cut_before_lifting(setting))
        drafts.append(
            make(
                setting,
                "lift_and_fill",
                timing=Timing(
                    SURFACE,
                    session=session,
                    anchor="topdress.1" if campaign.sessions else None,
                    offset=-setting.days("wish.lift_and_fill"),
                ),
                wording=Wording(_why_lifted(setting)),
                extent=Extent(
                    setting.plot.area_m2 * setting.levelling.lift_share,
                    loose_lift_m3,
                    setting.levelling.lift_depth_mm,
                ),
                facts=("site.deep_limit",),
            )
        )
        drafts.append(_look_at_relaid(setting, session, before_pass=bool(campaign.sessions)))
    return drafts


def _why_lifted(setting: ResolvedLawn) -> Message:
    """Why turf is lifted: few passes do not fill the hollows, or have no season in time."""
    if setting.levelling.lift_borne:
        return phrases.lift_and_fill_borne()
    cap = pass_cap(setting, seeded=False, share=setting.levelling.lift_share)
    return phrases.lift_and_fill(n=max(FEW_PASSES), depth=length_mm(cap.depth_mm, "down"))


def _look_at_relaid(setting: ResolvedLawn, session: int, *, before_pass: bool) -> Draft:
    """The look whether the filled hollows have settled, before the first pass, or once the turf has
    rooted."""
    cap = length_mm(setting.book.si("passes.hard_cap"))
    dry = setting.brief.water.possible is False
    pulled = looks.relaid_string_on_rain if dry else looks.relaid_string
    deep = looks.relaid_deep_on_rain if dry else looks.relaid_deep
    return make(
        setting,
        "inspect",
        "relaid",
        timing=Timing(
            CARE,
            session=session,
            anchor="topdress.1" if before_pass else "lift_and_fill",
            offset=-setting.days("wish.relaid_look")
            if before_pass
            else setting.days("water.rooting_days"),
        ),
        wording=Wording(
            looks.relaid_on_rain() if dry else looks.relaid(),
            title=looks.relaid_title(),
            how=(pulled(), looks.relaid_shallow(cap=cap), deep(cap=cap)),
            go=looks.leaf_tips_go(),
            fallback=looks.next_free_day(),
        ),
        facts=("passes.hard_cap",),
    )


def cores(setting: ResolvedLawn, campaign: Campaign) -> bool:
    """Whether this campaign takes cores: none right before seed that is sown apart."""
    return aerates(setting) and (bool(campaign.sessions) or not sown_apart(setting, campaign))


def closed_to_tines(setting: ResolvedLawn, campaign: Campaign, number: int) -> bool:
    """Whether a session falls into a spring in which the owner, or the region, takes no cores."""
    if not setting.cool or spring_coring(setting):
        return False
    windows = {session.number: session.window for session in campaign.sessions}
    window = windows.get(number, campaign.sow_window)
    southern = setting.climate.southern
    return (
        window is not None and half_of_window(setting.book, window, southern=southern) == "spring"
    )


def spring_coring(setting: ResolvedLawn) -> bool:
    """Whether cores may be taken in spring here, by the owner's word, else the region's."""
    said = setting.brief.local.spring_aeration
    habit = setting.book.setting("spring_aeration") if said is None else said
    return habit is not False


def told_of_spring_coring(setting: ResolvedLawn, campaign: Campaign) -> tuple[Message, ...]:
    """What the owner's word on coring in spring comes to in this plan."""
    book, said = setting.book, setting.brief.local.spring_aeration
    if said is None:
        return ()
    if not setting.cool:
        return (phrases.spring_coring_warm(grass=grass_name(book, setting.turf.species.id)),)
    if said:
        return (phrases.spring_coring_open(),)
    numbers = [session.number for session in campaign.sessions] or [1]
    left_out = cores(setting, campaign) and any(
        closed_to_tines(setting, campaign, number) for number in numbers
    )
    return (phrases.spring_coring_left_out() if left_out else phrases.spring_coring_closed(),)


def open_to_tines(setting: ResolvedLawn) -> bool:
    """Whether tines go in all the way: not where they would strike rock."""
    rock_mm = setting.brief.site.rock_depth_mm
    return rock_mm is None or rock_mm >= setting.book.si("ground.rock_tines")


def aerates(setting: ResolvedLawn) -> bool:
    """Cores are taken of living turf where something is spread, or sown to come up at once."""
    return (open_to_tines(setting) and not setting.on_open_ground) and (
        bool(setting.levelling.bands)
        or (
            setting.sowing.operation in SEEDED
            and setting.sowing.intent not in ("winter_overseed", "dormant")
        )
    )


def too_thick(setting: ResolvedLawn) -> Message | None:
    """Why nothing may be spread or sown on living turf over this much thatch, None where it may.

    Plugs are set through it, and one winter's ryegrass needs no better ground; turf that goes is
    not asked to bear it.
    """
    book = setting.book
    sown = setting.sowing.operation in SEEDED and setting.sowing.intent != "winter_overseed"
    name = strip_limit_here(setting.brief, setting.book)
    limit = book.si(name)
    if (
        setting.on_open_ground
        or not (setting.levelling.bands or sown)
        or setting.turf.thatch_mm < limit - 1e-6
    ):
        return None
    levelled = (phrases.sponge_levelled(),) if setting.levelling.bands else ()
    return phrases.sponge(
        thatch=length_mm(setting.turf.thatch_mm),
        limit=length_mm(limit),
        work=listed((*levelled, phrases.sponge_sown()) if sown else levelled, "or"),
        source=who_says(book, book.fact(name).source),
    )


def _first_pass(campaign: Campaign, session: int) -> int:
    return campaign.sessions[session - 1].passes[0].number


def _dethatch(
    setting: ResolvedLawn,
    campaign: Campaign,
    target: str,
    session: int,
    extent: Extent = WHOLE_LAWN,
    on: int | None = None,
) -> Draft:
    creeps = (phrases.dethatch_creeper(), phrases.dethatch_clear())
    by_rake = (phrases.dethatch_by_rake(), phrases.dethatch_clear())
    why = phrases.dethatch if setting.sowing.operation is not None else phrases.dethatch_unsown
    once = (phrases.dethatch_once(), phrases.dethatch_clear())
    spring = campaign.sessions[0].window.season == "spring" if campaign.sessions else False
    scarifying = book_message(setting.book, "cautions.spring_scarifying.text")
    work = campaign.sessions[0].window if campaign.sessions else campaign.sow_window
    wished = setting.first_day if work is None else work.best.toordinal()
    torn = barriers_torn(setting, wished - _lead_of_dethatching(setting) if on is None else on)
    return make(
        setting,
        "dethatch",
        timing=Timing(
            SURFACE, session=session, anchor=target, offset=-_lead_of_dethatching(setting)
        ),
        wording=Wording(
            why(thatch=length_mm(setting.turf.thatch_mm)),
            how=by_rake
            if setting.turf.species.dethatch == "light"
            else creeps
            if grows_together_first(setting)
            else once
            if spring and setting.cool
            else None,
            cautions=(*((scarifying,) if spring and setting.cool else ()), *torn),
        ),
        extent=extent,
        facts=("dethatch.limit",),
    )


def _dethatched_ahead(
    setting: ResolvedLawn, campaign: Campaign, low_cuts: tuple[float, ...]
) -> Iterator[Draft]:
    """Thatch taken down in a season of its own, after a low cut of its own; heights in mm."""
    work = campaign.sessions[0].window if campaign.sessions else campaign.sow_window
    season = season_ahead(setting, work) if work is not None else None
    if season is None:
        return
    floor, facts = low_floor(setting, seeded=False)
    yield make(
        setting,
        "mow_low",
        "ahead",
        timing=Timing(SURFACE, session=-1, anchor=AHEAD, offset=-1),
        wording=Wording(
            phrases.mow_low_before_blades(),
            {
                "height": cut_height(low_cuts[0] if low_cuts else floor),
                "clippings": phrases.clippings_blades(),
            },
        ),
        facts=facts,
    )
    beside = _dethatch(setting, campaign, "", 0, on=season.best.toordinal())
    yield replace(
        beside,
        id=AHEAD,
        key=AHEAD.removeprefix("dethatch."),
        session=-1,
        anchor=None,
        offset=0,
        ideal=max(season.best.toordinal(), setting.first_day),
        window=(season.start.toordinal(), season.end.toordinal()),
        why=sentences(beside.why, phrases.dethatch_ahead()),
        cautions=tuple(c for c in beside.cautions if c.key != SPRING_SCARIFYING),
    )


def coring_words(setting: ResolvedLawn) -> dict[str, Value]:
    """What fills the places of the book's sentences on cores: what becomes of the plugs, and of
    soil that is too dry."""
    # Soil that nobody has named may be clay too.
    fine = setting.brief.lawn.soil is None or setting.book.soils[setting.plot.soil].fine
    dry_soil = as_water_allows(
        setting.brief.water,
        freely=phrases.dry_soil_fine() if fine else phrases.dry_soil(),
        by_law=phrases.dry_soil_law_fine() if fine else phrases.dry_soil_law(),
        on_rain=phrases.dry_soil_rain(),
    )
    plugs = phrases.plugs_remove() if removes_cores(setting) else phrases.plugs_leave()
    return {"cores": plugs, "dry_soil": dry_soil}


def coring_cautions(setting: ResolvedLawn) -> tuple[Message, ...]:
    """What tines keep clear of on this lawn."""
    site = setting.brief.site
    cautions: list[Message] = []
    if site.septic_field:
        cautions.append(phrases.septic_field())
    if site.trees:
        cautions.append(phrases.tree_roots())
    spared = [part.name for part in setting.plot.parts if part.kind in UNCORED]
    if spared:
        cautions.append(part_phrases.no_tines(parts=listed(spared, "and")))
    return tuple(cautions)


def _aerate(
    setting: ResolvedLawn, campaign: Campaign, number: int, session: int, target: str
) -> Draft:
    place = surface_place(setting, campaign, number)
    cored = min(place.share, cored_share(setting.plot.parts))
    return make(
        setting,
        "core_aerate",
        str(number),
        timing=Timing(SURFACE, session=session, position=number, anchor=target, offset=-1),
        wording=Wording(
            phrases.core_aerate() if campaign.sessions else phrases.core_aerate_for_seed(),
            coring_words(setting),
            cautions=coring_cautions(setting),
        ),
        extent=replace(place.extent(setting), area_m2=setting.plot.area_m2 * cored),
    )


def removes_cores(setting: ResolvedLawn) -> bool:
    """Plugs of clay are taken away where straight sand goes over them."""
    fine = setting.book.soils[setting.plot.soil].fine
    return (
        aerates(setting)
        and bool(setting.levelling.bands)
        and fine
        and is_straight_sand(setting, mix_parts(setting))
    )


def _buries_fittings(setting: ResolvedLawn) -> bool:
    """Whether the fill buries what stands level with the lawn: where it is deepest, if somebody
    said that there are sprinklers; on the whole, where nobody said it."""
    fill, told = setting.levelling, setting.brief.site.sprinklers
    lifted_mm = fill.lift_depth_mm if fill.lift_share else 0.0
    deep_mm = max(fill.depth_mm, lifted_mm) if told else fill.mean_mm + lifted_mm * fill.lift_share
    return told is not False and deep_mm >= setting.book.si("site.raise_fittings_from")
