"""When a cause that was found alive is looked for again."""

from datetime import date

import pytest

from turfplan.files.reading.book import load_book
from turfplan.planning.history import looked_again
from turfplan.records.past import TaskHistory

BOOK = load_book()


@pytest.mark.parametrize("found", [date(2027, 4, 10), date(2027, 12, 20)])
def test_a_live_cause_is_looked_for_again_after_its_rest(found: date) -> None:
    """So many days later as the book has; never where none was found."""
    rest = round(BOOK.si("site.recheck"))
    again = looked_again(TaskHistory(alive_on=found), BOOK)
    assert rest > 0 and again == found.toordinal() + rest
    assert looked_again(TaskHistory(), BOOK) is None
