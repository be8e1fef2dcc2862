"""A request for marks that has run out binds what it served no longer."""

import pytest

from network_problems import allowed, lag
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
