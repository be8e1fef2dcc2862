"""Levelling: receiving the mix, the passes, working each in, and the mowing between them."""

import math
from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace

from turfplan.allotment import allotted
from turfplan.book.words import book_message, book_messages
from turfplan.calendar_days import MID_MONTHS
from turfplan.message import Listed, Message, Number, Quantity, Value, length_mm, listed, sentences
from turfplan.phrases import ground_fill as of_ground
from turfplan.phrases import level as phrases
from turfplan.phrases import looks, slopes
from turfplan.records.book_names import of_species
from turfplan.units import told_step_m3
from turfplan.work.barrows import laid_out
from turfplan.work.campaigns import Campaign, Session
from turfplan.work.drafts import Draft, Pass
from turfplan.work.dressed import surface_place
from turfplan.work.ground_fill import MM_PER_M
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.layers import measurable_mm
from turfplan.work.operations import (
    CARE,
    LAST_PASS,
    PASS,
    Extent,
    Timing,
    Wording,
    handled,
    make,
)
from turfplan.work.slopes import on_a_bank
from turfplan.work.watering.hours import law_of


def level(
    setting: ResolvedLawn, campaign: Campaign, loose_m3: Mapping[int, float], spacing_days: int
) -> list[Draft]:
    """The tasks of every session.

    `loose_m3` gives the loose volume of each pass, `spacing_days` the wished distance.
    """
    drafts: list[Draft] = []
    if setting.on_open_ground:
        return drafts
    for session in campaign.sessions:
        spacing = wished_spacing(setting, session, spacing_days)
        for index, layer in enumerate(session.passes):
            drafts += _pass(setting, campaign, session, index, loose_m3[layer.number], spacing)
        if not session.sows:
            drafts.append(_look_at_leaf_tips(setting, session, several=len(campaign.sessions) > 1))
    return drafts


def wished_spacing(setting: ResolvedLawn, session: Session, least_days: int) -> int:
    """The wished days between the passes of a session.

    Warm-season grass gets the long end where its season has the room.
    """
    if setting.cool or setting.on_open_ground or session.sows:
        return least_days
    longest = setting.book.fact(of_species(setting.turf.species.id, "pass_interval_min")).high_si
    room = (session.window.end - session.window.best).days // len(session.passes)
    return max(least_days, min(round(longest), room))


def _look_at_leaf_tips(setting: ResolvedLawn, session: Session, *, several: bool) -> Draft:
    """The look at what the last pass of a session has buried; `several` sessions are told apart."""
    dry = setting.brief.water.possible is False
    grass = setting.turf.species
    bare = looks.leaf_tips_bare if "plugs" in grass.plantable else looks.leaf_tips_bare_for_seed
    if not grass.seedable:
        bare = looks.leaf_tips_bare_for_plugs
    return make(
        setting,
        "inspect",
        f"leaf_tips.{session.number}" if several else "leaf_tips",
        timing=Timing(
            CARE,
            session=session.number,
            anchor=f"topdress.{session.passes[-1].number}",
            offset=setting.days("wish.leaf_tips"),
        ),
        wording=Wording(
            looks.leaf_tips(),
            title=looks.leaf_tips_title(),
            how=(
                looks.leaf_tips_clear_on_rain() if dry else looks.leaf_tips_clear(),
                bare(n=setting.days("order.leaf_tips_most")),
            ),
            go=looks.leaf_tips_go(),
            fallback=looks.next_free_day(),
        ),
        extent=Extent(where=session.passes[-1].where),
    )


def _pass(
    setting: ResolvedLawn,
    campaign: Campaign,
    session: Session,
    index: int,
    loose: float,
    spacing: int,
) -> list[Draft]:
    """One pass of a session by its place in it: spreading, working in, mowing before the next."""
    layer = session.passes[index]
    spread = _spread(setting, campaign, session, index, loose, spacing)
    drafts = [spread, _drag(setting, session, layer, spread)]
    if index:
        drafts.append(
            make(
                setting,
                "mow",
                str(layer.number),
                timing=Timing(
                    CARE,
                    session=session.number,
                    position=layer.number,
                    anchor=spread.id,
                    offset=-1,
                ),
                wording=Wording(phrases.mow()),
                extent=surface_place(setting, campaign, session.number, layer).extent(setting),
            )
        )
    return drafts


