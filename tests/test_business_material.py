"""What many lawns buy is shared out over truckloads, days and suppliers."""

import random
from dataclasses import replace
from datetime import date, timedelta

from turfplan.business.business_record import Business, Supplier, Yard
from turfplan.business.material import (
    LoadShare,
    MaterialLoad,
    MaterialNeed,
    ToldDelivery,
    material_loads,
    moved_deliveries,
    open_day,
    shared_loads,
)
from turfplan.calendar_days import Weekday
from turfplan.records.brief import Span

WEDNESDAY, TODAY = date(2027, 8, 25), date(2027, 8, 1)
STEP_M3 = 0.1
NEED = MaterialNeed(
    "ash", "delivery.1", "mix", "sandy mix", 5.3, 5.25, "m3", date(2027, 8, 11), WEDNESDAY, (5.3,)
)


def business(**changes: object) -> Business:
    """A business whose one supplier has the mix, a load of 9 m3, and is closed on Wednesdays."""
    weekdays: tuple[Weekday, ...] = ("mon", "tue", "thu", "fri")
    pit = Supplier(name="Pit", items=("MIX",), lead_days=3, weekdays=weekdays, load_m3="9 m3")
    return Business(name="Invented", supplier=(pit,), yard=Yard(room_m3="20 m3")).model_copy(
        update=changes
    )


def loads_of(needs: list[MaterialNeed], of: Business | None) -> tuple[MaterialLoad, ...]:
    """The loads of some needs, sold in tenths of a cubic metre."""
    return material_loads(needs, of, STEP_M3, TODAY)


def test_loads_hold_what_is_needed_and_no_more_than_a_truck() -> None:
    """For random needs: none over the limit, all that is needed, nothing opened needlessly, and the
    same whatever the order."""
    chance = random.Random(18)
    for _ in range(60):
        limit = chance.choice([4.0, 7.5, 9.0])
        needs = [
            LoadShare(f"lawn{n}", "delivery", round(chance.uniform(0.1, 20), 3))
            for n in range(chance.randint(1, 12))
        ]
        loads = shared_loads(needs, limit)
        held = [sum(share.value for share in load) for load in loads]
        assert max(held) <= limit + 1e-5
        for need in needs:
            got = sum(s.value for load in loads for s in load if s.lawn == need.lawn)
            assert abs(got - need.value) < 1e-5
        light = sorted(held)
        assert len(light) < 2 or light[0] + light[1] > limit - 1e-5
        chance.shuffle(needs)
        assert sorted(held) == sorted(
            sum(share.value for share in load) for load in shared_loads(needs, limit)
        )


def test_lawns_share_a_load_rounded_up_once() -> None:
    """Two lawns of a week share one; what is left over is less than a step; it goes to the yard,
    the day before its supplier is closed, ordered as many days ahead as it asks."""
    elm = replace(NEED, lawn="elm", sold=3.4, used=3.31, deliver_by=WEDNESDAY + timedelta(1))
    (load,) = loads_of([NEED, elm], business())
    assert [share.lawn for share in load.shares] == ["ash", "elm"]
    assert abs(load.value - 8.6) < 1e-9 and abs(load.left - 0.04) < 1e-9 and load.to_yard
    assert load.deliver_on == date(2027, 8, 24) and load.order_by == date(2027, 8, 20)
    assert not load.late


def test_what_is_not_shared() -> None:
    """Another week, another material, and all where nobody knows what a truck holds."""
    later = replace(NEED, lawn="elm", deliver_by=WEDNESDAY + timedelta(7))
    other = replace(NEED, lawn="elm", name="topsoil", item="topsoil")
    for second in (later, other):
        loads = loads_of([NEED, second], business())
        assert [len(load.shares) for load in loads] == [1, 1]
        assert not any(load.to_yard for load in loads)
    plain = loads_of([NEED, replace(NEED, lawn="elm")], None)
    assert [(load.value, load.supplier, len(load.shares)) for load in plain] == [(5.3, None, 1)] * 2
    assert plain[0].order_by == NEED.order_by


def test_the_yard_fills_up() -> None:
    """A load beyond its room of the week goes to the lawns; without room known all do."""
    needs = [replace(NEED, lawn=f"l{n}", sold=4.0, used=4.0) for n in range(6)]
    assert [load.to_yard for load in loads_of(needs, business())] == [True, True, False]
    bare = business(yard=Yard())
    assert not any(load.to_yard for load in loads_of(needs, bare))


def test_bags_of_a_week_are_added_up_and_plants_come_by_the_day() -> None:
    """Seed is fetched once a week for all; sod does not keep."""
    bag = replace(NEED, item="seed", name="seed", unit="kg", sold=7.0, used=7.0, loads=())
    friday = replace(bag, lawn="elm", deliver_by=WEDNESDAY + timedelta(2))
    (seed,) = loads_of([bag, friday], business())
    assert (seed.value, seed.left, seed.is_load, seed.deliver_on) == (14.0, 0.0, False, WEDNESDAY)
    sods = [replace(one, item="sod", name="sod") for one in (bag, friday)]
    assert len(loads_of(sods, business())) == 2


def test_a_supplier_that_is_closed_is_asked_before() -> None:
    """Closed days and weekdays are passed over backwards; a day that is over is told."""
    shut = Span.model_validate({"from": date(2027, 8, 20), "to": date(2027, 8, 24)})
    pit = business().supplier[0].model_copy(update={"closed": (shut,)})
    assert open_day(pit, WEDNESDAY) == date(2027, 8, 19)
    assert open_day(None, WEDNESDAY) == WEDNESDAY
    (load,) = material_loads([NEED], business(), STEP_M3, date(2027, 8, 21))
    assert load.late


def test_moved_deliveries_are_told_until_they_came() -> None:
    """A day that changed, and a delivery that is no longer wanted; not what came, not lawns that
    are not asked for."""
    told = {
        ("ash", "delivery.1"): ToldDelivery("Pit", "sandy mix", date(2027, 8, 20)),
        ("elm", "delivery.1"): ToldDelivery("Pit", "sandy mix", date(2027, 8, 20)),
        ("oak", "delivery.1"): ToldDelivery("Pit", "sandy mix", date(2027, 8, 20)),
        ("fir", "delivery.1"): ToldDelivery("Pit", "sandy mix", date(2027, 8, 20)),
    }
    loads = loads_of([NEED], business())
    moved = moved_deliveries(told, loads, {"ash", "elm", "oak"}, {("elm", "delivery.1")})
    assert [(one.lawn, one.now) for one in moved] == [("ash", date(2027, 8, 24)), ("oak", None)]
