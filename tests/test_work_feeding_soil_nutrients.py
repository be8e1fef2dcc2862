"""Potash and phosphate of a soil test go on as soon as the grass grows, whatever nitrogen is due;
so does iron where the pH is too high."""

from datetime import UTC, date, datetime
from typing import Any

import pytest

from planning import amount, kind, plan_of
from turfplan.message import as_written
from turfplan.records.past import KnownFeeding
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task
from turfplan.work.feeding.feedings import NitrogenFeeding
from turfplan.work.feeding.soil_nutrients import (
    NutrientPart,
    carried_g_m2,
    still_to_come,
    without_bearer,
)

JULY = datetime(2027, 7, 10, 12, tzinfo=UTC)
LOW: dict[str, Any] = {"soil_test": {"on": date(2026, 10, 1), "potassium": "low"}}
HIGH_PH: dict[str, Any] = {"soil_test": {"on": date(2026, 10, 1), "ph": 7.9}}
FROM_JULY: dict[str, Any] = {"season": {"from": date(2027, 7, 10)}}
LEVEL: dict[str, Any] = {"leveling": {"depth": "0 in"}}
RENOVATE: dict[str, Any] = {"seeding": {"intent": "renovate"}, **LEVEL}
# The year's nitrogen is given, and the law allows none until autumn.
NO_NITROGEN: dict[str, Any] = {
    "history": {"nitrogen": [{"rate": "3 lb/1000ft2", "on": date(2027, 2, 20)}]},
    "local": {"nitrogen_blackouts": [{"from": "03-01", "to": "09-30"}]},
}
CENTIPEDE: dict[str, Any] = {
    "lawn": {"grass": "centipede", "soil": "sandy loam"},
    "place": {"postal_code": "32607"},
    "seeding": {"intent": "none"},
    "leveling": {"depth": "0.25 in"},
}
WELLINGTON: dict[str, Any] = {
    "lawn": {"area": "400 m2", "grass": "perennial_ryegrass", "soil": "silt loam"},
    "place": {"postal_code": None, "latitude": -41.3, "longitude": 174.8, "country": "NZ"},
    "seeding": {"intent": "none"},
    "leveling": {"depth": "6 mm"},
    "local": {"nitrogen_blackouts": [{"from": "01-01", "to": "12-31"}]},
}


def potash(plan: Plan) -> list[tuple[Task, float]]:
    """The tasks that take potash, in order of date, with the rate in lb/1,000 ft2."""
    found = [(t, a) for t in plan.tasks for a in t.amounts if a.item == "potash to add"]
    return sorted(((t, round(a.value_us, 3)) for t, a in found), key=lambda part: part[0].start)


@pytest.mark.full
@pytest.mark.parametrize("changes", [FROM_JULY, {**FROM_JULY, **LEVEL}], ids=["fill", "no fill"])
def test_potash_waits_for_no_feeding(changes: dict[str, Any]) -> None:
    """Asked for in July, all of it is on before the seed goes down in September, not half of it
    next spring.
    """
    plan = plan_of(LOW, changes, now=JULY)
    (sown,) = kind(plan, "overseed")
    parts = potash(plan)
    assert [rate for _, rate in parts] == [1.0, 1.0]
    assert all(task.operation == "amend" and task.start < sown.start for task, _ in parts)
    (first, _), (second, _) = parts
    assert 28 <= (second.start - first.start).days <= 49


@pytest.mark.full
def test_potash_keeps_its_rule_where_no_nitrogen_is_due() -> None:
    """Where nitrogen is barred both parts still go on, in spring; and where a feeding is due soon
    they go on with it.
    """
    barred = potash(plan_of(LOW, NO_NITROGEN))
    assert [(t.operation, rate) for t, rate in barred] == [("amend", 1.0), ("amend", 1.0)]
    assert all(t.start < date(2027, 6, 15) for t, _ in barred)
    fed = potash(plan_of(LOW))
    # The second part hangs on no food that seedlings may not need.
    assert [t.operation for t, _ in fed] == ["feed_nitrogen", "amend"]
    assert fed[0][0].start < date(2027, 5, 15)


@pytest.mark.full
def test_a_grass_of_few_feedings_gets_its_potash_when_it_is_green() -> None:
    """Centipede is fed in June for the first time, and takes potash in April."""
    parts = potash(plan_of(LOW, CENTIPEDE))
    assert [rate for _, rate in parts] == [1.0, 1.0]
    assert date(2027, 3, 15) < parts[0][0].start < date(2027, 5, 1)
    assert parts[1][0].start < date(2027, 7, 1)


@pytest.mark.full
def test_potash_goes_on_once_where_the_test_finds_some() -> None:
    """A pound is given at once, in the south of the world in its own spring."""
    medium = {"soil_test": {"on": date(2027, 5, 1), "potassium": "medium"}}
    winter = {"season": {"from": date(2027, 6, 20)}}
    now = datetime(2027, 6, 20, 12, tzinfo=UTC)
    ((task, rate),) = potash(plan_of(WELLINGTON, medium, winter, now=now))
    assert rate == 1.0 and task.operation == "amend"
    assert date(2027, 6, 20) <= task.start <= date(2027, 9, 30)


