"""Which tasks never go, whatever comes too late."""

from dataclasses import replace
from datetime import date

from test_work_season import drafted
from turfplan.message import as_written
from turfplan.planning.too_late import _staying, without_too_late
from turfplan.records.constraints import DayStep, Lag, Reason, Strength
from turfplan.records.past import TaskHistory
from turfplan.work.drafts import SeasonDraft

SPREAD_OR_SOWN = {"topdress", "overseed"}


def test_main_work_and_what_is_begun_or_done_stay() -> None:
    """Spreading and sowing need nothing after them; what history knows of a task keeps it."""
    _, _, drafts = drafted()
    setting = drafted()[0]
    season = SeasonDraft(tuple(drafts.values()), ())
    main = {name for name, draft in drafts.items() if draft.operation in SPREAD_OR_SOWN}
    assert len(main) >= 2 and len(main) < len(drafts)
    assert _staying(setting, season, TaskHistory()) == main
    history = TaskHistory(done={"soil_test": 5}, part_done={"core_aerate.1": 0.5})
    assert _staying(setting, season, history) == main | {"core_aerate.1"} | set(history.fixed)


def test_what_goes_with_seed_goes_with_it_or_not_at_all() -> None:
    """Rolled the day it is sown, while that day is still open; a cover has some days more."""
    setting, _, drafts = drafted()
    tasks = drafts["overseed"], replace(drafts["first_mow"], id="roll", beside="overseed")
    why = Reason("seed.same_day", as_written(""))
    for most, gone in ((0, True), (2, True), (3, False)):
        lag = Lag("x", "overseed", "roll", Strength.HARD, why, DayStep(0), DayStep(most))
        season = SeasonDraft(tasks, (lag,))
        past = TaskHistory(done={"overseed": date(2027, 9, 4).toordinal()})
        left, after = without_too_late(setting, season, past, date(2027, 9, 7))
        assert ("roll" not in {d.id for d in left.drafts}) == gone and after is past


def test_what_main_work_to_come_needs_stays() -> None:
    """A look for the cause that should have come before the order still comes before the pass."""
    setting, _, drafts = drafted()
    tasks = tuple(drafts[name] for name in ("soil_test", "order_material.1", "topdress.1"))
    why = Reason("order", as_written(""))
    before_order, before_pass = (
        Lag(f"x{name}", "soil_test", name, Strength.HARD, why, DayStep(0))
        for name in ("order_material.1", "topdress.1")
    )
    past = TaskHistory(done={"order_material.1": date(2027, 9, 4).toordinal()})
    for lags, stays in (((before_order,), False), ((before_order, before_pass), True)):
        left, _ = without_too_late(setting, SeasonDraft(tasks, lags), past, date(2027, 9, 7))
        assert ("soil_test" in {d.id for d in left.drafts}) == stays
