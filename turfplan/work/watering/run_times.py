"""One watering zone: how fast it wets the ground, and how long it runs for a depth of water.

Definitions alone (a litre on a square metre is a millimetre), shared by the rules that set depths
and the amounts that measure sprinklers.
"""

from dataclasses import dataclass
from math import ceil, floor, isfinite
from typing import Literal

from turfplan.message import Message
from turfplan.records.book_names import FactName
from turfplan.records.plan_task import NOTHING, Amount
from turfplan.units import GALLON_L

MINUTES_IN_HOUR = 60.0
LITRES_IN_M3 = 1000.0


@dataclass(frozen=True, slots=True)
class Hose:
    """One tap with one sprinkler on a hose: litres a minute, m2 of a setting, minutes to move it.

    All of the flow goes to one setting at a time, which is `least_m2` or larger.

    `most_min` are the minutes of a day in which somebody is there; None where a timer waters.
    """

    flow_l_min: float
    cover_m2: float
    least_m2: float
    move_min: float
    most_min: float | None


@dataclass(frozen=True, slots=True)
class WateringZone:
    """One valve, or the one hose: area, rate where it wets, how even its driest quarter is, 0 to 1.

    `key` is its part of a task id, None where there is a single zone. `rate_reason` says where the
    rate comes from; `exposure` is the share of a sunny zone's water that it needs, `advice` what a
    catch-can test says should be mended.
    """

    key: str | None
    name: Message
    area_m2: float
    rate_mm_h: float
    uniformity: float = 1.0
    rate_reason: Message = NOTHING
    measured: bool = False
    exposure: float = 1.0
    advice: tuple[Message, ...] = ()
    facts: tuple[FactName, ...] = ()
    hose: Hose | None = None

    @property
    def settings(self) -> int:
        """In how many places the sprinkler stands for one run; 1 where nothing is moved."""
        return 1 if self.hose is None else settings_of(self.area_m2, self.hose)

    @property
    def flow_l_min(self) -> float:
        """Litres a minute that its rate takes where all of it is wetted at once."""
        return litres(self.rate_mm_h, self.area_m2) / MINUTES_IN_HOUR

    @property
    def by_hand(self) -> bool:
        """True where somebody turns the water on and moves the sprinkler."""
        return self.hose is not None and self.hose.most_min is not None


@dataclass(frozen=True, slots=True)
class RunTime:
    """How one depth is put on: whole minutes of water in equal cycles with pauses to soak in.

    `minutes` are those of all `settings` and cycles together, `soak_min` passes in one place from
    the end of a cycle to the next; `move_min` goes by at each setting of each cycle. `idle_min`
    is what several zones in one series wait besides.
    """

    minutes: int
    cycles: int
    soak_min: int
    runs_off: bool = False
    settings: int = 1
    move_min: float = 0.0
    idle_min: int = 0

    @property
    def cycle_min(self) -> int:
        """Minutes of one cycle in one place, rounded up."""
        return ceil(self.minutes / (self.cycles * self.settings))

    @property
    def setting_min(self) -> int:
        """Minutes of all cycles in one place."""
        return self.cycle_min * self.cycles

    @property
    def moving_min(self) -> float:
        """Minutes of a person who opens the tap and moves the sprinkler."""
        return self.settings * self.cycles * self.move_min

    @property
    def wait_min(self) -> int:
        """Minutes in which nothing runs between two rounds: while others are watered, one soaks."""
        others = (self.settings - 1) * (self.cycle_min + self.move_min)
        return max(0, ceil(self.soak_min - others))

    @property
    def elapsed_min(self) -> int:
        """Minutes from the first drop to the last."""
        pauses = (self.cycles - 1) * self.wait_min + self.idle_min
        return self.minutes + ceil(self.moving_min) + pauses


def run_minutes(depth_mm: float, rate_mm_h: float, uniformity: float = 1.0) -> float:
    """Minutes to give `depth_mm` to the driest quarter: 60 depth / (rate x uniformity)."""
    return MINUTES_IN_HOUR * depth_mm / (rate_mm_h * uniformity)


def settings_of(area_m2: float, hose: Hose) -> int:
    """In how many places a sprinkler stands until all of an area is wet."""
    return max(1, ceil(area_m2 / hose.cover_m2 - 1e-9))


def rate_of_setting_mm_h(area_m2: float, hose: Hose) -> float:
    """Rate where a sprinkler stands: all of the tap's flow falls on one of its equal settings."""
    wetted_m2 = max(area_m2 / settings_of(area_m2, hose), hose.least_m2)
    return hose.flow_l_min * MINUTES_IN_HOUR / wetted_m2


def applied_mm(minutes: float, rate_mm_h: float) -> float:
    """Mean depth that a run of `minutes` puts down."""
    return minutes * rate_mm_h / MINUTES_IN_HOUR


def minutes_before_runoff(rate_mm_h: float, intake_mm_h: float, storage_mm: float) -> float:
    """Minutes until water runs off: until rate less intake fills what the surface holds.

    It is infinite where the soil takes in all that falls.
    """
    return (
        MINUTES_IN_HOUR * storage_mm / (rate_mm_h - intake_mm_h)
        if rate_mm_h > intake_mm_h
        else float("inf")
    )


def run_time(
    depth_mm: float,
    zone: WateringZone,
    *,
    intake_mm_h: float,
    storage_mm: float,
    soak_min: float,
    most_cycles: int = 99,
    least_min: int = 1,
) -> RunTime:
    """The run that puts `depth_mm` on a zone without runoff.

    The slower the soil takes water in, the more and shorter are its cycles; between two of them
    passes `soak_min`, or longer, until what stands on the surface has gone in. Never more cycles
    than `most_cycles`: `runs_off` of the result is true where that is too few.
    """
    each = max(least_min, run_minutes(depth_mm, zone.rate_mm_h, zone.uniformity))
    longest = minutes_before_runoff(zone.rate_mm_h, intake_mm_h, storage_mm)
    whole = max(1, floor(longest + 1e-9)) if isfinite(longest) else max(1, ceil(each))
    cycles = min(max(1, ceil(round(each) / whole - 1e-9)), most_cycles)
    cycle_min = max(1, round(each / cycles))
    # Rounded to whole minutes, as much may go into fewer and fuller cycles.
    fewer = min(cycles, ceil(cycles * cycle_min / whole))
    cycles, cycle_min = fewer, ceil(cycles * cycle_min / fewer)
    ponds_mm = min(storage_mm, max(0.0, zone.rate_mm_h - intake_mm_h) * cycle_min / MINUTES_IN_HOUR)
    soak = max(soak_min, MINUTES_IN_HOUR * ponds_mm / intake_mm_h) if cycles > 1 else 0
    return RunTime(
        cycles * cycle_min * zone.settings,
        cycles,
        ceil(soak - 1e-9),
        cycle_min > longest + 1e-9,
        zone.settings,
        zone.hose.move_min if zone.hose is not None and zone.by_hand else 0.0,
    )


def litres(depth_mm: float, area_m2: float) -> float:
    """Volume of a depth of water over an area."""
    return depth_mm * area_m2


def water_amount(
    depth_mm: float,
    area_m2: float,
    reason: Message,
    facts: tuple[FactName, ...] = (),
    *,
    item: Literal["water", "water each time"] = "water",
) -> Amount:
    """A depth of water over an area as litres and gallons."""
    volume = litres(depth_mm, area_m2)
    return Amount(
        item=item,
        value=round(volume, 1),
        unit="L",
        value_us=round(volume / GALLON_L, 1),
        unit_us="gal",
        reason=reason,
        facts=facts,
    )
