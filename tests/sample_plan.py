"""An invented plan for tests of calendars, versions and tables: day jobs, long jobs, waterings, an
order; US, metric, southern.
"""

from collections.abc import Callable
from datetime import UTC, date, datetime, time, timedelta
from typing import Any

from turfplan.messages import words_for
from turfplan.publishing import publish
from turfplan.records.past import TaskHistory
from turfplan.records.plan import (
    ClimateFacts,
    GrassPart,
    LawnFacts,
    Ledger,
    LedgerWeek,
    OrderLine,
    OrderPart,
    PlaceFacts,
    Plan,
    Rejected,
)
from turfplan.records.plan_task import Amount, Role, Series, Task, TaskWindow, WateringStage
from turfplan.units import CUBIC_YARD_M3, POUND_KG, System

NOW = datetime(2027, 2, 1, 9, 30, tzinfo=UTC)
SEED_DAY = date(2027, 9, 12)
# 26 weeks: the same season on the other side of the equator, on the same weekdays.
SOUTH = timedelta(days=182)
DUST = (
    "Dry sand throws up dust that harms the lungs: wear a respirator, work upwind, damp the air "
    "and not the pile."
)
LINES = "Buried gas, power and water lines: have them marked before a tine goes in."
ENGINES = "Shoes, glasses and ear protection; stop the engine before you reach in."
LAW = "Keep to the allowed watering days and hours; a permit for new seed ends on its date."
ROLES: dict[str, tuple[Role, ...]] = {
    "order_material": ("ordering", "headline"),
    "locate_utilities": ("marking",),
    "mow_low": ("low_cut",),
    "delivery": ("delivery",),
    "dethatch": ("thatching",),
    "core_aerate": ("coring",),
    "topdress": ("spreading", "headline"),
    "seed": ("sowing", "headline"),
    "overseed": ("sowing", "headline"),
    "starter_feed": ("feeding", "starter"),
    "first_mow": ("first_cut", "headline"),
    "feed_nitrogen": ("feeding",),
}
# id, phase, title, first day, days, hours, amounts as (item, SI value, unit), cautions, alarm
_TIMEZONES = {"US": "America/New_York", "AU": "Australia/Melbourne", "GB": "Europe/London"}
_JOBS: tuple[
    tuple[
        str, str, str, date, int, float, tuple[tuple[str, float, str], ...], tuple[str, ...], bool
    ],
    ...,
] = (
    (
        "soil_test",
        "prepare",
        "Take a soil sample and send it in",
        date(2027, 3, 13),
        1,
        1.0,
        (),
        (),
        False,
    ),
    (
        "order_material.1",
        "prepare",
        "Order the mix",
        date(2027, 8, 14),
        1,
        0.5,
        (("volume", 6.4, "m3"),),
        (),
        False,
    ),
    (
        "locate_utilities.1",
        "prepare",
        "Ask for utility marks; flag sprinklers",
        date(2027, 8, 28),
        1,
        0.5,
        (),
        (LINES,),
        False,
    ),
    (
        "mow_low.1",
        "surface",
        "Mow low, bag the clippings",
        date(2027, 8, 29),
        1,
        1.5,
        (),
        (ENGINES,),
        False,
    ),
    (
        "delivery.1",
        "level",
        "Receive the mix",
        date(2027, 9, 4),
        1,
        0.5,
        (("volume", 6.4, "m3"),),
        (DUST,),
        True,
    ),
    (
        "dethatch",
        "surface",
        "Dethatch, rake up and remove",
        date(2027, 9, 4),
        1,
        4.0,
        (),
        (ENGINES, LINES),
        True,
    ),
    (
        "core_aerate.1",
        "surface",
        "Core-aerate in two directions",
        date(2027, 9, 5),
        1,
        3.0,
        (),
        (LINES, ENGINES),
        True,
    ),
    (
        "topdress.1",
        "level",
        "Top-dress pass 1 of 2: {1/4 in|6 mm}",
        date(2027, 9, 5),
        1,
        7.5,
        (("depth", 6.35, "mm"), ("volume", 3.1, "m3"), ("weight", 3900.0, "kg")),
        (DUST,),
        True,
    ),
    (
        "topdress.2",
        "level",
        "Top-dress pass 2 of 2: {1/4 in|6 mm}",
        date(2027, 9, 11),
        2,
        12.5,
        (("depth", 6.35, "mm"), ("volume", 3.1, "m3"), ("weight", 3900.0, "kg")),
        (DUST,),
        True,
    ),
    (
        "overseed",
        "seed",
        "Overseed with {25 lb|11.5 kg} of tall fescue seed",
        SEED_DAY,
        1,
        1.5,
        (("seed_rate", 19.53, "g/m2"), ("seed", 11.34, "kg")),
        (LAW,),
        True,
    ),
    (
        "starter_feed",
        "seed",
        "Starter feed: {6 lb|2.5 kg}",
        SEED_DAY,
        1,
        0.5,
        (("product", 2.5, "kg"),),
        (),
        False,
    ),
    (
        "inspect.germination",
        "care",
        "Look: has the seed come up?",
        date(2027, 10, 3),
        1,
        0.25,
        (),
        (),
        False,
    ),
    (
        "first_mow",
        "care",
        "Mow the new grass for the first time",
        date(2027, 10, 16),
        1,
        1.5,
        (),
        (ENGINES,),
        True,
    ),
    (
        "feed_nitrogen.autumn",
        "care",
        "Feed: {0.75 lb/1,000 ft²|3.5 g/m²} N",
        date(2027, 10, 31),
        1,
        0.75,
        (("nitrogen", 3.66, "g/m2"),),
        (),
        False,
    ),
    (
        "last_mow",
        "finish",
        "Mow for the last time this season",
        date(2027, 11, 20),
        1,
        1.5,
        (),
        (ENGINES,),
        False,
    ),
    (
        "settle_check",
        "finish",
        "Check how the fill has settled",
        date(2028, 4, 15),
        1,
        0.5,
        (),
        (),
        False,
    ),
)


