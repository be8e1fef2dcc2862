"""Work that neighbours hear keeps to the days on which machines may run."""

import pytest

from planning import brief_of
from test_work_campaigns import setting_of
from turfplan.work.days_off import days_for, is_heard


@pytest.mark.parametrize(
    ("operation", "machines", "heard"),
    [
        ("topdress", [], False),
        ("topdress", ["topdresser"], True),
        ("topdress", ["loader"], True),
        ("incorporate", [], False),
        ("incorporate", ["topdresser"], True),
        ("mow_low", [], True),
        ("core_aerate", [], True),
        ("overseed", ["topdresser"], False),
    ],
)
def test_a_motor_is_heard_and_a_rake_is_not(
    operation: str, machines: list[str], *, heard: bool
) -> None:
    """Mowers and corers always; what is spread where a machine of one's own spreads it, and then
    the working in beside it.
    """
    setting = setting_of(
        brief_of({"work": {"machines": machines}, "local": {"quiet_days": ["sun"]}})
    )
    assert is_heard(setting, operation) is heard
    own = setting.calendar.machines if heard else setting.calendar.work
    if setting.book.operations[operation].hired:
        assert days_for(setting, operation) == own
    assert setting.calendar.machines != setting.calendar.work
