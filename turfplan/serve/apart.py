"""Work that takes seconds, in a process of its own: it holds up no feed."""

from collections.abc import Callable
from multiprocessing import get_context
from multiprocessing.connection import Connection
from typing import Any, TypeVar

ApartAnswer = TypeVar("ApartAnswer")


def apart(work: Callable[..., ApartAnswer], *given: Any) -> ApartAnswer | None:
    """What a function answers that can be found by its name; None where it broke off: a fault of
    the program, which has told who serves."""
    # Started anew, not forked: a fork would take the server's threads' locks along in whatever
    # state they are.
    context = get_context("spawn")
    here, there = context.Pipe(duplex=False)
    worker = context.Process(target=_answered, args=(there, work, given))
    worker.start()
    there.close()
    try:
        answer: ApartAnswer | None = here.recv()
    except EOFError:
        answer = None
    worker.join()
    worker.close()
    here.close()
    return answer


def _answered(
    answer: "Connection[Any, None]", work: Callable[..., object], given: tuple[Any, ...]
) -> None:
    answer.send(work(*given))
