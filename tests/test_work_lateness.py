"""How late a day lies in its season, with the error of the climate in mind."""

from dataclasses import replace
from datetime import date, timedelta
from functools import lru_cache
from typing import Any

from planning import brief_of
from resolved_lawns import setting_of
from turfplan.message import as_written
from turfplan.phrases import lateness as phrases
from turfplan.records.constraints import DaySet
from turfplan.work.drafts import OpenDays
from turfplan.work.lateness import (
    dressing_closes_before,
    good_until,
    grade,
    held_open,
    held_open_to_sow,
    in_time,
    told,
    up_before_the_end,
)
from turfplan.work.lawn import ResolvedLawn


@lru_cache(1)
def lawn() -> ResolvedLawn:
    """The plain lawn, from 1 March 2027 on, in a climate that may be off by seven days."""
    setting = setting_of(brief_of())
    return replace(setting, climate=replace(setting.climate, error_days=7))


def window(operation: Any, first: date, last: date, best: date | None = None) -> OpenDays:
    """Open days, best on the first unless another is named."""
    return OpenDays(operation, "autumn", first, last, best or first, as_written(""), as_written(""))


BEGIN = date.fromordinal(lawn().first_day)
AUTUMN = window("overseed", date(2027, 8, 15), date(2027, 9, 30), date(2027, 9, 1))


def opened(*windows: OpenDays, missed: tuple[OpenDays, ...] = (), **changes: Any) -> ResolvedLawn:
    """The lawn with these windows alone."""
    openings = replace(lawn().openings, windows=windows, missed=missed)
    return replace(lawn(), openings=openings, **changes)


def test_a_day_is_good_until_the_climates_error_before_the_last_safe_one() -> None:
    """Never before the best; after the last safe day of what is held open it is the last."""
    setting, end = lawn(), AUTUMN.end
    assert good_until(setting, AUTUMN) == end - timedelta(7)
    days = [end - timedelta(n) for n in (7, 6, 0)] + [end + timedelta(1)]
    assert [grade(setting, AUTUMN, day) for day in days] == ["good", "late", "late", "last"]
    held = replace(AUTUMN, end=end + timedelta(7), safe_end=end)
    assert grade(setting, held, end + timedelta(1)) == "last"
    short = replace(AUTUMN, best=end - timedelta(3))
    assert good_until(setting, short) == end - timedelta(3)
    said = [told(setting, AUTUMN, "overseed", day) for day in days]
    keys = [None if message is None else message.key for message in said]
    late, last = (rule(**dict(said[1].values)).key for rule in (phrases.late, phrases.last))  # type: ignore[union-attr,arg-type]
    assert keys == [None, late, late, last]


def test_good_days_and_safe_days_are_wished_for() -> None:
    """Of a season, the good ones first."""
    held = replace(AUTUMN, end=AUTUMN.end + timedelta(7), safe_end=AUTUMN.end)
    good, safe = in_time(lawn(), "overseed", held)
    first = AUTUMN.start.toordinal()
    assert (good.id, safe.id) == ("good_days:overseed", "safe_days:overseed")
    assert good.days == DaySet.of([(first, AUTUMN.end.toordinal() - 7)])
    assert safe.days == DaySet.of([(first, AUTUMN.end.toordinal())])


def test_windows_that_end_soon_are_held_open_and_missed_ones_may_come_back() -> None:
    """For as long as the climate may be off; of their own operation."""
    soon = lawn().days("campaign.late_within")
    near, far = (window("topdress", BEGIN, BEGIN + timedelta(n)) for n in (soon, soon + 1))
    found = held_open(opened(near, far), [near, far], "topdress")
    assert found == [replace(near, end=near.end + timedelta(7), safe_end=near.end), far]
    over = [window("topdress", BEGIN - timedelta(30), BEGIN - timedelta(n)) for n in (7, 8)]
    back = held_open(opened(missed=tuple(over)), [], "topdress")
    assert back == [replace(over[0], end=BEGIN, safe_end=over[0].end)]
    assert held_open(opened(missed=tuple(over)), [], "overseed") == []


def test_seed_that_waits_for_spring_is_not_held_open() -> None:
    """Nor a cover of one winter, nor where nothing is sown."""
    near = window("overseed", BEGIN, BEGIN + timedelta(3))
    dormant = window("dormant_seed", BEGIN, BEGIN + timedelta(3))
    setting = opened(near, dormant)
    held = replace(near, end=near.end + timedelta(7), safe_end=near.end)
    assert held_open_to_sow(setting, [near, dormant]) == [held, dormant]
    assert held_open_to_sow(setting, [None]) == [None]
    for intent in ("dormant", "winter_overseed"):
        other = replace(setting, sowing=replace(setting.sowing, intent=intent))  # type: ignore[arg-type]
        assert held_open_to_sow(other, [near]) == [near]


def test_dressing_closes_where_less_than_an_interval_is_left_of_it() -> None:
    """In the half year before the seed; days before the plan do not count."""
    least = lawn().pass_interval_days
    sow = window("overseed", date(2027, 8, 15), date(2027, 9, 30))

    def closes(first: date, days: int, **changes: Any) -> bool:
        passes = window("topdress", first, first + timedelta(days))
        return dressing_closes_before(opened(passes, **changes), sow)

    summer = date(2027, 7, 1)
    assert closes(summer, least - 1) and not closes(summer, least)
    begun = (summer + timedelta(5)).toordinal()
    assert closes(summer, least + 4, first_day=begun)
    assert not closes(summer, least + 5, first_day=begun)
    assert not closes(sow.end, least) and closes(sow.end + timedelta(1), least)
    gone = sow.start - timedelta(182 + least)
    whole = gone.toordinal()
    assert closes(gone, least, first_day=whole)
    assert not closes(gone + timedelta(1), least, first_day=whole)
    assert dressing_closes_before(opened(), sow)


def test_seed_is_up_before_an_end_that_the_owner_gave() -> None:
    """By the slowest of its days; a window that begins too late for it falls away."""
    slow = round(lawn().book.fact("species.tall_fescue.germination_days").high_si)
    end = AUTUMN.end - timedelta(5)
    given = replace(lawn(), kept_end=None, last_day=end.toordinal() + slow)
    assert up_before_the_end(given, [AUTUMN]) == [replace(AUTUMN, end=end)]
    early = replace(given, last_day=AUTUMN.best.toordinal() - 3 + slow)
    last = AUTUMN.best - timedelta(3)
    assert up_before_the_end(early, [AUTUMN]) == [replace(AUTUMN, end=last, best=last)]
    for days, kept in ((0, 1), (-1, 0)):
        limit = AUTUMN.start.toordinal() + days + slow
        assert len(up_before_the_end(replace(given, last_day=limit), [AUTUMN])) == kept
    assert up_before_the_end(replace(given, kept_end=9), [AUTUMN]) == [AUTUMN]
    planted = replace(given, sowing=replace(given.sowing, operation="plant"))
    assert up_before_the_end(planted, [AUTUMN]) == [AUTUMN]


def test_a_window_that_lies_ahead_is_as_it_is() -> None:
    """It ends beyond the days that are soon."""
    ahead = window("topdress", date(2027, 8, 1), date(2027, 9, 1))
    assert held_open(opened(ahead), [ahead], "topdress") == [ahead]
