"""Volumes of mix as they are spread, weighed, sold and carried: figures reckoned by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turfplan.units import CUBIC_YARD_M3, System
from turfplan.work.material_amounts import (
    counted,
    depth_of_load_mm,
    loose_volume_m3,
    mixture,
    sold_step_m3,
    sold_volume_m3,
    truck_loads_m3,
)


def test_loose_material_is_more_than_settled() -> None:
    """A tenth more for settling: 2 m3 settled are 2.2 m3 loose; without it nothing is added."""
    assert loose_volume_m3(2.0, 0.1) == pytest.approx(2.2)
    assert loose_volume_m3(2.0, 0.0) == 2.0


def test_a_mix_weighs_what_its_parts_weigh() -> None:
    """4 m3 of sand and compost, 3 to 1, at 1600 and 600 kg/m3: 3 and 1 m3, 5400 kg."""
    found = mixture(
        4.0, {"sand": 0.75, "compost": 0.25}, {"sand": 1600.0, "compost": 600.0, "topsoil": 1100.0}
    )
    assert found.loose_m3 == 4.0
    assert found.parts_m3 == {"sand": 3.0, "compost": 1.0}
    assert found.mass_kg == pytest.approx(5400.0)


@pytest.mark.parametrize(
    ("asked", "sold"),
    [(2.0, 2.0), (2.01, 2.25), (2.24, 2.25), (2.25, 2.25), (2.26, 2.5), (0.01, 0.25), (0.0, 0.0)],
)
def test_yards_are_sold_in_quarters(asked: float, sold: float) -> None:
    """Rounded up, never down, and an exact quarter stays."""
    assert sold_volume_m3(asked * CUBIC_YARD_M3, System.US) / CUBIC_YARD_M3 == pytest.approx(sold)


@pytest.mark.parametrize(
    ("asked", "sold"), [(2.0, 2.0), (2.01, 2.1), (2.1, 2.1), (2.19, 2.2), (0.001, 0.1), (0.0, 0.0)]
)
def test_cubic_metres_are_sold_in_tenths(asked: float, sold: float) -> None:
    """Rounded up, never down, and an exact tenth stays."""
    assert sold_volume_m3(asked, System.METRIC) == pytest.approx(sold)


@pytest.mark.parametrize(
    ("volume", "limit", "loads"),
    [
        (9.0, None, (9.0,)),
        (9.0, 9.0, (9.0,)),
        (9.0, 10.0, (9.0,)),
        (9.0, 4.5, (4.5, 4.5)),
        (9.0, 4.0, (3.0, 3.0, 3.0)),
        (9.0, 8.9, (4.5, 4.5)),
    ],
)
def test_loads_are_equal_and_none_is_over_the_limit(
    volume: float, limit: float | None, loads: tuple[float, ...]
) -> None:
    """As few loads as the limit allows."""
    assert truck_loads_m3(volume, limit) == pytest.approx(loads)


def test_loads_are_sold_in_steps_and_add_up_to_the_order() -> None:
    """7.25 yards under a limit of 6 are 3.75 and 3.5, not twice 3.625; a limit that two equal loads
    keep but whole steps do not takes a third; no step, or none that fits, leaves them equal.
    """
    assert truck_loads_m3(7.25, 6.0, 0.25) == pytest.approx((3.75, 3.5))
    assert truck_loads_m3(7.25, 3.7, 0.25) == pytest.approx((2.5, 2.5, 2.25))
    assert truck_loads_m3(9.1, 4.0, 0.1) == pytest.approx((3.1, 3.0, 3.0))
    assert truck_loads_m3(0.5, 0.2, 0.25) == pytest.approx((0.5 / 3,) * 3)
    assert truck_loads_m3(7.3, 6.0, 0.25) == pytest.approx((3.65, 3.65))


@given(st.integers(1, 400), st.floats(0.5, 20.0), st.sampled_from(System))
def test_no_load_is_over_the_limit_and_none_is_lost(
    steps: int, limit: float, system: System
) -> None:
    """Whatever is ordered: all loads are whole steps, within the limit, and add up."""
    step = sold_step_m3(system)
    loads = truck_loads_m3(steps * step, limit, step)
    assert sum(loads) == pytest.approx(steps * step)
    assert max(loads) <= limit + 1e-6 and max(loads) - min(loads) <= step + 1e-6
    if limit >= step:
        assert all(load / step == pytest.approx(round(load / step), abs=1e-6) for load in loads)


def test_a_quoted_load_lies_so_deep() -> None:
    """1.1 m3 loose at a tenth for settling is 1 m3 settled: on 100 m2 ten millimetres."""
    assert depth_of_load_mm(1.1, 100.0, 0.1) == pytest.approx(10.0)
    assert depth_of_load_mm(3.0, 200.0, 0.0) == pytest.approx(15.0)


@pytest.mark.parametrize(
    ("total", "each", "count"),
    [(1.0, 0.1, 10), (1.01, 0.1, 11), (0.99, 0.1, 10), (0.3, 0.1, 3), (0.0, 0.1, 0)],
)
def test_never_too_few_are_counted(total: float, each: float, count: int) -> None:
    """The last barrow is part full; an exact number is no more than that, floats or not."""
    assert counted(total, each) == count
