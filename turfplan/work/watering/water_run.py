"""One repeated watering, as the calendar takes it."""

from dataclasses import dataclass
from datetime import date, time

from turfplan.calendar_days import recurring_days
from turfplan.message import Message
from turfplan.phrases import places
from turfplan.phrases import watering as phrases
from turfplan.records.book_names import FactName
from turfplan.records.plan_task import Amount
from turfplan.work.watering.how_to_run import divided
from turfplan.work.watering.run_times import RunTime
from turfplan.work.watering.stages import STAGE_NAMES, StageName


@dataclass(frozen=True, slots=True)
class WaterRun:
    """One repeated watering: a calendar series for one stage, week, session and zone.

    `depth_mm` is what the driest quarter of the zone gets at each run, `applied_mm` the mean.
    `zone` is None for a lawn with one zone, and where all zones share a series; `zone_name` is None
    for the first. `rate_mm_h` falls where one zone is wetted. `puts_down` says what the minutes of
    one zone come to, `steps` how else it is done. `where` is the part of the lawn that needs it;
    None for all of it. With `stand_in` nobody of the household is there on its days; with `often`
    it is one of more runs than its stage asks for.
    """

    id: str
    stage: StageName
    session: str
    zone: str | None
    zone_name: Message | None
    start: date
    end: date
    start_time: time
    when: RunTime
    weekdays: tuple[str, ...]
    skip: tuple[date, ...]
    depth_mm: float
    applied_mm: float
    area_m2: float
    rate_mm_h: float | None
    hose: bool
    amounts: tuple[Amount, ...]
    why: Message
    puts_down: Message | None
    steps: tuple[Message, ...]
    facts: tuple[FactName, ...] = ()
    where: Message | None = None
    stand_in: bool = False
    often: bool = False

    @property
    def stage_name(self) -> Message:
        """What its stage is called: one that is not watered less often is not called so."""
        weaned_often = self.often and self.stage == "weaning"
        return phrases.stage_weaning_often() if weaned_often else STAGE_NAMES[self.stage]

    @property
    def minutes(self) -> int:
        """Minutes of water of a run, in all places and cycles."""
        return self.when.minutes

    @property
    def elapsed_min(self) -> int:
        """Minutes from the first drop of a run to the last."""
        return self.when.elapsed_min

    @property
    def cycles(self) -> int:
        """In how many cycles each place gets its minutes."""
        return self.when.cycles

    @property
    def work_min(self) -> float:
        """Minutes of the household at each run."""
        return 0.0 if self.stand_in else self.when.moving_min

    @property
    def title(self) -> Message:
        """What the calendar calls it: its stage, minutes and zone."""
        stage, when = self.stage_name, self.when
        if when.settings > 1 and when.cycles > 1:
            run = phrases.title_settings_cycles(
                stage=stage, settings=when.settings, cycles=when.cycles, minutes=when.cycle_min
            )
        elif when.settings > 1:
            run = phrases.title_settings(
                stage=stage, settings=when.settings, minutes=when.cycle_min
            )
        elif when.cycles > 1:
            run = phrases.title_cycles(stage=stage, minutes=when.minutes, cycles=when.cycles)
        else:
            run = phrases.title_run(stage=stage, minutes=when.minutes)
        if self.zone_name is not None:
            run = phrases.title_of_zone(run=run, zone=self.zone_name)
        run = run if self.where is None else places.titled(title=run, where=self.where)
        return phrases.title_stand_in(run=run) if self.stand_in else run

    @property
    def how(self) -> tuple[Message, ...]:
        """How it is done, step by step."""
        puts_down = () if self.puts_down is None else (self.puts_down,)
        where = () if self.where is None else (places.first_water(where=self.where),)
        who = (phrases.how_stand_in(),) if self.stand_in else ()
        return (*who, *where, *puts_down, *divided(self.when, hose=self.hose), *self.steps)

    def days(self) -> tuple[date, ...]:
        """The days on which it runs."""
        return recurring_days(self.start, self.end, self.weekdays, self.skip)
