"""Identities are drawn, kept, and never shared by two folders."""

import shutil
from pathlib import Path

import pytest

import turfplan
from command import run
from planning import EXAMPLES, LAWN_ID, example, merged, plan_of
from printed import outputs
from turfplan.app.lawn_identity import drawn_lawn_id, refuse_known_elsewhere
from turfplan.errors import TurfplanError
from turfplan.files import index as store
from turfplan.files.plan_folder import write_outputs
from turfplan.records.brief import parse_brief

DAY = ("--today", "2027-02-01")


def lawn(folder: Path) -> Path:
    """A lawn's folder with the plan and the brief of an example."""
    folder.mkdir(parents=True)
    shutil.copy(EXAMPLES / "bermuda-sand.toml", folder / "brief.toml")
    write_outputs(folder, outputs(example("bermuda-sand")))
    return folder


IDENTITY = example("bermuda-sand").lawn_id


def test_no_two_are_alike_and_each_is_an_id() -> None:
    """Ids of the brief's form, each drawn anew."""
    drawn = {drawn_lawn_id() for _ in range(500)}
    assert len(drawn) == 500
    for each in drawn:
        assert parse_brief(merged({"lawn": {"id": each}})).lawn.id == each


def test_the_pure_plan_takes_what_it_is_given() -> None:
    """The same arguments give the same identities; a brief's own goes before, then the plan's."""
    without = {"lawn": {"id": None}}
    first = plan_of(without, options=False)
    assert first.lawn_id == LAWN_ID
    again = plan_of(without, options=False, lawn_id="other")
    assert again.lawn_id == "other"
    assert {task.uid for task in first.tasks}.isdisjoint(task.uid for task in again.tasks)


def test_a_lawn_without_an_id_is_given_one_once() -> None:
    """Two first plans of one brief are two lawns; a plan made again keeps its identity."""
    brief = merged({"lawn": {"id": None}})
    day = plan_of(options=False).now.date()
    one, two = (turfplan.plan_lawn(brief, today=day) for _ in range(2))
    assert one.lawn_id != two.lawn_id
    assert turfplan.replan_lawn(one, brief, [], today=day).lawn_id == one.lawn_id
    assert turfplan.plan_lawn(brief, today=day, lawn_id="mine").lawn_id == "mine"


def test_a_notebook_takes_a_lawns_folder(tmp_path: Path) -> None:
    """As the commands do."""
    one = lawn(tmp_path / "one")
    day = example("bermuda-sand").now.date()
    assert turfplan.plan_lawn(one, today=day).lawn_id == IDENTITY


def test_a_copy_in_the_data_folder_is_refused(tmp_path: Path) -> None:
    """Both folders are named, and neither is planned while both are there."""
    one = lawn(tmp_path / "lawns" / "one")
    refuse_known_elsewhere(IDENTITY, one)
    two = Path(shutil.copytree(one, tmp_path / "lawns" / "two"))
    for here, other in ((one, two), (two, one)):
        done = run("plan", str(here), *DAY, cwd=tmp_path)
        assert done.returncode == 3
        assert str(here) in done.stderr and str(other) in done.stderr
        assert "new FILE --from BRIEF" in done.stderr
    shutil.rmtree(one)
    assert run("plan", str(two), *DAY, cwd=tmp_path).returncode == 0


def test_a_brief_by_itself_may_be_planned_into_several_folders(tmp_path: Path) -> None:
    """A single brief elsewhere works as before."""
    brief = Path(shutil.copy(EXAMPLES / "bermuda-sand.toml", tmp_path))
    for name in ("one", "two"):
        done = run("plan", str(brief), "-o", str(tmp_path / name), *DAY, cwd=tmp_path)
        assert done.returncode == 0, done.stderr


def test_a_lawn_that_an_index_serves_elsewhere_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The index of the data folder is asked, and that of the working directory."""
    one = lawn(tmp_path / "one")
    for place in (tmp_path / "data", tmp_path / "work"):
        place.mkdir()
        with store.opened(place / "turfplan.index") as connection:
            store.add_lawn(connection, one)
    with pytest.raises(TurfplanError, match="has the identity") as told:
        refuse_known_elsewhere(IDENTITY, tmp_path / "data" / "lawns" / "two")
    assert str(one) in str(told.value)
    elsewhere = tmp_path / "else" / "two"
    assert refuse_known_elsewhere(IDENTITY, elsewhere) == ()
    monkeypatch.chdir(tmp_path / "work")
    with pytest.raises(TurfplanError, match="has the identity"):
        refuse_known_elsewhere(IDENTITY, elsewhere)
    assert refuse_known_elsewhere(IDENTITY, one) == ()


def test_a_folder_that_has_moved_is_planned_and_its_addresses_are_told(tmp_path: Path) -> None:
    """The plan goes on where the folder lies now; that its addresses stay where they were is said,
    with the command that takes them along."""
    one = lawn(tmp_path / "data" / "lawns" / "one")
    index = tmp_path / "data" / "turfplan.index"
    with store.opened(index) as connection:
        store.add_lawn(connection, one)
    two = one.rename(one.parent / "two")
    done = run("plan", str(two), *DAY, cwd=tmp_path)
    assert done.returncode == 0 and "stay with" in done.stderr and str(one) in done.stderr
    command = next(line for line in done.stderr.split("`") if line.startswith("turfplan tokens"))
    assert run(*command.split()[1:], cwd=tmp_path).returncode == 0
    assert "stay with" not in run("plan", str(two), *DAY, cwd=tmp_path).stderr


def test_an_index_that_cannot_be_asked_is_told(tmp_path: Path) -> None:
    """It stops no plan."""
    one = lawn(tmp_path / "one")
    (tmp_path / "turfplan.index").write_text("no index", encoding="utf-8")
    (note,) = refuse_known_elsewhere(IDENTITY, one)
    assert note.key == "identity.not_asked"
