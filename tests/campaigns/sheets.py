"""Everything that is printed or fed of random lawns: numbers agree wherever they stand and add up,
each job and each run has one box, conditions and stops and law stand above the steps at the size of
text, no word of the engine is told, jobs are short, and pages have no fault.

The checks are those of the examples (`test_export_agree`, `test_export_add_up`,
`test_export_sheets_week_rules`, `test_export_plain_words`, `test_export_calendar_length`,
`test_export_layout`); what they cannot ask of every lawn is that there is much to compare.
"""

import sys
import traceback
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path

import test_export_add_up as adding
import test_export_calendar_length as calendars
import test_export_sheets_week_rules as weeks
from campaigns.records import Campaign, Figures
from page_faults import judged
from printed import book_html, checklist_html
from random_lawns import random_plan
from test_export_agree import JUDGES, published, sheets_of
from test_export_layout import LARGE_TIMES, LEAST_BODY, MOST_LETTERS, gaps_of
from test_export_plain_words import assert_plain
from turfplan.export.sheets.look import monday_of
from turfplan.records.plan import Plan

# Numbers of lawns from one seed to the next.
APART = 1_000_000
# Of so many lawns one has its fullest week laid out, and its book in both prints.
BOOKS_EVERY = 10
# So many faults are told.
TOLD = 12

Check = Callable[[int], None]
OF_NUMBER: tuple[Check, ...] = (
    adding.test_what_is_printed_of_a_pass_is_what_it_takes,
    adding.test_passes_add_up_to_what_loads_are_for,
    adding.test_loads_and_parts_add_up_to_the_order,
    adding.test_a_title_says_what_the_order_holds,
    adding.test_a_watering_tells_the_water_of_one_run,
    adding.test_every_pass_says_how_heaps_lie,
    weeks.test_each_job_and_each_run_has_one_box_over_the_season,
    weeks.test_a_week_printed_alone_is_complete,
    weeks.test_conditions_stops_and_law_stand_above_the_steps,
    weeks.test_no_word_of_the_engine_stands_on_a_week,
    weeks.test_a_job_keeps_to_its_budget_of_words_and_boxes,
)


def run(count: int, seed: int, folder: Path) -> Figures:
    """Fails where any check of any lawn does; a lawn that cannot be done as asked has no sheets."""
    faults: list[str] = []
    planned = jobs = runs = books = 0
    for number in range(seed * APART, seed * APART + count):
        plan = random_plan(number)
        if plan is None:
            continue
        planned += 1
        jobs += len(weeks.jobs_of(plan))
        runs += sum(1 for _ in weeks.runs_of(plan))
        found = list(_faults(plan, number))
        if number % BOOKS_EVERY == 0:
            books += 1
            found += _faults_of_pages(plan)
        for fault in found:
            # Told at once: a full run takes a quarter of an hour.
            print(f"lawn {number}: {fault}", file=sys.stderr, flush=True)
        faults += (f"lawn {number}: {fault}" for fault in found)
    assert not faults, f"{len(faults)} faults: " + "; ".join(faults[:TOLD])
    return {"planned": planned, "jobs": jobs, "runs": runs, "books": books}


def _faults(plan: Plan, number: int) -> Iterator[str]:
    """What is wrong on the sheets of one lawn, in its calendar and in its file."""
    shown = published(plan)
    sheets = sheets_of(shown)
    for name, judge in JUDGES.items():
        if found := judge(shown, sheets):
            yield f"{name}: {found[:3]}"
    for check in OF_NUMBER:
        yield from _failed(check.__name__, lambda check=check: check(number))
    yield from _failed("engine words", lambda: assert_plain(plan))
    yield from _failed("length", lambda: calendars.assert_fits_a_phone(shown))


def _failed(name: str, check: Callable[[], None]) -> Iterator[str]:
    """The fault that a check finds, with its line."""
    try:
        check()
    except AssertionError as fault:
        (*_, last) = traceback.extract_tb(fault.__traceback__)
        yield f"{name}: line {last.lineno}: {last.line} {fault}"


def _fullest_week(plan: Plan) -> date:
    """The Monday of the week in which most jobs begin."""
    mondays = [monday_of(task.start) for task in weeks.jobs_of(plan)]
    return max(sorted(set(mondays)), key=mondays.count)


def _faults_of_pages(plan: Plan) -> Iterator[str]:
    """What is wrong with the fullest week and with a book in either print, and where large print
    takes too much paper."""
    week = judged(checklist_html(plan, _fullest_week(plan)))
    # The last page of a long day may end short.
    yield from (f"week: {fault}" for fault in week.faults if "filled to" not in fault)
    if week.body < LEAST_BODY - 0.01:
        yield f"week: text of {week.body} points"
    plain, large = judged(book_html(plan)), judged(book_html(plan, large=True))
    yield from (f"book: {fault}" for fault in plain.faults)
    yield from (f"large book: {fault}" for fault in large.faults)
    if large.pages > LARGE_TIMES * plain.pages:
        yield f"large book: {large.pages} pages for {plain.pages}"
    for print_of, book in (("book", plain), ("large book", large)):
        yield from (f"{print_of}: page {page} is half empty" for page in gaps_of(book))
    for longest in (plain.longest, large.longest):
        if len(longest) > MOST_LETTERS:
            yield f"book: a line of {len(longest)} letters: {longest}"


CAMPAIGN = Campaign("sheets", size=200, seed=0, unit="lawns", run=run)
