"""A plan that is read to be shown, and the words for what is no plan."""

import json
from pathlib import Path

import pytest

from planning import example
from printed import book_html, checklist_html, order_html
from turfplan.errors import TurfplanError
from turfplan.export.tables.plan_json import plan_to_json
from turfplan.files.reading.plan import plan_from_json, read_plan


@pytest.mark.parametrize("name", ["surveyed-us", "bermuda-sand"])
def test_a_plan_to_show_says_the_same_without_its_table(name: str, tmp_path: Path) -> None:
    """Its sheets are those of the plan that is read to go on with, message for message."""
    (tmp_path / "plan.json").write_bytes(plan_to_json(example(name)))
    whole, shown = read_plan(tmp_path), read_plan(tmp_path, to_show=True)
    assert whole is not None and shown is not None
    assert whole.said and not shown.said
    bare = tuple(task.model_copy(update={"published": None}) for task in whole.tasks)
    assert shown == whole.model_copy(update={"tasks": bare, "said": {}, "calendar_entries": ()})
    for sheet in (checklist_html, order_html, book_html):
        assert sheet(shown) == sheet(whole)
    assert plan_to_json(whole) == (tmp_path / "plan.json").read_bytes()


@pytest.mark.parametrize("to_show", [False, True])
def test_what_is_no_plan_is_told_in_the_words_of_json(tmp_path: Path, to_show: bool) -> None:
    """All at once, by place; whether it is read to be shown or not."""
    data = json.loads(plan_to_json(example("bermuda-sand")))
    data["revision"], data["tasks"][2]["start"] = "many", float("inf")
    data["order"][0]["value"] = None
    (tmp_path / "plan.json").write_text(json.dumps(data), encoding="utf-8")
    with pytest.raises(TurfplanError) as refused:
        read_plan(tmp_path, to_show=to_show)
    file = tmp_path / "plan.json"
    places = [problem.where for problem in refused.value.problems]
    assert places == [f"{file}: {at}" for at in ("revision", "tasks.2.start", "order.0.value")]
    with pytest.raises(TurfplanError) as plain:
        plan_from_json(file.read_bytes())
    assert [p.message for p in plain.value.problems] == [p.message for p in refused.value.problems]
