"""Plan folders: written whole or not at all, by one writer at a time, whatever kills it."""

import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from planning import EXAMPLES, ROOT
from tiers import full
from turfplan.errors import TurfplanError
from turfplan.files.plan_folder import folder_lock, write_outputs
from turfplan.files.reading.plan import read_plan

KILLS = 3


def test_only_what_differs_is_written(tmp_path: Path) -> None:
    """A second run with the same bytes touches nothing; one changed file is written alone."""
    assert set(write_outputs(tmp_path, {"plan.json": b"1", "season.ics": b"2"})) == {
        "plan.json",
        "season.ics",
    }
    assert write_outputs(tmp_path, {"plan.json": b"1", "season.ics": b"2"}) == ()
    assert write_outputs(tmp_path, {"plan.json": b"1", "season.ics": b"3"}) == ("season.ics",)


def test_plan_is_committed_first(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """plan.json is renamed before the others: it is the commit."""
    order: list[str] = []
    real = os.replace
    monkeypatch.setattr(os, "replace", lambda a, b: (order.append(Path(b).name), real(a, b)))
    write_outputs(tmp_path, {"a.html": b"1", "plan.json": b"2", "z.ics": b"3"})
    assert order[0] == "plan.json"


def test_failure_leaves_the_old_and_no_litter(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """When staging fails part way, every old file stands and no temporary is left."""
    write_outputs(tmp_path, {"plan.json": b"old", "season.ics": b"old"})
    calls = 0
    real = os.fsync

    def full(handle: int) -> None:
        nonlocal calls
        calls += 1
        if calls == 2:
            raise OSError(28, "No space left on device")
        real(handle)

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(TurfplanError, match="No space left"):
        write_outputs(tmp_path, {"plan.json": b"new", "season.ics": b"new"})
    assert {p.name: p.read_bytes() for p in tmp_path.iterdir()} == {
        "plan.json": b"old",
        "season.ics": b"old",
    }


def test_second_writer_gives_up_cleanly(tmp_path: Path) -> None:
    """While one run holds the folder a second one waits, then says so."""
    with (
        folder_lock(tmp_path / "out"),
        pytest.raises(TurfplanError, match="in use"),
        folder_lock(tmp_path / "out", seconds=0.2),
    ):
        pass


def test_file_in_place_of_a_folder(tmp_path: Path) -> None:
    """A file where the folder should be is an error, and stays."""
    (tmp_path / "out").write_text("mine", encoding="utf-8")
    with pytest.raises(TurfplanError, match="cannot be written"), folder_lock(tmp_path / "out"):
        pass
    assert (tmp_path / "out").read_text(encoding="utf-8") == "mine"


def killed_while_planning(folder: Path, kills: int, seed: int) -> int:
    """A process that plans over and over, killed so many times at random moments; how many kills it
    outlived.

    Fails where the folder then holds no whole plan, no whole feed, or what was half-written after
    the next run.
    """
    brief = folder / "lawn.toml"
    text = (EXAMPLES / "bermuda-sand.toml").read_text(encoding="utf-8")
    out = folder / "out"
    code = (
        "import sys\nfrom pathlib import Path\nfrom datetime import date\n"
        "from turfplan.cli import app\n"
        "from typer.testing import CliRunner\n"
        "k = 0\n"
        "while True:\n"
        "    k += 1\n"
        "    Path(sys.argv[1]).write_text(Path(sys.argv[3]).read_text() "
        ".replace('5600 ft2', f'{5600 + k} ft2'))\n"
        "    r = CliRunner().invoke(app, ['plan', sys.argv[1], '-o', sys.argv[2], "
        "'--today', '2027-02-01'])\n"
        "    print(r.exit_code, flush=True)\n"
    )
    chance = random.Random(seed)
    assert "5600 ft2" in text
    for _ in range(kills):
        run = subprocess.Popen(
            [sys.executable, "-c", code, str(brief), str(out), str(EXAMPLES / "bermuda-sand.toml")],
            stdout=subprocess.PIPE,
            text=True,
            cwd=ROOT,
        )
        assert run.stdout is not None
        assert run.stdout.readline().strip() == "0"
        time.sleep(chance.uniform(0, 0.3))
        run.send_signal(signal.SIGKILL)
        run.stdout.close()
        run.wait()
        plan = read_plan(out)
        assert plan is not None and plan.tasks
        feed = (out / "season.ics").read_bytes()
        assert feed.startswith(b"BEGIN:VCALENDAR\r\n") and feed.endswith(b"END:VCALENDAR\r\n")
        with folder_lock(out):
            assert not [p.name for p in out.iterdir() if p.name.startswith(".turfplan-new-")]
    return kills


@full
def test_killed_while_planning(tmp_path: Path) -> None:
    """Killed at random moments of planning and writing, the folder holds a whole plan and a whole
    feed, or none.
    """
    assert killed_while_planning(tmp_path, KILLS, 11) == KILLS


@pytest.mark.full
def test_two_plans_at_once(tmp_path: Path) -> None:
    """Two runs on one folder at once: both end, and the folder holds one whole plan."""
    words = [
        sys.executable,
        "-m",
        "turfplan",
        "plan",
        str(EXAMPLES / "bermuda-sand.toml"),
        "-o",
        str(tmp_path / "out"),
        "--today",
        "2027-02-01",
    ]
    runs = [
        subprocess.Popen(words, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, cwd=ROOT)
        for _ in range(2)
    ]
    ends = [(run.communicate()[1], run.returncode) for run in runs]
    assert all(code in (0, 3) for _, code in ends) and any(code == 0 for _, code in ends), ends
    plan = read_plan(tmp_path / "out")
    assert plan is not None and plan.revision == 1
