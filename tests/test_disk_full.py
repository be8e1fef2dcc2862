"""A disk that is full, or may not be written to: the old state stands, the error is clear, nothing
half-written is left.
"""

import resource
import shutil
import subprocess
import sys
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

import pytest

from command import run
from machine import files
from planning import EXAMPLES
from tiers import full, sampled_pairs

# What each way of running into the limit says, in the words of the system, or of the database.
WORDS = {
    "too large": ("File too large",),
    "full": ("No space left", "disk is full"),
    "read-only": ("Read-only file system",),
}
IN_A_SMALL_DISK = """
kind="$1"; home="$2"; disk="$3"; after="$4"; shift 4
mount -t tmpfs -o size=4m tmpfs "$disk" || exit 99
cp -a "$home/." "$disk/"
if [ "$kind" = full ]; then head -c 8m /dev/zero > "$disk/ballast" 2>/dev/null; fi
if [ "$kind" = read-only ]; then mount -o remount,ro "$disk"; fi
cd "$disk"; "$@"; code=$?; cd /
if [ "$kind" = full ]; then rm "$disk/ballast"; fi
cp -a "$disk/." "$after/"
exit $code
"""
COMMANDS: dict[str, tuple[str, ...]] = {
    "log": ("log", "lawn.toml", "note", "x" * 9000),
    "plan": ("plan", "lawn.toml", "--today", "2027-02-02"),
    "plan elsewhere": ("plan", "lawn.toml", "-o", "fresh/deep", "--today", "2027-02-02"),
    "publish": ("publish", "lawn", "--to", "web"),
    "publish elsewhere": ("publish", "lawn", "--to", "fresh/web"),
    "new": ("new", "fresh/copy.toml", "--from", "lawn.toml"),
    "print": ("print", "lawn.toml", "book"),
    "tokens": ("tokens", "issue", "lawn"),
    "tokens elsewhere": ("tokens", "issue", "lawn", "--index", "fresh/deep/new.index"),
    "clients": ("clients", "plan", "clients.csv", "-o", "fresh/out", "--processes", "1"),
    "backup": ("backup", "new.copy", "lawn.toml"),
    "restore": ("restore", "season.copy", "--to", "fresh/again"),
    "restore over": ("restore", "season.copy", "--force"),
}
# What writes small files alone is stopped by a disk that has no room at all, not by their size.
SMALL = ("new", "tokens", "tokens elsewhere", "clients")


def turfplan(
    words: Sequence[str], home: Path, before: Callable[[], None] | None = None
) -> subprocess.CompletedProcess[str]:
    """The command, run in a folder; a limit on its files must not cut compiled modules short."""
    line = [sys.executable, "-B", "-m", "turfplan", *words]
    return subprocess.run(
        line, cwd=home, preexec_fn=before, text=True, capture_output=True, timeout=120, check=False
    )


@pytest.fixture(scope="module")
def season(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A lawn that was planned, logged and published, and whose brief and feed have changed
    since.
    """
    home = tmp_path_factory.mktemp("season")
    text = (EXAMPLES / "bermuda-sand.toml").read_text(encoding="utf-8")
    (home / "lawn.toml").write_text(text, encoding="utf-8")
    for words in (
        ("plan", "lawn.toml", "--today", "2027-02-01"),
        ("backup", "season.copy"),
        ("log", "lawn.toml", "note", "the first"),
        ("plan", "lawn.toml", "--today", "2027-02-01"),
        ("publish", "lawn", "--to", "web"),
    ):
        done = run(*words, cwd=home)
        assert done.returncode == 0, done.stderr
    (home / "lawn.toml").write_text(text.replace("5600 ft2", "7000 ft2"), encoding="utf-8")
    feed = home / "lawn" / "season.ics"
    feed.write_bytes(feed.read_bytes().replace(b"SUMMARY:", b"SUMMARY:Now "))
    rows = (
        "id,lawn.area,lawn.grass,seeding.intent,place.postal_code\nash,400 m2,zoysia,plant,30606\n"
    )
    (home / "clients.csv").write_text(rows, encoding="utf-8")
    return home


def run_short_of_room(
    kind: str, words: Sequence[str], season: Path, tmp_path: Path
) -> tuple[subprocess.CompletedProcess[str], Path]:
    """The command where there is no room, on a copy of the season; what it said, and the folder as
    it was left.
    """
    after = tmp_path / "after"
    if kind == "too large":
        shutil.copytree(season, after)
        # A file may grow to this size and no further: less than a plan or a feed, less than the
        # journal with one more entry.
        limit = 20 + (season / "lawn.journal.jsonl").stat().st_size if words[0] == "log" else 10_000
        return turfplan(
            words, after, partial(resource.setrlimit, resource.RLIMIT_FSIZE, (limit, limit))
        ), after
    if shutil.which("unshare") is None:
        pytest.skip("unshare is not here")
    disk = tmp_path / "disk"
    after.mkdir()
    disk.mkdir()
    command = [
        "unshare",
        "-rm",
        "sh",
        "-c",
        IN_A_SMALL_DISK,
        "sh",
        kind,
        str(season),
        str(disk),
        str(after),
    ]
    done = subprocess.run(
        [*command, sys.executable, "-m", "turfplan", *words],
        text=True,
        capture_output=True,
        timeout=120,
        check=False,
    )
    if done.returncode == 99 or "unshare failed" in done.stderr:
        pytest.skip(f"a small disk cannot be mounted here: {done.stderr.strip()}")
    return done, after


@pytest.mark.parametrize(
    ("kind", "command"),
    sampled_pairs(
        [
            (kind, command)
            for kind in WORDS
            for command in COMMANDS
            if not (kind == "too large" and command in SMALL)
        ],
        ("too large", "plan"),
        ("full", "publish"),
    ),
)
def test_the_old_state_stands(kind: str, command: str, season: Path, tmp_path: Path) -> None:
    """Exit code 3, the reason in the system's words, and no byte, file or folder that was not there
    before.
    """
    done, after = run_short_of_room(kind, COMMANDS[command], season, tmp_path)
    assert done.returncode == 3, (done.stdout, done.stderr)
    assert (
        done.stderr.startswith("error: ")
        and any(said in done.stderr for said in WORDS[kind])
        and "Traceback" not in done.stderr
    )
    assert done.stdout == ""
    assert files(after) == files(season)
    assert not (after / "fresh").exists()


@full
@pytest.mark.parametrize("command", ["log", "plan", "publish"])
def test_with_room_again_it_works(command: str, season: Path, tmp_path: Path) -> None:
    """What was refused for want of room is done on the next try."""
    _, after = run_short_of_room("too large", COMMANDS[command], season, tmp_path)
    done = turfplan(COMMANDS[command], after)
    assert done.returncode == 0, done.stderr
    assert files(after) != files(season)
