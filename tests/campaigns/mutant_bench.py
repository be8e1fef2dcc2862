"""Where a mutant lives and is shown to tests: a copy of the checkout, or a pytest that is kept
warm beside it.
"""

import os
import re
import shutil
import signal
import subprocess
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from multiprocessing.connection import Client
from pathlib import Path
from time import monotonic, sleep
from typing import IO, Any

from campaigns.slips import PACKAGE, Mutant
from planning import ROOT, SHARED
from warm_tests import ADDRESS, ELSEWHERE

COPIED = (
    "turfplan",
    "tests",
    "templates",
    "examples",
    "README.md",
    "DEVELOPERS.md",
    "pyproject.toml",
    ".ci",
)
TOO_LONG, DIED = "took too long", "the process ended"
START_S = 600.0


@dataclass
class Bench:
    """A copy of the checkout in which one mutant at a time lives; `passing` are tests that
    passed in it without one.
    """

    home: Path
    passing: set[str] = field(default_factory=set)

    @classmethod
    def laid_out(cls, folder: Path) -> "Bench":
        """A fresh copy, with what lies beside the checkout beside it."""
        shutil.rmtree(folder, ignore_errors=True)
        home = folder / "checkout"
        home.mkdir(parents=True)
        for name in COPIED:
            source = ROOT / name
            if source.is_dir():
                shutil.copytree(source, home / name, ignore=shutil.ignore_patterns("__pycache__"))
            elif source.exists():
                shutil.copy(source, home / name)
        if SHARED.is_dir():
            (folder / "shared").symlink_to(SHARED)
        # Byte code that is checked against its source's hash: a mutant of the same second and size
        # is not taken for the original.
        line = [sys.executable, "-m", "compileall", "-q", "--invalidation-mode", "checked-hash"]
        subprocess.run([*line, PACKAGE], cwd=home, check=True)
        return cls(home)

    def process(
        self, words: Sequence[str], *, stdout: IO[str] | int, **env: str
    ) -> "subprocess.Popen[str]":
        """A pytest that runs here, with no more of its plugins than are needed: to read them
        takes seconds.
        """
        line = [sys.executable, "-m", "pytest", "-q", "-p", "xdist", "-p", "warm_tests"]
        path = os.pathsep.join((str(self.home), str(self.home / "tests")))
        fixed = {"PYTHONDONTWRITEBYTECODE": "1", "PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1"}
        return subprocess.Popen(
            [*line, "-p", "no:cacheprovider", *words],
            cwd=self.home,
            env={**os.environ, "PYTHONPATH": path, **fixed, **env},
            stdout=stdout,
            stderr=subprocess.STDOUT,
            text=True,
            start_new_session=True,
        )

    def pytest(self, words: Sequence[str], limit_s: float | None, **env: str) -> tuple[int, str]:
        """The exit code and the words of pytest; -1 when it took too long."""
        run = self.process(words, stdout=subprocess.PIPE, **env)
        try:
            out, _ = run.communicate(timeout=limit_s)
        except subprocess.TimeoutExpired:
            os.killpg(run.pid, signal.SIGKILL)
            run.communicate()
            return -1, TOO_LONG
        return run.returncode, out

    def asked(
        self, tests: Sequence[str], limit_s: float | None, *words: str, marked: str = ""
    ) -> tuple[int, str]:
        """These tests, or files of them, in this order, to the first that fails."""
        names = self.home.parent / "asked.txt"
        names.write_text("\n".join(tests), encoding="utf-8")
        return self.pytest([f"@{names}", "-n", "0", "-x", "-m", marked, *words], limit_s)

    @contextmanager
    def living(self, mutant: Mutant) -> Iterator[None]:
        """The slip is in the text, and is taken out again."""
        path = self.home / PACKAGE / mutant.module
        source = path.read_text(encoding="utf-8")
        path.write_text(mutant.applied(source), encoding="utf-8")
        try:
            yield
        finally:
            path.write_text(source, encoding="utf-8")

    def noticed(
        self, mutant: Mutant, tests: Sequence[str], limit_s: float, *, marked: str = ""
    ) -> str | None:
        """The first of these tests that fails with the mutant, and passes without; None when there
        is none.

        A test that is not there with the slip, a case made from the core, is not asked. Returns
        TOO_LONG for what does not end.
        """
        left, doubtful = list(tests), list[str]()
        while left:
            without = [f"--deselect={name}" for name in doubtful]
            with self.living(mutant):
                code, out = self.asked(left, limit_s, *without, marked=marked)
            absent = [name for name in left if f"{self.home}/{name}\n(no match" in out]
            left = [name for name in left if name not in absent]
            if code in (0, 5):
                return None
            if failed := re.search(r"^(?:FAILED|ERROR) (tests/.+)", out, re.MULTILINE):
                by = _name_in(failed[1], left)
                if self.passes(by):
                    return by
                assert by not in doubtful, f"{by} fails though it was left out"
                doubtful.append(by)
            elif not absent:
                return out.strip().splitlines()[-1]
        return None

    def passes(self, test: str) -> bool:
        """Whether a test, or the reading of a file of tests, passes without a mutant."""
        if test not in self.passing:
            code, _ = self.asked([test], None, *([] if "::" in test else ["--collect-only"]))
            if code == 0:
                self.passing.add(test)
        return test in self.passing


