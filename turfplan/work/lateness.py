"""How late a day lies in its season, with the error of the climate in mind."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date, timedelta

from turfplan.book.words import operation_name
from turfplan.calendar_days import HALF_A_YEAR
from turfplan.message import Day, Message
from turfplan.phrases import lateness as phrases
from turfplan.records.book_names import OperationName, of_species
from turfplan.records.constraints import Allowed, DaySet, Reason, Strength
from turfplan.records.plan_task import Grade
from turfplan.work.drafts import OpenDays
from turfplan.work.lawn import ResolvedLawn

SOWN = ("seed", "overseed")
# Good days are given up for no preference, and for nothing that is more.
HELD = Strength.ADVICE


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


def held_open_for(setting: ResolvedLawn, window: OpenDays, begun: Iterable[date]) -> OpenDays:
    """A window in which work was `begun` that is not over: open for as long as the climate may be
    off, since half of a pass or of the seed is no place to stop at."""
    error = timedelta(setting.climate.error_days)
    if window.safe_end is not None or not any(
        window.start <= day <= window.end + error for day in begun
    ):
        return window
    return replace(window, end=window.end + error, safe_end=window.end)


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
    if day > _safe_end(window):
        return "last"
    return "late" if day > good_until(setting, window) else "good"


def _safe_end(window: OpenDays) -> date:
    return window.safe_end or window.end


def good_until(setting: ResolvedLawn, window: OpenDays) -> date:
    """The last day of a season that is not late in it."""
    return max(window.best, _safe_end(window) - timedelta(setting.climate.error_days))


def in_time(setting: ResolvedLawn, node: str, window: OpenDays) -> tuple[Allowed, ...]:
    """The good days of a season for a node, then the safe ones."""
    first, reason = window.start.toordinal(), Reason("window.in_time", window.reason, window.facts)
    return tuple(
        Allowed(f"{name}:{node}", node, DaySet.of([(first, end.toordinal())]), HELD, reason)
        for name, end in (
            ("good_days", good_until(setting, window)),
            ("safe_days", _safe_end(window)),
        )
    )


def told(
    setting: ResolvedLawn, window: OpenDays, operation: OperationName, day: date
) -> Message | None:
    """What is lost and what is kept on a late day of an operation; None on a good one."""
    found, safe = grade(setting, window, day), Day(_safe_end(window))
    if found == "good":
        return None
    say = phrases.late if found == "late" else phrases.last
    work = operation_name(setting.book, operation)
    return say(work=work, day=safe, n=setting.climate.error_days)
