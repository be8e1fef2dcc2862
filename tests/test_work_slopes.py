"""A slope as rules reckon with it."""

import pytest

from planning import brief_of
from test_work_campaigns import setting_of
from turfplan.work.slopes import slope_share


@pytest.mark.parametrize(("percent", "share"), [(None, 0.0), (0, 0.0), (10, 0.1), (25, 0.25)])
def test_ten_percent_is_a_tenth(percent: float | None, share: float) -> None:
    """And none where nobody said."""
    assert slope_share(setting_of(brief_of({"site": {"slope_percent": percent}}))) == share
