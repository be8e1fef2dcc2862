"""How long the sheets take and how much memory: compared with one another and with a plain loop,
never with a clock.
"""

import subprocess
import sys
from pathlib import Path

import pytest

from bench.clock import plain_loop, ratio
from page_plan import page_plan
from planning import example
from printed import book_html, checklist_html
from turfplan.export.pdf import to_pdf
from turfplan.export.tables.plan_json import plan_to_json

LARGEST = "deep-two-inches"
MOST_MB = 250


def test_a_season_of_weeks_costs_little_more_than_its_weeks(benchmark: object) -> None:
    """The whole checklist takes less than twice the sum of its single weeks: nothing grows with the
    square.
    """
    plan = page_plan()
    weeks = checklist_html(plan).count('class="week ')
    assert (
        ratio(lambda: checklist_html(plan), lambda: checklist_html(plan, plan.tasks[5].start))
        < 2 * weeks
    )
    benchmark(lambda: checklist_html(plan))  # type: ignore[operator]


def test_the_book_costs_no_more_than_a_few_checklists(benchmark: object) -> None:
    """Charts, tables and notes are cheap beside the weeks."""
    plan = page_plan()
    assert ratio(lambda: book_html(plan), lambda: checklist_html(plan)) < 12
    benchmark(lambda: book_html(plan))  # type: ignore[operator]


def test_the_largest_checklist_is_a_matter_of_milliseconds(benchmark: object) -> None:
    """At most five plain loops: 50 ms where a loop takes 10 ms."""
    plan = example(LARGEST)
    checklist_html(plan)
    assert ratio(lambda: checklist_html(plan), plain_loop) < 5
    benchmark(lambda: checklist_html(plan))  # type: ignore[operator]


def test_the_largest_book_is_printed_in_seconds() -> None:
    """The PDF of the longest season book takes at most five hundred plain loops: 5 s where a loop
    takes 10 ms.
    """
    pytest.importorskip("weasyprint", reason="the extra pdf is not installed", exc_type=ImportError)
    plan = example(LARGEST)
    page = book_html(plan)
    assert ratio(lambda: to_pdf(page, plan), plain_loop, turns=2) < 500


def test_the_largest_book_stays_within_250_megabytes() -> None:
    """The whole process that prints it, libraries included; planning is another matter and happens
    elsewhere.
    """
    pytest.importorskip("weasyprint", reason="the extra pdf is not installed", exc_type=ImportError)
    if not Path("/proc/self/status").exists():
        pytest.skip("the peak of a process is read from /proc")
    code = (
        "import sys\n"
        "from turfplan.app.outputs import words_of\n"
        "from turfplan.export.pdf import to_pdf\n"
        "from turfplan.export.sheets.season_book import book_html\n"
        "from turfplan.records.plan import Plan\n"
        "plan = Plan.model_validate_json(sys.stdin.buffer.read())\n"
        "to_pdf(book_html(plan, words_of(plan)), plan)\n"
        # Not getrusage: its peak counts the process that started this one as well.
        "print(next(line.split()[1] for line in open('/proc/self/status') "
        "if line.startswith('VmHWM')))\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        input=plan_to_json(example(LARGEST)),
        capture_output=True,
        check=True,
    )
    assert float(done.stdout) / 1024 < MOST_MB
