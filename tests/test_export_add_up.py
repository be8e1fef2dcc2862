"""Amounts add up as they are printed, on every example and on lawns drawn at random: passes to
loads, loads and parts to the order, what a task takes to what is bought for it.
"""

import re
from collections.abc import Iterator
from math import ceil, isclose

import pytest

from planning import POSSIBLE, example
from printed import order_html, unset
from random_lawns import COUNT, random_plan
from tiers import sampled
from told import words_of
from turfplan.export.sheets.order_sheet import order_lines
from turfplan.message import Listed, Message, Quantity, Value
from turfplan.messages import Words
from turfplan.messages.entry import amount_value, description
from turfplan.records.plan import OrderLine, Plan
from turfplan.records.plan_task import Task
from turfplan.units import System, from_inside

PLANS = (*POSSIBLE, *range(COUNT))
QUICK = ("cool-overseed", "surveyed-metric", 0, 7, 14, 21)
HUNDREDTH = 0.0051


def plan_called(name: str | int) -> Plan:
    """An example, or a random lawn; one that cannot be done is skipped."""
    plan = example(name) if isinstance(name, str) else random_plan(name)
    if plan is None:
        pytest.skip("cannot be done as asked")
    return plan


def english(plan: Plan) -> Words:
    """The words of a plan's reader."""
    return words_of(plan.lawn.units, plan.place.region)


def told_m3(words: Words, value: Quantity) -> float:
    """The figure that is printed of a volume, in the reader's unit."""
    return float(words.value(value).split()[0].replace(",", ""))


def in_unit(plan: Plan, volume_m3: float) -> float:
    """A volume in the reader's unit."""
    us = plan.lawn.units is System.US
    return from_inside(volume_m3, "yd3" if us else "m3", "volume")


def quantities(value: Value, key: str, name: str) -> Iterator[Quantity]:
    """The quantities of a name in every message of keys that begin so, inside another too."""
    if isinstance(value, Listed):
        for item in value.items:
            yield from quantities(item, key, name)
    if not isinstance(value, Message):
        return
    for own, part in value.values:
        if value.key.startswith(key) and own == name and isinstance(part, Quantity):
            yield part
        yield from quantities(part, key, name)


def volume(task: Task) -> float:
    """The loose m3 of a task; nothing where it has none."""
    return next((a.value for a in task.amounts if (a.item, a.unit) == ("volume", "m3")), 0.0)


def loose(plan: Plan) -> list[OrderLine]:
    """The lines of what is brought loose."""
    return [line for line in plan.order if line.loads]


@pytest.mark.parametrize("name", sampled(PLANS, *QUICK))
def test_what_is_printed_of_a_pass_is_what_it_takes(name: str | int) -> None:
    """To the hundredth that is printed; so are the parts of zones, which make up their pass, and
    all that is moved."""
    plan = plan_called(name)
    words = english(plan)
    passes = [task for task in plan.tasks if task.plays("spreading")]
    for task in passes:
        taken = next(a for a in task.amounts if a.item == "volume")
        told = amount_value(taken)
        assert isinstance(told, Quantity)
        assert told_m3(words, told) == pytest.approx(in_unit(plan, taken.value), abs=1e-3)
        zones = list(quantities(taken.reason, "level.zone_part", "volume"))
        if zones:
            parts = sum(told_m3(words, each) for each in zones)
            assert parts <= told_m3(words, told) + 1e-6
    moved = [q for c in plan.cautions for q in quantities(c, "plan_cautions.by_", "volume")]
    for whole in moved:
        in_all = in_unit(plan, sum(map(volume, passes)))
        assert told_m3(words, whole) == pytest.approx(in_all, abs=1e-2)


@pytest.mark.parametrize("name", sampled(PLANS, *QUICK))
def test_passes_add_up_to_what_loads_are_for(name: str | int) -> None:
    """What the reasons of the mix say that passes take is the sum of the passes as printed."""
    plan = plan_called(name)
    words = english(plan)
    mixes = [line for line in plan.order if line.item == "mix"]
    if not mixes:
        return
    said = sum(
        told_m3(words, q)
        for line in mixes
        for q in quantities(line.reason, "order.mix.reason", "passes")
    )
    passes = [task for task in plan.tasks if task.plays("spreading")]
    told = [amount_value(a) for t in passes for a in t.amounts if a.item == "volume"]
    assert said == pytest.approx(
        sum(told_m3(words, each) for each in told if isinstance(each, Quantity)), abs=2e-3
    )


