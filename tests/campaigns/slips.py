"""Slips that could be made in a module: another comparison, sign or number, a `not` more or
less; and what runs them.
"""

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass
from random import Random

PACKAGE = "turfplan"
_COMPARED = {
    ast.Lt: ("<", ("<=", ">=")),
    ast.LtE: ("<=", ("<", ">")),
    ast.Gt: (">", (">=", "<=")),
    ast.GtE: (">=", (">", "<")),
    ast.Eq: ("==", ("!=",)),
    ast.NotEq: ("!=", ("==",)),
    ast.Is: ("is", ("is not",)),
    ast.IsNot: ("is not", ("is",)),
    ast.In: ("in", ("not in",)),
    ast.NotIn: ("not in", ("in",)),
}
_SIGNS = {ast.Add: ("+", "-"), ast.Sub: ("-", "+"), ast.Mult: ("*", "/"), ast.Div: ("/", "*")}


@dataclass(frozen=True)
class Mutant:
    """One slip: the file below the package, the place in its text, what stands there, and what
    is put in its stead.
    """

    module: str
    line: int
    start: int
    end: int
    old: str
    new: str
    code: str

    @property
    def key(self) -> str:
        """What tells it from others as long as its line stands: independent of where the line
        is.
        """
        return f"{self.module}: {self.code}: {self.old} -> {self.new}"

    def applied(self, source: str) -> str:
        """The text with the slip."""
        return source[: self.start] + self.new + source[self.end :]


class _Slips(ast.NodeVisitor):
    """Every slip that a module offers, as places in its text."""

    def __init__(self, source: str, chance: Random) -> None:
        self.lines = source.splitlines(keepends=True)
        self.starts = [0]
        for line in self.lines:
            self.starts.append(self.starts[-1] + len(line))
        self.source, self.chance = source, chance
        self.found: list[tuple[int, int, str]] = []

    def place(self, line: int, column: int) -> int:
        """A place of the syntax tree, which counts bytes, as a place in the text."""
        text = self.lines[line - 1].encode()[:column].decode()
        return self.starts[line - 1] + len(text)

    def between(self, left: ast.expr, right: ast.expr, old: str, new: str) -> None:
        """A slip in the operator between two parts."""
        begin, end = (
            self.place(left.end_lineno or 0, left.end_col_offset or 0),
            self.place(right.lineno, right.col_offset),
        )
        word = rf"(?<!\w){old}(?!\w)" if old[0].isalpha() else re.escape(old)
        matches = list(re.finditer(word, self.source[begin:end]))
        if len(matches) == 1:
            self.found.append((begin + matches[0].start(), begin + matches[0].end(), new))

    def visit_Compare(self, node: ast.Compare) -> None:
        """A comparison turned, or moved by its border."""
        for left, kind, right in zip(
            [node.left, *node.comparators], node.ops, node.comparators, strict=False
        ):
            old, news = _COMPARED[type(kind)]
            self.between(left, right, old, self.chance.choice(news))
        self.generic_visit(node)

    def visit_BinOp(self, node: ast.BinOp) -> None:
        """Plus for minus, times for divided by."""
        if type(node.op) in _SIGNS:
            self.between(node.left, node.right, *_SIGNS[type(node.op)])
        self.generic_visit(node)

    def visit_UnaryOp(self, node: ast.UnaryOp) -> None:
        """A sign or a `not` left out."""
        begin, inner = (
            self.place(node.lineno, node.col_offset),
            self.place(node.operand.lineno, node.operand.col_offset),
        )
        if isinstance(node.op, ast.USub | ast.Not) and "(" not in self.source[begin:inner]:
            self.found.append((begin, inner, ""))
        self.generic_visit(node)

    def visit_If(self, node: ast.If | ast.IfExp) -> None:
        """A `not` put in."""
        begin, end = (
            self.place(*at)
            for at in (
                (node.test.lineno, node.test.col_offset),
                (node.test.end_lineno or 0, node.test.end_col_offset or 0),
            )
        )
        self.found.append((begin, end, f"not ({self.source[begin:end]})"))
        self.generic_visit(node)

    visit_IfExp = visit_If

    def visit_Constant(self, node: ast.Constant) -> None:
        """Another number."""
        if isinstance(node.value, int | float) and not isinstance(node.value, bool):
            begin, end = (
                self.place(node.lineno, node.col_offset),
                self.place(node.end_lineno or 0, node.end_col_offset or 0),
            )
            other = node.value + 1 if isinstance(node.value, int) else (node.value * 1.5 or 1.0)
            self.found.append((begin, end, repr(other)))

    def visit_JoinedStr(self, node: ast.JoinedStr) -> None:
        """Left alone: places inside such texts are not told before Python 3.12."""

    def visit_AnnAssign(self, node: ast.AnnAssign) -> None:
        """Types are left alone."""
        if node.value is not None:
            self.visit(node.value)

    def visit_FunctionDef(self, node: ast.FunctionDef) -> None:
        """The defaults and the body, not the types."""
        for part in (
            *node.args.defaults,
            *(d for d in node.args.kw_defaults if d is not None),
            *node.body,
        ):
            self.visit(part)


