"""Charts lie where their numbers say, and are understood without colour."""

import re
from datetime import date, timedelta

import pytest

from page_plan import climate, ledgers, on, page_plan, task
from turfplan.export.book import book_html
from turfplan.export.charts import (
    LABEL_WIDTH,
    LEAST_BAR_WIDTH,
    RIGHT_MARGIN,
    WIDTH,
    Axis,
    months_of,
    soil_chart,
    timeline,
)
from turfplan.export.ledger_charts import ledger_chart
from turfplan.export.sheets import PHASE_LETTER
from turfplan.plan import Ledger, LedgerWeek
from turfplan.units import System

RIGHT = WIDTH - RIGHT_MARGIN


def points(text: str) -> list[tuple[float, float]]:
    """The points of a polyline."""
    return [(float(x), float(y)) for x, y in (pair.split(",") for pair in text.split())]


def test_the_first_day_lies_left_and_the_last_evening_right() -> None:
    """The ends of the axis are the morning of its first and the evening of its last day."""
    axis = Axis(on(8, 1), on(8, 31))
    assert axis.x(on(8, 1)) == LABEL_WIDTH
    assert axis.x(on(9, 1)) == RIGHT
    assert axis.bar(on(8, 1), on(8, 31)) == (LABEL_WIDTH, RIGHT - LABEL_WIDTH)
    assert axis.x(date(2030, 1, 1)) == RIGHT


def test_one_day_is_never_too_thin_to_see_nor_drawn_outside() -> None:
    """A day of a long season keeps the least width, also at the right edge."""
    axis = Axis(on(1, 1), date(2028, 12, 31))
    assert axis.bar(on(6, 1), on(6, 1))[1] == LEAST_BAR_WIDTH
    x, width = axis.bar(date(2028, 12, 31), date(2028, 12, 31))
    assert x + width == RIGHT


def test_months_begin_where_they_begin_and_name_the_year_once() -> None:
    """Two years, two year names, the second on the first of January."""
    axis = Axis(on(11, 1), date(2028, 2, 29))
    months = months_of(axis)
    assert [(m.name, m.year) for m in months] == [("Nov", "2027"), ("Dec", ""), ("Jan", "2028"), ("Feb", "")]
    assert months[2].x == axis.x(date(2028, 1, 1))


def test_a_bar_lies_on_its_days() -> None:
    """The bar of a two-day job begins on its first morning."""
    chart = timeline(page_plan())
    row = next(row for row in chart.rows if row.name == "Top-dress")
    assert (row.bars[0].x, row.bars[0].width) == chart.axis.bar(on(8, 14), on(8, 15))
    assert row.windows == (chart.axis.bar(on(8, 11), on(8, 24)),)
    assert row.bars[0].letter == PHASE_LETTER["level"]


def test_rows_run_down_the_page_in_order_of_date() -> None:
    """y grows downward: the first work is at the top."""
    rows = timeline(page_plan()).rows
    assert [row.y for row in rows] == sorted(row.y for row in rows)
    assert rows[0].name == "Soil test" and rows[-1].name == "Settle check"
    assert timeline(page_plan()).height > rows[-1].y


def test_today_is_marked_where_the_lawn_is() -> None:
    """The line stands at the morning of the day in the lawn's zone; outside the season there is none."""
    chart = timeline(page_plan())
    assert chart.today_x == chart.axis.x(on(8, 3))
    assert timeline(page_plan(tasks=(task("seed", "seed", "Sow", date(2029, 8, 20)),))).today_x is None


def test_done_work_lies_where_it_was_done() -> None:
    """A done bar takes its real days and is ticked."""
    done = task(
        "seed", "seed", "Sow", on(8, 20), closed="done", status="COMPLETED",
        actual={"start": on(8, 23), "end": on(8, 23)},
    )  # fmt: skip
    chart = timeline(page_plan(tasks=(done, task("first_mow", "care", "Mow", on(9, 20)))))
    (bar,) = chart.rows[0].bars
    assert bar.x == chart.axis.bar(on(8, 23), on(8, 23))[0]
    assert bar.state == "done" and "Aug 23" in bar.words


