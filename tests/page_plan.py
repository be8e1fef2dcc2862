"""An invented plan for the tests of the printed sheets: every kind of task, a done one, waterings,
an order, accounts.
"""

import math
from datetime import UTC, date, datetime, time, timedelta
from typing import Any

from sample_plan import ROLES
from told import words_of
from turfplan.message import as_written
from turfplan.publishing import told_plan
from turfplan.records.plan import (
    Change,
    ClimateFacts,
    Fill,
    GrassPart,
    LawnFacts,
    Ledger,
    LedgerWeek,
    OperationWindow,
    OrderLine,
    OrderPart,
    PlaceFacts,
    Plan,
    Rejected,
    StakeLine,
)
from turfplan.records.plan_task import Amount, Series, Task, TaskWindow, WateringStage
from turfplan.units import CUBIC_YARD_M3, POUND_KG, System

DUST = (
    "Dry sand throws up dust that harms the lungs: wear a respirator, work upwind, damp the air, "
    "not the pile."
)
LINES = "Buried gas, power and water lines: have them marked before a tine goes in."
ENGINES = "Shoes, glasses and ear protection; stop the engine before you reach in."
LAW = "Follow the watering rules in force; a permit for new seed ends on its date."
NOW = datetime(2027, 8, 3, 16, tzinfo=UTC)
FIRST_WATERING, SEED_DAY = date(2027, 8, 15), date(2027, 8, 15)


def on(month: int, day: int) -> date:
    """A day of the invented season."""
    return date(2027, month, day)


def amount(item: str, value: float, unit: str, value_us: float, unit_us: str) -> Amount:
    """An amount with an invented reason."""
    return Amount(
        item=item,
        value=value,
        unit=unit,
        value_us=value_us,
        unit_us=unit_us,
        reason=f"Why this much {item}.",
    )


def task(task_id: str, phase: str, title: str, start: date, days: int = 1, **more: Any) -> Task:
    """A task with a window around it and words of its own, so that a page can be searched for
    them.
    """
    end = start + timedelta(days=days - 1)
    plain: dict[str, Any] = {
        "roles": ROLES.get(task_id.split(".")[0], ()),
        "id": task_id,
        "uid": f"{task_id}@turfplan",
        "operation": task_id.split(".")[0],
        "phase": phase,
        "title": title,
        "why": f"Why {title}.",
        "start": start,
        "end": end,
        "best": start,
        "duration_days": days,
        "person_hours": 2.0,
        "window": TaskWindow(start=start - timedelta(days=3), end=end + timedelta(days=9)),
        "facts": ("a.fact",),
        "how": (f"First step of {task_id}.", f"Second step of {task_id}."),
        "go": f"Only when {task_id} can be done.",
        "fallback": f"Else leave {task_id}.",
        "fallback_day": end + timedelta(days=7),
        "not_earlier": (f"Too early for {task_id}.",),
        "not_later": (f"Too late for {task_id}.",),
    }
    return Task(**(plain | more))


def waterings() -> tuple[Task, ...]:
    """Three weeks of watering seed: daily, then on two weekdays with one day left out."""
    made = []
    for week in range(3):
        first = FIRST_WATERING + timedelta(days=7 * week)
        last = first + timedelta(days=6)
        for key, hour in (("morning", 6), ("afternoon", 14)):
            days = {"weekdays": ("tue", "sat"), "skip": (on(8, 31),)} if week == 2 else {}
            series = Series.model_validate(
                {
                    "from": first,
                    "to": last,
                    "start_time": time(hour, 30),
                    "minutes": 8 + week,
                    **days,
                }
            )
            made.append(
                task(
                    f"water.germination.w{week + 1}.{key}",
                    "seed",
                    f"Seed coming up: {8 + week} min",
                    first,
                    7,
                    series=series,
                    stage=WateringStage(id="germination", name="Seed coming up"),
                    cautions=(LAW,),
                    person_hours=0.0,
                    go="Surface drying; skip after real rain.",
                    amounts=(amount("water", 900, "L", 240, "gal"),),
                )
            )
    return tuple(made)


def tasks() -> tuple[Task, ...]:
    """The tasks of the invented season."""
    return (*until_seed(), *waterings(), *after_seed())


