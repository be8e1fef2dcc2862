"""Below the edge nothing is said in words: no module holds an English sentence.

The edge is `messages/` (catalogs and their telling) and `templates/`; help texts of `cli/` are
English. Typed functions of `phrases/` hold sentences in their docstrings alone. What stays in a
module: docstrings, what is said to programmers (the words of built-in exceptions and assertions),
SQL, headers of HTTP, and data that no reader sees.
"""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
EDGE = ("messages", "phrases")
# Programs of developers, which print for those who run them.
TOOLS = ("files/packing",)
WORD = re.compile(r"[A-Za-z]{2,}")
MOST_WORDS = 3
# Not words of ours: statements of SQL, headers of HTTP, patterns, types, and what is typed as it
# stands: commands, keys of a brief, columns of a table, amounts in the units of both readers.
TECHNICAL = re.compile(
    r"""\b(SELECT|INSERT|UPDATE|CREATE|ALTER|DELETE|PRAGMA|WHERE|VALUES|ORDER\ BY)\b|\\[bdsw]|%\w
    |default-src|max-age|charset=|filename=|User-agent:
    |^(pip|apt|turfplan)[ ]|^\w+(,[ ]\w+)+$|^\w+\[.*\]$|^\w+\[.*\][ ]\|[ ]None$|^\w+[ ]=[ ]"|\(\?P<
    |^\{[^{}]*\|[^{}]*\}$""",
    re.VERBOSE,
)
# Ids with spaces in them, as plans and tables have had them from the first.
IDS = {"potash to add in all", "phosphate to add in all", "seed or last pass"}
PROGRAMMERS = {
    "ValueError",
    "TypeError",
    "AssertionError",
    "KeyError",
    "RuntimeError",
    "AttributeError",
}
MODULES = sorted(
    path
    for path in (ROOT / "turfplan").rglob("*.py")
    if path.relative_to(ROOT / "turfplan").parts[0] not in EDGE
    and not str(path.relative_to(ROOT / "turfplan")).startswith(TOOLS)
)


def sentences(tree: ast.AST, *, help_counts: bool = True) -> Iterator[tuple[int, str]]:
    """The texts of a module that read as sentences, with their lines."""
    passed = set(map(id, _not_for_readers(tree, help_counts=help_counts)))
    for node in ast.walk(tree):
        if (
            isinstance(node, ast.Constant)
            and isinstance(node.value, str)
            and id(node) not in passed
        ):
            text = node.value
            if (
                len(WORD.findall(text)) > MOST_WORDS
                and " " in text.strip()
                and not TECHNICAL.search(text)
                and text not in IDS
            ):
                yield node.lineno, text


def _is_named(node: ast.AnnAssign, name: str) -> bool:
    return isinstance(node.target, ast.Name) and node.target.id == name


def _not_for_readers(tree: ast.AST, *, help_counts: bool) -> Iterator[ast.AST]:
    """The texts that nobody but programmers reads: docstrings, words of built-in exceptions,
    asserts; help of commands.
    """
    for node in ast.walk(tree):
        body = getattr(node, "body", None)
        documented = isinstance(node, ast.FunctionDef | ast.ClassDef | ast.Module) and body
        if documented and isinstance(body[0], ast.Expr):
            yield body[0].value
        # The text below a name of a module says what it is, as a docstring does.
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            yield node.value
        if isinstance(node, ast.AnnAssign) and not help_counts and _is_named(node, "COMMANDS"):
            yield from ast.walk(node)
        if isinstance(node, ast.Assert) and node.msg is not None:
            yield from ast.walk(node.msg)
        raised = node.exc if isinstance(node, ast.Raise) else None
        if isinstance(raised, ast.Call) and getattr(raised.func, "id", "") in PROGRAMMERS:
            yield from ast.walk(raised)
        if not help_counts and isinstance(node, ast.Call):
            for keyword in node.keywords:
                if keyword.arg in ("help", "short_help", "metavar"):
                    yield from ast.walk(keyword.value)


@pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(ROOT / "turfplan")))
def test_no_module_holds_a_sentence(path: Path) -> None:
    """What a reader reads stands in a catalog."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    in_commands = path.parent.name == "cli"
    assert list(sentences(tree, help_counts=not in_commands)) == []


def test_a_sentence_would_be_found() -> None:
    """A text of four words is one, a key, a docstring and a statement of SQL are none."""
    code = (
        'def f():\n    """A docstring of many words."""\n    x = "this is a whole sentence"\n'
        '    y = "a.key"\n    z = "SELECT a FROM b WHERE c"\n'
    )
    assert [text for _, text in sentences(ast.parse(code))] == ["this is a whole sentence"]
