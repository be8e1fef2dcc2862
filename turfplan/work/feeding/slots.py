"""On which days a season's nitrogen can be given, and how it is shared out among them."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from turfplan.book.entries import Book
from turfplan.book.words import book_message
from turfplan.climate.record import Climate
from turfplan.message import Message, listed, sentences
from turfplan.phrases import feeding as phrases
from turfplan.records.book_names import option_of_family
from turfplan.records.brief import Brief
from turfplan.records.constraints import DaySet
from turfplan.records.fact_names import GroupFact
from turfplan.work.feeding.balance import Given, closed_around
from turfplan.work.feeding.blackouts import Blackout
from turfplan.work.feeding.limits import limits_of
from turfplan.work.feeding.nitrogen_windows import OpenWindow, past_last_nitrogen
from turfplan.work.feeding.stages import Quiet
from turfplan.work.year_seasons import season_of

SOWINGS = ("seed", "overseed", "dormant_seed", "plant")
MONTH = 30
# Which days are taken first: those the brief asks for or that open the year, those that follow a
# pass, the best of a window, those a gap from it, any other.
ASKED, AFTER_PASS, BEST, WISHED, OTHER = range(5)
RESTING = 0.05  # weight of a day on which grass hardly grows, so that shares stay defined

# What is left out, by its season or `late`, each with the reason.
Skips = list[tuple[str, Message]]


@dataclass(frozen=True, slots=True)
class FeedingSlot:
    """A day on which a feeding could be given: one that `opens_year` gives way to no other."""

    key: str
    window: OpenWindow
    start: date
    end: date
    best: date
    weight: float
    cap_g_m2: float
    rank: int = WISHED
    opens_year: bool = False


@dataclass(frozen=True, slots=True)
class FeedingSeason:
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

    @property
    def begins_in_spring(self) -> bool:
        """True where a year's nitrogen begins in spring: cool-season grass that has no hot summer
        ahead."""
        mark = self.book.si("windows.cool_summer")
        return self.kind == "cool" and max(self.climate.air_mean_c) <= mark

    def past_last(self, windows: Iterable[OpenWindow], day: date) -> bool:
        """True where a day comes after the last nitrogen of the year that binds new grass too."""
        return past_last_nitrogen(self.brief, self.book, self.climate, windows, day)

    def warming(self, day: date) -> bool:
        """True in the half of the year that grows warmer and leads cool-season grass to heat."""
        half = timedelta(MONTH // 2)
        return self.climate.air_c(day + half) >= self.climate.air_c(day - half)

    @property
    def most_g_m2(self) -> float:
        """Most nitrogen at once, by the book, the grass and the law of the state."""
        own = self.book.get(option_of_family("feeding.most_{species}", self.species_id))
        law = limits_of(self.brief, self.book).total
        caps = (cap.si for cap in (own, law) if cap is not None)
        return min((self.book.si("feeding.single_max"), *caps))

    def quarter(self, day: date) -> str:
        """spring, summer, autumn or winter of a day, where the lawn lies."""
        return season_of(self.book, day, southern=self.climate.southern)

    def cap_g_m2(self, day: date) -> float:
        """Most nitrogen at once on a day: the book's, a rule's, that of its half of the year."""
        name = "spring" if self.warming(day) else "autumn"
        part = self.book.get(option_of_family("feeding.cap_{season}_{quarter}", self.kind, name))
        return self.most_g_m2 if part is None else min(self.most_g_m2, part.si)


def sowing_of(windows: Sequence[OpenWindow], start: date, end: date) -> OpenWindow | None:
    """The window in which seed or plants go in, if any."""
    return next((w for w in windows if w.operation in SOWINGS and start <= w.best <= end), None)


@dataclass(frozen=True, slots=True)
class OpenTo:
    """What closes days to a feeding beside its windows: other feedings, the stand, and work days.

    `days` are the days of work, all where None. A feeding goes well after each of `passes`.
    """

    given: Sequence[Given] = ()
    quiet: Sequence[Quiet] = ()
    passes: Sequence[date] = ()
    days: DaySet | None = None

    def work_day(self, start: date, end: date, best: date) -> date | None:
        """The day of work from start to end nearest to the best; None where there is none."""
        if self.days is None:
            return best
        near_by = (self.days.next(best.toordinal()), self.days.previous(best.toordinal()))
        found = [date.fromordinal(day) for day in near_by if day is not None]
        found = [day for day in found if start <= day <= end]
        return min(found, key=lambda day: abs((day - best).days), default=None)


@dataclass(frozen=True, slots=True)
class _Closures:
    """What closes days to feeding, worked out once for all the days that are asked about.

    A feeding of `taken` closes the days strictly between its two; `unfed` are the seasons in which
    the grass takes none.
    """

    season: FeedingSeason
    open_to: OpenTo
    unfed: frozenset[str]
    fresh: timedelta
    least_soil_c: float
    least_gap: int
    taken: tuple[tuple[date, date], ...]

    def why(self, day: date) -> Message | None:
        """Why a day takes no feeding, or None."""
        season = self.season
        if any(b.holds(day) for b in season.blackouts):
            return phrases.left_out_blackout(
                blackouts=listed((b.what for b in season.blackouts), "comma")
            )
        for quiet in self.open_to.quiet:
            if quiet.first <= day <= quiet.last:
                return quiet.reason
        if self.unfed and season.quarter(day) in self.unfed:
            named = f"species.{season.species_id}.unfed.{season.quarter(day)}"
            return book_message(season.book, named)
        if in_heat(season, day):
            return phrases.left_out_heat()
        if any(passed <= day < passed + self.fresh for passed in self.open_to.passes):
            return phrases.left_out_fresh_layer()
        if season.climate.soil_c(day) < self.least_soil_c:
            return phrases.left_out_cold()
        if any(after < day < before for after, before in self.taken):
            return phrases.left_out_near_other(n=self.least_gap)
        return None


def _closures(season: FeedingSeason, open_to: OpenTo) -> _Closures:
    book = season.book
    least = round(book.low_si("feeding.least_gap"))
    return _Closures(
        season,
        open_to,
        frozenset(rest.season for rest in book.species[season.species_id].unfed),
        timedelta(round(book.low_si("feeding.after_pass"))),
        book.si("feeding.least_soil"),
        least,
        tuple(closed_around(open_to.given, least)),
    )


def closed_by(season: FeedingSeason, open_to: OpenTo, day: date) -> Message | None:
    """Why a day takes no feeding, or None."""
    return _closures(season, open_to).why(day)


def open_spans(
    season: FeedingSeason,
    open_to: OpenTo,
    start: date,
    end: date,
    also: Callable[[date], bool] | None = None,
) -> list[tuple[date, date]]:
    """The stretches from start to end on which nothing speaks against feeding, and `also` holds."""
    spans: list[tuple[date, date]] = []
    closures = _closures(season, open_to)
    for number in range(start.toordinal(), end.toordinal() + 1):
        day = date.fromordinal(number)
        if closures.why(day) is not None or not (also is None or also(day)):
            continue
        if spans and spans[-1][1] == day - timedelta(1):
            spans[-1] = (spans[-1][0], day)
        else:
            spans.append((day, day))
    return spans


def slots_of(
    season: FeedingSeason,
    windows: Sequence[OpenWindow],
    first: date,
    last: date,
    open_to: OpenTo,
    skipped: Skips,
) -> list[FeedingSlot]:
    """The days from first to last that could take a feeding, weighed by growth: after passes, a gap
    apart around the best day of each window, and, where those do not suffice, any others.

    What is left out is added to `skipped`.
    """
    slots: list[FeedingSlot] = []
    for window in sorted(windows, key=lambda w: w.start):
        start, end = max(window.start, first), min(window.end, last)
        if start > end:
            continue
        spans = open_spans(season, open_to, start, end)
        if not spans:
            why = closed_by(season, open_to, min(max(window.best, start), end))
            skipped.append((window.season, why or phrases.left_out_no_day()))
        for span in spans:
            slots += _slots_in(season, window, span, open_to, skipped)
    return slots


def _slots_in(
    season: FeedingSeason,
    window: OpenWindow,
    span: tuple[date, date],
    open_to: OpenTo,
    skipped: Skips,
) -> list[FeedingSlot]:
    """The slots of one open stretch of a window."""
    start, end = span
    room = round(season.book.si("feeding.tolerance"))
    wished = _around(_spaced(season, window, start, end), start, end, room)
    step = timedelta(room)
    after = [
        (max(start, day - step), min(end, day + step), day)
        for passed in open_to.passes
        if season.kind == "warm" and (day := _after_pass(season, passed, start, end)) is not None
    ]
    others = [start + timedelta(7 * n) for n in range((end - start).days // 7 + 1)]
    parts = [
        *((AFTER_PASS, part) for part in after),
        *((BEST if part[2] == window.best else WISHED, part) for part in wished),
        *((OTHER, (max(start, d - step), min(end, d + step), d)) for d in others),
    ]
    found = []
    for rank, (begin, finish, best) in parts:
        day = open_to.work_day(begin, finish, best)
        if day is None:
            if rank in (BEST, WISHED):
                skipped.append((window.season, phrases.left_out_no_day()))
            continue
        slot = _slot(season, window, begin, finish, day, skipped if rank in (BEST, WISHED) else [])
        if slot is not None:
            asked = slot.key == "late" and rank == BEST and season.brief.local.late_nitrogen
            opens = rank == BEST and window.season == "spring" and season.begins_in_spring
            first = ASKED if asked or opens else rank
            found.append(replace(slot, rank=first, opens_year=opens))
    return found


def _after_pass(season: FeedingSeason, passed: date, start: date, end: date) -> date | None:
    """The day of a feeding that follows a pass, from start to end; None where none is in time."""
    wait = season.book.fact("feeding.after_pass")
    day = max(start, passed + timedelta(round(wait.si)))
    return day if day <= min(end, passed + timedelta(round(wait.high_si))) else None


def _slot(
    season: FeedingSeason, window: OpenWindow, start: date, end: date, best: date, skipped: Skips
) -> FeedingSlot | None:
    weight = season.climate.growth_potential(best, season.kind)
    slowed = weight < season.book.si("feeding.late_growth")
    quarter = season.quarter(best)
    late = season.kind == "cool" and quarter in ("autumn", "winter") and slowed
    if late and not late_policy(season)[0]:
        skipped.append(("late", late_reason(season)))
        return None
    key = "late" if late else quarter
    if late:
        # Roots still take up what shoots no longer turn to growth.
        weight = season.book.si("feeding.late_growth")
    return FeedingSlot(key, window, start, end, best, max(weight, RESTING), season.cap_g_m2(best))


def late_policy(season: FeedingSeason) -> tuple[bool, Message]:
    """Whether late nitrogen is given, and who says so: the brief, the region, the default."""
    asked = season.brief.local.late_nitrogen
    if asked is not None:
        return asked, phrases.late_asked() if asked else phrases.late_not_asked()
    book = season.book
    habit = book.setting("late_nitrogen")
    if habit is not None:
        region = book_message(book, f"regions.{book.region}.name")
        return habit, (
            phrases.late_usual(region=region) if habit else phrases.late_unusual(region=region)
        )
    return False, phrases.late_default()


def late_reason(season: FeedingSeason) -> Message:
    """What late nitrogen does, for and against, and who decides on it."""
    return sentences(phrases.late_what(), late_policy(season)[1])


def tightest_gap_days(book: Book) -> int:
    """Days between the best days of two feedings that still leave each of them some to slip."""
    return round(book.low_si("feeding.least_gap") + book.si("feeding.tolerance"))


def _spaced(season: FeedingSeason, window: OpenWindow, start: date, end: date) -> list[date]:
    """The best day and the days a gap before and after it, as far as the span from start to end.

    The outermost ones keep a few days from its ends where the least gap allows, so that a weekend
    can be met.
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


def _around(
    days: Sequence[date], start: date, end: date, tolerance: int
) -> list[tuple[date, date, date]]:
    """First, last and best day of each feeding: for one alone the span, else days around it."""
    if len(days) == 1:
        return [(start, end, days[0])]
    step = timedelta(tolerance)
    return [(max(start, day - step), min(end, day + step), day) for day in days]


def in_heat(season: FeedingSeason, day: date) -> GroupFact | None:
    """The mark of warmth above which cool-season grass takes no nitrogen, on a day above it.

    In the half of the year that grows warmer there is no such day unless the warmth from which the
    grass suffers comes within the weeks in which a feeding is used up.
    """
    if season.kind != "cool":
        return None
    air_c, book = season.climate.air_c, season.book
    if not season.warming(day):
        hot = air_c(day) > book.si("windows.cool_feed_autumn_opens")
        return "windows.cool_feed_autumn_opens" if hot else None
    if air_c(day) <= book.si("windows.cool_feed_spring_closes"):
        return None
    weeks = range(round(-book.si("windows.cool_feed_before_heat")) + 1)
    hurts = book.si("windows.hot_summer")
    near = any(air_c(day + timedelta(number)) > hurts for number in weeks)
    return "windows.cool_feed_spring_closes" if near else None
