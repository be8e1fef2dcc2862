"""Plants go in where they are asked for, and where a lawn is made anew of grass without seed."""

from typing import Any

import pytest

from planning import brief_of, first, kind, plan_of
from turfplan.files.reading.book import load_book
from turfplan.work.planted import plants

BOOK = load_book()


@pytest.mark.parametrize(
    ("seeding", "planted"),
    [
        ({"intent": "plant", "species": "zoysia"}, True),
        ({"intent": "renovate", "species": "zoysia"}, False),
        ({"intent": "renovate", "species": "zoysia", "form": "sod"}, True),
        ({"intent": "renovate", "species": "st_augustine"}, True),
        ({"intent": "overseed", "species": "zoysia", "form": "sod"}, False),
        ({"intent": "none"}, False),
    ],
)
def test_a_lawn_made_anew_is_planted_by_its_grass_or_its_form(
    seeding: dict[str, Any], *, planted: bool
) -> None:
    """Seed goes in where neither asks for plants."""
    assert plants(brief_of({"seeding": seeding}), BOOK) is planted


@pytest.mark.parametrize("grass", ["st_augustine", "bermuda_hybrid"])
def test_what_grows_is_killed_and_cleared_before_plants_of_a_lawn_made_anew(grass: str) -> None:
    """Twice, with a look between; then it is filled and planted, and never called sown."""
    plan = plan_of(
        {
            "place": {"postal_code": "32801"},
            "lawn": {"grass": "bahia", "condition": "thin"},
            "seeding": {"intent": "renovate", "species": grass},
        }
    )
    planted = first(plan, "plant")
    for operation in ("kill_stand", "clear_stand", "fill"):
        assert all(task.end <= planted.start for task in kind(plan, operation)), operation
        assert kind(plan, operation), operation
    assert not kind(plan, "seed") and not kind(plan, "starter_feed")
