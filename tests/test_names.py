"""A name means one thing: classes, type aliases and rooms."""

import ast
from collections import defaultdict
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
CODE = sorted((ROOT / "turfplan").rglob("*.py"))
MAP = (
    (ROOT / "DEVELOPERS.md")
    .read_text(encoding="utf-8")
    .split("## A map of the code")[1]
    .split("\n### ")[0]
)


def type_names(tree: ast.Module) -> set[str]:
    """The classes of a module and its aliases of types: names in CapWords that are bound to
    something.
    """
    classes = {node.name for node in ast.walk(tree) if isinstance(node, ast.ClassDef)}
    bound = {
        target.id
        for node in tree.body
        if isinstance(node, ast.Assign)
        for target in node.targets
        if isinstance(target, ast.Name) and is_cap_words(target.id)
    }
    return classes | bound


def is_cap_words(name: str) -> bool:
    """Whether a name is written as types are: one capital at least that is followed by a small
    letter.
    """
    bare = name.lstrip("_")
    return bare[:1].isupper() and not bare.isupper() and "_" not in bare


@pytest.mark.full
def test_a_type_name_is_unique() -> None:
    """No class and no alias of a type has the name of another, with or without an underscore."""
    places = defaultdict(list)
    for path in CODE:
        for name in type_names(ast.parse(path.read_text(encoding="utf-8"))):
            places[name.lstrip("_")].append(f"{path.relative_to(ROOT)}: {name}")
    assert not {name: found for name, found in places.items() if len(found) > 1}


def test_two_names_that_differ_by_an_underscore_are_one() -> None:
    """The reader of types sees classes and aliases, and passes over constants and plain values."""
    tree = ast.parse("class _Span: ...\nSpan = tuple[int, int]\nDAYS = 365\nfirst = 1\nA_B = 2\n")
    assert type_names(tree) == {"_Span", "Span"}


def test_every_room_is_on_the_map() -> None:
    """Each package and each module at the top stands in the first column of the map, and nothing
    else does.
    """
    rooms = {f"{p.name}/" for p in (ROOT / "turfplan").iterdir() if (p / "__init__.py").is_file()}
    rooms |= {p.name for p in (ROOT / "turfplan").glob("*.py") if not p.name.startswith("__")}
    shown = {
        cell.strip("` ")
        for line in MAP.splitlines()
        if line.startswith("| `")
        for cell in line.split("|")[1].split("` `")
    }
    assert shown == rooms
