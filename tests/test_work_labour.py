"""How long material takes to be moved."""

from dataclasses import replace

import pytest

from planning import amount, brief_of, first, plan_of
from resolved_lawns import setting_of
from test_work_campaigns import plain
from told import told
from turfplan.files.reading.book import load_book
from turfplan.work.labour import hours_of_trucks, person_hours, working_days
from turfplan.work.lawn import Labour


def hours_at(share: float) -> float:
    """Person-hours of the first pass with a way of such a share of that which the figures were
    measured at.
    """
    reach_m = load_book().si("labour.haul_reach") / 1000
    plan = plan_of({"work": {"haul_distance": f"{share * reach_m} m"}})
    return first(plan, "topdress").person_hours


@pytest.mark.full
def test_beyond_the_measured_way_hours_grow_with_it() -> None:
    """Up to it they are what was measured; each further length of it costs as much again."""
    near, there, half_as_far_again, twice = (hours_at(share) for share in (0.3, 1.0, 1.5, 2.0))
    assert near == there
    assert half_as_far_again - there == pytest.approx((twice - there) / 2, abs=0.06)
    assert twice > half_as_far_again > there


BARE = {"lawn": {"condition": "bare"}, "leveling": {"depth": "4 in"}}
KILLED = {"leveling": {"depth": "0 in"}, "seeding": {"intent": "renovate"}}
SPONGY = {"lawn": {"thatch": "0.7 in"}}
LIGHT = {"lawn": {"soil": "sand"}}


@pytest.mark.full
@pytest.mark.parametrize(
    ("machine", "lawn", "job", "least", "most"),
    [
        ("loader", BARE, "fill", 0.1, 0.4),
        ("roller", BARE, "fill", 0.9, 0.99),
        ("loader", {}, "topdress", 0.4, 0.8),
        ("topdresser", {}, "topdress", 0.4, 0.8),
        ("aerator", {}, "core_aerate", 0.2, 0.6),
        ("dethatcher", SPONGY, "dethatch", 0.4, 0.8),
        ("dethatcher", KILLED, "slit", 0.4, 0.8),
        ("roller", LIGHT, "roll", 0.3, 0.7),
    ],
)
def test_each_machine_shortens_its_work(
    machine: str, lawn: dict[str, object], job: str, least: float, most: float
) -> None:
    """On turf and on bare ground; a loader lays a lift of bare ground in a fraction of the time."""
    by_hand, with_it = plan_of(lawn), plan_of(lawn, {"work": {"machines": [machine]}})
    ratio = first(with_it, job).person_hours / first(by_hand, job).person_hours
    assert least < ratio < most
    assert not any("quicker with" in told(line) for line in with_it.assumptions)


@pytest.mark.full
@pytest.mark.parametrize(
    ("machine", "lawn"),
    [("aerator", BARE), ("dethatcher", {}), ("roller", {}), ("topdresser", KILLED)],
)
def test_a_machine_without_work_is_answered(machine: str, lawn: dict[str, object]) -> None:
    """What changes no hours is named, so that nobody thinks it was counted."""
    plan = plan_of(lawn, {"work": {"machines": [machine]}})
    (line,) = [told(a) for a in plan.assumptions if "quicker with" in told(a)]
    assert machine in line


BY_AREA, BY_VOLUME, BY_TASK = "labour_area", "labour", "time"


def test_hours_grow_with_area_volume_or_neither_as_the_book_has_them() -> None:
    """Each number of an operation is counted once: per area, per volume, or for the task."""
    setting = setting_of(brief_of())
    book, asked = setting.book, set[str]()
    for operation in book.operations.values():
        facts = [book.fact(name) for name in operation.labour]
        asked |= {fact.dimension for fact in facts}
        by = {
            kind: sum(fact.si for fact in facts if fact.dimension == kind)
            for kind in (BY_AREA, BY_VOLUME, BY_TASK)
        }
        none = person_hours(setting, operation, 0.0)
        area = person_hours(setting, operation, 1000.0) - none
        loose = person_hours(setting, operation, 0.0, 5.0) - none
        fetched = 0.0 if operation.hours_min is None else book.si(operation.hours_min)
        assert area == pytest.approx(1000 * by[BY_AREA]), operation.id
        assert loose == pytest.approx(5 * by[BY_VOLUME]), operation.id
        assert none == pytest.approx((by[BY_TASK] + fetched) / 60), operation.id
    assert asked == {BY_AREA, BY_VOLUME, BY_TASK}


