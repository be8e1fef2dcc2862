"""What is said beside the tasks."""

import pytest

from planning import amount, kind, plan_of
from told import all_told
from turfplan.files.reading.book import load_book

LIMIT = 100 * load_book().si("seeding.rebuild_weeds")


@pytest.mark.parametrize(("percent", "told"), [(0, False), (LIMIT, False), (LIMIT + 1, True)])
def test_a_lawn_that_is_mostly_weeds_is_told_so(percent: float, told: bool) -> None:
    """Beyond the share from which it is built anew."""
    plain = all_told(plan_of().cautions)
    more = [
        text
        for text in all_told(plan_of({"site": {"weeds_percent": percent}}).cautions)
        if text not in plain
    ]
    assert any("weeds" in text for text in more) == told


def test_large_fills_tell_how_they_are_moved() -> None:
    """In barrow loads, as many as the passes take in all, where they are moved by hand; by the
    loader where one is at hand, and then no task counts barrows.
    """
    large = {"lawn": {"area": "14000 ft2"}, "leveling": {"depth": "1 in"}}
    by_hand, by_loader = plan_of(large), plan_of(large, {"work": {"machines": ["loader"]}})
    loads = sum(amount(task, "barrow loads") for task in kind(by_hand, "topdress"))
    assert any(f"about {loads:,.0f} barrow loads" in c for c in all_told(by_hand.cautions))
    assert any("move with the loader" in c for c in all_told(by_loader.cautions))
    assert not any("barrow loads" in c for c in all_told(by_loader.cautions))
    assert not any(a.item == "barrow loads" for t in by_loader.tasks for a in t.amounts)
