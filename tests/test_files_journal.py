"""The journal file: nothing that was written is lost, whatever happens while writing."""

import multiprocessing
import random
import signal
import subprocess
import sys
import time
from collections.abc import Callable
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


MARK = b"\xef\xbb\xbf"


@pytest.mark.parametrize(
    "written",
    [
        lambda raw: raw.replace(b"\n", b"\r\n"),
        lambda raw: MARK + raw,
        lambda raw: MARK + raw.replace(b"\n", b"\r\n"),
        lambda raw: raw + b"\r\n\r\n",
        lambda raw: raw.replace(b"\n", b"\r\n")[:-2],
        lambda raw: b"\n" + MARK + raw + b"   ",
        # Two files put together, as some systems do it.
        lambda raw: MARK + raw[: raw.index(b"\n") + 1] + MARK + raw[raw.index(b"\n") + 1 :],
    ],
)
def test_ends_of_lines_and_marks_of_editors_do_no_harm(
    tmp_path: Path, written: Callable[[bytes], bytes]
) -> None:
    """A journal that an editor of another system has saved: read without a word, and added to."""
    path = tmp_path / "x.journal.jsonl"
    for text in ("one", "two"):
        note(path, text)
    path.write_bytes(written(path.read_bytes()))
    found = read_journal(path)
    assert [e.text for e in found.entries] == ["one", "two"] and not found.warnings
    note(path, "three")
    after = read_journal(path)
    assert [e.text for e in after.entries] == ["one", "two", "three"] and not after.warnings
    assert sorted(file.name for file in tmp_path.iterdir()) == [
        "x.journal.jsonl",
        "x.journal.jsonl.lock",
    ]


def test_a_file_of_nothing_but_a_mark_takes_an_entry(tmp_path: Path) -> None:
    """As an editor saves an empty text."""
    path = tmp_path / "x.journal.jsonl"
    path.write_bytes(MARK)
    assert read_journal(path).entries == ()
    note(path, "one")
    assert [e.text for e in read_journal(path).entries] == ["one"]


@pytest.mark.parametrize(
    ("last", "told"),
    [
        (b'{"sum":"0123456789abcdef","entry":{"number":3,"at":"20', "torn"),
        (b'{"su', "torn"),
        (b"topdress.1 done on Saturday", "by_hand"),
        (b'{"kind":"note","text":"dry"}', "by_hand"),
        (b'{"sum":"0123456789abcdef","entry":{"number":3,"kind":"note","text":"x"}}', "by_hand"),
        (b"\xff\xfe\x00", "by_hand"),
    ],
)
def test_a_last_line_that_does_not_count_is_told_and_kept_aside(
    tmp_path: Path, last: bytes, told: str
) -> None:
    """Cut off while it was written, or written by hand: it is passed over aloud, and when the next
    entry is written it is kept in a file of its own, with all that was put aside before."""
    path = tmp_path / "x.journal.jsonl"
    aside = tmp_path / "x.journal.aside.txt"
    note(path, "one")
    for number in (2, 3):
        path.write_bytes(path.read_bytes() + last)
        before = path.read_bytes()
        found = read_journal(path)
        assert [warning.key for warning in found.warnings] == [f"journal.{told}"]
        assert path.read_bytes() == before
        another = found.entries[0].model_copy(update={"number": number})
        added = append_entry(path, lambda _, entry=another: entry)  # type: ignore[misc]
        assert [w.key for w in added.warnings] == [f"journal.{told}", "journal.put_aside"]
        assert len(read_journal(path).entries) == number and not read_journal(path).warnings
    assert aside.read_bytes() == (last + b"\n") * 2


def test_an_entry_that_is_there_is_not_written_again(tmp_path: Path) -> None:
    """What is made of the journal and stands in it already leaves the file as it is."""
    path = tmp_path / "x.jsonl"
    one = note(path, "one")
    raw = path.read_bytes()
    added = append_entry(path, lambda journal: journal.entries[0])
    assert (added.entry, added.fresh) == (one, False) and path.read_bytes() == raw


def test_lines_of_before_there_were_keys_are_read(tmp_path: Path) -> None:
    """An entry of version 0.1 says nothing of who wrote it, or which way."""
    path = tmp_path / "x.jsonl"
    path.write_bytes(
        b'{"sum":"a41153e795590e05","entry":{"number":1,"at":"2027-01-01T00:00:00Z",'
        b'"kind":"note","share":1.0,"text":"dry"}}\n'
    )
    (entry,) = read_journal(path).entries
    assert (entry.by, entry.way, entry.key, entry.text) == ("", None, None, "dry")
