"""Who may sign in at the office page: passwords hashed, terms, changes, ends, and the backup."""

import json
import stat
from datetime import date
from pathlib import Path

import pytest

from command import run
from planned_business import DAY
from turfplan.app import password_hash as hashing
from turfplan.app.backup_lawns import backup_lawns
from turfplan.app.operators import (
    OperatorTerms,
    add_operator,
    change_operator,
    operator_named,
    operators_of,
    set_password,
    withdraw_operator,
)
from turfplan.app.password_hash import fault_of_password, is_password, password_hash
from turfplan.errors import TurfplanError
from turfplan.files.archive import open_archive
from turfplan.files.data_folder import OPERATORS

GOOD, OTHER = "seven green barrows go", "rake the long meadow"


@pytest.fixture(autouse=True)
def cheap(monkeypatch: pytest.MonkeyPatch) -> None:
    """Hashes that cost next to nothing; what is kept says what it cost."""
    monkeypatch.setattr(hashing, "COST_LOG2", 4)


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """A data folder with two lawns of two crews, not planned."""
    (tmp_path / "business.toml").write_text('name = "Turf and Tine (invented)"\n', "utf-8")
    for name, crew in (("ash", "north"), ("elm", "south")):
        folder = tmp_path / "lawns" / name
        folder.mkdir(parents=True)
        (folder / "brief.toml").write_text("[lawn]\n", encoding="utf-8")
        (folder / "client.toml").write_text(f'[own]\nCrew = "{crew}"\n', encoding="utf-8")
    return tmp_path


def test_the_costs_are_those_of_the_published_advice() -> None:
    """RFC 7914's own example, and costs that take 128 MiB; the same password is kept otherwise each
    time, and a letter typed as one sign or two is one letter."""
    # RFC 7914, section 12: scrypt("password", "NaCl", N=1024, r=8, p=16); its first bytes.
    wanted = bytes.fromhex("fdbabe1c9d3472007856e7190d01e9fe")
    assert hashing._key("password", b"NaCl", 10, 8, 16)[:16] == wanted
    source = Path(hashing.__file__).read_text(encoding="utf-8")
    assert "COST_LOG2, BLOCK, LANES = 17, 8, 1" in source
    kept = password_hash("h\u00e9ron lake morning")
    assert kept != password_hash("h\u00e9ron lake morning") and "lake" not in kept
    assert is_password("he\u0301ron lake morning", kept)
    assert not is_password("heron lake morning", kept)
    assert not is_password("", None) and not is_password(GOOD, None)


@pytest.mark.parametrize(
    ("password", "fault"),
    [
        ("eleven sign", "too_short"),
        ("x" * 129, "too_long"),
        ("aaaaaaaaaaaaaaaa", "too_plain"),
        ("abcdefghijklmnop", "too_plain"),
        ("0987654321098", None),
        ("12345678901234", "too_plain"),
        ("password password", "too_plain"),
        ("Ana Turf and Tine", "too_plain"),
        ("seven\tgreen barrows", "unprintable"),
        (GOOD, None),
        ("ünïcödé wörds too", None),
        ("all small letters", None),
    ],
)
def test_length_keeps_a_password_and_no_rule_of_signs(password: str, fault: str | None) -> None:
    """Short, endless and easily guessed ones are refused; any signs will do."""
    found = fault_of_password(password, ("Ana", "Turf", "Tine"))
    assert (found.key if found is not None else None) == (f"office.{fault}" if fault else None)


def test_operators_are_kept_for_their_owner_alone_and_go_into_the_backup(data: Path) -> None:
    """No password stands in the file, which nobody else may read, in the archive neither."""
    made = add_operator(data, " Ana ", OperatorTerms(), GOOD, DAY)
    add_operator(data, "Bo", OperatorTerms("NORTH", date(2027, 10, 31)), OTHER, DAY)
    path = data / OPERATORS
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    text = path.read_text(encoding="utf-8")
    assert GOOD not in text and OTHER not in text and json.loads(text)["schema"] == 1
    assert [(one.name, one.kind, one.crew) for one in operators_of(data)] == [
        ("Ana", "office", ""),
        ("Bo", "crew", "north"),
    ]
    assert operator_named(operators_of(data), "ANA") == made
    backup_lawns(data.parent / "copy", [data], None)
    with open_archive(data.parent / "copy") as archive:
        (kept,) = [one for one in archive.manifest.files if one.path.endswith(OPERATORS)]
    assert kept.private


