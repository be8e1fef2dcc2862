"""How to measure, and how many points give which accuracy."""

import math
from dataclasses import replace
from itertools import pairwise
from types import SimpleNamespace
from typing import cast
from unittest import mock

import pytest

from lawn_surveys import BOOK_LIKE
from turfplan.files.reading.book import load_book
from turfplan.files.reading.survey_table import survey_of_text
from turfplan.site.survey import methods
from turfplan.site.survey.methods import (
    METHODS,
    _height_mm,
    accuracies,
    reference_points,
    spacings_for,
)

pytest.importorskip("scipy")


# The hollows of the invented ground: where their middles lie, as shares of the length and the width
# of 200 m2, how wide they are, m, and how deep they are there, mm.
BOWLS = (
    (0.21, 0.30, 1.6, 30.0),
    (0.71, 0.24, 1.3, 22.0),
    (0.45, 0.66, 1.8, 26.0),
    (0.83, 0.76, 1.5, 35.0),
    (0.14, 0.78, 1.4, 18.0),
)


@pytest.mark.parametrize(("across", "up", "radius", "deep"), BOWLS)
def test_a_hollow_of_the_invented_ground_is_a_paraboloid(
    across: float, up: float, radius: float, deep: float
) -> None:
    """Half a radius off its middle it is three quarters as deep, along the lawn as across it, and
    at its rim not at all; tiles repeat both ways.
    """
    length, width = 17.32, 11.55
    x, y = across * length, up * width
    for dx, dy in ((0.5, 0.0), (0.0, -0.5), (0.3, 0.4)):
        here = x + dx * radius, y + dy * radius
        for tiles in (0, 2):
            there = here[0] + tiles * length, here[1] + 3 * tiles * width
            found = _height_mm(*there, length, width)
            assert found == pytest.approx(-20 * there[0] - 0.75 * deep)
    edge = _height_mm(x - 0.99 * radius, y, length, width)
    assert edge == pytest.approx(-20 * (x - 0.99 * radius) - deep * (1 - 0.99**2))
    assert _height_mm(x - 1.01 * radius, y, length, width) == -20 * (x - 1.01 * radius)


def found_volume(volume: float, low: float, high: float, points: int) -> SimpleNamespace:
    """What the table reads of a fill."""
    return SimpleNamespace(volume_m3=volume, low_m3=low, high_m3=high, points=points)


def test_an_accuracy_is_half_the_band_of_all_shifts_as_a_share_of_their_volume() -> None:
    """Of four: bands of 2, 4, 1 and 3 around volumes of 5, 6, 4 and 5; no volume has no share."""
    fills = [
        found_volume(5.0, 4.0, 6.0, 30),
        found_volume(6.0, 4.0, 8.0, 31),
        found_volume(4.0, 3.5, 4.5, 32),
        found_volume(5.0, 3.0, 6.0, 33),
    ]
    none = [found_volume(0.0, 0.0, 1.0, 9)] * 4
    holed = replace(
        BOOK_LIKE, holes=(((0.0, 0.0), (1.0, 0.0), (0.0, 1.0)),), target="plane", cells_wanted=7
    )
    with mock.patch.object(methods, "fill_from_survey", side_effect=[*fills, *none]) as asked:
        first, second = accuracies(150.0, holed, (5.0, 7.5))
    assert (first.spacing_m, first.points, first.share) == (5.0, 30, pytest.approx(5.0 / 20.0))
    assert (second.spacing_m, second.points, second.share) == (7.5, 9, math.inf)
    plain = asked.call_args_list[0].args[1]
    assert plain.outline == (((0.0, 0.0), (15.0, 0.0), (15.0, 10.0), (0.0, 10.0)),)
    assert (plain.holes, plain.zones, plain.target, plain.cells_wanted) == ((), (), "own_fall", 800)
    assert plain.instrument_error_mm == BOOK_LIKE.instrument_error_mm
    shifts = ((0.0, 0.0), (0.5, 0.0), (0.25, 0.5), (0.75, 0.25))
    wanted = [reference_points(15.0, 10.0, 5.0, shift) for shift in shifts]
    assert [call.args[0] for call in asked.call_args_list[:4]] == wanted


@pytest.mark.parametrize(
    ("length", "width", "tiles"),
    [(15.0, 10.0, 1), (21.0, 20.0, 1), (23.0, 20.0, 2), (30.0, 30.0, 2)],
)
def test_the_invented_ground_has_a_tile_for_each_two_hundred_square_metres(
    length: float, width: float, tiles: int
) -> None:
    """As many both ways, to the nearest; points are read a shift further on."""
    for shift in ((0.0, 0.0), (0.5, 0.25)):
        for p in reference_points(length, width, 2.5, shift):
            x, y = p.x_m + 2.5 * shift[0], p.y_m + 2.5 * shift[1]
            assert p.height_mm == pytest.approx(_height_mm(x, y, length / tiles, width / tiles))


def test_a_day_holds_a_thousand_points() -> None:
    """Exactly so many are walked; one square metre more is too much."""
    assert spacings_for(1000.0, us=False)[0] == 1.0 and spacings_for(1001.0, us=False)[0] == 2.0
    assert spacings_for(4001.0, us=False) == (4.0,)
    assert spacings_for(800.0, us=True)[0] == pytest.approx(3 * 0.3048)


