"""Shares what many lawns need out over suppliers, truckloads and days."""

import math
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from turfplan.business.business_record import Business, Supplier
from turfplan.calendar_days import WEEKDAYS
from turfplan.work.material_amounts import rounded_up_m3

# What does not keep is brought on the day of each lawn.
_PLANTS = frozenset({"sod", "plugs", "sprigs"})
# What adding up volumes leaves, m3.
_LEAST_M3 = 1e-6
# A supplier that is closed for longer than this is asked on the day that was wanted.
_LONGEST_CLOSED_DAYS = 60


@dataclass(frozen=True, slots=True)
class MaterialNeed:
    """What a lawn buys at once: `sold` as its plan rounds it up, `used` of it by its work, both in
    `unit` of SI.

    `task` receives or fetches it by `deliver_by`; `loads` (m3) are its truckloads, none where it
    comes in bags. An `estimate` is not to be ordered yet.
    """

    lawn: str
    task: str
    item: str
    name: str
    sold: float
    used: float
    unit: str
    order_by: date
    deliver_by: date
    loads: tuple[float, ...] = ()
    estimate: bool = False


@dataclass(frozen=True, slots=True)
class LoadShare:
    """The part of a load that is for a lawn, in the unit of the load."""

    lawn: str
    task: str
    value: float
    estimate: bool = False


@dataclass(frozen=True, slots=True)
class MaterialLoad:
    """What a supplier brings or hands out at once: `value` of it in `unit`, of which `left` is for
    nobody.

    `supplier` is None where `business.toml` names none. `is_load` is a truckload, which goes to the
    yard (`to_yard`) or to the lawns of its shares, one after the other. `late` where its day to
    order is over.
    """

    supplier: str | None
    item: str
    name: str
    value: float
    unit: str
    shares: tuple[LoadShare, ...]
    left: float
    order_by: date
    deliver_on: date
    is_load: bool
    to_yard: bool = False
    late: bool = False

    @property
    def estimate(self) -> bool:
        """Whether a part of it is not to be ordered yet."""
        return any(share.estimate for share in self.shares)


def shared_loads(needs: Iterable[LoadShare], limit: float) -> tuple[tuple[LoadShare, ...], ...]:
    """The needs in loads of which none is over `limit`.

    Whole loads of one lawn go first, then what is left of each, the largest first, into the first
    load with room for it. What all loads hold for a task adds up to its need.
    """
    whole: list[tuple[LoadShare, ...]] = []
    rests: list[LoadShare] = []
    for share in needs:
        count = math.floor(share.value / limit + _LEAST_M3)
        whole += [(replace(share, value=limit),)] * count
        rest = share.value - count * limit
        if rest > _LEAST_M3:
            rests.append(replace(share, value=rest))
    loads: list[list[LoadShare]] = []
    for share in sorted(rests, key=lambda rest: (-rest.value, rest.lawn, rest.task)):
        fitting = (held for held in loads if _sum(held) + share.value <= limit + _LEAST_M3)
        held = next(fitting, None)
        if held is None:
            loads.append([share])
        else:
            held.append(share)
    return (*whole, *map(tuple, loads))


def material_loads(
    needs: Iterable[MaterialNeed], business: Business | None, step_m3: float, today: date
) -> tuple[MaterialLoad, ...]:
    """What is bought for some lawns, by supplier, material and day.

    Lawns share truckloads of the same material in the same week, where the supplier's `load` is
    known; each of these is rounded up to `step_m3` as a whole. What comes in bags is added up over
    the week, plants over the day. A shared load goes to the yard while there is room for all that
    comes there in a week. A delivery is put before a day on which its supplier is closed, and is
    ordered so many days ahead as the supplier asks, else as the plans say.
    """
    together: dict[tuple[str, str, str, str, str, str], list[MaterialNeed]] = {}
    for need in needs:
        supplier = supplier_of(need, business)
        day = need.deliver_by
        if need.item not in _PLANTS:
            day -= timedelta(days=day.weekday())
        name = supplier.name if supplier is not None else ""
        kind = "load" if need.loads else "bags"
        key = (name, need.item, need.name, need.unit, kind, day.isoformat())
        together.setdefault(key, []).append(need)
    tipped: dict[date, float] = {}
    made: list[MaterialLoad] = []
    for key in sorted(together, key=lambda key: (not key[0], key)):
        alike = sorted(together[key], key=lambda need: (need.deliver_by, need.lawn, need.task))
        supplier = supplier_of(alike[0], business)
        loads = _truckloads if alike[0].loads else _in_bags
        for load in loads(alike, supplier, step_m3, today):
            made.append(_placed(load, business, tipped))
    return tuple(made)


def supplier_of(need: MaterialNeed, business: Business | None) -> Supplier | None:
    """The first supplier that has the material, by its own name or by its kind."""
    wanted = {need.item.casefold(), need.name.casefold()}
    suppliers = business.supplier if business is not None else ()
    having = (one for one in suppliers if wanted & {item.casefold() for item in one.items})
    return next(having, None)


