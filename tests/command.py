"""The command as tests call it: in this process, or in one of its own where that is what is
tested.
"""

import io
import subprocess
import sys
from contextlib import chdir, redirect_stderr, redirect_stdout
from pathlib import Path

from planning import ROOT
from turfplan.cli import main


def run(*words: str, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    """One call of the command in this process: its exit code and what it wrote to stdout and
    stderr.
    """
    out, err, code = io.StringIO(), io.StringIO(), 0
    with chdir(cwd or ROOT), redirect_stdout(out), redirect_stderr(err):
        try:
            main(words)
        except SystemExit as end:
            code = end.code if isinstance(end.code, int) else int(end.code is not None)
    return subprocess.CompletedProcess(words, code, out.getvalue(), err.getvalue())


def run_apart(*words: str, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    """One call of the command in a process of its own."""
    line = [sys.executable, "-m", "turfplan", *words]
    return subprocess.run(
        line, capture_output=True, text=True, cwd=cwd or ROOT, check=False, timeout=120
    )
