"""`turfplan clients quote` and `visit`: what is offered, and lawns that are to be measured."""

import json
from datetime import date
from decimal import Decimal, InvalidOperation
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from turfplan.cli.client_files import GroupOption
from turfplan.cli.client_lists import Folder, day_of, print_table
from turfplan.cli.printing import PaperSize, paper_named, write_page
from turfplan.cli.speech import fail, say, words_of_user

if TYPE_CHECKING:
    from collections.abc import Sequence

    from turfplan.app.client_quotes import QuotedLawn
    from turfplan.business.groups import ClientGroup
    from turfplan.business.quote_record import QuoteState
    from turfplan.message import Message
    from turfplan.messages import Words


class QuoteAction(StrEnum):
    """What is done with a quote."""

    OFFER = "offer"
    ACCEPT = "accept"
    DECLINE = "decline"
    CHANGE = "change"
    PRINT = "print"
    UNDO = "undo"


def quote_client(
    ctx: typer.Context,
    action: Annotated[QuoteAction, typer.Argument(help="What is done with a quote.")],
    folder: Folder,
    lawns: Annotated[
        list[str] | None,
        typer.Argument(metavar="[LAWN]...", help="The lawns, by their folders' names."),
    ] = None,
    group: GroupOption = None,
    every: Annotated[
        bool, typer.Option("--all", help="All lawns; with offer those without a quote.")
    ] = False,
    number: Annotated[
        str | None, typer.Option("--number", metavar="NUMBER", help="Which; else the latest.")
    ] = None,
    choice: Annotated[
        list[str] | None,
        typer.Option(
            "--choice",
            metavar="CHOICE",
            help="With offer a further choice in place of those of business.toml, [NAME:] "
            "KEY=VALUE of the brief (more with a semicolon between); with accept the number of "
            "the choice that was taken.",
        ),
    ] = None,
    alone: Annotated[
        bool, typer.Option("--alone", help="Offer the plan alone, without further choices.")
    ] = False,
    printed: Annotated[
        bool, typer.Option("--print", help="Write the page of each quote that is offered.")
    ] = False,
    note: Annotated[str, typer.Option("--note", metavar="TEXT", help="What is changed.")] = "",
    price: Annotated[
        str | None,
        typer.Option("--price", metavar="SUM", help="Of the change before tax; else by the plan."),
    ] = None,
    output: Annotated[
        Path | None,
        typer.Option("-o", "--output", metavar="FILE", help="Where to; else the lawn's folder."),
    ] = None,
    pdf: Annotated[bool, typer.Option("--pdf", help="A PDF beside it.")] = False,
    paper: Annotated[PaperSize | None, typer.Option("--paper", help="Letter or A4.")] = None,
    today: Annotated[
        str | None, typer.Option("--today", metavar="DAY", help="As if it were this day.")
    ] = None,
    yes: Annotated[bool, typer.Option("--yes", help="Accept also what has run out.")] = False,
) -> None:
    """Offer the plans of lawns at the prices of business.toml, mark offers as accepted or declined,
    add a change to one, print them, or take back what was last said; nothing is sent.

    Example: turfplan clients quote offer data ash --choice "thin: leveling.depth=0.25 in"
    """
    from turfplan.app import client_quotes as quotes
    from turfplan.business.groups import group_of
    from turfplan.phrases import quotes as phrases

    now, words, names = day_of(today, "--today"), words_of_user(), tuple(lawns or ())
    if not (names or group or every):
        fail(ctx, phrases.name_lawns())
    wanted = group_of(group)
    match action:
        case QuoteAction.OFFER:
            changes = tuple(choice) if choice else () if alone else None
            found = _offered(folder, names, wanted, now, changes, words)
        case QuoteAction.CHANGE:
            if not note.strip():
                fail(ctx, phrases.say_what())
            if len(names) != 1:
                fail(ctx, phrases.one_lawn())
            sum_ = _sum(price)
            _tell_change(quotes.change_quote(folder, names[0], now, note, number, sum_), words)
            return
        case QuoteAction.PRINT:
            meant = quotes.quoted_lawns(folder, names, wanted)
            found = [quotes.quote_of(folder, lawn, number) for lawn in meant]
        case _:
            place = _place(choice or [])
            for lawn in quotes.quoted_lawns(folder, names, wanted):
                _settle(action, folder, lawn, now, number, place, words, late=yes)
            return
    if printed or action is QuoteAction.PRINT:
        size = paper_named(paper)
        for one in found:
            _write(one, folder, output, now, size, pdf=pdf)


