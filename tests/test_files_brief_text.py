"""Briefs as text: tables come back as they were, and a copy differs in its identity alone."""

import tomllib
from datetime import date
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planning import EXAMPLES, NAMES
from turfplan.files.brief_text import brief_text, with_lawn_id

KEYS = st.text(max_size=8)
VALUES = st.one_of(
    st.text(max_size=20),
    st.booleans(),
    st.integers(-(10**9), 10**9),
    st.floats(allow_nan=False, allow_infinity=False),
    st.dates(date(1, 1, 1)),
    st.lists(st.text(max_size=5), max_size=3),
)
TABLES = st.recursive(
    st.dictionaries(KEYS, VALUES, max_size=4),
    lambda inner: st.dictionaries(KEYS, st.one_of(VALUES, inner), max_size=4),
    max_leaves=8,
)


def without_empty(table: dict[str, Any]) -> dict[str, Any]:
    """Tables without those that say nothing, which have no line."""
    kept = {k: without_empty(v) if isinstance(v, dict) else v for k, v in table.items()}
    return {key: value for key, value in kept.items() if value != {}}


@given(TABLES)
@settings(max_examples=300, deadline=None)
def test_tables_come_back(table: dict[str, Any]) -> None:
    """Whatever the texts hold, a reader of TOML finds the same tables."""
    assert tomllib.loads(brief_text(table)) == without_empty(table)


@pytest.mark.parametrize("name", NAMES)
def test_a_copy_differs_in_its_identity_alone(name: str) -> None:
    """Of every example: all lines but that of the id are as they were."""
    text = (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")
    copy = with_lawn_id(text, "lawn-new")
    said, was = tomllib.loads(copy), tomllib.loads(text)
    assert said["lawn"].pop("id") == "lawn-new" and was["lawn"].pop("id") != "lawn-new"
    assert said == was
    changed = [a for a, b in zip(copy.splitlines(), text.splitlines(), strict=True) if a != b]
    assert changed == ['id = "lawn-new"']


@pytest.mark.parametrize(
    "text",
    [
        '[lawn]\narea = "3 m2"\n',
        '[lawn] # ours\r\narea = "3 m2"\r\n',
        "[place]\nid = 'a'\n[ lawn ]\narea = \"3 m2\"\nid='one' # remark\n[water]\nid = \"x\"\n",
        '[place]\n[lawn]\nname = "id = 1"\n[[lawn.part]]\nid = "part"\n',
    ],
)
def test_only_the_lawns_own_id_changes(text: str) -> None:
    """An id of another table stands, remarks and line ends too; one that is not there is added."""
    was, said = tomllib.loads(text), tomllib.loads(with_lawn_id(text, "new"))
    was["lawn"]["id"] = "new"
    assert said == was
    assert with_lawn_id(text, "new").count("#") == text.count("#")
    assert ("\r\n" in text) == ("\r\n" in with_lawn_id(text, "new"))
