"""The amounts of a task agree with each other, with the lawn and with the book."""

import math
from collections.abc import Iterator, Mapping
from functools import lru_cache

from turfplan.audit.case import Case
from turfplan.audit.faults import Fault, fault
from turfplan.audit.ground_said import ground_m2, live_share
from turfplan.audit.open_ground import is_open_ground
from turfplan.audit.passes import depth_mm
from turfplan.records.book_names import of_material
from turfplan.records.plan import OrderLine, OrderPart
from turfplan.records.plan_task import Amount, Task
from turfplan.units import convert, dimension_of

# What is a total of what rate.
TOTALS = {
    "nitrogen_total": "nitrogen",
    "product": "product_rate",
    "potash to add in all": "potash to add",
    "phosphate to add in all": "phosphate to add",
    "lime": "lime rate",
    "sulfur": "sulfur rate",
    "iron sulfate": "iron sulfate rate",
    "gypsum": "gypsum rate",
}
# Both values are rounded as they are written: water to tenths of a litre and of a gallon, all else
# to three decimals or more.
WRITTEN_US = {"gal": 0.065}
KG, M3, MM, SHARE = 0.01, 1e-5, 0.01, 0.001
# A pass is rounded up to a hundredth of a cubic yard or metre, or half a percent of it.
TOLD_M3, TOLD_SHARE = 0.01, 0.005


def amounts_positive(case: Case) -> Iterator[Fault]:
    """Every amount is a number above nothing."""
    for task in case.open:
        for amount in task.amounts:
            if not (math.isfinite(amount.value) and amount.value > 0):
                yield fault("amount_not_positive", task, item=amount.item, value=amount.value)


def twins_agree(case: Case) -> Iterator[Fault]:
    """The customary US value is the same amount as the SI value."""
    for task in case.open:
        for amount in task.amounts:
            if not _same(amount):
                yield fault(
                    "twin_differs",
                    task,
                    item=amount.item,
                    value=amount.value,
                    value_us=amount.value_us,
                )
    for line in case.plan.order:
        sold_as: tuple[OrderLine | OrderPart, ...] = (line, *line.parts)
        for sold in sold_as:
            if not _same(sold):
                yield fault(
                    "twin_differs", item=sold.item, value=sold.value, value_us=sold.value_us
                )


def _same(amount: Amount | OrderLine | OrderPart) -> bool:
    """True where both values are one amount, up to the decimals in which they are written."""
    unit, unit_us = amount.unit, amount.unit_us
    if unit == unit_us:
        return amount.value == amount.value_us
    one, us = _inside(unit), _inside(unit_us)
    if one is None or us is None or one[0] != us[0]:
        return False
    room = WRITTEN_US.get(unit_us, 0.002) * us[1]
    return math.isclose(amount.value * one[1], amount.value_us * us[1], rel_tol=1e-5, abs_tol=room)


@lru_cache(maxsize=64)
def _inside(unit: str) -> tuple[str, float] | None:
    """The dimension of a unit and how much one of it is inside; None for an unknown unit."""
    dimension = dimension_of(unit)
    return None if dimension is None else (dimension, convert(1.0, unit, dimension))


def totals_agree(case: Case) -> Iterator[Fault]:
    """A total is its rate over the ground that the task says it is for."""
    for task in case.open:
        if len(task.amounts) < 2:
            continue
        values, area = _values(task), ground_m2(case, task)
        # Either may be rounded to three decimals.
        room = KG + 0.0006 * area / 1000
        for total in TOTALS.keys() & values.keys():
            wanted = values.get(TOTALS[total], math.nan) * area / 1000
            if not abs(values[total] - wanted) <= room:
                yield fault(
                    "total_differs", task, item=total, total_kg=values[total], wanted_kg=wanted
                )


def volume_follows_depth(case: Case) -> Iterator[Fault]:
    """A pass takes its depth over its ground, loose: exactly where that is filled evenly, at most
    that where it is not."""
    even = _even(case)
    settle = settle_of(case)
    cores = case.book.si("aerate.core_volume_depth") if _is_sand_alone(case) else 0.0
    for task in case.to_do("spreading"):
        depth, volume = depth_mm(task), _values(task).get("volume")
        if depth is None or volume is None:
            continue
        least, most = (_loose(depth + more, ground_m2(case, task), settle) for more in (0.0, cores))
        told_m3 = most + M3 + max(TOLD_M3, volume * TOLD_SHARE)
        if volume > told_m3 or volume <= 0 or (even and volume < least - M3):
            yield fault(
                "depth_volume_differs", task, depth_mm=depth, volume_m3=volume, wanted_m3=least
            )


