"""The served feeds and pages: routes that parse, call one function, and map one error."""

from collections.abc import Awaitable, Callable

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.routing import Route

from turfplan.export.templates import stylesheet
from turfplan.phrases import page as phrases
from turfplan.serve.feed import feed_answer
from turfplan.serve.feed_cache import FeedCache
from turfplan.serve.forms import answers_of, kept_fields
from turfplan.serve.guard import Guard, from_here, plain
from turfplan.serve.new_pages import new_page
from turfplan.serve.owner_pages import claim_page, home_page, owner_form, owner_of
from turfplan.serve.pages import (
    Known,
    ask_page,
    calendar_page,
    did_page,
    known_of,
    notice,
    see_other,
    today_page,
)
from turfplan.serve.ticks import WrittenTicks, take_back, write_ticks
from turfplan.serve.visit import Right, Server, ServerSettings, Visit, number_of

Page = Callable[[Visit, Known], Response]
PAGES: dict[str, Page] = {"": today_page, "did": did_page, "calendar": calendar_page}
_OWNERS = ("give", "withdraw", "withdraw_browser")


def create_app(settings: ServerSettings) -> Guard:
    """The application: feeds, the pages of each lawn, ticks, the owner's pages, the stylesheet;
    everything else is not there.
    """
    server = Server(settings, FeedCache(settings.index))
    forms = ["GET", "POST"]
    routes = [
        Route("/", _plainly(home_page, server), methods=["GET"]),
        Route("/own/{once}", _awaited(claim_page, server), methods=forms),
        Route("/new", _awaited(new_page, server), methods=["GET"]),
        Route("/new/{question}", _awaited(new_page, server), methods=forms),
        Route("/feed/{token}.ics", _plainly(_feed, server), methods=["GET"]),
        Route("/lawn/{token}", _awaited(_lawn, server), methods=forms),
        Route("/lawn/{token}/{page:path}", _awaited(_lawn, server), methods=forms),
        Route("/mine/{lawn}", _awaited(_mine, server), methods=forms),
        Route("/mine/{lawn}/{page:path}", _awaited(_mine, server), methods=forms),
        Route("/static/web.css", _style, methods=["GET"]),
        Route("/static/web.js", _script, methods=["GET"]),
        Route("/robots.txt", _robots, methods=["GET"]),
    ]
    handlers = {404: _nothing, 405: _other_method, 400: _bad_form, 500: _failed}
    app = Starlette(routes=routes, exception_handlers=handlers)
    # A redirect would tell a guess that it was near.
    app.router.redirect_slashes = False
    return Guard(app, settings.per_minute, settings.hosts)


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


def _feed(server: Server, request: Request) -> Response:
    """The calendar of the lawn that the token opens."""
    shelf, settings = server.shelf, server.settings
    token, now = shelf.find(request.path_params["token"]), settings.clock()
    if token is None or token.kind != "feed":
        return plain(phrases.unknown(), 404)
    if token.is_gone or token.ended(now):
        return plain(phrases.gone(), 410)
    found = shelf.feed(token.lawn)
    if found is None:
        return plain(phrases.no_plan(), 404)
    shelf.was_read(token, now)
    headers = {
        name: request.headers[name]
        for name in ("if-none-match", "if-modified-since", "accept-encoding")
        if name in request.headers
    }
    answer = feed_answer(
        found.published.content,
        found.published.at,
        headers,
        head=request.method == "HEAD",
        compress=settings.compress,
        etag=found.etag,
        zipped_form=lambda: found.zipped,
    )
    return Response(answer.body, answer.status, dict(answer.headers))


async def _lawn(server: Server, request: Request) -> Response:
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
    return await _visited(visit)


async def _mine(server: Server, request: Request) -> Response:
    """A page of a lawn for the owner's browser; to others nothing is there."""
    owner = await run_in_threadpool(owner_of, server, request)
    if owner is None:
        return await run_in_threadpool(home_page, server, request)
    number = number_of(request.path_params["lawn"])
    lawn = None if number is None else await run_in_threadpool(server.shelf.lawn, number)
    if lawn is None:
        return notice(request, 404, phrases.unknown(), phrases.whole_address())
    return await _visited(Visit(server, request, lawn, "own", f"/mine/{number}", owner.label))


async def _visited(visit: Visit) -> Response:
    """The page that is asked for, or the answer to a form of it."""
    request = visit.request
    page = PAGES.get(request.path_params.get("page", ""))
    if page is None:
        return notice(request, 404, phrases.unknown(), phrases.whole_address())
    if request.method == "POST" and not from_here(request):
        return plain(phrases.foreign_form(), 403)
    form = await request.form() if request.method == "POST" else None
    known = await run_in_threadpool(known_of, visit)
    if known is None:
        return notice(request, 404, phrases.no_plan(), phrases.plan_first())
    if form is None:
        return await run_in_threadpool(page, visit, known)
    return await run_in_threadpool(_posted, visit, known, form)


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
        if visit.right != "own":
            return plain(phrases.read_only(), 403)
        return owner_form(visit, known, form)
    if not visit.may_tick:
        return plain(phrases.read_only(), 403)
    if done == "undo":
        return _undone(visit, known, form)
    if done == "replan":
        _replan(visit)
        return see_other(visit.home)
    return _ticked(visit, known, form)


def _ticked(visit: Visit, known: Known, form: FormData) -> Response:
    """A tick, or answers about what is over: written, planned with, and told."""
    answers = answers_of(form, known.plan, known.day, known.entries, visit.holder)
    if answers.errors:
        told = list(dict.fromkeys(answers.errors.values()))
        if "job" in form and form.get("do") == "other":
            return ask_page(visit, known, told, kept_fields(form), sure_helps=False)
        return today_page(visit, known, told)
    sure = form.get("keep") == "yes"
    written = write_ticks(visit.lawn, known.plan, answers.ticks, known.day.today, sure=sure)
    if written.errors or written.asked:
        told = [*written.errors, *written.asked]
        fields, helps = kept_fields(form), written.sure_helps and not written.errors
        return ask_page(visit, known, told, fields, sure_helps=helps)
    return _told(visit, written)


def _told(visit: Visit, written: WrittenTicks) -> Response:
    """Plans again where something is new, and shows the day with what was written."""
    known = {entry.number for entry in written.known}
    fresh = [entry.number for entry in written.entries if entry.number not in known]
    if fresh:
        _replan(visit)
    return see_other(visit.home, told=fresh, known=sorted(known))


def _undone(visit: Visit, known: Known, form: FormData) -> Response:
    number = number_of(form.get("number"))
    if number is None:
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
    reasons = tuple(replan(visit.lawn))
    if reasons:
        visit.server.failures[visit.lawn.id] = reasons
    else:
        visit.server.failures.pop(visit.lawn.id, None)


async def _style(request: Request) -> Response:
    return _asset("web.css", "text/css")


async def _script(request: Request) -> Response:
    return _asset("web.js", "text/javascript")


def _asset(name: str, kind: str) -> Response:
    headers = {"Cache-Control": "public, max-age=3600"}
    return Response(str(stylesheet(name)), media_type=kind, headers=headers)


async def _robots(request: Request) -> Response:
    return PlainTextResponse("User-agent: *\nDisallow: /lawn/\nDisallow: /own/\n")


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
