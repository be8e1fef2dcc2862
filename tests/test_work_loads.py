"""Heaps keep for so long: which passes and strips a load serves, and when it may come."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from planning import brief_of
from test_work_campaigns import setting_of
from turfplan.records.constraints import DaySet
from turfplan.work.campaigns import Session, campaigns
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.loads import _steps, _strips_of_a_load, _together

SETTING = setting_of(brief_of({"leveling": {"depth": "1.5 in"}, "seeding": {"intent": "none"}}))
RESERVE, STORED = SETTING.days("order.dry_reserve"), SETTING.days("order.storage_days")


def session_of(setting: ResolvedLawn, passes: int) -> Session:
    """A session of that lawn with so many passes."""
    session = next(s for c in campaigns(setting)[0] for s in c.sessions)
    layer = session.passes[0]
    return replace(session, passes=tuple(replace(layer, number=n + 1) for n in range(passes)))


@pytest.mark.parametrize("worked", [(5, 6), (1, 5), (0, 1, 2, 3, 4, 5, 6)])
@pytest.mark.parametrize(("first", "last"), [(1, 1), (1, 3), (2, 3), (4, 6)])
def test_a_load_comes_before_its_first_strip_and_is_fresh_for_its_last(
    worked: tuple[int, ...], first: int, last: int
) -> None:
    """By trying each day of work as the first of the pass: the strip that it is for first lies
    days after the delivery, the last one within its storage.
    """
    begin = SETTING.first_day
    span = range(begin, begin + 180)
    days = [day for day in span if date.fromordinal(day).weekday() in worked]
    members = DaySet.from_days(days)
    setting = replace(SETTING, last_day=begin + 150)
    earliest, latest = _steps(setting, members, first, last)
    for came in range(begin + 40, begin + 100):
        begun = [days[n] for n in range(len(days) - last) if days[n + first - 1] >= came + RESERVE]
        assert earliest(came) == begun[0]
        fresh = [days[n] for n in range(len(days) - last) if days[n + last - 1] <= came + STORED]
        assert latest(came) == fresh[-1]


def test_where_no_day_of_work_is_left_a_load_has_none() -> None:
    """After the last of them the first day lies beyond the plan; before any can be fresh the last
    one lies before it.
    """
    begin = SETTING.first_day
    setting = replace(SETTING, last_day=begin + 30)
    earliest, latest = _steps(setting, DaySet.from_days([begin + 25]), 1, 1)
    assert earliest(begin + 25 - RESERVE) == begin + 25
    assert earliest(begin + 26 - RESERVE) == setting.last_day + 1
    assert latest(begin + 25 - STORED) == begin + 25
    late = setting_of(brief_of({"leveling": {"depth": "1.5 in"}}))
    far = DaySet.from_days([late.first_day + STORED + 40])
    assert _steps(late, far, 1, 1)[1](late.first_day) == late.first_day - 1


@pytest.mark.parametrize("weekdays", [("sat", "sun"), ("sat",), ("mon", "wed", "fri")])
def test_a_heap_lasts_as_many_strips_as_half_of_the_days_allow(weekdays: tuple[str, ...]) -> None:
    """On half of the days of work or more, a heap that came in time is still good for the last of
    so many strips; one more would be too old on more than half.
    """
    calendar = {"calendar": {"weekdays": list(weekdays)}}
    setting = setting_of(brief_of({"leveling": {"depth": "1.5 in"}}, calendar))
    session = session_of(setting, 1)
    strips = _strips_of_a_load(setting, session)
    work, brought = (
        set(days.days()) for days in (setting.calendar.machines, setting.calendar.deliveries)
    )
    held: list[int] = []
    first = max(session.window.start.toordinal(), setting.first_day)
    for day in sorted(d for d in work if first <= d <= session.window.end.toordinal()):
        came = max(d for d in brought if d <= day - RESERVE)
        held.append(len([d for d in work if day <= d <= came + STORED]))
    assert 2 * sum(count >= strips for count in held) >= len(held)
    assert 2 * sum(count >= strips + 1 for count in held) < len(held)
    assert strips >= 2


def test_passes_share_a_load_while_it_keeps() -> None:
    """As many as follow each other within its storage, less the days until it is used and a week
    for rain; a pass of several days has its own.
    """
    room = STORED - RESERVE - 7
    session, spacing = session_of(SETTING, 5), room // 2
    one_day = dict.fromkeys(range(1, 6), 1)
    whole = dict.fromkeys(range(1, 6), 1.0)
    assert _together(SETTING, session, one_day, spacing, whole) == [(1, 2, 3), (4, 5)]
    assert _together(SETTING, session, one_day, room, whole) == [(1, 2), (3, 4), (5,)]
    assert _together(SETTING, session, one_day, room + 1, whole) == [(1,), (2,), (3,), (4,), (5,)]
    assert _together(SETTING, session, {**one_day, 2: 3}, spacing, whole) == [(1,), (2,), (3, 4, 5)]


def test_soil_of_lifts_lies_until_it_is_used() -> None:
    """All lifts of bare ground are one load, however far apart they lie."""
    bare = setting_of(
        brief_of(
            {
                "lawn": {"condition": "bare"},
                "seeding": {"intent": "renovate"},
                "leveling": {"depth": "8 in"},
            }
        )
    )
    session = session_of(bare, 3)
    assert _together(
        bare, session, dict.fromkeys((1, 2, 3), 4), 90, dict.fromkeys((1, 2, 3), 9.0)
    ) == [(1, 2, 3)]
    assert timedelta(90).days > STORED