def _is_sand_alone(case: Case) -> bool:
    """Whether sand that holds next to nothing else was asked for: cores are taken away from under
    it."""
    leveling = case.brief.leveling
    share = (leveling.parts or {}).get("sand", 0.0)
    return leveling.material == "sand" or share > case.book.si("topdress.straight_sand")


def _even(case: Case) -> bool:
    """True where one depth is asked for, over the whole lawn."""
    leveling = case.brief.leveling
    lawn = case.brief.lawn
    parts = bool(lawn.part) or any(shape.depth_mm is not None for shape in lawn.shape)
    return leveling.depth_mm is not None and not leveling.lows and not leveling.survey and not parts


def settle_of(case: Case) -> float:
    """By which share loose material settles here."""
    told = case.brief.leveling.settle_percent
    if told is not None:
        return told / 100
    deep = case.plan.lawn.depth_mm > case.book.si("open_ground.settles_fast") + MM
    lifts = is_open_ground(case) and deep
    return case.book.si("topdress.settle_deep" if lifts else "topdress.settle_allowance")


def _loose(depth: float, area_m2: float, settle: float) -> float:
    return depth / 1000 * area_m2 * (1 + settle)


def weight_follows_volume(case: Case) -> Iterator[Fault]:
    """A pass weighs its volume times the densities of the parts that are bought for it."""
    mixes = [line for line in case.plan.order if line.item == "mix"]
    if not mixes:
        return
    density = sum(
        (part.share or 0.0) * case.book.si(of_material(part.item, "density"))
        for part in mixes[0].parts
    )
    for task in case.to_do("spreading"):
        values = _values(task)
        if "weight" in values and "volume" in values:
            wanted = values["volume"] * density
            if not math.isclose(values["weight"], wanted, rel_tol=SHARE):
                yield fault("weight_differs", task, weight_kg=values["weight"], wanted_kg=wanted)


def barrows_hold_volume(case: Case) -> Iterator[Fault]:
    """The barrow loads are the fewest that hold the volume."""
    barrow = case.book.si("labour.barrow")
    for task in case.to_do("spreading"):
        values = _values(task)
        if "barrow loads" in values and "volume" in values:
            least = math.ceil(values["volume"] / barrow - 1e-4)
            if values["barrow loads"] != least:
                yield fault("barrows_too_few", task, loads=values["barrow loads"], wanted=least)


def seed_follows_rate(case: Case) -> Iterator[Fault]:
    """Seed is its rate over what is sown, more where not all of it lives, with a part of it held
    back."""
    seeding = case.brief.seeding
    share = _patched(case)
    least = share * max(0.0, 1 - _unsown(case, surely=False))
    most = share * (1 - _unsown(case, surely=True))
    live = live_share(seeding)
    reserve = case.book.si("seeding.reserve")
    for task in case.to_do("sowing"):
        values = _values(task)
        if "seed" not in values or "seed rate" not in values:
            continue
        told_m2 = values.get("sown area")
        wanted, fewest = (
            values["seed rate"] * (told_m2 or case.plan.lawn.area_m2 * part) / 1000 / live
            for part in (most, least)
        )
        held = values.get("seed held back", 0.0)
        sown = fewest * (1 - SHARE) <= values["seed"] <= wanted * (1 + SHARE)
        if not sown or not math.isclose(held, values["seed"] * reserve, rel_tol=SHARE):
            yield fault(
                "seed_differs", task, seed_kg=values["seed"], wanted_kg=wanted, held_kg=held
            )


def _patched(case: Case) -> float:
    """The share of a lawn that is patched; all of any other."""
    if case.brief.seeding.intent != "patch" or is_open_ground(case):
        return 1.0
    return case.brief.lawn.thin_share or case.book.si("seeding.patch_share")


def _unsown(case: Case, *, surely: bool) -> float:
    """The share of the lawn that is not sown: septic field and dog run surely, parts and zones in
    shade where no grass that is sown here lives in it."""
    area = case.plan.lawn.area_m2
    lawn, never = case.brief.lawn, ("septic_field", "dog_run")
    parts = sum(
        part.share or (part.area_m2 or 0.0) / area
        for part in lawn.part
        if part.kind in never
        or (not surely and (part.kind == "shade" or part.sun_hours is not None))
    )
    shaded = not surely and any(shape.sun == "shade" for shape in lawn.shape)
    return 1.0 if shaded else parts


def _values(task: Task) -> Mapping[str, float]:
    """The SI values of the amounts of a task by item."""
    return {amount.item: amount.value for amount in task.amounts}


INVARIANTS = (
    amounts_positive,
    twins_agree,
    totals_agree,
    volume_follows_depth,
    weight_follows_volume,
    barrows_hold_volume,
    seed_follows_rate,
)