def _offered(
    folder: Path,
    names: "Sequence[str]",
    group: "ClientGroup | None",
    now: date,
    changes: "Sequence[str] | None",
    words: "Words",
) -> "list[QuotedLawn]":
    """Offer lawns, and tell it: one in full, several in a line each."""
    from turfplan.app import client_quotes as quotes
    from turfplan.phrases import quotes as phrases

    meant, known = quotes.lawns_to_offer(folder, names, group)
    if known:
        say(words, phrases.has_quotes(n=known), aside=True)
    found = []
    for lawn in meant:
        one = quotes.offer_quote(folder, lawn, now, changes)
        found.append(one)
        for note in one.notes:
            say(words, note, aside=True)
    if len(names) == 1:
        _tell_offer(found[0], words)
    elif found:
        _tell_offers(found, words)
    return found


def _settle(
    action: QuoteAction,
    folder: Path,
    lawn: str,
    now: date,
    number: str | None,
    place: int,
    words: "Words",
    *,
    late: bool,
) -> None:
    """Accept or decline a quote, or take back what was last said of it, and tell it."""
    from turfplan.app import client_quotes as quotes
    from turfplan.phrases import quotes as phrases

    if action is QuoteAction.ACCEPT:
        quote = quotes.accept_quote(folder, lawn, now, number, place, late=late).quote
        total = words.money(quote.total, quote.rates.currency)
        say(words, phrases.accepted(number=quote.number, total=total))
        if quote.choices[place - 1].changes:
            command = f"turfplan clients plan {folder}"
            say(words, phrases.brief_changed(command=command), aside=True)
        return
    if action is QuoteAction.DECLINE:
        quote = quotes.decline_quote(folder, lawn, now, number).quote
        say(words, phrases.declined(number=quote.number))
        return
    before = quotes.quote_of(folder, lawn, number).quote
    quote = quotes.undo_quote(folder, lawn, now, number).quote
    total = words.money(quote.total, quote.rates.currency)
    if quote.said == "withdrawn":
        say(words, phrases.offer_gone(number=quote.number))
    elif len(before.later) > len(quote.later):
        say(words, phrases.change_gone(number=quote.number, total=total))
    else:
        state = words.text(state_name(quote.state(now)))
        say(words, phrases.taken_back(number=quote.number, state=state))
        if before.replaced:
            command = f"turfplan clients plan {folder}"
            say(words, phrases.brief_changed(command=command), aside=True)


def _place(chosen: "Sequence[str]") -> int:
    """The choice that was taken, the first where none is said."""
    from turfplan.errors import Problem, TurfplanError
    from turfplan.phrases import quotes as phrases

    if not chosen:
        return 1
    try:
        return int(chosen[-1])
    except ValueError:
        raise TurfplanError(Problem("--choice", phrases.which_choice(), chosen[-1])) from None


def _sum(price: str | None) -> Decimal | None:
    from turfplan.errors import Problem, TurfplanError
    from turfplan.phrases import quotes as phrases

    if price is None:
        return None
    try:
        found = Decimal(price)
    except InvalidOperation:
        found = Decimal("NaN")
    if not found.is_finite():
        fault = Problem("--price", phrases.not_a_price(), repr(price), phrases.such_a_price())
        raise TurfplanError(fault)
    return found


def _tell_offer(found: "QuotedLawn", words: "Words") -> None:
    from turfplan.export.sheets.quote_page import choice_name
    from turfplan.phrases import quotes as phrases
    from turfplan.plain_text import plain_text

    quote = found.quote
    first, *others = quote.choices
    total, client = words.money(first.total, quote.rates.currency), plain_text(found.name)
    say(words, phrases.offered(number=quote.number, client=client, total=total))
    for one in others:
        total = words.money(one.total, quote.rates.currency)
        say(words, phrases.other_choice(choice=words.text(choice_name(one)), total=total))
    if first.unpriced:
        say(words, phrases.not_priced(n=len(first.unpriced)), aside=True)


def _tell_offers(found: "Sequence[QuotedLawn]", words: "Words") -> None:
    """Tell many offers, a line each with the totals of its choices."""
    from turfplan.export.sheets.quote_page import choice_name
    from turfplan.message import listed
    from turfplan.phrases import clients as of_clients
    from turfplan.phrases import quotes as phrases
    from turfplan.plain_text import plain_text

    heads = (
        of_clients.head_lawn(),
        of_clients.head_name(),
        phrases.head_number(),
        phrases.head_choices(),
    )
    rows = []
    for one in found:
        totals = [
            phrases.choice_total(
                choice=words.text(choice_name(choice)),
                total=words.money(choice.total, one.quote.rates.currency),
            )
            for choice in one.quote.choices
        ]
        shown = words.value(listed(totals, "semicolon"))
        rows.append((one.folder.name, plain_text(one.name), one.quote.number, shown))
    print_table((tuple(map(words.text, heads)), *rows))
    if priceless := sum(bool(one.quote.choices[0].unpriced) for one in found):
        say(words, phrases.priceless(n=priceless), aside=True)