def _spread(
    setting: ResolvedLawn,
    campaign: Campaign,
    session: Session,
    index: int,
    loose: float,
    spacing: int,
) -> Draft:
    """The spreading of one pass: hours of its own, days of spreading and working in together."""
    layer = session.passes[index]
    words = {
        **said_of_pass(setting, campaign, layer, loose),
        "heaps": laid_out(setting, layer, loose),
    }
    area = setting.plot.area_m2 * layer.share
    incorporate = setting.book.operations["incorporate"]
    working_in = sum(setting.book.si(name) for name in incorporate.labour) * area
    spread = make(
        setting,
        "topdress",
        str(layer.number),
        timing=_wished(session, index, spacing),
        wording=Wording(
            _why(setting, campaign),
            words,
            how=_how(setting, layer, loose, words),
            go=phrases.compost_pass_go() if "compost" in handled(setting, "topdress") else None,
            cautions=site_cautions(setting),
        ),
        extent=Extent(area, loose, layer.depth_mm, more_hours=working_in, where=layer.where),
        facts=layer.facts,
    )
    return replace(
        spread,
        # Spreading and dragging share their days, so that the tips show by evening; hours are
        # told apart.
        person_hours=round(spread.person_hours - working_in, 2),
        cautions=(*_cautions_of(setting, layer, spread), *long_pass(setting, spread)),
    )


def _cautions_of(setting: ResolvedLawn, layer: Pass, spread: Draft) -> tuple[Message, ...]:
    """What the first pass minds for all of them is not said again at the others."""
    fall = book_message(setting.book, "cautions.grade.text")
    return tuple(c for c in spread.cautions if layer.number == 1 or c != fall)


def _how(
    setting: ResolvedLawn, layer: Pass, loose_m3: float, words: Mapping[str, Value]
) -> tuple[Message, ...] | None:
    """The steps of a pass that is deeper in some parts than elsewhere; None for the book's
    own. `loose_m3` is all that it takes, `words` fill the book's sentences.
    """
    usual = book_messages(setting.book, "operations.topdress.how", words)
    by_zone = _by_zone(setting, layer, loose_m3)
    if by_zone:
        return (*by_zone, *usual)
    if layer.rest_mm is None or setting.plot.zones:
        return None
    said = (
        phrases.hollows_and_rest(depth=length_mm(layer.depth_mm), rest=length_mm(layer.rest_mm))
        if layer.rest_mm > 0
        else phrases.hollows_only()
    )
    return (said, *usual)


def _by_zone(setting: ResolvedLawn, layer: Pass, loose_m3: float) -> tuple[Message, ...]:
    """How deep a pass is in each zone, and what goes there, where that differs between them."""
    shares: dict[Message, float] = {}
    for band in setting.levelling.bands:
        if band.zone is not None:
            shares[band.zone] = shares.get(band.zone, 0.0) + band.share
    depths = {
        zone: volume * MM_PER_M / (shares[zone] * setting.plot.area_m2)
        for zone, volume in layer.zones
    }
    surveyed = setting.brief.leveling.survey is not None
    if surveyed or len(depths) < 2 or _alike(setting, depths.values()):
        return ()
    layers = (
        phrases.zone_layer(zone=zone, depth=length_mm(depths[zone]), volume=volume)
        for zone, volume in _volumes(setting, layer, loose_m3)
    )
    return (phrases.by_zone(zones=listed(layers, "comma")),)


def _alike(setting: ResolvedLawn, depths_mm: Collection[float]) -> bool:
    """Whether nobody could measure the difference between some layers."""
    return max(depths_mm) - min(depths_mm) < measurable_mm(setting.system)


def _volumes(
    setting: ResolvedLawn, layer: Pass, loose_m3: float
) -> Iterator[tuple[Message, Quantity]]:
    """What goes into each zone of a pass, loose: told so that it adds up to the pass."""
    shares = [volume / layer.settled_m3 * loose_m3 for _, volume in layer.zones]
    told = allotted(shares, told_step_m3(setting.system))
    for (name, _), m3 in zip(layer.zones, told, strict=True):
        yield name, Quantity(m3, "loose")


def _wished(session: Session, index: int, spacing: int) -> Timing:
    """Back from the seed, else forward from the window's best day; `spacing` in days."""
    layer = session.passes[index]
    after = len(session.passes) - 1 - index
    timing = Timing(PASS if after else LAST_PASS, session=session.number, position=layer.number)
    if session.sows:
        return replace(timing, anchor="sowing", offset=-spacing * after)
    return replace(timing, ideal=session.window.best.toordinal() + spacing * index)