def test_every_phase_has_a_letter_of_its_own() -> None:
    """Grey print tells phases by letter and pattern."""
    assert len(set(PHASE_LETTER.values())) == len(PHASE_LETTER)
    html = book_html(page_plan())
    for letter in PHASE_LETTER.values():
        assert f'id="timeline-{letter}"' in html or letter in ("L", "F")  # these two are plain: dark, and white
        assert f"<strong>{letter}</strong>" in html


def test_the_warmest_soil_lies_highest() -> None:
    """y grows downward: the smallest y is the curve's warmest day, the largest its coldest."""
    plan = page_plan()
    chart = soil_chart(plan)
    assert chart is not None
    curve = points(chart.soil)
    warmest, coldest = min(curve, key=lambda p: p[1]), max(curve, key=lambda p: p[1])
    peak = climate().day_of_year[climate().soil_10cm_c.index(max(climate().soil_10cm_c))]
    near = chart.axis.x(on(1, 1) + timedelta(days=peak)), chart.axis.x(date(2028, 1, 1) + timedelta(days=peak))
    assert min(abs(warmest[0] - x) for x in near) < 12
    assert chart.plot_top <= warmest[1] < coldest[1] <= chart.plot_bottom


@pytest.mark.parametrize(("system", "low", "high"), [(System.US, "20", "80"), (System.METRIC, "-5", "25")])
def test_the_temperature_axis_has_round_ends_in_the_reader_s_unit(system: System, low: str, high: str) -> None:
    """The lowest tick lies on the lower edge of the plot, the highest on the upper."""
    chart = soil_chart(page_plan(system))
    assert chart is not None
    assert (chart.ticks[0].text, chart.ticks[0].y) == (low, chart.plot_bottom)
    assert (chart.ticks[-1].text, chart.ticks[-1].y) == (high, chart.plot_top)


def test_a_known_temperature_lies_at_a_known_corner() -> None:
    """A soil of 10 °C all year is half way between the ticks of 5 and 15 on a metric chart."""
    flat = climate().model_copy(update={"soil_10cm_c": (10.0,) * 73, "air_mean_c": (), "soil_error_c": 2.0})
    chart = soil_chart(page_plan(System.METRIC, climate=flat))
    assert chart is not None
    assert [t.text for t in chart.ticks] == ["5", "10", "15"]
    assert {y for _, y in points(chart.soil)} == {chart.ticks[1].y}
    reach = 0.2 * (chart.plot_bottom - chart.plot_top)
    band = sorted({y for _, y in points(chart.band)})
    assert band == pytest.approx([chart.ticks[1].y - reach, chart.ticks[1].y + reach], abs=0.11)
    assert chart.air == ""


def test_frosts_and_windows_lie_on_their_days() -> None:
    """A dotted line for each median frost, a band for each window with its best day."""
    chart = soil_chart(page_plan())
    assert chart is not None
    assert chart.frosts == ((chart.axis.x(on(10, 12)), "first frost"), (chart.axis.x(date(2028, 5, 2)), "last frost"))
    band = next(b for b in chart.bands if b.name == "Seed")
    assert band.bars[0] == chart.axis.bar(on(8, 12), on(9, 20))
    assert band.best[0] == chart.axis.x(on(8, 25))


def test_a_plan_without_curves_has_no_soil_chart() -> None:
    """Nothing is drawn where nothing is known."""
    bare = climate().model_copy(update={"soil_10cm_c": (), "day_of_year": ()})
    assert soil_chart(page_plan(climate=bare)) is None


def week(start: date, entries: dict[str, float], balance: float) -> LedgerWeek:
    """A week of an account."""
    return LedgerWeek(start=start, end=start + timedelta(days=6), entries=entries, balance=balance)