def until_seed() -> tuple[Task, ...]:
    """The tasks from the soil test to the seed."""
    mix = (amount("depth", 9.525, "mm", 0.375, "in"), amount("volume", 4.9, "m3", 6.409, "yd3"))
    seed = (amount("seed", 11.34, "kg", 25.0, "lb"), amount("seed held back", 1.2, "kg", 2.6, "lb"))
    return (
        task(
            "soil_test",
            "prepare",
            "Take a soil sample and send it in",
            on(7, 3),
            closed="done",
            status="COMPLETED",
        ),
        task("order_material.1", "prepare", "Order 7 yd³ of mix", on(8, 2)),
        task("locate_utilities", "prepare", "Ask for utility marks; flag sprinklers", on(8, 4)),
        task("delivery.1", "level", "Receive 7 yd³ of mix", on(8, 12), cautions=(DUST,)),
        task(
            "core_aerate.1",
            "surface",
            "Core-aerate in two directions",
            on(8, 14),
            cautions=(LINES, ENGINES),
            depends_on=("mow_low.1",),
        ),
        task("mow_low.1", "surface", "Mow low to 2 in", on(8, 14), cautions=(ENGINES,)),
        task(
            "topdress.1",
            "level",
            "Top-dress pass 1 of 1: 3/8 in",
            on(8, 14),
            2,
            cautions=(DUST,),
            amounts=mix,
            person_hours=9.5,
        ),
        task(
            "seed", "seed", "Sow 25 lb of tall fescue seed", SEED_DAY, amounts=seed, cautions=(LAW,)
        ),
    )


def after_seed() -> tuple[Task, ...]:
    """The tasks beside the waterings and behind them; one of them was dropped."""
    return (
        task("inspect.germination", "care", "Look: is the seed up?", on(9, 4)),
        task(
            "first_mow",
            "care",
            "First mow of the new grass at 3 1/2 in",
            on(9, 18),
            cautions=(ENGINES,),
        ),
        task("roll", "seed", "Roll once, lightly", on(8, 15), closed="dropped", status="CANCELLED"),
        task("settle_check", "finish", "Check how the fill has settled", date(2028, 4, 15)),
    )


def order() -> tuple[OrderLine, ...]:
    """What the invented season needs."""
    seed = OrderLine(
        item="seed",
        name="Tall fescue seed",
        value=25 * POUND_KG,
        unit="kg",
        value_us=25.0,
        unit_us="lb",
        order_by=on(8, 5),
        deliver_by=on(8, 14),
        reason="Rate times area, a tenth held back.",
    )
    return mix(), seed


def half(item: str) -> OrderPart:
    """Half of the mix."""
    return OrderPart(
        item=item, value=3.5 * CUBIC_YARD_M3, unit="m3", value_us=3.5, unit_us="yd3", share=0.5
    )


def mix() -> OrderLine:
    """The mix, in two loads."""
    return OrderLine(
        item="mix",
        name="Leveling mix, half topsoil and half fine sand",
        value=7 * CUBIC_YARD_M3,
        unit="m3",
        value_us=7.0,
        unit_us="yd3",
        parts=(half("topsoil"), half("sand")),
        loads=(6 * CUBIC_YARD_M3, 1 * CUBIC_YARD_M3),
        order_by=on(8, 2),
        deliver_by=on(8, 12),
        reason="Area times depth, and room to settle.",
        questions=("Is it bone dry now?", "Is it blended by a machine?"),
        acceptance=("Squeeze a handful: it falls apart.", "Look for clumps."),
        text="7 yd³ of dry, machine-blended mix.",
        facts=("a.fact",),
    )


def ledgers() -> tuple[Ledger, ...]:
    """A year of water and nitrogen whose balances add up."""
    water, nitrogen = [], []
    wet = fed = 0.0
    for week in range(56):
        first = on(7, 5) + timedelta(days=7 * week)
        summer = 1 + math.cos((week - 2) / 52 * 2 * math.pi)
        flows = {
            "rain": 18.0 + week % 7,
            "watering": 15.0 if 6 <= week < 12 else 0.0,
            "evapotranspiration": -round(11 * summer, 1),
        }
        flows["lost"] = -round(max(0.0, wet + sum(flows.values())), 1)
        wet = round(wet + sum(flows.values()), 1)
        food = {
            "feed": 4.88 if week in (9, 14, 40) else 0.0,
            "compost": 0.05,
            "growth": -round(0.2 * summer, 2),
        }
        fed = round(fed + sum(food.values()), 2)
        last = first + timedelta(days=6)
        water.append(LedgerWeek(start=first, end=last, entries=flows, balance=wet))
        nitrogen.append(LedgerWeek(start=first, end=last, entries=food, balance=fed))
    return (
        Ledger(
            item="water",
            unit="mm",
            opening=0.0,
            weeks=tuple(water),
            notes=("Roots 6 in (15 cm) deep.",),
        ),
        Ledger(item="nitrogen", unit="g/m2", opening=0.0, weeks=tuple(nitrogen)),
    )


