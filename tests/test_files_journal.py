"""The journal file: nothing that was written is lost, whatever happens while writing."""

import multiprocessing
import random
import signal
import subprocess
import sys
import time
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from turfplan.errors import TurfplanError
from turfplan.files.journal import append_entry, read_journal
from turfplan.records.journal import JournalEntry, standing

KILLS = 6


def note(path: Path, text: str) -> JournalEntry:
    """One remark."""
    return append_entry(
        path,
        lambda j: JournalEntry(
            number=max((e.number for e in j.entries), default=0) + 1,
            at=datetime(2027, 1, 1, tzinfo=UTC),
            kind="note",
            text=text,
        ),
    ).entry


def test_no_file_is_an_empty_journal(tmp_path: Path) -> None:
    """A journal that is not there holds nothing."""
    assert read_journal(tmp_path / "x.jsonl").entries == ()


def test_entries_come_back(tmp_path: Path) -> None:
    """What is written is read, in order, with any text in it."""
    path = tmp_path / "x.jsonl"
    texts = ["dry corner", "naïve \U0001f33f", 'quotes " and \\ and \n line ends', "a" * 3000]
    for text in texts:
        note(path, text)
    assert [e.text for e in read_journal(path).entries] == texts
    assert [e.number for e in read_journal(path).entries] == [1, 2, 3, 4]


@pytest.mark.parametrize("cut", [1, 5, 40, 90])
def test_torn_last_line_loses_nothing_else(tmp_path: Path, cut: int) -> None:
    """A last line cut off by a crash is told, and the next entry is whole."""
    path = tmp_path / "x.jsonl"
    for text in ("one", "two", "three"):
        note(path, text)
    raw = path.read_bytes()
    path.write_bytes(raw[:-cut] if cut > 1 else raw[:-1] + b"x")
    damaged = read_journal(path)
    assert [e.text for e in damaged.entries] == ["one", "two"] and damaged.warnings
    note(path, "four")
    assert [e.text for e in read_journal(path).entries] == ["one", "two", "four"]


def test_missing_line_end_is_no_loss(tmp_path: Path) -> None:
    """A whole last line without its end still counts, and the next entry starts a line of its
    own.
    """
    path = tmp_path / "x.jsonl"
    note(path, "one")
    path.write_bytes(path.read_bytes()[:-1])
    note(path, "two")
    assert [e.text for e in read_journal(path).entries] == ["one", "two"]


def test_damage_elsewhere_is_an_error_with_its_line(tmp_path: Path) -> None:
    """A bad line that is not the last is an error that names it; nothing is passed over in
    silence.
    """
    path = tmp_path / "x.jsonl"
    for text in ("one", "two", "three"):
        note(path, text)
    path.write_bytes(path.read_bytes().replace(b"two", b"owt"))
    with pytest.raises(TurfplanError, match="line 2"):
        read_journal(path)


def test_undo_and_undo_of_undo(tmp_path: Path) -> None:
    """An undo is an entry; undoing it brings the first one back."""
    base = {"at": datetime(2027, 1, 1, tzinfo=UTC)}
    first = {"kind": "skipped", "task": "roll", "on": date(2027, 1, 1)}
    one = JournalEntry(number=1, **first, **base)  # type: ignore[arg-type]
    two = JournalEntry(number=2, kind="undo", undoes=1, **base)  # type: ignore[arg-type]
    three = JournalEntry(number=3, kind="undo", undoes=2, **base)  # type: ignore[arg-type]
    assert standing([one, two]) == () and standing([one, two, three]) == (one,)


def _writer(path: str, name: str) -> None:
    for number in range(15):
        note(Path(path), f"{name}{number}")


@pytest.mark.full
def test_two_writers_lose_nothing(tmp_path: Path) -> None:
    """Two writers at once: every entry is there, each number once."""
    path = tmp_path / "x.jsonl"
    context = multiprocessing.get_context("spawn")
    writers = [context.Process(target=_writer, args=(str(path), name)) for name in "ab"]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join()
    entries = read_journal(path).entries
    assert {e.text for e in entries} == {f"{n}{k}" for n in "ab" for k in range(15)}
    assert [e.number for e in entries] == list(range(1, 31))


def killed_while_writing(path: Path, kills: int, seed: int) -> int:
    """A process that writes, killed so many times at random moments; how many entries were
    acknowledged.

    Fails where the journal cannot be read after a kill or lacks an entry that was acknowledged.
    """
    code = (
        "import sys; sys.path.insert(0, sys.argv[2]); from pathlib import Path; "
        "from test_files_journal import note\n"
        "k = 0\nwhile True:\n    print(note(Path(sys.argv[1]), str(k)).number, flush=True)\n"
        "    k += 1\n"
    )
    acknowledged = 0
    chance = random.Random(seed)
    for _ in range(kills):
        run = subprocess.Popen(
            [sys.executable, "-c", code, str(path), str(Path(__file__).parent)],
            stdout=subprocess.PIPE,
            text=True,
        )
        assert run.stdout is not None
        acknowledged = max(acknowledged, int(run.stdout.readline() or acknowledged))
        time.sleep(chance.uniform(0, 0.03))
        run.send_signal(signal.SIGKILL)
        for line in run.stdout:
            if line.strip().isdigit():
                acknowledged = max(acknowledged, int(line))
        run.stdout.close()
        run.wait()
        entries = read_journal(path).entries
        assert len(entries) >= acknowledged
        assert [e.number for e in entries] == list(range(1, len(entries) + 1))
    return acknowledged


@pytest.mark.full
def test_killed_while_writing(tmp_path: Path) -> None:
    """Killed at random moments, the journal stays readable and never loses what was
    acknowledged.
    """
    assert killed_while_writing(tmp_path / "x.jsonl", KILLS, 7) > 0
