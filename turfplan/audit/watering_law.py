"""Every watering keeps to the weekdays, dates, hours and bans that the brief tells of."""

from collections import defaultdict
from collections.abc import Iterator
from datetime import date, timedelta
from itertools import pairwise

from turfplan.audit.case import Case, series_days
from turfplan.audit.faults import Fault, fault
from turfplan.calendar_days import WEEKDAYS, recurring_days
from turfplan.message import Message
from turfplan.records.book_names import of_family
from turfplan.records.brief import Span
from turfplan.records.lawn_state import StateFact
from turfplan.records.plan_task import Role, Task

DAY_MIN, HOUR_MIN, HAIR_MIN, HAIR_MM = 24 * 60, 60, 2, 0.1
HEADS_OF_SYSTEMS = ("spray", "rotor", "rotary_nozzle", "drip")
YOUNG: tuple[Role, ...] = ("sowing", "planting", "relaying")
KEPT_MOIST = ("germination", "establishment", "rooting", "relaid")
SPARED = ("watering.week.rain_does_it", "watering.week.grass_rests")
BEHIND, IN_HOURS = "wet_at_once.behind", "wet_at_once.in_hours"
BY_LEAVE = ("wet_at_once.hours_short", "wet_at_once.no_hours")
OF_THE_WORK = ("soak", "soak_plants", "soak_relaid", "settle", "settle_fill")


def series_forward(case: Case) -> Iterator[Fault]:
    """No series of waterings ends before it begins."""
    for task in case.open:
        if task.series is not None and task.series.end < task.series.start:
            yield fault("series_backwards", task, start=task.series.start, end=task.series.end)


def lawful_days(case: Case) -> Iterator[Fault]:
    """Waterings fall on lawful weekdays and dates; a permit frees those of young grass alone."""
    water = case.brief.water
    if water.allowed_weekdays is None and water.parity is None:
        return
    asked = water.permit is None and bool(case.all_jobs("permit"))
    permitted = water.permit or asked
    for task in case.open:
        if permitted and _for_young_grass(case, task):
            continue
        for day in series_days(task):
            if not _open(case, day):
                yield fault("watered_on_closed_day", task, day=day)
                break


def _open(case: Case, day: date) -> bool:
    water = case.brief.water
    if water.allowed_weekdays is not None and WEEKDAYS[day.weekday()] not in water.allowed_weekdays:
        return False
    return water.parity is None or (day.day % 2 == 1) == (water.parity == "odd")


def _for_young_grass(case: Case, task: Task) -> bool:
    """True where a watering hangs on seed, plants or turf that is relaid."""
    named = (case.by_id.get(name) for name in task.depends_on)
    return any(
        first is not None and first.plays("sowing", "planting", "relaying") for first in named
    )


def relaid_turf_kept_moist(case: Case) -> Iterator[Fault]:
    """No turf is lifted where the lawful days lie too far apart and there is no permit: it dries
    out as sod does. What has begun is finished."""
    water = case.brief.water
    if water.possible is False or water.permit is not False:
        return
    most = round(case.book.si("water.germination_gap"))
    begun = case.plan.past.part_done if case.plan.past is not None else {}
    for task in case.to_do("relaying"):
        if task.id in begun:
            continue
        rooting = round(case.book.fact("water.rooting_days").high_si)
        days = [task.start + timedelta(number) for number in range(rooting + 1)]
        lawful = [day for day in days if _open(case, day)]
        ends = [days[0] - timedelta(1), *lawful, days[-1] + timedelta(1)]
        if any((after - day).days > most for day, after in pairwise(ends)):
            yield fault("relaid_left_dry", task, most=most)


