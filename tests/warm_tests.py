"""A pytest that reads the tests once and shows them each mutant in a child of its own: to start one
takes longer than most tests.

As a plugin (`-p warm_tests`) it listens, where ADDRESS names a file, and for every question forks.
In the child the code of the function that holds the slip is changed where it stands in memory,
whoever has imported it. So it is no place for a line that is run when modules are read: its effects
are there before the child is. Made-up examples are the same in every run, and may take their time:
no mutant is noticed by luck, or for the machine being slow.
"""

import gc
import os
import signal
from collections.abc import Iterator, Sequence
from multiprocessing.connection import Connection, Listener
from pathlib import Path
from types import CodeType, FunctionType
from typing import Any

import hypothesis
import pytest

ADDRESS = "WARM_TESTS_ADDRESS"
# What is answered beside the name of a test: no live function holds the slip.
ELSEWHERE = "no function holds it"


def codes_in(code: CodeType) -> Iterator[CodeType]:
    """The code of a module, and of all that is defined in it."""
    yield code
    for part in code.co_consts:
        if isinstance(part, CodeType):
            yield from codes_in(part)


def change(functions: Sequence[FunctionType], path: str, text: str) -> int:
    """Give functions of a source the code that they have in another text of as many lines; how
    many were changed.
    """
    codes = {(c.co_qualname, c.co_firstlineno): c for c in codes_in(compile(text, path, "exec"))}
    changed = 0
    for function in functions:
        old = function.__code__
        new = codes.get((old.co_qualname, old.co_firstlineno))
        if new is not None and (new.co_code, new.co_consts) != (old.co_code, old.co_consts):
            function.__code__ = new
            changed += 1
    return changed


class _FirstFailure:
    """The first test that fails, as it is reported."""

    def __init__(self) -> None:
        self.test: str | None = None

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed and self.test is None:
            self.test = report.nodeid


def _first_failure(session: pytest.Session, tests: Sequence[str]) -> str | None:
    items = {item.nodeid: item for item in session.items}
    asked: list[pytest.Item | None] = [items[name] for name in tests if name in items]
    watch = _FirstFailure()
    session.config.pluginmanager.register(watch)
    for item, after in zip(asked, [*asked[1:], None], strict=True):
        assert item is not None
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=after)
        if watch.test:
            break
    return watch.test


def _answer(session: pytest.Session, questions: "Connection[Any, Any]") -> None:
    """In the child: which of some tests fails first with another text of a source, or all tests
    that there are.
    """
    os.setsid()
    signal.signal(signal.SIGCHLD, signal.SIG_DFL)
    questions.send(os.getpid())
    source, text, tests = questions.recv()
    if tests is None:
        return questions.send([item.nodeid for item in session.items])
    if text is not None:
        # What was set aside when the tests were read (conftest) is not among the objects, and has
        # to stay aside while tests run.
        gc.unfreeze()
        live = [o for o in gc.get_objects() if isinstance(o, FunctionType)]
        gc.freeze()
        here = [
            function for function in live if function.__code__.co_filename.endswith(f"/{source}")
        ]
        if not change(here, source, text):
            return questions.send(ELSEWHERE)
    questions.send(_first_failure(session, tests))


def pytest_configure() -> None:
    """Before tests are read, which take over what is set here."""
    slow = list(hypothesis.HealthCheck)
    hypothesis.settings.register_profile(
        "mutants", derandomize=True, deadline=None, suppress_health_check=slow, database=None
    )
    hypothesis.settings.load_profile("mutants")


@pytest.hookimpl(tryfirst=True)
def pytest_runtestloop(session: pytest.Session) -> bool | None:
    """In the place of running the tests: wait for questions, each answered by a child, until
    this process is killed.
    """
    if ADDRESS not in os.environ:
        return None
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)
    with Listener(family="AF_UNIX") as listener:
        waiting = Path(os.environ[ADDRESS])
        waiting.with_suffix(".new").write_text(str(listener.address), encoding="utf-8")
        waiting.with_suffix(".new").rename(waiting)
        while True:
            with listener.accept() as questions:
                if os.fork() == 0:
                    try:
                        _answer(session, questions)
                    finally:
                        os._exit(0)
