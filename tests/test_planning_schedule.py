"""Drafts become a network and days become wishes."""

from dataclasses import replace
from datetime import UTC, date, datetime
from typing import Any

import pytest

from planning import brief_of, first, kind, plan_of
from test_planning_random import setting_of
from turfplan.network import Conflict
from turfplan.planning.schedule import anchored_wishes, date_season, problem_of, repair_season
from turfplan.records.constraints import Allowed, DaySet, DayStep, Lag, Reason, Strength
from turfplan.work.drafts import Draft, SeasonDraft

SETTING = setting_of(brief_of())
FIRST = SETTING.first_day
WHY = Reason("test", "A reason.")


def draft(name: str, priority: int = 2, **more: object) -> Draft:
    """A job of the season."""
    return Draft(name, "topdress", "level", "", priority, **more)  # type: ignore[arg-type]


def season(*drafts: Draft, constraints: tuple[object, ...] = ()) -> SeasonDraft:
    """Jobs and what binds them."""
    return SeasonDraft(drafts, constraints)  # type: ignore[arg-type]


LONG = draft("pass", ideal=FIRST + 20, duration_days=3)
SPAN = Lag("span", "pass", "pass@end", Strength.HARD, WHY, DayStep(2), DayStep(2))


def test_a_job_of_days_has_two_nodes() -> None:
    """Its first day carries the wish, its last none; a wish from outside goes before its own."""
    problem = problem_of(SETTING, season(LONG, draft("mow", 3, ideal=FIRST + 5)))
    assert [(n.id, n.priority, n.ideal) for n in problem.nodes] == [
        ("pass", 2, FIRST + 20),
        ("pass@end", 2, None),
        ("mow", 3, FIRST + 5),
    ]
    assert (problem.first_day, problem.last_day) == (SETTING.first_day, SETTING.last_day)
    assert problem_of(SETTING, season(LONG), {"pass": FIRST + 9}).nodes[0].ideal == FIRST + 9


def test_wishes_hang_on_their_anchors() -> None:
    """After an anchor from its last day, before it from its first; where the anchor is a small job,
    from its own wish.
    """
    drafts = [
        draft("look", 3, anchor="mow", offset=4),
        draft("mow", 3, anchor="pass", offset=5),
        draft("mark", 3, anchor="pass", offset=-7),
        replace(LONG, ideal=None),
        draft("lone", 3, anchor="nothing here", offset=5),
    ]
    days = {
        "pass": FIRST + 20,
        "pass@end": FIRST + 22,
        "look": 0,
        "mow": 0,
        "mark": 0,
        "lone": FIRST + 3,
    }
    assert anchored_wishes(drafts, days) == {
        "pass": FIRST + 20,
        "mow": FIRST + 27,
        "look": FIRST + 31,
        "mark": FIRST + 13,
        "lone": FIRST + 3,
    }
    assert anchored_wishes([LONG], {"pass": FIRST + 1})["pass"] == FIRST + 20


def test_a_season_is_dated_by_its_wishes() -> None:
    """Three days of work on their day; a look five days after the last."""
    found = date_season(
        SETTING, season(LONG, draft("look", 3, anchor="pass", offset=5), constraints=(SPAN,))
    )
    assert not isinstance(found, Conflict)
    assert (found.day("pass"), found.day("pass@end"), found.day("look")) == (
        FIRST + 20,
        FIRST + 22,
        FIRST + 27,
    )
    assert found.dropped == ()


def closed(strength: Strength) -> Allowed:
    """Ten days from the tenth on which the pass may begin."""
    return Allowed("open", "pass", DaySet.of([(FIRST + 10, FIRST + 19)]), strength, WHY)


def test_what_cannot_hold_is_given_up_or_is_a_conflict() -> None:
    """Two stretches of days that do not meet: the weaker is dropped; both hard, or kept, are a
    conflict.
    """
    other = Allowed("other", "pass", DaySet.of([(FIRST + 30, FIRST + 40)]), Strength.HARD, WHY)
    soft = date_season(SETTING, season(LONG, constraints=(SPAN, closed(Strength.ADVICE), other)))
    assert not isinstance(soft, Conflict)
    assert [c.id for c in soft.dropped] == ["open"] and soft.day("pass") == FIRST + 30
    assert isinstance(
        date_season(SETTING, season(LONG, constraints=(SPAN, closed(Strength.HARD), other))),
        Conflict,
    )
    kept = season(LONG, constraints=(SPAN, closed(Strength.STRONG), other))
    assert isinstance(date_season(SETTING, kept, keep=Strength.STRONG), Conflict)


def test_a_repair_moves_as_little_as_it_must() -> None:
    """Published on the 25th it stays there though its wish is the 20th; fixed on the 28th it is
    there, and its end follows.
    """
    drafts = season(LONG, draft("look", 3, anchor="pass", offset=5), constraints=(SPAN,))
    stays = repair_season(
        SETTING, drafts, {"pass": FIRST + 25, "pass@end": FIRST + 27, "gone": FIRST}, {}
    )
    assert not isinstance(stays, Conflict)
    assert (stays.day("pass"), stays.day("look")) == (FIRST + 25, FIRST + 30)
    assert stays.repaired is not None and not stays.repaired.moved
    held = repair_season(SETTING, drafts, {"pass": FIRST + 25}, {"pass": FIRST + 28, "gone": FIRST})
    assert not isinstance(held, Conflict) and (held.day("pass"), held.day("pass@end")) == (
        FIRST + 28,
        FIRST + 30,
    )


COLUMBUS: dict[str, Any] = {
    "lawn": {"grass": "kentucky_bluegrass", "area": "6000 ft2", "condition": "thin"},
    "place": {"postal_code": "43214"},
    "leveling": None,
    "seeding": {"intent": "patch"},
    "season": None,
}


@pytest.mark.full
def test_a_preference_falls_before_a_day_later_than_good() -> None:
    """A soil sample that nobody took in time is no reason to sow a week after the last safe day."""
    plan = plan_of(COLUMBUS, now=datetime(2027, 9, 5, 16, tzinfo=UTC))
    sown = first(plan, "overseed")
    assert sown.grade == "good" and sown.start <= date(2027, 9, 19)
    assert kind(plan, "soil_test")


@pytest.mark.full
def test_a_late_day_is_told_on_the_screen_and_never_as_the_best_time() -> None:
    """Seed on the last day says so first, and its own words call it no good time."""
    plan = plan_of(
        {"leveling": None, "season": None, "place": {"postal_code": "43214"}},
        now=datetime(2027, 9, 15, 16, tzinfo=UTC),
    )
    sown = first(plan, "overseed")
    assert sown.grade == "last" and "best time" not in str(sown.why)
    told = [note for note in plan.ranked if note.told_first]
    assert [note.tasks for note in told] == [("overseed",)] and "last chance" in str(told[0].text)


@pytest.mark.full
def test_slow_grass_is_not_sown_on_the_last_day_for_its_pass() -> None:
    """Halifax: passes close on 18 September; bluegrass goes in in the earlier half, with days left
    to fall back on."""
    halifax = {
        "lawn": {"grass": "kentucky_bluegrass", "area": "4000 ft2", "soil": "sandy loam"},
        "place": {"postal_code": None, "country": "CA", "latitude": 44.65, "longitude": -63.6},
        "leveling": {"depth": "0.25 in"},
        "site": {"thin_cause": ["unknown", "moss"], "shade_hours": 6},
        "season": None,
    }
    sown = first(plan_of(halifax, options=False), "overseed")
    assert sown.grade == "good" and sown.start <= date(2027, 9, 11)
    assert sown.fallback_day is not None