def _name_in(line: str, tests: Sequence[str]) -> str:
    """The test that a line of pytest's summary begins with; it may be one of a file that was
    asked.
    """
    named = [test for test in tests if line == test or line.startswith(f"{test} - ")]
    return max(named, key=len) if named else line.partition(" - ")[0]


@dataclass
class WarmTests:
    """The side that asks; `passing` are tests that passed without a mutant."""

    address: str
    passing: set[str] = field(default_factory=set)

    @classmethod
    @contextmanager
    def started(cls, bench: Bench, words: Sequence[str]) -> Iterator["WarmTests"]:
        """A pytest that has read the tests of some words; it ends with the block."""
        address, log = (bench.home.parent / name for name in ("address", "warm.log"))
        address.unlink(missing_ok=True)
        env = {ADDRESS: str(address), "PYTEST_DEBUG_TEMPROOT": str(bench.home.parent)}
        begin = monotonic()
        with log.open("w", encoding="utf-8") as out:
            words = ["-n", "0", "--capture=sys", *words]
            run = bench.process(words, stdout=out, **env)
            try:
                while not address.exists():
                    late = run.poll() is not None or monotonic() - begin > START_S
                    assert not late, log.read_text(encoding="utf-8")[-2000:]
                    sleep(0.1)
                yield cls(address.read_text(encoding="utf-8"))
            finally:
                run.kill()
                run.wait()

    def _asked(
        self, source: str, text: str | None, tests: Sequence[str] | None, limit_s: float | None
    ) -> Any:
        with Client(self.address, family="AF_UNIX") as questions:
            child = questions.recv()
            questions.send((source, text, tests))
            try:
                if questions.poll(limit_s):
                    return questions.recv()
            except EOFError:
                return DIED
            os.killpg(child, signal.SIGKILL)
            return TOO_LONG

    def tests(self) -> list[str]:
        """The names of all tests that were read."""
        found: list[str] = self._asked("", None, None, START_S)
        return found

    def noticed(
        self, mutant: Mutant, text: str, tests: Sequence[str], limit_s: float
    ) -> str | None:
        """The first of these tests that fails with the text of a mutant, and passes without; None
        when there is none.

        Returns ELSEWHERE where it cannot be told here, TOO_LONG for what does not end.
        """
        left = list(tests)
        while left:
            by: str | None = self._asked(f"{PACKAGE}/{mutant.module}", text, left, limit_s)
            if by in (None, ELSEWHERE, DIED, TOO_LONG) or self.passes(by):
                return by
            left.remove(by)
        return None

    def passes(self, test: str) -> bool:
        """Whether a test passes without a mutant."""
        if test not in self.passing and self._asked("", None, [test], None) is None:
            self.passing.add(test)
        return test in self.passing
