"""What was bought for work that is done is settled with it."""

import pytest

from test_planning_past_binds import season_of
from turfplan.files.reading.book import load_book
from turfplan.message import as_written
from turfplan.planning.marks_again import AGAIN
from turfplan.planning.settled_by_work import with_bought_for_done, with_served_for_done
from turfplan.records.constraints import DayStep, Lag, Reason, Strength
from turfplan.records.past import TaskHistory
from turfplan.work.drafts import SeasonDraft

BOOK = load_book()
DAY = 740000


def season(*steps: tuple[str, str]) -> SeasonDraft:
    """A season in which some tasks come before others."""
    reason = Reason("rule", as_written("why"))
    lags = (Lag(f"{a}>{b}", a, b, Strength.HARD, reason, DayStep(0)) for a, b in steps)
    return SeasonDraft((), tuple(lags))


@pytest.mark.parametrize(
    "bought", ["order_material.sod", "call.machines.1", "collect.seed", "delivery.sod"]
)
def test_buying_is_done_with_the_work(bought: str) -> None:
    """By its own day, or that of the work where the work came first; other work is not."""
    made = season((bought, "overseed"), ("mow_low.1", "overseed"))
    planned = {bought: DAY, "mow_low.1": DAY}
    for day, own in ((DAY + 3, DAY), (DAY - 3, DAY - 3)):
        past = TaskHistory(done={"overseed": day}, planned=planned, overdue={bought: DAY})
        found = with_bought_for_done(BOOK, made, past)
        assert found.done == {"overseed": day, bought: own} and found.overdue == {}
        assert with_bought_for_done(BOOK, made, found) is found
    waiting = TaskHistory(done={"mow_low.1": DAY}, planned=planned)
    assert with_bought_for_done(BOOK, made, waiting) is waiting


def test_what_is_known_otherwise_stays_as_it_is() -> None:
    """Done on another day, skipped, or sent back."""
    made = season(("delivery.1", "topdress.1"))
    for past in (
        TaskHistory(done={"topdress.1": DAY, "delivery.1": DAY - 9}),
        TaskHistory(done={"topdress.1": DAY}, skipped=frozenset({"delivery.1"})),
        TaskHistory(done={"topdress.1": DAY}, refused=frozenset({"delivery.1"})),
    ):
        assert with_bought_for_done(BOOK, made, past) is past


def test_what_came_was_ordered() -> None:
    """The order of a load that a pass was spread from, though neither was written down."""
    made = season(("order_material.1", "delivery.1"), ("delivery.1", "topdress.1"))
    found = with_bought_for_done(BOOK, made, TaskHistory(done={"topdress.1": DAY}))
    assert found.done == dict.fromkeys(("topdress.1", "delivery.1", "order_material.1"), DAY)
    assert set(found.because) == {"delivery.1", "order_material.1"}


def test_a_new_load_was_asked_for() -> None:
    """The call for one that was refused is settled once it has come."""
    planned = {"call.refused.1": DAY - 3, "call.refused.2": DAY}
    past = TaskHistory(done={"delivery.1": DAY}, planned=planned)
    found = with_bought_for_done(BOOK, season(), past)
    assert found.done == {"delivery.1": DAY, "call.refused.1": DAY - 3}


def test_marks_and_cuts_whose_work_is_over_are_not_asked_about() -> None:
    """First turns and later ones, as long as nothing else waits for them; so in the next plan."""
    setting, _, made = season_of("0.75 in", thatch="0.6 in")
    blades = next(d for d in made.drafts if d.operation == "dethatch")
    marks = next(d for d in made.drafts if d.operation == "locate_utilities" and d.serves)
    names = {f"{marks.id}.{AGAIN}", marks.id}
    late = dict.fromkeys(names, DAY)
    over = dict.fromkeys(marks.serves, DAY + 2)
    waits = TaskHistory(overdue=late, done={})
    assert with_served_for_done(setting.book, made, waits) is waits
    found = with_served_for_done(setting.book, made, TaskHistory(overdue=late, done=over))
    assert names <= found.done.keys() and not found.overdue
    later = TaskHistory(done=over, settled=frozenset(names), planned=late)
    assert names <= with_served_for_done(setting.book, made, later).done.keys()
    cut = next(d for d in made.drafts if d.operation == "mow_low" and d.session == blades.session)
    cuts = TaskHistory(
        overdue={f"{cut.id}.{AGAIN}": DAY}, done={blades.id: DAY + 1}, planned={blades.id: DAY}
    )
    assert f"{cut.id}.{AGAIN}" in with_served_for_done(setting.book, made, cuts).done
