"""Days are read as people write them, and written so that they are read again."""

from datetime import date

import pytest

from turfplan.app.typed_days import last_day_of, spans_of, written_spans

TODAY = date(2026, 11, 30)


@pytest.mark.parametrize(
    ("typed", "wanted"),
    [
        ("19 Dec to 9 Jan", "19 Dec 2026 to 9 Jan 2027"),
        ("19 December - 9 January", "19 Dec 2026 to 9 Jan 2027"),
        ("December 19 to January 9", "19 Dec 2026 to 9 Jan 2027"),
        ("19th of December until 9th of January 2027", "19 Dec 2026 to 9 Jan 2027"),
        ("4 to 6 March", "4 Mar 2027 to 6 Mar 2027"),
        ("4-6 Sept", "4 Sep 2027 to 6 Sep 2027"),
        ("Mar 4 – 6", "4 Mar 2027 to 6 Mar 2027"),
        ("24 Dec", "24 Dec 2026"),
        ("20 Nov to 5 Dec", "20 Nov 2026 to 5 Dec 2026"),
        ("2026-12-19 to 2027-01-09", "19 Dec 2026 to 9 Jan 2027"),
        ("19 Dec to 9 Jan, 2 Apr to 5 Apr; 1 May", None),
        ("Feb 3, 2027 to Feb 9, 2027", "3 Feb 2027 to 9 Feb 2027"),
        ("29 Feb 2028", "29 Feb 2028"),
    ],
)
def test_plain_dates(typed: str, wanted: str | None) -> None:
    """With names of months long and short, over the turn of a year, one after the other."""
    wanted = wanted or "19 Dec 2026 to 9 Jan 2027, 2 Apr 2027 to 5 Apr 2027, 1 May 2027"
    found = spans_of(typed, TODAY)
    assert found is not None and written_spans(found) == wanted
    assert spans_of(written_spans(found), date(2031, 1, 1)) == found


@pytest.mark.parametrize(
    "typed",
    ["Christmas", "12/19", "19 to 9", "31 Feb", "9 Jan 2027 to 19 Dec 2026", "5 Decimber", ","],
)
def test_what_is_no_date(typed: str) -> None:
    """Neither a feast nor what is read otherwise elsewhere is guessed."""
    assert spans_of(typed, TODAY) is None


@pytest.mark.parametrize(
    ("typed", "last"),
    [
        ("April", date(2027, 4, 30)),
        ("in October", date(2026, 10, 31)),
        ("2026-02", date(2026, 2, 28)),
        ("Sept 2026", date(2026, 9, 30)),
        ("this spring", None),
        ("June 2027", date(2027, 6, 10)),
        ("15 April", date(2027, 4, 15)),
        ("Oct 3", date(2026, 10, 3)),
        ("August 2027", None),
        ("2027-13", None),
    ],
)
def test_a_month_that_is_past_is_its_last_day(typed: str, last: date | None) -> None:
    """Without a year the last one; of the month that it is today; none of what lies ahead."""
    assert last_day_of(typed, date(2027, 6, 10)) == last
