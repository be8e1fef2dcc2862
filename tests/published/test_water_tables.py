"""The packed numbers of water and lime against the tables they were collected from, where those are
at hand.
"""

import csv
from pathlib import Path

import pytest

import water_cases as cases
from turfplan.units import LB_PER_1000FT2_G_M2

COLLECTED = Path(__file__).parents[3] / "shared" / "data" / "agronomy"
BOOK = cases.book()


def rows(name: str) -> list[dict[str, str]]:
    path = COLLECTED / name
    if not path.exists():
        pytest.skip("the collected tables are not beside this checkout")
    return list(csv.DictReader(path.read_text(encoding="utf-8").splitlines()))


def test_monthly_crop_coefficients() -> None:
    """University of California, Table 1: twelve months, cool- and warm-season."""
    months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"]
    found = {
        (row["note"].split("-")[0], months.index(row["item"][3:]) + 1): float(row["min"])
        for row in rows("irrigation.csv")
        if row["item"][3:] in months
    }
    assert len(found) == 24
    for (season, month), value in found.items():
        assert BOOK.si(f"water.kc_{season}_month_{month}") == value


def test_lime_table_of_the_laboratory() -> None:
    """Penn State, Table 1: every acidity and pH goal, and the printed row 11.0: 250, 210, 160
    lb/1,000 ft2.
    """
    checked = 0
    for row in rows("additions.csv"):
        if not row["item"].startswith("acidity_"):
            continue
        acidity = round(float(row["item"].split("_")[1]) * 10)
        for cell in row["note"].removeprefix("pH goal ").split(";"):
            goal, pounds = cell.strip().split(":")
            fact = f"lime.goal_{round(float(goal) * 10)}_acidity_{acidity}"
            assert BOOK.si(fact) / LB_PER_1000FT2_G_M2 == pytest.approx(float(pounds))
            checked += 1
    assert checked > 100
    printed = [
        BOOK.si(f"lime.goal_{goal}_acidity_110") / LB_PER_1000FT2_G_M2 for goal in (70, 65, 60)
    ]
    assert printed == pytest.approx([250, 210, 160])


def test_water_held_by_texture() -> None:
    """FAO-56 Table 19: middle of field capacity less middle of wilting point, for nine classes, to
    1 mm/m.
    """
    ends = {
        row["item"]: (float(row["min"]) + float(row["max"])) / 2
        for row in rows("additions.csv")
        if "_point_" in row["item"] or "_capacity_" in row["item"]
    }
    classes = [
        name.removeprefix("field_capacity_") for name in ends if name.startswith("field_capacity_")
    ]
    assert len(classes) == 9
    for name in classes:
        held = 1000 * (ends[f"field_capacity_{name}"] - ends[f"wilting_point_{name}"])
        assert BOOK.si(f"water.capacity_{name}") == pytest.approx(held, abs=1)
