"""The amounts that hang on tasks and the lines that are bought, from the volumes, rates and areas of one campaign."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from turfplan.amounts.material import (
    Mixture,
    counted,
    depth_of_load_mm,
    loose_volume_m3,
    mixture,
    sold_volume_m3,
    truck_loads_m3,
)
from turfplan.amounts.seed import bulk_seed_kg, plugs_needed, pure_live_share
from turfplan.plan import Amount, OrderLine, Part
from turfplan.planner.stock import Stock
from turfplan.rules.campaign import Campaign
from turfplan.rules.draft import Draft
from turfplan.rules.passes import MixChoice
from turfplan.rules.season import Volumes
from turfplan.rules.setting import Setting
from turfplan.rules.surface import removes_cores
from turfplan.units import System, convert, from_inside, read_as, us_twin

EMPTY = Stock()
ROUNDED_M3 = 1e-6


@dataclass(frozen=True, slots=True)
class Bought:
    """An order before it has dates: what, how much, of which parts, and the tasks that order and receive it."""

    item: str
    name: str
    value: float
    unit: str
    parts: tuple[Part, ...]
    loads: tuple[float, ...]
    reason: str
    text: str
    order_task: str | None
    deliver_task: str
    questions: tuple[str, ...] = ()
    acceptance: tuple[str, ...] = ()
    facts: tuple[str, ...] = ()


def loose_volumes(setting: Setting, campaign: Campaign, mix: MixChoice) -> Volumes:
    """The loose volumes of the passes, with room for cores that are taken away; of the hollows; of the touch-up."""
    book = setting.book
    cores_mm = book.si("aerate.core_volume_depth") if removes_cores(setting) else 0.0
    passes: dict[int, float] = {}
    for session in campaign.sessions:
        for index, layer in enumerate(session.passes):
            cores = cores_mm * setting.area_m2 * setting.covered_share / 1000 if index == 0 else 0.0
            passes[layer.number] = loose_volume_m3(layer.settled_m3 + cores, setting.settle_share)
    lift = setting.lift_share * setting.area_m2 * setting.lift_depth_mm / 1000
    touch = book.si("topdress.touch_up_share") * setting.area_m2 * setting.touch_up_depth_mm / 1000
    lift_settle = max(setting.settle_share, book.si("topdress.settle_deep"))
    return Volumes(
        passes, loose_volume_m3(lift, lift_settle), loose_volume_m3(touch, setting.settle_share) if passes else 0.0
    )


def densities(setting: Setting) -> dict[str, float]:
    """Loose dry densities of every material of the book, kg/m3."""
    return {
        item: setting.book.si(f"materials.{item}.density")
        for item in setting.book.materials
        if setting.book.get(f"materials.{item}.density")
    }


def pass_amounts(setting: Setting, mix: MixChoice, draft: Draft) -> tuple[Amount, ...]:
    """What one pass takes: settled depth, loose volume, weight, weight per area, barrow loads."""
    book = setting.book
    area = setting.area_m2 * setting.covered_share
    load = mixture(draft.loose_m3, mix.parts, densities(setting))
    barrow = book.si("labour.barrow")
    settle = f"{setting.settle_share:.0%}"
    by_zone = f" Of it: {draft.words['zones']}." if draft.words["zones"] else ""
    even = draft.loose_m3 > 0.99 * area * draft.depth_mm / 1000 * (1 + setting.settle_share)
    where = f"over {_area(setting, area)}" if even else "at most, only where it is still missing,"
    found = [
        Amount.of("depth", draft.depth_mm, "mm", f"Settled depth of this pass; {draft.words['cap']}.", draft.facts),
        Amount.of(
            "volume", draft.loose_m3, "m3",
            f"{setting.length(draft.depth_mm)} {where} and {settle} more, because loose material settles.{by_zone}",
            ("topdress.settle_allowance",),
        ),
        Amount.of(
            "weight", load.mass_kg, "kg", "Volume times the dry density of its parts; damp material weighs more.",
            tuple(f"materials.{item}.density" for item in mix.parts),
        ),
        Amount.of(
            "barrow loads", counted(draft.loose_m3, barrow), "loads", f"At {_barrow(setting, barrow)} a load.",
            ("labour.barrow",),
        ),
    ]  # fmt: skip
    if setting.system is System.METRIC:
        # The trade in metric countries reads passes by weight.
        found.append(
            Amount.of("weight per area", load.mass_kg / area, "kg/m2", "The weight spread over the area of the pass.")
        )
    return tuple(found)


def _barrow(setting: Setting, volume_m3: float) -> str:
    return (
        f"{from_inside(volume_m3, 'ft3', 'volume'):.0f} ft³"
        if setting.system is System.US
        else f"{volume_m3 * 1000:.0f} L"
    )


def _area(setting: Setting, area_m2: float) -> str:
    return read_as(area_m2, "area", setting.system).text


def seed_amounts(setting: Setting) -> tuple[Amount, ...]:
    """Seed by rate and pure live seed, with the reserve that is held back."""
    book, brief, sown = setting.book, setting.brief, setting.sown
    new = setting.intent in ("renovate",) or setting.condition == "bare"
    name = f"species.{sown.id}.seed_rate_{'new' if new else 'overseed'}"
    if book.get(name) is None:
        name = f"species.{sown.id}.seed_rate_new"
    cover = setting.intent == "winter_overseed"
    name = "seeding.winter_cover_rate" if cover else name
    asked = brief.seeding.rate_g_m2
    rate = asked or book.si(name)
    area = setting.area_m2 * (book.si("seeding.patch_share") if setting.intent == "patch" else 1.0)
    live = 1.0
    words = (
        "rate asked for in the brief"
        if asked
        else "rate for a winter cover, which must make the lawn alone"
        if cover
        else ("rate for a new lawn" if new else "overseeding rate, about half of a new lawn's")
    )
    if brief.seeding.purity_percent and brief.seeding.germination_percent:
        live = pure_live_share(brief.seeding.purity_percent, brief.seeding.germination_percent)
        words += f"; the bag holds {live:.0%} live seed, so more of it is sown"
    total = bulk_seed_kg(rate, area, live)
    reserve = book.si("seeding.reserve")
    facts = () if asked else (name,)
    return (
        Amount.of("seed rate", rate, "g/m2", words[:1].upper() + words[1:] + ".", facts),
        Amount.of("seed", total, "kg", f"Rate times {_area(setting, area)}; {words}.", facts),
        Amount.of(
            "seed held back",
            total * reserve,
            "kg",
            "Part of the seed is kept for bare and washed spots.",
            ("seeding.reserve",),
        ),
    )


def plant_amounts(setting: Setting, draft: Draft) -> tuple[Amount, ...]:
    """Sod by area or plugs and sprigs by spacing."""
    book = setting.book
    form = draft.words.get("form", "plugs")
    # Living grass is planted where it is bare; bare ground, or a lawn made anew, all over.
    share = book.si("planting.thin_share") if setting.living else 1.0
    if form == "sod":
        area = setting.area_m2 * share * (1 + book.si("planting.sod_waste"))
        reason = f"{_area(setting, setting.area_m2 * share)} and a little more for cutting."
        return (Amount.of("sod", area, "m2", reason, ("planting.sod_waste", "planting.thin_share")),)
    fact = f"species.{setting.sown.id}.plug_spacing"
    spacing = setting.brief.seeding.spacing_mm or book.si(fact if book.get(fact) else "planting.plug_spacing")
    count = plugs_needed(setting.area_m2 * share, spacing)
    reason = f"One each {setting.length(spacing, 'height')} both ways over {_area(setting, setting.area_m2 * share)}: area divided by spacing squared."
    return (
        Amount.of(
            form, count, "pieces", reason, (fact if book.get(fact) else "planting.plug_spacing", "planting.thin_share")
        ),
    )


def fill_amounts(draft: Draft) -> tuple[Amount, ...]:
    """Depth and loose volume where only a part of the lawn is filled."""
    return (
        Amount.of("depth", draft.depth_mm, "mm", "Settled depth where it is filled.", draft.facts),
        Amount.of(
            "volume", draft.loose_m3, "m3", "Area times depth, with room for settling.", ("topdress.settle_allowance",)
        ),
    )


def straw_amounts(setting: Setting) -> tuple[Amount, ...]:
    """Bales of straw for the slope."""
    book = setting.book
    each = 1 / book.si("seeding.straw_bales")
    return (
        Amount.of(
            "straw",
            counted(setting.area_m2, each),
            "bales",
            "One bale covers so much that half the soil shows.",
            ("seeding.straw_bales",),
        ),
    )


def material_orders(
    setting: Setting, campaign: Campaign, mix: MixChoice, volumes: Volumes, stock: Stock = EMPTY
) -> list[Bought]:
    """One line for each session's mix, more or less by what the stock is short or over, and one for the soil of the hollows."""
    lines: list[Bought] = []
    for session in campaign.sessions:
        loose = sum(volumes.passes[p.number] for p in session.passes)
        last = session.number == len(campaign.sessions)
        touch = volumes.touch_up_m3 if last else 0.0
        which = f" of session {session.number}" if len(campaign.sessions) > 1 else ""
        more = stock.more.get(session.number, 0.0)
        lines.append(_mix_line(setting, mix, session.number, which, loose, touch, more))
    if setting.lift_share:
        lines.append(_soil_line(setting, volumes.lift_m3, bool(campaign.sessions)))
    return lines


