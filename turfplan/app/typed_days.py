"""Reads days as somebody typed them, in plain dates: "19 Dec to 9 Jan, 4 to 6 March"."""

import re
from collections.abc import Sequence
from datetime import date, timedelta

MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_LETTERS = 3
_LONG = (
    *("january", "february", "march", "april", "may", "june"),
    *("july", "august", "september", "october", "november", "december"),
)
_ISO = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})")
_DAY_FIRST = re.compile(r"(\d{1,2})(?:st|nd|rd|th|\.)?\s*(?:of\s+)?([a-z]+)?\.?,?\s*(\d{4})?")
_MONTH_FIRST = re.compile(r"([a-z]+)\.?\s*(\d{1,2})(?:st|nd|rd|th)?(?:,?\s+(\d{4}))?")
_MONTH_ALONE = re.compile(r"(?:last\s+|in\s+)?(?P<month>[a-z]+)\.?,?\s*(?P<year>\d{4})?")
_MONTH_ISO = re.compile(r"(?P<year>\d{4})-(?P<month>\d{1,2})")
_UNTIL = re.compile(
    r"\s+(?:to|till|until|through|thru|-)\s+|\s*[–—]\s*|(?<!\d{4})(?<!\d{4}-\d)(?<!\d{4}-\d\d)-(?=[a-z\d])"
)
# One after the other; a comma before a year belongs to its date.
_NEXT = re.compile(r"\s*;\s*|,(?!\s*\d{4}\b(?!-))\s*|\s+and\s+")

Typed = tuple[int, int | None, int | None]  # day, month, year


def spans_of(typed: str, today: date) -> tuple[tuple[date, date], ...] | None:
    """The days from one to another, both included, of each part behind a comma; None for what is
    no date, or ends before it begins.

    A date without a year is the next one that is not over today.
    """
    found = [_span(part, today) for part in _NEXT.split(typed.strip().lower()) if part]
    spans = [span for span in found if span is not None]
    return tuple(spans) if spans and len(spans) == len(found) else None


def written_spans(spans: Sequence[tuple[date, date]]) -> str:
    """Days as they can be typed again, with their years."""
    return ", ".join(
        _written(first) if first == last else f"{_written(first)} to {_written(last)}"
        for first, last in spans
    )


def last_day_of(typed: str, today: date) -> date | None:
    """The last such day that is not after today: a date ("15 April"), or of a month ("April 2027",
    "2027-04") its last day; None for what is neither, or still to come."""
    plain = typed.strip().lower()
    if found := _MONTH_ALONE.fullmatch(plain) or _MONTH_ISO.fullmatch(plain):
        name, year = found["month"], found["year"]
        month = int(name) if name.isdecimal() else _month(name)
        if month is None or not 1 <= month <= len(MONTHS):
            return None
        first = date(int(year or today.year), month, 1)
        if year is None and first > today:
            first = first.replace(year=first.year - 1)
        last = (first + timedelta(days=31)).replace(day=1) - timedelta(days=1)
        return None if first > today else min(last, today)
    date_of = _typed(plain)
    years = (today.year, today.year - 1)
    days = [_dated(date_of, date_of[2] or year) for year in years] if date_of else []
    return next((day for day in days if day is not None and day <= today), None)


def _span(part: str, today: date) -> tuple[date, date] | None:
    ends = [part] if _ISO.fullmatch(part) else _UNTIL.split(part)
    dates = [_typed(end.strip()) for end in ends]
    begin, end = dates[0], dates[-1]
    if len(dates) > 2 or begin is None or end is None:
        return None
    # "4 to 6 March", and "Mar 4 to 6".
    begin = begin[0], begin[1] or end[1], begin[2]
    end = end[0], end[1] or begin[1], end[2]
    if begin[2] is None and end[2] is not None:
        first = _dated(begin, end[2]) or date.min
        last = _dated(end, end[2]) or date.min
        begin = (*begin[:2], end[2] if first <= last else end[2] - 1)
    return _from(begin, end, today)


def _from(begin: Typed, end: Typed, today: date) -> tuple[date, date] | None:
    """The first such days that are not over today, else those of the year that was said."""
    years = (today.year - 1, today.year, today.year + 1) if begin[2] is None else (begin[2],)
    for year in years:
        first = _dated(begin, year)
        ends = [_dated(end, end[2] or year), *([] if end[2] else [_dated(end, year + 1)])]
        last = next((day for day in ends if first and day and day >= first), None)
        if first and last and (begin[2] is not None or last >= today):
            return first, last
    return None


def _typed(text: str) -> Typed | None:
    """The day, the month and the year of a date, as far as they are said."""
    if iso := _ISO.fullmatch(text):
        return int(iso[3]), int(iso[2]), int(iso[1])
    if (found := _DAY_FIRST.fullmatch(text)) is not None:
        day, name, year = found.groups()
    elif (found := _MONTH_FIRST.fullmatch(text)) is not None:
        name, day, year = found.groups()
    else:
        return None
    month = None if name is None else _month(name)
    if name is not None and month is None:
        return None
    return int(day), month, None if year is None else int(year)


def _month(name: str) -> int | None:
    """The number of a month by three of its letters or more."""
    known = name[:_LETTERS] in MONTHS and (
        name == "sept" or any(month.startswith(name) for month in _LONG)
    )
    return MONTHS.index(name[:_LETTERS]) + 1 if known else None


def _dated(typed: Typed, year: int) -> date | None:
    """The date in a year; None for one that is not in the calendar."""
    if typed[1] is None:
        return None
    try:
        return date(typed[2] or year, typed[1], typed[0])
    except ValueError:
        return None


def _written(day: date) -> str:
    return f"{day.day} {MONTHS[day.month - 1].capitalize()} {day.year}"
