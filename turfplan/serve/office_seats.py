"""Signing in at the office page, signing out, and one's own password."""

from datetime import timedelta
from urllib.parse import quote, urlencode

from anyio import to_thread
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from turfplan.app.operators import operator_named, operators_of, set_password
from turfplan.app.password_hash import LEAST, MOST
from turfplan.errors import TurfplanError
from turfplan.export.templates import render
from turfplan.files.data_folder import OPERATORS
from turfplan.message import Message, said
from turfplan.phrases import office as phrases
from turfplan.phrases import page as of_pages
from turfplan.serve.guard import from_here, plain
from turfplan.serve.office_desk import OfficeDesk, Seat, rate_key
from turfplan.serve.office_sessions import SESSION
from turfplan.serve.owner_pages import is_secure, owner_of
from turfplan.serve.pages import PRIVATE, notice
from turfplan.serve.reach import reach_of
from turfplan.serve.visit import Server

SIGN_IN = "/sign-in"
# Where somebody may be sent on to: pages of this office, by their paths alone.
_ONWARD = ("/office", "/mine/", "/crew", "/password")
LONGEST_ONWARD = 200
OPERATORS_COMMAND = "turfplan clients operators"


def desk_of(server: Server) -> OfficeDesk:
    """The office that is served; routes of it are there only where there is one."""
    assert server.office is not None
    return server.office


def _cookie_name(server: Server, request: Request) -> str:
    return f"{'__Host-' if is_secure(server, request) else ''}turfplan-office"


def _secret_of(server: Server, request: Request) -> str:
    return request.cookies.get(_cookie_name(server, request), "")


def seat_of(server: Server, request: Request) -> Seat | None:
    """Who asks: whoever has signed in in this browser, else the owner where it is the owner's."""
    if server.office is None:
        return None
    seat = server.office.seat(_secret_of(server, request), server.settings.clock())
    if seat is not None:
        return seat
    owner = owner_of(server, request)
    return Seat(owner.label, "office", owner=True) if owner is not None else None


def refusal(server: Server, request: Request, seat: Seat | None) -> Response:
    """The answer to somebody to whom a page does not open: to sign in, or that it is for others."""
    words = desk_of(server).words()
    if seat is not None:
        html = render(
            "web/office/refused.html.jinja",
            words,
            title=words.text(phrases.not_yours()),
            text=words.text(phrases.not_yours_say()),
            seat=seat,
        )
        return HTMLResponse(html, 403, PRIVATE)
    if request.method not in ("GET", "HEAD"):
        # No redirect: what waits on a device for a signal would take it for written.
        headers = {"WWW-Authenticate": 'Form realm="turfplan"'}
        return plain(phrases.sign_in_first(), 401, headers)
    onward = urlencode({"next": quote(request.scope["path"], errors="replace")[:LONGEST_ONWARD]})
    return RedirectResponse(f"{SIGN_IN}?{onward}", 303, PRIVATE)


async def lawn_seat(server: Server, request: Request) -> Seat | Response:
    """Who asks for the page of a lawn by the office's right; else the answer to everybody else."""
    seat = await run_in_threadpool(seat_of, server, request)
    if seat is not None and seat.kind == "office":
        return seat
    return await run_in_threadpool(refusal, server, request, seat)


def front_page(server: Server, request: Request) -> Response:
    """Sends on who opens the address of the server: to the list, the day of a crew, or to sign
    in."""
    seat = seat_of(server, request)
    return RedirectResponse(_home(seat) if seat is not None else SIGN_IN, 303, PRIVATE)


def _home(seat: Seat) -> str:
    return "/crew" if seat.kind == "crew" else "/office"


