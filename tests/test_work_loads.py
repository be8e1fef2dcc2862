"""Heaps keep for so long: which passes and strips a load serves, and when it may come."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from planning import brief_of
from resolved_lawns import setting_of
from turfplan.message import as_written
from turfplan.records.constraints import DaySet, Lag, Strength
from turfplan.work import loads
from turfplan.work.campaigns import Session, campaigns
from turfplan.work.drafts import Draft, Load
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


@pytest.mark.full
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


MONDAY = date(2027, 5, 3).toordinal()
ROOMY = replace(SETTING, last_day=MONDAY + 400, first_day=MONDAY)


def cut(session: Session, days: int, room_m3: float | None = None) -> list[tuple[int, int]]:
    """The strips of a pass of so many days and 12 m3 by load, where one heap lasts for four."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(loads, "_strips_of_a_load", lambda *_: 4)
        patch.setattr(loads, "heap_room_m3", lambda *_: room_m3)
        return loads._parts(SETTING, session, days, 12.0)


def test_a_long_pass_is_cut_evenly_into_as_few_loads_as_keep_and_have_room() -> None:
    """Four strips a heap: one load, two of five, three of nine; of 12 m3 in six strips 4.1 m3 are
    two.
    """
    session = session_of(SETTING, 1)
    assert cut(session, 4) == [(1, 4)]
    assert cut(session, 5) == [(1, 2), (3, 5)]
    assert cut(session, 8) == [(1, 4), (5, 8)]
    assert cut(session, 9) == [(1, 3), (4, 6), (7, 9)]
    assert cut(session, 6, 4.1) == [(1, 2), (3, 4), (5, 6)]
    assert cut(session, 6, 6.0) == [(1, 3), (4, 6)]
    assert cut(session, 3, 0.1) == [(1, 1), (2, 2), (3, 3)]
    assert cut(session, 6, 99.0) == [(1, 3), (4, 6)]


def test_passes_share_a_load_while_there_is_room_for_it() -> None:
    """All of their volume together; where nobody said how much, it is enough."""
    session, one_day = session_of(SETTING, 3), dict.fromkeys((1, 2, 3), 1)
    volumes = {1: 1.0, 2: 2.0, 3: 3.0}

    def together(room_m3: float | None) -> list[tuple[int, ...]]:
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(loads, "heap_room_m3", lambda *_: room_m3)
            return _together(SETTING, session, one_day, 1, volumes)

    assert together(None) == together(6.0) == [(1, 2, 3)]
    assert together(5.9) == together(3.0) == [(1, 2), (3,)]
    assert together(2.9) == [(1,), (2,), (3,)]


def drafted(days: dict[int, int]) -> list[Draft]:
    """Passes of so many days by number."""
    return [
        Draft(f"topdress.{n}", "topdress", "level", as_written(""), 1, position=n, duration_days=d)
        for n, d in days.items()
    ]


def loads_found(days: dict[int, int], *sessions: tuple[int, ...], spacing: int = 99) -> list[Load]:
    """The loads of sessions of passes of 12 m3 each; no two passes keep to one heap."""
    layer = session_of(SETTING, 1).passes[0]
    campaign = next(c for c in campaigns(SETTING)[0] if c.sessions)
    made = tuple(
        replace(
            campaign.sessions[0],
            number=number,
            passes=tuple(replace(layer, number=n, session=number) for n in passes),
        )
        for number, passes in enumerate(sessions, 1)
    )
    volumes = dict.fromkeys(days, 12.0)
    apart = dict.fromkeys(range(1, len(sessions) + 1), spacing)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(loads, "_strips_of_a_load", lambda *_: 4)
        patch.setattr(loads, "bagged", lambda _, own: own)
        return list(
            loads.loads_of(SETTING, replace(campaign, sessions=made), volumes, drafted(days), apart)
        )


