"""Cells of a client file are read as values and written again as they were."""

from datetime import date
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from turfplan.business.client_columns import columns_of, safe_cell, said_cell
from turfplan.business.column_cells import cell_of, form_of, value_of
from turfplan.business.column_forms import column_forms
from turfplan.errors import FormError

CELLS: tuple[tuple[str, str, Any], ...] = (
    ("lawn.area", "4200 ft2", "4200 ft2"),
    ("lawn.grass", "tall_fescue", "tall_fescue"),
    ("place.latitude", "-43.53", -43.53),
    ("work.people", "3", 3),
    ("site.trees", "true", True),
    ("season.from", "2027-03-01", date(2027, 3, 1)),
    ("calendar.weekdays", "mon;tue", ["mon", "tue"]),
    ("leveling.parts", "sand@0.5; topsoil@0.5", {"sand": 0.5, "topsoil": 0.5}),
    ("client.prices", "visit@45", {"visit": 45}),
    (
        "history.herbicides",
        "prodiamine@2027-03-20; dithiopyr@2026-10-01, hold_days=120",
        [
            {"active_ingredient": "prodiamine", "on": date(2027, 3, 20)},
            {"active_ingredient": "dithiopyr", "on": date(2026, 10, 1), "hold_days": 120},
        ],
    ),
    (
        "calendar.unavailable",
        "2027-08-20..2027-08-29; 2027-10-01..2027-10-03",
        [
            {"from": date(2027, 8, 20), "to": date(2027, 8, 29)},
            {"from": date(2027, 10, 1), "to": date(2027, 10, 3)},
        ],
    ),
    ("local.nitrogen_blackouts", "06-01..09-30", [{"from": "06-01", "to": "09-30"}]),
    ("leveling.lows", "1.5 in@0.1", [{"depth": "1.5 in", "share": 0.1}]),
    (
        "water.zones",
        'name="front; left", area=100 m2; name=back, head=rotor',
        [{"name": "front; left", "area": "100 m2"}, {"name": "back", "head": "rotor"}],
    ),
)


@pytest.mark.parametrize("column, cell, value", CELLS)
def test_cells_are_values_and_back(column: str, cell: str, value: Any) -> None:
    """Each form of a key: texts, numbers, truths, days, lists, mixes, tables."""
    assert value_of(column, cell) == value
    assert cell_of(column, value) == cell


@pytest.mark.parametrize(
    "column, cell, value",
    [
        ("place.latitude", "40,04", 40.04),
        ("leveling.lows", "1 in@10%", [{"depth": "1 in", "share": 0.1}]),
        ("site.trees", "TRUE", True),
        ("lawn.grass", "tall_fescue@90%; kentucky_bluegrass@10%", None),
        ("work.people", "three", "three"),
        ("season.from", "1.3.2027", "1.3.2027"),
    ],
)
def test_other_ways_to_write(column: str, cell: str, value: Any) -> None:
    """A comma for a point, percent, capitals; what is no value stays a text, which the record
    refuses."""
    said = value_of(column, cell)
    assert value is None or said == value
    assert value_of(column, cell_of(column, said)) == said


@pytest.mark.parametrize(
    "column, cell",
    [
        ("calendar.away", "2027-08-20"),
        ("leveling.parts", "sand"),
        ("water.zones", "front"),
        ("history.herbicides", "prodiamine@2027-03-20, 120"),
    ],
)
def test_entries_that_cannot_be_told_apart_are_refused(column: str, cell: str) -> None:
    """With an example of how they are written."""
    with pytest.raises(FormError) as told:
        value_of(column, cell)
    assert told.value.allowed is not None


@given(name=st.text(min_size=1).map(str.strip).filter(bool), other=st.text(max_size=9))
@example(name="0[", other="")
@example(name="a]b", other="[")
def test_any_text_goes_through_a_cell(name: str, other: str) -> None:
    """Signs, quotes, breaks and formulas within a table's entry come back; so do whole cells."""
    zones = [{"name": name, "head": other.strip() or "x"}]
    assert value_of("water.zones", cell_of("water.zones", zones)) == zones
    text = f"{name}{other}".strip()
    assert said_cell(safe_cell(text)) == text
    assert not safe_cell(text).startswith(("=", "+", "-", "@", "\t", "\r"))


def test_every_key_of_the_brief_has_a_form() -> None:
    """Keys of brief and client, but for the business's own; deeper keys by their mix."""
    assert {"lawn.area", "history.herbicides", "client.access", "calendar.alarm"} <= set(
        column_forms()
    )
    assert form_of("leveling.parts.sand") == "number" and form_of("route") is None


def test_heads_are_found_whatever_their_capitals() -> None:
    """Own heads stay as they are; a business names others; a slip in a key is told with the key
    that was meant."""
    columns, faults = columns_of(("ID", "Lawn.Area", "Route", "Grass"), {"grass": "lawn.grass"})
    assert not faults
    assert [(one.kind, one.key) for one in columns] == [
        ("id", "id"),
        ("brief", "lawn.area"),
        ("own", "Route"),
        ("brief", "lawn.grass"),
    ]
    _, faults = columns_of(("id", "lawn.aera", "Route", "route", ""), {})
    assert len(faults) == 3 and faults[0].hint is not None
