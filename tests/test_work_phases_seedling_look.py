"""The day on which seedlings are looked at, and what is said of bare spots then."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from test_work_campaigns import days_of, opened, plain
from turfplan.message import Day, Days, Number, as_written
from turfplan.phrases import looks as phrases
from turfplan.records.constraints import DaySet
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import OpenDays
from turfplan.work.emergence import Emergence
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.operations import CARE, Timing
from turfplan.work.phases import seedling_look as module
from turfplan.work.phases.seedling_look import (
    LookDays,
    _half_up,
    _sowable,
    _sown_on,
    bare_spots,
    look_days,
    look_for_seedlings,
    told_of_bare_spots,
)

SOWN = date(2027, 9, 1)
RESERVE = Number(0.1, "percent")


def up(first: int, last: int) -> Emergence:
    """Seed of which the first is up on one day and the last on another."""
    return Emergence(0, first, last, 30, 33, 40, 50, 55, 60, 70)


def way(sow: OpenDays | None) -> Campaign:
    """A campaign that sows in a window."""
    return Campaign("autumn", as_written(""), (), (), sow, 0.0)


def autumn(last_safe: int | None, end: int = 60, operation: str = "overseed") -> OpenDays:
    """From September on, best on its first day; safe for so many days after it."""
    safe = None if last_safe is None else SOWN + timedelta(last_safe)
    return days_of(operation, SOWN - timedelta(20), SOWN + timedelta(end), SOWN, safe_end=safe)


def looked(
    monkeypatch: pytest.MonkeyPatch,
    sow: OpenDays,
    emergence: Emergence | None,
    works: Sequence[int] = range(-30, 500),
    *more: OpenDays,
) -> LookDays | None:
    """The days of the look where one works on these days after the first of September."""
    days = DaySet.from_days([SOWN.toordinal() + day for day in works])
    monkeypatch.setattr(module, "emergence", lambda setting, campaign: emergence)
    monkeypatch.setattr(module, "days_for", lambda setting, operation: days)
    return look_days(opened(*more), way(sow))


def pressed(wished: int, least: int = 7) -> LookDays:
    """A look that is wished on the last day of work on which bare spots can be sown."""
    return LookDays(least, wished, SOWN.toordinal() + wished)


def test_half_is_up_between_the_first_and_the_last() -> None:
    """Rounded up: of days 7 and 20 on the 14th, of 7 and 21 on the 14th."""
    assert (_half_up(up(7, 20)), _half_up(up(7, 21)), _half_up(up(6, 9))) == (14, 14, 8)


def test_the_look_comes_two_days_after_the_last_of_the_seed(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Where bare spots can still be sown on that day, the 23rd after sowing, not on the 22nd."""
    usual = LookDays(21, 23)
    assert looked(monkeypatch, autumn(23), up(7, 21)) == usual
    assert looked(monkeypatch, autumn(22), up(7, 21)) == pressed(22)
    assert looked(monkeypatch, autumn(None, 22), up(7, 21)) == pressed(22)
    assert looked(monkeypatch, autumn(None, 23), up(7, 21)) == usual


