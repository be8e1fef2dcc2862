"""A lawn has one journal, and its plan forgets nothing of it unasked."""

import json
import shutil
from pathlib import Path

import pytest

from command import run
from planning import EXAMPLES, example
from printed import outputs
from turfplan.files.journal import adopt_journal, read_journal
from turfplan.files.plan_folder import write_outputs

DAY = ("--today", "2027-02-01")


@pytest.fixture
def lawn(tmp_path: Path) -> Path:
    """A lawn's folder with its plan."""
    folder = tmp_path / "lawns" / "one"
    folder.mkdir(parents=True)
    shutil.copy(EXAMPLES / "bermuda-sand.toml", folder / "brief.toml")
    write_outputs(folder, outputs(example("bermuda-sand")))
    return folder


def noted(lawn: Path, text: str) -> None:
    assert run("log", str(lawn), "note", text).returncode == 0


def old_journal(lawn: Path) -> Path:
    """The journal where version 0.1 kept it for clients, with one entry."""
    noted(lawn, "from before")
    return (lawn / "brief.journal.jsonl").rename(lawn / "journal.jsonl")


def entries(lawn: Path) -> list[str | None]:
    """What the notes of a lawn's journal say."""
    return [entry.text for entry in read_journal(lawn / "brief.journal.jsonl").entries]


@pytest.mark.parametrize("first", ["plan", "log", "undo"])
def test_the_old_journal_is_read_once(first: str, lawn: Path) -> None:
    """Whichever command writes first takes it over, says so, and leaves it as it was; what comes to
    it later counts no more, and that is said."""
    old = old_journal(lawn)
    raw = old.read_bytes()
    words = {
        "plan": ("plan", str(lawn), *DAY),
        "log": ("log", str(lawn), "note", "new"),
        "undo": ("log", str(lawn), "undo"),
    }[first]
    done = run(*words)
    assert done.returncode == 0 and "taken over" in done.stderr
    assert entries(lawn)[0] == "from before" and old.read_bytes() == raw
    again = run("plan", str(lawn), *DAY)
    assert again.returncode == 0 and "journal.jsonl" not in again.stderr
    plan = json.loads((lawn / "plan.json").read_bytes())
    assert plan["journal_entries"] == len(entries(lawn))
    (lawn / "brief.journal.jsonl").rename(lawn / "kept")
    noted_elsewhere = (lawn / "kept").read_bytes()
    (lawn / "brief.journal.jsonl").write_bytes(noted_elsewhere)
    old.write_bytes(b"{}\n")
    assert "not read any more" in run("plan", str(lawn), *DAY).stderr


def test_who_only_reads_sees_the_old_journal(lawn: Path) -> None:
    """`log list` shows its entries and takes nothing over."""
    old_journal(lawn)
    done = run("log", str(lawn), "list")
    assert done.returncode == 0 and "from before" in done.stdout
    assert not (lawn / "brief.journal.jsonl").exists()


def test_a_damaged_old_journal_is_refused(lawn: Path) -> None:
    """With file and line, and nothing is taken over."""
    old = old_journal(lawn)
    old.write_bytes(b"damaged\n" + old.read_bytes())
    done = run("plan", str(lawn), *DAY)
    assert done.returncode == 3 and "journal.jsonl" in done.stderr and "line 1" in done.stderr
    assert not (lawn / "brief.journal.jsonl").exists()


def test_a_torn_end_is_not_taken_over(tmp_path: Path, lawn: Path) -> None:
    """It is told, and stays in the old file."""
    old = old_journal(lawn)
    whole = old.read_bytes()
    old.write_bytes(whole + b'{"sum":"12')
    told = adopt_journal(tmp_path / "new.jsonl", old)
    assert (tmp_path / "new.jsonl").read_bytes() == whole and len(told) == 2
    assert old.read_bytes() == whole + b'{"sum":"12'


@pytest.mark.parametrize("lost", ["file", "line"])
def test_a_plan_is_not_made_from_fewer_entries(lost: str, lawn: Path) -> None:
    """Neither a plan nor an entry is written while the journal lacks what the plan knew; with
    --forget it is made without."""
    noted(lawn, "one")
    noted(lawn, "two")
    assert run("plan", str(lawn), *DAY).returncode == 0
    journal = lawn / "brief.journal.jsonl"
    first = journal.read_bytes().splitlines(keepends=True)[0]
    if lost == "file":
        journal.unlink()
    else:
        journal.write_bytes(first)
    plan = (lawn / "plan.json").read_bytes()
    for words in (
        ("plan", str(lawn), *DAY),
        ("log", str(lawn), "note", "three"),
        ("log", str(lawn), "undo"),
    ):
        done = run(*words)
        assert done.returncode == 3 and "fewer than the plan knows; allowed: 2" in done.stderr
        assert "--forget" in done.stderr
    assert (lawn / "plan.json").read_bytes() == plan
    assert run("plan", str(lawn), "--forget", *DAY).returncode == 0
    left = 0 if lost == "file" else 1
    assert json.loads((lawn / "plan.json").read_bytes())["journal_entries"] == left
    noted(lawn, "three")


def test_a_log_for_another_lawns_folder_is_refused(lawn: Path, tmp_path: Path) -> None:
    """A brief's journal learns nothing of a plan that is another lawn's."""
    brief = Path(shutil.copy(EXAMPLES / "cool-overseed.toml", tmp_path))
    done = run("log", str(brief), "note", "x", "-o", str(lawn))
    assert done.returncode == 3 and "another lawn" in done.stderr
    assert not (tmp_path / "cool-overseed.journal.jsonl").exists()
