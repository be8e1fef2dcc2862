"""Judges how closely a week must be set so that it fits on one page.

Heights are in em of the page's text; they follow `static/page.css`, where the settings are the classes `fit-…`. The widths
are those of a wide sans-serif, so that a machine without a narrower one still prints one page a week.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Literal

from turfplan.export.sheets import Paper

Fit = Literal["roomy", "close", "tight", "short", "brief", "packed", "dense", "spread"]
POINTS_IN_MM = 72 / 25.4
MARGINS_MM, UPRIGHT_MARGINS_MM = 28.0, 26.0
SIZE_MM: dict[Paper, tuple[float, float]] = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}
TEXT_POINTS, LARGE_POINTS = 10.0, 16.0
# The characters of the last line of a page: when it was made, and what comes before it.
COLOPHON_LENGTH = 200
CHARACTER_EM = 0.53
SAFETY_EM = 1.6
NOTE_LINE_EM = 1.75
MOST_NOTE_LINES = 22
# By how much of a page a text in a usual sans-serif is shorter than it is reckoned here.
USUALLY_SHORTER = 0.1


@dataclass(frozen=True, slots=True)
class Setting:
    """How a page is set: size of the text against the usual, height of a line in em of it, and what gives way.

    `notes` is the least number of lines to write on; without `reasons` these stand in the season book alone; `run_on`
    sets heading and facts of a job in one line, its cautions across the page and its steps one after the other.
    """

    fit: Fit
    size: float
    line: float
    notes: int
    reasons: bool = True
    run_on: bool = False


ROOMY = Setting("roomy", 1.0, 1.32, 3)
CLOSE = Setting("close", 0.93, 1.26, 3)
SETTINGS = (
    ROOMY,
    CLOSE,
    Setting("tight", 0.85, 1.22, 3),
    Setting("brief", 0.85, 1.22, 2, reasons=False),
    Setting("packed", 0.85, 1.22, 2, reasons=False, run_on=True),
    Setting("dense", 0.8, 1.22, 1, reasons=False, run_on=True),
)
LARGE_SETTINGS = (ROOMY, CLOSE, Setting("short", 0.93, 1.26, 2, reasons=False))
SPREAD = Setting("spread", 1.0, 1.32, 3)


@dataclass(frozen=True, slots=True)
class JobText:
    """The lengths, in characters, of what stands beside one job; a closed job has only its heading and one line."""

    title: int
    facts: int
    rule: int
    steps: tuple[int, ...]
    quantities: int
    cautions: tuple[int, ...]
    again: bool
    why: int
    closed: bool


@dataclass(frozen=True, slots=True)
class WeekText:
    """The lengths of everything on the page of a week."""

    jobs: tuple[JobText, ...]
    water_labels: tuple[int, ...]
    water_rule: int
    water_cautions: tuple[int, ...]
    ahead: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Fitting:
    """The setting of a page and how many lines to write on it holds."""

    fit: Fit
    note_lines: int


def fit_of(text: WeekText, paper: Paper, *, large: bool) -> Fitting:
    """The roomiest setting in which the week fits on one page; in large print a full week goes on over several."""
    points = LARGE_POINTS if large else TEXT_POINTS
    for setting in LARGE_SETTINGS if large else SETTINGS:
        size = points * setting.size
        page = room_em(paper, size)
        room = page - sum(_blocks(text, wide_em(paper, size), setting, large=large))
        if room >= setting.notes * NOTE_LINE_EM:
            return Fitting(setting.fit, min(MOST_NOTE_LINES, int(room / NOTE_LINE_EM)))
        # The last setting is the only one that trusts the text to be as narrow as it usually is.
        if setting is SETTINGS[-1] and room >= -USUALLY_SHORTER * page:
            return Fitting(setting.fit, setting.notes)
    size = points * SPREAD.size
    left = _left(_blocks(text, wide_em(paper, size), SPREAD, large=large), room_em(paper, size))
    return Fitting(SPREAD.fit, max(SPREAD.notes, min(MOST_NOTE_LINES, int(left / NOTE_LINE_EM))))


def _left(blocks: Sequence[float], page: float) -> float:
    """What blocks that are kept whole, one after the other, leave for notes on their last page."""
    *others, tail = blocks
    left = page
    for height in (*others, tail + SPREAD.notes * NOTE_LINE_EM):
        left = (left if height <= left else page) - min(height, page)
    return left + SPREAD.notes * NOTE_LINE_EM


def wide_em(paper: Paper, points: float) -> float:
    """The width of the text in em of a size in points."""
    return (SIZE_MM[paper][0] - MARGINS_MM) * POINTS_IN_MM / points


def room_em(paper: Paper, points: float) -> float:
    """The height of the page's text in em of a size in points, less a reserve."""
    return (SIZE_MM[paper][1] - UPRIGHT_MARGINS_MM) * POINTS_IN_MM / points - SAFETY_EM


