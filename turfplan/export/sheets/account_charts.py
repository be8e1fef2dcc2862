"""Lays out the accounts of water and nitrogen as charts: what came in above the line, what went out
below it.

Coordinates are those of the SVG viewBox: x to the right, y downward.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from math import ceil, floor, log10
from types import MappingProxyType

from turfplan.export.sheets.season_charts import WIDTH, Axis, MonthMark, Tick, months_of
from turfplan.export.templates import capital
from turfplan.message import Form, Message, Month, Number
from turfplan.messages import Words
from turfplan.phrases import charts as phrases
from turfplan.records.plan import Ledger, LedgerWeek
from turfplan.units import System, from_inside, pretty_unit

PLOT_TOP, PLOT_HEIGHT, FOOT_HEIGHT = 30.0, 200.0, 8.0
LETTER_HEIGHT, LETTER_WIDTH = 11.0, 6.0
LEDGER_LEFT, LEDGER_RIGHT = 56.0, WIDTH - 8.0
# Entry of a ledger -> its sign in the ids of the drawing, and the pattern that tells it apart in
# grey.
_ENTRIES: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "rain": ("R", "C"),
        "watering": ("W", "L"),
        "rooted": ("G", "S"),
        "evapotranspiration": ("U", "O"),
        "lost": ("D", "P"),
        "feed": ("F", "L"),
        "compost": ("C", "S"),
        "growth": ("T", "O"),
    }
)
_SPARE_PATTERNS = ("S", "P", "C", "O")
_UNITS: Mapping[str, tuple[str, str, str]] = MappingProxyType(
    {"mm": ("length", "in", "mm"), "g/m2": ("areal_mass", "lb/1000ft2", "g/m2")}
)


@dataclass(frozen=True, slots=True)
class EntryBlock:
    """What one kind of entry (its mark) adds in one week, stacked on the others.

    `letter` where it is printed.
    """

    x: float
    y: float
    width: float
    height: float
    kind: str
    letter: str


@dataclass(frozen=True, slots=True)
class EntryLegend:
    """A kind of entry in the legend: `mark` stands for it in the ids of the drawing, `letter` for
    the reader.
    """

    mark: str
    letter: str
    name: str
    pattern: str


@dataclass(frozen=True, slots=True)
class LedgerChart:
    """A weekly account as stacked blocks with a line for what is left."""

    uid: str
    name: str
    title: str
    words: str
    width: float
    height: float
    axis: Axis
    months: tuple[MonthMark, ...]
    ticks: tuple[Tick, ...]
    unit: str
    plot_top: float
    plot_bottom: float
    zero_y: float
    blocks: tuple[EntryBlock, ...]
    balance: str
    balance_name: str
    kinds: tuple[EntryLegend, ...]
    header: tuple[str, ...]
    table: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _ValueAxis:
    """The upright axis of an account, with round ends in the reader's unit.

    `unit` is that of the account.
    """

    low: float
    high: float
    step: float
    unit: str
    system: System

    def place(self, value: float) -> float:
        """The y of a value in the reader's unit."""
        share = (value - self.low) / (self.high - self.low)
        return round(PLOT_TOP + PLOT_HEIGHT - share * PLOT_HEIGHT, 1)

    def y(self, value: float) -> float:
        """The y of a value in the account's unit."""
        return self.place(_shown(value, self.unit, self.system))

    def ticks(self, words: Words) -> tuple[Tick, ...]:
        """A mark at each step, from the lowest up."""
        count = round((self.high - self.low) / self.step) + 1
        values = (round(self.low + n * self.step, 6) for n in range(count))
        return tuple(Tick(self.place(v), words.value(Number(v, "short"))) for v in values)


def ledger_chart(ledger: Ledger, words: Words, uid: str | None = None) -> LedgerChart | None:
    """The chart of one account in the units of the reader; None for an account without weeks."""
    if not ledger.weeks:
        return None
    names = list(dict.fromkeys(name for week in ledger.weeks for name in week.entries))
    kinds = _kinds(names, words)
    axis = Axis(ledger.weeks[0].start, ledger.weeks[-1].end, LEDGER_LEFT, LEDGER_RIGHT)
    scale = _scale(ledger, words.system)
    water = ledger.item == "water"
    unit = pretty_unit(_UNITS[ledger.unit][1 if words.system is System.US else 2])
    return LedgerChart(
        uid=uid or ledger.item,
        name=words.text(phrases.water() if water else phrases.nitrogen()),
        title=words.text(phrases.water_weekly() if water else phrases.nitrogen_weekly()),
        words=words.text(_in_words(ledger, words, unit)),
        width=WIDTH,
        height=PLOT_TOP + PLOT_HEIGHT + FOOT_HEIGHT,
        axis=axis,
        months=months_of(axis, words),
        ticks=scale.ticks(words),
        unit=unit,
        plot_top=PLOT_TOP,
        plot_bottom=PLOT_TOP + PLOT_HEIGHT,
        zero_y=scale.y(0.0),
        blocks=tuple(_lettered(_blocks(ledger, axis, kinds, scale), kinds)),
        balance=_balance_line(ledger, axis, scale),
        balance_name=words.text(phrases.water_left() if water else phrases.nitrogen_left()),
        kinds=tuple(kinds.values()),
        header=(
            words.text(phrases.month_head()),
            *(capital(kind.name) for kind in kinds.values()),
            words.text(phrases.at_the_end()),
        ),
        table=tuple(_table(ledger, names, words)),
        notes=tuple(note.text for note in ledger.notes),
    )


