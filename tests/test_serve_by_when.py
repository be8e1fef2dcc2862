"""By when a job is done, as the page of the day tells it."""

from datetime import timedelta

from page_plan import page_plan
from told import words_of
from turfplan.records.plan_task import Slack
from turfplan.serve.today import job_view


def test_by_when_is_the_last_day_on_which_nothing_else_moves() -> None:
    """Not the last of a season that leaves no days for what hangs on the job: marks that are asked
    for then come after the spade. Where nobody reckoned it, the season's stands."""
    plan = page_plan()
    task = next(t for t in plan.tasks if t.closed is None and t.window.end > t.start)
    words = words_of(plan)

    def last(days: int | None) -> str:
        end = None if days is None else Slack(end=task.start + timedelta(days=days), moves=("x",))
        shown = job_view(plan, task.model_copy(update={"slack": end}), task.start, (), words)
        return shown.figures[-1].value

    assert last(0) != last(2) != last(None)
    assert str((task.start + timedelta(days=2)).day) in last(2)
    assert str(task.window.end.day) in last(None)
