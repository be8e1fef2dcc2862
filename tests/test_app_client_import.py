"""Rows become briefs in the data folder: with the identity that a lawn has, and never over what
somebody wrote by hand.
"""

import csv
import json
import random
import shutil
import signal
import subprocess
import sys
import time
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from command import run
from planning import EXAMPLES, ROOT
from tiers import full
from turfplan.app.client_import import import_row
from turfplan.errors import TurfplanError
from turfplan.files.data_folder import brief_lawn_id
from turfplan.files.reading.brief import read_brief
from turfplan.files.reading.clients import read_clients

ROW = {
    "id": "ash",
    "lawn.area": "320 m2",
    "lawn.grass": "tall_fescue",
    "seeding.intent": "overseed",
    "place.postal_code": "17601",
    "calendar.weekdays": "sat;sun",
    "season.from": "2027-03-01",
}
DAY = ("--today", "2027-02-01", "--processes", "1")


def clients(home: Path, *rows: dict[str, str]) -> Path:
    """A clients file."""
    path = home / "clients.csv"
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, list({key: None for row in rows for key in row}))
        writer.writeheader()
        writer.writerows(rows)
    return path


def brought(home: Path, **changes: str) -> Path:
    """The row with changes, brought into its folder; the brief there."""
    file = clients(home, ROW | {key.replace("__", "."): value for key, value in changes.items()})
    (row,) = read_clients(file)
    import_row(row, file, home / "out" / "ash")
    return home / "out" / "ash" / "brief.toml"


def test_a_row_becomes_a_brief_with_an_identity_of_its_own(tmp_path: Path) -> None:
    """All that it says, as a brief that is read; its id names the folder and is no identity; the
    same row again changes no byte."""
    brief = brought(tmp_path)
    said = read_brief(brief).brief
    assert said.lawn.area_m2 == 320 and said.place.postal_code == "17601"
    assert said.season.start == date(2027, 3, 1)
    assert said.lawn.id not in (None, "ash")
    raw = brief.read_bytes()
    assert brought(tmp_path).read_bytes() == raw


def test_a_changed_row_changes_the_brief_and_no_identity(tmp_path: Path) -> None:
    """The lawn is the same, also where its brief was taken away but its plan is there."""
    brief = brought(tmp_path)
    known = brief_lawn_id(brief)
    assert read_brief(brought(tmp_path, lawn__area="400 m2")).brief.lawn.area_m2 == 400
    assert brief_lawn_id(brief) == known
    brief.unlink()
    plan = {"schema": 1, "lawn_id": known}
    (brief.parent / "plan.json").write_text(json.dumps(plan), encoding="utf-8")
    assert brief_lawn_id(brought(tmp_path)) == known


def test_what_was_changed_by_hand_stands(tmp_path: Path) -> None:
    """A brief that somebody has changed stands while its row says what it said; where both have
    changed the row is refused, and nothing is written."""
    brief = brought(tmp_path)
    text = brief.read_text(encoding="utf-8") + '\n[work]\nby = "contractor"\n'
    brief.write_text(text, encoding="utf-8")
    assert brought(tmp_path).read_text(encoding="utf-8") == text
    with pytest.raises(TurfplanError, match="changed by hand") as told:
        brought(tmp_path, lawn__area="400 m2")
    assert str(brief) in str(told.value) and brief.read_text(encoding="utf-8") == text
    own = text.split("\n", 1)[1]
    brief.write_text(own, encoding="utf-8")
    with pytest.raises(TurfplanError, match="changed by hand"):
        brought(tmp_path)
    assert brief.read_text(encoding="utf-8") == own


def test_an_editor_that_changes_line_ends_changes_nothing(tmp_path: Path) -> None:
    """A brief with line ends of the other kind and a byte-order mark is as it was brought in: it
    stands, and a changed row replaces it."""
    brief = brought(tmp_path)
    brief.write_bytes(b"\xef\xbb\xbf" + brief.read_bytes().replace(b"\n", b"\r\n"))
    raw = brief.read_bytes()
    assert brought(tmp_path).read_bytes() == raw
    assert read_brief(brought(tmp_path, lawn__area="400 m2")).brief.lawn.area_m2 == 400


