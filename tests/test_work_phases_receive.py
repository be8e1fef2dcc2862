"""A pass knows the loads that it is spread from; strips have loads of their own."""

from dataclasses import replace
from typing import Any

import pytest

from planning import brief_of, kind, plan_of
from resolved_lawns import setting_of
from turfplan.book.words import book_message
from turfplan.calendar_days import WEEKDAYS
from turfplan.message import Number, as_written
from turfplan.phrases import ground_fill as of_ground
from turfplan.phrases import level as phrases
from turfplan.records.book_names import OperationName, of_material
from turfplan.work.bags import car_trips
from turfplan.work.drafts import Draft, Load
from turfplan.work.labour import hours_of_trucks, person_hours, working_days
from turfplan.work.lawn import Labour, ResolvedLawn
from turfplan.work.operations import PASS, Timing, Wording, make
from turfplan.work.phases.receive import with_loads


def test_passes_are_served_by_whole_loads() -> None:
    """Two passes share the first; the third has one for each half of its strips, whose days are
    kept apart. Each load is received and kept dry.
    """
    setting = setting_of(brief_of())
    passes = [
        make(
            setting,
            "topdress",
            str(number),
            timing=Timing(PASS, session=1, position=number),
            wording=Wording(as_written("to test")),
        )
        for number in (1, 2, 3)
    ]
    loads = (
        Load(1, 1, (1, 2), 4.0),
        Load(2, 1, (3,), 2.0, (1, 2), order=2),
        Load(3, 1, (3,), 2.0, (3, 4), order=2),
    )
    drafts = {draft.id: draft for draft in with_loads(setting, passes, loads)}
    assert [drafts[f"topdress.{n}"].loads for n in (1, 2, 3)] == [(1,), (1,), ()]
    assert [drafts[f"delivery.{n}"].load for n in (1, 2, 3)] == [1, 2, 3]
    assert [drafts[f"dry_material.{n}"].load for n in (1, 2, 3)] == [1, 2, 3]
    early, late = -setting.days("wish.delivery"), setting.days("wish.delivery")
    assert [drafts[f"delivery.{n}"].offset for n in (1, 2, 3)] == [early, early, late]


SETTING = setting_of(brief_of())
COMPOST = setting_of(brief_of({"leveling": {"material": "compost", "depth": "0.25 in"}}))
SAND = setting_of(brief_of({"leveling": {"material": "sand", "depth": "0.5 in"}}))


def task(operation: OperationName, position: int = 1, loose_m3: float = 0.0) -> Draft:
    """A task of a session."""
    timing = Timing(PASS, session=1, position=position)
    made = make(SETTING, operation, str(position), timing=timing, wording=Wording(as_written("w")))
    return replace(made, loose_m3=loose_m3)


def received(setting: ResolvedLawn, *loads: Load) -> dict[str, Draft]:
    """What orders, receives and keeps the loads of a pass."""
    return {draft.id: draft for draft in with_loads(setting, [task("topdress")], loads)}


def test_a_load_of_damp_compost_is_looked_at_and_kept_otherwise() -> None:
    """Sand and soil are bone dry; the book's own words hold for them."""
    damp = received(COMPOST, Load(1, 1, (1,), 4.0))
    tip = book_message(SETTING.book, "operations.delivery.how.2")
    assert damp["delivery.1"].how == (phrases.compost_look(), tip)
    assert damp["delivery.1"].go == phrases.compost_load_go()
    fact = SETTING.book.fact(of_material("compost", "moisture"))
    heap = phrases.compost_heap(
        least=Number(fact.low_si, "percent"), most=Number(fact.high_si, "percent")
    )
    assert damp["dry_material.1"].how == (heap, phrases.compost_dry())
    assert damp["dry_material.1"].title == phrases.compost_title()
    dry = received(SAND, Load(1, 1, (1,), 4.0))
    assert dry["delivery.1"].why == phrases.delivery() and dry["delivery.1"].how is None
    assert dry["dry_material.1"].why == phrases.dry_material()
    assert dry["dry_material.1"].how is None
    assert (dry["dry_material.1"].anchor, dry["dry_material.1"].offset) == ("delivery.1", 1)


def test_a_load_comes_by_trucks_and_its_hours_are_theirs() -> None:
    """Beside those of the delivery itself."""
    load = received(SAND, Load(1, 1, (1,), 40.0))["delivery.1"]
    entry = SAND.book.operations["delivery"]
    by_hand = person_hours(SAND, entry, SAND.plot.area_m2, 40.0)
    assert load.person_hours == round(by_hand + hours_of_trucks(SAND, 40.0), 2)
    assert (load.loose_m3, load.anchor, load.position, load.session) == (40.0, "topdress.1", 1, 1)


