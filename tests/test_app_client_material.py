"""The material of a business follows its plans, by supplier and load, through rain and re-plans."""

import csv
import io
from datetime import date
from pathlib import Path

import pytest

from planned_business import DAY, MARKS, plan_again
from turfplan.app.client_material import MaterialList, list_material, material_page
from turfplan.app.log_clients import DayLog, log_day
from turfplan.business.groups import ClientGroup
from turfplan.errors import TurfplanError
from turfplan.export.tables.material_csv import material_csv, material_object
from turfplan.files.data_folder import TOLD_DELIVERIES
from turfplan.files.lawn_files import business_files


def mix_of(found: MaterialList) -> list[tuple[str, ...]]:
    """The lawns of each truckload."""
    return [tuple(one.lawn for one in load.shares) for load in found.loads if load.is_load]


def test_lawns_share_what_comes_in_a_week(data: Path) -> None:
    """One load of both with less left over than two of their own; in its weeks alone; with the
    supplier of the price list; a group by itself."""
    found = list_material(data, today=DAY)
    loads = [load for load in found.loads if load.is_load]
    assert [load.supplier for load in loads] == ["Pit and Sons (invented)"] * len(loads)
    held = sum(load.value for load in loads)
    assert held - sum(load.left for load in loads) == pytest.approx(2 * 5.59, abs=0.2)
    assert all(load.left < 0.2 for load in loads)
    day = loads[0].deliver_on
    assert mix_of(list_material(data, day, today=DAY)) and not mix_of(
        list_material(data, date(2027, 3, 1), today=DAY)
    )
    alone = list_material(data, None, ClientGroup("crew", "north"), DAY)
    assert alone.loads == found.loads
    with pytest.raises(TurfplanError):
        list_material(data, None, ClientGroup("crew", "south"), DAY)


def test_the_table_adds_up_to_the_list(data: Path) -> None:
    """Each share is a row, in both systems of units; no street, telephone, way in or note of the
    office stands in table or object; on the page the street alone, where a truck tips."""
    found = list_material(data, today=DAY)
    table = material_csv(found.loads, ()).decode("utf-8-sig")
    rows = list(csv.DictReader(io.StringIO(table)))
    assert len(rows) == sum(len(load.shares) for load in found.loads)
    assert all(row["share"] and row["share US"] and row["order by"] for row in rows)
    told = table + str(material_object(found.loads, ()))
    assert not [mark for mark in MARKS.values() if mark in told]
    page = material_page(found, "data", DAY, None)
    assert "Turf and Tine" in page
    assert {name for name, mark in MARKS.items() if mark in page} <= {"street"}
    assert (MARKS["street"] in page) == any(
        load.is_load and not load.to_yard for load in found.loads
    )


def test_a_delivery_that_moved_is_told_until_it_is_counted_as_told(data: Path) -> None:
    """What suppliers were told is kept, copied by a backup, and held against the plans; a damaged
    record is refused and stays."""
    assert list_material(data, today=DAY, tell=True).moved == ()
    assert data / TOLD_DELIVERIES in business_files(data)
    before = [load.deliver_on for load in list_material(data, today=DAY).loads if load.is_load]
    late = max(before)
    log_day(data, DayLog(late, "rained_off"), late, sure=True)
    plan_again(data, late)
    moved = list_material(data, today=late).moved
    assert {one.lawn for one in moved} == {"ash", "elm"}
    assert all(one.told in before and one.now != one.told for one in moved)
    assert list_material(data, today=late, tell=True).moved == moved
    assert list_material(data, today=late).moved == ()
    (data / TOLD_DELIVERIES).write_text("{", encoding="utf-8")
    with pytest.raises(TurfplanError, match="damaged"):
        list_material(data, today=late, tell=True)
    assert (data / TOLD_DELIVERIES).read_text(encoding="utf-8") == "{"
