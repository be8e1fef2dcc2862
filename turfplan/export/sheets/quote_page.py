"""Writes a quote as a page: its choices side by side, what is done, assumed, and agreed since."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from turfplan.business.business_record import Business
from turfplan.business.client_record import Client
from turfplan.business.quote_record import LineKind, Quote, QuoteChoice, QuotedJob, QuoteLine
from turfplan.export.sheets.look import Look, Paper, plain_name
from turfplan.export.templates import render, stylesheet
from turfplan.message import Listed, Message, Month, Sold, listed
from turfplan.messages import Words
from turfplan.phrases import quotes as phrases

# So many months of what moves are named; of more the first and the last.
MOST_MONTHS = 2


@dataclass(frozen=True, slots=True)
class QuoteRow:
    """A row of the table: what, and for each choice how much of it at which price; one cell for
    all choices where it is the same for them (`span`)."""

    name: str
    cells: tuple[tuple[str, str], ...]
    span: int = 1


@dataclass(frozen=True, slots=True)
class ChoiceView:
    """A choice in words, its jobs by their months.

    Of a second or third one, where none is taken, what it has otherwise than the first (`differs`),
    in which months it has work of the first that comes at another time (`moved`), and what of the
    first it has not (`without`).
    """

    name: str
    taken: bool
    differs: bool
    jobs: tuple[tuple[str, str], ...]
    moved: str
    without: tuple[str, ...]
    yours: tuple[str, ...]
    unpriced: tuple[str, ...]
    assumed: tuple[str, ...]
    may_change: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class QuoteChangeView:
    """A later change in words, with its price before tax and with it."""

    name: str
    text: str
    net: str
    total: str


def quote_html(
    quote: Quote, business: Business | None, client: Client, today: date, words: Words, paper: Paper
) -> str:
    """The quote as a page that stands alone: to its client, with the address of the lawn; of the
    client's record nothing else is on it."""
    name = plain_name(business.name, words) if business is not None else ""
    address = (business.address if business is not None else None) or ""
    telephone = (business.telephone if business is not None else None) or ""
    views = tuple(_choice(quote, place, words) for place in range(len(quote.choices)))
    return render(
        "print/quote.html.jinja",
        words,
        look=Look(paper, False, stylesheet()),
        business=name,
        sender=tuple(
            plain_name(text, words)
            for text in (address, telephone, *(business.lines if business is not None else ()))
            if text
        ),
        client=plain_name(client.name, words) if client.name else "",
        street=plain_name(client.address, words) if client.address else "",
        number=quote.number,
        currency=quote.rates.currency,
        state=tuple(words.text(line) for line in _state(quote, today, words)),
        choices=views,
        chosen=tuple(view for view in views if view.taken) or views,
        rows=_rows(quote, words),
        sums=_sums(quote, words),
        later=tuple(
            QuoteChangeView(
                words.text(phrases.page_change(number=one.number, day=words.day(one.on))),
                plain_name(one.text, words),
                _money(one.net, quote, words),
                _money(one.total, quote, words),
            )
            for one in quote.later
        ),
        total=_money(quote.total, quote, words),
        terms=tuple(plain_name(line, words) for line in quote.terms),
        pay_days=quote.pay_days,
        is_open=quote.state(today) == "offered",
    )


def _state(quote: Quote, today: date, words: Words) -> tuple[Message, ...]:
    """Of which day it is, and until when it holds or what became of it."""
    told = [phrases.page_of(day=words.day(quote.on))]
    said_on = words.day(quote.said_on) if quote.said_on is not None else ""
    match quote.state(today):
        case "accepted":
            told.append(phrases.page_accepted_on(day=said_on))
        case "declined":
            told.append(phrases.page_declined_on(day=said_on))
        case state:
            if quote.until is not None:
                day = words.day(quote.until)
                ran_out = state == "run_out"
                over, until = phrases.page_ran_out_on(day=day), phrases.page_until(day=day)
                told.append(over if ran_out else until)
    return tuple(told)


def choice_name(choice: QuoteChoice) -> Message | str:
    """What a choice is called: the change of the brief that it is, else that it is as planned."""
    return choice.name or phrases.first_choice()


def _choice(quote: Quote, place: int, words: Words) -> ChoiceView:
    """A choice; of the second and third what the first does not say of itself."""
    choice = quote.choices[place]
    told = quote.choices[0] if place and quote.accepted is None else None

    def new(texts: Sequence[str], before: Sequence[str]) -> tuple[str, ...]:
        return tuple(text for text in texts if text not in before)

    before = told.jobs if told is not None else ()
    stands = {(job.title, _month(job)) for job in before}
    titles, own = {job.title for job in before}, {_kind(job) for job in before}
    kinds = {_kind(job) for job in choice.jobs}
    other = [job for job in choice.jobs if (job.title, _month(job)) not in stands]
    # What is only smaller, larger or later is told by its month alone, but for the main work.
    moved = [job for job in other if job.title in titles or (_kind(job) in own and not job.main)]
    jobs = [job for job in other if job not in moved]
    gone = [_named(job) for job in before if _kind(job) not in kinds]
    same = told is not None and set(told.by_client) == set(choice.by_client)
    return ChoiceView(
        name=f"{place + 1}: {words.text(choice_name(choice))}",
        taken=quote.accepted == place,
        differs=told is not None,
        jobs=_by_months(jobs, words),
        moved=words.text(phrases.page_moved(months=_months(moved, words))) if moved else "",
        without=tuple(dict.fromkeys(gone)),
        yours=() if same else choice.by_client,
        unpriced=new(choice.unpriced, told.unpriced if told is not None else ()),
        assumed=new(choice.assumed, told.assumed if told is not None else ()),
        may_change=new(choice.may_change, told.may_change if told is not None else ()),
    )


