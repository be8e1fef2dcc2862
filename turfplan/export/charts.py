"""Lays out the charts of the season: where each bar, curve and label lies, for the templates to draw.

Coordinates are those of the SVG viewBox: x to the right, y downward, `WIDTH` wide.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil, floor

from turfplan.export.glossary import operation_name
from turfplan.export.sheets import PHASE_LETTER, PHASE_NAME, near_text, short_name, shown, span_text, today_of
from turfplan.plan import Plan, Task
from turfplan.units import System, from_inside
from turfplan.wording import MONTHS, in_units, shortened

WIDTH = 720.0
LABEL_WIDTH = 168.0
RIGHT_MARGIN = 14.0
ROW_HEIGHT = 19.0
BAR_HEIGHT = 12.0
LEAST_BAR_WIDTH = 5.0
HEAD_HEIGHT = 34.0
LONGEST_ROW_NAME = 26


@dataclass(frozen=True, slots=True)
class Axis:
    """The days a chart spans and where they lie: `left` is the first day's morning, `right` the last day's evening."""

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
class Month:
    """A month of the axis: where it begins, where its name stands, and the year where a new one begins."""

    x: float
    middle: float
    name: str
    year: str


@dataclass(frozen=True, slots=True)
class Bar:
    """One task on the timeline."""

    x: float
    y: float
    width: float
    letter: str
    state: str
    words: str


@dataclass(frozen=True, slots=True)
class Row:
    """One kind of work: its name, its windows as pale bands, its tasks as bars, and its days in words."""

    name: str
    y: float
    windows: tuple[tuple[float, float], ...]
    bars: tuple[Bar, ...]
    phase: str
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
    months: tuple[Month, ...]
    rows: tuple[Row, ...]
    today_x: float | None
    today: str
    legend: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Tick:
    """A mark of the value axis."""

    y: float
    text: str


@dataclass(frozen=True, slots=True)
class WindowBand:
    """One kind of work's open days below the curve, with its best day."""

    name: str
    y: float
    bars: tuple[tuple[float, float], ...]
    best: tuple[float, ...]
    days: str


@dataclass(frozen=True, slots=True)
class SoilChart:
    """Soil temperature through the season, how far off it may be, the air above it, and the windows of work."""

    uid: str
    title: str
    depth: str
    words: str
    width: float
    height: float
    axis: Axis
    months: tuple[Month, ...]
    ticks: tuple[Tick, ...]
    unit: str
    soil: str
    band: str
    air: str
    plot_top: float
    plot_bottom: float
    frosts: tuple[tuple[float, str], ...]
    bands: tuple[WindowBand, ...]
    months_named: tuple[str, ...]
    table: tuple[tuple[str, ...], ...]
    error: str


def months_of(axis: Axis) -> tuple[Month, ...]:
    """The months an axis touches; where they are too narrow for a name, one letter stands for it."""
    months: list[Month] = []
    day = axis.first.replace(day=1)
    while day <= axis.last:
        following = (day + timedelta(days=32)).replace(day=1)
        x, stop = axis.x(max(day, axis.first)), axis.x(following)
        name = MONTHS[day.month - 1]
        year = str(day.year) if not months or day.month == 1 else ""
        months.append(Month(x, round((x + stop) / 2, 1), name if stop - x >= 24 else name[0], year))
        day = following
    return tuple(months)


def season_axis(tasks: Sequence[Task], today: date, least_days: int = 0) -> Axis:
    """Whole months around all tasks; at least `least_days` long."""
    first = min((task.start for task in tasks), default=today).replace(day=1)
    last = max((task.end for task in tasks), default=today)
    last = max(last, first + timedelta(days=least_days - 1)) if least_days else last
    month_end = (last.replace(day=1) + timedelta(days=32)).replace(day=1) - timedelta(days=1)
    return Axis(first, month_end)


def timeline(plan: Plan, uid: str = "timeline") -> Timeline:
    """The timeline of a plan; `uid` begins every id in it, so that several charts can share a page."""
    tasks = shown(plan.tasks)
    today = today_of(plan)
    axis = season_axis(tasks, today)
    groups = _groups(tasks)
    rows = tuple(
        _row(name, group, HEAD_HEIGHT + n * ROW_HEIGHT, axis, plan.lawn.units) for n, (name, group) in enumerate(groups)
    )
    phases = {task.phase for task in tasks}
    return Timeline(
        uid=uid,
        title=f"The season of {short_name(plan.lawn.name)}",
        words=_timeline_words(rows),
        width=WIDTH,
        height=HEAD_HEIGHT + len(rows) * ROW_HEIGHT + 6,
        axis=axis,
        months=months_of(axis),
        rows=rows,
        today_x=axis.x(today) if axis.first <= today <= axis.last else None,
        today=near_text(today, plan.lawn.units, weekday=False),
        legend=tuple((letter, PHASE_NAME[phase]) for phase, letter in PHASE_LETTER.items() if phase in phases),
    )