def told(found: list[Load]) -> list[tuple[int, int, tuple[int, ...], float, object, int]]:
    """Number, session, passes, volume, strips and order of each load."""
    return [
        (load.number, load.session, load.passes, round(load.loose_m3, 2), load.strips, load.order)
        for load in found
    ]


def test_each_load_carries_its_strips_or_passes_and_the_order_of_its_session() -> None:
    """Numbered in order of use; a session's order is the number of its first load."""
    assert told(loads_found({1: 1, 2: 6, 3: 4}, (1, 2), (3,))) == [
        (1, 1, (1,), 12.0, None, 1),
        (2, 1, (2,), 6.0, (1, 3), 1),
        (3, 1, (2,), 6.0, (4, 6), 1),
        (4, 2, (3,), 12.0, None, 4),
    ]
    assert told(loads_found({1: 5}, (1,))) == [
        (1, 1, (1,), 4.8, (1, 2), 1),
        (2, 1, (1,), 7.2, (3, 5), 1),
    ]
    assert told(loads_found({1: 1, 2: 1}, (1, 2), spacing=1)) == [(1, 1, (1, 2), 24.0, None, 1)]


def lags(*strips: tuple[int, int] | None, kept: bool = False) -> list[Lag]:
    """The lags of the loads of one pass of six days."""
    found = drafted({1: 6})
    for number, _ in enumerate(strips, 1):
        for name in ("delivery", *(["dry_material"] if kept else [])):
            operation: Any = name
            found.append(Draft(f"{name}.{number}", operation, "level", as_written(""), 1))
    carried = [Load(n, 1, (1,), 3.0, part, 1) for n, part in enumerate(strips, 1)]
    return loads.load_lags(ROOMY, found, carried)


def test_a_load_of_strips_comes_before_them_and_is_kept_dry_at_once() -> None:
    """One of the first strips before the pass, others while it goes on; a whole one is bound
    elsewhere.
    """
    first, second = lags((1, 3), (4, 6))
    assert (first.id, second.id) == ("load_for_strips:delivery.1", "load_for_strips:delivery.2")
    assert (first.strength, first.alongside, second.alongside) == (Strength.HARD, False, True)
    assert (first.before, first.after) == ("delivery.1", "topdress.1")
    assert lags(None) == [] and loads.load_lags(ROOMY, [], [Load(1, 1, (1,), 3.0, (1, 3), 1)]) == []
    kept, lag = lags((1, 3), kept=True)
    assert (kept.strength, kept.before, kept.after) == (
        Strength.ADVICE,
        "delivery.1",
        "dry_material.1",
    )
    assert kept.maximum is not None and kept.maximum(MONDAY) == MONDAY + 1
    assert kept.minimum is None and lag.id == first.id


def test_a_pass_with_a_machine_keeps_to_the_days_of_machines() -> None:
    """One by hand to all days of its work."""
    days = [replace(draft, heard=heard) for heard in (False, True) for draft in drafted({1: 6})]
    came = Draft("delivery.1", "delivery", "level", as_written(""), 1)
    load = Load(1, 1, (1,), 3.0, (1, 3), 1)
    quiet = replace(
        ROOMY,
        calendar=replace(
            ROOMY.calendar, machines=DaySet.from_days(range(MONDAY + 200, MONDAY + 300))
        ),
    )
    (by_hand,), (heard,) = (loads.load_lags(quiet, [draft, came], [load]) for draft in days)
    assert by_hand.minimum is not None and heard.minimum is not None
    assert by_hand.minimum(MONDAY + 10) < MONDAY + 30 and heard.minimum(MONDAY + 10) == MONDAY + 200


def test_a_session_without_a_day_of_work_has_a_strip_a_load() -> None:
    """So has one that begins before the plan, by the days that are left."""
    session = session_of(SETTING, 1)
    none = replace(SETTING, calendar=replace(SETTING.calendar, machines=DaySet(())))
    assert _strips_of_a_load(none, session) == 1
    last = session.window.end.toordinal()
    late = replace(SETTING, first_day=last + 1)
    assert _strips_of_a_load(late, session) == 1