def test_every_method_names_columns_that_are_read_and_an_error_of_the_book() -> None:
    """What the sheet tells people to write is what the reader understands."""
    book = load_book()
    for method in METHODS:
        assert book.si(method.error) > 0
        for columns in (method.columns_us, method.columns_metric):
            names = [name.strip() for name in columns.split(",")]
            first = {"point": "BM", "what": "ground"}
            row = ",".join(first.get(name, "5") for name in names)
            last = ",".join(
                {"point": "g1", "what": "ground"}.get(name, "" if name.startswith("back") else "5")
                for name in names
            )
            survey = survey_of_text("\n".join([",".join(names), row, last]))
            assert survey.points or survey.lows


@pytest.mark.full
def test_closer_points_give_a_narrower_band() -> None:
    """The table falls from the finest spacing to the widest, and more points stand on each row
    above.
    """
    found = accuracies(300.0, BOOK_LIKE, (0.75, 1.5, 2.5))
    assert found[0].points > found[1].points > found[2].points
    assert found[0].share < found[1].share < found[2].share


@pytest.mark.full
def test_luck_does_not_order_the_table() -> None:
    """Where the grid happens to fall is averaged out: no row promises a tenth more than a closer
    spacing above it.
    """
    found = accuracies(300.0, BOOK_LIKE, (1.0, 1.5, 2.0, 3.0))
    assert all(wider.share > 0.9 * closer.share for closer, wider in pairwise(found))


@pytest.mark.full
def test_a_better_instrument_gives_a_narrower_band() -> None:
    """At one spacing."""
    fine, coarse = (
        accuracies(400.0, replace(BOOK_LIKE, instrument_error_mm=e), (1.0,))[0] for e in (1.0, 5.0)
    )
    assert fine.share < coarse.share


def test_the_reference_ground_repeats_over_large_lawns() -> None:
    """A lawn four times as large has about four times the hollows."""
    small, large = (reference_points(side, side, 0.5) for side in (14.0, 28.0))

    def missing(points: object) -> float:
        found = cast("tuple[object, ...]", points)
        return sum(
            -20.0 * p.x_m - (p.height_mm or 0.0)  # type: ignore[attr-defined]
            for p in found
        )

    assert missing(large) == pytest.approx(4 * missing(small), rel=0.1)


def test_a_grid_has_its_points_on_the_edges_too() -> None:
    """Twelve by eight metres at two: seven by five points, and two each way at least."""
    points = reference_points(12.0, 8.0, 2.0)
    assert len(points) == 35
    assert {(p.x_m, p.y_m) for p in points} == {
        (2.0 * x, 2.0 * y) for x in range(7) for y in range(5)
    }
    assert len(reference_points(1.0, 1.0, 4.0)) == 4


def test_a_shift_moves_the_ground_by_a_part_of_the_spacing() -> None:
    """A whole one brings each point the height of its neighbour."""
    still, moved = (reference_points(12.0, 8.0, 2.0, shift) for shift in ((0, 0), (1.0, 0)))
    heights = {(p.x_m, p.y_m): p.height_mm for p in still}
    assert all(
        p.height_mm == pytest.approx(heights[p.x_m + 2, p.y_m]) for p in moved if p.x_m + 2 < 12
    )


@pytest.mark.full
def test_the_table_is_for_a_lawn_of_that_area() -> None:
    """Half as long again as wide: 150 m2 are 15 m by 10 m, with four by three points at 5 m."""
    (row,) = accuracies(150.0, BOOK_LIKE, (5.0,))
    assert row.points == 4 * 3


def test_a_grid_lies_where_the_ground_begins_unless_it_is_shifted() -> None:
    """Neither along the lawn nor across it."""
    assert reference_points(15.0, 10.0, 1.0) == reference_points(15.0, 10.0, 1.0, (0.0, 0.0))


def test_a_small_lawn_is_walked_as_closely_as_the_table_goes() -> None:
    """From three quarters of a metre on; a large one no closer than a day holds."""
    assert spacings_for(100.0, us=False) == (1.0, 2.0, 4.0)
    assert spacings_for(9000.0, us=False) == spacings_for(1e6, us=False) == (4.0,)


# The hollows of the invented ground: where their middles lie, as shares of the length and the width
# of 200 m2, and how deep they are there, mm.
HOLLOWS = (
    (0.21, 0.30, 30.0),
    (0.71, 0.24, 22.0),
    (0.45, 0.66, 26.0),
    (0.83, 0.76, 35.0),
    (0.14, 0.78, 18.0),
)


def test_the_invented_ground_is_the_one_that_the_table_is_reckoned_on() -> None:
    """Its five hollows lie where they lay, below a fall of two percent, and nowhere is it deeper;
    between them it is plane, and a fifth of it is hollow.
    """
    length, width = 17.32, 11.55
    for across, up, deep in HOLLOWS:
        x, y = across * length, up * width
        assert _height_mm(x, y, length, width) == pytest.approx(-20 * x - deep)
        assert _height_mm(x + length, y, length, width) == pytest.approx(-20 * (x + length) - deep)
    places = [(0.1 + 0.2 * i, 0.1 + 0.2 * j) for i in range(86) for j in range(57)]
    low = [-20 * x - _height_mm(x, y, length, width) for x, y in places]
    assert max(low) <= 35.0 and 0.12 < sum(deep > 0.5 for deep in low) / len(low) < 0.25
    assert _height_mm(0.5 * length, 0.1 * width, length, width) == pytest.approx(-10 * length)
