"""A backup holds all that a lawn needs: whatever a command writes is in it, or can be made again
from what is.
"""

import json
import shutil
import zipfile
from pathlib import Path

import pytest

from command import run
from machine import files
from planning import EXAMPLES
from tiers import full
from turfplan.app.backup_lawns import INDEX_ROWS, backup_lawns
from turfplan.app.outputs import outputs, words_of
from turfplan.cli import COMMANDS
from turfplan.errors import TurfplanError
from turfplan.files.archive import CONTENTS, MANIFEST
from turfplan.files.reading.plan import read_plan

NEW = (
    "--area",
    "3000 ft2",
    "--grass",
    "tall_fescue",
    "--postal-code",
    "17601",
    "--depth",
    "0.5 in",
)
DAY = ("--today", "2027-02-01")
ROWS = (
    "id,lawn.area,lawn.grass,leveling.survey,place.latitude,place.longitude,seeding.intent\n"
    "ash,320 m2,tall_fescue,points/ash.csv,51.5,-0.6,overseed\n"
)
# Every command that writes, as it is run in a folder; the others only print.
WRITING: dict[str, tuple[tuple[str, ...], ...]] = {
    "new": (
        ("new", "lawn.toml", *NEW),
        ("new", "data/lawns/back", *NEW),
        ("new", "data/lawns/side", "--from", "lawn.toml"),
    ),
    "plan": (
        ("plan", "lawn.toml", *DAY),
        ("plan", "data/lawns/back", "--todos", *DAY),
        ("plan", "data/lawns/side", *DAY),
    ),
    "log": (
        ("log", "data/lawns/back", "note", "wet corner"),
        ("log", "lawn.toml", "done", "soil_test", "--on", "2027-02-02", *DAY[:1], "2027-02-03"),
    ),
    "print": tuple(("print", "data/lawns/back", sheet) for sheet in ("week", "book", "measure")),
    "tokens": (
        ("tokens", "issue", "data/lawns/back", "--kind", "edit", "--index", "data/turfplan.index"),
    ),
    "publish": (("publish", "data/lawns/back", "--to", "web"),),
    "clients": (
        ("clients", "plan", "clients.csv", "-o", "data", *DAY, "--processes", "1"),
        ("clients", "material", "data", "--told"),
        ("clients", "messages", "data", *DAY),
        ("clients", "letter", "data", "ash", "--base-url", "https://lawns.example.org"),
    ),
}
PRINTING = {"windows", "why", "facts"}
# What `serve` writes is the index; the rest is asked of here.
ASKED_HERE = {"serve", "backup", "restore"}
# What is made again: by the next plan or print, or by the next publishing.
SHEETS = {"week.html", "season-book.html", "measure.html", "checklist.html"}
SHEETS |= {"summary.csv", "clients.index", "letter.html"}


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder in which every command has written, and people have."""
    home = tmp_path_factory.mktemp("home")
    (home / "points").mkdir()
    shutil.copy(EXAMPLES / "british-metric-survey.csv", home / "points" / "ash.csv")
    (home / "clients.csv").write_text(ROWS, encoding="utf-8")
    for command, calls in WRITING.items():
        for words in calls:
            done = run(*words, cwd=home)
            assert done.returncode == 0, (command, words, done.stderr)
    (home / "data" / "business.toml").write_text('name = "Invented"\n', encoding="utf-8")
    back = home / "data" / "lawns" / "back"
    (back / "client.toml").write_text('name = "Invented"\n', encoding="utf-8")
    (back / "journal.jsonl").write_bytes((back / "brief.journal.jsonl").read_bytes())
    with (back / "brief.journal.jsonl").open("a", encoding="utf-8") as journal:
        journal.write("raked by hand")
    assert run("log", "data/lawns/back", "note", "dry again", cwd=home).returncode == 0
    assert run("plan", "data/lawns/back", *DAY, cwd=home).returncode == 0
    return home


def named_in(archive: Path) -> set[str]:
    """The paths of the files in an archive."""
    with zipfile.ZipFile(archive) as found:
        return {name.removeprefix(CONTENTS) for name in found.namelist()} - {MANIFEST}


def test_every_command_is_asked() -> None:
    """A new command is run here, or is known to write nothing."""
    assert set(COMMANDS) == set(WRITING) | PRINTING | ASKED_HERE


@full
def test_all_that_commands_write_is_copied_or_made_again(home: Path, tmp_path: Path) -> None:
    """Every file below the folder is in the archive, is an output that follows from a plan which
    is, or a sheet, a feed of a host, a lock or the list that somebody gave."""
    backup_lawns(tmp_path / "copy", [home], None)
    kept, left = named_in(tmp_path / "copy"), set()
    for path in files(home):
        folder = home / Path(path).parent
        plan = read_plan(folder) if (folder / "plan.json").is_file() else None
        follows = outputs(plan, words_of(plan), ("todos.ics",)) if plan is not None else {}
        remade = (home / path).name in {*follows, *SHEETS} - {"plan.json"}
        is_index = path.startswith("data/turfplan.index") and f"{INDEX_ROWS}/1.json" in kept
        if not (path in kept or remade or is_index or path.startswith("web/")):
            left.add(path)
    assert left == {"clients.csv", "points/ash.csv"}
    assert {
        "lawn.toml",
        "lawn.journal.jsonl",
        "lawn/plan.json",
        "data/business.toml",
        "data/lawns/back/brief.toml",
        "data/lawns/back/brief.journal.jsonl",
        "data/lawns/back/brief.journal.aside.txt",
        "data/lawns/back/journal.jsonl",
        "data/lawns/back/client.toml",
        "data/lawns/back/published.json",
        "data/lawns/back/plan.json",
        "data/lawns/ash/points/ash.csv",
        "data/lawns/side/brief.toml",
        f"{INDEX_ROWS}/1.json",
    } <= kept


@full
def test_what_is_left_out_follows_from_the_copy(home: Path, tmp_path: Path) -> None:
    """Restored elsewhere, every output of every plan has the bytes that it had."""
    backup_lawns(tmp_path / "copy", [home], None)
    done = run("restore", str(tmp_path / "copy"), "--to", str(tmp_path / "new"), cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    old, new = files(home), files(tmp_path / "new")
    assert "data/turfplan.index" in new and "turfplan.index" not in new
    for path in new:
        if path.endswith(("turfplan.index", "changes.html")):
            continue
        assert new[path] == old[path], path
    made = {path for path in old if path.endswith(("season.ics", "order.html", "tasks.csv"))}
    assert made and made <= set(new)


@full
def test_the_same_folder_gives_the_same_archive(home: Path, tmp_path: Path) -> None:
    """A copy says nothing of when it was made."""
    index = home / "data" / "turfplan.index"
    backup_lawns(tmp_path / "one", [home], index)
    backup_lawns(tmp_path / "two", [home], index)
    assert (tmp_path / "one").read_bytes() == (tmp_path / "two").read_bytes()


@full
def test_without_names_it_takes_what_the_index_knows(home: Path, tmp_path: Path) -> None:
    """All that lies beside the index, and lawns that it serves from anywhere."""
    (tmp_path / "shop").mkdir()
    index = tmp_path / "shop" / "turfplan.index"
    words = ("tokens", "issue", str(home / "lawn"), "--index", str(index))
    assert run(*words, cwd=tmp_path).returncode == 0
    made = backup_lawns(tmp_path / "copy", [], index)
    assert [lawn.folder for lawn in made.lawns] == ["lawn"] and made.addresses == 1
    assert {"lawn.toml", "lawn.journal.jsonl", "lawn/plan.json"} <= set(made.files)


@full
def test_one_lawn_takes_its_own_addresses_alone(home: Path, tmp_path: Path) -> None:
    """The copy of one lawn holds no address of another."""
    made = backup_lawns(tmp_path / "copy", [home / "data" / "lawns" / "side"], None)
    assert made.addresses == 0 and [lawn.entries for lawn in made.lawns] == [0]
    both = backup_lawns(tmp_path / "both", [home / "data" / "lawns" / "back"], None)
    assert both.addresses == 2 and [lawn.entries for lawn in both.lawns] == [2]


def test_a_brief_goes_with_the_plan_that_was_made_elsewhere(tmp_path: Path) -> None:
    """A plan in a folder of another name is that of the brief whose identity it bears; a survey
    named by its place on the machine comes along, and where it was is told."""
    text = (EXAMPLES / "surveyed-metric.toml").read_text(encoding="utf-8")
    survey = tmp_path / "far" / "points.csv"
    survey.parent.mkdir()
    shutil.copy(EXAMPLES / "british-metric-survey.csv", survey)
    home = tmp_path / "home"
    home.mkdir()
    absolute = text.replace("british-metric-survey.csv", survey.as_posix())
    assert absolute != text
    (home / "north.toml").write_text(absolute, encoding="utf-8")
    assert run("plan", "north.toml", "-o", "out", *DAY, cwd=home).returncode == 0
    made = backup_lawns(tmp_path / "copy", [home], None)
    assert [(lawn.folder, lawn.brief) for lawn in made.lawns] == [("out", "north.toml")]
    with zipfile.ZipFile(tmp_path / "copy") as archive:
        outside = json.loads(archive.read(MANIFEST))["outside"]
    assert list(outside) == [survey.as_posix()] and outside[survey.as_posix()] in made.files


@full
def test_what_cannot_be_copied_is_told(home: Path, tmp_path: Path) -> None:
    """A folder without a lawn, a place that is not there, an index that is not there; a file that a
    brief names and that is not there is told, and the rest copied."""
    (tmp_path / "empty").mkdir()
    for what, index, said in (
        ([tmp_path / "empty"], None, "holds no lawn"),
        ([tmp_path / "none"], None, "no such file"),
        ([home], tmp_path / "none.index", "no such index"),
    ):
        with pytest.raises(TurfplanError, match=said):
            backup_lawns(tmp_path / "copy", what, index)
    brief = tmp_path / "empty" / "lawn.toml"
    brief.write_text('[lawn]\ngrass = "tall_fescue"\nareas = 3\n', encoding="utf-8")
    made = backup_lawns(tmp_path / "copy", [tmp_path / "empty"], None)
    assert made.files == ("lawn.toml",) and len(made.notes) == 1
