"""The pages say what the program does."""

import ast
import json
import re
from pathlib import Path

import pytest
from typer.testing import CliRunner

from planning import ROOT
from turfplan.cli import COMMANDS, app
from turfplan.files.reading.book import load_book
from turfplan.records.brief import Brief, _inner_model

README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
CODE = sorted((ROOT / "turfplan").rglob("*.py"))


def brief_keys(model: type = Brief, prefix: str = "") -> set[str]:
    """Every dotted key that a brief may hold."""
    keys: set[str] = set()
    for name, field in model.model_fields.items():  # type: ignore[attr-defined]
        key, inner = field.alias or name, _inner_model(field.annotation)
        keys |= brief_keys(inner, f"{prefix}{key}.") if inner is not None else {f"{prefix}{key}"}
    return keys


def test_brief_keys_are_documented() -> None:
    """The table of keys is the brief's, no more and no less."""
    table = DEVELOPERS.split("## Keys of the brief")[1].split("\n## ")[0]
    documented = set(re.findall(r"`([a-z_.0-9]+)`", table.split("|---|---|")[1]))
    tables = {line.split("`")[1] for line in table.splitlines() if line.startswith("| `")}
    assert documented - tables | (documented & brief_keys()) == brief_keys()


def test_brief_schema_prints() -> None:
    """`facts --brief-schema` is a JSON schema of the same tables."""
    done = CliRunner().invoke(app, ["facts", "--brief-schema"])
    schema = json.loads(done.stdout)
    assert done.exit_code == 0 and {"lawn", "place", "leveling", "seeding"} <= set(
        schema["properties"]
    )


def test_readme_commands() -> None:
    """The two commands set up and run the main job and the tests; the job comes first, in one
    paragraph.
    """
    main = (
        "python3 -m venv .venv && .venv/bin/pip install -q . && "
        ".venv/bin/turfplan plan examples/cool-overseed.toml -o out"
    )
    tests = (
        'python3 -m venv .venv && .venv/bin/pip install -q -e ".[dev]" && '
        ".venv/bin/python -m pytest -q"
    )
    assert main in README and tests in README
    assert README.splitlines()[2].startswith("turfplan plans the renovation")
    assert tests == README.split("## Test it")[1].split("```sh\n")[1].split("\n```")[0]


def test_readme_shows_what_is_printed(tmp_path: Path) -> None:
    """The lines of the README's plan are those of the command, in its order, with nothing left out
    that is not marked so.
    """
    example = str(ROOT / "examples" / "cool-overseed.toml")
    done = CliRunner().invoke(app, ["plan", example, "-o", str(tmp_path), "--today", "2027-02-01"])
    shown = README.split("```text\n")[1].split("\n```")[0]
    rest = done.stdout
    for part in shown.split("\n  …\n"):
        assert part in rest, part
        rest = rest.split(part, 1)[1]


def test_each_test_of_the_safeguards_exists() -> None:
    """Every row of the table of safeguards names a file of tests; what stands after `::` is a test
    in it, and a name alone one of the file before it."""
    table = DEVELOPERS.partition("\nOWASP ASVS")[2].partition("\n## ")[0]
    rows = [row.rsplit("|", 2) for row in table.splitlines() if row.startswith("| V")]
    assert len(rows) > 10
    for row, named, _ in rows:
        file = ""
        for name in re.findall(r"`([^`]+)`", named):
            if not re.match(r"test_\w+", name):
                continue
            begins, _, test = name.rpartition("::")
            file, test = (name, "") if name.endswith(".py") else (begins or file, test)
            assert file, (row, name)
            code = (ROOT / "tests" / file).read_text(encoding="utf-8")
            assert not test or f"\ndef {test}(" in code, name
        assert file, row


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_is_documented(command: str) -> None:
    """Each command is shown by README, or is a row of the contract in DEVELOPERS."""
    contract = DEVELOPERS.partition("\n## Contract\n")[2].partition("\n## ")[0]
    assert f"turfplan {command}" in README or f"\n| `{command}` |" in contract


def test_words_of_the_book_are_documented() -> None:
    """Operations, campaigns and data files stand in DEVELOPERS."""
    book = load_book()
    missing = [
        w for w in (*book.operations, *book.campaigns) if not re.search(rf"\b{w}\b", DEVELOPERS)
    ]
    missing += [
        p.name
        for p in (ROOT / "turfplan" / "data").glob("*.toml")
        if f"`{p.name}`" not in DEVELOPERS
    ]
    flags = {flag for rule in book.order for flag in rule.when}
    missing += [flag for flag in flags if f"`{flag}`" not in DEVELOPERS]
    assert not missing


@pytest.mark.full
def test_no_species_name_outside_data_and_rules() -> None:
    """Grasses are data: no species id stands in code outside rules; the one default, winter rye, is
    a rule's.
    """
    species = set(load_book().species)
    found = []
    for path in CODE:
        if "rules" in path.parts:
            continue
        tree = ast.parse(path.read_text(encoding="utf-8"))
        docs = {
            ast.get_docstring(n, clean=False)
            for n in ast.walk(tree)
            if isinstance(n, ast.Module | ast.FunctionDef | ast.ClassDef)
        }
        for node in ast.walk(tree):
            if (
                isinstance(node, ast.Constant)
                and isinstance(node.value, str)
                and node.value not in docs
                and node.value in species
            ):
                found.append((path.name, node.value))
    assert not found


@pytest.mark.full
def test_public_things_have_docstrings() -> None:
    """Every public module, class and function says what it is."""
    bare = []
    for path in CODE:
        tree = ast.parse(path.read_text(encoding="utf-8"))
        top = [
            tree,
            *tree.body,
            *(m for c in tree.body if isinstance(c, ast.ClassDef) for m in c.body),
        ]
        for node in top:
            named = isinstance(node, ast.FunctionDef | ast.ClassDef) and not node.name.startswith(
                "_"
            )
            if (named or isinstance(node, ast.Module)) and not ast.get_docstring(node):
                bare.append(f"{path.name}:{getattr(node, 'name', 'module')}")
    assert not bare


def test_modules_stay_readable() -> None:
    """No module is longer than 400 lines, but the brief, which is one long table of records.

    Nor are those counted that a program writes: a function for each sentence, a name for each fact.
    """
    long = {
        str(p.relative_to(ROOT))
        for p in CODE
        if p.parent.name != "phrases"
        and p.name != "fact_names.py"
        and len(p.read_text(encoding="utf-8").splitlines()) > 400
    }
    # The names of facts are written by a program, one a line.
    assert long <= {"turfplan/records/brief.py", "turfplan/records/fact_names.py"}


def test_no_path_of_a_machine() -> None:
    """Nothing that is shipped names a folder of one machine."""
    pattern = re.compile(r"(?<![\w.])/(?:tmp|work|root|home)/")
    files = [
        *CODE,
        ROOT / "README.md",
        ROOT / "DEVELOPERS.md",
        *(ROOT / "templates").rglob("*"),
        *(ROOT / "examples").glob("*"),
    ]
    assert not [
        str(p)
        for p in files
        if Path(p).is_file()
        and pattern.search(Path(p).read_text(encoding="utf-8", errors="ignore"))
    ]
