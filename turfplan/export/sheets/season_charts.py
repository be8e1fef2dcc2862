"""Lays out the season as rows of bars: where each bar and label lies, for the templates to draw.

Coordinates are those of the SVG viewBox: x to the right, y downward, `WIDTH` wide. In large print a
chart is narrower in these and as wide on paper, so that all in it is larger.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil
from typing import Literal

from turfplan.export.sheets.look import (
    near_text,
    short_name,
    shown,
    today_of,
)
from turfplan.export.sheets.names import operation_name
from turfplan.message import Days, Message, Month, listed
from turfplan.messages import Words
from turfplan.phrases import charts as phrases
from turfplan.plain_text import shortened
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task

WIDTH, LARGE_WIDTH = 720.0, 450.0
LABEL_WIDTH = 168.0
RIGHT_MARGIN = 14.0
ROW_HEIGHT = 17.0
BAR_HEIGHT = 11.0
LEAST_BAR_WIDTH = 5.0
HEAD_HEIGHT = 38.0
LONGEST_ROW_NAME = 26
# As many rows as a page holds; in large print as many as leave no great gap where they jump.
MOST_ROWS = (44, 10)
# Where the name of a month would be narrower than this, one letter stands for it.
LEAST_MONTH_NAME = 26.0
BarKind = Literal["work", "water"]


def width_of(*, large: bool) -> float:
    """How wide a chart is drawn: narrower in large print, on paper as wide."""
    return LARGE_WIDTH if large else WIDTH


@dataclass(frozen=True, slots=True)
class Axis:
    """The days a chart spans and where they lie: `left` is the first day's morning, `right` the
    last day's evening.
    """

    first: date
    last: date
    left: float = LABEL_WIDTH
    right: float = WIDTH - RIGHT_MARGIN

    def x(self, day: date) -> float:
        """The x of that day's morning, kept within the axis."""
        days = (self.last - self.first).days + 1
        share = (day - self.first).days / days
        return round(self.left + min(max(share, 0.0), 1.0) * (self.right - self.left), 1)

    def bar(self, start: date, end: date) -> tuple[float, float]:
        """x and width of first to last day, both included; never so thin that it is lost."""
        x, stop = self.x(start), self.x(end + timedelta(days=1))
        width = max(stop - x, LEAST_BAR_WIDTH)
        return round(min(x, self.right - width), 1), round(width, 1)


@dataclass(frozen=True, slots=True)
class MonthMark:
    """A month of the axis: where it begins, where its name stands, and the year where a new one
    begins.
    """

    x: float
    middle: float
    name: str
    year: str


@dataclass(frozen=True, slots=True)
class TaskBar:
    """One task on the timeline."""

    x: float
    y: float
    width: float
    kind: BarKind
    state: str
    words: str


@dataclass(frozen=True, slots=True)
class TimelineRow:
    """One kind of work: its name, its windows as pale bands, its tasks as bars, and its days in
    words.
    """

    name: str
    y: float
    windows: tuple[tuple[float, float], ...]
    bars: tuple[TaskBar, ...]
    days: str


@dataclass(frozen=True, slots=True)
class Timeline:
    """The season as rows of bars."""

    uid: str
    title: str
    words: str
    width: float
    height: float
    axis: Axis
    months: tuple[MonthMark, ...]
    rows: tuple[TimelineRow, ...]
    today_x: float | None
    today: str
    kinds: tuple[BarKind, ...]
    marked_done: bool


@dataclass(frozen=True, slots=True)
class Tick:
    """A mark of the value axis."""

    y: float
    text: str


def months_of(axis: Axis, words: Words) -> tuple[MonthMark, ...]:
    """The months an axis touches.

    Where they are too narrow for a name, one letter stands for it.
    """
    months: list[MonthMark] = []
    day = axis.first.replace(day=1)
    while day <= axis.last:
        following = (day + timedelta(days=32)).replace(day=1)
        x, stop = axis.x(max(day, axis.first)), axis.x(following)
        name = words.value(Month(day.month, short=True))
        year = str(day.year) if not months or day.month == 1 else ""
        months.append(
            MonthMark(
                x, round((x + stop) / 2, 1), name if stop - x >= LEAST_MONTH_NAME else name[0], year
            )
        )
        day = following
    return tuple(months)


def season_axis(
    tasks: Sequence[Task], today: date, least_days: int = 0, width: float = WIDTH
) -> Axis:
    """Whole months around all tasks, at least `least_days` long; the chart is `width` wide."""
    first = min((task.start for task in tasks), default=today).replace(day=1)
    last = max((task.end for task in tasks), default=today)
    last = max(last, first + timedelta(days=least_days - 1)) if least_days else last
    month_end = (last.replace(day=1) + timedelta(days=32)).replace(day=1) - timedelta(days=1)
    return Axis(first, month_end, right=width - RIGHT_MARGIN)


def timelines(plan: Plan, words: Words, *, large: bool = False) -> tuple[Timeline, ...]:
    """The timeline of a plan in as many charts as its rows need; none without work."""
    tasks = shown(plan.tasks)
    groups = _groups(plan, tasks, words)
    charts = ceil(len(groups) / MOST_ROWS[large])
    # Charts of like length: none is left with a row or two on a page of its own.
    most = ceil(len(groups) / max(1, charts))
    return tuple(
        _timeline(plan, words, tasks, groups[n : n + most], f"timeline-{n}", large=large)
        for n in range(0, len(groups), max(1, most))
    )


