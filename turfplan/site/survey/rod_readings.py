"""Rod readings of a level become heights, with the misclosure of the loop."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from turfplan.errors import Problem, TurfplanError
from turfplan.message import Worded
from turfplan.phrases import survey as phrases


@dataclass(frozen=True, slots=True)
class Reading:
    """One line of level notes, all in mm.

    `back_mm` is the reading on a point whose height is known, `fore_mm` the reading on a point
    whose height is wanted. A line with both is a turning point: the instrument was moved between
    them. `known_mm` is a height given beforehand. `name` is what the point was called, else its
    line.
    """

    name: Worded
    back_mm: float | None = None
    fore_mm: float | None = None
    known_mm: float | None = None


@dataclass(frozen=True, slots=True)
class Leveled:
    """A run of level notes: adjusted heights in mm, the setup of each, and the misclosure.

    `misclosure_mm` is computed less known at the end of the loop, None for a run that does not
    close.
    """

    heights_mm: tuple[float, ...]
    setups: tuple[int, ...]
    misclosure_mm: float | None
    instrument_setups: int


def level_run(readings: Sequence[Reading]) -> Leveled:
    """Heights by height of instrument: HI = height + back reading, height = HI - fore reading.

    The misclosure is shared out over the setups in proportion to their number, as level loops are
    adjusted by custom. The run closes where its last line names the first point again or holds a
    known height. Raises TurfplanError for notes that cannot be reckoned.
    """
    faults = _faults(readings)
    if faults:
        raise TurfplanError(faults)
    heights, setups = [readings[0].known_mm or 0.0], [1]
    instrument, setup = heights[0] + (readings[0].back_mm or 0.0), 1
    for reading in readings[1:]:
        height = instrument - (reading.fore_mm or 0.0)
        heights.append(height)
        setups.append(setup)
        if reading.back_mm is not None:
            instrument, setup = height + reading.back_mm, setup + 1
    last = readings[-1]
    known = (
        last.known_mm
        if last.known_mm is not None
        else heights[0]
        if last.name == readings[0].name
        else None
    )
    if known is None or len(readings) < 3:
        return Leveled(tuple(heights), tuple(setups), None, setup)
    misclosure = heights[-1] - known
    # Each setup carries an equal part of what does not close; a point read from setup k carries k
    # parts.
    adjusted = [
        heights[0],
        *(h - misclosure * s / setup for h, s in zip(heights[1:], setups[1:], strict=True)),
    ]
    return Leveled(tuple(adjusted), tuple(setups), misclosure, setup)


def allowed_misclosure_mm(setup_error_mm: float, setups: int, confidence: float = 3.0) -> float:
    """The misclosure in mm that errors of reading alone explain.

    It is `confidence` times the error of a setup times the root of the setups.
    """
    return confidence * setup_error_mm * math.sqrt(max(setups, 1))


def _faults(readings: Sequence[Reading]) -> list[Problem]:
    if not readings:
        return [Problem("", phrases.fault_no_readings())]
    faults: list[Problem] = []
    if readings[0].back_mm is None:
        faults.append(
            Problem(
                readings[0].name,
                phrases.fault_no_back(),
                None,
                None,
                phrases.fault_no_back_hint(),
            )
        )
    for reading in readings[1:]:
        if reading.fore_mm is None:
            faults.append(Problem(reading.name, phrases.fault_no_fore()))
    return faults
