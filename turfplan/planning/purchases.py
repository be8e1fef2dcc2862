"""What is bought: bulk material by load, what comes in bags and trays, with the dates."""

from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from types import MappingProxyType
from typing import Final

from turfplan.book.words import book_message, book_messages, grass_name
from turfplan.message import Message, Number, Quantity, length_mm, listed, said, sentences
from turfplan.phrases import ground_fill as of_ground
from turfplan.phrases import order as phrases
from turfplan.planning.amounts import densities
from turfplan.planning.costs import NO_PRICES, priced
from turfplan.planning.load_reasons import LoadWanted, loose
from turfplan.planning.stock import REFUSED, Stock
from turfplan.records.brief import Prices
from turfplan.records.items import OrderItem
from turfplan.records.plan import OrderLine, OrderPart
from turfplan.records.plan_task import NOTHING
from turfplan.units import us_twin
from turfplan.work.bags import Bags, bags_of, in_bags, least_bulk_m3
from turfplan.work.barrows import in_litres
from turfplan.work.drafts import Draft, Load
from turfplan.work.feeding.lime_need import ph_range
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.material_amounts import (
    Mixture,
    depth_of_load_mm,
    mixture,
    sold_step_m3,
    sold_volume_m3,
    truck_loads_m3,
)
from turfplan.work.mix_choice import MixChoice, sows_on_mix
from turfplan.work.phases.receive import LIFTING
from turfplan.work.season import FillVolumes

EMPTY = Stock()
NO_BAGS: Final[Mapping[str, Message]] = MappingProxyType({})
SOIL: Final = "topsoil"
# A mix of so many parts fits into a title by its name: one of the book, or the owner's own.
PARTS_IN_TITLE = {"own": 2}


@dataclass(frozen=True, slots=True)
class Bought:
    """An order before it has dates: what, how much, of which parts, and its tasks.

    `loads` are loose m3. `order_task` orders it (None: nobody does), `deliver_task` receives or
    uses it. `short_name` is what a title calls it, where its name is too long for one; `kind` is
    what a trip calls it. What comes `in_bags` has no truckloads. `steps` are the tasks that see to
    it, in their order; an `estimate` says what may still change it.
    """

    item: OrderItem
    name: Message
    value: float
    unit: str
    parts: tuple[OrderPart, ...]
    loads: tuple[float, ...]
    reason: Message
    text: Message
    order_task: str | None
    deliver_task: str
    questions: tuple[Message, ...] = ()
    acceptance: tuple[Message, ...] = ()
    facts: tuple[str, ...] = ()
    short_name: Message | None = None
    in_bags: bool = False
    kind: Message | None = None
    steps: tuple[Draft, ...] = ()
    estimate: Message | None = None


def material_orders(
    setting: ResolvedLawn,
    loads: Sequence[Load],
    mix: MixChoice,
    volumes: FillVolumes,
    stock: Stock = EMPTY,
) -> list[Bought]:
    """One line for each load of the mix, and one for the soil of the hollows.

    Each is more or less by what the stock is short or over.
    """
    lines: list[Bought] = []
    for load in loads:
        wanted = LoadWanted(
            load=load if len(loads) > 1 else None,
            loose_m3=load.loose_m3,
            touch_up_m3=volumes.touch_up_m3 if load.number == len(loads) else 0.0,
            more_m3=stock.more.get(load.number, 0.0),
            as_it_comes=load.number in stock.as_it_comes,
        )
        why = None if load.number < len(loads) and sows_on_mix(setting) else said(mix.reason)
        lines.append(_mix_line(setting, mix, load, wanted, why))
    if setting.levelling.lift_share:
        lines.append(_soil_line(setting, volumes.lift_m3))
    return lines


