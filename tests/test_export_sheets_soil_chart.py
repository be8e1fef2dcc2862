"""Soil temperature lies where its numbers say, in the reader's unit."""

import re
from datetime import date, timedelta
from itertools import pairwise

import pytest

from page_plan import climate, on, page_plan
from planning import example
from printed import book_html, soil_chart
from turfplan.units import System


def points(text: str) -> list[tuple[float, float]]:
    """The points of a polyline."""
    return [(float(x), float(y)) for x, y in (pair.split(",") for pair in text.split())]


def test_the_warmest_soil_lies_highest() -> None:
    """y grows downward: the smallest y is the curve's warmest day, the largest its coldest."""
    plan = page_plan()
    chart = soil_chart(plan)
    assert chart is not None
    curve = points(chart.soil)
    warmest, coldest = min(curve, key=lambda p: p[1]), max(curve, key=lambda p: p[1])
    peak = climate().day_of_year[climate().soil_10cm_c.index(max(climate().soil_10cm_c))]
    near = (
        chart.axis.x(on(1, 1) + timedelta(days=peak)),
        chart.axis.x(date(2028, 1, 1) + timedelta(days=peak)),
    )
    assert min(abs(warmest[0] - x) for x in near) < 12
    assert chart.plot_top <= warmest[1] < coldest[1] <= chart.plot_bottom


@pytest.mark.parametrize(
    ("system", "low", "high"), [(System.US, "20", "80"), (System.METRIC, "-5", "25")]
)
def test_the_temperature_axis_has_round_ends_in_the_reader_s_unit(
    system: System, low: str, high: str
) -> None:
    """The lowest tick lies on the lower edge of the plot, the highest on the upper."""
    chart = soil_chart(page_plan(system))
    assert chart is not None
    assert (chart.ticks[0].text, chart.ticks[0].y) == (low, chart.plot_bottom)
    assert (chart.ticks[-1].text, chart.ticks[-1].y) == (high, chart.plot_top)


def test_a_known_temperature_lies_at_a_known_corner() -> None:
    """A soil of 10 °C all year is half way between the ticks of 5 and 15 on a metric chart."""
    flat = climate().model_copy(
        update={"soil_10cm_c": (10.0,) * 73, "air_mean_c": (), "soil_error_c": 2.0}
    )
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
    assert chart.frosts == (
        (chart.axis.x(on(10, 12)), "first frost"),
        (chart.axis.x(date(2028, 5, 2)), "last frost"),
    )
    band = next(b for b in chart.bands if b.name == "Seed")
    assert band.bars[0] == chart.axis.bar(on(8, 12), on(9, 20))
    assert band.best[0] == chart.axis.x(on(8, 25))


def test_a_plan_without_curves_has_no_soil_chart() -> None:
    """Nothing is drawn where nothing is known."""
    bare = climate().model_copy(update={"soil_10cm_c": (), "day_of_year": ()})
    assert soil_chart(page_plan(climate=bare)) is None


def test_two_frosts_soon_after_each_other_are_told_apart() -> None:
    """In a mild winter the last follows the first within weeks: the first is told before its line,
    so that neither lies over the other."""
    texts = re.findall(
        r'<text[^>]*? x="([\d.]+)"[^>]*? text-anchor="(\w+)"[^>]*>(?:first|last) frost</text>',
        book_html(example("st-augustine-plugs")),
    )
    spans = sorted(
        (float(x) - 55, float(x)) if end == "end" else (float(x), float(x) + 55) for x, end in texts
    )
    assert len(spans) > 1
    assert all(left[1] <= right[0] for left, right in pairwise(spans))
