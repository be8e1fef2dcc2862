"""A request for marks that has run out binds what it served no longer."""

from datetime import date, timedelta

import pytest

from campaigns.wet_seasons import begun
from network_problems import allowed, lag
from planning import kind
from turfplan.planning.marks_again import _binds
from turfplan.records.constraints import Constraint

REQUEST, WORK = "locate_utilities.1", ("core_aerate.1", "dethatch")


@pytest.mark.parametrize(
    ("constraint", "binds"),
    [
        (lag(REQUEST, "core_aerate.1", 3), True),
        (lag(f"{REQUEST}@end", "dethatch", 3), True),
        (lag(REQUEST, "dethatch@end", 3), True),
        (lag(REQUEST, "topdress.1", 3), False),
        (lag("order_material.1", "core_aerate.1", 3), False),
        (lag("core_aerate.1", REQUEST, 3), False),
        (allowed(REQUEST, (1, 9)), False),
    ],
)
def test_only_lags_from_the_request_to_open_work_bind(constraint: Constraint, binds: bool) -> None:
    """From the task or its last day, to the first or the last day of what it serves."""
    assert _binds(constraint, REQUEST, WORK) is binds


def test_marks_are_asked_for_again_where_rain_leaves_them_no_week_after_the_work() -> None:
    """In time, so that the work waits for nothing; where it has not moved, the first ones do."""
    season = begun("cordoba", "small")
    cut = date(2027, 2, 28)
    season.done_until(cut)
    assert season.go(cut).task("locate_utilities.again") is None
    season.log("rained_off", on=cut)
    plan = season.go(cut + timedelta(1))
    asked, again = plan.task("locate_utilities"), plan.task("locate_utilities.again")
    cores = kind(plan, "core_aerate")[0]
    assert asked is not None and again is not None
    assert (cores.start - asked.end).days > 28 - 7
    assert cut < again.start < cores.start - timedelta(3) and again.is_open
    later = season.go(cut + timedelta(2)).task("locate_utilities.again")
    assert later is not None and later.start == again.start
