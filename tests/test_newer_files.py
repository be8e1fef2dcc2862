"""Files of a newer turfplan: unknown keys are passed over, a newer schema is refused in words."""

import hashlib
import json
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple, cast

import pytest
from pydantic import ValidationError

from machine import files
from planning import EXAMPLES, example
from printed import outputs
from turfplan.cli import main
from turfplan.files.journal import read_journal
from turfplan.files.plan_folder import write_outputs
from turfplan.records.plan import Plan

TODAY = ("--today", "2027-02-01")
COMMANDS = {
    "plan": ("plan", "lawn.toml", *TODAY),
    "why": ("why", "lawn.toml", "topdress.1"),
    "log": ("log", "lawn.toml", "done", "topdress.1", "--on", "2027-05-01"),
    "note": ("log", "lawn.toml", "note", "dry"),
    "undo": ("log", "lawn.toml", "undo"),
    "print": ("print", "lawn.toml", "order"),
}


class Ended(NamedTuple):
    """How a command ended."""

    returncode: int
    stdout: str
    stderr: str


Run = Callable[..., Ended]


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    """Runs a command in this process."""

    def call(*words: str) -> Ended:
        with pytest.raises(SystemExit) as end:
            main(words)
        code = cast("int | None", end.value.code)  # main ends with a number
        return Ended(code or 0, *capsys.readouterr())

    return call


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A lawn that was planned: its brief and its folder beside it."""
    (tmp_path / "lawn.toml").write_bytes((EXAMPLES / "bermuda-sand.toml").read_bytes())
    (tmp_path / "lawn").mkdir()
    write_outputs(tmp_path / "lawn", outputs(example("bermuda-sand")))
    monkeypatch.chdir(tmp_path)
    return tmp_path


def change(folder: Path, how: Callable[[dict[str, object]], object]) -> None:
    """plan.json with a change."""
    path = folder / "plan.json"
    data = json.loads(path.read_bytes())
    how(data)
    path.write_text(json.dumps(data), encoding="utf-8")


def with_unknown_keys(value: object) -> object:
    """The value with a key that nobody knows in every one of its objects, at every depth."""
    if isinstance(value, dict):
        free = {
            "sources",
            "addresses",
            "citations",
            "on_sheets",
            "entries",
            "said",
            "names",
            "places",
        }
        inner = {k: v if k in free else with_unknown_keys(v) for k, v in value.items()}
        return inner | {"of_a_later_day": {"deep": [1]}}
    return [with_unknown_keys(one) for one in value] if isinstance(value, list) else value


def test_unknown_keys_of_a_plan_are_passed_over(run: Run, home: Path) -> None:
    """With an unknown key in every record of plan.json, planning again changes no other file, and
    `why` and `log` answer.
    """
    before = files(home)
    change(
        home / "lawn",
        lambda data: data.update(with_unknown_keys(data)),  # type: ignore[call-overload]
    )
    assert (home / "lawn" / "plan.json").read_text(encoding="utf-8").count("of_a_later_day") > 300
    for name in ("why", "log", "plan"):
        done = run(*COMMANDS[name])
        assert done.returncode == 0, (name, done.stderr)
        if name == "why":
            assert "Why not earlier" in done.stdout
    again = json.loads((home / "lawn" / "plan.json").read_bytes())
    uids = {task["id"]: task["uid"] for task in json.loads(before["lawn/plan.json"])["tasks"]}
    assert {task["id"]: task["uid"] for task in again["tasks"]}.items() >= uids.items()
    assert "of_a_later_day" not in json.dumps(again)


def test_records_made_here_still_refuse_unknown_names() -> None:
    """What this program makes is held to the names of its records; only reading is lenient."""
    with pytest.raises(ValidationError, match="of_a_later_day"):
        Plan.model_validate(
            {**example("bermuda-sand").model_dump(by_alias=True), "of_a_later_day": 1}
        )


@pytest.mark.parametrize("command", COMMANDS)
@pytest.mark.parametrize("schema", [2, 17])
def test_a_newer_schema_is_refused(run: Run, home: Path, command: str, schema: int) -> None:
    """Exit code 3, with file, key, value, what is allowed and what to do; not a byte is written."""
    change(home / "lawn", lambda data: data.update(schema=schema))
    before = files(home)
    done = run(*COMMANDS[command])
    assert done.returncode == 3 and done.stdout == ""
    said = (
        f"plan.json: schema: was written by a newer turfplan; got {schema}; allowed: 1\n"
        "hint: upgrade turfplan"
    )
    assert said in done.stderr
    assert files(home) == before


def test_clients_refuse_a_newer_schema_and_go_on(run: Run, tmp_path: Path) -> None:
    """A client's folder of a newer turfplan is told in its row, and left as it is."""
    row = (
        "id,lawn.area,lawn.grass,seeding.intent,place.postal_code\n"
        "a,400 m2,tall_fescue,overseed,17601\n"
    )
    (tmp_path / "c.csv").write_text(row, encoding="utf-8")
    (tmp_path / "out" / "a").mkdir(parents=True)
    newer = tmp_path / "out" / "a" / "plan.json"
    newer.write_text('{"schema": 2}', encoding="utf-8")
    done = run("clients", "plan", str(tmp_path / "c.csv"), "-o", str(tmp_path / "out"), *TODAY)
    assert done.returncode == 3 and "written by a newer turfplan; got 2" in done.stderr
    assert newer.read_text(encoding="utf-8") == '{"schema": 2}'


def line(**entry: object) -> str:
    """A line of a journal with its checksum, and a key beside it that nobody knows."""
    body = json.dumps(entry, separators=(",", ":"))
    digest = hashlib.sha256(body.encode()).hexdigest()[:16]
    return f'{{"sum":"{digest}","entry":{body},"of_a_later_day":1}}\n'


def test_unknown_keys_of_a_journal_are_passed_over(run: Run, home: Path) -> None:
    """An entry with keys that nobody knows, beside it and in it, counts; another can be added after
    it.
    """
    journal = home / "lawn.journal.jsonl"
    journal.write_text(
        line(number=1, at="2027-05-01T00:00:00Z", kind="note", text="dry", mood="good"),
        encoding="utf-8",
    )
    assert run(*COMMANDS["note"]).returncode == 0
    entries = read_journal(journal).entries
    assert [(e.number, e.text) for e in entries] == [(1, "dry"), (2, "dry")]


@pytest.mark.parametrize("end", ["\n", ""])
def test_a_whole_entry_of_an_unknown_kind_is_refused(run: Run, home: Path, end: str) -> None:
    """What a newer turfplan logged is neither passed over nor taken for a torn line, with or
    without its line end.
    """
    journal = home / "lawn.journal.jsonl"
    journal.write_text(
        line(number=1, at="2027-05-01T00:00:00Z", kind="frosted").strip() + end, encoding="utf-8"
    )
    before = files(home)
    for name in ("plan", "note"):
        done = run(*COMMANDS[name])
        assert done.returncode == 3 and "line 1: is whole, but not an entry" in done.stderr, (
            done.stderr
        )
        assert "hint: upgrade turfplan" in done.stderr and files(home) == before
