"""Yearly stretches without nitrogen, by the owner's word or the state's."""

from datetime import date
from typing import Any

import pytest

import water_cases as cases
from turfplan.message import DateInYear, as_written
from turfplan.work.feeding.blackouts import Blackout, blackouts_of, free_days, in_us, state_of

BOOK = cases.book()


def blackout(first: tuple[int, int], last: tuple[int, int]) -> Blackout:
    """A rule of the owner's."""
    return Blackout(first, last, as_written("rule"), as_written("source"))


@pytest.mark.parametrize(
    ("first", "last", "inside", "outside"),
    [
        ((6, 15), (9, 30), ((6, 15), (7, 1), (9, 30)), ((6, 14), (10, 1), (1, 1))),
        ((12, 1), (4, 1), ((12, 1), (1, 1), (4, 1), (12, 31)), ((11, 30), (4, 2), (7, 1))),
        ((5, 5), (5, 5), ((5, 5),), ((5, 4), (5, 6))),
    ],
)
def test_a_blackout_holds_from_its_first_to_its_last_day(
    first: tuple[int, int], last: tuple[int, int], inside: Any, outside: Any
) -> None:
    """Over New Year too."""
    rule = blackout(first, last)
    assert all(rule.holds(date(2027, *day)) for day in inside)
    assert not any(rule.holds(date(2027, *day)) for day in outside)


def test_free_days_are_the_stretches_between_blackouts() -> None:
    """To both ends; one day alone is a stretch."""
    days = date(2027, 5, 1), date(2027, 5, 10)
    assert free_days(*days, ()) == [days] and free_days(days[1], days[0], ()) == []
    found = free_days(*days, [blackout((5, 3), (5, 4)), blackout((5, 6), (5, 9))])
    assert found == [
        (date(2027, 5, 1), date(2027, 5, 2)),
        (date(2027, 5, 5), date(2027, 5, 5)),
        (date(2027, 5, 10), date(2027, 5, 10)),
    ]
    assert free_days(*days, [blackout((1, 1), (12, 31))]) == []


def of(state: str | None = None, country: str = "US", **local: Any) -> Any:
    """The blackouts of a brief, and what is said."""
    brief = cases.brief(local=local)
    place = brief.place.model_copy(update={"state": state, "country": country})
    return blackouts_of(brief.model_copy(update={"place": place}), BOOK)


def test_the_owners_spans_win_also_where_there_are_none() -> None:
    """By month and day."""
    rules, said = of("NY", nitrogen_blackouts=[{"from": "06-15", "to": "09-30"}])
    assert [(r.start, r.end) for r in rules] == [((6, 15), (9, 30))] and said is None
    assert of("NY", nitrogen_blackouts=[]) == ((), None)


def test_a_states_rule_is_kept_and_told_for_the_owner_to_confirm() -> None:
    """New York from 1 December to 1 April, told by month and day."""
    rules, said = of("NY")
    (rule,) = rules
    assert (rule.start, rule.end) == ((12, 1), (4, 1)) and said is not None
    told = dict(rule.what.values)
    assert (told["first"], told["last"]) == (DateInYear("12-01"), DateInYear("04-01"))
    _, elsewhere = of(None, "GB")
    _, unknown = of(None, "US")
    assert elsewhere != unknown and None not in (elsewhere, unknown)


def test_a_lawn_lies_in_the_united_states_by_its_country_or_its_postal_code() -> None:
    """Another country with a postal code does not."""

    def place(**values: Any) -> Any:
        brief = cases.brief()
        return brief.model_copy(update={"place": brief.place.model_copy(update=values)})

    assert in_us(place(country="US", postal_code=None))
    assert in_us(place(country=None, postal_code="17601"))
    assert not in_us(place(country=None, postal_code=None))
    assert not in_us(place(country="CA", postal_code="12345"))
    assert state_of(place(country=None, state="NY")) == "us_ny"
    assert state_of(place(country="CA", state=None)) == "ca_"
