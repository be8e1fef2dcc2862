"""Turns chains of binding constraints into sentences that a homeowner understands.

No sentence quotes the date of another task: it would change whenever that task moves.
"""

from collections.abc import Mapping

from turfplan.constraints import Allowed, Constraint
from turfplan.network import Chain, Conflict
from turfplan.rules.days import WORK_DAYS
from turfplan.rules.draft import Draft

LONGEST_CHAIN = 4
NEAREST_DAY = "It is the working day nearest to its best one."


def days_off_alone(chain: Chain) -> bool:
    """True where nothing but days without work keeps a task from moving by a few: that says little of why it is then."""
    if not chain or chain[0].constraint is None:
        return False
    return all(
        link.node == chain[0].node
        and (link.kind == "wish" or (link.constraint is not None and link.constraint.reason.rule == WORK_DAYS))
        for link in chain
    )


def reasons(chain: Chain, titles: Mapping[str, str], wish: str, nothing: str) -> tuple[str, ...]:
    """The sentences of a chain, nearest cause first; `wish` speaks where nothing but the ideal holds the day."""
    found: list[str] = []
    start = chain[0].node.removesuffix("@end") if chain else ""
    away = False
    for link in chain:
        node = link.node.removesuffix("@end")
        away = away or node != start
        if away and node == start:
            # The chain has come back to the task itself: the rest would only say it again.
            break
        if link.kind == "wish":
            found.append(wish if node == start else f"“{titles.get(node, node)}” is on its best day.")
        elif link.constraint is not None and link.constraint.reason.text:
            other = (link.other or "").removesuffix("@end")
            known = titles.get(other) if other != start else None
            found.append(link.constraint.reason.text + (f" (It hangs on “{known}”.)" if known else ""))
        elif link.kind == "fixed":
            found.append("What it hangs on is done.")
        elif link.kind == "horizon":
            found.append("The plan starts then." if link.bound == "not_before" else "The plan ends then.")
    unique = tuple(dict.fromkeys(found))[:LONGEST_CHAIN]
    return unique or (nothing,)


def wish_earlier(draft: Draft, titles: Mapping[str, str]) -> str:
    """Why a task is not earlier where it stands on its wished day."""
    if draft.anchor and draft.anchor in titles:
        way = "in good time for" if draft.offset < 0 else "at the right distance from" if draft.offset > 0 else "with"
        return f"Earlier brings nothing: this day is {way} “{titles[draft.anchor]}”."
    return "It is the best day of its window; earlier is possible but not better."


def wish_later(draft: Draft, titles: Mapping[str, str]) -> str:
    """Why a task is not later where it stands on its wished day."""
    if draft.anchor and draft.anchor in titles:
        if draft.offset < 0:
            return f"Later would leave too little time before “{titles[draft.anchor]}”."
        return f"Later is possible; this day keeps step with “{titles[draft.anchor]}”."
    return "Later is possible inside its window, but the grass has less time after it."


def conflict_sentences(conflict: Conflict | tuple[Constraint, ...], titles: Mapping[str, str]) -> tuple[str, ...]:
    """The rules that cannot all hold, in words, each once, with every task it speaks of."""
    constraints = conflict.constraints if isinstance(conflict, Conflict) else conflict
    tasks: dict[str, dict[str, None]] = {}
    for constraint in constraints:
        node = constraint.node if isinstance(constraint, Allowed) else constraint.after
        title = titles.get(node.removesuffix("@end"), node)
        tasks.setdefault(constraint.reason.text, {})[title] = None
    found = [f"{_listed(tuple(names))}: {text}" for text, names in tasks.items()]
    return tuple(found) or ("The days of the plan are too few for the work.",)


def _listed(titles: tuple[str, ...]) -> str:
    """Titles as a list; those that differ in their number alone name what they share once: "Top-dress 1, 2 and 3"."""
    first, *others = titles
    stem = first.rsplit(" ", 1)[0]
    if others and all(t.rsplit(" ", 1)[0] == stem and t.rsplit(" ", 1)[-1].isdigit() for t in titles):
        others = [t.rsplit(" ", 1)[1] for t in others]
    names = [first, *others]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
