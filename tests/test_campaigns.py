"""Campaigns are on record, and their own machinery works."""

import ast
import shutil
from pathlib import Path
from random import Random

import pytest

import lines_run
from campaigns import mutants, recomputed
from campaigns.__main__ import CAMPAIGNS
from campaigns.mutant_bench import TOO_LONG, Bench, WarmTests
from campaigns.records import recorded
from campaigns.slips import PACKAGE, Mutant, reach_of, sensible, slips_of
from lines_run import TestRun
from planning import ROOT
from tiers import full
from warm_tests import ELSEWHERE


def test_every_campaign_file_is_run() -> None:
    """No file of a campaign is forgotten."""
    files = {path.stem for path in (ROOT / "tests" / "campaigns").glob("*.py")} - {
        "__init__",
        "__main__",
        "records",
        "mutant_bench",
        "slips",
    }
    assert files == set(CAMPAIGNS)


@pytest.mark.parametrize("name", CAMPAIGNS)
def test_the_record_is_of_this_campaign(name: str) -> None:
    """A record, where there is one, is of a full run with the seed of today."""
    record, campaign = recorded().get(name), CAMPAIGNS[name]
    if record is None:
        pytest.skip(f"{name} has had no full run")
    assert (record["size"], record["seed"]) == (campaign.size, campaign.seed)
    assert len(record) > 2


@full
@pytest.mark.parametrize(
    ("check", "operation", "item"),
    [
        ("twins", "topdress", "weight"),
        ("volumes", "topdress", "volume"),
        ("weights", "topdress", "weight"),
        ("orders", "order_material", "volume"),
        ("seed", "overseed", "seed"),
        ("nitrogen", "feed_nitrogen", "nitrogen_total"),
        ("lime", "lime", "lime"),
        ("minutes", "water", "water"),
        ("hours", "topdress", None),
    ],
)
def test_what_is_reckoned_anew_tells_a_wrong_amount(
    check: str, operation: str, item: str | None, tmp_path: Path
) -> None:
    """Two per cent more of one amount, or of the hours, is found by the check of its kind."""
    book = recomputed.book_tables()
    reckoned = next(
        lawn
        for number in range(40)
        if (lawn := recomputed.planned(recomputed.lawn(Random(number), book), book, tmp_path))
        and lawn.tasks(operation)
        and lawn.brief["seeding"]["intent"] == "overseed"
    )
    sound = {function.__name__: function for function in recomputed.CHECKS}[check]
    assert not recomputed.faults_of(reckoned, [sound])
    task = reckoned.tasks(operation)[0]
    for amount in task["amounts"] if item else [task]:
        if item is None:
            amount["person_hours"] *= 1.02
        elif amount["item"] == item:
            amount["value"] *= 1.02
    assert recomputed.faults_of(reckoned, [sound])


def test_water_that_forgets_the_driest_quarter_is_found(tmp_path: Path) -> None:
    """A week in which all that an uneven sprinkler puts down pays use is told."""
    book = recomputed.book_tables()
    reckoned = next(
        lawn
        for number in range(40)
        if (lawn := recomputed.planned(recomputed.lawn(Random(number), book), book, tmp_path))
    )
    assert not recomputed.faults_of(reckoned, [recomputed.unevenness])
    ledger = next(one for one in reckoned.plan["ledgers"] if one["item"] == "water")
    week = max(ledger["weeks"], key=lambda week: week["entries"]["rooted"])
    assert week["entries"]["rooted"] > 0
    week["entries"]["lost"] = 0.0
    assert recomputed.faults_of(reckoned, [recomputed.unevenness])


UNITS = f"{PACKAGE}/units.py"
SOURCE = '''
def f(a: int = 3, b: float = -1.5) -> int:
    """Not 7."""
    if a <= b and not a:
        return (a) - (b)  # minus - here
    return [a * 2, f"{a + 1}"][0]
'''


def test_slips_are_of_every_kind_and_change_what_is_said() -> None:
    """A comparison, signs, numbers, a `not`; no text, no type; each can be parsed and differs
    from the source.
    """
    found = list(slips_of("units.py", SOURCE, Random(1)))
    changes = {(m.old, m.new) for m in found}
    assert {
        ("-", "+"),
        ("*", "/"),
        ("3", "4"),
        ("1.5", "2.25"),
        ("2", "3"),
        ("0", "1"),
        ("not ", ""),
        ("-", ""),
    } <= changes
    assert any(old == "<=" and new in ("<", ">") for old, new in changes)
    assert any(new.startswith("not (a <= b") for _, new in changes)
    assert not any(m.old in ("7", "int", "1") for m in found)
    for mutant in found:
        if sensible(mutant, SOURCE):
            assert ast.dump(ast.parse(mutant.applied(SOURCE))) != ast.dump(ast.parse(SOURCE))
    assert all(sensible(m, SOURCE) for m in found)


def test_every_package_of_the_core_has_tests() -> None:
    """Each name is a package or a module that is there, and each of its patterns finds a test."""
    for name, globs in mutants.MIRRORS.items():
        assert (ROOT / PACKAGE / name).exists() and globs, name
        assert all(list((ROOT / "tests").glob(glob)) for glob in globs), name


def test_a_mutant_is_told_by_its_line_not_its_number() -> None:
    """The same slip further down has the same key."""
    first = list(slips_of("units.py", SOURCE, Random(1)))
    later = list(slips_of("units.py", "\n\n" + SOURCE, Random(1)))
    assert [m.key for m in first] == [m.key for m in later] and first[0].line + 2 == later[0].line


