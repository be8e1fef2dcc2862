"""Puts dated drafts, amounts and reasons together into the records of a plan."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from datetime import date
from types import MappingProxyType

from turfplan.book.words import book_message, book_messages, optional_message
from turfplan.message import Message, Number, Quantity, Value
from turfplan.phrases import level as of_level
from turfplan.phrases import order as of_order
from turfplan.phrases import reasons as because
from turfplan.phrases import tasks as phrases
from turfplan.planning.amounts import (
    fill_amounts,
    pass_amounts,
    plant_amounts,
    seed_amounts,
    straw_amounts,
)
from turfplan.planning.bagged_goods import small_orders
from turfplan.planning.candidates import Candidate
from turfplan.planning.feeding import amounts_of_feed, amounts_of_lime, amounts_worked_in
from turfplan.planning.load_reasons import part
from turfplan.planning.purchases import Bought, material_orders, short_line
from turfplan.planning.reasons import days_off_alone, reasons, wish_earlier, wish_later
from turfplan.planning.stock import (
    Stock,
    is_under_way,
    needed_m3,
    skipped_passes,
    stock_of,
    wanted_loads,
)
from turfplan.planning.task_names import plain_titles
from turfplan.records.constraints import Allowed, Constraint, Strength
from turfplan.records.past import TaskHistory
from turfplan.records.plan_task import Amount, Task, TaskWindow
from turfplan.work.days_off import days_for
from turfplan.work.drafts import Draft, OpenDays, task_of_node
from turfplan.work.lateness import grade, told
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.order import SOWING
from turfplan.work.phases.marks import digs
from turfplan.work.phases.seedling_look import LOOK, bare_spots


def with_amounts(
    setting: ResolvedLawn, candidate: Candidate, history: TaskHistory | None = None
) -> tuple[dict[str, Draft], list[Bought]]:
    """Every draft with its amounts, in order, and what is still to be bought for them."""
    orders, stock = _orders(setting, candidate, history)
    by_task = _lines_of(orders)
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
        if draft.bags and line is not None:
            draft = replace(draft, title=_title_of_bags(line))
        drafts[draft.id] = draft
    bought = [
        line
        for line in orders + small_orders(setting, drafts)
        if line.deliver_task not in stock.settled and line.order_task not in stock.unasked
    ]
    coming = [d for d in _spreading(setting, candidate) if d.id not in stock.settled]
    if stock.short_m3 and coming:
        first = min(coming, key=lambda d: candidate.dated.schedule.days[d.start_node])
        bought.append(short_line(setting, candidate.mix, stock.short_m3, first.id))
    return drafts, [line for line in bought if line.value > 0]


def _title_of_bags(line: Bought) -> Message:
    return of_level.bags_title(amount=part(line.value), material=line.short_name or line.name)


def _lines_of(orders: Sequence[Bought]) -> dict[str, Bought]:
    """What each task orders or receives; an order asks for all of its deliveries together."""
    lines: dict[str, Bought] = {}
    for line in orders:
        lines.setdefault(line.deliver_task, line)
        if line.order_task is None:
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


def _spreading(setting: ResolvedLawn, candidate: Candidate) -> list[Draft]:
    return [
        d
        for d in candidate.season.drafts
        if "spreading" in setting.book.operations[d.operation].roles
    ]


def _orders(
    setting: ResolvedLawn, candidate: Candidate, history: TaskHistory | None
) -> tuple[list[Bought], Stock]:
    """The bulk material of every load with what the journal says of it."""
    loads, mix, volumes = candidate.season.loads, candidate.mix, candidate.volumes
    if history is None:
        return material_orders(setting, loads, mix, volumes), Stock()
    passes, skipped = _spreading(setting, candidate), skipped_passes(volumes, history)
    loads = wanted_loads(loads, volumes, history, skipped)
    if skipped == set(volumes.passes) and not any(is_under_way(load, history) for load in loads):
        # Nothing is filled that could settle.
        volumes = replace(volumes, touch_up_m3=0.0)
    orders = material_orders(setting, loads, mix, volumes)
    sold = {load.number: line.value for load, line in zip(loads, orders, strict=False)}
    stock = stock_of(needed_m3(loads, volumes), sold, passes, history, loads)
    return (material_orders(setting, loads, mix, volumes, stock) if stock.more else orders), stock


def _amounts(
    setting: ResolvedLawn, candidate: Candidate, draft: Draft, bought: Bought | None
) -> tuple[Amount, ...]:
    """The amounts of a task, of the kind that its operation names in the book."""
    kind = setting.book.operations[draft.operation].amounts
    sown_share = min((d.sown_share for d in candidate.season.drafts), default=1.0)
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
        "seed": lambda: seed_amounts(setting, draft.sown_share),
        "plants": lambda: plant_amounts(setting, draft),
        "straw": lambda: straw_amounts(setting, sown_share),
        "starter": lambda: amounts_of_feed(setting, candidate.feeding, "starter"),
        "feed": lambda: amounts_of_feed(setting, candidate.feeding, str(draft.key)),
        "lime": lambda: amounts_of_lime(setting, candidate.feeding),
        "worked_in": lambda: amounts_worked_in(setting, candidate.feeding),
    }
    return reckon.get(kind, tuple)()


def _of_title(
    setting: ResolvedLawn, draft: Draft, amounts: tuple[Amount, ...], line: Bought | None
) -> dict[str, Value]:
    """The values of the operation's title: what is ordered, or what the task takes."""
    if line is not None and line.value > 0:
        return {
            "amount": Quantity(line.value, "volume", "up"),
            "material": line.short_name or line.name,
        }
    named = next((a for a in amounts if a.item in _IN_TITLES), None)
    return {} if named is None else {"amount": _IN_TITLES[named.item](named.value)}


