"""Puts dated drafts, amounts and reasons together into the records of a plan."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from datetime import date

from turfplan.constraints import Allowed, Constraint, Strength
from turfplan.plan import Amount, Task, Window
from turfplan.planner.comparing import Candidate, plain_titles
from turfplan.planner.explaining import NEAREST_DAY, days_off_alone, reasons, wish_earlier, wish_later
from turfplan.planner.feeding import amounts_of_feed, amounts_of_lime
from turfplan.planner.history import History
from turfplan.planner.quantities import (
    Bought,
    fill_amounts,
    material_orders,
    pass_amounts,
    plant_amounts,
    seed_amounts,
    short_line,
    small_orders,
    straw_amounts,
)
from turfplan.planner.stock import Stock, needed_m3, stock_of
from turfplan.rules.draft import Draft
from turfplan.rules.setting import Setting
from turfplan.units import read_as


def with_amounts(
    setting: Setting, candidate: Candidate, history: History | None = None
) -> tuple[dict[str, Draft], list[Bought]]:
    """Every draft with its amounts, in order, and what is still to be bought for them."""
    orders, stock = _orders(setting, candidate, history)
    by_task: dict[str, Bought] = {}
    for line in orders:
        by_task.setdefault(line.deliver_task, line)
        if line.order_task:
            by_task.setdefault(line.order_task, line)
    idle = _idle(orders, stock)
    drafts: dict[str, Draft] = {}
    for draft in candidate.season.drafts:
        if draft.id in idle:
            continue
        amounts = _amounts(setting, candidate, draft, by_task.get(draft.id))
        words = _words(setting, draft, amounts, by_task)
        if amounts or words:
            draft = replace(draft, amounts=(*draft.amounts, *amounts), words={**draft.words, **words})
        drafts[draft.id] = draft
    bought = [line for line in orders + small_orders(setting, drafts) if line.deliver_task not in stock.settled]
    coming = [d for d in _spreading(setting, candidate) if d.id not in stock.settled]
    if stock.short_m3 and coming:
        first = min(coming, key=lambda d: candidate.dated.schedule.days[d.start_node])
        bought.append(short_line(setting, candidate.mix, stock.short_m3, first.id))
    return drafts, [line for line in bought if line.value > 0]


def _idle(orders: Sequence[Bought], stock: Stock) -> frozenset[str]:
    """The ordering and receiving of what is here already: nothing is left to order, so there is nothing to do."""
    names = {name for line in orders if line.value <= 0 for name in (line.order_task, line.deliver_task) if name}
    return frozenset(names - stock.settled)


def _spreading(setting: Setting, candidate: Candidate) -> list[Draft]:
    return [d for d in candidate.season.drafts if "spreading" in setting.book.operations[d.operation].roles]


def _orders(setting: Setting, candidate: Candidate, history: History | None) -> tuple[list[Bought], Stock]:
    """The bulk material of every session with what the journal says of it."""
    campaign, mix, volumes = candidate.campaign, candidate.mix, candidate.volumes
    orders = material_orders(setting, campaign, mix, volumes)
    if history is None:
        return orders, Stock()
    ordered = {s.number: line.value for s, line in zip(campaign.sessions, orders, strict=False)}
    stock = stock_of(needed_m3(campaign, volumes), ordered, _spreading(setting, candidate), history)
    return (material_orders(setting, campaign, mix, volumes, stock) if stock.more else orders), stock


def _amounts(setting: Setting, candidate: Candidate, draft: Draft, bought: Bought | None) -> tuple[Amount, ...]:
    """The amounts of a task, of the kind that its operation names in the book."""
    kind = setting.book.operations[draft.operation].amounts
    if kind == "load":
        return () if bought is None else (Amount.of("volume", bought.value, "m3", bought.reason, bought.facts),)
    reckon: dict[str | None, Callable[[], tuple[Amount, ...]]] = {
        "pass": lambda: pass_amounts(setting, candidate.mix, draft),
        "fill": lambda: fill_amounts(draft),
        "seed": lambda: seed_amounts(setting),
        "plants": lambda: plant_amounts(setting, draft),
        "straw": lambda: straw_amounts(setting),
        "starter": lambda: amounts_of_feed(setting, candidate.feeding, "starter"),
        "feed": lambda: amounts_of_feed(setting, candidate.feeding, draft.id.split(".", 1)[-1]),
        "lime": lambda: amounts_of_lime(setting, candidate.feeding),
    }
    return reckon.get(kind, tuple)()


def _words(setting: Setting, draft: Draft, amounts: tuple[Amount, ...], bought: Mapping[str, Bought]) -> dict[str, str]:
    """The words that fill the operation's title and instructions."""
    words: dict[str, str] = {}
    line = bought.get(draft.id)
    if line is not None:
        words |= {"amount": read_as(line.value, "volume", setting.system, "up").text, "material": _short(line.name)}
    kinds = {"kg": "mass", "m2": "area", "m3": "volume", "g/m2": "rate"}
    main = next((a for a in amounts if a.item in ("seed", "sod", "plugs", "sprigs", "straw", "lime", "nitrogen")), None)
    if main is not None and "amount" not in words:
        words["amount"] = (
            read_as(main.value, kinds[main.unit], setting.system, "up" if main.item != "nitrogen" else "nearest").text
            if main.unit in kinds
            else f"{main.value:,.0f}" + (f" {main.unit}" if main.unit == "bales" else "")
        )
        if main.item == "nitrogen":
            words["amount"] += " N"
    return words


def _short(name: str) -> str:
    return name if len(name) <= 24 else "mix"


class _Filling(dict[str, str]):
    """Leaves an unknown word standing in its braces, for the checker to find."""

    def __missing__(self, key: str) -> str:
        return "{" + key + "}"


