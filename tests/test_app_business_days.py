"""Plans keep to the days of the business: the weekdays of its crews, and when it is closed."""

import re
from datetime import date, timedelta
from pathlib import Path

import pytest

from planned_business import DAY, written
from turfplan.app.client_lists import AskedList, list_jobs
from turfplan.app.office_hours import week_hours
from turfplan.app.office_list import OfficeShelf
from turfplan.app.plan_clients import plan_clients
from turfplan.app.plan_lawn import PlanRun
from turfplan.business.business_days import with_business_days
from turfplan.business.business_record import Business
from turfplan.business.client_record import Client
from turfplan.files.reading.brief import brief_from
from turfplan.files.reading.business import read_business
from turfplan.files.reading.plan import read_plan
from turfplan.records.brief import Brief


def planned(data: Path, today: date) -> dict[str, str]:
    """What news each lawn has after it was planned on a day."""
    found = plan_clients(None, data, seen=lambda *_: None, run=PlanRun(today), processes=1)
    assert all(season.state == "planned" for season in found.seasons)
    return {season.client: season.news for season in found.seasons}


def left_to_clients(data: Path, operation: str) -> None:
    """From now on clients do this operation, and no other."""
    file = data / "business.toml"
    text = re.sub(r"(?m)^client_does = .*$", "", file.read_text(encoding="utf-8"))
    file.write_text(f'client_does = ["{operation}"]\n{text}', encoding="utf-8")


def work_days(data: Path, name: str = "ash") -> set[date]:
    """The days on which jobs of a plan begin that the business does."""
    plan = read_plan(data / "lawns" / name)
    assert plan is not None
    theirs = ("water", "mow", "mow_old", "first_mow", "last_mow")
    return {
        task.start for task in plan.tasks if task.series is None and task.operation not in theirs
    }


def test_no_job_lies_where_no_crew_works(data: Path) -> None:
    """Looks and samples too, which a household does at the weekend: each day of work has hours."""
    for name in ("ash", "elm"):
        assert {day.weekday() for day in work_days(data, name)} <= set(range(5))
    day = min(work_days(data))
    (hours,) = list_jobs(data, AskedList("day", day)).hours
    assert hours.there and not hours.is_over


def test_what_clients_do_is_in_no_hours_of_a_crew(data: Path) -> None:
    """A job that the client does is on no list and in no hours, else it is; what is said of it
    holds from the next look on."""
    plan = read_plan(data / "lawns" / "ash")
    assert plan is not None
    sow = next(task for task in plan.tasks if task.plays("sowing"))

    def listed() -> tuple[set[str], float]:
        jobs = list_jobs(data, AskedList("week", sow.start))
        tasks = {job.task for lawn in jobs.lawns if lawn.id == "ash" for job in lawn.jobs}
        return tasks, sum(day.needed for day in jobs.hours)

    before, hours = listed()
    assert sow.id in before
    left_to_clients(data, sow.operation)
    after, fewer = listed()
    assert sow.id not in after and fewer < hours


def test_a_closed_week_and_other_weekdays_are_news(data: Path) -> None:
    """What the business says anew moves the jobs that it takes the day from, at once."""
    plan = read_plan(data / "lawns" / "ash")
    assert plan is not None
    sow = next(task for task in plan.tasks if task.plays("sowing"))
    first, last = sow.start - timedelta(2), sow.start + timedelta(4)
    assert planned(data, DAY) == {"ash": "none", "elm": "none"}
    written(data, "closed = [", f"closed = [{{ from = {first}, to = {last} }}, ")
    assert planned(data, DAY) == {"ash": "changed", "elm": "changed"}
    assert not [day for day in work_days(data) if first <= day <= last]
    written(data, 'weekdays = ["mon", "tue", "wed", "thu", "fri"]\nmachines', 'weekdays = ["mon", '
            '"tue", "thu"]\nmachines')  # fmt: skip
    assert planned(data, DAY)["ash"] == "changed"
    plan = read_plan(data / "lawns" / "ash")
    assert plan is not None
    days = {t.start.weekday() for t in plan.tasks if t.plays("sowing", "spreading", "coring")}
    assert days <= {0, 1, 3}
    assert planned(data, DAY) == {"ash": "none", "elm": "none"}


CREWS = {
    "name": "x",
    "crew": [
        {"name": "North", "weekdays": ["mon", "tue"]},
        {"name": "south", "weekdays": ["wed", "sat"]},
    ],
    "closed": [{"from": date(2027, 7, 4), "to": date(2027, 7, 11)}],
}


@pytest.mark.parametrize(
    ("own", "said", "weekdays"),
    [
        ({}, None, ("mon", "tue", "wed", "sat")),
        ({"Crew": " north "}, None, ("mon", "tue")),
        ({"CREW": "south"}, None, ("wed", "sat")),
        ({"crew": "nobody"}, None, ("mon", "tue", "wed", "sat")),
        ({"crew": "north"}, ["fri"], ("fri",)),
    ],
)
def test_whose_days_count(
    own: dict[str, str], said: list[str] | None, weekdays: tuple[str, ...]
) -> None:
    """Those of the lawn's crew, of all where it names none that there is; the brief's go before."""
    found = with_business_days(brief("contractor", said), Client(own=own), business())
    assert found.calendar.weekdays == weekdays
    assert [span.end for span in found.calendar.unavailable] == [date(2027, 7, 11)]
    assert with_business_days(found, Client(own=own), business()) == found, "said once"


def test_who_works_alone_keeps_to_no_crew() -> None:
    """A household that works with advice alone has its own days; a business without crews and
    closed days says nothing."""
    own = brief("household", None)
    assert with_business_days(own, Client(), business()) is own
    hired = brief("contractor", None)
    assert with_business_days(hired, Client(), Business(name="x")) is hired


def brief(by: str, weekdays: list[str] | None) -> Brief:
    """A brief of a lawn that somebody works on."""
    tables = {
        "lawn": {"area": "300 m2", "grass": "tall_fescue"},
        "place": {"postal_code": "17601"},
        "work": {"by": by},
        "calendar": {"weekdays": weekdays} if weekdays else {},
    }
    return brief_from(tables)


def business() -> Business:
    """A business with two crews and a closed week."""
    return Business.model_validate(CREWS, by_alias=True, by_name=False)


def test_the_office_s_week_and_a_crew_s_day_leave_out_what_clients_do(data: Path) -> None:
    """As the list of the week does: the hours of both are the same."""
    plan = read_plan(data / "lawns" / "ash")
    assert plan is not None
    sow = next(task for task in plan.tasks if task.plays("sowing"))

    def seen() -> tuple[set[str], list[float]]:
        business, lawns = read_business(data), OfficeShelf(data).lawns()
        ash = next(lawn for lawn in lawns if lawn.id == "ash")
        jobs = {job.task for job in ash.jobs_of(sow.start)}
        return jobs, [day.needed for day in week_hours(lawns, business, sow.start)]

    before, _ = seen()
    assert sow.id in before
    left_to_clients(data, sow.operation)
    after, hours = seen()
    assert sow.id not in after
    listed = list_jobs(data, AskedList("week", sow.start)).hours
    assert hours == [day.needed for day in listed]