def test_what_a_line_is_run_with_is_its_statement_or_what_uses_its_name() -> None:
    """In a function the statement or its head, for a default the whole function, at import the
    names that are set.
    """
    text = """A = 3
def f(a=4):
    x = (a +
         2)
    if (x > 1
        and a):
        return x
class C:
    d: int = 7
print(9)
"""
    reach = {line: reach_of(ast.parse(text), line) for line in range(1, 11)}
    assert [reach[line].names for line in (1, 9, 10)] == [{"A"}, {"d"}, set()]
    assert not any(reach[line].lines for line in (1, 9, 10))
    assert reach[2].lines == range(2, 8)
    assert reach[3].lines == reach[4].lines == range(3, 5)
    assert reach[5].lines == reach[6].lines == range(5, 7) and reach[7].lines == range(7, 8)


CHECKOUT = {
    "turfplan/__init__.py": "",
    "turfplan/units.py": "from functools import cache\n\n@cache\ndef size():\n    return 3\n",
    # What was read is set aside, as our own tests do it.
    "tests/conftest.py": "import gc\n\ndef pytest_collection_finish():\n    gc.freeze()\n",
    "tests/test_size.py": """import pytest
from turfplan.units import size

@pytest.fixture(scope="module")
def made():
    return size()

def test_first():
    assert size() < 5

def test_second():
    assert size() == 3

def test_of_what_is_made_once(made):
    assert made == 3

def test_red():
    assert size() == 7

def test_other():
    assert True
""",
}


@pytest.fixture
def bench(tmp_path: Path) -> Bench:
    """A checkout of one module with a few tests, one of which fails."""
    for name, text in CHECKOUT.items():
        (tmp_path / "checkout" / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "checkout" / name).write_text(text, encoding="utf-8")
    for plugin in ("lines_run.py", "warm_tests.py"):
        shutil.copy(ROOT / "tests" / plugin, tmp_path / "checkout" / "tests")
    (tmp_path / "checkout" / "pytest.ini").write_text("[pytest]\n", encoding="utf-8")
    return Bench(tmp_path / "checkout")


def test_each_test_is_noted_with_the_lines_that_it_runs(bench: Bench, tmp_path: Path) -> None:
    """What tests keep hides no line, what is made once counts for its file, and a test that
    fails is not noted.
    """
    env = {lines_run.FOLDER: str(tmp_path / "notes"), lines_run.WATCHED: f"{bench.home}/turfplan/*"}
    code, out = bench.pytest(["-p", "lines_run", "-n", "0", "tests/test_size.py"], None, **env)
    assert code == 1, out
    noted = lines_run.notes_in(tmp_path / "notes")
    runs = {name.partition("::")[2] for name, run in noted.items() if run.runs({UNITS: 1 << 5})}
    assert runs == {"test_first", "test_second", "test_of_what_is_made_once", "test_other"}
    assert "tests/test_size.py::test_red" not in noted
    assert not noted["tests/test_size.py::test_first"].runs({UNITS: 1 << 4, "other.py": -1})


def slip_of_size() -> Mutant:
    """The only number of the checkout is another."""
    (found,) = (m for m in slips_of("units.py", CHECKOUT[UNITS], Random(1)) if m.old == "3")
    return found


ASKED = [f"tests/test_size.py::test_{name}" for name in ("gone", "red", "first", "second")]


@full
def test_a_mutant_is_noticed_by_a_test_that_passes_without_it(bench: Bench) -> None:
    """Neither by one that fails anyway, nor by one that is not there; the text is as it was
    afterwards.
    """
    mutant = slip_of_size()
    assert bench.noticed(mutant, ASKED, 60) == ASKED[3]
    assert bench.noticed(mutant, ASKED[:3], 60) is None
    assert bench.noticed(mutant, ASKED[3:], 0.01) == TOO_LONG
    assert (bench.home / UNITS).read_text(encoding="utf-8") == CHECKOUT[UNITS]


@full
def test_a_warm_pytest_notices_what_one_of_its_own_does(bench: Bench) -> None:
    """One question does not change the next; what stands in no function, or does not end, is
    told.
    """
    mutant = slip_of_size()
    with WarmTests.started(bench, ["tests/test_size.py"]) as warm:
        assert ASKED[3] in warm.tests() and len(warm.tests()) == 5
        for _ in range(2):
            assert warm.noticed(mutant, mutant.applied(CHECKOUT[UNITS]), ASKED, 60) == ASKED[3]
        assert warm.noticed(mutant, mutant.applied(CHECKOUT[UNITS]), ASKED[:3], 60) is None
        assert warm.noticed(mutant, CHECKOUT[UNITS] + "A = 1", ASKED, 60) == ELSEWHERE
        endless = CHECKOUT[UNITS].replace("return 3", "return size()")
        for text, found in (
            (endless, ASKED[2]),
            (endless.replace("return size()", "while 1: 0"), TOO_LONG),
        ):
            assert warm.noticed(mutant, text, ASKED[2:], 2) == found


def test_tests_are_asked_within_their_budget_first_cases_first() -> None:
    """The nearest file, then the first case of each test, the quick before the slow; one beyond
    the budget is left out.
    """
    seconds = {
        "b.py::x[1]": 1.0,
        "b.py::x[2]": 2.0,
        "b.py::y": 3.0,
        "a.py::z": 4.0,
        "b.py::w": 16.0,
    }
    tests = {name: TestRun(cost, {}) for name, cost in seconds.items()}
    asked, spent = mutants.within_budget("own", tests, ["a.py", "b.py"])
    assert spent == 10.0
    assert asked == ["a.py::z", "b.py::x[1]", "b.py::y", "b.py::x[2]"]
