"""A plan imports what it uses and nothing more, and what it keeps in the user's cache never stands
in for something else.
"""

import json
import os
import subprocess
import sys
from dataclasses import fields
from pathlib import Path
from shutil import copytree, ignore_patterns

import pytest
from jinja2 import FileSystemLoader

from tiers import full
from turfplan.book.entries import Book
from turfplan.errors import TurfplanError
from turfplan.export.templates import SYNTAX, environment
from turfplan.files.reading import book as book_module
from turfplan.files.reading.book import load_book
from turfplan.files.reading.book_files import read_book
from turfplan.user_cache import cache_folder, keep, kept

ROOT = Path(__file__).parent.parent
SURVEYED = ROOT / "examples" / "surveyed-us.toml"
# What a plain lawn has no use for: reckoning with matrices, a server and what speaks to one, sheets
# as PDF, the index, time zones by map, and the commands and rooms that other commands are made of.
UNUSED = {
    "numpy",
    "scipy",
    "geographiclib",
    "weasyprint",
    "segno",
    "starlette",
    "uvicorn",
    "http.server",
    "http.client",
    "ssl",
    "urllib.request",
    "sqlite3",
    "asyncio",
    "multiprocessing",
    "tzfpy",
    "highspy",
    "pyvrp",
    "rich",
    "turfplan.serve",
    "turfplan.files.index",
    "turfplan.cli.serve",
    "turfplan.cli.new",
    "turfplan.export.pdf",
    "turfplan.export.sheets.season_book",
    "turfplan.site.survey.surveyed_fill",
    "turfplan.site.survey.doubt",
    "turfplan.files.reading.survey",
}
# What a sheet has no use for: making plans, what they are made from, reckoning with arrays.
UNPRINTED = {
    "turfplan.planning",
    "turfplan.network",
    "turfplan.work",
    "turfplan.climate",
    "turfplan.business",
    "turfplan.files.reading.book",
    "turfplan.files.reading.brief",
    "turfplan.records.brief",
    "numpy",
    "contourpy",
    "babel",
    "icalendar",
    "weasyprint",
}
RUN = """
import json, sys
from turfplan.cli import main
try:
    main(sys.argv[1:])
except SystemExit as end:
    assert not end.code, end.code
print("\\n" + json.dumps(sorted(sys.modules)))
"""
OPENED = """
import sys
opened = set()
sys.addaudithook(lambda event, args: opened.add(str(args[0])) if event == "open" else None)
""" + RUN.replace("sys.modules", "opened")


@pytest.fixture
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A user's cache of the test's own."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return cache_folder()


Run = tuple[set[str], dict[str, bytes]]
"""The modules that a plan of the first example leaves loaded, and its files."""


def _plan(out: Path, cache_home: Path) -> Run:
    brief = str(ROOT / "examples" / "cool-overseed.toml")
    words = ["plan", brief, "--today", "2027-02-01", "--output", str(out)]
    modules = _run(words, cache_home)
    return modules, {file.name: file.read_bytes() for file in out.iterdir()}


def _run(words: list[str], cache_home: Path, code: str = RUN) -> set[str]:
    """The modules that a command leaves loaded, or what else the `code` around it tells of it."""
    done = subprocess.run(
        [sys.executable, "-c", code, *words],
        capture_output=True,
        text=True,
        check=True,
        cwd=ROOT,
        env={**os.environ, "XDG_CACHE_HOME": str(cache_home)},
    )
    return set(json.loads(done.stdout.splitlines()[-1]))


