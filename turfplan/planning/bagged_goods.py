"""What is bought in bags and trays: seed by its grasses and places, plants, straw, lime, feed."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from math import ceil
from types import MappingProxyType

from turfplan.allotment import allotted
from turfplan.book.words import book_message, grass_name
from turfplan.message import Message, Number, Quantity, nutrient_mass, sentences
from turfplan.phrases import buying
from turfplan.phrases import order as phrases
from turfplan.planning.amounts import seed_masses_kg
from turfplan.planning.purchases import Bought
from turfplan.records.book_names import FactName
from turfplan.records.items import OrderItem
from turfplan.records.plan import OrderPart
from turfplan.records.plan_task import Amount
from turfplan.units import System, convert, mass_step, read_as, us_twin
from turfplan.work.drafts import Draft
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.seed_mix import seed_name


def small_orders(setting: ResolvedLawn, drafts: Mapping[str, Draft]) -> list[Bought]:
    """Seed, plants, straw and what corrects the soil: what comes in bags and trays.

    The fertilizer at hand is not bought again.
    """
    return [
        line
        for draft in drafts.values()
        for amount in draft.amounts
        for line in (
            _seed_lines(setting, amount, draft.id)
            if amount.item == "seed"
            else _small_lines(setting, amount, draft)
        )
    ] + [line for draft in drafts.values() for line in _by_area(setting, draft, drafts)]


def _by_area(setting: ResolvedLawn, draft: Draft, drafts: Mapping[str, Draft]) -> list[Bought]:
    """What is bought by the area that it is to cover: the label says how much does; once for all
    tasks of a trip, and only where there is one."""
    item = setting.book.operations[draft.operation].buys
    trip = next((d for d in drafts.values() if draft.id in d.buys_for), None)
    if item is None or trip is None or trip.buys_for[0] != draft.id:
        return []
    names = {"preventer": buying.name_preventer(), "weed killer": buying.name_weed_killer()}
    area_m2 = draft.area_m2
    reason = buying.covers_reason(area=Quantity(area_m2, "area"))
    text = phrases.sold(amount=Quantity(area_m2, "area", "up"))
    questions = (buying.ask_label(),)
    return [
        Bought(item, names[item], area_m2, "m2", (), (), reason, text, None, draft.id, questions)
    ]


def _seed_lines(setting: ResolvedLawn, amount: Amount, task: str) -> list[Bought]:
    """The seed of each part that is sown by itself, with its grasses where they are several."""
    masses = seed_masses_kg(setting)
    whole = sum(sum(each.values()) for each in masses.values())
    portions = [sum(each.values()) / whole for each in masses.values()]
    lines = []
    for (area, each), kg in zip(
        masses.items(), _bought_of(amount.value, portions, setting.system), strict=True
    ):
        part = Amount.of("seed", kg, "kg", amount.reason).model_copy(update={"facts": amount.facts})
        name = phrases.name_seed(grass=seed_name(setting.book, tuple(each)))
        if area.name is not None:
            name = phrases.name_seed_for(seed=name, area=area.name)
        line = _line_of("seed", name, part, _sold(part, setting.system), task, _seed_questions())
        shares = {grass: mass / sum(each.values()) for grass, mass in each.items()}
        lines.append(line if len(each) == 1 else replace(line, parts=_grass_parts(line, shares)))
    return lines


def starter_order(setting: ResolvedLawn, starters: Sequence[Draft]) -> list[Bought]:
    """The nitrogen of a starter, with the seed; where a soil test asks for phosphate, in a
    fertilizer that brings it."""
    lines = []
    for draft in starters:
        whole = next((a for a in draft.amounts if a.item == "nitrogen_total"), None)
        if whole is None:
            continue
        short = any(a.item == "phosphate to add in all" for a in draft.amounts)
        name = buying.name_starter_p() if short else buying.name_starter()
        reason = buying.nitrogen_reason(n=1)
        amount = whole.model_copy(update={"reason": reason})
        line = _line_of("fertilizer", name, amount, _sold(amount, setting.system), draft.id)
        lines.append(replace(line, kind=buying.of_starter()))
    return lines


def _bought_of(whole_kg: float, shares: Sequence[float], system: System) -> list[float]:
    """What is bought of a mass in parts, kg: as it is sold, and in all as much as the whole.

    Where a part is less than a step of sale each is left to be rounded up by itself.
    """
    exact = [whole_kg * share for share in shares]
    told = read_as(whole_kg, "mass", system, "up")
    step = convert(mass_step(told), told.unit, "mass")
    parts = allotted(exact, step, convert(told.value, told.unit, "mass"))
    return list(parts) if all(parts) else exact


def fertilizer_order(setting: ResolvedLawn, feeds: Sequence[Draft]) -> list[Bought]:
    """The nitrogen of feedings, the earliest first, where no bag is at hand that may be used."""
    amounts = [a for draft in feeds for a in draft.amounts if a.item == "nitrogen_total"]
    if not amounts:
        return []
    at_hand = setting.brief.feeding.analysis is not None
    told = phrases.nitrogen_reason if at_hand else buying.nitrogen_reason
    reason = told(n=len(amounts))
    whole = Amount.of("nitrogen_total", sum(a.value for a in amounts), "kg", reason).model_copy(
        update={"facts": amounts[0].facts}
    )
    slow = Number(setting.book.si("feeding.slow_share"), "percent")
    sold = _sold(whole, setting.system)
    ask = (phrases.nitrogen_ask_slow(share=slow),)
    return [_line_of("fertilizer", phrases.name_nitrogen(), whole, sold, feeds[0].id, ask)]


def _grass_parts(line: Bought, shares: Mapping[str, float]) -> tuple[OrderPart, ...]:
    """The grasses of a seed mixture by weight."""
    parts = []
    for grass, share in shares.items():
        value_us, unit_us = us_twin(line.value * share, line.unit)
        parts.append(
            OrderPart(
                item=grass,
                value=round(line.value * share, 6),
                unit=line.unit,
                value_us=round(value_us, 6),
                unit_us=unit_us,
                share=share,
            )
        )
    return tuple(parts)


def _small_lines(setting: ResolvedLawn, amount: Amount, draft: Draft) -> list[Bought]:
    """What an amount of a task is bought as, where it is bought; plants by the day's work."""
    line = _small_line(setting, amount, draft.id)
    if line is None:
        return []
    days = draft.duration_days
    if line.item == "sod" and days > 1:
        each = Quantity(amount.value / days, "area", "up")
        line = replace(
            line, reason=sentences(line.reason, phrases.sod_by_day(days=days, area=each))
        )
    elif line.item in ("plugs", "sprigs") and days > 1:
        each_day = amount.value / days
        amount_a_day = (
            phrases.pieces(n=ceil(each_day), pieces=Number(ceil(each_day), "grouped"))
            if line.item == "plugs"
            else phrases.sprigs_a_day(volume=Quantity(each_day, "sprig_volume", "up"))
        )
        by_day = phrases.plants_by_day(days=days, amount=amount_a_day)
        line = replace(line, reason=sentences(line.reason, by_day))
    return [line]


