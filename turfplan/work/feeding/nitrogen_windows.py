"""The days that are open to nitrogen, and where they end for new grass too."""

from collections.abc import Iterable
from datetime import date
from typing import Protocol

from turfplan.book.entries import Book
from turfplan.climate.record import Climate
from turfplan.records.brief import Brief


class OpenWindow(Protocol):
    """Days on which an operation is open."""

    @property
    def operation(self) -> str:
        """The operation that is open."""
        ...

    @property
    def season(self) -> str:
        """spring, summer, autumn or winter, where the lawn lies."""
        ...

    @property
    def start(self) -> date:
        """First open day."""
        ...

    @property
    def end(self) -> date:
        """Last open day."""
        ...

    @property
    def best(self) -> date:
        """The best day."""
        ...


def past_last_nitrogen(
    brief: Brief, book: Book, climate: Climate, windows: Iterable[OpenWindow], day: date
) -> bool:
    """Whether a day lies outside the days of nitrogen of a cool-season grass at a place where these
    bind new grass too, as its region advises; not where the brief asks for late nitrogen.

    A window in which grass hardly grows is that of late nitrogen, and no part of them.
    """
    if not book.setting("nitrogen_ends") or brief.local.late_nitrogen:
        return False
    least = book.si("feeding.late_growth")
    return not any(
        w.start <= day <= w.end and climate.growth_potential(w.best, "cool") >= least
        for w in windows
        if w.operation == "feed_nitrogen"
    )
