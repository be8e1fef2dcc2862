"""Wet seasons: lawns through the wettest autumns of daily series, planned again every evening.

Rain takes the day from what needs a dry one, by the book's own rule; all else is done on its day.
Hindsight is the same planner told the rain of the whole season. What hindsight seeds in the window
of the first plan is seeded in it, and no step before it is left out. A dry season is seeded on the
day of the first plan.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import lru_cache
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from campaigns.records import Campaign, Figures
from campaigns.walks import Walk
from planning import EXAMPLES, brief_of
from turfplan.app.inputs import PlanInputs, input_of
from turfplan.app.plan_lawn import planned
from turfplan.planning import Weather
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Role, Task
from turfplan.work.rain_years import dry_day
from turfplan.work.watering.season import WeatherDay

YEAR = 2027
# Where the series were measured, and the first day of a plan there.
STATIONS: Mapping[str, tuple[dict[str, Any], date]] = {
    "champion": ({"country": "US", "latitude": 40.4, "longitude": -101.7}, date(YEAR, 7, 15)),
    "brussels": ({"country": "BE", "latitude": 50.8, "longitude": 4.36}, date(YEAR, 7, 15)),
    "cambridge": ({"country": "GB", "latitude": 52.2, "longitude": 0.12}, date(YEAR, 7, 15)),
    "cordoba": ({"country": "AR", "latitude": -31.4, "longitude": -64.2}, date(YEAR, 2, 1)),
}
LAWNS: Mapping[str, dict[str, Any]] = {
    "small": {"lawn": {"area": "150 m2"}},
    "weekend": {},
    "weekdays": {"calendar": {"weekdays": ["mon", "tue", "wed", "thu", "fri"]}},
    "thatch": {"lawn": {"thatch": "0.7 in"}, "leveling": {"depth": "6 mm"}},
    "bluegrass": {"lawn": {"grass": "kentucky_bluegrass"}, "leveling": {"depth": "20 mm"}},
    "large": {
        "lawn": {"area": "1500 m2"},
        "work": {"people": 4, "machines": ["topdresser", "aerator"]},
    },
}
ON_THE_WAY_DAYS = 45
# Work for which rain asks for another day.
DRY = ("dry", "dry_ground")
NEEDED = 0.95
# What comes before seed, and is not left out for its sake.
STEPS: tuple[Role, ...] = ("low_cut", "thatching", "coring", "relaying", "spreading")
# So many autumns come before the next lawn is taken through a dry one.
BETWEEN_DRY = 12


@dataclass(frozen=True, slots=True)
class Autumn:
    """One lawn in one autumn: its first plan, its last, and whether hindsight seeds it on dry days
    of its window."""

    first: Plan
    last: Plan
    hindsight: bool


@lru_cache(maxsize=4)
def rain_of(station: str) -> Mapping[date, float]:
    """The daily rain of a station, mm."""
    spec = find_spec("aquacrop")
    if spec is None or spec.origin is None:
        raise FileNotFoundError("the package aquacrop, which carries daily weather")
    path = Path(spec.origin).parent / "data" / f"{station}_climate.txt"
    found = {}
    for line in path.read_text(encoding="utf-8").splitlines()[1:]:
        values = line.split()
        if len(values) >= 6:
            found[date(int(values[2]), int(values[1]), int(values[0]))] = float(values[5])
    return found


def begun(station: str, lawn: str) -> Walk:
    """The first plan of a lawn at a station."""
    given, plan = _first(station, lawn)
    return Walk(given, plan, by_file=False)


@lru_cache(maxsize=len(STATIONS) * len(LAWNS))
def _first(station: str, lawn: str) -> tuple[PlanInputs, Plan]:
    place, today = STATIONS[station]
    where = {"place": {"postal_code": None, **place}, "season": {"from": today}}
    given = input_of(brief_of(LAWNS[lawn], where), EXAMPLES)
    return given, planned(given, today=today)


def sowing(plan: Plan) -> Task | None:
    """What sows a lawn, None where nothing does."""
    sown = [t for t in plan.tasks if t.plays("sowing") and t.status != "CANCELLED"]
    return min(sown, key=lambda t: t.start, default=None)


def wettest(station: str, first: Plan) -> list[int]:
    """The years with most rain in the window of a plan's seed, the wettest first."""
    sown, rain = sowing(first), rain_of(station)
    assert sown is not None, station
    begin, end = sown.window.start - timedelta(days=21), sown.window.end
    years = sorted({day.year for day in rain})[:-1]
    return sorted(years, key=lambda year: -sum(_laid(rain, year, begin, end).values()))


def _laid(rain: Mapping[date, float], year: int, begin: date, end: date) -> dict[date, float]:
    """The rain of a year laid into the days of the plan."""
    days = (begin + timedelta(days=n) for n in range((end - begin).days + 1))
    return {day: rain.get(_in_year(day, year), 0.0) for day in days}


def _in_year(day: date, year: int) -> date:
    there = year + day.year - YEAR
    return date(there, day.month, min(day.day, 28) if day.month == 2 else day.day)


def dry(season: Walk, rain: Mapping[date, float], day: date) -> bool:
    """Whether a day is dry by the book's own rule."""
    return dry_day(season.given.book, rain.get(day, 0.0), rain.get(day - timedelta(days=1), 0.0))


