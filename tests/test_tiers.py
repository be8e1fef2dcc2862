"""The README's tests and those marked `full` are together all tests; `.ci/run` runs the first and,
turn by turn, the parts of the others.
"""

import re
import subprocess
import sys
import tomllib

import pytest

from campaigns.__main__ import CAMPAIGNS
from planning import ROOT
from tiers import full, part_of, sampled, sampled_pairs

OPTIONS = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["pytest"][
    "ini_options"
]


def collected(*words: str) -> tuple[set[str], int]:
    """The tests that a command would run, and of how many."""
    line = [
        sys.executable,
        "-m",
        "pytest",
        "--collect-only",
        "-q",
        "-n",
        "0",
        "-p",
        "no:randomly",
        *words,
    ]
    found = subprocess.run(
        line, cwd=ROOT, capture_output=True, text=True, check=True, timeout=600
    ).stdout
    of_all = re.search(r"(\d+)/(\d+) tests collected", found)
    assert of_all, found[-200:]
    return {name for name in found.splitlines() if "::" in name}, int(of_all[2])


@full
def test_the_tiers_together_are_all_tests() -> None:
    """By name and by count: no test is in none of the two, none in both, and the README's are most
    of them.
    """
    (quick, of_all), (rest, of_all_again) = collected(), collected("-m", "full")
    assert not quick & rest
    assert len(quick) + len(rest) == of_all == of_all_again > 900
    assert len(rest) < len(quick)
    turns = [collected("-m", "full", "--part", f"{turn}/4")[0] for turn in (1, 2, 3, 4)]
    assert set().union(*turns) == rest and sum(map(len, turns)) == len(rest)
    assert min(map(len, turns)) > len(rest) / 8, "each turn has its part to do"


def test_the_turns_of_campaigns_are_all_of_them() -> None:
    """Parts are cut as the command cuts them."""
    turns = [list(CAMPAIGNS)[turn - 1 :: 4] for turn in (1, 2, 3, 4)]
    assert sorted(name for turn in turns for name in turn) == sorted(CAMPAIGNS) and all(turns)


@pytest.mark.parametrize("asked", ["", "2", "0/4", "5/4", "1/0", "a/b", "-1/4", "1/4 "])
def test_what_is_no_part_is_refused(asked: str) -> None:
    """With how one is written."""
    assert part_of("2/4") == (2, 4)
    with pytest.raises(ValueError, match="write 2/3"):
        part_of(asked)


def test_ci_runs_the_readme_tier_and_the_parts_of_the_rest_in_turn() -> None:
    """The README's command leaves out what is marked `full` alone; `.ci/run` calls it, then the
    rest.

    What is cheap is asked before: a fault of form ends a run within its first minutes.
    """
    assert re.findall(r"-m '([^']*)'", OPTIONS["addopts"]) == ["not full"]
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    places = [
        script.index(words)
        for words in (
            "Test it",
            "ruff check --no-cache ",
            "mypy\n",
            "lint-imports --no-cache ",
            'bash -c "$command"\n',
            'rev-list --count HEAD) % 4 + 1))/4}"\n',
            'pytest -q -m full --part "$part"\n',
            '-m campaigns --share 0.1 --part "$part" ',
        )
    ]
    assert places == sorted(places)


def test_a_sample_keeps_what_it_names() -> None:
    """The others are marked; a value that is not there is refused, so that a sample cannot become
    empty unseen.
    """
    kept, other = sampled("ab", "a")
    assert kept == "a" and other.values == ("b",) and other.marks[0].name == "full"
    kept, other = sampled_pairs([(1, 2), (3, 4)], (1, 2))
    assert kept == (1, 2) and other.values == (3, 4) and other.marks[0].name == "full"
    for refused in (lambda: sampled("ab", "c"), lambda: sampled_pairs([(1, 2)], (2, 1))):
        with pytest.raises(ValueError, match="not among the values"):
            refused()
