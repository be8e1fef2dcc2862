"""What the lawn's past leaves to a task."""

from datetime import date, timedelta
from typing import Any

import pytest

from planning import brief_of
from resolved_lawns import setting_of
from turfplan.message import as_written
from turfplan.records.book_names import OperationName
from turfplan.work.operations import CARE, Timing, Wording, make
from turfplan.work.past_of_lawn import rests

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
