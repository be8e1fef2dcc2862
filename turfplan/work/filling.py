"""The ways to fill a lawn that are compared: whole or in part, by passes or with hollows lifted."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from turfplan.message import Message, Number, length_mm
from turfplan.phrases import lawn as phrases
from turfplan.work.drafts import Band, Pass
from turfplan.work.labour import person_hours, working_days
from turfplan.work.lawn import Levelling, ResolvedLawn
from turfplan.work.passes import SEEDED, band_caps, passes_needed
from turfplan.work.watering.verdict import relaid_gap, too_dry_to_relay

MM_IN_M = 1000.0
# A season that is short of time for a fill still takes one pass of it, or two.
FEW_PASSES = (2, 1)
HAIR_MM = 1e-6
SETTLES = phrases.settles(share=Number(0, "percent")).key


def ways_of_filling(
    setting: ResolvedLawn, *, begun: bool = False, any_part: bool = False
) -> tuple[ResolvedLawn, ...]:
    """The lawn filled by passes alone, then with hollows lifted, in part, and not now at all.

    Lifting is for hollows in living turf, and as much of it as the people at hand can do. It needs
    no season in which grass grows through a pass: what lies beside the hollows may wait. What is
    left out stands in `levelling.left`: the fewest passes that are worth it, or only the seed; with
    `any_part` as many passes as there are, each fewer than the whole takes.
    Where lifting has `begun` the turf is up, and no law is asked any more.
    """
    if not setting.levelling.bands or setting.on_open_ground:
        return (setting,)
    unlifted = None if begun else lift_refused(setting)
    if unlifted is not None:
        setting = replace(setting, assumptions=(*setting.assumptions, unlifted))
    lifted = tuple(_lifted(setting)) if unlifted is None else ()
    beside = (replace(setting, levelling=way) for way in lifted if way.bands)
    undressed = (way for lawn in (setting, *beside) for way in _undressed(lawn))
    thinner = _thinner(setting, any_part=any_part)
    ways = dict.fromkeys((*lifted, *thinner, *undressed))
    return (setting, *(_told(setting, way) for way in ways))


def lift_refused(setting: ResolvedLawn) -> Message | None:
    """Why hollows that could be lifted are not: nothing may keep the relaid turf moist; None where
    it may, or where nothing would be lifted.
    """
    if setting.on_open_ground or not too_dry_to_relay(setting.brief, setting.book):
        return None
    if next(_lifted(setting), None) is None:
        return None
    return relaid_gap(setting.brief, setting.book)


def ways_once_lifted(lifted: ResolvedLawn, *, any_part: bool = False) -> tuple[ResolvedLawn, ...]:
    """The ways to fill what lies beside hollows that are lifted: all of it, in part, not now."""
    if not lifted.levelling.bands:
        return (lifted,)
    ways = dict.fromkeys((*_thinner(lifted, any_part=any_part), *_undressed(lifted)))
    return (lifted, *(replace(lifted, levelling=way) for way in ways))


def _lifted(setting: ResolvedLawn) -> Iterator[Levelling]:
    """Hollows lifted: those alone that few passes do not fill, then all that lie deeper than some
    limit, each limit in turn."""
    known, levelling = setting.book.fact("site.deep_limit"), setting.levelling
    borne = _borne(setting)
    limits = (known.low_si, (known.low_si + known.high_si) / 2, known.high_si)
    deeper = [[b for b in levelling.bands if b.depth_mm > limit + HAIR_MM] for limit in limits]
    for deep in ([band for band in deeper[0] if band not in borne], *deeper):
        share = sum(band.share for band in deep)
        if deep and _can_be_lifted(setting, deep):
            yield replace(
                levelling,
                bands=tuple(band for band in levelling.bands if band not in deep),
                lift_share=share,
                lift_depth_mm=sum(band.depth_mm * band.share for band in deep) / share,
                lift_borne=sum(band.share for band in deep if band in borne),
            )


def _borne(setting: ResolvedLawn) -> list[Band]:
    """The parts through whose whole fill the grass grows in a few passes."""
    bands = setting.levelling.bands
    caps = band_caps(setting, seeded_last=False)
    return [
        band
        for band, cap in zip(bands, caps, strict=True)
        if band.depth_mm <= max(FEW_PASSES) * cap.plain.depth_mm + HAIR_MM
    ]


def _can_be_lifted(setting: ResolvedLawn, deep: Sequence[Band]) -> bool:
    """Whether hollows are small enough to be lifted by the people at hand."""
    book, area_m2 = setting.book, setting.plot.area_m2
    share = sum(band.share for band in deep)
    settled_m3 = sum(band.share * band.depth_mm for band in deep) * area_m2 / MM_IN_M
    loose_m3 = settled_m3 * (1 + lift_settle(setting))
    hours = person_hours(setting, book.operations["lift_and_fill"], area_m2 * share, loose_m3)
    few = working_days(setting, hours) <= book.si("site.lift_days_most")
    if setting.brief.water.possible is False and not setting.open("lift_and_fill"):
        # What nobody waters roots again in the rains or not at all.
        return False
    return few and share <= book.si("site.lift_share_most")


def lift_settle(setting: ResolvedLawn) -> float:
    """The share by which the fill of lifted hollows settles."""
    return max(setting.levelling.settle_share, setting.book.si("topdress.settle_deep"))


def _thinner(setting: ResolvedLawn, *, any_part: bool = False) -> Iterator[Levelling]:
    """Only what a few passes take, the rest left for later; with `any_part` what any number of them
    takes, most first."""
    levelling = setting.levelling
    # Seed that waits for spring goes in weeks after the last pass, which is then as any other.
    seeded = setting.sowing.operation in SEEDED and setting.sowing.intent != "dormant"
    caps = band_caps(setting, seeded)
    most_passes = passes_needed(setting) - 1 if any_part else 0
    for passes in (*range(most_passes, max(FEW_PASSES), -1), *FEW_PASSES):
        now, left = [], []
        for band, cap in zip(levelling.bands, caps, strict=True):
            most = (passes - 1) * cap.plain.depth_mm + cap.last.depth_mm
            depth = min(band.depth_mm, most)
            now.append(replace(band, depth_mm=depth))
            if band.depth_mm - depth > HAIR_MM:
                left.append(replace(band, depth_mm=band.depth_mm - depth))
        way = replace(levelling, bands=tuple(now), left=tuple(left))
        if left and left_share(way) <= setting.book.si("campaign.left_most"):
            yield way


def _undressed(setting: ResolvedLawn) -> Iterator[Levelling]:
    """Only seed or plants now, the whole fill left for a season that takes it, if there is one."""
    if setting.never_opens("topdress"):
        return
    if setting.sowing.operation is not None and setting.sowing.intent != "winter_overseed":
        yield replace(setting.levelling, bands=(), left=setting.levelling.bands)


def _told(setting: ResolvedLawn, way: Levelling) -> ResolvedLawn:
    """The lawn filled in one of the ways, with what that means said."""
    said = list(setting.assumptions)
    if way.lift_share:
        share = Number(way.lift_share, "percent")
        said.append(phrases.hollows(depth=length_mm(way.lift_depth_mm), share=share))
        if not way.bands:
            # Nothing is spread thinly: how a thin layer settles is not asked.
            said = [known for known in said if known.key != SETTLES]
        said.append(phrases.settles_hollows(share=Number(lift_settle(setting), "percent")))
    return replace(setting, levelling=way, assumptions=tuple(said))


def leaves_all(levelling: Levelling) -> bool:
    """Whether the whole fill is left for later: only seed or plants now, and no hollow lifted."""
    return bool(levelling.left) and not levelling.bands and not levelling.lift_share


def less_what_lies(levelling: Levelling, lies_mm: float) -> Levelling:
    """A levelling without passes that leaves out what does not lie there already."""
    left = [replace(b, depth_mm=b.depth_mm - lies_mm) for b in levelling.left]
    left = [band for band in left if band.depth_mm > HAIR_MM]
    if not left:
        return levelling
    lies = sum(b.share * min(b.depth_mm, lies_mm) for b in levelling.left)
    return replace(levelling, left=tuple(left), lies_mm=lies)


def left_share(levelling: Levelling) -> float:
    """The share by volume of the whole fill that is left for later."""
    lifted = levelling.lift_share * levelling.lift_depth_mm
    left = sum(band.share * band.depth_mm for band in levelling.left)
    done = lifted + levelling.lies_mm
    return left / (levelling.mean_mm + done + left) if left else 0.0


def cost_of_filling(setting: ResolvedLawn, passes: Sequence[Pass]) -> float:
    """What a way of filling costs, and its passes for hollows alone."""
    book, cost = setting.book, cost_of_way(setting)
    small = book.low_si("passes.hollow_share") + 1e-9
    alone = sum(1 for layer in passes if layer.share <= small)
    if not alone:
        return cost
    deeper = setting.levelling.depth_mm / book.fact("site.deep_limit").high_si - 1
    deep = max(0.0, deeper) * book.si("campaign.cost_deep_hollow")
    return cost + alone * book.si("campaign.cost_hollow_pass") + deep


def cost_of_way(setting: ResolvedLawn) -> float:
    """What lifting hollows costs, and what leaving out a part of the fill, or all of it."""
    book, levelling = setting.book, setting.levelling
    cost = book.si("campaign.cost_lift") if levelling.lift_share else 0.0
    if levelling.lift_borne:
        # Turf is cut where grass would have grown through: that is against advice.
        cost += book.si("campaign.cost_advice_rule")
    if levelling.left and not levelling.bands:
        return cost + book.si("campaign.cost_undressed")
    if levelling.left:
        cost += book.si("campaign.cost_part")
    return cost + book.si("campaign.cost_left") * left_share(levelling)