def _named(job: QuotedJob) -> str:
    """Main work with what is done of it, all else by its name: the letter tells how."""
    return job.title if job.main or not job.name else job.name


def _kind(job: QuotedJob) -> str:
    """What a job is, whichever pass of it."""
    return job.task.partition(".")[0]


def _month(job: QuotedJob) -> tuple[int, int]:
    return job.start.year, job.start.month


def _months(jobs: Sequence[QuotedJob], words: Words) -> Listed:
    """The months in which jobs begin."""
    months = sorted({_month(job) for job in jobs})
    if len(months) <= MOST_MONTHS:
        return listed(_month_texts(months, words))
    first, last = _month_texts((months[0], months[-1]), words)
    return listed([words.text(phrases.page_months(first=first, last=last))])


def _month_texts(months: Sequence[tuple[int, int]], words: Words) -> list[str]:
    """Months in their order, each year told once."""
    told, before = list[str](), 0
    for year, number in months:
        month = Month(number)
        same = phrases.page_month_alone(month=month)
        text = same if year == before else phrases.page_month(month=month, year=str(year))
        told.append(words.text(text))
        before = year
    return told


def _by_months(jobs: Sequence[QuotedJob], words: Words) -> tuple[tuple[str, str], ...]:
    """Jobs in their order by the month in which they begin: the days of a season are told by the
    letter, once it is agreed."""
    titles: dict[tuple[int, int], list[str]] = {}
    for job in jobs:
        told = titles.setdefault(_month(job), [])
        named = _named(job)
        if named not in told:
            told.append(named)
    return tuple(
        (month, words.value(listed(told, "semicolon")))
        for month, told in zip(_month_texts(tuple(titles), words), titles.values(), strict=True)
    )


def _rows(quote: Quote, words: Words) -> tuple[QuoteRow, ...]:
    """Every line that any choice has, once, with that of each choice."""
    found: list[Mapping[tuple[LineKind, str], QuoteLine]] = [
        {(line.kind, line.name): line for line in choice.lines} for choice in quote.choices
    ]
    keys = dict.fromkeys(key for lines in found for key in lines)
    return tuple(
        _row(
            _line_name(*key, _unit_price(key, found, quote, words), words),
            [_cell(lines.get(key), quote, words) for lines in found],
        )
        for key in keys
    )


def _row(name: str, cells: Sequence[tuple[str, str]]) -> QuoteRow:
    """A row, with one cell where all are alike."""
    alike = len(set(cells)) == 1
    return QuoteRow(name, (cells[0],), len(cells)) if alike else QuoteRow(name, tuple(cells))


def _cell(line: QuoteLine | None, quote: Quote, words: Words) -> tuple[str, str]:
    if line is None:
        return "", ""
    price = _money(line.price, quote, words)
    if line.kind == "minimum":
        return "", price
    quantity = float(line.quantity)
    amount = words.value(Sold(quantity, line.unit, quantity, line.unit))
    return amount, price


def _unit_price(
    key: tuple[LineKind, str],
    found: Sequence[Mapping[tuple[LineKind, str], QuoteLine]],
    quote: Quote,
    words: Words,
) -> str:
    """What one of it costs: the same list holds for all choices."""
    line = next(lines[key] for lines in found if key in lines)
    return _money(line.unit_price, quote, words)


def _line_name(kind: LineKind, name: str, each: str, words: Words) -> str:
    """What a line is, with the price of one."""
    match kind:
        case "people":
            return words.text(phrases.page_people(price=each))
        case "machine":
            return words.text(phrases.page_machine(name=plain_name(name, words), price=each))
        case "delivery":
            return words.text(phrases.page_delivery(price=each))
        case "minimum":
            return words.text(phrases.page_minimum())
        case "material":
            return words.text(phrases.page_material(name=name, price=each))


def _sums(quote: Quote, words: Words) -> tuple[QuoteRow, ...]:
    """The sum, the tax and the total of each choice."""
    rates = quote.rates
    percent = f"{rates.tax_percent.normalize():f}"

    def row(name: str, values: Sequence[Decimal]) -> QuoteRow:
        return _row(name, [("", _money(value, quote, words)) for value in values])

    rows = [row(words.text(phrases.page_net()), [one.net for one in quote.choices])]
    if rates.tax_name:
        tax = words.text(phrases.page_tax(name=plain_name(rates.tax_name, words), percent=percent))
        rows.append(row(tax, [one.tax for one in quote.choices]))
    rows.append(row(words.text(phrases.page_total()), [one.total for one in quote.choices]))
    return tuple(rows)


def _money(value: Decimal, quote: Quote, words: Words) -> str:
    """A sum in whole minor units of the currency, which the table names once; a price that has
    finer parts keeps them."""
    least = Decimal(1).scaleb(-quote.rates.minor_digits)
    shown = value.quantize(least) if value == value.quantize(least) else value
    return words.money(shown, "").strip()
