"""The journal on the command line: what is told after planning again, and what `log` answers."""

import shlex
from pathlib import Path

import pytest

from command import run
from test_cli import GOOD, written
from turfplan.app.log_entry import MEASURED
from turfplan.cli import log


def season_of(tmp_path: Path) -> Path:
    """A brief that was planned in February."""
    brief = written(tmp_path, GOOD + '[leveling]\ndepth = "0.5 in"\n[season]\nfrom = 2027-03-01\n')
    done = run("plan", str(brief), "--today", "2027-02-01")
    assert done.returncode == 0, done.stderr
    return brief


def test_overdue_work_comes_with_the_commands_that_answer(tmp_path: Path) -> None:
    """What is over without an entry is named with commands that can be pasted as they stand, and
    asked for no more after.
    """
    brief = season_of(tmp_path)
    said = run("plan", str(brief), "--today", "2027-05-01").stdout
    answers = [
        line.strip()
        for line in said.splitlines()
        if line.startswith("  turfplan log ") and " done " in line
    ]
    assert answers and f"turfplan plan {brief} --assume not-done" in said
    for line in answers:
        assert run(*shlex.split(line)[1:]).returncode == 0
    after = run("plan", str(brief), "--today", "2027-05-01").stdout
    assert "Overdue" not in after and "(done)" in after


def test_changes_are_told_once(tmp_path: Path) -> None:
    """A run that changes something says what, by title; the next run has no news."""
    brief = season_of(tmp_path)
    assert run("log", str(brief), "skipped", "soil_test", "--on", "2027-02-02").returncode == 0
    first, second = (run("plan", str(brief), "--today", "2027-02-03").stdout for _ in range(2))
    assert "Skipped: Take a soil sample" in first and "Skipped" not in second


def test_log_says_what_can_be_logged(tmp_path: Path) -> None:
    """Without a word, or with a misspelt one, `log` lists the words and the nearest; quantities are
    repeated as given.
    """
    brief = season_of(tmp_path)
    for words, needle in (((), "is missing"), (("don", "soil_test"), "Did you mean 'done'?")):
        wrong = run("log", str(brief), *words)
        assert wrong.returncode == 2 and needle in wrong.stderr and "rained-off" in wrong.stderr
    said = run("log", str(brief), "measured", "soil_temperature", "58 F", "--on", "2027-02-02")
    assert said.stdout == "Entry 1: soil temperature: 58 F on 2027-02-02.\n"


# A value of each dimension that is measured, as somebody types it.
TYPED = {"temperature": "58 F", "length": "12 mm", "share": "1", "per_area": "12 1/ft2"}


def test_every_quantity_that_can_be_measured_is_told(tmp_path: Path) -> None:
    """Each quantity has a name of its own: it is logged and said without a fault."""
    brief, told = season_of(tmp_path), set()
    for quantity, dimension in MEASURED.items():
        value = TYPED[dimension]
        said = run("log", str(brief), "measured", quantity, value, "--on", "2027-02-02")
        assert said.returncode == 0 and f": {value} on 2027-02-02." in said.stdout, said.stderr
        told.add(said.stdout.split(": ")[1])
    assert len(told) == len(MEASURED)


def test_nothing_is_written_that_cannot_be_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where an entry cannot be put into words, or nobody knows in which, the journal stays."""
    brief = season_of(tmp_path)
    entry = ("log", str(brief), "note", "the north corner stays wet")
    monkeypatch.setenv("TURFPLAN_LANGUAGE", "xx")
    assert run(*entry).returncode == run("log", str(brief), "undo").returncode == 3
    monkeypatch.delenv("TURFPLAN_LANGUAGE")

    def fails(*_: object) -> None:
        raise KeyError("screen.log.note")

    with monkeypatch.context() as broken:
        broken.setattr(log, "_told", fails)
        with pytest.raises(KeyError):
            run(*entry)
    assert run(*entry).stdout.startswith("Entry 1: ")
