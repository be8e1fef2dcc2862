"""Rod readings become heights."""

import pytest

from told_errors import refused
from turfplan.errors import TurfplanError
from turfplan.site.survey.rod_readings import Reading, allowed_misclosure_mm, level_run


def test_height_is_the_instrument_less_the_reading() -> None:
    """One setup, two points."""
    run = level_run(
        [Reading("BM", 1500.0, None, 100.0), Reading("a", None, 1200.0), Reading("b", None, 1700.0)]
    )
    assert run.heights_mm == (100.0, 400.0, -100.0)
    assert run.misclosure_mm is None


def test_a_turning_point_carries_the_height_on() -> None:
    """The instrument stands elsewhere; the stone it was read on from both sides joins the two."""
    run = level_run(
        [
            Reading("BM", 1000.0),
            Reading("stone", 800.0, 1500.0),
            Reading("a", None, 700.0),
            Reading("BM", None, 300.0),
        ]
    )
    assert run.heights_mm == (0.0, -500.0, -400.0, 0.0)
    assert run.setups == (1, 1, 2, 2)
    assert run.misclosure_mm == 0.0


def test_misclosure_is_reported_and_shared_over_the_setups() -> None:
    """Four millimetres over two setups: two each."""
    run = level_run(
        [
            Reading("BM", 1000.0),
            Reading("stone", 800.0, 1500.0),
            Reading("a", None, 700.0),
            Reading("BM", None, 296.0),
        ]
    )
    assert run.misclosure_mm == pytest.approx(4.0)
    assert run.heights_mm == pytest.approx((0.0, -502.0, -404.0, 0.0))


def test_a_known_height_at_the_end_closes_a_run_as_well() -> None:
    """From one bench mark to another."""
    run = level_run(
        [
            Reading("A", 1000.0, None, 50.0),
            Reading("p", None, 900.0),
            Reading("B", None, 800.0, 253.0),
        ]
    )
    assert run.misclosure_mm == pytest.approx(-3.0)
    assert run.heights_mm[-1] == pytest.approx(253.0)


@pytest.mark.parametrize(
    ("readings", "words"),
    [
        ([], "holds no readings"),
        ([Reading("BM", None, 3.0)], "first line needs a back reading"),
        ([Reading("BM", 3.0), Reading("a")], "a: has no fore reading"),
    ],
)
def test_notes_that_cannot_be_reckoned_are_errors(readings: list[Reading], words: str) -> None:
    """Each says which line."""
    with refused(words):
        level_run(readings)


def test_more_setups_may_close_worse() -> None:
    """By the root of their number."""
    assert allowed_misclosure_mm(2.0, 9) == 3 * allowed_misclosure_mm(2.0, 1)


def test_every_point_of_a_run_has_its_height_and_its_setup() -> None:
    """By hand, from a bench mark at 500 over two turning points; a run that names no first point
    again and holds no known height is open.
    """
    run = level_run(
        [
            Reading("BM", 1200.0, None, 500.0),
            Reading("a", None, 900.0),
            Reading("t1", 1500.0, 700.0),
            Reading("b", None, 1000.0),
            Reading("t2", 800.0, 1100.0),
            Reading("c", None, 200.0),
        ]
    )
    assert run.heights_mm == (500.0, 800.0, 1000.0, 1500.0, 1400.0, 2000.0)
    assert run.setups == (1, 1, 1, 2, 2, 3)
    assert (run.misclosure_mm, run.instrument_setups) == (None, 3)


def test_what_does_not_close_is_shared_by_the_setups_before_a_point() -> None:
    """Nine millimetres over three setups: three, six and nine; the first point stays."""
    run = level_run(
        [
            Reading("BM", 1000.0, None, 100.0),
            Reading("t1", 1000.0, 1000.0),
            Reading("t2", 1000.0, 1000.0),
            Reading("BM", None, 991.0),
        ]
    )
    assert run.misclosure_mm == pytest.approx(9.0)
    assert run.heights_mm == pytest.approx((100.0, 97.0, 94.0, 100.0))


def test_a_run_closes_on_its_known_height_before_its_name() -> None:
    """Also where that is nought; two lines are too few to close."""
    lines = [Reading("BM", 1000.0, None, 7.0), Reading("a", None, 900.0)]
    closed = level_run([*lines, Reading("BM", None, 1010.0, 0.0)])
    assert closed.misclosure_mm == pytest.approx(-3.0)
    assert level_run([*lines, Reading("BM", None, 1010.0)]).misclosure_mm == pytest.approx(-10.0)
    assert level_run([lines[0], Reading("BM", None, 990.0)]).misclosure_mm is None
    assert level_run([lines[0], Reading("B", None, 990.0, 5.0)]).misclosure_mm is None


def test_an_allowed_misclosure_is_three_errors_by_the_root_of_the_setups() -> None:
    """One setup at least; another confidence where it is asked."""
    assert allowed_misclosure_mm(2.0, 4) == 12.0
    assert allowed_misclosure_mm(2.0, 0) == 6.0
    assert allowed_misclosure_mm(2.0, 4, 1.5) == 6.0


def test_all_faults_of_notes_are_told() -> None:
    """The first line without a back reading, and each later one without a fore reading."""
    notes = [Reading("BM"), Reading("a", 4.0), Reading("b", None, 3.0), Reading("c")]
    with pytest.raises(TurfplanError) as caught:
        level_run(notes)
    assert [p.where for p in caught.value.problems] == ["BM", "a", "c"]