def words_of(text: str, system: System) -> str:
    """The text with `{us|metric}` resolved."""
    while "{" in text:
        before, _, rest = text.partition("{")
        both, _, after = rest.partition("}")
        text = before + both.split("|")[system is System.METRIC] + after
    return text


def job(
    task_id: str,
    phase: str,
    title: str,
    start: date,
    days: int = 1,
    hours: float = 1.0,
    **more: Any,
) -> Task:
    """A day job with words of its own; `amounts` are item, value and unit."""
    amounts = more.pop("amounts", ())
    end = start + timedelta(days=days - 1)
    given: dict[str, Any] = {
        "id": task_id,
        "uid": "",
        "operation": task_id.split(".")[0],
        "phase": phase,
        "title": title,
        "why": f"The reason for {task_id}, said in a sentence.",
        "start": start,
        "end": end,
        "best": start,
        "duration_days": days,
        "person_hours": hours,
        "window": TaskWindow(start=start - timedelta(days=5), end=end + timedelta(days=12)),
        "not_earlier": ("Work is possible on your working days only.",),
        "not_later": ("Later leaves the grass less time.",),
        "amounts": tuple(
            Amount.of(item, value, unit, "Area times depth.") for item, value, unit in amounts
        ),
        "how": ("First one way, then across.", "Sweep the path, last of all."),
        "go": "Grass and soil are dry.",
        "fallback": "Wet: the next free day.",
        "fallback_day": end + timedelta(days=7),
        "facts": ("a.fact",),
        "depends_on": (),
        "roles": ROLES.get(task_id.split(".")[0], ()),
    }
    return Task(**(given | more))


def watering(
    task_id: str,
    title: str,
    start: date,
    days: int,
    at: time,
    minutes: int,
    **days_of: tuple[object, ...],
) -> Task:
    """A watering series over some days, every day or as `weekdays` and `skip` say."""
    stage = task_id.split(".")[1]
    series = Series.model_validate(
        {
            "from": start,
            "to": start + timedelta(days=days - 1),
            "start_time": at,
            "minutes": minutes,
            **days_of,
        }
    )
    return job(
        task_id,
        "seed",
        title,
        start,
        days,
        0.0,
        amounts=(("water", 900.0, "L"),),
        cautions=(LAW,),
        series=series,
        stage=WateringStage(id=stage, name=title.split(":")[0]),
        go="Skip it after real rain.",
        fallback=None,
        fallback_day=None,
    )


