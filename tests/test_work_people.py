"""Work that people can do: their days, their hours, their hose, their slope."""

from datetime import date, timedelta
from typing import Any

import pytest

from planning import brief_of, first, kind, plan_brief, plan_of
from told import told
from turfplan.errors import TurfplanError
from turfplan.planning.public_holidays import HolidayList
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task

GERMANY: dict[str, Any] = {
    "lawn": {"area": "300 m2", "grass": "perennial_ryegrass", "soil": "loam"},
    "place": {
        "postal_code": None,
        "latitude": 50.1,
        "longitude": 8.7,
        "country": "DE",
        "state": "HE",
    },
    "leveling": {"depth": "6 mm"},
}
HOSE = {"water": {"application_rate": None, "possible": True}}
YEAR_2027 = (date(2027, 1, 1).toordinal(), date(2027, 12, 31).toordinal())
LONG = {"lawn": {"area": "12000 ft2"}, "work": {"people": 1}}


def work(plan: Plan) -> list[Task]:
    """The tasks with a day of their own."""
    return [task for task in plan.tasks if task.series is None]


def span(first_day: date, days: int) -> dict[str, date]:
    """Days as a brief writes them."""
    return {"from": first_day, "to": first_day + timedelta(days - 1)}


def test_only_the_names_of_the_contract_are_keys() -> None:
    """What code calls a value is no key: `start` of a span, `area_m2` of a lawn."""
    for wrong in (
        {"calendar": {"away": [{"start": date(2027, 5, 1), "end": date(2027, 5, 2)}]}},
        {"lawn": {"area_m2": "400 m2", "area": None}},
    ):
        with pytest.raises(TurfplanError) as caught:
            brief_of(wrong)
        assert any("key" in told(p.message) for p in caught.value.problems)


@pytest.mark.full
def test_nobody_works_while_away_and_a_contractor_comes() -> None:
    """The household mows, cores and receives nothing while away; a contractor does."""
    plain = plan_of({"leveling": {"depth": "0.25 in"}, "seeding": {"intent": "none"}})
    away = span(first(plain, "delivery").start, 14)
    changes = (
        {"leveling": {"depth": "0.25 in"}, "seeding": {"intent": "none"}},
        {"calendar": {"away": [away]}},
    )
    gone = plan_of(*changes)
    assert not [t for t in work(gone) if away["from"] <= t.start <= away["to"]]
    hired = plan_of(*changes, {"work": {"by": "contractor"}, "calendar": {"weekdays": None}})
    there = [t for t in work(hired) if away["from"] <= t.start <= away["to"]]
    assert all(t.start.weekday() < 5 for t in kind(hired, "topdress"))
    assert not [t for t in there if t.operation in ("inspect", "soil_test")]


@pytest.mark.full
def test_water_goes_on_while_unavailable_and_rests_while_away() -> None:
    """A hose needs somebody; a timer does not, and then seed may be sown before a journey."""
    sown = first(plan_of({"leveling": {"depth": "0 in"}}), "overseed").start
    journey = span(sown + timedelta(3), 8)
    base = {"leveling": {"depth": "0 in"}, "calendar": {"away": [journey]}}
    by_hand, timed = plan_of(base), plan_of(base, {"water": {"timer": True}})
    assert first(by_hand, "overseed").start > journey["to"] or (
        first(by_hand, "overseed").end < journey["from"] - timedelta(20)
    )
    assert first(timed, "overseed").start == sown
    busy = plan_of({"leveling": {"depth": "0 in"}, "calendar": {"unavailable": [journey]}})
    assert first(busy, "overseed").start == sown
    watered = [t for t in busy.tasks if t.id.startswith("water.germination")]
    assert any(t.start <= journey["from"] <= t.end for t in watered)


@pytest.mark.full
def test_machines_rest_on_german_sundays_and_holidays() -> None:
    """Nothing with a motor on Sundays and public holidays; the plan keeps the list it used."""
    plan = plan_of(GERMANY)
    noisy = [t for t in work(plan) if t.operation in ("mow_low", "core_aerate", "first_mow")]
    assert noisy and all(t.start.weekday() != 6 and t.end.weekday() != 6 for t in noisy)
    assert plan.holidays is not None and plan.holidays.region == "DE-HE"
    assert plan.holidays.library.startswith("holidays ") and date(2027, 10, 3) in plan.holidays.days
    assert not [t for t in work(plan) if t.start in plan.holidays.days]


def test_an_unknown_part_has_the_holidays_of_its_country_and_an_unknown_country_none() -> None:
    """A misspelt state costs no holiday; nobody is given those of another country."""
    known = HolidayList("US", None).between(*YEAR_2027)
    assert known and HolidayList("US", "ZZ").between(*YEAR_2027) == known
    assert HolidayList("XX", None).between(*YEAR_2027) == ()


@pytest.mark.full
def test_a_household_may_work_on_holidays_and_a_truck_never_comes() -> None:
    """`calendar.holidays = "work"` opens the household's days alone."""
    rests = plan_of(GERMANY, {"calendar": {"weekdays": None}})
    works = plan_of(GERMANY, {"calendar": {"weekdays": None, "holidays": "work"}})
    assert rests.holidays is not None and works.holidays is not None
    assert not [t for t in kind(works, "delivery") if t.start in works.holidays.days]


