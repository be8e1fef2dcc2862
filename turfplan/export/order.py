"""Writes the order sheet for the supplier with a card for each day of delivery."""

from collections.abc import Sequence
from dataclasses import dataclass

from turfplan.export.sheets import look_of, made_text, plain_name, short_name, shown
from turfplan.export.templates import render, sentence
from turfplan.plan import OrderLine, Plan, Task
from turfplan.units import System, read_as
from turfplan.wording import bought_text, capital, day_text, item_text

# Loads and parts are told in twentieths of a yard or a metre, as the order's own sentence tells its loads.
PART_STEP = 0.05


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
    heading: str
    said: str
    line: OrderLine
    order_by: str
    deliver_by: str
    parts: tuple[PartView, ...]
    loads: tuple[str, ...]
    same_questions: str | None


@dataclass(frozen=True, slots=True)
class Card:
    """What comes on one day, with the tasks of receiving it."""

    anchor: str
    day: str
    lines: tuple[LineView, ...]
    tasks: tuple[Task, ...]


def order_html(plan: Plan, paper: str | None = None, large: bool = False) -> str:
    """The order sheet and a card for each day of delivery; a page that stands alone. `paper` is letter or a4."""
    name = plain_name(plan.lawn.name)
    lines = order_lines(plan)
    return render(
        "print/order.html.jinja",
        plan=plan,
        lines=lines,
        cards=delivery_cards(plan, lines),
        name=name,
        short=short_name(name),
        look=look_of(plan, paper, large=large),
        made=made_text(plan),
    )


def order_lines(plan: Plan) -> tuple[LineView, ...]:
    """What is bought, the earliest order first; equal questions are printed once."""
    views: list[LineView] = []
    asked: dict[tuple[str, ...], str] = {}
    for line in sorted(plan.order, key=lambda line: (line.order_by, line.deliver_by, line.item)):
        view = _line(len(views) + 1, line, asked.get(line.questions), plan.lawn.units)
        asked.setdefault(line.questions, view.heading)
        views.append(view)
    return tuple(views)


def _line(number: int, line: OrderLine, same_questions: str | None, system: System) -> LineView:
    name, amount = (
        line.name or item_text(line.item),
        bought_text(line.value, line.unit, line.value_us, line.unit_us, system),
    )
    return LineView(
        anchor=f"order-{number}",
        name=capital(name),
        amount=amount,
        # What is counted needs no word for one of it: 1,950 plugs.
        heading=f"{amount.removesuffix(' pieces')} {name}" if line.unit == "pieces" else f"{amount} of {name}",
        said=sentence(line.text) if line.text != amount else "",
        line=line,
        order_by=day_text(line.order_by, system),
        deliver_by=day_text(line.deliver_by, system),
        parts=tuple(
            PartView(
                item_text(part.item),
                _part_text(part.value, part.unit, part.value_us, part.unit_us, system),
                f"{part.share:.0%}" if part.share is not None else "",
            )
            for part in line.parts
        ),
        loads=_loads(line, system),
        same_questions=same_questions,
    )


def _part_text(value: float, unit: str, value_us: float, unit_us: str, system: System) -> str:
    """A part of what is bought: a volume finer than it is sold, and never less than the part."""
    if unit == "m3":
        return read_as(value, "volume", system, "up", step=PART_STEP).text
    return bought_text(value, unit, value_us, unit_us, system)


def _loads(line: OrderLine, system: System) -> tuple[str, ...]:
    """The truck loads in the unit the line is sold in; loads are kept in the SI unit of the line."""
    return tuple(
        _part_text(load, line.unit, load * line.value_us / line.value if line.value else load, line.unit_us, system)
        for load in line.loads
    )


def delivery_cards(plan: Plan, lines: Sequence[LineView]) -> tuple[Card, ...]:
    """A card for each day on which something is tipped or checked: what comes, and how it is received."""
    brought = [view for view in lines if view.loads or view.line.acceptance]
    deliveries = [task for task in shown(plan.tasks) if task.plays("delivery") and task.closed is None]
    days = sorted({view.line.deliver_by for view in brought} | {task.start for task in deliveries})
    return tuple(
        Card(
            anchor=f"delivery-{day.isoformat()}",
            day=day_text(day, plan.lawn.units),
            lines=tuple(view for view in brought if view.line.deliver_by == day),
            tasks=tuple(task for task in deliveries if task.start == day),
        )
        for day in days
    )