def test_files_that_a_row_names_come_along(tmp_path: Path) -> None:
    """A survey lies beside the brief under the name that it has, follows the one beside the clients
    file, and is not written over where it was changed in the lawn's folder."""
    survey = tmp_path / "points" / "ash.csv"
    survey.parent.mkdir()
    shutil.copy(EXAMPLES / "british-metric-survey.csv", survey)
    named: dict[str, Any] = {"leveling__survey": "points/ash.csv"}
    brief = brought(tmp_path, **named)
    copy = brief.parent / "points" / "ash.csv"
    assert copy.read_bytes() == survey.read_bytes()
    survey.write_bytes(survey.read_bytes() + b"# measured again\n")
    brought(tmp_path, **named)
    assert copy.read_bytes() == survey.read_bytes()
    copy.write_bytes(copy.read_bytes() + b"# and by the crew\n")
    brought(tmp_path, **named)
    assert copy.read_bytes().endswith(b"crew\n")
    survey.write_bytes(survey.read_bytes() + b"# and once more\n")
    with pytest.raises(TurfplanError, match="changed by hand"):
        brought(tmp_path, **named)


def test_a_run_that_was_killed_between_two_files_goes_on(tmp_path: Path) -> None:
    """A survey that is the row's already, beside the brief of the row before, is nobody's hand."""
    survey = tmp_path / "ash.csv"
    shutil.copy(EXAMPLES / "british-metric-survey.csv", survey)
    brief = brought(tmp_path, leveling__survey="ash.csv")
    survey.write_bytes(survey.read_bytes() + b"# measured again\n")
    shutil.copy(survey, brief.parent)
    again = brought(tmp_path, leveling__survey="ash.csv", lawn__area="400 m2")
    assert read_brief(again).brief.lawn.area_m2 == 400


@pytest.mark.parametrize("name", ["../ash.csv", "/etc/hostname", "points/../../ash.csv"])
def test_no_row_names_a_file_outside(name: str, tmp_path: Path) -> None:
    """Rows may be filled in by customers: they read no file but below their own folder, and a link
    leads no further."""
    home = tmp_path / "home"
    (home / "points").mkdir(parents=True)
    shutil.copy(EXAMPLES / "british-metric-survey.csv", tmp_path / "ash.csv")
    with pytest.raises(TurfplanError, match="leads out"):
        brought(home, leveling__survey=name)
    (home / "link.csv").symlink_to(tmp_path / "ash.csv")
    with pytest.raises(TurfplanError, match="leads out"):
        brought(home, leveling__survey="link.csv")
    assert not (home / "out").exists()


def test_rows_of_one_id_are_both_held_back(tmp_path: Path) -> None:
    """Nobody knows which of two rows is meant: neither is written into the folder."""
    file = clients(tmp_path, ROW, ROW | {"id": "elm"}, ROW | {"lawn.area": "20 m2"})
    rows = read_clients(file)
    assert [row.problem is not None for row in rows] == [True, False, True]


def test_files_that_cannot_be_read_are_told(tmp_path: Path) -> None:
    """A column that is a value and a table, whichever comes first, and a cell beyond what a table
    may hold."""
    low = {"soil_test.phosphorus": "low"}
    for row in ({**ROW, **low, "soil_test.phosphorus.level": "low"}, {**ROW, "lawn.aera": "1 m2"}):
        with pytest.raises(TurfplanError, match=r"column of its own|unknown key"):
            read_clients(clients(tmp_path, row))
    with pytest.raises(TurfplanError):
        read_clients(clients(tmp_path, ROW | {"lawn.name": "x" * 200_000}))


