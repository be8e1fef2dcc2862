"""Lays out what is given through the season: minutes of watering over what rain usually covers, and
nitrogen as need, compost and feeding.

Coordinates are those of the SVG viewBox: x to the right, y downward.
"""

from bisect import bisect_right
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from math import ceil, floor, log10
from types import MappingProxyType

from turfplan.export.sheets.look import near, series_days, shown, today_of
from turfplan.export.sheets.season_charts import (
    Axis,
    MonthMark,
    Tick,
    months_of,
    season_axis,
    width_of,
)
from turfplan.message import Message, Month, Number
from turfplan.messages import Words
from turfplan.phrases import charts as phrases
from turfplan.records.plan import Ledger, LedgerWeek, Plan
from turfplan.units import System, from_inside, pretty_unit

# The upper part holds the minutes, the lower one what rain covers of what grass and air take.
TOP, MINUTES_HEIGHT, BETWEEN, RAIN_HEIGHT, FOOT = 38.0, 96.0, 20.0, 34.0, 6.0
BAR_HEIGHT, BAR_GAP, BAR_LEFT = 18.0, 6.0, 168.0
MOST_STEPS = 4.5
_NITROGEN: Mapping[System, str] = MappingProxyType({System.US: "lb/1000ft2", System.METRIC: "g/m2"})


@dataclass(frozen=True, slots=True)
class WaterChart:
    """The minutes of each week as bars, and below them the share of its need that rain usually
    covers; the `note` says what is watered where it covers all.
    """

    uid: str
    title: str
    words: str
    width: float
    height: float
    axis: Axis
    months: tuple[MonthMark, ...]
    ticks: tuple[Tick, ...]
    bars: tuple[tuple[float, float, float, float], ...]
    minutes_bottom: float
    rain_top: float
    rain_bottom: float
    rain: str
    table: tuple[tuple[str, ...], ...]
    note: str


@dataclass(frozen=True, slots=True)
class NitrogenBar:
    """One amount of nitrogen: what it is, how much in words, and how long its bar is."""

    kind: str
    name: str
    amount: str
    y: float
    width: float


@dataclass(frozen=True, slots=True)
class NitrogenChart:
    """What the grass takes, what compost brings and what is given, as bars from one line."""

    uid: str
    title: str
    words: str
    width: float
    height: float
    left: float
    bars: tuple[NitrogenBar, ...]


def water_chart(
    plan: Plan, words: Words, uid: str = "water", *, large: bool = False
) -> WaterChart | None:
    """The minutes of watering by week; None for a season without waterings or their account."""
    weeks = _weeks(plan, "water")
    minutes = _minutes_by_week(plan, weeks)
    if not any(minutes):
        return None
    width = width_of(large=large)
    axis = season_axis(shown(plan.tasks), today_of(plan), width=width)
    step = _step(max(minutes))
    top = ceil(max(minutes) / step) * step
    foot = TOP + MINUTES_HEIGHT
    most = max(range(len(weeks)), key=lambda n: minutes[n])
    finding = phrases.water_finding(
        n=sum(1 for m in minutes if m),
        minutes=Number(minutes[most], "grouped"),
        day=near(weeks[most].start, weekday=False),
    )
    said = words.text(finding)
    rain_top = foot + BETWEEN
    table = tuple(_by_month(plan, weeks, words))
    all_of_it = words.value(Number(1.0, "percent"))
    return WaterChart(
        uid=uid,
        title=said,
        words=words.text(phrases.water_in_words()),
        width=width,
        height=rain_top + RAIN_HEIGHT + FOOT,
        axis=axis,
        months=months_of(axis, words),
        ticks=tuple(
            Tick(_up(value, top, foot), words.value(Number(value, "grouped")))
            for value in (n * step for n in range(round(top / step) + 1))
        ),
        bars=tuple(_minute_bars(weeks, minutes, axis, top, foot)),
        minutes_bottom=foot,
        rain_top=rain_top,
        rain_bottom=rain_top + RAIN_HEIGHT,
        rain=_rain_area(weeks, axis, rain_top),
        table=table,
        note=words.text(phrases.water_for_top()) if any(all_of_it in row for row in table) else "",
    )


def _weeks(plan: Plan, item: str) -> tuple[LedgerWeek, ...]:
    return next((ledger.weeks for ledger in plan.ledgers if ledger.item == item), ())


def _runs(plan: Plan, weeks: Sequence[LedgerWeek]) -> Iterator[tuple[date, int]]:
    """The day and the minutes of each run, as the tasks of the plan ask for them, in the weeks of
    the account.
    """
    for task in shown(plan.tasks):
        if task.series is not None and weeks:
            for day in series_days(task.series):
                if weeks[0].start <= day <= weeks[-1].end:
                    yield day, task.series.minutes


def _minutes_by_week(plan: Plan, weeks: Sequence[LedgerWeek]) -> list[int]:
    """The minutes of all waterings of each week."""
    minutes = [0] * len(weeks)
    starts = [week.start for week in weeks]
    for day, of_run in _runs(plan, weeks):
        week = bisect_right(starts, day) - 1
        if day <= weeks[week].end:
            minutes[week] += of_run
    return minutes


