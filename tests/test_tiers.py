"""The README's tests and those marked `full` are together all tests, and both are run by
`.ci/run`.
"""

import re
import subprocess
import sys
import tomllib

import pytest

from planning import ROOT
from tiers import full, sampled, sampled_pairs

OPTIONS = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["pytest"][
    "ini_options"
]


def collected(*words: str) -> set[str]:
    """The tests that a command would run."""
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
    return {name for name in found.splitlines() if "::" in name}


@full
def test_the_tiers_together_are_all_tests() -> None:
    """By name and by count: no test is in none of the two, none in both, and the README's are most
    of them.
    """
    quick, rest, everything = collected(), collected("-m", "full"), collected("-m", "")
    assert quick | rest == everything and not quick & rest
    assert len(quick) + len(rest) == len(everything) > 900
    assert len(rest) < len(quick)


def test_ci_runs_both_tiers_and_a_tenth_of_each_campaign() -> None:
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
            "pytest -q -m full\n",
            "-m campaigns --share 0.1\n",
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
