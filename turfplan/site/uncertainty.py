"""How far the volume may be off: errors of reading, gaps between points, and what noise adds by itself."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from turfplan.site.ground import Ground
from turfplan.site.records import Doubt, SurveySettings

Floats = npt.NDArray[np.float64]

# Two-sided 90 % of the normal distribution.
NINETY = 1.6449
TRIALS = 60
SEED = 20_270_301


@dataclass(frozen=True, slots=True)
class Reach:
    """The volume's low and high end in m3, and what they come from."""

    low_m3: float
    high_m3: float
    doubt: Doubt


def errors_of_reading(ground: Ground, settings: SurveySettings, trials: int = TRIALS) -> Floats:
    """Simulated errors in mm, one column a trial: each reading's own, and one for each setup of the instrument.

    The errors come in pairs of opposite sign, so that their mean is nought and small surveys are judged steadily.
    """
    random = np.random.default_rng(SEED)
    half = random.normal(0.0, settings.instrument_error_mm, (ground.count, trials // 2))
    if settings.setup_error_mm > 0:
        steps = random.normal(0.0, settings.setup_error_mm, (int(ground.setup.max()), trials // 2))
        steps[0] = 0.0
        half += np.cumsum(steps, axis=0)[ground.setup - 1]
    return np.concatenate([half, -half], axis=1)


def reach_of(volume_m3: float, trials_m3: Floats, halves_m3: tuple[float, ...], *, few: bool) -> Reach:
    """The band around a volume from volumes of disturbed surveys and of surveys with half of the points.

    Noise only ever adds fill, since what is missing is never below nought. Adding the error of reading once more shows by
    how much; the way back to no error goes by the root of the error's variance (simulation extrapolation, Cook and
    Stefanski, J. Am. Stat. Assoc. 89, 1994), at least by as much as was added, at most by that root.
    """
    spread = float(trials_m3.std(ddof=1)) if len(trials_m3) > 1 else 0.0
    added = max(0.0, float(trials_m3.mean()) - volume_m3) if len(trials_m3) else 0.0
    noise = added / (2**0.5 - 1)
    gaps = volume_m3 if few else _gaps(volume_m3, halves_m3)
    band = ((NINETY * spread) ** 2 + gaps**2) ** 0.5
    low = max(0.0, min(volume_m3, volume_m3 - noise - band))
    high = max(volume_m3, volume_m3 - added + band)
    return Reach(low, high, Doubt(NINETY * spread, gaps, noise))


def _gaps(volume_m3: float, halves_m3: tuple[float, ...]) -> float:
    """What the ground between the points may hold: how far the volume moves when half of the points are left out."""
    if not halves_m3:
        return 0.0
    return max(abs(half - volume_m3) for half in halves_m3) / 2**0.5


def halves(ground: Ground, volume_of: Callable[[npt.NDArray[np.int64]], float]) -> tuple[float, ...]:
    """The volumes that two interleaved halves of the survey give."""
    order = np.random.default_rng(SEED).permutation(ground.count)
    return tuple(volume_of(np.sort(order[start::2])) for start in (0, 1))
