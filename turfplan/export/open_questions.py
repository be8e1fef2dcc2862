"""What is still open of a plan and changes what is bought or sown, each question with the last day
on which its answer comes in time."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta

from turfplan.message import AS_WRITTEN, Message
from turfplan.messages import Words
from turfplan.messages.entry import item_name
from turfplan.phrases import season_page as phrases
from turfplan.records.plan import Plan

DAY = timedelta(days=1)
# How it is asked what an order waits for, by what the order says of it.
_ASKED: Mapping[str, Callable[[], Message]] = {
    "buying.estimate_depth": phrases.ask_depth,
    "buying.estimate_soil": phrases.ask_soil,
    "buying.estimate_grass": phrases.ask_grass,
    "buying.estimate_test": phrases.ask_test,
}

# Which task gives the answer, by what the order says of it; that of a look that holds the work.
_ANSWERED_BY: Mapping[str, str] = {
    "buying.estimate_depth": "inspect.depth",
    "buying.estimate_soil": "inspect.soil",
    "buying.estimate_grass": "inspect.grass",
    "buying.estimate_test": "soil_test",
}
_LOOK = "diagnose"


@dataclass(frozen=True, slots=True)
class OpenQuestion:
    """A question, why it is asked, what its answer changes (names of what is bought; none where it
    holds the work itself), and the last day on which an answer comes in time; `kind` is depth,
    soil, grass, test, look or order."""

    kind: str
    asked: str
    why: str
    changes: tuple[str, ...]
    by: date


def open_questions(plan: Plan, today: date, words: Words) -> list[OpenQuestion]:
    """The open questions of a plan, the most urgent first; an answer that is late is due today."""
    found = (*_of_order(plan, words), *_holding(plan, words))
    return sorted(
        (replace(question, by=max(question.by, today)) for question in found),
        key=lambda question: question.by,
    )


def _of_order(plan: Plan, words: Words) -> Iterator[OpenQuestion]:
    """What lines of the order wait for: the answer comes a day before the first is ordered."""
    waiting: dict[str, list[tuple[str, date]]] = {}
    keys: dict[str, str] = {}
    for line in plan.order:
        if line.estimate is None:
            continue
        why = str(line.estimate)
        keys[why] = line.estimate.key if isinstance(line.estimate, Message) else AS_WRITTEN
        name = str(line.name) or words.text(item_name(line.item))
        waiting.setdefault(why, []).append((name, line.order_by - DAY))
    for why, lines in waiting.items():
        asked = _ASKED.get(keys[why], phrases.ask_order)
        kind = keys[why].rpartition("_")[2] if keys[why] in _ASKED else "order"
        names = tuple(dict.fromkeys(name for name, _ in lines))
        by = _once_answered(plan, _ANSWERED_BY.get(keys[why]), min(by for _, by in lines))
        yield OpenQuestion(kind, words.text(asked()), why, names, by)


def _once_answered(plan: Plan, task: str | None, by: date) -> date:
    """The day of an answer, which nobody has before the task that gives it."""
    giving = None if task is None else plan.task(task)
    return by if giving is None or giving.closed == "dropped" else max(by, giving.end)


def _holding(plan: Plan, words: Words) -> Iterator[OpenQuestion]:
    """What holds fill or seed until a look answers it: before anything is ordered or done."""
    holds = set(map(str, plan.holds))
    orders = [t.start for t in plan.tasks if t.plays("ordering") and t.closed is None]
    for note in plan.ranked:
        held = [task for name in note.tasks if (task := plan.task(name)) is not None]
        if held and str(note.text) in holds:
            first = min((*orders, *(task.start for task in held)))
            by = _once_answered(plan, _LOOK, first - DAY)
            yield OpenQuestion("look", words.text(phrases.ask_look()), str(note.text), (), by)
