"""Each doubt that changes what is bought is a job with a day before the order, and a question."""

from datetime import UTC, date, datetime
from typing import Any

import pytest

from planning import plan_of
from turfplan.app.outputs import words_of
from turfplan.export.open_questions import open_questions
from turfplan.message import Message
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import Plan

DOUBTFUL: dict[str, Any] = {
    "lawn": {"grass": "unknown", "soil": None},
    "leveling": {"depth": "1 in"},
}
# Each look, the key of what its order says, and what the brief says once it is settled.
LOOKS: list[tuple[str, str, dict[str, Any]]] = [
    (
        "inspect.depth",
        "buying.estimate_depth",
        {"leveling": {"lows": [{"depth": "1 in", "share": 0.9}]}},
    ),
    ("inspect.soil", "buying.estimate_soil", {"lawn": {"grass": "unknown", "soil": "clay"}}),
    ("inspect.grass", "buying.estimate_grass", {"lawn": {"grass": "tall_fescue", "soil": None}}),
]


def asked(plan: Plan) -> set[str]:
    """What lines of the order wait for, by key."""
    return {n.key for line in plan.order if isinstance(n := line.estimate, Message)}


@pytest.fixture(scope="module")
def doubtful() -> Plan:
    """A lawn of which little is known."""
    return plan_of(DOUBTFUL)


def test_each_doubt_has_a_day_before_what_it_changes(doubtful: Plan) -> None:
    """With how it is settled and why; the lines of its order are estimates, and it is asked."""
    told = {line.item: line for line in doubtful.order if line.estimate is not None}
    for look, line in (
        ("inspect.depth", "mix"),
        ("inspect.soil", "mix"),
        ("inspect.grass", "seed"),
    ):
        task = doubtful.task(look)
        assert task is not None and len(task.how) >= 2 and task.why
        first = min(one.order_by for one in doubtful.order if one.item == line)
        assert task.end < first, (look, task.end, first)
        assert line in told
    questions = open_questions(doubtful, date(2027, 1, 1), words_of(doubtful))
    assert {"Which grass is it?", "Which soil does the lawn stand on?"} <= {
        q.asked for q in questions
    }


def test_what_is_known_is_not_looked_into() -> None:
    """No look where nothing waits for it."""
    known = plan_of({"lawn": {"soil": "clay"}, "leveling": {"depth": "0.25 in"}})
    assert not {"inspect.depth", "inspect.soil", "inspect.grass"} & {t.id for t in known.tasks}


@pytest.mark.parametrize(("look", "key", "settled"), LOOKS)
def test_a_look_that_was_made_settles_its_order(
    doubtful: Plan, look: str, key: str, settled: dict[str, Any]
) -> None:
    """Ticked off, the order no longer waits for it; a brief that says what was found needs no look;
    one that was left out settles nothing.
    """
    task = doubtful.task(look)
    assert task is not None
    now = datetime(task.end.year, task.end.month, task.end.day, 20, tzinfo=UTC)
    tick = JournalEntry(number=1, at=now, kind="done", task=look, on=task.end)
    done = plan_of(DOUBTFUL, now=now, journal=(tick,), previous=doubtful)
    after = done.task(look)
    assert after is not None and after.closed == "done"
    # Of one order the soil is asked first: its depth once that is known.
    assert key not in asked(done) and (look == "inspect.depth" or key in asked(doubtful))
    assert look not in {t.id for t in plan_of(DOUBTFUL | settled).tasks if t.is_open}