# Soil for lifts is asked for and looked at as soil: moist enough to be firmed, not bone dry.
_OF_FILL: Mapping[str, tuple[Message, ...]] = MappingProxyType(
    {
        "questions": (
            of_ground.ask_source(),
            of_ground.ask_texture(),
            of_ground.ask_tested(),
            of_ground.ask_screened(),
            of_ground.ask_load(),
            of_ground.ask_refuse(),
        ),
        "acceptance": (of_ground.look_squeeze(), of_ground.look_clean()),
    }
)


def _mix_line(
    setting: ResolvedLawn, mix: MixChoice, load: Load, wanted: LoadWanted, why: Message | None
) -> Bought:
    """A load of the mix; `why` it is this one, where that is said of the load."""
    if load.bags:
        return _bag_line(setting, mix, load, wanted, why)
    least_m3 = least_bulk_m3(setting) if wanted.order_m3 > 0 and not wanted.as_it_comes else 0.0
    least = phrases.mix_least(volume=loose(least_m3)) if wanted.order_m3 < least_m3 else None
    volume = (
        wanted.order_m3
        if wanted.as_it_comes
        else sold_volume_m3(max(wanted.order_m3, least_m3), setting.system)
    )
    blended = mixture(volume, mix.parts, densities(setting))
    trucks = truck_loads_m3(
        volume, setting.brief.delivery.truck_limit_m3, sold_step_m3(setting.system)
    )
    return Bought(
        "mix",
        said(mix.name),
        volume,
        "m3",
        _parts(blended, mix.parts),
        trucks,
        sentences(wanted.reason(), least, wanted.stock(), why),
        _bulk(volume, blended.mass_kg, trucks),
        f"order_material.{load.order}",
        f"delivery.{load.number}",
        _supplier(setting, mix, "questions"),
        _supplier(setting, mix, "acceptance"),
        mix.facts,
        _short_name(mix),
    )


def _bag_line(
    setting: ResolvedLawn, mix: MixChoice, load: Load, wanted: LoadWanted, why: Message | None
) -> Bought:
    """The parts of a mix in whole bags, which are mixed at home."""
    bags = bags_of(setting, mix.parts, wanted.order_m3)
    held = {item: each.volume_m3 for item, each in bags.items()}
    volume = sum(held.values())
    density = densities(setting)
    mass_kg = sum(part * density[item] for item, part in held.items())
    return Bought(
        "mix",
        said(mix.name),
        volume,
        "m3",
        _parts(Mixture(volume, held, mass_kg), mix.parts, _each_in_bags(setting, bags)),
        (),
        sentences(wanted.reason(), wanted.stock(), why),
        _in_bags(setting, bags, mass_kg),
        None,
        f"delivery.{load.number}",
        (),
        _supplier(setting, mix, "acceptance"),
        (*mix.facts, *(each.fact for each in bags.values())),
        _short_name(mix),
        in_bags=True,
    )


def _in_bags(setting: ResolvedLawn, bags: Mapping[str, Bags], mass_kg: float) -> Message:
    """So many bags of a size of each material, with what all of them weigh."""
    each = _each_in_bags(setting, bags).values()
    return phrases.bags(bags=listed(each, "comma"), weight=Quantity(mass_kg, "load"))


def _each_in_bags(setting: ResolvedLawn, bags: Mapping[str, Bags]) -> dict[str, Message]:
    """So many bags of a size, of each material."""
    return {
        item: phrases.bags_each(
            n=some.count,
            size=in_litres(some.size_m3),
            material=book_message(setting.book, f"materials.{item}.name"),
        )
        for item, some in bags.items()
    }


def _short_name(mix: MixChoice) -> Message | None:
    return None if len(mix.parts) <= PARTS_IN_TITLE.get(mix.id, 1) else phrases.name_mix()