@pytest.mark.parametrize("name", sampled(PLANS, *QUICK))
def test_loads_and_parts_add_up_to_the_order(name: str | int) -> None:
    """As printed on the order sheet, and in the titles of who orders and receives."""
    plan = plan_called(name)
    words, us = english(plan), plan.lawn.units is System.US
    page = unset(order_html(plan))
    for view in order_lines(plan, words):
        line = view.line
        if line.item == "machine":
            # What is hired is told by its jobs.
            continue
        whole = float(re.sub(r"[^\d.]", "", view.amount.split()[0]))
        exact = line.value_us if us else line.value
        if line.loads:
            assert whole == pytest.approx(exact, abs=1e-3) and view.amount in page
            loads = [float(load.split()[0].replace(",", "")) for load in view.loads]
            assert sum(loads) == pytest.approx(whole, abs=HUNDREDTH * len(loads))
            step = 0.25 if us else 0.1
            sold = all(isclose(load / step, round(load / step), abs_tol=1e-3) for load in loads)
            assert sold or max(loads) < step
        if view.made_of:
            parts = [float(n) for n in re.findall(r" ([\d.]+) [a-z]", view.made_of)]
            assert len(parts) == len(line.parts), view.made_of
            assert sum(parts) == pytest.approx(exact, abs=HUNDREDTH)
    ordered = sum(volume(t) for t in plan.tasks if t.plays("ordering") and t.status != "CANCELLED")
    assert ordered == pytest.approx(sum(line.value for line in loose(plan)), abs=1e-3)


@pytest.mark.parametrize("name", sampled(PLANS, *QUICK))
def test_a_title_says_what_the_order_holds(name: str | int) -> None:
    """Seed in all its lines, lime, potash and phosphate: one rounding serves task and order."""
    plan = plan_called(name)
    words = english(plan)
    for task in plan.tasks:
        for item in ("seed", "lime", "potash to add in all", "phosphate to add in all"):
            amount = next((a for a in task.amounts if a.item == item), None)
            if amount is None or task.status == "CANCELLED":
                continue
            told = words.value(amount_value(amount))
            if task.plays("sowing") or task.operation in ("lime", "amend"):
                assert told in str(task.title), (told, str(task.title))
    for task in plan.tasks:
        if not task.plays("sowing"):
            continue
        told = next((words.value(amount_value(a)) for a in task.amounts if a.item == "seed"), "")
        lines = [line for line in plan.order if line.item == "seed"]
        if told and lines and len([t for t in plan.tasks if t.plays("sowing")]) == 1:
            bought = sum(float(str(line.text).split()[0]) for line in lines)
            assert bought == pytest.approx(float(told.split()[0]), abs=1e-3)
    nutrients = [line for line in plan.order if line.item in ("potash", "phosphate")]
    for line in nutrients:
        item = f"{line.item} to add in all"
        held = {
            words.value(amount_value(a)) for t in plan.tasks for a in t.amounts if a.item == item
        }
        assert any(each in str(line.text) for each in held), (str(line.text), held)


@pytest.mark.parametrize("name", sampled(PLANS, *QUICK))
def test_a_watering_tells_the_water_of_one_run(name: str | int) -> None:
    """The entry of a series that runs several times says what each takes, never all of them."""
    plan = plan_called(name)
    words = english(plan)
    for task in plan.tasks:
        if task.series is None:
            continue
        by_item = {a.item: a for a in task.amounts}
        each = by_item.get("water each time")
        if each is None:
            continue
        runs = by_item["water"].value / each.value
        assert runs == pytest.approx(round(runs), abs=0.02) and round(runs) > 1
        text = description(words, task)
        assert words.value(amount_value(each)) in text
        assert "Water each time" in text


@pytest.mark.parametrize("name", sampled(PLANS, *QUICK))
def test_every_pass_says_how_heaps_lie(name: str | int) -> None:
    """The barrows of its step are those of its amounts, and cover its area with their patches."""
    plan = plan_called(name)
    words = english(plan)
    for task in plan.tasks:
        if task.operation != "topdress" or task.status == "CANCELLED":
            continue
        steps = [words.text(step) for step in task.how]
        (laid,) = (step for step in steps if "covers" in step)
        barrows = next((a.value for a in task.amounts if a.item == "barrow loads"), None)
        if barrows is None:
            assert "barrow" not in laid
            continue
        found = re.search(r"covers ([\d,.]+) (?:ft|m)².*?([\d,]+) barrow", laid)
        assert found is not None, laid
        assert int(found[2].replace(",", "")) == barrows
        if "deepest" not in laid:
            patch = float(found[1].replace(",", ""))
            area = plan.lawn.area_m2 * (10.7639 if plan.lawn.units is System.US else 1.0)
            # A part of the lawn may be all that is spread; the last barrow need not be full.
            assert patch * barrows <= area * 1.1 + patch
            assert ceil(barrows) >= 1
