"""Work that neighbours hear keeps to the days on which machines may run."""

from dataclasses import replace
from datetime import date, time
from typing import Any

import pytest

from planning import brief_of
from resolved_lawns import setting_of
from turfplan.files.reading.book import load_book
from turfplan.phrases import day_limits as phrases
from turfplan.phrases import lawn as assumed
from turfplan.records.constraints import DaySet
from turfplan.work.days_off import (
    days_for,
    days_of,
    heard_when,
    is_heard,
    on_sundays_alone,
    quiet_law,
    told_of_days,
    why_days,
    work_days,
)
from turfplan.work.lawn import WorkDays
from turfplan.work.operations import SURFACE, Timing, Wording, make

BOOK = load_book()
MONDAY = date(2027, 5, 3).toordinal()


def working(holidays: tuple[int, ...] = (), **tables: dict[str, Any]) -> WorkDays:
    """The days of three weeks from a Monday on; holidays by their number."""
    brief = brief_of({"calendar": None, "work": None}, tables)
    public = [MONDAY + n for n in holidays]
    return work_days(
        brief, BOOK, MONDAY, MONDAY + 20, lambda a, b: [d for d in public if a <= d <= b]
    )


def numbers(days: DaySet) -> list[int]:
    """Days of the first week by number from its Monday."""
    return [day - MONDAY for day in days.days() if MONDAY <= day < MONDAY + 7]


def away(first: int, last: int, table: str = "away") -> dict[str, Any]:
    """Nobody is there from one day to another, by number."""
    days = {"from": date.fromordinal(MONDAY + first), "to": date.fromordinal(MONDAY + last)}
    return {table: [days]}


def test_a_household_works_on_its_days_and_business_on_weekdays() -> None:
    """At weekends where nothing is told; trucks come then on Saturdays too."""
    days = working()
    assert numbers(days.work) == numbers(days.household) == numbers(days.machines) == [5, 6]
    assert numbers(days.business) == numbers(days.offices) == [0, 1, 2, 3, 4]
    assert numbers(days.deliveries) == [0, 1, 2, 3, 4, 5]
    assert numbers(days.orders) == [5], "nobody answers on a Sunday"
    mine = working(calendar={"weekdays": ["wed", "sun"]})
    assert numbers(mine.work) == [2, 6] and numbers(mine.deliveries) == [0, 1, 2, 3, 4]
    sundays = working(calendar={"weekdays": ["sun"]})
    assert numbers(sundays.orders) == [0, 1, 2, 3, 4], "then on a weekday"
    trucks = working(delivery={"allowed_weekdays": ["tue", "sat"]})
    assert numbers(trucks.deliveries) == [1, 5]


def test_holidays_rest_unless_a_household_works_on_them() -> None:
    """Business rests on them all the same."""
    every = {"weekdays": ["mon", "tue", "sat"]}
    rest = working((0, 5), calendar=every)
    assert numbers(rest.work) == [1] and numbers(rest.business) == [1, 2, 3, 4]
    assert numbers(rest.deliveries) == [1, 2, 3, 4]
    assert rest.public == (MONDAY, MONDAY + 5)
    kept = working((0, 5), calendar={**every, "holidays": "work"})
    assert numbers(kept.work) == [0, 1, 5] and numbers(kept.orders) == [1]
    hired = working((0,), work={"by": "contractor"}, calendar={"holidays": "work"})
    assert numbers(hired.work) == [1, 2, 3, 4]


def test_a_contractor_comes_while_nobody_is_at_home() -> None:
    """Not on days that are ruled out for all work; he asks for marks and takes deliveries."""
    hired = working(work={"by": "contractor"}, calendar=away(1, 2))
    assert numbers(hired.work) == [0, 1, 2, 3, 4] and numbers(hired.household) == [5, 6]
    assert numbers(hired.deliveries) == [0, 1, 2, 3, 4]
    assert numbers(hired.offices) == [0, 1, 2, 3, 4] and numbers(hired.orders) == [0, 3, 4]
    closed = working(work={"by": "contractor"}, calendar=away(1, 2, "unavailable"))
    assert numbers(closed.work) == numbers(closed.offices) == [0, 3, 4]
    assert numbers(closed.deliveries) == [0, 3, 4]
    own = working(calendar=away(4, 5))
    assert numbers(own.work) == [6] and numbers(own.offices) == [0, 1, 2, 3]
    assert numbers(own.deliveries) == [0, 1, 2, 3] and numbers(own.business) == [0, 1, 2, 3, 4]


