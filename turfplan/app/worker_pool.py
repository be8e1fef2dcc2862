"""Does the same work for many things in several processes, whatever becomes of the processes."""

import gc
import os
import signal
import threading
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool
from multiprocessing import connection, parent_process
from typing import TypeVar

Errand = TypeVar("Errand")
Result = TypeVar("Result")
# So few things are done sooner here than processes are started.
FEW = 3
# So many things wait for each process, so that none stands idle.
WAITING = 2
# So many new objects are made before a process looks for rings among them: a plan leaves few, and
# each look goes over all that it is made of.
OBJECTS_BEFORE_LOOK = 10_000


def done_by_processes(
    work: Callable[[Errand], Result], items: Sequence[Errand], processes: int
) -> Iterator[tuple[Errand, Result | None]]:
    """Each thing with what came of it, in the order in which they end; None for one whose process
    was ended twice while it was at work.

    `work` raises nothing: a fault is part of what comes of it. A process that somebody ends, as the
    system does when memory runs out, is replaced, and what it was at is tried again alone. No
    process outlives this one.
    """
    if processes == 1 or len(items) <= FEW:
        yield from ((item, work(item)) for item in items)
        return
    left = deque(items)
    while left:
        lost: list[Errand] = []
        yield from _until_broken(work, left, processes, lost)
        for item in lost:
            yield item, _alone(work, item)


def _pool(processes: int) -> ProcessPoolExecutor:
    return ProcessPoolExecutor(max_workers=processes, initializer=_begin)


def _begin() -> None:
    """In a new process: stopping is the business of the one that it works for, and it ends with
    it.

    What it has from there lives as long as it does: it is never looked through for rings, and its
    pages stay shared.
    """
    gc.freeze()
    gc.set_threshold(OBJECTS_BEFORE_LOOK)
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    parent = parent_process()
    if parent is not None:
        connection.wait([parent.sentinel])
        os._exit(1)


def _until_broken(
    work: Callable[[Errand], Result], left: deque[Errand], processes: int, lost: list[Errand]
) -> Iterator[tuple[Errand, Result | None]]:
    """The results until a process is ended; what was at work then is `lost`, what was not yet given
    out stays `left`."""
    running: dict[Future[Result], Errand] = {}
    with _pool(min(processes, len(left))) as pool:
        try:
            while (left or running) and not lost:
                while left and len(running) < processes * WAITING:
                    running[pool.submit(work, left[0])] = left[0]
                    left.popleft()
                done, _ = wait(running, return_when=FIRST_COMPLETED)
                for future in done:
                    item = running.pop(future)
                    try:
                        result = future.result()
                    except BrokenProcessPool:
                        lost.append(item)
                    else:
                        yield item, result
        except BrokenProcessPool:
            pass  # It broke while work was given out: what runs is lost, too.
        finally:
            pool.shutdown(wait=True, cancel_futures=True)
    lost += running.values()


def _alone(work: Callable[[Errand], Result], item: Errand) -> Result | None:
    """What comes of a thing in a process of its own; None where that is ended, too."""
    with _pool(1) as pool:
        try:
            return pool.submit(work, item).result()
        except BrokenProcessPool:
            return None
