"""What was ordered of the mix in plans before and has not come, by its amount: it is bought once,
whatever has become of the passes that it was asked for."""

from collections.abc import Iterator, Mapping, Sequence

from turfplan.records.past import TaskHistory
from turfplan.records.plan_task import Task
from turfplan.work.drafts import Load
from turfplan.work.ordered_loads import OrderedLoads

ORDER, DELIVERY = "order_material.", "delivery."


def orders_of_deliveries(tasks: Mapping[str, Task]) -> dict[str, str]:
    """The order of the mix by which each delivery of a plan was asked for, itself or by a call."""
    found = {}
    for task in tasks.values():
        if not task.plays("delivery") or task.closed == "dropped":
            continue
        calls = [tasks[name] for name in task.depends_on if name in tasks]
        names = [*task.depends_on, *(n for t in calls if t.plays("calling") for n in t.depends_on)]
        order = next((name for name in names if name.startswith(ORDER)), None)
        if order is not None:
            found[task.id] = order
    return found


def ordered_before(history: TaskHistory) -> OrderedLoads:
    """What is ordered and still to come of orders of which the plan before says how much they asked
    for, and the loads that are over."""
    names = history.done.keys() | history.left_out
    over = frozenset(number for name in names for number in numbers_of(name, DELIVERY))
    placed = sorted(number for name in history.done for number in numbers_of(name, ORDER))
    left = ((number, still_to_come_m3(number, history)) for number in placed)
    return OrderedLoads(tuple((n, m3) for n, m3 in left if m3 is not None), over)


def still_to_come_m3(order: int, history: TaskHistory) -> float | None:
    """What an order that was placed still brings, loose m3: the loads of it that are open in the
    plan before, which take all that is left of it, or all of it where it has no loads there. None
    where no plan says how much it was. What a load brought too little or too much changes no other
    load."""
    asked = history.planned_m3.get(f"{ORDER}{order}")
    if asked is None:
        return None
    over = history.done.keys() | history.left_out
    own = [name for name, by in history.ordered_by.items() if by == f"{ORDER}{order}"]
    if not own:
        return asked
    return sum(history.planned_m3.get(name, 0.0) for name in own if name not in over)


def asked_of_loads(
    loads: Sequence[Load], sold: Mapping[int, float], history: TaskHistory
) -> tuple[dict[int, float], dict[int, float]]:
    """What was asked for by each load, loose m3, and what its order brings beyond that, of the
    loads whose orders are placed; `sold` is what each would be sold as today.

    A load comes as it was asked for; what an order has besides goes to the loads that need more, or
    were to have another order, and the rest comes with its last load.
    """
    names = {number: f"{DELIVERY}{number}" for number in sold}
    orders = {load.number: f"{ORDER}{load.order}" for load in loads}
    asked = {
        number: history.planned_m3.get(names[number], m3)
        if {names[number], orders.get(number)} & history.done.keys()
        else m3
        for number, m3 in sold.items()
    }
    beyond = dict.fromkeys(sold, 0.0)
    for order in sorted({load.order for load in loads}):
        left = still_to_come_m3(order, history)
        own = [n for n, by in orders.items() if by == f"{ORDER}{order}" and n in sold]
        still = [n for n in own if names[n] not in history.done]
        if f"{ORDER}{order}" not in history.done or left is None or not still:
            continue
        for number in still:
            known = history.ordered_by.get(names[number]) == f"{ORDER}{order}"
            asked[number] = min(left, asked[number]) if known else 0.0
            left -= asked[number]
        for number in still:
            more = min(left, max(0.0, sold[number] - asked[number]))
            asked[number] += more
            left -= more
        beyond[still[-1]] = left
    return asked, beyond


def numbers_of(name: str, kind: str) -> Iterator[int]:
    """The number of a load or an order of the mix, if a task is one of a kind."""
    key = name.removeprefix(kind)
    if key != name and key.isdigit():
        yield int(key)
