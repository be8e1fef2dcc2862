"""The book's words that sheets print beside a job or a caution: a plan keeps them, so that what is
printed from it needs no book.
"""

from collections.abc import Iterable, Iterator, Sequence

from turfplan.book.entries import Book
from turfplan.book.words import BOOK, book_messages, optional_message
from turfplan.message import Message, Number
from turfplan.phrases import looks
from turfplan.records.plan_task import Task
from turfplan.work.seed_mix import germination_days

OF_A_JOB = ("done_when", "wrong")
OF_A_CAUTION = ("condition", "short")
# Cautions that hold a job until something is known: a sentence beside each says what.
HOLDING = frozenset(
    {
        "prepare.waits",
        "prepare.waits_again",
        "prepare.waits_bare",
        "prepare.waits_bare_unknown",
        "prepare.waits_bumps",
        "prepare.waits_unknown",
    }
)


# Sowing into living grass leaves it standing between the seedlings.
INTO_GRASS = frozenset({"overseed"})


def sheet_words(book: Book, tasks: Iterable[Task], sown: Sequence[str]) -> dict[str, Message]:
    """By their keys in the book: when a job is done, what to do if it goes wrong and how it should
    look after (`operations.topdress.looks.1`); what a caution asks before the work begins, and how
    it stands among what protects (`cautions.dust.short`). By the task and the place of a caution
    among its cautions, what has to be known before the task (`topdress.1.known.2`). Seed of `sown`
    looks green when these grasses come up.
    """
    jobs = list(tasks)
    return dict(sorted([*_found(book, jobs, sown), *_to_be_known(jobs)]))


def _to_be_known(tasks: Iterable[Task]) -> Iterator[tuple[str, Message]]:
    for task in tasks:
        for place, caution in enumerate(task.cautions, start=1):
            if caution.key in HOLDING:
                yield f"{task.id}.known.{place}", Message(f"{caution.key}_known", caution.values)


def _found(book: Book, tasks: list[Task], sown: Sequence[str]) -> Iterator[tuple[str, Message]]:
    operations = {f"operations.{task.operation}" for task in tasks}
    cautions = {
        caution.key.removeprefix(BOOK).removesuffix(".text")
        for task in tasks
        for caution in task.cautions
        if caution.key.startswith(f"{BOOK}cautions.")
    }
    asked = [(name, OF_A_JOB) for name in operations] + [(name, OF_A_CAUTION) for name in cautions]
    for name, fields in asked:
        for field in fields:
            if (message := optional_message(book, f"{name}.{field}")) is not None:
                yield f"{name}.{field}", message
    for name in operations:
        told = (*book_messages(book, f"{name}.looks"), *_comes_up(book, name, sown))
        for number, message in enumerate(told, start=1):
            yield f"{name}.looks.{number}", message


def _comes_up(book: Book, name: str, sown: Sequence[str]) -> Iterator[Message]:
    """When seed that grows at once is first seen, and when all of it is."""
    operation = name.removeprefix("operations.")
    if operation not in ("seed", "overseed") or not sown:
        return
    first, last = map(Number, germination_days(book, sown))
    several = len(sown) > 1
    yield looks.first_green_of_several(n=first) if several else looks.first_green(n=first)
    yield looks.green_between(n=last) if operation in INTO_GRASS else looks.green_all_over(n=last)
