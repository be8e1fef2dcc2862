"""What looks like a slip in an entry: asked back where it does, and never where it can well be."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from planning import example
from sample_plan import SOUTH, sample_plan
from told import told
from turfplan.files.reading.book import load_book
from turfplan.planning.slips import Slip, slips_of
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import Plan
from turfplan.units import (
    CUBIC_YARD_M3,
    POUND_KG,
    System,
    dimension_of,
    inside_unit,
    parse_quantity,
)

BOOK = load_book()
PLAN = sample_plan()
METRIC = sample_plan(System.METRIC)
SOUTHERN = sample_plan(System.METRIC, southern=True)
AT = datetime(2027, 9, 1, tzinfo=UTC)
PASS_DAY = date(2027, 9, 5)


def entry(kind: str, number: int = 1, **more: Any) -> JournalEntry:
    """An entry; an amount or a value is written as people write it."""
    if "amount" in more:
        unit = str(more["amount"]).lstrip("-0123456789./ ")
        dimension = dimension_of(unit)
        assert dimension is not None
        more["amount"], more["unit"] = parse_quantity(more["amount"], dimension), dimension
        more["unit"] = inside_unit(dimension)
    return JournalEntry.model_validate({"number": number, "at": AT, "kind": kind, **more})


def asked(
    kind: str,
    *before: JournalEntry,
    plan: Plan | None = PLAN,
    today: date | None = date(2028, 12, 1),
    **more: Any,
) -> tuple[Slip, ...]:
    """What is asked back of an entry after others."""
    given = str(more.get("amount", ""))
    written = entry(kind, len(before) + 1, **more)
    return slips_of(written, before, plan, BOOK, today=today, quantity=given)


def keys(slips: tuple[Slip, ...]) -> list[str]:
    """What is asked, by its key."""
    return [slip.what.key.removeprefix("slips.") for slip in slips]


def test_a_day_to_come_is_asked_and_today_is_not() -> None:
    """Tomorrow, or months ahead; who leaves a task out may say so beforehand, and where nobody
    knows which day it is nothing is asked."""
    for ahead, found in ((0, []), (1, ["to_come"]), (120, ["to_come"])):
        today = PASS_DAY - timedelta(days=ahead)
        assert keys(asked("done", task="topdress.1", on=PASS_DAY, today=today)) == found
    before = PASS_DAY - timedelta(days=30)
    assert not asked("skipped", task="topdress.1", on=PASS_DAY, today=before)
    assert not asked("done", task="topdress.1", on=PASS_DAY, today=None)
    assert keys(asked("rained_off", on=PASS_DAY, today=before)) == ["to_come"]
    assert keys(asked("not_done", task="topdress.1", today=before)) == ["to_come"]
    assert not asked("not_done", task="topdress.1", today=PASS_DAY + timedelta(days=1))
    # Who says on which day it was not done may say so on that day, before the job is over.
    assert not asked("not_done", task="topdress.1", on=before, today=before)
    tomorrow = before + timedelta(days=1)
    assert keys(asked("not_done", task="topdress.1", on=tomorrow, today=before)) == ["to_come"]


def test_what_is_over_lies_on_no_day_long_to_come() -> None:
    """A year written wrong is not kept by anybody who is sure; months ahead are, for clocks are set
    wrong too, and what is known ahead may be written."""
    today = PASS_DAY - timedelta(days=300)
    for kind in ("done", "delivered", "refused", "rained_off"):
        task = "delivery.1" if kind in ("delivered", "refused") else "topdress.1"
        (never, *_) = asked(kind, task=task, on=PASS_DAY, today=today)
        assert never.field == "on" and not never.possible
        (near, *_) = asked(kind, task=task, on=PASS_DAY, today=PASS_DAY - timedelta(days=120))
        assert near.field == "on" and near.possible
    for kind, more in (
        ("not_done", {"task": "topdress.1"}),
        ("measured", {"quantity": "water_ban", "value": 20.0, "unit": "days"}),
    ):
        assert all(slip.possible for slip in asked(kind, on=PASS_DAY, today=today, **more))


@pytest.mark.parametrize("plan", [PLAN, METRIC, SOUTHERN])
def test_a_year_off_is_asked_and_some_weeks_are_not(plan: Plan) -> None:
    """Of every job of either hemisphere: three weeks early or late is what happens, a year is a
    slip of the pen; so is a measurement years before the plan."""
    for task in plan.tasks:
        for days, found in ((-21, []), (21, []), (-365, ["far_off"]), (365, ["far_off"])):
            on = task.start + timedelta(days=days)
            slips = asked("done", plan=plan, task=task.id, on=on, today=on)
            assert keys(slips) == found, (task.id, on)
    old = asked("measured", plan=plan, quantity="rain", value=3.0, unit="mm", on=date(2019, 7, 10))
    assert keys(old) == ["outside_plan"]


@pytest.mark.parametrize("name", ["st-augustine-plugs", "surveyed-us", "southern-hemisphere"])
def test_half_to_double_of_what_was_planned_is_never_asked(name: str) -> None:
    """Plugs, a surveyed lawn, a southern one: each amount that a task has in the plan, from half of
    it to double, within three weeks, said in the unit of the plan."""
    plan = example(name)
    counted = 0
    for task in plan.tasks:
        for amount in task.amounts:
            if amount.unit not in ("m3", "kg", "m2") or amount.value <= 0:
                continue
            for times in (0.5, 0.8, 1.0, 1.3, 2.0):
                on = task.start + timedelta(days=21)
                said = f"{amount.value * times:.6f} {amount.unit}"
                slips = asked("done", plan=plan, task=task.id, on=on, today=on, amount=said)
                # Another unit that fits by chance is asked, and may be kept.
                assert set(keys(slips)) <= {"other_unit"}, (task.id, said)
                assert all(slip.possible for slip in slips) and (times != 1 or not slips)
                counted += 1
    assert counted > 20


def test_ten_times_the_amount_is_asked_with_both() -> None:
    """31 for 3.1 m3, and 0.31; a third more is not; half of a pass takes half."""
    ten = asked("done", plan=METRIC, task="topdress.1", on=PASS_DAY, amount="31 m3")
    assert keys(ten) == ["many_times"] and ten[0].field == "amount" and ten[0].possible
    assert "31 m³ is 10 times what the plan has" in told(ten[0].what, System.METRIC)
    tenth = asked("done", plan=METRIC, task="topdress.1", on=PASS_DAY, amount="0.31 m3")
    assert keys(tenth) == ["small_part"]
    for amount in ("4.1 m3", "2 m3", "3 m3"):
        assert not asked("done", plan=METRIC, task="topdress.1", on=PASS_DAY, amount=amount)
    half = asked("done", plan=METRIC, task="topdress.1", on=PASS_DAY, amount="7 m3", share=0.5)
    assert keys(half) == ["many_times"]


@pytest.mark.parametrize(
    ("plan", "task", "amount", "other"),
    [
        (PLAN, "topdress.1", f"{3.1 / CUBIC_YARD_M3:.2f} m3", "yd³"),
        (PLAN, "delivery.1", f"{6.4 / CUBIC_YARD_M3:.2f} m3", "yd³"),
        (METRIC, "delivery.1", "6.4 yd3", "m³"),
        (PLAN, "overseed", f"{11.34 / POUND_KG:.0f} kg", "lb"),
        (METRIC, "overseed", "11.34 lb", "kg"),
        (SOUTHERN, "starter_feed", "2.5 lb", "kg"),
        (METRIC, "topdress.1", "3.9 kg", "t"),
        (PLAN, "delivery.1", f"{6.4 / CUBIC_YARD_M3:.2f} ft3", "yd³"),
    ],
)
def test_one_unit_for_another_is_asked(plan: Plan, task: str, amount: str, other: str) -> None:
    """A number that fits the plan with the reader's own unit, and not with the one it has."""
    there = plan.task(task)
    assert there is not None
    slips = asked("done", plan=plan, task=task, on=there.start, amount=amount)
    assert keys(slips) == ["other_unit"] and slips[0].possible
    assert dict(slips[0].what.values)["unit"] == other


