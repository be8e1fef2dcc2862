"""What each task of a season takes, and what is bought for it."""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import replace
from datetime import date
from types import MappingProxyType

from turfplan.message import Day, Message, Number, Quantity, Value
from turfplan.phrases import level as of_level
from turfplan.phrases import order as of_order
from turfplan.phrases import tasks as phrases
from turfplan.planning.amounts import (
    covers_of,
    fill_amounts,
    pass_amounts,
    plant_amounts,
    seed_amounts,
)
from turfplan.planning.bagged_goods import fertilizer_order, small_orders, starter_order
from turfplan.planning.buying_tasks import (
    bought_by,
    hired_machines,
    is_seen_to,
    told_on_task,
    with_their_tasks,
    without_use,
)
from turfplan.planning.candidates import Candidate
from turfplan.planning.feeding import (
    STARTER_KEY,
    amounts_of_feed,
    amounts_of_lime,
    amounts_worked_in,
    bag_used,
)
from turfplan.planning.heap_again import looks_at_heap
from turfplan.planning.lacking_goods import told_as_lacking, with_missing_seed
from turfplan.planning.load_reasons import loose
from turfplan.planning.purchases import Bought, material_orders, short_line
from turfplan.planning.short_of_mix import LEAST_M3, is_more, short_passes
from turfplan.planning.stock import (
    Stock,
    is_under_way,
    needed_m3,
    not_spread_m3,
    skipped_passes,
    stock_of,
    wanted_loads,
)
from turfplan.records.past import TaskHistory
from turfplan.records.plan_task import Amount
from turfplan.work.drafts import Draft, SeasonDraft
from turfplan.work.heap import too_large
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.mix_choice import MixChoice
from turfplan.work.season import FillVolumes


def with_amounts(
    setting: ResolvedLawn, candidate: Candidate, history: TaskHistory | None = None
) -> tuple[dict[str, Draft], list[Bought]]:
    """Every draft with its amounts, in order, and what is still to be bought for them."""
    orders, stock = bulk_orders(
        setting, candidate.season, candidate.mix, candidate.volumes, history
    )
    by_task = _lines_of(orders, stock.settled)
    short = _short(setting, candidate, stock, history)
    idle = _idle(by_task, stock) | _without_fill(setting, candidate, by_task, history)
    drafts: dict[str, Draft] = {}
    for draft in candidate.season.drafts:
        if draft.id in idle:
            continue
        amounts = _amounts(setting, candidate, draft, by_task.get(draft.id))
        values = _of_title(setting, draft, amounts, by_task.get(draft.id))
        if amounts or values:
            draft = replace(
                draft, amounts=(*draft.amounts, *amounts), words={**draft.words, **values}
            )
        line = by_task.get(draft.id)
        if line is not None and line.deliver_task == draft.id and line.order_task in stock.unasked:
            draft = replace(draft, cautions=(*draft.cautions, of_order.not_ordered()))
        if lacks := _lacking_m3(draft, stock, short):
            told = of_order.less_came(volume=loose(lacks))
            draft = replace(draft, cautions=(told, *draft.cautions))
        if few := told_as_lacking(draft, amounts, history):
            draft = replace(draft, cautions=(few, *draft.cautions))
        if old := _old_heap(setting, candidate, draft, history):
            draft = replace(draft, cautions=(old, *draft.cautions))
        if line is not None and line.deliver_task == draft.id and not draft.bags:
            draft = replace(draft, cautions=(*draft.cautions, *too_large(setting, line.value)))
        if draft.bags and line is not None:
            draft = replace(draft, title=_title_of_bags(line))
        drafts[draft.id] = draft
    bought = [
        line
        for line in (
            *orders,
            *small_orders(setting, with_missing_seed(drafts, history)),
            *_fertilizer(setting, candidate, drafts, stock),
            *hired_machines(setting, drafts.values(), stock),
        )
        if line.deliver_task not in stock.settled and line.order_task not in stock.unasked
    ]
    coming = [d for d in spreading(setting, candidate.season) if d.id not in stock.settled]
    if stock.short_m3 and coming and not any(map(is_more, stock.unasked)):
        lacking = [d for passes in short.values() for d in passes]
        first = min(lacking or coming, key=lambda d: candidate.dated.schedule.days[d.start_node])
        bought.append(short_line(setting, candidate.mix, stock.short_m3, first.id))
    wanted = (line for line in bought if line.value > 0)
    # What no task brings any more is for work that is over.
    lines = [
        line
        for line in with_their_tasks(setting.book, wanted, drafts)
        if not is_seen_to(line, drafts, stock) and (history is None or line.steps)
    ]
    return _told(setting, drafts, lines, history), lines


