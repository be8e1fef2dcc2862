"""Facts as they are cited."""

from told import told
from turfplan.book.citations import cited
from turfplan.files.reading.book import load_book


def test_a_fact_that_the_book_lacks_is_not_cited() -> None:
    """One that it has is, with its value and who says so."""
    book = load_book()
    assert cited(book, "no.such.fact") is None
    message = cited(book, "topdress.settle_allowance")
    assert message is not None and "%" in told(message)
