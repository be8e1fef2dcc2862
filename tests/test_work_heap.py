"""Room for a heap: what lies at once is no more than there is ground for."""

import math
from dataclasses import replace

import pytest

from planning import amount, kind, plan_of
from test_work_campaigns import plain
from told import told, typed
from turfplan.message import Quantity
from turfplan.phrases import heap as phrases
from turfplan.units import CUBIC_YARD_M3
from turfplan.work.heap import ask_for_room, cone_area_m2, cone_m3, heap_room_m3, too_large
from turfplan.work.lawn import ResolvedLawn

FOOT_M = 0.3048


def test_a_heap_is_a_cone() -> None:
    """A round of 3 m across under sides of 2 in 3 is 1 m high and holds a third of its cylinder;
    the ground of a volume is the way back.
    """
    area = math.pi * 1.5**2
    assert cone_m3(area, 2 / 3) == pytest.approx(area * 1.0 / 3)
    for volume in (0.5, 3.0, 12.0):
        assert cone_m3(cone_area_m2(volume, 0.67), 0.67) == pytest.approx(volume)


@pytest.mark.full
def test_the_room_is_asked_for_with_what_is_needed() -> None:
    """Nobody said: the largest load and its ground stand among the assumptions; bags need none."""
    (asked,) = [n for n in plan_of().assumptions if n.key == "heap.ask_for_room"]
    assert "ft²" in told(asked) and "heap_area" in typed(asked)
    for change in ({"delivery": {"heap_area": "300 ft2"}}, {"delivery": {"form": "bags"}}):
        assert not [n for n in plan_of(change).assumptions if n.key == "heap.ask_for_room"]


@pytest.mark.full
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


@pytest.mark.full
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


def with_room(area_m2: float | None) -> ResolvedLawn:
    """The plain lawn with so much ground for a heap."""
    setting = plain()
    delivery = setting.brief.delivery.model_copy(update={"heap_area_m2": area_m2})
    return replace(setting, brief=setting.brief.model_copy(update={"delivery": delivery}))


def open_ground(setting: ResolvedLawn) -> ResolvedLawn:
    """The same lawn without grass."""
    return replace(setting, turf=replace(setting.turf, condition="bare"))


@pytest.mark.full
@pytest.mark.parametrize("days", [1, 2])
def test_a_heap_is_said_to_hold_what_its_delivery_brings(days: int) -> None:
    """The volume of the title, with the rounding and the touch-up, in the caution too; soil for
    hollows counts as any load, and is told by its own weight."""
    plan = plan_of(
        {
            "leveling": {"depth": "0.5 in", "lows": [{"depth": "3 in", "share": 0.1}]},
            "delivery": {"heap_area": "40 ft2"},
            "work": {"people": days},
        }
    )
    loads = kind(plan, "delivery")
    assert any(task.id == "delivery.lifting" for task in loads)
    for task in loads:
        (said,) = [c for c in task.cautions if c.key == "heap.too_large"]
        load = dict(said.values)["load"]
        assert isinstance(load, Quantity)
        assert load.value == pytest.approx(amount(task, "volume"))
        weighed = " ".join(told(c) for c in task.cautions)
        soil = task.id == "delivery.lifting"
        assert ("Dry soil weighs" in weighed) is soil and ("Sand weighs" in weighed) is not soil


def test_room_is_the_cone_on_the_ground_that_was_told() -> None:
    """None where nobody said."""
    slope = plain().book.si("delivery.heap_slope")
    assert heap_room_m3(with_room(12.0)) == cone_m3(12.0, slope)
    assert heap_room_m3(with_room(None)) is None


def test_a_load_beyond_the_room_is_told_with_the_ground_it_needs() -> None:
    """One that just fits is not, nor any where nobody said, nor soil that is tipped where it is
    spread."""
    setting, slope = with_room(12.0), plain().book.si("delivery.heap_slope")
    room = cone_m3(12.0, slope)
    over = room + 0.5
    told_of = phrases.too_large(
        load=Quantity(room + 0.5, "volume", "up"),
        needed=Quantity(cone_area_m2(room + 0.5, slope), "area", "up"),
        area=Quantity(12.0, "area"),
        room=Quantity(room, "volume"),
    )
    assert too_large(setting, over) == (told_of,)
    assert too_large(setting, room) == ()
    assert too_large(open_ground(setting), over) == ()
    assert too_large(with_room(None), over) == ()


def test_the_ground_of_the_largest_delivery_is_asked_for() -> None:
    """Where nobody said, and something is delivered."""
    slope = plain().book.si("delivery.heap_slope")
    asked = phrases.ask_for_room(
        load=Quantity(4.0, "volume", "up"), area=Quantity(cone_area_m2(4.0, slope), "area", "up")
    )
    assert ask_for_room(with_room(None), 4.0) == (asked,)
    assert ask_for_room(open_ground(with_room(None)), 4.0) == ()
    assert ask_for_room(with_room(None), 0.0) == () == ask_for_room(with_room(9.0), 4.0)
