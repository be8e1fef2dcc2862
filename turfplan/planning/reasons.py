"""Turns chains of binding constraints into reasons that a homeowner understands.

No reason quotes the date of another task: it would change whenever that task moves.
"""

from collections.abc import Iterator, Mapping

from turfplan.message import Listed, Message, said
from turfplan.network import Chain, Conflict, Link
from turfplan.phrases import reasons as phrases
from turfplan.planning.task_names import NUMBERED
from turfplan.records.constraints import Allowed, Constraint
from turfplan.work.days_off import WORK_DAYS
from turfplan.work.drafts import Draft, task_of_node

LONGEST_CHAIN = 4


def days_off_alone(chain: Chain) -> bool:
    """Whether nothing but days without work keeps a task from moving by a few.

    That says little of why it is on its day.
    """
    if not chain or chain[0].constraint is None:
        return False
    return all(
        link.node == chain[0].node
        and (
            link.kind == "wish"
            or (link.constraint is not None and link.constraint.reason.rule == WORK_DAYS)
        )
        for link in chain
    )


def reasons(
    chain: Chain, titles: Mapping[str, Message], wish: Message, nothing: Message
) -> tuple[Message, ...]:
    """The reasons of a chain, nearest cause first.

    `wish` speaks where only the ideal holds the day, `nothing` without any.
    """
    task = task_of_node(chain[0].node) if chain else ""
    given = (_reason(link, task, titles, wish) for link in _until_back(chain, task))
    nearest: dict[Message, None] = {}
    for reason in given:
        if reason is not None:
            nearest[reason] = None
        if len(nearest) == LONGEST_CHAIN:
            break
    return tuple(nearest) or (nothing,)


def _until_back(chain: Chain, task: str) -> Iterator[Link]:
    """The links up to where the chain comes back to the task itself: the rest would only say it
    again."""
    away = False
    for link in chain:
        here = task_of_node(link.node) == task
        if away and here:
            return
        away = away or not here
        yield link


def _reason(link: Link, task: str, titles: Mapping[str, Message], wish: Message) -> Message | None:
    """What one link says of a task; None where it says nothing."""
    here = task_of_node(link.node)
    match link.kind:
        case "wish":
            named = titles.get(here, said(here))
            return wish if here == task else phrases.on_best_day(task=named)
        case "fixed":
            return phrases.before_is_done()
        case "horizon":
            return phrases.plan_starts() if link.bound == "not_before" else phrases.plan_ends()
        case _:
            return _bound(link, task, titles)


def _bound(link: Link, task: str, titles: Mapping[str, Message]) -> Message | None:
    """What a constraint says of a task, and on which other one it hangs."""
    if link.constraint is None or not link.constraint.reason.text:
        return None
    reason = said(link.constraint.reason.text)
    other = task_of_node(link.other) if link.other is not None else task
    title = titles.get(other) if other != task else None
    return reason if title is None else phrases.hangs_on(reason=reason, task=title)


def wish_earlier(draft: Draft, titles: Mapping[str, Message]) -> Message:
    """Why a task is not earlier where it stands on its wished day."""
    if draft.anchor and draft.anchor in titles:
        way = (
            phrases.earlier_in_time_for
            if draft.offset < 0
            else phrases.earlier_distance_from
            if draft.offset > 0
            else phrases.earlier_with
        )
        return way(task=titles[draft.anchor])
    return phrases.earlier_best()


def wish_later(draft: Draft, titles: Mapping[str, Message]) -> Message:
    """Why a task is not later where it stands on its wished day."""
    if draft.anchor and draft.anchor in titles:
        way = phrases.later_too_little if draft.offset < 0 else phrases.later_keeps_step
        return way(task=titles[draft.anchor])
    return phrases.later_less_time()


def conflict_reasons(
    conflict: Conflict | tuple[Constraint, ...], titles: Mapping[str, Message]
) -> tuple[Message, ...]:
    """The rules that cannot all hold, each once, with every task it speaks of."""
    constraints = conflict.constraints if isinstance(conflict, Conflict) else conflict
    tasks: dict[Message, dict[Message, None]] = {}
    for constraint in constraints:
        node = constraint.node if isinstance(constraint, Allowed) else constraint.after
        title = titles.get(task_of_node(node), said(node))
        tasks.setdefault(said(constraint.reason.text), {})[title] = None
    conflicts = tuple(
        phrases.conflict(tasks=_listed(tuple(names)), reason=reason)
        for reason, names in tasks.items()
    )
    return conflicts or (phrases.too_few_days(),)


def _listed(titles: tuple[Message, ...]) -> Listed:
    """Titles as a list; those that differ in their number alone name what they share once:
    "Top-dress 1, 2 and 3"."""
    first, *others = (dict(title.values) for title in titles)
    numbered = all(title.key == NUMBERED for title in titles)
    if others and numbered and all(other["name"] == first["name"] for other in others):
        return Listed((titles[0], *(other["number"] for other in others)))
    return Listed(titles)
