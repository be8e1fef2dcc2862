"""How far mix is wheeled is told where it changes the hours, or would."""

from typing import Any

import pytest

from planning import example, merged, plan_of
from turfplan.files.reading.book import load_book
from turfplan.records.brief import parse_brief
from turfplan.work.wheeling import told_of_wheeling

BOOK = load_book()


def told(**changes: Any) -> list[str]:
    """The keys of what is told of a lawn."""
    return [message.key for message in told_of_wheeling(parse_brief(merged(changes)), BOOK)]


UNKNOWN, FAR = "lawn.wheeling", "lawn.wheeled_far"


@pytest.mark.parametrize(
    ("way", "expected"),
    [(None, [UNKNOWN]), ("15 m", []), ("50 m", []), ("51 m", [FAR]), ("400 ft", [FAR])],
)
def test_a_way_is_told_where_it_is_unknown_or_makes_hours(
    way: str | None, expected: list[str]
) -> None:
    """Up to the way that the figures hold for it makes none."""
    assert told(work={"haul_distance": way}) == expected


def test_nothing_is_wheeled_where_nothing_is_filled() -> None:
    """A lawn that is only sown is told nothing of barrows; one with hollows alone is."""
    assert told(leveling={"depth": "0 in"}) == []
    assert told(leveling={"depth": "0 in", "lows": [{"depth": "2 in", "share": 0.1}]}) == [UNKNOWN]


def test_a_plan_says_from_which_way_on_its_hours_grow() -> None:
    """Among what it assumes; twice the reach takes twice the hours of spreading."""
    far = plan_of({"work": {"haul_distance": "100 m"}})
    near = plan_of({"work": {"haul_distance": "20 m"}})
    spread, wide = (
        sum(task.person_hours for task in plan.tasks if task.operation == "topdress")
        for plan in (near, far)
    )
    assert wide == pytest.approx(2 * spread, rel=0.03)
    assert [m for m in far.assumptions if m.key == FAR and "2 times" in m.text]
    assert not [m for m in near.assumptions if m.key in (FAR, UNKNOWN)]
    assert [m for m in example("southern-hemisphere").assumptions if m.key == UNKNOWN]
