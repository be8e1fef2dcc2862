"""Archives: the same bytes for the same contents, and nothing is taken from one that is not as it
says.
"""

import hashlib
import io
import json
import stat
import zipfile
from collections.abc import Callable
from pathlib import Path
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from turfplan.errors import TurfplanError
from turfplan.files import archive
from turfplan.files.archive import CONTENTS, MANIFEST, FileToKeep, is_good_path

FILES = [
    FileToKeep("lawn.toml", "brief", b"[lawn]\n"),
    FileToKeep("lawn/plan.json", "plan", b"{}" * 5000),
    FileToKeep("lawn/published.json", "record", b"{}", private=True),
]


def written(to: Path, files: list[FileToKeep] = FILES) -> Path:
    """An archive of some files."""
    archive.write_archive(to, files, "turfplan 0")
    return to


def opened(path: Path) -> dict[str, bytes]:
    """What an archive holds, once it was looked through."""
    with archive.open_archive(path) as found:
        return {file.path: found.content(file) for file in found.manifest.files}


def test_an_archive_gives_back_what_went_in(tmp_path: Path) -> None:
    """Every file comes back with its bytes, and only its owner may read the archive."""
    path = written(tmp_path / "copy")
    assert opened(path) == {file.path: file.content for file in FILES}
    assert stat.S_IMODE(path.stat().st_mode) == 0o600


def test_the_same_contents_have_the_same_bytes(tmp_path: Path) -> None:
    """Neither the moment nor the order in which files were found is in an archive."""
    one = written(tmp_path / "one").read_bytes()
    assert written(tmp_path / "two", FILES[::-1]).read_bytes() == one


def test_nothing_is_written_over(tmp_path: Path) -> None:
    """A file of the archive's name stands, and the archive is refused."""
    (tmp_path / "copy").write_bytes(b"mine")
    with pytest.raises(TurfplanError, match="exists already"):
        written(tmp_path / "copy")
    assert (tmp_path / "copy").read_bytes() == b"mine"


Change = Callable[[dict[str, Any], dict[str, bytes]], None]


def changed(
    path: Path, change: Change, member: Callable[[zipfile.ZipInfo], None] = lambda _: None
) -> Path:
    """An archive with its list and its files changed, and each of its members; the digest of the
    list is right again."""
    with zipfile.ZipFile(path) as old:
        files = {name: old.read(name) for name in old.namelist()}
    listed = json.loads(files[MANIFEST])
    change(listed, files)
    files[MANIFEST] = json.dumps(listed).encode()
    with zipfile.ZipFile(path, "w") as new:
        new.comment = hashlib.sha256(files[MANIFEST]).hexdigest().encode()
        for name, content in files.items():
            info = zipfile.ZipInfo(name)
            info.external_attr = (stat.S_IFREG | 0o600) << 16
            if name != MANIFEST:
                member(info)
            new.writestr(info, content)
    return path


def renamed(path: str) -> Change:
    """The first file under another path, in the list too."""

    def change(listed: dict[str, Any], files: dict[str, bytes]) -> None:
        files[CONTENTS + path] = files.pop(CONTENTS + listed["files"][0]["path"])
        listed["files"][0]["path"] = path

    return change


def _longer(listed: dict[str, Any], files: dict[str, bytes]) -> None:
    files[CONTENTS + "lawn.toml"] += b"\x00" * 10_000_000


def _other(listed: dict[str, Any], files: dict[str, bytes]) -> None:
    files[CONTENTS + "lawn.toml"] = b"[LAWN]\n"


def _unlisted(listed: dict[str, Any], files: dict[str, bytes]) -> None:
    files[CONTENTS + "more.toml"] = b""


def _beside(listed: dict[str, Any], files: dict[str, bytes]) -> None:
    files["more.toml"] = b""


def _missing(listed: dict[str, Any], files: dict[str, bytes]) -> None:
    del files[CONTENTS + "lawn.toml"]


def _twice(listed: dict[str, Any], files: dict[str, bytes]) -> None:
    listed["files"] += listed["files"][:1]


def _below_a_file(listed: dict[str, Any], files: dict[str, bytes]) -> None:
    renamed("lawn/plan.json/x")(listed, files)


def _newer(listed: dict[str, Any], files: dict[str, bytes]) -> None:
    listed["schema"] = 2


def _lawn_outside(listed: dict[str, Any], files: dict[str, bytes]) -> None:
    listed["lawns"] = [{"folder": "../other"}]


def _index_not_there(listed: dict[str, Any], files: dict[str, bytes]) -> None:
    listed["indexes"] = [{"rows": "none.json"}]


def _index_outside(listed: dict[str, Any], files: dict[str, bytes]) -> None:
    listed["indexes"] = [{"rows": "lawn.toml", "place": "../turfplan.index"}]


def _too_many(listed: dict[str, Any], files: dict[str, bytes]) -> None:
    listed["files"][0]["bytes"] = archive.LARGEST_FILE + 1


def _no_list(listed: dict[str, Any], files: dict[str, bytes]) -> None:
    listed["files"] = 7


CHANGES: dict[str, tuple[Change, str]] = {
    "longer than listed": (_longer, "larger"),
    "other bytes": (_other, "checksum"),
    "not listed": (_unlisted, "not listed"),
    "beside the files": (_beside, "not listed"),
    "not there": (_missing, "not there"),
    "listed twice": (_twice, "twice"),
    "a file and a folder": (_below_a_file, "file and a folder"),
    "newer": (_newer, "newer turfplan"),
    "a lawn outside": (_lawn_outside, "may not hold"),
    "an index that is not there": (_index_not_there, "not there"),
    "an index outside": (_index_outside, "may not hold"),
    "a size beyond all": (_too_many, "damaged list"),
    "no list": (_no_list, "damaged list"),
}