PERTH = {
    "lawn": {
        "area": "735 m2",
        "grass": "bermuda_hybrid",
        "soil": "sandy loam",
        "condition": "bare",
    },
    "place": {"postal_code": None, "latitude": -31.95, "longitude": 115.86, "country": "AU"},
    "leveling": {"depth": "0 in"},
}


@pytest.mark.full
@pytest.mark.parametrize(
    ("form", "least_h", "most_h"), [("sod", 25, 45), ("plugs", 50, 75), ("sprigs", 20, 30)]
)
def test_plants_take_the_hours_of_their_kind(form: str, least_h: float, most_h: float) -> None:
    """735 m² of sod take one person who does it for the first time most of a working week; 7,911
    plugs a foot apart half a minute each, sprigs in furrows three hours for 1,000 square feet.
    """
    asked = {"seeding": {"intent": "plant", "form": form}, "work": {"people": 1}}
    plan = plan_of(PERTH, asked)
    task = first(plan, "plant")
    assert least_h < task.person_hours < most_h
    assert task.duration_days >= task.person_hours / 6 - 1e-9
    assert any("working days with 1 at work" in told(caution) for caution in task.cautions)


@pytest.mark.full
def test_sod_comes_by_the_days_work() -> None:
    """Where laying takes several days, each has its strip and its own delivery; one day has all."""
    sod = {"seeding": {"intent": "plant", "form": "sod"}, "work": {"people": 2}}
    long, short = plan_of(PERTH, sod), plan_of(PERTH, sod, {"lawn": {"area": "60 m2"}})
    for plan, several in ((long, True), (short, False)):
        task = first(plan, "plant")
        (line,) = [line for line in plan.order if line.item == "sod"]
        assert (task.duration_days > 1) is several
        assert ("strips, one a day" in " ".join(map(told, task.how))) is several
        assert (f"{task.duration_days} deliveries" in told(line.reason)) is several


@pytest.mark.full
def test_lifted_hollows_take_the_hours_of_their_soil() -> None:
    """Twice as deep, the same turf is cut and relaid, and twice the soil is moved, at the pace of a
    pass: 1.72 hours a cubic yard.
    """

    def lift(depth: str) -> tuple[float, float]:
        lows = [{"depth": depth, "share": 0.05}]
        plan = plan_of({"leveling": {"depth": None, "lows": lows}, "seeding": {"intent": "none"}})
        task = first(plan, "lift_and_fill")
        return task.person_hours, amount(task, "volume") / 0.764554857984

    (shallow_h, shallow_yd3), (deep_h, deep_yd3) = lift("2.5 in"), lift("5 in")
    # Each is rounded up to a hundredth of a cubic yard.
    assert deep_yd3 == pytest.approx(2 * shallow_yd3, abs=0.02)
    assert deep_h - shallow_h == pytest.approx(1.72 * (deep_yd3 - shallow_yd3), abs=0.02)
    assert shallow_h > 1.72 * shallow_yd3 + 2


def test_a_job_takes_whole_days_of_all_people_and_one_at_least() -> None:
    """Two for six hours: twelve hours are a day, a minute more are two."""
    setting = replace(plain(), labour=Labour(2, 6.0, 15.0, 7))
    assert [working_days(setting, hours) for hours in (0.0, 12.0, 12.02, 24.0, 25.0)] == [
        1,
        1,
        2,
        2,
        3,
    ]


def test_each_truckload_after_the_first_takes_its_own_look() -> None:
    """Three of 2 m3 are two more; one load, or no limit, none."""
    setting = plain()
    delivery = setting.brief.delivery.model_copy(update={"truck_limit_m3": 2.0})
    limited = replace(setting, brief=setting.brief.model_copy(update={"delivery": delivery}))
    each = setting.book.si("labour.delivery") / 60
    assert hours_of_trucks(limited, 6.0) == 2 * each and hours_of_trucks(limited, 2.0) == 0
    free = delivery.model_copy(update={"truck_limit_m3": None})
    free_lawn = replace(setting, brief=setting.brief.model_copy(update={"delivery": free}))
    assert hours_of_trucks(free_lawn, 60.0) == 0