def _mix_line(
    setting: Setting, mix: MixChoice, session: int, which: str, loose_m3: float, touch_up_m3: float, more_m3: float
) -> Bought:
    book = setting.book
    wanted = loose_m3 + touch_up_m3
    if more_m3:
        # Converted there and back, an amount that was sold as it is must not be rounded up once more.
        wanted = max(0.0, wanted + more_m3 - ROUNDED_M3)
    volume = sold_volume_m3(wanted, setting.system)
    load = mixture(volume, mix.parts, densities(setting))
    loads = truck_loads_m3(volume, setting.brief.delivery.truck_limit_m3)
    passes, touch_up = (read_as(m3, "volume", setting.system, "up", step=0.05).text for m3 in (loose_m3, touch_up_m3))
    spare = f", and {touch_up} more are kept dry for the touch-up" if touch_up_m3 else ""
    reason = (
        f"The passes{which} take {passes} loose, with room for settling{spare}; rounded up to what is sold."
        f"{_stock_text(setting, more_m3)} {mix.reason}"
    )
    questions = tuple(q for item in mix.parts if item in book.materials for q in book.materials[item].questions)
    acceptance = tuple(q for item in mix.parts if item in book.materials for q in book.materials[item].acceptance)
    return Bought(
        "mix", mix.name, volume, "m3", _parts(load, mix.parts), loads, reason, _bulk_text(setting, volume, load.mass_kg, loads),
        f"order_material.{session}", f"delivery.{session}",
        tuple(dict.fromkeys((*book.supplier_questions, *questions))), tuple(dict.fromkeys((*book.acceptance, *acceptance))),
        mix.facts,
    )  # fmt: skip


