"""A pass knows the loads that it is spread from; strips have loads of their own."""

from planning import brief_of
from test_work_campaigns import setting_of
from turfplan.message import as_written
from turfplan.work.drafts import Load
from turfplan.work.operations import PASS, Timing, Wording, make
from turfplan.work.phases.receive import with_loads


def test_passes_are_served_by_whole_loads() -> None:
    """Two passes share the first; the third has one for each half of its strips, whose days are
    kept apart. Each load is received and kept dry.
    """
    setting = setting_of(brief_of())
    passes = [
        make(
            setting,
            "topdress",
            str(number),
            timing=Timing(PASS, session=1, position=number),
            wording=Wording(as_written("to test")),
        )
        for number in (1, 2, 3)
    ]
    loads = (
        Load(1, 1, (1, 2), 4.0),
        Load(2, 1, (3,), 2.0, (1, 2), order=2),
        Load(3, 1, (3,), 2.0, (3, 4), order=2),
    )
    drafts = {draft.id: draft for draft in with_loads(setting, passes, loads)}
    assert [drafts[f"topdress.{n}"].loads for n in (1, 2, 3)] == [(1,), (1,), ()]
    assert [drafts[f"delivery.{n}"].load for n in (1, 2, 3)] == [1, 2, 3]
    assert [drafts[f"dry_material.{n}"].load for n in (1, 2, 3)] == [1, 2, 3]
    early, late = -setting.days("wish.delivery"), setting.days("wish.delivery")
    assert [drafts[f"delivery.{n}"].offset for n in (1, 2, 3)] == [early, early, late]
