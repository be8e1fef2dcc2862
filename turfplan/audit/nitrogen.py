"""One account of all nitrogen, what was given before the plan included: when, how much at once, how
close, how much in a year."""

import itertools
from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from turfplan.audit.amounts_agree import settle_of
from turfplan.audit.case import Case, NitrogenGiven, in_yearly_span
from turfplan.audit.faults import Fault, fault
from turfplan.audit.open_ground import grass_of, nothing_lives
from turfplan.message import DateInYear, Message
from turfplan.records.book_names import of_material, of_species, option_of_family
from turfplan.records.plan_task import Task

YEAR = timedelta(days=365)
# Rates are written to three decimals; several of them are added.
HAIR_G_M2 = 0.005
MM_PER_M = 1000
# What follows the stand and not the season of feeding, by the rate it rests on.
PLANTS_RATE, SEEDLING_RATE, RYE_RATE = (
    "feeding.plants_rate",
    "feeding.seedling_rate",
    "feeding.rye_rate",
)
TOLD_SHORT = "feeding.short_year"


def _ahead(parts: Sequence[NitrogenGiven]) -> list[Task]:
    """The tasks that are still to give something."""
    return [given.task for given in parts if given.ahead and given.task is not None]


def _rests_on(task: Task, *rates: str) -> bool:
    return not set(rates).isdisjoint(task.facts)


def _of_the_lawn(case: Case) -> list[NitrogenGiven]:
    """What the lawn's own grass takes: ryegrass over it has its own year."""
    return [g for g in case.nitrogen if g.task is None or not _rests_on(g.task, RYE_RATE)]


def _by_hand(given: NitrogenGiven) -> bool:
    """True where the owner moved or did it on another day than planned: the plan warns of that, the
    judge does not refuse it."""
    return given.task is not None and (given.task.held or not given.ahead)


def no_feeding_in_blackout(case: Case) -> Iterator[Fault]:
    """Nothing is fed on days that the brief, or else a published rule of the state, closes to
    nitrogen, or that are common in it, unless its owner moved it."""
    spans = _blackouts(case)
    for task in case.to_do("feeding"):
        for first, last in spans if not task.held else ():
            if in_yearly_span(task.start, first, last):
                yield fault(
                    "fed_in_blackout",
                    task,
                    day=task.start,
                    first=_month_day(first),
                    last=_month_day(last),
                )


def _blackouts(case: Case) -> list[tuple[tuple[int, int], tuple[int, int]]]:
    told = case.brief.local.nitrogen_blackouts
    if told is not None:
        return [(_pair(span.start), _pair(span.end)) for span in told]
    state, book = _state(case), case.book
    held = (
        book.get(option_of_family("law.{state}_nitrogen_from", state)),
        book.get(option_of_family("law.{state}_nitrogen_to", state)),
    )
    common = (
        book.get(option_of_family("law.{state}_nitrogen_offered_from", state)),
        book.get(option_of_family("law.{state}_nitrogen_offered_to", state)),
    )
    days = [round(end.si) for end in (common if None in held else held) if end is not None]
    if len(days) < len(held):
        return []
    # Counted from 1 January of a year without a leap day, as rules are printed.
    first, last = (date(2027, 1, 1) + timedelta(day - 1) for day in days)
    return [((first.month, first.day), (last.month, last.day))]


def _pair(month_day: str) -> tuple[int, int]:
    return int(month_day[:2]), int(month_day[3:])


def _month_day(pair: tuple[int, int]) -> DateInYear:
    return DateInYear(f"{pair[0]:02}-{pair[1]:02}")


def _state(case: Case) -> str:
    """The state as the plan found it: by the brief, or by its postal code."""
    place = case.plan.place
    return f"{place.country or 'US'}_{place.state or ''}".lower()


def none_too_much_at_once(case: Case) -> Iterator[Fault]:
    """No day gives more than grass takes at once, or the state allows."""
    law = case.book.get(option_of_family("law.{state}_nitrogen_single_max", _state(case)))
    most = min(case.book.si("feeding.single_max"), law.si if law is not None else float("inf"))
    for day, given in itertools.groupby(case.nitrogen, key=lambda given: given.on):
        parts = list(given)
        rate = sum(part.rate_g_m2 for part in parts)
        tasks = _ahead(parts)
        if tasks and not any(map(_by_hand, parts)) and rate > most + HAIR_G_M2:
            yield fault(
                "nitrogen_too_much_at_once", *tasks, day=day, rate_g_m2=rate, most_g_m2=most
            )


def feedings_far_apart(case: Case) -> Iterator[Fault]:
    """Between any two days of nitrogen lie the weeks that are never undercut, history, starter and
    the feeding of plants included."""
    least = round(case.book.low_si("feeding.least_gap"))
    for before, after in itertools.pairwise(case.nitrogen):
        gap = (after.on - before.on).days
        if after.task is None or _by_hand(before) or _by_hand(after) or not 0 < gap < least:
            continue
        yield fault(
            "feedings_too_close",
            after.task,
            day=after.on,
            before=before.on,
            gap_days=gap,
            least_days=least,
        )


