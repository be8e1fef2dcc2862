"""The seasons of a year at home, north or south of the equator.

Where they begin stands in the book.
"""

from datetime import date
from typing import Literal

from turfplan.book.entries import Book
from turfplan.records.book_names import YearSeason
from turfplan.work.drafts import OpenDays

Half = Literal["spring", "autumn"]
_SEASONS: tuple[YearSeason, ...] = ("spring", "summer", "autumn", "winter")
_MONTHS = 12


def season_of(book: Book, day: date, *, southern: bool) -> YearSeason:
    """The local meteorological season of a day.

    March to May is spring in the north and autumn in the south.
    """
    begun = _month_at_home(day.month, southern) - round(book.si("year.spring_begins"))
    return _SEASONS[begun % _MONTHS * len(_SEASONS) // _MONTHS]


def half_of(book: Book, day: date, *, southern: bool) -> Half:
    """The half of the growing year that a day lies in: growth comes back, or goes."""
    return (
        "spring"
        if _month_at_home(day.month, southern) < round(book.si("year.autumn_half_begins"))
        else "autumn"
    )


def half_of_window(book: Book, window: OpenDays, *, southern: bool) -> Half:
    """The half of the growing year of a window: of cool-season grass that of its rule, whatever the
    month of its best day, since spring near the poles goes on past the solstice."""
    rules = (rule for rule in book.windows if rule.id == window.rule and rule.grass == "cool")
    told = next((rule.half for rule in rules), "across")
    if told == "across":
        return half_of(book, window.best, southern=southern)
    return "spring" if told == "rising" else "autumn"


def next_growing_year(book: Book, after: date, *, southern: bool) -> date:
    """The first day of the growing year that begins in the calendar year after a day's; in the
    south, whose calendar lies half a year behind its seasons, in the months that are its like."""
    month = _month_at_home(round(book.si("year.growth_begins")), southern)
    past_turn = not southern or after.month > _MONTHS // 2
    return date(after.year + past_turn, month, 1)


def _month_at_home(month: int, southern: bool) -> int:
    """The month of one half of the earth that has the weather of a month of the other."""
    return (month - 1 + _MONTHS // 2) % _MONTHS + 1 if southern else month
