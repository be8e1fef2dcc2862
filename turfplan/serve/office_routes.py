"""The routes of the office page: each is for the office or for a crew, and to others it is shut."""

from collections.abc import Awaitable, Callable
from typing import Literal

from anyio import to_thread
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from turfplan.app.office_list import OfficeLawn
from turfplan.errors import TurfplanError, problem_message
from turfplan.messages import Words
from turfplan.phrases import office as phrases
from turfplan.phrases import page as of_pages
from turfplan.plain_text import plain_text
from turfplan.serve.crew_pages import callback_tick, crew_page, ways_in
from turfplan.serve.guard import from_here, plain
from turfplan.serve.office_client import (
    client_form,
    client_page,
    letter_answer,
    quote_answer,
    served_lawn,
)
from turfplan.serve.office_desk import Seat, crew_day
from turfplan.serve.office_pages import export_answer, office_page, sheet_answer
from turfplan.serve.office_seats import (
    desk_of,
    password_page,
    refusal,
    seat_of,
    sign_in_page,
    sign_out,
)
from turfplan.serve.pages import notice
from turfplan.serve.visit import Server, Visit

Visited = Callable[[Visit], Awaitable[Response]]
_SeatKind = Literal["office", "crew"]
_SeatAnswer = Callable[[Server, Request, Seat], Response]


def office_routes(server: Server, visited: Visited) -> list[Route]:
    """All routes of the office page; `visited` answers for a lawn's pages."""
    forms, reads = ["GET", "POST"], ["GET"]
    lawn = "/office/lawns/{name}"
    return [
        Route("/sign-in", _awaited(server, sign_in_page), methods=forms),
        Route("/sign-out", _awaited(server, sign_out), methods=["POST"]),
        Route("/password", _awaited(server, password_page), methods=forms),
        Route("/office", _for(server, "office", office_page), methods=reads),
        Route("/office/print/{sheet}", _for(server, "office", _sheet), methods=reads),
        Route("/office/clients.csv", _for(server, "office", export_answer), methods=reads),
        Route(lawn, _awaited(server, _client), methods=forms),
        Route(f"{lawn}/letter", _for(server, "office", _letter), methods=reads),
        Route(f"{lawn}/quotes/{{number}}", _for(server, "office", _quote), methods=reads),
        Route("/crew", _for(server, "crew", crew_page), methods=reads),
        Route("/crew/print/{sheet}", _for(server, "crew", _sheet), methods=reads),
        Route("/crew/callbacks/{name}/{number}", _crew_callback(server), methods=["POST"]),
        Route("/crew/lawns/{name}", _crew_lawn(server, visited), methods=forms),
        Route("/crew/lawns/{name}/{page:path}", _crew_lawn(server, visited), methods=forms),
    ]


def _awaited(
    server: Server, answer: Callable[[Server, Request], Awaitable[Response]]
) -> Callable[[Request], Awaitable[Response]]:
    async def route(request: Request) -> Response:
        return await answer(server, request)

    return route


def _for(
    server: Server, kind: _SeatKind, answer: _SeatAnswer
) -> Callable[[Request], Awaitable[Response]]:
    """A route that opens to one kind of seat alone; what it reads holds up no feed."""

    async def route(request: Request) -> Response:
        return await to_thread.run_sync(_seated, server, request, kind, answer, limiter=server.slow)

    return route


def _crew_callback(server: Server) -> Callable[[Request], Awaitable[Response]]:
    tick = _for(server, "crew", callback_tick)

    async def route(request: Request) -> Response:
        return await tick(request) if from_here(request) else plain(of_pages.foreign_form(), 403)

    return route


def _seated(server: Server, request: Request, kind: _SeatKind, answer: _SeatAnswer) -> Response:
    seat = seat_of(server, request)
    if seat is None or seat.kind != kind:
        return _shut(server, request, seat)
    try:
        return answer(server, request, seat)
    except TurfplanError as error:
        # A file of the business that somebody is just writing: what is wrong is told to the office.
        told = map(problem_message, error.problems) if kind == "office" else ()
        texts = (phrases.not_readable(), *told)
        return notice(request, 503, *texts, words=_words(server))


