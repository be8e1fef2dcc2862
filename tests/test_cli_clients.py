"""The commands for many lawns, one after the other as an office uses them, and stopped half-way."""

import json
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from command import run
from planning import ROOT
from tiers import full

ROWS = (
    "ID;Client.Name;Lawn.Area;lawn.grass;seeding.intent;place.postal_code;season.from;Route\n"
    "ash;Ash;400 m2;tall_fescue;overseed;17601;2027-03-01;north\n"
    "elm;Elm;300 m2;tall_fescue;overseed;17601;2027-03-01;south\n"
)
DAY = "2027-02-01"


def test_a_season_begins(tmp_path: Path) -> None:
    """Import, plan, list, print, log, plan again, export: each takes what the one before made."""
    (tmp_path / "c.csv").write_text(ROWS, encoding="cp1252")

    def ask(*words: str, code: int = 0) -> str:
        done = run("clients", *words, cwd=tmp_path)
        assert done.returncode == code, (words, done.stderr)
        return done.stdout + done.stderr

    assert "2 new" in ask("import", "c.csv", "-o", "data", "--dry-run")
    assert not (tmp_path / "data").exists()
    assert "2 rows: 2 new" in ask("import", "c.csv", "-o", "data")
    ask("plan", "c.csv", code=2)
    assert "2 of 2 planned" in ask("plan", "data", "--today", DAY, "--processes", "1")
    week = json.loads(ask("list", "data", "--week", "2027-08-31", "--json"))
    assert {lawn["id"] for lawn in week["lawns"]} == {"ash", "elm"} and len(week["hours"]) == 7
    table = ask("list", "data", "--week", "2027-08-31", "--group", "ROUTE=north")
    assert "Ash" in table and "Elm" not in table and "hours of work" in table
    ask("list", "data", "--on", "this", "--overdue", code=2)
    assert "week-2027-08-30.html" in ask("print", "week", "data", "--on", "2027-08-31")
    job = week["lawns"][0]["jobs"][0]
    said = ("log", "data", "--on", job["end"], "--all", "done", "--today", job["end"], "--yes")
    told = ask(*said)
    undo = next(line for line in told.splitlines() if "--undo" in line).split("turfplan clients ")
    ask("log", "data", "--on", job["end"], code=2)
    assert "taken back" in ask(*undo[1].split())
    ask(*said)
    again = ask("plan", "data", "--today", job["end"], "--processes", "1")
    assert "2 of 2 planned" in again
    ask("export", "data", "-o", "out.csv")
    assert (tmp_path / "out.csv").read_bytes().decode() == ROWS


@full
@pytest.mark.parametrize("stop", [signal.SIGKILL, signal.SIGINT])
def test_a_run_that_is_stopped_goes_on(stop: signal.Signals, tmp_path: Path) -> None:
    """What was planned stands, and the same command plans the rest; who stops it by hand is told
    how far it came."""
    rows = "".join(ROWS.splitlines(keepends=True)[1].replace("ash", f"c{n}") for n in range(8))
    (tmp_path / "c.csv").write_text(ROWS.splitlines(keepends=True)[0] + rows, encoding="utf-8")
    words = [
        sys.executable,
        "-m",
        "turfplan",
        "clients",
        "plan",
        "c.csv",
        "-o",
        str(tmp_path / "d"),
    ]
    words = [*words[:5], str(tmp_path / "c.csv"), *words[6:], "--today", DAY]
    process = subprocess.Popen(words, cwd=ROOT, stderr=subprocess.PIPE, text=True)
    end = time.monotonic() + 60
    while not list(tmp_path.glob("d/c*/plan.json")) and time.monotonic() < end:
        time.sleep(0.01)
    process.send_signal(stop)
    _, told = process.communicate(timeout=60)
    planned = len(list(tmp_path.glob("d/c*/plan.json")))
    assert planned and not (tmp_path / "d" / "summary.csv").exists()
    assert process.returncode == (130 if stop == signal.SIGINT else -stop)
    assert ("Stopped" in told) == (stop == signal.SIGINT)
    done = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0 and "8 of 8 planned" in done.stderr