def waterings() -> tuple[Task, ...]:
    """Two weeks twice a day, two weeks on allowed weekdays, one of them with a day left out."""
    made = []
    for week in (1, 2):
        first = SEED_DAY + timedelta(days=1 + 7 * (week - 1))
        for key, at in (("morning", time(6)), ("afternoon", time(13, 30))):
            made.append(
                watering(
                    f"water.germination.w{week}.{key}",
                    f"Keep the seed moist: {7 + week} min",
                    first,
                    7,
                    at,
                    7 + week,
                )
            )
    for week in (1, 2):
        first = SEED_DAY + timedelta(days=15 + 7 * (week - 1))
        skip = (first + timedelta(days=5),) if week == 2 else ()
        made.append(
            watering(
                f"water.establishment.w{week}",
                "Water the seedlings: 18 min",
                first,
                7,
                time(6),
                18,
                weekdays=("tue", "sat"),
                skip=skip,
            )
        )
    return tuple(made)


def order() -> tuple[OrderLine, ...]:
    """A load of mix with its parts, and seed."""
    mix = OrderLine(
        item="mix",
        name="Topsoil, sand and compost, 50:25:25",
        value=8.5 * CUBIC_YARD_M3,
        unit="m3",
        value_us=8.5,
        unit_us="yd3",
        parts=tuple(
            OrderPart(
                item=item,
                value=share * 8.5 * CUBIC_YARD_M3,
                unit="m3",
                value_us=share * 8.5,
                unit_us="yd3",
                share=share,
            )
            for item, share in (("topsoil", 0.5), ("sand", 0.25), ("compost", 0.25))
        ),
        loads=(4.25 * CUBIC_YARD_M3, 4.25 * CUBIC_YARD_M3),
        order_by=date(2027, 8, 14),
        deliver_by=date(2027, 9, 4),
        reason="Two passes, settling and a rest to spare.",
        text="8.5 yd³ of dry mix in 2 loads",
    )
    seed = OrderLine(
        item="seed",
        name="Tall fescue seed",
        value=25 * POUND_KG,
        unit="kg",
        value_us=25.0,
        unit_us="lb",
        order_by=date(2027, 8, 29),
        deliver_by=SEED_DAY,
        reason="Rate times area.",
        text="25 lb",
    )
    return mix, seed


def ledgers() -> tuple[Ledger, ...]:
    """A few weeks of water and nitrogen."""
    start = date(2027, 9, 13)
    water = tuple(
        LedgerWeek(
            start=start + timedelta(days=7 * n),
            end=start + timedelta(days=7 * n + 6),
            entries={"rain": 20.0, "watering": 15.0, "evapotranspiration": -25.0},
            balance=10.0 * (n + 1),
        )
        for n in range(4)
    )
    nitrogen = (
        LedgerWeek(
            start=start,
            end=start + timedelta(days=6),
            entries={"feed": 3.7, "growth": -0.4},
            balance=3.3,
        ),
    )
    return (
        Ledger(item="water", unit="mm", opening=0.0, weeks=water),
        Ledger(item="nitrogen", unit="g/m2", opening=0.0, weeks=nitrogen),
    )


def jobs(system: System) -> tuple[Task, ...]:
    """The day jobs of the invented season."""
    return tuple(
        job(
            name,
            phase,
            words_of(title, system),
            start,
            days,
            hours,
            amounts=amounts,
            cautions=cautions,
            alarm=alarm,
        )
        for name, phase, title, start, days, hours, amounts, cautions, alarm in _JOBS
    )


def lawn(system: System) -> LawnFacts:
    """The invented lawn."""
    return LawnFacts(
        id="sample-lawn",
        name="Back lawn, invented",
        area_m2=464.5,
        grass=(GrassPart(species="tall_fescue", name="tall fescue", share=1.0),),
        soil="clay_loam",
        thatch_mm=6.0,
        condition="thin",
        units=system,
        depth_mm=12.7,
        intent="overseed",
        mix="topsoil_sand",
    )


