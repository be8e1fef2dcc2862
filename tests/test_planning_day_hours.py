"""No day holds more work than its hours, as far as anything can be moved; else it is told."""

from collections import defaultdict
from datetime import date, timedelta
from typing import Any

import pytest

from planning import brief_of, plan_of
from random_lawns import random_plan
from resolved_lawns import setting_of
from sample_plan import job as sample_job
from tiers import sampled
from told import all_told
from turfplan.message import as_written
from turfplan.planning import day_hours as module
from turfplan.planning.day_hours import _by_day, _over_h, told_overfull, unloaded
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task
from turfplan.work.drafts import Draft
from turfplan.work.shared_hands import is_counted

PEOPLE = {"work": {"people": 1, "hours_per_day": 6}}
LYON = {"postal_code": None, "latitude": 45.76, "longitude": 4.84, "country": "FR"}
LAWNS: dict[str, dict[str, Any]] = {
    "bare ground": {
        "lawn": {"condition": "bare", "area": "600 m2"},
        "place": LYON,
        "leveling": {"depth": "40 mm"},
    },
    "two passes": {
        "lawn": {"grass": "bermuda_common", "area": "4500 ft2"},
        "place": {"postal_code": "30606"},
    },
    "overseeded": {"lawn": {"area": "3500 ft2"}},
    "renovated": {"seeding": {"intent": "renovate"}},
    "hollows": {"leveling": {"lows": [{"depth": "3 in", "share": 0.05}]}},
    "thatch": {
        "lawn": {"grass": "bermuda_common", "thatch": "0.6 in", "condition": "dense"},
        "place": {"postal_code": "30606"},
        "leveling": {"depth": "1 in"},
        "seeding": {"intent": "none"},
    },
}


def hours_by_day(plan: Plan) -> dict[date, float]:
    """The hours of work on the first and the last day of every job."""
    hours: dict[date, float] = defaultdict(float)
    for task in plan.tasks:
        if task.series is None:
            for day in {task.start, task.end}:
                hours[day] += task.person_hours / task.duration_days
    return hours


SETTING = setting_of(brief_of({"work": {"people": 2, "hours_per_day": 5}}))
THERE = SETTING.labour.day_hours
SATURDAY = date(2027, 5, 1)


def task(name: str, hours: float, *, days: int = 1, start: date = SATURDAY, **more: Any) -> Task:
    """A job of so many person-hours."""
    made = sample_job(name, "level", name, start, days, hours)
    return made.model_copy(update=more)


def overfull(*tasks: Task, setting: Any = SETTING) -> list[tuple[date, float, float]]:
    """The days that are told, with their hours and those that there are."""
    _, told = told_overfull(setting, tasks)
    return [
        (dict(m.values)["day"].day, dict(m.values)["hours"].value, dict(m.values)["there"].value)  # type: ignore[union-attr]
        for m in told
    ]


def test_a_day_is_told_from_a_quarter_of_an_hour_beyond_its_hours_on() -> None:
    """All jobs of it together; what is over, done or waters itself does not count."""
    assert THERE == 10
    assert overfull(task("topdress.1", 6.0), task("overseed", 4.25)) == []
    assert overfull(task("topdress.1", 6.0), task("overseed", 4.5)) == [(SATURDAY, 10.5, 10.0)]
    full = task("topdress.1", 6.0)
    for change in ({"closed": "done"}, {"overdue": True}):
        assert overfull(full, task("overseed", 9.0, **change)) == []
    assert overfull(task("topdress.1", 20.8, days=2)) == [
        (SATURDAY, pytest.approx(10.4), 10.0),
        (SATURDAY + timedelta(1), pytest.approx(10.4), 10.0),
    ]


def test_a_full_day_is_told_at_each_of_its_jobs_with_the_people_it_takes() -> None:
    """12.5 hours at 5 each take three; what takes no time, or lies on other days, says nothing."""
    jobs = task("topdress.1", 8.0), task("plant", 4.5)
    other = task("inspect.colour", 3.0, start=SATURDAY + timedelta(7))
    told, _ = told_overfull(SETTING, (*jobs, task("order_material.1", 0.2), other))
    assert set(told) == {"topdress.1", "plant"}
    ((said,),) = set(told.values())
    assert dict(said.values)["people"] == 3


SARASOTA = {
    "lawn": {
        "area": "3600 ft2",
        "grass": "st_augustine",
        "soil": "sand",
        "condition": "patchy",
        "thin_share": 0.35,
    },
    "place": {"postal_code": "34231"},
    "leveling": {"depth": None, "lows": [{"depth": "2 in", "share": 0.1}]},
    "seeding": {"intent": "plant", "species": None, "form": "sod"},
    "calendar": {"weekdays": ["fri", "sat"]},
    "season": {"from": "2027-02-10"},
    "work": {"people": 1, "hours_per_day": 6},
}


def test_turf_is_lifted_after_a_day_of_sod_where_it_cannot_be_before() -> None:
    """One person does not lay 1,300 ft2 of sod and lift turf on one day."""
    plan = plan_of(SARASOTA, options=False)
    sod, lifted = (
        next(t for t in plan.tasks if t.operation == n) for n in ("plant", "lift_and_fill")
    )
    assert lifted.duration_days > 1 and (lifted.end < sod.start or lifted.start > sod.end)
    assert max(hours_by_day(plan).values()) <= 6.3


