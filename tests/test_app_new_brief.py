"""A copy of a brief is a lawn of its own, with all that the first one says."""

import shutil
from pathlib import Path

import pytest

from command import run
from planning import EXAMPLES
from turfplan.app.new_brief import brief_to_write, copy_brief
from turfplan.errors import TurfplanError
from turfplan.files.reading.brief import read_brief


def test_a_copy_has_an_identity_of_its_own(tmp_path: Path) -> None:
    """Each copy another one; all else is the same, the files that it names come along."""
    source = EXAMPLES / "surveyed-metric.toml"
    ids = {read_brief(source).brief.lawn.id}
    for number in range(2):
        to = tmp_path / str(number) / "brief.toml"
        copy_brief(source, to)
        copy = read_brief(to).brief
        ids.add(copy.lawn.id)
        assert copy.leveling == read_brief(source).brief.leveling
        assert (to.parent / "british-metric-survey.csv").is_file()
    assert len(ids) == 3


def test_a_copy_by_command(tmp_path: Path) -> None:
    """From a lawn's folder into another one; an existing brief stands unless it is forced."""
    lawns = tmp_path / "lawns"
    (lawns / "one").mkdir(parents=True)
    shutil.copy(EXAMPLES / "bermuda-sand.toml", lawns / "one" / "brief.toml")
    words = ("new", str(lawns / "two"), "--from", str(lawns / "one"))
    assert run(*words, cwd=tmp_path).returncode == 0
    raw = (lawns / "two" / "brief.toml").read_bytes()
    assert run(*words, cwd=tmp_path).returncode == 3
    assert (lawns / "two" / "brief.toml").read_bytes() == raw
    assert run(*words, "--force", cwd=tmp_path).returncode == 0
    assert (lawns / "two" / "brief.toml").read_bytes() != raw


def test_where_a_new_brief_goes(tmp_path: Path) -> None:
    """A folder, or a name within `lawns`, gets a brief.toml; any other name is the file."""
    assert brief_to_write(tmp_path) == tmp_path / "brief.toml"
    assert brief_to_write(tmp_path / "lawns" / "x") == tmp_path / "lawns" / "x" / "brief.toml"
    assert brief_to_write(tmp_path / "lawns" / "x.toml") == tmp_path / "lawns" / "x.toml"
    assert brief_to_write(tmp_path / "lawn.toml") == tmp_path / "lawn.toml"


ODD = (
    'lawn = { id = "one", area = "300 m2", grass = "tall_fescue" }\n'
    '[place]\npostal_code = "17601"\n'
)


def test_what_cannot_be_copied_writes_nothing(tmp_path: Path) -> None:
    """An id that is no line of its own, a survey that would be another one's, a name that leads
    out."""
    (tmp_path / "odd.toml").write_text(ODD, encoding="utf-8")
    with pytest.raises(TurfplanError, match="cannot change"):
        copy_brief(tmp_path / "odd.toml", tmp_path / "copy.toml")
    new = tmp_path / "new"
    new.mkdir()
    (new / "british-metric-survey.csv").write_text("mine", encoding="utf-8")
    with pytest.raises(TurfplanError, match="exists already"):
        copy_brief(EXAMPLES / "surveyed-metric.toml", new / "brief.toml")
    (tmp_path / "in").mkdir()
    text = (EXAMPLES / "surveyed-metric.toml").read_text(encoding="utf-8")
    led = text.replace("british-metric-survey.csv", "../new/british-metric-survey.csv")
    (tmp_path / "in" / "lawn.toml").write_text(led, encoding="utf-8")
    with pytest.raises(TurfplanError, match="leads out"):
        copy_brief(tmp_path / "in" / "lawn.toml", tmp_path / "out" / "brief.toml")
    assert not (tmp_path / "copy.toml").exists() and not (new / "brief.toml").exists()