def _shut(server: Server, request: Request, seat: Seat | None) -> Response:
    if seat is not None and seat.kind == "office":
        return RedirectResponse("/office", 303)
    return refusal(server, request, seat)


def _sheet(server: Server, request: Request, seat: Seat) -> Response:
    """A sheet of the day or the week: a crew has its own alone."""
    name = request.path_params["sheet"]
    # A crew without a name has no sheet: that of nobody is that of all.
    if name not in ("day", "week") or (seat.kind == "crew" and not seat.crew):
        return plain(of_pages.unknown(), 404)
    kind: Literal["day", "week"] = "day" if name == "day" else "week"
    crew = seat.crew if seat.kind == "crew" else request.query_params.get("crew", "")
    return sheet_answer(server, request, kind, crew or None)


def _lawn_named(server: Server, request: Request) -> OfficeLawn | None:
    return desk_of(server).shelf.lawn(request.path_params["name"])


def _no_lawn(server: Server, request: Request) -> Response:
    return notice(request, 404, phrases.no_lawn(), words=_words(server))


def _letter(server: Server, request: Request, seat: Seat) -> Response:
    lawn = _lawn_named(server, request)
    return letter_answer(server, request, seat, lawn) if lawn else _no_lawn(server, request)


def _quote(server: Server, request: Request, seat: Seat) -> Response:
    lawn, number = _lawn_named(server, request), request.path_params["number"]
    if lawn is None:
        return _no_lawn(server, request)
    return quote_answer(server, request, seat, lawn, number)


async def _client(server: Server, request: Request) -> Response:
    """The page of a client, or the answer to a form of it."""

    def page(server: Server, request: Request, seat: Seat) -> Response:
        lawn = _lawn_named(server, request)
        if lawn is None:
            return _no_lawn(server, request)
        if form is not None:
            return client_form(server, request, seat, lawn, form)
        return client_page(server, request, seat, lawn)

    form = None
    if request.method == "POST":
        if not from_here(request):
            return plain(of_pages.foreign_form(), 403)
        async with request.form() as form:
            return await to_thread.run_sync(
                _seated, server, request, "office", page, limiter=server.slow
            )
    return await to_thread.run_sync(_seated, server, request, "office", page, limiter=server.slow)


def _crew_lawn(server: Server, visited: Visited) -> Callable[[Request], Awaitable[Response]]:
    """A page of a lawn of the crew's day; to a crew no other lawn is there."""

    async def route(request: Request) -> Response:
        found = await run_in_threadpool(_crew_visit, server, request)
        return await visited(found) if isinstance(found, Visit) else found

    return route


def _crew_visit(server: Server, request: Request) -> Visit | Response:
    seat = seat_of(server, request)
    if seat is None or seat.kind != "crew":
        return _shut(server, request, seat)
    now = server.settings.clock()
    try:
        lawn = _lawn_named(server, request)
    except TurfplanError:
        return notice(request, 503, phrases.not_readable(), words=_words(server))
    if lawn is None or not crew_day((lawn,), seat, now):
        # The same for a lawn of others and for none: who is a client is not told.
        told = (phrases.not_today(), phrases.not_today_say())
        return notice(request, 404, *told, words=_words(server))
    served = served_lawn(server, lawn)
    if served is None:
        return notice(request, 404, of_pages.no_plan(), words=_words(server))
    words = _words(server)
    home = f"/crew/lawns/{lawn.id}"
    name = plain_text(lawn.name)
    way = ways_in(lawn, words)
    return Visit(server, request, served, "crew", home, seat.label, way=way, name=name)


def _words(server: Server) -> Words:
    return desk_of(server).words()
