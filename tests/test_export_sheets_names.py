"""A thing of the book has one name in a plan, whichever version wrote the plan."""

from pathlib import Path

import pytest

from planning import example
from printed import book_html
from told import words_of
from turfplan.app.outputs import words_of as reader_of
from turfplan.export.sheets.names import operation_name, soil_name
from turfplan.export.tables.plan_json import plan_to_json
from turfplan.files.reading.plan import plan_from_json, read_plan
from turfplan.units import System

FOLDERS = Path(__file__).parent / "folders" / "0.1"


def test_a_plan_names_every_operation_and_its_soil_by_the_book_of_its_region() -> None:
    """The British book scarifies, the American one dethatches; both call a soil by its texture."""
    british, american = example("british-metric"), example("cool-overseed")
    words = words_of()
    assert operation_name(british, "dethatch", words) == "Scarify"
    assert operation_name(american, "dethatch", words) == "Dethatch"
    assert soil_name(british, words) == "sandy loam"
    assert {f"operations.{task.operation}" for task in british.tasks} <= set(british.names)


def test_an_older_plan_without_names_is_named_by_the_book() -> None:
    """What 0.1 wrote has no table of names: the book of its region is asked."""
    plan = read_plan(FOLDERS / "british-metric")
    assert plan is not None and plan.names == {}
    assert operation_name(plan, "core_aerate", reader_of(plan)) == "Hollow-tine"
    assert soil_name(plan, reader_of(plan)) == "sandy loam"
    with pytest.raises(KeyError):
        operation_name(plan, "yodel", words_of(System.METRIC, plan.place.region))


@pytest.mark.parametrize("older", [True, False])
def test_the_stage_of_a_watering_begins_its_title_and_has_one_row_on_the_timeline(
    older: bool,
) -> None:
    """A plan of 0.1, which kept the stage in the title alone, is read as one that keeps it
    apart.
    """
    written = (
        (FOLDERS / "british-metric" / "plan.json").read_bytes()
        if older
        else plan_to_json(example("british-metric"))
    )
    plan = plan_from_json(written)
    waterings = [task for task in plan.tasks if task.series is not None]
    assert waterings
    for task in waterings:
        assert task.stage is not None and task.title.text.startswith(f"{task.stage.name.text}: ")
    stages = {task.stage.name.text for task in waterings}
    assert 2 <= len(stages) <= 7
    page = book_html(plan)
    for stage in stages:
        assert page.count(f">{stage}</text>") == 1