def open_tasks(plan: Plan) -> list[Task]:
    """What is still to be done of a plan, but for waterings."""
    return [
        t for t in plan.tasks if t.closed is None and t.series is None and t.status != "CANCELLED"
    ]


def evening(season: Walk, rain: Mapping[date, float], today: date) -> None:
    """Write down what a day has brought: rain that took it from dry work, else what was done; what
    follows on such work the same day waits for it."""
    work = [t for t in open_tasks(season.plan) if t.start <= today]
    operations = season.given.book.operations
    hit = set()
    if not dry(season, rain, today):
        hit = {t.id for t in work if operations[t.operation].weather in DRY and today <= t.end}
    if hit:
        season.log("rained_off", on=today)
    for task in sorted(work, key=lambda t: t.start):
        if task.id in hit or not hit.isdisjoint(task.depends_on):
            continue
        if task.end == today:
            season.log("done", task=task.id, on=today, share=1.0)
        elif task.duration_days > 1:
            # A day of a job of several is done, whatever becomes of the others.
            season.log("done", task=task.id, on=today, share=_of_a_day(season, task))


def _of_a_day(season: Walk, task: Task) -> float:
    """The share of a job that a day of it is, of what is left of it."""
    done = task.actual.share if task.actual is not None else 0.0
    return round((1 - done) / task.duration_days, 3)


def through(season: Walk, rain: Mapping[date, float], until: date) -> Plan:
    """The plan after the seed is in, or on the day after which its window is over."""
    today = season.plan.now.date()
    while today <= until:
        entries = len(season.journal)
        evening(season, rain, today)
        today += timedelta(days=1)
        if len(season.journal) > entries:
            season.go(today)
        sown = sowing(season.plan)
        if sown is not None and sown.closed == "done":
            break
    return season.plan


def in_window(first: Plan, later: Plan) -> bool:
    """Whether a later plan sows in the window of the first one, or in an earlier one."""
    asked, sown = sowing(first), sowing(later)
    if asked is None or sown is None or sown.closed in ("skipped", "dropped"):
        return False
    return sown.end <= asked.window.end


def kept_dry(season: Walk, plan: Plan, rain: Mapping[date, float], until: date) -> bool:
    """Whether everything of a plan that needs a dry day has one, up to its seed."""
    operations = season.given.book.operations
    return all(
        dry(season, rain, day)
        for task in open_tasks(plan)
        if task.end <= until and operations[task.operation].weather in DRY
        for day in {task.start, task.end}
    )


def autumn(station: str, lawn: str, year: int) -> Autumn:
    """A lawn through one autumn."""
    season = begun(station, lawn)
    first, sown = season.plan, sowing(season.plan)
    assert sown is not None, (station, lawn)
    begin = season.plan.now.date()
    rain = _laid(rain_of(station), year, begin, sown.window.end + timedelta(ON_THE_WAY_DAYS))
    days = {day: WeatherDay(rain_mm=mm) for day, mm in rain.items()}
    told = replace(season.given, weather=Weather(days, min(days)))
    hindsight = Walk(told, first, by_file=False).go(begin)
    meant = sowing(hindsight)
    can = (
        meant is not None
        and in_window(first, hindsight)
        and kept_dry(season, hindsight, rain, meant.end)
    )
    return Autumn(first, through(season, rain, sown.window.end), can)


def left_out(first: Plan, last: Plan) -> list[str]:
    """The steps before the seed of the first plan that a plan whose seed is in has neither done nor
    goes on with."""
    sown = sowing(first)
    assert sown is not None
    done = {t.id for t in last.tasks if t.closed == "done" or t.is_open}
    return [t.id for t in first.tasks if t.plays(*STEPS) and t.end <= sown.end and t.id not in done]


def dry_autumn(station: str, lawn: str) -> None:
    """Fails where a lawn is not seeded on its first day in an autumn without rain."""
    season = begun(station, lawn)
    first = sowing(season.plan)
    assert first is not None, (station, lawn)
    last = sowing(through(season, {}, first.window.end))
    assert last is not None and last.start == first.start, (station, lawn, first.start)


def run(count: int, seed: int, folder: Path) -> Figures:
    """Fails where fewer than 95 % of the autumns that hindsight seeds in their window are; `count`
    autumns, the wettest of every lawn and station in turn."""
    places = [(station, lawn) for station in STATIONS for lawn in LAWNS]
    found: list[bool] = []
    lost: list[str] = []
    for number in range(count):
        station, lawn = places[(seed + number) % len(places)]
        if number % BETWEEN_DRY == 0:
            dry_autumn(*places[(seed + number // BETWEEN_DRY) % len(places)])
        years = wettest(station, begun(station, lawn).plan)
        year = years[(seed + number) // len(places) % len(years)]
        seen = autumn(station, lawn, year)
        if seen.hindsight:
            found.append(in_window(seen.first, seen.last))
            lost += [f"{station} {lawn} {year}"] * (not found[-1])
            undone = left_out(seen.first, seen.last) if found[-1] else []
            assert not undone, f"{station} {lawn} {year}: {undone} left out"
    share = sum(found) / max(1, len(found))
    assert not found or share >= NEEDED, f"{share:.0%}: {lost}"
    return {"autumns": count, "seeded_by_hindsight": len(found), "seeded": sum(found), "lost": lost}


CAMPAIGN = Campaign("wet_seasons", size=50, seed=0, unit="autumns", run=run)
