"""Minutes of watering over what rain covers, and nitrogen as need, compost and given."""

import calendar
import re
from collections import Counter
from datetime import timedelta

import pytest

from page_plan import ledgers, page_plan
from planning import example
from printed import book_html, nitrogen_chart, unset, water_chart
from tiers import sampled
from turfplan.export.sheets.care_charts import covered
from turfplan.export.sheets.look import series_days, shown
from turfplan.export.typography import NO_BREAK
from turfplan.records.plan import LedgerWeek


def test_the_bars_hold_all_minutes_of_the_plan() -> None:
    """Those of every run of every series, in the week of its day."""
    plan = page_plan()
    chart = water_chart(plan)
    assert chart is not None
    first, last = (
        next(ledger for ledger in plan.ledgers if ledger.item == "water").weeks[n] for n in (0, -1)
    )
    minutes = sum(
        task.series.minutes
        for task in shown(plan.tasks)
        if task.series is not None
        for day in series_days(task.series)
        if first.start <= day <= last.end
    )
    assert sum(int(row[1].replace(",", "")) for row in chart.table) == minutes > 0
    tallest = max(height for *_, height in chart.bars)
    per_minute = tallest / max(float(tick.text) for tick in chart.ticks)
    assert all(y + height == pytest.approx(chart.minutes_bottom) for _, y, _, height in chart.bars)
    assert per_minute > 0


def test_the_minutes_of_a_month_are_those_of_its_days() -> None:
    """A week that two months share is parted between them: the boxes of a month's card come to what
    the book tells of it."""
    plan = example("deep-two-inches")
    chart = water_chart(plan)
    assert chart is not None
    by_month: Counter[str] = Counter()
    parted = False
    for series in (task.series for task in shown(plan.tasks) if task.series is not None):
        days = series_days(series)
        parted = parted or days[0].month != days[-1].month
        for day in days:
            by_month[f"{day:%b %Y}"] += series.minutes
    assert parted
    assert {row[0]: int(row[1].replace(",", "")) for row in chart.table} == by_month


def test_rain_never_covers_more_than_all() -> None:
    """A wet week covers all, a dry one its share, one that takes nothing all."""

    def week(rain: float, taken: float) -> LedgerWeek:
        start = page_plan().tasks[0].start
        entries = {"rain": rain, "evapotranspiration": -taken}
        return LedgerWeek(start=start, end=start + timedelta(6), entries=entries, balance=0.0)

    assert covered(week(40, 20)) == covered(week(0, 0)) == 1.0
    assert covered(week(5, 20)) == 0.25


def test_bars_of_nitrogen_are_as_long_as_their_amounts() -> None:
    """The longest is the largest, and every amount stands in the title."""
    chart = nitrogen_chart(page_plan())
    assert chart is not None
    amounts = {bar.kind: float(bar.amount.split()[0]) for bar in chart.bars}
    longest = max(chart.bars, key=lambda bar: bar.width)
    assert amounts[longest.kind] == max(amounts.values())
    assert all(f"{amount:.1f}" in chart.title for amount in amounts.values())
    assert all(bar.width >= 0 for bar in chart.bars)


def test_without_accounts_nothing_is_drawn() -> None:
    """Nor where nothing is watered."""
    assert water_chart(page_plan(ledgers=())) is None
    assert nitrogen_chart(page_plan(ledgers=())) is None
    dry = page_plan(tasks=tuple(t for t in page_plan().tasks if t.series is None))
    assert dry.ledgers == ledgers() and water_chart(dry) is None


@pytest.mark.parametrize(
    "name",
    sampled(
        ["southern-hemisphere", "st-augustine-plugs", "transition-fescue"], "southern-hemisphere"
    ),
)
def test_months_of_rooted_grass_follow_each_other(name: str) -> None:
    """From the month in which the season begins, in both halves of the earth; a column in which
    nothing stands is left out."""
    plan = example(name)
    html = book_html(plan)
    (table,) = re.findall(r'(?s)<table class="plain stacked months-table">.*?</table>', html)
    named = re.findall(r'<th scope="row">(\w+)</th>', table)
    of_year = [list(calendar.month_name).index(month) for month in named]
    since = [(month - plan.tasks[0].start.month) % 12 for month in of_year]
    assert since == sorted(since) and len(since) > 3
    rows = re.findall(r"(?s)<tr>(.*?)</tr>", table)[1:]
    cells = [re.findall(r"(?s)<td[^>]*>(.*?)</td>", row) for row in rows]
    assert all(any(cell != "–" for cell in column) for column in zip(*cells, strict=True))


def test_so_little_compost_that_it_rounds_to_nothing_is_not_told() -> None:
    """Compost brings 0.0 says nothing: neither the finding nor a bar has it."""
    chart = nitrogen_chart(example("surveyed-us"))
    assert chart is not None
    assert "0.0" not in chart.title and [bar.kind for bar in chart.bars] == ["need", "given"]


def test_the_minutes_of_a_month_are_printed_once() -> None:
    """A table that moves to the next page leaves no part of itself behind."""
    pytest.importorskip("weasyprint", reason="the extra pdf is not installed", exc_type=ImportError)
    from weasyprint import HTML

    plan = example("pacific-northwest")
    texts: list[str] = []

    def read(box: object) -> None:
        texts.extend([box.text] if hasattr(box, "text") else [])
        for child in getattr(box, "children", ()):
            read(child)

    for paper in ("letter", "a4"):
        texts.clear()
        for page in HTML(string=book_html(plan, paper)).render().pages:
            read(page._page_box)
        chart = water_chart(plan)
        assert chart is not None
        for month, *_ in chart.table:
            assert sum(text.replace(NO_BREAK, " ") == month for text in texts) == 1, month


def test_no_bar_of_nitrogen_is_red() -> None:
    """Red is for what stops the work and what can injure."""
    page = book_html(example("cool-overseed"))
    fills = re.findall(r'class="ch-bar[^>]* fill="#(..)(..)(..)"', page)
    assert len(fills) > 2
    for fill in fills:
        red, green, blue = (int(part, 16) for part in fill)
        assert red < 1.5 * max(green, blue), fill


def test_watering_in_weeks_that_rain_covers_says_what_it_is_for() -> None:
    """Where a month reads 100 % beside its minutes, and only there."""
    told = set()
    for name in ("surveyed-us", "arid-bluegrass", "cool-overseed"):
        plan = example(name)
        chart = water_chart(plan)
        assert chart is not None
        full = any(row[2] in ("100%", "100 %") for row in chart.table)
        assert bool(chart.note) == full
        book = unset(book_html(plan))
        assert ("watering is for the top" in book) == full
        told.add(full)
    assert told == {True, False}