def _told(
    setting: ResolvedLawn,
    drafts: Mapping[str, Draft],
    lines: Sequence[Bought],
    history: TaskHistory | None,
) -> dict[str, Draft]:
    """The tasks, each of buying with what it buys; those with nothing left to buy are gone."""
    by_task = bought_by(lines)
    gone = without_use(drafts.values(), by_task, history)
    return {
        name: told_on_task(setting, draft, by_task.get(name, ()))
        for name, draft in drafts.items()
        if name not in gone
    }


def _short(
    setting: ResolvedLawn, candidate: Candidate, stock: Stock, history: TaskHistory | None
) -> Mapping[int, list[Draft]]:
    """The passes for which the heap of a load does not last, by the load."""
    if history is None:
        return {}
    season = candidate.season
    return short_passes(stock.lacks, spreading(setting, season), season.loads, history)


def _lacking_m3(draft: Draft, stock: Stock, short: Mapping[int, Sequence[Draft]]) -> float:
    """What the loads that have come lack of their passes, loose m3, told on the first pass that is
    short."""
    lacks = sum(
        stock.missing_m3(n)
        for n, passes in short.items()
        if [d.id for d in passes[:1]] == [draft.id]
    )
    return lacks if lacks > LEAST_M3 else 0.0


def _old_heap(
    setting: ResolvedLawn, candidate: Candidate, draft: Draft, history: TaskHistory | None
) -> Message | None:
    """What is said of a pass whose mix lies longer by then than a heap keeps, and is not looked at
    again; None where it is fresh, still to come, or in closed bags, and of soil for ground without
    grass."""
    if history is None or draft.operation != "topdress" or draft.id in history.done:
        return None
    day, most = candidate.dated.schedule.days[draft.start_node], setting.days("order.storage_days")
    came = [
        history.done[name]
        for load in candidate.season.loads
        if draft.position in load.passes and not load.bags
        if (name := f"delivery.{load.number}") in history.done
    ]
    if not came or day - min(came) <= most:
        return None
    seen = [
        candidate.dated.day(look.end_node)
        for look in candidate.season.drafts
        if look.load in draft.loads and looks_at_heap(setting, look)
    ]
    if any(day - most <= last <= day for last in seen):
        # It is looked at, and dried, in time for this pass.
        return None
    on = Day(date.fromordinal(min(came)))
    return of_order.old_heap(on=on, days=Number(day - min(came), "grouped"), most=most)


def _fertilizer(
    setting: ResolvedLawn, candidate: Candidate, drafts: Mapping[str, Draft], stock: Stock
) -> list[Bought]:
    """What is bought for the starter and the open feedings where no bag is at hand that may be
    used."""
    if bag_used(setting, candidate.feeding) is not None:
        return []
    days, operations = candidate.dated.schedule.days, setting.book.operations
    fed = [d for d in drafts.values() if d.id not in stock.settled]
    starters = [d for d in fed if "starter" in operations[d.operation].roles]
    feeds = [d for d in fed if "feeding" in operations[d.operation].roles and d not in starters]
    return [
        *starter_order(setting, starters),
        *fertilizer_order(setting, sorted(feeds, key=lambda d: days[d.start_node])),
    ]


def _title_of_bags(line: Bought) -> Message:
    return of_level.bags_title(amount=loose(line.value), material=line.short_name or line.name)


def _lines_of(
    orders: Sequence[Bought], settled: Collection[str] = frozenset()
) -> dict[str, Bought]:
    """What each task orders or receives; an order asks for all of its deliveries together, and one
    that is still to be made for those that have not come."""
    coming = {line.order_task for line in orders if line.deliver_task not in settled}
    lines: dict[str, Bought] = {}
    for line in orders:
        lines.setdefault(line.deliver_task, line)
        here = line.deliver_task in settled and line.order_task not in settled
        if line.order_task is None or (here and line.order_task in coming):
            continue
        earlier = lines.setdefault(line.order_task, line)
        if earlier is not line and earlier.item == line.item:
            lines[line.order_task] = replace(
                earlier, value=earlier.value + line.value, reason=of_order.mix_together()
            )
    return lines


def _idle(lines: Mapping[str, Bought], stock: Stock) -> frozenset[str]:
    """The ordering and receiving of what is here already, with nothing left to order."""
    names = {name for name, line in lines.items() if line.value <= 0}
    return frozenset(names - stock.settled)


