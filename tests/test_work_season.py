"""The tasks of a season as they are drafted, and which of them share a day."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from planning import brief_of
from resolved_lawns import lawn, setting_of
from turfplan.message import as_written
from turfplan.planning.candidates import draft_campaign
from turfplan.planning.feeding import feeder_for
from turfplan.records.book_names import OperationName
from turfplan.records.constraints import DayStep, Lag, Reason
from turfplan.work.campaigns import Campaign, Session, campaigns
from turfplan.work.days_off import days_for
from turfplan.work.drafts import Draft, OpenDays
from turfplan.work.emergence import emergence
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.operations import SURFACE, Timing, Wording, make
from turfplan.work.passes import low_floor
from turfplan.work.season import (
    _chain,
    _full_days,
    _held_to_seed,
    _low_cuts,
    _mown_before,
    _together,
    computed_numbers,
    season_flags,
    with_a_day,
)


def drafted(
    *changes: dict[str, Any], campaign: str | None = None, permit: bool = False
) -> tuple[ResolvedLawn, Campaign, dict[str, Draft]]:
    """A lawn, the first of its campaigns (or the one of that id), and its tasks by id."""
    setting = setting_of(brief_of(*changes))
    chosen = next(c for c in campaigns(setting)[0] if campaign in (None, c.id))
    found = draft_campaign(setting, chosen, feeder_for(setting), permit=permit)
    return setting, chosen, {draft.id: draft for draft in found.season.drafts}


def job(setting: ResolvedLawn, operation: OperationName, share: float) -> Draft:
    """A job of the first session that takes a share of a working day."""
    timing = Timing(SURFACE, session=1)
    draft = make(setting, operation, "1", timing=timing, wording=Wording(as_written("to test")))
    hours = share * setting.labour.people * setting.labour.hours_per_day
    return replace(draft, person_hours=hours, duration_days=max(1, -int(-share // 1)))


def window(operation: Any = "overseed", season: str = "autumn") -> OpenDays:
    """The first days of September, best on the fifth."""
    days = date(2027, 9, 1), date(2027, 9, 20), date(2027, 9, 5)
    return OpenDays(operation, season, *days, as_written(""), as_written(""))


def way(sow: OpenDays | None = None, *, sessions: int = 1, on_pass: bool = False) -> Campaign:
    """A campaign of some sessions, of which the last goes with the seed or not."""
    made = tuple(
        Session(n, window("topdress"), (), on_pass and n == sessions)
        for n in range(1, sessions + 1)
    )
    return Campaign("autumn", as_written(""), (), made, sow, 0.0)


def test_the_words_of_a_season_are_those_that_hold() -> None:
    """Of the lawn, of the campaign, and of when its seed goes in."""
    turf = season_flags(lawn(), way(window(), on_pass=True))
    assert turf == {"living_turf", "sow_on_pass", "grows_on", "sown_in_autumn"} | (
        turf & {"uncovered"}
    )
    assert "no_passes" in season_flags(lawn(), way(window(), sessions=0))
    assert "sown_in_autumn" not in season_flags(lawn(), way(window(season="spring")))
    assert "sown_in_autumn" in season_flags(lawn(), way(window(season="summer")))
    assert "sown_in_autumn" not in season_flags(lawn(), way())
    bare = season_flags(
        lawn({"lawn": {"condition": "bare"}, "seeding": {"intent": "renovate"}}), way()
    )
    assert "open_ground" in bare and "living_turf" not in bare
    waits = season_flags(lawn(), way(window("dormant_seed", "winter")))
    assert "waits_for_spring" in waits and "grows_on" not in waits
    second = replace(lawn(), sowing=replace(lawn().sowing, intent="winter_overseed"))
    assert "second_grass" in season_flags(second, way()) and "second_grass" not in turf


def test_numbers_of_the_order_follow_from_the_lawn() -> None:
    """With a look at germination so many days long, and a starter as late as may be."""
    setting, campaign = lawn(), way(window(), on_pass=True)
    numbers, book = computed_numbers(setting, campaign), setting.book
    assert numbers["setting.lead_days"] == setting.labour.lead_days
    assert numbers["setting.pass_interval_least"] == setting.pass_interval_days
    up = emergence(setting, campaign)
    assert up is not None
    look = up.last + book.si("setting.germination_look_days")
    assert numbers["setting.germination_look_most"] == look
    week = 7  # with a day of work in it
    assert numbers["setting.waking_most"] == up.wakes + week + book.si("order.starter_most")
    assert "setting.first_mow_least" not in computed_numbers(setting, way())


def draft(name: str, operation: Any = "topdress", **more: Any) -> Draft:
    """A job of the first session."""
    given: dict[str, Any] = {"session": 1, **more}
    return Draft(name, operation, "level", as_written(""), 1, **given)


def test_what_is_only_wished_for_is_left_out_where_its_window_has_no_day_of_work() -> None:
    """Told; what must be done stays."""
    setting = lawn()
    optional = next(n for n, o in setting.book.operations.items() if o.optional)
    must = next(n for n, o in setting.book.operations.items() if not o.optional)
    work = days_for(setting, optional).days()
    free = next(d for d in range(work[0], work[0] + 9) if d not in work)

    def kept(name: str, *span: int) -> tuple[int, int]:
        found, notes = with_a_day(setting, [draft("a", name, window=span)])
        return len(found), len(notes)

    assert kept(optional, free, free) == (0, 1)
    assert kept(optional, work[0], work[0]) == (1, 0)
    later = next(d for d in work if d > free)
    assert kept(optional, free, later) == (1, 0) and kept(optional, free, later - 1) == (0, 1)
    assert kept(must, free, free) == (1, 0)


def test_anchors_become_tasks_that_exist() -> None:
    """The sowing by what it is; a task holds to none that is not there, nor to itself."""
    jobs = [
        draft("overseed", "overseed", anchor="sowing"),
        draft("roll", "roll", anchor="sowing"),
        draft("look", "inspect", anchor="gone"),
        draft("feed", "starter_feed", anchor="roll"),
    ]
    assert [d.anchor for d in _held_to_seed(jobs)] == [None, "overseed", None, "roll"]
    assert [d.anchor for d in _held_to_seed(jobs[1:2])] == [None]


def test_what_is_spread_is_worked_in_and_seed_is_covered_on_its_days() -> None:
    """The roller before the cover; strips are bound elsewhere."""
    jobs = [
        draft("topdress.2", position=2),
        draft("incorporate.2", "incorporate", position=2),
        draft("overseed", "overseed", duration_days=2),
        draft("roll", "roll", beside="overseed", duration_days=2),
        draft("cover", "cover", beside="overseed", duration_days=2),
        draft("incorporate.3", "incorporate", position=3),
    ]
    lags = _together(lawn(), jobs)
    most = lawn().days("order.cover_most")
    assert [(lag.id, lag.before, lag.after) for lag in lags] == [
        ("same_day:incorporate.2", "topdress.2", "incorporate.2"),
        ("same_day:roll", "overseed", "roll"),
        ("same_day:roll@end", "overseed@end", "roll@end"),
        ("same_day:cover", "overseed", "cover"),
        ("same_day:cover@end", "overseed@end", "cover@end"),
        ("in_turn:cover", "roll", "cover"),
    ]

    def bounds(lag: Lag) -> tuple[int | None, int | None]:
        return tuple(None if s is None else s(100) - 100 for s in (lag.minimum, lag.maximum))  # type: ignore[return-value]

    assert [bounds(lag) for lag in lags] == [(0, 0), *[(0, most)] * 4, (0, None)]
    one_day = [replace(job, duration_days=1) for job in jobs[2:4]]
    assert [lag.id for lag in _together(lawn(), one_day)] == ["same_day:roll"]
    assert _together(lawn(), [replace(job, strips=("a", "b")) for job in jobs]) == []


def test_the_mowing_before_a_pass_is_done_the_day_before_where_both_do_not_fit() -> None:
    """With what is worked in beside it; of a pass of one day that is not done by strips."""
    setting = lawn()
    day = setting.labour.day_hours

    def bound(mow: float, spread: float, beside: float = 0.0, **more: Any) -> int:
        jobs = [
            draft("mow.1", "mow", person_hours=mow * day),
            draft("topdress.1", person_hours=spread * day, **more),
        ]
        names = {"topdress.1": beside * day}
        return len(_mown_before(jobs, names, day, Reason("x", as_written("")), DayStep(1)))

    assert [bound(0.25, 0.75), bound(0.25, 0.76), bound(0.25, 0.5, 0.26)] == [0, 1, 1]
    assert bound(0.25, 0.76, duration_days=2) == bound(0.25, 0.76, strips=("a", "b")) == 0
    assert bound(0.25, 0.76, position=2) == 0


def test_heavy_jobs_stand_in_their_turn_and_of_the_low_cuts_the_last() -> None:
    """Those that share the days of another are none of them."""
    jobs = [
        draft("topdress.1"),
        draft("mow_low.1", "mow_low", position=1),
        draft("mow_low.2", "mow_low", position=2),
        draft("core_aerate.1", "core_aerate"),
        draft("roll", "roll", beside="topdress.1"),
    ]
    assert [d.id for d in _chain(lawn(), jobs)] == ["mow_low.2", "core_aerate.1", "topdress.1"]


def test_turf_is_cut_low_before_a_pass_or_seed_on_it() -> None:
    """Not on ground without grass, nor where neither comes, nor for seed that is sown apart."""
    setting = lawn()
    assert _low_cuts(setting, way(window(), on_pass=True)) != ()
    assert _low_cuts(setting, way(window(), sessions=0)) != ()
    assert _low_cuts(lawn({"seeding": {"intent": "renovate"}}), way(window())) == ()
    unsown = lawn({"seeding": {"intent": "none"}})
    assert _low_cuts(unsown, way(sessions=0)) == () and _low_cuts(unsown, way()) != ()
    assert _low_cuts(setting, way(window("dormant_seed"), sessions=0)) == ()
    floors = [low_floor(setting, seeded)[0] for seeded in (True, False)]
    if floors[0] != floors[1]:
        assert _low_cuts(setting, way(window(), on_pass=True))[-1] == floors[0]
        assert _low_cuts(setting, way(window(), sessions=2, on_pass=True))[-1] == floors[1]


@pytest.mark.full
@pytest.mark.parametrize(
    ("shares", "next_days"),
    [
        ((0.3, 0.3, 0.3), []),
        ((0.4, 0.4, 0.4), [("core_aerate.1", "topdress.1")]),
        ((0.5, 0.5, 0.5), [("core_aerate.1", "topdress.1")]),
        ((0.6, 0.5, 0.5), [("mow_low.1", "core_aerate.1")]),
        ((1.0, 0.1, 0.1), [("mow_low.1", "core_aerate.1")]),
        ((0.2, 0.2, 1.5), [("core_aerate.1", "topdress.1")]),
        ((1.5, 0.4, 0.2), [("core_aerate.1", "topdress.1")]),
        ((0.7, 0.7, 0.7), [("mow_low.1", "core_aerate.1"), ("core_aerate.1", "topdress.1")]),
    ],
)
def test_jobs_share_a_day_while_its_hours_last(
    shares: tuple[float, float, float], next_days: list[tuple[str, str]]
) -> None:
    """The low cut, the cores and the pass, each with its share of a day: what no longer fits waits
    for the next working day, a job of several days begins its own and shares its last.
    """
    setting = setting_of(brief_of())
    names: tuple[OperationName, ...] = ("mow_low", "core_aerate", "topdress")
    jobs = [job(setting, name, share) for name, share in zip(names, shares, strict=True)]
    lags = _full_days(setting, jobs)
    assert [tuple(lag.id.removeprefix("day_full:").split(">")) for lag in lags] == next_days
    for lag in lags:
        assert lag.minimum is not None
        day = setting.first_day + 30
        assert lag.minimum(day) == min(d for d in setting.calendar.work.days() if d > day)