def test_an_amount_that_the_task_is_not_counted_in_is_asked() -> None:
    """A mow in cubic metres; a load by area; nothing, or less than nothing, is never an amount."""
    assert keys(asked("done", task="first_mow", on=PASS_DAY, amount="3 m3")) == ["not_counted"]
    assert keys(asked("delivered", task="delivery.1", on=PASS_DAY, amount="3 m2")) == [
        "not_counted"
    ]
    for amount in ("0 m3", "-3 m3"):
        never = asked("delivered", task="delivery.1", on=PASS_DAY, amount=amount)
        assert keys(never) == ["nothing"] and not never[0].possible


def test_the_same_twice_is_asked_and_two_loads_are_not() -> None:
    """The same words again; a pass that is over, again; two loads that make up what was ordered are
    no slip, nor the rest of what was begun."""
    once = entry("done", task="topdress.1", on=PASS_DAY, amount="3.1 m3")
    again = asked("done", once, task="topdress.1", on=PASS_DAY, amount="3.1 m3")
    assert keys(again) == ["written_before"] and dict(again[0].what.values)["number"] == 1
    later = PASS_DAY + timedelta(days=1)
    assert keys(asked("done", once, task="topdress.1", on=later)) == ["was_done"]
    first = entry("delivered", task="delivery.1", on=PASS_DAY, amount="4 m3")
    for kind, amount, found in (
        ("delivered", "2.4 m3", []),
        ("delivered", "4 m3", []),
        ("delivered", "6.4 m3", ["was_done"]),
        ("refused", "2.4 m3", []),
    ):
        slips = asked(kind, first, task="delivery.1", on=later, amount=amount)
        assert keys(slips) == found, (kind, amount)
    half = entry("done", task="topdress.2", on=PASS_DAY, share=0.5)
    assert not asked("done", half, task="topdress.2", on=later)
    assert not asked("done", half, task="topdress.2", on=later, share=0.5)
    assert keys(asked("done", half, task="topdress.2", on=later, share=0.6)) == ["shares"]
    rain = entry("rained_off", on=PASS_DAY)
    assert keys(asked("rained_off", rain, on=PASS_DAY)) == ["written_before"]
    assert not asked("rained_off", rain, on=later)