@pytest.mark.full
def test_no_potash_on_a_lawn_that_is_killed() -> None:
    """The grass that is to die gets none: it goes on with the seedlings' own feedings."""
    plan = plan_of(LOW, RENOVATE)
    (sown,) = kind(plan, "seed")
    parts = potash(plan)
    assert len(parts) == 2 and all(task.start > sown.start for task, _ in parts)


@pytest.mark.full
def test_potash_of_its_own_says_what_is_bought_and_how_much() -> None:
    """Its total follows from its rate, and the steps name a product."""
    plan = plan_of(LOW, FROM_JULY, now=JULY)
    for task, _ in potash(plan):
        rate, total = amount(task, "potash to add"), amount(task, "potash to add in all")
        assert total == pytest.approx(rate * plan.lawn.area_m2 / 1000, rel=1e-3)
        assert any("Sulfate of potash" in line.text for line in task.how)


@pytest.mark.full
def test_iron_goes_on_at_the_first_chance() -> None:
    """In July it is not put off to next spring for seed of September; seedlings and a lawn that is
    to be killed get none.
    """
    for change in ({}, LEVEL):
        (iron,) = kind(plan_of(HIGH_PH, FROM_JULY, change, now=JULY), "amend")
        assert iron.start <= date(2027, 7, 25)
    for change in (RENOVATE, {**RENOVATE, "lawn": {"condition": "bare"}}):
        plan = plan_of(HIGH_PH, change)
        (iron,), (sown,) = kind(plan, "amend"), kind(plan, "seed")
        assert (iron.start - sown.start).days > 60 and iron.start.month not in (11, 12, 1, 2)


@pytest.mark.full
def test_iron_is_not_put_off_for_plants_of_a_long_season() -> None:
    """Plugs may be set all summer: iron waits for those of May to root, not for the end of the
    season in which they could be set."""
    plugs = {
        "lawn": {"area": "2000 ft2", "grass": "st_augustine", "soil": "sand"},
        "place": {"postal_code": "32607"},
        "leveling": {"depth": "0.25 in"},
        "seeding": {"intent": "plant", "form": "plugs"},
    }
    plan = plan_of(HIGH_PH, plugs)
    (iron,), (planted,) = kind(plan, "amend"), kind(plan, "plant")
    assert iron.start.year == 2027 and not 0 <= (iron.start - planted.start).days < 60


@pytest.mark.full
def test_iron_and_potash_of_a_cool_coast_go_on_when_the_grass_is_fed() -> None:
    """Where warm-season grass never grows hard, the season of its feeding is the season of both."""
    adelaide = {
        "lawn": {"area": "220 m2", "grass": "bermuda_common", "soil": "sandy loam"},
        "place": {"postal_code": None, "latitude": -34.9, "longitude": 138.6, "country": "AU"},
        "leveling": {"depth": "10 mm"},
        "seeding": {"intent": "patch"},
        "season": {"from": date(2027, 8, 1)},
        "soil_test": {"on": date(2027, 5, 1), "ph": 8.1, "free_lime": True, "potassium": "low"},
    }
    plan = plan_of(adelaide, now=datetime(2027, 8, 1, 12, tzinfo=UTC))
    (iron,) = [task for task in kind(plan, "amend") if task.id == "amend.iron"]
    assert date(2027, 10, 1) < iron.start < date(2027, 12, 1)
    assert [t.start.year for t, _ in potash(plan)] == [2027, 2027]
    assert any("does not speak of phosphorus" in c.text for c in plan.cautions)


@pytest.mark.full
def test_potash_to_add_stands_on_the_order() -> None:
    """What the tasks add beyond the fertilizer is bought: as much as they take together."""
    plan = plan_of(LOW)
    taken = sum(amount(task, "potash to add in all") for task, _ in potash(plan))
    bought = [line for line in plan.order if line.item == "potash"]
    assert taken > 0 and sum(line.value for line in bought) >= taken - 0.001
    assert not [line for line in plan_of().order if line.item == "potash"]


LOW_P: dict[str, Any] = {"soil_test": {"on": date(2026, 10, 1), "phosphorus": "low"}}
FREE: dict[str, Any] = {"local": {"phosphorus": "free"}}


def phosphate(plan: Plan) -> list[tuple[Task, float]]:
    """The tasks that take phosphate, with the rate in lb/1,000 ft2."""
    found = [(t, a) for t in plan.tasks for a in t.amounts if a.item == "phosphate to add"]
    return [(task, round(a.value_us, 3)) for task, a in found]


