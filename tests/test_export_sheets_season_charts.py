"""Charts lie where their numbers say, and are understood without colour."""

import re
from datetime import date

from page_plan import on, page_plan, task
from printed import book_html, months_of, timeline, unset
from told import words_of
from turfplan.export.sheets.season_charts import (
    LABEL_WIDTH,
    LEAST_BAR_WIDTH,
    MOST_ROWS,
    RIGHT_MARGIN,
    WIDTH,
    Axis,
    timelines,
)
from turfplan.message import as_written
from turfplan.publishing import told_plan

RIGHT = WIDTH - RIGHT_MARGIN


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
    assert [(m.name, m.year) for m in months] == [
        ("Nov", "2027"),
        ("Dec", ""),
        ("Jan", "2028"),
        ("Feb", ""),
    ]
    assert months[2].x == axis.x(date(2028, 1, 1))


def test_a_bar_lies_on_its_days() -> None:
    """The bar of a two-day job begins on its first morning."""
    chart = timeline(page_plan())
    row = next(row for row in chart.rows if row.name == "Top-dress")
    assert (row.bars[0].x, row.bars[0].width) == chart.axis.bar(on(8, 14), on(8, 15))
    assert row.windows == (chart.axis.bar(on(8, 11), on(8, 24)),)
    assert row.bars[0].kind == "work"


def test_rows_run_down_the_page_in_order_of_date() -> None:
    """y grows downward: the first work is at the top."""
    rows = timeline(page_plan()).rows
    assert [row.y for row in rows] == sorted(row.y for row in rows)
    assert rows[0].name == "Soil test" and rows[-1].name == "Settle check"
    assert timeline(page_plan()).height > rows[-1].y


def test_waterings_share_the_row_of_their_stage() -> None:
    """All runs of a stage lie in one row; those of a plan that knows no stages in one of their
    operation.
    """
    plan = told_plan(page_plan(), words_of())
    names = [row.name for row in timeline(plan).rows]
    assert names.count("Seed coming up") == 1 and "Water" not in names
    older = tuple(t.model_copy(update={"stage": None}) for t in plan.tasks)
    names = [row.name for row in timeline(plan.model_copy(update={"tasks": older})).rows]
    assert names.count("Water") == 1 and "Seed coming up" not in names


def test_today_is_marked_where_the_lawn_is() -> None:
    """The line stands at the morning of the day in the lawn's zone; outside the season there is
    none.
    """
    chart = timeline(page_plan())
    assert chart.today_x == chart.axis.x(on(8, 3))
    assert (
        timeline(page_plan(tasks=(task("seed", "seed", "Sow", date(2029, 8, 20)),))).today_x is None
    )


def test_done_work_lies_where_it_was_done() -> None:
    """A done bar takes its real days and is ticked."""
    done = task(
        "seed",
        "seed",
        "Sow",
        on(8, 20),
        closed="done",
        status="COMPLETED",
        actual={"start": on(8, 23), "end": on(8, 23)},
    )
    chart = timeline(page_plan(tasks=(done, task("first_mow", "care", "Mow", on(9, 20)))))
    (bar,) = chart.rows[0].bars
    assert bar.x == chart.axis.bar(on(8, 23), on(8, 23))[0]
    assert bar.state == "done" and "Aug 23" in bar.words


def test_a_season_says_what_it_comes_to() -> None:
    """The title of the timeline is its finding."""
    assert timeline(page_plan()).title == "1 pass, Aug 14 to Aug 15, 2027; seed on Aug 15, 2027"
    bare = page_plan(tasks=(task("soil_test", "prepare", "Test", on(8, 20)),))
    assert timeline(bare).title.startswith("The season of")


def test_text_of_charts_is_never_smaller_than_the_least_size() -> None:
    """Eight and a half points on the narrower paper, 1.6 times as much in large print."""
    wide_mm = 210.0 - 32.0
    for large, least in ((False, 8.5), (True, 13.6)):
        html = book_html(page_plan(), "a4", large)
        for width, chart in re.findall(
            r'<svg class="chart" viewBox="0 0 (\d+) .*?>(.*?)</svg>', html, re.DOTALL
        ):
            sizes = [float(size) for size in re.findall(r'font-size="([\d.]+)"', chart)]
            assert min(sizes) * wide_mm / 25.4 * 72 / float(width) >= least - 0.2


def test_a_season_of_many_rows_is_cut_in_large_print_alone() -> None:
    """Each piece fits on a page, and all rows stand in one of them."""
    jobs = tuple(
        task(f"job{n}", "care", f"Job {n}", on(8, 4), operation=f"job{n}") for n in range(35)
    )
    names = {f"operations.job{n}": as_written(f"Job {n}") for n in range(35)}
    plan = told_plan(page_plan(tasks=jobs, names=names), words_of())
    normal, large = (timelines(plan, words_of(), large=large) for large in (False, True))
    assert [len(chart.rows) for chart in normal] == [35]
    assert [len(chart.rows) for chart in large] == [9, 9, 9, 8] and MOST_ROWS[True] >= 9
    assert len({chart.uid for chart in large}) == 4


def test_each_chart_has_title_words_units_and_ids_of_its_own() -> None:
    """Every picture says what it is to those who do not see it, and no two share an id."""
    html = book_html(page_plan())
    charts = re.findall(r'<svg class="chart".*?</svg>', html, re.DOTALL)
    assert len(charts) == 5
    for chart in charts:
        assert re.search(r'role="img" aria-labelledby="(\S+)-t \1-d"', chart)
        assert re.search(r"<title id=\"\S+-t\">[^<]+</title>", chart) and re.search(
            r"<desc id=\"\S+-d\">[^<]+</desc>", chart
        )
        assert "<style" not in chart and "style=" not in chart
    ids = re.findall(r' id="([^"]+)"', html)
    assert len(ids) == len(set(ids))
    assert all(unit in unset(html) for unit in ("°F", "minutes a week", "lb/1,000 ft²"))
