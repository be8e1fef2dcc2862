"""Room for a heap: what lies at once is no more than there is ground for."""

import math

import pytest

from planning import kind, plan_of
from told import told
from turfplan.units import CUBIC_YARD_M3
from turfplan.work.heap import cone_area_m2, cone_m3

FOOT_M = 0.3048


def test_a_heap_is_a_cone() -> None:
    """A round of 3 m across under sides of 2 in 3 is 1 m high and holds a third of its cylinder;
    the ground of a volume is the way back.
    """
    area = math.pi * 1.5**2
    assert cone_m3(area, 2 / 3) == pytest.approx(area * 1.0 / 3)
    for volume in (0.5, 3.0, 12.0):
        assert cone_m3(cone_area_m2(volume, 0.67), 0.67) == pytest.approx(volume)


def test_the_room_is_asked_for_with_what_is_needed() -> None:
    """Nobody said: the largest load and its ground stand among the assumptions; bags need none."""
    asked = [told(note) for note in plan_of().assumptions if note.key == "heap.ask_for_room"]
    assert len(asked) == 1 and "ft²" in asked[0] and "heap_area" in asked[0]
    for change in ({"delivery": {"heap_area": "300 ft2"}}, {"delivery": {"form": "bags"}}):
        assert not [n for n in plan_of(change).assumptions if n.key == "heap.ask_for_room"]


def test_small_room_makes_more_and_smaller_deliveries() -> None:
    """A pass that takes several days comes strip by strip, no load larger than there is room for;
    nothing is lost of the whole."""
    slow = {"work": {"people": 1, "hours_per_day": 6}}
    wide, narrow = plan_of(slow), plan_of(slow, {"delivery": {"heap_area": "110 ft2"}})
    room_m3 = cone_m3(110 * FOOT_M**2, 0.67)
    brought = [[line.value for line in p.order if line.item == "mix"] for p in (wide, narrow)]
    assert len(brought[1]) > len(brought[0]) and max(brought[0]) > room_m3
    # Rounding up to what is sold, and the touch-up's own, come beside what is spread at once.
    assert max(brought[1]) <= room_m3 + 0.5 * CUBIC_YARD_M3
    assert sum(brought[1]) >= sum(brought[0]) - 0.25 * CUBIC_YARD_M3


def test_a_load_without_room_is_told_at_its_delivery() -> None:
    """A pass of one day cannot be divided: the delivery says how much ground is missing."""
    plan = plan_of({"delivery": {"heap_area": "60 ft2"}})
    for task in kind(plan, "delivery"):
        said = [told(c) for c in task.cautions if c.key == "heap.too_large"]
        assert len(said) == 1 and "60 ft²" in said[0]
    assert any(n.rank == "damage" for n in plan.ranked if n.text.key == "heap.too_large")
    metric = {
        "lawn": {"area": "450 m2", "grass": "perennial_ryegrass"},
        "place": {"postal_code": None, "latitude": 52.4, "longitude": 9.7, "country": "DE"},
        "leveling": {"depth": "10 mm"},
        "delivery": {"heap_area": "40 m2"},
    }
    assert not any(c.key == "heap.too_large" for t in plan_of(metric).tasks for c in t.cautions)
