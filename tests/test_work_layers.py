"""A fill of several depths, divided into passes that people can measure."""

import pytest

from turfplan.units import INCH_MM, System
from turfplan.work.layers import (
    _depths,
    _layers,
    divided,
    measurable_mm,
    passes_needed,
    sessions_of,
)


@pytest.mark.parametrize(
    ("fill", "plain", "last", "least", "count"),
    [
        (10.0, 10.0, 10.0, 1, 1),
        (10.1, 10.0, 10.0, 1, 2),
        (20.0, 10.0, 10.0, 1, 2),
        (25.0, 10.0, 5.0, 1, 3),
        (25.1, 10.0, 5.0, 1, 4),
        (5.0, 10.0, 5.0, 1, 1),
        (5.0, 10.0, 10.0, 3, 3),
        (31.0, 10.0, 10.0, 3, 4),
        (30.0, 10.0, 10.0, 3, 3),
    ],
)
def test_the_fewest_passes_carry_a_fill(
    fill: float, plain: float, last: float, least: int, count: int
) -> None:
    """All but the last within the one limit, the last within the other."""
    assert passes_needed(fill, plain, last, least) == count


def test_one_pass_is_the_least() -> None:
    """Where nothing else is asked for."""
    assert passes_needed(1.0, 10.0, 10.0) == 1


@pytest.mark.parametrize(
    ("total", "count", "depths"),
    [
        (30.0, 3, [10, 10, 10]),
        (20.0, 3, [7, 7, 6]),  # 6.67 is measured as 7
        (22.0, 3, [7, 7, 8]),  # 7.33 as 7
        (10.0, 3, [5, 5]),  # no pass below half of what the turf bears
        (11.0, 3, [5, 5, 1]),
        (28.0, 3, [9, 9, 10]),
        (10.0, 1, [10]),
        (4.0, 1, [4]),
    ],
)
def test_depths_are_measured_and_the_last_takes_the_rest(
    total: float, count: int, depths: list[float]
) -> None:
    """In millimetres, where turf bears ten."""
    assert _depths(total, count, 10.0, 10.0, 10.0, 1.0) == pytest.approx(depths)


def test_the_others_take_more_where_the_last_bears_less() -> None:
    """As much as they may, measured or not."""
    assert _depths(22.0, 3, 10.0, 5.0, 10.0, 1.0) == pytest.approx([8.5, 8.5, 5])
    assert _depths(30.0, 3, 10.0, 5.0, 10.0, 1.0) == pytest.approx([10, 10, 10])
    assert _depths(8.0, 1, 10.0, 5.0, 10.0, 1.0) == [8]
    # Half of the least that a part bears: 12 mm are three of 4 where one bears 8 mm.
    assert _depths(12.0, 3, 10.0, 10.0, 8.0, 1.0) == pytest.approx([4, 4, 4])
    assert _depths(9.0, 3, 10.0, 10.0, 7.0, 1.0) == pytest.approx([4, 4, 1])


def test_eighths_of_an_inch_are_measured_too() -> None:
    """An inch and a half in four passes of three eighths; none below two of them."""
    eighth = INCH_MM / 8
    even = _depths(12 * eighth, 4, 4 * eighth, 4 * eighth, 4 * eighth, eighth)
    assert even == pytest.approx([3 * eighth] * 4)
    thin = _depths(10.0, 3, 4 * eighth, 4 * eighth, 4 * eighth, eighth)
    assert thin == pytest.approx([2 * eighth, 10 - 2 * eighth])
    assert _depths(14.0, 2, 10.0, 5.0, 10.0, 1.0) == pytest.approx([9, 5])


def test_each_part_takes_no_more_than_the_deepest_its_cap_and_what_it_wants() -> None:
    """20 mm and 12 mm in passes of ten, of which the second bears eight and at last nine."""
    limits = [(10.0, 10.0), (8.0, 9.0)]
    assert _layers([20.0, 12.0], limits, [10.0, 10.0]) == [[10, 8], [10, 4]]
    assert _layers([20.0, 17.0], limits, [10.0, 10.0]) == [[10, 8], [10, 9]]
    assert _layers([20.0, 17.1], limits, [10.0, 10.0]) is None
    assert _layers([20.0, 5.0], limits, [10.0, 10.0]) == [[10, 5], [10, 0]]
    assert _layers([20.0], [(10.0, 10.0)], [10.1, 9.9]) is None
    assert _layers([19.0], [(10.0, 9.0)], [10.0, 9.0]) == [[10], [9]]
    assert _layers([20.0], [(10.0, 9.0)], [10.0, 10.0]) is None
    assert _layers([10.0, 6.0], limits, [4.0, 6.0]) == [[4, 4], [6, 2]]


def test_a_fill_is_divided_into_the_fewest_passes_that_all_parts_bear() -> None:
    """A second part that bears less asks for more of them; at least as many as are asked for."""
    assert divided([20.0], [(10.0, 10.0)], 1, 1.0) == ([10, 10], [[10], [10]])
    assert divided([20.0], [(10.0, 10.0)], 4, 1.0)[0] == [5, 5, 5, 5]
    depths, layers = divided([20.0, 18.0], [(10.0, 10.0), (6.0, 6.0)], 1, 1.0)
    assert len(depths) == 3 and sum(depths) == pytest.approx(20)
    assert sum(layer[1] for layer in layers) == pytest.approx(18)
    assert max(layer[1] for layer in layers) <= 6 + 1e-6


def test_passes_go_to_the_sessions_with_most_room_left() -> None:
    """One in each, then where there is most, earlier first."""
    assert sessions_of(2, [3, 3]) == [1, 2]
    assert sessions_of(3, [3, 3]) == [1, 1, 2]
    assert sessions_of(4, [2, 3]) == [1, 1, 2, 2]
    assert sessions_of(3, [2, 3]) == [1, 2, 2]
    assert sessions_of(4, [1, 4]) == [1, 2, 2, 2]
    assert sessions_of(1, [3, 3]) == [1]


def test_layers_are_measured_in_eighths_of_an_inch_or_millimetres() -> None:
    """As the reader measures."""
    assert measurable_mm(System.US) == INCH_MM / 8 and measurable_mm(System.METRIC) == 1.0
