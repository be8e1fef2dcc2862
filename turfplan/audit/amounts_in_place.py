"""Every amount of a task is for the place of that task: no more ground than it says it is for, and
none that is left as it is."""

import math
from collections.abc import Iterator, Sequence

from turfplan.audit.case import Case
from turfplan.audit.faults import Fault, fault
from turfplan.audit.ground_said import ground_m2, sown_m2
from turfplan.audit.open_ground import COVER, FILL, LOOSENED, is_open_ground
from turfplan.message import Message, Quantity
from turfplan.records.book_names import FactName
from turfplan.records.plan import OrderLine
from turfplan.records.plan_task import Task
from turfplan.units import convert, read_as

# What follows a sowing on the ground that is sown.
ON_SEED = ("cover", "roll")
# Ground of rounded rates and masses, as a share and in m2; kilograms as they are written.
SHARE, M2, KG = 2e-3, 0.5, 0.001
# The sentence of the order that says what a product holds, with the fact of how much of it.
HOLDS: dict[str, FactName] = {
    "order.as_potash": "feeding.potash_content",
    "order.as_phosphate": "feeding.phosphate_content",
}


def covers_fit(case: Case) -> Iterator[Fault]:
    """Straw, mats with their pegs, and sod are for the ground of their task."""
    book = case.book
    for task in case.open:
        ground = ground_m2(case, task)
        wanted = {
            "straw": math.ceil(ground * book.si("seeding.straw_bales") - M2 / 100),
            "mat": ground * (1 + book.si("site.mat_overlap")),
            "pegs": math.ceil(ground * book.si("site.mat_pegs") - M2),
            "sod": ground * (1 + book.si("planting.sod_waste")),
        }
        for amount in task.amounts:
            least = wanted.get(amount.item)
            # What is counted is rounded up by one at the most.
            if least is not None and abs(amount.value - least) > max(1.0, SHARE * least):
                yield fault(
                    "taken_for_other_ground",
                    task,
                    item=amount.item,
                    value=amount.value,
                    wanted=float(least),
                    ground_m2=ground,
                )


def seed_fits(case: Case) -> Iterator[Fault]:
    """Seed is for the ground that its sowing says it is for."""
    for task in case.to_do("sowing"):
        sown, ground = sown_m2(case, task), ground_m2(case, task)
        if sown is not None and abs(sown - ground) > M2 + SHARE * ground:
            yield fault("sown_on_other_ground", task, sown_m2=sown, ground_m2=ground)


def none_beside_the_seed(case: Case) -> Iterator[Fault]:
    """Starter, roller and cover go over what is sown, no further."""
    sown = [found for task in case.all("sowing") if (found := sown_m2(case, task)) is not None]
    if sown:
        jobs = (*case.to_do("starter"), *case.jobs(*ON_SEED))
        for task, ground in _beyond(case, jobs, sum(sown)):
            yield fault("beyond_what_is_sown", task, ground_m2=ground, sown_m2=sum(sown))


def none_beside_the_loosened(case: Case) -> Iterator[Fault]:
    """Soil on ground without living grass, and what covers it, lie where it was loosened."""
    loosened = [ground_m2(case, task) for task in case.all_jobs(LOOSENED)]
    if is_open_ground(case) and loosened:
        most = max(loosened)
        for task, ground in _beyond(case, case.jobs(FILL, COVER), most):
            yield fault("beyond_what_is_loosened", task, ground_m2=ground, loosened_m2=most)


def _beyond(case: Case, jobs: Sequence[Task], most_m2: float) -> Iterator[tuple[Task, float]]:
    """The jobs that are for more than so much ground, each with its own."""
    for task in jobs:
        ground = ground_m2(case, task)
        if ground > most_m2 * (1 + SHARE) + M2:
            yield task, ground


def products_hold_what_is_said(case: Case) -> Iterator[Fault]:
    """A line of the order says, and counts, what its product holds, not what was needed."""
    for line in case.plan.order:
        held_kg = _held_kg(case, line)
        if held_kg is None:
            continue
        said = dict(line.text.values)["nutrient"]
        said_kg = said.value if isinstance(said, Quantity) else math.nan
        if not (abs(said_kg - held_kg) <= KG and abs(line.value - held_kg) <= KG):
            yield fault("product_holds_other", item=line.item, said_kg=said_kg, held_kg=held_kg)


def _held_kg(case: Case, line: OrderLine) -> float | None:
    """The nutrient in the product that a line names, as it is sold; None where it names none."""
    content = HOLDS.get(line.text.key) if isinstance(line.text, Message) else None
    product = dict(line.text.values).get("product")
    if content is None or not isinstance(product, Quantity):
        return None
    sold = read_as(product.value, "mass", case.plan.lawn.units, product.rounding)
    return convert(sold.value, sold.unit, "mass") * case.book.si(content)


INVARIANTS = (
    covers_fit,
    seed_fits,
    none_beside_the_seed,
    none_beside_the_loosened,
    products_hold_what_is_said,
)
