"""What was bought for work that is done is settled with it."""

from datetime import date
from typing import Any

import pytest

from sample_plan import sample_plan
from turfplan.planning.settled_by_work import bought_for_done
from turfplan.records.plan_task import Role, Task

DAY = date(2027, 9, 4)


def task(name: str, *roles: Role, **values: Any) -> Task:
    """A task of some roles on the day."""
    pattern = sample_plan().tasks[0]
    given = {"id": name, "roles": roles, "start": DAY, "end": DAY, "closed": None, **values}
    return pattern.model_copy(update=given)


SOWN = task("overseed", "sowing", depends_on=("collect.seed", "mow_low.1", "nobody"))


@pytest.mark.parametrize("role", ["ordering", "calling", "collecting", "delivery"])
def test_buying_is_done_with_the_work(role: Role) -> None:
    """By its own day, or that of the work where the work came first; other work is not."""
    tasks = {"overseed": SOWN, "mow_low.1": task("mow_low.1", "low_cut")}
    tasks["collect.seed"] = task("collect.seed", role)
    day = DAY.toordinal()
    assert bought_for_done(tasks, {"overseed": day + 3}, ()) == {"collect.seed": day}
    assert bought_for_done(tasks, {"overseed": day - 3}, ()) == {"collect.seed": day - 3}
    assert bought_for_done(tasks, {"mow_low.1": day}, ()) == {}


def test_what_is_known_otherwise_stays_as_it_is() -> None:
    """Done, skipped, refused or dropped; what was settled so before stays settled."""
    tasks = {"overseed": SOWN, "collect.seed": task("collect.seed", "collecting")}
    day = DAY.toordinal()
    assert bought_for_done(tasks, {"overseed": day, "collect.seed": day - 9}, ()) == {}
    assert bought_for_done(tasks, {"overseed": day}, {"collect.seed"}) == {}
    for closed, found in (("dropped", {}), ("skipped", {}), ("done", {"collect.seed": day})):
        tasks["collect.seed"] = task("collect.seed", "collecting", closed=closed)
        assert bought_for_done(tasks, {"overseed": day, "gone": day}, ()) == found


def test_what_came_was_ordered() -> None:
    """The order of a load that a pass was spread from, though neither was written down."""
    tasks = {
        "topdress.1": task("topdress.1", "spreading", depends_on=("delivery.1",)),
        "delivery.1": task("delivery.1", "delivery", depends_on=("order_material.1",)),
        "order_material.1": task("order_material.1", "ordering"),
    }
    day = DAY.toordinal()
    both = {"delivery.1": day, "order_material.1": day}
    assert bought_for_done(tasks, {"topdress.1": day}, ()) == both
    assert bought_for_done(tasks, {"topdress.1": day}, {"delivery.1"}) == {}