def test_what_another_entry_contradicts_is_asked_unless_that_was_taken_back() -> None:
    """Done after it was left out, left out or rained off after it was done."""
    done = entry("done", task="roll.1", on=PASS_DAY).model_copy(update={"task": "overseed"})
    skipped = entry("skipped", task="overseed", on=PASS_DAY)
    later = PASS_DAY + timedelta(days=9)
    assert keys(asked("done", skipped, task="overseed", on=later)) == ["was_skipped"]
    for kind in ("skipped", "rained_off"):
        assert keys(asked(kind, done, task="overseed", on=later)) == ["was_done"], kind
    assert keys(asked("not_done", done, task="overseed")) == ["was_done"]
    undo = entry("undo", 2, undoes=1)
    assert not asked("done", skipped, undo, task="overseed", on=later)


def test_a_kind_that_the_task_cannot_have_is_asked() -> None:
    """No load but a delivery is brought or sent back; rain takes no day from a letter."""
    for kind in ("delivered", "refused"):
        assert keys(asked(kind, task="first_mow", on=date(2027, 10, 16))) == ["not_a_delivery"]
        assert not asked(kind, task="delivery.1", on=PASS_DAY)
    for task in ("soil_test", "order_material.1", "locate_utilities.1"):
        planned = PLAN.task(task)
        assert planned is not None
        slips = asked("rained_off", task=task, on=planned.start)
        assert keys(slips) == ["in_any_weather"], task
    series = next(task for task in PLAN.tasks if task.series is not None)
    assert not asked("rained_off", task=series.id, on=series.start)
    for task in ("first_mow", "topdress.1", "overseed", "core_aerate.1"):
        planned = PLAN.task(task)
        assert planned is not None and not asked("rained_off", task=task, on=planned.start), task


