"""Steps of working days: whatever days of work are known, a later start never ends sooner."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turfplan.records.constraints import DaySet
from turfplan.work.lag_steps import span_step, workday_step

LAST = 60


@pytest.mark.full
@given(
    worked=st.sets(st.integers(0, LAST + 30), max_size=12),
    count=st.integers(0, 6),
)
def test_the_nth_working_day_is_met_also_where_work_goes_on_beyond_the_plan(
    worked: set[int], count: int
) -> None:
    """The step leads to the working day that is counted, and past every known day where there are
    too few.
    """
    step = workday_step(DaySet.of((day, day) for day in worked), 0, LAST, count)
    for day in range(LAST + 1):
        after = sorted(d for d in worked if (d > day if count else d >= day))
        place = max(count - 1, 0)
        if place < len(after):
            assert step(day) == after[place]
        else:
            assert step(day) > max([LAST, *worked])


def test_a_job_of_several_days_ends_on_its_last_working_day() -> None:
    """Three Saturdays of work from the first of them end two weeks later."""
    assert span_step(DaySet(((6, 6), (13, 13), (20, 20), (27, 27))), 0, LAST, 3)(6) == 20
