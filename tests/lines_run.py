"""A plugin of pytest that notes for each test the lines it runs and the seconds it takes, and what
was noted.

Loaded with `-p lines_run`; LINES_RUN_FOLDER says where notes go, one file for each file of tests,
and LINES_RUN_OF which sources are watched (patterns, parted as paths are). What tests of one
process keep for one another is forgotten before each, so that no test hides behind the one before
it; what is made once for a file counts for each of its tests.
"""

import functools
import json
import os
import sys
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest
from coverage import Coverage

FOLDER, WATCHED = "LINES_RUN_FOLDER", "LINES_RUN_OF"
Masks = dict[str, int]
# Stands for a test: what is run before the first of them, when their files are read.
BY_IMPORT = "import"


@dataclass(frozen=True)
class TestRun:
    """One test that passes: its seconds, and a bit for each line that it runs, by source below
    the checkout.
    """

    __test__ = False
    seconds: float
    masks: Masks

    def runs(self, asked: Masks) -> bool:
        """Whether it runs any of these lines."""
        return any(self.masks.get(source, 0) & mask for source, mask in asked.items())


def mask_of(lines: Sequence[int]) -> int:
    """A bit for each line."""
    return sum(1 << line for line in set(lines))


def joined(*several: Masks) -> Masks:
    """The lines of all of them."""
    found: Masks = {}
    for masks in several:
        for source, mask in masks.items():
            found[source] = found.get(source, 0) | mask
    return found


def note_of(folder: Path, test_file: str) -> Path:
    """Where the notes of a file of tests lie."""
    return folder / (test_file.replace("/", "~") + ".json")


def notes_in(folder: Path) -> dict[str, TestRun]:
    """All tests that were noted and passed, by the name that pytest gives them."""
    found: dict[str, TestRun] = {}
    for path in sorted(folder.glob("*.json")):
        for test, (seconds, masks) in json.loads(path.read_text(encoding="utf-8")).items():
            here = {k: int(v, 16) for k, v in masks.items()}
            before = found.get(
                test, TestRun(0.0, {})
            )  # every process has run what is run by import
            found[test] = TestRun(seconds, joined(before.masks, here))
    return found


class Recorder:
    """What one process of pytest notes."""

    def __init__(self, folder: Path, watched: Sequence[str], root: Path) -> None:
        folder.mkdir(parents=True, exist_ok=True)
        self.folder, self.root, self.test = folder, root, ""
        self.kept: dict[str, list[functools._lru_cache_wrapper[Any]]] = {}
        self.seconds: dict[str, float] = defaultdict(float)
        self.failed: set[str] = set()
        data = folder / f"process-{os.getpid()}.coverage"
        self.coverage = Coverage(data_file=str(data), include=watched, config_file=False)
        self.coverage.set_option("run:disable_warnings", ["no-data-collected"])
        self.coverage.start()

    def caches(self, file: str) -> "Sequence[functools._lru_cache_wrapper[Any]]":
        """What modules of the project and its tests keep; found anew for each file, for modules
        are loaded late.
        """
        if file not in self.kept:
            here = [m for m in sys.modules.values() if _within(m, self.root) and not _reads(m)]
            found = (value for module in here for value in list(vars(module).values()))
            self.kept = {file: [v for v in found if isinstance(v, functools._lru_cache_wrapper)]}
        return self.kept[file]

    @pytest.hookimpl(wrapper=True, tryfirst=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        """A test begins with nothing kept by those before it."""
        for kept in self.caches(item.nodeid.partition("::")[0]):
            kept.cache_clear()
        self.test = item.nodeid
        self.coverage.switch_context(self.test)
        result = yield
        self.coverage.switch_context("")
        return result

    @pytest.hookimpl(wrapper=True)
    def pytest_fixture_setup(
        self, fixturedef: pytest.FixtureDef[Any], request: pytest.FixtureRequest
    ) -> Iterator[Any]:
        """What is made for more than one test counts for its whole file."""
        if fixturedef.scope != "function":
            self.coverage.switch_context(self.test.partition("::")[0])
        result = yield
        self.coverage.switch_context(self.test)
        return result

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Its seconds, and whether it can notice anything: a test that fails or skips cannot."""
        self.seconds[report.nodeid] += report.duration
        if not report.passed:
            self.failed.add(report.nodeid)

    def pytest_sessionfinish(self) -> None:
        """Write the notes of the files that were tested here."""
        self.coverage.stop()
        data, masks = self.coverage.get_data(), defaultdict[str, Masks](dict)
        for source in data.measured_files():
            lines_by_context = defaultdict[str, list[int]](list)
            for line, contexts in data.contexts_by_lineno(source).items():
                for context in contexts:
                    lines_by_context[context].append(line)
            name = str(Path(source).relative_to(self.root))
            for context, lines in lines_by_context.items():
                masks[context][name] = mask_of(lines)
        files: dict[str, dict[str, Any]] = defaultdict(dict)
        for test in sorted(set(self.seconds) - self.failed):
            file = test.partition("::")[0]
            whole = {
                name: masks[test].get(name, 0) | masks[file].get(name, 0)
                for name in {**masks[test], **masks[file]}
            }
            files[file][test] = (
                round(self.seconds[test], 4),
                {name: hex(mask) for name, mask in sorted(whole.items())},
            )
        import_masks = {name: hex(mask) for name, mask in masks[""].items()}
        files[f"{BY_IMPORT}{os.getpid()}"] = {BY_IMPORT: (0.0, import_masks)}
        for file, notes in files.items():
            note_of(self.folder, file).write_text(json.dumps(notes), encoding="utf-8")


def _within(module: ModuleType, folder: Path) -> bool:
    return str(getattr(module, "__file__", None) or "").startswith(f"{folder}{os.sep}")


def _reads(module: ModuleType) -> bool:
    """What is read from disk is kept: it is read before the first test, and takes long."""
    return module.__name__.startswith("turfplan.files.")


def pytest_configure(config: pytest.Config) -> None:
    """Note what is run in this process, unless it only hands tests to others."""
    if FOLDER in os.environ and not config.getoption("numprocesses", None):
        watched = os.environ[WATCHED].split(os.pathsep)
        config.pluginmanager.register(Recorder(Path(os.environ[FOLDER]), watched, config.rootpath))