def said_of_pass(
    setting: ResolvedLawn, campaign: Campaign, layer: Pass, loose: float
) -> dict[str, Value]:
    """The number, the depth and the most of a pass, and what each zone takes of it."""
    # In whole millimetres a pass next to its limit is never told as more than that.
    rounding = "nearest" if layer.depth_mm > math.floor(layer.cap_mm) else "down"
    return {
        "n": Number(layer.number),
        "of": Number(len(campaign.passes)),
        "depth": length_mm(layer.depth_mm),
        "cap": phrases.most_here(depth=length_mm(layer.cap_mm, rounding), reason=layer.cap_reason),
        "zones": _of_zones(setting, layer, loose),
    }


def _drag(setting: ResolvedLawn, session: Session, layer: Pass, spread: Draft) -> Draft:
    """Working a pass in, as long as it is spread."""
    drag = make(
        setting,
        "incorporate",
        str(layer.number),
        timing=Timing(CARE, session=session.number, position=layer.number, anchor=spread.id),
        wording=Wording(phrases.incorporate(), {"water_in": _watering_in(setting, layer)}),
        extent=Extent(setting.plot.area_m2 * layer.share, where=layer.where),
    )
    return replace(drag, duration_days=spread.duration_days)


def _watering_in(setting: ResolvedLawn, layer: Pass) -> Message:
    """How a layer is settled and the grass under it watered, as far as there is water and the law
    leaves days; seed has its own."""
    dry = setting.brief.water.possible is False
    if layer.seeded:
        return phrases.water_in_seeded_rain() if dry else phrases.water_in_seeded()
    if dry:
        return phrases.water_in_rain()
    days = setting.days("water.recover_days")
    gap = setting.book.fact("water.recover_gap")
    told = (
        phrases.water_in_law(n=days)
        if law_of(setting.brief.water).restricts_days
        else phrases.water_in_grass(least=Number(gap.low_si), most=Number(gap.high_si), n=days)
    )
    return sentences(told, phrases.water_in_cold() if _rests_in_cold(setting) else None)


def _rests_in_cold(setting: ResolvedLawn) -> bool:
    """Whether a pass may lie where the grass stands still and is not watered: that of a cool-season
    grass in the first warmth; others are dressed only while they grow hard."""
    least, season = setting.book.si("water.dormant_growth"), setting.turf.species.season
    return season == "cool" and any(
        setting.climate.growth_potential(day, season) < least for day in MID_MONTHS
    )


def _of_zones(setting: ResolvedLawn, layer: Pass, loose_m3: float) -> Listed:
    """What each zone takes of a pass, loose; nothing where there is but one zone."""
    if len(setting.plot.zones) < 2 or not layer.zones or not layer.settled_m3:
        return Listed(())
    return listed(
        (
            phrases.zone_part(zone=name, volume=volume)
            for name, volume in _volumes(setting, layer, loose_m3)
        ),
        "comma",
    )


def long_pass(setting: ResolvedLawn, spread: Draft) -> tuple[Message, ...]:
    """What to do where one pass keeps the people at hand busy beyond a week-end."""
    most = round(setting.book.si("work.pass_days_most"))
    if spread.duration_days <= most:
        return ()
    needed = math.ceil(setting.labour.people * spread.duration_days / most)
    told = of_ground.long_lift if setting.on_open_ground else phrases.long_pass
    return (told(n=spread.duration_days, people=setting.labour.people, needed=needed, most=most),)


def _why(setting: ResolvedLawn, campaign: Campaign) -> Message:
    depth, passes = length_mm(setting.levelling.depth_mm), len(campaign.passes)
    if passes == 1:
        return phrases.one_pass(depth=depth)
    return phrases.passes(depth=depth, n=passes)


def site_cautions(setting: ResolvedLawn) -> tuple[Message, ...]:
    """What the owner said about the site, as cautions of the spreading itself."""
    site, book = setting.brief.site, setting.book
    cautions: list[Message] = []
    if on_a_bank(setting):
        # Bare ground is filled from the foot up; a layer over grass is drawn over it from the top.
        grass = (phrases.steep(), slopes.spread_across())
        cautions += [of_ground.steep()] if setting.on_open_ground else grass
    if site.septic_field:
        cautions.append(phrases.septic_field())
    if site.building:
        below = length_mm(book.si("site.below_siding"), kind="height")
        cautions.append(phrases.at_the_house(below=below))
    return tuple(cautions)
