"""The served feeds and pages: routes that parse, call one function, and map one error."""

from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager
from dataclasses import replace
from functools import partial

from anyio import to_thread
from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route
from starlette.types import Scope

from turfplan.files.failure_log import log_failure
from turfplan.phrases import page as phrases
from turfplan.serve.assets import robots, script, style, worker
from turfplan.serve.befell import unheeded
from turfplan.serve.calendar_pages import calendar_page, copy_answer
from turfplan.serve.feed_cache import FeedCache
from turfplan.serve.feed_routes import feed_at_hand, feed_of_token
from turfplan.serve.forms import answers_of, day_of_tick, kept_fields, plain_names
from turfplan.serve.guard import Guard, Prepared, from_here, plain
from turfplan.serve.house_pages import (
    addresses_form,
    addresses_page,
    house_of,
    house_page,
    visit_of,
)
from turfplan.serve.lawn_pages import (
    brief_answer,
    delete_lawn,
    everything_answer,
    own_page,
    save_brief,
)
from turfplan.serve.new_pages import new_page
from turfplan.serve.office_client import with_client
from turfplan.serve.office_desk import OfficeDesk
from turfplan.serve.office_routes import office_routes
from turfplan.serve.office_seats import front_page, lawn_seat
from turfplan.serve.owner_pages import (
    claim_page,
    home_page,
    made_page,
    owner_form,
    owner_of,
    phones_form,
)
from turfplan.serve.pages import (
    Known,
    ask_page,
    did_page,
    known_of,
    no_plan_yet,
    notice,
    see_other,
    today_page,
)
from turfplan.serve.pages_at_hand import PagesAtHand
from turfplan.serve.phones import of_addresses
from turfplan.serve.season_pages import season_page, what_if_page
from turfplan.serve.sheet_pages import one_day_page, pdf_answer, printed_page
from turfplan.serve.ticks import WrittenTicks, take_back, write_ticks
from turfplan.serve.visit import Right, Server, ServerSettings, Visit, number_of

Page = Callable[[Visit, Known], Response]
PAGES: dict[str, Page] = {
    "": today_page,
    "season": season_page,
    "did": did_page,
    "calendar": calendar_page,
    "season.ics": copy_answer,
    "print/day": printed_page("day"),
    "print/week": printed_page("week"),
    "day.pdf": pdf_answer("day"),
    "week.pdf": pdf_answer("week"),
}
# What the owner's browser opens besides.
OF_OWNER = {
    **PAGES,
    "made": made_page,
    "lawn": own_page,
    "brief.toml": brief_answer,
    "everything": everything_answer,
}
# What an address of one day's sheets opens.
OF_ONE_DAY = {"": one_day_page} | {name: PAGES[name] for name in ("print/day", "day.pdf")}
# What an address of a house opens of each lawn: addresses are not among it, since nothing of the
# house's is a lawn's own.
OF_HOUSE = {name: page for name, page in PAGES.items() if name not in ("calendar", "season.ics")}
# What a crew opens of a lawn of its day.
OF_CREW = {
    name: PAGES[name] for name in ("", "did", "print/day", "print/week", "day.pdf", "week.pdf")
}
# What the office of a business leaves to the owner, and to the command that keeps what was offered.
_NOT_OF_OFFICE = ("delete_lawn", "withdraw_browser", "open_phones", "close_phones")
# What takes seconds.
_SLOW = ("day.pdf", "week.pdf", "everything")
_FormAnswer = Callable[[Visit, Known, FormData], Response]
# The forms that only the owner has.
_OWNERS: dict[str, _FormAnswer] = {
    "give": owner_form,
    "withdraw": owner_form,
    "withdraw_browser": owner_form,
    "open_phones": phones_form,
    "close_phones": phones_form,
    "save_brief": save_brief,
    "delete_lawn": delete_lawn,
    "what_if": what_if_page,
    "keep_if": what_if_page,
}


