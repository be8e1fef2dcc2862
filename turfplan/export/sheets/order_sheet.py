"""Writes the order as what each of its readers needs: what to buy by date, whom to call about what,
a page for each supplier, and cards for the gate.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final, TypeVar

from turfplan.allotment import allotted
from turfplan.export.sheets.look import look_of, on_every_page, shown
from turfplan.export.sheets.order_money import money_told, total_told
from turfplan.export.sheets.plants_by_day import by_days
from turfplan.export.sheets.said_once import SaidOnce
from turfplan.export.templates import capital, render, sentence
from turfplan.message import Listed, Message, Number, Sold, listed
from turfplan.messages import Words
from turfplan.messages.entry import item_name
from turfplan.phrases import order_sheet as phrases
from turfplan.records.items import OrderItem
from turfplan.records.plan import OrderLine, Plan
from turfplan.records.plan_task import Task
from turfplan.units import HALF_HUNDREDTH, System

# What is hired is told by its jobs, not in pieces.
HIRED: Final[OrderItem] = "machine"
# What a supplier brings, and what has a tag to be kept.
DELIVERED: Final[frozenset[OrderItem]] = frozenset({"mix", "topsoil", "sod", "plugs", "sprigs"})
TAGGED: Final[OrderItem] = "seed"
# What lives: it is set down in the shade, not under a tarp.
LIVING: Final[frozenset[OrderItem]] = frozenset({"sod", "plugs", "sprigs"})
# In what steps parts of a line are told, by its unit: in the first that the whole is made of, else
# in the last. Bags of 5 L make half hundredths of a cubic metre.
PART_STEPS = {"m3": (0.05, HALF_HUNDREDTH, 0.01), "yd3": (0.05, 0.01), "kg": (0.1,)}


# The step of receiving a load that says what to look at: the checks of what comes ask that one by
# one.
LOOKS = frozenset(
    {"book.operations.delivery.how.1", "level.compost.look", "ground_fill.delivery_look"}
)
# What a whole may be off from whole steps: the decimals that plan.json keeps.
EVEN = 1e-3
Item = TypeVar("Item")


@dataclass(frozen=True, slots=True)
class LineView:
    """One thing to buy as the sheets show it."""

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
    bags: tuple[str, ...]
    by_days: str
    cost: str

    @property
    def delivered(self) -> bool:
        """Whether a supplier brings it."""
        return self.line.item in DELIVERED and not self.bags

    @property
    def beyond(self) -> str:
        """What a supplier is told beside the amount: its weight, its loads."""
        return self.quote.removeprefix(self.amount).strip()

    @property
    def tagged(self) -> bool:
        """Whether it has a tag whose figures are kept."""
        return self.line.item == TAGGED


@dataclass(frozen=True, slots=True)
class SupplierPage:
    """What one supplier is asked for: its lines, how much that is in all, what is checked at the
    gate.

    `estimates` say why it is not to be ordered yet; none where it may be.
    """

    anchor: str
    name: str
    total: str
    lines: tuple[LineView, ...]
    checks: tuple[str, ...]
    estimates: tuple[str, ...]

    @property
    def check_columns(self) -> tuple[tuple[str, ...], ...]:
        """The checks side by side."""
        return side_by_side(self.checks, len)

    @property
    def is_mixed(self) -> bool:
        """Whether it asks for what is made of several things."""
        return any(line.made_of for line in self.lines)


@dataclass(frozen=True, slots=True)
class Call:
    """What to ask of whoever sells one thing."""

    name: str
    questions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Card:
    """What comes on one day, with the tasks of receiving it and what is looked at, each once.

    `minded` are the cautions of its tasks that neither stop nor protect anybody.
    """

    anchor: str
    day: str
    lines: tuple[LineView, ...]
    tasks: tuple[Task, ...]
    steps: tuple[str, ...]
    brought: tuple[LineView, ...]
    minded: frozenset[str]

    @property
    def in_bags(self) -> bool:
        """Whether all of it is fetched in bags: no truck comes, nothing is tipped."""
        return bool(self.brought) and all(view.bags for view in self.brought)

    @property
    def living(self) -> bool:
        """Whether all of it is plants."""
        return bool(self.brought) and all(view.line.item in LIVING for view in self.brought)


@dataclass(frozen=True, slots=True)
class WhySoMuch:
    """Why so much is bought of what has these headings."""

    headings: tuple[str, ...]
    reason: str


@dataclass(frozen=True, slots=True)
class OrderView:
    """The whole order, for each of its readers: `fetched` are the cards of what is not brought."""

    lines: tuple[LineView, ...]
    total: str
    without_price: bool
    estimates: tuple[str, ...]
    reasons: tuple[WhySoMuch, ...]
    suppliers: tuple[SupplierPage, ...]
    calls: tuple[Call, ...]
    fetched: tuple[Card, ...]
    cards: tuple[Card, ...]

    @property
    def reason_columns(self) -> tuple[tuple[WhySoMuch, ...], ...]:
        """The reasons side by side."""
        return side_by_side(self.reasons, lambda why: len("".join((*why.headings, why.reason))))


def side_by_side(
    items: Sequence[Item], length: Callable[[Item], int]
) -> tuple[tuple[Item, ...], ...]:
    """Items in two columns as even as their order lets them be, by the letters of each; in one
    where there is but one."""
    # Columns that a stylesheet balances are laid out again and again, for as much as a page more.
    lengths = [length(item) for item in items]
    half = min(
        range(1, len(items)),
        key=lambda n: max(sum(lengths[:n]), sum(lengths[n:])),
        default=len(items),
    )
    return tuple(part for part in (tuple(items[:half]), tuple(items[half:])) if part)


def order_html(plan: Plan, words: Words, paper: str | None = None, large: bool = False) -> str:
    """The shopping list, the call sheet, a page for each supplier, a card for each day of delivery.

    A page that stands alone. `paper` is letter or a4.
    """
    return render(
        "print/order.html.jinja",
        words,
        order=order_view(plan, words),
        **on_every_page(plan, words, look_of(plan, paper, large=large)),
    )


def order_view(plan: Plan, words: Words) -> OrderView:
    """The order of a plan in the words of its reader."""
    lines = order_lines(plan, words)
    cards = delivery_cards(plan, lines, words)
    return OrderView(
        lines=lines,
        total=total_told(plan, words),
        without_price=any(line.cost is None for line in plan.order),
        estimates=_estimates(lines),
        reasons=tuple(_reasons(lines)),
        suppliers=tuple(_suppliers(lines, words)),
        calls=tuple(_calls(lines)),
        fetched=tuple(card for card in cards if not card.tasks),
        cards=tuple(card for card in cards if card.tasks),
    )


def order_lines(plan: Plan, words: Words) -> tuple[LineView, ...]:
    """What is bought, the earliest order first."""
    ordered = sorted(plan.order, key=lambda line: (line.order_by, line.deliver_by, line.item))
    return tuple(_line(n, line, plan, words) for n, line in enumerate(ordered, 1))


def _line(number: int, line: OrderLine, plan: Plan, words: Words) -> LineView:
    name = line.name.text or words.text(item_name(line.item))
    bags = tuple(_bags(line))
    amount = words.value(Sold(line.value, line.unit, line.value_us, line.unit_us))
    if line.item == HIRED:
        amount = line.text.text
    loads = _loads(line)
    return LineView(
        anchor=f"order-{number}",
        name=capital(words.text(phrases.in_bags(what=name)) if bags else name),
        amount=amount,
        heading=words.text(_heading(line, name, bool(bags))),
        quote=line.text.text if line.text.text != amount else "",
        line=line,
        order_by=words.day(line.order_by),
        deliver_by=words.day(line.deliver_by),
        made_of=words.value(listed(_parts(line, words.system), "comma"))
        if len(line.parts) > 1
        else "",
        loads=tuple(words.value(load) for load in loads.items),
        all_loads=words.value(loads),
        bags=bags,
        by_days=by_days(plan, line, words) if line.item in LIVING else "",
        cost=money_told(line.cost, plan.currency, words) if line.cost is not None else "",
    )


def _heading(line: OrderLine, name: str, bagged: bool) -> Message:
    """How much of what; what is counted needs no word for one of it: 1,950 plugs."""
    if line.unit == "pieces":
        number = Sold(line.value, "", line.value_us, "")
        return phrases.counted(number=number, what=name)
    amount = Sold(line.value, line.unit, line.value_us, line.unit_us)
    return (phrases.bags_for if bagged else phrases.amount_of)(amount=amount, what=name)


def _bags(line: OrderLine) -> Iterator[str]:
    """So many bags of each material, where no truck brings what comes by the load."""
    if line.item in DELIVERED - LIVING and not line.loads:
        each = tuple(part.bags.text for part in line.parts if part.bags.text)
        yield from each or (line.text.text,)


def _parts(line: OrderLine, system: System) -> Iterator[Message]:
    """The components of what is bought, each with its share where it is one of a mix; they add up
    to the line."""
    us = system is System.US
    steps = PART_STEPS.get(line.unit_us if us and line.unit_us in PART_STEPS else line.unit)
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


def _suppliers(lines: Sequence[LineView], words: Words) -> Iterator[SupplierPage]:
    """A page for each thing that a supplier brings."""
    groups: dict[tuple[str, str], list[LineView]] = {}
    for view in lines:
        if view.delivered:
            groups.setdefault((view.line.item, view.name), []).append(view)
    for number, views in enumerate(groups.values(), 1):
        first, said = views[0].line, SaidOnce()
        total = Sold(
            round(sum(view.line.value for view in views), 6),
            first.unit,
            round(sum(view.line.value_us for view in views), 6),
            first.unit_us,
        )
        yield SupplierPage(
            anchor=f"supplier-{number}",
            name=first.name.text or words.text(item_name(first.item)),
            total=words.value(total),
            lines=tuple(views),
            checks=said.all_new(a.text for view in views for a in view.line.acceptance),
            estimates=_estimates(views),
        )


def _estimates(views: Iterable[LineView]) -> tuple[str, ...]:
    said = (view.line.estimate for view in views)
    return tuple(dict.fromkeys(estimate.text for estimate in said if estimate is not None))


def _reasons(lines: Sequence[LineView]) -> Iterator[WhySoMuch]:
    """The reason of each line; what has the same one shares it, and no sentence is said again."""
    headings: dict[str, list[str]] = {}
    for view in lines:
        headings.setdefault(view.line.reason.text, []).append(view.heading)
    said = SaidOnce()
    for reason, named in headings.items():
        yield WhySoMuch(tuple(dict.fromkeys(named)), said.new_of(reason) or reason)


def _calls(lines: Sequence[LineView]) -> Iterator[Call]:
    """Each open question once and whole, under the first thing that it is asked about."""
    said, asked = SaidOnce(), dict[str, list[str]]()
    for view in lines:
        for question in (q.text for q in view.line.questions):
            if said.new_of(question):
                asked.setdefault(view.name, []).append(question)
    for name, questions in asked.items():
        yield Call(name, tuple(questions))


def delivery_cards(plan: Plan, lines: Sequence[LineView], words: Words) -> tuple[Card, ...]:
    """A card for each day on which something is tipped or checked: what comes, and how it is
    received.
    """
    brought = [view for view in lines if view.loads or view.line.acceptance]
    deliveries = [
        task for task in shown(plan.tasks) if task.plays("delivery") and task.closed is None
    ]
    days = sorted(
        {view.line.deliver_by for view in brought}
        | {view.line.deliver_by for view in lines if view.tagged}
        | {task.start for task in deliveries}
    )
    guarding = {note.text.text for note in plan.ranked if note.rank in ("stop", "safety")}
    minded = frozenset(
        caution.text
        for task in deliveries
        for caution in task.cautions
        if caution.text not in guarding
    )
    return tuple(_card(day, lines, deliveries, minded, words) for day in days)


def _card(
    day: date,
    lines: Sequence[LineView],
    deliveries: Sequence[Task],
    minded: frozenset[str],
    words: Words,
) -> Card:
    tasks = tuple(task for task in deliveries if task.start == day)
    views = tuple(
        view
        for view in lines
        if view.line.deliver_by == day and (view.loads or view.line.acceptance or view.tagged)
    )
    checks = [a.text for view in views for a in view.line.acceptance]
    told = [step for task in tasks for step in task.how if not (checks and step.key in LOOKS)]
    steps = SaidOnce().all_new([*checks, *(sentence(step.text) for step in told)])
    brought = tuple(v for v in lines if v.line.deliver_by == day and v.line.item in DELIVERED)
    anchor = f"delivery-{day.isoformat()}"
    return Card(anchor, words.day(day), views, tasks, steps, brought, minded)
