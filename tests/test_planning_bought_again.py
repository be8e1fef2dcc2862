"""What was sent back is called for, and what is short of the mix is fetched."""

from datetime import timedelta

import pytest

from resolved_lawns import lawn
from test_planning_stock import DEEP, mixes
from test_seasons import Season, begun, done_until
from told import told
from turfplan.message import as_written
from turfplan.records.constraints import DayStep
from turfplan.work.buying_lags import buying_lags
from turfplan.work.drafts import Draft
from turfplan.work.phases.buying import refused_call


@pytest.fixture
def season() -> Season:
    """Two sessions of passes, with everything before the first delivery done."""
    made = begun(DEEP)
    done_until(made, made.day("delivery.1"))
    return made


def test_a_refused_load_is_called_for(season: Season) -> None:
    """Before it comes again, once: the call closes with the load."""
    day = season.day("delivery.1")
    season.log("refused", task="delivery.1", on=day)
    season.make(day)
    call = season.plan.task("call.refused.1")
    assert call is not None and day <= call.start <= season.day("delivery.1") > day
    line = next(line for line in mixes(season) if "delivery.1" in line.tasks)
    assert line.tasks == ("order_material.1", "call.refused.1", "delivery.1")
    assert day <= line.order_by == call.start <= line.deliver_by
    came = season.day("delivery.1")
    season.log("delivered", task="delivery.1", on=came)
    season.make(came + timedelta(1))
    call = season.plan.task("call.refused.1")
    assert call is not None and call.closed == "done"
    assert not any("delivery.1" in line.tasks for line in mixes(season))


def short(season: Season) -> None:
    """The last load brings two cubic metres less than were ordered."""
    for number in (1, 2):
        day = season.day(f"delivery.{number}")
        done_until(season, day)
        line = next(line for line in mixes(season) if f"delivery.{number}" in line.tasks)
        amount = line.value - (2.0 if number == 2 else 0.0)
        season.log("delivered", task=f"delivery.{number}", on=day, amount=amount, unit="m3")
        season.make(day + timedelta(days=1))


def test_mix_that_is_short_is_fetched_before_the_pass(season: Season) -> None:
    """By a trip of its own, whose line is gone once it is done."""
    short(season)
    (line,) = mixes(season)
    trip = season.plan.task("collect.mix")
    assert line.tasks == ("collect.mix",) and trip is not None
    assert "more of the mix" in told(trip.title)
    coming = [t for t in season.plan.tasks if t.plays("spreading") and t.closed is None]
    assert coming and all(trip.end <= t.start for t in coming)
    season.log("done", task="collect.mix", on=trip.start)
    season.make(trip.start + timedelta(1))
    assert mixes(season) == [] and season.plan.task("collect.mix.2") is None


def test_what_a_trip_leaves_short_is_fetched_by_a_second_one(season: Season) -> None:
    """The amount that was logged counts; a trip that was skipped is not asked for again."""
    short(season)
    trip = season.plan.task("collect.mix")
    assert trip is not None
    first = mixes(season)[0].value
    season.log("done", task="collect.mix", on=trip.start, amount=0.5, unit="m3")
    season.make(trip.start)
    (line,) = mixes(season)
    assert line.tasks == ("collect.mix.2",) and 0 < line.value < first
    season.log("skipped", task="collect.mix.2", on=trip.start)
    season.make(trip.start + timedelta(1))
    assert not any(t.id.startswith("collect.mix") and t.closed is None for t in season.plan.tasks)
    assert mixes(season) == []


def test_plants_that_were_sent_back_are_asked_for_anew_with_the_days_of_their_grower() -> None:
    """The call sees to delivery and planting, and they come once the grower has cut or lifted."""
    setting = lawn()
    plant = Draft("plant", "plant", "sow", as_written(""), 1)
    sent = Draft(
        "delivery.sprigs",
        "delivery",
        "prepare",
        as_written(""),
        1,
        key="sprigs",
        buys_for=("plant",),
    )
    call = refused_call(setting, sent)
    assert call.buys_for == ("delivery.sprigs", "plant")
    waits = {
        lag.after: lag.minimum
        for lag in buying_lags(setting, (plant, sent, call))
        if lag.before == call.end_node and lag.id.startswith("buying.plants_lead")
    }
    days = DayStep(setting.days("delivery.plants_lead"))
    assert waits == dict.fromkeys((sent.start_node, plant.start_node), days)