@pytest.mark.parametrize(("change", "said"), CHANGES.values(), ids=CHANGES)
def test_an_archive_that_is_not_as_it_says_is_refused(
    change: Change, said: str, tmp_path: Path
) -> None:
    """Each way in which list and files can differ is told, before anything is taken from it."""
    path = changed(written(tmp_path / "copy"), change)
    with pytest.raises(TurfplanError, match=said), archive.open_archive(path):
        pass


BAD_PATHS = [
    "../lawn.toml",
    "/lawn.toml",
    "a/../../lawn.toml",
    "a//b",
    "./a",
    "a/.",
    "",
    "c:/lawn.toml",
    "a\\..\\b",
    "a\x00b",
    "a\nb",
    "x" * 256,
    "/".join(["y" * 200] * 6),
]


@pytest.mark.parametrize("path", BAD_PATHS)
def test_a_path_that_leads_elsewhere_is_refused(path: str, tmp_path: Path) -> None:
    """No path leads out of the folder, and none is one thing here and another elsewhere; neither
    one that is read, nor one that is written."""
    with pytest.raises(TurfplanError):
        written(tmp_path / "own", [FileToKeep(path, "brief", b"")])
    found = changed(written(tmp_path / "copy"), renamed(path))
    with pytest.raises(TurfplanError), archive.open_archive(found):
        pass


@given(st.text(alphabet="ab/.\\: \n", max_size=12))
@settings(max_examples=300, deadline=None)
def test_a_good_path_stays_below_its_folder(path: str) -> None:
    """Whatever passes lies below the folder that it is put into, under this very name."""
    root = Path("/srv/lawns")
    if is_good_path(path):
        assert (root / path).as_posix() == f"/srv/lawns/{path}"
        assert ".." not in (root / path).parts


def _link(info: zipfile.ZipInfo) -> None:
    info.external_attr = (stat.S_IFLNK | 0o777) << 16


def _device(info: zipfile.ZipInfo) -> None:
    info.external_attr = (stat.S_IFCHR | 0o600) << 16


@pytest.mark.parametrize("kind", [_link, _device])
def test_links_and_devices_are_refused(
    kind: Callable[[zipfile.ZipInfo], None], tmp_path: Path
) -> None:
    """A member that is no plain file is refused, whatever stands in it."""
    path = changed(written(tmp_path / "copy"), lambda *_: None, kind)
    with pytest.raises(TurfplanError, match="not a plain file"), archive.open_archive(path):
        pass


def test_two_members_of_one_name_are_refused(tmp_path: Path) -> None:
    """A second member of a name, which other programs would take, is refused."""
    path = written(tmp_path / "copy")
    with pytest.warns(UserWarning, match="Duplicate"), zipfile.ZipFile(path, "a") as more:
        comment = more.comment
        more.writestr(CONTENTS + "lawn.toml", b"[lawn]\n")
        more.comment = comment
    with pytest.raises(TurfplanError, match="twice"), archive.open_archive(path):
        pass


@pytest.mark.parametrize("share", [0, 0.1, 0.5, 0.99])
def test_a_torn_archive_is_refused(share: float, tmp_path: Path) -> None:
    """One that was cut off while it was carried about is no archive."""
    path = written(tmp_path / "copy")
    raw = path.read_bytes()
    path.write_bytes(raw[: int(len(raw) * share)])
    with pytest.raises(TurfplanError), archive.open_archive(path):
        pass


def test_no_changed_byte_goes_unseen(tmp_path: Path) -> None:
    """With any one byte changed an archive is refused, or gives back the very same files."""
    path = written(tmp_path / "copy")
    raw, right = path.read_bytes(), opened(path)
    refused = 0
    for place in range(0, len(raw), 3):
        path.write_bytes(raw[:place] + bytes([raw[place] ^ 0xFF]) + raw[place + 1 :])
        try:
            assert opened(path) == right
        except TurfplanError:
            refused += 1
    assert refused > len(raw) / 6


def test_what_changes_after_the_look_is_refused(tmp_path: Path) -> None:
    """A file that is read is held against the list again."""
    large = FileToKeep("a.csv", "named", Random(1).randbytes(200_000))
    path = written(tmp_path / "copy", [large])
    with archive.open_archive(path) as found:
        with path.open("r+b") as file:
            file.seek(100_000)
            file.write(b"\x00" * 4)
        with pytest.raises(TurfplanError):
            found.content(found.manifest.files[0])


@given(raw=st.binary(max_size=400))
@settings(max_examples=200, deadline=None)
def test_any_bytes_are_answered(raw: bytes, tmp_path_factory: pytest.TempPathFactory) -> None:
    """Whatever a file holds, it is no archive, in words."""
    path = tmp_path_factory.mktemp("any") / "copy"
    path.write_bytes(raw)
    with pytest.raises(TurfplanError), archive.open_archive(path):
        pass
    empty = io.BytesIO()
    with zipfile.ZipFile(empty, "w") as made:
        made.writestr(MANIFEST, raw)
    path.write_bytes(empty.getvalue())
    with pytest.raises(TurfplanError), archive.open_archive(path):
        pass