def slips_of(module: str, source: str, chance: Random) -> Iterator[Mutant]:
    """Every slip of a module, whether it makes sense or not."""
    visitor = _Slips(source, chance)
    visitor.visit(ast.parse(source))
    lines = source.splitlines()
    for start, end, new in visitor.found:
        line = source.count("\n", 0, start) + 1
        yield Mutant(module, line, start, end, source[start:end], new, lines[line - 1].strip())


def sensible(mutant: Mutant, source: str) -> bool:
    """Whether the text with the slip can be parsed and says something else."""
    try:
        return ast.dump(ast.parse(mutant.applied(source))) != ast.dump(ast.parse(source))
    except SyntaxError:
        return False


@dataclass(frozen=True)
class Reach:
    """Where a line shows: the lines that are run with it, or the names that what is run at import
    sets.

    Both are empty for a line of neither kind; only a test that runs some other part of the module
    can notice it.
    """

    lines: range = range(0)
    names: frozenset[str] = frozenset()


def reach_of(tree: ast.Module, line: int) -> Reach:
    """The statement in a function that holds a line; for a default the whole function; else the
    names that it sets.
    """
    statements = (n for n in ast.walk(tree) if isinstance(n, ast.stmt))
    held = [one for one in statements if line in _lines_of(one)]  # from the outside inwards
    functions = [one for one in held if isinstance(one, ast.FunctionDef)]
    if not held:
        return Reach()
    inner = held[-1]
    if functions:
        return Reach(_lines_of(inner) if inner is functions[-1] else _header_of(inner))
    targets = inner.targets if isinstance(inner, ast.Assign) else []
    if isinstance(inner, ast.AnnAssign):
        targets = [inner.target]
    return Reach(
        names=frozenset(n.id for one in targets for n in ast.walk(one) if isinstance(n, ast.Name))
    )


def _lines_of(statement: ast.stmt) -> range:
    return range(statement.lineno, (statement.end_lineno or statement.lineno) + 1)


def _header_of(statement: ast.stmt) -> range:
    """The lines of a statement up to the first of those it holds."""
    inner = [
        n.lineno for n in ast.walk(statement) if isinstance(n, ast.stmt) and n is not statement
    ]
    whole = _lines_of(statement)
    return range(whole.start, max(whole.start + 1, min([*inner, whole.stop])))


def lines_naming(tree: ast.Module) -> Iterator[tuple[str, int]]:
    """Every name that is used in a module, an attribute or a keyword too, with its line."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Name):
            yield node.id, node.lineno
        elif isinstance(node, ast.Attribute):
            yield node.attr, node.end_lineno or node.lineno
        elif isinstance(node, ast.keyword) and node.arg:
            yield node.arg, node.lineno
