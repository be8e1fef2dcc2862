"""What was copied comes back as it was, writes over nothing unasked, opens no address by itself.

Where it cannot come back, everything stays as it is.
"""

import json
import random
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from command import run
from machine import files
from planning import EXAMPLES, ROOT, example
from printed import outputs
from tiers import full
from turfplan.app.backup_lawns import backup_lawns
from turfplan.app.publish_feed import publish_feed
from turfplan.app.restore_lawns import Restored, restore_lawns
from turfplan.errors import TurfplanError
from turfplan.files import archive as archives
from turfplan.files import index as store
from turfplan.files.archive import FileToKeep
from turfplan.files.plan_folder import write_outputs
from turfplan.serve import tokens

ENTRY = ("log", "bermuda.toml", "note")


def bermuda(home: Path) -> Path:
    """A folder with a planned lawn, its journal, its index with two addresses, and a published
    feed."""
    home.mkdir(parents=True)
    shutil.copy(EXAMPLES / "bermuda-sand.toml", home / "bermuda.toml")
    (home / "bermuda").mkdir()
    write_outputs(home / "bermuda", outputs(example("bermuda-sand")))
    assert run(*ENTRY, "one", cwd=home).returncode == 0
    publish_feed(home / "bermuda", home.parent / "web")
    return home


def issued(index: Path, folder: Path) -> str:
    """A new address of a lawn."""
    with store.opened(index) as connection:
        lawn = store.add_lawn(connection, folder, store.brief_beside(folder))
        return tokens.issue(connection, lawn, "feed", "kitchen")


@pytest.fixture
def copied(tmp_path: Path) -> tuple[Path, Path, str]:
    """A lawn's folder, a copy of it, and an address that it had."""
    home = bermuda(tmp_path / "home")
    token = issued(home / "turfplan.index", home / "bermuda")
    backup_lawns(tmp_path / "copy", [home], home / "turfplan.index")
    return home, tmp_path / "copy", token


def restored(copy: Path, to: Path, **options: bool) -> Restored:
    """What was brought back into a folder with an index of its own."""
    return restore_lawns(copy, to, **options)


def opens(index: Path, token: str) -> bool:
    """Whether an address opens a lawn."""
    with store.opened(index) as connection:
        found = tokens.find(connection, token)
    return found is not None and not found.is_gone


def test_a_lost_folder_comes_back(copied: tuple[Path, Path, str]) -> None:
    """After the loss of everything the folder is as it was, its outputs too; the plan made again is
    the same, and its addresses wait to be opened."""
    home, copy, token = copied
    before = files(home)
    shutil.rmtree(home)
    done = restored(copy, home)
    index = "turfplan.index"
    assert {name: raw for name, raw in files(home).items() if not name.startswith(index)} == {
        name: raw for name, raw in before.items() if not name.startswith(index)
    }
    assert [(lawn.folder, lawn.entries) for lawn in done.lawns] == [("bermuda", 1)]
    assert [(row.label, row.id) for row in done.tokens[home / index].closed] == [("kitchen", 1)]
    assert not opens(home / index, token)
    with store.opened(home / index) as connection:
        assert tokens.reopen(connection, 1)
    assert opens(home / index, token)


def test_addresses_come_along_where_they_are_asked_for(
    copied: tuple[Path, Path, str], tmp_path: Path
) -> None:
    """In another folder, with its addresses: the feed opens, and the host's file keeps its name;
    without, neither does."""
    home, copy, token = copied
    (name,) = (path.name for path in (tmp_path / "web").glob("*.ics"))
    shutil.rmtree(home)
    restored(copy, tmp_path / "closed")
    assert publish_feed(tmp_path / "closed" / "bermuda", tmp_path / "web").path.name != name
    shutil.rmtree(tmp_path / "closed")
    restored(copy, tmp_path / "new")
    done = restored(copy, tmp_path / "new", with_addresses=True)
    assert not any(found.closed for found in done.tokens.values())
    assert opens(tmp_path / "new" / "turfplan.index", token)
    assert publish_feed(tmp_path / "new" / "bermuda", tmp_path / "web").path.name == name


