"""What a repair reads: rain to come, a fill of the same depth, and why a task has moved."""

from datetime import date, timedelta

import pytest

from planning import brief_of, example
from test_work_campaigns import setting_of
from turfplan.message import as_written
from turfplan.planning.repair import _as_deep, coming_rain, with_window_reasons
from turfplan.work.watering.request import WeatherDay

TODAY = date(2027, 4, 10)


def test_rain_to_come_begins_today() -> None:
    """What fell yesterday is no forecast; a day of which nobody knows its rain says nothing."""
    weather = {
        TODAY + timedelta(n): WeatherDay(rain_mm=mm)
        for n, mm in ((-1, 9.0), (0, 5.0), (1, 0.0), (2, None), (3, 7.0))
    }
    assert coming_rain(weather, TODAY) == {
        TODAY: 5.0,
        TODAY + timedelta(1): 0.0,
        TODAY + timedelta(3): 7.0,
    }


@pytest.mark.parametrize(
    ("apart_mm", "same"),
    [(0.0, True), (0.0004, True), (-0.0004, True), (0.0006, False), (0.1, False)],
)
def test_a_fill_is_as_deep_to_a_thousandth_of_a_millimetre(apart_mm: float, *, same: bool) -> None:
    """As finely as a plan keeps its depth."""
    setting = setting_of(brief_of())
    plan = example("cool-overseed")
    lawn = plan.lawn.model_copy(update={"depth_mm": setting.levelling.depth_mm + apart_mm})
    assert _as_deep(setting, plan.model_copy(update={"lawn": lawn})) is same


def test_a_moved_task_says_what_the_journal_the_forecast_or_its_window_says() -> None:
    """In that order; a window speaks only of a task whose old day lies outside of it, and of none
    that stands on its day.
    """
    plan = example("cool-overseed")
    task = next(t for t in plan.tasks if t.operation == "topdress")
    other = next(t for t in plan.tasks if t.operation != "topdress")
    opens, shuts = task.window.start, task.window.end
    why = {name: as_written(name) for name in ("moved", "rain", "hand")}
    windows, forecast = {task.operation: why["moved"]}, {task.id: why["rain"]}

    def told(was: date, **more: object) -> dict[str, object]:
        before = task.model_copy(update={"start": was, "end": was})
        previous = plan.model_copy(update={"tasks": (before, other)})
        rain = forecast if more.get("rain") else {}
        hand = {task.id: why["hand"]} if more.get("hand") else {}
        return dict(with_window_reasons(hand, (task, other), previous, windows, rain))

    early, late = opens - timedelta(1), shuts + timedelta(1)
    assert told(early) == told(late) == {task.id: why["moved"]}
    inside = opens if opens != task.start else shuts
    assert told(inside) == told(task.start) == {}
    assert told(early, rain=True) == told(inside, rain=True) == {task.id: why["rain"]}
    assert told(task.start, rain=True) == {}
    assert told(early, rain=True, hand=True) == {task.id: why["hand"]}
    assert with_window_reasons({}, (task,), None, windows, forecast) == {}