def _supplier(setting: ResolvedLawn, mix: MixChoice, field: str) -> tuple[Message, ...]:
    """The questions for a supplier, or the checks at the gate: of all, then of each part."""
    book = setting.book
    if setting.on_open_ground:
        return _OF_FILL[field]
    parts = [item for item in mix.parts if item in book.materials]
    blended = field == "questions" and len(mix.parts) > 1
    of_blends = book_messages(book, "supplier.blended") if blended else ()
    lines = (line for item in parts for line in book_messages(book, f"materials.{item}.{field}"))
    return tuple(dict.fromkeys((*book_messages(book, f"supplier.{field}"), *of_blends, *lines)))


def short_line(setting: ResolvedLawn, mix: MixChoice, short_m3: float, first_use: str) -> Bought:
    """What is short of the mix with no order left to take it: a line of its own for `first_use`."""
    volume = sold_volume_m3(short_m3, setting.system)
    load = mixture(volume, mix.parts, densities(setting))
    return Bought(
        "mix",
        said(mix.name),
        volume,
        "m3",
        _parts(load, mix.parts),
        (volume,),
        phrases.mix_short(),
        _bulk(volume, load.mass_kg, (volume,)),
        None,
        first_use,
        facts=mix.facts,
    )


def _parts(
    load: Mixture, shares: Mapping[str, float], bags: Mapping[str, Message] = NO_BAGS
) -> tuple[OrderPart, ...]:
    parts = []
    for item, volume in load.parts_m3.items():
        value_us, unit_us = us_twin(volume, "m3")
        parts.append(
            OrderPart(
                item=item,
                value=round(volume, 6),
                unit="m3",
                value_us=round(value_us, 6),
                unit_us=unit_us,
                share=shares[item],
                bags=bags.get(item, NOTHING),
            )
        )
    return tuple(parts)


def _bulk(volume_m3: float, mass_kg: float, loads_m3: tuple[float, ...]) -> Message:
    """Loose material as it is sold, with its weight and its loads."""
    volume, weight = Quantity(volume_m3, "volume", "up"), Quantity(mass_kg, "load")
    if len(loads_m3) == 1:
        return phrases.bulk(volume=volume, weight=weight)
    sizes = Counter(round(load, 6) for load in loads_m3)
    if len(sizes) == 1:
        each = loose(loads_m3[0])
        return phrases.bulk_loads(n=len(loads_m3), volume=volume, weight=weight, each=each)
    each_size = listed(phrases.loads_of(n=n, each=loose(size)) for size, n in sizes.items())
    return phrases.bulk_loads_of(volume=volume, weight=weight, loads=len(loads_m3), sizes=each_size)


def _soil_line(setting: ResolvedLawn, loose_m3: float) -> Bought:
    """The soil of the hollows, with its own order and delivery; a little of it in bags."""
    own, held = {SOIL: 1.0}, NO_BAGS
    density = densities(setting)[SOIL]
    trucks: tuple[float, ...] = ()
    fetched = in_bags(setting, loose_m3)
    if fetched:
        bags = bags_of(setting, own, loose_m3)
        volume, held = bags[SOIL].volume_m3, _each_in_bags(setting, bags)
        text = _in_bags(setting, bags, volume * density)
    else:
        volume = sold_volume_m3(max(loose_m3, least_bulk_m3(setting)), setting.system)
        trucks = truck_loads_m3(
            volume, setting.brief.delivery.truck_limit_m3, sold_step_m3(setting.system)
        )
        text = _bulk(volume, volume * density, trucks)
    return Bought(
        SOIL,
        phrases.name_own_soil(),
        volume,
        "m3",
        _parts(Mixture(volume, {SOIL: volume}, volume * density), own, held),
        trucks,
        phrases.soil_reason(
            share=Number(setting.levelling.lift_share, "percent"),
            depth=length_mm(setting.levelling.lift_depth_mm),
        ),
        text,
        None if fetched else f"order_material.{LIFTING}",
        f"delivery.{LIFTING}",
        () if fetched else _asked_of_soil(setting),
        _OF_FILL["acceptance"],
        facts=("topdress.settle_deep",),
        in_bags=fetched,
    )


