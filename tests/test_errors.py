"""An error keeps what it says as keys with values, and is told in English for logs."""

import pickle
import subprocess
import sys

from told import told
from turfplan.book.words import grass_name
from turfplan.errors import (
    MissingToolError,
    Problem,
    TurfplanError,
    by_key,
    did_you_mean,
    library_words,
    nearest,
    one_of,
    within,
)
from turfplan.files.reading.book import load_book
from turfplan.message import as_written
from turfplan.phrases import brief_check, errors, libraries

PROBLEM = Problem(
    "lawn.toml: leveling.dept",
    errors.unknown_key(),
    "dept",
    one_of(("depth", "lows")),
    did_you_mean("dept", ("depth", "lows")),
)


def test_a_problem_says_where_what_got_and_allowed() -> None:
    """Its parts come in this order; the hint is told apart."""
    assert str(PROBLEM) == "lawn.toml: leveling.dept: unknown key; got dept; allowed: depth, lows"
    assert told(PROBLEM.hint) == "did you mean 'depth'?"
    assert str(Problem("", errors.is_empty())) == "is empty"


def test_without_catalogs_a_problem_is_told_by_its_keys() -> None:
    """A program that has no catalog loaded prints what a developer can read."""
    assert by_key(PROBLEM) == (
        "lawn.toml: leveling.dept: errors.unknown_key; got dept; allowed: depth, lows"
    )
    program = (
        "from turfplan.units import parse_quantity\n"
        "try: parse_quantity('5', 'length')\n"
        "except ValueError: pass\n"
        "except Exception as error: print(error)"
    )
    run = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True)
    assert run.stdout.startswith("units.missing; got '5'; allowed: mm, cm, m,"), run.stderr


def test_words_of_the_book_do_not_break_a_log() -> None:
    """The English of the book lies above the catalogs: what it does not have is told by its key."""
    problem = Problem("x", errors.within(outer=as_written("y"), inner=PROBLEM.hint or None))
    assert str(problem) == "x: y: did you mean 'depth'?"
    bookish = Problem("x", type(errors.is_empty())("book.species.oats.name"))
    assert str(bookish) == "x: book.species.oats.name"


def test_words_of_the_book_are_known_once_it_is_loaded() -> None:
    """A fault of a brief may name its grass."""
    fault = brief_check.no_seed(grass=grass_name(load_book(), "zoysia"))
    assert str(Problem("seeding.intent", fault)) == (
        "seeding.intent: zoysiagrass is not grown from seed"
    )


def test_an_error_travels_between_processes() -> None:
    """Its kind, its problems and their hints arrive."""
    for kind in (TurfplanError, MissingToolError):
        error = pickle.loads(pickle.dumps(kind([PROBLEM, PROBLEM])))
        assert type(error) is kind and error.problems == (PROBLEM, PROBLEM)
        assert str(error) == f"{PROBLEM}\n{PROBLEM}"


def test_a_place_lies_in_another() -> None:
    """Texts are joined; a place that is words stays words, and keeps its kind of error."""
    line = errors.line(number="3")
    found = MissingToolError(Problem(line, errors.is_empty())).located("a.csv")
    assert type(found) is MissingToolError and str(found) == "a.csv: line 3: is empty"
    assert within("a", "b") == "a: b" and within("a", "") == "a" and within("", line) == line
    assert str(TurfplanError(Problem("", errors.is_empty())).located("a")) == "a: is empty"


def test_words_of_libraries_have_keys() -> None:
    """A sentence of a library is told by its key, another one as it stands."""
    assert library_words("Invalid value") == libraries.invalid_value()
    for strange in ("Invalid: value!", "at", "nobody said this"):
        assert library_words(strange) == as_written(strange)


def test_the_nearest_name() -> None:
    """A name that is like none is answered with none."""
    assert nearest("tall_fescu", ("tall_fescue", "zoysia")) == "tall_fescue"
    assert nearest("roots", ("frost", "trench")) is None, "three letters of five are no likeness"
    assert nearest("q", ("tall_fescue",)) is None and did_you_mean("q", ("tall_fescue",)) is None
