"""What is printed from a plan needs no book: a plan keeps the words that its sheets print."""

from collections.abc import Callable

import pytest

from planning import example
from printed import english
from turfplan.export.sheets.checklist import checklist_html
from turfplan.export.sheets.day_sheet import day_html
from turfplan.export.sheets.order_sheet import order_html
from turfplan.export.sheets.season_book import book_html
from turfplan.export.tables.plan_json import plan_to_json
from turfplan.files.reading.plan import plan_from_json
from turfplan.messages import Words
from turfplan.messages.telling import words_for
from turfplan.records.plan import Plan

Sheet = Callable[[Plan, Words], str]


def first_pass(plan: Plan, words: Words) -> str:
    """The sheet of the day of the first spreading."""
    return day_html(plan, words, next(t for t in plan.tasks if t.plays("spreading")).start)


@pytest.mark.parametrize("sheet", [checklist_html, order_html, book_html, first_pass])
@pytest.mark.parametrize("name", ["surveyed-us", "british-metric"])
def test_a_sheet_is_the_same_without_the_book(name: str, sheet: Sheet) -> None:
    """Its conditions, its law and its steps too: nothing that keeps somebody from harm hangs on
    what else the program has read."""
    plan = plan_from_json(plan_to_json(example(name)))
    bare = words_for("en", plan.lawn.units, country=english(plan).country)
    assert sheet(plan, bare) == sheet(plan, english(plan))