@full
def test_a_data_folder_is_planned_where_it_lies(tmp_path: Path) -> None:
    """Imported into `lawns`, logged and planned by its folder and by its row alike: one journal,
    one plan; two folders of one identity are refused with both named."""
    file = clients(tmp_path, ROW, ROW | {"id": "elm"})
    (tmp_path / "data" / "lawns").mkdir(parents=True)
    words = ("clients", "plan", str(file), "-o", str(tmp_path / "data"), *DAY)
    done = run(*words, cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    ash, elm = (tmp_path / "data" / "lawns" / name for name in ("ash", "elm"))
    assert (tmp_path / "data" / "summary.csv").is_file()
    before = (ash / "plan.json").read_bytes()
    assert run("plan", str(ash), *DAY[:2], cwd=tmp_path).returncode == 0
    assert run("log", str(ash), "note", "wet corner", cwd=tmp_path).returncode == 0
    assert run(*words, cwd=tmp_path).returncode == 0
    plan = json.loads((ash / "plan.json").read_bytes())
    assert plan["journal_entries"] == 1 and plan["lawn_id"] == json.loads(before)["lawn_id"]
    (ash / "brief.journal.jsonl").rename(tmp_path / "kept")
    done = run(*words, cwd=tmp_path)
    assert done.returncode == 3 and "fewer than the plan knows" in done.stderr
    assert "1 of 2 planned" in done.stderr
    (tmp_path / "kept").rename(ash / "brief.journal.jsonl")
    twin = elm.parent / "twin"
    shutil.copytree(elm, twin)
    done = run(*words, cwd=tmp_path)
    assert done.returncode == 3 and str(twin) in done.stderr and "1 of 2 planned" in done.stderr


IMPORTING = """
import sys
from pathlib import Path
from turfplan.app.client_import import import_row
from turfplan.files.reading.clients import read_clients
files, folder = [Path(name) for name in sys.argv[1:3]], Path(sys.argv[3])
turn = 0
while True:
    turn += 1
    import_row(read_clients(files[turn % 2])[0], files[turn % 2], folder)
    print(turn, flush=True)
"""


def killed_while_importing(home: Path, kills: int, seed: int) -> int:
    """A process that brings two versions of a row in turn, killed so many times; how many kills it
    outlived.

    Fails where the brief is not whole or the lawn has another identity, or where half-written files
    stay after the next run.
    """
    lists = []
    for name, area in (("one", "320 m2"), ("two", "400 m2")):
        (home / name / "points").mkdir(parents=True)
        survey = home / name / "points" / "ash.csv"
        shutil.copy(EXAMPLES / "british-metric-survey.csv", survey)
        survey.write_bytes(survey.read_bytes() + f"# {name}\n".encode())
        named = {"lawn.area": area, "leveling.survey": "points/ash.csv"}
        lists.append(clients(home / name, ROW | named))
    folder, chance, ids = home / "out" / "ash", random.Random(seed), set()
    words = [sys.executable, "-c", IMPORTING, *map(str, lists), str(folder)]
    for _ in range(kills):
        process = subprocess.Popen(words, stdout=subprocess.PIPE, text=True, cwd=ROOT)
        assert process.stdout is not None and process.stdout.readline().strip()
        time.sleep(chance.uniform(0, 0.2))
        process.send_signal(signal.SIGKILL)
        process.stdout.close()
        process.wait()
        brief = read_brief(folder / "brief.toml").brief
        assert brief.lawn.area_m2 in (320, 400)
        ids.add(brief.lawn.id)
    import_row(read_clients(lists[0])[0], lists[0], folder)
    assert len(ids) == 1
    assert {path.name for path in folder.rglob("*")} <= {"brief.toml", "points", "ash.csv", ".lock"}
    return kills


@full
def test_killed_while_importing(tmp_path: Path) -> None:
    """The brief is that of one row or the other, and the next run brings the one it is given."""
    assert killed_while_importing(tmp_path, 4, 5) == 4


@full
def test_identities_of_older_folders_stay(tmp_path: Path) -> None:
    """A folder of version 0.1 has the row's id for identity: it keeps it, and so does its brief."""
    old = Path(__file__).parent / "folders" / "0.1"
    shutil.copytree(old / "clients", tmp_path / "clients")
    file = shutil.copy(old / "clients.csv", tmp_path)
    words = ("clients", "plan", str(file), "-o", str(tmp_path / "clients"), *DAY)
    twin = tmp_path / "clients" / "cedar-03"
    shutil.copy(old / "clients" / "ash-01" / "plan.json", twin)
    done = run(*words, cwd=tmp_path)
    assert done.returncode == 3 and "1 of 3 planned" in done.stderr and str(twin) in done.stderr
    shutil.copy(old / "clients" / "cedar-03" / "plan.json", twin)
    assert run(*words, cwd=tmp_path).returncode == 0
    for name in ("ash-01", "birch-02"):
        folder = tmp_path / "clients" / name
        assert brief_lawn_id(folder / "brief.toml") == name
        assert json.loads((folder / "plan.json").read_bytes())["lawn_id"] == name
