"""The amounts that hang on tasks, from the volumes, rates and areas of one campaign."""

from dataclasses import dataclass

from turfplan.message import (
    Listed,
    Message,
    Number,
    Quantity,
    Value,
    as_written,
    length_mm,
    listed,
    sentences,
)
from turfplan.phrases import amounts as phrases
from turfplan.phrases import befallen
from turfplan.records.book_names import (
    FactName,
    of_material,
    of_species,
)
from turfplan.records.fact_names import SpeciesFact
from turfplan.records.plan_task import Amount
from turfplan.units import System, shovelled_m3
from turfplan.work.barrows import in_litres
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import Draft
from turfplan.work.filling import lift_settle
from turfplan.work.ground_fill import cover_is_bought
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.material_amounts import counted, loose_volume_m3, mixture
from turfplan.work.mix_choice import MixChoice
from turfplan.work.phases.open_turf import closed_to_tines, removes_cores
from turfplan.work.places import filled_place
from turfplan.work.plants import (
    pieces_needed,
    planted_area_m2,
    spacing_of,
    sprig_rate,
    sprig_rows_mm,
    sprigs_m3,
)
from turfplan.work.season import FillVolumes
from turfplan.work.seed_amounts import bulk_seed_kg, pure_live_share
from turfplan.work.seed_mix import SownArea, rates_g_m2
from turfplan.work.slopes import is_pegged

# A pass that takes this share of an even layer, or more, is spread evenly.
EVEN = 0.99


def loose_volumes(setting: ResolvedLawn, campaign: Campaign, mix: MixChoice) -> FillVolumes:
    """The loose volumes of passes, with room for cores taken away; of hollows; of the touch-up.

    They are rounded here, once, to what a reader is told of them.
    """
    book = setting.book
    cores_mm = book.si("aerate.core_volume_depth") if removes_cores(setting) else 0.0
    passes: dict[int, float] = {}
    for session in campaign.sessions:
        for index, layer in enumerate(session.passes):
            cores = (
                cores_mm * setting.plot.area_m2 * setting.levelling.covered_share / 1000
                if index == 0 and not closed_to_tines(setting, campaign, session.number)
                else 0.0
            )
            loose_m3 = loose_volume_m3(layer.settled_m3 + cores, setting.levelling.settle_share)
            passes[layer.number] = shovelled_m3(loose_m3, setting.system)
    lift = (
        setting.levelling.lift_share * setting.plot.area_m2 * setting.levelling.lift_depth_mm / 1000
    )
    touch = (
        book.si("topdress.touch_up_share")
        * filled_place(setting).share
        * setting.plot.area_m2
        * setting.touch_up_depth_mm
        / 1000
    )
    return FillVolumes(
        passes,
        shovelled_m3(loose_volume_m3(lift, lift_settle(setting)), setting.system),
        shovelled_m3(loose_volume_m3(touch, setting.levelling.settle_share), setting.system)
        if passes
        else 0.0,
    )


def densities(setting: ResolvedLawn) -> dict[str, float]:
    """Loose dry densities of every material of the book, kg/m3."""
    return {
        item: setting.book.si(of_material(item, "density"))
        for item in setting.book.materials
        if setting.book.materials[item].kind != "cover"
    }


def pass_amounts(
    setting: ResolvedLawn, mix: MixChoice, draft: Draft, share: float
) -> tuple[Amount, ...]:
    """What one pass over a share of the lawn takes: settled depth, loose volume, weight, barrow
    loads, weight per area."""
    area = setting.plot.area_m2 * share
    load = mixture(draft.loose_m3, mix.parts, densities(setting))
    told = phrases.pass_lift_depth if setting.on_open_ground else phrases.pass_depth
    depth = told(cap=_message(draft.words["cap"]))
    weighed = tuple(of_material(item, "density") for item in mix.parts)
    amounts = (
        Amount.of("depth", draft.depth_mm, "mm", depth, draft.facts),
        Amount.of(
            "volume",
            draft.loose_m3,
            "m3",
            _pass_volume(setting, draft, area),
            ("topdress.settle_allowance",),
        ),
        Amount.of("weight", load.mass_kg, "kg", phrases.pass_weight(), weighed),
        *_barrow_loads(setting, draft.loose_m3),
    )
    if setting.system is not System.METRIC:
        return amounts
    # The trade in metric countries reads passes by weight.
    per_area = phrases.pass_weight_per_area()
    return (*amounts, Amount.of("weight per area", load.mass_kg / area, "kg/m2", per_area))


def _barrow_loads(setting: ResolvedLawn, loose_m3: float) -> tuple[Amount, ...]:
    """The barrows that a pass takes; none where a loader is at hand."""
    if "loader" in setting.brief.work.machines:
        return ()
    barrow = setting.book.si("labour.barrow")
    why = phrases.pass_barrows(barrow=in_litres(barrow))
    loads = counted(loose_m3, barrow)
    return (Amount.of("barrow loads", loads, "loads", why, ("labour.barrow",)),)