def _blocks(text: WeekText, wide: float, setting: Setting, *, large: bool) -> tuple[float, ...]:
    """The heights in em, on a text `wide` em wide, of the head, of each job, and of the foot without lines for notes."""
    line = setting.line
    title = 1.8 if setting.run_on else 1.9 * 1.15 * _lines(len("Mon 00 to Sun 00, 0000"), wide / 2.2) + line
    head = 0.9 * line + 0.9 + title + 0.5
    rows = 1 + (text.jobs != ()) if text.jobs or text.water_labels else 0
    table = (0.92 * line + 0.6) * rows + (2.2 * line if large and rows else 0.0)
    label = (0.3 if large else 0.34) * wide - 1
    table += sum(0.92 * line * _lines(length, label / 0.97) + 0.6 for length in text.water_labels) + 0.5
    rule = line * _lines(text.water_rule, wide - 1) + 0.5 if text.water_rule else 0.0
    care = sum(0.9 * line * _lines(length + 8, wide / 0.9 - 1.2) + 0.8 for length in text.water_cautions)
    foot = 1.1 + 0.6 + 0.3 + 0.78 * line * _lines(COLOPHON_LENGTH, wide / 0.78)
    heading, weather = 1.15, line
    if large:
        ahead = 0.9 * line * sum(_lines(length + 4, wide / 0.9) for length in text.ahead or (20,))
        tail = foot + 2 * heading + weather + ahead
    else:
        # The look-ahead stands beside the notes: it adds only what is longer than they are.
        ahead = 0.9 * line * sum(_lines(length + 4, 0.48 * wide / 0.92) for length in text.ahead or (20,))
        tail = foot + heading + max(weather, ahead - setting.notes * NOTE_LINE_EM)
    return head + table + rule + care, *(_job(job, wide - 4.2, setting) for job in text.jobs), tail


def _job(job: JobText, wide: float, setting: Setting) -> float:
    """The height of one job."""
    line = setting.line
    if setting.run_on and not job.closed:
        return _job_run_on(job, wide, line)
    top = 0.55 + 1.22 * 1.15 * _lines(job.title, wide / 1.3) + 0.9 * line * _lines(job.facts, wide / 0.9)
    if job.closed:
        return top + line
    beside = wide * (0.6 if job.cautions else 1.0)
    doing = line * _lines(job.rule, beside - 0.8) + 0.5 if job.rule else 0.0
    doing += line * _lines(job.quantities, beside) + 0.3 if job.quantities else 0.0
    doing += sum(line * _lines(length, beside - 1.5) + 0.15 for length in job.steps) + (line if job.again else 0.0)
    care = sum(0.9 * line * _lines(length + 11, 0.38 * wide / 0.9 - 1.2) + 0.8 for length in job.cautions)
    why = 0.9 * line * _lines(job.why, wide / 0.9) + 0.2 if job.why and setting.reasons else 0.0
    return max(top + 0.25 + max(doing, care) + why, 4.2)


def _job_run_on(job: JobText, wide: float, line: float) -> float:
    """The height of one job whose pieces follow one another in the line."""
    top = 0.65 + 1.3 * _lines(ceil(job.title * 1.22 + job.facts * 0.9), wide)
    care = sum(0.9 * line * _lines(length + 11, wide / 0.9 - 1.2) for length in job.cautions) + 0.7
    rule = line * _lines(job.rule, wide - 0.8) + 0.5 if job.rule else 0.0
    quantities = line * _lines(job.quantities, wide) + 0.3 if job.quantities else 0.0
    steps = line * _lines(sum(length + 5 for length in job.steps) + 36 * job.again, wide)
    return max(top + 0.25 + (care if job.cautions else 0.0) + rule + quantities + steps, 4.2)


def _lines(characters: int, wide: float) -> int:
    """How many lines that many characters take on a width in em."""
    return ceil(characters * CHARACTER_EM / wide) if characters else 0


def lengths(texts: Iterable[str]) -> tuple[int, ...]:
    """The length of each text."""
    return tuple(len(text) for text in texts)