def _groups(tasks: Iterable[Task]) -> list[tuple[str, list[Task]]]:
    """Tasks of one kind share a row; watering has one row for each stage, called as its titles begin."""
    groups: dict[str, list[Task]] = {}
    for task in tasks:
        name = operation_name(task.operation) if task.series is None else task.title.split(":")[0]
        groups.setdefault(shortened(name, LONGEST_ROW_NAME), []).append(task)
    return list(groups.items())


def _row(name: str, tasks: Sequence[Task], y: float, axis: Axis, system: System) -> Row:
    bars = tuple(_bar(task, y, axis, system) for task in (tasks if tasks[0].series is None else _runs(tasks)))
    spans = [(task.actual.start, task.actual.end) if task.actual else (task.start, task.end) for task in tasks]
    if tasks[0].series is not None:
        spans = [(min(s for s, _ in spans), max(e for _, e in spans))]
    open_tasks = [task for task in tasks if task.closed is None and task.series is None]
    windows = sorted({axis.bar(task.window.start, task.window.end) for task in open_tasks if _meets(task, axis)})
    return Row(
        name=name,
        y=y,
        windows=tuple(windows),
        bars=bars,
        phase=PHASE_LETTER[tasks[0].phase],
        days="; ".join(dict.fromkeys(span_text(s, e, system, year=True) for s, e in spans)),
    )


def _runs(tasks: Sequence[Task]) -> Iterator[Task]:
    """One task for each stretch of waterings without a free day between them, under the title of its first."""
    stretch: Task | None = None
    for task in sorted(tasks, key=lambda t: t.start):
        if stretch is not None and task.start <= stretch.end + timedelta(days=1) and task.closed == stretch.closed:
            stretch = stretch.model_copy(update={"end": max(stretch.end, task.end)})
            continue
        if stretch is not None:
            yield stretch
        stretch = task
    if stretch is not None:
        yield stretch


def _meets(task: Task, axis: Axis) -> bool:
    return task.window.start <= axis.last and task.window.end >= axis.first


def _bar(task: Task, y: float, axis: Axis, system: System) -> Bar:
    start, end = (task.actual.start, task.actual.end) if task.actual else (task.start, task.end)
    x, width = axis.bar(start, end)
    state = task.closed or ("held" if task.held else "open")
    return Bar(
        x=x,
        y=round(y + (ROW_HEIGHT - BAR_HEIGHT) / 2, 1),
        width=width,
        letter=PHASE_LETTER[task.phase],
        state=state,
        words=f"{task.title}, {span_text(start, end, system, year=True)}" + (f", {state}" if state != "open" else ""),
    )


def _timeline_words(rows: Sequence[Row]) -> str:
    return " ".join(f"{row.name}: {row.days}." for row in rows)


SOIL_TOP, SOIL_BOTTOM, BAND_GAP = 30.0, 220.0, 18.0
YEAR_DAYS = 365
# The middle of each month of a year that has no leap day.
_MIDDLES = tuple(date(2027, month, 15) for month in range(1, 13))


def soil_chart(plan: Plan, uid: str = "soil") -> SoilChart | None:
    """Soil temperature with its error band, air temperature and windows; None where the plan holds no curve."""
    climate = plan.climate
    if not climate.soil_10cm_c:
        return None
    axis = season_axis(shown(plan.tasks), today_of(plan), YEAR_DAYS)
    days = [axis.first + timedelta(days=n) for n in range(0, (axis.last - axis.first).days + 1, 5)]
    soil = [_at(climate.day_of_year, climate.soil_10cm_c, day) for day in days]
    air = [_at(climate.day_of_year, climate.air_mean_c, day) for day in days] if climate.air_mean_c else []
    error = climate.soil_error_c
    scale = _scale([*soil, *air], error, "F" if plan.lawn.units is System.US else "C")

    def line(values: Sequence[float]) -> str:
        return " ".join(f"{axis.x(day):g},{scale.y(value):g}" for day, value in zip(days, values, strict=True))

    upper = line([value + error for value in soil])
    lower = " ".join(reversed(line([value - error for value in soil]).split()))
    bands = _window_bands(plan, axis, SOIL_BOTTOM + 26)
    depth = in_units("4 in (10 cm)", plan.lawn.units)
    reach = f"{from_inside(error, 'deg' + scale.unit, 'temperature_difference'):.0f} °{scale.unit}"
    return SoilChart(
        uid=uid,
        title="Soil temperature and the days that are open",
        depth=depth,
        words=f"Soil temperature {depth} down, from {scale.words(min(soil))} to {scale.words(max(soil))}, with a band of "
        f"{reach} up and down; below it the days on which each kind of work is open.",
        width=WIDTH,
        height=SOIL_BOTTOM + 26 + len(bands) * BAND_GAP + 6,
        axis=axis,
        months=months_of(axis),
        ticks=scale.ticks(),
        unit=f"°{scale.unit}",
        soil=line(soil),
        band=f"{upper} {lower}",
        air=line(air) if air else "",
        plot_top=SOIL_TOP,
        plot_bottom=SOIL_BOTTOM,
        frosts=_frost_marks(plan, axis),
        bands=bands,
        months_named=MONTHS,
        table=_year_table(plan, scale.unit),
        error=reach,
    )


