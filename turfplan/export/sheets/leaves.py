"""Parts the weeks into leaves: what stands together on a page, under one strip of what protects.

A leaf holds as many days as a page has room for, each day whole; a day that is longer than a page
goes on over the next. Heights in mm are reckoned a little generously from `static/week.css`: a leaf
that came out longer would only go on over its page. Large print flows from page to page; a
leaf of it is about both sides of a sheet.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from math import ceil
from types import MappingProxyType
from typing import Literal

from turfplan.export.sheets.ground_sheets import PassSheet
from turfplan.export.sheets.job_columns import (
    BOLD_EM,
    CHARACTER_EM,
    GAP_MM,
    LINE_MM,
    MM_IN_POINT,
    TEXT,
    TITLE_POINTS,
    beside_title,
    lines_of,
    text_height,
)
from turfplan.export.sheets.look import DAYS_IN_WEEK, Look, Paper
from turfplan.export.sheets.watering_card import CardMonth
from turfplan.export.sheets.week_days import DayWork, StripDay, without_told
from turfplan.export.sheets.week_jobs import Job
from turfplan.export.sheets.weeks import WeekSheet

SIZE_MM: Mapping[Paper, tuple[float, float]] = MappingProxyType(
    {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}
)
MARGINS_MM, UPRIGHT_MARGINS_MM = 28.0, 15.0
STAMP_MM = 24.0
WEEK_MM, CELL_MM, FIRST_MM, FOOT_MM, GOES_ON_MM = 8.9, 7.7, 8.0, 2.0, 5.0
RUN_MM, TITLE_MM, FIGURES_MM, SIGN_MM, DAY_MM = 5.3, 7.8, 12.2, 1.5, 2.0
CARD_MM, CARD_ROW_MM, WATER_MM, NOTE_MM = 15.4, 5.6, 1.1, 0.4
# What the edges of a cell of the strip take of it; it is set in these points.
CELL_PAD_MM, CELL_POINTS, CELL_LINE_MM = 1.7, 9.5, 4.1
# The title of a week and what is told beside it.
HEAD_POINTS, SUMMARY_POINTS, BESIDE_HEAD_MM = 16.3, 10.0, 3.0
# A day that does not fit is begun all the same, as long as less of a page than this is taken.
FULL = 0.8
# How much longer large print is, by the leaf: both sides of one sheet of paper.
LARGE_LENGTH = 1.1
BlockKind = Literal["head", "goes_on", "day", "tail", "card", "map"]


@dataclass(frozen=True, slots=True)
class Block:
    """A piece of a leaf: the head of a week, a day of it, what follows it, a card, a map."""

    kind: BlockKind
    height: float
    week: WeekSheet | None = None
    day: DayWork | None = None
    card: CardMonth | None = None
    map: PassSheet | None = None


@dataclass(frozen=True, slots=True)
class Leaf:
    """What stands together on a page; `protect` are the cautions of its jobs in the order
    of the season, with their places in it.

    A `long` one goes on over its page: what protects stands at its head.
    """

    blocks: tuple[Block, ...]
    protect: tuple[tuple[int, str], ...]
    long: bool
    is_map: bool = False


# What a print is made of: a week, or the card of several of watering alone.
PrintedPart = WeekSheet | CardMonth


def leaves(
    printed: Iterable[PrintedPart], look: Look, protecting: Mapping[str, int]
) -> tuple[Leaf, ...]:
    """The leaves of a print, in order; `protecting` holds the place of each caution."""
    wide = SIZE_MM[look.paper][0] - MARGINS_MM
    page = SIZE_MM[look.paper][1] - UPRIGHT_MARGINS_MM - FOOT_MM
    page /= LARGE_LENGTH if look.large else 1.0
    made: list[Leaf] = []
    open_: list[Block] = []

    def fits(chunks: Sequence[Sequence[Block]]) -> bool:
        """Whether some chunks still end on the page on which the last leaf does."""
        used = _height(open_) % page if _height(open_) > page else _height(open_)
        more = [block for chunk in chunks for block in chunk]
        room = page - FIRST_MM * (not made) - used
        return _height(more) + _strip([*open_, *more], wide) <= room

    def close() -> None:
        made.extend(_closed(open_, page, wide, protecting))
        open_.clear()

    for day in _days(printed, wide):
        if day[0][0].kind == "map":
            close()
            made.append(Leaf(tuple(day[0]), (), long=False, is_map=True))
            continue
        used = (_height(open_) % page) / page
        if open_ and not fits(day) and (used > FULL or _height(day[0]) > page):
            close()
        for chunk in day:
            if open_ and not fits([chunk]):
                close()
            open_ += chunk if open_ else _begun(chunk)
    close()
    return tuple(made)


def _begun(chunk: Sequence[Block]) -> list[Block]:
    """The blocks of a new leaf: one that begins within a week says which."""
    first = chunk[0]
    if first.kind != "day":
        return [*chunk]
    return [replace(first, kind="goes_on", height=GOES_ON_MM), *chunk]


def _closed(
    blocks: Sequence[Block], page: float, wide: float, protecting: Mapping[str, int]
) -> Iterator[Leaf]:
    if blocks:
        blocks = _said_once(blocks)
        numbered = sorted((protecting[text], text) for text in _protecting(blocks))
        long = height_of(blocks, wide) > page
        yield Leaf(tuple(blocks), tuple(numbered), long=long)


def _said_once(blocks: Iterable[Block]) -> list[Block]:
    """The blocks of a leaf, where what goes wrong with several jobs alike, or what all of them are
    to mind, is told at the first."""
    told: set[str] = set()
    return [
        replace(block, day=without_told(block.day, told))
        if block.kind == "day" and block.day
        else block
        for block in blocks
    ]


def _protecting(blocks: Iterable[Block]) -> set[str]:
    """The cautions that protect in the open jobs of some blocks."""
    days = (block.day for block in blocks if block.kind == "day" and block.day)
    jobs = (job for day in days for job in day.jobs if job.is_open)
    return {text for job in jobs for text in job.rules.protect}


def height_of(blocks: Sequence[Block], wide: float) -> float:
    """The height of blocks on a width, with the strip of what protects in them, mm."""
    return _height(blocks) + _strip(blocks, wide)


def _height(blocks: Iterable[Block]) -> float:
    return sum(block.height for block in blocks)


def _strip(blocks: Sequence[Block], wide: float) -> float:
    """The height of what protects on a leaf."""
    told = _protecting(blocks)
    lines = lines_of(20 + sum(len(text) + 6 for text in told), wide - 6, TEXT)
    return lines * LINE_MM + 3.6 if told else 0.0


def _days(printed: Iterable[PrintedPart], wide: float) -> Iterator[list[list[Block]]]:
    """The days, cards and maps, each in the pieces that are never parted: the head of a week stays
    with its first job, and the signs of a day with its first."""
    for item in printed:
        if isinstance(item, CardMonth):
            yield [[Block("card", _card(item, wide), card=item)]]
            continue
        head = [Block("head", _head(item, wide), week=item)]
        tail = [Block("tail", _tail(item), week=item)] if item.alone else []
        for _, parts in groupby(item.days, lambda part: part.iso):
            day = [[Block("day", _day(p, wide), week=item, day=p)] for p in parts]
            yield [head + day[0], *day[1:]]
            head = []
        if head or tail:
            yield [head + tail]
        yield from ([[Block("map", 0, week=item, map=sheet)]] for sheet in item.maps)


def _head(week: WeekSheet, wide: float) -> float:
    """The title, the strip and the notes of a week."""
    water = " ".join([*(title for _, title in week.waterings), *week.water_rules])
    told = text_height([water, *week.water_cautions], wide) + WATER_MM * bool(water)
    told += text_height((f"{rank} {text}" for rank, text in week.notes), wide - 4)
    rows = [
        CELL_LINE_MM * (_cell_lines(day, wide / DAYS_IN_WEEK) - 1)
        + CELL_LINE_MM * (len(day.runs) > 1)
        + RUN_MM * len(day.runs)
        for day in week.strip
    ]
    strip = CELL_MM + max(rows) if week.jobs or week.water or week.alone else 0.0
    return WEEK_MM + _beside_head(week, wide) + strip + told + NOTE_MM * len(week.notes)


def _cell_lines(day: StripDay, wide: float) -> int:
    """How many lines the day and the jobs of a cell of the strip take."""
    told = f"{day.weekday} {day.number} {day.called} {day.marks}"
    return lines_of(len(told.rstrip()), wide - CELL_PAD_MM, CELL_POINTS)


def _beside_head(week: WeekSheet, wide: float) -> float:
    """What the summary of a week takes below its first line, beside the title."""
    title = len(week.title) * BOLD_EM * HEAD_POINTS * MM_IN_POINT + BESIDE_HEAD_MM
    # The title is so long as if it were set as small as the summary.
    as_long = title / (CHARACTER_EM * SUMMARY_POINTS * MM_IN_POINT)
    return LINE_MM * (lines_of(ceil(as_long) + len(week.summary), wide, SUMMARY_POINTS) - 1)


def _day(day: DayWork, wide: float) -> float:
    """The sign of a day and its jobs."""
    text = wide - STAMP_MM
    rules = text_height((f"{r.jobs} {r.text}" for r in (*day.stops, *day.law)), text - 4)
    goes_on = GOES_ON_MM * bool(day.goes_on)
    if day.is_rest:
        return rules + sum(_job(job, text, day) for job in day.jobs)
    whose = LINE_MM * bool(day.whose)
    return _sign(day) + whose + rules + goes_on + DAY_MM + sum(_job(j, text, day) for j in day.jobs)


def _sign(day: DayWork) -> float:
    """The two boxes that say whether the day goes or waits."""
    if day.wait is None:
        return SIGN_MM + 2 * LINE_MM if day.alone else 0.0
    return day.sign_height + SIGN_MM


def _job(job: Job, wide: float, day: DayWork) -> float:
    """One job: across the text its title and figures, below these its two columns."""
    state = LINE_MM * (len(job.days) > 1 or job.state != "open")
    if not job.is_open:
        return TITLE_MM + LINE_MM + GAP_MM + state
    narrow = wide - beside_title(job, wide)
    title = TITLE_MM * lines_of(len(job.task.title.text) + 4, narrow, TITLE_POINTS)
    columns = day.columns[job.task.id]
    figures = FIGURES_MM * (bool(job.figures.large) and not columns.figures_beside)
    return title + state + figures + columns.height


def _tail(week: WeekSheet) -> float:
    return 20.0 + 6.0 * max(1, len(week.ahead))


def _card(card: CardMonth, wide: float) -> float:
    rows = sum(CARD_ROW_MM + RUN_MM * max(len(day.runs) for day in week) for week in card.weeks)
    told = " ".join([*(f"a {w.title}" for w in card.waterings), *card.rules])
    return CARD_MM + rows + text_height([told], wide)
