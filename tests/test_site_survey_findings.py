"""What is said of doubtful volumes and of readings that stand apart."""

from collections.abc import Iterable
from dataclasses import replace
from functools import cache

import pytest

from lawn_surveys import BOOK_LIKE, bowl, grid, rectangle
from turfplan.message import Message, Number, Quantity, RodReading, as_written
from turfplan.phrases import survey as phrases
from turfplan.site.survey.findings import (
    TARGETS,
    LevelFindings,
    _coverage,
    _doubt,
    _high_spots,
    _lifted,
    _other_targets,
    _readings,
    _volume,
    volume_value,
    with_findings,
)
from turfplan.site.survey.records import Doubt, FillClass, FillResult, LooseOrder, Outlier
from turfplan.site.survey.rod_readings import Leveled
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


@pytest.mark.full
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


def keys(told: Iterable[Message]) -> list[str]:
    """What each message says, without `survey`."""
    return [message.key.removeprefix("survey.") for message in told]


SEEN = LevelFindings(0.0, 0.0, 0.0, ())


@cache
def result(**changes: object) -> FillResult:
    """A made-up result: ten cubic metres of 40 points two metres apart."""
    plain = FillResult(
        160.0, 62.5, 90.0, 10.0, 8.0, 12.5, 0.0, Doubt(1.0, 0.5, 0.1), (), (), (),
        LooseOrder(8.0, 10.0, 12.0, 0.0), 40, 2.0,
    )  # fmt: skip
    return replace(plain, **changes)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("noise", "gaps", "told"),
    [
        (0.51, 0.0, ["doubt.readings"]),
        (0.5, 0.0, []),
        (0.0, 1.51, ["doubt.gaps"]),
        (0.0, 1.5, []),
        (0.51, 1.51, ["doubt.readings", "doubt.gaps"]),
    ],
)
def test_doubt_is_told_from_a_share_of_the_volume_on(
    noise: float, gaps: float, told: list[str]
) -> None:
    """A twentieth for noise, fifteen hundredths for gaps."""
    assert keys(_doubt(result(doubt=Doubt(1.0, gaps, noise)), FINE)) == told


def test_noise_is_told_where_shallow_fills_count_and_gaps_where_they_are_more() -> None:
    """Fills left alone up to the error of a reading leave no noise; gaps below what readings leave
    are not told.
    """
    found = result(doubt=Doubt(3.0, 2.9, 2.0))
    assert keys(_doubt(found, replace(FINE, least_mm=2.9))) == ["doubt.readings"]
    assert keys(_doubt(found, replace(FINE, least_mm=3.0))) == []
    assert keys(_doubt(result(doubt=Doubt(3.0, 3.1, 0.0)), FINE)) == ["doubt.gaps"]


@pytest.mark.parametrize(("area", "told"), [(0.5, False), (0.51, True)])
def test_high_spots_are_told_from_half_a_square_metre_on(area: float, *, told: bool) -> None:
    """With their height."""
    found = list(_high_spots(replace(SEEN, proud_mm=30.0, proud_m2=area)))
    assert bool(found) == told
    if told:
        assert dict(found[0].values) == {
            "height": Quantity(30.0, "depth"),
            "area": Quantity(area, "area"),
        }


@pytest.mark.parametrize(
    ("volume", "points", "key"),
    [
        (0.0, 11, "volume.one_plane"),
        (0.0, 12, "volume.none"),
        (0.01, 11, "volume.missing"),
        (10.0, 40, "volume.missing"),
    ],
)
def test_a_volume_is_told_with_what_it_rests_on(volume: float, points: int, key: str) -> None:
    """None of few points may be their one plane; a volume has its band and the ground of a
    point.
    """
    message = _volume(result(volume_m3=volume, points=points))
    values = dict(message.values)
    assert keys([message]) == [key] and values["points"] == points
    if key == "volume.missing":
        assert values["each"] == Quantity(4.0, "area", us_step=1.0, metric_step=1.0)
        assert values["volume"] == Quantity(volume, "volume", "nearest", 0.05, 0.05)
        assert values["low"] == Quantity(8.0, "volume", "down", 0.05, 0.05)
        assert values["high"] == Quantity(12.5, "volume", "up", 0.05, 0.05)


def test_other_targets_are_told_where_both_are_known() -> None:
    """With the straightedge's length."""
    settings = replace(FINE, straightedge_m=2.5)
    both = replace(SEEN, plane_m3=4.0, straightedge_m3=6.0)
    (told,) = _other_targets(both, settings)
    assert dict(told.values) == {
        "plane": volume_value(4.0),
        "straightedge": volume_value(6.0),
        "length": Quantity(2500.0, "distance"),
    }
    for part in (replace(both, plane_m3=None), replace(both, straightedge_m3=None)):
        assert list(_other_targets(part, settings)) == []
    assert (
        len(list(_other_targets(replace(both, plane_m3=0.0, straightedge_m3=0.0), settings))) == 1
    )