def measured(quantity: str, value: float, given: str, on: date, plan: Plan) -> tuple[Slip, ...]:
    """What is asked back of a measurement; `value` is in the inside unit."""
    unit = {"soil_temperature": "C", "grubs": "1/m2"}.get(quantity, "mm")
    written = entry("measured", quantity=quantity, value=value, unit=unit, on=on)
    return slips_of(written, (), plan, BOOK, today=on, quantity=given)


@pytest.mark.parametrize(
    ("quantity", "value", "given"),
    [
        ("soil_temperature", 304.0, "580 F"),
        ("soil_temperature", -80.0, "-80 C"),
        ("rain", -1.0, "-1 mm"),
        ("rain", 5000.0, "5 m"),
        ("grass_height", -5.0, "-5 mm"),
        ("germination", 3.0, "300 %"),
        ("germination", -0.1, "-10 %"),
        ("live_cause", 0.5, "50 %"),
        ("cause_left", 2.0, "2"),
        ("grubs", 1e6, "1e6 1/m2"),
    ],
)
def test_what_cannot_be_is_never_kept(quantity: str, value: float, given: str) -> None:
    """Hotter than any soil, more rain than ever fell, three of one plant."""
    slips = measured(quantity, value, given, PASS_DAY, PLAN)
    assert len(slips) == 1 and not slips[0].possible and slips[0].field == "value"


def test_soil_that_is_not_of_the_season_is_asked() -> None:
    """Celsius written for Fahrenheit is named; the other way round too; a warm or a cold spell is
    not asked, in either hemisphere."""
    spring, summer = date(2027, 1, 1), date(2027, 6, 30)  # 2 and 22 degC in the invented climate
    for on, given, value, found in (
        (summer, "72 C", 72.0, ["other_scale"]),
        (spring, "36 C", 36.0, ["other_scale"]),
        (summer, "3 C", 3.0, ["unlike_season"]),
        (summer, "80 F", 26.7, []),
        (spring, "48 F", 8.9, []),
        (summer, "55 F", 12.8, []),
    ):
        assert keys(measured("soil_temperature", value, given, on, PLAN)) == found, given


def test_much_is_asked_and_a_wet_day_is_not() -> None:
    """Inches for millimetres of rain, a depth that was never filled, a square metre of grubs."""
    for quantity, value, found in (
        ("rain", 304.8, ["much"]),
        ("rain", 80.0, []),
        ("rain", 0.0, []),
        ("grass_height", 762.0, ["much"]),
        ("grass_height", 120.0, []),
        ("depth_missing", 76.0, ["much"]),
        ("depth_missing", 6.0, []),
        ("grubs", 90.0, []),
        ("grubs", 2000.0, ["much"]),
        ("germination", 1.0, []),
        ("germination", 0.0, []),
    ):
        assert keys(measured(quantity, value, "so much", PASS_DAY, PLAN)) == found, quantity


def test_without_a_plan_only_what_needs_none_is_asked() -> None:
    """A note, rain of long ago, a load that cannot be looked up."""
    assert not asked("note", plan=None, text="dry")
    assert not asked("rained_off", plan=None, on=PASS_DAY)
    never = asked("delivered", plan=None, task="delivery.1", on=PASS_DAY, amount="0 m3")
    assert keys(never) == ["nothing"]


def test_a_southern_season_is_asked_by_its_own_days() -> None:
    """Half a year later: the northern day is half a year off."""
    southern = PASS_DAY + SOUTH
    assert not asked("done", plan=SOUTHERN, task="topdress.1", on=southern)
    off = asked("done", plan=SOUTHERN, task="topdress.1", on=PASS_DAY - timedelta(days=30))
    assert keys(off) == ["far_off"]


def test_what_a_plan_asks_for_again_is_no_slip() -> None:
    """It knows of the entry by which it was done, and has it open all the same."""
    once = entry("done", task="topdress.1", on=PASS_DAY)
    later = PASS_DAY + timedelta(days=30)
    knows = PLAN.model_copy(update={"journal_entries": 1})
    assert keys(asked("done", once, task="topdress.1", on=later)) == ["was_done"]
    assert not asked("done", once, plan=knows, task="topdress.1", on=later)