def _bales(count: float) -> Value:
    return phrases.bales(n=round(count), number=Number(count, "grouped"))


# What of the amounts of a task its title names, by item, and how: what can run short is rounded up.
_IN_TITLES: Mapping[str, Callable[[float], Value]] = MappingProxyType(
    {
        "seed": lambda kg: Quantity(kg, "mass", "up"),
        "sod": lambda m2: Quantity(m2, "area", "up"),
        "plugs": lambda count: Number(count, "grouped"),
        "sprigs": lambda count: Number(count, "grouped"),
        "straw": _bales,
        "lime": lambda kg: Quantity(kg, "mass", "up"),
        "nitrogen": lambda g_m2: phrases.nitrogen(rate=Quantity(g_m2, "rate")),
    }
)


def tasks_of(
    setting: ResolvedLawn, candidate: Candidate, drafts: Mapping[str, Draft]
) -> tuple[Task, ...]:
    """Every draft as a task of the plan, in order of date."""
    titles = plain_titles(setting, candidate.season)
    bound = _bound(candidate)
    wished = {node.id: node.ideal for node in candidate.dated.problem.nodes}
    tasks = [
        task_of(
            setting,
            candidate,
            draft,
            titles,
            bound.get(draft.start_node, []),
            wished[draft.start_node],
        )
        for draft in drafts.values()
    ]
    idle = {draft.id for draft in candidate.season.drafts} - drafts.keys()
    if idle:
        tasks = [
            t.model_copy(
                update={"depends_on": tuple(name for name in t.depends_on if name not in idle)}
            )
            for t in tasks
        ]
    return tuple(sorted(tasks, key=lambda t: (t.start, t.id)))


def _bound(candidate: Candidate) -> dict[str, list[Constraint]]:
    """By node, the constraints that allow its days or hold it behind another."""
    bound: dict[str, list[Constraint]] = {}
    for constraint in candidate.season.constraints:
        node = constraint.node if isinstance(constraint, Allowed) else constraint.after
        bound.setdefault(node, []).append(constraint)
    return bound


def task_of(
    setting: ResolvedLawn,
    candidate: Candidate,
    draft: Draft,
    titles: Mapping[str, Message],
    bound: Sequence[Constraint],
    wished: int | None,
) -> Task:
    """One draft on its days, with words, reasons, window and fallback day.

    `bound` are the constraints on its first day, `wished` the day on which it would best begin.
    """
    schedule = candidate.dated.schedule
    entry = setting.book.operations[draft.operation]
    roles = entry.roles
    if digs(setting, draft) and "digging" not in roles:
        roles = (*roles, "digging")
    start, end = schedule.days[draft.start_node], schedule.days[draft.end_node]
    book, key = setting.book, f"operations.{draft.operation}"
    window = _window(setting, candidate, draft, start, bound)
    season = _season_of(candidate, draft)
    late = told(setting, season, date.fromordinal(end)) if season else None
    looks = draft.id == LOOK
    about = (bare_spots(setting, candidate.campaign, date.fromordinal(start)),) if looks else ()
    return Task(
        id=draft.id,
        uid="",
        operation=draft.operation,
        phase=draft.phase,
        roles=roles,
        title=draft.title or book_message(book, f"{key}.title", draft.words),
        why=draft.why,
        start=date.fromordinal(start),
        end=date.fromordinal(end),
        best=_best(window, start if wished is None else wished),
        duration_days=draft.duration_days,
        person_hours=draft.person_hours,
        window=window,
        not_earlier=_reasons(candidate, draft, titles, earlier=True),
        not_later=_reasons(candidate, draft, titles, earlier=False),
        amounts=draft.amounts,
        how=(*about, *(draft.how or book_messages(book, f"{key}.how", draft.words))),
        go=draft.go or optional_message(book, f"{key}.go", draft.words),
        fallback=draft.fallback or optional_message(book, f"{key}.fallback", draft.words),
        fallback_day=_fallback(setting, draft, end, window),
        cautions=draft.cautions if late is None else (late, *draft.cautions),
        grade=grade(setting, season, date.fromordinal(end)) if season else None,
        depends_on=_depends(candidate, draft, bound),
        facts=_facts(draft, bound),
        strength=_strongest(draft, bound).name.lower(),
        alarm=entry.alarm,
    )