def test_nothing_is_written_over_unasked(copied: tuple[Path, Path, str]) -> None:
    """Files that differ are told, all of them, and everything stays; what is the same is no
    matter."""
    home, copy, _ = copied
    assert restored(copy, home).files == ()
    assert run(*ENTRY, "two", cwd=home).returncode == 0
    (home / "bermuda.toml").write_bytes(b"# changed\n" + (home / "bermuda.toml").read_bytes())
    before = files(home)
    with pytest.raises(TurfplanError, match="differs") as told:
        restored(copy, home)
    assert {Path(str(problem.where)).name for problem in told.value.problems} == {
        "bermuda.toml",
        "bermuda.journal.jsonl",
    }
    assert files(home) == before


def test_what_is_written_over_is_kept(copied: tuple[Path, Path, str]) -> None:
    """When it may write over a journal, the longer one lies beside it afterwards, twice if need
    be."""
    home, copy, _ = copied
    journal = home / "bermuda.journal.jsonl"
    short = journal.read_bytes()
    for number in (1, 2):
        assert run(*ENTRY, f"more {number}", cwd=home).returncode == 0
        longer = journal.read_bytes()
        done = restored(copy, home, force=True)
        assert journal.read_bytes() == short and len(done.notes) == 1
        kept = home / f"bermuda.journal.jsonl.before-{number}"
        assert kept.read_bytes() == longer


def test_a_lawn_known_elsewhere_is_refused(copied: tuple[Path, Path, str], tmp_path: Path) -> None:
    """While the index knows the lawn where it still lies, it is not brought to another place by
    that index; both are named and nothing is written."""
    home, copy, _ = copied
    with pytest.raises(TurfplanError, match="has the identity") as told:
        restore_lawns(copy, tmp_path / "new", home / "turfplan.index")
    assert str(home / "bermuda") in str(told.value)
    assert not (tmp_path / "new").exists()


def test_several_indexes_lie_where_they_lay(copied: tuple[Path, Path, str], tmp_path: Path) -> None:
    """That of a data folder below is found by itself, and comes back there; into one that is named
    all of them come."""
    home, _, token = copied
    lawn = bermuda(tmp_path / "other")
    text = (lawn / "bermuda.toml").read_text(encoding="utf-8")
    lawn.rename(home / "data")
    data = home / "data" / "lawns" / "one"
    data.mkdir(parents=True)
    plan = example("bermuda-sand")
    other = plan.model_copy(update={"lawn_id": "other"})
    write_outputs(data, outputs(other))
    (data / "brief.toml").write_text(text.replace(plan.lawn_id, "other"), encoding="utf-8")
    for name in ("bermuda.toml", "bermuda.journal.jsonl", "bermuda/plan.json"):
        (home / "data" / name).unlink()
    second = issued(home / "data" / "turfplan.index", data)
    made = backup_lawns(tmp_path / "both", [home], None)
    assert made.addresses == 2
    restored(tmp_path / "both", tmp_path / "new", with_addresses=True)
    assert opens(tmp_path / "new" / "turfplan.index", token)
    assert opens(tmp_path / "new" / "data" / "turfplan.index", second)
    one = tmp_path / "one.index"
    restore_lawns(tmp_path / "both", tmp_path / "new2", one, with_addresses=True)
    assert opens(one, token) and opens(one, second)


def test_another_lawns_folder_is_refused(copied: tuple[Path, Path, str], tmp_path: Path) -> None:
    """A folder that holds another lawn is left as it is, also where it may be written over."""
    _, copy, _ = copied
    other = tmp_path / "new" / "bermuda"
    other.mkdir(parents=True)
    (other / "plan.json").write_text('{"schema": 1, "lawn_id": "other"}', encoding="utf-8")
    with pytest.raises(TurfplanError, match="another lawn"):
        restored(copy, tmp_path / "new", force=True)
    assert len(files(tmp_path / "new")) == 1


