"""The waterings of a season as calendar series: by stage, week, session of the day and zone."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, time, timedelta
from math import ceil

from turfplan.brief import WEEKDAYS
from turfplan.irrigation import RunTime, Zone, applied_mm, water_amount
from turfplan.plan import Amount
from turfplan.recurring import in_week_order, recurring_days
from turfplan.rules.watering_hours import place, session_names, spread
from turfplan.rules.watering_request import WEEK, Ground
from turfplan.rules.watering_stages import STAGE_WORDS, Need, Stage, need_of, settling_day
from turfplan.units import System, read_as
from turfplan.wording import day_text, days_text

TENDER = ("soak", "soak_plants", "germination", "establishment", "rooting")
AFTER_WORK = ("settle", "soak", "soak_plants")


@dataclass(frozen=True, slots=True)
class WaterRun:
    """One repeated watering: a calendar series for one stage, week, session and zone.

    `depth_mm` is what the driest quarter of the zone gets at each run, `applied_mm` the mean; `title` names minutes and
    zone. `zone` is None for a lawn with one zone, and where all zones share a series.
    """

    id: str
    title: str
    stage: str
    session: str
    zone: str | None
    start: date
    end: date
    start_time: time
    minutes: int
    weekdays: tuple[str, ...]
    skip: tuple[date, ...]
    depth_mm: float
    applied_mm: float
    area_m2: float
    cycles: int
    soak_min: int
    amounts: tuple[Amount, ...]
    why: str
    how: tuple[str, ...]
    facts: tuple[str, ...] = ()

    def days(self) -> tuple[date, ...]:
        """The days on which it runs."""
        return recurring_days(self.start, self.end, self.weekdays, self.skip)


def season_runs(ground: Ground, plan: Sequence[Stage]) -> tuple[tuple[WaterRun, ...], tuple[str, ...]]:
    """The runs of every stage in order, and the cautions about what the law or the hours do not let through.

    Zones share one series where a series for each would crowd the calendar.
    """
    request = ground.request
    cautions: list[str] = []
    runs = [run for stage in plan for run in _stage_runs(ground, stage, cautions, together=False)]
    if len(runs) > request.book.si("water.most_tasks") and len(request.zones) > 1:
        cautions.clear()
        runs = [run for stage in plan for run in _stage_runs(ground, stage, cautions, together=True)]
    return tuple(runs), tuple(dict.fromkeys(cautions))


def _stage_runs(ground: Ground, stage: Stage, cautions: list[str], *, together: bool) -> list[WaterRun]:
    weeks: list[tuple[date, date, Need]] = []
    start = stage.start
    while start <= stage.end:
        end = min(stage.end, start + timedelta(WEEK - 1))
        weeks.append((start, end, need_of(ground, stage, start, end)))
        start = end + timedelta(1)
    # One number of runs a day for a whole stage: people keep a rhythm, and ids stay.
    runs = max(need.runs for _, _, need in weeks)
    found: list[WaterRun] = []
    system = ground.request.system
    for number, (start, end, need) in enumerate(weeks, 1):
        if need.depth_mm < ground.request.book.si("water.least_run") and stage.name not in TENDER:
            span = days_text(start, end, system, weekday=False, year=False)
            cautions.append(f"{STAGE_WORDS[stage.name]}: rain usually does it from {span}; water if it stays dry.")
            continue
        if stage.name not in TENDER and not ground.growing(start, ground.request.book.si("water.dormant_growth")):
            rests = day_text(start, system, weekday=False, year=False)
            cautions.append(f"{STAGE_WORDS[stage.name]}: from {rests} grass rests and is not watered.")
            break
        lawful = _lawful(ground, stage, start, end, cautions)
        count = len(lawful) if need.days is None else ceil(need.days * ((end - start).days + 1) / WEEK - 1e-9)
        if lawful:
            found.extend(_Week(ground, stage, number, lawful, count, need, together).runs(runs, cautions))
    return found


def _lawful(ground: Ground, stage: Stage, start: date, end: date, cautions: list[str]) -> tuple[date, ...]:
    """The days of a week that are open to watering; a caution where that is too few."""
    law, words, system = ground.law, STAGE_WORDS[stage.name], ground.request.system
    every = recurring_days(start, end)
    lawful = [day for day in every if law.open(day, permitted=stage.name in TENDER)]
    if stage.name in AFTER_WORK:
        wetted = settling_day(ground.request.book, law, start, permitted=stage.name in TENDER)
        lawful = [] if wetted is None else [wetted]
        if wetted != start:
            late = f"on {day_text(start, system, year=False)}" + (", after the work" if law.open(start) else "")
            until = f"it waits for {day_text(wetted, system, year=False)}" if wetted else "it is left out"
            cautions.append(f"{words}: watering is not allowed {late}; {until}.")
    elif stage.name in TENDER and len(lawful) < len(every):
        cautions.append(
            f"{words}: {len(every) - len(lawful)} of the {len(every)} days from "
            f"{day_text(start, system, weekday=False, year=False)} are closed to watering, and this stage must not dry out: ask for a permit, or sow when rain helps."
        )
    elif not lawful:
        span = days_text(start, end, system, weekday=False, year=False)
        cautions.append(f"{words}: no day from {span} is open to watering.")
    return tuple(lawful)


@dataclass(frozen=True, slots=True)
class _Fit:
    """A way to put the water of a week into the lawful hours: days, sessions a day, share of the water that fits."""

    days: tuple[date, ...]
    depth_mm: float
    share: float
    times: tuple[RunTime, ...]
    starts: tuple[tuple[int, ...], ...]

    @property
    def runs_off(self) -> bool:
        """True where a zone would need more cycles than are sensible."""
        return any(time.runs_off for time in self.times)


@dataclass(frozen=True, slots=True)
class _Week:
    """One week of a stage on its way to series: its lawful days, and how many of them are wished for."""

    ground: Ground
    stage: Stage
    number: int
    lawful: tuple[date, ...]
    count: int
    need: Need
    together: bool

    def runs(self, sessions: int, cautions: list[str]) -> list[WaterRun]:
        """The series of the week: as many sessions a day as fit, each zone after the other."""
        words = STAGE_WORDS[self.stage.name]
        fit = self._fit(sessions)
        if fit is None:
            cautions.append(
                f"{words}: the lawful hours of a day are too short for this lawn and sprinkler: do a part now and the rest "
                "later, ask for longer hours, or get a faster sprinkler."
            )
            return []
        if len(fit.starts) < sessions and fit.share == 1:
            cautions.append(
                f"{words}: the lawful hours hold {len(fit.starts)} of {sessions} runs a day; each is longer instead."
            )
        if fit.share < 1:
            cautions.append(
                f"{words}: the lawful hours are too short and hold {fit.share:.0%} of the water: do that part of the lawn now "
                "and the rest later, or ask for longer hours."
            )
        if fit.runs_off:
            cautions.append(
                f"{words}: the sprinkler is faster than this ground takes water in, even in {fit.times[0].cycles} cycles: watch "
                "for runoff, stop, let it soak, and go on; a slower sprinkler helps."
            )
        names = session_names([session[0] for session in fit.starts])
        zones = self.ground.request.zones
        sessions_of_day = list(zip(names, fit.starts, strict=True))
        name, starts = sessions_of_day[0]
        if self.together:
            first = [self._joint(name, fit, starts)]
        else:
            timed = zip(zones, starts, fit.times, strict=True)
            first = [self._run(name, fit, start, zone, when) for zone, start, when in timed]
        # The sessions of a day differ in their clock times alone.
        return first + [
            replace(run, id=self._id(name, run.zone), session=name, start_time=_clock(start))
            for name, starts in sessions_of_day[1:]
            for run, start in zip(first, starts, strict=False)
        ]

    def _id(self, session: str, zone: str | None) -> str:
        return ".".join(["water", self.stage.key, f"w{self.number}", session, *([zone] if zone else [])])

    def _fit(self, sessions: int) -> _Fit | None:
        """The first way that fits without runoff: fewer sessions a day, then more days; else one that fits, else less water."""
        days = spread(self.lawful, self.count)
        counts = [(len(days), number) for number in range(sessions, 0, -1)]
        counts += [(wider, 1) for wider in range(len(days) + 1, len(self.lawful) + 1)]
        whole = None
        for count, number in counts:
            fit = self._tried(spread(self.lawful, count), number, 1.0, len(days))
            if fit is not None and not fit.runs_off:
                return fit
            whole = fit or whole
        if whole is not None:
            return whole
        less = (self._tried(spread(self.lawful, counts[-1][0]), 1, part / 10, len(days)) for part in range(9, 2, -1))
        return next((fit for fit in less if fit is not None), None)

    def _tried(self, days: tuple[date, ...], sessions: int, share: float, wished: int) -> _Fit | None:
        """The week's water on these days in so many sessions, or None where the lawful hours do not hold it."""
        depth = self.need.depth_mm * self.need.runs * share * wished / len(days) / sessions
        times = tuple(self.ground.run(zone.exposure * depth, zone) for zone in self.ground.request.zones)
        gap = self.ground.request.book.si("water.session_gap")
        starts = place(self._wishes(sessions), [t.elapsed_min for t in times], gap, self.ground.law)
        return None if starts is None else _Fit(days, depth, share, times, starts)

    def _wishes(self, count: int) -> list[float]:
        book = self.ground.request.book
        if self.stage.name in AFTER_WORK and self.lawful[0] == self.stage.start:
            return [book.si("water.start_evening")]
        first, last = book.si("water.start_morning"), book.si("water.start_afternoon")
        return [first] if count == 1 else [first + n * (last - first) / (count - 1) for n in range(count)]

    def _run(self, name: str, fit: _Fit, start: int, zone: Zone, when: RunTime) -> WaterRun:
        depth_mm = fit.depth_mm * zone.exposure
        label = zone.name if zone.key else ""
        mean_mm = applied_mm(when.minutes, zone.rate_mm_h)
        how = self._how(when, depth_mm, zone)
        return self._record(
            name, zone.key, label, fit.days, start, when, depth_mm, mean_mm, zone.area_m2, how, zone.facts
        )

    def _joint(self, name: str, fit: _Fit, starts: Sequence[int]) -> WaterRun:
        """One series for all zones of a session, run one after the other."""
        zones = tuple(zip(self.ground.request.zones, fit.times, strict=True))
        whole = RunTime(sum(t.minutes for _, t in zones), 1, 0)
        area = sum(z.area_m2 for z, _ in zones)
        mean_mm = sum(applied_mm(t.minutes, z.rate_mm_h) * z.area_m2 for z, t in zones) / area
        depth_mm = sum(fit.depth_mm * z.exposure * z.area_m2 for z, _ in zones) / area
        how = tuple(f"{z.name}: {line}" for z, t in zones for line in self._how(t, fit.depth_mm * z.exposure, z))
        facts = tuple(dict.fromkeys(f for z, _ in zones for f in z.facts))
        return self._record(name, None, "all zones", fit.days, starts[0], whole, depth_mm, mean_mm, area, how, facts)

    def _how(self, when: RunTime, depth_mm: float, zone: Zone) -> tuple[str, ...]:
        system = self.ground.request.system
        lines = [
            f"{when.minutes} min puts down {read_as(depth_mm, 'rain', system).text} where least falls, at "
            f"{read_as(zone.rate_mm_h, 'water_rate', system).text} ({zone.rate_reason})."
        ]
        if when.cycles > 1:
            lines.append(
                f"In {when.cycles} cycles of {when.cycle_min} min, {when.soak_min} min apart, so that nothing runs off."
            )
        return tuple(lines)

    def _record(
        self,
        session: str,
        zone: str | None,
        label: str,
        days: tuple[date, ...],
        start_min: int,
        when: RunTime,
        depth_mm: float,
        mean_mm: float,
        area_m2: float,
        how: tuple[str, ...],
        facts: tuple[str, ...],
    ) -> WaterRun:
        weekdays = _weekdays(days)
        each = f"{when.minutes} min" + (f" in {when.cycles} cycles" if when.cycles > 1 else "")
        return WaterRun(
            id=self._id(session, zone),
            title=f"{STAGE_WORDS[self.stage.name]}: {each}" + (f", {label}" if label else ""),
            stage=self.stage.name,
            session=session,
            zone=zone,
            start=days[0],
            end=days[-1],
            start_time=_clock(start_min),
            minutes=when.minutes,
            weekdays=weekdays,
            skip=(),
            depth_mm=depth_mm,
            applied_mm=mean_mm,
            area_m2=area_m2,
            cycles=when.cycles,
            soak_min=when.soak_min,
            amounts=(self._water(mean_mm, area_m2, len(days)),),
            why=self.need.why,
            how=how,
            facts=tuple(dict.fromkeys((*self.need.facts, *facts))),
        )

    def _water(self, mean_mm: float, area_m2: float, days: int) -> Amount:
        """The water of all runs of a series together, with the sum in words."""
        system = self.ground.request.system
        deep = read_as(mean_mm, "rain", system, step=0.01 if system is System.US else 0.1).text
        reason = f"{deep} over {read_as(area_m2, 'area', system).text} on {days} day{'s' if days > 1 else ''}"
        return water_amount(mean_mm * days, area_m2, reason, self.need.facts)


def _clock(minute: int) -> time:
    return time(minute // 60, minute % 60)


def _weekdays(days: Sequence[date]) -> tuple[str, ...]:
    """Days within a week as the weekdays to run; every day in a row needs none. A week holds no weekday twice: no skips."""
    if (days[-1] - days[0]).days + 1 == len(days):
        return ()
    chosen = {WEEKDAYS[day.weekday()] for day in days}
    return in_week_order(chosen)
