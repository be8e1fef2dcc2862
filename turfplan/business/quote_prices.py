"""Prices a plan by a price list, in decimal numbers."""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from decimal import ROUND_HALF_UP, Decimal

from turfplan.business.business_record import Business
from turfplan.business.client_record import Client
from turfplan.business.client_words import WordsOfClient, said_to_client
from turfplan.business.promised_days import UNSEEN
from turfplan.business.quote_record import (
    LineKind,
    MachineRate,
    MaterialRate,
    QuoteChoice,
    QuotedJob,
    QuoteLine,
    Rates,
)
from turfplan.errors import Problem, TurfplanError
from turfplan.message import Message
from turfplan.phrases import quotes as phrases
from turfplan.records.plan import OrderLine, Plan
from turfplan.records.plan_task import Role, Task

# ISO 4217, minor units: those currencies that have not two decimals.
_NO_DECIMALS = frozenset(
    {"BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW"}
    | {"PYG", "RWF", "UGX", "VND", "VUV", "XAF", "XOF", "XPF"}
)
_THREE_DECIMALS = frozenset(["BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"])
_QUANTITY = Decimal("0.01")
_WHOLE = 100
# What the office does beside the lawn is in no price, and no client reads of it; who fetches what
# is on the way, and its hours count.
_OFFICE: tuple[Role, ...] = ("ordering", "calling")
# Which work a machine does, where the book names none for it.
_BY_VOLUME = frozenset({"topdresser", "loader"})


def rates_of(business: Business | None, client: Client) -> Rates:
    """The price list of a client: that of the business, with what was agreed with this client
    alone in its place (`person_hour`, `delivery`, `minimum`, a machine's or a material's name).

    Raises TurfplanError without a price list, for an agreed price of nothing that is in it.
    """
    prices = business.prices if business is not None else None
    if business is None or prices is None:
        hint = phrases.write_prices()
        raise TurfplanError(Problem("business.toml: prices", phrases.no_prices(), hint=hint))
    own = {name.casefold(): _decimal(price) for name, price in client.prices.items()}
    used: set[str] = set()

    def price(name: str, listed: float | None) -> Decimal | None:
        if name.casefold() in own:
            used.add(name.casefold())
            return own[name.casefold()]
        return None if listed is None else _decimal(listed)

    materials = tuple(
        MaterialRate(item=one.item, unit=one.unit, price=price(one.item, one.price) or Decimal(0))
        for one in prices.material
    )
    machines = tuple(
        MachineRate(
            name=one.name,
            kind=one.kind,
            price=cost,
            area_per_hour_m2=one.area_per_hour_m2,
            volume_per_hour_m3=one.volume_per_hour_m3,
        )
        for one in business.machine
        if (cost := price(one.name, one.price_per_hour)) is not None
    )
    rates = Rates(
        currency=prices.currency,
        minor_digits=minor_digits(prices.currency),
        person_hour=price("person_hour", prices.person_hour),
        delivery=price("delivery", prices.delivery),
        minimum=price("minimum", prices.minimum),
        materials=materials,
        machines=machines,
        hours=business.times,
        tax_name=business.tax.name if business.tax is not None else "",
        tax_percent=_decimal(business.tax.percent) if business.tax is not None else Decimal(0),
    )
    if unknown := sorted(set(own) - used):
        where = f"client.toml: prices.{unknown[0]}"
        raise TurfplanError(Problem(where, phrases.not_in_list(), hint=phrases.name_price()))
    return rates


def in_hours_of(plan: Plan, times: Mapping[str, float]) -> Plan:
    """A plan in the hours that its jobs take a business: so many times those of the plan, by
    operation."""
    if not times:
        return plan
    tasks = tuple(
        task.model_copy(update={"person_hours": task.person_hours * times[task.operation]})
        if task.operation in times
        else task
        for task in plan.tasks
    )
    return plan.model_copy(update={"tasks": tasks})


def minor_digits(currency: str) -> int:
    """The decimals of a currency, three letters of ISO 4217."""
    return 0 if currency in _NO_DECIMALS else 3 if currency in _THREE_DECIMALS else 2


def rounded(value: Decimal, rates: Rates) -> Decimal:
    """A sum in whole minor units of the currency; halves go up, away from nothing."""
    return value.quantize(Decimal(1).scaleb(-rates.minor_digits), ROUND_HALF_UP)


def tax_on(net: Decimal, rates: Rates) -> Decimal:
    """The tax on a sum, rounded once."""
    return rounded(net * rates.tax_percent / _WHOLE, rates)


