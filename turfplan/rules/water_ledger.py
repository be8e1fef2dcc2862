"""The account of water over a dated season: each day's flows, the weeks of the ledger, and advice for mature grass."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, timedelta
from typing import NamedTuple

from turfplan.plan import Ledger, LedgerWeek
from turfplan.rules.water_balance import Store, day_flow, depletion_share, reroot
from turfplan.rules.watering_request import WEEK, Ground
from turfplan.rules.watering_stages import Stage
from turfplan.units import read_as

DECIMALS = 3
YOUNG = ("germination", "establishment", "rooting", "weaning")
LONG_RUN_MIN = 180  # from here on hours read better than minutes
LONGEST_WAIT = 15  # days looked ahead for the next lawful one


class DayBook(NamedTuple):
    """One day of the account, mm: what came, what went, what was missing in the profile at its end."""

    day: date
    rain_mm: float
    watering_mm: float
    et_mm: float
    lost_mm: float
    missing_mm: float
    depletion_mm: float
    stress: float
    mature: bool


def account(ground: Ground, plan: Sequence[Stage], watered: Mapping[date, tuple[float, float]]) -> tuple[DayBook, ...]:
    """Every day of the season in order. `watered` gives the staged waterings (mean and least depth).

    Outside the stages mature grass is watered when its allowable depletion is reached, on a lawful day, where watering is
    possible. Known rain counts whole; of normal rain the share that grass can use, the rest is lost.
    """
    request, soil, full = ground.request, ground.soil, ground.root_mm
    evenness = sum(z.uniformity * z.area_m2 for z in request.zones) / sum(z.area_m2 for z in request.zones)
    least, rest = request.book.si("water.least_run"), request.book.si("water.dormant_growth")
    waters = request.water.possible is not False
    track = _track(ground, plan)
    store = Store(full, 0.0, 0.0)
    found: list[DayBook] = []
    for number, crop in enumerate(track.crop_mm):
        day = ground.first + timedelta(number)
        rain, idle, mature = track.rain_mm[number], track.idle_mm[number], track.mature[number]
        store = reroot(store, track.root_mm[number], full)
        share = depletion_share(soil.depletion_share, crop)
        water = watered[day][0] if day in watered else 0.0
        if mature and waters and store.depletion_mm > least:
            wanted = _mature_watering_mm(ground, day, store, crop - rain, share)
            water += wanted / evenness if wanted and ground.growing(day, rest) else 0.0
        flow = day_flow(store, soil, crop, rain, water, share)
        store = flow.store
        lost = flow.lost_mm + idle
        found.append(
            DayBook(
                day, rain + idle, water, flow.et_mm, lost, store.missing_mm, store.depletion_mm, flow.stress, mature
            )
        )
    return tuple(found)


class _Track(NamedTuple):
    """What each day of the account brings by itself, by number of the day."""

    crop_mm: list[float]
    root_mm: list[float]
    rain_mm: list[float]
    idle_mm: list[float]
    mature: list[bool]


def _track(ground: Ground, plan: Sequence[Stage]) -> _Track:
    """Use of water, root depth, rain that reaches the roots and rain that does not, and whether a day lies in no stage."""
    request = ground.request
    days = (request.end - ground.first).days + 1
    et0 = ground.et0_mm[:days]
    months = (ground.first + timedelta(number) for number in range(days))
    crop = [et * ground.kc[day.month - 1] for et, day in zip(et0, months, strict=True)]
    root, mature = [ground.root_mm] * days, [True] * days
    for stage in plan:
        for number in range(ground.at(stage.start), ground.at(stage.end) + 1):
            mature[number] = False
            if stage.name in YOUNG:
                crop[number] = et0[number] * (ground.kc_wet if stage.name == "germination" else ground.kc_young)
    for begun in (request.seeded_on, request.planted_on):
        number = ground.at(begun) if begun is not None else days
        while number < days and (depth := ground.root_depth_mm(ground.first + timedelta(number))) < ground.root_mm:
            root[number] = depth
            number += 1
    rain = list(ground.usable_rain_mm[:days])
    idle = [max(0.0, whole - used) for whole, used in zip(ground.rain_mm, rain, strict=False)]
    light = request.book.si("water.light_rain_share")
    for day, known in request.weather.items():
        number = ground.at(day)
        if known.rain_mm is not None and 0 <= number < days:
            # A light rain dries on the leaves (FAO-56, chapter 8).
            dries = known.rain_mm <= light * et0[number]
            rain[number], idle[number] = (0.0, known.rain_mm) if dries else (known.rain_mm, 0.0)
    return _Track(crop, root, rain, idle, mature)


def _mature_watering_mm(ground: Ground, day: date, store: Store, net_mm: float, share: float) -> float:
    """Refill when a day's net use would pass the allowable depletion before the next lawful day."""
    ready = share * ground.soil.total_mm(store.root_mm)
    if store.depletion_mm + LONGEST_WAIT * max(0.0, net_mm) <= ready or not ground.law.open(day):
        return 0.0
    wait = next((n for n in range(1, LONGEST_WAIT) if ground.law.open(day + timedelta(n))), LONGEST_WAIT)
    return store.depletion_mm if store.depletion_mm + wait * net_mm > ready else 0.0