def lawful_hours(case: Case) -> Iterator[Fault]:
    """Every watering runs inside the allowed hours."""
    spans = _allowed_minutes(case.brief.water.allowed_hours)
    if not spans:
        return
    for task in case.open:
        if task.series is None:
            continue
        begun = task.series.start_time.hour * 60 + task.series.start_time.minute
        ended = begun + task.series.lasts_minutes
        if not any(first <= begun and ended <= last for first, last in spans):
            yield fault(
                "watered_at_closed_hour",
                task,
                start=f"{task.series.start_time:%H:%M}",
                minutes=task.series.lasts_minutes,
            )


def watered_in_after_its_work(case: Case) -> Iterator[Fault]:
    """What waters work in runs once its day is over: that evening, or a day after it. Of work that
    is begun what lies there already is watered before the rest is done."""
    late = case.book.si("water.start_afternoon")
    part_done = case.plan.past.part_done if case.plan.past is not None else {}
    for task in case.open:
        if task.series is None or task.stage is None or task.stage.id not in OF_THE_WORK:
            continue
        work = next((case.by_id[name] for name in task.depends_on if name in case.by_id), None)
        begun = task.series.start_time.hour * 60 + task.series.start_time.minute
        if work is None or work.id in part_done:
            continue
        if task.series.start <= work.start and begun < late:
            yield fault("watered_in_before_its_work", task, day=task.series.start)


def plants_wet_at_once(case: Case) -> Iterator[Fault]:
    """Plants are watered stretch by stretch as they are set: in the allowed hours of the day where
    those hold the work, else with leave to water by hand at others."""
    water = case.brief.water
    if water.possible is False:
        return
    dawn, dusk = case.book.si("water.start_morning"), case.book.si("water.start_evening")
    spans = _allowed_minutes(water.allowed_hours)
    held = sum(max(0, min(end, dusk) - max(start, dawn)) for start, end in spans)
    people = case.brief.work.people or round(case.book.si("setting.people_assumed"))
    for task in case.to_do("planting"):
        keys = {said.key for said in task.how if isinstance(said, Message)}
        needed = HOUR_MIN * task.person_hours / people / task.duration_days
        lawful = not spans or not keys.isdisjoint(
            (IN_HOURS, *BY_LEAVE) if held + HAIR_MIN >= needed else BY_LEAVE
        )
        if BEHIND not in keys or not lawful:
            yield fault("plants_left_dry", task)


def _allowed_minutes(hours: tuple[str, ...]) -> list[tuple[int, int]]:
    """The spans of a day in minutes.

    One that runs over midnight is open at both ends of the day.
    """
    found: list[tuple[int, int]] = []
    for text in hours:
        first, last = (int(clock[:2]) * 60 + int(clock[3:]) for clock in text.split("-"))
        found += [(first, last)] if first < last else [(0, last), (first, DAY_MIN)]
    # Spans that meet are one: what runs through both is lawful all the way.
    joined: list[tuple[int, int]] = []
    for first, last in sorted(found):
        if joined and first <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(last, joined[-1][1]))
        else:
            joined.append((first, last))
    return joined


def _span(fact: StateFact) -> Span:
    return Span(start=fact.since, end=fact.until or fact.since)


def no_watering_while_banned(case: Case) -> Iterator[Fault]:
    """Nothing is watered while watering is banned, by the brief or by what was logged."""
    told = () if case.plan.state is None else case.plan.state.of_kind("banned")
    banned = (*case.brief.water.banned, *(_span(fact) for fact in told))
    for task in case.open if banned else ():
        for day in series_days(task):
            if any(span.start <= day <= span.end for span in banned):
                yield fault("watered_while_banned", task, day=day)
                break


def somebody_turns_it_on(case: Case) -> Iterator[Fault]:
    """Without a timer nothing is watered while nobody is there, but by whoever stands in."""
    away = case.brief.calendar.away
    if _runs_by_itself(case):
        return
    for task in case.open if away else ():
        if task.stage is not None and task.stage.stand_in:
            continue
        for day in series_days(task):
            if any(span.start <= day <= span.end for span in away):
                yield fault("watered_while_away", task, day=day)
                break


