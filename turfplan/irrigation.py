"""One watering zone: how fast it wets the ground, and how long it runs for a depth of water.

Definitions alone (a litre on a square metre is a millimetre), shared by the rules that set depths and the amounts that
measure sprinklers.
"""

from dataclasses import dataclass
from math import ceil

from turfplan.plan import Amount
from turfplan.units import GALLON_L

MINUTES_IN_HOUR = 60.0
LITRES_IN_M3 = 1000.0


@dataclass(frozen=True, slots=True)
class Zone:
    """One valve, or the one hose: area, mean application rate, and the evenness of its driest quarter (0 to 1).

    `key` is its part of a task id, None where there is a single zone. `rate_reason` says where the rate comes from;
    `exposure` is the share of a sunny zone's water that it needs, `advice` what a catch-can test says should be mended.
    """

    key: str | None
    name: str
    area_m2: float
    rate_mm_h: float
    uniformity: float = 1.0
    rate_reason: str = ""
    measured: bool = False
    exposure: float = 1.0
    advice: tuple[str, ...] = ()
    facts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class RunTime:
    """How one depth is put on: whole minutes of water in equal cycles with pauses to soak in."""

    minutes: int
    cycles: int
    soak_min: int
    runs_off: bool = False

    @property
    def cycle_min(self) -> int:
        """Minutes of one cycle, rounded up."""
        return ceil(self.minutes / self.cycles)

    @property
    def elapsed_min(self) -> int:
        """Minutes from the first drop to the last."""
        return self.minutes + (self.cycles - 1) * self.soak_min


def run_minutes(depth_mm: float, rate_mm_h: float, uniformity: float = 1.0) -> float:
    """Minutes to give `depth_mm` to the driest quarter: 60 depth / (rate x uniformity)."""
    return MINUTES_IN_HOUR * depth_mm / (rate_mm_h * uniformity)


def applied_mm(minutes: float, rate_mm_h: float) -> float:
    """Mean depth that a run of `minutes` puts down."""
    return minutes * rate_mm_h / MINUTES_IN_HOUR


def minutes_before_runoff(rate_mm_h: float, intake_mm_h: float, storage_mm: float) -> float:
    """Minutes until water runs off: the time in which rate less intake fills what the surface holds; inf if never."""
    return MINUTES_IN_HOUR * storage_mm / (rate_mm_h - intake_mm_h) if rate_mm_h > intake_mm_h else float("inf")


def run_time(
    depth_mm: float,
    zone: Zone,
    *,
    intake_mm_h: float,
    storage_mm: float,
    soak_min: float,
    most_cycles: int = 99,
    least_min: int = 1,
) -> RunTime:
    """The run that puts `depth_mm` on a zone without runoff: more, shorter cycles the slower the soil takes water in.

    Never more than `most_cycles`: `runs_off` of the result is true where that is too few.
    """
    minutes = max(least_min, round(run_minutes(depth_mm, zone.rate_mm_h, zone.uniformity)))
    longest = minutes_before_runoff(zone.rate_mm_h, intake_mm_h, storage_mm)
    wanted = max(1, min(minutes, ceil(minutes / longest - 1e-9)))
    cycles = min(wanted, most_cycles)
    return RunTime(minutes, cycles, round(soak_min) if cycles > 1 else 0, wanted > most_cycles)


def litres(depth_mm: float, area_m2: float) -> float:
    """Volume of a depth of water over an area."""
    return depth_mm * area_m2


def water_amount(depth_mm: float, area_m2: float, reason: str, facts: tuple[str, ...] = ()) -> Amount:
    """A depth of water over an area as litres and gallons."""
    volume = litres(depth_mm, area_m2)
    return Amount(
        item="water",
        value=round(volume, 1),
        unit="L",
        value_us=round(volume / GALLON_L, 1),
        unit_us="gal",
        reason=reason,
        facts=facts,
    )
