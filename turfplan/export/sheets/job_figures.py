"""The few figures of a job that are read from afar: how deep, how many, how far apart."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from turfplan.export.sheets.task_amounts import PrintedAmount, is_printed, printed_amount
from turfplan.message import Message, Quantity, within
from turfplan.messages import Words
from turfplan.messages.entry import of_its_day
from turfplan.phrases import week as phrases
from turfplan.records.plan_task import Task

# So many stand side by side on the width of a page.
MOST = 4
# What follows from the other amounts, and is not what a hand sets or counts.
BEHIND = ("weight", "weight per area")
# What work is laid out by, always in this order; how far apart heaps lie, or how deep seed is raked
# in, stands after these.
LAID_OUT = ("depth", "barrow loads", "seed rate")
# What is kept for later is no figure of the day.
KEPT = ("seed held back",)
# The messages that say how far apart the heaps of a pass lie, by barrow and by loader, and how
# deep it is where it is told at its deepest.
HEAPS, LOADER = "barrows.heaps", "barrows.loader"
AT_MOST = ("barrows.covers_deepest", "amounts.pass_volume_missing")
# The depth of what is spread before it settles, by its name in those messages.
LOOSE, DEPTH = "loose", "depth"


@dataclass(frozen=True, slots=True)
class JobFigure:
    """A figure, large, and in small what it is of."""

    of: str
    value: str


@dataclass(frozen=True, slots=True)
class JobFigures:
    """The figures of a job, its other amounts, and the names of what is written down when used."""

    large: tuple[JobFigure, ...]
    others: tuple[PrintedAmount, ...]
    used: tuple[str, ...]


def job_figures(task: Task, words: Words) -> JobFigures:
    """The figures of a job; one without amounts has those of its title: the height of a cut."""
    amounts = [amount for amount in of_its_day(task) if is_printed(amount, words)]
    printed = {a.item: printed_amount(a, words) for a in amounts}
    if DEPTH in printed and task.plays("spreading"):
        printed[DEPTH] = replace(printed[DEPTH], item=_depth_told(task, printed[DEPTH], words))
    first = [item for item in LAID_OUT if item in printed]
    rest = [item for item in printed if item not in (*first, *BEHIND, *KEPT)]
    large = [
        *(JobFigure(printed[item].item, printed[item].planned) for item in first),
        *_apart(task, words),
        *_raked_in(task, words),
        *(JobFigure(printed[item].item, printed[item].planned) for item in rest),
        *(_of_title(task.title, words) if not amounts else ()),
    ][:MOST]
    shown = {(figure.of, figure.value) for figure in large}
    return JobFigures(
        tuple(large),
        tuple(p for p in printed.values() if (p.item, p.planned) not in shown),
        tuple(p.item for p in printed.values() if p.used),
    )


def _apart(task: Task, words: Words) -> Iterator[JobFigure]:
    """How far apart heaps lie, where a step of the job says it."""
    for message in _messages(task.how):
        values = dict(message.values)
        if message.key == HEAPS:
            yield JobFigure(words.text(phrases.heaps_apart()), words.value(values["apart"]))
        elif message.key == LOADER:
            of = words.say("week.loads_apart", volume=values["volume"])
            yield JobFigure(of, words.value(values["side"]))


def _raked_in(task: Task, words: Words) -> Iterator[JobFigure]:
    """How deep seed is raked in, where a step of sowing says it."""
    for message in _messages(task.how if task.plays("sowing") else ()):
        for name, value in message.values:
            if name == "cover":
                yield JobFigure(words.say("week.figure.cover"), words.value(value))


def _depth_told(task: Task, depth: PrintedAmount, words: Words) -> str:
    """What the depth of a layer is of: settled, and how deep that is loose where this differs as it
    is told."""
    told = (*_messages(task.how), *_messages(amount.reason for amount in task.amounts))
    at_most = any(message.key in AT_MOST for message in told)
    of = words.text(phrases.deepest(of=depth.item)) if at_most else depth.item
    loose = next((dict(m.values)[LOOSE] for m in told if LOOSE in dict(m.values)), None)
    if not isinstance(loose, Quantity) or words.value(loose) == depth.planned:
        return words.text(phrases.settled(of=of))
    return words.text(phrases.settled_loose(of=of, loose=loose))


def _messages(texts: Iterable[Message]) -> Iterator[Message]:
    """All messages in some texts."""
    for text in texts:
        yield from (value for value in within(text) if isinstance(value, Message))


def _of_title(title: Message, words: Words) -> Iterator[JobFigure]:
    """The quantities in a title that have a name of their own."""
    for name, value in title.values:
        if isinstance(value, Quantity) and words.catalog.has(f"week.figure.{name}"):
            yield JobFigure(words.say(f"week.figure.{name}"), words.value(value))
