"""Work goes on whatever becomes of the processes that do it, and none of them is left behind."""

import os
import signal
import subprocess
import sys
import time
from functools import partial
from pathlib import Path

from planning import ROOT
from tiers import full
from turfplan.app.worker_pool import done_by_processes

ITEMS = tuple(range(8))
DEADLY = 3
# The system answers within so many seconds.
PATIENCE_S = 10.0


def doubled(item: int, *, marks: Path, always: bool) -> int:
    """Twice the item; the process is ended at the deadly one, always or the first time alone."""
    mark = marks / "ended"
    if item == DEADLY and (always or not mark.exists()):
        mark.touch()
        os.kill(os.getpid(), signal.SIGKILL)
    return 2 * item


def test_a_process_that_is_ended_takes_nothing_with_it(tmp_path: Path) -> None:
    """What it was at is done again; what ends its process each time is told, and nothing else."""
    for always in (False, True):
        marks = tmp_path / str(always)
        marks.mkdir()
        found = dict(done_by_processes(partial(doubled, marks=marks, always=always), ITEMS, 2))
        wanted: dict[int, int | None] = {item: 2 * item for item in ITEMS}
        assert found == wanted | ({DEADLY: None} if always else {})


def test_little_work_starts_no_process() -> None:
    """A few things are done where they are asked for."""
    assert [who for _, who in done_by_processes(lambda _: os.getpid(), (1, 2), 4)] == [
        os.getpid(),
        os.getpid(),
    ]


WORKING = """
import os, sys, time
from turfplan.app.worker_pool import done_by_processes
def work(item):
    print(os.getpid(), flush=True)
    time.sleep(60)
list(done_by_processes(work, range(9), 2))
"""


@full
def test_no_process_outlives_the_one_that_it_works_for() -> None:
    """However that ends."""
    parent = subprocess.Popen(
        [sys.executable, "-c", WORKING], stdout=subprocess.PIPE, text=True, cwd=ROOT
    )
    assert parent.stdout is not None
    workers = [int(parent.stdout.readline()) for _ in range(2)]
    parent.kill()
    parent.wait()
    parent.stdout.close()
    end = time.monotonic() + PATIENCE_S
    while any(map(is_running, workers)):
        assert time.monotonic() < end, "a worker is left"
        time.sleep(0.05)


def is_running(process: int) -> bool:
    """Whether a process is there and not only waits for its end to be noticed."""
    try:
        state = Path(f"/proc/{process}/stat").read_text(encoding="utf-8").rsplit(")", 1)[1].split()
    except FileNotFoundError:
        return False
    return state[0] != "Z"