def create_app(settings: ServerSettings) -> Guard:
    """The application: feeds, the pages of each lawn, ticks, the owner's pages, the stylesheet;
    everything else is not there.
    """
    office = OfficeDesk(settings.office) if settings.office is not None else None
    server = Server(settings, FeedCache(settings.index), office=office)
    pages, forms = PagesAtHand(), ["GET", "POST"]
    routes = [
        Route("/feed/{token}.ics", _plainly(feed_of_token, server), methods=["GET"]),
        Route("/", _plainly(front_page if office else home_page, server), methods=["GET"]),
        Route("/own/{once}", _awaited(claim_page, server), methods=forms),
        Route("/new", _awaited(new_page, server), methods=["GET"]),
        Route("/new/{question}", _awaited(new_page, server), methods=forms),
        Route("/lawn/{token}", _awaited(partial(_lawn, pages), server), methods=forms),
        Route("/lawn/{token}/{page:path}", _awaited(partial(_lawn, pages), server), methods=forms),
        Route("/house", _awaited(_own_house, server), methods=forms),
        Route("/house/{token}", _awaited(_house, server), methods=["GET"]),
        Route("/house/{token}/{lawn}", _awaited(_house, server), methods=forms),
        Route("/house/{token}/{lawn}/{page:path}", _awaited(_house, server), methods=forms),
        Route("/mine/{lawn}", _awaited(_mine, server), methods=forms),
        Route("/mine/{lawn}/{page:path}", _awaited(_mine, server), methods=forms),
        Route("/static/web.css", style, methods=["GET"]),
        Route("/static/web.js", script, methods=["GET"]),
        Route("/worker.js", worker, methods=["GET"]),
        Route("/robots.txt", robots, methods=["GET"]),
        *(office_routes(server, _visited) if office is not None else ()),
    ]
    handlers = {404: _nothing, 405: _other_method, 400: _bad_form, 500: _failed}
    app = Starlette(routes=routes, exception_handlers=handlers, lifespan=partial(_living, server))
    # A redirect would tell a guess that it was near.
    app.router.redirect_slashes = False

    def ready(scope: Scope) -> Prepared | None:
        return feed_at_hand(server, scope) or pages.find(server, scope)

    if settings.phones is not None:
        narrow = of_addresses(app)
        settings.phones.app = lambda hosts: Guard(narrow, settings.per_minute, hosts, ready)
    return Guard(app, settings.per_minute, settings.hosts, ready)


@asynccontextmanager
async def _living(server: Server, app: Starlette) -> AsyncIterator[None]:
    """While the server lives: what the owner has opened to the home network is open."""
    phones = server.settings.phones
    if phones is None:
        yield
        return
    async with phones.living(server.shelf.phones_kept_open):
        yield


def _plainly(
    answer: Callable[[Server, Request], Response], server: Server
) -> Callable[[Request], Awaitable[Response]]:
    """A route whose answer reads files: it does not hold up the others."""

    async def route(request: Request) -> Response:
        return await run_in_threadpool(answer, server, request)

    return route


def _awaited(
    answer: Callable[[Server, Request], Awaitable[Response]], server: Server
) -> Callable[[Request], Awaitable[Response]]:
    async def route(request: Request) -> Response:
        return await answer(server, request)

    return route


async def _lawn(at_hand: PagesAtHand, server: Server, request: Request) -> Response:
    """A page of the lawn that the address opens, and of no other."""
    text = request.path_params["token"]
    token = await run_in_threadpool(server.shelf.find, text)
    if token is None or token.kind == "feed":
        return notice(request, 404, phrases.unknown(), phrases.whole_address())
    if token.is_gone:
        return notice(request, 410, phrases.gone(), phrases.ask_for_new())
    if token.ended(server.settings.clock()):
        return notice(request, 410, phrases.over(), phrases.ask_for_new())
    right: Right = "tick" if token.kind == "edit" else "see"
    home = f"/lawn/{text}"
    visit = Visit(server, request, token.lawn, right, home, token.label, token, text)
    await run_in_threadpool(server.shelf.was_read, token, visit.now)
    # What the page follows from is looked at before it is made: a change meanwhile is seen.
    state = at_hand.state(server, request, token)
    return at_hand.keep(request, state, await _visited(visit))


