"""The most nitrogen at once by the law of a state: at which feedings it holds, and what is said."""

from typing import Any

import pytest

import water_cases as cases
from planning import plan_of
from told import told
from turfplan.work.feeding.limits import limits_of, told_of_limits

BOOK = cases.book()
POUND = 4.88242763638305  # of a pound to 1,000 ft2, g/m2


def in_state(state: str, country: str = "US", **parts: Any) -> Any:
    """The brief of a lawn in a state."""
    brief = cases.brief(**parts)
    place = brief.place.model_copy(update={"country": country, "state": state})
    return brief.model_copy(update={"place": place})


@pytest.mark.parametrize(
    ("state", "total", "quick"),
    [("PA", 0.9, 0.7), ("NJ", 0.9, 0.7), ("MD", 0.9, 0.7), ("FL", None, 0.7), ("OH", None, None)],
)
def test_limits_are_those_of_the_state(state: str, total: Any, quick: Any) -> None:
    """Of the state alone: a province of the same letters has none."""
    limits = limits_of(in_state(state), BOOK)
    found = [None if limit is None else limit.si / POUND for limit in (limits.total, limits.quick)]
    assert found == [part and pytest.approx(part) for part in (total, quick)]
    elsewhere = limits_of(in_state(state, "AU"), BOOK)
    assert elsewhere.total is None and elsewhere.quick is None


def test_what_is_said_names_limits_source_and_the_share_that_must_be_slow() -> None:
    """The share only where quick nitrogen alone would be too much, and no bag is judged."""
    (said,) = map(told, told_of_limits(in_state("PA"), BOOK, 0.9 * POUND))
    assert "0.9 lb/1,000 ft² of nitrogen and 0.7 lb/1,000 ft² of quick" in said
    assert "Pennsylvania" in said and "release 23% or more" in said
    (small,) = map(told, told_of_limits(in_state("PA"), BOOK, 0.7 * POUND))
    (bag,) = map(told, told_of_limits(in_state("PA", feeding={"analysis": "30-0-0"}), BOOK, POUND))
    assert "release" not in small and "release" not in bag
    (quick,) = map(told, told_of_limits(in_state("FL"), BOOK, POUND))
    assert "read it: 0.7 lb/1,000 ft² of quick" in quick and "release 30% or more" in quick
    assert told_of_limits(in_state("OH"), BOOK, POUND) == ()
    assert told_of_limits(in_state("PA"), BOOK, 0.0) == ()


@pytest.mark.parametrize("closed", [None, []])
@pytest.mark.parametrize("place", [{"postal_code": "15212"}, {"postal_code": "07030"}])
def test_a_plan_keeps_to_the_limit_of_the_state_of_its_postal_code(place: Any, closed: Any) -> None:
    """Starter and feedings, also where the owner says that no days are closed."""
    local = {} if closed is None else {"nitrogen_blackouts": closed}
    renewed = {"lawn": {"condition": "patchy"}, "seeding": {"intent": "renovate"}}
    plan = plan_of(renewed, {"place": place, "local": local})
    rates = [
        amount.value
        for task in plan.tasks
        if task.plays("feeding")
        for amount in task.amounts
        if amount.item == "nitrogen"
    ]
    assert rates and max(rates) <= 0.9 * POUND + 1e-3
    assert any(task.plays("starter") for task in plan.tasks)
    assert any("the state lets anyone give at once" in str(said) for said in plan.cautions)