def priced(
    plan: Plan,
    rates: Rates,
    by_client: Collection[str],
    machines_of: Mapping[str, str],
    told: WordsOfClient,
) -> QuoteChoice:
    """A plan, its tasks in the order of the work, with its price: hours of people and machines,
    material, deliveries, the least that is charged, and tax.

    `by_client` are operations that the client does, which are in no price; `machines_of` says by
    which kind of machine an operation is done. Each line is rounded, their sum taxed.
    `told` puts into words what clients are told otherwise than the plan tells it.
    """
    ours = [task for task in _work(plan) if task.operation not in by_client]
    theirs = [task for task in _work(plan) if task.operation in by_client]
    lines, unpriced = list[QuoteLine](), list[str]()
    hours = sum(task.person_hours for task in ours if not task.plays(*_OFFICE))
    if rates.person_hour is not None and hours:
        lines.append(_line("people", "", _decimal(hours), "h", rates.person_hour, rates))
    lines += _machine_lines(ours, plan, rates, machines_of)
    for bought in plan.order:
        line = _material_line(bought, rates)
        if line is not None:
            lines.append(line)
        elif bought.item != "machine":
            unpriced.append(f"{bought.name} {bought.text}".strip())
    loads = sum(len(bought.loads) for bought in plan.order)
    if rates.delivery is not None and loads:
        lines.append(_line("delivery", "", Decimal(loads), "", rates.delivery, rates))
    net = sum((line.price for line in lines), Decimal(0))
    if rates.minimum is not None and net < rates.minimum:
        lines.append(_line("minimum", "", Decimal(1), "", rates.minimum - net, rates))
        net = sum((line.price for line in lines), Decimal(0))
    tax = tax_on(net, rates)
    return QuoteChoice(
        name="",
        jobs=tuple(_job(task, told) for task in ours if not task.plays(*UNSEEN)),
        by_client=tuple(dict.fromkeys(map(_of_client, theirs))),
        lines=tuple(lines),
        unpriced=tuple(unpriced),
        assumed=tuple(_told(plan.assumptions, told.say)),
        may_change=tuple(
            _told((line.estimate for line in plan.order if line.estimate is not None), told.say)
        ),
        net=net,
        tax=tax,
        total=net + tax,
    )


def _told(said: Iterable[Message], say: Callable[[Message], str]) -> dict[str, None]:
    """What a client is told of what a plan assumes, each sentence once."""
    told = ((message, said_to_client(message)) for message in said)
    return dict.fromkeys(
        str(before) if message is before else say(message)
        for before, message in told
        if message is not None
    )


def _work(plan: Plan) -> list[Task]:
    """What is still to be done, in the order in which the plan has it."""
    return [task for task in plan.tasks if task.is_open]


def _of_client(task: Task) -> str:
    """What a client does: a watering is told by its stage, for its minutes change by the week."""
    return str(task.title if task.stage is None else task.stage.name)


def _machine_lines(
    tasks: Collection[Task], plan: Plan, rates: Rates, machines_of: Mapping[str, str]
) -> Iterator[QuoteLine]:
    """The hours of each machine that has a price and does a part of the work: the first of its
    kind in the list."""
    seen: set[str] = set()
    for machine in rates.machines:
        if machine.kind in seen:
            continue
        hours = sum(_machine_hours(machine, task, plan, machines_of) for task in tasks)
        if hours:
            seen.add(machine.kind)
            yield _line("machine", machine.name, _decimal(hours), "h", machine.price, rates)


def _machine_hours(
    machine: MachineRate, task: Task, plan: Plan, machines_of: Mapping[str, str]
) -> float:
    volume = sum(
        amount.value
        for amount in task.amounts
        if amount.item == "volume" and amount.unit == "m3" and task.plays("spreading")
    )
    if machine.kind in _BY_VOLUME:
        return volume / machine.volume_per_hour_m3 if machine.volume_per_hour_m3 else 0.0
    if machines_of.get(task.operation) != machine.kind or not machine.area_per_hour_m2:
        return 0.0
    return plan.lawn.area_m2 / machine.area_per_hour_m2


def _material_line(bought: OrderLine, rates: Rates) -> QuoteLine | None:
    """The line of what is bought, by the name of the material, else by its kind; None where the
    list has no price of it in a unit in which it is bought."""
    names = (str(bought.name).casefold(), bought.item.casefold())
    amounts = {bought.unit: bought.value, bought.unit_us: bought.value_us}
    for name in names:
        for rate in rates.materials:
            if rate.item.casefold() == name and rate.unit in amounts:
                quantity = _decimal(amounts[rate.unit])
                told = str(bought.name)
                return _line("material", told, quantity, rate.unit, rate.price, rates)
    return None


def _line(
    kind: LineKind, name: str, quantity: Decimal, unit: str, price: Decimal, rates: Rates
) -> QuoteLine:
    """A line of hundredths of a unit, rounded to the currency."""
    told = quantity.quantize(_QUANTITY, ROUND_HALF_UP)
    whole = rounded(told * price, rates)
    return QuoteLine(kind=kind, name=name, quantity=told, unit=unit, unit_price=price, price=whole)


def _job(task: Task, told: WordsOfClient) -> QuotedJob:
    return QuotedJob(
        task=task.id,
        title=str(task.title),
        start=task.start,
        end=task.end,
        hours=task.person_hours,
        main=task.plays("headline") and not task.plays(*UNSEEN),
        name="" if task.plays("looking") else told.name(task.operation),
    )


def _decimal(value: float) -> Decimal:
    """A number as it is written, not as its bits are."""
    return Decimal(str(value))