def test_what_came_in_stands_on_the_line_and_what_went_out_hangs_below() -> None:
    """Blocks stack away from zero; 20 mm in and 10 mm out are twice and once as high."""
    account = Ledger(
        item="water", unit="mm", opening=0.0,
        weeks=(week(on(8, 2), {"rain": 10.0, "watering": 10.0, "evapotranspiration": -10.0}, 10.0),),
    )  # fmt: skip
    chart = ledger_chart(account, System.METRIC)
    assert chart is not None
    rain, watering, used = chart.blocks
    assert rain.y + rain.height == pytest.approx(chart.zero_y, abs=0.11)
    assert watering.y + watering.height == pytest.approx(rain.y, abs=0.11)
    assert used.y == pytest.approx(chart.zero_y, abs=0.11)
    assert rain.height == pytest.approx(watering.height, abs=0.11) == pytest.approx(used.height, abs=0.11)
    assert points(chart.balance)[-1] == (chart.axis.right, pytest.approx(rain.y, abs=0.11))
    assert points(chart.balance)[0] == (chart.axis.left, chart.zero_y)
    assert len({k.pattern for k in chart.kinds}) == 3


def test_the_table_adds_up_to_the_account() -> None:
    """Months hold every week once, and end with the balance of their last week."""
    water = ledgers()[0]
    chart = ledger_chart(water, System.METRIC)
    assert chart is not None
    total = sum(float(row[1]) for row in chart.table)
    assert total == pytest.approx(sum(w.entries["rain"] for w in water.weeks), abs=len(chart.table) * 0.5)
    assert chart.table[-1][-1].replace("−", "-") == f"{water.weeks[-1].balance:.0f}"
    assert chart.header == ("Month", "Rain", "Watering", "Used by grass and air", "Drained or run off", "At the end")


def test_an_account_is_read_in_the_reader_s_unit() -> None:
    """25.4 mm is an inch; nitrogen is read by the thousand square feet."""
    account = Ledger(item="water", unit="mm", opening=0.0, weeks=(week(on(8, 2), {"rain": 25.4}, 25.4),))
    chart = ledger_chart(account, System.US)
    assert chart is not None
    assert chart.unit == "in" and chart.table[0][1:] == ("1.00", "1.00")
    food = ledger_chart(ledgers()[1], System.US)
    assert food is not None and food.unit == "lb/1,000 ft²"


def test_an_account_without_weeks_is_not_drawn() -> None:
    """No weeks, no chart."""
    assert ledger_chart(Ledger(item="water", unit="mm", opening=0.0, weeks=()), System.US) is None


def test_every_drawn_number_stays_inside_its_picture() -> None:
    """Nothing is cut off at an edge of a chart."""
    for account in ledgers():
        chart = ledger_chart(account, System.US)
        assert chart is not None
        assert all(chart.plot_top - 0.2 <= b.y and b.y + b.height <= chart.plot_bottom + 0.2 for b in chart.blocks)
        assert all(chart.plot_top - 0.2 <= y <= chart.plot_bottom + 0.2 for _, y in points(chart.balance))
        assert all(chart.axis.left <= b.x and b.x + b.width <= chart.axis.right + 0.6 for b in chart.blocks)


def test_each_chart_has_title_words_units_and_ids_of_its_own() -> None:
    """Every picture says what it is to those who do not see it, and no two share an id."""
    html = book_html(page_plan())
    charts = re.findall(r'<svg class="chart".*?</svg>', html, re.DOTALL)
    assert len(charts) == 4
    for chart in charts:
        assert re.search(r'role="img" aria-labelledby="(\S+)-t \1-d"', chart)
        assert re.search(r"<title id=\"\S+-t\">[^<]+</title>", chart) and re.search(
            r"<desc id=\"\S+-d\">[^<]+</desc>", chart
        )
        assert "<style" not in chart and "style=" not in chart
    ids = re.findall(r' id="([^"]+)"', html)
    assert len(ids) == len(set(ids))
    assert all(unit in html for unit in ("°F", ">in<", "lb/1,000 ft²"))