def open_day(supplier: Supplier | None, day: date) -> date:
    """The last day until `day` on which a supplier is open; the day itself where none is near."""
    if supplier is None:
        return day
    weekdays = supplier.weekdays or WEEKDAYS
    for back in range(_LONGEST_CLOSED_DAYS):
        found = day - timedelta(days=back)
        closed = any(span.start <= found <= span.end for span in supplier.closed)
        if WEEKDAYS[found.weekday()] in weekdays and not closed:
            return found
    return day


def _truckloads(
    needs: Sequence[MaterialNeed], supplier: Supplier | None, step_m3: float, today: date
) -> Iterator[MaterialLoad]:
    """Truckloads of one material in a week: shared where the supplier's load is known, else those
    of each plan."""
    limit = supplier.load_m3 if supplier is not None else None
    whole = math.floor(limit / step_m3 + _LEAST_M3) * step_m3 if limit is not None else 0.0
    if limit is not None:
        by_task = {(need.lawn, need.task): need for need in needs}
        for shares in shared_loads((_share(need, need.used) for need in needs), whole or limit):
            value = rounded_up_m3(_sum(shares), step_m3) if whole else _sum(shares)
            held = [by_task[share.lawn, share.task] for share in shares]
            yield _load(held, shares, value, supplier, today)
        return
    for need in needs:
        left = need.used
        for value in need.loads:
            used = min(left, value)
            left -= used
            yield _load([need], (_share(need, used),), value, supplier, today)


def _in_bags(
    needs: Sequence[MaterialNeed], supplier: Supplier | None, _step_m3: float, today: date
) -> Iterator[MaterialLoad]:
    shares = tuple(_share(need, need.sold) for need in needs)
    yield _load(needs, shares, _sum(shares), supplier, today)


def _load(
    needs: Sequence[MaterialNeed],
    shares: tuple[LoadShare, ...],
    value: float,
    supplier: Supplier | None,
    today: date,
) -> MaterialLoad:
    first = needs[0]
    deliver_on = open_day(supplier, min(need.deliver_by for need in needs))
    order_by = min(deliver_on, *(need.order_by for need in needs))
    if supplier is not None:
        order_by = open_day(supplier, deliver_on - timedelta(days=supplier.lead_days))
    return MaterialLoad(
        supplier=supplier.name if supplier is not None else None,
        item=first.item,
        name=first.name,
        value=value,
        unit=first.unit,
        shares=shares,
        left=max(0.0, value - _sum(shares)),
        order_by=order_by,
        deliver_on=deliver_on,
        is_load=bool(first.loads),
        late=order_by < today,
    )


def _placed(
    load: MaterialLoad, business: Business | None, tipped: dict[date, float]
) -> MaterialLoad:
    """A load with where it goes: one that lawns share to the yard, while there is room for all of
    the week."""
    room = business.yard.room_m3 if business is not None else None
    if room is None or not load.is_load or len({share.lawn for share in load.shares}) < 2:
        return load
    week = load.deliver_on - timedelta(days=load.deliver_on.weekday())
    if tipped.get(week, 0.0) + load.value > room + _LEAST_M3:
        return load
    tipped[week] = tipped.get(week, 0.0) + load.value
    return replace(load, to_yard=True)


def _share(need: MaterialNeed, value: float) -> LoadShare:
    return LoadShare(need.lawn, need.task, value, need.estimate)


def _sum(shares: Iterable[LoadShare]) -> float:
    return math.fsum(share.value for share in shares)


@dataclass(frozen=True, slots=True)
class MovedDelivery:
    """A delivery whose day is another than its supplier was told: `now` is None where it is no
    longer wanted."""

    supplier: str | None
    lawn: str
    task: str
    name: str
    told: date
    now: date | None


@dataclass(frozen=True, slots=True)
class ToldDelivery:
    """What a supplier was last told of a delivery."""

    supplier: str | None
    name: str
    day: date


def moved_deliveries(
    told: Mapping[tuple[str, str], ToldDelivery],
    loads: Iterable[MaterialLoad],
    lawns: Collection[str],
    over: Collection[tuple[str, str]],
) -> tuple[MovedDelivery, ...]:
    """What suppliers were told of deliveries to some lawns and is no longer so, by lawn and task;
    what is `over` has come, and is not moved."""
    now: dict[tuple[str, str], date] = {}
    for load in loads:
        for share in load.shares:
            key = (share.lawn, share.task)
            now[key] = min(now.get(key, load.deliver_on), load.deliver_on)
    return tuple(
        MovedDelivery(was.supplier, *key, was.name, was.day, now.get(key))
        for key, was in sorted(told.items())
        if key[0] in lawns and key not in over and now.get(key) != was.day
    )