def tasks_of(setting: Setting, candidate: Candidate, drafts: Mapping[str, Draft]) -> tuple[Task, ...]:
    """Every draft as a task of the plan, in order of date."""
    titles = plain_titles(setting, candidate.season)
    bound = _bound(candidate)
    wished = {node.id: node.ideal for node in candidate.dated.problem.nodes}
    found = [
        task_of(setting, candidate, draft, titles, bound.get(draft.start_node, []), wished[draft.start_node])
        for draft in drafts.values()
    ]
    idle = {draft.id for draft in candidate.season.drafts} - drafts.keys()
    if idle:
        found = [
            t.model_copy(update={"depends_on": tuple(name for name in t.depends_on if name not in idle)}) for t in found
        ]
    return tuple(sorted(found, key=lambda t: (t.start, t.id)))


def _bound(candidate: Candidate) -> dict[str, list[Constraint]]:
    """By node, the constraints that allow its days or hold it behind another."""
    found: dict[str, list[Constraint]] = {}
    for constraint in candidate.season.constraints:
        node = constraint.node if isinstance(constraint, Allowed) else constraint.after
        found.setdefault(node, []).append(constraint)
    return found


def task_of(
    setting: Setting, candidate: Candidate, draft: Draft, titles: Mapping[str, str], bound: Sequence[Constraint],
    wished: int | None,
) -> Task:  # fmt: skip
    """One draft on its days, with words, reasons, window and fallback day.

    `bound` are the constraints on its first day, `wished` the day on which it would best begin.
    """
    schedule = candidate.dated.schedule
    entry = setting.book.operations[draft.operation]
    start, end = schedule.days[draft.start_node], schedule.days[draft.end_node]
    words = _Filling(draft.words)
    window = _window(setting, candidate, draft, start, bound)
    strongest = max((c.strength for c in bound if isinstance(c, Allowed)), default=Strength.ADVICE)
    return Task(
        id=draft.id, uid="", operation=draft.operation, phase=draft.phase, roles=entry.roles,
        title=(draft.title or entry.title).format_map(words),
        why=draft.why, start=date.fromordinal(start), end=date.fromordinal(end),
        best=_best(window, start if wished is None else wished),
        duration_days=draft.duration_days, person_hours=draft.person_hours, window=window,
        not_earlier=_reasons(candidate, draft, titles, earlier=True),
        not_later=_reasons(candidate, draft, titles, earlier=False),
        amounts=draft.amounts,
        how=tuple(line.format_map(words) for line in (draft.how or entry.how)),
        go=(draft.go or entry.go or "").format_map(words) or None,
        fallback=(draft.fallback or entry.fallback or "").format_map(words) or None,
        fallback_day=_fallback(setting, draft, end, window), cautions=draft.cautions,
        depends_on=_depends(draft, bound),
        facts=tuple(dict.fromkeys((*draft.facts, *(fact for constraint in bound for fact in constraint.reason.facts)))),
        strength=strongest.name.lower(), alarm=entry.alarm,
    )  # fmt: skip


def _reasons(candidate: Candidate, draft: Draft, titles: Mapping[str, str], *, earlier: bool) -> tuple[str, ...]:
    """Why not earlier, or not later: what holds the chosen day; where a wish or days off alone do, what would hold it in the end."""
    schedule, node = candidate.dated.schedule, draft.start_node
    chain = schedule.not_earlier(node) if earlier else schedule.not_later(node)
    wish = wish_earlier(draft, titles) if earlier else wish_later(draft, titles)
    nothing = f"It is the {'first' if earlier else 'last'} day on which it can be done."
    found = reasons(chain, titles, wish, nothing)
    if days_off_alone(chain):
        found = (wish if draft.anchor in titles else NEAREST_DAY,)
    if chain and (chain[0].kind == "wish" or days_off_alone(chain)):
        limits = schedule.bounds.not_earlier(node) if earlier else schedule.bounds.not_later(node)
        found += tuple(line for line in reasons(limits, titles, wish, nothing)[:2] if line not in found)
    return found


def _best(window: Window, day: int) -> date:
    return min(max(date.fromordinal(day), window.start), window.end)


def _window(setting: Setting, candidate: Candidate, draft: Draft, chosen: int, bound: Sequence[Constraint]) -> Window:
    """The open days of the task: its operation's window where it has one, else from its earliest to its latest day."""
    limits = candidate.dated.schedule.bounds
    low, high = limits.earliest[draft.start_node], limits.latest[draft.start_node]
    dropped = {constraint.id for constraint in candidate.dated.dropped}
    for constraint in bound:
        if isinstance(constraint, Allowed) and constraint.id.startswith("window:") and constraint.id not in dropped:
            for start, end in constraint.days.ranges:
                if start <= chosen <= end:
                    return Window(start=date.fromordinal(max(start, setting.first_day)), end=date.fromordinal(end))
    return Window(start=date.fromordinal(min(low, chosen)), end=date.fromordinal(max(high, chosen)))


def _fallback(setting: Setting, draft: Draft, end: int, window: Window) -> date | None:
    """The next working day inside the window, for when the day will not do."""
    days = setting.delivery_days if "delivery" in setting.book.operations[draft.operation].roles else setting.work_days
    following = days.next(end + 1)
    if following is None or following > window.end.toordinal():
        return None
    return date.fromordinal(following)


def _depends(draft: Draft, bound: Sequence[Constraint]) -> tuple[str, ...]:
    """The tasks that must be done first."""
    before = [c.before.removesuffix("@end") for c in bound if not isinstance(c, Allowed)]
    return tuple(dict.fromkeys(name for name in before if name != draft.id))
