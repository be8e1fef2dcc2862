"""The account of water over a dated season: its days, its weeks, and advice for mature grass."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import NamedTuple

from turfplan.calendar_days import daily, each_day
from turfplan.message import Message, Month, Number, Quantity, sentences
from turfplan.phrases import watering as phrases
from turfplan.records.plan import Ledger
from turfplan.work.watering.balance import RootZoneWater, day_flow, depletion_share, reroot
from turfplan.work.watering.request import WEEK, WateredGround
from turfplan.work.watering.run_times import WateringZone
from turfplan.work.watering.stages import OF_RELAID, Stage

DECIMALS = 3
WET = ("soak", "soak_plants", "germination")
YOUNG = (*WET, "establishment", "rooting", "weaning")
LONG_RUN_MIN = 180  # from here on hours read better than minutes
LONGEST_WAIT = 15  # days looked ahead for the next lawful one


@dataclass(frozen=True, slots=True)
class DayBooks:
    """The days of the account from `first` on in columns, mm, one value for each day.

    What came, what went, what was missing in the profile at night. `rooted_mm` is what rooted grass
    is advised beside the waterings of the stages. Columns rather than records of a day: weeks and
    months are sums of their slices.
    """

    first: date
    rain_mm: Sequence[float]
    watering_mm: Sequence[float]
    rooted_mm: Sequence[float]
    et_mm: Sequence[float]
    lost_mm: Sequence[float]
    missing_mm: Sequence[float]
    mature: Sequence[bool]

    def mature_watering_mm(self) -> float:
        """All water that rooted grass got outside the stages."""
        return sum(self.rooted_mm)


def account(
    ground: WateredGround, plan: Sequence[Stage], watered: Mapping[date, float]
) -> DayBooks:
    """Every day of the season in order. `watered` gives the mean depth of the staged waterings.

    The account is that of the quarter on which least falls; the water beyond that is lost. Outside
    the stages mature grass is watered when its allowable depletion is reached, on a lawful
    day, where watering is possible. Known rain counts whole; of normal rain the share that grass
    can use, the rest is lost.
    """
    request, soil, full, first = ground.request, ground.soil, ground.root_mm, ground.first
    evenness = sum(z.uniformity * z.area_m2 for z in request.zones) / sum(
        z.area_m2 for z in request.zones
    )
    least = request.book.si("water.least_run")
    track = _track(ground, plan)
    water, rooted = [0.0] * len(track.crop_mm), [0.0] * len(track.crop_mm)
    for day, mean_mm in watered.items():
        if 0 <= (number := ground.at(day)) < len(water):
            water[number] = mean_mm
    ets, losses, missing = [], [], []
    store, total = RootZoneWater(full, 0.0, 0.0), soil.total_mm(full)
    days = zip(
        track.crop_mm, track.root_mm, track.rain_mm, track.idle_mm, track.wait_days, strict=True
    )
    for number, (crop, root, rain, idle, wait) in enumerate(days):
        if root != store.root_mm:
            store, total = reroot(store, root, full), soil.total_mm(root)
        dry, ready = store.depletion_mm, depletion_share(soil.depletion_share, crop) * total
        # Refilled when the use until the next lawful day would pass the allowable depletion.
        if wait and dry > least and dry + wait * (crop - rain) > ready:
            rooted[number] = dry / evenness
        # The account is that of the driest quarter: what falls beyond its share pays no use there.
        fallen = water[number] + rooted[number]
        wetted = fallen * evenness
        if number in track.grassless:
            # Nothing draws on the soil: what wets the surface dries off it.
            crop = min(crop, rain + wetted)
        et, lost, store = day_flow(store, total, ready, crop, rain, wetted)
        ets.append(et)
        losses.append(lost + idle + fallen - wetted)
        missing.append(store.depletion_mm + store.below_mm)
    whole = [used + idle for used, idle in zip(track.rain_mm, track.idle_mm, strict=True)]
    return DayBooks(first, whole, water, rooted, ets, losses, missing, track.mature)


class _Track(NamedTuple):
    """What each day of the account brings by itself, by number of the day.

    `wait_days` is 0 where nothing is watered; on the days of `grassless` no grass grows.
    """

    crop_mm: list[float]
    root_mm: list[float]
    rain_mm: list[float]
    idle_mm: list[float]
    mature: list[bool]
    wait_days: list[int]
    grassless: frozenset[int]


def _track(ground: WateredGround, plan: Sequence[Stage]) -> _Track:
    """Use of water, root depth, rain that reaches the roots or not, days that lie in no stage."""
    request = ground.request
    days = (request.end - ground.first).days + 1
    et0 = ground.et0_mm[:days]
    crop = [
        et * kc
        for et, kc in zip(et0, daily(each_day(ground.kc), ground.first, request.end), strict=True)
    ]
    root, mature = [ground.root_mm] * days, [True] * days
    grassless = _without_grass(ground, days)
    for number in grassless:
        mature[number] = False
    for stage in plan:
        if stage.name in OF_RELAID:
            continue
        start, end = ground.at(stage.start), ground.at(stage.end) + 1
        mature[start:end] = [False] * (end - start)
        if stage.name in YOUNG:
            kc = ground.kc_wet if stage.name in WET else ground.kc_young
            crop[start:end] = [et * kc for et in et0[start:end]]
        elif stage.name == "winter":
            kc = request.book.si("water.rye_kc")
            crop[start:end] = [et * kc for et in et0[start:end]]
    for begun in (request.moist_from, request.planted_on):
        number = ground.at(begun) if begun is not None else days
        while (
            number < days
            and (depth := ground.root_depth_mm(ground.first + timedelta(number))) < ground.root_mm
        ):
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
    return _Track(crop, root, rain, idle, mature, _waits(ground, mature), grassless)


def _without_grass(ground: WateredGround, days: int) -> frozenset[int]:
    """The days of the account on which the ground is open: until it is sown or planted."""
    request = ground.request
    grown = [day for day in (request.seeded_on, request.planted_on) if day is not None]
    if request.open_from is None:
        return frozenset()
    first, last = ground.at(request.open_from), min(map(ground.at, grown), default=days)
    return frozenset(range(max(0, first), min(days, last)))


def _waits(ground: WateredGround, mature: Sequence[bool]) -> list[int]:
    """Days to the next lawful one from each day on which rooted, growing grass may be watered.

    From all others it is 0.
    """
    request, rest = ground.request, ground.request.book.si("water.dormant_growth")
    if request.water.possible is False:
        return [0] * len(mature)
    curves = [
        daily(request.climate.growth_curve(season), ground.first, request.end)
        for season in {request.season, request.sown_season or request.season}
    ]
    growth = [max(days) for days in zip(*curves, strict=True)]
    lawful = ground.law.days_open(ground.first, len(mature) + LONGEST_WAIT)
    waits, wait = [0] * len(mature), LONGEST_WAIT
    for number in range(len(lawful) - 2, -1, -1):
        wait = 1 if lawful[number + 1] else min(wait + 1, LONGEST_WAIT)
        if number < len(mature) and lawful[number] and mature[number] and growth[number] >= rest:
            waits[number] = wait
    return waits


def ledger_of(books: DayBooks, notes: Sequence[Message]) -> Ledger:
    """The days as weeks from Monday, with what there is to say of them.

    Entries carry their sign: each balance is the one before plus the week's entries. The balance is
    the water in the profile against field capacity (0 is full).
    """
    weeks: list[dict[str, object]] = []
    for start, stop in weeks_of(books.first, len(books.rain_mm)):
        entries = {
            "rain": round(sum(books.rain_mm[start:stop]), DECIMALS),
            "watering": round(sum(books.watering_mm[start:stop]), DECIMALS),
            "rooted": round(sum(books.rooted_mm[start:stop]), DECIMALS),
            "evapotranspiration": _out(sum(books.et_mm[start:stop])),
            "lost": _out(sum(books.lost_mm[start:stop])),
        }
        first, last = books.first + timedelta(start), books.first + timedelta(stop - 1)
        weeks.append(
            {
                "start": first,
                "end": last,
                "entries": entries,
                "balance": _out(books.missing_mm[stop - 1]),
            }
        )
    # Read in one go: several times as quick as a record for each week.
    return Ledger.model_validate(
        {"item": "water", "unit": "mm", "opening": 0.0, "weeks": weeks, "notes": tuple(notes)}
    )


def _out(amount: float) -> float:
    """What leaves the account: negative, and a plain 0 where nothing left."""
    return 0.0 - round(amount, DECIMALS)


def weeks_of(first: date, days: int) -> list[tuple[int, int]]:
    """First and last-but-one number of the days of each week from Monday, as slices take them."""
    starts = [0, *range(WEEK - first.weekday(), days, WEEK)] if days else []
    return list(zip(starts, [*starts[1:], days], strict=True))


def _months_of(first: date, days: int) -> list[tuple[date, int, int]]:
    """The first of each month with the numbers of its days, as slices take them."""
    months, month = [], first.replace(day=1)
    while (start := (month - first).days) < days:
        after = (month + timedelta(31)).replace(day=1)
        months.append((month, max(0, start), min(days, (after - first).days)))
        month = after
    return months


def mature_notes(ground: WateredGround, books: DayBooks) -> tuple[Message, ...]:
    """Advice for each month of the year outside the stages: how much a week, how often, how long.

    The normals of a month are the same every year, so that its first stretch speaks for all.
    """
    request, notes = ground.request, list[Message]()
    area = sum(z.area_m2 for z in request.zones)
    rate_mm_h = sum(z.rate_mm_h * z.area_m2 for z in request.zones) / area
    settings = max(z.settings for z in request.zones)
    rare, advised = request.book.si("water.rare_watering"), set[int]()
    for month, start, stop in _months_of(books.first, len(books.mature)):
        part = zip(books.rooted_mm[start:stop], books.mature[start:stop], strict=True)
        days = [water for water, mature in part if mature]
        runs = [water for water in days if water > 0]
        if len(days) < WEEK or len(days) > rare * len(runs) or month.month in advised:
            continue
        advised.add(month.month)
        minutes = round(60 * (sum(runs) / len(runs)) / rate_mm_h)
        weekly = Quantity(sum(runs) / len(days) * WEEK, "rain")
        gap = max(1, round(len(days) / len(runs)))
        # However many cycles it takes: here no day has to hold them.
        unbounded = replace(ground.intake, most_cycles=max(1, minutes))
        how = unbounded.run(
            sum(runs) / len(runs),
            WateringZone(None, phrases.zone_lawn(), area, rate_mm_h),
        )
        if settings > 1:
            needs = phrases.rooted_settings(
                month=Month(month.month), weekly=weekly, minutes=minutes, n=gap, settings=settings
            )
        elif minutes <= LONG_RUN_MIN:
            needs = phrases.rooted_minutes(
                month=Month(month.month), weekly=weekly, minutes=minutes, n=gap
            )
        else:
            needs = phrases.rooted_hours(
                month=Month(month.month), weekly=weekly, hours=Number(minutes / 60), n=gap
            )
        if how.cycles == 1:
            notes.append(needs)
            continue
        parted = phrases.rooted_in_cycles(minutes=how.cycle_min, pause=how.soak_min)
        notes.append(sentences(needs, parted))
    return tuple(notes)
