"""Which tasks never go, whatever comes too late."""

from test_work_season import drafted
from turfplan.planning.too_late import _staying
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