@pytest.mark.full
@pytest.mark.parametrize(
    ("changes", "operation"),
    [
        (LEVEL, "starter_feed"),
        ({**LEVEL, "seeding": {"intent": "dormant"}}, "starter_feed"),
        ({"seeding": {"intent": "none"}}, "feed_nitrogen"),
        ({"seeding": {"intent": "none"}, **NO_NITROGEN}, "amend"),
        ({"lawn": {"condition": "bare"}, **RENOVATE}, "till"),
    ],
    ids=["overseed", "dormant", "no seed", "no nitrogen", "bare"],
)
def test_what_a_test_asks_for_in_phosphate_is_given_and_bought(
    changes: dict[str, Any], operation: str
) -> None:
    """Once, with what is at hand, in all and by rate, on a line of the order."""
    if "local" in changes:
        changes = {**changes, "local": {**changes["local"], **FREE["local"]}}
    plan = plan_of(LOW_P, {**FREE, **changes})
    ((task, rate),) = phosphate(plan)
    assert task.operation == operation and rate in (0.5, 1.0)
    in_all = amount(task, "phosphate to add in all")
    (line,) = [line for line in plan.order if line.item == "phosphate"]
    assert line.value > in_all - 0.001 > 0 and line.deliver_by <= task.start


@pytest.mark.full
def test_no_phosphate_where_the_law_bans_it_or_none_is_low() -> None:
    """Nor an order of any."""
    for changes in (
        {**LOW_P, "local": {"phosphorus": "banned"}},
        {"soil_test": {"on": date(2026, 10, 1), "phosphorus": "high"}},
        {"soil_test": {"phosphorus": "low"}},
    ):
        plan = plan_of(changes, LEVEL)
        assert phosphate(plan) == []
        assert all(line.item != "phosphate" for line in plan.order)


def test_potash_does_not_hang_on_food_that_only_pale_seedlings_get() -> None:
    """Seedlings that are green leave their food out; the potash of the test goes on all the same,
    with a feeding that is sure or by itself."""
    day = date(2027, 9, 1)

    def feed(key: str, best: date, *, if_pale: bool) -> NitrogenFeeding:
        return NitrogenFeeding(
            key, "autumn", 2.0, best, best, best, as_written("why"), if_pale=if_pale
        )

    pale, sure = feed("pale", day, if_pale=True), feed("sure", date(2027, 10, 1), if_pale=False)
    parts = (NutrientPart(1, 4.0, day, day, "pale"),)
    assert carried_g_m2(parts, (pale, sure), "pale") == 0.0
    assert carried_g_m2(parts, (pale, sure), "sure") == 4.0
    dressed = {"water": {"possible": False, "application_rate": None}, **LOW}
    for task, _ in potash(plan_of(dressed)):
        assert "pale" not in task.id and "seedlings" not in task.id


@pytest.mark.full
def test_new_ground_gets_the_phosphate_of_establishment_under_sod_too() -> None:
    """A pound worked in under sod on bare ground; half of it where plants go into living turf."""
    sod = {"seeding": {"intent": "plant", "form": "sod"}, **LEVEL, **FREE}
    bare = plan_of(LOW_P, {"lawn": {"grass": "kentucky_bluegrass", "condition": "bare"}, **sod})
    ((task, rate),) = phosphate(bare)
    assert (task.operation, rate) == ("till", 1.0)
    patchy = {"grass": "kentucky_bluegrass", "condition": "patchy", "thin_share": 0.3}
    mended = plan_of(LOW_P, {"lawn": patchy, "site": {"cleared": ["unknown"]}, **sod})
    ((task, rate),) = phosphate(mended)
    assert (task.operation, rate) == ("feed_nitrogen", 0.5)


def test_food_that_is_over_without_a_nutrient_is_no_bearer_of_it() -> None:
    """Left out, or given before anybody asked for it; what gave it is one, and what is to come."""
    day = date(2028, 5, 7)
    known = (
        KnownFeeding("spring", day, over=True),
        KnownFeeding("summer", day, over=True, gave=frozenset({"potash"})),
        KnownFeeding("autumn", day, over=False),
    )
    assert without_bearer("potash", known) == {"spring"}
    assert without_bearer("phosphate", known) == {"spring", "summer"}
    assert not without_bearer("potash", None)


def test_a_part_whose_days_had_gone_by_before_it_was_asked_for_goes_with_the_next_feeding() -> None:
    """One that a plan before had by itself keeps its days."""
    part = NutrientPart(1, 5.0, date(2028, 4, 1), date(2028, 4, 15))
    june = date(2028, 6, 3)
    (moved,) = still_to_come((part,), "potash", (), june)
    assert moved.feed == "amend.potash.1"
    own = KnownFeeding("amend.potash.1", date(2028, 4, 8), over=True, gave=frozenset({"potash"}))
    assert still_to_come((part,), "potash", (own,), june) == (part,)
    assert still_to_come((part,), "potash", None, june) == (part,)
    assert still_to_come((part,), "potash", (), date(2028, 4, 2)) == (part,)
