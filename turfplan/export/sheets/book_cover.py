"""What stands on the cover of the season book: the season as a strip, what it takes, what it costs.

Coordinates of the strip are those of the SVG viewBox: x to the right, y downward.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from turfplan.export.sheets.look import shown, span_text, today_of
from turfplan.export.sheets.order_money import order_cost
from turfplan.export.sheets.season_charts import (
    Axis,
    MonthMark,
    months_of,
    season_axis,
    width_of,
)
from turfplan.export.sheets.task_amounts import labour_text
from turfplan.export.templates import capital
from turfplan.message import Quantity, Sold
from turfplan.messages import Words
from turfplan.messages.entry import item_name
from turfplan.phrases import season_book as phrases
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task

STRIP_TOP, STRIP_HEIGHT, MARK_RADIUS = 60.0, 16.0, 10.5
# Marks that lie closer than this stand one above the other, on so many levels.
LEAST_APART, LEVELS = 23.0, 2
# The lines of a cover: more of what is bought stands on the order sheet.
MOST_BOUGHT = 4
COVER_ITEMS = frozenset({"mix", "topsoil", "seed", "sod", "plugs", "sprigs"})


@dataclass(frozen=True, slots=True)
class StripMark:
    """A day that matters: its number, where it stands on the strip, and its words."""

    number: int
    x: float
    y: float
    when: str
    title: str


@dataclass(frozen=True, slots=True)
class Strip:
    """The season from its first month to its last, with the days that matter and the weeks of
    watering.
    """

    uid: str
    title: str
    words: str
    width: float
    height: float
    axis: Axis
    months: tuple[MonthMark, ...]
    top: float
    waterings: tuple[tuple[float, float], ...]
    marks: tuple[StripMark, ...]


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure of a cover with what it is."""

    value: str
    what: str


def strip(plan: Plan, words: Words, *, large: bool = False, uid: str = "strip") -> Strip | None:
    """The season as one strip; None without work."""
    tasks = shown(plan.tasks)
    if not tasks:
        return None
    width = width_of(large=large)
    axis = _whole_width(season_axis(tasks, today_of(plan), width=width), width)
    marks = _marks(_days_that_matter(tasks), axis, words)
    waterings = {
        axis.bar(task.start, task.end)
        for task in tasks
        if task.series is not None and task.closed is None
    }
    return Strip(
        uid=uid,
        title=words.text(phrases.strip_title()),
        words=words.text(phrases.strip_words()),
        width=width,
        height=STRIP_TOP + STRIP_HEIGHT + 18,
        axis=axis,
        months=months_of(axis, words),
        top=STRIP_TOP,
        waterings=tuple(sorted(waterings)),
        marks=marks,
    )


def _days_that_matter(tasks: Sequence[Task]) -> list[Task]:
    """The work that a season turns on: of care alone what opens the turf or feeds it."""
    main = [task for task in tasks if task.plays("headline")]
    return main or [task for task in tasks if task.plays("thatching", "coring", "feeding")]


def _whole_width(axis: Axis, width: float) -> Axis:
    return Axis(axis.first, axis.last, 1.0, width - 1.0)


def _marks(tasks: Sequence[Task], axis: Axis, words: Words) -> tuple[StripMark, ...]:
    marks: list[StripMark] = []
    ends = [float("-inf")] * LEVELS
    for number, task in enumerate(tasks, 1):
        start, end = task.days
        x = min(max(axis.x(start), axis.left + MARK_RADIUS), axis.right - MARK_RADIUS)
        level = next((n for n in range(LEVELS) if x - ends[n] >= LEAST_APART), None)
        if level is None:
            level = min(range(LEVELS), key=lambda n: ends[n])
            x = min(ends[level] + LEAST_APART, axis.right - MARK_RADIUS)
        ends[level] = x
        marks.append(
            StripMark(
                number,
                round(x, 1),
                STRIP_TOP - 14 - level * LEAST_APART,
                span_text(start, end, words, year=True),
                task.title.text,
            )
        )
    return tuple(marks)


def figures(plan: Plan, words: Words) -> tuple[Figure, ...]:
    """The hours of the season, what it takes in bulk, and its water."""
    tasks = [task for task in shown(plan.tasks) if task.closed is None]
    hours = labour_text(sum(task.person_hours for task in tasks), plan.lawn.people, words)
    found = [Figure(capital(hours), words.text(phrases.of_work()))] if hours else []
    sums: dict[str, list[Sold]] = {}
    for line in plan.order:
        if line.item in COVER_ITEMS:
            name = line.name.text or words.text(item_name(line.item))
            sums.setdefault(name, []).append(
                Sold(line.value, line.unit, line.value_us, line.unit_us)
            )
    found += [
        Figure(words.value(_sum(amounts)), name)
        for name, amounts in list(sums.items())[:MOST_BOUGHT]
    ]
    if any(line.cost is not None for line in plan.order):
        found.append(Figure(order_cost(plan, words), words.text(phrases.of_cost())))
    liters = sum(a.value for task in tasks for a in task.amounts if a.item == "water")
    if liters:
        said = words.value(Quantity(liters / 1000, "water_volume"))
        found.append(Figure(said, words.text(phrases.of_water())))
    return tuple(found)


def _sum(amounts: Sequence[Sold]) -> Sold:
    first = amounts[0]
    return Sold(
        round(sum(a.value for a in amounts), 3),
        first.unit,
        round(sum(a.value_us for a in amounts), 3),
        first.unit_us,
    )