def test_a_full_day_stands_first_on_the_screen_and_at_its_jobs() -> None:
    """Where nothing can leave it: the note names the jobs, and they say it."""
    plan = plan_of(LAWNS["two passes"], {"work": {"people": 1, "hours_per_day": 2}}, options=False)
    notes = [n for n in plan.ranked if n.text.key == "season.overfull"]
    assert notes
    for note in notes:
        assert note.told_first and note.tasks
        assert all(note.text in plan.task(name).cautions for name in note.tasks)  # type: ignore[union-attr]


def test_hours_of_a_job_are_spread_over_its_days_of_work() -> None:
    """From its first to its last; days off in between have none."""
    first = SATURDAY.toordinal()
    found = list(_by_day(SETTING, "topdress", (first, first + 7), 9.0))
    assert found == [(first, 3.0), (first + 1, 3.0), (first + 7, 3.0)]
    assert list(_by_day(SETTING, "topdress", (first, first), 9.0)) == [(first, 9.0)]
    assert _over_h(SETTING, {1: 10.25, 2: 10.26, 3: 12.0}) == {
        2: pytest.approx(0.26),
        3: pytest.approx(2.0),
    }


def test_a_contractors_hours_are_those_of_his_work_alone() -> None:
    """A household keeps its own for what is left to it."""
    hired = setting_of(brief_of({"work": {"by": "contractor"}}))
    operations = hired.book.operations
    mine = next(name for name, one in operations.items() if not one.hired)
    his = next(name for name, one in operations.items() if one.hired)
    assert [is_counted(hired, name) for name in (mine, his, "unheard_of")] == [False, True, False]
    assert [is_counted(SETTING, name) for name in (mine, his, "unheard_of")] == [True] * 3


@pytest.mark.full
@pytest.mark.parametrize("lawn", sampled(LAWNS, "bare ground", "two passes"))
def test_one_person_is_asked_for_no_more_hours_than_a_day_has(lawn: str) -> None:
    """What can wait leaves a day that is full: looks, deliveries, fittings, mowing."""
    plan = plan_of(LAWNS[lawn], PEOPLE, options=False)
    full = {day: hours for day, hours in hours_by_day(plan).items() if hours > 6.3}
    assert plan.conflict is None and len(full) <= 1
    said = any("the work comes to" in caution for caution in all_told(plan.cautions))
    assert said == bool(full), "a day from which nothing can be moved is told"


@pytest.mark.full
def test_a_day_that_stays_too_full_is_told() -> None:
    """Where nothing can be moved the day is named, with the hours it takes and those there are."""
    few = {"work": {"people": 1, "hours_per_day": 3}}
    bare = {"lawn": {"condition": "bare"}, "leveling": {"depth": "2 in"}}
    plan = plan_of(bare, {"seeding": {"intent": "renovate"}}, few, options=False)
    full = [day for day, hours in hours_by_day(plan).items() if hours > 3.25]
    told = [c for c in all_told(plan.cautions) if "the work comes to" in c and "3 are at hand" in c]
    assert full and len(told) == len(full)


# A lawn of these numbers has a pass of several days that hold too much work.
SEVERAL_FULL = 77


def test_a_task_is_told_of_its_full_days_in_one_sentence() -> None:
    """However many they are; the plan names each."""
    plan = random_plan(SEVERAL_FULL)
    assert plan is not None
    told = {t.id: [c for c in all_told(t.cautions) if "the work comes to" in c] for t in plan.tasks}
    each = [c for c in all_told(plan.cautions) if "the work comes to" in c]
    assert max(map(len, told.values())) == 1 < len(each)
    assert any("up to" in text and " and " in text for texts in told.values() for text in texts)


def test_each_task_of_a_full_day_is_tried_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """One after the other; where none can leave its day the season is as it was."""
    mow, look = (Draft(name, name, "care", as_written(""), 5) for name in ("mow", "inspect"))  # type: ignore[arg-type]
    monkeypatch.setattr(module, "_on_full_days", lambda setting, dated: [mow, look])
    monkeypatch.setattr(module, "_kept_off_full_days", lambda setting, dated, draft: [draft])
    tried: list[Any] = []
    before: Any = object()
    assert unloaded(SETTING, before, tried.append) is before
    assert tried == [mow, look]


def test_a_job_of_several_days_ends_before_a_day_that_other_work_fills() -> None:
    """Stripping takes three of the week-ends before the fill; the loosening that must follow it has
    a day of its own, since the stripping, and the treatments before it, begin earlier.
    """
    plan = plan_of(
        {
            "lawn": {"area": "620 m2", "soil": "clay", "thatch": "20 mm", "condition": "patchy"},
            "place": {
                "postal_code": None,
                "latitude": -33.48,
                "longitude": -70.53,
                "country": "CL",
            },
            "leveling": {"depth": "20 mm"},
            "seeding": {"intent": "renovate", "species": "tall_fescue"},
            "season": {"from": "2026-11-15"},
            "work": {"people": 2, "hours_per_day": 5},
        }
    )
    strip = next(t for t in plan.tasks if t.id == "clear_stand")
    till = next(t for t in plan.tasks if t.id == "till")
    assert strip.duration_days > 1
    assert strip.end < till.start
    assert not any(note.key == "season.overfull" for note in plan.cautions)
