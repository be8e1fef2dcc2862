"""Lays out the accounts of water and nitrogen as charts: what came in above the line, what went out below it.

Coordinates are those of the SVG viewBox: x to the right, y downward.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from math import ceil, floor, log10
from types import MappingProxyType

from turfplan.export.charts import WIDTH, Axis, Month, Tick, months_of
from turfplan.plan import Ledger, LedgerWeek
from turfplan.units import System, format_number, from_inside, pretty_unit
from turfplan.wording import MONTHS

PLOT_TOP, PLOT_HEIGHT, FOOT_HEIGHT = 30.0, 200.0, 8.0
LETTER_HEIGHT, LETTER_WIDTH = 11.0, 6.0
LEDGER_LEFT, LEDGER_RIGHT = 56.0, WIDTH - 8.0
# Entry of a ledger -> its letter, its name and the pattern that tells it apart in grey.
_ENTRIES: Mapping[str, tuple[str, str, str]] = MappingProxyType(
    {
        "rain": ("R", "rain", "C"),
        "watering": ("W", "watering", "L"),
        "evapotranspiration": ("U", "used by grass and air", "O"),
        "lost": ("D", "drained or run off", "P"),
        "feed": ("F", "feeding", "L"),
        "compost": ("C", "from compost", "S"),
        "growth": ("T", "taken by growth", "O"),
    }
)
_SPARE_PATTERNS = ("S", "P", "C", "O")
_UNITS: Mapping[str, tuple[str, str, str]] = MappingProxyType(
    {"mm": ("length", "in", "mm"), "g/m2": ("areal_mass", "lb/1000ft2", "g/m2")}
)


@dataclass(frozen=True, slots=True)
class Block:
    """What one kind of entry (its letter) adds in one week, stacked on the others; `letter` where it is printed."""

    x: float
    y: float
    width: float
    height: float
    kind: str
    letter: str


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of entry in the legend."""

    letter: str
    name: str
    pattern: str


@dataclass(frozen=True, slots=True)
class LedgerChart:
    """A weekly account as stacked blocks with a line for what is left."""

    uid: str
    title: str
    words: str
    width: float
    height: float
    axis: Axis
    months: tuple[Month, ...]
    ticks: tuple[Tick, ...]
    unit: str
    plot_top: float
    plot_bottom: float
    zero_y: float
    blocks: tuple[Block, ...]
    balance: str
    balance_name: str
    kinds: tuple[Kind, ...]
    header: tuple[str, ...]
    table: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...]


def ledger_chart(ledger: Ledger, system: System, uid: str | None = None) -> LedgerChart | None:
    """The chart of one account in the units of the reader; None for an account without weeks."""
    if not ledger.weeks:
        return None
    names = list(dict.fromkeys(name for week in ledger.weeks for name in week.entries))
    kinds = _kinds(names)
    axis = Axis(ledger.weeks[0].start, ledger.weeks[-1].end, LEDGER_LEFT, LEDGER_RIGHT)
    low, high, step = _scale(ledger, system)
    bottom = PLOT_TOP + PLOT_HEIGHT

    def y(value: float) -> float:
        return round(bottom - (_shown(value, ledger.unit, system) - low) / (high - low) * PLOT_HEIGHT, 1)

    water = ledger.item == "water"
    unit = pretty_unit(_UNITS[ledger.unit][1 if system is System.US else 2])
    return LedgerChart(
        uid=uid or ledger.item,
        title=f"{'Water' if water else 'Nitrogen'}, week by week",
        words=_words(ledger, system, unit),
        width=WIDTH,
        height=bottom + FOOT_HEIGHT,
        axis=axis,
        months=months_of(axis),
        ticks=tuple(
            Tick(round(bottom - (v - low) / (high - low) * PLOT_HEIGHT, 1), format_number(v))
            for v in (round(low + n * step, 6) for n in range(round((high - low) / step) + 1))
        ),
        unit=unit,
        plot_top=PLOT_TOP,
        plot_bottom=bottom,
        zero_y=y(0.0),
        blocks=tuple(_blocks(ledger, axis, kinds, y)),
        balance=_balance_line(ledger, axis, y),
        balance_name="water in the root zone, 0 when full" if water else "what is left over",
        kinds=tuple(kinds.values()),
        header=("Month", *(kind.name.capitalize() for kind in kinds.values()), "At the end"),
        table=tuple(_table(ledger, names, system)),
        notes=ledger.notes,
    )


def _kinds(names: Iterable[str]) -> dict[str, Kind]:
    spare = iter(_SPARE_PATTERNS)
    return {
        name: Kind(*_ENTRIES[name])
        if name in _ENTRIES
        else Kind(name[:1].upper(), name.replace("_", " "), next(spare, "F"))
        for name in names
    }


