"""Judges how closely a week must be set so that it fits on one page.

Heights are in em of the page's text; they follow `static/page.css`, where the four settings are the classes `fit-…`.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Literal

from turfplan.export.sheets import Paper

Fit = Literal["roomy", "close", "tight", "spread", "spread-tight"]
POINTS_IN_MM = 72 / 25.4
MARGINS_MM, UPRIGHT_MARGINS_MM = 28.0, 26.0
SIZE_MM: dict[Paper, tuple[float, float]] = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}
TEXT_POINTS, LARGE_POINTS = 10.0, 16.0
# Size of the text against the roomy setting, and height of a line in em of it.
SETTINGS: tuple[tuple[Fit, float, float], ...] = (("roomy", 1.0, 1.32), ("close", 0.93, 1.26), ("tight", 0.85, 1.22))
CHARACTER_EM = 0.52
SAFETY_EM = 1.6
NOTE_LINE_EM = 1.75
LEAST_NOTE_LINES, MOST_NOTE_LINES = 3, 22


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
    """The roomiest setting in which the week fits on one page; a week too full for one is spread over two."""
    points = LARGE_POINTS if large else TEXT_POINTS
    for fit, size, line in SETTINGS:
        room = room_em(paper, points * size) - sum(_blocks(text, wide_em(paper, points * size), line))
        if room >= LEAST_NOTE_LINES * NOTE_LINE_EM:
            return Fitting(fit, min(MOST_NOTE_LINES, int(room / NOTE_LINE_EM)))
        if large:
            return Fitting(fit, LEAST_NOTE_LINES)
    fewest: tuple[int, float, Fit] | None = None
    spreads: tuple[Fit, Fit] = ("spread", "spread-tight")
    for fit, (_, size, line) in zip(spreads, SETTINGS[1:], strict=True):
        page = room_em(paper, points * size)
        pages, left = _packed(_blocks(text, wide_em(paper, points * size), line), page)
        if fewest is None or pages < fewest[0]:
            fewest = (pages, left, fit)
    assert fewest is not None  # there are two settings
    return Fitting(fewest[2], max(LEAST_NOTE_LINES, min(MOST_NOTE_LINES, int(fewest[1] / NOTE_LINE_EM))))


def _packed(blocks: Sequence[float], page: float) -> tuple[int, float]:
    """How many pages blocks that are kept whole take one after the other, and what the last leaves for notes."""
    *others, tail = blocks
    pages, left = 1, page
    for height in (*others, tail + LEAST_NOTE_LINES * NOTE_LINE_EM):
        if height > left:
            pages, left = pages + 1, page
        left -= height
    return pages, left + LEAST_NOTE_LINES * NOTE_LINE_EM


def wide_em(paper: Paper, points: float) -> float:
    """The width of the text in em of a size in points."""
    return (SIZE_MM[paper][0] - MARGINS_MM) * POINTS_IN_MM / points


def room_em(paper: Paper, points: float) -> float:
    """The height of the page's text in em of a size in points, less a reserve."""
    return (SIZE_MM[paper][1] - UPRIGHT_MARGINS_MM) * POINTS_IN_MM / points - SAFETY_EM


def _blocks(text: WeekText, wide: float, line: float) -> tuple[float, ...]:
    """The heights in em, on a text `wide` em wide, of the head, of each job, and of the foot without lines for notes."""
    head = 0.9 * line + 0.9 + 2.2 + line + 0.5
    rows = (text.jobs != ()) + (text.water_labels != ())
    table = (0.92 * line + 0.5) * rows + sum(
        0.92 * line * _lines(length, 0.34 * wide / 0.95) + 0.5 for length in text.water_labels
    )
    rule = line * _lines(text.water_rule, wide) + 0.5 if text.water_rule else 0.0
    care = sum(0.9 * line * _lines(length, wide / 0.9) + 0.8 for length in text.water_cautions)
    ahead = 0.9 * line * sum(_lines(length, 0.46 * wide / 0.9) for length in text.ahead)
    tail = 1.1 + 1.2 + max(line, ahead - LEAST_NOTE_LINES * NOTE_LINE_EM) + 0.9 + 2 * 0.78 * line
    return head + table + rule + care, *(_job(job, wide - 4.2, line) for job in text.jobs), tail


def _job(job: JobText, wide: float, line: float) -> float:
    """The height of one job."""
    top = 0.5 + 1.22 * 1.15 * _lines(job.title, wide / 1.3) + 0.9 * line * _lines(job.facts, wide / 0.9)
    if job.closed:
        return top + line
    beside = wide * (0.6 if job.cautions else 1.0)
    doing = line * _lines(job.rule, beside - 0.8) + 0.5 if job.rule else 0.0
    doing += line * _lines(job.quantities, beside) + 0.3 if job.quantities else 0.0
    doing += sum(line * _lines(length, beside - 1.5) + 0.15 for length in job.steps) + (line if job.again else 0.0)
    care = sum(0.9 * line * _lines(length + 11, 0.38 * wide / 0.9 - 1.2) + 0.8 for length in job.cautions)
    why = 0.9 * line * _lines(job.why, wide / 0.9) + 0.2 if job.why else 0.0
    return max(top + 0.25 + max(doing, care) + why, 4.2)


def _lines(characters: int, wide: float) -> int:
    """How many lines that many characters take on a width in em."""
    return ceil(characters * CHARACTER_EM / wide) if characters else 0


def lengths(texts: Iterable[str]) -> tuple[int, ...]:
    """The length of each text."""
    return tuple(len(text) for text in texts)