def _pass_volume(setting: ResolvedLawn, draft: Draft, area_m2: float) -> Message:
    """Why a pass takes its loose volume, with what each zone takes of it."""
    depth, settle = length_mm(draft.depth_mm), Number(setting.levelling.settle_share, "percent")
    layer_m3 = area_m2 * draft.depth_mm / 1000 * (1 + setting.levelling.settle_share)
    why = (
        phrases.pass_volume(depth=depth, area=Quantity(area_m2, "area"), settle=settle)
        if draft.loose_m3 > EVEN * layer_m3
        else phrases.pass_volume_missing(depth=depth, settle=settle)
    )
    zones = draft.words["zones"]
    empty = not zones.items if isinstance(zones, Listed) else not zones
    return sentences(why, None if empty else phrases.pass_zones(zones=listed((zones,))))


def _message(value: Value) -> Message:
    """What fills an instruction, as a message; a text stands as it was written."""
    if isinstance(value, Message):
        return value
    if isinstance(value, str):
        return as_written(value)
    raise TypeError(f"{value!r} is no message")


@dataclass(frozen=True, slots=True)
class _SeedRate:
    """What a sentence calls the rate, what the owner asked for in g/m2, and the fact of each grass
    (None: asked for)."""

    name: Message
    asked_g_m2: float | None
    fact: SpeciesFact | None


def _seed_rate(setting: ResolvedLawn) -> _SeedRate:
    """The rate that the owner asked for, else of a winter cover, a new lawn or an overseeding."""
    asked = setting.brief.seeding.rate_g_m2
    if asked:
        return _SeedRate(phrases.seed_rate_asked(), asked, None)
    if setting.sowing.intent == "winter_overseed":
        cover = setting.book.si(_winter_rate(setting))
        return _SeedRate(phrases.seed_rate_winter_cover(), cover, None)
    if setting.on_open_ground:
        return _SeedRate(phrases.seed_rate_new_lawn(), None, "seed_rate_new")
    if setting.sowing.intent == "patch":
        return _SeedRate(phrases.seed_rate_bare_patches(), None, "seed_rate_new")
    return _SeedRate(phrases.seed_rate_overseeding(), None, "seed_rate_overseed")


def _winter_rate(setting: ResolvedLawn) -> FactName:
    """The rate of a winter's ryegrass: less of it where the grass below suffers from it."""
    if setting.bears_winter_cover:
        return "seeding.winter_cover_rate"
    return "seeding.winter_cover_rate_elsewhere"


def _rate_facts(setting: ResolvedLawn, rate: _SeedRate) -> tuple[FactName, ...]:
    """The facts behind a rate; of a mixture also what its seeds weigh."""
    if rate.fact is None:
        winter = setting.sowing.intent == "winter_overseed" and not setting.brief.seeding.rate_g_m2
        return (_winter_rate(setting),) if winter else ()
    grasses = setting.sowing.grasses
    rates = tuple(of_species(grass, rate.fact) for grass in grasses)
    if len(grasses) == 1:
        return rates
    return (*rates, *(of_species(grass, "thousand_seeds") for grass in grasses))


def seed_masses_kg(setting: ResolvedLawn) -> dict[SownArea, dict[str, float]]:
    """Kilograms of pure live seed of each grass in each area that is sown."""
    rate = _seed_rate(setting)
    area_m2 = setting.plot.area_m2 * setting.mended_share
    fact = rate.fact or "seed_rate_overseed"
    return {
        area: {
            grass: bulk_seed_kg(g_m2, area_m2 * area.share)
            for grass, g_m2 in rates_g_m2(setting.book, area, fact, rate.asked_g_m2).items()
        }
        for area in setting.sowing.areas
    }


def seed_amounts(
    setting: ResolvedLawn, sown_share: float = 1.0, left: float = 1.0
) -> tuple[Amount, ...]:
    """Seed by rate and pure live seed, with the reserve that is held back.

    `sown_share` is the part of the lawn that is sown in all, `left` what of that is still to be
    sown.
    """
    book, bag = setting.book, setting.brief.seeding
    rate = _seed_rate(setting)
    # Bare patches are the first to be sown: a hose that waters a part waters them.
    patch = setting.sowing.share * setting.mended_share
    area_m2 = setting.plot.area_m2 * min(patch, sown_share) * left
    area, live = Quantity(area_m2, "area"), 1.0
    by_rate, in_all = (
        phrases.seed_by_rate(rate=rate.name),
        phrases.seed_total(area=area, rate=rate.name),
    )
    if bag.purity_percent and bag.germination_percent:
        live = pure_live_share(bag.purity_percent, bag.germination_percent)
        share = Number(live, "percent")
        by_rate = phrases.seed_by_rate_live(rate=rate.name, live=share)
        in_all = phrases.seed_total_live(area=area, rate=rate.name, live=share)
    whole_kg = sum(sum(each.values()) for each in seed_masses_kg(setting).values())
    live_kg = whole_kg * min(1.0, sown_share / patch) * left
    total_kg, facts = live_kg / live, _rate_facts(setting, rate)
    held_back_kg = total_kg * book.si("seeding.reserve")
    part: tuple[Amount, ...] = ()
    if left < 1:
        part = (Amount.of("sown area", area_m2, "m2", befallen.still_sown()),)
    elif min(sown_share, patch) < setting.sowing.share:
        part = (_sown_area(setting, area_m2, by_hose=sown_share < patch),)
    return (
        *part,
        Amount.of("seed rate", live_kg * 1000 / area_m2, "g/m2", by_rate, facts),
        Amount.of("seed", total_kg, "kg", in_all, facts),
        Amount.of(
            "seed held back", held_back_kg, "kg", phrases.seed_held_back(), ("seeding.reserve",)
        ),
    )