def _without_fill(
    setting: ResolvedLawn,
    candidate: Candidate,
    lines: Mapping[str, Bought],
    history: TaskHistory | None,
) -> frozenset[str]:
    """What has nothing to do any more where passes were skipped: the heap that does not come is not
    kept dry, what is not spread is not dragged in, what is not filled does not settle.
    """
    if history is None or not (skipped := skipped_passes(candidate.volumes, history)):
        return frozenset()
    nothing = skipped == set(candidate.volumes.passes)
    lifted = any(draft.operation == "lift_and_fill" for draft in candidate.season.drafts)
    gone = set()
    for draft in candidate.season.drafts:
        roles = set(setting.book.operations[draft.operation].roles)
        load = lines.get(f"delivery.{draft.load}")
        heap = draft.operation == "dry_material" and load is not None and load.value <= 0
        drag = draft.operation == "incorporate" and draft.position in skipped
        settles = nothing and not lifted and not roles.isdisjoint({"measuring", "mending"})
        if heap or drag or settles:
            gone.add(draft.id)
    return frozenset(gone - history.recorded)


def spreading(setting: ResolvedLawn, season: SeasonDraft) -> list[Draft]:
    """The passes of a season."""
    return [d for d in season.drafts if "spreading" in setting.book.operations[d.operation].roles]


def bulk_orders(
    setting: ResolvedLawn,
    season: SeasonDraft,
    mix: MixChoice,
    volumes: FillVolumes,
    history: TaskHistory | None,
) -> tuple[list[Bought], Stock]:
    """The bulk material of every load of a season with what the journal says of it."""
    loads = season.loads
    if history is None:
        return material_orders(setting, loads, mix, volumes), Stock()
    passes, skipped = spreading(setting, season), skipped_passes(volumes, history)
    loads = wanted_loads(loads, volumes, history, skipped)
    if skipped == set(volumes.passes) and not any(is_under_way(load, history) for load in loads):
        # Nothing is filled that could settle.
        volumes = replace(volumes, touch_up_m3=0.0)
    orders = material_orders(setting, loads, mix, volumes)
    sold = {load.number: line.value for load, line in zip(loads, orders, strict=False)}
    idle = not_spread_m3(loads, volumes, history, skipped)
    stock = stock_of(needed_m3(loads, volumes), sold, passes, history, loads, idle)
    return (material_orders(setting, loads, mix, volumes, stock) if stock.more else orders), stock


def _amounts(
    setting: ResolvedLawn, candidate: Candidate, draft: Draft, bought: Bought | None
) -> tuple[Amount, ...]:
    """The amounts of a task, of the kind that its operation names in the book, for its place."""
    kind, area = setting.book.operations[draft.operation].amounts, draft.area_m2
    if kind == "load":
        if bought is None:
            return ()
        return (
            Amount.of("volume", bought.value, "m3", bought.reason).model_copy(
                update={"facts": bought.facts}
            ),
        )
    reckon: dict[str | None, Callable[[], tuple[Amount, ...]]] = {
        "pass": lambda: pass_amounts(
            setting, candidate.mix, draft, candidate.campaign.passes[draft.position - 1].share
        ),
        "fill": lambda: fill_amounts(draft),
        "seed": lambda: seed_amounts(setting, draft.sown_share, draft.left),
        "plants": lambda: plant_amounts(setting, draft),
        "straw": lambda: covers_of(setting, draft, len(candidate.campaign.passes)),
        "starter": lambda: amounts_of_feed(setting, candidate.feeding, STARTER_KEY, area),
        "feed": lambda: amounts_of_feed(setting, candidate.feeding, str(draft.key), area),
        "lime": lambda: amounts_of_lime(candidate.feeding, area),
        "worked_in": lambda: amounts_worked_in(setting, candidate.feeding, draft),
    }
    return reckon.get(kind, tuple)()


def _of_title(
    setting: ResolvedLawn, draft: Draft, amounts: tuple[Amount, ...], line: Bought | None
) -> dict[str, Value]:
    """The values of the operation's title: what is ordered, or what the task takes."""
    named = next((a for a in amounts if a.item in _IN_TITLES), None)
    if line is not None and (line.value > 0 or (named is None and line.unit == "m3")):
        # An order for which nothing is left to buy still has its title.
        return {
            "amount": Quantity(line.value, "volume", "up"),
            "material": line.short_name or line.name,
        }
    return {} if named is None else {"amount": _IN_TITLES[named.item](named.value)}


def _bales(count: float) -> Value:
    return phrases.bales(n=round(count), number=Number(count, "grouped"))


# What of the amounts of a task its title names, by item, and how: what can run short is rounded up.
_IN_TITLES: Mapping[str, Callable[[float], Value]] = MappingProxyType(
    {
        "seed": lambda kg: Quantity(kg, "mass", "up"),
        "sod": lambda m2: Quantity(m2, "area", "up"),
        "plugs": lambda count: Number(count, "grouped"),
        "sprigs": lambda m3: Quantity(m3, "sprig_volume", "up"),
        "straw": _bales,
        "mat": lambda m2: Quantity(m2, "area", "up"),
        "lime": lambda kg: Quantity(kg, "mass", "up"),
        "nitrogen": lambda g_m2: phrases.nitrogen(rate=Quantity(g_m2, "rate")),
    }
)
