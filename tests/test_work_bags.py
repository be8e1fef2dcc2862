"""What little material is needed comes in bags, and what comes loose in few orders on days of
business.
"""

from typing import Any

import pytest

from planning import brief_of, first, kind, plan_of
from resolved_lawns import setting_of
from tiers import full
from told import told
from turfplan.records.plan import Plan
from turfplan.work.bags import bags_of

YD3, FT3 = 0.764554857984, 0.028316846592
SMALL = {"lawn": {"area": "400 ft2"}, "leveling": {"depth": "0.25 in"}}
# A short summer's work of one person: a pass takes several week-ends, strip by strip.
LONG = {
    "lawn": {"area": "9000 ft2", "condition": "dense"},
    "seeding": {"intent": "none"},
    "leveling": {"depth": "0.75 in"},
    "work": {"people": 1, "hours_per_day": 4},
}
GERMAN: dict[str, Any] = {
    "place": {"latitude": 50.1, "longitude": 8.7, "country": "DE", "postal_code": None},
    "lawn": {"area": "60 m2"},
    "leveling": {"depth": "6 mm"},
}


def mixes(plan: Plan) -> list[Any]:
    """The lines of the order for the mix."""
    return [line for line in plan.order if line.item == "mix"]


@pytest.mark.full
def test_little_is_fetched_in_bags() -> None:
    """0.25 in on 400 ft2 and 0.125 in on a tenth of them, with a tenth for settling, are 9.6 ft3: 7
    bags of 3/4 ft3, 5 of 1/2 ft3 and 3 of 1 ft3; nobody is rung up, no heap is looked after.
    """
    plan = plan_of(SMALL)
    (line,) = mixes(plan)
    assert [round(p.value / FT3, 2) for p in line.parts] == [5.25, 2.5, 3.0]
    assert sum(p.value for p in line.parts) == pytest.approx(line.value)
    assert "7 bags of 0.75 ft³" in told(line.text) and "3 bags of 1 ft³" in told(line.text)
    assert line.loads == () and line.order_by == line.deliver_by
    (errand,) = kind(plan, "delivery")
    assert "in bags" in told(errand.title) and errand.start == line.deliver_by
    assert not kind(plan, "order_material") and not kind(plan, "dry_material")


@pytest.mark.full
def test_metric_bags_are_of_whole_litres() -> None:
    """60 m2 at 6 mm take 0.4 m3; Germany's shops are shut on Sundays."""
    plan = plan_of(GERMAN)
    (line,) = mixes(plan)
    assert [
        round(part.value * 1000) % size for part, size in zip(line.parts, (25, 15, 40), strict=True)
    ] == [0, 0, 0]
    assert all(t.start.weekday() != 6 for t in kind(plan, "delivery"))


@pytest.mark.full
def test_what_may_come_in_bags_is_for_the_owner_to_say() -> None:
    """A supplier who brings half a yard brings it loose; loose is never less than the least load;
    where no truck can come everything is fetched, with as many trips as it weighs.
    """
    loose = plan_of(SMALL, {"delivery": {"least_load": "0.25 yd3"}})
    assert mixes(loose)[0].loads and kind(loose, "order_material")
    asked = plan_of(SMALL, {"delivery": {"form": "bulk"}})
    assert mixes(asked)[0].value == pytest.approx(YD3)
    assert "Less than 1 yd³" in told(mixes(asked)[0].reason)
    carried = plan_of({"delivery": {"form": "bags"}})
    assert not kind(carried, "order_material") and "bags" in told(mixes(carried)[0].text)
    trips = first(carried, "delivery").person_hours / first(plan_of(SMALL), "delivery").person_hours
    assert trips >= 5


@pytest.mark.full
def test_passes_of_little_share_one_errand() -> None:
    """Closed bags outlast a heap: two passes weeks apart are fetched at once."""
    plan = plan_of(SMALL, {"seeding": {"intent": "none"}, "leveling": {"depth": "0.5 in"}})
    assert len(kind(plan, "topdress")) == 2
    assert len(kind(plan, "delivery")) == len(mixes(plan)) == 1


