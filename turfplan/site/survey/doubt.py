"""How far the volume may be off: errors of reading, gaps between points, what noise adds."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from turfplan.site.survey.arrays import Floats
from turfplan.site.survey.ground import SurveyedGround
from turfplan.site.survey.records import Doubt, SurveySettings

# Two-sided 90 % of the normal distribution.
NINETY = 1.6449
TRIALS = 60
# What noise puts on even ground grows as its spread, which a second reading's error raises by the
# root of two: so much more than was added was there before.
WAY_BACK = 1 / (2**0.5 - 1)
SEED = 20_270_301


@dataclass(frozen=True, slots=True)
class Reach:
    """The volume's low and high end in m3, and what they come from."""

    low_m3: float
    high_m3: float
    doubt: Doubt


def errors_of_reading(
    ground: SurveyedGround, settings: SurveySettings, trials: int = TRIALS
) -> Floats:
    """Simulated errors in mm (points, trials).

    Each reading has its own, and each setup of the instrument one. The errors come in pairs of
    opposite sign, so that their mean is nought and small surveys are judged steadily.
    """
    random = np.random.default_rng(SEED)
    half = random.normal(0.0, settings.instrument_error_mm, (ground.count, trials // 2))
    if settings.setup_error_mm > 0:
        steps = random.normal(0.0, settings.setup_error_mm, (int(ground.setup.max()), trials // 2))
        steps[0] = 0.0
        half += np.cumsum(steps, axis=0)[ground.setup - 1]
    return np.concatenate([half, -half], axis=1)


def reach_of(
    volume_m3: float,
    whole_m3: float,
    trials_m3: Floats,
    halves_m3: tuple[float, ...],
    pieces_m3: Floats,
    pieces_m2: Floats,
    unseen_mm: float,
) -> Reach:
    """The band around a volume, from surveys disturbed once more, half surveys, and counted points.

    `whole_m3` is the volume with no shallow fill left out, the others are of its kind;
    `volume_m3`, which is printed, always lies in the band. Without halves (too few points) the
    ground between the points may hold anything up to the whole.

    Noise only ever adds fill, since what is missing is never below nought. Reading every point
    with the same error again shows by how much (simulation extrapolation: Cook and Stefanski, J.
    Am. Stat. Assoc. 89, 1994). How far the way back to no error goes depends on the ground: the
    low end takes off what it is on even ground (`WAY_BACK`), the high end nothing.

    Points further apart than hollows are wide meet some hollows and miss others: what they hold is
    counted in few pieces, and none counted is not none there. `pieces_m2` is the ground that each
    point stands for. The high end is that of a count (score interval of a Poisson number:
    Garwood's problem, Biometrika 28, 1936, by its normal form), one piece being the ground of a
    point as deep as ordinary hollows are (`unseen_mm`); where points stand close it is hardly
    anything.
    """
    spread = float(trials_m3.std(ddof=1)) if len(trials_m3) > 1 else 0.0
    added = max(0.0, float(trials_m3.mean()) - whole_m3) if len(trials_m3) else 0.0
    gaps = max(_moved(whole_m3, halves_m3), _counted(pieces_m3)) if halves_m3 else whole_m3
    band = ((NINETY * spread) ** 2 + gaps**2) ** 0.5
    low = max(0.0, min(volume_m3, whole_m3 - WAY_BACK * added - band))
    unseen = NINETY**2 / 2 * _piece(pieces_m2, unseen_mm)
    high = whole_m3 + unseen + (band**2 + unseen**2) ** 0.5
    return Reach(low, max(volume_m3, high), Doubt(NINETY * spread, gaps, added, 2 * unseen))


def _piece(pieces_m2: Floats, unseen_mm: float) -> float:
    """The volume in m3 that an ordinary hollow has on the ground of one point.

    Wide pieces count by their width.
    """
    return float((pieces_m2**2).sum() / pieces_m2.sum()) * unseen_mm / 1000


def _moved(whole_m3: float, halves_m3: tuple[float, ...]) -> float:
    """The root mean square by which half of the points change the volume."""
    return float((sum((half - whole_m3) ** 2 for half in halves_m3) / len(halves_m3)) ** 0.5)


def _counted(pieces_m3: Floats) -> float:
    """The error of a volume that is counted point by point, each standing for its piece of ground.

    The root of the sum of squares, as for things counted at random: ten points in hollows leave a
    third in doubt.
    """
    return float(np.sqrt((pieces_m3**2).sum()))


def halves(
    ground: SurveyedGround, volume_of: Callable[[npt.NDArray[np.int64]], float]
) -> tuple[float, ...]:
    """The volumes that two interleaved halves of the survey give."""
    order = np.random.default_rng(SEED).permutation(ground.count)
    return tuple(volume_of(np.sort(order[start::2])) for start in (0, 1))