def _stock_text(setting: Setting, more_m3: float) -> str:
    """What was logged of earlier orders and passes, as a sentence."""
    if not more_m3:
        return ""
    volume = read_as(abs(more_m3), "volume", setting.system, "nearest", step=0.05).text
    return f" By what was ordered, delivered and used so far it is {volume} {'more' if more_m3 > 0 else 'less'}."


def short_line(setting: Setting, mix: MixChoice, short_m3: float, first_use: str) -> Bought:
    """What is short of the mix with no order left to take it: a line of its own, wanted for the task `first_use`."""
    volume = sold_volume_m3(short_m3, setting.system)
    load = mixture(volume, mix.parts, densities(setting))
    reason = "More was used, or less came, than was planned, and the last order is made. Ask what fits into a trailer."
    return Bought(
        "mix", mix.name, volume, "m3", _parts(load, mix.parts), (volume,), reason,
        _bulk_text(setting, volume, load.mass_kg, (volume,)), None, first_use, (), (), mix.facts,
    )  # fmt: skip


def _parts(load: Mixture, shares: Mapping[str, float]) -> tuple[Part, ...]:
    found = []
    for item, volume in load.parts_m3.items():
        value_us, unit_us = us_twin(volume, "m3")
        found.append(
            Part(
                item=item,
                value=round(volume, 6),
                unit="m3",
                value_us=round(value_us, 6),
                unit_us=unit_us,
                share=shares[item],
            )
        )
    return tuple(found)


def _bulk_text(setting: Setting, volume: float, mass_kg: float, loads: tuple[float, ...]) -> str:
    words = read_as(volume, "volume", setting.system, "up").text
    weight = (
        f"{from_inside(mass_kg, 'ton', 'mass'):.1f} tons" if setting.system is System.US else f"{mass_kg / 1000:.1f} t"
    )
    each = read_as(loads[0], "volume", setting.system, "up", step=0.05).text
    return f"{words} (about {weight})" + (f" in {len(loads)} loads of {each}" if len(loads) > 1 else "")


