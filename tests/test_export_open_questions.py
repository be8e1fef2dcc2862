"""What is still open and changes what is bought stands with its day and its question."""

from datetime import date, timedelta

import pytest

from planning import example
from turfplan.app.outputs import words_of
from turfplan.export.open_questions import open_questions

TODAY = date(2027, 2, 1)


def test_each_doubt_of_the_order_is_asked_a_day_before() -> None:
    """Once, however many lines wait for it, before the first of them is ordered; what has its
    answer is not asked."""
    plan = example("cool-overseed")
    found = open_questions(plan, TODAY, words_of(plan))
    waiting = [line for line in plan.order if line.estimate is not None]
    assert {q.why for q in found} == {str(line.estimate) for line in waiting}
    assert len(found) == 2 and [q.by for q in found] == sorted(q.by for q in found)
    for question in found:
        lines = [line for line in waiting if str(line.estimate) == question.why]
        assert question.by == min(line.order_by for line in lines) - timedelta(days=1)
        assert set(question.changes) == {str(line.name) for line in lines}
    late = open_questions(plan, date(2027, 9, 1), words_of(plan))
    assert [q.by for q in late] == [date(2027, 9, 1)] * 2
    known = plan.model_copy(update={"order": ()})
    assert open_questions(known, TODAY, words_of(plan)) == []


def test_what_holds_the_work_is_asked_before_the_order() -> None:
    """The look for it comes no later."""
    plan = example("deep-two-inches")
    holds = set(map(str, plan.holds))
    held = [q for q in open_questions(plan, TODAY, words_of(plan)) if q.why in holds]
    look, order = plan.task("diagnose"), plan.task("order_material.1")
    assert look is not None and order is not None
    assert [q.by for q in held] == [order.start - timedelta(days=1)] and held[0].by >= look.end


@pytest.mark.parametrize(
    ("name", "task", "asked"),
    [
        ("cool-overseed", "soil_test", "What does the soil test say?"),
        ("cool-overseed", "inspect.depth", "How deep is the fill, on the mean of many places?"),
        ("deep-two-inches", "diagnose", "What does the look at the lawn show?"),
    ],
)
def test_no_answer_is_due_before_what_gives_it(name: str, task: str, asked: str) -> None:
    """However late the sample is taken or somebody looks."""
    plan = example(name)
    for late in (date(2027, 3, 1), date(2027, 7, 15), date(2028, 1, 2)):
        tasks = tuple(
            t.model_copy(update={"start": late, "end": late}) if t.id == task else t
            for t in plan.tasks
        )
        moved = plan.model_copy(update={"tasks": tasks})
        (question,) = (q for q in open_questions(moved, TODAY, words_of(plan)) if q.asked == asked)
        (before,) = (q for q in open_questions(plan, TODAY, words_of(plan)) if q.asked == asked)
        assert question.by >= late and question.by in (before.by, late)
