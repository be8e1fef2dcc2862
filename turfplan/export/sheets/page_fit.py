"""Judges how closely a week must be set so that it fits on one page.

Heights are in em of the page's text; they follow `static/page.css`, where the settings are the
classes `fit-…`. The widths are those of a wide sans-serif, so that a machine without a narrower one
still prints one page a week; only the fullest weeks trust in the usual one, before they get smaller
than 9 points.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Literal

from turfplan.export.sheets.look import Paper

Fit = Literal["roomy", "close", "brief", "short", "columns", "packed", "dense", "spread"]
POINTS_IN_MM = 72 / 25.4
MARGINS_MM, UPRIGHT_MARGINS_MM = 28.0, 26.0
SIZE_MM: dict[Paper, tuple[float, float]] = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}
TEXT_POINTS, LARGE_POINTS = 10.0, 16.0
# The characters of the last line of a page: when it was made, and what comes before it.
COLOPHON_LENGTH = 200
TITLE_LENGTH = len("Mon 00 to Sun 00, 0000")
CHARACTER_EM = 0.53
SAFETY_EM = 2.2
NOTE_LINE_EM = 1.75
MOST_NOTE_LINES = 22
# By how much of a page a text in a usual sans-serif is shorter, at 9 points, than reckoned here: so
# much at the least, since jobs that are kept whole leave more or less of a column empty.
USUALLY_SHORTER = 0.15
COLUMN_GAP_EM = 1.4
# What two columns lose where a job goes on in the second: its boxes and rules stay whole.
UNEVEN_EM = 4.0


@dataclass(frozen=True, slots=True)
class PageSetting:
    """How a page is set: size of the text against the usual, height of a line in em of it, and what
    gives way.

    `second` is the size of facts, cautions and the look-ahead in em: 9 points in every setting down
    to `dense`. `notes` is the least number of lines to write on; without `reasons` these stand in
    the season book alone; in `columns` the jobs stand in two, each under its heading, and `run_on`
    sets their steps one after the other.
    """

    fit: Fit
    size: float
    line: float
    notes: int
    second: float = 0.9
    reasons: bool = True
    columns: bool = False
    run_on: bool = False

    @property
    def classes(self) -> str:
        """The classes of the stylesheet that set a page so."""
        beside = {0.95: " set-close", 1.0: " set-closest"}.get(self.second, "")
        return f"fit-{self.fit}{beside}{' in-columns' * self.columns}{' run-on' * self.run_on}"


ROOMY = PageSetting("roomy", 1.0, 1.32, 3)
CLOSE = PageSetting("close", 0.95, 1.26, 3, second=0.95)
DENSE = PageSetting("dense", 0.9, 1.22, 1, second=1.0, reasons=False, columns=True, run_on=True)
READABLE = (
    ROOMY,
    CLOSE,
    PageSetting("brief", 0.95, 1.26, 2, second=0.95, reasons=False),
    PageSetting("columns", 0.95, 1.26, 2, second=0.95, reasons=False, columns=True),
    PageSetting("packed", 0.9, 1.22, 2, second=1.0, reasons=False, columns=True),
    DENSE,
)
"""Nothing in these is smaller than 9 points but the last line of the page."""
LARGE_SETTINGS = (
    ROOMY,
    PageSetting("close", 0.93, 1.26, 3),
    PageSetting("short", 0.93, 1.26, 2, reasons=False),
)
SPREAD = PageSetting("spread", 1.0, 1.32, 3)


@dataclass(frozen=True, slots=True)
class JobText:
    """The lengths, in characters, of what stands beside one job.

    A closed job has only its heading and one line.
    """

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
    """The setting of a page, how many lines to write on it holds, the classes that set it, how many
    jobs its first column.
    """

    fit: Fit
    note_lines: int
    classes: str
    first_column: int = 0


def fit_of(text: WeekText, paper: Paper, *, large: bool) -> Fitting:
    """The roomiest setting in which the week fits on one page.

    A week that is too full for one, and in large print any full week, goes on over several.
    """
    points = LARGE_POINTS if large else TEXT_POINTS

    def left(setting: PageSetting) -> tuple[float, float]:
        """The height left for notes in em, and that of the page."""
        size = points * setting.size
        page = room_em(paper, size)
        return page - sum(_blocks(text, wide_em(paper, size), setting, large=large)), page

    for setting in LARGE_SETTINGS if large else READABLE:
        room, _ = left(setting)
        if room >= setting.notes * NOTE_LINE_EM:
            first = _first_of(text.jobs, wide_em(paper, points * setting.size), setting)
            return Fitting(
                setting.fit, min(MOST_NOTE_LINES, int(room / NOTE_LINE_EM)), setting.classes, first
            )
    # Before a week goes on over two pages, its text is trusted to be as narrow as it usually is;
    # smaller than people read with ease it never gets.
    room, page = left(DENSE)
    if not large and room >= -USUALLY_SHORTER * page:
        return Fitting(DENSE.fit, DENSE.notes, DENSE.classes)
    if not large:
        setting = next((s for s in READABLE if not s.columns and _on_two(text, paper, s)), DENSE)
        # What is left of the second page is for notes: it is never next to empty.
        lines = min(MOST_NOTE_LINES // 2, max(setting.notes, int((room + page) / NOTE_LINE_EM)))
        return Fitting(SPREAD.fit, lines, setting.classes)
    size = points * SPREAD.size
    over = _left(_blocks(text, wide_em(paper, size), SPREAD, large=large), room_em(paper, size))
    return Fitting(
        SPREAD.fit,
        max(SPREAD.notes, min(MOST_NOTE_LINES, int(over / NOTE_LINE_EM))),
        SPREAD.classes,
    )


def _on_two(text: WeekText, paper: Paper, setting: PageSetting) -> bool:
    """Whether a week fits on two pages, with a job that is kept whole pushed to the second."""
    size = TEXT_POINTS * setting.size
    blocks = _blocks(text, wide_em(paper, size), setting, large=False)
    whole = sum(blocks) + max(blocks) + setting.notes * NOTE_LINE_EM
    return whole <= 2 * room_em(paper, size)


def _first_of(jobs: Sequence[JobText], wide: float, setting: PageSetting) -> int:
    """How many jobs the first column of a page holds; none where it is not split by jobs."""
    if not setting.columns or setting.run_on:
        return 0
    return _first_column([_job_in_column(job, (wide - COLUMN_GAP_EM) / 2, setting) for job in jobs])


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


def _blocks(text: WeekText, wide: float, setting: PageSetting, *, large: bool) -> tuple[float, ...]:
    """The heights in em of the head, of each job, and of the foot without lines for notes.

    The text is `wide` em wide.
    """
    head = _head(wide, setting) + _table(text, wide, setting, large=large)
    head += _watering_rule(text, wide, setting)
    return head, *_jobs(text.jobs, wide, setting), _tail(text, wide, setting, large=large)


def _head(wide: float, setting: PageSetting) -> float:
    """The height of the running head, the title and the summary."""
    line, snug = setting.line, setting.run_on
    title = 1.8 + line if setting.columns else 1.9 * 1.15 * _lines(TITLE_LENGTH, wide / 2.2) + line
    return 0.9 * line + (0.6 if snug else 0.9) + title + (0.3 if snug else 0.5)


def _table(text: WeekText, wide: float, setting: PageSetting, *, large: bool) -> float:
    """The height of the table of days, a row for the jobs and one for each watering."""
    line = setting.line
    rows = 1 + (text.jobs != ()) if text.jobs or text.water_labels else 0
    cell, pad = max(setting.second, 0.92), 0.36 if setting.run_on else 0.6
    label = (0.3 if large else 0.34) * wide - 1
    table = (cell * line + pad) * rows + (2.2 * line if large and rows else 0.0)
    table += (
        sum(cell * line * _lines(length, label / cell / 1.05) + pad for length in text.water_labels)
        + 0.5
    )
    # The numbers of more than four jobs of one day take a second line.
    return table + (cell * line if len(text.jobs) > 4 else 0.0)


def _watering_rule(text: WeekText, wide: float, setting: PageSetting) -> float:
    """The height of what holds for all waterings: when to skip them, and their cautions."""
    line, second = setting.line, setting.second
    rule = line * _lines(text.water_rule, wide - 1) + 0.5 if text.water_rule else 0.0
    return rule + sum(
        second * line * _lines(length + 8, wide / second - 1.2) + 0.8
        for length in text.water_cautions
    )


def _tail(text: WeekText, wide: float, setting: PageSetting, *, large: bool) -> float:
    """The height of the look-ahead and of the last line, without lines for notes."""
    line, second = setting.line, setting.second
    last = 0.78 if large else 0.9
    foot = (
        (0.6 + 0.3 if setting.run_on else 1.1 + 0.6)
        + 0.3
        + last * line * _lines(COLOPHON_LENGTH, wide / last)
    )
    heading, weather, lengths_ahead = 1.15, line, text.ahead or (20,)
    if large:
        ahead = second * line * sum(_lines(n + 4, wide / second) for n in lengths_ahead)
        return foot + 2 * heading + weather + ahead
    # The look-ahead stands beside the notes: it adds only what is longer than they are.
    beside = 0.48 * wide / second / 1.02
    ahead = second * line * sum(_lines(n + 4, beside) for n in lengths_ahead)
    return foot + heading + max(weather, ahead - setting.notes * NOTE_LINE_EM)


def _jobs(jobs: Sequence[JobText], wide: float, setting: PageSetting) -> tuple[float, ...]:
    """The heights of the jobs.

    In columns that of the longer one: in order, and whole but where they run on.
    """
    if not setting.columns:
        return tuple(_job(job, wide - 4.2, setting) for job in jobs)
    heights = [_job_in_column(job, (wide - COLUMN_GAP_EM) / 2, setting) for job in jobs]
    if setting.run_on:
        return (sum(heights) / 2 + UNEVEN_EM,)
    first = _first_column(heights)
    return (max(sum(heights[:first]), sum(heights[first:])),)


def _first_column(heights: Sequence[float]) -> int:
    """How many jobs, in order, stand in the first of two columns, so that the longer one is as
    short as can be.
    """
    return min(range(len(heights) + 1), key=lambda n: max(sum(heights[:n]), sum(heights[n:])))


def _job(job: JobText, wide: float, setting: PageSetting) -> float:
    """The height of one job across the page, its cautions beside its steps."""
    line, second = setting.line, setting.second
    top = (
        0.55
        + 1.22 * 1.15 * _lines(job.title, wide / 1.3)
        + second * line * _lines(job.facts, wide / second)
    )
    if job.closed:
        return top + line
    beside = wide * (0.6 if job.cautions else 1.0)
    doing = line * _lines(job.rule, beside - 0.8) + 0.5 if job.rule else 0.0
    doing += line * _lines(job.quantities, beside) + 0.3 if job.quantities else 0.0
    doing += sum(line * _lines(length, beside - 1.5) + 0.15 for length in job.steps) + (
        line if job.again else 0.0
    )
    care = sum(
        second * line * _lines(length + 11, 0.38 * wide / second - 1.2) + 0.8
        for length in job.cautions
    )
    why = (
        second * line * _lines(job.why, wide / second) + 0.2 if job.why and setting.reasons else 0.0
    )
    return max(top + 0.25 + max(doing, care) + why, 4.2)


def _job_in_column(job: JobText, wide: float, setting: PageSetting) -> float:
    """The height of one job in its column, its pieces below one another."""
    line, second = setting.line, setting.second
    if setting.run_on:
        top = 0.45 + line * 1.1 * _lines(ceil(job.title * 1.22 + job.facts * second) + 8, wide)
    else:
        top = (
            0.65
            + 1.12 * 1.15 * _lines(job.title, wide / 1.22)
            + second * line * _lines(job.facts + 8, wide / second)
        )
    if job.closed:
        return top + line
    care = (
        sum(second * line * _lines(length + 11, wide / second - 1.2) for length in job.cautions)
        + 0.7
    )
    rule = (
        line * _lines(job.rule, wide - 0.8) + (0.3 if setting.run_on else 0.5) if job.rule else 0.0
    )
    quantities = line * _lines(job.quantities, wide) + 0.3 if job.quantities else 0.0
    if setting.run_on:
        steps = line * _lines(sum(length + 5 for length in job.steps) + 36 * job.again, wide)
    else:
        steps = sum(line * _lines(length, wide - 1.5) + 0.15 for length in job.steps) + (
            line if job.again else 0.0
        )
    return top + 0.25 + (care if job.cautions else 0.0) + rule + quantities + steps


def _lines(characters: int, wide: float) -> int:
    """How many lines that many characters take on a width in em."""
    return ceil(characters * CHARACTER_EM / wide) if characters else 0


def lengths(texts: Iterable[str]) -> tuple[int, ...]:
    """The length of each text."""
    return tuple(len(text) for text in texts)