def _frost_marks(plan: Plan, axis: Axis) -> tuple[tuple[float, str], ...]:
    """Where the median frosts lie on the axis; the plan writes them as month and day."""
    marks = []
    for words, text in (("last frost", plan.climate.last_frost), ("first frost", plan.climate.first_frost)):
        if text is None:
            continue
        month, day = (int(part) for part in text.split("-"))
        for year in range(axis.first.year, axis.last.year + 1):
            # A frost on 29 February is drawn on the day before in other years.
            on = date(year, month, min(day, 28) if month == 2 else day)
            if axis.first <= on <= axis.last:
                marks.append((axis.x(on), words))
    return tuple(sorted(marks))


def _at(days: Sequence[int], values: Sequence[float], day: date) -> float:
    """The curve on a day of any year, straight between its points, around the turn of the year."""
    n = min(day.timetuple().tm_yday - 1, YEAR_DAYS - 1)
    after = next((i for i, d in enumerate(days) if d > n), 0)
    before = after - 1
    gap = (days[after] - days[before]) % YEAR_DAYS or 1
    share = ((n - days[before]) % YEAR_DAYS) / gap
    return values[before] + (values[after] - values[before]) * share


@dataclass(frozen=True, slots=True)
class _Scale:
    """A temperature axis with round ends, in the unit of the reader."""

    low: float
    high: float
    step: float
    unit: str

    def place(self, value: float) -> float:
        """The y of a temperature in the axis's own unit."""
        return round(SOIL_BOTTOM - (value - self.low) / (self.high - self.low) * (SOIL_BOTTOM - SOIL_TOP), 1)

    def y(self, celsius: float) -> float:
        """The y of a temperature."""
        return self.place(from_inside(celsius, self.unit, "temperature"))

    def words(self, celsius: float) -> str:
        """A temperature as the reader says it."""
        return f"{from_inside(celsius, self.unit, 'temperature'):.0f} °{self.unit}"

    def ticks(self) -> tuple[Tick, ...]:
        """A mark at each step, from the lowest up."""
        values = (self.low + n * self.step for n in range(round((self.high - self.low) / self.step) + 1))
        return tuple(Tick(self.place(value), f"{value:g}") for value in values)


def _scale(curve_c: Sequence[float], error_c: float, unit: str) -> _Scale:
    """The axis that holds a curve and its error band."""
    ends = (min(curve_c) - error_c, max(curve_c) + error_c)
    low, high = (from_inside(value, unit, "temperature") for value in ends)
    step = 10.0 if unit == "F" else 5.0
    return _Scale(floor(low / step) * step, ceil(high / step) * step, step, unit)


def _window_bands(plan: Plan, axis: Axis, top: float) -> tuple[WindowBand, ...]:
    """The windows of the operations that the plan uses, in the order of its tasks."""
    used = list(dict.fromkeys(task.operation for task in shown(plan.tasks)))
    bands: list[WindowBand] = []
    for operation in used:
        windows = [w for w in plan.windows if w.operation == operation and w.start <= axis.last and w.end >= axis.first]
        if not windows:
            continue
        bands.append(
            WindowBand(
                name=operation_name(operation),
                y=top + len(bands) * BAND_GAP,
                bars=tuple(axis.bar(max(w.start, axis.first), min(w.end, axis.last)) for w in windows),
                best=tuple(axis.x(w.best) for w in windows if axis.first <= w.best <= axis.last),
                days="; ".join(
                    f"{span_text(w.start, w.end, plan.lawn.units, weekday=False, year=True)}, "
                    f"best {near_text(w.best, plan.lawn.units, weekday=False)}"
                    for w in windows
                ),
            )
        )
    return tuple(bands)


def _year_table(plan: Plan, unit: str) -> tuple[tuple[str, ...], ...]:
    """Soil and air in the middle of each month of a usual year, for the table below the chart."""
    curves = (("Soil", plan.climate.soil_10cm_c), ("Air", plan.climate.air_mean_c))
    days = plan.climate.day_of_year
    return tuple(
        (name, *(f"{from_inside(_at(days, curve, middle), unit, 'temperature'):.0f}" for middle in _MIDDLES))
        for name, curve in curves
        if curve
    )
