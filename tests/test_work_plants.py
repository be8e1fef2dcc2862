"""How much is planted of each kind, and how long it takes."""

from typing import Any

import pytest

from planning import brief_of, first, plan_brief
from resolved_lawns import lawn
from told import told
from turfplan.message import Quantity
from turfplan.phrases import sow as phrases
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.plants import planting_hours, sprig_rate, sprig_rows_mm, sprigs_m3

INCH_MM = 25.4
BUSHEL_L, ACRE_M2 = 35.239, 4046.86


def sprigged(grass: str, **seeding: Any) -> ResolvedLawn:
    """Bare ground that is planted with sprigs of a grass."""
    return lawn(
        {"place": {"postal_code": "30606"}, "lawn": {"grass": grass, "condition": "bare"}},
        {"seeding": {"intent": "plant", "form": "sprigs", **seeding}},
    )


@pytest.mark.parametrize(
    ("grass", "litres_m2", "fact"),
    [
        ("bermuda_hybrid", 3.5, "planting.sprig_rate"),
        ("kikuyu", 1.8, "species.kikuyu.sprig_rate"),
        (
            "seashore_paspalum",
            500 * BUSHEL_L / ACRE_M2,
            "species.seashore_paspalum.sprig_rate",
        ),
    ],
)
def test_sprigs_are_reckoned_by_volume_and_grass(grass: str, litres_m2: float, fact: str) -> None:
    """Not one each foot as plugs are: 344 to 1,032 bushels an acre for paspalum."""
    setting = sprigged(grass)
    assert sprig_rate(setting) == (pytest.approx(litres_m2, rel=1e-4), fact)
    assert sprigs_m3(setting, 500.0) == pytest.approx(litres_m2 * 0.5, rel=1e-4)


def test_furrows_decide_how_much_and_how_long() -> None:
    """Half as far apart they take twice the sprigs and hours; plugs are set one by one."""
    usual, close = sprigged("bermuda_hybrid"), sprigged("bermuda_hybrid", spacing="5 in")
    assert sprig_rows_mm(usual) == 10 * INCH_MM and sprig_rows_mm(close) == 5 * INCH_MM
    assert sprigs_m3(close, 100.0) == pytest.approx(2 * sprigs_m3(usual, 100.0))
    hours = planting_hours(usual, "sprigs", 92.903)
    assert hours == pytest.approx(3.0, rel=1e-4)
    assert planting_hours(close, "sprigs", 92.903) == pytest.approx(2 * hours)
    assert planting_hours(usual, "plugs", 92.903) != pytest.approx(hours)


def test_a_plan_of_sprigs_says_volume_and_furrows() -> None:
    """In the title, the reason, the order with its question, and how they are set."""
    place = {"postal_code": None, "latitude": 23.6, "longitude": 58.4, "country": "OM"}
    brief = brief_of(
        {
            "place": place,
            "lawn": {"grass": "seashore_paspalum", "condition": "bare", "area": "500 m2"},
            "leveling": {"depth": "0 mm"},
            "seeding": {"intent": "plant", "form": "sprigs"},
        }
    )
    plan = plan_brief(brief)
    task = first(plan, "plant")
    (amount,) = [a for a in task.amounts if a.item == "sprigs"]
    assert amount.unit == "m3" and amount.value == pytest.approx(2.18, abs=0.01)
    assert "end to end in furrows 10 in apart" in told(amount.reason)
    assert not isinstance(task.title, str)
    assert dict(task.title.values)["amount"] == Quantity(amount.value, "sprig_volume", "up")
    assert phrases.sprigs_water() in task.how
    (line,) = [line for line in plan.order if line.item == "sprigs"]
    assert line.value == pytest.approx(amount.value) and line.questions