def _step(most: float) -> float:
    """A round step of which few make up the most."""
    power = 10.0 ** floor(log10(most / MOST_STEPS))
    return next(power * size for size in (1, 2, 5, 10) if power * size * MOST_STEPS >= most)


def _up(value: float, top: float, foot: float) -> float:
    return round(foot - value / top * MINUTES_HEIGHT, 1)


def _minute_bars(
    weeks: Sequence[LedgerWeek], minutes: Sequence[int], axis: Axis, top: float, foot: float
) -> Iterator[tuple[float, float, float, float]]:
    for week, value in zip(weeks, minutes, strict=True):
        if value and week.end >= axis.first and week.start <= axis.last:
            x, width = axis.bar(max(week.start, axis.first), min(week.end, axis.last))
            y = _up(value, top, foot)
            yield x + 0.4, y, max(width - 0.8, 1.0), round(foot - y, 1)


def covered(week: LedgerWeek) -> float:
    """The share of what grass and air take in a week that rain usually brings, 0 to 1; all of it
    where they take nothing.
    """
    taken = -week.entries.get("evapotranspiration", 0.0)
    return min(1.0, week.entries.get("rain", 0.0) / taken) if taken > 0 else 1.0


def _rain_area(weeks: Sequence[LedgerWeek], axis: Axis, top: float) -> str:
    """The corners of the area under the share that rain covers, week by week."""
    foot = top + RAIN_HEIGHT
    points: list[tuple[float, float]] = []
    for week in weeks:
        if week.end < axis.first or week.start > axis.last:
            continue
        x, width = axis.bar(max(week.start, axis.first), min(week.end, axis.last))
        y = round(foot - covered(week) * RAIN_HEIGHT, 1)
        points += [(x, y), (round(x + width, 1), y)]
    if not points:
        return ""
    corners = [(points[0][0], foot), *points, (points[-1][0], foot)]
    return " ".join(f"{x:g},{y:g}" for x, y in corners)


def _by_month(plan: Plan, weeks: Sequence[LedgerWeek], words: Words) -> Iterator[tuple[str, ...]]:
    """Each month of watering: the minutes of its days, as its card shows them, and how much of its
    weeks rain covers.
    """
    minutes: dict[tuple[int, int], int] = {}
    for day, of_run in sorted(_runs(plan, weeks)):
        minutes[day.year, day.month] = minutes.get((day.year, day.month), 0) + of_run
    for (year, month), total in minutes.items():
        if total:
            held = [w for w in weeks if (year, month) in _months_of_week(w)]
            rain = sum(covered(week) for week in held) / len(held)
            yield (
                words.text(_month(date(year, month, 1))),
                words.value(Number(total, "grouped")),
                words.value(Number(rain, "percent")),
            )


def _months_of_week(week: LedgerWeek) -> set[tuple[int, int]]:
    return {(day.year, day.month) for day in (week.start, week.end)}


def nitrogen_chart(
    plan: Plan, words: Words, uid: str = "nitrogen", *, large: bool = False
) -> NitrogenChart | None:
    """Need, compost and what is given through the season; None where no nitrogen is reckoned."""
    ledger = next((ledger for ledger in plan.ledgers if ledger.item == "nitrogen"), None)
    if ledger is None or not ledger.weeks:
        return None
    sums = {
        "need": -_sum(ledger, "growth"),
        "compost": _sum(ledger, "compost"),
        "given": _sum(ledger, "feed"),
    }
    if max(sums.values()) <= 0:
        return None
    width = width_of(large=large)
    unit = _NITROGEN[words.system]
    told = {
        name: words.value(Number(from_inside(value, unit, "areal_mass"), "tenth"))
        for name, value in sums.items()
    }
    # So little of compost that a tenth does not show it is not told of.
    composted = told["compost"] != words.value(Number(0.0, "tenth"))
    bars = [(name, value) for name, value in sums.items() if name != "compost" or composted]
    reach = (width - BAR_LEFT - 110.0) / max(sums.values())
    finding = phrases.nitrogen_finding if composted else phrases.nitrogen_finding_given
    return NitrogenChart(
        uid=uid,
        title=words.text(
            finding(
                **({"compost": told["compost"]} if composted else {}),
                need=told["need"],
                given=told["given"],
                unit=pretty_unit(unit),
            )
        ),
        words=words.text(
            phrases.nitrogen_in_words(
                first=_month(ledger.weeks[0].start), last=_month(ledger.weeks[-1].end)
            )
        ),
        width=width,
        height=len(bars) * (BAR_HEIGHT + BAR_GAP) + BAR_GAP,
        left=BAR_LEFT,
        bars=tuple(
            NitrogenBar(
                name,
                words.say(f"charts.nitrogen.{name}"),
                f"{told[name]} {pretty_unit(unit)}",
                BAR_GAP + n * (BAR_HEIGHT + BAR_GAP),
                round(value * reach, 1),
            )
            for n, (name, value) in enumerate(bars)
        ),
    )


def _sum(ledger: Ledger, name: str) -> float:
    return sum(week.entries.get(name, 0.0) for week in ledger.weeks)


def _month(day: date) -> Message:
    return phrases.month(month=Month(day.month, short=True), year=str(day.year))