def test_what_is_asked_for_is_so_up_to_two_months_before() -> None:
    """Work is not."""
    days = working()
    # Sixty days before the Monday lies a Thursday.
    assert min(days.business.days()) == MONDAY - 60
    assert min(days.work.days()) == MONDAY + 5


def test_machines_rest_by_law_or_by_the_owners_word() -> None:
    """On Sundays and holidays in Germany, between its hours; else as the brief says."""
    germany = {"country": "DE", "postal_code": None, "latitude": 52.5, "longitude": 13.4}
    law = quiet_law(brief_of({"place": germany}), BOOK)
    hours = tuple(round(BOOK.si(f"law.de_machines_{n}")) for n in ("from", "to"))  # type: ignore[arg-type]
    assert (law.weekdays, law.on_holidays, law.hours) == (("sun",), True, (hours,))
    assert law.rests and law.source is not None
    assert numbers(working((5,), place=germany, calendar={"holidays": "work"}).machines) == []
    plain = quiet_law(brief_of(), BOOK)
    assert not plain.rests and plain.hours == ()
    said = {"quiet_days": ["sat", "holidays"], "machine_hours": ["08:30-12:00", "14:00-19:15"]}
    own = quiet_law(brief_of({"local": said}), BOOK)
    assert (own.weekdays, own.on_holidays, own.source) == (("sat",), True, None)
    assert own.hours == ((510, 720), (840, 1155))
    assert quiet_law(brief_of({"place": germany, "local": {"quiet_days": []}}), BOOK).hours == (
        hours,
    )
    assert numbers(working(local={"quiet_days": ["sun"]}).machines) == [5]
    assert quiet_law(brief_of({"local": {"quiet_days": ["holidays"]}}), BOOK).rests


def test_hours_of_machines_are_told_where_they_are_heard() -> None:
    """To the minute, also to midnight."""
    setting = setting_of(brief_of({"local": {"machine_hours": ["08:30-24:00"]}}))
    (told,) = heard_when(setting, "core_aerate")
    (span,) = dict(told.values)["hours"].items  # type: ignore[union-attr]
    ends = dict(span.values)
    assert (ends["first"].at, ends["last"].at) == (time(8, 30), time(0))
    assert heard_when(setting, "overseed") == ()
    assert heard_when(setting_of(brief_of()), "core_aerate") == ()


def test_each_keeps_to_the_days_of_who_does_it_and_says_why() -> None:
    """Trucks, orders, offices, machines, a contractor's people, the household."""
    setting = setting_of(brief_of({"local": {"quiet_days": ["sun"]}}))
    days = setting.calendar
    assert days_for(setting, "delivery") == days.deliveries
    assert days_for(setting, "order_material") == days.orders
    assert days_for(setting, "locate_utilities") == days.offices
    assert days_for(setting, "core_aerate") == days.machines
    reasons = {
        name: why_days(setting, name) for name in ("delivery", "locate_utilities", "overseed")
    }
    assert reasons["delivery"].text == phrases.delivery_days()
    assert reasons["overseed"].text == phrases.work_days()
    assert why_days(setting, "delivery", fetched=True).text == phrases.work_days()
    assert reasons["locate_utilities"].text == phrases.office_days()
    quiet = why_days(setting, "core_aerate")
    assert (quiet.text, quiet.facts) == (phrases.machine_days(), ())
    loud = setting_of(brief_of())
    assert why_days(loud, "core_aerate").text == phrases.work_days()
    hired = setting_of(brief_of({"work": {"by": "contractor"}}))
    assert why_days(hired, "overseed").text == phrases.contractor_days()
    assert why_days(hired, "delivery").text == phrases.delivery_days()
    told = setting_of(brief_of({"delivery": {"allowed_weekdays": ["tue"]}}))
    assert why_days(told, "delivery").text == phrases.delivery_days()