def _tell_change(found: "QuotedLawn", words: "Words") -> None:
    from turfplan.phrases import quotes as phrases

    quote, last = found.quote, found.quote.later[-1]
    price = words.money(last.total, quote.rates.currency)
    total = words.money(quote.total, quote.rates.currency)
    told = phrases.changed(number=quote.number, change=last.number, price=price, total=total)
    say(words, told)


def _write(
    found: "QuotedLawn",
    folder: Path,
    output: Path | None,
    now: date,
    paper: str | None,
    *,
    pdf: bool,
) -> None:
    from turfplan.app.quote_sheets import quote_page
    from turfplan.app.sheets import is_page

    html = quote_page(found, folder, now, paper)
    name = f"quote-{found.quote.number}.html"
    target = (output or found.folder) / name if output is None or not is_page(output) else output
    write_page(html, target, pdf=pdf)


def state_name(state: "QuoteState") -> "Message":
    """What a state of a quote is called."""
    from turfplan.phrases import quotes as phrases

    match state:
        case "offered":
            return phrases.state_offered()
        case "accepted":
            return phrases.state_accepted()
        case "declined":
            return phrases.state_declined()
        case "run_out":
            return phrases.state_run_out()
        case "withdrawn":
            return phrases.state_withdrawn()


def print_quotes(
    folder: Path, group: str | None, now: date, words: "Words", *, as_json: bool
) -> None:
    """Print all quotes with their states, as a table or one object."""
    from turfplan.app.client_quotes import list_quotes
    from turfplan.business.groups import group_of
    from turfplan.phrases import quotes as phrases
    from turfplan.plain_text import plain_text

    found = list_quotes(folder, group_of(group))
    if as_json:
        rows = [
            {
                "id": one.folder.name,
                "state": one.quote.state(now),
                "total": str(one.quote.total),
                **one.quote.model_dump(mode="json"),
            }
            for one in found
        ]
        print(json.dumps({"schema": 1, "quotes": rows}, indent=1, ensure_ascii=False))
        return
    if not found:
        say(words, phrases.none(), aside=True)
        return
    heads = tuple(
        words.text(head)
        for head in (
            phrases.head_number(),
            phrases.head_state(),
            phrases.head_day(),
            phrases.head_until(),
            phrases.head_total(),
        )
    )
    rows_ = [
        (
            one.quote.number,
            words.text(state_name(one.quote.state(now))),
            (one.quote.said_on or one.quote.on).isoformat(),
            one.quote.until.isoformat() if one.quote.until is not None else "",
            words.money(one.quote.total, one.quote.rates.currency),
            f"{one.folder.name}  {plain_text(one.name)}",
        )
        for one in found
    ]
    print_table(((*heads, ""), *rows_))


def visit_clients(
    folder: Folder,
    group: GroupOption = None,
    pdf: Annotated[bool, typer.Option("--pdf", help="A PDF beside each.")] = False,
    paper: Annotated[PaperSize | None, typer.Option("--paper", help="Letter or A4.")] = None,
) -> None:
    """Write a measuring sheet into the folder of each lawn that has no survey yet.

    Example: turfplan clients visit data --group crew=north
    """
    from turfplan.app.lawn_measuring import measuring_sheet
    from turfplan.app.quote_sheets import lawns_to_measure
    from turfplan.business.groups import group_of
    from turfplan.files.data_folder import BRIEF
    from turfplan.message import as_written
    from turfplan.phrases import quotes as phrases
    from turfplan.plain_text import plain_text

    words = words_of_user()
    lawns = lawns_to_measure(folder, group_of(group))
    size = paper_named(paper)
    for lawn, named in lawns:
        html, name = measuring_sheet(
            lawn / BRIEF,
            large=False,
            paper=size,
            tell=lambda text: say(words, as_written(text), aside=True),
            of=named,
        )
        write_page(html, lawn / name, pdf=pdf, beside=f"\t{plain_text(named)}")
    told = phrases.visits(n=len(lawns)) if lawns else phrases.all_measured()
    say(words, told, aside=True)
