"""The page of a client: what must be decided of the lawn, the client's record, quotes, letter,
message, and the client's own read-only address."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from urllib.parse import quote

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from turfplan.app.client_callbacks import callback_number, tick_on_page
from turfplan.app.client_letters import client_letter
from turfplan.app.client_messages import mark_told, message_of_lawn
from turfplan.app.client_quotes import accept_quote, decline_quote, offer_quote, quote_of
from turfplan.app.office_list import OfficeLawn
from turfplan.app.office_needs import NeedKind, needs_of
from turfplan.app.quote_sheets import quote_page
from turfplan.business.business_record import Business
from turfplan.business.quote_record import Quote, QuoteState
from turfplan.calendar_days import WEEKDAYS
from turfplan.errors import TurfplanError
from turfplan.export.sheets.quote_page import choice_name
from turfplan.export.templates import render
from turfplan.files.data_folder import BRIEF, lawns_in
from turfplan.files.index import ServedLawn
from turfplan.files.plan_folder import folder_lock
from turfplan.files.reading.plan import read_plan
from turfplan.message import Day, Message, NamedWeekday, said
from turfplan.messages import Words
from turfplan.phrases import office as phrases
from turfplan.phrases import quotes as of_quotes
from turfplan.plain_text import plain_text
from turfplan.serve.client_addresses import client_address, given_address, withdraw_address
from turfplan.serve.crew_pages import dialled, unbroken
from turfplan.serve.office_desk import OfficeDesk, Seat
from turfplan.serve.office_pages import kind_name, rest_text
from turfplan.serve.office_seats import desk_of
from turfplan.serve.pages import PRIVATE, notice
from turfplan.serve.sheet_pages import own_policy
from turfplan.serve.visit import Server, Visit, number_of

# Where each decision is made: a page of the lawn, or a part of this page.
_WHERE: Mapping[NeedKind, tuple[str, Callable[[], Message]]] = {
    "failed": ("/lawn", phrases.to_lawn),
    "overdue": ("", phrases.to_today),
    "last_day": ("/season", phrases.to_season),
    "question": ("/season", phrases.to_season),
    "quote": ("#quotes", phrases.to_below),
    "message": ("#message", phrases.to_below),
}
_STATES: Mapping[QuoteState, Callable[[], Message]] = {
    "offered": of_quotes.state_offered,
    "accepted": of_quotes.state_accepted,
    "declined": of_quotes.state_declined,
    "run_out": of_quotes.state_run_out,
    "withdrawn": of_quotes.state_withdrawn,
}


def served_lawn(server: Server, lawn: OfficeLawn) -> ServedLawn | None:
    """The lawn as it is served, taken in where it is new; None where it has no plan yet."""
    place = lawn.folder.resolve()
    found = next((one for one in server.shelf.lawns() if one.folder == place), None)
    if found is not None or lawn.glance is None:
        return found
    try:
        return server.shelf.add_lawn(lawn.folder, lawn.folder / BRIEF)
    except TurfplanError:
        # Another folder has this lawn's addresses: what to do is told where it is added by hand.
        return None


def with_client(visit: Visit, *, operator: bool) -> Visit:
    """The visit of a lawn, with whose it is and the page of that client where its business has an
    office; as it is elsewhere."""
    office, lawn = visit.server.office, visit.lawn
    if office is None or lawn.folder.parent != lawns_in(office.root).resolve():
        return visit
    try:
        known = office.shelf.lawn(lawn.folder.name)
    except TurfplanError:
        # The list tells what is wrong with the business; this lawn is there all the same.
        known = None
    name = plain_text(known.name) if known is not None else ""
    client = f"/office/lawns/{quote(lawn.folder.name)}"
    return replace(visit, client=client, name=name, operator=operator)


def client_page(
    server: Server,
    request: Request,
    seat: Seat,
    lawn: OfficeLawn,
    errors: Sequence[Message] = (),
) -> Response:
    """All that an office knows of a client; with `errors`, what is wrong with a form."""
    desk, now = desk_of(server), server.settings.clock()
    words, business, today = desk.words(), desk.business(), lawn.today(now)
    served = served_lawn(server, lawn)
    home = f"/mine/{served.id}" if served is not None else ""
    address = given_address(desk.root, lawn.folder)
    base = server.handed_url(request)
    html = render(
        "web/office/client.html.jinja",
        words,
        seat=seat,
        business=plain_text(business.name) if business is not None else desk.root.name,
        id=lawn.id,
        name=plain_text(lawn.name),
        crew=plain_text(lawn.crew),
        home=home,
        errors=[words.text(one) for one in errors],
        told=[words.text(one) for one in _done(request)],
        paused=rest_text(lawn, today, words),
        callbacks=list(_callbacks(lawn, today, words)),
        needs=list(_needs(lawn, today, home, words)),
        record=list(_record(lawn, words)),
        dialled=dialled(lawn.client.telephone or ""),
        telephone=unbroken(lawn.client.telephone or ""),
        message=_message(lawn, business, today) if lawn.glance is not None else "",
        quotes=[_quote(one, today, words) for one in reversed(lawn.quotes)],
        offers=business is not None and business.prices is not None and lawn.glance is not None,
        address=f"{base}/lawn/{address}" if address is not None else "",
        planned=lawn.glance is not None,
    )
    return HTMLResponse(html, 422 if errors else 200, PRIVATE)


_DONE: Mapping[str, Callable[[], Message]] = {
    "told": phrases.message_marked,
    "withdrawn": phrases.address_gone,
    "ticked": phrases.callback_ticked,
}


def _done(request: Request) -> Iterator[Message]:
    """What a form has just done, as the address after it says."""
    query = request.query_params
    for name, text in _DONE.items():
        if name in query:
            yield text()
    numbered = (
        ("offered", phrases.offered),
        ("accepted", phrases.accepted_now),
        ("declined", phrases.declined_now),
    )
    for name, text_of in numbered:
        if name in query:
            yield text_of(number=plain_text(query[name])[:20])


def _needs(lawn: OfficeLawn, today: date, home: str, words: Words) -> Iterator[dict[str, str]]:
    for need in needs_of(lawn, today):
        where, link = _WHERE[need.kind]
        on_page = where.startswith("#")
        yield {
            "kind": words.text(kind_name(need.kind)),
            "text": words.text(need.text),
            "address": where if on_page else f"{home}{where}" if home else "",
            "link": words.text(link()),
        }


def _callbacks(lawn: OfficeLawn, today: date, words: Words) -> Iterator[dict[str, object]]:
    """What the client waits for; what is due can be ticked off."""
    for job in lawn.glance.jobs if lawn.glance is not None else ():
        number = callback_number(job.task)
        if number is not None:
            day = words.value(Day(job.start, weekday=True))
            yield {"number": number, "title": job.title, "day": day, "due": job.start <= today}


def _record(lawn: OfficeLawn, words: Words) -> Iterator[tuple[str, str]]:
    """The client's record, line by line; what a business keeps in columns of its own as it stands
    there."""
    client = lawn.client
    known = (
        (phrases.address(), client.address),
        (phrases.telephone(), client.telephone),
        (phrases.access(), client.access),
    )
    for name, value in known:
        if value:
            yield words.text(name), plain_text(value)
    if client.barred_weekdays:
        days = (NamedWeekday(WEEKDAYS.index(day)) for day in client.barred_weekdays)
        yield words.text(phrases.barred()), ", ".join(map(words.value, days))
    for head, cell in client.own.items():
        if cell.strip():
            yield plain_text(head), plain_text(cell)
    for item, price in client.prices.items():
        yield words.text(phrases.price_of(item=plain_text(item))), f"{price:g}"


def _message(lawn: OfficeLawn, business: Business | None, today: date) -> str:
    """What the client is to be told now; nothing where there is no news, or while it is paused."""
    if lawn.pause(today) is not None:
        return ""
    try:
        plan = read_plan(lawn.folder)
        if plan is None:
            return ""
        found = message_of_lawn(lawn.folder, plan, lawn.client, business, today)
    except TurfplanError:
        return ""
    return found.text if found is not None else ""


def _quote(one: Quote, today: date, words: Words) -> dict[str, object]:
    state, currency = one.state(today), one.rates.currency
    until = words.value(Day(one.until)) if one.until is not None else ""
    return {
        "number": one.number,
        "line": words.text(
            phrases.quote_line(
                number=one.number,
                state=_STATES[state](),
                total=words.money(one.total, currency),
            )
        ),
        "day": words.value(Day(one.on)),
        "until": until,
        "open": one.said == "offered",
        "over": state == "run_out",
        "choices": [
            {
                "number": number,
                "name": words.text(choice_name(choice)),
                "total": words.money(choice.total, currency),
            }
            for number, choice in enumerate(one.choices, 1)
        ],
    }


def client_form(
    server: Server, request: Request, seat: Seat, lawn: OfficeLawn, form: FormData
) -> Response:
    """The answer to a form of a client's page."""
    answer = _FORMS.get(str(form.get("do", "")))
    if answer is None:
        return client_page(server, request, seat, lawn, [phrases.bad_form()])
    try:
        done = answer(desk_of(server), lawn, form, lawn.today(server.settings.clock()))
    except TurfplanError as error:
        return client_page(server, request, seat, lawn, _told(error))
    if isinstance(done, Message):
        return client_page(server, request, seat, lawn, [done])
    return RedirectResponse(f"/office/lawns/{quote(lawn.id)}{done}", 303, PRIVATE)