def climate() -> ClimateFacts:
    """Two days of an invented station."""
    return ClimateFacts(
        source="an invented station's normals",
        error_days=10,
        last_frost="05-02",
        first_frost="10-12",
        day_of_year=(0, 180),
        air_mean_c=(-1.0, 23.0),
        soil_10cm_c=(2.0, 22.0),
    )


def sample_draft(system: System = System.US, *, southern: bool = False, **more: Any) -> Plan:
    """The invented plan as the planner hands it to be numbered; southern: half a year later, in a
    southern zone.
    """
    tasks = (*jobs(system), *waterings())
    if southern:
        tasks = tuple(shifted(task, SOUTH) for task in tasks)
    country = "AU" if southern else "US" if system is System.US else "GB"
    given: dict[str, Any] = {
        "program": "turfplan",
        "data_version": "1",
        "stamp": NOW,
        "now": NOW,
        "lawn_id": "sample-lawn",
        "brief_sha256": "0" * 64,
        "timezone": _TIMEZONES[country],
        "horizon": TaskWindow(start=date(2027, 2, 1), end=date(2028, 11, 30)),
        "lawn": lawn(system),
        "place": PlaceFacts(
            latitude=-37.8 if southern else 40.0,
            longitude=145.0 if southern else -76.3,
            country=country,
        ),
        "climate": climate(),
        "campaign": "autumn",
        "campaign_name": "late summer into autumn",
        "campaign_reason": ("The soil is warm and the heat is over.",),
        "tasks": tasks,
        "order": order(),
        "ledgers": ledgers(),
        "cautions": ("Local codes come first.", DUST),
        "assumptions": ("One person, six hours a day.",),
        "rejected": (Rejected(campaign="spring", reason="Seed meets summer young."),),
        "sources": {"bulletin": "An invented college: a bulletin"},
        "alarm": (1, time(19)),
    }
    return Plan(**(given | more))


def revise(
    draft: Plan, previous: Plan | None, now: datetime, *, history: TaskHistory | None = None
) -> Plan:
    """The draft as it is published after the plan before, in English."""
    return publish(
        draft.model_copy(update={"past": history}), previous, now, words_for("en", draft.lawn.units)
    )


def sample_plan(system: System = System.US, *, southern: bool = False, **more: Any) -> Plan:
    """The invented plan, numbered and stamped as its first version."""
    return revise(sample_draft(system, southern=southern, **more), None, NOW)


def shifted(task: Task, by: timedelta) -> Task:
    """The task with every date of it moved."""
    update: dict[str, Any] = {name: getattr(task, name) + by for name in ("start", "end", "best")}
    update["window"] = TaskWindow(start=task.window.start + by, end=task.window.end + by)
    if task.fallback_day is not None:
        update["fallback_day"] = task.fallback_day + by
    if task.series is not None:
        old = task.series
        days = {
            "start": old.start + by,
            "end": old.end + by,
            "skip": tuple(day + by for day in old.skip),
        }
        update["series"] = old.model_copy(update=days)
    return task.model_copy(update=update)


def with_task(
    plan: Plan, task_id: str, change: Callable[[Task], Task] | None = None, **update: Any
) -> Plan:
    """The plan with one task changed by a function or by fields."""
    assert plan.task(task_id) is not None, task_id
    tasks = tuple(
        t if t.id != task_id else change(t) if change is not None else t.model_copy(update=update)
        for t in plan.tasks
    )
    return plan.model_copy(update={"tasks": tasks})


def moved(plan: Plan, task_id: str, days: int) -> Plan:
    """The plan with one task some days later."""
    return with_task(plan, task_id, lambda task: shifted(task, timedelta(days=days)))


def without(plan: Plan, *task_ids: str) -> Plan:
    """The plan without some tasks."""
    return plan.model_copy(update={"tasks": tuple(t for t in plan.tasks if t.id not in task_ids)})


def with_more(plan: Plan, *tasks: Task) -> Plan:
    """The plan with more tasks."""
    return plan.model_copy(update={"tasks": (*plan.tasks, *tasks)})