@pytest.mark.full
def test_another_list_of_holidays_moves_nothing() -> None:
    """A re-plan keeps the holidays that its plan was made with; a first plan has those of the
    list.
    """
    brief = brief_of(GERMANY)
    before = plan_brief(brief)
    summer = frozenset(range(740_000, 742_000))
    after = plan_brief(brief, previous=before, holidays=lambda *_: summer)
    assert after.holidays == before.holidays
    assert [(t.id, t.start) for t in after.tasks] == [(t.id, t.start) for t in before.tasks]
    other = plan_brief(brief, holidays=lambda *_: frozenset({date(2027, 8, 21).toordinal()}))
    assert other.holidays is not None and other.holidays.days == (date(2027, 8, 21),)


@pytest.mark.full
def test_a_long_pass_is_done_in_strips_with_fresh_loads() -> None:
    """Cut, cores, mix and seed share their days; every strip has a load that is not too old."""
    plan = plan_of(LONG)
    for layer in kind(plan, "topdress"):
        if layer.duration_days < 3:
            continue
        beside = [t for t in plan.tasks if (t.start, t.end) == (layer.start, layer.end)]
        assert len(beside) > 2
        came = [t.end for t in kind(plan, "delivery")]
        for day in (layer.start, layer.end):
            assert any(2 <= (day - load).days <= 14 or (day - load).days == 14 for load in came)
    assert any(t.duration_days > 2 for t in kind(plan, "topdress"))


@pytest.mark.full
def test_every_pass_has_material_that_is_fresh() -> None:
    """Passes weeks apart have loads of their own, each received and kept dry; those of one season
    are asked for in one order.
    """
    plan = plan_of({"seeding": {"intent": "none"}, "leveling": {"depth": "0.75 in"}})
    passes, loads = kind(plan, "topdress"), kind(plan, "delivery")
    assert len(passes) > 1 and len(loads) == len(passes) > len(kind(plan, "order_material"))
    for layer, load in zip(passes, loads, strict=True):
        assert 2 <= (layer.end - load.end).days <= 14


@pytest.mark.full
def test_one_hose_waters_what_it_can() -> None:
    """Ten thousand square feet by one hose: a part is sown, in the hours at home; work is told."""
    big = {"lawn": {"area": "10000 ft2"}, "leveling": {"depth": "0 in"}}
    plan = plan_of(big, HOSE)
    sowing = first(plan, "overseed")
    (area,) = [a.value for a in sowing.amounts if a.item == "sown area"]
    assert 0.2 * 929 <= area < 929 and any("hose" in told(c) for c in sowing.cautions)
    runs = [t for t in plan.tasks if t.id.startswith("water.germination.w1")]
    assert sum(t.series.minutes for t in runs if t.series) <= 4 * 60
    assert all(t.person_hours > 0 and any("hose" in told(h) for h in t.how) for t in runs)
    timed = plan_of(big, HOSE, {"water": {"timer": True}})
    assert not [a for a in first(timed, "overseed").amounts if a.item == "sown area"]


def test_seed_waits_where_a_hose_is_far_too_little() -> None:
    """An acre by one hose is not sown to be watered by hand: a timer is the way out."""
    acre = {"lawn": {"area": "40000 ft2"}, "leveling": {"depth": "0 in"}, **HOSE}
    plan = plan_of(acre)
    assert plan.conflict is not None and not plan.tasks
    assert any("timer" in told(option.change) for option in plan.options)
    assert all("hose" in told(rejected.reason) for rejected in plan.rejected)


@pytest.mark.full
def test_slopes_forbid_machines() -> None:
    """Past the aerator's limit no tines; past the mower's a contractor; past a lawn's nothing."""
    thin = {"leveling": {"depth": "0.25 in"}}
    steep = plan_of(thin, {"site": {"slope_percent": 22}})
    assert not kind(steep, "core_aerate") and not kind(steep, "roll") and kind(steep, "cover")
    assert any("peg" in told(line) for line in first(steep, "cover").how)
    assert any("22" in told(c) for c in steep.cautions)
    refused = plan_of(thin, {"site": {"slope_percent": 35}})
    assert refused.conflict is not None
    assert any("contractor" in told(option.title).lower() for option in refused.options)
    hired = plan_of(thin, {"site": {"slope_percent": 35}, "work": {"by": "contractor"}})
    assert hired.conflict is None
    wall = plan_of(thin, {"site": {"slope_percent": 55}, "work": {"by": "contractor"}})
    assert wall.conflict is not None and not wall.options


@pytest.mark.full
def test_machines_change_the_hours() -> None:
    """A spreading machine and a loader, and an aerator of one's own, take less than by hand."""
    by_hand = plan_of({"leveling": {"depth": "0.25 in"}})
    owned = plan_of(
        {
            "leveling": {"depth": "0.25 in"},
            "work": {"machines": ["aerator", "topdresser", "loader"]},
        }
    )
    assert first(owned, "topdress").person_hours < 0.5 * first(by_hand, "topdress").person_hours
    gone = first(by_hand, "core_aerate").person_hours - first(owned, "core_aerate").person_hours
    assert gone == pytest.approx(1.0)
