"""Offers work to clients, and keeps what became of it in the lawn's folder."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

from turfplan.app.chosen_brief import plan_as_chosen, write_choice
from turfplan.app.client_pauses import lawns_meant
from turfplan.app.data_folders import clients_in
from turfplan.app.lawn_journal import entries_of_lawn
from turfplan.app.outputs import words_of
from turfplan.business.business_record import Business
from turfplan.business.client_record import Client
from turfplan.business.client_words import WordsOfClient
from turfplan.business.groups import ClientGroup, in_group
from turfplan.business.quote_prices import in_hours_of, priced, rates_of, rounded, tax_on
from turfplan.business.quote_record import Quote, QuoteChange, QuoteChoice, QuotedJob, Rates
from turfplan.errors import Problem, TurfplanError, did_you_mean, one_of, problem_message
from turfplan.export.sheets.look import in_order_of_work
from turfplan.export.sheets.names import operation_name
from turfplan.files.data_folder import ARCHIVE, QUOTES, lawn_folders
from turfplan.files.kept_record import write_kept
from turfplan.files.lawn_standing import KeptQuotes, read_owners, read_quotes
from turfplan.files.plan_folder import folder_lock
from turfplan.files.reading.book import load_book
from turfplan.files.reading.business import read_business
from turfplan.files.reading.plan import read_plan
from turfplan.message import Message
from turfplan.phrases import clients as of_clients
from turfplan.phrases import quotes as phrases
from turfplan.records.journal import standing
from turfplan.records.plan import Plan

MOST_CHOICES = 3


@dataclass(frozen=True, slots=True)
class QuotedLawn:
    """A lawn with a quote of it, and what must be told of how it was made."""

    folder: Path
    client: Client
    quote: Quote
    notes: tuple[Message, ...] = ()

    @property
    def name(self) -> str:
        """Whose lawn it is, as far as that is known."""
        return self.client.name or self.folder.name


def offer_quote(
    output: Path, lawn: str, today: date, changes: Sequence[str] | None = None
) -> QuotedLawn:
    """Offer a lawn as it is planned, and as its brief would be with some changes (KEY=VALUE, more
    with a semicolon between): up to three choices. Without any (None) the choices of business.toml
    are offered, those of them that can be planned there and are not what is planned anyway.

    Raises TurfplanError for a lawn without a plan, a business without prices, changes that cannot
    be planned; nothing is written then.
    """
    folder, client = _lawn(output, lawn)
    business, plan = read_business(output), _plan(folder)
    rates = rates_of(business, client)
    assert business is not None  # who has rates has a business
    if changes is not None and len(changes) >= MOST_CHOICES:
        raise TurfplanError(Problem("--choice", phrases.most_choices(), changes[-1]))
    choices = [_choice(plan, rates, business).model_copy(update={"revision": plan.revision})]
    notes = list[Message]()

    def chosen(text: str) -> QuoteChoice:
        changed, name, keys = plan_as_chosen(folder, plan, text, today)
        found = _choice(changed, rates, business)
        return found.model_copy(update={"name": name, "changes": keys})

    if changes is not None:
        choices += map(chosen, changes)
    for one in business.choice if changes is None else ():
        try:
            found = chosen(f"{one.name}: {one.changes}")
        except TurfplanError as error:
            reason = problem_message(error.problems[0])
            told = phrases.choice_left_out(client=lawn, choice=one.name, reason=reason)
            notes.append(told)
        else:
            choices += () if any(_alike(found, other) for other in choices) else (found,)
    days = business.terms.offer_days
    with folder_lock(output):
        quote = Quote(
            number=_next_number(output, today),
            on=today,
            until=today + timedelta(days=days) if days is not None else None,
            rates=rates,
            terms=business.terms.lines,
            pay_days=business.terms.pay_days,
            choices=tuple(choices),
        )
        _write(folder, (*read_quotes(folder), quote))
    return QuotedLawn(folder, client, quote, tuple(notes))


def lawns_to_offer(
    output: Path, names: Sequence[str], group: ClientGroup | None
) -> tuple[tuple[str, ...], int]:
    """The lawns that are named, or those of a group (None: all) that have a plan and no quote
    that stands, and how many have one. Raises TurfplanError as `lawns_meant` does."""
    if names:
        return tuple(folder.name for folder in lawns_meant(output, names, group)), 0
    meant = in_group(clients_in(output), group)
    fresh = [
        folder
        for folder in meant
        if not any(quote.said != "withdrawn" for quote in read_quotes(folder))
    ]
    planned = tuple(folder.name for folder in fresh if read_plan(folder) is not None)
    return planned, len(meant) - len(fresh)


def quoted_lawns(output: Path, names: Sequence[str], group: ClientGroup | None) -> tuple[str, ...]:
    """The lawns that are named, else those of a group (None: all) that have a quote that stands.
    Raises TurfplanError as `lawns_meant` does."""
    if names:
        return tuple(folder.name for folder in lawns_meant(output, names, group))
    return tuple(
        folder.name
        for folder in in_group(clients_in(output), group)
        if any(quote.said != "withdrawn" for quote in read_quotes(folder))
    )


def _alike(one: QuoteChoice, other: QuoteChoice) -> bool:
    """Whether two choices are the same work at the same price."""
    return (one.jobs, one.lines, one.by_client) == (other.jobs, other.lines, other.by_client)


def accept_quote(
    output: Path,
    lawn: str,
    today: date,
    number: str | None = None,
    choice: int = 1,
    *,
    late: bool = False,
) -> QuotedLawn:
    """Accept a choice (from 1) of a quote, the latest without a `number`: it is frozen as it was
    offered, and the brief says what the choice changes.

    Raises TurfplanError for one that is not open, one that has run out unless `late`, and a brief
    that was written by hand where the choice changes it; nothing is written then.
    """
    with _changing(output, lawn, number) as (found, write):
        quote = found.quote
        _refuse_closed(quote)
        if quote.state(today) == "run_out" and not late:
            hint = phrases.accept_late()
            raise TurfplanError(Problem(quote.number, phrases.ran_out(), hint=hint))
        if not 1 <= choice <= len(quote.choices):
            known = [str(n) for n in range(1, len(quote.choices) + 1)]
            fault = phrases.which_choice()
            raise TurfplanError(Problem("--choice", fault, str(choice), one_of(known)))
        before = write_choice(found.folder, quote.choices[choice - 1].changes)
        taken = {"said": "accepted", "said_on": today, "accepted": choice - 1}
        return write({**taken, "replaced": before})


def decline_quote(output: Path, lawn: str, today: date, number: str | None = None) -> QuotedLawn:
    """Mark a quote as declined; raises TurfplanError for one that is not open."""
    with _changing(output, lawn, number) as (found, write):
        _refuse_closed(found.quote)
        return write({"said": "declined", "said_on": today})


def undo_quote(output: Path, lawn: str, today: date, number: str | None = None) -> QuotedLawn:
    """Take back what was last said of a quote: its last change; else that it was accepted or
    declined, so that it is open again and the brief says what it said before; else the offer.

    Raises TurfplanError where nothing is left to take back, and as `accept_quote` does.
    """
    with _changing(output, lawn, number) as (found, write):
        quote = found.quote
        if quote.later:
            return write({"later": quote.later[:-1]})
        if quote.said == "withdrawn":
            raise TurfplanError(Problem(quote.number, phrases.not_open(), quote.said))
        if quote.said == "offered":
            return write({"said": "withdrawn", "said_on": today})
        write_choice(found.folder, quote.replaced)
        back: dict[str, object] = {"said": "offered", "said_on": None, "accepted": None}
        return write({**back, "replaced": {}})


def change_quote(
    output: Path,
    lawn: str,
    today: date,
    text: str,
    number: str | None = None,
    price: Decimal | None = None,
) -> QuotedLawn:
    """Add a numbered change to an accepted quote: at a `price` before tax, else at what the plan of
    now costs more or less than all before, by the prices of the quote.

    Raises TurfplanError for a quote that was not accepted, and without a price once work is done:
    the plan holds what is left of it.
    """
    business = read_business(output)
    with _changing(output, lawn, number) as (found, write):
        quote = found.quote
        if quote.said != "accepted" or quote.accepted is None:
            raise TurfplanError(Problem(quote.number, phrases.not_accepted()))
        before = quote.choices[quote.accepted].net
        before += sum((change.net for change in quote.later), Decimal(0))
        if price is None:
            assert business is not None  # a quote is made of its prices
            price = _choice(_unbegun_plan(found.folder), quote.rates, business).net - before
        net = rounded(price, quote.rates)
        tax = tax_on(net, quote.rates)
        count = len(quote.later) + 1
        change = QuoteChange(number=count, on=today, text=text, net=net, tax=tax, total=net + tax)
        return write({"later": (*quote.later, change)})


def list_quotes(output: Path, group: ClientGroup | None = None) -> tuple[QuotedLawn, ...]:
    """All quotes of the lawns of a data folder, by number. Raises TurfplanError for a folder
    without lawns, records that cannot be read, and a group that there is not."""
    clients = clients_in(output)
    found = [
        QuotedLawn(folder, clients[folder], quote)
        for folder in in_group(clients, group)
        for quote in read_quotes(folder)
    ]
    return tuple(sorted(found, key=lambda one: one.quote.number))


def accepted_jobs(folder: Path) -> tuple[QuotedJob, ...]:
    """The jobs of a lawn as they were offered and accepted, those of former owners before."""
    former = [quote for owner in read_owners(folder) for quote in owner.quotes]
    return tuple(
        job
        for quote in (*former, *read_quotes(folder))
        if quote.said == "accepted" and quote.accepted is not None
        for job in quote.choices[quote.accepted].jobs
    )


def quote_of(output: Path, lawn: str, number: str | None = None) -> QuotedLawn:
    """A quote of a lawn, the latest without a `number`; raises TurfplanError where it has none."""
    folder, client = _lawn(output, lawn)
    quotes = {quote.number: quote for quote in read_quotes(folder)}
    if not quotes or (number is not None and number not in quotes):
        hint = did_you_mean(number, quotes) if number is not None else None
        raise TurfplanError(Problem(lawn, phrases.no_quote(), number, one_of(quotes), hint))
    left = [name for name, quote in quotes.items() if quote.said != "withdrawn"]
    return QuotedLawn(folder, client, quotes[number or (left or list(quotes))[-1]])


class _Writer:
    """Writes what becomes of a quote."""

    def __init__(self, found: QuotedLawn) -> None:
        self._found = found

    def __call__(self, update: dict[str, object]) -> QuotedLawn:
        found = self._found
        changed = found.quote.model_copy(update=update)
        known = read_quotes(found.folder)
        quotes = [changed if quote.number == changed.number else quote for quote in known]
        _write(found.folder, quotes)
        return QuotedLawn(found.folder, found.client, changed)


@contextmanager
def _changing(output: Path, lawn: str, number: str | None) -> Iterator[tuple[QuotedLawn, _Writer]]:
    """A quote, held for one writer, and what writes a change of it."""
    _lawn(output, lawn)
    with folder_lock(output):
        found = quote_of(output, lawn, number)
        yield found, _Writer(found)


def _refuse_closed(quote: Quote) -> None:
    if quote.said != "offered":
        raise TurfplanError(Problem(quote.number, phrases.not_open(), quote.said))


def _choice(plan: Plan, rates: Rates, business: Business) -> QuoteChoice:
    operations = load_book(plan.place.region).operations
    machines = {name: one.hires for name, one in operations.items() if one.hires is not None}
    words = words_of(plan)
    told = WordsOfClient(words.text, lambda name: operation_name(plan, name, words))
    ordered = plan.model_copy(update={"tasks": in_order_of_work(plan.tasks)})
    return priced(in_hours_of(ordered, rates.hours), rates, business.client_does, machines, told)


def _lawn(output: Path, lawn: str) -> tuple[Path, Client]:
    clients = {folder.name: (folder, client) for folder, client in clients_in(output).items()}
    if lawn not in clients:
        hint = did_you_mean(lawn, clients)
        raise TurfplanError(Problem(lawn, phrases.no_lawn(), hint=hint))
    return clients[lawn]


def _plan(folder: Path) -> Plan:
    plan = read_plan(folder)
    if plan is None:
        raise TurfplanError(Problem(folder.name, of_clients.not_planned()))
    return plan


def _unbegun_plan(folder: Path) -> Plan:
    """The plan of a lawn of which nothing is done yet."""
    plan = _plan(folder)
    entries = entries_of_lawn(folder)
    said = any(entry.kind in ("done", "delivered") for entry in standing(entries))
    if said or any(task.actual is not None or task.closed == "done" for task in plan.tasks):
        hint = phrases.say_price()
        raise TurfplanError(Problem(folder.name, phrases.work_begun(), hint=hint))
    return plan


def _next_number(output: Path, today: date) -> str:
    """The next number of the year, counted over all lawns, those of the archive too."""
    lawns = {*clients_in(output), *lawn_folders(output / ARCHIVE)}
    year = f"{today.year}-"
    numbers = [quote.number for folder in lawns for quote in read_quotes(folder)]
    numbers += [
        quote.number for folder in lawns for owner in read_owners(folder) for quote in owner.quotes
    ]
    known = [int(number.removeprefix(year)) for number in numbers if number.startswith(year)]
    return f"{year}{max(known, default=0) + 1:04}"


def _write(folder: Path, quotes: Sequence[Quote]) -> None:
    write_kept(folder / QUOTES, KeptQuotes(quotes=tuple(quotes)))