async def _mine(server: Server, request: Request) -> Response:
    """A page of a lawn for the owner's browser, or for an office; to others nothing is there."""
    if server.office is not None:
        seat = await lawn_seat(server, request)
        if isinstance(seat, Response):
            return seat
        label, operator, browser = seat.label, not seat.owner, None
    else:
        owner = await run_in_threadpool(owner_of, server, request)
        if owner is None:
            return await run_in_threadpool(home_page, server, request)
        label, operator, browser = owner.label, False, owner.id
    number = number_of(request.path_params["lawn"])
    lawn = None if number is None else await run_in_threadpool(server.shelf.lawn, number)
    if lawn is None:
        return notice(request, 404, phrases.unknown(), phrases.whole_address())
    visit = Visit(server, request, lawn, "own", f"/mine/{number}", label, browser=browser)
    if server.office is not None:
        return await _visited(await run_in_threadpool(with_client, visit, operator=operator))
    several = len(await run_in_threadpool(server.shelf.lawns)) > 1
    return await _visited(replace(visit, house="/") if several else visit)


async def _own_house(server: Server, request: Request) -> Response:
    """The addresses of the house, for the owner's browser; to others nothing is there."""
    owner = await run_in_threadpool(owner_of, server, request)
    house = None if owner is None else await run_in_threadpool(house_of, server)
    if house is None:
        return await run_in_threadpool(home_page, server, request)
    if request.method != "POST":
        return await run_in_threadpool(addresses_page, server, request, house)
    if not from_here(request):
        return plain(phrases.foreign_form(), 403)
    async with request.form() as form:
        said = {name: str(value) for name, value in form.items()}
    return await run_in_threadpool(addresses_form, server, request, house, said)


async def _house(server: Server, request: Request) -> Response:
    """The day of all lawns of a house, or a page of one of them, by an address of the house."""
    text = request.path_params["token"]
    token = await run_in_threadpool(server.shelf.find_house, text)
    if token is None or token.kind == "feed":
        return notice(request, 404, phrases.unknown(), phrases.whole_address())
    if token.is_gone:
        return notice(request, 410, phrases.gone(), phrases.ask_for_new())
    await run_in_threadpool(server.shelf.house_was_read, token, server.settings.clock())
    if "lawn" not in request.path_params:
        return await run_in_threadpool(house_page, server, request, token, text)
    number = number_of(request.path_params["lawn"])
    house = await run_in_threadpool(house_of, server, token.house)
    lawns = () if house is None else house.lawns
    lawn = next((lawn for lawn in lawns if lawn.id == number), None)
    if lawn is None:
        return notice(request, 404, phrases.unknown(), phrases.whole_address())
    return await _visited(visit_of(server, request, lawn, token, text))


async def _visited(visit: Visit) -> Response:
    """The page that is asked for, or the answer to a form of it."""
    request = visit.request
    of_one_day = visit.token is not None and visit.token.day is not None
    by_house = OF_HOUSE if visit.house and visit.right != "own" else PAGES
    by_right = OF_CREW if visit.right == "crew" else by_house
    pages = OF_ONE_DAY if of_one_day else OF_OWNER if visit.right == "own" else by_right
    name = request.path_params.get("page", "")
    page = pages.get(name)
    if page is None:
        return notice(request, 404, phrases.unknown(), phrases.whole_address())
    if request.method == "POST" and (of_one_day or not from_here(request)):
        return plain(phrases.read_only() if of_one_day else phrases.foreign_form(), 403)
    known = await run_in_threadpool(known_of, visit)
    if known is None:
        return notice(request, 404, *no_plan_yet(visit))
    if request.method == "POST":
        async with request.form() as form:
            given = (visit, known, plain_names(form))
            return await to_thread.run_sync(_posted, *given, limiter=visit.server.slow)
    slow = visit.server.slow if name in _SLOW else None
    return await to_thread.run_sync(page, visit, known, limiter=slow)


