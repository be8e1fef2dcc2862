"""Which tasks order, call for, bring or fetch what is bought, and what they say of it."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from turfplan.book.entries import Book
from turfplan.book.words import book_messages
from turfplan.message import Message, listed
from turfplan.phrases import buying as phrases
from turfplan.planning.purchases import Bought
from turfplan.planning.stock import Stock
from turfplan.records.items import OrderItem
from turfplan.records.past import TaskHistory
from turfplan.work.drafts import Draft
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.phases.buying import NUTRIENT_TRIPS, hired_for, machine_name

# What a trip is named by, of all that is fetched on it; the rest is named as it is bought.
_KINDS: Mapping[OrderItem, Message] = MappingProxyType(
    {
        "seed": phrases.of_seed(),
        "straw": phrases.of_straw(),
        "mat": phrases.of_mat(),
        "lime": phrases.of_lime(),
        "fertilizer": phrases.of_fertilizer(),
        "preventer": phrases.of_preventer(),
        "weed killer": phrases.of_weed_killer(),
    }
)
# Pegs are fetched with their mat.
_UNNAMED: frozenset[OrderItem] = frozenset({"pegs"})


def hired_machines(setting: ResolvedLawn, drafts: Iterable[Draft], stock: Stock) -> list[Bought]:
    """The machines that are reserved, each with the first of the jobs still to come for it."""
    by_id = {draft.id: draft for draft in drafts}
    lines = []
    for call in by_id.values():
        for machine in call.hired:
            jobs = [
                name
                for name in call.buys_for
                if name in by_id
                and name not in stock.settled
                and hired_for(setting, by_id[name]) == machine
            ]
            if jobs:
                lines.append(_hired(machine_name(setting, machine), jobs))
    return lines


def _hired(machine: Message, jobs: Sequence[str]) -> Bought:
    return Bought(
        "machine",
        phrases.hired(machine=machine),
        1,
        "pieces",
        (),
        (),
        phrases.hired_reason(),
        phrases.hired_day(n=len(jobs)),
        None,
        jobs[0],
        facts=("delivery.hire_lead",),
    )


def with_their_tasks(
    book: Book, bought: Iterable[Bought], drafts: Mapping[str, Draft]
) -> list[Bought]:
    """Each line with the tasks that see to it, in their order, and what may still change it."""
    for_user: dict[str, list[Draft]] = defaultdict(list)
    for draft in drafts.values():
        for user in draft.buys_for:
            for_user[user].append(draft)
    lines = []
    for line in bought:
        machine = line.item == "machine"
        own = [d for d in for_user[line.deliver_task] if bool(d.hired) == machine]
        # Of what a soil test asked for late each has its trip; seed may have a second one.
        alone = [d for d in own if d.key in NUTRIENT_TRIPS and d.key == line.item]
        own = alone or [d for d in own if d.key not in NUTRIENT_TRIPS]
        named = (line.order_task, line.deliver_task if line.order_task or line.in_bags else None)
        own += [drafts[name] for name in named if name is not None and name in drafts]
        steps = _in_steps(book, own)
        lines.append(replace(line, steps=tuple(steps), estimate=_estimate(steps)))
    return lines


def is_seen_to(line: Bought, drafts: Mapping[str, Draft], stock: Stock) -> bool:
    """Whether what was to be fetched or received is here, or was left out."""
    if line.item == "machine":
        return False
    user = drafts.get(line.deliver_task)
    own = {step.id for step in line.steps}.union(user.bought_by if user is not None else ())
    return not own.isdisjoint(stock.unasked) or (
        bool(line.steps) and line.steps[-1].id in stock.settled
    )


def _in_steps(book: Book, drafts: Iterable[Draft]) -> list[Draft]:
    """The tasks of buying as they follow each other: order, call, receive or fetch."""
    turns = ("ordering", "calling", "delivery", "collecting")

    def turn(draft: Draft) -> int:
        roles = book.operations[draft.operation].roles
        return min(turns.index(role) for role in roles if role in turns)

    return sorted({draft.id: draft for draft in drafts}.values(), key=turn)


def _estimate(steps: Iterable[Draft]) -> Message | None:
    return next((draft.estimate for draft in steps if draft.estimate is not None), None)


def bought_by(lines: Iterable[Bought]) -> dict[str, list[Bought]]:
    """What each task of buying sees to."""
    found: dict[str, list[Bought]] = defaultdict(list)
    for line in lines:
        for step in line.steps:
            found[step.id].append(line)
    return found


def told_on_task(setting: ResolvedLawn, draft: Draft, lines: Sequence[Bought]) -> Draft:
    """A task of buying that says what it is about, before the steps of its operation."""
    if not draft.buys_for or not lines or draft.hired:
        return draft
    items = (phrases.line(what=line.name, amount=line.text) for line in lines)
    values = {**draft.words}
    steps = draft.how or book_messages(setting.book, f"operations.{draft.operation}.how")
    if draft.title is None:
        names = (line.kind or _KINDS.get(line.item, line.name) for line in lines if _named(line))
        values["what"] = listed(dict.fromkeys(names), "and")
    return replace(draft, words=values, how=(*items, *steps))


def _named(line: Bought) -> bool:
    return line.item not in _UNNAMED


def without_use(
    drafts: Iterable[Draft], lines: Mapping[str, Sequence[Bought]], history: TaskHistory | None
) -> frozenset[str]:
    """The tasks of buying with nothing left to buy, of which nothing is written down; what no plan
    had is not told as done by the work that it was for."""
    kept = frozenset[str]() if history is None else history.recorded & history.planned.keys()
    return frozenset(d.id for d in drafts if d.buys_for and not lines.get(d.id)) - kept
