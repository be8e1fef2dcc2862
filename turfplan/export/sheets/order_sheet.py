"""Writes the order sheet for the supplier with a card for each day of delivery."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from turfplan.allotment import allotted
from turfplan.export.sheets.look import look_of, on_every_page, shown
from turfplan.export.templates import capital, render, sentence
from turfplan.message import Listed, Message, Number, Sold, listed
from turfplan.messages import Words
from turfplan.messages.entry import item_name
from turfplan.phrases import order_sheet as phrases
from turfplan.records.items import OrderItem
from turfplan.records.plan import OrderLine, Plan
from turfplan.records.plan_task import Task
from turfplan.units import System

# What is hired is told by its jobs, not in pieces.
HIRED: Final[OrderItem] = "machine"
# In what steps parts of a line are told, by its unit: in the first that the whole is made of, else
# in the last.
PART_STEPS = {"m3": (0.05, 0.01), "kg": (0.1,)}


# What a whole may be off from whole steps: the decimals that plan.json keeps.
EVEN = 1e-3


@dataclass(frozen=True, slots=True)
class LineView:
    """One thing to buy as the sheet shows it."""

    anchor: str
    name: str
    amount: str
    heading: str
    quote: str
    line: OrderLine
    order_by: str
    deliver_by: str
    made_of: str
    loads: tuple[str, ...]
    all_loads: str
    same_questions: str | None


@dataclass(frozen=True, slots=True)
class Card:
    """What comes on one day, with the tasks of receiving it."""

    anchor: str
    day: str
    lines: tuple[LineView, ...]
    tasks: tuple[Task, ...]


def order_html(plan: Plan, words: Words, paper: str | None = None, large: bool = False) -> str:
    """The order sheet and a card for each day of delivery.

    A page that stands alone. `paper` is letter or a4.
    """
    lines = order_lines(plan, words)
    return render(
        "print/order.html.jinja",
        words,
        lines=lines,
        cards=delivery_cards(plan, lines, words),
        **on_every_page(plan, words, look_of(plan, paper, large=large)),
    )


def order_lines(plan: Plan, words: Words) -> tuple[LineView, ...]:
    """What is bought, the earliest order first; equal questions are printed once."""
    views: list[LineView] = []
    asked: dict[tuple[Message, ...], str] = {}
    for line in sorted(plan.order, key=lambda line: (line.order_by, line.deliver_by, line.item)):
        view = _line(len(views) + 1, line, asked.get(line.questions), words)
        asked.setdefault(line.questions, view.heading)
        views.append(view)
    return tuple(views)


def _line(number: int, line: OrderLine, same_questions: str | None, words: Words) -> LineView:
    name = line.name.text or words.text(item_name(line.item))
    amount = words.value(Sold(line.value, line.unit, line.value_us, line.unit_us))
    if line.item == HIRED:
        amount = line.text.text
    loads = _loads(line)
    return LineView(
        anchor=f"order-{number}",
        name=capital(name),
        amount=amount,
        heading=words.text(_heading(line, name)),
        quote=sentence(line.text.text) if line.text.text != amount else "",
        line=line,
        order_by=words.day(line.order_by),
        deliver_by=words.day(line.deliver_by),
        made_of=words.value(listed(_parts(line, words.system), "comma"))
        if len(line.parts) > 1
        else "",
        loads=tuple(words.value(load) for load in loads.items),
        all_loads=words.value(loads),
        same_questions=same_questions,
    )


def _heading(line: OrderLine, name: str) -> Message:
    """How much of what; what is counted needs no word for one of it: 1,950 plugs."""
    if line.unit == "pieces":
        number = Sold(line.value, "", line.value_us, "")
        return phrases.counted(number=number, what=name)
    amount = Sold(line.value, line.unit, line.value_us, line.unit_us)
    return phrases.amount_of(amount=amount, what=name)


def _parts(line: OrderLine, system: System) -> Iterator[Message]:
    """The components of what is bought, each with its share where it is one of a mix; they add up
    to the line."""
    us, steps = system is System.US, PART_STEPS.get(line.unit)
    values = [part.value_us if us else part.value for part in line.parts]
    if steps is not None:
        whole = line.value_us if us else line.value
        step = next((s for s in steps if abs(whole / s - round(whole / s)) < EVEN), steps[-1])
        values = list(allotted(values, step, whole))
    for part, value in zip(line.parts, values, strict=True):
        item = item_name(part.item)
        amount = Sold(value, part.unit, value, part.unit_us)
        if part.share is None:
            yield phrases.part(item=item, amount=amount)
        else:
            share = Number(part.share, "percent")
            yield phrases.part_share(item=item, amount=amount, share=share)


def _loads(line: OrderLine) -> Listed:
    """The truck loads in the unit the line is sold in.

    Loads are kept in the SI unit of the line.
    """
    loads = (
        (load, load * line.value_us / line.value if line.value else load) for load in line.loads
    )
    return listed((Sold(si, line.unit, us, line.unit_us) for si, us in loads), "comma")


def delivery_cards(plan: Plan, lines: Sequence[LineView], words: Words) -> tuple[Card, ...]:
    """A card for each day on which something is tipped or checked: what comes, and how it is
    received.
    """
    brought = [view for view in lines if view.loads or view.line.acceptance]
    deliveries = [
        task for task in shown(plan.tasks) if task.plays("delivery") and task.closed is None
    ]
    days = sorted({view.line.deliver_by for view in brought} | {task.start for task in deliveries})
    return tuple(
        Card(
            anchor=f"delivery-{day.isoformat()}",
            day=words.day(day),
            lines=tuple(view for view in brought if view.line.deliver_by == day),
            tasks=tuple(task for task in deliveries if task.start == day),
        )
        for day in days
    )
