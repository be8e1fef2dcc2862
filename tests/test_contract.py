"""The names that others rely on are those that DEVELOPERS.md lists."""

import re

import pytest

from planning import ROOT
from public_names import public_names

SECTION = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").split("## Contract\n")[1]
LISTED = {
    row.split("|")[1].strip(): re.findall(r"`([^`]+)`", row.split("|")[2])
    for row in SECTION.split("\n## ")[0].splitlines()
    if row.startswith("| ") and not row.startswith(("| what", "|--"))
}
PUBLIC = public_names()


def test_every_kind_of_public_name_is_listed() -> None:
    """Each command and each kind of name has its row, and no row is of something that is no
    more.
    """
    assert list(LISTED) == list(PUBLIC)


@pytest.mark.parametrize("kind", PUBLIC)
def test_public_names_are_listed(kind: str) -> None:
    """A new option, key, file or operation stands in the list, and one that is gone does not."""
    assert LISTED[kind] == PUBLIC[kind], "python tests/public_names.py prints the rows"
