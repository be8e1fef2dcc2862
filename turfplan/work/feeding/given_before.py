"""What of the nitrogen that was given before a plan still feeds the grass in it."""

from collections.abc import Sequence
from datetime import date

from turfplan.book.entries import Book
from turfplan.work.feeding.balance import Given, counted_g_m2
from turfplan.work.feeding.stages import Quiet


def left_of_before(
    book: Book, first: date, given: Sequence[Given], quiet: Sequence[Quiet]
) -> float:
    """What feedings before `first` still give (g/m2), on days on which the stand takes any.

    What is given before a dry season, or before ground is opened, is gone when growth comes back.
    """
    idle = {
        day for span in quiet for day in range(span.first.toordinal(), span.last.toordinal() + 1)
    }
    return counted_g_m2(given, first, book.si("feeding.lasts"), idle)