def test_the_look_is_not_brought_forward_before_the_first_is_up(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """On the 7th day strips without any stand out beside it; a day earlier nothing is seen."""
    assert looked(monkeypatch, autumn(14), up(7, 21)) == pressed(14)
    assert looked(monkeypatch, autumn(7), up(7, 21)) == pressed(7)
    assert looked(monkeypatch, autumn(6), up(7, 21)) == LookDays(21, 23)


def test_the_look_keeps_to_days_of_work(monkeypatch: pytest.MonkeyPatch) -> None:
    """The last of them that is safe; the usual one is looked at on the next of them."""
    weekly = range(-28, 500, 7)
    assert looked(monkeypatch, autumn(27), up(7, 21), weekly) == pressed(21)
    assert looked(monkeypatch, autumn(28), up(7, 21), weekly) == LookDays(21, 23)
    assert looked(monkeypatch, autumn(17), up(8, 22), weekly) == pressed(14, 8)
    assert looked(monkeypatch, autumn(20), up(7, 21), (0, 18)) == pressed(18)


def test_no_look_without_seed(monkeypatch: pytest.MonkeyPatch) -> None:
    """Neither without emergence nor without a window."""
    assert looked(monkeypatch, autumn(30), None) is None
    monkeypatch.setattr(module, "emergence", lambda setting, campaign: up(7, 21))
    assert look_days(plain(), way(None)) is None


def test_seed_that_waits_is_mended_in_a_window_of_spring(monkeypatch: pytest.MonkeyPatch) -> None:
    """Not in its own; a window that has not begun when half is up does not help."""
    winter = autumn(300, 300, "dormant_seed")
    begins = days_of("overseed", SOWN + timedelta(14), SOWN + timedelta(20))
    assert looked(monkeypatch, winter, up(7, 21), range(500), begins) == pressed(20)
    later = days_of("overseed", SOWN + timedelta(15), SOWN + timedelta(20))
    assert looked(monkeypatch, winter, up(7, 21), range(500), later) == LookDays(21, 23)


def test_seed_is_reckoned_from_the_day_of_work_nearest_to_the_best() -> None:
    """The earlier of two as near; the best itself where there is none."""
    setting = plain()

    def on(*days: int) -> int:
        work = DaySet.from_days([SOWN.toordinal() + day for day in days])
        calendar = replace(
            setting.calendar, **dict.fromkeys(("work", "machines", "household"), work)
        )
        return _sown_on(replace(setting, calendar=calendar), autumn(30)) - SOWN.toordinal()

    assert (on(-3, 2), on(-2, 3), on(-2, 2), on(0, 1)) == (2, -2, -2, 0)
    assert (on(5), on(-5), on()) == (5, -5, 0)


def sowable(setting: ResolvedLawn, sow: OpenDays) -> list[tuple[str, int]]:
    """Operation and year of each window in which bare spots can be sown."""
    return [(w.operation, w.start.year) for w in _sowable(setting, sow)]


def test_bare_spots_are_sown_in_the_same_window_or_in_later_ones_of_its_operation() -> None:
    """Those after its best day; dormant seed is mended by seed, on open ground, else overseed."""
    again = [
        days_of(operation, date(year, 4, 1), date(year, 5, 31))
        for operation in ("overseed", "seed")
        for year in (2027, 2028)
    ]
    setting = opened(*again, days_of("overseed", SOWN, SOWN + timedelta(9)))
    assert sowable(setting, autumn(30)) == [("overseed", 2027), ("overseed", 2028)]
    assert sowable(setting, autumn(30, 60, "dormant_seed")) == [("overseed", 2028)]
    bare = replace(setting, turf=replace(setting.turf, condition="bare"))
    assert sowable(bare, autumn(30, 60, "dormant_seed")) == [("seed", 2028)]


def test_bare_spots_are_sown_at_once_until_the_last_safe_day() -> None:
    """With a tenth held back; the last day of all windows that are open is told."""
    setting, day = opened(), SOWN + timedelta(30)
    assert bare_spots(setting, way(autumn(30)), day) == phrases.seedlings_bare_spots(
        reserve=RESERVE, last_safe=Day(day)
    )
    next_season = phrases.seedlings_next_season(reserve=RESERVE)
    assert bare_spots(setting, way(autumn(29)), day) == next_season
    early = SOWN - timedelta(21)
    assert bare_spots(setting, way(None), day) == next_season
    before = bare_spots(setting, way(autumn(30)), early)
    days = Days(SOWN - timedelta(20), SOWN + timedelta(60), weekday=False)
    assert before == phrases.seedlings_too_late(reserve=RESERVE, days=days)
    on_first = bare_spots(setting, way(autumn(30)), SOWN - timedelta(20))
    assert on_first == phrases.seedlings_bare_spots(reserve=RESERVE, last_safe=Day(day))
    other = opened(days_of("overseed", SOWN + timedelta(1), SOWN + timedelta(50)))
    longer = phrases.seedlings_bare_spots(reserve=RESERVE, last_safe=Day(SOWN + timedelta(50)))
    assert bare_spots(other, way(autumn(30)), day) == longer


def test_bare_spots_on_rain_alone_are_sown_when_it_rains() -> None:
    """Where nobody waters."""
    setting = opened()
    water = setting.brief.water.model_copy(update={"possible": False})
    dry = replace(setting, brief=setting.brief.model_copy(update={"water": water}))
    safe = Day(SOWN + timedelta(30))
    assert bare_spots(dry, way(autumn(30)), SOWN) == phrases.seedlings_bare_spots_on_rain(
        reserve=RESERVE, last_safe=safe
    )


def test_bare_spots_seen_too_late_wait_for_the_first_of_the_next_windows() -> None:
    """Told with its days."""
    springs = [days_of("overseed", date(y, 4, 1), date(y, 5, 20)) for y in (2029, 2028)]
    told = bare_spots(opened(*springs), way(autumn(30)), SOWN + timedelta(31))
    days = Days(date(2028, 4, 1), date(2028, 5, 20), weekday=False)
    assert told == phrases.seedlings_too_late(reserve=RESERVE, days=days)
    on_first = bare_spots(opened(*springs), way(autumn(30)), date(2028, 4, 1))
    assert on_first.key == phrases.seedlings_bare_spots(reserve=RESERVE, last_safe=Day(SOWN)).key


def test_the_look_says_when_its_grass_comes_up() -> None:
    """Tall fescue in 7 to 21 days."""
    draft: Any = look_for_seedlings(plain(), Timing(CARE), None)
    assert draft.id == "inspect.germination" and draft.why == phrases.seedlings()
    assert draft.shows is None
    pressing: Any = look_for_seedlings(plain(), Timing(CARE), plain().first_day + 30)
    assert pressing.shows.days.ranges == ((plain().first_day, plain().first_day + 30),)
    values = dict(draft.how[0].values)
    assert (values["least"], values["most"]) == (Number(7), Number(21))
    assert draft.how[1] == phrases.seedlings_washed() and draft.go == phrases.seedlings_go()
    assert draft.facts == ("species.tall_fescue.germination_days", "seeding.reserve")


@pytest.mark.parametrize(("looked_on", "early"), [(13, True), (14, False)])
def test_a_look_before_half_is_up_tells_what_shows_then(
    monkeypatch: pytest.MonkeyPatch, looked_on: int, *, early: bool
) -> None:
    """What was washed or dried out, while it can be sown; not where it is too late for that."""
    monkeypatch.setattr(module, "emergence", lambda setting, campaign: up(7, 21))
    setting, day = opened(), SOWN + timedelta(looked_on)
    told = told_of_bare_spots(setting, way(autumn(30)), day, SOWN)
    assert (phrases.seedlings_early() in told) is early
    assert phrases.seedlings_early() not in told_of_bare_spots(setting, way(autumn(5)), day, SOWN)
    assert len(told_of_bare_spots(setting, way(autumn(30)), day, None)) == 1
