"""Public holidays of a country: what a plan has kept stands, other years are looked up."""

from dataclasses import replace
from datetime import date

from turfplan.planning.public_holidays import HolidayList
from turfplan.records.plan import PublicHolidays


def of_year(country: str, part: str | None, year: int) -> frozenset[int]:
    """An invented country whose first of May is free, in one part the second of June too."""
    days = [date(year, 5, 1), *([date(year, 6, 2)] if part == "north" else [])]
    return frozenset(day.toordinal() for day in days) if country == "XX" else frozenset()


def day(year: int, month: int, number: int) -> int:
    """A day as an ordinal."""
    return date(year, month, number).toordinal()


LISTED = HolidayList("XX", None, of_year=of_year)
KEPT = PublicHolidays(
    library="holidays 0.1",
    region="XX",
    start=date(2027, 3, 1),
    end=date(2027, 12, 31),
    days=(date(2027, 4, 30),),
)


def test_holidays_of_each_year_lie_between_the_days_asked_for() -> None:
    """Both ends included; none without a country."""
    may = [day(year, 5, 1) for year in (2026, 2027, 2028)]
    assert list(LISTED.between(day(2026, 1, 1), day(2028, 12, 31))) == may
    assert list(LISTED.between(may[1], may[1])) == [may[1]]
    assert list(LISTED.between(may[1] + 1, may[2] - 1)) == []
    north = replace(LISTED, part="north")
    assert list(north.between(day(2027, 1, 1), day(2027, 12, 31))) == [may[1], day(2027, 6, 2)]
    assert list(replace(LISTED, country=None).between(may[0], may[2])) == []


def test_what_a_plan_has_kept_stands_for_its_time() -> None:
    """However the list has changed since; before and after it the list holds. What another region
    has kept says nothing.
    """
    kept = replace(LISTED, kept=KEPT)
    whole = kept.between(day(2026, 1, 1), day(2028, 12, 31))
    assert list(whole) == [day(2026, 5, 1), day(2027, 4, 30), day(2028, 5, 1)]
    assert list(kept.between(day(2027, 3, 1), day(2027, 12, 31))) == [day(2027, 4, 30)]
    other = replace(kept, part="north")
    assert list(other.between(day(2027, 3, 1), day(2027, 12, 31))) == [
        day(2027, 5, 1),
        day(2027, 6, 2),
    ]


def test_a_plan_keeps_its_holidays_with_where_they_come_from() -> None:
    """Those of its days; the library stays the one that listed them first."""
    first, last, days = day(2027, 4, 1), day(2027, 5, 31), [day(2027, 5, 1), day(2027, 6, 2)]
    fresh = replace(LISTED, part="north").record(first, last, days)
    assert fresh is not None and fresh.library.startswith("holidays ")
    assert fresh.library != KEPT.library
    assert (fresh.region, fresh.days) == ("XX-north", (date(2027, 5, 1),))
    assert (fresh.start, fresh.end) == (date(2027, 4, 1), date(2027, 5, 31))
    again = replace(LISTED, kept=KEPT).record(first, last, days)
    assert again is not None and again.library == "holidays 0.1"
    assert replace(LISTED, country=None).record(first, last, days) is None
