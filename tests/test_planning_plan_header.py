"""What is said beside the tasks."""

import pytest

from planning import plan_of
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
