"""How late a day lies in its season, with the error of the climate in mind."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date, timedelta

from turfplan.calendar_days import HALF_A_YEAR
from turfplan.message import Day, Message
from turfplan.phrases import lateness as phrases
from turfplan.records.book_names import of_species
from turfplan.records.plan_task import Grade
from turfplan.work.drafts import OpenDays
from turfplan.work.lawn import ResolvedLawn

SOWN = ("seed", "overseed")


def held_open(setting: ResolvedLawn, windows: Iterable[OpenDays], operation: str) -> list[OpenDays]:
    """Windows of an operation; those that end soon are open for as long as the climate may be off.

    Those that ended just before the plan come back where that brings them within it.
    """
    soon = setting.first_day + setting.days("campaign.late_within")
    error = timedelta(setting.climate.error_days)
    known = (*setting.openings.missed, *setting.open(operation))
    over = [w for w in known if w.operation == operation and w.end.toordinal() < setting.first_day]
    held: list[OpenDays] = []
    for window in (*over, *windows):
        if window.end.toordinal() <= soon:
            window = replace(window, end=window.end + error, safe_end=window.end)
        if window.end.toordinal() >= setting.first_day:
            held.append(window)
    return held


def held_open_to_sow(
    setting: ResolvedLawn, sows: Sequence[OpenDays | None]
) -> list[OpenDays | None]:
    """The windows to sow in, held open; dormant seed and winter ryegrass are not late in that
    sense."""
    plain = setting.sowing.intent in ("dormant", "winter_overseed") or None in sows
    operation = setting.sowing.operation
    if plain or operation is None:
        return list(sows)
    windows = [w for w in sows if w is not None and w.operation == operation]
    others = [w for w in sows if w not in windows]
    return [*held_open(setting, windows, operation), *others]


def dressing_closes_before(setting: ResolvedLawn, sow: OpenDays) -> bool:
    """Whether a season to sow in has no days left for a pass and what follows it."""
    left = [
        w.end.toordinal() - max(w.start.toordinal(), setting.first_day)
        for w in setting.open("topdress")
        if w.start <= sow.end and (sow.start - w.end).days < HALF_A_YEAR
    ]
    return max(left, default=-1) < setting.pass_interval_days


def up_before_the_end(setting: ResolvedLawn, windows: Iterable[OpenDays]) -> list[OpenDays]:
    """Windows to sow in, as far as seed comes up before an end that the owner gave.

    Its first mowing may be left to whoever comes after.
    """
    days = setting.book.get(of_species(setting.sowing.grass.id, "germination_days"))
    known = list(windows)
    if setting.kept_end is not None or days is None or setting.sowing.operation not in SOWN:
        return known
    last = date.fromordinal(setting.last_day - round(days.high_si))
    return [
        replace(w, end=min(w.end, last), best=min(w.best, last)) for w in known if w.start <= last
    ]


def grade(setting: ResolvedLawn, window: OpenDays, day: date) -> Grade:
    """Good, late (the climate may be off by what is left), or last (the safe days are over)."""
    safe = window.safe_end or window.end
    if day > safe:
        return "last"
    late_from = max(window.best, safe - timedelta(setting.climate.error_days))
    return "late" if day > late_from else "good"


def told(setting: ResolvedLawn, window: OpenDays, day: date) -> Message | None:
    """What is lost and what is kept on a late day; None on a good one."""
    found, safe = grade(setting, window, day), Day(window.safe_end or window.end)
    if found == "good":
        return None
    say = phrases.late if found == "late" else phrases.last
    return say(day=safe, n=setting.climate.error_days)
