"""One week of a stage as calendar series: how its water fits the lawful hours, zone by zone."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, time
from math import inf

from turfplan.calendar_days import WEEKDAYS, in_week_order, recurring_days
from turfplan.message import Day, Message, Quantity, listed
from turfplan.phrases import places
from turfplan.phrases import watering as phrases
from turfplan.records.book_names import FactName
from turfplan.records.plan_task import Amount
from turfplan.work.watering.bounds import Bound, Watered, fewer_runs, no_run_fits, part_fits
from turfplan.work.watering.hose import by_hand
from turfplan.work.watering.hours import in_a_row, law_of, place, session_names, spread
from turfplan.work.watering.how_to_run import divided, in_parts, puts_down
from turfplan.work.watering.lawful_days import AFTER_WORK, KEPT_MOIST, TENDER
from turfplan.work.watering.needs import Need
from turfplan.work.watering.request import WateredGround
from turfplan.work.watering.run_times import (
    MINUTES_IN_HOUR,
    RunTime,
    WateringZone,
    applied_mm,
    water_amount,
)
from turfplan.work.watering.stages import Stage
from turfplan.work.watering.water_run import WaterRun

# The shares of the water that are tried in turn where the whole does not fit: tenths.
_PARTS = tuple(part / 10 for part in range(9, 0, -1))


@dataclass(frozen=True, slots=True)
class _WeeklyFit:
    """A way to put the water of a week into the lawful hours.

    `share` is the part of the water that fits, `depth_mm` what the driest quarter gets at each
    session; `starts` are minutes of the day by session and zone, `times` the runs of the zones.
    """

    days: tuple[date, ...]
    depth_mm: float
    share: float
    times: tuple[RunTime, ...]
    starts: tuple[tuple[int, ...], ...]


@dataclass(frozen=True, slots=True)
class _Sprinkling:
    """What one series of a week waters: a zone, or all of them one after the other."""

    zone: str | None
    zone_name: Message | None
    when: RunTime
    depth_mm: float
    applied_mm: float
    area_m2: float
    rate_mm_h: float | None
    hose: bool
    puts_down: Message | None
    steps: tuple[Message, ...]
    facts: tuple[FactName, ...]


@dataclass(frozen=True, slots=True)
class Week:
    """One week of a stage on its way to series: its lawful days, and how many are wished for.

    Its weekdays are kept until `until`, where weeks after it are alike. What waters work in has the
    days of that work in `worked`: on their `evening`, else on days after them. On the days of a
    `stand_in` nobody of the household is there.
    """

    ground: WateredGround
    stage: Stage
    number: int
    lawful: tuple[date, ...]
    count: int
    need: Need
    together: bool
    zones: tuple[WateringZone, ...]
    until: date | None = None
    worked: tuple[date, ...] = ()
    evening: bool = False
    stand_in: bool = False

    def holds_whole(self) -> bool:
        """True where each of its days holds all of the day's water in one run."""
        return isinstance(self._tried(self.lawful, 1, 1.0, len(self.lawful)), _WeeklyFit)

    def most_at_once(self) -> float:
        """The share of a day's water, in tenths below the whole, that one run puts down; 0 where
        the hours hold none."""
        days = self.lawful
        tried = ((share, self._tried(days, 1, share, len(days))) for share in _PARTS)
        return next((share for share, fit in tried if isinstance(fit, _WeeklyFit)), 0.0)

    def _watered(self) -> Watered:
        if self.stage.name == "settle_fill":
            return "fill"
        return "young" if self.stage.name in TENDER else "grass"

    def runs(self, sessions: int, cautions: list[Message]) -> list[WaterRun]:
        """The series of the week: as many sessions a day as fit, each zone after the other."""
        fit, bound = self._fit(sessions)
        if fit is None:
            cautions.append(no_run_fits(bound, self.stage.title))
            return []
        if fit.share < 1:
            cautions.append(part_fits(bound, self.stage.title, fit.share, self._watered()))
        elif len(fit.starts) < sessions and len(fit.days) <= self.count:
            cautions.append(fewer_runs(bound, self.stage.title, len(fit.starts), sessions))
        names = session_names([session[0] for session in fit.starts])
        zones = self.zones
        sessions_of_day = list(zip(names, fit.starts, strict=True))
        name, starts = sessions_of_day[0]
        elapsed = [when.elapsed_min for when in fit.times]
        # One series for all zones would run on where no water is lawful between two of them.
        if self.together and all(in_a_row(session, elapsed) for session in fit.starts):
            first = [self._record(name, fit, starts[0], self._joint(fit))]
        else:
            timed = zip(zones, starts, fit.times, strict=True)
            first = [
                self._record(name, fit, start, self._single(fit, zone, when))
                for zone, start, when in timed
            ]
        # The sessions of a day differ in their clock times alone.
        return first + [
            replace(run, id=self._id(name, run.zone), session=name, start_time=_clock(start))
            for name, starts in sessions_of_day[1:]
            for run, start in zip(first, starts, strict=False)
        ]

    def _id(self, session: str, zone: str | None) -> str:
        who = ["stand-in"] if self.stand_in else []
        return ".".join(
            ["water", self.stage.key, f"w{self.number}", *who, session, *([zone] if zone else [])]
        )

    def _fit(self, sessions: int) -> tuple[_WeeklyFit | None, Bound]:
        """The first way that fits without runoff, and what bounds the one that is wished for.

        Fewer sessions a day, then more days, then more sessions, then less water.
        """
        days = spread(self.lawful, self.count)
        often = round(self.ground.request.book.fact("water.runs_a_day").high_si)
        most = max(sessions, often if self.stage.name in TENDER else 2)
        every = len(self.lawful)
        ways = [(len(days), number, 1.0) for number in range(sessions, 0, -1)]
        ways += [(wider, 1, 1.0) for wider in range(len(days) + 1, every + 1)]
        ways += [(every, number, 1.0) for number in range(2, most + 1)]
        ways += [(every, number, part) for part in _PARTS for number in range(1, most + 1)]
        bounds: list[Bound] = []
        for count, number, share in ways:
            fit = self._tried(spread(self.lawful, count), number, share, len(days))
            if isinstance(fit, _WeeklyFit):
                # Of fewer runs: what keeps the day from holding one more.
                fewer = share == 1 and count == len(days)
                return fit, "day" if not bounds else bounds[-1 if fewer else 0]
            bounds.append(fit)
        return None, bounds[0]

    def _tried(
        self, days: tuple[date, ...], sessions: int, share: float, wished: int
    ) -> _WeeklyFit | Bound:
        """The week's water on these days in so many sessions, or what does not let it through."""
        depth = self.need.depth_mm * self.need.runs * share * wished / len(days) / sessions
        intake, law = self.ground.intake, self.ground.law
        times = tuple(
            self._part_by_part(intake.run(zone.exposure * depth, zone), zone) for zone in self.zones
        )
        if any(time.runs_off for time in times):
            return "ground"
        if sessions * sum(time.elapsed_min for time in times) > self._most_min + 1:
            return "home"
        if any(
            zone.hose is not None
            and zone.hose.most_min is not None
            and sessions * time.elapsed_min > zone.hose.most_min + 1
            for zone, time in zip(self.zones, times, strict=True)
        ):
            return "home"
        gap = self.ground.request.book.si("water.session_gap")
        wishes, elapsed = self._wishes(sessions), [t.elapsed_min for t in times]
        if (starts := self._kept(place(wishes, elapsed, gap, law), times)) is None:
            # The law may hold by night what nobody is up for who turns a tap.
            water = self.ground.request.water
            by_law = place(wishes, elapsed, gap, law_of(water)) if by_hand(water) else None
            return self._closed if self._kept(by_law, times) is None else "home"
        return _WeeklyFit(days, depth, share, times, starts)

    def _kept(
        self, starts: tuple[tuple[int, ...], ...] | None, times: Sequence[RunTime]
    ) -> tuple[tuple[int, ...], ...] | None:
        """The starts of a day, unless what is kept moist would be watered twice in one night."""
        moist = self.stage.name in KEPT_MOIST
        return None if starts and moist and self._repeats_in_the_dark(starts, times) else starts

    def _part_by_part(self, run: RunTime, zone: WateringZone) -> RunTime:
        """The run of a zone whose parts the supply waters one after the other: as long as all.

        Where nobody told the supply, nor that there is no timer, it is taken to be enough.
        """
        request = self.ground.request
        if request.water.flow_l_min is None and request.water.timer is not False:
            return run
        return replace(run, idle_min=max(0, request.parts_of(zone) * run.minutes - run.elapsed_min))

    @property
    def _most_min(self) -> float:
        """The minutes of a day that are told for somebody who turns parts on one after the other;
        on the days of the work itself people stay until it is wet."""
        request = self.ground.request
        water, parts = request.water, max(map(request.parts_of, self.zones))
        bound = water.hours_per_day is not None and by_hand(water) and parts > 1
        if self.stage.name in AFTER_WORK or not bound:
            return inf
        return (water.hours_per_day or 0.0) * MINUTES_IN_HOUR

    @property
    def _closed(self) -> Bound:
        """What bounds a day: allowed hours, else its own."""
        return "law" if law_of(self.ground.request.water).restricts_hours else "day"

    def _repeats_in_the_dark(
        self, starts: Sequence[Sequence[int]], times: Sequence[RunTime]
    ) -> bool:
        """True where two runs of a night follow each other: what dries by day is full by then."""
        book = self.ground.request.book
        dawn, dusk = book.si("water.start_morning"), book.si("water.start_evening")
        late = sum(session[0] >= dusk for session in starts)
        early = sum(session[-1] + times[-1].elapsed_min <= dawn for session in starts)
        return late > 1 or early > 1

    def _wishes(self, count: int) -> list[float]:
        book = self.ground.request.book
        if self.evening:
            return [book.si("water.start_evening")] * count
        first, last = book.si("water.start_morning"), book.si("water.start_afternoon")
        return (
            [first]
            if count == 1
            else [first + n * (last - first) / (count - 1) for n in range(count)]
        )

    def _single(self, fit: _WeeklyFit, zone: WateringZone, when: RunTime) -> _Sprinkling:
        """One zone by itself."""
        depth_mm, request = fit.depth_mm * zone.exposure, self.ground.request
        return _Sprinkling(
            zone=zone.key,
            zone_name=zone.name if zone.key else None,
            when=when,
            depth_mm=depth_mm,
            applied_mm=applied_mm(when.setting_min, zone.rate_mm_h),
            area_m2=zone.area_m2,
            rate_mm_h=zone.rate_mm_h,
            hose=zone.hose is not None,
            puts_down=puts_down(when, zone),
            steps=in_parts(request.parts_of(zone), when, told=request.water.flow_l_min is not None),
            facts=(*zone.facts, *self.ground.intake.facts) if when.cycles > 1 else zone.facts,
        )

    def _joint(self, fit: _WeeklyFit) -> _Sprinkling:
        """All zones of a session as one series, run one after the other."""
        zones = tuple(zip(self.zones, fit.times, strict=True))
        area, minutes = sum(z.area_m2 for z, _ in zones), sum(t.minutes for _, t in zones)
        began, ended = fit.starts[0][0], fit.starts[0][-1] + fit.times[-1].elapsed_min
        return _Sprinkling(
            zone=None,
            zone_name=self._joint_name(),
            when=RunTime(minutes, 1, 0, idle_min=max(0, ended - began - minutes)),
            rate_mm_h=None,
            hose=False,
            depth_mm=sum(fit.depth_mm * z.exposure * z.area_m2 for z, _ in zones) / area,
            applied_mm=sum(applied_mm(t.setting_min, z.rate_mm_h) * z.area_m2 for z, t in zones)
            / area,
            area_m2=area,
            puts_down=None,
            steps=tuple(
                phrases.zone_line(zone=z.name, line=line)
                for z, t in zones
                for line in (puts_down(t, z), *divided(t, hose=False))
            ),
            facts=tuple(dict.fromkeys(f for z, _ in zones for f in z.facts)),
        )

    def _joint_name(self) -> Message:
        """What the zones of a session are called together."""
        if len(self.zones) < len(self.ground.request.zones):
            return places.these(parts=listed(zone.name for zone in self.zones))
        return phrases.zone_every() if self.stage.part is None else phrases.zone_reaching()

    def _record(self, session: str, fit: _WeeklyFit, start_min: int, what: _Sprinkling) -> WaterRun:
        days, weekdays, skip = fit.days, _weekdays(fit.days), tuple[date, ...]()
        if self.until is not None:
            weekdays = in_week_order({WEEKDAYS[day.weekday()] for day in days})
            every = recurring_days(days[0], self.until, weekdays)
            skip = tuple(day for day in every if not self.ground.law.open(day))
            days = every
        return WaterRun(
            id=self._id(session, what.zone),
            stage=self.stage.name,
            session=session,
            zone=what.zone,
            zone_name=what.zone_name,
            start=days[0],
            end=days[-1],
            start_time=_clock(start_min),
            when=what.when,
            weekdays=weekdays,
            skip=skip,
            depth_mm=what.depth_mm,
            applied_mm=what.applied_mm,
            area_m2=what.area_m2,
            rate_mm_h=what.rate_mm_h,
            hose=what.hose,
            amounts=self._water(what.applied_mm, what.area_m2, len(days) - len(skip)),
            why=self.need.why_of(len(fit.starts), often=self._is_often(fit)),
            puts_down=what.puts_down,
            steps=(*what.steps, *self._of_work()),
            facts=tuple(dict.fromkeys((*self.need.facts, *what.facts))),
            where=None if self.stage.part is None else self.stage.part.where,
            stand_in=self.stand_in,
            often=self._is_often(fit),
        )

    def _is_often(self, fit: _WeeklyFit) -> bool:
        """Whether it is watered on more days or more often than the stage is called after."""
        usual = self.ground.request.book.fact("water.weaning_per_week").high_si
        return len(fit.days) > max(self.count, usual) or len(fit.starts) > 1 or self.count > usual

    def _of_work(self) -> tuple[Message, ...]:
        """Whose work is watered in: each day's by itself, and that of a day before; what is looked
        at before young grass is weaned."""
        if self.stage.name == "weaning":
            return (phrases.how_tug_first(),) if self.number == 1 else ()
        if self.evening:
            return (phrases.how_strip_of_day(),) if len(self.stage.strips) > 1 else ()
        if len(self.worked) > 1:
            return (phrases.how_strip_before(),)
        return tuple(phrases.how_work_of(day=Day(day, year=False)) for day in self.worked)

    def _water(self, mean_mm: float, area_m2: float, days: int) -> tuple[Amount, ...]:
        """The water of all runs of a series together, with the sum in words, and of one of several:
        what a calendar shows on each of their days."""
        depth = Quantity(mean_mm, "rain", us_step=0.01, metric_step=0.1)
        area, facts = Quantity(area_m2, "area"), self.need.facts
        reason = phrases.amount(depth=depth, area=area, n=days)
        in_all = water_amount(mean_mm * days, area_m2, reason, facts)
        if days == 1:
            return (in_all,)
        why = phrases.amount(depth=depth, area=area, n=1)
        return in_all, water_amount(mean_mm, area_m2, why, facts, item="water each time")


def _clock(minute: int) -> time:
    return time(minute // 60, minute % 60)


def _weekdays(days: Sequence[date]) -> tuple[str, ...]:
    """Days within a week as the weekdays to run; every day in a row needs none.

    A week holds no weekday twice: there is nothing to skip.
    """
    if (days[-1] - days[0]).days + 1 == len(days):
        return ()
    chosen = {WEEKDAYS[day.weekday()] for day in days}
    return in_week_order(chosen)
