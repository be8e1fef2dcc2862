"""The account of water over a dated season: each day's flows, the weeks of the ledger, and advice for mature grass."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from turfplan.plan import Ledger, LedgerWeek
from turfplan.rules.water_balance import Store, day_flow, depletion_share, reroot
from turfplan.rules.watering_request import WEEK, Ground
from turfplan.rules.watering_stages import Stage, root_depth_mm
from turfplan.units import read_as

DECIMALS = 3


@dataclass(frozen=True, slots=True)
class DayBook:
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
    request, book, soil = ground.request, ground.request.book, ground.soil
    full = book.si("water.root_depth")
    staged = [(s.start, s.end) for s in plan]
    sown = [(s.start, s.end) for s in plan if s.name in ("germination", "establishment", "rooting", "weaning")]
    tender = {
        s.start + timedelta(n) for s in plan if s.name == "germination" for n in range((s.end - s.start).days + 1)
    }
    store = Store(full, 0.0, 0.0)
    found: list[DayBook] = []
    evenness = sum(z.uniformity * z.area_m2 for z in request.zones) / sum(z.area_m2 for z in request.zones)
    for number in range((request.end - request.start).days + 1):
        day = request.start + timedelta(number)
        store = reroot(store, root_depth_mm(request, day), full)
        crop = ground.crop_et_mm(day, seedling=any(a <= day <= b for a, b in sown), wet=day in tender)
        rain, idle = _rain(ground, day, ground.rain_mm[number])
        share = depletion_share(soil.depletion_share, crop)
        mature = not any(a <= day <= b for a, b in staged)
        water = watered.get(day, (0.0, 0.0))[0]
        if mature and request.water.possible is not False:
            water += _mature_watering_mm(ground, day, store, crop, rain, share) / evenness
        flow = day_flow(store, soil, crop, rain, water, share)
        store = flow.store
        found.append(
            DayBook(
                day,
                rain + idle,
                water,
                flow.et_mm,
                flow.lost_mm + idle,
                store.missing_mm,
                store.depletion_mm,
                flow.stress,
                mature,
            )
        )
    return tuple(found)


def _rain(ground: Ground, day: date, normal_mm: float) -> tuple[float, float]:
    """Rain that reaches the roots, and rain that does not (runs off, dries on the leaves, or drains at once)."""
    known = ground.request.weather.get(day)
    if known is not None and known.rain_mm is not None:
        light = ground.request.book.si("water.light_rain_share") * ground.et0_mm[ground.at(day)]
        return (0.0, known.rain_mm) if known.rain_mm <= light else (known.rain_mm, 0.0)
    usable = ground.usable_rain_mm[ground.at(day)]
    return usable, max(0.0, normal_mm - usable)


def _mature_watering_mm(ground: Ground, day: date, store: Store, crop_mm: float, rain_mm: float, share: float) -> float:
    """Refill when use would pass the allowable depletion before the next lawful day; never while grass rests."""
    climate, book = ground.request.climate, ground.request.book
    if not ground.law.open(day) or climate.growth_potential(day, ground.request.season) < book.si(
        "water.dormant_growth"
    ):
        return 0.0
    wait = next((n for n in range(1, 15) if ground.law.open(day + timedelta(n))), 15)
    ready = share * ground.soil.total_mm(store.root_mm)
    ahead = store.depletion_mm + wait * (crop_mm - rain_mm)
    return store.depletion_mm if ahead > ready and store.depletion_mm > book.si("water.least_run") else 0.0


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
        notes.append(
            f"{days[0].day:%B %Y}: grass that has rooted needs about {read_as(weekly, 'rain', request.system).text} of water a week "
            f"beside the usual rain, about {minutes} min at a time, every {max(1, round(len(days) / len(runs)))} days; "
            "none after real rain."
        )
    return tuple(notes)
