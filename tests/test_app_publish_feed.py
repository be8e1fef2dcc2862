"""A published feed keeps its name, which belongs to the lawn and follows no folder by itself."""

import hashlib
import shutil
import stat
from pathlib import Path

import pytest

from command import run
from planning import example
from printed import outputs
from turfplan.app.publish_feed import PublishedFile, publish_feed
from turfplan.errors import TurfplanError
from turfplan.files.plan_folder import write_outputs
from turfplan.files.publish_record import RECORD


@pytest.fixture
def lawn(tmp_path: Path) -> Path:
    """A folder with a plan."""
    folder = tmp_path / "lawn"
    folder.mkdir()
    write_outputs(folder, outputs(example("bermuda-sand")))
    return folder


def test_a_name_is_drawn_once_and_no_host_has_a_key(lawn: Path, tmp_path: Path) -> None:
    """The same on every host, unlike that of another lawn; nothing lies beside it at the host from
    which names follow; only its owner reads the record."""
    first = publish_feed(lawn, tmp_path / "web").path
    assert publish_feed(lawn, tmp_path / "web").path == first
    assert publish_feed(lawn, tmp_path / "other").path.name == first.name
    assert {path.name for path in (tmp_path / "web").iterdir()} <= {first.name, ".lock"}
    assert stat.S_IMODE((lawn / RECORD).stat().st_mode) == 0o600
    twin = Path(shutil.copytree(lawn, tmp_path / "twin"))
    (twin / RECORD).unlink()
    assert publish_feed(twin, tmp_path / "web").path.name != first.name


def test_an_address_of_an_older_version_goes_on(lawn: Path, tmp_path: Path) -> None:
    """Version 0.1 kept a key at the host; what it published there keeps its name, and only there is
    the key asked."""
    web = tmp_path / "web"
    web.mkdir()
    (web / ".turfplan-names").write_text("key\n", encoding="utf-8")
    name = hashlib.sha256(f"key\n{lawn.resolve()}".encode()).hexdigest()[:44] + ".ics"
    (web / name).write_text("old", encoding="utf-8")
    assert publish_feed(lawn, web).path.name == name
    (web / ".turfplan-names").unlink()
    assert publish_feed(lawn, web).path.name == name
    assert (web / name).read_bytes() == (lawn / "season.ics").read_bytes()


def test_a_copy_is_published_under_a_name_of_its_own(lawn: Path, tmp_path: Path) -> None:
    """The address goes on with the first folder; that the copy has another one is told, and while
    the first holds the lawn, the copy cannot be asked to keep its address."""
    feed = publish_feed(lawn, tmp_path / "web").path
    copy = Path(shutil.copytree(lawn, tmp_path / "copy"))
    (copy / "season.ics").write_text("other", encoding="utf-8")
    with pytest.raises(TurfplanError, match="has the identity") as told:
        publish_feed(copy, tmp_path / "web", keep_address=True)
    assert str(lawn) in str(told.value) and str(copy) in str(told.value)
    done = publish_feed(copy, tmp_path / "web")
    assert done.path != feed and len(done.notes) == 1
    assert feed.read_bytes() == (lawn / "season.ics").read_bytes()
    assert publish_feed(copy, tmp_path / "web") == PublishedFile(done.path)


def test_a_folder_that_has_moved_keeps_its_address_when_asked(lawn: Path, tmp_path: Path) -> None:
    """Not by itself: who moved it is told, and says so, at once or later."""
    feed = publish_feed(lawn, tmp_path / "web").path
    moved = lawn.rename(tmp_path / "moved")
    words = ("publish", str(moved), "--to", str(tmp_path / "web"))
    done = run(*words)
    assert done.returncode == 0 and "--keep-address" in done.stderr and str(lawn) in done.stderr
    assert done.stdout.strip() != str(feed) and run(*words).stdout == done.stdout
    assert run(*words, "--keep-address").stdout.strip() == str(feed)
    again = run(*words)
    assert again.stdout.strip() == str(feed) and "--keep-address" not in again.stderr


@pytest.mark.parametrize(
    "text",
    [
        "{",
        "[]",
        '{"names": {}}',
        '{"names": {"a": 1}}',
        '{"names": {"a": {"w": "../x.ics"}}}',
        '{"names": {"a": {"w": "/etc/x.ics"}}}',
        '{"names": {"a": {"w": "passwd"}}}',
    ],
)
def test_a_damaged_record_is_refused(text: str, lawn: Path, tmp_path: Path) -> None:
    """No new address is drawn in its stead, and no name leads out of the host's folder."""
    (lawn / RECORD).write_text(text, encoding="utf-8")
    with pytest.raises(TurfplanError, match="does not say"):
        publish_feed(lawn, tmp_path / "web")
    assert not (tmp_path / "web").exists()


def test_without_a_feed_it_is_told(lawn: Path, tmp_path: Path) -> None:
    """A plan whose calendar is not there is no bug: it is told."""
    (lawn / "season.ics").unlink()
    with pytest.raises(TurfplanError, match="cannot be read"):
        publish_feed(lawn, tmp_path / "web")


def test_into_the_plans_own_folder(lawn: Path) -> None:
    """A host may show the very folder of the plan."""
    assert publish_feed(lawn, lawn).path.parent == lawn