def test_what_is_assumed_of_the_days_is_told() -> None:
    """Weekends or business days, holidays where there are any, no country."""

    def told(public: tuple[int, ...] = (), **tables: dict[str, Any]) -> list[str]:
        brief = brief_of({"calendar": None}, tables)
        return [m.key.rpartition(".")[2] for m in told_of_days(brief, BOOK, public)]

    assert told() == [assumed.weekends().key.rpartition(".")[2]]
    assert told(work={"by": "contractor"}) == [assumed.business_days().key.rpartition(".")[2]]
    assert told(calendar={"weekdays": ["sat"]}) == []
    rest = assumed.holidays_rest().key.rpartition(".")[2]
    assert told((5,), calendar={"weekdays": ["sat"]}) == [rest]
    assert told((5,), calendar={"weekdays": ["sat"], "holidays": "work"}) == []
    nowhere = {"postal_code": None, "country": None, "latitude": 40.0, "longitude": -77.0}
    assert told(calendar={"weekdays": ["sat"]}, place=nowhere) == [
        assumed.no_country().key.rpartition(".")[2]
    ]


@pytest.mark.full
@pytest.mark.parametrize(
    ("operation", "machines", "heard"),
    [
        ("topdress", [], False),
        ("topdress", ["topdresser"], True),
        ("topdress", ["loader"], True),
        ("incorporate", [], False),
        ("incorporate", ["topdresser"], True),
        ("mow_low", [], True),
        ("core_aerate", [], True),
        ("overseed", ["topdresser"], False),
    ],
)
def test_a_motor_is_heard_and_a_rake_is_not(
    operation: str, machines: list[str], *, heard: bool
) -> None:
    """Mowers and corers always; what is spread where a machine of one's own spreads it, and then
    the working in beside it.
    """
    setting = setting_of(
        brief_of({"work": {"machines": machines}, "local": {"quiet_days": ["sun"]}})
    )
    assert is_heard(setting, operation) is heard
    own = setting.calendar.machines if heard else setting.calendar.work
    if setting.book.operations[operation].hired:
        assert days_for(setting, operation) == own
    assert setting.calendar.machines != setting.calendar.work


def test_an_errand_falls_on_the_days_of_the_household() -> None:
    """Not on those of business; on a Sunday only where it has no other, and no law closes it then:
    whether the shop is open is asked.
    """
    assert numbers(working().errands) == [5]
    assert numbers(working(calendar={"weekdays": ["wed", "sun"]}).errands) == [2]
    alone = {"weekdays": ["sun"]}
    assert numbers(working(calendar=alone).errands) == [6]
    assert numbers(working((6,), calendar=alone).errands) == []
    shut = working(calendar=alone, local={"quiet_days": ["sun"]})
    assert numbers(shut.errands) == numbers(shut.deliveries)
    told = working(calendar=alone, delivery={"allowed_weekdays": ["tue"]})
    assert numbers(told.errands) == [1]
    assert numbers(working(work={"by": "contractor"}).errands) == [0, 1, 2, 3, 4]


def test_bags_are_fetched_on_errands_and_trucks_received_on_theirs() -> None:
    """By the draft, not by its operation."""
    setting = setting_of(brief_of({"calendar": {"weekdays": ["sun"]}}))
    load = make(
        setting, "delivery", "1", timing=Timing(SURFACE), wording=Wording(phrases.length(n=1))
    )
    assert days_of(setting, load) == setting.calendar.deliveries
    assert days_of(setting, replace(load, bags=True)) == setting.calendar.errands
    assert on_sundays_alone(setting.calendar.errands)
    assert not on_sundays_alone(setting.calendar.deliveries) and not on_sundays_alone(DaySet(()))
