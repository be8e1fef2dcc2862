"""The public interface: a notebook plans, plans again, and looks things up, without a file
written.
"""

import ast
import subprocess
import sys
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

import turfplan
from planning import EXAMPLES, ROOT, merged
from turfplan.records.journal import JournalEntry

TODAY = date(2027, 2, 1)
TEXT = (
    '[lawn]\nid = "a"\narea = "400 m2"\ngrass = "tall_fescue"\n[place]\npostal_code = "17601"\n'
    '[seeding]\nintent = "overseed"\n'
)


def test_the_snippet_of_the_readme_runs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What the README shows works as it stands: a task with its reasons, a move by rain, windows, a
    fact; no file is made.
    """
    code = (
        (ROOT / "README.md").read_text(encoding="utf-8").split("```python\n")[1].split("\n```")[0]
    )
    names: dict[str, object] = {}
    monkeypatch.chdir(tmp_path)
    exec(compile(code, "README.md", "exec"), names)
    plan, again = names["plan"], names["again"]
    assert isinstance(plan, turfplan.Plan) and isinstance(again, turfplan.Plan)
    before, after = plan.task("overseed"), again.task("overseed")
    assert before is not None and after is not None and before.not_earlier
    assert after.start > before.start and after.uid == before.uid
    assert any(change.task == "overseed" and change.kind == "moved" for change in again.changes)
    assert not list(tmp_path.iterdir())


def test_a_brief_is_a_path_a_text_or_tables() -> None:
    """A file, its name, its text and its tables give one plan."""
    path = EXAMPLES / "bermuda-sand.toml"
    plans = [
        turfplan.plan_lawn(brief, today=TODAY, folder=EXAMPLES)
        for brief in (path, str(path), path.read_text(encoding="utf-8"))
    ]
    days = [[(task.id, task.uid, task.start, task.end) for task in plan.tasks] for plan in plans]
    assert days[0] and days[0] == days[1] == days[2]
    assert turfplan.plan_lawn(merged(), today=TODAY).lawn.id == "test-lawn"


def test_wrong_input_says_what_is_wrong() -> None:
    """A text that is no TOML, a misspelt key, a missing file, another lawn's brief, an unknown
    grass or fact: TurfplanError.
    """
    with pytest.raises(turfplan.TurfplanError, match="not TOML"):
        turfplan.plan_lawn("[lawn\n")
    with pytest.raises(turfplan.TurfplanError, match="aera"):
        turfplan.plan_lawn(TEXT.replace("area", "aera"))
    with pytest.raises(turfplan.TurfplanError, match="no such file"):
        turfplan.plan_lawn("nothing.toml")
    with pytest.raises(turfplan.TurfplanError, match="tall_fescu"):
        turfplan.open_windows("tall_fescu", postal_code="17601")
    with pytest.raises(turfplan.TurfplanError, match="no fact"):
        turfplan.book_facts("nothing.at.all")
    plan = turfplan.plan_lawn(TEXT, today=TODAY)
    note = JournalEntry(number=1, at=datetime(2027, 3, 1, tzinfo=UTC), kind="note", text="dry")
    with pytest.raises(turfplan.TurfplanError, match="another lawn"):
        turfplan.replan_lawn(plan, TEXT.replace('"a"', '"b"'), [note], today=TODAY)


def test_importing_costs_nothing_until_a_name_is_asked_for() -> None:
    """`import turfplan` loads no module of its own and no library."""
    code = (
        "import sys, turfplan\n"
        "sys.exit(str([m for m in sys.modules if m.startswith('turfplan.') "
        "or m in ('pydantic', 'typer')] or ''))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=False, cwd=ROOT
    )
    assert done.stderr.strip() == ""


def test_every_public_name_is_there_and_typed() -> None:
    """`__all__`, what can be imported, and the types told to others are the same names; anything
    else is not there.
    """
    stub = ast.parse((ROOT / "turfplan" / "__init__.pyi").read_text(encoding="utf-8"))
    typed = {
        alias.name for node in stub.body if isinstance(node, ast.ImportFrom) for alias in node.names
    }
    assert typed | {"__version__"} == set(turfplan.__all__)
    assert all(getattr(turfplan, name) is not None for name in turfplan.__all__)
    assert (
        set(turfplan.__all__) <= set(dir(turfplan)) and (ROOT / "turfplan" / "py.typed").is_file()
    )
    with pytest.raises(AttributeError, match="nothing_here"):
        _ = turfplan.nothing_here  # type: ignore[attr-defined]  # that it is missing is the promise