@pytest.mark.parametrize(
    ("share", "spacing", "points", "told"),
    [
        (0.02, 2.5, 12, []),
        (0.021, 2.5, 12, ["doubt.beyond"]),
        (0.0, 2.51, 12, ["doubt.far_apart"]),
        (0.0, 2.5, 11, ["doubt.few_points"]),
        (0.3, 4.0, 3, ["doubt.beyond", "doubt.far_apart", "doubt.few_points"]),
    ],
)
def test_what_points_do_not_cover_is_told(
    share: float, spacing: float, points: int, told: list[str]
) -> None:
    """Two hundredths beyond them, more than two and a half metres between them, less than twelve;
    depths below a string are read where they are wanted.
    """
    found = result(spacing_m=spacing, points=points)
    seen = replace(SEEN, beyond_share=share)
    assert keys(_coverage(found, FINE, seen)) == told
    line = keys(_coverage(found, replace(FINE, target="line"), seen))
    assert line == [key for key in told if key == "doubt.beyond"]


def test_the_distance_between_points_is_told_with_what_may_be_unseen() -> None:
    """In millimetres and cubic metres."""
    found = result(spacing_m=4.0, doubt=Doubt(0.0, 0.0, 0.0, 1.5))
    (told,) = _coverage(found, FINE, SEEN)
    assert dict(told.values) == {
        "distance": Quantity(4000.0, "distance"),
        "volume": volume_value(1.5),
    }


@pytest.mark.parametrize(("count", "more"), [(8, None), (9, 1), (12, 4)])
def test_eight_readings_are_named_and_the_rest_counted(count: int, more: int | None) -> None:
    """Each with its height below what its neighbours say."""
    slips = tuple(Outlier(as_written(f"P{n}"), 0.0, 40.0) for n in range(count))
    told = list(_readings(result(outliers=slips), FINE, None))
    assert keys(told[:8]) == ["outlier.below"] * 8
    assert [dict(m.values)["n"] for m in told[8:]] == ([] if more is None else [more])


@pytest.mark.parametrize(
    ("off", "setups", "key"),
    [
        (None, 2, "level.open"),
        (9.0, 1, "level.closes"),
        (-9.1, 1, "level.slip"),
        (18.0, 4, "level.closes"),
        (18.1, 4, "level.slip"),
    ],
)
def test_a_run_of_levels_closes_within_three_errors_of_its_setups(
    off: float | None, setups: int, key: str
) -> None:
    """Three millimetres each, by the root of their number; the larger of two errors counts."""
    run = Leveled((0.0,), (1,), off, setups)
    for settings in (
        replace(FINE, instrument_error_mm=3.0, setup_error_mm=1.0),
        replace(FINE, instrument_error_mm=1.0, setup_error_mm=3.0),
    ):
        (told,) = _readings(result(), settings, run)
        assert keys([told]) == [key]
        values = dict(told.values)
        if off is not None:
            assert values["off"] == RodReading(abs(off)) and values["n"] == setups
        if key == "level.slip":
            assert values["allowed"] == RodReading(9.0 * setups**0.5)


def test_what_is_lifted_is_told_with_its_share() -> None:
    """Of the class without passes alone."""
    deep = FillClass("L", None, 50.0, 90.0, 12.0, 0.075, 60.0, 0.7)
    one = FillClass("1", 1, 0.0, 10.0, 90.0, 0.5, 5.0, 0.4)
    assert list(_lifted(result(classes=(one,)), FINE)) == []
    (told,) = _lifted(result(classes=(one, deep)), replace(FINE, deep_limit_mm=50.0))
    assert dict(told.values) == {
        "area": Quantity(12.0, "area"),
        "share": Number(0.075, "percent"),
        "limit": Quantity(50.0, "depth"),
    }


def test_notes_and_cautions_stand_in_their_order_once_each() -> None:
    """The target first; what was joined after what bounds it; no caution twice."""
    a, b, c = (as_written(text) for text in "abc")
    found = result(cautions=(a, b), drainage=(b, c), spacing_m=4.0)
    seen = replace(SEEN, bounded=(a,), proud_m2=9.0)
    told = with_findings(found, replace(FINE, target="plane"), (b,), None, seen)
    assert told.notes[0] == TARGETS["plane"] and told.notes[2:4] == (a, b)
    assert keys(told.notes[4:]) == ["ground.high_spots"]
    assert keys(told.cautions[:1]) == ["doubt.far_apart"] and told.cautions[1:] == (a, b, c)
