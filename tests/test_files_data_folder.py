"""The layout of a data folder, and whose each folder in it is."""

from pathlib import Path

import pytest

from turfplan.files.data_folder import (
    brief_at,
    brief_lawn_id,
    index_for,
    known_lawn_id,
    lawn_folders,
    lawns_in,
    output_folder_of,
    planned_lawns,
    root_of,
)


def test_a_brief_of_a_lawns_folder_has_its_outputs_beside_it() -> None:
    """A file named brief.toml has its own folder for them, any other one of its name."""
    assert output_folder_of(Path("lawns/back/brief.toml")) == Path("lawns/back")
    assert output_folder_of(Path("lawns/back.toml")) == Path("lawns/back")
    assert output_folder_of(Path("lawn")) == Path("lawn")


def test_a_plan_that_is_named_in_its_briefs_place_lies_among_the_outputs() -> None:
    """So a sheet is printed from whatever plan.json is named."""
    assert output_folder_of(Path("out/plan.json")) == Path("out")
    assert output_folder_of(Path("plan.json")) == Path()


def test_a_folder_names_its_brief(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The brief in it goes before the one beside it; a folder without either stays itself."""
    lawn, plan, bare = (tmp_path / name for name in ("lawn", "plan", "bare"))
    for folder in (lawn, plan, bare):
        folder.mkdir()
    for brief in (lawn / "brief.toml", tmp_path / "lawn.toml", tmp_path / "plan.toml"):
        brief.touch()
    assert brief_at(lawn) == lawn / "brief.toml"
    assert brief_at(plan) == tmp_path / "plan.toml"
    assert brief_at(bare) == bare and brief_at(lawn / "brief.toml") == lawn / "brief.toml"
    monkeypatch.chdir(lawn)
    assert brief_at(Path()) == Path("brief.toml")
    monkeypatch.chdir(plan)
    assert brief_at(Path()) == tmp_path / "plan.toml"


def test_lawns_lie_in_lawns_or_as_they_did(tmp_path: Path) -> None:
    """A folder of version 0.1 holds them itself; a data folder in `lawns`, also when it is new."""
    old, new = tmp_path / "old", tmp_path / "new"
    (old / "ash-01").mkdir(parents=True)
    assert lawns_in(old) == old and lawns_in(tmp_path / "none") == tmp_path / "none"
    new.mkdir()
    (new / "business.toml").touch()
    assert lawns_in(new) == new / "lawns" and lawn_folders(new / "lawns") == ()
    (new / "lawns" / "back").mkdir(parents=True)
    (new / "lawns" / "back" / "brief.toml").touch()
    (new / "lawns" / "empty").mkdir()
    assert lawn_folders(lawns_in(new)) == (new / "lawns" / "back",)
    assert root_of(new / "lawns" / "back") == new and root_of(old / "ash-01") == old


def test_the_index_of_a_data_folder(tmp_path: Path) -> None:
    """It lies above the lawns; a plan's folder elsewhere is served by the one at hand."""
    back = tmp_path / "lawns" / "back"
    back.mkdir(parents=True)
    assert index_for([back]) == index_for([tmp_path]) == tmp_path / "turfplan.index"
    assert index_for([tmp_path / "out"]) == index_for([]) == Path("turfplan.index")
    assert planned_lawns(tmp_path) == ()
    for name in ("brief.toml", "plan.json"):
        (back / name).touch()
    assert planned_lawns(tmp_path) == (back,) and planned_lawns(back) == ()


@pytest.mark.parametrize(
    ("plan", "brief", "known"),
    [
        ('{"schema": 1, "lawn_id": "one"}', '[lawn]\nid = "two"\n', "one"),
        (None, '\ufeff[lawn]\r\nid = "two"\r\n', "two"),
        ('{"schema": 1', '[lawn]\nid = "two"\n', "two"),
        (None, "[lawn]\n", None),
        (None, "[lawn\n", None),
        (None, "lawn = 3\n", None),
        (None, "[lawn]\nid = 3\n", None),
        (None, None, None),
    ],
)
def test_whose_a_folder_is(
    plan: str | None, brief: str | None, known: str | None, tmp_path: Path
) -> None:
    """By its plan, else by its brief."""
    for name, text in (("plan.json", plan), ("brief.toml", brief)):
        if text is not None:
            (tmp_path / name).write_text(text, encoding="utf-8")
    assert known_lawn_id(tmp_path) == known
    assert brief_lawn_id(tmp_path / "none.toml") is None