def young_grass_stays_wet(case: Case) -> Iterator[Fault]:
    """What is kept moist day by day before and after an absence is watered through it."""
    spared = any(said.key in SPARED for said in case.plan.cautions)
    if _runs_by_itself(case) or spared:
        return
    wet: dict[tuple[str, ...], set[date]] = defaultdict(set)
    for task in case.open:
        if task.series is not None and task.stage is not None and task.stage.id in KEPT_MOIST:
            wet[task.depends_on] |= {*series_days(task), *task.series.skip}
    for work, days in wet.items():
        for span in case.brief.calendar.away:
            around = {span.start - timedelta(1), span.end + timedelta(1)}
            every = recurring_days(span.start, span.end)
            dry = [day for day in every if day not in days and _lawful(case, day)]
            if around <= days and dry:
                yield Fault("young_dry_while_away", work, {"day": dry[0]})


def _runs_by_itself(case: Case) -> bool:
    water = case.brief.water
    return bool(water.timer or (water.timer is None and water.zones))


def _lawful(case: Case, day: date) -> bool:
    banned = case.brief.water.banned
    return _open(case, day) and not any(span.start <= day <= span.end for span in banned)


def hose_within_the_day(case: Case) -> Iterator[Fault]:
    """What is watered by hose on one day, and moved, fits the hours of somebody at home."""
    water = case.brief.water
    system = water.zones or water.catch_cans_mm or water.application_rate_mm_h
    heads = water.head_flow_l_min or water.head in HEADS_OF_SYSTEMS
    if system or heads or water.timer:
        return
    hours = water.hours_per_day or case.book.si("water.hose_hours") / 60
    minutes: dict[date, int] = defaultdict(int)
    tasks: dict[date, Task] = {}
    for task in case.open:
        # On the days of the work itself people are there, and stay until it is wet.
        if task.series is None or (task.stage is not None and task.stage.id in OF_THE_WORK):
            continue
        for day in series_days(task):
            rounds = task.stage.settings * task.stage.cycles if task.stage else 1
            moved = rounds * case.book.si("water.move_time")
            minutes[day] += task.series.minutes + round(moved)
            tasks[day] = task
    for day, spent in minutes.items():
        if spent > hours * 60 + HAIR_MIN:
            yield fault("hose_beyond_the_day", tasks[day], day=day, minutes=spent)
            return


def no_more_than_soaks_in(case: Case) -> Iterator[Fault]:
    """No cycle puts down more than the ground holds and takes in, and each soaks in before the
    next.
    """
    slope, book = case.brief.site.slope_percent or 0.0, case.book
    steep = max(0.0, slope / 100 - book.si("water.slope_intake_level"))
    share = 1 - 100 * steep * book.si("water.slope_intake_loss")
    takes = book.si(of_family("water.intake_{soil}", case.plan.lawn.soil)) * max(
        share, book.si("water.slope_intake_least")
    )
    held = book.si("water.surface_storage") - slope * book.si("water.storage_loss_per_percent")
    held = max(held, book.si("water.surface_storage_least"))
    for task in case.open:
        run = task.stage
        if task.series is None or run is None or run.rate_mm_h is None:
            continue
        cycle_min = -(-task.series.minutes // (run.settings * run.cycles))
        each_mm = run.rate_mm_h * cycle_min / 60
        soaks_mm = takes * (cycle_min + run.soak_minutes) / 60
        floods = each_mm > held + takes * cycle_min / 60 + HAIR_MM
        if floods or (run.cycles > 1 and each_mm > soaks_mm + HAIR_MM):
            yield fault(
                "watered_faster_than_soaks",
                task,
                minutes=cycle_min,
                cycles=run.cycles,
            )


INVARIANTS = (
    plants_wet_at_once,
    relaid_turf_kept_moist,
    no_more_than_soaks_in,
    somebody_turns_it_on,
    young_grass_stays_wet,
    hose_within_the_day,
    series_forward,
    lawful_days,
    lawful_hours,
    watered_in_after_its_work,
    no_watering_while_banned,
)
