"""On which days a season's nitrogen can be given, and how it is shared out among them."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from itertools import pairwise
from typing import Protocol

from turfplan.agronomy import Book
from turfplan.brief import Brief
from turfplan.climate.record import Climate
from turfplan.rules.blackouts import Blackout, free_days
from turfplan.units import System, read_as

SOWINGS = ("seed", "overseed", "dormant_seed", "plant")
MONTH = 30
RESTING = 0.05  # weight of a day on which grass hardly grows, so that shares stay defined

Skips = list[tuple[str, str]]


class OpenWindow(Protocol):
    """Days on which an operation is open."""

    @property
    def operation(self) -> str:
        """The operation that is open."""
        ...

    @property
    def season(self) -> str:
        """spring, summer, autumn or winter, where the lawn lies."""
        ...

    @property
    def start(self) -> date:
        """First open day."""
        ...

    @property
    def end(self) -> date:
        """Last open day."""
        ...

    @property
    def best(self) -> date:
        """The best day."""
        ...


@dataclass(frozen=True, slots=True)
class Slot:
    """A day on which a feeding could be given."""

    key: str
    window: OpenWindow
    start: date
    end: date
    best: date
    weight: float
    cap_g_m2: float


@dataclass(frozen=True, slots=True)
class Season:
    """What the choice of feeding days depends on."""

    brief: Brief
    book: Book
    climate: Climate
    species_id: str
    blackouts: tuple[Blackout, ...]

    @property
    def kind(self) -> str:
        """cool or warm."""
        return self.book.species[self.species_id].season

    @property
    def gap_days(self) -> int:
        """Days between feedings at least."""
        return round(self.book.si("feeding.least_gap"))

    def warming(self, day: date) -> bool:
        """True in the half of the year that grows warmer, in which cool-season grass comes to summer's heat."""
        half = timedelta(MONTH // 2)
        return self.climate.air_c(day + half) >= self.climate.air_c(day - half)

    def cap_g_m2(self, window: OpenWindow) -> float:
        """Most nitrogen at once in a window: the book's, a rule's, and the window's own."""
        name = window.season
        if self.kind == "cool" and name == "summer":
            # What opens in a summer without heat, or as heat ends, is fed as the season next to it.
            name = "spring" if self.warming(window.best) else "autumn"
        part = f"feeding.cap_{self.kind}_{name}"
        caps = [self.book.si("feeding.single_max"), *(b.cap_g_m2 for b in self.blackouts if b.cap_g_m2)]
        return min([*caps, self.book.si(part)] if part in self.book.facts else caps)


def sowing_of(windows: Sequence[OpenWindow], start: date, end: date) -> OpenWindow | None:
    """The window in which seed or plants go in, if any."""
    return next((w for w in windows if w.operation in SOWINGS and start <= w.best <= end), None)


def slots_of(season: Season, windows: Sequence[OpenWindow], first: date, last: date, skipped: Skips) -> list[Slot]:
    """The days from first to last that could take a feeding, at least a gap apart, with growth as their weight."""
    found: list[Slot] = []
    for window in sorted(windows, key=lambda w: w.start):
        reason = _closed(season, window)
        if reason:
            skipped.append((window.season, reason))
            continue
        spans = free_days(max(window.start, first), min(window.end, last), season.blackouts)
        if not spans:
            words = ", ".join(b.words for b in season.blackouts)
            skipped.append((window.season, f"The whole window lies in a blackout: {words}."))
        tolerance = round(season.book.si("feeding.tolerance"))
        for start, end in spans:
            days = _spaced(season, window, start, end)
            found += [
                s for part in _around(days, start, end, tolerance) if (s := _slot(season, window, *part, skipped))
            ]
    return found


def _slot(season: Season, window: OpenWindow, start: date, end: date, best: date, skipped: Skips) -> Slot | None:
    weight = season.climate.growth_potential(best, season.kind)
    slowed = weight < season.book.si("feeding.late_growth")
    late = season.kind == "cool" and window.season in ("autumn", "winter") and slowed
    if late and not late_policy(season)[0]:
        skipped.append(("late", f"{LATE_NITROGEN} {late_policy(season)[1]}"))
        return None
    key = "late" if late else window.season
    return Slot(key, window, start, end, best, max(weight, RESTING), season.cap_g_m2(window))


def after_sowing(
    slots: Sequence[Slot], sowing: OpenWindow | None, starter: bool, gap: int, skipped: Skips
) -> list[Slot]:
    """The slots that are not within a gap of the sowing, when starter or compost feeds already."""
    if sowing is None:
        return list(slots)
    near = [s for s in slots if sowing.start - timedelta(gap) < s.best < sowing.end + timedelta(gap)]
    why = (
        "The starter feeds the lawn at that time."
        if starter
        else "The compost feeds the seedlings at that time; their colour, weeks after they are up, tells whether it is enough."
    )
    skipped += [(slot.key, why) for slot in near]
    return [slot for slot in slots if slot not in near]


LATE_NITROGEN = "Nitrogen after growth has slowed greens the lawn early next spring and thickens it; but more of it can leach or run off."


def late_policy(season: Season) -> tuple[bool, str]:
    """Whether late nitrogen is given, and who says so: the brief, the habit of the region, or the default."""
    asked = season.brief.local.late_nitrogen
    if asked is not None:
        return asked, f"The brief {'asks for it' if asked else 'leaves it out'}."
    habit = season.book.setting("late_nitrogen")
    if habit is not None:
        custom = "It is usual" if habit else "It is usually left out"
        return habit, f"{custom} in {season.book.region_name}; the brief can ask for the other."
    return False, "States differ; it is left out unless the brief asks for it."


def tightest_gap_days(book: Book) -> int:
    """Days between the best days of two feedings that still leave each of them some to slip."""
    return round(book.low_si("feeding.least_gap") + book.si("feeding.tolerance"))


def _spaced(season: Season, window: OpenWindow, start: date, end: date) -> list[date]:
    """The best day and the days a gap before and after it, as far as the span from start to end reaches.

    The outermost ones keep a few days from its ends where the least gap allows, so that a weekend can be met.
    """
    gap, least = season.gap_days, tightest_gap_days(season.book)
    middle = min(max(window.best, start), end)
    if season.kind == "cool" and window.season == "summer":
        # A summer that is cool enough for one feeding is not one for several.
        return [middle]
    before = [middle - timedelta(gap * n) for n in range((middle - start).days // gap, 0, -1)]
    after = [middle + timedelta(gap * n) for n in range(1, (end - middle).days // gap + 1)]
    room = timedelta(round(season.book.si("feeding.tolerance")))
    days = [*before, middle, *after]
    if after:
        days[-1] = min(days[-1], max(end - room, days[-2] + timedelta(least)))
    if before:
        days[0] = max(days[0], min(start + room, days[1] - timedelta(least)))
    return days


def _around(days: Sequence[date], start: date, end: date, tolerance: int) -> list[tuple[date, date, date]]:
    """First, last and best day of each feeding: the whole span for one alone, else a few days around each."""
    if len(days) == 1:
        return [(start, end, days[0])]
    step = timedelta(tolerance)
    return [(max(start, day - step), min(end, day + step), day) for day in days]


IN_HEAT = "No nitrogen on cool-season grass in summer heat: it burns and feeds disease."


def in_heat(season: Season, day: date) -> str | None:
    """The mark of warmth that a day lies above at which cool-season grass takes no nitrogen; None on all others."""
    mark = f"windows.{'cool_feed_spring_closes' if season.warming(day) else 'cool_feed_autumn_opens'}"
    hot = season.kind == "cool" and season.climate.air_c(day) > season.book.si(mark)
    return mark if hot else None


def _closed(season: Season, window: OpenWindow) -> str | None:
    if window.season == "summer" and in_heat(season, window.best):
        return IN_HEAT
    if season.species_id == "centipede" and window.season == "spring":
        return "Centipede takes no nitrogen in spring (North Carolina State)."
    return None


def share_out(
    book: Book, slots: Sequence[Slot], left_g_m2: float, system: System, skipped: Skips
) -> list[tuple[Slot, float]]:
    """The nitrogen that is left, shared out by growth; what fits in no feeding is left out."""
    least = book.si("feeding.least_rate")
    if left_g_m2 < least:
        why = "What was given and what compost gives already cover the season's nitrogen."
        skipped += [(slot.key, why) for slot in slots]
        return []
    chosen = _chosen(slots, left_g_m2, tightest_gap_days(book), skipped)
    chosen = _apart(chosen, round(book.low_si("feeding.least_gap")))
    rates = water_fill([s.weight for s in chosen], [s.cap_g_m2 for s in chosen], left_g_m2)
    small = f"Less than {read_as(least, 'rate', system).text} would be left for it."
    skipped += [(slot.key, small) for slot, rate in zip(chosen, rates, strict=True) if rate < least]
    return [(slot, rate) for slot, rate in zip(chosen, rates, strict=True) if rate >= least]


def _chosen(slots: Sequence[Slot], left_g_m2: float, gap: int, skipped: Skips) -> list[Slot]:
    """The slots to use, in order of time: those of stronger growth first, a gap apart.

    One more than the fewest that hold the nitrogen, so that it goes along with growth rather than in as big doses as may be.
    """
    strong = sorted(slots, key=lambda s: (-s.weight, s.best))
    apart: list[Slot] = []
    for slot in strong:
        if all(abs((slot.best - other.best).days) >= gap for other in apart):
            apart.append(slot)
        else:
            skipped.append((slot.key, f"Less than {gap} days from a feeding at a time of stronger growth."))
    fewest = next(
        (n for n in range(1, len(apart)) if sum(s.cap_g_m2 for s in apart[:n]) >= left_g_m2 - 1e-9), len(apart)
    )
    skipped += [(slot.key, "The season's nitrogen fits into fewer feedings.") for slot in apart[fewest + 1 :]]
    return sorted(apart[: fewest + 1], key=lambda s: s.best)


def _apart(slots: Sequence[Slot], least: int) -> list[Slot]:
    """The slots with their days cut so that two feedings are never closer than `least` days, whichever days are taken."""
    found = list(slots)
    for number, (one, two) in enumerate(pairwise(slots)):
        slack = max(0, (two.best - one.best).days - least)
        before, after = found[number], found[number + 1]
        found[number] = replace(before, end=min(before.end, one.best + timedelta(slack // 2)))
        found[number + 1] = replace(after, start=max(after.start, two.best - timedelta(slack // 2)))
    return found


def water_fill(weights: Sequence[float], caps: Sequence[float], total: float) -> list[float]:
    """Parts of a total in the proportion of their weights, none above its cap; what does not fit is left."""
    rates = [0.0] * len(weights)
    open_parts = set(range(len(weights)))
    left = total
    while open_parts and left > 1e-9:
        weight = sum(weights[i] for i in open_parts)
        wished = {i: left * weights[i] / weight for i in open_parts}
        full = {i for i in open_parts if rates[i] + wished[i] >= caps[i] - 1e-12}
        if not full:
            for i in open_parts:
                rates[i] += wished[i]
            break
        for i in full:
            left -= caps[i] - rates[i]
            rates[i] = caps[i]
        open_parts -= full
    return rates
