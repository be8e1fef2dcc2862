"""Lets what is brought or fetched for a lawn come on the day on which it is for another lawn of the
house: one order, one delivery, one trip.

What is brought early waits no longer than a heap may, and nothing else moves for it.
"""

from collections.abc import Mapping, Sequence
from typing import Final

from turfplan.records.book_names import FactName
from turfplan.work.drafts import Draft
from turfplan.work.lawn import ResolvedLawn

# What can be brought, or fetched, for several lawns at once.
VISITS: Final = ("delivery", "collect")
KEEPS: FactName = "order.storage_days"


def wished_with_others(
    setting: ResolvedLawn, drafts: Sequence[Draft], days: Mapping[str, int]
) -> dict[str, int]:
    """The days on which goods would come with those of another lawn, by the tasks that bring or
    fetch them, where that is no earlier than they keep; `days` are those without that."""
    shared: dict[str, int] = {}
    for draft in drafts:
        if draft.operation not in VISITS or (draft.operation == "delivery" and draft.load is None):
            continue
        own = days[draft.start_node]
        first, last = _first_use(draft, drafts, days), _last_use(draft, drafts, days)
        since = last - setting.days(KEEPS)
        found = [
            day
            for name, day in setting.labour.elsewhere.visits
            if name == draft.operation and since <= day < first
        ]
        if found and own not in found:
            shared[draft.id] = min(found, key=lambda day: (abs(day - own), day))
    return shared


def with_followers(
    drafts: Sequence[Draft], days: Mapping[str, int], shared: Mapping[str, int]
) -> dict[str, int]:
    """The wished days of what is shared, and of what goes before or after it in step: its order,
    its call, the look at its heap."""
    wishes = dict(shared)
    for draft in drafts:
        with_it = [
            other
            for other in drafts
            if other.id in shared
            and (
                other.id in draft.buys_for
                or draft.anchor == other.id
                or (draft.operation == "order_material" and other.load in draft.loads)
                or (draft.operation == "dry_material" and draft.load == other.load)
            )
        ]
        if draft.id not in shared and with_it:
            first = min(with_it, key=lambda other: days[other.start_node])
            wishes[draft.id] = days[draft.start_node] + shared[first.id] - days[first.start_node]
    return wishes


def _uses(draft: Draft, drafts: Sequence[Draft], days: Mapping[str, int]) -> list[int]:
    """The first days of the work that something is brought or fetched for; its own day without
    any."""
    used = [
        days[other.start_node]
        for other in drafts
        if (draft.load is not None and draft.load in other.loads and other.load is None)
        and other.operation not in ("order_material", "call")
    ]
    used += [days[name] for name in draft.buys_for if name in days]
    return used or [days[draft.start_node] + 1]


def _first_use(draft: Draft, drafts: Sequence[Draft], days: Mapping[str, int]) -> int:
    return min(_uses(draft, drafts, days))


def _last_use(draft: Draft, drafts: Sequence[Draft], days: Mapping[str, int]) -> int:
    return max(_uses(draft, drafts, days))