def test_all_faults_are_told_at_once_and_nothing_is_written(data: Path) -> None:
    """A name that is none, a crew that no lawn names, an end that is over, a short password."""
    terms = OperatorTerms("nrth", date(2020, 1, 1))
    with pytest.raises(TurfplanError) as told:
        add_operator(data, "\u200b", terms, "short", DAY)
    assert [problem.where for problem in told.value.problems] == [
        "--until",
        "--crew",
        "PASSWORD",
        "NAME",
    ]
    assert not (data / OPERATORS).exists()
    add_operator(data, "Ana", OperatorTerms(), GOOD, DAY)
    with pytest.raises(TurfplanError, match="this name already"):
        add_operator(data, "ana", OperatorTerms(), OTHER, DAY)
    for change in (
        lambda: set_password(data, "Bo", OTHER),
        lambda: withdraw_operator(data, "Bo"),
        lambda: change_operator(data, "Bo", OperatorTerms(), DAY),
    ):
        with pytest.raises(TurfplanError, match="nobody of this name"):
            change()
    (path := data / OPERATORS).write_text("{", encoding="utf-8")
    with pytest.raises(TurfplanError, match="damaged"):
        withdraw_operator(data, "Ana")
    assert path.read_text(encoding="utf-8") == "{"


def test_each_change_has_a_stamp_of_its_own(data: Path) -> None:
    """By it what was signed in before is known to be over."""
    stamps = [add_operator(data, "Ana", OperatorTerms(), GOOD, DAY).stamp]
    stamps.append(set_password(data, "ana", OTHER).stamp)
    changed = change_operator(data, "Ana", OperatorTerms("south"), DAY)
    stamps.append(changed.stamp)
    assert (changed.kind, changed.crew) == ("crew", "south")
    assert len(set(stamps)) == 3
    (kept,) = operators_of(data)
    assert is_password(OTHER, kept.password) and not is_password(GOOD, kept.password)
    withdraw_operator(data, "Ana")
    assert operators_of(data) == ()


def test_the_command_keeps_operators(data: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A password is piped in or typed twice, never an argument; `password` sets a lost one anew,
    `change` says all terms anew, `list` tells who may until when."""
    import io

    folder = str(data)

    def called(action: str, *words: str, typed: str = "") -> tuple[int, str]:
        monkeypatch.setattr("sys.stdin", io.StringIO(f"{typed}\n"))
        done = run("clients", "operators", action, folder, *words)
        return done.returncode, done.stdout + done.stderr

    assert "Nobody may sign in yet" in called("list")[1]
    code, told = called("add", "Bo", "--crew", "North", "--until", "2099-10-31", typed=GOOD)
    assert code == 0 and "crew north" in told and "2099" in told and GOOD not in told
    assert called("password", "bo", typed=OTHER)[0] == 0
    assert is_password(OTHER, operators_of(data)[0].password)
    assert called("add", "Cy", typed="")[0] == 3
    assert called("change", "Bo")[0] == 0
    assert called("list")[1] == "Bo\tthe office, with all lawns, prices and lists\n"
    assert called("withdraw", "Bo")[0] == 0 and operators_of(data) == ()
    assert called("withdraw", "Bo")[0] == 3

    class _Terminal(io.StringIO):
        def isatty(self) -> bool:
            return True

    answers = iter((GOOD, OTHER, GOOD, GOOD))
    monkeypatch.setattr("getpass.getpass", lambda prompt: next(answers))
    monkeypatch.setattr("sys.stdin", _Terminal())
    assert run("clients", "operators", "add", folder, "Ana").returncode == 3
    assert run("clients", "operators", "add", folder, "Ana").returncode == 0
    assert is_password(GOOD, operators_of(data)[0].password)