def timeline(plan: Plan, words: Words, uid: str = "timeline", *, large: bool = False) -> Timeline:
    """The timeline of a plan in one chart, under what it shows.

    `uid` begins every id in it, so that several charts can share a page.
    """
    tasks = shown(plan.tasks)
    return _timeline(plan, words, tasks, _groups(plan, tasks, words), uid, large=large)


def _timeline(
    plan: Plan,
    words: Words,
    tasks: Sequence[Task],
    groups: Sequence[tuple[str, list[Task]]],
    uid: str,
    *,
    large: bool,
) -> Timeline:
    today, width = today_of(plan), width_of(large=large)
    axis = season_axis(tasks, today, width=width)
    rows = tuple(
        _row(name, group, HEAD_HEIGHT + n * ROW_HEIGHT, axis, words)
        for n, (name, group) in enumerate(groups)
    )
    bars = [bar for row in rows for bar in row.bars]
    return Timeline(
        uid=uid,
        title=words.text(_finding(plan, tasks, words)),
        words=words.value(
            listed(
                (phrases.row_in_words(name=row.name, days=row.days) for row in rows), "sentences"
            )
        ),
        width=width,
        height=HEAD_HEIGHT + len(rows) * ROW_HEIGHT + 6,
        axis=axis,
        months=months_of(axis, words),
        rows=rows,
        today_x=axis.x(today) if axis.first <= today <= axis.last else None,
        today=near_text(today, words, weekday=False),
        kinds=tuple(dict.fromkeys(bar.kind for bar in bars)),
        marked_done=any(bar.state == "done" for bar in bars),
    )


def _finding(plan: Plan, tasks: Sequence[Task], words: Words) -> Message:
    """What the season comes to: the passes with their days, and the day on which it is sown or
    planted; of a lawn without either, whose season it is.
    """
    spread = [task for task in tasks if task.plays("spreading")]
    sown = next((task for task in tasks if task.plays("sowing")), None)
    planted = next((task for task in tasks if task.plays("planting")), None)
    said: list[Message] = []
    if spread:
        passes = [task.days for task in spread]
        days = Days(min(s for s, _ in passes), max(e for _, e in passes), weekday=False)
        lifts = all(task.operation == "fill" for task in spread)
        told = phrases.finding_lifts if lifts else phrases.finding_passes
        said.append(told(n=len(passes), days=days))
    if sown is not None:
        said.append(phrases.finding_seed(days=Days(*sown.days, weekday=False)))
    if planted is not None:
        said.append(phrases.finding_plants(days=Days(*planted.days, weekday=False)))
    if not said:
        return phrases.season_of(lawn=short_name(plan.lawn.name, words))
    return said[0] if len(said) == 1 else phrases.finding_both(first=said[0], second=said[1])


def _groups(plan: Plan, tasks: Iterable[Task], words: Words) -> list[tuple[str, list[Task]]]:
    """Tasks of one kind share a row; watering has one row for each stage."""
    groups: dict[str, list[Task]] = {}
    for task in tasks:
        name = row_name(plan, task, words)
        groups.setdefault(shortened(name, LONGEST_ROW_NAME), []).append(task)
    return list(groups.items())


def row_name(plan: Plan, task: Task, words: Words) -> str:
    """What a task's row is called: its kind of work, or the stage of a watering."""
    if task.stage is not None:
        return task.stage.name.text
    return operation_name(plan, task.operation, words)


def _row(name: str, tasks: Sequence[Task], y: float, axis: Axis, words: Words) -> TimelineRow:
    bars = tuple(
        _bar(task, y, axis, words) for task in (tasks if tasks[0].series is None else _runs(tasks))
    )
    spans = [task.days for task in tasks]
    if tasks[0].series is not None:
        spans = [(min(s for s, _ in spans), max(e for _, e in spans))]
    open_tasks = [task for task in tasks if task.closed is None and task.series is None]
    windows = sorted(
        {axis.bar(task.window.start, task.window.end) for task in open_tasks if _meets(task, axis)}
    )
    return TimelineRow(
        name=name,
        y=y,
        windows=tuple(windows),
        bars=bars,
        days=words.value(listed(dict.fromkeys(Days(s, e) for s, e in spans), "semicolon")),
    )


def _runs(tasks: Sequence[Task]) -> Iterator[Task]:
    """One task for each stretch of waterings without a free day between them, under the title of
    its first.
    """
    stretch: Task | None = None
    for task in sorted(tasks, key=lambda t: t.start):
        if (
            stretch is not None
            and task.start <= stretch.end + timedelta(days=1)
            and task.closed == stretch.closed
        ):
            stretch = stretch.model_copy(update={"end": max(stretch.end, task.end)})
            continue
        if stretch is not None:
            yield stretch
        stretch = task
    if stretch is not None:
        yield stretch


def _meets(task: Task, axis: Axis) -> bool:
    return task.window.start <= axis.last and task.window.end >= axis.first


def _bar(task: Task, y: float, axis: Axis, words: Words) -> TaskBar:
    start, end = task.days
    x, width = axis.bar(start, end)
    state = task.closed or ("held" if task.held else "open")
    say = {
        "done": phrases.bar_done,
        "skipped": phrases.bar_skipped,
        "held": phrases.bar_held,
    }.get(state, phrases.bar)
    return TaskBar(
        x=x,
        y=round(y + (ROW_HEIGHT - BAR_HEIGHT) / 2, 1),
        width=width,
        kind="work" if task.series is None else "water",
        state=state,
        words=words.text(say(title=task.title.text, days=Days(start, end))),
    )
