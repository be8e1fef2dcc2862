"""A day that somebody wishes for a task: harmless ones are taken, those that break a rule are told
with it and with the days that work."""

from datetime import date, timedelta
from itertools import islice

import pytest

from planning import EXAMPLES, TODAY, example, example_brief, first, kind
from told import told
from turfplan.app.inputs import PlanInputs, input_of
from turfplan.app.plan_lawn import known_place
from turfplan.planning import SoFar
from turfplan.planning.candidates import Candidate
from turfplan.planning.season_plan import dated_season
from turfplan.planning.wishes import broken_rules, days_that_work, is_dated
from turfplan.records.constraints import Strength
from turfplan.records.past import TaskHistory

COOL, SOUTH, PLUGS = "cool-overseed", "southern-hemisphere", "st-augustine-plugs"


def inputs(name: str) -> PlanInputs:
    """What an example is planned from."""
    return input_of(example_brief(name), EXAMPLES)


def season(name: str) -> tuple[Candidate, TaskHistory]:
    """The season of an example, as it is planned again."""
    given = inputs(name)
    so_far = SoFar((), example(name))
    found, history = dated_season(given.brief, given.book, known_place(given), so_far, now=TODAY)
    assert found is not None
    return found, history


def broken(name: str, task: str, day: date, **options: Strength) -> tuple[str, ...]:
    """What a task would break on a day, as it is told."""
    found, history = season(name)
    reasons = broken_rules(found, history, task, day, **options)
    region = example(name).place.region
    return tuple(told(reason, region=region) for reason in reasons)


def test_cool_turf_is_not_dressed_in_july() -> None:
    """The season of the work is named, and the days that work lie in it, nearest first."""
    task = first(example(COOL), "topdress")
    july = date(2027, 7, 3)
    reasons = broken(COOL, task.id, july)
    assert len(reasons) == 1 and "Passes go on while tall fescue grows through them" in reasons[0]
    found, history = season(COOL)
    near = list(islice(days_that_work(found, history, task.id, july), 5))
    assert near and all(task.window.start <= day <= task.window.end for day in near)
    assert near == sorted(near, key=lambda day: abs(day - july))
    for day in near:
        assert not broken(COOL, task.id, day)


@pytest.mark.parametrize("name", [COOL, SOUTH, PLUGS, "surveyed-us", "transition-fescue"])
def test_a_tuesday_off_the_weekdays_breaks_nothing(name: str) -> None:
    """Weekdays are a preference: a pass, of one day or several, may go on three days later, as far
    as its season lets it."""
    for task in kind(example(name), "topdress"):
        day = task.start + timedelta(days=(1 - task.start.weekday()) % 7)
        if day + timedelta(days=task.duration_days) > task.window.end:
            continue
        reasons = broken(name, task.id, day)
        assert not any("working days" in reason for reason in reasons), (task.id, day, reasons)


def test_seed_in_the_heat_before_its_bed_or_over_frost_is_refused() -> None:
    """In either hemisphere, and plugs out of their season."""
    for name, operation, months in ((COOL, "overseed", 3), (SOUTH, "seed", 6), (PLUGS, "plant", 7)):
        task = first(example(name), operation)
        late = task.start + timedelta(days=30 * months)
        assert broken(name, task.id, late), (name, late)


def test_others_who_come_or_answer_keep_their_days() -> None:
    """A supplier does not drive on a day of rest, an office is closed on Sunday; an order may be
    written on any day of business."""
    load = first(example(COOL), "delivery")
    sunday = load.start + timedelta(days=(6 - load.start.weekday()) % 7)
    assert "supplier" in " ".join(broken(COOL, load.id, sunday))
    marks = first(example(COOL), "locate_utilities")
    weekend = marks.start - timedelta(days=marks.start.weekday() + 1)
    assert "office" in " ".join(broken(COOL, marks.id, weekend))
    order = first(example(COOL), "order_material")
    assert not broken(COOL, order.id, order.start + timedelta(days=3))


def test_what_the_work_needs_is_dragged_along_or_named() -> None:
    """A load a week later is borne by what follows; long after the pass that it is for, the rules
    between them are told."""
    load = kind(example(COOL), "delivery")[0]
    assert not broken(COOL, load.id, load.start + timedelta(days=7))
    reasons = " ".join(broken(COOL, load.id, load.start + timedelta(days=70)))
    assert "Top-dress" in reasons


def test_advice_is_overruled_unless_it_is_asked_for() -> None:
    """A soil test in summer is against advice alone."""
    task = first(example("surveyed-us"), "soil_test")
    late = date(2027, 6, 27)
    assert not broken("surveyed-us", task.id, late)
    assert broken("surveyed-us", task.id, late, least=Strength.ADVICE)


def test_a_day_outside_the_season_is_told_with_its_days() -> None:
    """Before the first day of the plan, or after its last."""
    task = first(example(COOL), "raise_fittings")
    assert broken(COOL, task.id, date(2027, 2, 23)) == (
        "The season of the plan is Mon, Mar 1, 2027 to Wed, Aug 30, 2028.",
    )


def test_waterings_have_no_day_of_their_own() -> None:
    """They follow what is young."""
    found, _ = season(COOL)
    runs = [task.id for task in example(COOL).tasks if task.series is not None]
    assert runs and not any(is_dated(found, name) for name in runs)
    assert is_dated(found, "overseed")
