"""Days in which ground is filled: none too short to be of use."""

from datetime import date, timedelta

import pytest

from planning import brief_of
from test_work_campaigns import setting_of
from turfplan.work.drafts import OpenDays
from turfplan.work.ground_fill import _within

SETTING = setting_of(brief_of())
LEAST = SETTING.days("windows.least_days")
FIRST, LAST = date(2027, 5, 1), date(2027, 6, 30)


@pytest.mark.parametrize(
    ("begin", "days", "open_for"),
    [
        (date(2027, 5, 10), LEAST, LEAST),
        (date(2027, 5, 10), LEAST - 1, None),
        (date(2027, 5, 10), 40, 40),
        (FIRST - timedelta(20), 20 + LEAST, LEAST),
        (FIRST - timedelta(20), 19 + LEAST, None),
        (LAST - timedelta(LEAST), 30, LEAST),
        (LAST - timedelta(LEAST - 1), 30, None),
    ],
)
def test_a_stretch_that_is_shorter_than_the_least_window_is_none(
    begin: date, days: int, open_for: int | None
) -> None:
    """Cut to the days of the fill, it lasts so many from its first to its last day; its best day
    lies inside.
    """
    model = SETTING.openings.windows[0]
    opens = OpenDays(
        "fill",
        "spring",
        begin,
        begin + timedelta(days),
        begin,
        model.reason,
        model.source,
        "workable",
    )
    best = date(2027, 5, 12)
    found = list(_within(SETTING, [opens], FIRST, LAST, best))
    assert [(w.end - w.start).days for w in found] == ([] if open_for is None else [open_for])
    for window in found:
        assert window.start == max(FIRST, begin)
        assert window.best == min(max(best, window.start), window.end)