def test_the_first_strips_have_their_load_ahead_and_later_ones_after() -> None:
    """Of the strips from the second on the load comes while others are done."""
    wished = SETTING.days("wish.delivery")
    first = received(SAND, Load(1, 1, (1,), 2.0, (1, 2)))["delivery.1"]
    later = received(SAND, Load(2, 1, (1,), 2.0, (2, 3)))["delivery.2"]
    assert (first.offset, later.offset) == (-wished, wished)


def test_bags_are_fetched_by_car_and_need_no_order() -> None:
    """As many trips as the car takes, at a quarter of an hour or what the book says each."""
    found = received(SAND, Load(1, 1, (1,), 0.9, bags=True))
    assert set(found) == {"topdress.1", "delivery.1"}
    bags = found["delivery.1"]
    trips = car_trips(SAND, {"sand": 1.0}, 0.9)
    hours = SAND.book.si("labour.delivery") / 60 * trips
    assert trips > 1 and bags.bags and bags.load == 1
    assert bags.person_hours == round(hours, 2) and bags.why == phrases.bags()
    assert bags.duration_days == working_days(SAND, hours)
    assert bags.how == (phrases.bags_shop(), phrases.bags_trips(n=trips), phrases.bags_open())
    slow = replace(SAND, labour=Labour(1, round(hours / 2, 3) or 1.0, 15.0, 7))
    assert received(slow, Load(1, 1, (1,), 0.9, bags=True))["delivery.1"].duration_days >= 2


def lifted(loose_m3: float) -> dict[str, Draft]:
    """What orders and receives the soil of hollows."""
    lift = task("lift_and_fill", 1, loose_m3)
    return {d.id: d for d in with_loads(SETTING, [lift], ())}


def test_the_soil_of_hollows_is_ordered_and_comes_a_day_ahead() -> None:
    """Moist; it is a load beside those of the mix."""
    found = lifted(6.0)
    order, soil = found["order_material.lifting"], found["delivery.lifting"]
    ahead = SETTING.labour.lead_days + SETTING.days("wish.order_ahead")
    assert (order.anchor, order.offset, order.loads) == ("delivery.lifting", -ahead, (0,))
    assert (soil.anchor, soil.offset, soil.load) == ("lift_and_fill.1", -1, 0)
    assert soil.why == phrases.soil() and soil.go == of_ground.delivery_go()
    entry = SETTING.book.operations["delivery"]
    by_hand = person_hours(SETTING, entry, SETTING.plot.area_m2, 6.0)
    assert soil.person_hours == round(by_hand + hours_of_trucks(SETTING, 6.0), 2)


def test_a_little_soil_for_hollows_is_fetched_in_bags() -> None:
    """Nobody orders it, and no mix is kept apart of it."""
    found = lifted(0.1)
    assert "order_material.lifting" not in found
    soil = found["delivery.lifting"]
    trips = car_trips(SETTING, {"topsoil": 1.0}, 0.1)
    assert soil.bags and soil.why == phrases.soil_bags()
    assert soil.how == (phrases.bags_shop(), phrases.bags_trips(n=trips))


def test_on_open_ground_only_loads_of_bags_are_fetched() -> None:
    """Of the deliveries that its lifts made; nothing else is."""
    bare = replace(SETTING, turf=replace(SETTING.turf, condition="bare"))
    drafts = [task("delivery", 1, 0.2), task("delivery", 2, 9.0), task("fill", 1, 0.2)]
    loads = (Load(1, 1, (1,), 0.2, bags=True), Load(2, 2, (2,), 9.0, order=2))
    found = with_loads(bare, drafts, loads)
    assert [(d.id, d.bags) for d in found] == [
        ("delivery.1", True),
        ("delivery.2", False),
        ("fill.1", False),
        ("order_material.2", False),
    ]


def test_trips_for_soil_are_those_of_all_of_it() -> None:
    """Not of more: where half as much again would be another trip, it is none."""
    volume = next(
        v / 100
        for v in range(1, 60)
        if car_trips(SETTING, {"topsoil": 1.0}, v / 100)
        != car_trips(SETTING, {"topsoil": 1.5}, v / 100)
    )
    soil = lifted(volume)["delivery.lifting"]
    trips = car_trips(SETTING, {"topsoil": 1.0}, volume)
    assert soil.bags and soil.how is not None
    assert soil.how[1] == phrases.bags_trips(n=trips)


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"leveling": {"depth": "0.5 in"}}, True),
        ({"delivery": {"allowed_weekdays": ["tue"]}}, False),
        ({"calendar": {"weekdays": list(WEEKDAYS)}}, False),
        ({"work": {"by": "contractor"}}, False),
    ],
)
def test_somebody_must_be_there_where_suppliers_come_on_days_off(
    changes: dict[str, Any], told: bool
) -> None:
    """A load on a weekday of a household that works at week-ends is told; one on days that were
    named, or on which it works, is not.
    """
    loads = kind(plan_of({"lawn": {"area": "9000 ft2"}, **changes}), "delivery")
    assert loads
    for load in loads:
        assert (phrases.somebody_there() in load.cautions) is told