def _soil_line(setting: Setting, loose_m3: float, with_session: bool) -> Bought:
    volume = sold_volume_m3(loose_m3, setting.system)
    load = mixture(volume, {"topsoil": 1.0}, densities(setting))
    return Bought(
        "topsoil", "screened topsoil like your own", volume, "m3", _parts(load, {"topsoil": 1.0}), (volume,),
        f"The deep hollows ({setting.lift_share:.0%} of the lawn, {setting.length(setting.lift_depth_mm)} deep) are filled with soil like the soil below, with room for settling.",
        _bulk_text(setting, volume, load.mass_kg, (volume,)),
        "order_material.1" if with_session else None, "lift_and_fill", facts=("topdress.settle_deep",),
    )  # fmt: skip


def small_orders(setting: Setting, drafts: Mapping[str, Draft]) -> list[Bought]:
    """Seed, plants, straw, starter and feed: what comes in bags and trays."""
    lines: list[Bought] = []
    names = {"seed": f"{setting.sown.name} seed", "straw": "weed-free straw", "sod": f"{setting.sown.name} sod", "plugs": f"{setting.sown.name} plugs",
             "sprigs": f"{setting.sown.name} sprigs", "lime": "ground limestone"}  # fmt: skip
    for draft in drafts.values():
        for amount in draft.amounts:
            if amount.item in names:
                kind = "up"
                text = (
                    read_as(amount.value, "mass", setting.system, kind).text
                    if amount.unit == "kg"
                    else read_as(amount.value, "area", setting.system, kind).text
                    if amount.unit == "m2"
                    else f"{amount.value:,.0f} {amount.unit}"
                )
                value = _sold(amount, setting.system)
                lines.append(
                    Bought(
                        amount.item, names[amount.item], value, amount.unit, (), (), amount.reason, text, None, draft.id,
                        _seed_questions(amount.item), (), amount.facts,
                    )
                )  # fmt: skip
            elif amount.item == "product":
                lines.append(
                    Bought(
                        "fertilizer", f"fertilizer for {draft.id}", amount.value, amount.unit, (), (), amount.reason,
                        read_as(amount.value, "mass", setting.system, "up").text, None, draft.id, (), (), amount.facts,
                    )
                )  # fmt: skip
    return lines


def _sold(amount: Amount, system: System) -> float:
    """The amount rounded up as it is sold: whole pounds or half kilograms."""
    if amount.unit != "kg":
        return amount.value
    measure = read_as(amount.value, "mass", system, "up")
    return convert(measure.value, measure.unit, "mass")


def _seed_questions(item: str) -> tuple[str, ...]:
    if item != "seed":
        return ()
    return (
        "Purity and germination on the tag, tested this season?",
        "Free of noxious weeds, other crop under 0.5 %?",
        "Which varieties, and how did they do in the last regional trials?",
    )


def order_lines(
    bought: list[Bought], days: Mapping[str, tuple[date, date]], lead_days: int, small_lead: int, first: date
) -> tuple[OrderLine, ...]:
    """The order with its dates: order by the day of the order task, else the lead time before the work that needs it."""
    from datetime import timedelta

    lines = []
    for line in bought:
        deliver = days[line.deliver_task][0] if line.deliver_task in days else first
        if line.order_task and line.order_task in days:
            order = days[line.order_task][0]
        else:
            order = max(first, deliver - timedelta(days=small_lead))
        value_us, unit_us = us_twin(line.value, line.unit)
        lines.append(
            OrderLine(
                item=line.item, name=line.name, value=round(line.value, 6), unit=line.unit, value_us=round(value_us, 6), unit_us=unit_us,
                parts=line.parts, loads=tuple(round(v, 6) for v in line.loads), order_by=min(order, deliver), deliver_by=deliver,
                reason=line.reason, questions=line.questions, acceptance=line.acceptance, text=line.text, facts=line.facts,
            )
        )  # fmt: skip
    return tuple(lines)


def quoted_depth(setting: Setting) -> str | None:
    """How deep a load that was quoted reaches on this lawn, as a sentence."""
    quoted = setting.brief.delivery.quoted_m3
    if quoted is None or not setting.area_m2:
        return None
    depth = depth_of_load_mm(quoted, setting.area_m2 * (setting.covered_share or 1.0), setting.settle_share)
    return (
        f"The quoted load of {read_as(quoted, 'volume', setting.system).text} settles to {setting.length(depth, rounding='down')} "
        f"over {_area(setting, setting.area_m2 * (setting.covered_share or 1.0))}."
    )
