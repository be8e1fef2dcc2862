"""Files are written whole or not at all, whatever stops the writing."""

import os
import stat
from pathlib import Path

import pytest

from turfplan.files.whole_files import (
    PartlyPlacedError,
    replacing,
    sweep,
    sync_folder,
    write_into_folders,
    write_whole,
)


def contents(folder: Path) -> dict[str, bytes]:
    """Everything in a folder, by name."""
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def test_files_take_their_places_in_order_after_all_are_on_the_disk(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Both are forced to the disk before the first is renamed; the folder is forced last."""
    steps: list[str] = []
    fsync, replace = os.fsync, os.replace
    monkeypatch.setattr(os, "fsync", lambda handle: (steps.append("sync"), fsync(handle)))
    monkeypatch.setattr(os, "replace", lambda a, b: (steps.append(Path(b).name), replace(a, b)))
    write_whole({tmp_path / "b": b"2", tmp_path / "a": b"1"})
    assert steps == ["sync", "sync", "b", "a", "sync"]
    assert contents(tmp_path) == {"a": b"1", "b": b"2"}


def test_a_fault_while_filling_changes_nothing(tmp_path: Path) -> None:
    """What raises in the block leaves the old file and no temporary."""
    write_whole({tmp_path / "a": b"old"})
    with pytest.raises(RuntimeError, match="stopped"), replacing(tmp_path / "a") as (temporary,):
        temporary.write_bytes(b"half")
        raise RuntimeError("stopped")
    assert contents(tmp_path) == {"a": b"old"}


def test_a_fault_between_two_renames_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The first file is new and whole, the second as it was, and the error tells that from one that
    changed nothing.
    """
    write_whole({tmp_path / "a": b"old", tmp_path / "b": b"old"})
    replace = os.replace

    def fails_at_b(source: Path, target: Path) -> None:
        if target.name == "b":
            raise OSError(5, "Input/output error")
        replace(source, target)

    monkeypatch.setattr(os, "replace", fails_at_b)
    with pytest.raises(PartlyPlacedError, match="Input/output error"):
        write_whole({tmp_path / "a": b"new", tmp_path / "b": b"new"})
    assert contents(tmp_path) == {"a": b"new", "b": b"old"}
    with pytest.raises(OSError, match="Input/output error") as told:
        write_whole({tmp_path / "b": b"new"})
    assert not isinstance(told.value, PartlyPlacedError) and contents(tmp_path) == {
        "a": b"new",
        "b": b"old",
    }


def test_the_mode_follows_the_umask(tmp_path: Path) -> None:
    """A file is as open as the user's umask lets it be, and no more open than was asked."""
    if os.name == "nt":
        pytest.skip("no modes here")
    before = os.umask(0o027)
    try:
        write_whole({tmp_path / "a": b""})
        with replacing(tmp_path / "b", mode=0o600):
            pass
    finally:
        os.umask(before)
    assert (tmp_path / "a").stat().st_mode & 0o777 == 0o640 and (
        tmp_path / "b"
    ).stat().st_mode & 0o777 == 0o600


def test_a_folder_that_cannot_be_synced_is_no_error(tmp_path: Path) -> None:
    """Some systems cannot force a folder: the files are whole all the same."""
    sync_folder(tmp_path / "not there")


def test_what_was_closed_to_others_stays_closed(tmp_path: Path) -> None:
    """A file that its owner has closed is no more open after it was written anew; a new one is as
    the user's umask has it, a private one is its owner's."""
    closed, fresh, own = (tmp_path / name for name in ("closed", "fresh", "own"))
    closed.write_bytes(b"old")
    closed.chmod(0o600)
    write_whole({closed: b"1", fresh: b"2", own: b"3"}, private=[own])
    modes = [stat.S_IMODE(path.stat().st_mode) for path in (closed, fresh, own)]
    (tmp_path / "usual").touch()
    assert modes == [0o600, stat.S_IMODE((tmp_path / "usual").stat().st_mode), 0o600]
    closed.chmod(0o444)
    write_whole({closed: b"4"})
    assert closed.read_bytes() == b"4"


def test_folders_that_were_made_go_again_where_nothing_comes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Missing folders are made; after a fault none is left that was not there."""
    write_into_folders({tmp_path / "a" / "b" / "c": b"1"})
    assert (tmp_path / "a" / "b" / "c").read_bytes() == b"1"

    def refuse(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", refuse)
    with pytest.raises(OSError, match="No space"):
        write_into_folders({tmp_path / "a" / "d" / "e": b"1", tmp_path / "f" / "g": b"2"})
    assert {path.name for path in tmp_path.rglob("*")} == {"a", "b", "c"}


def test_leftovers_of_a_kill_are_swept(tmp_path: Path) -> None:
    """Those of one's own prefix, in the folders that are held; a folder that is not there is no
    fault."""
    for name in (".mine-1", ".mine-2", ".other-1", "mine"):
        (tmp_path / name).touch()
    sweep([tmp_path, tmp_path, tmp_path / "none"], ".mine-")
    assert set(contents(tmp_path)) == {".other-1", "mine"}