def none_too_much_in_year(case: Case) -> Iterator[Fault]:
    """No twelve months hold more nitrogen than this grass takes in a year.

    What was given before the plan counts from its day, and what compost releases from the day that
    spreads it.
    """
    most = case.book.fact(of_species(grass_of(case), "nitrogen_year")).high_si
    account = sorted((*_of_the_lawn(case), *_of_compost(case)), key=lambda given: given.on)
    for last in account:
        parts = [given for given in account if last.on - YEAR < given.on <= last.on]
        rate = sum(given.rate_g_m2 for given in parts)
        tasks = _ahead([last]) if last.task is not None else []
        if tasks and not _by_hand(last) and rate > most + HAIR_G_M2:
            yield fault(
                "nitrogen_too_much_in_year",
                *tasks,
                first=parts[0].on,
                rate_g_m2=rate,
                most_g_m2=most,
            )


def enough_in_year(case: Case) -> Iterator[Fault]:
    """No full year of the plan's care stays below the least of this grass, unless the plan says so
    with its reason.

    What was given before the plan counts in its first year as far as it has not run out.
    """
    least = case.book.fact(of_species(grass_of(case), "nitrogen_year")).low_si
    start = case.plan.horizon.start
    end = min(case.plan.horizon.end, start + timedelta(case.days("setting.horizon_days")))
    notes = [note for ledger in case.plan.ledgers for note in ledger.notes]
    if case.plan.conflict is not None or nothing_lives(case):
        return
    if any(isinstance(note, Message) and note.key == TOLD_SHORT for note in notes):
        return
    account = (*_of_the_lawn(case), *_of_compost(case))
    lasts = timedelta(case.days("feeding.lasts"))
    for number in range((end - start + timedelta(1)) // YEAR):
        first = start + number * YEAR
        within = (given.mean_g_m2 for given in account if first <= given.on < first + YEAR)
        rate = sum(within, 0.0)
        if number == 0:
            rate += sum(
                given.mean_g_m2 * (1 - (start - given.on) / lasts)
                for given in case.nitrogen
                if start - lasts < given.on < start
            )
        if rate < least - 2 * HAIR_G_M2:
            yield Fault(
                "nitrogen_too_little_in_year",
                (),
                {"first": first, "rate_g_m2": rate, "least_g_m2": least},
            )


def fed_in_its_season(case: Case) -> Iterator[Fault]:
    """Grass is fed between its first and its last date; seedlings and ryegrass of the cool season
    go by their own growth, and plants whose days a law closed by the day on which it opens."""
    cool = case.book.species[grass_of(case)].season == "cool"
    own = (RYE_RATE, SEEDLING_RATE, PLANTS_RATE) if cool else (RYE_RATE,)
    windows = [w for w in case.plan.windows if w.operation == "feed_nitrogen"]
    for task in case.jobs("feed_nitrogen"):
        if task.held or _rests_on(task, *own):
            continue
        if _rests_on(task, PLANTS_RATE) and _just_opened(case, task.start):
            continue
        if not any(w.start <= task.start <= w.end for w in windows):
            yield fault("fed_out_of_season", task, day=task.start)


def _just_opened(case: Case, day: date) -> bool:
    """Whether days that were closed to nitrogen ended a few weeks before."""
    weeks = range(1, case.days("order.plant_feed_most"))
    before = [day - timedelta(number) for number in weeks]
    return any(
        in_yearly_span(one, first, last) for first, last in _blackouts(case) for one in before
    )


def none_on_cold_ground(case: Case) -> Iterator[Fault]:
    """Nothing is fed while the soil is too cold for roots, or frozen."""
    climate = case.plan.climate
    least = case.book.si("feeding.least_soil") - climate.soil_error_c
    soil = dict(zip(climate.day_of_year, climate.soil_10cm_c, strict=False))
    for task in case.to_do("feeding") if soil else ():
        day = task.start.timetuple().tm_yday
        nearest = min(soil, key=lambda known: min(abs(known - day), 365 - abs(known - day)))
        if not task.held and soil[nearest] < least:
            yield fault("fed_on_cold_ground", task, day=task.start, soil_c=soil[nearest])


def none_before_roots(case: Case) -> Iterator[Fault]:
    """What is planted is fed once it holds, never on the day it goes in or in the weeks after."""
    planted = [task.end for task in case.all_jobs("plant")]
    rooting = timedelta(round(case.book.low_si("order.plant_rooting")))
    for task in case.jobs("feed_nitrogen"):
        if not task.held and any(day <= task.start < day + rooting for day in planted):
            yield fault("plants_fed_too_soon", task, day=task.start)


def _of_compost(case: Case) -> Iterator[NitrogenGiven]:
    """What the compost of each pass counts for in its first year, over the whole lawn: dry mass
    times nitrogen times the share released."""
    mix = next((line for line in case.plan.order if line.item == "mix"), None)
    share = (
        sum(part.share or 0.0 for part in mix.parts if part.item == "compost")
        if mix is not None
        else 0.0
    )
    if not share:
        return
    book, told = case.book, case.brief.feeding.compost_nitrogen_percent
    dry = book.si(of_material("compost", "density")) * (
        1 - book.si(of_material("compost", "moisture"))
    )
    content = told / 100 if told is not None else book.si("compost.nitrogen")
    settled_mm = MM_PER_M / (1 + settle_of(case)) / case.plan.lawn.area_m2
    for task in case.all("spreading"):
        volume = sum(amount.value for amount in task.amounts if amount.item == "volume")
        depth = volume * settled_mm
        # kg/m3 times mm is g/m2.
        yield NitrogenGiven(
            task.start, dry * depth * share * content * book.si("compost.first_year_share")
        )


INVARIANTS = (
    no_feeding_in_blackout,
    none_too_much_at_once,
    feedings_far_apart,
    none_too_much_in_year,
    enough_in_year,
    fed_in_its_season,
    none_on_cold_ground,
    none_before_roots,
)
