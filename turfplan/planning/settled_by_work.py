"""What was bought for work that is done is settled with it, though nobody wrote it down."""

from collections.abc import Collection, Mapping
from typing import Final

from turfplan.records.plan_task import Role, Task

BUYING: Final[tuple[Role, ...]] = ("ordering", "calling", "collecting", "delivery")


def bought_for_done(
    tasks: Mapping[str, Task], done: Mapping[str, int], known: Collection[str]
) -> dict[str, int]:
    """The day (an ordinal) of each order, call, trip or delivery that work which is done hung on:
    its own, or that of the work where that came first. `known` are tasks of which something else is
    written."""
    found: dict[str, int] = {}
    rest = list(done.items())
    while rest:
        name, day = rest.pop()
        for before in tasks[name].depends_on if name in tasks else ():
            bought = tasks.get(before)
            if bought is None or not bought.plays(*BUYING) or bought.closed not in (None, "done"):
                continue
            own = min(bought.end.toordinal(), day)
            if before not in done and before not in known and own < found.get(before, own + 1):
                # What came was ordered, too.
                found[before] = own
                rest.append((before, own))
    return found