def _shown(value: float, unit: str, system: System) -> float:
    dimension, us, metric = _UNITS[unit]
    return from_inside(value, us if system is System.US else metric, dimension)


def _sums(week: LedgerWeek) -> tuple[float, float]:
    return sum(v for v in week.entries.values() if v < 0), sum(v for v in week.entries.values() if v > 0)


def _scale(ledger: Ledger, system: System) -> tuple[float, float, float]:
    """Round ends and step that hold every stack and the balance, zero among them."""
    lows = [min(_sums(week)[0], week.balance, 0.0) for week in ledger.weeks]
    highs = [max(_sums(week)[1], week.balance, 0.0) for week in ledger.weeks]
    low, high = (_shown(value, ledger.unit, system) for value in (min(lows), max(highs)))
    reach = high - low or 1.0
    power = 10.0 ** floor(log10(reach / 5))
    step = next(power * size for size in (1, 2, 5, 10) if power * size * 5.5 >= reach)
    top = ceil(round(high / step, 6)) * step
    return floor(round(low / step, 6)) * step, top if top > 0 or low < 0 else step, step


def _blocks(ledger: Ledger, axis: Axis, kinds: Mapping[str, Kind], y: Callable[[float], float]) -> Iterable[Block]:
    """Every entry of every week, stacked away from zero; each kind's letter stands in its largest block."""
    placed: list[tuple[str, Block]] = []
    for week in ledger.weeks:
        x, width = axis.bar(week.start, week.end)
        up = down = 0.0
        for name, value in week.entries.items():
            if value == 0:
                continue
            base = up if value > 0 else down
            top, foot = sorted((y(base), y(base + value)))
            if value > 0:
                up += value
            else:
                down += value
            placed.append(
                (name, Block(x + 0.5, top, max(width - 1.0, 1.0), round(foot - top, 1), kinds[name].letter, ""))
            )
    for name, kind in kinds.items():
        own = [n for n, (owner, _) in enumerate(placed) if owner == name]
        largest = max(own, key=lambda n: placed[n][1].height, default=None)
        if largest is not None:
            block = placed[largest][1]
            if block.height >= LETTER_HEIGHT and block.width >= LETTER_WIDTH:
                placed[largest] = (name, Block(block.x, block.y, block.width, block.height, block.kind, kind.letter))
    return [block for _, block in placed]


def _balance_line(ledger: Ledger, axis: Axis, y: Callable[[float], float]) -> str:
    """What is left at the end of each week, as points of a line."""
    points = [(axis.left, y(ledger.opening))]
    for week in ledger.weeks:
        x, width = axis.bar(week.start, week.end)
        points.append((round(x + width, 1), y(week.balance)))
    return " ".join(f"{x:g},{y_:g}" for x, y_ in points)


def _table(ledger: Ledger, names: Sequence[str], system: System) -> Iterable[tuple[str, ...]]:
    """The account by month: a week counts to the month of its last day."""
    months: dict[tuple[int, int], list[LedgerWeek]] = {}
    for week in ledger.weeks:
        months.setdefault((week.end.year, week.end.month), []).append(week)
    for (year, month), weeks in months.items():
        sums = [sum(week.entries.get(name, 0.0) for week in weeks) for name in names]
        texts = [
            _number(_shown(value, ledger.unit, system), system, ledger.unit) for value in (*sums, weeks[-1].balance)
        ]
        yield (f"{MONTHS[month - 1]} {year}", *texts)


def _number(value: float, system: System, unit: str) -> str:
    """Millimetres whole, inches and nitrogen rates to a hundredth; a true minus sign."""
    digits = 0 if system is System.METRIC and unit == "mm" else 2 if system is System.US else 1
    text = f"{abs(value):.{digits}f}"
    return f"−{text}" if value < 0 and float(text) else text


def _words(ledger: Ledger, system: System, unit: str) -> str:
    """The account in two sentences, for those who do not see the chart."""
    first, last = ledger.weeks[0].start, ledger.weeks[-1].end
    came = sum(_sums(week)[1] for week in ledger.weeks)
    went = -sum(_sums(week)[0] for week in ledger.weeks)
    texts = [_number(_shown(value, ledger.unit, system), system, ledger.unit) for value in (came, went)]
    return f"{_month(first)} to {_month(last)}: {texts[0]} {unit} comes in and {texts[1]} {unit} goes out; bars by week, a line for what is left."


def _month(day: date) -> str:
    return f"{MONTHS[day.month - 1]} {day.year}"
