"""Rod readings become heights."""

import pytest

from told_errors import refused
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
