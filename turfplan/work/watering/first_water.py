"""The first water after work: once its day is over, in whatever hours the law leaves then."""

from collections.abc import Set
from dataclasses import dataclass, replace
from datetime import date, timedelta

from turfplan.message import Day, Message, Number
from turfplan.phrases import watering as phrases
from turfplan.work.watering.lawful_days import Evening, evenings
from turfplan.work.watering.request import WateredGround
from turfplan.work.watering.run_times import WateringZone
from turfplan.work.watering.stage_weeks import WeekNeed
from turfplan.work.watering.stages import Stage, late_hours
from turfplan.work.watering.water_run import WaterRun
from turfplan.work.watering.week_runs import Week

# Leaves above roots that are cut off: they do not wait for the morning.
_LEAFY = ("soak_plants", "soak_relaid")


@dataclass(frozen=True, slots=True)
class FirstWater:
    """The first water of the work of a week, of which each day waters its own `zones`."""

    ground: WateredGround
    stage: Stage
    week: WeekNeed
    zones: tuple[WateringZone, ...]
    together: bool

    def runs(self, cautions: list[Message]) -> list[WaterRun]:
        """Its series: on the evening of the work, else on the next open day, or split over both."""
        days = evenings(self.ground, self.stage, self.week.start, self.week.end, cautions)
        # Where no other day is open the evening takes what it holds.
        own = [d for d in days if d.wetted == d.worked or (d.open and d.wetted is None)]
        runs = self._evening(own).runs(1, cautions) if own else []
        for is_open in (True, False):
            waiting = [d for d in days if d.wetted not in (None, d.worked) and d.open is is_open]
            if waiting:
                share = self._split(waiting, runs, cautions) if is_open else 0.0
                later = self._later(waiting, 1 - share).runs(1, cautions)
                taken = {run.session for run in runs}
                runs += [_renamed(run, taken) for run in later]
        return runs

    def _evening(self, days: list[Evening], share: float = 1.0) -> Week:
        late = late_hours(self.ground.request.book, self.ground.law)
        worked = tuple(d.worked for d in days)
        return replace(self._part(worked, share), ground=replace(self.ground, law=late))

    def _later(self, days: list[Evening], share: float = 1.0) -> Week:
        wetted = tuple(sorted({d.wetted for d in days if d.wetted is not None}))
        worked = tuple(d.worked for d in days)
        return replace(self._part(wetted, share), worked=worked, evening=False)

    def _in_the_night(self, days: list[Evening]) -> Week:
        """What waits whole for the hours between a day's work and the next one's."""
        noon = self.ground.request.book.si("water.start_afternoon")
        night = replace(self.ground, law=self.ground.law.before(noon))
        return replace(self._later(days), ground=night)

    def _part(self, days: tuple[date, ...], share: float) -> Week:
        need = replace(self.week.need, depth_mm=share * self.week.need.depth_mm)
        return Week(
            self.ground,
            self.stage,
            self.week.number,
            days,
            len(days),
            need,
            self.together,
            self.zones,
            evening=True,
        )

    def _split(self, days: list[Evening], runs: list[WaterRun], cautions: list[Message]) -> float:
        """The share that already runs on evenings that are too short for the whole.

        None does where the night after holds all of it: mix and fill bear the wait.
        """
        first = days[0]
        told, then = Day(first.worked, year=False), Day(first.wetted or first.worked, year=False)
        at_once = all(d.wetted == d.worked + timedelta(1) for d in days)
        waits = at_once and self.stage.name not in _LEAFY and self._in_the_night(days).holds_whole()
        share = 0.0 if waits else self._evening(days).most_at_once()
        if not share:
            cautions.append(phrases.week_night_after(stage=self.stage.title, day=told, next=then))
            return share
        cautions.append(
            phrases.week_split_after_work(
                stage=self.stage.title, day=told, share=Number(share, "percent"), next=then
            )
        )
        runs += self._evening(days, share).runs(1, cautions)
        return share


def _renamed(run: WaterRun, taken: Set[str]) -> WaterRun:
    """A run with a name of its own, where one of the evening before has the same."""
    if run.session not in taken:
        return run
    session = f"{run.session}-after"
    return replace(run, session=session, id=run.id.replace(f".{run.session}", f".{session}", 1))