def _season_of(candidate: Candidate, draft: Draft) -> OpenDays | None:
    """The window that a pass, a sowing or a planting is to keep; None for other tasks."""
    if draft.operation == "topdress":
        return candidate.campaign.sessions[draft.session - 1].window
    sown = draft.operation in SOWING or draft.operation == "plant"
    return candidate.campaign.sow_window if sown else None


def _strongest(draft: Draft, bound: Sequence[Constraint]) -> Strength:
    """The strongest of what allows a first day; what shares another's days is bound to them."""
    days = (c.strength for c in bound if isinstance(c, Allowed))
    return max(days, default=Strength.ADVICE) if draft.beside is None else Strength.HARD


def _facts(draft: Draft, bound: Sequence[Constraint]) -> tuple[str, ...]:
    """The facts behind a task and behind what binds its first day, each once."""
    return tuple(
        dict.fromkeys((*draft.facts, *(fact for held in bound for fact in held.reason.facts)))
    )


def _reasons(
    candidate: Candidate, draft: Draft, titles: Mapping[str, Message], *, earlier: bool
) -> tuple[Message, ...]:
    """Why not earlier, or not later: what holds the chosen day.

    Where a wish or days off alone hold it, what would hold it in the end is said too.
    """
    schedule, node = candidate.dated.schedule, draft.start_node
    chain = schedule.not_earlier(node) if earlier else schedule.not_later(node)
    wish = wish_earlier(draft, titles) if earlier else wish_later(draft, titles)
    nothing = because.first_day() if earlier else because.last_day()
    held_by = reasons(chain, titles, wish, nothing)
    if days_off_alone(chain):
        held_by = (wish if draft.anchor in titles else because.nearest_day(),)
    if chain and (chain[0].kind == "wish" or days_off_alone(chain)):
        limits = schedule.bounds.not_earlier(node) if earlier else schedule.bounds.not_later(node)
        held_by += tuple(
            line for line in reasons(limits, titles, wish, nothing)[:2] if line not in held_by
        )
    return held_by


def _best(window: TaskWindow, day: int) -> date:
    return min(max(date.fromordinal(day), window.start), window.end)


def _window(
    setting: ResolvedLawn,
    candidate: Candidate,
    draft: Draft,
    chosen: int,
    bound: Sequence[Constraint],
) -> TaskWindow:
    """The open days of the task: those of its operation, else its earliest to its latest day."""
    limits = candidate.dated.schedule.bounds
    low, high = limits.earliest[draft.start_node], limits.latest[draft.start_node]
    dropped = {constraint.id for constraint in candidate.dated.dropped}
    for constraint in bound:
        if isinstance(constraint, Allowed) and constraint.opens and constraint.id not in dropped:
            for start, end in constraint.days.ranges:
                if start <= chosen <= end:
                    return TaskWindow(
                        start=date.fromordinal(max(start, setting.first_day)),
                        end=date.fromordinal(end),
                    )
    return TaskWindow(
        start=date.fromordinal(min(low, chosen)), end=date.fromordinal(max(high, chosen))
    )


def _fallback(setting: ResolvedLawn, draft: Draft, end: int, window: TaskWindow) -> date | None:
    """The next working day inside the window, for when the day will not do."""
    following = days_for(setting, draft.operation).next(end + 1)
    if following is None or following > window.end.toordinal():
        return None
    return date.fromordinal(following)


def _depends(candidate: Candidate, draft: Draft, bound: Sequence[Constraint]) -> tuple[str, ...]:
    """The tasks that are done first; a rule that had to give way puts nothing first."""
    dropped = {constraint.id for constraint in candidate.dated.dropped}
    before = [
        task_of_node(c.before)
        for c in bound
        if not isinstance(c, Allowed) and c.id not in dropped and not c.alongside
    ]
    return tuple(dict.fromkeys(name for name in before if name != draft.id))