def _told(error: TurfplanError) -> list[Message]:
    """What is wrong and what helps."""
    pairs = ((problem.message, problem.hint) for problem in error.problems)
    return [said(one) for pair in pairs for one in pair if one is not None]


def _offered(desk: OfficeDesk, lawn: OfficeLawn, form: FormData, today: date) -> str:
    found = offer_quote(desk.root, lawn.id, today)
    return f"?offered={found.quote.number}#quotes"


def _accepted(desk: OfficeDesk, lawn: OfficeLawn, form: FormData, today: date) -> str | Message:
    number, choice = str(form.get("number", "")), number_of(form.get("choice"))
    if choice is None:
        return phrases.bad_form()
    late = form.get("late") == "yes"
    found = accept_quote(desk.root, lawn.id, today, number, choice, late=late)
    return f"?accepted={found.quote.number}#quotes"


def _declined(desk: OfficeDesk, lawn: OfficeLawn, form: FormData, today: date) -> str:
    found = decline_quote(desk.root, lawn.id, today, str(form.get("number", "")))
    return f"?declined={found.quote.number}#quotes"


def _marked(desk: OfficeDesk, lawn: OfficeLawn, form: FormData, today: date) -> str | Message:
    """Counts a message as told, where it is still the one that was sent."""
    with folder_lock(desk.root):
        plan = read_plan(lawn.folder)
        if plan is None:
            return phrases.never_planned()
        if lawn.pause(today) is not None:
            return phrases.other_message()
        found = message_of_lawn(lawn.folder, plan, lawn.client, desk.business(), today)
        if found is None or found.text != str(form.get("text", "")):
            return phrases.other_message()
        mark_told(found)
    return "?told=1#message"


