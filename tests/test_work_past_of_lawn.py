"""What the lawn's past leaves to a task."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from planning import brief_of
from resolved_lawns import lawn, setting_of
from turfplan.message import Day, as_written, listed
from turfplan.phrases import past_of_lawn as phrases
from turfplan.records.book_names import OperationName
from turfplan.work.operations import CARE, Timing, Wording, make
from turfplan.work.past_of_lawn import over_told, rests, rests_told, still_to_come

TREATED = date(2027, 2, 20)
MOSS: dict[str, Any] = {"history": {"moss": [{"on": TREATED, "active_ingredient": "iron sulfate"}]}}


def held(operation: OperationName, **history: Any) -> list[tuple[int, str]]:
    """For how many days after the treatment a task is held, and by which rule."""
    setting = setting_of(brief_of(MOSS, history))
    draft = make(setting, operation, timing=Timing(CARE), wording=Wording(as_written("test")))
    return [(day - TREATED.toordinal(), why.rule) for day, _, why in rests(setting, draft)]


@pytest.mark.full
@pytest.mark.parametrize("operation", ["seed", "overseed", "dormant_seed", "plant", "dethatch"])
def test_treated_moss_is_left_to_die_before_seed_and_rakes(operation: OperationName) -> None:
    """For the days of the book from the treatment."""
    rest = setting_of(brief_of()).days("site.moss_rest")
    assert rest > 0 and held(operation) == [(rest, "past.moss")]


@pytest.mark.full
@pytest.mark.parametrize("operation", ["topdress", "core_aerate", "mow_low", "feed_nitrogen"])
def test_what_neither_sows_nor_rakes_need_not_wait_for_moss(operation: OperationName) -> None:
    """Passes, cores, cuts and feedings go on."""
    assert held(operation) == []


@pytest.mark.full
@pytest.mark.parametrize(
    ("operation", "rule"),
    [("topdress", "past.seedlings"), ("mow_low", "past.seedlings"), ("overseed", "past.moss")],
)
def test_young_seedlings_hold_what_buries_or_cuts_them(operation: OperationName, rule: str) -> None:
    """Seed of before holds passes and cuts, not more seed."""
    sowings = [{"on": TREATED + timedelta(1), "species": "tall_fescue"}]
    history = {"history": {"moss": MOSS["history"]["moss"], "sowings": sowings}}
    setting = setting_of(brief_of(history))
    draft = make(setting, operation, timing=Timing(CARE), wording=Wording(as_written("test")))
    assert [why.rule for _, _, why in rests(setting, draft)] == [rule]


def test_moss_that_should_be_black_is_no_longer_waited_for() -> None:
    """By the days that it takes; and nothing is said of it where it goes with the turf."""
    treated = {"active_ingredient": "iron", "on": date(2027, 2, 20)}
    setting = lawn({"history": {"moss": [treated]}})
    black = date(2027, 2, 20).toordinal() + setting.days("site.moss_rest")
    for day, key in ((black - 1, "moss_treated"), (black, "moss_black")):
        now = replace(setting, first_day=day)
        told = [said.key for said in (*rests_told(now), *over_told(now)) if "moss" in said.key]
        assert told == [f"past_of_lawn.{key}"]
    gone = lawn({"history": {"moss": [treated]}, "seeding": {"intent": "renovate"}})
    assert not any("moss" in said.key for said in (*rests_told(gone), *over_told(gone)))


def test_history_that_lies_ahead_is_told() -> None:
    """Each day once, of every kind of entry; nothing of what is over, today included."""
    today = lawn().today
    later = today + timedelta(20)
    ahead = {
        "nitrogen": [{"rate": "1 lb/1000ft2", "on": later}],
        "lime": [{"rate": "20 lb/1000ft2", "on": later}],
        "sowings": [{"on": later}],
        "herbicides": [{"active_ingredient": "pendimethalin", "on": later}],
    }
    over = {"nitrogen": [{"rate": "1 lb/1000ft2", "on": today}]}
    day = phrases.still_to_come(days=listed([Day(later)], "and"), today=Day(today))
    assert list(still_to_come(lawn({"history": ahead}))) == [day]
    assert not list(still_to_come(lawn({"history": over})))