def _small_line(setting: ResolvedLawn, amount: Amount, task: str) -> Bought | None:
    """The line of an amount that is bought by itself; None for what is not."""
    bagged = _bagged(setting).get(amount.item)
    if bagged is None:
        return None
    item, name = bagged
    line = _line_of(item, name, amount, _sold(amount, setting.system), task)
    if item == "sprigs":
        return replace(line, questions=(phrases.sprigs_ask(),))
    carrier = _CARRIERS.get(item)
    if carrier is None:
        return line
    content, sold_as = carrier
    # What is bought is the product, and it holds what its own weight does.
    share = setting.book.si(content)
    needed_kg = amount.value / share
    product_kg = _sold(Amount.of(amount.item, needed_kg, "kg", amount.reason), setting.system)
    text = sold_as(
        product=Quantity(needed_kg, "mass", "up"),
        nutrient=nutrient_mass(product_kg * share),
        needed=nutrient_mass(amount.value),
    )
    return replace(line, value=product_kg * share, text=text, facts=(*line.facts, content))


def _bagged(setting: ResolvedLawn) -> dict[str, tuple[OrderItem, Message]]:
    """What comes in bags and trays by the item of its amount, with its name."""
    grass = grass_name(setting.book, setting.sowing.grass.id)
    return {
        "straw": ("straw", book_message(setting.book, "materials.straw.name")),
        "mat": ("mat", phrases.name_mat()),
        "pegs": ("pegs", phrases.name_pegs()),
        "sod": ("sod", phrases.name_sod(grass=grass)),
        "plugs": ("plugs", phrases.name_plugs(grass=grass)),
        "sprigs": ("sprigs", phrases.name_sprigs(grass=grass)),
        "lime": ("lime", phrases.name_lime()),
        "sulfur": ("sulfur", phrases.name_sulfur()),
        "iron sulfate": ("iron sulfate", phrases.name_iron_sulfate()),
        "gypsum": ("gypsum", phrases.name_gypsum()),
        "potash to add in all": ("potash", phrases.name_potash()),
        "phosphate to add in all": ("phosphate", phrases.name_phosphate()),
    }


# What is reckoned as a nutrient is bought as a product that holds only a part of it.
_CARRIERS: Mapping[str, tuple[FactName, Callable[..., Message]]] = MappingProxyType(
    {
        "potash": ("feeding.potash_content", phrases.as_potash),
        "phosphate": ("feeding.phosphate_content", phrases.as_phosphate),
    }
)


def _line_of(
    item: OrderItem,
    name: Message,
    amount: Amount,
    value: float,
    task: str,
    questions: tuple[Message, ...] = (),
) -> Bought:
    return Bought(
        item,
        name,
        value,
        amount.unit,
        (),
        (),
        amount.reason,
        _in_words(amount),
        None,
        task,
        questions,
        facts=amount.facts,
    )


def _in_words(amount: Amount) -> Message:
    """An amount as it is asked for in a shop."""
    kinds = {"kg": "mass", "m2": "area", "m3": "sprig_volume"}
    if amount.unit in kinds:
        return phrases.sold(amount=Quantity(amount.value, kinds[amount.unit], "up"))
    count = Number(amount.value, "grouped")
    if amount.unit == "bales":
        return phrases.bales(n=round(amount.value), bales=count)
    return phrases.pieces(n=round(amount.value), pieces=count)


def _sold(amount: Amount, system: System) -> float:
    """The amount rounded up as it is sold: whole pounds or half kilograms."""
    if amount.unit != "kg":
        return amount.value
    measure = read_as(amount.value, "mass", system, "up")
    return convert(measure.value, measure.unit, "mass")


def _seed_questions() -> tuple[Message, ...]:
    return phrases.seed_ask_tag(), phrases.seed_ask_weeds(), phrases.seed_ask_varieties()
