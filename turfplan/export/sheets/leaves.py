"""Parts the weeks into leaves: what stands together on a page, under one strip of what protects.

A leaf holds as many days as a page has room for, each day whole; a day that is longer than a page
goes on over the next. Heights in mm are reckoned a little generously from `static/week.css`: a leaf
that came out longer would only go on over its page. Large print flows from page to page; a
leaf of it is about both sides of a sheet.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby, pairwise
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
# How much of a page a leaf fills at least, if it can be: as reckoned, which is more than it is. Of
# the last one no more is asked than that it is worth its page.
LEAST_FILLED, LEAST_LAST = 0.65, 0.25
# A leaf that takes less of its page is set with more space between its lines, which are then a
# sixth higher at most.
AIRY = 0.8
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
class Piece:
    """Blocks that are never parted; it `goes_on` where the day that it belongs to begins before."""

    blocks: tuple[Block, ...]
    goes_on: bool


@dataclass(frozen=True, slots=True)
class Leaf:
    """What stands together on a page; `protect` are the cautions of its jobs in the order
    of the season, with their places in it.

    A `long` one goes on over its page: what protects stands at its head. One that is `airy` has
    room for wider lines.
    """

    blocks: tuple[Block, ...]
    protect: tuple[tuple[int, str], ...]
    long: bool
    is_map: bool = False
    airy: bool = False


# What a print is made of: a week, or the card of several of watering alone.
PrintedPart = WeekSheet | CardMonth


def leaves(
    printed: Iterable[PrintedPart], look: Look, protecting: Mapping[str, int]
) -> tuple[Leaf, ...]:
    """The leaves of a print, in order; `protecting` holds the place of each caution.

    A map stands behind the leaf on which its week ends, in large print behind the last: no page
    ends for its sake.
    """
    wide = SIZE_MM[look.paper][0] - MARGINS_MM
    page = SIZE_MM[look.paper][1] - UPRIGHT_MARGINS_MM - FOOT_MM
    page /= LARGE_LENGTH if look.large else 1.0
    pieces: list[Piece] = []
    maps: dict[int, list[Block]] = {}
    for day in _days(printed, wide):
        if day[0][0].kind == "map":
            maps.setdefault(0 if look.large else len(pieces), []).extend(day[0])
        else:
            pieces += (Piece(tuple(chunk), n > 0) for n, chunk in enumerate(day))
    ends = _best_ends(pieces, page, wide)
    if look.large:
        maps = {end: maps.get(0, []) for end in ends[-1:]}
    made: list[Leaf] = []
    for begin, end in pairwise((0, *ends)):
        blocks = [*_begun(pieces[begin].blocks), *_blocks(pieces[begin + 1 : end])]
        made.append(_closed(blocks, page, wide, protecting))
        drawn = (block for after in range(begin + 1, end + 1) for block in maps.get(after, ()))
        made += (Leaf((block,), (), long=False, is_map=True) for block in drawn)
    return tuple(made)


@dataclass(frozen=True, slots=True, order=True)
class LeafCost:
    """What a way to part pieces costs, first what weighs most: how much of them is blank beyond
    what is let be, pages, days that are parted, and blank squared."""

    blank: float = 0.0
    pages: int = 0
    parted: int = 0
    uneven: float = 0.0

    def with_leaf(self, height: float, page: float, *, parted: bool, is_last: bool) -> "LeafCost":
        """The cost with one more leaf of a height, mm."""
        over = max(1, ceil(height / page))
        filled = height / page - (over - 1)
        least = LEAST_LAST if is_last else LEAST_FILLED
        return LeafCost(
            self.blank + max(0.0, least - filled),
            self.pages + over,
            self.parted + parted,
            self.uneven + (0.0 if is_last else (1 - filled) ** 2),
        )


def _best_ends(pieces: Sequence[Piece], page: float, wide: float) -> tuple[int, ...]:
    """After which pieces leaves end, by number: of all ways the one that costs least.

    The leaves before a place do not change what those after it cost, so that the best way to each
    place is found from the best ways to those before.
    """
    best: list[tuple[LeafCost, tuple[int, ...]]] = [(LeafCost(), ())]
    for end in range(1, len(pieces) + 1):
        ways = []
        is_last = end == len(pieces)
        for begin in range(end - 1, -1, -1):
            blocks = [*_begun(pieces[begin].blocks), *_blocks(pieces[begin + 1 : end])]
            height = height_of(blocks, wide) + FIRST_MM * (begin == 0)
            if height > page and not _goes_over(pieces[begin:end], page, wide):
                break
            parted = end < len(pieces) and pieces[end].goes_on
            before, ends = best[begin]
            cost = before.with_leaf(height, page, parted=parted, is_last=is_last)
            ways.append((cost, (*ends, end)))
        best.append(min(ways))
    return best[-1][1]


def _goes_over(pieces: Sequence[Piece], page: float, wide: float) -> bool:
    """Whether pieces that are higher than a page make a leaf: the first alone is, and what follows
    it ends on the page on which that ends."""
    first = height_of(pieces[0].blocks, wide)
    more = height_of(_blocks(pieces), wide)
    return len(pieces) == 1 or (first > page and ceil(more / page) == ceil(first / page))


def _blocks(pieces: Iterable[Piece]) -> list[Block]:
    return [block for piece in pieces for block in piece.blocks]


def _begun(chunk: Sequence[Block]) -> list[Block]:
    """The blocks of a new leaf: one that begins within a week says which."""
    first = chunk[0]
    if first.kind != "day":
        return [*chunk]
    return [replace(first, kind="goes_on", height=GOES_ON_MM), *chunk]


def _closed(
    blocks: Sequence[Block], page: float, wide: float, protecting: Mapping[str, int]
) -> Leaf:
    blocks = _said_once(blocks)
    numbered = sorted((protecting[text], text) for text in _protecting(blocks))
    height = height_of(blocks, wide)
    return Leaf(tuple(blocks), tuple(numbered), height > page, airy=height < AIRY * page)


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
