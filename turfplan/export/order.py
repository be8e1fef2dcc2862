"""Writes the order sheet for the supplier with the delivery card for the day."""

from collections.abc import Iterable
from dataclasses import dataclass

from turfplan.export.sheets import look_of, made_text, plain_name, short_name, shown, span_text
from turfplan.export.templates import render
from turfplan.plan import OrderLine, Plan, Task
from turfplan.units import System, format_number, pretty_unit
from turfplan.wording import bought_text, day_text, item_text

RECEIVING = ("delivery", "dry_material")


@dataclass(frozen=True, slots=True)
class PartView:
    """One component of what is bought."""

    item: str
    amount: str
    share: str


@dataclass(frozen=True, slots=True)
class LineView:
    """One thing to buy as the sheet shows it."""

    anchor: str
    name: str
    amount: str
    line: OrderLine
    order_by: str
    deliver_by: str
    parts: tuple[PartView, ...]
    loads: tuple[str, ...]


def order_html(plan: Plan, paper: str | None = None, large: bool = False) -> str:
    """The order sheet and, on its own page, the delivery card; a page that stands alone. `paper` is letter or a4."""
    name = plain_name(plan.lawn.name)
    return render(
        "print/order.html.jinja",
        plan=plan,
        lines=order_lines(plan),
        receiving=receiving(plan.tasks, plan.lawn.units),
        name=name,
        short=short_name(name),
        look=look_of(plan, paper, large=large),
        made=made_text(plan),
    )


def order_lines(plan: Plan) -> tuple[LineView, ...]:
    """What is bought, the earliest order first."""
    lines = sorted(plan.order, key=lambda line: (line.order_by, line.deliver_by, line.item))
    return tuple(_line(number, line, plan.lawn.units) for number, line in enumerate(lines, start=1))


def _line(number: int, line: OrderLine, system: System) -> LineView:
    return LineView(
        anchor=f"order-{number}",
        name=line.name or item_text(line.item),
        amount=bought_text(line.value, line.unit, line.value_us, line.unit_us, system),
        line=line,
        order_by=day_text(line.order_by, system),
        deliver_by=day_text(line.deliver_by, system),
        parts=tuple(
            PartView(
                item_text(part.item),
                bought_text(part.value, part.unit, part.value_us, part.unit_us, system),
                f"{part.share:.0%}" if part.share is not None else "",
            )
            for part in line.parts
        ),
        loads=_loads(line, system),
    )


def _loads(line: OrderLine, system: System) -> tuple[str, ...]:
    """The truck loads in the unit the line is sold in; loads are kept in the SI unit of the line."""
    if system is System.US and line.value:
        return tuple(
            f"{format_number(load * line.value_us / line.value)} {pretty_unit(line.unit_us)}" for load in line.loads
        )
    return tuple(f"{format_number(load)} {pretty_unit(line.unit)}" for load in line.loads)


def receiving(tasks: Iterable[Task], system: System) -> tuple[tuple[Task, str], ...]:
    """The tasks of the day of delivery that are still to come, each with its day."""
    return tuple(
        (task, span_text(task.start, task.end, system))
        for task in shown(tasks)
        if task.operation in RECEIVING and task.closed is None
    )