def _kinds(names: Iterable[str], words: Words) -> dict[str, EntryLegend]:
    spare = iter(_SPARE_PATTERNS)
    kinds = {}
    for name in names:
        if name in _ENTRIES:
            mark, pattern = _ENTRIES[name]
            letter = words.say(f"charts.entry.{name}.letter")
            kinds[name] = EntryLegend(mark, letter, words.say(f"charts.entry.{name}.name"), pattern)
        else:
            # Of an account by another version of the program: it is called as it is written there.
            first = name[:1].upper()
            kinds[name] = EntryLegend(first, first, name.replace("_", " "), next(spare, "F"))
    return kinds


def _shown(value: float, unit: str, system: System) -> float:
    dimension, us, metric = _UNITS[unit]
    return from_inside(value, us if system is System.US else metric, dimension)


def _sums(week: LedgerWeek) -> tuple[float, float]:
    return sum(v for v in week.entries.values() if v < 0), sum(
        v for v in week.entries.values() if v > 0
    )


def _scale(ledger: Ledger, system: System) -> _ValueAxis:
    """The axis that holds every stack and the balance, zero among them."""
    lows = [min(_sums(week)[0], week.balance, 0.0) for week in ledger.weeks]
    highs = [max(_sums(week)[1], week.balance, 0.0) for week in ledger.weeks]
    low, high = (_shown(value, ledger.unit, system) for value in (min(lows), max(highs)))
    reach = high - low or 1.0
    power = 10.0 ** floor(log10(reach / 5))
    step = next(power * size for size in (1, 2, 5, 10) if power * size * 5.5 >= reach)
    top = ceil(round(high / step, 6)) * step
    bottom = floor(round(low / step, 6)) * step
    return _ValueAxis(bottom, top if top > 0 or low < 0 else step, step, ledger.unit, system)


def _blocks(
    ledger: Ledger, axis: Axis, kinds: Mapping[str, EntryLegend], scale: _ValueAxis
) -> Iterator[EntryBlock]:
    """Every entry of every week, stacked away from zero."""
    for week in ledger.weeks:
        x, width = axis.bar(week.start, week.end)
        up = down = 0.0
        for name, value in week.entries.items():
            if value == 0:
                continue
            base = up if value > 0 else down
            top, foot = sorted((scale.y(base), scale.y(base + value)))
            up += max(value, 0.0)
            down += min(value, 0.0)
            yield EntryBlock(
                x=x + 0.5,
                y=top,
                width=max(width - 1.0, 1.0),
                height=round(foot - top, 1),
                kind=kinds[name].mark,
                letter="",
            )


def _lettered(
    blocks: Iterable[EntryBlock], kinds: Mapping[str, EntryLegend]
) -> Iterator[EntryBlock]:
    """The same blocks, with each kind's letter in its largest one, where that has room for it."""
    placed = list(blocks)
    letters = {kind.mark: kind.letter for kind in kinds.values()}
    largest: dict[str, int] = {}
    for n, block in enumerate(placed):
        first = largest.setdefault(block.kind, n)
        if block.height > placed[first].height:
            largest[block.kind] = n
    for n, block in enumerate(placed):
        room = block.height >= LETTER_HEIGHT and block.width >= LETTER_WIDTH
        lettered = room and largest[block.kind] == n
        yield replace(block, letter=letters[block.kind]) if lettered else block


def _balance_line(ledger: Ledger, axis: Axis, scale: _ValueAxis) -> str:
    """What is left at the end of each week, as points of a line."""
    points = [(axis.left, scale.y(ledger.opening))]
    for week in ledger.weeks:
        x, width = axis.bar(week.start, week.end)
        points.append((round(x + width, 1), scale.y(week.balance)))
    return " ".join(f"{x:g},{y:g}" for x, y in points)


def _table(ledger: Ledger, names: Sequence[str], words: Words) -> Iterable[tuple[str, ...]]:
    """The account by month: a week counts to the month of its last day."""
    months: dict[tuple[int, int], list[LedgerWeek]] = {}
    for week in ledger.weeks:
        months.setdefault((week.end.year, week.end.month), []).append(week)
    for weeks in months.values():
        sums = [sum(week.entries.get(name, 0.0) for week in weeks) for name in names]
        texts = [_number(value, ledger.unit, words) for value in (*sums, weeks[-1].balance)]
        yield (words.text(_month(weeks[-1].end)), *texts)


def _number(amount: float, unit: str, words: Words) -> str:
    """Millimetres whole, inches and nitrogen rates to a hundredth; a true minus sign."""
    value = _shown(amount, unit, words.system)
    digits, form = _digits(unit, words.system)
    text = words.value(Number(abs(value), form))
    return f"−{text}" if value < 0 and round(abs(value), digits) else text


def _digits(unit: str, system: System) -> tuple[int, Form]:
    if system is System.US:
        return 2, "hundredth"
    return (0, "whole") if unit == "mm" else (1, "tenth")


def _in_words(ledger: Ledger, words: Words, unit: str) -> Message:
    """The account in a sentence, for those who do not see the chart."""
    came = sum(_sums(week)[1] for week in ledger.weeks)
    went = -sum(_sums(week)[0] for week in ledger.weeks)
    return phrases.account_in_words(
        first=_month(ledger.weeks[0].start),
        last=_month(ledger.weeks[-1].end),
        came=_number(came, ledger.unit, words),
        went=_number(went, ledger.unit, words),
        unit=unit,
    )


def _month(day: date) -> Message:
    return phrases.month(month=Month(day.month, short=True), year=str(day.year))