@pytest.fixture(scope="module")
def filled(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The home of a cache that one plan has filled."""
    return tmp_path_factory.mktemp("filled")


@pytest.fixture(scope="module")
def first(filled: Path, tmp_path_factory: pytest.TempPathFactory) -> Run:
    """A plan made with an empty cache."""
    return _plan(tmp_path_factory.mktemp("first"), filled)


def test_a_plan_imports_only_what_it_uses(first: Run) -> None:
    """Heavy libraries wait until a command needs them."""
    modules, _ = first
    assert "turfplan.planning.season_plan" in modules
    assert not UNUSED & modules


@pytest.fixture(scope="module")
def surveyed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the plan of a surveyed lawn, with a cache of its own within."""
    folder = tmp_path_factory.mktemp("surveyed")
    words = ["plan", str(SURVEYED), "--today", "2027-02-01", "--output", str(folder / "plan")]
    _run(words, folder / "cache")
    return folder


@full
@pytest.mark.parametrize("sheet", ["week", "book", "order", "water", "sign"])
def test_a_sheet_is_printed_without_the_planner(sheet: str, surveyed: Path) -> None:
    """Reading a plan and filling a page is all that printing is: of a surveyed lawn too, whose maps
    were traced as it was planned, and of one that no sheet of another kind is imported for.
    """
    words = ["print", str(SURVEYED), sheet, "--output", str(surveyed / "plan")]
    modules = _run(words, surveyed / "cache")
    assert not UNPRINTED & modules
    assert ("turfplan.export.sheets.season_book" in modules) == (sheet == "book")
    assert ("turfplan.export.sheets.checklist" in modules) == (sheet == "week")


@full
@pytest.mark.parametrize("sheet", ["week", "book", "order", "water", "sign", "changes"])
def test_a_sheet_asks_no_catalog_but_that_of_sheets(sheet: str, surveyed: Path) -> None:
    """What a plan says is told in it: else a sheet needs the sentences of sheets alone."""
    words = ["print", str(SURVEYED), sheet, "--output", str(surveyed / "plan")]
    opened = map(Path, _run(words, surveyed / "cache", OPENED))
    catalogs = [(path.parent.name, path.name) for path in opened if path.suffix == ".mo"]
    assert catalogs == [("sheets", "en.mo")]


@full
def test_a_plan_is_the_same_with_a_full_an_empty_and_no_cache(
    first: Run, filled: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is kept saves time and changes nothing; with what is kept, no template is compiled and
    no book parsed.
    """
    modules, empty = first
    again, full = _plan(tmp_path / "full", filled)
    _, without = _plan(tmp_path / "without", ROOT / "pyproject.toml")
    assert empty == full == without
    monkeypatch.setenv("XDG_CACHE_HOME", str(filled))
    kept_files = {file.name.partition("-")[0] for file in cache_folder().iterdir()}
    assert kept_files == {"template", "book", "holidays"}
    assert "jinja2.compiler" in modules & again
    assert "turfplan.files.reading.book_files" in modules - again


def test_what_was_kept_is_given_back_only_for_what_it_was_made_from(cache: Path) -> None:
    """Another origin, another name and a damaged file give nothing."""
    assert kept("thing", b"a") is None
    keep("thing", b"a", b"made of a")
    assert kept("thing", b"a") == b"made of a"
    assert kept("thing", b"b") is None
    assert kept("other", b"a") is None
    (cache / "thing").write_bytes((cache / "thing").read_bytes()[:-1] + b"b")
    assert kept("thing", b"a") is None
    keep("thing", b"b", b"made of b")
    assert (kept("thing", b"a"), kept("thing", b"b")) == (None, b"made of b")
    assert [file.name for file in cache.iterdir()] == ["thing"]


@pytest.mark.skipif(not hasattr(os, "getuid"), reason="access lists guard the home")
def test_nothing_is_taken_from_where_others_may_write(cache: Path) -> None:
    """A compiled template is run: it must be our own."""
    keep("thing", b"a", b"made of a")
    cache.chmod(0o777)
    assert kept("thing", b"a") is None
    keep("later", b"a", b"made of a")
    assert not (cache / "later").exists()


def test_a_changed_template_is_compiled_anew(
    cache: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A template is never shown as it was."""
    page = tmp_path / "page.jinja"

    def shown() -> str:
        return (
            environment()
            .overlay(loader=FileSystemLoader(tmp_path), cache_size=0)
            .get_template("page.jinja")
            .render()
        )

    page.write_text("before")
    assert (shown(), shown()) == ("before", "before")
    page.write_text("after!")
    assert shown() == "after!"
    monkeypatch.setitem(SYNTAX, "trim_blocks", False)
    kept_before = {file.name: file.read_bytes() for file in cache.iterdir()}
    assert shown() == "after!"
    assert {file.name: file.read_bytes() for file in cache.iterdir()} != kept_before


def test_a_changed_book_is_parsed_anew(cache: Path, tmp_path: Path) -> None:
    """A number that is changed in a data file is in force at once."""
    data = tmp_path / "data"
    copytree(ROOT / "turfplan" / "data", data, ignore=ignore_patterns("climate"))
    first, again = read_book(data), read_book(data)
    assert first.facts == again.facts == load_book().facts
    soils = data / "soils.toml"
    soils.write_text(soils.read_text(encoding="utf-8") + "\n[", encoding="utf-8")
    with pytest.raises(TurfplanError, match="is not TOML"):
        read_book(data)


def test_a_kept_book_is_that_of_the_data_and_of_the_code_that_made_it(
    cache: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It is the book that was made; other code makes its own."""

    def made() -> dict[str, object]:
        return held(book_module._packaged.__wrapped__())

    def held(book: Book) -> dict[str, object]:
        return {field.name: getattr(book, field.name) for field in fields(Book) if field.compare}

    assert made() == made() == held(read_book(ROOT / "turfplan" / "data"))
    (file,) = cache.iterdir()
    before = file.read_bytes()
    (tmp_path / "newer.py").write_text("")
    monkeypatch.setattr(book_module, "MADE_BY", (*book_module.MADE_BY, str(tmp_path)))
    assert made() == held(load_book())
    assert file.read_bytes() != before