def ledger_of(books: Sequence[DayBook], notes: Sequence[str]) -> Ledger:
    """The days as weeks from Monday. Entries carry their sign: each balance is the one before plus the week's entries.

    The balance is the water in the profile against field capacity (0 is full).
    """
    weeks: list[LedgerWeek] = []
    for part in _weeks(books):
        entries = {
            "rain": round(sum(b.rain_mm for b in part), DECIMALS),
            "watering": round(sum(b.watering_mm for b in part), DECIMALS),
            "evapotranspiration": _out(b.et_mm for b in part),
            "lost": _out(b.lost_mm for b in part),
        }
        balance = _out([part[-1].missing_mm])
        weeks.append(LedgerWeek(start=part[0].day, end=part[-1].day, entries=entries, balance=balance))
    return Ledger(item="water", unit="mm", opening=0.0, weeks=tuple(weeks), notes=tuple(notes))


def _out(values: Iterable[float]) -> float:
    """A sum that leaves the account: negative, and a plain 0 where nothing left."""
    return 0.0 - round(sum(values), DECIMALS)


def _weeks(books: Sequence[DayBook]) -> list[list[DayBook]]:
    weeks: list[list[DayBook]] = []
    for book in books:
        if not weeks or book.day.weekday() == 0:
            weeks.append([])
        weeks[-1].append(book)
    return weeks


def mature_notes(ground: Ground, books: Sequence[DayBook]) -> tuple[str, ...]:
    """Advice by month for the time after the stages: how much a week, in how many runs, and how long each."""
    request, notes = ground.request, []
    months: dict[tuple[int, int], list[DayBook]] = {}
    for book in books:
        if book.mature:
            months.setdefault((book.day.year, book.day.month), []).append(book)
    for days in months.values():
        runs = [book.watering_mm for book in days if book.watering_mm > 0]
        if len(days) < WEEK or not runs:
            continue
        weekly = sum(runs) / len(days) * WEEK
        each = sum(runs) / len(runs)
        minutes = round(
            60 * each / (sum(z.rate_mm_h * z.area_m2 for z in request.zones) / sum(z.area_m2 for z in request.zones))
        )
        long = (
            f"about {minutes} min at a time"
            if minutes <= LONG_RUN_MIN
            else f"about {minutes / 60:.0f} hours at a time, in parts"
        )
        notes.append(
            f"{days[0].day:%B %Y}: grass that has rooted needs about {read_as(weekly, 'rain', request.system).text} of water a week "
            f"beside the usual rain, {long}, every {max(1, round(len(days) / len(runs)))} days; none after real rain."
        )
    return tuple(notes)
