"""Each job names the part of the lawn that it is for, on every surface where a title stands."""

from datetime import date, timedelta
from functools import cache
from typing import Any

import pytest

from planning import brief_of, plan_brief, plan_of
from printed import english, season_ics
from turfplan.errors import TurfplanError
from turfplan.export.tables.csv_tables import tasks_csv
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task

FT = 0.3048


def zone(name: str, depth: str | None, **more: Any) -> dict[str, Any]:
    """A zone of 3,000 square feet."""
    size = {"kind": "rectangle", "length": "60 ft", "width": "50 ft", "name": name}
    return {**size, **({"depth": depth} if depth else {}), **more}


def drawn(part: dict[str, Any] | None = None, **more: Any) -> dict[str, Any]:
    """A quarter inch in front and an inch at the back, with a part of its own."""
    lawn = {"area": None, "shape": [zone("front", "0.25 in"), zone("back", "1 in")]}
    if part:
        lawn["part"] = [part]
    return {"lawn": lawn, "leveling": {"depth": None}, **more}


@cache
def two_zones() -> Plan:
    """The two zones with seed at the end, and sprinklers that go by other names."""
    sprays = [
        {"name": "one", "area": "3000 ft2", "application_rate": "1 in/h"},
        {"name": "two", "area": "3000 ft2", "application_rate": "1 in/h"},
    ]
    return plan_of(drawn(water={"timer": True, "zones": sprays}))


def settled_m3(plan: Plan, task: str) -> float:
    """The loose volume of a task, without the usual tenth for settling."""
    found = next(t for t in plan.tasks if t.id == task)
    return next(a.value for a in found.amounts if a.item == "volume") / 1.1


def of_pass(plan: Plan, number: int) -> list[Task]:
    """What belongs to a pass: mowing before it, spreading, working in, watering."""
    names = (f"topdress.{number}", f"incorporate.{number}", f"mow.{number}")
    waters = (f"water.settle.{number}.", f"water.recover.{number}.")
    return [t for t in plan.tasks if t.id in names or t.id.startswith(waters)]


def test_a_pass_over_one_zone_names_it_wherever_it_shows() -> None:
    """The front is full after the first pass; the others, and all that belongs to them, say that
    they are for the back, in title and first step, in the calendar too.
    """
    plan = two_zones()
    numbers = [n for n in range(1, 9) if any(t.id == f"topdress.{n}" for t in plan.tasks)]
    assert len(numbers) > 2
    assert all("(" not in str(t.title) for t in of_pass(plan, 1))
    for number in numbers[1:]:
        jobs = of_pass(plan, number)
        assert {t.operation for t in jobs} >= {"topdress", "incorporate"}
        for task in jobs:
            assert "(back)" in str(task.title), task.title
            assert str(task.how[0]).startswith("Where: back"), task.how
            assert "front" not in str(task.title)
    waters = [t for n in numbers[1:] for t in of_pass(plan, n) if t.operation == "water"]
    assert waters
    assert all("all zones" not in str(t.title) for t in waters)


def test_a_pass_of_two_depths_says_how_deep_each_zone_is() -> None:
    """Where one zone gets less of a pass than another, the pass says how deep and how much."""
    shapes = [zone("front", "0.375 in"), zone("back", "1 in")]
    plan = plan_of({"lawn": {"area": None, "shape": shapes}, "leveling": {"depth": None}})
    steps = [str(step) for t in of_pass(plan, 2) for step in t.how if t.operation == "topdress"]
    assert any(
        step.startswith("By part: back 1/4 in (") and "front 1/8 in (" in step for step in steps
    ), steps


def test_sprinklers_that_go_by_the_name_of_the_zone_run_alone() -> None:
    """Where the watering has a zone called as the drawn one is, no other runs for it."""
    sprays = [
        {"name": "Front", "area": "3000 ft2", "application_rate": "1 in/h"},
        {"name": "Back", "area": "3000 ft2", "application_rate": "1 in/h"},
    ]
    plan = plan_of(drawn(water={"timer": True, "zones": sprays}))
    waters = [t for t in of_pass(plan, 2) if t.operation == "water"]
    assert waters
    for task in waters:
        assert "Front" not in " ".join([str(task.title), *map(str, task.how)])
    both = [t for t in of_pass(two_zones(), 2) if t.operation == "water"]
    assert sum(t.amounts[0].value for t in waters) == pytest.approx(
        sum(t.amounts[0].value for t in both), rel=1e-3
    )


def test_hollows_are_named() -> None:
    """A fill of hollows alone, or what goes on in them once the rest is full, says so; turf among
    many of them is mown as a whole.
    """
    alone = plan_of({"leveling": {"depth": None, "lows": [{"depth": "0.75 in", "share": 0.3}]}})
    assert all("(the hollows)" in str(t.title) for t in of_pass(alone, 1))
    with_rest = plan_of(
        {"leveling": {"depth": "0.25 in", "lows": [{"depth": "0.75 in", "share": 0.3}]}}
    )
    assert all("(" not in str(t.title) for t in of_pass(with_rest, 1))
    later = [t for t in of_pass(with_rest, 2) if t.operation != "mow"]
    assert all("(the hollows)" in str(t.title) for t in later)


def test_a_septic_field_is_out_of_drawn_fill_and_its_order() -> None:
    """600 square feet of 6,000: a tenth less of every pass and of the order than without it."""
    whole, spared = two_zones(), plan_of(drawn({"kind": "septic_field", "area": "600 ft2"}))
    for number in (1, 2):
        name = f"topdress.{number}"
        assert settled_m3(spared, name) == pytest.approx(0.9 * settled_m3(whole, name), abs=0.01)
        hours = [next(t for t in p.tasks if t.id == name).person_hours for p in (whole, spared)]
        assert hours[1] < hours[0]
    bought = [sum(x.value for x in p.order if x.item == "mix") for p in (whole, spared)]
    assert bought[1] < 0.95 * bought[0]
    assert "Nobody says in which zone the septic field lies" in " ".join(
        map(str, spared.assumptions)
    )
    titles = [str(t.title) for n in (1, 2) for t in of_pass(spared, n)]
    assert all("septic field" in title for title in titles), titles


