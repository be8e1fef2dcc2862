"""Problems are told to a reader, in whatever language, with every part of them."""

from pathlib import Path

import pytest

from pseudo_language import LANGUAGE, MARKED, install
from told import words_of
from turfplan.cli import main
from turfplan.errors import MissingToolError, Problem, TurfplanError, one_of
from turfplan.messages import catalog, told_error, words_for
from turfplan.messages.problems import error_text, problem_lines, problem_text
from turfplan.phrases import errors
from turfplan.units import System

WHOLE = Problem(
    errors.line(number="2"), errors.unknown_key(), "dept", one_of("ab"), errors.look_at_unit()
)


def test_a_problem_is_printed_with_its_hint() -> None:
    """A command prints a line for the problem, and one for the hint where there is one."""
    words = words_of()
    assert problem_lines(WHOLE, words) == (
        "error: line 2: unknown key; got dept; allowed: a, b",
        "hint: look at the unit",
    )
    assert problem_lines(Problem("", errors.is_empty()), words) == ("error: is empty",)
    two = TurfplanError([Problem("a", errors.is_empty()), Problem("b", errors.is_empty())])
    assert error_text(two, words, "; ") == "a: is empty; b: is empty"


def test_a_told_error_is_texts() -> None:
    """Its kind stays; every part is told; it prints as before."""
    found = told_error(MissingToolError(WHOLE), words_of())
    (problem,) = found.problems
    assert type(found) is MissingToolError and str(found) == problem_text(WHOLE, words_of())
    parts = (problem.where, problem.message, problem.got, problem.allowed, problem.hint)
    assert parts == ("line 2", "unknown key", "dept", "a, b", "look at the unit")


FAULTY = {
    "a brief": '[lawn]\narea = "-3 ft2"\ngrass = "oats"\ncolour = 1\n[place]\nlatitude = 97\n',
    "no toml": "[lawn\n",
}


@pytest.mark.parametrize("case", FAULTY)
def test_no_word_of_an_error_is_english_in_another_language(
    case: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """But for keys, values and files, which stand as somebody wrote them."""
    install(tmp_path)
    monkeypatch.setenv(catalog.MORE, str(tmp_path))
    monkeypatch.setenv("TURFPLAN_LANGUAGE", LANGUAGE)
    brief = tmp_path / "lawn.toml"
    brief.write_text(FAULTY[case], encoding="utf-8")
    with pytest.raises(SystemExit):
        main(["plan", str(brief), "-o", str(tmp_path / "out")])
    lines = capsys.readouterr().err.replace(str(tmp_path), "").splitlines()
    words = words_for(LANGUAGE, System.METRIC)
    heads = {words.say("errors.error", what=""), words.say("errors.hint", hint="")}
    assert lines and all(any(line.startswith(head) for head in heads) for line in lines)
    assert all(any(letter in MARKED for letter in line.partition(": ")[2]) for line in lines)
    english = ("error", "hint", "unknown", "allowed", "got", "must", "should", "is ", " at line")
    assert not [word for word in english if any(word in line for line in lines)]