def test_a_lawn_beside_its_twin_is_refused(tmp_path: Path) -> None:
    """In a data folder no lawn comes beside another of its identity."""
    lawns = tmp_path / "data" / "lawns"
    home = bermuda(lawns / "one")
    (home / "bermuda.toml").rename(home / "brief.toml")
    (home / "bermuda" / "plan.json").rename(home / "plan.json")
    backup_lawns(tmp_path / "copy", [tmp_path / "data"], None)
    home.rename(lawns / "two")
    with pytest.raises(TurfplanError, match="has the identity") as told:
        restored(tmp_path / "copy", tmp_path / "data")
    assert str(lawns / "two") in str(told.value)


def test_no_link_leads_out_of_the_folder(copied: tuple[Path, Path, str], tmp_path: Path) -> None:
    """A link in the folder to restore into is not followed out of it."""
    _, copy, _ = copied
    (tmp_path / "new").mkdir()
    (tmp_path / "away").mkdir()
    (tmp_path / "new" / "bermuda").symlink_to(tmp_path / "away", target_is_directory=True)
    with pytest.raises(TurfplanError, match="leads out"):
        restored(copy, tmp_path / "new", force=True)
    assert files(tmp_path / "away") == {} and not (tmp_path / "new" / "bermuda.toml").exists()


def test_a_page_writes_nowhere_else(tmp_path: Path) -> None:
    """An archive from elsewhere names no brief outside the folder, beside which a page would write
    what is ticked."""
    now = "2027-01-01T00:00:00+00:00"
    row = {"id": 1, "folder": "lawn", "lawn_id": "one", "added": now, "brief": "/etc/lawn.toml"}
    kept = [
        FileToKeep("lawn/plan.json", "plan", b'{"schema": 1, "lawn_id": "one"}'),
        FileToKeep("i.json", "index", json.dumps({"form": 1, "lawn": [row]}).encode()),
    ]
    lawns, indexes = [{"folder": "lawn", "lawn_id": "one"}], [{"rows": "i.json"}]
    archives.write_archive(tmp_path / "c", kept, "turfplan 0", lawns=lawns, indexes=indexes)
    restored(tmp_path / "c", tmp_path / "new", with_addresses=True)
    with store.opened(tmp_path / "new" / "turfplan.index") as connection:
        (found,) = store.lawns(connection)
    assert found.brief is None and found.folder == (tmp_path / "new" / "lawn").resolve()


Damage = Callable[[Path], None]


def _cut(copy: Path) -> None:
    copy.write_bytes(copy.read_bytes()[:-100])