def climate() -> ClimateFacts:
    """Smooth curves of an invented station."""
    days = tuple(range(0, 365, 5))
    return ClimateFacts(
        source="An invented station's normals.",
        error_days=7,
        last_frost="05-02",
        first_frost="10-12",
        day_of_year=days,
        air_mean_c=tuple(round(11 - 12 * math.cos((d - 20) / 365 * 2 * math.pi), 1) for d in days),
        soil_10cm_c=tuple(round(12 - 11 * math.cos((d - 35) / 365 * 2 * math.pi), 1) for d in days),
        soil_error_c=1.5,
    )


def windows() -> tuple[OperationWindow, ...]:
    """Open days of the invented place."""
    rows = (
        ("topdress", "autumn", on(8, 10), on(9, 26), on(8, 28)),
        ("seed", "autumn", on(8, 12), on(9, 20), on(8, 25)),
        ("seed", "spring", date(2028, 3, 20), date(2028, 5, 10), date(2028, 4, 10)),
    )
    return tuple(
        OperationWindow(
            operation=o, season=s, start=a, end=b, best=c, reason=f"{o} is open.", source="bulletin"
        )
        for o, s, a, b, c in rows
    )


def fill() -> Fill:
    """A fill map of two stakes and one picture."""
    picture = (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20" width="40" height="20">'
        '<rect width="40" height="20" fill="#ddd"/></svg>'
    )
    return Fill(
        mean_depth_mm=12.0,
        volume_m3=4.7,
        volume_low_m3=4.1,
        volume_high_m3=5.2,
        pictures=(("Fill in four depths", picture),),
        stakes=(
            StakeLine(stake="A1", place=as_written("by the door"), fill_mm=12.7),
            StakeLine(stake="A2", place=as_written("by the gate"), fill_mm=25.4),
        ),
    )


def page_plan(
    system: System = System.US, *, name: str = "Back lawn", country: str | None = None, **more: Any
) -> Plan:
    """The invented plan in US or metric units, as it is told to its reader."""
    given: dict[str, Any] = {
        "program": "turfplan",
        "data_version": "1",
        "revision": 3,
        "stamp": NOW,
        "now": NOW,
        "lawn_id": "back-lawn",
        "brief_sha256": "0" * 64,
        "timezone": "America/New_York",
        "horizon": TaskWindow(start=on(6, 1), end=date(2028, 11, 30)),
        "lawn": lawn(system, name),
        "place": PlaceFacts(
            latitude=40.0,
            longitude=-76.3,
            country=country or ("US" if system is System.US else "GB"),
            name="Invented Town",
        ),
        "climate": climate(),
        "tasks": tasks(),
        "order": order(),
        "windows": windows(),
        "ledgers": ledgers(),
        "fill": fill(),
        **said(),
    }
    return told_plan(Plan(**(given | more)), words_of(system))


def lawn(system: System, name: str) -> LawnFacts:
    """The invented lawn."""
    return LawnFacts(
        id="back-lawn",
        name=name,
        area_m2=390.2,
        grass=(GrassPart(species="tall_fescue", name="tall fescue", share=1.0),),
        soil="clay_loam",
        thatch_mm=6.35,
        condition="thin",
        units=system,
        depth_mm=9.525,
        intent="overseed",
        mix="topsoil and sand",
    )


def said() -> dict[str, Any]:
    """What the invented plan says of its choice, of what was passed over and of its sources."""
    return {
        "campaign": "autumn",
        "campaign_name": "late summer into autumn",
        "campaign_reason": (
            "Soil is warm.",
            "All passes fit into one session.",
            "Half topsoil, half sand on clay loam.",
        ),
        "cautions": ("Local codes come first.", DUST),
        "assumptions": ("One person, six hours a day.",),
        "disagreements": ("Sand on clay: one source says no, one says thinly.",),
        "rejected": (Rejected(campaign="spring", reason="Seed meets its first summer young."),),
        "changes": (
            Change(
                task="seed",
                kind="moved",
                before="Aug 14",
                after="Aug 15",
                because="Rain on the day before.",
            ),
        ),
        "sources": {"bulletin": "An invented college: a bulletin"},
        "citations": {"a.fact": "3 to 4 in, an invented college: a bulletin, table 2"},
    }