@pytest.mark.full
def test_each_truck_is_looked_at() -> None:
    """Eight tipper loads take a day to be received, one an hour."""
    bare = {"lawn": {"condition": "bare", "area": "6000 ft2"}, "leveling": {"depth": "5 in"}}
    plan = plan_of(bare, {"delivery": {"truck_limit": "14 yd3"}})
    (line,) = mixes(plan)
    assert len(line.loads) == 8 and first(plan, "delivery").person_hours == pytest.approx(8.0)


@pytest.mark.full
def test_business_orders_and_drives_on_its_days() -> None:
    """A contractor rings on a day of business; where machines rest on Sundays, a load that comes on
    a day of business is fresh for the strips of two Saturdays.
    """
    hired = plan_of({"work": {"by": "contractor"}})
    assert all(t.start.weekday() < 5 for t in kind(hired, "order_material"))
    strips = plan_of(
        GERMAN,
        {"lawn": {"area": "350 m2"}, "leveling": {"depth": "15 mm"}},
        {"work": {"people": 1, "hours_per_day": 5}},
    )
    passes = kind(strips, "topdress")
    assert sum(t.duration_days for t in passes) > len(kind(strips, "delivery")) + 1


@full
def test_strips_are_asked_for_in_one_order() -> None:
    """Loads for the strips of long passes come week by week, in one order of a season that says how
    many; none on a Sunday or a public holiday.
    """
    plan = plan_of(LONG)
    orders, came = kind(plan, "order_material"), kind(plan, "delivery")
    assert len(came) > len(orders) >= 1
    volumes = [a.value for t in orders for a in t.amounts]
    assert sum(volumes) == pytest.approx(sum(line.value for line in mixes(plan)))
    assert any("deliveries" in told(line) for line in orders[0].how)
    free = plan.holidays.days if plan.holidays else ()
    assert all(t.start.weekday() != 6 and t.start not in free for t in (*orders, *came))


@pytest.mark.full
def test_a_sunday_is_for_the_brief_to_ask() -> None:
    """Where work is done on Sundays alone, a load comes on a day of business, unless the supplier
    brings on Sundays.
    """
    sundays = {"calendar": {"weekdays": ["sun"]}}
    assert first(plan_of(sundays), "delivery").start.weekday() < 5
    asked = plan_of(sundays, {"delivery": {"allowed_weekdays": ["sun"]}})
    assert first(asked, "delivery").start.weekday() == 6


@pytest.mark.full
def test_an_errand_of_a_household_keeps_to_its_days() -> None:
    """Six trips on its Sundays, with the question whether shops are open; more than a handful are
    offered as one load.
    """
    days = {"calendar": {"weekdays": ["sun"]}, "delivery": {"form": "bags"}}
    errand = first(plan_of(days), "delivery")
    assert errand.start.weekday() == errand.end.weekday() == 6
    keys = {str(getattr(line, "key", "")) for line in errand.how}
    assert {"level.bags.sunday", "level.bags.bulk"} <= keys
    little = first(plan_of(SMALL), "delivery")
    keys = {str(getattr(line, "key", "")) for line in little.how}
    assert not {"level.bags.sunday", "level.bags.bulk"} & keys
    assert little.start.weekday() == 5


@pytest.mark.parametrize(
    ("changes", "sizes_m3"),
    [({}, (0.75 * FT3, 0.5 * FT3)), (GERMAN, (0.025, 0.015))],
    ids=["US", "metric"],
)
def test_bags_are_of_the_readers_shops(
    changes: dict[str, Any], sizes_m3: tuple[float, float]
) -> None:
    """Topsoil and sand in cubic feet, or in litres; whole bags of each, none short, none too many;
    nothing of what the mix does not hold.
    """
    setting = setting_of(brief_of(changes))
    found = bags_of(setting, {"topsoil": 0.5, "sand": 0.25, "compost": 0.0}, 0.4)
    assert list(found) == ["topsoil", "sand"]
    for bags, size, wanted in zip(found.values(), sizes_m3, (0.2, 0.1), strict=True):
        assert bags.volume_m3 / size == pytest.approx(round(bags.volume_m3 / size))
        assert wanted <= bags.volume_m3 < wanted + size
        assert setting.book.si(bags.fact) == pytest.approx(size)
