"""What is said of doubtful volumes and of readings that stand apart."""

from dataclasses import replace

import pytest

from lawn_surveys import BOOK_LIKE, bowl, grid, rectangle
from turfplan.message import Quantity, as_written
from turfplan.phrases import survey as phrases
from turfplan.site.survey.findings import _doubt, _readings, volume_value
from turfplan.site.survey.records import Doubt, FillResult, Outlier
from turfplan.site.survey.surveyed_fill import fill_from_survey

pytest.importorskip("scipy")
FINE = replace(BOOK_LIKE, least_mm=0.0, outline=(rectangle(6, 5),), cells_wanted=120)


def found() -> FillResult:
    """The fill of a small lawn with a hollow."""
    return fill_from_survey(grid(6, 5, 7, 6, bowl(3.0, 2.5, 1.5, 40.0)), FINE)


def test_nothing_is_doubted_of_no_fill() -> None:
    """What noise or gaps may add is told beside a volume, as far as it is a part worth telling."""
    some = replace(found(), volume_m3=2.0, doubt=Doubt(0.5, 1.9, 1.5))
    assert list(_doubt(some, FINE)) == [
        phrases.doubt_readings(volume=volume_value(1.5)),
        phrases.doubt_gaps(volume=volume_value(1.9)),
    ]
    assert list(_doubt(replace(some, volume_m3=0.0), FINE)) == []
    assert list(_doubt(replace(some, volume_m3=-0.1), FINE)) == []
    assert list(_doubt(replace(some, doubt=Doubt(0.5, 0.0, 0.0)), FINE)) == []


@pytest.mark.parametrize("apart", [0.4, 1.0, 25.0, -0.4, -25.0])
def test_a_reading_that_stands_apart_is_above_or_below(apart: float) -> None:
    """By how much, whichever way; however little, where the readings are fine."""
    slip = Outlier(as_written("P7"), 100.0 + apart, 100.0)
    (told,) = _readings(replace(found(), outliers=(slip,)), FINE, None)
    way = phrases.outlier_above if apart > 0 else phrases.outlier_below
    height = dict(told.values)["height"]
    assert told.key == way(point=as_written("P7"), height=Quantity(1.0, "depth")).key
    assert height.value == pytest.approx(abs(apart))  # type: ignore[union-attr]


def test_the_mean_fill_is_the_volume_over_the_area() -> None:
    """In millimetres: a cubic metre on a hundred square metres is ten."""
    result = found()
    assert result.volume_m3 > 0 and result.area_m2 == pytest.approx(30.0)
    assert result.mean_fill_mm == pytest.approx(result.volume_m3 / 30.0 * 1000)