def test_a_part_in_a_zone_takes_from_that_zone() -> None:
    """Half of a hundred in the front spares a quarter inch there, and nothing at the back."""
    part = {"kind": "dog_run", "area": "600 ft2", "zone": "front"}
    whole, spared = two_zones(), plan_of(drawn(part))
    taken = settled_m3(whole, "topdress.1") - settled_m3(spared, "topdress.1")
    depth = next(
        a.value for t in whole.tasks if t.id == "topdress.1" for a in t.amounts if a.item == "depth"
    )
    # 600 square feet of the layer, with what fills the holes of cores there.
    layer_m3 = 600 * FT * FT * depth / 1000
    assert 0.999 * layer_m3 <= taken <= 1.5 * layer_m3
    assert settled_m3(spared, "topdress.2") == pytest.approx(settled_m3(whole, "topdress.2"))
    assert "Nobody says" not in " ".join(map(str, spared.assumptions))
    assert all("dog run" not in str(t.title) for t in of_pass(spared, 2))


@pytest.mark.parametrize(
    ("part", "words"),
    [
        ({"kind": "steep", "share": 0.1, "zone": "bakc"}, "no shape of the lawn"),
        ({"kind": "steep", "area": "3000 ft2", "zone": "back"}, "as large as the zone"),
    ],
)
def test_a_zone_that_cannot_hold_the_part(part: dict[str, Any], words: str) -> None:
    """A zone is one that is drawn, and larger than what lies in it."""
    with pytest.raises(TurfplanError, match=words):
        plan_of(drawn(part))


def test_ground_that_stays_is_neither_killed_nor_loosened() -> None:
    """What is not sown keeps its grass: killing, clearing, loosening and seed leave it out."""
    changes = {
        "lawn": {"part": [{"kind": "septic_field", "share": 0.2}]},
        "seeding": {"intent": "renovate"},
    }
    plan, whole = plan_of(changes), plan_of({"seeding": {"intent": "renovate"}})
    hours = {t.id: t.person_hours for t in whole.tasks}
    for name in ("kill_stand", "clear_stand", "till", "grade", "seed", "fill.1"):
        task = next(t for t in plan.tasks if t.id == name)
        assert "(all but the septic field)" in str(task.title), name
        assert task.person_hours < hours[name] or not hours[name], name


def test_a_calendar_says_it_too() -> None:
    """The calendar and the table of tasks carry the title with its place."""
    plan = plan_brief(brief_of(drawn({"kind": "septic_field", "share": 0.1})))
    calendar = season_ics(plan).decode().replace("\r\n ", "")
    table = tasks_csv(plan, english(plan))
    for shown in (calendar, table):
        assert "not on the septic field" in shown


IN_CLAY: dict[str, Any] = {
    "lawn": {
        "area": "310 m2",
        "grass": "kentucky_bluegrass",
        "soil": "clay",
        "thatch": "18 mm",
        "condition": "patchy",
    },
    "place": {
        "postal_code": None,
        "latitude": 53.55,
        "longitude": -113.49,
        "country": "CA",
        "state": "AB",
    },
    "seeding": {"intent": "dormant"},
    "water": {"application_rate": "14 mm/h", "timer": False, "hours_per_day": 2},
    "calendar": {"weekdays": ["sat", "sun"]},
    "work": {"people": 2, "hours_per_day": 5},
    "season": {"from": date(2027, 3, 1), "until": date(2028, 7, 31)},
}
DEEP: dict[str, Any] = {"depth": "40 mm", "share": 0.08}


def lifted_beside(levelling: dict[str, Any]) -> Plan:
    """Clay turf with thatch whose deep hollows are lifted, and some fill beside them."""
    plan = plan_of({**IN_CLAY, "leveling": {"parts": None, "depth": None, **levelling}})
    assert any(t.operation == "lift_and_fill" for t in plan.tasks)
    return plan


@pytest.mark.parametrize(
    ("rest", "name"),
    [
        ({"lows": [DEEP], "depth": "5 mm"}, "all but the lifted hollows"),
        (
            {"lows": [DEEP, {"depth": "15 mm", "share": 0.2}]},
            "the hollows that are not lifted",
        ),
    ],
)
def test_a_pass_beside_lifted_hollows_says_that_it_leaves_them_out(
    rest: dict[str, Any], name: str
) -> None:
    """It is named by what it covers: the lawn without them, or the other hollows."""
    for task in of_pass(lifted_beside(rest), 1):
        if task.operation != "mow":
            assert f"({name})" in str(task.title), task.title
            assert str(task.how[0]).startswith(f"Where: {name}"), task.how


def test_blades_and_low_cuts_spare_turf_that_has_not_rooted() -> None:
    """Until two weeks after it is laid again they leave it out by name."""
    plan = lifted_beside({"lows": [DEEP, {"depth": "15 mm", "share": 0.2}]})
    lift = next(t for t in plan.tasks if t.operation == "lift_and_fill")
    harsh = [t for t in plan.tasks if t.plays("low_cut", "thatching", "coring")]
    early = [t for t in harsh if lift.start < t.start < lift.end + timedelta(14)]
    assert any(t.operation == "dethatch" for t in early)
    assert all("lifted" in str(t.title) for t in early)
