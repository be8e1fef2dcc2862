"""How long the sheets take: compared with one another, never with a clock."""

import time

from page_plan import page_plan
from turfplan.export.book import book_html
from turfplan.export.checklist import checklist_html


def best_of(times: int, work: object) -> float:
    """The shortest time of several runs, in seconds of the processor."""
    found = []
    for _ in range(times):
        start = time.process_time()
        work()  # type: ignore[operator]
        found.append(time.process_time() - start)
    return min(found)


def test_a_season_of_weeks_costs_little_more_than_its_weeks(benchmark: object) -> None:
    """The whole checklist takes less than twice the sum of its single weeks: nothing grows with the square."""
    plan = page_plan()
    checklist_html(plan)
    one = best_of(5, lambda: checklist_html(plan, plan.tasks[5].start))
    weeks = checklist_html(plan).count('class="week ')
    assert best_of(5, lambda: checklist_html(plan)) < 2 * weeks * one
    benchmark(lambda: checklist_html(plan))  # type: ignore[operator]


def test_the_book_costs_no_more_than_a_few_checklists(benchmark: object) -> None:
    """Charts, tables and notes are cheap beside the weeks."""
    plan = page_plan()
    book_html(plan)
    assert best_of(5, lambda: book_html(plan)) < 12 * best_of(5, lambda: checklist_html(plan))
    benchmark(lambda: book_html(plan))  # type: ignore[operator]