def _addressed(desk: OfficeDesk, lawn: OfficeLawn, form: FormData, today: date) -> str:
    client_address(desk.root, lawn.folder)
    return "#address"


def _withdrawn(desk: OfficeDesk, lawn: OfficeLawn, form: FormData, today: date) -> str | Message:
    if form.get("sure") != "yes":
        return phrases.tick_first()
    withdraw_address(desk.root, lawn.folder)
    return "?withdrawn=1#address"


def _ticked(desk: OfficeDesk, lawn: OfficeLawn, form: FormData, today: date) -> str | Message:
    """Marks a callback as done that is due; the same tick again is one."""
    number = number_of(form.get("number"))
    jobs = lawn.glance.jobs if lawn.glance is not None else ()
    if number is None:
        return phrases.bad_form()
    if any(callback_number(job.task) == number and job.start > today for job in jobs):
        return phrases.callback_later()
    if not tick_on_page(desk.root, lawn.folder, number, today):
        return phrases.callback_over()
    return "?ticked=1"


_OfficeForm = Callable[[OfficeDesk, OfficeLawn, FormData, date], str | Message]
_FORMS: Mapping[str, _OfficeForm] = {
    "offer": _offered,
    "accept": _accepted,
    "decline": _declined,
    "told": _marked,
    "address": _addressed,
    "withdraw": _withdrawn,
    "callback": _ticked,
}


def letter_answer(server: Server, request: Request, seat: Seat, lawn: OfficeLawn) -> Response:
    """The letter to the client, with the address of the client's page where there is one."""
    desk = desk_of(server)
    address = given_address(desk.root, lawn.folder)
    link = f"{server.handed_url(request)}/lawn/{address}" if address is not None else None
    return _printed(server, request, lambda: client_letter(desk.root, lawn.folder, link, None))


def quote_answer(
    server: Server, request: Request, seat: Seat, lawn: OfficeLawn, number: str
) -> Response:
    """A quote as a page that prints whole."""
    desk, today = desk_of(server), lawn.today(server.settings.clock())
    return _printed(
        server,
        request,
        lambda: quote_page(quote_of(desk.root, lawn.id, number), desk.root, today, None),
    )


def _printed(server: Server, request: Request, made: Callable[[], str]) -> Response:
    try:
        html = made()
    except TurfplanError as error:
        return notice(request, 404, *_told(error), words=desk_of(server).words())
    return HTMLResponse(html, 200, {**PRIVATE, **own_policy(html)})