def _asked_of_soil(setting: ResolvedLawn) -> tuple[Message, ...]:
    """What is asked of soil that goes under living turf: that it is like the lawn's own, and that
    its pH is one that the grass bears."""
    brief, book = setting.brief, setting.book
    goal = book.fact(ph_range(setting.turf.species.id))
    bears = phrases.soil_ask_ph(
        grass=grass_name(book, setting.turf.species.id),
        least=Number(goal.low_si, "trimmed"),
        most=Number(goal.high_si, "trimmed"),
    )
    source, texture, *others = _OF_FILL["questions"]
    if brief.lawn.soil is not None and not book.soils[setting.plot.soil].beyond:
        name = book_message(book, f"soils.{setting.plot.soil}.name")
        texture = phrases.soil_ask_texture(soil=name)
    return source, texture, bears, *others


def order_lines(
    bought: Iterable[Bought],
    days: Mapping[str, tuple[date, date]],
    lead_days: int,
    first: date,
    done: Collection[str] = (),
    prices: Prices = NO_PRICES,
) -> tuple[OrderLine, ...]:
    """The order with its dates: those of its first and its last task, where it has any, else
    `lead_days` before the work.

    It costs what `prices` say. `days` are the first and last day of each task by id; what is not
    `done` is ordered on the `first` day or later.
    """
    lines = []
    for line in bought:
        steps = [step.id for step in line.steps if step.id in days]
        brought = steps[-1] if steps and line.item != "machine" else line.deliver_task
        deliver = days[brought][0] if brought in days else first
        # Bags are bought on the day on which they are fetched.
        ahead = max(first, deliver - timedelta(days=0 if line.in_bags else lead_days))
        asked = days.get(steps[0] if steps else line.order_task or "", (ahead, ahead))[0]
        called = [name for name in steps if name.startswith(REFUSED) and name not in done]
        if called:
            # What was sent back is asked for again with its call.
            asked = max(first, days[called[0]][0])
        elif steps and steps[0] not in done and asked < first:
            # Its day is over, and nobody said that it was ordered: it is asked for today.
            asked, deliver = first, max(first, deliver)
        # What is needed before the rest is ordered is not ordered with it.
        lines.append(_dated(line, asked if asked <= deliver else ahead, deliver))
    return priced(lines, prices)


def largest_delivery_m3(lines: Iterable[OrderLine]) -> float:
    """The most that comes loose on one day; 0 where nothing does."""
    by_day: dict[date, float] = {}
    for line in lines:
        if line.loads:
            by_day[line.deliver_by] = by_day.get(line.deliver_by, 0.0) + line.value
    return max(by_day.values(), default=0.0)


def _dated(line: Bought, order_by: date, deliver_by: date) -> OrderLine:
    value_us, unit_us = us_twin(line.value, line.unit)
    return OrderLine(
        item=line.item,
        name=line.name,
        value=round(line.value, 6),
        unit=line.unit,
        value_us=round(value_us, 6),
        unit_us=unit_us,
        parts=line.parts,
        loads=tuple(round(v, 6) for v in line.loads),
        order_by=order_by,
        deliver_by=deliver_by,
        reason=line.reason,
        questions=line.questions,
        acceptance=line.acceptance,
        text=line.text,
        facts=line.facts,
        tasks=tuple(step.id for step in line.steps),
        estimate=line.estimate,
    )


def quoted_depth(setting: ResolvedLawn) -> Message | None:
    """How deep a load that was quoted reaches on this lawn; None where none was."""
    quoted = setting.brief.delivery.quoted_m3
    if quoted is None or not setting.plot.area_m2:
        return None
    covered_m2 = setting.plot.area_m2 * (setting.levelling.covered_share or 1.0)
    depth_mm = depth_of_load_mm(quoted, covered_m2, setting.levelling.settle_share)
    return phrases.quoted(
        volume=Quantity(quoted, "volume"),
        depth=length_mm(depth_mm, "down"),
        area=Quantity(covered_m2, "area"),
    )
