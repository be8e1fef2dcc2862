"""Lays the windows of every operation on the years of a plan."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from turfplan.climate.real_years import RealYear
from turfplan.rules.draft import OpenDays
from turfplan.rules.real_years import record_of
from turfplan.rules.setting import Setting
from turfplan.rules.windows import Settings, windows_of_years

# A window that ended this lately is told of: the owner may be waiting for it.
JUST_MISSED_DAYS = 150


def with_windows(setting: Setting, real_years: Sequence[RealYear] = ()) -> Setting:
    """The setting with the windows of its grass over every year the plan touches, and what real years say of them."""
    first, last = date.fromordinal(setting.first_day), date.fromordinal(setting.last_day)
    found: list[OpenDays] = []
    over: list[OpenDays] = []
    local = setting.brief.local
    policy = Settings(late_nitrogen=local.late_nitrogen, spring_aeration=local.spring_aeration)
    years = range(first.year - 1, last.year + 1)
    result = windows_of_years(setting.climate, setting.book, setting.stand, years, policy)
    for window in result.windows:
        if window.start > last:
            continue
        open_days = OpenDays(
            window.operation, window.season, window.start, window.end, window.best, window.reason, window.source, window.rule,
            window.facts,
        )  # fmt: skip
        (found if window.end >= first else over).append(open_days)
    closed = [f"{c.operation}: {c.reason}" for c in result.closed]
    return replace(
        setting,
        windows=tuple(sorted(found, key=lambda w: (w.start, w.operation))),
        closed=tuple(dict.fromkeys(closed)),
        record=record_of(real_years, setting.book, setting.stand, policy),
        missed=tuple(w for w in over if (first - w.end).days <= JUST_MISSED_DAYS),
    )
