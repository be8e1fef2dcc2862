"""The account of nitrogen over a dated season: what is given, what compost releases, what growth takes."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from turfplan.climate.record import Climate
from turfplan.plan import Ledger, LedgerWeek

DECIMALS = 4
YEAR = 365


@dataclass(frozen=True, slots=True)
class Demand:
    """The nitrogen a year's growth takes, g/m2, for a cool- or warm-season grass."""

    year_g_m2: float
    season: str


def nitrogen_ledger(
    climate: Climate,
    demand: Demand,
    start: date,
    end: date,
    given_g_m2: Mapping[date, float],
    compost: Sequence[tuple[date, float]] = (),
    notes: Sequence[str] = (),
) -> Ledger:
    """Weeks from Monday: feedings on their days, compost released by warmth, growth taking the year's demand.

    `compost` holds days of spreading with the first-year credit of each (g/m2): it is released over the year after, in
    proportion to growth potential. Entries carry their sign; each balance is the one before plus the week's entries.
    """
    days = [start + timedelta(n) for n in range((end - start).days + 1)]
    growth = [climate.growth_potential(day, demand.season) for day in days]
    year = sum(climate.growth_potential(start + timedelta(n), demand.season) for n in range(YEAR)) or 1.0
    taken = [demand.year_g_m2 * g / year for g in growth]
    released = _released(climate, demand.season, days, growth, compost)
    weeks: list[LedgerWeek] = []
    sums = {"feed": 0.0, "compost": 0.0, "growth": 0.0}
    balance, first = 0.0, start
    for number, day in enumerate(days):
        sums["feed"] += given_g_m2.get(day, 0.0)
        sums["compost"] += released[number]
        sums["growth"] -= taken[number]
        if day.weekday() == 6 or day == end:
            entries = {name: round(value, DECIMALS) for name, value in sums.items()}
            balance = round(balance + sum(entries.values()), DECIMALS)
            weeks.append(LedgerWeek(start=first, end=day, entries=entries, balance=balance))
            sums = dict.fromkeys(sums, 0.0)
            first = day + timedelta(1)
    return Ledger(item="nitrogen", unit="g/m2", opening=0.0, weeks=tuple(weeks), notes=tuple(notes))


def _released(
    climate: Climate, season: str, days: Sequence[date], growth: Sequence[float], compost: Sequence[tuple[date, float]]
) -> list[float]:
    found = [0.0] * len(days)
    for spread_on, credit in compost:
        whole = sum(climate.growth_potential(spread_on + timedelta(n), season) for n in range(YEAR)) or 1.0
        for number, day in enumerate(days):
            if spread_on <= day < spread_on + timedelta(YEAR):
                found[number] += credit * growth[number] / whole
    return found