def _posted(visit: Visit, known: Known, form: FormData) -> Response:
    """The answer to a form of a page: only who may do what it asks."""
    done = str(form.get("do", ""))
    if done == "revoke" and visit.token is not None:
        # Asked on the page itself: the box must be ticked, since nothing brings the address back.
        if form.get("sure") != "yes":
            return calendar_page(visit, known, [phrases.tick_first()])
        visit.server.shelf.revoke(visit.token)
        return notice(visit.request, 410, phrases.gone(), words=known.words)
    if done in _OWNERS:
        if visit.right != "own" or (done in _NOT_OF_OFFICE and not _may_end(visit, done)):
            return plain(phrases.read_only(), 403)
        return _OWNERS[done](visit, known, form)
    if not visit.may_tick:
        return plain(phrases.read_only(), 403)
    if done == "undo":
        return _undone(visit, known, form)
    if done != "replan":
        return _ticked(visit, known, form)
    _replan(visit)
    return see_other(visit.home)


def _may_end(visit: Visit, done: str) -> bool:
    """Whether somebody may take a browser's right, or a lawn away: of a business not on the page,
    for a client's quotes lie beside the lawn."""
    return not visit.operator and not (done == "delete_lawn" and visit.client)


def _ticked(visit: Visit, known: Known, form: FormData) -> Response:
    """A tick, or answers about what is over: written, planned with, and told."""
    day = day_of_tick(form, known.plan, known.day, known.entries)
    answers = answers_of(form, known.plan, day, known.entries, visit.holder)
    if answers.errors:
        told = list(dict.fromkeys(answers.errors.values()))
        if ("job" in form and form.get("do") == "other") or "what" in form:
            return ask_page(visit, known, told, kept_fields(form), sure_helps=False)
        return today_page(visit, known, told)
    sure = form.get("keep") == "yes"
    written = write_ticks(visit.lawn, known.plan, answers.ticks, known.day.today, sure=sure)
    if written.errors or written.asked:
        told = [*written.errors, *written.asked]
        fields, helps = kept_fields(form), written.sure_helps and not written.errors
        return ask_page(visit, known, told, fields, sure_helps=helps)
    return _told(visit, known, written)


def _told(visit: Visit, known: Known, written: WrittenTicks) -> Response:
    """Plans again where something is new, and shows the day with what was written."""
    before = {entry.number for entry in written.known}
    fresh = [entry for entry in written.entries if entry.number not in before]
    idle = [e.number for e in fresh if unheeded(known.plan, e, known.entries) is not None]
    if fresh:
        _replan(visit)
    numbers = {"told": [entry.number for entry in fresh], "known": sorted(before)}
    return see_other(visit.home, **numbers, idle=idle)


def _undone(visit: Visit, known: Known, form: FormData) -> Response:
    if (number := number_of(form.get("number"))) is None:
        return did_page(visit, known, [phrases.bad_form()])
    written = take_back(visit.lawn, number, visit.holder)
    if written.errors:
        return did_page(visit, known, written.errors)
    if not written.known:
        _replan(visit)
    return see_other(f"{visit.home}/did", undone=[number])


def _replan(visit: Visit) -> None:
    """Plans the lawn again; what stands in the way is kept until it is planned."""
    replan = visit.server.settings.replan
    if replan is None:
        return
    if reasons := tuple(replan(visit.lawn)):
        visit.server.failures[visit.lawn.id] = reasons
        log_failure(visit.server.settings.index, visit.lawn.id, len(reasons), visit.now)
    else:
        visit.server.failures.pop(visit.lawn.id, None)
        visit.server.shelf.look_again()


async def _nothing(request: Request, error: Exception) -> Response:
    return plain(phrases.unknown(), 404)


async def _other_method(request: Request, error: Exception) -> Response:
    # What the address does take is said in the header `Allow`.
    return plain(phrases.other_method(), 405, getattr(error, "headers", None))


async def _bad_form(request: Request, error: Exception) -> Response:
    return plain(phrases.bad_form(), 400)


async def _failed(request: Request, error: Exception) -> Response:
    # The error goes on to who serves, as it would without this answer.
    return plain(phrases.failed(), 500)
