"""What a brief and its files say is news, how they are written is none."""

import gzip
import json
import tomllib
from pathlib import Path
from typing import Any

import pytest

from planning import EXAMPLES, NAMES
from turfplan.app.inputs import read_input
from turfplan.files.reading.brief import brief_from, read_brief
from turfplan.files.reading.value_digests import digest_of_brief, digest_of_files

BRIEF = """
units = "us"
[lawn]
area = "4200 ft2"
grass = "tall_fescue"
[place]
postal_code = "17601"
[leveling]
depth = "1 in"
parts = { sand = 0.7, topsoil = 0.3 }
[work]
people = 2
"""
SURVEY = "x_m,y_m,height_mm,note\n0,0,10,a\n10,0,12.5,\n0,10,8,\n10,10,9,\n"


def digest(text: str) -> str:
    """The digest of a brief's text."""
    return digest_of_brief(brief_from(tomllib.loads(text)))


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("[lawn]", "# by the house\n[lawn]  # lawn"),
        ('area = "4200 ft2"\ngrass = "tall_fescue"', 'grass = "tall_fescue"\narea = "4200 ft2"'),
        ("\n", "\r\n"),
        ("people = 2", "people   =    2\n\n"),
        ('"1 in"', '"25.4 mm"'),
        ("{ sand = 0.7, topsoil = 0.3 }", "{ topsoil = 0.30, sand = 0.7 }"),
        ("[work]", "[feeding]\n[work]"),
    ],
)
def test_how_a_brief_is_written_is_no_news(before: str, after: str) -> None:
    """Remarks, order of keys and tables, line ends, blanks, units and empty tables."""
    assert BRIEF.replace(before, after) != BRIEF
    assert digest(BRIEF.replace(before, after)) == digest(BRIEF)


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ('"1 in"', '"1.1 in"'),
        ("people = 2", "people = 3"),
        ("people = 2", ""),
        ("sand = 0.7, topsoil = 0.3", "sand = 0.3, topsoil = 0.7"),
        ("[work]", "[water]\npermit = false\n[work]"),
        ('"17601"', '"17602"'),
    ],
)
def test_what_a_brief_says_is_news(before: str, after: str) -> None:
    """Another value, one that is no longer said, one that is."""
    assert digest(BRIEF.replace(before, after)) != digest(BRIEF)


def named(folder: Path, key: str, name: str, content: bytes) -> str | None:
    """The digest of a brief's file."""
    (folder / name).write_bytes(content)
    tables = tomllib.loads(BRIEF)
    table, _, entry = key.partition(".")
    tables[table][entry] = name
    if table == "leveling":
        tables[table].pop("depth")
    if entry == "geojson":
        tables[table].pop("area")
    return digest_of_files(brief_from(tables), folder)


@pytest.mark.parametrize(
    ("written", "same"),
    [
        ("# by level\n" + SURVEY, True),
        (SURVEY.replace("\n", "\r\n"), True),
        ("\ufeff" + SURVEY.replace(",", " , "), True),
        (SURVEY.replace(",", ";").replace("12.5", "12,50"), True),
        ("y_m,x_m,height_mm,note\n0,0,10,a\n0,10,12.5,\n10,0,8,\n10,10,9,\n", True),
        (SURVEY.replace("12.5", "12.6"), False),
        (SURVEY.replace(",a", ",b"), False),
        (SURVEY + "5,5,11,\n", False),
    ],
)
def test_a_survey_is_known_by_its_values(tmp_path: Path, written: str, *, same: bool) -> None:
    """Remarks, marks, blanks and the order of its columns are none of them."""
    plain = named(tmp_path, "leveling.survey", "s.csv", SURVEY.encode())
    other = named(tmp_path, "leveling.survey", "s.csv", written.encode())
    assert plain is not None and (plain == other) == same


def test_a_map_is_known_by_its_values(tmp_path: Path) -> None:
    """Neither the order of its keys nor its blanks are news; a corner is."""
    ring = [[-76.3, 40.0], [-76.2, 40.0], [-76.2, 40.1], [-76.3, 40.0]]
    map_: dict[str, Any] = {"type": "Polygon", "coordinates": [ring]}
    plain = named(tmp_path, "lawn.geojson", "lawn.geojson", json.dumps(map_).encode())
    turned = {key: map_[key] for key in reversed(map_)}
    again = json.dumps(turned, indent=2).replace("\n", "\r\n").encode()
    assert named(tmp_path, "lawn.geojson", "lawn.geojson", again) == plain
    ring[1][0] = -76.1
    assert named(tmp_path, "lawn.geojson", "lawn.geojson", json.dumps(map_).encode()) != plain


def test_a_table_of_normals_is_known_by_its_values(tmp_path: Path) -> None:
    """Packed or not, with any line ends; another value is news, and so are bytes that are no
    text."""
    table = "MONTH,MLY-TAVG-NORMAL\n1,30.5\n2,33\n"
    plain = named(tmp_path, "place.normals", "n.csv", table.encode())
    for same in (table.replace("\n", "\r\n").encode(), gzip.compress(table.encode())):
        assert named(tmp_path, "place.normals", "n.csv", same) == plain
    others = (table.replace("33", "34").encode(), b"\xff\xfe\x00", b"\x1f\x8b broken")
    found = {named(tmp_path, "place.normals", "n.csv", other) for other in others}
    assert len(found) == 3 and plain not in found


@pytest.mark.parametrize("name", NAMES[:4])
def test_a_file_and_its_tables_have_one_digest(name: str) -> None:
    """A notebook that plans by the values of a file goes on with its plan; what earlier programs
    wrote for it is known."""
    file = read_brief(EXAMPLES / f"{name}.toml")
    tables = tomllib.loads(file.path.read_text(encoding="utf-8"))
    assert digest_of_brief(brief_from(tables)) == file.sha256
    given = read_input(file.path)
    assert given.sha256 == file.sha256 and file.earlier_sha256 == given.earlier_sha256
