"""The account of nitrogen over a dated season: given, released by compost, taken by growth."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from turfplan.calendar_days import DAYS, daily
from turfplan.climate.record import Climate
from turfplan.message import Worded
from turfplan.records.plan import Ledger

DECIMALS = 4


@dataclass(frozen=True, slots=True)
class Demand:
    """The nitrogen a year's growth takes, g/m2, for a cool- or warm-season grass.

    Nothing is taken from the first of the `grassless` days up to the second, on which what is sown
    or planted begins.
    """

    year_g_m2: float
    season: str
    grassless: tuple[date, date] | None = None


def nitrogen_ledger(
    climate: Climate,
    demand: Demand,
    start: date,
    end: date,
    given_g_m2: Mapping[date, float],
    compost: Sequence[tuple[date, float]] = (),
    notes: Sequence[Worded] = (),
) -> Ledger:
    """Weeks from Monday: feedings on their days, compost by warmth, growth by the year's demand.

    `compost` holds days of spreading with the first-year credit of each (g/m2): it is released over
    the year after, in proportion to growth potential. Entries carry their sign; each balance is the
    one before plus the week's entries.
    """
    count = (end - start).days + 1
    curve = climate.growth_curve(demand.season)
    growth = daily(curve, start, end)
    year = _year_of_growth(curve, start, growth, 0)
    taken = [demand.year_g_m2 * g / year for g in growth]
    if demand.grassless is not None:
        first_bare, begun = ((day - start).days for day in demand.grassless)
        taken = [0.0 if first_bare <= n < begun else amount for n, amount in enumerate(taken)]
    released = _released(curve, start, growth, compost)
    given = [0.0] * count
    for day, rate in given_g_m2.items():
        if start <= day <= end:
            given[(day - start).days] += rate
    weeks: list[dict[str, object]] = []
    balance, first = 0.0, 0
    while first < count:
        last = min(count, first + 7 - (start.weekday() + first) % 7)
        entries = {
            "feed": round(sum(given[first:last]), DECIMALS),
            "compost": round(sum(released[first:last]), DECIMALS),
            "growth": round(0.0 - sum(taken[first:last]), DECIMALS),
        }
        balance = round(balance + sum(entries.values()), DECIMALS)
        days = {"start": start + timedelta(first), "end": start + timedelta(last - 1)}
        weeks.append({**days, "entries": entries, "balance": balance})
        first = last
    return Ledger.model_validate(
        {"item": "nitrogen", "unit": "g/m2", "opening": 0.0, "weeks": weeks, "notes": tuple(notes)}
    )


def _released(
    curve: Sequence[float],
    start: date,
    growth: Sequence[float],
    compost: Sequence[tuple[date, float]],
) -> list[float]:
    """What compost gives on each day from `start`: its credit over a year of growth."""
    released = [0.0] * len(growth)
    for spread_on, credit in compost:
        begun = (spread_on - start).days
        whole = _year_of_growth(curve, start, growth, begun)
        for number in range(max(0, begun), min(len(growth), begun + DAYS)):
            released[number] += credit * growth[number] / whole
    return released


def _year_of_growth(
    curve: Sequence[float], start: date, growth: Sequence[float], begun: int
) -> float:
    """Growth over the year that begins `begun` days after `start`; 1 where nothing grows.

    `growth` holds the days from `start` on.
    """
    if 0 <= begun <= len(growth) - DAYS:
        return sum(growth[begun : begun + DAYS]) or 1.0
    first = start + timedelta(begun)
    return sum(daily(curve, first, first + timedelta(DAYS - 1))) or 1.0
