"""The checkers that lie beside the checkout, run in this process; tests that need them skip where
there are none.
"""

import contextlib
import ctypes.util
import importlib.util
import io
import os
import shutil
import subprocess
import sys
import warnings
from argparse import Namespace
from functools import lru_cache
from pathlib import Path
from types import ModuleType

import pytest

TOOLS = Path(__file__).parents[2] / "shared" / "tools"
needs_tools = pytest.mark.skipif(
    not (TOOLS / "check_feed.py").is_file(),
    reason="the outside checkers are not beside this checkout",
)
needs_libical = pytest.mark.skipif(
    not (TOOLS / "libical_check.py").is_file() or ctypes.util.find_library("ical") is None,
    reason="libical, or its outside checker, is not here",
)


@lru_cache
def node_has_readers() -> bool:
    """Whether Node finds the three readers that the checker asks (NODE_PATH says where)."""
    node = shutil.which("node")
    if node is None or not os.environ.get("NODE_PATH"):
        return False
    asked = "for (const m of ['ical.js', 'node-ical', 'ical-expander']) require.resolve(m)"
    return subprocess.run([node, "-e", asked], capture_output=True, check=False).returncode == 0


@lru_cache
def _tool(name: str) -> ModuleType:
    spec = importlib.util.spec_from_file_location(f"outside_{name}", TOOLS / f"{name}.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def feed_faults(path: Path, *, node: bool = False) -> list[str]:
    """What the checker of feeds finds, with its readers in Node where asked."""
    options = Namespace(
        rfc_only=False, allow_floating=False, node=node, max_summary=60, fts="predecessor"
    )
    return [
        f"{line} {code} {text}"
        for line, code, text in _tool("check_feed").Check(str(path), options).run()
    ]


def update_faults(before: Path, after: Path, now: str | None = None) -> list[str]:
    """What the checker of versions finds between two files; `now` as 20270201T000000Z also judges
    the past.
    """
    asked = [
        "check_update",
        *(["--now", now] if now else []),
        "--removed",
        "cancel",
        str(before),
        str(after),
    ]
    kept, out = sys.argv, io.StringIO()
    sys.argv = asked
    try:
        with (
            contextlib.redirect_stdout(out),
            contextlib.suppress(SystemExit),
            warnings.catch_warnings(),
        ):
            warnings.simplefilter(
                "ignore", ResourceWarning
            )  # it leaves its two files to the collector
            _tool("check_update").main()
    finally:
        sys.argv = kept
    lines = out.getvalue().splitlines()
    assert lines and "violations:" in lines[-1], lines
    return lines[:-1]


def libical_faults(path: Path) -> str:
    """What libical says of a file; empty when it has nothing to say."""
    run = subprocess.run(
        [sys.executable, str(TOOLS / "libical_check.py"), str(path)],
        capture_output=True,
        text=True,
        check=False,
    )
    return "" if run.returncode == 0 else run.stdout + run.stderr