def _one_byte(copy: Path) -> None:
    raw = bytearray(copy.read_bytes())
    raw[len(raw) // 2] ^= 0xFF
    copy.write_bytes(raw)


def _bad_index(copy: Path) -> None:
    """An index that names a folder outside."""
    rows = {
        "form": 1,
        "lawn": [
            {
                "id": 1,
                "folder": "../../etc",
                "lawn_id": "x",
                "added": "2027-01-01T00:00:00+00:00",
            }
        ],
    }
    copy.unlink()
    kept = [FileToKeep("i.json", "index", json.dumps(rows).encode())]
    archives.write_archive(copy, kept, "turfplan 0", indexes=[{"rows": "i.json"}])


def _false_name(copy: Path) -> None:
    """A plan under the name of another lawn."""
    copy.unlink()
    kept = [FileToKeep("lawn/plan.json", "plan", b'{"schema": 1, "lawn_id": "one"}')]
    lawns = [{"folder": "lawn", "lawn_id": "two"}]
    archives.write_archive(copy, kept, "turfplan 0", lawns=lawns)


def _no_name(copy: Path) -> None:
    """A plan that the list names as none."""
    copy.unlink()
    kept = [FileToKeep("lawn/plan.json", "named", b'{"schema": 1, "lawn_id": "one"}')]
    archives.write_archive(copy, kept, "turfplan 0")


def _no_copy(copy: Path) -> None:
    copy.write_bytes(b"not what is looked for")


@pytest.mark.parametrize("damage", [_cut, _one_byte, _bad_index, _false_name, _no_name, _no_copy])
def test_a_damaged_copy_writes_nothing(
    damage: Damage, copied: tuple[Path, Path, str], tmp_path: Path
) -> None:
    """Not a file, not a folder, not an index."""
    _, copy, _ = copied
    damage(copy)
    with pytest.raises(TurfplanError):
        restored(copy, tmp_path / "new", force=True, with_addresses=True)
    assert not (tmp_path / "new").exists()


COPYING = """
import sys
from pathlib import Path
from typer.testing import CliRunner
from turfplan.cli import app
homes, copies, to = sys.argv[1:3], Path(sys.argv[3]), sys.argv[4]
turn = len(list(copies.iterdir()))
while True:
    turn += 1
    copy = str(copies / f"{turn}.copy")
    for words in (["backup", copy, homes[turn % 2]], ["restore", copy, "--to", to, "--force"]):
        done = CliRunner().invoke(app, words)
        assert done.exit_code == 0, done.output
    print(turn, flush=True)
"""


def killed_while_copying(home: Path, kills: int, seed: int) -> int:
    """A process that copies two versions of a lawn in turn and restores each over the other, killed
    so many times; how many archives there are.

    Fails where an archive is not whole, a file is neither of one version nor of the other, the
    index does not open, or what was half-written stays after the next run.
    """
    first, second = bermuda(home / "first"), home / "second"
    issued(first / "turfplan.index", first / "bermuda")
    shutil.copytree(first, second)
    with (second / "bermuda.toml").open("a", encoding="utf-8") as brief:
        brief.write("# another version\n")
    assert run(*ENTRY, "two", cwd=second).returncode == 0
    copies, to, chance = home / "copies", home / "new", random.Random(seed)
    copies.mkdir()
    looked: set[Path] = set()
    wanted = {raw for each in (first, second) for raw in files(each).values()}
    words = [sys.executable, "-c", COPYING, *map(str, (first, second, copies, to))]
    for _ in range(kills):
        process = subprocess.Popen(words, stdout=subprocess.PIPE, text=True, cwd=ROOT)
        assert process.stdout is not None and process.stdout.readline().strip()
        time.sleep(chance.uniform(0, 0.3))
        process.send_signal(signal.SIGKILL)
        process.stdout.close()
        process.wait()
        for copy in set(copies.glob("*.copy")) - looked:
            looked.add(copy)
            assert run("restore", str(copy), "--to", str(home / "look")).returncode == 0
            shutil.rmtree(home / "look")
        lawn = {n: raw for n, raw in files(to).items() if not n.startswith(("turfplan.index", "."))}
        assert {raw for n, raw in lawn.items() if "/." not in n and "published" not in n} <= wanted
        assert not opens(to / "turfplan.index", "x" * 43)
    last = max(copies.glob("*.copy"), key=lambda copy: int(copy.stem))
    assert run("restore", str(last), "--to", str(to), "--force").returncode == 0
    with store.opened(to / "turfplan.index") as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
        assert len(tokens.listed(connection)) == 1
    assert not [path for path in to.rglob("*") if path.name.startswith(".turfplan-restore-")]
    return len(list(copies.glob("*.copy")))


@full
def test_killed_while_copying(tmp_path: Path) -> None:
    """Whatever moment it is, archives are whole or not there, and what is restored is of one
    version or the other, file by file."""
    assert killed_while_copying(tmp_path, 3, 7) >= 3


def test_a_command_says_what_it_brings(copied: tuple[Path, Path, str], tmp_path: Path) -> None:
    """Each lawn with its identity, revision and entries, what became of addresses, and the command
    that opens one."""
    _, copy, _ = copied
    done = run("restore", str(copy), "--to", str(tmp_path / "new"), cwd=tmp_path)
    assert done.returncode == 0
    lawn = example("bermuda-sand").lawn_id
    assert f"bermuda: {lawn}, revision 1 of its plan, entries in its journal: 1" in done.stdout
    assert "0 open, 0 withdrawn" in done.stdout
    assert "closed: 1, feed for kitchen" in done.stderr and "tokens open N" in done.stderr
    words = ("tokens", "open", "1", "--index", str(tmp_path / "new" / "turfplan.index"))
    assert run(*words, cwd=tmp_path).returncode == 0