def _sown_area(setting: ResolvedLawn, area_m2: float, *, by_hose: bool) -> Amount:
    """The area that is sown where it is not all that could be: what a hose waters, or patches."""
    told = setting.brief.lawn.thin_share is not None
    if by_hose:
        return Amount.of("sown area", area_m2, "m2", phrases.seed_sown_area())
    facts: tuple[FactName, ...] = () if told else ("seeding.patch_share",)
    return Amount.of("sown area", area_m2, "m2", phrases.seed_patched_area(), facts)


def plant_amounts(setting: ResolvedLawn, draft: Draft) -> tuple[Amount, ...]:
    """Sod by area, plugs by spacing, sprigs by volume."""
    form = draft.form or "plugs"
    area_m2 = planted_area_m2(setting, draft.sown_share) * draft.left
    planted = Quantity(area_m2, "area")
    if form == "sod":
        area_m2 *= 1 + setting.book.si("planting.sod_waste")
        why = phrases.sod(area=planted)
        return (
            Amount.of("sod", area_m2, "m2", why, ("planting.sod_waste", "planting.thin_share")),
        )
    if form == "sprigs":
        rate, of_grass = sprig_rate(setting)
        why = phrases.sprigs(
            rate=Quantity(rate, "sprig_rate"),
            area=planted,
            rows=length_mm(sprig_rows_mm(setting), kind="height"),
        )
        facts: tuple[FactName, ...] = (of_grass, "planting.sprig_rows", "planting.thin_share")
        return (Amount.of("sprigs", sprigs_m3(setting, area_m2), "m3", why, facts),)
    spacing_mm, fact = spacing_of(setting)
    why = phrases.plugs(spacing=length_mm(spacing_mm, kind="height"), area=planted)
    count = pieces_needed(setting, area_m2)
    return (Amount.of("plugs", count, "pieces", why, (fact, "planting.thin_share")),)


def fill_amounts(draft: Draft) -> tuple[Amount, ...]:
    """Depth and loose volume where only a part of the lawn is filled."""
    room: tuple[FactName, ...] = ("topdress.settle_allowance",)
    return (
        Amount.of("depth", draft.depth_mm, "mm", phrases.fill_depth(), draft.facts),
        Amount.of("volume", draft.loose_m3, "m3", phrases.fill_volume(), room),
    )


def covers_of(setting: ResolvedLawn, draft: Draft, lifts: int) -> tuple[Amount, ...]:
    """What a cover takes of the ground that it is for: what is sown of a slope, or before that what
    was loosened for its fill, in so many lifts; a mat is taken once and pegged again. None where
    the people choose between nurse grass and straw, nor on level ground filled strip by strip.
    """
    on_fill, pegged = setting.on_open_ground and lifts > 0, is_pegged(setting)
    if draft.operation != "nurse_cover":
        return () if on_fill and pegged else cover_amounts(setting, draft.area_m2)
    if not (on_fill and cover_is_bought(setting)) or (pegged and draft.position > 1):
        return ()
    return cover_amounts(setting, draft.area_m2)


def cover_amounts(setting: ResolvedLawn, straw_m2: float) -> tuple[Amount, ...]:
    """What covers so much of a slope, m2: bales of straw, or where that would slide a mat with its
    pegs.
    """
    if is_pegged(setting):
        mat_m2 = straw_m2 * (1 + setting.book.si("site.mat_overlap"))
        each_m2 = 1 / setting.book.si("site.mat_pegs")
        pegs, why = counted(straw_m2, each_m2), phrases.pegs(area=Quantity(each_m2, "area"))
        return (
            Amount.of("mat", mat_m2, "m2", phrases.mat(), ("site.mat_overlap",)),
            Amount.of("pegs", pegs, "pieces", why, ("site.mat_pegs",)),
        )
    bales = counted(straw_m2, 1 / setting.book.si("seeding.straw_bales"))
    return (Amount.of("straw", bales, "bales", phrases.straw(), ("seeding.straw_bales",)),)
