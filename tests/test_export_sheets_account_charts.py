"""Accounts of water and nitrogen add up on their charts and in their tables."""

from datetime import date, timedelta

import pytest

from page_plan import ledgers, on
from printed import ledger_chart
from turfplan.records.plan import Ledger, LedgerWeek
from turfplan.units import System


def points(text: str) -> list[tuple[float, float]]:
    """The points of a polyline."""
    return [(float(x), float(y)) for x, y in (pair.split(",") for pair in text.split())]


def week(start: date, entries: dict[str, float], balance: float) -> LedgerWeek:
    """A week of an account."""
    return LedgerWeek(start=start, end=start + timedelta(days=6), entries=entries, balance=balance)


def test_what_came_in_stands_on_the_line_and_what_went_out_hangs_below() -> None:
    """Blocks stack away from zero; 20 mm in and 10 mm out are twice and once as high."""
    account = Ledger(
        item="water",
        unit="mm",
        opening=0.0,
        weeks=(
            week(on(8, 2), {"rain": 10.0, "watering": 10.0, "evapotranspiration": -10.0}, 10.0),
        ),
    )
    chart = ledger_chart(account, System.METRIC)
    assert chart is not None
    rain, watering, used = chart.blocks
    assert rain.y + rain.height == pytest.approx(chart.zero_y, abs=0.11)
    assert watering.y + watering.height == pytest.approx(rain.y, abs=0.11)
    assert used.y == pytest.approx(chart.zero_y, abs=0.11)
    assert (
        rain.height
        == pytest.approx(watering.height, abs=0.11)
        == pytest.approx(used.height, abs=0.11)
    )
    assert points(chart.balance)[-1] == (chart.axis.right, pytest.approx(rain.y, abs=0.11))
    assert points(chart.balance)[0] == (chart.axis.left, chart.zero_y)
    assert len({k.pattern for k in chart.kinds}) == 3


def test_the_table_adds_up_to_the_account() -> None:
    """Months hold every week once, and end with the balance of their last week."""
    water = ledgers()[0]
    chart = ledger_chart(water, System.METRIC)
    assert chart is not None
    total = sum(float(row[1]) for row in chart.table)
    assert total == pytest.approx(
        sum(w.entries["rain"] for w in water.weeks), abs=len(chart.table) * 0.5
    )
    assert chart.table[-1][-1].replace("−", "-") == f"{water.weeks[-1].balance:.0f}"
    assert chart.header == (
        "Month",
        "Rain",
        "Watering",
        "Used by grass and air",
        "Drained or run off",
        "At the end",
    )


def test_an_account_is_read_in_the_reader_s_unit() -> None:
    """25.4 mm is an inch; nitrogen is read by the thousand square feet."""
    account = Ledger(
        item="water", unit="mm", opening=0.0, weeks=(week(on(8, 2), {"rain": 25.4}, 25.4),)
    )
    chart = ledger_chart(account, System.US)
    assert chart is not None
    assert chart.unit == "in" and chart.table[0][1:] == ("1.00", "1.00")
    food = ledger_chart(ledgers()[1], System.US)
    assert food is not None and food.unit == "lb/1,000 ft²"


def test_an_account_without_weeks_is_not_drawn() -> None:
    """No weeks, no chart."""
    assert ledger_chart(Ledger(item="water", unit="mm", opening=0.0, weeks=()), System.US) is None