async def sign_in_page(server: Server, request: Request) -> Response:
    """The form for signing in, and the answer to it."""
    if request.method != "POST":
        return await run_in_threadpool(_sign_in_form, server, request)
    if not from_here(request):
        return plain(of_pages.foreign_form(), 403)
    desk, now = desk_of(server), server.settings.clock()
    async with request.form() as form:
        name, password = str(form.get("name", "")), str(form.get("password", ""))
        onward = _onward(str(form.get("next", "")))
    address = request.client.host if request.client is not None else "?"
    key = rate_key(name, address)
    left = desk.rate.wait(*key, now)
    if left is not None:
        minutes = -(-left // timedelta(minutes=1))
        headers = {"Retry-After": str(round(left.total_seconds()))}
        return await run_in_threadpool(
            _sign_in_form, server, request, (phrases.wait(n=minutes),), name, 429, headers
        )
    # What is far too long is no password of anybody, and is not reckoned at length.
    operator = await to_thread.run_sync(
        desk.known, name, password[: MOST + 1], now, limiter=desk.limiter
    )
    if operator is None:
        return await run_in_threadpool(
            _sign_in_form, server, request, (phrases.wrong(),), name, 422
        )
    desk.rate.was_right(*key)
    secret = desk.sessions.begin(operator, now, _secret_of(server, request))
    seat = Seat(operator.name, operator.kind, operator.crew)
    return _with_session(server, request, RedirectResponse(onward or _home(seat), 303), secret)


def _with_session(
    server: Server, request: Request, answer: RedirectResponse, secret: str
) -> Response:
    answer.headers["Cache-Control"] = PRIVATE["Cache-Control"]
    answer.set_cookie(
        _cookie_name(server, request),
        secret,
        max_age=round(SESSION.total_seconds()),
        path="/",
        secure=is_secure(server, request),
        httponly=True,
        samesite="strict",
    )
    return answer


def _onward(path: str) -> str:
    """A path of this office that somebody wanted before signing in; nothing for any other text."""
    fine = path.isascii() and path.isprintable() and len(path) <= LONGEST_ONWARD
    plain_path = fine and not any(sign in path for sign in "\\:?#") and "//" not in path
    return quote(path, safe="/%") if plain_path and path.startswith(_ONWARD) else ""


def _sign_in_form(
    server: Server,
    request: Request,
    told: tuple[Message, ...] = (),
    name: str = "",
    status: int = 200,
    headers: dict[str, str] | None = None,
) -> Response:
    desk = desk_of(server)
    words = desk.words()
    try:
        anybody = desk.has_operators()
    except TurfplanError:
        title = phrases.unreadable()
        more = phrases.unreadable_say(file=OPERATORS, command="turfplan restore")
        return notice(request, 503, title, more, words=words)
    base = server.base_url(request)
    html = render(
        "web/office/sign_in.html.jinja",
        words,
        business=desk.name(),
        errors=[words.text(one) for one in told],
        name=name,
        onward=_onward(request.query_params.get("next", "")),
        anybody=anybody,
        command=f"{OPERATORS_COMMAND} add {desk.root.name}",
        most=MOST,
        in_clear=not base.startswith("https://") and reach_of(base) != "machine",
    )
    return HTMLResponse(html, status, {**PRIVATE, **(headers or {})})


async def sign_out(server: Server, request: Request) -> Response:
    """Ends the session of this browser."""
    if not from_here(request):
        return plain(of_pages.foreign_form(), 403)
    desk_of(server).sessions.end(_secret_of(server, request))
    answer = RedirectResponse(SIGN_IN, 303, PRIVATE)
    answer.delete_cookie(
        _cookie_name(server, request),
        path="/",
        secure=is_secure(server, request),
        httponly=True,
        samesite="strict",
    )
    # What the browser kept of pages goes; ticks that wait for a signal stay.
    answer.headers["Clear-Site-Data"] = '"cache"'
    return answer


async def password_page(server: Server, request: Request) -> Response:
    """One's own password, and the change of it; the owner's browser has none."""
    seat = await run_in_threadpool(seat_of, server, request)
    if seat is None:
        return await run_in_threadpool(refusal, server, request, None)
    if seat.owner:
        return RedirectResponse("/office", 303, PRIVATE)
    if request.method != "POST":
        return await run_in_threadpool(_password_form, server, request, seat)
    if not from_here(request):
        return plain(of_pages.foreign_form(), 403)
    async with request.form() as form:
        return await to_thread.run_sync(
            _set_password, server, request, seat, form, limiter=desk_of(server).limiter
        )


def _set_password(server: Server, request: Request, seat: Seat, form: FormData) -> Response:
    desk, now = desk_of(server), server.settings.clock()
    old, new, again = (str(form.get(name, "")) for name in ("old", "new", "again"))
    address = request.client.host if request.client is not None else "?"
    key = rate_key(seat.label, address)
    left = desk.rate.wait(*key, now)
    if left is not None:
        minutes = -(-left // timedelta(minutes=1))
        return _password_form(server, request, seat, (phrases.wait(n=minutes),), 429)
    if desk.known(seat.label, old[: MOST + 1], now) is None:
        return _password_form(server, request, seat, (phrases.old_wrong(),), 422)
    desk.rate.was_right(*key)
    if new != again:
        return _password_form(server, request, seat, (phrases.not_same(),), 422)
    try:
        set_password(desk.root, seat.label, new)
    except TurfplanError as error:
        told = tuple(said(problem.message) for problem in error.problems)
        return _password_form(server, request, seat, told, 422)
    operator = operator_named(operators_of(desk.root), seat.label)
    if operator is None:
        return refusal(server, request, None)
    secret = desk.sessions.begin(operator, now, _secret_of(server, request))
    answer = RedirectResponse("/password?saved=1", 303)
    return _with_session(server, request, answer, secret)


def _password_form(
    server: Server,
    request: Request,
    seat: Seat,
    told: tuple[Message, ...] = (),
    status: int = 200,
) -> Response:
    words = desk_of(server).words()
    html = render(
        "web/office/password.html.jinja",
        words,
        seat=seat,
        errors=[words.text(one) for one in told],
        saved="saved" in request.query_params,
        least=LEAST,
        most=MOST,
    )
    return HTMLResponse(html, status, PRIVATE)
